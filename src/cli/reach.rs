//! Which files a job and a catalog may name.
//!
//! In: folders, paths. Out: whether a path is inside of them, as it is written and where it leads. May not know: what is read there.
//!
//! The rule: the catalog's folder is anywhere in the folder that holds the job's folder, so that a catalog may be above, beside or below
//! its jobs. Tables stay in the job's folder or the catalog's, and what a catalog names stays in its own. A path from the root is refused,
//! and so is a link that leads out. The person may allow further folders on the command line.

use std::path::{Component, Path, PathBuf};

/// Folders that may be read.
#[derive(Clone, Default)]
pub struct Reach {
    is_anywhere: bool,
    /// The folders as they are written, from the root.
    written: Vec<PathBuf>,
    /// Where they lead.
    real: Vec<PathBuf>,
    /// The folder that holds the job's, likewise.
    around: Vec<[PathBuf; 2]>,
}

impl Reach {
    /// The folder of a job file, and those that a person allows.
    pub fn of_job(job: &str, allowed: &[PathBuf]) -> Reach {
        let folder = job.rsplit_once('/').map_or(".", |(folder, _)| if folder.is_empty() { "/" } else { folder });
        let mut reach = Reach::of_person(allowed);
        reach.add(Path::new(folder));
        let holder =
            |path: PathBuf| path.parent().filter(|it| it.parent().is_some()).map(Path::to_owned).unwrap_or(path);
        let real = std::fs::canonicalize(folder).map(holder);
        reach.around.extend(real.ok().map(|real| [holder(from_root(Path::new(folder))), real]));
        reach
    }

    /// The folders that a person allows, and no other.
    pub fn of_person(allowed: &[PathBuf]) -> Reach {
        let mut reach = Reach::default();
        allowed.iter().for_each(|folder| reach.add(folder));
        reach
    }

    /// What a person names by hand may be anywhere.
    pub fn anywhere() -> Reach {
        Reach { is_anywhere: true, ..Reach::default() }
    }

    /// One more folder.
    pub fn add(&mut self, folder: &Path) {
        let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        self.written.push(from_root(folder));
        self.real.extend(std::fs::canonicalize(folder));
    }

    /// Whether a path is in these folders, as it is written and, where something stands there, where it leads.
    pub fn holds(&self, path: &Path) -> bool {
        let is_in = |path: &Path, folders: &[PathBuf]| folders.iter().any(|folder| path.starts_with(folder));
        let leads = || std::fs::canonicalize(path).map_or(true, |real| is_in(&real, &self.real));
        self.is_anywhere || is_in(&from_root(path), &self.written) && leads()
    }

    /// Whether a path may be a catalog's folder.
    pub fn holds_catalog(&self, folder: &Path) -> bool {
        let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        let leads = |to: &Path| std::fs::canonicalize(folder).map_or(true, |real| real.starts_with(to));
        self.holds(folder)
            || self.around.iter().any(|[written, real]| from_root(folder).starts_with(written) && leads(real))
    }
}

/// A path from the root, with `.` and `..` taken out as they are written.
fn from_root(path: &Path) -> PathBuf {
    let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let mut out = PathBuf::new();
    for part in whole.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => drop(out.pop()),
            part => out.push(part),
        }
    }
    out
}
