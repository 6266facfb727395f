//! What is cut, drilled and fixed at an opening.
//!
//! In: takeoff lines of the opening, operator, survey. Out: rows of what and how. May not know: pages.

use serde::Serialize;

use super::super::printing::{DASH, Printing, word};
use super::super::{ConditionEvaluator, Sources};
use crate::catalog::{Arm, Group, Kit, Operator, Rod, RodEnd};
use crate::engineering::{RodCut, RodFault, TradeSize, hole};
use crate::measure::{Dimension, Length, Quantity, Style, Unit};
use crate::mechanics::rod_cut;
use crate::takeoff::{EntityRef, FixingWork, Line, OpeningWork};

/// One thing to cut, drill or fix.
#[derive(Clone, Debug, Serialize)]
pub struct CutRow {
    /// What.
    pub what: String,
    /// How.
    pub how: String,
    /// Whether the length actually cut is written down.
    pub measured: bool,
}

/// The rows of an opening, by its position.
pub(super) fn cutting(sources: &Sources, conditions: &ConditionEvaluator, at: usize) -> Vec<CutRow> {
    let Some(work) = sources.takeoff.arrangement.openings.get(at) else { return Vec::new() };
    let mut rows = Vec::new();
    for number in 0..work.headers.len() {
        rows.extend(header(sources, conditions, at, number));
    }
    for number in 0..work.fixings.len() {
        rows.extend(fixing(sources, at, number));
    }
    for number in 0..work.drives.len() {
        rows.extend(rod(sources, work, number));
    }
    rows.extend(work.operator.map(|operator| entries(sources, &work.opening.mark, operator)));
    rows.extend(arms(sources, at));
    rows.extend(chases(sources, at));
    rows.extend(signs(sources, at));
    together(rows)
}

/// Rows that say the same of two things, said once.
fn together(rows: Vec<CutRow>) -> Vec<CutRow> {
    let mut out: Vec<CutRow> = Vec::new();
    for row in rows {
        match out.last_mut() {
            // A rod has a box of its own for the length that was cut.
            Some(last) if last.how == row.how && !row.measured => {
                let number = row.what.rsplit(' ').next().unwrap_or_default();
                last.what = format!("{}, {number}", last.what);
            }
            _ => out.push(row),
        }
    }
    out
}

fn row(what: impl Into<String>, how: impl Into<String>) -> CutRow {
    CutRow { what: what.into(), how: how.into(), measured: false }
}

/// A name with its number where there are several.
fn numbered(name: &str, number: usize, of: usize) -> String {
    if of > 1 { format!("{name} {number}") } else { name.to_owned() }
}

fn header(sources: &Sources, conditions: &ConditionEvaluator, at: usize, number: usize) -> Option<CutRow> {
    let work = sources.takeoff.arrangement.openings.get(at)?;
    let operator = work.operator?;
    let printing = Printing::of(sources.reviewed.job());
    let of = EntityRef::Header(at, number);
    let pieces = pieces(sources, of, &[Group::Header]);
    let plates = pieces_of(sources, of, Group::Plate);
    let length = if pieces.is_empty() { "one piece, not cut".to_owned() } else { pieces.join(" + ") };
    let plate = if plates.is_empty() { String::new() } else { format!("; backing plate {}", plates.join(" + ")) };
    let weight = conditions.weight("header.weight", of).map(|it| printing.weight(super::super::heading::up(it)));
    let weight = weight.map(|it| format!("; lift weight {it}")).unwrap_or_default();
    let size = format!("{} high, {} deep", printing.short(operator.height), printing.short(operator.depth));
    Some(row(numbered("Header", number + 1, work.headers.len()), format!("{length}; {size}{plate}{weight}")))
}

fn pieces(sources: &Sources, of: EntityRef, groups: &[Group]) -> Vec<String> {
    groups.iter().flat_map(|group| pieces_of(sources, of, *group)).collect()
}

