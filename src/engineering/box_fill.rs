//! What an electrical box holds, and the smallest that takes what comes into it.
//!
//! In: conductors, grounds, clamps, devices. Out: cubic inches needed and offered, exact decimals. May not know: which box
//! stands where.
//!
//! Tables 314.16(A) and (B): intrysys.com/tools/electrical/box-fill-volume-chart, synthmind.com/Electrical_Box_Sizing_Guide
//! .htm, secondary. One chart prints 10.5 for the 4 × 2 1/8 × 1 1/2 device box; 10.3 is taken. The code itself governs.

use rust_decimal::Decimal;

use super::conductors::Conductor;

/// How equipment grounds count, by edition of 314.16(B)(5) (forums.mikeholt.com/threads/egc-fill.2566828, secondary).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GroundRule {
    /// Before 2020: all of them as one of the largest.
    AllAsOne,
    /// From 2020: four as one of the largest, each further a quarter of it.
    QuarterBeyondFour,
}

/// What is in a box.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BoxContent {
    /// Conductors that end, pass or are spliced in the box, pigtails left out.
    pub conductors: Vec<(Conductor, u32)>,
    /// Equipment grounds.
    pub grounds: Vec<(Conductor, u32)>,
    /// Isolated grounds, which count as one more of their own.
    pub isolated_grounds: Vec<(Conductor, u32)>,
    /// Whether clamps stand inside.
    pub clamps: bool,
    /// Devices, each by the largest conductor on it.
    pub devices: Vec<Conductor>,
}

impl Conductor {
    /// Volume that a conductor takes, in in³, table 314.16(B).
    pub fn box_volume(self) -> Decimal {
        Decimal::new(
            match self {
                Conductor::Awg18 => 150,
                Conductor::Awg16 => 175,
                Conductor::Awg14 => 200,
                Conductor::Awg12 => 225,
                Conductor::Awg10 => 250,
                Conductor::Awg8 => 300,
            },
            2,
        )
    }
}

/// Volume needed, in in³: each conductor one, grounds by the edition's rule, clamps one of the largest, a device two of the
/// largest on it, 314.16(B)(1) to (5). Zero for an empty box.
pub fn volume_needed(content: &BoxContent, rule: GroundRule) -> Decimal {
    let each = |list: &[(Conductor, u32)]| -> Decimal {
        list.iter().map(|(conductor, count)| conductor.box_volume() * Decimal::from(*count)).sum()
    };
    let clamps = match largest(content).filter(|_| content.clamps) {
        Some(conductor) => conductor.box_volume(),
        None => Decimal::ZERO,
    };
    let devices: Decimal = content.devices.iter().map(|it| it.box_volume() * Decimal::TWO).sum();
    let grounds = grounds(&content.grounds, rule) + grounds(&content.isolated_grounds, rule);
    each(&content.conductors) + grounds + clamps + devices
}

fn largest(content: &BoxContent) -> Option<Conductor> {
    content.conductors.iter().filter(|(_, count)| *count > 0).map(|(conductor, _)| *conductor).max()
}

fn grounds(list: &[(Conductor, u32)], rule: GroundRule) -> Decimal {
    let count: u32 = list.iter().map(|(_, count)| count).sum();
    let Some(largest) = list.iter().filter(|(_, count)| *count > 0).map(|(conductor, _)| *conductor).max() else {
        return Decimal::ZERO;
    };
    let beyond = match rule {
        GroundRule::AllAsOne => 0,
        GroundRule::QuarterBeyondFour => count.saturating_sub(4),
    };
    largest.box_volume() * (Decimal::ONE + Decimal::new(25, 2) * Decimal::from(beyond))
}

/// A box of table 314.16(A): what it is called and its volume in hundredths of an in³.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BoxSize {
    /// What it is called.
    pub name: &'static str,
    hundredths: i64,
}

impl BoxSize {
    /// Volume in in³.
    pub fn volume(self) -> Decimal {
        Decimal::new(self.hundredths, 2)
    }
}

const fn sized(name: &'static str, hundredths: i64) -> BoxSize {
    BoxSize { name, hundredths }
}

/// Square boxes, rising.
pub const SQUARE: [BoxSize; 6] = [
    sized("4 in square × 1 1/4 in", 1_800),
    sized("4 in square × 1 1/2 in", 2_100),
    sized("4 11/16 in square × 1 1/4 in", 2_550),
    sized("4 11/16 in square × 1 1/2 in", 2_950),
    sized("4 in square × 2 1/8 in", 3_030),
    sized("4 11/16 in square × 2 1/8 in", 4_200),
];
/// Octagon boxes, rising.
pub const OCTAGON: [BoxSize; 3] = [
    sized("4 in octagon × 1 1/4 in", 1_250),
    sized("4 in octagon × 1 1/2 in", 1_550),
    sized("4 in octagon × 2 1/8 in", 2_150),
];
/// Device boxes of 3 in × 2 in, rising.
pub const DEVICE: [BoxSize; 6] = [
    sized("3 in × 2 in × 1 1/2 in", 750),
    sized("3 in × 2 in × 2 in", 1_000),
    sized("3 in × 2 in × 2 1/4 in", 1_050),
    sized("3 in × 2 in × 2 1/2 in", 1_250),
    sized("3 in × 2 in × 2 3/4 in", 1_400),
    sized("3 in × 2 in × 3 1/2 in", 1_800),
];
/// Device boxes of 4 in × 2 1/8 in, masonry and cast boxes, rising.
pub const OTHER_DEVICE: [BoxSize; 7] = [
    sized("4 in × 2 1/8 in × 1 1/2 in", 1_030),
    sized("4 in × 2 1/8 in × 1 7/8 in", 1_300),
    sized("FS, one gang", 1_350),
    sized("3 3/4 in × 2 in × 2 1/2 in masonry, a gang", 1_400),
    sized("4 in × 2 1/8 in × 2 1/8 in", 1_450),
    sized("FD, one gang", 1_800),
    sized("3 3/4 in × 2 in × 3 1/2 in masonry, a gang", 2_100),
];

/// The smallest box of a rising list that takes a content; nothing where none does.
pub fn smallest_box(content: &BoxContent, rule: GroundRule, boxes: &[BoxSize]) -> Option<BoxSize> {
    let needed = volume_needed(content, rule);
    boxes.iter().copied().find(|size| size.volume() >= needed)
}

/// What the usual box at a header holds: line, neutral and ground in and out to the operator, and a switch or the joints,
/// each circuit with conductors of one size (common practice, no source).
pub fn header_box(circuits: u32, conductor: Conductor) -> BoxContent {
    BoxContent {
        conductors: vec![(conductor, 4 * circuits)],
        grounds: vec![(conductor, 2 * circuits)],
        clamps: false,
        devices: vec![conductor],
        ..BoxContent::default()
    }
}

#[cfg(test)]
mod tests;
