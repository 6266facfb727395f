//! A template's text as it is loaded: every literal start tag gets a place index, and what templates may not use is refused.
//!
//! In: the text of one template. Out: the same text with an index attribute in each start tag, where those tags stand,
//! what is refused, how deep its loops nest, and which templates it includes. May not know: the elements, or any view.

use std::collections::BTreeSet;
use std::ops::Range;

use super::statement::{self, Refusal, Statement};

/// The name of the index attribute that start tags get; no element has it.
pub const INDEX: &str = "_";

/// Loops may stand in one another this deep, over all included templates.
pub const DEEPEST: u32 = 3;

/// A literal start tag of a template.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tag {
    /// From `<` to the end of the name, in bytes of the template as written.
    pub name: Range<usize>,
    /// The end of the tag, past its `>`.
    pub end: usize,
}

/// A template of another name, and how many loops stand around its inclusion.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Include {
    /// The name of the included template.
    pub name: String,
    /// Loops around it in this template.
    pub depth: u32,
    /// Where it is named.
    pub at: Range<usize>,
}

/// What the scan of a template gives.
#[derive(Debug, Default)]
pub struct Scanned {
    /// The template with an index attribute in each start tag.
    pub text: String,
    /// The start tags in order; the first has the index that the scan was given.
    pub tags: Vec<Tag>,
    /// Where index attributes were put: position in `text`, length.
    inserts: Vec<(usize, usize)>,
    /// What is refused.
    pub refusals: Vec<Refusal>,
    /// The templates it includes.
    pub includes: Vec<Include>,
    /// Statements that are never closed: their first word, and where they stand.
    pub unclosed: Vec<(String, Range<usize>)>,
    /// How deep its own loops nest.
    pub depth: u32,
    /// The names that it sets.
    pub sets: BTreeSet<String>,
    /// The names that it puts together with others, or lengthens, and where.
    pub joins: Vec<(String, Range<usize>)>,
}

impl Scanned {
    /// The position in the template as written of a position in the indexed text.
    pub fn original(&self, position: usize) -> usize {
        let added: usize = self
            .inserts
            .iter()
            .take_while(|(at, _)| *at < position)
            .map(|(at, length)| (*length).min(position - at))
            .sum();
        position - added
    }
}

/// Where the scan stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Inside {
    Text,
    Tag { quote: Option<u8> },
    Comment,
}

struct Scanner<'a> {
    source: &'a str,
    at: usize,
    copied: usize,
    inside: Inside,
    open: Vec<(&'a str, Range<usize>)>,
    first: usize,
    out: Scanned,
}

/// Scans a template whose first start tag gets the index `first`.
pub fn scan(source: &str, first: usize) -> Scanned {
    let mut scanner =
        Scanner { source, at: 0, copied: 0, inside: Inside::Text, open: Vec::new(), first, out: Scanned::default() };
    while scanner.at < source.len() {
        scanner.step();
    }
    scanner.out.text.push_str(&source[scanner.copied..]);
    scanner.out.unclosed = scanner.open.into_iter().map(|(word, at)| (word.to_string(), at)).collect();
    scanner.out
}

