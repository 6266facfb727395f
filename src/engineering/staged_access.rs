//! Staged access: who opens which door of a way, in which order, and whether a person has the time for it.
//!
//! In: distances, times, where the locked line is, when each device works. Out: times asked and offered, the stages of a
//! passage, and what is missing in them. May not know: openings, credentials, vendors.
//!
//! The pace is the walking figure of the accessibility standard for elevators, by analogy.

use rust_decimal::Decimal;

use super::safe_rounding::{number, positive, up_in};
use crate::measure::{Duration, Length, Unit};

/// How far a person walks in a second, 1.5 ft: ADA 2010 407.3.4 (read), by analogy: that clause is about elevators.
const PACE: Length = Length::inches(18);

/// Time to walk a distance, up to a tenth of a second: 1.5 ft/s (ADA 2010 407.3.4, by analogy).
pub fn walking_time(distance: Length) -> Option<Duration> {
    up_in(number(distance, Unit::Foot)?.max(0.0) / positive(PACE, Unit::Foot)?, Unit::Second, 1)
}

/// How long a window after a credential is to last for a walk: at the same pace, up to the whole second, and at least 5 s
/// (common practice, no source).
pub fn credential_window(walk: Length) -> Option<Duration> {
    Duration::new(Decimal::from(walk.pieces_of(PACE)?.max(5)), Unit::Second)
}

/// The time a leaf offers to a person, beside what the way asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OfferedTime {
    /// From the act to the moment the leaf starts to close: opening and hold-open.
    pub offered: Duration,
    /// What the way from the device through the opening asks for.
    pub asked: Duration,
}

impl OfferedTime {
    /// The opening and hold-open of a leaf against a way, walked at 1.5 ft/s (ADA 2010 407.3.4, by analogy).
    pub fn of(opening: Duration, hold_open: Duration, way: Length) -> Option<OfferedTime> {
        let seconds = number(opening, Unit::Second)? + number(hold_open, Unit::Second)?;
        Some(OfferedTime { offered: up_in(seconds, Unit::Second, 3)?, asked: walking_time(way)? })
    }

    /// Whether it is enough.
    pub fn is_enough(&self) -> bool {
        self.offered >= self.asked
    }

    /// The hold-open at which it would be, up to a whole second.
    pub fn hold_open_asked(&self, opening: Duration) -> Option<Duration> {
        let left = number(self.asked, Unit::Second)? - positive(opening, Unit::Second)?;
        up_in(left.max(0.0), Unit::Second, 0)
    }
}

/// A door of a vestibule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Door {
    /// Between the outside and the vestibule.
    Outer,
    /// Between the vestibule and the building.
    Inner,
}

/// The way a person goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Travel {
    /// Into the building.
    In,
    /// Out of it.
    Out,
}

impl Travel {
    /// Both ways.
    pub const ALL: [Travel; 2] = [Travel::In, Travel::Out];

    /// The doors in the order in which a person meets them.
    pub fn doors(self) -> [Door; 2] {
        match self {
            Travel::In => [Door::Outer, Door::Inner],
            Travel::Out => [Door::Inner, Door::Outer],
        }
    }
}

/// One of the four places of devices in a vestibule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DevicePlace {
    /// Before the outer door, for a person who goes in.
    Outside,
    /// In the vestibule, for a person who goes in.
    InsideGoingIn,
    /// In the vestibule, for a person who goes out.
    InsideGoingOut,
    /// In the building, for a person who goes out.
    Interior,
}

impl DevicePlace {
    /// The four, in the order of the way in.
    pub const ALL: [DevicePlace; 4] =
        [DevicePlace::Outside, DevicePlace::InsideGoingIn, DevicePlace::InsideGoingOut, DevicePlace::Interior];

    /// The place of a device that opens `door` for a person who goes `travel`.
    pub fn of(door: Door, travel: Travel) -> DevicePlace {
        match (door, travel) {
            (Door::Outer, Travel::In) => DevicePlace::Outside,
            (Door::Inner, Travel::In) => DevicePlace::InsideGoingIn,
            (Door::Outer, Travel::Out) => DevicePlace::InsideGoingOut,
            (Door::Inner, Travel::Out) => DevicePlace::Interior,
        }
    }

    /// Its words.
    pub fn words(self) -> &'static str {
        match self {
            DevicePlace::Outside => "outside",
            DevicePlace::InsideGoingIn => "in the vestibule, going in",
            DevicePlace::InsideGoingOut => "in the vestibule, going out",
            DevicePlace::Interior => "interior",
        }
    }
}

