//! Boxes and fixings: what they are called, what they go into, which fasteners they need.
//!
//! In: an opening of the arrangement, its operator. Out: names, substrates, counts of fasteners. May not know: rules.

use super::{BoxFor, BoxWork, DeviceWork, FixingWork, OpeningWork};
use crate::catalog::{LeafMade, Substrate};
use crate::findings::Place;
use crate::job::{Exposure, Side};
use crate::mechanics::HeaderHold;

impl BoxWork {
    /// What it is called, such as `box of 101A/P1`.
    pub fn name(&self, opening: &OpeningWork) -> String {
        match self.of {
            BoxFor::Device(at) => {
                format!("box for {}/{}", opening.opening.mark, opening.devices.get(at).map_or("", |it| it.id.as_str()))
            }
            BoxFor::Header(at) => format!("box for {}, header {}", opening.opening.mark, at + 1),
        }
    }
}

impl BoxWork {
    /// The device it is for; none where it is a header's.
    pub fn device<'w, 'j>(&self, opening: &'w OpeningWork<'j>) -> Option<&'w DeviceWork<'j>> {
        match self.of {
            BoxFor::Device(at) => opening.devices.get(at),
            BoxFor::Header(_) => None,
        }
    }

    /// The side of the opening it is on: its device's or its header's.
    pub fn side(&self, opening: &OpeningWork) -> Option<Side> {
        match self.of {
            BoxFor::Device(at) => opening.devices.get(at)?.entry.side.cloned(),
            BoxFor::Header(at) => opening.headers.get(at)?.side,
        }
    }

    /// Whether it is outdoors: on the outside of an exterior opening. Not known where the side is not.
    pub fn wet(&self, opening: &OpeningWork) -> Option<bool> {
        match opening.opening.entry.exposure.or(Exposure::Interior) {
            Exposure::Interior => Some(false),
            Exposure::Exterior => self.side(opening).map(|side| side == Side::Outside),
        }
    }
}

impl FixingWork {
    /// What it is called, such as `fixing of 101A, header 1`.
    pub fn name(&self, opening: &OpeningWork) -> String {
        let mark = &opening.opening.mark;
        match self {
            FixingWork::Header(at) => format!("fixing of {mark}, header {}", at + 1),
            FixingWork::Arm(at) => format!("fixing of {mark}, arm of drive {}", at + 1),
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
            FixingWork::Arm(at) => opening.leaves.get(opening.drives.get(*at)?.leaf)?.entry.made.cloned(),
        }
    }

    /// How the header is held; none for an arm, and without an operator.
    pub fn hold<'o, 'j>(&self, opening: &'o OpeningWork<'j>) -> Option<&'o HeaderHold<'j>> {
        match self {
            FixingWork::Header(at) => opening.headers.get(*at)?.hold.as_ref(),
            FixingWork::Arm(_) => None,
        }
    }

    /// Fasteners needed, with those of a plate that the header needs: what is drilled, told and bought.
    pub fn screws(&self, opening: &OpeningWork) -> Option<u32> {
        match self {
            FixingWork::Header(_) => Some(self.hold(opening)?.screws()),
            FixingWork::Arm(_) => Some(opening.operator?.arm_screws),
        }
    }

    /// Those of them that hold the plate.
    pub fn plate_screws(&self, opening: &OpeningWork) -> Option<u32> {
        match self {
            FixingWork::Header(_) => Some(self.hold(opening)?.plate_screws()),
            FixingWork::Arm(_) => Some(0),
        }
    }

    /// Fasteners to bring beyond the kit.
    pub fn short(&self, opening: &OpeningWork) -> Option<u32> {
        Some(self.screws(opening)?.saturating_sub(self.kit(opening)?.0))
    }

    /// Fasteners of the kit that hold it in the end: those replaced or thrown away do not count; and where the catalog says so.
    pub fn kit<'o>(&self, opening: &'o OpeningWork) -> Option<(u32, &'o Place)> {
        let operator = opening.operator?;
        let found = match self {
            FixingWork::Header(_) => {
                let into = self.substrate(opening)?;
                operator.header_kit.iter().find(|kit| kit.into == into).map(|kit| (kit.holding(), &kit.place))
            }
            FixingWork::Arm(_) => {
                let into = self.leaf_made(opening)?;
                operator.arm_kit.iter().find(|kit| kit.into == into).map(|kit| (kit.holding(), &kit.place))
            }
        };
        Some(found.unwrap_or((0, &operator.place)))
    }
}
