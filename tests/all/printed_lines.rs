//! Printed lines add up: what a person with a pencil finds on the bid and the recap.
//!
//! In: tables read back from the PDFs of the demo. Out: lines whose product, columns whose sum is not what is printed.
//! May not know: how the program computes; amounts are read as printed and added in cents. Common practice, no source.

use std::sync::OnceLock;

use hingewright::findings::{Paper, Papers};
use hingewright::pipeline;

use crate::demo::{self, replace};
use crate::pdf_reader::Pdf;

/// A number as printed, in ten-thousandths: `$1,234.50`, `($350.00)`, `0.045`, `12`.
fn number(text: &str) -> i128 {
    let plain: String = text.chars().filter(|it| !it.is_whitespace() && !matches!(it, '$' | ',')).collect();
    let bracketed = plain.starts_with('(');
    let plain = plain.trim_matches(['(', ')']);
    let (whole, part) = plain.split_once('.').unwrap_or((plain, ""));
    assert!(part.len() <= 4, "decimals of `{text}`");
    let number: i128 = format!("{whole}{part:0<4}").parse().unwrap_or_else(|_| panic!("`{text}` is no number"));
    if bracketed { -number } else { number }
}

/// An amount as printed, in cents: two decimals, neither more nor less.
fn cents(text: &str) -> i128 {
    assert!(
        text.trim_matches(['(', ')']).split_once('.').is_some_and(|(_, cents)| cents.len() == 2),
        "cents of `{text}`"
    );
    number(text) / 100
}

/// The product of two printed numbers in cents, half a cent away from zero.
fn product(a: &str, b: &str) -> i128 {
    let exact = number(a) * number(b);
    (exact.abs() + 500_000) / 1_000_000 * exact.signum()
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
            let expected = product(&row[a], &row[b]);
            if expected != cents(&row[result]) {
                faults.push(format!("{row:?}: {expected}"));
            }
        }
    }
    let sum: i128 = rows.iter().map(|row| cents(&row[result])).sum();
    if sum != cents(last.last().unwrap()) {
        faults.push(format!("{last:?}: {sum}"));
    }
    faults
}

/// Recap and bid of the demo, and of a copy whose prices divide unevenly: a price of mills, rented equipment of an
/// odd price, freight and rates of odd hundredths.
fn papers() -> [(&'static Pdf, &'static Pdf); 2] {
    static ODD: OnceLock<(Pdf, Pdf)> = OnceLock::new();
    let (recap, bid) = ODD.get_or_init(|| {
        let mut odd = demo::texts();
        let costs = "catalog_demo/items-costs.toml";
        let lift = "price = \"186.00\"\npriced = 2026-10-05\nsupplier = \"stiltwalk\"\nfreight = false\ntaxed = ";
        replace(&mut odd, costs, &format!("{lift}true"), &format!("{}true", lift.replace("186.00", "186.07")));
        replace(&mut odd, "catalog_demo/rules.toml", "price = \"0.04\"", "price = \"0.045\"");
        replace(&mut odd, "catalog_demo/trades.toml", "wage = \"41.50\"", "wage = \"41.57\"");
        replace(&mut odd, "catalog_demo/terms.toml", "rate = \"13.5 %\"", "rate = \"13.37 %\"");
        let wanted = Papers::of(&[Paper::Bid, Paper::Recap]);
        let issue = pipeline::issue(&demo::snapshot(&odd), demo::JOB, wanted, None).0.unwrap();
        let [bid, recap] = issue.papers.as_slice() else { panic!("held: {:?}", issue.held) };
        (Pdf::read(&recap.bytes), Pdf::read(&bid.bytes))
    });
    let demo = demo::demo();
    [(demo.pdf(Paper::Recap), demo.pdf(Paper::Bid)), (recap, bid)]
}

#[test]
fn items_are_quantity_times_price_and_add_up() {
    for (recap, _) in papers() {
        let head = ["Item", "Net", "Waste", "Priced", "Unit", "Price", "Extension"];
        let found = tables(recap, &head);
        assert_eq!(found.len(), 4, "material, subcontracts, equipment, travel");
        for table in found {
            assert!(table.len() > 3, "{table:?}");
            assert_eq!(faults(&table, Some([3, 5]), 6), Vec::<String>::new());
        }
    }
}

