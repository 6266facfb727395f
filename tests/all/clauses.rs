//! The ledger of clauses against the takeoff and the demo.
//!
//! In: `src/review/CLAUSES.md`, the sheets of facts, the demo. Out: facts that a row names and nothing supplies; severities
//! that the demo does not show. May not know: any one check; the review's own tests compare those.

use std::collections::BTreeSet;

use hingewright::catalog::Entity;
use hingewright::findings::{Paper, Papers, Severity};
use hingewright::{review, takeoff};

use crate::demo;
use crate::pdf_reader::Pdf;

/// A small job beside the demo's that contradicts itself.
const HELD: &str = "catalog_demo/job/held.toml";

const LEDGER: &str = include_str!("../../src/review/CLAUSES.md");

/// The ledger names the codes of the review and of the takeoff's checks, all of them and no other.
#[test]
fn the_ledger_names_every_code_of_a_check() {
    let cells = LEDGER.lines().filter(|line| line.starts_with('|')).flat_map(|line| line.split('|'));
    let written: BTreeSet<&str> = cells.flat_map(|cell| cell.split('`').skip(1).step_by(2)).collect();
    let known: BTreeSet<&str> = review::CODES.iter().chain(&takeoff::CHECKED).map(|code| code.id).collect();
    assert_eq!(written, known);
}

#[test]
fn every_fact_of_the_ledger_is_on_a_sheet() {
    let cells = LEDGER.lines().flat_map(|line| line.split('|')).map(str::trim);
    let facts: BTreeSet<&str> = cells.filter_map(|cell| cell.strip_prefix("fact ")).collect();
    assert!(facts.len() >= 5, "{facts:?}");
    for fact in facts {
        let known = Entity::ALL.iter().any(|entity| takeoff::sheet(*entity).fact(fact).is_some());
        assert!(known, "no entity has the fact {fact}");
    }
}

/// The demo raises warnings and field verifications, and the small job beside it errors, each of which stands on the sheet of its
/// review: an error among the contradictions, with the papers held; the other papers go out.
#[test]
fn the_demo_raises_every_severity_and_shows_it() {
    let files = demo::snapshot(&demo::texts());
    let found = hingewright::pipeline::check(&files, demo::JOB);
    let severities: BTreeSet<Severity> = found.iter().map(|it| it.code.severity).collect();
    assert_eq!(severities, BTreeSet::from([Severity::Warning, Severity::FieldVerify]), "the demo itself is sound");
    let codes: BTreeSet<&str> = found.iter().map(|it| it.code.id).collect();
    for code in ["series-short", "maneuver-short", "threshold-high", "head-low", "panel-short", "power-off-force"] {
        assert!(codes.contains(code), "the demo does not raise {code}: {codes:?}");
    }
    let (issue, found) = hingewright::pipeline::issue(&files, HELD, Papers::ALL, None);
    let errors: Vec<_> = found.iter().filter(|it| it.code.severity == Severity::Error).collect();
    let codes: Vec<&str> = errors.iter().map(|it| it.code.id).collect();
    assert_eq!(codes, ["hand-contradicts", "latch-without-release"]);
    let issue = issue.unwrap();
    for paper in [Paper::Bid, Paper::Recap, Paper::Schedule, Paper::Packet] {
        assert!(issue.held.contains(&paper), "{paper:?} is not held");
    }
    assert!(!issue.held.contains(&Paper::Review) && !issue.held.contains(&Paper::Questions), "these go out");
    let review = issue.papers.iter().find(|it| it.paper == Paper::Review).unwrap();
    let text = Pdf::read(&review.bytes).text().replace('\u{a0}', " ");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("Contradictions; papers are held until they are resolved"));
    assert!(text.contains("C201 The hand is given as RH; hinges and swing give LH."));
    assert!(text.contains("C202 Powered leaf with mortise lock and no latch release."));
}
