//! A new item, task and rule, given in one more file of the catalog, are in takeoff, price and papers.
//!
//! In: the demo with a file more. Out: where the new entries are found. May not know: any code that names them; none does.

use hingewright::findings::Paper;
use hingewright::measure::Unit;
use hingewright::pipeline::Form;
use hingewright::takeoff::EntityRef;
use rust_decimal::Decimal;

use crate::demo::{self, Texts, counted, demo, dollars, estimated};
use crate::pdf_reader::Pdf;

/// Invented.
const MORE: &str = r#"
[item.zz-chock]
name = "Alder chock, oiled"
group = "relay"
set = "electrical"
unit = "each"
price = "7.25"
priced = 2026-10-05
supplier = "heron"
rule = [{ per = "powered leaf", quantity = "3" }]

[[rule]]
id = "zz-chock-header"
per = "header"
item = "zz-chock"
quantity = "2"
because = "one at each end"

[task.zz-oil]
name = "Oil the chocks"
visit = "set"
phase = "first power"
order = 90
trade = "installer"
hours = "0.4 h"
source = "invented"
steps = ["Oil every chock along the grain."]
tools = ["linseed rag"]
cautions = ["Oily rags can catch fire by themselves: keep them in a can with a lid."]
rule = [{ per = "opening", when = "opening.powered_leaves > 0" }]
"#;

fn with_more() -> Texts {
    let mut texts = demo::texts();
    texts.insert("catalog_demo/zz-more.toml".to_owned(), MORE.to_owned());
    texts
}

fn count(name: &str) -> Decimal {
    let demo = demo();
    let counts = counted(demo.reviewed, demo.catalog, &demo.priced.takeoff, None);
    counts.into_iter().find(|it| it.name == name).unwrap().job.parse().unwrap()
}

#[test]
fn a_new_item_and_task_are_taken_off_and_priced() {
    let read = demo::read(&with_more());
    let reviewed = read.reviewed();
    let (takeoff, estimate) = estimated(&reviewed, &read.catalog);
    let (leaves, headers) = (count("count.powered-leaves"), count("count.headers"));
    let lines: Vec<_> = takeoff.lines.iter().filter(|line| &*line.item == "zz-chock").collect();
    assert_eq!(Decimal::from(lines.len()), leaves + headers, "a line for each rule and entity");
    assert!(lines.iter().all(|line| matches!(line.of, EntityRef::Leaf(..) | EntityRef::Header(..))));
    let cost = estimate.items.iter().find(|cost| cost.item == "zz-chock").unwrap();
    let quantity = leaves * Decimal::from(3) + headers * Decimal::TWO;
    assert_eq!(takeoff.ledger.value(cost.net).value(), quantity);
    assert_eq!(dollars(&takeoff, cost.extension), quantity * Decimal::new(725, 2));
    let oiling: Vec<_> = takeoff.labor.iter().filter(|it| it.task.as_deref() == Some("zz-oil")).collect();
    let powered = takeoff.arrangement.openings.iter().filter(|it| it.powered_leaves() > 0).count();
    assert_eq!(oiling.len(), powered, "once at every opening that has a powered leaf");
    for line in &oiling {
        let hours = takeoff.ledger.value(line.hours).number_of(Unit::Hour).unwrap();
        assert!(hours >= Decimal::new(4, 1), "{hours} h");
    }
    let demo = demo();
    let more = dollars(&takeoff, estimate.bid) - dollars(&demo.priced.takeoff, demo.estimate().bid);
    assert!(more > dollars(&takeoff, cost.extension), "the bid carries item, hours and build-up: {more}");
}

#[test]
fn a_new_item_and_task_stand_on_the_papers() {
    let issue = demo::issue(&with_more());
    assert_eq!(issue.held, []);
    for paper in &issue.papers {
        let text = match paper.form {
            Form::Pdf => Pdf::read(&paper.bytes).text(),
            Form::Html => crate::phone::words(paper),
            Form::Csv => String::from_utf8_lossy(&paper.bytes).into_owned(),
        };
        let wanted: &[&str] = match paper.paper {
            Paper::Recap => &["Alder chock, oiled", "Oil the chocks"],
            Paper::Schedule => &["Alder chock, oiled"],
            Paper::Submittal if paper.name.contains("087113-1") => &["Alder chock, oiled"],
            Paper::Packet => &["Oil every chock along the grain.", "linseed rag", "Oily rags can catch fire"],
            Paper::Bid
            | Paper::Survey
            | Paper::Review
            | Paper::Questions
            | Paper::Needs
            | Paper::Register
            | Paper::Orders
            | Paper::Drawings
            | Paper::Submittal => &[],
        };
        for words in wanted {
            assert!(text.contains(words), "{} lacks `{words}`", paper.name);
        }
    }
    let names: Vec<&str> = issue.papers.iter().map(|it| it.name.as_str()).collect();
    for start in ["recap", "schedule", "packet"] {
        assert!(names.iter().any(|name| name.starts_with(start)), "{start} is among {names:?}");
    }
}
