//! A proof that the work needs and that is not in hand, or holds no longer.
//!
//! In: a takeoff. Out: `proof-missing`, `proof-expired`, `proof-unheard-of`. May not know: how a gap is printed.

use super::CheckContext;
use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::takeoff::proofs::{ProofGap, missing_proofs, needed_proofs};

/// A proof that is not in hand.
pub static MISSING: Code = Code {
    id: "proof-missing",
    severity: Severity::Warning,
    says: "{asked} required{found}, not received",
    why: "The submittal is issued and lists it as outstanding. A package without a required certificate is \
          rejected, and a labeled door without its listing is not accepted.",
    example: "[proof.label]\nkind = \"fire-door use\"\nsays = \"…\"   # and no date",
    blocks: Papers::NONE,
};

/// A proof that holds no longer.
pub static EXPIRED: Code = Code {
    id: "proof-expired",
    severity: Severity::Warning,
    says: "{asked} expired {found}, before the date of the papers",
    why: "An expired certificate is not valid on the day of review.",
    example: "expires = 2026-06-30   # and the papers are dated 2026-12-08",
    blocks: Papers::NONE,
};

/// A kind of proof that the catalog knows nothing of.
pub static UNHEARD_OF: Code = Code {
    id: "proof-unheard-of",
    severity: Severity::Warning,
    says: "the owner requires a certificate of {found}, and the catalog has none of that kind",
    why: "The submittal lists it as outstanding until the catalog has it.",
    example: "[profile.town]\nproofs = [\"domestic content\"]   # and no [proof.…] of that kind",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    for needed in needed_proofs(seen.takeoff, seen.job, seen.catalog) {
        let proof = needed.proof;
        let about = |code| {
            let subject = Subject::Entry("proof", proof.id.clone());
            Finding::new(code, subject).at(proof.place.clone()).asked(format!("{} ({})", proof.says, proof.kind))
        };
        findings.push(match needed.gap {
            None => continue,
            Some(ProofGap::Expired(last)) => about(&EXPIRED)
                .found(last.to_string())
                .advise("request a new one; then change its number, date and expires"),
            Some(ProofGap::Missing) => {
                let names = seen.takeoff.names_of(&needed.at);
                let at = if names.is_empty() { String::new() } else { format!(" for {}", names.join(", ")) };
                about(&MISSING).found(at).advise("when received, add number, by and date = …")
            }
        });
    }
    for kind in missing_proofs(seen.job, seen.catalog) {
        let Some(profile) = seen.catalog.profiles.get(&seen.job.head.profile) else { return };
        let finding = Finding::new(&UNHEARD_OF, Subject::Entry("profile", profile.id.clone()))
            .at(profile.place.clone())
            .found(kind.word());
        findings.push(
            finding.advise(format!("add a [proof.…] with kind = \"{kind}\", or leave the kind out of the profile")),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::{EXPIRED, MISSING, UNHEARD_OF};
    use crate::findings::Code;
    use crate::takeoff::checks::fixtures;

    fn reported(code: &Code, proof: &str) -> Vec<String> {
        let proof = format!("[proof.one]\nkind = \"fire-door use\"\nsays = \"It may.\"\n{proof}");
        fixtures::reported(code, "", "", &proof).into_iter().map(|it| it.found).collect()
    }

    const NOW: &str = "date = 2020-01-01\n";

    #[test]
    fn a_proof_is_needed_where_its_condition_holds() {
        assert_eq!(reported(&MISSING, "per = \"opening\"\n"), [" for 101"]);
        assert_eq!(reported(&MISSING, ""), [""]);
        assert!(reported(&MISSING, NOW).is_empty());
        assert!(reported(&MISSING, "per = \"opening\"\nwhen = 'opening.rating != \"none\"'\n").is_empty());
        // For goods that nobody takes off nothing is proved.
        assert!(reported(&MISSING, "groups = [\"footing\"]\n").is_empty());
    }

    #[test]
    fn a_proof_holds_up_to_its_last_day() {
        assert_eq!(reported(&EXPIRED, &format!("{NOW}expires = 2021-01-01\n")), ["2021-01-01"]);
        assert!(reported(&EXPIRED, &format!("{NOW}expires = 2199-01-01\n")).is_empty());
    }

    #[test]
    fn what_only_some_owners_ask_for_is_needed_only_there() {
        assert!(reported(&MISSING, "if_asked = true\n").is_empty());
        let asking = |kind: &str| format!("proofs = [\"{kind}\"]");
        let found = fixtures::reported_under(&UNHEARD_OF, "[profile.town]", &asking("finish sample"));
        assert_eq!(found.iter().map(|it| it.found.as_str()).collect::<Vec<_>>(), ["finish sample"]);
    }
}
