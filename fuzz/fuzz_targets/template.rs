//! A template, loaded and rendered. Seeds: the templates that ship with the tool.
#![no_main]

use hingewright::findings::{Files, Findings};
use hingewright::markup::{Source, Templates};

libfuzzer_sys::fuzz_target!(|text: &str| {
    let files = Files::new([("bid.xml".to_owned(), text.as_bytes().to_vec())]);
    let Some(file) = files.find("bid.xml") else { return };
    let mut findings = Findings::default();
    let templates = Templates::load([Source { name: "bid.xml", file, text }], &mut findings);
    let view = serde_json::json!({ "head": { "project": "a <b> & c" }, "rows": [["1", "2"], ["3"]], "counts": [] });
    let tree = templates.render("bid.xml", &view, &mut findings);
    assert_eq!(tree.is_none(), !findings.is_empty(), "a tree or findings, never both");
});
