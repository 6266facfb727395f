//! Terminations of an opening, point to point: what lands where, by which conductor, with which label at either end.
//!
//! In: sources, an opening. Out: rows of finished strings. May not know: any maker's terminal plan; terminals are named here by
//! what they do, and the operator's own plan governs which they are.
//!
//! Colors of line conductors: white or gray is the grounded conductor, green or bare the ground (NEC 200.6, 250.119, from
//! memory); black, red, and above 250 V brown, orange are common practice, no source. Colors of low voltage follow the role:
//! red and black supply, white what closes, green its common (our own rule, as the paper says).

use serde::Serialize;

use super::super::Sources;
use super::super::printing::{DASH, volts};
use super::wiring::items_of;
use crate::catalog::Group;
use crate::job::{DeviceKind, DeviceMount, Link, Release, RunClass, Side};
use crate::measure::{Unit, Volts};
use crate::takeoff::{CircuitWork, DeviceWork, EntityRef, OpeningWork};

/// The terminations of an opening.
#[derive(Clone, Debug, Serialize)]
pub struct TerminationsView {
    /// Mark.
    pub mark: String,
    /// Circuits and cables in order.
    pub bundles: Vec<BundleView>,
}

/// What conductors of one circuit or cable share.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BundleView {
    /// What it is.
    pub of: String,
    /// Where it starts.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// What its conductors are: conductors of a gauge, or a cable.
    pub conductor: String,
    /// The label at both ends.
    pub label: String,
    /// How many conductors it has.
    pub count: usize,
    /// Its conductors.
    pub rows: Vec<ConductorRow>,
}

/// A conductor from one terminal to another.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ConductorRow {
    /// Whether it is the first of its bundle.
    pub first: bool,
    /// The terminal at its start.
    pub from: String,
    /// Its color.
    pub color: String,
    /// The terminal at its end.
    pub to: String,
}

/// A conductor by its role: terminal at the far end, color, terminal at the header.
type Role = (&'static str, &'static str, String);

/// What conductors of one cable or circuit share.
struct Bundle {
    of: String,
    from: String,
    to: String,
    conductor: String,
    label: String,
}

impl Bundle {
    /// With conductors of these roles; nothing without any.
    fn with(self, roles: Vec<Role>) -> Option<BundleView> {
        let Bundle { of, from, to, conductor, label } = self;
        let row = |(at, (far, color, near)): (usize, Role)| ConductorRow {
            first: at == 0,
            from: far.to_owned(),
            color: color.to_owned(),
            to: near,
        };
        let rows: Vec<ConductorRow> = roles.into_iter().enumerate().map(row).collect();
        (!rows.is_empty()).then_some(BundleView { of, from, to, conductor, label, count: rows.len(), rows })
    }
}

/// The terminations of an opening, by position; none where it has no header.
pub(super) fn terminations(sources: &Sources, at: usize) -> Option<TerminationsView> {
    let work = &sources.takeoff.arrangement.openings[at];
    let mut bundles = Vec::new();
    for number in 0..work.headers.len() {
        bundles.extend(lines(sources, at, number));
    }
    for (number, device) in work.devices.iter().enumerate() {
        bundles.extend(device_cable(sources, at, (number, device)));
    }
    for leaf in 0..work.leaves.len() {
        bundles.extend(release(sources, at, leaf));
    }
    bundles.extend(alarm(work));
    (!bundles.is_empty()).then(|| TerminationsView { mark: work.opening.mark.clone(), bundles })
}

/// A header's name.
fn header_name(work: &OpeningWork, number: usize) -> String {
    let mark = &work.opening.mark;
    if work.headers.len() > 1 { format!("{mark} header {}", number + 1) } else { format!("{mark} header") }
}

