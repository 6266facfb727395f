//! References to entities of an arrangement, and the sets of their facts.
//!
//! In: an arrangement. Out: every entity of a kind, with its name, site, opening and facts.
//! May not know: rules.

use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

use super::arrangement::{Arrangement, OpeningWork};
use super::fact_set::{EntityFacts, FactSet, FactSetWriter};
use super::facts::{self, VisitLoad};
use crate::catalog::{Catalog, Entity};
use crate::job::Job;
use crate::rules::Sheet;

/// An entity of an arrangement, by positions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EntityRef {
    /// The job.
    Job,
    /// A site, by its position in the order of work.
    Site(usize),
    /// A visit, by its position among visits.
    Visit(usize),
    /// A panel.
    Panel(usize),
    /// A circuit.
    Circuit(usize),
    /// A run.
    Run(usize),
    /// An opening.
    Opening(usize),
    /// A leaf of an opening.
    Leaf(usize, usize),
    /// A header of an opening.
    Header(usize, usize),
    /// A drive of an opening.
    Drive(usize, usize),
    /// A device of an opening.
    Device(usize, usize),
    /// A device group of an opening.
    Group(usize, usize),
    /// A box of an opening.
    Box(usize, usize),
    /// A fixing of an opening.
    Fixing(usize, usize),
}

impl EntityRef {
    /// The opening it stands at, by position.
    pub fn opening(self) -> Option<usize> {
        match self {
            EntityRef::Opening(at)
            | EntityRef::Leaf(at, _)
            | EntityRef::Header(at, _)
            | EntityRef::Drive(at, _)
            | EntityRef::Device(at, _)
            | EntityRef::Group(at, _)
            | EntityRef::Box(at, _)
            | EntityRef::Fixing(at, _) => Some(at),
            _ => None,
        }
    }
}

/// A visit: a site and which visit.
#[derive(Clone, Debug)]
pub struct Visit {
    /// Position of the site.
    pub site: usize,
    /// Which visit.
    pub kind: crate::catalog::VisitKind,
    /// People in its largest crew.
    pub people: u32,
}

/// The fact sets of all entities but visits, which exist only once tasks are known.
pub(super) struct FactSets {
    job: Arc<FactSet>,
    sites: Vec<Arc<FactSet>>,
    panels: Vec<Arc<FactSet>>,
    circuits: Vec<Arc<FactSet>>,
    runs: Vec<Arc<FactSet>>,
    openings: Vec<OpeningFactSetsAt>,
    visits: Vec<Arc<FactSet>>,
}

/// The fact sets of an opening, which a job made of another shares with it, and the position of its site here.
struct OpeningFactSetsAt {
    sets: Arc<OpeningFactSets>,
    site: Option<usize>,
}

struct OpeningFactSets {
    opening: Arc<FactSet>,
    leaves: Vec<Arc<FactSet>>,
    headers: Vec<Arc<FactSet>>,
    drives: Vec<Arc<FactSet>>,
    devices: Vec<Arc<FactSet>>,
    groups: Vec<Arc<FactSet>>,
    boxes: Vec<Arc<FactSet>>,
    fixings: Vec<Arc<FactSet>>,
}

impl FactSets {
    pub(super) fn of(all: &Arrangement, job: &Job, catalog: &Catalog) -> Self {
        FactSets::made(all, job, catalog, |_, work| Arc::new(OpeningFactSets::of(work)))
    }

    /// The fact sets of an arrangement that shares openings with another; `shared` says of an opening by its position where it was.
    pub(super) fn of_varied(
        all: &Arrangement,
        (job, catalog): (&Job, &Catalog),
        base: &FactSets,
        shared: impl Fn(usize) -> Option<usize>,
    ) -> Self {
        FactSets::made(all, job, catalog, |at, work| match shared(at).and_then(|was| base.openings.get(was)) {
            Some(there) => there.sets.clone(),
            None => Arc::new(OpeningFactSets::of(work)),
        })
    }

