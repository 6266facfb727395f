//! The shortest way through a graph of runs.
//!
//! In: runs by their two ends. Out: positions of runs. May not know: what runs carry, lengths.

use std::collections::{BTreeMap, VecDeque};

/// The runs on the way from an end to the nearest end that `reached` accepts: the fewest runs, and of those the earlier.
/// None where no way leads there.
pub fn shortest_way<E: Ord>(runs: &[(&E, &E)], from: &E, reached: impl Fn(&E) -> bool) -> Vec<usize> {
    let mut came: BTreeMap<&E, Option<(usize, &E)>> = BTreeMap::from([(from, None)]);
    let mut queue = VecDeque::from([from]);
    while let Some(end) = queue.pop_front() {
        if reached(end) {
            return back(&came, end);
        }
        for (at, (one, other)) in runs.iter().enumerate() {
            let next = match (*one == end, *other == end) {
                (true, false) => *other,
                (false, true) => *one,
                _ => continue,
            };
            if !came.contains_key(next) {
                came.insert(next, Some((at, end)));
                queue.push_back(next);
            }
        }
    }
    Vec::new()
}

fn back<'e, E: Ord>(came: &BTreeMap<&'e E, Option<(usize, &'e E)>>, mut end: &'e E) -> Vec<usize> {
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
        let runs: Vec<(&&str, &&str)> = runs.iter().map(|(one, other)| (one, other)).collect();
        assert_eq!(shortest_way(&runs, &"o", |end| *end == "p"), [4, 2]);
        assert_eq!(shortest_way(&runs[..4], &"o", |end| *end == "p"), [0, 3]);
        assert!(shortest_way(&runs[..1], &"o", |end| *end == "p").is_empty());
        assert!(shortest_way(&runs, &"p", |end| *end == "p").is_empty());
    }
}
