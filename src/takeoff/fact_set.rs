//! The facts of one entity: one description gives both the sheet that rules are checked against and the values.
//!
//! In: names, kinds, help and values. Out: sheets for the catalog, facts for the evaluation.
//! May not know: which rules ask.

use std::borrow::Cow;
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::sync::Arc;

use rustc_hash::FxHashMap;

use crate::findings::Place;
use crate::input::{Slot, Standing, Vocabulary};
use crate::ledger::{Called, FigureId, Ledger, Reason, Shown};
use crate::measure::{Measure, Quantity, Unit};
use crate::rules::{FactKind, FactValue, Facts, Sheet};

/// A fact's value before it is asked for.
#[derive(Clone, Debug, PartialEq)]
enum Known {
    Number { quantity: Quantity, shown: Shown, reason: Reason },
    Counted(usize),
    Text(Arc<str>),
    Flag(bool),
    Words(Arc<[String]>),
    Unknown(Cow<'static, str>),
}

/// The facts of one entity, on top of those of what it stands in.
#[derive(Clone, Debug, Default)]
pub struct FactSet {
    about: Arc<str>,
    /// Its own facts by name; looked up and compared, never walked.
    own: Arc<Own>,
    over: Vec<Arc<FactSet>>,
}

type Own = FxHashMap<Cow<'static, str>, Known>;

impl FactSet {
    fn find(&self, name: &str) -> Option<(&FactSet, &Known)> {
        let own = self.own.get(name).map(|known| (self, known));
        own.or_else(|| self.over.iter().find_map(|fact_set| fact_set.find(name)))
    }

    /// Whether the entity has a fact of this name.
    pub fn has(&self, name: &str) -> bool {
        self.find(name).is_some()
    }

    /// What the facts are about, in plain words.
    pub fn about(&self) -> &str {
        &self.about
    }

    /// The same facts on top of others.
    pub(super) fn moved(&self, over: Vec<Arc<FactSet>>) -> Arc<FactSet> {
        Arc::new(FactSet { about: self.about.clone(), own: self.own.clone(), over })
    }

    /// The same on top of another site: what it had beside that, its operator, stays.
    pub(super) fn moved_onto(&self, site: Arc<FactSet>) -> Arc<FactSet> {
        let beside = self.over.len().saturating_sub(1);
        self.moved(self.over.iter().take(beside).cloned().chain([site]).collect())
    }

    /// Whether another entity has the same facts of its own.
    pub(super) fn has_facts_of(&self, other: &FactSet) -> bool {
        Arc::ptr_eq(&self.own, &other.own) || self.own == other.own
    }

    /// Names of its own facts that another entity has otherwise.
    pub(super) fn differing(&self, other: &FactSet) -> impl Iterator<Item = String> {
        let differs =
            |(name, known): (&Cow<str>, &Known)| (other.own.get(name) != Some(known)).then(|| name.to_string());
        let names: BTreeSet<String> = self.own.iter().filter_map(differs).collect();
        names.into_iter()
    }
}

impl Facts for FactSet {
    fn fact(&self, name: &str, ledger: &mut Ledger) -> FactValue {
        match self.find(name) {
            Some((fact_set, known)) => known.value(name, &fact_set.about, ledger),
            None => FactValue::Unknown("this entity does not have it".to_owned()),
        }
    }
}

impl Known {
    /// The value of a fact of this name, on a ledger.
    fn value(&self, name: &str, about: &str, ledger: &mut Ledger) -> FactValue {
        let called = || match about {
            "" => plain(name),
            about => format!("{} of {about}", plain(name)),
        };
        match self {
            Known::Number { quantity, shown, reason } => {
                let name = called();
                let reason = ledger.reason(reason.clone());
                match ledger.given(*quantity, Called::new(&name, reason).shown(*shown)) {
                    Ok(figure) => FactValue::Number(figure),
                    Err(fault) => FactValue::Unknown(fault.to_string()),
                }
            }
            Known::Counted(number) => match ledger.counted(*number, &called(), Called::arithmetic(&called())) {
                Ok(figure) => FactValue::Number(figure),
                Err(fault) => FactValue::Unknown(fault.to_string()),
            },
            Known::Text(text) => FactValue::Text(text.clone()),
            Known::Flag(flag) => FactValue::Flag(*flag),
            Known::Words(words) => FactValue::Words(words.clone()),
            Known::Unknown(why) => FactValue::Unknown(why.to_string()),
        }
    }
}

/// Figures that facts became on one ledger, so that a number which many rules ask for is named and entered once. Good for as
/// long as the books live and for that ledger alone.
#[derive(Default)]
pub(super) struct FactFigures {
    /// By where the fact is kept, which no two facts share.
    known: RefCell<FxHashMap<usize, FigureId>>,
}

impl FactFigures {
    /// The value of a fact of an entity.
    pub(super) fn fact(&self, fact_set: &FactSet, name: &str, ledger: &mut Ledger) -> FactValue {
        let Some((of, known)) = fact_set.find(name) else { return fact_set.fact(name, ledger) };
        let key = std::ptr::from_ref(known).addr();
        if let Some(figure) = self.known.borrow().get(&key) {
            return FactValue::Number(*figure);
        }
        let value = known.value(name, &of.about, ledger);
        // What is counted is entered anew each time it is asked for, as it always was.
        if let (FactValue::Number(figure), Known::Number { .. }) = (&value, known) {
            self.known.borrow_mut().insert(key, *figure);
        }
        value
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
    sheet: Sheet,
    /// What it is called and its facts; none where the sheet is wanted.
    fact_set: Option<(String, Own)>,
}

impl FactSetWriter {
    /// Starts an entity: what its sheet is called, and what this one is called in plain words; without that only the sheet is
    /// written.
    pub fn new(entity: &str, about: Option<String>) -> Self {
        FactSetWriter { sheet: Sheet::new(entity), fact_set: about.map(|about| (about, Own::default())) }
    }

