//! Every figure of a ledger, recomputed from its inputs by other arithmetic than the program's.
//!
//! `faults` takes any ledger; here it is shown ledgers made at random, and one that it must refuse cannot be made, since
//! only the ledger's operations make figures. What it would catch is shown on the arithmetic itself.

use std::cmp::Ordering;

use hingewright::findings::{Files, Place};
use hingewright::ledger::{Called, FigureId, Ledger, Reason, ReasonId, Shown, Step};
use hingewright::measure::{Dimension, Quantity, Unit};
use hingewright::money::Rounding;
use rust_decimal::Decimal;

use crate::counts::{below, figures, random};
use crate::fractions::Fraction;

fn exact(value: Decimal) -> Fraction {
    Fraction::decimal(value.mantissa(), value.scale())
}

/// The figures of a ledger that are not what their inputs make them, each with its equation.
pub fn faults(ledger: &Ledger) -> Vec<String> {
    let wrong = |id: &FigureId| !holds(ledger, *id);
    ledger.ids().filter(wrong).map(|id| format!("{}: {}", ledger.figure(id).name, ledger.equation(id))).collect()
}

/// The exact value of a figure in canonical units. A rate is kept in its own units.
fn worth(ledger: &Ledger, id: FigureId) -> Fraction {
    let figure = ledger.figure(id);
    match (figure.shown, figure.rate) {
        (Shown::Per(over, under), Some(rate)) => exact(rate).times(&exact(over.factor())).over(&exact(under.factor())),
        _ => exact(figure.value.value()),
    }
}

/// A value in the units that a figure keeps.
fn as_kept(value: &Fraction, shown: Shown) -> Fraction {
    match shown {
        Shown::Per(over, under) => value.times(&exact(under.factor())).over(&exact(over.factor())),
        _ => value.clone(),
    }
}

/// Whether a figure is what its inputs make it: value and dimension.
fn holds(ledger: &Ledger, id: FigureId) -> bool {
    let figure = ledger.figure(id);
    let inputs: Vec<Fraction> = figure.inputs.iter().map(|input| worth(ledger, *input)).collect();
    let dimensions: Vec<Dimension> = figure.inputs.iter().map(|input| ledger.value(*input).dimension()).collect();
    let kept = figure.rate.unwrap_or(figure.value.value());
    let value = exact(kept);
    figure.inputs.iter().all(|input| *input < id)
        && dimension(figure.step, &dimensions).is_none_or(|dimension| dimension == figure.value.dimension())
        && match figure.step {
            // Where nothing goes in, there is nothing to recompute; the reason must say where it comes from.
            Step::Given => inputs.is_empty() && *figure.reason != Reason::Arithmetic,
            Step::Counted(what) => inputs.is_empty() && !what.is_empty() && value.is_whole() && !value.is_negative(),
            step => {
                let bare = matches!(figure.shown, Shown::Bare(_));
                let near =
                    if bare || figure.inputs.iter().any(|input| is_cut(ledger, *input)) { roughly } else { near };
                value_holds(step, &inputs, figure.shown, |expected| near(expected, kept))
            }
        }
}

fn dimension(step: Step, inputs: &[Dimension]) -> Option<Dimension> {
    match step {
        Step::Product => {
            let none = Dimension::NONE;
            inputs.iter().try_fold(none, |all, next| all.times(*next))
        }
        Step::Quotient => inputs[0].per(inputs[1]),
        Step::Share { .. } => Some(Dimension::MONEY),
        Step::Counted(_) => Some(Dimension::NONE),
        _ => inputs.first().copied(),
    }
}

