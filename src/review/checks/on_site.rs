//! What a crew looks at, tries or measures once on a site, for all openings there that it is about: one row a check.
//!
//! In: openings of a job. Out: findings of the codes below, one a site. May not know: the site.

use super::super::access::{has_hand_device, maneuver_asked, wired};
use super::{Check, CheckScope, OpeningContext};
use crate::catalog::{ClauseOf, Substrate};
use crate::findings::{Code, Papers, Severity};
use crate::job::{LeafEntry, Rating, Release};
use crate::review::sites::SiteCheck;

/// The code of a check on the site, which holds no paper.
const fn code(id: &'static str, says: &'static str, why: &'static str, example: &'static str) -> Code {
    Code { id, severity: Severity::FieldVerify, says, why, example, blocks: Papers::NONE }
}

/// A strike on a labeled opening, with its power gone.
pub(in crate::review) static FIRE_STRIKE: Check = Check {
    code: &code(
        "fire-strike",
        "check that strikes of labeled openings keep the leaf latched with power off: {found}",
        "A strike that releases on loss of power leaves a fire door unlatched. At a labeled opening a strike is fail-secure (from memory) and listed for the use.",
        "rating = \"90 min\"\nleaf = { release = \"electric strike\" }",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::FireStrike,
        at: is_labeled_with_strike,
        asked: |_, _| Some("fail secure, listed".to_owned()),
        advise: "read the label of the strike; test with its power off",
    }),
};

/// Holes that are drilled on the site in a labeled leaf or frame.
pub(in crate::review) static FIRE_HOLES: Check = Check {
    code: &code(
        "fire-holes",
        "drill no hole larger than {asked} in a labeled leaf, and list each: {found}",
        "A label permits small holes for hardware; a larger hole, or a wire chase, is for the factory or the label service. The value is from memory: the label and its standard govern.",
        "rating = \"90 min\"   # at a powered leaf",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::FireHoles,
        at: is_labeled_and_powered,
        asked: |opening, clause| Some(opening.inches(clause.most?)),
        advise: "record every hole in the packet, with a photo of the label",
    }),
};

/// Gaps around a labeled leaf.
pub(in crate::review) static FIRE_GAPS: Check = Check {
    code: &code(
        "fire-gaps",
        "measure clearances of labeled leaves: {found}; {asked}",
        "A leaf with excessive clearances does not perform as a fire door; record the existing condition before installation.",
        "rating = \"90 min\"",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::FireGaps,
        at: has_gaps_unmeasured,
        asked: |opening, clause| {
            Some(format!(
                "{} at head, jambs and meeting edge, 3/4 in at the floor, at most",
                opening.inches(clause.most?)
            ))
        },
        advise: "measure with a gauge; where exceeded, notify the owner before installation",
    }),
};

/// An alcove in which a person has to turn to a device.
pub(in crate::review) static ALCOVE_NARROW: Check = Check {
    code: &code(
        "alcove-narrow",
        "measure every alcove with a device: {found}; {asked}",
        "A push plate at the end of a narrow recess is out of reach from a wheelchair. Drawings show the wall, not the planter and the radiator beside it.",
        "rules = [\"ada-2010\"]   # at any device worked by hand",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::Alcove,
        at: has_hand_device,
        asked: |opening, _| {
            let asked = opening.asked(ClauseOf::Alcove);
            let words = asked.iter().filter_map(|it| {
                let (wide, deep) = (opening.inches(it.clause.least?), opening.inches(it.clause.depth?));
                Some(format!("{wide} wide where deeper than {deep}"))
            });
            Some(format!("{}, the larger for parallel approach", words.collect::<Vec<_>>().join(", ")))
        },
        advise: "relocate the device outside the alcove where it is narrower",
    }),
};

/// The floor where a person stands before a leaf or a device.
pub(in crate::review) static FLOOR_UNEVEN: Check = Check {
    code: &code(
        "floor-uneven",
        "inspect the floor at leaves and devices: {found}; {asked}",
        "A wheelchair rolls back at a raised edge while the user presses the plate. Mats, cracked slabs and ramps that begin too close are reported to the owner before the opening is accepted as accessible.",
        "rules = [\"ada-2010\"]   # at any device worked by hand",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::LevelChange,
        at: is_stood_before,
        asked: |opening, clause| {
            let most = opening.inches(clause.most?);
            Some(format!("no edge above {most}, {} if beveled", opening.inches(clause.depth?)))
        },
        advise: "check with a level; record higher edges with a photo",
    }),
};

