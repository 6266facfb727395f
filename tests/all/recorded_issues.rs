//! Issues kept beside a job: what is recorded, what is refused, what opens again, and what a later issue marks.
//!
//! In: a small sound job, and the demo, with a few words changed. Out: whatever is kept, refused or marked wrongly. What must be
//! marked follows from the words that were changed (common practice, no source).

use std::collections::BTreeMap;

use hingewright::findings::{Files, Findings, Paper, Papers};
use hingewright::issues;
use hingewright::pipeline::{self, Form, Issue, Recording};
use sha2::{Digest, Sha256};

use crate::demo::{self, Texts, replace};
use crate::pdf_reader::Pdf;

const FOLDER: &str = "jobs/alder";
const JOB: &str = "jobs/alder/job.toml";
const RECORD: &str = "jobs/alder/job.issued.toml";
/// Where the command is said to run.
const HERE: &str = "/work";
const GOES_OUT: [Paper; 5] = [Paper::Schedule, Paper::Packet, Paper::Needs, Paper::Register, Paper::Drawings];

/// A small job with a catalog beside its folder, of a revision.
fn small(revision: &str) -> Texts {
    let job = include_str!("../cases/nothing-wrong/job.toml");
    let second = "\n[[opening]]\nmark = \"102\"\nkind = \"plain\"\nleaf = { hinges = \"right\" }\n";
    let job =
        job.replace("../_catalog", "../catalog").replace("date = ", &format!("revision = \"{revision}\"\ndate = "));
    let catalog = include_str!("../cases/_catalog/catalog.toml").to_owned();
    Texts::from([(JOB.to_owned(), job + second), ("jobs/catalog/catalog.toml".to_owned(), catalog)])
}

fn issued(texts: &Texts, job: &str, papers: &[Paper]) -> (Issue, Findings) {
    let (issue, findings) = pipeline::issue(&demo::snapshot(texts), job, Papers::of(papers), None);
    (issue.unwrap_or_else(|| panic!("{findings:#?}")), findings)
}

/// The files with an issue kept, and what it was.
fn kept(texts: &Texts, job: &str, papers: &[Paper]) -> (Texts, Issue) {
    let files = demo::snapshot(texts);
    let recording = Recording::begin(&files, job, HERE).unwrap_or_else(|found| panic!("{found:#?}"));
    let (issue, _) = issued(texts, job, papers);
    let kept = recording.keep(&issue);
    let mut all = texts.clone();
    if let Some(copies) = kept.copies {
        let text = |bytes| String::from_utf8(bytes).unwrap();
        // Sheets of others come with the snapshot of whatever has the demo's catalog.
        let texts = copies.files.into_iter().filter(|(path, _)| !path.ends_with(".pdf"));
        all.extend(texts.map(|(path, bytes)| (format!("{}/{path}", copies.folder), text(bytes))));
    }
    all.extend(kept.record);
    (all, issue)
}

fn codes(findings: &Findings) -> Vec<&'static str> {
    findings.iter().map(|it| it.code.id).collect()
}

fn refused(texts: &Texts) -> Findings {
    Recording::begin(&demo::snapshot(texts), JOB, HERE).expect_err("it must be refused")
}

fn record_of(files: &Files) -> issues::Record {
    let mut reader = hingewright::input::Reader::new(files);
    let record = issues::read(&mut reader, files.find(RECORD).expect("a record"));
    assert!(reader.into_findings().is_empty());
    record
}

