//! Which facts each entity has, and their values: one function an entity, for sheet and values alike.
//!
//! In: entities of the arrangement. Out: scribes with sheets and books. May not know: which rules ask.

use rust_decimal::Decimal;

use super::arrangement::{
    Arrangement, BoxFor, BoxWork, DeviceWork, DriveWork, FixingWork, Form, GroupWork, HeaderWork, LeafWork, OpeningWork,
};
use super::book::Scribe;
use super::circuits::{CircuitWork, PanelWork};
use super::routes::RunWork;
use crate::catalog::{Catalog, Operator, Profile, VisitKind};
use crate::engineering::{Edge, Hand, low_energy_time};
use crate::findings::Place;
use crate::job::*;
use crate::ledger::Reason;
use crate::measure::{Length, Measure, Quantity, Unit, Weight};

fn entry(place: &Place) -> Reason {
    Reason::Entry { place: place.clone(), standing: String::new() }
}

fn count(value: u32, place: &Place) -> (Quantity, Reason) {
    (Quantity::count(value), entry(place))
}

/// The word for an end of a header.
pub fn edge_word(edge: Edge) -> &'static str {
    match edge {
        Edge::Left => "left",
        Edge::Right => "right",
    }
}

fn slot_count(slot: &crate::reading::Slot<crate::reading::Count>) -> Option<(Quantity, Reason)> {
    slot.given().map(|given| count(given.value.get(), &given.place))
}

/// Facts of the job and of the owner's profile, which every sheet holds.
pub(super) fn job(of: Option<(&Arrangement, &Job, &Catalog)>) -> Scribe {
    let mut scribe = Scribe::new("job", of.map_or(String::new(), |(_, job, _)| format!("job {}", job.head.number)));
    let all = of.map(|(it, _, _)| it);
    let sum = |count: fn(&OpeningWork) -> usize| all.map(|it| it.openings.iter().map(count).sum());
    scribe.counted("job.sites", "sites of the bid", all.map(|it| it.sites.len()));
    scribe.counted("job.openings", "openings of the bid", all.map(|it| it.openings.len()));
    scribe.counted("job.leaves", "leaves", sum(|it| it.leaves.len()));
    scribe.counted("job.powered_leaves", "leaves that a drive moves", sum(|it| it.powered_leaves()));
    scribe.counted("job.drives", "drives", sum(|it| it.drives.len()));
    scribe.counted("job.headers", "headers", sum(|it| it.headers.len()));
    scribe.counted("job.devices", "devices", sum(|it| it.devices.len()));
    let profile: Option<&Profile> = of.and_then(|(_, job, catalog)| catalog.profiles.get(&job.head.profile));
    let months = profile.map(|it| count(it.warranty_months, &it.place));
    scribe.number("profile.warranty_months", Unit::Each, "months of warranty", months);
    scribe.text("profile.least_raceway", "least trade size", profile.map(|it| it.least_raceway.as_str()));
    scribe.flag("profile.tax_exempt", "whether the owner's material is free of tax", profile.map(|it| it.tax_exempt));
    scribe.flag("profile.bond", "whether bonds are asked for", profile.map(|it| it.bond));
    let standby = of.map(|(_, job, catalog)| {
        job.head.jurisdictions.iter().filter_map(|id| catalog.jurisdictions.get(id)).any(|it| it.standby_power)
    });
    scribe.flag("jurisdiction.standby_power", "whether the jurisdiction asks for standby power", standby);
    scribe
}

/// Facts of a site.
pub(super) fn site(of: Option<(&Site, &Arrangement)>) -> Scribe {
    let mut scribe = Scribe::new("site", of.map_or(String::new(), |(site, _)| format!("site {}", site.name)));
    let here = of.map(|(site, all)| (site, all.openings_of(&site.id).collect::<Vec<_>>()));
    let sum =
        |count: fn(&OpeningWork) -> usize| here.as_ref().map(|(_, openings)| openings.iter().map(|it| count(it)).sum());
    let typed = of.map(|(site, _)| &site.entry);
    scribe.text("site.id", "its id", of.map(|(site, _)| site.id.as_str()));
    scribe.number("site.year", Unit::Each, "year of construction", typed.and_then(|it| slot_count(&it.year)));
    scribe.vocabulary("site.hazard", "what is known of hazardous material", typed.and_then(|it| it.hazard.cloned()));
    scribe.slot("site.road", Unit::Mile, "road distance from the shop, one way", typed.map(|it| &it.road));
    scribe.counted("site.openings", "openings there", here.as_ref().map(|(_, openings)| openings.len()));
    scribe.counted("site.drives", "drives there", sum(|it| it.drives.len()));
    scribe.counted("site.headers", "headers there", sum(|it| it.headers.len()));
    scribe.counted("site.devices", "devices there", sum(|it| it.devices.len()));
    let panels = of.map(|(site, all)| all.panels.iter().filter(|it| it.site == site.id && it.id.is_some()).count());
    scribe.counted("site.panels", "panels that feed a drive there", panels);
    scribe
}

