//! Files that are named and were not read.
//!
//! In: the snapshot, the path of a file and where it is named. Out: the finding that says why. May not know: what the file is for.

use super::codes::{OUTSIDE_FOLDER, TOO_LARGE};
use crate::findings::{Files, Finding, Subject, Unread};

/// The finding for a file or folder that was not read, without its place; none where it was read, or where there is none. `inside`
/// says in words where it has to be.
pub fn unread(files: &Files, path: &str, inside: &str, subject: Subject) -> Option<Finding> {
    match files.unread(path)? {
        Unread::Outside => {
            let folder = path.rsplit_once('/').map_or(".", |(folder, _)| if folder.is_empty() { "/" } else { folder });
            let advice = format!(
                "copy it there and name it from there; or, where you trust who wrote this, run again with --allow-outside {folder}"
            );
            Some(Finding::new(&OUTSIDE_FOLDER, subject).found(path).asked(inside).advise(advice))
        }
        Unread::LargerThan(bytes) => {
            let finding = Finding::new(&TOO_LARGE, subject).found(path).asked(format!("at most {} MB", bytes >> 20));
            Some(finding.advise("look at what the file holds; name the right one, or part it into smaller ones"))
        }
    }
}
