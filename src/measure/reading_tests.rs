//! Checks of reading and printing: what people write, what they get, and what is refused with which words.

use rust_decimal::Decimal;

use super::*;

fn read(text: &str) -> Length {
    Length::read(text, System::Inch).unwrap_or_else(|misread| panic!("{text:?}: {misread:?}"))
}

fn refused(text: &str) -> (MisreadKind, Vec<String>) {
    match Length::read(text, System::Inch) {
        Ok(length) => panic!("{text:?} was read as {length:?}"),
        Err(misread) => (misread.kind, misread.type_instead),
    }
}

#[test]
fn every_accepted_form_is_read() {
    let half = Length::sixty_fourths(36 * 64 + 32);
    // Forms of the project's own design; the values are arithmetic on 1 in = 25.4 mm.
    let same = [
        "3 ft 0 1/2 in",
        "36 1/2 in",
        "36-1/2\"",
        "36-1/2 in",
        "3'-0 1/2",
        "3'-0 1/2\"",
        "3' 0 1/2\"",
        "3'0½\"",
        "36½ in",
        "3′-0 1/2″",
        "3’-0 1/2”",
        "3'\u{2011}0\u{a0}1/2\"",
        "36.5 in",
        "36.5\"",
        "3'-1/2\"",
        "36 1⁄2 in",
        "36 1/2''",
        "927.1 mm",
        "92.71 cm",
        "0.9271 m",
        "  36.50 inches ",
        "3 FT 0.5 IN",
        "36 2/4 in",
        "3 ft. 0 1/2 in.",
        "3 feet, 0 1/2 inches",
    ];
    for text in &same[..same.len() - 1] {
        assert_eq!(read(text), half, "{text}");
    }
    assert_eq!(refused(same[same.len() - 1]).0, MisreadKind::NotOne);
    for (text, value) in
        [("3 1/2 ft", Length::inches(42)), (".5 in", Length::sixty_fourths(32)), ("914mm", Length::millimetres(914))]
    {
        assert_eq!(read(text), value, "{text}");
    }
}

#[test]
fn worked_values_of_the_trade_pages() {
    // 3'-7 13/16" = 43.8125 in = 1,112.8375 mm; 914 mm = 35.984 in, to the sixteenth 36": derived from 25.4 mm.
    let height = read("3'-7 13/16\"");
    assert_eq!(height, read("43.8125 in"));
    assert_eq!(height, read("1112.8375 mm"));
    let leaf = read("914 mm");
    assert_eq!(leaf.print(LengthForm::Inches, Finest::Sixteenth, Style::Plain), "36\" +/-");
    assert_eq!(leaf.print(LengthForm::Inches, Finest::SixtyFourth, Style::Plain), "35 63/64\" +/-");
    assert_eq!(leaf.print(LengthForm::Millimetres, Finest::Sixteenth, Style::Page), "914\u{a0}mm");
    assert_eq!(height.print(LengthForm::FeetInches, Finest::Sixteenth, Style::Page), "3'\u{2011}7\u{a0}13/16\"");
    assert_eq!(height.print(LengthForm::FeetInches, Finest::Sixteenth, Style::Plain), "3'-7 13/16\"");
}

#[test]
fn rounding_in_print_carries_into_the_foot() {
    let nearly = Length::feet(3) - Length::sixty_fourths(1);
    assert_eq!(nearly.print(LengthForm::FeetInches, Finest::Sixteenth, Style::Plain), "3'-0\" +/-");
    assert_eq!(nearly.print(LengthForm::FeetInches, Finest::SixtyFourth, Style::Plain), "2'-11 63/64\"");
    let back = Length::ZERO - Length::sixty_fourths(32);
    assert_eq!(back.print(LengthForm::Inches, Finest::Sixteenth, Style::Plain), "-1/2\"");
    assert_eq!(Length::ZERO.print(LengthForm::FeetInches, Finest::Sixteenth, Style::Plain), "0'-0\"");
}

#[test]
fn ambiguous_text_is_refused_with_both_readings() {
    let two = |first: &str, second: &str| (MisreadKind::Ambiguous, vec![first.to_owned(), second.to_owned()]);
    assert_eq!(refused("3-6"), two("3 ft 6 in", "3 3/8 in"));
    assert_eq!(refused("3 6"), two("3 ft 6 in", "3 3/8 in"));
    assert_eq!(refused("3-6\""), two("3 ft 6 in", "3 3/8 in"));
    assert_eq!(refused("36"), two("36 in", "36 mm"));
    assert_eq!(refused("7"), two("7 in", "7 ft"));
    assert_eq!(refused("1,219 mm"), two("1219 mm", "1.219 mm"));
    let metric = Length::read("914", System::Millimetre).unwrap_err();
    assert_eq!(metric.type_instead, ["914 mm", "914 in"]);
    assert_eq!(refused("36 1/2"), (MisreadKind::Ambiguous, vec!["36 1/2 in".to_owned()]));
}

