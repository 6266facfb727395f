//! What a survey states and the job, or an earlier survey, states too: one row a pair.
//!
//! In: an opening with what its surveys changed. Out: findings of the codes below. May not know: which of the two is right.

use super::{Check, CheckScope, OpeningContext};
use crate::engineering::{Hand, Hang, Room};
use crate::findings::{Code, Paper, Papers, Place, Severity};
use crate::job::{Apart, HingeEdge, LeafEntry, Remeasured, Swing};
use crate::measure::{Length, Unit, Weight};
use crate::review::contexts::hang_of;
use crate::review::pair::{Compared, Disagreement, PairCheck, Statement};

/// The papers on which a hand is ordered, drilled or hung.
const HAND_PAPERS: Papers = Papers::of(&[Paper::Schedule, Paper::Packet, Paper::Orders]);

/// The hand that the job gives, against the one that was seen.
pub(in crate::review) static HAND: Check = Check {
    code: &Code {
        id: "hand-surveyed",
        severity: Severity::Error,
        says: "the hand changes from {asked} to {found}",
        why: "A survey lies over what drawings say, so a slip of one word in it, or an outside that was moved in the job, \
              mirrors the leaf, its header and every part of one hand.",
        example: "leaf = { hinges = \"left\", swing = \"away\" }\n\n[[survey]]\nleaf = { hinges = \"right\" }",
        blocks: HAND_PAPERS,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["survey", "stated before"],
        used: "the hand of the last survey",
        compared: Compared::Opening(hands),
    }),
};

/// What the job says of a leaf, its frame or its power, against what was found.
pub(in crate::review) static SURVEY: Check = Check {
    code: &Code {
        id: "survey-differs",
        severity: Severity::Warning,
        says: "{found} surveyed; {asked} stated in the job",
        why: "A leaf of another size, make or hang than the schedule gives is another leaf: the survey was made at the \
              wrong opening, or schedule, drawings and everyone who reads them are wrong. Width and height may differ by \
              1/4 in, thickness by 1/8 in: leaves are undercut and old ones planed (common practice, no source).",
        example: "leaf = { width = \"3 ft 0 in\" }\n\n[[survey]]\nleaf = { width = \"3 ft 4 in\" }",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["survey", "job"],
        used: "the survey's",
        compared: Compared::Opening(job_and_survey),
    }),
};

/// What one survey says, against the survey before it.
pub(in crate::review) static SURVEYS: Check = Check {
    code: &Code {
        id: "surveys-differ",
        severity: Severity::Warning,
        says: "{found} in this survey; {asked} in an earlier one",
        why: "Between two surveys a wall was finished or a leaf rehung, or one of the two was misread; parts were ordered by the \
              first. Lengths may differ by 1/8 in and weights by 5 lb, as two people measure (common practice, no source).",
        example: "[[survey]]\npass = 1\nframe = { reveal = \"3 in\" }\n\n[[survey]]\npass = 2\nframe = { reveal = \"4 in\" }",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["this survey", "survey before it"],
        used: "the later survey's",
        compared: Compared::Opening(two_surveys),
    }),
};

/// Keys whose value tells a leaf, its hang or its supply from another, and by how much two measures of it may differ, in
/// sixty-fourths of an inch.
const TELLING: [(&str, i64); 9] = [
    ("width", 16),
    ("height", 16),
    ("thickness", 8),
    ("made", 0),
    ("hangs", 0),
    ("powered", 0),
    ("frame.made", 0),
    ("power.panel", 0),
    ("power.volts", 0),
];

/// By how much two surveys may differ, in sixty-fourths of an inch and in pounds.
const TWO_SURVEYS: (i64, i64) = (8, 5);

/// Keys of which the hand follows.
const HAND_KEYS: [&str; 2] = ["hinges", "swing"];

fn job_and_survey(opening: &OpeningContext) -> Vec<Disagreement> {
    let changed = opening.opening.remeasured.iter().filter(|it| !it.is_of_two_surveys() && it.was_known());
    let differs = |it: &&Remeasured| {
        let telling = TELLING.iter().find(|(key, _)| *key == it.key);
        telling.is_some_and(|(_, within)| is_beyond(it.apart, Length::sixty_fourths(*within), None))
    };
    changed.filter(differs).map(|it| disagreement(opening, it)).collect()
}

fn two_surveys(opening: &OpeningContext) -> Vec<Disagreement> {
    let changed = opening.opening.remeasured.iter().filter(|it| it.is_of_two_surveys());
    let (inches, pounds) = TWO_SURVEYS;
    let pounds = Weight::new(pounds.into(), Unit::Pound);
    let differs = |it: &&Remeasured| {
        let of_hand = it.leaf.is_some() && HAND_KEYS.contains(&it.key.as_str());
        !of_hand && is_beyond(it.apart, Length::sixty_fourths(inches), pounds)
    };
    changed.filter(differs).map(|it| disagreement(opening, it)).collect()
}

