//! What to type in place of an element or of words that may not stand where they do.
//!
//! In: the element that was found, what it stands in, what the markup allows. Out: words to type, or where to move them.
//! May not know: templates, places, findings.

use std::collections::{BTreeSet, VecDeque};

use super::elements::{Element, Holds};
use super::order;

/// Whether an element holds words.
fn holds_words(element: &Element) -> bool {
    matches!(element.holds, Holds::Text | Holds::TextOr(_))
}

/// The shortest chain of elements inside `holder` that ends with one that is `wanted`; none where there is none at any depth.
/// What the holder needs anyway comes before what it only may have (a cell is offered a body, not a head), and a paragraph
/// before a heading.
fn way(holder: &'static Element, wanted: impl Fn(&Element) -> bool) -> Option<Vec<&'static Element>> {
    let (mut seen, mut open) = (BTreeSet::from([holder.name]), VecDeque::from([vec![holder]]));
    while let Some(chain) = open.pop_front() {
        let last = chain[chain.len() - 1];
        let mut inside: Vec<&'static str> = last.inside().collect();
        inside.sort_by_key(|name| (order::needed(last.name) != Some(*name), *name != "p"));
        for next in inside.into_iter().filter_map(Element::named).filter(|next| seen.insert(next.name)) {
            let longer: Vec<&'static Element> = chain.iter().copied().chain([next]).collect();
            if wanted(next) {
                return Some(longer[1..].to_vec());
            }
            open.push_back(longer);
        }
    }
    None
}

/// A chain of elements as typed, each in the one before it.
fn typed(chain: &[&'static Element]) -> String {
    let Some((element, inner)) = chain.split_first() else { return "…".to_string() };
    match element.holds {
        Holds::Nothing => format!("<{}/>", element.name),
        _ => format!("<{0}>{1}</{0}>", element.name, typed(inner)),
    }
}

/// How to place the element `name`, which stands in the last of `above` (outermost first): what to put around it there, or what
/// to leave and how it is typed outside. None where no element around it can hold it.
pub fn misplaced(name: &str, above: &[&'static Element]) -> Option<String> {
    for (at, holder) in above.iter().enumerate().rev() {
        let Some(chain) = way(holder, |element| element.name == name) else { continue };
        return Some(match above.get(at + 1) {
            None => typed(&chain),
            Some(left) => format!("outside <{}>: {}", left.name, typed(&chain)),
        });
    }
    None
}

/// How to write words that stand in `holder`, which holds only elements.
pub fn stray(holder: &'static Element) -> Option<String> {
    way(holder, holds_words).map(|chain| typed(&chain))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::markup::elements::ELEMENTS;

    #[test]
    fn every_element_can_be_placed_from_the_sheet_or_the_document() {
        let [document, sheet] = ["document", "sheet"].map(|name| Element::named(name).expect("it is in the table"));
        for element in ELEMENTS.iter().filter(|element| element.name != "document") {
            let words = misplaced(element.name, &[document, sheet]).expect(element.name);
            assert!(words.contains(&format!("<{}", element.name)), "{words}");
        }
        assert_eq!(misplaced("document", &[document, sheet]), None, "nothing holds it");
    }

    #[test]
    fn words_are_given_the_nearest_place() {
        let given = ["sheet", "table", "tr", "ul", "dl", "side", "head", "rule"]
            .map(|name| stray(Element::named(name).expect("it is in the table")).unwrap_or_default());
        assert_eq!(
            given,
            [
                "<p>…</p>",
                "<tbody><tr><td>…</td></tr></tbody>",
                "<td>…</td>",
                "<li>…</li>",
                "<dd>…</dd>",
                "<part><p>…</p></part>",
                "<left>…</left>",
                ""
            ]
        );
    }
}
