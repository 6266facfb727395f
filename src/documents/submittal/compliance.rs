//! The paragraphs of a section with our answers, and the deviations.
//!
//! In: what the takeoff says of every paragraph. Out: finished rows; each paragraph that is not met is a deviation, and each
//! deviation a paragraph. May not know: how a condition is tried.

use serde::Serialize;

use super::lines::TransmittalLine;
use super::sending::number;
use super::{Package, places};
use crate::catalog::Group;
use crate::documents::printing::or_dash;
use crate::job::{Answer, SubmittalPart, Transmittal};
use crate::takeoff::{Compliance, EntityRef, Met, compliance};

/// A paragraph with our answer.
#[derive(Clone, Debug, Serialize)]
pub struct ComplianceRow {
    /// Name of the row, such as `paragraph.2.2.A`.
    pub name: String,
    /// Its number.
    pub number: String,
    /// What it asks.
    pub asks: String,
    /// Our answer in a word.
    pub answer: String,
    /// Where that comes from.
    pub basis: String,
    /// The block that shows it: its deviation, or what answers it in this package; empty where there is none.
    pub shown_by: String,
    /// Whether it is not met.
    pub deviates: bool,
}

/// A deviation.
#[derive(Clone, Debug, Serialize)]
pub struct DeviationRow {
    /// The block it is, such as `deviation-D1`.
    pub id: String,
    /// Its number, such as `D1`.
    pub number: String,
    /// The paragraph.
    pub paragraph: String,
    /// What that asks.
    pub asks: String,
    /// Offered.
    pub offers: String,
    /// Where.
    pub marks: String,
    /// Why.
    pub because: String,
    /// What it does to the cost.
    pub cost: String,
    /// What it does to the time.
    pub time: String,
    /// What it does to other trades.
    pub trades: String,
    /// Groups of items that it speaks of.
    #[serde(skip)]
    pub groups: Vec<Group>,
}

/// Paragraphs of the package's section, and the deviations among them.
pub(super) fn rows(package: &Package) -> (Vec<ComplianceRow>, Vec<DeviationRow>) {
    if !package.holds(SubmittalPart::Compliance) {
        return Default::default();
    }
    let all = compliance(package.sources.takeoff, package.sources.reviewed.job());
    let mut deviations = Vec::new();
    let mut rows = Vec::new();
    for one in all.iter().filter(|it| it.paragraph.section == package.transmittal.section) {
        if let Met::No(at) = &one.met {
            deviations.push(deviation(package, one, at, deviations.len() + 1));
        }
        let of = deviations.last().filter(|_| one.departs());
        rows.push(row(package, one, of));
    }
    (rows, deviations)
}

fn row(package: &Package, one: &Compliance, deviation: Option<&DeviationRow>) -> ComplianceRow {
    let (answer, basis) = match &one.met {
        Met::Yes => ("complies", tried(package, &one.paragraph.answer)),
        Met::No(_) => ("deviates", deviation.map(|it| format!("see {}", it.number)).unwrap_or_default()),
        Met::Open(at) => ("to be confirmed", format!("not yet known at {}", places(package.sources, at))),
        Met::NotApplicable(reason) => ("not applicable", reason.clone()),
        Met::Unreadable(_) => ("to be confirmed", String::new()),
    };
    ComplianceRow {
        name: format!("paragraph.{}", one.paragraph.number),
        number: one.paragraph.number.clone(),
        asks: one.paragraph.asks.clone(),
        answer: answer.to_owned(),
        basis,
        shown_by: deviation.map(|it| it.id.clone()).unwrap_or_default(),
        deviates: deviation.is_some(),
    }
}

/// Basis of an answer that nothing but our word stands behind.
const OUR_WORD: &str = "our statement";

/// Points answers that were given by hand to what shows them: the part of this package, or of another of the section, that the
/// paragraph asks for.
pub(super) fn point(package: &Package, rows: &mut [ComplianceRow], lines: &[TransmittalLine]) {
    for row in rows.iter_mut().filter(|it| it.basis == OUR_WORD) {
        let here = lines.iter().find(|line| line.paragraph.split(", ").any(|it| it == row.number));
        if let Some(line) = here {
            row.basis = "enclosed".to_owned();
            row.shown_by.clone_from(&line.to);
        } else if let Some(number) = elsewhere(package, &row.number) {
            row.basis = format!("sent as submittal {number}");
        }
    }
}

/// The number of another package of the section that holds what a paragraph asks for.
fn elsewhere(package: &Package, paragraph: &str) -> Option<String> {
    let job = package.sources.reviewed.job();
    let section = &package.transmittal.section;
    let asked = job.paragraphs.iter().find(|it| it.section == *section && it.number == paragraph)?;
    let holds = |transmittal: &&Transmittal| {
        let of = job.submittals.iter().find(|it| it.id == transmittal.submittal);
        transmittal.section == *section && of.is_some_and(|it| asked.submits.iter().any(|part| it.parts.contains(part)))
    };
    job.transmittals.iter().find(holds).map(|it| number(package.sources, it))
}

/// What a condition was tried on.
fn tried(package: &Package, answer: &Answer) -> String {
    let Answer::Tried { per, .. } = answer else { return OUR_WORD.to_owned() };
    let count = package.sources.takeoff.entities(*per).len();
    match count {
        1 => format!("checked: the {}", per.word()),
        _ => format!("checked: each {} of {count}", per.word()),
    }
}

fn deviation(package: &Package, one: &Compliance, at: &[EntityRef], number: usize) -> DeviationRow {
    let said = one.paragraph.statement.as_ref();
    let text = |field: fn(&crate::job::Deviation) -> &str| or_dash(said.map(field));
    DeviationRow {
        id: format!("deviation-D{number}"),
        number: format!("D{number}"),
        paragraph: one.paragraph.number.clone(),
        asks: one.paragraph.asks.clone(),
        offers: text(|it| &it.offers),
        marks: if at.is_empty() { "throughout".to_owned() } else { places(package.sources, at) },
        because: text(|it| &it.because),
        cost: text(|it| &it.cost),
        time: text(|it| &it.time),
        trades: text(|it| &it.trades),
        groups: one.paragraph.groups.clone(),
    }
}
