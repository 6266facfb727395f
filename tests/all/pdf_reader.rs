//! A reader of PDF files for tests: objects, text with positions, marked contents, structure.
//!
//! In: the bytes of a file. Out: what a person or a screen reader gets from it. May not know: how the file was written; it
//! shares no code with the writer. It reads what ISO 32000-1 calls a cross-reference stream and panics on anything that
//! a good file would not hold.

mod content;
mod objects;
mod structure;

use std::collections::BTreeMap;
use std::io::Read;

pub use content::{Mark, Shown, Stroke};
pub use objects::{Dict, Object};
pub use structure::{Element, Kid};

use objects::Parser;

/// A file, read.
pub struct Pdf {
    objects: BTreeMap<u32, Object>,
    trailer: Dict,
    /// Every stream, inflated, by the number of its object.
    pub streams: BTreeMap<u32, Vec<u8>>,
    /// What every page shows, by the number of its object.
    shown: BTreeMap<u32, Vec<Shown>>,
    /// The text of every marked content, by page and id.
    marked: BTreeMap<(u32, u32), String>,
}

/// Undoes the filter Up of the PNG predictors: every row is a sign and the differences from the row before.
fn summed(data: &[u8], columns: usize) -> Vec<u8> {
    let mut out: Vec<u8> = Vec::new();
    for row in data.chunks(columns + 1) {
        assert_eq!((row.len(), row[0]), (columns + 1, 2), "a whole row of the filter Up");
        let before = out.len().checked_sub(columns).map_or(vec![0; columns], |at| out[at..].to_vec());
        out.extend(row[1..].iter().zip(before).map(|(difference, before)| difference.wrapping_add(before)));
    }
    out
}

impl Pdf {
    /// Reads a whole file.
    pub fn read(bytes: &[u8]) -> Pdf {
        assert!(bytes.starts_with(b"%PDF-1.7\n"), "not a PDF 1.7 file");
        let tail = String::from_utf8_lossy(&bytes[bytes.len() - 64..]).into_owned();
        let start: usize = tail.split("startxref\n").nth(1).unwrap().lines().next().unwrap().parse().unwrap();
        let mut pdf = Pdf {
            objects: BTreeMap::new(),
            trailer: Dict::new(),
            streams: BTreeMap::new(),
            shown: BTreeMap::new(),
            marked: BTreeMap::new(),
        };
        let (number, table) = pdf.direct(bytes, start);
        let Object::Dict(trailer) = table else { panic!("no cross-reference stream") };
        pdf.trailer = trailer;
        assert_eq!(pdf.trailer["Type"].name(), "XRef");
        assert_eq!(pdf.ints(&pdf.trailer["W"]), [1, 4, 2]);
        let parameters = pdf.trailer["DecodeParms"].dict();
        assert_eq!((parameters["Predictor"].int(), parameters["Columns"].int()), (12, 7));
        let entries = summed(&pdf.streams[&number], 7);
        let size = pdf.trailer["Size"].int() as usize;
        assert_eq!(entries.len(), 7 * size, "an entry for every number");
        let mut packed = BTreeMap::new();
        for (number, entry) in entries.chunks(7).enumerate() {
            let field = u32::from_be_bytes(entry[1..5].try_into().unwrap());
            match entry[0] {
                0 => {}
                1 => {
                    let (found, object) = pdf.direct(bytes, field as usize);
                    assert_eq!(found, number as u32, "the object at its offset");
                    pdf.objects.insert(found, object);
                }
                2 => packed.entry(field).or_insert_with(Vec::new).push((number as u32, entry[5..7].to_vec())),
                kind => panic!("entry of kind {kind}"),
            }
        }
        for (stream, numbers) in packed {
            pdf.unpack(stream, &numbers);
        }
        pdf.shown = pdf.pages().iter().map(|(number, page)| (*number, pdf.read_content(page))).collect();
        for (page, shown) in &pdf.shown {
            content::gather_marked(*page, shown, &mut pdf.marked);
        }
        pdf
    }

    /// Reads an object that stands in the file itself; inflates it where it is a stream.
    fn direct(&mut self, bytes: &[u8], start: usize) -> (u32, Object) {
        let mut parser = Parser::new(&bytes[start..]);
        let number = parser.number() as u32;
        assert_eq!(parser.number(), 0.0);
        parser.keyword("obj");
        let object = parser.object();
        if let Object::Dict(entries) = &object
            && parser.peek_keyword("stream")
        {
            let from = start + parser.at + 1; // past the line feed
            let raw = &bytes[from..from + entries["Length"].int() as usize];
            assert!(bytes[from + raw.len()..].starts_with(b"\r\nendstream"), "stream {number} has its length");
            let data = match entries.get("Filter") {
                Some(Object::Name(filter)) if filter == "FlateDecode" => {
                    let mut out = Vec::new();
                    flate2::read::ZlibDecoder::new(raw).read_to_end(&mut out).unwrap();
                    out
                }
                None => raw.to_vec(),
                Some(other) => {
                    // Only pages of others are packed otherwise, and a file that holds some claims no standard.
                    assert!(!bytes.windows(12).any(|it| it == b"pdfuaid:part"), "stream {number}: {other:?}");
                    raw.to_vec()
                }
            };
            self.streams.insert(number, data);
        }
        (number, object)
    }

