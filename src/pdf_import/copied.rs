//! Carried objects as text with gaps for the numbers that they get.
//!
//! In: values one by one. Out: objects that can be written into any file. May not know: that file, or where they came from.

use sha2::{Digest, Sha256};

/// A piece of the text of an object.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Piece {
    Bytes(Vec<u8>),
    /// A reference to the object at this position among those carried.
    Refer(usize),
}

/// The text of an object, or the entries of a stream's dictionary.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Text {
    pieces: Vec<Piece>,
}

/// The data of a stream.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Data {
    /// The bytes.
    pub bytes: Vec<u8>,
    /// Whether they are packed by the filters that the text names; else they may be packed by whoever writes them.
    pub is_packed: bool,
}

/// An object that is carried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CopiedObject {
    /// Its text; of a stream, the entries of its dictionary without their brackets and without its length.
    pub text: Text,
    /// The data, where it is a stream.
    pub data: Option<Data>,
}

impl CopiedObject {
    /// Its own words and data, and the positions that it refers to, as a digest goes over them.
    pub(super) fn digest(&self, mut digest: Sha256) -> Sha256 {
        for piece in &self.text.pieces {
            match piece {
                Piece::Bytes(bytes) => digest.update(bytes),
                Piece::Refer(position) => digest.update(format!(" @{position} ")),
            }
        }
        if let Some(data) = &self.data {
            digest.update(if data.is_packed { b"\0packed" } else { b"\0plain " });
            digest.update(&data.bytes);
        }
        digest
    }

    /// The positions of the objects that it refers to.
    pub fn refers_to(&self) -> impl Iterator<Item = usize> + '_ {
        self.text.pieces.iter().filter_map(|piece| match piece {
            Piece::Refer(position) => Some(*position),
            Piece::Bytes(_) => None,
        })
    }

    /// The text, with a number for each position that it refers to.
    pub fn write(&self, number: impl Fn(usize) -> u32) -> Vec<u8> {
        let mut out = Vec::new();
        for piece in &self.text.pieces {
            match piece {
                Piece::Bytes(bytes) => out.extend_from_slice(bytes),
                Piece::Refer(position) => out.extend_from_slice(format!(" {} 0 R", number(*position)).as_bytes()),
            }
        }
        out
    }
}

impl Text {
    fn bytes(&mut self) -> &mut Vec<u8> {
        if !matches!(self.pieces.last(), Some(Piece::Bytes(_))) {
            self.pieces.push(Piece::Bytes(Vec::new()));
        }
        match self.pieces.last_mut() {
            Some(Piece::Bytes(bytes)) => bytes,
            _ => unreachable!("bytes were pushed above"),
        }
    }

    /// Writes something that ends by itself.
    pub(super) fn sign(&mut self, sign: &str) {
        self.bytes().extend_from_slice(sign.as_bytes());
    }

    /// Writes something that must stand apart from what was before it.
    pub(super) fn word(&mut self, word: &str) {
        let bytes = self.bytes();
        bytes.push(b' ');
        bytes.extend_from_slice(word.as_bytes());
    }

    /// Writes numbers with up to six decimals, rounded.
    pub(super) fn numbers(&mut self, numbers: &[f64]) {
        numbers.iter().for_each(|number| self.word(&decimal(*number)));
    }

    /// Writes a name, other bytes than letters, digits and a few signs by their codes (ISO 32000-1, 7.3.5).
    pub(super) fn name(&mut self, name: &[u8]) {
        let bytes = self.bytes();
        bytes.push(b'/');
        for byte in name {
            if byte.is_ascii_alphanumeric() || b"+-_.".contains(byte) {
                bytes.push(*byte);
            } else {
                bytes.extend_from_slice(format!("#{byte:02X}").as_bytes());
            }
        }
    }

    /// Writes a text by the codes of its bytes.
    pub(super) fn text(&mut self, text: &[u8]) {
        let bytes = self.bytes();
        bytes.push(b'<');
        text.iter().for_each(|byte| bytes.extend_from_slice(format!("{byte:02X}").as_bytes()));
        bytes.push(b'>');
    }

    /// Writes a reference to the object at a position.
    pub(super) fn refer(&mut self, position: usize) {
        self.pieces.push(Piece::Refer(position));
    }
}

/// A number with up to six decimals, without zeros that say nothing.
pub(super) fn decimal(number: f64) -> String {
    let text = format!("{number:.6}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}
