//! What a good file has and the crate that reads it does not ask for: it makes a new table where that of a file is wrong, finds
//! the end of a stream whose length is wrong, takes of a broken stream what can be inflated, keeps one of two entries of one key
//! and skips what it cannot read.
//!
//! In: a file as the crate reads it. Out: its streams; panics where the bytes differ from ISO 32000-1. May not know: what is shown.

use std::collections::BTreeMap;
use std::io::Read;

use hayro_syntax::content::UntypedIter;
use hayro_syntax::object::{Name, ObjectIdentifier, Stream};

use super::{Array, Dict, Entries, MaybeRef, Object};

/// Checks head, table, and every object; the number of the cross-reference stream, and every stream, inflated, by its number.
pub fn check(file: &hayro_syntax::Pdf) -> (u32, BTreeMap<u32, Vec<u8>>) {
    let bytes = file.data().as_ref();
    assert!(bytes.starts_with(b"%PDF-1.7\n"), "not a PDF 1.7 file");
    let tail = String::from_utf8_lossy(&bytes[bytes.len() - 64..]).into_owned();
    let start: usize = tail.split("startxref\n").nth(1).unwrap().lines().next().unwrap().parse().unwrap();
    let head = String::from_utf8_lossy(&bytes[start..start + 16]).into_owned();
    let trailer: u32 = head.split(' ').next().unwrap().parse().expect("a cross-reference stream");
    let (table, entries) = stream(file, trailer);
    assert_eq!(table.dict().name("Type").as_deref(), Some("XRef"));
    assert_eq!(table.dict().get("W"), Some([1, 4, 2]));
    assert_eq!(Some(entries.len() as i64), table.dict().int("Size").map(|size| 7 * size), "an entry for every number");

    let mut known = vec![false; entries.len() / 7];
    let mut packed: BTreeMap<u32, Vec<u32>> = BTreeMap::new();
    for (number, entry) in entries.chunks(7).enumerate() {
        let field = u32::from_be_bytes(entry[1..5].try_into().unwrap());
        let last = u16::from_be_bytes(entry[5..7].try_into().unwrap());
        known[number] = entry[0] != 0;
        match entry[0] {
            0 => {}
            1 => {
                let begin = format!("{number} 0 obj");
                assert!(bytes[field as usize..].starts_with(begin.as_bytes()), "object {number} is at its offset");
            }
            2 => {
                let numbers = packed.entry(field).or_insert_with(|| numbers_of(file, field));
                assert_eq!(numbers[usize::from(last)], number as u32, "the object at its position");
            }
            kind => panic!("entry of kind {kind}"),
        }
    }
    assert_eq!(known.iter().filter(|it| **it).count(), file.len(), "the crate has read this table and no other");

    let mut streams = BTreeMap::new();
    for number in (0..known.len()).filter(|it| known[*it]) {
        let id = ObjectIdentifier::new(number as u32, 0);
        let object: Object<'_> = file.xref().get(id).unwrap_or_else(|| panic!("object {number} can be read"));
        if let Object::Stream(stream) = &object {
            streams.insert(number as u32, inflated(stream, bytes));
        }
        let whole = match &object {
            Object::Dict(dict) => written(dict.data(), false),
            Object::Stream(stream) => written(stream.dict().data(), false),
            Object::Array(list) => written(list.data(), false) + 2,
            _ => 1,
        };
        assert_eq!(whole, weight(&object, &known), "object {number} is read whole");
    }
    check_pages(file);
    (trailer, streams)
}

fn stream(file: &hayro_syntax::Pdf, number: u32) -> (Stream<'_>, Vec<u8>) {
    let stream: Stream<'_> = file.xref().get(ObjectIdentifier::new(number, 0)).expect("a stream");
    let data = stream.decoded_data().expect("whole data").into_owned();
    (stream, data)
}

/// The numbers of the objects that a stream packs, by position: ISO 32000-1, 7.5.7.
fn numbers_of(file: &hayro_syntax::Pdf, number: u32) -> Vec<u32> {
    let (stream, data) = stream(file, number);
    let head = String::from_utf8_lossy(&data[..stream.dict().int("First").expect("an offset") as usize]).into_owned();
    head.split_ascii_whitespace().step_by(2).map(|it| it.parse().expect("a number")).collect()
}

