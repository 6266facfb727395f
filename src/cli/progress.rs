//! How far an issue has come, on one line of a terminal.
//!
//! In: reports of the pipeline. Out: a line on standard error, written over itself and cleared at the end; nothing where standard error
//! is no terminal. May not know: what a paper holds.

use std::io::{self, IsTerminal, Write};
use std::sync::Mutex;

use crate::pipeline::Progress;

/// Letters of the longest line, so that a shorter one leaves nothing of it.
const WIDTH: usize = 48;

/// The line.
pub struct ProgressLine {
    is_shown: bool,
    /// The most that was shown: reports come from several threads, and a late one must not count back.
    most: Mutex<usize>,
}

impl ProgressLine {
    /// A line that is shown on a terminal, unless it shall be quiet.
    pub fn new(quiet: bool) -> Self {
        ProgressLine { is_shown: !quiet && io::stderr().is_terminal(), most: Mutex::new(0) }
    }

    /// Shows how far the issue has come.
    pub fn show(&self, progress: Progress) {
        let Ok(mut most) = self.most.lock() else { return };
        let text = match progress {
            Progress::Read => "reviewing, taking off and pricing".to_owned(),
            Progress::Papers(made, all) => {
                *most = made.max(*most);
                format!("making papers, {most} of {all} kinds done")
            }
        };
        self.write(&text);
    }

    fn write(&self, text: &str) {
        if self.is_shown {
            // What is lost of it is no part of what the command has to say.
            let _ = write!(io::stderr().lock(), "\r{text:WIDTH$}\r");
        }
    }
}

impl Drop for ProgressLine {
    fn drop(&mut self) {
        self.write("");
    }
}
