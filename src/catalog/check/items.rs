//! Items.
//!
//! In: item records. Out: checked items by id. May not know: rules.

use std::collections::BTreeMap;

use super::Check;
use crate::catalog::codes;
use crate::catalog::entries::{Item, ItemEntry, Pack, PackEntry};
use crate::findings::{Finding, Subject};
use crate::input::{Slot, Text};
use crate::measure::{Unit, read_quantity};

impl Check<'_, '_, '_> {
    pub(super) fn items(&mut self) -> BTreeMap<String, Item> {
        let all = self.all;
        all.item.members().filter_map(|(id, entry)| Some((id.to_owned(), self.item(id, entry)?))).collect()
    }

    fn item(&mut self, id: &str, entry: &ItemEntry) -> Option<Item> {
        let subject = Subject::Entry("item", id.to_owned());
        let unit = self.unit(&entry.unit, &subject)?;
        let pack = entry.pack.get().and_then(|pack| self.pack(pack, unit, &subject));
        let sheet = self.sheet(&entry.sheet, (&entry.sheet_pages, &entry.sheet_marks), &subject);
        entry.checked(id.to_owned(), unit, pack, sheet)
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
        let given = entry.holds.given()?;
        match read_quantity(&given.value, self.reader.system()) {
            Ok((holds, _)) if holds.dimension() == unit.dimension() && !holds.value().is_zero() => entry.checked(holds),
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
