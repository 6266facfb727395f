//! Templates and views to trees, and every fault at its line and column.

use serde::Serialize;
use serde_json::json;

use super::{Source, Templates, Tree};
use crate::findings::{Files, Findings, Place};

/// Files under their names, loaded as templates.
fn load(texts: &[(&str, &str)], findings: &mut Findings) -> (Files, Templates) {
    let files = Files::new(texts.iter().map(|(name, text)| (name.to_string(), text.as_bytes().to_vec())));
    let sources: Vec<Source<'_>> = files
        .ids()
        .map(|file| Source { name: files.path(file), file, text: files.text(file).expect("tests are UTF-8") })
        .collect();
    let templates = Templates::load(sources, findings);
    (files, templates)
}

/// Findings as `code file:line:column "what stands there" found / asked / advice`.
fn shown(files: &Files, findings: &Findings) -> Vec<String> {
    let line = |finding: &crate::findings::Finding| {
        let place = match finding.place() {
            Some(Place::Text { file, span }) => {
                let text = files.text(*file).expect("tests are UTF-8");
                let (before, at) = text.split_at(span.start as usize);
                let line = before.matches('\n').count() + 1;
                let column = before.chars().rev().take_while(|c| *c != '\n').count() + 1;
                let length = (span.end - span.start) as usize;
                format!(" {}:{line}:{column} {:?}", files.path(*file), &at[..length])
            }
            _ => String::new(),
        };
        let advice = finding.remedy.as_ref().map_or("", |remedy| &remedy.text);
        format!("{}{place} {} / {} / {advice}", finding.code.id, finding.found, finding.asked)
    };
    findings.iter().map(line).collect()
}

fn faults<V: Serialize>(texts: &[(&str, &str)], view: &V) -> Vec<String> {
    let mut findings = Findings::default();
    let (files, templates) = load(texts, &mut findings);
    let tree = templates.render("a.xml", view, &mut findings);
    assert_eq!(tree.is_none(), !findings.is_empty(), "a tree or findings, never both");
    shown(&files, &findings)
}

fn tree<V: Serialize>(text: &str, view: &V) -> Tree {
    let mut findings = Findings::default();
    let (files, templates) = load(&[("a.xml", text)], &mut findings);
    let tree = templates.render("a.xml", view, &mut findings);
    tree.unwrap_or_else(|| panic!("{:#?}", shown(&files, &findings)))
}

/// Blocks one a line, indented by depth: kind, name, text.
fn dump(tree: &Tree) -> Vec<String> {
    fn walk(tree: &Tree, id: super::BlockId, depth: usize, lines: &mut Vec<String>) {
        let block = tree.block(id);
        let body = match &block.body {
            super::Body::Text(inlines) => format!(" {inlines:?}"),
            _ => String::new(),
        };
        let name = block.name.as_ref().map_or(String::new(), |name| format!(" #{name}"));
        lines.push(format!("{}{:?}{name}{body}", "  ".repeat(depth), block.kind));
        tree.children(id).iter().for_each(|child| walk(tree, *child, depth + 1, lines));
    }
    let mut lines = Vec::new();
    walk(tree, tree.root(), 0, &mut lines);
    lines
}

const OPEN: &str = "<document title=\"T\" lang=\"en-US\"><sheet>";
const CLOSE: &str = "</sheet></document>";

fn sheet(inside: &str) -> String {
    format!("{OPEN}\n{inside}\n{CLOSE}")
}

