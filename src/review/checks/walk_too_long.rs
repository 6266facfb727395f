//! A person who has not come through when the leaf starts to close.
//!
//! In: a leaf. Out: `walk-too-long`. May not know: how fast anyone walks; the pace is a clause's, by analogy.

use super::{Check, CheckScope, LeafContext, PACE};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::measure::Unit;
use crate::mechanics::{leaf_times, time_offered};
use crate::review::printing::less;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: Some(PACE), over: CheckScope::Leaf(look) };

/// A walk longer than opening and hold-open.
pub static CODE: Code = Code {
    id: "walk-too-long",
    severity: Severity::Warning,
    says: "walking time from the device through the door {asked}; opening plus hold-open time {found}",
    why: "A slow walker reaches the opening while the leaf closes.",
    example: "device = [{ kind = \"push plate\", distance = \"3 ft\", walk = \"22 ft\", side = \"outside\", mount = \"wall\" }]",
    blocks: Papers::NONE,
};

fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let entry = &leaf.of.opening.entry;
    let Some((device, offered)) = time_offered(entry, leaf.entry, leaf.number, operator) else { return };
    if offered.is_enough() {
        return;
    }
    let longer = leaf_times(entry, leaf.entry, operator).and_then(|it| offered.hold_open_asked(it.opening.least));
    let advice = match longer.filter(|it| it.number_of(Unit::Second).is_some()) {
        Some(hold) => format!("set hold-open time to {} or more, or move the device nearer", leaf.of.time(hold)),
        None => "move the device nearer".to_owned(),
    };
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(leaf.of.place_or_own(device.walk.place().or(device.distance.place())))
        .found(leaf.of.time(offered.offered))
        .asked(leaf.of.time(offered.asked))
        .margin(format!("{} short", leaf.of.time(less(offered.asked, offered.offered))));
    findings.push(finding.advise(advice));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, with_mechanics};

    /// 3.5 s and 5 s (from memory) are 8.5 s: 12 3/4 ft at 1.5 ft/s (ADA 2010 407.3.4, by analogy).
    #[test]
    fn a_walk_within_the_time_passes_and_a_longer_one_is_reported() {
        let plate = |walk: &str| {
            let more = if walk.is_empty() { String::new() } else { format!(", walk = \"{walk}\"") };
            let kind = "kind = \"push plate\", side = \"outside\", mount = \"wall\"";
            with_mechanics(&format!("device = [{{ {kind}, distance = \"4 ft\"{more} }}]"))
        };
        plate("").passes(&CHECK);
        plate("12 ft 9 in").passes(&CHECK);
        let (finding, at) = plate("15 ft").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str(), finding.asked.as_str()), ("\"15 ft\"", "8.5 s", "10 s"));
        assert_eq!(remedy(&finding), "set hold-open time to 7 s or more, or move the device nearer");
    }
}
