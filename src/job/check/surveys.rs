//! Survey records laid over what drawings and kinds say, and what they state otherwise.
//!
//! In: survey records of an opening, the opening as drawn. Out: the opening as surveyed; every value that a survey changed. May not
//! know: which difference matters; that is the review's.

use super::{Check, words};
use crate::findings::Subject;
use crate::input::{AnySlot, EachOrList, Field, Record, Slot, Spelling, Standing, Text};
use crate::job::codes;
use crate::job::entries::{LeafEntry, OpeningEntry, SurveyEntry};
use crate::job::model::SurveyMade;
use crate::job::remeasured::{Apart, Remeasured, StatedValue};
use crate::job::words::{HandLetters, HingeEdge, Swing};
use crate::measure::{Length, System, Unit, Weight};

impl Check<'_, '_, '_> {
    /// Lays survey records over what drawings and kinds say, first pass first. What was measured is surveyed.
    pub(super) fn lay_surveys(
        &mut self,
        surveys: &[&SurveyEntry],
        merged: &mut OpeningEntry,
        subject: &Subject,
    ) -> (Vec<SurveyMade>, Vec<Remeasured>) {
        let mut records: Vec<(SurveyMade, &SurveyEntry)> = Vec::new();
        for entry in surveys.iter().copied() {
            let (Some(pass), Some(seen), Some(by)) = (entry.pass.get(), entry.seen.given(), words(&entry.by)) else {
                continue;
            };
            let place = seen.place.clone();
            records.push((SurveyMade { pass: pass.get(), seen: seen.value, by, place }, entry));
        }
        records.sort_by_key(|(made, _)| (made.pass, made.seen));
        let mut remeasured = Vec::new();
        for (at, (made, entry)) in records.iter().enumerate() {
            let standing = Standing::Surveyed { date: Some(made.seen), by: Some(made.by.clone()) };
            let mut change = OpeningEntry {
                leaf: entry.leaf.clone(),
                frame: entry.frame.clone(),
                power: entry.power.clone(),
                ceiling: entry.ceiling.clone(),
                access: entry.access.clone(),
                ..OpeningEntry::default()
            };
            self.seen_from(entry, merged, &mut change, subject);
            stand_leaves(&mut change.leaf, &standing);
            stand(&mut change.frame, &standing);
            stand(&mut change.power, &standing);
            stand(&mut change.ceiling, &standing);
            stand(&mut change.access, &standing);
            Differences { survey: at, system: self.reader.system(), found: &mut remeasured }.between(merged, &change);
            lay(merged, change);
        }
        (records.into_iter().map(|(made, _)| made).collect(), remeasured)
    }

    /// Whether a survey was typed of which the opening cannot be read or is not there: it may be of any.
    pub(super) fn a_survey_is_of_no_opening(&self) -> bool {
        self.typed.surveys_unread || self.typed.surveys.iter().any(|it| it.opening.is_bad())
    }

    /// Turns hinges, swing and hand of a survey that looked from the other room, so that they are as seen from the outside. From a
    /// room that is none of the two nothing of them is known.
    fn seen_from(&mut self, entry: &SurveyEntry, merged: &OpeningEntry, change: &mut OpeningEntry, subject: &Subject) {
        let Some(from) = entry.seen_from.given() else {
            if let Some(place) = entry.seen_from.place() {
                each_leaf(&mut change.leaf, |leaf| {
                    (leaf.hinges, leaf.swing, leaf.hand) =
                        (Slot::Bad(place.clone()), Slot::Bad(place.clone()), Slot::Bad(place.clone()));
                });
            }
            return;
        };
        let (rooms, Some(outside)) = (merged.between.list(), merged.outside.get()) else { return };
        let is_room = |named: &Text| rooms.iter().any(|room| room.as_str() == named.as_str());
        if rooms.len() != 2 || !is_room(outside) || from.value.as_str() == outside.as_str() {
            return;
        }
        if is_room(&from.value) {
            let swings: Vec<Option<Swing>> = merged.leaf.members().iter().map(|leaf| leaf.swing.cloned()).collect();
            let is_double_egress = swings.windows(2).any(|two| two[0] != two[1]);
            each_leaf(&mut change.leaf, |leaf| turn(leaf, is_double_egress));
            return;
        }
        let known: Vec<&str> = rooms.iter().map(Text::as_str).collect();
        self.unknown(&codes::ROOM_UNKNOWN, subject.clone(), &from.value, &from.place, known);
        let place = from.place.clone();
        each_leaf(&mut change.leaf, |leaf| {
            (leaf.hinges, leaf.swing, leaf.hand) =
                (Slot::Bad(place.clone()), Slot::Bad(place.clone()), Slot::Bad(place.clone()));
        });
    }
}

/// A leaf as seen from the other room. The letters of a double egress are those of the side that a leaf swings toward, and stay.
fn turn(leaf: &mut LeafEntry, is_double_egress: bool) {
    if let Some(given) = leaf.hinges.given_mut() {
        given.value = match given.value {
            HingeEdge::Left => HingeEdge::Right,
            HingeEdge::Right => HingeEdge::Left,
        };
    }
    if let Some(given) = leaf.swing.given_mut() {
        given.value = match given.value {
            Swing::Toward => Swing::Away,
            Swing::Away => Swing::Toward,
        };
    }
    if let (Some(given), false) = (leaf.hand.given_mut(), is_double_egress) {
        given.value = match given.value {
            HandLetters::Lh => HandLetters::Rhr,
            HandLetters::Rh => HandLetters::Lhr,
            HandLetters::Lhr => HandLetters::Rh,
            HandLetters::Rhr => HandLetters::Lh,
        };
    }
}