#[test]
fn a_template_and_a_view_become_blocks_in_reading_order() {
    let text = sheet(
        "<h1>Bid for {{ name }}</h1><table><col w=\"1in\"/><col w=\"2*\" align=\"decimal\"/><tbody>{% for row in rows %}\
         <tr><td name=\"mark\">{{ row.mark }}</td><td>{{ row.price }}</td></tr>{% endfor %}</tbody></table>\
         <ul><li>  a <b> b</b>\n c<br/> d </li><li><p>e</p><checks><li on=\"yes\">f</li></checks></li></ul>",
    );
    let rows = json!([{"mark": "101A", "price": "1,200.50"}, {"mark": "<b>&\"'", "price": "7"}]);
    let got = dump(&tree(&text, &json!({"name": "Larch & Sons", "rows": rows})));
    let plain = |text: &str| {
        format!("Text {{ text: {text:?}, weight: Weight {{ bold: false, italic: false, large: false }}, to: None }}")
    };
    let cell = "Cell { scope: None, column: COLUMN, colspan: 1, rowspan: 1, align: None, height: None }";
    let expected = vec![
        "Document".to_string(),
        "  Sheet { size: Letter, orientation: Portrait, on_front: false }".to_string(),
        format!("    Heading(1) [{}]", plain("Bid for Larch & Sons")),
        "    Table { columns: [Column { width: Fixed(Mp(72000)), align: Left, carries: false }, Column { width: Share(2), align: Decimal, carries: false }], \
         look: Rows }"
            .to_string(),
        "      TableBody".to_string(),
        "        Row { kind: Plain, carry: None }".to_string(),
        format!("          {} #mark [{}]", cell.replace("COLUMN", "0"), plain("101A")),
        format!("          {} [{}]", cell.replace("COLUMN", "1"), plain("1,200.50")),
        "        Row { kind: Plain, carry: None }".to_string(),
        format!("          {} #mark [{}]", cell.replace("COLUMN", "0"), plain("<b>&\"'")),
        format!("          {} [{}]", cell.replace("COLUMN", "1"), plain("7")),
        "    List(Bullet)".to_string(),
        format!(
            "      Item {{ checked: false }} [{}, Text {{ text: \"b\", weight: Weight {{ bold: true, italic: false, large: \
             false }}, to: None }}, {}, Break, {}]",
            plain("a "),
            plain(" c"),
            plain("d")
        ),
        "      Item { checked: false }".to_string(),
        format!("        Paragraph [{}]", plain("e")),
        "        List(Check)".to_string(),
        format!("          Item {{ checked: true }} [{}]", plain("f")),
    ];
    assert_eq!(got, expected);
}

#[test]
fn no_break_characters_and_names_with_accents_are_kept() {
    let text = sheet("<p>{{ size }}\u{a0}é\u{2011}x&#x2060;</p>");
    let tree = tree(&text, &json!({"size": "3\u{202f}ft"}));
    assert_eq!(tree.text(tree.root()), "3\u{202f}ft\u{a0}é\u{2011}x\u{2060}");
}

#[test]
fn every_fault_of_the_markup_is_found_in_one_run_at_its_place() {
    let text = sheet(
        "<blockquote>x</blockquote>\n<p algin=\"left\">x</p>\n<p><td>x</td></p>\n  <box class=\"cuation\"><p>x</p></box>\n\
         <table>Total<tbody><tr colspan=\"2\"><td\n   colspan=\"two\">x</td></tr></tbody></table>\n<figure/>\n<tabel></tabel>\n\
         <p>p. <page/></p>\n<td/>\n<br/>\n<space h=\"-1in\"/>\n<ul></ul>\n<li><p>a</p>b</li>",
    );
    let sheet = "head, foot, titleblock, h1, h2, h3, p, ul, ol, checks, dl, table, figure, answer, space, rule, box, keep, sign, \
                 side, columns, contents, stamp, enclosed, pagebreak";
    let sheet_holds = format!("<sheet> holds {sheet}");
    let p_holds = "<p> holds see, pageof, b, i, large, br, check, blank";
    let expected = vec![
        format!("unknown-element a.xml:2:1 \"<blockquote\" blockquote /  / one of {sheet}"),
        "unknown-attribute a.xml:3:4 \"algin\" algin /  / nothing: leave it out".to_string(),
        format!(
            "misplaced-element a.xml:4:4 \"<td\" td / {p_holds} / outside <p>: <table><tbody><tr><td>…</td></tr></tbody></table>"
        ),
        "bad-attribute a.xml:5:8 \"class\" class=\"cuation\" / caution, note, hold, stop / caution".to_string(),
        "stray-text a.xml:6:1 \"<table\" Total /  / <tbody><tr><td>…</td></tr></tbody>".to_string(),
        "unknown-attribute a.xml:6:24 \"colspan\" colspan /  / one of class, carry".to_string(),
        "bad-attribute a.xml:7:4 \"colspan\" colspan=\"two\" / a whole number from 1 to 100 / ".to_string(),
        "missing-attribute a.xml:8:1 \"<figure\"  / drawing / drawing=\"…\"".to_string(),
        "unknown-element a.xml:9:1 \"<tabel\" tabel /  / table".to_string(),
        format!(
            "misplaced-element a.xml:10:7 \"<page\" page / {p_holds} / outside <p>: <head><left><page/></left></head>"
        ),
        format!(
            "misplaced-element a.xml:11:1 \"<td\" td / {sheet_holds} / <table><tbody><tr><td>…</td></tr></tbody></table>"
        ),
        format!("misplaced-element a.xml:12:1 \"<br\" br / {sheet_holds} / <p><br/></p>"),
        "bad-attribute a.xml:13:8 \"h\" h=\"-1in\" / an extent such as 1.2in, 9pt or 20mm / ".to_string(),
        "misplaced-element a.xml:14:1 \"<ul\" ul / it needs at least one <li> / <li>…</li>".to_string(),
        format!("misplaced-element a.xml:15:1 \"<li\" li / {sheet_holds} / <ul><li>…</li></ul>"),
    ];
    assert_eq!(faults(&[("a.xml", &text)], &json!({})), expected);
}

