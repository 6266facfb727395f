//! Needs from others: a page a receiver, from the same facts as the packet, with the day each is needed by.
//!
//! In: the demo, and copies of it with a few words changed. Out: a line that is missing, too many, or tells something else.
//! What is asked of whom is common practice, no source.

use std::collections::BTreeSet;

use hingewright::findings::{Paper, Papers};
use hingewright::job::InTheWay;
use hingewright::pipeline::{self, Form};

use crate::demo::{JOB, demo, replace, snapshot, texts};
use crate::pdf_reader::Pdf;

/// Tables of the paper without their heads, by the words of their first row.
fn tables() -> Vec<Vec<Vec<String>>> {
    demo().pdf(Paper::Needs).tables()
}

/// The rows of every table whose title row holds these words: what is asked, without it.
fn asked(words: &str) -> Vec<Vec<String>> {
    let of_need = tables().into_iter().filter(|table| table.get(1).is_some_and(|row| row[0].contains(words)));
    of_need.flat_map(|table| table[2..].to_vec()).collect()
}

/// Every header is fed once, at the end that the takeoff says.
#[test]
fn every_header_is_fed_at_its_supply_end() {
    let takeoff = &demo().priced.takeoff;
    let mut wanted = BTreeSet::new();
    for opening in &takeoff.arrangement.openings {
        for header in &opening.headers {
            let end = hingewright::takeoff::edge_word(header.supply_end.expect("the demo's hands are known"));
            let side = header.side.expect("likewise").word();
            wanted.insert((
                format!("{}, header {}", opening.opening.mark, header.number),
                side.to_owned(),
                end.to_owned(),
            ));
        }
    }
    let rows = asked("12 in of free conductor");
    let told: BTreeSet<_> = rows.iter().map(|row| (row[0].clone(), row[1].clone(), row[2].clone())).collect();
    assert_eq!(rows.len(), wanted.len(), "each once");
    assert_eq!(told, wanted);
}

/// What hangs in the way is asked for at the openings that have it, by its words, and at no other.
#[test]
fn what_hangs_in_the_way_is_moved_by_its_own_trade() {
    let job = demo().cleared.job();
    let words = |list: &[InTheWay]| list.iter().map(|it| it.word()).collect::<Vec<_>>().join(", ");
    let mut wanted = BTreeSet::new();
    for opening in job.base_openings() {
        let list = opening.entry.frame.get().map(|frame| frame.in_the_way.list().to_vec()).unwrap_or_default();
        if !list.is_empty() {
            wanted.insert((opening.mark.clone(), words(&list)));
        }
    }
    assert!(!wanted.is_empty());
    let told: BTreeSet<_> = asked("not ours to move").iter().map(|row| (row[0].clone(), row[1].clone())).collect();
    assert_eq!(told, wanted);
}

/// The day is that of the visit; a site without one says so.
#[test]
fn each_need_names_the_day_of_its_visit() {
    let text = demo().pdf(Paper::Needs).text();
    for words in [
        "Needed by 2027-02-08, before the visit: rough-in.",
        "Needed by 2027-03-08, before the visit: set.",
        "Needed by 2027-03-22, before the visit: rough-in.",
        "Needed before the visit: set (day to be agreed).",
    ] {
        assert!(text.contains(words), "the paper lacks {words:?}");
    }
}

/// A fact that is not known is asked for as to be confirmed, and not left blank.
#[test]
fn what_is_not_known_is_to_be_confirmed() {
    let mut files = texts();
    replace(&mut files, JOB, "year = 2004\n", "");
    let (issue, _) = pipeline::issue(&snapshot(&files), JOB, Papers::of(&[Paper::Needs]), None);
    let issue = issue.unwrap();
    let paper = Pdf::read(&issue.of_form(Form::Pdf).next().unwrap().bytes);
    let report =
        paper.tables().into_iter().find(|table| table[1][0].contains("hazardous") || table[1][0].contains("report"));
    let report = report.unwrap_or_else(|| panic!("{}", paper.text()));
    assert_eq!(report[2][1], "to be confirmed");
}
