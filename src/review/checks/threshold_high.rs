//! A threshold that a wheel does not get over.
//!
//! In: an opening. Out: `threshold-high`. May not know: whether it can be planed.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::findings::{Code, Findings, Papers, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A threshold above the limit.
pub static CODE: Code = Code {
    id: "threshold-high",
    severity: Severity::Warning,
    says: "threshold {found} high; {asked} maximum",
    why: "A high threshold stops small wheels and canes. An existing threshold may be higher where both sides are beveled.",
    example: "access = { threshold = \"3/4 in\" }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(access) = opening.opening.entry.access.get() else { return };
    let Some(threshold) = access.threshold.given() else { return };
    let old = access.existing.or(false) && access.beveled.or(false);
    let over = opening.asked(ClauseOf::Threshold).into_iter().filter_map(|asked| {
        let relaxed = asked.edition.clauses.iter().find(|it| old && it.of == ClauseOf::OldThreshold);
        let most = relaxed.unwrap_or(asked.clause).most?;
        (threshold.value > most).then_some((threshold.value - most, most, asked))
    });
    let Some((more, most, asked)) = over.max_by_key(|it| it.0) else { return };
    let finding = CHECK
        .finding(opening.subject())
        .at(threshold.place.clone())
        .found(opening.inches(threshold.value))
        .asked(opening.inches(most))
        .margin(format!("{} too high", opening.inches(more)))
        .clause(asked.cite());
    findings.push(
        finding.advise("change the threshold; where it is existing and beveled write existing = true, beveled = true"),
    );
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::under;

    /// ADA 2010 404.2.5 (read): 1/2 in; 3/4 in where it is there already and beveled.
    #[test]
    fn thresholds_new_and_old() {
        under("ada-2010", "access = { threshold = \"1/2 in\" }").passes(&CHECK);
        under("ada-2010", "access = { threshold = \"3/4 in\", existing = true, beveled = true }").passes(&CHECK);
        let (finding, at) = under("ada-2010", "access = { threshold = \"3/4 in\", existing = true }").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("\"3/4 in\"", Some("1/4 in too high")));
        under("ada-2010", "access = { threshold = \"7/8 in\", existing = true, beveled = true }").one(&CHECK);
    }
}
