//! `issue --record`: the issue is kept beside the job, so that it can be opened again.
//!
//! In: what the pipeline says is to be written. Out: files beside the job, a line each. May not know: what they hold.
//!
//! The job's folder is taken by one process at a time, before anything is read. Copies are written to a folder under a temporary name,
//! which is renamed when it is whole; then the papers go out; the record, which makes the copies count, is written last. Copies that no
//! record names were left by a process that was cut off: the next one uses them where they are what it would write, and else moves them
//! aside.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::check::report;
use super::lock::Lock;
use super::writing::{Fault, NewFolder, TEMPORARY, at, is_temporary, replace_file, sync_folder};
use super::{snapshot, terminal};
use crate::findings::Files;
use crate::pipeline::{Copies, Issue, RecordFiles, Recording};

/// What the name of a folder of copies ends with that is written; older versions gave it.
const WRITING: &str = ".writing";

/// The folder of a job and its record, held by this process.
pub struct RecordFolder {
    lock: Lock,
    said: String,
}

/// An issue that may be recorded, and the folder for that.
pub struct Begun {
    recording: Recording,
    lock: Lock,
    said: String,
}

/// What is left to write once papers are out.
pub struct Copied {
    kept: RecordFiles,
    said: String,
    _lock: Lock,
}

impl RecordFolder {
    /// Takes the folder of a job; nothing where there is no job file. What stands in the way is said: a folder that cannot be written to
    /// is found before any paper goes out.
    pub fn open(job: &Path) -> Result<Option<RecordFolder>, String> {
        if !job.is_file() {
            return Ok(None);
        }
        let stem = job.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let lock = Lock::take(job.with_file_name(format!(".{stem}.issued.lock")));
        let lock = lock.map_err(|it| {
            it.says("the record of this job") + "hingewright: nothing was issued: it cannot be recorded\n"
        })?;
        let said = remove_unfinished_records(job, &stem)
            .map_err(|(path, fault)| format!("hingewright: cannot remove `{}`: {fault}\n", path.display()))?;
        Ok(Some(RecordFolder { lock, said }))
    }

    /// Whether the issue may be recorded; if not, that was said. What is in the way of its copies is moved aside.
    pub fn begin(self, files: &Files, job: &str) -> Result<Option<Begun>, String> {
        let here = std::env::current_dir().map(|it| snapshot::typed(&it)).unwrap_or_default();
        let recording = match Recording::begin(files, job, &here) {
            Ok(recording) => recording,
            Err(findings) => {
                report(&findings, files);
                terminal::complain("hingewright: nothing was issued: it cannot be recorded\n");
                return Ok(None);
            }
        };
        let said = recording.copies().map(clear_way).transpose().map_err(|(path, fault)| {
            let path = path.display();
            format!(
                "hingewright: cannot write `{path}`: {fault}\nhingewright: nothing was issued: it cannot be recorded\n"
            )
        })?;
        Ok(Some(Begun { recording, lock: self.lock, said: self.said + &said.unwrap_or_default() }))
    }
}

impl Begun {
    /// Writes the copies, before the papers go out.
    pub fn copy(self, issue: &Issue) -> Result<Copied, Fault> {
        let kept = self.recording.keep(issue);
        let mut said = self.said;
        if let Some(copies) = &kept.copies {
            let folder = Path::new(&copies.folder);
            if !folder.exists() {
                write_copies(copies)?;
            }
            said += &format!("copied {} files to {}\n", copies.files.len(), copies.folder);
        }
        Ok(Copied { kept, said, _lock: self.lock })
    }
}

impl Copied {
    /// Writes the record, once the papers are out, and says what was written.
    pub fn write(self) -> Result<String, Fault> {
        let mut out = self.said;
        match &self.kept.record {
            Some((path, text)) => {
                let whole = Path::new(path);
                let name = whole.file_name().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default();
                replace_file(whole.parent().unwrap_or(Path::new("")), &name, text.as_bytes())?;
                out += &format!("recorded in {path}\n");
            }
            None => out += "recorded before, with the same values and papers\n",
        }
        Ok(out)
    }
}

