//! The walk through a table with a field table in hand.
//!
//! In: files of the snapshot, field tables. Out: records and findings. It never returns early: every fault of every file is
//! reported. May not know: any one record.

use super::codes;
use super::nearest::nearest;
use super::{Date, Field, FieldInfo, Reader, Record, RecordInfo, Slot, Standing, Table, Text, Tree, vocabulary};
use super::{csv_text, toml_text};
use crate::findings::{FileId, Finding, Papers, Place};

impl Reader<'_> {
    /// Reads a TOML file as one record. A record comes of it in any case, with what could be read.
    pub fn toml<R: Record>(&mut self, file: FileId) -> R {
        let table = toml_text::parse(file, self);
        R::read_table(&table, self)
    }

    /// Reads a CSV file as a list of records, one a row; heads are dotted keys (`leaf.width`, `leaf.1.hinges`).
    pub fn csv<R: Record>(&mut self, file: FileId) -> Vec<R> {
        let rows = csv_text::parse(file, R::info(), self);
        rows.iter().map(|row| R::read_table(row, self)).collect()
    }
}

vocabulary! {
    /// How well the values of a table are known.
    pub enum StandingWord {
        /// Measured or seen at the site; `by` and `seen` say who and when.
        Surveyed = "surveyed",
        /// Taken from drawings.
        Drawn = "drawn",
        /// Assumed; the papers say so.
        Assumed = "assumed",
        /// Estimated from other facts.
        Estimated = "estimated",
    }
}

const STANDING: FieldInfo =
    standing_field("standing", StandingWord::shape, "surveyed", "How well the values here are known.");
const BY: FieldInfo = standing_field("by", Text::shape, "R. Tallow", "Who measured.");
const SEEN: FieldInfo = standing_field("seen", Date::shape, "2026-11-03", "The day it was measured.");

const fn standing_field(
    name: &'static str,
    shape: fn() -> super::Shape,
    example: &'static str,
    help: &'static str,
) -> FieldInfo {
    FieldInfo {
        name,
        shape,
        inherits: false,
        needed: false,
        undoable: false,
        blocks: Papers::ALL,
        refers: None,
        within: None,
        example,
        help,
    }
}

/// The fields that say how well the values of a table are known.
pub(super) const STANDING_FIELDS: [FieldInfo; 3] = [STANDING, BY, SEEN];

/// A walk through one table with its field table.
pub struct Walk<'t, 'r, 'f> {
    table: &'t Table,
    info: &'static RecordInfo,
    at: usize,
    missing: Vec<&'static str>,
    outer: Standing,
    reader: &'r mut Reader<'f>,
}

impl<'t, 'r, 'f> Walk<'t, 'r, 'f> {
    /// Starts a walk: reports keys that are not legal here, and learns how well the values are known.
    pub fn open(table: &'t Table, info: &'static RecordInfo, reader: &'r mut Reader<'f>) -> Self {
        report_unknown(table, info, reader);
        let own = read_standing(table, info, reader).unwrap_or_else(|| reader.standing());
        let outer = reader.stand(own);
        Walk { table, info, at: 0, missing: Vec::new(), outer, reader }
    }

    /// Where the table stands.
    pub fn place(&self) -> Place {
        self.table.place.clone()
    }

    /// Reads the next field of the field table.
    #[allow(clippy::should_implement_trait, reason = "each field has its own type, so this is no iterator")]
    pub fn next<T: Field>(&mut self) -> Slot<T> {
        let info = &self.info.fields[self.at];
        self.at += 1;
        let slot = read_slot(self.table, info, self.reader);
        if info.needed && slot.is_absent() {
            self.missing.push(info.name);
        }
        slot
    }

    /// Ends the walk: reports what is missing.
    pub fn close(self) {
        self.reader.stand(self.outer);
        self.reader.report_missing(&self.table.place, self.info, &self.missing);
    }
}

fn read_slot<T: Field>(table: &Table, info: &FieldInfo, reader: &mut Reader<'_>) -> Slot<T> {
    let Some(node) = table.get(info.name) else { return Slot::Absent };
    let none = matches!(&node.tree, Tree::Text(written) | Tree::Cell(written) if written.text.trim() == "none");
    if info.undoable && none {
        return Slot::Undone(node.place.clone());
    }
    match T::read_node(node, info, reader) {
        Some(value) => {
            Slot::Given(super::Given { value, place: node.place.clone(), standing: reader.standing(), through: None })
        }
        None => Slot::Bad(node.place.clone()),
    }
}

fn report_unknown(table: &Table, info: &'static RecordInfo, reader: &mut Reader<'_>) {
    let legal = info.keys();
    let unread = |entry: &super::Entry| matches!(entry.node.tree, Tree::Unread);
    let unknown = |entry: &&super::Entry| !legal.contains(&entry.key.as_str()) && !unread(entry);
    for entry in table.entries.iter().filter(unknown) {
        let finding = Finding::new(&codes::UNKNOWN_KEY, reader.subject())
            .at(entry.key_place.clone())
            .blocking(info.blocks())
            .found(super::quoting::visible(&entry.key))
            .asked(format!("one of {} (a table of sort {})", legal.join(", "), info.name));
        let hint = nearest(&entry.key, legal.iter().copied());
        reader.push(match hint {
            Some(key) => finding.type_at(entry.key_place.clone(), key),
            None => finding.advise("take it out, or write one of these keys"),
        });
    }
}

/// The standing that the table states for its values; nothing where it states none, so that the outer one stays.
fn read_standing(table: &Table, info: &'static RecordInfo, reader: &mut Reader<'_>) -> Option<Standing> {
    let legal: Vec<&str> = info.standing_keys().collect();
    let stated = |key: &str| legal.contains(&key) && table.get(key).is_some();
    if !["standing", "by", "seen"].iter().any(|key| stated(key)) {
        return None;
    }
    let word: Slot<StandingWord> = if stated("standing") { read_slot(table, &STANDING, reader) } else { Slot::Absent };
    let by: Slot<Text> = if stated("by") { read_slot(table, &BY, reader) } else { Slot::Absent };
    let seen: Slot<Date> = if stated("seen") { read_slot(table, &SEEN, reader) } else { Slot::Absent };
    let surveyed = word.is_bad() || matches!(word.get(), None | Some(StandingWord::Surveyed));
    if let (false, Some(place)) = (surveyed, seen.place()) {
        let finding = Finding::new(&codes::SEEN_NOT_SURVEYED, reader.subject())
            .at(place.clone())
            .found(word.get().map_or("", |word| word.word()))
            .asked("surveyed")
            .advise("take `seen` out, or write standing = \"surveyed\"");
        reader.push(finding);
    }
    let surveyed = Standing::Surveyed { date: seen.cloned(), by: by.cloned().map(String::from) };
    Some(match word.get() {
        Some(StandingWord::Drawn) => Standing::Drawn,
        Some(StandingWord::Assumed) => Standing::Assumed,
        Some(StandingWord::Estimated) => Standing::Estimated,
        Some(StandingWord::Surveyed) => surveyed,
        None if word.is_absent() => surveyed,
        None => Standing::Stated,
    })
}
