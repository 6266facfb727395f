//! Words of the papers: none that the list `tests/words/not-printed.txt` refuses, no amount, file name or id of the catalog on
//! what leaves the office, one form of lengths in a table, a clause's standing once.
//!
//! In: both jobs of the demo as issued, the templates and the catalog as they ship. Out: what is printed and should not be. Common
//! practice of construction offices and of public specification sections, no source.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use hingewright::findings::Paper;
use hingewright::pipeline::{self, Form};

use crate::demo::demo;
use crate::pdf_reader::Pdf;

const LIST: &str = include_str!("../words/not-printed.txt");

/// A word that is not printed, and the better one.
fn refused() -> Vec<(String, &'static str)> {
    let lines = LIST.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines
        .map(|line| {
            let (word, better) = line.split_once(" = ").unwrap_or_else(|| panic!("no better word: {line}"));
            (plain(word), better)
        })
        .collect()
}

/// Lower case, one space between words, none of the characters that keep words on one line.
fn plain(text: &str) -> String {
    let text = text.replace(['\u{a0}', '\u{2011}', '\u{2019}'], " ").to_lowercase();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Whether a phrase stands in a text as whole words.
fn holds(text: &str, phrase: &str) -> bool {
    let whole = |at: usize| {
        let before = text[..at].chars().next_back().is_none_or(|it| !it.is_alphanumeric());
        let after = text[at + phrase.len()..].chars().next().is_none_or(|it| !it.is_alphanumeric());
        before && after
    };
    text.match_indices(phrase).any(|(at, _)| whole(at))
}

fn complaints(of: &str, text: &str) -> Vec<String> {
    let text = plain(text);
    let found = refused().into_iter().filter(|(word, _)| holds(&text, word));
    found.map(|(word, better)| format!("{of} prints `{word}`: better `{better}`")).collect()
}

/// A paper as printed: its file, what it is, its text.
struct Printed {
    file: String,
    paper: Paper,
    text: String,
    tables: Vec<Vec<Vec<String>>>,
}

/// Every paper of the demo's job: text of PDFs, of pages for a browser and of tables.
fn papers() -> &'static [Printed] {
    static PRINTED: OnceLock<Vec<Printed>> = OnceLock::new();
    PRINTED.get_or_init(|| {
        let printed = demo().issue.papers.iter().map(|it| {
            let (text, tables) = match it.form {
                Form::Pdf => {
                    let pdf = Pdf::read(&it.bytes);
                    (pdf.text(), pdf.tables())
                }
                Form::Html => (without_tags(&String::from_utf8_lossy(&it.bytes)), Vec::new()),
                _ => (String::from_utf8_lossy(&it.bytes).into_owned(), Vec::new()),
            };
            Printed { file: it.name.clone(), paper: it.paper, text, tables }
        });
        printed.collect()
    })
}

fn without_tags(html: &str) -> String {
    let body = html.split_once("<body").map_or(html, |(_, body)| body);
    let body = body.split_once("<script").map_or(body, |(body, _)| body);
    let mut text = String::new();
    let mut inside = false;
    for letter in body.chars() {
        match letter {
            '<' => {
                inside = true;
                text.push(' ');
            }
            '>' => inside = false,
            _ if !inside => text.push(letter),
            _ => {}
        }
    }
    text
}

#[test]
fn no_paper_prints_a_word_of_the_list() {
    assert!(refused().len() > 60, "the list is read");
    let found: Vec<String> = papers().iter().flat_map(|it| complaints(&it.file, &it.text)).collect();
    assert!(found.is_empty(), "{found:#?}");
    assert!(papers().iter().all(|it| it.text.len() > 500), "every paper has a text");
    assert!(!complaints("a paper", "The price hangs on it.").is_empty(), "the list is applied");
}

fn files(folder: &str, ends: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let each = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    each.filter(|path| path.to_str().is_some_and(|it| it.ends_with(ends))).collect()
}

