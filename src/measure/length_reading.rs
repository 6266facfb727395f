//! Reads a length as people write it: `3 ft 0 1/2 in`, `36-1/2"`, `3'-0`, `914 mm`.
//!
//! In: a text. Out: the one length it means, or why it has none or more than one.
//! May not know: files; which field the text belongs to.
//!
//! Grammar, spaces free, `-` as joiner free:
//! feet and inches `n FT [-] n [[-] n/d] [IN]`; feet or inches alone `n[.n] [[-] n/d] UNIT`; metric `n[.n] UNIT`.
//! `d` is 2, 4, 8, 16, 32 or 64. A number without unit is refused, and so are `3-6` and `3 6`.

use std::ops::Range;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::length::{FOOT, INCH, MILLIMETRE, exactly, quantity_of};
use super::scan::{Mark, Token, comma, scan};
use super::{Dimension, Length, Measure, Misread, MisreadKind, Quantity, System, Unit};

impl Measure for Length {
    const WHAT: &'static str = "a length";
    const DIMENSION: Dimension = Dimension::LENGTH;

    fn read(text: &str, system: System) -> Result<Length, Misread> {
        let tokens = scan(text)?;
        if let Some(misread) = comma(text, &tokens, |other| Length::read(other, system).is_ok()) {
            return Err(misread);
        }
        if let Some(times) = tokens.iter().find(|token| token.mark == Mark::Times) {
            return Err(Misread::new(times.at.clone(), MisreadKind::NotOne, "one length belongs here, not two"));
        }
        length(text, &tokens, system)
    }

    fn quantity(self) -> Quantity {
        quantity_of(self)
    }

    fn of(quantity: Quantity) -> Option<Length> {
        exactly(quantity)
    }
}

/// A number as written: a whole part, a fraction, or both.
#[derive(Clone, Debug)]
struct Written {
    whole: Option<Decimal>,
    fraction: Option<(u32, u32)>,
    at: Range<usize>,
}

/// A number and the unit behind it, if one stands there.
#[derive(Clone, Debug)]
pub(super) struct Part {
    written: Written,
    unit: Option<Unit>,
    at: Range<usize>,
}

/// The length that tokens mean.
pub(super) fn length(text: &str, tokens: &[Token], system: System) -> Result<Length, Misread> {
    meaning(&parts(text, tokens, system)?, system)
}

/// Numbers with their units, in order.
pub(super) fn parts(text: &str, tokens: &[Token], system: System) -> Result<Vec<Part>, Misread> {
    refuse_sign(text, tokens, system)?;
    let mut parts = Vec::new();
    let mut next = 0;
    while next < tokens.len() {
        if !parts.is_empty() && tokens[next].mark == Mark::Hyphen {
            next += 1;
        }
        let written = written(tokens, &mut next)?;
        let unit = unit(text, tokens, next)?;
        next += usize::from(unit.is_some());
        let at = written.at.start..tokens[next - 1].at.end;
        parts.push(Part { written, unit, at });
    }
    Ok(parts)
}

fn refuse_sign(text: &str, tokens: &[Token], system: System) -> Result<(), Misread> {
    match tokens {
        [Token { mark: Mark::Hyphen, at }, ..] => {
            let rest = text[at.end..].trim();
            let misread = Misread::new(at.clone(), MisreadKind::Negative, "a length is not below zero");
            Err(if Length::read(rest, system).is_ok() { misread.instead(rest) } else { misread })
        }
        _ => Ok(()),
    }
}

