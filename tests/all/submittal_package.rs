//! Submittal packages against what public owners ask for in one: row by row, each with the document that asks for it.
//!
//! In: the demo's packages, and copies of the demo with a few words changed. Out: a row that a package lacks. The rows and how far
//! each document was read stand in the research on paperwork; "read" is a document that was read at the place named.

use std::collections::{BTreeMap, BTreeSet};

use hingewright::catalog::Entity;
use hingewright::findings::{Paper, Papers};
use hingewright::job::{Answer, SubmittalPart};
use hingewright::pipeline::{self, Form};
use hingewright::takeoff::{EntityRef, Met, ProofGap, compliance, needed_proofs};

use crate::demo::{JOB, Texts, demo, replace, snapshot, texts};
use crate::pdf_reader::Pdf;

const SPECIFICATION: &str = "catalog_demo/job/specification.csv";
const PROFILES: &str = "catalog_demo/profiles.toml";

/// The package of the operators, of the raceway, and the drawings that follow the schedule.
const OPERATORS: &str = "submittal-087113-1.pdf";
const RACEWAY: &str = "submittal-260533-1.pdf";
const WIRING: &str = "submittal-087113-2.pdf";

fn package(name: &str) -> &'static Pdf {
    demo().pdfs.get(name).unwrap_or_else(|| panic!("no {name} among {:?}", demo().pdfs.keys()))
}

/// The packages of changed texts, by the name of the file, and what held them.
fn packages(texts: &Texts) -> (BTreeMap<String, Pdf>, Vec<String>) {
    let (issue, findings) = pipeline::issue(&snapshot(texts), JOB, Papers::of(&[Paper::Submittal]), None);
    let pdfs = issue.unwrap().of_form(Form::Pdf).map(|it| (it.name.clone(), Pdf::read(&it.bytes))).collect();
    let errors = findings.iter().filter(|it| it.blocks.has(Paper::Submittal));
    (pdfs, errors.map(|it| format!("{}: {}", it.code.id, it.sentence())).collect())
}

fn has(name: &str, words: &[&str]) {
    let text = package(name).text();
    for words in words {
        assert!(text.contains(words), "{name} lacks {words:?}");
    }
}

/// The rows of the table whose head begins with these cells.
fn table(pdf: &Pdf, heads: &[&str]) -> Vec<Vec<String>> {
    let of = |table: &Vec<Vec<String>>| table.first().is_some_and(|row| row.iter().zip(heads).all(|(a, b)| a == b));
    pdf.tables().into_iter().filter(of).flat_map(|table| table[1..].to_vec()).collect()
}

fn transmittal(pdf: &Pdf) -> Vec<Vec<String>> {
    table(pdf, &["Item", "Description"])
}

/// Rows 1 and 3: fields of the transmittal, and a line an item (USACE ENG Form 4025-R, fields and notes 3, 8, 9, read).
#[test]
fn the_transmittal_has_its_fields_and_a_line_an_item() {
    has(
        OPERATORS,
        &["Transmittal 087113-1", "Date sent", "2026-11-16", "New submittal", "08 71 13, Power door operators"],
    );
    has(OPERATORS, &["Quillmere Door Power, LLC", "Ashlar & Ember Builders", "Solicitation HPSD 26-211"]);
    for name in [OPERATORS, RACEWAY, WIRING] {
        let rows = transmittal(package(name));
        assert!(!rows.is_empty(), "{name}");
        for (at, row) in rows.iter().enumerate() {
            assert_eq!(row[0], (at + 1).to_string(), "{name}: items are numbered");
            assert!(row[2].trim().parse::<u32>().is_ok(), "{name}: {row:?} names its page");
            assert!(!row[3].is_empty() && row[4] == "4", "{name}: {row:?} has type and copies");
            assert!(row[8].is_empty(), "{name}: the reviewer's column is his: {row:?}");
        }
    }
    let types: BTreeSet<String> = transmittal(package(OPERATORS)).into_iter().map(|row| row[3].clone()).collect();
    for wanted in [
        "schedule",
        "product data",
        "statement",
        "templates",
        "certificates",
        "warranty",
        "operation and maintenance data",
    ] {
        assert!(types.contains(wanted), "no line of type {wanted}: {types:?}");
    }
    // Paragraphs and drawing sheets stand beside the items that they belong to.
    let asked = |name: &str, kind: &str, column: usize| {
        let rows = transmittal(package(name));
        rows.iter().find(|row| row[3] == kind).map(|row| row[column].clone()).unwrap_or_default()
    };
    assert_eq!(asked(OPERATORS, "product data", 5), "1.3.B");
    assert_eq!(asked(WIRING, "shop drawings", 5), "1.3.C");
    assert!(asked(WIRING, "shop drawings", 6).starts_with("D-1 to D-"));
}

