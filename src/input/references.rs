//! References: the entries that fields name by `refers(…)`, looked up in one walk.
//!
//! In: typed records, and the names that each table has. Out: a finding at every name that is not there, with the nearest that
//! is; the slot becomes bad, so that whatever depends on it stays silent. May not know: what an entry is for.

use std::collections::BTreeMap;

#[cfg(test)]
use super::Shape;
use super::{Named, Reader, Record, Slot, nearest};
use crate::findings::{Code, Finding, Place, Subject};

/// Where a name was written, and the kind through which it came.
#[derive(Clone, Copy, Debug)]
pub struct Origin<'a> {
    /// Where.
    pub place: &'a Place,
    /// The kind, where it was not written at the entry itself.
    pub through: Option<&'a str>,
}

/// The names of a table.
#[derive(Clone, Debug)]
pub struct Names {
    /// What one of its entries is called; `refers(…)` names the table by it.
    what: &'static str,
    code: &'static Code,
    names: Vec<String>,
    /// Whether some names may be missing, so that nothing may be called unknown.
    partial: bool,
    /// What a finding is about, where that is what the name would be of and not where it stands.
    subject: Option<fn(String) -> Subject>,
}

impl Names {
    /// The names of a table, whose entries are called so in findings.
    pub fn new<N: Into<String>>(what: &'static str, code: &'static Code, names: impl IntoIterator<Item = N>) -> Self {
        let names = names.into_iter().map(Into::into).collect();
        Names { what, code, names, partial: false, subject: None }
    }

    /// The names of a table as it was typed, also those whose entries are bad.
    pub fn of<R: Record>(table: &Slot<Named<R>>, code: &'static Code) -> Self {
        let unread = table.get().into_iter().flat_map(Named::unread);
        Names::new(R::NAME, code, table.members().map(|(name, _)| name).chain(unread)).partial_if(table.is_bad())
    }

    /// Nothing is reported of it where some of the names may be missing.
    pub fn partial_if(self, partial: bool) -> Self {
        Names { partial, ..self }
    }

    /// A finding is about what the name would be of.
    pub fn about(self, subject: fn(String) -> Subject) -> Self {
        Names { subject: Some(subject), ..self }
    }
}

/// A walk that looks names up.
pub struct References<'r, 'f> {
    reader: &'r mut Reader<'f>,
    tables: BTreeMap<&'static str, Names>,
    subject: Subject,
}

impl<'r, 'f> References<'r, 'f> {
    /// A walk that knows some tables; what it finds is about the job until something is said.
    pub fn new(reader: &'r mut Reader<'f>, tables: impl IntoIterator<Item = Names>) -> Self {
        let tables = tables.into_iter().map(|names| (names.what, names)).collect();
        References { reader, tables, subject: Subject::Job }
    }

    /// Looks up everything that a record names.
    pub fn walk<R: Record>(&mut self, record: &mut R) {
        for (info, slot) in R::fields().iter().zip(record.slots_mut()) {
            slot.refer(info, self);
        }
    }

    /// What is reported at the moment is about.
    pub fn subject(&self) -> &Subject {
        &self.subject
    }

    /// Does something with findings being about a subject, where there is one.
    pub fn about<T>(&mut self, subject: Option<Subject>, what: impl FnOnce(&mut Self) -> T) -> T {
        let Some(subject) = subject else { return what(self) };
        let outer = std::mem::replace(&mut self.subject, subject);
        let done = what(self);
        self.subject = outer;
        done
    }

    /// Whether an entry of the table that `to` begins with is there, or the name is one of the words that follow; reports one
    /// that is not. A value of a kind is wrong once, wherever it is used, so the finding is then about the kind.
    pub fn knows(&mut self, to: &[&str], name: &str, origin: Origin<'_>) -> bool {
        let Some(table) = to.first().and_then(|what| self.tables.get(what)) else { return true };
        if table.names.iter().any(|it| it == name) || to.get(1..).is_some_and(|words| words.contains(&name)) {
            return true;
        }
        if table.partial {
            return false;
        }
        let subject = match (origin.through, table.subject) {
            (Some(kind), _) => Subject::Entry("kind", kind.to_owned()),
            (None, Some(of)) => of(name.to_owned()),
            (None, None) => self.subject.clone(),
        };
        let names: Vec<&str> = table.names.iter().map(String::as_str).collect();
        let asked = if names.is_empty() { format!("no such {}", table.what) } else { names.join(", ") };
        let finding = Finding::new(table.code, subject).at(origin.place.clone()).found(name).asked(asked);
        let finding = match nearest(name, names) {
            Some(near) => finding.type_at(origin.place.clone(), self.reader.as_typed(origin.place, near)),
            None => finding.advise(format!("use an existing {}, or add it", table.what)),
        };
        self.reader.push(finding);
        false
    }
}

