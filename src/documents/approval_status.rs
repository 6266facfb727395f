//! How what was submitted stands with the reviewer, in words; and what a crew is told of it on every sheet.
//!
//! In: sources. Out: finished strings. May not know: pages, quantities.
//!
//! A sheet that is not approved says so: work that rests on drawings not approved is at the contractor's risk (48 CFR 52.236-21,
//! read in a summary); one that is approved names the submittal, its day and its revision.

use serde::Serialize;

use super::Sources;
use crate::catalog::Profile;
use crate::job::{Approval, Sending, Stands, SubmittalPart, Transmittal};

/// What a packet says of approval.
#[derive(Clone, Debug, Default, Serialize)]
pub struct PacketApproval {
    /// What stands on every sheet while something is not approved; empty otherwise.
    pub stop: String,
    /// Which revision that is, and which is approved; follows `stop`.
    pub stop_of: String,
    /// What stands on every sheet once all is approved; empty otherwise.
    pub approved: String,
    /// How each part stands; empty where the job keeps no submittal of them.
    pub parts: Vec<String>,
}

/// The parts that a crew works by.
const WORKED_BY: [SubmittalPart; 2] = [SubmittalPart::Schedule, SubmittalPart::ShopDrawings];

/// The owner's profile of a job.
pub(super) fn profile<'s>(sources: &Sources<'s>) -> Option<&'s Profile> {
    sources.catalog.profiles.get(&sources.reviewed.job().head.profile)
}

/// The number of a sending, as the owner writes it.
pub(super) fn number(sources: &Sources, transmittal: &Transmittal, time: usize) -> String {
    transmittal.number_of(profile(sources), time)
}

/// How something stands, in words, such as `087113-1, approved as noted 2026-12-01, revision A`.
pub(super) fn sentence(sources: &Sources, approval: &Approval) -> String {
    let (Some(transmittal), stands) = (approval.transmittal, approval.stands) else {
        return match approval.stands {
            Stands::NotKept => "no submittal on record".to_owned(),
            _ => "no transmittal".to_owned(),
        };
    };
    let of = |sending: Sending| number(sources, transmittal, sending.time);
    let answered = |sending: Sending| match &sending.round.answer {
        Some(answer) => {
            format!("{}, {} {}, revision {}", of(sending), answer.disposition.word, answer.back, sending.round.revision)
        }
        None => of(sending),
    };
    match stands {
        Stands::NotKept | Stands::NotSubmitted | Stands::NeverSent => {
            format!("{}, not sent", number(sources, transmittal, 0))
        }
        Stands::Out(sending) => {
            format!("{}, sent {}, revision {}, not returned", of(sending), sending.round.sent, sending.round.revision)
        }
        Stands::Returned(sending) | Stands::Approved { sending, .. } => answered(sending),
    }
}

/// What the packets of a job say of approval: of the schedule and the shop drawings, where the job submits them.
pub(super) fn of_packet(sources: &Sources) -> PacketApproval {
    let job = sources.reviewed.job();
    let Some(section) = job.head.section.as_deref() else { return PacketApproval::default() };
    let submitted = |part: &SubmittalPart| job.submittals.iter().any(|it| it.parts.contains(part));
    let parts: Vec<_> =
        WORKED_BY.into_iter().filter(submitted).map(|part| (part, job.approval(part, section))).collect();
    if parts.is_empty() {
        return PacketApproval::default();
    }
    let reported: Vec<String> =
        parts.iter().map(|(part, approval)| format!("{}: {}", part.word(), sentence(sources, approval))).collect();
    if parts.iter().all(|(_, approval)| approval.is_current()) {
        let approved = stamp(sources, parts.iter().map(|(_, approval)| approval));
        return PacketApproval { approved, parts: reported, ..PacketApproval::default() };
    }
    let last: Vec<Option<&str>> =
        parts.iter().map(|(_, approval)| Some(approval.approved?.round.revision.as_str())).collect();
    let which = match last.as_slice() {
        [Some(first), rest @ ..] if rest.iter().all(|it| *it == Some(*first)) => first,
        all if all.iter().all(Option::is_none) => "none",
        _ => "in part",
    };
    let stop_of = format!(": revision {}; approved: {which}", job.head.revision_word());
    PacketApproval {
        stop: "NOT APPROVED, not for construction".to_owned(),
        stop_of,
        parts: reported,
        ..Default::default()
    }
}

/// Day, revision and numbers of approvals of one revision: the day is that of the last.
fn stamp<'a>(sources: &Sources, approvals: impl Iterator<Item = &'a Approval<'a>>) -> String {
    let (mut numbers, mut last) = (Vec::new(), None);
    for approval in approvals {
        let (Some(transmittal), Some(sending)) = (approval.transmittal, approval.approved) else { continue };
        let number = number(sources, transmittal, sending.time);
        if !numbers.contains(&number) {
            numbers.push(number);
        }
        last = last.max(sending.round.answer.as_ref().map(|answer| answer.back));
    }
    let day = last.map_or_else(String::new, |day| format!(" {day}"));
    let revision = sources.reviewed.job().head.revision_word();
    format!("Approved{day}, revision {revision}: {}", numbers.join(", "))
}
