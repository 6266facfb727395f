//! The demo for fuzz targets, with one file changed.
//!
//! In: the demo's files. Out: snapshots, and the end of the process where work on one ends in a fault of the program.
//! May not know: what is fuzzed.

use std::path::Path;
use std::sync::OnceLock;

use hingewright::findings::{Files, Findings};

/// The job file of the demo with few openings.
#[allow(dead_code)] // not every target starts from the job
pub const JOB: &str = "catalog_demo/revised/job.toml";

/// The demo's catalog and job.
fn demo() -> &'static [(String, Vec<u8>)] {
    static DEMO: OnceLock<Vec<(String, Vec<u8>)>> = OnceLock::new();
    DEMO.get_or_init(|| {
        let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
        let mut files = Vec::new();
        for folder in ["catalog_demo", "catalog_demo/revised", "catalog_demo/job"] {
            for entry in std::fs::read_dir(top.join(folder)).expect("the demo") {
                let path = entry.expect("an entry of the demo").path();
                let name = path.file_name().and_then(|it| it.to_str()).expect("a name").to_owned();
                if path.is_file() && !name.ends_with(".issued.toml") {
                    files.push((format!("{folder}/{name}"), std::fs::read(&path).expect("a file of the demo")));
                }
            }
        }
        files
    })
}

/// The demo with other bytes in the place of a file.
pub fn with(path: &str, bytes: &[u8]) -> Files {
    Files::new(demo().iter().cloned().chain([(path.to_owned(), bytes.to_owned())]))
}

/// Ends the process where a room ended in a panic that the net under it caught.
pub fn hold(findings: &Findings) {
    let fault = findings.iter().find(|it| matches!(it.code.id, "job-not-worked" | "paper-not-made"));
    assert!(fault.is_none(), "{}", fault.map(|it| it.sentence()).unwrap_or_default());
}
