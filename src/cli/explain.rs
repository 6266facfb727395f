//! `explain`: how a figure came to be.
//!
//! In: a job's path and a few words. Out: lines on standard output. May not know: how figures are made.

use std::path::Path;

use super::arguments::Format;
use super::check::report;
use super::{Ended, snapshot, terminal};
use crate::pipeline::{self, Explanation};

/// Runs the command.
pub fn run(job: &Path, what: &str, format: Format) -> Ended {
    let Some((path, files)) = snapshot::of_job(job) else { return Ended::CouldNotRun };
    let (explanations, findings) = pipeline::explain(&files, &path, what);
    if explanations.is_empty() {
        report(&findings, &files);
        let known = "an opening's mark, the id of an item or task, an amount of the estimate, or the code of a finding";
        terminal::complain(&format!("hingewright: nothing goes by `{what}`; give {known}\n"));
        return Ended::Held;
    }
    match format {
        Format::Text => explanations.iter().for_each(|explanation| terminal::print(&text(explanation))),
        // Lines of text always serialise.
        Format::Json => terminal::print(&(serde_json::to_string_pretty(&explanations).unwrap_or_default() + "\n")),
    }
    Ended::Done
}

fn text(explanation: &Explanation) -> String {
    let mut out = explanation.title.clone() + "\n";
    for line in &explanation.lines {
        let place = if line.place.is_empty() { String::new() } else { format!("  at {}", line.place) };
        out.push_str(&format!("{}{}{place}\n", "  ".repeat(line.depth + 1), line.text));
    }
    out + "\n"
}
