//! What an opening states, and its partner, its panel or another of its own values states too: one row a pair.
//!
//! In: an opening. Out: findings of the codes below. May not know: which of the two is right.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::engineering::same_service;
use crate::findings::{Code, Papers, Place, Severity};
use crate::input::Given;
use crate::job::{LockedLine, Opening, VestibuleEntry};
use crate::measure::{Length, Style, Unit, Volts};
use crate::review::pair::{Compared, Disagreement, PairCheck, Statement};

/// The distance between two doors of a vestibule.
pub(in crate::review) static DISTANCE: Check = Check {
    code: &Code {
        id: "vestibule-distance",
        severity: Severity::Warning,
        says: "distance to the other vestibule door {found} here; {asked} there",
        why: "It is one distance. The space between doors in series is checked by it, and so is the time between the two.",
        example: "[[opening]]\nmark = \"101A\"\nvestibule = { partner = \"101B\", distance = \"8 ft 0 in\" }\n\n\
                  [[opening]]\nmark = \"101B\"\nvestibule = { partner = \"101A\", distance = \"7 ft 0 in\" }",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["here", "at the other door"],
        used: "at each door its own",
        compared: Compared::Opening(distances),
    }),
};

/// The locked line of a vestibule.
pub(in crate::review) static LOCKED: Check = Check {
    code: &Code {
        id: "vestibule-locked",
        severity: Severity::Warning,
        says: "locked line {found} here; {asked} there",
        why: "Which of the two doors is locked decides where a reader or a key switch lets people in, and what starts the second \
              door; `here` at one door is `partner` at the other.",
        example: "[[opening]]\nmark = \"101A\"\nvestibule = { partner = \"101B\", locked = \"here\" }\n\n\
                  [[opening]]\nmark = \"101B\"\nvestibule = { partner = \"101A\", locked = \"here\" }",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["here", "at the other door"],
        used: "at each door its own",
        compared: Compared::Opening(locked_lines),
    }),
};

/// The volts of a circuit, against those of its panel.
pub(in crate::review) static PANEL_VOLTS: Check = Check {
    code: &Code {
        id: "panel-volts",
        severity: Severity::Error,
        says: "circuit {found}; the panel gives {asked} to neutral, which makes no such circuit",
        why: "A panel gives its volts to neutral, or between two lines 1.73 times as much, or twice as much on a single-phase service. \
              A circuit of other volts needs another panel or a transformer, and breaker and spaces are wrong.",
        example: "[panel.LP-1]\nvolts = \"277 V\"\n\n[[opening]]\npower = { panel = \"LP-1\", volts = \"120 V\" }",
        blocks: OPENING_PAPERS,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["circuit", "panel"],
        used: "the circuit's",
        compared: Compared::Opening(panel_volts),
    }),
};

/// The site of an opening, against that of its panel.
pub(in crate::review) static PANEL_SITE: Check = Check {
    code: &Code {
        id: "panel-elsewhere",
        severity: Severity::Warning,
        says: "the opening is at site {found}; its panel is at site {asked}",
        why: "Circuits and free spaces are counted by site and panel, and the electrician is sent to the panel of that site.",
        example: "[panel.LP-1]\nsite = \"hall\"\n\n[[opening]]\nsite = \"clinic\"\npower = { panel = \"LP-1\" }",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["panel named", "panel"],
        used: "the site of the opening",
        compared: Compared::Opening(panel_sites),
    }),
};

/// The hinges of two leaves in one frame.
pub(in crate::review) static HINGES: Check = Check {
    code: &Code {
        id: "leaves-hinged-alike",
        severity: Severity::Error,
        says: "leaf 2 hangs at the {found}, and so does leaf 1",
        why: "Of two leaves in one frame one hangs at the left and one at the right, in a double egress too, both seen from the outside. \
              With both on one side a bracket, an arm and a drive are ordered of the wrong hand.",
        example: "leaf = [{ hinges = \"left\" }, { hinges = \"left\" }]",
        blocks: OPENING_PAPERS,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["leaf 2", "leaf 1"],
        used: "both as typed",
        compared: Compared::Opening(hinges),
    }),
};

/// The clear width, against the leaves that give it.
pub(in crate::review) static CLEAR_WIDTH: Check = Check {
    code: &Code {
        id: "clear-width-wide",
        severity: Severity::Warning,
        says: "clear width {found} through leaves {asked} wide",
        why: "An open leaf and its stop take from the width; no opening is clear for more than its leaves are wide, so one of the two \
              is misread, and the opening may pass a check that it fails.",
        example: "leaf = { width = \"3 ft 0 in\" }\naccess = { clear_width = \"38 in\" }",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["clear width", "leaf"],
        used: "the clear width for access and the leaf for its header",
        compared: Compared::Opening(clear_widths),
    }),
};

