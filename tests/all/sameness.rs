//! Same input, same bytes: twice in one process, in others, with other threads, folders, locales and line ends; with the
//! catalog's tables in any order. The fingerprint goes by values, not by how they are written.
//!
//! In: the demo and copies of it written otherwise. Out: papers that differ. May not know: how a paper is made.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::process::Command;

use hingewright::pipeline::Issue;
use proptest::prelude::Rng;

use crate::counts::{below, random};
use crate::demo::{self, JOB, Texts, demo, replace};

/// Papers by file name, the record among them.
fn papers(issue: &Issue) -> BTreeMap<String, Vec<u8>> {
    let papers = issue.papers.iter().map(|it| (it.name.clone(), it.bytes.clone()));
    papers.chain([("issued.txt".to_owned(), issue.record.clone().into_bytes())]).collect()
}

/// Names of papers that are not the same on both sides.
fn differing(a: &BTreeMap<String, Vec<u8>>, b: &BTreeMap<String, Vec<u8>>) -> Vec<String> {
    let names: BTreeSet<&String> = a.keys().chain(b.keys()).collect();
    names.into_iter().filter(|name| a.get(*name) != b.get(*name)).cloned().collect()
}

fn assert_same(other: &BTreeMap<String, Vec<u8>>) {
    assert_eq!(differing(&papers(&demo().issue), other), Vec::<String>::new());
}

#[test]
fn twice_in_one_process() {
    assert_same(&papers(&demo::issue(&demo::texts())));
}

/// A folder of its own under the system's folder for such, with the demo in it.
fn written(name: &str, texts: &Texts) -> PathBuf {
    let root = std::env::temp_dir().join(format!("hingewright-same-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&root);
    let texts = texts.iter().map(|(path, text)| (path.clone(), text.clone().into_bytes()));
    for (path, bytes) in texts.chain(demo::sheets()) {
        let path = root.join(path);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, bytes).unwrap();
    }
    root
}

/// What the program itself writes: a process of its own, standing in `root`, with words of the environment.
fn issued_by_another(root: &PathBuf, job: &str, environment: &[(&str, &str)]) -> BTreeMap<String, Vec<u8>> {
    let out = root.join("papers");
    let mut command = Command::new(env!("CARGO_BIN_EXE_hingewright"));
    command.current_dir(root).args(["issue", job, "--output"]).arg(&out);
    let done = command.envs(environment.iter().copied()).output().unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    let folder = out.join(&demo().issue.number);
    let mut papers = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        papers.insert(path.file_name().unwrap().to_str().unwrap().to_owned(), std::fs::read(path).unwrap());
    }
    std::fs::remove_dir_all(root).unwrap();
    papers
}

#[test]
fn another_process_with_one_thread_in_another_country() {
    let root = written("one", &demo::texts());
    let environment =
        [("RAYON_NUM_THREADS", "1"), ("LANG", "de_DE.UTF-8"), ("LC_ALL", "de_DE.UTF-8"), ("TZ", "Asia/Tokyo")];
    assert_same(&issued_by_another(&root, JOB, &environment));
}

/// The whole path of the job is typed, and lines end as another system ends them.
#[test]
fn another_process_with_eight_threads_and_other_line_ends() {
    let texts = demo::texts().into_iter().map(|(path, text)| (path, text.replace('\n', "\r\n"))).collect();
    let root = written("eight", &texts);
    let environment = [("RAYON_NUM_THREADS", "8"), ("LANG", "C"), ("LC_ALL", "C"), ("TZ", "America/St_Johns")];
    let job = root.join(JOB);
    assert_same(&issued_by_another(&root, job.to_str().unwrap(), &environment));
}

/// The tables of a TOML file: a head with all that stands below it, and tables inside it, such as `[[item.x.rule]]`
/// after `[item.x]`. Comments go with the table that follows them. What stands above the first table comes first.
fn tables(text: &str) -> Vec<String> {
    let mut tables: Vec<String> = Vec::new();
    let mut comments = String::new();
    for line in text.lines() {
        let line = format!("{line}\n");
        let head = line.trim_end().strip_prefix('[').filter(|_| line.trim_end().ends_with(']'));
        let inside = head.is_some_and(|head| head.matches('.').count() > 1);
        if line.starts_with('#') || line.trim().is_empty() {
            comments += &line;
        } else if head.is_some() && !inside {
            tables.push(std::mem::take(&mut comments) + &line);
        } else {
            let table = tables.last_mut().expect("catalog files start with a table");
            *table += &std::mem::take(&mut comments);
            *table += &line;
        }
    }
    tables
}

