//! What papers make of approval: the banner of packets, the register, the order lists.
//!
//! In: the demo and copies of it with other rounds. Out: what a sheet, a row or a line says. May not know: how it is made.

use std::collections::{BTreeMap, BTreeSet};

use hingewright::documents::{OrdersView, orders};
use hingewright::findings::{Paper, Papers};
use hingewright::measure::Unit;
use hingewright::pipeline::{self, Form, Issue};
use rust_decimal::Decimal;

use crate::demo::{JOB, Texts, demo, of_sources, replace, snapshot, texts};
use crate::pdf_reader::{Mark, Pdf};

const STOP: &str = "NOT APPROVED, not for construction: revision A; approved: in part";

/// The transmittal of the drawings in the demo, which was never sent.
const DRAWINGS: &str = "submittal = \"wiring\"\nsection = \"08 71 13\"\nnumber = \"2\"\n";

fn issued(texts: &Texts, papers: &[Paper]) -> Issue {
    pipeline::issue(&snapshot(texts), JOB, Papers::of(papers), None).0.unwrap()
}

/// The running head of every page of a paper of letter pages, as one line each.
fn heads(pdf: &Pdf, above: f64) -> Vec<String> {
    let of = |number: u32| {
        let top = pdf.shown(number).iter().filter(|it| it.mark == Mark::Artifact && it.y > above);
        top.map(|it| it.text.clone()).collect::<String>().replace('\u{a0}', " ")
    };
    pdf.pages().into_iter().map(|(number, _)| of(number)).collect()
}

/// Source: 48 CFR 52.236-21 (read in a summary): work by drawings that are not approved is at the contractor's risk. So every
/// sheet says it, on paper and on the phone.
#[test]
fn every_sheet_of_a_packet_that_is_not_approved_says_so() {
    for site in ["hall", "clinic", "ferry"] {
        let heads = heads(&demo().pdfs[&format!("packet-{site}.pdf")], 720.0);
        let silent: Vec<usize> = (0..heads.len()).filter(|at| !heads[*at].contains(STOP)).collect();
        assert!(silent.is_empty(), "{site}: pages {silent:?} of {}: {:?}", heads.len(), heads.first());
        let phone = demo().issue.of_form(Form::Html).find(|it| it.name == format!("packet-{site}.html")).unwrap();
        let text = String::from_utf8_lossy(&phone.bytes);
        let openings = demo().priced.takeoff.arrangement.openings_of(site).count();
        // Once on the site sheet's head, once among its checks, once above each opening.
        assert_eq!(text.matches("<b>NOT APPROVED, not for construction</b>").count(), openings + 2, "{site}");
        let reported = crate::phone::words(phone);
        assert!(reported.contains("schedule: 087113-1, approved as noted 2026-12-01, revision A"), "{site}");
        assert!(reported.contains("shop drawings: 087113-2, not sent"), "{site}");
    }
}

/// Paperwork of a public owner: an approved sheet names the submittal, its day and its revision (48 CFR 52.236-21, read in a summary).
#[test]
fn a_packet_that_is_approved_names_what_was_approved_and_one_without_submittals_says_that() {
    let mut approved = texts();
    let round = "round = [{ revision = \"A\", sent = 2026-12-02, back = 2026-12-07, disposition = \"approved\" }]\n";
    replace(&mut approved, JOB, DRAWINGS, &format!("{DRAWINGS}{round}"));
    let issue = issued(&approved, &[Paper::Packet]);
    let packet = issue.of_form(Form::Pdf).next().unwrap();
    let pdf = Pdf::read(&packet.bytes);
    assert!(!pdf.text().contains("NOT APPROVED"));
    for head in heads(&pdf, 720.0) {
        assert!(head.contains("Approved 2026-12-07, revision A: 087113-1, 087113-2"), "{head}");
    }
    let mut bare = texts();
    let text = bare.get_mut(JOB).unwrap();
    let (start, rest) = text.split_once("[[submittal]]").unwrap();
    let (_, sites) = rest.split_once("# ---- Sites").unwrap();
    *text = format!("{start}\n# ---- Sites{sites}");
    let issue = issued(&bare, &[Paper::Packet]);
    let text = Pdf::read(&issue.of_form(Form::Pdf).next().unwrap().bytes).text().replace('\u{a0}', " ");
    assert!(!text.contains("NOT APPROVED") && text.contains("No submittal is on record. Approved on"));
}

