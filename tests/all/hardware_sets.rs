//! Laws of the hardware schedule: every opening in one set, the same hardware inside a set, other hardware between sets,
//! lines of sets that come to the takeoff.
//!
//! In: the demo's takeoff, and its schedule read back from the PDF. Out: what breaks a law. May not know: how sets are made.

use std::collections::{BTreeMap, BTreeSet};

use hingewright::catalog::{Group, SetPlace};
use hingewright::documents::{ScheduleView, schedule};
use hingewright::findings::Paper;
use hingewright::job::Rating;
use hingewright::measure::Dimension;
use hingewright::takeoff::OpeningWork;
use rust_decimal::Decimal;

use crate::demo::{demo, of_sources};
use crate::pdf_reader::{Kid, Pdf};

fn view() -> ScheduleView {
    let demo = demo();
    of_sources(demo.reviewed, demo.catalog, &demo.priced.takeoff, |sources| schedule(sources).view)
}

/// Marks of the openings of every set.
fn marks(view: &ScheduleView) -> Vec<Vec<String>> {
    view.sets.iter().map(|set| set.openings.iter().map(|one| one.opening.mark.clone()).collect()).collect()
}

fn work(mark: &str) -> (usize, &'static OpeningWork<'static>) {
    let openings = &demo().priced.takeoff.arrangement.openings;
    openings.iter().enumerate().find(|(_, it)| it.opening.mark == mark).unwrap()
}

/// A schedule lists each opening under one heading (paperwork of door hardware: the index leads from an opening to its
/// set; common practice, no source).
#[test]
fn each_opening_is_in_one_set_and_the_index_says_which() {
    let view = view();
    let mut seen = BTreeMap::new();
    for (set, marks) in view.sets.iter().zip(marks(&view)) {
        for mark in marks {
            assert!(seen.insert(mark.clone(), set.name.clone()).is_none(), "{mark} is in two sets");
        }
    }
    let openings: BTreeSet<String> =
        demo().priced.takeoff.arrangement.openings.iter().map(|it| it.opening.mark.clone()).collect();
    assert_eq!(seen.keys().cloned().collect::<BTreeSet<_>>(), openings);
    let index: BTreeMap<String, String> =
        view.index.iter().flatten().flatten().map(|row| (row.mark.clone(), row.set.clone())).collect();
    assert_eq!(index, seen);
}

/// What a reviewer calls the same hardware, written out here on its own: leaves, operator, mounting, arm, latch, release,
/// label, and every item but those that follow from hand, walls, leaf, places of devices, others' systems and color
/// (common practice, no source; the architect's set is split where openings differ, as between labeled and not).
fn hardware(mark: &str) -> String {
    let demo = demo();
    let (at, work) = work(mark);
    let entry = &work.opening.entry;
    let mut leaves: Vec<String> = work
        .leaves
        .iter()
        .filter(|leaf| leaf.powered)
        .map(|leaf| format!("{:?}", (leaf.entry.arm.get(), leaf.entry.latch.get(), leaf.release())))
        .collect();
    leaves.sort();
    let mut items: BTreeMap<&str, Decimal> = BTreeMap::new();
    for line in demo.priced.takeoff.lines.iter().filter(|line| line.of.opening() == Some(at)) {
        let item = &demo.catalog.items[&*line.item];
        let own = match item.group {
            Group::Bracket | Group::Plate | Group::Fastener => true,
            Group::Activation | Group::Sensor | Group::Transmitter | Group::Receiver | Group::Post => true,
            Group::Relay | Group::Sign | Group::Trim => true,
            _ => item.set == SetPlace::Apart,
        };
        if !own {
            let quantity = demo.priced.takeoff.ledger.value(line.quantity);
            let piece = quantity.dimension() == Dimension::LENGTH;
            *items.entry(&line.item).or_default() += if piece { Decimal::ONE } else { quantity.value() };
        }
    }
    let labeled = entry.rating.or(Rating::None) != Rating::None;
    format!(
        "{} {} {:?} {:?} {:?} {leaves:?} {labeled} {items:?}",
        work.form.word(),
        work.headers.len(),
        entry.operator.get().map(|it| it.as_str()),
        entry.mount.get(),
        entry.energy.get(),
    )
}

#[test]
fn openings_of_a_set_have_the_same_hardware_and_sets_differ() {
    let sets = marks(&view());
    let mut first: BTreeMap<String, &str> = BTreeMap::new();
    for set in &sets {
        let asked = hardware(&set[0]);
        for mark in &set[1..] {
            assert_eq!(hardware(mark), asked, "{mark} and {}", set[0]);
        }
        if let Some(other) = first.insert(asked, &set[0]) {
            panic!("{other} and {} have the same hardware and are in two sets", set[0]);
        }
    }
    assert!(sets.iter().any(|set| set.len() > 1), "the demo has openings that share a set");
    assert!(sets.len() < demo().priced.takeoff.arrangement.openings.len(), "fewer sets than openings");
}

