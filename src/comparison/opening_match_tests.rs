//! Laws of comparing rolls, on rolls made at random: what is compared with itself is the same, backwards is the mirror, and
//! the changes carry one roll over into the other.
//!
//! In: seeds. Out: whatever breaks a law. May not know: doors.

use std::collections::BTreeMap;

use proptest::prelude::*;

use super::{Altered, Entry, Openings, match_openings};
use crate::comparison::sheet::{Change, Sheet};

fn entry(mark: &str, fields: &[(&str, &str)]) -> Entry {
    let fields = fields.iter().map(|(key, value)| ((*key).to_owned(), (*value).to_owned())).collect();
    Entry { mark: mark.to_owned(), fields }
}

/// A roll of openings with marks of their own, each with fields out of few words, so that some are alike and some the same.
fn rolls() -> impl Strategy<Value = Vec<Entry>> {
    let fields =
        prop::collection::btree_map("(site|between|operator|leaf 1.width|note|finish|rating|set)", "[a-c]", 0..8);
    prop::collection::btree_map("[A-H][1-9]", fields, 0..12)
        .prop_map(|all| all.into_iter().map(|(mark, fields)| Entry { mark, fields }).collect())
}

/// An edit of a roll.
#[derive(Clone, Debug)]
enum Edit {
    Remove(usize),
    Add(Entry),
    Renumber(usize, String),
    Set(usize, String, Option<String>),
}

fn edits() -> impl Strategy<Value = Vec<Edit>> {
    let at = 0_usize..12;
    let one = prop_oneof![
        at.clone().prop_map(Edit::Remove),
        ("[J-M][1-9]", "[a-c]").prop_map(|(mark, site)| Edit::Add(entry(&mark, &[("site", &site)]))),
        (at.clone(), "[N-R][1-9]").prop_map(|(at, mark)| Edit::Renumber(at, mark)),
        (at, "(site|operator|note|leaf 1.width)", prop::option::of("[a-e]"))
            .prop_map(|(at, key, to)| Edit::Set(at, key, to)),
    ];
    prop::collection::vec(one, 0..8)
}

fn edited(roll: &[Entry], edits: &[Edit]) -> Vec<Entry> {
    let mut out = roll.to_vec();
    for edit in edits {
        let count = out.len().max(1);
        let has = |out: &[Entry], mark: &str| out.iter().any(|it| it.mark == mark);
        match edit {
            Edit::Remove(at) if !out.is_empty() => drop(out.remove(at % count)),
            Edit::Add(it) if !has(&out, &it.mark) => out.push(it.clone()),
            Edit::Renumber(at, mark) if !out.is_empty() && !has(&out, mark) => out[at % count].mark = mark.clone(),
            Edit::Set(at, key, to) if !out.is_empty() => {
                let fields = &mut out[at % count].fields;
                match to {
                    Some(value) => drop(fields.insert(key.clone(), value.clone())),
                    None => drop(fields.remove(key)),
                }
            }
            _ => {}
        }
    }
    out
}

/// The roll that the changes make of another; fields of what was added come from the roll they were added in.
fn applied(before: &[Entry], openings: &Openings, after: &[Entry]) -> BTreeMap<String, Sheet> {
    let mut out: BTreeMap<String, Sheet> = before.iter().map(|it| (it.mark.clone(), it.fields.clone())).collect();
    openings.removed.iter().for_each(|mark| drop(out.remove(mark)));
    let altered: Vec<(&Altered, Sheet)> = openings
        .renumbered
        .iter()
        .chain(&openings.changed)
        .map(|it| (it, out.remove(&it.before).expect("an opening that was there")))
        .collect();
    for (it, mut fields) in altered {
        for Change { field, before, after } in &it.changes {
            assert_eq!(fields.get(field), before.as_ref(), "what it was");
            match after {
                Some(value) => drop(fields.insert(field.clone(), value.clone())),
                None => drop(fields.remove(field)),
            }
        }
        assert_eq!(out.insert(it.after.clone(), fields), None, "marks are unique");
    }
    for mark in &openings.added {
        let added = after.iter().find(|it| it.mark == *mark).expect("an opening that came");
        assert_eq!(out.insert(mark.clone(), added.fields.clone()), None);
    }
    out
}

