//! One view model per paper: finished strings and keys of drawings.
//!
//! In: job, takeoff, estimate, findings.
//! Out: views ready for a template.
//! May not know: pages, templates, files.
