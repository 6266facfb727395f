//! `compare`: what differs between two states of a job.
//!
//! In: paths of two job files. Out: differences on standard output. May not know: how they were found.

use std::path::Path;

use rust_decimal::Decimal;

use super::arguments::Format;
use super::check::report;
use super::snapshot::{self, Source};
use super::{Outcome, terminal};
use crate::comparison::{
    Altered, Change, Comparison, Openings, PriceChange, PriceLine, QuantityChange, Turned, Verdict,
};
use crate::findings::{Files, Findings};
use crate::money::Money;
use crate::pipeline::{self, Compared, Headed, Reissue};

/// Places named after a quantity, and parts named after a paper; the rest are in the JSON.
const MOST_NAMED: usize = 8;

/// A job file and what it names.
type Job = (String, Files);

/// Compares two job files.
pub fn files(before: Source, after: Source, format: Format) -> Outcome {
    let (Some(before), Some(after)) = (snapshot::of_job(before), snapshot::of_job(after)) else {
        return Outcome::CouldNotRun;
    };
    run(&before, &after, format)
}

/// Compares a recorded issue of a job, or the last before what it is compared with, with another, or with the job.
pub fn issues(source: Source, [from, to]: [Option<&str>; 2], format: Format) -> Outcome {
    let Some((path, files)) = snapshot::of_job(source) else { return Outcome::CouldNotRun };
    let after = to.map(|to| pipeline::recorded(&files, &path, Some(to)));
    let before = match (from, &after) {
        (None, Some(Ok(_))) => pipeline::recorded_before(&files, &path, to.unwrap_or_default()),
        _ => pipeline::recorded(&files, &path, from),
    };
    let (before, after) = match (before, after.transpose()) {
        (Ok(before), Ok(after)) => (before, after),
        (before, after) => {
            let found = [before.err(), after.err()].into_iter().flatten();
            found.for_each(|findings| report(&findings, &files));
            return Outcome::CouldNotRun;
        }
    };
    let copies = |copy: &String| copies(copy, source, (&path, &files));
    let (before, after) = (copies(&before), after.as_ref().map(copies));
    match (before, after) {
        (Some(before), None) => run(&before, &(path, files), format),
        (Some(before), Some(Some(after))) => run(&before, &after, format),
        _ => Outcome::CouldNotRun,
    }
}

/// The copies of a recorded issue; none where they are not as they were recorded, which is said.
fn copies(copy: &str, source: Source, (path, files): (&str, &Files)) -> Option<Job> {
    let copies = match Path::new(copy).is_file() {
        true => snapshot::of_copy(Path::new(copy), source)?.1,
        false => Files::new(Vec::new()),
    };
    match pipeline::fault_of_copy(files, path, (copy, &copies)) {
        None => Some((copy.to_owned(), copies)),
        Some(fault) => {
            let mut found = Findings::default();
            found.push(fault);
            report(&found, files);
            None
        }
    }
}

fn run((old_path, old): &Job, (path, files): &Job, format: Format) -> Outcome {
    let (compared, [found_before, found_after]) = pipeline::compare((old, old_path), (files, path));
    let Some(compared) = compared else {
        report(&found_before, old);
        report(&found_after, files);
        return Outcome::Held;
    };
    match format {
        Format::Text => terminal::print(&text(&compared)),
        // Texts and lists of texts always serialise.
        Format::Json => terminal::print(&(serde_json::to_string_pretty(&compared).unwrap_or_default() + "\n")),
    }
    Outcome::Done
}

fn text(compared: &Compared) -> String {
    let head = |it: &Headed| {
        let revision = if it.revision.is_empty() { String::new() } else { format!(" revision {}", it.revision) };
        format!("{}{revision}, {}", it.number, it.date)
    };
    let mut out = format!("before: {}\nafter:  {}\n", head(&compared.before), head(&compared.after));
    let comparison = &compared.comparison;
    if comparison.is_empty() && compared.reissue.is_empty() {
        return out + "\nnothing differs\n";
    }
    out += &openings(&comparison.openings);
    out += &section("job file, elsewhere", comparison.elsewhere.iter().map(|it| format!("  {}", change(it))));
    out += &section("quantities, net of waste", comparison.quantities.iter().map(quantity));
    out += &section("labor hours", comparison.hours.iter().map(quantity));
    out += &price(comparison);
    out += &checks(&comparison.checks);
    out + &section("to be issued again", compared.reissue.iter().map(again))
}

/// A head and its lines; nothing where there are none.
fn section(head: &str, lines: impl Iterator<Item = String>) -> String {
    let lines: Vec<String> = lines.collect();
    if lines.is_empty() { String::new() } else { format!("\n{head}\n{}\n", lines.join("\n")) }
}

