//! Where the objects of a file stand: its cross-reference tables and streams (ISO 32000-1, 7.5.4 to 7.5.8).
//!
//! In: the bytes of a file. Out: the place of every object, and the trailer. May not know: what the objects are.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::budget::Budget;
use super::fault::Fault;
use super::parser::Parser;
use super::unpack::unpack;
use super::value::{Dict, Stream, Value};

/// The most tables of a file: one for each time it was saved.
const MOST_TABLES: usize = 1000;

/// Where an object stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Entry {
    /// Nowhere: it was taken out.
    Free,
    /// At a byte of the file.
    At(usize),
    /// In an object stream, at a position.
    In(u32, usize),
}

/// The places of all objects, and the trailer.
pub(super) struct Table<'f> {
    pub(super) entries: BTreeMap<u32, Entry>,
    pub(super) trailer: Dict<'f>,
}

const NO_TABLE: Fault = Fault::Damaged("it was cut short, or what its end points to is not there");

/// Reads every table of a file, the newest first: what a newer one says holds.
pub(super) fn read<'f>(bytes: &'f [u8], budget: &Budget) -> Result<Table<'f>, Fault> {
    let mut table = Table { entries: BTreeMap::new(), trailer: Dict::new() };
    let mut seen = BTreeSet::new();
    let mut next = Some(start(bytes, budget)?);
    while let Some(at) = next {
        if !seen.insert(at) || seen.len() > MOST_TABLES {
            return Err(Fault::Damaged("its tables lead in a ring"));
        }
        let trailer = table.section(bytes, at, budget)?;
        if let Some(hybrid) = trailer.get(b"XRefStm".as_slice()).and_then(Value::count) {
            table.section(bytes, hybrid, budget)?;
        }
        next = match trailer.get(b"Prev".as_slice()) {
            Some(previous) => Some(previous.count().ok_or(NO_TABLE)?),
            None => None,
        };
        if table.trailer.is_empty() {
            table.trailer = trailer;
        }
    }
    Ok(table)
}

/// The place of the newest table, which the end of the file tells.
fn start(bytes: &[u8], budget: &Budget) -> Result<usize, Fault> {
    const WORD: &[u8] = b"startxref";
    let tail = bytes.len().saturating_sub(2048);
    let found = bytes[tail..].windows(WORD.len()).rposition(|it| it == WORD).ok_or(NO_TABLE)?;
    let mut parser = Parser::new(bytes, tail + found + WORD.len(), budget);
    parser.count().filter(|at| *at < bytes.len()).ok_or(NO_TABLE)
}

impl<'f> Table<'f> {
    /// Reads one table; hands out its trailer.
    fn section(&mut self, bytes: &'f [u8], at: usize, budget: &Budget) -> Result<Dict<'f>, Fault> {
        let mut parser = Parser::new(bytes, at, budget);
        let trailer =
            if parser.keyword(b"xref") { self.lines(&mut parser)? } else { self.stream(parser.at, bytes, budget)? };
        budget.read(parser.at.saturating_sub(at))?;
        Ok(trailer)
    }

    fn add(&mut self, number: usize, entry: Entry) {
        if let Ok(number) = u32::try_from(number) {
            self.entries.entry(number).or_insert(entry);
        }
    }

    /// A table of lines, and the trailer below it.
    fn lines(&mut self, parser: &mut Parser<'f, '_>) -> Result<Dict<'f>, Fault> {
        while !parser.keyword(b"trailer") {
            let (Some(first), Some(count)) = (parser.count(), parser.count()) else { return Err(NO_TABLE) };
            for number in 0..count {
                let (Some(at), Some(_)) = (parser.count(), parser.count()) else { return Err(NO_TABLE) };
                let entry = if parser.keyword(b"n") {
                    Entry::At(at)
                } else if parser.keyword(b"f") {
                    Entry::Free
                } else {
                    return Err(NO_TABLE);
                };
                self.add(first.checked_add(number).ok_or(NO_TABLE)?, entry);
            }
        }
        match parser.value(0)? {
            Value::Dict(trailer) => Ok(Rc::unwrap_or_clone(trailer)),
            _ => Err(NO_TABLE),
        }
    }

