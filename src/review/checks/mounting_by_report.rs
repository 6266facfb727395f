//! A header on something for which no public strength holds, or of which too little is known.
//!
//! In: a leaf. Out: `mounting-by-report`. May not know: reports of fasteners.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::mechanics::{NotCalculated, mounting};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A header that is checked on site.
pub static CODE: Code = Code {
    id: "mounting-by-report",
    severity: Severity::FieldVerify,
    says: "header: {found}; check {asked} before drilling",
    why: "Inserts and anchors in masonry and concrete have no general value; embedment, edge distance and base material decide.",
    example: "frame = { fixed_to = \"masonry\" }",
    blocks: Papers::NONE,
};

/// Common practice, no source. Told once for an opening.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    if leaf.of.powered().next().is_some_and(|first| first.number != leaf.number) {
        return;
    }
    let Some(held) = mounting(leaf.of.opening, leaf.entry, operator, leaf.of.catalog) else { return };
    let Err(why) = held.result else { return };
    let fixed = leaf.of.opening.entry.frame.get().map(|it| &it.fixed_to);
    let under = leaf.of.opening.entry.access.get().and_then(|it| it.under_header.place());
    let into = fixed.and_then(|it| it.get()).map_or("", |it| it.word());
    let name = held.fastener.map_or_else(|| "its fasteners".to_owned(), |it| it.name.clone());
    let (found, asked) = match why {
        NotCalculated::ByReport => {
            let source = held.fastener.map_or_else(String::new, |it| it.source.clone());
            (format!("{name} in {into}"), source)
        }
        NotCalculated::StudsUnknown => (format!("{name}, stud thickness not known"), "stud thickness".to_owned()),
        NotCalculated::NoFastener => (format!("no fastener for {into}"), "the anchor's evaluation report".to_owned()),
        NotCalculated::NoData => (format!("{name}, dimensions not known"), "the anchor's evaluation report".to_owned()),
        NotCalculated::StudsApart => {
            ("stud spacing too wide for two studs behind a plate".to_owned(), "backing between them".to_owned())
        }
        NotCalculated::Dropped(_) => {
            ("below the head, on a drop plate".to_owned(), "the fastening of that plate".to_owned())
        }
    };
    let typed = match why {
        NotCalculated::Dropped(_) => under,
        _ => fixed.and_then(|it| it.place()),
    };
    let finding = CHECK.finding(leaf.of.subject()).at(leaf.of.place_or_own(typed)).found(found).asked(asked);
    findings.push(
        finding
            .price("no backing plate for it is in the bid")
            .advise("look up the value for this base material and embedment; record it on the packet"),
    );
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with_fasteners};

    #[test]
    fn wood_is_calculated_and_masonry_is_looked_up() {
        sound().passes(&CHECK);
        with_fasteners("").passes(&CHECK);
        let reported = |frame: &str| with_fasteners(&format!("frame = {{ {frame} }}")).one(&CHECK).0;
        let masonry = reported("fixed_to = \"masonry\"");
        assert_eq!((masonry.found.as_str(), masonry.asked.as_str()), ("anchor in masonry", "the anchor's report"));
        assert_eq!(reported("fixed_to = \"steel stud\"").asked, "stud thickness");
        assert_eq!(reported("fixed_to = \"concrete\"").found, "no fastener for concrete");
        let dropped = with_fasteners("access = { under_header = \"77 in\" }").one(&CHECK);
        assert_eq!((dropped.0.found.as_str(), dropped.1.as_str()), ("below the head, on a drop plate", "\"77 in\""));
    }
}
