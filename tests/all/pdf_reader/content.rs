//! Content streams: what is shown where, and how it is marked.
//!
//! In: a page of a file. Out: shown texts with positions. May not know: structure.

use std::collections::BTreeMap;

use hayro_syntax::content::UntypedIter;
use hayro_syntax::object::FromBytes;

use super::{Array, Dict, Entries, MaybeRef, Object, Pdf, strict};

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
struct Font {
    base: String,
    widths: BTreeMap<u16, f64>,
    to_unicode: BTreeMap<u16, String>,
}

/// The fonts of a page: what it calls them, and the number of the object of each.
type Names = BTreeMap<String, u32>;

fn number(operand: &Object<'_>) -> f64 {
    match operand {
        Object::Number(number) => number.as_f64(),
        other => panic!("no number: {other:?}"),
    }
}

fn name(operand: &Object<'_>) -> String {
    match operand {
        Object::Name(name) => name.as_str().to_owned(),
        other => panic!("no name: {other:?}"),
    }
}

impl Pdf {
    fn font(&self, font: &Dict<'_>) -> Font {
        assert_eq!(font.name("Encoding").as_deref(), Some("Identity-H"));
        let descendant = font.get::<Vec<Dict<'_>>>("DescendantFonts").expect("a font of glyphs").remove(0);
        let mut widths = BTreeMap::new();
        let mut items = descendant.get::<Array<'_>>("W").expect("widths").flex_iter();
        while let Some(first) = items.next::<u16>() {
            widths.extend((first..).zip(items.next::<Vec<f64>>().expect("the widths from a code on")));
        }
        let base = font.name("BaseFont").expect("a name of the font");
        Font { base, widths, to_unicode: to_unicode(self.stream(font, "ToUnicode")) }
    }

    /// What every page shows, by the number of its object.
    pub(super) fn read_contents(&self) -> BTreeMap<u32, Vec<Shown>> {
        let mut fonts: BTreeMap<u32, Font> = BTreeMap::new();
        let mut read = BTreeMap::new();
        for (page, (number, dict)) in self.file.pages().iter().zip(self.pages()) {
            let of_page = &page.resources().fonts;
            let names: Names = of_page.entries().map(|(name, at)| (name.as_str().to_owned(), to(&at))).collect();
            for (name, number) in &names {
                fonts.entry(*number).or_insert_with(|| self.font(&of_page.get(name).expect("a font")));
            }
            strict::check_content(self.stream(&dict, "Contents"));
            let mut reader = Reader::new(&fonts, names);
            self.instructions(&dict, |operator, operands| reader.operator(operator, operands));
            assert!(reader.marks.is_empty() && !reader.in_text, "marks and text objects are closed");
            read.insert(number, reader.shown);
        }
        read
    }

    /// Calls for every operator of a page with its operands.
    fn instructions(&self, page: &Dict<'_>, mut call: impl FnMut(&str, &[&Object<'_>])) {
        let mut content = UntypedIter::new(self.stream(page, "Contents"));
        while let Some(instruction) = content.next() {
            let operands: Vec<&Object<'_>> = instruction.operands().collect();
            call(std::str::from_utf8(instruction.operator).expect("an operator"), &operands);
        }
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
        let (mut marks, mut saved, mut width, mut paths) = (Vec::new(), Vec::new(), 1.0, Vec::new());
        let mut points: Vec<(f64, f64)> = Vec::new();
        self.instructions(&self.dict(page), |operator, operands| match operator {
            "q" => saved.push(width),
            "Q" => width = saved.pop().expect("a state to return to"),
            "w" => width = number(operands[0]),
            "BDC" => marks.push(name(operands[0]) == "Artifact"),
            "EMC" => drop(marks.pop()),
            "m" | "l" => points.push((number(operands[0]), number(operands[1]))),
            "re" => {
                let [x, y, wide, tall] = std::array::from_fn(|at| number(operands[at]));
                points.extend([(x, y), (x + wide, y + tall)]);
            }
            "S" | "s" | "f" if !points.is_empty() => {
                let (points, artifact) = (std::mem::take(&mut points), marks.last() == Some(&true));
                paths.push((Stroke { points, width, artifact }, operator == "f"));
            }
            _ => {}
        });
        paths
    }

    /// The ids of the marked contents of a page, in the order of the content stream.
    pub fn content_ids(&self, page: &Dict<'_>) -> Vec<u32> {
        let mut ids = Vec::new();
        self.instructions(page, |operator, operands| {
            if let ("BDC", Some(Object::Dict(properties))) = (operator, operands.last()) {
                ids.extend(properties.int("MCID").map(|id| id as u32));
            }
        });
        ids
    }
}

fn to(item: &MaybeRef<Object<'_>>) -> u32 {
    item.as_obj_ref().expect("a font is an object of its own").obj_number
}

/// The text of each marked content, by page and id: lines joined by spaces, save where one ends with a sign that lines break after.
pub fn texts_of_marks(shown: &BTreeMap<u32, Vec<Shown>>) -> BTreeMap<(u32, u32), String> {
    let mut marked: BTreeMap<(u32, u32), String> = BTreeMap::new();
    for (page, shown) in shown {
        let mut line = None;
        for shown in shown {
            let Mark::Content(id) = shown.mark else { continue };
            let text = marked.entry((*page, id)).or_default();
            if line.is_some_and(|y| y != shown.y) && !text.is_empty() && !text.ends_with([' ', '-', '–', '/']) {
                text.push(' ');
            }
            line = Some(shown.y);
            text.push_str(&shown.text);
        }
    }
    marked
}

