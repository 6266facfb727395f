//! Every path that a file of Rust names, wherever it stands: `use` with groups in groups, expressions, types, macros.
//!
//! In: the text of a file. Out: paths with their lines. May not know: rooms.
//!
//! The text is cut into tokens by `proc_macro2`, the lexer that procedural macros share, so that neither a comment nor a string can
//! look like a path. What stands inside a macro call is tokens like all other, and is searched like all other.

use proc_macro2::{Delimiter, Group, TokenStream, TokenTree};

/// A path as it is written, its groups written out: of `use a::{b, c::*}` two, `a::b` and `a::c::*`.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// Its words. A macro's name ends in `!`, everything of a module is `*`.
    pub words: Vec<String>,
    /// Line, from 1.
    pub line: usize,
    /// In how many modules of the same file it stands.
    pub inside: usize,
}

impl Named {
    /// What the path names of the crate, for a file that is `depth` modules deep; `None` where it does not start at the crate.
    /// Nothing at all is the crate itself, whose rooms could then be named by another word.
    pub fn of_crate(&self, depth: usize) -> Option<&[String]> {
        let own = self.words.iter().take_while(|word| *word == "self").count();
        let words = &self.words[own..];
        if words.first().is_some_and(|word| word == "crate") {
            return Some(&words[1..]);
        }
        // `super` as often as the module is deep stands for the crate.
        let climbed = words.iter().take_while(|word| *word == "super").count();
        (climbed > 0 && climbed >= depth + self.inside).then(|| &words[climbed..])
    }

    /// Whether the path starts with these words.
    pub fn starts_with(&self, start: &str) -> bool {
        let mut words = self.words.iter();
        start.split("::").all(|word| words.next().is_some_and(|it| it == word))
    }
}

/// Whether tests inside a file are read too.
#[derive(Clone, Copy, PartialEq)]
pub enum Tests {
    Read,
    Skipped,
}

/// All paths of a file, one word or more.
pub fn paths(text: &str, tests: Tests) -> Vec<Named> {
    let tokens: TokenStream = text.parse().expect("a file of Rust");
    let mut scan = Scan { tests, inside: 0, found: Vec::new() };
    scan.tokens(tokens);
    scan.found
}

/// Numbers that are written with a type, such as `1f64`, with their lines.
pub fn typed_numbers(text: &str, kind: &str) -> Vec<usize> {
    fn walk(tokens: TokenStream, kind: &str, found: &mut Vec<usize>) {
        for token in tokens {
            match token {
                TokenTree::Group(group) => walk(group.stream(), kind, found),
                TokenTree::Literal(it) => {
                    let text = it.to_string();
                    if text.starts_with(|first: char| first.is_ascii_digit()) && text.ends_with(kind) {
                        found.push(it.span().start().line);
                    }
                }
                _ => {}
            }
        }
    }
    let mut found = Vec::new();
    walk(text.parse().expect("a file of Rust"), kind, &mut found);
    found
}

struct Scan {
    tests: Tests,
    inside: usize,
    found: Vec<Named>,
}

impl Scan {
    fn tokens(&mut self, tokens: TokenStream) {
        let tokens: Vec<TokenTree> = tokens.into_iter().collect();
        let mut at = 0;
        while at < tokens.len() {
            at = match &tokens[at..] {
                [TokenTree::Punct(hash), TokenTree::Group(attribute), ..]
                    if self.tests == Tests::Skipped && hash.as_char() == '#' && is_for_tests(attribute) =>
                {
                    past_item(&tokens, at + 2)
                }
                [TokenTree::Ident(word), TokenTree::Ident(_), TokenTree::Group(body), ..]
                    if word == "mod" && body.delimiter() == Delimiter::Brace =>
                {
                    self.inside += 1;
                    self.tokens(body.stream());
                    self.inside -= 1;
                    at + 3
                }
                [TokenTree::Ident(word), TokenTree::Group(range), ..] if word == "pub" && is_visibility(range) => {
                    at + 2
                }
                [TokenTree::Ident(_), ..] => self.path(&[], &tokens, at),
                [TokenTree::Group(group), ..] => {
                    self.tokens(group.stream());
                    at + 1
                }
                _ => at + 1,
            };
        }
    }

    /// Reads a path that starts at a word, behind words of the groups that it stands in. Returns where it ends.
    fn path(&mut self, before: &[String], tokens: &[TokenTree], start: usize) -> usize {
        let line = tokens[start].span().start().line;
        let mut words = before.to_vec();
        let mut at = start;
        loop {
            match &tokens[at..] {
                [TokenTree::Ident(word), TokenTree::Punct(mark), TokenTree::Group(_), ..] if mark.as_char() == '!' => {
                    words.push(format!("{word}!"));
                    at += 2;
                }
                // In a group `self` is what stands before it.
                [TokenTree::Ident(word), ..] if word == "self" && !before.is_empty() && at == start => at += 1,
                [TokenTree::Ident(word), ..] => {
                    words.push(word.to_string().trim_start_matches("r#").to_owned());
                    at += 1;
                }
                [TokenTree::Punct(star), ..] if star.as_char() == '*' => {
                    words.push("*".to_owned());
                    at += 1;
                }
                [TokenTree::Group(group), ..] if group.delimiter() == Delimiter::Brace => {
                    self.members(&words, group);
                    return at + 1;
                }
                // A turbofish: the path of the value ends, its types are read next.
                _ => break,
            }
            match &tokens[at..] {
                [TokenTree::Punct(one), TokenTree::Punct(other), ..]
                    if one.as_char() == ':' && other.as_char() == ':' =>
                {
                    at += 2
                }
                _ => break,
            }
        }
        self.found.push(Named { words, line, inside: self.inside });
        at
    }

    fn members(&mut self, before: &[String], group: &Group) {
        let tokens: Vec<TokenTree> = group.stream().into_iter().collect();
        for member in tokens.split(|it| matches!(it, TokenTree::Punct(comma) if comma.as_char() == ',')) {
            if !member.is_empty() {
                self.path(before, member, 0);
            }
        }
    }
}

/// `[cfg(test)]`.
fn is_for_tests(attribute: &Group) -> bool {
    attribute.stream().to_string().replace(' ', "") == "cfg(test)"
}

/// `(crate)`, `(super)`, `(in …)`: how far something is seen, which names nothing.
fn is_visibility(range: &Group) -> bool {
    let words: Vec<TokenTree> = range.stream().into_iter().collect();
    match words.as_slice() {
        [TokenTree::Ident(word)] => word == "crate" || word == "super" || word == "self",
        [TokenTree::Ident(word), ..] => word == "in",
        _ => false,
    }
}

/// Where the item that starts here ends: behind its braces or its semicolon.
fn past_item(tokens: &[TokenTree], start: usize) -> usize {
    let is_end = |token: &TokenTree| match token {
        TokenTree::Group(group) => group.delimiter() == Delimiter::Brace,
        TokenTree::Punct(mark) => mark.as_char() == ';',
        _ => false,
    };
    tokens[start..].iter().position(is_end).map_or(tokens.len(), |length| start + length + 1)
}
