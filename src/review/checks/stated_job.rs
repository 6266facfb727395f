//! What the job states at two of its tables: days, runs, sites, alternates: one row a pair.
//!
//! In: a job. Out: findings of the codes below. May not know: which of the two is right.

use std::collections::BTreeMap;

use rustc_hash::FxHashMap;

use super::{Check, CheckScope};
use crate::catalog::Catalog;
use crate::findings::{Code, Papers, Place, Severity, Subject};
use crate::job::{Job, Run, RunClass, RunEnd};
use crate::measure::{Finest, Length, LengthForm, Style};
use crate::review::pair::{Compared, Disagreement, PairCheck, Statement};

/// A warning that holds no paper.
const fn code(id: &'static str, says: &'static str, why: &'static str, example: &'static str) -> Code {
    Code { id, severity: Severity::Warning, says, why, example, blocks: Papers::NONE }
}

/// The day of the papers of a bid, against the day that it is due.
pub(in crate::review) static DUE: Check = Check {
    code: &code(
        "dated-after-due",
        "the papers are dated {found}, after the bid was due, {asked}",
        "A bid that carries a later day than the one that it was due is returned unopened, or one of the two is a slip. After award the \
         contract is named, and papers go on after that day.",
        "[job]\ndue = 2026-12-10T14:00:00\ndate = 2026-12-18   # and no contract",
    ),
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["date of the papers", "due"],
        used: "the date",
        compared: Compared::Job(due),
    }),
};

/// The ends of a run, against those of another.
pub(in crate::review) static RUNS: Check = Check {
    code: &code(
        "run-doubled",
        "a run {found} is listed twice, first as run {asked}",
        "Both are taken off and priced. A second raceway beside the first is of another kind or carries another class, or is a reason to \
         accept this.",
        "[[run]]\nfrom = \"LP-1\"\nto = \"101A\"\n\n[[run]]\nfrom = \"101A\"\nto = \"LP-1\"",
    ),
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["this run", "listed before"],
        used: "both runs",
        compared: Compared::Job(doubled_runs),
    }),
};

/// The site of one end of a run, against that of the other.
pub(in crate::review) static RUN_SITES: Check = Check {
    code: &code(
        "run-elsewhere",
        "a run ends at {found}; its other end, or the run itself, is at {asked}",
        "A raceway is inside one site and is installed on its visits; one between two sites is a service of its own, and one of the two names \
         is a slip.",
        "[[run]]\nfrom = \"LP-H1\"   # of the hall\nto = \"C101\"      # of the clinic",
    ),
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["this end", "other end"],
        used: "the site of the run, else of its first end",
        compared: Compared::Job(run_sites),
    }),
};

/// The class of a run, against the panel at its end.
pub(in crate::review) static RUN_CLASS: Check = Check {
    code: &code(
        "run-class-panel",
        "a run of class {found} ends at {asked}",
        "A panel of the job feeds breakers at line voltage. A low-voltage run to it gets cable where conductors are needed, and circuits are \
         not followed through it.",
        "[[run]]\nfrom = \"LP-1\"\nto = \"101A\"\nclass = \"low\"",
    ),
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["class", "end at a panel"],
        used: "the class",
        compared: Compared::Job(run_classes),
    }),
};

/// Openings of alternates, against the base bid.
pub(in crate::review) static ALTERNATES: Check = Check {
    code: &code(
        "alternate-idle",
        "an alternate {found}; the opening {asked}",
        "An alternate adds what the base bid leaves out and omits what it holds. Otherwise it is priced as no change, and the opening is in \
         the base bid or in no price at all.",
        "[[opening]]\nmark = \"204\"   # and no base = false\n\n[[alternate]]\nadds = [\"204\"]",
    ),
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["alternate", "opening"],
        used: "what the opening says for the base bid",
        compared: Compared::Job(alternates),
    }),
};

/// Openings that are not of the base bid, against the alternates.
pub(in crate::review) static UNPRICED: Check = Check {
    code: &code(
        "opening-unpriced",
        "the opening is left out of the base bid, and {found}",
        "An opening with base = false is priced where an alternate adds it. Without one it is in no price.",
        "[[opening]]\nmark = \"204\"\nbase = false   # and no alternate adds it",
    ),
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["opening", "alternates"],
        used: "what the opening says, so that it is in no price",
        compared: Compared::Job(unpriced),
    }),
};

