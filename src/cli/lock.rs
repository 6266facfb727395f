//! A lock that says who is writing to a folder.
//!
//! In: the path of the lock. Out: the lock, or who holds it. May not know: what is written.
//!
//! The system takes the lock from a process that ends, however it ends, so a killed one blocks nobody. The file is removed by whoever
//! holds the lock.

use std::fs::{self, File, Metadata, OpenOptions, TryLockError};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

use super::writing::{Fault, at};

/// More bytes than a lock of ours has: a number of a process, and a line end.
const LONGEST: u64 = 24;

/// A lock that is held.
pub struct Lock {
    path: PathBuf,
    file: File,
}

/// Why a lock is not held.
pub enum NotLocked {
    /// Another process holds it, of this number where that can be read.
    Held(Option<u32>),
    /// The disk.
    Fault(Fault),
}

impl NotLocked {
    /// What to say, where `what` is being written.
    pub fn says(&self, what: &str) -> String {
        match self {
            NotLocked::Held(process) => {
                let process =
                    process.map_or("another process".to_owned(), |it| format!("another process, number {it},"));
                format!("hingewright: {process} is writing {what}; wait until it is done and run again\n")
            }
            NotLocked::Fault((path, fault)) => format!("hingewright: cannot write `{}`: {fault}\n", path.display()),
        }
    }
}

impl Lock {
    /// Takes the lock, without waiting for it.
    pub fn take(path: PathBuf) -> Result<Lock, NotLocked> {
        let fault = |fault| NotLocked::Fault(at(&path)(fault));
        // Whoever held it may remove it between our steps: then begin again.
        for _ in 0..1000 {
            let Some(file) = open(&path).map_err(fault)? else { continue };
            match file.try_lock() {
                Ok(()) => {}
                Err(TryLockError::WouldBlock) => return Err(NotLocked::Held(holder(&file))),
                // A disk that knows no locks.
                Err(TryLockError::Error(it)) if it.kind() == ErrorKind::Unsupported => {}
                Err(TryLockError::Error(it)) => return Err(fault(it)),
            }
            if is_at(&file, &path) {
                let mut lock = Lock { path, file };
                let said = lock.file.set_len(0).and_then(|()| writeln!(lock.file, "{}", std::process::id()));
                return said.map_err(|it| NotLocked::Fault(at(&lock.path)(it))).map(|()| lock);
            }
        }
        Err(NotLocked::Held(None))
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        if is_at(&self.file, &self.path) {
            let _ = fs::remove_file(&self.path);
        }
    }
}

/// The file of a lock, made new or as it is; none where it went away just now. Anything but a file of ours is refused and stays as
/// it is.
fn open(path: &Path) -> io::Result<Option<File>> {
    match OpenOptions::new().read(true).write(true).create_new(true).open(path) {
        Ok(file) => return Ok(Some(file)),
        Err(fault) if fault.kind() == ErrorKind::AlreadyExists => {}
        Err(fault) => return Err(fault),
    }
    let is_gone = |fault: io::Error| if fault.kind() == ErrorKind::NotFound { Ok(None) } else { Err(fault) };
    match fs::symlink_metadata(path) {
        Ok(there) if !is_ours(&there) => return Err(io::Error::other("something else is in the place of the lock")),
        Ok(_) => {}
        Err(fault) => return is_gone(fault),
    }
    match OpenOptions::new().read(true).write(true).open(path) {
        Ok(file) => Ok(Some(file)),
        Err(fault) => is_gone(fault),
    }
}

#[cfg(unix)]
fn is_ours(there: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    there.is_file() && there.len() <= LONGEST && there.nlink() <= 1
}

#[cfg(not(unix))]
fn is_ours(there: &Metadata) -> bool {
    there.is_file() && there.len() <= LONGEST
}

/// Whether an open file is the one that stands at a path, and no link to it.
#[cfg(unix)]
fn is_at(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let number = |it: Metadata| (it.dev(), it.ino());
    match (file.metadata(), fs::symlink_metadata(path)) {
        (Ok(open), Ok(there)) => number(open) == number(there),
        _ => false,
    }
}

/// Elsewhere an open file is not removed from under us.
#[cfg(not(unix))]
fn is_at(_: &File, path: &Path) -> bool {
    path.is_file()
}

fn holder(file: &File) -> Option<u32> {
    let mut text = String::new();
    file.take(LONGEST).read_to_string(&mut text).ok()?;
    text.trim().parse().ok()
}
