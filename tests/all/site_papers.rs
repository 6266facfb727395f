//! The papers that leave for the site, of the worked jobs and of the demo: hardware schedule, survey form, install packets.
//!
//! In: job folders as they stand in the tree, and the templates. Out: papers read back from their PDF.
//! With HINGEWRIGHT_PAPERS set to a folder the PDFs are kept there, to be looked at.

use std::collections::BTreeMap;
use std::path::Path;

use hingewright::documents::{COUNTED, MOVES};
use hingewright::findings::{Files, Findings, Paper, Papers, Subject};
use hingewright::pipeline::{Form, issue};

use crate::pdf_reader::Pdf;

/// Every file below a folder, by its path from the root of the tree.
fn below(folder: &str) -> Vec<(String, Vec<u8>)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut files = Vec::new();
    let mut open = vec![root.join(folder)];
    while let Some(at) = open.pop() {
        for entry in std::fs::read_dir(&at).unwrap_or_else(|fault| panic!("{}: {fault}", at.display())) {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
                files.push((name, std::fs::read(&path).unwrap()));
            }
        }
    }
    files
}

/// The papers of a job by their file names, and what was found.
fn papers(files: Vec<(String, Vec<u8>)>, job: &str) -> (BTreeMap<String, Vec<u8>>, Findings) {
    let files = Files::new(files.into_iter().chain(below("templates")));
    let wanted = Papers::of(&[Paper::Schedule, Paper::Survey, Paper::Packet]);
    let (made, findings) = issue(&files, job, wanted, Some("templates"));
    let made = made.unwrap_or_else(|| panic!("{job}: {:#?}", findings.iter().collect::<Vec<_>>()));
    assert!(made.held.is_empty(), "{job} holds {:?}: {:#?}", made.held, findings.iter().collect::<Vec<_>>());
    let papers = made.of_form(Form::Pdf).map(|paper| (paper.name.clone(), paper.bytes.clone())).collect();
    keep(job, &papers);
    (papers, findings)
}

fn keep(job: &str, papers: &BTreeMap<String, Vec<u8>>) {
    let Ok(folder) = std::env::var("HINGEWRIGHT_PAPERS") else { return };
    let job = job.trim_end_matches("/job.toml").trim_end_matches("/job").rsplit('/').next().unwrap();
    std::fs::create_dir_all(&folder).unwrap();
    for (name, bytes) in papers {
        std::fs::write(Path::new(&folder).join(format!("{job}-{name}")), bytes).unwrap();
    }
}

/// The counts that a paper prints, by name.
fn counts(paper: &Pdf) -> BTreeMap<String, String> {
    let names = COUNTED.iter().map(|(word, _)| format!("count.{word}"));
    let each = names.map(|name| {
        let found = paper.named(&name);
        assert_eq!(found.len(), 1, "{name} stands once in a paper, not as {found:?}");
        (name, found[0].clone())
    });
    each.collect()
}

/// Papers count the same, name no money, and keep the sheets of openings to their pages.
fn check(folder: &str, job: &str) {
    let (papers, findings) = papers(below(folder), job);
    let papers: BTreeMap<String, Pdf> = papers.iter().map(|(name, bytes)| (name.clone(), Pdf::read(bytes))).collect();
    let first = counts(&papers["schedule.pdf"]);
    for (name, paper) in &papers {
        assert_eq!(counts(paper), first, "counts of {name} in {job}");
        assert!(!paper.text().contains('$'), "{name} of {job} holds money");
    }
    let packets = papers.iter().filter(|(name, _)| name.starts_with("packet-"));
    for (word, _) in COUNTED {
        let here =
            packets.clone().map(|(_, paper)| paper.named(&format!("site-count.{word}"))[0].parse::<u64>().unwrap());
        assert_eq!(here.sum::<u64>().to_string(), first[&format!("count.{word}")], "sites add up to the job's {word}");
    }
    let longer: Vec<&str> = findings
        .iter()
        .filter(|it| it.code.id == "sheets-overfull" && it.found.contains("still too long"))
        .map(|it| it.found.as_str())
        .collect();
    assert!(longer.is_empty(), "{longer:#?}");
    check_totals(&papers["schedule.pdf"], job);
}

