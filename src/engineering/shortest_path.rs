//! The shortest way through a graph of runs.
//!
//! In: runs by their two ends. Out: positions of runs. May not know: what runs carry, lengths.

use std::collections::VecDeque;
use std::hash::Hash;

use rustc_hash::FxHashMap;

/// Runs by their two ends, to be asked for many ways. A question costs what lies nearer than its answer, however many runs
/// there are.
#[derive(Clone, Debug)]
pub struct RunGraph<'e, E> {
    runs: Vec<(&'e E, &'e E)>,
    /// The runs at an end, in order. Only looked up, never walked.
    at: FxHashMap<&'e E, Vec<usize>>,
}

impl<'e, E: Eq + Hash> RunGraph<'e, E> {
    /// The graph of some runs, which go by their positions.
    pub fn of(runs: Vec<(&'e E, &'e E)>) -> Self {
        let mut at: FxHashMap<&E, Vec<usize>> = FxHashMap::default();
        for (number, (one, other)) in runs.iter().enumerate().filter(|(_, (one, other))| one != other) {
            at.entry(*one).or_default().push(number);
            at.entry(*other).or_default().push(number);
        }
        RunGraph { runs, at }
    }

    /// The runs on the way from an end to the nearest end that `reached` accepts: the fewest runs, and of those the earlier.
    /// None where no way leads there.
    pub fn shortest_path(&self, from: &E, reached: impl Fn(&E) -> bool) -> Vec<usize> {
        let Some((from, _)) = self.at.get_key_value(from) else { return Vec::new() };
        let mut came: FxHashMap<&E, Option<(usize, &E)>> = FxHashMap::from_iter([(*from, None)]);
        let mut queue = VecDeque::from([*from]);
        while let Some(end) = queue.pop_front() {
            if reached(end) {
                return back(&came, end);
            }
            for run in self.at.get(end).into_iter().flatten() {
                let (one, other) = self.runs[*run];
                let next = if one == end { other } else { one };
                if !came.contains_key(next) {
                    came.insert(next, Some((*run, end)));
                    queue.push_back(next);
                }
            }
        }
        Vec::new()
    }
}

fn back<'e, E: Eq + Hash>(came: &FxHashMap<&'e E, Option<(usize, &'e E)>>, mut end: &'e E) -> Vec<usize> {
    let mut runs = Vec::new();
    while let Some(Some((run, before))) = came.get(end) {
        runs.push(*run);
        end = before;
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_with_fewest_runs_is_taken_and_the_earlier_of_two() {
        // Plain sense: panel p, boxes a and b, opening o.
        let runs = [("p", "a"), ("a", "b"), ("b", "o"), ("a", "o"), ("p", "b")];
        let graph = |count: usize| RunGraph::of(runs[..count].iter().map(|(one, other)| (one, other)).collect());
        assert_eq!(graph(5).shortest_path(&"o", |end| *end == "p"), [4, 2]);
        assert_eq!(graph(4).shortest_path(&"o", |end| *end == "p"), [0, 3]);
        assert!(graph(1).shortest_path(&"o", |end| *end == "p").is_empty());
        assert!(graph(5).shortest_path(&"p", |end| *end == "p").is_empty());
    }
}
