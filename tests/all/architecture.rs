//! The plan of the house, held to: which room may name which, what every file opens with, how long files and functions may be,
//! and who touches disk, clock and terminal.
//!
//! The table is data; a new edge is a dated decision in DEVELOPERS.md. Every way a room can name another is looked for:
//! `crate::room`, grouped `use crate::{…}`, `super::super::…` out of the room, and a re-export that hides an edge.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Room, and the rooms it may import.
const MAY_IMPORT: &[(&str, &str)] = &[
    ("findings", ""),
    ("shapes", ""),
    ("enclosures", "findings"),
    ("lettering", "findings"),
    ("spreadsheet", "findings"),
    ("measure", ""),
    ("money", ""),
    ("ledger", "measure money findings"),
    ("reading", "measure money findings"),
    ("rules", "measure money findings ledger"),
    ("catalog", "measure money findings reading rules"),
    ("job", "measure money findings ledger reading catalog"),
    ("engineering", "measure"),
    ("mechanics", "measure job catalog engineering"),
    ("review", "measure findings job catalog engineering mechanics reading"),
    ("takeoff", "measure findings ledger rules job catalog engineering mechanics review reading"),
    ("estimate", "measure money findings ledger job catalog takeoff"),
    ("issues", "findings reading"),
    ("comparison", "measure money findings ledger reading job catalog takeoff estimate"),
    ("drawings", "measure shapes lettering job catalog engineering takeoff"),
    (
        "documents",
        "findings shapes enclosures lettering spreadsheet measure money ledger reading rules catalog job engineering \
         mechanics review takeoff estimate drawings",
    ),
    ("markup", "findings shapes"),
    ("typeset", "findings shapes enclosures lettering markup"),
    ("pdf", "findings shapes enclosures lettering markup typeset"),
    ("html", "findings shapes lettering markup"),
    (
        "pipeline",
        "findings shapes enclosures lettering spreadsheet measure money ledger reading rules catalog job engineering \
         mechanics review takeoff estimate issues comparison drawings documents markup typeset pdf html",
    ),
    ("cli", "pipeline findings job catalog reading comparison money"),
];

/// Names that say nothing of what a room or file is for.
const EMPTY_NAMES: &[&str] = &["util", "utils", "common", "helpers", "core", "types", "misc"];

/// A file of `src`, cut into its room and its text without comments and strings.
struct Source {
    path: PathBuf,
    room: String,
    /// How many modules deep below the crate the file's items stand.
    depth: usize,
    text: String,
    code: String,
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
    found.into_iter().map(|path| source(&root, path)).collect()
}

fn source(root: &Path, path: PathBuf) -> Source {
    let text = std::fs::read_to_string(&path).expect("a source file is text");
    let inside = path.strip_prefix(root).expect("below src");
    let parts: Vec<String> = inside.iter().map(|part| part.to_string_lossy().into_owned()).collect();
    let room = if parts.len() > 1 { parts[0].clone() } else { String::new() };
    let is_mod = parts.last().is_some_and(|name| name == "mod.rs");
    let depth = if is_mod { parts.len() - 1 } else { parts.len() };
    Source { code: bare(&text), room, depth, text, path: inside.to_path_buf() }
}

/// The text with comments and strings blanked, so that neither can look like an import.
fn bare(text: &str) -> String {
    let bytes: Vec<char> = text.chars().collect();
    let mut out = String::with_capacity(text.len());
    let mut at = 0;
    while at < bytes.len() {
        let rest = |offset: usize| bytes.get(at + offset).copied().unwrap_or('\0');
        if bytes[at] == '/' && rest(1) == '/' {
            while at < bytes.len() && bytes[at] != '\n' {
                at += 1;
            }
        } else if bytes[at] == '"' {
            at += 1;
            while at < bytes.len() && bytes[at] != '"' {
                if bytes[at] == '\n' {
                    out.push('\n');
                }
                at += if bytes[at] == '\\' { 2 } else { 1 };
            }
            at += 1;
            out.push_str("\"\"");
        } else if bytes[at] == 'r' && (rest(1) == '"' || (rest(1) == '#' && (rest(2) == '"' || rest(2) == '#'))) {
            let mut hashes = 0;
            while rest(1 + hashes) == '#' {
                hashes += 1;
            }
            let end: String = std::iter::once('"').chain(std::iter::repeat_n('#', hashes)).collect();
            let tail: String = bytes[(at + 2 + hashes).min(bytes.len())..].iter().collect();
            let length = tail.find(&end).map_or(tail.chars().count(), |byte| tail[..byte].chars().count());
            out.extend(tail.chars().take(length).filter(|it| *it == '\n'));
            at += 2 + hashes + length + end.chars().count();
            out.push_str("\"\"");
        } else if bytes[at] == '\'' && (rest(2) == '\'' || (rest(1) == '\\' && (rest(3) == '\'' || rest(2) == '\''))) {
            at += if rest(1) == '\\' { 4 } else { 3 };
            out.push_str("' '");
        } else {
            out.push(bytes[at]);
            at += 1;
        }
    }
    out
}

