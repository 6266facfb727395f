//! Objects that the libraries made, as bytes of our file.
//!
//! In: lopdf objects and their new numbers. Out: their text in the file. May not know: what they are for.

use std::collections::BTreeMap;

use lopdf::{Object, ObjectId};

use super::file::Number;
use super::numbers::{decimal, hex, integer};

/// The objects that an object refers to, directly.
pub(super) fn references(object: &Object) -> Vec<ObjectId> {
    match object {
        Object::Reference(id) => vec![*id],
        Object::Array(list) => list.iter().flat_map(references).collect(),
        Object::Dictionary(dictionary) => dictionary.iter().flat_map(|(_, value)| references(value)).collect(),
        Object::Stream(stream) => stream.dict.iter().flat_map(|(_, value)| references(value)).collect(),
        _ => Vec::new(),
    }
}

/// Writes an object that is no stream; of a stream, its dictionary.
pub(super) fn write_object(object: &Object, numbers: &BTreeMap<ObjectId, Number>, out: &mut Vec<u8>) {
    match object {
        Object::Null => out.extend_from_slice(b"null"),
        Object::Boolean(value) => out.extend_from_slice(if *value { b"true" } else { b"false" }),
        Object::Integer(value) => integer(out, *value),
        Object::Real(value) => decimal(out, (f64::from(*value) * 10_000.0).round() as i64, 10_000),
        Object::Name(name) => write_name(name, out),
        Object::String(bytes, _) => {
            out.push(b'<');
            bytes.iter().for_each(|byte| hex(out, *byte));
            out.push(b'>');
        }
        Object::Array(list) => {
            out.push(b'[');
            for item in list {
                write_object(item, numbers, out);
                out.push(b' ');
            }
            out.push(b']');
        }
        Object::Dictionary(dictionary) => write_dictionary(dictionary, numbers, out),
        Object::Stream(stream) => write_dictionary(&stream.dict, numbers, out),
        Object::Reference(id) => match numbers.get(id) {
            Some(number) => number.refer(out),
            None => out.extend_from_slice(b"null"),
        },
    }
}

fn write_dictionary(dictionary: &lopdf::Dictionary, numbers: &BTreeMap<ObjectId, Number>, out: &mut Vec<u8>) {
    out.extend_from_slice(b"<<");
    for (key, value) in dictionary.iter() {
        write_name(key, out);
        out.push(b' ');
        write_object(value, numbers, out);
    }
    out.extend_from_slice(b">>");
}

/// Writes a name, other bytes than letters, digits and a few signs as `#` and two hex digits (ISO 32000-1, 7.3.5).
fn write_name(name: &[u8], out: &mut Vec<u8>) {
    out.push(b'/');
    for byte in name {
        if byte.is_ascii_alphanumeric() || b"+-_.".contains(byte) {
            out.push(*byte);
        } else {
            out.push(b'#');
            hex(out, *byte);
        }
    }
}
