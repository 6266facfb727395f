//! Warnings that were looked at and accepted: taken out of the list, and kept with their reason for printing.
//!
//! In: every finding of a run, and the job's acceptances. Out: the findings that are left, and those accepted.
//! May not know: which room raised a finding.

use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::job::{Accepted, Job};

/// An acceptance that matches nothing.
pub(super) static IDLE: Code = Code {
    id: "acceptance-idle",
    severity: Severity::Warning,
    says: "`{found}` accepts no warning of this run",
    why: "An acceptance that matches no warning is a typing error, or its cause is gone; if it stays, it \
          accepts the next warning unread.",
    example: "[[accept]]\ncode = \"price-odl\"\nreason = \"confirmed by telephone\"",
    blocks: Papers::NONE,
};

/// An acceptance of something that is no warning.
pub(super) static NO_WARNING: Code = Code {
    id: "acceptance-of-error",
    severity: Severity::Warning,
    says: "`{found}` is not a warning and cannot be accepted",
    why: "An error is a contradiction and has to be corrected; a field verification is done on the site. Only a \
          warning is a matter of judgment.",
    example: "[[accept]]\ncode = \"hand-contradicts\"\nreason = \"it is right\"",
    blocks: Papers::NONE,
};

/// A warning that was accepted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AcceptedFinding {
    /// The warning.
    pub finding: Finding,
    /// Why it is all right, as printed.
    pub reason: String,
}

/// Takes the warnings that the job accepts out of all findings of a run, and lists them with their reasons. Where two
/// acceptances match a warning the first one's reason stands. To be called over everything that every room has said;
/// `unheard` are the codes of rooms that had no say in this run, as papers are not made by a check. While something of the
/// input cannot be used, no acceptance is called idle: its warning may well lie behind that.
pub fn accept(findings: Findings, job: &Job, unheard: &[&Code]) -> (Findings, Vec<AcceptedFinding>) {
    let mut left = Findings::default();
    let mut accepted = Vec::new();
    for finding in findings.iter() {
        let warning = finding.code.severity == Severity::Warning;
        match job.accepted.iter().find(|acceptance| warning && is_about(acceptance, finding)) {
            Some(by) => accepted.push(AcceptedFinding { finding: finding.clone(), reason: by.reason.clone() }),
            None => left.push(finding.clone()),
        }
    }
    let outside = |code: &Code| !super::CODES.iter().any(|own| own.id == code.id);
    let unused = findings.iter().any(|it| it.code.severity == Severity::Error && outside(it.code));
    for acceptance in &job.accepted {
        let matched: Vec<&Finding> = findings.iter().filter(|finding| is_about(acceptance, finding)).collect();
        let may_come = unheard.iter().any(|code| code.id == acceptance.code);
        if matched.is_empty() && (unused || may_come) {
            continue;
        }
        if matched.is_empty() {
            left.push(idle(acceptance));
        } else if matched.iter().all(|finding| finding.code.severity != Severity::Warning) {
            left.push(no_warning(acceptance, matched[0]));
        }
    }
    (left.sorted(), accepted)
}

/// Whether an acceptance names the code and the subject of a finding, and what it found where it says that.
fn is_about(acceptance: &Accepted, finding: &Finding) -> bool {
    let name = match &finding.subject {
        Subject::Job => None,
        Subject::Site(name) | Subject::Opening(name) | Subject::Entry(_, name) | Subject::Template(name) => Some(name),
    };
    finding.code.id == acceptance.code
        && acceptance.about.as_ref().is_none_or(|about| Some(about) == name)
        && acceptance.found.as_ref().is_none_or(|found| *found == finding.found)
}

fn subject(acceptance: &Accepted) -> Subject {
    Subject::Entry("accept", acceptance.code.clone())
}

fn idle(acceptance: &Accepted) -> Finding {
    let about = acceptance.about.as_ref().map(|about| format!(" about {about}")).unwrap_or_default();
    let found = acceptance.found.as_ref().map(|found| format!(" that finds {found}")).unwrap_or_default();
    let found = format!("{}{about}{found}", acceptance.code);
    Finding::new(&IDLE, subject(acceptance))
        .at(acceptance.place.clone())
        .found(found)
        .asked("the code of a warning, the opening, site or entry it is about, and what it finds now")
        .advise("delete it, or correct code, about and found")
}

