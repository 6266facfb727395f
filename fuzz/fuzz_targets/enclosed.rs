//! A PDF of somebody else's, whose pages are enclosed. Seeds: the demo's sheets.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let _ = hingewright::pdf_import::enclose(bytes);
});