/// Plate heights of one jurisdiction, against those of another.
pub(in crate::review) static PLATE_HEIGHTS: Check = Check {
    code: &code(
        "plate-heights-differ",
        "{found}; {asked}",
        "Each plate height makes a device of its own at every place of a plate; two local amendments with other heights cannot both be met \
         by one of them.",
        "[job]\njurisdictions = [\"county\", \"state\"]   # each with plate_heights of its own",
    ),
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["this jurisdiction", "named before it"],
        used: "the heights of the one that is named first",
        compared: Compared::Job(plate_heights),
    }),
};

/// The address of a site, against that of another.
pub(in crate::review) static ADDRESSES: Check = Check {
    code: &code(
        "site-twice",
        "site {found} has the address of site {asked}",
        "Visits, travel and packets go by site, so one building that is listed twice is gone to twice and pays twice.",
        "[site.main]\naddress = \"12 Alder Row\"\n\n[site.annex]\naddress = \"12 Alder Row\"",
    ),
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["this site", "listed before"],
        used: "both, each with its visits",
        compared: Compared::Job(addresses),
    }),
};

fn due(job: &Job, _: &Catalog) -> Vec<Disagreement> {
    let head = &job.head;
    let compare = || {
        let due = head.due.filter(|due| head.contract.is_none() && head.date > due.date())?;
        Some(Disagreement {
            subject: Subject::Job,
            one: Statement::new(head.date.to_string(), head.date_place.as_ref()?),
            other: Statement::new(due.date().to_string(), head.due_place.as_ref()?),
            margin: Some(format!("{} d", due.date().days_to(head.date))),
            write: "correct date or due; once awarded, add contract = \"…\" to [job]".to_owned(),
        })
    };
    compare().into_iter().collect()
}

fn words(run: &Run) -> String {
    let [from, to] = run.whole();
    format!("{from} to {to}")
}

fn doubled_runs(job: &Job, _: &Catalog) -> Vec<Disagreement> {
    let mut seen: BTreeMap<(&RunEnd, &RunEnd, &str, &str), &Run> = BTreeMap::new();
    let mut found = Vec::new();
    // Of a run of several parts the first stands for all.
    for run in job.runs.iter().filter(|run| run.part.as_ref().is_none_or(|part| part.number == 1)) {
        let [from, to] = run.whole();
        let ends = if from <= to { (from, to) } else { (to, from) };
        let key = (ends.0, ends.1, run.kind.word(), run.class.word());
        match seen.get(&key) {
            Some(first) => found.push(Disagreement {
                subject: Subject::Site(run.site.clone()),
                one: Statement::new(words(run), &run.place),
                other: Statement::new(words(first), &first.place),
                margin: None,
                write: "take one of the two out, or accept this with its reason".to_owned(),
            }),
            None => drop(seen.insert(key, run)),
        }
    }
    found
}

/// The site of an end; none for a box. `marks` has the site of each opening.
fn site_of<'j>(job: &'j Job, marks: &FxHashMap<&str, &'j str>, end: &RunEnd) -> Option<&'j str> {
    match end {
        RunEnd::Panel(id) => Some(&job.panels.get(id)?.site),
        RunEnd::Opening(mark) | RunEnd::Device(mark, _) => marks.get(mark.as_str()).copied(),
        RunEnd::Box(_) | RunEnd::Joint(..) => None,
    }
}

fn run_sites(job: &Job, _: &Catalog) -> Vec<Disagreement> {
    let marks = job.openings.iter().map(|it| (it.mark.as_str(), it.site.as_str())).collect();
    let mut found = Vec::new();
    for run in &job.runs {
        let ends = [(&run.to, run.entry.to.place()), (&run.from, run.entry.from.place())];
        let typed = run.entry.site.given();
        let typed = typed.map(|given| (given.value.as_str(), &given.place, format!("site {}", given.value.as_str())));
        let each: Vec<_> = ends
            .into_iter()
            .filter_map(|(end, place)| {
                let site = site_of(job, &marks, end)?;
                Some((site, place?, format!("{end}, site {site}")))
            })
            .chain(typed)
            .collect();
        let differing = each.windows(2).find(|two| two[0].0 != two[1].0);
        if let Some([one, other]) = differing {
            found.push(Disagreement {
                subject: Subject::Site(run.site.clone()),
                one: Statement::new(&*one.2, one.1),
                other: Statement::new(&*other.2, other.1),
                margin: None,
                write: "correct the end of the run that is at the wrong site".to_owned(),
            });
        }
    }
    found
}

