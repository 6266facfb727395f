//! The making of papers: drafts rendered, marked, set on pages, and written in every form that a paper goes out in.
//!
//! In: what papers are made from, templates, the issue before. Out: papers as bytes, or what stood in their way. May not know: what
//! is held, and in which order papers are asked for.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rayon::prelude::*;
use serde::Serialize;
use sha2::{Digest, Sha256};

use super::binding::bound;
use super::drafts::{DraftInputs, DraftVisitor, Named, drafts};
use super::earlier::EarlierPriced;
use super::issue::{Form, IssuedPaper, PaperStore};
use super::paper_kinds::kind_of;
use super::sheets::{overfull, pages_of_sheets};
use super::{Priced, hex, net};
use crate::comparison::Renaming;
use crate::documents::{self, Draft, Moved, PackageDraft, Sources};
use crate::findings::{Findings, Paper, Papers};
use crate::fonts::Faces;
use crate::html::{self, StorageNames};
use crate::markup::{EarlierTree, Templates, Tree, mark_changes};
use crate::pdf::{self, Claim, Day, Properties};
use crate::pdf_import;
use crate::shapes::Drawing;
use crate::spreadsheet::{self, Table};
use crate::typeset::{Pages, Shown, Theme, typeset};

/// What every paper is made with.
pub(super) struct RenderSetup<'d> {
    pub templates: Templates,
    pub faces: Faces,
    pub theme: Theme,
    pub fingerprint: &'d str,
}

/// What papers are made of.
pub(super) struct PaperRenderer<'p> {
    pub setup: &'p RenderSetup<'p>,
    pub sources: Sources<'p>,
    pub priced: &'p Priced<'p>,
    /// The issue before, where one was recorded.
    pub before: Option<&'p EarlierPriced<'p>>,
    /// The names that openings of that issue go by now.
    pub renaming: &'p Renaming,
    /// To be called for each paper that came out or did not.
    pub count: &'p (dyn Fn() + Sync),
    /// Where files of papers go once they are made.
    pub store: &'p dyn PaperStore,
}

/// A paper as it was in the issue before: its tree, and its drawings by key.
type EarlierPaper = (Tree, BTreeMap<String, Arc<Drawing>>);
/// The same by the stem of its file.
type EarlierPapers = BTreeMap<String, EarlierPaper>;

/// A paper on its pages: its tree, with marks, and its drawings by key.
struct Set {
    tree: Tree,
    pages: Pages,
    drawings: BTreeMap<String, Arc<Drawing>>,
}

/// The making of one paper, with what it was.
struct PaperRendering<'p> {
    renderer: &'p PaperRenderer<'p>,
    earlier_papers: EarlierPapers,
}

/// Papers that came out, those that did not, and what was found while they were made.
#[derive(Default)]
pub(super) struct Batch {
    pub papers: Vec<IssuedPaper>,
    pub held: Papers,
    pub findings: Findings,
}

/// A paper in its forms with what there is to say of it, or what stood in its way.
type Rendered = Result<(Vec<IssuedPaper>, Findings), (Paper, Findings)>;

