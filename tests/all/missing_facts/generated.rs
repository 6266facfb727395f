//! Complete jobs at random: every fact that something asks for is stated, in the job file itself.
//!
//! In: a seed. Out: the files of a job with the demo's catalog. May not know: what it comes to. Invented.

use std::fmt::Write;

use proptest::test_runner::{RngAlgorithm, TestRng};

use crate::counts::below;
use crate::demo;
use crate::one_out::Texts;

/// The job file of every generated job.
pub const JOB: &str = "catalog_demo/generated/job.toml";

const HEAD: &str = r#"[job]
number = "G-1"
name = "Generated doors"
owner = "Owner"
to = "Builder"
due = 2026-12-10T14:00:00
date = 2026-12-08
catalog = ".."
profile = "harrowmere"
jurisdictions = ["plain"]
rules = ["ada-2010", "nec-2023", "nfpa-80-2016", "low-energy"]
terms = "standard"

[site.hall]
name = "Hall"
address = "1 Square"
year = 2015
hazard = "clear"
road = "12 mi"

[panel.LP-1]
site = "hall"
place = "Room 1"
volts = "120 V"
free = 12
known = "seen"
"#;

/// A latch, what lets it go, and whether wires go through the leaf.
const RELEASES: [&str; 3] = [
    "latch = \"no latch\"\nrelease = \"no latch\"\nwire_chase = false",
    "latch = \"mortise lock\"\nrelease = \"electric strike\"\nwire_chase = false",
    "latch = \"cylindrical latch\"\nrelease = \"electrified lock\"\nwire_chase = true",
];

/// The files of a job of one to three openings.
pub fn job(seed: u64) -> Texts {
    let mut bytes = [0; 32];
    bytes[..8].copy_from_slice(&seed.to_le_bytes());
    let mut random = TestRng::from_seed(RngAlgorithm::ChaCha, &bytes);
    let mut text = HEAD.to_owned();
    let openings = 1 + below(&mut random, 3);
    if openings > 1 {
        run(&mut text, ("LP-1", "J-1"), "EMT", 10 + below(&mut random, 60), "class = \"line\"");
    }
    for number in 1..=openings {
        let from = if openings > 1 { "J-1" } else { "LP-1" };
        opening(&mut text, &format!("G10{number}"), from, &mut random);
    }
    let mut texts = demo::texts();
    texts.retain(|path, _| !path.starts_with("catalog_demo/job/"));
    texts.insert(JOB.to_owned(), text);
    texts
}

fn one<'w>(random: &mut TestRng, words: &[&'w str]) -> &'w str {
    words[below(random, words.len() as u64) as usize]
}

fn opening(text: &mut String, mark: &str, from: &str, random: &mut TestRng) {
    let labeled = below(random, 3) == 0;
    let rating = if labeled { "20 min" } else { "none" };
    // A labeled leaf latches.
    let release = RELEASES[if labeled { 1 } else { below(random, 3) as usize }];
    let (hinges, swing) = (one(random, &["left", "right"]), one(random, &["toward", "away"]));
    let (arm, made) = (one(random, &["push arm", "pull arm"]), one(random, &["wood", "hollow metal"]));
    let gauge = if made == "wood" { "" } else { "gauge = 16\n" };
    let (kind, link) = (one(random, &["push plate", "touchless switch"]), one(random, &["wired", "wireless"]));
    let width = 34 + below(random, 9);
    let existing = one(random, &["[]", "[{ what = \"closer\", becomes = \"remove\" }]"]);
    write!(
        text,
        r#"
[[opening]]
mark = "{mark}"
site = "hall"
between = ["Room {mark}", "Corridor"]
outside = "Corridor"
operator = "surf-low"
finish = "clear"
mount = "surface"
headers = "one header"
energy = "low energy"
rating = "{rating}"
alarm_release = {labeled}
exposure = "interior"
power = {{ known = "seen", panel = "LP-1", volts = "120 V" }}
ceiling = {{ kind = "lay-in", return_air = false, height = "9 ft 0 in" }}
template = {{ door = false, frame = false }}
access = {{ existing = true }}
device = [
    {{ id = "P1", kind = "{kind}", side = "outside", mount = "wall", link = "{link}", height = "36 in", distance = "30 in" }},
    {{ id = "P2", kind = "{kind}", side = "inside", mount = "wall", link = "{link}", height = "36 in", distance = "30 in" }},
]

[opening.leaf]
width = "{width} in"
height = "7 ft 0 in"
thickness = "1 3/4 in"
made = "{made}"
{gauge}hangs = "butt hinge"
role = "active"
powered = true
hinges = "{hinges}"
swing = "{swing}"
arm = "{arm}"
opens_to = "90 deg"
stopped_by = "drive"
{release}
existing = {existing}

[opening.frame]
made = "hollow metal"
face = "2 in"
depth = "5 3/4 in"
reveal = "3 in"
head_room = "14 in"
face_clearance = "12 in"
fixed_to = "{}"
"#,
        one(random, &["wood", "masonry"]),
    )
    .expect("a text takes more");
    let walls = if labeled { "\nrated_walls = 1" } else { "" };
    run(text, (from, mark), "EMT", 10 + below(random, 40), &format!("class = \"line\"{walls}"));
    if link == "wired" {
        for device in ["P1", "P2"] {
            let kind = one(random, &["EMT", "open cable"]);
            let ends = (mark, format!("{mark}/{device}"));
            run(text, (ends.0, &ends.1), kind, 8 + below(random, 20), &format!("class = \"low\"{walls}"));
        }
    }
}

fn run(text: &mut String, (from, to): (&str, &str), kind: &str, feet: u64, more: &str) {
    let size = if kind == "EMT" { "size = \"1/2\"\n" } else { "" };
    let run = format!(
        "\n[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nkind = \"{kind}\"\n{size}length = \"{feet} ft\"\nbends = [90]\n{more}\n"
    );
    text.push_str(&run);
}
