//! The folder of a job's papers: taken by one process at a time, and changed whole.
//!
//! In: an issue, what the folder holds. Out: the folder as the issue says, and a line for each thing done. May not know: how a paper is
//! made.
//!
//! An issue is written to a new folder beside this one, with what stays of it, and both are exchanged in one step: whoever kills the
//! program leaves the old papers or the new. Where the system cannot exchange folders, or somebody keeps folders or links among the
//! papers, files are renamed one by one, without a record while that goes on; what a kill leaves then is named by no record.
//!
//! Papers that an earlier issue wrote, and this one was asked for and did not make, move to `superseded/`: a stale packet is worse
//! than none. So do papers that no record names.

use std::collections::BTreeSet;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use super::lock::{Lock, NotLocked};
use super::writing::{Fault, NewFolder, at, exchange, is_temporary, sync_folder};
use crate::findings::Papers;
use crate::pipeline::{Issue, PaperStore, paper_of_file};

/// Name of the record of what was issued.
const RECORD: &str = "issued.txt";
/// Name of the folder of papers that are out of date.
const ASIDE: &str = "superseded";
/// More bytes than a record of papers has.
const LARGEST_RECORD: u64 = 1 << 20;

/// A job's folder of papers, held by this process.
pub struct PapersFolder {
    root: PathBuf,
    name: String,
    number: String,
    home: PathBuf,
    /// What was found and cleaned up, in lines.
    said: String,
    _lock: Lock,
}

/// What the folder holds, by its record.
#[derive(Default)]
struct Before {
    /// Papers that the record names and that are there.
    named: Vec<String>,
    /// Papers that are there, and no record names them.
    unnamed: Vec<String>,
}

/// What becomes of the folder.
struct Plan<'p> {
    /// Names of the new files, which are in the folder beside; the record last.
    new: Vec<&'p str>,
    /// Files that move to `superseded/`.
    aside: Vec<&'p str>,
}

impl PapersFolder {
    /// Takes the folder of the job of this number, and cleans up what a process that was cut off left there. What stands in the way is
    /// said.
    pub fn open(root: &Path, number: &str) -> Result<PapersFolder, String> {
        let fault = |fault: Fault| NotLocked::Fault(fault).says("");
        fs::create_dir_all(root).map_err(at(root)).map_err(fault)?;
        let name = safe(number);
        let home = root.join(&name);
        let lock = Lock::take(root.join(format!(".{name}.lock")));
        let lock = lock.map_err(|it| it.says(&format!("the papers of job {number} to `{}`", home.display())))?;
        let (root, number) = (root.to_owned(), number.to_owned());
        let mut folder = PapersFolder { root, name, number, home, said: String::new(), _lock: lock };
        folder.is_folder(&folder.home).map_err(fault)?;
        folder.is_folder(&folder.home.join(ASIDE)).map_err(fault)?;
        folder.is_of_job()?;
        folder.clean().map_err(fault)?;
        Ok(folder)
    }

    /// Whether a path leads to a folder or nowhere: a link is not followed.
    fn is_folder(&self, path: &Path) -> Result<(), Fault> {
        match fs::symlink_metadata(path) {
            Ok(there) if !there.is_dir() => {
                let why = "there must be a folder, and is a file or a link; name another folder with --output, or move it away";
                Err((path.to_owned(), io::Error::other(why)))
            }
            Err(fault) if fault.kind() != ErrorKind::NotFound => Err((path.to_owned(), fault)),
            _ => Ok(()),
        }
    }

    /// Two numbers, such as `A/1` and `A-1`, may have one folder.
    fn is_of_job(&self) -> Result<(), String> {
        let Ok(text) = self.record() else { return Ok(()) };
        let other = text.lines().next().and_then(|line| line.strip_prefix("job ")).filter(|it| *it != self.number);
        other.map_or(Ok(()), |other| {
            let home = self.home.display();
            Err(format!("hingewright: `{home}` holds the papers of job {other}; name another folder with --output\n"))
        })
    }

