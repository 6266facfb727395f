//! Lengths as a person writes them and as papers print them, over the whole range of the trade.

use hingewright::measure::{Finest, Length, LengthForm, Measure, Style, System};

fn reads_back(length: Length, text: &str) {
    for system in [System::Inch, System::Millimetre] {
        assert_eq!(Length::read(text, system), Ok(length), "{text}");
    }
}

/// 20 ft are 15,360 sixty-fourths of an inch.
#[test]
fn every_sixty_fourth_to_twenty_feet_comes_back_from_every_form() {
    for count in 0..=15_360 {
        let length = Length::sixty_fourths(count);
        for style in [Style::Page, Style::Plain] {
            for form in [LengthForm::FeetInches, LengthForm::Inches] {
                reads_back(length, &length.print(form, Finest::SixtyFourth, style));
            }
        }
        reads_back(length, &length.typed(System::Inch));
        reads_back(length, &length.typed(System::Millimetre));
        assert_eq!(Length::of(length.quantity()), Some(length));
    }
}

#[test]
fn every_millimetre_to_six_metres_comes_back_from_every_form() {
    for count in 0..=6_000 {
        let length = Length::millimetres(count);
        for style in [Style::Page, Style::Plain] {
            reads_back(length, &length.print(LengthForm::Millimetres, Finest::Sixteenth, style));
        }
        reads_back(length, &length.typed(System::Inch));
        reads_back(length, &length.typed(System::Millimetre));
        reads_back(length, &format!("{}.{} cm", count / 10, count % 10));
        reads_back(length, &format!("{}.{:03} m", count / 1000, count % 1000));
    }
}

/// A printed sixteenth is never further from the truth than a thirty-second, and says so when it is not the truth.
#[test]
fn a_rounded_length_is_marked_and_near() {
    for count in 0..=15_360 {
        let length = Length::sixty_fourths(count);
        let text = length.print(LengthForm::FeetInches, Finest::Sixteenth, Style::Page);
        let shown = Length::read(text.trim_end_matches("\u{a0}±"), System::Inch).unwrap();
        assert!((shown - length).abs() <= Length::sixty_fourths(2), "{text}");
        assert_eq!(text.ends_with('±'), shown != length, "{text}");
    }
}
