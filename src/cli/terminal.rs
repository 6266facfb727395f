//! Writing to the terminal.
//!
//! In: finished text. Out: the same on standard output or standard error. A closed pipe is no error: whoever read has had
//! enough. May not know: what is written.

use std::io::{IsTerminal, Write};

/// Writes to standard output.
pub fn print(text: &str) {
    let _ = std::io::stdout().lock().write_all(text.as_bytes());
}

/// Writes to standard error.
pub fn complain(text: &str) {
    let _ = std::io::stderr().lock().write_all(text.as_bytes());
}

/// Writes to standard error or standard output.
pub fn print_either(error: bool, text: &str) {
    if error { complain(text) } else { print(text) }
}

/// Whether standard error shows colour: a terminal, and nobody asked for none.
pub fn colour() -> bool {
    std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none()
}
