//! Records: the one declaration from which struct, reading, inheritance, heads, hints, starter and reference come.
//!
//! In: `record!` with fields, flags, examples and help. Out: a struct of slots and its field table.
//! May not know: what any record is for.

use super::field::AnySlot;
use super::tree::Entry;
use super::{Field, FieldInfo, Node, Reader, Shape, Slot, Spelling, Table, Taking, Tree, codes};
use crate::findings::{Finding, Papers, Place, Subject};
use crate::measure::System;

/// The field table of a record.
#[derive(Debug)]
pub struct RecordInfo {
    /// What one of them is called.
    pub name: &'static str,
    /// What it is, in a line or two.
    pub help: &'static str,
    /// Whether `standing`, `by` and `seen` may be written in it.
    pub stands: bool,
    /// The fields by which a record of a list is called, with a comma between two; none where it has no name of its own.
    pub called: &'static [&'static str],
    /// The field that a word standing in place of the whole record gives; none where it must be a table.
    pub short: Option<&'static str>,
    /// Its fields, in order.
    pub fields: &'static [FieldInfo],
}

impl RecordInfo {
    /// Whether any field may come from a kind. A record without one goes over whole or not at all.
    pub fn by_key(&self) -> bool {
        self.fields.iter().any(|field| field.inherits)
    }

    /// The papers that any of its fields holds: what a key nobody knows may have meant.
    pub fn blocks(&self) -> Papers {
        self.fields.iter().fold(Papers::NONE, |held, field| held.with(field.blocks))
    }

    /// The keys that say how well the values are known, unless the record has fields of these names.
    pub(super) fn standing_keys(&self) -> impl Iterator<Item = &'static str> + '_ {
        let keys: &[&'static str] = if self.stands { &["standing", "by", "seen"] } else { &[] };
        keys.iter().copied().filter(|key| self.fields.iter().all(|field| field.name != *key))
    }

    /// Every legal key.
    pub fn keys(&self) -> Vec<&'static str> {
        self.fields.iter().map(|field| field.name).chain(self.standing_keys()).collect()
    }
}

/// A record made by [`record!`](crate::input::record).
pub trait Record: Field + Default {
    /// What one of them is called.
    const NAME: &'static str;

    /// Its field table.
    fn info() -> &'static RecordInfo;

