//! `compare`: two states of a job, and the sheets that must be issued again.
//!
//! In: two snapshots. Out: differences as data. May not know: where they are printed.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use serde_json::Value;

use super::views::{View, views};
use super::{Loaded, Priced, codes_of_papers, conclude, gather, load, makers_sheets, net, price};
use crate::comparison::{self, Comparison, State};
use crate::documents::Sources;
use crate::findings::{Files, Findings};
use crate::review::{self, AcceptedFinding, ReviewedJob};

/// Two states of a job, compared.
#[derive(Debug, Serialize)]
pub struct Compared {
    /// The state that is compared with.
    pub before: Headed,
    /// The state that is looked at.
    pub after: Headed,
    /// What differs.
    #[serde(flatten)]
    pub comparison: Comparison,
    /// Papers that say something else, with the parts of them that do.
    pub reissue: Vec<Reissue>,
}

/// How a state of a job is told from another.
#[derive(Debug, Serialize)]
pub struct Headed {
    /// Number of the job.
    pub number: String,
    /// Its revision; empty where it has none.
    pub revision: String,
    /// Date of its papers.
    pub date: String,
    /// Fingerprint of its values.
    pub fingerprint: String,
}

/// A paper to be issued again.
#[derive(Debug, PartialEq, Eq, Serialize)]
pub struct Reissue {
    /// The stem of its file name.
    pub paper: String,
    /// Whether it is new, or made no more, or changed.
    pub why: &'static str,
    /// Sheets and sections that say something else: openings by their marks, sets and sites by their names.
    pub parts: Vec<String>,
}

/// A job, read and reviewed, and what was found.
struct Reviewed {
    loaded: Loaded,
    reviewed: ReviewedJob,
    findings: Findings,
}

/// Compares a job with an earlier state of it. Nothing comes of it where either cannot be read; then the findings of each
/// say why.
pub fn compare(before: (&Files, &str), after: (&Files, &str)) -> (Option<Compared>, [Findings; 2]) {
    net::caught(|| compare_states(before, after))
        .unwrap_or_else(|said| (None, [Findings::default(), net::job_not_worked(&said)]))
}

fn compare_states(before: (&Files, &str), after: (&Files, &str)) -> (Option<Compared>, [Findings; 2]) {
    let (mut old, mut new) = match (reviewed(before), reviewed(after)) {
        (Ok(old), Ok(new)) => (old, new),
        (old, new) => return (None, [found(old), found(new)]),
    };
    let (was, is) = (whole(&mut old), whole(&mut new));
    let states = (was.state(), is.state());
    let comparison = comparison::compare(states.0, states.1);
    let reissue = reissue(&was.views(), &is.views());
    let compared = Compared { before: was.head(), after: is.head(), comparison, reissue };
    (Some(compared), [was.left, is.left])
}

fn reviewed((files, path): (&Files, &str)) -> Result<Reviewed, Findings> {
    let Some(mut loaded) = load(files, path) else { return Err(Findings::default()) };
    let mut findings = std::mem::take(&mut loaded.findings);
    match loaded.job.take() {
        Some(job) => {
            let reviewed = review::review(job, &loaded.catalog, &mut findings);
            Ok(Reviewed { loaded, reviewed, findings })
        }
        None => Err(findings.sorted()),
    }
}

fn found(reviewed: Result<Reviewed, Findings>) -> Findings {
    match reviewed {
        Ok(reviewed) => reviewed.findings.sorted(),
        Err(findings) => findings,
    }
}

/// A job with its price and what is left to be found of it.
struct PricedJob<'r> {
    loaded: &'r Loaded,
    reviewed: &'r ReviewedJob,
    priced: Priced<'r>,
    left: Findings,
    accepted: Vec<AcceptedFinding>,
}

fn whole(reviewed: &mut Reviewed) -> PricedJob<'_> {
    let Reviewed { loaded, reviewed, findings } = reviewed;
    let mut priced = price(reviewed, &loaded.catalog);
    let mut findings = std::mem::take(findings);
    gather(&mut findings, &mut priced, reviewed, &loaded.catalog);
    let (left, accepted) = conclude(findings, reviewed, &codes_of_papers());
    PricedJob { loaded, reviewed, priced, left, accepted }
}

