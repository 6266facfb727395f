//! Quantity and labor lines, one per rule and entity.
//!
//! In: a cleared job and the catalog's rules.
//! Out: lines whose quantities are figures of the ledger.
//! May not know: prices, pages.
