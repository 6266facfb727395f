//! Two states of the demo compared: openings, quantities, hours, price to the cent, checks, sheets to issue again.
//!
//! In: the demo, and copies of it with a few words changed. Out: whatever the comparison tells wrongly. What is asked for is
//! worked out here from the two takeoffs and estimates, or follows from the words that were changed (common practice, no
//! source).

use std::collections::BTreeMap;

use hingewright::measure::Unit;
use hingewright::pipeline::{Compared, compare};
use rust_decimal::Decimal;

use crate::demo::{self, JOB, Texts, replace, snapshot, texts};

const OPENINGS: &str = "catalog_demo/job/openings.csv";
const SURVEYS: &str = "catalog_demo/job/survey.csv";
const HEADERS: &str = "catalog_demo/items-operators.toml";

fn compared(before: &Texts, after: &Texts) -> Compared {
    let (old, new) = (snapshot(before), snapshot(after));
    let (compared, [found_before, found_after]) = compare((&old, JOB), (&new, JOB));
    compared.unwrap_or_else(|| panic!("{found_before:#?} {found_after:#?}"))
}

/// The demo with H106 called H106A, in every file that names it.
fn renumbered() -> Texts {
    let mut files = texts();
    for (file, from, to) in [(OPENINGS, "\nH106,", "\nH106A,"), (SURVEYS, "\nH106,", "\nH106A,")] {
        let text = files.get_mut(file).unwrap();
        assert!(text.contains(from), "{file}");
        *text = text.replace(from, to);
    }
    let job = files.get_mut(JOB).unwrap();
    *job = job.replace("\"H106\"", "\"H106A\"").replace("\"H106/", "\"H106A/");
    files
}

#[test]
fn a_job_and_itself_do_not_differ() {
    let same = compared(&texts(), &texts());
    assert!(same.comparison.is_empty(), "{:#?}", same.comparison);
    assert!(same.reissue.is_empty(), "{:#?}", same.reissue);
    assert_eq!(same.before.fingerprint, same.after.fingerprint);
}

#[test]
fn an_opening_with_another_mark_is_the_same_opening() {
    let reported = compared(&texts(), &renumbered());
    let openings = &reported.comparison.openings;
    let [it] = openings.renumbered.as_slice() else { panic!("{openings:#?}") };
    assert_eq!((it.before.as_str(), it.after.as_str(), it.changes.len()), ("H106", "H106A", 0));
    assert!(openings.added.is_empty() && openings.removed.is_empty() && openings.changed.is_empty(), "{openings:#?}");
    // Nothing but a name changed: no quantity, no hour, no price, no check.
    let comparison = &reported.comparison;
    assert!(comparison.quantities.is_empty() && comparison.hours.is_empty(), "{comparison:#?}");
    assert!(comparison.price.as_ref().unwrap().is_empty() && comparison.checks.is_empty(), "{comparison:#?}");
    // Its runs end at another name and are the same runs.
    assert!(comparison.elsewhere.is_empty() && comparison.members.is_empty(), "{:#?}", comparison.elsewhere);
    // Its sheets name it, so they are issued again; those of the site next door do not.
    let of = |paper: &str| reported.reissue.iter().find(|it| it.paper == paper);
    assert!(of("packet-hall").is_some_and(|it| it.parts.contains(&"H106A".to_owned())), "{:#?}", reported.reissue);
    assert!(of("packet-ferry").is_none() && of("packet-clinic").is_none(), "{:#?}", reported.reissue);
}

/// Sums of lines and places, to the cent.
fn adds_up(reported: &Compared) {
    let price = reported.comparison.price.as_ref().unwrap();
    let lines: Decimal = price.lines.iter().map(|it| it.change()).sum();
    assert_eq!(lines, price.after - price.before, "lines come to the change of the bid: {:#?}", price.lines);
    for line in &price.lines {
        let (Some(quantity), Some(price)) = (line.by_quantity, line.by_price) else { continue };
        let rest = line.change() - quantity - price;
        // Amount before, amount after and both parts are each rounded once: half a cent each at most.
        assert!(rest.abs() <= Decimal::new(2, 2), "{line:#?}");
    }
    for change in reported.comparison.quantities.iter().chain(&reported.comparison.hours) {
        let at: Decimal = change.at.iter().map(|it| it.after - it.before).sum();
        assert!((at - (change.after - change.before)).abs() <= Decimal::new(1, 3), "{change:#?}");
    }
}

