//! Where the lines of a takeoff are: by entity, by opening; which runs carry the cable of a device.
//!
//! In: an arrangement and finished lines. Out: positions. May not know: what is asked of the lines.
//!
//! Papers and checks ask of every opening what was taken off there. Without an index each would go through all lines for each.

use std::collections::BTreeSet;
use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::entity::EntityRef;
use super::lines::{LaborLine, Line};
use super::{RunWork, Takeoff};

/// Positions of lines and runs. Its maps are only looked up, never walked.
#[derive(Clone, Debug, Default)]
pub(super) struct Index {
    lines_of: FxHashMap<EntityRef, Vec<usize>>,
    lines_at: Vec<Vec<usize>>,
    labor_of: FxHashMap<EntityRef, Vec<usize>>,
    labor_at: Vec<Vec<usize>>,
    openings: FxHashMap<String, usize>,
    runs_of_cable: FxHashMap<(usize, usize), Vec<usize>>,
    items_of_sites: Vec<BTreeSet<Arc<str>>>,
}

impl Index {
    fn of(takeoff: &Takeoff) -> Self {
        let Takeoff { arrangement: all, lines, labor, .. } = takeoff;
        let mut index = Index {
            lines_at: vec![Vec::new(); all.openings.len()],
            labor_at: vec![Vec::new(); all.openings.len()],
            ..Index::default()
        };
        for (at, work) in all.openings.iter().enumerate() {
            index.openings.entry(work.opening.mark.clone()).or_insert(at);
        }
        for (at, run) in all.runs.iter().enumerate() {
            for cable in &run.cables {
                index.runs_of_cable.entry(*cable).or_default().push(at);
            }
        }
        index.items_of_sites = vec![BTreeSet::new(); all.sites.len()];
        for line in lines {
            let here = takeoff.site_of(line.of).and_then(|site| index.items_of_sites.get_mut(site));
            if let Some(here) = here.filter(|here| !here.contains(&line.item)) {
                here.insert(line.item.clone());
            }
        }
        let lines = lines.iter().map(|line| line.of);
        note(lines, &mut index.lines_of, &mut index.lines_at);
        note(labor.iter().map(|line| line.of), &mut index.labor_of, &mut index.labor_at);
        index
    }
}

fn note(of_each: impl Iterator<Item = EntityRef>, of: &mut FxHashMap<EntityRef, Vec<usize>>, at: &mut [Vec<usize>]) {
    for (number, entity) in of_each.enumerate() {
        of.entry(entity).or_default().push(number);
        if let Some(here) = entity.opening().and_then(|opening| at.get_mut(opening)) {
            here.push(number);
        }
    }
}

impl Takeoff<'_> {
    fn index(&self) -> &Index {
        self.index.get_or_init(|| Index::of(self))
    }

    /// The item lines of an entity, in order.
    pub fn lines_of(&self, of: EntityRef) -> impl Iterator<Item = &Line> {
        self.index().lines_of.get(&of).into_iter().flatten().filter_map(|at| self.lines.get(*at))
    }

    /// The item lines of some entities, in order, each once.
    pub fn lines_of_any(&self, of: &[EntityRef]) -> impl Iterator<Item = &Line> {
        let mut found: Vec<usize> =
            of.iter().filter_map(|of| self.index().lines_of.get(of)).flatten().copied().collect();
        found.sort_unstable();
        found.dedup();
        found.into_iter().filter_map(|at| self.lines.get(at))
    }

    /// The item lines of an opening and of all that is at it, in order.
    pub fn lines_at(&self, opening: usize) -> impl Iterator<Item = &Line> {
        self.index().lines_at.get(opening).into_iter().flatten().filter_map(|at| self.lines.get(*at))
    }

    /// The labor lines of an entity, in order.
    pub fn labor_of(&self, of: EntityRef) -> impl Iterator<Item = &LaborLine> {
        self.index().labor_of.get(&of).into_iter().flatten().filter_map(|at| self.labor.get(*at))
    }

    /// The labor lines of an opening and of all that is at it, in order.
    pub fn labor_at(&self, opening: usize) -> impl Iterator<Item = &LaborLine> {
        self.index().labor_at.get(opening).into_iter().flatten().filter_map(|at| self.labor.get(*at))
    }

    /// The ids of items that are taken off for a site, by its position, each once.
    pub fn items_of_site(&self, site: usize) -> impl Iterator<Item = &str> {
        self.index().items_of_sites.get(site).into_iter().flatten().map(|id| &**id)
    }

    /// The position of the opening with a mark; none where it is not in the bid.
    pub fn opening_at(&self, mark: &str) -> Option<usize> {
        self.index().openings.get(mark).copied()
    }

    /// The runs that carry the cable of a device, by positions of opening and device, with their positions.
    pub fn runs_of_cable(&self, opening: usize, device: usize) -> impl Iterator<Item = (usize, &RunWork<'_>)> {
        let found = self.index().runs_of_cable.get(&(opening, device)).into_iter().flatten();
        found.filter_map(|at| Some((*at, self.arrangement.runs.get(*at)?)))
    }
}
