//! A bad value is reported once: everything that is typed in the demo and in the jobs worked by hand, each made bad alone.
//!
//! In: job files, tables and catalogs with one value that cannot be read. Out: findings beside the one of that value: a second one at
//! the same place, or one that calls missing or unknown what was typed. May not know: what any key means.

use std::collections::{BTreeMap, BTreeSet};

use hingewright::findings::{Files, Finding, Place, Severity, Subject};
use hingewright::pipeline;
use rayon::prelude::*;
use toml::{Table, Value};

use crate::counts::{below, random, share};
use crate::missing_facts::{Whole, files, is_of_job, wholes};
use crate::one_out::{Texts, Typed, typed, value, with};

/// Values that a sample makes bad.
const SAMPLE: u64 = 24;

/// A word that nothing is called.
const BAD: &str = "?bad";

/// How a value is bad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum How {
    /// A table where a value belongs, a text where a list or a table does.
    OtherType,
    /// A text of the right type that names nothing and measures nothing. Where any text is right it is no fault.
    OtherWord,
}

fn bad(was: &Value, how: How) -> Option<Value> {
    let word = Value::String(BAD.to_owned());
    match (was, how) {
        (Value::Table(_) | Value::Array(_), How::OtherType) => Some(word),
        (_, How::OtherType) => Some(Value::Table(Table::from_iter([("bad".to_owned(), Value::Integer(1))]))),
        (Value::String(_), How::OtherWord) => Some(word),
        (_, How::OtherWord) => None,
    }
}

fn says(finding: &Finding) -> String {
    format!("{} {:?}: {}", finding.code.id, finding.subject, finding.sentence())
}

/// Whether a finding is at the bad value, or at a part of it.
fn is_at_it(finding: &Finding, files: &Files) -> bool {
    let Some(Place::Text { file, span }) = finding.place() else { return false };
    let text = files.text(*file).expect("a text");
    let bad = [format!("\"{BAD}\""), BAD.to_owned(), "{ \"bad\" = 1 }".to_owned()];
    let at = bad.iter().find_map(|it| text.find(it.as_str()).map(|start| start..start + it.len()));
    at.is_some_and(|at| at.start <= span.start as usize && span.end as usize <= at.end)
}

/// What takes findings away where it can be read, so that they are found where it cannot.
const HIDES: [&str; 2] = ["accept", "set_aside"];

/// Of an end of a run that is another word either of two names may be the slip: this one, or the other run's end that is now named once.
fn is_other_end(one: &Typed, finding: &Finding) -> bool {
    let is_end = one.words.starts_with("run[") && (one.words.ends_with(".from") || one.words.ends_with(".to"));
    is_end && finding.code.id == "run-end-unknown"
}

/// What a finding calls missing or unknown.
fn calls_missing(finding: &Finding) -> bool {
    let id = finding.code.id;
    ["missing", "unknown", "unstated", "undecided", "no-"].iter().any(|it| id.contains(it))
}

/// Code and subject: a finding that lists fewer names than before is no new one.
fn about(finding: &Finding) -> (&'static str, Subject) {
    (finding.code.id, finding.subject.clone())
}

struct Walk {
    whole: Whole,
    said: BTreeSet<String>,
    about: BTreeSet<(&'static str, Subject)>,
}

impl Walk {
    fn of(whole: Whole) -> Walk {
        let found = pipeline::check(&files(&whole.texts, &BTreeMap::new()), whole.job);
        let told = found.iter().filter(|it| it.code.severity == Severity::Warning).map(about).collect();
        Walk { said: found.iter().map(says).collect(), about: told, whole }
    }

    /// What is found beside the one finding of a bad value.
    fn second(&self, one: &Typed, how: How) -> Option<String> {
        // A cell has no type, and a word that stands for a table may as well be one, which then has faults of its own.
        let stands_for_a_table = one.words.contains("in_the_way[") && one.words.ends_with(']');
        if (one.file.ends_with(".csv") || stands_for_a_table) && how == How::OtherType {
            return None;
        }
        let text = &self.whole.texts[&one.file];
        let other = bad(&value(text, &one.what)?, how)?;
        let changed = BTreeMap::from([(one.file.clone(), with(text, &one.what, &other))]);
        let files = files(&self.whole.texts, &changed);
        let found = pipeline::check(&files, self.whole.job);
        let known = |it: &&Finding| self.about.contains(&about(it));
        let is_new = |it: &&Finding| !self.said.contains(&says(it)) && (is_at_it(it, &files) || !known(it));
        let new: Vec<&Finding> = found.iter().filter(is_new).collect();
        let (at_it, beside): (Vec<&Finding>, Vec<&Finding>) = new.into_iter().partition(|it| is_at_it(it, &files));
        if how == How::OtherWord && at_it.is_empty() {
            return None;
        }
        let beside = beside.into_iter().filter(|_| !HIDES.iter().any(|it| one.words.starts_with(it)));
        let false_ones: Vec<String> =
            beside.filter(|it| calls_missing(it) && !is_other_end(one, it)).map(says).collect();
        let at_it: Vec<String> = at_it.into_iter().map(says).collect();
        let right = at_it.len() == 1 && false_ones.is_empty();
        (!right).then(|| format!("{} {one} {how:?}: {at_it:?} and {false_ones:?}", self.whole.name))
    }
}

fn walks() -> Vec<Walk> {
    wholes().into_iter().map(Walk::of).collect()
}

/// Everything that has a value, and both ways to make it bad.
fn everything(walks: &[Walk]) -> Vec<(usize, Typed, How)> {
    let each = walks.iter().enumerate();
    each.flat_map(|(at, walk)| {
        let own: Texts = walk.whole.texts.clone().into_iter().filter(|(path, _)| is_of_job(path)).collect();
        let hows = [How::OtherType, How::OtherWord];
        typed(&own).into_iter().flat_map(move |one| hows.map(|how| (at, one.clone(), how)))
    })
    .collect()
}

fn hold(walks: &[Walk], some: Vec<(usize, Typed, How)>) {
    let second: Vec<String> = some.into_par_iter().filter_map(|(at, one, how)| walks[at].second(&one, how)).collect();
    assert!(second.is_empty(), "{} values:\n{}", second.len(), second.join("\n"));
}

#[test]
fn a_sample_of_bad_values_is_reported_once() {
    let walks = walks();
    let all = everything(&walks);
    let mut random = random(71);
    hold(&walks, (0..SAMPLE).map(|_| all[below(&mut random, all.len() as u64) as usize].clone()).collect());
}

/// HINGEWRIGHT_SHARE=3/7 walks the third of seven shares.
#[test]
#[ignore = "takes ten minutes; .ci runs a part of it"]
fn every_bad_value_is_reported_once() {
    let walks = walks();
    let all = everything(&walks);
    assert!(all.len() > 8_000, "{} values", all.len());
    let in_share = share();
    hold(&walks, all.into_iter().enumerate().filter(|(at, _)| in_share(*at)).map(|(_, one)| one).collect());
}
