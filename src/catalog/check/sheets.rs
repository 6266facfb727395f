//! Sheets of others about items, and certificates.
//!
//! In: records of items and proofs. Out: which file is enclosed, which of its pages, and what is marked on it. May not know: what the file holds.

use super::{Check, words};
use crate::catalog::codes;
use crate::catalog::sheet_entries::*;
use crate::findings::{Finding, Subject};
use crate::input::{CountFromOne, Slot, Text};
use crate::money::Percent;

/// The number of a page; one that no file can have stands for the last that any has.
fn page(count: &CountFromOne) -> u16 {
    u16::try_from(count.get()).unwrap_or(u16::MAX)
}

impl Check<'_, '_, '_> {
    /// The file that a record names, with its pages and marks.
    pub(super) fn sheet(
        &mut self,
        file: &Slot<Text>,
        (pages, marks): (&Slot<Vec<CountFromOne>>, &Slot<Vec<SheetMarkEntry>>),
        subject: &Subject,
    ) -> Option<MakersSheet> {
        let given = file.given()?;
        let marks = marks.list().iter().filter_map(|mark| self.mark(mark, subject)).collect();
        Some(MakersSheet {
            path: given.value.as_str().to_owned(),
            pages: pages.list().iter().map(page).collect(),
            marks,
            place: given.place.clone(),
        })
    }

    /// A mark; one that points past the end of its page is reported.
    fn mark(&mut self, entry: &SheetMarkEntry, subject: &Subject) -> Option<SheetMark> {
        let at = entry.at.given()?;
        if !(Percent::new(0)..=Percent::new(100)).contains(&at.value) {
            let finding = Finding::new(&codes::MARK_OFF_SHEET, subject.clone()).at(at.place.clone());
            self.reader.push(finding.found(at.value.print()).advise("write a share of the height from 0 % to 100 %"));
            return None;
        }
        Some(SheetMark { page: entry.page.get().map_or(1, page), at: at.value, says: words(&entry.says)? })
    }
}