    /// Removes what a process that was cut off left beside the folder. What it holds of others goes back into the folder.
    fn clean(&mut self) -> Result<(), Fault> {
        for (name, path) in entries(&self.root)?.into_iter().filter(|(name, _)| is_temporary(name, &self.name)) {
            if fs::symlink_metadata(&path).is_ok_and(|it| it.is_dir()) {
                self.put_back(&path)?;
                fs::remove_dir_all(&path).map_err(at(&path))?;
                self.said += &format!("removed {name}, which an issue that was cut off left behind\n");
            }
        }
        Ok(())
    }

    /// Moves files of others that are in another folder and not in this one.
    fn put_back(&self, from: &Path) -> Result<(), Fault> {
        for (name, path) in entries(from)? {
            let to = self.home.join(&name);
            let is_file = fs::symlink_metadata(&path).is_ok_and(|it| it.is_file());
            if is_file && name != RECORD && paper_of_file(&name).is_none() && fs::symlink_metadata(&to).is_err() {
                fs::create_dir_all(&self.home).map_err(at(&self.home))?;
                fs::rename(&path, &to).map_err(at(&to))?;
            }
        }
        Ok(())
    }

    /// A folder beside this one, for papers as they are made.
    pub fn store(&self) -> Result<FolderStore, Fault> {
        Ok(FolderStore { folder: NewFolder::new(&self.root, &self.name)?, fault: Mutex::new(None) })
    }

    /// Puts an issue into the folder, whose files the store has, and says what was done.
    pub fn put(mut self, issue: &Issue, store: FolderStore, wanted: Papers) -> Result<String, Fault> {
        let folder = store.finished()?;
        let same_revision = self.record().ok().and_then(|before| under_one_revision(&before, &issue.record));
        let before = self.before()?;
        let now: BTreeSet<&str> = issue.papers.iter().map(|paper| paper.name.as_str()).collect();
        let asked = |name: &&String| paper_of_file(name).is_some_and(|paper| wanted.has(paper));
        let rest = before.named.iter().filter(|name| !now.contains(name.as_str()));
        let (stale, kept): (Vec<&String>, Vec<&String>) = rest.partition(asked);
        let kept: String = kept.iter().map(|name| format!("kept {name} of an earlier issue\n")).collect();
        let record = issue.record.clone() + &kept;
        // A paper of several files may be held for one of them: the others were written before that was known.
        for (name, path) in entries(folder.path())?.into_iter().filter(|(name, _)| !now.contains(name.as_str())) {
            debug_assert!(paper_of_file(&name).is_some(), "{name}");
            fs::remove_file(&path).map_err(at(&path))?;
        }
        folder.write(RECORD, record.as_bytes())?;
        let new: Vec<&str> = now.iter().copied().chain([RECORD]).collect();
        let aside = stale.iter().copied().chain(&before.unnamed).map(String::as_str).collect();
        self.change(&Plan { new, aside }, folder)?;
        let shown = |name: &str| self.home.join(name).display().to_string();
        let mut out = self.said.clone();
        out += &same_revision.unwrap_or_default();
        for paper in &issue.papers {
            let marked = match paper.revised.as_slice() {
                [] => String::new(),
                [page] => format!(", changes marked on page {page}"),
                pages => format!(", changes marked on pages {}", ranges(pages)),
            };
            out += &format!("wrote {}{marked}\n", shown(&paper.name));
        }
        for name in stale {
            out += &format!("moved {} to superseded: it is no longer issued\n", shown(name));
        }
        for name in &before.unnamed {
            out += &format!("moved {} to superseded: {RECORD} did not name it\n", shown(name));
        }
        Ok(out)
    }

