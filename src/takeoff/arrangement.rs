//! What stands where: the entities that rules range over, derived from the openings once and for all.
//!
//! In: a cleared job and the catalog. Out: sites, panels, circuits, runs, openings with leaves, headers, drives, devices,
//! boxes and fixings. May not know: rules, quantities, prices.
//!
//! What is inferred, from what:
//! hand from outside, hinges and swing; the header's side from arm and swing; drive end from side and hinges; devices from
//! device groups and the jurisdictions' plate heights; boxes from wired devices and headers; circuits from policy, panel
//! and drives; what a run serves from the graph of runs.

use crate::catalog::{Arm, Catalog, LeafMade, Operator, Substrate};
use crate::engineering::{Edge, Hand, Hang, OperatorSide, Room, Swing as Sense, header_place};
use crate::findings::Place;
use crate::job::{
    DeviceEntry, DeviceKind, DeviceMount, HeaderShare, HingeEdge, Job, LatchKind, LeafEntry, Link, Opening, Release,
    Side, Site, Swing,
};
use crate::measure::{Length, Weight};
use crate::reading::Record;
use crate::review::Cleared;

use super::circuits::{CircuitWork, PanelWork};
use super::routes::RunWork;

/// Everything that rules range over.
#[derive(Clone, Debug)]
pub struct Arrangement<'j> {
    /// Sites, in the order of work.
    pub sites: Vec<&'j Site>,
    /// Openings of the bid, in file order.
    pub openings: Vec<OpeningWork<'j>>,
    /// Panels that feed a drive, by id.
    pub panels: Vec<PanelWork>,
    /// Circuits, by panel and number.
    pub circuits: Vec<CircuitWork>,
    /// Runs, in file order.
    pub runs: Vec<RunWork<'j>>,
}

/// The form of an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Form {
    /// One leaf.
    Single,
    /// Two leaves that swing the same way.
    Pair,
    /// Two leaves that swing opposite ways.
    DoubleEgress,
}

impl Form {
    /// The word that schedules and rules use.
    pub fn word(self) -> &'static str {
        match self {
            Form::Single => "single",
            Form::Pair => "pair",
            Form::DoubleEgress => "double egress",
        }
    }

    /// Every form.
    pub const ALL: [Form; 3] = [Form::Single, Form::Pair, Form::DoubleEgress];
}

/// An opening with all that stands at it.
#[derive(Clone, Debug)]
pub struct OpeningWork<'j> {
    /// The opening.
    pub opening: &'j Opening,
    /// Its site.
    pub site: &'j Site,
    /// Its operator, where it has one.
    pub operator: Option<&'j Operator>,
    /// Its form.
    pub form: Form,
    /// Its leaves.
    pub leaves: Vec<LeafWork<'j>>,
    /// Its headers.
    pub headers: Vec<HeaderWork>,
    /// Its drives.
    pub drives: Vec<DriveWork>,
    /// Places of devices as typed.
    pub groups: Vec<GroupWork<'j>>,
    /// Devices.
    pub devices: Vec<DeviceWork<'j>>,
    /// Boxes.
    pub boxes: Vec<BoxWork>,
    /// Joints of headers and arms with what carries them.
    pub fixings: Vec<FixingWork>,
    /// Whether a jurisdiction asks for standby power.
    pub standby_power: bool,
}

/// A leaf.
#[derive(Clone, Debug)]
pub struct LeafWork<'j> {
    /// Its number, from 1.
    pub number: usize,
    /// As typed.
    pub entry: &'j LeafEntry,
    /// Its hand, where the facts tell it.
    pub hand: Option<Hand>,
    /// Its weight and how it is known.
    pub weight: Option<LeafWeight>,
    /// Whether a drive moves it.
    pub powered: bool,
}

/// The weight of a leaf and how it is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeafWeight {
    /// The weight.
    pub weight: Weight,
    /// What it was estimated from; none where somebody gave it.
    pub estimated: Option<String>,
}

/// A header.
#[derive(Clone, Debug)]
pub struct HeaderWork {
    /// Its number, from 1.
    pub number: usize,
    /// The leaves it spans, as positions in the opening.
    pub leaves: Vec<usize>,
    /// The powered leaves whose drives it carries.
    pub drives: Vec<usize>,
    /// Sum of the widths it spans.
    pub leaf_width: Option<Length>,
    /// The side of the opening it hangs on.
    pub side: Option<Side>,
    /// The end at which power enters, seen from its own room.
    pub supply_end: Option<Edge>,
}