impl PricedJob<'_> {
    fn state(&self) -> State<'_> {
        State {
            job: self.reviewed.job(),
            catalog: &self.loaded.catalog,
            takeoff: &self.priced.takeoff,
            estimate: self.priced.estimate.as_ref(),
            alternates: &self.priced.alternates,
            findings: &self.left,
            elsewhere: &self.loaded.state.elsewhere,
        }
    }

    fn head(&self) -> Headed {
        let head = &self.reviewed.job().head;
        Headed {
            number: head.number.clone(),
            revision: head.revision.clone().unwrap_or_default(),
            date: head.date.to_string(),
            fingerprint: self.loaded.state.fingerprint.clone(),
        }
    }

    fn views(&self) -> BTreeMap<String, View> {
        static NO_SHEETS: makers_sheets::Enclosures = makers_sheets::Enclosures::new();
        let sources = Sources {
            enclosures: &NO_SHEETS, // a sheet of somebody else's is compared by its digest
            reviewed: self.reviewed,
            catalog: &self.loaded.catalog,
            takeoff: &self.priced.takeoff,
            findings: &self.left,
            accepted: &self.accepted,
            fingerprint: "",
            revisions: &[],
        };
        views(&sources, &self.priced, &self.loaded.sheets)
    }
}

/// Papers that say something else. Their letterheads, which hold revision and date, are not looked at.
fn reissue(before: &BTreeMap<String, View>, after: &BTreeMap<String, View>) -> Vec<Reissue> {
    let stems: BTreeSet<&String> = before.keys().chain(after.keys()).collect();
    let each = stems.into_iter().filter_map(|stem| {
        let (why, parts) = match (before.get(stem), after.get(stem)) {
            (Some(_), None) => ("no longer issued", Vec::new()),
            (None, _) => ("new", Vec::new()),
            (Some(was), Some(is)) => ("changed", parts(was, is)),
        };
        (why != "changed" || !parts.is_empty()).then(|| Reissue { paper: stem.clone(), why, parts })
    });
    each.collect()
}

/// The sections of a view that differ, and of those that are lists of sheets the members that do.
fn parts(was: &View, is: &View) -> Vec<String> {
    let (Value::Object(old), Value::Object(new)) = (&was.says, &is.says) else { return Vec::new() };
    let keys: BTreeSet<&String> = old.keys().chain(new.keys()).filter(|key| *key != "head").collect();
    let mut parts = Vec::new();
    for key in keys {
        match (old.get(key).and_then(members), new.get(key).and_then(members)) {
            (Some(one), Some(other)) => {
                let names: BTreeSet<&String> = one.keys().chain(other.keys()).collect();
                let differ = |name: &&String| {
                    let (one, other) = (one.get(*name), other.get(*name));
                    one != other || one.is_some_and(|it| it.iter().any(|value| shows_otherwise(value, was, is)))
                };
                parts.extend(names.into_iter().filter(differ).cloned());
            }
            _ => {
                let (one, other) = (old.get(key), new.get(key));
                if one != other || one.is_some_and(|it| shows_otherwise(it, was, is)) {
                    parts.push(key.replace('_', " "));
                }
            }
        }
    }
    parts.sort();
    parts.dedup();
    parts
}

/// The members of a list of sheets by what each is called; nothing where the value is no such list.
fn members(value: &Value) -> Option<BTreeMap<String, Vec<&Value>>> {
    let mut named = BTreeMap::<String, Vec<&Value>>::new();
    for member in value.as_array()? {
        let name = [member.get("mark"), member.pointer("/heading/mark"), member.get("name")];
        let name = name.into_iter().flatten().find_map(Value::as_str)?;
        named.entry(name.to_owned()).or_default().push(member);
    }
    Some(named)
}

/// Whether a drawing or a file that the value names is another in the two views.
fn shows_otherwise(value: &Value, was: &View, is: &View) -> bool {
    match value {
        Value::String(key) => was.shows.get(key) != is.shows.get(key) || was.encloses.get(key) != is.encloses.get(key),
        Value::Array(all) => all.iter().any(|it| shows_otherwise(it, was, is)),
        Value::Object(all) => all.values().any(|it| shows_otherwise(it, was, is)),
        _ => false,
    }
}
