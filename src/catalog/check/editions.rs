//! Editions of codes and standards.
//!
//! In: their records. Out: checked, by id. May not know: which of them a job names.

use std::collections::BTreeMap;

use super::{Check, list, words};
use crate::catalog::model::{Clause, Edition, Maneuver, Trigger};
use crate::catalog::{ClauseEntry, EditionEntry, ManeuverEntry};
use crate::measure::Length;

impl Check<'_, '_, '_> {
    pub(super) fn editions(&mut self) -> BTreeMap<String, Edition> {
        self.all.edition.members().filter_map(|(id, entry)| Some((id.to_owned(), edition(id, entry)?))).collect()
    }
}

fn edition(id: &str, entry: &EditionEntry) -> Option<Edition> {
    let triggers = entry.trigger.list().iter();
    Some(Edition {
        id: id.to_owned(),
        name: words(&entry.name)?,
        date: entry.date.cloned()?,
        source: words(&entry.source)?,
        one_leaf: entry.one_leaf.or(false),
        grounds_as_one: entry.grounds_as_one.get().map(|it| it.get()),
        clauses: entry.clause.list().iter().filter_map(clause).collect(),
        maneuvers: entry.maneuver.list().iter().filter_map(maneuver).collect(),
        triggers: triggers
            .filter_map(|it| Some(Trigger { groups: list(&it.groups), above: it.above.get()?.get() }))
            .collect(),
        place: entry.written_at.clone()?,
    })
}

fn clause(entry: &ClauseEntry) -> Option<Clause> {
    // A limit that cannot be read was reported; without it the clause would ask for nothing.
    let bad = [&entry.least, &entry.most, &entry.depth].into_iter().any(|slot| slot.is_bad());
    let clause = Clause {
        of: entry.of.cloned()?,
        least: entry.least.cloned(),
        most: entry.most.cloned(),
        depth: entry.depth.cloned(),
        number: words(&entry.number)?,
        known: entry.known.cloned()?,
        place: entry.written_at.clone()?,
    };
    (!bad).then_some(clause)
}

fn maneuver(entry: &ManeuverEntry) -> Option<Maneuver> {
    Some(Maneuver {
        approach: entry.approach.cloned()?,
        side: entry.side.cloned()?,
        deep: entry.deep.cloned()?,
        beyond: entry.beyond.cloned()?,
        more_deep: entry.more_deep.or(Length::ZERO),
        more_beyond: entry.more_beyond.or(Length::ZERO),
        more_when: entry.more_when.cloned(),
        exterior_beyond: entry.exterior_beyond.or(Length::ZERO),
        number: words(&entry.number)?,
    })
}
