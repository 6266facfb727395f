//! The plan of the house, held to: which room may name which, what every file opens with, how long files and functions may be,
//! and who touches disk, clock and terminal.
//!
//! The table is data; a new edge is a decision in `DECISIONS.md` of the room. Every way a room can name another is looked for, in code,
//! in types and inside macros: `crate::room`, grouped `use crate::{…}`, `super::super::…` out of the room, a re-export that hides an
//! edge. Another name for the crate, and everything of the crate at once, are not allowed.

mod paths;

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use paths::{Tests, paths, typed_numbers};

/// Room, and the rooms it may import.
const MAY_IMPORT: &[(&str, &str)] = &[
    ("measure", ""),
    ("findings", "measure"),
    ("shapes", ""),
    ("pdf_import", "findings"),
    ("fonts", "findings"),
    ("spreadsheet", "findings"),
    ("money", ""),
    ("ledger", "measure money findings"),
    ("input", "measure money findings"),
    ("rules", "measure money findings ledger"),
    ("catalog", "measure money findings input rules"),
    ("job", "measure money findings ledger input catalog"),
    ("engineering", "measure"),
    ("mechanics", "measure job catalog engineering"),
    ("review", "measure findings job catalog engineering mechanics input"),
    ("takeoff", "measure findings ledger rules job catalog engineering mechanics review input"),
    ("estimate", "measure money findings ledger job catalog takeoff"),
    ("issues", "findings input"),
    ("comparison", "measure money findings ledger input job catalog takeoff estimate"),
    ("drawings", "measure shapes fonts job catalog engineering takeoff"),
    (
        "documents",
        "findings shapes pdf_import fonts spreadsheet measure money ledger input rules catalog job engineering \
         mechanics review takeoff estimate drawings",
    ),
    ("markup", "findings shapes"),
    ("typeset", "findings shapes pdf_import fonts markup"),
    ("pdf", "findings shapes pdf_import fonts markup typeset"),
    ("html", "findings shapes fonts markup"),
    (
        "pipeline",
        "findings shapes pdf_import fonts spreadsheet measure money ledger input rules catalog job engineering \
         mechanics review takeoff estimate issues comparison drawings documents markup typeset pdf html",
    ),
    ("cli", "pipeline findings job catalog input comparison money"),
];

/// Names that say nothing of what a room or file is for.
const EMPTY_NAMES: &[&str] = &["util", "utils", "common", "helpers", "core", "types", "misc"];

/// A file of `src`.
struct Source {
    path: PathBuf,
    room: String,
    /// How many modules deep below the crate the file's items are.
    depth: usize,
    text: String,
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    let mut open = vec![root.clone()];
    while let Some(folder) = open.pop() {
        for entry in std::fs::read_dir(&folder).expect("src can be listed") {
            let path = entry.expect("an entry of src").path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|it| it == "rs") {
                found.push(path);
            }
        }
    }
    found.sort();
    let mut sources: Vec<Source> = found.into_iter().map(|path| source(&root, path)).collect();
    // A file that another one names as a module of its own is one module deeper than it looks.
    let named: Vec<PathBuf> = sources.iter().flat_map(modules_by_path).collect();
    for source in sources.iter_mut().filter(|source| named.contains(&source.path)) {
        source.depth += 1;
    }
    sources
}

fn source(root: &Path, path: PathBuf) -> Source {
    let text = std::fs::read_to_string(&path).expect("a source file is text");
    let inside = path.strip_prefix(root).expect("below src");
    let parts: Vec<String> = inside.iter().map(|part| part.to_string_lossy().into_owned()).collect();
    let room = if parts.len() > 1 { parts[0].clone() } else { String::new() };
    let is_mod = parts.last().is_some_and(|name| name == "mod.rs");
    let depth = if is_mod { parts.len() - 1 } else { parts.len() };
    Source { room, depth, text, path: inside.to_path_buf() }
}

/// Files that a file takes as modules by their path, from `src`.
fn modules_by_path(source: &Source) -> Vec<PathBuf> {
    let folder = source.path.parent().expect("a folder");
    let named = source.text.lines().filter_map(|line| line.trim().strip_prefix("#[path = \"")?.strip_suffix("\"]"));
    named.map(|name| folder.join(name)).collect()
}

/// What a file names of the crate, each with the line of the first naming. `*` is everything; nothing is the crate itself.
fn named_rooms(text: &str, depth: usize) -> BTreeMap<String, usize> {
    let mut named = BTreeMap::new();
    for path in paths(text, Tests::Read) {
        if let Some(words) = path.of_crate(depth) {
            named.entry(words.first().cloned().unwrap_or_default()).or_insert(path.line);
        }
    }
    named
}

fn table() -> BTreeMap<&'static str, BTreeSet<&'static str>> {
    MAY_IMPORT.iter().map(|(room, may)| (*room, may.split_whitespace().collect())).collect()
}

