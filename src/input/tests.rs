//! Reading as a whole, on records made for these tests alone.

use super::*;
use crate::findings::{FileId, Files, Finding, Findings, Place};
use crate::money::Percent;

vocabulary! {
    /// Edge that hangs.
    pub enum Edge {
        /// At the left.
        Left = "left",
        /// At the right.
        Right = "right",
    }
}

record! {
    /// A lock.
    pub struct LockEntry as "lock" {
        /// What it is.
        what: Text, needed, "mortise";
        /// Its price share.
        share: Percent, "6.5 %";
    }
}

record! {
    /// A leaf.
    pub struct LeafEntry as "leaf" stands {
        /// Edge that hangs.
        hinges: Edge, inherits, "left";
        /// Hinges on it.
        count: Count, inherits, ["1" to "5"], "3";
        /// A plate.
        plate: Text, inherits undoable, "kick";
        /// Lock, all or nothing.
        lock: LockEntry, inherits undoable, "{ what = \"mortise\" }";
    }
}

record! {
    /// A door.
    pub struct DoorEntry as "door" stands {
        /// Its kind.
        kind: Id, "lobby";
        /// The kind above.
        like: Id, "base";
        /// Its mark.
        mark: Text, "101A";
        /// Its site.
        site: Id, inherits, "main";
        /// Leaves.
        leaf: EachOrList<LeafEntry>, inherits, "{ hinges = \"left\" }";
        /// Bends on the way to it.
        bends: Vec<Count>, inherits undoable, "[90, 90]";
        /// Locks in store.
        spare: Vec<LockEntry>, inherits, "";
        /// Factor of labor.
        factor: Ratio, inherits, "1.25";
        /// When it was hung.
        hung_on: Date, "2026-11-03";
        /// Whether it is outdoors.
        outdoors: Flag, inherits, "true";
        /// When it counts.
        when: Formula, "leaf.count > 2";
    }
}

record! {
    /// A file of doors.
    pub struct DoorFile as "door file" {
        /// Kinds.
        kind: Named<DoorEntry>, "";
        /// Doors.
        door: Vec<DoorEntry>, "";
    }
}

/// The files of a test: `doors.toml` alone, or with a table beside it.
pub(super) fn files(toml: &str, csv: &str) -> (Files, FileId, FileId) {
    let list =
        [("doors.csv", csv), ("doors.toml", toml)].map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec()));
    let files = Files::new(list);
    let [csv, toml] = ["doors.csv", "doors.toml"].map(|name| files.find(name).unwrap());
    (files, toml, csv)
}

/// `code line:column` of every finding, columns counted in characters from 1.
pub(super) fn lines(files: &Files, findings: &Findings) -> Vec<String> {
    findings.iter().map(|finding| format!("{} {}", finding.code.id, position(files, finding))).collect()
}

fn position(files: &Files, finding: &Finding) -> String {
    match finding.place() {
        Some(Place::Text { file, span }) => {
            let before = String::from_utf8_lossy(&files.bytes(*file)[..span.start as usize]).into_owned();
            let line = before.matches('\n').count() + 1;
            let column = before.rsplit('\n').next().unwrap().chars().count() + 1;
            format!("{line}:{column}")
        }
        Some(Place::File(_)) => "file".to_owned(),
        _ => "nowhere".to_owned(),
    }
}

/// Reads doors with kinds resolved.
pub(super) fn read(toml: &str) -> (DoorFile, Vec<String>, Findings) {
    let (files, file, _) = files(toml, "mark\n");
    let mut reader = Reader::new(&files);
    let mut doors: DoorFile = reader.toml(file);
    let mut kinds = doors.kind.cloned().unwrap_or_default();
    chain(&mut kinds, |door| &door.like, &mut reader);
    if let Slot::Given(list) = &mut doors.door {
        for door in &mut list.value {
            inherit_kind(door, |door| &door.kind, &kinds, &mut reader);
        }
    }
    let findings = reader.into_findings();
    (doors, lines(&files, &findings), findings)
}

#[test]
fn reads_every_kind_of_value() {
    let (doors, found, _) = read(
        "[kind.lobby]\nsite = 'main'\nleaf = { hinges = \"Left\", count = 3 }\n\
         [[door]]\nkind = \"lobby\"\nmark = \"101A\"\nbends = [90, 45]\nfactor = \"1.25\"\nhung_on = 2026-11-03\n\
         outdoors = true\nwhen = \"a > \\\"b\\\"\"\nstanding = \"surveyed\"\nby = \"R. Tallow\"\nseen = 2026-11-02\n",
    );
    assert_eq!(found, Vec::<String>::new());
    let door = &doors.door.list()[0];
    assert_eq!(door.site.get().unwrap(), "main");
    assert_eq!(door.site.given().unwrap().through.as_deref(), Some("lobby"));
    assert_eq!(door.leaf.members()[0].hinges.get(), Some(&Edge::Left));
    assert_eq!(door.bends.list(), [Count::from(90), Count::from(45)]);
    let seen = Date::new(2026, 11, 2);
    assert_eq!(door.mark.given().unwrap().standing, Standing::Surveyed { date: seen, by: Some("R. Tallow".into()) });
    assert_eq!(door.site.given().unwrap().standing, Standing::Stated);
}

#[test]
fn lists_every_word_of_a_vocabulary() {
    assert_eq!(Edge::ALL.iter().map(|edge| edge.word()).collect::<Vec<_>>(), ["left", "right"]);
    assert_eq!(Edge::Right.to_string(), "right");
}

#[test]
fn the_starter_reads_back_without_a_finding() {
    for live in [Live::Needed, Live::All] {
        let text = starter::<DoorFile>(live);
        let (doors, found, _) = read(&text);
        let unshared = |line: &String| line.starts_with("not-shared") || line.starts_with("unknown-kind");
        let other: Vec<&String> = found.iter().filter(|line| !unshared(line)).collect();
        assert_eq!(other, Vec::<&String>::new(), "{text}");
        assert_eq!(doors.door.list().len(), usize::from(live == Live::All));
    }
}
