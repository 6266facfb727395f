//! What the catalog states at two places, where something is taken off by both: an operator and its drive, a kit and the rules that
//! take off fasteners, a supply and what it feeds.
//!
//! In: a takeoff. Out: `drive-differs`, `kit-doubled`, `low-volts-differ`, each once for the two entries. May not know: which of the
//! two is right.

use std::collections::BTreeSet;

use rust_decimal::Decimal;

use super::CheckContext;
use super::low_voltage::supplies;
use crate::catalog::{Electric, Group, Item, Operator};
use crate::engineering::same_nominal;
use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::measure::{Amps, Style, Unit, Volts, Weight};
use crate::takeoff::EntityRef;

/// A drive of other values than its operator.
pub static DRIVE: Code = Code {
    id: "drive-differs",
    severity: Severity::Warning,
    says: "drive {found}; its operator {asked}",
    why: "Circuits, breakers and headers are worked out by the operator, the schedule of electrified hardware and freight by the item of \
          its drive; with two values an electrician and a reviewer read different ones.",
    example: "[operator.brace-1]\namps = \"1.8 A\"\n\n[item.drive.electric]\namps = \"2.4 A\"",
    blocks: Papers::NONE,
};

/// Fasteners that come with the operator and are taken off again.
pub static KIT: Code = Code {
    id: "kit-doubled",
    severity: Severity::Warning,
    says: "{found}; {asked}",
    why: "Fasteners that lie in the operator's carton and hold the joint are bought a second time.",
    example: "header_kit = [{ into = \"wood\", name = \"screw\", count = 8 }]\n\n[item.screw]\nrule = [{ per = \"fixing\", quantity = \"8\" }]",
    blocks: Papers::NONE,
};

/// A load of other volts than its supply.
pub static LOW_VOLTS: Code = Code {
    id: "low-volts-differ",
    severity: Severity::Warning,
    says: "{found}; {asked}",
    why: "A strike of 12 V on 24 V burns out, and one of 24 V on 12 V does not release.",
    example: "[item.strike.electric]\nvolts = \"12 V\"\n\n[operator.brace-1]\naccessory_volts = \"24 V\"",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    let mut reported = BTreeSet::new();
    drives(seen, &mut reported, findings);
    kits(seen, &mut reported, findings);
    low_volts(seen, &mut reported, findings);
}

/// Two entries of the catalog that were compared, by code and id.
type Reported<'c> = BTreeSet<(&'static str, &'c str, &'c str)>;

fn drives<'c>(seen: &CheckContext<'c, '_>, reported: &mut Reported<'c>, findings: &mut Findings) {
    for line in &seen.takeoff.lines {
        let EntityRef::Drive(at, _) = line.of else { continue };
        let item = seen.catalog.items.get(&*line.item).filter(|item| item.group == Group::Drive);
        let work = &seen.takeoff.arrangement.openings[at];
        let (Some(item), Some(operator)) = (item, work.operator) else { continue };
        let Some(electric) = item.electric.as_ref() else { continue };
        if !reported.insert((DRIVE.id, &operator.id, &item.id)) {
            continue;
        }
        let differing = differing(operator, item, electric);
        if differing.is_empty() {
            continue;
        }
        let side = |at: usize| differing.iter().map(|it| it[at].as_str()).collect::<Vec<_>>().join(", ");
        let finding = Finding::new(&DRIVE, Subject::Entry("item", item.id.clone()))
            .near(item.place.clone(), format!("drive {}", item.id))
            .near(operator.place.clone(), format!("operator {}", operator.id))
            .found(side(0))
            .asked(side(1));
        findings.push(finding.advise(
            "write the same values at both; papers use the operator's for circuits and headers, the drive's on the schedule of electrified hardware",
        ));
    }
}

