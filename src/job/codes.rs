//! Codes of findings that the job raises.
//!
//! In: nothing. Out: codes. May not know: any one finding.

use crate::findings::{Code, Paper, Papers, Severity};

macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $id:literal, $blocks:expr, $says:literal, $why:literal, $example:literal;)*) => {
        $(
            $(#[$doc])*
            pub static $name: Code = Code {
                id: $id,
                severity: severity($blocks),
                says: $says,
                why: $why,
                example: $example,
                blocks: $blocks,
            };
        )*

        /// The codes of this room.
        pub static CODES: &[&Code] = &[$(&$name),*];
    };
}

/// What holds no paper is a warning.
const fn severity(blocks: Papers) -> Severity {
    if blocks.is_empty() { Severity::Warning } else { Severity::Error }
}

/// The papers that hold what an opening is and costs.
const OPENING: Papers = Papers::of(&[Paper::Bid, Paper::Recap, Paper::Schedule, Paper::Packet]);
/// The papers that hold prices.
const PRICE: Papers = Papers::of(&[Paper::Bid, Paper::Recap]);

codes! {
    /// A file that the job names is not there.
    NO_FILE = "no-file", Papers::ALL,
        "there is no file `{found}`",
        "What the file holds would be missing from every paper.",
        "openings = \"opennings.csv\"";
    /// No opening at all.
    NO_OPENINGS = "no-openings", OPENING,
        "the job has no openings",
        "Without openings there is nothing to take off.",
        "[job]   # and neither [[opening]] nor openings = \"…\"";
    /// An opening without a mark.
    MISSING_MARK = "missing-mark", OPENING,
        "an opening has no mark",
        "Papers, survey records and runs speak of an opening by its mark.",
        "[[opening]]\nkind = \"lobby-single\"";
    /// Two openings of one mark.
    DUPLICATE_MARK = "duplicate-mark", OPENING,
        "two openings are marked `{found}`",
        "Two openings of one mark cannot be told apart on any paper.",
        "[[opening]]\nmark = \"101A\"\n\n[[opening]]\nmark = \"101A\"";
    /// Two marks that differ in capitals alone.
    MARK_ALIKE = "mark-alike", Papers::NONE,
        "the marks {found} differ in capitals alone",
        "Read over the telephone, stencilled on a carton or sorted by a spreadsheet the two are one opening.",
        "[[opening]]\nmark = \"101A\"\n\n[[opening]]\nmark = \"101a\"";
    /// Two entries of one number.
    DUPLICATE_NUMBER = "duplicate-id", PRICE,
        "two entries are numbered `{found}`",
        "A bid form names alternates, unit prices and allowances by number.",
        "[[alternate]]\nnumber = \"1\"\n\n[[alternate]]\nnumber = \"1\"";
    /// A site is not there.
    UNKNOWN_SITE = "unknown-site", OPENING,
        "there is no site `{found}` in the job",
        "Visits, travel and packets go by site.",
        "[[opening]]\nmark = \"101A\"\nsite = \"mian\"";
    /// An opening without a site.
    MISSING_SITE = "missing-site", OPENING,
        "opening `{found}` belongs to no site",
        "Visits, travel and packets go by site.",
        "[[opening]]\nmark = \"101A\"";
    /// An operator is not there.
    UNKNOWN_OPERATOR = "unknown-operator", OPENING,
        "there is no operator `{found}` in the catalog",
        "Header, drives, arms and cartons come from the operator.",
        "operator = \"brase-2\"";
    /// A finish is not there.
    UNKNOWN_FINISH = "unknown-finish", OPENING,
        "there is no finish `{found}` in the catalog",
        "A wrong finish is a re-order.",
        "finish = \"claer\"";
    /// A panel is not there.
    UNKNOWN_PANEL = "unknown-panel", OPENING,
        "there is no panel `{found}` in the job",
        "The electrician goes to a panel; circuits and spaces are counted there.",
        "power = { panel = \"LP-9\" }";
    /// A profile is not there.
    UNKNOWN_PROFILE = "unknown-profile", Papers::ALL,
        "there is no owner's profile `{found}` in the catalog",
        "Warranty, raceway, circuits and tax follow the owner's profile.",
        "profile = \"twon\"";
    /// A jurisdiction is not there.
    UNKNOWN_JURISDICTION = "unknown-jurisdiction", OPENING,
        "there is no jurisdiction `{found}` in the catalog",
        "A jurisdiction changes quantities; one that is not found changes nothing.",
        "jurisdictions = [\"two-plate\"]";
    /// Terms are not there.
    UNKNOWN_TERMS = "unknown-terms", PRICE,
        "there are no terms of price `{found}` in the catalog",
        "Overhead, profit, taxes and bond stand in the terms.",
        "terms = \"standrad\"";
    /// An item is not there.
    UNKNOWN_ITEM = "unknown-item", PRICE,
        "there is no item `{found}` in the catalog",
        "A quote or a unit price for an item that does not exist prices nothing; an addendum marks no line by it.",
        "[[quote]]\nitem = \"headr\"";
    /// A task is not there.
    UNKNOWN_TASK = "unknown-task", PRICE,
        "there is no task `{found}` in the catalog",
        "Labor of a task that does not exist prices nothing.",
        "part = [{ task = \"hagn\", quantity = \"1\" }]";
    /// An opening is not there.
    UNKNOWN_OPENING = "unknown-opening", OPENING,
        "there is no opening `{found}` in the job",
        "A survey record, an alternate or a reason that speaks of no opening is lost.",
        "[[set_aside]]\nopening = \"999\"\nreason = \"…\"";
    /// The partner of a vestibule is not there.
    PARTNER_MISSING = "partner-missing", OPENING,
        "the vestibule's other door `{found}` is not in the job",
        "The order of two doors, and the time between them, hang on both.",
        "vestibule = { partner = \"101Z\" }";
    /// Outside is none of the two rooms.
    ROOM_UNKNOWN = "room-unknown", OPENING,
        "`{found}` is none of the two rooms of the opening",
        "The hand is read from the outside; it must be one of the two rooms.",
        "between = [\"Lobby\", \"Street\"]\noutside = \"Strete\"";
    /// Not two rooms.
    ROOMS_COUNT = "rooms-count", OPENING,
        "an opening lies between two rooms; this one has {found}",
        "Header, devices and signs are told apart by room.",
        "between = [\"Lobby\"]";
    /// A run that ends nowhere.
    RUN_END_UNKNOWN = "run-end-unknown", OPENING,
        "a run ends at `{found}`, which is neither a panel, an opening, a device nor the end of another run",
        "What a run carries is followed from end to end.",
        "[[run]]\nfrom = \"LP-1\"\nto = \"101X\"";
    /// A run without a site.
    RUN_SITE = "run-site", OPENING,
        "a run belongs to no site: neither `{found}` tells it",
        "Raceway is installed on a visit to a site.",
        "[[run]]\nfrom = \"box A\"\nto = \"box B\"";
    /// A size that no door has.
    IMPOSSIBLE_SIZE = "impossible-size", OPENING,
        "{found} is no {asked}",
        "A slip of a digit or a unit in a dimension orders the wrong part.",
        "leaf = { width = \"36 ft\" }";
    /// A quantity that does not fit.
    PART_MISFIT = "part-misfit", PRICE,
        "`{found}` is not a quantity of {asked}",
        "A unit price is computed from quantities in the units of its items and tasks.",
        "part = [{ item = \"emt-half\", quantity = \"1 each\" }]";
    /// A unit price part that names no one thing.
    PART_TARGET = "part-target", PRICE,
        "a part of a unit price is one item or one task; this one names {found}",
        "Without exactly one there is nothing to price.",
        "part = [{ quantity = \"1\" }]";
    /// The same item quoted twice.
    TWO_QUOTES = "two-quotes", PRICE,
        "item `{found}` is quoted twice",
        "One price stands instead of the catalog's; two do not.",
        "[[quote]]\nitem = \"header\"\n\n[[quote]]\nitem = \"header\"";
    /// Both ways of listing.
    TWO_TABLES = "two-tables", OPENING,
        "openings stand in the job file and in a table as well",
        "One place for openings keeps their order and their marks plain.",
        "openings = \"openings.csv\"\n\n[[opening]]";
}