#[test]
fn children_out_of_turn_are_found() {
    let cases = [
        (
            "<table><tbody/><thead/></table>",
            "<thead",
            "<table> holds col, thead, tbody, tfoot in this order / <thead> before any <tbody>",
        ),
        (
            "<table><thead/><thead/><tbody/></table>",
            "<thead",
            "<table> holds col, thead, tbody, tfoot in this order / one <thead> with what both hold",
        ),
        ("<table><thead/></table>", "<table", "it needs at least one <tbody> / <tbody>…</tbody>"),
        ("<dl><dd>a</dd></dl>", "<dd", "terms <dt> and details <dd> come in turn / <dt>…</dt> before it"),
        (
            "<dl><dt>a</dt><dt>b</dt><dd>c</dd></dl>",
            "<dt",
            "terms <dt> and details <dd> come in turn / <dd>…</dd> before it",
        ),
        ("<dl><dt>a</dt><dd>c</dd><dt>a</dt></dl>", "<dl", "the last <dt> has no <dd> / <dd>…</dd> after it"),
        ("<h1>a</h1><h3>b</h3><h2>c</h2><h3>d</h3>", "<h3", "there is no <h2> above it / <h2>"),
        (
            "<p>x</p><foot/>",
            "<foot",
            "<sheet> holds head, foot, titleblock in this order / <foot> before any other block",
        ),
        (
            "<table><col/><col/><tbody><tr><td/><td colspan=\"2\"/></tr></tbody></table>",
            "<td",
            "the table has 2 columns, and this row has filled them / </tr><tr> before it, or one more <col/>",
        ),
        (
            "<table><col/><col/><tbody><tr><td/><td rowspan=\"2\"/></tr><tr><td/><th/></tr></tbody></table>",
            "<th",
            "the table has 2 columns, and this row has filled them / </tr><tr> before it, or one more <col/>",
        ),
    ];
    for (inside, tag, asked) in cases {
        let got = faults(&[("a.xml", &sheet(inside))], &json!({}));
        assert_eq!(got.len(), 1, "{inside}: {got:?}");
        assert!(got[0].starts_with("misplaced-element a.xml:2:"), "{got:?}");
        assert!(got[0].contains(&format!("{tag:?}")) && got[0].contains(asked), "{got:?}");
    }
}

#[test]
fn a_cell_covers_no_rows_beyond_its_part() {
    let table = "<table><thead><tr><th rowspan=\"2\">a</th></tr></thead><tbody><tr><td>b</td></tr></tbody></table>";
    assert_eq!(
        faults(&[("a.xml", &sheet(table))], &json!({})),
        ["bad-attribute a.xml:2:23 \"rowspan\" rowspan=\"2\" / at most 1: its <thead> ends there / "]
    );
}

#[test]
fn a_fault_in_an_included_template_is_placed_there() {
    let main = sheet("{% for row in rows %}{% include \"b.xml\" %}{% endfor %}");
    let texts = [("a.xml", main.as_str()), ("b.xml", "<p>fine</p>\n<p><b>{{ row }}</b>\n <q/></p>")];
    assert_eq!(
        faults(&texts, &json!({"rows": [1, 2, 3]})),
        ["unknown-element b.xml:3:2 \"<q\" q /  / one of see, pageof, b, i, large, br, check, blank"],
        "once, however often it was rendered"
    );
    let texts = [("a.xml", main.as_str()), ("b.xml", "<p>fine</p>\n<p><b>{{ row.mark }}</b></p>")];
    let got = faults(&texts, &json!({"rows": [{"size": 1}]}));
    assert_eq!(got.len(), 1);
    assert!(got[0].starts_with("template-value b.xml:2:14 \"mark\""), "{got:?}");
}

