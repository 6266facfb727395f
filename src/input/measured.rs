//! Measures and amounts of money as fields.
//!
//! In: texts. Out: the exact types of `measure` and `money`; their refusals become findings at the bytes at fault.
//! May not know: how a measure is spelled; that is `measure`'s.

use std::cmp::Ordering;

use rust_decimal::Decimal;

use super::number::bare_decimal;
use super::{Fix, Raw, Reader, Refusal, Scalar, codes, scalar_fields};
use crate::findings::Code;
use crate::measure::{Amps, Angle, Duration, Force, Length, Measure, Misread, MisreadKind, OpeningSize};
use crate::measure::{Pressure, Speed, Style, System, Torque, Unit, Volts, Weight};
use crate::money::{Money, MoneyFault, MoneyMisread, Percent, Sign};

/// An amount of money that may be below zero: a credit or an adjustment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SignedMoney(Money);

impl SignedMoney {
    /// The amount.
    pub fn get(self) -> Money {
        self.0
    }
}

impl From<SignedMoney> for Money {
    fn from(amount: SignedMoney) -> Self {
        amount.get()
    }
}

/// Makes fields of measures.
macro_rules! measures {
    ($($measure:ident, $words:literal, $unit:literal, $reported:expr;)*) => { $(
        impl Scalar for $measure {
            const WORDS: &'static str = $words;
            const UNIT: &'static str = $unit;

            fn from_raw(raw: Raw<'_>, reader: &Reader<'_>) -> Result<Self, Refusal> {
                measured(raw, reader, <$measure>::read)
            }

            fn order(&self, other: &Self) -> Option<Ordering> {
                self.partial_cmp(other)
            }

            fn readable(&self, system: System) -> String {
                $reported(*self, system)
            }
        }

        scalar_fields!($measure);
    )* };
}

measures! {
    Length, "a length", "ft, in, mm, m", Length::typed;
    Weight, "a weight", "lb, oz, kg, g", |it, system| amount_of(it, system, Unit::Pound, Unit::Kilogram);
    Force, "a force", "lbf, N", |it, system| amount_of(it, system, Unit::PoundForce, Unit::Newton);
    Duration, "a time", "h, min, s", time;
    Torque, "a torque", "lbf ft, N m", |it, system| amount_of(it, system, Unit::PoundForceFoot, Unit::NewtonMetre);
    Pressure, "a pressure", "in wg, Pa", |it, system| amount_of(it, system, Unit::InchOfWater, Unit::Pascal);
    Speed, "a speed", "mph", |it, system| amount_of(it, system, Unit::MileAnHour, Unit::MileAnHour);
    Volts, "a voltage", "V", |it, system| amount_of(it, system, Unit::Volt, Unit::Volt);
    Amps, "a current", "A", |it, system| amount_of(it, system, Unit::Ampere, Unit::Ampere);
    Angle, "an angle", "deg", |it, system| amount_of(it, system, Unit::Degree, Unit::Degree);
}

/// A measure in the unit of a system, to a tenth of a thousandth.
fn amount_of<M: Measure>(it: M, system: System, inch: Unit, metric: Unit) -> String {
    let unit = if system == System::Inch { inch } else { metric };
    it.quantity().print(unit, 4, Style::Plain).unwrap_or_default()
}

/// A time: short ones in seconds, long ones in hours.
fn time(it: Duration, _: System) -> String {
    let quarter = Duration::new(Decimal::new(25, 2), Unit::Hour);
    let unit = if quarter.is_some_and(|quarter| it < quarter) { Unit::Second } else { Unit::Hour };
    it.print(unit, 4, Style::Plain).unwrap_or_default()
}

fn measured<M>(raw: Raw<'_>, reader: &Reader<'_>, read: fn(&str, System) -> Result<M, Misread>) -> Result<M, Refusal> {
    let text = match raw {
        Raw::Text(text) | Raw::Cell(text) => text,
        Raw::Integer(text) | Raw::Float(text) => return Err(without_unit(text, reader, read)),
        _ => return Err(Refusal::wrong_type()),
    };
    read(text, reader.system()).map_err(|misread| {
        let code = code_of(misread.kind);
        let refusal = Refusal::new(code).at(misread.at).asked(misread.says);
        let size = size(text, reader, &misread.type_instead);
        refusal.fix(size.unwrap_or_else(|| fix_of(code, &misread.type_instead)))
    })
}

