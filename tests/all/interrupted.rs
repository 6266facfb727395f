//! Issues that are cut off, run twice at once, or meet what others left: the folder of papers and the record stay whole.
//!
//! In: a small job, killed and raced runs of the program. Out: papers that differ from their record, files left over, words missing. The
//! cases are those found by force in this program (invented).

use std::collections::BTreeSet;
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::process::Stdio;
use std::time::Duration;

use sha2::{Digest, Sha256};

use crate::command_line::{Folder, Ran, command, issued, run};
use crate::outside_folders::{issue, job, small, write};

const HOME: &str = "papers/C-1";

/// The folder of papers holds what its record names, with these digests, and no other paper.
fn assert_whole(folder: &Folder, when: &str) {
    let record = issued(folder, &format!("{HOME}/issued.txt"));
    let mut names = folder.names(HOME);
    names.remove("issued.txt");
    assert_eq!(names, record.keys().cloned().collect::<BTreeSet<_>>(), "{when}");
    for (name, sum) in record {
        let bytes = fs::read(folder.path(&format!("{HOME}/{name}"))).unwrap();
        let digest: String = Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(digest, sum, "{when}: {name}");
    }
}

/// Names in a folder, hidden ones and folders too.
fn all_names(folder: &Folder, inside: &str) -> BTreeSet<String> {
    let Ok(entries) = fs::read_dir(folder.path(inside)) else { return BTreeSet::new() };
    entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
}

fn words<'w>(job: &'w str, out: &'w str) -> [&'w str; 7] {
    ["issue", job, "needs", "register", "schedule", "--output", out]
}

fn recorded(folder: &Folder) -> Ran {
    issue(folder, &["--record"])
}

