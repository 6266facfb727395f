//! Names by which figures can be asked for.
//!
//! In: a ledger. Out: a name for each figure, and the figure of a name. May not know: who asks.
//!
//! A name is what the figure is called, in small letters and digits with hyphens between: `base-bid`. It does not change with
//! the figure's value. Of several figures that are called the same the last one made, on which the others bear, has the plain
//! name; those before it have `.2`, `.3` and so on, counted back.

use std::collections::BTreeMap;

use crate::ledger::{FigureId, Ledger};

/// Names of all figures of a ledger.
pub(super) struct Names {
    names: Vec<String>,
    figures: BTreeMap<String, FigureId>,
}

impl Names {
    /// Names every figure.
    pub(super) fn of(ledger: &Ledger) -> Self {
        let mut names = vec![String::new(); ledger.len()];
        let mut uses: BTreeMap<String, usize> = BTreeMap::new();
        let mut figures = BTreeMap::new();
        for id in ledger.ids().rev() {
            let plain = hyphened(ledger.figure(id).name);
            let number = uses.entry(plain.clone()).or_default();
            *number += 1;
            let name = if *number == 1 { plain } else { format!("{plain}.{number}") };
            figures.insert(name.clone(), id);
            names[id.index()] = name;
        }
        Names { names, figures }
    }

    /// The name of a figure.
    pub(super) fn name(&self, id: FigureId) -> &str {
        &self.names[id.index()]
    }

    /// The figure of a name.
    pub(super) fn figure(&self, name: &str) -> Option<FigureId> {
        self.figures.get(name).copied()
    }
}

/// Small letters and digits, one hyphen for all that stands between.
fn hyphened(text: &str) -> String {
    let words = text.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect::<Vec<_>>().join("-")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::{Called, Reason};
    use crate::measure::Quantity;

    #[test]
    fn a_name_is_made_of_words_and_counts_back() {
        let mut ledger = Ledger::new();
        let reason = ledger.reason(Reason::Clause("one".into()));
        let one = ledger.given(Quantity::count(1), Called::new("EMT, 1/2 in", reason)).unwrap();
        let two = ledger.sum(&[one, one], Called::arithmetic("base bid")).unwrap();
        let all = ledger.sum(&[two, one], Called::arithmetic("Base bid")).unwrap();
        let names = Names::of(&ledger);
        assert_eq!([one, two, all].map(|id| names.name(id)), ["emt-1-2-in", "base-bid.2", "base-bid"]);
        assert_eq!(names.figure("base-bid.2"), Some(two));
        assert_eq!(names.figure("base bid"), None);
    }
}