/// What stands out into the way through an open leaf.
pub(in crate::review) static PROJECTIONS: Check = Check {
    code: &code(
        "projections",
        "measure projections into the clear opening with each leaf open: {found}; {asked}",
        "A bar, a lever or a plate on the open leaf projects into the clear opening. Hardware that complied on a leaf opening to 110 degrees may not comply on one that stops at 90.",
        "rules = [\"ibc-2018\"]   # at any powered leaf",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::Projection,
        at: is_powered,
        asked: |opening, clause| {
            let low = opening.inches(clause.depth?);
            Some(format!("none below {low}, {} maximum from there to 80 in", opening.inches(clause.most?)))
        },
        advise: "measure at the open position set on the operator",
    }),
};

/// Devices that one hand works without a tight grasp.
pub(in crate::review) static OPERABLE_PARTS: Check = Check {
    code: &code(
        "operable-parts",
        "test every device with one hand: {found}; {asked}",
        "A device that is stiff or requires pinching is not usable by persons with limited hand function.",
        "rules = [\"ada-2010\"]   # at any device worked by hand",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::OperableParts,
        at: has_hand_device,
        asked: |_, _| Some("no grasping, pinching or twisting, 5 lbf maximum".to_owned()),
        advise: "test each with a closed fist and a force gauge",
    }),
};

/// The force that opens a powered leaf by hand when its power is gone.
pub(in crate::review) static POWER_OFF_FORCE: Check = Check {
    code: &code(
        "power-off-force",
        "measure manual opening force of each leaf, power off: {found}; {asked}",
        "Every powered leaf in a means of egress opens by hand from any position. The model code permits 50 lbf to start it, the operator standards 30 lbf (from memory); it is adjusted to 30 lbf and both limits are recorded.",
        "rules = [\"ibc-2021\"]   # at any powered leaf",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::PowerOffForce,
        at: is_powered,
        asked: |_, _| Some("15 lbf to release, 30 lbf to start (code: 50 lbf), 15 lbf to open fully".to_owned()),
        advise: "measure with a force gauge 1 in from the latch edge; record the values",
    }),
};

/// Where the signs of a powered leaf stand.
pub(in crate::review) static SIGNS_HEIGHT: Check = Check {
    code: &code(
        "signs-height",
        "mount signs of each powered leaf: {found}; {asked}",
        "A sign identifies the type of automatic door before it is used. Two on each powered leaf, one on each side; none on an unpowered leaf.",
        "rules = [\"low-energy\"]   # at any powered leaf",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::Signs,
        at: is_powered,
        asked: |opening, clause| {
            Some(format!(
                "center {} to {} above the floor, both sides",
                opening.inches(clause.least?),
                opening.inches(clause.most?)
            ))
        },
        advise: "measure from the finished floor",
    }),
};

/// The means that disconnects an operator.
pub(in crate::review) static DISCONNECT_IN_SIGHT: Check = Check {
    code: &code(
        "disconnect-in-sight",
        "locate the disconnecting means of each operator: {found}; {asked}",
        "A person working on the arm must be able to see that the power is off, or lock it off.",
        "rules = [\"nec-2023\"]   # at any powered leaf",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::Disconnect,
        at: is_powered,
        asked: |_, _| Some("within sight of the header, or a breaker lockable in the open position".to_owned()),
        advise: "the licensed electrician identifies and labels it",
    }),
};

/// Low-voltage wires that enter a header beside line voltage.
pub(in crate::review) static CLASS_TWO_APART: Check = Check {
    code: &code(
        "class-two-apart",
        "separate low-voltage wiring from line voltage: {found}; {asked}",
        "Class 2 conductors in contact with line-voltage conductors are no longer Class 2. Both enter the header, so each has a separate entry and route.",
        "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\" }]   # wired",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::ClassTwo,
        at: has_wired_device,
        asked: |opening, clause| {
            Some(format!(
                "{} inside the header, 2 in elsewhere, no common raceway or box",
                opening.inches(clause.least?)
            ))
        },
        advise: "use separate entries; inspect before the cover is installed",
    }),
};

