//! Facts of power, raceway and cable that a complete job states: the panel, the way of every cable, what is on that way.
//!
//! In: openings and runs of a job. Out: findings of the codes below, one a site. May not know: prices.
//!
//! A catalog without a rule per run prices wiring in another way; then no route is missed.

use rustc_hash::FxHashMap;

use super::super::absence::{AbsenceCheck, DependentWork, Lacking};
use super::super::access::wired;
use super::{Check, CheckScope, OpeningContext};
use crate::catalog::Entity;
use crate::engineering::RunGraph;
use crate::findings::{Code, Papers, Severity};
use crate::job::{DeviceEntry, DeviceMount, Exposure, PowerKnown, Rating, Run, RunClass, RunEnd, RunKind, Side};
use crate::review::contexts::side_word;

/// A powered opening without a panel.
pub(in crate::review) static PANEL_MISSING: Check = Check {
    code: &Code {
        id: "panel-missing",
        severity: Severity::Warning,
        says: "no panel named for {found}; {asked}",
        why: "Spaces, breakers, the directory and the route depend on the panel. A circuit from an unnamed panel is \
              priced as if it had room for it.",
        example: "power = { known = \"drawn\" }   # and no panel",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_panel,
        assumed: "assumed: a panel with free spaces on the site",
        depends: DependentWork::Power,
        advise: "write power = { panel = \"…\" } of the opening",
        question: Some("Which panel feeds these openings?"),
    }),
};

/// A header that no line run reaches.
pub(in crate::review) static LINE_ROUTE_MISSING: Check = Check {
    code: &Code {
        id: "line-route-missing",
        severity: Severity::Warning,
        says: "no run from a panel to the header: {found}; {asked}",
        why: "Raceway, conductors, fittings, supports, penetrations and their labor follow the run. Without it a bid that \
              includes wiring holds none of these.",
        example: "power = { known = \"seen\", panel = \"LP-1\" }   # and no [[run]] from LP-1 to the opening",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_line_run,
        assumed: "assumed: brought to the header by others",
        depends: DependentWork::LeftOut,
        advise: "add [[run]] with from = the panel, to = the opening, class = \"line\"",
        question: Some("Who brings line voltage to these headers, and from which panel?"),
    }),
};

/// A wired device that no low-voltage run reaches.
pub(in crate::review) static DEVICE_ROUTE_MISSING: Check = Check {
    code: &Code {
        id: "device-route-missing",
        severity: Severity::Warning,
        says: "no run from the header to a wired device: {found}; {asked}",
        why: "The cable of a device and its raceway follow its run. Without it the device has a box and no cable.",
        example: "device = [{ id = \"P1\", kind = \"push plate\", side = \"outside\", mount = \"wall\" }]   # and no [[run]] to 101/P1",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_device_run,
        assumed: "assumed: cable by others",
        depends: DependentWork::LeftOut,
        advise: "add [[run]] from the opening to the device with class = \"low\"; or link = \"wireless\", or by = \"…\"",
        question: Some("Who furnishes cable and raceway to these devices?"),
    }),
};

/// A header or a device to which the catalog assumes the route.
pub(in crate::review) static ROUTE_ASSUMED: Check = Check {
    code: &Code {
        id: "route-assumed",
        severity: Severity::Warning,
        says: "route not laid out: {found}; {asked}",
        why: "Raceway, conductors, fittings, supports and their labor follow the route. Where none is typed, the catalog's allowance \
              is in the bid; walls, cores and trenches of the real way are not.",
        example: "power = { known = \"seen\", panel = \"LP-1\" }   # no [[run]], and the catalog has an [assumed_route.…]",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: with_assumed_run,
        assumed: "assumed: the length that we carry for such a route, through no rated wall",
        depends: DependentWork::AssumedRuns,
        advise: "lay the route out, then add a [[run]] with the same two ends",
        question: Some(
            "What are the routes to these headers and devices, their lengths, and the walls they go through?",
        ),
    }),
};

