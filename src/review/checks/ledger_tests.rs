//! Compares registry, files and `CLAUSES.md`; that the ledger names every code is a test over all rooms.

use std::collections::BTreeSet;

use super::{CHECKS, CODES, CheckScope};
use crate::findings::{Papers, Severity};
use crate::review::sites::SiteCheck;

const LEDGER: &str = include_str!("../CLAUSES.md");
/// The words a row may have for how its clause is kept.
const STATUSES: [&str; 5] = ["enforced", "warned", "field-verify", "not done", "not applicable"];

/// The cells of every row of every table, heads and rules left out.
fn rows() -> Vec<Vec<&'static str>> {
    let cells =
        |line: &'static str| -> Vec<&'static str> { line.trim_matches('|').split('|').map(str::trim).collect() };
    let rows = LEDGER.lines().filter(|line| line.starts_with('|')).map(cells);
    rows.filter(|row| !row[0].starts_with("---") && row[0] != "clause" && row[0] != "code").collect()
}

#[test]
fn every_clause_of_a_check_has_its_row_and_the_status_of_its_severity() {
    for check in CHECKS {
        let Some(clause) = check.clause else { continue };
        let rows = rows();
        let row = rows.iter().find(|row| row[0] == clause).unwrap_or_else(|| panic!("no row for {clause}"));
        assert_eq!(
            (row[2], row[3]),
            (status(check.code.severity), format!("`{}`", check.code.id).as_str()),
            "{clause}"
        );
    }
}

#[test]
fn every_row_of_a_clause_has_a_known_status_and_a_source() {
    let rows: Vec<Vec<&str>> = rows().into_iter().filter(|row| row.len() == 5).collect();
    assert!(rows.len() >= 60, "{}", rows.len());
    for row in rows {
        assert!(STATUSES.contains(&row[2]), "{row:?}");
        assert!(row.iter().enumerate().all(|(at, cell)| at == 3 || !cell.is_empty()), "{row:?}");
        assert_eq!(matches!(row[2], "not done" | "not applicable"), row[3].is_empty(), "{row:?}");
        // A quantity that follows a clause is an enforced one; that the fact is there is the takeoff's test.
        assert!(!row[3].starts_with("fact ") || row[2] == "enforced", "{row:?}");
        assert!(row[3].is_empty() || row[3].starts_with("fact ") || row[3].starts_with('`'), "{row:?}");
        if let Some(code) = CODES.iter().find(|code| row[3] == format!("`{}`", code.id)) {
            assert_eq!(row[2], status(code.severity), "{row:?}");
        }
    }
}

/// The checks of a site, each with its code: they share a file.
fn on_site() -> impl Iterator<Item = (&'static str, &'static SiteCheck)> {
    CHECKS.iter().filter_map(|check| match &check.over {
        CheckScope::Site(site) => Some((check.code.id, site)),
        _ => None,
    })
}

/// A check names the subject of its clauses in its own file; the demo's editions say which clauses those are.
#[test]
fn every_clause_of_an_edition_has_its_row_with_the_check_that_asks() {
    let (_, catalog) = crate::review::fixtures::under("", "").read();
    let texts = texts();
    assert!(catalog.editions.len() >= 8);
    for edition in catalog.editions.values() {
        for clause in &edition.clauses {
            let cited = edition.cite(&clause.number, clause.known);
            let rows = rows();
            let row = rows.iter().find(|row| row[0] == cited).unwrap_or_else(|| panic!("no row for {cited}"));
            let asks = texts.iter().filter(|(_, text)| text.contains(&format!("ClauseOf::{:?}", clause.of)));
            let mut codes: Vec<String> = asks.map(|(id, _)| format!("`{id}`")).collect();
            codes.extend(on_site().filter(|(_, site)| site.of == clause.of).map(|(id, _)| format!("`{id}`")));
            if clause.of == crate::catalog::ClauseOf::Maneuvering {
                codes = vec!["`maneuver-unmeasured`".to_owned(), "`maneuver-short`".to_owned()];
            }
            match codes.is_empty() {
                true => assert!(row[3].starts_with("fact ") || row[3].is_empty(), "{row:?}"),
                false => assert!(codes.iter().any(|code| row[3] == code), "{row:?} {codes:?}"),
            }
        }
        for maneuver in &edition.maneuvers {
            let cited = edition.cite(&maneuver.number, crate::catalog::ClauseKnown::Read);
            assert!(rows().iter().any(|row| row[0] == cited && row[3] == "`maneuver-short`"), "{cited}");
        }
    }
}

/// Every file of a check shows an opening that passes and one that does not.
#[test]
fn every_check_has_an_opening_that_passes_and_one_that_fails() {
    for (id, text) in texts() {
        if id == "price-old" {
            continue;
        }
        assert!(text.contains(".passes(&CHECK)"), "{id}");
        let fails = [".one(&CHECK)", ".reported(&CHECK)", "reported(&"].iter().any(|call| text.contains(call));
        assert!(fails, "{id}");
    }
    let cases: Vec<&str> = super::on_site::tests::CASES.iter().map(|case| case.check.code.id).collect();
    assert!(on_site().count() > 10 && on_site().all(|(id, _)| cases.contains(&id)), "{cases:?}");
}

fn status(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "enforced",
        Severity::Warning => "warned",
        Severity::FieldVerify => "field-verify",
    }
}

/// Code and text of every check's file.
fn texts() -> Vec<(String, String)> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/review/checks");
    let named = CODES.iter().map(|code| (code.id, folder.join(format!("{}.rs", code.id.replace('-', "_")))));
    let read = named.filter_map(|(id, path)| Some((id.to_owned(), std::fs::read_to_string(path).ok()?)));
    read.collect()
}

#[test]
fn every_file_is_in_the_registry_under_the_name_of_its_code() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/review/checks");
    let mut files: BTreeSet<String> = BTreeSet::new();
    for entry in std::fs::read_dir(folder).expect("the folder of this file") {
        let name = entry.expect("an entry of it").file_name().into_string().expect("a name in ASCII");
        let stem = name.trim_end_matches(".rs").replace('_', "-");
        // Checks of a site, of facts left out and of what is stated twice share files.
        let shared = matches!(stem.as_str(), "mod" | "ledger-tests" | "absence-tests" | "pair-tests" | "on-site");
        if !shared && !stem.starts_with("unstated-") && !stem.starts_with("stated-") {
            files.insert(stem);
        }
    }
    let checks = CHECKS
        .iter()
        .filter(|check| !matches!(check.over, CheckScope::Site(_) | CheckScope::Absence(_) | CheckScope::Pair(_)))
        .map(|check| check.code.id.to_owned());
    assert_eq!(files, checks.chain([super::price_old::CODE.id.to_owned()]).collect());
}

#[test]
fn codes_are_whole_and_only_errors_hold_papers() {
    let ids: BTreeSet<&str> = CODES.iter().map(|code| code.id).collect();
    assert_eq!(ids.len(), CODES.len());
    for code in CODES {
        assert_eq!(code.severity == Severity::Error, code.blocks != Papers::NONE, "{}", code.id);
        assert!(!code.says.is_empty() && !code.says.ends_with('.'), "{}", code.id);
        assert!(code.why.ends_with('.') && !code.example.is_empty(), "{}", code.id);
    }
}
