//! Work required by others and the submittal register: what is asked of whom, from the same facts as the packet, and by which day.
//!
//! In: the demo, and copies of it with a few words changed. Out: a line that is missing, too many, or tells something else.
//! What is asked of whom is common practice, no source.

use std::collections::BTreeSet;

use hingewright::findings::{Paper, Papers};
use hingewright::job::InTheWay;
use hingewright::measure::{Finest, LengthForm, Style};
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
    let reported: BTreeSet<_> = rows.iter().map(|row| (row[0].clone(), row[1].clone(), row[2].clone())).collect();
    assert_eq!(rows.len(), wanted.len(), "each once");
    assert_eq!(reported, wanted);
}

/// An obstruction is listed at the openings that have it, by its words, and at no other.
#[test]
fn what_hangs_in_the_way_is_moved_by_its_own_trade() {
    let job = demo().reviewed.job();
    let words = |list: &[InTheWay]| list.iter().map(|it| it.word()).collect::<Vec<_>>().join(", ");
    let mut wanted = BTreeSet::new();
    for opening in job.base_openings() {
        let frame = opening.entry.frame.get();
        let list: Vec<InTheWay> = frame
            .map(|frame| frame.in_the_way.list().iter().filter_map(|it| it.what.cloned()).collect())
            .unwrap_or_default();
        if !list.is_empty() {
            wanted.insert((opening.mark.clone(), words(&list)));
        }
    }
    assert!(!wanted.is_empty());
    let reported: BTreeSet<_> =
        asked("Relocate clear of header").iter().map(|row| (row[0].clone(), row[1].clone())).collect();
    assert_eq!(reported, wanted);
}

/// The day is that of the visit; a site without one says so.
#[test]
fn each_need_names_the_day_of_its_visit() {
    let text = demo().pdf(Paper::Needs).text();
    for words in [
        "Required by 2027-02-08, before visit: rough-in.",
        "Required by 2027-03-08, before visit: set.",
        "Required by 2027-03-22, before visit: rough-in.",
        "Required before visit: set (date to be agreed).",
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
    let report = paper.tables().into_iter().find(|table| table[1][0].contains("Furnish the report"));
    let report = report.unwrap_or_else(|| panic!("{}", paper.text()));
    assert_eq!(report[2][1], "to be confirmed");
}

/// Rows of the submittal register by supplier's name, those of the first site: submit by, again by, order by, needed.
fn register() -> Vec<Vec<String>> {
    let tables = demo().pdf(Paper::Register).tables();
    let table = tables.into_iter().find(|table| table[0].contains(&"Order by".to_owned())).expect("a register");
    table[1..].to_vec()
}

/// Days counted back by hand from a calendar: set at the hall on 2027-03-08, less 7 weeks is 2027-01-18, less 14 days of
/// review is 2027-01-04, less 14 more is 2026-12-21. Wire is there for the rough-in, 2027-02-08, and takes one week. Two
/// reviews of at least 14 days are what a public owner's specification says to plan (a Veterans Affairs specification, 01 33 23, 1.4, read).
#[test]
fn last_days_are_counted_back_from_the_visits() {
    let rows = register();
    let of =
        |supplier: &str| rows.iter().find(|row| row[0] == supplier).unwrap_or_else(|| panic!("{supplier}: {rows:#?}"));
    assert_eq!(of("Cormorant Operator Supply")[2..6], ["2026-12-21", "2027-01-04", "2027-01-18", "2027-03-08, set"]);
    assert_eq!(
        of("Wharf Row Electric Wholesale")[2..6],
        ["2027-01-04", "2027-01-18", "2027-02-01", "2027-02-08, rough-in"]
    );
    // The ferry's visits have no days yet, so nothing is told of it; what rents or inspects is not submitted.
    let ferry = rows.iter().position(|row| row[0].starts_with("Sandling Ferry Terminal")).expect("its rows");
    assert!(rows[ferry + 1][2..5].iter().all(|day| day == "to be agreed"), "{:#?}", rows[ferry + 1]);
    assert!(rows.iter().all(|row| row[0] != "Stiltwalk Rentals"));
    assert!(rows[0][0].contains("NOT RELEASED TO ORDER, second survey not done: H101"), "{:?}", rows[0]);
}

/// A box cannot be set without its height: each is told that of its device, as the takeoff has it.
#[test]
fn every_box_is_reported_its_height() {
    let mut wanted = BTreeSet::new();
    for opening in &demo().priced.takeoff.arrangement.openings {
        for device in opening.boxes.iter().filter_map(|it| it.device(opening)) {
            let height = device.height.expect("the demo's heights are known");
            let height = height.print(LengthForm::FeetInches, Finest::Sixteenth, Style::Page);
            // A page sets a hyphen that does not break; what a reader copies is a plain one.
            let height = height.replace('\u{2011}', "-");
            wanted.insert((format!("{}/{}", opening.opening.mark, device.id), height));
        }
    }
    let rows = asked("Set boxes plumb and flush");
    let reported: BTreeSet<_> = rows.iter().map(|row| (row[0].clone(), row[3].clone())).collect();
    assert_eq!((rows.len(), reported), (wanted.len(), wanted));
}
