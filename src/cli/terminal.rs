//! Writing to the terminal.
//!
//! In: finished text. Out: the same on standard output or standard error; whether all of it could be written. A closed pipe is no
//! error: whoever read has had enough. May not know: what is written.

use std::ffi::OsStr;
use std::io::{self, ErrorKind, IsTerminal, Write};
use std::sync::atomic::{AtomicBool, Ordering};

use super::Outcome;

/// Whether something that was to be written to standard output or standard error is not there, such as on a full disk.
static LOST: AtomicBool = AtomicBool::new(false);

/// Writes to standard output.
pub fn print(text: &str) {
    if let Some(fault) = fault_of(write(&mut io::stdout().lock(), text)) {
        LOST.store(true, Ordering::Relaxed);
        complain(&format!("hingewright: cannot write to standard output: {fault}\n"));
    }
}

/// Writes to standard error.
pub fn complain(text: &str) {
    if fault_of(write(&mut io::stderr().lock(), text)).is_some() {
        LOST.store(true, Ordering::Relaxed);
    }
}

/// Writes to standard error or standard output.
pub fn print_either(error: bool, text: &str) {
    if error { complain(text) } else { print(text) }
}

/// How a command ended, now that it has printed what it had to: what could not be written is an error.
pub fn ended(ended: Outcome) -> Outcome {
    if LOST.load(Ordering::Relaxed) { Outcome::CouldNotRun } else { ended }
}

fn write(to: &mut impl Write, text: &str) -> io::Result<()> {
    to.write_all(text.as_bytes())?;
    to.flush()
}

fn fault_of(written: io::Result<()>) -> Option<io::Error> {
    written.err().filter(|fault| fault.kind() != ErrorKind::BrokenPipe)
}

/// Whether standard output shows color.
pub fn color_of_output() -> bool {
    shows_color(io::stdout().is_terminal(), std::env::var_os("NO_COLOR").as_deref())
}

/// Whether standard error shows color.
pub fn color_of_errors() -> bool {
    shows_color(io::stderr().is_terminal(), std::env::var_os("NO_COLOR").as_deref())
}

/// A terminal shows color unless `NO_COLOR` asks for none; it does where it is set and not empty.
fn shows_color(is_terminal: bool, no_color: Option<&OsStr>) -> bool {
    is_terminal && no_color.is_none_or(OsStr::is_empty)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_word_asks_for_nothing() {
        let asks = [(None, true), (Some(""), true), (Some("1"), false), (Some("0"), false)];
        for (word, shown) in asks {
            assert_eq!(shows_color(true, word.map(OsStr::new)), shown, "{word:?}");
            assert!(!shows_color(false, word.map(OsStr::new)), "no terminal, no color");
        }
    }
}
