//! A job file, checked with the demo's catalog. Seeds: the demo's job files.
#![no_main]

#[path = "../demo.rs"]
mod demo;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    demo::hold(&hingewright::pipeline::check(&demo::with(demo::JOB, bytes), demo::JOB));
});
