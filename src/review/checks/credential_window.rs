//! How long a credential keeps a plate alive.
//!
//! In: an opening. Out: `credential-window`. May not know: what the system of others is set to.

use super::{Check, CheckScope, OpeningContext};
use crate::engineering::credential_window;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{DeviceEntry, Live};

pub(in crate::review) static CHECK: Check =
    Check { code: &CODE, clause: Some("ADA 2010 407.3.4 (read, by analogy)"), over: CheckScope::Opening(look) };

/// A window to set with the vendor.
pub static CODE: Code = Code {
    id: "credential-window",
    severity: Severity::FieldVerify,
    says: "set the credential window to {asked} for a walk of {found}",
    why: "The push plate beyond the reader must still be active when a slow walker reaches it: 1.5 ft/s, the walking speed of the federal standard's signal clause 407.3.4 by analogy, and never less than 5 s.",
    example: "vestibule = { partner = \"101B\", walk = \"10 ft\" }\ndevice = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", live = \"credential window\" }]",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let staged = |device: &DeviceEntry| device.live.get() == Some(&Live::Credential);
    if !opening.opening.entry.device.list().iter().any(staged) {
        return;
    }
    let walk = opening.opening.entry.vestibule.get().and_then(|it| it.walk.given());
    let Some((walk, window)) = walk.and_then(|walk| Some((walk, credential_window(walk.value)?))) else { return };
    let finding = CHECK
        .finding(opening.subject())
        .at(walk.place.clone())
        .found(opening.length(walk.value))
        .asked(format!("{} or more", opening.time(window)));
    findings.push(finding.advise("walk-test with the access system vendor, who sets it and signs"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, sound, with};

    fn walk(length: &str) -> Fixture {
        let device =
            "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", live = \"credential window\" }]";
        let other = "[[opening]]\nmark = \"102\"\nkind = \"plain\"";
        with(&format!("vestibule = {{ partner = \"102\", walk = \"{length}\" }}\n{device}\n{other}"))
    }

    /// ADA 2010 407.3.4 (read), by analogy: 10 ft at 1.5 ft/s are 6.7 s.
    #[test]
    fn a_window_lasts_for_the_walk() {
        sound().passes(&CHECK);
        assert_eq!(walk("10 ft").one(&CHECK).0.asked, "7 s or more");
        assert_eq!(walk("3 ft").one(&CHECK).0.asked, "5 s or more");
    }
}