    /// The rows of its field table.
    fn fields() -> &'static [FieldInfo] {
        Self::info().fields
    }

    /// Reads a table. Every fault is reported; a record comes of it in any case.
    fn read_table(table: &Table, reader: &mut Reader<'_>) -> Self;

    /// Where its table stands; nothing for one that was made by inheritance alone.
    fn written_at(&self) -> Option<&Place>;

    /// Its slots, in order of fields.
    fn slots(&self) -> Vec<&dyn AnySlot>;

    /// Its slots, in order of fields, to change them.
    fn slots_mut(&mut self) -> Vec<&mut dyn AnySlot>;

    /// Fills absent fields from another record of the same sort.
    fn take_from(&mut self, from: &Self, how: Taking<'_>);

    /// Puts a change on top: whatever it gives, undoes or has wrong stands instead, key by key. A list replaces.
    fn overlay_with(&mut self, change: &Self);

    /// Fills absent fields that may be inherited from a kind, noting its name.
    fn inherit(&mut self, from: &Self, through: &str) {
        self.take_from(from, Taking { through: Some(through), all: false });
    }

    /// Fills every absent field from another record.
    fn fill_from(&mut self, from: &Self) {
        self.take_from(from, Taking { through: None, all: true });
    }

    /// Makes every absent field that a kind may give bad, because the kind is unknown; nothing more is said about them.
    fn spoil_inherited(&mut self, place: &Place) {
        for (info, slot) in Self::fields().iter().zip(self.slots_mut()) {
            if info.inherits {
                slot.spoil(place);
            }
        }
    }

    /// Path and value of everything given, in order of fields: the same for the same content, however it was written.
    #[cfg(test)]
    fn values(&self) -> Vec<(String, String)> {
        let mut out = Vec::new();
        dump(self, "", Spelling::Exact, &mut out);
        out
    }

    /// The same paths with values as a person reads them.
    fn readable(&self, system: System) -> Vec<(String, String)> {
        let mut out = Vec::new();
        dump(self, "", Spelling::Readable(system), &mut out);
        out
    }
}

/// Declares a record: a struct whose fields are all [`Slot`]s, with its field table.
///
/// ```text
/// record! {
///     /// Help of the record.
///     pub struct LeafEntry as "leaf" stands {
///         /// Help of the field.
///         width: Length, inherits, ["1 ft" to "10 ft"], "3 ft 0 in";
///     }
/// }
/// ```
/// After the type come flags (`inherits`, `needed`, `undoable`, `blocks(bid, recap)`), perhaps a range, and an example as
/// typed. A key is the field's name. With `stands` the table may carry `standing`, `by` and `seen`, which all its values
/// get. `blocks` names the papers that cannot be made while the field is needed and absent, or bad; beside the record's
/// name it speaks for every field that has none of its own, and where nothing is said every paper is held.
///
/// `refers(item)` says that the value is the name of an entry of another table, `refers(party, none)` that a word stands
/// for no entry: [`References`](crate::input::References) reports a name that is not there. `called(id)` beside the
/// record's name says by which fields a record of a list is called in findings.
///
/// `=> Leaf` after the record's name declares the checked type beside the typed one; see [`checked!`](crate::input::checked).
macro_rules! record {
    (
        $(#[doc = $about:literal])*
        $vis:vis struct $record:ident as $name:literal $($mode:ident $(($($shared:tt)*))?)*
            => $(#[$attribute:meta])* $checked:ident $([$($at:tt)*])? { $($body:tt)* }
        $(with { $($by_hand:tt)* })?
    ) => {
        $crate::input::record! {
            $(#[doc = $about])*
            $vis struct $record as $name $($mode $(($($shared)*))?)* { $($body)* }
        }

        $crate::input::checked! {
            [$(#[doc = $about])* $(#[$attribute])*]
            $vis struct $checked from $record [$($($at)*)?] [$($($by_hand)*)?] { $($body)* }
        }
    };
    (
        $(#[doc = $about:literal])*
        $vis:vis struct $record:ident as $name:literal $($mode:ident $(($($shared:tt)*))?)* {
            $(
                $(#[doc = $help:literal])*
                $field:ident $(as $checked_field:ident)? : $kind:ty,
                    $($flag:ident $(($($inside:tt)*))?)* $(,)? $([$low:literal to $high:literal],)? $example:literal;
            )*
        }
    ) => {
        $(#[doc = $about])*
        #[derive(Clone, Debug, Default)]
        $vis struct $record {
            /// Where its table stands; nothing for one that was made by inheritance alone.
            pub written_at: Option<$crate::findings::Place>,
            $(
                $(#[doc = $help])*
                pub $field: $crate::input::Slot<$kind>,
            )*
        }

        impl $crate::input::Record for $record {
            const NAME: &'static str = $name;

            fn info() -> &'static $crate::input::RecordInfo {
                use $crate::input::{FieldInfo, RecordInfo, naming};
                const _: () = {
                    $($(assert!(naming::has(naming::FLAGS, stringify!($flag)), "a field has no such flag");)*)*
                    $(assert!(naming::has(naming::MODES, stringify!($mode)), "a record has no such flag");)*
                    $(assert!(naming::absence_is_plain(&[$(stringify!($flag)),*]), "what a kind may give is missing nowhere");)*
                };
                const MODES: &[naming::Flag] = &[$((stringify!($mode), &[$($(stringify!($shared)),*)?])),*];
                static INFO: RecordInfo = RecordInfo {
                    name: $name,
                    help: concat!($($about),*).trim_ascii(),
                    stands: naming::flagged(MODES, "stands"),
                    called: match naming::inside(MODES, "called") {
                        Some(fields) => fields,
                        None => &[],
                    },
                    short: match naming::inside(MODES, "short") {
                        Some([field]) => Some(field),
                        _ => None,
                    },
                    fields: &[$({
                        const RAW: &str = stringify!($field);
                        const KEY: [u8; naming::key_length(RAW)] = naming::key(RAW);
                        const FLAGS: &[naming::Flag] = &[$((stringify!($flag), &[$($(stringify!($inside)),*)?])),*];
                        FieldInfo {
                            name: match std::str::from_utf8(&KEY) {
                                Ok(key) => key,
                                Err(_) => RAW,
                            },
                            shape: <$kind as $crate::input::Field>::shape,
                            inherits: naming::flagged(FLAGS, "inherits"),
                            needed: naming::flagged(FLAGS, "needed"),
                            undoable: naming::flagged(FLAGS, "undoable"),
                            blocks: naming::blocks(FLAGS, MODES),
                            refers: naming::inside(FLAGS, "refers"),
                            within: naming::range(&[$(($low, $high))?]),
                            example: $example,
                            help: concat!($($help),*).trim_ascii(),
                        }
                    }),*],
                };
                &INFO
            }

            fn read_table(table: &$crate::input::Table, reader: &mut $crate::input::Reader<'_>) -> Self {
                let mut walk = $crate::input::Walk::open(table, Self::info(), reader);
                let record = $record { written_at: Some(walk.place()), $($field: walk.next()),* };
                walk.close();
                record
            }

            fn written_at(&self) -> Option<&$crate::findings::Place> {
                self.written_at.as_ref()
            }

            fn slots(&self) -> Vec<&dyn $crate::input::AnySlot> {
                vec![$(&self.$field),*]
            }

            fn slots_mut(&mut self) -> Vec<&mut dyn $crate::input::AnySlot> {
                vec![$(&mut self.$field),*]
            }

            fn take_from(&mut self, from: &Self, how: $crate::input::Taking<'_>) {
                let mut fields = Self::fields().iter();
                $(
                    if fields.next().is_some_and(|field| how.all || field.inherits) {
                        <$kind as $crate::input::Field>::take(&mut self.$field, &from.$field, how);
                    }
                )*
            }

            fn overlay_with(&mut self, change: &Self) {
                $(<$kind as $crate::input::Field>::overlay(&mut self.$field, &change.$field);)*
            }
        }

        impl $crate::input::Field for $record {
            fn shape() -> $crate::input::Shape {
                $crate::input::record::shape::<Self>()
            }

            fn read_node(
                node: &$crate::input::Node,
                info: &$crate::input::FieldInfo,
                reader: &mut $crate::input::Reader<'_>,
            ) -> Option<Self> {
                $crate::input::record::read(node, info, reader)
            }

            fn take(
                slot: &mut $crate::input::Slot<Self>,
                from: &$crate::input::Slot<Self>,
                how: $crate::input::Taking<'_>,
            ) {
                $crate::input::record::take(slot, from, how);
            }

            fn overlay(slot: &mut $crate::input::Slot<Self>, change: &$crate::input::Slot<Self>) {
                $crate::input::record::overlay(slot, change);
            }

            fn spoil(&mut self, place: &$crate::findings::Place) {
                $crate::input::Record::spoil_inherited(self, place);
            }

            fn mark(&mut self, through: &str) {
                $crate::input::record::mark(self, through);
            }

            fn subject(&self, at: usize, outer: &$crate::findings::Subject) -> Option<$crate::findings::Subject> {
                $crate::input::record::subject(self, at, outer)
            }

            fn refer(
                &mut self,
                _: &$crate::input::FieldInfo,
                _: $crate::input::Origin<'_>,
                references: &mut $crate::input::References<'_, '_>,
            ) -> bool {
                references.walk(self);
                true
            }

            fn dump(&self, path: &str, spelling: $crate::input::Spelling, out: &mut Vec<(String, String)>) {
                $crate::input::record::dump(self, path, spelling, out);
            }
        }
    };
}
pub(crate) use record;

/// Shape of a record.
pub fn shape<R: Record>() -> Shape {
    Shape::Record(R::info())
}

/// Reads a record from a node, which must be a table, or a word where the record has a short form.
pub fn read<R: Record>(node: &Node, info: &FieldInfo, reader: &mut Reader<'_>) -> Option<R> {
    match (&node.tree, R::info().short) {
        (Tree::Table(table), _) => Some(R::read_table(table, reader)),
        (Tree::Text(_) | Tree::Cell(_), Some(field)) => {
            let entry = Entry { key: field.to_owned(), key_place: node.place.clone(), node: node.clone() };
            Some(R::read_table(&Table { place: node.place.clone(), entries: vec![entry] }, reader))
        }
        _ => {
            let refusal = super::Refusal::wrong_type().asked(format!("a table ({})", R::info().keys().join(", ")));
            reader.refuse(node, info, "a table", refusal);
            None
        }
    }
}

/// Inheritance of a nested record: key by key where its fields say so, else whole.
pub fn take<R: Record>(slot: &mut Slot<R>, from: &Slot<R>, how: Taking<'_>) {
    match (&mut *slot, from) {
        (Slot::Given(own), Slot::Given(other)) if how.all || R::info().by_key() => {
            own.value.take_from(&other.value, how);
        }
        (Slot::Given(own), Slot::Bad(place)) => own.value.spoil_inherited(place),
        (Slot::Absent, Slot::Given(other)) if !how.all && R::info().by_key() => {
            let mut own = other.clone();
            own.value = R::default();
            own.value.take_from(&other.value, how);
            *slot = Slot::Given(own);
            super::field::come_through(slot, how.through);
        }
        (Slot::Absent, _) => {
            *slot = from.clone();
            super::field::come_through(slot, how.through);
        }
        _ => {}
    }
}

/// Overlay of a nested record, key by key.
pub fn overlay<R: Record>(slot: &mut Slot<R>, change: &Slot<R>) {
    match (&mut *slot, change) {
        (_, Slot::Absent) => {}
        (Slot::Given(own), Slot::Given(other)) => own.value.overlay_with(&other.value),
        (Slot::Bad(place), Slot::Given(other)) => {
            // What the change leaves as it was is still unknown.
            let mut changed = other.clone();
            changed.value.spoil_inherited(place);
            *slot = Slot::Given(changed);
        }
        _ => *slot = change.clone(),
    }
}

/// Notes on everything inside that it came through a kind.
pub fn mark<R: Record>(record: &mut R, through: &str) {
    for slot in record.slots_mut() {
        slot.mark(through);
    }
}

/// What a finding in a record of a list is about: the record, by the fields that it is called by; where they are not
/// given, by its number in what it is in. None for a record that has no name of its own.
pub fn subject<R: Record>(record: &R, at: usize, outer: &Subject) -> Option<Subject> {
    let called = R::info().called;
    if called.is_empty() {
        return None;
    }
    let slots = R::fields().iter().zip(record.slots()).filter(|(info, _)| called.contains(&info.name));
    let names = slots.map(|(_, slot)| slot.name());
    let host = match outer {
        Subject::Entry(_, name) => name,
        _ => R::NAME,
    };
    let name = names.collect::<Option<Vec<&str>>>().map_or_else(|| format!("{host}.{}", at + 1), |it| it.join("-"));
    Some(Subject::Entry(R::NAME, name))
}

/// Writes path and value of everything inside.
pub fn dump<R: Record>(record: &R, path: &str, spelling: Spelling, out: &mut Vec<(String, String)>) {
    for (info, slot) in R::fields().iter().zip(record.slots()) {
        let inside = if path.is_empty() { info.name.to_owned() } else { format!("{path}.{}", info.name) };
        slot.dump(&inside, spelling, out);
    }
}

impl Reader<'_> {
    /// Reports keys that are needed and absent, all of a table in one finding, unless a file of the run could not be
    /// read whole.
    pub(super) fn report_missing(&mut self, place: &Place, info: &RecordInfo, missing: &[&str]) {
        if missing.is_empty() || !self.whole() {
            return;
        }
        let ticked: Vec<String> = missing.iter().map(|key| format!("`{key}`")).collect();
        let words: Vec<&str> = ticked.iter().map(String::as_str).collect();
        let verb = if missing.len() == 1 { "is" } else { "are" };
        let lines: Vec<String> = info
            .fields
            .iter()
            .filter(|field| missing.contains(&field.name))
            .map(|field| match ((field.shape)(), field.example) {
                (Shape::Named(_), example) if !example.is_empty() => format!("[{}.{example}]", field.name),
                (Shape::Named(_) | Shape::Record(_), "") => format!("[{}]", field.name),
                (Shape::Records(_), "") => format!("[[{}]]", field.name),
                (_, "") => field.name.to_owned(),
                (_, example) => format!("{} = {}", field.name, field.typed(example)),
            })
            .collect();
        let held = info.fields.iter().filter(|field| missing.contains(&field.name));
        let finding = Finding::new(&codes::MISSING_KEY, self.subject())
            .at(place.clone())
            .blocking(held.fold(Papers::NONE, |held, field| held.with(field.blocks)))
            .found(format!("{} {verb}", super::nearest::row(&words, "and")))
            .asked(format!("{} in every {}", super::nearest::row(&words, "and"), info.name))
            .advise(format!("add, such as {}", lines.join("; ")));
        self.push(finding);
    }
}
