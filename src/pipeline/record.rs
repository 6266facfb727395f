//! Recorded issues: which there are, whether the job still says what its revision said, and how a new one is kept.
//!
//! In: a snapshot, an issue. Out: paths of copies, findings, and the files to write. May not know: the disk.
//!
//! Beside `job.toml` stand the record, `job.issued.toml`, and a folder of copies an issue, `job.issued/A`. Copies stand to each
//! other as the files stood, so that a copied job file names its tables and its catalog in the same words.

use sha2::{Digest, Sha256};

use super::{Issue, Loaded, RequiredFile, hex, load, required_files};
use crate::findings::{Code, Files, Finding, Findings, Subject};
use crate::input::{Reader, quoted, unread};
use crate::issues::{self, Issued, IssuedFile, Record};
use crate::job::{Head, JobNames, folder_of, join};

/// The files to write so that an issue is kept, in this order; the record last.
#[derive(Debug)]
pub struct RecordFiles {
    /// Copies of the job's files, where the issue is new.
    pub copies: Option<Copies>,
    /// Path and text of the record, where it says something new.
    pub record: Option<(String, String)>,
}

/// Copies of the files that an issue was made from.
#[derive(Clone, Debug)]
pub struct Copies {
    /// The folder to make.
    pub folder: String,
    /// Paths inside of it, and bytes.
    pub files: Vec<(String, Vec<u8>)>,
}

/// An issue that may be recorded, before its papers are made.
#[derive(Debug)]
pub struct Recording {
    record: Record,
    path: String,
    issue: Issued,
    copies: Option<Copies>,
}

/// Where the record of a job stands.
pub(super) fn path_of(job_path: &str) -> String {
    format!("{}.issued.toml", stem(job_path))
}

fn stem(job_path: &str) -> &str {
    job_path.strip_suffix(".toml").unwrap_or(job_path)
}

/// The record of a job; empty where nothing was recorded.
pub(super) fn record_of(files: &Files, job_path: &str) -> (Record, Findings) {
    let path = path_of(job_path);
    let Some(file) = files.find(&path) else { return (Record::default(), unread_record(files, &path)) };
    let mut reader = Reader::new(files);
    let record = issues::read(&mut reader, file);
    (record, reader.into_findings())
}

/// What is found where a record is there and was not read.
fn unread_record(files: &Files, path: &str) -> Findings {
    let mut findings = Findings::default();
    let found = unread(files, path, "the job's folder", Subject::Job);
    found
        .into_iter()
        .for_each(|it| findings.push(it.advise("put the record back as it was written, beside the job file")));
    findings
}

/// The copied job file of an issue, as a path from where the command runs.
fn copy_of(job_path: &str, issue: &Issued) -> String {
    join(folder_of(job_path), &issue.job)
}

/// The copied job file of the issue that a job's papers are compared with: the last one before its revision.
pub fn earlier_copy(files: &Files, job_path: &str) -> Option<String> {
    let (record, _) = record_of(files, job_path);
    let names = JobNames::read(&mut Reader::new(files), files.find(job_path)?);
    Some(copy_of(job_path, record.before(Some(names.revision()?)).last()?))
}

/// The copied job file of a recorded issue; without a revision, of the last before the job's own.
pub fn recorded(files: &Files, job_path: &str, revision: Option<&str>) -> Result<String, Findings> {
    let own = files.find(job_path).map(|file| JobNames::read(&mut Reader::new(files), file));
    find(files, job_path, revision, |record| match revision {
        Some(revision) => record.of(revision),
        None => record.before(own.as_ref().and_then(JobNames::revision)).last(),
    })
}

/// The copied job file of the issue recorded before that of a revision.
pub fn recorded_before(files: &Files, job_path: &str, revision: &str) -> Result<String, Findings> {
    find(files, job_path, None, |record| record.before(Some(revision)).last())
}

fn find(
    files: &Files,
    job_path: &str,
    named: Option<&str>,
    which: impl Fn(&Record) -> Option<&Issued>,
) -> Result<String, Findings> {
    let (record, mut findings) = record_of(files, job_path);
    if let Some(issue) = which(&record) {
        return Ok(copy_of(job_path, issue));
    }
    let known: Vec<&str> = record.issues.iter().map(|it| it.revision.as_str()).collect();
    let says = match named {
        Some(revision) => format!("revision {revision} was never recorded"),
        None => "no earlier issue of this job was recorded".to_owned(),
    };
    let advice = match known.as_slice() {
        [] => "record an issue with `hingewright issue <job> --record`".to_owned(),
        all => format!("recorded is {}", all.join(", ")),
    };
    findings.push(Finding::new(&issues::NOT_RECORDED, Subject::Job).found(says).advise(advice));
    Err(findings)
}

/// What is found where a job changed than what was recorded under its revision.
pub(super) fn changed_since(record: &Record, head: &Head, values: &str) -> Option<Finding> {
    let issue = record.of(head.revision.as_deref()?)?;
    (issue.values != values).then(|| taken(Finding::new(&issues::OTHER_VALUES, Subject::Job), record, head, issue))
}