/// Lengths of the pieces of a group that the takeoff has at an entity.
fn pieces_of(sources: &Sources, of: EntityRef, group: Group) -> Vec<String> {
    let printing = Printing::of(sources.reviewed.job());
    let lines = sources.takeoff.lines_of(of);
    let of_group = lines.filter(|line| sources.catalog.items.get(&*line.item).is_some_and(|item| item.group == group));
    let quantities = of_group.map(|line| sources.takeoff.ledger.value(line.quantity));
    quantities.filter(|it| it.dimension() == Dimension::LENGTH).map(|it| printing.piece(it)).collect()
}

/// Fasteners of a joint: what it needs, what the kit gives, what is brought beyond it.
fn fixing(sources: &Sources, at: usize, number: usize) -> Option<CutRow> {
    let work = sources.takeoff.arrangement.openings.get(at)?;
    let fixing = work.fixings.get(number)?;
    let (name, into) = match fixing {
        FixingWork::Header(header) => (
            numbered("Header screws", header + 1, work.headers.len()),
            fixing.substrate(work).map_or(DASH, |it| it.word()).to_owned(),
        ),
        FixingWork::Arm(drive) => (
            numbered("Arm screws", drive + 1, work.drives.len()),
            fixing.leaf_made(work).map_or(DASH, |it| it.word()).to_owned(),
        ),
    };
    let Some(needed) = fixing.screws(work) else { return Some(row(name, DASH)) };
    let mut how = vec![match fixing.plate_screws(work) {
        Some(of_plate) if of_plate > 0 => {
            format!("{needed}: {} into the plate, {of_plate} for the plate into {into}", needed - of_plate)
        }
        _ => format!("{needed} into {into}"),
    }];
    how.push(kit_words(work, fixing));
    how.extend(brought(sources, EntityRef::Fixing(at, number)));
    Some(row(name, how.join("; ")))
}

fn kit_words(work: &OpeningWork, fixing: &FixingWork) -> String {
    fn words<Into: PartialEq>(kits: &[Kit<Into>], into: Option<Into>) -> Option<String> {
        let kit = kits.iter().find(|kit| Some(&kit.into) == into.as_ref())?;
        let advice = kit.advice.as_ref().map(|it| format!(" ({it})")).unwrap_or_default();
        Some(format!("in kit: {} × {}: {}{advice}", kit.count, kit.name, kit.screws.word()))
    }
    let of = |operator: &Operator| match fixing {
        FixingWork::Header(_) => words(&operator.header_kit, fixing.substrate(work)),
        FixingWork::Arm(_) => words(&operator.arm_kit, fixing.leaf_made(work)),
    };
    work.operator.and_then(of).unwrap_or_else(|| "none in kit".to_owned())
}

/// Fasteners that the takeoff brings for a joint.
fn brought(sources: &Sources, of: EntityRef) -> Vec<String> {
    let lines = sources.takeoff.lines_of(of);
    let each = lines.filter_map(|line| {
        let item = sources.catalog.items.get(&*line.item)?;
        let quantity = sources.takeoff.ledger.value(line.quantity);
        Some(format!("bring {} × {}", quantity.print(item.unit, 2, Style::Page)?, item.name))
    });
    each.collect()
}

/// Things of some groups among lines of the takeoff, with how many of each.
fn parts<'s>(sources: &'s Sources, lines: impl Iterator<Item = &'s Line>, groups: &[Group]) -> Vec<String> {
    let mut found: Vec<(&str, Quantity)> = Vec::new();
    for line in lines {
        let Some(item) = sources.catalog.items.get(&*line.item).filter(|item| groups.contains(&item.group)) else {
            continue;
        };
        let quantity = sources.takeoff.ledger.value(line.quantity);
        match found.iter_mut().find(|(name, _)| *name == item.name) {
            Some((_, sum)) => *sum = sum.plus(quantity).unwrap_or(*sum),
            None => found.push((&item.name, quantity)),
        }
    }
    let each = found.into_iter().filter_map(|(name, quantity)| {
        let count = quantity.print(Unit::Each, 2, Style::Page)?;
        Some(if count == "1" { name.to_owned() } else { format!("{count} × {name}") })
    });
    each.collect()
}