#[test]
fn a_price_changes_by_quantity_and_by_price() {
    let mut files = texts();
    // $1.40 more a foot of header.
    replace(&mut files, HEADERS, "price = \"38.60\"", "price = \"40.00\"");
    let reported = compared(&texts(), &files);
    adds_up(&reported);
    let demo = demo::demo();
    let header = demo.estimate().items.iter().find(|it| it.item == "hdr-low").unwrap();
    let feet = demo.priced.takeoff.ledger.value(header.gross).number_of(Unit::Foot).unwrap();
    let price = reported.comparison.price.as_ref().unwrap();
    let line = price.lines.iter().find(|it| it.part == "items").unwrap();
    assert_eq!(line.by_quantity, Some(Decimal::ZERO));
    assert_eq!(line.by_price.unwrap(), (feet * Decimal::new(140, 2)).round_dp(2));
    assert_eq!(price.lines.iter().filter(|it| it.part == "items").count(), 1, "no other item");
    assert!(reported.comparison.quantities.is_empty() && reported.comparison.openings.is_unchanged());
}

#[test]
fn an_opening_that_goes_takes_its_quantities_with_it() {
    let before = texts();
    let mut after = texts();
    // H109 is set aside: it is in the job, and in no bid.
    replace(
        &mut after,
        JOB,
        "[[accept]]\ncode = \"price-old\"",
        "[[set_aside]]\nopening = \"H108\"\nreason = \"owner's wish\"\n\n[[accept]]\ncode = \"price-old\"",
    );
    let reported = compared(&before, &after);
    adds_up(&reported);
    adds_up(&compared(&after, &before));
    let price = reported.comparison.price.as_ref().unwrap();
    assert!(price.after < price.before, "{} and {}", price.before, price.after);
    let at_h108 = |it: &hingewright::comparison::AtPlace| it.place == "H108" && it.after.is_zero();
    let drives = reported.comparison.quantities.iter().filter(|it| it.at.iter().any(at_h108)).count();
    assert!(drives > 3, "what stood at H108 stands there no more: {:#?}", reported.comparison.quantities);
    let packet = reported.reissue.iter().find(|it| it.paper == "packet-hall").unwrap();
    assert!(packet.parts.contains(&"H108".to_owned()), "{packet:#?}");
}

#[test]
fn fields_and_checks_are_reported_old_and_new() {
    let mut files = texts();
    replace(
        &mut files,
        JOB,
        "    { id = \"B1\", kind = \"actuation bar\", side = \"inside\", mount = \"wall\", height = \"36 in\", distance = \"36 in\" },",
        "    { id = \"B1\", kind = \"actuation bar\", side = \"inside\", mount = \"wall\", height = \"60 in\", distance = \"36 in\" },",
    );
    let reported = compared(&texts(), &files);
    let [it] = reported.comparison.openings.changed.as_slice() else { panic!("{:#?}", reported.comparison.openings) };
    let fields: BTreeMap<&str, (Option<&str>, Option<&str>)> =
        it.changes.iter().map(|it| (it.field.as_str(), (it.before.as_deref(), it.after.as_deref()))).collect();
    let wanted = BTreeMap::from([("device B1.height", (Some("3 ft 0 in"), Some("5 ft 0 in")))]);
    assert_eq!((it.after.as_str(), fields), ("C110", wanted));
    // 60 in is out of reach (ADA 2010 308.2.1, read: 48 in), so that check turned; turned back it is cleared.
    // C110 belongs to an alternate, whose findings are of the job as well.
    let raised = &reported.comparison.checks.raised;
    assert!(raised.iter().any(|it| it.code == "device-reach" && it.about == "opening C110"), "{raised:#?}");
    let back = compared(&files, &texts());
    assert!(
        back.comparison.checks.reviewed.iter().any(|it| it.code == "device-reach"),
        "{:#?}",
        back.comparison.checks
    );
}