fn taken(finding: Finding, record: &Record, head: &Head, issue: &Issued) -> Finding {
    let place = head.revision_place.clone().unwrap_or_else(|| head.place.clone());
    let finding =
        finding.at(place.clone()).found(format!("revision {} was recorded on {}", issue.revision, issue.date));
    let finding = issue.place.iter().cloned().fold(finding, |it, place| it.near(place, "recorded here"));
    match free(record, &issue.revision) {
        Some(next) => finding.type_at(place, quoted(&next)),
        None => finding.advise("give the job the revision that follows"),
    }
}

/// The first revision after another that the record does not hold.
fn free(record: &Record, revision: &str) -> Option<String> {
    let mut next = issues::next(revision)?;
    while record.of(&next).is_some() {
        next = issues::next(&next)?;
    }
    Some(next)
}

impl Recording {
    /// Looks whether an issue of the job may be recorded. `here` is the folder where the command runs, from the root.
    pub fn begin(files: &Files, job_path: &str, here: &str) -> Result<Recording, Findings> {
        let Some(loaded) = load(files, job_path) else { return Err(Findings::default()) };
        let Some(head) = loaded.job.as_ref().map(|job| &job.head) else { return Err(loaded.findings) };
        let refuse = |finding: Finding| {
            let mut findings = Findings::default();
            findings.push(finding);
            findings
        };
        if files.unread(&path_of(job_path)).is_some() {
            return Err(unread_record(files, &path_of(job_path)));
        }
        if let (None, Some(place)) = (&head.revision, &head.revision_place) {
            // It is typed, and what is wrong with it was found where it was read.
            let mut findings = Findings::default();
            loaded.findings.iter().filter(|it| it.place() == Some(place)).for_each(|it| findings.push(it.clone()));
            return Err(findings);
        }
        let Some(revision) = &head.revision else {
            let finding = Finding::new(&issues::NO_REVISION, Subject::Job).at(head.place.clone());
            return Err(refuse(finding.advise("add, such as revision = \"A\"")));
        };
        let known = loaded.record.of(revision);
        if let Some(known) = known.filter(|it| it.values != loaded.state.values) {
            let finding = Finding::new(&issues::REVISION_TAKEN, Subject::Job);
            return Err(refuse(taken(finding, &loaded.record, head, known)));
        }
        let (job, copies) = match known {
            Some(known) => ((known.job.clone(), known.copies.clone()), None),
            None => {
                let copied = copied(files, job_path, here, folder_for(&loaded.record, job_path, revision));
                let Some((job, copies)) = copied.filter(|it| says_the_same(it, job_path, &loaded)) else {
                    let finding = Finding::new(&issues::NOT_COPIED, Subject::Job).at(head.place.clone());
                    return Err(refuse(finding.advise("give every file and folder relative to the job file")));
                };
                (
                    (job, digest(copies.files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())))),
                    Some(copies),
                )
            }
        };
        let issue = Issued {
            revision: revision.clone(),
            date: head.date,
            fingerprint: loaded.state.fingerprint.clone(),
            values: loaded.state.values.clone(),
            job: job.0,
            copies: job.1,
            changes: Vec::new(),
            held: Vec::new(),
            papers: Vec::new(),
            place: None,
        };
        let copies = copies.map(|it| Copies { folder: join(folder_of(job_path), &it.folder), ..it });
        Ok(Recording { record: loaded.record, path: path_of(job_path), issue, copies })
    }

    /// The copies that are to be kept, where the issue is new.
    pub fn copies(&self) -> Option<&Copies> {
        self.copies.as_ref()
    }

    /// What to write, now that the papers are made.
    pub fn keep(mut self, made: &Issue) -> RecordFiles {
        let file = |it: &super::IssuedPaper| IssuedFile { file: it.name.clone(), sha256: it.sha256.clone() };
        self.issue.papers = made.papers.iter().map(file).collect();
        self.issue.held = made.held.iter().map(|paper| paper.word().to_owned()).collect();
        self.issue.changes = made.changes.clone();
        let changed = self.record.add(self.issue);
        RecordFiles { copies: self.copies, record: changed.then(|| (self.path, issues::text(&self.record))) }
    }
}

/// The folder of a revision's copies, from that of the record. Two that differ in capitals alone get two folders on every
/// disk.
fn folder_for(record: &Record, job_path: &str, revision: &str) -> String {
    let alike = record.issues.iter().filter(|it| it.revision.eq_ignore_ascii_case(revision)).count();
    let name = if alike == 0 { revision.to_owned() } else { format!("{revision}-{}", alike + 1) };
    format!("{}.issued/{name}", stem(job_path).rsplit('/').next().unwrap_or_default())
}

