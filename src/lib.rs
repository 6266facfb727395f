//! Hingewright turns one job file into the papers of a contractor who furnishes and installs power-operated swing doors.
//!
//! In: job, tables, catalog, templates, as one snapshot of files. Out: findings, quantities, a price, and papers as bytes.
//! The rooms and who may import whom stand in DEVELOPERS.md; a test holds the code to it.

// Ground: known to both wings.
pub mod findings;
pub mod fonts;
pub mod pdf_import;
pub mod shapes;
pub(crate) mod spreadsheet;

// The shop wing knows doors, work and money, and nothing of pages.
pub mod catalog;
pub mod comparison;
pub mod documents;
pub(crate) mod drawings;
pub mod engineering;
pub mod estimate;
pub mod input;
pub mod issues;
pub mod job;
pub mod ledger;
pub mod measure;
pub mod mechanics;
pub mod money;
pub mod review;
pub mod rules;
pub mod takeoff;

// The print wing knows text, tables and pages, and nothing of doors.
pub(crate) mod html;
pub mod markup;
pub mod pdf;
pub mod typeset;

// The joins.
pub mod cli;
pub mod pipeline;
