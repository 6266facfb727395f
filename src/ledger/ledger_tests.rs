//! The ledger's operations, its refusals, its texts.

use rust_decimal::Decimal;

use super::*;
use crate::findings::{Files, Place};
use crate::measure::{Dimension, Quantity, QuantityFault, Style, Unit};
use crate::money::Rounding;

fn place(start: usize) -> Place {
    let files = Files::new([("job.toml".to_owned(), Vec::new())]);
    Place::text(files.find("job.toml").unwrap(), start, start + 1)
}

/// A ledger with the reasons of an entry and of a rule.
fn ledger() -> (Ledger, ReasonId, ReasonId) {
    let mut ledger = Ledger::new();
    let typed = ledger.reason(Reason::Entry { place: place(1), standing: "surveyed 2026-03-02".to_owned() });
    let rule = ledger.reason(Reason::Rule { id: "slack".to_owned(), place: place(2) });
    (ledger, typed, rule)
}

fn quantity(text: &str, unit: Unit) -> Quantity {
    Quantity::in_units(text.parse::<Decimal>().unwrap(), unit).unwrap()
}

/// Something given under a name of its own.
fn given(ledger: &mut Ledger, reason: ReasonId, text: &str, unit: Unit) -> FigureId {
    let name = format!("{text} {}", unit.word());
    ledger.given(quantity(text, unit), Called::new(&name, reason).shown(Shown::In(unit))).unwrap()
}

#[test]
fn an_equation_reports_how_a_figure_came_to_be() {
    let (mut ledger, typed, rule) = ledger();
    let run = given(&mut ledger, typed, "36", Unit::Foot);
    let slack = given(&mut ledger, rule, "2.25", Unit::Foot);
    let stick = given(&mut ledger, rule, "10", Unit::Foot);
    let sum = ledger.sum(&[run, slack], Called::new("conduit", rule)).unwrap();
    assert_eq!(ledger.equation(sum), "38.25 ft = 36 ft + 2.25 ft");
    let cut = ledger.rounded_up(sum, stick, Called::arithmetic("conduit bought")).unwrap();
    assert_eq!(ledger.equation(cut), "40 ft = 38.25 ft rounded up to a multiple of 10 ft");
    let sticks = ledger.quotient(cut, stick, Called::arithmetic("sticks")).unwrap();
    assert_eq!(ledger.equation(sticks), "4 = 40 ft / 10 ft");
    let rate = Decimal::new(1255, 3);
    let rate = ledger.given_rate(rate, Unit::Dollar, Unit::Foot, Called::new("unit price", typed)).unwrap();
    assert_eq!(ledger.print(rate), "$1.255 per ft");
    let cost = ledger.product(&[sum, rate], Called::arithmetic("cost")).unwrap();
    assert_eq!(ledger.equation(cost), "$48.00375 = 38.25 ft x $1.255 per ft");
    let cents = ledger.rounded_to_cents(cost, Rounding::default(), Called::arithmetic("line")).unwrap();
    assert_eq!(ledger.equation(cents), "$48.00 = $48.00375 rounded to cents, half away from zero");
    let credit = ledger.negated(cents, Called::arithmetic("credit")).unwrap();
    assert_eq!(ledger.equation(credit), "($48.00) = -($48.00)");
}

#[test]
fn an_explanation_goes_down_to_what_was_typed_and_reports_nothing_twice() {
    let (mut ledger, typed, rule) = ledger();
    let width = given(&mut ledger, typed, "36", Unit::Inch);
    let twice = ledger.sum(&[width, width], Called::new("both jambs", rule)).unwrap();
    let all = ledger.sum(&[twice, twice], Called::arithmetic("all")).unwrap();
    let reported: Vec<(usize, String, String, bool)> =
        ledger.explain(all).into_iter().map(|line| (line.depth, line.text, line.because, line.seen)).collect();
    let line = |depth, text: &str, because: &str, seen| (depth, text.to_owned(), because.to_owned(), seen);
    assert_eq!(
        reported,
        [
            line(0, "144 in = 72 in + 72 in", "", false),
            line(1, "72 in = 36 in + 36 in", "rule slack", false),
            line(2, "36 in", "surveyed 2026-03-02", false),
            line(2, "36 in", "surveyed 2026-03-02", false),
            line(1, "72 in = 36 in + 36 in", "rule slack", true),
        ]
    );
    assert_eq!(ledger.explain(width)[0].place, Some(place(1)));
    // One step from the figure: its own line and those of its inputs, each with all that it rests on left out.
    let near = ledger.explain_to(all, 1);
    assert_eq!(near.len(), 1 + ledger.inputs(all).len());
    assert!(near.iter().all(|line| line.depth <= 1));
    assert!(near[1..].iter().all(|line| line.under == ledger.ancestors(line.figure).len()));
    assert_eq!(ledger.explain_to(all, 0)[0].under, ledger.ancestors(all).len());
    assert_eq!(ledger.ancestors(all), [width, twice]);
    assert_eq!(ledger.inputs(all), [twice, twice]);
}