#[test]
fn a_folder_that_another_process_writes_is_refused_and_named() {
    let folder = small("held");
    fs::create_dir_all(folder.path("papers")).unwrap();
    let path = folder.path("papers/.C-1.lock");
    let mut lock = OpenOptions::new().create_new(true).write(true).open(&path).unwrap();
    writeln!(lock, "4711").unwrap();
    lock.lock().unwrap();
    let ran = issue(&folder, &[]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert!(ran.err.contains("another process, number 4711, is writing the papers of job C-1"), "{}", ran.err);
    assert!(!folder.path(HOME).exists());
    // The process ends, however it ends: its lock blocks nobody.
    drop(lock);
    assert!(path.exists());
    let ran = issue(&folder, &[]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(all_names(&folder, "papers"), BTreeSet::from(["C-1".to_owned()]));
}

#[test]
fn the_record_is_written_by_one_process_at_a_time() {
    let folder = small("record-held");
    write(&folder, &job().replace("date = ", "revision = \"A\"\ndate = "));
    let path = folder.path("jobs/alder/.job.issued.lock");
    let lock = OpenOptions::new().create_new(true).write(true).open(&path).unwrap();
    lock.lock().unwrap();
    let ran = recorded(&folder);
    assert!(ran.code == 2 && ran.err.contains("is writing the record of this job"), "{}", ran.err);
    drop(lock);
    fs::remove_file(&path).unwrap();
    // A folder that cannot be written to is found before any paper goes out.
    fs::create_dir(&path).unwrap();
    let ran = recorded(&folder);
    assert!(ran.code == 2 && ran.err.contains("nothing was issued"), "{}", ran.err);
    assert!(!folder.path("papers").exists() && !folder.path("jobs/alder/job.issued").exists());
    fs::remove_dir(&path).unwrap();
    assert_eq!(recorded(&folder).code, 0);
    assert!(!path.exists());
}

#[test]
fn two_issues_at_once_leave_whole_papers() {
    let folder = small("races");
    let (job, out) = (folder.path("jobs/alder/job.toml"), folder.path("papers"));
    let words = words(job.to_str().unwrap(), out.to_str().unwrap());
    let (mut done, mut refused) = (0, 0);
    for round in 0..6 {
        let start = || command(&words).stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap();
        for child in [start(), start(), start()] {
            let ended = child.wait_with_output().unwrap();
            let err = String::from_utf8_lossy(&ended.stderr).into_owned();
            match ended.status.code() {
                Some(0) => done += 1,
                Some(2) if err.contains("is writing the papers") => refused += 1,
                other => panic!("round {round}: {other:?}: {err}"),
            }
        }
        assert_whole(&folder, &format!("round {round}"));
    }
    assert!(done >= 6 && done + refused == 18, "{done} done, {refused} refused");
    assert_eq!(all_names(&folder, "papers"), BTreeSet::from(["C-1".to_owned()]));
}

#[test]
fn a_killed_issue_leaves_the_old_papers_or_the_new() {
    let folder = small("kills");
    let (path, out) = (folder.path("jobs/alder/job.toml"), folder.path("papers"));
    let words = words(path.to_str().unwrap(), out.to_str().unwrap());
    let started = std::time::Instant::now();
    assert_eq!(run(&words).code, 0);
    let whole = started.elapsed();
    let texts = [job().replace("150 lb", "160 lb"), job()];
    for round in 0..12_u32 {
        write(&folder, &texts[round as usize % 2]);
        let mut child = command(&words).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        std::thread::sleep(whole.mul_f64(0.4 + 0.06 * f64::from(round)).min(Duration::from_secs(5)));
        let _ = child.kill();
        child.wait().unwrap();
        assert_whole(&folder, &format!("round {round}"));
    }
    let ran = run(&words);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_whole(&folder, "after all");
    assert_eq!(all_names(&folder, "papers"), BTreeSet::from(["C-1".to_owned()]), "{}", ran.out);
}

#[test]
fn what_a_killed_issue_left_is_said_and_cleaned_up() {
    let folder = small("left");
    assert_eq!(issue(&folder, &[]).code, 0);
    let left = "papers/.hingewright-C-1-0123456789abcdef";
    fs::create_dir_all(folder.path(left)).unwrap();
    for (name, text) in [("needs.pdf", "half of it"), ("issued.txt", "job C-1\n"), ("note.txt", "of the office")] {
        fs::write(folder.path(&format!("{left}/{name}")), text).unwrap();
    }
    // Another job's is none of ours, and a folder of papers may hold files of others.
    fs::create_dir_all(folder.path("papers/.hingewright-C-10-0123456789abcdef")).unwrap();
    fs::write(folder.path(&format!("{HOME}/packet-gone.pdf")), "a paper of an issue that was cut off").unwrap();
    fs::write(folder.path(&format!("{HOME}/mine.pdf")), "of the office").unwrap();
    let ran = issue(&folder, &[]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.contains("removed .hingewright-C-1-0123456789abcdef"), "{}", ran.out);
    assert!(ran.out.contains("packet-gone.pdf to superseded: issued.txt did not name it"), "{}", ran.out);
    let names = BTreeSet::from(["C-1".to_owned(), ".hingewright-C-10-0123456789abcdef".to_owned()]);
    assert_eq!(all_names(&folder, "papers"), names);
    let names = BTreeSet::from(["issued.txt", "mine.pdf", "needs.pdf", "note.txt", "superseded"].map(str::to_owned));
    assert_eq!(all_names(&folder, HOME), names, "files of others stay");
    assert_eq!(folder.names(&format!("{HOME}/superseded")), BTreeSet::from(["packet-gone.pdf".to_owned()]));
    // The same where somebody keeps a folder among the papers, so that they cannot be exchanged whole.
    fs::create_dir_all(folder.path(&format!("{HOME}/photos"))).unwrap();
    fs::write(folder.path(&format!("{HOME}/photos/door.jpg")), "a door").unwrap();
    fs::write(folder.path(&format!("{HOME}/survey.pdf")), "a paper of long ago").unwrap();
    let ran = issue(&folder, &["register"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let names = ["issued.txt", "mine.pdf", "needs.pdf", "note.txt", "photos", "register.pdf", "superseded"];
    assert_eq!(all_names(&folder, HOME), BTreeSet::from(names.map(str::to_owned)));
    assert!(folder.path(&format!("{HOME}/photos/door.jpg")).is_file());
}

#[test]
fn a_record_of_papers_that_is_not_ours_is_said() {
    let folder = small("not-ours");
    assert_eq!(issue(&folder, &[]).code, 0);
    let record = folder.path(&format!("{HOME}/issued.txt"));
    let texts: [(&[u8], &str); 3] = [
        (b"\xff\xfe\x00", "cannot be read"),
        (b"", "was not written by this program"),
        (b"notes of mine\n", "was not"),
    ];
    for (text, says) in texts {
        fs::write(&record, text).unwrap();
        let ran = issue(&folder, &[]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        assert!(ran.out.contains(says), "{says}: {}", ran.out);
        assert!(ran.out.contains("needs.pdf to superseded: issued.txt did not name it"), "{}", ran.out);
        assert!(fs::read_to_string(&record).unwrap().starts_with("job C-1\n"));
    }
    // Two numbers that give one name of a folder: neither takes away the papers of the other.
    write(&folder, &job().replace("number = \"C-1\"", "number = \"C_1\""));
    fs::rename(folder.path(HOME), folder.path("papers/C_1")).unwrap();
    let ran = issue(&folder, &[]);
    assert!(ran.code == 2 && ran.err.contains("holds the papers of job C-1"), "{}", ran.err);
}

#[test]
fn copies_without_a_record_do_not_block_the_next_issue() {
    let folder = small("orphans");
    let of = |weight: &str| job().replace("date = ", "revision = \"A\"\ndate = ").replace("150 lb", weight);
    write(&folder, &of("150 lb"));
    assert_eq!(recorded(&folder).code, 0);
    // Killed between the copies and the record: the same again uses them.
    let record = folder.path("jobs/alder/job.issued.toml");
    let text = fs::read_to_string(&record).unwrap();
    fs::remove_file(&record).unwrap();
    let ran = recorded(&folder);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(fs::read_to_string(&record).unwrap(), text);
    assert_eq!(all_names(&folder, "jobs/alder/job.issued"), BTreeSet::from(["A".to_owned()]));
    // The same, and the job was changed since: the copies go aside, nothing is lost, and it is said.
    fs::remove_file(&record).unwrap();
    fs::create_dir_all(folder.path("jobs/alder/job.issued/A.writing/catalog")).unwrap();
    fs::create_dir_all(folder.path("jobs/alder/job.issued/.hingewright-A-0123456789abcdef")).unwrap();
    let unfinished = folder.path("jobs/alder/.hingewright-job.issued.toml-0123456789abcdef");
    fs::write(&unfinished, "half of a record").unwrap();
    write(&folder, &of("160 lb"));
    let ran = recorded(&folder);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(!unfinished.exists() && ran.out.contains("removed "), "{}", ran.out);
    assert!(ran.out.contains("A-not-recorded-1: no record names these copies"), "{}", ran.out);
    let names = BTreeSet::from(["A".to_owned(), "A-not-recorded-1".to_owned()]);
    assert_eq!(all_names(&folder, "jobs/alder/job.issued"), names);
    let compared = run(&["compare", folder.path("jobs/alder/job.toml").to_str().unwrap(), "--from", "A"]);
    assert!(compared.code == 0 && compared.out.contains("nothing differs"), "{}{}", compared.out, compared.err);
}
