//! The elements of the markup as data: what each holds and which attributes it takes.
//!
//! In: nothing. Out: one table, which the reader checks against and MARKUP.md is held to. May not know: how an element is printed.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

/// What an attribute may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AttributeValue {
    /// Any text.
    Text,
    /// One of these words.
    Word(&'static [&'static str]),
    /// An extent: `1.2in`, `9pt`, `20mm`.
    Extent,
    /// A width: an extent, `*`, `2*` or `fit`.
    Width,
    /// A whole number between these.
    Count(u16, u16),
    /// A share of a whole: `35 %`.
    Share,
}

/// An attribute of an element.
#[derive(Debug)]
pub struct Attribute {
    /// Its name.
    pub name: &'static str,
    /// What it may be.
    pub takes: AttributeValue,
    /// Whether it must be given.
    pub required: bool,
}

/// What an element holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// Nothing.
    Nothing,
    /// Text with looks, check boxes and blanks.
    Text,
    /// Blocks of these names.
    Blocks(&'static [&'static str]),
    /// Text, or blocks of these names, not both.
    TextOr(&'static [&'static str]),
}

/// An element.
#[derive(Debug)]
pub struct Element {
    /// Its name.
    pub name: &'static str,
    /// What it holds.
    pub holds: Holds,
    /// Its attributes besides `name`, which every element takes, and `id`, which every block does.
    pub attributes: &'static [Attribute],
}

/// Blocks that may stand in a cell or an item.
const CELL: &[&str] = &["p", "ul", "ol", "checks", "dl", "figure", "answer", "space", "rule", "box", "keep", "stamp"];

/// Blocks that may stand in a box, a part or what is kept together.
const PART: &[&str] = &[
    "h1", "h2", "h3", "p", "ul", "ol", "checks", "dl", "table", "figure", "answer", "space", "rule", "box", "keep",
    "sign", "side", "contents", "stamp", "enclosed",
];

/// Blocks that may stand in columns.
const COLUMN: &[&str] = &[
    "h1", "h2", "h3", "p", "ul", "ol", "checks", "dl", "figure", "answer", "space", "rule", "box", "keep", "sign",
    "contents",
];

/// Blocks that may stand on a sheet.
const SHEET: &[&str] = &[
    "head",
    "foot",
    "titleblock",
    "h1",
    "h2",
    "h3",
    "p",
    "ul",
    "ol",
    "checks",
    "dl",
    "table",
    "figure",
    "answer",
    "space",
    "rule",
    "box",
    "keep",
    "sign",
    "side",
    "columns",
    "contents",
    "stamp",
    "enclosed",
    "pagebreak",
];

/// Elements that stand in text: first those that lead to another place, last those of running heads and feet.
pub const IN_TEXT: &[&str] =
    &["see", "pageof", "b", "i", "large", "br", "check", "blank", "page", "pages", "sheetpage", "sheetpages"];

/// Elements that stand in the text of blocks.
pub const IN_BLOCKS: &[&str] = IN_TEXT.split_at(8).0;

/// Elements that stand in running heads and feet.
pub const IN_RUNNING: &[&str] = IN_TEXT.split_at(2).1;

/// Elements that stand in words that lead to another place.
pub const IN_SEE: &[&str] = IN_TEXT.split_at(2).1.split_at(4).0;

/// Elements that take no `id`: they are no blocks, or are printed on every page.
const WITHOUT_ID: &[&str] = &["document", "head", "foot", "left", "middle", "right", "col"];

const fn may(name: &'static str, takes: AttributeValue) -> Attribute {
    Attribute { name, takes, required: false }
}

const fn must(name: &'static str, takes: AttributeValue) -> Attribute {
    Attribute { name, takes, required: true }
}

const fn element(name: &'static str, holds: Holds, attributes: &'static [Attribute]) -> Element {
    Element { name, holds, attributes }
}

const YES: AttributeValue = AttributeValue::Word(&["yes", "no"]);
const ALIGN: Attribute = may("align", AttributeValue::Word(&["left", "center", "right", "decimal"]));
const ROWSPAN: Attribute = may("rowspan", AttributeValue::Count(1, 100));
const COLSPAN: Attribute = may("colspan", AttributeValue::Count(1, 100));
const HEIGHT: Attribute = may("h", AttributeValue::Extent);
const FIELD: Attribute = may("field", AttributeValue::Text);
const LABEL: Attribute = may("label", AttributeValue::Text);

