//! What conditions and formulas come to, what they read, and what they leave on the ledger.

use super::language_tests::{comes_to, example, somewhere};
use super::*;
use crate::ledger::{Called, Cause, FigureId, Ledger, Reason, ReasonId};
use crate::measure::{Dimension, QuantityFault};

/// The truth tables of the standard (DMN 1.3, 10.3.2.2 and 10.3.2.3, conjunction and disjunction with `null`; from
/// memory). `leaf.labeled` is not known.
#[test]
fn three_values_are_joined_as_the_standard_has_it() {
    let values = [("true", Some(true)), ("false", Some(false)), ("leaf.labeled", None)];
    for (left, a) in values {
        for (right, b) in values {
            let and = match (a, b) {
                (Some(false), _) | (_, Some(false)) => Some(false),
                (Some(true), Some(true)) => Some(true),
                _ => None,
            };
            let or = match (a, b) {
                (Some(true), _) | (_, Some(true)) => Some(true),
                (Some(false), Some(false)) => Some(false),
                _ => None,
            };
            for (word, wanted) in [("and", and), ("or", or)] {
                let wanted = wanted.map_or("undecided: leaf.labeled".to_owned(), |truth| truth.to_string());
                assert_eq!(comes_to(&format!("{left} {word} {right}")), Ok(wanted), "{left} {word} {right}");
            }
        }
    }
}

/// Examples of the standard's pages on arithmetic, rounding and unary tests (DMN 1.3, tables 42, 55 and 78; from memory).
#[test]
fn the_subset_means_what_the_standard_means() {
    let cases = [
        ("ceiling(1.5)", "2"),
        ("ceiling(-1.5)", "-1"),
        ("floor(1.5)", "1"),
        ("floor(-1.5)", "-2"),
        ("abs(10)", "10"),
        ("abs(-10)", "10"),
        ("min(1, 2, 3)", "1"),
        ("max(1, 2, 3)", "3"),
        ("not(true)", "false"),
        ("5 in (< 6)", "true"),
        ("5 in ([4..6])", "true"),
        ("5 in ((5..6])", "false"),
        ("5 in (4, 5)", "true"),
        ("5 between 4 and 6", "true"),
        ("5 between 5 and 5", "true"),
        ("if false then 1 else 2", "2"),
        ("-5 + 3", "-2"),
        ("2 - 3 - 4", "-5"),
        ("10 / 4", "2.5"),
        ("\"a\" = \"a\"", "true"),
        ("\"a\" = \"A\"", "false"),
    ];
    for (text, wanted) in cases {
        assert_eq!(comes_to(text), Ok(wanted.to_owned()), "{text}");
    }
}

/// 64 x 0.015625 = 1 (arithmetic): sixty-fourths, feet and millimetres are exact.
#[test]
fn lengths_are_exact() {
    let cases = [
        ("1/64 * 64 = 1", "true"),
        ("0.015625 in * 64 = 1 in", "true"),
        ("0.015625 in * 64 = 25.4 mm", "true"),
        ("12 in = 1 ft and 3 ft = 914.4 mm", "true"),
        ("1 sq ft = 144 sq in and 1 ft * 1 ft = 1 sq ft", "true"),
        ("1 h = 60 min and 90 min = 1.5 h", "true"),
        ("leaf.width + 0.015625 in > 36 in", "true"),
        ("leaf.width * leaf.height", "21 sq ft"),
        ("120 V * 5 A = 600 VA", "true"),
        ("10 % = 0.1", "true"),
    ];
    for (text, wanted) in cases {
        assert_eq!(comes_to(text), Ok(wanted.to_owned()), "{text}");
    }
}

fn rule(ledger: &mut Ledger) -> ReasonId {
    ledger.reason(Reason::Rule { id: "slack".to_owned(), place: somewhere() })
}

fn verdict(text: &str) -> Verdict {
    let facts = example();
    let mut ledger = Ledger::new();
    let reason = rule(&mut ledger);
    Condition::read(text, &facts.sheet).unwrap().verdict(&facts, &mut ledger, reason).unwrap()
}

