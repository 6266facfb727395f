//! Complaints of the template engine, each with the bytes it is about.
//!
//! In: the engine's error, and the text of a template as the engine saw it. Out: messages with byte ranges of that text.
//! May not know: the template as written, or findings.

use std::ops::Range;

use tera::ErrorKind;

/// One complaint.
#[derive(Debug, PartialEq, Eq)]
pub struct ExpressionFault {
    /// Whether the template can be read, and its view lacks something.
    pub rendering: bool,
    /// The template it is about; empty where the engine does not say.
    pub template: String,
    /// What is wrong, on one line.
    pub message: String,
    /// Where, in the text as the engine saw it.
    pub range: Option<Range<usize>>,
}

/// The complaints in an error. Unknown filters, tests and functions come as one printed report for all of them, from which
/// place and message are read back; `text` gives the source of a template.
pub fn complaints<'t>(kind: &ErrorKind, text: impl Fn(&str) -> Option<&'t str>) -> Vec<ExpressionFault> {
    let (rendering, report) = match kind {
        ErrorKind::SyntaxError(report) => (false, report),
        ErrorKind::RenderingError(report) => (true, report),
        other => return printed(&other.to_string(), text),
    };
    let template = report.filename().to_string();
    let message = one_line(report.message());
    vec![ExpressionFault { rendering, template, message, range: Some(report.span().range.clone()) }]
}

/// Reads a printed report back: `error: message`, `--> file:line:column`, the line, carets; any number of them.
fn printed<'t>(report: &str, text: impl Fn(&str) -> Option<&'t str>) -> Vec<ExpressionFault> {
    let mut complaints = Vec::new();
    let mut lines = report.lines().peekable();
    while let Some(line) = lines.next() {
        let Some(message) = line.strip_prefix("error: ") else { continue };
        let locus = lines.next().and_then(|line| line.trim_start().strip_prefix("--> "));
        let carets = lines.by_ref().take(3).last().map_or(1, |line| line.matches('^').count());
        let (template, range) = locus.and_then(|locus| place(locus, carets, &text)).unwrap_or_default();
        complaints.push(ExpressionFault { rendering: false, template, message: one_line(message), range });
    }
    if complaints.is_empty() {
        complaints.push(ExpressionFault {
            rendering: false,
            template: String::new(),
            message: one_line(report),
            range: None,
        });
    }
    complaints
}

/// The template and the bytes of `file:line:column`, both counted from 1, columns in characters.
fn place<'t>(
    locus: &str,
    length: usize,
    text: &impl Fn(&str) -> Option<&'t str>,
) -> Option<(String, Option<Range<usize>>)> {
    let mut parts = locus.rsplitn(3, ':');
    let column: usize = parts.next()?.parse().ok()?;
    let line: usize = parts.next()?.parse().ok()?;
    let template = parts.next()?.to_string();
    let range = text(&template).map(|text| {
        let before: usize = text.split_inclusive('\n').take(line - 1).map(str::len).sum();
        let letters = |count: usize| text[before..].chars().take(count).map(char::len_utf8).sum::<usize>();
        before + letters(column - 1)..before + letters(column - 1 + length)
    });
    Some((template, range))
}

fn one_line(message: &str) -> String {
    message.lines().map(str::trim).collect::<Vec<_>>().join(" ")
}
