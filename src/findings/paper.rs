//! The papers a job can have, so that a finding can say which of them it holds.
//!
//! In: nothing. Out: names of papers and sets of them. May not know: what a paper holds.

/// Declares the papers, each with its word, in one list.
macro_rules! papers {
    ($($(#[$what:meta])* $name:ident = $word:literal,)*) => {
        /// A paper that `issue` can write. The order is the order in which papers are written and listed.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Paper {
            $($(#[$what])* $name,)*
        }

        impl Paper {
            /// Every paper, in order.
            pub const ALL: [Paper; [$($word),*].len()] = [$(Paper::$name),*];

            /// The word that a person types for it, and the stem of its file name.
            pub const fn word(self) -> &'static str {
                match self {
                    $(Paper::$name => $word,)*
                }
            }
        }
    };
}

papers! {
    /// The offer that leaves the office.
    Bid = "bid",
    /// The estimate behind it, which does not.
    Recap = "recap",
    /// The hardware schedule.
    Schedule = "schedule",
    /// The blank form taken to the site.
    Survey = "survey",
    /// One packet per site for the crew.
    Packet = "packet",
    /// What the review found, a sheet a site.
    Review = "review",
    /// Questions that are open, with what hangs on them.
    Questions = "questions",
    /// What others must do before we can, a page a receiver.
    Needs = "needs",
    /// What is submitted and ordered, with the last days for it.
    Register = "register",
    /// What is bought, a list a supplier, with what is released to be ordered.
    Orders = "orders",
    /// Shop drawings: a sheet an opening, the wiring of every site.
    Drawings = "drawings",
    /// A package for each transmittal: what the reviewer gets under one section.
    Submittal = "submittal",
}

/// A set of papers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Papers(u32);

impl Papers {
    /// No paper.
    pub const NONE: Papers = Papers(0);
    /// Every paper.
    pub const ALL: Papers = Papers::of(&Paper::ALL);

    /// The set of the papers listed.
    pub const fn of(papers: &[Paper]) -> Papers {
        let mut bits = 0;
        let mut at = 0;
        while at < papers.len() {
            bits |= 1 << papers[at] as u32;
            at += 1;
        }
        Papers(bits)
    }

    /// Whether no paper is in the set.
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Whether the paper is in the set.
    pub fn has(self, paper: Paper) -> bool {
        self.0 & (1 << paper as u32) != 0
    }

    /// Both sets together.
    pub const fn with(self, other: Papers) -> Papers {
        Papers(self.0 | other.0)
    }

    /// The papers of the set, in order.
    pub fn iter(self) -> impl Iterator<Item = Paper> {
        Paper::ALL.into_iter().filter(move |paper| self.has(*paper))
    }
}
