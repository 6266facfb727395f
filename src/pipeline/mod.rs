//! Files in, papers out.
//!
//! In: one snapshot of files.
//! Out: findings and papers as bytes.
//! May not know: the disk, the clock, the terminal.