#[test]
fn rooms_import_only_what_the_plan_allows() {
    let table = table();
    let mut faults = Vec::new();
    for source in sources().iter().filter(|source| !source.room.is_empty()) {
        let Some(may) = table.get(source.room.as_str()) else {
            faults.push(format!("{}: room `{}` is not in the plan", source.path.display(), source.room));
            continue;
        };
        for (room, line) in named_rooms(&source.text, source.depth) {
            let place = format!("{}:{line}: `{}`", source.path.display(), source.room);
            if room.is_empty() || room == "*" {
                faults.push(format!("{place} takes the crate as a whole"));
            } else if table.contains_key(room.as_str()) && room != source.room && !may.contains(room.as_str()) {
                faults.push(format!("{place} may not name `{room}`"));
            }
        }
        let away = modules_by_path(source).into_iter().find(|it| !it.starts_with(&source.room));
        faults.extend(away.map(|it| format!("{}: takes {} as a module", source.path.display(), it.display())));
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

#[test]
fn the_scan_sees_every_way_of_naming_a_room() {
    let seen = |depth: usize, text: &str| named_rooms(text, depth).into_keys().collect::<Vec<_>>();
    let nothing = Vec::<String>::new();
    for (depth, text, rooms) in [
        (2, "use crate::pdf::Page;", vec!["pdf"]),
        (2, "use crate::{job::{Job, Opening}, takeoff};", vec!["job", "takeoff"]),
        (2, "use {crate::pdf, std::fmt};", vec!["pdf"]),
        (2, "use super::{super::{html as other, markup::*}, sibling};", vec!["html", "markup"]),
        (2, "fn f() { let it = super::super::markup::Tree::new::<crate::pdf::Page>(); }", vec!["markup", "pdf"]),
        (1, "pub use super::typeset::Pages;", vec!["typeset"]),
        (1, "pub(crate) use self::super::typeset::Pages as Leaves;", vec!["typeset"]),
        (
            1,
            "mod tests { use super::super::typeset; mod deeper { use super::super::super::pdf; } }",
            vec!["pdf", "typeset"],
        ),
        (1, "impl From<crate::job::Job> for T where U: crate::html::Page {}", vec!["html", "job"]),
        (2, "macro_rules! m { ($it:expr) => { $crate::pdf::page($it) } }", vec!["pdf"]),
        (2, "fn f() { assert_eq!(vec![crate::job::new()], super::super::html::all()); }", vec!["html", "job"]),
        (
            2,
            "#[derive(Debug)] struct S(pub(in crate::money) crate::pdf::Page, pub (crate::job::Job));",
            vec!["job", "pdf"],
        ),
        (2, "use crate as root;", vec![""]),
        (2, "use crate::{self as root};", vec![""]),
        (1, "use super as root;", vec![""]),
        (1, "use super::*;", vec!["*"]),
    ] {
        assert_eq!(seen(depth, text), rooms, "{text}");
    }
    assert_eq!(
        seen(2, "// crate::pdf\n/* crate::pdf */ const S: &str = \"crate::pdf\"; const R: &str = r#\"crate::pdf\"#;"),
        nothing
    );
    assert_eq!(seen(2, "/// crate::pdf\nuse super::sibling; pub(crate) fn f() {}"), nothing);
    assert_eq!(seen(1, "mod tests { use super::*; }"), nothing);
}

#[test]
fn every_file_opens_with_what_comes_in_and_goes_out() {
    let mut faults = Vec::new();
    for source in sources() {
        let head: String = source.text.lines().take_while(|line| line.starts_with("//!")).collect();
        let name = source.path.display().to_string();
        if head.is_empty() {
            faults.push(format!("{name}: opens with no `//!`"));
        }
        let test = name.contains("tests") || name == "main.rs";
        let reported = head.contains("In:") && head.contains("Out:");
        if !test && !reported {
            faults.push(format!("{name}: does not say what comes in and what goes out"));
        }
        let words: Vec<String> =
            source.path.iter().map(|part| part.to_string_lossy().trim_end_matches(".rs").to_owned()).collect();
        if words.iter().any(|word| EMPTY_NAMES.contains(&word.as_str())) {
            faults.push(format!("{name}: a name that says nothing"));
        }
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

/// Lines of a file that are not tests: those before `#[cfg(test)]` with a module after it.
fn own_lines(text: &str) -> usize {
    text.split("#[cfg(test)]\nmod tests {").next().unwrap_or(text).lines().count()
}

#[test]
fn files_stay_short() {
    let long: Vec<String> = sources()
        .iter()
        .filter(|source| !source.path.to_string_lossy().contains("tests") && own_lines(&source.text) > 600)
        .map(|source| format!("{}: {} lines", source.path.display(), own_lines(&source.text)))
        .collect();
    // Field tables and vocabularies are flat lists of data.
    let long: Vec<&String> = long.iter().filter(|it| !it.contains("entries.rs") && !it.contains("words.rs")).collect();
    assert!(long.is_empty(), "over 600 lines: {long:?}");
}

#[test]
fn only_the_command_line_touches_disk_clock_and_terminal() {
    let forbidden =
        ["std::fs", "std::env", "std::process", "std::net", "std::io::stdin", "std::io::stdout", "std::io::stderr"];
    let words =
        ["print!", "println!", "eprint!", "eprintln!", "dbg!", "SystemTime", "Instant", "stdin", "stdout", "stderr"];
    let seen = |text: &str| -> Vec<(usize, String)> {
        let mut found = Vec::new();
        for path in paths(text, Tests::Skipped) {
            let foreign = forbidden.iter().any(|it| path.starts_with(it));
            if foreign || path.words.iter().any(|word| words.contains(&word.as_str())) {
                found.push((path.line, path.words.join("::")));
            }
        }
        found
    };
    for text in ["use std::{fmt, fs::File};", "fn f() { vec![1].iter().for_each(|it| println!(\"{it}\")); }"] {
        assert_eq!(seen(text).len(), 1, "{text}");
    }
    assert!(seen("#[cfg(test)] mod tests { use std::fs; } fn f() {}").is_empty());
    let mut faults = Vec::new();
    for source in sources().iter().filter(|source| source.room != "cli" && source.path != Path::new("main.rs")) {
        if source.path.to_string_lossy().contains("tests") {
            continue;
        }
        for (line, path) in seen(&source.text) {
            faults.push(format!("{}:{line}: {path}", source.path.display()));
        }
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

#[test]
fn no_binary_float_touches_money() {
    let seen = |text: &str| -> Vec<usize> {
        let named = paths(text, Tests::Read).into_iter();
        let named = named.filter(|it| it.words.iter().any(|word| word == "f32" || word == "f64")).map(|it| it.line);
        named.chain(typed_numbers(text, "f32")).chain(typed_numbers(text, "f64")).collect()
    };
    for text in [
        "fn f(it: f64) {}",
        "const A: X = f32::MAX;",
        "fn f() { 1.5f64 }",
        "fn f() { 2_f32 }",
        "fn f() { m!(a as f64) }",
    ] {
        assert_eq!(seen(text), [1], "{text}");
    }
    assert!(seen("/// f64\nfn f() { \"1f64\" } // f64").is_empty());
    let mut faults = Vec::new();
    for source in
        sources().iter().filter(|source| ["money", "estimate", "ledger", "rules"].contains(&source.room.as_str()))
    {
        faults.extend(seen(&source.text).into_iter().map(|line| format!("{}:{line}", source.path.display())));
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

#[test]
fn no_item_of_the_demo_is_named_in_the_code() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("catalog_demo");
    let mut ids = BTreeSet::new();
    for entry in std::fs::read_dir(root).expect("the demo's catalog") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|it| it == "toml") {
            let text = std::fs::read_to_string(&path).expect("text");
            ids.extend(text.lines().filter_map(|line| {
                let id = line.strip_prefix("[item.")?.strip_suffix(']')?;
                (!id.contains('.')).then(|| id.trim_matches('"').to_owned())
            }));
        }
    }
    assert!(ids.len() >= 20, "the demo's catalog has items, {} found", ids.len());
    let mut faults = Vec::new();
    for source in sources() {
        // An example of a field table may show an id as a person would type it; it is help, never compared with anything.
        if source.path.to_string_lossy().contains("entries.rs") {
            continue;
        }
        for id in ids.iter().filter(|id| id.contains('-') && source.text.contains(&format!("\"{id}\""))) {
            faults.push(format!("{}: {id}", source.path.display()));
        }
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

#[test]
fn every_path_in_the_developers_pages_exists() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut missing = Vec::new();
    let mut pages = vec!["DEVELOPERS.md".to_owned(), "README.md".to_owned()];
    let decisions = MAY_IMPORT.iter().map(|(room, _)| format!("src/{room}/DECISIONS.md"));
    pages.extend(decisions.filter(|page| root.join(page).exists()));
    assert!(pages.len() > 15, "{pages:?}");
    for page in pages {
        let text = std::fs::read_to_string(root.join(&page)).expect("a page of the project");
        let spans = text.split('`').skip(1).step_by(2);
        let paths = spans.filter(|it| {
            ["src/", "tests/", "templates/", "catalog_demo/", "output/", ".ci/"].iter().any(|top| it.starts_with(top))
        });
        for path in paths.filter(|it| !it.contains([' ', '*', '<'])) {
            if !root.join(path).exists() {
                missing.push(format!("{page}: {path}"));
            }
        }
    }
    assert!(missing.is_empty(), "{missing:?}");
}
