//! The demo's second job, which stands at revision B with revision A kept beside it: the record holds, papers and `compare` tell
//! what the story changed, and marks stand beside nothing else.
//!
//! In: the folder as it stands on the disk. Out: whatever is told that did not change, or changed and is not told. What is
//! expected was read off the two job files (`job.toml` and the copy of revision A), side by side (common practice, no source).

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::OnceLock;

use hingewright::comparison::MemberChange;
use hingewright::findings::{Files, Findings, Paper, Papers, Severity};
use hingewright::pipeline::{self, Issue};

use crate::pdf_reader::{Pdf, Shown};

const FOLDER: &str = "catalog_demo";
const COPIES: &str = "catalog_demo/revised/job.issued/A/";
const JOB: &str = "catalog_demo/revised/job.toml";

/// Every file of the demo, copies too, byte by byte.
fn bytes() -> BTreeMap<String, Vec<u8>> {
    fn gather(folder: &str, out: &mut BTreeMap<String, Vec<u8>>) {
        for entry in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).unwrap() {
            let entry = entry.unwrap();
            let path = format!("{folder}/{}", entry.file_name().to_str().unwrap());
            match entry.file_type().unwrap().is_dir() {
                true => gather(&path, out),
                false => drop(out.insert(path, std::fs::read(entry.path()).unwrap())),
            }
        }
    }
    let mut all = BTreeMap::new();
    gather(FOLDER, &mut all);
    all
}

fn files() -> Files {
    Files::new(bytes().into_iter().chain(pipeline::built_in_templates()))
}

/// The same with the catalog as it was when revision A was recorded: whatever the demo's catalog says by now, the story is the
/// job's alone.
fn with_recorded_catalog() -> Files {
    let mut all = bytes();
    let copies: Vec<(String, Vec<u8>)> = all
        .iter()
        .filter_map(|(path, bytes)| Some((path.strip_prefix(COPIES)?, bytes)))
        .filter(|(path, _)| !path.starts_with("revised/"))
        .map(|(path, bytes)| (format!("{FOLDER}/{path}"), bytes.clone()))
        .collect();
    assert!(copies.len() > 20, "the copies hold the catalog");
    all.extend(copies);
    Files::new(all.into_iter().chain(pipeline::built_in_templates()))
}

/// The job's papers, and what was found, once for all tests.
fn issued() -> &'static (Issue, Findings) {
    static ISSUED: OnceLock<(Issue, Findings)> = OnceLock::new();
    ISSUED.get_or_init(|| {
        let (issue, findings) = pipeline::issue(&with_recorded_catalog(), JOB, Papers::ALL, None);
        (issue.unwrap_or_else(|| panic!("{findings:#?}")), findings)
    })
}

fn pdf(name: &str) -> Pdf {
    Pdf::read(&issued().0.papers.iter().find(|it| it.name == name).unwrap_or_else(|| panic!("no {name}")).bytes)
}

/// Lines of a page that a mark stands beside, by the text that they begin with.
fn beside_marks(pdf: &Pdf, page: u32) -> Vec<String> {
    // A capital is so high at least, of the size of its type.
    const CAPITAL: f64 = 0.6;
    // The theme's margins of three quarters of an inch, less a little.
    const MARGIN: f64 = 52.0;
    let shown = pdf.shown(page);
    let right = pdf.dict(page).get::<[f64; 4]>("MediaBox").unwrap()[2] - MARGIN;
    let aside = |x: f64| x < MARGIN || x > right;
    // The letter of a triangle, and a bar: from above to below.
    let letters = shown.iter().filter(|it| it.text == "B" && aside(it.x)).map(|it| (it.y, it.y + CAPITAL * it.size));
    let bars = pdf.fills(page).into_iter().filter(|[low, high]| {
        let upright = high.1 - low.1 > 3.0 * (high.0 - low.0);
        upright && (high.0 < MARGIN || low.0 > right)
    });
    let bars = bars.map(|[low, high]| (low.1, high.1));
    let marks: Vec<(f64, f64)> = letters.chain(bars).collect();
    let mut lines: Vec<&Shown> = shown.iter().filter(|it| !aside(it.x)).collect();
    lines.sort_by(|one, other| (-one.y, one.x).partial_cmp(&(-other.y, other.x)).unwrap());
    lines.dedup_by_key(|it| it.y.round() as i64);
    let beside = |it: &&&Shown| marks.iter().any(|(low, high)| *low <= it.y + CAPITAL * it.size && it.y <= *high);
    let marked = lines.iter().filter(beside);
    marked.map(|it| it.text.clone()).collect()
}

#[test]
fn the_record_holds_and_nothing_is_held() {
    let (issue, findings) = pipeline::issue(&files(), JOB, Papers::ALL, None);
    let issue = issue.unwrap_or_else(|| panic!("{findings:#?}"));
    assert!(issue.held.is_empty(), "{:?}", issue.held);
    // A copy that was touched would be told as a warning, and so would anything that the job accepts without a reason.
    let left: Vec<String> = findings
        .iter()
        .filter(|it| it.code.severity != Severity::FieldVerify)
        .map(|it| format!("{}: {}", it.code.id, it.sentence()))
        .collect();
    assert_eq!(left, Vec::<String>::new());
    let copy = pipeline::recorded(&files(), JOB, Some("A")).unwrap();
    assert_eq!(copy, "catalog_demo/revised/job.issued/A/revised/job.toml");
    assert!(pipeline::recorded_before(&files(), JOB, "A").is_err(), "nothing was recorded before A");
    // It goes out as the second time of the transmittal that came back.
    assert!(issue.papers.iter().any(|it| it.paper == Paper::Submittal && it.name == "submittal-087113-1R.pdf"));
}

