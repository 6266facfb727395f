//! `new`: a folder with a job to start from and a catalog beside it.
//!
//! In: a folder's path. Out: files on disk. May not know: what the keys mean; they come from the field tables.

use std::fs;
use std::path::Path;

use super::writing::{Fault, NewFolder, at};
use super::{Outcome, terminal};
use crate::pipeline;

/// Runs the command. A folder that is there already is left alone; one that cannot be written whole is not there afterwards.
pub fn run(folder: &Path) -> Outcome {
    if fs::symlink_metadata(folder).is_ok() {
        terminal::complain(&format!("hingewright: `{}` is there already; name a new folder\n", folder.display()));
        return Outcome::CouldNotRun;
    }
    if let Err((path, fault)) = write(folder) {
        terminal::complain(&format!("hingewright: cannot write `{}`: {fault}\n", path.display()));
        return Outcome::CouldNotRun;
    }
    let job = folder.join("job.toml");
    terminal::print(&format!("wrote {}\nnext: hingewright check {}\n", job.display(), job.display()));
    Outcome::Done
}

fn write(folder: &Path) -> Result<(), Fault> {
    let beside = folder.parent().filter(|it| !it.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(beside).map_err(at(beside))?;
    let new = NewFolder::new(beside, "new")?;
    for (name, bytes) in pipeline::starter() {
        new.write(&name, &bytes)?;
    }
    new.place(folder)
}
