//! How a figure prints: which unit, and the text.
//!
//! In: units and dimensions. Out: finished text such as `38.25 ft` or `$12.50 per ft`, and names of dimensions.
//! May not know: what the figure is.

use rust_decimal::Decimal;

use crate::measure::{Dimension, Quantity, Style, Unit, rounded};
use crate::money::Money;

/// The unit, or pair of units, that a figure prints in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shown {
    /// In one unit, such as `38.25 ft`.
    In(Unit),
    /// In one unit per another, such as `$12.50 per ft`.
    Per(Unit, Unit),
    /// A dimension that no unit names, on the way to one that has a name; prints its canonical units.
    Bare(Dimension),
}

/// Decimal places that print exactly; 1/64 in has six.
const PLACES: u32 = 6;
/// Decimal places of a number that has no end, or one past [`PLACES`]; it prints with `about`.
const ABOUT: u32 = 4;

impl Shown {
    /// A count.
    pub const EACH: Shown = Shown::In(Unit::Each);
    /// Money, in dollars and cents.
    pub const MONEY: Shown = Shown::In(Unit::Dollar);

    /// The unit a dimension prints in unless somebody says otherwise.
    pub fn usual(dimension: Dimension) -> Shown {
        let unit = match dimension {
            Dimension::NONE => Unit::Each,
            Dimension::LENGTH => Unit::Foot,
            Dimension::AREA => Unit::SquareFoot,
            Dimension::VOLUME => Unit::CubicFoot,
            Dimension::WEIGHT => Unit::Pound,
            Dimension::TIME => Unit::Hour,
            Dimension::FORCE => Unit::PoundForce,
            other => match Unit::of(other).next() {
                Some(unit) => unit,
                None => return Shown::Bare(other),
            },
        };
        Shown::In(unit)
    }

    /// The dimension of what prints so; none if it is beyond all exponents.
    pub fn dimension(self) -> Option<Dimension> {
        match self {
            Shown::In(unit) => Some(unit.dimension()),
            Shown::Per(over, under) => over.dimension().per(under.dimension()),
            Shown::Bare(dimension) => Some(dimension),
        }
    }

    fn is_plain(self) -> bool {
        self.dimension() == Some(Dimension::NONE)
    }

    /// How the product prints: `$ per ft` times `ft` is `$`, and plain numbers leave the other's unit.
    pub(super) fn times(self, other: Shown) -> Shown {
        match (self, other) {
            (Shown::Per(over, under), Shown::In(unit)) | (Shown::In(unit), Shown::Per(over, under))
                if under.dimension() == unit.dimension() =>
            {
                Shown::In(over)
            }
            (left, right) if left.is_plain() && right.is_plain() => Shown::EACH,
            (shown, plain) | (plain, shown) if plain.is_plain() => shown,
            (left, right) => left
                .dimension()
                .zip(right.dimension())
                .and_then(|(left, right)| left.times(right))
                .map_or(Shown::EACH, Shown::usual),
        }
    }

    /// How the quotient prints: a plain divisor leaves the unit, `$` by `ft` is `$ per ft`.
    pub(super) fn per(self, under: Shown) -> Shown {
        match (self, under) {
            (shown, plain) if plain.is_plain() => shown,
            (over, under) if over.dimension() == under.dimension() => Shown::EACH,
            (Shown::In(over), Shown::In(under)) => Shown::Per(over, under),
            (over, under) => over
                .dimension()
                .zip(under.dimension())
                .and_then(|(over, under)| over.per(under))
                .map_or(Shown::EACH, Shown::usual),
        }
    }

    /// The printed form of a quantity. Nothing is lost up to six decimal places; past that it says `about`.
    pub fn print(self, quantity: Quantity, style: Style) -> String {
        self.print_number(self.number(quantity), style)
    }

    /// The printed form of what a figure keeps: canonical units, or a rate in its own.
    pub(super) fn print_kept(self, kept: Decimal, style: Style) -> String {
        let number = match self {
            Shown::In(unit) => kept.checked_div(unit.factor()).unwrap_or(kept),
            Shown::Per(..) | Shown::Bare(_) => kept,
        };
        self.print_number(number.normalize(), style)
    }

    fn print_number(self, number: Decimal, style: Style) -> String {
        let exact = number.scale() <= PLACES;
        let number = if exact { number } else { rounded(number, ABOUT) };
        let text = match self {
            Shown::In(unit) => with_unit(number, unit, style),
            Shown::Per(over, under) => format!("{} per {}", with_unit(number, over, style), under.word()),
            Shown::Bare(dimension) => format!("{} {}", number.normalize(), canonical(dimension)),
        };
        if exact { text } else { format!("about {text}") }
    }

    /// The unit in words, such as `ft` or `$ per ft`.
    pub fn words(self) -> String {
        match self {
            Shown::In(unit) => unit.word().to_owned(),
            Shown::Per(over, under) => format!("{} per {}", over.word(), under.word()),
            Shown::Bare(dimension) => canonical(dimension),
        }
    }

    /// How many of the unit there are, to 28 digits.
    pub fn number(self, quantity: Quantity) -> Decimal {
        let value = quantity.value();
        // Neither step can fail for a figure of the ledger (factors lie between 1/1000 and 30 million); should one, the
        // canonical value stands.
        let number = match self {
            Shown::In(unit) => value.checked_div(unit.factor()),
            Shown::Per(over, under) => {
                value.checked_mul(under.factor()).and_then(|number| number.checked_div(over.factor()))
            }
            Shown::Bare(_) => None,
        };
        number.unwrap_or(value).normalize()
    }
}

fn with_unit(number: Decimal, unit: Unit, style: Style) -> String {
    if unit == Unit::Dollar {
        return Money::dollars(number).print();
    }
    let printed = Quantity::in_units(number, unit).ok().and_then(|quantity| quantity.print(unit, PLACES, style));
    // Only a number beyond 28 digits in canonical units has no other form.
    printed.unwrap_or_else(|| format!("{number} {}", unit.word()))
}

/// Canonical units with their exponents, such as `mm s^-1`.
fn canonical(dimension: Dimension) -> String {
    let powers = [
        ("$", dimension.money),
        ("mm", dimension.length),
        ("g", dimension.weight),
        ("s", dimension.time),
        ("N", dimension.force),
        ("A", dimension.current),
        ("V", dimension.potential),
    ];
    let words = powers.iter().filter(|(_, power)| *power != 0).map(|(word, power)| match power {
        1 => (*word).to_owned(),
        power => format!("{word}^{power}"),
    });
    words.collect::<Vec<_>>().join(" ")
}

/// A dimension in plain words with its article, such as `a length` or `a count`.
pub fn kind_of(dimension: Dimension) -> String {
    let plain = match dimension {
        Dimension::NONE => "a count",
        Dimension::LENGTH => "a length",
        Dimension::AREA => "an area",
        Dimension::VOLUME => "a volume",
        Dimension::WEIGHT => "a weight",
        Dimension::TIME => "a time",
        Dimension::FORCE => "a force",
        Dimension::TORQUE => "a torque",
        Dimension::PRESSURE => "a pressure",
        Dimension::SPEED => "a speed",
        Dimension::CURRENT => "a current",
        Dimension::POTENTIAL => "a voltage",
        Dimension::POWER => "a power",
        Dimension::MONEY => "an amount of money",
        other => return format!("a quantity in {}", canonical(other)),
    };
    plain.to_owned()
}
