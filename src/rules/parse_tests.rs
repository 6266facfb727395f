//! The parser: precedence, exact bytes of faults, and that nothing makes it panic.

use proptest::prelude::*;

use super::tree::{Form, PartId};
use super::*;

/// An expression with all brackets written, so that its shape shows.
fn shape(text: &str) -> String {
    let (expr, faults) = parse(text);
    assert!(faults.is_empty(), "{text}: {faults:?}");
    of(&expr, expr.root)
}

fn of(expr: &Expr, id: PartId) -> String {
    let two = |word: &str, a: &PartId, b: &PartId| format!("({} {word} {})", of(expr, *a), of(expr, *b));
    match expr.form(id) {
        Form::Arithmetic(how, a, b) => two(&format!("{how:?}"), a, b),
        Form::Compare(how, a, b) => two(&format!("{how:?}"), a, b),
        Form::And(a, b) => two("and", a, b),
        Form::Or(a, b) => two("or", a, b),
        Form::Not(a) => format!("(not {})", of(expr, *a)),
        Form::Negate(a) => format!("(- {})", of(expr, *a)),
        Form::Between(a, b, c) => format!("({} between {} {})", of(expr, *a), of(expr, *b), of(expr, *c)),
        Form::If(a, b, c) => format!("(if {} {} {})", of(expr, *a), of(expr, *b), of(expr, *c)),
        Form::In(a, tests) => format!("({} in {} tests)", of(expr, *a), tests.len()),
        Form::Call(function, arguments) => format!("{function:?}/{}", arguments.len()),
        _ => expr.written(id).to_owned(),
    }
}

/// Precedence as the standard's grammar has it (DMN 1.3, 10.3.1.2; from memory): arithmetic, then comparison, then
/// conjunction, then disjunction, then `if`.
#[test]
fn operators_bind_as_the_standard_has_it() {
    let cases = [
        ("a + b * c", "(a Add (b Multiply c))"),
        ("a - b - c", "((a Subtract b) Subtract c)"),
        ("a / b * c", "((a Divide b) Multiply c)"),
        ("-a * b", "((- a) Multiply b)"),
        ("- - a", "(- (- a))"),
        ("a - -b", "(a Subtract (- b))"),
        ("a + b > c * d", "((a Add b) More (c Multiply d))"),
        ("a or b and c", "(a or (b and c))"),
        ("a and b or c and d", "((a and b) or (c and d))"),
        ("a = b and c", "((a Equal b) and c)"),
        ("not(a) and b", "((not a) and b)"),
        ("not(a and b)", "(not (a and b))"),
        ("a between b and c and d", "((a between b c) and d)"),
        ("a in (1, 2) and b", "((a in 2 tests) and b)"),
        ("a in [1..2] or b", "((a in 1 tests) or b)"),
        ("if a then b else c + d", "(if a b (c Add d))"),
        ("if a then b else if c then d else e", "(if a b (if c d e))"),
        ("(if a then b else c) + d", "((if a b c) Add d)"),
        ("max(a, b + c) + 1", "(Max/2 Add 1)"),
        ("list contains(a, \"x\") or b", "(ListContains/2 or b)"),
        ("list  contains (a, \"x\")", "ListContains/2"),
        ("a in (b + 1)", "(a in 1 tests)"),
        ("a in (1..2)", "(a in 1 tests)"),
        ("a in ((1..2), [3..4), ]5..6[)", "(a in 3 tests)"),
        ("a in not(1, < 2)", "(a in 1 tests)"),
        ("a.b_c2 = 1 in", "(a.b_c2 Equal 1 in)"),
    ];
    for (text, wanted) in cases {
        assert_eq!(shape(text), wanted, "{text}");
    }
}

/// Every fault of a text: the bytes it names, what is wrong, what to type.
fn reported(text: &str) -> Vec<(String, String, String)> {
    let (_, faults) = parse(text);
    let tell = |fault: Fault| {
        let bytes = text.get(fault.bytes.clone()).expect("bytes of the text").to_owned();
        (bytes, fault.wrong.to_string(), fault.instead.unwrap_or_default())
    };
    faults.into_iter().map(tell).collect()
}

