//! Operators and the rows of the settings sheet.
//!
//! In: operator and setting records. Out: checked operators by id, settings in order. May not know: jobs.

use std::collections::BTreeMap;

use super::{Check, words};
use crate::catalog::conditions::Amount;
use crate::catalog::operator_entries::*;
use crate::catalog::words::{Entity, KitScrews};
use crate::findings::Subject;
use crate::input::{Count, Formula, Slot, Text};
use crate::measure::Dimension;
use crate::rules::{self as language, Sheet};

impl Check<'_, '_, '_> {
    pub(super) fn operators(&mut self) -> BTreeMap<String, Operator> {
        let all = self.all;
        let mut operators = BTreeMap::new();
        for (id, entry) in all.operator.members() {
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
            settings.extend(entry.checked(id.to_owned(), default_rule, limit_rule, limit_when, when));
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
    entry.checked(id.to_owned(), header_kit.collect(), arm_kit.collect(), settings)
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
