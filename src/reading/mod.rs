//! Text to a located tree to values, through field tables.
//!
//! In: the text of TOML and CSV files, and tables of fields.
//! Out: slots (absent, bad, given with place and standing) and findings for every fault.
//! May not know: what a field is used for.
