//! Conditions and formulas of the catalog, evaluated for a paper: notes, sequences of operation, limits.
//!
//! In: takeoff and catalog. Out: what holds at an entity, as text. May not know: pages.
//!
//! Conditions are worked out on a ledger of their own, so that a paper adds no figure to the job's.

use std::cell::RefCell;

use serde::Serialize;

use super::{Printing, Sources};
use crate::catalog::{Amount, DoorState, Entity, Note, NoteKind, Sequence, When};
use crate::ledger::{Called, Ledger, ReasonId};
use crate::measure::{Dimension, Measure, Style, Weight};
use crate::rules::{Amount as Result, FactName, FactValue, Facts, Truth};
use crate::takeoff::EntityRef;

/// What becomes of a condition whose facts are not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unknown {
    /// It is taken as not holding.
    No,
    /// It is taken as holding: a caution is printed rather than left out.
    Yes,
}

/// Works conditions out.
pub struct ConditionEvaluator<'a> {
    sources: Sources<'a>,
    ledger: RefCell<Ledger>,
}

/// What an opening does in one state.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct OperationRow {
    /// The state.
    pub state: String,
    /// What happens.
    pub says: String,
}

impl<'a> ConditionEvaluator<'a> {
    /// A judge over a takeoff.
    pub fn new(sources: &Sources<'a>) -> Self {
        ConditionEvaluator { sources: *sources, ledger: RefCell::new(Ledger::new()) }
    }

    /// Whether a condition holds at an entity; none always does.
    pub fn holds(&self, when: Option<&When>, of: EntityRef, unknown: Unknown) -> bool {
        self.decided(when, of).unwrap_or(unknown == Unknown::Yes)
    }

    /// Whether a condition holds at an entity, none always; nothing where a fact that it asks is not known.
    pub fn decided(&self, when: Option<&When>, of: EntityRef) -> Option<bool> {
        let Some(when) = when else { return Some(true) };
        let facts = self.sources.takeoff.facts(of);
        match when.condition.truth(&facts, &mut self.ledger.borrow_mut(), ReasonId::ARITHMETIC) {
            Ok(Truth::True) => Some(true),
            Ok(Truth::False) => Some(false),
            Ok(Truth::Undecided(_)) | Err(_) => None,
        }
    }

    /// What a formula comes to at an entity, as printed; none where a fact is not known.
    pub fn printed(&self, amount: &Amount, of: EntityRef) -> Option<String> {
        let ledger = &mut self.ledger.borrow_mut();
        let facts = self.sources.takeoff.facts(of);
        match amount.formula.amount(&facts, ledger, Called::arithmetic("limit")).ok()? {
            Result::Known(figure) => Some(ledger.print_in(figure, Style::Page)),
            Result::Unknown(_) => None,
        }
    }

    /// A fact of an entity in words: lengths in the units of the job, yes or no, words listed; nothing where it is not known.
    pub fn reported(&self, fact: &str, of: EntityRef, printing: Printing) -> Option<String> {
        let ledger = &mut self.ledger.borrow_mut();
        let (fact, facts) = (FactName::new(fact), self.sources.takeoff.facts(of));
        match facts.value(&fact, ledger) {
            FactValue::Number(quantity) if quantity.dimension() == Dimension::LENGTH => Some(printing.piece(quantity)),
            FactValue::Number(quantity) => match Weight::of(quantity) {
                Some(weight) => Some(printing.weight(weight)),
                None => {
                    let figure = facts.figure(&fact, ledger).ok()?;
                    // A count may be a year, which has no comma.
                    Some(ledger.print_in(figure, Style::Plain))
                }
            },
            FactValue::Text(text) => Some(text.to_owned()),
            FactValue::Flag(flag) => Some(if flag { "yes" } else { "no" }.to_owned()),
            FactValue::Words(words) => Some(words.join(", ")),
            FactValue::Unknown(_) => None,
        }
    }

    /// A fact of an entity that is a weight.
    pub fn weight(&self, fact: &str, of: EntityRef) -> Option<Weight> {
        match self.sources.takeoff.facts(of).value(&FactName::new(fact), &self.ledger.borrow()) {
            FactValue::Number(quantity) => Weight::of(quantity),
            _ => None,
        }
    }

    /// Notes of a kind that hold at an opening: at itself or at anything that stands at it. In the catalog's order.
    pub fn notes_at(&self, kind: NoteKind, opening: usize, unknown: Unknown) -> Vec<&'a Note> {
        self.notes_of(kind, unknown, |per| self.sources.takeoff.entities_at(per, opening))
    }

    /// Notes of a kind that hold at any entity of which `among` is true. In the catalog's order.
    pub fn notes(&self, kind: NoteKind, unknown: Unknown, among: impl Fn(EntityRef) -> bool) -> Vec<&'a Note> {
        let takeoff = self.sources.takeoff;
        self.notes_of(kind, unknown, |per| takeoff.entities(per).into_iter().filter(|of| among(*of)).collect())
    }

    fn notes_of(&self, kind: NoteKind, unknown: Unknown, entities: impl Fn(Entity) -> Vec<EntityRef>) -> Vec<&'a Note> {
        let of_kind = self.sources.catalog.notes.iter().filter(|note| note.kind == kind);
        let holds = |note: &&Note| entities(note.per).into_iter().any(|of| self.holds(note.when.as_ref(), of, unknown));
        of_kind.filter(holds).collect()
    }

    /// What an opening does in each state: the first sequence of the state whose condition holds.
    pub fn operation(&self, opening: usize) -> Vec<OperationRow> {
        let of = EntityRef::Opening(opening);
        let row = |state: &DoorState| {
            let mut of_state: Vec<&Sequence> =
                self.sources.catalog.sequences.iter().filter(|it| it.state == *state).collect();
            of_state.sort_by_key(|it| (it.order, it.id.as_str()));
            let found = of_state.into_iter().find(|it| self.holds(it.when.as_ref(), of, Unknown::No));
            // A blank would be read as "nothing happens"; the office has to say.
            let says = found.map_or("not stated: call the office", |it| it.says.as_str());
            OperationRow { state: state.word().to_owned(), says: says.to_owned() }
        };
        DoorState::ALL.iter().map(row).collect()
    }
}
