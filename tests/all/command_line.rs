//! The program as a person runs it: what it prints, how it ends, what it leaves on the disk.
//!
//! In: words of a command line, the demo, cases of bad input. Out: exit codes, output, files. May not know: any room.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use hingewright::findings::Paper;
use serde_json::Value;
use sha2::{Digest, Sha256};

use crate::demo::{self, JOB, Texts, demo};
use crate::pdf_reader::Pdf;

/// A job that lacks a price, so that its bid is held.
const HELD: &str = "tests/cases/missing-price/job.toml";

pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

pub fn command(words: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_hingewright"));
    command.current_dir(env!("CARGO_MANIFEST_DIR")).args(words);
    command
}

pub fn run(words: &[&str]) -> Ran {
    let done = command(words).output().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("what is printed is UTF-8");
    Ran { code: done.status.code().expect("it ends by itself"), out: text(done.stdout), err: text(done.stderr) }
}

/// A folder of its own, removed at the end.
pub struct Folder(PathBuf);

impl Folder {
    pub fn new(name: &str) -> Folder {
        let root = std::env::temp_dir().join(format!("hingewright-line-{}-{name}", std::process::id()));
        let _ = std::fs::remove_dir_all(&root);
        std::fs::create_dir_all(&root).unwrap();
        Folder(root)
    }

    pub fn path(&self, inside: &str) -> PathBuf {
        self.0.join(inside)
    }