fn value_holds(step: Step, inputs: &[Fraction], shown: Shown, is: impl Fn(&Fraction) -> bool) -> bool {
    let zero = Fraction::whole(0);
    let extreme = |wanted| {
        let better = |best: Fraction, next: &Fraction| if next.compare(&best) == wanted { next.clone() } else { best };
        inputs.iter().skip(1).fold(inputs[0].clone(), better)
    };
    let expected = match step {
        Step::Given | Step::Counted(_) => return false,
        Step::Carried | Step::Chosen { .. } | Step::LookedUp { .. } => inputs[0].clone(),
        Step::Sum => inputs.iter().fold(zero, |sum, next| sum.plus(next)),
        Step::Difference => inputs[0].minus(&inputs[1]),
        Step::Product => inputs.iter().fold(Fraction::whole(1), |product, next| product.times(next)),
        Step::Quotient => inputs[0].over(&inputs[1]),
        Step::Negated => inputs[0].negated(),
        Step::RoundedDown => multiple_below(&inputs[0], &inputs[1]),
        Step::RoundedUp => multiple_below(&inputs[0].negated(), &inputs[1]).negated(),
        Step::ToCents(mode) => return is(&cents(&as_kept(&inputs[0], shown), mode)),
        Step::Largest => extreme(Ordering::Greater),
        Step::Smallest => extreme(Ordering::Less),
        Step::Share { part } => share(&inputs[0], &inputs[1..], part),
    };
    is(&as_kept(&expected, shown))
}

/// Equal; or, where the exact value has no end within 28 digits, as near as four roundings to 28 digits leave it.
fn near(expected: &Fraction, value: Decimal) -> bool {
    let off = exact(value).minus(expected).magnitude();
    if off.is_zero() {
        return true;
    }
    let shifted = expected.times(&Fraction::whole(10).power(28));
    let fits = shifted.magnitude().compare(&Fraction::whole((1 << 96) - 1)) != Ordering::Greater;
    let relative = expected.magnitude().times(&Fraction::decimal(4, 27));
    let within = |limit: &Fraction| off.compare(limit) != Ordering::Greater;
    !(shifted.is_whole() && fits) && (within(&relative) || within(&Fraction::decimal(1, 28)))
}

/// Whether a figure was cut at 28 digits or places: a quotient without end, or what rests on one.
fn is_cut(ledger: &Ledger, id: FigureId) -> bool {
    let figure = ledger.figure(id);
    figure.rate.unwrap_or(figure.value.value()).scale() >= 20
}

/// As near as 20 decimal places or 20 digits: for what rests on figures that were cut, since sums of them may cancel, and
/// for dimensions that no unit names, where canonical units may make numbers so small that 28 places are few.
fn roughly(expected: &Fraction, value: Decimal) -> bool {
    let off = exact(value).minus(expected).magnitude();
    let limit = Fraction::decimal(1, 20).plus(&expected.magnitude().times(&Fraction::decimal(1, 20)));
    off.compare(&limit) != Ordering::Greater
}

/// The greatest multiple that is not above the value; a value within 10⁻¹⁵ of a multiple below the next counts as it.
fn multiple_below(value: &Fraction, multiple: &Fraction) -> Fraction {
    value.over(multiple).plus(&Fraction::decimal(1, 15)).floor().times(multiple)
}

fn cents(value: &Fraction, mode: Rounding) -> Fraction {
    let hundredths = value.magnitude().times(&Fraction::whole(100));
    let floor = hundredths.floor();
    let odd = !floor.over(&Fraction::whole(2)).is_whole();
    let up = match hundredths.minus(&floor).compare(&Fraction::decimal(5, 1)) {
        Ordering::Less => false,
        Ordering::Greater => true,
        Ordering::Equal => mode == Rounding::HalfAwayFromZero || odd,
    };
    let rounded = floor.plus(&Fraction::whole(i128::from(up))).over(&Fraction::whole(100));
    if value.is_negative() { rounded.negated() } else { rounded }
}

