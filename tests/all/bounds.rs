//! Upper bounds of what is typed: every whole number of every record has one, and at its bound nothing breaks.
//!
//! In: the field tables, the demo with other numbers. Out: numbers that are taken without a word, or that end the program.
//! May not know: what any number means.

use std::collections::BTreeSet;

use hingewright::catalog::CatalogFileEntry;
use hingewright::findings::{Files, Findings, Place};
use hingewright::input::{FieldInfo, Reader, Record, RecordInfo, Shape};
use hingewright::job::JobFileEntry;
use hingewright::pipeline;

use crate::demo::{self, JOB, Texts};

/// Where a field stands: the keys that lead to it, and how a value is wrapped at each of them.
type Way = Vec<(&'static str, &'static str, &'static str)>;

/// A whole number, or a list of them, and its field.
struct Whole {
    way: Way,
    field: FieldInfo,
    listed: bool,
}

/// Every whole number of a record and of those inside it, each record once.
fn whole_numbers(info: &'static RecordInfo, way: &Way, seen: &mut BTreeSet<&'static str>, out: &mut Vec<Whole>) {
    if !seen.insert(info.name) {
        return;
    }
    for field in info.fields {
        let is_whole =
            |shape: &Shape| matches!(shape, Shape::Scalar { words, .. } if words.starts_with("a whole number"));
        let inside = |open, close| {
            let mut inside = way.clone();
            inside.push((field.name, open, close));
            inside
        };
        match (field.shape)() {
            shape if is_whole(&shape) => out.push(Whole { way: inside("", ""), field: *field, listed: false }),
            Shape::List(one) if is_whole(&one) => {
                out.push(Whole { way: inside("[", "]"), field: *field, listed: true });
            }
            Shape::Record(record) | Shape::EachOrList(record) => whole_numbers(record, &inside("", ""), seen, out),
            Shape::Records(record) => whole_numbers(record, &inside("[", "]"), seen, out),
            Shape::Named(record) => whole_numbers(record, &inside("{ x = ", " }"), seen, out),
            _ => {}
        }
    }
}

fn of<R: Record>() -> Vec<Whole> {
    let mut out = Vec::new();
    whole_numbers(R::info(), &Way::new(), &mut BTreeSet::new(), &mut out);
    out
}

/// A file that holds a value at one field and nothing else.
fn file(way: &Way, value: &str) -> String {
    let mut text = value.to_owned();
    for (at, (key, open, close)) in way.iter().enumerate().rev() {
        text = format!("{key} = {open}{text}{close}");
        if at > 0 {
            text = format!("{{ {text} }}");
        }
    }
    text + "\n"
}

/// What reading such a file finds at the value.
fn found<R: Record>(way: &Way, value: &str) -> Vec<String> {
    let text = file(way, value);
    let at = text.find(value).expect("the value stands in its file");
    let files = Files::new([("a.toml".to_owned(), text.into_bytes())]);
    let mut reader = Reader::new(&files);
    reader.toml::<R>(files.find("a.toml").expect("the one file"));
    let here = |place: Option<&Place>| matches!(place, Some(Place::Text { span, .. }) if span.start as usize == at);
    let findings: Findings = reader.into_findings();
    findings.iter().filter(|it| here(it.place())).map(|it| format!("{}: {}", it.code.id, it.asked)).collect()
}

fn holds<R: Record>(least: usize) {
    let all = of::<R>();
    assert!(all.len() >= least, "{} whole numbers", all.len());
    for whole in &all {
        let name = file(&whole.way, "…");
        let (low, high) = whole.field.within.unwrap_or_else(|| panic!("no bound of {name}"));
        assert!(high.parse::<u32>().is_ok_and(|high| high < 1_000_000), "the bound of {name} is none");
        for value in ["1000000", "4294967295", "4294967296", "99999999999999999999999999"] {
            let asked = format!("out-of-range: {low} to {high}, such as ");
            let reported = found::<R>(&whole.way, value);
            assert!(matches!(reported.as_slice(), [one] if one.starts_with(&asked)), "{value} at {name}: {reported:?}");
        }
        for value in [low, high] {
            assert!(found::<R>(&whole.way, value).is_empty(), "{value} at {name}");
        }
        assert!(whole.listed == whole.field.example.starts_with('['), "{name}");
    }
}

#[test]
fn every_whole_number_has_a_bound_and_is_reported_beyond_it() {
    holds::<JobFileEntry>(17);
    holds::<CatalogFileEntry>(30);
}

/// The demo with every whole number of one of its keys at one end of its range.
fn at_bound(texts: &Texts, key: &str, bound: &str) -> Texts {
    let number = |line: &str| {
        let (before, value) = line.split_once('=')?;
        let typed = value.split('#').next()?.trim();
        let list = typed.strip_prefix('[').and_then(|it| it.strip_suffix(']'));
        let whole = |it: &str| !it.trim().is_empty() && it.trim().bytes().all(|byte| byte.is_ascii_digit());
        let is_whole = whole(typed) || list.is_some_and(|it| it.split(',').all(whole));
        (before.trim() == key && is_whole).then(|| match list {
            Some(_) => format!("{key} = [{bound}, {bound}, {bound}]"),
            None => format!("{key} = {bound}"),
        })
    };
    let other = |text: &String| {
        text.lines().map(|line| number(line).unwrap_or_else(|| line.to_owned()) + "\n").collect::<String>()
    };
    texts.iter().map(|(path, text)| (path.clone(), other(text))).collect()
}

/// Ids of the findings of a fault of the program.
fn faults(findings: &Findings) -> Vec<String> {
    let is_fault = |id: &str| matches!(id, "job-not-worked" | "paper-not-made");
    findings.iter().filter(|it| is_fault(it.code.id)).map(|it| it.sentence()).collect()
}

/// All bounds at once, which is more than any of them alone: what is added up is largest then.
#[test]
fn at_the_ends_of_their_ranges_numbers_break_nothing() {
    let all: Vec<Whole> = of::<JobFileEntry>().into_iter().chain(of::<CatalogFileEntry>()).collect();
    for end in [0, 1] {
        let mut texts = demo::texts();
        for whole in &all {
            let (low, high) = whole.field.within.unwrap_or_default();
            texts = at_bound(&texts, whole.field.name, [low, high][end]);
        }
        assert_ne!(texts, demo::texts());
        let files = demo::snapshot(&texts);
        assert_eq!(faults(&pipeline::check(&files, JOB)), Vec::<String>::new());
    }
}

/// What was found by force: each ended the program.
#[test]
fn numbers_that_once_ended_the_program_are_findings() {
    let runs = [
        [("weeks", "613566757"), ("bends", "4294967295"), ("header_screws", "4294967295")],
        [("weeks", "1000000"), ("bends", "100000"), ("header_screws", "1000000")],
    ];
    for run in runs {
        let mut texts = demo::texts();
        for (key, value) in run {
            let changed = at_bound(&texts, key, value);
            assert_ne!(changed, texts, "{key} stands in the demo");
            texts = changed;
        }
        let findings = pipeline::check(&demo::snapshot(&texts), JOB);
        assert_eq!(faults(&findings), Vec::<String>::new(), "{run:?}");
        for (key, value) in run {
            let reported = findings.iter().any(|it| it.code.id == "out-of-range" && it.found == format!("`{value}`"));
            assert!(reported, "{key} = {value}");
        }
    }
}

/// A panel without a site, and one that the job lacks: the questions name panels.
#[test]
fn a_panel_that_is_not_there_holds_papers_and_ends_none() {
    let texts = demo::texts();
    let job = &texts[JOB];
    let panel = job.find("[panel.").expect("the demo has panels");
    let site = panel + job[panel..].find("site =").expect("a panel names its site");
    let end = site + job[site..].find('\n').expect("a line ends");
    let mut without = texts.clone();
    without.insert(JOB.to_owned(), format!("{}{}", &job[..site], &job[end..]));
    let questions = hingewright::findings::Papers::of(&[hingewright::findings::Paper::Questions]);
    let (_, found) = pipeline::issue(&demo::snapshot(&without), JOB, questions, None);
    assert_eq!(faults(&found), Vec::<String>::new());
    assert!(
        found.iter().any(|it| it.code.id == "missing-key"),
        "{:?}",
        found.iter().map(|it| it.code.id).collect::<Vec<_>>()
    );
}
