//! The facts of one entity: one description gives both the sheet that rules are checked against and the values.
//!
//! In: names, kinds, help and values. Out: sheets for the catalog, facts for the evaluation.
//! May not know: which rules ask.

use std::cell::RefCell;
use std::sync::{Arc, LazyLock};

use rustc_hash::FxHashMap;

use super::facts;
use crate::findings::Place;
use crate::input::{Slot, Standing, Vocabulary};
use crate::ledger::{Called, FigureId, Ledger, Reason, Shown};
use crate::measure::{Measure, Quantity, Unit};
use crate::rules::{FactKind, FactName, FactValue, Facts, Sheet};

/// A fact's value before it is asked for.
#[derive(Clone, Debug, PartialEq)]
enum Known {
    Number(Box<KnownNumber>),
    Counted(usize),
    Word(&'static str),
    Text(Arc<str>),
    Flag(bool),
    Words(Box<[&'static str]>),
    Unknown(&'static str),
}

#[derive(Clone, Debug, PartialEq)]
struct KnownNumber {
    quantity: Quantity,
    shown: Shown,
    reason: Reason,
}

/// Which facts an entity of a kind has, in the order in which they are written, and where each of them is.
struct Layout {
    names: Vec<FactName>,
    /// What each is, in plain words.
    help: Vec<String>,
    /// By key: position and one, or none.
    positions: Vec<usize>,
}

impl Layout {
    fn of(writer: FactSetWriter) -> Self {
        let Writing::Sheet { sheet, names } = writer.writing else {
            return Layout { names: Vec::new(), help: Vec::new(), positions: Vec::new() };
        };
        let help = |name: &FactName| sheet.fact(name.as_str()).map_or_else(String::new, |fact| fact.help.clone());
        let help = names.iter().map(help).collect();
        let mut positions = Vec::new();
        for (at, key) in names.iter().enumerate().filter_map(|(at, name)| Some((at, name.key()?))) {
            if positions.len() <= key.index() {
                positions.resize(key.index() + 1, 0);
            }
            positions[key.index()] = at + 1;
        }
        Layout { names, help, positions }
    }

    fn position(&self, name: &FactName) -> Option<usize> {
        self.positions.get(name.key()?.index())?.checked_sub(1)
    }
}

/// The layouts of all kinds of entities, by their names. They follow from the code alone.
static LAYOUTS: LazyLock<FxHashMap<&'static str, Layout>> =
    LazyLock::new(|| facts::empty().into_iter().map(|writer| (writer.entity, Layout::of(writer))).collect());

static NO_FACTS: Layout = Layout { names: Vec::new(), help: Vec::new(), positions: Vec::new() };

fn layout(entity: &str) -> &'static Layout {
    LAYOUTS.get(entity).unwrap_or(&NO_FACTS)
}

/// The facts of one entity, on top of those of what it is part of.
#[derive(Clone)]
pub struct FactSet {
    about: Arc<str>,
    layout: &'static Layout,
    /// Its own facts, in the order of the layout.
    own: Vec<Known>,
    over: Vec<Arc<FactSet>>,
}

impl FactSet {
    fn find(&self, name: &FactName) -> Option<(&FactSet, &Known)> {
        match self.layout.position(name) {
            Some(at) => self.own.get(at).map(|known| (self, known)),
            None => self.over.iter().find_map(|fact_set| fact_set.find(name)),
        }
    }

    /// What a fact is, in plain words; nothing where the entity does not have it.
    fn help(&self, name: &FactName) -> Option<&'static str> {
        match self.layout.position(name) {
            Some(at) => self.layout.help.get(at).map(String::as_str),
            None => self.over.iter().find_map(|fact_set| fact_set.help(name)),
        }
    }

    /// Whether another entity has the same facts of its own.
    pub(super) fn has_facts_of(&self, other: &FactSet) -> bool {
        std::ptr::eq(self, other) || self.own == other.own
    }

    /// Names of its own facts that another entity of its kind has otherwise, in order.
    pub(super) fn differing(&self, other: &FactSet) -> impl Iterator<Item = &'static str> {
        let both = self.own.iter().zip(&other.own).zip(&self.layout.names);
        let mut names: Vec<&'static str> =
            both.filter(|((is, was), _)| is != was).map(|(_, name)| name.as_str()).collect();
        names.sort_unstable();
        names.into_iter()
    }
}

/// The facts that rules see of an entity: those of what it is and is part of, and those of its site and job.
#[derive(Clone, Copy)]
pub struct EntityFacts<'t> {
    of: &'t FactSet,
    /// Facts of site and job, where they are not under the entity's own.
    whole: Option<&'t FactSet>,
}

impl<'t> EntityFacts<'t> {
    pub(super) fn new(of: &'t FactSet, whole: Option<&'t FactSet>) -> Self {
        EntityFacts { of, whole }
    }

