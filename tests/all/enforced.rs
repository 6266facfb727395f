//! Every clause that the ledger calls enforced, on an opening that keeps it and on one that does not.
//!
//! In: rows of `src/review/CLAUSES.md`, a sound job with other words in it. Out: rows without both openings, and openings on
//! which the clause is not kept, or kept where it should not be. A clause that a quantity keeps is broken by a catalog that
//! takes off something else. May not know: how a quantity is calculated; what is asked is worked here by hand.

use std::collections::BTreeSet;

use hingewright::findings::Findings;
use hingewright::measure::{Length, Unit};
use hingewright::rules::{FactName, FactValue, Facts};
use hingewright::takeoff::{EntityRef, Takeoff};
use rust_decimal::Decimal;

use crate::sound::{Sound, Words};

const LEDGER: &str = include_str!("../../src/review/CLAUSES.md");

/// An opening: words for the job's head, its table and the catalog.
struct Case {
    head: &'static str,
    job: &'static str,
    catalog: &'static str,
}

/// A clause with an opening that keeps it and one that does not.
struct Kept {
    clause: &'static str,
    keeps: Case,
    breaks: Case,
    holds: fn(&Takeoff, &Findings) -> bool,
}

const PLATE: &str =
    "device = [{ id = \"P1\", kind = \"push plate\", side = \"inside\", mount = \"wall\", height = \"40 in\" }]";
const RUN: &str = "[[run]]\nfrom = \"LP-1\"\nto = \"101\"\nkind = \"EMT\"\nlength = \"38 ft\"\nbends = [90, 90, 90, 90, 90]\n\
    class = \"line\"";
const TWO_HEIGHTS: &str =
    "[jurisdiction.state]\nname = \"State\"\nplate_heights = [\"7 1/2 in\", \"36 in\"]\nclause = \"11B-404.2.9\"";
const SMALL_BOX: &str = "[item.outlet]\nname = \"box\"\ngroup = \"box\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
    supplier = \"fenwick\"\nrule = [{ per = \"box\", when = 'box.class = \"line\"' }]\n# 14.5 cu in, whatever is in it";
const FITTING_BOX: &str = "[item.outlet]\nname = \"box\"\ngroup = \"box\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
    supplier = \"fenwick\"\nrule = [{ per = \"box\", when = 'box.class = \"line\" and box.volume <= 14.5 cu in' }]\n\
    [item.outlet-deep]\nname = \"box\"\ngroup = \"box\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
    supplier = \"fenwick\"\nrule = [{ per = \"box\", when = 'box.class = \"line\" and box.volume > 14.5 cu in' }]\n# 30.3 cu in";

/// An item of a run whose rule takes off so much.
macro_rules! of_run {
    ($unit:literal, $quantity:literal) => {
        concat!(
            "[item.part]\nname = \"part\"\ngroup = \"support\"\nunit = \"",
            $unit,
            "\"\nprice = \"1.00\"\npriced = 2026-11-02\nsupplier = \"fenwick\"\nrule = [{ per = \"run\", quantity = \"",
            $quantity,
            "\" }]"
        )
    };
}