/// Four digits are a width and a height to the trade: `3070` is 3 ft 0 in by 7 ft 0 in, and no length.
fn size(text: &str, reader: &Reader<'_>, lengths: &[String]) -> Option<Fix> {
    let four = text.trim().len() == 4 && text.trim().bytes().all(|byte| byte.is_ascii_digit());
    let is_length = lengths.iter().any(|it| it.ends_with(" in"));
    let size = OpeningSize::read(text, reader.system()).ok().filter(|_| four && is_length)?;
    let (width, height) = (size.width.typed(System::Inch), size.height.typed(System::Inch));
    Some(Fix::Advice(format!("{width} where the width is meant, {height} where the height is")))
}

/// A bare number where a measure belongs: what to type is learned from reading it as a text.
fn without_unit<M>(text: &str, reader: &Reader<'_>, read: fn(&str, System) -> Result<M, Misread>) -> Refusal {
    match read(text, reader.system()) {
        Ok(_) => Refusal::wrong_type().fix(Fix::Text(text.to_owned())),
        Err(misread) => match misread.type_instead.as_slice() {
            [one] => Refusal::wrong_type().fix(Fix::Text(one.clone())),
            several => {
                let quoted: Vec<String> = several.iter().map(|it| super::quoting::quoted(it)).collect();
                Refusal::wrong_type().fix(Fix::Advice(quoted.join(" or ")))
            }
        },
    }
}

fn code_of(kind: MisreadKind) -> &'static Code {
    match kind {
        MisreadKind::Empty => &codes::EMPTY_VALUE,
        MisreadKind::ControlCharacter => &codes::CONTROL_CHARACTER,
        MisreadKind::WrongUnit | MisreadKind::MixedSystems => &codes::WRONG_UNIT,
        MisreadKind::Ambiguous => &codes::AMBIGUOUS,
        MisreadKind::Negative | MisreadKind::TooMuch => &codes::OUT_OF_RANGE,
        MisreadKind::NotOne | MisreadKind::BadFraction | MisreadKind::InchesBeyondFoot | MisreadKind::TooFine => {
            &codes::BAD_MEASURE
        }
    }
}

/// One reading is text to type; several are advice, for none of them may be taken for meant.
fn fix_of(code: &Code, readings: &[String]) -> Fix {
    match readings {
        [] => Fix::None,
        [first, ..] if *code != codes::AMBIGUOUS => Fix::Text(first.clone()),
        several => Fix::Advice(several.join(" or ")),
    }
}

fn amount<M>(raw: Raw<'_>, suffix: &str, read: impl Fn(&str) -> Result<M, MoneyMisread>) -> Result<M, Refusal> {
    let text = match raw {
        Raw::Text(text) | Raw::Cell(text) => text,
        Raw::Float(text) => return Err(bare_decimal(text, suffix)),
        Raw::Integer(text) => return Err(Refusal::wrong_type().fix(Fix::Text(format!("{text}{suffix}")))),
        _ => return Err(Refusal::wrong_type()),
    };
    read(text).map_err(|misread| {
        let code = match misread.kind {
            MoneyFault::Empty => &codes::EMPTY_VALUE,
            MoneyFault::NotANumber | MoneyFault::ThousandsSeparator | MoneyFault::TooFine => &codes::BAD_NUMBER,
            MoneyFault::Negative | MoneyFault::TooMuch => &codes::OUT_OF_RANGE,
            MoneyFault::WithoutSign => &codes::WRONG_UNIT,
        };
        Refusal::new(code).at(misread.at).asked(misread.says).fix(fix_of(code, &misread.type_instead))
    })
}

impl Scalar for Money {
    const WORDS: &'static str = Money::WHAT;
    const UNIT: &'static str = "dollars";

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        amount(raw, "", |text| Money::read(text, Money::UNIT_PRICE, Sign::NotNegative))
    }

    fn order(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }

    fn readable(&self, _: System) -> String {
        self.print()
    }
}

impl Scalar for SignedMoney {
    const WORDS: &'static str = Money::WHAT;
    const UNIT: &'static str = "dollars, below zero takes off";

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        amount(raw, "", |text| Money::read(text, Money::CENTS, Sign::Any)).map(SignedMoney)
    }

    fn order(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }

    fn readable(&self, _: System) -> String {
        self.0.print()
    }
}

impl Scalar for Percent {
    const WORDS: &'static str = Percent::WHAT;
    const UNIT: &'static str = "%";

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        amount(raw, "%", Percent::read)
    }

    fn order(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }

    fn readable(&self, _: System) -> String {
        self.print()
    }
}

scalar_fields!(Money, SignedMoney => Money, Percent);