    /// The text of the folder's record.
    fn record(&self) -> io::Result<String> {
        let path = self.home.join(RECORD);
        let there = fs::symlink_metadata(&path)?;
        if !there.is_file() || there.len() > LARGEST_RECORD {
            return Err(io::Error::other("it is a folder, a link, or too large"));
        }
        fs::read_to_string(&path)
    }

    /// What the folder holds. Only names of papers count, so that a record that somebody wrote moves nothing else.
    fn before(&mut self) -> Result<Before, Fault> {
        let mut before = Before::default();
        let shown = self.home.join(RECORD).display().to_string();
        let text = match self.record() {
            Ok(text) if text.starts_with("job ") => text,
            Err(fault) if fault.kind() == ErrorKind::NotFound => String::new(),
            Ok(_) => {
                self.said += &format!("{shown} was not written by this program: what it names does not count\n");
                String::new()
            }
            Err(fault) => {
                self.said += &format!("{shown} cannot be read ({fault}): what it names does not count\n");
                String::new()
            }
        };
        let files = entries(&self.home)?.into_iter().filter(|(_, path)| path.is_file() && !path.is_symlink());
        let files: BTreeSet<String> = files.map(|(name, _)| name).collect();
        for line in text.lines() {
            let Some(rest) = line.strip_prefix("issued ").or_else(|| line.strip_prefix("kept ")) else { continue };
            let name = rest.split(' ').next().unwrap_or_default();
            if paper_of_file(name).is_none() {
                self.said += &format!("{shown} names `{}`, which is no paper: left alone\n", name.escape_debug());
            } else if files.contains(name) && !before.named.iter().any(|it| it == name) {
                before.named.push(name.to_owned());
            }
        }
        let unnamed = files.into_iter().filter(|name| paper_of_file(name).is_some() && !before.named.contains(name));
        before.unnamed = unnamed.collect();
        Ok(before)
    }

    fn change(&self, plan: &Plan, folder: NewFolder) -> Result<(), Fault> {
        for name in &plan.new {
            let path = self.home.join(name);
            if fs::symlink_metadata(&path).is_ok_and(|it| it.is_dir()) {
                return Err((path, io::Error::other("a folder is in its place; nothing was changed")));
            }
        }
        if fs::symlink_metadata(&self.home).is_err() {
            return folder.place(&self.home);
        }
        if self.carry(plan, folder.path()).is_some() && self.exchange_with(&folder).is_ok() {
            return self.put_back(folder.path());
        }
        self.one_by_one(plan, folder.path())
    }

    /// Links what stays of this folder into another; nothing where it holds anything but files, or the disk has no such links.
    fn carry(&self, plan: &Plan, to: &Path) -> Option<()> {
        let is_file = |path: &Path| fs::symlink_metadata(path).is_ok_and(|it| it.is_file());
        let aside = to.join(ASIDE);
        let is_new = |name: &str| plan.new.contains(&name);
        let stands_aside = |name: &str| plan.aside.contains(&name);
        let mut has_aside = !plan.aside.is_empty();
        for (name, path) in entries(&self.home).ok()? {
            if name == ASIDE {
                has_aside = true;
            } else if !is_file(&path) {
                return None;
            } else if !is_new(&name) && !stands_aside(&name) {
                fs::hard_link(&path, to.join(&name)).ok()?;
            }
        }
        if has_aside {
            fs::create_dir(&aside).ok()?;
        }
        for name in &plan.aside {
            fs::hard_link(self.home.join(name), aside.join(name)).ok()?;
        }
        for (name, path) in entries(&self.home.join(ASIDE)).ok()?.into_iter().filter(|(name, _)| !stands_aside(name)) {
            if !is_file(&path) {
                return None;
            }
            fs::hard_link(&path, aside.join(&name)).ok()?;
        }
        Some(())
    }

    fn exchange_with(&self, folder: &NewFolder) -> io::Result<()> {
        sync_folder(&folder.path().join(ASIDE));
        sync_folder(folder.path());
        exchange(folder.path(), &self.home)?;
        sync_folder(&self.root);
        Ok(())
    }

