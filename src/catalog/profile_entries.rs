//! What a person types of owners: what differs by owner, and how he answers what is submitted to him: field tables.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: any job.

use super::paper_words::ProofKind;
use super::words::SetPlace;
use crate::input::{Count, Flag, Text, record, vocabulary};
use crate::measure::{Amps, Length};
use crate::money::Percent;

vocabulary! {
    /// How what is submitted again is numbered.
    pub enum Again {
        /// With a decimal: 087113-3, then 087113-3.1 and 087113-3.2.
        Decimal = "decimal",
        /// With the letter R: 17-1, then 17-1R and 17-1R2.
        LetterR = "letter R",
    }
}

vocabulary! {
    /// What a reviewer's disposition means for what was submitted.
    pub enum Meaning {
        /// It may be bought and built, with what is noted on it.
        Approved = "approved",
        /// It is to be corrected and submitted again.
        Resubmit = "resubmit",
        /// It is refused.
        Rejected = "rejected",
        /// It was received, and no more is said.
        Information = "information",
    }
}

/// How submittals are numbered where the owner does not say.
pub(super) const USUAL_NUMBER: &str = "{section}-{number}";

record! {
    /// A disposition, as an owner's reviewer puts it on what comes back.
    pub struct DispositionEntry as "disposition" blocks(packet, register) => #[derive(PartialEq, Eq)] Disposition {
        /// His words.
        word: Text, needed, "approved as noted";
        /// What they mean.
        means: Meaning, needed, "approved";
    }
}

record! {
    /// An owner's profile: what differs by owner.
    pub struct ProfileEntry as "profile" blocks(bid, recap, schedule, packet) => Profile[place] {
        /// The owner.
        name: Text, needed, "Town of Alder Row";
        /// Least trade size of raceway.
        least_raceway: Text, default("1/2".to_owned()), "1/2";
        /// Days that a review of a submittal takes.
        review_days: Count, ["0" to "365"], "14";
        /// Length carried from a panel to a header where no route is laid out; left out, that of the catalog's assumed route.
        panel_route: Length, "60 ft";
        /// How drives are put on circuits, where the opening does not say.
        circuits: Text, default("per header".to_owned()), "per header";
        /// Amps that headers may share on one circuit.
        shared_amps: Amps, "12 A";
        /// Months of warranty.
        warranty_months: Count, option needed blocks(bid), ["0" to "600"], "12";
        /// Part of each payment held back.
        retainage: Percent, blocks(bid), "5 %";
        /// Order of places in a hardware set, where it differs.
        set_order: Vec<SetPlace>, "[\"hang\", \"secure\"]";
        /// Whether the owner pays sales tax on material.
        tax_exempt: Flag, default(false) blocks(bid, recap), "false";
        /// Text of circuit labels.
        label: Text, "{panel}-{circuit} {volts}";
        /// Whether bid and performance bonds are asked for.
        bond: Flag, default(false) blocks(bid, recap), "false";
        /// Width of the empty area that drawings leave for the reviewer's stamp; left out, none is left.
        stamp_width: Length, apart, "5 in";
        /// Its height; left out, it is as high as it is wide.
        stamp_height: Length, apart, "5 in";
        /// Kinds of proof that the owner asks for beyond those that always go with a submittal.
        proofs: Vec<ProofKind>, blocks(submittal), "[\"domestic content\"]";
        /// Copies of a submittal; left out, one, electronic.
        copies: Count, blocks(submittal), ["0" to "99"], "4";
        /// The day from which the warranty runs, in words.
        warranty_starts: Text, blocks(submittal), "the date of substantial completion";
        /// Who furnishes cylinders, and where keys go.
        keying: Text, "Cylinders by the owner's key shop; keys go to the shop, never to the site.";
        /// How the owner numbers what is submitted: `{section}` is the section without its spaces, `{number}` what the job gives.
        submittal_number: Text, default(USUAL_NUMBER.to_owned()) blocks(packet, register), "{section}-{number}";
        /// How he numbers what is submitted again; left out, with decimals.
        again: Again, default(Again::Decimal) blocks(packet, register), "decimal";
        /// What his reviewer puts on what comes back, and what that means.
        disposition as dispositions: Vec<DispositionEntry>, blocks(packet, register), "[{ word = \"approved as noted\", means = \"approved\" }]";
    } with {
        /// Id.
        id: String,
        /// Width and height of the area for the reviewer's stamp on drawings.
        stamp: Option<(Length, Length)>,
    }
}
