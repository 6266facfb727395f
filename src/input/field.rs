//! What every type that can stand in a field can do: read, inherit, overlay, show itself.
//!
//! In: a node and the field's entry in its table. Out: a value, or nothing and a finding.
//! May not know: any one record.

use std::any::Any;
use std::fmt::Debug;

use super::{Given, Node, Origin, Reader, RecordInfo, References, Slot, Standing};
use crate::findings::{Papers, Place, Subject};
use crate::measure::System;

/// One row of a field table.
#[derive(Clone, Copy, Debug)]
pub struct FieldInfo {
    /// The key.
    pub name: &'static str,
    /// What belongs there.
    pub shape: fn() -> Shape,
    /// Whether it may come from a kind.
    pub inherits: bool,
    /// Whether its absence is a finding.
    pub needed: bool,
    /// Whether `none` takes away what a kind gives.
    pub undoable: bool,
    /// The papers that cannot be made while it is needed and absent, or bad.
    pub blocks: Papers,
    /// The table whose entries it names; further words, each after a comma, stand for no entry.
    pub refers: Option<&'static [&'static str]>,
    /// The least and the greatest value, as typed.
    pub within: Option<(&'static str, &'static str)>,
    /// An example, as typed.
    pub example: &'static str,
    /// One line of help.
    pub help: &'static str,
}

impl FieldInfo {
    /// A value as TOML writes it at this field: texts in quotes, numbers, lists and tables as they are.
    pub fn typed(&self, value: &str) -> String {
        let raw = value.starts_with(['"', '\'', '[', '{']);
        let quotes = match (self.shape)() {
            Shape::Scalar { quoted, .. } => quoted,
            Shape::Choice(_) => true,
            _ => false,
        };
        if quotes && !raw { super::quoting::quoted(value) } else { value.to_owned() }
    }
}

/// One word of a vocabulary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word {
    /// As it is typed.
    pub word: &'static str,
    /// What it means.
    pub help: &'static str,
}