/// When a device works.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Works {
    /// Always.
    Always,
    /// While the door is unlocked, or by schedule.
    Unlocked,
    /// While the window after a credential is open.
    Window,
}

/// A device of a vestibule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Placed {
    /// Where.
    pub place: DevicePlace,
    /// When.
    pub works: Works,
}

/// What is wrong with the stages of a vestibule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StageFault {
    /// A person who goes this way meets a powered door without a device.
    NoDevice(DevicePlace),
    /// A device before the locked line that works without a credential: anyone opens the locked door.
    Unlocks(DevicePlace),
    /// A device that waits for a credential where a person leaves: a live plate is never egress, and needs none to go out.
    KeepsIn(DevicePlace),
}

/// What is wrong with the stages of a vestibule whose two doors are powered. `locked` is the door of the locked line, if one
/// is locked (common practice, no source).
pub fn stage_faults(locked: Option<Door>, devices: &[Placed]) -> Vec<StageFault> {
    let mut faults = Vec::new();
    for travel in Travel::ALL {
        for door in travel.doors() {
            let place = DevicePlace::of(door, travel);
            let here = || devices.iter().filter(move |it| it.place == place);
            if here().next().is_none() {
                faults.push(StageFault::NoDevice(place));
            }
            let free = here().any(|it| it.works == Works::Always);
            if travel == Travel::In && locked == Some(door) && free {
                faults.push(StageFault::Unlocks(place));
            }
            if travel == Travel::Out && here().any(|it| it.works == Works::Window) {
                faults.push(StageFault::KeepsIn(place));
            }
        }
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seconds(text: &str) -> Duration {
        Duration::new(text.parse().unwrap(), Unit::Second).unwrap()
    }

    /// Arithmetic on 1.5 ft/s: 12 ft are 8 s, 13 ft 8 2/3.
    #[test]
    fn a_walk_takes_its_time() {
        assert_eq!(walking_time(Length::feet(12)), Some(seconds("8")));
        assert_eq!(walking_time(Length::feet(13)), Some(seconds("8.7")));
    }

    /// Arithmetic: 3.5 s and 5 s are offered; 12 ft ask for 8 s, 14 ft for 9.4 s, which a hold-open of 6 s gives.
    #[test]
    fn a_person_has_the_time_or_is_reported_how_much_is_missing() {
        let offered = |feet: i64| OfferedTime::of(seconds("3.5"), seconds("5"), Length::feet(feet)).unwrap();
        assert!(offered(12).is_enough());
        assert!(!offered(14).is_enough());
        assert_eq!(offered(14).hold_open_asked(seconds("3.5")), Some(seconds("6")));
    }

    fn placed(place: DevicePlace, works: Works) -> Placed {
        Placed { place, works }
    }

    #[test]
    fn a_vestibule_with_its_four_devices_passes() {
        let all = DevicePlace::ALL.map(|place| placed(place, Works::Always));
        assert_eq!(stage_faults(None, &all), []);
        let mut behind_reader = all;
        behind_reader[0].works = Works::Window;
        assert_eq!(stage_faults(Some(Door::Outer), &behind_reader), []);
    }

    #[test]
    fn what_is_missing_or_open_is_reported() {
        let all = DevicePlace::ALL.map(|place| placed(place, Works::Always));
        assert_eq!(stage_faults(Some(Door::Inner), &all), [StageFault::Unlocks(DevicePlace::InsideGoingIn)]);
        assert_eq!(stage_faults(None, &all[..3]), [StageFault::NoDevice(DevicePlace::Interior)]);
        let mut shut_in = all;
        shut_in[3].works = Works::Window;
        assert_eq!(stage_faults(None, &shut_in), [StageFault::KeepsIn(DevicePlace::Interior)]);
    }

    /// The four places are the two doors seen from the two ways.
    #[test]
    fn every_place_is_one_door_for_one_way() {
        let mut places: Vec<DevicePlace> = Travel::ALL
            .into_iter()
            .flat_map(|travel| travel.doors().map(|door| DevicePlace::of(door, travel)))
            .collect();
        places.sort();
        assert_eq!(places, DevicePlace::ALL);
        assert_eq!(Travel::In.doors(), [Door::Outer, Door::Inner]);
    }
}
