//! The catalog's conditions and quantities.
//!
//! In: expression text, a sheet of facts and their values.
//! Out: checked expressions, and figures evaluated on the ledger.
//! May not know: which facts exist, or what an item is.
