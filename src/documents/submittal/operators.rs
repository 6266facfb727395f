//! Product data of operators as families: what they are, may carry, need and can be set to.
//!
//! In: operators of the job's openings. Out: finished sheets. May not know: pages, prices.

use super::product_sheet::{ProductChoice, ProductSheet};
use crate::catalog::{Arm, EnergyClass, Mount, Operator};
use crate::documents::Sources;
use crate::documents::printing::{Printing, amps, or_dash, volts};
use crate::measure::{Duration, Noun, Style, Unit};
use crate::takeoff::OpeningWork;

/// A sheet for each family, in the order in which openings name it.
pub(super) fn sheets(sources: &Sources) -> Vec<ProductSheet> {
    let mut families: Vec<(&Operator, Vec<&OpeningWork>)> = Vec::new();
    for work in sources.takeoff.arrangement.openings.iter().filter(|it| !it.drives.is_empty()) {
        let Some(operator) = work.operator else { continue };
        match families.iter_mut().find(|(known, _)| known.id == operator.id) {
            Some((_, works)) => works.push(work),
            None => families.push((operator, vec![work])),
        }
    }
    families.into_iter().map(|(operator, works)| sheet(sources, operator, &works)).collect()
}

fn sheet(sources: &Sources, operator: &Operator, works: &[&OpeningWork]) -> ProductSheet {
    let mut sheet = ProductSheet {
        name: format!("product.operator.{}", operator.id),
        title: operator.name.clone(),
        rows: Vec::new(),
        choices: choices(sources, operator, works),
    };
    sizes(&mut sheet, sources, operator);
    power(&mut sheet, operator);
    let settings = sources.catalog.settings.iter().filter(|row| operator.settings.contains_key(&row.id));
    let names: Vec<&str> = settings.map(|row| row.name.as_str()).collect();
    sheet.tell("Adjustable", names.join("; "));
    let marks: Vec<&str> = works.iter().map(|work| work.opening.mark.as_str()).collect();
    let drives: usize = works.iter().map(|work| work.drives.len()).sum();
    sheet.tell("In use", format!("{}: {}", Noun::DRIVE.len(drives), marks.join(", ")));
    sheet
}

fn sizes(sheet: &mut ProductSheet, sources: &Sources, operator: &Operator) {
    let printing = Printing::of(sources.reviewed.job());
    let yes = |it: bool| if it { "yes" } else { "no" }.to_owned();
    sheet.tell("Header", format!("{} high, {} deep", printing.short(operator.height), printing.short(operator.depth)));
    sheet.tell("Headroom", printing.short(operator.head_room));
    sheet.tell("Clearance", printing.short(operator.face_clearance));
    sheet.tell("Leaf", {
        let widths = (printing.short(operator.narrowest), printing.short(operator.widest));
        format!("{} to {} wide, up to {}", widths.0, widths.1, printing.weight(operator.heaviest))
    });
    sheet.tell("Reveal", format!("up to {}", printing.short(operator.deepest_reveal)));
    sheet.tell("Weight", {
        let header = printing.weight(operator.header_weight);
        format!("header {header} per ft, drive {}", printing.weight(operator.drive_weight))
    });
    sheet.tell("Labeled openings", yes(operator.fire_listed));
    sheet.tell("Outdoor use", yes(operator.outdoors));
    sheet.tell("Two drives", yes(operator.two_drives));
}

fn power(sheet: &mut ProductSheet, operator: &Operator) {
    sheet.tell(
        "Electrical",
        format!("{}, {} running, {} peak", volts(operator.volts), amps(operator.amps), amps(operator.peak)),
    );
    let gives = operator.accessory_volts.zip(operator.accessory_amps);
    sheet.tell("Device output", gives.map(|(of, up_to)| format!("{}, up to {}", volts(of), amps(up_to))));
    sheet.tell("Raceway", format!("{} in", operator.entry));
    sheet.tell("Opens to", operator.opens_to.map(|it| it.print(0, Style::Page)));
    sheet.tell("Power failure", format!("closes by {}", operator.closes_by));
    let print = |time: Option<Duration>| time.and_then(|it| it.print(Unit::Second, 1, Style::Page));
    if let Some(it) = &operator.mechanics {
        sheet.tell("Opening time", print(it.opens_in).map(|time| format!("{time} as delivered")));
        sheet.tell("Slowest opening", print(it.slowest));
        sheet.tell("Hold-open time", print(it.holds_to).map(|time| format!("up to {time}")));
    }
}

/// What a family can be had as, and what of it the openings take.
fn choices(sources: &Sources, operator: &Operator, works: &[&OpeningWork]) -> Vec<ProductChoice> {
    let energy = |class: &EnergyClass| works.iter().any(|work| work.opening.entry.energy.get() == Some(class));
    let mount = |mount: &Mount| works.iter().any(|work| work.opening.entry.mount.get() == Some(mount));
    let arms = [(Arm::Push, operator.pushes), (Arm::Pull, operator.pulls)].into_iter().filter(|(_, can)| *can);
    let drives: Vec<Option<Arm>> = works.iter().flat_map(|work| &work.drives).map(|drive| drive.arm).collect();
    let finished =
        |id: &str| works.iter().any(|work| work.opening.entry.finish.get().is_some_and(|it| it.as_str() == id));
    vec![
        choice("Energy class", operator.energy.iter().map(|it| (it.word().to_owned(), energy(it)))),
        choice("Mounting", operator.mounts.iter().map(|it| (it.word().to_owned(), mount(it)))),
        choice("Arm", arms.map(|(arm, _)| (arm.word().to_owned(), drives.contains(&Some(arm))))),
        choice("Finish", sources.catalog.finishes.iter().map(|(id, name)| (name.clone(), finished(id)))),
    ]
}

fn choice(of: &str, options: impl Iterator<Item = (String, bool)>) -> ProductChoice {
    let (offered, others): (Vec<_>, Vec<_>) = options.partition(|(_, taken)| *taken);
    let words = |options: Vec<(String, bool)>| options.into_iter().map(|(word, _)| word).collect::<Vec<_>>().join(", ");
    ProductChoice { of: of.to_owned(), offered: or_dash(Some(&words(offered))), others: words(others) }
}