fn lines(sources: &Sources, at: usize, number: usize) -> Vec<BundleView> {
    let all = &sources.takeoff.arrangement;
    let work = &all.openings[at];
    let here = all.circuits.iter().enumerate().filter(|(_, circuit)| circuit.headers.contains(&(at, number)));
    here.filter_map(|(position, circuit)| {
        let panel = all.panels[circuit.panel].id.as_deref().unwrap_or("no panel yet");
        let breaker = items_of(sources, EntityRef::Circuit(position), Group::Breaker).join(", ");
        let run = all.runs.iter().position(|run| run.circuits.contains(&position));
        let conductor = run.map(|run| items_of(sources, EntityRef::Run(run), Group::Conductor).join(", "));
        let bundle = Bundle {
            of: format!("circuit {panel} {}", circuit.number),
            from: if breaker.is_empty() { format!("panel {panel}") } else { format!("panel {panel}: {breaker}") },
            to: format!("{}, through its disconnect", header_name(work, number)),
            conductor: known(conductor),
            label: circuit_label(sources, panel, circuit),
        };
        bundle.with(line_roles(circuit.volts, circuit.poles))
    })
    .collect()
}

fn known(words: Option<String>) -> String {
    words.filter(|it| !it.is_empty()).unwrap_or_else(|| DASH.to_owned())
}

/// The label of a circuit, as the owner wants it.
fn circuit_label(sources: &Sources, panel: &str, circuit: &CircuitWork) -> String {
    let profile = sources.catalog.profiles.get(&sources.cleared.job().head.profile);
    let pattern = profile.and_then(|it| it.label.as_deref()).unwrap_or("{panel}-{circuit} {volts}");
    let volts = circuit.volts.map_or_else(|| DASH.to_owned(), volts);
    pattern.replace("{panel}", panel).replace("{circuit}", &circuit.number.to_string()).replace("{volts}", &volts)
}

fn line_roles(voltage: Option<Volts>, poles: Option<usize>) -> Vec<Role> {
    let high = voltage.and_then(|it| it.number_of(Unit::Volt)).is_some_and(|it| it > rust_decimal::Decimal::from(250));
    let (first, second, grounded) = if high { ("brown", "orange", "gray") } else { ("black", "red", "white") };
    let near = |it: &str| it.to_owned();
    let mut roles = match poles {
        Some(2) => vec![("breaker, pole 1", first, near("LINE 1")), ("breaker, pole 2", second, near("LINE 2"))],
        Some(_) => vec![("breaker", first, near("LINE")), ("neutral bar", grounded, near("NEUTRAL"))],
        None => return Vec::new(),
    };
    roles.push(("ground bar", "green", near("GROUND")));
    roles
}

fn device_cable(sources: &Sources, at: usize, (number, device): (usize, &DeviceWork)) -> Option<BundleView> {
    let all = &sources.takeoff.arrangement;
    let work = &all.openings[at];
    let entry = device.entry;
    let kind = entry.kind.get()?;
    let header = entry.leaf.get().and_then(|it| usize::try_from(it.get()).ok()?.checked_sub(1));
    let header = header.and_then(|leaf| work.headers.iter().position(|it| it.leaves.contains(&leaf))).unwrap_or(0);
    if work.headers.is_empty() {
        return None;
    }
    let name = format!("{}/{}", work.opening.mark, device.id);
    let radio = entry.link.or(Link::Wired) == Link::Wireless;
    let harness = matches!(entry.mount.get(), Some(DeviceMount::Header | DeviceMount::Leaf));
    let run = all.runs.iter().position(|run| run.run.class == RunClass::Low && run.cables.contains(&(at, number)));
    let cable = run.map(|run| items_of(sources, EntityRef::Run(run), Group::Cable).join(", "));
    let by = entry.by.get().map(|by| format!(", by {}", by.as_str())).unwrap_or_default();
    let from = if radio { format!("receiver of {name}") } else { format!("{name} {kind}{by}") };
    let conductor = if radio || harness { "harness".to_owned() } else { known(cable) };
    let bundle = Bundle { of: format!("cable {name}"), from, to: header_name(work, header), conductor, label: name };
    bundle.with(device_roles(*kind, entry.side.get(), radio))
}

