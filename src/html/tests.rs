//! Checks of the file for a browser on small papers.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{StorageNames, write};
use crate::findings::{Files, Findings};
use crate::fonts::{Faces, Style};
use crate::markup::{Source, Templates};
use crate::shapes::{Anchor, Drawing, Part, Shape, Stroke, at};

fn paper(body: &str) -> String {
    paper_of(body, plan())
}

/// A paper with a drawing that is called `plan`.
fn paper_of(body: &str, drawing: Drawing) -> String {
    let text = format!(
        "<document title=\"Packet\" lang=\"en-US\"><head><left>Firm &amp; Co</left></head>\
         <foot><left>Job 1</left><right>Page <page/> of <pages/></right></foot><sheet>{body}</sheet></document>"
    );
    let mut findings = Findings::default();
    let files = Files::new([("a.xml".to_owned(), text.clone().into_bytes())]);
    let file = files.ids().next().expect("one file");
    let templates = Templates::load([Source { name: "a.xml", file, text: &text }], &mut findings);
    let tree = templates.render("a.xml", &serde_json::json!({}), &mut findings);
    let tree = tree.unwrap_or_else(|| panic!("the markup is sound: {findings:?}"));
    write(
        &tree,
        &BTreeMap::from([("plan".to_owned(), Arc::new(drawing))]),
        &Faces::built_in(),
        StorageNames { title: "Job 1", fingerprint: "0a" },
    )
}

fn plan() -> Drawing {
    let stroke = Stroke { width: 0.5, gray: 0.0, dash: Some((2.0, 1.0)) };
    let shapes = vec![
        Shape::Line { points: vec![at(0.0, 0.0), at(10.0, 20.0)], closed: false, stroke },
        Shape::Arc { center: at(10.0, 10.0), radius: 10.0, from: 0.0, sweep: 90.0, stroke },
        Shape::Arc { center: at(10.0, 10.0), radius: 5.0, from: 0.0, sweep: -360.0, stroke },
        Shape::Text {
            at: at(5.0, 5.0),
            text: "3'-0\" < 4'".to_owned(),
            size: 9.0,
            bold: true,
            anchor: Anchor::Middle,
            turn: 90.0,
        },
    ];
    Drawing {
        title: "Plan".to_owned(),
        alt: "the opening from above".to_owned(),
        scale: "not to scale".to_owned(),
        width: 100.0,
        height: 50.0,
        parts: vec![Part { name: "leaf".to_owned(), shapes }],
    }
}

/// Well-formed XML (the rules of XML 1.0), with no type of document, which an XML reader refuses.
fn nodes(page: &str) -> roxmltree::Document<'_> {
    let body = page.strip_prefix("<!DOCTYPE html>\n").expect("it says that it is HTML");
    roxmltree::Document::parse(body).unwrap_or_else(|fault| panic!("{fault}\n{body}"))
}

fn labels(page: &str) -> Vec<String> {
    let document = nodes(page);
    let fields = document.descendants().filter(|node| node.attribute("data-f").is_some());
    let said = fields.map(|field| field.attribute("aria-label").expect("every field says what it is for").to_owned());
    said.collect()
}

#[test]
fn a_touch_on_the_words_behind_a_box_checks_it() {
    let page = paper("<p>Seen: <check/> level <check on=\"yes\"/> <b>tight</b><br/>by <blank w=\"1in\"/></p>");
    assert_eq!(labels(&page), ["level", "tight", "by"]);
    let inside = |node: &roxmltree::Node<'_, '_>| node.text().unwrap_or_default().trim().to_owned();
    let document = nodes(&page);
    let labels = document.descendants().filter(|node| node.has_tag_name(("http://www.w3.org/1999/xhtml", "label")));
    let words: Vec<String> = labels
        .filter(|label| label.descendants().any(|node| node.attribute("type") == Some("checkbox")))
        .map(|label| label.descendants().filter(|node| node.is_text()).map(|node| inside(&node)).collect())
        .collect();
    assert_eq!(words, ["level", "tight"]);
    assert_eq!(page.matches("checked=\"checked\"").count(), 1);
}

#[test]
fn a_cell_to_fill_in_says_which_row_and_column_it_answers() {
    let page = paper(
        "<table class=\"grid\"><thead><tr><th>What</th><th>Printed</th><th>Found</th></tr></thead>\
         <tbody><tr><td>Reveal</td><td>4 in</td><td field=\"reveal\"/></tr><tr><td>Width</td><td></td><td><check/></td></tr></tbody></table>",
    );
    assert_eq!(labels(&page), ["Reveal: Found", "Width: Found"]);
}

#[test]
fn areas_signatures_and_items_carry_their_words() {
    let page = paper(
        "<h1>End</h1><answer h=\"1in\" label=\"Finding\"/><answer h=\"1in\"/><checks><li>shut</li></checks>\
         <sign><line w=\"*\">Foreman, date</line></sign>",
    );
    assert_eq!(labels(&page), ["Finding", "End", "shut", "Foreman, date"]);
}

#[test]
fn what_counts_pages_is_left_out_and_the_rest_of_the_running_lines_stands_once() {
    let page = paper("<h1>A</h1>");
    assert!(page.contains("<header><span>Firm &amp; Co</span> </header>"), "{page}");
    assert!(page.contains("<footer><span>Job 1</span> </footer>"), "{page}");
}

