//! Prices of the catalog that are older than the terms allow.
//!
//! In: job, catalog, ids of the items that the takeoff uses. Out: `price-old`. May not know: quantities.

use std::collections::BTreeSet;

use crate::catalog::Catalog;
use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::job::Job;

/// A price that is older than the terms allow.
pub static CODE: Code = Code {
    id: "price-old",
    severity: Severity::Warning,
    says: "the price of {found} is {asked} days old at the date of the papers",
    why: "An old price is a risk; confirm it by telephone or by a quote.",
    example: "[terms.standard]\nold_after_days = 120\n\n[item.header]\npriced = 2026-01-05",
    blocks: Papers::NONE,
};

/// Prices older than the terms allow, of the items that are used. A quote stands instead of the catalog's price, and has
/// a check of its own.
pub fn price_ages<'i>(job: &Job, catalog: &Catalog, used: impl Iterator<Item = &'i str>) -> Findings {
    let mut findings = Findings::default();
    let Some(terms) = catalog.terms.get(&job.head.terms) else { return findings };
    let used: BTreeSet<&str> = used.filter(|item| !job.quotes.contains_key(*item)).collect();
    for item in used.into_iter().filter_map(|id| catalog.items.get(id)) {
        let (Some(price), Some(priced)) = (item.price.given(), item.priced.get()) else { continue };
        let age = priced.days_to(job.head.date);
        let over = age - i64::from(terms.old_after_days);
        if over <= 0 {
            continue;
        }
        let finding = Finding::new(&CODE, Subject::Entry("item", item.id.clone()))
            .at(price.place.clone())
            .near(terms.place.clone(), format!("old after {} days", terms.old_after_days))
            .found(&*item.name)
            .asked(age.to_string())
            .margin(format!("{over} d"));
        findings.push(
            finding.advise(
                "ask the supplier, then write the price and its date in the catalog, or a [[quote]] in the job",
            ),
        );
    }
    findings
}

#[cfg(test)]
mod tests {
    use super::price_ages;
    use crate::review::fixtures::{Fixture, sound};

    fn ages(bench: &Fixture, used: &[&str]) -> Vec<(String, String)> {
        let (job, catalog) = bench.read();
        let findings = price_ages(&job, &catalog, used.iter().copied());
        findings.iter().map(|it| (it.found.clone(), it.margin.clone().unwrap_or_default())).collect()
    }

    #[test]
    fn a_price_of_the_last_allowed_day_passes() {
        // 120 days before 2026-12-08 is 2026-08-10.
        let bench = sound().catalog_but("priced = 2026-11-02", "priced = 2026-08-10");
        assert!(ages(&bench, &["header", "drive", "nothing"]).is_empty());
    }

    #[test]
    fn an_old_price_is_reported_once_and_only_where_used_and_not_quoted() {
        let bench = sound().catalog_but("priced = 2026-11-02", "priced = 2026-08-09");
        let reported = [("Header".to_owned(), "1 d".to_owned())];
        assert_eq!(ages(&bench, &["header", "header", "drive"]), reported);
        assert!(ages(&bench, &["drive"]).is_empty());
        let quote = "[[quote]]\nitem = \"header\"\nsupplier = \"Fenwick Supply\"\nprice = \"41.20\"\ndate = 2026-11-20\nvalid_to = 2027-03-01";
        assert!(ages(&bench.and(quote), &["header"]).is_empty());
    }
}