static KEPT: [Kept; 8] = [
    Kept {
        // 7 to 8 in and 30 to 44 in (secondary; heights are data of a jurisdiction).
        clause: "CBC 2022 11B-404.2.9",
        keeps: Case { head: "jurisdictions = [\"state\"]", job: PLATE, catalog: TWO_HEIGHTS },
        breaks: Case { head: "", job: PLATE, catalog: TWO_HEIGHTS },
        holds: |takeoff, _| {
            let devices = &takeoff.arrangement.openings[0].devices;
            let between = |low: i64, high: i64| {
                let inches = |it: i64| Length::inches(it);
                devices.iter().any(|it| it.height.is_some_and(|at| at >= inches(low) && at <= inches(high)))
            };
            between(7, 8) && between(30, 44)
        },
    },
    Kept {
        // From memory; the class is defined by it.
        clause: "ANSI/BHMA A156.19, knowing act (from memory)",
        keeps: Case { head: "", job: PLATE, catalog: "" },
        breaks: Case {
            head: "",
            job: "device = [{ kind = \"motion sensor\", side = \"inside\", mount = \"header\" }]",
            catalog: "",
        },
        holds: |_, findings| findings.iter().all(|it| it.code.id != "motion-on-low-energy"),
    },
    Kept {
        // 36 in and 150 lb: 3.5 s (table I, from memory). What nobody knows the weight of has no time to be set.
        clause: "ANSI/BHMA A156.19, opening and closing times",
        keeps: Case { head: "", job: "", catalog: "" },
        breaks: Case { head: "", job: "leaf = { weight = \"none\", gauge = \"none\" }", catalog: "" },
        holds: |takeoff, _| {
            fact(takeoff, EntityRef::Drive(0, 0), "drive.opening_time", Unit::Second) == Some(tenths(35))
        },
    },
    Kept {
        // Four 12 AWG, two grounds, a switch: 4 × 2.25 + 2.25 + 2 × 2.25 = 15.75 cu in (314.16(B), secondary); 14.5 is too small.
        clause: "NEC 2023 314.16(B)(5) (secondary)",
        keeps: Case { head: "rules = [\"nec-2023\"]", job: "", catalog: FITTING_BOX },
        breaks: Case { head: "rules = [\"nec-2023\"]", job: "", catalog: SMALL_BOX },
        holds: box_is_large_enough,
    },
    Kept {
        // Up to four grounds both editions ask the same; beyond four is compared in the room engineering.
        clause: "NEC 2017 314.16(B)(5) (secondary)",
        keeps: Case { head: "rules = [\"nec-2017\"]", job: "", catalog: FITTING_BOX },
        breaks: Case { head: "rules = [\"nec-2017\"]", job: "", catalog: SMALL_BOX },
        holds: box_is_large_enough,
    },
    Kept {
        // 38 ft, and 6 in free at the panel (300.14, secondary), at both sides of a pull box, and at the header.
        clause: "NEC 2023 300.14",
        keeps: Case { head: "", job: RUN, catalog: of_run!("ft", "run.pull") },
        breaks: Case { head: "", job: RUN, catalog: of_run!("ft", "run.length") },
        holds: |takeoff, _| taken(takeoff, "part", Unit::Foot) >= Decimal::from(38) + tenths(5 * (2 + 2)),
    },
    Kept {
        // Five bends of 90 degrees are 450: one pull box at least, since 360 lie between pull points (from memory).
        clause: "NEC 2023 358.26, 348.26, 350.26",
        keeps: Case { head: "", job: RUN, catalog: of_run!("each", "run.pull_boxes") },
        breaks: Case { head: "", job: RUN, catalog: of_run!("each", "run.bends - 5") },
        holds: |takeoff, _| taken(takeoff, "part", Unit::Each) >= Decimal::ONE,
    },
    Kept {
        // 38 ft of EMT in two parts with a pull box between: within 3 ft of each end and every 10 ft (358.30, secondary) are at
        // least 1 + ceil((38 - 6) / 10) = 5 without the box, and more with it.
        clause: "NEC 2023 358.30, 348.30, 350.30",
        keeps: Case { head: "", job: RUN, catalog: of_run!("each", "run.supports") },
        breaks: Case { head: "", job: RUN, catalog: of_run!("each", "ceiling(run.length / 10 ft)") },
        holds: |takeoff, _| taken(takeoff, "part", Unit::Each) >= Decimal::from(5),
    },
];

fn tenths(of: i64) -> Decimal {
    Decimal::new(of, 1)
}

/// What was taken off of an item, in a unit.
fn taken(takeoff: &Takeoff, item: &str, unit: Unit) -> Decimal {
    let lines = takeoff.lines.iter().filter(|line| &*line.item == item);
    lines.map(|line| takeoff.ledger.value(line.quantity).number_of(unit).unwrap()).sum()
}

fn fact(takeoff: &Takeoff, of: EntityRef, name: &str, unit: Unit) -> Option<Decimal> {
    match takeoff.facts(of).value(&FactName::new(name), &takeoff.ledger) {
        FactValue::Number(quantity) => quantity.number_of(unit),
        _ => None,
    }
}

/// The one box at the header is the deep square (30.3 cu in) and not the one of 14.5.
fn box_is_large_enough(takeoff: &Takeoff, _: &Findings) -> bool {
    let capacity = |item: &str| if item == "outlet-deep" { Decimal::new(303, 1) } else { Decimal::new(145, 1) };
    let boxes: Vec<&str> = takeoff.lines.iter().map(|it| &*it.item).filter(|it| it.starts_with("outlet")).collect();
    assert_eq!(boxes.len(), 1, "one line-voltage box");
    capacity(boxes[0]) >= Decimal::new(1575, 2)
}

fn holds(kept: &Kept, case: &Case) -> bool {
    let sound = Sound::with(Words { head: case.head, job: case.job, catalog: case.catalog, ..Words::default() });
    let (takeoff, findings) = sound.take_off();
    (kept.holds)(&takeoff, &findings)
}

#[test]
fn every_enforced_clause_is_kept_by_one_opening_and_broken_by_another() {
    let rows = LEDGER.lines().filter(|line| line.starts_with('|'));
    let cells = rows.map(|line| line.trim_matches('|').split('|').map(str::trim).collect::<Vec<_>>());
    let enforced: BTreeSet<&str> = cells.filter(|row| row.get(2) == Some(&"enforced")).map(|row| row[0]).collect();
    let shown: BTreeSet<&str> = KEPT.iter().map(|kept| kept.clause).collect();
    assert_eq!(enforced, shown, "each row has a passing and a failing opening here");
    let wrong: Vec<String> = KEPT
        .iter()
        .flat_map(|kept| {
            let kept_by = (!holds(kept, &kept.keeps)).then(|| format!("{}: not kept where it should be", kept.clause));
            let broken = holds(kept, &kept.breaks).then(|| format!("{}: kept where it should not be", kept.clause));
            kept_by.into_iter().chain(broken)
        })
        .collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}