/// A device at the end of a run of line voltage.
pub(in crate::review) static DEVICE_RUN_LINE: Check = Check {
    code: &Code {
        id: "device-run-line",
        severity: Severity::Warning,
        says: "the run to a wired device is of class line: {found}; {asked}",
        why: "The cable of a device goes on runs of low voltage alone; on a run of class line none is taken off.",
        example: "[[run]]\nfrom = \"101\"\nto = \"101/P1\"\nclass = \"line\"",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: on_line_run,
        assumed: "the cable of the device is left out",
        depends: DependentWork::LeftOut,
        advise: "write class = \"low\" of the run",
        question: None,
    }),
};

/// Raceway whose bends are not stated.
pub(in crate::review) static BENDS_UNKNOWN: Check = Check {
    code: &Code {
        id: "bends-unknown",
        severity: Severity::Warning,
        says: "bends of raceway not stated: {found}; {asked}",
        why: "Bending is labor, and beyond 360 degrees between boxes a pull box is required.",
        example: "[[run]]\nfrom = \"LP-1\"\nto = \"101\"\nkind = \"EMT\"\nlength = \"38 ft\"\nclass = \"line\"   # and no bends",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_bends,
        assumed: "assumed: straight, no pull box",
        depends: DependentWork::LeftOut,
        advise: "write bends = [90, 90], or bends = [] for a straight run",
        question: None,
    }),
};

/// A run into a rated wall, and nothing said of going through it.
pub(in crate::review) static RATED_WALLS_UNKNOWN: Check = Check {
    code: &Code {
        id: "rated-walls-unknown",
        severity: Severity::FieldVerify,
        says: "confirm penetrations of the rated wall at labeled openings: {found}; {asked}",
        why: "A labeled opening is in a rated wall. A line run to its header, and a cable to a device on the other side of \
              it, may go through that wall, and each penetration is firestopped.",
        example: "rating = \"90 min\"   # and a [[run]] to the opening without rated_walls",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_rated_walls,
        assumed: "assumed: no penetration",
        depends: DependentWork::LeftOut,
        advise: "write rated_walls of the run, 0 where it goes through none",
        question: Some("Which walls and floors along these routes are fire-rated?"),
    }),
};

/// Cable under a ceiling that returns air, and nothing said of its rating.
pub(in crate::review) static PLENUM_UNKNOWN: Check = Check {
    code: &Code {
        id: "plenum-unknown",
        severity: Severity::Warning,
        says: "low-voltage run at a ceiling that returns air, plenum not stated: {found}; {asked}",
        why: "Cable in a space that returns air is plenum-rated (NEC 300.22(C), secondary), and costs more.",
        example: "ceiling = { kind = \"lay-in\", return_air = true }   # and a low-voltage [[run]] without plenum",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_plenum,
        assumed: "assumed: cable without that rating",
        depends: DependentWork::LeftOut,
        advise: "write plenum = true or false of the run",
        question: Some("Does the space above these ceilings return air along the route of the cables?"),
    }),
};

/// A run that may be in the weather, and nothing said of it.
pub(in crate::review) static WET_UNKNOWN: Check = Check {
    code: &Code {
        id: "wet-unknown",
        severity: Severity::Warning,
        says: "run to the outdoors, wet place not stated: {found}; {asked}",
        why: "Raceway, fittings and entries in a wet place are of another kind, and each entry is sealed.",
        example: "exposure = \"exterior\"   # and a [[run]] without wet to a device outside",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_wet,
        assumed: "assumed: in a dry place",
        depends: DependentWork::LeftOut,
        advise: "write wet = true or false of the run",
        question: None,
    }),
};

fn without_panel(openings: &[OpeningContext]) -> Vec<Lacking> {
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate().filter(|(_, it)| it.is_powered()) {
        let Some(power) = opening.opening.entry.power.get() else { continue };
        let known = power.known.get().is_some_and(|it| *it != PowerKnown::None);
        if known && power.panel.is_absent() {
            let place = power.known.place().cloned();
            found.push(Lacking { at, name: opening.opening.mark.clone(), place });
        }
    }
    found
}

