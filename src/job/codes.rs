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
/// The papers that tell what was submitted and whether it is approved.
pub const SUBMITTED: Papers = Papers::of(&[Paper::Packet, Paper::Register]);

codes! {
    /// A file that the job names is not there.
    NO_FILE = "no-file", Papers::ALL,
        "there is no file `{found}`",
        "The content of the file would be missing from every paper.",
        "openings = \"opennings.csv\"";
    /// No opening at all.
    NO_OPENINGS = "no-openings", OPENING,
        "the job has no openings",
        "Without openings there is nothing to take off.",
        "[job]   # and neither [[opening]] nor openings = \"…\"";
    /// An opening without a mark.
    MISSING_MARK = "missing-mark", OPENING,
        "an opening has no mark",
        "Papers, survey records and runs refer to an opening by its mark.",
        "[[opening]]\nkind = \"lobby-single\"";
    /// A paragraph that is not answered, or twice.
    PARAGRAPH_ANSWER = "paragraph-answer", Papers::of(&[Paper::Submittal]),
        "a paragraph of the specification has {found}",
        "Each paragraph is answered by hand, or by a condition that is checked on the job; with two answers it \
          is not clear which one is submitted.",
        "[[paragraph]]\nnumber = \"2.2.A\"\nasks = \"Headers no higher than 6 in.\"";
    /// Two openings of one mark.
    DUPLICATE_MARK = "duplicate-mark", OPENING,
        "two openings have the mark `{found}`",
        "Two openings with one mark cannot be distinguished on any paper.",
        "[[opening]]\nmark = \"101A\"\n\n[[opening]]\nmark = \"101A\"";
    /// Two marks that differ in capitals alone.
    MARK_ALIKE = "mark-alike", Papers::NONE,
        "the marks {found} differ in capitals only",
        "Read over the telephone, stencilled on a carton or sorted by a spreadsheet the two are one opening.",
        "[[opening]]\nmark = \"101A\"\n\n[[opening]]\nmark = \"101a\"";
    /// Two entries of one number.
    DUPLICATE_NUMBER = "duplicate-id", PRICE,
        "two entries have the number `{found}`",
        "A bid form lists alternates, unit prices and allowances by number.",
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
        "A wrong finish is a reorder.",
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
        "Overhead, profit, taxes and bond are in the terms.",
        "terms = \"standrad\"";
    /// An item is not there.
    UNKNOWN_ITEM = "unknown-item", PRICE,
        "there is no item `{found}` in the catalog",
        "A quote or a unit price for an item that does not exist has no effect, and an addendum marks no line by it.",
        "[[quote]]\nitem = \"headr\"";
    /// A task is not there.
    UNKNOWN_TASK = "unknown-task", PRICE,
        "there is no task `{found}` in the catalog",
        "Labor of a task that does not exist prices nothing.",
        "part = [{ task = \"hagn\", quantity = \"1\" }]";
    /// An opening is not there.
    UNKNOWN_OPENING = "unknown-opening", OPENING,
        "there is no opening `{found}` in the job",
        "A survey record, an alternate or a reason without its opening has no effect.",
        "[[set_aside]]\nopening = \"999\"\nreason = \"…\"";
    /// The partner of a vestibule is not there.
    PARTNER_MISSING = "partner-missing", OPENING,
        "the vestibule's other door `{found}` is not in the job",
        "The sequence of two doors, and the time between them, depend on both.",
        "vestibule = { partner = \"101Z\" }";
    /// Outside is none of the two rooms.
    ROOM_UNKNOWN = "room-unknown", OPENING,
        "`{found}` is none of the two rooms of the opening",
        "The hand is read from the outside; it must be one of the two rooms.",
        "between = [\"Lobby\", \"Street\"]\noutside = \"Strete\"";
    /// Not two rooms.
    ROOMS_COUNT = "rooms-count", OPENING,
        "an opening lies between two rooms; this one has {found}",
        "Header, devices and signs are located by room.",
        "between = [\"Lobby\"]";
    /// A run that ends nowhere.
    RUN_END_UNKNOWN = "run-end-unknown", OPENING,
        "a run ends at `{found}`, which is neither a panel, an opening, a device nor the end of another run",
        "What a run carries is followed from end to end.",
        "[[run]]\nfrom = \"LP-1\"\nto = \"101X\"";
    /// A run without a site.
    RUN_SITE = "run-site", OPENING,
        "a run belongs to no site: neither `{found}` gives one",
        "Raceway is installed on a visit to a site.",
        "[[run]]\nfrom = \"box A\"\nto = \"box B\"";
    /// A size that no door has.
    IMPOSSIBLE_SIZE = "impossible-size", OPENING,
        "{found} is not a {asked}",
        "A slip of a digit or a unit in a dimension orders the wrong part.",
        "leaf = { width = \"36 ft\" }";
    /// A quantity that does not fit.
    PART_MISFIT = "part-misfit", PRICE,
        "`{found}` is not a quantity of {asked}",
        "A unit price is computed from quantities in the units of its items and tasks.",
        "part = [{ item = \"emt-half\", quantity = \"1 each\" }]";
    /// A unit price part that names no one thing.
    PART_TARGET = "part-target", PRICE,
        "a part of a unit price is one item or one task; this one has {found}",
        "Without exactly one there is nothing to price.",
        "part = [{ quantity = \"1\" }]";
    /// The same item quoted twice.
    TWO_QUOTES = "two-quotes", PRICE,
        "item `{found}` is quoted twice",
        "One quote replaces the catalog price; two contradict each other.",
        "[[quote]]\nitem = \"header\"\n\n[[quote]]\nitem = \"header\"";
    /// Both ways of listing.
    TWO_TABLES = "two-tables", OPENING,
        "openings are in the job file and in a table as well",
        "One place for openings keeps their order and marks clear.",
        "openings = \"openings.csv\"\n\n[[opening]]";
    /// A submittal is not there.
    UNKNOWN_SUBMITTAL = "unknown-submittal", SUBMITTED,
        "there is no submittal `{found}` in the job",
        "Approval is by submittal; a transmittal without one approves nothing.",
        "[[transmittal]]\nsubmittal = \"shedule\"\nsection = \"08 71 13\"\nnumber = \"1\"";
    /// A section is not there.
    UNKNOWN_SECTION = "unknown-section", SUBMITTED,
        "there is no section `{found}` in the job",
        "A transmittal is for one section of the project manual; a wrong section is the usual reason for its return.",
        "[[transmittal]]\nsubmittal = \"schedule\"\nsection = \"08 71 31\"\nnumber = \"1\"";
    /// Submittals without a section to send them under.
    NO_SECTION = "no-section", SUBMITTED,
        "the job has submittals and no section of its own",
        "A reviewer files by section; a package without one is returned.",
        "[job]   # without section = \"08 71 13\"\n\n[[submittal]]\nid = \"schedule\"";
    /// A section twice.
    SECTION_TWICE = "section-twice", SUBMITTED,
        "section `{found}` is described twice",
        "With two titles of one section it is not clear which one is printed.",
        "[[section]]\nnumber = \"26 05 33\"\n\n[[section]]\nnumber = \"26 05 33\"";
    /// A group of two sections, or of one twice.
    GROUP_TWICE = "group-twice", SUBMITTED,
        "the group `{found}` is listed twice in sections",
        "A transmittal is for one section; a group in two would be submitted twice or not at all.",
        "[[section]]\nnumber = \"26 05 33\"\ngroups = [\"box\"]\n\n[[section]]\nnumber = \"26 05 00\"\ngroups = [\"box\"]";
    /// A submittal twice.
    SUBMITTAL_TWICE = "submittal-twice", SUBMITTED,
        "two submittals have the id `{found}`",
        "Transmittals refer to a submittal by its id.",
        "[[submittal]]\nid = \"schedule\"\n\n[[submittal]]\nid = \"schedule\"";
    /// A part of two submittals, or of one twice.
    PART_TWICE = "part-twice", SUBMITTED,
        "`{found}` is listed twice in the parts of submittals",
        "A part that is sent twice may be approved once and rejected once.",
        "[[submittal]]\nid = \"a\"\nparts = [\"warranty\"]\n\n[[submittal]]\nid = \"b\"\nparts = [\"warranty\"]";
    /// Submittals that wait for each other.
    SUBMITTAL_RING = "submittal-ring", SUBMITTED,
        "submittals wait for each other: {found}",
        "None of them could ever be sent.",
        "[[submittal]]\nid = \"a\"\nafter = \"b\"\n\n[[submittal]]\nid = \"b\"\nafter = \"a\"";
    /// Two transmittals of one number.
    TRANSMITTAL_NUMBER_TWICE = "transmittal-number-twice", SUBMITTED,
        "two transmittals of section {asked} have the number `{found}`",
        "The reviewer files and returns by section and number.",
        "[[transmittal]]\nsection = \"08 71 13\"\nnumber = \"1\"\n\n[[transmittal]]\nsection = \"08 71 13\"\nnumber = \"1\"";
    /// Two transmittals of one thing.
    TWO_TRANSMITTALS = "two-transmittals", SUBMITTED,
        "submittal `{found}` has two transmittals under section {asked}",
        "A resubmittal is a round of the same transmittal, so that its history is in one place.",
        "[[transmittal]]\nsubmittal = \"schedule\"\nsection = \"08 71 13\"\nnumber = \"1\"\n\n[[transmittal]]\nsubmittal = \"schedule\"\nsection = \"08 71 13\"\nnumber = \"2\"";
    /// A disposition is not there.
    UNKNOWN_DISPOSITION = "unknown-disposition", SUBMITTED,
        "the owner's profile has no disposition `{found}`",
        "The profile defines which of the reviewer's words are an approval.",
        "round = [{ revision = \"A\", sent = 2026-12-21, back = 2027-01-08, disposition = \"aproved\" }]";
    /// A round that is answered by half.
    ROUND_HALF_ANSWERED = "round-half-answered", SUBMITTED,
        "a round has {found} and no {asked}",
        "A returned submittal has a date and a disposition; with one only it is not clear whether it was returned.",
        "round = [{ revision = \"A\", sent = 2026-12-21, back = 2027-01-08 }]";
    /// A round sent before the one before it came back.
    ROUND_UNANSWERED = "round-unanswered", SUBMITTED,
        "a round has no return, although another follows",
        "A resubmittal follows a return; the return of the round before is missing.",
        "round = [{ revision = \"A\", sent = 2026-12-21 }, { revision = \"B\", sent = 2027-01-20 }]";
    /// Days that run backward.
    ROUND_DAYS = "round-days", SUBMITTED,
        "{found} comes before {asked}",
        "A wrong date moves every date that is counted from it.",
        "round = [{ revision = \"A\", sent = 2026-12-21, back = 2026-01-08, disposition = \"rejected\" }]";
    /// A day that has not come.
    ROUND_AHEAD = "round-ahead", Papers::NONE,
        "a round was {found}, after the date of the papers, {asked}",
        "Papers cannot report a date after their own; one of the two dates is wrong.",
        "[job]\ndate = 2026-12-08\n\n[[transmittal.round]]\nsent = 2026-12-21";
    /// Sent before its time.
    SENT_TOO_EARLY = "sent-too-early", Papers::NONE,
        "the transmittal was sent on {found}, before {asked}",
        "Wiring drawn before approval of the schedule may have to be redrawn; a reviewer may return it unread.",
        "[[submittal]]\nid = \"wiring\"\nafter = \"schedule\"   # and sent first";
}
