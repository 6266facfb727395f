//! Findings as they are shown, whole.

use super::*;

static WRONG: Code = Code {
    id: "wrong-width",
    severity: Severity::Error,
    says: "{subject} is {found} wide",
    why: "",
    example: "",
    blocks: Papers::of(&[Paper::Packet]),
};

static CHECK: Code = Code {
    id: "look",
    severity: Severity::FieldVerify,
    says: "look {here} at it",
    why: "",
    example: "",
    blocks: Papers::NONE,
};

fn example() -> (Files, Findings) {
    let text = "\u{feff}[[opening]]\r\nmark = \"Ä1\"\twidth = \"9 ft\" # so\r\nheight = \"7 ft\"\r\n";
    let files = Files::new([("job.toml".to_owned(), text.as_bytes().to_vec())]);
    let file = files.find("job.toml").unwrap();
    let at = |word: &str| {
        let start = text.find(word).unwrap();
        Place::text(file, start, start + word.len())
    };
    let mut findings = Findings::default();
    findings.push(
        Finding::new(&WRONG, Subject::Opening("Ä1".into()))
            .at(at("\"9 ft\""))
            .near(at("\"7 ft\""), "its height")
            .found("9 ft")
            .asked("at most 8 ft")
            .margin("12 in too wide")
            .clause("table 3, 2026 edition")
            .type_at(at("\"9 ft\""), "\"3 ft 0 in\""),
    );
    findings.push(Finding::new(&CHECK, Subject::Job).at(Place::File(file)).found("nothing").advise("go and see"));
    (files, findings)
}

#[test]
fn text_shows_excerpt_facts_and_remedy() {
    let (files, findings) = example();
    let expected = "\
error[wrong-width]: opening Ä1 is 9 ft wide
 --> job.toml:2:21
  |
2 | mark = \"Ä1\"    width = \"9 ft\" # so
  |                        ^^^^^^
  |
 ::: job.toml:3:10
  |
3 | height = \"7 ft\"
  |          ------ its height
  |
  = asked: at most 8 ft
  = margin: 12 in too wide
  = clause: table 3, 2026 edition
  = type: \"3 ft 0 in\"
  = holds: packet

field-verify[look]: look {here} at it
--> job.toml
 = found: nothing
 = do: go and see

1 error, 1 field verification
";
    assert_eq!(as_text(&findings, &files, false), expected);
    assert!(as_text(&findings, &files, true).contains("\u{1b}["), "colour where it is asked for");
}

#[test]
fn json_holds_the_same_data() {
    let (files, findings) = example();
    let json: serde_json::Value = serde_json::from_str(&as_json(&findings, &files)).unwrap();
    let first = &json[0];
    assert_eq!(first["code"], "wrong-width");
    assert_eq!(first["sentence"], "opening Ä1 is 9 ft wide");
    assert_eq!(first["subject"]["id"], "Ä1");
    assert_eq!((&first["places"][0]["line"], &first["places"][0]["column"]), (&2.into(), &21.into()));
    assert_eq!(first["places"][1]["says"], "its height");
    assert_eq!(first["remedy"]["text"], "\"3 ft 0 in\"");
    assert_eq!(first["holds"][0], "packet");
    assert_eq!(json[1]["places"][0]["file"], "job.toml");
    assert_eq!(json[1].get("margin"), None);
}

#[test]
fn a_place_that_is_no_text_is_still_shown() {
    let files = Files::new([("t.csv".to_owned(), b"mark\n\xff\xfe1\n".to_vec())]);
    let file = files.find("t.csv").unwrap();
    let mut findings = Findings::default();
    findings.push(Finding::new(&WRONG, Subject::Job).at(Place::text(file, 5, 6)).found("0xFF"));
    findings.push(Finding::new(&WRONG, Subject::Job).at(Place::text(file, 9, 9)).found("the end"));
    let text = as_text(&findings, &files, false);
    assert!(text.contains("t.csv:2:1") && text.contains("t.csv:3:1"), "{text}");
}

#[test]
fn what_reads_alike_is_reported_once_with_all_that_it_is_about() {
    let files = Files::new([("job.toml".to_owned(), b"ceiling = 1\n".to_vec())]);
    let file = files.find("job.toml").unwrap();
    let of = |code: &'static Code, mark: &str| {
        Finding::new(code, Subject::Opening(mark.to_owned())).at(Place::text(file, 10, 11)).found("low")
    };
    let mut findings = Findings::default();
    ["101", "102"].iter().for_each(|mark| findings.push(of(&CHECK, mark)));
    findings.push(of(&CHECK, "103").advise("go and see"));
    ["101", "102"].iter().for_each(|mark| findings.push(of(&WRONG, mark)));
    let text = as_text(&findings, &files, false);
    assert_eq!(text.matches("field-verify[look]").count(), 2, "{text}");
    assert_eq!(text.matches(" = of: opening 101, opening 102\n").count(), 1, "{text}");
    assert_eq!(text.matches("error[wrong-width]").count(), 2, "sentences that name it differ: {text}");
    assert!(text.ends_with("2 errors, 3 field verifications\n"), "all of them are counted: {text}");
}

/// A table with the same fault in every row.
#[test]
fn what_differs_in_its_place_alone_is_reported_ten_times_and_counted() {
    let text = "width\n".repeat(25);
    let files = Files::new([("job.toml".to_owned(), text.clone().into_bytes())]);
    let file = files.find("job.toml").unwrap();
    let mut findings = Findings::default();
    for at in (0..text.len()).step_by(6) {
        findings.push(Finding::new(&WRONG, Subject::Job).at(Place::text(file, at, at + 5)).found("low"));
    }
    findings.push(Finding::new(&WRONG, Subject::Job).at(Place::text(file, 0, 1)).found("high"));
    findings.count_more(|it| it.found == "high", 40);
    let text = as_text(&findings, &files, false);
    assert_eq!(text.matches("error[wrong-width]: the job is low wide").count(), 10, "{text}");
    let more = " = and: 15 more that differ in their place alone, the last at job.toml:25:1\n";
    assert_eq!(text.matches(more).count(), 1, "{text}");
    assert_eq!(text.matches(" = and: 40 more that differ in their place alone\n").count(), 1, "{text}");
    assert!(text.ends_with("66 errors\n"), "all of them are counted: {text}");
    let json: serde_json::Value = serde_json::from_str(&as_json(&findings, &files)).unwrap();
    let reported = json.as_array().unwrap();
    assert_eq!(reported.len(), 11);
    let more: u64 = reported.iter().filter_map(|it| it["more"].as_u64()).sum();
    assert_eq!(reported.len() as u64 + more, 66);
}

/// A line that goes on for ever is shown as far as anybody reads, and its columns are counted all the same.
#[test]
fn a_line_without_end_is_cut() {
    let text = format!("ä{}x{}\n", "a".repeat(50_000), "é".repeat(50_000));
    let files = Files::new([("job.toml".to_owned(), text.clone().into_bytes())]);
    let file = files.find("job.toml").unwrap();
    let x = text.find('x').unwrap();
    for (at, place) in [(2, "job.toml:1:2"), (x, "job.toml:1:50002"), (x + 3, "job.toml:1:50004")] {
        let mut findings = Findings::default();
        findings.push(Finding::new(&WRONG, Subject::Job).at(Place::text(file, at, at + 1)).found("low"));
        let shown = as_text(&findings, &files, false);
        assert!(shown.contains(place) && shown.len() < 5_000, "{}", &shown[..shown.len().min(200)]);
    }
}
