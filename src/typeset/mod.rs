//! Blocks to measured lines and rows to pages.
//!
//! In: a block tree, faces and a theme.
//! Out: pages of placed items, each with the id of its block.
//! May not know: PDF, doors, money.

mod pages;

pub use crate::markup::Mp;
pub use pages::{Artifact, Heading, Item, Owner, Page, Pages, Placed};
