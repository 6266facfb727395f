//! The two papers that come out of the review: the sheet a site, and the list of questions.
//!
//! In: the demo. Out: what stands on the two papers, and what no longer does once it is answered. Invented data, no source.

use std::collections::BTreeSet;

use hingewright::findings::{Paper, Papers, Severity, Subject};
use hingewright::money::Money;
use hingewright::pipeline;
use rust_decimal::Decimal;

use crate::demo::{self, JOB, Texts, demo};
use crate::pdf_reader::{Entries, Object, Pdf};

fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

fn questions(texts: &Texts) -> String {
    let (issue, _) = pipeline::issue(&demo::snapshot(texts), JOB, Papers::of(&[Paper::Questions]), None);
    plain(&Pdf::read(&issue.unwrap().papers[0].bytes).text())
}

/// Every warning and every field verification of an opening stands on the sheet, by the opening's mark, and every clause.
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
    for said in ["ADA 2010 404.2.6", "8 in short", "Panel LP-H2 has 1 space free", "NFPA 80 2016 4.1.3\u{2021}"] {
        assert!(text.contains(said), "the sheet lacks {said}");
    }
    assert_eq!(demo().pdf(Paper::Review).pages().len(), 1 + demo().reviewed.job().sites.len(), "one page a site");
    assert_eq!(text.matches("authority having jurisdiction").count(), 1, "the caution stands once");
    assert!(text.contains("June price confirmed by supplier"), "accepted warnings have their reason");
}

#[test]
fn a_question_closes_when_its_answer_is_typed() {
    let mut texts = demo::texts();
    let open = plain(&demo().pdf(Paper::Questions).text());
    assert!(open.contains("No power exists at these openings") && open.contains("brought to the header by others"));
    assert!(
        open.contains("included in the bid: ") && !open.contains("lines ("),
        "what rests on an answer that makes no other job"
    );
    assert!(open.contains("now; bid due 2026-12-10"), "three days before is past on papers of 2026-12-08");
    let mut earlier = demo::texts();
    demo::replace(&mut earlier, JOB, "date = 2026-12-08", "date = 2026-12-01");
    assert!(questions(&earlier).contains("2026-12-07"), "three days before the bid is due");
    let survey = texts.get_mut("catalog_demo/job/survey.csv").unwrap();
    assert!(survey.contains(",none,"));
    *survey = survey.replace(",none,", ",seen,").replace(",assumed,", ",seen,");
    let closed = questions(&texts);
    assert!(!closed.contains("No power exists at these openings"), "{closed}");
    assert!(closed.contains("Q1"), "others are still open");
}

/// What stands beside another answer is the bid with that answer typed less the bid.
#[test]
fn a_priced_answer_is_the_job_with_it_less_the_job() {
    let bid = |texts: &Texts| {
        let read = demo::read(texts);
        let reviewed = read.reviewed();
        let (takeoff, estimate) = demo::estimated(&reviewed, &read.catalog);
        demo::dollars(&takeoff, estimate.bid)
    };
    let mut texts = demo::texts();
    let unknown = "leaf = { latch = \"rim exit device\", release = \"unknown\", existing = [{ what = \"closer\", becomes = \"remove\" }, { what = \"rim exit device\", becomes = \"reuse\" }] }";
    demo::replace(&mut texts, JOB, unknown, &unknown.replace("unknown", "electric strike"));
    let change = bid(&texts) - bid(&demo::texts());
    let reported = format!("electric strike at H104: +{}", Money::dollars(change).print());
    assert!(change > Decimal::ZERO && plain(&demo().pdf(Paper::Recap).text()).contains(&reported), "{reported}");
    assert!(!questions(&texts).contains("What latch is on these leaves"), "the answer closes the question");
}

/// A value that is written as assumed is asked for, by the name of its field, until its standing is another.
#[test]
fn every_assumed_value_is_a_question_until_it_is_seen() {
    let mut texts = demo::texts();
    let open = plain(&demo().pdf(Paper::Questions).text());
    assert!(open.contains("(ceiling kind)"), "its height was surveyed: {open}");
    demo::replace(
        &mut texts,
        JOB,
        "height = \"8 ft 6 in\", standing = \"assumed\"",
        "height = \"8 ft 6 in\", standing = \"drawn\"",
    );
    assert!(!questions(&texts).contains("(ceiling"), "drawn, it is no question");
    demo::replace(&mut texts, JOB, "frame = { stud_mils = 27 }", "frame = { stud_mils = 27, standing = \"assumed\" }");
    assert!(questions(&texts).contains("(frame stud mils)"), "another table of the opening is asked for too");
}

/// What is said alike of several openings stands once, with all of them, and rows go by the openings in their order: an estimator
/// settles opening after opening (common practice, no source).
#[test]
fn what_is_said_alike_stands_once_in_the_order_of_the_openings() {
    let order: Vec<&str> =
        demo().priced.takeoff.arrangement.openings.iter().map(|it| it.opening.mark.as_str()).collect();
    let places = |cell: &str| -> Vec<usize> {
        cell.split(", ").filter_map(|mark| order.iter().position(|it| *it == mark)).collect()
    };
    for (paper, head, at) in [(Paper::Bid, "Openings", 1), (Paper::Recap, "Location", 0), (Paper::Review, "Opening", 0)]
    {
        let tables = demo().pdf(paper).tables().into_iter();
        let found: Vec<_> = tables.filter(|table| table[0].get(at).is_some_and(|it| it == head)).collect();
        assert!(!found.is_empty(), "{paper:?}");
        for table in found {
            let (mut said, mut last) = (BTreeSet::new(), 0);
            for row in &table[1..] {
                let mut words = row.clone();
                let places = places(&words.remove(at));
                assert!(said.insert(words), "{paper:?} says it twice: {row:?}");
                assert!(places.is_sorted(), "{row:?}");
                let first = places.first().copied().unwrap_or(last);
                assert!(first >= last, "{paper:?}: {row:?} stands behind a later opening");
                last = first;
            }
        }
    }
}

/// Who answers has room for it beside the question.
#[test]
fn every_question_has_a_place_for_its_answer() {
    let pdf = demo().pdf(Paper::Questions);
    let table = pdf.tables().into_iter().find(|table| table[0][0] == "No.").expect("the demo has questions");
    let asked = table[1..].iter().filter(|row| row[0].starts_with('Q')).count();
    let fields = pdf.objects().filter(|object| match object {
        Object::Dict(entries) if entries.contains_key("FT") => {
            entries.text("T").is_some_and(|name| name.starts_with("answer"))
        }
        _ => false,
    });
    assert_eq!((asked > 0, fields.count()), (true, asked));
}
