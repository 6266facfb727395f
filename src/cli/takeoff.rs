//! `takeoff`: every quantity and every hour.
//!
//! In: a job's path. Out: a table on standard output. May not know: how a quantity is made.

use super::arguments::TableFormat;
use super::check::{ended, report};
use super::snapshot::{self, Source};
use super::{Outcome, terminal};
use crate::pipeline::{self, TakeoffTable};

/// Runs the command.
pub fn run(source: Source, format: TableFormat) -> Outcome {
    let Some((path, files)) = snapshot::of_job(source) else { return Outcome::CouldNotRun };
    let (table, findings) = pipeline::takeoff_table(&files, &path);
    report(&findings, &files);
    match (table, format) {
        (None, _) => return Outcome::Held,
        (Some(table), TableFormat::Text) => terminal::print(&text(&table)),
        (Some(table), TableFormat::Json) => terminal::print(&table.json()),
        (Some(table), TableFormat::Csv) => {
            terminal::print(&String::from_utf8_lossy(&table.csv()));
        }
    }
    ended(&findings)
}

/// Columns padded to their widest cell, quantities to the right.
fn text(table: &TakeoffTable) -> String {
    let rows: Vec<&[String]> = table.rows.iter().map(Vec::as_slice).collect();
    let widths: Vec<usize> = (0..table.heads.len())
        .map(|at| rows.iter().map(|row| row[at].chars().count()).chain([table.heads[at].len()]).max().unwrap_or(0))
        .collect();
    let line = |cells: &mut dyn Iterator<Item = &str>| {
        let padded: Vec<String> = cells
            .zip(&widths)
            .enumerate()
            .map(
                |(at, (cell, width))| {
                    if table.right[at] { format!("{cell:>width$}") } else { format!("{cell:<width$}") }
                },
            )
            .collect();
        padded.join("  ").trim_end().to_owned() + "\n"
    };
    let head = line(&mut table.heads.iter().copied());
    let rule = "-".repeat(head.trim_end().chars().count()) + "\n";
    let body: String = rows.iter().map(|row| line(&mut row.iter().map(String::as_str))).collect();
    head + &rule + &body
}
