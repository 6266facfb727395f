//! What stands between the braces of a template, looked at without running it.
//!
//! In: the text of one `{{ }}` or `{% %}`. Out: what is refused in it, and whether it opens a part or includes a template.
//! May not know: the markup around it.

use std::ops::Range;

/// The statements that templates may use.
const ALLOWED: [&str; 12] =
    ["if", "elif", "else", "endif", "for", "endfor", "set", "set_global", "endset", "include", "break", "continue"];

/// The largest number that a range may name.
const LARGEST_RANGE: u32 = 200;

/// Filters that can give back a longer text than they got.
const LENGTHENING: [&str; 4] = ["replace", "indent", "join", "newlines_to_br"];

/// Something refused, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// What is refused, after "templates may not use".
    pub found: String,
    /// What to write instead.
    pub instead: &'static str,
    /// Where it stands.
    pub at: Range<usize>,
}

/// What a statement means to the scan.
#[derive(Debug, PartialEq, Eq)]
pub enum Statement<'a> {
    /// Opens what the statement `end` with this word closes.
    Open(&'a str),
    /// Closes it.
    Close,
    /// Includes the template of that name.
    Include(&'a str),
    /// Anything else.
    Other,
}

/// The end of the part that opens at `start` with `{{`, `{%` or `{#`; the end of the text where it is not closed.
pub fn end(source: &str, start: usize) -> usize {
    let bytes = source.as_bytes();
    let close = match bytes[start + 1] {
        b'{' => b"}}",
        b'%' => b"%}",
        _ => b"#}",
    };
    let mut quote = None;
    let mut at = start + 2;
    while at < bytes.len() {
        match (quote, bytes[at]) {
            (None, _) if bytes[at..].starts_with(close) => return at + 2,
            (None, byte @ (b'"' | b'\'' | b'`')) if close != b"#}" => quote = Some(byte),
            (Some(open), byte) if open == byte => quote = None,
            _ => {}
        }
        at += 1;
    }
    source.len()
}

/// Reads the first word of a statement.
pub fn read(inner: &str) -> Statement<'_> {
    let inner = trimmed(inner);
    let word = inner.split(|c: char| !c.is_ascii_alphanumeric() && c != '_').next().unwrap_or("");
    match word {
        "for" | "if" => Statement::Open(word),
        "set" | "set_global" if !inner.contains('=') => Statement::Open("set"),
        "endfor" | "endif" | "endset" => Statement::Close,
        "include" => {
            let name = inner["include".len()..].trim();
            Statement::Include(name.trim_matches(|c| c == '"' || c == '\'' || c == '`'))
        }
        _ => Statement::Other,
    }
}

fn trimmed(inner: &str) -> &str {
    inner.strip_prefix('-').unwrap_or(inner).trim_start()
}

/// What a part does with names, as far as it could make a text grow with every statement.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Naming<'a> {
    /// The name that it sets.
    pub sets: Option<&'a str>,
    /// The names that it puts together or lengthens, each with its place; none where it takes values as they are.
    pub joins: Vec<(&'a str, Range<usize>)>,
}

/// The names of the part at `inner`.
pub fn naming(source: &str, inner: Range<usize>, expression: bool) -> Naming<'_> {
    let words = words(source, inner);
    let text = |at: &Range<usize>| &source[at.clone()];
    let is_set = !expression && words.first().is_some_and(|first| matches!(text(first), "set" | "set_global"));
    let sets = words.get(1).filter(|_| is_set).map(text);
    let is_name = |word: &str| word.starts_with(|it: char| it.is_ascii_alphabetic() || it == '_');
    let mut grows = false;
    for (at, word) in words.iter().enumerate() {
        let before = at.checked_sub(1).and_then(|at| words.get(at)).map(text);
        grows |= match text(word) {
            "~" | "{" => true,
            // Behind a name, a closing bracket or another index it is an index, else a list that is put together.
            "[" => !before.is_some_and(|it| is_name(it) && it != "in" || it == "]" || it == ")"),
            filter => before == Some("|") && LENGTHENING.contains(&filter),
        };
    }
    let skipped = usize::from(is_set) * 2;
    let names = words.iter().skip(skipped).filter(|word| grows && is_name(text(word)));
    Naming { sets, joins: names.map(|word| (text(word), word.clone())).collect() }
}

