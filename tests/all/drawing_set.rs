//! The shop drawings of the demo, read back: a sheet an opening, the stamp's area, what stands on a sheet, the wiring.
//!
//! What a submittal's drawings hold: title block with number, title, date or revision and project, and an empty area of 5 in by
//! 5 in beside it for the reviewer's stamp (a public owner's clause on shop drawings, read; its size is the demo owner's wish);
//! a narrative of nine states of which none is blank (a public section on access control, read).

use std::collections::BTreeMap;

use hingewright::documents::drawing_set;
use hingewright::findings::{Findings, Paper, Papers};
use hingewright::fonts::Faces;
use hingewright::measure::{Finest, LengthForm, Style};
use hingewright::{pipeline, takeoff};

use crate::demo::{self, JOB, demo};
use crate::pdf_reader::{Pdf, Stroke};

/// The side of the demo's stamp in points: 5 in.
const STAMP: f64 = 360.0;

/// Texts of a page, no-break characters as plain ones.
fn words(pdf: &Pdf, page: u32) -> Vec<String> {
    let plain = |text: &str| text.replace('\u{a0}', " ").replace('\u{2011}', "-");
    pdf.shown(page).iter().map(|it| plain(&it.text)).collect()
}

/// The page of an opening's sheet: that on which its mark begins the title in the largest type.
fn sheet_of(pdf: &Pdf, mark: &str) -> u32 {
    let begins = |page: u32| pdf.shown(page).iter().any(|it| it.size > 14.0 && it.text.starts_with(mark));
    let pages: Vec<u32> = pdf.pages().into_iter().map(|(page, _)| page).filter(|page| begins(*page)).collect();
    assert_eq!(pages.len(), 1, "{mark} has one sheet");
    pages[0]
}

fn marks() -> Vec<&'static str> {
    demo().priced.takeoff.arrangement.openings.iter().map(|it| it.opening.mark.as_str()).collect()
}

#[test]
fn every_opening_has_one_page_with_a_title_block_and_its_sizes() {
    let pdf = demo().pdf(Paper::Drawings);
    let head = &demo().reviewed.job().head;
    for (at, mark) in marks().into_iter().enumerate() {
        let page = sheet_of(pdf, mark);
        let words = words(pdf, page);
        let says = |text: &str| words.iter().any(|it| it.contains(text));
        for text in [format!("D-{}", at + 2), head.number.clone(), head.name.clone(), head.date.to_string()] {
            assert!(says(&text), "the sheet of {mark} lacks {text:?}");
        }
        let opening = head_of(mark);
        for leaf in &opening.leaves {
            for length in [leaf.width.get(), leaf.height.get()].into_iter().flatten() {
                let figure = length.print(LengthForm::FeetInches, Finest::Sixteenth, Style::Plain);
                assert!(says(&figure), "the sheet of {mark} lacks {figure}");
            }
        }
        let scales = words.iter().filter(|it| it.contains("in = 1 ft")).count();
        assert!(scales >= 4, "{mark} states {scales} scales");
    }
}

fn head_of(mark: &str) -> &'static hingewright::job::Opening {
    demo().reviewed.job().opening(mark).expect("an opening of the job")
}

/// Whether strokes hold the four sides of a square of the stamp's size; its lower left corner.
fn square(strokes: &[Stroke]) -> Option<(f64, f64)> {
    let near = |a: f64, b: f64| (a - b).abs() < 1.0;
    let sides: Vec<[f64; 4]> = strokes
        .iter()
        .filter(|it| it.points.len() == 2)
        .map(|it| [it.points[0].0, it.points[0].1, it.points[1].0, it.points[1].1])
        .collect();
    let level = sides.iter().filter(|it| near(it[1], it[3]) && near((it[0] - it[2]).abs(), STAMP));
    let level: Vec<(f64, f64)> = level.map(|it| (it[0].min(it[2]), it[1])).collect();
    level.iter().copied().find(|low| level.iter().any(|high| near(high.0, low.0) && near(high.1 - low.1, STAMP)))
}

