//! Content streams: what is shown where, and how it is marked.
//!
//! In: a page of a file. Out: shown texts with positions. May not know: structure.

use std::collections::BTreeMap;

use super::Pdf;
use super::objects::{Dict, Object, Parser};

/// How something on a page is marked.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// Not at all.
    None,
    /// As an artifact.
    Artifact,
    /// As content with this id.
    Content(u32),
}

/// A path that is stroked.
#[derive(Clone, Debug)]
pub struct Stroke {
    /// Its points, in points from the lower left corner; of a curve only where it starts.
    pub points: Vec<(f64, f64)>,
    /// Its width.
    pub width: f64,
    /// Whether it is marked as an artifact.
    pub artifact: bool,
}

/// A text that is shown by one operator, or a sign that is drawn and has a text.
#[derive(Clone, Debug)]
pub struct Shown {
    /// Left end in points from the left edge.
    pub x: f64,
    /// Baseline in points from the lower edge.
    pub y: f64,
    /// Right end in points.
    pub end: f64,
    /// Size of the type in points; 0 for a sign that is drawn.
    pub size: f64,
    /// Name of the font.
    pub font: String,
    /// What a reader copies.
    pub text: String,
    /// How it is marked.
    pub mark: Mark,
    /// Code and left end of each glyph.
    pub glyphs: Vec<(u16, f64)>,
}

/// A font of a page.
pub struct Font {
    pub base: String,
    pub widths: BTreeMap<u16, f64>,
    pub to_unicode: BTreeMap<u16, String>,
}

impl Pdf {
    /// The fonts that a page may use.
    pub fn fonts(&self, page: &Dict) -> BTreeMap<String, Font> {
        let resources = self.get(page, "Resources").unwrap().dict();
        let fonts = self.get(resources, "Font").unwrap().dict();
        fonts.iter().map(|(name, font)| (name.clone(), self.font(self.resolve(font).dict()))).collect()
    }

    fn font(&self, font: &Dict) -> Font {
        assert_eq!(font["Encoding"].name(), "Identity-H");
        let descendant = self.resolve(&self.get(font, "DescendantFonts").unwrap().array()[0]).dict();
        let mut widths = BTreeMap::new();
        let mut items = self.get(descendant, "W").unwrap().array().iter();
        while let Some(first) = items.next() {
            let list = items.next().unwrap().array();
            widths.extend((first.int() as u16..).zip(list.iter().map(Object::number)));
        }
        let to_unicode = to_unicode(self.stream(&font["ToUnicode"]));
        Font { base: font["BaseFont"].name().to_string(), widths, to_unicode }
    }

    pub(super) fn read_content(&self, page: &Dict) -> Vec<Shown> {
        let fonts = self.fonts(page);
        let mut reader = Reader::new(&fonts);
        let mut parser = Parser::new(self.stream(&page["Contents"]));
        let mut operands = Vec::new();
        while !parser.is_done() {
            match parser.object() {
                Object::Operator(operator) => {
                    reader.operator(&operator, &operands);
                    operands.clear();
                }
                operand => operands.push(operand),
            }
        }
        assert!(reader.marks.is_empty() && !reader.in_text, "marks and text objects are closed");
        reader.shown
    }

    /// Everything with a text on a page, in the order of the content stream.
    pub fn shown(&self, page: u32) -> &[Shown] {
        &self.shown[&page]
    }

    /// The text of a marked content: page by the number of its object, and id. Lines are joined by spaces.
    pub fn marked_text(&self, page: u32, id: u32) -> &str {
        self.marked.get(&(page, id)).map_or("", String::as_str)
    }

    /// Widths of the lines that are stroked as artifacts of a page: rules of tables, frames, running heads. What is no longer
    /// than a letter is high is a sign, such as a box to check.
    pub fn rules(&self, page: u32) -> Vec<f64> {
        let long = |it: &Stroke| {
            let (x, y) = it.points[0];
            it.points.iter().any(|(a, b)| (a - x).abs().max((b - y).abs()) > 12.0)
        };
        self.strokes(page).into_iter().filter(|it| it.artifact && long(it)).map(|it| it.width).collect()
    }

    /// Everything that is stroked on a page, in the order of the content stream.
    pub fn strokes(&self, page: u32) -> Vec<Stroke> {
        self.paths(page).into_iter().filter_map(|(path, filled)| (!filled).then_some(path)).collect()
    }