    /// Renames new files into the folder, the record last; there is none while that goes on.
    fn one_by_one(&self, plan: &Plan, from: &Path) -> Result<(), Fault> {
        let record = self.home.join(RECORD);
        if fs::symlink_metadata(&record).is_ok() {
            fs::remove_file(&record).map_err(at(&record))?;
        }
        let aside = self.home.join(ASIDE);
        if !plan.aside.is_empty() {
            fs::create_dir_all(&aside).map_err(at(&aside))?;
        }
        for name in &plan.aside {
            fs::rename(self.home.join(name), aside.join(name)).map_err(at(&aside.join(name)))?;
        }
        for name in &plan.new {
            let path = self.home.join(name);
            fs::rename(from.join(name), &path).map_err(at(&path))?;
        }
        sync_folder(&self.home);
        Ok(())
    }
}

/// What there is to say where other values went out under the same revision. Whoever holds both papers takes them for one.
fn under_one_revision(before: &str, now: &str) -> Option<String> {
    fn word<'t>(text: &'t str, key: &str) -> Option<&'t str> {
        text.lines().find_map(|line| line.strip_prefix(key)?.strip_prefix(' '))
    }
    let revision = word(now, "revision").filter(|it| *it != "-")?;
    let values = |text| word(text, "fingerprint of the values");
    let other = word(before, "revision") == Some(revision) && values(before) != values(now);
    other.then(|| {
        format!(
            "revision {revision} was written before with other values: raise it where those papers went out; --record keeps what goes out\n"
        )
    })
}

/// A folder beside a job's folder, into which papers are written as they are made.
pub struct FolderStore {
    folder: NewFolder,
    /// The first thing that went wrong.
    fault: Mutex<Option<Fault>>,
}

impl FolderStore {
    /// The folder with all files, unless one could not be written.
    fn finished(self) -> Result<NewFolder, Fault> {
        let fault = self.fault.into_inner().unwrap_or_else(PoisonError::into_inner);
        fault.map_or(Ok(self.folder), Err)
    }
}

impl PaperStore for FolderStore {
    fn put(&self, name: &str, bytes: Vec<u8>) -> Vec<u8> {
        if let Err(fault) = self.folder.write(name, &bytes) {
            self.fault.lock().unwrap_or_else(PoisonError::into_inner).get_or_insert(fault);
        }
        Vec::new()
    }
}

/// Names and paths in a folder, in order; none where there is no folder.
fn entries(folder: &Path) -> Result<Vec<(String, PathBuf)>, Fault> {
    let all = match fs::read_dir(folder) {
        Ok(all) => all,
        Err(fault) if fault.kind() == ErrorKind::NotFound => return Ok(Vec::new()),
        Err(fault) => return Err((folder.to_owned(), fault)),
    };
    let mut named = Vec::new();
    for entry in all {
        let entry = entry.map_err(at(folder))?;
        named.push((entry.file_name().to_string_lossy().into_owned(), entry.path()));
    }
    named.sort();
    Ok(named)
}

/// A name that is safe as a folder: letters, digits, `-`, `_` and `.`; never empty, never only dots.
fn safe(number: &str) -> String {
    let legal = |it: char| if it.is_ascii_alphanumeric() || matches!(it, '-' | '_' | '.') { it } else { '-' };
    let name: String = number.chars().map(legal).collect();
    if name.trim_matches('.').is_empty() { "job".to_owned() } else { name }
}

/// Numbers in order, those that follow one another from the first to the last: `1, 4-6`.
fn ranges(numbers: &[usize]) -> String {
    let runs = numbers.chunk_by(|one, next| one + 1 == *next);
    let run = |run: &[usize]| match run {
        [first, .., last] => format!("{first}-{last}"),
        one => one.iter().map(usize::to_string).collect(),
    };
    runs.map(run).collect::<Vec<_>>().join(", ")
}
