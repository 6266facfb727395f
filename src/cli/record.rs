//! `issue --record`: the issue is kept beside the job, so that it can be opened again.
//!
//! In: what the pipeline says is to be written. Out: files beside the job, a line each. May not know: what they hold.
//!
//! Copies are written to a folder under a temporary name, which is renamed when it is whole; the record, which makes them count, is
//! written last.

use std::io;
use std::path::{Path, PathBuf};

use super::check::report;
use super::issue::write_file;
use super::{snapshot, terminal};
use crate::findings::Files;
use crate::pipeline::{Copies, Kept, Recording};

/// Whether the issue may be recorded; if not, that was said.
pub fn begin(files: &Files, job: &str) -> Option<Recording> {
    let here = std::env::current_dir().map(|it| snapshot::typed(&it)).unwrap_or_default();
    match Recording::begin(files, job, &here) {
        Ok(recording) => Some(recording),
        Err(findings) => {
            report(&findings, files);
            terminal::complain("hingewright: nothing was issued: it cannot be recorded\n");
            None
        }
    }
}

/// Writes what is to be kept and says what it wrote.
pub fn write(kept: &Kept) -> Result<String, (PathBuf, io::Error)> {
    let mut out = String::new();
    if let Some(copies) = &kept.copies {
        write_copies(copies)?;
        out.push_str(&format!("copied {} files to {}\n", copies.files.len(), copies.folder));
    }
    match &kept.record {
        Some((path, text)) => {
            let whole = Path::new(path);
            let name = whole.file_name().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default();
            write_file(whole.parent().unwrap_or(Path::new("")), &name, text.as_bytes())?;
            out.push_str(&format!("recorded in {path}\n"));
        }
        None => out.push_str("recorded before, with the same values and papers\n"),
    }
    Ok(out)
}

fn write_copies(copies: &Copies) -> Result<(), (PathBuf, io::Error)> {
    let folder = Path::new(&copies.folder);
    if folder.exists() {
        let fault = io::Error::other("it is there, and the record does not name it; move it away and run again");
        return Err((folder.to_owned(), fault));
    }
    let temporary = PathBuf::from(format!("{}.writing", copies.folder));
    let at = |path: &Path| {
        let path = path.to_owned();
        move |fault| (path, fault)
    };
    // What a run that was cut off left behind under this name was never whole.
    if temporary.exists() {
        std::fs::remove_dir_all(&temporary).map_err(at(&temporary))?;
    }
    for (path, bytes) in &copies.files {
        let path = temporary.join(path);
        let made = path.parent().map_or(Ok(()), std::fs::create_dir_all);
        made.and_then(|()| std::fs::write(&path, bytes)).map_err(at(&path))?;
    }
    std::fs::rename(&temporary, folder).map_err(at(folder))
}
