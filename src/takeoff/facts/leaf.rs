//! Facts of a leaf.
//!
//! In: a leaf of the arrangement. Out: the writer of its facts. May not know: rules.

use super::{entry, slot_count};
use crate::engineering::Hand;
use crate::job::*;
use crate::ledger::Reason;
use crate::measure::{Measure, Quantity, Unit};
use crate::takeoff::arrangement::LeafWork;
use crate::takeoff::fact_set::FactSetWriter;

/// Facts of a leaf.
pub(in crate::takeoff) fn leaf(of: Option<(&LeafWork, &str)>) -> FactSetWriter {
    let mut writer = FactSetWriter::new("leaf", of.map(|(it, mark)| format!("{mark}, leaf {}", it.number)));
    let typed = of.map(|(it, _)| it.entry);
    writer.counted("leaf.number", "its number, from 1", of.map(|(it, _)| it.number));
    writer.slot("leaf.width", Unit::Inch, "width", typed.map(|it| &it.width));
    writer.slot("leaf.height", Unit::Inch, "height", typed.map(|it| &it.height));
    writer.slot("leaf.gap", Unit::Inch, "widest gap around it", typed.map(|it| &it.gap));
    writer.slot("leaf.undercut", Unit::Inch, "gap under it", typed.map(|it| &it.undercut));
    writer.slot(
        "leaf.opening_force",
        Unit::PoundForce,
        "force to open it by hand, as measured",
        typed.map(|it| &it.opening_force),
    );
    writer.slot("leaf.thickness", Unit::Inch, "thickness", typed.map(|it| &it.thickness));
    writer.slot("leaf.stile", Unit::Inch, "width of the stile", typed.map(|it| &it.stile));
    writer.number("leaf.weight", Unit::Pound, "weight, given or estimated", of.and_then(|(it, _)| leaf_weight(it)));
    writer.vocabulary("leaf.made", "what it is made of", typed.and_then(|it| it.made.cloned()));
    writer.number("leaf.gauge", Unit::Each, "sheet gauge", typed.and_then(|it| slot_count(&it.gauge)));
    writer.vocabulary("leaf.hangs", "hinge type", typed.and_then(|it| it.hangs.cloned()));
    writer.vocabulary("leaf.role", "its part in a pair", typed.map(|it| it.role.or(LeafRole::Active)));
    writer.flag("leaf.powered", "whether a drive moves it", of.map(|(it, _)| it.powered));
    writer.vocabulary("leaf.arm", "its arm", typed.and_then(|it| it.arm.cloned()));
    let angle = typed.and_then(|it| it.opens_to.given());
    let angle = angle.map(|it| (Quantity::count(it.value.to_degrees()), entry(&it.place)));
    writer.number("leaf.opens_to", Unit::Each, "open angle in degrees", angle);
    writer.vocabulary("leaf.stopped_by", "what stops it", typed.map(|it| it.stopped_by.or(StoppedBy::Drive)));
    writer.vocabulary("leaf.latch", "what latches it", typed.and_then(|it| it.latch.cloned()));
    writer.vocabulary("leaf.release", "latch release", of.and_then(|(it, _)| it.release()));
    writer.flag("leaf.wire_chase", "whether it has a wire chase", typed.map(|it| it.wire_chase.or(false)));
    let hands: Vec<&str> = Hand::ALL.iter().map(|hand| hand.letters()).collect();
    writer.word("leaf.hand", &hands, "its hand", of.and_then(|(it, _)| it.hand).map(Hand::letters));
    let by = |becomes: Disposition| {
        let typed = typed?;
        let matching = typed.existing.list().iter().filter(|it| it.becomes.get() == Some(&becomes));
        Some(matching.filter_map(|it| it.what.cloned()).collect::<Vec<ExistingKind>>())
    };
    writer.words("leaf.removes", "hardware to remove", by(Disposition::Remove));
    writer.words("leaf.relocates", "hardware to relocate", by(Disposition::Relocate));
    writer.words("leaf.reuses", "hardware to reuse", by(Disposition::Reuse));
    writer.words("leaf.left_to_others", "hardware by others", by(Disposition::Others));
    let stays = typed.map(|it| it.existing.list().iter().any(ExistingEntry::is_release_that_stays));
    writer.flag("leaf.release_stays", "whether what releases or holds it is there and stays", stays);
    writer
}

fn leaf_weight(leaf: &LeafWork) -> Option<(Quantity, Reason)> {
    let known = leaf.weight.as_ref()?;
    let reason = match (&known.estimated, leaf.entry.weight.given()) {
        (None, Some(given)) => Reason::Entry {
            place: given.place.clone(),
            standing: super::super::fact_set::standing_words(&given.standing),
        },
        (basis, _) => {
            Reason::Clause(format!("estimated from {}", basis.as_deref().unwrap_or("what it is made of")).into())
        }
    };
    Some((known.weight.quantity(), reason))
}