#[test]
fn a_drawing_is_turned_upright_and_keeps_its_words() {
    let page = paper("<figure drawing=\"plan\"/>");
    // y runs upward in a drawing and downward in SVG 1.1, section 7.3.
    assert!(page.contains("points=\"0,50 10,30\""), "{page}");
    // A quarter turn counterclockwise to the eye: from (20, 10) to (10, 20) in the drawing, sweep flag 0 (SVG 1.1, 8.3.8).
    assert!(page.contains("d=\"M20 40A10 10 0 0 0 10 30\""), "{page}");
    assert!(page.contains("rotate(-90 5 45)") && page.contains("3'-0&quot; &lt; 4'"), "{page}");
    assert!(page.contains("aria-label=\"the opening from above\""), "{page}");
    nodes(&page);
}

#[test]
fn links_and_contents_lead_to_what_they_name() {
    let page = paper(
        "<h1>A</h1><contents depth=\"2\"/><h2 id=\"b\">B &amp; C</h2><p>See <see to=\"b\">that</see>, page <pageof to=\"t\"/>.</p>\
         <h3>Not listed</h3><table><tbody><tr id=\"r\"><td id=\"t\">x</td></tr></tbody></table><p><see to=\"r\">row</see></p>",
    );
    let document = nodes(&page);
    let ids: Vec<&str> = document.descendants().filter_map(|node| node.attribute("id")).collect();
    let links: Vec<(&str, &str)> = document
        .descendants()
        .filter_map(|node| Some((node.attribute("href")?, node.text().unwrap_or_default())))
        .collect();
    assert!(links.iter().all(|(link, _)| ids.contains(&&link[1..])), "{links:?} in {ids:?}");
    let words: Vec<&str> = links.iter().map(|(_, words)| *words).collect();
    assert_eq!(words, ["A", "B & C", "that", "here", "row"]);
}

#[test]
fn only_a_paper_with_fields_has_a_memory() {
    for (body, fields) in [("<p>Seen: <check/> level, by <blank w=\"1in\"/></p>", 2), ("<p>Nothing to fill in</p>", 0)]
    {
        let page = paper(body);
        let document = nodes(&page);
        let root = document.root_element();
        assert_eq!(root.attribute("data-fields"), Some(fields.to_string().as_str()));
        assert_eq!(labels(&page).len(), fields);
        let memory = document.descendants().any(|node| node.attribute("id") == Some("kept"));
        assert_eq!((memory, root.has_attribute("data-key")), (fields > 0, fields > 0), "{body}");
        assert_eq!(page.contains("localStorage"), fields > 0, "{body}");
    }
}

#[test]
fn a_sheet_says_that_a_scale_holds_on_paper_and_ends_with_its_title_block() {
    let body = "<titleblock><p>Sheet 1</p></titleblock><h1>A</h1><figure drawing=\"plan\"/><p>Note</p>";
    let place = |page: &str, words: &str| page.find(words);
    let page = paper(body);
    assert!(place(&page, "Sheet 1") > place(&page, "Note"), "{page}");
    assert_eq!(place(&page, super::SCALES), None, "the drawing says itself that it has no scale");
    let scaled = paper_of(body, Drawing { scale: "1 in = 1 ft".to_owned(), ..plan() });
    let says = place(&scaled, super::SCALES);
    assert!(says > place(&scaled, "Note") && says < place(&scaled, "Sheet 1"), "{scaled}");
}

/// A phone is 360 px wide (common practice, no source); a point is 4/3 px (CSS Values and Units Level 3, 5.2).
#[test]
fn what_a_phone_shows_smaller_than_on_paper_can_be_seen_at_full_size() {
    let offered = |width: f64| {
        let page = paper_of("<figure drawing=\"plan\"/>", Drawing { width, ..plan() });
        let document = nodes(&page);
        let of = |name: &str| document.descendants().filter(|node| node.has_attribute(name)).count();
        (of("for"), page.contains("class=\"full broad\""))
    };
    assert_eq!([200.0, 300.0, 700.0].map(offered), [(0, false), (1, false), (1, true)]);
}

#[test]
fn letters_of_a_drawing_take_the_room_that_it_keeps_for_them() {
    let page = paper("<figure drawing=\"plan\"/>");
    let document = nodes(&page);
    let text =
        document.descendants().find(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "text"))).expect("one");
    let faces = Faces::built_in();
    let style = Style::new(true, false);
    let glyphs = "3'-0\" < 4'".chars().map(|it| faces.advance(style, faces.glyph(style, it).expect("a glyph")));
    let advance: i32 = glyphs.sum();
    let room = f64::from(advance) / f64::from(faces.units_per_em(style)) * 9.0;
    let reported: f64 = text.attribute("textLength").and_then(|it| it.parse().ok()).expect("a length");
    // Kerning moves letters by a small part of the size.
    assert!((reported - room).abs() < 0.9, "{reported} is not {room}");
}

#[test]
fn a_row_below_cells_of_others_goes_on_with_their_card() {
    let page = paper(
        "<table><thead><tr><th>A</th><th>B</th><th>C</th><th>D</th></tr></thead><tbody>\
         <tr><td rowspan=\"2\">a</td><td>b</td><td>c</td><td>d</td></tr><tr><td>e</td><td>f</td><td>g</td></tr></tbody></table>",
    );
    assert_eq!(page.matches("<tr class=\"more\"").count(), 1);
    assert!(page.find("<tr class=\"more\"") > page.find(">d</td>"), "{page}");
}
