//! The one snapshot of every input, read from the disk.
//!
//! In: paths as a person types them. Out: files by path, those that are named and may not be read, or why the job file could not be
//! read.
//! May not know: what any file means; it asks the pipeline which files a job names.

use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use super::reach::Reach;
use super::terminal;
use crate::findings::{Files, Unread};
use crate::pipeline::{RequiredFile, built_in_templates, earlier_copy, enclosures_named, required_files};

/// The most bytes of a job file, a table, a file of a catalog or a record: `input` takes no more either.
const LARGEST_TEXT: u64 = 32 << 20;
/// The most bytes of a template.
const LARGEST_TEMPLATE: u64 = 1 << 20;
/// The most bytes of a PDF or a font that a catalog names.
const LARGEST_ENCLOSURE: u64 = 64 << 20;
/// The most bytes of all together.
const LARGEST_SNAPSHOT: u64 = 512 << 20;

/// A job, and what of the disk it may name.
#[derive(Clone, Copy)]
pub struct Source<'a> {
    /// The job file.
    pub job: &'a Path,
    /// Folders outside of the job's that it may name all the same, as the person said.
    pub allowed: &'a [PathBuf],
}

/// A path as the rooms know it: `/` between parts.
pub fn typed(path: &Path) -> String {
    let text = path.to_string_lossy().replace('\\', "/");
    text.strip_prefix("./").unwrap_or(&text).to_owned()
}

/// The job's path as the rooms know it, and the snapshot; none where the job file cannot be read, which was said.
pub fn of_job(source: Source) -> Option<(String, Files)> {
    said(read(source)).map(|(path, taken)| (path, taken.files()))
}

/// The copy of a job that its record names, and the snapshot. It stands in the job's own folder, with all that it names.
pub fn of_copy(copy: &Path, source: Source) -> Option<(String, Files)> {
    let own = own_folder(source);
    of_job(Source { job: copy, allowed: &own }).filter(|_| Reach::of_person(&own).holds(copy))
}

/// The same, with the templates built in and those of a folder, and the copies of the issue before.
pub fn of_job_with_templates(source: Source, folder: Option<&str>) -> Option<(String, Files)> {
    said(read_with_templates(source, folder))
}

fn said<T>(read: Result<T, String>) -> Option<T> {
    read.map_err(|unreadable| terminal::complain(&format!("hingewright: {unreadable}\n"))).ok()
}

/// What was read so far.
#[derive(Default)]
struct Taken {
    files: Vec<(String, Vec<u8>)>,
    unread: Vec<(String, Unread)>,
    bytes: u64,
}

impl Taken {
    fn files(self) -> Files {
        Files::new(self.files).without(self.unread)
    }

    /// Reads a file of at most so many bytes, where there is one and it may be read. A file that is named and not there is left to the
    /// check, which knows where it was named; so is one that may not be read.
    fn take(&mut self, path: String, largest: u64, reach: &Reach) -> Result<(), String> {
        if !reach.holds(Path::new(&path)) {
            self.unread.push((path, Unread::Outside));
        } else if Path::new(&path).is_file() {
            let largest = largest.min(LARGEST_SNAPSHOT.saturating_sub(self.bytes));
            match read_file(&path, largest).map_err(|fault| cannot_read("the file", &path, &fault))? {
                Some(bytes) => {
                    self.bytes += bytes.len() as u64;
                    self.files.push((path, bytes));
                }
                None => self.unread.push((path, Unread::LargerThan(largest))),
            }
        }
        Ok(())
    }

    /// Reads the files of a folder with this ending; none where there is no folder.
    fn take_folder(&mut self, folder: &str, (ending, largest): (&str, u64), reach: &Reach) -> Result<(), String> {
        let shown = if folder.is_empty() { "." } else { folder };
        let Ok(entries) = std::fs::read_dir(shown) else { return Ok(()) };
        let names = entries.flatten().map(|entry| entry.file_name().to_string_lossy().into_owned());
        let mut names: Vec<String> = names.filter(|name| name.ends_with(ending)).collect();
        names.sort();
        for name in names {
            let path = if folder.is_empty() { name } else { format!("{folder}/{name}") };
            self.take(path, largest, reach)?;
        }
        Ok(())
    }
}

