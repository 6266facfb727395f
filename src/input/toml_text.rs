//! TOML text to a located tree.
//!
//! In: a file. Out: its root table with a place on every key and value, and all syntax faults as findings.
//! May not know: which keys are legal.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::codes;
use super::quoting::is_unprintable;
use super::{Entry, Fix, Node, Reader, Table, Tree, Written};
use crate::findings::{FileId, Finding, Place};

/// How often a file is parsed anew with its broken lines mended.
const PASSES: usize = 50;

/// A file with more faults of syntax is no file that a person typed: nothing after them is told.
const MOST_FAULTS: usize = 200;

/// The most bytes of a file: four times what ten thousand openings take that are typed out one by one.
const LARGEST: usize = 32 << 20;

/// The most bytes of a line: twice the longest text, were each of its characters written as a code.
const LONGEST_LINE: usize = 400_000;

/// Parses a file. Whatever could be understood comes back as the root table.
///
/// The parser stops at some faults, so lines that are not TOML are mended in a copy (the value of a key becomes `0`, other
/// lines become blank) and it is parsed anew, until no new fault comes up. Values on mended lines are unread.
pub(super) fn parse(file: FileId, reader: &mut Reader<'_>) -> Table {
    let Some(text) = text_of(file, reader) else { return empty(file) };
    let lines = text.split_inclusive('\n').scan(0, |at, line| {
        let start = *at;
        *at += line.len();
        Some(start..*at)
    });
    let controls = report_controls(file, text, lines, reader);
    let mut mended = text.to_owned();
    let mut broken: Vec<Range<usize>> = Vec::new();
    for pass in 0.. {
        let (root, errors) = DeTable::parse_recoverable(&mended);
        let mut dates = Vec::new();
        date_spans(root.get_ref(), &mut dates);
        let (doubles, faults) = sort_errors(&errors, &dates);
        let lines = report_syntax(file, &mended, &faults, (&controls, &broken, pass > 0), reader);
        if faults.len() > MOST_FAULTS {
            let more = format!("{} faults, of which {MOST_FAULTS} are told", faults.len());
            let finding = Finding::new(&codes::NOT_TOML, reader.subject()).at(Place::File(file)).found(more);
            reader.push(finding.asked("a TOML file").advise("see whether this is the file that is meant"));
            return empty(file);
        }
        let new: Vec<Range<usize>> = lines.into_iter().filter(|line| !mended[line.clone()].trim().is_empty()).collect();
        if new.is_empty() || pass == PASSES {
            report_doubles(file, text, &doubles, reader);
            broken.extend(new);
            let source = Source { file, text: &mended, broken };
            return Table { place: Place::File(file), entries: source.entries(root.get_ref()) };
        }
        mended = mend(&mended, &new, &broken);
        broken.extend(new);
    }
    empty(file)
}

/// Takes the lines out that are not TOML, leaving every other byte where it was. A line that was mended before becomes
/// blank; so do the keys under a head that cannot be read.
fn mend(text: &str, lines: &[Range<usize>], before: &[Range<usize>]) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for line in lines {
        let written = &text[line.clone()];
        let key = written.find('=').filter(|at| *at + 1 < written.trim_end().len() && is_key(&written[..*at]));
        let from = match key {
            Some(at) if !before.contains(line) => line.start + at + 1,
            _ => line.start,
        };
        let to = if written.trim_start().starts_with('[') { next_head(text, line.end) } else { line.end };
        for byte in &mut bytes[from..to] {
            if *byte != b'\n' {
                *byte = b' ';
            }
        }
        if from > line.start {
            bytes[from] = b'0';
        }
    }
    // Whole lines, or what follows an ASCII sign, were overwritten with ASCII: this is still UTF-8.
    String::from_utf8(bytes).unwrap_or_default()
}