/// What belongs at a field.
#[derive(Clone, Debug)]
pub enum Shape {
    /// A value in one piece.
    Scalar {
        /// What it is, with its article.
        words: &'static str,
        /// Units it may carry.
        unit: &'static str,
        /// Whether TOML writes it in quotes.
        quoted: bool,
    },
    /// One of a closed list of words.
    Choice(&'static [Word]),
    /// A list of values in one piece.
    List(Box<Shape>),
    /// A table.
    Record(&'static RecordInfo),
    /// A list of tables.
    Records(&'static RecordInfo),
    /// Tables with names.
    Named(&'static RecordInfo),
    /// One table for what all members share, or a list of tables, or both.
    EachOrList(&'static RecordInfo),
}

/// How values are taken over from another record.
#[derive(Clone, Copy, Debug)]
pub struct Taking<'a> {
    /// The kind they come through, where it is one.
    pub through: Option<&'a str>,
    /// Whether also the fields go over that a kind cannot give.
    pub all: bool,
}

/// How values are written out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spelling {
    /// Every digit, as the program holds it: two values are the same where these texts are.
    Exact,
    /// As a person reads it, in the units of the job.
    Readable(System),
}

/// A type that can stand in a field.
pub trait Field: Clone + Debug + Sized + 'static {
    /// What belongs there.
    fn shape() -> Shape;

    /// Reads a node. Nothing means that it was bad and a finding says so.
    fn read_node(node: &Node, info: &FieldInfo, reader: &mut Reader<'_>) -> Option<Self>;

    /// Fills an absent slot from another; what was written, undone or bad stays.
    fn take(slot: &mut Slot<Self>, from: &Slot<Self>, how: Taking<'_>) {
        if slot.is_absent() {
            *slot = from.clone();
            come_through(slot, how.through);
        }
    }

    /// Puts the change on top: what it gives, undoes or has wrong stands instead.
    fn overlay(slot: &mut Slot<Self>, change: &Slot<Self>) {
        if !change.is_absent() {
            *slot = change.clone();
        }
    }

    /// Makes absent fields inside bad, because what would have filled them is unknown.
    fn spoil(&mut self, _: &Place) {}

    /// Notes the kind through which the values inside came.
    fn mark(&mut self, _: &str) {}

    /// The text by which an entry is called or named, where it is one.
    fn name(&self) -> Option<&str> {
        None
    }

    /// What findings about a member of a list are about, where that is the member itself.
    fn subject(&self, _at: usize, _outer: &Subject) -> Option<Subject> {
        None
    }

    /// Looks up the entries that are named here and inside; those that are not there are reported and taken out. Whether
    /// it is still there itself.
    fn refer(&mut self, info: &FieldInfo, origin: Origin<'_>, references: &mut References<'_, '_>) -> bool {
        match (info.refers, self.name()) {
            (Some(to), Some(name)) => references.knows(to, name, origin),
            _ => true,
        }
    }

    /// Writes path and value of everything inside, in order of fields.
    fn dump(&self, path: &str, spelling: Spelling, out: &mut Vec<(String, String)>);
}

/// Notes the kind on a slot that was just filled from it.
pub(super) fn come_through<T: Field>(slot: &mut Slot<T>, through: Option<&str>) {
    if let (Slot::Given(given), Some(kind)) = (slot, through) {
        given.through.get_or_insert_with(|| kind.to_owned());
        given.value.mark(kind);
    }
}

/// A slot whose type is not looked at.
pub trait AnySlot {
    /// Whether something was written that cannot be read, or makes no sense; it was reported.
    fn is_bad(&self) -> bool;
    /// Where it was written.
    fn place(&self) -> Option<&Place>;
    /// Writes path and value of everything inside.
    fn dump(&self, path: &str, spelling: Spelling, out: &mut Vec<(String, String)>);
    /// Makes it bad if it is absent, and absent fields inside.
    fn spoil(&mut self, place: &Place);
    /// Notes the kind through which the values inside came.
    fn mark(&mut self, through: &str);
    /// The text by which an entry is called or named, where one was given.
    fn name(&self) -> Option<&str>;
    /// Looks up the entries that are named here and inside; makes it bad if the one it names is not there.
    fn refer(&mut self, info: &FieldInfo, references: &mut References<'_, '_>);
    /// Says how well the value is known.
    fn stand(&mut self, standing: &Standing);
    /// How well the value is known, if one was given.
    fn standing(&self) -> Option<&Standing>;
    /// The value, if one was given, for whoever knows what its type may be.
    fn value(&self) -> Option<&dyn Any>;
}

impl<T: Field> AnySlot for Slot<T> {
    fn stand(&mut self, standing: &Standing) {
        if let Slot::Given(given) = self {
            given.standing = standing.clone();
        }
    }

    fn standing(&self) -> Option<&Standing> {
        self.given().map(|given| &given.standing)
    }

    fn value(&self) -> Option<&dyn Any> {
        self.get().map(|value| value as &dyn Any)
    }

    fn name(&self) -> Option<&str> {
        self.get().and_then(T::name)
    }

    fn refer(&mut self, info: &FieldInfo, references: &mut References<'_, '_>) {
        if let Slot::Given(Given { value, place, through, .. }) = self {
            let origin = Origin { place, through: through.as_deref() };
            if !value.refer(info, origin, references) {
                *self = Slot::Bad(place.clone());
            }
        }
    }

    fn is_bad(&self) -> bool {
        Slot::is_bad(self)
    }

    fn place(&self) -> Option<&Place> {
        Slot::place(self)
    }

    fn dump(&self, path: &str, spelling: Spelling, out: &mut Vec<(String, String)>) {
        match self {
            Slot::Absent => {}
            Slot::Undone(_) => out.push((path.to_owned(), "none".to_owned())),
            Slot::Bad(_) => out.push((path.to_owned(), "bad".to_owned())),
            Slot::Given(given) => given.value.dump(path, spelling, out),
        }
    }

    fn spoil(&mut self, place: &Place) {
        match self {
            Slot::Absent => *self = Slot::Bad(place.clone()),
            Slot::Given(given) => given.value.spoil(place),
            Slot::Undone(_) | Slot::Bad(_) => {}
        }
    }

    fn mark(&mut self, through: &str) {
        if let Slot::Given(Given { value, through: known, .. }) = self {
            known.get_or_insert_with(|| through.to_owned());
            value.mark(through);
        }
    }
}
