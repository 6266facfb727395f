//! Facts of leaves and of the place that a complete job states: how a leaf hangs, what holds it, what is on it, how high one works.
//!
//! In: openings of a job. Out: findings of the codes below, one a site. May not know: prices.

use super::super::absence::{AbsenceCheck, DependentWork, Lacking};
use super::unstated_devices::name;
use super::{Check, CheckScope, LeafContext, OpeningContext};
use crate::findings::{Code, Papers, Severity};
use crate::job::{Arm, Condition, Mount, Release};
use crate::measure::Length;

/// An opening of which no operator is stated, and not that it has none.
pub(in crate::review) static OPERATOR_UNKNOWN: Check = Check {
    code: &Code {
        id: "operator-unknown",
        severity: Severity::Warning,
        says: "no operator given: {found}; {asked}",
        why: "Header, drives, arms, power and nearly all hours follow from the operator. An opening without one is hardly in \
              the price, although it was listed to be priced.",
        example: "[[opening]]\nmark = \"107\"   # and neither a kind with an operator nor operator = \"none\"",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_operator,
        assumed: "assumed: opened by hand",
        depends: DependentWork::LeftOut,
        advise: "write kind = \"…\" or operator = \"…\" of the opening, or operator = \"none\"",
        question: Some("Do these openings get an operator, and which?"),
    }),
};

/// A powered leaf without hinge side or swing.
pub(in crate::review) static HANG_UNKNOWN: Check = Check {
    code: &Code {
        id: "hang-unknown",
        severity: Severity::Warning,
        says: "hinges or swing not given: {found}; {asked}",
        why: "Hand, the room of the header, the drive end, the supply end and every part of one hand follow from the \
              hinge side and the swing. Without them brackets and boxes of that hand are neither priced nor ordered.",
        example: "leaf = { powered = true, hinges = \"left\" }   # and no swing",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_hang,
        assumed: "no hand assumed, parts of one hand left out",
        depends: DependentWork::Headers,
        advise: "write hinges = \"left\" or \"right\" and swing = \"toward\" or \"away\" of the leaf, seen from outside",
        question: Some("At which edge do these leaves hang, and which way do they swing, seen from the key side?"),
    }),
};

/// A leaf with a release, and nothing said of its latch.
pub(in crate::review) static LATCH_UNKNOWN: Check = Check {
    code: &Code {
        id: "latch-unknown",
        severity: Severity::Warning,
        says: "latch release given, latch not: {found}; {asked}",
        why: "Which release fits, what wires it and whether the leaf holds in a fire depend on the latch.",
        example: "leaf = { powered = true, release = \"electric strike\" }   # and no latch",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_latch,
        assumed: "assumed: a latch that the release fits",
        depends: DependentWork::Leaves,
        advise: "write latch = \"…\" of the leaf, or release = \"no latch\"",
        question: Some("What latch is on these leaves?"),
    }),
};

/// A leaf with an electrified lock, whose wire chase is not stated.
pub(in crate::review) static WIRE_CHASE_UNKNOWN: Check = Check {
    code: &Code {
        id: "wire-chase-unknown",
        severity: Severity::Warning,
        says: "wire chase not stated for {found}; {asked}",
        why: "A lock or a retraction in the leaf is wired through the leaf, from a power transfer at the hinges. A leaf \
              without a chase is drilled, on a labeled leaf by the factory or the label service alone.",
        example: "leaf = { release = \"electrified lock\" }   # and no wire_chase",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_chase,
        assumed: "assumed: what the catalog's rules take off for a leaf without one",
        depends: DependentWork::Leaves,
        advise: "write wire_chase = true or false of the leaf",
        question: Some("Do these leaves have a wire chase from hinge to lock?"),
    }),
};

/// A leaf that may have been there before, without a statement of what is on it.
pub(in crate::review) static EXISTING_UNKNOWN: Check = Check {
    code: &Code {
        id: "existing-unknown",
        severity: Severity::Warning,
        says: "hardware on the leaf today not stated: {found}; {asked}",
        why: "A leaf that was in use has a closer, and often a stop, a holder or a coordinator that is removed, reused or \
              moved. Each is labor and filler plates, and on a labeled leaf a matter of the label.",
        example: "access = { existing = true }\nleaf = { powered = true }   # and no existing",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_existing,
        assumed: "assumed: nothing is removed or reused",
        depends: DependentWork::LeftOut,
        advise: "write existing = [{ what = \"closer\", becomes = \"remove\" }] of the leaf, existing = [] for none, or access = { existing = false } for a new opening",
        question: Some("What hardware is on these leaves today, and what becomes of it?"),
    }),
};

/// Work at a height, and nothing said of a lift.
pub(in crate::review) static HIGH_WORK_UNSTATED: Check = Check {
    code: &Code {
        id: "high-work-unstated",
        severity: Severity::Warning,
        says: "ceiling above 12 ft without the condition high work: {found}; {asked}",
        why: "Boxes, raceway and sensors under a high ceiling are installed from a lift, and hours are longer.",
        example: "ceiling = { kind = \"gypsum board\", height = \"12 ft 6 in\" }   # and no conditions",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_high_work,
        assumed: "assumed: work from a ladder, no lift",
        depends: DependentWork::LeftOut,
        advise: "write conditions = [\"high work\"], or correct the height of the ceiling",
        question: None,
    }),
};