    /// Ends with the sheet.
    pub fn into_sheet(self) -> Sheet {
        self.sheet
    }

    /// Ends with the values.
    pub fn into_fact_set(self, over: Vec<Arc<FactSet>>) -> Arc<FactSet> {
        let (about, own) = self.fact_set.unwrap_or_default();
        Arc::new(FactSet { about: about.into(), own: Arc::new(own), over })
    }

    /// Writes a fact: its kind on a sheet, its value in a book.
    fn write(
        &mut self,
        name: impl Into<Cow<'static, str>>,
        help: &str,
        kind: impl FnOnce() -> FactKind,
        known: impl FnOnce() -> Option<Known>,
    ) {
        let name = name.into();
        match &mut self.fact_set {
            Some((_, own)) => {
                let known = known().unwrap_or(Known::Unknown(Cow::Borrowed("not given")));
                own.insert(name, known);
            }
            None => {
                let sheet = std::mem::replace(&mut self.sheet, Sheet::new(""));
                self.sheet = sheet.with(&name, kind(), help);
            }
        }
    }

    /// A measure from a slot of the job.
    pub fn slot<M: Measure>(
        &mut self,
        name: impl Into<Cow<'static, str>>,
        unit: Unit,
        help: &str,
        slot: Option<&Slot<M>>,
    ) {
        let known = || {
            let given = slot.and_then(Slot::given)?;
            let reason = Reason::Entry { place: given.place.clone(), standing: standing_words(&given.standing) };
            Some(Known::Number { quantity: given.value.quantity(), shown: Shown::In(unit), reason })
        };
        self.write(name, help, || FactKind::Number(Shown::In(unit)), known);
    }

    /// A number with its reason.
    pub fn number(
        &mut self,
        name: impl Into<Cow<'static, str>>,
        unit: Unit,
        help: &str,
        value: Option<(Quantity, Reason)>,
    ) {
        let shown = Shown::In(unit);
        let known = || value.map(|(quantity, reason)| Known::Number { quantity, shown, reason });
        self.write(name, help, || FactKind::Number(shown), known);
    }

    /// A measure of the catalog, which is at a place.
    pub fn catalog<M: Measure>(
        &mut self,
        name: impl Into<Cow<'static, str>>,
        unit: Unit,
        help: &str,
        value: Option<(M, &Place)>,
    ) {
        let value = value
            .map(|(value, place)| (value.quantity(), Reason::Entry { place: place.clone(), standing: String::new() }));
        self.number(name, unit, help, value);
    }

    /// A number of things counted.
    pub fn counted(&mut self, name: impl Into<Cow<'static, str>>, help: &str, value: Option<usize>) {
        self.write(name, help, || FactKind::Number(Shown::EACH), || value.map(Known::Counted));
    }

    /// A free text.
    pub fn text(&mut self, name: impl Into<Cow<'static, str>>, help: &str, value: Option<&str>) {
        self.write(name, help, || FactKind::Text(None), || value.map(|text| Known::Text(text.into())));
    }

    /// One word of a list.
    pub fn word(&mut self, name: impl Into<Cow<'static, str>>, allowed: &[&str], help: &str, value: Option<&str>) {
        let allowed = || allowed.iter().map(|it| (*it).to_owned()).collect();
        self.write(name, help, || FactKind::Text(Some(allowed())), || value.map(|text| Known::Text(text.into())));
    }

    /// One word of a vocabulary.
    pub fn vocabulary<V: Vocabulary>(&mut self, name: impl Into<Cow<'static, str>>, help: &str, value: Option<V>) {
        let known = || value.map(|it| Known::Text(it.word().into()));
        self.write(name, help, || FactKind::Text(Some(words_of::<V>())), known);
    }

    /// Yes or no.
    pub fn flag(&mut self, name: impl Into<Cow<'static, str>>, help: &str, value: Option<bool>) {
        self.write(name, help, || FactKind::Flag, || value.map(Known::Flag));
    }

    /// Any number of words of a vocabulary.
    pub fn words<V: Vocabulary>(&mut self, name: impl Into<Cow<'static, str>>, help: &str, value: Option<Vec<V>>) {
        let known = || value.map(|words| Known::Words(words.into_iter().map(|it| it.word().to_owned()).collect()));
        self.write(name, help, || FactKind::Words(words_of::<V>()), known);
    }
}

/// Every word of a vocabulary.
fn words_of<V: Vocabulary>() -> Vec<String> {
    V::ALL.iter().map(|it| it.word().to_owned()).collect()
}