/// The data of a stream: as long as it says, between the right words, and whole by the checksum of its packing.
fn inflated(stream: &Stream<'_>, bytes: &[u8]) -> Vec<u8> {
    let number = stream.obj_id().obj_number;
    let raw = stream.raw_data();
    assert_eq!(stream.dict().int("Length"), Some(raw.len() as i64), "stream {number} has its length");
    let from = raw.as_ptr() as usize - bytes.as_ptr() as usize;
    let around = bytes[..from].ends_with(b"stream\n") && bytes[from + raw.len()..].starts_with(b"\r\nendstream");
    assert!(around, "stream {number} is where it says");
    let Some(filter) = stream.dict().get::<Object<'_>>("Filter") else { return raw.into_owned() };
    if filter != Object::Name(Name::new_unescaped(b"FlateDecode")) {
        // Only pages of others are packed otherwise, and a file that holds some claims no standard.
        assert!(!bytes.windows(12).any(|it| it == b"pdfuaid:part"), "stream {number}: {filter:?}");
        return raw.into_owned();
    }
    let mut data = Vec::new();
    flate2::read::ZlibDecoder::new(&*raw).read_to_end(&mut data).unwrap_or_else(|it| panic!("stream {number}: {it}"));
    if !stream.dict().contains_key("DecodeParms") {
        assert!(stream.decoded_data().expect("data") == data, "stream {number} is the same to two libraries");
    }
    data
}

/// The pages are those of the root of the tree, no more and no fewer.
fn check_pages(file: &hayro_syntax::Pdf) {
    let catalog: Dict<'_> = file.xref().get(file.xref().root_id()).expect("a catalog");
    let root: Dict<'_> = catalog.get("Pages").expect("pages");
    let kids = root.get::<Array<'_>>("Kids").expect("pages");
    let kids: Vec<_> = kids.raw_iter().map(|kid| kid.as_obj_ref().map(ObjectIdentifier::from)).collect();
    assert_eq!(root.int("Count"), Some(kids.len() as i64));
    assert_eq!(kids, file.pages().iter().map(|page| page.raw().obj_id()).collect::<Vec<_>>());
}

/// Checks that every token of a content stream is read.
pub fn check_content(data: &[u8]) {
    let (mut read, mut content) = (0, UntypedIter::new(data));
    while let Some(instruction) = content.next() {
        read += 1 + instruction.operands().map(|it| weight(it, &[])).sum::<usize>();
    }
    assert_eq!(read, written(data, true), "a content stream is read whole");
}

/// The weight of what was read, to be compared with that of what is written. Each reference leads to an object.
fn weight(object: &Object<'_>, known: &[bool]) -> usize {
    let inside = |item: MaybeRef<Object<'_>>| match item {
        MaybeRef::NotRef(object) => weight(&object, known),
        MaybeRef::Ref(to) => {
            assert!(to.gen_number == 0 && known[to.obj_number as usize], "{to} leads to an object");
            4
        }
    };
    let entries = |dict: &Dict<'_>| dict.entries().map(|(_, value)| 1 + inside(value)).sum::<usize>() + 2;
    match object {
        Object::Array(list) => list.raw_iter().map(inside).sum::<usize>() + 2,
        Object::Dict(dict) => entries(dict),
        Object::Stream(stream) => entries(stream.dict()),
        _ => 1,
    }
}