/// Every element.
pub const ELEMENTS: &[Element] = &[
    element(
        "document",
        Holds::Blocks(&["head", "foot", "sheet"]),
        &[
            must("title", AttributeValue::Text),
            must("lang", AttributeValue::Text),
            may("scale", AttributeValue::Word(&["desk", "field"])),
        ],
    ),
    element("head", Holds::Blocks(&["left", "middle", "right"]), &[]),
    element("foot", Holds::Blocks(&["left", "middle", "right"]), &[]),
    element("left", Holds::Text, &[]),
    element("middle", Holds::Text, &[]),
    element("right", Holds::Text, &[]),
    element(
        "sheet",
        Holds::Blocks(SHEET),
        &[
            may("size", AttributeValue::Word(&["letter", "tabloid", "a4"])),
            may("orientation", AttributeValue::Word(&["portrait", "landscape"])),
            may("side", AttributeValue::Word(&["front"])),
        ],
    ),
    element("h1", Holds::Text, &[]),
    element("h2", Holds::Text, &[]),
    element("h3", Holds::Text, &[]),
    element("p", Holds::Text, &[]),
    element("ul", Holds::Blocks(&["li"]), &[]),
    element("ol", Holds::Blocks(&["li"]), &[]),
    element("checks", Holds::Blocks(&["li"]), &[]),
    element("li", Holds::TextOr(CELL), &[may("on", YES), FIELD]),
    element("dl", Holds::Blocks(&["dt", "dd"]), &[may("columns", AttributeValue::Count(1, 4))]),
    element("dt", Holds::Text, &[]),
    element("dd", Holds::TextOr(CELL), &[]),
    element(
        "table",
        Holds::Blocks(&["col", "thead", "tbody", "tfoot"]),
        &[may("class", AttributeValue::Word(&["rows", "grid", "zebra", "plain"]))],
    ),
    element("col", Holds::Nothing, &[may("w", AttributeValue::Width), ALIGN, may("carry", YES)]),
    element("thead", Holds::Blocks(&["tr"]), &[]),
    element("tbody", Holds::Blocks(&["tr"]), &[]),
    element("tfoot", Holds::Blocks(&["tr"]), &[]),
    element(
        "tr",
        Holds::Blocks(&["td", "th"]),
        &[
            may("class", AttributeValue::Word(&["plain", "group", "subtotal", "total"])),
            may("carry", AttributeValue::Text),
        ],
    ),
    element(
        "th",
        Holds::TextOr(CELL),
        &[may("scope", AttributeValue::Word(&["col", "row"])), COLSPAN, ROWSPAN, ALIGN, HEIGHT],
    ),
    element("td", Holds::TextOr(CELL), &[COLSPAN, ROWSPAN, ALIGN, HEIGHT, FIELD, LABEL]),
    element(
        "box",
        Holds::Blocks(PART),
        &[
            must("class", AttributeValue::Word(&["caution", "note", "hold", "stop"])),
            may("title", AttributeValue::Text),
        ],
    ),
    element(
        "figure",
        Holds::Blocks(&["caption"]),
        &[must("drawing", AttributeValue::Text), may("alt", AttributeValue::Text), may("w", AttributeValue::Extent)],
    ),
    element("caption", Holds::Text, &[]),
    element("side", Holds::Blocks(&["part"]), &[]),
    element("part", Holds::Blocks(PART), &[may("w", AttributeValue::Width)]),
    element("columns", Holds::Blocks(COLUMN), &[must("count", AttributeValue::Count(2, 4))]),
    element("keep", Holds::Blocks(PART), &[may("with", AttributeValue::Word(&["next"]))]),
    element("pagebreak", Holds::Nothing, &[]),
    element("rule", Holds::Nothing, &[]),
    element("space", Holds::Nothing, &[must("h", AttributeValue::Extent)]),
    element("answer", Holds::Nothing, &[must("h", AttributeValue::Extent), LABEL, FIELD]),
    element("sign", Holds::Blocks(&["line"]), &[]),
    element("line", Holds::Text, &[may("w", AttributeValue::Width), FIELD]),
    element(
        "stamp",
        Holds::Nothing,
        &[must("w", AttributeValue::Extent), must("h", AttributeValue::Extent), may("label", AttributeValue::Text)],
    ),
    element(
        "enclosed",
        Holds::Blocks(&["marked"]),
        &[
            must("key", AttributeValue::Text),
            must("page", AttributeValue::Count(1, 400)),
            must("alt", AttributeValue::Text),
            may("w", AttributeValue::Extent),
            may("h", AttributeValue::Extent),
        ],
    ),
    element("marked", Holds::Text, &[must("at", AttributeValue::Share)]),
    element("titleblock", Holds::Blocks(PART), &[may("w", AttributeValue::Extent)]),
    element("contents", Holds::Nothing, &[may("depth", AttributeValue::Count(1, 3))]),
    element("see", Holds::Text, &[must("to", AttributeValue::Text)]),
    element("pageof", Holds::Nothing, &[must("to", AttributeValue::Text)]),
    element("b", Holds::Text, &[]),
    element("i", Holds::Text, &[]),
    element("large", Holds::Text, &[]),
    element("br", Holds::Nothing, &[]),
    element("check", Holds::Nothing, &[may("on", YES), FIELD, LABEL]),
    element("blank", Holds::Nothing, &[must("w", AttributeValue::Extent), FIELD, LABEL]),
    element("page", Holds::Nothing, &[]),
    element("pages", Holds::Nothing, &[]),
    element("sheetpage", Holds::Nothing, &[]),
    element("sheetpages", Holds::Nothing, &[]),
];

