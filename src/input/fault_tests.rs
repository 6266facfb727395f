//! One test a fault: which finding, at which line and column.

use super::tests::{DoorEntry, DoorFile, files, lines, read};
use super::*;
use crate::findings::{Files, as_text};

/// What reading a text finds, as `code line:column`.
fn found(toml: &str) -> Vec<String> {
    read(toml).1
}

/// The first finding: what it found, asks for, and says to type or do.
fn first(toml: &str) -> (String, String, String) {
    let (_, _, findings) = read(toml);
    let finding = findings.iter().next().expect("a finding").clone();
    (finding.found, finding.asked, finding.remedy.map(|remedy| remedy.text).unwrap_or_default())
}

fn check(cases: &[(&str, &[&str])]) {
    let mut failures = Vec::new();
    for (toml, expected) in cases {
        let found = found(toml);
        if found != *expected {
            failures.push(format!("{toml}\n  expected {expected:?}\n  found    {found:?}"));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

#[test]
fn every_fault_of_a_toml_value_has_its_place() {
    check(&[
        ("[[door]]\nmrak = 'x'", &["unknown-key 2:1"]),
        ("[[door]]\nmark = 3", &["wrong-type 2:8"]),
        ("[[door]]\nmark = { a = 1 }", &["wrong-type 2:8"]),
        ("[[door]]\nmark = ''", &["empty-value 2:8"]),
        ("[[door]]\nmark = 'x'\nmark = 'y'", &["duplicate-key 3:1"]),
        ("[[door]]\nmark = \"a\\u0007b\"", &["control-character 2:10"]),
        ("[[door]]\nmark = \"a\\u202Eb\"", &["control-character 2:10"]),
        ("[[door]]\nmark = \"a\u{7}b\"", &["control-character 2:10"]),
        ("[[door]]\nsite = 'a b'", &["bad-id 2:8"]),
        ("[[door]]\nfactor = 1.25", &["bare-decimal 2:10"]),
        ("[[door]]\nfactor = '1,25'", &["bad-number 2:10"]),
        ("[[door]]\nbends = [90, -45]", &["out-of-range 2:14"]),
        ("[[door]]\nbends = [90, 45.0, '3']", &["wrong-type 2:14", "wrong-type 2:20"]),
        ("[[door]]\nbends = 90", &["wrong-type 2:9"]),
        ("[[door]]\nhung_on = 2026-02-30", &["bad-date 2:11"]),
        ("[[door]]\nhung_on = '2026-11-03'", &["wrong-type 2:11"]),
        ("[[door]]\nhung_on = 2026-11-03T10:00:00", &["bad-date 2:11"]),
        ("[[door]]\noutdoors = 'yes'", &["wrong-type 2:12"]),
        ("[[door]]\nleaf = 'x'", &["wrong-type 2:8"]),
        ("[[door]]\nleaf = { count = 3, hinges = 'lft' }", &["bad-word 2:30"]),
        ("[[door]]\nleaf = { count = 6 }", &["out-of-range 2:18"]),
        ("[[door]]\nleaf = { count = 0 }", &["out-of-range 2:18"]),
        ("[[door]]\nspare = [{ what = 'a' }, 3]", &["wrong-type 2:26"]),
        ("[[door]]\nspare = [{ share = '5 %' }]", &["missing-key 2:10"]),
        ("[[door]]\nspare = [{ what = 'a', share = '5' }]", &["wrong-unit 2:33"]),
        ("kind = 3\n", &["wrong-type 1:8"]),
        ("[kind.'a b']\nsite = 'x'", &["bad-id 1:7"]),
        ("[[door]]\nstanding = 'drawn'\nseen = 2026-11-03", &["seen-not-surveyed 3:8"]),
        ("[[door]]\nstanding = 'guessed'", &["bad-word 2:12"]),
    ]);
}

#[test]
fn every_fault_of_a_line_of_toml_is_found_in_one_run() {
    let found = found("[[door]]\nmark = 3 ft\nsite = \n[[door]]\nmrak = 1\nfactor = 1.5\nbends = [1, -1]\n");
    let codes: Vec<&str> = found.iter().map(|line| line.split(' ').next().unwrap()).collect();
    let syntax = codes.iter().filter(|code| **code == "not-toml").count();
    assert!(syntax >= 2, "{found:?}");
    for code in ["unknown-key", "bare-decimal", "out-of-range"] {
        assert!(codes.contains(&code), "{code} in {found:?}");
    }
}

#[test]
fn while_a_file_has_syntax_errors_nothing_is_missing_or_unknown() {
    check(&[
        ("[[door]]\nspare = [{ share = '5 %' }]\nkind = 'gone'\nmark = = 3", &["not-toml 4:8"]),
        ("[[door]]\nspare = [{ share = '5 %' }]\nkind = 'gone'", &["missing-key 2:10", "unknown-kind 3:8"]),
    ]);
}

#[test]
fn remedies_are_what_to_type() {
    let remedies = [
        ("[[door]]\nmrak = 'x'", "mark"),
        ("[[door]]\nhung-on = 2026-11-03", "hung_on"),
        ("[[door]]\nfactor = 1.250", "\"1.250\""),
        ("[[door]]\nmark = 101", "\"101\""),
        ("[[door]]\nbends = [45.0]", "45"),
        ("[[door]]\nbends = ['45']", "45"),
        ("[[door]]\nsite = 'Main building, east'", "\"Main-building-east\""),
        ("[[door]]\nhung_on = '2026-11-03'", "2026-11-03"),
        ("[[door]]\nhung_on = '31.12.2026'", "2026-12-31"),
        ("[[door]]\nhung_on = '11/3/2026'", "2026-11-03 if the month comes first, 2026-03-11 if the day does"),
        ("[[door]]\noutdoors = 'yes'", "true"),
        ("[[door]]\nleaf = { count = 3, hinges = 'lft' }", "\"left\""),
        ("[[door]]\nspare = [{ what = 'a', share = 5 }]", "\"5%\""),
        ("[[door]]\nmark = \"a\\u0007b\"", "\"ab\""),
        ("[[door]]\nmark = 3 ft 0 in # so", "\"3 ft 0 in\""),
        ("[[door]]\nmark = left", "\"left\""),
        ("[[door]]\nbends = [1 2]", ""),
        ("[kind.lobby]\n[[door]]\nkind = 'loby'", "\"lobby\""),
        ("[[door]]\nspare = [{ share = '5 %' }]", "add, such as what = \"mortise\""),
    ];
    for (toml, remedy) in remedies {
        assert_eq!(first(toml).2, remedy, "{toml}");
    }
}

#[test]
fn an_unknown_key_is_reported_every_legal_one() {
    let (found, asked, _) = first("[[door]]\nspare = [{ what = 'a', colour = 'red' }]");
    assert_eq!((found.as_str(), asked.as_str()), ("colour", "one of what, share (a table of sort lock)"));
    let (_, asked, _) = first("[[door]]\nleaf = { count = 1, colour = 'red' }");
    assert_eq!(asked, "one of hinges, count, plate, lock, standing, by, seen (a table of sort leaf)");
}

#[test]
fn files_that_are_no_text_are_named() {
    for (bytes, code, says) in [
        (&b"[[door]]\nmark = '\x92'"[..], "not-utf8 2:9", "old code page"),
        (&b"\xff\xfem\x00"[..], "not-utf8 1:1", "UTF-16"),
        (&b""[..], "empty-file file", "empty"),
        (&b"\xef\xbb\xbf \r\n"[..], "empty-file file", "empty"),
    ] {
        let files = Files::new([("doors.toml".to_owned(), bytes.to_vec())]);
        let mut reader = Reader::new(&files);
        let _: DoorFile = reader.toml(files.find("doors.toml").unwrap());
        let findings = reader.into_findings();
        assert_eq!(lines(&files, &findings), [code]);
        assert!(as_text(&findings, &files, false).contains(says));
    }
}

#[test]
fn a_mark_of_byte_order_and_crlf_change_nothing() {
    let text = "[[door]]\nmark = 'x'\nleaf = { count = 3 }\nwhen = '''a\nb'''\n";
    let (doors, found, _) = read(&format!("\u{feff}{}", text.replace('\n', "\r\n")));
    assert_eq!(found, Vec::<String>::new());
    assert_eq!(doors.values(), read(text).0.values());
}

fn csv(text: &str) -> (Vec<DoorEntry>, Vec<String>) {
    let (files, _, file) = files("", text);
    let mut reader = Reader::new(&files);
    let doors = reader.csv(file);
    let findings = reader.into_findings();
    (doors, lines(&files, &findings))
}

#[test]
fn every_fault_of_a_table_has_its_place() {
    let cases: &[(&str, &[&str])] = &[
        ("mark,site\n101A\n", &["short-row 2:5"]),
        ("mark,site\n101A,main,north\n", &["long-row 2:11"]),
        // What is in the wrong column is not read: one comma too few is one finding.
        ("mark,site,bends\n101A,90\n101B,main,90\n", &["short-row 2:8"]),
        ("mark,bends\n101A,ninety,90\n", &["long-row 2:13"]),
        ("mark,site\n101A,main,\n", &[]),
        ("mark,leaf.hingse\n101A,left\n", &["unknown-head 1:6"]),
        ("mark,leaf\n101A,left\n", &["unknown-head 1:6"]),
        ("mark,site,mark\n101A,main,x\n", &["duplicate-head 1:11"]),
        ("mark,site\n101A,\"main\n102,x\n", &["unclosed-quote 2:6"]),
        ("mark,leaf.count\n101A,three\n102,-1\n103,2.0\n", &["bad-number 2:6", "out-of-range 3:5", "bad-number 4:5"]),
        ("mark,leaf.2.hinges\n101A,\" lft\"\n", &["bad-word 2:6"]),
        ("mark,outdoors\n101A,maybe\n", &["bad-word 2:6"]),
        ("mark,hung_on\n101A,11/3/2026\n", &["ambiguous 2:6"]),
        ("mark,site\n101A,a \"\"b\n", &["bad-id 2:6"]),
        ("mark,factor\n101A,1.25\n", &[]),
        ("mark,bends\n101A,90; 45;x\n", &["bad-number 2:13"]),
        ("mark,spare.1.share\n101A,5 %\n", &["missing-key 2:1"]),
        ("mark;site\n101A;a b\n", &["bad-id 2:6"]),
        ("mark,site\r\n\r\n101A,a b\r\n,\r\n", &["bad-id 3:6"]),
        ("mark,bends,bends.1\n101A,90,45\n", &["duplicate-key 2:9"]),
        ("mark,bends.1,bends\n101A,45,90\n", &["duplicate-key 2:9"]),
        ("mark\n10\u{7}1\n", &["control-character 2:3"]),
    ];
    for (text, expected) in cases {
        assert_eq!(csv(text).1, *expected, "{text}");
    }
}

#[test]
fn an_unknown_head_is_reported_the_nearest_with_its_position() {
    let (files, _, file) = files("", "mark,leaf.3.hingse\n1,left\n");
    let mut reader = Reader::new(&files);
    let _: Vec<DoorEntry> = reader.csv(file);
    let findings = reader.into_findings();
    let finding = findings.iter().next().unwrap();
    assert_eq!(finding.remedy.as_ref().unwrap().text, "leaf.3.hinges");
    assert!(finding.asked.starts_with("one of leaf.1.hinges, leaf.1.count, "), "{}", finding.asked);
}

#[test]
fn a_place_inside_a_value_counts_escapes_and_doubled_quotes() {
    let text =
        "[[door]]\nwhen = \"a \\\"Ä\\\" \\u00e9 + b\"\nmark = 'x'\n[[door]]\nwhen = \"\"\"\n  a \\\n   + b\"\"\"\n";
    let (doors, _, _) = read(text);
    let (files, _, file) = files(text, "mark,when\nx,\"  a \"\"b\"\" + c\"\n");
    let place = |formula: &Formula, word: &str| {
        let start = formula.as_str().find(word).unwrap();
        match formula.place(start..start + word.len()) {
            Some(crate::findings::Place::Text { file, span }) => {
                files.text(file).unwrap()[span.start as usize..span.end as usize].to_owned()
            }
            other => panic!("{other:?}"),
        }
    };
    let [one, two] = [0, 1].map(|at| doors.door.list()[at].when.cloned().unwrap());
    assert_eq!(one.as_str(), "a \"Ä\" é + b");
    assert_eq!([place(&one, "Ä"), place(&one, "é"), place(&one, "+ b")], ["Ä", "\\u00e9", "+ b"]);
    assert_eq!((two.as_str(), place(&two, "+ b").as_str()), ("a + b", "+ b"));
    let mut reader = Reader::new(&files);
    let rows: Vec<DoorEntry> = reader.csv(file);
    let three = rows[0].when.cloned().unwrap();
    assert_eq!(three.as_str(), "a \"b\" + c");
    assert_eq!([place(&three, "b"), place(&three, "+ c")], ["b", "+ c"]);
}

#[test]
fn a_line_that_is_not_toml_is_one_finding() {
    check(&[
        ("[[door]]\nmark = 3 ft 0 in\nsite = 'a b'\n", &["not-toml 2:8", "bad-id 3:8"]),
        ("[[door]]\nhello world\nsite = 'a b'\n", &["not-toml 2:7", "bad-id 3:8"]),
        ("[[door]]\nmark = 'x\nsite = 'a b'\n", &["not-toml 2:10", "bad-id 3:8"]),
        ("[[door]]\nmark =\nsite = 'a b'\n", &["not-toml 2:7", "bad-id 3:8"]),
        ("[[door\nmark = 'x'\nsite = 'a b'\n[[door]]\nsite = 'a b'\n", &["not-toml 1:7", "bad-id 5:8"]),
        ("[[door]]\nleaf = { count = 3, hinges = left }\nsite = 'a b'\n", &["not-toml 2:30", "bad-id 3:8"]),
        ("[[door]]\nbends = [1, 2\nsite = 'a b'\n", &["not-toml 2:14", "bad-id 3:8"]),
        (
            "[[door]]\nbends = [1, 2\nsite = 'a b'\nmark = 'x'\n\n[[door]]\nsite = 'a b'\n",
            &["not-toml 2:14", "bad-id 3:8", "bad-id 7:8"],
        ),
        ("[[door]]\nbends = [\n  1,\n  2\n\nsite = 'a b'\nmark = 'x'\n", &["not-toml 4:4", "bad-id 6:8"]),
        ("[[door]]\nmark = '''x\nsite = 'a b'\n", &["not-toml 2:12", "bad-id 3:8"]),
        ("hello\nworld\n[[door]]\nsite = 'a b'\nx\n", &["not-toml 1:6", "not-toml 2:6", "bad-id 4:8", "not-toml 5:2"]),
        ("[[door]]\nmark = x\nsite = y\n", &["not-toml 2:8", "not-toml 3:8"]),
    ]);
}