fn no_warning(acceptance: &Accepted, matched: &Finding) -> Finding {
    let finding = Finding::new(&NO_WARNING, subject(acceptance)).at(acceptance.place.clone());
    let finding = match matched.place() {
        Some(place) => finding.near(place.clone(), matched.code.severity.word()),
        None => finding,
    };
    finding
        .found(&*acceptance.code)
        .asked("the code of a warning")
        .advise("delete the acceptance, and correct its cause")
}

#[cfg(test)]
mod tests {
    use super::accept;
    use crate::findings::{Code, Findings};
    use crate::review::fixtures::{Fixture, with};
    use crate::review::review;

    const WIDE: &str = "leaf = { width = \"50 in\", hand = \"RH\" }\nframe = { fixed_to = \"unknown\" }";

    /// Codes left and codes accepted of the review of a wide leaf with a wrong hand and an unknown substrate.
    fn accepting(lines: &[&str]) -> (Vec<&'static str>, Vec<(&'static str, String)>) {
        hearing(lines, &[])
    }

    /// The same of a run in which some codes have no say.
    fn hearing(lines: &[&str], unheard: &[&Code]) -> (Vec<&'static str>, Vec<(&'static str, String)>) {
        let lines: Vec<String> = lines.iter().map(|line| format!("[[accept]]\n{line}")).collect();
        let bench: Fixture = with(WIDE).and(&lines.join("\n"));
        let (job, catalog) = bench.read();
        let mut findings = Findings::default();
        let reviewed = review(job, &catalog, &mut findings);
        let (left, accepted) = accept(findings, reviewed.job(), unheard);
        let accepted = accepted.into_iter().map(|it| (it.finding.code.id, it.reason));
        (left.iter().map(|it| it.code.id).collect(), accepted.collect())
    }

    #[test]
    fn what_finds_something_else_is_heard_again() {
        let about = |found: &str| format!("code = \"operator-limit\"\nfound = \"{found}\"\nreason = \"approved\"");
        let (left, accepted) = accepting(&[&about("a leaf 4 ft 2 in wide")]);
        assert_eq!((left.contains(&"operator-limit"), accepted.len()), (false, 1), "{left:?}");
        let (left, accepted) = accepting(&[&about("a leaf 4 ft 1 in wide")]);
        assert!(
            left.contains(&"operator-limit") && left.contains(&"acceptance-idle") && accepted.is_empty(),
            "{left:?}"
        );
    }

    #[test]
    fn nothing_accepted_leaves_all() {
        let (left, accepted) = accepting(&[]);
        assert_eq!(left, ["survey-missing", "operator-limit", "hand-contradicts", "substrate-unknown"]);
        assert!(accepted.is_empty());
    }

    #[test]
    fn a_warning_is_accepted_by_code_and_by_what_it_is_about() {
        for about in ["", "about = \"101\"\n"] {
            let (left, accepted) =
                accepting(&[&format!("code = \"operator-limit\"\n{about}reason = \"supplier agrees\"")]);
            assert_eq!(left, ["survey-missing", "hand-contradicts", "substrate-unknown"]);
            assert_eq!(accepted, [("operator-limit", "supplier agrees".to_owned())]);
        }
    }

    #[test]
    fn an_acceptance_of_nothing_is_reported() {
        for line in ["code = \"operator-limit\"\nabout = \"102\"", "code = \"price-old\"", "code = \"operator-limits\""]
        {
            let (left, accepted) = accepting(&[&format!("{line}\nreason = \"so\"")]);
            assert!(left.contains(&"acceptance-idle") && left.contains(&"operator-limit"), "{left:?}");
            assert!(accepted.is_empty());
        }
    }

    #[test]
    fn what_had_no_say_is_not_called_idle() {
        let line = "code = \"price-old\"\nreason = \"so\"";
        let price_old = crate::review::CODES.iter().find(|code| code.id == "price-old").unwrap();
        assert!(!hearing(&[line], &[price_old]).0.contains(&"acceptance-idle"));
        assert!(accepting(&[line]).0.contains(&"acceptance-idle"));
    }

    #[test]
    fn what_is_no_warning_cannot_be_accepted() {
        for code in ["hand-contradicts", "substrate-unknown"] {
            let (left, accepted) = accepting(&[&format!("code = \"{code}\"\nreason = \"so\"")]);
            assert!(left.contains(&"acceptance-of-error") && left.contains(&code), "{left:?}");
            assert!(accepted.is_empty());
        }
    }
}
