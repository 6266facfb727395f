//! Submittal packages as one block tree, with the papers that they hold bound into it.
//!
//! In: the draft of a package, templates. Out: its tree and all its drawings, or what stood in its way. May not know: pages.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::paper_kinds::kind_of;
use crate::documents::{Draft, PackageDraft};
use crate::findings::{Findings, Paper};
use crate::job::SubmittalPart;
use crate::markup::{Bound, Templates, Tree};
use crate::shapes::Drawing;

/// A tree and the drawings that it shows, by their keys.
pub(super) type Shown = (Tree, BTreeMap<String, Arc<Drawing>>);

/// A package with what it holds bound behind the sheets that name it.
pub(super) fn bound(
    templates: &Templates,
    template: &str,
    draft: PackageDraft,
    findings: &mut Findings,
) -> Option<Shown> {
    let Draft { view, drawings: mut shown, .. } = draft.front;
    let front = templates.render(template, &view, findings)?;
    let mut papers = Vec::new();
    for paper in &view.bound {
        let (word, tree) = match (paper.part, &draft.schedule, &draft.drawings) {
            (SubmittalPart::Schedule, Some(own), _) => {
                ("schedule", templates.render(kind_of(Paper::Schedule).template, &own.view, findings)?)
            }
            (SubmittalPart::ShopDrawings, _, Some(own)) => {
                shown.extend(own.drawings.iter().map(|(key, drawing)| (key.clone(), drawing.clone())));
                ("drawings", templates.render(kind_of(Paper::Drawings).template, &own.view, findings)?)
            }
            _ => continue,
        };
        papers.push(Bound { behind: paper.id.clone(), word, tree });
    }
    Some((front.bind(papers), shown))
}
