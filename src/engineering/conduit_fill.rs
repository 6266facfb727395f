//! Conductors in a raceway: areas, limits and the smallest size that takes them.
//!
//! In: conductors and a raceway. Out: areas in in², exact decimals of the tables. May not know: circuits, lengths.
//!
//! Tables: NEC chapter 9 tables 1 and 4 (github Samuel-DeSantis/cs client/src/data/conduit.js @93f551f, EMT compared
//! with vdocument.in/chapter-9-tablespdf.html), secondary. The code itself governs.

use rust_decimal::Decimal;

use super::{Conductor, TradeSize};

/// A raceway that is filled by area.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FilledRaceway {
    /// Electrical metallic tubing, article 358; not made in 3/8.
    Emt,
    /// Flexible metal conduit, article 348. Its 3/8 size is counted by table 348.22 (from memory), not by area.
    Fmc,
    /// Liquidtight flexible metal conduit, article 350.
    Lfmc,
}

/// Table 4 in thousandths: inside diameter in inches, then in² at 100, 60, 53, 31 and 40 percent.
type Row = [i64; 6];

const EMT: [Row; 6] = [
    [622, 304, 182, 161, 94, 122],
    [824, 533, 320, 283, 165, 213],
    [1049, 864, 519, 458, 268, 346],
    [1380, 1496, 897, 793, 464, 598],
    [1610, 2036, 1221, 1079, 631, 814],
    [2067, 3356, 2013, 1778, 1040, 1342],
];
const FMC: [Row; 6] = [
    [635, 317, 190, 168, 98, 127],
    [824, 533, 320, 283, 165, 213],
    [1020, 817, 490, 433, 253, 327],
    [1275, 1277, 766, 677, 396, 511],
    [1538, 1858, 1115, 985, 576, 743],
    [2040, 3269, 1961, 1732, 1013, 1307],
];
const LFMC: [Row; 6] = [
    [632, 314, 188, 166, 97, 125],
    [830, 541, 325, 287, 168, 216],
    [1054, 873, 524, 462, 270, 349],
    [1395, 1528, 917, 810, 474, 611],
    [1588, 1981, 1188, 1050, 614, 792],
    [2033, 3246, 1948, 1720, 1006, 1298],
];
/// 3/8 liquidtight; 3/8 flexible metal conduit is not filled by area and EMT has none.
const LFMC_THREE_EIGHTHS: Row = [494, 192, 115, 102, 59, 77];

fn row(raceway: FilledRaceway, size: TradeSize) -> Option<&'static Row> {
    let rows = match raceway {
        FilledRaceway::Emt => &EMT,
        FilledRaceway::Fmc => &FMC,
        FilledRaceway::Lfmc => &LFMC,
    };
    match (size, raceway) {
        (TradeSize::ThreeEighths, FilledRaceway::Lfmc) => Some(&LFMC_THREE_EIGHTHS),
        // The sizes from 1/2 on stand in the order of the enum, after 3/8.
        _ => (size as usize).checked_sub(1).and_then(|index| rows.get(index)),
    }
}

/// Why a fill cannot be computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FillFault {
    /// The raceway is not made in this size, or not filled by area in it.
    NoSuchSize,
    /// No conductor.
    Empty,
    /// More than the largest size of the table takes.
    TooMuch,
}

/// How full a raceway is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fill {
    /// Area of the conductors, in².
    pub used: Decimal,
    /// Area they may take, in².
    pub allowed: Decimal,
    /// Whole area of the raceway, in².
    pub whole: Decimal,
}

impl Fill {
    /// Whether the conductors are allowed.
    pub fn fits(self) -> bool {
        self.used <= self.allowed
    }

    /// Percent of the whole area, rounded up to a tenth.
    pub fn percent(self) -> Decimal {
        // The table has no raceway without area.
        (self.used * Decimal::ONE_THOUSAND / self.whole).ceil() / Decimal::TEN
    }
}

