//! The record of a job's issues. Seeds: that of the demo's revised job.
#![no_main]

#[path = "../demo.rs"]
mod demo;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let files = demo::with("catalog_demo/revised/job.issued.toml", bytes);
    demo::hold(&hingewright::pipeline::load(&files, demo::JOB).map(|it| it.findings).unwrap_or_default());
    let _ = hingewright::pipeline::recorded(&files, demo::JOB, None);
});
