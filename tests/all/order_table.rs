//! The lines of the order lists as a table for a spreadsheet: the same lines as on the pages, in the same order.
//!
//! In: the demo's order lists, the table beside them. Out: where they differ; the test wants nothing.

use hingewright::findings::Paper;
use hingewright::fonts::plain;
use hingewright::pipeline::Form;
use rust_decimal::Decimal;

use crate::demo::demo;

/// Records of a file in the form of RFC 4180, section 2: ended by CRLF, fields quoted where they must be, quotes doubled.
fn records(text: &str) -> Vec<Vec<String>> {
    let (mut all, mut record, mut field, mut quoted) = (Vec::new(), Vec::new(), String::new(), false);
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match (letter, quoted) {
            ('"', true) if letters.peek() == Some(&'"') => field.extend(letters.next()),
            ('"', _) => quoted = !quoted,
            (',', false) => record.push(std::mem::take(&mut field)),
            ('\r', false) => {
                assert_eq!(letters.next(), Some('\n'), "a record ends with CRLF");
                record.push(std::mem::take(&mut field));
                all.push(std::mem::take(&mut record));
            }
            (other, _) => field.push(other),
        }
    }
    assert!(!quoted && record.is_empty() && field.is_empty(), "the last record ends too");
    all
}

fn number(text: &str) -> Decimal {
    let digits: String = text.chars().take_while(|it| it.is_ascii_digit() || ".,".contains(*it)).collect();
    digits.replace(',', "").parse().unwrap_or_else(|_| panic!("{text}"))
}

/// Printed lines with the words above them: item, what, how much, for which openings.
fn printed() -> Vec<(String, Vec<String>)> {
    let mut lines = Vec::new();
    for table in demo().pdf(Paper::Orders).tables() {
        let table: Vec<Vec<String>> =
            table.iter().map(|row| row.iter().map(|cell| plain(cell).into_owned()).collect()).collect();
        let Some(words) = table.first().and_then(|row| row.first()).filter(|it| it.contains("RELEASED: ")) else {
            continue;
        };
        // Below the words stand the heads.
        let own = table.iter().skip(2);
        lines.extend(own.map(|row| (words.clone(), row.clone())));
    }
    lines
}

#[test]
fn the_table_has_the_lines_of_the_lists_with_their_quantities() {
    let paper = demo().issue.of_form(Form::Csv).find(|it| it.paper == Paper::Orders).expect("a table");
    assert_eq!(paper.name, "orders.csv");
    let records = records(std::str::from_utf8(&paper.bytes).expect("UTF-8"));
    let at = |head: &str| records[0].iter().position(|it| it == head).unwrap_or_else(|| panic!("no column {head}"));
    let printed = printed();
    assert!(printed.len() > 100, "{} printed lines", printed.len());
    assert_eq!(records.len() - 1, printed.len());
    let text = demo().pdf(Paper::Orders).text();
    let text = plain(&text);
    let mut pieces = 0;
    for (record, (words, line)) in records[1..].iter().zip(&printed) {
        assert_eq!(record.len(), records[0].len(), "{record:?}");
        let cell = |head: &str| record[at(head)].as_str();
        assert!(line[0].starts_with(cell("item")) && line[0].contains(cell("details")), "{record:?} is not {line:?}");
        assert_eq!(cell("openings"), line[2], "{record:?}");
        // Printed to two places; in the table to four, as a number.
        let off = cell("quantity").parse::<Decimal>().expect("a number") - number(&line[1]);
        assert!(off.abs() <= Decimal::new(5, 3), "{record:?} is not {line:?}");
        let unit = line[1].trim_start_matches(|it: char| it.is_ascii_digit() || "., ".contains(it));
        let reported = match (cell("unit"), cell("piece")) {
            ("each", "") => String::new(),
            ("pc", piece) => format!("pc of {piece}"),
            (unit, _) => unit.to_owned(),
        };
        assert_eq!(reported, unit, "{record:?} is not {line:?}");
        pieces += usize::from(cell("unit") == "pc");
        let released = if words.starts_with("RELEASED") { "yes" } else { "no" };
        assert_eq!(cell("released"), released, "{record:?} stands under {words}");
        assert!(words.contains(cell("against")), "{record:?} stands under {words}");
        for head in ["supplier", "site", "needed", "order by"] {
            assert!(!cell(head).is_empty() && text.contains(cell(head)), "{head} of {record:?} is not printed");
        }
    }
    assert!(pieces > 0, "the demo buys pieces");
    let released = |word: &str| records[1..].iter().filter(|it| it[at("released")] == word).count();
    assert!(released("yes") > 0 && released("no") > 0);
}