/// Row 2: one section on a transmittal (the same form, note 5, read). No item of one section stands in the package of another.
#[test]
fn no_package_mixes_two_sections() {
    let demo = demo();
    let job = demo.reviewed.job();
    for (name, section) in [(OPERATORS, "08 71 13"), (RACEWAY, "26 05 33")] {
        let pdf = package(name);
        let mut sheets = 0;
        for (id, item) in &demo.catalog.items {
            let reported = pdf.named(&format!("product.{id}"));
            // Bits are used up over other items and stay with nobody.
            let stays = |rule: usize| demo.catalog.rules[rule].per != Entity::Item;
            let taken = demo.priced.takeoff.lines.iter().any(|line| *line.item == **id && stays(line.rule));
            let reviewed = demo.catalog.suppliers.get(&item.supplier).is_some_and(|it| it.submitted);
            let belongs = taken && reviewed && job.section_of(item.group) == Some(section);
            assert_eq!(reported.len(), usize::from(belongs), "{name}: {id}");
            sheets += reported.len();
        }
        assert!(sheets > 10, "{name}: {sheets} sheets");
    }
    assert!(!package(RACEWAY).text().contains("08 71 13"));
    assert!(!package(OPERATORS).text().contains("26 05 33"));
}

/// Rows 4 and 4b: what is sent again has a decimal (form, note 2, read) or the letter R (VA procedure CP 7 (a)(3), read).
#[test]
fn what_is_sent_again_is_numbered_as_the_owner_writes_it() {
    let mut files = texts();
    replace(&mut files, JOB, "disposition = \"approved as noted\"", "disposition = \"correct and submit again\"");
    replace(&mut files, JOB, "revision = \"A\"\nunits", "revision = \"B\"\nunits");
    let (pdfs, errors) = packages(&files);
    assert_eq!(errors, Vec::<String>::new());
    let again = pdfs.get("submittal-087113-1.1.pdf").unwrap_or_else(|| panic!("{:?}", pdfs.keys()));
    let text = again.text();
    assert!(text.contains("Resubmittal of 087113-1") && text.contains("correct and submit again"));
    replace(&mut files, PROFILES, "again = \"decimal\"", "again = \"letter R\"");
    assert!(packages(&files).0.contains_key("submittal-087113-1R.pdf"));
}

/// Row 5: the contractor certifies, with lines to sign (form; UFGS 01 33 00, read).
#[test]
fn the_contractor_certifies() {
    for name in [OPERATORS, RACEWAY, WIRING] {
        has(
            name,
            &["reviewed in detail and is correct and in strict conformance", "except as stated", "Name and title"],
        );
    }
}

/// Row 6: every paragraph that is not met is a deviation with all its fields, and every deviation a paragraph; the lines that it
/// touches say so (form, note 6; UFGS 01 33 00, read).
#[test]
fn deviations_and_departures_are_the_same() {
    let demo = demo();
    let takeoff = &demo.priced.takeoff;
    let mut all = 0;
    for (name, section) in [(OPERATORS, "08 71 13"), (RACEWAY, "26 05 33")] {
        let pdf = package(name);
        let found = compliance(takeoff, demo.reviewed.job());
        let here: Vec<_> = found.iter().filter(|it| it.paragraph.section == section).collect();
        let rows = table(pdf, &["Paragraph", "Requirement", "Response"]);
        let reported: Vec<(&str, &str)> = rows.iter().map(|row| (row[0].as_str(), row[2].as_str())).collect();
        let answer = |met: &Met| match met {
            Met::Yes => "complies",
            Met::No(_) => "deviates",
            Met::NotApplicable(_) => "not applicable",
            Met::Open(_) | Met::Unreadable(_) => "to be confirmed",
        };
        let wanted: Vec<(&str, &str)> = here.iter().map(|it| (it.paragraph.number.as_str(), answer(&it.met))).collect();
        assert_eq!(reported, wanted, "{name}");
        let deviations = table(pdf, &["No", "Paragraph", "Requirement", "Offered"]);
        let departing: Vec<&str> =
            here.iter().filter(|it| it.departs()).map(|it| it.paragraph.number.as_str()).collect();
        assert_eq!(deviations.iter().map(|row| row[1].as_str()).collect::<Vec<_>>(), departing, "{name}");
        assert!(deviations.iter().flatten().all(|cell| !cell.is_empty() && cell != "–"), "{name}: {deviations:?}");
        let named: BTreeSet<String> = transmittal(pdf)
            .iter()
            .filter_map(|row| row[7].strip_prefix("yes: "))
            .flat_map(|list| list.split(", ").map(str::to_owned).collect::<Vec<_>>())
            .collect();
        assert_eq!(named, deviations.iter().map(|row| row[0].clone()).collect(), "{name}: every deviation has a line");
        all += deviations.len();
    }
    assert!(all >= 4);
}