/// The arm of each drive with its bracket, for the hand of that drive, and the position in which it is fitted.
fn arms(sources: &Sources, at: usize) -> Vec<CutRow> {
    let Some(work) = sources.takeoff.arrangement.openings.get(at) else { return Vec::new() };
    let Some(operator) = work.operator else { return Vec::new() };
    let each = (0..work.drives.len()).map(|number| {
        let of = EntityRef::Drive(at, number);
        let mut how = parts(sources, sources.takeoff.lines_of(of), &[Group::Arm, Group::Bracket]);
        how.extend(operator.arm_fitted.iter().map(|fitted| format!("install: {fitted}")));
        row(numbered("Arm, bracket", number + 1, work.drives.len()), how.join("; "))
    });
    each.collect()
}

/// Signs of an opening.
fn signs(sources: &Sources, at: usize) -> Option<CutRow> {
    let found = parts(sources, sources.takeoff.lines_at(at), &[Group::Sign]);
    (!found.is_empty()).then(|| row("Signs, both sides", found.join("; ")))
}

/// The cut of a push arm's rod at the surveyed reveal, by the geometry of the arm.
fn rod(sources: &Sources, work: &OpeningWork, number: usize) -> Option<CutRow> {
    let operator = work.operator?;
    let rod = operator.rod.as_ref()?;
    let drive = work.drives.get(number)?;
    if drive.arm != Some(Arm::Push) {
        return None;
    }
    let printing = Printing::of(sources.reviewed.job());
    let name = numbered("Rod of the push arm", number + 1, work.drives.len());
    let entry = &work.opening.entry;
    let Some(reveal) = entry.frame.get().and_then(|it| it.reveal.get()) else {
        return Some(row(name, "reveal not known: measure, then call the office before cutting"));
    };
    let (how, is_cut) = match rod_cut(entry, work.leaves.get(drive.leaf)?.entry, operator) {
        Some(Ok(cut)) => (cut_words(rod, cut, *reveal, printing), cut.off > Length::ZERO),
        Some(Err(fault)) => (fault_words(fault, *reveal, printing), false),
        None => ("not calculated: call the office before cutting".to_owned(), false),
    };
    Some(CutRow { measured: is_cut, ..row(name, how) })
}

/// The mark is measured from the end that is kept, so that a slip of the saw falls into the waste.
fn cut_words(rod: &Rod, cut: RodCut, reveal: Length, printing: Printing) -> String {
    let short = |length: Length| printing.inches(length);
    if cut.off == Length::ZERO {
        return format!("{} as delivered, do not cut, at reveal {}", short(cut.stock), short(reveal));
    }
    let (end, keep) = match rod.cut_end {
        RodEnd::Joint => ("joint end", "bracket end"),
        RodEnd::Bracket => ("bracket end", "joint end"),
    };
    format!(
        "reveal {}: {} rod; KEEP the {keep}, mark CUT {} from it, remove {} at the {end}; ± {}",
        short(reveal),
        short(cut.stock),
        short(cut.needed),
        short(cut.off),
        short(rod.tolerance),
    )
}

fn fault_words(fault: RodFault, reveal: Length, printing: Printing) -> String {
    let short = |length: Length| printing.inches(length);
    let why = match fault {
        RodFault::Short { needed, longest } => {
            format!("requires a {} rod, longest {}", short(needed), short(longest))
        }
        RodFault::Stub { needed, shortest } => {
            format!("requires a {} rod, shortest {}", short(needed), short(shortest))
        }
        RodFault::NoGeometry => "is not calculated".to_owned(),
    };
    format!("reveal {} {why}: stop and call", short(reveal))
}

