//! Elements to kinds of blocks, from attributes that were checked.
//!
//! In: the name of an element and its attributes. Out: its kind, or the piece of text it is. An attribute that failed its check
//! gives the default here; the tree is thrown away then. May not know: places, or what is wrong.

use std::sync::Arc;

use roxmltree::Node;

use super::grid::{self, Span};
use super::{
    Align, BoxKind, Column, Inline, Kind, ListKind, Mp, Orientation, RowKind, Scale, Scope, SheetSize, Slot, TableLook,
    Weight, Width,
};

/// The attributes of an element.
#[derive(Clone, Copy)]
pub struct Given<'a, 'input> {
    node: Node<'a, 'input>,
}

impl<'a, 'input> Given<'a, 'input> {
    /// Those of a node.
    pub fn of(node: Node<'a, 'input>) -> Self {
        Given { node }
    }

    fn word(self, name: &str) -> &'a str {
        self.node.attribute(name).unwrap_or("")
    }

    /// A text.
    pub fn text(self, name: &str) -> Option<String> {
        self.node.attribute(name).map(str::to_string)
    }

    /// The id that a piece of text leads to.
    pub fn target(self) -> Arc<str> {
        Arc::from(self.word("to").trim())
    }

    fn extent(self, name: &str) -> Option<Mp> {
        self.node.attribute(name).and_then(Mp::read)
    }

    fn width(self) -> Width {
        self.node.attribute("w").and_then(Width::read).unwrap_or(Width::Share(1))
    }

    fn count(self, name: &str, otherwise: u16) -> u16 {
        self.node.attribute(name).and_then(|count| count.parse().ok()).unwrap_or(otherwise)
    }

    fn share(self, name: &str) -> u16 {
        super::extent::read_share(self.word(name)).unwrap_or_default()
    }

    fn align(self) -> Option<Align> {
        match self.word("align") {
            "left" => Some(Align::Left),
            "center" => Some(Align::Center),
            "right" => Some(Align::Right),
            "decimal" => Some(Align::Decimal),
            _ => None,
        }
    }
}

/// How large a document's text is.
pub fn scale(given: Given<'_, '_>) -> Scale {
    if given.word("scale") == "field" { Scale::Field } else { Scale::Desk }
}

/// The kind of a block. Columns and pieces of text are none.
pub fn kind(element: &str, given: Given<'_, '_>, node: Node<'_, '_>) -> Kind {
    match element {
        "document" => Kind::Document,
        "head" => Kind::Head,
        "foot" => Kind::Foot,
        "left" => Kind::Slot(Slot::Left),
        "middle" => Kind::Slot(Slot::Middle),
        "right" => Kind::Slot(Slot::Right),
        "sheet" => sheet(given),
        "h1" => Kind::Heading(1),
        "h2" => Kind::Heading(2),
        "h3" => Kind::Heading(3),
        "ul" => Kind::List(ListKind::Bullet),
        "ol" => Kind::List(ListKind::Number),
        "checks" => Kind::List(ListKind::Check),
        "li" => Kind::Item { checked: given.word("on") == "yes" },
        "dl" => Kind::Definitions { columns: given.count("columns", 1) as u8 },
        "dt" => Kind::Term,
        "dd" => Kind::Detail,
        "table" => table(given, node),
        "thead" => Kind::TableHead,
        "tbody" => Kind::TableBody,
        "tfoot" => Kind::TableFoot,
        "tr" => row(given),
        "th" | "td" => cell(element, given),
        "box" => framed(given),
        "figure" => figure(given),
        "caption" => Kind::Caption,
        "side" => Kind::Side,
        "part" => Kind::Part { width: given.width() },
        "columns" => Kind::Columns { count: given.count("count", 2) as u8 },
        "keep" => Kind::Keep { with_next: given.word("with") == "next" },
        "pagebreak" => Kind::PageBreak,
        "rule" => Kind::Rule,
        "answer" => Kind::Answer { height: given.extent("h").unwrap_or_default(), label: given.text("label") },
        "sign" => Kind::Sign,
        "stamp" => {
            let extent = |name| given.extent(name).unwrap_or_default();
            Kind::Stamp { width: extent("w"), height: extent("h"), label: given.text("label") }
        }
        "enclosed" => enclosed(given),
        "marked" => Kind::Marked { at: given.share("at") },
        "titleblock" => Kind::TitleBlock { width: given.extent("w") },
        "contents" => Kind::Contents { depth: given.count("depth", 2) as u8 },
        "line" => Kind::Signature { width: given.width() },
        "space" => Kind::Space(given.extent("h").unwrap_or_default()),
        _ => Kind::Paragraph,
    }
}

