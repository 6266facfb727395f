//! The file itself: numbered objects, object streams, the cross-reference stream and the trailer.
//!
//! In: objects as bytes. Out: the bytes of a PDF 1.7 file, the same for the same objects. May not know: pages, text, tags.
//!
//! Everything but streams goes into object streams (ISO 32000-1, 7.5.7), which are made in parallel: a tagged table of
//! five thousand rows has some forty thousand small objects, and they shrink tenfold together.

use std::io::Write;

use rayon::prelude::*;
use sha2::{Digest, Sha256};

use super::deflate::{Level, deflate};
use super::numbers::{hex, integer};

/// How many objects go into one object stream, where they come one by one.
const GROUP: usize = 200;

/// The number of an object.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Number(pub(super) u32);

impl Number {
    /// Writes a reference to it.
    pub(super) fn refer(self, out: &mut Vec<u8>) {
        integer(out, i64::from(self.0));
        out.extend_from_slice(b" 0 R");
    }

    /// The number that stands so many after it.
    pub(super) fn plus(self, steps: usize) -> Number {
        Number(self.0 + steps as u32) // a file with 2^32 objects does not fit into memory
    }
}

/// Objects that follow each other in number, written one after the other.
#[derive(Default)]
pub(super) struct Group {
    first: u32,
    starts: Vec<u32>,
    bytes: Vec<u8>,
}

impl Group {
    /// An empty group whose objects are numbered from `first` on.
    pub(super) fn new(first: Number) -> Self {
        Group { first: first.0, starts: Vec::new(), bytes: Vec::new() }
    }

    /// Starts the next object; what is written to the bytes handed out belongs to it.
    pub(super) fn begin(&mut self) -> &mut Vec<u8> {
        if !self.bytes.is_empty() {
            self.bytes.push(b'\n');
        }
        self.starts.push(self.bytes.len() as u32);
        &mut self.bytes
    }

    /// The object stream that holds the group.
    pub(super) fn packed(self) -> Packed {
        let mut data = Vec::with_capacity(self.bytes.len() + 12 * self.starts.len());
        for (at, start) in self.starts.iter().enumerate() {
            integer(&mut data, i64::from(self.first) + at as i64);
            data.push(b' ');
            integer(&mut data, i64::from(*start));
            data.push(b' ');
        }
        let entries = format!("/Type/ObjStm/N {}/First {}", self.starts.len(), data.len()).into_bytes();
        data.extend_from_slice(&self.bytes);
        let count = self.starts.len() as u32;
        Packed { first: self.first, count, entries, data: deflate(&data, Level::Quick) }
    }
}

/// An object stream without its number.
pub(super) struct Packed {
    /// The number of its first object.
    first: u32,
    /// How many objects it holds.
    count: u32,
    /// The entries of its dictionary besides length and filter.
    entries: Vec<u8>,
    /// The objects, deflated.
    data: Vec<u8>,
}

/// Objects on their way into an object stream.
enum Grouped {
    Open(Group),
    Packed(Packed),
}

impl Grouped {
    fn packed(self) -> Packed {
        match self {
            Grouped::Open(group) => group.packed(),
            Grouped::Packed(packed) => packed,
        }
    }
}

/// A stream: the entries of its dictionary besides length and filter, and its data.
struct Stream {
    number: u32,
    entries: Vec<u8>,
    data: Vec<u8>,
    form: Form,
}

/// What was done, or is to be done, to the data of a stream.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Form {
    /// They are deflated.
    Deflated,
    /// They are to be deflated.
    Raw,
    /// They stay as they are, for anyone to read.
    Open,
}

/// A file in the making.
#[derive(Default)]
pub(super) struct File {
    last: u32,
    plain: Vec<(u32, Vec<u8>)>,
    groups: Vec<Grouped>,
    streams: Vec<Stream>,
}