fn openings(openings: &Openings) -> String {
    let Openings { added, removed, renumbered, changed, unchanged, candidates } = openings;
    let counts = [
        (added.len(), "added"),
        (removed.len(), "removed"),
        (renumbered.len(), "renumbered"),
        (changed.len(), "changed"),
        (*unchanged, "unchanged"),
    ];
    let counts: Vec<String> = counts.iter().map(|(count, word)| format!("{count} {word}")).collect();
    let mut lines: Vec<String> = added.iter().map(|mark| format!("  {mark}  added")).collect();
    lines.extend(removed.iter().map(|mark| format!("  {mark}  removed")));
    lines.extend(renumbered.iter().chain(changed).flat_map(altered));
    lines.extend(candidates.iter().map(|it| {
        format!("  {} may be {}: {} alike, and not clearly so", it.before, it.after, tenths_of_percent(it.alike))
    }));
    format!("\nopenings: {}\n", counts.join(", ")) + &lines.iter().map(|line| format!("{line}\n")).collect::<String>()
}

fn altered(it: &Altered) -> Vec<String> {
    let head = match it.alike {
        None => format!("  {}", it.after),
        Some(1000) => format!("  {}  was {}", it.after, it.before),
        Some(alike) => format!("  {}  was {}, {} alike", it.after, it.before, tenths_of_percent(alike)),
    };
    let changes = it.changes.iter().map(|it| format!("    {}", change(it)));
    std::iter::once(head).chain(changes).collect()
}

fn tenths_of_percent(thousandths: u32) -> String {
    format!("{}.{} %", thousandths / 10, thousandths % 10)
}

fn change(it: &Change) -> String {
    let or_none = |value: &Option<String>| value.clone().unwrap_or_else(|| "(not given)".to_owned());
    format!("{}: {} -> {}", it.field, or_none(&it.before), or_none(&it.after))
}

fn quantity(it: &QuantityChange) -> String {
    let places = it.at.iter().map(|at| format!("{} {} -> {}", at.place, at.before, at.after));
    let places = some(places.collect(), "; ");
    let unit = if it.unit == "each" { String::new() } else { format!(" {}", it.unit) };
    format!("  {}: {} -> {}{unit}\n    {places}", it.name, it.before, it.after)
}

fn price(comparison: &Comparison) -> String {
    let Some(price) = &comparison.price else {
        return "\nprice: not compared, since one of the two has none\n".to_owned();
    };
    let PriceChange { before, after, lines, alternates } = price;
    let bid = format!("  base bid: {} -> {}  {}", dollars(*before), dollars(*after), signed(*after - *before));
    let lines = lines.iter().map(|it| format!("  {}, {}", it.part, line(it)));
    let out = if lines.len() == 0 { String::new() } else { section("price", lines.chain([bid])) };
    out + &section("alternates", alternates.iter().map(|it| format!("  {}", line(it))))
}

fn line(it: &PriceLine) -> String {
    let parted = match (it.by_quantity, it.by_price) {
        (Some(quantity), Some(price)) if quantity != Decimal::ZERO && price != Decimal::ZERO => {
            format!(" (by quantity {}, by price {})", signed(quantity), signed(price))
        }
        (_, Some(price)) if price != Decimal::ZERO => " (by price)".to_owned(),
        _ => String::new(),
    };
    format!("{}: {} -> {}  {}{parted}", it.name, dollars(it.before), dollars(it.after), signed(it.change()))
}

/// Texts in a line, the first of them where they are many.
fn some(mut all: Vec<String>, between: &str) -> String {
    let rest = all.len().saturating_sub(MOST_NAMED);
    if rest > 1 {
        all.truncate(MOST_NAMED);
        all.push(format!("and {rest} more"));
    }
    all.join(between)
}

fn dollars(amount: Decimal) -> String {
    Money::dollars(amount).print()
}

/// A change with its sign.
fn signed(amount: Decimal) -> String {
    let sign = if amount.is_sign_negative() { "-" } else { "+" };
    format!("{sign}{}", dollars(amount.abs()))
}

fn checks(checks: &Turned) -> String {
    let reported = |it: &Verdict| format!("  {} {}: {}", it.code, it.about, it.says);
    let Turned { raised, reviewed, reworded } = checks;
    let mut out = section("found now, and not before", raised.iter().map(reported));
    out += &section("found before, and not now", reviewed.iter().map(reported));
    out + &section("found in both, with other words now", reworded.iter().map(reported))
}

fn again(it: &Reissue) -> String {
    match it.why {
        "changed" => format!("  {}: {}", it.paper, some(it.parts.clone(), ", ")),
        why => format!("  {}: {why}", it.paper),
    }
}
