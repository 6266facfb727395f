//! `explain`: how a figure came to be.
//!
//! In: a job's path and a few words. Out: lines on standard output. May not know: how figures are made.

use std::path::Path;

use super::arguments::Format;
use super::check::report_what_holds;
use super::snapshot::{self, Source};
use super::{Outcome, terminal};
use crate::findings::Paper;
use crate::pipeline::{self, Depth, ExplainedLine, Explanation};

/// Runs the command.
pub fn run(source: Source, what: &str, depth: Option<Depth>, format: Format) -> Outcome {
    let Some((path, files)) = snapshot::of_job(source) else { return Outcome::CouldNotRun };
    let depth = depth.unwrap_or(Depth::Screenful);
    let (explanations, findings) = pipeline::explain(&files, &path, what, depth);
    if explanations.is_empty() {
        report_what_holds(&findings, &files, source.job);
        let known = "an opening's mark, the id of an item or task, the name of a figure such as base-bid, \
                     an amount of the estimate, or the code of a finding";
        let waits = match findings.blocked().has(Paper::Bid) {
            true => ", or cannot be calculated while the errors above hold the bid",
            false => "",
        };
        terminal::complain(&format!("hingewright: `{what}` is not known here{waits}; give {known}\n"));
        return Outcome::Held;
    }
    match format {
        Format::Text => explanations.iter().for_each(|explanation| terminal::print(&text(explanation, source.job))),
        // Lines of text always serialise.
        Format::Json => terminal::print(&(serde_json::to_string_pretty(&explanations).unwrap_or_default() + "\n")),
    }
    Outcome::Done
}

fn text(explanation: &Explanation, job: &Path) -> String {
    let mut out = explanation.title.clone() + "\n";
    for line in &explanation.lines {
        let place = if line.place.is_empty() { String::new() } else { format!("  at {}", line.place) };
        let under = under(line);
        out.push_str(&format!("{}{}{place}{under}\n", "  ".repeat(line.depth + 1), line.text));
    }
    let again = format!("hingewright explain {}", job.display());
    let name = &explanation.name;
    if explanation.left_out > 0 {
        out.push_str(&format!("  … {} lines more; `{again} {name} --depth 1`\n", explanation.left_out));
    }
    if explanation.lines.iter().any(|line| line.under > 0) {
        out.push_str(&format!("  More of one: `{again} <its name>`. Deeper: `{again} {name} --depth 6`, or all.\n"));
    }
    out + "\n"
}

/// How many figures are left out under a line, and the name that tells them.
fn under(line: &ExplainedLine) -> String {
    match line.under {
        0 => String::new(),
        number => format!("  … {number} more under `{}`", line.name),
    }
}
