//! Lengths as a person writes them and as papers print them, over the whole range of the trade.

use hingewright::measure::{
    Angle, Finest, Length, LengthForm, Measure, OpeningSize, Style, System, Weight, read_quantity,
};

use crate::counts::{below, random, strings};

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

/// Strings made of the pieces that lengths are made of: no panic, and what is accepted means one thing in either system,
/// is the same with its suggestions read, and comes back from every exact print.
#[test]
fn random_strings_have_one_meaning_or_none() {
    const PIECES: [&str; 34] = [
        "0", "1", "2", "3", "6", "12", "36", "84", "914", "3070", ".", "/", "1/2", "½", "⅓", "'", "\"", "′", "″", "-",
        " ", "\u{a0}", "\u{2011}", "ft", "in", "mm", "m", "x", ",", "lb", "\u{200b}", "\t", "é", "°",
    ];
    let random = &mut random(7);
    let mut accepted = 0;
    for _ in 0..strings() {
        let count = 1 + below(random, 7);
        let text: String = (0..count).map(|_| PIECES[below(random, PIECES.len() as u64) as usize]).collect();
        accepted += usize::from(one_meaning(&text));
        let _ = OpeningSize::read(&text, System::Inch).map_err(|misread| misread.type_instead);
        let _ =
            (Weight::read(&text, System::Inch), Angle::read(&text, System::Inch), read_quantity(&text, System::Inch));
    }
    assert!(accepted > strings() / 100, "the strings are too wild: {accepted}");
}

/// Whether the text was accepted.
fn one_meaning(text: &str) -> bool {
    let (inch, metric) = (Length::read(text, System::Inch), Length::read(text, System::Millimetre));
    match (inch, metric) {
        (Ok(inch), Ok(metric)) => {
            assert_eq!(inch, metric, "{text:?}");
            for system in [System::Inch, System::Millimetre] {
                assert_eq!(Length::read(&inch.typed(system), system), Ok(inch), "{text:?}");
            }
            true
        }
        (Err(inch), Err(metric)) => {
            assert_eq!(inch.kind, metric.kind, "{text:?}");
            assert!(text.get(inch.at.clone()).is_some(), "{text:?} {:?}", inch.at);
            for instead in inch.type_instead.iter().chain(&metric.type_instead) {
                assert!(Length::read(instead, System::Inch).is_ok(), "{text:?} suggests {instead:?}");
            }
            false
        }
        (inch, metric) => panic!("{text:?}: {inch:?} but {metric:?}"),
    }
}
