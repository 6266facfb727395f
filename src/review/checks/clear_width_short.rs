//! An opening that leaves less clear width than an edition asks.
//!
//! In: an opening. Out: `clear-width-short`. May not know: what the owner may do to the frame.

use super::{Check, CheckScope, LeafContext, OpeningContext};
use crate::catalog::ClauseOf;
use crate::engineering::clear_width_at_90;
use crate::findings::{Code, Findings, Papers, Place, Severity};
use crate::job::Hanging;
use crate::measure::Length;
use crate::review::editions::CitedClause;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// An opening with too little clear width.
pub static CODE: Code = Code {
    id: "clear-width-short",
    severity: Severity::Warning,
    says: "clear width {found}; required: {asked}",
    why: "A wheelchair user must pass with the power on and off. An existing doorway that is too narrow does not hold the bid; the bid lists it.",
    example: "rules = [\"ada-2010\"]\nleaf = { width = \"2 ft 10 in\" }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    if !opening.is_powered() {
        return;
    }
    let short = opening.asked(ClauseOf::ClearWidth).into_iter().filter_map(|asked| {
        let (width, place, words) = clear_width(opening, asked.edition.one_leaf)?;
        let least = least(opening, &asked)?;
        (width < least).then_some((least - width, asked, least, place, words))
    });
    let Some((missing, asked, least, place, words)) = short.max_by_key(|it| it.0) else { return };
    let finding =
        CHECK.finding(opening.subject()).at(place).found(words).asked(format!("{} clear", opening.inches(least)));
    let finding = finding.margin(format!("{} short", opening.inches(missing))).clause(asked.cite());
    findings.push(finding.advise(
        "measure it with the leaf at 90 degrees and write access = { clear_width = \"…\" }, or widen the opening",
    ));
}

/// What an edition asks: more for an opening that is deep.
fn least(opening: &OpeningContext, asked: &CitedClause) -> Option<Length> {
    let depth = opening.opening.entry.frame.get().and_then(|frame| frame.depth.get().copied()).unwrap_or_default();
    let deep = asked.edition.clauses.iter().find(|it| it.of == ClauseOf::DeepClearWidth);
    let deep = deep.filter(|it| it.depth.is_some_and(|least| depth > least));
    deep.and_then(|it| it.least).or(asked.clause.least)
}

/// Clear width as measured, or as it follows from the powered leaves: one of them, or all that open.
fn clear_width(opening: &OpeningContext, one_leaf: bool) -> Option<(Length, Place, String)> {
    let measured = opening.opening.entry.access.get().and_then(|access| access.clear_width.given());
    if let Some(given) = measured.filter(|_| !one_leaf || opening.opening.leaves.len() == 1) {
        let words = format!("{}, as measured", opening.inches(given.value));
        return Some((given.value, given.place.clone(), words));
    }
    let of_leaf = |leaf: LeafContext| {
        let edge = matches!(leaf.entry.hangs.get()?, Hanging::Butt | Hanging::Continuous | Hanging::OffsetPivot);
        let width = leaf.entry.width.get().filter(|_| edge)?;
        Some(clear_width_at_90(*width, *leaf.entry.thickness.get()?))
    };
    let widths: Vec<Length> = opening.powered().map(of_leaf).collect::<Option<_>>()?;
    let width = if one_leaf { widths.into_iter().max()? } else { widths.into_iter().sum() };
    let place = opening.powered().next()?.entry.width.place()?.clone();
    Some((width, place, format!("about {}, from leaf width", opening.inches(width))))
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::under;

    /// ADA 2010 404.2.3 and 404.3.1 (read): 32 in; a 2 ft 10 in leaf leaves 31 1/2 in (common practice, no source).
    #[test]
    fn a_three_foot_leaf_passes_and_a_narrower_one_does_not() {
        under("ada-2010", "").passes(&CHECK);
        let (finding, at) = under("ada-2010", "leaf = { width = \"2 ft 10 in\" }").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("\"2 ft 10 in\"", Some("1/2 in short")));
        assert_eq!(finding.clause.as_deref(), Some("ADA 2010 404.2.3, 404.3.1"));
        under("", "leaf = { width = \"2 ft 10 in\" }").passes(&CHECK);
    }

    #[test]
    fn what_was_measured_stands_above_what_follows_from_the_leaf() {
        let measured = |width: &str| {
            under("ada-2010", &format!("leaf = {{ width = \"2 ft 10 in\" }}\naccess = {{ clear_width = \"{width}\" }}"))
        };
        measured("32 in").passes(&CHECK);
        assert_eq!(measured("31 in").one(&CHECK).0.found, "31 in, as measured");
        under("ada-2010", "frame = { depth = \"26 in\" }\naccess = { clear_width = \"35 in\" }").one(&CHECK);
    }

    /// Federal: all leaves that open; California 11B-404.3.1 (read): one of them.
    #[test]
    fn a_pair_counts_both_leaves_or_one() {
        let pair =
            "leaf = [{ width = \"2 ft 6 in\", hinges = \"left\" }, { width = \"2 ft 6 in\", hinges = \"right\" }]";
        under("ada-2010", pair).passes(&CHECK);
        let (finding, _) = under("cbc-2022", pair).one(&CHECK);
        assert_eq!(finding.clause.as_deref(), Some("CBC 2022 11B-404.3.1"));
    }
}