/// Rooms that a file names, each with the line of the naming.
fn named_rooms(source: &Source) -> BTreeMap<String, usize> {
    let mut named = BTreeMap::new();
    let mut note = |word: &str, byte: usize| {
        let line = source.code[..byte].matches('\n').count() + 1;
        named.entry(word.to_owned()).or_insert(line);
    };
    let crate_root = "crate::";
    for (byte, _) in source.code.match_indices(crate_root) {
        for word in heads(&source.code[byte + crate_root.len()..]) {
            note(&word, byte);
        }
    }
    // `super` as often as the file is deep stands for the crate.
    let climb = "super::".repeat(source.depth);
    if !climb.is_empty() {
        for (byte, _) in source.code.match_indices(&climb) {
            let longer = source.code[..byte].ends_with("super::");
            if !longer {
                for word in heads(&source.code[byte + climb.len()..]) {
                    note(&word, byte);
                }
            }
        }
    }
    named
}

/// First words of a path or of the members of a group.
fn heads(rest: &str) -> Vec<String> {
    let word = |text: &str| text.chars().take_while(|it| it.is_alphanumeric() || *it == '_').collect::<String>();
    let Some(group) = rest.strip_prefix('{') else { return vec![word(rest)] };
    let mut heads = Vec::new();
    let mut depth = 0;
    let mut start = 0;
    for (at, it) in group.char_indices() {
        match it {
            '{' => depth += 1,
            '}' if depth == 0 => {
                heads.push(word(group[start..at].trim()));
                break;
            }
            '}' => depth -= 1,
            ',' if depth == 0 => {
                heads.push(word(group[start..at].trim()));
                start = at + 1;
            }
            _ => {}
        }
    }
    heads
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
        for (room, line) in named_rooms(source) {
            let known = table.contains_key(room.as_str());
            if known && room != source.room && !may.contains(room.as_str()) {
                faults.push(format!("{}:{line}: `{}` may not name `{room}`", source.path.display(), source.room));
            }
        }
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

#[test]
fn the_scan_sees_every_way_of_naming_a_room() {
    let seen = |depth: usize, text: &str| {
        let code = bare(text);
        let source = Source { path: PathBuf::new(), room: "money".into(), depth, text: text.into(), code };
        named_rooms(&source).into_keys().filter(|room| table().contains_key(room.as_str())).collect::<Vec<_>>()
    };
    assert_eq!(seen(2, "use crate::pdf::Page;"), ["pdf"]);
    assert_eq!(seen(2, "use crate::{job::{Job, Opening}, takeoff};"), ["job", "takeoff"]);
    assert_eq!(seen(2, "let it = super::super::markup::Tree;"), ["markup"]);
    assert_eq!(seen(1, "pub use super::typeset::Pages;"), ["typeset"]);
    assert_eq!(seen(2, "// crate::pdf\nlet s = \"crate::pdf\"; let r = r#\"crate::pdf\"#;"), Vec::<String>::new());
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
        let told = head.contains("In:") && head.contains("Out:");
        if !test && !told {
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
    let forbidden = [
        "std::fs",
        "std::env",
        "println!",
        "eprintln!",
        "print!(",
        "SystemTime",
        "Instant::now",
        "std::process",
        "stdout()",
    ];
    let mut faults = Vec::new();
    for source in sources().iter().filter(|source| source.room != "cli" && source.path != Path::new("main.rs")) {
        if source.path.to_string_lossy().contains("tests") {
            continue;
        }
        let own = source.code.split("#[cfg(test)]").next().unwrap_or("");
        for word in forbidden.iter().filter(|word| own.contains(*word)) {
            faults.push(format!("{}: {word}", source.path.display()));
        }
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

#[test]
fn no_binary_float_touches_money() {
    let mut faults = Vec::new();
    for source in
        sources().iter().filter(|source| ["money", "estimate", "ledger", "rules"].contains(&source.room.as_str()))
    {
        for word in ["f32", "f64"] {
            let hit = source.code.split(|it: char| !it.is_alphanumeric() && it != '_').any(|part| part == word);
            if hit {
                faults.push(format!("{}: {word}", source.path.display()));
            }
        }
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
fn every_path_in_the_developers_page_exists() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut missing = Vec::new();
    for page in ["DEVELOPERS.md", "README.md"] {
        let text = std::fs::read_to_string(root.join(page)).expect("a page of the project");
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
