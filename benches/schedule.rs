//! One long schedule, as a whole process: rows from a file, template, markup, layout, a tagged PDF to a file.
//!
//! In: `ours` or `plain`, a file of rows (eight cells a line, tabs between them), and the file to write. Out: a PDF.
//! `plain` is the measure that `compare.py` takes the ratios from: the same table through printpdf's own operations, without
//! tags, without kerning, with whole fonts.
//!
//! The columns have the same widths; each way breaks its own lines and uses the same two font files.

use std::collections::BTreeMap;

use hingewright::findings::{Files, Findings};
use hingewright::fonts::{Faces, Style};
use hingewright::markup::{Source, Templates};
use hingewright::pdf::{Properties, write};
use hingewright::typeset::{Mp, Theme, typeset};
use printpdf::{
    Color, FontId, Greyscale, Line, LinePoint, Mm, Op, PaintMode, ParsedFont, PdfDocument, PdfFont, PdfFontHandle,
    PdfPage, PdfSaveOptions, Point, Polygon, PolygonRing, Pt, TextItem, WindingOrder,
};
use serde::Serialize;

/// Widths of the columns in points, 504 together: seven inches.
const WIDTHS: [f32; 8] = [38.0, 118.0, 36.0, 84.0, 72.0, 62.0, 34.0, 60.0];

/// Their heads.
const HEADS: [&str; 8] = ["Mark", "From, to", "Hand", "Size", "Door", "Frame", "Label", "Notes"];

const TEMPLATE: &str = r#"<document title="Hardware schedule" lang="en-US">
<foot><left>Schedule</left><right>Page <page/> of <pages/></right></foot>
<sheet><h1>Hardware schedule</h1>
<table class="zebra">
<col w="38pt"/><col w="118pt"/><col w="36pt"/><col w="84pt"/><col w="72pt"/><col w="62pt"/><col w="34pt"/><col w="60pt"/>
<thead><tr>{% for head in heads %}<th>{{ head }}</th>{% endfor %}</tr></thead>
<tbody>{% for row in rows %}<tr>{% for cell in row %}<td>{{ cell }}</td>{% endfor %}</tr>{% endfor %}</tbody>
</table></sheet></document>"#;

#[derive(Serialize)]
struct View<'v> {
    heads: [&'v str; 8],
    rows: Vec<Vec<&'v str>>,
}

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|argument| argument != "--bench").collect();
    let [way, rows, out] = arguments.as_slice() else {
        eprintln!("schedule (ours|plain) ROWS OUT: set ROWS as a table and write it to OUT; compare.py runs it");
        return;
    };
    let text = std::fs::read_to_string(rows).expect("the file of rows can be read");
    let rows: Vec<Vec<&str>> = text.lines().map(|line| line.split('\t').collect()).collect();
    let bytes = if way == "ours" { ours(rows) } else { plain(&rows) };
    std::fs::write(out, bytes).expect("the file can be written");
}

/// The way of the tool.
fn ours(rows: Vec<Vec<&str>>) -> Vec<u8> {
    let files = Files::new([("schedule.xml".to_string(), TEMPLATE.as_bytes().to_vec())]);
    let file = files.find("schedule.xml").expect("it was put there");
    let mut findings = Findings::default();
    let templates = Templates::load([Source { name: "schedule.xml", file, text: TEMPLATE }], &mut findings);
    let tree =
        templates.render("schedule.xml", &View { heads: HEADS, rows }, &mut findings).expect("the markup is good");
    let mut theme = Theme::default();
    theme.desk.text = Mp(9_000);
    let faces = Faces::built_in();
    let pages = typeset(&tree, &faces, &theme, &BTreeMap::new(), &mut findings).expect("the table fits");
    write(&pages, &tree, &faces, &Properties::default()).expect("every character has a glyph")
}

/// The same table through the library's own operations.
struct Plain {
    faces: Faces,
    ops: Vec<Op>,
    pages: Vec<Vec<Op>>,
    y: f32,
}

const SIZE: f32 = 9.0;
const LEADING: f32 = 11.0;
const INSET: f32 = 3.0;
const LEFT: f32 = 54.0;
const TOP: f32 = 738.0;
const BOTTOM: f32 = 60.0;