    /// Everything that is filled as an artifact on a page, by its corners: low left, high right.
    pub fn fills(&self, page: u32) -> Vec<[(f64, f64); 2]> {
        let filled = self.paths(page).into_iter().filter(|(path, filled)| *filled && path.artifact);
        let corners = |path: Stroke| {
            let (x, y): (Vec<f64>, Vec<f64>) = path.points.into_iter().unzip();
            let least = |all: &[f64]| all.iter().copied().fold(f64::MAX, f64::min);
            let most = |all: &[f64]| all.iter().copied().fold(f64::MIN, f64::max);
            [(least(&x), least(&y)), (most(&x), most(&y))]
        };
        filled.map(|(path, _)| corners(path)).collect()
    }

    /// Paths of a page, each with whether it is filled.
    fn paths(&self, page: u32) -> Vec<(Stroke, bool)> {
        let (_, dict) = self.pages().into_iter().find(|(number, _)| *number == page).expect("a page");
        let mut parser = Parser::new(self.stream(&dict["Contents"]));
        let (mut operands, mut marks, mut saved) = (Vec::new(), Vec::new(), Vec::new());
        let (mut width, mut paths) = (1.0, Vec::new());
        let mut points: Vec<(f64, f64)> = Vec::new();
        while !parser.is_done() {
            let operator = match parser.object() {
                Object::Operator(operator) => operator,
                operand => {
                    operands.push(operand);
                    continue;
                }
            };
            match operator.as_str() {
                "q" => saved.push(width),
                "Q" => width = saved.pop().expect("a state to return to"),
                "w" => width = operands[0].number(),
                "BDC" => marks.push(operands[0].name() == "Artifact"),
                "EMC" => drop(marks.pop()),
                "m" | "l" => points.push((operands[0].number(), operands[1].number())),
                "re" => {
                    let [x, y, wide, tall] = std::array::from_fn(|at| operands[at].number());
                    points.extend([(x, y), (x + wide, y + tall)]);
                }
                "S" | "s" | "f" => {
                    let points = std::mem::take(&mut points);
                    if !points.is_empty() {
                        paths.push((Stroke { points, width, artifact: marks.last() == Some(&true) }, operator == "f"));
                    }
                }
                _ => {}
            }
            operands.clear();
        }
        paths
    }

    /// The ids of the marked contents of a page, in the order of the content stream.
    pub fn content_ids(&self, page: &Dict) -> Vec<u32> {
        let mut parser = Parser::new(self.stream(&page["Contents"]));
        let (mut ids, mut last) = (Vec::new(), Object::Null);
        while !parser.is_done() {
            let object = parser.object();
            if object == Object::Operator("BDC".into())
                && let Object::Dict(properties) = &last
                && let Some(id) = properties.get("MCID")
            {
                ids.push(id.int() as u32);
            }
            last = object;
        }
        ids
    }
}

/// Joins what each marked content shows: lines by spaces, save where one ends with a sign that lines break after.
pub fn gather_marked(page: u32, shown: &[Shown], marked: &mut BTreeMap<(u32, u32), String>) {
    let mut line = None;
    for shown in shown {
        let Mark::Content(id) = shown.mark else { continue };
        let text = marked.entry((page, id)).or_default();
        if line.is_some_and(|y| y != shown.y) && !text.is_empty() && !text.ends_with([' ', '-', '–', '/']) {
            text.push(' ');
        }
        line = Some(shown.y);
        text.push_str(&shown.text);
    }
}

struct Reader<'f> {
    fonts: &'f BTreeMap<String, Font>,
    font: Option<(String, f64)>,
    in_text: bool,
    /// The line's start; a turned text keeps its turn.
    matrix: [f64; 6],
    offset: f64,
    rise: f64,
    /// Open marks, and whether each was opened in a text object.
    marks: Vec<(Mark, Option<String>, bool)>,
    shown: Vec<Shown>,
}

