//! Codes of findings that the catalog raises.
//!
//! In: nothing. Out: codes. May not know: any one finding.

use crate::findings::{Code, Paper, Papers, Severity};

/// What is said of terminals stands on the drawings, which go out with submittals.
const OF_TERMINALS: Papers = Papers::of(&[Paper::Drawings, Paper::Submittal]);

/// The papers that a code holds: those it names, or all.
macro_rules! held {
    () => {
        Papers::ALL
    };
    ($held:expr) => {
        $held
    };
}

macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $id:literal, $says:literal, $why:literal, $example:literal $(, holds $held:expr)?;)*) => {
        $(
            $(#[$doc])*
            pub static $name: Code = Code {
                id: $id,
                severity: Severity::Error,
                says: $says,
                why: $why,
                example: $example,
                blocks: held!($($held)?),
            };
        )*

        /// The codes of this room.
        pub static CODES: &[&Code] = &[$(&$name),*];
    };
}

codes! {
    /// The folder holds no catalog.
    NO_CATALOG = "no-catalog",
        "there is no catalog in `{found}`",
        "Items, tasks, rates and rules are in the catalog; without one there is no takeoff and no price.",
        "catalog = \"catalogue\"   # the folder is called catalog";
    /// An item is not there.
    UNKNOWN_ITEM = "unknown-item",
        "there is no item `{found}` in the catalog",
        "A rule for an item that does not exist would leave it out of the price.",
        "[[task.hang.rule]]\nitem = \"headr\"";
    /// A task is not there.
    UNKNOWN_TASK = "unknown-task",
        "there is no task `{found}` in the catalog",
        "Labor of a task that does not exist would be missing from the price.",
        "[[rule]]\nper = \"header\"\ntask = \"hagn\"";
    /// A trade is not there.
    UNKNOWN_TRADE = "unknown-trade",
        "there is no trade `{found}` in the catalog",
        "Hours of a trade that has no wage cannot be priced.",
        "[task.hang]\ntrade = \"instaler\"";
    /// A supplier is not there.
    UNKNOWN_SUPPLIER = "unknown-supplier",
        "there is no supplier `{found}` in the catalog",
        "An item without a supplier cannot be ordered, and its freight is not known.",
        "[item.header]\nsupplier = \"fenwik\"";
    /// A party is not there.
    UNKNOWN_PARTY = "unknown-party",
        "there is no party `{found}` in the catalog",
        "A row of the matrix without a party leaves a gap in the scope.",
        "[responsibility.circuit]\nfurnish = \"electrican\"";
    /// A fact is not there.
    UNKNOWN_FACT = "unknown-fact",
        "there is no fact `{found}` here",
        "A column of a fact that does not exist stays empty on every line.",
        "[need.backing]\nper = \"header\"\ntell = [{ head = \"Width\", fact = \"header.leafwidth\" }]";
    /// A row of the settings sheet is not there.
    UNKNOWN_SETTING = "unknown-setting",
        "there is no setting `{found}` in the catalog",
        "A value for a row that no sheet prints is lost.",
        "[operator.brace.setting.hold-opne]";
    /// A unit is not there.
    UNKNOWN_UNIT = "unknown-unit",
        "`{found}` is not a unit",
        "Quantities and prices are computed with units; a word that is none cannot be computed with.",
        "[item.wire]\nunit = \"feet of wire\"";
    /// A pack that does not fit its item.
    PACK_MISFIT = "pack-misfit",
        "a pack of `{found}` cannot hold an item sold by {asked}",
        "Packs are rounded up in the item's own unit.",
        "[item.wire]\nunit = \"ft\"\npack = { name = \"box\", holds = \"100 each\" }";
    /// A rule that does not say what it takes off, or says it twice.
    RULE_TARGET = "rule-target",
        "a rule is for one item or one task; this one has {found}",
        "Without exactly one target there is nothing to count, or it would be counted twice.",
        "[[rule]]\nper = \"header\"\nquantity = \"2\"";
    /// `per = item` without the item, or the item without it.
    RULE_OF = "rule-of",
        "`of` is the item whose lines a rule is counted over, and belongs to `per = \"item\"` only",
        "A rule over the lines of an item needs to know which.",
        "[[rule]]\nper = \"item\"\nitem = \"bushing\"";
    /// Rules over each other's lines.
    RULE_CYCLE = "rule-cycle",
        "rules depend on each other's lines in a circle: {found}",
        "A circle of rules has no end.",
        "[[item.a.rule]]\nper = \"item\"\nof = \"b\"\n\n[[item.b.rule]]\nper = \"item\"\nof = \"a\"";
    /// Two rules of one id.
    DUPLICATE_RULE = "duplicate-id",
        "two rules have the id `{found}`",
        "A figure shows the rule it comes from; two rules with one name could not be distinguished.",
        "[[rule]]\nid = \"signs\"\n\n[[rule]]\nid = \"signs\"";
    /// A cell without a party.
    EMPTY_CELL = "empty-cell",
        "no party is given for `{found}`",
        "A cell without a party is a gap in the scope; `none` states that there is no such work.",
        "[responsibility.circuit]\nname = \"Circuit\"\norder = 10\nfurnish = \"us\"";
    /// A factor that does nothing.
    FACTOR_IDLE = "factor-idle",
        "factor `{found}` neither changes hours nor makes them overtime",
        "A condition that changes nothing was meant to change something.",
        "[factor.night]\nname = \"night\"\nwhen = \"true\"";
    /// A factor that leaves no hours.
    FACTOR_ZERO = "factor-zero",
        "factor `{found}` multiplies hours by zero",
        "Work that takes no time is not priced, while the least hours of a visit still are. Work that is not ours belongs to no task.",
        "[factor.night]\nfactor = \"0\"";
    /// A burden that is not one thing.
    BURDEN_AMOUNT = "burden-amount",
        "a part of the burden is a rate or an amount; `{found}` is {asked}",
        "A burden without an amount would be left out of the rate.",
        "[[trade.installer.burden]]\nname = \"insurance\"";
    /// A condition that ranges over nothing.
    CONDITION_OVER_NOTHING = "condition-over-nothing",
        "a condition does not state what it is checked on",
        "A condition is checked on one kind of thing, such as openings; without the kind there is nothing to check.",
        "[proof.label]\nwhen = 'opening.rating != \"none\"'   # and no per";
    /// A firm twice.
    TWO_FIRMS = "two-firms",
        "the contractor is described twice",
        "Papers are signed by one firm.",
        "[firm]   # in two files of the catalog";
    /// A theme twice.
    TWO_THEMES = "two-themes",
        "the look of papers is described twice",
        "With two themes it is not clear which one is printed.",
        "[theme]   # in two files of the catalog";
    /// Tiers out of order.
    BOND_TIERS = "bond-tiers",
        "the tiers of the bond premium are not in order: {found}",
        "A premium is computed tier by tier, lowest first; only the last may be without end.",
        "bond = [{ to = \"500000.00\", rate = \"2 %\" }, { to = \"100000.00\", rate = \"1 %\" }]";
    /// A pattern that makes no number.
    SUBMITTAL_NUMBER = "submittal-number",
        "`{found}` does not make a submittal number",
        "The reviewer files by number: a pattern without the number, or with a word that nothing fills, numbers everything alike.",
        "submittal_number = \"{sect}-{number}\"";
    /// A disposition twice.
    DISPOSITION_TWICE = "disposition-twice",
        "the disposition `{found}` is listed twice in the profile",
        "With two meanings of one stamp it is not clear which one releases an order.",
        "disposition = [{ word = \"noted\", means = \"approved\" }, { word = \"noted\", means = \"resubmit\" }]";
    /// A mark beside a sheet that points off it.
    MARK_OFF_SHEET = "mark-off-sheet",
        "a mark cannot point {found} of the way down a page",
        "The mark shows the reviewer which of several options is meant; it must point to a place on the page.",
        "sheet_marks = [{ at = \"135 %\", says = \"Selected\" }]";
    /// A terminal is not there.
    UNKNOWN_TERMINAL = "unknown-terminal",
        "there is no terminal `{found}` in the catalog",
        "A conductor without a terminal has to be landed by guess.",
        "wire = [{ from = \"contact\", role = \"contact\", to = \"open-outsid\" }]",
        holds OF_TERMINALS;
    /// A name of a terminal on an operator that is not there.
    TERMINAL_OPERATOR = "terminal-operator",
        "there is no operator `{found}` with another terminal name",
        "The name is printed for the openings of that operator; of one that does not exist it is never printed.",
        "[terminal.common]\nother = [{ operator = \"surf-lo\", name = \"COM\" }]",
        holds OF_TERMINALS;
    /// Two terminals of one name.
    TERMINAL_TWICE = "terminal-twice",
        "two terminals are called `{found}` on {asked}",
        "An installer lands a conductor by the terminal name; with two terminals of one name the wrong one may be used.",
        "[terminal.open]\nname = \"INPUT\"\n\n[terminal.safety]\nname = \"INPUT\"",
        holds OF_TERMINALS;
    /// One thing wired in two ways.
    TERMINATED_TWICE = "terminated-twice",
        "two tables give the termination of {found}",
        "With two ways to wire one device it is not clear which one is printed.",
        "[termination.plate]\ndevices = [\"push plate\"]\n\n[termination.button]\ndevices = [\"push plate\"]",
        holds OF_TERMINALS;
    /// A termination of nothing.
    TERMINATES_NOTHING = "terminates-nothing",
        "termination `{found}` does not state what it applies to",
        "A table of conductors without a device, a release or a system is never printed.",
        "[termination.plate]\nname = \"push plate\"   # and no devices",
        holds OF_TERMINALS;
    /// Two tables of colors for one gauge.
    CABLE_TWICE = "cable-twice",
        "two tables give the colors of {found}",
        "With two colors of one conductor it is not clear which one is right.",
        "[cable.a]\nawg = [22]\n\n[cable.b]\nawg = [22]",
        holds OF_TERMINALS;
    /// Two conductors of one color in one cable.
    COLOR_TWICE = "color-twice",
        "two conductors of one cable are {found} at: {asked}",
        "At the far end the two conductors cannot be distinguished.",
        "[cable.a]\ncolor = { positive = \"red\", negative = \"red\" }",
        holds OF_TERMINALS;
}
