//! A table of openings, checked with the demo's larger job. Seeds: the demo's tables.
#![no_main]

#[path = "../demo.rs"]
mod demo;

/// The job file that names the table.
const JOB: &str = "catalog_demo/job/job.toml";

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    demo::hold(&hingewright::pipeline::check(&demo::with("catalog_demo/job/openings.csv", bytes), JOB));
});
