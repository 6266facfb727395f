//! Volts at every device of a low-voltage tree.
//!
//! In: a supply and branches, each with its ohms and its loads. Out: volts at every node. May not know: what a device is.

/// A branch of the tree: from a node before it to a node of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Branch {
    /// The branch before it, by position; none at the supply. It must stand earlier in the list.
    pub from: Option<usize>,
    /// Ohms out and back along it.
    pub ohms: f64,
    /// Amps that a load at its end takes whatever its voltage.
    pub amps: f64,
    /// Watts that a load at its end takes whatever its voltage.
    pub watts: f64,
}

/// Why a tree has no answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TreeFault {
    /// A branch hangs on one that is not before it, or has a value below zero; the index is its own.
    BadBranch(usize),
    /// The lines cannot carry the power asked for.
    TooMuch,
}

/// Rounds of the iteration; a tree that can be fed settles long before.
const ROUNDS: usize = 10_000;
/// Settled, in volts.
const SETTLED: f64 = 1e-12;

/// Volts at the end of each branch: currents are summed from the leaves to the supply, drops from the supply to the
/// leaves, until no voltage changes by more than 1e-12 V (a contraction wherever the lines can carry the load; derived).
///
/// # Errors
/// See [`TreeFault`].
pub fn volts_at_ends(supply: f64, branches: &[Branch]) -> Result<Vec<f64>, TreeFault> {
    for (at, branch) in branches.iter().enumerate() {
        let bad =
            [branch.ohms, branch.amps, branch.watts].into_iter().any(|value| !(value >= 0.0 && value.is_finite()));
        if bad || branch.from.is_some_and(|from| from >= at) {
            return Err(TreeFault::BadBranch(at));
        }
    }
    let mut volts = vec![supply; branches.len()];
    for _ in 0..ROUNDS {
        let next = drops(supply, branches, &currents(branches, &volts));
        if next.iter().any(|it| !(it.is_finite() && *it > 0.0)) {
            return Err(TreeFault::TooMuch);
        }
        let moved = volts.iter().zip(&next).map(|(old, new)| (old - new).abs()).fold(0.0, f64::max);
        volts = next;
        if moved < SETTLED {
            return Ok(volts);
        }
    }
    Err(TreeFault::TooMuch)
}

/// Amps on each branch, given volts at its end.
fn currents(branches: &[Branch], volts: &[f64]) -> Vec<f64> {
    let mut amps: Vec<f64> = branches.iter().zip(volts).map(|(it, volts)| it.amps + it.watts / volts).collect();
    for at in (0..branches.len()).rev() {
        if let Some(from) = branches[at].from {
            amps[from] += amps[at];
        }
    }
    amps
}

fn drops(supply: f64, branches: &[Branch], amps: &[f64]) -> Vec<f64> {
    let mut volts: Vec<f64> = Vec::with_capacity(branches.len());
    for (branch, amps) in branches.iter().zip(amps) {
        let before = branch.from.map_or(supply, |from| volts[from]);
        volts.push(before - branch.ohms * amps);
    }
    volts
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engineering::voltage_drop::volts_at_power;

    fn branch(from: Option<usize>, ohms: f64, amps: f64, watts: f64) -> Branch {
        Branch { from, ohms, amps, watts }
    }

    /// One node has the closed form: 24 V, 1.59 ohm, 24 W leaves 22.2879 V (derived).
    #[test]
    fn one_load_meets_the_closed_form() {
        let volts = volts_at_ends(24.0, &[branch(None, 1.59, 0.0, 24.0)]).unwrap();
        assert!((volts[0] - volts_at_power(24.0, 1.59, 24.0).unwrap()).abs() < 1e-9);
        let current = volts_at_ends(24.0, &[branch(None, 1.59, 1.5, 0.0)]).unwrap();
        assert!((current[0] - (24.0 - 2.385)).abs() < 1e-12);
    }

    /// Seeded trees against an independent nodal solve: Newton's method on Kirchhoff's equations with a dense matrix, which
    /// shares nothing with the sweeps above. Agreement to 1e-6 V.
    #[test]
    fn trees_meet_a_nodal_solve() {
        let mut seed = 7_u64;
        let mut next = |limit: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 33) % limit
        };
        for _ in 0..crate::engineering::random_tests::times(200) {
            let count = 1 + next(7) as usize;
            let branches: Vec<Branch> = (0..count)
                .map(|at| {
                    let from = (at > 0 && next(3) > 0).then(|| next(at as u64) as usize);
                    let (ohms, amps) = (0.05 + next(60) as f64 / 100.0, next(40) as f64 / 100.0);
                    branch(from, ohms, amps, next(50) as f64 / 10.0)
                })
                .collect();
            let swept = volts_at_ends(24.0, &branches).unwrap();
            let nodal = newton(24.0, &branches);
            for (one, other) in swept.iter().zip(&nodal) {
                assert!((one - other).abs() < 1e-6, "{branches:?}: {swept:?} {nodal:?}");
            }
        }
    }

    /// Solves `G v = source - amps - watts / v` for the node voltages.
    fn newton(supply: f64, branches: &[Branch]) -> Vec<f64> {
        let count = branches.len();
        let mut volts = vec![supply; count];
        for _ in 0..60 {
            let mut matrix = vec![vec![0.0; count]; count];
            let mut rest = vec![0.0; count];
            for (at, it) in branches.iter().enumerate() {
                let g = 1.0 / it.ohms;
                let before = it.from.map_or(supply, |from| volts[from]);
                rest[at] += g * (before - volts[at]) - it.amps - it.watts / volts[at];
                matrix[at][at] += g - it.watts / (volts[at] * volts[at]);
                if let Some(from) = it.from {
                    rest[from] -= g * (before - volts[at]);
                    matrix[from][from] += g;
                    matrix[at][from] -= g;
                    matrix[from][at] -= g;
                }
            }
            let step = eliminate(matrix, rest);
            volts.iter_mut().zip(step).for_each(|(volts, step)| *volts += step);
        }
        volts
    }

    fn eliminate(mut matrix: Vec<Vec<f64>>, mut rest: Vec<f64>) -> Vec<f64> {
        let count = rest.len();
        for pivot in 0..count {
            for row in pivot + 1..count {
                let factor = matrix[row][pivot] / matrix[pivot][pivot];
                let above = matrix[pivot].clone();
                matrix[row].iter_mut().zip(above).for_each(|(cell, above)| *cell -= factor * above);
                rest[row] -= factor * rest[pivot];
            }
        }
        for pivot in (0..count).rev() {
            let known: f64 = (pivot + 1..count).map(|column| matrix[pivot][column] * rest[column]).sum();
            rest[pivot] = (rest[pivot] - known) / matrix[pivot][pivot];
        }
        rest
    }

    #[test]
    fn what_cannot_be_fed_or_hangs_wrongly_is_refused() {
        assert_eq!(volts_at_ends(24.0, &[branch(None, 1.59, 0.0, 95.0)]), Err(TreeFault::TooMuch));
        assert_eq!(volts_at_ends(24.0, &[branch(Some(0), 1.0, 0.0, 1.0)]), Err(TreeFault::BadBranch(0)));
        assert_eq!(volts_at_ends(24.0, &[branch(None, -1.0, 0.0, 1.0)]), Err(TreeFault::BadBranch(0)));
        assert_eq!(volts_at_ends(24.0, &[branch(None, f64::NAN, 0.0, 1.0)]), Err(TreeFault::BadBranch(0)));
        assert_eq!(volts_at_ends(24.0, &[]), Ok(vec![]));
    }
}