/// A whole number or decimal, a fraction, or both, with or without a hyphen between them.
fn written(tokens: &[Token], next: &mut usize) -> Result<Written, Misread> {
    let start = *next;
    let mut whole = None;
    let mut fraction = fraction_at(tokens, *next)?;
    if fraction.is_none() {
        let Some(Mark::Number(number)) = mark(tokens, *next) else {
            return Err(no_number(tokens, *next));
        };
        whole = Some(number);
        *next += 1;
        let joined = usize::from(mark(tokens, *next) == Some(Mark::Hyphen));
        fraction = fraction_at(tokens, *next + joined)?;
        *next += if fraction.is_some() { joined } else { 0 };
    }
    let mut value = None;
    if let Some((over, under, count)) = fraction {
        *next += count;
        value = Some((over, under));
    }
    Ok(Written { whole, fraction: value, at: tokens[start].at.start..tokens[*next - 1].at.end })
}

fn mark(tokens: &[Token], index: usize) -> Option<Mark> {
    tokens.get(index).map(|token| token.mark)
}

fn no_number(tokens: &[Token], index: usize) -> Misread {
    let last = tokens.last().map_or(0..0, |token| token.at.clone());
    let at = tokens.get(index).map_or(last, |token| token.at.clone());
    Misread::new(at, MisreadKind::NotOne, "a number is missing here")
}

/// Over, under and how many tokens a fraction at `index` takes.
fn fraction_at(tokens: &[Token], index: usize) -> Result<Option<(u32, u32, usize)>, Misread> {
    if let Some(Mark::Vulgar(over, under)) = mark(tokens, index) {
        return Ok(Some((over, under, 1)));
    }
    let (Some(Mark::Number(over)), Some(Mark::Slash)) = (mark(tokens, index), mark(tokens, index + 1)) else {
        return Ok(None);
    };
    let Some(Mark::Number(under)) = mark(tokens, index + 2) else {
        return Err(no_number(tokens, index + 2));
    };
    let at = tokens[index].at.start..tokens[index + 2].at.end;
    match (small(over), small(under)) {
        (Some(over), Some(under)) => Ok(Some((over, under, 3))),
        _ => Err(Misread::new(at, MisreadKind::BadFraction, "a fraction is two whole numbers, such as 1/2")),
    }
}

fn small(number: Decimal) -> Option<u32> {
    if number.scale() == 0 { number.to_u32().filter(|value| *value < 1000) } else { None }
}

fn unit(text: &str, tokens: &[Token], index: usize) -> Result<Option<Unit>, Misread> {
    let Some(token) = tokens.get(index) else { return Ok(None) };
    match token.mark {
        Mark::FootSign => Ok(Some(Unit::Foot)),
        Mark::InchSign => Ok(Some(Unit::Inch)),
        Mark::Word => match Unit::parse(&text[token.at.clone()]) {
            Some(unit) if unit.dimension() == Dimension::LENGTH => Ok(Some(unit)),
            _ => Err(wrong_unit(&text[token.at.clone()], token.at.clone())),
        },
        _ => Ok(None),
    }
}

fn wrong_unit(word: &str, at: Range<usize>) -> Misread {
    let says = format!("`{word}` is no unit of length; write ft, in, mm, cm or m");
    Misread::new(at, MisreadKind::WrongUnit, says)
}

fn meaning(parts: &[Part], system: System) -> Result<Length, Misread> {
    match parts {
        [one] if one.unit.is_none() => Err(bare(&one.written, system)),
        [one] => part_length(one),
        [feet, inches] if feet.unit == Some(Unit::Foot) && matches!(inches.unit, None | Some(Unit::Inch)) => {
            feet_and_inches(feet, inches)
        }
        [first, second] if first.unit.is_none() && matches!(second.unit, None | Some(Unit::Inch)) => {
            Err(two_numbers(first, second))
        }
        _ => Err(too_many(parts)),
    }
}

fn too_many(parts: &[Part]) -> Misread {
    let metric = |part: &Part| !matches!(part.unit, None | Some(Unit::Foot | Unit::Inch));
    let at = parts.first().map_or(0, |part| part.at.start)..parts.last().map_or(0, |part| part.at.end);
    if parts.iter().any(metric) && !parts.iter().all(metric) {
        return Misread::new(at, MisreadKind::MixedSystems, "feet or inches and metric units stand in one length");
    }
    let says = "more numbers than one length has; write it as 3 ft 0 1/2 in, 36 1/2 in or 914 mm";
    Misread::new(at, MisreadKind::NotOne, says)
}