#[test]
fn no_figure_is_given_without_a_reason_and_none_twice() {
    let (mut ledger, typed, rule) = ledger();
    let value = quantity("36", Unit::Inch);
    let fault = ledger.given(value, Called::arithmetic("width")).unwrap_err();
    assert_eq!(fault.cause, Cause::NoReason);
    let first = ledger.given(value, Called::new("width", typed)).unwrap();
    assert_eq!(ledger.given(value, Called::new("width", typed)), Ok(first));
    assert_ne!(ledger.given(value, Called::new("width", rule)), Ok(first));
    assert_ne!(ledger.given(value, Called::new("height", typed)), Ok(first));
    assert_ne!(ledger.given(quantity("37", Unit::Inch), Called::new("width", typed)), Ok(first));
    assert_eq!(ledger.len(), 4);
}

#[test]
fn what_has_no_result_is_a_fault_that_names_its_parts() {
    let (mut ledger, typed, _) = ledger();
    let width = given(&mut ledger, typed, "36", Unit::Inch);
    let three = given(&mut ledger, typed, "3", Unit::Each);
    let none = given(&mut ledger, typed, "0", Unit::Each);
    let huge = ledger.given(Quantity::count(Decimal::MAX), Called::new("huge", typed)).unwrap();
    let before = ledger.len();
    let called = Called::arithmetic("it");
    let fault = ledger.sum(&[three, width], called).unwrap_err();
    let unlike = QuantityFault::Unlike(Dimension::NONE, Dimension::LENGTH);
    assert_eq!(fault.cause, Cause::Arithmetic(unlike));
    assert_eq!(fault.to_string(), "it: a count and a length do not go together; 3 each is 3, 36 in is 36 in");
    let causes = [
        ledger.quotient(width, none, called),
        ledger.product(&[huge, huge], called),
        ledger.sum(&[huge, huge], called),
        ledger.sum(&[], called),
        ledger.product(&[], called),
        ledger.largest(&[], called),
        ledger.smallest(&[], called),
        ledger.rounded_up(three, none, called),
        ledger.rounded_down(width, three, called),
        ledger.rounded_to_cents(width, Rounding::default(), called),
        ledger.sum(&[three], called.shown(Shown::MONEY)),
        ledger.shares(width, &[(three, called)]).map(|parts| parts[0]),
    ]
    .map(|made| made.unwrap_err().cause);
    let arithmetic = Cause::Arithmetic;
    let reversed = QuantityFault::Unlike(Dimension::LENGTH, Dimension::NONE);
    assert_eq!(
        causes,
        [
            arithmetic(QuantityFault::ByZero),
            arithmetic(QuantityFault::TooLarge),
            arithmetic(QuantityFault::TooLarge),
            Cause::Nothing,
            Cause::Nothing,
            Cause::Nothing,
            Cause::Nothing,
            Cause::Multiple,
            arithmetic(reversed),
            Cause::NotMoney(Dimension::LENGTH),
            Cause::Shown(Dimension::NONE, Shown::MONEY),
            Cause::NotMoney(Dimension::LENGTH),
        ]
    );
    assert_eq!(ledger.len(), before, "a refused operation leaves no figure");
    let empty = ledger.sum(&[], called.shown(Shown::MONEY)).unwrap();
    assert_eq!(ledger.equation(empty), "$0.00, a sum of nothing");
}

#[test]
fn shares_add_up_and_say_which_part_they_are() {
    let (mut ledger, typed, _) = ledger();
    let whole = given(&mut ledger, typed, "100", Unit::Dollar);
    let weights = ["1", "1.0", "1.00"].map(|text| given(&mut ledger, typed, text, Unit::Each));
    let parts: Vec<(FigureId, Called)> = weights.iter().map(|id| (*id, Called::arithmetic("part"))).collect();
    let made = ledger.shares(whole, &parts).unwrap();
    // Thirds of 100 dollars: 33.34, 33.33, 33.33 (arithmetic).
    let printed: Vec<String> = made.iter().map(|id| ledger.print(*id)).collect();
    assert_eq!(printed, ["$33.34", "$33.33", "$33.33"]);
    assert_eq!(ledger.equation(made[1]), "$33.33 = part 2 of 3 of $100.00, by weight 1 of 1, 1, 1");
    let odd = given(&mut ledger, typed, "0.125", Unit::Dollar);
    assert_eq!(ledger.shares(odd, &parts).unwrap_err().cause, Cause::NotCents);
    let none = given(&mut ledger, typed, "0", Unit::Each);
    assert_eq!(ledger.shares(whole, &[(none, parts[0].1)]).unwrap_err().cause, Cause::Weights);
}

