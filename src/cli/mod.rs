//! The command line: arguments, disk, clock, terminal, exit code.
//!
//! In: arguments and the disk.
//! Out: papers on disk, findings on the terminal.
//! May not know: how any paper is made.

mod arguments;
mod check;
mod compare;
mod explain;
mod issue;
mod new;
mod record;
mod snapshot;
mod takeoff;
mod terminal;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::Parser;

use arguments::{Arguments, Command};

use crate::pipeline;

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ended {
    /// Done.
    Done,
    /// Something was held.
    Held,
    /// Could not run.
    CouldNotRun,
}

impl From<Ended> for ExitCode {
    fn from(ended: Ended) -> ExitCode {
        ExitCode::from(match ended {
            Ended::Done => 0,
            Ended::Held => 1,
            Ended::CouldNotRun => 2,
        })
    }
}

/// Runs one command and gives the exit code: 0 done, 1 something was held, 2 could not run. A fault of the program ends it with 2
/// and a line that says what it was.
pub fn run(arguments: Vec<OsString>) -> ExitCode {
    pipeline::silence_panics();
    pipeline::caught(|| run_command(arguments)).unwrap_or_else(|said| {
        terminal::complain(&format!("error: the program has a fault and could not go on: {said}\n"));
        Ended::CouldNotRun.into()
    })
}

fn run_command(arguments: Vec<OsString>) -> ExitCode {
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(fault) => {
            // Help and version come this way too, and are no fault.
            let ended = if fault.use_stderr() { Ended::CouldNotRun } else { Ended::Done };
            terminal::print_either(fault.use_stderr(), &fault.to_string());
            return ended.into();
        }
    };
    let ended = match &arguments.command {
        Command::Check { job, format } => check::run(job, *format),
        Command::Takeoff { job, format } => takeoff::run(job, *format),
        Command::Explain { job, what, depth, format } => explain::run(job, what, *depth, *format),
        Command::Compare { job, after: Some(after), format, .. } => compare::files(job, after, *format),
        Command::Compare { job, after: None, from, to, format } => {
            compare::issues(job, [from.as_deref(), to.as_deref()], *format)
        }
        Command::Issue { job, papers, output, templates, record } => {
            let from = issue::From { job, templates: templates.as_deref(), record: *record };
            issue::run(from, papers, output)
        }
        Command::New { folder } => new::run(folder),
    };
    ended.into()
}
