//! A part of one hand that a rule takes off for a drive at the other end of its header.
//!
//! In: a takeoff. Out: `wrong-end`. May not know: how a rule came to its result.

use super::CheckContext;
use crate::findings::{Code, Finding, Findings, Paper, Papers, Severity, Subject};
use crate::takeoff::{EntityRef, edge_word};

/// A part of the other hand.
pub static CODE: Code = Code {
    id: "wrong-end",
    severity: Severity::Error,
    says: "{found}, and the drive is at the {asked} end of its header",
    why: "A bracket of the other hand does not fit. It is found on the site, by a crew that waits for the right one.",
    example: "[item.bracket]\nend = \"left\"\nrule = [{ per = \"drive\", when = 'drive.end = \"right\"' }]",
    blocks: Papers::of(&[Paper::Bid, Paper::Recap, Paper::Schedule, Paper::Packet, Paper::Orders]),
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    for line in &seen.takeoff.lines {
        let item = seen.catalog.items.get(&*line.item);
        let Some((item, of)) = item.and_then(|item| Some((item, item.end?))) else { continue };
        let Some(at) = line.of.opening() else { continue };
        let work = &seen.takeoff.arrangement.openings[at];
        let served = work.drives.iter().enumerate().filter(|(drive, it)| match line.of {
            EntityRef::Drive(_, own) => *drive == own,
            EntityRef::Header(_, own) => it.header == own,
            EntityRef::Leaf(_, own) => it.leaf == own,
            _ => false,
        });
        let ends: Vec<&str> = served.filter_map(|(_, drive)| drive.end.map(edge_word)).collect();
        let Some(is) = ends.first().filter(|_| !ends.contains(&of.word())) else { continue };
        let rule = &seen.catalog.rules[line.rule];
        let finding = Finding::new(&CODE, Subject::Opening(work.opening.mark.clone()))
            .at(rule.place.clone())
            .near(item.place.clone(), format!("end {of}"))
            .found(format!("rule `{}` takes off {} for the {of} end", rule.id, item.name))
            .asked(*is);
        findings.push(finding.advise(format!("write drive.end = \"{of}\" in the condition of the rule")));
    }
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::takeoff::checks::fixtures;

    fn bracket(end: &str, when: &str) -> String {
        format!(
            "[item.bracket]\nname = \"Bracket\"\ngroup = \"bracket\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\n{end}rule = [{{ per = \"drive\", when = 'drive.end = \"{when}\"' }}]"
        )
    }

    /// The sound leaf hangs at the left and swings away under a push arm: the header is outside, its drive at the left.
    #[test]
    fn a_bracket_is_of_the_end_of_its_drive() {
        for (end, when) in [("end = \"left\"\n", "left"), ("end = \"right\"\n", "right"), ("", "left")] {
            assert!(fixtures::reported(&CODE, "", "", &bracket(end, when)).is_empty());
        }
        let found = fixtures::reported(&CODE, "", "", &bracket("end = \"right\"\n", "left"));
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].asked, "left");
        assert_eq!(found[0].found, "rule `bracket.1` takes off Bracket for the right end");
    }

    /// A carton of one hand that comes with a header or a leaf serves the drives there.
    #[test]
    fn so_is_a_carton_that_comes_with_a_header_or_a_leaf() {
        for per in ["header", "powered leaf"] {
            let carton = |end: &str| {
                bracket(&format!("end = \"{end}\"\n"), "left")
                    .replace("per = \"drive\", when = 'drive.end = \"left\"'", &format!("per = \"{per}\""))
            };
            assert!(fixtures::reported(&CODE, "", "", &carton("left")).is_empty());
            assert_eq!(fixtures::reported(&CODE, "", "", &carton("right")).len(), 1, "{per}");
        }
    }
}
