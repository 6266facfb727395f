//! Facts of devices and of access that a complete job states: what starts a leaf, who reaches a device, how many people come.
//!
//! In: openings of a job. Out: findings of the codes below, one a site. May not know: prices.

use std::collections::BTreeSet;

use super::super::absence::{AbsenceCheck, DependentWork, Lacking};
use super::super::access::worked_by_hand;
use super::{Check, CheckScope, LeafContext, OpeningContext};
use crate::catalog::ClauseOf;
use crate::findings::{Code, Papers, Severity};
use crate::job::{DeviceEntry, DeviceKind, EnergyClass, Live, Side, Swing};

/// A powered leaf that no device starts.
pub(in crate::review) static ACTIVATION_MISSING: Check = Check {
    code: &Code {
        id: "activation-missing",
        severity: Severity::Warning,
        says: "no activation device for {found}; {asked}",
        why: "A low-energy leaf opens after a knowing act, a full-energy leaf when a sensor sees a person. Without a \
              device the operator does nothing, and no device, box, cable or sign is in the price.",
        example: "energy = \"low energy\"\nleaf = { powered = true }   # and no device",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_activation,
        assumed: "assumed: each is opened by hand",
        depends: DependentWork::LeftOut,
        advise: "add device = [{ kind = \"…\", side = \"…\", mount = \"…\" }] for each side, or powered = false",
        question: Some("Which devices open these leaves, on which sides, and where are they mounted?"),
    }),
};

/// A powered leaf that nothing starts for a person who comes from one side.
pub(in crate::review) static ACTIVATION_ONE_SIDE: Check = Check {
    code: &Code {
        id: "activation-one-side",
        severity: Severity::FieldVerify,
        says: "confirm that no activation device is required on this side: {found}; {asked}",
        why: "A leaf is usually opened by its operator for persons from both sides. One side without a device can be \
              intended, such as egress by hand, or a device was forgotten together with its box, cable and sign.",
        example: "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\" }]   # and none inside",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: started_from_one_side,
        assumed: "assumed: opened by hand from there",
        depends: DependentWork::LeftOut,
        advise: "ask; then add a device with that side",
        question: Some("These leaves have an activation device on one side only. Is one required on the other side?"),
    }),
};

/// A device that waits for the door to be unlocked, and nothing at the opening that unlocks it.
pub(in crate::review) static CREDENTIAL_UNKNOWN: Check = Check {
    code: &Code {
        id: "credential-unknown",
        severity: Severity::FieldVerify,
        says: "confirm what unlocks this opening, without reader, keypad or key switch of its own: {found}; {asked}",
        why: "A device that works while the door is unlocked, or for a time after a credential, waits for a reader, a keypad, a key switch \
              or a schedule. Whose it is decides boxes, cable and a meeting with the access system's vendor.",
        example: "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", live = \"while unlocked\" }]   # and no reader",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_credential,
        assumed: "assumed: unlocked from elsewhere",
        depends: DependentWork::LeftOut,
        advise: "add the reader or key switch as a device, with by = \"…\" where it is of others, or live = \"schedule\"",
        question: Some(
            "What unlocks these openings: a reader, a keypad, a key switch, or the access system from elsewhere?",
        ),
    }),
};

/// A public entrance of which the rule for automatic doors cannot be decided.
pub(in crate::review) static OCCUPANT_LOAD_UNKNOWN: Check = Check {
    code: &Code {
        id: "occupant-load-unknown",
        severity: Severity::Warning,
        says: "public entrance without use group or occupant load: {found}; {asked}",
        why: "Above certain occupant loads the model code requires an automatic door at a public entrance. Without use \
              group and load it cannot be decided whether this entrance is one of them.",
        example: "access = { public_entrance = true }   # and neither use_group nor occupant_load",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_load,
        assumed: "assumed: no automatic door is required",
        depends: DependentWork::LeftOut,
        advise: "write use_group and occupant_load of the building in access",
        question: Some("What are the use group and the occupant load of the building at these public entrances?"),
    }),
};

/// Devices worked by hand, and no edition that says how high one may be.
pub(in crate::review) static REACH_UNLIMITED: Check = Check {
    code: &Code {
        id: "reach-unlimited",
        severity: Severity::Warning,
        says: "no edition named by the job has limits of reach for {found}; {asked}",
        why: "Heights of devices are judged by the reach clauses of an edition. Where none of those named has any, a \
              plate at any height passes.",
        example: "rules = [\"nec-2023\"]   # at a job with push plates",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_reach,
        assumed: "assumed: each is in reach",
        depends: DependentWork::LeftOut,
        advise: "name the accessibility standard of the place in rules, or add its reach clauses to the catalog",
        question: Some("Which accessibility standard governs the height of devices here?"),
    }),
};

