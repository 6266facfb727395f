//! Objects of another's file as objects of ours: what is drawn, and nothing else.
//!
//! In: the objects of a file. Out: the same cleaned, each once, those that others refer to before them. May not know: where they
//! are written.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use sha2::{Digest, Sha256};

use super::allow_list::{NAMED, STYLES, is_copied};
use super::copied::{CopiedObject, Data, Text};
use super::fault::Fault;
use super::store::Store;
use super::value::{Dict, Stream, Value};

/// How deep carried objects may stand in one another and refer to one another, together.
const DEEPEST_COPIED: usize = 128;

/// As what a value is carried.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum CopyKind {
    /// Resources of what is drawn.
    Resources,
    /// A dictionary whose keys are names that the content uses.
    Names,
    /// The same, of pictures and forms.
    Drawn,
    /// Names that are carried without what they stand for.
    Empty,
    /// Anything else.
    Plain,
}

/// Carries objects of one file.
pub(super) struct ObjectCopier<'s, 'f> {
    pub(super) store: &'s Store<'f>,
    /// What was carried; an object refers only to those before it.
    pub(super) objects: Vec<CopiedObject>,
    digests: BTreeMap<[u8; 32], usize>,
    known: BTreeMap<(u32, CopyKind), Option<usize>>,
    /// Objects that are being carried, so that none is drawn inside itself.
    under_way: BTreeSet<(u32, CopyKind)>,
    /// Resources of the page, for forms that have none of their own.
    pub(super) of_page: Value<'f>,
}

impl<'s, 'f> ObjectCopier<'s, 'f> {
    /// Nothing carried yet.
    pub(super) fn new(store: &'s Store<'f>) -> Self {
        ObjectCopier {
            store,
            objects: Vec::new(),
            digests: BTreeMap::new(),
            known: BTreeMap::new(),
            under_way: BTreeSet::new(),
            of_page: Value::Null,
        }
    }

    /// Keeps an object, if it is not there yet; hands out its position.
    pub(super) fn keep(&mut self, carried: CopiedObject) -> usize {
        let digest = carried.digest(Sha256::new()).finalize().into();
        *self.digests.entry(digest).or_insert_with(|| {
            self.objects.push(carried);
            self.objects.len() - 1
        })
    }

    /// An object by its number; none where it is nothing, or would be drawn inside itself.
    pub(super) fn object(&mut self, number: u32, kind: CopyKind, depth: usize) -> Result<Option<usize>, Fault> {
        if let Some(known) = self.known.get(&(number, kind)) {
            return Ok(*known);
        }
        if !self.under_way.insert((number, kind)) {
            return Ok(None);
        }
        let carried = match self.store.object(number)? {
            Value::Null => None,
            Value::Stream(stream) => self.stream(&stream, depth)?,
            value => {
                let mut text = Text::default();
                self.value(&value, kind, depth, &mut text)?;
                Some(CopiedObject { text, data: None })
            }
        };
        let position = carried.map(|carried| self.keep(carried));
        self.under_way.remove(&(number, kind));
        self.known.insert((number, kind), position);
        Ok(position)
    }

    /// Writes a value.
    pub(super) fn value(
        &mut self,
        value: &Value<'f>,
        kind: CopyKind,
        depth: usize,
        out: &mut Text,
    ) -> Result<(), Fault> {
        if depth > DEEPEST_COPIED {
            return Err(Fault::TooDeep);
        }
        self.store.budget.value()?;
        match value {
            Value::Null | Value::Stream(_) => out.word("null"),
            Value::Bool(is) => out.word(if *is { "true" } else { "false" }),
            Value::Number(digits) => out.word(digits),
            Value::Name(name) => out.name(name),
            Value::Text(text) => out.text(text),
            Value::List(list) => {
                out.sign("[");
                for item in list.iter() {
                    self.value(item, CopyKind::Plain, depth + 1, out)?;
                }
                out.sign("]");
            }
            Value::Dict(dict) => {
                out.sign("<<");
                self.entries(dict, kind, depth, out)?;
                out.sign(">>");
            }
            Value::Refer(number) => self.reference(*number, kind, depth, out)?,
        }
        Ok(())
    }

