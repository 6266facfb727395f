//! A file of the catalog, checked with the demo's job. Seeds: the files of the demo's catalog.
#![no_main]

#[path = "../demo.rs"]
mod demo;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    demo::hold(&hingewright::pipeline::check(&demo::with("catalog_demo/operators.toml", bytes), demo::JOB));
});
