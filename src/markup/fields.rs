//! Places to fill in: their names, each once in a paper, and what is to be filled in, in words.
//!
//! In: the block tree, with the names and labels that the markup gave. Out: the same fields, named and labeled to the end.
//! May not know: how a field looks, or the form of any file.
//!
//! A full name is the name of the sheet, a point, and the name of the field, such as `101A.found`. A name comes from the
//! markup or from the label, so that it tells what it is of; where two on a sheet are alike, the second has `-2` behind it.

use std::collections::BTreeMap;

use super::{BlockId, Body, Field, FieldId, Inline, Kind, Tree};

/// The longest name that is made from a label, and the longest label that is made from a text, in characters.
const LONGEST: (usize, usize) = (40, 120);

/// What stands around a field and says what it is of.
#[derive(Clone, Default)]
struct FieldContext {
    sheet: String,
    heading: String,
    term: String,
    /// The head cells of the table: column, columns covered, text.
    heads: Vec<(usize, usize, String)>,
    /// The first text of the row, and the cell that it stands in.
    row: Option<(BlockId, String)>,
    /// The heads of the cell's columns.
    column: String,
}

/// Names and labels every field of a paper.
pub(super) fn finish(tree: &mut Tree) {
    if tree.fields.is_empty() {
        return;
    }
    let mut finisher = Finisher { tree, fields: tree.fields.clone(), sheets: 0, used: BTreeMap::new() };
    finisher.block(tree.root(), &mut FieldContext::default());
    tree.fields = finisher.fields;
}

struct Finisher<'t> {
    tree: &'t Tree,
    fields: Vec<Field>,
    sheets: usize,
    used: BTreeMap<(String, String), usize>,
}