fn plain(rows: &[Vec<&str>]) -> Vec<u8> {
    let faces = Faces::built_in();
    let mut document = PdfDocument::new("Hardware schedule");
    for style in [Style::Regular, Style::Bold] {
        let font = ParsedFont::from_bytes(faces.bytes(style), 0, &mut Vec::new()).expect("the face can be read");
        document.resources.fonts.map.insert(FontId(name(style).to_string()), PdfFont::new(font));
    }
    let mut page = Plain { faces, ops: Vec::new(), pages: Vec::new(), y: TOP };
    page.row(&HEADS, Style::Bold, false);
    for (at, row) in rows.iter().enumerate() {
        page.row(row, Style::Regular, at % 2 == 1);
    }
    page.pages.push(std::mem::take(&mut page.ops));
    let count = page.pages.len();
    let feet = (1..=count).map(|number| page.text(&format!("Page {number} of {count}"), Style::Regular, LEFT, 40.0));
    let feet: Vec<Vec<Op>> = feet.collect();
    let pages = page.pages.into_iter().zip(feet).map(|(mut ops, foot)| {
        ops.extend(foot);
        PdfPage::new(Mm(215.9), Mm(279.4), ops)
    });
    document.with_pages(pages.collect());
    document.save(&PdfSaveOptions::default(), &mut Vec::new())
}

fn name(style: Style) -> &'static str {
    if style == Style::Bold { "B" } else { "R" }
}

impl Plain {
    fn row(&mut self, cells: &[&str], style: Style, shaded: bool) {
        let lines: Vec<Vec<String>> =
            cells.iter().zip(WIDTHS).map(|(cell, width)| self.lines(cell, style, width - 2.0 * INSET)).collect();
        let height = lines.iter().map(Vec::len).max().unwrap_or(1) as f32 * LEADING + 4.0;
        if self.y - height < BOTTOM {
            self.pages.push(std::mem::take(&mut self.ops));
            self.y = TOP;
            self.row(&HEADS, Style::Bold, false);
        }
        let bottom = self.y - height;
        if shaded {
            self.fill(bottom, height);
        }
        let mut x = LEFT;
        for (cell, width) in lines.iter().zip(WIDTHS) {
            for (line, at) in cell.iter().zip(1u16..) {
                let y = self.y - f32::from(at) * LEADING + 0.5;
                let ops = self.text(line, style, x + INSET, y);
                self.ops.extend(ops);
            }
            x += width;
        }
        if style == Style::Bold {
            self.rule(bottom);
        }
        self.y = bottom;
    }

    fn width(&self, text: &str, style: Style) -> f32 {
        let advance = |letter| self.faces.glyph(style, letter).map_or(0, |glyph| self.faces.advance(style, glyph));
        text.chars().map(advance).sum::<i32>() as f32 * SIZE / self.faces.units_per_em(style) as f32
    }

    fn lines(&self, text: &str, style: Style, width: f32) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        let (mut end, space) = (0.0, self.width(" ", style));
        for word in text.split(' ') {
            let wide = self.width(word, style);
            match lines.last_mut().filter(|_| end + space + wide <= width) {
                Some(line) => {
                    line.push(' ');
                    line.push_str(word);
                    end += space + wide;
                }
                None => {
                    lines.push(word.to_string());
                    end = wide;
                }
            }
        }
        lines
    }

    fn text(&self, text: &str, style: Style, x: f32, y: f32) -> Vec<Op> {
        let font = PdfFontHandle::External(FontId(name(style).to_string()));
        vec![
            Op::StartTextSection,
            Op::SetTextCursor { pos: Point { x: Pt(x), y: Pt(y) } },
            Op::SetFont { font, size: Pt(SIZE) },
            Op::ShowText { items: vec![TextItem::Text(text.to_string())] },
            Op::EndTextSection,
        ]
    }

    fn fill(&mut self, bottom: f32, height: f32) {
        let corners = [(0.0, 0.0), (504.0, 0.0), (504.0, height), (0.0, height)];
        let points = corners.map(|(x, y)| point(LEFT + x, bottom + y)).to_vec();
        let ring = PolygonRing { points };
        self.ops.push(Op::SetFillColor { col: gray(0.945) });
        self.ops.push(Op::DrawPolygon {
            polygon: Polygon { rings: vec![ring], mode: PaintMode::Fill, winding_order: WindingOrder::NonZero },
        });
        self.ops.push(Op::SetFillColor { col: gray(0.0) });
    }

    fn rule(&mut self, y: f32) {
        self.ops.push(Op::SetOutlineThickness { pt: Pt(0.75) });
        self.ops.push(Op::DrawLine {
            line: Line { points: vec![point(LEFT, y), point(LEFT + 504.0, y)], is_closed: false },
        });
    }
}

fn gray(percent: f32) -> Color {
    Color::Greyscale(Greyscale { percent, icc_profile: None })
}

fn point(x: f32, y: f32) -> LinePoint {
    LinePoint { p: Point { x: Pt(x), y: Pt(y) }, bezier: false }
}
