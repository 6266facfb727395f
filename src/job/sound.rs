//! The sound job of one opening from which tests start, and what they change in it.
//!
//! In: pieces of a job file or a catalog. Out: a checked job and its catalog. May not know: what is asked of them.

use super::{Job, fixtures};
use crate::catalog::Catalog;

/// A sound job of one opening, `101`, of kind `plain`; the file ends inside the opening's table.
const JOB: &str = include_str!("../../tests/cases/nothing-wrong/job.toml");
/// The catalog of its one operator, `brace-1`.
const CATALOG: &str = include_str!("../../tests/cases/_catalog/catalog.toml");

/// A job file and a catalog that a test changes.
#[derive(Clone)]
pub(crate) struct Fixture {
    /// The text of the job file.
    pub job: String,
    /// The text of the catalog.
    pub catalog: String,
}

/// The sound job. Its catalog is without rules, which no check asks for.
pub(crate) fn sound() -> Fixture {
    let catalog: Vec<&str> = CATALOG.lines().filter(|line| !line.starts_with("rule = ")).collect();
    Fixture { job: JOB.to_owned(), catalog: catalog.join("\n") }
}

/// The demo's editions, which hold what was read of codes and standards.
const EDITIONS: &str = include_str!("../../catalog_demo/editions.toml");

/// The sound job reviewed against an edition of the demo's catalog, or against none, with more text at its end.
pub(crate) fn under(edition: &str, more: &str) -> Fixture {
    let rules = if edition.is_empty() { String::new() } else { format!("\"{edition}\"") };
    let bench = with(more).but("profile = \"town\"", &format!("profile = \"town\"\nrules = [{rules}]"));
    bench.catalog_and(EDITIONS)
}

/// The sound job with more text at its end, which is inside the opening's table.
pub(crate) fn with(more: &str) -> Fixture {
    sound().and(more)
}

/// Mechanics of the sound job's operator, beside its spindle at 5 in and its bracket at 22 in.
const MECHANICS: &str = r#"
rod = { lengths = ["26 in", "30 in"], shortest = "18 in", cut_end = "joint end", tolerance = "1/8 in" }

[operator.brace-1.mechanics]
torque = "45 lbf ft"
stall = "60 lbf ft"
spring = "14 lbf ft"
efficiency = "85 %"
opens_in = "4 s"
slowest = "9 s"
holds_to = "30 s"
push = { spindle_out = "2 1/2 in", pin_out = "3/4 in", main = "13 in", shut = "90 deg", width = "1 in" }
pull = { spindle_out = "2 1/2 in", main = "15 1/2 in", track_out = "1 1/8 in", track_from = "13 in", track_to = "25 in", width = "1 in" }
back = { past_hinge = "2 in", lower_row = "1 in", upper_row = "5 in", edge = "1 1/2 in", arm_below = "1/2 in", mils = 68 }
"#;

/// Fasteners for three substrates; concrete has none.
const FASTENERS: &str = r#"
[fastener.screw]
name = "screw"
into = "wood"
sort = "wood screw"
diameter = "0.242 in"
thread = "2 in"
source = "NDS"

[fastener.drill]
name = "No. 12 screw"
into = "steel stud"
sort = "sheet steel screw"
diameter = "0.216 in"
head = "0.34 in"
tested_shear = "2330 lbf"
tested_tension = "2325 lbf"
source = "AISI"

[fastener.anchor]
name = "anchor"
into = "masonry"
sort = "by its report"
source = "the anchor's report"
"#;

/// The sound job with more text at its end, and an operator whose mechanics are known.
pub(crate) fn with_mechanics(more: &str) -> Fixture {
    with(more).catalog_but("release_delay = \"2 s\"\n", &format!("release_delay = \"2 s\"\n{MECHANICS}"))
}

/// The same with fasteners in the catalog.
pub(crate) fn with_fasteners(more: &str) -> Fixture {
    with_mechanics(more).catalog_and(FASTENERS)
}

impl Fixture {
    /// More text at the end of the job file.
    pub fn and(mut self, more: &str) -> Fixture {
        self.job = format!("{}\n{more}\n", self.job);
        self
    }

    /// Other text in the job file.
    pub fn but(mut self, from: &str, to: &str) -> Fixture {
        assert!(self.job.contains(from), "{from}");
        self.job = self.job.replacen(from, to, 1);
        self
    }

    /// Other text in the catalog.
    pub fn catalog_but(mut self, from: &str, to: &str) -> Fixture {
        assert!(self.catalog.contains(from), "{from}");
        self.catalog = self.catalog.replacen(from, to, 1);
        self
    }

    /// More text at the end of the catalog.
    pub fn catalog_and(mut self, more: &str) -> Fixture {
        self.catalog = format!("{}\n{more}\n", self.catalog);
        self
    }

    /// The text of the catalog from one word to the next.
    pub fn catalog_text(&self, from: &str, to: &str) -> &str {
        let start = self.catalog.find(from).expect(from);
        let end = self.catalog[start..].find(to).expect(to);
        &self.catalog[start..start + end]
    }

    /// The job and the catalog; reading them must find nothing wrong.
    pub fn read(&self) -> (Job, Catalog) {
        let (job, catalog, findings) = fixtures::read(&self.job, &self.catalog);
        assert!(findings.is_empty(), "{findings:#?}");
        (job, catalog)
    }
}
