//! Hands of leaves that are no longer what a recorded issue says.
//!
//! In: what stands where by a recorded issue and by the job as it is now. Out: `hand-changed`, with both places. May not know: which
//! of the two is right.
//!
//! Moving `outside` to the other room leaves hinges, swing and letters as they are typed and turns the leaf in the plan; the earlier issue
//! knows how it hung, so both are compared as seen from the same room.

use std::collections::BTreeMap;

use super::codes;
use crate::comparison::Renaming;
use crate::engineering::{Hang, PlanEnd, Room};
use crate::findings::{Finding, Findings, Place, Subject};
use crate::job::Opening;
use crate::takeoff::{Form, OpeningWork, Takeoff};

/// Every leaf that hung otherwise in an earlier issue.
pub(super) fn changed(was: &Takeoff, is: &Takeoff, renaming: &Renaming) -> Findings {
    let mut findings = Findings::default();
    let here: BTreeMap<&str, &OpeningWork> =
        is.arrangement.openings.iter().map(|it| (it.opening.mark.as_str(), it)).collect();
    for before in &was.arrangement.openings {
        let mark = renaming.mark(&before.opening.mark);
        let Some(now) = here.get(mark.as_str()) else { continue };
        let Some(turned) = is_turned(before.opening, now.opening) else { continue };
        for at in 0..before.leaves.len().min(now.leaves.len()) {
            findings_of(at, before, now, turned).into_iter().for_each(|it| findings.push(it));
        }
    }
    findings
}

/// Whether the outside is the other of the same two rooms by now; nothing where the rooms are not the same, or not known.
fn is_turned(was: &Opening, is: &Opening) -> Option<bool> {
    let outside = |it: &Opening| it.entry.outside.get().map(|room| room.as_str().to_owned());
    let (before, now) = (outside(was), outside(is));
    if before == now {
        return Some(false);
    }
    let has = |it: &Opening, named: &str| it.entry.between.list().iter().any(|room| room.as_str() == named);
    let (before, now) = (before?, now?);
    let same = [&before, &now].iter().all(|room| has(was, room) && has(is, room));
    same.then_some(true)
}

fn findings_of(at: usize, before: &OpeningWork, now: &OpeningWork, turned: bool) -> Option<Finding> {
    let (was, is) = (before.leaves[at].hang()?, now.leaves[at].hang()?);
    let is = if turned { from_other_room(is) } else { is };
    if was == is {
        return None;
    }
    let letters = |hang: Hang, form: Form| match form {
        Form::DoubleEgress => hang.hand_in_double_egress().letters(),
        _ => hang.hand(Room::First).letters(),
    };
    let room = before.opening.entry.outside.get().map_or(String::new(), |room| format!(" seen from {}", room.as_str()));
    let leaf = if now.leaves.len() > 1 { format!(" at leaf {}", at + 1) } else { String::new() };
    let place = |work: &OpeningWork| -> Option<Place> {
        let leaf = work.leaves[at].entry;
        let typed = if turned { work.opening.entry.outside.place() } else { None };
        typed.or(leaf.hinges.place()).or(leaf.swing.place()).cloned()
    };
    let finding = Finding::new(&codes::HAND_CHANGED, Subject::Opening(now.opening.mark.clone()))
        .near(place(now)?, "now")
        .near(place(before)?, "in the recorded issue")
        .found(format!("{}{leaf}{room}", letters(is, now.form)))
        .asked(letters(was, before.form));
    Some(finding.advise(
        "correct outside, hinges or swing, or accept this with the reason of the change; papers use the job as it is now",
    ))
}

/// The same leaf in the plan whose first room is the other one.
fn from_other_room(hang: Hang) -> Hang {
    let hinges = match hang.hinges {
        PlanEnd::First => PlanEnd::Second,
        PlanEnd::Second => PlanEnd::First,
    };
    Hang { hinges, into: hang.into.other() }
}
