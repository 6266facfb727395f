//! Every example of LANGUAGE.md: that it reads, and that it comes to what the page says.

use rust_decimal::Decimal;

use super::*;
use crate::findings::{Files, Place};
use crate::ledger::{Called, FigureId, Ledger, Reason, Shown};
use crate::measure::{Dimension, Quantity, Unit};

const PAGE: &str = include_str!("LANGUAGE.md");

/// One row of the page's table of facts: name, kind, value.
pub(super) struct Row(String, String, String);

/// The facts of the page, as a sheet and as values.
pub(super) struct Example {
    rows: Vec<Row>,
    pub sheet: Sheet,
}

pub(super) fn example() -> Example {
    let rows: Vec<Row> = PAGE.lines().filter_map(row).collect();
    assert_eq!(rows.len(), 12, "the table of facts has changed");
    let sheet = rows.iter().fold(Sheet::new("leaf"), |sheet, Row(name, kind, _)| sheet.with(name, fact_kind(kind), ""));
    Example { rows, sheet }
}

fn row(line: &str) -> Option<Row> {
    let cells: Vec<&str> = line.strip_prefix("| `")?.split('|').map(str::trim).collect();
    let [name, kind, value, ""] = cells[..] else { return None };
    let name = name.trim_end_matches('`');
    name.contains('.').then(|| Row(name.to_owned(), kind.to_owned(), value.to_owned()))
}

fn split(words: &str) -> Vec<String> {
    words.split(',').map(|word| word.trim().to_owned()).collect()
}

fn fact_kind(kind: &str) -> FactKind {
    match kind.split_once(": ") {
        Some(("word", words)) => FactKind::Text(Some(split(words))),
        Some(("list", words)) => FactKind::Words(split(words)),
        _ if kind == "flag" => FactKind::Flag,
        _ if kind == "text" => FactKind::Text(None),
        _ => FactKind::Number(Shown::In(Unit::parse(kind).expect(kind))),
    }
}

pub(super) fn somewhere() -> Place {
    let files = Files::new([("catalog/rules.toml".to_owned(), Vec::new())]);
    Place::text(files.find("catalog/rules.toml").unwrap(), 0, 1)
}

impl Example {
    fn row(&self, fact: &FactName) -> &Row {
        self.rows.iter().find(|row| row.0 == fact.as_str()).unwrap_or_else(|| panic!("{fact}"))
    }

    fn quantity(value: &str, shown: Shown) -> Quantity {
        let Shown::In(unit) = shown else { unreachable!() };
        Quantity::in_units(value.parse::<Decimal>().unwrap(), unit).unwrap()
    }
}

impl Facts for Example {
    fn value(&self, fact: &FactName, _: &Ledger) -> FactValue<'_> {
        let Row(_, kind, value) = self.row(fact);
        if value == "not known" {
            return FactValue::Unknown("not surveyed");
        }
        match fact_kind(kind) {
            FactKind::Flag => FactValue::Flag(value == "yes"),
            FactKind::Text(_) => FactValue::Text(value),
            FactKind::Words(_) => {
                let words: Vec<&'static str> = split(value).into_iter().map(|word| &*word.leak()).collect();
                FactValue::Words(words.leak())
            }
            FactKind::Number(shown) => FactValue::Number(Example::quantity(value, shown)),
        }
    }

    fn figure(&self, fact: &FactName, ledger: &mut Ledger) -> Result<FigureId, String> {
        let Row(_, kind, value) = self.row(fact);
        let FactKind::Number(shown) = fact_kind(kind) else { return Err("no number".to_owned()) };
        let reason = ledger.reason(Reason::Entry { place: somewhere(), standing: "surveyed".to_owned() });
        let called = Called::new(fact.as_str(), reason).shown(shown);
        ledger.given(Example::quantity(value, shown), called).map_err(|fault| fault.to_string())
    }
}

fn missing(list: &[Missing]) -> String {
    let names: Vec<&str> = list.iter().map(|missing| missing.fact.as_str()).collect();
    format!("undecided: {}", names.join(", "))
}

