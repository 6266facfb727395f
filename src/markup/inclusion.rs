//! Which templates include which, and what that comes to: worked out before any is rendered, so that what would end the program
//! is a finding.
//!
//! In: scanned templates by name. Out: rings, chains, loops and names that together go too far, each at the place that does.
//! May not know: what a template prints.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::scan::{DEEPEST, Include, Scanned};

/// Templates include one another at most so far: each is rendered inside the one that includes it.
const LONGEST_CHAIN: u32 = 12;

/// A template holds at most so many others, counting those that they hold, each as often as it is included. Loops around an
/// inclusion are bounded by the rows of the view.
const MOST_INCLUDED: u64 = 1_000;

/// A fault of inclusion.
#[derive(Debug, PartialEq, Eq)]
pub enum Fault {
    /// There is no template of the name.
    Missing(String),
    /// Something that templates may not do, and what to do instead.
    Refused(String, &'static str),
}

/// What a template comes to with all that it includes.
#[derive(Clone, Copy, Default)]
struct Sum {
    /// How deep loops nest.
    loops: u32,
    /// How many templates stand in one another.
    chain: u32,
    /// How many templates it holds.
    held: u64,
}

/// Every fault of inclusion, with the template and the place that it is found at.
pub fn faults(templates: &BTreeMap<&str, &Scanned>) -> Vec<(String, Range<usize>, Fault)> {
    let mut found = Vec::new();
    let reached: BTreeMap<&str, BTreeSet<&str>> =
        templates.keys().map(|name| (*name, reached(templates, name))).collect();
    let in_ring = |name: &str, include: &Include| {
        include.name == name || reached.get(include.name.as_str()).is_some_and(|there| there.contains(name))
    };
    let sums = sums(templates, in_ring);
    let sum = |name: &str| sums.get(name).copied().unwrap_or_default();
    for (name, scanned) in templates {
        let mut held = 0;
        for include in &scanned.includes {
            let of = sum(&include.name);
            let before = held;
            held = held_with(held, of);
            let fault = if !templates.contains_key(include.name.as_str()) {
                Fault::Missing(include.name.clone())
            } else if in_ring(name, include) {
                let ring = format!("an inclusion of {} that includes itself", include.name);
                Fault::Refused(ring, "take it out, or include a template that holds the part alone")
            } else if include.depth > 0 && include.depth + of.loops > DEEPEST {
                let found = format!("loops more than three deep, counting those of {}", include.name);
                Fault::Refused(found, "let the view bring the rows in one list")
            } else if of.chain == LONGEST_CHAIN {
                let found = format!("more than {LONGEST_CHAIN} templates that stand in one another");
                Fault::Refused(found, "include the inner ones from the outer one")
            } else if of.held <= MOST_INCLUDED && (before..held).contains(&MOST_INCLUDED) {
                let found = format!("more than {MOST_INCLUDED} inclusions, counting those of what is included");
                Fault::Refused(found, "include it once, in a loop over what differs")
            } else {
                continue;
            };
            found.push((name.to_string(), include.at.clone(), fault));
        }
    }
    found.extend(joined(templates, &reached));
    found
}

fn held_with(held: u64, of: Sum) -> u64 {
    held.saturating_add(of.held).saturating_add(1)
}

/// The templates that one includes, directly or not; itself only in a ring.
fn reached<'t>(templates: &BTreeMap<&'t str, &'t Scanned>, from: &str) -> BTreeSet<&'t str> {
    let includes = |name: &str| templates.get(name).map_or(&[][..], |scanned| &scanned.includes);
    let mut seen = BTreeSet::new();
    let mut open: Vec<&Include> = includes(from).iter().collect();
    while let Some(include) = open.pop() {
        if seen.insert(include.name.as_str()) {
            open.extend(includes(&include.name));
        }
    }
    seen
}

/// What each template comes to. An inclusion that comes back to itself counts nothing.
fn sums<'t>(
    templates: &BTreeMap<&'t str, &'t Scanned>,
    in_ring: impl Fn(&str, &Include) -> bool,
) -> BTreeMap<&'t str, Sum> {
    let mut sums: BTreeMap<&str, Sum> = BTreeMap::new();
    let sound = |name: &str, scanned: &'t Scanned| -> Vec<&'t Include> {
        let there = |include: &&Include| templates.contains_key(include.name.as_str()) && !in_ring(name, include);
        scanned.includes.iter().filter(there).collect()
    };
    let includes: Vec<(&str, &Scanned, Vec<&Include>)> =
        templates.iter().map(|(name, scanned)| (*name, *scanned, sound(name, scanned))).collect();
    // Those of which everything included is known, until no more become known: without rings that is all of them.
    loop {
        let known = sums.len();
        for (name, scanned, includes) in &includes {
            let inside: Option<Vec<(u32, Sum)>> =
                includes.iter().map(|it| Some((it.depth, *sums.get(it.name.as_str())?))).collect();
            let Some(inside) = inside.filter(|_| !sums.contains_key(name)) else { continue };
            let loops = inside.iter().map(|(depth, of)| depth.saturating_add(of.loops)).max().unwrap_or(0);
            let chain = inside.iter().map(|(_, of)| of.chain).max().unwrap_or(0).saturating_add(1);
            let held = inside.iter().fold(0, |held, (_, of)| held_with(held, *of));
            sums.insert(name, Sum { loops: loops.max(scanned.depth), chain, held });
        }
        if sums.len() == known {
            return sums;
        }
    }
}

