//! Facts of an opening and of its operator.
//!
//! In: an opening of the arrangement. Out: scribes. May not know: rules.

use super::count;
use crate::catalog::{Operator, Substrate};
use crate::job::*;
use crate::measure::{Length, Unit};
use crate::takeoff::arrangement::{Form, LeafWork, OpeningWork};
use crate::takeoff::book::Scribe;

/// Facts of an opening.
pub(in crate::takeoff) fn opening(of: Option<&OpeningWork>) -> Scribe {
    let mut scribe = Scribe::new("opening", of.map(|it| it.opening.mark.clone()));
    let typed = of.map(|it| &it.opening.entry);
    let forms: Vec<&str> = Form::ALL.iter().map(|form| form.word()).collect();
    scribe.text("opening.mark", "the architect's mark", of.map(|it| it.opening.mark.as_str()));
    scribe.word("opening.form", &forms, "single, pair or double egress", of.map(|it| it.form.word()));
    scribe.vocabulary("opening.rating", "fire label", typed.map(|it| it.rating.or(Rating::None)));
    let release = typed.map(|it| it.alarm_release.or(false));
    scribe.flag("opening.alarm_release", "whether the alarm releases it", release);
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
    scribe.words::<InTheWay>("opening.in_the_way", "obstructions at header or arm", list);
    let releases = of.map(|it| it.leaves.iter().filter(|leaf| leaf.powered).filter_map(LeafWork::release).collect());
    scribe.words::<Release>("opening.releases", "releases of its powered leaves", releases);
    let power = typed.and_then(|it| it.power.get());
    let known = typed.map(|_| power.and_then(|it| it.known.cloned()).unwrap_or(PowerKnown::Assumed));
    scribe.vocabulary("opening.power", "how well its power is known", known);
    let ceiling = typed.and_then(|it| it.ceiling.get());
    scribe.vocabulary("opening.ceiling", "kind of ceiling", ceiling.and_then(|it| it.kind.cloned()));
    let returns = typed.map(|_| ceiling.map(|it| it.return_air.or(false)).unwrap_or(false));
    scribe.flag("opening.return_air", "whether the space above the ceiling is a return-air plenum", returns);
    scribe.slot("opening.ceiling_height", Unit::Foot, "height of the ceiling", ceiling.map(|it| &it.height));
    scribe.flag("opening.vestibule", "whether it has a partner", typed.map(|it| it.vestibule.get().is_some()));
    let vestibule = typed.and_then(|it| it.vestibule.get());
    scribe.slot(
        "opening.vestibule_distance",
        Unit::Foot,
        "clear distance to its partner",
        vestibule.map(|it| &it.distance),
    );
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
pub(in crate::takeoff) fn operator(of: Option<&Operator>) -> Scribe {
    let mut scribe = Scribe::new("operator", of.map(|it| format!("operator {}", it.id)));
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
    let delivered = of.and_then(|it| Some((it.mechanics.as_ref()?.opens_in?, &it.place)));
    scribe.catalog("operator.opens_in", Unit::Second, "opening time as delivered", delivered);
    let back = of.and_then(|it| Some((it.mechanics.as_ref()?.back_check?, &it.place)));
    scribe.catalog("operator.back_check", Unit::Degree, "angle at which back-check starts, as delivered", back);
    scribe.text("operator.closes_by", "what closes it without power", of.map(|it| it.closes_by.as_str()));
    let screws = of.map(|it| count(it.header_screws, &it.place));
    scribe.number("operator.header_screws", Unit::Each, "its own number of screws of a header", screws);
    let screws = of.map(|it| count(it.arm_screws, &it.place));
    scribe.number("operator.arm_screws", Unit::Each, "screws of an arm", screws);
    scribe.flag("operator.two_drives", "whether a header takes two drives", of.map(|it| it.two_drives));
    scribe.flag("operator.fire_listed", "whether it is listed for labeled openings", of.map(|it| it.fire_listed));
    scribe.flag("operator.outdoors", "whether it is rated for outdoors", of.map(|it| it.outdoors));
    scribe
}
