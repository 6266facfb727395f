//! A rule of the catalog: parsed, and checked as a condition against the sheet of each kind of entity. Seeds: the demo's catalog, whose
//! texts between quotes hold rules.
#![no_main]

use hingewright::catalog::Entity;
use hingewright::rules::{Condition, parse};

libfuzzer_sys::fuzz_target!(|text: &str| {
    let (_, faults) = parse(text);
    for fault in faults {
        assert!(fault.bytes.start <= fault.bytes.end && fault.bytes.end <= text.len(), "a fault stands in its rule");
    }
    for kind in Entity::ALL {
        let _ = Condition::read(text, &hingewright::takeoff::sheet(*kind));
    }
});
