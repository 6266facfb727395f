//! A template and a view to a block tree with places.
//!
//! In: templates and serialised views.
//! Out: a checked block tree, or findings at template, line and column.
//! May not know: doors, money, page sizes.
