//! An old building of which nobody has seen a report of hazardous material.
//!
//! In: a job. Out: `hazard-unknown`. May not know: what a report says.

use super::{Check, CheckScope};
use crate::catalog::Catalog;
use crate::findings::{Code, Findings, Papers, Severity, Subject};
use crate::job::{HazardReport, Job};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Job(look) };

/// An old building without a report.
pub static CODE: Code = Code {
    id: "hazard-unknown",
    severity: Severity::Warning,
    says: "building of {found} without a hazardous material report",
    why: "Old fire door cores and paint may not be drilled before they are tested. Until the owner's report is \
          received such material is excluded, and the packet prohibits drilling.",
    example: "[site.main]\nyear = 1974\nhazard = \"unknown\"",
    blocks: Papers::NONE,
};

/// Buildings of this year and later are taken to be free of such material (common practice, no source).
const FREE_FROM: u32 = 1980;

fn look(job: &Job, _: &Catalog, findings: &mut Findings) {
    for site in job.sites.values().filter(|site| job.openings.iter().any(|it| it.site == site.id)) {
        let hazard = &site.entry.hazard;
        let unknown = hazard.is_absent() || hazard.get() == Some(&HazardReport::Unknown);
        let Some(year) = site.entry.year.given().filter(|given| unknown && given.value.get() < FREE_FROM) else {
            continue;
        };
        let mut finding = CHECK
            .finding(Subject::Site(site.id.clone()))
            .at(hazard.place().unwrap_or(&year.place).clone())
            .found(year.value.to_string())
            .asked(format!("a report for a building before {FREE_FROM}"));
        if !hazard.is_absent() {
            finding = finding.near(year.place.clone(), "year of construction");
        }
        findings
            .push(finding.advise("ask the owner for the report, then write hazard = \"clear\" or hazard = \"found\""));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::sound;

    #[test]
    fn a_young_building_and_a_report_pass() {
        sound().passes(&CHECK);
        sound().but("year = 1998", "year = 1974").passes(&CHECK);
        sound().but("hazard = \"clear\"", "hazard = \"unknown\"").passes(&CHECK);
        sound().but("year = 1998", "year = 1980").but("hazard = \"clear\"", "hazard = \"unknown\"").passes(&CHECK);
    }

    #[test]
    fn an_old_building_without_a_report_is_reported() {
        let old = sound().but("year = 1998", "year = 1979");
        let (finding, at) = old.clone().but("hazard = \"clear\"", "hazard = \"unknown\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"unknown\"", "1979"));
        assert_eq!(old.but("hazard = \"clear\"\n", "").one(&CHECK).1, "1979");
    }
}
