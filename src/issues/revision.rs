//! The revision that follows another.
//!
//! In: a revision. Out: the next. May not know: whether it is taken.

/// Letters that are not used for revisions of drawings, since they are read as figures or as other letters (ASME Y14.35,
/// from memory).
const LEFT_OUT: [u8; 6] = [b'I', b'O', b'Q', b'S', b'X', b'Z'];

/// The next revision in letters (`A`, `B`, … `Y`, `AA`) or in figures (`0`, `1`); none where a revision is neither.
pub fn next(revision: &str) -> Option<String> {
    if let Ok(number) = revision.parse::<u32>() {
        return Some(number.checked_add(1)?.to_string());
    }
    let letters = revision.as_bytes();
    if letters.is_empty() || letters.len() > 4 || !letters.iter().all(u8::is_ascii_uppercase) {
        return None;
    }
    let mut next = letters.to_vec();
    for at in (0..next.len()).rev() {
        match (next[at] + 1..=b'Z').find(|letter| !LEFT_OUT.contains(letter)) {
            Some(letter) => {
                next[at] = letter;
                return String::from_utf8(next).ok();
            }
            None => next[at] = b'A',
        }
    }
    next.insert(0, b'A');
    String::from_utf8(next).ok()
}

#[cfg(test)]
mod tests {
    use super::next;

    #[test]
    fn letters_and_figures_go_on() {
        let follows =
            [("A", "B"), ("H", "J"), ("N", "P"), ("Y", "AA"), ("AY", "BA"), ("YY", "AAA"), ("0", "1"), ("9", "10")];
        for (one, other) in follows {
            assert_eq!(next(one).as_deref(), Some(other), "after {one}");
        }
        for neither in ["", "a", "P1", "Rev-2", "4294967295"] {
            assert_eq!(next(neither), None, "{neither}");
        }
    }
}
