//! Electrified items: their keys, what they draw, what they do without power, and who has to do with them.
//!
//! In: sets. Out: keys for the lines of sets, and the table behind the keys. May not know: pages.

use std::collections::BTreeSet;

use serde::Serialize;

use super::set_names::set_names;
use super::sets::HardwareSet;
use crate::catalog::{FailState, Item};
use crate::documents::Sources;
use crate::documents::printing::{amps, listed, or_dash, volts};

/// An electrified item.
#[derive(Clone, Debug, Serialize)]
pub struct ElectrifiedRow {
    /// Its key, such as `E3`.
    pub key: String,
    /// Plain words.
    pub description: String,
    /// Sets it stands in.
    pub sets: String,
    /// Volts.
    pub volts: String,
    /// Amps, and inrush.
    pub amps: String,
    /// What it does when power fails.
    pub fails: String,
    /// Who furnishes it.
    pub furnish: String,
    /// Who installs it.
    pub install: String,
    /// Who wires it.
    pub wire: String,
    /// Who programs it.
    pub program: String,
}

/// The electrified items of the sets, in the order in which sets list them.
pub(super) struct Electrified<'a> {
    found: Vec<(&'a Item, Vec<usize>)>,
}

impl<'a> Electrified<'a> {
    /// The electrified items of sets.
    pub(super) fn of(sources: &Sources<'a>, sets: &[HardwareSet]) -> Self {
        let mut found: Vec<(&Item, Vec<usize>)> = Vec::new();
        for (at, set) in sets.iter().enumerate() {
            let entries: BTreeSet<_> = set.holds.iter().flat_map(|holds| holds.keys()).collect();
            let items = entries.into_iter().filter_map(|entry| sources.catalog.items.get(&entry.item));
            for item in items.filter(|item| item.electric.is_some()) {
                match found.iter_mut().find(|(known, _)| known.id == item.id) {
                    Some((_, sets)) if sets.last() == Some(&at) => {}
                    Some((_, sets)) => sets.push(at),
                    None => found.push((item, vec![at])),
                }
            }
        }
        Electrified { found }
    }

    /// The key of an item; none where it is not electrified.
    pub(super) fn key(&self, item: &str) -> Option<String> {
        let at = self.found.iter().position(|(known, _)| known.id == item)?;
        Some(format!("E{}", at + 1))
    }

    /// The table behind the keys.
    pub(super) fn rows(&self, sources: &Sources) -> Vec<ElectrifiedRow> {
        self.found.iter().filter_map(|(item, sets)| self.row(sources, item, sets)).collect()
    }

    fn row(&self, sources: &Sources, item: &Item, sets: &[usize]) -> Option<ElectrifiedRow> {
        let electric = item.electric.as_ref()?;
        let party = |id: &str| or_dash(Some(sources.catalog.parties.get(id).map_or(id, |party| party.short.as_str())));
        let running = electric.amps.map(amps);
        let inrush = electric.inrush.map(|it| format!("{} inrush", amps(it)));
        let fails = if electric.fails == FailState::None { "not a lock" } else { electric.fails.word() };
        Some(ElectrifiedRow {
            key: self.key(&item.id)?,
            description: item.name.clone(),
            sets: set_names(sets),
            volts: or_dash(electric.volts.map(volts).as_deref()),
            amps: listed([running, inrush].into_iter().flatten(), ", "),
            fails: fails.to_owned(),
            furnish: party(&electric.furnished_by),
            install: party(&electric.installed_by),
            wire: party(&electric.wired_by),
            program: party(&electric.programmed_by),
        })
    }

    /// Ids of the parties that the table names.
    pub(super) fn parties(&self) -> BTreeSet<&str> {
        let electric = self.found.iter().filter_map(|(item, _)| item.electric.as_ref());
        let named = |it: &'a crate::catalog::Electric| {
            [&it.furnished_by, &it.installed_by, &it.wired_by, &it.programmed_by].map(String::as_str)
        };
        electric.flat_map(named).collect()
    }
}
