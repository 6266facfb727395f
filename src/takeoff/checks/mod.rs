//! Checks of what was taken off: those that need to know which items stand at an opening.
//!
//! In: a takeoff. Out: findings. May not know: prices. Checks that need the job and the catalog alone are the review's; every
//! code has its row in the review's `CLAUSES.md`.

mod accessory_volts;
mod battery_before_warranty;
mod bought_again;
mod circuit_heavy;
mod class_two_limit;
mod junction_box_missing;
mod low_voltage;
mod low_voltage_drop;
mod paragraphs;
mod proofs;
mod rule_missing;
mod state_unsaid;
mod stated_twice;
mod supply_idle;
mod supply_short;
mod terminations;
mod uncovered;
mod wrong_end;

use crate::catalog::{Catalog, Item};
use crate::findings::{Code, Findings};
use crate::job::Job;
use crate::measure::Quantity;

use super::{EntityRef, Line, OpeningWork, Takeoff};

/// The codes of these checks.
pub static CHECKED: [&Code; 26] = [
    &supply_short::CODE,
    &class_two_limit::CODE,
    &circuit_heavy::CODE,
    &circuit_heavy::UNKNOWN,
    &low_voltage_drop::CODE,
    &battery_before_warranty::CODE,
    &state_unsaid::CODE,
    &paragraphs::UNSTATED,
    &paragraphs::OPEN,
    &paragraphs::IDLE,
    &proofs::MISSING,
    &proofs::EXPIRED,
    &proofs::UNHEARD_OF,
    &terminations::MISSING,
    &terminations::CONDUCTOR,
    &terminations::COLORS,
    &supply_idle::CODE,
    &wrong_end::CODE,
    &rule_missing::CODE,
    &uncovered::CODE,
    &junction_box_missing::CODE,
    &stated_twice::DRIVE,
    &stated_twice::KIT,
    &stated_twice::LOW_VOLTS,
    &bought_again::CODE,
    &accessory_volts::CODE,
];

/// A takeoff as its checks see it.
struct CheckContext<'t, 'j> {
    takeoff: &'t Takeoff<'j>,
    job: &'t Job,
    catalog: &'t Catalog,
}

/// Runs every check over a takeoff.
pub(super) fn look(takeoff: &Takeoff, job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let seen = CheckContext { takeoff, job, catalog };
    supply_short::look(&seen, findings);
    class_two_limit::look(&seen, findings);
    circuit_heavy::look(&seen, findings);
    low_voltage_drop::look(&seen, findings);
    battery_before_warranty::look(&seen, findings);
    state_unsaid::look(&seen, findings);
    paragraphs::look(&seen, findings);
    proofs::look(&seen, findings);
    terminations::look(&seen, findings);
    supply_idle::look(&seen, findings);
    wrong_end::look(&seen, findings);
    rule_missing::look(&seen, findings);
    uncovered::look(&seen, findings);
    junction_box_missing::look(&seen, findings);
    stated_twice::look(&seen, findings);
    bought_again::look(&seen, findings);
    accessory_volts::look(&seen, findings);
}

impl<'t, 'j> CheckContext<'t, 'j> {
    /// Openings with a drive, with their positions.
    fn powered(&self) -> impl Iterator<Item = (usize, &'t OpeningWork<'j>)> {
        self.takeoff.arrangement.openings.iter().enumerate().filter(|(_, it)| !it.drives.is_empty())
    }

    /// Items taken off for an opening and all that is at it, with the entity and how much.
    fn items_at(&self, opening: usize) -> Vec<(&'t Item, EntityRef, Quantity)> {
        self.takeoff.lines_at(opening).filter_map(|line| self.item(line)).collect()
    }

    /// Items taken off for an entity.
    fn items_of(&self, of: EntityRef) -> Vec<(&'t Item, EntityRef, Quantity)> {
        self.takeoff.lines_of(of).filter_map(|line| self.item(line)).collect()
    }

    fn item(&self, line: &Line) -> Option<(&'t Item, EntityRef, Quantity)> {
        Some((self.catalog.items.get(&*line.item)?, line.of, self.takeoff.ledger.value(line.quantity)))
    }
}

#[cfg(test)]
mod fixtures {
    //! A sound job with a strike, and what a check of the takeoff says once something is changed.

    use crate::findings::{Code, Finding, Findings};
    use crate::job::fixtures::read_with;
    use crate::review::fixtures::says_by_how_much;
    use crate::review::review;
    use crate::takeoff::{sheet, take_off};

    const JOB: &str = include_str!("../../../tests/cases/nothing-wrong/job.toml");
    const CATALOG: &str = include_str!("../../../tests/cases/_catalog/catalog.toml");

    /// Findings of a code of the sound job with more text in the opening's table, in the operator's and in the catalog.
    pub(in crate::takeoff) fn reported(code: &Code, job: &str, operator: &str, catalog: &str) -> Vec<Finding> {
        let own = CATALOG.replace("arm_screws = 4\n", &format!("arm_screws = 4\n{operator}\n"));
        of(code, &format!("{JOB}\n{job}"), &format!("{own}\n{catalog}"))
    }

    /// Findings of a code of the sound job with more text under a head of the catalog.
    pub(in crate::takeoff) fn reported_under(code: &Code, head: &str, more: &str) -> Vec<Finding> {
        of(code, JOB, &CATALOG.replace(head, &format!("{head}\n{more}")))
    }

    /// Findings of a code of the sound job with more text in the opening's table, and the catalog changed.
    pub(in crate::takeoff) fn reported_of(code: &Code, job: &str, catalog: impl Fn(&str) -> String) -> Vec<Finding> {
        of(code, &format!("{JOB}\n{job}"), &catalog(CATALOG))
    }

    fn of(code: &Code, job: &str, catalog: &str) -> Vec<Finding> {
        let (job, catalog, findings) = read_with(job, catalog, &sheet);
        assert!(findings.is_empty(), "{findings:#?}");
        let mut findings = Findings::default();
        let reviewed = review(job, &catalog, &mut findings);
        take_off(&reviewed, &catalog, &mut findings);
        let reported: Vec<Finding> = findings.sorted().iter().filter(|it| it.code == code).cloned().collect();
        reported.iter().for_each(says_by_how_much);
        reported
    }
}