#[test]
fn labor_is_hours_times_rate_and_adds_up() {
    for (recap, _) in papers() {
        let table = tables(recap, &["Visit", "Trade", "Hours", "Rate", "Amount"]).remove(0);
        assert_eq!(faults(&table, Some([2, 3]), 4), Vec::<String>::new());
        let (rows, last) = body(&table);
        let hours: i128 = rows.iter().map(|row| number(&row[2])).sum();
        assert_eq!(hours, number(&last[1]), "hours of all labor: {last:?}");
        let tasks = tables(recap, &["Visit", "Task", "Lines", "Clock h each", "Labor h", "Source of hours"]);
        let by_task: i128 = tasks[0][1..].iter().map(|row| number(&row[4])).sum();
        assert_eq!(hours, by_task, "hours by task come to the hours of labor");
    }
}

#[test]
fn rates_are_the_sum_of_their_parts() {
    for (recap, _) in papers() {
        let table = tables(recap, &["Trade", "Build-up", "Rate"]).remove(0);
        let mut rates = Vec::new();
        for row in &table[1..] {
            let parts: i128 = row[1].split(" + ").map(|part| cents(part.rsplit('$').next().unwrap())).sum();
            assert_eq!(parts, cents(&row[2]), "{row:?}");
            rates.push(row[2].clone());
        }
        let labor = tables(recap, &["Visit", "Trade", "Hours", "Rate", "Amount"]).remove(0);
        for row in body(&labor).0 {
            let rate = table.iter().find(|rate| rate[0] == row[1]).unwrap_or_else(|| panic!("no rate of {}", row[1]));
            assert_eq!(rate[2], row[3], "{row:?}");
        }
    }
}

#[test]
fn rounding_to_packs_adds_up() {
    for (recap, _) in papers() {
        let table = tables(recap, &["Item", "Bought", "Surplus", "Cost"]).remove(0);
        assert_eq!(faults(&table, None, 3), Vec::<String>::new());
    }
}

#[test]
fn the_build_up_adds_up_to_the_bid() {
    for (recap, bid) in papers() {
        let table = tables(recap, &BUILD_UP).remove(0);
        let rows = &table[1..];
        let at = rows.iter().position(|row| row[0] == "Direct cost").unwrap();
        let sum = |rows: &[Vec<String>]| rows.iter().map(|row| cents(&row[3])).sum::<i128>();
        assert_eq!(sum(&rows[..at]), cents(&rows[at][3]), "direct cost");
        let last = rows.len() - 1;
        assert_eq!(rows[last][0], "Base bid");
        assert_eq!(sum(&rows[at..last]), cents(&rows[last][3]), "base bid");
        let offered = bid.named("bid.total");
        assert_eq!(offered, [rows[last][3].clone()], "the bid sheet prints the base bid once, as the recap does");
        // Every total of a table stands in the build-up too.
        let line =
            |name: &str| rows.iter().find(|row| row[0] == name).unwrap_or_else(|| panic!("no line {name}"))[3].clone();
        let head = ["Item", "Net", "Waste", "Priced", "Unit", "Price", "Extension"];
        let mut taxes = cents(&line("Freight")) + cents(&line("Taxes on material"));
        for table in tables(recap, &head) {
            let total = body(&table).1;
            let name = if total[0] == "Material" { "Material, extensions" } else { total[0].as_str() };
            // Equipment carries its own taxes, which stand among the additions.
            taxes += cents(&line(name)) - cents(&total[1]);
            assert!(name == "Equipment" || line(name) == total[1], "{name}");
        }
        let additions = tables(recap, &["Line", "Calculation", "Amount"]).remove(0);
        let added: i128 = additions[1..].iter().map(|row| cents(&row[2])).sum();
        assert_eq!(added, taxes, "freight and taxes");
    }
}

#[test]
fn an_alternate_is_the_bid_with_it_less_the_bid_without() {
    for (recap, bid) in papers() {
        let base = cents(&bid.named("bid.total")[0]);
        let table = tables(recap, &["No.", "Description", "Bid with it", "Change"]).remove(0);
        assert_eq!(table.len(), 4, "three alternates");
        for row in &table[1..] {
            let change = cents(&row[3]);
            assert_eq!(cents(&row[2]) - base, change, "{row:?}");
            let printed = bid.named(&format!("alternate.{}", row[0]));
            assert_eq!(printed.len(), 1, "alternate {}", row[0]);
            let offers = tables(bid, &["No.", "Description", "Openings", "Add or deduct", "Amount"]).remove(0);
            let offer = offers.iter().find(|offer| offer[0] == row[0]).unwrap();
            assert_eq!(offer[4], printed[0]);
            let sign = if offer[3] == "deduct" { -1 } else { 1 };
            assert_eq!(sign * cents(&offer[4]), change, "{offer:?}");
            assert!(!offer[2].is_empty(), "{offer:?} names its openings");
        }
    }
}

