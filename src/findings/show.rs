//! Findings as people and programs read them.
//!
//! In: findings and the snapshot they stand in. Out: text with excerpts for a terminal, and JSON of the same data.
//! May not know: how a finding came about.

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};

use super::positions::{Line, Positions};
use super::summed::{Summed, summed};
use super::{FileId, Files, Finding, Findings, Label, Paper, Papers, Place, Remedy, Severity, Subject};
use crate::measure::Noun;

impl std::fmt::Display for Subject {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Subject::Job => f.write_str("the job"),
            Subject::Site(id) => write!(f, "site {id}"),
            Subject::Opening(mark) => write!(f, "opening {mark}"),
            Subject::Entry(kind, id) => write!(f, "{kind} {id}"),
            Subject::Template(name) => write!(f, "template {name}"),
        }
    }
}

impl Finding {
    /// The sentence: that of its code, with its own words put in.
    pub fn sentence(&self) -> String {
        let subject = self.subject.to_string();
        let words = [
            ("{subject}", subject.as_str()),
            ("{found}", self.found.as_str()),
            ("{asked}", self.asked.as_str()),
            ("{margin}", self.margin.as_deref().unwrap_or_default()),
        ];
        let mut out = String::new();
        let mut rest = self.code.says;
        while let Some(open) = rest.find('{') {
            out.push_str(&rest[..open]);
            rest = &rest[open..];
            match words.iter().find(|(hole, _)| rest.starts_with(hole)) {
                Some((hole, word)) => {
                    out.push_str(word);
                    rest = &rest[hole.len()..];
                }
                None => {
                    out.push('{');
                    rest = &rest[1..];
                }
            }
        }
        out + rest
    }
}

/// All findings as text, each with the lines it stands on, and a last line that counts them. Those that read alike, such as of
/// openings of one kind, are told once, with all that they are about; of those that differ in their place alone the first ten are
/// told. Colour only where asked for.
pub fn as_text(findings: &Findings, files: &Files, colour: bool) -> String {
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let renderer = renderer.decor_style(DecorStyle::Ascii);
    let mut positions = Positions::new(files);
    let mut out = String::new();
    let all = summed(findings);
    for alike in all.chunk_by(|a, b| a.more == 0 && read_alike(a.finding, b.finding)) {
        out.push_str(&one(alike, files, &mut positions, &renderer));
        out.push_str("\n\n");
    }
    out + &tally(findings) + "\n"
}

/// How many errors, warnings and checks for the site there are.
pub fn tally(findings: &Findings) -> String {
    let of_severity = |severity| findings.iter().filter(move |finding| finding.code.severity == severity);
    let count = |severity| of_severity(severity).map(|finding| 1 + finding.more).sum::<usize>();
    let of = |count: usize, noun: Noun| (count > 0).then(|| noun.len(count));
    let parts = [
        of(count(Severity::Error), Noun::ERROR),
        of(count(Severity::Warning), Noun::WARNING),
        of(count(Severity::FieldVerify), Noun::FIELD_VERIFICATION),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() { "nothing found".to_owned() } else { parts.join(", ") }
}

/// Whether two findings differ in nothing but what they are about, and do not say what that is.
fn read_alike(a: &Finding, b: &Finding) -> bool {
    a.sentence() == b.sentence() && *a == Finding { subject: a.subject.clone(), ..b.clone() }
}

/// Findings that read alike.
fn one(alike: &[Summed<'_>], files: &Files, positions: &mut Positions<'_>, renderer: &Renderer) -> String {
    let [Summed { finding, .. }, ..] = alike else { return String::new() };
    let level = match finding.code.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::FieldVerify => Level::INFO,
    };
    let title = level.with_name(finding.code.severity.word()).primary_title(finding.sentence()).id(finding.code.id);
    let mut group = Group::with_title(title);
    for excerpt in excerpts(&finding.places, files, positions) {
        group = match excerpt {
            Excerpt::Lines(snippet) => group.element(snippet),
            Excerpt::Name(name) => group.element(Origin::path(name)),
        };
    }
    for (name, text) in notes(finding, files, positions) {
        group = group.element(Level::NOTE.with_name(name).message(text));
    }
    if alike.len() > 1 {
        let all: Vec<String> = alike.iter().map(|it| it.finding.subject.to_string()).collect();
        group = group.element(Level::NOTE.with_name("of").message(all.join(", ")));
    }
    if let Some(more) = alike.last().and_then(|last| last.words(|place| positions.show(place))) {
        group = group.element(Level::NOTE.with_name("and").message(more));
    }
    renderer.render(&[group])
}

/// A line, the label that points into it, and whether that is the main one.
type Mark<'a> = (Line, &'a Label, bool);

