//! Conductors that are pulled harder through a run than they may be.
//!
//! In: a job. Out: `pull-hard`. May not know: where along a run its bends come.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::{Catalog, Group, Item};
use crate::engineering::{Stretch, easier_pull};
use crate::findings::{Code, Findings, Papers, Severity, Subject};
use crate::job::{Job, Run, RunKind};
use crate::measure::{Force, Unit};
use crate::review::circuits::circuits_on_runs;
use crate::review::printing::less;
use rust_decimal::Decimal;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Job(look) };

/// A pull that is too hard.
pub static CODE: Code = Code {
    id: "pull-hard",
    severity: Severity::Warning,
    says: "{found}; maximum pulling tension {asked}",
    why: "Excessive pulling tension damages insulation out of sight. Tension increases along straight sections \
          and by a factor at each bend (the usual cable-pulling formulas, secondary); the limit is that of the \
          conductor in the catalog.",
    example: "[[run]]\nlength = \"300 ft\"\nbends = [90, 90, 90, 90]",
    blocks: Papers::NONE,
};

/// Bends between two pull points, in degrees, NEC 358.26 (from memory): beyond them stands a pull box, where a pull ends.
const MOST_BEND: u32 = 360;

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let wires = catalog.items.values().filter(|item| item.group == Group::Conductor);
    let Some((wire, friction, most)) = wires.filter_map(known).next() else { return };
    let openings = OpeningContext::all(job, catalog);
    let on_run = circuits_on_runs(&openings, job, catalog);
    for run in job.runs.iter().filter(|run| !matches!(run.kind, RunKind::Cable | RunKind::Surface)) {
        let Some(circuits) = on_run.get(&run.number) else { continue };
        let Some(force) = tension(run, circuits.len(), wire, friction) else { continue };
        let Some(first) = openings.first().filter(|_| force > most) else { continue };
        let count = 2 * circuits.len() + 1;
        let finding = CHECK
            .finding(Subject::Entry("run", run.number.to_string()))
            .at(run.place.clone())
            .near(wire.place.clone(), wire.name.clone())
            .found(format!("run {}: {count} conductors, {}", run.label(), first.force(force)))
            .asked(first.force(most))
            .margin(format!("{} more", first.force(less(force, most))));
        findings
            .push(finding.advise("add a pull box at mid-run, pull from the middle, or feed it from a nearer panel"));
    }
}

/// A conductor whose weight, friction and limit are known.
fn known(item: &Item) -> Option<(&Item, f64, Force)> {
    let wire = item.wire?;
    item.weight?;
    Some((item, f64::try_from(wire.friction?.ratio()).ok()?, wire.most_pull?))
}

/// The easier way through a run whose bends come in its middle: where they lie is not known, and from one end or the other no
/// place of them is harder.
fn tension(run: &Run, circuits: usize, wire: &Item, friction: f64) -> Option<Force> {
    let number = |it: Decimal| f64::try_from(it).ok();
    let count = Decimal::from(2 * circuits + 1);
    let weight = number(wire.weight?.number_of(Unit::Pound)?.checked_mul(count)?)?;
    let half = Stretch::Straight(number(run.length.to_feet())? / 2.0);
    let degrees = f64::from(run.bends.iter().fold(0, |sum: u32, bend| sum.saturating_add(*bend)).min(MOST_BEND));
    let (pull, _) = easier_pull(weight, friction, &[half, Stretch::Bend { degrees, radius: 0.0 }, half]);
    Force::new(Decimal::try_from(pull.tension).ok()?.round_dp(1), Unit::PoundForce)
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    /// One circuit of three conductors of 0.1 lb/ft, friction 0.5, through a run of two bends.
    fn run(length: &str) -> Fixture {
        let wire = "[item.wire]\nname = \"wire\"\ngroup = \"conductor\"\nunit = \"ft\"\nsupplier = \"fenwick\"\nweight = \"0.1 lb\"\n\
            wire = { awg = 12, friction = \"50 %\", most_pull = \"60 lbf\" }";
        let run = format!(
            "[[run]]\nfrom = \"LP-1\"\nto = \"101\"\nkind = \"EMT\"\nlength = \"{length}\"\nbends = [90, 90]\nclass = \"line\""
        );
        with(&run).catalog_and(wire)
    }

    /// Arithmetic on the usual formulas of cable pulling (secondary): 0.3 lb/ft, 0.5, half of 150 ft are 11.25 lb;
    /// half a turn at 0.5 multiplies by e^(π/2) = 4.810, and the other half adds 11.25 lb: 65.4 lb.
    #[test]
    fn tension_grows_with_length_and_bends() {
        run("130 ft").passes(&CHECK);
        let (finding, _) = run("150 ft").one(&CHECK);
        assert_eq!(finding.found, "run 1: 3 conductors, 65.4 lbf");
        assert_eq!(finding.margin.as_deref(), Some("5.4 lbf more"));
    }
}
