//! Input that is too much, or the same fault over and over: told in few words, before it costs memory or time.
//!
//! In: the demo with other files in the place of its own. Out: what is told of them. May not know: how anything is read.

use std::collections::BTreeSet;

use hingewright::findings::{Files, Findings, Paper, Papers, Severity, as_json, as_text, tally};
use hingewright::pipeline;

use crate::demo::{self, JOB};

const OPENINGS: &str = "catalog_demo/job/openings.csv";

/// The demo with other bytes in the place of a file.
fn with(path: &str, bytes: Vec<u8>) -> Files {
    let files = demo::snapshot(&demo::texts());
    let own = files.ids().map(|file| (files.path(file).to_owned(), files.bytes(file).to_owned()));
    Files::new(own.chain([(path.to_owned(), bytes)]))
}

/// What reading finds.
fn read(files: &Files) -> Findings {
    pipeline::load(files, JOB).expect("the demo has a job file").findings.sorted()
}

fn errors(findings: &Findings) -> Vec<&'static str> {
    findings.iter().filter(|it| it.code.severity == Severity::Error).map(|it| it.code.id).collect()
}

/// How many findings of a code there are, told or not.
fn counted(findings: &Findings, code: &str) -> usize {
    findings.iter().filter(|it| it.code.id == code).map(|it| 1 + it.more).sum()
}

/// The table of openings as a person types it.
fn openings() -> String {
    demo::texts()[OPENINGS].clone()
}

#[test]
fn a_workbook_as_openings_is_one_finding() {
    // The beginning of a ZIP file (PKWARE's application note, 4.3.7), and bytes that no text holds.
    let files = with(OPENINGS, [b"PK\x03\x04\x14\0\x06\0\x08\0".as_slice(), &[0x81, 0xff, 0xfe].repeat(300)].concat());
    let findings = pipeline::check(&files, JOB);
    assert_eq!(errors(&findings), ["not-utf8"]);
    let reported: BTreeSet<&str> = findings.iter().map(|it| it.code.id).collect();
    assert!(!reported.contains("deviation-idle") && !reported.contains("nothing-to-send"), "{reported:?}");
    let text = as_text(&findings, &files, false);
    assert!(text.contains("a workbook or another packed file") && text.contains("as CSV"), "{text}");
}

#[test]
fn the_same_broken_cell_over_and_over_is_reported_ten_times_and_counted() {
    let count = 30_000;
    let table = openings();
    let (heads, rows) = table.split_once('\n').expect("heads and rows");
    let files = with(OPENINGS, format!("{heads}{}\n{rows}", ",leaf.widht".repeat(count)).into_bytes());
    let findings = read(&files);
    assert_eq!(counted(&findings, "unknown-head"), count);
    let text = as_text(&findings, &files, false);
    assert!(text.len() < 60_000, "{} bytes", text.len());
    assert_eq!(text.matches("[unknown-head]").count(), 10);
    let tallied: usize = tally(&findings).split(' ').next().and_then(|it| it.parse().ok()).expect("a number of errors");
    assert!(tallied >= count, "{}", tally(&findings));
    let json: serde_json::Value = serde_json::from_str(&as_json(&findings, &files)).expect("JSON");
    let of_code = json.as_array().expect("a list").iter().filter(|it| it["code"] == "unknown-head");
    assert_eq!(of_code.map(|it| 1 + it["more"].as_u64().unwrap_or(0)).sum::<u64>(), count as u64);
}

#[test]
fn characters_that_cannot_be_printed_are_reported_once_a_cell_and_once_a_line() {
    let bells = "\u{7}".repeat(40_000);
    let table = openings();
    let (heads, rows) = table.split_once('\n').expect("heads and rows");
    let cell = rows.find(',').expect("cells");
    let files = with(OPENINGS, format!("{heads}\n{bells}{},{bells}{}", &rows[..cell], &rows[cell + 1..]).into_bytes());
    assert_eq!(counted(&read(&files), "control-character"), 2);
    let job = demo::texts()[JOB].replacen("[job]\n", &format!("[job]\n# {bells}\n# {bells}\n"), 1);
    let findings = read(&with(JOB, job.into_bytes()));
    assert_eq!(counted(&findings, "control-character"), 2);
    let found: Vec<&str> =
        findings.iter().filter(|it| it.code.id == "control-character").map(|it| &*it.found).collect();
    assert_eq!(found, ["U+0007, with 39999 more after it,"; 2]);
}

#[test]
fn files_that_no_one_typed_are_reported_once_and_not_read() {
    for text in ["[".repeat(10 << 20), format!("a = {}", "[".repeat(10 << 20)), "a".repeat(33 << 20)] {
        let files = Files::new([(JOB.to_owned(), text.into_bytes())]);
        assert_eq!(errors(&read(&files)).first(), Some(&"too-large"));
    }
    let files = Files::new([(JOB.to_owned(), "[\n".repeat(40_000).into_bytes())]);
    let findings = read(&files);
    assert_eq!(counted(&findings, "not-toml"), 201);
    assert!(findings.iter().any(|it| it.found == "40000 faults, of which 200 are told"));
}

#[test]
fn a_table_of_more_rows_than_any_job_has_is_reported_and_read_no_further() {
    let table = openings();
    let heads = table.lines().next().expect("heads");
    let files = with(OPENINGS, format!("{heads}\n{}", "a,b\n".repeat(100_000)).into_bytes());
    let findings = read(&files);
    let large: Vec<&str> = findings.iter().filter(|it| it.code.id == "too-large").map(|it| &*it.found).collect();
    assert_eq!(large, ["100001 rows"]);
    assert_eq!(counted(&findings, "short-row"), 19_999);
    assert!(findings.iter().count() < 5_000, "{}", findings.iter().count());
}

/// The template that asks for the page is not at fault, and not named.
#[test]
fn a_refused_sheet_is_one_finding_and_holds_its_paper() {
    let sheets = demo::sheets();
    let (path, bytes) = sheets.first().expect("the demo has sheets");
    let files = with(path, bytes[..300].to_vec());
    let (issue, findings) = pipeline::issue(&files, JOB, Papers::of(&[Paper::Submittal]), None);
    assert_eq!(issue.expect("the demo has a job").held, [Paper::Submittal]);
    assert_eq!(errors(&findings), ["enclosure-refused"]);
}
