//! A quote that ends before the bid does.
//!
//! In: a job. Out: `quote-expired`. May not know: whether the item is used.

use super::{Check, CheckScope};
use crate::catalog::Catalog;
use crate::findings::{Code, Findings, Papers, Severity, Subject};
use crate::job::Job;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Job(look) };

/// A quote that does not hold as long as the bid.
pub static CODE: Code = Code {
    id: "quote-expired",
    severity: Severity::Warning,
    says: "quote valid until {found}; bid valid until {asked}",
    why: "If the bid is accepted on its last day, its price is binding, but the supplier's quote has expired.",
    example: "[job]\ndate = 2026-12-08\nvalid_days = 60\n\n[[quote]]\nvalid_to = 2026-12-31",
    blocks: Papers::NONE,
};

fn look(job: &Job, _: &Catalog, findings: &mut Findings) {
    let head = &job.head;
    let Some(until) = head.date.plus_days(i64::from(head.valid_days.unwrap_or(0))) else { return };
    for quote in job.quotes.values().filter(|quote| quote.valid_to < until) {
        let finding = CHECK
            .finding(Subject::Entry("quote", quote.item.clone()))
            .at(quote.valid_place.as_ref().unwrap_or(&quote.place).clone())
            .near(
                head.valid_place.as_ref().or(head.date_place.as_ref()).unwrap_or(&head.place).clone(),
                "bid acceptance period",
            )
            .found(quote.valid_to.to_string())
            .asked(until.to_string())
            .margin(format!("{} d", quote.valid_to.days_to(until)));
        findings.push(finding.advise("ask the supplier to extend the quote, and write the new valid_to"));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, sound};

    fn quoted(days: u32, valid_to: &str) -> Fixture {
        sound().but("[site.main]", &format!("valid_days = {days}\n[site.main]")).and(&format!(
            "[[quote]]\nitem = \"header\"\nsupplier = \"Fenwick Supply\"\nprice = \"41.20\"\ndate = 2026-11-20\nvalid_to = {valid_to}"
        ))
    }

    #[test]
    fn a_quote_to_the_last_day_passes() {
        sound().passes(&CHECK);
        quoted(60, "2027-02-06").passes(&CHECK);
    }

    #[test]
    fn a_quote_that_ends_a_day_before_is_reported() {
        let (finding, at) = quoted(60, "2027-02-05").one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("2027-02-05", "2027-02-06"));
        assert_eq!(finding.margin.as_deref(), Some("1 d"));
    }
}
