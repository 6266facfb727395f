//! Frames of boxes, told apart without color, and boxes to check.
//!
//! In: a frame and the height that its pieces take on a page. Out: rules and bars. May not know: what stands inside.

use super::pages::{Artifact, Form, Item, Owner, Placed};
use crate::markup::{BlockId, BoxKind, FieldId, Mp};

/// A frame around pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Frame {
    /// The box it belongs to.
    pub block: BlockId,
    /// What the box is for.
    pub kind: BoxKind,
    /// Its left edge, from the left of the column.
    pub x: Mp,
    /// Its width.
    pub width: Mp,
    /// Thickness of its rules.
    pub rule: Mp,
    /// Gray of its rules.
    pub gray: u16,
    /// Width of the bar of a caution.
    pub bar: Mp,
}

/// The rules and bars of a frame around what stands between `top` and `bottom`.
pub fn draw(frame: &Frame, left: Mp, top: Mp, bottom: Mp) -> Vec<Item> {
    let half = frame.rule / 2;
    let (x1, x2) = (left + frame.x + half, left + frame.x + frame.width - half);
    let (y1, y2) = (top + half, bottom - half);
    let mut items = rectangle(x1, y1, x2, y2, frame.rule, frame.gray);
    if frame.kind == BoxKind::Caution {
        items.push(artifact(Placed::Fill {
            x: left + frame.x,
            y: top,
            width: frame.bar,
            height: bottom - top,
            gray: 0,
        }));
    }
    items
}

/// Four rules around a rectangle.
pub fn rectangle(x1: Mp, y1: Mp, x2: Mp, y2: Mp, width: Mp, gray: u16) -> Vec<Item> {
    let sides = [(x1, y1, x2, y1), (x2, y1, x2, y2), (x2, y2, x1, y2), (x1, y2, x1, y1)];
    sides.map(|(x1, y1, x2, y2)| artifact(Placed::Rule { x1, y1, x2, y2, width, gray })).into()
}

/// A thing without content of its own.
pub fn artifact(placed: Placed) -> Item {
    Item::new(Owner::Artifact(Artifact::Layout), placed)
}

/// A box to check, by its upper left corner and its side. Where it can be filled in, the box alone is drawn: the check is the
/// field's to show and to take back. What stands on every page cannot be filled in.
pub fn check(owner: Owner, (x, y, side): (Mp, Mp, Mp), on: bool, field: Option<FieldId>) -> Vec<Item> {
    match (field, owner) {
        (Some(field), Owner::Block(_) | Owner::Label(_)) => {
            let form = Form::Check { on };
            let placed = Placed::Field { x, y, width: side, height: side, size: side, form, field };
            vec![artifact(Placed::Check { x, y, side, on: false }), Item::new(owner, placed)]
        }
        _ => vec![Item::new(owner, Placed::Check { x, y, side, on })],
    }
}