struct Reader<'f> {
    fonts: &'f BTreeMap<u32, Font>,
    names: Names,
    font: Option<(&'f Font, f64)>,
    in_text: bool,
    /// The line's start; a turned text keeps its turn.
    matrix: [f64; 6],
    offset: f64,
    /// Open marks, and whether each was opened in a text object.
    marks: Vec<(Mark, Option<String>, bool)>,
    shown: Vec<Shown>,
}

impl<'f> Reader<'f> {
    fn new(fonts: &'f BTreeMap<u32, Font>, names: Names) -> Self {
        let (matrix, offset) = ([1.0, 0.0, 0.0, 1.0, 0.0, 0.0], 0.0);
        Reader { fonts, names, font: None, in_text: false, matrix, offset, marks: Vec::new(), shown: Vec::new() }
    }

    fn mark(&self) -> Mark {
        self.marks.iter().rev().map(|(mark, ..)| mark.clone()).find(|mark| *mark != Mark::None).unwrap_or(Mark::None)
    }

    fn operator(&mut self, operator: &str, operands: &[&Object<'_>]) {
        match operator {
            "BT" => {
                assert!(!self.in_text, "text objects do not nest");
                self.in_text = true;
                self.matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];
                self.offset = 0.0;
            }
            "ET" => self.in_text = false,
            "Tf" => self.font = Some((&self.fonts[&self.names[&name(operands[0])]], number(operands[1]))),
            "Td" => {
                let [a, b, c, d, e, f] = self.matrix;
                let (x, y) = (number(operands[0]), number(operands[1]));
                self.matrix = [a, b, c, d, e + a * x + c * y, f + b * x + d * y];
                self.offset = 0.0;
            }
            "Tm" => {
                self.matrix = std::array::from_fn(|at| number(operands[at]));
                self.offset = 0.0;
            }
            "TJ" => self.show(operands[0]),
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
            "Ts" | "g" | "G" | "w" | "d" | "m" | "l" | "c" | "re" | "S" | "s" | "f" | "q" | "Q" | "cm" | "Do" => {
                let paints = matches!(operator, "S" | "s" | "f" | "Do");
                assert!(!paints || self.mark() != Mark::None, "everything painted is marked");
                assert!(!paints || !self.in_text, "nothing is painted inside a text object");
            }
            other => panic!("unknown operator {other}"),
        }
    }

    fn begin(&mut self, operands: &[&Object<'_>]) {
        let Object::Dict(properties) = operands[1] else { panic!("no properties: {:?}", operands[1]) };
        let mark = match (name(operands[0]).as_str(), properties.int("MCID")) {
            ("Artifact", None) => Mark::Artifact,
            (_, Some(id)) => Mark::Content(id as u32),
            (_, None) => Mark::None,
        };
        assert!(mark == Mark::None || self.mark() == Mark::None, "marks of content do not nest");
        self.marks.push((mark, properties.text("ActualText"), self.in_text));
    }

    fn show(&mut self, items: &Object<'_>) {
        assert!(self.in_text, "text is shown in a text object");
        let Object::Array(items) = items else { panic!("no array: {items:?}") };
        let (font, size) = self.font.expect("a font before a text");
        let start = self.offset;
        let (mut text, mut glyphs) = (String::new(), Vec::new());
        for item in items.iter::<Object<'_>>() {
            match item {
                Object::String(bytes) => {
                    for code in bytes.chunks(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])) {
                        text.push_str(font.to_unicode.get(&code).unwrap_or_else(|| panic!("no text for code {code}")));
                        glyphs.push((code, self.position(self.offset).0));
                        self.offset += font.widths[&code] / 1000.0 * size;
                    }
                }
                adjustment => self.offset -= number(&adjustment) / 1000.0 * size,
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
    let stream = std::str::from_utf8(stream).expect("a map in ASCII");
    let code = |bytes: &[u8]| u16::from_be_bytes(bytes.try_into().expect("a code of two bytes"));
    let text = |bytes: &[u8]| {
        let units: Vec<u16> = bytes.chunks(2).map(|unit| u16::from_be_bytes([unit[0], unit[1]])).collect();
        String::from_utf16(&units).unwrap()
    };
    let mut map = BTreeMap::new();
    for pair in strings_between(stream, "beginbfchar", "endbfchar").chunks(2) {
        map.insert(code(&pair[0]), text(&pair[1]));
    }
    for range in strings_between(stream, "beginbfrange", "endbfrange").chunks(3) {
        let first = text(&range[2]);
        for (step, code) in (code(&range[0])..=code(&range[1])).enumerate() {
            let mut chars: Vec<char> = first.chars().collect();
            let last = chars.last_mut().unwrap();
            *last = char::from_u32(*last as u32 + step as u32).unwrap();
            map.insert(code, chars.into_iter().collect());
        }
    }
    map
}

/// The strings between two operators, wherever the two are.
fn strings_between(stream: &str, begin: &str, end: &str) -> Vec<Vec<u8>> {
    let mut strings = Vec::new();
    for part in stream.split(begin).skip(1) {
        let list = format!("[{}]", part.split_once(end).expect("an end").0);
        let list = Array::from_bytes(list.as_bytes()).expect("a list of strings");
        strings.extend(list.raw_iter().map(|item| match item {
            MaybeRef::NotRef(Object::String(bytes)) => bytes.to_vec(),
            other => panic!("no string: {other:?}"),
        }));
    }
    strings
}
