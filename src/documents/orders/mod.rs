//! Order lists: what is bought of each supplier, for which site, by which day; what is released to be ordered and what is not.
//!
//! In: sources, the estimate's quantities. Out: the view of the paper. May not know: pages; it holds no price.
//!
//! A line is released once the product data of its section is approved at the job's revision, and with it the schedule where
//! the section is the job's own, and once its opening was measured a second time. An approved item may not change
//! (a Veterans Affairs specification, 01 33 23, 1.3, read), so each line names the revision that it is bought against; goods are looked
//! at when they come, before the carrier leaves (UFGS 16311A, 1.4, read).

mod buying;
mod lines;
mod table;

use serde::Serialize;

use super::{Count, Draft, Letterhead, Printing, Sources, counts, letterhead};
use crate::estimate::Estimate;
use crate::measure::Noun;

pub use buying::ToBuy;
pub use lines::OrderGroup;

/// The view of the order lists.
#[derive(Clone, Debug, Serialize)]
pub struct OrdersView {
    /// Letterhead.
    pub head: Letterhead,
    /// The shared counts.
    pub counts: Vec<Count>,
    /// One list a supplier, the one to be ordered first at the front.
    pub lists: Vec<OrderList>,
}

/// What is bought of a supplier.
#[derive(Clone, Debug, Serialize)]
pub struct OrderList {
    /// Name, such as `orders.fenwick`.
    pub name: String,
    /// The supplier.
    pub supplier: String,
    /// His telephone; a dash where none is known.
    pub phone: String,
    /// Weeks from order to delivery, in words.
    pub weeks: String,
    /// The first day by which one of his sites must be ordered for, or `to be agreed`.
    pub order_by: String,
    /// What is to buy in all, in packs.
    pub to_buy: Vec<ToBuy>,
    /// What goes to each site.
    pub groups: Vec<OrderGroup>,
}

/// What stands where a day cannot be worked out.
const OPEN: &str = "to be agreed";

/// The order lists, with their lines as a table.
pub fn orders(sources: &Sources, estimate: &Estimate) -> Draft<OrdersView> {
    let printing = Printing::of(sources.reviewed.job());
    let context = lines::OrderContext { sources, printing };
    let mut lists: Vec<_> =
        sources.catalog.suppliers.values().filter_map(|from| list(&context, estimate, from)).collect();
    // What takes longest is ordered first; where no day is known, after those with one.
    lists.sort_by(|(a, _), (b, _)| (a.is_none(), a).cmp(&(b.is_none(), b)));
    let (lists, rows): (Vec<_>, Vec<_>) = lists.into_iter().map(|(_, both)| both).unzip();
    let view = OrdersView { head: letterhead(sources, "Order lists"), counts: counts(sources, None), lists };
    Draft { table: Some(table::table(rows.concat())), ..Draft::plain(view) }
}

/// A supplier's list with the first day to order, and the same lines as rows of the table.
type Listed = (Option<crate::input::Date>, (OrderList, Vec<Vec<String>>));

fn list(context: &lines::OrderContext, estimate: &Estimate, from: &crate::catalog::Supplier) -> Option<Listed> {
    let sites: Vec<_> = (0..context.sources.takeoff.arrangement.sites.len())
        .map(Some)
        .chain([None])
        .filter_map(|at| context.site(from, at))
        .collect();
    if sites.is_empty() {
        return None;
    }
    let first = sites.iter().filter_map(|site| site.order).min();
    let rows: Vec<&lines::Row> = sites.iter().flat_map(|site| &site.rows).collect();
    let list = OrderList {
        name: format!("orders.{}", from.id),
        supplier: from.name.clone(),
        phone: super::printing::or_dash(from.phone.as_deref()),
        weeks: match from.weeks {
            Some(weeks) => format!("{} after order", Noun::WEEK.count(weeks)),
            None => "lead time not known".to_owned(),
        },
        order_by: first.map_or_else(|| OPEN.to_owned(), |day| day.to_string()),
        to_buy: buying::to_buy(context, estimate, &rows),
        groups: sites.iter().flat_map(|site| context.printed(site)).collect(),
    };
    Some((first, (list, table::rows(context, &from.name, &sites))))
}
