//! A raceway with more conductors in it than it may hold.
//!
//! In: a job. Out: `conduit-full`. May not know: wires of others in it.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::Catalog;
use crate::catalog::ClauseOf;
use crate::engineering::{Conductor, FilledRaceway, TradeSize, fill, smallest_size};
use crate::findings::{Code, Findings, Papers, Severity, Subject};
use crate::job::{Job, Run, RunKind};
use crate::review::circuits::{circuits_on_runs, line_conductor};
use rust_decimal::Decimal;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Job(look) };

/// A raceway that is too full.
pub static CODE: Code = Code {
    id: "conduit-full",
    severity: Severity::Warning,
    says: "{found} conductors fill {asked}",
    why: "Two conductors for each circuit and a ground, of the smallest line-voltage conductor in the catalog: overfilled raceway damages insulation. Where no size is given, the takeoff chooses one from the owner's minimum upward.",
    example: "[[run]]\nsize = \"1/2\"   # with five circuits on it",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningContext::all(job, catalog);
    let Some(asked) = openings.first().and_then(|it| it.first_asked(ClauseOf::Fill)) else { return };
    let on_run = circuits_on_runs(&openings, job, catalog);
    let (conductor, _) = line_conductor(catalog);
    for run in &job.runs {
        let (Some(circuits), Some(size)) = (on_run.get(&run.number), run.entry.size.given()) else { continue };
        let count = 2 * circuits.len() as u32 + 1;
        let Some((allowed, used, percent)) = too_full(run, conductor, count) else { continue };
        let next = smallest_for(run, conductor, count).map(|size| size.word().replace(' ', "-"));
        let finding = CHECK
            .finding(Subject::Entry("run", run.number.to_string()))
            .at(size.place.clone())
            .found(format!("run {}, {} to {}, {}: {count}", run.label(), run.from, run.to, size.value))
            .asked(format!("{used} sq in of {allowed} allowed"))
            .margin(format!("{percent} percent full"))
            .clause(asked.cite());
        findings.push(match next {
            Some(next) => finding.type_at(size.place.clone(), next),
            None => finding.advise("divide the circuits between two runs"),
        });
    }
}

fn raceway(run: &Run) -> Option<FilledRaceway> {
    match run.kind {
        RunKind::Emt => Some(FilledRaceway::Emt),
        RunKind::Flexible => Some(FilledRaceway::Fmc),
        RunKind::LiquidTight => Some(FilledRaceway::Lfmc),
        RunKind::Surface | RunKind::Cable => None,
    }
}

/// Area allowed, area used and percent of the whole, where the conductors do not fit.
fn too_full(run: &Run, conductor: Conductor, count: u32) -> Option<(Decimal, Decimal, Decimal)> {
    let size = TradeSize::parse(run.size?.word())?;
    let full = fill(&[(conductor, count)], raceway(run)?, size, false).ok()?;
    (!full.fits()).then(|| (full.allowed, full.used, full.percent().normalize()))
}

fn smallest_for(run: &Run, conductor: Conductor, count: u32) -> Option<TradeSize> {
    smallest_size(&[(conductor, count)], raceway(run)?, TradeSize::Half).ok().map(|(size, _)| size)
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, under};

    /// So many openings, each with a header of its own, behind one run of a size.
    fn behind(openings: usize, size: &str) -> Fixture {
        let more: String =
            (1..openings).map(|at| format!("\n[[opening]]\nmark = \"2{at}\"\nkind = \"plain\"")).collect();
        let run = |to: &str, size: &str| {
            format!(
                "\n[[run]]\nfrom = \"J-1\"\nto = \"{to}\"\nkind = \"EMT\"\nlength = \"9 ft\"\nclass = \"line\"\n{size}"
            )
        };
        let trunk = format!(
            "\n[[run]]\nfrom = \"LP-1\"\nto = \"J-1\"\nkind = \"EMT\"\nlength = \"9 ft\"\nclass = \"line\"\nsize = \"{size}\""
        );
        let branches: String = (1..openings).map(|at| run(&format!("2{at}"), "")).collect();
        under("nec-2023", &format!("{more}{trunk}{}{branches}", run("101", "")))
    }

    /// NEC chapter 9 tables 1, 4, 5 (secondary): nine 12 AWG in 1/2 EMT, 11 are too many; 3/4 takes them.
    #[test]
    fn four_circuits_fit_half_an_inch_and_five_do_not() {
        behind(4, "1/2").passes(&CHECK);
        let (finding, at) = behind(5, "1/2").one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("\"1/2\"", "3/4"));
        assert_eq!(finding.asked, "0.1463 sq in of 0.122 allowed");
        behind(5, "3/4").passes(&CHECK);
    }
}
