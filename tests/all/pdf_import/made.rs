//! Files as other programs make them, good and bad, written byte by byte.
//!
//! In: objects as text. Out: the bytes of a file (ISO 32000-1, 7.5). May not know: how such a file is read.

use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;

/// Objects of a file; the first has the number 1 and is the catalog.
#[derive(Clone)]
pub struct Made {
    pub objects: Vec<Vec<u8>>,
    /// Further entries of the trailer.
    pub trailer: String,
}

/// Deflated data.
pub fn deflated(data: &[u8]) -> Vec<u8> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(6));
    encoder.write_all(data).unwrap();
    encoder.finish().unwrap()
}

/// A stream with further entries of its dictionary.
pub fn stream(entries: &str, data: &[u8]) -> Vec<u8> {
    let mut out = format!("<<{entries}/Length {}>>stream\n", data.len()).into_bytes();
    out.extend_from_slice(data);
    out.extend_from_slice(b"\nendstream");
    out
}

/// A stream whose data are deflated.
pub fn packed_stream(entries: &str, data: &[u8]) -> Vec<u8> {
    stream(&format!("{entries}/Filter/FlateDecode"), &deflated(data))
}

impl Made {
    /// A file of these objects.
    pub fn of(objects: &[&str]) -> Made {
        let objects = objects.iter().map(|text| text.as_bytes().to_vec()).collect();
        Made { objects, trailer: String::new() }
    }

    /// A cut sheet of one page: 1 catalog, 2 pages, 3 page, 4 content, 5 font.
    pub fn sheet() -> Made {
        Made::page("/MediaBox[0 0 300 400]", "0.9 g 20 20 260 360 re f 0 g BT /F 18 Tf 40 330 Td (Push plate) Tj ET")
    }

    /// One page with these entries and this content.
    pub fn page(entries: &str, content: &str) -> Made {
        let page = format!("<</Type/Page/Parent 2 0 R/Contents 4 0 R/Resources<</Font<</F 5 0 R>>>>{entries}>>");
        let mut made = Made::of(&[
            "<</Type/Catalog/Pages 2 0 R>>",
            "<</Type/Pages/Kids[3 0 R]/Count 1>>",
            &page,
            "",
            "<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>",
        ]);
        made.objects[3] = packed_stream("", content.as_bytes());
        made
    }

    /// Adds an object; hands out its number.
    pub fn add(&mut self, object: impl Into<Vec<u8>>) -> usize {
        self.objects.push(object.into());
        self.objects.len()
    }

    /// Puts text in the place of other text, in an object by its number.
    pub fn change(&mut self, number: usize, from: &str, to: &str) {
        let text = String::from_utf8(self.objects[number - 1].clone()).expect("an object of text");
        assert!(text.contains(from), "{from} in {text}");
        self.objects[number - 1] = text.replace(from, to).into_bytes();
    }

    /// The file with a table of lines.
    pub fn plain(&self) -> Vec<u8> {
        let mut out = b"%PDF-1.4\n%\xE2\xE3\xCF\xD3\n".to_vec();
        let mut starts = Vec::new();
        for (at, object) in self.objects.iter().enumerate() {
            starts.push(out.len());
            out.extend_from_slice(format!("{} 0 obj\n", at + 1).as_bytes());
            out.extend_from_slice(object);
            out.extend_from_slice(b"\nendobj\n");
        }
        let table = out.len();
        out.extend_from_slice(format!("xref\n0 {}\n0000000000 65535 f \n", starts.len() + 1).as_bytes());
        starts.iter().for_each(|start| out.extend_from_slice(format!("{start:010} 00000 n \n").as_bytes()));
        let size = starts.len() + 1;
        let trailer = format!("trailer\n<</Size {size}/Root 1 0 R{}>>\nstartxref\n{table}\n%%EOF\n", self.trailer);
        out.extend_from_slice(trailer.as_bytes());
        out
    }

    /// The file with its objects in an object stream and a cross-reference stream, rows with the predictor Up.
    pub fn packed(&self) -> Vec<u8> {
        let is_stream = |object: &[u8]| object.ends_with(b"endstream");
        let (mut head, mut body, mut inside) = (String::new(), Vec::new(), Vec::new());
        for (at, object) in self.objects.iter().enumerate().filter(|(_, object)| !is_stream(object)) {
            head.push_str(&format!("{} {} ", at + 1, body.len()));
            body.extend_from_slice(object);
            body.push(b'\n');
            inside.push(at + 1);
        }
        let (container, table) = (self.objects.len() + 1, self.objects.len() + 2);
        let data = [head.as_bytes(), &body].concat();
        let entries = format!("/Type/ObjStm/N {}/First {}", inside.len(), head.len());
        let mut all: Vec<(usize, Vec<u8>)> =
            self.objects.iter().cloned().enumerate().map(|(at, it)| (at + 1, it)).collect();
        all.retain(|(_, object)| is_stream(object));
        all.push((container, packed_stream(&entries, &data)));
        let mut out = b"%PDF-1.5\n".to_vec();
        let mut rows = vec![[0u8; 4]; table + 1];
        for (number, object) in all {
            let [_, _, high, low] = (out.len() as u32).to_be_bytes();
            rows[number] = [1, high, low, 0];
            out.extend_from_slice(format!("{number} 0 obj\n").as_bytes());
            out.extend_from_slice(&object);
            out.extend_from_slice(b"\nendobj\n");
        }
        inside.iter().enumerate().for_each(|(at, number)| rows[*number] = [2, 0, container as u8, at as u8]);
        let start = out.len();
        let [_, _, high, low] = (start as u32).to_be_bytes();
        rows[table] = [1, high, low, 0];
        let mut data = Vec::new();
        let mut before = [0u8; 4];
        for row in rows {
            data.push(2);
            data.extend(row.iter().zip(before).map(|(byte, before)| byte.wrapping_sub(before)));
            before = row;
        }
        let parameters = "/DecodeParms<</Predictor 12/Columns 4>>";
        let entries = format!("/Type/XRef/Size {}/W[1 2 1]/Root 1 0 R{}{parameters}", table + 1, self.trailer);
        out.extend_from_slice(format!("{table} 0 obj\n").as_bytes());
        out.extend_from_slice(&packed_stream(&entries, &data));
        out.extend_from_slice(format!("\nendobj\nstartxref\n{start}\n%%EOF\n").as_bytes());
        out
    }
}
