//! TOML text to a located tree.
//!
//! In: a file. Out: its root table with a place on every key and value, and all syntax faults as findings.
//! May not know: which keys are legal.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::codes;
use super::scalar::is_unprintable;
use super::{Entry, Node, Reader, Table, Tree, Written};
use crate::findings::{FileId, Finding, Place};

/// Parses a file. Whatever could be understood comes back as the root table.
pub(super) fn parse(file: FileId, reader: &mut Reader<'_>) -> Table {
    let Some(text) = text_of(file, reader) else { return empty(file) };
    let controls = report_controls(file, text, reader);
    let (root, errors) = DeTable::parse_recoverable(text);
    report_syntax(file, text, &errors, &controls, reader);
    let source = Source { file, text };
    Table { place: Place::File(file), entries: source.entries(root.get_ref()) }
}

fn empty(file: FileId) -> Table {
    Table { place: Place::File(file), entries: Vec::new() }
}

/// The text of a file; nothing, and a finding, where it is not UTF-8 or holds nothing.
pub(super) fn text_of<'f>(file: FileId, reader: &mut Reader<'f>) -> Option<&'f str> {
    let files = reader.files();
    let subject = reader.subject();
    match files.text(file) {
        Ok(text) if text.trim_start_matches('\u{feff}').trim().is_empty() => {
            reader.damage();
            let finding = Finding::new(&codes::EMPTY_FILE, subject).at(Place::File(file));
            reader
                .push(finding.found("nothing").asked("text").advise("save the file again, or take it out of the job"));
            None
        }
        Ok(text) => Some(text),
        Err(at) => {
            reader.damage();
            let bytes = files.bytes(file);
            let finding = Finding::new(&codes::NOT_UTF8, subject)
                .at(Place::text(file, at, at + 1))
                .found(encoding(bytes, at))
                .asked("UTF-8")
                .advise("save the file again with the encoding UTF-8");
            reader.push(finding);
            None
        }
    }
}

/// What the byte at which UTF-8 stops tells of the encoding.
fn encoding(bytes: &[u8], at: usize) -> String {
    match bytes {
        [0xff, 0xfe, ..] | [0xfe, 0xff, ..] => "it begins with the mark of UTF-16".to_owned(),
        _ => format!("byte {at} is 0x{:02X}, as in an old code page", bytes[at]),
    }
}

/// Reports raw characters that cannot be printed, each once; gives their offsets.
pub(super) fn report_controls(file: FileId, text: &str, reader: &mut Reader<'_>) -> Vec<usize> {
    let line_end = |at: usize, it: char| it == '\n' || it == '\t' || (it == '\r' && text[at + 1..].starts_with('\n'));
    let bad = text.char_indices().filter(|(at, it)| is_unprintable(*it) && !line_end(*at, *it));
    let found: Vec<(usize, char)> = bad.filter(|(at, it)| *at > 0 || *it != '\u{feff}').collect();
    for (at, it) in &found {
        let place = Place::text(file, *at, at + it.len_utf8());
        let finding = Finding::new(&codes::CONTROL_CHARACTER, reader.subject())
            .at(place.clone())
            .found(format!("U+{:04X}", u32::from(*it)))
            .asked("printable text")
            .type_at(place, "");
        reader.push(finding);
    }
    found.into_iter().map(|(at, _)| at).collect()
}

/// Reports syntax faults: the first of a line, and none for a line whose unprintable character was reported.
fn report_syntax(file: FileId, text: &str, errors: &[toml::de::Error], controls: &[usize], reader: &mut Reader<'_>) {
    let line = |at: usize| text.as_bytes()[..at.min(text.len())].iter().filter(|byte| **byte == b'\n').count();
    let mut last_line = None;
    let mut sorted: Vec<(Range<usize>, &toml::de::Error)> =
        errors.iter().map(|error| (error.span().unwrap_or(0..0), error)).collect();
    sorted.sort_by_key(|(span, _)| span.start);
    for (span, error) in sorted {
        let duplicate = error.message().starts_with("duplicate key");
        if !duplicate {
            reader.damage();
        }
        let here = line(span.start);
        if last_line == Some(here) || controls.iter().any(|at| line(*at) == here) {
            continue;
        }
        last_line = Some(here);
        let place = Place::text(file, span.start, span.end.max(span.start));
        let finding = if duplicate {
            Finding::new(&codes::DUPLICATE_KEY, reader.subject())
                .at(place)
                .found(text.get(span).unwrap_or_default())
                .asked("each key once in a table")
                .advise("take one of the two out")
        } else {
            Finding::new(&codes::NOT_TOML, reader.subject()).at(place).found(error.message()).asked("TOML 1.1")
        };
        reader.push(finding);
    }
}

