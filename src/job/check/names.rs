//! What a job file names, without its openings: catalog, tables, number, revision.
//!
//! In: the job file. Out: paths from where the command runs, number and revision. May not know: what those files hold.
//!
//! Whoever gathers the files of a job needs this and no more, before the tables are there.

use super::{folder_of, is_from_root, join};
use crate::findings::{FileId, Place};
use crate::input::{Reader, Slot, Text};
use crate::job::file_entries::{JobEntry, JobNamesEntry};

/// What a job file names.
#[derive(Clone, Debug, Default)]
pub struct JobNames {
    pub(super) head: JobEntry,
    /// The folder of the job file.
    pub(super) folder: String,
}

impl JobNames {
    /// Reads the job's own table of the job file; faults are reported by whoever reads all of it.
    pub fn read(reader: &mut Reader, file: FileId) -> JobNames {
        let entry: JobNamesEntry = reader.toml(file);
        let folder = folder_of(reader.files().path(file)).to_owned();
        JobNames { head: entry.job.get().cloned().unwrap_or_default(), folder }
    }

    /// The folder of the catalog, from where the command runs, and where it is named.
    pub fn catalog_folder(&self) -> Option<(String, Option<Place>)> {
        let given = self.head.catalog.given()?;
        Some((join(&self.folder, &given.value), Some(given.place.clone())))
    }

    /// The revision of the job, where it is given and good.
    pub fn revision(&self) -> Option<&str> {
        self.head.revision.get().map(|it| it.as_str())
    }

    /// The number of the job, where it is given and good.
    pub fn number(&self) -> Option<&str> {
        self.head.number.get().map(|it| it.as_str())
    }

    /// The tables that the job file names, as paths from where the command runs.
    pub fn tables(&self) -> Vec<String> {
        self.named_tables().into_iter().filter_map(Slot::get).map(|name| join(&self.folder, name)).collect()
    }

    /// Those tables and the catalog's folder that the job file names by a path from the root, as paths.
    pub fn from_root(&self) -> Vec<String> {
        let named = self.named_tables().into_iter().chain([&self.head.catalog]);
        let named = named.filter_map(Slot::get).filter(|name| is_from_root(name));
        named.map(|name| join(&self.folder, name)).collect()
    }

    fn named_tables(&self) -> [&Slot<Text>; 3] {
        [&self.head.openings, &self.head.surveys, &self.head.specification]
    }
}
