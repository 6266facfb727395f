//! Rendered markup to the block tree, everything checked on the way.
//!
//! In: rendered text, in which each start tag bears the index of its place. Out: the tree, or every fault in it at template,
//! line and column. May not know: how an element is printed.

use std::collections::BTreeMap;
use std::sync::Arc;

use roxmltree::{Document, Node, ParsingOptions};

use super::codes::{
    BAD_ATTRIBUTE, ID_TWICE, MARKUP_TOO_DEEP, MISPLACED_ELEMENT, MISSING_ATTRIBUTE, STRAY_TEXT, UNKNOWN_ATTRIBUTE,
    UNKNOWN_ELEMENT, UNKNOWN_TARGET,
};
use super::elements::{AttributeValue, ELEMENTS, Element, Holds, IN_TEXT};
use super::grid;
use super::kinds::{self, Given};
use super::scan::INDEX;
use super::templates::{Templates, subject};
use super::{Block, BlockId, Body, Field, FieldId, Kind, Tree, broken, fields, order, remedies};
use crate::findings::{Code, FileId, Finding, Findings, Place};

/// Elements stand at most so deep in one another: lists in lists in cells, and room to spare.
const DEEPEST: usize = 48;

/// A table has at most so many columns: each is at most 200 in wide, and all of them together must be an extent.
const MOST_COLUMNS: usize = 100;

/// Reads what the template `name`, which stands in `file`, rendered to. None where anything is wrong.
pub fn read(templates: &Templates, name: &str, file: FileId, text: &str, findings: &mut Findings) -> Option<Tree> {
    let options = ParsingOptions { allow_dtd: false, ..ParsingOptions::default() };
    let document = match Document::parse_with_options(text, options) {
        Ok(document) => document,
        Err(fault) => {
            findings.push(broken::finding(templates, name, text, &fault));
            return None;
        }
    };
    let mut reader = Reader::new(templates, name, file);
    let root = document.root_element();
    if let Some(node) = too_deep(root) {
        findings.push(reader.fault(&MARKUP_TOO_DEEP, node, None).asked(DEEPEST.to_string()));
        return None;
    }
    reader.block(root, &["document"], None);
    reader.check_levels();
    let targets = reader.targets();
    let given = Given::of(root);
    let mut tree = Tree {
        template: name.to_string(),
        title: given.text("title").unwrap_or_default(),
        lang: given.text("lang").unwrap_or_default(),
        scale: kinds::scale(given),
        blocks: reader.blocks,
        fields: reader.fields,
        targets,
        tells_pages: reader.tells_pages,
        bound: Vec::new(),
    };
    findings.extend(reader.findings);
    if !findings.is_empty() {
        return None;
    }
    fields::finish(&mut tree);
    Some(tree)
}

/// Reads elements in order and writes down what it comes upon; what can be told only of the whole paper is told at its end.
pub(super) struct Reader<'a> {
    pub(super) templates: &'a Templates,
    pub(super) name: &'a str,
    pub(super) file: FileId,
    pub(super) blocks: Vec<Block>,
    pub(super) fields: Vec<Field>,
    pub(super) findings: Findings,
    /// The levels of the headings, each with the finding that is due where the one before it is too far above.
    pub(super) levels: Vec<(u8, Finding)>,
    /// The blocks that have an id, each with the finding that is due where another has it.
    pub(super) ids: Vec<(Arc<str>, BlockId, Finding)>,
    /// The ids that texts lead to, each with the finding that is due where no block has it.
    pub(super) leads: Vec<(Arc<str>, Finding)>,
    pub(super) tells_pages: bool,
}

/// The first element that stands deeper than any may. What is read afterwards is read by functions that call themselves.
fn too_deep<'d, 'i>(root: Node<'d, 'i>) -> Option<Node<'d, 'i>> {
    let mut open = vec![root.children()];
    while let Some(around) = open.last_mut() {
        match around.next() {
            Some(node) if node.is_element() && open.len() >= DEEPEST => return Some(node),
            Some(node) if node.has_children() => open.push(node.children()),
            Some(_) => {}
            None => drop(open.pop()),
        }
    }
    None
}

fn index(node: Node<'_, '_>) -> Option<usize> {
    node.attribute(INDEX)?.parse().ok()
}

impl<'a> Reader<'a> {
    /// A reader that has read nothing.
    pub(super) fn new(templates: &'a Templates, name: &'a str, file: FileId) -> Self {
        Reader {
            templates,
            name,
            file,
            blocks: Vec::new(),
            fields: Vec::new(),
            findings: Findings::default(),
            levels: Vec::new(),
            ids: Vec::new(),
            leads: Vec::new(),
            tells_pages: false,
        }
    }