/// A full-energy leaf without a sensor on the side that it swings to.
pub(in crate::review) static SWING_UNGUARDED: Check = Check {
    code: &Code {
        id: "swing-unguarded",
        severity: Severity::Warning,
        says: "full-energy leaf without safety sensor on the side it swings to: {found}; {asked}",
        why: "A full-energy leaf strikes a person in its swing path. A sensor that looks at the other side does not see \
              that person. ANSI/BHMA A156.10, from memory.",
        example: "energy = \"full energy\"\nleaf = { swing = \"toward\" }\ndevice = [{ kind = \"safety sensor\", side = \"inside\", mount = \"header\" }]",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: swinging_unguarded,
        assumed: "assumed: guarded by other means",
        depends: DependentWork::LeftOut,
        advise: "add a safety sensor with that side, or accept this with the reason why the swing is guarded",
        question: Some("What guards the swing of these full-energy leaves?"),
    }),
};

/// A site whose local amendments are not stated.
pub(in crate::review) static JURISDICTION_UNKNOWN: Check = Check {
    code: &Code {
        id: "jurisdiction-unknown",
        severity: Severity::Warning,
        says: "no jurisdiction named for the job: {found}; {asked}",
        why: "A local amendment can ask for plates at two heights or for standby power, and multiplies devices, boxes \
              and hours.",
        example: "[job]\nnumber = \"2611-07\"   # and no jurisdictions, while the catalog has some",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Absence(AbsenceCheck {
        lacking: without_jurisdiction,
        assumed: "assumed: no local amendment",
        depends: DependentWork::LeftOut,
        advise: "write jurisdictions = [\"…\"] in [job]; one without amendments is a [jurisdiction.…] with a name alone",
        question: Some("Which authority has jurisdiction, and which local amendments apply?"),
    }),
};

/// Whether an opening's operator waits for something to start it: power assist waits for a push.
fn is_started(opening: &OpeningContext) -> bool {
    let entry = &opening.opening.entry;
    let assist = entry.energy.is_bad() || entry.energy.get() == Some(&EnergyClass::Assist);
    opening.is_powered() && !assist && !entry.device.is_bad()
}

/// The sides on which something starts a leaf; nothing where a device of it cannot be read.
fn started_from(leaf: &LeafContext) -> Option<BTreeSet<Side>> {
    let mut sides = BTreeSet::new();
    for device in leaf.of.opening.entry.device.list() {
        if device.kind.is_bad() || device.side.is_bad() || device.leaf.is_bad() {
            return None;
        }
        let of_it = device.leaf.get().is_none_or(|number| number.get() as usize == leaf.number);
        if of_it && device.kind.get().is_some_and(|kind| *kind != DeviceKind::Safety && !kind.is_of_lock()) {
            sides.extend(device.side.cloned());
        }
    }
    Some(sides)
}

/// The name of a leaf: its opening's mark, with its number where there are several.
pub(super) fn name(leaf: &LeafContext) -> String {
    let mark = &leaf.of.opening.mark;
    if leaf.of.opening.leaves.len() > 1 { format!("{mark} leaf {}", leaf.number) } else { mark.clone() }
}

fn without_activation(openings: &[OpeningContext]) -> Vec<Lacking> {
    let each = openings.iter().enumerate().filter(|(_, it)| is_started(it));
    each.flat_map(|(at, it)| {
        let bare = it.powered().filter(|leaf| started_from(leaf).is_some_and(|sides| sides.is_empty()));
        bare.map(|leaf| Lacking { at, name: name(&leaf), place: Some(leaf.place()) }).collect::<Vec<_>>()
    })
    .collect()
}

fn started_from_one_side(openings: &[OpeningContext]) -> Vec<Lacking> {
    let each = openings.iter().enumerate().filter(|(_, it)| is_started(it));
    let lacking = |(at, leaf): (usize, LeafContext)| {
        let sides = started_from(&leaf)?;
        let missing = match (sides.contains(&Side::Outside), sides.contains(&Side::Inside)) {
            (true, false) => Side::Inside,
            (false, true) => Side::Outside,
            _ => return None,
        };
        Some(Lacking {
            at,
            name: format!("{} {missing}", name(&leaf)),
            place: leaf.of.opening.entry.device.place().cloned(),
        })
    };
    each.flat_map(|(at, it)| it.powered().filter_map(|leaf| lacking((at, leaf))).collect::<Vec<_>>()).collect()
}

fn without_credential(openings: &[OpeningContext]) -> Vec<Lacking> {
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate().filter(|(_, it)| it.is_powered()) {
        let devices = || opening.opening.entry.device.list().iter();
        let unlocks = |it: &DeviceEntry| {
            it.kind.is_bad() || it.kind.get().is_some_and(|it| it.is_credential() || *it == DeviceKind::KeySwitch)
        };
        let waits = devices().find(|it| matches!(it.live.get(), Some(Live::Unlocked | Live::Credential)));
        if let (Some(waits), false) = (waits, devices().any(unlocks)) {
            found.push(Lacking { at, name: opening.opening.mark.clone(), place: waits.live.place().cloned() });
        }
    }
    found
}

fn without_load(openings: &[OpeningContext]) -> Vec<Lacking> {
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate() {
        let entry = &opening.opening.entry;
        let Some(access) = entry.access.get().filter(|it| it.public_entrance.or(false)) else { continue };
        let automatic = opening.is_powered() && entry.energy.get() != Some(&EnergyClass::Assist);
        if automatic || entry.energy.is_bad() || access.use_group.is_bad() || access.occupant_load.is_bad() {
            continue;
        }
        let named = |group: &str| {
            let asked = opening.asked(ClauseOf::AutomaticDoor);
            asked.iter().flat_map(|it| &it.edition.triggers).any(|it| it.groups.iter().any(|it| it == group))
        };
        let open = match access.use_group.get() {
            None => opening.first_asked(ClauseOf::AutomaticDoor).is_some(),
            Some(group) => access.occupant_load.is_absent() && named(group.as_str()),
        };
        if open {
            let place = access.public_entrance.place().cloned();
            found.push(Lacking { at, name: opening.opening.mark.clone(), place });
        }
    }
    found
}

fn without_reach(openings: &[OpeningContext]) -> Vec<Lacking> {
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate() {
        let has = |of| opening.first_asked(of).is_some();
        if opening.editions().is_empty() || has(ClauseOf::ForwardReach) || has(ClauseOf::SideReach) {
            continue;
        }
        let mut devices = opening.opening.entry.device.list().iter().filter(|it| worked_by_hand(it));
        if let Some(first) = devices.next() {
            found.push(Lacking { at, name: opening.opening.mark.clone(), place: first.height.place().cloned() });
        }
    }
    found
}

fn swinging_unguarded(openings: &[OpeningContext]) -> Vec<Lacking> {
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate() {
        let entry = &opening.opening.entry;
        if entry.energy.get() != Some(&EnergyClass::Full) || entry.device.is_bad() {
            continue;
        }
        for leaf in opening.powered() {
            let of_it = |device: &&DeviceEntry| {
                let number = device.leaf.get().is_none_or(|number| number.get() as usize == leaf.number);
                number && device.kind.get() == Some(&DeviceKind::Safety)
            };
            let mut sensors = entry.device.list().iter().filter(of_it).peekable();
            let (Some(swing), true) = (leaf.entry.swing.get(), sensors.peek().is_some()) else { continue };
            let toward = if *swing == Swing::Toward { Side::Outside } else { Side::Inside };
            if !sensors.any(|device| device.side.is_bad() || device.side.get() == Some(&toward)) {
                found.push(Lacking {
                    at,
                    name: format!("{} {toward}", name(&leaf)),
                    place: entry.energy.place().cloned(),
                });
            }
        }
    }
    found
}

fn without_jurisdiction(openings: &[OpeningContext]) -> Vec<Lacking> {
    let mut sites = BTreeSet::new();
    let mut found = Vec::new();
    for (at, opening) in openings.iter().enumerate().filter(|(_, it)| it.is_powered()) {
        let head = &opening.job.head;
        let named =
            head.jurisdictions_unread || !head.jurisdictions.is_empty() || opening.catalog.jurisdictions.is_empty();
        if !named && sites.insert(opening.opening.site.as_str()) {
            let place = Some(opening.job.head.place.clone());
            found.push(Lacking { at, name: opening.opening.site.clone(), place });
        }
    }
    found
}