/// What a visit has in it.
#[derive(Clone, Debug)]
pub(super) struct VisitLoad {
    /// Which visit.
    pub kind: VisitKind,
    /// Labor hours of its lines, as a quantity.
    pub hours: Quantity,
    /// Largest crew among its lines.
    pub people: u32,
}

/// Facts of a visit.
pub(super) fn visit(of: Option<&VisitLoad>, site: &str) -> Scribe {
    let about = of.map_or(String::new(), |it| format!("the {} visit to {site}", it.kind.word()));
    let mut scribe = Scribe::new("visit", about);
    scribe.vocabulary("visit.kind", "which visit", of.map(|it| it.kind));
    let reason = || Reason::Clause("sum of the visit's labor lines".to_owned());
    scribe.number("visit.hours", Unit::Hour, "labor hours in it", of.map(|it| (it.hours, reason())));
    let people = of.map(|it| (Quantity::count(it.people), Reason::Clause("largest crew among its lines".to_owned())));
    scribe.number("visit.people", Unit::Each, "people in its largest crew", people);
    scribe
}

/// Facts of a panel.
pub(super) fn panel(of: Option<(&PanelWork, &Job)>) -> Scribe {
    let id = of.map(|(it, _)| it.id.as_deref().unwrap_or("(no panel yet)"));
    let mut scribe = Scribe::new("panel", id.map_or(String::new(), |id| format!("panel {id}")));
    let typed = of.and_then(|(it, job)| job.panels.get(it.id.as_ref()?));
    scribe.text("panel.id", "its id", id);
    let free = typed.and_then(|it| slot_count(&it.entry.free));
    scribe.number("panel.free", Unit::Each, "spaces free", free);
    scribe.counted("panel.circuits", "circuits it must feed", of.map(|(it, _)| it.circuits));
    scribe.counted("panel.shortfall", "circuits without a space", of.and_then(|(it, _)| it.shortfall()));
    scribe.vocabulary("panel.known", "how well it is known", typed.and_then(|it| it.entry.known.cloned()));
    scribe
}

/// Facts of a circuit.
pub(super) fn circuit(of: Option<(&CircuitWork, &str, &Place)>) -> Scribe {
    let about = of.map_or(String::new(), |(it, panel, _)| format!("circuit {panel}-{}", it.number));
    let mut scribe = Scribe::new("circuit", about);
    let circuit = of.map(|(it, _, place)| (it, place));
    scribe.counted("circuit.drives", "drives on it", circuit.map(|(it, _)| it.drives));
    scribe.counted("circuit.headers", "headers on it", circuit.map(|(it, _)| it.headers.len()));
    let amps = circuit.and_then(|(it, place)| Some((it.amps?, place)));
    scribe.catalog("circuit.amps", Unit::Ampere, "running amps", amps);
    let volts = circuit.and_then(|(it, place)| Some((it.volts?, place)));
    scribe.catalog("circuit.volts", Unit::Volt, "volts", volts);
    scribe.vocabulary("circuit.known", "how well the power is known", circuit.and_then(|(it, _)| it.known));
    scribe
}

