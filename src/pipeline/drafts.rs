//! The papers of a job as drafts: which view goes into which template and under which name of a file. The one list of them.
//!
//! In: what papers are made from. Out: each draft, handed to whoever takes it. May not know: what becomes of a draft.

use serde::Serialize;

use super::Priced;
use super::paper_kinds::{PaperKind, kind_of};
use crate::documents::{self, Draft, Offer, PackageDraft, Sources};
use crate::findings::Paper;
use crate::fonts::Faces;

/// A paper on its way: which, the stem of its file name, and the template it is set with.
#[derive(Clone, Copy)]
pub(super) struct Named<'n> {
    pub paper: Paper,
    pub stem: &'n str,
    pub template: &'static str,
}

/// Whoever takes drafts, to set them on pages or to keep what they say.
pub(super) trait DraftVisitor {
    /// What becomes of a draft.
    type Output;

    /// Takes a draft.
    fn take<V: Serialize>(&self, named: Named, draft: Draft<V>) -> Self::Output;

    /// Takes a submittal package, into which other papers are bound.
    fn take_package(&self, named: Named, draft: PackageDraft) -> Self::Output;

    /// Takes the packet of a site, which is made again until it fits its sheets.
    fn take_packet(&self, named: Named, site: usize) -> Self::Output;
}

/// What drafts are made from.
#[derive(Clone, Copy)]
pub(super) struct DraftInputs<'m> {
    pub sources: &'m Sources<'m>,
    pub priced: &'m Priced<'m>,
    pub faces: &'m Faces,
}

/// Hands over the drafts of a paper: one, or one a site or transmittal; none of a paper that rests on the estimate where there is
/// none.
pub(super) fn drafts<T: DraftVisitor>(paper: Paper, making: DraftInputs, taker: &T) -> Vec<T::Output> {
    let DraftInputs { sources, priced, faces } = making;
    let PaperKind { stem, template, .. } = *kind_of(paper);
    let named = Named { paper, stem, template };
    let estimate = priced.estimate.as_ref();
    let one = match (paper, estimate) {
        (Paper::Bid, Some(estimate)) => {
            let view = documents::bid(sources, Offer { estimate, alternates: &priced.alternates });
            taker.take(named, Draft::plain(view))
        }
        (Paper::Recap, Some(estimate)) => {
            let view = documents::recap(sources, estimate, &priced.alternates, &priced.interactions, &priced.answers);
            taker.take(named, Draft::plain(view))
        }
        (Paper::Orders, Some(estimate)) => taker.take(named, documents::orders(sources, estimate)),
        (Paper::Bid | Paper::Recap | Paper::Orders, None) => return Vec::new(),
        (Paper::Packet, _) => {
            let sites = sources.takeoff.arrangement.sites.iter().enumerate();
            let each = sites.map(|(at, site)| {
                let stem = format!("{stem}-{}", site.id);
                taker.take_packet(Named { stem: &stem, ..named }, at)
            });
            return each.collect();
        }
        (Paper::Submittal, _) => {
            let each = documents::packages(sources).into_iter().filter_map(|at| {
                let stem = documents::package_stem(sources, at);
                let draft = documents::submittal(sources, at, faces)?;
                Some(taker.take_package(Named { stem: &stem, ..named }, draft))
            });
            return each.collect();
        }
        (Paper::Schedule, _) => taker.take(named, documents::schedule(sources)),
        (Paper::Survey, _) => taker.take(named, documents::survey(sources)),
        (Paper::Review, _) => taker.take(named, Draft::plain(documents::review_sheet(sources))),
        (Paper::Questions, _) => {
            let view = documents::question_list(sources, estimate, &priced.answers);
            taker.take(named, Draft::plain(view))
        }
        (Paper::Needs, _) => taker.take(named, Draft::plain(documents::needs(sources))),
        (Paper::Register, _) => taker.take(named, Draft::plain(documents::register(sources))),
        (Paper::Drawings, _) => taker.take(named, documents::drawing_set(sources, faces)),
    };
    vec![one]
}
