//! The objects of a file, each read when it is first asked for.
//!
//! In: the bytes of a file. Out: its objects, plain, and what references refer to. May not know: pages.

use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::budget::Budget;
use super::decryption::Decryption;
use super::fault::Fault;
use super::parser::Parser;
use super::table::{Entry, Table, filters_of, object_at, read};
use super::unpack::{Filters, try_out, unpack};
use super::value::{Dict, Stream, Value};

/// How many objects may be under way at once, each waiting for the next: a length, in a stream, in a stream.
const MOST_UNDER_WAY: usize = 8;

/// Objects of an object stream: their bytes, and the number and start of each.
type Packed = (Rc<Vec<u8>>, Rc<Vec<(usize, usize)>>);

/// The objects of a file.
pub(super) struct Store<'f> {
    bytes: &'f [u8],
    table: Table<'f>,
    pub(super) budget: Budget,
    lock: OnceCell<Decryption>,
    read: RefCell<BTreeMap<u32, Value<'f>>>,
    packed: RefCell<BTreeMap<u32, Packed>>,
    under_way: RefCell<BTreeSet<u32>>,
}

impl<'f> Store<'f> {
    /// Opens a file whose bytes begin with its header.
    pub(super) fn open(bytes: &'f [u8]) -> Result<Self, Fault> {
        let budget = Budget::new();
        let table = read(bytes, &budget)?;
        let store = Store {
            bytes,
            table,
            budget,
            lock: OnceCell::new(),
            read: RefCell::default(),
            packed: RefCell::default(),
            under_way: RefCell::default(),
        };
        if let Some(encrypt) = store.table.trailer.get(b"Encrypt".as_slice()) {
            let own = if let Value::Refer(number) = encrypt { Some(*number) } else { None };
            let encrypt = store.whole(encrypt, 0)?;
            let id = store.table.trailer.get(b"ID".as_slice()).map_or(Ok(Value::Null), |id| store.whole(id, 0))?;
            let lock = Decryption::open(encrypt.dict().ok_or(Fault::UnknownLock)?, &id, own)?;
            store.read.borrow_mut().clear();
            let _ = store.lock.set(lock); // it was empty
        }
        Ok(store)
    }

    /// Whether the file is encrypted.
    pub(super) fn is_locked(&self) -> bool {
        self.lock.get().is_some()
    }

