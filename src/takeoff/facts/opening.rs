//! Facts of an opening and of its operator.
//!
//! In: an opening of the arrangement. Out: writers of their facts. May not know: rules.

use super::count;
use crate::catalog::{Operator, Substrate};
use crate::job::*;
use crate::measure::{Length, Unit};
use crate::takeoff::arrangement::{Form, LeafWork, OpeningWork};
use crate::takeoff::fact_set::FactSetWriter;

/// Facts of an opening.
pub(in crate::takeoff) fn opening(of: Option<&OpeningWork>) -> FactSetWriter {
    let mut writer = FactSetWriter::new("opening", of.map(|it| it.opening.mark.clone()));
    let typed = of.map(|it| &it.opening.entry);
    let forms: Vec<&str> = Form::ALL.iter().map(|form| form.word()).collect();
    writer.text("opening.mark", "the architect's mark", of.map(|it| it.opening.mark.as_str()));
    writer.word("opening.form", &forms, "single, pair or double egress", of.map(|it| it.form.word()));
    writer.vocabulary("opening.rating", "fire label", typed.map(|it| it.rating.or(Rating::None)));
    let release = typed.map(|it| it.alarm_release.or(false));
    writer.flag("opening.alarm_release", "whether the alarm releases it", release);
    writer.vocabulary("opening.exposure", "indoors or not", typed.map(|it| it.exposure.or(Exposure::Interior)));
    writer.vocabulary("opening.energy", "energy class", typed.and_then(|it| it.energy.cloned()));
    writer.vocabulary("opening.mount", "where the operator is mounted", typed.and_then(|it| it.mount.cloned()));
    writer.text("opening.finish", "finish", typed.and_then(|it| it.finish.get()).map(|it| it.as_str()));
    writer.text("opening.operator", "operator's id", of.map(|it| it.operator.map_or("", |it| it.id.as_str())));
    opening_counts(&mut writer, of);
    opening_site(&mut writer, of);
    writer
}

fn opening_counts(writer: &mut FactSetWriter, of: Option<&OpeningWork>) {
    let linked = |link: Link| of.map(|it| it.devices.iter().filter(|it| it.entry.link.or(Link::Wired) == link).count());
    writer.counted("opening.leaves", "leaves", of.map(|it| it.leaves.len()));
    writer.counted("opening.powered_leaves", "leaves that a drive moves", of.map(|it| it.powered_leaves()));
    writer.counted("opening.headers", "headers", of.map(|it| it.headers.len()));
    writer.counted("opening.drives", "drives", of.map(|it| it.drives.len()));
    writer.counted("opening.devices", "devices", of.map(|it| it.devices.len()));
    writer.counted("opening.wired_devices", "devices reached by cable", linked(Link::Wired));
    writer.counted("opening.wireless_devices", "devices reached by radio", linked(Link::Wireless));
    writer.counted("opening.surveyed", "survey passes recorded", of.map(|it| it.opening.surveys.len()));
}