/// Whether two values differ by more than they may. What is no measure differs where it is another.
fn is_beyond(apart: Option<Apart>, length: Length, weight: Option<Weight>) -> bool {
    match apart {
        None => true,
        Some(Apart::Length(apart)) => apart > length,
        Some(Apart::Weight(apart)) => weight.is_none_or(|most| apart > most),
    }
}

fn disagreement(opening: &OpeningContext, changed: &Remeasured) -> Disagreement {
    let of = match changed.leaf {
        Some(leaf) if opening.opening.leaves.len() > 1 => format!("leaf {leaf} {}", changed.key),
        Some(_) => format!("leaf {}", changed.key),
        None => changed.key.replace('.', " "),
    };
    let margin = changed.apart.map(|it| match it {
        Apart::Length(it) => opening.length(it),
        Apart::Weight(it) => opening.weight(it),
    });
    let key = match changed.leaf {
        Some(leaf) if opening.opening.leaves.len() > 1 => format!("leaf.{leaf}.{}", changed.key),
        Some(_) => format!("leaf.{}", changed.key),
        None => changed.key.clone(),
    };
    Disagreement {
        subject: opening.subject(),
        one: Statement::new(format!("{of} {}", changed.is.text), &changed.is.place),
        other: Statement::new(&*changed.was.text, &changed.was.place),
        margin,
        write: format!("write the right `{key}` at both places"),
    }
}

/// How a leaf hangs, and where that is typed.
#[derive(Clone)]
struct Seen {
    hinges: (HingeEdge, Place),
    swing: (Swing, Place),
}

impl Seen {
    fn of(leaf: &LeafEntry) -> Option<Seen> {
        let (hinges, swing) = (leaf.hinges.given()?, leaf.swing.given()?);
        Some(Seen { hinges: (hinges.value, hinges.place.clone()), swing: (swing.value, swing.place.clone()) })
    }

    /// Puts one value back as it was before a survey.
    fn undo(&mut self, changed: &Remeasured) {
        let (was, place) = (changed.was.text.as_str(), &changed.was.place);
        if let Some(edge) = HingeEdge::ALL.iter().find(|it| changed.key == "hinges" && it.word() == was) {
            self.hinges = (*edge, place.clone());
        }
        if let Some(swing) = Swing::ALL.iter().find(|it| changed.key == "swing" && it.word() == was) {
            self.swing = (*swing, place.clone());
        }
    }

    fn hang(&self) -> Hang {
        hang_of(self.hinges.0, self.swing.0)
    }
}

fn letters(seen: &[Option<Seen>], at: usize) -> Option<&'static str> {
    let hang = seen[at].as_ref()?.hang();
    let known: Option<Vec<Swing>> = seen.iter().map(|it| Some(it.as_ref()?.swing.0)).collect();
    let is_double_egress = known?.windows(2).any(|two| two[0] != two[1]);
    let hand: Hand = if is_double_egress { hang.hand_in_double_egress() } else { hang.hand(Room::First) };
    Some(hand.letters())
}

/// Hands before and after each survey, the last first, since what is known is how the leaves hang by all of them.
fn hands(opening: &OpeningContext) -> Vec<Disagreement> {
    let changed = &opening.opening.remeasured;
    let mut after: Vec<Option<Seen>> = opening.opening.leaves.iter().map(Seen::of).collect();
    let mut found = Vec::new();
    for survey in (0..opening.opening.surveys.len()).rev() {
        let mut before = after.clone();
        for one in changed.iter().filter(|it| it.survey == survey && HAND_KEYS.contains(&it.key.as_str())) {
            let seen = one.leaf.and_then(|leaf| before.get_mut(leaf.checked_sub(1)?)?.as_mut());
            seen.into_iter().for_each(|seen| seen.undo(one));
        }
        for (at, leaf) in opening.leaves().enumerate() {
            let key = |it: &&Remeasured| {
                it.survey == survey && it.leaf == Some(leaf.number) && HAND_KEYS.contains(&it.key.as_str())
            };
            let (Some(one), Some(was), Some(is)) =
                (changed.iter().find(key), letters(&before, at), letters(&after, at))
            else {
                continue;
            };
            found.push(Disagreement {
                subject: opening.subject(),
                one: Statement::new(leaf.words(is), &one.is.place).says(format!("{} {}", one.key, one.is.text)),
                other: Statement::new(was, &one.was.place).says(format!("{} {}", one.key, one.was.text)),
                margin: None,
                write: "look at the leaf again; correct hinges, swing or outside in the job, or hinges, swing or seen_from in \
                        the survey"
                    .to_owned(),
            });
        }
        after = before;
    }
    found
}
