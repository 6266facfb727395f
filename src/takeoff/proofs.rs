//! Which proofs the work needs, and which of them are not in hand.
//!
//! In: the catalog's proofs, what was taken off, the owner's profile. Out: proofs needed, with what each lacks.
//! May not know: pages.
//!
//! The day that a proof must hold on is that of the papers: nothing here asks a clock.

use std::collections::BTreeSet;

use rustc_hash::FxHashSet;

use super::{EntityRef, Takeoff};
use crate::catalog::{Catalog, Entity, Proof, ProofKind};
use crate::input::Date;
use crate::job::Job;
use crate::ledger::{Ledger, ReasonId};
use crate::rules::Truth;

/// A proof that is needed.
#[derive(Clone, Debug)]
pub struct NeededProof<'c> {
    /// The proof.
    pub proof: &'c Proof,
    /// Where it is needed: the entities of its condition, or those for which its goods are taken off; none for the contractor.
    pub at: Vec<EntityRef>,
    /// What it lacks.
    pub gap: Option<ProofGap>,
}

/// What a proof lacks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProofGap {
    /// It is not in hand.
    Missing,
    /// It held up to this day only.
    Expired(Date),
}

/// The proofs that the work needs, by kind and id.
pub fn needed_proofs<'c>(takeoff: &Takeoff, job: &Job, catalog: &'c Catalog) -> Vec<NeededProof<'c>> {
    let asked = asked(job, catalog);
    let mut ledger = Ledger::new();
    let needed = catalog.proofs.iter().filter(|proof| !proof.if_asked || asked.contains(&proof.kind));
    let each = needed.filter_map(|proof| {
        let at = places(takeoff, catalog, proof, &mut ledger)?;
        Some(NeededProof { proof, at, gap: gap(proof, job.head.date) })
    });
    each.collect()
}

/// Kinds of proof that the owner asks for and of which the catalog has none.
pub fn missing_proofs(job: &Job, catalog: &Catalog) -> Vec<ProofKind> {
    let no_one = |kind: &ProofKind| !catalog.proofs.iter().any(|proof| proof.kind == *kind);
    asked(job, catalog).iter().copied().filter(no_one).collect()
}

fn asked<'c>(job: &Job, catalog: &'c Catalog) -> &'c [ProofKind] {
    catalog.profiles.get(&job.head.profile).map_or(&[], |profile| profile.proofs.as_slice())
}

fn gap(proof: &Proof, day: Date) -> Option<ProofGap> {
    match (proof.date, proof.expires) {
        (None, _) => Some(ProofGap::Missing),
        (Some(_), Some(last)) if last < day => Some(ProofGap::Expired(last)),
        (Some(_), _) => None,
    }
}

/// Where a proof is needed; nothing where it is needed nowhere.
fn places(takeoff: &Takeoff, catalog: &Catalog, proof: &Proof, ledger: &mut Ledger) -> Option<Vec<EntityRef>> {
    let goods: Vec<EntityRef> = goods(takeoff, catalog, proof);
    if !proof.is_of_the_firm() && goods.is_empty() {
        return None;
    }
    let Some(per) = proof.per else { return Some(goods) };
    let openings: BTreeSet<usize> = goods.iter().filter_map(|it| it.opening()).collect();
    let here = |of: &EntityRef| {
        let at_opening = || of.opening().is_some_and(|opening| openings.contains(&opening));
        let with_goods = || goods.binary_search(of).is_ok() || at_opening();
        proof.is_of_the_firm() || per == Entity::Job || with_goods()
    };
    let at: Vec<EntityRef> = takeoff
        .entities(per)
        .into_iter()
        .filter(here)
        .filter(|of| {
            let Some(when) = &proof.when else { return true };
            // What cannot be decided counts: a proof too many is an envelope, one too few a door that is not accepted.
            when.condition.truth(&takeoff.facts(*of), ledger, ReasonId::ARITHMETIC) != Ok(Truth::False)
        })
        .collect();
    (!at.is_empty()).then_some(at)
}

/// The entities for which the goods of a proof are taken off, in order, each once.
fn goods(takeoff: &Takeoff, catalog: &Catalog, proof: &Proof) -> Vec<EntityRef> {
    let of_proof: FxHashSet<&str> =
        catalog.items.values().filter(|item| proof.is_for(item)).map(|item| item.id.as_str()).collect();
    let mut goods: Vec<EntityRef> =
        takeoff.lines.iter().filter(|line| of_proof.contains(&*line.item)).map(|line| line.of).collect();
    goods.sort();
    goods.dedup();
    goods
}
