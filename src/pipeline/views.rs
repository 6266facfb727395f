//! What every paper of a job would say, before it is set on pages.
//!
//! In: what papers are made from. Out: views as data, by the stem of the paper's file. May not know: templates, pages.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Serialize;
use serde_json::Value;

use super::Priced;
use super::drafts::{DraftInputs, DraftVisitor, Named, drafts};
use crate::documents::{self, Draft, Moved, PackageDraft, Sources};
use crate::findings::Paper;
use crate::fonts::Faces;
use crate::shapes::Drawing;

/// What a paper would say, and what it would show.
pub(super) struct View {
    /// Its view.
    pub says: Value,
    /// Its drawings by key.
    pub shows: BTreeMap<String, Arc<Drawing>>,
    /// Digests of the files that may be enclosed, by their paths in the catalog.
    pub encloses: BTreeMap<String, String>,
}

/// Keeps what drafts say.
struct ViewCollector<'s> {
    sources: &'s Sources<'s>,
    encloses: &'s BTreeMap<String, String>,
}

impl DraftVisitor for ViewCollector<'_> {
    type Output = (String, View);

    fn take<V: Serialize>(&self, named: Named, draft: Draft<V>) -> Self::Output {
        // A view is texts and lists of texts, which always serialise.
        let says = serde_json::to_value(&draft.view).unwrap_or_default();
        (named.stem.to_owned(), View { says, shows: draft.drawings, encloses: self.encloses.clone() })
    }

    fn take_package(&self, named: Named, draft: PackageDraft) -> Self::Output {
        self.take(named, draft.front)
    }

    /// As it is before anything moves to its site sheet.
    fn take_packet(&self, named: Named, site: usize) -> Self::Output {
        self.take(named, documents::packet(self.sources, site, &Moved::new()))
    }
}

/// The views of all papers of a job, drawings measured in the faces that ship with the tool: whether two states differ does not
/// hang on the typeface.
pub(super) fn views(sources: &Sources, priced: &Priced, encloses: &BTreeMap<String, String>) -> BTreeMap<String, View> {
    let faces = Faces::built_in();
    let making = DraftInputs { sources, priced, faces: &faces };
    Paper::ALL.into_iter().flat_map(|paper| drafts(paper, making, &ViewCollector { sources, encloses })).collect()
}