#[test]
fn faults_of_the_template_language_are_placed_in_the_template_as_written() {
    let cases = [
        ("<p class=\"x\">a</p><p>\n  {{ nmae }}</p>", "template-value a.xml:3:6 \"nmae\""),
        ("<p>a</p>\n<p>{{ job.nmae }}</p>", "template-value a.xml:3:11 \"nmae\""),
        ("<p>a</p><p>{{ job.name | shout }}</p>", "template-syntax a.xml:2:26 \"shout\" Unknown filter `shout`"),
        (
            "<p>a</p>\n{% for x in job %}<p>b</p>",
            "template-syntax a.xml:3:3 \" for x in job \" for is never closed /  / {% endfor %}",
        ),
        ("<p>a</p>\n <p>{{ job.name | safe }}</p>", "template-refused a.xml:3:19 \"safe\" the filter safe"),
        ("<p>{{ job.count * 2 }}</p>", "template-refused a.xml:2:17 \"*\" arithmetic"),
        ("<p>x</p>{% include \"none.xml\" %}", "template-missing a.xml:2:11 \" include \\\"none.xml\\\" \" none.xml"),
        (
            "<p>x</p>{% include \"a.xml\" %}",
            "template-refused a.xml:2:11 \" include \\\"a.xml\\\" \" an inclusion of a.xml",
        ),
    ];
    for (inside, expected) in cases {
        let got = faults(&[("a.xml", &sheet(inside))], &json!({"job": {"name": "n", "count": 3}}));
        assert_eq!(got.len(), 1, "{inside}: {got:?}");
        assert!(got[0].starts_with(expected), "{inside}: {got:?}");
    }
}

#[test]
fn tags_that_do_not_match_are_placed_at_the_one_that_is_open() {
    let cases = [
        ("<p>a</p>\n<p>x <b>net</p></b>", "markup-broken a.xml:3:6 \"<b\" <b> is closed by </p>"),
        ("<p>a\n<p>b</p>", "markup-broken a.xml:2:1 \"<p\" <p> is closed by </sheet>"),
        ("<p>a</p>\n <p>R & D</p>", "markup-broken a.xml:3:2 \"<p\" malformed entity reference"),
        ("<p name=\"a\" name=\"b\">x</p>", "markup-broken a.xml:2:1 \"<p\""),
    ];
    for (inside, expected) in cases {
        let got = faults(&[("a.xml", &sheet(inside))], &json!({}));
        assert_eq!(got.len(), 1, "{inside}: {got:?}");
        assert!(got[0].starts_with(expected), "{inside}: {got:?}");
    }
}

#[test]
fn loops_too_deep_over_inclusions_are_refused_and_other_templates_still_render() {
    let outer = "{% for a in x %}{% for b in x %}{% include \"b.xml\" %}{% endfor %}{% endfor %}";
    let inner = "{% for c in x %}{% for d in x %}<p>x</p>{% endfor %}{% endfor %}";
    let good = sheet("<p>good</p>");
    let texts = [("a.xml", sheet(outer)), ("b.xml", inner.to_string()), ("c.xml", good)];
    let texts: Vec<(&str, &str)> = texts.iter().map(|(name, text)| (*name, text.as_str())).collect();
    let mut findings = Findings::default();
    let (files, templates) = load(&texts, &mut findings);
    let got = shown(&files, &findings);
    assert_eq!(got.len(), 1, "{got:?}");
    assert!(got[0].contains("loops more than three deep, counting those of b.xml"), "{got:?}");
    assert!(!templates.is_usable("a.xml") && templates.is_usable("b.xml") && templates.is_usable("c.xml"));
    let mut more = Findings::default();
    assert!(templates.render("a.xml", &json!({"x": []}), &mut more).is_none() && more.is_empty(), "said at loading");
    assert!(templates.render("c.xml", &json!({}), &mut more).is_some());
}

#[test]
fn a_paper_without_end_is_stopped() {
    let loops = "{% for a in range(end=200) %}{% for b in range(end=200) %}{% for c in range(end=200) %}";
    let text = sheet(&format!("{loops}<p>twelve more</p>{}", "{% endfor %}".repeat(3)));
    assert_eq!(faults(&[("a.xml", &text)], &json!({})), ["template-too-long  / 64 MiB / "]);
}