#[test]
fn what_is_no_length_is_refused_by_kind() {
    use MisreadKind::*;
    let cases = [
        ("", Empty, ""),
        (" \u{a0} ", Empty, ""),
        ("36\tin", ControlCharacter, ""),
        ("36\u{200b} in", ControlCharacter, ""),
        ("wide", NotOne, ""),
        ("36 lb", WrongUnit, ""),
        ("36 furlongs", WrongUnit, ""),
        ("3 ft 200 mm", MixedSystems, ""),
        ("1 m 20 cm", NotOne, ""),
        ("-36 in", Negative, "36 in"),
        ("36 1/3 in", BadFraction, "36 5/16 in"),
        ("36 1/0 in", BadFraction, ""),
        ("36 5/4 in", BadFraction, "37 1/4 in"),
        ("0.5 1/2 in", BadFraction, ""),
        ("3 1/2 mm", BadFraction, ""),
        ("3 1/2 ft 6 in", BadFraction, ""),
        ("3 ft 14 in", InchesBeyondFoot, "4 ft 2 in"),
        ("99999999 ft", TooMuch, ""),
        ("123456789012345678901234567890123 in", TooMuch, ""),
        ("0.00000000001 in", TooFine, ""),
        ("36 in x 84 in", NotOne, ""),
        ("36 in 84 in", NotOne, ""),
        ("36 in /", NotOne, ""),
        ("1e3 mm", WrongUnit, ""),
        ("3 ft -", NotOne, ""),
        ("914,5 mm", NotOne, "914.5 mm"),
        ("±36 in", NotOne, ""),
    ];
    for (text, kind, instead) in cases {
        let (found, texts) = refused(text);
        assert_eq!(found, kind, "{text:?}");
        assert_eq!(texts.first().map_or("", String::as_str), instead, "{text:?}");
    }
}

#[test]
fn places_of_faults_are_bytes_of_the_text() {
    let at = |text: &str| Length::read(text, System::Inch).map(|_| 0..0).unwrap_or_else(|misread| misread.at);
    assert_eq!(at("3 ft 14 in"), 5..10);
    assert_eq!(at("36 1/3 in"), 0..6);
    assert_eq!(at("36 lb"), 3..5);
    assert_eq!(at("½\u{200b}"), 2..5);
}

#[test]
fn sizes_of_openings() {
    let size = |text: &str| OpeningSize::read(text, System::Inch);
    let plain = size("3070").unwrap();
    assert_eq!((plain.width, plain.height), (Length::feet(3), Length::feet(7)));
    for text in [
        "3'-0\" x 7'-0\"",
        "3-0 x 7-0",
        "3 ft 0 in x 7 ft 0 in",
        "36 x 84 in",
        "36 in × 84 in",
        "3'0x7'0",
        "914.4 x 2133.6 mm",
    ] {
        assert_eq!(size(text).as_ref(), Ok(&plain), "{text}");
    }
    // 2868 is 2'-8" by 6'-8", 30100 is ten feet high: common trade notation, no source.
    assert_eq!(size("2868"), size("2 ft 8 in x 6 ft 8 in"));
    assert_eq!(size("30100").unwrap().height, Length::feet(10));
    assert_eq!(size("2-10 x 7-0").unwrap().width, Length::inches(34));
    assert_eq!(size("30 x 70").unwrap_err().type_instead, ["30 in x 70 in", "3070"]);
    assert_eq!(size("36 x 84").unwrap_err().type_instead, ["36 in x 84 in", "3684"]);
    assert_eq!(size("100 x 210").unwrap_err().type_instead, ["100 in x 210 in", "100 mm x 210 mm"]);
    for text in ["2100", "0070", "307", "3 ft", "3070 mm", "x 7 ft", "3-0 x 7-0 x 1-0", "", "3-13 x 7-0"] {
        assert!(size(text).is_err(), "{text}");
    }
}

