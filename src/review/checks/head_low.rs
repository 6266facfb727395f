//! A header that hangs too low over a way.
//!
//! In: an opening. Out: `head-low`. May not know: editions that let power operators hang lower, which are from memory.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::findings::{Code, Findings, Papers, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A header below the head room asked for.
pub static CODE: Code = Code {
    id: "head-low",
    severity: Severity::Warning,
    says: "headroom under the header {found}; required: {asked}",
    why: "A header is neither a closer nor a stop: the federal text requires 80 in of headroom, and only closers and stops may reduce it to 78 in. Recent model codes add power operators to the exception (from memory), so the local authority may accept it.",
    example: "access = { under_header = \"78 1/2 in\" }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let under = opening.opening.entry.access.get().and_then(|access| access.under_header.given());
    let Some(under) = under.filter(|_| opening.is_powered()) else { return };
    let low = opening.asked(ClauseOf::HeadRoom).into_iter().filter_map(|asked| {
        let least = asked.clause.least?;
        (under.value < least).then_some((least - under.value, least, asked))
    });
    let Some((missing, least, asked)) = low.max_by_key(|it| it.0) else { return };
    let closers = asked.edition.clauses.iter().find(|it| it.of == ClauseOf::CloserHeadRoom).and_then(|it| it.least);
    let exempt =
        closers.filter(|least| under.value >= *least).map_or("", |_| ", although a closer or stop would comply");
    let finding = CHECK
        .finding(opening.subject())
        .at(under.place.clone())
        .found(opening.inches(under.value))
        .asked(format!("{} or more{exempt}", opening.inches(least)))
        .margin(format!("{} too low", opening.inches(missing)))
        .clause(asked.cite());
    findings.push(
        finding.advise(
            "raise the header, move it to the other side, or ask the authority and accept this with its answer",
        ),
    );
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::under;

    /// ADA 2010 307.4 (read): 80 in; closers and stops 78 in. A header at 78 1/2 in fails, a closer there would pass.
    #[test]
    fn a_header_is_not_a_closer() {
        under("ada-2010", "access = { under_header = \"80 in\" }").passes(&CHECK);
        let (finding, at) = under("ada-2010", "access = { under_header = \"78 1/2 in\" }").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("\"78 1/2 in\"", Some("1 1/2 in too low")));
        assert!(finding.asked.contains("a closer or stop would comply"), "{}", finding.asked);
        assert!(!under("ada-2010", "access = { under_header = \"77 in\" }").one(&CHECK).0.asked.contains("closer"));
    }
}
