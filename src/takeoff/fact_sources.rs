//! What a fact of an opening rests on: the typed values that must be good for it to be known.
//!
//! In: names of facts, an opening with its slots. Out: whether a fact is unknown because of a bad value, which was reported
//! where it was read. May not know: which rules ask.

use std::collections::BTreeSet;

use super::arrangement::OpeningWork;
use crate::input::Record;
use crate::job::{
    AccessEntry, CeilingEntry, DeviceEntry, FrameEntry, LeafEntry, OpeningEntry, PowerEntry, VestibuleEntry,
};

/// The typed values that a fact rests on, as `record.key`. A fact that is not listed is the value of its own name.
fn sources_of(fact: &str) -> Vec<String> {
    let paths: &[&str] = match fact {
        "leaf.weight" => &[
            "leaf.weight",
            "leaf.width",
            "leaf.height",
            "leaf.made",
            "leaf.gauge",
            "leaf.core_weight",
            "leaf.facing_weight",
        ],
        "leaf.hand" => &["leaf.hinges", "leaf.swing"],
        "leaf.release" | "opening.releases" => &["leaf.release", "leaf.latch"],
        "leaf.removes" | "leaf.relocates" | "leaf.reuses" | "leaf.left_to_others" | "leaf.release_stays" => {
            &["leaf.existing"]
        }
        "opening.in_the_way" | "opening.obstructions_removed" | "opening.obstructions_relocated" => {
            &["frame.in_the_way"]
        }
        "header.leaf_width" => &["leaf.width"],
        "header.weight" => &["leaf.width", "opening.operator"],
        "header.side" | "header.supply_end" | "drive.end" => &["leaf.hinges", "leaf.swing", "leaf.arm"],
        "box.side" | "box.wet" => &["leaf.hinges", "leaf.swing", "leaf.arm", "device.side", "opening.exposure"],
        "drive.arm" => &["leaf.arm"],
        "drive.opening_time" => &[
            "leaf.weight",
            "leaf.width",
            "leaf.height",
            "leaf.made",
            "leaf.gauge",
            "leaf.core_weight",
            "leaf.facing_weight",
        ],
        "fixing.substrate" => &["frame.fixed_to"],
        "fixing.leaf_made" => &["leaf.made"],
        "fixing.screws" | "fixing.plate_screws" | "fixing.kit" | "fixing.short" => {
            &["opening.operator", "frame.fixed_to", "leaf.made"]
        }
        "opening.programmed_by" => &["access.programmed_by"],
        "opening.frame" => &["frame.made"],
        "opening.frame_face" => &["frame.face"],
        "opening.frame_depth" => &["frame.depth"],
        "opening.reveal" => &["frame.reveal"],
        "opening.head_room" => &["frame.head_room"],
        "opening.face_clearance" => &["frame.face_clearance"],
        "opening.ceiling" => &["ceiling.kind"],
        "opening.ceiling_height" => &["ceiling.height"],
        "opening.vestibule_distance" => &["vestibule.distance"],
        _ => &[],
    };
    let own = || match fact.split_once('.') {
        Some(("operator", _)) => "opening.operator".to_owned(),
        Some(("group", key)) => format!("device.{key}"),
        _ => fact.to_owned(),
    };
    if paths.is_empty() { vec![own()] } else { paths.iter().map(|path| (*path).to_owned()).collect() }
}

/// Whether a fact of a site or a run, which is the value of its own key, is unknown because what was typed there is bad.
pub(super) fn is_bad_of<R: Record>(record: &R, fact: &str) -> bool {
    let key = fact.split_once('.').map_or(fact, |(_, key)| key);
    R::fields().iter().zip(record.slots()).any(|(field, slot)| field.name == key && slot.is_bad())
}