/// Rows of the tables of a paper whose head has a cell.
fn rows(pdf: &Pdf, head: &str) -> Vec<Vec<String>> {
    let tables = pdf.tables().into_iter().filter(|table| table[0].iter().any(|cell| cell == head));
    tables
        .flat_map(|table| table[1..].to_vec())
        .map(|row| row.iter().map(|it| it.replace('\u{a0}', " ")).collect())
        .collect()
}

/// Days by hand, as in the test of the suppliers' rows: the operators are what is ordered first of section 08 71 13, the wire of
/// 26 05 33. A register has planned days of every item (UFGS 01 33 00, 1.3.1; VA 01 33 23, 1.4: read).
#[test]
fn the_register_reports_every_item_and_what_came_of_it() {
    let pdf = demo().pdf(Paper::Register);
    let items = rows(pdf, "Return; order by");
    let schedule = items.iter().find(|row| row[1] == "schedule").unwrap();
    assert_eq!(schedule[2..5], ["2026-12-21", "2027-01-04", "2027-01-18"]);
    assert!(schedule[5].starts_with("2027-03-08, set"), "{schedule:?}");
    let counted: Vec<usize> = ["schedule", "product data", "shop drawings"]
        .map(|part| items.iter().filter(|row| row[1] == part).count())
        .to_vec();
    assert_eq!(counted, [1, 2, 1], "what shows openings whole goes under the job's own section alone");
    let raceway = items.iter().filter(|row| row[1] == "product data").nth(1).unwrap();
    assert_eq!(raceway[2..5], ["2027-01-04", "2027-01-18", "2027-02-01"]);
    let sent = rows(pdf, "Sent as");
    assert_eq!(sent[0][..5], ["087113-1", "A", "2026-11-16", "2026-12-01", "approved as noted"]);
    assert_eq!(sent[1][..4], ["260533-1", "A", "2026-12-01", "not returned"]);
    assert!(!pdf.text().contains("DO NOT FIT"));
}

/// Two reviews of 14 days from 2026-12-08 end on 2027-01-05. Rough-in on 2027-01-08, a week for the wire: ordered on 2027-01-01, which
/// is 4 days too few; but it is out since 2026-12-01 (first review to 12-15, second to 12-29) and fits. On 2026-12-31 it does not:
/// ordered on 12-24, 5 days short. (VA 01 33 23, 1.4, read: at least 14 days a review.)
#[test]
fn reviews_that_no_longer_fit_are_reported_with_the_days_that_lack() {
    let reported = |day: &str| {
        let mut texts = texts();
        replace(&mut texts, JOB, "rough_in = 2027-02-08", &format!("rough_in = {day}"));
        let findings = pipeline::check(&snapshot(&texts), JOB);
        let found = findings.iter().filter(|it| it.code.id == "reviews-do-not-fit").map(|it| it.found.clone());
        found.collect::<Vec<_>>()
    };
    assert_eq!(reported("2027-01-08"), Vec::<String>::new());
    assert_eq!(reported("2026-12-31"), ["Wharf Row Electric Wholesale by 2026-12-24, 5 days short"]);
}

fn lists() -> OrdersView {
    let demo = demo();
    of_sources(demo.reviewed, demo.catalog, &demo.priced.takeoff, |sources| orders(sources, demo.estimate()).view)
}

/// A number as printed, with its unit or without.
fn number(text: &str) -> Decimal {
    let digits: String = text.chars().take_while(|it| it.is_ascii_digit() || ".,".contains(*it)).collect();
    digits.replace(',', "").parse().unwrap_or_else(|_| panic!("{text}"))
}