    fn unpack(&mut self, stream: u32, numbers: &[(u32, Vec<u8>)]) {
        let entries = self.objects[&stream].dict().clone();
        let data = self.streams[&stream].clone();
        let mut head = Parser::new(&data);
        let offsets: Vec<(u32, usize)> =
            (0..entries["N"].int()).map(|_| (head.number() as u32, head.number() as usize)).collect();
        for (number, position) in numbers {
            let position = u16::from_be_bytes(position[..].try_into().unwrap());
            let (found, offset) = offsets[position as usize];
            assert_eq!(found, *number, "the object at its position");
            let object = Parser::new(&data[entries["First"].int() as usize + offset..]).object();
            self.objects.insert(*number, object);
        }
    }

    /// Every object with its number.
    pub fn objects(&self) -> impl Iterator<Item = (u32, &Object)> {
        self.objects.iter().map(|(number, object)| (*number, object))
    }

    /// An object by its number.
    pub fn object(&self, number: u32) -> &Object {
        self.objects.get(&number).expect("a reference leads to an object")
    }

    /// Follows references.
    pub fn resolve<'a>(&'a self, object: &'a Object) -> &'a Object {
        match object {
            Object::Ref(number) => self.resolve(self.object(*number)),
            other => other,
        }
    }

    /// An entry of a dictionary, followed.
    pub fn get<'a>(&'a self, dict: &'a Dict, key: &str) -> Option<&'a Object> {
        dict.get(key).map(|object| self.resolve(object))
    }

    /// Integers of an array.
    pub fn ints(&self, object: &Object) -> Vec<i64> {
        self.resolve(object).array().iter().map(Object::int).collect()
    }

    /// The trailer.
    pub fn trailer(&self) -> &Dict {
        &self.trailer
    }

    /// The catalog.
    pub fn catalog(&self) -> &Dict {
        self.resolve(&self.trailer["Root"]).dict()
    }

    /// The pages in order: number of the object, and its dictionary.
    pub fn pages(&self) -> Vec<(u32, &Dict)> {
        let pages = self.get(self.catalog(), "Pages").unwrap().dict();
        let kids = self.get(pages, "Kids").unwrap().array();
        assert_eq!(pages["Count"].int() as usize, kids.len());
        kids.iter().map(|kid| (kid.reference(), self.resolve(kid).dict())).collect()
    }

    /// The bytes of a stream that an object refers to.
    pub fn stream(&self, reference: &Object) -> &[u8] {
        &self.streams[&reference.reference()]
    }

    /// A text string of the file.
    pub fn text_string(bytes: &[u8]) -> String {
        match bytes.strip_prefix(b"\xFE\xFF") {
            Some(utf16) => {
                let units: Vec<u16> = utf16.chunks(2).map(|unit| u16::from_be_bytes([unit[0], unit[1]])).collect();
                String::from_utf16(&units).unwrap()
            }
            None => bytes.iter().map(|byte| char::from(*byte)).collect(),
        }
    }

    /// All text of the file as it is read aloud, blocks on lines of their own.
    pub fn text(&self) -> String {
        let mut lines = Vec::new();
        self.structure().walk(&mut |element| {
            let own = element.own_text(self);
            if !own.is_empty() && !element.is_inline() {
                lines.push(own);
            }
        });
        lines.join("\n")
    }

    /// The text of the block with a name, which the file keeps as the title of its element; all of them, in order.
    pub fn named(&self, name: &str) -> Vec<String> {
        let mut found = Vec::new();
        self.structure().walk(&mut |element| {
            if element.name.as_deref() == Some(name) {
                found.push(element.text(self));
            }
        });
        found
    }

    /// The rows of every table: for each its cells' texts.
    pub fn tables(&self) -> Vec<Vec<Vec<String>>> {
        let mut tables = Vec::new();
        self.structure().walk(&mut |element| {
            if element.role == "Table" {
                let mut rows = Vec::new();
                element.walk(&mut |row| {
                    if row.role == "TR" {
                        rows.push(row.elements().map(|cell| cell.text(self)).collect());
                    }
                });
                tables.push(rows);
            }
        });
        tables
    }
}
