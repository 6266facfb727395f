//! A vestibule of two powered doors whose devices open a locked door to anyone, or wait for a credential on the way out.
//!
//! In: an opening with its partner. Out: `staged-access`. May not know: access systems; a missing device is told by
//! `vestibule-positions`.

use super::{Check, CheckScope, OpeningContext};
use crate::engineering::{DevicePlace, Door, Placed, StageFault, Travel, Works, stage_faults};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{DeviceKind, Live, LockedLine, Opening, Side};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Stages of a vestibule that do not follow one another.
pub static CODE: Code = Code {
    id: "staged-access",
    severity: Severity::Warning,
    says: "{found}; required in a vestibule with two powered doors: {asked}",
    why: "A plate that is always active on the unsecured side opens the locked door to anyone; one that needs a \
          credential on the egress side traps people in the vestibule.",
    example: "vestibule = { partner = \"101B\", locked = \"here\" }\ndevice = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", live = \"always\" }]",
    blocks: Papers::NONE,
};

/// Common practice, no source. Told once, at the outer door: the one from whose inside one comes to the partner's outside.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(vestibule) = opening.opening.entry.vestibule.get() else { return };
    let Some(partner) = opening.partner else { return };
    let powered = |it: &Opening| it.leaves.iter().any(|leaf| leaf.powered.or(false));
    if !powered(opening.opening) || !powered(partner) || !is_outer(opening.opening, partner) {
        return;
    }
    let locked = vestibule.locked.get().and_then(|locked| match locked {
        LockedLine::Here => Some(Door::Outer),
        LockedLine::Partner => Some(Door::Inner),
        LockedLine::Neither => None,
    });
    let devices: Vec<Placed> = placed(opening.opening, Door::Outer).chain(placed(partner, Door::Inner)).collect();
    let reported = stage_faults(locked, &devices).into_iter().filter(|it| !matches!(it, StageFault::NoDevice(_)));
    for fault in reported {
        let finding = CHECK
            .finding(opening.subject())
            .at(opening.place_or_own(opening.opening.entry.device.place().or(opening.opening.entry.vestibule.place())))
            .near(partner.place.clone(), format!("the other door {}", partner.mark))
            .found(words(fault))
            .asked("a device at each of four locations, active when a person is there")
            .price("devices are in the bid as they are given");
        findings.push(finding.advise(advice(fault)));
    }
}

/// Whether the opening's inner room is the partner's outer one.
fn is_outer(opening: &Opening, partner: &Opening) -> bool {
    let inside = opening
        .entry
        .between
        .list()
        .iter()
        .find(|room| opening.entry.outside.get().is_some_and(|outside| outside.as_str() != room.as_str()));
    inside.zip(partner.entry.outside.get()).is_some_and(|(inside, outside)| inside.as_str() == outside.as_str())
}

fn placed(opening: &Opening, door: Door) -> impl Iterator<Item = Placed> + '_ {
    let acts = opening.entry.device.list().iter();
    let acts = acts.filter(|it| {
        !it.kind.get().is_some_and(|it| *it == DeviceKind::Safety || it.is_credential() || it.is_of_lock())
    });
    acts.filter_map(move |it| {
        let travel = match it.side.get()? {
            Side::Outside => Travel::In,
            Side::Inside => Travel::Out,
        };
        // A key is a credential, whenever it works.
        let works = match it.live.or(Live::Always) {
            Live::Always if it.kind.get() == Some(&DeviceKind::KeySwitch) => Works::Unlocked,
            Live::Always => Works::Always,
            Live::Unlocked | Live::Schedule => Works::Unlocked,
            Live::Credential => Works::Window,
        };
        Some(Placed { place: DevicePlace::of(door, travel), works })
    })
}

fn words(fault: StageFault) -> String {
    match fault {
        StageFault::NoDevice(place) => format!("no device {}", place.words()),
        StageFault::Unlocks(place) => format!("device {} at the locked door is always active", place.words()),
        StageFault::KeepsIn(place) => format!("device {} on the egress side requires a credential", place.words()),
    }
}

fn advice(fault: StageFault) -> &'static str {
    match fault {
        StageFault::NoDevice(_) => "add a device there, or state in the sequence how that door opens",
        StageFault::Unlocks(_) => "write live = \"credential window\" or \"while unlocked\" for it",
        StageFault::KeepsIn(_) => "write live = \"always\"; egress is by hand in any case, with or without power",
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, sound};

    fn device(side: &str, live: &str) -> String {
        format!("{{ kind = \"push plate\", side = \"{side}\", mount = \"wall\", live = \"{live}\" }}")
    }

    /// Opening 101 as the outer door, 102 as the inner one, with the devices given.
    fn vestibule(outer: &[String], inner: &[String], locked: &str) -> Fixture {
        let here = "between = [\"Porch\", \"Street\"]\noutside = \"Street\"";
        let there = "between = [\"Lobby\", \"Porch\"]\noutside = \"Porch\"";
        sound().and(&format!(
            "{here}\nvestibule = {{ partner = \"102\", locked = \"{locked}\" }}\ndevice = [{}]\n\
             [[opening]]\nmark = \"102\"\nkind = \"plain\"\n{there}\nvestibule = {{ partner = \"101\" }}\ndevice = [{}]",
            outer.join(", "),
            inner.join(", "),
        ))
    }

    #[test]
    fn four_devices_pass_and_what_is_open_or_keeps_in_is_reported() {
        let both = [device("outside", "always"), device("inside", "always")];
        vestibule(&both, &both, "neither").passes(&CHECK);
        let reported = |bench: Fixture| bench.one(&CHECK).0.found;
        vestibule(&both, &both[..1], "neither").passes(&CHECK);
        let free = "device outside at the locked door is always active";
        assert_eq!(reported(vestibule(&both, &both, "here")), free);
        let behind = [device("outside", "credential window"), device("inside", "always")];
        vestibule(&behind, &both, "here").passes(&CHECK);
        let kept = [both[0].clone(), device("inside", "credential window")];
        assert!(reported(vestibule(&both, &kept, "neither")).ends_with("on the egress side requires a credential"));
    }
}
