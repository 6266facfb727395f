//! Sections, submittals, and what was sent of them.
//!
//! In: their records, the owner's dispositions. Out: checked, in file order. May not know: what was taken off.

use std::collections::BTreeMap;

use super::{Check, words};
use crate::catalog::{Disposition, Group, Profile};
use crate::findings::{Code, Finding, Place, Subject};
use crate::input::{Slot, nearest};
use crate::job::codes;
use crate::job::submittal_entries::*;

/// What a job says of submittals.
pub(super) struct Submitted {
    pub sections: Vec<Section>,
    pub submittals: Vec<Submittal>,
    pub transmittals: Vec<Transmittal>,
    pub transmittals_unread: Vec<Option<String>>,
}

/// Where each was written first, to tell when another is like it.
type FirstSeen<K> = BTreeMap<K, Place>;

impl Check<'_, '_, '_> {
    pub(super) fn submitted(&mut self) -> Submitted {
        let sections = self.sections();
        let submittals = self.submittals();
        let transmittals_unread = self.transmittals_unread();
        let transmittals = self.transmittals();
        self.sent_in_order(&submittals, &transmittals);
        Submitted { sections, submittals, transmittals, transmittals_unread }
    }

    /// Reports what stands twice.
    fn twice<K: Ord>(&mut self, seen: &mut FirstSeen<K>, key: K, place: &Place, reported: impl FnOnce() -> Finding) {
        match seen.get(&key) {
            Some(first) => self.reader.push(reported().at(place.clone()).near(first.clone(), "first here")),
            None => drop(seen.insert(key, place.clone())),
        }
    }

    fn sections(&mut self) -> Vec<Section> {
        let typed = self.typed;
        let (mut numbers, mut groups) = (FirstSeen::<String>::new(), FirstSeen::<Group>::new());
        let mut sections = Vec::new();
        for entry in typed.entry.section.list() {
            let Some(number) = entry.number.given() else { continue };
            let subject = Subject::Entry("section", number.value.to_string());
            self.twice(&mut numbers, number.value.to_string(), &number.place, || {
                let finding = Finding::new(&codes::SECTION_TWICE, subject.clone()).found(number.value.as_str());
                finding.advise("keep one, with the groups of both")
            });
            self.groups(entry, &mut groups, &subject);
            sections.extend(entry.checked());
        }
        sections
    }

    fn groups(&mut self, entry: &SectionEntry, seen: &mut FirstSeen<Group>, subject: &Subject) {
        let Some(given) = entry.groups.given() else { return };
        for group in &given.value {
            self.twice(seen, *group, &given.place, || {
                let finding = Finding::new(&codes::GROUP_TWICE, subject.clone()).found(group.word());
                finding.advise("leave the group in the section that the project manual has it in")
            });
        }
    }

    fn submittals(&mut self) -> Vec<Submittal> {
        let typed = self.typed;
        let (mut ids, mut parts) = (FirstSeen::<String>::new(), FirstSeen::<SubmittalPart>::new());
        let mut submittals = Vec::new();
        let list = typed.entry.submittal.list();
        self.section_named(list);
        self.rings(list);
        for entry in list {
            let Some(id) = entry.id.given() else { continue };
            let subject = Subject::Entry("submittal", id.value.to_string());
            self.twice(&mut ids, id.value.to_string(), &id.place, || {
                let finding = Finding::new(&codes::SUBMITTAL_TWICE, subject.clone()).found(id.value.as_str());
                finding.advise("give one of the two another id")
            });
            for (part, place) in each(&entry.parts) {
                self.twice(&mut parts, part, place, || {
                    let finding = Finding::new(&codes::PART_TWICE, subject.clone()).found(part.word());
                    finding.advise("leave it in one of the two")
                });
            }
            submittals.extend(entry.checked());
        }
        submittals
    }

    /// A submittal is sent under the job's section, so the job must name one.
    fn section_named(&mut self, submittals: &[SubmittalEntry]) {
        let named = self.typed.entry.job.get().is_none_or(|job| !job.section.is_absent());
        if let (false, Some(place)) = (named, submittals.first().and_then(|it| it.written_at.clone())) {
            let finding = Finding::new(&codes::NO_SECTION, Subject::Job).at(place);
            self.reader.push(finding.advise("add to [job], such as section = \"08 71 13\""));
        }
    }

    /// Reports submittals that wait for each other, each ring once, at its first.
    fn rings(&mut self, submittals: &[SubmittalEntry]) {
        let waits: Vec<(&str, &str, &Place)> = submittals
            .iter()
            .filter_map(|it| Some((it.id.get()?.as_str(), it.after.get()?.as_str(), it.after.place()?)))
            .collect();
        let next = |id: &str| waits.iter().find(|(own, ..)| *own == id).map(|(_, after, _)| *after);
        let mut reported: Vec<&str> = Vec::new();
        for (id, _, place) in &waits {
            let mut ring = vec![*id];
            while let Some(after) = ring.last().and_then(|last| next(last)) {
                if after == *id || ring.contains(&after) {
                    break;
                }
                ring.push(after);
            }
            let closes = ring.last().and_then(|last| next(last)) == Some(*id);
            if closes && !reported.contains(id) {
                let found = format!("{}, then {id} again", ring.join(", "));
                let subject = Subject::Entry("submittal", (*id).to_owned());
                let finding = Finding::new(&codes::SUBMITTAL_RING, subject).at((*place).clone()).found(found);
                self.reader.push(finding.advise("leave `after` out of the one that is sent first"));
                reported.extend(ring);
            }
        }
    }

    /// Of every transmittal that cannot be read the submittal whose id is nearest to the one that was typed.
    fn transmittals_unread(&self) -> Vec<Option<String>> {
        let known = &self.typed.entry;
        if known.transmittal.is_bad() {
            return vec![None];
        }
        let ids: Vec<String> = known.submittal.list().iter().filter_map(|it| it.id.value()).collect();
        let is_unread = |it: &TransmittalEntry| it.submittal.is_bad() || it.section.is_bad() || it.number.is_bad();
        let unread = self.sent.iter().zip(known.transmittal.list()).filter(|(_, known)| is_unread(known));
        let of = |entry: &TransmittalEntry| {
            let typed = entry.submittal.get()?;
            nearest(typed.as_str(), ids.iter().map(String::as_str)).map(str::to_owned)
        };
        unread.map(|(typed, _)| of(typed)).collect()
    }

    fn transmittals(&mut self) -> Vec<Transmittal> {
        let (sent, typed) = (std::mem::take(&mut self.sent), self.typed);
        let (mut numbers, mut things) = (FirstSeen::<(String, String)>::new(), FirstSeen::<(String, String)>::new());
        let mut transmittals = Vec::new();
        for (entry, known) in sent.iter().zip(typed.entry.transmittal.list()) {
            let (Some(submittal), Some(section), Some(number)) =
                (entry.submittal.given(), entry.section.given(), entry.number.given())
            else {
                continue;
            };
            let [of, under, no] = [&*submittal.value, &*section.value, &*number.value].map(str::to_owned);
            let subject = Subject::Entry("transmittal", format!("{under}-{no}"));
            self.twice(&mut numbers, (under.clone(), no.clone()), &number.place, || {
                let finding = Finding::new(&codes::TRANSMITTAL_NUMBER_TWICE, subject.clone());
                finding.found(no.as_str()).asked(under.as_str()).advise("give one of the two the next number")
            });
            self.twice(&mut things, (of.clone(), under.clone()), &submittal.place, || {
                let finding = Finding::new(&codes::TWO_TRANSMITTALS, subject.clone());
                let finding = finding.found(of.as_str()).asked(under.as_str());
                finding.advise("put the second among the rounds of the first, if it was sent again")
            });
            let rounds = self.rounds(entry, &subject);
            transmittals.extend(known.checked(rounds));
        }
        transmittals
    }

    fn rounds(&mut self, entry: &TransmittalEntry, subject: &Subject) -> Vec<Round> {
        let list = entry.round.list();
        self.days_in_order(list, subject);
        self.days_to_come(list, subject);
        let last = list.len().saturating_sub(1);
        let each = list.iter().enumerate().filter_map(|(at, round)| {
            let answer = self.answer(round, at == last, subject);
            round.checked(answer)
        });
        each.collect()
    }

    /// Every day of a transmittal comes after the one before it, or on the same day.
    fn days_in_order(&mut self, rounds: &[RoundEntry], subject: &Subject) {
        let days = rounds.iter().flat_map(|round| [("sent", &round.sent), ("back", &round.back)]);
        let days: Vec<_> = days.filter_map(|(what, slot)| Some((what, slot.given()?))).collect();
        for pair in days.windows(2) {
            let [(before, first), (after, second)] = [(pair[0].0, pair[0].1), (pair[1].0, pair[1].1)];
            if second.value < first.value {
                let finding = Finding::new(&codes::ROUND_DAYS, subject.clone())
                    .at(second.place.clone())
                    .near(first.place.clone(), "the day before it")
                    .found(format!("{after} {}", second.value))
                    .asked(format!("{before} {}", first.value));
                self.reader.push(finding.advise("write the dates in their order"));
            }
        }
    }

    /// A day after that of the papers has not come yet when they are read: each round is told once, at the first such day.
    fn days_to_come(&mut self, rounds: &[RoundEntry], subject: &Subject) {
        let Some(papers) = self.typed.entry.job.get().and_then(|job| job.date.given()) else { return };
        for round in rounds {
            let days = [("sent", &round.sent), ("back", &round.back)];
            let ahead = days.into_iter().filter_map(|(what, slot)| Some((what, slot.given()?)));
            let Some((what, day)) = ahead.into_iter().find(|(_, day)| day.value > papers.value) else { continue };
            let finding = Finding::new(&codes::ROUND_AHEAD, subject.clone())
                .at(day.place.clone())
                .near(papers.place.clone(), "date of the papers")
                .found(format!("{what} {}", day.value))
                .asked(papers.value.to_string());
            let advice = format!("correct the day, or date the papers {} or later in [job]", day.value);
            self.reader.push(finding.advise(advice));
        }
    }

    fn answer(&mut self, round: &RoundEntry, last: bool, subject: &Subject) -> Option<ReviewAnswer> {
        let half = match (&round.back, &round.disposition) {
            (Slot::Given(back), Slot::Absent) => Some(("back", "disposition", &back.place)),
            (Slot::Absent, Slot::Given(put)) => Some(("disposition", "back", &put.place)),
            (Slot::Absent, Slot::Absent) if !last => {
                let finding = Finding::new(&codes::ROUND_UNANSWERED, subject.clone()).at(round.written_at.clone()?);
                let dispositions = self.dispositions();
                self.reader.push(finding.advise(format!("add back = …, disposition = {}", known(dispositions))));
                return None;
            }
            _ => None,
        };
        if let Some((has, lacks, place)) = half {
            let finding =
                Finding::new(&codes::ROUND_HALF_ANSWERED, subject.clone()).at(place.clone()).found(has).asked(lacks);
            self.reader.push(finding.advise(match lacks {
                "back" => "add back = … , the day it came back".to_owned(),
                _ => format!("add disposition = {}", known(self.dispositions())),
            }));
        }
        let disposition = self.disposition(round, subject)?;
        let by = words(&round.by);
        let notes: Vec<&str> = round.note.get().into_iter().chain(round.notes.list()).map(|it| it.as_str()).collect();
        let note = (!notes.is_empty()).then(|| notes.join("; "));
        Some(ReviewAnswer { back: round.back.cloned()?, disposition, by, note })
    }

    /// The dispositions of the job's owner; none where his profile is not known, which was told.
    fn dispositions(&self) -> Option<&[Disposition]> {
        let id = self.typed.entry.job.get()?.profile.get()?;
        let profile: &Profile = self.catalog.profiles.get(id.as_str())?;
        Some(&profile.dispositions)
    }

    fn disposition(&mut self, round: &RoundEntry, subject: &Subject) -> Option<Disposition> {
        let given = round.disposition.given()?;
        let all = self.dispositions()?;
        let found = all.iter().find(|it| it.word == given.value.as_str()).cloned();
        if found.is_none() {
            let words: Vec<String> = all.iter().map(|it| it.word.clone()).collect();
            let known = words.iter().map(String::as_str);
            let code: &'static Code = &codes::UNKNOWN_DISPOSITION;
            match words.is_empty() {
                false => self.unknown(code, subject.clone(), &given.value, &given.place, known),
                true => {
                    let line = "[[profile.….disposition]], word = \"…\", means = \"approved\"";
                    let finding = Finding::new(code, subject.clone()).at(given.place.clone());
                    let finding = finding.found(given.value.as_str()).asked("no such entry");
                    self.reader.push(finding.advise(format!("add to the owner's profile in the catalog {line}")));
                }
            }
        }
        found
    }

    /// A submittal that waits for another is not sent before that one came back approved under the job's section.
    fn sent_in_order(&mut self, submittals: &[Submittal], transmittals: &[Transmittal]) {
        for transmittal in transmittals {
            let waits = submittals.iter().find(|it| it.id == transmittal.submittal).and_then(|it| it.after.as_ref());
            let Some(after) = waits else { continue };
            let first = transmittals.iter().filter(|it| &it.submittal == after);
            let first = first.max_by_key(|it| it.section == transmittal.section);
            let approved = first.and_then(|it| it.approval(None).approved);
            let day = approved.and_then(|it| Some(it.round.answer.as_ref()?.back));
            let early = transmittal.rounds.iter().find(|it| day.is_none_or(|day| it.sent < day));
            if let Some(round) = early {
                let asked = match day {
                    Some(day) => format!("`{after}` came back approved on {day}"),
                    None => format!("`{after}` is approved"),
                };
                let subject = Subject::Entry("transmittal", format!("{}-{}", transmittal.section, transmittal.number));
                let finding = Finding::new(&codes::SENT_TOO_EARLY, subject).at(round.place.clone());
                let finding = finding.found(round.sent.to_string()).asked(asked);
                self.reader.push(finding.advise("correct the date, or explain to the reviewer why it is sent first"));
            }
        }
    }
}

/// The members of a list, with where the list stands.
fn each<T: Copy>(slot: &Slot<Vec<T>>) -> impl Iterator<Item = (T, &Place)> {
    slot.given().into_iter().flat_map(|given| given.value.iter().map(move |it| (*it, &given.place)))
}

/// Dispositions to choose from, as typed.
fn known(dispositions: Option<&[Disposition]>) -> String {
    let words: Vec<String> = dispositions.unwrap_or_default().iter().map(|it| format!("\"{}\"", it.word)).collect();
    if words.is_empty() { "…".to_owned() } else { words.join(" or ") }
}
