//! The takeoff as a plain table.
//!
//! In: a takeoff. Out: rows of finished text, JSON, CSV. May not know: where it is printed.

use std::borrow::Cow;

use serde::Serialize;

use crate::catalog::Catalog;
use crate::measure::rounded;
use crate::spreadsheet;
use crate::takeoff::Takeoff;

/// Decimal places of a quantity that does not end, such as a third of a foot.
const PLACES: u32 = 4;

/// Every quantity and every hour, a line a row.
#[derive(Debug)]
pub struct TakeoffTable<'t> {
    /// Heads of columns.
    pub heads: [&'static str; 7],
    /// Whether a column stands to the right.
    pub right: [bool; 7],
    /// Rows of finished text.
    pub rows: Vec<[Cow<'t, str>; 7]>,
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

impl<'t> TakeoffTable<'t> {
    /// The table of a takeoff: items first, then labor.
    pub fn of(takeoff: &'t Takeoff, catalog: &'t Catalog) -> Self {
        let rule = |at: usize| catalog.rules.get(at).map_or("", |rule| rule.id.as_str());
        let mut rows = Vec::with_capacity(takeoff.lines.len() + takeoff.labor.len());
        let mut lines: Vec<_> =
            takeoff.lines.iter().filter_map(|it| Some((catalog.items.get(&*it.item)?, it))).collect();
        lines.sort_by_key(|(item, _)| (item.group, item.id.as_str()));
        for (item, line) in lines {
            let value = takeoff.ledger.value(line.quantity).number_of(item.unit).unwrap_or_default();
            let value = rounded(value, PLACES);
            rows.push([
                item.group.word().into(),
                item.id.as_str().into(),
                item.name.as_str().into(),
                value.normalize().to_string().into(),
                item.unit.word().into(),
                takeoff.name(line.of).into(),
                rule(line.rule).into(),
            ]);
        }
        let mut labor: Vec<_> = takeoff.labor.iter().collect();
        labor.sort_by_key(|line| line.visit);
        for line in labor {
            let task = line.task.as_deref().and_then(|id| catalog.tasks.get(id));
            let hours = takeoff.ledger.value(line.hours).number_of(crate::measure::Unit::Hour).unwrap_or_default();
            rows.push([
                format!("labor, {}", line.visit.word()).into(),
                line.task.as_deref().unwrap_or_default().into(),
                task.map_or_else(|| format!("least hours, {}", line.trade).into(), |task| task.name.as_str().into()),
                hours.normalize().to_string().into(),
                "h".into(),
                takeoff.name(line.of).into(),
                line.rule.map_or("least hours", rule).into(),
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
            .map(|[kind, id, what, quantity, unit, of, rule]| Row { kind, id, what, quantity, unit, r#for: of, rule })
            .collect();
        // Rows of text always serialise.
        serde_json::to_string_pretty(&rows).unwrap_or_default() + "\n"
    }

    /// CSV bytes.
    pub fn csv(&self) -> Vec<u8> {
        spreadsheet::csv(&self.heads, &self.rows)
    }
}
