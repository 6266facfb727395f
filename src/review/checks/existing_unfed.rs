//! A release that is there, stays and takes power of our supply, of which volts or amps are not known.
//!
//! In: an opening. Out: `existing-unfed`. May not know: supplies.

use super::release_unproven::releases;
use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::FedBy;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Hardware that takes our power, and how much is not known.
pub static CODE: Code = Code {
    id: "existing-unfed",
    severity: Severity::Warning,
    says: "{found} takes power of our supply; not known: {asked}",
    why: "A supply is sized by what it feeds. Without volts and amps of what is there it is not, and a strike of 12 V on 24 V burns out.",
    example: "leaf = { existing = [{ what = \"electric strike\", becomes = \"reuse\", fed_by = \"our supply\" }] }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    for (named, it) in releases(opening).into_iter().filter(|(_, it)| it.fed_by.get() == Some(&FedBy::Ours)) {
        let missing: Vec<&str> = [("volts", it.volts.is_absent()), ("amps", it.amps.is_absent())]
            .into_iter()
            .filter_map(|(key, absent)| absent.then_some(key))
            .collect();
        if missing.is_empty() {
            continue;
        }
        let place = opening.place_or_own(it.fed_by.place());
        let finding = CHECK.finding(opening.subject()).at(place).found(named).asked(missing.join(" and "));
        findings.push(finding.advise("read its label, and write volts and amps; or fed_by = \"its own supply\""));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    fn strike(more: &str) -> Fixture {
        with(&format!("rating = \"90 min\"\nleaf = {{ existing = [{{ what = \"electric strike\", {more} }}] }}"))
    }

    #[test]
    fn what_takes_our_power_says_how_much() {
        let ours = |more: &str| strike(&format!("becomes = \"reuse\", fed_by = \"our supply\"{more}"));
        strike("becomes = \"reuse\"").passes(&CHECK);
        ours(", volts = \"24 V\", amps = \"0.25 A\"").passes(&CHECK);
        assert_eq!(ours("").one(&CHECK).0.asked, "volts and amps");
        assert_eq!(ours(", volts = \"24 V\"").one(&CHECK).0.asked, "amps");
    }
}