/// Cables through bored wood studs.
pub(in crate::review) static STUDS_BORED: Check = Check {
    code: &code(
        "studs-bored",
        "inspect bored studs before the wall is closed: {found}; {asked}",
        "A screw of the header or of a sign can damage a cable that runs too close to the face of the stud.",
        "substrate = { kind = \"wood\" }   # with a wired device, and rules = [\"nec-2023\"]",
    ),
    clause: None,
    over: CheckScope::Site(SiteCheck {
        of: ClauseOf::BoredFraming,
        at: has_cable_in_wood,
        asked: |opening, clause| {
            let least = opening.inches(clause.least?);
            Some(format!("{least} from the hole to the nearest edge, or a steel plate; none at steel conduit"))
        },
        advise: "bore at the center of the stud; install a steel plate where that is not possible",
    }),
};

fn is_powered(opening: &OpeningContext) -> bool {
    opening.is_powered()
}

fn is_labeled(opening: &OpeningContext) -> bool {
    opening.opening.entry.rating.get().is_some_and(|it| *it != Rating::None)
}

/// Whether a leaf of a labeled opening has a gap that nobody has measured.
fn has_gaps_unmeasured(opening: &OpeningContext) -> bool {
    let unmeasured = |leaf: &LeafEntry| leaf.gap.is_absent() || leaf.undercut.is_absent();
    is_labeled(opening) && opening.opening.leaves.iter().any(unmeasured)
}

fn is_labeled_and_powered(opening: &OpeningContext) -> bool {
    is_labeled(opening) && opening.is_powered()
}

fn is_labeled_with_strike(opening: &OpeningContext) -> bool {
    is_labeled(opening) && opening.powered().any(|it| it.entry.release.get() == Some(&Release::Strike))
}

/// Whether a person stands before a leaf or a device of it.
fn is_stood_before(opening: &OpeningContext) -> bool {
    has_hand_device(opening) || maneuver_asked(opening).is_some()
}

fn has_wired_device(opening: &OpeningContext) -> bool {
    opening.is_powered() && opening.opening.entry.device.list().iter().any(wired)
}

