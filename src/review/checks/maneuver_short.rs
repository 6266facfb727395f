//! Floor in front of a leaf that is less than a person needs to open it by hand.
//!
//! In: an opening and its floor as measured. Out: `maneuver-short`. May not know: which doors a person takes instead.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::{Approach, Clause, ClauseKnown, ClauseOf, Edition, LeafFace, Maneuver, MoreWhen};
use crate::engineering::{FloorRoom, Grows, ManeuverLeaf, ManeuverRow, maneuver_shortfall};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{Exposure, FloorEntry, Side, Swing};
use crate::measure::Length;
use crate::review::access::maneuver_asked;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Too little floor to maneuver.
pub static CODE: Code = Code {
    id: "maneuver-short",
    severity: Severity::Warning,
    says: "maneuvering clearance, {found}; required: {asked}",
    why: "A power-assist leaf is pushed by hand, and so is an automatic leaf in a means of egress on loss of power without standby power. Report a shortfall to the owner; standby power or another door may resolve it.",
    example: "energy = \"power assist\"\naccess = { floor = [{ side = \"inside\", deep = \"50 in\", beyond = \"12 in\" }] }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let access = &opening.opening.entry.access;
    let (Some(_), Some(access)) = (maneuver_asked(opening), access.get()) else { return };
    for floor in access.floor.list() {
        let (Some(side), Some(deep), Some(beyond)) = (floor.side.given(), floor.deep.given(), floor.beyond.given())
        else {
            continue;
        };
        let approach = floor.approach.or(Approach::Front);
        let found = FloorRoom { deep: deep.value, beyond: beyond.value };
        let short = opening.editions().into_iter().filter_map(|edition| {
            let recess = recess(edition, floor);
            let (rows, number) = rows(opening, edition, recess.map_or(approach, |_| Approach::Front), side.value)?;
            let number = recess.map_or(number, |it| it.number.clone());
            let (needed, missing) = maneuver_shortfall(&rows, leaf(opening, side.value), found)?;
            Some((missing, needed, edition.cite(&number, ClauseKnown::Read)))
        });
        let Some((missing, needed, clause)) = short.max_by_key(|it| it.0.deep + it.0.beyond) else { continue };
        let words =
            |room: FloorRoom| format!("{} deep and {} beyond", opening.inches(room.deep), opening.inches(room.beyond));
        let place = if missing.deep > Length::ZERO { &deep.place } else { &beyond.place };
        let finding = CHECK
            .finding(opening.subject())
            .at(place.clone())
            .found(format!("{}, {approach} approach: {}", side.value, words(found)))
            .asked(words(needed))
            .margin(format!("{} short", short_words(opening, missing)))
            .clause(clause);
        findings.push(
            finding.advise(
                "clear the floor, change the approach, or write access = { standby_power = true } where provided",
            ),
        );
    }
}

/// The clause by which a leaf stands in a recess, and a person has to come straight to it whatever way there is.
fn recess<'e>(edition: &'e Edition, floor: &FloorEntry) -> Option<&'e Clause> {
    let deep = floor.recess.given()?.value;
    edition.clauses.iter().find(|it| it.of == ClauseOf::Recess && it.most.is_some_and(|most| deep > most))
}

/// The floor that a person needs who comes straight to the leaf, side by side, by the first edition that asks for it; nothing
/// where no clause does.
pub(in crate::review) fn rooms_asked(opening: &OpeningContext) -> Vec<(Side, FloorRoom)> {
    if maneuver_asked(opening).is_none() {
        return Vec::new();
    }
    let each = [Side::Outside, Side::Inside].into_iter().filter_map(|side| {
        let first = opening.editions().into_iter().find_map(|it| rows(opening, it, Approach::Front, side));
        Some((side, first?.0.first()?.needed(leaf(opening, side))))
    });
    each.collect()
}

/// What is missing, of one way or of both.
fn short_words(opening: &OpeningContext, missing: FloorRoom) -> String {
    let part =
        |length: Length, word: &str| (length > Length::ZERO).then(|| format!("{} {word}", opening.inches(length)));
    let parts = [part(missing.deep, "of depth"), part(missing.beyond, "of width")];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" and ")
}

/// The rows of an edition for an approach from a side, and the number of their clause.
fn rows(
    opening: &OpeningContext,
    edition: &Edition,
    approach: Approach,
    side: Side,
) -> Option<(Vec<ManeuverRow>, String)> {
    let face = face(opening, side)?;
    let here: Vec<_> = edition.maneuvers.iter().filter(|it| it.approach == approach && it.side == face).collect();
    let number = here.first()?.number.clone();
    let row = |it: &&Maneuver| ManeuverRow {
        least: FloorRoom { deep: it.deep, beyond: it.beyond },
        more: FloorRoom { deep: it.more_deep, beyond: it.more_beyond },
        grows: match it.more_when {
            None => Grows::Never,
            Some(MoreWhen::Closer) => Grows::WithCloser,
            Some(MoreWhen::CloserAndLatch) => Grows::WithCloserAndLatch,
        },
        exterior_beyond: it.exterior_beyond,
    };
    Some((here.iter().map(row).collect(), number))
}

