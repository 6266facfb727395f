//! What cannot be written is an error, and nothing half-written stays.
//!
//! In: a device that is always full, and a bound on the size of files, as POSIX has them (`/dev/full` is Linux's own). Out: runs that
//! end as if all were well.
#![cfg(target_os = "linux")]

use std::fs::{self, OpenOptions};
use std::process::{Command, Stdio};

use crate::command_line::{Folder, command};
use crate::outside_folders::{issue, small};

#[test]
fn what_was_not_written_is_an_error() {
    let folder = small("full");
    let job = folder.path("jobs/alder/job.toml");
    let job = job.to_str().unwrap();
    let lines: [&[&str]; 6] = [
        &["check", job],
        &["check", job, "--format", "json"],
        &["takeoff", job, "--format", "csv"],
        &["takeoff", job],
        &["explain", job, "101"],
        &["--help"],
    ];
    for words in lines {
        let full = OpenOptions::new().write(true).open("/dev/full").unwrap();
        let done = command(words).stdout(full).stderr(Stdio::piped()).output().unwrap();
        let err = String::from_utf8_lossy(&done.stderr).into_owned();
        assert_eq!(done.status.code(), Some(2), "{words:?}: {err}");
        assert!(err.contains("cannot write to standard output"), "{words:?}: {err}");
    }
    // Findings that cannot be written.
    let full = OpenOptions::new().write(true).open("/dev/full").unwrap();
    let out = folder.path("papers");
    let words = ["issue", job, "needs", "--output", out.to_str().unwrap()];
    let done = command(&words).stderr(full).stdout(Stdio::null()).output().unwrap();
    assert_eq!(done.status.code(), Some(2));
}

/// Runs the program where no file may be larger than so many blocks of 512 bytes; the signal for that is ignored, so that it is an error.
fn bounded(blocks: u32, words: &[&str]) -> (Option<i32>, String) {
    let script = format!("trap '' XFSZ; ulimit -f {blocks}; exec \"$0\" \"$@\"");
    let mut command = Command::new("sh");
    let done = command.args(["-c", &script, env!("CARGO_BIN_EXE_hingewright")]).args(words).output().unwrap();
    (done.status.code(), String::from_utf8_lossy(&done.stderr).into_owned())
}

#[test]
fn a_job_that_cannot_be_started_whole_is_not_there() {
    let folder = Folder::new("full-new");
    let start = folder.path("first-job");
    let (code, err) = bounded(8, &["new", start.to_str().unwrap()]);
    assert!(code == Some(2) && err.contains("cannot write"), "{err}");
    assert_eq!(fs::read_dir(folder.path("")).unwrap().count(), 0, "nothing is left");
    let (code, err) = bounded(1 << 20, &["new", start.to_str().unwrap()]);
    assert_eq!(code, Some(0), "{err}");
}

#[test]
fn an_issue_that_cannot_be_written_whole_changes_nothing() {
    let folder = small("full-issue");
    assert_eq!(issue(&folder, &[]).code, 0);
    let read = |name: &str| fs::read(folder.path(&format!("papers/C-1/{name}"))).unwrap();
    let before = [read("needs.pdf"), read("issued.txt")];
    let (job, out) = (folder.path("jobs/alder/job.toml"), folder.path("papers"));
    let words = ["issue", job.to_str().unwrap(), "needs", "register", "--output", out.to_str().unwrap()];
    let (code, err) = bounded(8, &words);
    assert!(code == Some(2) && err.contains("cannot write"), "{err}");
    assert_eq!([read("needs.pdf"), read("issued.txt")], before);
    assert_eq!(fs::read_dir(&out).unwrap().count(), 1, "nothing is left beside the folder");
}