enum Excerpt<'a> {
    Lines(Snippet<'a, annotate_snippets::Annotation<'a>>),
    Name(String),
}

/// One excerpt a line: only the lines needed go to the renderer, which reads everything it is given.
fn excerpts<'a>(labels: &'a [Label], files: &'a Files, positions: &mut Positions<'_>) -> Vec<Excerpt<'a>> {
    let mut lines: Vec<(FileId, Vec<Mark<'a>>)> = Vec::new();
    let mut out = Vec::new();
    for (at, label) in labels.iter().enumerate() {
        match &label.place {
            Place::File(file) => out.push(Excerpt::Name(files.path(*file).to_owned())),
            Place::Text { file, span } => {
                let Some(line) = positions.line(*file, *span) else {
                    out.push(Excerpt::Name(positions.show(&label.place)));
                    continue;
                };
                let same = |group: &&mut (FileId, Vec<Mark<'_>>)| {
                    group.0 == *file && group.1[0].0.position.line == line.position.line
                };
                match lines.iter_mut().find(same) {
                    Some(group) => group.1.push((line, label, at == 0)),
                    None => lines.push((*file, vec![(line, label, at == 0)])),
                }
            }
        }
    }
    out.extend(lines.into_iter().map(|(file, marks)| Excerpt::Lines(snippet(files.path(file), &marks))));
    out
}

fn snippet<'a>(path: &'a str, marks: &[Mark<'a>]) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    let line = &marks[0].0;
    let text = format!("{}{}{}", line.before, line.marked, line.after);
    let mut snippet = Snippet::source(text).line_start(line.position.line).path(path).fold(false);
    for (line, label, first) in marks {
        let kind = if *first { AnnotationKind::Primary } else { AnnotationKind::Context };
        let start = line.before.len();
        let mark = kind.span(start..start + line.marked.len());
        snippet = snippet.annotation(if label.says.is_empty() { mark } else { mark.label(label.says.as_str()) });
    }
    snippet
}

/// Found, asked, margin and clause, where the sentence does not hold them already; then what to type, and what is held.
fn notes(finding: &Finding, files: &Files, positions: &mut Positions<'_>) -> Vec<(&'static str, String)> {
    let said = |hole: &str| finding.code.says.contains(hole);
    let mut notes = Vec::new();
    if !finding.found.is_empty() && !said("{found}") {
        notes.push(("found", finding.found.clone()));
    }
    if !finding.asked.is_empty() && !said("{asked}") {
        notes.push(("asked", finding.asked.clone()));
    }
    if let (Some(margin), false) = (&finding.margin, said("{margin}")) {
        notes.push(("margin", margin.clone()));
    }
    if let Some(clause) = &finding.clause {
        notes.push(("clause", clause.clone()));
    }
    if let Some(price) = &finding.price {
        notes.push(("price", price.clone()));
    }
    if let Some(remedy) = &finding.remedy {
        notes.push(remedy_note(remedy, finding.place(), files, positions));
    }
    if finding.blocks != Papers::NONE && finding.blocks != Papers::ALL {
        notes.push(("holds", finding.blocks.iter().map(Paper::word).collect::<Vec<_>>().join(", ")));
    }
    notes
}

fn remedy_note(
    remedy: &Remedy,
    main: Option<&Place>,
    files: &Files,
    positions: &mut Positions<'_>,
) -> (&'static str, String) {
    match &remedy.at {
        None => ("do", remedy.text.clone()),
        Some(_) if remedy.text.is_empty() => ("do", "delete it".to_owned()),
        Some(Place::Text { file, span }) if !overlaps(main, *file, *span) => {
            let at = positions.position(*file, span.start as usize);
            ("type", format!("{}  (at {}:{}:{})", remedy.text, files.path(*file), at.line, at.column))
        }
        Some(_) => ("type", remedy.text.clone()),
    }
}

/// Whether a remedy stands where the excerpt points anyway.
fn overlaps(main: Option<&Place>, file: FileId, span: super::Span) -> bool {
    match main {
        Some(Place::Text { file: known, span: shown }) => {
            *known == file && shown.start <= span.end && span.start <= shown.end
        }
        _ => false,
    }
}
