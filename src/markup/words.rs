//! The text of an element: letters, looks, and the boxes, blanks and numbers of pages that stand in it.
//!
//! In: an element that holds text. Out: its pieces of text, white space collapsed. May not know: blocks.

use std::sync::Arc;

use roxmltree::Node;

use super::codes::TEXT_TOO_LONG;
use super::elements::{Element, Holds, IN_RUNNING};
use super::kinds::{self, Given};
use super::reader::Reader;
use super::{Body, Inline, Mp, Weight, space};

/// The most letters of one text: twice the longest prose that a job may hold. A letter is at most 40 pt wide at the sizes that a theme
/// may ask for, so that all of them in one line, with the blanks among them, are still an extent ([`Mp`]).
const MOST_LETTERS: usize = 40_000;

/// The most that the blanks of one text may be wide, in all.
const WIDEST_BLANKS: i64 = 5_000 * 72_000;

/// What an element in text gives to what it holds.
#[derive(Clone)]
struct Look {
    weight: Weight,
    to: Option<Arc<str>>,
}

impl Reader<'_> {
    /// What an element holds that holds text.
    pub(super) fn text_in(&mut self, node: Node<'_, '_>, element: &Element) -> Body {
        let plain = Look { weight: Weight::default(), to: None };
        // Most cells of a table: letters and nothing else.
        if let Some(text) =
            node.text().filter(|text| node.first_child() == node.last_child() && space::is_collapsed(text))
            && text.len() <= MOST_LETTERS
        {
            return Body::Text(vec![Inline::Text { text: text.to_string(), weight: plain.weight, to: None }]);
        }
        let mut inlines = Vec::new();
        self.gather(node, element, element.in_words(), &plain, &mut inlines);
        let inlines = space::collapse(inlines);
        if let Some((found, asked)) = too_much(&inlines) {
            let fault = self.fault(&TEXT_TOO_LONG, node, None).found(found).asked(asked);
            self.findings.push(fault.advise("make several of it: a paragraph, an item or a row for each part"));
            return Body::Empty;
        }
        if inlines.is_empty() { Body::Empty } else { Body::Text(inlines) }
    }

    fn gather(
        &mut self,
        node: Node<'_, '_>,
        element: &Element,
        allowed: &[&str],
        look: &Look,
        inlines: &mut Vec<Inline>,
    ) {
        // What stands on every page is filled in on none.
        let running = allowed == IN_RUNNING;
        for child in node.children() {
            if let Some(text) = child.text().filter(|_| child.is_text()) {
                inlines.push(Inline::Text { text: text.to_string(), weight: look.weight, to: look.to.clone() });
            }
            if !child.is_element() {
                continue;
            }
            let Some(inner) = self.element(child, allowed, Some(element)) else { continue };
            self.attributes(child, inner);
            if inner.holds == Holds::Nothing {
                self.blocks_in(child, inner, &[]);
            }
            let given = Given::of(child);
            match kinds::inline(inner.name, given, look.weight) {
                Some(Inline::Check { on, .. }) if !running => {
                    inlines.push(Inline::Check { on, field: Some(self.field(given)) });
                }
                Some(Inline::Blank { width, .. }) if !running => {
                    inlines.push(Inline::Blank { width, field: Some(self.field(given)) });
                }
                Some(inline) => {
                    if inner.name == "pageof" {
                        self.tells_pages = true;
                        self.lead(child);
                    }
                    inlines.push(inline);
                }
                None if inner.name == "see" => {
                    let inside = Look { to: Some(self.lead(child)), ..*look };
                    self.gather(child, inner, inner.in_words(), &inside, inlines);
                }
                None => {
                    let inside = Look { weight: kinds::weight(inner.name, look.weight), ..look.clone() };
                    self.gather(child, inner, allowed, &inside, inlines);
                }
            }
        }
    }
}

/// What a text has too much of, and what it may have; nothing where it can be set.
fn too_much(inlines: &[Inline]) -> Option<(String, String)> {
    let (mut letters, mut blanks) = (0, 0);
    for inline in inlines {
        match inline {
            Inline::Text { text, .. } => letters += text.chars().count(),
            Inline::Blank { width, .. } => {
                letters += 1;
                blanks += i64::from(width.0);
            }
            _ => letters += 1,
        }
    }
    let inches = |extent: i64| format!("{} in", extent / i64::from(Mp::points(72).0));
    match () {
        () if letters > MOST_LETTERS => Some((format!("{letters} letters"), MOST_LETTERS.to_string())),
        () if blanks > WIDEST_BLANKS => Some((format!("blanks of {}", inches(blanks)), inches(WIDEST_BLANKS))),
        () => None,
    }
}