impl<'a> Scanner<'a> {
    fn rest(&self) -> &'a str {
        &self.source[self.at..]
    }

    fn step(&mut self) {
        let rest = self.rest();
        if rest.starts_with("{{") || rest.starts_with("{%") || rest.starts_with("{#") {
            return self.template_part();
        }
        match self.inside {
            Inside::Text => self.in_text(),
            Inside::Tag { quote } => self.in_tag(quote),
            Inside::Comment => match rest.find("-->").filter(|at| *at == 0) {
                Some(_) => self.leave(3),
                None => self.advance(),
            },
        }
    }

    fn advance(&mut self) {
        self.at += self.rest().chars().next().map_or(1, char::len_utf8);
    }

    fn leave(&mut self, bytes: usize) {
        self.at += bytes;
        self.inside = Inside::Text;
    }

    fn in_text(&mut self) {
        let rest = self.rest();
        if rest.starts_with("<!--") {
            self.inside = Inside::Comment;
            self.at += 4;
        } else if let Some(after) = rest.strip_prefix('<') {
            match after.chars().next() {
                Some(first) if first.is_ascii_alphabetic() || first == '_' => self.open_tag(),
                Some('{') => self.refuse(1, "a value as the name of a tag", "write the tag's name out"),
                _ => self.advance(),
            }
        } else {
            self.advance();
        }
    }

    /// Copies `<name`, puts the index behind it and stands inside the tag.
    fn open_tag(&mut self) {
        let start = self.at;
        let is_name = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-' | '.' | ':');
        let end = self.source[start + 1..].find(|c| !is_name(c)).map_or(self.source.len(), |length| start + 1 + length);
        let index = format!(" {INDEX}=\"{}\"", self.first + self.out.tags.len());
        self.out.text.push_str(&self.source[self.copied..end]);
        self.out.inserts.push((self.out.text.len(), index.len()));
        self.out.text.push_str(&index);
        self.out.tags.push(Tag { name: start..end, end });
        (self.copied, self.at, self.inside) = (end, end, Inside::Tag { quote: None });
        if self.rest().starts_with("{{") {
            self.refuse(2, "a value as the name of a tag", "write the tag's name out");
        }
    }

    fn in_tag(&mut self, quote: Option<u8>) {
        let byte = self.source.as_bytes()[self.at];
        match (quote, byte) {
            (None, b'>') => {
                if let Some(tag) = self.out.tags.last_mut() {
                    tag.end = self.at + 1;
                }
                self.leave(1);
            }
            (None, b'"' | b'\'') => {
                self.inside = Inside::Tag { quote: Some(byte) };
                self.at += 1;
            }
            (Some(open), close) if open == close => {
                self.inside = Inside::Tag { quote: None };
                self.at += 1;
            }
            _ => self.advance(),
        }
    }

    fn refuse(&mut self, length: usize, found: &str, instead: &'static str) {
        let at = self.at..self.at + length;
        self.out.refusals.push(Refusal { found: found.to_string(), instead, at });
        self.at += length;
    }

    /// Passes over `{{ }}`, `{% %}` or `{# #}`, looking at what it holds.
    fn template_part(&mut self) {
        let start = self.at;
        let expression = self.rest().starts_with("{{");
        let comment = self.rest().starts_with("{#");
        let end = statement::end(self.source, start);
        self.at = end;
        if comment {
            return;
        }
        if expression && self.inside == (Inside::Tag { quote: None }) {
            let found = "a value between the attributes of a tag".to_string();
            let instead = "put the value between the quotes of an attribute";
            self.out.refusals.push(Refusal { found, instead, at: start..end });
        }
        let inner = (start + 2).min(end)..end.saturating_sub(2).max(start + 2).min(end);
        self.out.refusals.extend(statement::refusals(self.source, inner.clone(), expression));
        let naming = statement::naming(self.source, inner.clone(), expression);
        self.out.sets.extend(naming.sets.map(str::to_owned));
        self.out.joins.extend(naming.joins.into_iter().map(|(name, at)| (name.to_owned(), at)));
        if !expression {
            self.follow(statement::read(&self.source[inner.clone()]), inner);
        }
    }

    fn loops(&self) -> u32 {
        self.open.iter().filter(|(word, _)| *word == "for").count() as u32
    }

    fn follow(&mut self, statement: Statement<'a>, at: Range<usize>) {
        match statement {
            Statement::Open(word) => {
                self.open.push((word, at.clone()));
                let loops = self.loops();
                self.out.depth = self.out.depth.max(loops);
                if word == "for" && loops == DEEPEST + 1 {
                    let found = "loops more than three deep".to_string();
                    self.out.refusals.push(Refusal { found, instead: "let the view bring the rows in one list", at });
                }
            }
            Statement::Close => {
                self.open.pop();
            }
            Statement::Include(name) => {
                self.out.includes.push(Include { name: name.to_string(), depth: self.loops(), at });
            }
            Statement::Other => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::scan;

    #[test]
    fn every_literal_start_tag_gets_an_index_and_nothing_else_does() {
        let text = "<p class=\"a>b\">{{ x }}<b>{% if a < b %}</b>{# <i> #}<!-- <u> --><br/></p>{{ '<q>' }}";
        let scanned = scan(text, 7);
        assert_eq!(
            scanned.text,
            "<p _=\"7\" class=\"a>b\">{{ x }}<b _=\"8\">{% if a < b %}</b>{# <i> #}<!-- <u> --><br _=\"9\"/></p>{{ '<q>' }}"
        );
        let written: Vec<&str> = scanned.tags.iter().map(|tag| &text[tag.name.start..tag.end]).collect();
        assert_eq!(written, ["<p class=\"a>b\">", "<b>", "<br/>"]);
        for (at, c) in text.char_indices().filter(|(_, c)| *c == 'x' || *c == 'q') {
            let moved = scanned.text.find(&text[at..at + 5]).expect("the text is kept");
            assert_eq!(scanned.original(moved), at, "{c}");
        }
    }

    #[test]
    fn what_templates_may_not_use_is_refused_where_it_stands() {
        let cases = [
            ("<p>{{ a | safe }}</p>", Some(("the filter safe", "safe"))),
            ("<p>{{ a|safe }}</p>", Some(("the filter safe", "safe"))),
            ("<p>{{ 'a | safe' }}</p>", None),
            ("{% set a %}<p>{{ a }}{{ a }}</p>{% endset %}", Some(("a set that holds a part of the paper", "set"))),
            ("{{ a | replace(from='x', to='xx') }}", None),
            (
                "{{ a | replace(from='x', to='xx') | upper | indent(width=9) }}",
                Some(("two filters that lengthen a text, one upon the other", "indent")),
            ),
            ("{% for i in range(end=9) %}{% endfor %}", None),
            (
                "{% for i in range(end=lines) %}{% endfor %}",
                Some(("a range that is not of numbers up to 200", "range")),
            ),
            ("{% for i in range(end=201) %}{% endfor %}", Some(("a range that is not of numbers up to 200", "range"))),
            ("{{ a + b }}", Some(("arithmetic", "+"))),
            ("{{ a - 1 }}", Some(("arithmetic", "-"))),
            ("{{ a / 2 }}", Some(("arithmetic", "/"))),
            ("{{ a % 2 }}", Some(("arithmetic", "%"))),
            ("{%- if a == \"x-y\" -%}{%- endif -%}", None),
            ("{{ a ~ b }}", None),
            ("{{ [x for x in y] }}", Some(("a loop inside an expression", "for"))),
            ("{% component row() %}{% endcomponent %}", Some(("the statement component", "component"))),
            ("{% raw %}<p>{% endraw %}", Some(("the statement raw", "raw"))),
            ("<{{ tag }}>", Some(("a value as the name of a tag", "<"))),
            ("<t{{ tag }}>", Some(("a value as the name of a tag", "{{"))),
            ("<td {{ rest }}>", Some(("a value between the attributes of a tag", "{{ rest }}"))),
            ("<td{% if a %} class=\"{{ a }}\"{% endif %}>", None),
        ];
        for (text, expected) in cases {
            let found: Vec<(String, &str)> =
                scan(text, 0).refusals.into_iter().map(|it| (it.found, &text[it.at])).take(1).collect();
            let expected: Vec<(String, &str)> = expected.into_iter().map(|(a, b)| (a.to_string(), b)).collect();
            assert_eq!(found, expected, "{text}");
        }
    }

    #[test]
    fn names_that_are_set_and_names_that_are_put_together_are_noted() {
        // What is typed, the names it sets, the names it puts together.
        let cases: [(&str, &[&str], &[&str]); 11] = [
            ("{% set a = b %}", &["a"], &[]),
            ("{% set a = b.c[0].d %}", &["a"], &[]),
            ("{%- set_global a = \"b ~ c\" -%}", &["a"], &[]),
            ("{% set a = a ~ b %}", &["a"], &["a", "b"]),
            ("{% set a = [b, b] %}", &["a"], &["b", "b"]),
            ("{% set a = {\"x\": b} %}", &["a"], &["b"]),
            ("{{ a | join(sep=b) }}", &[], &["a", "join", "sep", "b"]),
            ("{{ a[0] }}{{ a.b[c] }}", &[], &[]),
            ("{% if a ~ b == c %}{% endif %}", &[], &["if", "a", "b", "c"]),
            ("{% for x in [a, b] %}{% endfor %}", &[], &["for", "x", "in", "a", "b"]),
            ("{# set a = a ~ a #}{{ 'a ~ b' }}", &[], &[]),
        ];
        for (text, sets, joins) in cases {
            let scanned = scan(text, 0);
            assert_eq!(scanned.sets.iter().map(String::as_str).collect::<Vec<_>>(), sets, "{text}");
            assert_eq!(scanned.joins.iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>(), joins, "{text}");
        }
    }

    #[test]
    fn loops_are_counted_and_inclusions_noted() {
        let text = "{% for a in x %}{% for b in a %}{% include \"row.xml\" %}{% endfor %}{% endfor %}{% for c in x %}{% endfor %}";
        let scanned = scan(text, 0);
        assert_eq!(scanned.depth, 2);
        assert_eq!(scanned.includes.len(), 1);
        assert_eq!((scanned.includes[0].name.as_str(), scanned.includes[0].depth), ("row.xml", 2));
    }
}
