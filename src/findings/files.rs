//! The one snapshot of every input file, sorted by path.
//!
//! In: names and bytes, read by the command line. Out: bytes and text by file number.
//! May not know: the disk, or what any file means.

/// A file of the snapshot, by its position in path order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(u32);

/// Why a file or folder that is named was not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// It is outside of the folders that may be read, or a link leads out of them.
    Outside,
    /// It has more bytes than this.
    LargerThan(u64),
}

/// Every input of one run: job, tables, catalog, templates. Rooms take this and never touch the disk.
#[derive(Clone, Debug, Default)]
pub struct Files {
    files: Vec<(String, Vec<u8>)>,
    unread: std::collections::BTreeMap<String, Unread>,
}

impl Files {
    /// Sorts the files by path, so that file numbers do not depend on the order of a folder listing.
    /// Paths use `/` and stand as the user would name them. A path given twice keeps its last bytes.
    pub fn new(files: impl IntoIterator<Item = (String, Vec<u8>)>) -> Self {
        let sorted: std::collections::BTreeMap<_, _> = files.into_iter().collect();
        Files { files: sorted.into_iter().collect(), unread: Default::default() }
    }

    /// The same with files and folders that are named and were not read, by path.
    pub fn without(mut self, unread: impl IntoIterator<Item = (String, Unread)>) -> Self {
        self.unread.extend(unread);
        self
    }

    /// Why a file or folder was not read; none where it was, or where there is none.
    pub fn unread(&self, path: &str) -> Option<Unread> {
        self.unread.get(path).copied()
    }

    /// Everything that was named and not read, in path order.
    pub fn all_unread(&self) -> impl Iterator<Item = (&str, Unread)> {
        self.unread.iter().map(|(path, why)| (path.as_str(), *why))
    }

    /// Finds a file by its path.
    pub fn find(&self, path: &str) -> Option<FileId> {
        self.files.binary_search_by(|(known, _)| known.as_str().cmp(path)).ok().map(|at| FileId(at as u32))
    }

    /// Lists every file in path order.
    pub fn ids(&self) -> impl Iterator<Item = FileId> + '_ {
        (0..self.files.len()).map(|at| FileId(at as u32))
    }

    /// The path of a file, as the user would name it.
    pub fn path(&self, file: FileId) -> &str {
        &self.files[file.0 as usize].0
    }

    /// The bytes of a file.
    pub fn bytes(&self, file: FileId) -> &[u8] {
        &self.files[file.0 as usize].1
    }

    /// The text of a file, or the byte at which it stops being UTF-8.
    pub fn text(&self, file: FileId) -> Result<&str, usize> {
        std::str::from_utf8(self.bytes(file)).map_err(|fault| fault.valid_up_to())
    }
}