impl File {
    /// Sets numbers aside and hands out the first.
    pub(super) fn reserve(&mut self, count: usize) -> Number {
        let first = self.last + 1;
        self.last += count as u32;
        Number(first)
    }

    /// Adds an object that is no stream.
    pub(super) fn put(&mut self, number: Number, object: Vec<u8>) {
        self.plain.push((number.0, object));
    }

    /// Adds an object that is no stream under a number of its own.
    pub(super) fn add(&mut self, object: Vec<u8>) -> Number {
        let number = self.reserve(1);
        self.put(number, object);
        number
    }

    /// Adds a group of objects, to be one object stream.
    pub(super) fn put_group(&mut self, group: Group) {
        self.groups.push(Grouped::Open(group));
    }

    /// Adds a group of objects that is an object stream already.
    pub(super) fn put_packed(&mut self, packed: Packed) {
        self.groups.push(Grouped::Packed(packed));
    }

    /// Adds a stream, to be deflated; `entries` are those of its dictionary besides length and filter.
    pub(super) fn put_stream(&mut self, number: Number, entries: Vec<u8>, data: Vec<u8>) {
        self.streams.push(Stream { number: number.0, entries, data, form: Form::Raw });
    }

    /// Adds a stream whose data are deflated already.
    pub(super) fn put_deflated(&mut self, number: Number, entries: Vec<u8>, data: Vec<u8>) {
        self.streams.push(Stream { number: number.0, entries, data, form: Form::Deflated });
    }

    /// Adds a stream that anyone may read without inflating it.
    pub(super) fn put_open_stream(&mut self, number: Number, entries: Vec<u8>, data: Vec<u8>) {
        self.streams.push(Stream { number: number.0, entries, data, form: Form::Open });
    }

    /// Writes the file. Its identifier is a digest of all that it holds.
    pub(super) fn finish(mut self, root: Number, info: Option<Number>) -> Vec<u8> {
        self.gather_plain();
        let mut entries = vec![Entry::Free; self.last as usize + 1];
        self.number_groups(&mut entries);
        self.streams.par_iter_mut().for_each(Stream::deflate);
        let mut out = Vec::with_capacity(self.streams.iter().map(|stream| stream.data.len() + 100).sum());
        out.extend_from_slice(b"%PDF-1.7\n%\xE2\xE3\xCF\xD3\n");
        self.streams.sort_by_key(|stream| stream.number);
        // Each stream goes as it is written, so that the file is not there twice.
        for stream in self.streams.drain(..) {
            entries[stream.number as usize] = Entry::At(out.len() as u32);
            stream.write(&mut out);
        }
        let start = out.len();
        entries.push(Entry::At(start as u32));
        self.cross_reference(&entries, root, info, &mut out);
        // Writing to a vector cannot fail.
        let _ = write!(out, "startxref\n{start}\n%%EOF\n");
        out
    }

    /// Puts the objects that came one by one into groups of their own.
    fn gather_plain(&mut self) {
        let mut plain = std::mem::take(&mut self.plain);
        plain.sort_by_key(|(number, _)| *number);
        let mut group = Group::default();
        for (number, object) in plain {
            let full = group.starts.len() == GROUP;
            if group.starts.is_empty() || full || group.first + group.starts.len() as u32 != number {
                self.close_group(std::mem::replace(&mut group, Group::new(Number(number))));
            }
            group.begin().extend_from_slice(&object);
        }
        self.close_group(group);
    }

    fn close_group(&mut self, group: Group) {
        if !group.starts.is_empty() {
            self.put_group(group);
        }
    }

    /// Turns every group into a stream and notes where its objects stand.
    fn number_groups(&mut self, entries: &mut Vec<Entry>) {
        let groups = std::mem::take(&mut self.groups);
        let first = self.reserve(groups.len());
        entries.resize(self.last as usize + 1, Entry::Free);
        let packed: Vec<Packed> = groups.into_par_iter().map(Grouped::packed).collect();
        for (Packed { first, count, entries: dictionary, data }, number) in packed.into_iter().zip(first.0..) {
            for position in 0..count {
                entries[(first + position) as usize] = Entry::In(number, position);
            }
            self.streams.push(Stream { number, entries: dictionary, data, form: Form::Deflated });
        }
    }

