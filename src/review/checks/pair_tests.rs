//! Every pair of statements: jobs in which both agree, and jobs in which one or the other was changed.
//!
//! In: changed jobs. Out: findings, each with both places. May not know: prices.

use super::{
    CHECKS, Check, CheckScope, stated_days as days, stated_hardware as hardware, stated_job as of_job,
    stated_openings as openings, stated_surveys as surveys,
};
use crate::review::fixtures::{Fixture, sound, with};

/// A pair, jobs in which it agrees, and jobs in which it does not, with what is found and asked.
struct Case {
    check: &'static Check,
    passes: Vec<Fixture>,
    fails: Vec<(Fixture, &'static str, &'static str)>,
}

fn survey(pass: u32, says: &str) -> String {
    format!("[[survey]]\nopening = \"101\"\npass = {pass}\nseen = 2026-11-0{pass}\nby = \"R. Tallow\"\n{says}\n")
}

/// The sound opening, whose leaf hangs at the left and swings away as seen from the street, with surveys.
fn surveyed(says: &[&str]) -> Fixture {
    let all: Vec<String> = (1..).zip(says).map(|(pass, says)| survey(pass, says)).collect();
    with(&all.concat())
}

/// A vestibule of two openings.
fn vestibule(first: &str, second: &str) -> Fixture {
    with(&format!(
        "vestibule = {{ partner = \"102\", {first} }}\n[[opening]]\nmark = \"102\"\nkind = \"plain\"\n\
         vestibule = {{ partner = \"101\", {second} }}"
    ))
}

fn pair(first: &str, second: &str) -> Fixture {
    with(&format!("leaf = [{{ {first} }}, {{ {second} }}]"))
}

fn runs(runs: &[(&str, &str, &str)]) -> Fixture {
    let run = |(from, to, more): &(&str, &str, &str)| {
        format!("[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nlength = \"20 ft\"\nbends = []\n{more}\n")
    };
    with(&runs.iter().map(run).collect::<String>())
}

const LINE: &str = "kind = \"EMT\"\nclass = \"line\"";
const LOW: &str = "kind = \"EMT\"\nclass = \"low\"";
const FLEXIBLE: &str = "kind = \"flexible\"\nclass = \"line\"";

/// The sound job with a second site.
fn two_sites(more: &str) -> Fixture {
    sound().but("[panel.LP-1]", "[site.annex]\nname = \"Annex\"\naddress = \"40 Mill Lane\"\n\n[panel.LP-1]").and(more)
}

fn second(more: &str) -> String {
    format!("[[opening]]\nmark = \"102\"\nkind = \"plain\"\n{more}\n")
}

fn alternate(does: &str) -> String {
    format!("[[alternate]]\nnumber = \"1\"\ntitle = \"One\"\n{does}\n")
}

fn county(heights: &str) -> Fixture {
    let of = |id: &str, heights: &str| {
        format!("[jurisdiction.{id}]\nname = \"{id}\"\nclause = \"1\"\nplate_heights = [{heights}]\n")
    };
    sound()
        .but("profile = \"town\"", "profile = \"town\"\njurisdictions = [\"county\", \"state\"]")
        .catalog_and(&format!("{}{}", of("county", "\"8 in\", \"36 in\""), of("state", heights)))
}

fn quoted(date: &str, valid_to: &str) -> Fixture {
    with(&format!(
        "[[quote]]\nitem = \"header\"\nsupplier = \"Fenwick Supply\"\nprice = \"41.20\"\ndate = {date}\nvalid_to = {valid_to}"
    ))
}

