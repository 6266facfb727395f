//! Words of a riser, broken into lines so that its columns fit the frame.
//!
//! In: trees, greatest widths of boxes and of words on lines. Out: the same trees with more and shorter lines. May not know:
//! where anything stands.

use super::super::ruler::Ruler;
use super::{RiserLine, RiserNode};

/// Greatest widths of words in boxes and on lines, in points.
pub(super) type Most = (f64, f64);

/// What is tried, widest first.
pub(super) const TRIED: [Most; 5] = [(130.0, 110.0), (105.0, 90.0), (90.0, 75.0), (75.0, 62.0), (60.0, 50.0)];

/// A tree with its words broken.
pub(super) fn wrapped(node: &RiserNode, most: Most, text: f64, ruler: &Ruler) -> RiserNode {
    let mut words = Vec::new();
    for (at, line) in node.words.iter().enumerate() {
        words.extend(broken(line, most.0, &|it| ruler.width(it, text, at == 0)));
    }
    let feeds =
        node.feeds.iter().map(|(line, fed)| (on_line(line, most.1, text, ruler), wrapped(fed, most, text, ruler)));
    RiserNode { name: node.name.clone(), class: node.class, words, feeds: feeds.collect() }
}

/// What is too long to stand over a line goes on under it.
fn on_line(line: &RiserLine, most: f64, text: f64, ruler: &Ruler) -> RiserLine {
    let width = |it: &str| ruler.width(it, text, false);
    let mut over = broken(&line.over, most, &width);
    let rest = if over.len() > 1 { over.split_off(1) } else { Vec::new() };
    let under = line.under.iter().flat_map(|it| broken(it, most, &width));
    RiserLine {
        over: over.pop().unwrap_or_default(),
        under: rest.into_iter().chain(under).collect(),
        dashed: line.dashed,
    }
}

/// A text in lines no wider than `most`, broken at spaces; a single word may be wider.
fn broken(text: &str, most: f64, width: &dyn Fn(&str) -> f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match lines.last_mut() {
            Some(line) if width(&format!("{line} {word}")) <= most => *line = format!("{line} {word}"),
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_no_wider_than_they_may_be_and_no_word_is_lost() {
        // Every letter is one wide.
        let lines = broken("12 EMT 1-1/4, 58'-0\"", 10.0, &|it| it.chars().count() as f64);
        assert_eq!(lines, ["12 EMT", "1-1/4,", "58'-0\""]);
        assert_eq!(broken("", 10.0, &|_| 0.0), [""]);
        assert_eq!(broken("a b c", 3.0, &|it| it.chars().count() as f64), ["a b", "c"]);
    }
}
