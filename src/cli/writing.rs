//! Writing to the disk so that nobody ever sees half of anything and nothing outside is touched.
//!
//! In: names and bytes. Out: files and folders, whole or not there. May not know: what they hold.
//!
//! What is written gets a name that cannot be guessed, is made new (a link that stands there is never followed), goes to the disk
//! before it is renamed, and is removed where something fails.

use std::fs::{self, File, OpenOptions};
use std::hash::{BuildHasher, RandomState};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A path, and what went wrong there.
pub type Fault = (PathBuf, io::Error);

/// What the names begin with that are given while something is written.
pub const TEMPORARY: &str = ".hingewright-";

/// A fault at a path.
pub fn at(path: &Path) -> impl FnOnce(io::Error) -> Fault {
    let path = path.to_owned();
    move |fault| (path, fault)
}

/// A path in a folder under which nothing stands and that cannot be guessed. It says for what it is, so that the next run knows it.
pub fn temporary(folder: &Path, of: &str) -> PathBuf {
    // Every state hashes with keys of its own that the system drew.
    let number = RandomState::new().hash_one(std::process::id());
    folder.join(format!("{TEMPORARY}{of}-{number:016x}"))
}

/// Whether a name is one that [`temporary`] gives for this.
pub fn is_temporary(name: &str, of: &str) -> bool {
    let rest =
        name.strip_prefix(TEMPORARY).and_then(|rest| rest.strip_prefix(of)).and_then(|rest| rest.strip_prefix('-'));
    rest.is_some_and(|rest| rest.len() == 16 && rest.bytes().all(|it| it.is_ascii_hexdigit()))
}

/// Makes a file new, with these bytes, on the disk.
pub fn new_file(path: &Path, bytes: &[u8]) -> Result<(), Fault> {
    let write = || {
        let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
        file.write_all(bytes).and_then(|()| file.sync_all()).inspect_err(|_| {
            let _ = fs::remove_file(path);
        })
    };
    write().map_err(at(path))
}

/// Puts a file in the place of whatever file or link stands under its name.
pub fn replace_file(folder: &Path, name: &str, bytes: &[u8]) -> Result<(), Fault> {
    let (path, temporary) = (folder.join(name), temporary(folder, name));
    new_file(&temporary, bytes)?;
    fs::rename(&temporary, &path).map_err(at(&path)).inspect_err(|_| {
        let _ = fs::remove_file(&temporary);
    })?;
    sync_folder(folder);
    Ok(())
}

/// A folder that is written under a temporary name, and removed again unless it was put in its place.
pub struct NewFolder {
    path: PathBuf,
    is_placed: bool,
}

impl NewFolder {
    /// Makes it in another folder.
    pub fn new(beside: &Path, of: &str) -> Result<NewFolder, Fault> {
        let path = temporary(beside, of);
        fs::create_dir(&path).map_err(at(&path))?;
        Ok(NewFolder { path, is_placed: false })
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Writes a file into it, and the folders on the way.
    pub fn write(&self, inside: &str, bytes: &[u8]) -> Result<(), Fault> {
        let path = self.path.join(inside);
        let folder = path.parent().unwrap_or(&self.path);
        fs::create_dir_all(folder).map_err(at(folder))?;
        new_file(&path, bytes)
    }

    /// Renames it to a name under which nothing stands.
    pub fn place(mut self, path: &Path) -> Result<(), Fault> {
        sync_folder(&self.path);
        fs::rename(&self.path, path).map_err(at(path))?;
        self.is_placed = true;
        path.parent().into_iter().for_each(sync_folder);
        Ok(())
    }
}

impl Drop for NewFolder {
    fn drop(&mut self) {
        if !self.is_placed {
            let _ = fs::remove_dir_all(&self.path);
        }
    }
}

/// Exchanges two folders in one step; refused where the system cannot.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
pub fn exchange(one: &Path, other: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE).map_err(io::Error::from)
}

/// Exchanges two folders in one step; refused where the system cannot.
#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
pub fn exchange(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

/// Sees to it that names in a folder are on the disk. A system that cannot open folders sees to that itself.
pub fn sync_folder(folder: &Path) {
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let _ = File::open(folder).and_then(|it| it.sync_all());
}
