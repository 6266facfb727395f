//! What an opening's operator leaves no choice of, filled in where it is not typed.
//!
//! In: an opening and its leaves, its operator. Out: mounting, energy class and powered leaf, each standing as a default with what it
//! follows from. May not know: what depends on them.

use crate::catalog::Operator;
use crate::findings::Place;
use crate::input::{Given, Slot, Standing};
use crate::job::entries::{LeafEntry, OpeningEntry};

/// Fills in what follows from an opening's operator alone. What is typed stays, and so does `none`.
pub(super) fn fill(entry: &mut OpeningEntry, leaves: &mut [LeafEntry], operator: &Operator) {
    let Some(place) = entry.operator.place().cloned() else { return };
    only(&mut entry.mount, &operator.mounts, (&place, "the operator's only mounting"));
    only(&mut entry.energy, &operator.energy, (&place, "the operator's only energy class"));
    if let [leaf] = leaves {
        only(&mut leaf.powered, &[true], (&place, "the only leaf of an opening with an operator"));
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
    fn the_only_leaf_is_the_powered_one() {
        let powered = |of: &Fixture| opening(of).leaves.iter().map(|leaf| leaf.powered.or(false)).collect::<Vec<_>>();
        let bare = without("powered = true");
        assert_eq!(powered(&bare), [true]);
        assert_eq!(powered(&bare.clone().and("leaf = { powered = false }")), [false]);
        assert_eq!(powered(&bare.and("leaf = [{ hinges = \"left\" }, { hinges = \"right\" }]")), [false, false]);
    }
}
