//! What a tree says that an earlier one did not, so that a reader of a new issue finds it by its marks.
//!
//! In: two trees, and the drawings that their figures name. Out: the new one with a mark on every unit that the old one does
//! not have. May not know: what any paper is about, or how a mark looks.
//!
//! A unit is what a reader reads as one: a row of a table, a paragraph, an item, a heading, a term with its details, a figure.
//! It is changed where the old tree has no unit left that says and shows the same in the same section: below the same named
//! blocks and the same headings, a heading being the same by its id, or by its words where it has none. A section whose heading
//! reads otherwise is the one of the old tree, under the same named headings, that it has most in common with. What moved within
//! its section is not changed. Where units went and nothing came in their place the nearest one that follows below the same
//! parent in the section carries the mark, or the one before where none follows. Running heads and feet, title blocks, tables of contents
//! and numbers of pages do not count.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::sync::Arc;

use super::units::{Unit, units};
use super::{BlockId, Tree};
use crate::shapes::Drawing;

/// A tree's drawings by their keys.
pub type Drawings<'d> = &'d BTreeMap<String, Arc<Drawing>>;

/// An earlier tree.
pub struct EarlierTree<'w> {
    /// The tree.
    pub tree: &'w Tree,
    /// Its drawings.
    pub drawings: Drawings<'w>,
    /// What the heading or the id of one of its sections is called now; the same where nothing goes by another name.
    pub now: &'w dyn Fn(&str) -> String,
}

/// Marks every unit of a tree that an earlier tree does not have; gives how many there are.
pub fn mark_changes(tree: &mut Tree, drawings: Drawings, was: EarlierTree, mark: &Arc<str>) -> usize {
    let (new, mut old) = (units(tree, drawings), units(was.tree, was.drawings));
    old.iter_mut().for_each(|unit| unit.call(was.now));
    let matched = match_units(&new, &old);
    let mut changed: BTreeSet<usize> = (0..new.len()).filter(|at| matched.old_of[*at].is_none()).collect();
    let carriers: Vec<usize> = (0..old.len())
        .filter(|at| matched.new_of[*at].is_none())
        .filter_map(|gone| matched.carrier(gone, &new, &old))
        .collect();
    changed.extend(carriers);
    let marked: Vec<BlockId> = changed.iter().flat_map(|at| new[*at].blocks.clone()).collect();
    for id in marked {
        tree.blocks[id.0 as usize].revised = Some(mark.clone());
    }
    changed.len()
}

/// Which unit of one tree is which of the other, by position.
struct Matched {
    old_of: Vec<Option<usize>>,
    new_of: Vec<Option<usize>>,
}

fn match_units(new: &[Unit], old: &[Unit]) -> Matched {
    let mut matched = Matched { old_of: vec![None; new.len()], new_of: vec![None; old.len()] };
    matched.pair(new, old, |unit| Some(unit.section.clone()));
    // A section whose heading reads otherwise, and has no id, is looked for under what it stands in: first the one that it
    // has most in common with, then whatever says the same.
    let sections = |units: &[Unit]| units.iter().map(|unit| unit.section.clone()).collect::<BTreeSet<_>>();
    let (in_new, in_old) = (sections(new), sections(old));
    let alone = |unit: &Unit| {
        let both = in_new.contains(&unit.section) && in_old.contains(&unit.section);
        !both && unit.stands_in != unit.section
    };
    let called = likest(new, old, &alone);
    matched.pair(new, old, |unit| alone(unit).then(|| called.get(&unit.section).unwrap_or(&unit.section).clone()));
    matched.pair(new, old, |unit| alone(unit).then(|| unit.stands_in.clone()));
    matched
}