#[test]
fn faults_of_writing_name_their_bytes_and_what_to_type() {
    let cases = [
        ("", "", "is empty", ""),
        ("   ", "   ", "is empty", ""),
        ("a &", "&", "has `&`, which is no sign of rules", ""),
        ("a && b", "&&", "has `&&`, which is no sign of rules", "and"),
        ("a <> b", "<>", "has `<>`, which is no sign of rules", "!="),
        ("a ≥ b", "≥", "has `≥`, which is no sign of rules", ">="),
        ("!a", "!", "has `!`, which is no sign of rules", "not(…)"),
        ("a = 'x'", "'x'", "has `'`, which is no sign of rules", "\"x\""),
        ("a = \"x", "\"x", "has a text without its closing quote mark", ""),
        ("a > 36\" and b", "36\"", "has the mark `\"` after a number; units are words here", "36 in"),
        ("a > 3'", "3'", "has the mark `'` after a number; units are words here", "3 ft"),
        ("a > 3 feets", "feets", "has `feets` after a number, which is no unit", "ft"),
        ("Leaf.Width > 3", "Leaf.Width", "has capitals in `Leaf.Width`; names and words are lower case", "leaf.width"),
        ("a AND b", "AND", "has capitals in `AND`; names and words are lower case", "and"),
        ("a ** 2", "**", "uses powers, which this subset leaves out", ""),
        ("a +", "", "needs a value instead of the end", ""),
        ("a + )", ")", "needs a value instead of `)`", ""),
        ("(a + b", "", "needs `)` instead of the end", ""),
        ("a)", ")", "closes a bracket `)` that was not opened", ""),
        ("a b", "b", "has no operator before `b`", ""),
        ("(a > 36 1/2 in)", "36 1/2 in", "has no operator before `1`", "36.5 in"),
        ("a > 3 ft 0 1/2 in", "3 ft 0 1/2 in", "has no operator before `0`", "36.5 in"),
        ("a < b < c", "<", "compares twice in a row", ""),
        ("if a then b", "", "needs `else` with the other value instead of the end", ""),
        ("if a b", "b", "has no operator before `b`", ""),
        ("1 + if a then b else c", "if", "needs brackets around `if … then … else …` instead of `if`", ""),
        ("a between 1 or 2", "or", "needs `and` with the upper end instead of `or`", ""),
        ("a in [1, 2]", "[1,", "uses lists, which this subset leaves out", ""),
        ("round(a)", "round", "calls `round`, which is no function of rules", ""),
        ("cieling(a)", "cieling", "calls `cieling`, which is no function of rules", "ceiling"),
        ("ceiling(a, b, c)", "ceiling(a, b, c)", "gives `ceiling` 3 arguments", ""),
        ("min()", "min()", "gives `min` 0 arguments", ""),
        ("not a", "not a", "has `not` without brackets", "not(a)"),
        ("1.0000000001", "1.0000000001", "has a number past nine decimal places or past a thousand million", ""),
        ("1000000001", "1000000001", "has a number past nine decimal places or past a thousand million", ""),
    ];
    for (text, bytes, wrong, instead) in cases {
        let wanted = (bytes.to_owned(), wrong.to_owned(), instead.to_owned());
        assert_eq!(reported(text), [wanted], "{text}");
    }
}

#[test]
fn all_faults_of_writing_are_reported_at_once() {
    let found: Vec<String> = reported("A == 3 feets && b ≤ 'x'").into_iter().map(|fault| fault.0).collect();
    assert_eq!(found, ["A", "==", "feets", "&&", "≤", "'x'"]);
}

#[test]
fn what_is_nested_too_deeply_or_too_long_is_reported_once() {
    let deep = format!("{}1{}", "(".repeat(5_000), ")".repeat(5_000));
    let signs = format!("{}1", "-".repeat(5_000));
    let nots = format!("{}a{}", "not(".repeat(5_000), ")".repeat(5_000));
    let bare = format!("{}a", "not ".repeat(5_000));
    let tests = format!("a in {}1{}", "not(".repeat(5_000), ")".repeat(5_000));
    for text in [deep, signs, nots, bare, tests] {
        let (_, faults) = parse(&text);
        assert_eq!(faults.len(), 1, "{:.40}: {faults:?}", text);
        assert_eq!(faults[0].wrong, Wrong::TooDeep);
    }
    let long = "1 + ".repeat(5_000) + "1";
    assert_eq!(parse(&long).1.iter().filter(|fault| fault.wrong == Wrong::TooLong).count(), 1);
    assert!(parse(&("1 + ".repeat(199) + "1")).1.is_empty());
}

#[test]
fn facts_are_listed_in_the_order_of_writing() {
    let (expr, _) = parse("b.c + a * (b.c - max(d, 1))");
    assert_eq!(expr.facts(), ["b.c", "a", "d"]);
}

/// Pieces of the language and of what people type by mistake.
const PIECES: [&str; 64] = [
    "leaf.width",
    "leaf.arm",
    "leaf.devices",
    "leaf.powered",
    "leaf.undercut",
    "a",
    "b.c",
    "36",
    "1/2",
    "0.5",
    ".5",
    "3.",
    "in",
    "ft",
    "sq ft",
    "%",
    "h",
    "$",
    "\"",
    "'",
    "\"push\"",
    "“",
    "true",
    "false",
    "null",
    "and",
    "or",
    "not",
    "not(",
    "between",
    "if",
    "then",
    "else",
    "(",
    ")",
    "[",
    "]",
    "..",
    ",",
    "+",
    "-",
    "*",
    "/",
    "=",
    "!=",
    "<",
    "<=",
    ">",
    ">=",
    "==",
    "&&",
    "ceiling(",
    "floor(",
    "min(",
    "max(",
    "abs(",
    "count(",
    "list contains(",
    "list",
    "é",
    "𝟙",
    "\u{a0}",
    "\\",
    "_",
];

/// Whatever is parsed is also checked and, if it passes, evaluated.
fn goes_through(text: &str) -> Result<(), TestCaseError> {
    let (expr, faults) = parse(text);
    for fault in &faults {
        prop_assert!(text.get(fault.bytes.clone()).is_some(), "{text:?}: {fault:?}");
        prop_assert!(!fault.wrong.to_string().is_empty(), "{text:?}: {fault:?}");
    }
    let sheet = language_tests::example().sheet;
    for wanted in [ExpectedKind::Condition, ExpectedKind::Quantity(crate::measure::Dimension::LENGTH)] {
        for fault in check(&expr, &sheet, wanted) {
            prop_assert!(text.get(fault.bytes.clone()).is_some(), "{text:?}: {fault:?}");
        }
    }
    if let Err(faults) = language_tests::comes_to(text) {
        prop_assert!(!faults.is_empty());
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: prop::test_runner::RngSeed::Fixed(7),
        cases: 2_000, ..ProptestConfig::default() })]

    #[test]
    fn no_text_makes_it_panic(text in "\\PC{0,60}") {
        goes_through(&text)?;
    }

    #[test]
    fn no_run_of_pieces_makes_it_panic(pieces in prop::collection::vec(prop::sample::select(&PIECES[..]), 0..24),
        gap in prop::sample::select(vec!["", " "])) {
        goes_through(&pieces.join(gap))?;
    }
}