/// Both entries of a vestibule, where each names the other and this one stands later, so that a pair is compared once.
fn vestibule<'o>(opening: &'o OpeningContext) -> Option<(&'o VestibuleEntry, &'o VestibuleEntry)> {
    let partner: &Opening = opening.partner?;
    let later = partner.place < opening.opening.place && partner.partner() == Some(opening.opening.mark.as_str());
    if !later {
        return None;
    }
    Some((opening.opening.entry.vestibule.get()?, partner.entry.vestibule.get()?))
}

fn one(disagreement: Option<Disagreement>) -> Vec<Disagreement> {
    disagreement.into_iter().collect()
}

fn distances(opening: &OpeningContext) -> Vec<Disagreement> {
    let compare = || {
        let (own, other) = vestibule(opening)?;
        let (own, other) = (own.distance.given()?, other.distance.given()?);
        (own.value != other.value).then(|| Disagreement {
            subject: opening.subject(),
            one: Statement::new(opening.length(own.value), &own.place),
            other: Statement::new(opening.length(other.value), &other.place),
            margin: Some(opening.length((own.value - other.value).abs())),
            write: "write the one distance between both leaves, shut, at both doors".to_owned(),
        })
    };
    one(compare())
}

fn locked_lines(opening: &OpeningContext) -> Vec<Disagreement> {
    let compare = || {
        let (own, other) = vestibule(opening)?;
        let (own, other) = (own.locked.given()?, other.locked.given()?);
        let fits = match own.value {
            LockedLine::Here => LockedLine::Partner,
            LockedLine::Partner => LockedLine::Here,
            LockedLine::Neither => LockedLine::Neither,
        };
        (other.value != fits).then(|| Disagreement {
            subject: opening.subject(),
            one: Statement::new(own.value.word(), &own.place),
            other: Statement::new(other.value.word(), &other.place),
            margin: None,
            write: format!("write locked = \"{fits}\" at the other door, or correct it here"),
        })
    };
    one(compare())
}

fn print(volts: Volts) -> String {
    volts.print(Unit::Volt, 0, Style::Plain).unwrap_or_default()
}

fn panel_volts(opening: &OpeningContext) -> Vec<Disagreement> {
    let compare = || {
        let power = opening.opening.entry.power.get().filter(|_| opening.is_powered())?;
        let named = power.panel.given()?;
        let panel = opening.job.panels.get(named.value.as_str())?.entry.volts.given()?;
        let (circuit, place): (Volts, &Place) = match power.volts.given() {
            Some(Given { value, place, .. }) => (*value, place),
            None if power.volts.is_bad() => return None,
            None => (opening.operator?.volts, &named.place),
        };
        (!same_service(circuit, panel.value)).then(|| Disagreement {
            subject: opening.subject(),
            one: Statement::new(print(circuit), place),
            other: Statement::new(print(panel.value), &panel.place),
            margin: None,
            write: "name the panel that feeds it, or write the panel's volts to neutral".to_owned(),
        })
    };
    one(compare())
}

fn panel_sites(opening: &OpeningContext) -> Vec<Disagreement> {
    let compare = || {
        let named = opening.opening.entry.power.get()?.panel.given()?;
        let panel = opening.job.panels.get(named.value.as_str())?;
        (panel.site != opening.opening.site).then(|| Disagreement {
            subject: opening.subject(),
            one: Statement::new(&*opening.opening.site, &named.place),
            other: Statement::new(&*panel.site, panel.entry.site.place().unwrap_or(&named.place)),
            margin: None,
            write: "name a panel of the opening's site, or correct the site of one of the two".to_owned(),
        })
    };
    one(compare())
}

fn hinges(opening: &OpeningContext) -> Vec<Disagreement> {
    let compare = || {
        let [first, second] = opening.opening.leaves.as_slice() else { return None };
        let (first, second) = (first.hinges.given()?, second.hinges.given()?);
        (first.value == second.value).then(|| Disagreement {
            subject: opening.subject(),
            one: Statement::new(second.value.word(), &second.place),
            other: Statement::new(first.value.word(), &first.place),
            margin: None,
            write: "write leaf.1.hinges and leaf.2.hinges, one left and one right".to_owned(),
        })
    };
    one(compare())
}

fn clear_widths(opening: &OpeningContext) -> Vec<Disagreement> {
    let compare = || {
        let clear = opening.opening.entry.access.get()?.clear_width.given()?;
        let leaves = &opening.opening.leaves;
        let widths: Option<Vec<Length>> = leaves.iter().map(|leaf| leaf.width.cloned()).collect();
        let all = widths?.into_iter().try_fold(Length::ZERO, Length::checked_plus)?;
        let place = leaves.first()?.width.place()?;
        (clear.value > all).then(|| Disagreement {
            subject: opening.subject(),
            one: Statement::new(opening.inches(clear.value), &clear.place),
            other: Statement::new(opening.inches(all), place),
            margin: Some(opening.inches((clear.value - all).abs())),
            write: "measure both, and correct clear_width or the width of the leaf".to_owned(),
        })
    };
    one(compare())
}