#[test]
fn the_list_of_revisions_reports_the_story() {
    let reported = [
        "Openings added: 107",
        "106 was 105",
        "101: device P1 distance, was 5 ft 0 in, is 7 ft 0 in; finish, was clear, is dark",
        "102: leaf 1 hand, was RH, is LH; leaf 1 hinges, was right, is left",
        "104: device P1 added; device P2 added; energy, was power assist, is low energy; operator, was assist-slim, is surf-low",
        "Addenda added: 1",
        "Paragraphs of the specification changed: 2.2.A",
        "Runs added: J-1 to 107, 104 to 104/P1, 104 to 104/P2, 107 to 107/P1, 107 to 107/P2",
        "Runs changed: 101 to 101/P1",
    ];
    assert_eq!(issued().0.changes, reported);
    let cover = pdf("schedule.pdf").named("revisions").join(" ");
    for line in reported {
        assert!(cover.contains(line), "{line}: {cover}");
    }
    assert!(cover.contains("First issue"), "{cover}");
}

#[test]
fn compare_reports_what_became_of_openings_and_runs() {
    let files = with_recorded_catalog();
    let copy = pipeline::recorded(&files, JOB, Some("A")).unwrap();
    let (compared, _) = pipeline::compare((&files, &copy), (&files, JOB));
    let reported = compared.unwrap().comparison;
    let openings = &reported.openings;
    assert_eq!((openings.added.as_slice(), openings.removed.len()), (&["107".to_owned()][..], 0));
    let [one] = openings.renumbered.as_slice() else { panic!("{openings:#?}") };
    assert_eq!((one.before.as_str(), one.after.as_str(), one.changes.len()), ("105", "106", 0));
    let changed: Vec<&str> = openings.changed.iter().map(|it| it.after.as_str()).collect();
    assert_eq!((changed, openings.unchanged), (vec!["101", "102", "104"], 1));
    // Of twenty runs, those of 105 go by its other name and are the same.
    let runs = reported.members.iter().filter(|it| it.part == "run");
    let runs: BTreeSet<(&str, bool)> = runs.map(|it| (it.name.as_str(), it.became == MemberChange::Added)).collect();
    let added = ["J-1 to 107", "104 to 104/P1", "104 to 104/P2", "107 to 107/P1", "107 to 107/P2"];
    let wanted = added.into_iter().map(|it| (it, true)).chain([("101 to 101/P1", false)]);
    assert_eq!(runs, wanted.collect());
}

#[test]
fn marks_stand_beside_what_changed_and_beside_nothing_else() {
    // Others' work: the supply end goes with the hand (102), the rated volts with the operator (104), the backing with the
    // height of its header (104); new names (106) and a new opening (107) are new lines. 101's post is as high as it was.
    let needs = pdf("needs.pdf");
    let pages = needs.pages();
    let electrician = beside_marks(&needs, pages[1].0);
    let boxes = ["104/P1", "104/P2", "106/P1", "106/P2", "107/P1", "107/P2"];
    let headers = ["102, header 1", "104, header 1", "106, header 1", "107, header 1"];
    assert_eq!(electrician, [&headers[..], &boxes[..]].concat());
    let general = beside_marks(&needs, pages[2].0);
    let leaves = ["102, leaf 1", "106, leaf 1", "107, leaf 1"];
    assert_eq!(general, [&headers[1..], &leaves[..]].concat());

    // Sheets of one opening: 103 is as it was; of 106 only the name is another.
    let drawings = pdf("drawings.pdf");
    let marked_on = |title: &str| {
        let pages = drawings.pages();
        let page = pages
            .iter()
            .map(|it| it.0)
            .find(|page| drawings.shown(*page).iter().any(|it| it.text == title && it.size > 12.0));
        beside_marks(&drawings, page.unwrap_or_else(|| panic!("no sheet {title}")))
    };
    assert_eq!(marked_on("103, Corridor 110 to Rehearsal hall"), Vec::<String>::new());
    assert_eq!(marked_on("106, Corridor 110 to Library"), ["106, Corridor 110 to Library"]);
    for changed in ["101, Garden court to Foyer", "102, Foyer to Corridor 110", "104, Corridor 110 to Practice rooms"] {
        assert!(!marked_on(changed).is_empty(), "{changed}");
    }
    let packet = pdf("packet-music.pdf");
    let mut sheets = 0;
    for (number, _) in packet.pages() {
        let Some(head) = packet.shown(number).iter().find(|it| it.size > 10.0 && it.y > 700.0) else { continue };
        if head.text == "103" {
            sheets += 1;
            assert_eq!(beside_marks(&packet, number), Vec::<String>::new());
        }
    }
    assert_eq!(sheets, 2, "both sheets of 103");
}
