//! `new`: a folder with a job to start from and a catalog beside it.
//!
//! In: a folder's path. Out: files on disk. May not know: what the keys mean; they come from the field tables.

use std::path::Path;

use super::{Ended, terminal};
use crate::pipeline;

/// Runs the command. A folder that is there already is left alone.
pub fn run(folder: &Path) -> Ended {
    if folder.exists() {
        terminal::complain(&format!("hingewright: `{}` is there already; name a new folder\n", folder.display()));
        return Ended::CouldNotRun;
    }
    for (name, bytes) in pipeline::starter() {
        let path = folder.join(name);
        let made = path.parent().map_or(Ok(()), std::fs::create_dir_all).and_then(|()| std::fs::write(&path, bytes));
        if let Err(fault) = made {
            terminal::complain(&format!("hingewright: cannot write `{}`: {fault}\n", path.display()));
            return Ended::CouldNotRun;
        }
    }
    let job = folder.join("job.toml");
    terminal::print(&format!("wrote {}\nnext: hingewright check {}\n", job.display(), job.display()));
    Ended::Done
}