impl Finisher<'_> {
    fn block(&mut self, id: BlockId, around: &mut FieldContext) {
        let block = self.tree.block(id);
        match &block.kind {
            Kind::Sheet { .. } => {
                self.sheets += 1;
                let named = block.name.as_deref().map(part).filter(|name| !name.is_empty());
                around.sheet = named.unwrap_or_else(|| format!("sheet-{}", self.sheets));
            }
            Kind::Heading(_) => around.heading = self.tree.text(id),
            Kind::Term => around.term = self.tree.text(id),
            _ => {}
        }
        if let Some(field) = block.field {
            let label = match &block.kind {
                Kind::Answer { label, .. } => label.clone().unwrap_or_default(),
                Kind::Cell { .. } => String::new(),
                _ => self.tree.text(id),
            };
            self.finish(field, &label, id, around);
        }
        match &block.body {
            Body::Text(inlines) => self.inlines(inlines, id, around),
            Body::Blocks(children) => self.children(id, children, around),
            Body::Empty => {}
        }
    }

    fn children(&mut self, id: BlockId, children: &[BlockId], around: &mut FieldContext) {
        match self.tree.block(id).kind {
            Kind::Table { .. } => {
                let mut inside = FieldContext { heads: self.heads(children), ..around.clone() };
                children.iter().for_each(|child| self.block(*child, &mut inside));
            }
            Kind::Row { .. } => self.row(children, around),
            Kind::Definitions { .. } => {
                let outer = std::mem::take(&mut around.term);
                children.iter().for_each(|child| self.block(*child, around));
                around.term = outer;
            }
            _ => children.iter().for_each(|child| self.block(*child, around)),
        }
    }

    fn row(&mut self, cells: &[BlockId], around: &mut FieldContext) {
        let texts = cells.iter().map(|cell| (*cell, self.tree.text(*cell)));
        let row = texts.into_iter().find(|(_, text)| !text.is_empty());
        for cell in cells {
            let (at, span) = self.covers(*cell);
            let heads = around.heads.iter().filter(|(from, covers, _)| *from < at + span && at < *from + *covers);
            let column = heads.map(|(_, _, text)| text.as_str()).filter(|text| !text.is_empty()).collect::<Vec<_>>();
            let mut inside = FieldContext { column: column.join(", "), row: row.clone(), ..around.clone() };
            self.block(*cell, &mut inside);
        }
    }

    /// The first column of a cell, and how many it covers.
    fn covers(&self, cell: BlockId) -> (usize, usize) {
        match self.tree.block(cell).kind {
            Kind::Cell { column, colspan, .. } => (usize::from(column), usize::from(colspan)),
            _ => (0, 1),
        }
    }

    fn heads(&self, groups: &[BlockId]) -> Vec<(usize, usize, String)> {
        let mut heads = Vec::new();
        let head = groups.iter().filter(|group| self.tree.block(**group).kind == Kind::TableHead);
        for row in head.flat_map(|group| self.tree.children(*group)) {
            for cell in self.tree.children(*row) {
                let (at, span) = self.covers(*cell);
                heads.push((at, span, self.tree.text(*cell)));
            }
        }
        heads
    }

    /// A box is labeled by the words behind it, a line to write on by the words before it.
    fn inlines(&mut self, inlines: &[Inline], id: BlockId, around: &FieldContext) {
        for (at, inline) in inlines.iter().enumerate() {
            match inline {
                Inline::Check { field: Some(field), .. } => {
                    let label = words(inlines[at + 1..].iter());
                    self.finish(*field, &label, id, around);
                }
                Inline::Blank { field: Some(field), .. } => {
                    let before = inlines[..at].iter().rev().take_while(|inline| matches!(inline, Inline::Text { .. }));
                    let label = words(before.collect::<Vec<_>>().into_iter().rev());
                    self.finish(*field, &label, id, around);
                }
                _ => {}
            }
        }
    }

    fn finish(&mut self, id: FieldId, label: &str, block: BlockId, around: &FieldContext) {
        let field = &mut self.fields[id.0 as usize];
        if field.label.is_empty() {
            field.label = around.label(label, block);
        }
        let wanted =
            if field.name.is_empty() { shortened(&part(&field.label), LONGEST.0, "") } else { part(&field.name) };
        let wanted = if wanted.is_empty() { "field".to_string() } else { wanted };
        field.sheet.clone_from(&around.sheet);
        field.name = loop {
            let count = self.used.entry((around.sheet.clone(), wanted.clone())).or_insert(0);
            *count += 1;
            let name = if *count == 1 { wanted.clone() } else { format!("{wanted}-{count}") };
            // `a-2` may be taken by a field of that very name.
            if *count == 1 || self.used.insert((around.sheet.clone(), name.clone()), 1).is_none() {
                break name;
            }
        };
    }
}

impl FieldContext {
    /// What a field in a block is of: its own words behind those of its row and column.
    fn label(&self, own: &str, block: BlockId) -> String {
        let own = own.trim_matches(|letter: char| letter.is_whitespace() || ":;,•".contains(letter));
        let row = self.row.as_ref().filter(|(cell, text)| *cell != block && text != own);
        let mut parts: Vec<&str> = row.map(|(_, text)| text.as_str()).into_iter().collect();
        parts.extend([if own.is_empty() { &self.column } else { own }].iter().filter(|part| !part.is_empty()));
        if parts.is_empty() {
            parts.extend([&self.term, &self.heading].into_iter().find(|part| !part.is_empty()).map(String::as_str));
        }
        shortened(&parts.join(": "), LONGEST.1, "…")
    }
}

/// The letters of the texts before the next thing that is none.
fn words<'i>(inlines: impl Iterator<Item = &'i Inline>) -> String {
    let texts =
        inlines.map_while(|inline| if let Inline::Text { text, .. } = inline { Some(text.as_str()) } else { None });
    texts.collect()
}

/// A text cut after a word, with a mark where it was cut.
fn shortened(text: &str, most: usize, mark: &str) -> String {
    match text.char_indices().nth(most) {
        None => text.to_string(),
        Some((end, _)) => {
            let kept = &text[..end];
            let kept = kept.rfind([' ', '-']).map_or(kept, |at| &kept[..at]);
            format!("{kept}{mark}")
        }
    }
}

/// A text as a part of a name: letters and digits as they are, one `-` for all else.
fn part(text: &str) -> String {
    let words = text.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join("-")
}
