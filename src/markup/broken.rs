//! Markup that does not hold together, traced back to the template.
//!
//! In: rendered text and the parser's complaint. Out: a finding at the start tag of the innermost element that was open there.
//! May not know: the elements.

use roxmltree::{Error, TextPos};

use super::codes::MARKUP_BROKEN;
use super::scan::INDEX;
use super::templates::{Templates, subject};
use crate::findings::Finding;

/// The finding for a parser's complaint.
pub fn finding(templates: &Templates, name: &str, text: &str, fault: &Error) -> Finding {
    let at = match fault {
        Error::UnclosedRootNode | Error::NoRootNode | Error::DtdDetected => text.len(),
        other => position(text, other.pos()),
    };
    let found = match fault {
        Error::UnexpectedCloseTag(open, close, _) => format!("<{open}> is closed by </{close}>"),
        Error::UnclosedRootNode => "an element is never closed".to_string(),
        other => {
            let says = other.to_string();
            says.rsplit_once(" at ").map_or(says.clone(), |(says, _)| says.to_string())
        }
    };
    match innermost_open(&text[..at]).and_then(|index| templates.tag(index)) {
        Some((template, place)) => Finding::new(&MARKUP_BROKEN, subject(template)).at(place).found(found),
        None => Finding::new(&MARKUP_BROKEN, subject(name)).found(found),
    }
}

/// The byte of a line and column, both from 1; columns are characters.
fn position(text: &str, at: TextPos) -> usize {
    let line: usize = text.split_inclusive('\n').take(at.row as usize - 1).map(str::len).sum();
    let column = text[line..].char_indices().nth(at.col as usize - 1);
    column.map_or(text.len(), |(offset, _)| line + offset)
}

/// The index of the innermost element that is open at the end of a text that holds together so far.
fn innermost_open(text: &str) -> Option<usize> {
    let mut open = Vec::new();
    let mut at = 0;
    while let Some(found) = text[at..].find('<') {
        let start = at + found;
        let tag = &text[start..];
        if tag.starts_with("<!--") {
            at = tag.find("-->").map_or(text.len(), |end| start + end + 3);
            continue;
        }
        // An attribute's value cannot hold `<`; that it holds `>` is harmless here, except before `/>`.
        let end = end_of_tag(tag);
        at = start + end;
        if tag.starts_with("</") {
            open.pop();
        } else if !tag[..end].ends_with("/>") {
            open.push(index(&tag[..end]));
        }
    }
    open.pop().flatten()
}

fn end_of_tag(tag: &str) -> usize {
    let mut quote = None;
    for (at, byte) in tag.bytes().enumerate() {
        match (quote, byte) {
            (None, b'>') => return at + 1,
            (None, b'"' | b'\'') => quote = Some(byte),
            (Some(open), close) if open == close => quote = None,
            _ => {}
        }
    }
    tag.len()
}

fn index(tag: &str) -> Option<usize> {
    let value = tag.split_once(&format!(" {INDEX}=\""))?.1;
    value.split_once('"')?.0.parse().ok()
}