/// Every row of the schedule's totals: in sets and outside of them are the takeoff, to the printed hundredth.
fn check_totals(schedule: &Pdf, job: &str) {
    let tables = schedule.tables();
    let table = tables.iter().find(|table| table[0].last().is_some_and(|head| head == "Takeoff")).expect("totals");
    let number = |text: &str| text.replace(',', "").parse::<f64>().unwrap_or(0.0);
    assert!(table.len() > 1, "{job} has totals");
    for row in &table[1..] {
        let [.., in_sets, elsewhere, takeoff] = row.as_slice() else { panic!("{row:?}") };
        assert!((number(in_sets) + number(elsewhere) - number(takeoff)).abs() < 0.015, "{job}: {row:?}");
    }
}

#[test]
fn papers_of_the_worked_jobs_are_whole_and_count_the_same() {
    for job in ["single", "single-mixed", "pair", "pair-existing", "egress", "egress-circuits"] {
        let folder = format!("tests/jobs/{job}");
        check(&folder, &format!("{folder}/job.toml"));
    }
}

#[test]
fn papers_of_the_demo_are_whole_and_count_the_same() {
    check("catalog_demo", "catalog_demo/job/job.toml");
}

#[test]
fn a_new_item_and_task_reach_schedule_and_packet_by_toml_alone() {
    let mut files = below("tests/jobs/single");
    let mut add = |path: &str, text: &str| {
        let (_, bytes) = files.iter_mut().find(|(name, _)| name.ends_with(path)).expect(path);
        bytes.extend_from_slice(text.as_bytes());
    };
    add(
        "catalog/items.toml",
        r#"
[item.lamp]
name = "Signal lamp over the header"
group = "trim"
set = "operate"
unit = "each"
price = "12.34"
priced = 2026-10-05
supplier = "harrow"
rule = [{ per = "header" }]
"#,
    );
    add(
        "catalog/tasks.toml",
        r#"
[task.fit-lamp]
name = "Fit the signal lamp"
visit = "set"
phase = "finish"
order = 90
trade = "installer"
hours = "0.2 h"
source = "invented for this test"
steps = ["Lamp centered over the header."]
tools = ["centering gauge"]
cautions = ["Lamp is hot after an hour."]
hold = "HOLD 9: lamp seen lit."
rule = [{ per = "header" }]
"#,
    );
    let (papers, _) = papers(files, "tests/jobs/single/job.toml");
    let text = |name: &str| Pdf::read(&papers[name]).text();
    assert!(text("schedule.pdf").contains("Signal lamp over the header"));
    let packet = papers.keys().find(|name| name.starts_with("packet-")).expect("a packet");
    let packet = text(packet);
    for words in [
        "Fit the signal lamp",
        "Lamp centered over the header.",
        "centering gauge",
        "Lamp is hot after an hour.",
        "HOLD 9: lamp seen lit.",
    ] {
        assert!(packet.contains(words), "the packet lacks {words:?}");
    }
}

/// The job of one opening, not surveyed, with so many devices more on runs of their own, and names and notes so long.
fn crowded(devices: usize, long: usize) -> Vec<(String, Vec<u8>)> {
    let mut files = below("tests/jobs/single");
    let (_, bytes) = files.iter_mut().find(|(name, _)| name.ends_with("single/job.toml")).expect("the job");
    let text = String::from_utf8(bytes.clone()).unwrap();
    let name = |word: &str| {
        format!("{word} {}", "of the long east wing ".repeat(10)).chars().take(long.max(9)).collect::<String>()
    };
    let (outside, inside) = (name("Vestibule"), name("Waiting"));
    let (opening, rest) = text.split_once("# Five quarter bends").expect("runs come after the devices");
    let (runs, _survey) = rest.split_once("[[survey]]").expect("the survey comes last");
    let (runs, others) = runs.split_once("[[unit_price]]").expect("unit prices come after the runs");
    let mut out = opening
        .replace("\"Vestibule\"", &format!("\"{outside}\""))
        .replace("\"Waiting\"", &format!("\"{inside}\""))
        .replace("place = \"Corridor closet\"", &format!("place = \"{}\"", name("Closet")))
        .replace("mark = \"12\"", &format!("mark = \"12\"\nnote = \"{}\"", name("Note")));
    for at in 0..devices {
        let side = if at % 2 == 0 { "outside" } else { "inside" };
        out += &format!(
            "\n[[opening.device]]\nid = \"X{at}\"\nkind = \"push plate\"\nside = \"{side}\"\nlink = \"wired\"\n\
             mount = \"wall\"\nheight = \"{} in\"\ndistance = \"{} in\"\nlive = \"always\"\n",
            30 + at % 18,
            20 + at
        );
    }
    out += &format!("\n#{runs}");
    for at in 0..devices {
        out += &format!(
            "\n[[run]]\nfrom = \"12\"\nto = \"12/X{at}\"\nkind = \"EMT\"\nsize = \"1/2\"\nlength = \"{} ft\"\n\
             bends = [90, 45, 90]\nclass = \"low\"\n",
            9 + at
        );
    }
    *bytes = format!("{out}\n[[unit_price]]{others}").into_bytes();
    files
}

