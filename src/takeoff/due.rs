//! Days by which what a supplier sends to a site is submitted, ordered and there; and whether the reviews still fit before them.
//!
//! In: visits of a site, weeks of a supplier, days of a review, what was sent. Out: days. May not know: what day it is.
//!
//! Days are worked back from the visit at which goods are needed: less the supplier's weeks is the last safe day to order,
//! less one review the last day to submit again what came back, less two the last day to submit at first. A Veterans
//! Affairs specification (01 33 23, 1.4, read) says to plan at least 14 days for a review, and that late or rejected submittals
//! give no more time.

use crate::catalog::{Catalog, Item, Supplier};
use crate::input::Date;
use crate::job::{Approval, Site, Stands};

use super::Takeoff;

/// Days of what a supplier sends to a site; none where one cannot be worked out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Due {
    /// Last day to submit at first, so that two reviews fit.
    pub first: Option<Date>,
    /// Last day to submit again.
    pub again: Option<Date>,
    /// Last safe day to order.
    pub order: Option<Date>,
    /// Day on which it must be there.
    pub needed: Option<Date>,
}

/// The days of what a supplier sends to a site, where a review takes so many days.
pub fn due(site: &Site, from: &Supplier, review: Option<u32>) -> Due {
    let needed = site.entry.days.get().and_then(|days| days.of(from.before));
    let less = |day: Option<Date>, days: Option<u32>| day?.plus_days(i64::from(days?).checked_neg()?);
    let order = less(needed, from.weeks.and_then(|weeks| weeks.checked_mul(7)));
    let again = less(order, review);
    Due { first: less(again, review), again, order, needed }
}

impl Due {
    /// The same of a submittal that another waits for: both its reviews end before the other is sent at first, so that the two have not
    /// the same last day.
    pub fn before_next(self, review: Option<u32>) -> Due {
        let less = |day: Option<Date>| day?.plus_days(i64::from(review?).checked_neg()?);
        let again = less(self.first);
        Due { first: less(again), again, ..self }
    }

    /// By how many days the reviews that are still to come end after the last safe day to order; none where they fit, or
    /// where a day cannot be worked out. What was not sent, or was approved at another revision, has two reviews ahead of it;
    /// what is out has its own and one more, but one alone where it is out again; what came back without approval has one.
    pub fn late(&self, approval: &Approval, today: Date, review: Option<u32>) -> Option<i64> {
        let (order, review) = (self.order?, i64::from(review?));
        let after = |day: Date| day.plus_days(review).map(|day| day.max(today));
        let through = match approval.stands {
            Stands::Approved { current: true, .. } => return None,
            Stands::Out(sending) if sending.time > 0 => after(sending.round.sent)?,
            Stands::Out(sending) => after(sending.round.sent)?.plus_days(review)?,
            Stands::Returned(_) => today.plus_days(review)?,
            _ => today.plus_days(review.checked_mul(2)?)?,
        };
        let days = order.days_to(through);
        (days > 0).then_some(days)
    }
}

/// The items that a supplier sends to a site, by the site's position, each once.
pub fn sent<'c>(takeoff: &Takeoff, catalog: &'c Catalog, site: usize, from: &str) -> impl Iterator<Item = &'c Item> {
    takeoff.items_of_site(site).filter_map(|id| catalog.items.get(id)).filter(move |item| item.supplier == from)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reviews of 14 days: what waits is sent by March 1 at the latest, so what it waits for goes 14 days before that again, and 28 days
    /// before that at first (arithmetic).
    #[test]
    fn what_another_waits_for_is_sent_two_reviews_before_it() {
        let day = |month, day| Date::new(2027, month, day);
        let due = Due { first: day(3, 1), again: day(3, 15), order: day(3, 29), needed: day(5, 3) };
        let before = Due { first: day(2, 1), again: day(2, 15), ..due };
        assert_eq!(due.before_next(Some(14)), before);
        assert_eq!(due.before_next(None), Due { first: None, again: None, ..due });
    }
}