/// Facts of a run.
pub(super) fn run(of: Option<&RunWork>) -> Scribe {
    let mut scribe = Scribe::new("run", of.map_or(String::new(), |it| it.name()));
    let typed = of.map(|it| it.run);
    scribe.vocabulary("run.kind", "kind of raceway", typed.map(|it| it.kind));
    scribe.vocabulary("run.class", "what it carries", typed.map(|it| it.class));
    scribe.vocabulary("run.size", "trade size", of.map(|it| it.size));
    scribe.slot("run.length", Unit::Foot, "length along the route", typed.map(|it| &it.entry.length));
    scribe.counted("run.bends", "bends", typed.map(|it| it.bends.len()));
    let by_rule = |value: u32, rule: &str| (Quantity::count(value), Reason::Clause(rule.to_owned()));
    let supports = of.map(|it| by_rule(it.supports, "NEC 358.30, 348.30: fastened near each end and at intervals"));
    scribe.number("run.supports", Unit::Each, "supports", supports);
    let boxes = of.map(|it| by_rule(it.pull_boxes, "NEC 358.26: 360 degrees between pull points, from memory"));
    scribe.number("run.pull_boxes", Unit::Each, "pull boxes that its bends ask for", boxes);
    let connectors = of.map(|it| by_rule(it.connectors, "one at each end and at each side of a pull box"));
    scribe.number("run.connectors", Unit::Each, "connectors", connectors);
    let couplings = of.map(|it| by_rule(it.couplings, "one for each full stick of 10 ft"));
    scribe.number("run.couplings", Unit::Each, "couplings", couplings);
    let walls = typed.map(|it| slot_count(&it.entry.rated_walls).unwrap_or_else(|| count(0, &it.place)));
    scribe.number("run.rated_walls", Unit::Each, "rated walls and floors it goes through", walls);
    let cores = typed.map(|it| slot_count(&it.entry.cores).unwrap_or_else(|| count(0, &it.place)));
    scribe.number("run.cores", Unit::Each, "cores drilled", cores);
    scribe.flag("run.wet", "whether it is outdoors or wet", typed.map(|it| it.entry.wet.or(false)));
    scribe.flag("run.plenum", "whether its space returns air", typed.map(|it| it.entry.plenum.or(false)));
    scribe.counted("run.circuits", "line circuits on it", of.map(|it| it.circuits.len()));
    scribe.counted("run.cables", "device cables on it", of.map(|it| it.cables.len()));
    scribe
}

/// Facts of an opening.
pub(super) fn opening(of: Option<&OpeningWork>) -> Scribe {
    let mut scribe = Scribe::new("opening", of.map_or(String::new(), |it| it.opening.mark.clone()));
    let typed = of.map(|it| &it.opening.entry);
    let forms: Vec<&str> = Form::ALL.iter().map(|form| form.word()).collect();
    scribe.text("opening.mark", "the architect's mark", of.map(|it| it.opening.mark.as_str()));
    scribe.word("opening.form", &forms, "single, pair or double egress", of.map(|it| it.form.word()));
    scribe.vocabulary("opening.rating", "fire label", typed.map(|it| it.rating.or(Rating::None)));
    let release = typed.map(|it| it.alarm_release.or(false));
    scribe.flag("opening.alarm_release", "whether the alarm lets it go", release);
    scribe.vocabulary("opening.exposure", "indoors or not", typed.map(|it| it.exposure.or(Exposure::Interior)));
    scribe.vocabulary("opening.energy", "energy class", typed.and_then(|it| it.energy.cloned()));
    scribe.vocabulary("opening.mount", "where the operator is mounted", typed.and_then(|it| it.mount.cloned()));
    scribe.text("opening.finish", "finish", typed.and_then(|it| it.finish.get()).map(|it| it.as_str()));
    scribe.text("opening.operator", "operator's id", of.map(|it| it.operator.map_or("", |it| it.id.as_str())));
    opening_counts(&mut scribe, of);
    opening_site(&mut scribe, of);
    scribe
}

fn opening_counts(scribe: &mut Scribe, of: Option<&OpeningWork>) {
    let linked = |link: Link| of.map(|it| it.devices.iter().filter(|it| it.entry.link.or(Link::Wired) == link).count());
    scribe.counted("opening.leaves", "leaves", of.map(|it| it.leaves.len()));
    scribe.counted("opening.powered_leaves", "leaves that a drive moves", of.map(|it| it.powered_leaves()));
    scribe.counted("opening.headers", "headers", of.map(|it| it.headers.len()));
    scribe.counted("opening.drives", "drives", of.map(|it| it.drives.len()));
    scribe.counted("opening.devices", "devices", of.map(|it| it.devices.len()));
    scribe.counted("opening.wired_devices", "devices reached by cable", linked(Link::Wired));
    scribe.counted("opening.wireless_devices", "devices reached by radio", linked(Link::Wireless));
    scribe.counted("opening.surveyed", "survey passes recorded", of.map(|it| it.opening.surveys.len()));
}

