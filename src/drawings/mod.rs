//! Drawings of openings and sites.
//!
//! In: openings, operators and the engineering behind them.
//! Out: shapes for a given frame.
//! May not know: pages, prices.
//!
//! A drawing is made for the frame it stands in, so that its text keeps the size of the page's text.

mod arranged;
mod board;
mod dimension;
mod drawn;
mod elevation;
mod floor;
mod holes;
mod opening;
mod outlets;
mod pen;
mod plan;
mod riser;
mod ruler;
mod scales;
mod section;
mod survey;
mod swing_plan;

#[cfg(test)]
mod generated;

pub use drawn::{DrawnBack, DrawnClearance, DrawnDevice, DrawnLeaf, DrawnOpening, Reached};
pub use elevation::elevations;
pub use holes::hole_layout;
pub use opening::opening_plan;
pub use plan::{PlanHeader, PlanLeaf, PlanSketch, edge_word};
pub use riser::{RiserClass, RiserLine, RiserNode, riser};
pub use ruler::Ruler;
pub use section::section;
pub use survey::{Dimension, survey_figure};
pub use swing_plan::swing_plan;

/// The frame a drawing is made for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Width in points.
    pub width: f64,
    /// Greatest height in points.
    pub height: f64,
    /// Size of its text in points: that of the page's text.
    pub text: f64,
}