/// Values of a drive and of its operator, where they differ: volts by their nominal name, all else exactly.
fn differing(operator: &Operator, item: &Item, electric: &Electric) -> Vec<[String; 2]> {
    let volts = |it: Volts| it.print(Unit::Volt, 0, Style::Plain);
    let amps = |it: Amps, what: &str| Some(format!("{}{what}", it.print(Unit::Ampere, 2, Style::Plain)?));
    let pounds = |it: Weight| it.print(Unit::Pound, 1, Style::Plain);
    let mut found = Vec::new();
    let mut add = |one: Option<String>, other: Option<String>| found.extend(one.zip(other).map(|(a, b)| [a, b]));
    if let Some(own) = electric.volts.filter(|own| !same_nominal(*own, operator.volts)) {
        add(volts(own), volts(operator.volts));
    }
    if let Some(own) = electric.amps.filter(|own| *own != operator.amps) {
        add(amps(own, ""), amps(operator.amps, ""));
    }
    if let Some(own) = electric.inrush.filter(|own| *own != operator.peak) {
        add(amps(own, " at the start"), amps(operator.peak, " at the start"));
    }
    if let Some(own) = item.weight.filter(|own| *own != operator.drive_weight) {
        add(pounds(own), pounds(operator.drive_weight));
    }
    if item.fire_listed && !operator.fire_listed {
        add(Some("listed for labeled openings".to_owned()), Some("not listed".to_owned()));
    }
    found
}

fn kits<'c>(seen: &CheckContext<'c, '_>, reported: &mut Reported<'c>, findings: &mut Findings) {
    for line in &seen.takeoff.lines {
        let EntityRef::Fixing(at, fixing) = line.of else { continue };
        let item =
            seen.catalog.items.get(&*line.item).filter(|it| it.group == Group::Fastener && it.unit == Unit::Each);
        let work = &seen.takeoff.arrangement.openings[at];
        let of = &work.fixings[fixing];
        let (Some(item), Some(operator)) = (item, work.operator) else { continue };
        let (Some((kit, place)), Some(short)) = (of.kit(work), of.short(work)) else { continue };
        let taken = seen.takeoff.ledger.value(line.quantity).value();
        if kit == 0 || taken <= Decimal::from(short) || !reported.insert((KIT.id, &operator.id, &item.id)) {
            continue;
        }
        let rule = &seen.catalog.rules[line.rule];
        let finding = Finding::new(&KIT, Subject::Entry("item", item.id.clone()))
            .near(rule.place.clone(), format!("rule of {}", item.id))
            .near(place.clone(), format!("kit of operator {}", operator.id))
            .found(format!("{} {} for {}", taken.normalize(), item.name, of.name(work)))
            .asked(format!("the kit gives {kit}, and {short} more are needed"))
            .margin(format!("{} too many", (taken - Decimal::from(short)).normalize()));
        findings.push(finding.advise(
            "write quantity = \"fixing.short\" in the rule, or correct the kit of the operator; papers use the rule, and buy both",
        ));
    }
}

