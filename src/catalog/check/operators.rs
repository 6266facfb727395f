//! Operators and the rows of the settings sheet.
//!
//! In: operator and setting records. Out: checked operators by id, settings in order. May not know: jobs.

use std::collections::BTreeMap;

use super::mechanics::{mechanics, rod};
use super::{Check, list, words};
use crate::catalog::codes;
use crate::catalog::entries::{CartonEntry, OperatorEntry};
use crate::catalog::model::{Amount, Carton, Kit, Operator, OperatorSetting, Setting};
use crate::catalog::words::{Entity, KitScrews};
use crate::findings::{Finding, Subject};
use crate::input::{Count, Formula, Slot, Text};
use crate::measure::Dimension;
use crate::rules::{self as language, Sheet};

impl Check<'_, '_, '_> {
    pub(super) fn operators(&mut self) -> BTreeMap<String, Operator> {
        let all = self.all;
        let mut operators = BTreeMap::new();
        for (id, entry) in all.operator.members() {
            self.settings_known(id, entry);
            let settings = self.settings_of(id, entry);
            operators.extend(operator(id, entry, settings).map(|it| (id.to_owned(), it)));
        }
        operators
    }

    /// The settings of an operator, by the id of their row.
    fn settings_of(&mut self, id: &str, entry: &OperatorEntry) -> BTreeMap<String, OperatorSetting> {
        let sheet = (self.sheets)(Entity::Drive);
        let subject = Subject::Entry("operator", id.to_owned());
        let mut settings = BTreeMap::new();
        for (name, setting) in entry.setting.members() {
            let cases = setting.case.list().iter().filter_map(|case| {
                let when = self.condition(&case.when, &sheet, &subject).ok()??;
                Some((when, words(&case.target)?))
            });
            let cases = cases.collect();
            let (default, target) = (words(&setting.default), words(&setting.target));
            settings.insert(name.to_owned(), OperatorSetting { default, target, cases });
        }
        settings
    }

    fn settings_known(&mut self, id: &str, entry: &OperatorEntry) {
        let Some(named) = entry.setting.get() else { return };
        for name in named.names() {
            if self.all.setting.get().is_some_and(|rows| rows.get(name).is_some()) {
                continue;
            }
            let rows: Vec<&str> = self.all.setting.members().map(|(name, _)| name).collect();
            let finding = Finding::new(&codes::UNKNOWN_SETTING, Subject::Entry("operator", id.to_owned()))
                .found(name)
                .asked(rows.join(", "));
            let Some(place) = named.place(name) else { continue };
            let finding = finding.at(place.clone());
            self.reader.push(match crate::input::nearest(name, rows.iter().copied()) {
                Some(near) => finding.type_at(place.clone(), near),
                None => finding.advise("add a row [setting.…], or omit the value"),
            });
        }
    }

    pub(super) fn settings(&mut self) -> Vec<Setting> {
        let all = self.all;
        let sheet = (self.sheets)(Entity::Drive);
        let mut settings = Vec::new();
        for (id, entry) in all.setting.members() {
            let subject = Subject::Entry("setting", id.to_owned());
            let Ok(limit_rule) = self.amount(&entry.limit_rule, &sheet, Dimension::TIME, &subject) else { continue };
            let Ok(default_rule) = self.default_rule(&entry.default_rule, &sheet, &subject) else { continue };
            let Ok(limit_when) = self.condition(&entry.limit_when, &sheet, &subject) else { continue };
            let Ok(when) = self.condition(&entry.when, &sheet, &subject) else { continue };
            let (Some(name), Some(order)) = (words(&entry.name), entry.order.get()) else { continue };
            settings.push(Setting {
                id: id.to_owned(),
                name,
                order: order.get(),
                default_rule,
                limit: words(&entry.limit),
                limit_rule,
                limit_when,
                instrument: words(&entry.instrument),
                when,
            });
        }
        settings.sort_by(|a, b| (a.order, &a.id).cmp(&(b.order, &b.id)));
        settings
    }

    /// What is delivered is a time or an angle.
    fn default_rule(&mut self, slot: &Slot<Formula>, sheet: &Sheet, subject: &Subject) -> Result<Option<Amount>, ()> {
        let is_angle = |text: &Formula| language::Formula::read(text.as_str(), sheet, Dimension::NONE).is_ok();
        let dimension = if slot.get().is_some_and(is_angle) { Dimension::NONE } else { Dimension::TIME };
        self.amount(slot, sheet, dimension, subject)
    }
}