fn mirrored(openings: &Openings) -> Openings {
    let turn = |all: &[Altered]| {
        let mut turned: Vec<Altered> = all
            .iter()
            .map(|it| {
                let changes = it.changes.iter();
                let changes = changes.map(|it| Change {
                    field: it.field.clone(),
                    before: it.after.clone(),
                    after: it.before.clone(),
                });
                Altered {
                    before: it.after.clone(),
                    after: it.before.clone(),
                    alike: it.alike,
                    changes: changes.collect(),
                }
            })
            .collect();
        turned.sort_by(|one, other| one.before.cmp(&other.before));
        turned
    };
    let mut out = openings.clone();
    std::mem::swap(&mut out.added, &mut out.removed);
    out.renumbered = turn(&openings.renumbered);
    out.changed = turn(&openings.changed);
    for it in &mut out.candidates {
        std::mem::swap(&mut it.before, &mut it.after);
    }
    sorted(out)
}

fn sorted(mut openings: Openings) -> Openings {
    openings.added.sort();
    openings.removed.sort();
    openings.renumbered.sort_by(|one, other| one.before.cmp(&other.before));
    openings.changed.sort_by(|one, other| one.before.cmp(&other.before));
    openings.candidates.sort_by(|one, other| (&one.before, &one.after).cmp(&(&other.before, &other.after)));
    openings
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    /// The laws of a difference, for a thousand random edits: of a thing and itself it is empty; turned round it is the
    /// mirror; laid over the one it gives the other.
    #[test]
    fn a_comparison_carries_one_roll_into_the_other(roll in rolls(), edits in edits()) {
        let after = edited(&roll, &edits);
        let itself = match_openings(&roll, &roll);
        prop_assert_eq!(&itself, &Openings { unchanged: roll.len(), ..Openings::default() });
        let openings = match_openings(&roll, &after);
        let wanted: BTreeMap<String, Sheet> = after.iter().map(|it| (it.mark.clone(), it.fields.clone())).collect();
        prop_assert_eq!(applied(&roll, &openings, &after), wanted);
        let kept = openings.unchanged + openings.changed.len() + openings.renumbered.len();
        prop_assert_eq!(kept + openings.removed.len(), roll.len());
        prop_assert_eq!(kept + openings.added.len(), after.len());
        prop_assert_eq!(mirrored(&openings), sorted(match_openings(&after, &roll)));
    }
}

/// Of three openings one is changed and one gets another mark: nothing is added, nothing removed.
#[test]
fn one_changed_and_one_renumbered() {
    let a = entry("A", &[("site", "north"), ("operator", "o1"), ("note", "x")]);
    let b = entry("B", &[("site", "north"), ("operator", "o2"), ("note", "y")]);
    let c = entry("C", &[("site", "south"), ("operator", "o3"), ("note", "z")]);
    let b_changed = entry("B", &[("site", "north"), ("operator", "o2"), ("note", "w")]);
    let d = Entry { mark: "D".to_owned(), ..c.clone() };
    let openings = match_openings(&[a.clone(), b, c], &[a, b_changed, d]);
    assert_eq!((openings.added.len(), openings.removed.len(), openings.unchanged), (0, 0, 1));
    assert_eq!((openings.changed[0].before.as_str(), openings.changed[0].changes.len()), ("B", 1));
    assert_eq!((openings.renumbered[0].before.as_str(), openings.renumbered[0].after.as_str()), ("C", "D"));
}

/// Two openings of one kind that went, and one like them that came: which of the two it is, nobody can tell.
#[test]
fn what_is_not_clear_is_reported_as_a_candidate() {
    let like =
        |mark: &str, note: &str| entry(mark, &[("site", "north"), ("operator", "o1"), ("finish", "a"), ("note", note)]);
    let openings = match_openings(&[like("A", "1"), like("B", "2")], &[like("C", "3")]);
    assert_eq!((openings.added.len(), openings.removed.len(), openings.renumbered.len()), (1, 2, 0));
    assert_eq!(openings.candidates.len(), 2);
    let clear = match_openings(&[like("A", "1")], &[like("C", "3")]);
    assert_eq!((clear.renumbered.len(), clear.renumbered[0].changes.len()), (1, 1));
}