/// Holes through which wires enter the header: what the operator takes, and what the runs bring.
fn entries(sources: &Sources, mark: &str, operator: &Operator) -> CutRow {
    let printing = Printing::of(sources.reviewed.job());
    let of = |word: &str| match TradeSize::parse(word).and_then(hole) {
        Some(hole) => format!("trade {word}, hole {}", printing.short(hole)),
        None => format!("trade {word}"),
    };
    let all = &sources.takeoff.arrangement;
    let ends_here = |run: &&crate::takeoff::RunWork| {
        [&run.run.from, &run.run.to].into_iter().any(|end| *end == crate::job::RunEnd::Opening(mark.to_owned()))
    };
    // Runs of one size are named together; the size that the header is made for comes first, without runs or with.
    let mut sizes: Vec<(&str, Vec<String>)> = vec![(operator.entry.as_str(), Vec::new())];
    for run in all.runs.iter().filter(ends_here) {
        let name = format!("{}\u{a0}{}", run.run.label(), run.run.class);
        match sizes.iter_mut().find(|(size, _)| *size == run.size.word()) {
            Some((_, names)) => names.push(name),
            None => sizes.push((run.size.word(), vec![name])),
        }
    }
    let how = sizes.into_iter().enumerate().map(|(at, (size, runs))| {
        let made = if at == 0 { "factory entry holes: " } else { "" };
        let runs = match runs.as_slice() {
            [] => String::new(),
            [one] => format!(", run {one}"),
            _ => format!(", runs {}", runs.join(", ")),
        };
        format!("{made}{}{runs}", of(size))
    });
    row("Wire entries", format!("{}; deburr and bush every hole", how.collect::<Vec<_>>().join("; ")))
}

/// The latch of each powered leaf, what lets it go, and what is brought for it.
fn chases(sources: &Sources, at: usize) -> Vec<CutRow> {
    let Some(work) = sources.takeoff.arrangement.openings.get(at) else { return Vec::new() };
    let several = work.leaves.len() > 1;
    let powered = work.leaves.iter().enumerate().filter(|(_, leaf)| leaf.powered);
    let each = powered.map(|(number, leaf)| {
        let chase = match leaf.entry.wire_chase.get() {
            Some(flag) if *flag => "wire chase in leaf",
            Some(_) => "no wire chase",
            None => "wire chase not known",
        };
        let brought = parts(
            sources,
            sources.takeoff.lines_of(EntityRef::Leaf(at, number)),
            &[Group::LatchRelease, Group::PowerTransfer],
        );
        let release = if brought.is_empty() { word(&leaf.entry.release) } else { brought.join(", ") };
        let how = [word(&leaf.entry.latch), format!("release: {release}"), chase.to_owned()];
        let name = if several { format!("Latch, leaf {}", leaf.number) } else { "Latch".to_owned() };
        row(name, how.join("; "))
    });
    each.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rod() -> Rod {
        Rod {
            lengths: vec![Length::inches(19)],
            shortest: Length::inches(12),
            cut_end: RodEnd::Joint,
            tolerance: Length::sixty_fourths(8),
        }
    }

    fn plain(text: String) -> String {
        text.replace('\u{a0}', " ")
    }

    #[test]
    fn the_cut_is_marked_from_the_end_that_is_kept() {
        let cut = RodCut {
            stock: Length::inches(19),
            needed: Length::sixty_fourths(15 * 64 + 44),
            off: Length::sixty_fourths(3 * 64 + 20),
        };
        let words = plain(cut_words(&rod(), cut, Length::sixty_fourths(9 * 32), Printing::inch()));
        let expected = "reveal 4 1/2\": 19\" rod; KEEP the bracket end, mark CUT 15 11/16\" from it, remove 3 5/16\" at \
                        the joint end; ± 1/8\"";
        assert_eq!(words, expected);
        let whole = RodCut { needed: Length::inches(19), off: Length::ZERO, ..cut };
        assert!(
            plain(cut_words(&rod(), whole, Length::inches(8), Printing::inch())).contains("as delivered, do not cut")
        );
    }

    #[test]
    fn a_rod_that_does_not_reach_stops_the_work() {
        let fault = RodFault::Short { needed: Length::inches(20), longest: Length::inches(19) };
        assert!(plain(fault_words(fault, Length::inches(9), Printing::inch())).ends_with("stop and call"));
    }
}
