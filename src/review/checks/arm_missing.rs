//! A powered leaf of which nobody says by which arm.
//!
//! In: a leaf. Out: `arm-missing`. May not know: which side the room allows.

use super::{Check, CheckScope, LeafContext, OPENING_PAPERS};
use crate::findings::{Code, Findings, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A powered leaf without an arm.
pub static CODE: Code = Code {
    id: "arm-missing",
    severity: Severity::Error,
    says: "{found} is powered, and no arm is given",
    why: "The arm decides the mounting side of the operator, and header, supply end and bracket depend on it; \
          without it nothing can be ordered or priced.",
    example: "leaf = { powered = true }   # and no arm",
    blocks: OPENING_PAPERS,
};

fn look(leaf: &LeafContext, findings: &mut Findings) {
    let arm = &leaf.entry.arm;
    if !leaf.powered() || arm.is_bad() || arm.get().is_some() {
        return;
    }
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(arm.place().cloned().unwrap_or_else(|| leaf.place()))
        .found(format!("leaf {}", leaf.number))
        .asked("push arm or pull arm");
    findings.push(
        finding.advise("write arm = \"push arm\" for push-side mounting, arm = \"pull arm\" for pull-side mounting"),
    );
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with};

    #[test]
    fn a_leaf_with_an_arm_and_an_unpowered_one_pass() {
        sound().passes(&CHECK);
        with(r#"leaf = { powered = false, arm = "none" }"#).passes(&CHECK);
    }

    #[test]
    fn a_powered_leaf_without_an_arm_is_reported() {
        let (finding, at) = sound().but("arm = \"push arm\"\n", "").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("true", "leaf 1"));
        with(r#"leaf = { arm = "none" }"#).one(&CHECK);
    }
}