fn low_volts<'c>(seen: &CheckContext<'c, '_>, reported: &mut Reported<'c>, findings: &mut Findings) {
    let print = |it: Volts| it.print(Unit::Volt, 1, Style::Plain).unwrap_or_default();
    for (at, work) in seen.powered() {
        for supply in supplies(seen, at, work) {
            let Some(gives) = supply.volts else { continue };
            for load in &supply.loads {
                let Some(needs) = load.volts.filter(|it| !same_nominal(*it, gives)) else { continue };
                let operator = work.operator.map_or("", |it| it.id.as_str());
                let id = load.item.map_or(load.name, |item| item.id.as_str());
                if !reported.insert((LOW_VOLTS.id, operator, id)) {
                    continue;
                }
                let subject = match load.item {
                    Some(item) => Subject::Entry("item", item.id.clone()),
                    None => Subject::Opening(work.opening.mark.clone()),
                };
                let finding = Finding::new(&LOW_VOLTS, subject)
                    .near(load.place.clone(), format!("{id}, at {}", work.opening.mark))
                    .near(supply.place.clone(), supply.name.clone())
                    .found(format!("{} of {}", load.name, print(needs)))
                    .asked(format!("{} gives {}", supply.name, print(gives)));
                findings.push(finding.advise(
                    "take off a supply of its volts, or an item of the supply's; papers print both and convert nothing",
                ));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{DRIVE, KIT, LOW_VOLTS};
    use crate::findings::{Code, Finding};
    use crate::takeoff::checks::fixtures;

    fn item(id: &str, group: &str, more: &str) -> String {
        format!(
            "[item.{id}]\nname = \"{id}\"\ngroup = \"{group}\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\n{more}\n"
        )
    }

    fn reported(code: &Code, operator: &str, catalog: &str) -> Vec<Finding> {
        let found = fixtures::reported(code, "", operator, catalog);
        assert!(found.iter().all(|it| it.places.len() == 2), "{found:#?}");
        found
    }

    /// The sound job's operator: 120 V, 1.8 A, 4.5 A at the start, a drive of 24 lb, listed.
    #[test]
    fn a_drive_has_the_values_of_its_operator() {
        let drive = |electric: &str, more: &str| {
            item("motor", "drive", &format!("{more}electric = {{ {electric} }}\nrule = [{{ per = \"drive\" }}]"))
        };
        for sound in
            ["volts = \"120 V\", amps = \"1.8 A\", inrush = \"4.5 A\"", "volts = \"115 V\"", "fails = \"none\""]
        {
            assert!(reported(&DRIVE, "", &drive(sound, "weight = \"24 lb\"\n")).is_empty(), "{sound}");
        }
        let found = reported(&DRIVE, "", &drive("volts = \"208 V\", amps = \"1.6 A\"", "weight = \"30 lb\"\n"));
        let [one] = found.as_slice() else { panic!("{found:#?}") };
        assert_eq!((one.found.as_str(), one.asked.as_str()), ("208 V, 1.6 A, 30 lb", "120 V, 1.8 A, 24 lb"));
        let found = reported(&DRIVE, "", &drive("inrush = \"5 A\"", ""));
        assert_eq!(found[0].found, "5 A at the start");
    }

    /// The header asks for 8 screws: of 6 in the kit 2 more are bought, and all 8 are 6 too many.
    #[test]
    fn what_is_in_the_kit_is_not_bought_again() {
        let screws = |quantity: &str| {
            item(
                "screw",
                "fastener",
                &format!("rule = [{{ per = \"fixing\", when = 'fixing.of = \"header\"', quantity = \"{quantity}\" }}]"),
            )
        };
        let kit = "header_kit = [{ into = \"wood\", name = \"screw\", count = 6 }]";
        assert!(reported(&KIT, kit, &screws("fixing.short")).is_empty());
        assert!(reported(&KIT, "", &screws("8")).is_empty(), "without a kit all are bought");
        let found = reported(&KIT, kit, &screws("8"));
        let [one] = found.as_slice() else { panic!("{found:#?}") };
        assert_eq!(one.asked, "the kit gives 6, and 2 more are needed");
        assert_eq!(one.margin.as_deref(), Some("6 too many"));
    }

    #[test]
    fn a_load_has_the_volts_of_its_supply() {
        let strike = |volts: &str| {
            item(
                "strike",
                "latch release",
                &format!(
                    "electric = {{ volts = \"{volts}\", amps = \"0.2 A\" }}\nrule = [{{ per = \"powered leaf\" }}]"
                ),
            )
        };
        let operator = "accessory_amps = \"1 A\"\naccessory_volts = \"24 V\"";
        assert!(reported(&LOW_VOLTS, operator, &strike("24 V")).is_empty());
        let found = reported(&LOW_VOLTS, operator, &strike("12 V"));
        let [one] = found.as_slice() else { panic!("{found:#?}") };
        assert_eq!((one.found.as_str(), one.asked.as_str()), ("strike of 12 V", "operator brace-1 gives 24 V"));
    }
}