fn of_surveys() -> [Case; 3] {
    [
        // LH seen from the street is RHR seen from the lobby.
        Case {
            check: &surveys::HAND,
            passes: vec![
                sound(),
                surveyed(&["leaf = { hinges = \"left\", swing = \"away\" }"]),
                surveyed(&["seen_from = \"Street\"\nleaf = { hinges = \"left\", swing = \"away\" }"]),
                surveyed(&["seen_from = \"Lobby\"\nleaf = { hinges = \"right\", swing = \"toward\" }"]),
            ],
            fails: vec![
                (surveyed(&["leaf = { hinges = \"right\" }"]), "RH", "LH"),
                (surveyed(&["leaf = { swing = \"toward\" }"]), "LHR", "LH"),
                (surveyed(&["leaf = { hinges = \"left\" }", "leaf = { hinges = \"right\" }"]), "RH", "LH"),
                (surveyed(&["seen_from = \"Lobby\"\nleaf = { hinges = \"left\", swing = \"away\" }"]), "RHR", "LH"),
                // The key side moves to the other room in the job, and the survey knows from where it looked.
                (
                    surveyed(&["seen_from = \"Street\"\nleaf = { hinges = \"left\", swing = \"away\" }"])
                        .but("outside = \"Street\"", "outside = \"Lobby\""),
                    "RHR",
                    "LH",
                ),
            ],
        },
        Case {
            check: &surveys::SURVEY,
            passes: vec![
                surveyed(&[
                    "leaf = { width = \"3 ft 0 1/4 in\", height = \"6 ft 11 3/4 in\", thickness = \"1 5/8 in\" }",
                ]),
                surveyed(&["frame = { reveal = \"5 in\" }"]),
                sound()
                    .but("width = \"3 ft 0 in\"", "standing = \"assumed\"\nwidth = \"3 ft 0 in\"")
                    .and(&survey(1, "leaf = { width = \"3 ft 4 in\" }")),
            ],
            fails: vec![
                (surveyed(&["leaf = { width = \"3 ft 0 5/16 in\" }"]), "leaf width 3 ft 5/16 in", "3 ft 0 in"),
                (surveyed(&["leaf = { height = \"8 ft 0 in\" }"]), "leaf height 8 ft 0 in", "7 ft 0 in"),
                (
                    surveyed(&["leaf = { width = \"3 ft 0 in\" }"])
                        .but("width = \"3 ft 0 in\"", "width = \"3 ft 6 in\""),
                    "leaf width 3 ft 0 in",
                    "3 ft 6 in",
                ),
                (surveyed(&["leaf = { made = \"wood\" }"]), "leaf made wood", "hollow metal"),
            ],
        },
        Case {
            check: &surveys::SURVEYS,
            passes: vec![
                surveyed(&["frame = { reveal = \"3 in\" }", "frame = { reveal = \"3 1/8 in\" }"]),
                surveyed(&["leaf = { weight = \"150 lb\" }", "leaf = { weight = \"155 lb\" }"]),
                surveyed(&["frame = { reveal = \"5 in\" }", ""]),
                surveyed(&["leaf = { hinges = \"left\" }", "leaf = { hinges = \"right\" }"]),
            ],
            fails: vec![
                (
                    surveyed(&["frame = { reveal = \"3 in\" }", "frame = { reveal = \"3 3/16 in\" }"]),
                    "frame reveal 3 3/16 in",
                    "3 in",
                ),
                (
                    surveyed(&["leaf = { weight = \"160 lb\" }", "leaf = { weight = \"150 lb\" }"]),
                    "leaf weight 150 lb",
                    "160 lb",
                ),
                (
                    surveyed(&["leaf = { width = \"3 ft 0 in\" }", "leaf = { width = \"3 ft 2 in\" }"]),
                    "leaf width 3 ft 2 in",
                    "3 ft 0 in",
                ),
                (
                    surveyed(&["frame = { fixed_to = \"wood\" }", "frame = { fixed_to = \"masonry\" }"]),
                    "frame fixed_to masonry",
                    "wood",
                ),
            ],
        },
    ]
}