fn opening_site(scribe: &mut Scribe, of: Option<&OpeningWork>) {
    let typed = of.map(|it| &it.opening.entry);
    let frame = typed.and_then(|it| it.frame.get());
    let list = typed.map(|it| it.conditions.list().to_vec());
    scribe.words::<Condition>("opening.conditions", "conditions that change labor", list);
    let list = typed.map(|_| frame.map(|it| it.in_the_way.list().to_vec()).unwrap_or_default());
    scribe.words::<InTheWay>("opening.in_the_way", "what hangs in the way", list);
    let releases = of.map(|it| it.leaves.iter().filter(|leaf| leaf.powered).filter_map(LeafWork::release).collect());
    scribe.words::<Release>("opening.releases", "releases of its powered leaves", releases);
    let power = typed.and_then(|it| it.power.get());
    let known = typed.map(|_| power.and_then(|it| it.known.cloned()).unwrap_or(PowerKnown::Assumed));
    scribe.vocabulary("opening.power", "how well its power is known", known);
    let ceiling = typed.and_then(|it| it.ceiling.get());
    scribe.vocabulary("opening.ceiling", "kind of ceiling", ceiling.and_then(|it| it.kind.cloned()));
    let returns = typed.map(|_| ceiling.map(|it| it.return_air.or(false)).unwrap_or(false));
    scribe.flag("opening.return_air", "whether the space above the ceiling returns air", returns);
    scribe.slot("opening.ceiling_height", Unit::Foot, "height of the ceiling", ceiling.map(|it| &it.height));
    scribe.flag("opening.vestibule", "whether it has a partner", typed.map(|it| it.vestibule.get().is_some()));
    let staged = typed.map(|it| it.device.list().iter().any(|it| it.live.get() == Some(&Live::Credential)));
    scribe.flag("opening.staged", "whether a device waits for a credential", staged);
    scribe.vocabulary("opening.frame", "what the frame is made of", frame.and_then(|it| it.made.cloned()));
    scribe.slot("opening.frame_face", Unit::Inch, "face of the frame", frame.map(|it| &it.face));
    scribe.slot("opening.frame_depth", Unit::Inch, "depth of the frame", frame.map(|it| &it.depth));
    scribe.slot("opening.reveal", Unit::Inch, "reveal", frame.map(|it| &it.reveal));
    scribe.slot("opening.head_room", Unit::Inch, "head room offered", frame.map(|it| &it.head_room));
    scribe.slot("opening.face_clearance", Unit::Inch, "clearance offered", frame.map(|it| &it.face_clearance));
    let fixed = typed.map(|_| frame.and_then(|it| it.fixed_to.cloned()).unwrap_or(Substrate::Unknown));
    scribe.vocabulary("opening.fixed_to", "what the header is fixed to", fixed);
}

/// Facts of an operator.
pub(super) fn operator(of: Option<&Operator>) -> Scribe {
    let mut scribe = Scribe::new("operator", of.map_or(String::new(), |it| format!("operator {}", it.id)));
    let length = |value: fn(&Operator) -> Length| of.map(|it| (value(it), &it.place));
    scribe.text("operator.id", "its id", of.map(|it| it.id.as_str()));
    scribe.catalog("operator.height", Unit::Inch, "height of the header", length(|it| it.height));
    scribe.catalog("operator.depth", Unit::Inch, "depth of the header", length(|it| it.depth));
    scribe.text("operator.entry", "trade size of its holes", of.map(|it| it.entry.as_str()));
    scribe.catalog("operator.volts", Unit::Volt, "volts", of.map(|it| (it.volts, &it.place)));
    scribe.catalog("operator.amps", Unit::Ampere, "amps running", of.map(|it| (it.amps, &it.place)));
    scribe.catalog("operator.peak", Unit::Ampere, "amps peak", of.map(|it| (it.peak, &it.place)));
    let accessory = of.and_then(|it| Some((it.accessory_amps?, &it.place)));
    scribe.catalog("operator.accessory_amps", Unit::Ampere, "amps it gives to devices", accessory);
    scribe.text("operator.closes_by", "what closes it without power", of.map(|it| it.closes_by.as_str()));
    let screws = of.map(|it| count(it.header_screws, &it.place));
    scribe.number("operator.header_screws", Unit::Each, "screws of the header", screws);
    let screws = of.map(|it| count(it.arm_screws, &it.place));
    scribe.number("operator.arm_screws", Unit::Each, "screws of an arm", screws);
    scribe.flag("operator.two_drives", "whether a header takes two drives", of.map(|it| it.two_drives));
    scribe.flag("operator.fire_listed", "whether it may stand on a labelled opening", of.map(|it| it.fire_listed));
    scribe.flag("operator.outdoors", "whether it may stand outdoors", of.map(|it| it.outdoors));
    scribe
}