/// What moved is known only when the packet is made, and is accepted like any other warning; the acceptance is not idle.
#[test]
fn sheets_that_overflow_can_be_accepted_with_a_reason() {
    let mut files = crowded(60, 200);
    let named = |findings: &Findings, code: &str| findings.iter().filter(|it| it.code.id == code).count();
    let (_, before) = papers(files.clone(), "tests/jobs/single/job.toml");
    assert_eq!(named(&before, "sheets-overfull"), 1);
    let (_, bytes) = files.iter_mut().find(|(name, _)| name.ends_with("single/job.toml")).unwrap();
    let accept =
        b"\n[[accept]]\ncode = \"sheets-overfull\"\nabout = \"clinic\"\nreason = \"the crew reads the site sheet first\"\n";
    bytes.extend_from_slice(accept);
    let (_, after) = papers(files.clone(), "tests/jobs/single/job.toml");
    assert_eq!(named(&after, "sheets-overfull"), 0, "accepted");
    let codes = |findings: &Findings| findings.iter().map(|it| it.code.id.to_owned()).collect::<Vec<_>>();
    let left = codes(&before).into_iter().filter(|id| id != "sheets-overfull").collect::<Vec<_>>();
    assert_eq!(codes(&after), left, "nothing else is said of it");
    // Where everything fits, the same acceptance is idle, and that is said once every paper has had its say.
    let mut sparse = below("tests/jobs/single");
    sparse.iter_mut().find(|(name, _)| name.ends_with("single/job.toml")).unwrap().1.extend_from_slice(accept);
    let files = Files::new(sparse.into_iter().chain(below("templates")));
    let (_, idle) = issue(&files, "tests/jobs/single/job.toml", Papers::ALL, Some("templates"));
    assert!(idle.iter().any(|it| it.subject == Subject::Entry("accept", "sheets-overfull".to_owned())), "{idle:?}");
}

/// What our packet promises, no source: two sheets an opening whatever a job holds, moved in the stated order, nothing lost.
#[test]
fn an_opening_keeps_to_its_sheets_whatever_it_holds() {
    let mut most = 0;
    for (devices, long) in [(0, 9), (8, 60), (60, 200), (160, 390)] {
        let (papers, findings) = papers(crowded(devices, long), "tests/jobs/single/job.toml");
        let packet = Pdf::read(&papers["packet-clinic.pdf"]).text();
        assert!(packet.contains("NOT RELEASED"), "nobody has surveyed");
        for at in 0..devices {
            assert!(packet.contains(&format!("X{at}")), "device X{at} of {devices} is lost");
        }
        let found = findings.iter().find(|it| it.code.id == "sheets-overfull").map_or("", |it| &it.found);
        assert!(!found.contains("still too long"), "{devices} devices, names of {long}: {found}");
        let moved: Vec<&str> = found.split("; ").filter_map(|part| part.strip_suffix(" of 12")).collect();
        assert_eq!(moved, MOVES[..moved.len()], "in the stated order");
        assert!(moved.len() >= most, "what holds more moves no less");
        most = moved.len();
    }
    assert!(most > 2, "the last of them is crowded enough to try several moves");
}
