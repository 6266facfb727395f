//! Certificates and other proofs of a section, and what is missing of them.
//!
//! In: proofs that the work needs. Out: finished rows, gaps by name. May not know: which of them a job needs.

use serde::Serialize;

use super::{CutSheet, Package, cut_sheet, places};
use crate::catalog::Proof;
use crate::documents::printing::or_dash;
use crate::job::SubmittalPart;
use crate::takeoff::{NeededProof, ProofGap, missing_proofs, needed_proofs};

/// A proof.
#[derive(Clone, Debug, Serialize)]
pub struct ProofRow {
    /// Name of the row, such as `proof.label`.
    pub name: String,
    /// Its kind.
    pub kind: String,
    /// What it shows.
    pub says: String,
    /// Where it is needed.
    pub marks: String,
    /// Its number.
    pub number: String,
    /// Who gave it.
    pub by: String,
    /// Its date.
    pub date: String,
    /// Its last day.
    pub expires: String,
    /// Whether it is in hand.
    pub state: String,
    /// The block with which its certificate begins; empty where none is enclosed.
    pub enclosed: String,
}

/// Proofs of the package, and its gaps.
pub(super) fn rows(package: &Package, certificates: &[CutSheet]) -> (Vec<ProofRow>, Vec<String>) {
    if !package.holds(SubmittalPart::Certificates) {
        return Default::default();
    }
    let (job, catalog) = (package.sources.reviewed.job(), package.sources.catalog);
    let here = here(package);
    let mut gaps: Vec<String> = here.iter().filter_map(gap).collect();
    if package.own {
        let unheard_of = missing_proofs(job, catalog).into_iter();
        gaps.extend(unheard_of.map(|kind| format!("{kind}: required by owner, not received")));
    }
    (here.iter().map(|it| row(package, it, certificates)).collect(), gaps)
}

/// The proofs that the work needs and that go with the package; none where it holds no certificates.
pub(super) fn here<'p>(package: &'p Package) -> Vec<NeededProof<'p>> {
    if !package.holds(SubmittalPart::Certificates) {
        return Vec::new();
    }
    let (takeoff, job, catalog) = (package.sources.takeoff, package.sources.reviewed.job(), package.sources.catalog);
    let needed = needed_proofs(takeoff, job, catalog).into_iter();
    needed.filter(|it| belongs(package, it.proof)).collect()
}

/// Whether a proof goes with the package's section: by the groups of its goods; what is for the contractor with the job's own.
fn belongs(package: &Package, proof: &Proof) -> bool {
    if proof.is_of_the_firm() {
        return package.own;
    }
    let job = package.sources.reviewed.job();
    let items = proof.items.iter().filter_map(|id| package.sources.catalog.items.get(id)).map(|item| item.group);
    let mut groups = proof.groups.iter().copied().chain(items);
    groups.any(|group| job.section_of(group) == Some(package.transmittal.section.as_str()))
}

fn gap(needed: &NeededProof) -> Option<String> {
    let proof = needed.proof;
    match needed.gap? {
        ProofGap::Missing => Some(format!("{} ({}): not received", proof.says, proof.kind)),
        ProofGap::Expired(last) => Some(format!("{} ({}): expired {last}", proof.says, proof.kind)),
    }
}

fn row(package: &Package, needed: &NeededProof, certificates: &[CutSheet]) -> ProofRow {
    let proof = needed.proof;
    let day = |date: Option<crate::input::Date>| or_dash(date.map(|it| it.to_string()).as_deref());
    ProofRow {
        name: format!("proof.{}", proof.id),
        kind: proof.kind.word().to_owned(),
        says: proof.says.clone(),
        marks: if proof.when.is_some() { places(package.sources, &needed.at) } else { String::new() },
        number: or_dash(proof.number.as_deref()),
        by: or_dash(proof.by.as_deref()),
        date: day(proof.date),
        expires: day(proof.expires),
        state: match needed.gap {
            None => "received".to_owned(),
            Some(ProofGap::Missing) => "MISSING".to_owned(),
            Some(ProofGap::Expired(_)) => "EXPIRED".to_owned(),
        },
        enclosed: cut_sheet::enclosing(proof, certificates),
    }
}
