//! Warranty and maintenance data.
//!
//! In: the owner's profile, notes and faults of the catalog, items taken off. Out: finished strings. May not know: pages.

use serde::Serialize;

use super::{Package, products};
use crate::catalog::NoteKind;
use crate::documents::{ConditionEvaluator, Unknown};
use crate::job::SubmittalPart;
use crate::measure::Noun;

/// The warranty.
#[derive(Clone, Debug, Serialize)]
pub struct Warranty {
    /// How long, such as `24 months`.
    pub term: String,
    /// From which day.
    pub starts: String,
    /// What it leaves out.
    pub excludes: Vec<String>,
}

/// Maintenance data.
#[derive(Clone, Debug, Serialize)]
pub struct Upkeep {
    /// What the owner's people look at every day.
    pub daily: Vec<String>,
    /// What is serviced from time to time.
    pub service: Vec<String>,
    /// What the owner keeps.
    pub spares: Vec<Spare>,
    /// What is seen when something is wrong, and what to check.
    pub symptoms: Vec<Symptom>,
}

/// A spare part.
#[derive(Clone, Debug, Serialize)]
pub struct Spare {
    /// What it is.
    pub description: String,
    /// Who supplies it.
    pub supplier: String,
    /// How many are in use.
    pub in_use: String,
    /// How many the owner keeps.
    pub keeps: String,
}

/// A symptom.
#[derive(Clone, Debug, Serialize)]
pub struct Symptom {
    /// What is seen.
    pub seen: String,
    /// What to check, cheapest first.
    pub checks: String,
}

/// The warranty, the same months as on the bid: one, or none where the package holds none.
pub(super) fn warranty(package: &Package) -> Vec<Warranty> {
    let sources = package.sources;
    let profile = sources.catalog.profiles.get(&sources.reviewed.job().head.profile);
    let months = profile.and_then(|it| it.warranty_months);
    let (true, Some(months)) = (package.holds(SubmittalPart::Warranty), months) else { return Vec::new() };
    let starts = profile.and_then(|it| it.warranty_starts.clone());
    let excludes = if package.own { notes(package, NoteKind::WarrantyExclusion) } else { Vec::new() };
    vec![Warranty {
        term: Noun::MONTH.count(months),
        starts: starts.unwrap_or_else(|| "the date of acceptance by the owner".to_owned()),
        excludes,
    }]
}

/// Maintenance data: under the job's own section, where the doors are; elsewhere only where spares are kept.
pub(super) fn upkeep(package: &Package) -> Vec<Upkeep> {
    if !package.holds(SubmittalPart::MaintenanceData) {
        return Vec::new();
    }
    let spares = spares(package);
    if !package.own {
        let none = Upkeep { daily: Vec::new(), service: Vec::new(), symptoms: Vec::new(), spares };
        return if none.spares.is_empty() { Vec::new() } else { vec![none] };
    }
    let faults = package.sources.catalog.faults.iter();
    let symptoms = faults.map(|it| Symptom { seen: it.symptom.clone(), checks: it.checks.join("; ") }).collect();
    let (daily, service) = (notes(package, NoteKind::DailyCheck), notes(package, NoteKind::Service));
    vec![Upkeep { daily, service, spares, symptoms }]
}

fn notes(package: &Package, kind: NoteKind) -> Vec<String> {
    let conditions = ConditionEvaluator::new(package.sources);
    conditions.notes(kind, Unknown::Yes, |_| true).into_iter().map(|note| note.says.clone()).collect()
}

/// What the owner keeps of the items of a package.
fn spares(package: &Package) -> Vec<Spare> {
    let used = products::items(package.sources, &package.transmittal.section);
    let each = used.iter().filter_map(|used| {
        Some(Spare {
            description: used.item.name.clone(),
            supplier: products::supplier(package.sources, used.item),
            in_use: products::quantity(package.sources, used),
            keeps: used.item.spare.clone()?,
        })
    });
    each.collect()
}
