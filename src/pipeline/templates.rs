//! The templates that ship with the tool, and those of a folder that stand instead of them.
//!
//! In: the snapshot. Out: sources for the markup, each with its file. May not know: what a template prints.

use super::codes::{TEMPLATE_NOT_TEXT, TEMPLATE_NOT_USED};
use crate::findings::{FileId, Files, Finding, Findings, Place, Subject};
use crate::input::{nearest, unread};
use crate::markup::Source;

/// The folder under which the templates that ship with the tool stand in the snapshot.
pub const TEMPLATE_FOLDER: &str = "(built in) templates";

/// Names and texts of the templates that ship with the tool.
const BUILT_IN: &[(&str, &str)] = &[
    ("bid.xml", include_str!("../../templates/bid.xml")),
    ("recap.xml", include_str!("../../templates/recap.xml")),
    ("running.xml", include_str!("../../templates/running.xml")),
    ("counts.xml", include_str!("../../templates/counts.xml")),
    ("operation.xml", include_str!("../../templates/operation.xml")),
    ("schedule.xml", include_str!("../../templates/schedule.xml")),
    ("survey.xml", include_str!("../../templates/survey.xml")),
    ("packet.xml", include_str!("../../templates/packet.xml")),
    ("register.xml", include_str!("../../templates/register.xml")),
    ("orders.xml", include_str!("../../templates/orders.xml")),
    ("review.xml", include_str!("../../templates/review.xml")),
    ("needs.xml", include_str!("../../templates/needs.xml")),
    ("questions.xml", include_str!("../../templates/questions.xml")),
    ("drawings.xml", include_str!("../../templates/drawings.xml")),
    ("certification.xml", include_str!("../../templates/certification.xml")),
    ("submittal.xml", include_str!("../../templates/submittal.xml")),
    ("title.xml", include_str!("../../templates/title.xml")),
    ("steps.xml", include_str!("../../templates/steps.xml")),
    ("runs.xml", include_str!("../../templates/runs.xml")),
    ("settings.xml", include_str!("../../templates/settings.xml")),
    ("values.xml", include_str!("../../templates/values.xml")),
    ("enclosed.xml", include_str!("../../templates/enclosed.xml")),
    ("fixing.xml", include_str!("../../templates/fixing.xml")),
    ("cautions.xml", include_str!("../../templates/cautions.xml")),
    ("how.xml", include_str!("../../templates/how.xml")),
];

/// The templates that ship with the tool, as files for the snapshot.
pub fn built_in_templates() -> impl Iterator<Item = (String, Vec<u8>)> {
    BUILT_IN.iter().map(|(name, text)| (format!("{TEMPLATE_FOLDER}/{name}"), text.as_bytes().to_vec()))
}

/// Looks at the templates of a folder: each must be text of a size that a template has, and stand instead of one that ships with
/// the tool or be included by another.
pub(super) fn check(files: &Files, folder: &str, findings: &mut Findings) {
    let inside = |path: &str| -> Option<String> {
        let name = path.strip_prefix(folder)?.strip_prefix('/')?;
        (!name.contains('/')).then(|| name.to_owned())
    };
    for (path, _) in files.all_unread() {
        let about = inside(path).map(Subject::Template);
        let found = about.and_then(|about| unread(files, path, "the folder of templates", about));
        found.into_iter().for_each(|it| findings.push(it));
    }
    let own: Vec<(String, FileId)> = files.ids().filter_map(|file| Some((inside(files.path(file))?, file))).collect();
    for (name, file) in &own {
        let finding = |code| Finding::new(code, Subject::Template(name.clone())).at(Place::File(*file)).found(name);
        if let Err(byte) = files.text(*file) {
            let asked = format!("byte {} is no UTF-8", byte + 1);
            findings.push(finding(&TEMPLATE_NOT_TEXT).asked(asked).advise("save it as UTF-8"));
        }
        let quoted = [format!("\"{name}\""), format!("'{name}'")];
        let includes = |text: &str| quoted.iter().any(|it| text.contains(it.as_str()));
        let is_used = BUILT_IN.iter().any(|(known, _)| known == name)
            || own.iter().any(|(_, other)| other != file && files.text(*other).is_ok_and(includes));
        if !is_used {
            let names = BUILT_IN.iter().map(|(known, _)| *known);
            let advice = match nearest(name, names.clone()) {
                Some(meant) => format!("name it {meant}, or take it out of the folder"),
                None => format!("name it as one of these: {}", names.collect::<Vec<_>>().join(", ")),
            };
            findings.push(finding(&TEMPLATE_NOT_USED).advise(advice));
        }
    }
}

/// Every template of the snapshot: those built in, and over them those that stand directly in a folder.
pub(super) fn sources<'f>(files: &'f Files, folder: Option<&str>) -> Vec<(String, FileId, &'f str)> {
    let inside = |root: &str| {
        let files_there = files.ids().filter_map(|file| {
            let name = files.path(file).strip_prefix(root)?.strip_prefix('/')?;
            let text = files.text(file).ok()?;
            (!name.contains('/')).then(|| (name.to_owned(), file, text))
        });
        files_there.collect::<Vec<_>>()
    };
    let mut all = inside(TEMPLATE_FOLDER);
    if let Some(folder) = folder {
        all.extend(inside(folder));
    }
    all
}

/// The same, as the markup takes them.
pub(super) fn as_sources<'s>(all: &'s [(String, FileId, &'s str)]) -> impl Iterator<Item = Source<'s>> {
    all.iter().map(|(name, file, text)| Source { name, file: *file, text })
}