/// A condition is tried on the job itself: the openings named are those at which it fails, calculated here by other means.
#[test]
fn a_departure_names_the_openings_at_which_it_is_found() {
    let demo = demo();
    let job = demo.reviewed.job();
    let asked = job.paragraphs.iter().find(|it| it.number == "2.2.A").unwrap();
    assert!(matches!(asked.answer, Answer::Tried { per: Entity::Header, .. }));
    let high = |mark: &str| {
        let work = demo.priced.takeoff.arrangement.openings.iter().find(|it| it.opening.mark == mark).unwrap();
        work.operator.is_some_and(|operator| operator.height.to_inches_f64() > 6.0) && !work.headers.is_empty()
    };
    let marks = demo.priced.takeoff.arrangement.openings.iter().map(|it| it.opening.mark.as_str());
    let wanted: Vec<&str> = marks.filter(|mark| high(mark)).collect();
    let rows = table(package(OPERATORS), &["No", "Paragraph", "Requirement", "Offered"]);
    let row = rows.iter().find(|row| row[1] == "2.2.A").unwrap();
    assert_eq!(row[4], wanted.join(", "));
    assert!(!wanted.is_empty());
}

/// A departure without a statement holds the package and says what to type; the other papers go out.
#[test]
fn an_undeclared_departure_holds_the_package() {
    let mut files = texts();
    replace(&mut files, SPECIFICATION, "Full-energy header at the openings listed.", "");
    let (pdfs, errors) = packages(&files);
    assert!(pdfs.is_empty());
    assert_eq!(errors.len(), 1, "{errors:?}");
    assert!(errors[0].starts_with("deviation-unstated: ") && errors[0].contains("H101"), "{errors:?}");
    let (issue, _) = pipeline::issue(&snapshot(&files), JOB, Papers::of(&[Paper::Schedule, Paper::Submittal]), None);
    let issue = issue.unwrap();
    assert_eq!(issue.held, [Paper::Submittal]);
    assert!(issue.papers.iter().any(|it| it.paper == Paper::Schedule));
}

/// Rows 7, 8, 10, 13, 14, 15: drawings with sizes and details (VA 08 71 13, 1.4 B, read), an elevation of each opening and wiring
/// point to point (trade press; Carmel 28 13 00, read), what counts as a shop drawing, the stamp area and the title block
/// (48 CFR 552.236-78 (b), (e), read).
#[test]
fn the_second_stage_holds_the_drawings_whole() {
    let pdf = package(WIRING);
    let text = pdf.text();
    for opening in &demo().priced.takeoff.arrangement.openings {
        let mark = &opening.opening.mark;
        assert!(text.contains(&format!("{mark}, ")), "no sheet of {mark}");
    }
    has(WIRING, &["Elevation from", "Plan.", "Section through the head.", "Holes behind"]);
    has(WIRING, &["Terminations, point to point", "Label, both ends", "Drawing", "Sheet", "Reviewer’s stamp"]);
    // The drawings are the same pages as the paper by itself, and the package has its own before them.
    let alone = demo().pdf(Paper::Drawings).pages().len();
    assert!(pdf.pages().len() > alone, "{} pages, {alone} by itself", pdf.pages().len());
    // They wait for the schedule (Carmel 28 13 00, read): two packages, and the first holds no terminations.
    assert!(!package(OPERATORS).text().contains("Terminations, point to point"));
}

/// Row 11: what every opening does, in nine states (Carmel 28 13 00, system operational descriptions, read).
#[test]
fn every_opening_is_reported_in_nine_states() {
    let text = package(OPERATORS).text();
    for state in hingewright::catalog::DoorState::ALL {
        assert!(text.contains(&format!("{}:", state.word())), "no state {state}");
    }
}