    /// A cross-reference stream, whose dictionary is the trailer as well.
    fn stream(&mut self, at: usize, bytes: &'f [u8], budget: &Budget) -> Result<Dict<'f>, Fault> {
        let (_, value) = object_at(bytes, at, budget, &|value| Ok(value.clone()))?;
        let stream = value.stream().cloned().ok_or(NO_TABLE)?;
        let Stream { dict, data } = &*stream;
        let counts = |key: &[u8]| -> Option<Vec<usize>> { dict.get(key)?.list()?.iter().map(Value::count).collect() };
        let widths = counts(b"W").filter(|it| it.len() == 3 && it.iter().all(|width| *width <= 8)).ok_or(NO_TABLE)?;
        let data = unpack(data, &filters_of(dict, &|value| Ok(value.clone()))?, budget)?;
        let size = dict.get(b"Size".as_slice()).and_then(Value::count).unwrap_or(0);
        let ranges = counts(b"Index").unwrap_or_else(|| vec![0, size]);
        let length: usize = widths.iter().sum();
        let mut rows = data.chunks_exact(length.max(1));
        for range in ranges.chunks_exact(2) {
            for (number, row) in (range[0]..range[0].saturating_add(range[1])).zip(&mut rows) {
                self.row(number, row, &widths);
            }
        }
        Ok(dict.clone())
    }

    /// An entry of a cross-reference stream: ISO 32000-1, table 18.
    fn row(&mut self, number: usize, row: &[u8], widths: &[usize]) {
        let mut rest = row;
        let mut fields = [0usize; 3];
        for (field, width) in fields.iter_mut().zip(widths) {
            let (own, other) = rest.split_at(*width);
            *field = own.iter().fold(0, |sum, byte| (sum << 8) | usize::from(*byte));
            rest = other;
        }
        let kind = if widths[0] == 0 { 1 } else { fields[0] };
        match (kind, u32::try_from(fields[1])) {
            (0, _) => self.add(number, Entry::Free),
            (1, _) => self.add(number, Entry::At(fields[1])),
            (2, Ok(stream)) => self.add(number, Entry::In(stream, fields[2])),
            _ => {} // another kind stands for nothing: ISO 32000-1, 7.5.8.3
        }
    }
}

/// How a value is followed to what it refers to.
pub(super) type Follow<'x, 'f> = &'x dyn Fn(&Value<'f>) -> Result<Value<'f>, Fault>;

/// The object that stands at a byte, with its number.
pub(super) fn object_at<'f>(
    bytes: &'f [u8],
    at: usize,
    budget: &Budget,
    follow: Follow<'_, 'f>,
) -> Result<(u32, Value<'f>), Fault> {
    let mut parser = Parser::new(bytes, at, budget);
    let number = parser.count().and_then(|it| u32::try_from(it).ok());
    let (Some(number), Some(_), true) = (number, parser.count(), parser.keyword(b"obj")) else {
        return Err(Fault::Damaged("an object is not where its table says"));
    };
    let value = parser.value(0)?;
    let value = match value {
        Value::Dict(dict) if parser.keyword(b"stream") => {
            let data = data_of(&mut parser, &dict, follow, budget)?;
            Value::Stream(Rc::new(Stream { dict: Rc::unwrap_or_clone(dict), data: data.into() }))
        }
        other => other,
    };
    budget.read(parser.at - at.min(parser.at))?;
    Ok((number, value))
}

/// The data of a stream, as long as its dictionary says, or up to its end where that is wrong.
fn data_of<'f>(
    parser: &mut Parser<'f, '_>,
    dict: &Dict<'f>,
    follow: Follow<'_, 'f>,
    budget: &Budget,
) -> Result<&'f [u8], Fault> {
    const END: &[u8] = b"endstream";
    let bytes = parser.bytes;
    let rest = &bytes[parser.at..];
    let start = parser.at
        + if rest.starts_with(b"\r\n") { 2 } else { usize::from(rest.starts_with(b"\n") || rest.starts_with(b"\r")) };
    let length = match dict.get(b"Length".as_slice()) {
        Some(length) => follow(length)?.count(),
        None => None,
    };
    if let Some(end) = length.and_then(|it| start.checked_add(it)).filter(|end| *end <= bytes.len()) {
        parser.at = end;
        if parser.keyword(END) {
            return Ok(&bytes[start..end]);
        }
    }
    let rest = bytes.get(start..).unwrap_or_default();
    let found = rest.windows(END.len()).position(|it| it == END);
    let length = found.ok_or(Fault::Damaged("the data of a stream have no end"))?;
    budget.read(length)?;
    parser.at = start + length + END.len();
    let data = &rest[..length];
    let line_end =
        if data.ends_with(b"\r\n") { 2 } else { usize::from(data.ends_with(b"\n") || data.ends_with(b"\r")) };
    Ok(&data[..length - line_end])
}

/// The filters of a stream and their parameters, as lists (ISO 32000-1, table 5).
pub(super) fn filters_of<'f>(dict: &Dict<'f>, follow: Follow<'_, 'f>) -> Result<super::unpack::Filters<'f>, Fault> {
    let get = |key: &[u8]| dict.get(key).map_or(Ok(Value::Null), follow);
    let as_list = |value: Value<'f>| match value {
        Value::Null => Vec::new(),
        Value::List(list) => Rc::unwrap_or_clone(list),
        one => vec![one],
    };
    let parameters = as_list(get(b"DecodeParms")?);
    let mut filters = Vec::new();
    for (at, filter) in as_list(get(b"Filter")?).iter().enumerate() {
        let name = follow(filter)?.name().map(<[u8]>::to_vec).ok_or(Fault::Damaged("a filter has no name"))?;
        let own = parameters.get(at).map_or(Ok(Value::Null), follow)?;
        let mut plain = Dict::new();
        for (key, value) in own.dict().into_iter().flatten() {
            plain.insert(key.clone(), follow(value)?);
        }
        filters.push((name, plain));
    }
    if filters.len() > 8 {
        return Err(Fault::TooDeep);
    }
    Ok(filters)
}
