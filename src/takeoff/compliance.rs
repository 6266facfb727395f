//! Whether the work as it is offered meets the paragraphs of the specification.
//!
//! In: paragraphs, the facts of what stands where. Out: for each paragraph whether it is met, and where it is not.
//! May not know: pages.
//!
//! A condition is tried on every entity of its kind; the paragraph is met where it holds on all of them. So a change of the job
//! that breaks a paragraph is found, and not only what somebody remembered to declare.

use super::{EntityRef, Takeoff, sheet};
use crate::catalog::Entity;
use crate::input::{Formula, Given};
use crate::job::{Answer, Job, Paragraph};
use crate::ledger::{Ledger, ReasonId};
use crate::rules::{Condition, Fault, Truth};

/// A paragraph and what became of it.
#[derive(Clone, Debug)]
pub struct Compliance<'j> {
    /// The paragraph.
    pub paragraph: &'j Paragraph,
    /// Whether it is met.
    pub met: Met,
}

/// Whether a paragraph is met.
#[derive(Clone, Debug, PartialEq)]
pub enum Met {
    /// It is.
    Yes,
    /// It is not, at these entities; at none by name where that was answered by hand.
    No(Vec<EntityRef>),
    /// It cannot be told at these entities, and is met at the others.
    Open(Vec<EntityRef>),
    /// It does not concern this work, for a reason.
    NotApplicable(String),
    /// Its condition cannot be parsed.
    Unreadable(Vec<Fault>),
}

impl Compliance<'_> {
    /// Whether the work departs from it.
    pub fn departs(&self) -> bool {
        matches!(self.met, Met::No(_))
    }
}

/// Every paragraph of the job, in file order.
pub fn compliance<'j>(takeoff: &Takeoff, job: &'j Job) -> Vec<Compliance<'j>> {
    let of = |paragraph: &'j Paragraph| Compliance { paragraph, met: met(takeoff, &paragraph.answer) };
    job.paragraphs.iter().map(of).collect()
}

fn met(takeoff: &Takeoff, answer: &Answer) -> Met {
    match answer {
        Answer::Complies => Met::Yes,
        Answer::Deviates => Met::No(Vec::new()),
        Answer::NotApplicable(reason) => Met::NotApplicable(reason.clone()),
        Answer::Tried { per, holds } => tried(takeoff, *per, holds),
    }
}

fn tried(takeoff: &Takeoff, per: Entity, holds: &Given<Formula>) -> Met {
    let condition = match Condition::read(holds.value.as_str(), &sheet(per)) {
        Ok(condition) => condition,
        Err(faults) => return Met::Unreadable(faults),
    };
    let entities = takeoff.entities(per);
    if entities.is_empty() {
        return Met::NotApplicable(format!("no {} in this work", per.word()));
    }
    let mut ledger = Ledger::new();
    let (mut not, mut open) = (Vec::new(), Vec::new());
    for of in entities {
        match condition.truth(&takeoff.facts(of), &mut ledger, ReasonId::ARITHMETIC) {
            Ok(Truth::True) => {}
            Ok(Truth::False) => not.push(of),
            Ok(Truth::Undecided(_)) | Err(_) => open.push(of),
        }
    }
    match (not.is_empty(), open.is_empty()) {
        (false, _) => Met::No(not),
        (true, false) => Met::Open(open),
        (true, true) => Met::Yes,
    }
}

impl Takeoff<'_> {
    /// What entities are called, each once, in order: those of one opening by its mark alone, a run by its number.
    pub fn names_of(&self, entities: &[EntityRef]) -> Vec<&str> {
        let mut names: Vec<&str> = Vec::new();
        for of in entities {
            let name = match (of, of.opening()) {
                (_, Some(at)) => self.arrangement.openings.get(at).map_or("", |it| it.opening.mark.as_str()),
                (EntityRef::Run(_), _) => self.name(*of).split(',').next().unwrap_or_default(),
                _ => self.name(*of),
            };
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names
    }
}
