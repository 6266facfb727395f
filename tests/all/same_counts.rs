//! Every paper prints the same counts: openings, leaves, powered leaves, drives, headers, arms, devices, transmitters,
//! receivers, boxes, posts, signs.
//!
//! In: labeled cells of the demo's papers, read from the PDFs. Out: cells that differ. May not know: how things are
//! counted; openings are counted again from the table a person typed.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use hingewright::catalog::{Entity, Group};
use hingewright::documents::COUNTED;
use hingewright::findings::Paper;
use hingewright::pipeline::Form;
use hingewright::takeoff::EntityRef;

use crate::demo::{self, demo};
use crate::pdf_reader::Pdf;

/// What one paper prints of each count: of the whole job, and of its site where it is a site's.
#[derive(Clone, Debug, Default, PartialEq)]
struct Printed {
    job: BTreeMap<String, Vec<String>>,
    site: BTreeMap<String, Vec<String>>,
}

impl Printed {
    fn read(pdf: &Pdf) -> Printed {
        let cells = |start: &str| {
            let each = COUNTED.iter().map(|(word, _)| (*word, pdf.named(&format!("{start}{word}"))));
            each.filter(|(_, cells)| !cells.is_empty()).map(|(word, cells)| (word.to_owned(), cells)).collect()
        };
        Printed { job: cells("count."), site: cells("site-count.") }
    }
}

fn number(text: &str) -> u64 {
    text.replace(',', "").trim().parse().unwrap_or_else(|_| panic!("`{text}` is no count"))
}

/// Where papers differ from the first: a count of the job that is another or is missing, sites that do not come to it.
fn differences(papers: &BTreeMap<String, Printed>) -> Vec<String> {
    let mut differences = Vec::new();
    let asked: BTreeMap<&str, u64> = papers
        .values()
        .flat_map(|paper| &paper.job)
        .rev()
        .map(|(word, cells)| (word.as_str(), number(&cells[0])))
        .collect();
    for (word, _) in COUNTED {
        let Some(asked) = asked.get(word) else {
            differences.push(format!("{word}: on no paper"));
            continue;
        };
        for (name, paper) in papers.iter().filter(|(_, paper)| !paper.job.is_empty()) {
            match paper.job.get(word) {
                Some(cells) if cells.iter().all(|cell| number(cell) == *asked) => {}
                cells => differences.push(format!("{word}: {asked}, but {cells:?} in {name}")),
            }
        }
        let sites: Vec<&Printed> = papers.values().filter(|paper| !paper.site.is_empty()).collect();
        let sum: u64 = sites.iter().map(|paper| paper.site.get(word).map_or(0, |cells| number(&cells[0]))).sum();
        if !sites.is_empty() && sum != *asked {
            differences.push(format!("{word}: {asked}, but {sum} over the sites"));
        }
    }
    differences
}

/// What the papers of the demo print, read once for all tests.
fn printed() -> &'static BTreeMap<String, Printed> {
    static PRINTED: OnceLock<BTreeMap<String, Printed>> = OnceLock::new();
    PRINTED.get_or_init(|| {
        let papers = demo().issue.of_form(Form::Pdf).filter(|it| it.paper != Paper::Survey);
        papers.map(|it| (it.name.clone(), Printed::read(&demo().pdfs[&it.name]))).collect()
    })
}

#[test]
fn every_paper_prints_the_same_counts() {
    let papers = printed();
    assert_eq!(differences(papers), Vec::<String>::new());
    let packets = papers.iter().filter(|(name, _)| name.starts_with("packet"));
    assert_eq!(packets.filter(|(_, paper)| paper.site.len() == COUNTED.len()).count(), 3, "a packet for each site");
    for (name, paper) in papers {
        assert_eq!(paper.job.len(), COUNTED.len(), "{name} prints every count of the job");
    }
}

/// One more of anything, on any paper, is found.
#[test]
fn a_difference_on_any_paper_is_found() {
    let papers = printed();
    for (name, paper) in papers {
        for (word, cells) in &paper.job {
            let mut doctored = papers.clone();
            let more = (number(&cells[0]) + 1).to_string();
            doctored.get_mut(name).unwrap().job.insert(word.clone(), vec![more]);
            assert!(!differences(&doctored).is_empty(), "{word} of {name}");
        }
        for (word, cells) in &paper.site {
            let mut doctored = papers.clone();
            let more = (number(&cells[0]) + 1).to_string();
            doctored.get_mut(name).unwrap().site.insert(word.clone(), vec![more]);
            assert_eq!(differences(&doctored).len(), 1, "{word} of {name}");
        }
    }
    let mut lacking = papers.clone();
    lacking.get_mut("bid.pdf").unwrap().job.remove("signs");
    assert_eq!(differences(&lacking).len(), 1, "a count that a paper leaves out");
}

/// Counted from the table itself: every row is an opening, but those of alternates and the one set aside.
#[test]
fn openings_are_the_rows_of_the_table() {
    let texts = demo::texts();
    let mut rows = texts["catalog_demo/job/openings.csv"].lines();
    let head: Vec<&str> = rows.next().unwrap().split(',').collect();
    let column = |name: &str| head.iter().position(|head| *head == name).unwrap();
    let (mark, base) = (column("mark"), column("base"));
    let openings = rows.filter(|row| {
        let cells: Vec<&str> = row.split(',').collect();
        cells[base] != "false" && !texts[demo::JOB].contains(&format!("[[set_aside]]\nopening = \"{}\"", cells[mark]))
    });
    assert_eq!(number(&printed()["bid.pdf"].job["openings"][0]), openings.count() as u64);
}

/// What is bought is counted as it stands: a box for every place of one but on posts, which hold their devices
/// themselves; two signs or more for every powered leaf.
#[test]
fn boxes_are_those_that_stand_there() {
    let openings = &demo().priced.takeoff.arrangement.openings;
    let boxes = openings.iter().flat_map(|it| &it.boxes);
    let printed = &printed()["bid.pdf"].job;
    assert_eq!(number(&printed["boxes"][0]), boxes.count() as u64);
    assert!(number(&printed["signs"][0]) >= 2 * number(&printed["powered-leaves"][0]), "two signs for a powered leaf");
}

/// Every box is bought once, whatever it is fixed to; every new circuit has one breaker, every header one disconnecting means and
/// one box. Common practice, no source.
#[test]
fn nothing_that_stands_there_is_left_out_of_the_takeoff() {
    let takeoff = &demo().priced.takeoff;
    for (kind, group) in
        [(Entity::Box, Group::Box), (Entity::Circuit, Group::Breaker), (Entity::Header, Group::Disconnect)]
    {
        for of in takeoff.entities(kind) {
            let lines = takeoff.lines.iter().filter(|line| line.of == of);
            let bought = lines.filter(|line| demo().catalog.items[&*line.item].group == group).count();
            let there = matches!(of, EntityRef::Circuit(at) if takeoff.arrangement.circuits[at].existing.is_some());
            assert_eq!(bought, usize::from(!there), "{} of {}", group.word(), takeoff.name(of));
        }
    }
    // A panel's spaces are the poles of its new circuits.
    for (at, panel) in takeoff.arrangement.panels.iter().enumerate() {
        let circuits =
            takeoff.arrangement.circuits.iter().filter(|circuit| circuit.panel == at && circuit.existing.is_none());
        assert_eq!(panel.spaces, circuits.map(|circuit| circuit.poles).sum::<Option<usize>>());
    }
    let two = takeoff.arrangement.circuits.iter().filter(|circuit| circuit.poles == Some(2)).count();
    assert!(two >= 4, "{two} circuits of two poles");
}