fn each_leaf(slot: &mut Slot<EachOrList<LeafEntry>>, change: impl Fn(&mut LeafEntry)) {
    let Some(given) = slot.given_mut() else { return };
    given.value.common.given_mut().into_iter().for_each(|common| change(&mut common.value));
    let list = given.value.list.given_mut().into_iter();
    list.flat_map(|list| &mut list.value).for_each(change);
}

/// What a survey states otherwise, while it is looked for.
struct Differences<'d> {
    survey: usize,
    system: System,
    found: &'d mut Vec<Remeasured>,
}

impl Differences<'_> {
    fn between(&mut self, before: &OpeningEntry, change: &OpeningEntry) {
        let shared = change.leaf.get().and_then(|it| it.common.get());
        let listed = change.leaf.get().map_or(&[][..], |it| it.list.list());
        if shared.is_some() || !listed.is_empty() {
            for (at, leaf) in before.leaf.members().iter().enumerate() {
                let mut seen = shared.cloned().unwrap_or_default();
                listed.get(at).into_iter().for_each(|own| seen.overlay_with(own));
                self.of(leaf, &seen, Some(at + 1), "");
            }
        }
        self.of_slot(&before.frame, &change.frame, "frame.");
        self.of_slot(&before.power, &change.power, "power.");
        self.of_slot(&before.ceiling, &change.ceiling, "ceiling.");
        self.of_slot(&before.access, &change.access, "access.");
    }

    fn of_slot<R: Record>(&mut self, before: &Slot<R>, change: &Slot<R>, named: &str) {
        if let (Some(before), Some(change)) = (before.get(), change.get()) {
            self.of(before, change, None, named);
        }
    }

    fn of<R: Record>(&mut self, before: &R, change: &R, leaf: Option<usize>, named: &str) {
        let slots = before.slots().into_iter().zip(change.slots());
        for (info, (was, is)) in R::fields().iter().zip(slots) {
            if let (Some(was), Some(is)) = (self.stated(was), self.stated(is))
                && was.1 != is.1
            {
                let (key, survey) = (format!("{named}{}", info.name), self.survey);
                self.found.push(Remeasured { leaf, key, survey, was: was.0, is: is.0, apart: None });
            } else {
                continue;
            }
            if let Some(last) = self.found.last_mut() {
                last.apart = apart(was, is);
            }
        }
    }

    /// A value, and its exact text.
    fn stated(&self, slot: &dyn AnySlot) -> Option<(StatedValue, String)> {
        let standing = slot.standing()?.clone();
        let text = |spelling| {
            let mut parts = Vec::new();
            slot.dump("", spelling, &mut parts);
            let parts: Vec<String> = parts.into_iter().map(|(_, value)| value).collect();
            if parts.is_empty() { "none".to_owned() } else { parts.join(", ") }
        };
        let value = text(Spelling::Readable(self.system));
        Some((StatedValue { text: value, place: slot.place()?.clone(), standing }, text(Spelling::Exact)))
    }
}

/// How far two measures lie apart, where they are lengths or weights.
fn apart(was: &dyn AnySlot, is: &dyn AnySlot) -> Option<Apart> {
    let (was, is) = (was.value()?, is.value()?);
    if let (Some(was), Some(is)) = (was.downcast_ref::<Length>(), is.downcast_ref::<Length>()) {
        return Some(Apart::Length((*is - *was).abs()));
    }
    let (was, is) = (was.downcast_ref::<Weight>()?, is.downcast_ref::<Weight>()?);
    let pounds = is.number_of(Unit::Pound)?.checked_sub(was.number_of(Unit::Pound)?)?.abs();
    Some(Apart::Weight(Weight::new(pounds, Unit::Pound)?))
}

/// Marks every value of a record as surveyed.
fn stand<R: Record>(slot: &mut Slot<R>, standing: &Standing) {
    if let Some(given) = slot.given_mut() {
        given.standing = standing.clone();
        given.value.slots_mut().into_iter().for_each(|slot| slot.stand(standing));
    }
}

fn stand_leaves(slot: &mut Slot<EachOrList<LeafEntry>>, standing: &Standing) {
    let Some(given) = slot.given_mut() else { return };
    stand(&mut given.value.common, standing);
    if let Some(list) = given.value.list.given_mut() {
        for leaf in &mut list.value {
            leaf.slots_mut().into_iter().for_each(|slot| slot.stand(standing));
        }
    }
}

/// Lays a record of the survey over an opening: key by key; leaves one by one where the survey lists them.
fn lay(merged: &mut OpeningEntry, change: OpeningEntry) {
    Field::overlay(&mut merged.frame, &change.frame);
    Field::overlay(&mut merged.power, &change.power);
    Field::overlay(&mut merged.ceiling, &change.ceiling);
    Field::overlay(&mut merged.access, &change.access);
    let Some(found) = change.leaf.get() else { return };
    let mut leaves = merged.leaf.members();
    let found = found.clone();
    if let Some(common) = found.common.get() {
        leaves.iter_mut().for_each(|leaf| leaf.overlay_with(common));
    }
    for (leaf, found) in leaves.iter_mut().zip(found.list.list()) {
        leaf.overlay_with(found);
    }
    if let Some(given) = merged.leaf.given_mut() {
        given.value.replace_members(leaves);
    }
}