/// Whether anything is taken off by run.
fn runs_are_priced(openings: &[OpeningContext]) -> bool {
    openings
        .first()
        .is_some_and(|it| !it.job.runs_unread && it.catalog.rules.iter().any(|rule| rule.per == Entity::Run))
}

/// The graph of the runs of a class, or of all.
fn graph<'j>(openings: &[OpeningContext<'j>], class: Option<RunClass>) -> RunGraph<'j, RunEnd> {
    let runs: &'j [Run] = openings.first().map_or(&[], |it| it.job.runs.as_slice());
    let of_class = runs.iter().filter(|run| class.is_none_or(|class| run.class == class));
    RunGraph::of(of_class.map(|run| (&run.from, &run.to)).collect())
}

fn without_line_run(openings: &[OpeningContext]) -> Vec<Lacking> {
    if !runs_are_priced(openings) {
        return Vec::new();
    }
    let line = graph(openings, Some(RunClass::Line));
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate().filter(|(_, it)| it.is_powered()) {
        let power = opening.opening.entry.power.get();
        let known = power.and_then(|it| it.known.get()).is_some_and(|it| *it != PowerKnown::None);
        // A panel that cannot be read may be the one from which the route would be assumed.
        let wanted = known && !power.is_some_and(|it| it.panel.is_bad());
        let end = RunEnd::Opening(opening.opening.mark.clone());
        if wanted && line.shortest_path(&end, |end| matches!(end, RunEnd::Panel(_))).is_empty() {
            let place = power.and_then(|it| it.panel.place()).cloned();
            found.push(Lacking { at, name: opening.opening.mark.clone(), place });
        }
    }
    found
}

fn with_assumed_run(openings: &[OpeningContext]) -> Vec<Lacking> {
    let runs = openings.first().map_or(&[][..], |it| it.job.runs.as_slice());
    let by_mark = by_mark(openings);
    let assumed = runs.iter().filter(|run| run.assumed.is_some());
    let lacking = |run: &Run| {
        let at = *by_mark.get(run.to.opening()?)?;
        Some(Lacking { at, name: format!("{} to {}", run.from, run.to), place: Some(run.place.clone()) })
    };
    assumed.filter_map(lacking).collect()
}

/// Positions of openings by their marks.
fn by_mark<'o>(openings: &[OpeningContext<'o>]) -> FxHashMap<&'o str, usize> {
    let mut by_mark = FxHashMap::default();
    for (at, opening) in openings.iter().enumerate() {
        by_mark.entry(opening.opening.mark.as_str()).or_insert(at);
    }
    by_mark
}

/// The id that runs name a device by.
fn id(at: usize, device: &DeviceEntry) -> String {
    device.id.get().map_or_else(|| format!("D{}", at + 1), |id| id.as_str().to_owned())
}

/// Whether a cable of ours goes to a device: by wire, to a box or a jamb, and no one else's.
fn has_cable(device: &DeviceEntry) -> bool {
    let boxed = matches!(
        device.mount.get(),
        Some(DeviceMount::Wall | DeviceMount::Post | DeviceMount::Desk | DeviceMount::Jamb)
    );
    boxed && wired(device) && !device.link.is_bad() && device.by.is_absent()
}

/// Wired devices that no low-voltage run reaches, with whether a run of another class does.
fn unreached(openings: &[OpeningContext]) -> Vec<(Lacking, bool)> {
    if !runs_are_priced(openings) {
        return Vec::new();
    }
    let (low, any) = (graph(openings, Some(RunClass::Low)), graph(openings, None));
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate().filter(|(_, it)| it.is_powered()) {
        let mark = &opening.opening.mark;
        let here = |end: &RunEnd| matches!(end, RunEnd::Opening(it) if it == mark);
        let devices = opening.opening.entry.device.list().iter().enumerate();
        for (number, device) in devices.filter(|(_, it)| has_cable(it)) {
            let end = RunEnd::Device(mark.clone(), id(number, device));
            if low.shortest_path(&end, here).is_empty() {
                let place = device.kind.place().cloned();
                found.push((Lacking { at, name: end.to_string(), place }, !any.shortest_path(&end, here).is_empty()));
            }
        }
    }
    found
}

