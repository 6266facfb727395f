//! Figures that carry how they came to be.
//!
//! In: values with their place or rule, and operations on figures.
//! Out: figures with inputs, reason and printed form.
//! May not know: doors, papers, the grammar of rules.