/// Feet and inches; `3 1/2 ft 6 in` and `3 ft 14 in` are refused.
fn feet_and_inches(feet: &Part, inches: &Part) -> Result<Length, Misread> {
    let broken = feet.written.fraction.is_some() || feet.written.whole.is_some_and(|whole| whole.scale() > 0);
    if broken {
        let says = "feet before inches are a whole number";
        return Err(Misread::new(feet.at.clone(), MisreadKind::BadFraction, says));
    }
    let feet = part_length(feet)?;
    let written = Part { unit: Some(Unit::Inch), ..inches.clone() };
    let short = part_length(&written)?;
    let sum = within(feet.to_nanometres() + short.to_nanometres(), &inches.at)?;
    if short >= Length::feet(1) {
        let says = "inches beside feet are less than twelve";
        let misread = Misread::new(inches.at.clone(), MisreadKind::InchesBeyondFoot, says);
        return Err(misread.instead(sum.typed(System::Inch)));
    }
    Ok(sum)
}

fn within(nanometres: i64, at: &Range<usize>) -> Result<Length, Misread> {
    let length = Length::nanometres(nanometres);
    if length <= Length::LONGEST_READ {
        return Ok(length);
    }
    Err(Misread::new(at.clone(), MisreadKind::TooMuch, "longer than 1,000 km"))
}

fn part_length(part: &Part) -> Result<Length, Misread> {
    let per_unit = match part.unit {
        Some(Unit::Foot) => FOOT,
        Some(Unit::Inch) => INCH,
        Some(Unit::Mile) => 5280 * FOOT,
        Some(Unit::Centimetre) => 10 * MILLIMETRE,
        Some(Unit::Metre) => 1000 * MILLIMETRE,
        _ => MILLIMETRE,
    };
    let at = &part.written.at;
    let whole = whole_nanometres(part.written.whole.unwrap_or_default(), per_unit, at)?;
    let Some((over, under)) = part.written.fraction else { return within(whole, at) };
    check_fraction(part, over, under)?;
    within(whole + per_unit / i64::from(under) * i64::from(over), at)
}

fn whole_nanometres(number: Decimal, per_unit: i64, at: &Range<usize>) -> Result<i64, Misread> {
    let too_much = || Misread::new(at.clone(), MisreadKind::TooMuch, "longer than 1,000 km");
    let exact = number.checked_mul(Decimal::from(per_unit)).ok_or_else(too_much)?;
    if !exact.fract().is_zero() {
        return Err(Misread::new(at.clone(), MisreadKind::TooFine, "finer than a millionth of a millimetre"));
    }
    let nanometres = exact.to_i64().ok_or_else(too_much)?;
    within(nanometres, at).map(|length| length.to_nanometres())
}

/// A fraction of an inch or foot that a tape shows.
fn check_fraction(part: &Part, over: u32, under: u32) -> Result<(), Misread> {
    let fault = |says: &str| Misread::new(part.written.at.clone(), MisreadKind::BadFraction, says);
    if part.written.whole.is_some_and(|whole| whole.scale() > 0) {
        return Err(fault("a decimal and a fraction in one number"));
    }
    if !matches!(part.unit, Some(Unit::Foot | Unit::Inch)) {
        return Err(fault("metric lengths are written with a decimal point, not with a fraction"));
    }
    let word = part.unit.map_or("", Unit::word);
    let whole = part.written.whole.and_then(|whole| whole.to_u64()).unwrap_or(0);
    if !matches!(under, 2 | 4 | 8 | 16 | 32 | 64) {
        let misread = fault("the lower number of a fraction is 2, 4, 8, 16, 32 or 64");
        return Err(match nearest_sixteenth(over, under) {
            Some(nearest) => misread.instead(format!("{} {word}", mixed(whole, nearest, 16))),
            None => misread,
        });
    }
    if over >= under {
        let misread = fault("a fraction is less than one");
        return Err(misread.instead(format!("{} {word}", mixed(whole, over, under))));
    }
    Ok(())
}

