//! The record's file to the checked record.
//!
//! In: the file. Out: the issues; one with a fault is left out and reported. May not know: whether the copies are there.

use super::codes;
use super::entries::{FileEntry, IssueEntry, RecordEntry};
use super::model::{Issued, IssuedFile, Record};
use crate::findings::{FileId, Finding, Subject};
use crate::input::{Given, Id, Reader, Slot, Text};

/// Letters of a SHA-256 in hex.
const DIGEST: usize = 64;

/// Reads and checks the record.
pub fn read(reader: &mut Reader, file: FileId) -> Record {
    let entry: RecordEntry = reader.toml(file);
    let mut record = Record::default();
    for one in entry.issue.list() {
        let Some(issue) = issue(reader, one) else { continue };
        match record.of(&issue.revision) {
            None => record.issues.push(issue),
            Some(first) => {
                let mut finding = Finding::new(&codes::TWO_ISSUES, Subject::Job)
                    .found(format!("`{}`", issue.revision))
                    .advise("delete one of the two; the copies under it show which is right");
                finding = issue.place.into_iter().fold(finding, Finding::at);
                let first = first.place.iter().cloned();
                reader.push(first.fold(finding, |it, place| it.near(place, "recorded first here")));
            }
        }
    }
    record
}

fn issue(reader: &mut Reader, entry: &IssueEntry) -> Option<Issued> {
    let digests = [digest(reader, &entry.fingerprint), digest(reader, &entry.values), digest(reader, &entry.copies)];
    let papers: Vec<Option<IssuedFile>> = entry.paper.list().iter().map(|it| paper(reader, it)).collect();
    let job = entry.job.given().filter(|given| beside(reader, given)).map(|given| given.value.to_string());
    let [fingerprint, values, copies] = digests;
    let revision = entry.revision.given()?;
    let texts = |slot: &Slot<Vec<Text>>| slot.list().iter().map(|it| it.to_string()).collect();
    let held = |slot: &Slot<Vec<Id>>| slot.list().iter().map(|it| it.to_string()).collect();
    Some(Issued {
        revision: revision.value.to_string(),
        date: entry.date.cloned()?,
        fingerprint: fingerprint?,
        values: values?,
        job: job?,
        copies: copies?,
        changes: texts(&entry.changes),
        held: held(&entry.held),
        papers: papers.into_iter().collect::<Option<_>>()?,
        place: Some(revision.place.clone()),
    })
}

fn paper(reader: &mut Reader, entry: &FileEntry) -> Option<IssuedFile> {
    let sha256 = digest(reader, &entry.sha256);
    Some(IssuedFile { file: entry.file.get()?.to_string(), sha256: sha256? })
}

fn digest(reader: &mut Reader, slot: &Slot<Text>) -> Option<String> {
    let given = slot.given()?;
    let text = given.value.as_str();
    if text.len() == DIGEST && text.bytes().all(|it| it.is_ascii_digit() || (b'a'..=b'f').contains(&it)) {
        return Some(text.to_owned());
    }
    let finding = Finding::new(&codes::NOT_A_DIGEST, Subject::Job)
        .at(given.place.clone())
        .found(text)
        .asked(format!("{DIGEST} of 0-9 and a-f"))
        .advise("restore the record as it was written; it is never typed by hand");
    reader.push(finding);
    None
}

/// Whether a copy stands below the record's folder.
fn beside(reader: &mut Reader, given: &Given<Text>) -> bool {
    let path = given.value.as_str();
    let below =
        !path.starts_with('/') && !path.contains('\\') && path.split('/').all(|it| !matches!(it, "" | "." | ".."));
    if !below {
        let finding = Finding::new(&codes::COPY_ELSEWHERE, Subject::Job)
            .at(given.place.clone())
            .found(path)
            .advise("restore the record as it was written; its copies are in the folder beside it");
        reader.push(finding);
    }
    below
}