fn operator(id: &str, entry: &OperatorEntry, settings: BTreeMap<String, OperatorSetting>) -> Option<Operator> {
    let header_kit = entry.header_kit.list().iter();
    let header_kit = header_kit.filter_map(|it| kit(&it.into, &it.name, &it.count, &it.screws, &it.advice));
    let arm_kit = entry.arm_kit.list().iter();
    let arm_kit = arm_kit.filter_map(|it| kit(&it.into, &it.name, &it.count, &it.screws, &it.advice));
    Some(Operator {
        id: id.to_owned(),
        name: words(&entry.name)?,
        energy: entry.energy.cloned()?,
        mounts: entry.mounts.cloned()?,
        pushes: entry.pushes.cloned()?,
        pulls: entry.pulls.cloned()?,
        two_drives: entry.two_drives.cloned()?,
        fire_listed: entry.fire_listed.cloned()?,
        outdoors: entry.outdoors.or(false),
        height: entry.height.cloned()?,
        depth: entry.depth.cloned()?,
        head_room: entry.head_room.cloned()?,
        face_clearance: entry.face_clearance.cloned()?,
        widest: entry.widest.cloned()?,
        narrowest: entry.narrowest.cloned()?,
        heaviest: entry.heaviest.cloned()?,
        spindle_offset: entry.spindle_offset.cloned()?,
        bracket_offset: entry.bracket_offset.cloned()?,
        deepest_reveal: entry.deepest_reveal.cloned()?,
        arm_fitted: words(&entry.arm_fitted),
        rod: entry.rod.get().and_then(rod),
        mechanics: entry.mechanics.get().and_then(mechanics),
        volts: entry.volts.cloned()?,
        amps: entry.amps.cloned()?,
        peak: entry.peak.cloned()?,
        accessory_amps: entry.accessory_amps.cloned(),
        accessory_volts: entry.accessory_volts.cloned(),
        release_delay: entry.release_delay.cloned(),
        entry: words(&entry.entry)?,
        opens_to: entry.opens_to.cloned(),
        closes_by: words(&entry.closes_by)?,
        header_weight: entry.header_weight.cloned()?,
        drive_weight: entry.drive_weight.cloned()?,
        cartons: entry.carton.list().iter().filter_map(carton).collect(),
        header_kit: header_kit.collect(),
        arm_kit: arm_kit.collect(),
        header_screws: entry.header_screws.get()?.get(),
        arm_screws: entry.arm_screws.get()?.get(),
        settings,
        help: words(&entry.help),
        place: entry.written_at.clone()?,
    })
}

fn kit<I: Copy>(
    into: &Slot<I>,
    name: &Slot<Text>,
    count: &Slot<Count>,
    screws: &Slot<KitScrews>,
    advice: &Slot<Text>,
) -> Option<Kit<I>> {
    Some(Kit {
        into: into.cloned()?,
        name: words(name)?,
        count: count.get()?.get(),
        screws: screws.or(KitScrews::Reuse),
        advice: words(advice),
        place: count.place()?.clone(),
    })
}

fn carton(entry: &CartonEntry) -> Option<Carton> {
    Some(Carton {
        tag: words(&entry.tag)?,
        holds: list(&entry.holds),
        weight: entry.weight.cloned()?,
        per: entry.per.cloned()?,
    })
}