#[test]
fn an_issue_is_kept_whole_and_opens_again() {
    let (texts, issue) = kept(&small("A"), JOB, &[Paper::Needs, Paper::Schedule]);
    let files = demo::snapshot(&texts);
    let record = record_of(&files);
    let [one] = record.issues.as_slice() else { panic!("{record:#?}") };
    let loaded = pipeline::load(&files, JOB).unwrap();
    assert_eq!(
        (one.revision.as_str(), &one.fingerprint, &one.values),
        ("A", &loaded.state.fingerprint, &loaded.state.values)
    );
    let digests: Vec<(String, String)> = one.papers.iter().map(|it| (it.file.clone(), it.sha256.clone())).collect();
    let expected = issue.papers.iter().map(|it| {
        let hex: String = Sha256::digest(&it.bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        (it.name.clone(), hex)
    });
    assert_eq!(digests, expected.collect::<Vec<_>>());
    // Copies stand to each other as the files stood.
    let copies: Vec<&String> = texts.keys().filter(|path| path.contains("job.issued/")).collect();
    assert_eq!(copies, ["jobs/alder/job.issued/A/alder/job.toml", "jobs/alder/job.issued/A/catalog/catalog.toml"]);
    let copy = pipeline::recorded(&files, JOB, Some("A")).unwrap();
    assert_eq!(pipeline::load(&files, &copy).unwrap().state.fingerprint, loaded.state.fingerprint);
    assert_eq!(copy, format!("{FOLDER}/{}", one.job));
    // The same text from the same record.
    assert_eq!(issues::text(&record), texts[RECORD]);
}

#[test]
fn the_same_again_changes_nothing_and_another_paper_is_added() {
    let (texts, _) = kept(&small("A"), JOB, &[Paper::Needs]);
    assert_eq!(kept(&texts, JOB, &[Paper::Needs]).0, texts);
    let (more, _) = kept(&texts, JOB, &[Paper::Register]);
    let names = |texts: &Texts| -> Vec<String> {
        let record = record_of(&demo::snapshot(texts));
        record.issues.iter().flat_map(|it| &it.papers).map(|it| it.file.clone()).collect()
    };
    assert_eq!(
        (names(&texts), names(&more)),
        (vec!["needs.pdf".into()], vec!["needs.pdf".into(), "register.pdf".into()])
    );
    // What was recorded is no value of the job.
    let fingerprint = |texts: &Texts| pipeline::load(&demo::snapshot(texts), JOB).unwrap().state.fingerprint;
    assert_eq!(fingerprint(&small("A")), fingerprint(&more));
}

/// The outside moves to the other room, with hinges and swing left as they are: the leaf is mirrored, and so it is where the hinges change.
/// A leaf that is described from its other side, or one of another mark, hangs as it did.
#[test]
fn a_hand_that_changes_is_found_with_both_places() {
    let (recorded, _) = kept(&small("A"), JOB, &[Paper::Needs]);
    let found = |opening: &str| {
        let mut texts = recorded.clone();
        replace(&mut texts, JOB, "revision = \"A\"", "revision = \"B\"");
        replace(&mut texts, JOB, "mark = \"101\"\nkind = \"plain\"", opening);
        let (_, findings) = issued(&texts, JOB, &[Paper::Needs]);
        let of_hand: Vec<_> = findings.iter().filter(|it| it.code.id == "hand-changed").cloned().collect();
        assert!(of_hand.iter().all(|it| it.places.len() == 2 && it.places[0].place != it.places[1].place));
        of_hand.iter().map(|it| it.sentence()).collect::<Vec<String>>()
    };
    let says = |hand: &str| format!("the hand changes from LH to {hand} seen from Street, against the recorded issue");
    let with = |more: &str| format!("mark = \"101\"\nkind = \"plain\"\n{more}");
    assert_eq!(found(&with("")), Vec::<String>::new());
    assert_eq!(found(&with("note = \"Mind the step\"")), Vec::<String>::new());
    assert_eq!(found(&with("outside = \"Lobby\"")), [says("RHR")]);
    assert_eq!(found(&with("leaf = { hinges = \"right\" }")), [says("RH")]);
    let turned = "outside = \"Lobby\"\nleaf = { hinges = \"right\", swing = \"toward\" }";
    assert_eq!(found(&with(turned)), Vec::<String>::new());
    assert_eq!(found(&with("outside = \"Lobby\"").replace("101", "101A")), [says("RHR")]);
}

/// A snapshot with another file under the name of the header's sheet.
fn with_sheet(texts: &Texts, bytes: &[u8]) -> Files {
    let files = demo::snapshot(texts);
    let own = files.ids().map(|file| (files.path(file).to_owned(), files.bytes(file).to_owned()));
    let sheet = ("jobs/catalog/sheets/header.pdf".to_owned(), bytes.to_owned());
    Files::new(own.chain([sheet]).collect::<Vec<_>>())
}

#[test]
fn another_sheet_under_the_same_name_is_another_issue() {
    let sheets: Vec<Vec<u8>> = demo::sheets().into_iter().map(|(_, bytes)| bytes).take(2).collect();
    let [first, second] = sheets.as_slice() else { panic!("two sheets") };
    let texts = |revision: &str| {
        let mut texts = small(revision);
        let named = "name = \"Header\"\nsheet = \"sheets/header.pdf\"\n";
        replace(&mut texts, "jobs/catalog/catalog.toml", "name = \"Header\"\n", named);
        texts
    };
    let fingerprint = |files: &Files| pipeline::load(files, JOB).unwrap().state.fingerprint;
    let (one, other) = (with_sheet(&texts("A"), first), with_sheet(&texts("A"), second));
    assert_eq!(fingerprint(&one), fingerprint(&with_sheet(&texts("A"), first)));
    assert_ne!(fingerprint(&one), fingerprint(&other));
    // Compared, it is the sheet that differs and nothing else.
    let (compared, _) = pipeline::compare((&one, JOB), (&other, JOB));
    let changes = compared.unwrap().comparison.elsewhere;
    let fields: Vec<&str> = changes.iter().map(|it| it.field.as_str()).collect();
    assert_eq!(fields, ["enclosed file sheets/header.pdf"]);
    // Kept under A with the first; with the second A is taken, and B says what changed.
    let recording = Recording::begin(&one, JOB, HERE).unwrap();
    let needs = |files: &Files| pipeline::issue(files, JOB, Papers::of(&[Paper::Needs]), None).0.unwrap();
    let kept = recording.keep(&needs(&one));
    let after = |revision: &str, bytes: &[u8]| {
        let now = with_sheet(&texts(revision), bytes);
        let own = now.ids().map(|file| (now.path(file).to_owned(), now.bytes(file).to_owned()));
        let copies = kept.copies.as_ref().unwrap();
        let copied = copies.files.iter().map(|(path, bytes)| (format!("{}/{path}", copies.folder), bytes.clone()));
        let record = kept.record.clone().map(|(path, text)| (path, text.into_bytes()));
        Files::new(own.chain(copied).chain(record).collect::<Vec<_>>())
    };
    assert!(Recording::begin(&after("A", first), JOB, HERE).is_ok());
    let taken = Recording::begin(&after("A", second), JOB, HERE).unwrap_err();
    assert_eq!(codes(&taken), ["revision-taken"]);
    assert_eq!(needs(&after("B", second)).changes, ["Enclosed: sheets/header.pdf"]);
    assert!(needs(&after("B", first)).changes.is_empty());
}

#[test]
fn what_cannot_be_recorded_is_reported_with_what_to_type() {
    let mut nameless = small("A");
    replace(&mut nameless, JOB, "revision = \"A\"\n", "");
    assert_eq!(codes(&refused(&nameless)), ["no-revision"]);

    let (mut changed, _) = kept(&small("A"), JOB, &[Paper::Needs]);
    replace(&mut changed, JOB, "stopped_by = \"wall stop\"", "stopped_by = \"drive\"");
    let found = refused(&changed);
    assert_eq!(codes(&found), ["revision-taken"]);
    let remedy = found.iter().next().and_then(|it| it.remedy.clone()).unwrap();
    assert_eq!((remedy.text.as_str(), remedy.at.is_some()), ("\"B\"", true));
    // Whoever only looks at it is warned.
    let files = demo::snapshot(&changed);
    let warned = |files: &Files| codes(&pipeline::check(files, JOB)).contains(&"revision-changed");
    assert!(warned(&files) && !warned(&demo::snapshot(&small("A"))));
    // What was sent and came back goes on after the issue.
    let (mut sent, _) = kept(&small("A"), JOB, &[Paper::Needs]);
    sent.get_mut(JOB)
        .unwrap()
        .push_str("\n[[transmittal]]\nsubmittal = \"schedule\"\nsection = \"08 71 13\"\nnumber = \"3\"\n");
    assert!(!warned(&demo::snapshot(&sent)), "a transmittal is no other value");

    // A catalog that is named from the root is not among the copies, which would open another one.
    let mut outside = small("A");
    replace(&mut outside, JOB, "../catalog", "/elsewhere/jobs/catalog");
    let catalog = outside.remove("jobs/catalog/catalog.toml").unwrap();
    outside.insert("/elsewhere/jobs/catalog/catalog.toml".to_owned(), catalog);
    assert_eq!(codes(&refused(&outside)), ["not-copied"]);
}

#[test]
fn recorded_issues_are_found_by_revision_and_by_order() {
    let (mut texts, _) = kept(&small("A"), JOB, &[Paper::Needs]);
    replace(&mut texts, JOB, "revision = \"A\"", "revision = \"B\"");
    let (mut texts, _) = kept(&texts, JOB, &[Paper::Needs]);
    replace(&mut texts, JOB, "revision = \"B\"", "revision = \"C\"");
    let files = demo::snapshot(&texts);
    let copy = |revision: &str| format!("{FOLDER}/job.issued/{revision}/alder/job.toml");
    assert_eq!(pipeline::recorded(&files, JOB, None).ok(), Some(copy("B")));
    assert_eq!(pipeline::recorded(&files, JOB, Some("A")).ok(), Some(copy("A")));
    assert_eq!(pipeline::recorded_before(&files, JOB, "B").ok(), Some(copy("A")));
    assert_eq!(pipeline::earlier_copy(&files, JOB), Some(copy("B")));
    let unknown = pipeline::recorded(&files, JOB, Some("X")).unwrap_err();
    assert_eq!(codes(&unknown), ["not-recorded"]);
    assert!(unknown.iter().next().unwrap().remedy.as_ref().unwrap().text.contains("A, B"));
    assert_eq!(codes(&pipeline::recorded_before(&files, JOB, "A").unwrap_err()), ["not-recorded"]);
}

/// Marked pages of each paper.
fn marked(issue: &Issue) -> BTreeMap<&str, &[usize]> {
    issue
        .papers
        .iter()
        .filter(|it| !it.revised.is_empty())
        .map(|it| (it.name.as_str(), it.revised.as_slice()))
        .collect()
}

#[test]
fn a_later_issue_marks_what_changed_and_nothing_else() {
    let (recorded, _) = kept(&small("A"), JOB, &GOES_OUT);
    let mut same = recorded.clone();
    // Another letter and another day are no change.
    replace(&mut same, JOB, "revision = \"A\"\ndate = 2026-12-08", "revision = \"B\"\ndate = 2026-12-18");
    let (unchanged, found) = issued(&same, JOB, &GOES_OUT);
    assert_eq!(marked(&unchanged), BTreeMap::new(), "{found:#?}");

    let mut later = same.clone();
    replace(&mut later, JOB, "leaf = { hinges = \"right\" }", "leaf = { hinges = \"right\", weight = \"160 lb\" }");
    let (revised, _) = issued(&later, JOB, &[&GOES_OUT[..], &[Paper::Survey, Paper::Recap]].concat());
    let marks = marked(&revised);
    assert!(marks.contains_key("packet-main.pdf"), "{marks:?}");
    assert!(!marks.keys().any(|name| name.starts_with("survey") || name.starts_with("recap")), "{marks:?}");
    assert_eq!(revised.changes, ["102: leaf 1 weight, was 150 lb, is 160 lb"]);
    // The phone has the marks in words.
    let phone = revised.papers.iter().find(|it| it.name == "packet-main.html").unwrap();
    let text = String::from_utf8_lossy(&phone.bytes);
    let count = text.matches("aria-label=\"changed in revision B\"").count();
    assert!(count > 0, "no mark on the phone");
    let again = issued(&later, JOB, &[Paper::Packet]).0;
    assert_eq!(again.papers[1].bytes, phone.bytes, "the same input, the same bytes");

    // Copies that somebody changed are not taken for what was issued.
    let mut touched = later.clone();
    let copy = touched.get_mut(&format!("{FOLDER}/job.issued/A/alder/job.toml")).unwrap();
    *copy = copy.replace("150 lb", "151 lb");
    let mut gone = later.clone();
    gone.retain(|path, _| !path.contains("job.issued/"));
    for texts in [touched, gone] {
        let (unmarked, found) = issued(&texts, JOB, &[Paper::Needs, Paper::Packet]);
        assert!(codes(&found).contains(&"copy-not-there"), "{found:#?}");
        assert_eq!(marked(&unmarked), BTreeMap::new());
    }
}

/// The demo with one opening hung the other way: its sheets are marked, those of other sites are not, and no paper is longer
/// for it but by the list of revisions.
#[test]
fn the_demo_revised_marks_the_sheets_of_the_opening() {
    let papers = [Paper::Schedule, Paper::Packet, Paper::Drawings];
    let (mut texts, first) = kept(&demo::texts(), demo::JOB, &papers);
    replace(&mut texts, demo::JOB, "\nrevision = \"A\"\nunits", "\nrevision = \"B\"\nunits");
    let openings = "catalog_demo/job/openings.csv";
    replace(
        &mut texts,
        openings,
        "Washroom 211,Corridor 210,,,right,toward,RHR",
        "Washroom 211,Corridor 210,,,left,toward,LHR",
    );
    let (second, _) = issued(&texts, demo::JOB, &papers);
    let changed = "H106: leaf 1 hand, was RHR, is LHR; leaf 1 hinges, was right, is left";
    assert_eq!(second.changes, [changed]);
    let marks = marked(&second);
    let names: Vec<&str> = marks.keys().copied().collect();
    assert_eq!(names, ["drawings.pdf", "packet-hall.pdf", "schedule.pdf"]);
    let pdf = |issue: &Issue, name: &str| Pdf::read(&issue.papers.iter().find(|it| it.name == name).unwrap().bytes);
    // What is marked on pages is marked in the file for a browser too, on sheets that speak of the opening.
    for paper in second.of_form(Form::Html) {
        let text = String::from_utf8_lossy(&paper.bytes);
        let sheets: Vec<&str> = text.split("<section ").filter(|it| it.contains("changed in revision B")).collect();
        let on_pages = marks.contains_key(paper.name.replace(".html", ".pdf").as_str());
        assert_eq!(!sheets.is_empty(), on_pages, "{}", paper.name);
        assert!(sheets.iter().all(|it| it.contains("H106")), "{}", paper.name);
    }
    for name in ["drawings.pdf", "packet-hall.pdf", "packet-clinic.pdf", "packet-ferry.pdf"] {
        assert_eq!(pdf(&first, name).pages().len(), pdf(&second, name).pages().len(), "{name}");
    }
    for (name, pages) in &marks {
        let pdf = pdf(&second, name);
        for page in pages.iter().filter(|_| *name != "schedule.pdf") {
            let (number, _) = pdf.pages()[page - 1];
            let text: String = pdf.shown(number).iter().map(|it| it.text.as_str()).collect();
            assert!(text.contains("H106"), "{name} page {page} is marked and does not speak of H106");
        }
    }
    let cover = pdf(&second, "schedule.pdf").text();
    assert!(cover.contains("First issue") && cover.contains("H106: leaf 1 hand, was RHR, is LHR"));
}