    pub fn write(&self, texts: &Texts) {
        let texts = texts.iter().map(|(path, text)| (path.clone(), text.clone().into_bytes()));
        for (path, bytes) in texts.chain(demo::sheets()) {
            let path = self.path(&path);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, bytes).unwrap();
        }
    }

    /// Issues the job of this folder into its folder `papers`.
    fn issue(&self, papers: &[&str]) -> Ran {
        let (job, out) = (self.path(JOB), self.path("papers"));
        let words = [&["issue", job.to_str().unwrap()], papers, &["--output", out.to_str().unwrap()]].concat();
        run(&words)
    }

    /// Names in a folder, folders left out.
    pub fn names(&self, inside: &str) -> BTreeSet<String> {
        let Ok(entries) = std::fs::read_dir(self.path(inside)) else { return BTreeSet::new() };
        let files = entries.map(|entry| entry.unwrap()).filter(|entry| entry.path().is_file());
        files.map(|entry| entry.file_name().to_str().unwrap().to_owned()).collect()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// An issue is kept beside the job; the same again keeps nothing more, other values are refused with nothing written, and under the
/// next revision the two are compared.
#[test]
fn an_issue_is_recorded_refused_and_compared() {
    let folder = Folder::new("issues");
    let job = include_str!("../cases/nothing-wrong/job.toml").replace("../_catalog", "catalog");
    let texts = |job: &str| {
        let catalog = include_str!("../cases/_catalog/catalog.toml").to_owned();
        folder.write(&Texts::from([
            ("job.toml".to_owned(), job.to_owned()),
            ("catalog/catalog.toml".to_owned(), catalog),
        ]));
    };
    let (path, out) = (folder.path("job.toml"), folder.path("papers"));
    let record = || {
        let words = ["issue", path.to_str().unwrap(), "needs", "--record", "--output", out.to_str().unwrap()];
        run(&words)
    };
    texts(&job);
    let nameless = record();
    assert!(nameless.code == 1 && nameless.err.contains("no-revision"), "{}", nameless.err);
    assert!(!out.exists() && folder.names("") == BTreeSet::from(["job.toml".to_owned()]), "nothing is written");

    let named = |revision: &str| job.replace("date = ", &format!("revision = \"{revision}\"\ndate = "));
    texts(&named("A").replace("width = \"3 ft", "width = \"three ft"));
    let words = ["issue", path.to_str().unwrap(), "schedule", "--record", "--output", out.to_str().unwrap()];
    let held = run(&words);
    assert!(held.code == 1 && held.out.contains("recorded nothing"), "{}{}", held.out, held.err);
    assert!(!folder.names("").contains("job.issued.toml"), "a revision under which nothing went out is free");

    texts(&named("A"));
    let first = record();
    assert!(first.code == 0 && first.out.contains("recorded in "), "{}{}", first.out, first.err);
    let names: Vec<String> = folder.names("").into_iter().collect();
    assert_eq!(names, ["job.issued.toml", "job.toml"]);
    assert_eq!(folder.names("job.issued/A").into_iter().collect::<Vec<_>>(), ["job.toml"]);
    assert_eq!(folder.names("job.issued/A/catalog").into_iter().collect::<Vec<_>>(), ["catalog.toml"]);
    let text = std::fs::read_to_string(folder.path("job.issued.toml")).unwrap();
    let again = record();
    assert!(again.code == 0 && again.out.contains("recorded before"), "{}{}", again.out, again.err);
    assert_eq!(std::fs::read_to_string(folder.path("job.issued.toml")).unwrap(), text);

    let heavier = |revision: &str| named(revision).replace("150 lb", "160 lb");
    texts(&heavier("A"));
    let refused = record();
    assert!(refused.code == 1 && refused.out.is_empty() && refused.err.contains("revision-taken"), "{}", refused.err);
    assert!(refused.err.contains("type: \"B\""), "{}", refused.err);

    texts(&heavier("B"));
    let compared = run(&["compare", path.to_str().unwrap()]);
    assert_eq!(compared.code, 0, "{}", compared.err);
    assert!(
        compared.out.starts_with("before: C-1 revision A, 2026-12-08\nafter:  C-1 revision B, 2026-12-08\n"),
        "{}",
        compared.out
    );
    assert!(compared.out.contains("leaf 1.weight: 150 lb -> 160 lb"), "{}", compared.out);
    assert_eq!(record().code, 0);
    let words = ["compare", path.to_str().unwrap(), "--from", "A", "--to", "B", "--format", "json"];
    let json: Value = serde_json::from_str(&run(&words).out).unwrap();
    assert_eq!((&json["before"]["revision"], &json["after"]["revision"]), (&"A".into(), &"B".into()));
    let to_itself = run(&["compare", path.to_str().unwrap(), "--from", "B"]);
    assert!(to_itself.out.contains("nothing differs"), "{}", to_itself.out);
    let unknown = run(&["compare", path.to_str().unwrap(), "--from", "X"]);
    assert!(unknown.code == 2 && unknown.err.contains("not-recorded"), "{}{}", unknown.out, unknown.err);

    // Copies that somebody touched are not what was issued.
    let copy = folder.path("job.issued/A/job.toml");
    let kept = std::fs::read_to_string(&copy).unwrap();
    std::fs::write(&copy, kept.replace("150 lb", "151 lb")).unwrap();
    let touched = run(&["compare", path.to_str().unwrap()]);
    std::fs::remove_file(&copy).unwrap();
    let gone = run(&["compare", path.to_str().unwrap(), "--from", "A"]);
    for (ran, fault) in [(touched, "were changed"), (gone, "are not there")] {
        assert!(ran.code == 2 && ran.out.is_empty() && ran.err.contains("copy-changed"), "{}{}", ran.out, ran.err);
        assert!(ran.err.contains(&format!("the copies of revision A {fault}")), "{}", ran.err);
    }
}

/// Places such as `catalog_demo/trades.toml:6:8` in a text, with the line that stands there.
fn places(text: &str) -> Vec<(String, String)> {
    let mut places = Vec::new();
    for word in text.split_whitespace() {
        let parts: Vec<&str> = word.split(':').collect();
        let [.., file, line, column] = parts.as_slice() else { continue };
        let (Ok(line), Ok(column)) = (line.parse::<usize>(), column.parse::<usize>()) else { continue };
        if file.ends_with(".toml") || file.ends_with(".csv") {
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(file);
            let text = std::fs::read_to_string(path).unwrap_or_else(|fault| panic!("{word}: {fault}"));
            let line = text.lines().nth(line - 1).unwrap_or_else(|| panic!("no line {word}"));
            assert!(column >= 1 && column <= line.chars().count() + 1, "no column {word}");
            places.push(((*file).to_owned(), line.to_owned()));
        }
    }
    places
}

#[test]
fn explain_names_the_place_of_everything_it_knows() {
    let bid = demo().pdf(Paper::Bid).named("bid.total").remove(0);
    // What is asked for, and what stands on a line that the answer points to.
    let asked = [
        ("F103", "F103,gangway,ferry"),
        ("plate-square", "price = \"58.00\""),
        ("dev-plate", "hours = \"0.35 h\""),
        (bid.as_str(), "rate = \"13.5 %\""),
        ("price-old", "price"),
    ];
    for (what, line) in asked {
        let ran = run(&["explain", JOB, what, "--depth", "all"]);
        assert_eq!(ran.code, 0, "{what}: {}", ran.err);
        let found = places(&ran.out);
        assert!(found.iter().any(|(_, text)| text.contains(line)), "{what} points nowhere to `{line}`: {found:#?}");
    }
    let ran = run(&["explain", JOB, bid.trim_start_matches('$'), "--depth", "all", "--format", "json"]);
    let json: Value = serde_json::from_str(&ran.out).unwrap();
    assert!(json[0]["lines"].as_array().unwrap().len() > 1_000, "the amount without its sign is the same");
}

/// What stands under a figure is left out where the screen is full, and the name that is printed beside it tells the rest.
#[test]
fn explain_fits_a_screen_and_says_how_to_go_on() {
    let bid = demo().pdf(Paper::Bid).named("bid.total").remove(0);
    let ran = run(&["explain", JOB, &bid]);
    assert!((8..=40).contains(&ran.out.lines().count()), "{}", ran.out);
    let direct = ran.out.lines().find(|line| line.trim_start().starts_with("direct cost: ")).unwrap();
    let by_name = run(&["explain", JOB, "base-bid"]);
    assert_eq!(by_name.out, ran.out, "the amount and the name are one figure");
    let cut = ran.out.lines().find(|line| line.contains(" more under `")).unwrap();
    let name = cut.split(" more under `").nth(1).unwrap().trim_end_matches('`');
    let deeper = run(&["explain", JOB, name]);
    assert_eq!(deeper.code, 0, "{name}: {}", deeper.err);
    assert!(deeper.out.lines().count() > 1, "{}", deeper.out);
    let near = run(&["explain", JOB, "base-bid", "--depth", "1"]);
    let printed = direct.trim().split(" = ").next().unwrap();
    assert!(near.out.lines().any(|line| line.trim().starts_with(printed)), "{}", near.out);
    assert!(run(&["explain", JOB, "base-bid", "--depth", "all"]).out.lines().count() > 1_000);
    // An amount of an alternate is found though the base bid has none like it.
    assert_eq!(run(&["explain", JOB, "alternate-1"]).code, 0);
}

#[test]
fn explain_of_what_is_not_there_ends_with_one() {
    for what in ["H999", "12.345"] {
        let ran = run(&["explain", JOB, what]);
        assert_eq!((ran.code, ran.out.as_str()), (1, ""), "{what}");
        assert!(ran.err.contains(&format!("`{what}` is not known here")), "{}", ran.err);
    }
}

#[test]
fn a_price_that_waits_for_an_error_says_so() {
    let ran = run(&["explain", "tests/cases/missing-price/job.toml", "base-bid"]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    assert!(ran.err.contains("error[unpriced-line]"), "{}", ran.err);
    assert!(ran.err.contains("cannot be calculated while the errors above hold the bid"), "{}", ran.err);
}

#[test]
fn exit_codes_are_done_held_and_could_not_run() {
    let folder = Folder::new("codes");
    let out = folder.path("papers");
    let out = out.to_str().unwrap();
    let missing = "no/such/job.toml";
    let ends: [(&[&str], i32); 14] = [
        (&["check", JOB], 0),
        (&["takeoff", JOB], 0),
        (&["--help"], 0),
        (&["--version"], 0),
        (&["check", HELD], 1),
        (&["takeoff", HELD], 0),
        (&["issue", HELD, "--output", out], 1),
        (&["check", missing], 2),
        (&["takeoff", missing], 2),
        (&["issue", missing, "--output", out], 2),
        (&["explain", missing, "H101"], 2),
        (&["issue", JOB, "no-such-paper"], 2),
        (&["check"], 2),
        (&["no-such-command"], 2),
    ];
    for (words, code) in ends {
        let ran = run(words);
        assert_eq!(ran.code, code, "{words:?}: {}{}", ran.out, ran.err);
        assert!(code != 2 || !ran.err.is_empty(), "{words:?} says why");
    }
    let record = std::fs::read_to_string(folder.path("papers/C-1/issued.txt")).unwrap();
    assert!(record.contains("held bid\n"), "{record}");
    assert!(!folder.names("papers/C-1").contains("bid.pdf"));
}

/// What is taken out of a job or its catalog, and the papers that wait for it. A paper waits for what it prints or rests
/// on, and for nothing else: prices are in bid and recap alone, hours of tasks and parts of a kit also in the packet, and a
/// form that goes to the site to ask needs neither (common practice, no source).
const WAITS: [(&str, &str, &[&str]); 9] = [
    ("catalog/catalog.toml", "price = \"640.00\"\n", &["bid", "recap"]),
    ("catalog/catalog.toml", "wage = \"38.40\"\n", &["bid", "recap"]),
    ("catalog/catalog.toml", "old_after_days = 120\n", &["bid", "recap"]),
    ("catalog/catalog.toml", "source = \"invented\"\n", &["recap"]),
    ("catalog/catalog.toml", "hours = \"1.25 h\"\n", &["bid", "recap", "packet"]),
    ("catalog/catalog.toml", "arm_fitted = \"leaf shut, one tooth of preload\"\n", &["packet"]),
    ("catalog/catalog.toml", "name = \"Drive\"\n", &["bid", "recap", "schedule", "packet"]),
    ("job.toml", "due = 2026-12-10T14:00:00\n", &["bid"]),
    ("job.toml", "name = \"Alder Row Library, doors\"\n", &["bid", "recap", "schedule", "survey", "packet"]),
];

#[test]
fn a_paper_waits_for_what_it_prints_and_for_nothing_else() {
    let case = |inside: &str| {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/price-whole");
        std::fs::read_to_string(root.join(inside)).unwrap()
    };
    let stems = ["bid", "recap", "schedule", "survey", "packet"];
    for (at, (file, taken, waiting)) in WAITS.iter().enumerate() {
        let folder = Folder::new(&format!("waits-{at}"));
        let mut texts: Texts =
            ["job.toml", "catalog/catalog.toml"].map(|name| (name.to_owned(), case(name))).into_iter().collect();
        let text = texts.get_mut(*file).unwrap();
        assert!(text.contains(taken), "{file} has {taken}");
        *text = text.replacen(taken, "", 1);
        folder.write(&texts);
        let (job, out) = (folder.path("job.toml"), folder.path("papers"));
        let ran = run(&["issue", job.to_str().unwrap(), "--output", out.to_str().unwrap()]);
        assert_eq!(ran.code, 1, "without {taken}: {}{}", ran.out, ran.err);
        let written = folder.names("papers/C-1");
        for stem in stems {
            let made = written.iter().any(|name| name.starts_with(stem) && name.ends_with(".pdf"));
            assert_eq!(made, !waiting.contains(&stem), "without {taken}, {stem}: {}{}", ran.out, ran.err);
        }
    }
}

/// The cells of a CSV text (RFC 4180).
fn cells(text: &str) -> Vec<Vec<String>> {
    let mut rows = vec![vec![String::new()]];
    let mut quoted = false;
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let row = rows.last_mut().unwrap();
        match letter {
            '"' if quoted && letters.peek() == Some(&'"') => row.last_mut().unwrap().push(letters.next().unwrap()),
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(String::new()),
            '\r' if !quoted => {}
            '\n' if !quoted => rows.push(vec![String::new()]),
            letter => row.last_mut().unwrap().push(letter),
        }
    }
    assert!(!quoted, "a quote is left open");
    assert_eq!(rows.pop(), Some(vec![String::new()]), "the last line ends");
    rows
}

#[test]
fn what_is_printed_for_programs_is_read_by_programs() {
    let findings: Value = serde_json::from_str(&run(&["check", HELD, "--format", "json"]).out).unwrap();
    let findings = findings.as_array().unwrap();
    assert!(findings.iter().any(|it| it["severity"] == "error" && it["places"][0]["line"].is_u64()), "{findings:#?}");
    let demo: Value = serde_json::from_str(&run(&["check", JOB, "--format", "json"]).out).unwrap();
    assert!(demo.as_array().unwrap().iter().all(|it| it["severity"] != "error"), "{demo:#?}");
    let json: Value = serde_json::from_str(&run(&["takeoff", JOB, "--format", "json"]).out).unwrap();
    let json = json.as_array().unwrap();
    let csv = cells(&run(&["takeoff", JOB, "--format", "csv"]).out);
    assert_eq!(csv[0], ["kind", "id", "what", "quantity", "unit", "for", "rule"]);
    assert_eq!(csv.len() - 1, json.len());
    for (row, object) in csv[1..].iter().zip(json) {
        let object: Vec<&str> = csv[0].iter().map(|head| object[head.as_str()].as_str().unwrap()).collect();
        assert_eq!(*row, object);
        row[3].parse::<f64>().expect("a quantity is a number");
    }
    let text = run(&["takeoff", JOB]).out;
    assert_eq!(text.lines().count(), csv.len() + 1, "a head, a rule, and the same lines");
}

/// Names that the record says were issued, with their digests.
pub fn issued(folder: &Folder, record: &str) -> BTreeMap<String, String> {
    let text = std::fs::read_to_string(folder.path(record)).unwrap();
    let lines = text.lines().filter_map(|line| line.strip_prefix("issued "));
    lines.map(|line| line.split_once(" sha256 ").unwrap()).map(|(name, sum)| (name.into(), sum.into())).collect()
}

#[test]
fn issue_writes_whole_files_and_a_record_of_them() {
    let folder = Folder::new("record");
    folder.write(&demo::texts());
    let ran = folder.issue(&[]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let home = "papers/2611-07";
    let record = issued(&folder, &format!("{home}/issued.txt"));
    let mut names = folder.names(home);
    assert!(names.remove("issued.txt"));
    assert_eq!(names, record.keys().cloned().collect(), "what stands there is what the record names, and nothing else");
    for (name, sum) in &record {
        let bytes = std::fs::read(folder.path(&format!("{home}/{name}"))).unwrap();
        let digest: String = Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(digest, *sum, "{name}");
        assert!(ran.out.contains(name.as_str()), "it says that it wrote {name}");
    }
}

#[test]
fn a_paper_that_cannot_be_written_leaves_no_half_of_it() {
    let folder = Folder::new("half");
    folder.write(&demo::texts());
    // Where the bid would stand is a folder with something in it.
    std::fs::create_dir_all(folder.path("papers/2611-07/bid.pdf/in-the-way")).unwrap();
    let ran = folder.issue(&["bid"]);
    assert_eq!(ran.code, 2, "{}", ran.out);
    assert!(ran.err.contains("cannot write"), "{}", ran.err);
    assert_eq!(folder.names("papers/2611-07"), BTreeSet::new());
}

#[test]
fn papers_that_are_no_longer_made_are_superseded() {
    let folder = Folder::new("superseded");
    let mut texts = demo::texts();
    folder.write(&texts);
    let (home, aside) = ("papers/2611-07", "papers/2611-07/superseded");
    assert_eq!(folder.issue(&[]).code, 0);
    // A packet of a site that the job no longer has.
    std::fs::write(folder.path(&format!("{home}/packet-gone.pdf")), "a packet of long ago").unwrap();
    let record = folder.path(&format!("{home}/issued.txt"));
    let text = std::fs::read_to_string(&record).unwrap();
    std::fs::write(&record, text + "issued packet-gone.pdf sha256 0\n").unwrap();
    std::fs::write(folder.path(&format!("{home}/packet-of-mine.txt")), "a note of somebody").unwrap();
    // The bid alone: what was not asked for stays, and the record still knows it.
    assert_eq!(folder.issue(&["bid"]).code, 0);
    let text = std::fs::read_to_string(&record).unwrap();
    assert!(text.contains("kept packet-gone.pdf of an earlier issue\n") && text.contains("kept recap"), "{text}");
    assert_eq!(folder.names(aside), BTreeSet::new());
    // All of it: the packet is no longer made.
    let ran = folder.issue(&[]);
    assert!(ran.out.contains("packet-gone.pdf to superseded"), "{}", ran.out);
    assert!(!ran.out.contains("with other values"), "{}", ran.out);
    assert_eq!(folder.names(aside), BTreeSet::from(["packet-gone.pdf".to_owned()]));
    assert!(folder.names(home).contains("packet-of-mine.txt"), "what no record names is left alone");
    // A rule takes off less than nothing: the bid is held, and the earlier one does not stay to be sent by mistake.
    let rule = "[[rule]]\nid = \"less\"\nper = \"site\"\nitem = \"tie\"\nquantity = \"0 - 1\"\n";
    texts.insert("catalog_demo/less.toml".to_owned(), rule.to_owned());
    folder.write(&texts);
    let ran = folder.issue(&[]);
    assert_eq!(ran.code, 1, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("revision A was written before with other values"), "{}", ran.out);
    assert!(!folder.names(home).contains("bid.pdf") && folder.names(aside).contains("bid.pdf"), "{}", ran.out);
    let text = std::fs::read_to_string(&record).unwrap();
    assert!(text.contains("held bid\n") && !text.contains("issued bid"), "{text}");
    assert!(text.contains("issued survey"), "what the rule does not touch is issued: {text}");
}

#[test]
fn a_reader_who_has_had_enough_is_no_error() {
    let words: [&[&str]; 3] = [&["takeoff", JOB], &["check", HELD], &["explain", JOB, "H101"]];
    for (words, code) in words.into_iter().zip([0, 1, 0]) {
        let mut child = command(words).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        drop(child.stdout.take());
        let done = child.wait_with_output().unwrap();
        let err = String::from_utf8_lossy(&done.stderr);
        assert_eq!(done.status.code(), Some(code), "{words:?}: {err}");
        assert!(!err.contains("panicked") && !err.contains("pipe"), "{words:?}: {err}");
    }
}

#[test]
fn a_new_job_passes_the_check() {
    let folder = Folder::new("new");
    let start = folder.path("first-job");
    let start = start.to_str().unwrap();
    assert_eq!(run(&["new", start]).code, 0);
    let job = format!("{start}/job.toml");
    let ran = run(&["check", &job]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    let tables = |folder: &Path| {
        let entries = std::fs::read_dir(folder).unwrap().map(|it| it.unwrap().file_name().into_string().unwrap());
        entries.filter(|name| name.ends_with(".toml")).collect::<BTreeSet<_>>()
    };
    let ships = Path::new(env!("CARGO_MANIFEST_DIR")).join("catalog_demo");
    assert_eq!(tables(&Path::new(start).join("catalog")), tables(&ships), "the catalog comes whole");
    let again = run(&["new", start]);
    assert_eq!(again.code, 2, "a folder that is there is left alone");
    assert!(again.err.contains("is there already"), "{}", again.err);
}

#[test]
fn every_paper_of_a_new_job_is_written_whatever_its_opening_has() {
    let folder = Folder::new("new-papers");
    let start = folder.path("first-job");
    assert_eq!(run(&["new", start.to_str().unwrap()]).code, 0);
    let job = start.join("job.toml");
    let text = std::fs::read_to_string(&job).unwrap();
    let own = text.rfind("\n[[opening]]").expect("one opening is live");
    // As it comes, and as a door that is only looked at: nothing is bought, hung or drawn.
    let bare = "\n[[opening]]\nmark = \"101A\"\nbetween = [\"Lobby\", \"Street\"]\noutside = \"Street\"\n\
                leaf = { width = \"3 ft 0 in\", height = \"7 ft 0 in\", hinges = \"left\", swing = \"toward\" }\n";
    for (name, opening, sheets) in [("whole", &text[own..], true), ("bare", bare, false)] {
        std::fs::write(&job, format!("{}{opening}", &text[..own])).unwrap();
        let out = folder.path(name);
        let ran = run(&["issue", job.to_str().unwrap(), "--output", out.to_str().unwrap()]);
        assert_eq!(ran.code, 0, "{name}: {}{}", ran.out, ran.err);
        assert!(!ran.out.contains("held"), "{name}: {}", ran.out);
        let papers = folder.names(&format!("{name}/2611-04"));
        for paper in ["bid", "schedule", "survey", "packet-main", "needs", "register", "orders", "drawings"] {
            let bytes =
                std::fs::read(out.join(format!("2611-04/{paper}.pdf"))).unwrap_or_else(|_| panic!("{papers:?}"));
            let pdf = Pdf::read(&bytes);
            assert!(pdf.pages().len() > usize::from(sheets && paper == "orders"), "{name}: {paper}");
        }
        let orders = std::fs::read(out.join("2611-04/orders.pdf")).unwrap();
        assert_eq!(Pdf::read(&orders).text().contains("There is nothing to order for this job"), !sheets, "{name}");
    }
}
