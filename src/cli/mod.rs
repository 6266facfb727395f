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
mod lock;
mod new;
mod papers;
mod progress;
mod reach;
mod record;
mod snapshot;
mod takeoff;
mod terminal;
mod writing;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::Parser;

use arguments::{Arguments, Command};
use snapshot::Source;

use crate::pipeline;

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Done.
    Done,
    /// Something was held.
    Held,
    /// Could not run.
    CouldNotRun,
}

impl From<Outcome> for ExitCode {
    fn from(ended: Outcome) -> ExitCode {
        ExitCode::from(match ended {
            Outcome::Done => 0,
            Outcome::Held => 1,
            Outcome::CouldNotRun => 2,
        })
    }
}

/// Runs one command and gives the exit code: 0 done, 1 something was held, 2 could not run. A fault of the program ends it with 2
/// and a line that says what it was.
pub fn run(arguments: Vec<OsString>) -> ExitCode {
    pipeline::silence_panics();
    pipeline::caught(|| run_command(arguments)).unwrap_or_else(|said| {
        terminal::complain(&format!("error: the program has a fault and could not go on: {said}\n"));
        Outcome::CouldNotRun.into()
    })
}

fn run_command(arguments: Vec<OsString>) -> ExitCode {
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(fault) => {
            // Help and version come this way too, and are no fault.
            let ended = if fault.use_stderr() { Outcome::CouldNotRun } else { Outcome::Done };
            terminal::print_either(fault.use_stderr(), &fault.to_string());
            return terminal::ended(ended).into();
        }
    };
    if let Some(jobs) = arguments.jobs {
        // Refused only where the threads are there already, which is nowhere before this.
        let _ = rayon::ThreadPoolBuilder::new().num_threads(usize::from(jobs)).build_global();
    }
    let source = |job| Source { job, allowed: &arguments.allow_outside };
    let ended = match &arguments.command {
        Command::Check { job, format } => check::run(source(job), *format),
        Command::Takeoff { job, format } => takeoff::run(source(job), *format),
        Command::Explain { job, what, depth, format } => explain::run(source(job), what, *depth, *format),
        Command::Compare { job, after: Some(after), format, .. } => compare::files(source(job), source(after), *format),
        Command::Compare { job, after: None, from, to, format } => {
            compare::issues(source(job), [from.as_deref(), to.as_deref()], *format)
        }
        Command::Issue { job, papers, output, templates, record, quiet } => {
            let templates = templates.as_deref();
            let from = issue::IssueRequest { source: source(job), templates, record: *record, quiet: *quiet };
            issue::run(from, papers, output)
        }
        Command::New { folder } => new::run(folder),
    };
    terminal::ended(ended).into()
}
