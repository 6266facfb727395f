//! The ledger itself: figures in the order they were made, and the ways to walk them.
//!
//! In: checked values from the operations. Out: figures by number, their inputs and all they rest on.
//! May not know: how a value was computed.

use std::cmp::Ordering;
use std::sync::Arc;

use rust_decimal::Decimal;
use rustc_hash::FxHashMap;

use crate::measure::{Dimension, Quantity, Style};

use super::fault::{Cause, FigureFault};
use super::figure::StoredStep;
use super::ratio::Ratio;
use super::words::{Words, WordsId};
use super::{Called, Figure, FigureId, Reason, ReasonId, Shown, Step};

/// One figure, in about seventy bytes and four for each input.
#[derive(Clone, Debug)]
struct Node {
    /// Its value in canonical units; a rate's in its own units, so that `$0.125 per ft` is kept exactly.
    kept: Decimal,
    dimension: Dimension,
    shown: Shown,
    name: WordsId,
    reason: ReasonId,
    step: StoredStep,
    /// First of its inputs in the one list of all inputs.
    first: u32,
    /// How many it has.
    inputs: u32,
}

/// Inputs already in the list of all inputs, so that the parts of one allocation can share them.
#[derive(Clone, Copy)]
pub(super) struct Inputs {
    first: u32,
    number: u32,
}

/// All figures of one takeoff or estimate, each with its reason.
///
/// A number of a figure is only good in the ledger that gave it and in those that were copied from it; another ledger may have
/// none under it, and the walks then panic. An alternate is a job of its own and so has a ledger of its own, which goes on from
/// that of the base bid: once that is frozen, copies of it share what it holds.
#[derive(Clone, Debug, Default)]
pub struct Ledger {
    /// What copies share.
    frozen: Option<Arc<Entries>>,
    /// What came after it.
    own: Entries,
}

/// Figures that follow one another.
#[derive(Clone, Debug, Default)]
struct Entries {
    nodes: Vec<Node>,
    inputs: Vec<FigureId>,
    words: Words,
    reasons: Vec<Reason>,
    known_reasons: FxHashMap<Reason, ReasonId>,
    /// Given figures by name and reason: what is given twice is one figure.
    known_given: FxHashMap<(WordsId, ReasonId), FigureId>,
}

impl Entries {
    fn reason(&self, reason: &Reason) -> Option<ReasonId> {
        self.known_reasons.get(reason).copied()
    }
}

impl Ledger {
    /// An empty ledger.
    pub fn new() -> Self {
        let mut ledger = Ledger::default();
        ledger.reason(Reason::Arithmetic);
        ledger
    }

    /// Lets copies share all that it holds, so that a copy costs next to nothing. Only the first time: what comes after is
    /// copied.
    pub fn freeze(&mut self) {
        if self.frozen.is_none() {
            self.frozen = Some(Arc::new(std::mem::take(&mut self.own)));
        }
    }

    fn frozen_nodes(&self) -> usize {
        self.frozen.as_ref().map_or(0, |it| it.nodes.len())
    }

    fn frozen_words(&self) -> usize {
        self.frozen.as_ref().map_or(0, |it| it.words.len())
    }

    fn frozen_reasons(&self) -> usize {
        self.frozen.as_ref().map_or(0, |it| it.reasons.len())
    }

    /// A figure's node, and the entries that it is among.
    fn at(&self, id: FigureId) -> (&Node, &Entries) {
        match &self.frozen {
            Some(frozen) if id.index() < frozen.nodes.len() => (&frozen.nodes[id.index()], frozen),
            Some(frozen) => (&self.own.nodes[id.index() - frozen.nodes.len()], &self.own),
            None => (&self.own.nodes[id.index()], &self.own),
        }
    }

    fn node(&self, id: FigureId) -> &Node {
        self.at(id).0
    }

