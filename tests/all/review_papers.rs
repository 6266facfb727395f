//! The two papers that come out of the review: the sheet a site, and the list of questions.
//!
//! In: the demo. Out: what stands on the two papers, and what no longer does once it is answered. Invented data, no source.

use hingewright::findings::{Paper, Papers, Severity, Subject};
use hingewright::pipeline;

use crate::demo::{self, JOB, Texts, demo};
use crate::pdf_reader::Pdf;

fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

fn questions(texts: &Texts) -> String {
    let (issue, _) = pipeline::issue(&demo::snapshot(texts), JOB, Papers::of(&[Paper::Questions]), None);
    plain(&Pdf::read(&issue.unwrap().papers[0].bytes).text())
}

/// Every warning and every check for the site of an opening stands on the sheet, by the opening's mark, and every clause.
#[test]
fn the_review_sheet_holds_what_was_found() {
    let text = plain(&demo().pdf(Paper::Review).text());
    let found = pipeline::check(&demo::snapshot(&demo::texts()), JOB);
    let mut seen = [0; 2];
    for finding in found.iter() {
        seen[usize::from(finding.code.severity == Severity::Warning)] += 1;
        if let Subject::Opening(mark) = &finding.subject {
            assert!(text.contains(mark.as_str()), "{mark}: {}", finding.sentence());
        }
    }
    assert!(seen.iter().all(|count| *count > 10), "{seen:?}");
    for said in ["ADA 2010 404.2.6", "8 in short", "Panel LP-H2 has 1 space free", "NFPA 80 2016 4.1.3 (from memory)"] {
        assert!(text.contains(said), "the sheet lacks {said}");
    }
    assert_eq!(text.matches("authority having jurisdiction").count(), 1, "the caution stands once");
    assert!(text.contains("price of June confirmed by the supplier"), "accepted warnings have their reason");
}

#[test]
fn a_question_closes_when_its_answer_is_typed() {
    let mut texts = demo::texts();
    let open = plain(&demo().pdf(Paper::Questions).text());
    assert!(open.contains("There is no power at these openings") && open.contains("of the bid rests on it"));
    assert!(open.contains("2026-12-07"), "three days before the bid is due");
    let survey = texts.get_mut("catalog_demo/job/survey.csv").unwrap();
    assert!(survey.contains(",none,"));
    *survey = survey.replace(",none,", ",seen,").replace(",assumed,", ",seen,");
    let closed = questions(&texts);
    assert!(!closed.contains("There is no power at these openings"), "{closed}");
    assert!(closed.contains("Q1"), "others are still open");
}
