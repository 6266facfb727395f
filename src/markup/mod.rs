//! A template and a view to a block tree with places.
//!
//! In: templates and serialised views.
//! Out: a checked block tree, or findings at template, line and column.
//! May not know: doors, money, page sizes.

mod extent;
mod tree;

pub use extent::Mp;
pub use tree::{
    Align, Block, BlockId, Body, BoxKind, Column, Inline, Kind, ListKind, Orientation, RowKind, Scale, Scope,
    SheetSize, Slot, TableLook, Tree, Weight, Width,
};
