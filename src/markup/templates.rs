//! The templates of the papers: loaded, checked, rendered with a view.
//!
//! In: names and texts of templates, and views that serialise. Out: block trees, or findings at template, line and column.
//! May not know: where templates come from, or what a view means.

use std::collections::{BTreeMap, BTreeSet};
use std::io;

use serde::Serialize;
use tera::{Context, ErrorKind, Tera};

use super::codes::{TEMPLATE_MISSING, TEMPLATE_REFUSED, TEMPLATE_SYNTAX, TEMPLATE_TOO_LONG, TEMPLATE_VALUE};
use super::inclusion::{self, Fault};
use super::language::{self, ExpressionFault};
use super::scan::{Scanned, scan};
use super::{Tree, reader};
use crate::findings::{FileId, Finding, Findings, Place, Subject};

/// No paper renders to more than this.
const LONGEST: usize = 64 << 20;

/// One template: its name, by which others include it, its file and its text.
#[derive(Clone, Copy, Debug)]
pub struct Source<'a> {
    /// The name, such as `bid.xml`.
    pub name: &'a str,
    /// Its file in the snapshot of inputs, for excerpts.
    pub file: FileId,
    /// Its text.
    pub text: &'a str,
}

/// Loaded templates.
pub struct Templates {
    tera: Tera,
    loaded: BTreeMap<String, Loaded>,
    tags: Vec<TagPlace>,
    unusable: BTreeSet<String>,
}

struct Loaded {
    file: FileId,
    /// Its text as written.
    source: String,
    scanned: Scanned,
}

/// A start tag of a template, by its index.
struct TagPlace {
    template: String,
    file: FileId,
    start: usize,
    name_end: usize,
    attributes: String,
}

