//! The reader of a run: what it has reported, and what it is about at the moment.
//!
//! In: files of the snapshot, findings. Out: the findings, very many that are alike counted. May not know: how a file is read.

use std::collections::BTreeMap;

use super::Standing;
use crate::findings::{Files, Finding, Findings, Place, Subject};
use crate::measure::System;

/// What findings have in common that differ in their places alone: code, subject, what was found and asked.
type Alike = (&'static str, Subject, String, String);

/// Of findings that are alike so many are kept.
const KEPT: usize = 1_000;

/// Reads the files of a run and gathers the findings.
pub struct Reader<'f> {
    files: &'f Files,
    findings: Findings,
    /// How often each finding was made that differs from others in its place alone.
    alike: BTreeMap<Alike, usize>,
    damaged: bool,
    subject: Subject,
    standing: Standing,
    system: System,
}

impl<'f> Reader<'f> {
    /// A reader of a snapshot, with nothing found yet.
    pub fn new(files: &'f Files) -> Self {
        Reader {
            files,
            findings: Findings::default(),
            alike: BTreeMap::new(),
            damaged: false,
            subject: Subject::Job,
            standing: Standing::Stated,
            system: System::Inch,
        }
    }

    /// The units the job is written in: they decide which suggestion comes first, never what a text means.
    pub fn system(&self) -> System {
        self.system
    }

    /// Says which units the job is written in.
    pub fn write_in(&mut self, system: System) {
        self.system = system;
    }

    /// The snapshot.
    pub fn files(&self) -> &'f Files {
        self.files
    }

    /// Adds a finding. Of very many that differ in their places alone the first are kept and the others counted: a table whose
    /// every row has the same fault would take more memory than anything else.
    pub fn push(&mut self, finding: Finding) {
        let alike = (finding.code.id, finding.subject.clone(), finding.found.clone(), finding.asked.clone());
        let count = self.alike.entry(alike).or_default();
        *count += 1;
        if *count <= KEPT {
            self.findings.push(finding);
        }
    }

    /// A text as it is typed instead of the one at a place: in quotes where that one stands in quotes.
    pub fn as_typed(&self, place: &Place, text: &str) -> String {
        let Place::Text { file, span } = place else { return text.to_owned() };
        match self.files.bytes(*file).get(span.start as usize) {
            Some(b'"' | b'\'') => super::quoting::quoted(text),
            _ => text.to_owned(),
        }
    }

    /// Whether every file so far could be read to its end. While one could not, nothing is said to be missing or
    /// unknown: it may well stand in the part that was not understood.
    pub fn whole(&self) -> bool {
        !self.damaged
    }

    /// Notes that a file could not be read to its end.
    pub(super) fn damage(&mut self) {
        self.damaged = true;
    }

    /// What findings are about at the moment.
    pub fn subject(&self) -> Subject {
        self.subject.clone()
    }

    /// Does something with findings being about a subject.
    pub fn about<T>(&mut self, subject: Subject, what: impl FnOnce(&mut Self) -> T) -> T {
        let outer = std::mem::replace(&mut self.subject, subject);
        let done = what(self);
        self.subject = outer;
        done
    }

    /// The standing of values read at the moment.
    pub(super) fn standing(&self) -> Standing {
        self.standing.clone()
    }

    /// Says how well the values read from here on are known; gives what was said before.
    pub(super) fn stand(&mut self, standing: Standing) -> Standing {
        std::mem::replace(&mut self.standing, standing)
    }

    /// Everything found, in file order.
    pub fn into_findings(self) -> Findings {
        let mut findings = self.findings;
        for ((code, subject, found, asked), count) in self.alike.into_iter().filter(|(_, count)| *count > KEPT) {
            let is_like =
                |it: &Finding| (it.code.id, &it.subject, &it.found, &it.asked) == (code, &subject, &found, &asked);
            findings.count_more(is_like, count.saturating_sub(KEPT));
        }
        findings.sorted()
    }
}
