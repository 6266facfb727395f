//! Whether what was taken off and what is submitted agree: every package has its transmittal, and every transmittal a package.
//!
//! In: a takeoff, the job's sections, submittals and transmittals. Out: findings. May not know: what came back.

use std::collections::BTreeSet;

use rustc_hash::FxHashSet;

use super::{Takeoff, due, sent};
use crate::catalog::Catalog;
use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::job::{Job, Submittal, SubmittalPart};

/// What is to be sent has no transmittal.
pub static NO_TRANSMITTAL: Code = Code {
    id: "no-transmittal",
    severity: Severity::Warning,
    says: "submittal {found} has no transmittal under section {asked}",
    why: "A reviewer takes one section per transmittal; a submittal without its own transmittal is not sent, not approved and not released.",
    example: "[[section]]\nnumber = \"26 05 33\"\ngroups = [\"raceway\"]   # and no [[transmittal]] of that section",
    blocks: Papers::NONE,
};

/// A transmittal has nothing to send.
pub static NOTHING_TO_SEND: Code = Code {
    id: "nothing-to-send",
    severity: Severity::Warning,
    says: "the transmittal of {found} under section {asked} has nothing to send",
    why: "A package without content is returned; probably its section lacks groups, or the parts belong to another section.",
    example: "[[section]]\nnumber = \"26 05 33\"\ntitle = \"Raceways\"   # without groups\n\n[[transmittal]]\nsection = \"26 05 33\"",
    blocks: Papers::NONE,
};

/// Reviews do not fit before the last safe day to order.
pub static REVIEWS_DO_NOT_FIT: Code = Code {
    id: "reviews-do-not-fit",
    severity: Severity::Warning,
    says: "two reviews for {subject} no longer fit before the latest order date: {found}",
    why: "After one resubmittal the products would arrive after the crew; late submittal is no ground for extension of time.",
    example: "date = 2027-01-20   # and days = { set = 2027-03-08 }, a supplier of seven weeks, reviews of 14 days",
    blocks: Papers::NONE,
};

/// Compares what was taken off with what is submitted, and with the days left for it.
pub(super) fn compare(takeoff: &Takeoff, job: &Job, catalog: &Catalog, findings: &mut Findings) {
    days_left(takeoff, job, catalog, findings);
    // Without an opening nothing is taken off and nothing sent; that there is none was found where they are read.
    if takeoff.arrangement.openings.is_empty() {
        return;
    }
    let filled = filled(takeoff, job, catalog);
    for submittal in &job.submittals {
        for section in job.section_numbers() {
            let sent = job.transmittals.iter().any(|it| it.submittal == submittal.id && it.section == section);
            let unread = job.transmittals_unread.iter().any(|of| of.as_ref().is_none_or(|of| *of == submittal.id));
            if !sent && !unread && filled.contains(section) && job.submits_under(submittal, section) {
                findings.push(missing(job, submittal, section));
            }
        }
    }
    for transmittal in &job.transmittals {
        let of = job.submittals.iter().find(|it| it.id == transmittal.submittal);
        let something = filled.contains(transmittal.section.as_str())
            && of.is_some_and(|submittal| job.submits_under(submittal, &transmittal.section));
        if !something {
            let subject = Subject::Entry("transmittal", format!("{}-{}", transmittal.section, transmittal.number));
            let finding = Finding::new(&NOTHING_TO_SEND, subject).at(transmittal.place.clone());
            let finding = finding.found(transmittal.submittal.as_str()).asked(transmittal.section.as_str());
            findings.push(finding.advise("name the groups of the section, or leave the transmittal out"));
        }
    }
}

/// One finding for each site where the reviews still to come end after the last safe day to order.
fn days_left(takeoff: &Takeoff, job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let review = catalog.profiles.get(&job.head.profile).and_then(|profile| profile.review_days);
    for (at, site) in takeoff.arrangement.sites.iter().enumerate() {
        let late = catalog.suppliers.values().filter(|from| from.submitted).filter_map(|from| {
            let due = due(site, from, review);
            let sections: BTreeSet<&str> =
                sent(takeoff, catalog, at, &from.id).filter_map(|item| job.section_of(item.group)).collect();
            let approvals = sections.into_iter().map(|section| job.approval(SubmittalPart::ProductData, section));
            let days = approvals.filter_map(|it| due.late(&it, job.head.date, review)).max()?;
            Some(format!("{} by {}, {days} days short", from.name, due.order?))
        });
        let late: Vec<String> = late.collect();
        if !late.is_empty() {
            let finding = Finding::new(&REVIEWS_DO_NOT_FIT, Subject::Site(site.id.clone()));
            let finding = match site.entry.written_at.clone() {
                Some(place) => finding.at(place),
                None => finding,
            };
            let advice = "submit now, agree on a shorter review in writing, or move the visit";
            findings.push(finding.found(late.join("; ")).advise(advice));
        }
    }
}

/// The sections that something taken off belongs to. What suppliers send that nobody reviews counts for none.
fn filled<'j>(takeoff: &Takeoff, job: &'j Job, catalog: &Catalog) -> BTreeSet<&'j str> {
    let taken: FxHashSet<&str> = takeoff.lines.iter().map(|line| &*line.item).collect();
    let items = catalog.items.values().filter(|item| taken.contains(item.id.as_str()));
    let reviewed = items.filter(|item| catalog.suppliers.get(&item.supplier).is_some_and(|it| it.submitted));
    reviewed.filter_map(|item| job.section_of(item.group)).collect()
}

fn missing(job: &Job, submittal: &Submittal, section: &str) -> Finding {
    let subject = Subject::Entry("submittal", submittal.id.clone());
    let finding = Finding::new(&NO_TRANSMITTAL, subject).at(submittal.place.clone());
    let lines = format!(
        "add [[transmittal]] with submittal = \"{}\", section = \"{section}\", number = \"{}\"",
        submittal.id,
        next_number(job, section)
    );
    finding.found(submittal.id.as_str()).asked(section).advise(lines)
}

/// The number after the highest of a section.
fn next_number(job: &Job, section: &str) -> u32 {
    let taken = job.transmittals.iter().filter(|it| it.section == section);
    taken.filter_map(|it| it.number.parse::<u32>().ok()).max().map_or(1, |last| last.saturating_add(1))
}
