//! Quantity and labor lines, one per rule and entity.
//!
//! In: a reviewed job and the catalog's rules.
//! Out: lines whose quantities are figures of the ledger.
//! May not know: prices, pages.

#[cfg_attr(not(test), deny(clippy::indexing_slicing, clippy::string_slice, clippy::unwrap_used, clippy::expect_used))]
mod arrangement;
mod checks;
#[cfg_attr(
    not(test),
    deny(clippy::arithmetic_side_effects, clippy::indexing_slicing, clippy::unwrap_used, clippy::expect_used)
)]
mod circuit_loads;
mod circuits;
mod codes;
#[cfg_attr(not(test), deny(clippy::indexing_slicing, clippy::string_slice, clippy::unwrap_used, clippy::expect_used))]
mod compliance;
#[cfg_attr(
    not(test),
    deny(clippy::arithmetic_side_effects, clippy::indexing_slicing, clippy::unwrap_used, clippy::expect_used)
)]
mod due;
mod entity;
mod fact_set;
mod fact_sources;
mod facts;
mod hours;
mod index;
mod lines;
mod proofs;
#[cfg_attr(not(test), deny(clippy::indexing_slicing, clippy::string_slice, clippy::unwrap_used, clippy::expect_used))]
mod routes;
mod rule_findings;
mod submitting;
#[cfg_attr(not(test), deny(clippy::indexing_slicing, clippy::string_slice, clippy::unwrap_used, clippy::expect_used))]
mod terminations;
mod varied;
#[cfg_attr(not(test), deny(clippy::arithmetic_side_effects))]
mod visits;

pub use arrangement::*;
pub use checks::CHECKED;
pub use circuit_loads::Accessory;
pub use circuits::{CircuitWork, ExistingCircuit, PanelWork};
pub use codes::{CODES, RULE_UNDECIDED};
pub use compliance::{Compliance, Met, compliance};
pub use due::{Due, due, sent};
pub use entity::{EntityRef, Visit, sheet};
pub use fact_set::{EntityFacts, standing_words};
pub use facts::edge_word;
pub use lines::{LaborLine, Line};
pub use proofs::{NeededProof, ProofGap, missing_proofs, needed_proofs};
pub use routes::RunWork;
pub use terminations::{Conductors, LandedWire, Terminated, Wired, partner, terminations};

use std::rc::Rc;
use std::sync::{Arc, OnceLock};

use crate::catalog::Catalog;
use crate::findings::Findings;
use crate::ledger::Ledger;
use crate::review::ReviewedJob;

/// A takeoff: what stands where, and what it takes.
pub struct Takeoff<'j> {
    /// What stands where.
    pub arrangement: Arrangement<'j>,
    /// Every figure.
    pub ledger: Ledger,
    /// Item lines, in the order of rules and entities.
    pub lines: Vec<Line>,
    /// Labor lines, likewise.
    pub labor: Vec<LaborLine>,
    /// Visits, in order of sites and visits.
    pub visits: Vec<Visit>,
    facts: Arc<entity::FactSets>,
    /// Made when it is first asked for: a job that is only priced never asks.
    index: OnceLock<index::Index>,
}

/// Takes off a reviewed job by the catalog's rules.
pub fn take_off<'j>(reviewed: &'j ReviewedJob, catalog: &'j Catalog, findings: &mut Findings) -> Takeoff<'j> {
    let arrangement = Arrangement::of(reviewed, catalog);
    let library = entity::FactSets::of(&arrangement, reviewed.job(), catalog);
    let takeoff = by_rules((arrangement, library), catalog, (Ledger::new(), None), findings);
    checks::look(&takeoff, reviewed.job(), catalog, findings);
    submitting::compare(&takeoff, reviewed.job(), catalog, findings);
    takeoff
}

/// Takes off a job that was made of one already taken off and is only priced, an alternate or another answer, without a word
/// about what is found. What is the same in both is taken from there; `varied` tells how.
pub fn take_off_varied<'j>(base: &Takeoff<'j>, reviewed: &'j ReviewedJob, catalog: &'j Catalog) -> Takeoff<'j> {
    let (arrangement, was) = Arrangement::of_varied(reviewed, catalog, &base.arrangement);
    let shared_at = |at: usize| was.get(at).copied().flatten();
    let library = entity::FactSets::of_varied(&arrangement, (reviewed.job(), catalog), &base.facts, shared_at);
    let shared = varied::Shared::of(base, &arrangement, &library, was);
    by_rules((arrangement, library), catalog, (base.ledger.clone(), Some(&shared)), &mut Findings::default())
}

fn by_rules<'j>(
    (arrangement, library): (Arrangement<'j>, entity::FactSets),
    catalog: &'j Catalog,
    (mut ledger, shared): (Ledger, Option<&varied::Shared>),
    findings: &mut Findings,
) -> Takeoff<'j> {
    let mut making = lines::LineBuilder {
        all: &arrangement,
        catalog,
        library: Arc::new(library),
        figures: Rc::default(),
        factors: hours::AppliedFactor::all(catalog, &mut ledger),
        hundredth: None,
        ledger,
        lines: Vec::new(),
        labor: Vec::new(),
        visits: Vec::new(),
        unknown: std::collections::BTreeMap::new(),
        findings,
    };
    making.all_rules(shared);
    let lines::LineBuilder { library, ledger, lines, labor, visits, .. } = making;
    Takeoff { arrangement, ledger, lines, labor, visits, facts: library, index: OnceLock::new() }
}

impl Takeoff<'_> {
    /// The facts of an entity.
    pub fn facts(&self, of: EntityRef) -> EntityFacts<'_> {
        self.facts.facts(of)
    }

    /// Every entity of a kind; visits included.
    pub fn entities(&self, kind: crate::catalog::Entity) -> Vec<EntityRef> {
        match kind {
            crate::catalog::Entity::Visit => (0..self.visits.len()).map(EntityRef::Visit).collect(),
            other => entity::entities(other, &self.arrangement),
        }
    }

    /// Every entity of a kind at an opening, by its position.
    pub fn entities_at(&self, kind: crate::catalog::Entity, opening: usize) -> Vec<EntityRef> {
        let work = self.arrangement.openings.get(opening);
        work.map(|work| entity::entities_at(kind, opening, work).collect()).unwrap_or_default()
    }

    /// The position of the site that an entity belongs to; none of the job as a whole.
    pub fn site_of(&self, of: EntityRef) -> Option<usize> {
        let all = &self.arrangement;
        let at = |id: &str| all.sites.iter().position(|site| site.id == id);
        match of {
            EntityRef::Job => None,
            EntityRef::Site(site) => Some(site),
            EntityRef::Visit(visit) => Some(self.visits[visit].site),
            EntityRef::Panel(panel) => at(&all.panels[panel].site),
            EntityRef::Circuit(circuit) => at(&all.panels[all.circuits[circuit].panel].site),
            EntityRef::Run(run) => at(&all.runs[run].run.site),
            other => at(&all.openings[other.opening()?].site.id),
        }
    }

    /// What an entity is called, in plain words.
    pub fn name(&self, of: EntityRef) -> &str {
        match self.facts.facts(of).about() {
            "" => "the job",
            about => about,
        }
    }
}