/// Every field of a record, and of those inside, that refers to a table can hold a name and refers to one of these; each of them is
/// referred to.
#[cfg(test)]
pub(crate) fn assert_targets<R: Record>(tables: &[Names]) {
    let mut left: Vec<&'static super::RecordInfo> = vec![R::info()];
    let (mut seen, mut targets) = (Vec::new(), std::collections::BTreeSet::new());
    while let Some(info) = left.pop() {
        if seen.contains(&info.name) {
            continue;
        }
        seen.push(info.name);
        for field in info.fields {
            let shape = match (field.shape)() {
                Shape::List(one) => *one,
                shape => shape,
            };
            if let Some(to) = field.refers {
                let words = if let Shape::Scalar { words, .. } = shape { words } else { "" };
                let holds_names = matches!(words, "a text" | "an id") || matches!(shape, Shape::Named(_));
                assert!(holds_names, "`{}` of {} holds no names", field.name, info.name);
                targets.extend(to.first());
            }
            if let Shape::Record(info) | Shape::Records(info) | Shape::Named(info) | Shape::EachOrList(info) = shape {
                left.push(info);
            }
        }
    }
    assert_eq!(targets, tables.iter().map(|table| &table.what).collect());
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::{Files, Papers, Severity};
    use crate::input::{Count, Flag, Id, Text, record};

    static UNKNOWN: Code = Code {
        id: "unknown-lock",
        severity: Severity::Error,
        says: "there is no lock `{found}`",
        why: "It cannot be bought.",
        example: "lock = \"rmi\"",
        blocks: Papers::ALL,
    };

    record! {
        /// A lock.
        pub struct LockEntry as "lock" => Lock[place = name] {
            /// Its name.
            name: Text, needed, "rim";
            /// How many keys.
            key as keys: Count, default(2), "3";
            /// What is known of it.
            note: Text, "brass";
            /// What is not looked at.
            color: Text, apart, "red";
        } with {
            /// Its id.
            id: String,
        }
    }

    record! {
        /// A leaf.
        pub struct LeafEntry as "leaf" called(mark) => #[derive(PartialEq)] Leaf {
            /// Its mark.
            mark: Text, needed, "A";
            /// Its lock.
            lock: Id, refers(lock, none), "rim";
            /// More locks.
            more: Vec<Id>, refers(lock), "[\"rim\"]";
            /// Whether it is fitted; needed, and taken for not fitted.
            fitted: Flag, needed default(false), "true";
            /// Whether it is painted; needed by some papers only.
            painted: Flag, option needed, "true";
        }
    }

    record! {
        /// A file.
        pub struct FileEntry as "file" {
            /// Locks.
            lock: Named<LockEntry>, "rim";
            /// Leaves.
            leaf: Vec<LeafEntry>, "";
        }
    }

    fn read(text: &str) -> (FileEntry, Vec<String>) {
        let files = Files::new(vec![("file.toml".to_owned(), text.as_bytes().to_vec())]);
        let mut reader = Reader::new(&files);
        let file = files.ids().next().expect("the file");
        let mut entry: FileEntry = reader.toml(file);
        let tables = [Names::of(&entry.lock, &UNKNOWN)];
        assert_targets::<FileEntry>(&tables);
        References::new(&mut reader, tables).walk(&mut entry);
        let found = reader.into_findings();
        let of_locks = found.iter().filter(|it| *it.code == UNKNOWN);
        let remedy = |it: &Finding| it.remedy.as_ref().map_or_else(String::new, |remedy| remedy.text.clone());
        let said = of_locks.map(|it| format!("{} of {}, asked {}: {}", it.found, it.subject, it.asked, remedy(it)));
        (entry, said.collect())
    }

    const LOCKS: &str =
        "[lock.rim]\nname = 'rim'\n[lock.bolt]\nname = 'bolt'\nkey = 5\nnote = 'brass'\ncolor = 'red'\n";

    #[test]
    fn a_name_that_is_not_there_is_reported_with_the_nearest_and_becomes_bad() {
        let (file, found) = read(&format!("{LOCKS}[[leaf]]\nmark = 'A'\nlock = 'rmi'\nmore = ['bolt', 'xyzzy']\n"));
        let leaf = &file.leaf.list()[0];
        assert!(leaf.lock.is_bad());
        assert_eq!(leaf.more.list().iter().map(|it| it.as_str()).collect::<Vec<_>>(), ["bolt"]);
        let asked = "of leaf A, asked bolt, rim:";
        assert_eq!(found, [format!("rmi {asked} \"rim\""), format!("xyzzy {asked} use an existing lock, or add it")]);
    }

    #[test]
    fn a_word_beside_the_table_stands_for_no_entry() {
        let (file, found) = read("[[leaf]]\nmark = 'A'\nlock = 'none'\nmore = ['none']\n");
        assert_eq!(file.leaf.list()[0].lock.get().map(|it| it.as_str()), Some("none"));
        assert_eq!(found.len(), 1, "a list of locks has no such word: {found:#?}");
    }

    #[test]
    fn a_table_that_cannot_be_read_has_no_unknown_names() {
        let (file, found) = read("lock = 3\n[[leaf]]\nmark = 'A'\nlock = 'rim'\n");
        assert!(found.is_empty() && file.leaf.list()[0].lock.is_bad(), "{found:#?}");
    }

    #[test]
    fn a_checked_type_has_plain_values_and_defaults() {
        let (file, _) =
            read(&format!("{LOCKS}[lock.x]\nkey = 1\n[[leaf]]\nmark = 'A'\nlock = 'rim'\n[[leaf]]\nfitted = true\n"));
        let rim = file.lock.get().and_then(|named| named.get("rim")).expect("the lock");
        let place = rim.checked("rim".to_owned()).map(|it| it.place);
        assert!(place.is_some() && place.as_ref() == rim.name.place(), "{place:?}");
        let locks = file.lock.members().filter_map(|(id, lock)| lock.checked(id.to_owned()));
        let locks: Vec<(String, String, u32, Option<String>)> =
            locks.map(|it| (it.id, it.name, it.keys, it.note)).collect();
        let said = |text: &str| text.to_owned();
        let bolt = (said("bolt"), said("bolt"), 5, Some(said("brass")));
        assert_eq!(locks, [bolt, (said("rim"), said("rim"), 2, None)], "a lock without its name is none");
        let leaf = Leaf { mark: said("A"), lock: Some(said("rim")), more: Vec::new(), fitted: false, painted: None };
        assert_eq!(file.leaf.value(), Some(vec![leaf]), "a leaf without its mark is left out");
    }
}
