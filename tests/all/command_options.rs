//! Options of the command line, and what is said of words and names that are wrong.
//!
//! In: a small job. Out: what is printed. May not know: any room.

use std::collections::BTreeMap;
use std::fs;

use hingewright::pipeline;

use crate::command_line::{Folder, command, run};
use crate::demo::{self, JOB, replace};
use crate::outside_folders::{issue, job, small, write};

#[test]
fn papers_are_the_same_on_any_number_of_threads() {
    let read = |folder: &Folder| -> BTreeMap<String, Vec<u8>> {
        let names = folder.names("papers/C-1").into_iter();
        names.map(|name| (name.clone(), fs::read(folder.path(&format!("papers/C-1/{name}"))).unwrap())).collect()
    };
    let [one, four] = ["1", "4"].map(|jobs| {
        let folder = small(&format!("jobs-{jobs}"));
        let ran = issue(&folder, &["register", "schedule", "packet", "--jobs", jobs]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        read(&folder)
    });
    assert!(one.len() > 4 && one == four, "{:?}", one.keys());
    for wrong in ["0", "257", "many"] {
        assert_eq!(run(&["check", JOB, "--jobs", wrong]).code, 2, "{wrong}");
    }
}

#[test]
fn nothing_of_progress_is_printed_where_no_one_looks() {
    let folder = small("quiet");
    let loud = issue(&folder, &[]);
    assert!(
        loud.out.contains("wrote ") && !loud.err.contains('\r') && !loud.err.contains("making papers"),
        "{}",
        loud.err
    );
    let quiet = issue(&folder, &["--quiet"]);
    assert_eq!((quiet.code, quiet.out.as_str()), (0, ""), "{}", quiet.err);
    assert_eq!(quiet.err, loud.err, "findings are shown");
}

#[test]
fn templates_that_are_not_used_or_not_read_are_reported() {
    let folder = small("templates");
    let own = folder.path("own");
    let missing = issue(&folder, &["--templates", own.to_str().unwrap()]);
    assert!(missing.code == 2 && missing.err.contains("there is no such folder"), "{}", missing.err);
    fs::create_dir_all(&own).unwrap();
    fs::write(own.join("neds.xml"), "<p>ours</p>").unwrap();
    let misspelled = issue(&folder, &["--templates", own.to_str().unwrap()]);
    assert_eq!(misspelled.code, 0, "{}", misspelled.err);
    assert!(
        misspelled.err.contains("template-not-used") && misspelled.err.contains("name it needs.xml"),
        "{}",
        misspelled.err
    );
    fs::remove_file(own.join("neds.xml")).unwrap();
    fs::write(own.join("needs.xml"), b"<document title=\"\xff\"/>").unwrap();
    let not_text = issue(&folder, &["--templates", own.to_str().unwrap()]);
    assert_eq!(not_text.code, 1, "{}", not_text.out);
    assert!(not_text.err.contains("template-not-text") && not_text.out.contains("held needs"), "{}", not_text.err);
    // One that another includes is used.
    fs::write(
        own.join("needs.xml"),
        "<document title=\"N\" lang=\"en\"><sheet>{% include \"part.xml\" %}</sheet></document>",
    )
    .unwrap();
    fs::write(own.join("part.xml"), "<p>ours</p>").unwrap();
    let used = issue(&folder, &["--templates", own.to_str().unwrap()]);
    assert!(used.code == 0 && !used.err.contains("template-not-used"), "{}", used.err);
}

#[test]
fn a_revision_that_cannot_be_one_is_reported_as_it_is_typed() {
    let folder = small("revision");
    write(&folder, &job().replace("date = ", "revision = \"A/1\"\ndate = "));
    let ran = issue(&folder, &["--record"]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    assert!(ran.err.contains("A/1") && !ran.err.contains("no-revision"), "{}", ran.err);
}

#[cfg(unix)]
#[test]
fn a_path_that_is_not_text_is_reported_so() {
    use std::os::unix::ffi::OsStrExt;
    let folder = small("not-text");
    let path = folder.path("jobs/alder").join(std::ffi::OsStr::from_bytes(b"job\xff.toml"));
    fs::copy(folder.path("jobs/alder/job.toml"), &path).unwrap();
    let done = command(&["check"]).arg(&path).output().unwrap();
    let err = String::from_utf8_lossy(&done.stderr).into_owned();
    assert!(done.status.code() == Some(2) && err.contains("is not UTF-8"), "{err}");
}

#[test]
fn two_papers_of_one_file_are_held_and_both_places_reported() {
    let mut texts = demo::texts();
    let more = "\n[[section]]\nnumber = \"087113\"\ntitle = \"The same, written otherwise\"\ngroups = [\"sign\"]\n\n\
                [[transmittal]]\nsubmittal = \"wiring\"\nsection = \"087113\"\nnumber = \"2\"\n";
    texts.get_mut(JOB).unwrap().push_str(more);
    let found = pipeline::check(&demo::snapshot(&texts), JOB);
    let finding = found.iter().find(|it| it.code.id == "one-file").unwrap_or_else(|| panic!("{found:#?}"));
    assert_eq!(finding.places.len(), 2);
    assert_eq!(finding.found, "submittal-087113-2.pdf");
    assert_eq!(finding.blocks.iter().map(|paper| paper.word()).collect::<Vec<_>>(), ["submittal"]);
    let mut sites = demo::texts();
    replace(&mut sites, JOB, "[site.hall]", "[site.CLINIC]\nname = \"Another\"\naddress = \"1 Row\"\n\n[site.hall]");
    let found = pipeline::check(&demo::snapshot(&sites), JOB);
    assert!(found.iter().any(|it| it.code.id == "one-file" && it.found.starts_with("packet-")), "{found:#?}");
}
