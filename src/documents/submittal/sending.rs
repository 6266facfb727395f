//! A sending: its number, whether it is new or again, from whom and to whom.
//!
//! In: a transmittal with the times it was sent. Out: finished strings. May not know: what is in the package.

use serde::Serialize;

use super::Package;
use crate::documents::Sources;
use crate::documents::printing::or_dash;
use crate::job::Transmittal;

/// What is sent, to whom, as the how-manyeth time.
#[derive(Clone, Debug, Serialize)]
pub struct Sending {
    /// Number, as the owner's profile prints it.
    pub number: String,
    /// What the submittal is called.
    pub title: String,
    /// Number and title of the section.
    pub section: String,
    /// The day it is sent; empty while it is not.
    pub date: String,
    /// New, or again of which.
    pub again: String,
    /// Number of the contract, else of the solicitation, with the word for it.
    pub contract: String,
    /// To whom.
    pub to: String,
    /// Copies.
    pub copies: String,
    /// What came back the last time; empty where nothing did.
    pub answer: String,
}

/// Which sending of a transmittal this package is: the last one where it went out at the job's own revision, else the next.
fn time(sources: &Sources, transmittal: &Transmittal) -> usize {
    let revision = sources.reviewed.job().head.revision.as_deref();
    match transmittal.rounds.last() {
        Some(last) if Some(last.revision.as_str()) == revision => transmittal.rounds.len() - 1,
        _ => transmittal.rounds.len(),
    }
}

/// The number of the package.
pub(super) fn number(sources: &Sources, transmittal: &Transmittal) -> String {
    let profile = sources.catalog.profiles.get(&sources.reviewed.job().head.profile);
    transmittal.number_of(profile, time(sources, transmittal))
}

pub(super) fn sending(package: &Package) -> Sending {
    let (sources, transmittal) = (package.sources, package.transmittal);
    let job = sources.reviewed.job();
    let profile = sources.catalog.profiles.get(&job.head.profile);
    let time = time(sources, transmittal);
    let section = job.sections.iter().find(|it| it.number == transmittal.section);
    let before = time.checked_sub(1);
    Sending {
        number: number(sources, transmittal),
        title: transmittal.title.as_ref().unwrap_or(&package.submittal.title).clone(),
        section: match section {
            Some(section) => format!("{}, {}", section.number, section.title),
            None => transmittal.section.clone(),
        },
        date: transmittal.rounds.get(time).map(|round| round.sent.to_string()).unwrap_or_default(),
        again: match before {
            None => "New submittal".to_owned(),
            Some(before) => format!("Resubmittal of {}", transmittal.number_of(profile, before)),
        },
        contract: match (&job.head.contract, &job.head.solicitation) {
            (Some(contract), _) => format!("Contract {contract}"),
            (None, Some(solicitation)) => format!("Solicitation {solicitation}"),
            (None, None) => or_dash(None),
        },
        to: match &job.head.attention {
            Some(person) => format!("{}, {person}", job.head.to),
            None => job.head.to.clone(),
        },
        copies: match profile.and_then(|it| it.copies) {
            Some(copies) => copies.to_string(),
            None => "1, electronic".to_owned(),
        },
        answer: before.and_then(|at| answer(package, at)).unwrap_or_default(),
    }
}

/// What the reviewer put on an earlier sending.
fn answer(package: &Package, time: usize) -> Option<String> {
    let round = package.transmittal.rounds.get(time)?;
    let answer = round.answer.as_ref()?;
    let by = answer.by.as_ref().map(|by| format!(" by {by}")).unwrap_or_default();
    let note = answer.note.as_ref().map(|note| format!(": {note}")).unwrap_or_default();
    Some(format!("Sent {}, returned {}{by}, {}{note}.", round.sent, answer.back, answer.disposition.word))
}