/// For sections of the old tree that are under their heading in it alone, the one of the new tree that has most of their units
/// and stands in the same; a section is that of one other, and those with most in common come first.
fn likest(new: &[Unit], old: &[Unit], alone: &dyn Fn(&Unit) -> bool) -> BTreeMap<Vec<String>, Vec<String>> {
    let (was, is) = (by_section(old, alone), by_section(new, alone));
    let mut pairs = Vec::new();
    for (one, (at, said)) in &was {
        for (other, (to, says)) in is.iter().filter(|(_, (to, _))| new[*to].stands_in == old[*at].stands_in) {
            let same: usize = said.iter().map(|(text, times)| says.get(text).map_or(0, |it| (*it).min(*times))).sum();
            pairs.push((std::cmp::Reverse(same), *to, *at, *one, *other));
        }
    }
    pairs.retain(|pair| pair.0.0 > 0);
    pairs.sort();
    let (mut called, mut taken) = (BTreeMap::new(), BTreeSet::new());
    for (_, _, _, one, other) in pairs {
        if !called.contains_key(one) && taken.insert(other) {
            called.insert(one.clone(), other.clone());
        }
    }
    called
}

/// Sections by name, each with the place of its first unit, and its units by what they say, with how many say it.
type BySection<'u> = BTreeMap<&'u Vec<String>, (usize, BTreeMap<&'u str, usize>)>;

fn by_section<'u>(units: &'u [Unit], alone: &dyn Fn(&Unit) -> bool) -> BySection<'u> {
    let mut all = BySection::new();
    for (at, unit) in units.iter().enumerate().filter(|(_, unit)| alone(unit)) {
        *all.entry(&unit.section).or_insert((at, BTreeMap::new())).1.entry(&unit.says).or_default() += 1;
    }
    all
}

impl Matched {
    /// Pairs units that are left, in order, where they say and show the same under one key.
    fn pair(&mut self, new: &[Unit], old: &[Unit], key: impl Fn(&Unit) -> Option<Vec<String>>) {
        let mut left: BTreeMap<(Vec<String>, &str), VecDeque<usize>> = BTreeMap::new();
        for (at, unit) in old.iter().enumerate().filter(|(at, _)| self.new_of[*at].is_none()) {
            if let Some(key) = key(unit) {
                left.entry((key, &unit.says)).or_default().push_back(at);
            }
        }
        for (at, unit) in new.iter().enumerate() {
            if self.old_of[at].is_some() {
                continue;
            }
            let Some(candidates) = key(unit).and_then(|key| left.get_mut(&(key, unit.says.as_str()))) else { continue };
            if let Some(found) = candidates.iter().position(|it| old[*it].shows_like(unit)) {
                self.old_of[at] = candidates.remove(found);
                self.new_of[self.old_of[at].unwrap_or(0)] = Some(at);
            }
        }
    }

    /// The new unit that carries the mark of one that is gone; none where another came in its place, which has its own.
    fn carrier(&self, gone: usize, new: &[Unit], old: &[Unit]) -> Option<usize> {
        let (parent, section) = (old[gone].parent, &old[gone].section);
        let (before, next) = self.left_beside(gone, old, &|it| it.parent == parent && it.section == *section);
        let came = |at: Option<usize>, beside: usize| {
            at.filter(|at| *at < new.len() && new[*at].parent == new[beside].parent)
                .is_some_and(|at| self.old_of[at].is_none())
        };
        match (before, next) {
            (_, Some(next)) => return (!came(next.checked_sub(1), next)).then_some(next),
            (Some(before), None) => return (!came(Some(before + 1), before)).then_some(before),
            (None, None) => {}
        }
        // Nothing is left beside it: what came to its section tells, or else the heading above, or whatever is nearest.
        if (0..new.len()).any(|at| self.old_of[at].is_none() && new[at].section == *section) {
            return None;
        }
        let (before, next) = self.left_beside(gone, old, &|it| it.parent == parent);
        let (above, below) = self.left_beside(gone, old, &|it| it.section == *section);
        before.or(next).or(below).or(above)
    }

    /// The new units that stand where the nearest ones before and after one that is gone stood, of those that are alike and
    /// left.
    fn left_beside(&self, gone: usize, old: &[Unit], alike: &dyn Fn(&Unit) -> bool) -> (Option<usize>, Option<usize>) {
        let left = |at: &usize| alike(&old[*at]) && self.new_of[*at].is_some();
        let before = (0..gone).rev().find(left).and_then(|at| self.new_of[at]);
        let next = (gone + 1..old.len()).find(left).and_then(|at| self.new_of[at]);
        (before, next)
    }
}
