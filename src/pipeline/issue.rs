//! `issue`: the papers of a job as bytes, those that are held left out.
//!
//! In: a snapshot, the papers asked for. Out: papers with file names, what was held, and a plain record of it all.
//! May not know: the disk.

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;
use serde::Serialize;
use sha2::{Digest, Sha256};

use super::binding::bound;
use super::drafts::{Making, Named, Takes, drafts};
use super::earlier::{self, Before, Earlier};
use super::sheets::{overfull, pages_of_sheets};
use super::{
    Priced, codes_of_papers, conclude, gather, hex, load, makers_sheets, price, price_answers, short, templates,
};
use crate::comparison::State;
use crate::documents::{self, Draft, Moved, PackageDraft, Sources};
use crate::findings::{Files, Findings, Paper, Papers};
use crate::html::{self, Keeping};
use crate::lettering::Faces;
use crate::markup::{Templates, Tree, mark_changes};
use crate::pdf::{self, Claim, Day, Properties};
use crate::review;
use crate::shapes::Drawing;
use crate::typeset::{Pages, Shown, Theme, typeset};

/// What a paper was written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Pages, for the printer and the desk.
    Pdf,
    /// One file for a browser, for a phone.
    Html,
}

/// A paper that was made.
#[derive(Debug)]
pub struct IssuedPaper {
    /// Which.
    pub paper: Paper,
    /// What it was written as.
    pub form: Form,
    /// Its file name.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// Its pages, from 1, on which something is marked as changed since the issue before.
    pub revised: Vec<usize>,
}

/// What came of an issue.
#[derive(Debug)]
pub struct Issue {
    /// Number of the job, which names the folder of its papers.
    pub number: String,
    /// Papers, in order.
    pub papers: Vec<IssuedPaper>,
    /// Papers that were asked for and held.
    pub held: Vec<Paper>,
    /// A plain record of what was issued.
    pub record: String,
    /// What changed since the issue that was recorded before, in short lines; nothing where there is none.
    pub changes: Vec<String>,
}

impl Issue {
    /// The papers of a form, in order.
    pub fn of_form(&self, form: Form) -> impl Iterator<Item = &IssuedPaper> {
        self.papers.iter().filter(move |paper| paper.form == form)
    }
}

/// The papers that print what was accepted.
const PRINT_ACCEPTANCES: Papers = Papers::of(&[Paper::Bid, Paper::Recap, Paper::Review]);

/// What holds the one holds the others: schedule, drawings and packages show the same openings, and a reviewer reads them side
/// by side; nothing is ordered from what a crew may not work by.
const HELD_WITH: [(Paper, Papers); 2] = [
    (Paper::Schedule, Papers::of(&[Paper::Drawings, Paper::Submittal])),
    (Paper::Packet, Papers::of(&[Paper::Orders])),
];

/// Papers that rest on the estimate, which is none where a line has no price: what is to buy is rounded up there.
const REST_ON_ESTIMATE: Papers = Papers::of(&[Paper::Bid, Paper::Recap, Paper::Orders]);

/// Papers that go out and are marked where they say something else than the issue before.
const MARKED: Papers = Papers::of(&[
    Paper::Schedule,
    Paper::Packet,
    Paper::Needs,
    Paper::Register,
    Paper::Orders,
    Paper::Drawings,
    Paper::Submittal,
]);

/// What every paper is made with.
struct Desk<'d> {
    templates: Templates,
    faces: Faces,
    theme: Theme,
    fingerprint: &'d str,
}

/// What papers are made of.
struct Press<'p> {
    desk: &'p Desk<'p>,
    sources: Sources<'p>,
    priced: &'p Priced<'p>,
    /// The issue before, where one was recorded.
    before: Option<&'p Before<'p>>,
}

/// A paper as it was in the issue before: its tree, and its drawings by key.
type FormerPaper = (Tree, BTreeMap<String, Arc<Drawing>>);
/// The same by the stem of its file.
type Former = BTreeMap<String, FormerPaper>;

/// The making of one paper, with what it was.
struct Pressing<'p> {
    press: &'p Press<'p>,
    former: Former,
}

/// Papers that came out, those that did not, and what was found while they were made.
#[derive(Default)]
struct Batch {
    papers: Vec<IssuedPaper>,
    held: Papers,
    findings: Findings,
}

/// A paper that came out with what there is to say of it, or what stood in its way.
type Pressed = Result<(IssuedPaper, Findings), (Paper, Findings)>;

