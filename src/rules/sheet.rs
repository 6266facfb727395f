//! Which facts an entity has.
//!
//! In: names, kinds and help, from whoever owns the entity. Out: the sheet against which rules are checked.
//! May not know: any fact's value.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, LazyLock, PoisonError, RwLock};

use rustc_hash::FxHashMap;

use crate::ledger::Shown;
use crate::measure::Unit;

/// A fact's name as a number: the same for the same name on every sheet, as long as the program runs. It depends on which sheet
/// was written first, so it is only looked up by and never shown, sorted by or stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FactKey(u16);

/// Every name that a sheet has had, by its text. There are as many as the program has facts, some two hundred.
static KEYS: LazyLock<RwLock<FxHashMap<Arc<str>, FactKey>>> = LazyLock::new(RwLock::default);

impl FactKey {
    /// The key of a name that is on a sheet.
    fn of(name: &str) -> Option<FactKey> {
        KEYS.read().unwrap_or_else(PoisonError::into_inner).get(name).copied()
    }

    fn of_new(name: &Arc<str>) -> Option<FactKey> {
        FactKey::of(name).or_else(|| {
            let mut keys = KEYS.write().unwrap_or_else(PoisonError::into_inner);
            let next = FactKey(u16::try_from(keys.len()).ok()?);
            Some(*keys.entry(name.clone()).or_insert(next))
        })
    }

    /// Its position in a table of all keys.
    pub fn index(self) -> usize {
        usize::from(self.0)
    }
}

/// The name of a fact, with its key once a sheet is known to hold it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FactName {
    text: Arc<str>,
    key: Option<FactKey>,
}

impl FactName {
    /// A name that any sheet may hold.
    pub fn new(text: &str) -> Self {
        FactName { text: text.into(), key: FactKey::of(text) }
    }

    /// As it is written.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// Its key; none where no sheet holds it.
    pub fn key(&self) -> Option<FactKey> {
        self.key
    }
}

impl fmt::Display for FactName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

/// What kind of fact it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FactKind {
    /// A count or a quantity; how it prints gives its dimension.
    Number(Shown),
    /// One text; where only certain words are allowed, those.
    Text(Option<Vec<String>>),
    /// Yes or no.
    Flag,
    /// Any number of words, out of those allowed.
    Words(Vec<String>),
}

/// A fact: what kind it is, and a line of help.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fact {
    /// Its kind.
    pub kind: FactKind,
    /// What it is, in one line.
    pub help: String,
}

/// The facts of one kind of entity.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    entity: String,
    /// Many sheets hold the same facts: those of a leaf are on the leaf's and on the drive's.
    facts: BTreeMap<Arc<str>, Arc<Fact>>,
}

impl Sheet {
    /// An empty sheet of an entity, such as `leaf`.
    pub fn new(entity: impl Into<String>) -> Self {
        Sheet { entity: entity.into(), facts: BTreeMap::new() }
    }

    /// Adds a fact. Names are lower-case words joined by `_` and `.`; one given twice keeps the last.
    pub fn with(mut self, name: &str, kind: FactKind, help: &str) -> Self {
        debug_assert!(super::is_name(name), "`{name}` cannot be written in a rule");
        let name: Arc<str> = name.into();
        // One name too many for a key is looked up by its text and found nowhere.
        let _ = FactKey::of_new(&name);
        self.facts.insert(name, Arc::new(Fact { kind, help: help.to_owned() }));
        self
    }

    /// Adds a number that prints in a unit.
    pub fn number(self, name: &str, unit: Unit, help: &str) -> Self {
        self.with(name, FactKind::Number(Shown::In(unit)), help)
    }

    /// Adds a free text.
    pub fn text(self, name: &str, help: &str) -> Self {
        self.with(name, FactKind::Text(None), help)
    }

    /// Adds a text that is one of these words.
    pub fn word<W: AsRef<str>>(self, name: &str, allowed: &[W], help: &str) -> Self {
        let allowed = allowed.iter().map(|word| word.as_ref().to_owned()).collect();
        self.with(name, FactKind::Text(Some(allowed)), help)
    }

    /// Adds a yes or no.
    pub fn flag(self, name: &str, help: &str) -> Self {
        self.with(name, FactKind::Flag, help)
    }

    /// Adds a list of words out of these.
    pub fn words<W: AsRef<str>>(self, name: &str, allowed: &[W], help: &str) -> Self {
        let allowed = allowed.iter().map(|word| word.as_ref().to_owned()).collect();
        self.with(name, FactKind::Words(allowed), help)
    }

    /// Adds every fact of another sheet, such as those of the opening to the leaf's.
    pub fn and(mut self, other: &Sheet) -> Self {
        for (name, fact) in &other.facts {
            self.facts.entry(name.clone()).or_insert_with(|| fact.clone());
        }
        self
    }

    /// The entity's name.
    pub fn entity(&self) -> &str {
        &self.entity
    }

    /// A fact by its name.
    pub fn fact(&self, name: &str) -> Option<&Fact> {
        self.facts.get(name).map(Arc::as_ref)
    }

    /// All facts, by name.
    pub fn facts(&self) -> impl Iterator<Item = (&str, &Fact)> {
        self.facts.iter().map(|(name, fact)| (&**name, &**fact))
    }
}