/// The files that a job is read from, and its copied job file from the record's folder.
fn copied(files: &Files, job_path: &str, here: &str, folder: String) -> Option<(String, Copies)> {
    let paths = inputs(files, job_path);
    let whole: Vec<String> = paths.iter().map(|path| join(here, path)).collect();
    let common = whole.iter().map(|it| folder_of(it)).reduce(shared)?;
    let inside = |whole: &str| whole[common.len()..].trim_start_matches('/').to_owned();
    let job = format!("{folder}/{}", inside(&join(here, job_path)));
    let copy = |(path, whole): (&String, &String)| Some((inside(whole), files.bytes(files.find(path)?).to_owned()));
    let mut each: Vec<(String, Vec<u8>)> = paths.iter().zip(&whole).filter_map(copy).collect();
    each.sort();
    Some((job, Copies { folder, files: each }))
}

/// The folder that two folders stand in.
fn shared<'p>(one: &'p str, other: &'p str) -> &'p str {
    let mut end = 0;
    let mut at = 0;
    for (a, b) in one.split('/').zip(other.split('/')) {
        if a != b {
            break;
        }
        end = at + a.len();
        at = end + 1;
    }
    &one[..end]
}

/// Every file that a job is read from, in order; the record is none of them.
fn inputs(files: &Files, job_path: &str) -> Vec<String> {
    let record = path_of(job_path);
    let mut paths = vec![job_path.to_owned()];
    for one in required_files(files, job_path) {
        match one {
            RequiredFile::File(path) | RequiredFile::Enclosure(path) => paths.push(path),
            RequiredFile::Folder(folder) | RequiredFile::FromRoot(folder) => {
                paths.push(folder.clone());
                let inside = files.ids().map(|file| files.path(file));
                let direct = inside.filter(|path| folder_of(path) == folder && path.ends_with(".toml"));
                paths.extend(direct.map(str::to_owned));
            }
        }
    }
    paths.retain(|path| *path != record && files.find(path).is_some());
    paths.sort();
    paths.dedup();
    paths
}

/// Whether the copies, opened on their own, say what the job says.
fn says_the_same((job, copies): &(String, Copies), job_path: &str, loaded: &Loaded) -> bool {
    let root = folder_of(job_path);
    let at = |path: &str| join(root, &format!("{}/{path}", copies.folder));
    let alone = Files::new(copies.files.iter().map(|(path, bytes)| (at(path), bytes.clone())));
    load(&alone, &join(root, job)).is_some_and(|it| it.state.fingerprint == loaded.state.fingerprint)
}

/// SHA-256 over names and bytes, each with its length before it.
fn digest<'f>(files: impl Iterator<Item = (&'f str, &'f [u8])>) -> String {
    let mut digest = Sha256::new();
    for (path, bytes) in files {
        for part in [path.as_bytes(), bytes] {
            digest.update((part.len() as u64).to_be_bytes());
            digest.update(part);
        }
    }
    hex(digest.finalize().as_slice())
}

/// The copied job file of an issue, where its copies are there as they were recorded; if not, that is found.
pub(super) fn standing_copy(files: &Files, job_path: &str, issue: &Issued, findings: &mut Findings) -> Option<String> {
    let fault = fault_of_copies(files, job_path, issue, &issues::COPY_NOT_THERE);
    let stands = fault.is_none().then(|| copy_of(job_path, issue));
    fault.into_iter().for_each(|it| findings.push(it));
    stands
}

/// What is wrong with the copies of a recorded issue, read on their own: its copied job file, and what that names. Nothing where
/// they are as they were recorded.
pub fn fault_of_copy(files: &Files, job_path: &str, (copy, copies): (&str, &Files)) -> Option<Finding> {
    let (record, _) = record_of(files, job_path);
    let issue = record.issues.iter().find(|it| copy_of(job_path, it) == copy)?;
    fault_of_copies(copies, job_path, issue, &issues::COPY_CHANGED)
}

fn fault_of_copies(copies: &Files, job_path: &str, issue: &Issued, code: &'static Code) -> Option<Finding> {
    let copy = copy_of(job_path, issue);
    let fault = match copies.find(&copy) {
        None => "are not there",
        Some(_) if digest_of_copies(copies, job_path, issue) != issue.copies => "were changed",
        Some(_) => return None,
    };
    let finding = Finding::new(code, Subject::Job)
        .found(format!("the copies of revision {} {fault}", issue.revision))
        .advise(format!("put the folder of `{copy}` back as it was recorded"));
    Some(issue.place.iter().cloned().fold(finding, Finding::at))
}

fn digest_of_copies(files: &Files, job_path: &str, issue: &Issued) -> String {
    // Their folder is two parts below the record's: `job.issued/A`.
    let parts: Vec<&str> = issue.job.split('/').take(2).collect();
    let root = join(folder_of(job_path), &parts.join("/"));
    let inside = |path: &str| path.strip_prefix(&root).map(|it| it.trim_start_matches('/').to_owned());
    let mut each: Vec<(String, &[u8])> = inputs(files, &copy_of(job_path, issue))
        .iter()
        .filter_map(|path| Some((inside(path)?, files.bytes(files.find(path)?))))
        .collect();
    each.sort();
    digest(each.iter().map(|(path, bytes)| (path.as_str(), *bytes)))
}