/// One part by largest remainder, the earlier first among equal ones.
fn share(whole: &Fraction, weights: &[Fraction], part: usize) -> Fraction {
    let sum = weights.iter().fold(Fraction::whole(0), |sum, next| sum.plus(next));
    if sum.is_zero() {
        return Fraction::whole(0);
    }
    let total = whole.magnitude().times(&Fraction::whole(100));
    let quotas: Vec<Fraction> = weights.iter().map(|weight| total.times(weight).over(&sum)).collect();
    let floors: Vec<Fraction> = quotas.iter().map(Fraction::floor).collect();
    let rests: Vec<Fraction> = quotas.iter().zip(&floors).map(|(quota, floor)| quota.minus(floor)).collect();
    let left = floors.iter().fold(total, |left, floor| left.minus(floor));
    let before = |at: &usize| match rests[*at].compare(&rests[part]) {
        Ordering::Greater => true,
        Ordering::Equal => *at < part,
        Ordering::Less => false,
    };
    let rank = Fraction::whole((0..rests.len()).filter(before).count() as i128);
    let one = i128::from(rank.compare(&left) == Ordering::Less);
    let amount = floors[part].plus(&Fraction::whole(one)).over(&Fraction::whole(100));
    if whole.is_negative() { amount.negated() } else { amount }
}

fn entry(ledger: &mut Ledger) -> ReasonId {
    let files = Files::new([("job.toml".to_owned(), Vec::new())]);
    let place = Place::text(files.find("job.toml").unwrap(), 0, 4);
    ledger.reason(Reason::Entry { place, standing: "assumed".to_owned() })
}

/// A value as people write them: a few digits, in one of the units that divide unevenly.
fn some_value(random: &mut impl proptest::prelude::Rng) -> (Quantity, Unit) {
    let units = [Unit::Each, Unit::Inch, Unit::Foot, Unit::Dollar, Unit::Hour, Unit::Pound, Unit::Percent];
    let unit = units[(random.next_u64() % units.len() as u64) as usize];
    let number = Decimal::new((random.next_u64() % 200_000) as i64 - 60_000, (random.next_u64() % 4) as u32);
    (Quantity::in_units(number, unit).unwrap(), unit)
}

/// A ledger of random operations on random figures. Operations that are refused make none.
fn random_ledger(seed: u8, size: usize) -> (Ledger, Vec<String>) {
    let random = &mut random(seed);
    let mut ledger = Ledger::new();
    let typed = entry(&mut ledger);
    let mut refused = Vec::new();
    while ledger.len() < size {
        let name = format!("figure {}", ledger.len());
        let called = Called::arithmetic(&name);
        let count = ledger.len() as u64;
        if count < 20 || below(random, 4) == 0 {
            let (value, unit) = some_value(random);
            let made = match below(random, 3) {
                0 => {
                    let number = value.number_of(unit).unwrap();
                    ledger.given_rate(number, Unit::Dollar, unit, Called::new(&name, typed))
                }
                _ => ledger.given(value, Called::new(&name, typed).shown(Shown::In(unit))),
            };
            made.unwrap();
            continue;
        }
        // What no unit names is computed, and not computed with.
        let named = |id: &FigureId| !matches!(ledger.figure(*id).shown, Shown::Bare(_));
        let ids: Vec<FigureId> = ledger.ids().filter(named).collect();
        let some: Vec<FigureId> = (0..3).map(|_| ids[below(random, ids.len() as u64) as usize]).collect();
        // Partners of one dimension, so that most operations have a result.
        let like: Vec<FigureId> = ids
            .iter()
            .rev()
            .filter(|id| ledger.value(**id).dimension() == ledger.value(some[0]).dimension())
            .take(1 + below(random, 4) as usize)
            .copied()
            .collect();
        let mode = if below(random, 2) == 0 { Rounding::HalfEven } else { Rounding::HalfAwayFromZero };
        let made = match below(random, 15) {
            0 => ledger.sum(&like, called),
            1 => ledger.sum(&some, called),
            2 => ledger.difference(like[0], some[0], called),
            3 => ledger.product(&some[..2], called),
            4 => ledger.quotient(some[0], some[1], called),
            5 => ledger.negated(some[0], called),
            6 => ledger.rounded_up(some[0], like[0], called),
            7 => ledger.rounded_down(some[0], like[0], called),
            8 => ledger.rounded_to_cents(some[0], mode, called),
            9 => ledger.largest(&like, called),
            10 => ledger.smallest(&like, called),
            11 => ledger.chosen(some[0], "leaf.powered", "true: leaf.powered is yes", &some[1..], called),
            12 => ledger.looked_up(some[0], "a table", "a key", &some[1..], called),
            13 => ledger.carried(some[0], called),
            _ => some_shares(&mut ledger, some[0], &like, called),
        };
        refused.extend(made.err().map(|fault| fault.to_string()));
    }
    (ledger, refused)
}