/// The weight of what is written, token by token (ISO 32000-1, 7.2 and 7.3): 1 each, and 2 for the `R` of a reference, which the
/// crate takes for a null where it ends none.
fn written(mut rest: &[u8], operators: bool) -> usize {
    let mut weight = 0;
    loop {
        rest = rest.trim_ascii_start();
        let Some(first) = rest.first() else { return weight };
        let length = match first {
            b'(' => literal(rest),
            b'<' | b'>' if rest.get(1) == Some(first) => 2,
            b'<' => 2 + rest[1..].iter().take_while(|byte| byte.is_ascii_hexdigit()).count(),
            b'[' | b']' => 1,
            _ => 1 + rest[1..].iter().take_while(|it| it.is_ascii_graphic() && !b"()<>[]{}/%".contains(it)).count(),
        };
        let token = String::from_utf8_lossy(&rest[..length]);
        weight += if token == "R" && !operators { 2 } else { 1 };
        let good = match first {
            b'(' | b'[' | b']' => true,
            b'/' => token.split('#').skip(1).all(|code| u8::from_str_radix(code.get(..2).unwrap_or(""), 16).is_ok()),
            b'<' | b'>' => token == "<<" || token == ">>" || token.ends_with('>'),
            b'+' | b'-' | b'.' | b'0'..=b'9' => token.parse::<f64>().is_ok(),
            _ if operators => token.bytes().all(|byte| byte.is_ascii_alphabetic() || b"*'\"".contains(&byte)),
            _ => ["true", "false", "null", "R"].contains(&&*token),
        };
        assert!(good, "{token:?} is a token");
        rest = &rest[length..];
    }
}

/// The length of a string in parentheses.
fn literal(rest: &[u8]) -> usize {
    let (mut depth, mut escaped) = (0, false);
    for (at, byte) in rest.iter().enumerate() {
        match byte {
            _ if escaped => assert!(b"nrtbf()\\01234567".contains(byte), "an escape of ISO 32000-1, table 3"),
            b'(' => depth += 1,
            b')' if depth == 1 => return at + 1,
            b')' => depth -= 1,
            b'\r' => panic!("a bare carriage return in a string"),
            _ => {}
        }
        escaped = !escaped && *byte == b'\\';
    }
    panic!("a string without an end");
}

#[test]
fn a_file_that_has_to_be_repaired_is_refused() {
    let pdf = crate::demo::demo().issue.of_form(hingewright::pipeline::Form::Pdf).next().expect("a paper");
    let reads = |bytes: &[u8]| std::panic::catch_unwind(|| super::Pdf::read(bytes)).is_ok();
    assert!(reads(&pdf.bytes));
    let mut tried = 0;
    let mut refused = |mark: &[u8], skip: usize, change: fn(u8) -> u8| {
        let at = pdf.bytes.windows(mark.len()).position(|it| it == mark).expect("what is changed") + skip;
        let mut bytes = pdf.bytes.clone();
        bytes[at] = change(bytes[at]);
        assert!(hayro_syntax::Pdf::new(bytes.clone()).is_ok(), "the crate reads it: {mark:?}");
        assert!(!reads(&bytes), "{:?}, and {skip} on", String::from_utf8_lossy(mark));
        tried += 1;
    };
    let other_digit = |digit: u8| if digit == b'9' { b'8' } else { digit + 1 };
    refused(b"startxref\n", 10, other_digit);
    refused(b"/Length ", 8, other_digit);
    refused(b" 0 obj", 1, |_| b'1');
    refused(b"\r\nendstream", 0, |_| b'\n');
    refused(b"/FlateDecode", 1, |_| b'f');
    refused(b"/Length ", 1, |_| b'l');
    // In the middle of what is packed.
    refused(b">>stream\n", 60, |byte| byte ^ 1);
    assert_eq!(tried, 7);
    for (data, good) in [
        ("<</A 1/B[2 0 R(s\\))<00FF>]>>", true),
        ("<</A 1/A 2>>", false),
        ("<</A 1 2>>", false),
        ("<</A(a\rb)>>", false),
        ("<</A 2 R>>", false),
        ("<</A 5 0 R>>", false),
        ("<</A word>>", false),
        ("<</A <0G>>>", false),
        ("<</A#4 1>>", false),
    ] {
        let read = || {
            let dict: Dict<'_> = hayro_syntax::object::FromBytes::from_bytes(data.as_bytes()).expect("a dictionary");
            assert_eq!(written(dict.data(), false), weight(&Object::Dict(dict), &[true; 3]));
        };
        assert_eq!(std::panic::catch_unwind(read).is_ok(), good, "{data}");
    }
}
