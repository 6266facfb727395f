//! A file to start from, made of the field tables alone.
//!
//! In: a record. Out: TOML text with every key once. May not know: any one record.

use super::{FieldInfo, Record, RecordInfo, Shape};

/// Widest line of a comment.
const WIDTH: usize = 110;

/// Which keys of a starter file are live; the rest stand behind `#`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Live {
    /// Those without which the file would not pass.
    Needed,
    /// All that have an example.
    All,
}

/// A TOML file with every key of a record once: what it means, its unit, and an example.
pub fn starter<R: Record>(live: Live) -> String {
    let mut writer = Writer { out: String::new(), live, above: Vec::new(), done: Vec::new() };
    writer.comment(R::info().help);
    writer.table(R::info(), "", true);
    writer.out
}

struct Writer {
    out: String,
    live: Live,
    /// Records whose tables are open.
    above: Vec<&'static str>,
    /// Records that were written in full at the top of the file.
    done: Vec<&'static str>,
}

impl Writer {
    fn comment(&mut self, text: &str) {
        let mut line = "#".to_owned();
        for word in text.split_whitespace() {
            if line.len() + 1 + word.len() > WIDTH && line.len() > 1 {
                self.line(&line);
                "#".clone_into(&mut line);
            }
            line.push(' ');
            line.push_str(word);
        }
        if line.len() > 1 {
            self.line(&line);
        }
    }

    fn line(&mut self, line: &str) {
        self.out.push_str(line);
        self.out.push('\n');
    }

    /// Whether a key is written without `#`.
    fn is_live(&self, field: &FieldInfo) -> bool {
        self.live == Live::All || field.needed
    }

    /// Writes the values of a table first, then the tables in it, each under its own head.
    fn table(&mut self, info: &'static RecordInfo, path: &str, open: bool) {
        for field in super::heads::fields(info).filter(|field| inside((field.shape)()).is_none()) {
            self.value(field, open && self.is_live(field));
        }
        self.above.push(info.name);
        for field in info.fields {
            if let Some((record, list)) = inside((field.shape)()) {
                self.inner_table(field, record, list, path, open);
            }
        }
        self.above.pop();
    }

    fn inner_table(&mut self, field: &FieldInfo, record: &'static RecordInfo, list: bool, path: &str, open: bool) {
        let name = match ((field.shape)(), field.example) {
            (Shape::Named(_), "") => ".a-name".to_owned(),
            (Shape::Named(_), example) => format!(".{example}"),
            _ => String::new(),
        };
        let key = if path.is_empty() { field.name.to_owned() } else { format!("{path}.{}", field.name) };
        self.line("");
        self.comment(&format!("{}{}", field.help, flags(field)));
        // A record that holds its own sort, or was written in full at the top, is not written again deeper down.
        if self.above.contains(&record.name) || (!path.is_empty() && self.done.contains(&record.name)) {
            self.comment(&format!("Keys of `{key}` are those of {} above.", record.name));
            return;
        }
        let open = open && self.is_live(field);
        let head = if list { format!("[[{key}{name}]]") } else { format!("[{key}{name}]") };
        self.line(&format!("{}{head}", if open { "" } else { "# " }));
        self.table(record, &format!("{key}{name}"), open);
        if path.is_empty() {
            self.done.push(record.name);
        }
    }

    fn value(&mut self, field: &FieldInfo, live: bool) {
        self.comment(&format!("{} {}{}", field.help, sort((field.shape)()), flags(field)));
        let example = if field.example.is_empty() { "\"\"".to_owned() } else { field.typed(field.example) };
        let hidden = if live && !field.example.is_empty() { "" } else { "# " };
        self.line(&format!("{hidden}{} = {example}", field.name));
    }
}

/// The record of a field that is a table or several, and whether it is a list.
fn inside(shape: Shape) -> Option<(&'static RecordInfo, bool)> {
    match shape {
        Shape::Record(info) | Shape::Named(info) | Shape::EachOrList(info) => Some((info, false)),
        Shape::Records(info) => Some((info, true)),
        Shape::Scalar { .. } | Shape::Choice(_) | Shape::List(_) => None,
    }
}

/// What belongs at a key, in brackets.
fn sort(shape: Shape) -> String {
    match shape {
        Shape::Scalar { words, unit: "", .. } => format!("({words})"),
        Shape::Scalar { words, unit, .. } => format!("({words}: {unit})"),
        Shape::Choice(words) => {
            format!("({})", words.iter().map(|word| word.word).collect::<Vec<_>>().join(" | "))
        }
        Shape::List(one) => format!("(a list, each {})", sort(*one).trim_matches(['(', ')'])),
        _ => String::new(),
    }
}

fn flags(field: &FieldInfo) -> String {
    let mut out = String::new();
    if field.needed {
        out.push_str(" Needed.");
    }
    if field.inherits {
        out.push_str(" May come from the kind.");
    }
    if field.undoable {
        out.push_str(" \"none\" takes away what the kind gives.");
    }
    if let Some((low, high)) = field.within {
        out.push_str(&format!(" From {low} to {high}."));
    }
    out
}
