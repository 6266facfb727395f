//! Submittals as checked, their numbers, and whether what was submitted stands approved.
//!
//! In: sections, submittals, transmittals, an owner's profile. Out: the number of each sending; approval of a part of the
//! submittal under a section. May not know: what was taken off, how a paper says it.
//!
//! A disposition that is no approval approves nothing (48 CFR 52.236-21, drawings: read in a summary of the clause).

use super::file_entries::Head;
use super::model::Job;
use super::submittal_entries::{Round, Submittal, SubmittalPart, Transmittal};
use crate::catalog::{Again, Group, Meaning, Profile};

/// Whether a part of the submittal stands approved under a section.
#[derive(Clone, Copy, Debug)]
pub struct Approval<'j> {
    /// The transmittal it goes with; none where there is none.
    pub transmittal: Option<&'j Transmittal>,
    /// How it stands.
    pub stands: Stands<'j>,
    /// The last time that it came back approved, at whatever revision.
    pub approved: Option<Sending<'j>>,
}

/// A sending of a transmittal: which time, from 0, and its round.
#[derive(Clone, Copy, Debug)]
pub struct Sending<'j> {
    /// How many times it was sent before.
    pub time: usize,
    /// The round.
    pub round: &'j Round,
}

/// How a part of the submittal stands with the reviewer.
#[derive(Clone, Copy, Debug)]
pub enum Stands<'j> {
    /// The job keeps no submittals at all.
    NotKept,
    /// It is in no submittal, or has no transmittal under the section.
    NotSubmitted,
    /// Its transmittal was never sent.
    NeverSent,
    /// The reviewer has it.
    Out(Sending<'j>),
    /// It came back with what is no approval.
    Returned(Sending<'j>),
    /// It came back approved, at the job's own revision or at another.
    Approved {
        /// When it was sent.
        sending: Sending<'j>,
        /// Whether what was approved is the job's revision.
        current: bool,
    },
}

impl SubmittalPart {
    /// Whether it shows openings whole, and so goes under the job's own section alone. Common practice, no source.
    pub fn shows_openings(self) -> bool {
        matches!(self, SubmittalPart::Schedule | SubmittalPart::Templates | SubmittalPart::ShopDrawings)
    }
}

impl Head {
    /// The revision of the papers as printed; a job without one prints a dash.
    pub fn revision_word(&self) -> &str {
        self.revision.as_deref().unwrap_or("-")
    }
}

impl Job {
    /// The number of the section that items of a group belong to; none where the job names no section of its own.
    pub fn section_of(&self, group: Group) -> Option<&str> {
        let named = self.sections.iter().find(|section| section.groups.contains(&group));
        named.map(|section| section.number.as_str()).or(self.head.section.as_deref())
    }

    /// The numbers of all sections we submit under: the job's own first, then as they stand in the file.
    pub fn section_numbers(&self) -> Vec<&str> {
        let own = self.head.section.as_deref();
        let others = self.sections.iter().map(|section| section.number.as_str()).filter(|number| Some(*number) != own);
        own.into_iter().chain(others).collect()
    }

    /// Whether a submittal has parts that go under a section.
    pub fn submits_under(&self, submittal: &Submittal, section: &str) -> bool {
        let own = self.head.section.as_deref() == Some(section);
        submittal.parts.iter().any(|part| own || !part.shows_openings())
    }

    /// The transmittal that carries a part of the submittal under a section.
    pub fn transmittal_of(&self, part: SubmittalPart, section: &str) -> Option<&Transmittal> {
        let submittal = self.submittals.iter().find(|it| it.parts.contains(&part))?;
        self.transmittals.iter().find(|it| it.submittal == submittal.id && it.section == section)
    }

    /// Whether a part of the submittal stands approved under a section.
    pub fn approval(&self, part: SubmittalPart, section: &str) -> Approval<'_> {
        if self.submittals.is_empty() {
            return Approval { transmittal: None, stands: Stands::NotKept, approved: None };
        }
        match self.transmittal_of(part, section) {
            Some(transmittal) => transmittal.approval(self.head.revision.as_deref()),
            None => Approval { transmittal: None, stands: Stands::NotSubmitted, approved: None },
        }
    }
}

impl Transmittal {
    /// How it stands with the reviewer, for a job of a revision.
    pub fn approval(&self, revision: Option<&str>) -> Approval<'_> {
        let sendings = self.rounds.iter().enumerate().map(|(time, round)| Sending { time, round });
        let approved = sendings.clone().rfind(|it| it.round.means() == Some(Meaning::Approved));
        let stands = match sendings.clone().next_back() {
            None => Stands::NeverSent,
            Some(last) => match last.round.means() {
                None => Stands::Out(last),
                Some(Meaning::Approved) => {
                    Stands::Approved { sending: last, current: Some(last.round.revision.as_str()) == revision }
                }
                Some(_) => Stands::Returned(last),
            },
        };
        Approval { transmittal: Some(self), stands, approved }
    }

    /// The number of a sending as the owner writes it; `time` counts from 0.
    pub fn number_of(&self, profile: Option<&Profile>, time: usize) -> String {
        let pattern = profile.map_or("{section}-{number}", |it| it.submittal_number.as_str());
        let again = profile.map_or(Again::Decimal, |it| it.again);
        let section: String = self.section.split_whitespace().collect();
        let first = pattern.replace("{section}", &section).replace("{number}", &self.number);
        match (again, time) {
            (_, 0) => first,
            (Again::Decimal, time) => format!("{first}.{time}"),
            (Again::LetterR, 1) => format!("{first}R"),
            (Again::LetterR, time) => format!("{first}R{time}"),
        }
    }
}

impl Round {
    /// What came back means; none while the reviewer has it.
    pub fn means(&self) -> Option<Meaning> {
        self.answer.as_ref().map(|answer| answer.disposition.means)
    }
}

impl Approval<'_> {
    /// Whether it is approved at the job's own revision.
    pub fn is_current(&self) -> bool {
        matches!(self.stands, Stands::Approved { current: true, .. })
    }
}
