//! The takeoff as a plain table.
//!
//! In: a takeoff. Out: rows of finished text, JSON, CSV. May not know: where it is printed.

use serde::Serialize;

use crate::catalog::Catalog;
use crate::measure::rounded;
use crate::spreadsheet;
use crate::takeoff::Takeoff;

/// Decimal places of a quantity that does not end, such as a third of a foot.
const PLACES: u32 = 4;

/// Every quantity and every hour, a line a row.
#[derive(Debug)]
pub struct TakeoffTable {
    /// Heads of columns.
    pub heads: [&'static str; 7],
    /// Whether a column stands to the right.
    pub right: [bool; 7],
    /// Rows of finished text.
    pub rows: Vec<Vec<String>>,
}

#[derive(Serialize)]
struct Row<'t> {
    kind: &'t str,
    id: &'t str,
    what: &'t str,
    quantity: &'t str,
    unit: &'t str,
    r#for: &'t str,
    rule: &'t str,
}

impl TakeoffTable {
    /// The table of a takeoff: items first, then labor.
    pub fn of(takeoff: &Takeoff, catalog: &Catalog) -> Self {
        let mut rows = Vec::new();
        let mut lines: Vec<_> =
            takeoff.lines.iter().filter_map(|it| Some((catalog.items.get(&*it.item)?, it))).collect();
        lines.sort_by_key(|(item, _)| (item.group, item.id.as_str()));
        for (item, line) in lines {
            let value = takeoff.ledger.value(line.quantity).number_of(item.unit).unwrap_or_default();
            let value = rounded(value, PLACES);
            rows.push(vec![
                item.group.word().to_owned(),
                item.id.clone(),
                item.name.clone(),
                value.normalize().to_string(),
                item.unit.word().to_owned(),
                takeoff.name(line.of).to_owned(),
                catalog.rules[line.rule].id.clone(),
            ]);
        }
        let mut labor: Vec<_> = takeoff.labor.iter().collect();
        labor.sort_by_key(|line| line.visit);
        for line in labor {
            let task = line.task.as_deref().and_then(|id| catalog.tasks.get(id));
            let hours = takeoff.ledger.value(line.hours).number_of(crate::measure::Unit::Hour).unwrap_or_default();
            rows.push(vec![
                format!("labor, {}", line.visit.word()),
                line.task.as_deref().unwrap_or_default().to_owned(),
                task.map_or_else(|| format!("least hours, {}", line.trade), |task| task.name.clone()),
                hours.normalize().to_string(),
                "h".to_owned(),
                takeoff.name(line.of).to_owned(),
                line.rule.map_or_else(|| "least hours".to_owned(), |at| catalog.rules[at].id.clone()),
            ]);
        }
        TakeoffTable {
            heads: ["kind", "id", "what", "quantity", "unit", "for", "rule"],
            right: [false, false, false, true, false, false, false],
            rows,
        }
    }

    /// One JSON array.
    pub fn json(&self) -> String {
        let rows: Vec<Row> = self
            .rows
            .iter()
            .map(|row| Row {
                kind: &row[0],
                id: &row[1],
                what: &row[2],
                quantity: &row[3],
                unit: &row[4],
                r#for: &row[5],
                rule: &row[6],
            })
            .collect();
        // Rows of text always serialise.
        serde_json::to_string_pretty(&rows).unwrap_or_default() + "\n"
    }

    /// CSV bytes.
    pub fn csv(&self) -> Vec<u8> {
        spreadsheet::csv(&self.heads, &self.rows)
    }
}