/// Rows 12, 18, 19: product data, templates for doors and frames of others, maintenance data with spares and warranty
/// (VA 08 71 13, 1.3 to 1.5; VA 08 71 00, 1.3 D, read).
#[test]
fn products_templates_and_upkeep_are_in_the_package() {
    has(OPERATORS, &["Product data", "Requirements for doors, frames and walls", "Hole layouts", "Maintenance data"]);
    has(OPERATORS, &["Daily safety check", "Periodic maintenance", "Spare parts", "Troubleshooting", "Not covered"]);
    let demo = demo();
    for (at, work) in demo.priced.takeoff.arrangement.openings.iter().enumerate() {
        let reported = package(OPERATORS).named(&format!("prepared.{}", work.opening.mark));
        assert_eq!(reported.len(), usize::from(!work.headers.is_empty()), "{at}: {}", work.opening.mark);
    }
    let kept = demo.catalog.items.values().filter(|item| item.spare.is_some());
    let taken = kept.filter(|item| demo.priced.takeoff.lines.iter().any(|line| *line.item == *item.id));
    let spares: BTreeSet<String> = taken.map(|item| item.name.clone()).collect();
    let reported: BTreeSet<String> =
        table(package(OPERATORS), &["Part", "Supplier"]).into_iter().map(|row| row[0].replace('\u{a0}', " ")).collect();
    assert_eq!(reported, spares);
}

/// Row 12: cuts of the products, a heading each, stamped with the submittal and its paragraph, what is offered marked (GSAR
/// 552.236-78(b), read). Invented sheets. A file that is not there holds the package.
#[test]
fn suppliers_sheets_are_enclosed_stamped_and_marked() {
    has(OPERATORS, &["Supplier cut sheets", "paragraph 1.3.B; page 2 of 2 of the supplier’s cut sheet"]);
    has(OPERATORS, &["Selected: square, engraved", "Selected: long", "claims neither PDF/UA nor PDF/A"]);
    let claims = |name: &str| {
        let issued = demo().issue.papers.iter().find(|it| it.name == name).unwrap();
        issued.bytes.windows(12).any(|it| it == b"pdfuaid:part")
    };
    assert_eq!([OPERATORS, RACEWAY, WIRING].map(claims), [false, true, true]);

    let mut texts = texts();
    replace(&mut texts, "catalog_demo/items-devices.toml", "sheets/plate-square.pdf", "sheets/plate-round.pdf");
    let (issued, _) = pipeline::issue(&snapshot(&texts), JOB, Papers::of(&[Paper::Submittal]), None);
    let issued = issued.unwrap();
    assert!(issued.held == [Paper::Submittal] && issued.papers.is_empty(), "{:?}", issued.held);
}

/// Rows 20 and 21: certificates of what is offered (VA 08 71 13, 1.3, read). The certificate itself goes with the table that names
/// it, marked and stamped; one that is not there holds the package, one of a proof that nobody has is not asked for.
#[test]
fn a_certificate_is_enclosed_behind_the_table_of_proofs() {
    has(OPERATORS, &["Certificates, enclosed", "paragraph 1.3.D; page 1 of 1 of the certificate"]);
    let pdf = package(OPERATORS);
    let row = table(pdf, &["Kind", "Certifies"]).into_iter().find(|row| row[3] == "CTO-F-1188").unwrap();
    assert!(row[7].starts_with("received; enclosed"), "{row:?}");
    let line = transmittal(pdf).into_iter().find(|row| row[1].starts_with("Certificates, enclosed, 1")).unwrap();
    let plain = |text: &str| text.replace('\u{a0}', " ").trim().to_owned();
    assert!(plain(&row[7]).ends_with(&format!("page {}", plain(&line[2]))), "{row:?} {line:?}");
    assert!(!package(RACEWAY).text().contains("of the certificate"), "it goes with the section of its goods");

    const PROOFS: &str = "catalog_demo/proofs.toml";
    let mut changed = texts();
    replace(&mut changed, PROOFS, "sheets/certificate-label.pdf", "sheets/certificate-lost.pdf");
    let held = packages(&changed).1;
    assert!(held.iter().any(|it| it.contains("sheets/certificate-lost.pdf")), "{held:?}");
    replace(&mut changed, PROOFS, "date = 2024-06-11\n", "");
    let (pdfs, held) = packages(&changed);
    assert!(held.is_empty() && !pdfs[OPERATORS].text().contains("of the certificate"), "{held:?}");
}

