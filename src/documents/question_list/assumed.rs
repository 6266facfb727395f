//! Questions from the field tables themselves: every value that is written as assumed or estimated, and every fact that a rule
//! of the catalog asks for and nobody knows.
//!
//! In: sources. Out: questions. May not know: what a value is for; its field table names it.

use std::collections::{BTreeMap, BTreeSet};

use super::{Question, Topic, documents};
use crate::documents::Sources;
use crate::documents::printing::listed;
use crate::findings::Subject;
use crate::input::{Record, Shape, Standing};
use crate::takeoff::{EntityRef, OpeningWork, RULE_UNDECIDED};

/// What a record is about at an opening, and its fields that are only assumed.
type Assumed = (&'static str, Vec<&'static str>);

/// Fields of a record whose value is assumed or estimated.
fn fields<R: Record>(record: Option<&R>) -> Option<Assumed> {
    let of = |record: &R| -> Vec<&'static str> {
        let each = R::fields().iter().zip(record.slots());
        let open = |standing: Option<&Standing>| matches!(standing, Some(Standing::Assumed | Standing::Estimated));
        // A record inside has values with standings of their own.
        let plain = |shape: Shape| matches!(shape, Shape::Scalar { .. } | Shape::Choice(_) | Shape::List(_));
        each.filter(|(field, slot)| open(slot.standing()) && plain((field.shape)()))
            .map(|(field, _)| field.name)
            .collect()
    };
    record.map(|record| (R::NAME, of(record))).filter(|(_, fields)| !fields.is_empty())
}

/// Everything that is only assumed at an opening.
fn at_opening(work: &OpeningWork) -> Vec<Assumed> {
    let entry = &work.opening.entry;
    let whole = [
        fields(Some(entry)),
        fields(entry.frame.get()),
        fields(entry.power.get()),
        fields(entry.air.get()),
        fields(entry.ceiling.get()),
        fields(entry.access.get()),
        fields(entry.vestibule.get()),
    ];
    let leaves = work.leaves.iter().map(|leaf| fields(Some(leaf.entry)));
    let devices = entry.device.list().iter().map(|device| fields(Some(device)));
    let all: BTreeSet<Assumed> = whole.into_iter().chain(leaves).chain(devices).flatten().collect();
    all.into_iter().collect()
}

/// One question for each set of fields that is assumed at the same sort of record, with its openings and panels.
pub(super) fn questions(sources: &Sources) -> Vec<Question> {
    let mut found: BTreeMap<Assumed, (Vec<String>, BTreeSet<usize>)> = BTreeMap::new();
    for (at, work) in sources.takeoff.arrangement.openings.iter().enumerate() {
        for assumed in at_opening(work) {
            let (marks, openings) = found.entry(assumed).or_default();
            marks.push(work.opening.mark.clone());
            openings.insert(at);
        }
    }
    for panel in sources.reviewed.job().panels.values() {
        if let Some(assumed) = fields(Some(&panel.entry)) {
            found.entry(assumed).or_default().0.push(panel.id.clone());
        }
    }
    found.into_iter().map(|((record, fields), (about, at))| question(sources, record, &fields, about, &at)).collect()
}

fn question(
    sources: &Sources,
    record: &'static str,
    fields: &[&'static str],
    about: Vec<String>,
    at: &BTreeSet<usize>,
) -> Question {
    let names = listed(fields.iter().map(|it| it.replace('_', " ")), ", ");
    Question {
        topic: Topic::Other,
        asks: format!("Please confirm the assumed value ({record} {names}), or give the correct one."),
        taken: "as listed; assumed".to_owned(),
        about,
        reference: documents(sources),
        before_bid: true,
        answered_in: format!("{record}: {}, with standing surveyed or drawn", fields.join(", ")),
        on: hangs(sources, record, at),
        unpriced: "no effect on the bid",
    }
}

/// The entities that a record describes.
pub(super) fn hangs(sources: &Sources, record: &str, at: &BTreeSet<usize>) -> BTreeSet<EntityRef> {
    if record == "power" {
        return super::wiring(sources.takeoff, &at.iter().copied().collect::<Vec<_>>());
    }
    let lines = sources.takeoff.lines.iter().map(|line| line.of);
    let labor = sources.takeoff.labor.iter().map(|line| line.of);
    let described = |of: &EntityRef| match record {
        "frame" | "ceiling" => matches!(of, EntityRef::Header(..) | EntityRef::Fixing(..)),
        "leaf" => matches!(of, EntityRef::Leaf(..) | EntityRef::Drive(..) | EntityRef::Header(..)),
        "device" => matches!(of, EntityRef::Device(..) | EntityRef::Group(..) | EntityRef::Box(..)),
        _ => true,
    };
    lines.chain(labor).filter(|of| of.opening().is_some_and(|it| at.contains(&it)) && described(of)).collect()
}

/// Facts that a rule asks for and nobody knows: what hangs on them is in nobody's price.
pub(super) fn undecided(sources: &Sources) -> Vec<Question> {
    let mut by_fact: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for finding in sources.findings.iter().filter(|it| it.code.id == RULE_UNDECIDED.id) {
        let about = match &finding.subject {
            Subject::Opening(id) | Subject::Site(id) | Subject::Entry(_, id) | Subject::Template(id) => id.clone(),
            Subject::Job => "the job".to_owned(),
        };
        by_fact.entry(finding.found.as_str()).or_default().push(about);
    }
    let question = |(fact, about): (&str, Vec<String>)| Question {
        topic: Topic::Other,
        asks: format!("Not known, and quantities depend on it: {fact}. Please give the value."),
        taken: "dependent quantities are not included".to_owned(),
        about,
        reference: documents(sources),
        before_bid: true,
        answered_in: "the opening or the site: the fact that is named".to_owned(),
        on: BTreeSet::new(),
        unpriced: "not in the bid",
    };
    by_fact.into_iter().map(question).collect()
}