/// A wired device in a wall of wood; the header's own substrate tells what the wall is made of.
fn has_cable_in_wood(opening: &OpeningContext) -> bool {
    let frame = opening.opening.entry.frame.get();
    has_wired_device(opening) && frame.is_some_and(|frame| frame.fixed_to.get() == Some(&Substrate::Wood))
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::review::fixtures::under;

    /// An opening of the sound job with more text, reviewed under an edition.
    type Opening = (&'static str, &'static str);

    /// A check with openings that pass and openings that fail, each with how what is asked begins and the clause, where
    /// they are held to something.
    pub(in crate::review::checks) struct Case {
        pub check: &'static Check,
        passes: &'static [Opening],
        fails: &'static [(Opening, &'static str, Option<&'static str>)],
    }

    const NO_DEVICE: &str = "device = []";
    const UNPOWERED: &str = "leaf = { powered = false }";
    const PLATE: &str = "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\" }]";
    const WIRED: &str = "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", link = \"wired\" }]";
    const WIRELESS: &str =
        "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", link = \"wireless\" }]";

    const WIRED_IN_MASONRY: &str = "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", \
        link = \"wired\" }]\nframe = { fixed_to = \"masonry\" }";

    pub(in crate::review::checks) static CASES: [Case; 12] = [
        // NFPA 80 2016 6.4.4.3 (from memory as to strikes).
        Case {
            check: &FIRE_STRIKE,
            passes: &[
                ("nfpa-80-2016", ""),
                ("nfpa-80-2016", "rating = \"90 min\"\nleaf = { release = \"electrified lock\" }"),
            ],
            fails: &[(("nfpa-80-2016", "rating = \"90 min\""), "fail secure, listed", None)],
        },
        // NFPA 80 4.1.3, 1 in (from memory, so a note for the site).
        Case {
            check: &FIRE_HOLES,
            passes: &[("nfpa-80-2016", "")],
            fails: &[(("nfpa-80-2016", "rating = \"20 min\""), "1 in", None)],
        },
        // NFPA 80 2016 6.3.1.7.1 (lifesafetyservices.com, secondary): 1/8 in, and 3/4 in at the bottom.
        Case {
            check: &FIRE_GAPS,
            passes: &[("nfpa-80-2016", "")],
            fails: &[(("nfpa-80-2016", "rating = \"45 min\""), "1/8 in at head, jambs and meeting edge, 3/4 in", None)],
        },
        // ADA 2010 305.7.1 and 305.7.2 (read).
        Case {
            check: &ALCOVE_NARROW,
            passes: &[("ada-2010", NO_DEVICE)],
            fails: &[(
                ("ada-2010", PLATE),
                "36 in wide where deeper than 24 in, 60 in wide where deeper than 15 in, the larger for parallel approach",
                None,
            )],
        },
        // ADA 2010 303.2 and 303.3 (read): 1/4 in upright, to 1/2 in with a bevel.
        Case {
            check: &FLOOR_UNEVEN,
            passes: &[("ada-2010", NO_DEVICE)],
            fails: &[
                (("ada-2010", PLATE), "no edge above 1/4 in, 1/2 in if beveled", Some("ADA 2010 303.2, 303.3")),
                (("ada-2010", "energy = \"power assist\""), "no edge above 1/4 in", None),
            ],
        },
        // IBC 2018 1010.1.1.1 (read): none below 34 in, 4 in from there to 80 in.
        Case {
            check: &PROJECTIONS,
            passes: &[("ibc-2018", UNPOWERED)],
            fails: &[(
                ("ibc-2018", ""),
                "none below 34 in, 4 in maximum from there to 80 in",
                Some("IBC 2018 1010.1.1.1"),
            )],
        },
        // ADA 2010 309.4 (read).
        Case {
            check: &OPERABLE_PARTS,
            passes: &[
                ("ada-2010", NO_DEVICE),
                ("ada-2010", "device = [{ kind = \"safety sensor\", side = \"outside\", mount = \"leaf\" }]"),
            ],
            fails: &[(("ada-2010", PLATE), "no grasping, pinching or twisting, 5 lbf", Some("ADA 2010 309.4"))],
        },
        // IBC 2021 1010.3.2 (secondary; the text of 2018 was read). 50 and 30 differ by source: both are told.
        Case {
            check: &POWER_OFF_FORCE,
            passes: &[("ibc-2021", UNPOWERED), ("ada-2010", "")],
            fails: &[
                (("ibc-2021", ""), "15 lbf to release, 30 lbf to start (code: 50 lbf)", None),
                (("ibc-2018", ""), "15 lbf", Some("IBC 2018 1010.1.4.2")),
            ],
        },
        // Sign height 50 in, 12 in up or down (steppingthruaccessibility.com, secondary).
        Case {
            check: &SIGNS_HEIGHT,
            passes: &[("low-energy", UNPOWERED)],
            fails: &[(("low-energy", ""), "center 38 in to 62 in above the floor, both sides", None)],
        },
        // NEC 430.102(B) (secondary).
        Case {
            check: &DISCONNECT_IN_SIGHT,
            passes: &[("nec-2023", UNPOWERED)],
            fails: &[(("nec-2023", ""), "within sight", Some("NEC 2023 430.102(B) (secondary)"))],
        },
        // NEC 725.136 (forums.mikeholt.com, secondary; the section moved in 2023).
        Case {
            check: &CLASS_TWO_APART,
            passes: &[("nec-2023", WIRELESS)],
            fails: &[(("nec-2023", WIRED), "1/4 in", None)],
        },
        // NEC 300.4(A)(1) (secondary): 1 1/4 in, else a plate of 1/16 in; steel raceways are excepted.
        Case {
            check: &STUDS_BORED,
            passes: &[("nec-2023", WIRELESS), ("nec-2023", WIRED_IN_MASONRY)],
            fails: &[(("nec-2023", WIRED), "1 1/4 in", None)],
        },
    ];

    #[test]
    fn a_site_is_looked_at_where_an_opening_asks_for_it() {
        for case in &CASES {
            case.passes.iter().for_each(|(edition, more)| under(edition, more).passes(case.check));
            for ((edition, more), asked, clause) in case.fails {
                let (finding, _) = under(edition, more).one(case.check);
                assert!(finding.asked.starts_with(asked), "{}: {}", case.check.code.id, finding.asked);
                assert!(clause.is_none() || finding.clause.as_deref() == *clause, "{:?}", finding.clause);
            }
        }
    }
}
