//! Openings and leaves as checks see them: what follows from the values of one, and the words for it.
//!
//! In: a checked job and its catalog. Out: openings with site and operator; leaves with how they hang and what drives
//! them. May not know: any check.

use std::collections::BTreeMap;

use crate::catalog::{Arm, Catalog, Operator};
use crate::engineering::{self, Edge, Hang, HeaderPlace, OperatorSide, Room, header_place};
use crate::findings::{Place, Subject};
use crate::job::{HeaderShare, HingeEdge, Job, LatchKind, LeafEntry, Opening, PrintUnits, Swing};
use crate::measure::{Finest, Length, LengthForm, Style, System, Unit, Weight};

/// An opening as checks see it.
pub(super) struct OpeningContext<'j> {
    /// The job.
    pub job: &'j Job,
    /// The catalog.
    pub catalog: &'j Catalog,
    /// The opening.
    pub opening: &'j Opening,
    /// Its operator, where it has one that the catalog knows.
    pub operator: Option<&'j Operator>,
    /// The other opening of its vestibule, where it has one. The only other opening that a check of one opening may look at.
    pub partner: Option<&'j Opening>,
}

/// A leaf as checks see it.
pub(super) struct LeafContext<'o, 'j> {
    /// Its opening.
    pub of: &'o OpeningContext<'j>,
    /// Its number, from 1.
    pub number: usize,
    /// As typed.
    pub entry: &'j LeafEntry,
}

impl<'j> OpeningContext<'j> {
    /// Every opening that is not set aside, in file order.
    pub fn all(job: &'j Job, catalog: &'j Catalog) -> Vec<OpeningContext<'j>> {
        let mut by_mark: BTreeMap<&str, &'j Opening> = BTreeMap::new();
        job.openings.iter().for_each(|it| {
            by_mark.entry(it.mark.as_str()).or_insert(it);
        });
        let kept = job.openings.iter().filter(|opening| !job.is_set_aside(&opening.mark));
        kept.map(|opening| {
            let partner = opening.partner().and_then(|mark| by_mark.get(mark).copied());
            OpeningContext::with_partner(job, catalog, opening, partner)
        })
        .collect()
    }

    /// The first opening with a mark; none where it is set aside or there is none.
    pub fn of(job: &'j Job, catalog: &'j Catalog, mark: &str) -> Option<OpeningContext<'j>> {
        let opening = job.opening(mark).filter(|_| !job.is_set_aside(mark))?;
        let partner = opening.partner().and_then(|mark| job.opening(mark));
        Some(OpeningContext::with_partner(job, catalog, opening, partner))
    }

    fn with_partner(job: &'j Job, catalog: &'j Catalog, opening: &'j Opening, partner: Option<&'j Opening>) -> Self {
        let operator = opening.entry.operator.get().and_then(|id| catalog.operators.get(id.as_str()));
        OpeningContext { job, catalog, opening, operator, partner }
    }

    /// What a finding about it is about.
    pub fn subject(&self) -> Subject {
        Subject::Opening(self.opening.mark.clone())
    }

    /// Its leaves.
    pub fn leaves(&self) -> impl Iterator<Item = LeafContext<'_, 'j>> {
        let opening: &'j Opening = self.opening;
        opening.leaves.iter().enumerate().map(move |(at, entry)| LeafContext { of: self, number: at + 1, entry })
    }

    /// The leaves that a drive moves.
    pub fn powered(&self) -> impl Iterator<Item = LeafContext<'_, 'j>> {
        self.leaves().filter(LeafContext::powered)
    }

    /// Whether a drive moves any leaf.
    pub fn is_powered(&self) -> bool {
        self.powered().next().is_some()
    }

    /// Whether its leaves swing opposite ways; nothing where the facts do not tell.
    pub fn double_egress(&self) -> Option<bool> {
        let swings: Option<Vec<Swing>> = self.leaves().map(|leaf| leaf.entry.swing.cloned()).collect();
        swings.map(|swings| swings.windows(2).any(|two| two[0] != two[1]))
    }

    /// How its leaves share headers.
    pub fn header_share(&self) -> HeaderShare {
        self.opening.entry.headers.or(HeaderShare::One)
    }

    /// Whether one header carries more than one drive.
    pub fn shares_a_header(&self) -> bool {
        !self.opening.entry.headers.is_bad() && self.header_share() == HeaderShare::One && self.powered().count() > 1
    }

    /// The place of a value, or of the opening where there is none.
    pub fn place_or_own(&self, place: Option<&Place>) -> Place {
        place.unwrap_or(&self.opening.place).clone()
    }

    /// A length as a person types it in the units of the job.
    pub fn length(&self, length: Length) -> String {
        length.typed(match self.job.head.units {
            PrintUnits::Inch => System::Inch,
            PrintUnits::Mm => System::Millimetre,
        })
    }

    /// A length as standards of access give it: in inches, however long, or in millimetres.
    pub fn inches(&self, length: Length) -> String {
        match self.job.head.units {
            PrintUnits::Inch => {
                let printed = length.print(LengthForm::Inches, Finest::Sixteenth, Style::Plain);
                format!("{} in", printed.trim_end_matches('"'))
            }
            PrintUnits::Mm => self.length(length),
        }
    }

    /// A weight in the units of the job, to a tenth.
    pub fn weight(&self, weight: Weight) -> String {
        let unit = match self.job.head.units {
            PrintUnits::Inch => Unit::Pound,
            PrintUnits::Mm => Unit::Kilogram,
        };
        // Both units measure weights, so there is always a text.
        weight.print(unit, 1, Style::Plain).unwrap_or_default()
    }
}

impl LeafContext<'_, '_> {
    /// Whether a drive moves it.
    pub fn powered(&self) -> bool {
        self.entry.powered.or(false)
    }

    /// How it hangs, where the facts tell it. The outside is the plan's first room.
    pub fn hang(&self) -> Option<Hang> {
        Some(hang_of(*self.entry.hinges.get()?, *self.entry.swing.get()?))
    }

    /// Where its header hangs, where hang and arm tell it.
    pub fn header(&self) -> Option<HeaderPlace> {
        let side = match self.entry.arm.get()? {
            Arm::Push => OperatorSide::Push,
            Arm::Pull => OperatorSide::Pull,
        };
        Some(header_place(self.hang()?, side))
    }

    /// Whether something holds it shut; nothing where nobody says, or what was said cannot be read.
    pub fn held_shut(&self) -> Option<bool> {
        self.entry.latch.get().map(|latch| *latch != LatchKind::None)
    }

    /// Words about it, with its number where the opening has several.
    pub fn words(&self, says: impl std::fmt::Display) -> String {
        if self.of.opening.leaves.len() > 1 { format!("{says} at leaf {}", self.number) } else { says.to_string() }
    }

    /// Where it stands: its own table, or the opening's.
    pub fn place(&self) -> Place {
        self.of.place_or_own(self.entry.powered.place().or(self.entry.written_at.as_ref()))
    }
}

/// How a leaf hangs that is so seen from the outside, which is the plan's first room.
pub(super) fn hang_of(hinges: HingeEdge, swing: Swing) -> Hang {
    let hinges = match hinges {
        HingeEdge::Left => Edge::Left,
        HingeEdge::Right => Edge::Right,
    };
    let swing = match swing {
        Swing::Toward => engineering::Swing::Toward,
        Swing::Away => engineering::Swing::Away,
    };
    Hang::seen_from(Room::First, hinges, swing)
}

/// The word for a side of the opening.
pub(super) fn side_word(room: Room) -> &'static str {
    match room {
        Room::First => "outside",
        Room::Second => "inside",
    }
}