fn of_openings() -> [Case; 6] {
    [
        Case {
            check: &openings::DISTANCE,
            passes: vec![
                vestibule("distance = \"8 ft 0 in\"", "distance = \"96 in\""),
                vestibule("distance = \"8 ft 0 in\"", "walk = \"6 ft 0 in\""),
            ],
            fails: vec![
                (vestibule("distance = \"8 ft 0 in\"", "distance = \"7 ft 0 in\""), "7 ft 0 in", "8 ft 0 in"),
                (vestibule("distance = \"7 ft 0 in\"", "distance = \"8 ft 0 in\""), "8 ft 0 in", "7 ft 0 in"),
            ],
        },
        Case {
            check: &openings::LOCKED,
            passes: vec![
                vestibule("locked = \"here\"", "locked = \"partner\""),
                vestibule("locked = \"neither\"", "locked = \"neither\""),
            ],
            fails: vec![
                (vestibule("locked = \"here\"", "locked = \"here\""), "here", "here"),
                (vestibule("locked = \"neither\"", "locked = \"partner\""), "partner", "neither"),
            ],
        },
        // 120/240 single-phase, 208Y/120, 480Y/277 (common practice, no source).
        Case {
            check: &openings::PANEL_VOLTS,
            passes: vec![
                sound().but("free = 4", "free = 4\nvolts = \"120 V\""),
                with("power = { volts = \"208 V\" }").but("free = 4", "free = 4\nvolts = \"120 V\""),
                with("leaf = { powered = false }").but("free = 4", "free = 4\nvolts = \"277 V\""),
            ],
            fails: vec![
                (sound().but("free = 4", "free = 4\nvolts = \"277 V\""), "120 V", "277 V"),
                (
                    with("power = { volts = \"277 V\" }").but("free = 4", "free = 4\nvolts = \"120 V\""),
                    "277 V",
                    "120 V",
                ),
            ],
        },
        Case {
            check: &openings::PANEL_SITE,
            passes: vec![two_sites("")],
            fails: vec![
                (two_sites("site = \"annex\""), "annex", "main"),
                (two_sites("").but("[panel.LP-1]\nsite = \"main\"", "[panel.LP-1]\nsite = \"annex\""), "main", "annex"),
            ],
        },
        Case {
            check: &openings::HINGES,
            passes: vec![
                pair("hinges = \"left\"", "hinges = \"right\""),
                pair("hinges = \"right\", swing = \"toward\"", "hinges = \"left\""),
            ],
            fails: vec![
                (pair("hinges = \"left\"", "hinges = \"left\""), "left", "left"),
                (pair("hinges = \"right\"", "hinges = \"right\", swing = \"toward\""), "right", "right"),
            ],
        },
        Case {
            check: &openings::CLEAR_WIDTH,
            passes: vec![
                with("access = { clear_width = \"34 in\" }"),
                pair("hinges = \"left\"", "hinges = \"right\"").and("access = { clear_width = \"67 in\" }"),
            ],
            fails: vec![(with("access = { clear_width = \"38 in\" }"), "38 in", "36 in")],
        },
    ]
}

/// The sound leaf, of a mortise lock with an electric strike, with hardware that is there.
fn there(hardware: &[(&str, &str)]) -> Fixture {
    let all: Vec<String> =
        hardware.iter().map(|(what, becomes)| format!("{{ what = \"{what}\", becomes = \"{becomes}\" }}")).collect();
    with(&format!("leaf = {{ existing = [{}] }}", all.join(", ")))
}

fn of_hardware() -> [Case; 2] {
    [
        Case {
            check: &hardware::EXISTING_LATCH,
            passes: vec![
                there(&[("mortise lock", "reuse")]),
                there(&[("rim exit device", "remove")]),
                there(&[("flush bolts", "reuse"), ("mortise lock", "reuse")]),
                there(&[("closer", "reuse")]),
            ],
            fails: vec![
                (there(&[("rim exit device", "reuse")]), "mortise lock", "rim exit device"),
                (there(&[("flush bolts", "relocate")]), "mortise lock", "flush bolts"),
            ],
        },
        Case {
            check: &hardware::EXISTING_RELEASE,
            passes: vec![
                there(&[("electric strike", "reuse")]),
                there(&[("electrified lock", "remove")]),
                there(&[("electrified lock", "reuse")]).but("electric strike", "held by others"),
            ],
            fails: vec![(there(&[("electrified lock", "reuse")]), "electric strike", "electrified lock")],
        },
    ]
}

