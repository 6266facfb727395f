//! A device that opens a leaf which no drive moves.
//!
//! In: an opening. Out: `device-leaf-unpowered`. May not know: what the device costs.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::findings::{Code, Findings, Severity};
use crate::review::access::device_words;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A device of an unpowered leaf.
pub static CODE: Code = Code {
    id: "device-leaf-unpowered",
    severity: Severity::Error,
    says: "the {found} opens leaf {asked}, which is not powered",
    why: "The device would be bought and wired without a function, or the leaf number is wrong.",
    example: "leaf = [{ powered = true }, { powered = false }]\ndevice = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", leaf = 2 }]",
    blocks: OPENING_PAPERS,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let powered: Vec<usize> = opening.powered().map(|leaf| leaf.number).collect();
    for device in opening.opening.entry.device.list() {
        let Some(of) = device.leaf.given() else { continue };
        let number = of.value.get() as usize;
        let Some(leaf) = opening.leaves().find(|leaf| leaf.number == number) else { continue };
        if leaf.powered() || leaf.entry.powered.is_bad() {
            continue;
        }
        let finding = CHECK
            .finding(opening.subject())
            .at(of.place.clone())
            .near(leaf.place(), format!("leaf {number}"))
            .found(device_words(device))
            .asked(number.to_string());
        findings.push(match powered.as_slice() {
            [only] => finding.type_at(of.place.clone(), only.to_string()),
            _ => finding.advise("write the number of a powered leaf, or power this one"),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, with};

    fn pair(leaf: usize) -> Fixture {
        let leaves = "leaf = [{ hinges = \"left\" }, { hinges = \"right\", powered = false }]";
        let device = format!(
            "device = [{{ id = \"P1\", kind = \"push plate\", side = \"outside\", mount = \"wall\", leaf = {leaf} }}]"
        );
        with(&format!("{leaves}\n{device}"))
    }

    #[test]
    fn a_device_opens_a_leaf_that_a_drive_moves() {
        pair(1).passes(&CHECK);
        // Leaf 3 is not there: another check's matter.
        pair(3).passes(&CHECK);
        let (finding, at) = pair(2).one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("2", "1"));
        assert_eq!(finding.found, "push plate P1");
    }
}
