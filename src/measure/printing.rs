//! Prints measures as the trade writes them, kept whole on a line by no-break characters.
//!
//! In: exact values, a form, how fine. Out: text for a page, or plain ASCII for a terminal and JSON.
//! May not know: pages, where a line breaks.

use rust_decimal::prelude::{Decimal, RoundingStrategy};

use super::length::{FOOT, INCH, MILLIMETRE, SIXTY_FOURTH};
use super::length_reading::mixed;
use super::{Length, Measure, Quantity, System, Unit};

/// Where the text goes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Style {
    /// A page: no-break spaces (U+00A0) and hyphens (U+2011), `−`, `±` and `°`. By UAX 14 nothing else of a printed
    /// measure may break. The PDF's text map turns them back, and every reader of this room accepts them.
    #[default]
    Page,
    /// A terminal or JSON: ASCII alone.
    Plain,
}

impl Style {
    pub(super) fn pick<'a>(self, page: &'a str, plain: &'a str) -> &'a str {
        match self {
            Style::Page => page,
            Style::Plain => plain,
        }
    }

    fn space(self) -> &'static str {
        self.pick("\u{a0}", " ")
    }

    fn minus(self) -> &'static str {
        self.pick("\u{2212}", "-")
    }
}

/// How a length is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LengthForm {
    /// `3'-0 1/2"`.
    FeetInches,
    /// `36 1/2"`.
    Inches,
    /// `927 mm`.
    Millimetres,
}

/// The finest step of a printed length. What lies between is rounded to the nearest step, half away from zero, and
/// marked `±`. Metric lengths print to the millimetre, to its half or to its tenth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Finest {
    /// 1/16 in, 1 mm.
    #[default]
    Sixteenth,
    /// 1/32 in, 0.5 mm.
    ThirtySecond,
    /// 1/64 in, 0.1 mm.
    SixtyFourth,
}

impl Finest {
    fn step(self, form: LengthForm) -> i64 {
        match (self, form == LengthForm::Millimetres) {
            (Finest::Sixteenth, false) => 4 * SIXTY_FOURTH,
            (Finest::ThirtySecond, false) => 2 * SIXTY_FOURTH,
            (Finest::SixtyFourth, false) => SIXTY_FOURTH,
            (Finest::Sixteenth, true) => MILLIMETRE,
            (Finest::ThirtySecond, true) => MILLIMETRE / 2,
            (Finest::SixtyFourth, true) => MILLIMETRE / 10,
        }
    }
}

impl Length {
    /// The length as the trade writes it, with `±` behind it if the step does not show it exactly.
    pub fn print(self, form: LengthForm, finest: Finest, style: Style) -> String {
        let step = finest.step(form);
        let exact = self.abs().to_nanometres();
        let shown = (exact + step / 2) / step * step;
        let sign = if self.is_negative() && shown > 0 { style.minus() } else { "" };
        let text = match form {
            LengthForm::FeetInches => feet_inches(shown, style),
            LengthForm::Inches => format!("{}\"", inches(shown, style)),
            LengthForm::Millimetres => millimetres(shown, style),
        };
        let inexact = if exact == shown { "" } else { style.pick("\u{a0}±", " +/-") };
        format!("{sign}{text}{inexact}")
    }

    /// The exact length as a person types it, so that nothing needs escaping and reading gives the same length back.
    /// A length below zero is written with its sign, and is refused by the reader.
    pub fn typed(self, system: System) -> String {
        let exact = self.abs().to_nanometres();
        let sign = if self.is_negative() { "-" } else { "" };
        if system == System::Millimetre || exact % SIXTY_FOURTH != 0 {
            return format!("{sign}{} mm", Decimal::new(exact, 6).normalize());
        }
        let feet = exact / FOOT;
        let inches = inches(exact % FOOT, Style::Plain);
        if feet == 0 { format!("{sign}{inches} in") } else { format!("{sign}{feet} ft {inches} in") }
    }
}

/// Feet and inches as drawings write them: `3'-0 1/8"`, with the zero before a fraction (common practice, no source).
fn feet_inches(shown: i64, style: Style) -> String {
    let over = shown % FOOT;
    let zero = if over > 0 && over < INCH { style.pick("0\u{a0}", "0 ") } else { "" };
    format!("{}'{}{zero}{}\"", shown / FOOT, style.pick("\u{2011}", "-"), inches(over, style))
}

/// Whole inches and a fraction in lowest terms, without the mark.
fn inches(shown: i64, style: Style) -> String {
    let sixty_fourths = shown % INCH / SIXTY_FOURTH;
    // Below 64 by the remainder above.
    let text = mixed((shown / INCH).unsigned_abs(), sixty_fourths as u32, 64);
    match style {
        Style::Page => text.replace(' ', "\u{a0}"),
        Style::Plain => text,
    }
}

fn millimetres(shown: i64, style: Style) -> String {
    format!("{}{}mm", Decimal::new(shown, 6).normalize(), style.space())
}

/// A number to so many places, half away from zero. Money has its own rounding rule in its own room.
pub fn rounded(number: Decimal, places: u32) -> Decimal {
    number.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero)
}

impl Quantity {
    /// So many of a unit as text, to at most `places` decimals and without trailing zeros: `150 lb`, `1.25 h`, `38 ft`,
    /// `4` for a count. On a page thousands are set off. Nothing if the unit measures something else.
    ///
    /// The number printed is [`rounded`] of [`Quantity::number_of`]; whatever is multiplied on paper starts from it.
    pub fn print(self, unit: Unit, places: u32, style: Style) -> Option<String> {
        let number = rounded(self.number_of(unit)?, places).normalize();
        let digits = number.abs().to_string();
        let digits = if style == Style::Page { thousands(&digits) } else { digits };
        let sign = if number.is_sign_negative() && !number.is_zero() { style.minus() } else { "" };
        let space = style.space();
        Some(match unit {
            Unit::Each => format!("{sign}{digits}"),
            Unit::Percent => format!("{sign}{digits}%"),
            Unit::Dollar => format!("{sign}${digits}"),
            Unit::Degree => format!("{sign}{digits}{}", style.pick("°", " deg")),
            Unit::PoundForceFoot => format!("{sign}{digits}{space}{}", style.pick("lbf\u{b7}ft", "lbf ft")),
            _ => format!("{sign}{digits}{space}{}", unit.word().replace(' ', space)),
        })
    }
}

fn thousands(digits: &str) -> String {
    let (whole, part) = digits.split_at(digits.find('.').unwrap_or(digits.len()));
    let mut text = String::new();
    for (index, digit) in whole.char_indices() {
        if index > 0 && (whole.len() - index) % 3 == 0 {
            text.push(',');
        }
        text.push(digit);
    }
    text + part
}

/// Any measure in a unit, as [`Quantity::print`].
pub(super) fn print_measure(measure: impl Measure, unit: Unit, places: u32, style: Style) -> Option<String> {
    measure.quantity().print(unit, places, style)
}
