//! White space in text: single inside, none at the ends of a line.
//!
//! In: pieces of text as written. Out: the same with white space collapsed, neighbours of one look joined. No-break spaces are
//! letters here and are kept. May not know: widths.

use super::{Inline, Weight};

fn is_space(c: char) -> bool {
    matches!(c, ' ' | '\t' | '\n' | '\r')
}

/// Collapses white space over the pieces of one text.
pub fn collapse(pieces: Vec<Inline>) -> Vec<Inline> {
    let mut out: Vec<Inline> = Vec::with_capacity(pieces.len());
    // A space is owed, in the look of the text it stood in, and paid when something follows on the same line.
    let mut owed: Option<Weight> = None;
    let mut at_start = true;
    for piece in pieces {
        match piece {
            Inline::Text { text, weight } => {
                for c in text.chars() {
                    if is_space(c) {
                        owed = owed.or(Some(weight)).filter(|_| !at_start);
                        continue;
                    }
                    pay(&mut out, &mut owed);
                    push(&mut out, c, weight);
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

fn pay(out: &mut Vec<Inline>, owed: &mut Option<Weight>) {
    if let Some(weight) = owed.take() {
        push(out, ' ', weight);
    }
}

fn push(out: &mut Vec<Inline>, c: char, weight: Weight) {
    match out.last_mut() {
        Some(Inline::Text { text, weight: last }) if *last == weight => text.push(c),
        _ => out.push(Inline::Text { text: c.to_string(), weight }),
    }
}