#[test]
fn every_drawing_leaves_an_empty_area_for_the_stamp_of_the_size_that_the_owner_asks() {
    let pdf = demo().pdf(Paper::Drawings);
    for mark in marks() {
        let page = sheet_of(pdf, mark);
        let (left, low) = square(&pdf.strokes(page)).unwrap_or_else(|| panic!("no area on the sheet of {mark}"));
        let inside = pdf.shown(page).iter().filter(|it| {
            it.x > left && it.x < left + STAMP && it.y > low && it.y < low + STAMP && !it.text.trim().is_empty()
        });
        let inside: Vec<&str> = inside.map(|it| it.text.as_str()).collect();
        assert!(inside.iter().all(|it| "Reviewer’s stamp".contains(it.trim())), "{mark}: {inside:?}");
    }
}

#[test]
fn an_owner_who_asks_for_no_stamp_gets_none_and_a_new_size_is_taken() {
    let drawn = |from: &str, to: &str| {
        let mut texts = demo::texts();
        demo::replace(&mut texts, "catalog_demo/profiles.toml", from, to);
        let made = pipeline::issue(&demo::snapshot(&texts), JOB, Papers::of(&[Paper::Drawings]), None).0.unwrap();
        assert_eq!(made.held, []);
        Pdf::read(&made.papers[0].bytes)
    };
    let without = drawn("stamp_width = \"5 in\"\nstamp_height = \"5 in\"\n", "");
    assert!(!without.text().contains("stamp"));
    let mark = marks()[0];
    assert!(square(&without.strokes(sheet_of(&without, mark))).is_none());
    let small = drawn("stamp_height = \"5 in\"\n", "stamp_height = \"3 in\"\n");
    assert!(small.text().contains("stamp") && square(&small.strokes(sheet_of(&small, mark))).is_none());
}

#[test]
fn every_drawing_has_a_text_in_its_place_and_the_index_leads_to_every_sheet() {
    let pdf = demo().pdf(Paper::Drawings);
    let mut figures = 0;
    pdf.structure().walk(&mut |element| {
        if element.role == "Figure" {
            figures += 1;
            assert!(element.alt.as_ref().is_some_and(|alt| alt.len() > 40), "a drawing without words");
        }
    });
    // Two elevations, a plan, a section an opening at least; a riser a site.
    assert!(figures >= 4 * marks().len() + 3, "{figures} drawings");
    let text = pdf.text();
    for at in 1..marks().len() + 5 {
        assert!(text.contains(&format!("D-{at}")), "no sheet D-{at}");
    }
}

#[test]
fn every_cable_and_circuit_has_its_terminations_and_every_state_its_sentence() {
    let pdf = demo().pdf(Paper::Drawings);
    let text = pdf.text().replace('\u{a0}', " ").replace('\u{2011}', "-");
    let all = &demo().priced.takeoff.arrangement;
    for opening in all.openings.iter().filter(|it| !it.headers.is_empty()) {
        for device in &opening.devices {
            let label = format!("{}/{}", opening.opening.mark, device.id);
            assert!(text.contains(&label), "no terminations of {label}");
        }
    }
    for circuit in &all.circuits {
        let panel = all.panels[circuit.panel].id.as_deref().expect("every circuit of the demo has a panel");
        assert!(text.contains(&format!("{panel}-{} ", circuit.label())), "no label of {panel}-{}", circuit.label());
    }
    for state in [
        "normal, secured",
        "normal, unsecured",
        "authorized access",
        "authorized egress",
        "unauthorized access",
        "unauthorized egress",
        "fire alarm",
        "loss of power",
        "interface to others",
    ] {
        assert!(text.contains(state), "no {state}");
    }
    let blank = pdf.tables().into_iter().flatten().filter(|row| row.len() == 2).any(|row| row[1].trim().is_empty());
    assert!(!blank, "a state without a sentence");
}

/// What the catalog says of an end: terminal or lead, color, terminal at the header.
type Said = (String, String, String);

