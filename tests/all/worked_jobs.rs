//! Jobs worked by hand, against what the program makes of them.
//!
//! In: `tests/jobs/<name>/`: a job, its catalog, and a worksheet that a person filled in before the program could.
//! Out: every difference, all at once. May not know: how the program computes.

mod worksheet;

use std::collections::BTreeSet;
use std::path::PathBuf;

use worksheet::{Fraction, Row, evaluate, numbers};

/// The jobs.
const JOBS: [&str; 3] = ["single", "pair", "egress"];

fn folder(job: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/jobs").join(job)
}

fn rows(job: &str) -> Vec<Row> {
    let text = std::fs::read_to_string(folder(job).join("worksheet.csv")).unwrap();
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