/// Whether a fact of an opening is unknown because of something that was typed and is bad. `leaf` is the position of the
/// leaf that is spoken of; none means every leaf. The side of a header follows of the first leaf that it drives.
pub(super) fn has_bad_source(work: &OpeningWork, leaf: Option<usize>, fact: &str) -> bool {
    let leaf = leaf.filter(|_| fact != "drive.end");
    let bad = bad_values(work, leaf);
    sources_of(fact).iter().any(|path| {
        let record = path.split_once('.').map_or("", |(record, _)| record);
        bad.contains(path) || bad.contains(&format!("opening.{record}"))
    })
}

/// Everything bad at an opening, as `record.key`. An operator whose own entry in the catalog cannot be used counts too.
fn bad_values(work: &OpeningWork, leaf: Option<usize>) -> BTreeSet<String> {
    let entry = &work.opening.entry;
    let mut bad = BTreeSet::new();
    gather::<OpeningEntry>("opening", Some(entry), &mut bad);
    gather::<FrameEntry>("frame", entry.frame.get(), &mut bad);
    gather::<PowerEntry>("power", entry.power.get(), &mut bad);
    gather::<CeilingEntry>("ceiling", entry.ceiling.get(), &mut bad);
    gather::<AccessEntry>("access", entry.access.get(), &mut bad);
    gather::<VestibuleEntry>("vestibule", entry.vestibule.get(), &mut bad);
    entry.device.list().iter().for_each(|device| gather::<DeviceEntry>("device", Some(device), &mut bad));
    let spoken = work.leaves.iter().enumerate().filter(|(at, _)| leaf.is_none_or(|leaf| leaf == *at));
    spoken.for_each(|(_, leaf)| gather::<LeafEntry>("leaf", Some(leaf.entry), &mut bad));
    if entry.operator.get().is_some() && work.operator.is_none() {
        bad.insert("opening.operator".to_owned());
    }
    bad
}

fn gather<R: Record>(name: &str, record: Option<&R>, bad: &mut BTreeSet<String>) {
    let Some(record) = record else { return };
    let bad_slots = R::fields().iter().zip(record.slots()).filter(|(_, slot)| slot.is_bad());
    bad.extend(bad_slots.map(|(field, _)| format!("{name}.{}", field.name)));
}

#[cfg(test)]
mod tests {
    use super::sources_of;
    use crate::catalog::Entity;
    use crate::input::Record;
    use crate::job::{
        AccessEntry, CeilingEntry, DeviceEntry, FrameEntry, LeafEntry, OpeningEntry, PowerEntry, VestibuleEntry,
    };
    use crate::takeoff::sheet;

    fn keys<R: Record>(name: &str) -> Vec<String> {
        R::fields().iter().map(|field| format!("{name}.{}", field.name)).collect()
    }

    /// A list that names a key which is gone would silence nothing. The field tables are the truth.
    #[test]
    fn what_facts_rest_on_are_keys_that_can_be_typed() {
        let all = [
            keys::<OpeningEntry>("opening"),
            keys::<FrameEntry>("frame"),
            keys::<PowerEntry>("power"),
            keys::<CeilingEntry>("ceiling"),
            keys::<AccessEntry>("access"),
            keys::<VestibuleEntry>("vestibule"),
            keys::<DeviceEntry>("device"),
            keys::<LeafEntry>("leaf"),
        ]
        .concat();
        let kinds = [Entity::Opening, Entity::Leaf, Entity::Header, Entity::Drive, Entity::Fixing];
        let mut listed = 0;
        let facts = kinds.iter().flat_map(|kind| {
            let sheet = sheet(*kind);
            sheet.facts().map(|(name, _)| name.to_owned()).collect::<Vec<String>>()
        });
        for fact in facts {
            let paths = sources_of(&fact);
            if paths != [fact.clone()] {
                listed += 1;
                assert!(paths.iter().all(|path| all.contains(path)), "{fact} rests on {paths:?}");
            }
        }
        assert!(listed > 20, "{listed} facts");
    }
}
