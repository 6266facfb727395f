//! The net under the rooms: work that panics becomes a finding, and the rest of the run goes on.
//!
//! In: work. Out: what came of it, or the fault that ended it. May not know: what the work is.
//!
//! No input is known that makes a room panic; each that was known is a test. A fault of the program that is not known yet must
//! not take the other papers with it. Overflow of the stack and want of memory are no panics and end the program: what could
//! cause them has bounds where it is read.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind, set_hook};

use super::{Loaded, Purpose, load_for};
use crate::findings::{Code, Files, Finding, Findings, Paper, Papers, Severity, Subject};

/// A paper whose making ended in a fault of the program.
pub(super) static PAPER_NOT_MADE: Code = Code {
    id: "paper-not-made",
    severity: Severity::Error,
    says: "the paper {asked} could not be made: {found}",
    why: "This is a fault of the program and not of the job. The paper is held, and every other one is made.",
    example: "",
    blocks: Papers::ALL,
};

/// A job whose review, takeoff or price ended in a fault of the program.
pub(super) static JOB_NOT_WORKED: Code = Code {
    id: "job-not-worked",
    severity: Severity::Error,
    says: "the job could not be processed: {found}",
    why: "This is a fault of the program and not of the job. No result of the job is reliable, so every paper is held.",
    example: "",
    blocks: Papers::ALL,
};

/// The codes of this file.
pub(super) static CODES: [&Code; 2] = [&PAPER_NOT_MADE, &JOB_NOT_WORKED];

/// What to do about a fault of the program.
const REPORT: &str = "send this line and the files of the job to the maintainer of the program";

/// Keeps panics from printing anything: whoever catches one says what it was. To be called once, by whoever owns the terminal.
pub fn silence_panics() {
    set_hook(Box::new(|_| {}));
}

/// Does work; the words of a panic where it ended in one.
///
/// The values that the work had in hand are dropped or read no more by its callers: a half-changed one is never used.
///
/// # Errors
/// What the panic said.
pub fn caught<T>(work: impl FnOnce() -> T) -> Result<T, String> {
    catch_unwind(AssertUnwindSafe(work)).map_err(|said| words(said.as_ref()))
}

/// The words of a panic, on one line.
fn words(said: &(dyn Any + Send)) -> String {
    let text = said.downcast_ref::<&str>().copied().or_else(|| said.downcast_ref::<String>().map(String::as_str));
    text.unwrap_or("no words").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The finding for a paper whose making ended so.
pub(super) fn paper_not_made(paper: Paper, said: &str) -> Findings {
    let finding = Finding::new(&PAPER_NOT_MADE, Subject::Job).asked(paper.word()).found(said);
    one(finding.blocking(Papers::of(&[paper])).advise(REPORT))
}

/// The finding for a job on which work ended so.
pub(super) fn job_not_worked(said: &str) -> Findings {
    one(Finding::new(&JOB_NOT_WORKED, Subject::Job).found(said).advise(REPORT))
}

/// Reads a job and works on it. Where the work ends in a fault of the program, that is found beside what reading found.
pub(super) fn worked<T>(
    purpose: Purpose,
    (files, job_path): (&Files, &str),
    work: impl FnOnce(Loaded) -> (Option<T>, Findings),
) -> (Option<T>, Findings) {
    let loaded = match caught(|| load_for(purpose, files, job_path)) {
        Ok(Some(loaded)) => loaded,
        Ok(None) => return (None, Findings::default()),
        Err(said) => return (None, job_not_worked(&said)),
    };
    let mut read = loaded.findings.clone();
    caught(|| work(loaded)).unwrap_or_else(|said| {
        read.extend(job_not_worked(&said));
        (None, read.sorted())
    })
}

fn one(finding: Finding) -> Findings {
    let mut findings = Findings::default();
    findings.push(finding);
    findings
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn a_panic_becomes_its_words_and_work_that_ends_is_handed_on() {
        assert_eq!(caught(|| 7), Ok(7));
        assert_eq!(caught(|| panic!("the {}\n  of a fault", "words")), Err::<(), _>("the words of a fault".to_owned()));
    }

    #[test]
    fn a_fault_in_the_work_holds_every_paper_beside_what_reading_found() {
        let files = Files::new([("job.toml".to_owned(), b"nonsense = 1\n".to_vec())]);
        let read = |findings: Findings| findings.iter().map(|it| it.code.id).collect::<BTreeSet<_>>();
        let (done, sound) =
            worked(Purpose::Figures, (&files, "job.toml"), |loaded| (Some(7), loaded.findings.sorted()));
        assert_eq!(done, Some(7));
        let (none, found) =
            worked(Purpose::Figures, (&files, "job.toml"), |_| -> (Option<u8>, Findings) { panic!("a fault") });
        assert_eq!(none, None);
        assert_eq!(found.blocked(), Papers::ALL);
        let more = BTreeSet::from(["job-not-worked"]);
        assert_eq!(read(found).difference(&read(sound)).copied().collect::<BTreeSet<_>>(), more);
    }
}
