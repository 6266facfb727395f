//! What every paper of a job would say, before it is set on pages.
//!
//! In: what papers are made from. Out: views as data, by the stem of the paper's file. May not know: templates, pages.

use std::collections::BTreeMap;

use serde::Serialize;
use serde_json::Value;

use super::Priced;
use crate::documents::{self, Draft, Moved, Offer, Sources};
use crate::lettering::Faces;
use crate::shapes::Drawing;

/// What a paper would say, and what it would show.
pub(super) struct View {
    /// Its view.
    pub says: Value,
    /// Its drawings by key.
    pub shows: BTreeMap<String, Drawing>,
}

/// The views of all papers of a job.
pub(super) fn views(sources: &Sources, priced: &Priced) -> BTreeMap<String, View> {
    let mut all = BTreeMap::new();
    if let Some(estimate) = &priced.estimate {
        let (alternates, interactions) = (&priced.alternates, &priced.interactions);
        add(&mut all, "bid", Draft::plain(documents::bid(sources, Offer { estimate, alternates })));
        add(&mut all, "recap-internal", Draft::plain(documents::recap(sources, estimate, alternates, interactions)));
    }
    add(&mut all, "schedule", documents::schedule(sources));
    add(&mut all, "survey", documents::survey(sources));
    for (at, site) in sources.takeoff.arrangement.sites.iter().enumerate() {
        add(&mut all, &format!("packet-{}", site.id), documents::packet(sources, at, &Moved::new()));
    }
    add(&mut all, "register", Draft::plain(documents::register(sources)));
    add(&mut all, "review", Draft::plain(documents::review_sheet(sources)));
    add(&mut all, "drawings", documents::drawing_set(sources, &Faces::built_in()));
    add(&mut all, "needs", Draft::plain(documents::needs(sources)));
    add(
        &mut all,
        "questions",
        Draft::plain(documents::question_list(sources, priced.estimate.as_ref(), &priced.answers)),
    );
    all
}

fn add<V: Serialize>(all: &mut BTreeMap<String, View>, stem: &str, draft: Draft<V>) {
    // A view is texts and lists of texts, which always serialise.
    let says = serde_json::to_value(&draft.view).unwrap_or_default();
    all.insert(stem.to_owned(), View { says, shows: draft.drawings });
}