/// The demo with the tables of its catalog in another order, dealt into other files.
fn shuffled(seed: u8) -> Texts {
    let random = &mut random(seed);
    let is_catalog = |path: &str| path.rsplit_once('/').is_some_and(|(folder, _)| folder == "catalog_demo");
    let (catalog, mut texts): (Texts, Texts) = demo::texts().into_iter().partition(|(path, _)| is_catalog(path));
    let mut all: Vec<String> = catalog.values().flat_map(|text| tables(text)).collect();
    assert!(all.len() > 400, "{} tables", all.len());
    for last in (1..all.len()).rev() {
        all.swap(last, below(random, last as u64 + 1) as usize);
    }
    for table in all {
        let name = format!("catalog_demo/{:04x}.toml", random.next_u64() % 7);
        *texts.entry(name).or_default() += &table;
    }
    texts
}

#[test]
fn tables_of_the_catalog_in_any_order() {
    for seed in 1..=crate::counts::orders() {
        let texts = shuffled(seed);
        assert!(texts.len() > 8 && !texts.contains_key("catalog_demo/trades.toml"));
        assert_same(&papers(&demo::issue(&texts)));
    }
}

/// Blank lines and comments between lines, spaces at their ends; nothing of it is a value.
fn rewrapped(texts: &Texts) -> Texts {
    let wrap = |(path, text): (&String, &String)| {
        let loose = |line: &str| format!("{line}   \n\n# a remark\n");
        let text = if path.ends_with(".toml") { text.lines().map(loose).collect() } else { text.clone() };
        (path.clone(), text)
    };
    texts.iter().map(wrap).collect()
}

#[test]
fn the_fingerprint_goes_by_values() {
    let texts = demo::texts();
    let print = |texts: &Texts| demo::read(texts).fingerprint;
    let whole = &demo().fingerprint;
    assert_eq!(whole.len(), 64);
    assert_eq!(print(&rewrapped(&texts)), *whole, "blank lines and comments");
    assert_eq!(print(&shuffled(3)), *whole, "another order");
    let mut quoted = texts.clone();
    replace(&mut quoted, "catalog_demo/trades.toml", "wage = \"41.50\"", "wage   =   '41.50'");
    assert_eq!(print(&quoted), *whole, "other quotes and spaces");
    let changes = [
        ("catalog_demo/trades.toml", "wage = \"41.50\"", "wage = \"41.51\""),
        ("catalog_demo/terms.toml", "rate = \"13.5 %\"", "rate = \"13.6 %\""),
        (
            "catalog_demo/rules.toml",
            "quantity = \"ceiling(line.quantity / 4 ft)\"\nbecause = \"a tie every 4 ft\"\n\n[[rule]]\nid = \"label",
            "quantity = \"ceiling(line.quantity / 5 ft)\"\nbecause = \"a tie every 4 ft\"\n\n[[rule]]\nid = \"label",
        ),
        (JOB, "attention = \"P. Winterbourne\"", "attention = \"P. Winterborne\""),
        (JOB, "amount = \"1800.00\"", "amount = \"1800.01\""),
        (
            "catalog_demo/job/openings.csv",
            "H109,council,hall,,HW-11,Lobby 201; Council Chamber,Lobby 201,3 ft 2 in",
            "H109,council,hall,,HW-11,Lobby 201; Council Chamber,Lobby 201,3 ft 1 in",
        ),
    ];
    let mut seen = BTreeSet::from([whole.clone()]);
    for (file, from, to) in changes {
        let mut changed = texts.clone();
        replace(&mut changed, file, from, to);
        assert!(seen.insert(print(&changed)), "`{to}` in {file} changes the fingerprint");
    }
}

#[test]
fn the_fingerprint_stands_in_the_record_and_in_the_foot() {
    let demo = demo();
    assert!(demo.issue.record.contains(&format!("fingerprint of the values {}\n", demo.fingerprint)));
    for (name, pdf) in &demo.pdfs {
        for (page, _) in pdf.pages() {
            let text: String = pdf.shown(page).iter().map(|shown| shown.text.as_str()).collect();
            assert!(text.contains(&demo.fingerprint[..12]), "{name}: {text}");
        }
    }
}
