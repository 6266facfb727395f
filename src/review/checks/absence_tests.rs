//! Every check of facts left out: openings that state the fact, and openings that do not.
//!
//! In: changed jobs. Out: findings. May not know: prices.

use super::{
    CHECKS, Check, CheckScope, unstated_devices as devices, unstated_leaves as leaves, unstated_wiring as wiring,
};
use crate::review::fixtures::{Fixture, sound, under, with, with_mechanics};

/// A check, jobs that pass it, and jobs that fail it with what lacks the fact.
struct Case {
    check: &'static Check,
    passes: Vec<Fixture>,
    fails: Vec<(Fixture, &'static str)>,
}

const SENSOR: &str = "kind = \"safety sensor\", mount = \"header\"";
const COUNTY: &str = "[jurisdiction.county]\nname = \"County\"\nclause = \"without amendment\"\n";
const READER: &str = "{ kind = \"card reader\", side = \"outside\", mount = \"wall\", by = \"vendor\" }";
const PLATE: &str = "kind = \"push plate\", mount = \"wall\"";
/// The two plates of the sound job, as its kind lists them.
const PLATES: &str = "device = [{ id = \"P1\", kind = \"push plate\", side = \"outside\", mount = \"wall\", link = \"wireless\" }, \
                      { id = \"P2\", kind = \"push plate\", side = \"inside\", mount = \"wall\", link = \"wireless\" }]\n";

fn without_devices() -> Fixture {
    sound().but(PLATES, "")
}

/// A pair of powered leaves, whose devices follow.
fn pair(devices: &str) -> Fixture {
    with(&format!("device = [{devices}]\n[[opening.leaf]]\nhinges = \"left\"\n[[opening.leaf]]\nhinges = \"right\"\n"))
}

/// The sound job with runs, and an item that is taken off by run.
fn wired(runs: &str) -> Fixture {
    with(runs).catalog_and(
        "[item.strap]\nname = \"Strap\"\ngroup = \"support\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
         supplier = \"fenwick\"\nrule = [{ per = \"run\" }]",
    )
}

fn run(from: &str, to: &str, more: &str) -> String {
    format!("[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nkind = \"EMT\"\nlength = \"20 ft\"\n{more}\n")
}

const WIRED: &str = "device = [{ id = \"P1\", kind = \"push plate\", side = \"outside\", mount = \"wall\" }, \
                     { id = \"P2\", kind = \"push plate\", side = \"inside\", mount = \"wall\" }]";

/// Routes that a catalog assumes to headers and devices.
const ROUTES: &str = "[assumed_route.header]\nto = \"header\"\nkind = \"EMT\"\ncarried = \"40 ft\"\nalong = false\n\
    distance = \"4 ft\"\nup = false\nceiling = \"10 ft\"\nbends = []\n\
    [assumed_route.device]\nto = \"device\"\nkind = \"EMT\"\ncarried = \"5 ft\"\nalong = false\ndistance = \"4 ft\"\nup = false\nbends = []\n\
    ceiling = \"10 ft\"\n";

fn cases() -> Vec<Case> {
    let line = run("LP-1", "101", "bends = []\nclass = \"line\"");
    let low = |to: &str, more: &str| run("101", to, &format!("class = \"low\"\n{more}"));
    let to_devices = format!("{}{}", low("101/P1", "bends = []"), low("101/P2", "bends = []"));
    let entrance = |access: &str| {
        under("ibc-2021", &format!("access = {{ public_entrance = true{access} }}\nleaf = {{ powered = false }}"))
    };
    let labeled = |more: &str| wired(&format!("rating = \"90 min\"\nalarm_release = true\n{WIRED}\n{more}"));
    let plenum = |more: &str| {
        wired(&format!(
            "ceiling = {{ return_air = true }}\n{WIRED}\n{line}{}{}",
            low("101/P1", more),
            low("101/P2", more)
        ))
    };
    vec![
        Case {
            check: &devices::ACTIVATION_MISSING,
            passes: vec![
                sound(),
                without_devices().and("energy = \"power assist\""),
                without_devices().and("leaf = { powered = false }"),
            ],
            fails: vec![
                (without_devices(), "101"),
                // What guards does not start.
                (with("device = [{ kind = \"safety sensor\", side = \"inside\", mount = \"leaf\" }]"), "101"),
                (pair(&format!("{{ {PLATE}, side = \"outside\", leaf = 1 }}")), "101 leaf 2"),
            ],
        },
        Case {
            check: &devices::ACTIVATION_ONE_SIDE,
            passes: vec![sound(), without_devices(), with("energy = \"power assist\"")],
            fails: vec![
                (with(&format!("device = [{{ {PLATE}, side = \"outside\" }}]")), "101 inside"),
                (with(&format!("device = [{{ {PLATE}, side = \"inside\" }}]")), "101 outside"),
            ],
        },
        Case {
            check: &devices::CREDENTIAL_UNKNOWN,
            passes: vec![
                sound(),
                with(&format!("device = [{{ {PLATE}, side = \"outside\", live = \"schedule\" }}]")),
                with(&format!("device = [{{ {PLATE}, side = \"outside\", live = \"while unlocked\" }}, {READER}]")),
            ],
            fails: vec![
                (with(&format!("device = [{{ {PLATE}, side = \"outside\", live = \"while unlocked\" }}]")), "101"),
                (with(&format!("device = [{{ {PLATE}, side = \"outside\", live = \"credential window\" }}]")), "101"),
            ],
        },
        // IBC 2021 table 1105.1.1 (a state's copy, read): group E is not in it, so no load is asked.
        Case {
            check: &devices::OCCUPANT_LOAD_UNKNOWN,
            passes: vec![
                entrance(", use_group = \"A-3\", occupant_load = 200"),
                entrance(", use_group = \"E\""),
                under("ada-2010", "access = { public_entrance = true }\nleaf = { powered = false }"),
                under("ibc-2021", "access = { public_entrance = true }"),
            ],
            fails: vec![(entrance(""), "101"), (entrance(", use_group = \"A-3\""), "101")],
        },
        Case {
            check: &devices::REACH_UNLIMITED,
            passes: vec![sound(), under("ada-2010", ""), under("nec-2023", "device = []")],
            fails: vec![(
                under("nec-2023", &format!("device = [{{ {PLATE}, side = \"outside\", height = \"60 in\" }}]")),
                "101",
            )],
        },
        // ANSI/BHMA A156.10 (from memory). The sound leaf swings away, to the inside.
        Case {
            check: &devices::SWING_UNGUARDED,
            passes: vec![
                sound(),
                with("energy = \"full energy\"\ndevice = []"),
                with(&format!("energy = \"full energy\"\ndevice = [{{ {SENSOR}, side = \"inside\" }}]")),
            ],
            fails: vec![(
                with(&format!("energy = \"full energy\"\ndevice = [{{ {SENSOR}, side = \"outside\" }}]")),
                "101 inside",
            )],
        },
        Case {
            check: &devices::JURISDICTION_UNKNOWN,
            passes: vec![
                sound(),
                sound()
                    .catalog_and(COUNTY)
                    .but("profile = \"town\"", "profile = \"town\"\njurisdictions = [\"county\"]"),
            ],
            fails: vec![(sound().catalog_and(COUNTY), "main")],
        },
        Case {
            check: &leaves::OPERATOR_UNKNOWN,
            passes: vec![sound(), with("operator = \"none\"\nleaf = { powered = false }")],
            fails: vec![(sound().but("operator = \"brace-1\"\n", "").and("leaf = { powered = false }"), "101")],
        },
        Case {
            check: &leaves::HANG_UNKNOWN,
            passes: vec![sound(), sound().but("swing = \"away\"\n", "").and("leaf = { powered = false }")],
            fails: vec![
                (sound().but("swing = \"away\"\n", ""), "101"),
                (sound().but("hinges = \"left\"\n", ""), "101"),
            ],
        },
        Case {
            check: &leaves::LATCH_UNKNOWN,
            passes: vec![
                sound(),
                sound().but("latch = \"mortise lock\"\n", "").but("\"electric strike\"", "\"no latch\""),
            ],
            fails: vec![(sound().but("latch = \"mortise lock\"\n", ""), "101")],
        },
        Case {
            check: &leaves::WIRE_CHASE_UNKNOWN,
            passes: vec![sound(), with("leaf = { release = \"electrified lock\", wire_chase = false }")],
            fails: vec![(with("leaf = { release = \"electrified lock\" }"), "101")],
        },
        Case {
            check: &leaves::EXISTING_UNKNOWN,
            passes: vec![
                sound(),
                sound().but("existing = []\n", "").and("access = { existing = false }"),
                sound().but("existing = []\n", "").and("leaf = { powered = false }"),
                with("access = { existing = true }\nleaf = { existing = \"none\" }"),
            ],
            fails: vec![
                (sound().but("existing = []\n", ""), "101"),
                (sound().but("existing = []\n", "").and("access = { existing = true }"), "101"),
            ],
        },
        Case {
            check: &leaves::HIGH_WORK_UNSTATED,
            passes: vec![
                sound(),
                with("ceiling = { height = \"12 ft\" }"),
                with("ceiling = { height = \"13 ft\" }\nconditions = [\"high work\"]"),
            ],
            fails: vec![(with("ceiling = { height = \"13 ft\" }\nconditions = [\"occupied\"]"), "101")],
        },
        Case {
            check: &leaves::ARM_FACTS_MISSING,
            passes: vec![
                with_mechanics(""),
                with_mechanics("mount = \"concealed\"").catalog_but("back = {", "# back = {"),
                sound().but("thickness = \"1 3/4 in\"\n", ""),
            ],
            fails: vec![
                (with_mechanics("").but("thickness = \"1 3/4 in\"\n", ""), "101 thickness"),
                (
                    with_mechanics("").but("reveal = \"3 in\"\n", "").but("hangs = \"butt hinge\"\n", ""),
                    "101 type of hinge and reveal",
                ),
                (with_mechanics("").catalog_but("back = {", "# back = {"), "101 the back of its header"),
                (with_mechanics("").catalog_but("push = {", "# push = {"), "101 the operator's push arm"),
            ],
        },
        Case {
            check: &wiring::PANEL_MISSING,
            passes: vec![
                sound(),
                sound().but("power = { known = \"seen\", panel = \"LP-1\" }", "power = { known = \"none\" }"),
            ],
            fails: vec![(sound().but(", panel = \"LP-1\" }", " }"), "101")],
        },
        Case {
            check: &wiring::LINE_ROUTE_MISSING,
            passes: vec![
                sound(),
                wired(&line),
                wired(&format!(
                    "{}{}",
                    run("LP-1", "J-1", "bends = []\nclass = \"line\""),
                    run("J-1", "101", "bends = []\nclass = \"line\"")
                )),
                wired("power = { known = \"none\" }"),
                wired("leaf = { powered = false }"),
            ],
            fails: vec![(wired(""), "101"), (wired(&run("LP-1", "101", "bends = []\nclass = \"low\"")), "101")],
        },
        Case {
            check: &wiring::ROUTE_ASSUMED,
            passes: vec![sound(), wired(WIRED), wired(&format!("{WIRED}\n{line}{to_devices}")).catalog_and(ROUTES)],
            fails: vec![
                (wired("").catalog_and(ROUTES), "LP-1 to 101"),
                (wired(&format!("{WIRED}\n{line}")).catalog_and(ROUTES), "101 to 101/P1, 101 to 101/P2"),
                (
                    wired(&format!("{WIRED}\n{line}{}", low("101/P2", "bends = []"))).catalog_and(ROUTES),
                    "101 to 101/P1",
                ),
            ],
        },
        Case {
            check: &wiring::DEVICE_ROUTE_MISSING,
            passes: vec![
                sound(),
                with(WIRED),
                wired(&line),
                wired(&format!("{WIRED}\n{line}{to_devices}")),
                wired(&format!("device = [{{ {PLATE}, side = \"outside\", by = \"owner\" }}]\n{line}")),
                wired("device = [{ kind = \"motion sensor\", mount = \"header\", side = \"outside\" }]"),
            ],
            fails: vec![
                (wired(&format!("{WIRED}\n{line}")), "101/P1, 101/P2"),
                (wired(&format!("{WIRED}\n{line}{}", low("101/P2", "bends = []"))), "101/P1"),
            ],
        },
        Case {
            check: &wiring::DEVICE_RUN_LINE,
            passes: vec![wired(&format!("{WIRED}\n{line}{to_devices}")), wired(WIRED)],
            fails: vec![(
                wired(&format!(
                    "{WIRED}\n{line}{}{}",
                    run("101", "101/P1", "bends = []\nclass = \"line\""),
                    low("101/P2", "bends = []")
                )),
                "101/P1",
            )],
        },
        Case {
            check: &wiring::BENDS_UNKNOWN,
            passes: vec![
                wired(&line),
                wired(&run("LP-1", "101", "class = \"line\"").replace("\"EMT\"", "\"open cable\"")),
                with(&run("LP-1", "101", "class = \"line\"")),
            ],
            fails: vec![(wired(&run("LP-1", "101", "class = \"line\"")), "LP-1 to 101")],
        },
        // The sound leaf swings away under a push arm: its header is outside, so a cable to the plate inside goes through.
        Case {
            check: &wiring::RATED_WALLS_UNKNOWN,
            passes: vec![
                wired(&format!("{WIRED}\n{line}{to_devices}")),
                labeled(&format!(
                    "{}{}{}",
                    run("LP-1", "101", "bends = []\nclass = \"line\"\nrated_walls = 0"),
                    low("101/P1", "bends = []"),
                    low("101/P2", "bends = []\nrated_walls = 1")
                )),
            ],
            fails: vec![(labeled(&format!("{line}{to_devices}")), "LP-1 to 101, 101 to 101/P2")],
        },
        // NEC 300.22(C) (secondary).
        Case {
            check: &wiring::PLENUM_UNKNOWN,
            passes: vec![
                wired(&format!("{WIRED}\n{line}{to_devices}")),
                plenum("bends = []\nplenum = true"),
                plenum("bends = []\nwet = true"),
            ],
            fails: vec![(plenum("bends = []"), "101 to 101/P1, 101 to 101/P2")],
        },
        Case {
            check: &wiring::WET_UNKNOWN,
            passes: vec![
                wired(&format!("{WIRED}\n{line}{to_devices}")),
                wired(&format!("exposure = \"exterior\"\n{WIRED}\n{}", low("101/P1", "bends = []\nwet = false"))),
                wired(&format!("exposure = \"exterior\"\n{WIRED}\n{}", low("101/P2", "bends = []"))),
            ],
            fails: vec![
                (wired(&format!("exposure = \"exterior\"\n{WIRED}\n{to_devices}")), "101 to 101/P1"),
                (wired(&line.replace("\"EMT\"", "\"liquid-tight\"")), "LP-1 to 101"),
            ],
        },
    ]
}

#[test]
fn a_fact_left_out_is_reported_once_a_site_with_what_lacks_it() {
    for case in cases() {
        case.passes.iter().for_each(|fixture| fixture.passes(case.check));
        for (fixture, found) in &case.fails {
            assert_eq!(fixture.one(case.check).0.found, *found, "{}", case.check.code.id);
        }
    }
}

#[test]
fn every_check_of_facts_left_out_has_its_case() {
    let tested: Vec<&str> = cases().iter().map(|case| case.check.code.id).collect();
    let checks = CHECKS.iter().filter(|check| matches!(check.over, CheckScope::Absence(_)));
    assert_eq!(tested, checks.map(|check| check.code.id).collect::<Vec<_>>());
}
