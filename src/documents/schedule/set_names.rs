//! Names of hardware sets.
//!
//! In: positions of sets. Out: their names. May not know: what is in a set.

/// The name of a set by its position.
pub(super) fn set_name(at: usize) -> String {
    format!("S{}", at + 1)
}

/// Sets by position, consecutive ones as a range.
pub(super) fn set_names(sets: &[usize]) -> String {
    let mut ranges: Vec<(usize, usize)> = Vec::new();
    for set in sets {
        match ranges.last_mut() {
            Some((_, last)) if *last + 1 == *set => *last = *set,
            _ => ranges.push((*set, *set)),
        }
    }
    let words = |(first, last): (usize, usize)| match last - first {
        0 => set_name(first),
        1 => format!("{}, {}", set_name(first), set_name(last)),
        _ => format!("{}–{}", set_name(first), set_name(last)),
    };
    ranges.into_iter().map(words).collect::<Vec<_>>().join(", ")
}