fn nearest_sixteenth(over: u32, under: u32) -> Option<u32> {
    if under == 0 { None } else { Some((over * 32 + under) / (2 * under)) }
}

/// `whole + over/under` as a mixed number in lowest terms.
pub(super) fn mixed(whole: u64, over: u32, under: u32) -> String {
    let whole = whole + u64::from(over / under);
    let (mut over, mut under) = (over % under, under);
    while over > 0 && over % 2 == 0 && under % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    match (whole, over) {
        (_, 0) => whole.to_string(),
        (0, _) => format!("{over}/{under}"),
        _ => format!("{whole} {over}/{under}"),
    }
}

/// A number without a unit, with the readings in the order of likelihood.
fn bare(written: &Written, system: System) -> Misread {
    let small = written.whole.is_none_or(|whole| whole <= Decimal::from(12));
    let units = match system {
        System::Inch if small => [Unit::Inch, Unit::Foot],
        System::Inch => [Unit::Inch, Unit::Millimetre],
        System::Millimetre => [Unit::Millimetre, Unit::Inch],
    };
    let reading = |unit: Unit| {
        let part = Part { written: written.clone(), unit: Some(unit), at: written.at.clone() };
        part_length(&part).ok().map(|_| format!("{} {}", words(written), unit.word()))
    };
    let misread = Misread::new(written.at.clone(), MisreadKind::Ambiguous, "a length without a unit");
    misread.instead_all(units.into_iter().filter_map(reading))
}

fn words(written: &Written) -> String {
    match (written.whole, written.fraction) {
        (Some(whole), Some((over, under))) => format!("{whole} {over}/{under}"),
        (Some(whole), None) => whole.to_string(),
        (None, Some((over, under))) => format!("{over}/{under}"),
        (None, None) => String::new(),
    }
}

/// `3-6`: feet and inches to one trade, inches and sixteenths to another.
fn two_numbers(first: &Part, second: &Part) -> Misread {
    let at = first.at.start..second.at.end;
    let says = "two numbers without units; it may be feet and inches, or inches and sixteenths";
    let feet = Part { unit: Some(Unit::Foot), ..first.clone() };
    let mut texts = Vec::new();
    if let Ok(length) = feet_and_inches(&feet, second) {
        texts.push(length.typed(System::Inch));
    }
    let whole = |part: &Part| part.written.whole.and_then(small).filter(|_| part.written.fraction.is_none());
    if let (Some(inches), Some(sixteenths @ 0..16)) = (whole(first), whole(second)) {
        texts.push(format!("{} in", mixed(u64::from(inches), sixteenths, 16)));
    }
    Misread::new(at, MisreadKind::Ambiguous, says).instead_all(texts)
}

/// Feet and inches where the trade writes `3-0 x 7-0`: an opening size.
pub(super) fn feet_inches_by_habit(parts: &[Part], system: System) -> Result<Length, Misread> {
    match parts {
        [feet, inches] if feet.unit.is_none() && inches.unit.is_none() => {
            feet_and_inches(&Part { unit: Some(Unit::Foot), ..feet.clone() }, inches)
        }
        _ => meaning(parts, system),
    }
}

/// Gives a lone number without unit the unit of its neighbour: `36 x 84 in`.
pub(super) fn lend_unit(from: &[Part], to: &mut [Part]) {
    if let ([Part { unit: Some(unit), .. }], [borrower]) = (from, to) {
        borrower.unit.get_or_insert(*unit);
    }
}

/// Whether the parts are one number without unit.
pub(super) fn is_bare(parts: &[Part]) -> bool {
    matches!(parts, [part] if part.unit.is_none())
}