/// Heads of the way from cost to bid.
const BUILD_UP: [&str; 5] = ["Line", "Calculation", "Base", "Amount", "Share of bid"];

/// A markup is its rate times what it is taken of; a margin is what is left of a price that has the rate in it; each line has
/// its part of the bid, to a tenth of a percent.
#[test]
fn lines_of_the_build_up_are_their_rate_of_their_base() {
    for (recap, _) in papers() {
        let table = tables(recap, &BUILD_UP).remove(0);
        let bid = cents(&table.last().unwrap()[3]);
        let mut rated = 0;
        for row in &table[1..] {
            let amount = cents(&row[3]);
            // Tenths of a percent, half away from zero.
            let share = (amount.abs() * 2_000 + bid) / (2 * bid) * amount.signum();
            let printed = row[4].trim_end_matches('%').replace(|it: char| it.is_whitespace(), "");
            assert_eq!(printed.parse::<f64>().unwrap(), share as f64 / 10.0, "{row:?}");
            let Some((rate, kind)) = row[1].split_once('%') else { continue };
            let (rate, base) = (number(rate), cents(&row[2]));
            let whole = 1_000_000;
            let (over, under) = match kind.trim_start() {
                kind if kind.starts_with("markup") => (base * rate, whole),
                kind if kind.starts_with("margin") => (base * rate, whole - rate),
                _ => continue,
            };
            assert_eq!((2 * over + under) / (2 * under), amount, "{row:?}");
            rated += 1;
        }
        assert_eq!(rated, 3, "overhead, reserve, profit");
    }
}

#[test]
fn visits_add_up_to_what_is_paid_for_going_there() {
    for (recap, _) in papers() {
        let table = tables(recap, &["Site", "Visit", "People", "Labor h", "Travel cost"]).remove(0);
        assert_eq!(faults(&table, None, 4), Vec::<String>::new());
        let travel = tables(recap, &["Item", "Net", "Waste", "Priced", "Unit", "Price", "Extension"]).remove(3);
        let going = travel.iter().filter(|row| row[0].starts_with("Mileage") || row[0].starts_with("Parking"));
        let going: i128 = going.map(|row| cents(&row[6])).sum();
        assert_eq!(going, cents(body(&table).1.last().unwrap()), "mileage and parking");
    }
}

#[test]
fn quotes_are_the_prices_of_items_that_are_marked_so() {
    for (recap, _) in papers() {
        let head = ["Item", "Quoted by", "Date", "Valid to", "Freight", "Quote", "Catalog"];
        let quotes = tables(recap, &head).remove(0);
        let material = tables(recap, &["Item", "Net", "Waste", "Priced", "Unit", "Price", "Extension"]).remove(0);
        let marked: Vec<&Vec<String>> = material.iter().filter(|row| row[0].ends_with(" (quote)")).collect();
        assert_eq!(marked.len(), quotes.len() - 1);
        for row in &quotes[1..] {
            let item = marked.iter().find(|item| item[0] == format!("{} (quote)", row[0])).unwrap();
            assert_eq!(item[5], row[5], "{row:?}");
            assert_ne!(row[5], row[6], "the catalog's price is another");
        }
    }
}

