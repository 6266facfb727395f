//! Why a figure is what it is, as finished lines.
//!
//! In: a figure. Out: itself and all it rests on, one line each, indented by depth.
//! May not know: how lines are printed, or how a place becomes file, line and column.

use std::collections::BTreeSet;

use crate::findings::Place;

use super::{FigureId, Ledger, Reason, Step};

/// One line of an explanation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The figure it is about.
    pub figure: FigureId,
    /// How far it is from the figure asked for, 0 being that figure.
    pub depth: usize,
    /// Its name.
    pub name: String,
    /// What it is and how it came to be, such as `38.25 ft = 36 ft + 2.25 ft`.
    pub text: String,
    /// Why it is there, such as `rule header-length` or `surveyed 2026-03-02`; empty where the arithmetic says all.
    pub because: String,
    /// Where that stands.
    pub place: Option<Place>,
    /// Whether it was explained further up, so that what it rests on is not repeated.
    pub seen: bool,
    /// How many figures it rests on that are left out because they are too far from the figure asked for.
    pub under: usize,
}

/// How many inputs a line spells out.
const SPELLED: usize = 8;

impl Ledger {
    /// Explains a figure: its own line, then those of its inputs below it, and so on to the end.
    pub fn explain(&self, id: FigureId) -> Vec<Line> {
        self.explain_to(id, usize::MAX)
    }

    /// Explains a figure to so many steps from it; at the last step a line says how many figures are left out under it.
    pub fn explain_to(&self, id: FigureId, levels: usize) -> Vec<Line> {
        let mut lines = Vec::new();
        let mut reported = BTreeSet::new();
        let mut open = vec![(id, 0)];
        while let Some((next, depth)) = open.pop() {
            let inputs = self.inputs(next);
            let seen = reported.contains(&next) && !inputs.is_empty();
            let cut = depth >= levels && !seen && !inputs.is_empty();
            let under = if cut { self.ancestors(next).len() } else { 0 };
            lines.push(Line { under, ..self.line(next, depth, seen) });
            if !seen && !cut {
                reported.insert(next);
                open.extend(inputs.iter().rev().map(|input| (*input, depth + 1)));
            }
        }
        lines
    }

    /// What a figure is and how it came to be, in one line: `38.25 ft = 36 ft + 2.25 ft`.
    pub fn equation(&self, id: FigureId) -> String {
        let figure = self.figure(id);
        let printed = self.print(id);
        match (figure.step, figure.inputs) {
            (Step::Given, _) => printed,
            (Step::Sum, []) => format!("{printed}, a sum of nothing"),
            (step, inputs) => format!("{printed} = {}", self.right_side(step, inputs)),
        }
    }

    fn line(&self, id: FigureId, depth: usize, seen: bool) -> Line {
        let figure = self.figure(id);
        let (because, place) = match figure.reason {
            Reason::Arithmetic => (String::new(), None),
            Reason::Entry { place, standing } => (standing.clone(), Some(place.clone())),
            Reason::Rule { id, place } => (format!("rule {id}"), Some(place.clone())),
            Reason::Clause(clause) => (clause.to_string(), None),
        };
        let (name, text) = (figure.name.to_owned(), self.equation(id));
        Line { figure: id, depth, name, text, because, place, seen, under: 0 }
    }

    fn right_side(&self, step: Step, inputs: &[FigureId]) -> String {
        let first = || inputs.first().map_or_else(String::new, |id| self.print(*id));
        let second = || inputs.get(1).map_or_else(String::new, |id| self.print(*id));
        match step {
            Step::Given | Step::Counted(_) => self.source(step),
            Step::Carried => format!("{} ({})", first(), inputs.first().map_or("", |id| self.figure(*id).name)),
            Step::Sum => self.joined(inputs, " + "),
            Step::Difference => self.joined(inputs, " - "),
            Step::Product => self.joined(inputs, " x "),
            Step::Quotient => self.joined(inputs, " / "),
            Step::Negated => format!("-({})", first()),
            Step::RoundedUp => format!("{} rounded up to a multiple of {}", first(), second()),
            Step::RoundedDown => format!("{} rounded down to a multiple of {}", first(), second()),
            Step::ToCents(mode) => format!("{} rounded to cents, {}", first(), mode.word()),
            Step::Largest => format!("the largest of {}", self.joined(inputs, ", ")),
            Step::Smallest => format!("the smallest of {}", self.joined(inputs, ", ")),
            Step::Chosen { condition, because } => format!("{} by `{condition}`, {because}", first()),
            Step::LookedUp { table, key } => format!("{} from {table} at {key}", first()),
            Step::Share { part } => self.share(part, inputs),
        }
    }

    fn source(&self, step: Step) -> String {
        match step {
            Step::Counted(what) => format!("the number of {what}"),
            _ => String::new(),
        }
    }

    fn share(&self, part: usize, inputs: &[FigureId]) -> String {
        let Some((whole, weights)) = inputs.split_first() else { return String::new() };
        let weight = weights.get(part).map_or_else(String::new, |id| self.print(*id));
        let (whole, number, all) = (self.print(*whole), part + 1, weights.len());
        format!("part {number} of {all} of {whole}, by weight {weight} of {}", self.joined(weights, ", "))
    }

    /// Printed inputs, negative ones in brackets after the first; past [`SPELLED`] only their number.
    fn joined(&self, inputs: &[FigureId], between: &str) -> String {
        let mut parts: Vec<String> = Vec::new();
        for (at, id) in inputs.iter().take(SPELLED).enumerate() {
            let printed = self.print(*id);
            parts.push(if at > 0 && printed.starts_with(['-', '−']) { format!("({printed})") } else { printed });
        }
        if inputs.len() > SPELLED {
            parts.push(format!("{} more", inputs.len() - SPELLED));
        }
        parts.join(between)
    }
}
