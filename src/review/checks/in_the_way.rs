//! Something that hangs where the header or the arm wants to be.
//!
//! In: an opening. Out: `in-the-way`, of what is moved or not measured. May not know: the arm's way through the room.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::ObstructionEntry;
use crate::review::header_space::{Clearance, HeaderSpace};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Something in the way.
pub static CODE: Code = Code {
    id: "in-the-way",
    severity: Severity::FieldVerify,
    says: "check that header and arm clear the {found}",
    why: "Exit signs, sprinkler heads, detectors and cameras are relocated by others only; found on the day of installation, one costs the visit.",
    example: "frame = { in_the_way = [\"exit sign\"] }",
    blocks: Papers::NONE,
};

/// An obstruction, what it is, and how it stands to the header.
pub(super) fn obstructions<'o>(opening: &'o OpeningContext) -> Vec<(&'o ObstructionEntry, &'static str, Clearance)> {
    let Some(operator) = opening.operator.filter(|_| opening.is_powered()) else { return Vec::new() };
    let entry = &opening.opening.entry;
    let space = HeaderSpace::of(entry, &opening.opening.leaves, operator);
    let list = entry.frame.get().map(|frame| frame.in_the_way.list()).unwrap_or_default();
    let of = |it: &'o ObstructionEntry| {
        Some((it, it.what.get()?.word(), space.map_or(Clearance::Unknown, |space| space.clearance_of(it))))
    };
    list.iter().filter_map(of).collect()
}

/// Common practice, no source.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    let open = |(it, _, clearance): &(&ObstructionEntry, &str, Clearance)| match clearance {
        Clearance::Clear => false,
        Clearance::Unknown => true,
        Clearance::Short(_) => !it.stays(),
    };
    let all: Vec<(&ObstructionEntry, &str, Clearance)> = obstructions(opening).into_iter().filter(open).collect();
    let Some((first, ..)) = all.first() else { return };
    let words: Vec<String> = all
        .iter()
        .map(|(it, what, clearance)| {
            let short = match clearance {
                Clearance::Short(by) => Some(format!("{} too low", opening.length(*by))),
                _ => None,
            };
            let becomes = it.becomes.get().map(|_| it.becomes_in_words());
            let more: Vec<String> = short.into_iter().chain(becomes).collect();
            if more.is_empty() { (*what).to_owned() } else { format!("{what} ({})", more.join("; ")) }
        })
        .collect();
    let place = opening.place_or_own(first.what.place());
    let finding = CHECK.finding(opening.subject()).at(place).found(words.join(" and ")).asked("a clear swing");
    findings.push(finding.advise(
        "check with the cardboard template of header and arm; notify the general contractor of each relocation with its date",
    ));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, sound, with};

    fn way(says: &str) -> Fixture {
        with(&format!("frame = {{ in_the_way = [{says}] }}"))
    }

    #[test]
    fn what_hangs_there_is_looked_at() {
        sound().passes(&CHECK);
        let (finding, _) = way("\"exit sign\", \"camera\"").one(&CHECK);
        assert_eq!(finding.found, "exit sign and camera");
    }

    /// The space of the sound header reaches to 92 1/4 in: 7 ft, a face of 2 in, and 6 1/4 in of head room; it is 5 1/2 in deep.
    #[test]
    fn what_is_measured_says_by_how_much() {
        let sign = |more: &str| way(&format!("{{ what = \"exit sign\", {more} }}"));
        let low = "underside = \"90 in\"";
        let found = |of: &Fixture| of.one(&CHECK).0.found;
        assert_eq!(found(&sign(low)), "exit sign (2 1/4 in too low)");
        let moved = format!("{low}, becomes = \"relocate\", by = \"electrician\"");
        assert_eq!(found(&sign(&moved)), "exit sign (2 1/4 in too low; relocated by electrician)");
        sign("underside = \"92 1/4 in\"").passes(&CHECK);
        sign(&format!("{low}, distance = \"6 in\"")).passes(&CHECK);
        let stays = sign(&format!("{low}, becomes = \"reuse\""));
        stays.passes(&CHECK);
    }
}
