//! CSV text to located rows.
//!
//! In: a file whose heads are dotted keys of a record (`mark`, `leaf.width`, `leaf.1.hinges`). Out: one located table a
//! row, the same as TOML would give, and a finding for every fault of the table itself.
//! May not know: what a cell means.

use std::ops::Range;

use csv_core::{ReadFieldResult, ReaderBuilder};

use super::codes;
use super::heads::{self, Head};
use super::toml_text::{report_controls, text_of};
use super::{Entry, Node, Reader, RecordInfo, Table, Tree, Written};
use crate::findings::{FileId, Finding, Place};

/// A cell: its text without quotes, and its bytes in the file.
struct Cell {
    text: String,
    raw: Range<usize>,
    /// Whether it opens a quote that is never closed.
    unclosed: bool,
}

/// The most rows of a table: twice the openings of the largest job that the program is measured with.
const MOST_ROWS: usize = 20_000;

/// Parses a file into one located table a row.
pub(super) fn parse(file: FileId, info: &'static RecordInfo, reader: &mut Reader<'_>) -> Vec<Table> {
    let Some(text) = text_of(file, reader) else { return Vec::new() };
    let mut rows = split(text);
    report_controls(file, text, parts(text, &rows), reader);
    if let Some(beyond) = rows.get(MOST_ROWS).and_then(|row| row.first()) {
        reader.damage();
        let place = Place::text(file, beyond.raw.start, beyond.raw.start);
        let finding = Finding::new(&codes::TOO_LARGE, reader.subject()).at(place).found(format!("{} rows", rows.len()));
        let finding = finding.asked(format!("at most {MOST_ROWS} rows"));
        reader.push(finding.advise("see whether this is the file that is meant, or make several jobs of it"));
        rows.truncate(MOST_ROWS);
    }
    let Some((first, body)) = rows.split_first() else { return Vec::new() };
    for cell in rows.iter().flatten().filter(|cell| cell.unclosed) {
        reader.damage();
        let place = Place::text(file, cell.raw.start, cell.raw.start + 1);
        let finding = Finding::new(&codes::UNCLOSED_QUOTE, reader.subject()).at(place).found("no second quote");
        reader.push(finding.asked("a quote at both ends of the cell").advise("close the quote, or delete it"));
    }
    let named: Vec<(&str, Place)> =
        first.iter().map(|cell| (cell.text.trim(), Place::text(file, cell.raw.start, cell.raw.end))).collect();
    let heads = heads::check(&named, info, reader);
    let filled = body.iter().filter(|row| row.iter().any(|cell| !cell.text.trim().is_empty()));
    filled.map(|row| row_table(file, text, row, &heads, reader)).collect()
}

/// Each cell with what stands between it and the next, so that every byte is in one of them.
fn parts<'r>(text: &str, rows: &'r [Vec<Cell>]) -> impl Iterator<Item = Range<usize>> + 'r {
    let starts = rows.iter().flatten().map(|cell| cell.raw.start).skip(1).chain([text.len()]);
    starts.scan(0, |from, to| Some(std::mem::replace(from, to)..to))
}

/// Splits the text into rows of cells. Blank lines are no rows; a mark of byte order is skipped.
fn split(text: &str) -> Vec<Vec<Cell>> {
    let mut machine = ReaderBuilder::new().delimiter(delimiter(text)).build();
    let bytes = text.as_bytes();
    let mut at = text.len() - text.trim_start_matches('\u{feff}').len();
    let mut out = vec![0; bytes.len() + 1];
    let (mut rows, mut row) = (Vec::new(), Vec::new());
    loop {
        if row.is_empty() {
            at += bytes[at..].iter().take_while(|byte| matches!(byte, b'\n' | b'\r')).count();
        }
        let (result, read, wrote) = machine.read_field(&bytes[at..], &mut out);
        let end_of_row = match result {
            ReadFieldResult::Field { record_end } => record_end,
            ReadFieldResult::InputEmpty => {
                // The last cell of a file without a final line end comes with the next, empty read.
                let cell = cell_at(text, at, read, &out[..wrote]);
                let (result, ..) = machine.read_field(&[], &mut out[wrote..]);
                if matches!(result, ReadFieldResult::Field { .. }) {
                    row.push(cell);
                }
                if !row.is_empty() {
                    rows.push(std::mem::take(&mut row));
                }
                return rows;
            }
            ReadFieldResult::OutputFull | ReadFieldResult::End => return rows,
        };
        row.push(cell_at(text, at, read, &out[..wrote]));
        at += read;
        if end_of_row {
            rows.push(std::mem::take(&mut row));
        }
    }
}

/// The mark between cells: a comma, or what the head line has instead of any comma.
fn delimiter(text: &str) -> u8 {
    let head = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    match () {
        () if head.contains(',') => b',',
        () if head.contains(';') => b';',
        () if head.contains('\t') => b'\t',
        () => b',',
    }
}

fn cell_at(text: &str, at: usize, read: usize, out: &[u8]) -> Cell {
    let taken = &text[at..at + read];
    let typed = taken.strip_suffix(['\n', '\r']).unwrap_or(taken);
    let typed = if typed.len() == taken.len() { taken.strip_suffix([',', ';', '\t']).unwrap_or(taken) } else { typed };
    let typed = typed.strip_suffix('\r').unwrap_or(typed);
    let unclosed = typed.starts_with('"') && quotes_at_end(typed);
    Cell { text: String::from_utf8_lossy(out).into_owned(), raw: at..at + typed.len(), unclosed }
}