impl<'f> Reader<'f> {
    fn new(fonts: &'f BTreeMap<String, Font>) -> Self {
        let matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];
        Reader {
            fonts,
            font: None,
            in_text: false,
            matrix,
            offset: 0.0,
            rise: 0.0,
            marks: Vec::new(),
            shown: Vec::new(),
        }
    }

    fn mark(&self) -> Mark {
        self.marks.iter().rev().map(|(mark, ..)| mark.clone()).find(|mark| *mark != Mark::None).unwrap_or(Mark::None)
    }

    fn operator(&mut self, operator: &str, operands: &[Object]) {
        match operator {
            "BT" => {
                assert!(!self.in_text, "text objects do not nest");
                self.in_text = true;
                self.matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];
                self.offset = 0.0;
            }
            "ET" => self.in_text = false,
            "Tf" => self.font = Some((operands[0].name().to_string(), operands[1].number())),
            "Td" => {
                let [a, b, c, d, e, f] = self.matrix;
                let (x, y) = (operands[0].number(), operands[1].number());
                self.matrix = [a, b, c, d, e + a * x + c * y, f + b * x + d * y];
                self.offset = 0.0;
            }
            "Tm" => {
                self.matrix = std::array::from_fn(|at| operands[at].number());
                self.offset = 0.0;
            }
            "Ts" => self.rise = operands[0].number(),
            "TJ" => self.show(operands[0].array()),
            "BDC" => self.begin(operands),
            "EMC" => {
                let (_, text, in_text) = self.marks.pop().expect("a mark to close");
                assert_eq!(in_text, self.in_text, "a mark closes where it was opened, in or out of a text object");
                if let Some(text) = text {
                    let mark = self.mark();
                    let (x, y) = (0.0, 0.0);
                    let font = String::new();
                    self.shown.push(Shown { x, y, end: x, size: 0.0, font, text, mark, glyphs: Vec::new() });
                }
            }
            "g" | "G" | "w" | "d" | "m" | "l" | "c" | "re" | "S" | "s" | "f" | "q" | "Q" | "cm" | "Do" => {
                let paints = matches!(operator, "S" | "s" | "f" | "Do");
                assert!(!paints || self.mark() != Mark::None, "everything painted is marked");
                assert!(!paints || !self.in_text, "nothing is painted inside a text object");
            }
            other => panic!("unknown operator {other}"),
        }
    }

    fn begin(&mut self, operands: &[Object]) {
        let properties = operands[1].dict();
        let mark = match (operands[0].name(), properties.get("MCID")) {
            ("Artifact", None) => Mark::Artifact,
            (_, Some(id)) => Mark::Content(id.int() as u32),
            (_, None) => Mark::None,
        };
        assert!(mark == Mark::None || self.mark() == Mark::None, "marks of content do not nest");
        let actual = properties.get("ActualText").map(|text| Pdf::text_string(text.bytes()));
        self.marks.push((mark, actual, self.in_text));
    }

    fn show(&mut self, items: &[Object]) {
        assert!(self.in_text, "text is shown in a text object");
        let (name, size) = self.font.clone().expect("a font before a text");
        let font = &self.fonts[&name];
        let start = self.offset;
        let (mut text, mut glyphs) = (String::new(), Vec::new());
        for item in items {
            match item {
                Object::Text(bytes) => {
                    for code in bytes.chunks(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])) {
                        text.push_str(font.to_unicode.get(&code).unwrap_or_else(|| panic!("no text for code {code}")));
                        glyphs.push((code, self.position(self.offset).0));
                        self.offset += font.widths[&code] / 1000.0 * size;
                    }
                }
                adjustment => self.offset -= adjustment.number() / 1000.0 * size,
            }
        }
        let ((x, y), (end, _)) = (self.position(start), self.position(self.offset));
        let text = text.replace('\u{200B}', "");
        self.shown.push(Shown { x, y, end, size, font: font.base.clone(), text, mark: self.mark(), glyphs });
    }

    fn position(&self, offset: f64) -> (f64, f64) {
        let [a, b, .., e, f] = self.matrix;
        (e + a * offset, f + b * offset)
    }
}

/// The map from codes to text (ISO 32000-1, 9.10.3).
fn to_unicode(stream: &[u8]) -> BTreeMap<u16, String> {
    let text = |object: &Object| {
        let units: Vec<u16> = object.bytes().chunks(2).map(|unit| u16::from_be_bytes([unit[0], unit[1]])).collect();
        String::from_utf16(&units).unwrap()
    };
    let code = |object: &Object| u16::from_be_bytes(object.bytes().try_into().unwrap());
    let mut map = BTreeMap::new();
    let (mut parser, mut pending) = (Parser::new(stream), Vec::new());
    while !parser.is_done() {
        match parser.object() {
            Object::Operator(operator) => {
                match operator.as_str() {
                    "endbfchar" => map.extend(pending.chunks(2).map(|pair| (code(&pair[0]), text(&pair[1])))),
                    "endbfrange" => {
                        for range in pending.chunks(3) {
                            let first = text(&range[2]);
                            for (step, code) in (code(&range[0])..=code(&range[1])).enumerate() {
                                let mut chars: Vec<char> = first.chars().collect();
                                let last = chars.last_mut().unwrap();
                                *last = char::from_u32(*last as u32 + step as u32).unwrap();
                                map.insert(code, chars.into_iter().collect());
                            }
                        }
                    }
                    _ => {}
                }
                pending.clear();
            }
            object => pending.push(object),
        }
    }
    map
}
