//! A device that opens a leaf which the opening does not have.
//!
//! In: an opening. Out: `device-leaf-unknown`. May not know: which leaf was meant.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::findings::{Code, Findings, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A device of a leaf that is not there.
pub static CODE: Code = Code {
    id: "device-leaf-unknown",
    severity: Severity::Error,
    says: "a device opens leaf {found}; the opening has {asked}",
    why: "A device is wired to the drive of its leaf; this leaf does not exist.",
    example: "leaf = [{ hinges = \"left\" }, { hinges = \"right\" }]\ndevice = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", leaf = 3 }]",
    blocks: OPENING_PAPERS,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let leaves = opening.opening.leaves.len();
    if leaves == 0 {
        return;
    }
    for given in opening.opening.entry.device.list().iter().filter_map(|device| device.leaf.given()) {
        let number = given.value.get() as usize;
        if (1..=leaves).contains(&number) {
            continue;
        }
        let asked = if leaves == 1 { "one leaf".to_owned() } else { format!("leaves 1 to {leaves}") };
        let finding = CHECK.finding(opening.subject()).at(given.place.clone()).found(number.to_string()).asked(asked);
        findings.push(match leaves {
            1 => finding.type_at(given.place.clone(), "1"),
            _ => finding.advise(format!("write a number from 1 to {leaves}, or omit `leaf` for all powered leaves")),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, with};

    fn plate(leaf: &str) -> Fixture {
        with(&format!(r#"device = [{{ kind = "push plate", side = "outside", mount = "wall"{leaf} }}]"#))
    }

    const PAIR: &str = r#"leaf = [{ hinges = "left" }, { hinges = "right" }]"#;

    #[test]
    fn a_leaf_that_is_there_passes() {
        plate("").passes(&CHECK);
        plate(", leaf = 1").passes(&CHECK);
        plate(", leaf = 2").and(PAIR).passes(&CHECK);
    }

    #[test]
    fn a_leaf_that_is_not_there_is_reported() {
        let (finding, at) = plate(", leaf = 2").one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str(), remedy(&finding)), ("2", "one leaf", "1"));
        let (finding, at) = plate(", leaf = 3").and(PAIR).one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("3", "leaves 1 to 2"));
        plate(", leaf = 0").and(PAIR).one(&CHECK);
    }
}