fn cannot_read(what: &str, path: &str, why: &dyn std::fmt::Display) -> String {
    format!("cannot read {what} `{path}`: {why}")
}

/// The bytes of a file; none where they are more than this. No more are read than that, whatever the file is.
fn read_file(path: &str, largest: u64) -> io::Result<Option<Vec<u8>>> {
    let file = File::open(path)?;
    if file.metadata()?.len() > largest {
        return Ok(None);
    }
    let mut bytes = Vec::new();
    file.take(largest + 1).read_to_end(&mut bytes)?;
    Ok((bytes.len() as u64 <= largest).then_some(bytes))
}

/// Reads the job file and whatever it names.
fn read(source: Source) -> Result<(String, Taken), String> {
    if source.job.to_str().is_none() {
        let why = "its name is not UTF-8; give the file and its folders names in letters that are";
        return Err(cannot_read("the job file", &source.job.to_string_lossy(), &why));
    }
    let job = typed(source.job);
    let why = format!("it is larger than {} MB, and no job is", LARGEST_TEXT >> 20);
    let bytes = read_file(&job, LARGEST_TEXT).map_err(|fault| cannot_read("the job file", &job, &fault))?;
    let bytes = bytes.ok_or_else(|| cannot_read("the job file", &job, &why))?;
    let mut taken = Taken { bytes: bytes.len() as u64, files: vec![(job.clone(), bytes)], ..Taken::default() };
    let reach = Reach::of_job(&job, source.allowed);
    let mut of_tables = reach.clone();
    let mut of_catalog = Reach::of_person(source.allowed);
    let all = required_files(&Files::new(taken.files.clone()), &job);
    let folder = all.iter().find_map(|it| match it {
        RequiredFile::Folder(folder) => Some((folder, reach.holds_catalog(Path::new(folder)))),
        RequiredFile::FromRoot(path) if Path::new(path).is_dir() => Some((path, of_catalog.holds(Path::new(path)))),
        _ => None,
    });
    match folder {
        Some((folder, true)) => {
            of_tables.add(Path::new(folder));
            of_catalog.add(Path::new(folder));
            taken.take_folder(folder, (".toml", LARGEST_TEXT), &of_catalog)?;
        }
        Some((folder, false)) => taken.unread.push((folder.clone(), Unread::Outside)),
        None => {}
    }
    for one in &all {
        match one {
            RequiredFile::File(path) => taken.take(path.clone(), LARGEST_TEXT, &of_tables)?,
            RequiredFile::FromRoot(path) => {
                taken.take(path.clone(), LARGEST_TEXT, &Reach::of_person(source.allowed))?
            }
            RequiredFile::Folder(_) | RequiredFile::Enclosure(_) => {} // the catalog names enclosures, and is read only now
        }
    }
    if let Some((folder, true)) = folder {
        for one in enclosures_named(&Files::new(taken.files.clone()), folder) {
            taken.take(one.path().to_owned(), LARGEST_ENCLOSURE, &of_catalog)?;
        }
    }
    Ok((job, taken))
}

/// The snapshot of a job with templates.
fn read_with_templates(source: Source, folder: Option<&str>) -> Result<(String, Files), String> {
    let (job, mut taken) = read(source)?;
    let files = Files::new(taken.files.clone());
    taken.files.extend(built_in_templates());
    // Copies that are gone are left to the issue, which says what that means. They stand in the job's own folder.
    if let Some(copy) = earlier_copy(&files, &job).filter(|copy| Path::new(copy).is_file()) {
        let own = own_folder(source);
        if Reach::of_person(&own).holds(Path::new(&copy)) {
            let (_, copies) = read(Source { job: Path::new(&copy), allowed: &own })?;
            taken.files.extend(copies.files);
        }
    }
    if let Some(folder) = folder {
        if !Path::new(folder).is_dir() {
            return Err(cannot_read("the folder of templates", folder, &"there is no such folder"));
        }
        taken.take_folder(folder, (".xml", LARGEST_TEMPLATE), &Reach::anywhere())?;
    }
    Ok((job, taken.files()))
}

/// The folder of a job file.
fn own_folder(source: Source) -> [PathBuf; 1] {
    let folder = source.job.parent().filter(|it| !it.as_os_str().is_empty()).unwrap_or(Path::new("."));
    [folder.to_owned()]
}