/// A drive.
#[derive(Clone, Debug)]
pub struct DriveWork {
    /// Its number, from 1.
    pub number: usize,
    /// Position of its header.
    pub header: usize,
    /// Position of its leaf.
    pub leaf: usize,
    /// Its arm.
    pub arm: Option<Arm>,
    /// The end of the header it stands at, seen from the header's own room: also the hand of its bracket.
    pub end: Option<Edge>,
}

/// A place of devices as the job file lists it.
#[derive(Clone, Debug)]
pub struct GroupWork<'j> {
    /// Its id.
    pub id: String,
    /// As typed.
    pub entry: &'j DeviceEntry,
    /// How many devices it makes.
    pub devices: usize,
}

/// A device.
#[derive(Clone, Debug)]
pub struct DeviceWork<'j> {
    /// Its id.
    pub id: String,
    /// As typed.
    pub entry: &'j DeviceEntry,
    /// Its height, after jurisdictions.
    pub height: Option<Length>,
}

/// What a box is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoxFor {
    /// A device, by position.
    Device(usize),
    /// A header, by position.
    Header(usize),
}

/// A box.
#[derive(Clone, Debug)]
pub struct BoxWork {
    /// What it is for.
    pub of: BoxFor,
    /// What it is fixed to, in the word of a device mount.
    pub mount: &'static str,
}

/// A joint of header or arm with what carries it.
#[derive(Clone, Debug)]
pub enum FixingWork {
    /// A header, by position.
    Header(usize),
    /// The arm of a drive, by position.
    Arm(usize),
}

impl<'j> Arrangement<'j> {
    /// Derives everything from a cleared job.
    pub fn of(cleared: &'j Cleared, catalog: &'j Catalog) -> Self {
        let job = cleared.job();
        let mut sites: Vec<&Site> = job.sites.values().collect();
        sites.sort_by(|a, b| (a.order, &a.id).cmp(&(b.order, &b.id)));
        let openings: Vec<OpeningWork> =
            job.base_openings().filter_map(|opening| OpeningWork::of(opening, job, catalog)).collect();
        let (panels, circuits) = super::circuits::plan(job, catalog, &openings);
        let runs = super::routes::plan(job, catalog, &openings, &circuits);
        sites.retain(|site| openings.iter().any(|it| it.site.id == site.id));
        Arrangement { sites, openings, panels, circuits, runs }
    }

    /// The openings of a site, in file order.
    pub fn openings_of(&self, site: &str) -> impl Iterator<Item = &OpeningWork<'j>> {
        self.openings.iter().filter(move |it| it.site.id == site)
    }
}

impl<'j> OpeningWork<'j> {
    fn of(opening: &'j Opening, job: &'j Job, catalog: &'j Catalog) -> Option<Self> {
        let site = job.sites.get(&opening.site)?;
        let operator = opening.entry.operator.get().and_then(|id| catalog.operators.get(id.as_str()));
        let mut leaves: Vec<LeafWork> =
            opening.leaves.iter().enumerate().map(|(at, entry)| LeafWork::of(at + 1, entry)).collect();
        let form = form(&leaves);
        hands(form, &mut leaves);
        let headers = headers(opening, &leaves);
        let drives = drives(&headers, &leaves);
        let jurisdictions: Vec<_> =
            job.head.jurisdictions.iter().filter_map(|id| catalog.jurisdictions.get(id)).collect();
        let heights: &[Length] =
            jurisdictions.iter().find(|it| !it.plate_heights.is_empty()).map_or(&[], |it| &it.plate_heights);
        let (groups, devices) = devices(opening, heights);
        let boxes = boxes(&headers, &devices);
        let fixings =
            (0..headers.len()).map(FixingWork::Header).chain((0..drives.len()).map(FixingWork::Arm)).collect();
        Some(OpeningWork {
            opening,
            site,
            operator,
            form,
            leaves,
            headers,
            drives,
            groups,
            devices,
            boxes,
            fixings,
            standby_power: jurisdictions.iter().any(|it| it.standby_power),
        })
    }

    /// Whether something about it was written that cannot be used. It was reported; what is unknown because of it is not.
    pub fn has_bad(&self) -> bool {
        fn any<R: Record>(record: &R) -> bool {
            record.slots().iter().any(|slot| slot.is_bad())
        }
        let entry = &self.opening.entry;
        any(entry)
            || entry.frame.get().is_some_and(any)
            || entry.power.get().is_some_and(any)
            || entry.ceiling.get().is_some_and(any)
            || entry.device.list().iter().any(any)
            || self.leaves.iter().any(|leaf| any(leaf.entry))
    }

    /// Number of powered leaves.
    pub fn powered_leaves(&self) -> usize {
        self.leaves.iter().filter(|leaf| leaf.powered).count()
    }

