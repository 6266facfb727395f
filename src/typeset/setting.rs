//! How a text is set: sizes, weight, gray, its place in a column.
//!
//! In: sizes of the theme. Out: settings. May not know: what a text says.

use super::pages::Owner;
use super::theme::Sizes;
use crate::markup::{Align, Mp};

/// How a text is set.
#[derive(Clone, Copy, Debug)]
pub struct Setting {
    /// The size of plain text.
    pub size: Mp,
    /// The size of large text.
    pub large: Mp,
    /// Whether all of it is bold.
    pub bold: bool,
    /// 0 is black.
    pub gray: u16,
    /// Where it stands in its column.
    pub align: Align,
    /// The width of the digits after the longest decimal point of the column, for decimal alignment.
    pub decimals: Mp,
    /// Whose it is.
    pub owner: Owner,
}

impl Setting {
    /// Plain text of an owner.
    pub fn plain(sizes: Sizes, owner: Owner) -> Self {
        let (align, decimals) = (Align::Left, Mp::ZERO);
        Setting { size: sizes.text, large: sizes.large, bold: false, gray: 0, align, decimals, owner }
    }
}