fn measured(text: &str, dimension: Dimension, ledger: &mut Ledger) -> FigureId {
    let facts = example();
    let reason = rule(ledger);
    let formula = Formula::read(text, &facts.sheet, dimension).unwrap();
    let measured = formula.measure(&facts, ledger, Called::new("the result", reason)).unwrap();
    let Amount::Known(figure) = measured.amount else { panic!("{text}: {measured:?}") };
    figure
}

#[test]
fn a_verdict_reports_what_it_read_and_stops_when_it_is_decided() {
    let reported = |text: &str| verdict(text).because();
    let both = "true: leaf.powered is yes, leaf.width is 36 in";
    assert_eq!(reported("leaf.powered and leaf.width > 30 in"), both);
    assert_eq!(reported("leaf.width > 40 in and leaf.powered"), "false: leaf.width is 36 in");
    assert_eq!(reported("leaf.powered or leaf.width > 30 in"), "true: leaf.powered is yes");
    assert_eq!(reported("leaf.width > 30 in and leaf.width < 40 in"), "true: leaf.width is 36 in");
    let list = "true: leaf.devices is \"plate\", \"sensor\"";
    assert_eq!(reported("list contains(leaf.devices, \"plate\")"), list);
    assert_eq!(reported("leaf.undercut > 1 in"), "undecided: leaf.undercut is not known: not surveyed");
    assert_eq!(reported("leaf.arm = \"pull\""), "false: leaf.arm is \"push\"");
    assert_eq!(reported("1 = 1"), "true");
    assert_eq!(verdict("leaf.powered and leaf.width > 30 in").figures().len(), 1);
}

#[test]
fn everything_missing_is_reported_at_once() {
    let Truth::Undecided(missing) = verdict("leaf.undercut > 1 in or leaf.labeled").truth else { panic!("decided") };
    let names: Vec<String> = missing.into_iter().map(|missing| missing.fact).collect();
    assert_eq!(names, ["leaf.undercut", "leaf.labeled"]);
    let text = "leaf.undercut + (if leaf.labeled then 1 in else 2 in)";
    assert_eq!(comes_to(text), Ok("undecided: leaf.undercut, leaf.labeled".to_owned()));
}

#[test]
fn every_step_of_a_formula_stands_on_the_ledger() {
    let mut ledger = Ledger::new();
    let text = "ceiling(2 * leaf.height + leaf.width + 4 in, 1 ft)";
    let figure = measured(text, Dimension::LENGTH, &mut ledger);
    let reported: Vec<String> = ledger
        .explain(figure)
        .iter()
        .map(|line| format!("{}{}: {} [{}]", "  ".repeat(line.depth), line.name, line.text, line.because))
        .collect();
    assert_eq!(
        reported,
        [
            "the result: 216 in = 208 in rounded up to a multiple of 1 ft [rule slack]",
            "  2 * leaf.height + leaf.width + 4 in: 208 in = 168 in + 36 in + 4 in [rule slack]",
            "    2 * leaf.height: 168 in = 2 x 84 in [rule slack]",
            "      2: 2 [rule slack]",
            "      leaf.height: 84 in [surveyed]",
            "    leaf.width: 36 in [surveyed]",
            "    4 in: 4 in [rule slack]",
            "  1 ft: 1 ft [rule slack]",
        ]
    );
}

#[test]
fn a_choice_reports_why() {
    let mut ledger = Ledger::new();
    let text = "if leaf.powered and leaf.width > 30 in then 2 else 1";
    let figure = measured(text, Dimension::NONE, &mut ledger);
    let why = "2 = 2 by `leaf.powered and leaf.width > 30 in`, true: leaf.powered is yes, leaf.width is 36 in";
    assert_eq!(ledger.equation(figure), why);
    let names: Vec<&str> = ledger.inputs(figure).iter().map(|id| ledger.figure(*id).name).collect();
    assert_eq!(names, ["2", "leaf.width"]);
}