/// Whether a cell that opens with a quote lacks the closing one.
fn quotes_at_end(typed: &str) -> bool {
    typed.bytes().filter(|byte| *byte == b'"').count() % 2 == 1
}

/// Puts the cells of a row at their keys. A row with too few or too many cells is a finding; what it has is still read.
fn row_table(file: FileId, text: &str, row: &[Cell], heads: &[Option<Head>], reader: &mut Reader<'_>) -> Table {
    let (start, end) = (row[0].raw.start, row[row.len() - 1].raw.end);
    let place = Place::text(file, start, end);
    let mut table = Table { place: place.clone(), entries: Vec::new() };
    // Which comma is missing or too many is not known, so that only the first cell is where it belongs.
    let is_whole = report_length(file, row, heads.len(), &place, reader);
    let (read, unread) = heads.split_at(if is_whole { heads.len() } else { heads.len().min(1) });
    for head in unread.iter().flatten() {
        insert(&mut table, &head.path, Node { place: place.clone(), tree: Tree::Unread });
    }
    for (cell, head) in row.iter().zip(read) {
        let Some(head) = head else { continue };
        if cell.text.trim().is_empty() || cell.unclosed {
            continue;
        }
        let inside = cell.text.replace("\r\n", "\n");
        let steps = steps(&inside, &text[cell.raw.clone()], cell.raw.start);
        let written = Written::new(inside, file, steps);
        let node = Node { place: Place::text(file, cell.raw.start, cell.raw.end), tree: Tree::Cell(written) };
        let cell_place = node.place.clone();
        if let Some((key, first)) = insert(&mut table, &head.path, node) {
            let finding =
                Finding::new(&codes::DUPLICATE_KEY, reader.subject()).at(cell_place).near(first, "first here");
            reader.push(finding.found(key).asked("one value of a key in a row").advise("empty one of the two cells"));
        }
    }
    table
}

/// Whether a row has as many cells as there are heads; what it has too few or too many is reported.
fn report_length(file: FileId, row: &[Cell], heads: usize, place: &Place, reader: &mut Reader<'_>) -> bool {
    let asked = format!("{heads} cells, as there are heads");
    let found = row.len().to_string();
    if row.len() < heads && !row.iter().any(|cell| cell.unclosed) {
        let end = row[row.len() - 1].raw.end;
        let finding = Finding::new(&codes::SHORT_ROW, reader.subject()).at(Place::text(file, end, end));
        let mut finding = finding.found(found).asked(asked).margin(format!("{} too few", heads - row.len()));
        finding = finding.advise("add the cells that are missing, empty ones too");
        reader.push(finding.near(place.clone(), "this row"));
        return false;
    }
    if row.len() > heads && row[heads..].iter().any(|cell| !cell.text.trim().is_empty()) {
        let place = Place::text(file, row[heads].raw.start, row[row.len() - 1].raw.end);
        let finding = Finding::new(&codes::LONG_ROW, reader.subject()).at(place);
        let finding = finding.found(found).asked(asked).margin(format!("{} too many", row.len() - heads));
        reader.push(finding.advise("put quotes around a text with a comma in it, or take the cells out"));
        return false;
    }
    true
}

/// Puts a node at a dotted path, opening tables on the way. Gives the key that is taken already, and by what, where one
/// column gives a whole (`bends`) and another a part of it (`bends.1`).
fn insert(table: &mut Table, path: &[(String, Place)], node: Node) -> Option<(String, Place)> {
    let [(key, key_place), rest @ ..] = path else { return None };
    let taken = table.get(key).map(|known| (key.clone(), known.place.clone()));
    if rest.is_empty() {
        if taken.is_none() {
            table.entries.push(Entry { key: key.clone(), key_place: key_place.clone(), node });
        }
        return taken;
    }
    let at = table.entries.iter().position(|entry| entry.key == *key).unwrap_or_else(|| {
        let inside = Table { place: table.place.clone(), entries: Vec::new() };
        let node = Node { place: table.place.clone(), tree: Tree::Table(inside) };
        table.entries.push(Entry { key: key.clone(), key_place: key_place.clone(), node });
        table.entries.len() - 1
    });
    match &mut table.entries[at].node.tree {
        Tree::Table(inside) => insert(inside, rest, node),
        _ => taken,
    }
}

/// Where the bytes of a cell's text stand: after an opening quote, and one further after each doubled quote and at each
/// line end of two bytes.
fn steps(text: &str, raw: &str, start: usize) -> Vec<(u32, u32)> {
    let mut at = usize::from(raw.starts_with('"'));
    let mut steps = vec![(0, (start + at) as u32)];
    if at == 0 {
        return steps;
    }
    for (offset, it) in text.char_indices() {
        if it == '\n' && raw[at.min(raw.len())..].starts_with("\r\n") {
            at += 1;
            steps.push((offset as u32, (start + at) as u32));
        }
        at += it.len_utf8();
        if it == '"' && raw[at.min(raw.len())..].starts_with('"') {
            at += 1;
            steps.push(((offset + 1) as u32, (start + at) as u32));
        }
    }
    steps
}