/// What is refused in the part at `inner`, which stands between its braces.
pub fn refusals(source: &str, inner: Range<usize>, expression: bool) -> Vec<Refusal> {
    let words = words(source, inner.clone());
    let text = |at: &Range<usize>| &source[at.clone()];
    let mut refused = Vec::new();
    let mut refuse = |found: String, instead: &'static str, at: &Range<usize>| {
        refused.push(Refusal { found, instead, at: at.clone() });
    };
    if let Some(first) = words.first().filter(|first| !expression && !ALLOWED.contains(&text(first))) {
        refuse(format!("the statement {}", text(first)), "use if, for, set and include", first);
    }
    let whole = words.first().filter(|first| matches!(text(first), "set" | "set_global"));
    if let Some(first) = whole.filter(|_| !expression && !words.iter().any(|word| text(word) == "=")) {
        refuse("a set that holds a part of the paper".into(), "write the part where it is printed", first);
    }
    let mut lengthening = 0;
    for (at, word) in words.iter().enumerate() {
        let before = at.checked_sub(1).map(|at| text(&words[at]));
        match text(word) {
            filter if before == Some("|") && LENGTHENING.contains(&filter) => {
                lengthening += 1;
                if lengthening == 2 {
                    refuse("two filters that lengthen a text, one upon the other".into(), "use one of them", word);
                }
            }
            "safe" if before == Some("|") => {
                refuse("the filter safe".into(), "leave it out; looks come from tags", word);
            }
            "+" | "-" | "*" | "/" | "%" => {
                refuse("arithmetic".into(), "let the view bring the figure as finished text", word);
            }
            "range" if !small_range(source, &words[at + 1..]) => {
                let found = format!("a range that is not of numbers up to {LARGEST_RANGE}");
                refuse(found, "write range(end=12), or let the view bring a list", word);
            }
            "for" if expression || at > 0 => {
                refuse("a loop inside an expression".into(), "use a statement", word);
            }
            _ => {}
        }
    }
    refused
}

/// Whether the words that follow `range` are an argument list of small literal numbers.
fn small_range(source: &str, words: &[Range<usize>]) -> bool {
    let mut inside = words.iter().map(|at| &source[at.clone()]).skip_while(|word| *word == "(");
    let opened = words.first().is_some_and(|at| &source[at.clone()] == "(");
    opened
        && inside.by_ref().take_while(|word| *word != ")").all(|word| match word {
            "start" | "end" | "step_by" | "=" | "," => true,
            number => number.parse::<u32>().is_ok_and(|number| number <= LARGEST_RANGE),
        })
}

/// Names, numbers and signs outside of quotes, without the dashes that trim white space at either end.
fn words(source: &str, inner: Range<usize>) -> Vec<Range<usize>> {
    let bytes = source.as_bytes();
    let (mut at, mut end) = (inner.start, inner.end);
    at += usize::from(at < end && bytes[at] == b'-');
    end -= usize::from(at < end && bytes[end - 1] == b'-');
    let is_word = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'_' || byte >= 0x80;
    let mut words = Vec::new();
    while at < end {
        let start = at;
        match bytes[at] {
            quote @ (b'"' | b'\'' | b'`') => {
                at += 1;
                while at < end && bytes[at] != quote {
                    at += 1;
                }
                at += 1;
                continue;
            }
            byte if is_word(byte) => {
                while at < end && is_word(bytes[at]) {
                    at += 1;
                }
            }
            byte => {
                at += 1;
                if byte.is_ascii_whitespace() {
                    continue;
                }
            }
        }
        words.push(start..at);
    }
    words
}
