//! Findings as JSON: the same data as the text, for programs.
//!
//! In: findings and the snapshot. Out: one JSON array. May not know: how a finding came about.

use serde::Serialize;

use super::positions::Positions;
use super::summed::{Summed, summed};
use super::{Files, Findings, Paper, Place, Subject};

#[derive(Serialize)]
struct FindingView<'a> {
    severity: &'static str,
    code: &'static str,
    sentence: String,
    subject: SubjectView<'a>,
    places: Vec<PlaceView<'a>>,
    found: &'a str,
    asked: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    margin: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    clause: Option<&'a str>,
    /// What of the price depends on it.
    #[serde(skip_serializing_if = "Option::is_none")]
    price: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    remedy: Option<RemedyView<'a>>,
    holds: Vec<&'static str>,
    /// How many more there are that differ from it in their place alone.
    #[serde(skip_serializing_if = "is_none")]
    more: usize,
}

fn is_none(more: &usize) -> bool {
    *more == 0
}

#[derive(Serialize)]
struct SubjectView<'a> {
    kind: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    id: &'a str,
}

#[derive(Serialize)]
struct RemedyView<'a> {
    text: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<PlaceView<'a>>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum PlaceView<'a> {
    Text {
        file: &'a str,
        line: usize,
        column: usize,
        end_line: usize,
        end_column: usize,
        start_byte: u32,
        end_byte: u32,
        #[serde(skip_serializing_if = "str::is_empty")]
        says: &'a str,
    },
    File {
        file: &'a str,
    },
}

/// All findings as one JSON array, indented. Of those that differ in their place alone the first ten are there, and the tenth says
/// how many more there are.
pub fn as_json(findings: &Findings, files: &Files) -> String {
    let mut positions = Positions::new(files);
    let all = summed(findings);
    let views: Vec<FindingView<'_>> = all.iter().map(|it| view(it, files, &mut positions)).collect();
    // Views hold nothing but texts and numbers, so writing them cannot fail; an empty list would be a lie.
    serde_json::to_string_pretty(&views).unwrap_or_else(|fault| format!("{{\"fault\": {:?}}}", fault.to_string()))
}

fn view<'a>(
    Summed { finding, more, .. }: &Summed<'a>,
    files: &'a Files,
    positions: &mut Positions<'_>,
) -> FindingView<'a> {
    FindingView {
        severity: finding.code.severity.word(),
        code: finding.code.id,
        sentence: finding.sentence(),
        subject: subject(&finding.subject),
        places: finding.places.iter().map(|label| place(&label.place, &label.says, files, positions)).collect(),
        found: &finding.found,
        asked: &finding.asked,
        margin: finding.margin.as_deref(),
        clause: finding.clause.as_deref(),
        price: finding.price.as_deref(),
        remedy: finding.remedy.as_ref().map(|remedy| RemedyView {
            text: &remedy.text,
            place: remedy.at.as_ref().map(|at| place(at, "", files, positions)),
        }),
        holds: finding.blocks.iter().map(Paper::word).collect(),
        more: *more,
    }
}

fn subject(subject: &Subject) -> SubjectView<'_> {
    let (kind, id) = match subject {
        Subject::Job => ("job", ""),
        Subject::Site(id) => ("site", id.as_str()),
        Subject::Opening(mark) => ("opening", mark.as_str()),
        Subject::Entry(kind, id) => (*kind, id.as_str()),
        Subject::Template(name) => ("template", name.as_str()),
    };
    SubjectView { kind, id }
}

fn place<'a>(place: &'a Place, says: &'a str, files: &'a Files, positions: &mut Positions<'_>) -> PlaceView<'a> {
    match place {
        Place::File(file) => PlaceView::File { file: files.path(*file) },
        Place::Text { file, span } => {
            let start = positions.position(*file, span.start as usize);
            let end = positions.position(*file, span.end as usize);
            PlaceView::Text {
                file: files.path(*file),
                line: start.line,
                column: start.column,
                end_line: end.line,
                end_column: end.column,
                start_byte: span.start,
                end_byte: span.end,
                says,
            }
        }
    }
}