#[test]
fn a_fact_or_a_number_alone_is_carried_under_the_name_of_the_line() {
    let mut ledger = Ledger::new();
    let fact = measured("leaf.width", Dimension::LENGTH, &mut ledger);
    assert_eq!(ledger.equation(fact), "36 in = 36 in (leaf.width)");
    let one = measured("1", Dimension::NONE, &mut ledger);
    assert_eq!((ledger.figure(one).name, ledger.equation(one)), ("the result", "1 = 1 (1)".to_owned()));
    let count = measured("count(leaf.devices)", Dimension::NONE, &mut ledger);
    assert_eq!(ledger.equation(count), "2 = the number of leaf.devices");
}

#[test]
fn a_condition_leaves_nothing_on_the_ledger_but_what_it_computes() {
    let facts = example();
    let mut ledger = Ledger::new();
    let reason = rule(&mut ledger);
    let condition = Condition::read("leaf.width > 30 in and leaf.arm = \"push\"", &facts.sheet).unwrap();
    for _ in 0..3 {
        condition.verdict(&facts, &mut ledger, reason).unwrap();
    }
    assert_eq!(ledger.len(), 1, "the fact that was read");
}

#[test]
fn what_cannot_be_worked_out_is_a_fault_at_its_bytes() {
    let facts = example();
    let mut ledger = Ledger::new();
    let reason = rule(&mut ledger);
    let formula = Formula::read("1 + leaf.hinges / (leaf.hinges - 3)", &facts.sheet, Dimension::NONE).unwrap();
    let fault = formula.measure(&facts, &mut ledger, Called::new("it", reason)).unwrap_err();
    assert_eq!(fault.bytes, 4..35);
    let Wrong::Figure(figure) = &fault.wrong else { panic!("{fault:?}") };
    assert_eq!(figure.cause, Cause::Arithmetic(QuantityFault::ByZero));
    assert_eq!(
        fault.to_string(),
        "the rule cannot be calculated: leaf.hinges / (leaf.hinges - 3): it is divided by zero; \
         leaf.hinges is 3, (leaf.hinges - 3) is 0"
    );
    let condition = Condition::read("leaf.powered and 1 / (leaf.hinges - 3) > 1", &facts.sheet).unwrap();
    assert_eq!(condition.verdict(&facts, &mut ledger, reason).unwrap_err().bytes, 17..38);
    let short = Condition::read("not(leaf.powered) and 1 / (leaf.hinges - 3) > 1", &facts.sheet).unwrap();
    assert_eq!(short.verdict(&facts, &mut ledger, reason).unwrap().truth, Truth::False);
}

/// Facts that are not what their sheet says are the supplier's fault and are told, never a panic.
#[test]
fn facts_that_belie_their_sheet_are_reported() {
    struct Belied(FactValue<'static>, FigureId);
    impl Facts for Belied {
        fn value(&self, _: &FactName, _: &Ledger) -> FactValue<'_> {
            self.0.clone()
        }
        fn figure(&self, _: &FactName, _: &mut Ledger) -> Result<FigureId, String> {
            Ok(self.1)
        }
    }
    let sheet = example().sheet;
    let mut ledger = Ledger::new();
    let reason = rule(&mut ledger);
    let weight = measured("leaf.weight", Dimension::WEIGHT, &mut ledger);
    let values = [FactValue::Text("x"), FactValue::Flag(true), FactValue::Words(&[])];
    let formula = Formula::read("leaf.width + 1 in", &sheet, Dimension::LENGTH).unwrap();
    for value in values.into_iter().chain([FactValue::Number(ledger.value(weight))]) {
        let fault = formula.measure(&Belied(value, weight), &mut ledger, Called::new("it", reason)).unwrap_err();
        assert!(matches!(fault.wrong, Wrong::Supplied(..) | Wrong::Figure(_)), "{fault:?}");
    }
    for text in ["leaf.width > 1 in", "leaf.powered", "leaf.arm = \"push\"", "count(leaf.devices) = 1"] {
        let condition = Condition::read(text, &sheet).unwrap();
        let belied =
            if text == "leaf.powered" { FactValue::Number(ledger.value(weight)) } else { FactValue::Flag(true) };
        assert!(condition.verdict(&Belied(belied, weight), &mut ledger, reason).is_err(), "{text}");
    }
}