/// The item of the catalog that a line describes by its name.
fn item_of(description: &str) -> String {
    let name = description.replace('\u{a0}', " ");
    let found = demo().catalog.items.values().find(|item| item.name == name);
    found.unwrap_or_else(|| panic!("no item is named `{name}`")).id.clone()
}

/// The lines of sets as printed: item, quantity for one opening, quantity of the line, openings.
fn lines(pdf: &Pdf) -> Vec<(String, Decimal, Decimal, Option<String>)> {
    let number = |text: &str| text.replace(',', "").parse::<Decimal>().unwrap_or_else(|_| panic!("`{text}`"));
    let mut lines = Vec::new();
    for table in pdf.tables() {
        let head: Vec<&str> = table[0].iter().map(String::as_str).collect();
        let column = |name: &str| head.iter().position(|it| *it == name);
        let (Some(_), Some(described)) = (column("No"), column("Description")) else { continue };
        let all = column("Set").or(column("Qty")).unwrap();
        for row in table[1..].iter().filter(|row| row.len() == head.len()) {
            let each = column("Each").map_or(number(&row[all]), |each| number(&row[each]));
            let openings = column("Openings").map(|at| row[at].clone());
            lines.push((item_of(&row[described]), each, number(&row[all]), openings));
        }
    }
    lines
}

/// Lines of all sets, item by item, are what the takeoff holds at openings: pieces by their number, the rest by its sum
/// (the schedule is what is bought from; totals are cross-footed to the takeoff).
#[test]
fn printed_lines_of_sets_come_to_the_takeoff() {
    let demo = demo();
    let mut printed: BTreeMap<String, Decimal> = BTreeMap::new();
    for (reference, _, all, _) in lines(demo.pdf(Paper::Schedule)) {
        *printed.entry(reference).or_default() += all;
    }
    let mut asked: BTreeMap<String, Decimal> = BTreeMap::new();
    for line in demo.priced.takeoff.lines.iter().filter(|line| line.of.opening().is_some()) {
        let item = &demo.catalog.items[&*line.item];
        if item.set != SetPlace::Apart {
            let quantity = demo.priced.takeoff.ledger.value(line.quantity);
            let piece = quantity.dimension() == Dimension::LENGTH;
            *asked.entry(line.item.to_string()).or_default() += if piece { Decimal::ONE } else { quantity.value() };
        }
    }
    assert!(asked.len() > 20, "{asked:?}");
    assert_eq!(printed, asked);
}

/// On a line, quantity for one times openings named is the quantity of the set; `all` is every opening of the set.
#[test]
fn a_line_is_each_times_its_openings() {
    let sets = marks(&view());
    let shared: Vec<&Vec<String>> = sets.iter().filter(|set| set.len() > 1).collect();
    let mut seen = 0;
    for (reference, each, all, openings) in lines(demo().pdf(Paper::Schedule)) {
        match openings.as_deref() {
            None => assert_eq!(each, all, "{reference}"),
            Some("all") => {
                let fits = shared.iter().any(|set| each * Decimal::from(set.len()) == all);
                assert!(fits, "{reference}: {each}, {all}");
            }
            Some(marks) => {
                let marks: Vec<&str> = marks.split(", ").collect();
                assert_eq!(each * Decimal::from(marks.len()), all, "{reference}");
                let inside = |set: &&&Vec<String>| marks.iter().all(|mark| set.iter().any(|it| it == mark));
                assert_eq!(shared.iter().filter(inside).count(), 1, "{reference}: {marks:?}");
                seen += 1;
            }
        }
    }
    assert!(seen > 0, "the demo has lines that not every opening of a set takes");
}

/// Pages that the index names are those on which the sets begin (their headings, read from the pages themselves).
#[test]
fn the_index_names_the_page_of_each_set() {
    let pdf = demo().pdf(Paper::Schedule);
    let mut begins: BTreeMap<String, usize> = BTreeMap::new();
    for (at, (page, _)) in pdf.pages().into_iter().enumerate() {
        let text: String = pdf.shown(page).iter().map(|shown| shown.text.as_str()).collect::<Vec<_>>().concat();
        let text = text.replace('\u{a0}', " ");
        for name in view().sets.iter().map(|set| set.name.clone()) {
            if text.contains(&format!("Set {name}: ")) {
                begins.entry(name).or_insert(at + 1);
            }
        }
    }
    let indexes = pdf.tables().into_iter().filter(|table| table[0].get(2).is_some_and(|head| head == "Page"));
    let rows: Vec<Vec<String>> = indexes.flat_map(|table| table[1..].to_vec()).collect();
    assert_eq!(rows.len(), demo().priced.takeoff.arrangement.openings.len());
    for row in rows {
        assert_eq!(begins.get(row[1].trim()).map(ToString::to_string).as_deref(), Some(row[2].trim()), "{row:?}");
    }
}