/// The months of warranty are those of the bid (paperwork rule f.10).
#[test]
fn the_warranty_is_that_of_the_bid() {
    let months = demo().catalog.profiles[&demo().reviewed.job().head.profile].warranty_months.unwrap();
    let words = format!("{months}\u{a0}months");
    let plain = |pdf: &Pdf| pdf.text().replace('\u{a0}', " ");
    assert!(plain(package(OPERATORS)).contains(&format!("for {months} months, from")), "{words}");
    assert!(plain(demo().pdf(Paper::Bid)).contains(&format!("{months} months")));
}

/// Row 16: the units of the contract drawings (UFGS 01 33 00, read): an inch job prints no millimetre in the package.
#[test]
fn units_are_those_of_the_job() {
    for name in [OPERATORS, RACEWAY] {
        let text = package(name).text();
        let metric = text.split_whitespace().filter(|word| word.trim_end_matches(['.', ',', ';']) == "mm").count();
        assert_eq!(metric, 0, "{name}");
    }
}

/// Row 17: certificates, with what is missing by name (VA 08 71 13, 1.3: listing, installers, one source, read).
#[test]
fn proofs_needed_are_listed_and_gaps_are_named() {
    let demo = demo();
    let needed = needed_proofs(&demo.priced.takeoff, demo.reviewed.job(), demo.catalog);
    let gaps = |gap: fn(&ProofGap) -> bool| needed.iter().filter(|it| it.gap.as_ref().is_some_and(gap)).count();
    assert!(gaps(|it| *it == ProofGap::Missing) == 1 && gaps(|it| matches!(it, ProofGap::Expired(_))) == 1);
    for one in &needed {
        let reported: Vec<&str> = [OPERATORS, RACEWAY]
            .into_iter()
            .filter(|name| !package(name).named(&format!("proof.{}", one.proof.id)).is_empty())
            .collect();
        assert_eq!(reported.len(), 1, "{} stands in one package: {reported:?}", one.proof.id);
        if one.gap.is_some() {
            let text = package(reported[0]).text();
            assert!(text.contains(&format!("{} ({}):", one.proof.says, one.proof.kind)), "{}", one.proof.id);
        }
    }
    // A proof for labeled openings names those, and no other.
    let label = needed.iter().find(|it| it.proof.id == "label").unwrap();
    assert!(label.at.iter().all(|of| matches!(of, EntityRef::Opening(_))) && !label.at.is_empty());
}

/// What only some owners ask for is not in the package of another.
#[test]
fn an_owner_who_asks_for_less_gets_less() {
    let mut files = texts();
    let asked = "proofs = [\"domestic content\", \"finish sample\", \"installer qualification\", \"single source\"]\n";
    replace(&mut files, PROFILES, asked, "");
    let (pdfs, _) = packages(&files);
    let pdf = &pdfs[OPERATORS];
    assert!(pdf.named("proof.origin").is_empty() && !pdf.named("proof.label").is_empty());
    assert!(!package(OPERATORS).named("proof.origin").is_empty());
}

/// Rows 20 and 22: a register with planned days and time for the review (VA 01 33 23, 1.4; UFGS 01 33 00, read).
#[test]
fn the_register_has_days_for_the_review() {
    let text = demo().pdf(Paper::Register).text();
    assert!(text.contains("14\u{a0}days for each review") || text.contains("14 days for each review"), "{text}");
}

/// Row 21: what was approved is told by its revision (VA 01 33 23, 1.3, read): every page of a package names it.
#[test]
fn every_page_names_its_revision() {
    let pdf = package(OPERATORS);
    let pages = pdf.pages();
    for (at, (page, _)) in pages.iter().enumerate() {
        let shown = pdf.shown(*page);
        let foot = |words: &str| shown.iter().any(|it| it.text.contains(words));
        assert!(foot("revision A"), "page {}", at + 1);
        assert!(foot(&format!("Page {} of {}", at + 1, pages.len())), "page {} counts through the package", at + 1);
    }
}

/// The package is one file: the outline and the contents go through all bound papers, and every page that is told is true.
#[test]
fn contents_report_the_pages_of_bound_papers() {
    let pdf = package(OPERATORS);
    let rows = transmittal(pdf);
    let row = rows.iter().find(|row| row[1].starts_with("Hardware schedule")).unwrap();
    let page: usize = row[2].trim().parse().unwrap();
    let (number, _) = pdf.pages()[page - 1];
    assert!(pdf.shown(number).iter().any(|it| it.text.contains("Hardware schedule")), "page {page}");
    assert!(demo().reviewed.job().submittals[0].parts.contains(&SubmittalPart::Schedule));
}
