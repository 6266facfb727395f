//! Owners: how they number, and what their reviewers answer.
//!
//! In: their records. Out: checked, by id. May not know: any job.

use std::collections::BTreeMap;

use super::{Check, words};
use crate::catalog::codes;
use crate::catalog::model::{Disposition, Profile};
use crate::catalog::{Again, ProfileEntry};
use crate::findings::{Finding, Paper, Papers, Place, Subject};
use crate::measure::Length;

/// What a number of a submittal may be made of.
const PLACEHOLDERS: [&str; 2] = ["{section}", "{number}"];

/// How submittals are numbered where the owner does not say.
const USUAL_NUMBER: &str = "{section}-{number}";

/// The papers that tell what was submitted.
const TOLD: Papers = Papers::of(&[Paper::Packet, Paper::Register]);

impl Check<'_, '_, '_> {
    pub(super) fn profiles(&mut self) -> BTreeMap<String, Profile> {
        let all = self.all;
        let each = all.profile.members().filter_map(|(id, entry)| {
            let subject = Subject::Entry("profile", id.to_owned());
            let number = self.submittal_number(entry, &subject);
            let dispositions = self.dispositions(entry, &subject);
            Some((id.to_owned(), profile(id, entry, number, dispositions)?))
        });
        each.collect()
    }

    /// The pattern of submittals' numbers: it names the number, and nothing that is not known.
    fn submittal_number(&mut self, entry: &ProfileEntry, subject: &Subject) -> String {
        let Some(given) = entry.submittal_number.given() else { return USUAL_NUMBER.to_owned() };
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
        pattern.to_owned()
    }

    /// Dispositions, each in words of its own.
    fn dispositions(&mut self, entry: &ProfileEntry, subject: &Subject) -> Vec<Disposition> {
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
        let each = entry.disposition.list().iter();
        each.filter_map(|it| Some(Disposition { word: words(&it.word)?, means: it.means.cloned()? })).collect()
    }
}

/// The area for a stamp: as high as it is wide where no height is given.
fn stamp(entry: &ProfileEntry) -> Option<(Length, Length)> {
    let width = *entry.stamp_width.get()?;
    Some((width, entry.stamp_height.cloned().unwrap_or(width)))
}

fn profile(
    id: &str,
    entry: &ProfileEntry,
    submittal_number: String,
    dispositions: Vec<Disposition>,
) -> Option<Profile> {
    Some(Profile {
        id: id.to_owned(),
        name: words(&entry.name)?,
        least_raceway: words(&entry.least_raceway).unwrap_or_else(|| "1/2".to_owned()),
        review_days: entry.review_days.get().map(|it| it.get()),
        circuits: words(&entry.circuits).unwrap_or_else(|| "per header".to_owned()),
        shared_amps: entry.shared_amps.cloned(),
        warranty_months: entry.warranty_months.get().map(|it| it.get()),
        retainage: entry.retainage.cloned(),
        set_order: entry.set_order.list().to_vec(),
        tax_exempt: entry.tax_exempt.or(false),
        label: words(&entry.label),
        bond: entry.bond.or(false),
        stamp: stamp(entry),
        proofs: entry.proofs.list().to_vec(),
        copies: entry.copies.get().map(|it| it.get()),
        warranty_starts: words(&entry.warranty_starts),
        keying: words(&entry.keying),
        submittal_number,
        again: entry.again.or(Again::Decimal),
        dispositions,
        place: entry.written_at.clone()?,
    })
}