/// An opening that an addendum names carries its key, and no other does (from the demo's job file).
#[test]
fn openings_that_an_addendum_touches_are_marked() {
    let view = view();
    let addenda = &demo().reviewed.job().addenda;
    let mut marked = 0;
    for one in view.sets.iter().flat_map(|set| &set.openings) {
        let touching = addenda.iter().filter(|it| it.openings.contains(&one.opening.mark));
        let keys: Vec<String> = touching.map(|it| format!("Δ{} {}", it.number, it.date)).collect();
        assert_eq!(one.revision, keys.join(", "), "{}", one.opening.mark);
        marked += usize::from(!keys.is_empty());
    }
    assert!(marked > 0 && marked < demo().priced.takeoff.arrangement.openings.len());
}

/// A reviewer reads again what an addendum changed, line by line: a line whose item an addendum names, at an opening that the
/// addendum names, carries key and date; no other line does (the revision triangle of drawings, common practice, no source).
#[test]
fn lines_that_an_addendum_changes_are_marked() {
    let view = view();
    let addenda = &demo().reviewed.job().addenda;
    let printed = demo().pdf(Paper::Schedule).text().replace('\u{a0}', " ");
    let (mut marked, mut plain) = (0, 0);
    for (set, marks) in view.sets.iter().zip(marks(&view)) {
        for line in set.places.iter().flat_map(|place| &place.lines) {
            let taking: Vec<&str> = match line.openings.as_str() {
                "all" => marks.iter().map(String::as_str).collect(),
                some => some.split(", ").collect(),
            };
            let changing = addenda.iter().filter(|it| {
                it.items.iter().any(|id| demo().catalog.items[id.as_str()].name == line.description)
                    && it.openings.iter().any(|mark| taking.contains(&mark.as_str()))
            });
            let asked: Vec<String> = changing.map(|it| format!("Δ{} {}", it.number, it.date)).collect();
            assert_eq!(line.revision, asked.join(", "), "{} line {}", set.name, line.number);
            marked += usize::from(!asked.is_empty());
            plain += usize::from(asked.is_empty());
            assert!(printed.contains(&line.revision));
        }
        assert_eq!(set.revised, set.places.iter().flat_map(|place| &place.lines).any(|line| !line.revision.is_empty()));
    }
    assert!(marked > 5 && plain > marked, "{marked} marked, {plain} not");
}

/// What openings do is told once and named; every powered opening has one operation, and its set names it.
#[test]
fn each_operation_is_reported_once_and_each_set_names_its_own() {
    let view = view();
    let reported: BTreeSet<String> = view.operations.iter().map(|it| format!("{:?}", it.of.rows)).collect();
    assert_eq!(reported.len(), view.operations.len(), "two operations of the same words");
    let text = demo().pdf(Paper::Schedule).text().replace('\u{a0}', " ");
    let mut of_opening: BTreeMap<&str, &str> = BTreeMap::new();
    for operation in &view.operations {
        let heading = format!("Operation {}: {}", operation.name, operation.of.openings);
        assert_eq!(text.matches(&heading).count(), 1, "{heading}");
        for mark in &operation.of.marks {
            assert!(of_opening.insert(mark, &operation.name).is_none(), "{mark} has two operations");
        }
    }
    for (set, marks) in view.sets.iter().zip(marks(&view)) {
        for mark in marks {
            let (_, work) = work(&mark);
            let named =
                set.operations.iter().filter(|it| it.openings == "all" || it.openings.split(", ").any(|it| it == mark));
            let named: Vec<&str> = named.map(|it| it.name.as_str()).collect();
            let asked: Vec<&str> = of_opening.get(mark.as_str()).copied().into_iter().collect();
            assert_eq!(named, asked, "{mark} in {}", set.name);
            assert_eq!(asked.len(), usize::from(work.powered_leaves() > 0), "{mark}");
        }
    }
}

/// Whoever reads a set sees its openings and its first items on one page (common practice, no source).
#[test]
fn openings_of_a_set_stand_with_its_first_items() {
    let pdf = demo().pdf(Paper::Schedule);
    let mut page_of: BTreeMap<String, u32> = BTreeMap::new();
    pdf.structure().walk(&mut |element| {
        let page = element.kids.iter().find_map(|kid| match kid {
            Kid::Content(page, _) => Some(*page),
            _ => None,
        });
        let text = element.own_text(pdf).replace('\u{a0}', " ");
        let name = match element.role.as_str() {
            "H2" => {
                text.strip_prefix("Set ").and_then(|rest| rest.split_once(':')).map(|(name, _)| format!("title {name}"))
            }
            "TH" => Some(format!("items {text}")),
            _ => None,
        };
        if let (Some(name), Some(page)) = (name, page) {
            page_of.entry(name).or_insert(page);
        }
    });
    for set in view().sets.iter().filter(|set| !set.places.is_empty()) {
        let (title, items) = (page_of.get(&format!("title {}", set.name)), page_of.get(&format!("items {}", set.name)));
        assert!(title.is_some() && title == items, "{}: {title:?}, {items:?}", set.name);
    }
}
