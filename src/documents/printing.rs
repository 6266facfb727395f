//! Values of the job as papers print them.
//!
//! In: slots, measures and figures, and the units of the job's papers. Out: text for a page; a dash for what is not known.
//! May not know: which paper prints it.

use crate::input::{Slot, Vocabulary};
use crate::job::{Job, PowerKnown, PrintUnits};
use crate::measure::{Amps, Dimension, Finest, Length, LengthForm, Quantity, Style, Unit, Volts, Weight};

/// What is said of a run that nobody laid out.
pub(super) const ASSUMED_ROUTE: &str = "assumed route";

/// What stands where nothing is known.
pub(super) const DASH: &str = "–";

/// How a job's papers print values.
#[derive(Clone, Copy, Debug)]
pub struct Printing {
    units: PrintUnits,
}

impl Printing {
    /// The printing of a job.
    pub fn of(job: &Job) -> Self {
        Printing { units: job.head.units }
    }

    /// Feet and inches, whatever the job.
    #[cfg(test)]
    pub(super) fn inch() -> Self {
        Printing { units: PrintUnits::Inch }
    }

    /// Whether papers print feet and inches.
    pub fn is_inch(self) -> bool {
        self.units == PrintUnits::Inch
    }

    /// A size or a height: feet and inches, below a foot inches; or millimetres.
    pub fn size(self, length: Length) -> String {
        length.print(self.form(length), Finest::Sixteenth, Style::Page)
    }

    /// A detail, such as a reveal, in the form of a size but finer.
    pub fn short(self, length: Length) -> String {
        length.print(self.form(length), Finest::ThirtySecond, Style::Page)
    }

    /// The one form of the lengths of a table: feet and inches, below a foot inches; or millimetres.
    fn form(self, length: Length) -> LengthForm {
        match self.is_inch() {
            true if length.abs() < Length::feet(1) => LengthForm::Inches,
            true => LengthForm::FeetInches,
            false => LengthForm::Millimetres,
        }
    }

    /// A height or a distance that is laid out with a tape, such as that of a device or a cut: inches, or millimetres.
    pub fn inches(self, length: Length) -> String {
        let form = if self.is_inch() { LengthForm::Inches } else { LengthForm::Millimetres };
        length.print(form, Finest::ThirtySecond, Style::Page)
    }

    /// A size from a slot.
    pub fn size_of(self, slot: &Slot<Length>) -> String {
        slot.get().map_or_else(|| DASH.to_owned(), |length| self.size(*length))
    }

    /// A height or a distance from a slot.
    pub fn inches_of(self, slot: &Slot<Length>) -> String {
        slot.get().map_or_else(|| DASH.to_owned(), |length| self.inches(*length))
    }

    /// A short dimension from a slot.
    pub fn short_of(self, slot: &Slot<Length>) -> String {
        slot.get().map_or_else(|| DASH.to_owned(), |length| self.short(*length))
    }

    /// A weight, in pounds or kilograms.
    pub fn weight(self, weight: Weight) -> String {
        let unit = if self.is_inch() { Unit::Pound } else { Unit::Kilogram };
        weight.print(unit, 0, Style::Page).unwrap_or_default()
    }

    /// A quantity in the unit it is bought in, to two decimals; a length in a unit of length of the catalog.
    pub fn quantity(self, quantity: Quantity, unit: Unit) -> String {
        quantity.print(unit, 2, Style::Page).unwrap_or_default()
    }

    /// A piece of something bought by length.
    pub fn piece(self, quantity: Quantity) -> String {
        match Length::nearest(quantity) {
            Some(length) if quantity.dimension() == Dimension::LENGTH => self.size(length),
            _ => String::new(),
        }
    }
}

/// Volts as printed.
pub(super) fn volts(volts: Volts) -> String {
    volts.print(Unit::Volt, 1, Style::Page).unwrap_or_default()
}

/// Amps as printed.
pub(super) fn amps(amps: Amps) -> String {
    amps.print(Unit::Ampere, 2, Style::Page).unwrap_or_default()
}

/// How power is known, in the words of papers.
pub(super) fn power_known(known: PowerKnown) -> &'static str {
    match known {
        PowerKnown::Seen => "field-verified",
        PowerKnown::Drawn => "on drawings",
        PowerKnown::Assumed => "assumed",
        PowerKnown::None => "none",
    }
}

/// A word of a vocabulary; a dash where none was given.
pub(super) fn word<V: Vocabulary>(slot: &Slot<V>) -> String {
    slot.get().map_or_else(|| DASH.to_owned(), |word| word.word().to_owned())
}

/// A text, or a dash where there is none.
pub(super) fn or_dash(text: Option<&str>) -> String {
    match text {
        Some(text) if !text.is_empty() => text.to_owned(),
        _ => DASH.to_owned(),
    }
}

/// A size of the catalog with its numbers in one piece: no line ends between a number and its fraction or unit.
pub(super) fn kept(size: &str) -> String {
    let belongs = |word: &str| {
        let fraction = word.split_once('/').is_some_and(|(over, _)| over.bytes().all(|it| it.is_ascii_digit()));
        fraction || Unit::parse(word.trim_end_matches([',', ';'])).is_some()
    };
    size.split(' ').fold(String::new(), |kept, word| match kept.is_empty() {
        true => word.to_owned(),
        false if belongs(word) => format!("{kept}\u{a0}{word}"),
        false => format!("{kept} {word}"),
    })
}

/// A list in one line; a dash where it is empty.
pub(super) fn listed(parts: impl IntoIterator<Item = String>, between: &str) -> String {
    let parts: Vec<String> = parts.into_iter().collect();
    if parts.is_empty() { DASH.to_owned() } else { parts.join(between) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_ends_between_a_number_and_its_fraction_or_unit() {
        assert_eq!(kept("#12-14 x 1 1/2 in self-drilling"), "#12-14 x 1\u{a0}1/2\u{a0}in self-drilling");
        assert_eq!(kept("3/16 in x 4 in"), "3/16\u{a0}in x 4\u{a0}in");
        assert_eq!(kept("24 V, 2 A; cable"), "24\u{a0}V, 2\u{a0}A; cable");
        assert_eq!(kept("by opening"), "by opening", "words may part");
        assert_eq!(kept(""), "");
    }
}