/// Makes the papers asked for. Nothing comes of a job whose own table cannot be read.
pub fn issue(
    files: &Files,
    job_path: &str,
    wanted: Papers,
    template_folder: Option<&str>,
) -> (Option<Issue>, Findings) {
    let Some(loaded) = load(files, job_path) else { return (None, Findings::default()) };
    let mut findings = loaded.findings;
    let Some(job) = loaded.job else { return (None, findings.sorted()) };
    let earlier = earlier::open(files, job_path, (&loaded.record, &job.head), &mut findings);
    let cleared = review::review(job, &loaded.catalog, &mut findings);
    let mut priced = price(&cleared, &loaded.catalog);
    gather(&mut findings, &mut priced, &cleared, &loaded.catalog);
    let enclosures = makers_sheets::enclosed(
        files,
        (&loaded.catalog_folder, &loaded.catalog),
        (&priced.takeoff, cleared.job()),
        &mut findings,
    );
    if wanted.has(Paper::Questions) {
        price_answers(&mut priced, &cleared, &loaded.catalog);
    }
    let mut held = findings.blocked();
    if priced.estimate.is_none() {
        held = held.with(REST_ON_ESTIMATE);
    }
    for (paper, others) in HELD_WITH {
        held = if held.has(paper) { held.with(others) } else { held };
    }
    let texts = templates::sources(files, template_folder);
    let mut of_templates = Findings::default();
    let templates = Templates::load(templates::as_sources(&texts), &mut of_templates);
    findings.extend(of_templates);
    let said = findings.clone().sorted();
    let before = earlier.as_ref().map(Earlier::priced);
    let now = State {
        job: cleared.job(),
        catalog: &loaded.catalog,
        takeoff: &priced.takeoff,
        estimate: priced.estimate.as_ref(),
        alternates: &priced.alternates,
        findings: &said,
        elsewhere: &loaded.elsewhere,
    };
    let changes = before.as_ref().map(|it| it.changes(now)).unwrap_or_default();
    let revisions = match &before {
        Some(_) => earlier::revisions(&loaded.record, &cleared.job().head, &changes),
        None => Vec::new(),
    };
    let desk = Desk { templates, faces: loaded.faces, theme: loaded.theme, fingerprint: &loaded.fingerprint };
    let press = |findings, accepted| Press {
        desk: &desk,
        sources: Sources {
            cleared: &cleared,
            catalog: &loaded.catalog,
            takeoff: &priced.takeoff,
            findings,
            accepted,
            fingerprint: short(&loaded.fingerprint),
            revisions: &revisions,
            enclosures: &enclosures,
        },
        priced: &priced,
        before: before.as_ref(),
    };
    // Some print what was accepted, of the other papers' findings too: they are made last.
    let list =
        |last: bool| wanted.iter().filter(move |paper| PRINT_ACCEPTANCES.has(*paper) == last && !held.has(*paper));
    let mut made = press(&said, &[]).papers(list(false).collect());
    findings.extend(std::mem::take(&mut made.findings));
    let (left, accepted) = conclude(findings.clone(), &cleared, &codes_of_papers());
    let last = press(&left, &accepted);
    let of_last = last.papers(list(true).collect());
    findings.extend(of_last.findings);
    let held = held.with(made.held).with(of_last.held);
    made.papers.extend(of_last.papers);
    // Of a paper in several files all are held if one is.
    made.papers.retain(|paper| !held.has(paper.paper));
    made.papers.sort_by_key(|paper| paper.paper);
    let number = cleared.job().head.number.clone();
    let held: Vec<Paper> = wanted.iter().filter(|paper| held.has(*paper)).collect();
    let record = record(&last.sources, &loaded.fingerprint, &made.papers, &held);
    // Where a paper was not made, its room had no say.
    let unheard = if wanted == Papers::ALL && held.is_empty() { Vec::new() } else { codes_of_papers() };
    let (findings, _) = conclude(findings, &cleared, &unheard);
    (Some(Issue { number, papers: made.papers, held, record, changes }), findings)
}

