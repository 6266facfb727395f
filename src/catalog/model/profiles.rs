//! Owners as checked.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed.

use crate::catalog::paper_words::ProofKind;
use crate::catalog::profile_entries::{Again, Meaning};
use crate::catalog::words::SetPlace;
use crate::findings::Place;
use crate::measure::{Amps, Length};
use crate::money::Percent;

/// A disposition, as an owner's reviewer puts it on what comes back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Disposition {
    /// His words.
    pub word: String,
    /// What they mean.
    pub means: Meaning,
}

/// An owner's profile.
#[derive(Clone, Debug)]
pub struct Profile {
    /// Id.
    pub id: String,
    /// The owner.
    pub name: String,
    /// Least trade size.
    pub least_raceway: String,
    /// Days that a review takes.
    pub review_days: Option<u32>,
    /// Circuit policy, as a word of the job.
    pub circuits: String,
    /// Amps that headers may share.
    pub shared_amps: Option<Amps>,
    /// Months of warranty.
    pub warranty_months: Option<u32>,
    /// Retainage.
    pub retainage: Option<Percent>,
    /// Order of places in a set.
    pub set_order: Vec<SetPlace>,
    /// Tax exempt.
    pub tax_exempt: bool,
    /// Circuit label.
    pub label: Option<String>,
    /// Bonds asked for.
    pub bond: bool,
    /// Width and height of the area for the reviewer's stamp on drawings.
    pub stamp: Option<(Length, Length)>,
    /// Kinds of proof asked for beyond those that always go with a submittal.
    pub proofs: Vec<ProofKind>,
    /// Copies of a submittal.
    pub copies: Option<u32>,
    /// The day from which the warranty runs, in words.
    pub warranty_starts: Option<String>,
    /// Who furnishes cylinders, and where keys go.
    pub keying: Option<String>,
    /// How submittals are numbered, with `{section}` and `{number}`.
    pub submittal_number: String,
    /// How what is submitted again is numbered.
    pub again: Again,
    /// What his reviewer puts on what comes back.
    pub dispositions: Vec<Disposition>,
    /// Where it stands.
    pub place: Place,
}