fn opening_site(writer: &mut FactSetWriter, of: Option<&OpeningWork>) {
    let typed = of.map(|it| &it.opening.entry);
    let frame = typed.and_then(|it| it.frame.get());
    let list = typed.map(|it| it.conditions.list().to_vec());
    writer.words::<Condition>("opening.conditions", "conditions that change labor", list);
    let obstructions = || frame.map(|it| it.in_the_way.list()).unwrap_or_default();
    let which = |wanted: &dyn Fn(&ObstructionEntry) -> bool| {
        let found = || obstructions().iter().filter(|it| wanted(it)).filter_map(|it| it.what.cloned()).collect();
        typed.map(|_| found())
    };
    let all = which(&|_| true);
    writer.words::<InTheWay>("opening.in_the_way", "obstructions at header or arm", all);
    let removed = which(&|it| it.is_ours(Disposition::Remove));
    writer.words::<InTheWay>("opening.obstructions_removed", "obstructions that we take down", removed);
    let moved = which(&|it| it.is_ours(Disposition::Relocate));
    writer.words::<InTheWay>("opening.obstructions_relocated", "obstructions that we move", moved);
    let releases = of.map(|it| it.leaves.iter().filter(|leaf| leaf.powered).filter_map(LeafWork::release).collect());
    writer.words::<Release>("opening.releases", "releases of its powered leaves", releases);
    let power = typed.and_then(|it| it.power.get());
    let known = typed.map(|_| power.and_then(|it| it.known.cloned()).unwrap_or(PowerKnown::Assumed));
    writer.vocabulary("opening.power", "how well its power is known", known);
    let programs = typed.and_then(|it| it.access.get()).and_then(|it| it.programmed_by.get());
    writer.text("opening.programmed_by", "whose technician programs its access system", programs.map(|it| it.as_str()));
    let ceiling = typed.and_then(|it| it.ceiling.get());
    writer.vocabulary("opening.ceiling", "kind of ceiling", ceiling.and_then(|it| it.kind.cloned()));
    let returns = typed.map(|_| ceiling.map(|it| it.return_air.or(false)).unwrap_or(false));
    writer.flag("opening.return_air", "whether the space above the ceiling is a return-air plenum", returns);
    writer.slot("opening.ceiling_height", Unit::Foot, "height of the ceiling", ceiling.map(|it| &it.height));
    writer.flag("opening.vestibule", "whether it has a partner", typed.map(|it| it.vestibule.get().is_some()));
    let vestibule = typed.and_then(|it| it.vestibule.get());
    writer.slot(
        "opening.vestibule_distance",
        Unit::Foot,
        "clear distance to its partner",
        vestibule.map(|it| &it.distance),
    );
    let staged = typed.map(|it| it.device.list().iter().any(|it| it.live.get() == Some(&Live::Credential)));
    writer.flag("opening.staged", "whether a device waits for a credential", staged);
    writer.vocabulary("opening.frame", "what the frame is made of", frame.and_then(|it| it.made.cloned()));
    writer.slot("opening.frame_face", Unit::Inch, "face of the frame", frame.map(|it| &it.face));
    writer.slot("opening.frame_depth", Unit::Inch, "depth of the frame", frame.map(|it| &it.depth));
    writer.slot("opening.reveal", Unit::Inch, "reveal", frame.map(|it| &it.reveal));
    writer.slot("opening.head_room", Unit::Inch, "head room offered", frame.map(|it| &it.head_room));
    writer.slot("opening.face_clearance", Unit::Inch, "clearance offered", frame.map(|it| &it.face_clearance));
    let fixed = typed.map(|_| frame.and_then(|it| it.fixed_to.cloned()).unwrap_or(Substrate::Unknown));
    writer.vocabulary("opening.fixed_to", "what the header is fixed to", fixed);
}

/// Facts of an operator.
pub(in crate::takeoff) fn operator(of: Option<&Operator>) -> FactSetWriter {
    let mut writer = FactSetWriter::new("operator", of.map(|it| format!("operator {}", it.id)));
    let length = |value: fn(&Operator) -> Length| of.map(|it| (value(it), &it.place));
    writer.text("operator.id", "its id", of.map(|it| it.id.as_str()));
    writer.catalog("operator.height", Unit::Inch, "height of the header", length(|it| it.height));
    writer.catalog("operator.depth", Unit::Inch, "depth of the header", length(|it| it.depth));
    writer.text("operator.entry", "trade size of its holes", of.map(|it| it.entry.as_str()));
    writer.catalog("operator.volts", Unit::Volt, "volts", of.map(|it| (it.volts, &it.place)));
    writer.catalog("operator.amps", Unit::Ampere, "amps running", of.map(|it| (it.amps, &it.place)));
    writer.catalog("operator.peak", Unit::Ampere, "amps peak", of.map(|it| (it.peak, &it.place)));
    let accessory = of.and_then(|it| Some((it.accessory_amps?, &it.place)));
    writer.catalog("operator.accessory_amps", Unit::Ampere, "amps it gives to devices", accessory);
    let delivered = of.and_then(|it| Some((it.mechanics.as_ref()?.opens_in?, &it.place)));
    writer.catalog("operator.opens_in", Unit::Second, "opening time as delivered", delivered);
    let back = of.and_then(|it| Some((it.mechanics.as_ref()?.back_check?, &it.place)));
    writer.catalog("operator.back_check", Unit::Degree, "angle at which back-check starts, as delivered", back);
    writer.text("operator.closes_by", "what closes it without power", of.map(|it| it.closes_by.as_str()));
    let screws = of.map(|it| count(it.header_screws, &it.place));
    writer.number("operator.header_screws", Unit::Each, "its own number of screws of a header", screws);
    let screws = of.map(|it| count(it.arm_screws, &it.place));
    writer.number("operator.arm_screws", Unit::Each, "screws of an arm", screws);
    writer.flag("operator.two_drives", "whether a header takes two drives", of.map(|it| it.two_drives));
    writer.flag("operator.fire_listed", "whether it is listed for labeled openings", of.map(|it| it.fire_listed));
    writer.flag("operator.outdoors", "whether it is rated for outdoors", of.map(|it| it.outdoors));
    writer
}