impl Press<'_> {
    /// Makes papers in parallel; results come in the order of the list.
    fn papers(&self, list: Vec<Paper>) -> Batch {
        let pressed: Vec<Pressed> = list.par_iter().flat_map_iter(|paper| self.paper(*paper)).collect();
        let mut batch = Batch::default();
        for one in pressed {
            let found = match one {
                Ok((paper, found)) => {
                    batch.papers.push(paper);
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

    fn paper(&self, paper: Paper) -> Vec<Pressed> {
        let making = Making { sources: &self.sources, priced: self.priced, faces: &self.desk.faces };
        drafts(paper, making, &Pressing { press: self, former: self.former(paper) })
    }

    /// What a paper was in the issue before; nothing where it carries no marks.
    fn former(&self, paper: Paper) -> Former {
        let Some(before) = self.before.filter(|_| MARKED.has(paper)) else { return Former::new() };
        let making =
            Making { sources: &before.sources(&self.sources), priced: before.price(), faces: &self.desk.faces };
        drafts(paper, making, &Formerly { templates: &self.desk.templates }).into_iter().flatten().collect()
    }

    /// Made again with more moved to its site sheet until each opening keeps to its pages.
    fn fitted_packet(
        &self,
        named: Named,
        site: usize,
    ) -> Result<(IssuedPaper, IssuedPaper, Findings), (Paper, Findings)> {
        let mut moved = Moved::new();
        loop {
            let draft = documents::packet(&self.sources, site, &moved);
            let was = self.former_packet(named, site, &moved);
            let (tree, pages) = self.set(named, &draft, was.as_ref()).map_err(|found| (named.paper, found))?;
            let (full, longer) = overfull(&self.sources, &pages_of_sheets(&tree, &pages), &moved);
            if full.is_empty() {
                let mut findings = Findings::default();
                documents::moved_finding(&self.sources, site, &moved, &longer)
                    .into_iter()
                    .for_each(|it| findings.push(it));
                let printed = self.write(named, (&tree, &pages))?;
                return Ok((printed, self.phone(named, &tree, &drawings(&draft)), findings));
            }
            full.into_iter().for_each(|mark| *moved.entry(mark).or_insert(0) += 1);
        }
    }

    /// The packet of a site in the issue before, with the same parts moved to its site sheet. A site that is new has a packet
    /// that is new as a whole, without marks.
    fn former_packet(&self, named: Named, site: usize, moved: &Moved) -> Option<FormerPaper> {
        let before = self.before?.sources(&self.sources);
        let id = &self.sources.takeoff.arrangement.sites[site].id;
        let at = before.takeoff.arrangement.sites.iter().position(|it| it.id == *id)?;
        let was = Formerly { templates: &self.desk.templates }.take(named, &documents::packet(&before, at, moved));
        was.map(|(_, paper)| paper)
    }

    /// A draft on its pages, with marks where it says something else than before; or what stood in its way.
    fn set<V: Serialize>(
        &self,
        named: Named,
        draft: &Draft<V>,
        was: Option<&FormerPaper>,
    ) -> Result<(Tree, Pages), Findings> {
        let mut findings = Findings::default();
        match self.desk.templates.render(named.template, &draft.view, &mut findings) {
            Some(tree) => self.mark_and_set(tree, &drawings(draft), was, findings),
            None => Err(findings),
        }
    }

    /// A package on its pages, likewise.
    fn set_package(
        &self,
        named: Named,
        draft: &PackageDraft,
        was: Option<&FormerPaper>,
    ) -> Result<(Tree, Pages), Findings> {
        let mut findings = Findings::default();
        match bound(&self.desk.templates, named.template, draft, &mut findings) {
            Some((tree, shown)) => self.mark_and_set(tree, &shown, was, findings),
            None => Err(findings),
        }
    }

    fn mark_and_set(
        &self,
        mut tree: Tree,
        drawings: &BTreeMap<String, Arc<Drawing>>,
        was: Option<&FormerPaper>,
        mut findings: Findings,
    ) -> Result<(Tree, Pages), Findings> {
        let revision = self.sources.cleared.job().head.revision.as_deref().map(Arc::from);
        if let (Some((was, then_shown)), Some(mark)) = (was, revision) {
            mark_changes(&mut tree, drawings, (was, then_shown), &mark);
        }
        let shown = Shown { drawings, enclosures: self.sources.enclosures };
        match typeset(&tree, &self.desk.faces, &self.desk.theme, shown, &mut findings) {
            Some(pages) => Ok((tree, pages)),
            None => Err(findings),
        }
    }

    /// The same tree as one file for a phone.
    fn phone(&self, named: Named, tree: &Tree, drawings: &BTreeMap<String, Arc<Drawing>>) -> IssuedPaper {
        let title = format!("Job {}, {}", self.sources.cleared.job().head.number, named.stem);
        let page = html::write(tree, drawings, Keeping { title: &title, fingerprint: self.sources.fingerprint });
        IssuedPaper {
            paper: named.paper,
            form: Form::Html,
            name: format!("{}.html", named.stem),
            bytes: page.into_bytes(),
            revised: Vec::new(),
        }
    }

    fn write(&self, named: Named, (tree, pages): (&Tree, &Pages)) -> Result<IssuedPaper, (Paper, Findings)> {
        let head = &self.sources.cleared.job().head;
        let properties = Properties {
            author: self.sources.catalog.firm.name.clone(),
            subject: format!("Job {}", head.number),
            date: Some(Day { year: head.date.year(), month: head.date.month(), day: head.date.day() }),
            fingerprint: self.desk.fingerprint.to_owned(),
            claim: Claim::Accessible,
        };
        let bytes = pdf::write(pages, tree, &self.desk.faces, &properties).map_err(|found| (named.paper, found))?;
        let (name, revised) = (format!("{}.pdf", named.stem), pages.revised());
        Ok(IssuedPaper { paper: named.paper, form: Form::Pdf, name, bytes, revised })
    }
}

/// Renders papers of the issue before. What is wrong with a template is found with the paper itself.
struct Formerly<'f> {
    templates: &'f Templates,
}

impl Takes for Formerly<'_> {
    type Taken = Option<(String, FormerPaper)>;

    fn take<V: Serialize>(&self, named: Named, draft: &Draft<V>) -> Self::Taken {
        let tree = self.templates.render(named.template, &draft.view, &mut Findings::default())?;
        Some((named.stem.to_owned(), (tree, drawings(draft))))
    }

    /// Kept under its transmittal: what is sent again has another number.
    fn take_package(&self, named: Named, draft: &PackageDraft) -> Self::Taken {
        let paper = bound(self.templates, named.template, draft, &mut Findings::default())?;
        Some((draft.transmittal.clone(), paper))
    }

    /// A packet is rendered with the same parts moved as the one it is compared with.
    fn take_packet(&self, _: Named, _: usize) -> Vec<Self::Taken> {
        Vec::new()
    }
}

impl Takes for Pressing<'_> {
    type Taken = Pressed;

    fn take<V: Serialize>(&self, named: Named, draft: &Draft<V>) -> Pressed {
        let (tree, pages) =
            self.press.set(named, draft, self.former.get(named.stem)).map_err(|found| (named.paper, found))?;
        Ok((self.press.write(named, (&tree, &pages))?, Findings::default()))
    }

    fn take_package(&self, named: Named, draft: &PackageDraft) -> Pressed {
        let was = self.former.get(&draft.transmittal);
        let (tree, pages) = self.press.set_package(named, draft, was).map_err(|found| (named.paper, found))?;
        Ok((self.press.write(named, (&tree, &pages))?, Findings::default()))
    }

    /// For the printer and for a phone.
    fn take_packet(&self, named: Named, site: usize) -> Vec<Pressed> {
        match self.press.fitted_packet(named, site) {
            Ok((printed, phone, findings)) => vec![Ok((printed, findings)), Ok((phone, Findings::default()))],
            Err(held) => vec![Err(held)],
        }
    }
}

/// The drawings of a draft, to be shared among its pages.
pub(super) fn drawings<V>(draft: &Draft<V>) -> BTreeMap<String, Arc<Drawing>> {
    draft.drawings.iter().map(|(key, it)| (key.clone(), Arc::new(it.clone()))).collect()
}

/// The record of an issue: plain lines, the same for the same input.
fn record(sources: &Sources, fingerprint: &str, papers: &[IssuedPaper], held: &[Paper]) -> String {
    let head = &sources.cleared.job().head;
    let revision = head.revision.as_deref().unwrap_or("-");
    let mut out = format!(
        "job {}\nrevision {revision}\ndated {}\nfingerprint of the values {fingerprint}\n",
        head.number, head.date
    );
    for paper in papers {
        let digest = hex(Sha256::digest(&paper.bytes).as_slice());
        out.push_str(&format!("issued {} sha256 {digest}\n", paper.name));
    }
    for paper in held {
        out.push_str(&format!("held {}\n", paper.word()));
    }
    out
}
