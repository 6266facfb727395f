//! What an electrical box holds, and the volume that it takes.
//!
//! In: conductors, grounds, clamps, devices. Out: cubic inches needed, exact decimals. May not know: which box stands where.
//!
//! Table 314.16(B): intrysys.com/tools/electrical/box-fill-volume-chart, synthmind.com/Electrical_Box_Sizing_Guide.htm,
//! secondary. The code itself governs.

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