/// Removes records that processes that were cut off had not renamed yet, and says so.
fn remove_unfinished_records(job: &Path, stem: &str) -> Result<String, Fault> {
    let folder = job.parent().filter(|it| !it.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut said = String::new();
    for entry in fs::read_dir(folder).map_err(at(folder))?.flatten() {
        let (name, path) = (entry.file_name().to_string_lossy().into_owned(), entry.path());
        let is_file = fs::symlink_metadata(&path).is_ok_and(|it| it.is_file());
        if is_file && is_temporary(&name, &format!("{stem}.issued.toml")) {
            fs::remove_file(&path).map_err(at(&path))?;
            said += &format!("removed {}, which an issue that was cut off left behind\n", path.display());
        }
    }
    Ok(said)
}

/// The folder that holds those of all copies.
fn all_copies(folder: &Path) -> &Path {
    folder.parent().unwrap_or(Path::new(""))
}

/// Clears the way for copies: what processes that were cut off left, and copies that no record names. Says what it did.
fn clear_way(copies: &Copies) -> Result<String, Fault> {
    let folder = Path::new(&copies.folder);
    let all = all_copies(folder);
    let mut said = String::new();
    match fs::symlink_metadata(all) {
        Ok(there) if !there.is_dir() => {
            return Err((
                all.to_owned(),
                io::Error::other("there must be a folder, and is a file or a link; move it away"),
            ));
        }
        Ok(_) => {}
        Err(_) => return Ok(said),
    }
    for entry in fs::read_dir(all).map_err(at(all))?.flatten() {
        let (name, path) = (entry.file_name().to_string_lossy().into_owned(), entry.path());
        let is_folder = fs::symlink_metadata(&path).is_ok_and(|it| it.is_dir());
        if is_folder && (name.starts_with(TEMPORARY) || name.ends_with(WRITING)) {
            fs::remove_dir_all(&path).map_err(at(&path))?;
            said += &format!("removed {}, which an issue that was cut off left behind\n", path.display());
        }
    }
    if fs::symlink_metadata(folder).is_ok() && !holds_exactly(folder, copies) {
        let mut names = (1..).map(|number: u32| PathBuf::from(format!("{}-not-recorded-{number}", copies.folder)));
        let aside = names.find(|it| fs::symlink_metadata(it).is_err()).unwrap_or_default();
        fs::rename(folder, &aside).map_err(at(folder))?;
        let (folder, aside) = (folder.display(), aside.display());
        said += &format!("moved {folder} to {aside}: no record names these copies, and they are not of this issue\n");
    }
    Ok(said)
}

/// Whether a folder holds these copies and nothing else.
fn holds_exactly(folder: &Path, copies: &Copies) -> bool {
    let wanted: BTreeMap<PathBuf, &[u8]> =
        copies.files.iter().map(|(path, bytes)| (folder.join(path), bytes.as_slice())).collect();
    let mut open = vec![folder.to_owned()];
    let mut seen = 0;
    while let Some(folder) = open.pop() {
        let Ok(entries) = fs::read_dir(&folder) else { return false };
        for path in entries.flatten().map(|it| it.path()) {
            let Ok(there) = fs::symlink_metadata(&path) else { return false };
            let Some(bytes) = wanted.get(&path) else {
                if !there.is_dir() {
                    return false;
                }
                open.push(path);
                continue;
            };
            let is_same = there.is_file() && there.len() == bytes.len() as u64;
            if !is_same || fs::read(&path).is_ok_and(|it| it != *bytes) {
                return false;
            }
            seen += 1;
        }
    }
    seen == wanted.len()
}

fn write_copies(copies: &Copies) -> Result<(), Fault> {
    let folder = Path::new(&copies.folder);
    let all = all_copies(folder);
    fs::create_dir_all(all).map_err(at(all))?;
    let name = folder.file_name().unwrap_or_default().to_string_lossy();
    let new = NewFolder::new(all, &name)?;
    for (path, bytes) in &copies.files {
        new.write(path, bytes)?;
    }
    new.place(folder)?;
    all.parent().into_iter().for_each(sync_folder);
    Ok(())
}
