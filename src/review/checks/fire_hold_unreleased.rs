//! A labeled opening that something holds, and that the fire alarm does not let go.
//!
//! In: an opening. Out: `fire-hold-unreleased`. May not know: detectors, alarm zones.

use super::{Check, CheckScope, LeafContext, OpeningContext};
use crate::findings::{Code, Findings, Papers, Place, Severity};
use crate::job::{Disposition, ExistingKind, LatchKind, Rating};

pub(in crate::review) static CHECK: Check = Check {
    code: &CODE,
    clause: Some("NFPA 80 (2016) 6.1.3 and (2010) 6.1.4, closed and latched at the time of fire (secondary)"),
    over: CheckScope::Opening(look),
};

/// A labeled opening held without release.
pub static CODE: Code = Code {
    id: "fire-hold-unreleased",
    severity: Severity::Warning,
    says: "the opening is labeled {asked}, and the fire alarm does not release {found}",
    why: "A fire door must be closed and latched in a fire. A hold-open is permitted only with fire alarm \
          release.",
    example: "rating = \"90 min\"\nalarm_release = false\nleaf = { existing = [{ what = \"magnetic holder\", becomes = \"reuse\" }] }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let entry = &opening.opening.entry;
    let Some(rating) = entry.rating.given().filter(|given| given.value != Rating::None) else { return };
    let released = entry.alarm_release.is_bad() || entry.alarm_release.or(false);
    for (place, what, releasable) in opening.leaves().flat_map(|leaf| holds(&leaf)) {
        if released && releasable {
            continue;
        }
        let finding = CHECK
            .finding(opening.subject())
            .at(place)
            .near(rating.place.clone(), "label")
            .found(what)
            .asked(rating.value.word());
        findings.push(match (releasable, entry.alarm_release.place()) {
            (true, Some(place)) => finding.type_at(place.clone(), "true"),
            (true, None) => {
                finding.advise("write alarm_release = true where the alarm releases it, and state who wires it")
            }
            (false, _) => finding.advise("a kick-down holder has no alarm release: write becomes = \"remove\""),
        });
    }
}

/// What holds a leaf, where it stands, and whether an alarm can let it go.
fn holds(leaf: &LeafContext) -> Vec<(Place, String, bool)> {
    let mut holds = Vec::new();
    for existing in leaf.entry.existing.list() {
        let (Some(what), Some(becomes)) = (existing.what.given(), existing.becomes.get()) else { continue };
        let stays = matches!(becomes, Disposition::Reuse | Disposition::Relocate);
        let releasable = match what.value {
            ExistingKind::MagneticHolder => true,
            ExistingKind::KickDown => false,
            _ => continue,
        };
        if stays {
            holds.push((what.place.clone(), leaf.words(format!("the {}", what.value)), releasable));
        }
    }
    if let Some(latch) = leaf.entry.latch.given().filter(|given| given.value == LatchKind::Magnet) {
        holds.push((latch.place.clone(), leaf.words("the electromagnet"), true));
    }
    holds
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, with};

    fn held(rating: &str, release: bool, leaf: &str) -> Fixture {
        with(&format!("rating = \"{rating}\"\nalarm_release = {release}\nleaf = {{ {leaf} }}"))
    }

    const HOLDER: &str = r#"existing = [{ what = "magnetic holder", becomes = "reuse" }]"#;
    const KICK: &str = r#"existing = [{ what = "kick-down holder", becomes = "reuse" }]"#;
    const MAGNET: &str = r#"latch = "electromagnet", release = "held by others""#;

    #[test]
    fn what_the_alarm_lets_go_and_what_is_taken_off_pass() {
        held("none", false, HOLDER).passes(&CHECK);
        held("90 min", true, HOLDER).passes(&CHECK);
        held("90 min", true, MAGNET).passes(&CHECK);
        held("90 min", false, &HOLDER.replace("reuse", "remove")).passes(&CHECK);
        held("90 min", false, "hinges = \"left\"").passes(&CHECK);
    }

    #[test]
    fn what_the_alarm_does_not_let_go_is_reported() {
        let (finding, at) = held("90 min", false, HOLDER).one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("\"magnetic holder\"", "true"));
        let (finding, at) = held("20 min", false, MAGNET).one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"electromagnet\"", "20 min"));
    }

    #[test]
    fn no_alarm_releases_a_kick_down_holder() {
        let (finding, _) = held("90 min", true, KICK).one(&CHECK);
        assert!(remedy(&finding).contains("remove"));
    }
}