fn of_jobs() -> [Case; 8] {
    [
        Case {
            check: &of_job::RUNS,
            passes: vec![
                runs(&[("LP-1", "101", LINE), ("101", "101/P1", LOW)]),
                runs(&[("LP-1", "101", LINE), ("LP-1", "101", FLEXIBLE)]),
            ],
            fails: vec![
                (runs(&[("LP-1", "101", LINE), ("LP-1", "101", LINE)]), "LP-1 to 101", "LP-1 to 101"),
                (runs(&[("LP-1", "101", LINE), ("101", "LP-1", LINE)]), "101 to LP-1", "LP-1 to 101"),
            ],
        },
        Case {
            check: &of_job::RUN_SITES,
            passes: vec![
                two_sites(&second("site = \"annex\"")),
                runs(&[("LP-1", "101", LINE)]),
                runs(&[("LP-1", "101", "kind = \"EMT\"\nclass = \"line\"\nsite = \"main\"")]),
            ],
            fails: vec![
                (
                    two_sites(&second("site = \"annex\""))
                        .and(&format!("[[run]]\nfrom = \"LP-1\"\nto = \"102\"\nlength = \"20 ft\"\n{LINE}\n")),
                    "102, site annex",
                    "LP-1, site main",
                ),
                (
                    two_sites(&format!(
                        "[[run]]\nfrom = \"LP-1\"\nto = \"101\"\nlength = \"20 ft\"\nsite = \"annex\"\n{LINE}\n"
                    )),
                    "LP-1, site main",
                    "site annex",
                ),
            ],
        },
        Case {
            check: &of_job::RUN_CLASS,
            passes: vec![runs(&[("LP-1", "101", LINE)]), runs(&[("101", "101/P1", LOW)])],
            fails: vec![
                (runs(&[("LP-1", "101", LOW)]), "low", "panel LP-1"),
                (runs(&[("101", "LP-1", LOW)]), "low", "panel LP-1"),
            ],
        },
        Case {
            check: &of_job::ALTERNATES,
            passes: vec![
                with(&second("base = false")).and(&alternate("adds = [\"102\"]")),
                with(&second("")).and(&alternate("omits = [\"102\"]")),
            ],
            fails: vec![
                (with(&second("")).and(&alternate("adds = [\"102\"]")), "1 adds 102", "is in the base bid already"),
                (
                    with(&second("base = false")).and(&alternate("omits = [\"102\"]")),
                    "1 omits 102",
                    "is not in the base bid",
                ),
            ],
        },
        Case {
            check: &of_job::UNPRICED,
            passes: vec![
                with(&second("base = false")).and(&alternate("adds = [\"102\"]")),
                with(&second("base = false")).and("[[set_aside]]\nopening = \"102\"\nreason = \"frame by others\""),
            ],
            fails: vec![
                (with(&second("base = false")), "no alternate adds it", ""),
                (with(&second("base = false")).and(&alternate("omits = [\"101\"]")), "no alternate adds it", ""),
            ],
        },
        Case {
            check: &of_job::PLATE_HEIGHTS,
            passes: vec![county("\"8 in\", \"36 in\""), county("")],
            fails: vec![(county("\"10 in\""), "state asks plates at 10\"", "county asks plates at 8\" and 36\"")],
        },
        Case {
            check: &of_job::ADDRESSES,
            passes: vec![two_sites("")],
            fails: vec![(two_sites("").but("40 Mill Lane", "12 alder row."), "annex", "main")],
        },
        Case {
            check: &of_job::DUE,
            passes: vec![
                sound(),
                sound().but("date = 2026-12-08", "date = 2026-12-10"),
                sound().but("date = 2026-12-08", "date = 2026-12-18\ncontract = \"C-1\""),
            ],
            fails: vec![
                (sound().but("date = 2026-12-08", "date = 2026-12-11"), "2026-12-11", "2026-12-10"),
                (sound().but("due = 2026-12-10", "due = 2026-11-10"), "2026-12-08", "2026-11-10"),
            ],
        },
    ]
}