/// Fill of a raceway longer than 24 in: 53 percent for one conductor, 31 for two, 40 for more (table 1); of a nipple of
/// 24 in or less 60 percent (note 4). Equipment grounding conductors count (from memory).
///
/// # Errors
/// See [`FillFault`].
pub fn fill(
    conductors: &[(Conductor, u32)],
    raceway: FilledRaceway,
    size: TradeSize,
    nipple: bool,
) -> Result<Fill, FillFault> {
    let row = row(raceway, size).ok_or(FillFault::NoSuchSize)?;
    let count: u64 = conductors.iter().map(|(_, count)| u64::from(*count)).sum();
    let allowed = match count {
        0 => return Err(FillFault::Empty),
        _ if nipple => row[2],
        1 => row[3],
        2 => row[4],
        _ => row[5],
    };
    let used = conductors.iter().map(|(conductor, count)| conductor.area() * Decimal::from(*count)).sum();
    Ok(Fill { used, allowed: Decimal::new(allowed, 3), whole: Decimal::new(row[1], 3) })
}

/// The smallest size, not below `least`, that takes the conductors.
///
/// # Errors
/// See [`FillFault`].
pub fn smallest_size(
    conductors: &[(Conductor, u32)],
    raceway: FilledRaceway,
    least: TradeSize,
) -> Result<(TradeSize, Fill), FillFault> {
    for size in TradeSize::ALL.into_iter().filter(|size| *size >= least) {
        match fill(conductors, raceway, size, false) {
            Ok(fill) if fill.fits() => return Ok((size, fill)),
            Ok(_) | Err(FillFault::NoSuchSize) => {}
            Err(fault) => return Err(fault),
        }
    }
    Err(FillFault::TooMuch)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MIXED: [(Conductor, u32); 3] = [(Conductor::Awg12, 3), (Conductor::Awg10, 4), (Conductor::Awg8, 8)];

    #[test]
    fn the_published_example_takes_one_and_a_quarter() {
        // 3 No. 12, 4 No. 10, 8 No. 8 in EMT: 0.4171 in², 1 1/4, not 1: https://steeltubeinstitute.org/resources/post-4/
        let (size, found) = smallest_size(&MIXED, FilledRaceway::Emt, TradeSize::Half).unwrap();
        assert_eq!(
            (size, found.used, found.allowed),
            (TradeSize::OneAndQuarter, Decimal::new(4171, 4), Decimal::new(598, 3))
        );
        assert_eq!(found.percent(), Decimal::new(279, 1));
        assert!(!fill(&MIXED, FilledRaceway::Emt, TradeSize::One, false).unwrap().fits());
    }

    /// The most conductors of one size at 40 percent, three or more, where a quotient of 0.8 and above is rounded up (note 7,
    /// from memory).
    fn most_of_one(conductor: Conductor, raceway: FilledRaceway, size: TradeSize) -> Option<i64> {
        let allowed = Decimal::new(row(raceway, size)?[5], 3);
        let raised = allowed / conductor.area() + Decimal::new(2, 1);
        i64::try_from(raised.floor()).ok()
    }

    #[test]
    fn most_conductors_of_one_size() {
        // Quotients of tables 4 and 5; equal to annex C, from memory.
        let most = |conductor, size| most_of_one(conductor, FilledRaceway::Emt, size);
        let sizes = [TradeSize::Half, TradeSize::ThreeQuarter, TradeSize::One];
        assert_eq!(sizes.map(|size| most(Conductor::Awg12, size)), [Some(9), Some(16), Some(26)]);
        assert_eq!(most(Conductor::Awg14, TradeSize::ThreeQuarter), Some(22));
        assert_eq!(most(Conductor::Awg8, TradeSize::ThreeQuarter), Some(6));
        assert_eq!(most_of_one(Conductor::Awg12, FilledRaceway::Lfmc, TradeSize::Half), Some(9));
    }

    #[test]
    fn limits_go_by_the_count() {
        // Two No. 10 in 1/2 EMT: 0.0422 of 0.094 in² at 31 percent. 1 EMT: 0.864/0.519/0.458/0.268/0.346.
        let two = fill(&[(Conductor::Awg10, 2)], FilledRaceway::Emt, TradeSize::Half, false).unwrap();
        assert_eq!((two.used, two.allowed), (Decimal::new(422, 4), Decimal::new(94, 3)));
        let allowed = |count, nipple| {
            fill(&[(Conductor::Awg14, count)], FilledRaceway::Emt, TradeSize::One, nipple).unwrap().allowed
        };
        let found = [(1, false), (2, false), (3, false), (3, true)].map(|(count, nipple)| allowed(count, nipple));
        assert_eq!(found, [458, 268, 346, 519].map(|area| Decimal::new(area, 3)));
    }

    #[test]
    fn what_is_not_made_is_not_filled() {
        let wires = [(Conductor::Awg14, 3)];
        assert_eq!(fill(&wires, FilledRaceway::Emt, TradeSize::ThreeEighths, false), Err(FillFault::NoSuchSize));
        assert_eq!(fill(&wires, FilledRaceway::Fmc, TradeSize::ThreeEighths, false), Err(FillFault::NoSuchSize));
        assert!(fill(&wires, FilledRaceway::Lfmc, TradeSize::ThreeEighths, false).is_ok());
        assert_eq!(fill(&[], FilledRaceway::Emt, TradeSize::One, false), Err(FillFault::Empty));
        assert_eq!(
            smallest_size(&[(Conductor::Awg8, 99)], FilledRaceway::Emt, TradeSize::Half),
            Err(FillFault::TooMuch)
        );
        assert_eq!(
            smallest_size(&wires, FilledRaceway::Emt, TradeSize::ThreeQuarter).unwrap().0,
            TradeSize::ThreeQuarter
        );
    }

    /// Table 4 cell by cell as published (in; in² at 100, 60, 53, 31, 40 percent), against what [`fill`] allows.
    #[test]
    fn raceways_hold_cell_by_cell() {
        let published = [
            (FilledRaceway::Emt, "1/2", [304, 182, 161, 94, 122]),
            (FilledRaceway::Emt, "3/4", [533, 320, 283, 165, 213]),
            (FilledRaceway::Emt, "1", [864, 519, 458, 268, 346]),
            (FilledRaceway::Emt, "1 1/4", [1496, 897, 793, 464, 598]),
            (FilledRaceway::Emt, "1 1/2", [2036, 1221, 1079, 631, 814]),
            (FilledRaceway::Emt, "2", [3356, 2013, 1778, 1040, 1342]),
            (FilledRaceway::Fmc, "1/2", [317, 190, 168, 98, 127]),
            (FilledRaceway::Fmc, "3/4", [533, 320, 283, 165, 213]),
            (FilledRaceway::Fmc, "1", [817, 490, 433, 253, 327]),
            (FilledRaceway::Fmc, "1 1/4", [1277, 766, 677, 396, 511]),
            (FilledRaceway::Fmc, "1 1/2", [1858, 1115, 985, 576, 743]),
            (FilledRaceway::Fmc, "2", [3269, 1961, 1732, 1013, 1307]),
            (FilledRaceway::Lfmc, "3/8", [192, 115, 102, 59, 77]),
            (FilledRaceway::Lfmc, "1/2", [314, 188, 166, 97, 125]),
            (FilledRaceway::Lfmc, "3/4", [541, 325, 287, 168, 216]),
            (FilledRaceway::Lfmc, "1", [873, 524, 462, 270, 349]),
            (FilledRaceway::Lfmc, "1 1/4", [1528, 917, 810, 474, 611]),
            (FilledRaceway::Lfmc, "1 1/2", [1981, 1188, 1050, 614, 792]),
            (FilledRaceway::Lfmc, "2", [3246, 1948, 1720, 1006, 1298]),
        ];
        for (raceway, size, cells) in published {
            let size = TradeSize::parse(size).unwrap();
            let of = |count, nipple| fill(&[(Conductor::Awg14, count)], raceway, size, nipple).unwrap();
            let found = [of(3, false).whole, of(3, true).allowed, of(1, false).allowed, of(2, false).allowed];
            let found = [found[0], found[1], found[2], found[3], of(3, false).allowed];
            assert_eq!(found, cells.map(|cell| Decimal::new(cell, 3)), "{raceway:?} {size:?}");
        }
    }

    /// Every area is πd²/4 of its diameter, and every limit that share of the area, to the last digit of the table.
    #[test]
    fn tables_agree_with_themselves() {
        for row in EMT.iter().chain(&FMC).chain(&LFMC).chain([&LFMC_THREE_EIGHTHS]) {
            let diameter = row[0] as f64 / 1000.0;
            let area = std::f64::consts::PI / 4.0 * diameter * diameter * 1000.0;
            assert!((area - row[1] as f64).abs() <= 1.0, "{row:?}");
            for (share, limit) in [0.60, 0.53, 0.31, 0.40].into_iter().zip(&row[2..]) {
                assert!((share * area - *limit as f64).abs() <= 1.0, "{row:?} {share}");
            }
        }
    }
}
