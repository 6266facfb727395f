//! Paragraphs of the specification.
//!
//! In: their records. Out: checked, in file order. May not know: whether any is met.

use std::collections::BTreeMap;

use super::{Check, words};
use crate::findings::{Finding, Place, Subject};
use crate::input::{Slot, Text};
use crate::job::codes;
use crate::job::specification_entries::*;

impl Check<'_, '_, '_> {
    pub(super) fn paragraphs(&mut self) -> Vec<Paragraph> {
        let typed = self.typed;
        let own = typed.entry.job.get().and_then(|head| words(&head.section)).unwrap_or_default();
        let paragraphs: Vec<Paragraph> =
            typed.paragraphs.iter().filter_map(|entry| self.paragraph(entry, &own)).collect();
        self.paragraphs_differ(&paragraphs);
        paragraphs
    }

    /// Reports a paragraph that was answered before.
    fn paragraphs_differ(&mut self, paragraphs: &[Paragraph]) {
        let mut seen: BTreeMap<String, &Place> = BTreeMap::new();
        for it in paragraphs {
            if let Some(first) = seen.insert(it.name(), &it.place) {
                let finding = Finding::new(&codes::DUPLICATE_NUMBER, Subject::Entry("paragraph", it.name()))
                    .at(it.place.clone())
                    .near(first.clone(), "first numbered here")
                    .found(it.name())
                    .asked("a number of its own for each paragraph");
                self.reader.push(finding.advise("give one of the two another number, or put them together"));
            }
        }
    }

    fn paragraph(&mut self, entry: &ParagraphEntry, own: &str) -> Option<Paragraph> {
        let section = words(&entry.section).unwrap_or_else(|| own.to_owned());
        let name = format!("{section} {}", entry.number.get()?.as_str());
        let subject = Subject::Entry("paragraph", name.trim().to_owned());
        let answer = self.paragraph_answer(entry, entry.written_at.as_ref()?, &subject)?;
        entry.checked(section, answer, statement(entry))
    }

    /// The answer by hand, or the condition: one of the two.
    fn paragraph_answer(&mut self, entry: &ParagraphEntry, place: &Place, subject: &Subject) -> Option<Answer> {
        if entry.answer.is_bad() || entry.per.is_bad() || entry.holds.is_bad() {
            return None;
        }
        let reported = |found: &str, advice: &str| {
            let finding = Finding::new(&codes::PARAGRAPH_ANSWER, subject.clone()).at(place.clone()).found(found);
            finding.advise(advice)
        };
        let refused = match (entry.answer.get(), entry.per.get(), entry.holds.given()) {
            (Some(ParagraphAnswer::Complies), None, None) => return Some(Answer::Complies),
            (Some(ParagraphAnswer::Deviates), None, None) => return Some(Answer::Deviates),
            (Some(ParagraphAnswer::NotApplicable), None, None) => match words(&entry.because) {
                Some(reason) => return Some(Answer::NotApplicable(reason)),
                None if entry.because.is_bad() => return None,
                None => reported(
                    "`not applicable` without a reason",
                    "add because = \"…\", why it does not apply to this work",
                ),
            },
            (None, Some(per), Some(holds)) if tried_on(*per) => {
                return Some(Answer::Tried { per: *per, holds: holds.clone() });
            }
            (None, Some(per), Some(_)) => reported(
                &format!("a condition over `{per}`, which a specification cannot use"),
                "use what is on the site, such as per = \"opening\"",
            ),
            (None, Some(_), None) => {
                reported("`per` without a condition", "add holds = \"…\", the condition that is true where it is met")
            }
            (None, None, Some(_)) => {
                reported("a condition over nothing", "add per = \"opening\", or what else it is checked on")
            }
            (None, None, None) => {
                reported("no answer", "write answer = \"complies\", or per = \"opening\" and holds = \"…\"")
            }
            (Some(_), _, _) => reported("an answer by hand and a condition", "keep the answer, or the condition"),
        };
        self.reader.push(refused);
        None
    }
}

/// What is stated where a paragraph is not met: what is offered and why.
fn statement(entry: &ParagraphEntry) -> Option<Deviation> {
    let or_none = |slot: &Slot<Text>| words(slot).unwrap_or_else(|| "none".to_owned());
    Some(Deviation {
        offers: words(&entry.offers)?,
        because: words(&entry.because)?,
        cost: or_none(&entry.cost),
        time: or_none(&entry.time),
        trades: or_none(&entry.trades),
    })
}