fn without_device_run(openings: &[OpeningContext]) -> Vec<Lacking> {
    unreached(openings).into_iter().filter(|(_, line)| !line).map(|(lacking, _)| lacking).collect()
}

fn on_line_run(openings: &[OpeningContext]) -> Vec<Lacking> {
    unreached(openings).into_iter().filter(|(_, line)| *line).map(|(lacking, _)| lacking).collect()
}

/// Runs that lack something, each at the opening that one of its ends is of; one of a panel or a box alone at the first opening
/// of its site.
fn runs_that(openings: &[OpeningContext], lack: impl Fn(&Run, Option<&OpeningContext>) -> bool) -> Vec<Lacking> {
    if !runs_are_priced(openings) {
        return Vec::new();
    }
    let runs = openings.first().map_or(&[][..], |it| it.job.runs.as_slice());
    let by_mark = by_mark(openings);
    let mut found = Vec::new();
    for run in runs {
        let [from, to] = run.whole();
        let of_end = [to, from].into_iter().find_map(|end| by_mark.get(end.opening()?).copied());
        let site = || openings.iter().position(|it| it.opening.site == run.site);
        let Some(at) = of_end.or_else(site) else { continue };
        if lack(run, of_end.map(|at| &openings[at])) {
            found.push(Lacking { at, name: format!("{} to {}", run.from, run.to), place: Some(run.place.clone()) });
        }
    }
    found
}

fn without_bends(openings: &[OpeningContext]) -> Vec<Lacking> {
    runs_that(openings, |run, _| run.kind != RunKind::Cable && run.entry.bends.is_absent())
}

fn without_rated_walls(openings: &[OpeningContext]) -> Vec<Lacking> {
    runs_that(openings, |run, opening| {
        let Some(opening) = opening.filter(|it| it.is_powered()) else { return false };
        let labeled = opening.opening.entry.rating.get().is_some_and(|it| *it != Rating::None);
        labeled && run.entry.rated_walls.is_absent() && may_go_through(run, opening)
    })
}

/// Whether a run may go through the wall of an opening: a line run to its header, a cable to a device on the other side.
fn may_go_through(run: &Run, opening: &OpeningContext) -> bool {
    let has_device = run.whole().into_iter().any(|end| matches!(end, RunEnd::Device(..)));
    if !has_device {
        return run.class == RunClass::Line;
    }
    let header = opening.powered().find_map(|leaf| leaf.header());
    match (device_side(run, opening), header) {
        (Some(side), Some(header)) => side_word(header.room) != Side::word(side),
        _ => false,
    }
}

/// The side of the device that a run goes to.
fn device_side(run: &Run, opening: &OpeningContext) -> Option<Side> {
    let of_end = |end: &RunEnd| match end {
        RunEnd::Device(_, device) => Some(device.clone()),
        _ => None,
    };
    let [from, to] = run.whole();
    let device = [to, from].into_iter().find_map(of_end)?;
    let mut devices = opening.opening.entry.device.list().iter().enumerate();
    devices.find(|(at, it)| id(*at, it) == device)?.1.side.cloned()
}

fn without_plenum(openings: &[OpeningContext]) -> Vec<Lacking> {
    runs_that(openings, |run, opening| {
        let above = opening.and_then(|it| it.opening.entry.ceiling.get()).is_some_and(|it| it.return_air.or(false));
        above && run.class == RunClass::Low && run.entry.plenum.is_absent() && !run.entry.wet.or(false)
    })
}

/// Liquid-tight conduit, and whatever goes to a device on the outside of an exterior opening.
fn without_wet(openings: &[OpeningContext]) -> Vec<Lacking> {
    runs_that(openings, |run, opening| {
        let outside = opening.is_some_and(|it| {
            let exterior = it.opening.entry.exposure.get() == Some(&Exposure::Exterior);
            exterior && device_side(run, it) == Some(Side::Outside)
        });
        run.entry.wet.is_absent() && (outside || run.kind == RunKind::LiquidTight)
    })
}
