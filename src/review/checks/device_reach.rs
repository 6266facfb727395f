//! A device that a person in a chair does not reach.
//!
//! In: an opening. Out: `device-reach`. May not know: where else it could stand.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::{Clause, ClauseOf};
use crate::engineering::{ReachFault, ReachLimit, reach_fault};
use crate::findings::{Code, Finding, Findings, Papers, Severity};
use crate::job::{DeviceEntry, ReachFrom};
use crate::measure::Length;
use crate::review::access::{device_words, worked_by_hand};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A device out of reach.
pub static CODE: Code = Code {
    id: "device-reach",
    severity: Severity::Warning,
    says: "the {found}; required: {asked}",
    why: "A device out of reach range is not usable by a person in a wheelchair.",
    example: "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", height = \"50 in\" }]",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let plates: Vec<Length> = opening
        .job
        .head
        .jurisdictions
        .iter()
        .filter_map(|id| opening.catalog.jurisdictions.get(id))
        .find(|it| !it.plate_heights.is_empty())
        .map_or_else(Vec::new, |it| it.plate_heights.clone());
    for device in opening.opening.entry.device.list().iter().filter(|device| worked_by_hand(device)) {
        // Where several heights are set, by whom ever, the one that is typed does not count.
        let heights = opening.opening.heights_of(device, &plates);
        let typed = device.height.place().filter(|_| heights == [device.height.cloned()]);
        let place = device.heights.place().or(typed).or(device.kind.place());
        for value in heights.into_iter().flatten() {
            if let Some(finding) = out_of_reach(opening, device, value) {
                findings.push(finding.at(opening.place_or_own(place)));
            }
        }
    }
}

fn out_of_reach(opening: &OpeningContext, device: &DeviceEntry, height: Length) -> Option<Finding> {
    let sideways = device.reach_from.get() == Some(&ReachFrom::Side);
    let of = if sideways { ClauseOf::SideReach } else { ClauseOf::ForwardReach };
    let over = device.reach_over.or(Length::ZERO);
    opening.editions().into_iter().find_map(|edition| {
        let mut clauses: Vec<&Clause> = edition.clauses.iter().filter(|it| it.of == of).collect();
        clauses.sort_by_key(|it| it.depth);
        let limit = |it: &&Clause| Some(ReachLimit { depth: it.depth?, low: it.least?, high: it.most? });
        let limits: Vec<ReachLimit> = clauses.iter().filter_map(limit).collect();
        let (limit, margin) = match reach_fault(&limits, over, height)? {
            ReachFault::Low(limit, by) => (limit, format!("{} too low", opening.inches(by))),
            ReachFault::High(limit, by) => (limit, format!("{} too high", opening.inches(by))),
            ReachFault::Deep(limit, by) => (limit, format!("{} too deep", opening.inches(by))),
        };
        let clause = clauses.iter().find(|it| it.depth == Some(limit.depth))?;
        let from = if sideways { "sideways" } else { "forward" };
        let over = if over == Length::ZERO { String::new() } else { format!(", over {}", opening.inches(over)) };
        let finding =
            CHECK.finding(opening.subject()).clause(edition.cite(&clause.number, clause.known)).margin(margin);
        let asked = format!(
            "{} to {}, reach {from} over {} maximum",
            opening.inches(limit.low),
            opening.inches(limit.high),
            opening.inches(limit.depth)
        );
        let found = format!("{} is at {}{over}", device_words(device), opening.inches(height));
        Some(finding.found(found).asked(asked).advise("correct the height, or clear the obstruction in front of it"))
    })
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, under};

    fn plate(more: &str) -> Fixture {
        under(
            "ada-2010",
            &format!(
                "device = [{{ id = \"P1\", kind = \"push plate\", side = \"outside\", mount = \"wall\", {more} }}]"
            ),
        )
    }

    /// ADA 2010 308.2.2 and 308.3.2 (read).
    #[test]
    fn reach_forward_and_sideways() {
        plate("height = \"44 in\", reach_over = \"22 in\"").passes(&CHECK);
        let (finding, at) = plate("height = \"46 in\", reach_over = \"22 in\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("\"46 in\"", Some("2 in too high")));
        plate("height = \"46 in\", reach_over = \"12 in\", reach_from = \"sideways\"").passes(&CHECK);
        plate("height = \"47 in\", reach_over = \"12 in\", reach_from = \"sideways\"").one(&CHECK);
        plate("height = \"12 in\"").one(&CHECK);
        plate("height = \"40 in\", reach_over = \"30 in\"").one(&CHECK);
    }

    /// ADA 2010 308.2.1 (read): 15 in to 48 in.
    #[test]
    fn each_of_several_heights_is_in_reach() {
        plate("heights = [\"16 in\", \"36 in\"]").passes(&CHECK);
        let (finding, at) = plate("heights = [\"8 in\", \"36 in\"], height = \"20 in\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("[\"8 in\", \"36 in\"]", Some("7 in too low")));
        plate("height = \"20 in\"").and("plate_heights = [\"8 in\", \"36 in\"]").one(&CHECK);
        plate("heights = [\"16 in\"]").and("plate_heights = [\"8 in\", \"36 in\"]").passes(&CHECK);
    }

    #[test]
    fn a_sensor_overhead_is_not_reached_for() {
        let sensor =
            "device = [{ kind = \"safety sensor\", side = \"outside\", mount = \"header\", height = \"7 ft 4 in\" }]";
        under("ada-2010", sensor).passes(&CHECK);
    }
}