    fn find(&self, name: &FactName) -> Option<(&'t FactSet, &'t Known)> {
        self.of.find(name).or_else(|| self.whole?.find(name))
    }

    /// Whether the entity has a fact of this name.
    pub fn has(&self, name: &FactName) -> bool {
        self.find(name).is_some()
    }

    /// What a fact is, in plain words: its line of help, else its name.
    pub(super) fn help(&self, name: &FactName) -> String {
        let found = self.of.help(name).or_else(|| self.whole?.help(name));
        found.map_or_else(|| plain(name.as_str()), str::to_owned)
    }

    /// What the facts are about, in plain words.
    pub fn about(&self) -> &'t str {
        &self.of.about
    }

    /// The value of a fact.
    pub(super) fn fact(&self, name: &FactName) -> FactValue<'t> {
        self.find(name).map_or(FactValue::Unknown("this entity does not have it"), |(_, known)| known.value())
    }
}

impl Facts for EntityFacts<'_> {
    fn value(&self, fact: &FactName, _: &Ledger) -> FactValue<'_> {
        self.fact(fact)
    }

    fn figure(&self, fact: &FactName, ledger: &mut Ledger) -> Result<FigureId, String> {
        let (of, known) = self.find(fact).ok_or_else(|| "this entity does not have it".to_owned())?;
        known.figure(fact.as_str(), &of.about, ledger)
    }
}

impl Known {
    fn value(&self) -> FactValue<'_> {
        match self {
            Known::Number(number) => FactValue::Number(number.quantity),
            Known::Counted(number) => FactValue::Number(Quantity::count(*number as u64)),
            Known::Word(word) => FactValue::Text(word),
            Known::Text(text) => FactValue::Text(text),
            Known::Flag(flag) => FactValue::Flag(*flag),
            Known::Words(words) => FactValue::Words(words),
            Known::Unknown(why) => FactValue::Unknown(why),
        }
    }

    /// A fact of this name that is a number, on a ledger.
    fn figure(&self, name: &str, about: &str, ledger: &mut Ledger) -> Result<FigureId, String> {
        let called = match about {
            "" => plain(name),
            about => format!("{} of {about}", plain(name)),
        };
        let made = match self {
            Known::Number(number) => {
                let reason = ledger.reason(number.reason.clone());
                ledger.given(number.quantity, Called::new(&called, reason).shown(number.shown))
            }
            Known::Counted(number) => ledger.counted(*number, &called, Called::arithmetic(&called)),
            _ => return Err("it is no number".to_owned()),
        };
        made.map_err(|fault| fault.to_string())
    }
}

/// Figures that facts became on one ledger, so that a number which many rules ask for is named and entered once. Good for as
/// long as the fact sets live and for that ledger alone.
#[derive(Default)]
pub(super) struct FactFigures {
    /// By where the fact is kept, which no two facts share.
    known: RefCell<FxHashMap<usize, FigureId>>,
}

impl FactFigures {
    /// A fact of an entity that is a number, as a figure.
    pub(super) fn figure(&self, facts: EntityFacts, name: &FactName, ledger: &mut Ledger) -> Result<FigureId, String> {
        let Some((of, known)) = facts.find(name) else { return facts.figure(name, ledger) };
        let key = std::ptr::from_ref(known).addr();
        if let Some(figure) = self.known.borrow().get(&key) {
            return Ok(*figure);
        }
        let figure = known.figure(name.as_str(), &of.about, ledger)?;
        self.known.borrow_mut().insert(key, figure);
        Ok(figure)
    }
}

/// A fact's name in plain words: what stands after its entity.
fn plain(name: &str) -> String {
    name.split_once('.').map_or(name, |(_, rest)| rest).replace('_', " ")
}

/// Why a value stands as it does, in a few words; empty where nothing was said.
pub fn standing_words(standing: &Standing) -> String {
    match standing {
        Standing::Surveyed { date, by } => {
            let date = date.map(|date| format!(" {date}")).unwrap_or_default();
            let by = by.as_ref().map(|by| format!(", {by}")).unwrap_or_default();
            format!("surveyed{date}{by}")
        }
        Standing::Drawn => "drawn".to_owned(),
        Standing::Assumed => "assumed".to_owned(),
        Standing::Estimated => "estimated".to_owned(),
        Standing::Default(rule) => format!("by default: {rule}"),
        Standing::Stated => String::new(),
    }
}

/// Writes the facts of an entity: of one that is there its values, of none the sheet that says which facts there are. Both
/// come from one description.
pub struct FactSetWriter {
    entity: &'static str,
    writing: Writing,
}

enum Writing {
    /// The sheet, and the names in the order of writing.
    Sheet { sheet: Sheet, names: Vec<FactName> },
    /// What the entity is called, and its facts in the order of writing.
    Values { about: String, own: Vec<Known> },
}