impl PaperRenderer<'_> {
    /// Makes papers in parallel; results come in the order of the list.
    pub fn papers(&self, list: Vec<Paper>) -> Batch {
        made(list, |paper| {
            let rendered = self.paper(paper);
            (self.count)();
            rendered
        })
    }

    fn paper(&self, paper: Paper) -> Vec<Rendered> {
        let making = DraftInputs { sources: &self.sources, priced: self.priced, faces: &self.setup.faces };
        drafts(paper, making, &PaperRendering { renderer: self, earlier_papers: self.earlier_papers(paper) })
    }

    /// What a paper was in the issue before; nothing where it carries no marks.
    fn earlier_papers(&self, paper: Paper) -> EarlierPapers {
        let Some(before) = self.before.filter(|_| kind_of(paper).is_marked) else { return EarlierPapers::new() };
        let making =
            DraftInputs { sources: &before.sources(&self.sources), priced: before.price(), faces: &self.setup.faces };
        drafts(paper, making, &EarlierRendering { templates: &self.setup.templates }).into_iter().flatten().collect()
    }

    /// Made again with more moved to its site sheet until each opening keeps to its pages.
    fn fitted_packet(&self, named: Named, site: usize) -> Rendered {
        let mut moved = Moved::new();
        loop {
            let draft = documents::packet(&self.sources, site, &moved);
            let was = self.earlier_packet(named, site, &moved);
            let set = self.set(named, draft, was.as_ref()).map_err(|found| (named.paper, found))?;
            let (full, longer) = overfull(&self.sources, &pages_of_sheets(&set.tree, &set.pages), &moved);
            if full.is_empty() {
                let mut findings = Findings::default();
                documents::moved_finding(&self.sources, site, &moved, &longer)
                    .into_iter()
                    .for_each(|it| findings.push(it));
                return Ok((self.forms(named, set)?, findings));
            }
            drop(set);
            self.move_more(named, site, full, &mut moved);
        }
    }

    /// Moves more of the openings that take too many pages, step by step, and sets their sheets alone to see whether it is enough. The
    /// whole packet, made after it, shows whether it is.
    fn move_more(&self, named: Named, site: usize, mut full: Vec<String>, moved: &mut Moved) {
        while !full.is_empty() {
            full.iter().for_each(|mark| *moved.entry(mark.clone()).or_insert(0) += 1);
            let alone: BTreeSet<String> = full.into_iter().collect();
            let draft = documents::packet_of(&self.sources, site, moved, |mark| alone.contains(mark));
            let Ok(set) = self.set(named, draft, None) else { return };
            full = overfull(&self.sources, &pages_of_sheets(&set.tree, &set.pages), moved).0;
        }
    }

    /// The packet of a site in the issue before, with the same parts moved to its site sheet. A site that is new has a packet
    /// that is new as a whole, without marks.
    fn earlier_packet(&self, named: Named, site: usize, moved: &Moved) -> Option<EarlierPaper> {
        let before = self.before?.sources(&self.sources);
        let id = &self.sources.takeoff.arrangement.sites[site].id;
        let at = before.takeoff.arrangement.sites.iter().position(|it| it.id == *id)?;
        let was =
            EarlierRendering { templates: &self.setup.templates }.take(named, documents::packet(&before, at, moved));
        was.map(|(_, paper)| paper)
    }

    /// A draft on its pages, with marks where it has changed; or what stood in its way.
    /// What was rendered is let go before it is set.
    fn set<V: Serialize>(&self, named: Named, draft: Draft<V>, was: Option<&EarlierPaper>) -> Result<Set, Findings> {
        let mut findings = Findings::default();
        let Draft { view, drawings, .. } = draft;
        let tree = self.setup.templates.render(named.template, &view, &mut findings);
        drop(view);
        match tree {
            Some(tree) => self.mark_and_set(tree, drawings, was, findings),
            None => Err(findings),
        }
    }

    /// A package on its pages, likewise.
    fn set_package(&self, named: Named, draft: PackageDraft, was: Option<&EarlierPaper>) -> Result<Set, Findings> {
        let mut findings = Findings::default();
        match bound(&self.setup.templates, named.template, draft, &mut findings) {
            Some((tree, shown)) => self.mark_and_set(tree, shown, was, findings),
            None => Err(findings),
        }
    }

    fn mark_and_set(
        &self,
        mut tree: Tree,
        drawings: BTreeMap<String, Arc<Drawing>>,
        was: Option<&EarlierPaper>,
        mut findings: Findings,
    ) -> Result<Set, Findings> {
        let revision = self.sources.reviewed.job().head.revision.as_deref().map(Arc::from);
        if let (Some((was, then_shown)), Some(mark)) = (was, revision) {
            let then = EarlierTree { tree: was, drawings: then_shown, now: &|name| self.renaming.part(name) };
            mark_changes(&mut tree, &drawings, then, &mark);
        }
        let shown = Shown { drawings: &drawings, enclosures: self.sources.enclosures };
        match typeset(&tree, &self.setup.faces, &self.setup.theme, shown, &mut findings) {
            Some(pages) => Ok(Set { tree, pages, drawings }),
            None => Err(findings),
        }
    }

    /// A paper in every form that it goes out in, pages first.
    fn forms(&self, named: Named, set: Set) -> Result<Vec<IssuedPaper>, (Paper, Findings)> {
        let Set { tree, pages, drawings } = set;
        let mut forms = vec![self.pages(named, &tree, &pages)?];
        drop(pages);
        if kind_of(named.paper).for_browser {
            forms.push(self.browser(named, &tree, &drawings));
        }
        Ok(forms)
    }

    /// The same tree as one file for a browser.
    fn browser(&self, named: Named, tree: &Tree, drawings: &BTreeMap<String, Arc<Drawing>>) -> IssuedPaper {
        let title = format!("Job {}, {}", self.sources.reviewed.job().head.number, named.stem);
        let keeping = StorageNames { title: &title, fingerprint: self.sources.fingerprint };
        let bytes = html::write(tree, drawings, &self.setup.faces, keeping).into_bytes();
        self.stored(named, Form::Html, bytes, Vec::new())
    }

    /// A file of a paper, handed to the store as soon as it is made.
    fn stored(&self, named: Named, form: Form, bytes: Vec<u8>, revised: Vec<usize>) -> IssuedPaper {
        let name = format!("{}.{}", named.stem, form.extension());
        let sha256 = hex(Sha256::digest(&bytes).as_slice());
        let bytes = self.store.put(&name, bytes);
        IssuedPaper { paper: named.paper, form, name, sha256, bytes, revised }
    }

    fn pages(&self, named: Named, tree: &Tree, pages: &Pages) -> Result<IssuedPaper, (Paper, Findings)> {
        let head = &self.sources.reviewed.job().head;
        let properties = Properties {
            author: self.sources.catalog.firm.name.clone(),
            subject: format!("Job {}", head.number),
            date: Some(Day { year: head.date.year(), month: head.date.month(), day: head.date.day() }),
            fingerprint: self.setup.fingerprint.to_owned(),
            claim: Claim::Accessible,
            internal: named.paper == Paper::Recap,
        };
        let bytes = pdf::write(pages, tree, &self.setup.faces, &properties);
        let bytes = bytes.map_err(|found| (named.paper, found))?;
        Ok(self.stored(named, Form::Pdf, bytes, pages.revised()))
    }
}