    /// The trailer.
    pub(super) fn trailer(&self) -> &Dict<'f> {
        &self.table.trailer
    }

    /// What a value refers to, where it is a reference; else itself.
    pub(super) fn follow(&self, value: &Value<'f>) -> Result<Value<'f>, Fault> {
        let mut value = value.clone();
        for _ in 0..MOST_UNDER_WAY {
            let Value::Refer(number) = value else { return Ok(value) };
            value = self.object(number)?;
        }
        Err(Fault::TooDeep)
    }

    /// What an entry of a dictionary refers to; nothing where it has none.
    pub(super) fn entry(&self, dict: &Dict<'f>, key: &str) -> Result<Value<'f>, Fault> {
        dict.get(key.as_bytes()).map_or(Ok(Value::Null), |value| self.follow(value))
    }

    /// The object of a number; nothing where the file has none.
    pub(super) fn object(&self, number: u32) -> Result<Value<'f>, Fault> {
        if let Some(known) = self.read.borrow().get(&number) {
            return Ok(known.clone());
        }
        if self.under_way.borrow().len() >= MOST_UNDER_WAY {
            return Err(Fault::TooDeep);
        }
        if !self.under_way.borrow_mut().insert(number) {
            return Err(Fault::Damaged("an object needs itself to be read"));
        }
        let value = self.fetch(number);
        self.under_way.borrow_mut().remove(&number);
        let value = value?;
        self.read.borrow_mut().insert(number, value.clone());
        Ok(value)
    }

    fn fetch(&self, number: u32) -> Result<Value<'f>, Fault> {
        match self.table.entries.get(&number) {
            None | Some(Entry::Free) => Ok(Value::Null),
            Some(Entry::At(at)) => {
                let (found, value) = object_at(self.bytes, *at, &self.budget, &|value| self.follow(value))?;
                if found != number {
                    return Err(Fault::Damaged("an object is not where its table says"));
                }
                match self.lock.get() {
                    Some(lock) => lock.plain(number, value),
                    None => Ok(value),
                }
            }
            Some(Entry::In(stream, position)) => self.packed(number, *stream, *position),
        }
    }

    /// An object of an object stream (ISO 32000-1, 7.5.7). Its bytes are unpacked, so it borrows nothing of the file.
    fn packed(&self, number: u32, stream: u32, position: usize) -> Result<Value<'f>, Fault> {
        const WRONG: Fault = Fault::Damaged("an object is not in the stream that its table names");
        let (bytes, starts) = self.unpacked(stream)?;
        let (found, start) = *starts.get(position).ok_or(WRONG)?;
        if found != number as usize || start > bytes.len() {
            return Err(WRONG);
        }
        let mut parser = Parser::new(&bytes, start, &self.budget);
        let value = parser.value(0)?;
        self.budget.read(parser.at - start)?;
        Ok(owned(value))
    }

    fn unpacked(&self, number: u32) -> Result<Packed, Fault> {
        if let Some(known) = self.packed.borrow().get(&number) {
            return Ok(known.clone());
        }
        if !matches!(self.table.entries.get(&number), Some(Entry::At(_))) {
            return Err(Fault::Damaged("an object stream is missing"));
        }
        let value = self.object(number)?;
        let stream = value.stream().ok_or(Fault::Damaged("an object stream is missing"))?;
        let data = self.data(stream)?;
        let count = |key| stream.dict.get(key).map_or(Ok(None), |it| self.follow(it).map(|it| it.count()));
        let (count, first) = (count(b"N".as_slice())?.unwrap_or(0), count(b"First".as_slice())?.unwrap_or(0));
        let mut parser = Parser::new(&data, 0, &self.budget);
        let mut starts = Vec::new();
        for _ in 0..count {
            let (Some(number), Some(start)) = (parser.count(), parser.count()) else { break };
            starts.push((number, first.saturating_add(start)));
        }
        let packed = (Rc::new(data), Rc::new(starts));
        self.packed.borrow_mut().insert(number, packed.clone());
        Ok(packed)
    }

    /// The data of a stream, unpacked.
    pub(super) fn data(&self, stream: &Stream<'f>) -> Result<Vec<u8>, Fault> {
        unpack(&stream.data, &self.filters(stream)?, &self.budget)
    }

    /// The filters of a stream.
    pub(super) fn filters(&self, stream: &Stream<'f>) -> Result<Filters<'f>, Fault> {
        filters_of(&stream.dict, &|value| self.follow(value))
    }

    /// Sees to it that the data of a stream unpack, before they are carried.
    pub(super) fn try_out(&self, stream: &Stream<'f>) -> Result<(), Fault> {
        try_out(&stream.data, &self.filters(stream)?, &self.budget)
    }

    /// A value with everything that it refers to, as the encryption needs it.
    fn whole(&self, value: &Value<'f>, depth: usize) -> Result<Value<'f>, Fault> {
        if depth > MOST_UNDER_WAY {
            return Err(Fault::TooDeep);
        }
        self.budget.value()?;
        Ok(match self.follow(value)? {
            Value::List(list) => {
                Value::List(Rc::new(list.iter().map(|it| self.whole(it, depth + 1)).collect::<Result<_, _>>()?))
            }
            Value::Dict(dict) => {
                let entries = dict.iter().map(|(key, value)| Ok((key.clone(), self.whole(value, depth + 1)?)));
                Value::Dict(Rc::new(entries.collect::<Result<_, Fault>>()?))
            }
            other => other,
        })
    }
}

/// A value of unpacked bytes, which holds no stream and so borrows nothing.
fn owned<'f>(value: Value<'_>) -> Value<'f> {
    match value {
        Value::Null | Value::Stream(_) => Value::Null,
        Value::Bool(is) => Value::Bool(is),
        Value::Number(digits) => Value::Number(digits),
        Value::Name(name) => Value::Name(name),
        Value::Text(text) => Value::Text(text),
        Value::List(list) => Value::List(Rc::new(list.iter().cloned().map(owned).collect())),
        Value::Dict(dict) => {
            Value::Dict(Rc::new(dict.iter().map(|(key, value)| (key.clone(), owned(value.clone()))).collect()))
        }
        Value::Refer(number) => Value::Refer(number),
    }
}
