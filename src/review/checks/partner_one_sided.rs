//! A vestibule whose other door does not name this one back.
//!
//! In: an opening. Out: `partner-one-sided`. May not know: partners that are not in the job, which the job reports.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A vestibule partner that does not name the opening back.
pub static CODE: Code = Code {
    id: "partner-one-sided",
    severity: Severity::Warning,
    says: "{asked} is given as the other vestibule door, but {found}",
    why: "Door sequence, interlock and time between the doors are read from both openings; with one side only, \
          each door gets a different sequence.",
    example: "[[opening]]\nmark = \"101A\"\nvestibule = { partner = \"101B\" }\n\n[[opening]]\nmark = \"101B\"   # and no vestibule",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let mark = opening.opening.mark.as_str();
    let Some(named) = opening.opening.entry.vestibule.get().and_then(|it| it.partner.given()) else { return };
    let Some(other) = opening.partner.filter(|other| other.mark != mark) else { return };
    let back = &other.entry.vestibule;
    let name = back.get().and_then(|it| it.partner.given());
    let unread = back.is_bad() || back.get().is_some_and(|it| it.partner.is_bad());
    if unread || name.is_some_and(|name| name.value.as_str() == mark) {
        return;
    }
    let finding = CHECK.finding(opening.subject()).at(named.place.clone()).asked(&*other.mark);
    findings.push(match name {
        Some(name) => finding
            .near(name.place.clone(), "the other way")
            .found(format!("it gives {} as its other door", name.value.as_str()))
            .type_at(name.place.clone(), mark),
        None => finding
            .near(other.place.clone(), "the other door")
            .found("it gives no other door")
            .advise(format!("write vestibule = {{ partner = \"{mark}\" }} at {}", other.mark)),
    });
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, sound, with};

    fn two(first: &str, second: &str) -> Fixture {
        with(&format!(
            "vestibule = {{ partner = \"{first}\" }}\n[[opening]]\nmark = \"102\"\nkind = \"plain\"\n{second}"
        ))
    }

    #[test]
    fn partners_that_name_each_other_pass() {
        sound().passes(&CHECK);
        two("102", "vestibule = { partner = \"101\" }").passes(&CHECK);
    }

    #[test]
    fn a_partner_that_names_none_is_reported() {
        let (finding, at) = two("102", "").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"102\"", "it gives no other door"));
        assert_eq!(remedy(&finding), "write vestibule = { partner = \"101\" } at 102");
    }

    #[test]
    fn a_partner_that_names_another_is_reported() {
        let third = "vestibule = { partner = \"103\" }\n[[opening]]\nmark = \"103\"\nkind = \"plain\"\nvestibule = { partner = \"102\" }";
        let (finding, _) = two("102", third).one(&CHECK);
        assert_eq!((finding.found.as_str(), remedy(&finding)), ("it gives 103 as its other door", "101"));
    }
}