/// Makes papers in parallel, but large ones one after the other, so that a job of a thousand openings takes less memory. Each has
/// a net under it: one whose making ends in a fault of the program is held, and the others are made.
fn made(list: Vec<Paper>, make: impl Fn(Paper) -> Vec<Rendered> + Sync) -> Batch {
    let one = |paper: Paper| {
        let fault = |said: String| vec![Err((paper, net::paper_not_made(paper, &said)))];
        net::caught(|| make(paper)).unwrap_or_else(fault)
    };
    let (large, rest): (Vec<Paper>, Vec<Paper>) = list.into_iter().partition(|paper| kind_of(*paper).is_large);
    let one_by_one = || large.into_iter().flat_map(one).collect::<Vec<Rendered>>();
    let (of_large, of_rest) = rayon::join(one_by_one, || rest.into_par_iter().flat_map_iter(one).collect::<Vec<_>>());
    let mut rendered: Vec<Rendered> = of_large.into_iter().chain(of_rest).collect();
    rendered.sort_by_key(|one| match one {
        Ok((forms, _)) => forms.first().map(|form| form.paper),
        Err((paper, _)) => Some(*paper),
    });
    let mut batch = Batch::default();
    for one in rendered {
        let found = match one {
            Ok((forms, found)) => {
                batch.papers.extend(forms);
                found
            }
            Err((paper, found)) => {
                batch.held = batch.held.with(Papers::of(&[paper]));
                found
            }
        };
        batch.findings.extend(found);
    }
    batch
}