/// Facts of a leaf.
pub(super) fn leaf(of: Option<(&LeafWork, &str)>) -> Scribe {
    let mut scribe = Scribe::new("leaf", of.map_or(String::new(), |(it, mark)| format!("{mark}, leaf {}", it.number)));
    let typed = of.map(|(it, _)| it.entry);
    scribe.counted("leaf.number", "its number, from 1", of.map(|(it, _)| it.number));
    scribe.slot("leaf.width", Unit::Inch, "width", typed.map(|it| &it.width));
    scribe.slot("leaf.height", Unit::Inch, "height", typed.map(|it| &it.height));
    scribe.slot("leaf.thickness", Unit::Inch, "thickness", typed.map(|it| &it.thickness));
    scribe.slot("leaf.stile", Unit::Inch, "width of the stile", typed.map(|it| &it.stile));
    scribe.number("leaf.weight", Unit::Pound, "weight, given or estimated", of.and_then(|(it, _)| leaf_weight(it)));
    scribe.vocabulary("leaf.made", "what it is made of", typed.and_then(|it| it.made.cloned()));
    scribe.number("leaf.gauge", Unit::Each, "sheet gauge", typed.and_then(|it| slot_count(&it.gauge)));
    scribe.vocabulary("leaf.hangs", "how it hangs", typed.and_then(|it| it.hangs.cloned()));
    scribe.vocabulary("leaf.role", "its part in a pair", typed.map(|it| it.role.or(LeafRole::Active)));
    scribe.flag("leaf.powered", "whether a drive moves it", of.map(|(it, _)| it.powered));
    scribe.vocabulary("leaf.arm", "its arm", typed.and_then(|it| it.arm.cloned()));
    let angle = typed.and_then(|it| it.opens_to.given());
    let angle = angle.map(|it| (Quantity::count(it.value.to_degrees()), entry(&it.place)));
    scribe.number("leaf.opens_to", Unit::Each, "open angle in degrees", angle);
    scribe.vocabulary("leaf.stopped_by", "what stops it", typed.map(|it| it.stopped_by.or(StoppedBy::Drive)));
    scribe.vocabulary("leaf.latch", "what latches it", typed.and_then(|it| it.latch.cloned()));
    scribe.vocabulary("leaf.release", "what lets the latch go", of.and_then(|(it, _)| it.release()));
    scribe.flag("leaf.wire_chase", "whether it has a way for wires", typed.map(|it| it.wire_chase.or(false)));
    let hands: Vec<&str> = Hand::ALL.iter().map(|hand| hand.letters()).collect();
    scribe.word("leaf.hand", &hands, "its hand", of.and_then(|(it, _)| it.hand).map(Hand::letters));
    let by = |becomes: Disposition| {
        let typed = typed?;
        let matching = typed.existing.list().iter().filter(|it| it.becomes.get() == Some(&becomes));
        Some(matching.filter_map(|it| it.what.cloned()).collect::<Vec<ExistingKind>>())
    };
    scribe.words("leaf.removes", "hardware that we take off", by(Disposition::Remove));
    scribe.words("leaf.relocates", "hardware that we move", by(Disposition::Relocate));
    scribe.words("leaf.reuses", "hardware that stays", by(Disposition::Reuse));
    scribe.words("leaf.left_to_others", "hardware that others deal with", by(Disposition::Others));
    scribe
}