/// Names that a template puts together although it, or one that it includes or that includes it, sets them. Set from itself a text
/// would double with every statement; set from the view alone, none is longer than its view and its template allow.
fn joined(
    templates: &BTreeMap<&str, &Scanned>,
    reached: &BTreeMap<&str, BTreeSet<&str>>,
) -> Vec<(String, Range<usize>, Fault)> {
    let mut found = Vec::new();
    let includes = |outer: &str, inner: &str| reached.get(outer).is_some_and(|there| there.contains(inner));
    for (name, scanned) in templates.iter().filter(|(_, scanned)| !scanned.joins.is_empty()) {
        let family =
            templates.iter().filter(|(other, _)| *other == name || includes(name, other) || includes(other, name));
        let sets: BTreeSet<&str> = family.flat_map(|(_, it)| it.sets.iter().map(String::as_str)).collect();
        for (word, at) in scanned.joins.iter().filter(|(word, _)| sets.contains(word.as_str())) {
            let fault = format!("{word}, which is set, as a part of something longer");
            found.push((name.to_string(), at.clone(), Fault::Refused(fault, "print one behind the other")));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::scan::scan;
    use super::*;

    /// The faults of templates, as `name: what`.
    fn reported(texts: &[(String, String)]) -> Vec<String> {
        let scanned: Vec<(&str, Scanned)> = texts.iter().map(|(name, text)| (name.as_str(), scan(text, 0))).collect();
        let by_name = scanned.iter().map(|(name, scanned)| (*name, scanned)).collect();
        let line = |(name, _, fault)| match fault {
            Fault::Missing(missing) => format!("{name}: no {missing}"),
            Fault::Refused(found, _) => format!("{name}: {found}"),
        };
        faults(&by_name).into_iter().map(line).collect()
    }

    fn included(count: usize, each: impl Fn(usize) -> String) -> Vec<(String, String)> {
        (0..count).map(|at| (format!("t{at:03}"), each(at))).collect()
    }

    #[test]
    fn eight_hundred_templates_in_one_another_are_one_fault() {
        let chain =
            |at: usize| if at < 799 { format!("{{% include \"t{:03}\" %}}", at + 1) } else { "<p/>".to_owned() };
        assert_eq!(reported(&included(800, chain)), ["t787: more than 12 templates that stand in one another"]);
        assert!(reported(&included(12, |at| if at < 11 { chain(at) } else { String::new() })).is_empty());
    }

    #[test]
    fn each_that_includes_the_next_twice_is_one_fault() {
        let twice =
            |at: usize| if at < 39 { format!("{{% include \"t{:03}\" %}}", at + 1).repeat(2) } else { String::new() };
        // Nine doublings hold 2 + 4 + … + 512 = 1,022 templates.
        let reported = reported(&included(40, twice));
        assert!(
            reported.contains(&"t030: more than 1000 inclusions, counting those of what is included".to_owned()),
            "{reported:?}"
        );
        assert!(reported.len() <= 3, "{reported:?}");
    }

    #[test]
    fn what_is_set_is_not_put_together_anywhere_near() {
        let texts = |a: &str, b: &str| [("a".to_owned(), a.to_owned()), ("b".to_owned(), b.to_owned())];
        let refused = |a: &str, b: &str| reported(&texts(a, b)).len();
        assert_eq!(refused("{% set a = a ~ a %}", ""), 2);
        assert_eq!(refused("{% set a = b ~ c %}{% set b = a ~ c %}", ""), 2, "two texts that grow in turn");
        assert_eq!(refused("{% set a = c %}{{ b ~ c }}", ""), 0);
        assert_eq!(refused("{% set a = c %}{% include \"b\" %}", "{{ a ~ c }}"), 1);
        assert_eq!(refused("{% set a = c %}", "{{ a ~ c }}"), 0, "templates that have nothing to do with each other");
    }
}
