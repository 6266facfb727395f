//! Jobs worked by hand, against what the program makes of them.
//!
//! In: `tests/jobs/<name>/`: a job, its catalog, and a worksheet that a person filled in before the program could.
//! Out: every difference, all at once. May not know: how the program computes.

mod computed;
mod worksheet;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use hingewright::estimate::{SensitiveTo, sensitivities};
use hingewright::findings::{Files, Findings, Severity};
use hingewright::ledger::FigureId;
use hingewright::measure::{Quantity, Unit};
use hingewright::money::Money;
use hingewright::pipeline::{Loaded, Priced, load, price};
use hingewright::review::{accept, review};

use computed::{Computed, computed};
use worksheet::{Fraction, Row, evaluate, numbers};

/// The jobs.
const JOBS: [&str; 7] = ["single", "single-mixed", "pair", "pair-existing", "egress", "egress-circuits", "sites"];

fn folder(job: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/jobs").join(job)
}

fn rows(job: &str) -> Vec<Row> {
    let text = fs::read_to_string(folder(job).join("worksheet.csv")).unwrap();
    worksheet::read(&text).unwrap_or_else(|fault| panic!("{job}: {fault}"))
}

#[test]
fn every_row_is_what_its_arithmetic_says() {
    for job in JOBS {
        for row in rows(job) {
            let value = evaluate(&row.expression).unwrap_or_else(|fault| panic!("{job}, {}: {fault}", row.key));
            assert_eq!(value, row.value, "{job}, {} {}", row.section, row.key);
            let cents = row.written.split_once('.').map(|(_, cents)| cents.len());
            assert!(row.unit != "$" || cents == Some(2), "{job}, {}: {}", row.key, row.written);
        }
    }
}

#[test]
fn no_row_stands_twice() {
    for job in JOBS {
        let mut seen = BTreeSet::new();
        for row in rows(job) {
            assert!(seen.insert((row.section.clone(), row.key.clone())), "{job}: {} {}", row.section, row.key);
        }
    }
}

/// A total that held a number of its own could be right by luck.
#[test]
fn totals_are_made_of_rows_above_them() {
    for job in JOBS {
        let zero = Fraction::new(0, 1);
        let mut above = vec![zero];
        for row in rows(job) {
            if row.section == "total" {
                for number in numbers(&row.expression) {
                    assert!(above.contains(&number), "{job}, {}: {number:?} stands nowhere above", row.key);
                }
            }
            above.extend([row.value, row.value.abs()]);
        }
    }
}

fn loaded(job: &str) -> Loaded {
    let mut files = Vec::new();
    gather(&folder(job), "", &mut files);
    load(&Files::new(files), "job.toml").unwrap()
}

fn gather(folder: &Path, named: &str, files: &mut Vec<(String, Vec<u8>)>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = format!("{named}{}", path.file_name().unwrap().to_str().unwrap());
        match path.is_dir() {
            true => gather(&path, &format!("{name}/"), files),
            false => files.push((name, fs::read(&path).unwrap())),
        }
    }
}

/// A quantity as a number of the unit that a worksheet names.
fn in_unit(quantity: Quantity, unit: &str) -> Option<Fraction> {
    let unit = match unit {
        "" => Unit::Each,
        other => Unit::parse(other)?,
    };
    Fraction::read(&quantity.number_of(unit)?.normalize().to_string()).ok()
}

#[test]
fn the_program_agrees_with_paper() {
    let mut wrong = Vec::new();
    for job in JOBS {
        let Loaded { catalog, job: read, findings, .. } = loaded(job);
        let read = read.unwrap();
        let mut all = Findings::default();
        all.extend(findings);
        let reviewed = review(read.clone(), &catalog, &mut all);
        let priced = price(&reviewed, &catalog);
        all.extend(priced.findings.clone());
        let (all, _) = accept(all, &read, &[]);
        let heard = all.iter().filter(|it| it.code.severity != Severity::FieldVerify);
        wrong.extend(heard.map(|it| format!("{job}: finding {} {}", it.code.id, it.found)));
        let rows = rows(job);
        compare(job, &rows, computed(&priced, &catalog), &mut wrong);
        for (at, alternate) in priced.alternates.iter().enumerate() {
            let varied = review(read.with_alternates(&[at]), &catalog, &mut Findings::default());
            let varied = price(&varied, &catalog);
            let section = |row: &&Row| row.section == "alternate" && row.key.starts_with(&alternate.number);
            rest_on(job, &varied, varied.estimate.as_ref().unwrap().bid, rows.iter().filter(section), &mut wrong);
        }
        for unit in &priced.estimate.as_ref().unwrap().unit_prices {
            let section = |row: &&Row| row.section == "unit price" && row.key.starts_with(&unit.number);
            rest_on(job, &priced, unit.price, rows.iter().filter(section), &mut wrong);
        }
    }
    assert!(wrong.is_empty(), "{} differences:\n{}", wrong.len(), wrong.join("\n"));
}

