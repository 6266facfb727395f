//! CSV by RFC 4180.
//!
//! In: heads and rows. Out: bytes in UTF-8 without a byte order mark, every record ended by CRLF.
//! May not know: files, columns.

/// A table as CSV (RFC 4180): records end with CRLF; a field that holds a comma, a quote or a line end, or begins or ends
/// with a space, stands in quotes, with its own quotes doubled.
///
/// A spreadsheet runs a field that begins with `=`, `+`, `-` or `@`, with a tab or with a carriage return, as a formula.
/// Such a field is written with an apostrophe in front, which spreadsheets take as "this is text" and which a program
/// that reads the file must take off. A plain number, such as `-12.50`, is no formula and stays as it is.
///
/// A spreadsheet that is set to part cells at semicolons or tabs sees a new cell behind each of them and behind each line end. Where a
/// formula would begin there, the apostrophe stands there too, and the field stands in quotes: `x;=1+1` becomes `"x;'=1+1"`.
pub fn csv<F: AsRef<str>, R: AsRef<[F]>>(heads: &[&str], rows: &[R]) -> Vec<u8> {
    let mut text = String::new();
    record(&mut text, heads.iter().copied());
    for row in rows {
        record(&mut text, row.as_ref().iter().map(F::as_ref));
    }
    text.into_bytes()
}

fn record<'a>(text: &mut String, fields: impl Iterator<Item = &'a str>) {
    let start = text.len();
    for (index, field) in fields.enumerate() {
        if index > 0 {
            text.push(',');
        }
        write_field(text, field);
    }
    // A record of one empty field would be an empty line, which readers skip.
    if text.len() == start {
        text.push_str("\"\"");
    }
    text.push_str("\r\n");
}

fn write_field(text: &mut String, field: &str) {
    if is_plain(field) {
        return text.push_str(field);
    }
    let guard = if is_formula(field) { "'" } else { "" };
    let parted = parted_formulas_guarded(field);
    let quoted = field.contains([',', '"', '\r', '\n']) || field.starts_with(' ') || field.ends_with(' ');
    if quoted || parted != field {
        text.extend(["\"", guard, &parted.replace('"', "\"\""), "\""]);
    } else {
        text.extend([guard, field]);
    }
}

/// Whether it is written as it is, by its bytes alone: nearly all fields are.
fn is_plain(field: &str) -> bool {
    let bytes = field.as_bytes();
    let parts = |byte: &u8| matches!(byte, b',' | b'"' | b';' | b'\t' | b'\r' | b'\n');
    let edge = |byte: Option<&u8>| matches!(byte, Some(b' ' | b'=' | b'+' | b'-' | b'@'));
    !edge(bytes.first()) && bytes.last() != Some(&b' ') && !bytes.iter().any(parts)
}

/// The field with an apostrophe before each formula that begins behind a semicolon, a tab or a line end.
fn parted_formulas_guarded(field: &str) -> String {
    let mut out = String::with_capacity(field.len());
    for part in field.split_inclusive([';', '\t', '\r', '\n']) {
        let begins = part.trim_start_matches([' ', '"']);
        let own = begins.trim_end_matches([';', '\t', '\r', '\n']).trim_end();
        if !out.is_empty() && begins.starts_with(['=', '+', '-', '@']) && own.len() > 1 && !is_number(own) {
            out.push_str(&part[..part.len() - begins.len()]);
            out.push('\'');
            out.push_str(begins);
        } else {
            out.push_str(part);
        }
    }
    out
}

fn is_formula(field: &str) -> bool {
    field.starts_with(['=', '+', '-', '@', '\t', '\r']) && !is_number(field)
}

/// A sign, digits and at most one point.
fn is_number(field: &str) -> bool {
    let digits = field.strip_prefix(['-', '+']).unwrap_or(field);
    let (whole, part) = digits.split_once('.').unwrap_or((digits, "0"));
    let all_digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    all_digits(whole) && all_digits(part)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(field: &str) -> String {
        let bytes = csv(&["a"], &[vec![field.to_owned()]]);
        String::from_utf8(bytes).unwrap().strip_prefix("a\r\n").unwrap().strip_suffix("\r\n").unwrap().to_owned()
    }

    #[test]
    fn quotes_follow_the_rule() {
        // RFC 4180, section 2, rules 5 to 7.
        let rows = [
            ("plain", "plain"),
            ("a, b", "\"a, b\""),
            ("3'-0\"", "\"3'-0\"\"\""),
            ("two\nlines", "\"two\nlines\""),
            (" edge", "\" edge\""),
            ("", "\"\""),
        ];
        for (field, written) in rows {
            assert_eq!(one(field), written);
        }
        let table = csv(&["mark", "note"], &[vec!["101A", ""], vec![]]);
        assert_eq!(String::from_utf8(table).unwrap(), "mark,note\r\n101A,\r\n\"\"\r\n");
    }

    #[test]
    fn formulas_are_text_and_numbers_stay_numbers() {
        for field in ["=1+1", "+SUM(A1)", "-A1", "@x", "-1e5", "--1", "-", "\tx"] {
            assert_eq!(one(field), format!("'{field}"));
        }
        assert_eq!(one("=HYPERLINK(\"x\",1)"), "\"'=HYPERLINK(\"\"x\"\",1)\"");
        for (field, written) in [
            ("x;=1+1", "\"x;'=1+1\""),
            ("x; @y;b", "\"x; '@y;b\""),
            ("x\t+A1", "\"x\t'+A1\""),
            ("a\n=1", "\"a\n'=1\""),
            ("a; b", "a; b"),
            ("a; -12.50; - ", "\"a; -12.50; - \""),
        ] {
            assert_eq!(one(field), written);
        }
        for field in ["-12.50", "+3", "12"] {
            assert_eq!(one(field), field);
        }
    }

    /// What is written is read back by an independent reader.
    #[test]
    fn a_reader_gives_the_fields_back() {
        let fields = ["", "a", "a,b", "\"", "\"\"", "x\r\ny", "é ½", " s ", "1.5"];
        let rows: Vec<Vec<String>> = fields.iter().map(|a| fields.map(|b| format!("{a}{b}")).to_vec()).collect();
        let heads: Vec<String> = (0..fields.len()).map(|index| format!("c{index}")).collect();
        let heads: Vec<&str> = heads.iter().map(String::as_str).collect();
        let read = parse(&csv(&heads, &rows));
        assert_eq!(read[0], heads);
        assert_eq!(read[1..], rows);
    }

    fn parse(bytes: &[u8]) -> Vec<Vec<String>> {
        let mut reader = csv_core::Reader::new();
        let (mut input, mut rows, mut row, mut field) = (bytes, Vec::new(), Vec::new(), Vec::new());
        loop {
            let mut room = [0; 64];
            let (result, read, written) = reader.read_field(input, &mut room);
            input = &input[read..];
            field.extend_from_slice(&room[..written]);
            match result {
                csv_core::ReadFieldResult::Field { record_end } => {
                    row.push(String::from_utf8(std::mem::take(&mut field)).unwrap());
                    if record_end {
                        rows.push(std::mem::take(&mut row));
                    }
                }
                csv_core::ReadFieldResult::End => return rows,
                _ => {}
            }
        }
    }
}
