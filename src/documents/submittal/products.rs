//! Product data: a sheet for everything furnished under a section, made from the catalog.
//!
//! In: items taken off, operators of openings. Out: finished strings by group. May not know: pages, prices.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use serde::Serialize;

use super::product_sheet::{ProductChoice, ProductSheet};
use super::{Package, operators, places};
use crate::catalog::{Entity, FailState, Group, Item, NO_PARTY};
use crate::documents::Sources;
use crate::documents::printing::{Printing, amps, kept, listed, or_dash, volts};
use crate::measure::{Dimension, Noun, Quantity, Style, Unit, Weight};
use crate::takeoff::EntityRef;

/// The sheets of a group of items.
#[derive(Clone, Debug, Serialize)]
pub struct ProductGroup {
    /// The block with which it begins.
    pub id: String,
    /// What the group is called.
    pub title: String,
    /// Its sheets.
    pub sheets: Vec<ProductSheet>,
    /// The group; none for operators as a whole.
    #[serde(skip)]
    pub group: Option<Group>,
}

/// An item of a section with what was taken off of it.
pub(super) struct Used<'a> {
    pub item: &'a Item,
    pub sum: Quantity,
    pub at: Vec<EntityRef>,
}

/// What is furnished under a section, by group and name. What suppliers send that nobody reviews is left out.
pub(super) fn items<'a>(sources: &Sources<'a>, section: &str) -> Vec<Used<'a>> {
    let job = sources.reviewed.job();
    let mut found: BTreeMap<(Group, &str, &str), (Decimal, Vec<EntityRef>)> = BTreeMap::new();
    for line in &sources.takeoff.lines {
        let Some(item) = sources.catalog.items.get(&*line.item) else { continue };
        // What is used up over other items, such as bits, stays with nobody.
        if sources.catalog.rules.get(line.rule).is_some_and(|rule| rule.per == Entity::Item) {
            continue;
        }
        let reviewed = sources.catalog.suppliers.get(&item.supplier).is_some_and(|it| it.submitted);
        if reviewed && job.section_of(item.group) == Some(section) {
            let (sum, at) = found.entry((item.group, &item.name, &item.id)).or_default();
            *sum += sources.takeoff.ledger.value(line.quantity).value();
            at.push(line.of);
        }
    }
    let used = found.into_iter().filter_map(|((_, _, id), (sum, at))| {
        let item = sources.catalog.items.get(id)?;
        Some(Used { item, sum: Quantity::new(sum, item.unit.dimension()), at })
    });
    used.collect()
}

/// The sheets of the package: operators first, under the job's own section, then items by group.
pub(super) fn groups(package: &Package) -> Vec<ProductGroup> {
    let mut groups: Vec<ProductGroup> = Vec::new();
    if package.own {
        let sheets = operators::sheets(package.sources);
        if !sheets.is_empty() {
            groups.push(ProductGroup {
                id: "product-operators".to_owned(),
                title: "Operators".to_owned(),
                sheets,
                group: None,
            });
        }
    }
    for used in items(package.sources, &package.transmittal.section) {
        let group = used.item.group;
        let sheet = sheet(package.sources, &used);
        match groups.last_mut().filter(|it| it.group == Some(group)) {
            Some(last) => last.sheets.push(sheet),
            None => groups.push(ProductGroup {
                id: format!("product-{}", group.word().replace(' ', "-")),
                title: capital(group.word()),
                sheets: vec![sheet],
                group: Some(group),
            }),
        }
    }
    groups
}

/// A word with a capital in front.
fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// How much of an item is taken off, in its unit.
pub(super) fn quantity(sources: &Sources, used: &Used) -> String {
    Printing::of(sources.reviewed.job()).quantity(used.sum, used.item.unit)
}

/// Who supplies an item.
pub(super) fn supplier(sources: &Sources, item: &Item) -> String {
    or_dash(sources.catalog.suppliers.get(&item.supplier).map(|it| it.name.as_str()))
}

fn sheet(sources: &Sources, used: &Used) -> ProductSheet {
    let item = used.item;
    let printing = Printing::of(sources.reviewed.job());
    let mut sheet = ProductSheet {
        name: format!("product.{}", item.id),
        title: item.name.clone(),
        rows: Vec::new(),
        choices: finishes(sources, used),
    };
    sheet.tell("Supplier", supplier(sources, item));
    sheet.tell("Size", item.size.as_deref().map(kept));
    sheet.tell("Standard, type", item.standard.clone());
    if sheet.choices.is_empty() {
        sheet.tell("Finish", item.finish.as_ref().map(|id| finish_name(sources, id)));
    }
    sheet.tell("Weight", item.weight.and_then(|it| weight(printing, it, item)));
    sheet.tell("Labeled openings", item.fire_listed.then(|| "listed".to_owned()));
    sheet.tell("Cylinder", item.keyed.then(|| "required, by owner".to_owned()));
    electric(&mut sheet, sources, item);
    wire(&mut sheet, item);
    sheet.tell("In use", format!("{}: {}", quantity(sources, used), place_words(sources, &used.at)));
    sheet
}