    /// Writes the cross-reference stream (ISO 32000-1, 7.5.8), which is the trailer as well.
    fn cross_reference(&self, entries: &[Entry], root: Number, info: Option<Number>, out: &mut Vec<u8>) {
        let table = differences(entries);
        let digest = Sha256::digest(&out[..]);
        let mut dictionary = format!("/Type/XRef/Size {}/W[1 4 2]/Root {} 0 R", entries.len(), root.0).into_bytes();
        if let Some(info) = info {
            dictionary.extend_from_slice(b"/Info ");
            info.refer(&mut dictionary);
        }
        let mut id = Vec::new();
        digest[..16].iter().for_each(|byte| hex(&mut id, *byte));
        dictionary.extend_from_slice(b"/ID[<");
        dictionary.extend_from_slice(&id);
        dictionary.extend_from_slice(b"><");
        dictionary.extend_from_slice(&id);
        dictionary.extend_from_slice(b">]/DecodeParms<</Predictor 12/Columns 7>>");
        let number = entries.len() as u32 - 1;
        Stream { number, entries: dictionary, data: deflate(&table, Level::Small), form: Form::Deflated }.write(out);
    }
}

impl Stream {
    fn deflate(&mut self) {
        if self.form == Form::Raw {
            self.data = deflate(&self.data, Level::Small);
            self.form = Form::Deflated;
        }
    }

    fn write(&self, out: &mut Vec<u8>) {
        integer(out, i64::from(self.number));
        out.extend_from_slice(b" 0 obj\n<<");
        out.extend_from_slice(&self.entries);
        if self.form == Form::Deflated {
            out.extend_from_slice(b"/Filter/FlateDecode");
        }
        out.extend_from_slice(b"/Length ");
        integer(out, self.data.len() as i64);
        out.extend_from_slice(b">>stream\n");
        out.extend_from_slice(&self.data);
        // CR LF, not LF alone: data that ends with CR would make one line end together with LF, and look a byte short.
        out.extend_from_slice(b"\r\nendstream\nendobj\n");
    }
}

/// Where an object stands.
#[derive(Clone, Copy)]
enum Entry {
    /// Nowhere: the number is not used.
    Free,
    /// At a byte of the file.
    At(u32),
    /// In an object stream, at a position.
    In(u32, u32),
}

/// How many bytes an entry of the cross-reference stream has.
const ENTRY: usize = 7;

/// The entries, each as its difference from the one before, byte by byte, behind the sign for that: the filter Up of the PNG
/// predictors (ISO 32000-1, 7.4.4.4). Neighbours differ by one in one byte, which deflates to next to nothing.
fn differences(entries: &[Entry]) -> Vec<u8> {
    let mut table = Vec::with_capacity(entries.len() * (ENTRY + 1));
    let mut before = [0; ENTRY];
    for entry in entries {
        let bytes = entry.bytes();
        table.push(2);
        table.extend(bytes.iter().zip(before).map(|(byte, before)| byte.wrapping_sub(before)));
        before = bytes;
    }
    table
}

impl Entry {
    fn bytes(self) -> [u8; ENTRY] {
        let (kind, field, last) = match self {
            Entry::Free => (0u8, 0, u16::MAX),
            Entry::At(byte) => (1, byte, 0),
            Entry::In(stream, position) => (2, stream, position as u16), // groups are far below 65,536 objects
        };
        let ([a, b, c, d], [e, f]) = (u32::to_be_bytes(field), u16::to_be_bytes(last));
        [kind, a, b, c, d, e, f]
    }
}
