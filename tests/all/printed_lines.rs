//! Printed lines add up: what a person with a pencil finds on the bid and the recap.
//!
//! In: tables read back from the PDFs of the demo. Out: lines whose product, columns whose sum is not what is printed.
//! May not know: how the program computes; amounts are read as printed and added in cents. Common practice, no source.

use hingewright::findings::Paper;

use crate::demo::demo;
use crate::pdf_reader::Pdf;

/// A number as printed, in hundredths: `$1,234.50`, `($350.00)`, `12`, `4.8`; an amount has both its decimals.
fn hundredths(text: &str) -> i128 {
    let plain: String = text.chars().filter(|it| !it.is_whitespace() && !matches!(it, '$' | ',')).collect();
    let bracketed = plain.starts_with('(');
    let plain = plain.trim_matches(['(', ')']);
    let (whole, part) = plain.split_once('.').unwrap_or((plain, ""));
    assert!(part.len() <= 2 && (part.len() == 2 || !text.contains('$')), "decimals of `{text}`");
    let number: i128 = format!("{whole}{part:0<2}").parse().unwrap_or_else(|_| panic!("`{text}` is no number"));
    if bracketed { -number } else { number }
}

/// The product of two numbers of hundredths, to the hundredth, half away from zero.
fn product(a: i128, b: i128) -> i128 {
    let exact = a * b;
    (exact.abs() + 50) / 100 * exact.signum()
}

/// The tables of a paper whose head is this.
fn tables(pdf: &Pdf, head: &[&str]) -> Vec<Vec<Vec<String>>> {
    let found: Vec<_> = pdf.tables().into_iter().filter(|rows| rows.first().is_some_and(|row| row == head)).collect();
    assert!(!found.is_empty(), "no table with the head {head:?}");
    found
}

/// Rows below the head, and the last one apart.
fn body(table: &[Vec<String>]) -> (&[Vec<String>], &[String]) {
    let (last, rows) = table[1..].split_last().unwrap();
    (rows, last)
}

/// Faults of a table with a last row that holds the sum: `factors` are multiplied to what stands in `result`.
fn faults(table: &[Vec<String>], factors: Option<[usize; 2]>, result: usize) -> Vec<String> {
    let (rows, last) = body(table);
    let mut faults = Vec::new();
    for row in rows {
        if let Some([a, b]) = factors {
            let expected = product(hundredths(&row[a]), hundredths(&row[b]));
            if expected != hundredths(&row[result]) {
                faults.push(format!("{row:?}: {expected}"));
            }
        }
    }
    let sum: i128 = rows.iter().map(|row| hundredths(&row[result])).sum();
    if sum != hundredths(last.last().unwrap()) {
        faults.push(format!("{last:?}: {sum}"));
    }
    faults
}

fn recap() -> &'static Pdf {
    demo().pdf(Paper::Recap)
}

#[test]
fn items_are_quantity_times_price_and_add_up() {
    let head = ["Item", "Net", "Waste", "Priced", "Unit", "Price", "Extension"];
    let found = tables(recap(), &head);
    assert_eq!(found.len(), 4, "material, subcontracts, equipment, travel");
    for table in found {
        assert!(table.len() > 3, "{table:?}");
        assert_eq!(faults(&table, Some([3, 5]), 6), Vec::<String>::new());
    }
}

#[test]
fn labor_is_hours_times_rate_and_adds_up() {
    let table = tables(recap(), &["Visit", "Trade", "Hours", "Rate", "Amount"]).remove(0);
    assert_eq!(faults(&table, Some([2, 3]), 4), Vec::<String>::new());
    let (rows, last) = body(&table);
    let hours: i128 = rows.iter().map(|row| hundredths(&row[2])).sum();
    assert_eq!(hours, hundredths(&last[1]), "hours of all labor: {last:?}");
    let tasks = tables(recap(), &["Visit", "Task", "Lines", "Clock h each", "Labor h", "Where the hours come from"]);
    let by_task: i128 = tasks[0][1..].iter().map(|row| hundredths(&row[4])).sum();
    assert_eq!(hours, by_task, "hours by task come to the hours of labor");
}

