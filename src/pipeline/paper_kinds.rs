//! Every paper with what sets it apart from the others: one row a paper.
//!
//! In: nothing. Out: rows, and the sets of papers that a column says yes to. May not know: what a paper prints.

use crate::findings::{Paper, Papers};

/// A paper as it is made.
pub(super) struct PaperKind {
    /// Which.
    pub paper: Paper,
    /// Stem of its file; a paper made once a site or transmittal puts more behind it.
    pub stem: &'static str,
    /// The template it is set with.
    pub template: &'static str,
    /// Papers that hold it too: they show the same openings, and a reviewer reads them side by side; nothing is ordered from
    /// what a crew may not work by.
    pub held_with: Papers,
    /// Rests on the estimate, which is none where a line has no price: what is to buy is rounded up there.
    pub needs_estimate: bool,
    /// Prints what was accepted, of the findings of other papers too, so it is made last.
    pub prints_acceptances: bool,
    /// Goes out, and is marked where it says something else than the issue before.
    pub is_marked: bool,
    /// Is read on a phone or a screen too: written as one HTML file beside its pages.
    pub for_browser: bool,
    /// Has drawings of every opening of the job at once: of those only one is in memory at a time.
    pub is_large: bool,
}

/// A paper that nothing sets apart.
const fn plain(paper: Paper, template: &'static str) -> PaperKind {
    PaperKind {
        paper,
        stem: paper.word(),
        template,
        held_with: Papers::NONE,
        needs_estimate: false,
        prints_acceptances: false,
        is_marked: false,
        for_browser: false,
        is_large: false,
    }
}

/// One row for each paper, in their order.
pub(super) const PAPER_KINDS: [PaperKind; Paper::ALL.len()] = [
    PaperKind { needs_estimate: true, prints_acceptances: true, ..plain(Paper::Bid, "bid.xml") },
    PaperKind {
        stem: "recap-internal",
        needs_estimate: true,
        prints_acceptances: true,
        ..plain(Paper::Recap, "recap.xml")
    },
    PaperKind { is_marked: true, ..plain(Paper::Schedule, "schedule.xml") },
    PaperKind { is_large: true, ..plain(Paper::Survey, "survey.xml") },
    PaperKind { is_marked: true, for_browser: true, ..plain(Paper::Packet, "packet.xml") },
    PaperKind { prints_acceptances: true, ..plain(Paper::Review, "review.xml") },
    plain(Paper::Questions, "questions.xml"),
    PaperKind { is_marked: true, ..plain(Paper::Needs, "needs.xml") },
    PaperKind { is_marked: true, ..plain(Paper::Register, "register.xml") },
    PaperKind {
        held_with: Papers::of(&[Paper::Packet]),
        needs_estimate: true,
        is_marked: true,
        ..plain(Paper::Orders, "orders.xml")
    },
    PaperKind {
        held_with: Papers::of(&[Paper::Schedule]),
        is_marked: true,
        for_browser: true,
        is_large: true,
        ..plain(Paper::Drawings, "drawings.xml")
    },
    PaperKind {
        held_with: Papers::of(&[Paper::Schedule]),
        is_marked: true,
        is_large: true,
        ..plain(Paper::Submittal, "submittal.xml")
    },
];

/// The row of a paper.
pub(super) fn kind_of(paper: Paper) -> &'static PaperKind {
    &PAPER_KINDS[paper as usize]
}

/// The papers that a column says yes to.
pub(super) fn papers_where(column: impl Fn(&PaperKind) -> bool) -> Papers {
    let chosen = PAPER_KINDS.iter().filter(|kind| column(kind));
    chosen.fold(Papers::NONE, |papers, kind| papers.with(Papers::of(&[kind.paper])))
}

/// The same papers with those that are held with one of them.
pub(super) fn with_held(held: Papers) -> Papers {
    held.with(papers_where(|kind| kind.held_with.iter().any(|paper| held.has(paper))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pipeline::built_in_templates;

    #[test]
    fn each_paper_has_its_row_and_its_template() {
        let templates: Vec<String> = built_in_templates().map(|(path, _)| path).collect();
        for paper in Paper::ALL {
            let kind = kind_of(paper);
            assert_eq!(kind.paper, paper);
            assert!(templates.iter().any(|path| path.ends_with(&format!("/{}", kind.template))), "{}", kind.template);
        }
    }

    /// What is held with a paper is held by no other chain: one pass over the rows is enough.
    #[test]
    fn papers_are_held_with_papers_that_stand_for_themselves() {
        for kind in &PAPER_KINDS {
            assert!(kind.held_with.iter().all(|paper| kind_of(paper).held_with.is_empty()), "{:?}", kind.paper);
        }
        let held = with_held(Papers::of(&[Paper::Schedule]));
        assert_eq!(held, Papers::of(&[Paper::Schedule, Paper::Drawings, Paper::Submittal]));
    }
}
