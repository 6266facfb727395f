//! `takeoff`: every quantity and every hour.
//!
//! In: a job's path. Out: a table on standard output. May not know: how a quantity is made.

use super::arguments::TableFormat;
use super::check::{ended, report_what_holds};
use super::snapshot::{self, Source};
use super::{Outcome, terminal};
use crate::pipeline::{self, TakeoffTable};

/// Runs the command.
pub fn run(source: Source, format: TableFormat) -> Outcome {
    let Some((path, files)) = snapshot::of_job(source) else { return Outcome::CouldNotRun };
    let (written, findings) = pipeline::takeoff_table(&files, &path, |table| match format {
        TableFormat::Text => text(table),
        TableFormat::Json => table.json(),
        TableFormat::Csv => String::from_utf8_lossy(&table.csv()).into_owned(),
    });
    report_what_holds(&findings, &files, source.job);
    match written {
        None => return Outcome::Held,
        Some(written) => terminal::print(&written),
    }
    ended(&findings)
}

/// Columns padded to their widest cell, quantities to the right.
fn text(table: &TakeoffTable) -> String {
    let length = |cell: &str| if cell.is_ascii() { cell.len() } else { cell.chars().count() };
    let widest =
        |at: usize| table.rows.iter().filter_map(|row| row.get(at)).map(|cell| length(cell)).max().unwrap_or(0);
    let widths: Vec<usize> = table.heads.iter().enumerate().map(|(at, head)| widest(at).max(length(head))).collect();
    let mut text = String::new();
    let add = |cells: &mut dyn Iterator<Item = &str>, text: &mut String| {
        let mut blanks = 0;
        for ((cell, width), right) in cells.zip(&widths).zip(table.right) {
            let padding = width.saturating_sub(length(cell));
            let (before, after) = if right { (padding, 0) } else { (0, padding) };
            // Nothing but blanks would follow the last words of a line, and they are left out.
            if !cell.is_empty() {
                text.extend(std::iter::repeat_n(' ', blanks + before));
                text.push_str(cell);
                blanks = 0;
            } else {
                blanks += before;
            }
            blanks += after + 2;
        }
        text.push('\n');
    };
    add(&mut table.heads.iter().copied(), &mut text);
    let under = text.trim_end().chars().count();
    text.extend(std::iter::repeat_n('-', under));
    text.push('\n');
    table.rows.iter().for_each(|row| add(&mut row.iter().map(AsRef::as_ref), &mut text));
    text
}
