//! White space in text: single inside, none at the ends of a line.
//!
//! In: pieces of text as written. Out: the same with white space collapsed, neighbours of one look joined. No-break spaces are
//! letters here and are kept. May not know: widths.

use std::sync::Arc;

use super::{Inline, Weight};

/// What letters of one text share: their look, and where they lead.
type Look = (Weight, Option<Arc<str>>);

fn is_space(c: char) -> bool {
    matches!(c, ' ' | '\t' | '\n' | '\r')
}

/// Whether a text has no white space but single spaces inside.
pub fn is_collapsed(text: &str) -> bool {
    let mut after_space = true;
    for byte in text.bytes() {
        match byte {
            b'\t' | b'\n' | b'\r' => return false,
            b' ' if after_space => return false,
            _ => after_space = byte == b' ',
        }
    }
    !after_space
}

/// Collapses white space over the pieces of one text.
pub fn collapse(pieces: Vec<Inline>) -> Vec<Inline> {
    // Most cells of a table.
    if matches!(&pieces[..], [Inline::Text { text, .. }] if is_collapsed(text)) {
        return pieces;
    }
    let mut out: Vec<Inline> = Vec::with_capacity(pieces.len());
    // A space is owed, in the look of the text it stood in, and paid when something follows on the same line.
    let mut owed: Option<Look> = None;
    let mut at_start = true;
    for piece in pieces {
        match piece {
            Inline::Text { text, weight, to } => {
                let look = (weight, to);
                for c in text.chars() {
                    if is_space(c) {
                        owed = owed.or_else(|| Some(look.clone())).filter(|_| !at_start);
                        continue;
                    }
                    pay(&mut out, &mut owed);
                    push(&mut out, c, &look);
                    at_start = false;
                }
            }
            Inline::Break => {
                (owed, at_start) = (None, true);
                out.push(Inline::Break);
            }
            other => {
                pay(&mut out, &mut owed);
                out.push(other);
                at_start = false;
            }
        }
    }
    out
}

fn pay(out: &mut Vec<Inline>, owed: &mut Option<Look>) {
    if let Some(look) = owed.take() {
        push(out, ' ', &look);
    }
}

fn push(out: &mut Vec<Inline>, c: char, (weight, to): &Look) {
    match out.last_mut() {
        Some(Inline::Text { text, weight: last, to: there }) if last == weight && there == to => text.push(c),
        _ => out.push(Inline::Text { text: c.to_string(), weight: *weight, to: to.clone() }),
    }
}