    /// Writes what a reference refers to: a small thing itself, anything else as an object of its own.
    fn reference(&mut self, number: u32, kind: CopyKind, depth: usize, out: &mut Text) -> Result<(), Fault> {
        match self.store.object(number)? {
            Value::Refer(_) => out.word("null"), // no object is a reference: ISO 32000-1, 7.3.10
            small @ (Value::Null | Value::Bool(_) | Value::Number(_) | Value::Name(_)) => {
                self.value(&small, kind, depth + 1, out)?;
            }
            _ => match self.object(number, kind, depth + 1)? {
                Some(position) => out.refer(position),
                None => out.word("null"),
            },
        }
        Ok(())
    }

    /// Writes the entries of a dictionary that are carried.
    fn entries(&mut self, dict: &Dict<'f>, kind: CopyKind, depth: usize, out: &mut Text) -> Result<(), Fault> {
        match kind {
            CopyKind::Resources => {
                for key in NAMED {
                    if let Some(value) = dict.get(key.as_bytes()) {
                        out.name(key.as_bytes());
                        let kind = if key == "XObject" { CopyKind::Drawn } else { CopyKind::Names };
                        self.value(value, kind, depth + 1, out)?;
                    }
                }
                if let Some(properties) = dict.get(b"Properties".as_slice()) {
                    out.name(b"Properties");
                    self.value(properties, CopyKind::Empty, depth + 1, out)?;
                }
            }
            CopyKind::Names | CopyKind::Drawn => {
                for (key, value) in dict {
                    if kind == CopyKind::Names || self.is_drawn(value)? {
                        out.name(key);
                        self.value(value, CopyKind::Plain, depth + 1, out)?;
                    }
                }
            }
            CopyKind::Empty => {
                for key in dict.keys() {
                    out.name(key);
                    out.sign("<<>>");
                }
            }
            CopyKind::Plain => self.plain_entries(dict, depth, out)?,
        }
        Ok(())
    }

    fn plain_entries(&mut self, dict: &Dict<'f>, depth: usize, out: &mut Text) -> Result<(), Fault> {
        for (key, value) in dict.iter().filter(|(key, _)| is_copied(key)) {
            let kind = match key.as_slice() {
                b"Resources" => CopyKind::Resources,
                b"CharProcs" | b"Colorants" => CopyKind::Names,
                b"S" if !self.store.follow(value)?.name().is_some_and(|name| STYLES.contains(&name)) => continue,
                _ => CopyKind::Plain,
            };
            out.name(key);
            self.value(value, kind, depth + 1, out)?;
        }
        Ok(())
    }

    /// Whether it is a picture or a form: programs for printers are not drawn.
    fn is_drawn(&self, value: &Value<'f>) -> Result<bool, Fault> {
        let value = self.store.follow(value)?;
        let Some(stream) = value.stream() else { return Ok(false) };
        let subtype = self.store.entry(&stream.dict, "Subtype")?;
        Ok(matches!(subtype.name(), Some(b"Image" | b"Form")))
    }

    /// A stream with its data as they are, once they have been seen to unpack. One whose data stand in another file is nothing.
    fn stream(&mut self, stream: &Rc<Stream<'f>>, depth: usize) -> Result<Option<CopiedObject>, Fault> {
        if stream.dict.contains_key(b"F".as_slice()) {
            return Ok(None);
        }
        self.store.try_out(stream)?;
        self.store.budget.unpacked(stream.data.len())?;
        let mut text = Text::default();
        self.plain_entries(&stream.dict, depth, &mut text)?;
        let is_form = self.store.entry(&stream.dict, "Subtype")?.name() == Some(b"Form");
        if is_form && !stream.dict.contains_key(b"Resources".as_slice()) {
            self.resources_of_page(depth, &mut text)?;
        }
        Ok(Some(CopiedObject { text, data: Some(Data { bytes: stream.data.to_vec(), is_packed: true }) }))
    }

    /// A form without resources uses those of the page (ISO 32000-1, table 95), except its pictures and forms: it is one of them.
    fn resources_of_page(&mut self, depth: usize, out: &mut Text) -> Result<(), Fault> {
        let resources = self.store.follow(&self.of_page.clone())?;
        let mut own = resources.dict().cloned().unwrap_or_default();
        own.remove(b"XObject".as_slice());
        out.name(b"Resources");
        self.value(&Value::Dict(own.into()), CopyKind::Resources, depth + 1, out)
    }
}