    fn made(
        all: &Arrangement,
        job: &Job,
        catalog: &Catalog,
        opening: impl Fn(usize, &OpeningWork) -> Arc<OpeningFactSets>,
    ) -> Self {
        let job_facts = facts::job(Some((all, job, catalog))).into_fact_set(Vec::new());
        let sites: Vec<Arc<FactSet>> = all
            .sites
            .iter()
            .map(|site| facts::site(Some((site, all))).into_fact_set(vec![job_facts.clone()]))
            .collect();
        let site_at = |id: &str| all.sites.iter().position(|site| site.id == id);
        let site_facts = |id: &str| {
            let known = site_at(id).and_then(|at| sites.get(at));
            known.unwrap_or(&job_facts).clone()
        };
        let panels: Vec<Arc<FactSet>> = all
            .panels
            .iter()
            .map(|panel| facts::panel(Some((panel, job))).into_fact_set(vec![site_facts(&panel.site)]))
            .collect();
        let circuits = all
            .circuits
            .iter()
            .map(|circuit| {
                let panel = all.panels[circuit.panel].id.as_deref().unwrap_or("-");
                let place = circuit.headers.first().map(|(at, _)| &all.openings[*at].opening.place);
                let of = place.map(|place| (circuit, panel, place));
                facts::circuit(of).into_fact_set(vec![panels[circuit.panel].clone()])
            })
            .collect();
        let runs =
            all.runs.iter().map(|run| facts::run(Some(run)).into_fact_set(vec![site_facts(&run.run.site)])).collect();
        let each = all.openings.iter().enumerate();
        let openings =
            each.map(|(at, it)| OpeningFactSetsAt { sets: opening(at, it), site: site_at(&it.site.id) }).collect();
        FactSets { job: job_facts, sites, panels, circuits, runs, openings, visits: Vec::new() }
    }

    pub(super) fn add_visit(&mut self, load: &VisitLoad, site: usize, name: &str) {
        let fact_set = facts::visit(Some(load), name).into_fact_set(vec![self.sites[site].clone()]);
        self.visits.push(fact_set);
    }

    /// The facts that rules see of an entity. Those of an opening do not hold their site's, which differ between jobs that share it.
    pub(super) fn facts(&self, of: EntityRef) -> EntityFacts<'_> {
        let whole = of.opening().and_then(|at| self.openings.get(at)).map(|opening| {
            let site = opening.site.and_then(|site| self.sites.get(site));
            site.unwrap_or(&self.job).as_ref()
        });
        EntityFacts::new(self.fact_set(of), whole)
    }

    /// The facts of an entity and of what it is part of.
    pub(super) fn fact_set(&self, of: EntityRef) -> &FactSet {
        match of {
            EntityRef::Job => &self.job,
            EntityRef::Site(at) => &self.sites[at],
            EntityRef::Visit(at) => &self.visits[at],
            EntityRef::Panel(at) => &self.panels[at],
            EntityRef::Circuit(at) => &self.circuits[at],
            EntityRef::Run(at) => &self.runs[at],
            EntityRef::Opening(at) => &self.openings[at].sets.opening,
            EntityRef::Leaf(at, which) => &self.openings[at].sets.leaves[which],
            EntityRef::Header(at, which) => &self.openings[at].sets.headers[which],
            EntityRef::Drive(at, which) => &self.openings[at].sets.drives[which],
            EntityRef::Device(at, which) => &self.openings[at].sets.devices[which],
            EntityRef::Group(at, which) => &self.openings[at].sets.groups[which],
            EntityRef::Box(at, which) => &self.openings[at].sets.boxes[which],
            EntityRef::Fixing(at, which) => &self.openings[at].sets.fixings[which],
        }
    }
}

impl OpeningFactSets {
    fn of(work: &OpeningWork) -> Self {
        let operator = work.operator.map(|operator| facts::operator(Some(operator)).into_fact_set(Vec::new()));
        let opening = facts::opening(Some(work)).into_fact_set(operator.into_iter().collect());
        let mark = work.opening.mark.as_str();
        let on = |writer: FactSetWriter| writer.into_fact_set(vec![opening.clone()]);
        let leaves: Vec<Arc<FactSet>> = work.leaves.iter().map(|it| on(facts::leaf(Some((it, mark))))).collect();
        let headers: Vec<Arc<FactSet>> = work.headers.iter().map(|it| on(facts::header(Some((it, work))))).collect();
        let drive = |it: &super::DriveWork| {
            facts::drive(Some((it, work))).into_fact_set(vec![leaves[it.leaf].clone(), headers[it.header].clone()])
        };
        OpeningFactSets {
            drives: work.drives.iter().map(drive).collect(),
            devices: work.devices.iter().map(|it| on(facts::device(Some((it, mark))))).collect(),
            groups: work.groups.iter().map(|it| on(facts::group(Some((it, mark))))).collect(),
            boxes: work.boxes.iter().map(|it| on(facts::outlet(Some((it, work))))).collect(),
            fixings: work.fixings.iter().map(|it| on(facts::fixing(Some((it, work))))).collect(),
            leaves,
            headers,
            opening,
        }
    }
}

