//! Submittals against published rules: how what is submitted again is numbered, and what stands approved.
//!
//! In: small jobs. Out: numbers as owners print them, approvals. May not know: pages.

use hingewright::catalog::{self, Catalog};
use hingewright::findings::{Files, Finding};
use hingewright::input::Reader;
use hingewright::job::{Job, Stands, SubmittalPart, Transmittal, Typed};
use hingewright::takeoff;

const JOB: &str = include_str!("../cases/nothing-wrong/job.toml");
const CATALOG: &str = include_str!("../cases/_catalog/catalog.toml");

/// The sound job of the cases with submittals in it, and an owner's profile with more keys.
fn read(job: &str, profile: &str) -> (Job, Catalog, Vec<Finding>) {
    let head = "[profile.town]\n";
    assert!(CATALOG.contains(head) && JOB.contains("profile = \"town\"\n"));
    let catalog = CATALOG.replace(head, &format!("{head}{profile}\n"));
    let own = JOB.replace("profile = \"town\"\n", "profile = \"town\"\nrevision = \"B\"\nsection = \"08 71 13\"\n");
    let texts = [("job/job.toml", format!("{own}\n{job}")), ("_catalog/catalog.toml", catalog)];
    let files = Files::new(texts.map(|(path, text)| (path.to_owned(), text.into_bytes())));
    let mut reader = Reader::new(&files);
    let typed = Typed::read(&mut reader, files.find("job/job.toml").unwrap());
    let catalog = catalog::read(&mut reader, "_catalog", None, &takeoff::sheet);
    let job = typed.check(&mut reader, &catalog).unwrap();
    (job, catalog, reader.into_findings().iter().cloned().collect())
}

/// A job with one submittal of the schedule whose rounds are these.
fn with_rounds(rounds: &str) -> (Job, Vec<Finding>) {
    let job = format!(
        "[[submittal]]\nid = \"s\"\ntitle = \"Schedule\"\nparts = [\"schedule\"]\n\n\
         [[transmittal]]\nsubmittal = \"s\"\nsection = \"08 71 13\"\nnumber = \"3\"\nround = [{rounds}]\n"
    );
    let (job, _, findings) = read(&job, "");
    (job, findings)
}

fn numbers(section: &str, number: &str, again: &str) -> Vec<String> {
    let (job, catalog, _) = read("", &format!("again = \"{again}\""));
    let transmittal = Transmittal {
        submittal: "s".to_owned(),
        section: section.to_owned(),
        number: number.to_owned(),
        title: None,
        rounds: Vec::new(),
        place: job.head.place.clone(),
    };
    (0..4).map(|time| transmittal.number_of(catalog.profiles.get("town"), time)).collect()
}

/// Source: U.S. Army Corps of Engineers, ENG Form 4025-R, instruction 2: a resubmittal adds a decimal to the number of what it
/// replaces; its example is 087113-3.1 for section 08 71 13 (read).
#[test]
fn what_is_submitted_again_gets_a_decimal() {
    assert_eq!(numbers("08 71 13", "3", "decimal"), ["087113-3", "087113-3.1", "087113-3.2", "087113-3.3"]);
}

/// Source: U.S. Department of Veterans Affairs, procedure CP 7, processing of shop drawings, (a)(3): 17-1, 17-1R, 17-1R2 (read);
/// R, then R2, and no R1.
#[test]
fn what_is_submitted_again_gets_the_letter_r() {
    assert_eq!(numbers("17", "1", "letter R"), ["17-1", "17-1R", "17-1R2", "17-1R3"]);
}

#[test]
fn an_owner_may_number_in_a_pattern_of_his_own() {
    let (job, catalog, findings) = with_pattern("S {number} of {section}");
    assert_eq!(findings, []);
    assert_eq!(job.transmittals[0].number_of(catalog.profiles.get("town"), 1), "S 3 of 087113.1");
    for bad in ["{section}", "{sect}-{number}", "{number"] {
        let (.., findings) = with_pattern(bad);
        let codes: Vec<&str> = findings.iter().map(|it| it.code.id).collect();
        assert_eq!(codes, ["submittal-number"], "{bad}");
    }
}

fn with_pattern(pattern: &str) -> (Job, Catalog, Vec<Finding>) {
    let job = "[[submittal]]\nid = \"s\"\ntitle = \"Schedule\"\nparts = [\"schedule\"]\n\n\
         [[transmittal]]\nsubmittal = \"s\"\nsection = \"08 71 13\"\nnumber = \"3\"\n";
    read(job, &format!("submittal_number = \"{pattern}\""))
}

/// How the schedule of a job at revision B stands, in a word, and the revision that was last approved.
fn stands(rounds: &str) -> (&'static str, Option<String>) {
    let (job, findings) = with_rounds(rounds);
    assert_eq!(findings, [], "{rounds}");
    let approval = job.approval(SubmittalPart::Schedule, "08 71 13");
    let word = match approval.stands {
        Stands::NotKept => "not kept",
        Stands::NotSubmitted => "not submitted",
        Stands::NeverSent => "never sent",
        Stands::Out(_) => "out",
        Stands::Returned(_) => "returned",
        Stands::Approved { current: true, .. } => "approved",
        Stands::Approved { current: false, .. } => "approved at another",
    };
    assert_eq!(approval.is_current(), word == "approved");
    (word, approval.approved.map(|it| it.round.revision.clone()))
}

/// Source: 48 CFR 52.236-21 (read in a summary): work that rests on drawings not approved is at the contractor's risk; so a
/// disposition that is no approval approves nothing, and an approval holds for what was sent and for nothing later.
#[test]
fn only_what_came_back_approved_at_the_jobs_revision_stands_approved() {
    let a = "{ revision = \"A\", sent = 2026-10-05, back = 2026-10-20, disposition = \"approved as noted\" }";
    let b = a.replace("\"A\"", "\"B\"").replace("2026-10-05", "2026-10-26").replace("10-20", "11-09");
    assert_eq!(stands(""), ("never sent", None));
    assert_eq!(stands(a), ("approved at another", Some("A".to_owned())));
    assert_eq!(stands(&b), ("approved", Some("B".to_owned())));
    assert_eq!(stands(&format!("{a}, {b}")), ("approved", Some("B".to_owned())));
    assert_eq!(stands(&format!("{a}, {{ revision = \"B\", sent = 2026-10-26 }}")), ("out", Some("A".to_owned())));
    assert_eq!(
        stands(&format!("{a}, {}", b.replace("approved as noted", "revise"))),
        ("returned", Some("A".to_owned()))
    );
    assert_eq!(stands(&b.replace("approved as noted", "received")), ("returned", None));
}

#[test]
fn a_job_without_submittals_keeps_none_and_a_part_of_none_is_not_submitted() {
    let (job, ..) = read("", "");
    assert!(matches!(job.approval(SubmittalPart::Schedule, "08 71 13").stands, Stands::NotKept));
    let (job, _) = with_rounds("");
    assert!(matches!(job.approval(SubmittalPart::ShopDrawings, "08 71 13").stands, Stands::NotSubmitted));
    assert!(matches!(job.approval(SubmittalPart::Schedule, "26 05 33").stands, Stands::NotSubmitted));
}
