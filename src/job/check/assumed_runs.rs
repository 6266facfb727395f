//! Runs that are assumed: where no run reaches a header or a wired device, what the catalog says of such a route.
//!
//! In: openings, runs as typed, the catalog's routes. Out: more runs, whose length says that it is assumed and what it is made of.
//! May not know: quantities, prices.
//!
//! On bid day nobody has walked the way. A run that is typed takes the place of the assumed one.

use rustc_hash::FxHashMap;

use super::Check;
use super::runs::device_ids;
use crate::catalog::{AssumedRoute, RouteEnd, RunClass};
use crate::findings::Place;
use crate::input::{Count, Given, Slot, Standing};
use crate::job::entries::{DeviceEntry, OpeningEntry};
use crate::job::model::{Opening, Run, RunEnd};
use crate::job::site_entries::RunEntry;
use crate::job::words::{DeviceMount, Exposure, Link, PowerKnown, Side};
use crate::measure::{Finest, Length, LengthForm, Style};

/// Which ends the runs of a class join.
#[derive(Default)]
struct Joined<'r> {
    /// The place of each end among all; only looked up.
    places: FxHashMap<&'r RunEnd, usize>,
    /// For each end another of what it is joined with, up to one that is its own.
    next: Vec<usize>,
    panels: Vec<usize>,
}

impl<'r> Joined<'r> {
    fn of(runs: &'r [Run], class: RunClass) -> Self {
        let mut joined = Joined::default();
        for run in runs.iter().filter(|run| run.class == class) {
            let (from, to) = (joined.place(&run.from), joined.place(&run.to));
            let (from, to) = (joined.root(from), joined.root(to));
            if let Some(next) = joined.next.get_mut(from) {
                *next = to;
            }
        }
        joined
    }

    fn place(&mut self, end: &'r RunEnd) -> usize {
        let new = self.next.len();
        let place = *self.places.entry(end).or_insert(new);
        if place == new {
            self.next.push(new);
            if matches!(end, RunEnd::Panel(_)) {
                self.panels.push(new);
            }
        }
        place
    }

    fn root(&self, mut at: usize) -> usize {
        while let Some(next) = self.next.get(at).filter(|next| **next != at) {
            at = *next;
        }
        at
    }

    /// Whether runs lead from a panel to an end.
    fn reaches_panel(&self, end: &RunEnd) -> bool {
        self.places.get(end).is_some_and(|at| self.panels.iter().any(|panel| self.root(*panel) == self.root(*at)))
    }

    /// Whether runs lead from one end to another.
    fn joins(&self, one: &RunEnd, other: &RunEnd) -> bool {
        let both = self.places.get(one).zip(self.places.get(other));
        both.is_some_and(|(one, other)| self.root(*one) == self.root(*other))
    }
}

/// A route that is to be assumed.
struct Open<'o> {
    from: RunEnd,
    to: RunEnd,
    opening: &'o Opening,
    device: Option<&'o DeviceEntry>,
    place: Place,
}

