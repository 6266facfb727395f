//! Codes of findings that the estimate raises.
//!
//! In: faults of figures. Out: codes and their findings. May not know: how a finding is shown.

use crate::findings::{Code, Finding, Paper, Papers, Place, Severity, Subject};
use crate::ledger::FigureFault;

/// A price that cannot be worked out.
pub static NO_PRICE: Code = Code {
    id: "no-price",
    severity: Severity::Error,
    says: "the price cannot be calculated: {found}",
    why: "An amount that cannot be kept exactly is not printed.",
    example: "mark = [{ name = \"profit\", of = [\"direct cost\"], rate = \"100 %\", kind = \"margin\" }]",
    blocks: Papers::of(&[Paper::Bid, Paper::Recap]),
};

/// An item or an hour that is used and has no price.
pub static UNPRICED_LINE: Code = Code {
    id: "unpriced-line",
    severity: Severity::Error,
    says: "{found}",
    why: "A line without a price would be free of charge. Bid and recap are held; papers without prices are not.",
    example: "[item.drive]\nname = \"Drive\"\ngroup = \"drive\"\nunit = \"each\"   # and neither price nor a [[quote]]",
    blocks: Papers::of(&[Paper::Bid, Paper::Recap]),
};

/// An item or an hour that is used at a price of zero.
pub static FREE_LINE: Code = Code {
    id: "free-line",
    severity: Severity::Warning,
    says: "{found} is priced at zero; {asked}",
    why: "A zero is often a price that was to be filled in later. The line is in the bid and adds nothing to it.",
    example: "[item.drive]\nprice = \"0.00\"",
    blocks: Papers::NONE,
};

/// The codes of this room.
pub static CODES: &[&Code] = &[&NO_PRICE, &UNPRICED_LINE, &FREE_LINE];

/// The finding of a figure that could not be made.
pub fn no_price(fault: &FigureFault, place: &Place) -> Finding {
    Finding::new(&NO_PRICE, Subject::Job)
        .at(place.clone())
        .found(fault.to_string())
        .asked("amounts that can be kept to the cent")
        .advise("check the rates and quantities in it")
}
