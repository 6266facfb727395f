//! The law of the two places: what is stated twice either agrees or is a finding with both places.
//!
//! In: the sound job of one opening, with one of two statements changed. Out: pairs that disagree without a finding, or with one that
//! shows one place alone. The table below lists every pair, whichever room compares it. May not know: how a pair is compared; the rooms'
//! own tests hold what must pass.

use hingewright::findings::{Files, Finding};
use hingewright::pipeline;

const JOB: &str = include_str!("../cases/nothing-wrong/job.toml");
const CATALOG: &str = include_str!("../cases/_catalog/catalog.toml");

/// One change of the job or, where it says so, of the catalog.
enum Edit {
    /// More at the end of the job, which is inside its one opening's table.
    And(&'static str),
    /// Other text in the job.
    But(&'static str, &'static str),
    /// More at the end of the catalog.
    Catalog(&'static str),
    /// Other text in the catalog.
    CatalogBut(&'static str, &'static str),
}
use Edit::{And, But, Catalog, CatalogBut};

/// Two statements of one fact, and what breaks them.
struct Pair {
    /// The two places.
    between: &'static str,
    /// The finding.
    code: &'static str,
    /// Changes after which the two disagree, each set alone.
    breaks: &'static [&'static [Edit]],
}

const SURVEY: &str = "[[survey]]\nopening = \"101\"\npass = 1\nseen = 2026-11-03\nby = \"R. Tallow\"\n";

/// Every pair.
const PAIRS: &[Pair] = &[
    // surveys
    Pair {
        between: "hinges of the survey and of the job",
        code: "hand-surveyed",
        breaks: &[
            &[And(SURVEY), And("leaf = { hinges = \"right\" }")],
            &[And(SURVEY), And("leaf = { hinges = \"left\" }"), But("hinges = \"left\"", "hinges = \"right\"")],
        ],
    },
    Pair {
        between: "the key side, and the room from which a survey looked",
        code: "hand-surveyed",
        breaks: &[&[
            And(SURVEY),
            And("seen_from = \"Street\"\nleaf = { hinges = \"left\", swing = \"away\" }"),
            But("outside = \"Street\"", "outside = \"Lobby\""),
        ]],
    },
    Pair {
        between: "width and height of the survey and of the job",
        code: "survey-differs",
        breaks: &[
            &[And(SURVEY), And("leaf = { width = \"3 ft 4 in\" }")],
            &[And(SURVEY), And("leaf = { height = \"8 ft 0 in\" }")],
            &[
                And(SURVEY),
                And("leaf = { width = \"3 ft 0 in\" }"),
                But("width = \"3 ft 0 in\"", "width = \"3 ft 6 in\""),
            ],
        ],
    },
    Pair {
        between: "two surveys",
        code: "surveys-differ",
        breaks: &[&[
            And(SURVEY),
            And(
                "frame = { reveal = \"3 in\" }\n[[survey]]\nopening = \"101\"\npass = 2\nseen = 2026-12-01\nby = \"R. Tallow\"\nframe = { reveal = \"4 in\" }",
            ),
        ]],
    },
    // hands
    Pair {
        between: "the hand typed, and hinges and swing",
        code: "hand-contradicts",
        breaks: &[&[And("leaf = { hand = \"RH\" }")], &[But("hinges = \"left\"", "hand = \"LH\"\nhinges = \"right\"")]],
    },
    Pair {
        between: "hinges of both leaves of a pair",
        code: "leaves-hinged-alike",
        breaks: &[&[And("leaf = [{ hinges = \"left\" }, { hinges = \"left\" }]")]],
    },
    Pair {
        between: "a part of one hand, and the drive that it serves",
        code: "wrong-end",
        breaks: &[&[Catalog(
            "[item.carton]\nname = \"Carton\"\ngroup = \"bracket\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\nend = \"right\"\nrule = [{ per = \"header\" }]",
        )]],
    },
    // vestibules
    Pair {
        between: "partners of a vestibule",
        code: "partner-one-sided",
        breaks: &[&[And(
            "vestibule = { partner = \"102\" }\n[[opening]]\nmark = \"102\"\nkind = \"plain\"\nvestibule = { partner = \"103\" }\n\
             [[opening]]\nmark = \"103\"\nkind = \"plain\"",
        )]],
    },
    Pair {
        between: "distance of both doors of a vestibule",
        code: "vestibule-distance",
        breaks: &[&[And(
            "vestibule = { partner = \"102\", distance = \"8 ft 0 in\" }\n[[opening]]\nmark = \"102\"\nkind = \"plain\"\n\
             vestibule = { partner = \"101\", distance = \"7 ft 0 in\" }",
        )]],
    },
    Pair {
        between: "locked line of both doors of a vestibule",
        code: "vestibule-locked",
        breaks: &[&[And(
            "vestibule = { partner = \"102\", locked = \"here\" }\n[[opening]]\nmark = \"102\"\nkind = \"plain\"\n\
             vestibule = { partner = \"101\", locked = \"here\" }",
        )]],
    },
    // power
    Pair {
        between: "volts of circuit and operator",
        code: "volts-mismatch",
        breaks: &[
            &[And("power = { volts = \"208 V\" }")],
            &[And("power = { volts = \"120 V\" }"), CatalogBut("volts = \"120 V\"", "volts = \"208 V\"")],
        ],
    },
    Pair {
        between: "volts of panel and circuit",
        code: "panel-volts",
        breaks: &[
            &[But("free = 4", "free = 4\nvolts = \"277 V\"")],
            &[But("free = 4", "free = 4\nvolts = \"120 V\""), And("power = { volts = \"277 V\" }")],
        ],
    },
    Pair {
        between: "site of opening and panel",
        code: "panel-elsewhere",
        breaks: &[&[
            But("[panel.LP-1]", "[site.annex]\nname = \"Annex\"\naddress = \"40 Mill Lane\"\n\n[panel.LP-1]"),
            And("site = \"annex\""),
        ]],
    },
    Pair {
        between: "volts, amps and weight of operator and drive",
        code: "drive-differs",
        breaks: &[
            &[CatalogBut("[item.drive]", "[item.drive]\nelectric = { volts = \"120 V\", amps = \"2.4 A\" }")],
            &[CatalogBut("[item.drive]", "[item.drive]\nelectric = { volts = \"208 V\", amps = \"1.8 A\" }")],
            &[
                CatalogBut("[item.drive]", "[item.drive]\nelectric = { volts = \"120 V\", amps = \"1.8 A\" }"),
                CatalogBut("amps = \"1.8 A\"\npeak", "amps = \"1.6 A\"\npeak"),
            ],
        ],
    },
    Pair {
        between: "volts of a supply and of what it feeds",
        code: "low-volts-differ",
        breaks: &[&[
            CatalogBut("arm_screws = 4", "arm_screws = 4\naccessory_amps = \"1 A\"\naccessory_volts = \"24 V\""),
            Catalog(
                "[item.strike]\nname = \"Strike\"\ngroup = \"latch release\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
                 supplier = \"fenwick\"\nelectric = { volts = \"12 V\", amps = \"0.2 A\" }\nrule = [{ per = \"powered leaf\" }]",
            ),
        ]],
    },
    // hardware that is there
    Pair {
        between: "latch and latch that stays",
        code: "existing-latch",
        breaks: &[
            &[And("leaf = { existing = [{ what = \"rim exit device\", becomes = \"reuse\" }] }")],
            &[
                And("leaf = { existing = [{ what = \"mortise lock\", becomes = \"reuse\" }] }"),
                But("latch = \"mortise lock\"", "latch = \"cylindrical latch\""),
            ],
        ],
    },
    Pair {
        between: "release and release that stays",
        code: "existing-release",
        breaks: &[
            &[And("leaf = { existing = [{ what = \"electrified lock\", becomes = \"reuse\" }] }")],
            &[
                And("leaf = { existing = [{ what = \"electric strike\", becomes = \"reuse\" }] }"),
                But("release = \"electric strike\"", "release = \"electrified lock\""),
            ],
        ],
    },
    Pair {
        between: "hardware that stays, and the rules of the catalog",
        code: "bought-again",
        breaks: &[&[
            And("leaf = { existing = [{ what = \"electric strike\", becomes = \"reuse\" }] }"),
            Catalog(
                "[item.strike]\nname = \"Strike\"\ngroup = \"latch release\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
                 supplier = \"fenwick\"\nrule = [{ per = \"powered leaf\" }]",
            ),
        ]],
    },
    Pair {
        between: "a circuit that is joined, and what its panel says of it",
        code: "circuit-forbidden",
        breaks: &[&[
            And("power = { circuit = \"9\" }"),
            And("[[panel.LP-1.circuit]]\nnumber = \"9\"\nforbidden = \"lighting of an exit route\""),
        ]],
    },
    // fasteners
    Pair {
        between: "the operator's kit, and the rules of fasteners",
        code: "kit-doubled",
        breaks: &[&[
            CatalogBut(
                "arm_screws = 4",
                "arm_screws = 4\nheader_kit = [{ into = \"wood\", name = \"screw\", count = 8 }]",
            ),
            Catalog(
                "[item.screw]\nname = \"Screw\"\ngroup = \"fastener\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
                 supplier = \"fenwick\"\nrule = [{ per = \"fixing\", when = 'fixing.of = \"header\"', quantity = \"8\" }]",
            ),
        ]],
    },
    // measures
    Pair {
        between: "clear width and leaf",
        code: "clear-width-wide",
        breaks: &[&[And("access = { clear_width = \"38 in\" }")]],
    },
    // runs
    Pair {
        between: "the ends of two runs",
        code: "run-doubled",
        breaks: &[&[And(
            "[[run]]\nfrom = \"LP-1\"\nto = \"101\"\nkind = \"EMT\"\nlength = \"20 ft\"\nbends = []\nclass = \"line\"\n\
             [[run]]\nfrom = \"101\"\nto = \"LP-1\"\nkind = \"EMT\"\nlength = \"20 ft\"\nbends = []\nclass = \"line\"",
        )]],
    },
    Pair {
        between: "the sites of both ends of a run",
        code: "run-elsewhere",
        breaks: &[&[
            But("[panel.LP-1]", "[site.annex]\nname = \"Annex\"\naddress = \"40 Mill Lane\"\n\n[panel.LP-1]"),
            And(
                "[[opening]]\nmark = \"102\"\nkind = \"plain\"\nsite = \"annex\"\n[[run]]\nfrom = \"LP-1\"\nto = \"102\"\n\
                 kind = \"EMT\"\nlength = \"20 ft\"\nclass = \"line\"",
            ),
        ]],
    },
    Pair {
        between: "the class of a run and its panel",
        code: "run-class-panel",
        breaks: &[&[And(
            "[[run]]\nfrom = \"LP-1\"\nto = \"101\"\nkind = \"EMT\"\nlength = \"20 ft\"\nclass = \"low\"",
        )]],
    },
    // the bid
    Pair {
        between: "an alternate and the base bid",
        code: "alternate-idle",
        breaks: &[&[And("[[alternate]]\nnumber = \"1\"\ntitle = \"One\"\nadds = [\"101\"]")]],
    },
    Pair {
        between: "openings of the base bid and of alternates",
        code: "opening-unpriced",
        breaks: &[&[And("[[opening]]\nmark = \"102\"\nkind = \"plain\"\nbase = false")]],
    },
    Pair {
        between: "plate heights of two jurisdictions",
        code: "plate-heights-differ",
        breaks: &[&[
            But("profile = \"town\"", "profile = \"town\"\njurisdictions = [\"county\", \"state\"]"),
            Catalog(
                "[jurisdiction.county]\nname = \"County\"\nclause = \"1\"\nplate_heights = [\"36 in\"]\n\
                 [jurisdiction.state]\nname = \"State\"\nclause = \"1\"\nplate_heights = [\"10 in\"]",
            ),
        ]],
    },
    Pair {
        between: "addresses of two sites",
        code: "site-twice",
        breaks: &[&[But("[panel.LP-1]", "[site.annex]\nname = \"Annex\"\naddress = \"12 Alder Row\"\n\n[panel.LP-1]")]],
    },
    Pair {
        between: "two quotes of one item",
        code: "two-quotes",
        breaks: &[&[And(
            "[[quote]]\nitem = \"header\"\nsupplier = \"Fenwick\"\nprice = \"1.00\"\ndate = 2026-11-20\nvalid_to = 2027-02-20\n\
             [[quote]]\nitem = \"header\"\nsupplier = \"Fenwick\"\nprice = \"2.00\"\ndate = 2026-11-20\nvalid_to = 2027-02-20",
        )]],
    },
    // days
    Pair {
        between: "the date of the papers and the day that the bid is due",
        code: "dated-after-due",
        breaks: &[&[But("date = 2026-12-08", "date = 2026-12-18")], &[But("due = 2026-12-10", "due = 2026-12-01")]],
    },
    Pair {
        between: "the last days of a quote and of the bid",
        code: "quote-expired",
        breaks: &[&[
            But("profile = \"town\"", "profile = \"town\"\nvalid_days = 60"),
            And(
                "[[quote]]\nitem = \"header\"\nsupplier = \"Fenwick\"\nprice = \"1.00\"\ndate = 2026-11-20\nvalid_to = 2027-01-20",
            ),
        ]],
    },
    Pair {
        between: "days of addenda, documents, quotes, surveys and visits, and those that they come before",
        code: "days-out-of-order",
        breaks: &[
            &[And("[[addendum]]\nnumber = \"1\"\ndate = 2027-11-12")],
            &[And("[[document]]\nnumber = \"A-1\"\ntitle = \"Doors\"\ndate = 2027-01-12")],
            &[And(SURVEY), But("date = 2026-12-08", "date = 2026-11-01")],
            &[But("year = 1998", "year = 1998\ndays = { rough_in = 2027-03-09, set = 2027-03-08 }")],
        ],
    },
    Pair {
        between: "days of a round and of the papers",
        code: "round-ahead",
        breaks: &[&[
            But("profile = \"town\"", "profile = \"town\"\nsection = \"08 71 13\""),
            And(
                "[[submittal]]\nid = \"schedule\"\ntitle = \"Schedule\"\nparts = [\"schedule\"]\n[[transmittal]]\nsubmittal = \"schedule\"\n\
                 section = \"08 71 13\"\nnumber = \"1\"\nround = [{ revision = \"A\", sent = 2027-01-08 }]",
            ),
        ]],
    },
];

fn found(edits: &[Edit]) -> Vec<Finding> {
    let (mut job, mut catalog) = (JOB.to_owned(), CATALOG.to_owned());
    let change = |text: &mut String, from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        *text = text.replacen(from, to, 1);
    };
    for edit in edits {
        match edit {
            And(more) => job += &format!("\n{more}\n"),
            Catalog(more) => catalog += &format!("\n{more}\n"),
            But(from, to) => change(&mut job, from, to),
            CatalogBut(from, to) => change(&mut catalog, from, to),
        }
    }
    let texts = [("cases/a/job.toml", job), ("cases/_catalog/catalog.toml", catalog)];
    let files = Files::new(texts.map(|(path, text)| (path.to_owned(), text.into_bytes())));
    pipeline::check(&files, "cases/a/job.toml").iter().cloned().collect()
}

#[test]
fn what_is_stated_twice_agrees_or_is_a_finding_with_both_places() {
    let mut faults = Vec::new();
    let whole: Vec<&str> = found(&[]).iter().map(|it| it.code.id).collect();
    for pair in PAIRS {
        if whole.contains(&pair.code) {
            faults.push(format!("{}: found in the sound job", pair.between));
        }
        for (at, edits) in pair.breaks.iter().enumerate() {
            let all = found(edits);
            let of_it: Vec<&Finding> = all.iter().filter(|it| it.code.id == pair.code).collect();
            let two = of_it.iter().all(|it| it.places.iter().any(|other| Some(&other.place) != it.place()));
            if of_it.is_empty() || !two {
                let codes: Vec<&str> = all.iter().map(|it| it.code.id).collect();
                faults.push(format!("{}, {}: {of_it:#?} among {codes:?}", pair.between, at + 1));
            }
        }
    }
    assert!(PAIRS.len() >= 28, "{}", PAIRS.len());
    assert!(faults.is_empty(), "{} of {}:\n{}", faults.len(), PAIRS.len(), faults.join("\n"));
}