    fn text(&self, id: WordsId) -> &str {
        let frozen = self.frozen.as_ref().filter(|it| id.index() < it.words.len());
        frozen.map_or_else(|| self.own.words.text(id.less(self.frozen_words())), |it| it.words.text(id))
    }

    fn find_words(&self, text: &str) -> Option<WordsId> {
        let own = || Some(self.own.words.find(text)?.more(self.frozen_words()));
        self.frozen.as_ref().and_then(|it| it.words.find(text)).or_else(own)
    }

    fn reason_of(&self, id: ReasonId) -> &Reason {
        let at = id.0 as usize;
        match &self.frozen {
            Some(frozen) if at < frozen.reasons.len() => &frozen.reasons[at],
            Some(frozen) => &self.own.reasons[at - frozen.reasons.len()],
            None => &self.own.reasons[at],
        }
    }

    /// Keeps a reason; the same reason always has the same number.
    pub fn reason(&mut self, reason: Reason) -> ReasonId {
        let frozen = self.frozen.as_ref().and_then(|it| it.reason(&reason));
        if let Some(id) = frozen.or_else(|| self.own.reason(&reason)) {
            return id;
        }
        let id = ReasonId((self.frozen_reasons() + self.own.reasons.len()) as u32);
        self.own.reasons.push(reason.clone());
        self.own.known_reasons.insert(reason, id);
        id
    }

    /// How many figures it holds.
    pub fn len(&self) -> usize {
        self.frozen_nodes() + self.own.nodes.len()
    }

    /// Whether it holds none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Every figure, in the order they were made.
    pub fn ids(&self) -> impl DoubleEndedIterator<Item = FigureId> + use<> {
        (0..self.len() as u32).map(FigureId)
    }

    /// A figure with all that is known of it.
    pub fn figure(&self, id: FigureId) -> Figure<'_> {
        let node = self.node(id);
        Figure {
            value: self.value(id),
            rate: matches!(node.shown, Shown::Per(..)).then_some(node.kept),
            shown: node.shown,
            name: self.text(node.name),
            reason: self.reason_of(node.reason),
            step: self.step(node.step),
            inputs: self.inputs(id),
        }
    }

    /// The value of a figure, in canonical units; a rate's to 28 digits.
    pub fn value(&self, id: FigureId) -> Quantity {
        let node = self.node(id);
        let exact = Ratio::kept(node.kept, node.dimension, node.shown).quantity();
        // It was computed when the figure was entered, or there would be no figure.
        exact.unwrap_or(Quantity::new(node.kept, node.dimension))
    }

    /// The figures that a figure was made from.
    pub fn inputs(&self, id: FigureId) -> &[FigureId] {
        let (node, entries) = self.at(id);
        &entries.inputs[node.first as usize..(node.first + node.inputs) as usize]
    }

    /// All figures that a figure rests on, near and far, in the order they were made and each once.
    pub fn ancestors(&self, id: FigureId) -> Vec<FigureId> {
        let mut found = std::collections::BTreeSet::new();
        let mut open = vec![id];
        while let Some(next) = open.pop() {
            open.extend(self.inputs(next).iter().filter(|input| found.insert(**input)));
        }
        found.into_iter().collect()
    }

    /// The printed form of a figure, value and unit, for a terminal or JSON.
    pub fn print(&self, id: FigureId) -> String {
        self.print_in(id, Style::Plain)
    }

    /// The printed form of a figure for a page or a terminal.
    pub fn print_in(&self, id: FigureId, style: Style) -> String {
        let node = self.node(id);
        node.shown.print_kept(node.kept, style)
    }

    fn step(&self, kept: StoredStep) -> Step<'_> {
        let text = |id| self.text(id);
        match kept {
            StoredStep::Given => Step::Given,
            StoredStep::Counted(what) => Step::Counted(text(what)),
            StoredStep::Carried => Step::Carried,
            StoredStep::Sum => Step::Sum,
            StoredStep::Difference => Step::Difference,
            StoredStep::Product => Step::Product,
            StoredStep::Quotient => Step::Quotient,
            StoredStep::Negated => Step::Negated,
            StoredStep::RoundedUp => Step::RoundedUp,
            StoredStep::RoundedDown => Step::RoundedDown,
            StoredStep::ToCents(mode) => Step::ToCents(mode),
            StoredStep::Largest => Step::Largest,
            StoredStep::Smallest => Step::Smallest,
            StoredStep::Chosen { condition, because } => {
                Step::Chosen { condition: text(condition), because: text(because) }
            }
            StoredStep::LookedUp { table, key } => Step::LookedUp { table: text(table), key: text(key) },
            StoredStep::Share { part } => Step::Share { part: part as usize },
        }
    }
}