fn is_key(text: &str) -> bool {
    let plain = |it: char| it.is_ascii_alphanumeric() || matches!(it, '-' | '_' | '.');
    !text.trim().is_empty() && text.trim().chars().all(plain)
}

/// Where the next line starts that opens a table, or the end.
fn next_head(text: &str, from: usize) -> usize {
    let mut at = from.min(text.len());
    for line in text[at..].split_inclusive('\n') {
        if line.trim_start().starts_with('[') {
            break;
        }
        at += line.len();
    }
    at
}

/// Spans of all dates. One that is on no calendar is a syntax error to the parser; whoever reads it says it better.
fn date_spans(table: &DeTable<'_>, out: &mut Vec<Range<usize>>) {
    for (_, value) in table.iter() {
        date_spans_of(value, out);
    }
}

fn date_spans_of(value: &Spanned<DeValue<'_>>, out: &mut Vec<Range<usize>>) {
    match value.get_ref() {
        DeValue::Datetime(_) => out.push(value.span()),
        DeValue::Array(members) => members.iter().for_each(|member| date_spans_of(member, out)),
        DeValue::Table(table) => date_spans(table, out),
        _ => {}
    }
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
        Ok(text) => match too_large(text) {
            None => Some(text),
            Some((place, found, asked)) => {
                reader.damage();
                let place = place.map_or(Place::File(file), |at| Place::text(file, at, at));
                let finding = Finding::new(&codes::TOO_LARGE, subject).at(place).found(found).asked(asked);
                reader.push(finding.advise("see whether this is the file that is meant"));
                None
            }
        },
        Err(_) if is_packed(files.bytes(file)) => {
            reader.damage();
            let finding = Finding::new(&codes::NOT_UTF8, subject).at(Place::File(file));
            let finding = finding.found("it is a workbook or another packed file").asked("a table of plain text");
            reader.push(
                finding.advise("save the table of the workbook as CSV with the encoding UTF-8, and name that file"),
            );
            None
        }
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

/// Where a text goes beyond what is read, what it has there and what it may have.
fn too_large(text: &str) -> Option<(Option<usize>, String, String)> {
    if text.len() > LARGEST {
        return Some((None, format!("{} MB", text.len() >> 20), format!("at most {} MB", LARGEST >> 20)));
    }
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        if line.len() > LONGEST_LINE {
            let asked = format!("lines of at most {LONGEST_LINE} bytes");
            return Some((Some(at), format!("a line of {} bytes begins here", line.len()), asked));
        }
        at += line.len();
    }
    None
}

/// Whether bytes begin as a ZIP file does, which a workbook of a spreadsheet is (PKWARE's application note, 4.3.7).
fn is_packed(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK\x03\x04")
}

/// What the byte at which UTF-8 stops tells of the encoding.
fn encoding(bytes: &[u8], at: usize) -> String {
    match bytes {
        [0xff, 0xfe, ..] | [0xfe, 0xff, ..] => "it begins with the mark of UTF-16".to_owned(),
        _ => format!("byte {at} is 0x{:02X}, as in an old code page", bytes[at]),
    }
}

/// Reports raw characters that cannot be printed, once for each line or cell that holds any; gives their offsets, in order. `parts`
/// are the lines or cells, in order.
pub(super) fn report_controls(
    file: FileId,
    text: &str,
    parts: impl Iterator<Item = Range<usize>>,
    reader: &mut Reader<'_>,
) -> Vec<usize> {
    let line_end = |at: usize, it: char| it == '\n' || it == '\t' || (it == '\r' && text[at + 1..].starts_with('\n'));
    let bad = text.char_indices().filter(|(at, it)| is_unprintable(*it) && !line_end(*at, *it));
    let found: Vec<(usize, char)> = bad.filter(|(at, it)| *at > 0 || *it != '\u{feff}').collect();
    let mut left = found.as_slice();
    for part in parts {
        let here = left.partition_point(|(at, _)| *at < part.end);
        let (inside, after) = left.split_at(here);
        left = after;
        let Some(((at, first), more)) = inside.split_first() else { continue };
        let place = Place::text(file, *at, at + first.len_utf8());
        let finding =
            Finding::new(&codes::CONTROL_CHARACTER, reader.subject()).at(place.clone()).asked("printable text");
        let code = format!("U+{:04X}", u32::from(*first));
        reader.push(match more.len() {
            0 => finding.found(code).type_at(place, ""),
            1 => finding.found(format!("{code}, with another after it,")).advise("take both out"),
            more => finding.found(format!("{code}, with {more} more after it,")).advise("take all of them out"),
        });
    }
    found.into_iter().map(|(at, _)| at).collect()
}

