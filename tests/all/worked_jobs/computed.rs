//! What the program computes of a job, by the keys of a worksheet.
//!
//! In: a priced job. Out: quantities by section and key, and the figures that a total rests on.
//! May not know: what the worksheet says.

use std::collections::BTreeMap;

use hingewright::catalog::{Catalog, CostKind, Group};
use hingewright::estimate::{Estimate, HourlyRate, Named};
use hingewright::ledger::FigureId;
use hingewright::measure::Quantity;
use hingewright::pipeline::Priced;
use hingewright::takeoff::{Arrangement, BoxFor, EntityRef, FixingWork, Takeoff};

/// Computed quantities by section and key.
pub type Computed = BTreeMap<(&'static str, String), Quantity>;

/// Everything of a priced job that a worksheet has a row for.
pub fn computed(priced: &Priced, catalog: &Catalog) -> Computed {
    let mut into = Computed::new();
    let takeoff = &priced.takeoff;
    counts(takeoff, catalog, &mut into);
    lines(takeoff, &mut into);
    if let Some(estimate) = &priced.estimate {
        items(takeoff, catalog, estimate, &mut into);
        labor(takeoff, catalog, estimate, &mut into);
        build_up(takeoff, catalog, estimate, &mut into);
        for alternate in &priced.alternates {
            add(takeoff, &mut into, "total", format!("alternate {}", alternate.number), alternate.change);
        }
    }
    into
}

fn add(takeoff: &Takeoff, into: &mut Computed, section: &'static str, key: String, figure: FigureId) {
    let value = takeoff.ledger.value(figure);
    let before = into.insert((section, key.clone()), value);
    assert!(before.is_none(), "two figures are called {section} {key}");
}

fn counts(takeoff: &Takeoff, catalog: &Catalog, into: &mut Computed) {
    let all = &takeoff.arrangement;
    let of = |count: fn(&hingewright::takeoff::OpeningWork) -> usize| all.openings.iter().map(count).sum::<usize>();
    let group = |wanted: Group| {
        let lines = takeoff.lines.iter().filter(|line| catalog.items[&*line.item].group == wanted);
        lines.map(|line| takeoff.ledger.value(line.quantity).value()).sum()
    };
    let arms = |wanted: hingewright::catalog::Arm| {
        all.openings.iter().flat_map(|it| &it.drives).filter(|drive| drive.arm == Some(wanted)).count()
    };
    let mut count = |key: &str, count: usize| into.insert(("count", key.into()), Quantity::count(count as u64));
    count("openings", all.openings.len());
    count("leaves", of(|it| it.leaves.len()));
    count("powered leaves", of(|it| it.powered_leaves()));
    count("drives", of(|it| it.drives.len()));
    count("headers", of(|it| it.headers.len()));
    count("push arms", arms(hingewright::catalog::Arm::Push));
    count("pull arms", arms(hingewright::catalog::Arm::Pull));
    count("devices", of(|it| it.devices.len()));
    count("boxes", of(|it| it.boxes.len()));
    for (key, wanted) in [
        ("transmitters", Group::Transmitter),
        ("receivers", Group::Receiver),
        ("posts", Group::Post),
        ("signs", Group::Sign),
    ] {
        let sum: rust_decimal::Decimal = group(wanted);
        into.insert(("count", key.into()), Quantity::count(sum));
    }
}

fn lines(takeoff: &Takeoff, into: &mut Computed) {
    for line in &takeoff.lines {
        let key = format!("{} @ {}", line.item, entity(takeoff, line.of));
        add(takeoff, into, "quantity", key, line.quantity);
    }
    for line in &takeoff.labor {
        let key = match &line.task {
            Some(task) => format!("{task} @ {}", entity(takeoff, line.of)),
            None => format!("least hours @ {}, {}", entity(takeoff, line.of), line.trade),
        };
        add(takeoff, into, "hours", key, line.hours);
    }
}

fn items(takeoff: &Takeoff, catalog: &Catalog, estimate: &Estimate, into: &mut Computed) {
    for cost in &estimate.items {
        let id = &cost.item;
        let kind = match catalog.items[id].cost {
            CostKind::Material => "material",
            CostKind::Subcontract => "subcontract",
            CostKind::Equipment => "equipment",
            CostKind::Travel => "travel",
        };
        add(takeoff, into, "price", format!("net: {id}"), cost.net);
        add(takeoff, into, "price", format!("gross: {id}"), cost.gross);
        add(takeoff, into, "price", format!("{kind}: {id}"), cost.extension);
        if let Some(packs) = &cost.packs {
            add(takeoff, into, "price", format!("packs: {id}"), packs.cost);
        }
    }
    for freight in &estimate.freight {
        let supplier = catalog.suppliers.values().find(|it| freight.name.ends_with(&it.name)).unwrap();
        add(takeoff, into, "price", format!("freight: {}", supplier.id), freight.amount);
    }
    named(takeoff, into, "tax", &estimate.taxes);
}

fn named(takeoff: &Takeoff, into: &mut Computed, kind: &str, list: &[Named]) {
    for it in list {
        add(takeoff, into, "price", format!("{kind}: {}", it.name), it.amount);
    }
}

fn labor(takeoff: &Takeoff, catalog: &Catalog, estimate: &Estimate, into: &mut Computed) {
    for HourlyRate { trade, overtime, parts, rate } in &estimate.rates {
        add(takeoff, into, "price", format!("rate: {trade}, {}", paid(*overtime)), *rate);
        // Wage and amounts an hour are as typed; what is computed is a part of the wage.
        let worked_out = parts.iter().filter(|part| !part.how.is_empty() && part.name != "overtime premium");
        for part in worked_out.filter(|_| !*overtime) {
            add(takeoff, into, "price", format!("burden: {trade}, {}", part.name), part.amount);
        }
    }
    for cost in &estimate.labor {
        assert!(catalog.trades.contains_key(&cost.trade));
        let key = format!("labor: {}, {}, {}", cost.visit.word(), cost.trade, paid(cost.overtime));
        add(takeoff, into, "hours", key.clone(), cost.hours);
        add(takeoff, into, "price", key, cost.amount);
    }
}

fn paid(overtime: bool) -> &'static str {
    if overtime { "overtime" } else { "regular" }
}

