//! What an opening's operator, or hardware that stays, leaves no choice of, filled in where it is not typed.
//!
//! In: an opening and its leaves, its operator. Out: mounting, energy class, powered leaf, latch and release, each standing as a default
//! with what it follows from. May not know: what depends on them.

use crate::catalog::Operator;
use crate::findings::Place;
use crate::input::{Given, Slot, Standing};
use crate::job::entries::{ExistingEntry, LeafEntry, OpeningEntry};
use crate::job::words::{ExistingKind, LatchKind, Release};

/// Fills in what follows from an opening's operator alone. What is typed stays, and so does `none`.
pub(super) fn fill(entry: &mut OpeningEntry, leaves: &mut [LeafEntry], operator: &Operator) {
    let Some(place) = entry.operator.place().cloned() else { return };
    only(&mut entry.mount, &operator.mounts, (&place, "the operator's only mounting"));
    only(&mut entry.energy, &operator.energy, (&place, "the operator's only energy class"));
    if let [leaf] = leaves {
        only(&mut leaf.powered, &[true], (&place, "the only leaf of an opening with an operator"));
    }
}

/// Fills in the latch and the release of a leaf from the one of its hardware that is there and stays.
pub(super) fn fill_hardware(leaf: &mut LeafEntry) {
    let stays = |it: &&ExistingEntry| it.becomes.get().is_some_and(|becomes| becomes.stays());
    let kept: Vec<(ExistingKind, Place)> = leaf
        .existing
        .list()
        .iter()
        .filter(stays)
        .filter_map(|it| it.what.given().map(|what| (what.value, what.place.clone())))
        .collect();
    let latches: Vec<(LatchKind, &Place)> = kept.iter().filter_map(|(it, place)| Some((it.latch()?, place))).collect();
    if let [(latch, place)] = latches.as_slice() {
        only(&mut leaf.latch, &[*latch], (place, "the latch that is there and stays"));
    }
    let releases: Vec<(Release, &Place)> = kept.iter().filter_map(|(it, place)| Some((it.release()?, place))).collect();
    if let [(release, place)] = releases.as_slice() {
        only(&mut leaf.release, &[*release], (place, "the release that is there and stays"));
    }
}

/// Fills in the one value that there can be.
fn only<T: Clone>(slot: &mut Slot<T>, values: &[T], (place, because): (&Place, &'static str)) {
    if let ([value], true) = (values, slot.is_absent()) {
        let standing = Standing::Default(because);
        *slot = Slot::Given(Given { value: value.clone(), place: place.clone(), standing, through: None });
    }
}

#[cfg(test)]
mod tests {
    use crate::job::sound::{Fixture, sound};
    use crate::job::{EnergyClass, Mount, Opening};

    fn opening(of: &Fixture) -> Opening {
        Opening::clone(&of.read().0.openings[0])
    }

    /// The sound job without a line of its kind.
    fn without(line: &str) -> Fixture {
        sound().but(&format!("{line}\n"), "")
    }

    #[test]
    fn what_an_operator_has_one_of_is_filled_in() {
        let mount = |of: &Fixture| opening(of).entry.mount.cloned();
        assert_eq!(mount(&without("mount = \"surface\"")), Some(Mount::Surface));
        let two = without("mount = \"surface\"")
            .catalog_but("mounts = [\"surface\"]", "mounts = [\"surface\", \"concealed\"]");
        assert_eq!(mount(&two), None);
        let energy = |of: &Fixture| opening(of).entry.energy.cloned();
        let bare = without("energy = \"low energy\"");
        let two = bare.clone().catalog_but("energy = [\"low energy\"]", "energy = [\"low energy\", \"power assist\"]");
        assert_eq!((energy(&bare), energy(&two)), (Some(EnergyClass::Low), None));
    }

    #[test]
    fn the_one_latch_and_release_that_stay_are_those_of_the_leaf() {
        let found = |existing: &str| {
            let bare = without("latch = \"mortise lock\"").but("release = \"electric strike\"\n", "");
            let of = opening(&bare.and(&format!("leaf = {{ existing = [{existing}] }}")));
            let leaf = &of.leaves[0];
            (leaf.latch.get().map(|it| it.word()), leaf.release.get().map(|it| it.word()))
        };
        let stays = |what: &str| format!("{{ what = \"{what}\", becomes = \"reuse\" }}");
        assert_eq!(found(""), (None, None));
        assert_eq!(found(&stays("rim exit device")), (Some("rim exit device"), None));
        let both = format!("{}, {}", stays("rim exit device"), stays("latch retraction"));
        assert_eq!(found(&both), (Some("rim exit device"), Some("latch retraction")));
        assert_eq!(found(&both.replace("reuse", "remove")), (None, None));
        assert_eq!(found(&format!("{}, {}", stays("mortise lock"), stays("flush bolts"))), (None, None));
    }

    #[test]
    fn the_only_leaf_is_the_powered_one() {
        let powered = |of: &Fixture| opening(of).leaves.iter().map(|leaf| leaf.powered.or(false)).collect::<Vec<_>>();
        let bare = without("powered = true");
        assert_eq!(powered(&bare), [true]);
        assert_eq!(powered(&bare.clone().and("leaf = { powered = false }")), [false]);
        assert_eq!(powered(&bare.and("leaf = [{ hinges = \"left\" }, { hinges = \"right\" }]")), [false, false]);
    }
}
