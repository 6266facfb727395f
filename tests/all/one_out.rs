//! Everything that is typed in a job file, its tables and a catalog, and the same texts with one of these things taken out or
//! another value in its place.
//!
//! In: texts of files. Out: keys, entries of lists, cells, rows and columns, by path; a text without one of them, or with another.
//! May not know: what any key means.

use std::collections::BTreeMap;
use std::fmt;

use toml::{Table, Value};

/// Files by path.
pub type Texts = BTreeMap<String, String>;

/// One step into a TOML file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// A key of a table.
    Key(String),
    /// An entry of a list, from 0.
    Entry(usize),
}

/// What is taken out of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// A key with its value, or an entry of a list.
    Node(Vec<Step>),
    /// A cell of a table that is not empty: row and column from 0, the head row apart.
    Cell(usize, usize),
    /// A row of a table.
    Row(usize),
    /// A column of a table.
    Column(usize),
}

/// One thing that was typed.
#[derive(Clone, Debug)]
pub struct Typed {
    /// Its file.
    pub file: String,
    /// Where it stands there.
    pub what: What,
    /// The same in words, with names in place of positions where entries have some: `run[LP-1>101].length`.
    pub words: String,
}

impl fmt::Display for Typed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.file, self.words)
    }
}

/// Everything that is typed in some files, in order: each table, key, entry, row, column and cell.
pub fn typed(texts: &Texts) -> Vec<Typed> {
    let mut all = Vec::new();
    for (file, text) in texts {
        let mut add = |what, words| all.push(Typed { file: file.clone(), what, words });
        if file.ends_with(".csv") {
            let rows = rows(text);
            let head = &rows[0];
            head.iter().enumerate().for_each(|(at, name)| add(What::Column(at), format!("column {name}")));
            for (at, row) in rows[1..].iter().enumerate() {
                add(What::Row(at), format!("row {}", row[0]));
                for (column, _) in row.iter().enumerate().filter(|(_, cell)| !cell.is_empty()) {
                    let named = head.get(column).map_or("?", String::as_str);
                    add(What::Cell(at, column), format!("row {} {named}", row[0]));
                }
            }
        } else {
            nodes(&Value::Table(parsed(text)), &mut Vec::new(), "", &mut |path, words| {
                add(What::Node(path.to_vec()), words.to_owned());
            });
        }
    }
    all
}

/// The text of its file without it.
pub fn without(text: &str, what: &What) -> String {
    if let What::Node(path) = what {
        let mut root = Value::Table(parsed(text));
        take_out(&mut root, path);
        return written(&root);
    }
    let mut rows = rows(text);
    match *what {
        What::Cell(row, column) => rows[row + 1][column].clear(),
        What::Row(row) => drop(rows.remove(row + 1)),
        What::Column(column) => rows.iter_mut().for_each(|row| drop(row.remove(column))),
        What::Node(_) => {}
    }
    joined(&rows)
}

/// The text of its file with something else in its place: a value of TOML, or the text of a cell.
pub fn with(text: &str, what: &What, other: &Value) -> String {
    match what {
        What::Node(path) => {
            let mut root = Value::Table(parsed(text));
            *at(&mut root, path) = other.clone();
            written(&root)
        }
        What::Cell(row, column) => {
            let mut rows = rows(text);
            rows[row + 1][*column] = other.as_str().expect("the text of a cell").to_owned();
            joined(&rows)
        }
        What::Row(_) | What::Column(_) => unreachable!("a row has no value"),
    }
}

/// The value that was typed there.
pub fn value(text: &str, what: &What) -> Option<Value> {
    match what {
        What::Node(path) => Some(at(&mut Value::Table(parsed(text)), path).clone()),
        What::Cell(row, column) => Some(Value::String(rows(text)[row + 1][*column].clone())),
        What::Row(_) | What::Column(_) => None,
    }
}

fn at<'v>(value: &'v mut Value, path: &[Step]) -> &'v mut Value {
    path.iter().fold(value, |value, step| match step {
        Step::Key(key) => &mut value[key.as_str()],
        Step::Entry(at) => &mut value[*at],
    })
}

fn joined(rows: &[Vec<String>]) -> String {
    rows.iter().map(|row| row.iter().map(|it| cell(it)).collect::<Vec<_>>().join(",") + "\n").collect()
}

fn parsed(text: &str) -> Table {
    text.parse().expect("a file that can be read")
}