#[test]
fn rates_are_the_sum_of_their_parts() {
    let table = tables(recap(), &["Trade", "Made of", "Rate"]).remove(0);
    let mut rates = Vec::new();
    for row in &table[1..] {
        let parts: i128 = row[1].split(" + ").map(|part| hundredths(part.rsplit('$').next().unwrap())).sum();
        assert_eq!(parts, hundredths(&row[2]), "{row:?}");
        rates.push(row[2].clone());
    }
    let labor = tables(recap(), &["Visit", "Trade", "Hours", "Rate", "Amount"]).remove(0);
    for row in body(&labor).0 {
        let rate = table.iter().find(|rate| rate[0] == row[1]).unwrap_or_else(|| panic!("no rate of {}", row[1]));
        assert_eq!(rate[2], row[3], "{row:?}");
    }
}

#[test]
fn rounding_to_packs_adds_up() {
    let table = tables(recap(), &["Item", "Bought", "Beyond need", "Cost"]).remove(0);
    assert_eq!(faults(&table, None, 3), Vec::<String>::new());
}

#[test]
fn the_build_up_adds_up_to_the_bid() {
    let table = tables(recap(), &["Line", "How", "Amount"]).remove(0);
    let rows = &table[1..];
    let at = rows.iter().position(|row| row[0] == "Direct cost").unwrap();
    let sum = |rows: &[Vec<String>]| rows.iter().map(|row| hundredths(&row[2])).sum::<i128>();
    assert_eq!(sum(&rows[..at]), hundredths(&rows[at][2]), "direct cost");
    let last = rows.len() - 1;
    assert_eq!(rows[last][0], "Base bid");
    assert_eq!(sum(&rows[at..last]), hundredths(&rows[last][2]), "base bid");
    let bid = demo().pdf(Paper::Bid).named("bid.total");
    assert_eq!(bid, [rows[last][2].clone()], "the bid sheet prints the base bid once, as the recap does");
    // Every total of a table stands in the build-up too.
    let line =
        |name: &str| rows.iter().find(|row| row[0] == name).unwrap_or_else(|| panic!("no line {name}"))[2].clone();
    let head = ["Item", "Net", "Waste", "Priced", "Unit", "Price", "Extension"];
    for table in tables(recap(), &head) {
        let total = body(&table).1;
        let name = if total[0] == "Material" { "Material, extensions" } else { total[0].as_str() };
        assert_eq!(line(name), total[1], "{name}");
    }
    let additions = tables(recap(), &["Line", "How", "Amount"]).remove(1);
    assert_eq!(sum(&additions[1..]), hundredths(&line("Freight")) + hundredths(&line("Taxes")), "freight and taxes");
}

#[test]
fn an_alternate_is_the_bid_with_it_less_the_bid_without() {
    let bid = demo().pdf(Paper::Bid);
    let base = hundredths(&bid.named("bid.total")[0]);
    let table = tables(recap(), &["No.", "What changes", "Bid with it", "Change"]).remove(0);
    assert_eq!(table.len(), 4, "three alternates");
    for row in &table[1..] {
        let change = hundredths(&row[3]);
        assert_eq!(hundredths(&row[2]) - base, change, "{row:?}");
        let printed = bid.named(&format!("alternate.{}", row[0]));
        assert_eq!(printed.len(), 1, "alternate {}", row[0]);
        let offers = tables(bid, &["No.", "What changes", "Add or deduct", "Amount"]).remove(0);
        let offer = offers.iter().find(|offer| offer[0] == row[0]).unwrap();
        assert_eq!(offer[3], printed[0]);
        let sign = if offer[2] == "deduct" { -1 } else { 1 };
        assert_eq!(sign * hundredths(&offer[3]), change, "{offer:?}");
    }
}

/// The pencil finds what is wrong.
#[test]
fn a_cent_more_or_less_is_found() {
    let row = |cells: [&str; 3]| cells.map(str::to_owned).to_vec();
    let right = vec![
        row(["Quantity", "Price", "Extension"]),
        row(["3.33", "$1.50", "$5.00"]), // 4.995, half a cent goes up
        row(["1,000", "$0.07", "$70.00"]),
        row(["Sum", "", "$75.00"]),
    ];
    assert_eq!(faults(&right, Some([0, 1]), 2), Vec::<String>::new());
    let mut extension = right.clone();
    extension[1][2] = "$4.99".to_owned();
    assert_eq!(faults(&extension, Some([0, 1]), 2).len(), 2, "the line and the sum");
    let mut sum = right;
    sum[3][2] = "$75.01".to_owned();
    assert_eq!(faults(&sum, Some([0, 1]), 2).len(), 1, "the sum");
    assert_eq!(hundredths("($1,350.00)"), -135_000);
    assert_eq!(hundredths("4.8"), 480);
}