// What the operations use.
impl Ledger {
    #[cfg(test)]
    pub(super) const NODE_BYTES: usize = size_of::<Node>();

    pub(super) fn keep(&mut self, text: &str) -> WordsId {
        if let Some(known) = self.frozen.as_ref().and_then(|it| it.words.find(text)) {
            return known;
        }
        let frozen = self.frozen_words();
        self.own.words.keep(text).more(frozen)
    }

    /// The step that made a figure, as it is kept.
    pub(super) fn kept_step(&self, id: FigureId) -> StoredStep {
        self.node(id).step
    }

    pub(super) fn shown(&self, id: FigureId) -> Shown {
        self.node(id).shown
    }

    /// The exact value of a figure.
    pub(super) fn exact(&self, id: FigureId) -> Ratio {
        let node = self.node(id);
        Ratio::kept(node.kept, node.dimension, node.shown)
    }

    /// What a figure keeps.
    pub(super) fn kept(&self, id: FigureId) -> Decimal {
        self.node(id).kept
    }

    pub(super) fn list(&mut self, inputs: impl IntoIterator<Item = FigureId>) -> Inputs {
        let list = &mut self.own.inputs;
        let first = list.len() as u32;
        list.extend(inputs);
        Inputs { first, number: list.len() as u32 - first }
    }

    /// A given figure made before under the same name, reason, value and unit.
    pub(super) fn known(&self, value: Ratio, called: Called) -> Option<FigureId> {
        let given = (self.find_words(called.name)?, called.reason);
        let frozen = self.frozen.as_ref().and_then(|it| it.known_given.get(&given));
        let id = *frozen.or_else(|| self.own.known_given.get(&given))?;
        let node = self.node(id);
        let same = self.exact(id).compare(value) == Ok(Ordering::Equal);
        (same && called.shown.is_none_or(|shown| shown == node.shown)).then_some(id)
    }

    pub(super) fn remember(&mut self, id: FigureId) {
        let node = self.node(id);
        let given = (node.name, node.reason);
        self.own.known_given.insert(given, id);
    }

    /// The only place where a figure comes to be. `usual` is how it prints unless the name says otherwise.
    pub(super) fn enter(
        &mut self,
        value: Ratio,
        usual: Shown,
        step: StoredStep,
        inputs: Inputs,
        called: Called,
    ) -> Result<FigureId, FigureFault> {
        let shown = called.shown.unwrap_or(usual);
        if shown.dimension() != Some(value.dimension()) {
            return Err(FigureFault::new(Cause::Shown(value.dimension(), shown), called));
        }
        let fault = |fault| FigureFault::new(Cause::Arithmetic(fault), called);
        let kept = value.keep(shown).map_err(fault)?;
        let dimension = value.dimension();
        Ratio::kept(kept, dimension, shown).quantity().map_err(fault)?;
        let id = u32::try_from(self.len()).map_err(|_| FigureFault::new(Cause::Full, called))?;
        let name = self.keep(called.name);
        let Inputs { first, number } = inputs;
        self.own.nodes.push(Node { kept, dimension, shown, name, reason: called.reason, step, first, inputs: number });
        Ok(FigureId(id))
    }
}