impl Templates {
    /// Loads templates; of two with one name the later wins. What is wrong is pushed, template by template, and a template
    /// with a fault, or that includes one, is not rendered.
    pub fn load<'a>(sources: impl IntoIterator<Item = Source<'a>>, findings: &mut Findings) -> Self {
        let sources: BTreeMap<&str, Source<'a>> = sources.into_iter().map(|source| (source.name, source)).collect();
        let mut templates =
            Templates { tera: escaping(), loaded: BTreeMap::new(), tags: Vec::new(), unusable: BTreeSet::new() };
        let mut found = Findings::default();
        for source in sources.values() {
            templates.scan(source, &mut found);
        }
        templates.check_includes(&mut found);
        templates.compile(&mut found);
        templates.spread_unusable();
        findings.extend(found.sorted());
        templates
    }

    fn scan(&mut self, source: &Source<'_>, findings: &mut Findings) {
        let scanned = scan(source.text, self.tags.len());
        self.tags.extend(scanned.tags.iter().map(|tag| TagPlace {
            template: source.name.to_string(),
            file: source.file,
            start: tag.name.start,
            name_end: tag.name.end,
            attributes: source.text[tag.name.end..tag.end].to_string(),
        }));
        for refusal in &scanned.refusals {
            let place = Place::text(source.file, refusal.at.start, refusal.at.end);
            let refused = Finding::new(&TEMPLATE_REFUSED, subject(source.name)).at(place).found(&*refusal.found);
            findings.push(refused.advise(refusal.instead));
            self.unusable.insert(source.name.to_string());
        }
        for (word, at) in &scanned.unclosed {
            let place = Place::text(source.file, at.start, at.end);
            let unclosed = Finding::new(&TEMPLATE_SYNTAX, subject(source.name)).at(place);
            findings.push(unclosed.found(format!("{word} is never closed")).advise(format!("{{% end{word} %}}")));
            self.unusable.insert(source.name.to_string());
        }
        self.loaded
            .insert(source.name.to_string(), Loaded { file: source.file, source: source.text.to_string(), scanned });
    }

    /// Unknown inclusions, rings, and what is too much only through inclusion.
    fn check_includes(&mut self, findings: &mut Findings) {
        let scanned = self.loaded.iter().map(|(name, loaded)| (name.as_str(), &loaded.scanned)).collect();
        for (name, at, fault) in inclusion::faults(&scanned) {
            let Some(loaded) = self.loaded.get(&name) else { continue };
            let place = Place::text(loaded.file, at.start, at.end);
            findings.push(match fault {
                Fault::Missing(missing) => Finding::new(&TEMPLATE_MISSING, subject(&name)).at(place).found(missing),
                Fault::Refused(found, instead) => {
                    Finding::new(&TEMPLATE_REFUSED, subject(&name)).at(place).found(found).advise(instead)
                }
            });
            self.unusable.insert(name);
        }
    }

    /// Adds the templates together. Where that fails, one at a time, so that the fault of one does not hide those of the
    /// others; then those without a fault together.
    fn compile(&mut self, findings: &mut Findings) {
        let texts = self.loaded.iter().map(|(name, loaded)| (name.as_str(), loaded.scanned.text.as_str()));
        if self.unusable.is_empty() && self.tera.add_raw_templates(texts).is_ok() {
            return;
        }
        self.tera = escaping();
        let mut whole = Vec::new();
        for (name, loaded) in &self.loaded {
            let text = &loaded.scanned.text;
            let mut alone = Tera::new();
            // Inclusions were checked above; here each included name stands for an empty template.
            let named = loaded.scanned.includes.iter().filter(|include| include.name != *name);
            let empty: BTreeMap<&str, &str> = named.map(|include| (include.name.as_str(), "")).collect();
            match alone.add_raw_templates(empty.into_iter().chain([(name.as_str(), text.as_str())])) {
                Ok(()) if !self.unusable.contains(name) => whole.push((name.clone(), text.clone())),
                Ok(()) => {}
                Err(fault) => {
                    if !self.unusable.contains(name) {
                        self.language_findings(name, fault.kind()).into_iter().for_each(|it| findings.push(it));
                    }
                    self.unusable.insert(name.clone());
                }
            }
        }
        self.spread_unusable();
        whole.retain(|(name, _)| !self.unusable.contains(name));
        if let Err(fault) = self.tera.add_raw_templates(whole) {
            self.language_findings("", fault.kind()).into_iter().for_each(|it| findings.push(it));
            self.unusable.extend(self.loaded.keys().cloned());
        }
    }

    /// A template that includes one that cannot be used cannot be used.
    fn spread_unusable(&mut self) {
        let mut includers: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for (name, loaded) in &self.loaded {
            for include in &loaded.scanned.includes {
                includers.entry(&include.name).or_default().push(name);
            }
        }
        let mut open: Vec<&str> = self.unusable.iter().map(String::as_str).collect();
        let mut spread: BTreeSet<&str> = BTreeSet::new();
        while let Some(faulty) = open.pop() {
            let around = includers.get(faulty).into_iter().flatten().copied();
            open.extend(around.filter(|name| spread.insert(name)));
        }
        let spread: Vec<String> = spread.into_iter().map(str::to_owned).collect();
        self.unusable.extend(spread);
    }

    /// Whether a template was loaded and can be rendered.
    pub fn is_usable(&self, name: &str) -> bool {
        self.loaded.contains_key(name) && !self.unusable.contains(name)
    }

    /// Renders a template with a view and reads what comes out. None where anything is wrong; what it is, is pushed,
    /// except where loading found it already.
    pub fn render<V: Serialize + ?Sized>(&self, name: &str, view: &V, findings: &mut Findings) -> Option<Tree> {
        let text = self.render_text(name, view, findings)?;
        let file = self.loaded.get(name)?.file;
        let mut found = Findings::default();
        let tree = reader::read(self, name, file, &text, &mut found);
        findings.extend(found.sorted());
        tree
    }

    /// Renders to markup, not yet read.
    fn render_text<V: Serialize + ?Sized>(&self, name: &str, view: &V, findings: &mut Findings) -> Option<String> {
        if !self.loaded.contains_key(name) {
            findings.push(Finding::new(&TEMPLATE_MISSING, subject(name)).found(name));
        }
        if !self.is_usable(name) {
            return None;
        }
        let mut out = LimitedWriter::default();
        let rendered = Context::from_serialize(view).and_then(|view| self.tera.render_to(name, &view, &mut out));
        match rendered {
            Ok(()) => String::from_utf8(out.bytes).ok(), // templates and values are text, so this always is
            Err(_) if out.full => {
                let asked = format!("{} MiB", LONGEST >> 20);
                findings.push(Finding::new(&TEMPLATE_TOO_LONG, subject(name)).asked(asked));
                None
            }
            Err(fault) => {
                let known = names_in(view);
                for finding in self.language_findings(name, fault.kind()) {
                    let written = finding.place().and_then(|place| self.written(place)).map(str::to_string);
                    findings.push(match written {
                        Some(written) => reader::with_nearest(finding, &written, known.iter().map(String::as_str)),
                        None => finding,
                    });
                }
                None
            }
        }
    }

    /// What stands at a place of a template, as it was written.
    fn written(&self, place: &Place) -> Option<&str> {
        let Place::Text { file, span } = place else { return None };
        let loaded = self.loaded.values().find(|loaded| loaded.file == *file)?;
        loaded.source.get(span.start as usize..span.end as usize)
    }

    /// Faults of the template language as findings at their places in the template as written.
    fn language_findings(&self, name: &str, kind: &ErrorKind) -> Vec<Finding> {
        let text = |name: &str| self.loaded.get(name).map(|loaded| loaded.scanned.text.as_str());
        let finding = |complaint: ExpressionFault| {
            let name = if complaint.template.is_empty() { name } else { &complaint.template };
            let code = if complaint.rendering { &TEMPLATE_VALUE } else { &TEMPLATE_SYNTAX };
            let finding = Finding::new(code, subject(name)).found(complaint.message);
            match (self.loaded.get(name), complaint.range) {
                (Some(loaded), Some(range)) => {
                    let (start, end) = (loaded.scanned.original(range.start), loaded.scanned.original(range.end));
                    finding.at(Place::text(loaded.file, start, end))
                }
                _ => finding,
            }
        };
        language::complaints(kind, text).into_iter().map(finding).collect()
    }

    /// The template and the place of a start tag, by its index.
    pub(super) fn tag(&self, index: usize) -> Option<(&str, Place)> {
        let tag = self.tags.get(index)?;
        Some((&tag.template, Place::text(tag.file, tag.start, tag.name_end)))
    }

    /// The place of an attribute in a start tag; that of the tag where the attribute is not written out.
    pub(super) fn attribute(&self, index: usize, attribute: &str) -> Option<Place> {
        let tag = self.tags.get(index)?;
        let written = tag.attributes.match_indices(attribute).find(|(at, _)| {
            let before = tag.attributes[..*at].chars().next_back();
            let after = tag.attributes[at + attribute.len()..].trim_start();
            before.is_some_and(|c| c.is_whitespace() || c == '}') && after.starts_with('=')
        });
        let Some((at, _)) = written else { return Some(self.tag(index)?.1) };
        let start = tag.name_end + at;
        Some(Place::text(tag.file, start, start + attribute.len()))
    }
}