/// A powered leaf of which a fact is left out that the forces of its arm follow from.
pub(in crate::review) static ARM_FACTS_MISSING: Check = Check {
    code: &Code {
        id: "arm-facts-missing",
        severity: Severity::Warning,
        says: "forces of the arm cannot be calculated: {found}; {asked}",
        why: "What the header's fasteners carry, and with it a backing plate, follows from the course of the arm: from \
              width, height and thickness of the leaf, how it hangs, and the reveal.",
        example: "leaf = { powered = true, width = \"3 ft 0 in\" }   # and no thickness",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_arm_facts,
        assumed: "assumed: the header needs no backing plate",
        depends: DependentWork::Headers,
        advise: "write what is named of the leaf (type of hinge: hangs = \"…\") or the frame, or of the operator in the catalog",
        question: Some("What are these dimensions?"),
    }),
};

/// A ceiling that a person does not reach from a ladder of 8 ft (common practice, no source).
const LADDER: Length = Length::feet(12);

/// The powered leaves that lack something.
fn powered(openings: &[OpeningContext], lacks: impl Fn(&LeafContext) -> bool) -> Vec<Lacking> {
    let each = openings.iter().enumerate();
    each.flat_map(|(at, it)| {
        let lacking = it.powered().filter(|leaf| lacks(leaf));
        lacking.map(|leaf| Lacking { at, name: name(&leaf), place: Some(leaf.place()) }).collect::<Vec<_>>()
    })
    .collect()
}

fn without_operator(openings: &[OpeningContext]) -> Vec<Lacking> {
    let each = openings.iter().enumerate();
    let bare = each.filter(|(_, it)| it.opening.entry.operator.is_absent() && !it.is_powered());
    bare.map(|(at, it)| Lacking { at, name: it.opening.mark.clone(), place: None }).collect()
}

fn without_hang(openings: &[OpeningContext]) -> Vec<Lacking> {
    powered(openings, |leaf| leaf.entry.hinges.is_absent() || leaf.entry.swing.is_absent())
}

fn without_latch(openings: &[OpeningContext]) -> Vec<Lacking> {
    powered(openings, |leaf| {
        let released = leaf.entry.release.get().is_some_and(|it| !matches!(it, Release::NoLatch | Release::Unknown));
        leaf.entry.latch.is_absent() && released
    })
}

fn without_chase(openings: &[OpeningContext]) -> Vec<Lacking> {
    powered(openings, |leaf| {
        let within = matches!(leaf.entry.release.get(), Some(Release::Retraction | Release::ElectrifiedLock));
        within && leaf.entry.wire_chase.is_absent()
    })
}

/// Every leaf of a powered opening that is not said to be new.
fn without_existing(openings: &[OpeningContext]) -> Vec<Lacking> {
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate().filter(|(_, it)| it.is_powered()) {
        let access = &opening.opening.entry.access;
        let is_new = access.is_bad() || access.get().is_some_and(|it| it.existing.is_bad() || !it.existing.or(true));
        let bare = opening.leaves().filter(|leaf| !is_new && leaf.entry.existing.is_absent());
        found.extend(bare.map(|leaf| Lacking { at, name: name(&leaf), place: Some(leaf.place()) }));
    }
    found
}

fn without_high_work(openings: &[OpeningContext]) -> Vec<Lacking> {
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate().filter(|(_, it)| it.is_powered()) {
        let entry = &opening.opening.entry;
        let Some(height) = entry.ceiling.get().and_then(|it| it.height.given()) else { continue };
        let said = entry.conditions.is_bad() || entry.conditions.list().contains(&Condition::High);
        if height.value > LADDER && !said {
            found.push(Lacking { at, name: opening.opening.mark.clone(), place: Some(height.place.clone()) });
        }
    }
    found
}

fn without_arm_facts(openings: &[OpeningContext]) -> Vec<Lacking> {
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate() {
        let Some(mechanics) = opening.operator.and_then(|it| it.mechanics.as_ref()) else { continue };
        let frame = &opening.opening.entry.frame;
        // A header in the frame has no back that is fastened to a wall.
        let mount = &opening.opening.entry.mount;
        let concealed = mount.is_bad() || mount.get() == Some(&Mount::Concealed);
        let reveal = frame.is_absent() || frame.get().is_some_and(|frame| frame.reveal.is_absent());
        for leaf in opening.powered() {
            let entry = leaf.entry;
            let facts = [
                ("width", entry.width.is_absent()),
                ("height", entry.height.is_absent()),
                ("thickness", entry.thickness.is_absent()),
                ("type of hinge", entry.hangs.is_absent()),
                ("reveal", reveal),
                ("the operator's push arm", entry.arm.get() == Some(&Arm::Push) && mechanics.push.is_none()),
                ("the operator's pull arm", entry.arm.get() == Some(&Arm::Pull) && mechanics.pull.is_none()),
                ("the back of its header", !concealed && mechanics.back.is_none()),
            ];
            let lacks: Vec<&str> = facts.iter().filter(|(_, lacks)| *lacks).map(|(fact, _)| *fact).collect();
            if !lacks.is_empty() {
                found.push(Lacking {
                    at,
                    name: format!("{} {}", name(&leaf), lacks.join(" and ")),
                    place: Some(leaf.place()),
                });
            }
        }
    }
    found
}
