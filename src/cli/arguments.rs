//! The arguments, as clap reads them and as help prints them.
//!
//! In: words of the command line. Out: a command. May not know: what a command does.

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Parser, Subcommand, ValueEnum};

use crate::findings::Paper;
use crate::pipeline::Depth;

/// Takeoff, price and papers of power-operated swing doors, from one job file.
#[derive(Debug, Parser)]
#[command(name = "hingewright", version, about, max_term_width = 100)]
pub struct Arguments {
    /// A folder outside of the job's that the job file and its catalog may name all the same; may be given several times
    #[arg(long, global = true, value_name = "FOLDER")]
    pub allow_outside: Vec<PathBuf>,
    /// How many threads work at once; left out, as many as the machine has. The papers are the same on any number
    #[arg(long, global = true, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=256))]
    pub jobs: Option<u16>,
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// How findings and tables are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// For people.
    Text,
    /// For programs.
    Json,
}

/// How a takeoff is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum TableFormat {
    /// A table for people.
    Text,
    /// For programs.
    Json,
    /// For a spreadsheet.
    Csv,
}

/// A command.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Read, review and price a job, and say everything that is wrong with it
    Check {
        /// The job file
        job: PathBuf,
        /// How findings are printed
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
    },
    /// Print every quantity and every hour of a job
    Takeoff {
        /// The job file
        job: PathBuf,
        /// How the table is printed
        #[arg(long, value_enum, default_value = "text")]
        format: TableFormat,
    },
    /// Say how a figure came to be, what stands at an opening, or what a finding means
    Explain {
        /// The job file
        job: PathBuf,
        /// An opening's mark, an item or task, a figure such as base-bid, an amount such as 12,431.07, or the code of a finding
        what: String,
        /// How many steps from a figure: a number, or `all`; left out, as many as fit on a screen
        #[arg(long, value_parser = depth)]
        depth: Option<Depth>,
        /// How it is printed
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
    },
    /// Say what differs between two states of a job: openings, quantities, hours, price, checks, sheets to issue again
    Compare {
        /// The job file, compared with the last issue recorded before its revision; or the job file as it was
        job: PathBuf,
        /// The job file as it is, where both are files
        after: Option<PathBuf>,
        /// Compare with the recorded issue of this revision
        #[arg(long, value_name = "REVISION", conflicts_with = "after")]
        from: Option<String>,
        /// Compare the recorded issue of this revision instead of the job as it is
        #[arg(long, value_name = "REVISION", conflicts_with = "after")]
        to: Option<String>,
        /// How it is printed
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
    },
    /// Write the papers of a job, each to its file; one that would be wrong is held
    Issue {
        /// The job file
        job: PathBuf,
        /// Papers to write; none named means all
        #[arg(value_parser = papers())]
        papers: Vec<Paper>,
        /// Folder in which the job's folder of papers stands
        #[arg(long, default_value = "output")]
        output: PathBuf,
        /// Folder of templates that stand instead of those built in, one by one
        #[arg(long)]
        templates: Option<PathBuf>,
        /// Keep the issue beside the job file under the job's revision, with copies of its files
        #[arg(long)]
        record: bool,
        /// Show no progress and do not list the papers written; findings and what was held are shown
        #[arg(long)]
        quiet: bool,
    },
    /// Start a job: a folder with a job file that names every key once, and passes `check`
    New {
        /// The folder to make
        folder: PathBuf,
    },
}

/// A depth, as a person types it.
fn depth(word: &str) -> Result<Depth, String> {
    match word {
        "all" => Ok(Depth::All),
        number => number.parse().map(Depth::Levels).map_err(|_| "a number of steps, or all".to_owned()),
    }
}

/// Papers, by the words a person types; help lists them all.
fn papers() -> impl TypedValueParser<Value = Paper> {
    let found = |word: String| Paper::ALL.into_iter().find(|paper| paper.word() == word).ok_or("no such paper");
    PossibleValuesParser::new(Paper::ALL.map(Paper::word)).try_map(found)
}
