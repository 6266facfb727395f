//! A raceway whose connector is larger than the hole of the header.
//!
//! In: a job. Out: `entry-outgrown`. May not know: the shape of the header's end.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::Catalog;
use crate::engineering::{TradeSize, entry, hole};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{Job, RunKind};
use crate::review::circuits::LineRuns;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Job(look) };

/// A raceway larger than the header's holes.
pub static CODE: Code = Code {
    id: "entry-outgrown",
    severity: Severity::Warning,
    says: "{found}; header knockouts {asked}",
    why: "An owner's minimum size of 3/4 exceeds a 1/2 header knockout: the hole is enlarged and must fit the free face of the header. Hole sizes are from memory.",
    example: "least_raceway = \"3/4\"   # in the profile; the operator's entry is 1/2",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let least = catalog.profiles.get(&job.head.profile).map_or("1/2", |profile| profile.least_raceway.as_str());
    let least = TradeSize::parse(least).unwrap_or(TradeSize::Half);
    let line_runs = LineRuns::of(job);
    for opening in OpeningContext::all(job, catalog).iter().filter(|it| it.opening.base && it.is_powered()) {
        let line = line_runs.to(&opening.opening.mark);
        let (Some(run), Some(operator)) = (line.last(), opening.operator) else { continue };
        let Some(made_for) = TradeSize::parse(&operator.entry) else { continue };
        let size = run.size.and_then(|size| TradeSize::parse(size.word())).unwrap_or(least).max(least);
        if size <= made_for || matches!(run.kind, RunKind::Cable | RunKind::Surface) {
            continue;
        }
        let face = operator.height.min(operator.depth);
        let drilled = entry(size, face).map_or_else(
            || "ask the supplier".to_owned(),
            |entry| {
                let hole = opening.length(entry.hole);
                if entry.fits() {
                    format!("drill {hole} in a {} face", opening.length(face))
                } else {
                    format!("{hole} does not fit a {} face", opening.length(face))
                }
            },
        );
        let wider = hole(size).zip(hole(made_for)).map(|(needs, has)| needs - has);
        let mut finding = CHECK
            .finding(opening.subject())
            .at(run.place.clone())
            .near(operator.place.clone(), format!("operator {}", operator.id))
            .found(format!("run {}: {} raceway", run.label(), size.word()))
            .asked(operator.entry.clone());
        finding.margin = wider.map(|wider| format!("{} wider", opening.length(wider)));
        findings
            .push(finding.advise(format!("{drilled}, or end the raceway in a box and continue in {}", operator.entry)));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, with};

    fn run(size: &str) -> Fixture {
        with(&format!(
            "[[run]]\nfrom = \"LP-1\"\nto = \"101\"\nkind = \"EMT\"\nlength = \"20 ft\"\nclass = \"line\"\n{size}"
        ))
    }

    /// Knockout sizes (from memory): 3/4 wants 1 1/8 in.
    #[test]
    fn a_larger_raceway_outgrows_the_hole() {
        run("").passes(&CHECK);
        run("size = \"1/2\"").passes(&CHECK);
        let (finding, _) = run("size = \"3/4\"").one(&CHECK);
        assert!(remedy(&finding).starts_with("drill 1 1/8 in in a 4 3/4 in face"), "{}", remedy(&finding));
        let months = "warranty_months = 12";
        run("").catalog_but(months, &format!("least_raceway = \"3/4\"\n{months}")).one(&CHECK);
    }
}