impl FactSetWriter {
    /// Starts an entity: what its sheet is called, and what this one is called in plain words; without that only the sheet is
    /// written.
    pub fn new(entity: &'static str, about: Option<String>) -> Self {
        let writing = match about {
            Some(about) => Writing::Values { about, own: Vec::with_capacity(layout(entity).names.len()) },
            None => Writing::Sheet { sheet: Sheet::new(entity), names: Vec::new() },
        };
        FactSetWriter { entity, writing }
    }

    /// Ends with the sheet.
    pub fn into_sheet(self) -> Sheet {
        match self.writing {
            Writing::Sheet { sheet, .. } => sheet,
            Writing::Values { .. } => Sheet::new(self.entity),
        }
    }

    /// Ends with the values.
    pub fn into_fact_set(self, over: Vec<Arc<FactSet>>) -> Arc<FactSet> {
        let (about, own) = match self.writing {
            Writing::Values { about, own } => (about, own),
            Writing::Sheet { .. } => Default::default(),
        };
        Arc::new(FactSet { about: about.into(), layout: layout(self.entity), own, over })
    }

    /// Writes a fact: its kind on a sheet, its value in a set.
    fn write(
        &mut self,
        name: &'static str,
        help: &str,
        kind: impl FnOnce() -> FactKind,
        known: impl FnOnce() -> Option<Known>,
    ) {
        match &mut self.writing {
            Writing::Values { own, .. } => {
                debug_assert_eq!(layout(self.entity).names.get(own.len()).map(FactName::as_str), Some(name));
                own.push(known().unwrap_or(Known::Unknown("not given")));
            }
            Writing::Sheet { sheet, names } => {
                let before = std::mem::replace(sheet, Sheet::new(""));
                *sheet = before.with(name, kind(), help);
                names.push(FactName::new(name));
            }
        }
    }

    /// A measure from a slot of the job.
    pub fn slot<M: Measure>(&mut self, name: &'static str, unit: Unit, help: &str, slot: Option<&Slot<M>>) {
        let known = || {
            let given = slot.and_then(Slot::given)?;
            let reason = Reason::Entry { place: given.place.clone(), standing: standing_words(&given.standing) };
            Some(Known::Number(Box::new(KnownNumber {
                quantity: given.value.quantity(),
                shown: Shown::In(unit),
                reason,
            })))
        };
        self.write(name, help, || FactKind::Number(Shown::In(unit)), known);
    }

    /// A number with its reason.
    pub fn number(&mut self, name: &'static str, unit: Unit, help: &str, value: Option<(Quantity, Reason)>) {
        let shown = Shown::In(unit);
        let known = || value.map(|(quantity, reason)| Known::Number(Box::new(KnownNumber { quantity, shown, reason })));
        self.write(name, help, || FactKind::Number(shown), known);
    }

    /// A measure of the catalog, which is at a place.
    pub fn catalog<M: Measure>(&mut self, name: &'static str, unit: Unit, help: &str, value: Option<(M, &Place)>) {
        let value = value
            .map(|(value, place)| (value.quantity(), Reason::Entry { place: place.clone(), standing: String::new() }));
        self.number(name, unit, help, value);
    }

    /// A number of things counted.
    pub fn counted(&mut self, name: &'static str, help: &str, value: Option<usize>) {
        self.write(name, help, || FactKind::Number(Shown::EACH), || value.map(Known::Counted));
    }

    /// A free text.
    pub fn text(&mut self, name: &'static str, help: &str, value: Option<&str>) {
        self.write(name, help, || FactKind::Text(None), || value.map(|text| Known::Text(text.into())));
    }

    /// One word of a list.
    pub fn word(&mut self, name: &'static str, allowed: &[&str], help: &str, value: Option<&'static str>) {
        let allowed = || allowed.iter().map(|it| (*it).to_owned()).collect();
        self.write(name, help, || FactKind::Text(Some(allowed())), || value.map(Known::Word));
    }

    /// One word of a vocabulary.
    pub fn vocabulary<V: Vocabulary>(&mut self, name: &'static str, help: &str, value: Option<V>) {
        let known = || value.map(|it| Known::Word(it.word()));
        self.write(name, help, || FactKind::Text(Some(words_of::<V>())), known);
    }

    /// Yes or no.
    pub fn flag(&mut self, name: &'static str, help: &str, value: Option<bool>) {
        self.write(name, help, || FactKind::Flag, || value.map(Known::Flag));
    }

    /// Any number of words of a vocabulary.
    pub fn words<V: Vocabulary>(&mut self, name: &'static str, help: &str, value: Option<Vec<V>>) {
        let known = || value.map(|words| Known::Words(words.into_iter().map(|it| it.word()).collect()));
        self.write(name, help, || FactKind::Words(words_of::<V>()), known);
    }
}

/// Every word of a vocabulary.
fn words_of<V: Vocabulary>() -> Vec<String> {
    V::ALL.iter().map(|it| it.word().to_owned()).collect()
}