/// Tera without a template. Every name ends with nothing: every template is escaped, whatever its name.
fn escaping() -> Tera {
    let mut tera = Tera::new();
    tera.autoescape_on(vec![""]);
    tera
}

/// Every name that a view holds, of records inside it too.
fn names_in<V: Serialize + ?Sized>(view: &V) -> BTreeSet<String> {
    fn gather(value: &serde_json::Value, names: &mut BTreeSet<String>) {
        match value {
            serde_json::Value::Object(record) => record.iter().for_each(|(name, inside)| {
                names.insert(name.clone());
                gather(inside, names);
            }),
            serde_json::Value::Array(list) => list.iter().for_each(|inside| gather(inside, names)),
            _ => {}
        }
    }
    let mut names = BTreeSet::new();
    if let Ok(value) = serde_json::to_value(view) {
        gather(&value, &mut names);
    }
    names
}

/// The subject of a finding about a template.
pub(super) fn subject(template: &str) -> Subject {
    Subject::Template(template.to_string())
}

/// A writer that refuses more than a paper can be.
#[derive(Default)]
struct LimitedWriter {
    bytes: Vec<u8>,
    full: bool,
}

impl io::Write for LimitedWriter {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.bytes.len() + bytes.len() > LONGEST {
            self.full = true;
            return Err(io::Error::other("the paper is too long"));
        }
        self.bytes.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}