#[test]
fn rounding_takes_the_last_digit_of_a_quotient_for_what_it_is() {
    let (mut ledger, typed, rule) = ledger();
    let [one, two, three] = ["1", "2", "3"].map(|text| given(&mut ledger, typed, text, Unit::Each));
    let called = Called::arithmetic("it");
    let part = ledger.quotient(two, three, called).unwrap();
    let back = ledger.product(&[part, three], called).unwrap();
    assert_ne!(ledger.value(back), ledger.value(two), "else this test shows nothing");
    for turned in [ledger.rounded_up(back, one, called), ledger.rounded_down(back, one, called)] {
        assert_eq!(ledger.value(turned.unwrap()), ledger.value(two));
    }
    // Half a thousandth of a hair past a multiple still is a multiple more.
    let past = given(&mut ledger, rule, "2.00000001", Unit::Each);
    let up = ledger.rounded_up(past, one, called).unwrap();
    assert_eq!(ledger.print(up), "3");
    let below = given(&mut ledger, rule, "-0.5", Unit::Each);
    let up = ledger.rounded_up(below, one, called).unwrap();
    assert_eq!(ledger.print(up), "0");
    let down = ledger.rounded_down(below, one, called).unwrap();
    assert_eq!(ledger.print(down), "-1");
}

/// Half a cent, which a price per millimetre in 28 digits would fall short of: 0.125 = 0.125 x 1 (arithmetic).
#[test]
fn a_rate_is_exact_in_its_own_units() {
    let (mut ledger, typed, _) = ledger();
    // Nothing is sold by torque or energy; the seventeen digits of a pound-force foot leave no room for its square.
    for unit in Unit::all().filter(|unit| unit.dimension() != Dimension::TORQUE) {
        let name = format!("price per {}", unit.word());
        let rate = Decimal::new(125, 3);
        let rate = ledger.given_rate(rate, Unit::Dollar, unit, Called::new(&name, typed)).unwrap();
        assert_eq!(ledger.print(rate), format!("$0.125 per {}", unit.word()));
        let one = given(&mut ledger, typed, "1", unit);
        let cost = ledger.product(&[one, rate], Called::arithmetic("cost")).unwrap();
        assert_eq!(ledger.value(cost), quantity("0.125", Unit::Dollar), "{unit:?}");
        let cents = ledger.rounded_to_cents(cost, Rounding::HalfAwayFromZero, Called::arithmetic("line")).unwrap();
        assert_eq!(ledger.print(cents), "$0.13", "{unit:?}");
        let back = ledger.quotient(cost, one, Called::arithmetic("price")).unwrap();
        let less = ledger.difference(back, rate, Called::arithmetic("nothing")).unwrap();
        assert!(ledger.value(less).value().is_zero(), "{unit:?}");
        let price = ledger.rounded_to_cents(rate, Rounding::HalfEven, Called::arithmetic("price")).unwrap();
        assert_eq!(ledger.print(price), format!("$0.12 per {}", unit.word()));
        let again = ledger.given_rate(Decimal::new(1250, 4), Unit::Dollar, unit, Called::new(&name, typed));
        assert_eq!(again, Ok(rate));
    }
    // Twenty minutes at 60 dollars an hour, a third of an hour without end: 20 dollars.
    let rate = ledger.given_rate(60.into(), Unit::Dollar, Unit::Hour, Called::new("wage", typed)).unwrap();
    let time = given(&mut ledger, typed, "20", Unit::Minute);
    let wage = ledger.product(&[time, rate], Called::arithmetic("labor")).unwrap();
    assert_eq!(ledger.equation(wage), "$20.00 = 20 min x $60.00 per h");
}

#[test]
fn every_unit_prints_and_what_has_no_end_says_so() {
    let print = |text: &str, unit| Shown::In(unit).print(quantity(text, unit), Style::Plain);
    assert_eq!(print("0.015625", Unit::Inch), "0.015625 in");
    assert_eq!(print("1234.5", Unit::Dollar), "$1,234.50");
    assert_eq!(print("0.0475", Unit::Dollar), "$0.0475");
    assert_eq!(print("10", Unit::Percent), "10%");
    let third = quantity("1", Unit::Foot).over(Quantity::count(3)).unwrap();
    assert_eq!(Shown::In(Unit::Foot).print(third, Style::Plain), "about 0.3333 ft");
    let rate = quantity("1", Unit::Hour).over(quantity("1", Unit::Foot)).unwrap();
    assert_eq!(Shown::Per(Unit::Hour, Unit::Foot).print(rate, Style::Plain), "1 h per ft");
    let odd = quantity("2", Unit::Millimetre).times(quantity("1", Unit::Second)).unwrap();
    assert_eq!(Shown::usual(odd.dimension()).print(odd, Style::Plain), "2 mm s");
    for unit in Unit::all() {
        assert_eq!(Shown::usual(unit.dimension()).dimension(), Some(unit.dimension()), "{unit:?}");
        assert!(!print("1", unit).contains("about"), "{unit:?}");
    }
}

#[test]
fn a_figure_stays_small() {
    // Tens of thousands a job are normal; a hundred bytes each is a few megabytes.
    const { assert!(Ledger::NODE_BYTES <= 80) }
}
