//! What part of the price hangs on some of the work.
//!
//! In: a priced takeoff, and which entities the work is for. Out: a rounded share of the bid. May not know: why somebody
//! asks.
//!
//! It is a share of figures and no figure: items at their extension, hours at their rate, and the build-up in proportion to
//! direct cost. Rounded up to ten dollars, so that nobody takes it for a line of the price.

use rust_decimal::Decimal;

use super::Estimate;
use crate::ledger::FigureId;
use crate::money::Money;
use crate::takeoff::{EntityRef, Takeoff};

/// A step to which a share is rounded up, in dollars.
const STEP: Decimal = Decimal::TEN;

/// The share of the base bid that items and hours of some entities carry; nothing where it cannot be worked out or is
/// nothing.
pub fn dependent_share(takeoff: &Takeoff, estimate: &Estimate, holds: impl Fn(EntityRef) -> bool) -> Option<Money> {
    let value = |figure: FigureId| takeoff.ledger.value(figure).value();
    let mut direct = Decimal::ZERO;
    for line in takeoff.lines.iter().filter(|line| holds(line.of)) {
        let Some(cost) = estimate.items.iter().find(|cost| *cost.item == *line.item) else { continue };
        let share = value(line.quantity).checked_div(value(cost.net)).unwrap_or_default();
        direct = direct.checked_add(value(cost.extension).checked_mul(share)?)?;
    }
    for line in takeoff.labor.iter().filter(|line| holds(line.of)) {
        let same = |cost: &&super::LaborCost| {
            cost.visit == line.visit && *cost.trade == *line.trade && cost.overtime == line.overtime
        };
        let Some(cost) = estimate.labor.iter().find(same) else { continue };
        let share = value(line.hours).checked_div(value(cost.hours)).unwrap_or_default();
        direct = direct.checked_add(value(cost.amount).checked_mul(share)?)?;
    }
    let price = direct.checked_mul(value(estimate.bid))?.checked_div(value(estimate.totals.direct))?;
    let steps = price.checked_div(STEP)?.ceil();
    (steps > Decimal::ZERO).then(|| Money::dollars(steps * STEP))
}
