//! Power that nobody has seen or drawn.
//!
//! In: an opening. Out: `power-unknown`. May not know: spaces of panels, which the takeoff counts.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::PowerKnown;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Power that is assumed, absent or not spoken of.
pub static CODE: Code = Code {
    id: "power-unknown",
    severity: Severity::Warning,
    says: "power for the operator: {found}",
    why: "A missing circuit is often the most expensive line of an opening. The bid states its assumption and \
          the trade that provides the circuit.",
    example: "power = { known = \"assumed\" }",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    let entry = &opening.opening.entry;
    let power = entry.power.get();
    if !opening.is_powered() || entry.power.is_bad() || power.is_some_and(|power| power.known.is_bad()) {
        return;
    }
    let known = power.and_then(|power| power.known.given());
    let found = match known.map(|given| given.value) {
        Some(PowerKnown::Seen | PowerKnown::Drawn) => return,
        Some(PowerKnown::Assumed) => "assumed",
        Some(PowerKnown::None) => "none",
        None => "not given",
    };
    let place = known.map(|given| &given.place).or(entry.power.place());
    let finding = CHECK
        .finding(opening.subject())
        .at(opening.place_or_own(place))
        .found(found)
        .asked("field-verified or shown on drawings");
    findings.push(
        finding.advise(
            "find the panel and its free spaces, or ask; then write power = { known = \"seen\", panel = \"…\" }",
        ),
    );
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with};

    #[test]
    fn power_seen_or_drawn_passes() {
        sound().passes(&CHECK);
        with("power = { known = \"drawn\" }").passes(&CHECK);
        with("power = { known = \"none\" }\nleaf = { powered = false }").passes(&CHECK);
    }

    #[test]
    fn power_assumed_or_absent_is_reported() {
        for (known, found) in [("assumed", "assumed"), ("none", "none")] {
            let (finding, at) = with(&format!("power = {{ known = \"{known}\" }}")).one(&CHECK);
            assert_eq!((at, finding.found.as_str()), (format!("\"{known}\""), found));
        }
        let bench = sound().but("power = { known = \"seen\", panel = \"LP-1\" }\n", "");
        assert_eq!(bench.one(&CHECK).0.found, "not given");
    }
}
