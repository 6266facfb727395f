//! Plain tables as CSV bytes.
//!
//! In: heads and rows of finished text.
//! Out: bytes of a file any spreadsheet opens.
//! May not know: what the table is about.