/// Renders papers of the issue before. What is wrong with a template is found with the paper itself.
struct EarlierRendering<'f> {
    templates: &'f Templates,
}

impl DraftVisitor for EarlierRendering<'_> {
    type Output = Option<(String, EarlierPaper)>;

    fn take<V: Serialize>(&self, named: Named, draft: Draft<V>) -> Self::Output {
        let tree = self.templates.render(named.template, &draft.view, &mut Findings::default())?;
        Some((named.stem.to_owned(), (tree, draft.drawings)))
    }

    /// Kept under its transmittal: what is sent again has another number.
    fn take_package(&self, named: Named, draft: PackageDraft) -> Self::Output {
        let transmittal = draft.transmittal.clone();
        let paper = bound(self.templates, named.template, draft, &mut Findings::default())?;
        Some((transmittal, paper))
    }

    /// A packet is rendered with the same parts moved as the one it is compared with.
    fn take_packet(&self, _: Named, _: usize) -> Self::Output {
        None
    }
}

impl DraftVisitor for PaperRendering<'_> {
    type Output = Rendered;

    fn take<V: Serialize>(&self, named: Named, mut draft: Draft<V>) -> Rendered {
        let (was, table) = (self.earlier_papers.get(named.stem), draft.table.take());
        let set = self.renderer.set(named, draft, was).map_err(|found| (named.paper, found))?;
        let mut forms = self.renderer.forms(named, set)?;
        let lines = |table: &Table| spreadsheet::csv(&table.heads, &table.rows);
        forms.extend(table.iter().map(|table| self.renderer.stored(named, Form::Csv, lines(table), Vec::new())));
        Ok((forms, Findings::default()))
    }

    fn take_package(&self, named: Named, draft: PackageDraft) -> Rendered {
        // A file that is refused or not there was found where the catalog names it; the template that asks for it is not at fault.
        let is_there = |key: &str| self.renderer.sources.enclosures.contains_key(key);
        let found = self.renderer.sources.findings.iter().any(|it| pdf_import::CODES.contains(&it.code));
        if found && !draft.encloses().all(is_there) {
            return Err((named.paper, Findings::default()));
        }
        let was = self.earlier_papers.get(&draft.transmittal);
        let set = self.renderer.set_package(named, draft, was).map_err(|found| (named.paper, found))?;
        Ok((self.renderer.forms(named, set)?, Findings::default()))
    }

    fn take_packet(&self, named: Named, site: usize) -> Rendered {
        self.renderer.fitted_packet(named, site)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_paper_that_cannot_be_made_is_held_and_the_others_are_made() {
        let make = |paper: Paper| match paper {
            Paper::Survey => panic!("no such leaf"),
            paper => {
                let name = format!("{}.pdf", paper.word());
                let (sha256, bytes, revised) = (String::new(), Vec::new(), Vec::new());
                let made = IssuedPaper { paper, form: Form::Pdf, name, sha256, bytes, revised };
                vec![Ok((vec![made], Findings::default()))]
            }
        };
        let batch = made(vec![Paper::Schedule, Paper::Survey, Paper::Packet], make);
        let names: Vec<&str> = batch.papers.iter().map(|paper| paper.name.as_str()).collect();
        assert_eq!(names, ["schedule.pdf", "packet.pdf"]);
        assert_eq!(batch.held, Papers::of(&[Paper::Survey]));
        let found: Vec<_> = batch.findings.iter().map(|it| (it.sentence(), it.blocks)).collect();
        assert_eq!(
            found,
            [("the paper survey could not be made: no such leaf".to_owned(), Papers::of(&[Paper::Survey]))]
        );
    }
}