    /// The room a side of the opening belongs to, by its name.
    pub fn room(&self, side: Side) -> Option<&str> {
        let outside = self.opening.entry.outside.get()?.as_str();
        match side {
            Side::Outside => Some(outside),
            Side::Inside => {
                self.opening.entry.between.list().iter().map(|room| room.as_str()).find(|room| *room != outside)
            }
        }
    }
}

impl<'j> LeafWork<'j> {
    fn of(number: usize, entry: &'j LeafEntry) -> Self {
        let powered = entry.powered.or(false);
        LeafWork { number, entry, hand: None, weight: super::weights::weight(entry), powered }
    }

    /// How it hangs, where the facts tell it. The outside is the plan's first room.
    pub fn hang(&self) -> Option<Hang> {
        let hinges = match self.entry.hinges.get()? {
            HingeEdge::Left => Edge::Left,
            HingeEdge::Right => Edge::Right,
        };
        let swing = match self.entry.swing.get()? {
            Swing::Toward => Sense::Toward,
            Swing::Away => Sense::Away,
        };
        Some(Hang::seen_from(Room::First, hinges, swing))
    }

    /// What lets its latch go; a leaf without a latch has nothing to release.
    pub fn release(&self) -> Option<Release> {
        let without = (self.entry.latch.get() == Some(&LatchKind::None)).then_some(Release::NoLatch);
        if self.entry.release.is_absent() { without } else { self.entry.release.cloned() }
    }

    /// The side of the leaf its operator is on.
    pub fn operator_side(&self) -> Option<OperatorSide> {
        Some(match self.entry.arm.get()? {
            Arm::Push => OperatorSide::Push,
            Arm::Pull => OperatorSide::Pull,
        })
    }
}

/// The side of the opening a room of the plan is on.
pub fn side_of(room: Room) -> Side {
    match room {
        Room::First => Side::Outside,
        Room::Second => Side::Inside,
    }
}

/// The room of the plan on a side of the opening.
pub fn room_of(side: Side) -> Room {
    match side {
        Side::Outside => Room::First,
        Side::Inside => Room::Second,
    }
}

/// The hand of each leaf: read from the outside; in a double egress from the side the leaf swings toward.
fn hands(form: Form, leaves: &mut [LeafWork]) {
    for leaf in leaves {
        leaf.hand = leaf.hang().map(|hang| match form {
            Form::DoubleEgress => hang.hand_in_double_egress(),
            _ => hang.hand(Room::First),
        });
    }
}

fn form(leaves: &[LeafWork]) -> Form {
    match leaves {
        [] | [_] => Form::Single,
        [first, rest @ ..] => {
            let swing = first.entry.swing.get();
            if rest.iter().all(|leaf| leaf.entry.swing.get() == swing) { Form::Pair } else { Form::DoubleEgress }
        }
    }
}

fn headers(opening: &Opening, leaves: &[LeafWork]) -> Vec<HeaderWork> {
    let powered: Vec<usize> = (0..leaves.len()).filter(|at| leaves[*at].powered).collect();
    if powered.is_empty() {
        return Vec::new();
    }
    let spans: Vec<(Vec<usize>, Vec<usize>)> = match opening.entry.headers.or(HeaderShare::One) {
        HeaderShare::One => vec![((0..leaves.len()).collect(), powered)],
        HeaderShare::PerLeaf => powered.into_iter().map(|at| (vec![at], vec![at])).collect(),
    };
    spans.into_iter().enumerate().map(|(at, (spanned, drives))| header(at + 1, spanned, drives, leaves)).collect()
}

fn header(number: usize, spanned: Vec<usize>, drives: Vec<usize>, leaves: &[LeafWork]) -> HeaderWork {
    let place = |at: usize| Some(header_place(leaves[at].hang()?, leaves[at].operator_side()?));
    let first = drives.first().and_then(|at| place(*at));
    let supply_end = match drives.as_slice() {
        // One drive stands at the hinge of its leaf; power enters at the other end.
        [_] => first.map(|place| place.supply_end),
        // Two drives fill both ends; power enters at the left.
        _ => first.map(|_| Edge::Left),
    };
    let leaf_width = spanned
        .iter()
        .map(|at| leaves[*at].entry.width.get().copied())
        .try_fold(Length::ZERO, |sum, width| sum.checked_plus(width?));
    let side = first.map(|place| side_of(place.room));
    HeaderWork { number, leaves: spanned, drives, leaf_width, side, supply_end }
}

fn drives(headers: &[HeaderWork], leaves: &[LeafWork]) -> Vec<DriveWork> {
    let each = headers.iter().enumerate().flat_map(|(at, header)| header.drives.iter().map(move |leaf| (at, *leaf)));
    each.enumerate()
        .map(|(at, (header, leaf))| DriveWork {
            number: at + 1,
            header,
            leaf,
            arm: leaves[leaf].entry.arm.get().copied(),
            end: headers[header].side.and_then(|side| Some(room_of(side).edge_of(leaves[leaf].hang()?.hinges))),
        })
        .collect()
}