fn of_days() -> Case {
    let document = |date: &str| with(&format!("[[document]]\nnumber = \"A-1\"\ntitle = \"Doors\"\ndate = {date}"));
    let addendum = |date: &str| with(&format!("[[addendum]]\nnumber = \"2\"\ndate = {date}"));
    let seen = |date: &str| surveyed(&[""]).but("seen = 2026-11-01", &format!("seen = {date}"));
    let visits = |days: &str| sound().but("year = 1998", &format!("year = 1998\ndays = {{ {days} }}"));
    Case {
        check: &days::DAYS,
        passes: vec![
            document("2026-12-08"),
            addendum("2026-12-08"),
            quoted("2026-11-20", "2027-02-20"),
            seen("2026-12-08"),
            surveyed(&["", ""]),
            visits(
                "survey = 2027-01-11, rough_in = 2027-02-08, set = 2027-03-08, devices = 2027-03-17, inspection = 2027-03-24",
            ),
            visits("rough_in = 2027-02-08, set = 2027-02-08"),
        ],
        fails: vec![
            (document("2026-12-09"), "document A-1, 2026-12-09,", "the date of the papers, 2026-12-08"),
            (addendum("2027-11-24"), "addendum 2, 2027-11-24,", "the date of the papers, 2026-12-08"),
            (
                quoted("2026-12-20", "2027-02-20"),
                "the quote of header, 2026-12-20,",
                "the date of the papers, 2026-12-08",
            ),
            (quoted("2026-11-20", "2026-11-02"), "the quote of header, 2026-11-20,", "its last day, 2026-11-02"),
            (seen("2027-11-01"), "survey 1 of 101, 2027-11-01,", "the date of the papers, 2026-12-08"),
            (
                surveyed(&["", ""]).but("seen = 2026-11-01", "seen = 2026-11-09"),
                "survey 1 of 101, 2026-11-09,",
                "survey 2 of 101, 2026-11-02",
            ),
            (
                visits("rough_in = 2027-03-09, set = 2027-03-08"),
                "the rough-in visit, 2027-03-09,",
                "the setting visit, 2027-03-08",
            ),
            (
                visits("devices = 2027-03-25, inspection = 2027-03-24"),
                "the devices visit, 2027-03-25,",
                "the inspection visit, 2027-03-24",
            ),
        ],
    }
}

#[test]
fn what_is_stated_twice_agrees_or_is_found_with_both_places() {
    let mut cases: Vec<Case> = Vec::new();
    cases.extend(of_surveys());
    cases.extend(of_openings());
    cases.extend(of_hardware());
    cases.extend(of_jobs());
    cases.push(of_days());
    let pairs = CHECKS.iter().filter(|check| matches!(check.over, CheckScope::Pair(_)));
    let (mut walked, mut listed): (Vec<_>, Vec<_>) =
        (pairs.map(|it| it.code.id).collect(), cases.iter().map(|it| it.check.code.id).collect());
    walked.sort_unstable();
    listed.sort_unstable();
    assert_eq!(walked, listed, "every pair has its case");
    for case in &cases {
        let id = case.check.code.id;
        case.passes.iter().for_each(|job| job.passes(case.check));
        for (job, found, asked) in &case.fails {
            let (finding, _) = job.one(case.check);
            assert_eq!((finding.found.as_str(), finding.asked.as_str()), (*found, *asked), "{id}");
            let [one, other] = finding.places.as_slice() else { panic!("{id}: {:#?}", finding.places) };
            assert!(one.place != other.place && !one.says.is_empty() && !other.says.is_empty(), "{id}");
            let remedy = finding.remedy.as_ref().map_or("", |it| &it.text);
            assert!(remedy.contains("; papers use "), "{id}: {remedy}");
        }
    }
}
