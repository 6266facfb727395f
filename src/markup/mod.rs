//! A template and a view to a block tree with places.
//!
//! In: templates and serialised views.
//! Out: a checked block tree, or findings at template, line and column.
//! May not know: doors, money, page sizes.
//!
//! The page for people who write templates is `MARKUP.md` beside this file.

mod bind;
mod broken;
mod changes;
mod codes;
mod elements;
mod extent;
mod fields;
mod grid;
mod inclusion;
mod kinds;
mod language;
mod order;
mod parallel_rows;
mod reader;
mod remedies;
mod scan;
mod space;
mod statement;
mod templates;
#[cfg(test)]
mod tests;
mod tree;
mod units;
mod vocabulary;
mod words;

pub use bind::Bound;
pub use changes::{Drawings, EarlierTree, mark_changes};
pub use codes::{
    BAD_ATTRIBUTE, CODES, ID_TWICE, MARKUP_BROKEN, MARKUP_TOO_DEEP, MISPLACED_ELEMENT, MISSING_ATTRIBUTE, STRAY_TEXT,
    TEMPLATE_MISSING, TEMPLATE_REFUSED, TEMPLATE_SYNTAX, TEMPLATE_TOO_LONG, TEMPLATE_VALUE, TEXT_TOO_LONG,
    UNKNOWN_ATTRIBUTE, UNKNOWN_ELEMENT, UNKNOWN_TARGET,
};
pub use elements::{Attribute, AttributeValue, ELEMENTS, Element, Holds, IN_TEXT};
pub use extent::Mp;
pub use templates::{Source, Templates};
pub use tree::{Block, BlockId, Body, Field, FieldId, Inline, Tree, Weight};
pub use vocabulary::{
    Align, BoxKind, Column, Kind, ListKind, Orientation, RowKind, Scale, Scope, SheetSize, Slot, TableLook, Width,
};