/// Every entity of a kind, in order. Visits and lines of items are not among them: they come of other rules' lines.
pub(super) fn entities(kind: Entity, all: &Arrangement) -> Vec<EntityRef> {
    match kind {
        Entity::Job => vec![EntityRef::Job],
        Entity::Site => (0..all.sites.len()).map(EntityRef::Site).collect(),
        Entity::Panel => (0..all.panels.len()).map(EntityRef::Panel).collect(),
        Entity::Circuit => (0..all.circuits.len()).map(EntityRef::Circuit).collect(),
        Entity::Run => (0..all.runs.len()).map(EntityRef::Run).collect(),
        _ => all.openings.iter().enumerate().flat_map(|(at, work)| entities_at(kind, at, work)).collect(),
    }
}

/// Every entity of a kind at an opening, in order; none of a kind that is not part of openings.
pub(super) fn entities_at(kind: Entity, at: usize, work: &OpeningWork) -> impl Iterator<Item = EntityRef> {
    let of = |count: usize, make: fn(usize, usize) -> EntityRef| (count, make);
    let (count, make) = match kind {
        Entity::Opening => of(1, |at, _| EntityRef::Opening(at)),
        Entity::Leaf | Entity::PoweredLeaf => of(work.leaves.len(), EntityRef::Leaf),
        Entity::Header => of(work.headers.len(), EntityRef::Header),
        Entity::Drive => of(work.drives.len(), EntityRef::Drive),
        Entity::Device => of(work.devices.len(), EntityRef::Device),
        Entity::DeviceGroup => of(work.groups.len(), EntityRef::Group),
        Entity::Box => of(work.boxes.len(), EntityRef::Box),
        Entity::Fixing => of(work.fixings.len(), EntityRef::Fixing),
        Entity::Job | Entity::Site | Entity::Panel | Entity::Circuit | Entity::Run | Entity::Visit | Entity::Item => {
            of(0, EntityRef::Leaf)
        }
    };
    let counts =
        move |which: &usize| kind != Entity::PoweredLeaf || work.leaves.get(*which).is_some_and(|it| it.powered);
    (0..count).filter(counts).map(move |which| make(at, which))
}

/// The sheet against which rules of an entity are checked. Rules over the lines of an item are checked against the
/// sheet of whatever the lines belong to; see the catalog.
pub fn sheet(kind: Entity) -> Arc<Sheet> {
    // A catalog asks for them once a rule; they follow from the code alone.
    static SHEETS: LazyLock<BTreeMap<Entity, Arc<Sheet>>> =
        LazyLock::new(|| Entity::ALL.iter().map(|kind| (*kind, Arc::new(sheet_of(*kind)))).collect());
    SHEETS.get(&kind).cloned().unwrap_or_else(|| Arc::new(sheet_of(kind)))
}

fn sheet_of(kind: Entity) -> Sheet {
    let job = || facts::job(None).into_sheet();
    let site = || facts::site(None).into_sheet().and(&job());
    let opening = || facts::opening(None).into_sheet().and(&facts::operator(None).into_sheet()).and(&site());
    let header = || facts::header(None).into_sheet().and(&opening());
    let leaf = || facts::leaf(None).into_sheet().and(&opening());
    let panel = || facts::panel(None).into_sheet().and(&site());
    match kind {
        Entity::Job => job(),
        Entity::Site => site(),
        Entity::Visit => facts::visit(None, "").into_sheet().and(&site()),
        Entity::Panel => panel(),
        Entity::Circuit => facts::circuit(None).into_sheet().and(&panel()),
        Entity::Run => facts::run(None).into_sheet().and(&site()),
        Entity::Opening | Entity::Item => opening(),
        Entity::Leaf | Entity::PoweredLeaf => leaf(),
        Entity::Header => header(),
        Entity::Drive => facts::drive(None).into_sheet().and(&leaf()).and(&header()),
        Entity::Device => facts::device(None).into_sheet().and(&opening()),
        Entity::DeviceGroup => facts::group(None).into_sheet().and(&opening()),
        Entity::Box => facts::outlet(None).into_sheet().and(&opening()),
        Entity::Fixing => facts::fixing(None).into_sheet().and(&opening()),
    }
}