/// What a device asks for: a contact alone, or supply and a contact. A radio device is its receiver.
fn device_roles(kind: DeviceKind, side: Option<&Side>, radio: bool) -> Vec<Role> {
    let away = if side == Some(&Side::Inside) { "INSIDE" } else { "OUTSIDE" };
    let input = match kind {
        DeviceKind::Plate | DeviceKind::Bar | DeviceKind::Touchless | DeviceKind::DeskButton | DeviceKind::Motion => {
            format!("OPEN {away}")
        }
        DeviceKind::Safety => format!("SAFETY {away}"),
        DeviceKind::KeySwitch => "MODE".to_owned(),
        DeviceKind::Reader => "ENABLE".to_owned(),
    };
    let supplied = radio || matches!(kind, DeviceKind::Touchless | DeviceKind::Motion | DeviceKind::Safety);
    let mut roles: Vec<Role> = Vec::new();
    if supplied {
        roles.push(("supply +", "red", "SUPPLY +".to_owned()));
        roles.push(("supply –", "black", "SUPPLY –".to_owned()));
    }
    roles.push(("contact", "white", input));
    roles.push(("common", "green", "COMMON".to_owned()));
    roles
}

/// The latch release of a leaf, where the operator's side lets it go.
fn release(sources: &Sources, at: usize, leaf: usize) -> Option<BundleView> {
    let work = &sources.takeoff.arrangement.openings[at];
    let of = &work.leaves[leaf];
    let header = work.headers.iter().position(|it| it.drives.contains(&leaf))?;
    let word = match of.release() {
        Some(Release::Strike) => "electric strike",
        Some(Release::Retraction) => "latch retraction",
        Some(Release::ElectrifiedLock) => "electrified lock",
        Some(Release::NoLatch | Release::Others | Release::Unknown) | None => return None,
    };
    let name = format!("{}/RELEASE {}", work.opening.mark, leaf + 1);
    let cable = items_of(sources, EntityRef::Leaf(at, leaf), Group::Cable).join(", ");
    let bundle = Bundle {
        of: format!("release of leaf {}", leaf + 1),
        from: format!("{word}, leaf {}", leaf + 1),
        to: header_name(work, header),
        conductor: known(Some(cable)),
        label: name,
    };
    bundle.with(vec![("coil +", "red", "RELEASE +".to_owned()), ("coil –", "black", "RELEASE –".to_owned())])
}

/// The relay of the fire alarm, which is others'.
fn alarm(work: &OpeningWork) -> Option<BundleView> {
    if !work.opening.entry.alarm_release.or(false) || work.headers.is_empty() {
        return None;
    }
    let bundle = Bundle {
        of: "fire alarm".to_owned(),
        from: "relay of the fire alarm, by its vendor".to_owned(),
        to: header_name(work, 0),
        conductor: "by the fire alarm vendor".to_owned(),
        label: format!("{}/ALARM", work.opening.mark),
    };
    bundle
        .with(vec![("normally closed", "by vendor", "ALARM".to_owned()), ("common", "by vendor", "COMMON".to_owned())])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn volts_of(number: i64) -> Option<Volts> {
        Volts::new(rust_decimal::Decimal::from(number), Unit::Volt)
    }

    fn colors(roles: &[Role]) -> Vec<&'static str> {
        roles.iter().map(|role| role.1).collect()
    }

    /// White or gray is the grounded conductor, green the ground (NEC 200.6, 250.119, from memory); the others common
    /// practice, no source.
    #[test]
    fn line_conductors_have_the_colors_of_their_roles() {
        assert_eq!(colors(&line_roles(volts_of(120), Some(1))), ["black", "white", "green"]);
        assert_eq!(colors(&line_roles(volts_of(208), Some(2))), ["black", "red", "green"]);
        assert_eq!(colors(&line_roles(volts_of(277), Some(1))), ["brown", "gray", "green"]);
        assert!(line_roles(volts_of(120), None).is_empty(), "nothing is told where the volts are not known");
    }

    #[test]
    fn a_switch_is_a_contact_and_a_sensor_is_supplied_too() {
        let near = |kind, radio| -> Vec<String> {
            device_roles(kind, Some(&Side::Inside), radio).into_iter().map(|role| role.2).collect()
        };
        assert_eq!(near(DeviceKind::Plate, false), ["OPEN INSIDE", "COMMON"]);
        assert_eq!(near(DeviceKind::Plate, true), ["SUPPLY +", "SUPPLY –", "OPEN INSIDE", "COMMON"]);
        assert_eq!(near(DeviceKind::Safety, false)[2], "SAFETY INSIDE");
        assert_eq!(near(DeviceKind::Reader, false), ["ENABLE", "COMMON"]);
    }
}