/// The conductors of a device by the words of the demo's catalog, read apart from the room that prints them.
fn said_of(kind: &str, wireless: bool, inside: bool, operator: &str, awg: Option<i64>) -> Vec<Said> {
    let file: toml::Table = demo::texts()["catalog_demo/terminals.toml"].parse().unwrap();
    let holds = |value: Option<&toml::Value>, word: &str| {
        value.and_then(toml::Value::as_array).is_some_and(|it| it.iter().any(|it| it.as_str() == Some(word)))
    };
    let by_radio = |table: &toml::Value| table.get("link").and_then(toml::Value::as_str) == Some("wireless");
    let table = file["termination"].as_table().unwrap().values();
    let table = table.filter(|it| holds(it.get("devices"), kind) && by_radio(it) == wireless);
    let [table] = table.collect::<Vec<_>>()[..] else { panic!("{kind} is not terminated once") };
    let cables = || file["cable"].as_table().unwrap().values();
    let of_gauge = |it: &&toml::Value| {
        it.get("awg").is_some_and(|it| it.as_array().unwrap().iter().any(|it| it.as_integer() == awg))
    };
    let cable = cables().find(of_gauge).or_else(|| cables().find(|it| it.get("awg").is_none())).unwrap();
    let wires = table["wire"].as_array().unwrap().iter().map(|wire| {
        let text = |key: &str| wire.get(key).and_then(toml::Value::as_str);
        let id = text("inside").filter(|_| inside).or(text("to")).unwrap();
        let terminal = &file["terminal"][id];
        let other = terminal.get("other").and_then(toml::Value::as_array).into_iter().flatten();
        let other = other.filter(|it| it["operator"].as_str() == Some(operator)).find_map(|it| it["name"].as_str());
        let to = other.or(terminal["name"].as_str()).unwrap();
        let color = cable["color"][text("role").unwrap().replace(' ', "_")].as_str().unwrap();
        (text("from").unwrap().to_owned(), color.to_owned(), to.to_owned())
    });
    wires.collect()
}

/// The rows of the sheets of terminations by the label at both ends: terminal, color, terminal of each conductor.
fn landed(pdf: &Pdf) -> BTreeMap<String, Vec<Said>> {
    let plain = |text: &String| text.replace('\u{a0}', " ").replace('\u{2011}', "-").trim().to_owned();
    let mut landed: BTreeMap<String, Vec<Said>> = BTreeMap::new();
    let mut label = String::new();
    for row in pdf.tables().into_iter().flatten() {
        let row: Vec<String> = row.iter().map(plain).collect();
        match row.as_slice() {
            [_, of, _, from, color, _, _, to, name] if of != "Of" => {
                label.clone_from(name);
                landed.entry(name.clone()).or_default().push((from.clone(), color.clone(), to.clone()));
            }
            [from, color, to] if !label.is_empty() => {
                let own = landed.get_mut(&label).expect("a first row");
                own.push((from.clone(), color.clone(), to.clone()));
            }
            _ => label.clear(),
        }
    }
    landed
}

#[test]
fn every_wired_device_lands_at_both_ends_in_the_words_of_the_catalog() {
    let landed = landed(demo().pdf(Paper::Drawings));
    let all = &demo().priced.takeoff.arrangement;
    let (mut devices, mut otherwise) = (0, 0);
    for (at, work) in all.openings.iter().enumerate().filter(|(_, it)| !it.headers.is_empty()) {
        for (number, device) in work.devices.iter().enumerate() {
            let entry = device.entry;
            let wireless = entry.link.get().is_some_and(|it| it.word() == "wireless");
            let inside = entry.side.get().is_some_and(|it| it.word() == "inside");
            let operator = work.operator.map_or("", |it| it.id.as_str());
            let cabled = all.runs.iter().any(|run| run.cables.contains(&(at, number)));
            let awg = (cabled && !wireless).then_some(22);
            let harness = matches!(entry.mount.get().map(|it| it.word()), Some("header" | "leaf"));
            let theirs = !cabled && !wireless && !harness;
            assert_eq!(theirs, entry.by.get().is_some(), "{}: every cable of ours has its way", device.id);
            let mut said = said_of(entry.kind.get().unwrap().word(), wireless, inside, operator, awg);
            // What a cable of others looks like is theirs to say.
            if theirs {
                said.iter_mut().for_each(|it| it.1 = "by vendor".to_owned());
            }
            let label = format!("{}/{}", work.opening.mark, device.id);
            assert_eq!(landed.get(&label), Some(&said), "{label}");
            assert!(said.iter().all(|it| !it.0.is_empty() && !it.1.is_empty() && !it.2.is_empty()), "{label}");
            devices += 1;
            otherwise += usize::from(said.iter().any(|it| it.2 == "SENSOR +"));
        }
    }
    assert!(devices > 60 && otherwise > 3, "{devices} devices, {otherwise} at an operator with names of its own");
    // No end is left open anywhere on these sheets, line voltage, releases and systems of others included.
    for (label, rows) in &landed {
        for (from, color, to) in rows {
            assert!(![from, color, to].iter().any(|it| it.is_empty() || *it == "–"), "{label}: {from}, {color}, {to}");
        }
    }
    let releases = all.openings.iter().filter(|it| !it.headers.is_empty()).flat_map(|it| &it.leaves);
    let ours = |word: &str| ["electric strike", "latch retraction", "electrified lock"].contains(&word);
    let releases = releases.filter(|it| it.powered && it.release().is_some_and(|it| ours(it.word()))).count();
    assert_eq!(landed.keys().filter(|it| it.contains("/RELEASE ")).count() - others(), releases);
    for word in ["/ALARM", "/SUPPLY", "/SEQUENCE"] {
        assert!(landed.keys().any(|it| it.ends_with(word)), "nothing is landed at {word}");
    }
}

