//! What the check finds, at which bytes, and what it says to type; and how that becomes a finding.

use super::*;
use crate::findings::{Severity, Subject};
use crate::measure::Dimension;

/// Every fault of a text: the bytes it names, what is wrong, what to type.
fn reported(text: &str, wanted: ExpectedKind) -> Vec<(String, String, String)> {
    let sheet = language_tests::example().sheet;
    let (expr, faults) = parse(text);
    assert!(faults.is_empty(), "{text}: {faults:?}");
    let tell = |fault: Fault| {
        let bytes = text.get(fault.bytes.clone()).expect("bytes of the text").to_owned();
        (bytes, fault.wrong.to_string(), fault.instead.unwrap_or_default())
    };
    check(&expr, &sheet, wanted).into_iter().map(tell).collect()
}

fn one(text: &str, wanted: ExpectedKind, bytes: &str, wrong: &str, instead: &str) {
    assert_eq!(reported(text, wanted), [(bytes.to_owned(), wrong.to_owned(), instead.to_owned())], "{text}");
}

#[test]
fn a_length_is_never_added_to_a_count() {
    let length = ExpectedKind::Quantity(Dimension::LENGTH);
    one("leaf.hinges + leaf.width", length, "leaf.hinges + leaf.width", "adds a length to a count", "");
    one("leaf.width - leaf.weight", length, "leaf.width - leaf.weight", "takes a weight from a length", "");
    one(
        "max(leaf.width, leaf.hinges)",
        length,
        "leaf.hinges",
        "takes the least or greatest of a length and a count",
        "",
    );
    let text = "ceiling(leaf.width, leaf.hinges)";
    one(text, length, text, "rounds a length to a multiple of a count", "");
    let text = "if leaf.powered then leaf.width else leaf.hinges";
    one(text, length, "leaf.hinges", "gives a length after `then` and a count after `else`", "");
    one("leaf.width * leaf.height", length, "leaf.width * leaf.height", "gives an area where a length is wanted", "");
    one("leaf.powered", length, "leaf.powered", "has a condition where a length is wanted", "");
    one("leaf.arm", length, "leaf.arm", "has a text where a length is wanted", "");
}

#[test]
fn a_number_without_unit_is_reported_which_unit_the_fact_is_in() {
    let condition = ExpectedKind::Condition;
    let missing = |what: &str| format!("has a number without unit beside {what}");
    one("leaf.width > 36", condition, "36", &missing("a length"), "36 in");
    one("36 < leaf.width", condition, "36", &missing("a length"), "36 in");
    one("run.length > -36", condition, "-36", &missing("a length"), "-36 ft");
    one("run.time + 1 h > 5", condition, "5", &missing("a time"), "5 min");
    one("leaf.width in [30..48 in]", condition, "30", &missing("a length"), "30 in");
    one("leaf.width in (< 30, 36 in)", condition, "30", &missing("a length"), "30 in");
    one("leaf.width between 30 and 40 in", condition, "30", &missing("a length"), "30 in");
    one("leaf.width * leaf.height > 20", condition, "20", &missing("an area"), "20 sq ft");
    one("leaf.width + 3 > 40 in", condition, "3", &missing("a length"), "3 in");
    one("3", ExpectedKind::Quantity(Dimension::LENGTH), "3", &missing("a length"), "3 ft");
    let rounds = "rounds a length by `floor` without saying to what";
    let length = ExpectedKind::Quantity(Dimension::LENGTH);
    one("floor(leaf.width)", length, "floor(leaf.width)", rounds, "floor(leaf.width, 1 in)");
}

#[test]
fn names_and_words_that_cannot_be_are_reported_the_nearest() {
    let condition = ExpectedKind::Condition;
    let unknown = |name: &str| format!("names `{name}`, which is no fact on the sheet `leaf`");
    one("leaf.heigth > 1 in", condition, "leaf.heigth", &unknown("leaf.heigth"), "leaf.height");
    one("door > 1 in", condition, "door", &unknown("door"), "");
    let never = |word: &str| format!("compares with \"{word}\", which the fact can never be");
    one("leaf.arm != \"psuh\"", condition, "\"psuh\"", &never("psuh"), "\"push\"");
    one("\"up\" = leaf.arm", condition, "\"up\"", &never("up"), "");
    one("leaf.arm in (\"push\", \"pul\")", condition, "\"pul\"", &never("pul"), "\"pull\"");
    one("list contains(leaf.devices, \"plat\")", condition, "\"plat\"", &never("plat"), "\"plate\"");
    assert_eq!(reported("leaf.note = \"whatever\"", condition), []);
}

