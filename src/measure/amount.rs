//! Weights, forces, times and electrical measures: one number and its unit, kept exactly.
//!
//! In: a text such as `150 lb`. Out: a value of its own type, so that a weight is never taken for a force.
//! May not know: what is weighed or fed.

use std::ops::Range;

use rust_decimal::Decimal;

use super::printing::print_measure;
use super::scan::{Mark, Token, comma, scan};
use super::{Dimension, Length, Measure, Misread, MisreadKind, Quantity, Style, System, Unit};

/// Declares a measure that is a decimal in canonical units.
macro_rules! amounts {
    ($($(#[$doc:meta])* $name:ident, $what:literal, $dimension:ident, $inch:expr, $metric:expr;)*) => { $(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(Decimal);

        impl $name {
            /// So many of a unit; nothing if the unit measures something else or the number is too large.
            pub fn new(number: Decimal, unit: Unit) -> Option<Self> {
                Self::of(Quantity::in_units(number, unit).ok()?)
            }

            /// How many of a unit, to 28 digits; nothing if the unit measures something else.
            pub fn number_of(self, unit: Unit) -> Option<Decimal> {
                self.quantity().number_of(unit)
            }

            /// The value in a unit as text, as [`Quantity::print`].
            pub fn print(self, unit: Unit, places: u32, style: Style) -> Option<String> {
                print_measure(self, unit, places, style)
            }
        }

        impl Measure for $name {
            const WHAT: &'static str = $what;
            const DIMENSION: Dimension = Dimension::$dimension;

            fn read(text: &str, system: System) -> Result<Self, Misread> {
                let bare = if system == System::Inch { &$inch[..] } else { &$metric[..] };
                read_amount(text, $what, Dimension::$dimension, bare).map(|quantity| $name(quantity.value()))
            }

            fn quantity(self) -> Quantity {
                Quantity::new(self.0, Dimension::$dimension)
            }

            fn of(quantity: Quantity) -> Option<Self> {
                (quantity.dimension() == Dimension::$dimension).then(|| $name(quantity.value()))
            }
        }
    )* };
}

amounts! {
    /// A weight, in grams.
    Weight, "a weight", WEIGHT, [Unit::Pound, Unit::Kilogram], [Unit::Kilogram, Unit::Pound];
    /// A force, in newtons.
    Force, "a force", FORCE, [Unit::PoundForce, Unit::Newton], [Unit::Newton, Unit::PoundForce];
    /// A span of time, in seconds. `1 h 15 min` is read as a sum.
    Duration, "a time", TIME, [Unit::Second, Unit::Hour], [Unit::Second, Unit::Hour];
    /// A torque, in newton millimetres.
    Torque, "a torque", TORQUE, [Unit::PoundForceFoot, Unit::NewtonMetre], [Unit::NewtonMetre, Unit::PoundForceFoot];
    /// An energy, in newton millimetres, which are thousandths of a joule.
    Energy, "an energy", TORQUE, [Unit::PoundForceFoot, Unit::Joule], [Unit::Joule, Unit::PoundForceFoot];
    /// A pressure, in newtons on a square millimetre.
    Pressure, "a pressure", PRESSURE, [Unit::InchOfWater, Unit::Pascal], [Unit::Pascal, Unit::InchOfWater];
    /// A speed, in millimetres a second.
    Speed, "a speed", SPEED, [Unit::MileAnHour], [Unit::MileAnHour];
    /// An electric potential, in volts.
    Volts, "a voltage", POTENTIAL, [Unit::Volt], [Unit::Volt];
    /// An electric current, in amperes.
    Amps, "a current", CURRENT, [Unit::Ampere], [Unit::Ampere];
}

/// An angle in degrees, exact. It has no dimension, so a bare number is degrees.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Angle(Decimal);

impl Angle {
    /// So many degrees.
    pub fn degrees(degrees: impl Into<Decimal>) -> Angle {
        Angle(degrees.into().normalize())
    }

    /// The angle in degrees.
    pub fn to_degrees(self) -> Decimal {
        self.0
    }

    /// The angle as text, as [`Quantity::print`].
    pub fn print(self, places: u32, style: Style) -> String {
        // A degree measures every quantity without dimension, so there is always a text.
        print_measure(self, Unit::Degree, places, style).unwrap_or_default()
    }
}

impl Measure for Angle {
    const WHAT: &'static str = "an angle";
    const DIMENSION: Dimension = Dimension::NONE;

    fn read(text: &str, _: System) -> Result<Angle, Misread> {
        let wrong = |unit: &Unit| !matches!(unit, Unit::Degree | Unit::Each);
        let (value, unit, at) = number_and_unit(text, Angle::WHAT)?;
        if unit.as_ref().is_some_and(wrong) {
            return Err(Misread::new(at, MisreadKind::WrongUnit, "an angle is written in degrees").instead("90 deg"));
        }
        Ok(Angle::degrees(value))
    }

    fn quantity(self) -> Quantity {
        Quantity::count(self.0)
    }

    fn of(quantity: Quantity) -> Option<Angle> {
        (quantity.dimension() == Dimension::NONE).then(|| Angle(quantity.value()))
    }
}

/// Reads any number with a unit of [`Unit`]: what a catalog says of an item without a type of its own. Lengths may be
/// written in every form of [`Length`]; a bare number is a count.
///
/// # Errors
/// As [`Measure::read`].
pub fn read_quantity(text: &str, system: System) -> Result<(Quantity, Unit), Misread> {
    let number = match number_and_unit(text, "a quantity") {
        Ok((value, unit, at)) => {
            let unit = unit.unwrap_or(Unit::Each);
            return Ok((quantity(value, unit, &at)?, unit));
        }
        Err(misread) => misread,
    };
    let unit = length_unit(text).ok_or(number)?;
    Ok((Length::read(text, system)?.quantity(), unit))
}

/// The last unit of length or foot or inch mark of a text.
fn length_unit(text: &str) -> Option<Unit> {
    scan(text).ok()?.iter().rev().find_map(|token| match token.mark {
        Mark::FootSign => Some(Unit::Foot),
        Mark::InchSign => Some(Unit::Inch),
        Mark::Word => Unit::parse(&text[token.at.clone()]).filter(|unit| unit.dimension() == Dimension::LENGTH),
        _ => None,
    })
}

fn quantity(number: Decimal, unit: Unit, at: &Range<usize>) -> Result<Quantity, Misread> {
    Quantity::in_units(number, unit)
        .map_err(|_| Misread::new(at.clone(), MisreadKind::TooMuch, "more than can be kept exactly"))
}

/// A sum of numbers with units of one dimension; one of them is the usual case, several are read for times alone.
fn read_amount(text: &str, what: &str, dimension: Dimension, bare: &[Unit]) -> Result<Quantity, Misread> {
    let tokens = scan(text)?;
    let reads = |other: &str| read_amount(other, what, dimension, bare).is_ok();
    if let Some(misread) = comma(text, &tokens, reads) {
        return Err(misread);
    }
    let mut sum = Quantity::new(Decimal::ZERO, dimension);
    let mut smallest: Option<Unit> = None;
    for piece in pieces(text, &tokens, what)? {
        let unit = piece.unit.ok_or_else(|| without_unit(&piece, what, bare))?;
        if unit.dimension() != dimension {
            return Err(unlike(&piece, unit, what, dimension));
        }
        if smallest.is_some_and(|last| dimension != Dimension::TIME || unit.factor() >= last.factor()) {
            let says = format!("{what} is one number and its unit");
            return Err(Misread::new(piece.at, MisreadKind::NotOne, says));
        }
        smallest = Some(unit);
        let part = quantity(piece.number, unit, &piece.at)?;
        sum = sum.plus(part).map_err(|_| Misread::new(piece.at, MisreadKind::TooMuch, "more than can be kept"))?;
    }
    Ok(sum)
}

/// A number with the unit behind it, and the bytes of both.
struct Piece {
    number: Decimal,
    unit: Option<Unit>,
    at: Range<usize>,
}

/// One number and its unit, if one stands there.
fn number_and_unit(text: &str, what: &str) -> Result<(Decimal, Option<Unit>, Range<usize>), Misread> {
    let tokens = scan(text)?;
    if let Some(misread) = comma(text, &tokens, |other| number_and_unit(other, what).is_ok()) {
        return Err(misread);
    }
    match &pieces(text, &tokens, what)?[..] {
        [piece] => Ok((piece.number, piece.unit, piece.at.clone())),
        _ => {
            let says = format!("{what} is one number and its unit");
            Err(Misread::new(0..text.len(), MisreadKind::NotOne, says))
        }
    }
}

fn pieces(text: &str, tokens: &[Token], what: &str) -> Result<Vec<Piece>, Misread> {
    if tokens[0].mark == Mark::Hyphen {
        let says = format!("{what} is not below zero");
        return Err(Misread::new(tokens[0].at.clone(), MisreadKind::Negative, says));
    }
    let mut pieces = Vec::new();
    let mut rest = tokens;
    while let [first, behind @ ..] = rest {
        let Mark::Number(number) = first.mark else {
            return Err(Misread::new(first.at.clone(), MisreadKind::NotOne, "a number is missing here"));
        };
        let count = behind.iter().take_while(|token| !matches!(token.mark, Mark::Number(_))).count();
        let (words, others) = behind.split_at(count);
        rest = others;
        refuse_fraction(first, words)?;
        let at = first.at.start..words.last().unwrap_or(first).at.end;
        pieces.push(Piece { number, unit: unit_of(text, words)?, at });
    }
    Ok(pieces)
}

fn refuse_fraction(number: &Token, words: &[Token]) -> Result<(), Misread> {
    match words.iter().find(|token| matches!(token.mark, Mark::Slash | Mark::Vulgar(..))) {
        Some(token) => {
            let says = "write a decimal such as 0.5 instead of a fraction";
            Err(Misread::new(number.at.start..token.at.end, MisreadKind::BadFraction, says))
        }
        None => Ok(()),
    }
}

/// The unit of the tokens behind a number; several words make one unit, as in `sq ft`.
fn unit_of(text: &str, words: &[Token]) -> Result<Option<Unit>, Misread> {
    let (Some(first), Some(last)) = (words.first(), words.last()) else { return Ok(None) };
    let at = first.at.start..last.at.end;
    let written: Vec<&str> = words.iter().map(|token| &text[token.at.clone()]).collect();
    if let Some(unit) = Unit::parse(&written.join(" ")).or_else(|| Unit::parse(&written.concat())) {
        return Ok(Some(unit));
    }
    let written = &text[at.clone()];
    let misread = Misread::new(at, MisreadKind::WrongUnit, format!("`{written}` is no unit that is known here"));
    let number = text[..first.at.start].trim();
    let volts = matches!(written.to_lowercase().as_str(), "vac" | "vdc");
    Err(if volts { misread.instead(format!("{number} V")) } else { misread })
}

fn without_unit(piece: &Piece, what: &str, bare: &[Unit]) -> Misread {
    let texts = bare.iter().map(|unit| format!("{} {}", piece.number, unit.word()));
    let says = format!("{what} without a unit");
    Misread::new(piece.at.clone(), MisreadKind::Ambiguous, says).instead_all(texts)
}

/// A unit of something else; pounds of weight and of force are told apart.
fn unlike(piece: &Piece, unit: Unit, what: &str, dimension: Dimension) -> Misread {
    let says = format!("`{}` is no unit of {what}", unit.word());
    let misread = Misread::new(piece.at.clone(), MisreadKind::WrongUnit, says);
    match (unit, dimension) {
        (Unit::Pound, Dimension::FORCE) => misread.instead(format!("{} lbf", piece.number)),
        (Unit::PoundForce, Dimension::WEIGHT) => misread.instead(format!("{} lb", piece.number)),
        _ => misread,
    }
}