    /// The template and the place of a node's start tag. A tag without an index was not literal in any template; the
    /// loader refuses those, and the rendered template as a whole stands for the place.
    fn origin(&self, node: Node<'_, '_>) -> (&str, Place) {
        index(node).and_then(|index| self.templates.tag(index)).unwrap_or((self.name, Place::File(self.file)))
    }

    pub(super) fn fault(&self, code: &'static Code, node: Node<'_, '_>, attribute: Option<&str>) -> Finding {
        let (template, mut place) = self.origin(node);
        if let (Some(attribute), Some(index)) = (attribute, index(node)) {
            place = self.templates.attribute(index, attribute).unwrap_or(place);
        }
        Finding::new(code, subject(template)).at(place)
    }

    /// Reads an element that must be one of `allowed`, and all it holds.
    pub(super) fn block(&mut self, node: Node<'_, '_>, allowed: &[&str], parent: Option<&Element>) -> Option<BlockId> {
        let element = self.element(node, allowed, parent)?;
        self.attributes(node, element);
        let id = BlockId(self.blocks.len() as u32);
        let place = self.origin(node).1;
        let given = Given::of(node);
        let kind = kinds::kind(element.name, given, node);
        self.note_level(&kind, node, element);
        self.tells_pages |= matches!(kind, Kind::Contents { .. });
        let own = self.own_id(id, given, node);
        let field = self.block_field(node, element);
        self.blocks.push(Block {
            kind,
            name: given.text("name"),
            id: own,
            place,
            body: Body::Empty,
            field,
            revised: None,
        });
        let body = self.body(node, element);
        if let ("td", Some(name)) = (element.name, node.attribute("field").filter(|_| body != Body::Empty)) {
            let fault = self.fault(&BAD_ATTRIBUTE, node, Some("field")).found(format!("field=\"{name}\""));
            self.findings.push(fault.asked("an empty cell: what is filled in would stand on its words"));
        }
        self.blocks[id.0 as usize].body = body;
        Some(id)
    }

    /// The field that a block is; a cell only where it says so, since not every empty cell is to be filled in.
    fn block_field(&mut self, node: Node<'_, '_>, element: &Element) -> Option<FieldId> {
        let is_field = match element.name {
            "answer" | "line" => true,
            "td" => node.attribute("field").is_some(),
            "li" => node.parent().is_some_and(|list| list.has_tag_name("checks")),
            _ => false,
        };
        is_field.then(|| self.field(Given::of(node)))
    }

    /// A new field with the name and the label that the markup gives it.
    pub(super) fn field(&mut self, given: Given<'_, '_>) -> FieldId {
        let text = |name| given.text(name).unwrap_or_default();
        self.fields.push(Field { sheet: String::new(), name: text("field"), label: text("label") });
        FieldId(self.fields.len() as u32 - 1)
    }

    /// The id of a block.
    fn own_id(&mut self, block: BlockId, given: Given<'_, '_>, node: Node<'_, '_>) -> Option<Arc<str>> {
        let id: Arc<str> = Arc::from(given.text("id")?.trim());
        let fault = self.fault(&ID_TWICE, node, Some("id")).found(&*id);
        self.ids.push((id.clone(), block, fault));
        Some(id)
    }

    /// Notes that a text leads to a block, which may stand further on.
    pub(super) fn lead(&mut self, node: Node<'_, '_>) -> Arc<str> {
        let to = Given::of(node).target();
        let fault = self.fault(&UNKNOWN_TARGET, node, Some("to")).found(&*to);
        self.leads.push((to.clone(), fault));
        to
    }

    /// The blocks that have an id, which no other may have. Texts may not lead to what is not there.
    fn targets(&mut self) -> BTreeMap<Arc<str>, BlockId> {
        let mut targets = BTreeMap::new();
        for (id, block, fault) in std::mem::take(&mut self.ids) {
            if targets.insert(id, block).is_some() {
                self.findings.push(fault);
            }
        }
        for (to, fault) in std::mem::take(&mut self.leads) {
            if !targets.contains_key(&to) {
                self.findings.push(with_nearest(fault, &to, targets.keys().map(|id| &**id)));
            }
        }
        targets
    }

    fn note_level(&mut self, kind: &Kind, node: Node<'_, '_>, element: &Element) {
        let Kind::Heading(level) = *kind else { return };
        let asked = format!("there is no <h{}> above it", level.saturating_sub(1));
        let fault = self.fault(&MISPLACED_ELEMENT, node, None).found(element.name).asked(asked);
        self.levels.push((level, fault));
    }

    /// Headings may not leave out a level, or a reader who hears them cannot tell what belongs to what.
    fn check_levels(&mut self) {
        let mut last = 0;
        for (level, fault) in std::mem::take(&mut self.levels) {
            if level > last + 1 {
                self.findings.push(fault.advise(format!("<h{}>", last + 1)));
            }
            last = level;
        }
    }