/// Every row that stands for a figure of the job, and every figure that has no row.
fn compare(job: &str, rows: &[Row], mut computed: Computed, wrong: &mut Vec<String>) {
    for row in rows {
        let Some(section) = ["count", "quantity", "hours", "price", "total"].into_iter().find(|it| *it == row.section)
        else {
            continue;
        };
        match computed.remove(&(section, row.key.clone())) {
            None => wrong.push(format!("{job}: {section} `{}` is not computed", row.key)),
            Some(quantity) if in_unit(quantity, &row.unit) == Some(row.value) => {}
            Some(quantity) => {
                let found = in_unit(quantity, &row.unit);
                wrong.push(format!("{job}: {section} `{}` is {found:?}, on paper {:?}", row.key, row.value));
            }
        }
    }
    let left = computed.into_keys().map(|(section, key)| format!("{job}: {section} `{key}` is not on paper"));
    wrong.extend(left);
}

/// Workings that end in one figure: each of their values is that figure or one it rests on.
fn rest_on<'r>(
    job: &str,
    priced: &Priced,
    figure: FigureId,
    rows: impl Iterator<Item = &'r Row>,
    wrong: &mut Vec<String>,
) {
    let ledger = &priced.takeoff.ledger;
    let under: Vec<Quantity> =
        ledger.ancestors(figure).into_iter().chain([figure]).map(|it| ledger.value(it)).collect();
    let mut seen = 0;
    for row in rows {
        seen += 1;
        if !under.iter().any(|it| in_unit(*it, &row.unit) == Some(row.value)) {
            wrong.push(format!("{job}: {} `{}`: {:?} is no figure of it", row.section, row.key, row.value));
        }
    }
    assert!(seen > 0, "{job}: no workings");
}

/// A crew-day more at D1 of the two sites, by hand: two people, eight hours, the overtime rate of $63.50; then overhead,
/// profit and the bond's third tier on what the worksheet has as direct cost.
#[test]
fn a_crew_day_more_is_what_paper_says() {
    let Loaded { catalog, job, .. } = loaded("sites");
    let reviewed = review(job.unwrap(), &catalog, &mut Findings::default());
    let priced = price(&reviewed, &catalog);
    let sensitivities = sensitivities(&priced.takeoff, priced.estimate.as_ref().unwrap()).unwrap();
    let found = sensitivities.iter().find(|it| it.of == SensitiveTo::Opening("D1".to_owned(), 2)).unwrap();
    let dollars = |money: Money| Fraction::read(&money.to_dollars().normalize().to_string()).unwrap();
    let direct = "(9506.32 + 2 * 8 * 63.50)";
    let overhead = format!("cents({direct} * 0.12)");
    let cost = format!("({direct} + {overhead})");
    let profit = format!("cents({cost} / (1 - 0.09) - {cost})");
    let before = format!("({cost} + {profit} + 1250.00)");
    let bond = format!("cents(({before} + 0.03 * 5000 + 0.02 * 7000 - 0.012 * 12000) / (1 - 0.012) - {before})");
    let bid = format!("{before} + {bond} - 13255.15");
    assert_eq!(dollars(found.more.cost), evaluate("2 * 8 * 63.50").unwrap());
    assert_eq!(dollars(found.more.bid), evaluate(&bid).unwrap());
    // Four hours are all that stands there in overtime: no more can be saved, at the same rate.
    assert_eq!(dollars(found.less.cost), evaluate("0 - (3 + 1) * 63.50").unwrap());
}

/// What the second editions say of circuits and obstructions, by hand.
#[test]
fn circuits_and_obstructions_of_the_second_editions_are_what_paper_says() {
    let of = |job: &str| {
        let Loaded { catalog, job, .. } = loaded(job);
        let mut findings = Findings::default();
        let reviewed = review(job.unwrap(), &catalog, &mut findings);
        let priced = price(&reviewed, &catalog);
        let circuit = &priced.takeoff.arrangement.circuits[0];
        let amps = priced.takeoff.amps_on(circuit, &catalog).and_then(|it| it.number_of(Unit::Ampere)).unwrap();
        let spaces = priced.takeoff.arrangement.panels[0].spaces;
        let found = findings.iter().find(|it| it.code.id == "in-the-way").map(|it| it.found.clone());
        (Fraction::read(&amps.normalize().to_string()).unwrap(), spaces, found.unwrap())
    };
    // Two drives of 3 A, a supply of 0.8 A, one of 0.5 A, and 4.0 A today; no space of the panel. The space of the header reaches to
    // 84 + 2 + 7 1/4 = 93 1/4 in: a detector at 92 in is 1 1/4 in too low, and a sprinkler head 14 in from the wall is beyond 6 1/4 in.
    let (amps, spaces, found) = of("egress-circuits");
    assert_eq!((amps, spaces), (evaluate("2 * 3 + 0.8 + 0.5 + 4.0").unwrap(), Some(0)));
    assert_eq!(found, "detector (1 1/4 in too low; relocated by fire alarm vendor)");
    // One drive of 2.1 A and a supply of 1.1 A. The space reaches to 84 + 2 + 6 3/4 = 92 3/4 in: the sign at 90 in is 2 3/4 in too low,
    // the camera at 88 in 4 3/4 in.
    let (amps, spaces, found) = of("pair-existing");
    assert_eq!((amps, spaces), (evaluate("2.1 + 1.1").unwrap(), Some(1)));
    assert_eq!(
        found,
        "exit sign (2 3/4 in too low; relocated by Stone & Sedge Builders) and \
         camera (4 3/4 in too low; removed by us)"
    );
}
