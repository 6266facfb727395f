//! Units by name: how a number with a unit becomes a quantity and goes back.
//!
//! In: unit words as people write them. Out: dimension and exact factor to canonical units.
//! May not know: how a number is written, what is measured.

use rust_decimal::Decimal;

use super::{Dimension, Quantity, QuantityFault};

/// A unit that items are sold in, rules are written in and figures are printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// A count.
    Each,
    /// A hundredth.
    Percent,
    /// A degree of arc; without dimension, kept in degrees.
    Degree,
    /// International inch, 25.4 mm.
    Inch,
    /// International foot, 304.8 mm.
    Foot,
    /// International mile, 5,280 ft.
    Mile,
    /// Millimetre.
    Millimetre,
    /// Centimetre.
    Centimetre,
    /// Metre.
    Metre,
    /// Square inch.
    SquareInch,
    /// Square foot.
    SquareFoot,
    /// Square metre.
    SquareMetre,
    /// Cubic inch.
    CubicInch,
    /// Cubic foot.
    CubicFoot,
    /// Avoirdupois pound, 453.59237 g.
    Pound,
    /// Gram.
    Gram,
    /// Kilogram.
    Kilogram,
    /// Pound-force, 4.4482216152605 N.
    PoundForce,
    /// Newton.
    Newton,
    /// Second.
    Second,
    /// Minute.
    Minute,
    /// Hour.
    Hour,
    /// Milliampere.
    Milliampere,
    /// Ampere.
    Ampere,
    /// Volt.
    Volt,
    /// Watt.
    Watt,
    /// Volt-ampere; of the same dimension as the watt.
    VoltAmpere,
    /// US dollar.
    Dollar,
    /// Pound-force foot: a torque, or an energy.
    PoundForceFoot,
    /// Newton metre: a torque.
    NewtonMetre,
    /// Joule: an energy.
    Joule,
    /// Pascal.
    Pascal,
    /// Conventional inch of water gauge, 249.08891 Pa.
    InchOfWater,
    /// Mile an hour.
    MileAnHour,
}

