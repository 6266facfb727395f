//! Drawings of openings and sites.
//!
//! In: openings, operators and the engineering behind them.
//! Out: shapes for a given frame.
//! May not know: pages, prices.
