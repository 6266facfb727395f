//! The weight of a leaf: as given, or estimated from what it is made of.
//!
//! In: a leaf's entry. Out: a weight and what it was estimated from. May not know: operators.

use super::arrangement::LeafWeight;
use crate::engineering::{EstimatedWeight, FaceGauge, GlassThickness, glass, hollow_metal_faces, solid_core_wood};
use crate::job::{LeafEntry, LeafMade};

/// The weight of a leaf. An estimate takes the most that its source gives, so that motion and anchorage err on the safe
/// side; a leaf whose make or size is not known has no weight.
pub(super) fn weight(leaf: &LeafEntry) -> Option<LeafWeight> {
    if let Some(weight) = leaf.weight.get() {
        return Some(LeafWeight { weight: *weight, estimated: None });
    }
    if leaf.weight.is_bad() {
        return None;
    }
    let estimate = estimate(leaf)?;
    Some(LeafWeight {
        weight: estimate.most.unwrap_or(estimate.usual),
        estimated: Some(format!("{} (most that the source gives)", estimate.basis)),
    })
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
