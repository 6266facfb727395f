//! The command line: arguments, disk, clock, terminal, exit code.
//!
//! In: arguments and the disk.
//! Out: papers on disk, findings on the terminal.
//! May not know: how any paper is made.

use std::ffi::OsString;
use std::process::ExitCode;

/// Runs one command and gives the exit code: 0 done, 1 something was held, 2 could not run.
pub fn run(arguments: Vec<OsString>) -> ExitCode {
    eprintln!("hingewright: {} arguments and no command yet", arguments.len());
    ExitCode::from(2)
}