/// Also what these two jobs happen not to print: templates without their tags, and the values of the catalog.
#[test]
fn no_template_and_no_text_of_the_catalog_holds_a_word_of_the_list() {
    let mut found = Vec::new();
    for path in files("templates", ".xml") {
        let text = without_tags(&format!("<body>{}", std::fs::read_to_string(&path).unwrap()));
        let text: String = text.split("{{").map(|it| it.split_once("}}").map_or(it, |(_, rest)| rest)).collect();
        let text: String = text.split("{%").map(|it| it.split_once("%}").map_or(it, |(_, rest)| rest)).collect();
        found.extend(complaints(&path.display().to_string(), &text));
    }
    for path in files("catalog_demo", ".toml") {
        let text = std::fs::read_to_string(&path).unwrap();
        let values = text.lines().filter(|line| !line.starts_with('#'));
        let sentences = values.flat_map(|line| line.split('"').skip(1).step_by(2)).filter(|it| it.contains(' '));
        let sentences = sentences.filter(|it| !it.contains("opening.") && !it.contains("contains("));
        found.extend(complaints(&path.display().to_string(), &sentences.collect::<Vec<_>>().join(" | ")));
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// What every code of the program says and why. Findings go to the office, which knows its job file.
#[test]
fn no_finding_says_a_word_of_the_list() {
    let codes = pipeline::codes();
    let found = codes.iter().flat_map(|code| complaints(code.id, &format!("{} | {}", code.says, code.why)));
    let found: Vec<String> = found.filter(|it| !it.contains("`job file`")).collect();
    assert!(found.is_empty(), "{found:#?}");
}

/// Papers that leave the office.
fn outgoing() -> impl Iterator<Item = &'static Printed> {
    papers().iter().filter(|it| it.paper != Paper::Recap)
}

#[test]
fn only_the_bid_and_the_recap_print_amounts() {
    let mut seen = 0;
    for paper in outgoing() {
        if paper.paper == Paper::Bid {
            assert!(paper.text.contains('$'), "the bid has its price");
            continue;
        }
        seen += 1;
        assert!(!paper.text.contains('$'), "{} prints an amount", paper.file);
        assert!(!paper.text.contains("of the bid"), "{} prints a share of the bid", paper.file);
    }
    assert!(seen > 10, "{seen} papers");
}

/// Ids of items, operators and rules of the catalog that no plain text of it holds: `brk-low-left`, not `two-pole`.
fn ids() -> BTreeSet<String> {
    let catalog = &demo().catalog;
    let operators = catalog.operators.keys().cloned();
    let items = catalog.items.keys().cloned();
    let ids = items.chain(operators).filter(|id| id.contains('-'));
    ids.collect()
}

#[test]
fn no_outgoing_paper_prints_an_id_or_a_file_of_the_office() {
    let ids = ids();
    assert!(ids.len() > 100, "{} ids", ids.len());
    let mut found = Vec::new();
    for paper in outgoing() {
        let text = plain(&paper.text);
        let words: BTreeSet<&str> = text.split(|it: char| it.is_whitespace() || ",;:()|\"".contains(it)).collect();
        found.extend(ids.iter().filter(|id| words.contains(id.as_str())).map(|id| format!("{}: {id}", paper.file)));
        for file in [".toml", "openings.csv", "survey.csv", "[[", "fixed_to"] {
            if text.contains(file) {
                found.push(format!("{}: {file}", paper.file));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// The standing of a clause is a mark beside it, and its words stand once in a paper: in the key.
#[test]
fn a_clause_that_was_not_read_is_marked_and_the_key_stands_once() {
    let mut keyed = 0;
    for paper in papers() {
        let text = plain(&paper.text);
        let memory = text.matches("cited from memory").count();
        assert!(memory <= 1, "{}: the key stands {memory} times", paper.file);
        assert!(!text.contains("(from memory)") && !text.contains("(secondary)"), "{}", paper.file);
        let marked = text.matches('\u{2021}').count();
        assert_eq!(marked > 0, memory == 1, "{}: {marked} marks, key {memory}", paper.file);
        keyed += memory;
    }
    assert!(keyed >= 1, "the review sheet has a key");
}

/// In one table a length from a foot up is either in feet and inches or in inches, and below a foot in inches alone: never
/// `6'-6"`, `67"` and `0'-7 1/8"` side by side.
#[test]
fn a_table_has_one_form_of_lengths() {
    let mut seen = 0;
    for paper in papers().iter().filter(|it| it.paper != Paper::Drawings) {
        for table in &paper.tables {
            let cells: Vec<String> = table.iter().flatten().map(|cell| plain(cell)).collect();
            let feet = cells.iter().filter(|cell| cell.contains("'-")).count();
            seen += usize::from(feet > 0);
            for cell in &cells {
                assert!(!cell.contains(" 0'-") && !cell.starts_with("0'-"), "{}: {cell}", paper.file);
            }
        }
    }
    assert!(seen > 20, "{seen} tables with lengths");
}
