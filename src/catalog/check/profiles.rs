//! Owners: how they number, and what their reviewers answer.
//!
//! In: their records. Out: checked, by id. May not know: any job.

use std::collections::BTreeMap;

use super::Check;
use crate::catalog::codes;
use crate::catalog::profile_entries::{Profile, ProfileEntry, USUAL_NUMBER};
use crate::findings::{Finding, Paper, Papers, Place, Subject};
use crate::measure::Length;

/// What a number of a submittal may be made of.
const PLACEHOLDERS: [&str; 2] = ["{section}", "{number}"];

/// The papers that tell what was submitted.
const TOLD: Papers = Papers::of(&[Paper::Packet, Paper::Register]);

impl Check<'_, '_, '_> {
    pub(super) fn profiles(&mut self) -> BTreeMap<String, Profile> {
        let all = self.all;
        let each = all.profile.members().filter_map(|(id, entry)| {
            let subject = Subject::Entry("profile", id.to_owned());
            self.submittal_number(entry, &subject);
            self.dispositions_differ(entry, &subject);
            Some((id.to_owned(), entry.checked(id.to_owned(), stamp(entry))?))
        });
        each.collect()
    }

    /// The pattern of submittals' numbers: it names the number, and nothing that is not known.
    fn submittal_number(&mut self, entry: &ProfileEntry, subject: &Subject) {
        let Some(given) = entry.submittal_number.given() else { return };
        let pattern = given.value.as_str();
        let rest = PLACEHOLDERS.iter().fold(pattern.to_owned(), |rest, known| rest.replace(known, ""));
        if rest.contains(['{', '}']) || !pattern.contains("{number}") {
            let finding = Finding::new(&codes::SUBMITTAL_NUMBER, subject.clone())
                .at(given.place.clone())
                .blocking(TOLD)
                .found(pattern)
                .asked("{section} and {number}, and no other words in braces");
            self.reader.push(finding.type_at(given.place.clone(), self.reader.as_typed(&given.place, USUAL_NUMBER)));
        }
    }

    /// Dispositions have words of their own each.
    fn dispositions_differ(&mut self, entry: &ProfileEntry, subject: &Subject) {
        let mut seen: BTreeMap<&str, &Place> = BTreeMap::new();
        for given in entry.disposition.list().iter().filter_map(|it| it.word.given()) {
            if let Some(first) = seen.insert(given.value.as_str(), &given.place) {
                let finding = Finding::new(&codes::DISPOSITION_TWICE, subject.clone())
                    .at(given.place.clone())
                    .near(first.clone(), "first here")
                    .blocking(TOLD)
                    .found(given.value.as_str());
                self.reader.push(finding.advise("keep one, with what it means to the owner"));
            }
        }
    }
}

/// The area for a stamp: as high as it is wide where no height is given.
fn stamp(entry: &ProfileEntry) -> Option<(Length, Length)> {
    let width = *entry.stamp_width.get()?;
    Some((width, entry.stamp_height.cloned().unwrap_or(width)))
}