/// A cable of ours that no run carries yet has no color that anybody knows, and nothing is wrong with the catalog's cable.
#[test]
fn a_cable_whose_way_is_not_laid_out_says_so_and_is_of_no_color() {
    let mut texts = demo::texts();
    let run = "[[run]]\nfrom = \"H101\"\nto = \"H101/K1\"\nkind = \"open cable\"\nlength = \"9 ft\"\nbends = []\nclass = \"low\"\nwet = false\n";
    demo::replace(&mut texts, JOB, run, "");
    texts.remove("catalog_demo/routes.toml").expect("what is assumed of routes");
    let read = demo::read(&texts);
    let reviewed = read.reviewed();
    let mut findings = Findings::default();
    let taken = takeoff::take_off(&reviewed, &read.catalog, &mut findings);
    let draft = demo::of_sources(&reviewed, &read.catalog, &taken, |it| drawing_set(it, &Faces::built_in()));
    let bundles = draft.view.terminations.iter().flat_map(|it| &it.bundles);
    let of_label = |label: &str| bundles.clone().find(|it| it.label == label).expect("it is terminated");
    let (without, with) = (of_label("H101/K1"), of_label("H101/M1"));
    assert_eq!(without.conductor, "route not laid out");
    assert!(without.rows.len() > 1 && without.rows.iter().all(|it| it.color == "–"), "{without:?}");
    assert!(with.conductor != without.conductor && with.rows.iter().all(|it| it.color != "–"), "{with:?}");
    let missing = findings.iter().filter(|it| it.code.id == "conductor-missing").count();
    assert_eq!(missing, 0, "it is no fault of a cable");
}

/// Locks of others of the demo at powered leaves.
fn others() -> usize {
    let all = &demo().priced.takeoff.arrangement.openings;
    let leaves = all.iter().filter(|it| !it.headers.is_empty()).flat_map(|it| &it.leaves);
    leaves.filter(|it| it.powered && it.release().is_some_and(|it| it.word() == "held by others")).count()
}

/// The texts of all drawings in words, for who cannot see them.
fn in_words(pdf: &Pdf) -> String {
    let mut all = String::new();
    pdf.structure().walk(&mut |element| {
        all.extend(element.alt.iter().flat_map(|alt| [alt.as_str(), "\n"]));
    });
    all.replace('\u{a0}', " ")
}

#[test]
fn every_run_that_brings_power_or_a_cable_is_on_a_riser_with_its_ends() {
    let words = in_words(demo().pdf(Paper::Drawings));
    let all = &demo().priced.takeoff.arrangement;
    let mut seen = 0;
    for run in all.runs.iter().filter(|run| !run.circuits.is_empty() || !run.cables.is_empty()) {
        let named = format!("by {} {}", run.run.label(), run.run.kind);
        assert!(words.contains(&named), "run {} is on no riser: {named:?}", run.run.label());
        seen += 1;
    }
    assert!(seen > 50, "{seen} runs");
    for panel in all.panels.iter().filter_map(|it| it.id.as_ref()) {
        assert!(words.contains(&format!("{panel} feeds ")), "{panel} feeds nothing");
    }
    for opening in all.openings.iter().filter(|it| !it.headers.is_empty()) {
        assert!(words.contains(&format!("feeds {}", opening.opening.mark)), "nothing feeds {}", opening.opening.mark);
    }
}
