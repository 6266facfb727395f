//! The counts that every paper prints the same.
//!
//! In: a takeoff. Out: labeled numbers, of the whole job or of one site. May not know: which paper prints them.

use rust_decimal::Decimal;
use serde::Serialize;

use super::Sources;
use crate::catalog::{Arm, Group};
use crate::measure::{Dimension, Quantity, Style, Unit};
use crate::takeoff::{EntityRef, OpeningWork, Takeoff};

/// One count.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Count {
    /// The name of its cell, such as `count.openings`.
    pub name: String,
    /// Its label.
    pub label: &'static str,
    /// The number of the whole job.
    pub job: String,
    /// The number of the site; of the whole job where no site was asked for.
    pub site: String,
}

/// Word and label of every count, in the order in which papers print them.
pub const COUNTED: [(&str, &str); 13] = [
    ("openings", "Openings"),
    ("leaves", "Leaves"),
    ("powered-leaves", "Powered leaves"),
    ("drives", "Drives"),
    ("headers", "Headers"),
    ("push-arms", "Push arms"),
    ("pull-arms", "Pull arms"),
    ("devices", "Devices"),
    ("transmitters", "Transmitters"),
    ("receivers", "Receivers"),
    ("boxes", "Boxes"),
    ("posts", "Posts"),
    ("signs", "Signs"),
];

/// The counts of the job, and beside them those of one site. What is bought is summed from the takeoff by its group,
/// never by an item's id; what stands there is counted.
pub fn counts(sources: &Sources, site: Option<usize>) -> Vec<Count> {
    let job = numbers(sources, None);
    let here = numbers(sources, site);
    let each = COUNTED.iter().zip(job.into_iter().zip(here));
    each.map(|((word, label), (job, site))| Count { name: format!("count.{word}"), label, job, site }).collect()
}

fn numbers(sources: &Sources, site: Option<usize>) -> Vec<String> {
    let all = &sources.takeoff.arrangement;
    let id = site.map(|at| all.sites.get(at).map_or("", |site| site.id.as_str()));
    let openings: Vec<&OpeningWork> =
        all.openings.iter().filter(|opening| id.is_none_or(|id| opening.site.id == id)).collect();
    let sum = |count: fn(&OpeningWork) -> usize| openings.iter().map(|opening| count(opening)).sum::<usize>();
    let arms = |arm: Arm| openings.iter().flat_map(|it| &it.drives).filter(|drive| drive.arm == Some(arm)).count();
    let counted = [
        openings.len(),
        sum(|it| it.leaves.len()),
        sum(|it| it.powered_leaves()),
        sum(|it| it.drives.len()),
        sum(|it| it.headers.len()),
        arms(Arm::Push),
        arms(Arm::Pull),
        sum(|it| it.devices.len()),
    ];
    let bought = [Group::Transmitter, Group::Receiver, Group::Box, Group::Post, Group::Sign];
    let bought = bought.into_iter().map(|group| number(group_sum(sources, group, site)));
    counted.iter().map(|count| number(Decimal::from(*count))).chain(bought).collect()
}

fn number(number: Decimal) -> String {
    Quantity::count(number).print(Unit::Each, 2, Style::Page).unwrap_or_default()
}

/// The sum of a group's lines that are counted, not measured.
fn group_sum(sources: &Sources, group: Group, site: Option<usize>) -> Decimal {
    let takeoff = sources.takeoff;
    let of_group = |item: &str| sources.catalog.items.get(item).is_some_and(|item| item.group == group);
    takeoff
        .lines
        .iter()
        .filter(|line| of_group(&line.item) && (site.is_none() || site_of(takeoff, line.of) == site))
        .map(|line| takeoff.ledger.value(line.quantity))
        .filter(|quantity| quantity.dimension() == Dimension::NONE)
        .map(|quantity| quantity.value())
        .sum()
}

/// The site an entity belongs to, by position; none for the job.
pub(super) fn site_of(takeoff: &Takeoff, of: EntityRef) -> Option<usize> {
    takeoff.site_of(of)
}