impl Element {
    /// Finds an element by its name.
    pub fn named(name: &str) -> Option<&'static Element> {
        // Looked up and never walked.
        static NAMED: LazyLock<FxHashMap<&str, &Element>> =
            LazyLock::new(|| ELEMENTS.iter().map(|element| (element.name, element)).collect());
        NAMED.get(name).copied()
    }

    /// What may stand directly in it.
    pub fn inside(&self) -> impl Iterator<Item = &'static str> + use<> {
        let (blocks, words): (&[&str], &[&str]) = match self.holds {
            Holds::Nothing => (&[], &[]),
            Holds::Text => (&[], self.in_words()),
            Holds::Blocks(blocks) => (blocks, &[]),
            Holds::TextOr(blocks) => (blocks, self.in_words()),
        };
        blocks.iter().chain(words).copied()
    }

    /// What may stand among its words.
    pub fn in_words(&self) -> &'static [&'static str] {
        match self.name {
            "left" | "middle" | "right" => IN_RUNNING,
            "see" => IN_SEE,
            _ => IN_BLOCKS,
        }
    }

    /// Finds an attribute; every element takes a `name`, every block an `id`.
    pub fn attribute(&self, name: &str) -> Option<&'static Attribute> {
        static NAME: Attribute = may("name", AttributeValue::Text);
        static ID: Attribute = may("id", AttributeValue::Text);
        match name {
            "name" => Some(&NAME),
            "id" if !WITHOUT_ID.contains(&self.name) && !IN_TEXT.contains(&self.name) => Some(&ID),
            _ => self.attributes.iter().find(|attribute| attribute.name == name),
        }
    }
}

impl AttributeValue {
    /// Whether an attribute may be this.
    pub fn allows(self, value: &str) -> bool {
        match self {
            AttributeValue::Text => !value.trim().is_empty(),
            AttributeValue::Word(words) => words.contains(&value),
            AttributeValue::Extent => super::Mp::read(value).is_some(),
            AttributeValue::Width => super::Width::read(value).is_some(),
            AttributeValue::Share => super::extent::read_share(value).is_some(),
            AttributeValue::Count(least, most) => value.parse().is_ok_and(|count: u16| (least..=most).contains(&count)),
        }
    }

    /// What an attribute may be, in words.
    pub fn says(self) -> String {
        match self {
            AttributeValue::Text => "some text".to_string(),
            AttributeValue::Word(words) => words.join(", "),
            AttributeValue::Extent => "an extent such as 1.2in, 9pt or 20mm".to_string(),
            AttributeValue::Width => "a width such as 1.2in, *, 2* or fit".to_string(),
            AttributeValue::Share => "a share such as 35 %".to_string(),
            AttributeValue::Count(least, most) => format!("a whole number from {least} to {most}"),
        }
    }
}
