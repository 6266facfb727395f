//! Facts of the job, of a site and of a visit.
//!
//! In: the arrangement, the job, the owner's profile. Out: writers of their facts. May not know: what stands at an opening.

use super::{count, slot_count};
use crate::catalog::{Catalog, Profile, VisitKind};
use crate::job::{HazardReport, Job, Site};
use crate::ledger::Reason;
use crate::measure::{Quantity, Unit};
use crate::takeoff::arrangement::{Arrangement, OpeningWork};
use crate::takeoff::fact_set::FactSetWriter;

/// Facts of the job and of the owner's profile, which every sheet holds.
pub(in crate::takeoff) fn job(of: Option<(&Arrangement, &Job, &Catalog)>) -> FactSetWriter {
    let mut writer = FactSetWriter::new("job", of.map(|(_, job, _)| format!("job {}", job.head.number)));
    let all = of.map(|(it, _, _)| it);
    let sum = |count: fn(&OpeningWork) -> usize| all.map(|it| it.openings.iter().map(count).sum());
    writer.counted("job.sites", "sites of the bid", all.map(|it| it.sites.len()));
    writer.counted("job.openings", "openings of the bid", all.map(|it| it.openings.len()));
    writer.counted("job.leaves", "leaves", sum(|it| it.leaves.len()));
    writer.counted("job.powered_leaves", "leaves that a drive moves", sum(|it| it.powered_leaves()));
    writer.counted("job.drives", "drives", sum(|it| it.drives.len()));
    writer.counted("job.headers", "headers", sum(|it| it.headers.len()));
    writer.counted("job.devices", "devices", sum(|it| it.devices.len()));
    let profile: Option<&Profile> = of.and_then(|(_, job, catalog)| catalog.profiles.get(&job.head.profile));
    let months = profile.and_then(|it| Some(count(it.warranty_months?, &it.place)));
    writer.number("profile.warranty_months", Unit::Each, "months of warranty", months);
    writer.text("profile.least_raceway", "least trade size", profile.map(|it| it.least_raceway.as_str()));
    writer.flag("profile.tax_exempt", "whether the owner's material is free of tax", profile.map(|it| it.tax_exempt));
    writer.flag("profile.bond", "whether bonds are required", profile.map(|it| it.bond));
    let standby = of.map(|(_, job, catalog)| {
        job.head.jurisdictions.iter().filter_map(|id| catalog.jurisdictions.get(id)).any(|it| it.standby_power)
    });
    writer.flag("jurisdiction.standby_power", "whether the jurisdiction requires standby power", standby);
    writer
}

/// Facts of a site.
pub(in crate::takeoff) fn site(of: Option<(&Site, &Arrangement)>) -> FactSetWriter {
    let mut writer = FactSetWriter::new("site", of.map(|(site, _)| format!("site {}", site.name)));
    let here = of.map(|(site, all)| (site, all.openings_of(&site.id).collect::<Vec<_>>()));
    let sum =
        |count: fn(&OpeningWork) -> usize| here.as_ref().map(|(_, openings)| openings.iter().map(|it| count(it)).sum());
    let typed = of.map(|(site, _)| &site.entry);
    writer.text("site.id", "its id", of.map(|(site, _)| site.id.as_str()));
    writer.number("site.year", Unit::Each, "year of construction", typed.and_then(|it| slot_count(&it.year)));
    writer.vocabulary(
        "site.hazard",
        "what is known of hazardous material",
        typed.map(|it| it.hazard.or(HazardReport::Unknown)),
    );
    writer.slot("site.road", Unit::Mile, "road distance from the shop, one way", typed.map(|it| &it.road));
    writer.counted("site.openings", "openings there", here.as_ref().map(|(_, openings)| openings.len()));
    writer.counted("site.drives", "drives there", sum(|it| it.drives.len()));
    writer.counted("site.headers", "headers there", sum(|it| it.headers.len()));
    writer.counted("site.devices", "devices there", sum(|it| it.devices.len()));
    let panels = of.map(|(site, all)| all.panels.iter().filter(|it| it.site == site.id && it.id.is_some()).count());
    writer.counted("site.panels", "panels that feed a drive there", panels);
    writer
}

/// What a visit has in it.
#[derive(Clone, Debug)]
pub(in crate::takeoff) struct VisitLoad {
    /// Which visit.
    pub kind: VisitKind,
    /// Labor hours of its lines, as a quantity.
    pub hours: Quantity,
    /// Largest crew among its lines.
    pub people: u32,
}

/// Facts of a visit.
pub(in crate::takeoff) fn visit(of: Option<&VisitLoad>, site: &str) -> FactSetWriter {
    let about = of.map(|it| format!("the {} visit to {site}", it.kind.word()));
    let mut writer = FactSetWriter::new("visit", about);
    writer.vocabulary("visit.kind", "which visit", of.map(|it| it.kind));
    let reason = || Reason::Clause("sum of the visit's labor lines".into());
    writer.number("visit.hours", Unit::Hour, "labor hours in it", of.map(|it| (it.hours, reason())));
    let people = of.map(|it| (Quantity::count(it.people), Reason::Clause("largest crew among its lines".into())));
    writer.number("visit.people", Unit::Each, "people in its largest crew", people);
    writer
}