fn leaf_weight(leaf: &LeafWork) -> Option<(Quantity, Reason)> {
    let known = leaf.weight.as_ref()?;
    let reason = match (&known.estimated, leaf.entry.weight.given()) {
        (None, Some(given)) => {
            Reason::Entry { place: given.place.clone(), standing: super::book::standing_words(&given.standing) }
        }
        (basis, _) => Reason::Clause(format!("estimated from {}", basis.as_deref().unwrap_or("what it is made of"))),
    };
    Some((known.weight.quantity(), reason))
}

/// Facts of a header.
pub(super) fn header(of: Option<(&HeaderWork, &OpeningWork)>) -> Scribe {
    let about = of.map_or(String::new(), |(it, opening)| format!("{}, header {}", opening.opening.mark, it.number));
    let mut scribe = Scribe::new("header", about);
    let width = of.and_then(|(it, opening)| Some((it.leaf_width?.quantity(), width_reason(it, opening)?)));
    scribe.number("header.leaf_width", Unit::Inch, "sum of the leaf widths it spans", width);
    scribe.counted("header.leaves", "leaves it spans", of.map(|(it, _)| it.leaves.len()));
    scribe.counted("header.drives", "drives in it", of.map(|(it, _)| it.drives.len()));
    scribe.vocabulary("header.side", "side of the opening it hangs on", of.and_then(|(it, _)| it.side));
    let supply = of.and_then(|(it, _)| it.supply_end).map(edge_word);
    scribe.word(
        "header.supply_end",
        &Edge::ALL.map(edge_word),
        "end at which power enters, seen from its room",
        supply,
    );
    let weight = of.and_then(|(it, opening)| header_weight(it, opening));
    scribe.number("header.weight", Unit::Pound, "weight with its drives", weight);
    scribe
}

/// The reason of a sum of widths: the first leaf's own entry.
fn width_reason(header: &HeaderWork, opening: &OpeningWork) -> Option<Reason> {
    let given = opening.leaves.get(*header.leaves.first()?)?.entry.width.given()?;
    let standing = super::book::standing_words(&given.standing);
    Some(Reason::Entry { place: given.place.clone(), standing })
}

/// Weight of a header with its drives: so much a foot over the leaf widths, and each drive.
pub(super) fn header_weight(header: &HeaderWork, opening: &OpeningWork) -> Option<(Quantity, Reason)> {
    let operator = opening.operator?;
    let feet = header.leaf_width?.to_feet();
    let per_foot = operator.header_weight.number_of(Unit::Pound)?.checked_mul(feet)?;
    let drives = operator.drive_weight.number_of(Unit::Pound)?.checked_mul(Decimal::from(header.drives.len()))?;
    let weight = Weight::new(per_foot.checked_add(drives)?, Unit::Pound)?;
    let basis = "header weight a foot over the leaf widths, and each drive, by the catalog's operator";
    Some((weight.quantity(), Reason::Clause(basis.to_owned())))
}

/// Facts of a drive.
pub(super) fn drive(of: Option<(&DriveWork, &OpeningWork)>) -> Scribe {
    let about = of.map_or(String::new(), |(it, opening)| format!("{}, drive {}", opening.opening.mark, it.number));
    let mut scribe = Scribe::new("drive", about);
    scribe.vocabulary("drive.arm", "its arm", of.and_then(|(it, _)| it.arm));
    let end = of.and_then(|(it, _)| it.end).map(edge_word);
    scribe.word("drive.end", &Edge::ALL.map(edge_word), "end of the header it stands at, seen from its room", end);
    let time = of.and_then(|(it, opening)| {
        let leaf = &opening.leaves[it.leaf];
        let time = low_energy_time(*leaf.entry.width.get()?, leaf.weight.as_ref()?.weight)?.required;
        let clause =
            "low-energy opening time to backcheck or 80 degrees, from memory: D √W / 133, up to the half second";
        Some((time.quantity(), Reason::Clause(clause.to_owned())))
    });
    scribe.number("drive.opening_time", Unit::Second, "least opening time of a low-energy leaf", time);
    scribe
}