fn sheet(given: Given<'_, '_>) -> Kind {
    let size = match given.word("size") {
        "tabloid" => SheetSize::Tabloid,
        "a4" => SheetSize::A4,
        _ => SheetSize::Letter,
    };
    let orientation = match given.word("orientation") {
        "landscape" => Orientation::Landscape,
        _ => Orientation::Portrait,
    };
    Kind::Sheet { size, orientation, on_front: given.word("side") == "front" }
}

/// A table with its columns: those written as `col`, or one share for each column that its widest row covers.
fn table(given: Given<'_, '_>, node: Node<'_, '_>) -> Kind {
    let look = match given.word("class") {
        "grid" => TableLook::Grid,
        "zebra" => TableLook::Zebra,
        "plain" => TableLook::Plain,
        _ => TableLook::Rows,
    };
    let written = node.children().filter(|child| child.has_tag_name("col"));
    let mut columns: Vec<Column> = written
        .map(Given::of)
        .map(|col| Column {
            width: col.width(),
            align: col.align().unwrap_or_default(),
            carries: col.word("carry") == "yes",
        })
        .collect();
    if columns.is_empty() {
        let covered = node.children().filter(Node::is_element).map(|part| {
            let rows = spans(part);
            let starts = grid::first_columns(&rows);
            let ends = starts.into_iter().flatten().zip(rows.iter().flatten()).map(|(at, span)| at + span.columns);
            ends.max().unwrap_or(0)
        });
        let even = Column { width: Width::Share(1), align: Align::Left, carries: false };
        columns = vec![even; covered.max().unwrap_or(0).max(1)];
    }
    Kind::Table { columns, look }
}

/// What the cells of each row of a part of a table cover.
pub fn spans(part: Node<'_, '_>) -> Vec<Vec<Span>> {
    let span = |cell: Node<'_, '_>| {
        let count = |name| usize::from(Given::of(cell).count(name, 1).clamp(1, 100));
        Span { columns: count("colspan"), rows: count("rowspan") }
    };
    let rows = part.children().filter(|row| row.has_tag_name("tr"));
    rows.map(|row| row.children().filter(Node::is_element).map(span).collect()).collect()
}

fn row(given: Given<'_, '_>) -> Kind {
    let kind = match given.word("class") {
        "group" => RowKind::Group,
        "subtotal" => RowKind::Subtotal,
        "total" => RowKind::Total,
        _ => RowKind::Plain,
    };
    Kind::Row { kind, carry: given.text("carry") }
}

fn cell(element: &str, given: Given<'_, '_>) -> Kind {
    let scope = match (element, given.word("scope")) {
        ("th", "row") => Some(Scope::Row),
        ("th", _) => Some(Scope::Column),
        _ => None,
    };
    let (colspan, rowspan) = (given.count("colspan", 1), given.count("rowspan", 1));
    Kind::Cell { scope, column: 0, colspan, rowspan, align: given.align(), height: given.extent("h") }
}

fn framed(given: Given<'_, '_>) -> Kind {
    let kind = match given.word("class") {
        "caution" => BoxKind::Caution,
        "hold" => BoxKind::Hold,
        "stop" => BoxKind::Stop,
        _ => BoxKind::Note,
    };
    Kind::Box { kind, title: given.text("title") }
}

fn figure(given: Given<'_, '_>) -> Kind {
    let drawing = given.text("drawing").unwrap_or_default();
    Kind::Figure { drawing, alt: given.text("alt"), width: given.extent("w") }
}

fn enclosed(given: Given<'_, '_>) -> Kind {
    let text = |name| given.text(name).unwrap_or_default();
    let (width, height) = (given.extent("w"), given.extent("h"));
    Kind::Enclosed { key: text("key"), page: given.count("page", 1), alt: text("alt"), width, height }
}

/// The piece of text that an element is, in the look around it; none for those that only give a look to what they hold.
pub fn inline(element: &str, given: Given<'_, '_>, weight: Weight) -> Option<Inline> {
    match element {
        "br" => Some(Inline::Break),
        "check" => Some(Inline::Check { on: given.word("on") == "yes", field: None }),
        "blank" => Some(Inline::Blank { width: given.extent("w").unwrap_or_default(), field: None }),
        "pageof" => Some(Inline::PageOf { to: given.target(), weight }),
        "page" => Some(Inline::PageNumber),
        "pages" => Some(Inline::PageCount),
        "sheetpage" => Some(Inline::SheetPageNumber),
        "sheetpages" => Some(Inline::SheetPageCount),
        _ => None,
    }
}

/// The look that an element gives to what it holds.
pub fn weight(element: &str, outer: Weight) -> Weight {
    match element {
        "b" => Weight { bold: true, ..outer },
        "i" => Weight { italic: true, ..outer },
        "large" => Weight { large: true, ..outer },
        _ => outer,
    }
}