/// What an expression comes to, as text; or its faults.
pub(super) fn comes_to(text: &str) -> Result<String, Vec<Fault>> {
    let facts = example();
    let mut ledger = Ledger::new();
    let rule = ledger.reason(Reason::Rule { id: "example".to_owned(), place: somewhere() });
    let condition = Condition::read(text, &facts.sheet);
    if let Ok(condition) = condition {
        let verdict = condition.verdict(&facts, &mut ledger, rule).map_err(|fault| vec![fault])?;
        return Ok(match verdict.truth {
            Truth::Undecided(list) => missing(&list),
            truth => truth.word().to_owned(),
        });
    }
    let dimension = dimension_of(text, &facts.sheet).ok_or_else(|| condition.unwrap_err())?;
    let formula = Formula::read(text, &facts.sheet, dimension)?;
    let called = Called::new("the example", rule);
    let measured = formula.measure(&facts, &mut ledger, called).map_err(|fault| vec![fault])?;
    Ok(match measured.amount {
        Amount::Known(figure) => ledger.print(figure),
        Amount::Unknown(list) => missing(&list),
    })
}

/// The dimension that a formula gives, found by trying.
pub(super) fn dimension_of(text: &str, sheet: &Sheet) -> Option<Dimension> {
    let all = [Dimension::NONE, Dimension::LENGTH, Dimension::AREA, Dimension::TIME, Dimension::WEIGHT];
    all.into_iter().find(|dimension| Formula::read(text, sheet, *dimension).is_ok())
}

/// Lines between plain fences.
fn fenced() -> Vec<&'static str> {
    let mut open = false;
    let mut plain = false;
    let mut lines = Vec::new();
    for line in PAGE.lines() {
        if let Some(kind) = line.strip_prefix("```") {
            open = !open;
            plain = open && kind.is_empty();
        } else if plain {
            lines.push(line);
        }
    }
    assert!(!open, "a fence is not closed");
    lines
}

#[test]
fn every_example_comes_to_what_the_page_says() {
    let mut failures = Vec::new();
    let mut seen = 0;
    for line in fenced() {
        let Some((text, says)) = line.split_once(" -> ") else { continue };
        seen += 1;
        let found = comes_to(text.trim());
        if found != Ok(says.trim().to_owned()) {
            failures.push(format!("{}: {found:?}, not {}", text.trim(), says.trim()));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    assert_eq!(seen, 76, "examples of what expressions come to");
}

#[test]
fn every_wrong_example_is_found_as_the_page_says() {
    let facts = example();
    let mut failures = Vec::new();
    let mut seen = 0;
    for line in fenced() {
        let Some((text, says)) = line.split_once(" !! ") else { continue };
        seen += 1;
        let text = text.trim();
        // Wanted as whatever it would be without the fault: fewest faults tell.
        let condition = Condition::read(text, &facts.sheet).unwrap_err();
        let lengths = [Dimension::NONE, Dimension::LENGTH].map(|it| Formula::read(text, &facts.sheet, it).unwrap_err());
        let faults = lengths.into_iter().chain([condition]).min_by_key(Vec::len).unwrap();
        let found: Vec<String> = faults
            .iter()
            .map(|fault| match &fault.instead {
                Some(instead) => format!("{}; type `{instead}`", fault.wrong),
                None => fault.wrong.to_string(),
            })
            .collect();
        if found != [says.trim()] {
            failures.push(format!("{text}: {found:?}"));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    assert_eq!(seen, 14, "examples of what is found wrong");
}

#[test]
fn every_line_between_fences_is_an_example() {
    let other: Vec<_> = fenced().into_iter().filter(|line| !line.contains(" -> ") && !line.contains(" !! ")).collect();
    assert!(other.is_empty(), "{other:?}");
}

#[test]
fn every_unit_is_named_on_the_page() {
    for unit in Unit::all() {
        assert!(PAGE.contains(&format!("`{}`", unit.word())), "{}", unit.word());
    }
}
