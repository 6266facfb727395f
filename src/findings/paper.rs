//! The papers a job can have, so that a finding can say which of them it holds.
//!
//! In: nothing. Out: names of papers and sets of them. May not know: what a paper holds.

/// A paper that `issue` can write. The order is the order in which papers are written and listed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Paper {
    /// The offer that leaves the office.
    Bid,
    /// The estimate behind it, which does not.
    Recap,
    /// The hardware schedule.
    Schedule,
    /// The blank form taken to the site.
    Survey,
    /// One packet per site for the crew.
    Packet,
    /// What the review found, a sheet a site.
    Review,
    /// Questions that are open, with what hangs on them.
    Questions,
    /// What others must do before we can, a page a receiver.
    Needs,
    /// What is submitted and ordered, with the last days for it.
    Register,
    /// What is bought, a list a supplier, with what is released to be ordered.
    Orders,
    /// Shop drawings: a sheet an opening, the wiring of every site.
    Drawings,
    /// A package for each transmittal: what the reviewer gets under one section.
    Submittal,
}

impl Paper {
    /// Every paper, in order.
    pub const ALL: [Paper; 12] = [
        Paper::Bid,
        Paper::Recap,
        Paper::Schedule,
        Paper::Survey,
        Paper::Packet,
        Paper::Review,
        Paper::Questions,
        Paper::Needs,
        Paper::Register,
        Paper::Orders,
        Paper::Drawings,
        Paper::Submittal,
    ];

    /// The word that a person types for it, and the stem of its file name.
    pub const fn word(self) -> &'static str {
        match self {
            Paper::Bid => "bid",
            Paper::Recap => "recap",
            Paper::Schedule => "schedule",
            Paper::Survey => "survey",
            Paper::Packet => "packet",
            Paper::Review => "review",
            Paper::Questions => "questions",
            Paper::Needs => "needs",
            Paper::Register => "register",
            Paper::Orders => "orders",
            Paper::Drawings => "drawings",
            Paper::Submittal => "submittal",
        }
    }
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
