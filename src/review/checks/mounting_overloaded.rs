//! A header whose screws do not hold it, or hold it with a plate alone.
//!
//! In: a leaf. Out: `mounting-overloaded`. May not know: what is ordered; plates are takeoff's.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Finding, Findings, Papers, Severity};
use crate::mechanics::{Calculated, Mounting, mounting};
use rust_decimal::Decimal;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// Screws that carry more than they may.
pub static CODE: Code = Code {
    id: "mounting-overloaded",
    severity: Severity::Warning,
    says: "{found}; required: {asked}",
    why: "Header fasteners are checked at motor stall and with wind on the open leaf, not at rest. A header that works loose falls.",
    example: "frame = { fixed_to = \"steel stud\", stud_mils = 18 }",
    blocks: Papers::NONE,
};

/// Formulas and their sources in the room engineering; the spacing of studs, where nobody measured it, is common practice.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let Some(held) = mounting(leaf.of.opening, leaf.entry, operator, leaf.of.catalog) else { return };
    let Ok(calculated) = &held.result else { return };
    if calculated.own.is_some_and(|own| own.holds()) {
        return;
    }
    let place = leaf.of.opening.entry.frame.get().and_then(|it| it.fixed_to.place());
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(leaf.of.place_or_own(place))
        .near(operator.place.clone(), format!("operator {}", operator.id));
    findings.push(reported(leaf, finding, &held, calculated, operator.header_screws));
}

fn reported(leaf: &LeafContext, finding: Finding, held: &Mounting, calculated: &Calculated, screws: u32) -> Finding {
    let name = held.fastener.map_or("", |it| it.name.as_str());
    let found = match &calculated.own {
        Some(own) if own.count < screws => {
            format!(
                "{} of {screws} screws land on studs; {} of capacity used, {}",
                own.count,
                percent(own.used.part),
                own.used.case.words()
            )
        }
        Some(own) => {
            format!("{} of capacity of {screws} screws used, {}", percent(own.used.part), own.used.case.words())
        }
        None => format!("fewer than two columns of {screws} screws land on substrate"),
    };
    let asked = match (calculated.least.filter(|it| it.holds()), &calculated.plate) {
        (Some(least), _) => format!("{} × {name} in {} columns", least.count, least.columns),
        (None, Some(plate)) if plate.held.holds() => {
            format!("a backing plate {} long with {} × {name}", leaf.of.length(plate.length), plate.held.count)
        }
        (None, Some(plate)) => {
            format!("backing between the studs: a plate {} long is not sufficient", leaf.of.length(plate.length))
        }
        (None, None) => "backing or a stronger fastener".to_owned(),
    };
    let margin = match &calculated.own {
        Some(own) => format!("{} over", percent(own.used.part - Decimal::ONE)),
        None => "short of two columns".to_owned(),
    };
    finding
        .found(leaf.words(found))
        .asked(asked)
        .margin(margin)
        .advise("plan plate or screws before ordering; the fastener's published data govern")
}

fn percent(part: Decimal) -> String {
    format!("{}%", (part * Decimal::ONE_HUNDRED).ceil().normalize())
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with_fasteners};

    #[test]
    fn wood_holds_and_thin_studs_ask_for_a_plate() {
        sound().passes(&CHECK);
        with_fasteners("").passes(&CHECK);
        let stud = |mils: u32| with_fasteners(&format!("frame = {{ fixed_to = \"steel stud\", stud_mils = {mils} }}"));
        let (finding, at) = stud(18).one(&CHECK);
        assert_eq!(at, "\"steel stud\"");
        // 40 in less 3 in of edges hold two studs at 16 in wherever they stand: four screws in two rows (counting).
        assert!(finding.found.starts_with("4 of 8 screws land on studs"), "{}", finding.found);
        assert!(finding.asked.contains("plate"), "{}", finding.asked);
        stud(97).passes(&CHECK);
        with_fasteners("frame = { fixed_to = \"masonry\" }").passes(&CHECK);
    }
}