    /// Finds the element and says so where it is unknown or may not stand here.
    pub(super) fn element(
        &mut self,
        node: Node<'_, '_>,
        allowed: &[&str],
        parent: Option<&Element>,
    ) -> Option<&'static Element> {
        let name = node.tag_name().name();
        let Some(element) = Element::named(name) else {
            let fault = self.fault(&UNKNOWN_ELEMENT, node, None).found(name);
            let known = ELEMENTS.iter().map(|element| element.name);
            self.findings.push(or_one_of(with_nearest(fault, name, known), allowed));
            return None;
        };
        if !allowed.contains(&name) {
            let parent = parent.map_or("a template".to_string(), |parent| format!("<{}>", parent.name));
            let asked = match allowed {
                [] => format!("{parent} holds nothing"),
                _ => format!("{parent} holds {}", allowed.join(", ")),
            };
            let fault = self.fault(&MISPLACED_ELEMENT, node, None).found(name).asked(asked);
            let mut above: Vec<&'static Element> =
                node.ancestors().skip(1).filter_map(|node| Element::named(node.tag_name().name())).collect();
            above.reverse();
            self.findings.push(advised(fault, remedies::misplaced(name, &above)));
            return None;
        }
        Some(element)
    }

    pub(super) fn attributes(&mut self, node: Node<'_, '_>, element: &Element) {
        for attribute in node.attributes().filter(|attribute| attribute.name() != INDEX) {
            let (name, value) = (attribute.name(), attribute.value());
            match element.attribute(name) {
                None => {
                    let fault = self.fault(&UNKNOWN_ATTRIBUTE, node, Some(name)).found(name);
                    let known: Vec<&str> = element.attributes.iter().map(|attribute| attribute.name).collect();
                    self.findings.push(or_one_of(with_nearest(fault, name, known.iter().copied()), &known));
                }
                Some(known) if !known.takes.allows(value) => {
                    let fault = self.fault(&BAD_ATTRIBUTE, node, Some(name));
                    let fault = fault.found(format!("{name}=\"{value}\"")).asked(known.takes.says());
                    let words = if let AttributeValue::Word(words) = known.takes { words } else { &[] };
                    self.findings.push(with_nearest(fault, value, words.iter().copied()));
                }
                Some(_) => {}
            }
        }
        for must in element.attributes.iter().filter(|must| must.required && node.attribute(must.name).is_none()) {
            let fault = self.fault(&MISSING_ATTRIBUTE, node, None).asked(must.name);
            self.findings.push(fault.advise(format!("{}=\"…\"", must.name)));
        }
    }

    fn body(&mut self, node: Node<'_, '_>, element: &Element) -> Body {
        match element.holds {
            Holds::Nothing => self.blocks_in(node, element, &[]),
            Holds::Text => self.text_in(node, element),
            Holds::Blocks(allowed) => self.blocks_in(node, element, allowed),
            Holds::TextOr(allowed) => {
                let mut inside = node.children().filter(Node::is_element);
                if inside.any(|child| !IN_TEXT.contains(&child.tag_name().name())) {
                    self.blocks_in(node, element, allowed)
                } else {
                    self.text_in(node, element)
                }
            }
        }
    }

    pub(super) fn blocks_in(&mut self, node: Node<'_, '_>, element: &Element, allowed: &[&str]) -> Body {
        let mut ids = Vec::new();
        let mut columns = 0;
        let mut order = order::Order::of(element.name);
        if element.name == "tbody"
            && let Some(rows) = self.rows_in_parallel(node, element, allowed)
        {
            self.place_cells(&rows);
            return Body::Blocks(rows);
        }
        for child in node.children() {
            if child.is_element() {
                let name = child.tag_name().name();
                if let Some(turn) = order.next(name).filter(|_| allowed.contains(&name)) {
                    self.out_of_turn(child, name, turn);
                }
                if name == "col" && allowed.contains(&name) {
                    columns += 1;
                    self.column(child, element);
                    if columns == MOST_COLUMNS + 1 {
                        let fault = self.fault(&MISPLACED_ELEMENT, child, None).found(name);
                        self.findings.push(fault.asked(format!("a table has at most {MOST_COLUMNS} columns")));
                    }
                } else {
                    ids.extend(self.block(child, allowed, Some(element)));
                }
            } else if let Some(text) = child.text().filter(|text| child.is_text() && !text.trim().is_empty()) {
                self.stray(node, text);
            }
        }
        if let Some(turn) = order.end() {
            self.out_of_turn(node, element.name, turn);
        }
        match element.name {
            "table" => self.check_rows(node, columns),
            "thead" | "tbody" | "tfoot" => self.place_cells(&ids),
            _ => {}
        }
        if ids.is_empty() { Body::Empty } else { Body::Blocks(ids) }
    }

    fn out_of_turn(&mut self, node: Node<'_, '_>, name: &str, turn: order::Turn) {
        let fault = self.fault(&MISPLACED_ELEMENT, node, None).found(name);
        self.findings.push(fault.asked(turn.asked).advise(turn.remedy));
    }

    /// Columns belong to their table; they are no blocks of their own.
    fn column(&mut self, node: Node<'_, '_>, parent: &Element) {
        if let Some(element) = self.element(node, &["col"], Some(parent)) {
            self.attributes(node, element);
            self.body(node, element);
        }
    }

    /// Rows may not cover more columns than the table has, where it says how many, nor cells more rows than their part has.
    fn check_rows(&mut self, table: Node<'_, '_>, columns: usize) {
        for part in table.children().filter(Node::is_element) {
            let spans = kinds::spans(part);
            let starts = grid::first_columns(&spans);
            let rows = part.children().filter(|row| row.has_tag_name("tr"));
            for (at, row) in rows.enumerate() {
                let cells = row.children().filter(Node::is_element).zip(starts[at].iter().zip(&spans[at]));
                for (cell, (_, span)) in cells.clone().filter(|(_, (_, span))| at + span.rows > spans.len()) {
                    let fault = self.fault(&BAD_ATTRIBUTE, cell, Some("rowspan"));
                    let asked = format!("at most {}: its <{}> ends there", spans.len() - at, part.tag_name().name());
                    self.findings.push(fault.found(format!("rowspan=\"{}\"", span.rows)).asked(asked));
                }
                let outside =
                    |(_, (start, span)): &(_, (&usize, &grid::Span))| columns > 0 && **start + span.columns > columns;
                if let Some((cell, _)) = cells.clone().find(outside) {
                    let asked = format!("the table has {columns} columns, and this row has filled them");
                    let name = cell.tag_name().name();
                    let fault = self.fault(&MISPLACED_ELEMENT, cell, None).found(name).asked(asked);
                    self.findings.push(fault.advise("</tr><tr> before it, or one more <col/>"));
                }
            }
        }
    }

    /// Gives the cells of a part of a table their columns.
    fn place_cells(&mut self, rows: &[BlockId]) {
        let cells = |blocks: &[Block], row: &BlockId| match &blocks[row.0 as usize].body {
            Body::Blocks(cells) => cells.clone(),
            Body::Text(_) | Body::Empty => Vec::new(),
        };
        let span = |blocks: &[Block], cell: &BlockId| match blocks[cell.0 as usize].kind {
            Kind::Cell { colspan, rowspan, .. } => grid::Span { columns: colspan.into(), rows: rowspan.into() },
            _ => grid::Span { columns: 1, rows: 1 },
        };
        let cells: Vec<Vec<BlockId>> = rows.iter().map(|row| cells(&self.blocks, row)).collect();
        let spans: Vec<Vec<grid::Span>> =
            cells.iter().map(|row| row.iter().map(|cell| span(&self.blocks, cell)).collect()).collect();
        let starts = grid::first_columns(&spans);
        for (cell, start) in cells.iter().flatten().zip(starts.iter().flatten()) {
            if let Kind::Cell { column, .. } = &mut self.blocks[cell.0 as usize].kind {
                *column = *start as u16; // a table has at most some hundred columns: colspan is at most 100
            }
        }
    }

    pub(super) fn stray(&mut self, node: Node<'_, '_>, text: &str) {
        let shown: String = text.trim().chars().take(40).collect();
        let remedy = Element::named(node.tag_name().name()).and_then(remedies::stray);
        self.findings.push(advised(self.fault(&STRAY_TEXT, node, None).found(shown), remedy));
    }
}

/// Adds what to type, where there is something.
fn advised(finding: Finding, remedy: Option<String>) -> Finding {
    match remedy {
        Some(text) => finding.advise(text),
        None => finding,
    }
}

/// Adds all that may stand there, where no name is near.
fn or_one_of(finding: Finding, known: &[&str]) -> Finding {
    match (&finding.remedy, known) {
        (Some(_), _) => finding,
        (None, []) => finding.advise("nothing: leave it out"),
        (None, _) => finding.advise(format!("one of {}", known.join(", "))),
    }
}

/// Adds the known name that is nearest to a misspelled one, where one is near.
pub(super) fn with_nearest<'n>(finding: Finding, name: &str, known: impl Iterator<Item = &'n str>) -> Finding {
    let nearest = known
        .map(|known| (strsim::jaro_winkler(name, known), known))
        .filter(|(likeness, _)| *likeness > 0.8)
        .max_by(|(a, _), (b, _)| a.total_cmp(b));
    advised(finding, nearest.map(|(_, known)| known.to_string()))
}
