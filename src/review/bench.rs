//! The sound opening from which tests of checks start, and what a check says of it once something is changed.
//!
//! In: pieces of a job file or a catalog. Out: findings. May not know: any one check.

use super::check::Check;
use super::seen::OpeningSeen;
use crate::catalog::Catalog;
use crate::findings::{Files, Finding, Findings, Place, Severity};
use crate::job::{Job, bench};

/// A sound job of one opening, `101`, of kind `plain`; the file ends inside the opening's table.
const JOB: &str = include_str!("../../tests/cases/nothing-wrong/job.toml");
/// The catalog of its one operator, `brace-1`.
const CATALOG: &str = include_str!("../../tests/cases/_catalog/catalog.toml");

/// A job file and a catalog that a test changes.
#[derive(Clone)]
pub(super) struct Bench {
    job: String,
    catalog: String,
}

/// The sound job. Its catalog is without rules, which no check asks for.
pub(super) fn sound() -> Bench {
    let catalog: Vec<&str> = CATALOG.lines().filter(|line| !line.starts_with("rule = ")).collect();
    Bench { job: JOB.to_owned(), catalog: catalog.join("\n") }
}

/// The demo's editions, which hold what was read of codes and standards.
const EDITIONS: &str = include_str!("../../catalog_demo/editions.toml");

/// The sound job reviewed against an edition of the demo's catalog, or against none, with more text at its end.
pub(super) fn under(edition: &str, more: &str) -> Bench {
    let rules = if edition.is_empty() { String::new() } else { format!("\"{edition}\"") };
    let bench = with(more).but("profile = \"town\"", &format!("profile = \"town\"\nrules = [{rules}]"));
    bench.catalog_and(EDITIONS)
}

/// The sound job with more text at its end, which is inside the opening's table.
pub(super) fn with(more: &str) -> Bench {
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
pub(super) fn with_mechanics(more: &str) -> Bench {
    with(more).catalog_but("release_delay = \"2 s\"\n", &format!("release_delay = \"2 s\"\n{MECHANICS}"))
}

/// The same with fasteners in the catalog.
pub(super) fn with_fasteners(more: &str) -> Bench {
    with_mechanics(more).catalog_and(FASTENERS)
}

impl Bench {
    /// More text at the end of the job file.
    pub fn and(mut self, more: &str) -> Bench {
        self.job = format!("{}\n{more}\n", self.job);
        self
    }

    /// Other text in the job file.
    pub fn but(mut self, from: &str, to: &str) -> Bench {
        assert!(self.job.contains(from), "{from}");
        self.job = self.job.replacen(from, to, 1);
        self
    }

    /// Other text in the catalog.
    pub fn catalog_but(mut self, from: &str, to: &str) -> Bench {
        assert!(self.catalog.contains(from), "{from}");
        self.catalog = self.catalog.replacen(from, to, 1);
        self
    }

    /// More text at the end of the catalog.
    pub fn catalog_and(mut self, more: &str) -> Bench {
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
        let (job, catalog, findings) = bench::read(&self.job, &self.catalog);
        assert!(findings.is_empty(), "{findings:#?}");
        (job, catalog)
    }

    /// What a check says.
    pub fn told(&self, check: &Check) -> Vec<Finding> {
        let (job, catalog) = self.read();
        let mut findings = Findings::default();
        check.look(&job, &catalog, &OpeningSeen::all(&job, &catalog), &mut findings);
        let told: Vec<Finding> = findings.sorted().iter().cloned().collect();
        assert!(told.iter().all(|finding| finding.code == check.code && finding.place().is_some()), "{told:#?}");
        told.iter().for_each(says_by_how_much);
        told
    }

    /// The one thing a check says, and the text at its main place.
    pub fn one(&self, check: &Check) -> (Finding, String) {
        let told = self.told(check);
        assert_eq!(told.len(), 1, "{told:#?}");
        let at = self.text_at(&told[0]);
        (told[0].clone(), at)
    }

    /// The text at the main place of a finding.
    pub fn text_at(&self, finding: &Finding) -> String {
        match finding.place() {
            // Files are numbered in order of their paths: the catalog first.
            Some(Place::Text { file, span }) => {
                let in_catalog = Files::new([("catalog".to_owned(), Vec::new())]).find("catalog") == Some(*file);
                let text = if in_catalog { &self.catalog } else { &self.job };
                text[span.start as usize..span.end as usize].to_owned()
            }
            other => panic!("{other:?}"),
        }
    }

    /// Asserts that a check says nothing.
    pub fn passes(&self, check: &Check) {
        let told = self.told(check);
        assert!(told.is_empty(), "{told:#?}");
    }
}

/// What is asked and found in numbers says by how much it fails, in a number too; but for what is no shortfall.
pub(crate) fn says_by_how_much(finding: &Finding) {
    let number = |text: &str| text.contains(|it: char| it.is_ascii_digit());
    let failed = finding.code.severity != Severity::FieldVerify;
    if failed
        && number(&finding.asked)
        && number(&finding.found)
        && !NO_SHORTFALL.iter().any(|(id, _)| *id == finding.code.id)
    {
        assert!(finding.margin.as_deref().is_some_and(number), "{finding:#?}");
    }
}

/// Codes whose numbers are no shortfall, and why.
const NO_SHORTFALL: [(&str, &str); 7] = [
    ("device-leaf-unknown", "numbers of leaves"),
    ("device-leaf-unpowered", "numbers of leaves"),
    ("powered-without-operator", "numbers of leaves"),
    ("edition-unknown", "names of editions"),
    ("partner-one-sided", "marks of openings"),
    ("volts-mismatch", "another supply, not a weaker one"),
    ("hazard-unknown", "a year of construction, before which a report is asked for"),
];

/// The remedy of a finding.
pub(super) fn remedy(finding: &Finding) -> &str {
    finding.remedy.as_ref().map_or("", |remedy| &remedy.text)
}