struct Source<'t> {
    file: FileId,
    text: &'t str,
}

impl Source<'_> {
    fn place(&self, span: Range<usize>) -> Place {
        Place::text(self.file, span.start, span.end)
    }

    fn entries(&self, table: &DeTable<'_>) -> Vec<Entry> {
        let entry = |(key, value): (&Spanned<std::borrow::Cow<'_, str>>, &Spanned<DeValue<'_>>)| Entry {
            key: key.get_ref().to_string(),
            key_place: self.place(key.span()),
            node: self.node(value),
        };
        table.iter().map(entry).collect()
    }

    fn node(&self, value: &Spanned<DeValue<'_>>) -> Node {
        let span = value.span();
        let place = self.place(span.clone());
        let raw = || self.text.get(span.clone()).unwrap_or_default().to_owned();
        let tree = match value.get_ref() {
            DeValue::String(text) => Tree::Text(self.written(text, span.clone())),
            DeValue::Integer(number) => {
                let digits = i128::from_str_radix(number.as_str(), number.radix());
                Tree::Integer(digits.map_or_else(|_| number.as_str().to_owned(), |number| number.to_string()))
            }
            DeValue::Float(number) => Tree::Float(number.as_str().to_owned()),
            DeValue::Boolean(flag) => Tree::Flag(*flag),
            DeValue::Datetime(_) => Tree::Date(raw()),
            DeValue::Array(members) => Tree::List(members.iter().map(|member| self.node(member)).collect()),
            DeValue::Table(table) => Tree::Table(Table { place: place.clone(), entries: self.entries(table) }),
        };
        Node { place, tree }
    }

    fn written(&self, text: &str, span: Range<usize>) -> Written {
        let raw = self.text.get(span.clone()).unwrap_or_default();
        Written::new(text.to_owned(), self.file, steps(text, raw, span.start))
    }
}

/// Walks a string as it was typed beside what it means, and notes where the distance between the two changes.
fn steps(text: &str, raw: &str, start: usize) -> Vec<(u32, u32)> {
    let open = ["\"\"\"", "'''", "\"", "'"].into_iter().find(|quote| raw.starts_with(quote)).unwrap_or("");
    let escapes = open.starts_with('"');
    let mut at = open.len();
    if open.len() == 3 {
        at += raw[at..].len()
            - raw[at..].strip_prefix("\r\n").or(raw[at..].strip_prefix('\n')).unwrap_or(&raw[at..]).len();
    }
    let mut steps = vec![(0, (start + at) as u32)];
    for (offset, it) in text.char_indices() {
        at += skipped(&raw[at..], it, escapes);
        let (last_offset, last_source) = steps[steps.len() - 1];
        if (start + at) as u32 != last_source + offset as u32 - last_offset {
            steps.push((offset as u32, (start + at) as u32));
        }
        at += typed_length(&raw[at..], it, escapes);
    }
    let (last_offset, last_source) = steps[steps.len() - 1];
    if (start + at) as u32 != last_source + text.len() as u32 - last_offset {
        steps.push((text.len() as u32, (start + at) as u32));
    }
    steps
}

/// Bytes before the next character that mean nothing: a backslash at the end of a line and the white space after it,
/// or the first half of a line end.
fn skipped(raw: &str, next: char, escapes: bool) -> usize {
    let mut at = 0;
    loop {
        let rest = &raw[at..];
        let after = rest.strip_prefix('\\').map(|after| after.trim_start_matches([' ', '\t']));
        match after {
            Some(after) if escapes && after.starts_with(['\n', '\r']) => at += rest.len() - after.trim_start().len(),
            _ if next == '\n' && rest.starts_with("\r\n") => return at + 1,
            _ => return at,
        }
    }
}

/// Bytes that were typed for a character.
fn typed_length(raw: &str, it: char, escapes: bool) -> usize {
    if !escapes || !raw.starts_with('\\') {
        return it.len_utf8().min(raw.len());
    }
    let length = match raw.as_bytes().get(1) {
        Some(b'u') => 6,
        Some(b'U') => 10,
        Some(b'x') => 4,
        _ => 2,
    };
    length.min(raw.len())
}