/// Word, other spellings (lower case), dimension, factor mantissa and its decimal places.
type Row = (Unit, &'static str, &'static [&'static str], Dimension, i64, u32);

/// Exact factors: inch of water by ISO 80000-4 (from memory); inch, pound and pound-force by the international yard and pound agreement of 1959 and the standard
/// acceleration 9.80665 m/s² (from memory; they are definitions).
const ROWS: [Row; 34] = [
    (Unit::Each, "each", &["ea", "ea.", "pc", "pcs"], Dimension::NONE, 1, 0),
    (Unit::Percent, "%", &["percent"], Dimension::NONE, 1, 2),
    (Unit::Degree, "deg", &["°", "degree", "degrees"], Dimension::NONE, 1, 0),
    (Unit::Inch, "in", &["in.", "inch", "inches", "\"", "″"], Dimension::LENGTH, 254, 1),
    (Unit::Foot, "ft", &["ft.", "foot", "feet", "'", "′", "lf"], Dimension::LENGTH, 3048, 1),
    (Unit::Mile, "mi", &["mi.", "mile", "miles"], Dimension::LENGTH, 1_609_344, 0),
    (Unit::Millimetre, "mm", &["millimetre", "millimetres", "millimeter", "millimeters"], Dimension::LENGTH, 1, 0),
    (Unit::Centimetre, "cm", &["centimetre", "centimetres", "centimeter", "centimeters"], Dimension::LENGTH, 10, 0),
    (Unit::Metre, "m", &["metre", "metres", "meter", "meters"], Dimension::LENGTH, 1000, 0),
    (Unit::SquareInch, "sq in", &["sq. in.", "in²", "in2"], Dimension::AREA, 64516, 2),
    (Unit::SquareFoot, "sq ft", &["sq. ft.", "sqft", "sf", "ft²", "ft2"], Dimension::AREA, 9_290_304, 2),
    (Unit::SquareMetre, "sq m", &["m²", "m2"], Dimension::AREA, 1_000_000, 0),
    (Unit::CubicInch, "cu in", &["cu. in.", "in³", "in3"], Dimension::VOLUME, 16_387_064, 3),
    (Unit::CubicFoot, "cu ft", &["cu. ft.", "cf", "ft³", "ft3"], Dimension::VOLUME, 28_316_846_592, 3),
    (Unit::Pound, "lb", &["lb.", "lbs", "lbs.", "pound", "pounds"], Dimension::WEIGHT, 45_359_237, 5),
    (Unit::Gram, "g", &["gram", "grams"], Dimension::WEIGHT, 1, 0),
    (Unit::Kilogram, "kg", &["kilogram", "kilograms"], Dimension::WEIGHT, 1000, 0),
    (Unit::PoundForce, "lbf", &["pound-force", "pounds-force"], Dimension::FORCE, 44_482_216_152_605, 13),
    (Unit::Newton, "N", &["newton", "newtons"], Dimension::FORCE, 1, 0),
    (Unit::Second, "s", &["sec", "sec.", "second", "seconds"], Dimension::TIME, 1, 0),
    (Unit::Minute, "min", &["min.", "minute", "minutes"], Dimension::TIME, 60, 0),
    (Unit::Hour, "h", &["hr", "hr.", "hrs", "hrs.", "hour", "hours"], Dimension::TIME, 3600, 0),
    (Unit::Milliampere, "mA", &["milliampere", "milliamperes"], Dimension::CURRENT, 1, 3),
    (Unit::Ampere, "A", &["amp", "amps", "ampere", "amperes"], Dimension::CURRENT, 1, 0),
    (Unit::Volt, "V", &["volt", "volts"], Dimension::POTENTIAL, 1, 0),
    (Unit::Watt, "W", &["watt", "watts"], Dimension::POWER, 1, 0),
    (Unit::VoltAmpere, "VA", &["volt-ampere", "volt-amperes"], Dimension::POWER, 1, 0),
    (Unit::Dollar, "$", &["usd", "dollar", "dollars"], Dimension::MONEY, 1, 0),
    (
        Unit::PoundForceFoot,
        "lbf ft",
        &["lbf·ft", "lbf-ft", "ft lbf", "ft-lbf"],
        Dimension::TORQUE,
        13_558_179_483_314_004,
        13,
    ),
    (Unit::NewtonMetre, "N m", &["n-m", "newton metre", "newton metres"], Dimension::TORQUE, 1000, 0),
    (Unit::Joule, "J", &["joule", "joules"], Dimension::TORQUE, 1000, 0),
    (Unit::Pascal, "Pa", &["pascal", "pascals"], Dimension::PRESSURE, 1, 6),
    (Unit::InchOfWater, "in wg", &["in w. g.", "in. w. g.", "in wg."], Dimension::PRESSURE, 24_908_891, 11),
    (Unit::MileAnHour, "mph", &["mi an hour", "miles an hour"], Dimension::SPEED, 44_704, 2),
];

impl Unit {
    /// Every unit, in the order of this list.
    pub fn all() -> impl Iterator<Item = Unit> {
        ROWS.iter().map(|row| row.0)
    }

    fn row(self) -> &'static Row {
        // The rows stand in the order of the variants; a test holds them to it.
        &ROWS[self as usize]
    }

    /// The word or sign that people write and that papers print, such as `ft`.
    pub fn word(self) -> &'static str {
        self.row().1
    }

    /// Its dimension.
    pub fn dimension(self) -> Dimension {
        self.row().3
    }

    /// How much one of it is in canonical units, exactly.
    pub fn factor(self) -> Decimal {
        Decimal::new(self.row().4, self.row().5)
    }

    /// The unit of a word. Single letters keep their case (`A`, `V`, `N`, `m`), as do symbols with a capital inside
    /// (`mA`, `VA`); longer words may be written either way.
    pub fn parse(word: &str) -> Option<Unit> {
        let word = word.trim();
        let lower = word.to_lowercase();
        let spelled = |row: &&Row| row.1 == word || row.2.contains(&lower.as_str());
        let loose = |row: &&Row| row.1.len() > 1 && row.1 == lower;
        ROWS.iter().find(spelled).or_else(|| ROWS.iter().find(loose)).map(|row| row.0)
    }

    /// The units of a dimension, in the order of the list.
    pub fn of(dimension: Dimension) -> impl Iterator<Item = Unit> {
        Unit::all().filter(move |unit| unit.dimension() == dimension)
    }
}

