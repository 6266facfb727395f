//! Files that are encrypted and open without a password (ISO 32000-1, 7.6).
//!
//! In: the dictionary of the encryption, the identifier of the file. Out: what makes its objects plain. May not know: pages.
//!
//! The ciphers are those of lopdf; what they are given was read and bounded by the parser of this room.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::rc::Rc;

use lopdf::encryption::{EncryptionState, decrypt_object};
use lopdf::{Document, Object, Permissions, StringFormat};

use super::fault::Fault;
use super::value::{Dict, Stream, Value};

/// What makes the objects of an encrypted file plain.
pub(super) struct Decryption {
    state: EncryptionState,
    /// The object of the encryption itself, which is plain.
    own: Option<u32>,
}

const NOT_PLAIN: Fault = Fault::Damaged("an encrypted object cannot be read");

/// A call into ciphers that were not written for files made to do harm: where one gives up, the file is refused.
fn guarded<T>(call: impl FnOnce() -> Option<T>) -> Option<T> {
    catch_unwind(AssertUnwindSafe(call)).ok().flatten()
}

impl Decryption {
    /// Opens the lock of a file without a password. `own` is the number of the object of the encryption.
    pub(super) fn open(encrypt: &Dict, id: &Value, own: Option<u32>) -> Result<Decryption, Fault> {
        check(encrypt)?;
        let mut document = Document::new();
        document.objects.insert((1, 0), plain(&Value::Dict(Rc::new(encrypt.clone())), 0));
        document.trailer.set("Encrypt", Object::Reference((1, 0)));
        document.trailer.set("ID", plain(id, 0));
        guarded(|| document.authenticate_password("").ok()).ok_or(Fault::NeedsPassword)?;
        let state = guarded(|| EncryptionState::decode(&document, "").ok()).ok_or(Fault::UnknownLock)?;
        if !state.permissions().contains(Permissions::COPYABLE) {
            return Err(Fault::MayNotBeCopied);
        }
        Ok(Decryption { state, own })
    }

    /// An object that stands in the file itself, plain.
    pub(super) fn plain<'f>(&self, number: u32, value: Value<'f>) -> Result<Value<'f>, Fault> {
        if self.own == Some(number) {
            return Ok(value);
        }
        self.value(number, value)
    }

    fn value<'f>(&self, number: u32, value: Value<'f>) -> Result<Value<'f>, Fault> {
        Ok(match value {
            Value::Text(text) => match self.decrypted(number, Object::String(text, StringFormat::Literal))? {
                Object::String(text, _) => Value::Text(text),
                _ => return Err(NOT_PLAIN),
            },
            Value::List(list) => {
                let plain = list.iter().map(|it| self.value(number, it.clone()));
                Value::List(Rc::new(plain.collect::<Result<_, _>>()?))
            }
            Value::Dict(dict) => Value::Dict(Rc::new(self.dict(number, &dict)?)),
            Value::Stream(stream) => self.stream(number, &stream)?,
            other => other,
        })
    }

    fn dict<'f>(&self, number: u32, dict: &Dict<'f>) -> Result<Dict<'f>, Fault> {
        dict.iter().map(|(key, value)| Ok((key.clone(), self.value(number, value.clone())?))).collect()
    }

    fn stream<'f>(&self, number: u32, stream: &Stream<'f>) -> Result<Value<'f>, Fault> {
        let mut dictionary = lopdf::Dictionary::new();
        for key in ["Type", "Filter", "DecodeParms"] {
            if let Some(value) = stream.dict.get(key.as_bytes()) {
                dictionary.set(key, plain(value, 0));
            }
        }
        let object = Object::Stream(lopdf::Stream::new(dictionary, stream.data.to_vec()));
        match self.decrypted(number, object)? {
            Object::Stream(decrypted) => {
                let dict = self.dict(number, &stream.dict)?;
                Ok(Value::Stream(Rc::new(Stream { dict, data: decrypted.content.into() })))
            }
            _ => Err(NOT_PLAIN),
        }
    }

    fn decrypted(&self, number: u32, mut object: Object) -> Result<Object, Fault> {
        guarded(|| decrypt_object(&self.state, (number, 0), &mut object).ok().map(|()| object)).ok_or(NOT_PLAIN)
    }
}

/// Refuses an encryption that lacks what every one has (ISO 32000-1, table 21), before its ciphers see it.
fn check(encrypt: &Dict) -> Result<(), Fault> {
    let text = |key: &[u8]| match encrypt.get(key) {
        Some(Value::Text(text)) => text.len(),
        _ => 0,
    };
    if encrypt.get(b"Filter".as_slice()).and_then(Value::name) != Some(b"Standard") {
        return Err(Fault::UnknownLock);
    }
    let revision = encrypt.get(b"R".as_slice()).and_then(Value::whole).ok_or(Fault::UnknownLock)?;
    let needed = match revision {
        2..=4 => 32,
        5 | 6 => 48,
        _ => return Err(Fault::UnknownLock),
    };
    let whole = encrypt.get(b"P".as_slice()).and_then(Value::whole).is_some();
    if text(b"O") < needed || text(b"U") < needed || !whole {
        return Err(Fault::UnknownLock);
    }
    Ok(())
}

/// A value as the library has it. References stay away: nothing of an encryption may need them.
fn plain(value: &Value, depth: usize) -> Object {
    match value {
        Value::Bool(is) => Object::Boolean(*is),
        Value::Number(digits) => match digits.parse() {
            Ok(whole) => Object::Integer(whole),
            Err(_) => Object::Real(digits.parse().unwrap_or(0.0)),
        },
        Value::Name(name) => Object::Name(name.clone()),
        Value::Text(text) => Object::String(text.clone(), StringFormat::Literal),
        Value::List(list) if depth < 8 => Object::Array(list.iter().map(|it| plain(it, depth + 1)).collect()),
        Value::Dict(dict) if depth < 8 => {
            let entries = dict.iter().map(|(key, value)| (key.clone(), plain(value, depth + 1)));
            Object::Dictionary(entries.collect())
        }
        _ => Object::Null,
    }
}
