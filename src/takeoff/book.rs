//! The facts of one entity: one description gives both the sheet that rules are checked against and the values.
//!
//! In: names, kinds, help and values. Out: sheets for the catalog, facts for the evaluation.
//! May not know: which rules ask.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::findings::Place;
use crate::ledger::{Called, Ledger, Reason, Shown};
use crate::measure::{Measure, Quantity, Unit};
use crate::reading::{Slot, Standing, Vocabulary};
use crate::rules::{FactKind, FactValue, Facts, Sheet};

/// A fact's value before it is asked for.
#[derive(Clone, Debug)]
enum Known {
    Number { quantity: Quantity, shown: Shown, reason: Reason },
    Counted(usize),
    Text(String),
    Flag(bool),
    Words(Vec<String>),
    Unknown(String),
}

/// The facts of one entity, on top of those of what it stands in.
#[derive(Clone, Debug, Default)]
pub struct Book {
    about: String,
    own: BTreeMap<String, Known>,
    over: Vec<Arc<Book>>,
}

impl Book {
    fn find(&self, name: &str) -> Option<(&Book, &Known)> {
        let own = self.own.get(name).map(|known| (self, known));
        own.or_else(|| self.over.iter().find_map(|book| book.find(name)))
    }

    /// Whether the entity has a fact of this name.
    pub fn has(&self, name: &str) -> bool {
        self.find(name).is_some()
    }

    /// What the facts are about, in plain words.
    pub fn about(&self) -> &str {
        &self.about
    }
}

impl Facts for Book {
    fn fact(&self, name: &str, ledger: &mut Ledger) -> FactValue {
        let Some((book, known)) = self.find(name) else {
            return FactValue::Unknown("this entity does not have it".to_owned());
        };
        let called = || match book.about.as_str() {
            "" => plain(name),
            about => format!("{} of {about}", plain(name)),
        };
        match known {
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
            Known::Unknown(why) => FactValue::Unknown(why.clone()),
        }
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

/// Writes the facts of an entity, sheet and values in one go. Without an entity the values stay unknown and only the
/// sheet is wanted.
pub struct Scribe {
    sheet: Sheet,
    book: Book,
}

impl Scribe {
    /// Starts an entity: what its sheet is called, and what this one is called in plain words.
    pub fn new(entity: &str, about: impl Into<String>) -> Self {
        Scribe { sheet: Sheet::new(entity), book: Book { about: about.into(), ..Book::default() } }
    }

    /// Ends with the sheet.
    pub fn into_sheet(self) -> Sheet {
        self.sheet
    }

    /// Ends with the values.
    pub fn into_book(self, over: Vec<Arc<Book>>) -> Arc<Book> {
        Arc::new(Book { over, ..self.book })
    }

    fn kind(&mut self, name: &str, kind: FactKind, help: &str) {
        let sheet = std::mem::replace(&mut self.sheet, Sheet::new(""));
        self.sheet = sheet.with(name, kind, help);
    }

    fn keep(&mut self, name: &str, known: Option<Known>) {
        let known = known.unwrap_or_else(|| Known::Unknown("not given".to_owned()));
        self.book.own.insert(name.to_owned(), known);
    }

    /// A measure from a slot of the job.
    pub fn slot<M: Measure>(&mut self, name: &str, unit: Unit, help: &str, slot: Option<&Slot<M>>) {
        self.kind(name, FactKind::Number(Shown::In(unit)), help);
        let known = slot.and_then(Slot::given).map(|given| Known::Number {
            quantity: given.value.quantity(),
            shown: Shown::In(unit),
            reason: Reason::Entry { place: given.place.clone(), standing: standing_words(&given.standing) },
        });
        self.keep(name, known);
    }

    /// A number with its reason.
    pub fn number(&mut self, name: &str, unit: Unit, help: &str, value: Option<(Quantity, Reason)>) {
        self.kind(name, FactKind::Number(Shown::In(unit)), help);
        let known = value.map(|(quantity, reason)| Known::Number { quantity, shown: Shown::In(unit), reason });
        self.keep(name, known);
    }

    /// A measure of the catalog, which stands at a place.
    pub fn catalog<M: Measure>(&mut self, name: &str, unit: Unit, help: &str, value: Option<(M, &Place)>) {
        let value = value
            .map(|(value, place)| (value.quantity(), Reason::Entry { place: place.clone(), standing: String::new() }));
        self.number(name, unit, help, value);
    }

    /// A number of things counted.
    pub fn counted(&mut self, name: &str, help: &str, value: Option<usize>) {
        self.kind(name, FactKind::Number(Shown::EACH), help);
        self.keep(name, value.map(Known::Counted));
    }

    /// A free text.
    pub fn text(&mut self, name: &str, help: &str, value: Option<&str>) {
        self.kind(name, FactKind::Text(None), help);
        self.keep(name, value.map(|text| Known::Text(text.to_owned())));
    }

    /// One word of a list.
    pub fn word(&mut self, name: &str, allowed: &[&str], help: &str, value: Option<&str>) {
        self.kind(name, FactKind::Text(Some(allowed.iter().map(|it| (*it).to_owned()).collect())), help);
        self.keep(name, value.map(|text| Known::Text(text.to_owned())));
    }

    /// One word of a vocabulary.
    pub fn vocabulary<V: Vocabulary>(&mut self, name: &str, help: &str, value: Option<V>) {
        self.word(name, &words_of::<V>(), help, value.map(V::word));
    }

    /// Yes or no.
    pub fn flag(&mut self, name: &str, help: &str, value: Option<bool>) {
        self.kind(name, FactKind::Flag, help);
        self.keep(name, value.map(Known::Flag));
    }

    /// Any number of words of a vocabulary.
    pub fn words<V: Vocabulary>(&mut self, name: &str, help: &str, value: Option<Vec<V>>) {
        let allowed = words_of::<V>().into_iter().map(str::to_owned).collect();
        self.kind(name, FactKind::Words(allowed), help);
        self.keep(name, value.map(|words| Known::Words(words.into_iter().map(|it| it.word().to_owned()).collect())));
    }
}

/// Every word of a vocabulary.
fn words_of<V: Vocabulary>() -> Vec<&'static str> {
    V::ALL.iter().map(|it| it.word()).collect()
}