fn some_shares(
    ledger: &mut Ledger,
    whole: FigureId,
    weights: &[FigureId],
    called: Called,
) -> Result<FigureId, hingewright::ledger::FigureFault> {
    let cents = ledger.rounded_to_cents(whole, Rounding::HalfEven, called)?;
    let parts: Vec<(FigureId, Called)> = weights.iter().map(|weight| (*weight, called)).collect();
    let made = ledger.shares(cents, &parts)?;
    let sum = made.iter().map(|part| ledger.value(*part).value()).sum::<Decimal>();
    assert_eq!(sum, ledger.value(cents).value(), "the parts do not add up");
    Ok(made[0])
}

#[test]
fn every_figure_of_random_ledgers_is_what_its_inputs_make_it() {
    let mut steps = std::collections::BTreeMap::new();
    for seed in 0..figures() / 500 {
        let (ledger, refused) = random_ledger(seed as u8, 500);
        let wrong = faults(&ledger);
        assert!(wrong.is_empty(), "seed {seed}:\n{}", wrong.join("\n"));
        assert!(!refused.is_empty(), "unlike dimensions and zeros must be refused now and then");
        for id in ledger.ids() {
            let step = format!("{:?}", ledger.figure(id).step);
            let word: String = step.chars().take_while(|c| c.is_alphabetic()).collect();
            *steps.entry(word).or_insert(0) += 1;
            assert_eq!(ledger.explain(id)[0].figure, id);
        }
    }
    assert_eq!(steps.len(), 15, "{steps:?}");
    assert!(steps.values().all(|count| *count > 10), "{steps:?}");
}

#[test]
fn the_recomputation_would_notice_one_unit_in_the_last_digit() {
    let third = Fraction::whole(1).over(&Fraction::whole(3));
    assert!(near(&third, Decimal::ONE / Decimal::from(3)));
    assert!(!near(&third, "0.3333333333333333333333333".parse().unwrap()));
    let half = Fraction::decimal(5, 1);
    assert!(near(&half, Decimal::new(5, 1)));
    assert!(!near(&half, "0.5000000000000000000000000001".parse().unwrap()));
    assert!(!near(&Fraction::whole(2), Decimal::ONE));
}

/// The allocation examples of the room `money` by the arithmetic above: thirds of 100 dollars, and an apportionment of
/// an encyclopedia (from memory).
#[test]
fn shares_are_those_of_the_textbooks() {
    let of = |whole: i128, weights: &[i128]| -> Vec<bool> {
        let weights: Vec<Fraction> = weights.iter().map(|weight| Fraction::whole(*weight)).collect();
        let expected: &[i128] = if whole == 100 { &[3334, 3333, 3333] } else { &[5, 2, 1, 1, 1, 0] };
        let amount = if whole == 100 { Fraction::whole(100) } else { Fraction::decimal(whole, 2) };
        let equal = |at: usize| share(&amount, &weights, at).compare(&Fraction::decimal(expected[at], 2)).is_eq();
        (0..weights.len()).map(equal).collect()
    };
    assert!(of(100, &[1, 1, 1]).into_iter().all(|same| same));
    assert!(of(10, &[47_000, 16_000, 15_800, 12_000, 6_100, 3_100]).into_iter().all(|same| same));
}