/// The face of the leaf that a side of the opening has; of a double egress, the first powered leaf's.
fn face(opening: &OpeningContext, side: Side) -> Option<LeafFace> {
    let swing = opening.powered().next()?.entry.swing.cloned()?;
    Some(if (swing == Swing::Toward) == (side == Side::Outside) { LeafFace::Pull } else { LeafFace::Push })
}

/// The leaf as tables ask of it. An operator closes it with a spring or a closer of its own.
fn leaf(opening: &OpeningContext, side: Side) -> ManeuverLeaf {
    let latch = opening.powered().any(|leaf| leaf.held_shut().unwrap_or(false));
    let exterior = opening.opening.entry.exposure.get() == Some(&Exposure::Exterior) && side == Side::Outside;
    ManeuverLeaf { closer: true, latch, exterior }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, under};

    /// A power-assist opening with floor on a side; the leaf swings away from the outside, which is its push side.
    fn floor(rules: &str, side: &str, approach: &str, deep: &str, beyond: &str, more: &str) -> Fixture {
        let floor =
            format!("{{ side = \"{side}\", approach = \"{approach}\", deep = \"{deep}\", beyond = \"{beyond}\" }}");
        under(rules, &format!("energy = \"power assist\"\naccess = {{ floor = [{floor}] }}\n{more}"))
    }

    /// ADA 2010 table 404.2.4.1 (read): with closer and latch 48 x 12 straight on the push side; 54 x 24 from the latch side.
    #[test]
    fn floor_by_the_federal_table() {
        floor("ada-2010", "outside", "front", "48 in", "12 in", "").passes(&CHECK);
        let (finding, at) = floor("ada-2010", "outside", "front", "48 in", "8 in", "").one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"8 in\"", "48 in deep and 12 in beyond"));
        assert_eq!(finding.clause.as_deref(), Some("ADA 2010 404.2.4.1"));
        floor(
            "ada-2010",
            "outside",
            "front",
            "48 in",
            "0 in",
            "leaf = { latch = \"no latch\", release = \"no latch\" }",
        )
        .passes(&CHECK);
        floor("ada-2010", "inside", "latch side", "54 in", "24 in", "").passes(&CHECK);
        assert_eq!(floor("ada-2010", "inside", "latch side", "50 in", "24 in", "").one(&CHECK).1, "\"50 in\"");
        floor("ada-2010", "inside", "hinge side", "54 in", "42 in", "").passes(&CHECK);
        floor("ada-2010", "inside", "hinge side", "56 in", "40 in", "").one(&CHECK);
    }

    /// ADA 2010 404.2.4.3 (read): what comes out more than 8 in beside the latch asks for the clearance of who comes straight.
    #[test]
    fn a_recess_asks_for_the_front_approach() {
        let recessed = |recess: &str| {
            let floor = format!(
                "{{ side = \"inside\", approach = \"latch side\", deep = \"54 in\", beyond = \"24 in\", recess = \"{recess}\" }}"
            );
            under("ada-2010", &format!("energy = \"power assist\"\naccess = {{ floor = [{floor}] }}"))
        };
        recessed("8 in").passes(&CHECK);
        let (finding, at) = recessed("9 in").one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"54 in\"", "60 in deep and 18 in beyond"));
        assert_eq!(finding.clause.as_deref(), Some("ADA 2010 404.2.4.3"));
    }

    /// CBC 2022 (read): 24 in beyond on the exterior side of an exterior door, and no 54 x 42 for the hinge approach.
    #[test]
    fn floor_by_the_california_table() {
        let exterior = "exposure = \"exterior\"\nleaf = { swing = \"toward\" }";
        floor("cbc-2022", "outside", "front", "60 in", "24 in", exterior).passes(&CHECK);
        floor("cbc-2022", "outside", "front", "60 in", "18 in", exterior).one(&CHECK);
        floor("ada-2010", "outside", "front", "60 in", "18 in", exterior).passes(&CHECK);
        floor("cbc-2022", "inside", "hinge side", "54 in", "42 in", "").one(&CHECK);
    }

    /// ADA 2010 404.3.2 (read): an automatic door on a way out without standby power needs the floor too.
    #[test]
    fn automatic_doors_need_it_on_a_way_out() {
        let access = |more: &str| {
            under(
                "ada-2010",
                &format!(
                    "access = {{ {more} floor = [{{ side = \"outside\", deep = \"30 in\", beyond = \"0 in\" }}] }}"
                ),
            )
        };
        access("").passes(&CHECK);
        access("egress = true, standby_power = true,").passes(&CHECK);
        access("egress = true,").one(&CHECK);
    }
}
