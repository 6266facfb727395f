//! The weight of a leaf: as given, or estimated from what it is made of and what hangs on it.
//!
//! In: a leaf's entry. Out: a weight and what it was estimated from. May not know: operators.

use crate::engineering::{
    EstimatedWeight, FaceGauge, GlassThickness, LeafHardware, glass, hollow_metal_faces, solid_core_wood,
};
use crate::job::{LatchKind, LeafEntry, LeafMade};
use crate::measure::Weight;

/// The weight of a leaf and how it is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeafWeight {
    /// The weight.
    pub weight: Weight,
    /// What it was estimated from; none where somebody gave it.
    pub estimated: Option<String>,
}

/// The weight of a leaf. An estimate takes the most that its source gives, so that motion and anchorage err on the safe
/// side; a leaf whose make or size is not known has no weight.
pub fn leaf_weight(leaf: &LeafEntry) -> Option<LeafWeight> {
    if let Some(weight) = leaf.weight.get() {
        return Some(LeafWeight { weight: *weight, estimated: None });
    }
    if leaf.weight.is_bad() {
        return None;
    }
    let mut bare = estimate(leaf)?;
    let mut given = String::new();
    for (slot, what) in [(&leaf.core_weight, "core"), (&leaf.facing_weight, "facings")] {
        if slot.is_bad() {
            return None;
        }
        if let Some(weight) = slot.get() {
            bare = bare.with_weighed(*weight)?;
            given += &format!("{what} as given, ");
        }
    }
    let (whole, with) = match leaf.hardware_weight.get() {
        Some(weighed) => (bare.with_weighed(*weighed)?, "hardware as given"),
        None => (bare.with(&hardware(leaf))?, "an allowance for hardware"),
    };
    Some(LeafWeight {
        weight: whole.most.unwrap_or(whole.usual),
        estimated: Some(format!("{} (maximum of the source), with {given}{with}", whole.basis)),
    })
}

fn hardware(leaf: &LeafEntry) -> Vec<LeafHardware> {
    let latch = leaf.latch.get().and_then(|latch| match latch {
        LatchKind::None => None,
        LatchKind::Cylindrical => Some(LeafHardware::Cylindrical),
        LatchKind::Mortise => Some(LeafHardware::Mortise),
        LatchKind::RimExit => Some(LeafHardware::RimExit),
        LatchKind::RodExit => Some(LeafHardware::RodExit),
        LatchKind::FlushBolts => Some(LeafHardware::FlushBolts),
        LatchKind::Magnet => Some(LeafHardware::Armature),
    });
    std::iter::once(LeafHardware::Trim).chain(latch).collect()
}

fn estimate(leaf: &LeafEntry) -> Option<EstimatedWeight> {
    let (width, height) = (*leaf.width.get()?, *leaf.height.get()?);
    match leaf.made.get()? {
        LeafMade::HollowMetal => {
            let typed = leaf.gauge.get()?.get();
            let gauge = FaceGauge::ALL.into_iter().find(|gauge| u32::from(gauge.number()) == typed)?;
            hollow_metal_faces(width, height, gauge)
        }
        LeafMade::Wood => solid_core_wood(width, height),
        // No public weight of stiles and rails is known; glass over the whole leaf stands for both (common practice, no
        // source).
        LeafMade::Aluminum => glass(width.by(height), &[GlassThickness::Half]),
        LeafMade::Glass => glass(width.by(height), &[GlassThickness::Half]),
    }
}

#[cfg(test)]
mod tests {
    use super::leaf_weight;
    use crate::job::sound::with;
    use crate::measure::Unit;
    use rust_decimal::Decimal;

    /// Arithmetic: what is given of core and facings is added to the estimate, pound for pound.
    #[test]
    fn core_and_facings_are_added_to_an_estimate_and_not_to_a_weight_that_is_given() {
        let pounds = |says: &str, weighed: bool| {
            let job = with(&format!("leaf = {{ {says} }}"));
            let job = if weighed { job } else { job.but("weight = \"150 lb\"\n", "") };
            let weight = leaf_weight(&job.read().0.openings[0].leaves[0]).expect("a weight");
            (weight.weight.number_of(Unit::Pound).expect("pounds"), weight.estimated.unwrap_or_default())
        };
        let (bare, _) = pounds("", false);
        let (whole, basis) = pounds("core_weight = \"21 lb\", facing_weight = \"14 lb\"", false);
        assert_eq!(whole - bare, Decimal::from(35));
        assert!(basis.contains("core as given, facings as given"), "{basis}");
        assert_eq!(pounds("core_weight = \"21 lb\"", true), (Decimal::from(150), String::new()));
    }
}
