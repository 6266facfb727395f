//! Items.
//!
//! In: item records. Out: checked items by id. May not know: rules.

use std::collections::BTreeMap;

use super::wiring::{battery, gives, wire};
use super::{Check, words};
use crate::catalog::codes;
use crate::catalog::entries::{ElectricEntry, ItemEntry, PackEntry};
use crate::catalog::model::{Electric, Item, Pack};
use crate::catalog::words::{CostKind, FailState, SetPlace};
use crate::findings::{Finding, Subject};
use crate::input::{Slot, Text};
use crate::measure::{Unit, read_quantity};
use crate::money::Percent;

impl Check<'_, '_, '_> {
    pub(super) fn items(&mut self) -> BTreeMap<String, Item> {
        let all = self.all;
        all.item.members().filter_map(|(id, entry)| Some((id.to_owned(), self.item(id, entry)?))).collect()
    }

    fn item(&mut self, id: &str, entry: &ItemEntry) -> Option<Item> {
        let subject = Subject::Entry("item", id.to_owned());
        let supplier = self.known(&entry.supplier, &self.all.supplier, &codes::UNKNOWN_SUPPLIER, &subject);
        let unit = self.unit(&entry.unit, &subject)?;
        let pack = entry.pack.get().and_then(|pack| self.pack(pack, unit, &subject));
        Some(Item {
            id: id.to_owned(),
            name: words(&entry.name)?,
            group: entry.group.cloned()?,
            set: entry.set.or(SetPlace::Apart),
            cost: entry.cost.or(CostKind::Material),
            unit,
            price: entry.price.clone(),
            priced: entry.priced.clone(),
            supplier: supplier.unwrap_or_default(),
            waste: entry.waste.or(Percent::new(0)),
            pack,
            finish: words(&entry.finish),
            size: words(&entry.size),
            standard: words(&entry.standard),
            weight: entry.weight.cloned(),
            fire_listed: entry.fire_listed.or(false),
            keyed: entry.keyed.or(false),
            spare: words(&entry.spare),
            freight: entry.freight.or(true),
            taxed: entry.taxed.or(true),
            electric: entry.electric.get().map(electric),
            wire: entry.wire.get().and_then(wire),
            gives: entry.gives.get().and_then(gives),
            battery: entry.battery.get().and_then(battery),
            sheet: self.sheet(&entry.sheet, (&entry.sheet_pages, &entry.sheet_marks), &subject),
            place: entry.written_at.clone()?,
        })
    }

    /// The unit that a text names; a text that names none is reported.
    pub(super) fn unit(&mut self, slot: &Slot<Text>, subject: &Subject) -> Option<Unit> {
        let given = slot.given()?;
        let unit = Unit::parse(&given.value);
        if unit.is_none() {
            let known: Vec<&str> = Unit::all().map(Unit::word).collect();
            let finding = Finding::new(&codes::UNKNOWN_UNIT, subject.clone())
                .at(given.place.clone())
                .found(given.value.as_str())
                .asked(known.join(", "));
            let near = crate::input::nearest(&given.value, known.iter().copied());
            self.reader.push(match near {
                Some(near) => finding.type_at(given.place.clone(), near),
                None => finding.advise("write one of the units"),
            });
        }
        unit
    }

    fn pack(&mut self, entry: &PackEntry, unit: Unit, subject: &Subject) -> Option<Pack> {
        let name = words(&entry.name)?;
        let given = entry.holds.given()?;
        match read_quantity(&given.value, self.reader.system()) {
            Ok((holds, _)) if holds.dimension() == unit.dimension() && !holds.value().is_zero() => {
                Some(Pack { name, holds })
            }
            _ => {
                let finding = Finding::new(&codes::PACK_MISFIT, subject.clone())
                    .at(given.place.clone())
                    .found(given.value.as_str())
                    .asked(unit.word())
                    .advise(format!("say how much is in it with its unit, such as `100 {}`", unit.word()));
                self.reader.push(finding);
                None
            }
        }
    }
}

fn electric(entry: &ElectricEntry) -> Electric {
    let by = |slot: &Slot<Text>| words(slot).unwrap_or_else(|| "us".to_owned());
    Electric {
        volts: entry.volts.cloned(),
        amps: entry.amps.cloned(),
        inrush: entry.inrush.cloned(),
        constant_power: entry.constant_power.or(false),
        least_volts: entry.least_volts.cloned(),
        fails: entry.fails.or(FailState::None),
        furnished_by: by(&entry.furnished_by),
        installed_by: by(&entry.installed_by),
        wired_by: by(&entry.wired_by),
        programmed_by: by(&entry.programmed_by),
    }
}