#[test]
fn values_cannot_become_tags_or_attributes() {
    let text = sheet("<p name=\"{{ v }}\">{{ v }}</p>");
    let evil = "\"><h1>x</h1><p \u{2028}' on=\"";
    let tree = tree(&text, &json!({"v": evil}));
    assert_eq!(tree.len(), 3, "document, sheet, paragraph");
    assert_eq!(tree.text(tree.root()), evil);
}

#[test]
fn the_page_for_people_names_every_element_attribute_and_word() {
    let page = include_str!("MARKUP.md");
    let mut missing = Vec::new();
    for element in super::ELEMENTS {
        let heading = format!("`<{}>`", element.name);
        let Some(line) = page.lines().find(|line| line.starts_with("| ") && line.contains(&heading)) else {
            missing.push(heading);
            continue;
        };
        for attribute in element.attributes {
            let words = match attribute.takes {
                super::AttributeValue::Word(words) => words,
                _ => &[],
            };
            let asked = words.iter().map(|word| word.to_string()).chain([format!("`{}`", attribute.name)]);
            missing.extend(asked.filter(|asked| !line.contains(asked)).map(|asked| format!("{heading} {asked}")));
        }
    }
    assert_eq!(missing, Vec::<String>::new());
}

#[test]
fn the_examples_of_the_page_for_people_can_be_read() {
    let page = include_str!("MARKUP.md");
    let examples: Vec<&str> = page.split("```xml\n").skip(1).filter_map(|rest| rest.split("```").next()).collect();
    assert!(examples.len() >= 5, "{}", examples.len());
    for example in examples {
        let text = match example {
            whole if whole.starts_with("<document") => whole.to_string(),
            part => sheet(&format!("<h1>a</h1><h2>b</h2>{part}")),
        };
        let view =
            json!({"job": {"name": "n"}, "lines": [{"text": "t", "amount": "1.00", "unit": "ea"}], "total": "1.00"});
        assert_eq!(faults(&[("a.xml", &text)], &view), Vec::<String>::new(), "{example}");
    }
}

#[test]
fn every_place_to_fill_in_has_a_name_of_its_own_and_a_label() {
    let text = "<document title=\"T\" lang=\"en-US\"><foot><left><check/> seen</left></foot>\
        <sheet name=\"101.A\"><h1>Title</h1><p>By: <blank w=\"1in\"/>, <check/> it <b>closes</b>; <check on=\"yes\"/> it latches</p>\
        <table><thead><tr><th>What</th><th>Found</th><th>Seen</th></tr></thead><tbody>\
        <tr><td>Width</td><td field=\"width\"/><td><check/></td></tr>\
        <tr><td>Height</td><td field=\"width\" label=\"How high\"/><td><check/> clear</td></tr></tbody></table>\
        <checks><li>Mount the header.</li><li field=\"step 2\"><p>Level it.</p></li></checks><ul><li>no box</li></ul>\
        <dl><dt>Breaker</dt><dd><blank w=\"1in\"/></dd></dl><answer h=\"1in\" label=\"Why\"/><sign><line>Name</line></sign>\
        </sheet><sheet><h1>Other</h1><p><blank w=\"1in\"/></p><p><check field=\"Other-2\"/><check/></p></sheet></document>";
    let tree = tree(text, &json!({}));
    let fields: Vec<String> =
        tree.fields().iter().map(|field| format!("{}.{} = {}", field.sheet, field.name, field.label)).collect();
    let asked = [
        "101-A.By = By",
        "101-A.it-closes = it closes",
        "101-A.it-latches = it latches",
        "101-A.width = Width: Found",
        "101-A.Width-Seen = Width: Seen",
        "101-A.width-2 = How high",
        "101-A.Height-clear = Height: clear",
        "101-A.Mount-the-header = Mount the header.",
        "101-A.step-2 = Level it.",
        "101-A.Breaker = Breaker",
        "101-A.Why = Why",
        "101-A.Name = Name",
        "sheet-2.Other = Other",
        "sheet-2.Other-2 = Other",
        "sheet-2.Other-3 = Other",
    ];
    assert_eq!(fields, asked);
    let got =
        faults(&[("a.xml", &sheet("<table><tbody><tr><td field=\"a\">n/a</td></tr></tbody></table>"))], &json!({}));
    assert_eq!(
        got,
        [
            "bad-attribute a.xml:2:23 \"field\" field=\"a\" / an empty cell: what is filled in would stand on its words / "
        ]
    );
}
