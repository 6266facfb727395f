//! The one snapshot of every input, read from the disk.
//!
//! In: paths as a person types them. Out: files by path, or why the first could not be read.
//! May not know: what any file means; it asks the pipeline which files a job names.

use std::path::Path;

use crate::findings::Files;
use crate::pipeline::{Wanted, built_in_templates, earlier_copy, wanted};

/// Why a snapshot could not be made: the path, what named it, and the system's own words.
#[derive(Debug)]
pub struct Unreadable {
    path: String,
    named_by: &'static str,
    why: String,
}

impl std::fmt::Display for Unreadable {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "cannot read {} `{}`: {}", self.named_by, self.path, self.why)
    }
}

/// A path as the rooms know it: `/` between parts.
pub fn typed(path: &Path) -> String {
    let text = path.to_string_lossy().replace('\\', "/");
    text.strip_prefix("./").unwrap_or(&text).to_owned()
}

/// The job's path as the rooms know it, and the snapshot; none where a file cannot be read, which was said.
pub fn of_job(job: &Path) -> Option<(String, Files)> {
    let path = typed(job);
    said(read(&path)).map(|files| (path, files))
}

/// The same, with the templates built in and those of a folder.
pub fn of_job_with_templates(job: &Path, folder: Option<&str>) -> Option<(String, Files)> {
    let path = typed(job);
    said(read_with_templates(&path, folder)).map(|files| (path, files))
}

fn said(read: Result<Files, Unreadable>) -> Option<Files> {
    read.map_err(|unreadable| super::terminal::complain(&format!("hingewright: {unreadable}\n"))).ok()
}

/// Reads the job file and whatever it names. A file that is named and not there is left to the check, which knows where
/// it was named.
fn read(job: &str) -> Result<Files, Unreadable> {
    let mut all = vec![(job.to_owned(), read_file(job, "the job file")?)];
    for one in wanted(&Files::new(all.clone()), job) {
        match one {
            Wanted::File(path) => all.extend(read_if_there(path, "the table")?),
            Wanted::Folder(folder) => all.extend(read_folder(&folder, ".toml")?),
            Wanted::Enclosure(_) => {} // the catalog names them, and is being read
        }
    }
    for one in wanted(&Files::new(all.clone()), job) {
        if let Wanted::Enclosure(path) = one {
            all.extend(read_if_there(path, "the file")?);
        }
    }
    Ok(Files::new(all))
}

fn read_if_there(path: String, named_by: &'static str) -> Result<Option<(String, Vec<u8>)>, Unreadable> {
    let is_there = Path::new(&path).is_file();
    is_there.then(|| read_file(&path, named_by).map(|bytes| (path.clone(), bytes))).transpose()
}

/// The snapshot of a job with templates.
fn read_with_templates(job: &str, folder: Option<&str>) -> Result<Files, Unreadable> {
    let files = read(job)?;
    let mut all = taken(&files);
    all.extend(built_in_templates());
    // Copies that are gone are left to the issue, which says what that means.
    if let Some(copy) = earlier_copy(&files, job).filter(|copy| Path::new(copy).is_file()) {
        all.extend(taken(&read(&copy)?));
    }
    if let Some(folder) = folder {
        all.extend(read_folder(folder, ".xml")?);
    }
    Ok(Files::new(all))
}

fn taken(files: &Files) -> Vec<(String, Vec<u8>)> {
    files.ids().map(|file| (files.path(file).to_owned(), files.bytes(file).to_owned())).collect()
}

fn read_file(path: &str, named_by: &'static str) -> Result<Vec<u8>, Unreadable> {
    std::fs::read(path).map_err(|fault| Unreadable { path: path.to_owned(), named_by, why: fault.to_string() })
}

fn read_folder(folder: &str, ending: &str) -> Result<Vec<(String, Vec<u8>)>, Unreadable> {
    let shown = if folder.is_empty() { "." } else { folder };
    let Ok(entries) = std::fs::read_dir(shown) else { return Ok(Vec::new()) };
    let mut files = Vec::new();
    for entry in entries.flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.ends_with(ending) && entry.path().is_file() {
            let path = if folder.is_empty() { name } else { format!("{folder}/{name}") };
            let bytes = read_file(&path, "a file of the folder")?;
            files.push((path, bytes));
        }
    }
    Ok(files)
}