#[test]
fn amounts_are_read_and_printed() {
    let weight = Weight::read("150 lb", System::Inch).unwrap();
    // 150 lb = 68.038 855 5 kg by the definition of the pound.
    assert_eq!(weight.number_of(Unit::Kilogram), Some("68.0388555".parse().unwrap()));
    assert_eq!(weight.print(Unit::Pound, 0, Style::Page).unwrap(), "150\u{a0}lb");
    assert_eq!(weight.print(Unit::Kilogram, 1, Style::Plain).unwrap(), "68 kg");
    assert_eq!(weight.print(Unit::Volt, 1, Style::Plain), None);
    let time = Duration::read("1 h 15 min", System::Inch).unwrap();
    assert_eq!(Duration::read("1.25 hours", System::Inch), Ok(time));
    assert_eq!(time.print(Unit::Hour, 2, Style::Plain).unwrap(), "1.25 h");
    assert_eq!(Amps::read("250 mA", System::Inch), Amps::read("0.25 A", System::Inch));
    assert_eq!(Angle::read("90°", System::Inch), Angle::read("90", System::Inch));
    assert_eq!(Angle::degrees(90).print(0, Style::Page), "90°");
    assert_eq!(
        Force::read("15 lbf", System::Inch).unwrap().print(Unit::PoundForce, 1, Style::Plain).unwrap(),
        "15 lbf"
    );
    let feet = Quantity::in_units(Decimal::from(12_450), Unit::Foot).unwrap();
    assert_eq!(feet.print(Unit::Foot, 0, Style::Page).unwrap(), "12,450\u{a0}ft");
    assert_eq!(feet.print(Unit::Foot, 0, Style::Plain).unwrap(), "12450 ft");
    let tax = Quantity::in_units("8.25".parse().unwrap(), Unit::Percent).unwrap();
    assert_eq!(tax.value(), "0.0825".parse().unwrap());
    assert_eq!(tax.print(Unit::Percent, 3, Style::Plain).unwrap(), "8.25%");
}

#[test]
fn amounts_are_refused_with_the_way_out() {
    let weight = |text: &str| Weight::read(text, System::Inch).unwrap_err();
    assert_eq!(weight("150").type_instead, ["150 lb", "150 kg"]);
    assert_eq!(weight("1,200 lb").type_instead, ["1200 lb", "1.200 lb"]);
    assert_eq!(
        (weight("150 lbf").kind, weight("150 lbf").type_instead),
        (MisreadKind::WrongUnit, vec!["150 lb".into()])
    );
    assert_eq!(Force::read("15 lb", System::Inch).unwrap_err().type_instead, ["15 lbf"]);
    assert_eq!(Volts::read("24 VDC", System::Inch).unwrap_err().type_instead, ["24 V"]);
    assert_eq!(weight("-5 lb").kind, MisreadKind::Negative);
    assert_eq!(weight("1/2 lb").kind, MisreadKind::BadFraction);
    assert_eq!(weight("5 lb 3 lb").kind, MisreadKind::NotOne);
    assert_eq!(weight("5 stone").kind, MisreadKind::WrongUnit);
    assert_eq!(Duration::read("15 min 1 h", System::Inch).unwrap_err().kind, MisreadKind::NotOne);
    assert_eq!(Angle::read("90 ft", System::Inch).unwrap_err().kind, MisreadKind::WrongUnit);
}

#[test]
fn any_quantity_is_read_with_its_unit() {
    let read = |text: &str| {
        read_quantity(text, System::Inch).map(|(quantity, unit)| (quantity.number_of(unit).unwrap(), unit))
    };
    assert_eq!(read("10 sq ft"), Ok((Decimal::from(10), Unit::SquareFoot)));
    assert_eq!(read("4"), Ok((Decimal::from(4), Unit::Each)));
    assert_eq!(read("38 ft"), Ok((Decimal::from(38), Unit::Foot)));
    assert_eq!(read("3'-6"), Ok(("3.5".parse().unwrap(), Unit::Foot)));
    assert_eq!(read("36 1/2 in"), Ok(("36.5".parse().unwrap(), Unit::Inch)));
    assert_eq!(read("7.5%"), Ok(("7.5".parse().unwrap(), Unit::Percent)));
    assert!(read("ten ft").is_err());
}

#[test]
fn no_line_may_break_inside_a_printed_measure() {
    let lengths =
        [Length::sixty_fourths(2337), Length::nanometres(1), Length::ZERO - Length::feet(3), Length::inches(14)];
    let mut texts = vec![
        Weight::new(Decimal::from(12_150), Unit::Pound).unwrap().print(Unit::Pound, 2, Style::Page).unwrap(),
        Quantity::in_units(Decimal::new(-125, 2), Unit::SquareFoot)
            .unwrap()
            .print(Unit::SquareFoot, 2, Style::Page)
            .unwrap(),
        Angle::degrees(90).print(0, Style::Page),
    ];
    for form in [LengthForm::FeetInches, LengthForm::Inches, LengthForm::Millimetres] {
        texts.extend(lengths.map(|length| length.print(form, Finest::Sixteenth, Style::Page)));
    }
    for text in texts {
        let breaks: Vec<_> = unicode_linebreak::linebreaks(&text).collect();
        assert_eq!(breaks.len(), 1, "{text:?} {breaks:?}");
    }
}

#[test]
fn plain_text_is_ascii() {
    for form in [LengthForm::FeetInches, LengthForm::Inches, LengthForm::Millimetres] {
        let text = Length::nanometres(-1_234_567_891).print(form, Finest::Sixteenth, Style::Plain);
        assert!(text.is_ascii(), "{text}");
    }
    assert!(Angle::degrees(-5).print(0, Style::Plain).is_ascii());
}