fn build_up(takeoff: &Takeoff, _: &Catalog, estimate: &Estimate, into: &mut Computed) {
    named(takeoff, into, "mark", &estimate.marks);
    named(takeoff, into, "adjustment", &estimate.adjustments);
    for allowance in &estimate.allowances {
        let number = allowance.name.split(' ').next().unwrap();
        add(takeoff, into, "price", format!("allowance: {number}"), allowance.amount);
    }
    if let Some(bond) = &estimate.bond {
        add(takeoff, into, "price", "bond".into(), bond.amount);
    }
    let totals = &estimate.totals;
    for (key, figure) in [
        ("material", totals.material),
        ("labor", totals.labor),
        ("subcontract", totals.subcontract),
        ("equipment", totals.equipment),
        ("travel", totals.travel),
        ("direct cost", totals.direct),
        ("base bid", estimate.bid),
    ] {
        add(takeoff, into, "total", key.into(), figure);
    }
    for unit in &estimate.unit_prices {
        add(takeoff, into, "total", format!("unit price {}", unit.number), unit.price);
    }
}

/// What a worksheet calls an entity.
fn entity(takeoff: &Takeoff, of: EntityRef) -> String {
    let all = &takeoff.arrangement;
    match of {
        EntityRef::Job => "job".into(),
        EntityRef::Site(at) => all.sites[at].id.clone(),
        EntityRef::Visit(at) => {
            let visit = &takeoff.visits[at];
            format!("{}, {}", all.sites[visit.site].id, visit.kind.word())
        }
        EntityRef::Panel(at) => all.panels[at].id.clone().unwrap(),
        EntityRef::Circuit(at) => {
            let circuit = &all.circuits[at];
            format!("{}, circuit {}", all.panels[circuit.panel].id.as_ref().unwrap(), circuit.label())
        }
        EntityRef::Run(at) => format!("{} to {}", all.runs[at].run.from, all.runs[at].run.to),
        _ => at_opening(all, of),
    }
}

fn at_opening(all: &Arrangement, of: EntityRef) -> String {
    let opening = &all.openings[of.opening().unwrap()];
    let mark = &opening.opening.mark;
    let header = |at: usize| format!("{mark}, header {}", opening.headers[at].number);
    let drive = |at: usize| format!("{mark}, drive {}", opening.drives[at].number);
    let device = |at: usize| format!("{mark}/{}", opening.devices[at].id);
    match of {
        EntityRef::Leaf(_, at) => format!("{mark}, leaf {}", opening.leaves[at].number),
        EntityRef::Header(_, at) => header(at),
        EntityRef::Drive(_, at) => drive(at),
        EntityRef::Device(_, at) => device(at),
        EntityRef::Group(_, at) => format!("{mark}/{}", opening.groups[at].id),
        EntityRef::Box(_, at) => match opening.boxes[at].of {
            BoxFor::Device(at) => device(at),
            BoxFor::Header(at) => header(at),
        },
        EntityRef::Fixing(_, at) => match opening.fixings[at] {
            FixingWork::Header(at) => header(at),
            FixingWork::Arm(at) => drive(at),
        },
        _ => mark.clone(),
    }
}