fn devices<'j>(opening: &'j Opening, heights: &[Length]) -> (Vec<GroupWork<'j>>, Vec<DeviceWork<'j>>) {
    let mut groups = Vec::new();
    let mut devices = Vec::new();
    for (at, entry) in opening.entry.device.list().iter().enumerate() {
        let id = entry.id.get().map_or_else(|| format!("D{}", at + 1), |id| id.as_str().to_owned());
        let plates = entry.kind.get() == Some(&DeviceKind::Plate) && !heights.is_empty();
        let typed = [entry.height.get().copied()];
        let each: Vec<Option<Length>> = if plates { heights.iter().copied().map(Some).collect() } else { typed.into() };
        let count = each.len();
        for (number, height) in each.into_iter().enumerate() {
            let suffix = char::from(b'a' + number.min(25) as u8);
            let id = if count > 1 { format!("{id}{suffix}") } else { id.clone() };
            devices.push(DeviceWork { id, entry, height });
        }
        groups.push(GroupWork { id, entry, devices: count });
    }
    (groups, devices)
}

fn boxes(headers: &[HeaderWork], devices: &[DeviceWork]) -> Vec<BoxWork> {
    let of_devices = devices.iter().enumerate().filter_map(|(at, device)| {
        let mount = device.entry.mount.get()?;
        let wired = device.entry.link.or(Link::Wired) == Link::Wired;
        let boxed = matches!(mount, DeviceMount::Wall | DeviceMount::Post | DeviceMount::Desk);
        (wired && boxed).then(|| BoxWork { of: BoxFor::Device(at), mount: mount.word() })
    });
    let of_headers = (0..headers.len()).map(|at| BoxWork { of: BoxFor::Header(at), mount: DeviceMount::Header.word() });
    of_devices.chain(of_headers).collect()
}

impl BoxWork {
    /// What it is called, such as `box of 101A/P1`.
    pub fn name(&self, opening: &OpeningWork) -> String {
        match self.of {
            BoxFor::Device(at) => format!("box of {}/{}", opening.opening.mark, opening.devices[at].id),
            BoxFor::Header(at) => format!("box of {}, header {}", opening.opening.mark, opening.headers[at].number),
        }
    }
}

impl FixingWork {
    /// What it is called, such as `fixing of 101A, header 1`.
    pub fn name(&self, opening: &OpeningWork) -> String {
        let mark = &opening.opening.mark;
        match self {
            FixingWork::Header(at) => format!("fixing of {mark}, header {}", opening.headers[*at].number),
            FixingWork::Arm(at) => format!("fixing of {mark}, arm of drive {}", opening.drives[*at].number),
        }
    }

    /// What a header goes into; none for an arm.
    pub fn substrate(&self, opening: &OpeningWork) -> Option<Substrate> {
        match self {
            FixingWork::Header(_) => Some(opening.opening.entry.frame.get()?.fixed_to.or(Substrate::Unknown)),
            FixingWork::Arm(_) => None,
        }
    }

    /// What an arm goes into; none for a header.
    pub fn leaf_made(&self, opening: &OpeningWork) -> Option<LeafMade> {
        match self {
            FixingWork::Header(_) => None,
            FixingWork::Arm(at) => opening.leaves[opening.drives[*at].leaf].entry.made.cloned(),
        }
    }

    /// Fasteners needed, and where the catalog says so.
    pub fn screws<'o>(&self, opening: &'o OpeningWork) -> Option<(u32, &'o Place)> {
        let operator = opening.operator?;
        let count = match self {
            FixingWork::Header(_) => operator.header_screws,
            FixingWork::Arm(_) => operator.arm_screws,
        };
        Some((count, &operator.place))
    }

    /// Fasteners that the kit gives for it, and where the catalog says so.
    pub fn kit<'o>(&self, opening: &'o OpeningWork) -> Option<(u32, &'o Place)> {
        let operator = opening.operator?;
        let found = match self {
            FixingWork::Header(_) => {
                let into = self.substrate(opening)?;
                operator.header_kit.iter().find(|kit| kit.into == into).map(|kit| (kit.count, &kit.place))
            }
            FixingWork::Arm(_) => {
                let into = self.leaf_made(opening)?;
                operator.arm_kit.iter().find(|kit| kit.into == into).map(|kit| (kit.count, &kit.place))
            }
        };
        Some(found.unwrap_or((0, &operator.place)))
    }
}
