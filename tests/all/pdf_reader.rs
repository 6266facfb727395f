//! A reader of PDF files for tests: text with positions, marked contents, structure.
//!
//! In: the bytes of a file. Out: what a person or a screen reader gets from it. May not know: how the file was written. Objects,
//! streams, pages and operators are read by a crate that shares no code with the writer; what it would repair, `strict` refuses.

mod content;
mod strict;
mod structure;

use std::collections::BTreeMap;
use std::sync::OnceLock;

pub use content::{Mark, Shown, Stroke};
pub use hayro_syntax::object::{Array, Dict, MaybeRef, Object};
pub use structure::{Element, Kid};

use hayro_syntax::object::{Name, Number, ObjectIdentifier, String as Bytes};

/// A file, read.
pub struct Pdf {
    file: hayro_syntax::Pdf,
    /// The number of the cross-reference stream, whose dictionary is the trailer.
    trailer: u32,
    /// Every stream, inflated, by the number of its object.
    pub streams: BTreeMap<u32, Vec<u8>>,
    /// What every page shows, by the number of its object.
    shown: BTreeMap<u32, Vec<Shown>>,
    /// The text of every marked content, by page and id.
    marked: BTreeMap<(u32, u32), String>,
    structure: OnceLock<Element>,
}

/// Entries of a dictionary as values of the language; none where there is no such entry, or it is of another kind.
pub trait Entries {
    /// A name.
    fn name(&self, key: &str) -> Option<String>;
    /// A text string, decoded.
    fn text(&self, key: &str) -> Option<String>;
    /// An integer.
    fn int(&self, key: &str) -> Option<i64>;
    /// The number of the object that is referred to.
    fn reference(&self, key: &str) -> Option<u32>;
}

impl Entries for Dict<'_> {
    fn name(&self, key: &str) -> Option<String> {
        self.get::<Name<'_>>(key).map(|name| name.as_str().to_owned())
    }

    fn text(&self, key: &str) -> Option<String> {
        self.get::<Bytes<'_>>(key).map(|bytes| Pdf::text_string(&bytes))
    }

    fn int(&self, key: &str) -> Option<i64> {
        let number = self.get::<Number>(key)?;
        assert_eq!(number.as_f64().fract(), 0.0, "{key}: an integer");
        Some(number.as_i64())
    }

    fn reference(&self, key: &str) -> Option<u32> {
        self.get_ref(key).map(|to| to.obj_number)
    }
}

impl Pdf {
    /// Reads a whole file.
    pub fn read(bytes: &[u8]) -> Pdf {
        let file = hayro_syntax::Pdf::new(bytes.to_vec()).expect("a PDF file");
        let (trailer, streams) = strict::check(&file);
        let (shown, marked) = (BTreeMap::new(), BTreeMap::new());
        let mut pdf = Pdf { file, trailer, streams, shown, marked, structure: OnceLock::new() };
        pdf.shown = pdf.read_contents();
        pdf.marked = content::texts_of_marks(&pdf.shown);
        pdf
    }

    /// Every object of the file.
    pub fn objects(&self) -> impl Iterator<Item = Object<'_>> {
        self.file.objects().into_iter()
    }

    /// A dictionary, or that of a stream, by the number of its object.
    pub fn dict(&self, number: u32) -> Dict<'_> {
        self.file.xref().get(ObjectIdentifier::new(number, 0)).expect("a reference leads to a dictionary")
    }

    /// The trailer.
    pub fn trailer(&self) -> Dict<'_> {
        self.dict(self.trailer)
    }

    /// The catalog.
    pub fn catalog(&self) -> Dict<'_> {
        self.trailer().get("Root").expect("a catalog")
    }

    /// The pages in order: number of the object, and its dictionary.
    pub fn pages(&self) -> Vec<(u32, Dict<'_>)> {
        self.file.pages().iter().map(|page| (Pdf::number(page.raw()), page.raw().clone())).collect()
    }

    /// The number of the object that a dictionary is.
    pub fn number(dict: &Dict<'_>) -> u32 {
        dict.obj_id().expect("an object of its own").obj_number
    }

    /// The links and fields of a page.
    pub fn annotations<'a>(page: &Dict<'a>) -> Vec<Dict<'a>> {
        page.get("Annots").unwrap_or_default()
    }

    /// The page that a link, or an entry of the outline, leads to.
    pub fn target(entry: &Dict<'_>) -> u32 {
        let place = entry.get::<Array<'_>>("Dest").and_then(|place| place.raw_iter().next());
        place.and_then(|page| page.as_obj_ref()).expect("a page").obj_number
    }

    /// The bytes of a stream that an entry refers to.
    pub fn stream(&self, dict: &Dict<'_>, key: &str) -> &[u8] {
        &self.streams[&dict.reference(key).unwrap_or_else(|| panic!("{key} refers to no stream"))]
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