/// A crew-day is people times eight hours times the rate of the hour (common practice, no source); openings add up to every
/// opening, but for a cent of rounding a line; unit prices and allowances are the same on both papers.
#[test]
fn what_moves_the_bid_adds_up() {
    for (recap, bid) in papers() {
        let rates = tables(recap, &["Trade", "Build-up", "Rate"]).remove(0);
        let hour = |overtime: bool| cents(&rates[if overtime { 2 } else { 1 }][2]);
        let head = ["Item", "Change", "Cost, more", "Bid, more", "Cost, less", "Bid, less"];
        let swings = tables(recap, &head).remove(0);
        let every = swings.iter().position(|row| row[0] == "Every opening").unwrap();
        for row in &swings[1..every] {
            let people = if row[1].starts_with("one") { 1 } else { number(&row[1][..1]) / 10_000 };
            let allowed = [people * 8 * hour(false), people * 8 * hour(true)];
            assert!(allowed.contains(&cents(&row[2])), "{row:?}: {allowed:?}");
            assert!(
                cents(&row[3]) > cents(&row[2]) && cents(&row[5]) < cents(&row[4]) && cents(&row[4]) < 0,
                "{row:?}"
            );
        }
        for column in 2..6 {
            let sum: i128 = swings[1..every].iter().map(|row| cents(&row[column])).sum();
            let apart = (sum - cents(&swings[every][column])).abs();
            assert!(apart <= every as i128 * 3, "column {column}: {apart} cents");
        }
        let own = tables(recap, &["Description", "Unit", "Price"]).remove(0);
        let offered = tables(bid, &["No.", "Description", "Unit", "Price"]).remove(0);
        assert_eq!(own.len(), offered.len());
        for (own, offered) in own[1..].iter().zip(&offered[1..]) {
            assert_eq!(own[0], format!("{} {}", offered[0], offered[1]));
            assert_eq!((&own[1], &own[2]), (&offered[2], &offered[3]));
        }
        let allowances = tables(bid, &["No.", "Description", "Amount"]).remove(0);
        let build_up = tables(recap, &BUILD_UP).remove(0);
        for row in &allowances[1..] {
            let line = build_up.iter().find(|line| line[0] == format!("{} {}", row[0], row[1])).unwrap();
            assert_eq!(line[3], row[2], "{row:?}");
        }
    }
}

/// What rests on a fact that is not known is a part of the direct cost.
#[test]
fn what_is_not_known_is_part_of_the_cost() {
    for (recap, _) in papers() {
        let table = tables(recap, &["Assumption", "Openings", "In the price"]).remove(0);
        let build_up = tables(recap, &BUILD_UP).remove(0);
        let direct = build_up.iter().find(|row| row[0] == "Direct cost").unwrap();
        let priced: Vec<i128> = table[1..].iter().filter(|row| row[2] != "nothing").map(|row| cents(&row[2])).collect();
        assert!(priced.len() >= 4 && priced.iter().all(|it| *it > 0), "{table:?}");
        assert!(priced.iter().sum::<i128>() < cents(&direct[3]));
    }
}

/// No table with money stands on either paper that none of these tests looks at.
#[test]
fn every_table_with_money_is_looked_at() {
    let looked_at: [&[&str]; 17] = [
        &["Item", "Net", "Waste", "Priced", "Unit", "Price", "Extension"],
        &["Visit", "Trade", "Hours", "Rate", "Amount"],
        &["Trade", "Build-up", "Rate"],
        &["Item", "Bought", "Surplus", "Cost"],
        &BUILD_UP,
        &["Line", "Calculation", "Amount"],
        &["No.", "Description", "Bid with it", "Change"],
        &["No.", "Description", "Openings", "Add or deduct", "Amount"],
        &["Site", "Visit", "People", "Labor h", "Travel cost"],
        &["Item", "Quoted by", "Date", "Valid to", "Freight", "Quote", "Catalog"],
        &["Item", "Change", "Cost, more", "Bid, more", "Cost, less", "Bid, less"],
        &["Description", "Unit", "Price"],
        &["No.", "Description", "Unit", "Price"],
        &["No.", "Description", "Amount"],
        &["Assumption", "Openings", "In the price"],
        // Changes of the bid by an answer: `review_papers` works one of them out.
        &["No.", "Question", "Openings", "Effect on bid", "Entered at"],
        // The base bid in its box has no head: `the_build_up_adds_up_to_the_bid` looks at it.
        &["Base bid"],
    ];
    for (recap, bid) in papers() {
        for table in recap.tables().into_iter().chain(bid.tables()) {
            if table.iter().flatten().any(|cell| cell.contains('$')) {
                let known = looked_at.iter().any(|head| table[0].iter().zip(*head).all(|(cell, word)| cell == word));
                assert!(known, "nobody looks at {:?}", table[0]);
            }
        }
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
    assert_eq!(cents("($1,350.00)"), -135_000);
    assert_eq!((number("4.8"), number("0.045"), number("1,000")), (48_000, 450, 10_000_000));
}