/// An error of the parser, with where it stands.
type Fault<'e> = (Range<usize>, &'e toml::de::Error);

/// Splits the parser's errors into keys written twice and faults of syntax, both in order. Dates that are on no calendar
/// are neither.
fn sort_errors<'e>(errors: &'e [toml::de::Error], dates: &[Range<usize>]) -> (Vec<Fault<'e>>, Vec<Fault<'e>>) {
    let spans = errors.iter().map(|error| (error.span().unwrap_or(0..0), error));
    let mut sorted: Vec<Fault<'e>> = spans.filter(|(span, _)| !dates.contains(span)).collect();
    sorted.sort_by_key(|(span, _)| span.start);
    sorted.into_iter().partition(|(_, error)| error.message().starts_with("duplicate key"))
}

/// Reports faults of syntax and gives their lines. Silent are: all but the first of a line, those of a line whose
/// unprintable character was reported, and in a later pass those that follow on a line mended before.
fn report_syntax(
    file: FileId,
    text: &str,
    faults: &[Fault<'_>],
    (controls, mended, later): (&[usize], &[Range<usize>], bool),
    reader: &mut Reader<'_>,
) -> Vec<Range<usize>> {
    let mut lines: Vec<Range<usize>> = Vec::new();
    for (span, error) in faults.iter().take(MOST_FAULTS) {
        reader.damage();
        let (line, span) = culprit(text, span);
        let beside = |before: &Range<usize>| {
            let between = before.end.min(line.end)..before.start.max(line.start);
            between.is_empty() || text[between].trim().is_empty()
        };
        let known = mended.contains(&line) || (later && mended.iter().chain(&lines).any(beside));
        let silent = known || lines.contains(&line) || holds_any(controls, &line);
        if !lines.contains(&line) {
            lines.push(line);
        }
        if !silent {
            let place = Place::text(file, span.start, span.end.max(span.start));
            let finding = Finding::new(&codes::NOT_TOML, reader.subject()).at(place);
            reader.push(match unquoted(file, text, &lines[lines.len() - 1]) {
                Some((_, Fix::Advice(text))) => finding.found("a day is written year-month-day").advise(text),
                Some((place, Fix::Bare(day))) => finding.found("a day is written year-month-day").type_at(place, day),
                Some((place, Fix::Text(typed))) => {
                    finding.found("a text stands in straight quotes").type_at(place, typed)
                }
                Some((_, Fix::None)) | None => finding.found(error.message()),
            });
        }
    }
    lines
}

/// Whether a range holds any of some offsets, which are in order.
fn holds_any(offsets: &[usize], range: &Range<usize>) -> bool {
    let first = offsets.partition_point(|at| *at < range.start);
    offsets.get(first).is_some_and(|at| *at < range.end)
}

/// The line at fault, and where on it. A line that is sound by itself suffers from one above it that opens a list or a
/// text and does not close it.
fn culprit(text: &str, span: &Range<usize>) -> (Range<usize>, Range<usize>) {
    let here = line_of(text, span.start);
    let mut line = here.clone();
    while DeTable::parse(&text[line.clone()]).is_ok() {
        if line.start == 0 {
            return (here, span.clone());
        }
        line = line_of(text, line.start - 1);
    }
    if line == here {
        return (here, span.clone());
    }
    let end = line.start + text[line.clone()].trim_end().len();
    (line, end..end)
}

/// The value of a line whose only fault is that its text stands without quotes or between curly ones, and the same in
/// quotes; or the day that was written in the order of another country.
fn unquoted(file: FileId, text: &str, line: &Range<usize>) -> Option<(Place, Fix)> {
    let written = &text[line.clone()];
    let (key, value) = written.split_once('=')?;
    let value = value.split_once('#').map_or(value, |(value, _)| value);
    let start = line.start + key.len() + 1 + value.len() - value.trim_start().len();
    let value = value.trim();
    let bare = value.trim_matches(['“', '”', '„', '‟', '‘', '’']);
    let quoted = super::quoting::quoted(bare);
    let mends = DeTable::parse(&format!("{key}= {quoted}")).is_ok() && !value.starts_with(['"', '\'', '[', '{', '=']);
    let fix = super::date::in_order(bare).unwrap_or(Fix::Text(quoted));
    (mends && !bare.is_empty()).then(|| (Place::text(file, start, start + value.len()), fix))
}

fn report_doubles(file: FileId, text: &str, doubles: &[Fault<'_>], reader: &mut Reader<'_>) {
    for (span, _) in doubles {
        let place = Place::text(file, span.start, span.end.max(span.start));
        reader.push(duplicate(place, text.get(span.clone()).unwrap_or_default(), reader));
    }
}

fn duplicate(place: Place, key: &str, reader: &Reader<'_>) -> Finding {
    Finding::new(&codes::DUPLICATE_KEY, reader.subject())
        .at(place)
        .found(key)
        .asked("each key once in a table")
        .advise("delete one of the two")
}

/// The bytes of the line that holds a byte.
fn line_of(text: &str, at: usize) -> Range<usize> {
    let bytes = text.as_bytes();
    let at = at.min(bytes.len());
    let start = bytes[..at].iter().rposition(|byte| *byte == b'\n').map_or(0, |end| end + 1);
    let end = bytes[at..].iter().position(|byte| *byte == b'\n').map_or(bytes.len(), |length| at + length);
    start..(end + 1).min(bytes.len())
}

struct Source<'t> {
    file: FileId,
    text: &'t str,
    /// Lines that are not TOML.
    broken: Vec<Range<usize>>,
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
        let guessed = span.is_empty() || self.broken.iter().any(|line| line.contains(&span.start));
        let tree = match value.get_ref() {
            DeValue::Table(_) if !guessed || !span.is_empty() => self.table(value, &place),
            _ if guessed => Tree::Unread,
            DeValue::String(text) => Tree::Text(self.written(text, span.clone())),
            DeValue::Integer(number) => {
                let digits = i128::from_str_radix(number.as_str(), number.radix());
                Tree::Integer(digits.map_or_else(|_| number.as_str().to_owned(), |number| number.to_string()))
            }
            DeValue::Float(number) => Tree::Float(number.as_str().to_owned()),
            DeValue::Boolean(flag) => Tree::Flag(*flag),
            DeValue::Datetime(_) => Tree::Date(raw()),
            DeValue::Array(members) => Tree::List(members.iter().map(|member| self.node(member)).collect()),
            DeValue::Table(_) => self.table(value, &place),
        };
        Node { place, tree }
    }

    fn table(&self, value: &Spanned<DeValue<'_>>, place: &Place) -> Tree {
        let entries = value.get_ref().as_table().map(|table| self.entries(table)).unwrap_or_default();
        Tree::Table(Table { place: place.clone(), entries })
    }

    fn written(&self, text: &str, span: Range<usize>) -> Written {
        let raw = self.text.get(span.clone()).unwrap_or_default();
        let text = text.replace("\r\n", "\n");
        let steps = steps(&text, raw, span.start);
        Written::new(text, self.file, steps)
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