fn run_classes(job: &Job, _: &Catalog) -> Vec<Disagreement> {
    let low = job.runs.iter().filter(|run| run.class == RunClass::Low);
    let each = low.filter_map(|run| {
        let ends = [(&run.from, &run.entry.from), (&run.to, &run.entry.to)];
        let (end, slot) = ends.into_iter().find(|(end, _)| matches!(end, RunEnd::Panel(_)))?;
        let class = run.entry.class.given()?;
        Some(Disagreement {
            subject: Subject::Site(run.site.clone()),
            one: Statement::new(run.class.word(), &class.place),
            other: Statement::new(format!("panel {end}"), slot.place()?),
            margin: None,
            write: "write class = \"line\", or the supply or header that the run comes from".to_owned(),
        })
    });
    each.collect()
}

fn alternates(job: &Job, _: &Catalog) -> Vec<Disagreement> {
    let mut found = Vec::new();
    for alternate in &job.alternates {
        let adds = alternate.adds.iter().map(|mark| (mark, true));
        let omits = alternate.omits.iter().map(|mark| (mark, false));
        for (mark, adds) in adds.chain(omits) {
            let Some(opening) = job.opening(mark).filter(|it| it.entry.base.or(true) == adds) else { continue };
            let does = if adds { "adds" } else { "omits" };
            let is = if adds { "is in the base bid already" } else { "is not in the base bid" };
            found.push(Disagreement {
                subject: Subject::Opening(mark.clone()),
                one: Statement::new(format!("{} {does} {mark}", alternate.number), &alternate.place),
                other: Statement::new(is, opening.entry.base.place().unwrap_or(&opening.place)),
                margin: None,
                write: format!("write base = {} at the opening, or take it out of `{does}`", !adds),
            });
        }
    }
    found
}

fn unpriced(job: &Job, _: &Catalog) -> Vec<Disagreement> {
    let left_out = job.openings.iter().filter(|it| !it.entry.base.or(true) && !job.is_set_aside(&it.mark));
    let not_added = left_out.filter(|it| !job.alternates.iter().any(|alternate| alternate.adds.contains(&it.mark)));
    let each = not_added.map(|opening| {
        let place: &Place = job.alternates.last().map_or(&job.head.place, |it| &it.place);
        Disagreement {
            subject: Subject::Opening(opening.mark.clone()),
            one: Statement::new("no alternate adds it", opening.entry.base.place().unwrap_or(&opening.place)),
            other: Statement::new("", place),
            margin: None,
            write: "add its mark to the `adds` of an alternate, or write base = true".to_owned(),
        }
    });
    each.collect()
}

fn plate_heights(job: &Job, catalog: &Catalog) -> Vec<Disagreement> {
    let named = job.head.jurisdictions.iter().filter_map(|id| catalog.jurisdictions.get(id));
    let mut with_heights = named.filter(|it| !it.plate_heights.is_empty());
    let Some(first) = with_heights.next() else { return Vec::new() };
    let print = |length: &Length| length.print(LengthForm::Inches, Finest::Sixteenth, Style::Plain);
    let words = |name: &str, heights: &[Length]| {
        format!("{name} asks plates at {}", heights.iter().map(print).collect::<Vec<_>>().join(" and "))
    };
    let others = with_heights.filter(|it| it.plate_heights != first.plate_heights);
    let each = others.map(|other| Disagreement {
        subject: Subject::Entry("jurisdiction", other.id.clone()),
        one: Statement::new(words(&other.name, &other.plate_heights), &other.place),
        other: Statement::new(words(&first.name, &first.plate_heights), &first.place),
        margin: None,
        write: "write one [jurisdiction.…] with every height that both ask for, and name it in the job".to_owned(),
    });
    each.collect()
}

fn addresses(job: &Job, _: &Catalog) -> Vec<Disagreement> {
    let plain = |text: &str| -> String {
        text.chars().filter(|it| it.is_alphanumeric()).flat_map(char::to_lowercase).collect()
    };
    let mut seen: BTreeMap<String, (&str, &Place)> = BTreeMap::new();
    let mut found = Vec::new();
    let mut sites: Vec<_> = job.sites.values().filter_map(|it| Some((it, it.entry.address.place()?))).collect();
    sites.sort_by_key(|(_, place)| (*place).clone());
    for (site, place) in sites {
        match seen.get(&plain(&site.address)) {
            Some((first, first_place)) => found.push(Disagreement {
                subject: Subject::Site(site.id.clone()),
                one: Statement::new(&*site.id, place),
                other: Statement::new(*first, first_place),
                margin: None,
                write: "make the two one site, or write the address of each".to_owned(),
            }),
            None => drop(seen.insert(plain(&site.address), (&site.id, place))),
        }
    }
    found
}