impl Quantity {
    /// So many of a unit.
    ///
    /// # Errors
    /// `TooLarge` if the product does not fit.
    pub fn in_units(number: Decimal, unit: Unit) -> Result<Quantity, QuantityFault> {
        let value = number.checked_mul(unit.factor()).ok_or(QuantityFault::TooLarge)?;
        Ok(Quantity::new(value, unit.dimension()))
    }

    /// How many of a unit this is, to 28 digits; nothing if the unit measures something else.
    pub fn number_of(self, unit: Unit) -> Option<Decimal> {
        if self.dimension() != unit.dimension() {
            return None;
        }
        self.value().checked_div(unit.factor()).map(|number| number.normalize())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_stand_in_the_order_of_the_variants_and_words_lead_back() {
        for (index, unit) in Unit::all().enumerate() {
            assert_eq!(unit as usize, index, "{unit:?}");
            assert_eq!(Unit::parse(unit.word()), Some(unit));
            for other in unit.row().2 {
                assert_eq!(Unit::parse(other), Some(unit), "{other}");
            }
        }
    }

    #[test]
    fn no_spelling_means_two_units() {
        let mut seen = std::collections::BTreeMap::new();
        for unit in Unit::all() {
            for word in std::iter::once(&unit.word()).chain(unit.row().2) {
                assert_eq!(seen.insert(word.to_string(), unit), None, "{word}");
            }
        }
        assert_eq!(Unit::parse("M"), None);
        assert_eq!(Unit::parse("a"), None);
        assert_eq!(Unit::parse("MM"), Some(Unit::Millimetre));
        assert_eq!(Unit::parse("FT"), Some(Unit::Foot));
    }

    #[test]
    fn factors_are_the_definitions() {
        // 1 ft = 0.3048 m, 1 lb = 0.453 592 37 kg, 1 lbf = 4.448 221 615 260 5 N: from memory.
        let cases = [(Unit::Foot, "304.8"), (Unit::Pound, "453.59237"), (Unit::PoundForce, "4.4482216152605")];
        for (unit, factor) in cases {
            assert_eq!(unit.factor(), factor.parse::<Decimal>().unwrap());
        }
        // 1 lbf ft = 1.355 817 948 331 400 4 N m, 1 in of water = 249.088 91 Pa, 1 mph = 0.447 04 m/s: from memory.
        let derived =
            [(Unit::PoundForceFoot, Unit::Joule, "1.3558179483314004"), (Unit::InchOfWater, Unit::Pascal, "249.08891")];
        for (unit, other, number) in derived {
            let one = Quantity::in_units(Decimal::ONE, unit).unwrap();
            assert_eq!(one.number_of(other), Some(number.parse().unwrap()));
        }
        assert_eq!(Unit::MileAnHour.factor(), "447.04".parse().unwrap());
        let twelve = Quantity::in_units(Decimal::from(12), Unit::Inch).unwrap();
        assert_eq!(twelve.number_of(Unit::Foot), Some(Decimal::ONE));
        let square = twelve.times(twelve).unwrap();
        assert_eq!(square.number_of(Unit::SquareFoot), Some(Decimal::ONE));
        assert_eq!(square.times(twelve).unwrap().number_of(Unit::CubicFoot), Some(Decimal::ONE));
        assert_eq!(square.number_of(Unit::Foot), None);
    }
}