/// The weight of a piece, or of the unit of what comes by length.
fn weight(printing: Printing, of: Weight, item: &Item) -> Option<String> {
    let unit = if printing.is_inch() { Unit::Pound } else { Unit::Kilogram };
    let reported = of.print(unit, 2, Style::Page)?;
    let by = match item.unit.dimension() {
        Dimension::LENGTH => format!(" for each {}", item.unit.word()),
        _ => String::new(),
    };
    Some(format!("{reported}{by}"))
}

fn finish_name(sources: &Sources, id: &str) -> String {
    sources.catalog.finishes.get(id).cloned().unwrap_or_else(|| id.to_owned())
}

/// The finishes that an item can have where its opening says which, and those offered.
fn finishes(sources: &Sources, used: &Used) -> Vec<ProductChoice> {
    if used.item.finish.as_deref() != Some("by opening") {
        return Vec::new();
    }
    let openings = used.at.iter().filter_map(|of| of.opening());
    let works = &sources.takeoff.arrangement.openings;
    let typed: Vec<&str> =
        openings.filter_map(|at| works.get(at)?.opening.entry.finish.get()).map(|it| it.as_str()).collect();
    let (offered, others): (Vec<&String>, Vec<&String>) =
        sources.catalog.finishes.keys().partition(|id| typed.contains(&id.as_str()));
    let names = |ids: Vec<&String>| ids.into_iter().map(|id| finish_name(sources, id)).collect::<Vec<_>>().join(", ");
    vec![ProductChoice { of: "Finish".to_owned(), offered: or_dash(Some(&names(offered))), others: names(others) }]
}

fn electric(sheet: &mut ProductSheet, sources: &Sources, item: &Item) {
    let Some(it) = &item.electric else { return };
    let draws = [
        it.volts.map(volts),
        it.amps.map(amps),
        it.inrush.map(|inrush| format!("{} inrush", amps(inrush))),
        it.least_volts.map(|least| format!("minimum {}", volts(least))),
    ];
    sheet.tell("Electrical", draws.into_iter().flatten().collect::<Vec<_>>().join(", "));
    sheet.tell("Power failure", (it.fails != FailState::None).then(|| it.fails.word().to_owned()));
    let party = |id: &str| sources.catalog.parties.get(id).map_or_else(|| id.to_owned(), |it| it.name.clone());
    let deeds = [
        ("furnished", &it.furnished_by),
        ("installed", &it.installed_by),
        ("wired", &it.wired_by),
        ("programmed", &it.programmed_by),
    ];
    let mut by: Vec<(String, Vec<&str>)> = Vec::new();
    for (deed, who) in deeds.into_iter().filter(|(_, who)| *who != NO_PARTY) {
        let who = party(who);
        match by.iter_mut().find(|(known, _)| *known == who) {
            Some((_, done)) => done.push(deed),
            None => by.push((who, vec![deed])),
        }
    }
    let each = by.into_iter().map(|(who, done)| format!("{who}: {}", done.join(", ")));
    sheet.tell("Work by", listed(each, "; "));
}

fn wire(sheet: &mut ProductSheet, item: &Item) {
    let solid = |it: bool| if it { "solid" } else { "stranded" };
    sheet.tell("Wire", item.wire.map(|it| format!("{} AWG, {}, copper", it.awg, solid(it.solid))));
    sheet.tell(
        "Output",
        item.gives.as_ref().map(|it| {
            let class = if it.class_two { ", Class 2" } else { "" };
            format!("{}, {} on {}{class}", volts(it.volts), amps(it.amps), Noun::OUTPUT.count(it.outputs.max(1)))
        }),
    );
    sheet.tell("Battery", item.battery.map(|it| format!("{} mAh; replacement date on its label", it.capacity)));
}

/// Where something is used: marks of openings, sites by name, or the job.
fn place_words(sources: &Sources, at: &[EntityRef]) -> String {
    let all = sources.takeoff.arrangement.openings.len();
    let names = sources.takeoff.names_of(at);
    let openings = at.iter().filter(|of| of.opening().is_some()).count();
    if openings == at.len() && names.len() == all && all > 1 {
        return "every opening".to_owned();
    }
    places(sources, at)
}