/// What is ordered is what was taken off, and packs are those of the estimate: items bought of suppliers as material, no other.
#[test]
fn order_lists_cross_foot_with_takeoff_and_estimate() {
    let (demo, view) = (demo(), lists());
    let ledger = &demo.priced.takeoff.ledger;
    let mut reported = BTreeSet::new();
    for row in view.lists.iter().flat_map(|list| &list.to_buy) {
        assert!(reported.insert(row.item.as_str()), "{} twice", row.item);
        let item = &demo.catalog.items[&row.item];
        let cost = demo.estimate().items.iter().find(|it| it.item == row.item).unwrap();
        let in_unit = |figure| ledger.value(figure).number_of(item.unit).unwrap();
        let near = |printed: &str, exact: Decimal| (number(printed) - exact).abs() <= Decimal::new(5, 3);
        assert!(near(&row.lines, in_unit(cost.net)), "{}: {} of {}", row.item, row.lines, in_unit(cost.net));
        assert!(near(&row.quantity, in_unit(cost.gross)), "{}: {}", row.item, row.quantity);
        if let Some(pack) = &item.pack {
            let held = number(&row.packs) * pack.holds.number_of(item.unit).unwrap();
            let left = if row.left == "–" { Decimal::ZERO } else { number(&row.left) };
            assert!((held - left - in_unit(cost.gross)).abs() <= Decimal::new(5, 3), "{}: {row:?}", row.item);
        }
        if let Some(packs) = &cost.packs {
            assert_eq!(number(&row.packs), ledger.value(packs.packs).number_of(Unit::Each).unwrap(), "{}", row.item);
        }
    }
    let bought = demo.estimate().items.iter().filter(|cost| {
        demo.catalog.items[&cost.item].cost == hingewright::catalog::CostKind::Material
            && !ledger.value(cost.net).value().is_zero()
    });
    assert_eq!(reported, bought.map(|cost| cost.item.as_str()).collect::<BTreeSet<_>>());
    // Pieces and counts of the lines of sites come to the same again.
    let mut counted: BTreeMap<&str, Decimal> = BTreeMap::new();
    for line in view.lists.iter().flat_map(|list| &list.groups).flat_map(|it| &it.lines) {
        if demo.catalog.items[&line.item].unit == Unit::Each {
            *counted.entry(&line.item).or_default() += number(&line.quantity);
        }
    }
    for (item, count) in counted {
        let cost = demo.estimate().items.iter().find(|it| it.item == item).unwrap();
        assert_eq!(Some(count), ledger.value(cost.net).number_of(Unit::Each), "{item}");
    }
}

/// Source: VA 01 33 23, 1.3 (read): what was approved may not change, so a line is bought against an approved revision. H103 was measured
/// twice and its operator's section is approved; H101 was measured once; the raceway is with the reviewer.
#[test]
fn a_line_is_released_once_it_is_approved_and_measured_twice() {
    let view = lists();
    let lines = |of: &str| {
        let list = view.lists.iter().find(|list| list.name == format!("orders.{of}")).unwrap();
        let each =
            list.groups.iter().flat_map(|group| group.lines.iter().map(|line| (group.words.clone(), line.clone())));
        each.collect::<Vec<_>>()
    };
    let operators = lines("cormorant");
    for (words, line) in &operators {
        let marks: Vec<&str> = line.used.split(", ").map(|it| it.split('\u{a0}').next().unwrap()).collect();
        let twice = ["H103", "H109", "C103", "C104"];
        let released = marks.iter().all(|mark| twice.contains(mark) || *mark == "site stock");
        let begins = if released { "RELEASED: 087113-1, approved as noted" } else { "NOT RELEASED: " };
        assert!(words.starts_with(begins), "{words}: {line:?}");
        assert_eq!(!released, words.contains("second survey not done"), "{words}: {line:?}");
    }
    let drive = operators.iter().find(|(_, line)| line.item == "drv-low" && line.used == "H103").unwrap();
    assert_eq!(drive.1.details.replace('\u{a0}', " "), "RH, pull side, 120 V");
    let wire = lines("wharf");
    let raceway: Vec<_> = wire.iter().filter(|(_, line)| line.item.starts_with("emt-")).collect();
    assert!(!raceway.is_empty());
    for (words, line) in raceway {
        assert!(
            words.starts_with("NOT RELEASED: 260533-1, sent 2026-12-01, revision A, not returned"),
            "{words}: {line:?}"
        );
    }
    // Released lines stand first.
    for site in view.lists.iter().flat_map(|list| list.groups.chunk_by(|_, next| next.to.is_none())) {
        let released: Vec<bool> = site.iter().map(|it| it.words.starts_with("RELEASED")).collect();
        assert!(site[0].to.is_some() && released.is_sorted_by(|one, next| one >= next), "{released:?}");
        assert!(site.iter().all(|it| !it.lines.is_empty()));
    }
    // What takes longest is at the front: operators take seven weeks.
    assert_eq!(view.lists[0].supplier, "Cormorant Operator Supply");
}

/// Each supplier's list begins a sheet of its own, with his lines and no one else's.
#[test]
fn every_supplier_has_a_list_of_his_own() {
    let pdf = demo().pdf(Paper::Orders);
    let heads = heads(pdf, 540.0);
    let suppliers: BTreeSet<&str> = demo().catalog.suppliers.values().map(|it| it.name.as_str()).collect();
    let mut seen: Vec<&str> = Vec::new();
    for head in &heads {
        let of = suppliers.iter().find(|name| head.contains(**name)).unwrap_or_else(|| panic!("{head}"));
        if seen.last() != Some(of) {
            seen.push(of);
        }
    }
    assert_eq!(seen.len(), lists().lists.len(), "{seen:?}");
    assert!(!pdf.text().contains('$'));
}
