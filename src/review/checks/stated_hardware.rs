//! Hardware that is there, against the latch and the release of the leaf it is on: one row a pair.
//!
//! In: an opening. Out: findings of the codes below. May not know: which of the two is right.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Papers, Severity};
use crate::input::{Given, Slot};
use crate::job::{ExistingEntry, ExistingKind, LatchKind, Release};
use crate::review::pair::{Compared, Disagreement, PairCheck, Statement};

use super::super::contexts::LeafContext;

/// The latch of a leaf, against the latch that is there and stays.
pub(in crate::review) static EXISTING_LATCH: Check = Check {
    code: &Code {
        id: "existing-latch",
        severity: Severity::Warning,
        says: "latch {found}; {asked} is there and stays",
        why: "A leaf that keeps its latch has that latch. The release that fits it, the sequence and the schedule follow the latch that is typed.",
        example: "leaf = { latch = \"mortise lock\", existing = [{ what = \"rim exit device\", becomes = \"reuse\" }] }",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["latch", "hardware that stays"],
        used: "the latch of the leaf",
        compared: Compared::Opening(latches),
    }),
};

/// The release of a leaf, against the release that is there and stays.
pub(in crate::review) static EXISTING_RELEASE: Check = Check {
    code: &Code {
        id: "existing-release",
        severity: Severity::Warning,
        says: "latch release {found}; {asked} is there and stays",
        why: "What stays is not bought again. A leaf that states another release is priced with one, and wired and tested for it.",
        example: "leaf = { release = \"latch retraction\", existing = [{ what = \"electric strike\", becomes = \"reuse\" }] }",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["release", "hardware that stays"],
        used: "the release of the leaf",
        compared: Compared::Opening(releases),
    }),
};

/// What of a leaf's hardware stays and is one of a sort, with where it is typed.
fn staying<'l, T>(
    leaf: &LeafContext<'_, 'l>,
    sort: impl Fn(ExistingKind) -> Option<T>,
) -> Vec<(T, &'l Given<ExistingKind>)> {
    let stays = |it: &&'l ExistingEntry| it.becomes.get().is_some_and(|becomes| becomes.stays());
    let of = |it: &'l ExistingEntry| {
        let what = it.what.given()?;
        Some((sort(what.value)?, what))
    };
    leaf.entry.existing.list().iter().filter(stays).filter_map(of).collect()
}

/// Where a leaf states one of a sort and none of those that stay is it.
fn differs<T: Copy + PartialEq>(
    leaf: &LeafContext,
    stated: &Slot<T>,
    staying: Vec<(T, &Given<ExistingKind>)>,
    key: &str,
    word: impl Fn(T) -> &'static str,
) -> Option<Disagreement> {
    let stated = stated.given()?;
    let (kept, what) = staying.first()?;
    if staying.iter().any(|(it, _)| *it == stated.value) {
        return None;
    }
    Some(Disagreement {
        subject: leaf.of.subject(),
        one: Statement::new(leaf.words(word(stated.value)), &stated.place),
        other: Statement::new(word(*kept), &what.place),
        margin: None,
        write: format!("write {key} = \"{}\", or becomes = \"remove\" where it goes", word(*kept)),
    })
}

fn latches(opening: &OpeningContext) -> Vec<Disagreement> {
    let of = |leaf: LeafContext| {
        differs(&leaf, &leaf.entry.latch, staying(&leaf, ExistingKind::latch), "latch", LatchKind::word)
    };
    opening.leaves().filter_map(of).collect()
}

/// A release of others may be any that is there.
fn releases(opening: &OpeningContext) -> Vec<Disagreement> {
    let of = |leaf: LeafContext| {
        let others = leaf.entry.release.get() == Some(&Release::Others);
        let kept = if others { Vec::new() } else { staying(&leaf, ExistingKind::release) };
        differs(&leaf, &leaf.entry.release, kept, "release", Release::word)
    };
    opening.leaves().filter_map(of).collect()
}