/// Every node under a value, the outer ones first.
fn nodes(value: &Value, path: &mut Vec<Step>, words: &str, found: &mut dyn FnMut(&[Step], &str)) {
    let inner: Vec<(Step, &Value, String)> = match value {
        Value::Table(table) => {
            let dot = if words.is_empty() { "" } else { "." };
            let each = table.iter().map(|(key, it)| (Step::Key(key.clone()), it, format!("{words}{dot}{key}")));
            each.collect()
        }
        Value::Array(list) => {
            let each = list.iter().enumerate();
            each.map(|(at, it)| (Step::Entry(at), it, format!("{words}[{}]", name(it, at)))).collect()
        }
        _ => Vec::new(),
    };
    for (step, value, words) in inner {
        path.push(step);
        found(path, &words);
        nodes(value, path, &words, found);
        path.pop();
    }
}

/// What an entry of a list is called: by its ends, its id, its number or mark, else its position from 1.
fn name(value: &Value, at: usize) -> String {
    let text = |key: &str| value.get(key).and_then(Value::as_str);
    match (text("from"), text("to")) {
        (Some(from), Some(to)) => format!("{from}>{to}"),
        _ => ["id", "number", "mark"].into_iter().find_map(text).map_or_else(|| (at + 1).to_string(), str::to_owned),
    }
}

fn take_out(value: &mut Value, path: &[Step]) {
    match (value, path) {
        (Value::Table(table), [Step::Key(key)]) => drop(table.remove(key)),
        (Value::Array(list), [Step::Entry(at)]) => drop(list.remove(*at)),
        (Value::Table(table), [Step::Key(key), rest @ ..]) => take_out(&mut table[key], rest),
        (Value::Array(list), [Step::Entry(at), rest @ ..]) => take_out(&mut list[*at], rest),
        _ => unreachable!("a path of this text"),
    }
}

/// A table of values as the text of a file: a line for each key of its root.
fn written(root: &Value) -> String {
    let table = root.as_table().expect("a table");
    table.iter().map(|(key, value)| format!("{} = {}\n", quoted(key), inline(value))).collect()
}

fn inline(value: &Value) -> String {
    let joined = |parts: Vec<String>| parts.join(", ");
    match value {
        Value::Table(table) => {
            let parts = table.iter().map(|(key, value)| format!("{} = {}", quoted(key), inline(value)));
            format!("{{ {} }}", joined(parts.collect()))
        }
        Value::Array(list) => format!("[{}]", joined(list.iter().map(inline).collect())),
        Value::String(text) => quoted(text),
        Value::Integer(number) => number.to_string(),
        Value::Boolean(flag) => flag.to_string(),
        Value::Datetime(when) => when.to_string(),
        Value::Float(number) => number.to_string(),
    }
}

/// A basic string of TOML, which a quoted key is too.
fn quoted(text: &str) -> String {
    let escaped = text.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\n").replace('\t', "\\t");
    format!("\"{escaped}\"")
}

/// The cells of a table, row by row.
fn rows(text: &str) -> Vec<Vec<String>> {
    text.lines().filter(|line| !line.is_empty() && !line.starts_with('#')).map(cells).collect()
}

fn cells(line: &str) -> Vec<String> {
    let (mut cells, mut inside) = (vec![String::new()], false);
    for it in line.chars() {
        match it {
            '"' => inside = !inside,
            ',' if !inside => cells.push(String::new()),
            other => cells.last_mut().expect("one").push(other),
        }
    }
    cells
}

fn cell(text: &str) -> String {
    if text.contains(',') { format!("\"{text}\"") } else { text.to_owned() }
}

#[test]
fn what_is_left_is_what_was_typed_but_one_thing() {
    let toml = "a = 1\nlist = [{ id = \"x\", b = \"q\\\"\" }, { id = \"y\" }]\n[t.u]\nday = 2026-01-02\n";
    let texts = Texts::from([("f.toml".to_owned(), toml.to_owned())]);
    let all = typed(&texts);
    let words: Vec<&str> = all.iter().map(|it| it.words.as_str()).collect();
    let expected = ["a", "list", "list[x]", "list[x].id", "list[x].b", "list[y]", "list[y].id", "t", "t.u", "t.u.day"];
    assert_eq!(words, expected);
    for one in &all {
        let left = without(toml, &one.what);
        let inner = |it: &&Typed| it.words == one.words || it.words.starts_with(&format!("{}.", one.words));
        let gone = all.iter().filter(inner).count();
        let entries = if one.words == "list" { 5 } else { 0 };
        assert_eq!(typed(&Texts::from([(one.file.clone(), left)])).len(), all.len() - gone - entries, "{one}");
    }
    let csv = "a,b\n1,\"x, y\"\n2,\n";
    let texts = Texts::from([("f.csv".to_owned(), csv.to_owned())]);
    assert_eq!(typed(&texts).len(), 2 + 2 + 3);
    assert_eq!(without(csv, &What::Row(0)), "a,b\n2,\n");
    assert_eq!(without(csv, &What::Cell(0, 0)), "a,b\n,\"x, y\"\n2,\n");
    assert_eq!(without(csv, &What::Column(0)), "b\n\"x, y\"\n\n");
}