/// Facts of a device.
pub(super) fn device(of: Option<(&DeviceWork, &str)>) -> Scribe {
    let mut scribe = Scribe::new("device", of.map_or(String::new(), |(it, mark)| format!("device {mark}/{}", it.id)));
    let typed = of.map(|(it, _)| it.entry);
    device_words(&mut scribe, "device", typed);
    let place = typed.and_then(|it| it.written_at.as_ref());
    let height = of.and_then(|(it, _)| it.height).zip(place);
    scribe.catalog("device.height", Unit::Inch, "height of its center", height);
    scribe.slot("device.distance", Unit::Inch, "distance from the leaf's edge", typed.map(|it| &it.distance));
    scribe
}

/// Facts of a device group.
pub(super) fn group(of: Option<(&GroupWork, &str)>) -> Scribe {
    let about = of.map_or(String::new(), |(it, mark)| format!("device group {mark}/{}", it.id));
    let mut scribe = Scribe::new("device group", about);
    device_words(&mut scribe, "group", of.map(|(it, _)| it.entry));
    scribe.counted("group.devices", "devices it makes", of.map(|(it, _)| it.devices));
    scribe
}

fn device_words(scribe: &mut Scribe, prefix: &str, typed: Option<&DeviceEntry>) {
    let name = |rest: &str| format!("{prefix}.{rest}");
    scribe.vocabulary(&name("kind"), "what it is", typed.and_then(|it| it.kind.cloned()));
    scribe.vocabulary(&name("side"), "side it stands on", typed.and_then(|it| it.side.cloned()));
    scribe.vocabulary(&name("link"), "how it reaches the operator", typed.map(|it| it.link.or(Link::Wired)));
    scribe.vocabulary(&name("mount"), "what it is fixed to", typed.and_then(|it| it.mount.cloned()));
    scribe.vocabulary(&name("live"), "when it works", typed.map(|it| it.live.or(Live::Always)));
    scribe.flag(&name("ours"), "whether we furnish it", typed.map(|it| it.by.is_absent()));
}

/// Facts of a box.
pub(super) fn outlet(of: Option<(&BoxWork, &OpeningWork)>) -> Scribe {
    let about = of.map_or(String::new(), |(it, opening)| it.name(opening));
    let mut scribe = Scribe::new("box", about);
    let header = of.map(|(it, _)| matches!(it.of, BoxFor::Header(_)));
    let pick = |yes: &'static str, no: &'static str| header.map(|header| if header { yes } else { no });
    scribe.word("box.for", &["device", "header"], "what it is for", pick("header", "device"));
    scribe.word("box.class", &["line", "low"], "what is in it", pick("line", "low"));
    let mounts: Vec<&str> = DeviceMount::ALL.iter().map(|it| it.word()).collect();
    scribe.word("box.mount", &mounts, "what it is fixed to", of.map(|(it, _)| it.mount));
    scribe
}

/// Facts of a fixing.
pub(super) fn fixing(of: Option<(&FixingWork, &OpeningWork)>) -> Scribe {
    let about = of.map_or(String::new(), |(it, opening)| it.name(opening));
    let mut scribe = Scribe::new("fixing", about);
    let is_header = of.map(|(it, _)| matches!(it, FixingWork::Header(_)));
    let word = is_header.map(|header| if header { "header" } else { "arm" });
    scribe.word("fixing.of", &["header", "arm"], "what it fixes", word);
    let substrate = of.and_then(|(it, opening)| it.substrate(opening));
    scribe.vocabulary("fixing.substrate", "what a header goes into", substrate);
    scribe.vocabulary("fixing.leaf_made", "what an arm goes into", of.and_then(|(it, opening)| it.leaf_made(opening)));
    let screws = of.and_then(|(it, opening)| it.screws(opening)).map(|(it, place)| count(it, place));
    scribe.number("fixing.screws", Unit::Each, "fasteners needed", screws);
    let kit = of.and_then(|(it, opening)| it.kit(opening)).map(|(it, place)| count(it, place));
    scribe.number("fixing.kit", Unit::Each, "fasteners the kit gives", kit);
    let short = of.and_then(|(it, opening)| {
        let (screws, place) = it.screws(opening)?;
        Some(count(screws.saturating_sub(it.kit(opening)?.0), place))
    });
    scribe.number("fixing.short", Unit::Each, "fasteners needed beyond the kit", short);
    scribe
}
