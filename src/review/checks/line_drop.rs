//! A line that loses more volts than is advised.
//!
//! In: a job. Out: `line-drop`. May not know: feeders, other loads.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::Catalog;
use crate::engineering::{drop_of_current, loop_ohms};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::measure::{Amps, Length, Unit};
use crate::review::circuits::{LineRuns, line_conductor};
use rust_decimal::Decimal;

pub(in crate::review) static CHECK: Check =
    Check { code: &CODE, clause: Some("NEC 210.19(A) note (secondary; advice)"), over: CheckScope::Job(look) };

/// A line with a large drop.
pub static CODE: Code = Code {
    id: "line-drop",
    severity: Severity::Warning,
    says: "{found} at peak load of its circuit; {asked} recommended",
    why: "The 3 percent for a branch circuit is an informational note, not a rule, but a drive at the end of a long run of small conductors stalls in wind. Calculated with the smallest line-voltage conductor in the catalog and the peak amps of the drives.",
    example: "[[run]]\nlength = \"400 ft\"",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let (conductor, strands) = line_conductor(catalog);
    let line_runs = LineRuns::of(job);
    for opening in OpeningContext::all(job, catalog).iter().filter(|it| it.opening.base && it.is_powered()) {
        let Some(operator) = opening.operator else { continue };
        let runs = line_runs.to(&opening.opening.mark);
        let (length, Some(run)) = (runs.iter().map(|run| run.length).sum::<Length>(), runs.last()) else { continue };
        let drives = Decimal::from(opening.powered().count());
        let peak =
            operator.peak.number_of(Unit::Ampere).and_then(|it| Amps::new(it.checked_mul(drives)?, Unit::Ampere));
        let ohms = loop_ohms(conductor, strands, length);
        let volts = opening.opening.entry.power.get().and_then(|it| it.volts.cloned()).unwrap_or(operator.volts);
        let Some(drop) = peak.and_then(|peak| drop_of_current(ohms, peak, volts)) else { continue };
        if drop.percent <= Decimal::from(ADVISED_PERCENT) {
            continue;
        }
        let finding = CHECK
            .finding(opening.subject())
            .at(run.place.clone())
            .found(format!(
                "{} of {} AWG lose {} percent",
                opening.length(length),
                conductor.awg(),
                drop.percent.normalize()
            ))
            .asked(format!("{ADVISED_PERCENT} percent"))
            .margin(format!("{} percent more", (drop.percent - Decimal::from(ADVISED_PERCENT)).normalize()));
        findings.push(finding.advise("use a larger conductor, shorten the route, or feed it from a nearer panel"));
    }
}

/// The advice for a branch circuit, in percent.
const ADVISED_PERCENT: i64 = 3;

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    fn line(length: &str) -> Fixture {
        with(&format!(
            "[[run]]\nfrom = \"LP-1\"\nto = \"101\"\nkind = \"EMT\"\nlength = \"{length}\"\nclass = \"line\""
        ))
    }

    /// Arithmetic: 4.5 A at peak, 1.98 ohm for 1,000 ft out and back: 3 percent of 120 V are lost over 202 ft.
    #[test]
    fn a_long_line_is_reported() {
        line("202 ft").passes(&CHECK);
        let (finding, _) = line("210 ft").one(&CHECK);
        assert_eq!(finding.found, "210 ft 0 in of 12 AWG lose 3.12 percent");
        // 10 AWG, stranded, has 1.24 ohm: 1.96 percent over 210 ft.
        let thick = "[item.wire]\nname = \"wire\"\ngroup = \"conductor\"\nunit = \"ft\"\nsupplier = \"fenwick\"\nwire = { awg = 10 }";
        line("210 ft").catalog_and(thick).passes(&CHECK);
    }
}