#[test]
fn kinds_that_do_not_go_together_are_reported() {
    let condition = ExpectedKind::Condition;
    let has = |found: &str, wanted: &str| format!("has {found} where {wanted} is wanted");
    one("leaf.width", condition, "leaf.width", &has("a length", "a condition"), "");
    one("leaf.powered and leaf.hinges", condition, "leaf.hinges", &has("a count", "a condition"), "");
    one("leaf.arm > \"a\"", condition, "leaf.arm", &has("a text", "a quantity"), "");
    one("leaf.width = \"wide\"", condition, "\"wide\"", &has("a text", "a length"), "");
    one("leaf.powered = \"yes\"", condition, "\"yes\"", &has("a text", "a condition"), "");
    one("leaf.devices = \"plate\"", condition, "leaf.devices", &has("a list", "a text"), "");
    one("list contains(leaf.arm, \"push\")", condition, "leaf.arm", &has("a text", "a list"), "");
    one("count(leaf.width) > 1", condition, "leaf.width", &has("a length", "a list"), "");
    one("leaf.arm in (< 3)", condition, "3", &has("a count", "a text"), "");
    one("leaf.powered in (true)", condition, "leaf.powered", &has("a condition", "a quantity or a text"), "");
    let null = "uses `null` other than to ask whether a fact is known";
    one("leaf.width > null", condition, "null", null, "");
    one("null = null", condition, "null = null", null, "");
    one("leaf.width + 1 in = null", condition, "null", null, "");
    one("leaf.width in (null)", condition, "null", null, "");
    one("null", condition, "null", null, "");
}

#[test]
fn all_faults_are_reported_in_one_pass_and_without_cascades() {
    let text = "leaf.widht + leaf.hinges > 3 and leaf.arm = \"psuh\" or leaf.height > 84 and not(leaf.width)";
    let found: Vec<String> = reported(text, ExpectedKind::Condition).into_iter().map(|fault| fault.0).collect();
    assert_eq!(found, ["leaf.widht", "\"psuh\"", "84", "leaf.width"]);
    let sheet = language_tests::example().sheet;
    let faults = Condition::read("leaf.widht == 3 in and leaf.height > 84", &sheet).unwrap_err();
    let bytes: Vec<Bytes> = faults.into_iter().map(|fault| fault.bytes).collect();
    assert_eq!(bytes, [0..10, 11..13, 37..39]);
}

/// A unit too many: the exponents of a dimension are eight bits.
#[test]
fn a_product_beyond_any_unit_is_reported() {
    let text = vec!["leaf.width"; 130].join(" * ");
    let wrong: Vec<String> = reported(&text, ExpectedKind::Condition).into_iter().map(|fault| fault.1).collect();
    assert_eq!(wrong, ["multiplies or divides beyond any unit"]);
}

#[test]
fn a_fault_becomes_a_finding_at_its_place_in_the_input() {
    use crate::findings::{Files, Place};
    let toml = "[[rule]]\nwhen = 'leaf.width > 36'\n";
    let files = Files::new([("rules.toml".to_owned(), toml.into())]);
    let file = files.find("rules.toml").unwrap();
    let start = toml.find("leaf.width").unwrap();
    let place = |bytes: Bytes| Place::text(file, start + bytes.start, start + bytes.end);
    let subject = Subject::Entry("rule", "wide".to_owned());
    let sheet = language_tests::example().sheet;
    let faults = Condition::read("leaf.width > 36", &sheet).unwrap_err();
    let finding = faults[0].finding(subject.clone(), &place);
    let at = Place::text(file, start + 13, start + 15);
    assert_eq!(finding.code.id, "rule-units");
    assert_eq!(finding.code.severity, Severity::Error);
    assert_eq!(finding.place(), Some(&at));
    let remedy = finding.remedy.unwrap();
    assert_eq!((remedy.text.as_str(), remedy.at), ("36 in", Some(at)));
    let faults = Condition::read("leaf.arm = \"sideways\"", &sheet).unwrap_err();
    let finding = faults[0].finding(subject, &place);
    assert_eq!(finding.remedy.unwrap().text, "use one of \"push\", \"pull\", \"none\"");
    let ids: std::collections::BTreeSet<_> = CODES.iter().map(|code| code.id).collect();
    assert_eq!(ids.len(), CODES.len());
}
