//! Order lists as one plain table, a line a row, for whoever copies them into an order of his own.
//!
//! In: rows of suppliers and sites, as they are printed. Out: a table of finished text. May not know: files.
//!
//! A quantity is a number with its unit beside it, so that a spreadsheet can add it; pieces are counted, and their length stands beside
//! them. Texts hold none of the characters that keep words on one line of paper.

use super::lines::{OrderContext, Row, SiteRows};
use crate::fonts::plain;
use crate::measure::{Unit, rounded};
use crate::spreadsheet::Table;

/// Heads of the columns.
const HEADS: [&str; 12] = [
    "supplier", "site", "needed", "order by", "released", "against", "item", "details", "quantity", "unit", "piece",
    "openings",
];

/// Decimal places of a quantity that does not end.
const PLACES: u32 = 4;

/// The rows of a supplier's list, in printing order.
pub(super) fn rows(context: &OrderContext, supplier: &str, sites: &[SiteRows]) -> Vec<Vec<String>> {
    let each = sites.iter().flat_map(|site| site.rows.iter().map(move |line| row(context, supplier, site, line)));
    each.collect()
}

/// The table of all lists.
pub(super) fn table(rows: Vec<Vec<String>>) -> Table {
    Table { heads: HEADS.to_vec(), rows }
}

fn row(context: &OrderContext, supplier: &str, site: &SiteRows, line: &Row) -> Vec<String> {
    let to = context.delivery(site);
    let printed = context.line(line, String::new());
    let (quantity, unit, piece) = context.counted(line);
    let cells = [
        supplier,
        &to.ship_to,
        &to.needed,
        &to.order_by,
        if line.is_released() { "yes" } else { "no" },
        line.words(),
        &printed.description,
        &printed.details,
        &quantity,
        unit,
        &piece,
        &printed.used,
    ];
    cells.iter().map(|cell| plain(cell).into_owned()).collect()
}

impl OrderContext<'_> {
    /// How much as a number, its unit, and the length of a piece where pieces are counted.
    fn counted(&self, line: &Row) -> (String, &'static str, String) {
        if let Some(length) = self.piece(line) {
            return (line.pieces.normalize().to_string(), "pc", length);
        }
        let unit = self.unit(line);
        let number = line.quantity.number_of(unit).unwrap_or_default();
        (rounded(number, PLACES).normalize().to_string(), unit.word(), String::new())
    }

    /// The unit that a line's item is sold in.
    fn unit(&self, line: &Row) -> Unit {
        self.sources.catalog.items.get(line.item()).map_or(Unit::Each, |item| item.unit)
    }
}
