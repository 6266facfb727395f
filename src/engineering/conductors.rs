//! Conductors by size: area, resistance, circular mils.
//!
//! In: a size and how it is built. Out: values of the published tables, exact decimals. May not know: circuits, runs.
//!
//! Tables: NEC chapter 9 table 5 (buildmyowncabin.com/nec/nec2008_chap9_table5.html; 18 and 16 from
//! scribd.com/document/675675632) and table 8 (sfasoft.com/look/35/Conductor_Properties), both secondary. A page that
//! prints 3.07, 1.93, 1.21 and 0.764 as stranded is wrong: those are the solid values. The code itself governs.

use rust_decimal::Decimal;

/// A conductor by size; THHN/THWN-2, the two smallest as TFN/TFFN of the same construction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Conductor {
    /// 18 AWG.
    Awg18,
    /// 16 AWG.
    Awg16,
    /// 14 AWG.
    Awg14,
    /// 12 AWG.
    Awg12,
    /// 10 AWG.
    Awg10,
    /// 8 AWG.
    Awg8,
}

/// How a conductor is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Strands {
    /// One wire.
    Solid,
    /// Seven wires.
    Stranded,
}

impl Conductor {
    /// All sizes, smallest first.
    pub const ALL: [Conductor; 6] =
        [Conductor::Awg18, Conductor::Awg16, Conductor::Awg14, Conductor::Awg12, Conductor::Awg10, Conductor::Awg8];

    /// The conductor of a size; nothing for a size that the tables here do not hold.
    pub fn of_awg(awg: u32) -> Option<Conductor> {
        Conductor::ALL.into_iter().find(|it| it.awg() == awg)
    }

    /// Its size.
    pub fn awg(self) -> u32 {
        match self {
            Conductor::Awg18 => 18,
            Conductor::Awg16 => 16,
            Conductor::Awg14 => 14,
            Conductor::Awg12 => 12,
            Conductor::Awg10 => 10,
            Conductor::Awg8 => 8,
        }
    }

    /// Diameter in thousandths of an inch and area in ten-thousandths of a square inch, table 5.
    pub(super) fn size(self) -> (i64, i64) {
        match self {
            Conductor::Awg18 => (84, 55),
            Conductor::Awg16 => (96, 72),
            Conductor::Awg14 => (111, 97),
            Conductor::Awg12 => (130, 133),
            Conductor::Awg10 => (164, 211),
            Conductor::Awg8 => (216, 366),
        }
    }

    /// Area in in², table 5.
    pub fn area(self) -> Decimal {
        Decimal::new(self.size().1, 4)
    }

    /// Ohms for 1,000 ft of uncoated copper at 75 °C, table 8.
    pub fn ohms_per_thousand_feet(self, strands: Strands) -> Decimal {
        let (solid, stranded) = match self {
            Conductor::Awg18 => (7_770, 7_950),
            Conductor::Awg16 => (4_890, 4_990),
            Conductor::Awg14 => (3_070, 3_140),
            Conductor::Awg12 => (1_930, 1_980),
            Conductor::Awg10 => (1_210, 1_240),
            Conductor::Awg8 => (764, 778),
        };
        Decimal::new(if strands == Strands::Solid { solid } else { stranded }, 3)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    impl Conductor {
        /// Circular mils, table 8.
        fn circular_mils(self) -> i64 {
            match self {
                Conductor::Awg18 => 1_620,
                Conductor::Awg16 => 2_580,
                Conductor::Awg14 => 4_110,
                Conductor::Awg12 => 6_530,
                Conductor::Awg10 => 10_380,
                Conductor::Awg8 => 16_510,
            }
        }

        /// The designator as written.
        fn word(self) -> &'static str {
            match self {
                Conductor::Awg18 => "18 AWG",
                Conductor::Awg16 => "16 AWG",
                Conductor::Awg14 => "14 AWG",
                Conductor::Awg12 => "12 AWG",
                Conductor::Awg10 => "10 AWG",
                Conductor::Awg8 => "8 AWG",
            }
        }
    }

    /// Tables 5 and 8 cell by cell: in, in², Ω/kft solid, Ω/kft stranded, circular mils. Sources above.
    #[test]
    fn tables_hold_cell_by_cell() {
        let rows = [
            "18 AWG 0.084 0.0055 7.77 7.95 1620",
            "16 AWG 0.096 0.0072 4.89 4.99 2580",
            "14 AWG 0.111 0.0097 3.07 3.14 4110",
            "12 AWG 0.130 0.0133 1.93 1.98 6530",
            "10 AWG 0.164 0.0211 1.21 1.24 10380",
            "8 AWG 0.216 0.0366 0.764 0.778 16510",
        ];
        for (conductor, row) in Conductor::ALL.into_iter().zip(rows) {
            let text = format!(
                "{} {} {} {} {} {}",
                conductor.word(),
                Decimal::new(conductor.size().0, 3),
                conductor.area(),
                conductor.ohms_per_thousand_feet(Strands::Solid).normalize(),
                conductor.ohms_per_thousand_feet(Strands::Stranded).normalize(),
                conductor.circular_mils()
            );
            assert_eq!(text, row);
        }
    }

    /// Negative: the published page that labels solid values stranded (voltdropcalc.com/nec-chapter-9-table-8).
    #[test]
    fn solid_values_are_not_taken_for_stranded() {
        for (conductor, solid) in [(Conductor::Awg14, 3_070), (Conductor::Awg12, 1_930), (Conductor::Awg10, 1_210)] {
            assert!(conductor.ohms_per_thousand_feet(Strands::Stranded) > Decimal::new(solid, 3));
        }
    }

    /// Area is πd²/4, and the diameter in mils squared of a bare solid wire is its circular mils: K = R CM / 1000 lies by
    /// 12.6 for solid and 12.9 for stranded copper at 75 °C (derived; 12 AWG 12.93, 14 AWG 12.91).
    #[test]
    fn tables_agree_with_each_other() {
        for conductor in Conductor::ALL {
            let (diameter, area) = conductor.size();
            let computed = std::f64::consts::PI / 4.0 * (diameter * diameter) as f64 / 100.0;
            assert!((computed - area as f64).abs() <= 1.0, "{conductor:?} {computed}");
            let k = |strands| conductor.ohms_per_thousand_feet(strands) * Decimal::from(conductor.circular_mils());
            let near = |found: Decimal, wanted: i64| (found - Decimal::from(wanted)).abs() <= Decimal::from(50);
            assert!(near(k(Strands::Solid), 12_605), "{conductor:?} {}", k(Strands::Solid));
            assert!(near(k(Strands::Stranded), 12_885), "{conductor:?} {}", k(Strands::Stranded));
        }
    }
}
