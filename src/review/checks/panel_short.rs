//! A panel with fewer spaces than circuits are asked of it.
//!
//! In: a job. Out: `panel-short`. May not know: tandem breakers, subpanels.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::Catalog;
use crate::findings::{Code, Findings, Papers, Severity, Subject};
use crate::job::Job;
use crate::measure::Noun;
use crate::review::circuits::panels;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Job(look) };

/// A panel without space.
pub static CODE: Code = Code {
    id: "panel-short",
    severity: Severity::Warning,
    says: "panel {found} free; required: {asked}",
    why: "Panel work is the most expensive surprise of a small job; the bid lists the missing spaces and excludes panel work.",
    example: "[panel.LP-1]\nfree = 1   # and two openings on it",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningContext::all(job, catalog);
    for seen in panels(&openings, job, catalog) {
        let Some(panel) = seen.id.as_ref().and_then(|id| job.panels.get(id)) else { continue };
        let (needed, Some(free)) = (seen.spaces(panel.entry.volts.cloned()), panel.entry.free.given()) else {
            continue;
        };
        let spaces = free.value.get() as usize;
        if needed <= spaces {
            continue;
        }
        let mut marks: Vec<&str> = seen.openings.iter().map(|it| it.opening.mark.as_str()).collect();
        marks.dedup();
        let finding = CHECK
            .finding(Subject::Entry("panel", panel.id.clone()))
            .at(free.place.clone())
            .found(format!("{} has {}", panel.id, Noun::SPACE.len(spaces)))
            .asked(format!(
                "{} on {}, {}",
                Noun::CIRCUIT.len(seen.circuits()),
                Noun::POLE.len(needed),
                marks.join(", ")
            ))
            .margin(format!("{} short", needed - spaces));
        findings.push(finding.advise(
            "share circuits where the owner permits it, use another panel, or price a new panel with its feeder",
        ));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    /// A second opening, and two spaces or one.
    fn two(free: u32, policy: &str) -> Fixture {
        let power = format!("power = {{ policy = \"{policy}\" }}");
        with(&format!("{power}\n[[opening]]\nmark = \"102\"\nkind = \"plain\"\n{power}"))
            .but("free = 4", &format!("free = {free}"))
    }

    /// Arithmetic: a circuit for each header, or one that both share.
    #[test]
    fn circuits_need_spaces() {
        two(2, "per header").passes(&CHECK);
        let (finding, at) = two(1, "per header").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("1", Some("1 short")));
        assert_eq!(finding.asked, "2 circuits on 2 poles, 101, 102");
        let limit = "warranty_months = 12";
        two(1, "shared").catalog_but(limit, &format!("shared_amps = \"12 A\"\n{limit}")).passes(&CHECK);
    }
}