impl Check<'_, '_, '_> {
    /// The runs that the catalog assumes, numbered after those that are typed.
    pub(super) fn assumed_runs(&self, openings: &[Opening], typed: &[Run]) -> Vec<Run> {
        let routes = &self.catalog.assumed_routes;
        if routes.is_empty() || self.typed.entry.run.is_bad() || !self.reader.whole() {
            return Vec::new();
        }
        let (line, low) = (Joined::of(typed, RunClass::Line), Joined::of(typed, RunClass::Low));
        let route = |to: RouteEnd| routes.iter().find(|it| it.to == to);
        let headers = openings.iter().filter_map(|it| without_line(it, &line));
        let devices = openings.iter().flat_map(|it| without_cable(it, &low));
        let each = headers.map(|it| (it, RouteEnd::Header)).chain(devices.map(|it| (it, RouteEnd::Device)));
        let first = self.typed.entry.run.list().len();
        let runs = each.filter_map(|(open, end)| self.assumed(&open, route(end)?));
        runs.enumerate().map(|(at, run)| Run { number: first + at + 1, ..run }).collect()
    }

    fn assumed(&self, open: &Open, route: &AssumedRoute) -> Option<Run> {
        let (length, words) = self.length_of(open, route)?;
        let class = if open.device.is_some() { RunClass::Low } else { RunClass::Line };
        let entry = &open.opening.entry;
        let outdoors = entry.exposure.get() == Some(&Exposure::Exterior);
        let wet = outdoors && open.device.is_some_and(|it| it.side.get() == Some(&Side::Outside));
        let plenum = entry.ceiling.get().is_some_and(|it| it.return_air.or(false));
        let typed = RunEntry {
            written_at: Some(open.place.clone()),
            length: given(length, &open.place),
            kind: given(route.kind, &open.place),
            class: given(class, &open.place),
            bends: given(route.bends.iter().copied().map(Count::from).collect(), &open.place),
            wet: given(wet, &open.place),
            plenum: given(plenum && class == RunClass::Low, &open.place),
            ..RunEntry::default()
        };
        Some(Run {
            number: 0,
            from: open.from.clone(),
            to: open.to.clone(),
            site: open.opening.site.clone(),
            kind: route.kind,
            class,
            size: None,
            length,
            bends: route.bends.clone(),
            entry: typed,
            place: open.place.clone(),
            part: None,
            assumed: Some(words),
        })
    }

    /// The length of an assumed route, and what it is made of in words.
    fn length_of(&self, open: &Open, route: &AssumedRoute) -> Option<(Length, String)> {
        let print = |length: Length| length.print(LengthForm::FeetInches, Finest::Sixteenth, Style::Plain);
        let profile = self.typed.entry.job.get().and_then(|head| head.profile.get());
        let profile = profile.and_then(|id| self.catalog.profiles.get(id.as_str()));
        let to_panel = profile.and_then(|it| it.panel_route).filter(|_| open.device.is_none());
        let carried = to_panel.unwrap_or(route.carried);
        let (mut length, mut words) = (carried, format!("assumed: {} carried", print(carried)));
        if let (true, Some(device)) = (route.along, open.device) {
            let along = device.distance.or(route.distance);
            length = length.checked_plus(along)?;
            words += &format!(", {} along the wall", print(along));
        }
        if route.up {
            let ceiling = ceiling_of(&open.opening.entry).unwrap_or(route.ceiling);
            let leaf = || open.opening.leaves.iter().filter_map(|leaf| leaf.height.cloned()).max();
            // From the floor where it is not known from where: longer, not shorter.
            let start = open.device.map_or_else(leaf, |it| it.height.cloned()).unwrap_or(Length::ZERO);
            if start < ceiling {
                length = length.checked_plus(ceiling - start)?;
                words += &format!(", {} up to the ceiling", print(ceiling - start));
            }
        }
        let whole = length.up_to(Length::feet(1));
        if whole != length {
            words += ", up to the next foot";
        }
        Some((whole, words))
    }
}

fn given<T>(value: T, place: &Place) -> Slot<T> {
    Slot::Given(Given { value, place: place.clone(), standing: Standing::Assumed, through: None })
}

fn ceiling_of(entry: &OpeningEntry) -> Option<Length> {
    entry.ceiling.get()?.height.cloned()
}

/// A powered opening with a panel from which no run leads to it.
fn without_line<'o>(opening: &'o Opening, line: &Joined) -> Option<Open<'o>> {
    let power = opening.entry.power.get()?;
    let wanted = power.known.get().is_some_and(|it| *it != PowerKnown::None);
    let powered = opening.leaves.iter().any(|leaf| leaf.powered.or(false));
    let panel = power.panel.given()?;
    let to = RunEnd::Opening(opening.mark.clone());
    (wanted && powered && !line.reaches_panel(&to)).then(|| Open {
        from: RunEnd::Panel(panel.value.as_str().to_owned()),
        to,
        opening,
        device: None,
        place: panel.place.clone(),
    })
}

/// The wired devices of ours, in a box or on a jamb, to which no run leads from their opening.
fn without_cable<'o>(opening: &'o Opening, low: &Joined) -> Vec<Open<'o>> {
    let powered = opening.leaves.iter().any(|leaf| leaf.powered.or(false));
    let from = RunEnd::Opening(opening.mark.clone());
    let devices = opening.entry.device.list().iter().zip(device_ids(opening)).filter(|_| powered);
    let open = |(device, id): (&'o DeviceEntry, String)| {
        let to = RunEnd::Device(opening.mark.clone(), id);
        let place = device.kind.place()?.clone();
        let open = has_cable(device) && !low.joins(&from, &to);
        open.then(|| Open { from: from.clone(), to, opening, device: Some(device), place })
    };
    devices.filter_map(open).collect()
}

fn has_cable(device: &DeviceEntry) -> bool {
    let boxed = matches!(
        device.mount.get(),
        Some(DeviceMount::Wall | DeviceMount::Post | DeviceMount::Desk | DeviceMount::Jamb)
    );
    boxed && !device.link.is_bad() && device.link.or(Link::Wired) == Link::Wired && device.by.is_absent()
}
