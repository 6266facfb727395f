//! Tasks.
//!
//! In: task records. Out: checked tasks by id. May not know: prices.
//!
//! A crew is a formula over the entity of whichever rule takes the task off, so it is checked against every entity from
//! which the task may come.

use std::collections::BTreeMap;

use super::Check;
use crate::catalog::entries::{Task, TaskEntry};
use crate::findings::Subject;
use crate::measure::{Dimension, Unit};

impl Check<'_, '_, '_> {
    pub(super) fn tasks(&mut self) -> BTreeMap<String, Task> {
        let all = self.all;
        all.task.members().filter_map(|(id, entry)| Some((id.to_owned(), self.task(id, entry)?))).collect()
    }

    fn task(&mut self, id: &str, entry: &TaskEntry) -> Option<Task> {
        let subject = Subject::Entry("task", id.to_owned());
        let unit = if entry.unit.is_absent() { Some(Unit::Each) } else { self.unit(&entry.unit, &subject) };
        let sheet = self.task_sheet(id, entry);
        let crew = self.amount(&entry.crew, &sheet, Dimension::NONE, &subject).ok()?;
        entry.checked(id.to_owned(), crew, unit?, entry.hours.place()?.clone())
    }

    /// The facts that a task's crew may use: those of every entity that a rule takes it off for.
    fn task_sheet(&self, id: &str, entry: &TaskEntry) -> crate::rules::Sheet {
        let inside = entry.rule.list().iter();
        let outside =
            self.all.rule.list().iter().filter(|rule| rule.task.get().is_some_and(|task| task.as_str() == id));
        let kinds = inside.chain(outside).filter_map(|rule| rule.per.get());
        kinds.fold(crate::rules::Sheet::new("task"), |sheet, kind| sheet.and(&(self.sheets)(*kind)))
    }
}
