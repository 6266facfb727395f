//! `issue`: the papers of a job as bytes, those that are held left out.
//!
//! In: a snapshot, the papers asked for. Out: papers with file names, what was held, and a plain record of it all.
//! May not know: the disk.

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;
use serde::Serialize;
use sha2::{Digest, Sha256};

use super::{Priced, conclude, load, price, templates};
use crate::documents::{self, Offer, Sources};
use crate::findings::{Files, Findings, Paper, Papers};
use crate::lettering::Faces;
use crate::markup::Templates;
use crate::pdf::{self, Claim, Day, Properties};
use crate::review;
use crate::shapes::Drawing;
use crate::typeset::{Theme, typeset};

/// A paper that was made.
#[derive(Debug)]
pub struct IssuedPaper {
    /// Which.
    pub paper: Paper,
    /// Its file name.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
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
}

/// What is the same for every paper.
struct Press<'p> {
    templates: Templates,
    faces: Faces,
    theme: Theme,
    sources: Sources<'p>,
    priced: &'p Priced<'p>,
}

/// A paper that came out, or what stood in its way.
type Pressed = Result<IssuedPaper, (Paper, Findings)>;

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
    let cleared = review::review(job, &loaded.catalog, &mut findings);
    let mut priced = price(&cleared, &loaded.catalog);
    let (mut findings, accepted) = conclude(findings, &mut priced, &cleared, &loaded.catalog);
    let mut held = findings.blocked();
    if priced.estimate.is_none() {
        held = held.with(Papers::of(&[Paper::Bid, Paper::Recap]));
    }
    let texts = templates::sources(files, template_folder);
    let mut template_findings = Findings::default();
    let short = loaded.fingerprint.get(..12).unwrap_or_default();
    let sources = Sources {
        cleared: &cleared,
        catalog: &loaded.catalog,
        takeoff: &priced.takeoff,
        findings: &findings,
        accepted: &accepted,
        fingerprint: short,
    };
    let press = Press {
        templates: Templates::load(templates::as_sources(&texts), &mut template_findings),
        faces: Faces::built_in(),
        theme: Theme::default(),
        sources,
        priced: &priced,
    };
    let made: Vec<Paper> = wanted.iter().filter(|paper| !held.has(*paper)).collect();
    let pressed: Vec<Pressed> =
        made.par_iter().flat_map_iter(|paper| press.paper(*paper, &loaded.fingerprint)).collect();
    let mut papers = Vec::new();
    for one in pressed {
        match one {
            Ok(paper) => papers.push(paper),
            Err((paper, found)) => {
                held = held.with(Papers::of(&[paper]));
                template_findings.extend(found);
            }
        }
    }
    // Of a paper in several files all are held if one is.
    papers.retain(|paper| !held.has(paper.paper));
    let number = cleared.job().head.number.clone();
    let held: Vec<Paper> = wanted.iter().filter(|paper| held.has(*paper)).collect();
    let record = record(&press.sources, &loaded.fingerprint, &papers, &held);
    findings.extend(template_findings);
    (Some(Issue { number, papers, held, record }), findings.sorted())
}

impl Press<'_> {
    fn paper(&self, paper: Paper, fingerprint: &str) -> Vec<Pressed> {
        let none = BTreeMap::new();
        let estimate = self.priced.estimate.as_ref();
        match (paper, estimate) {
            (Paper::Bid, Some(estimate)) => {
                let view = documents::bid(&self.sources, Offer { estimate, alternates: &self.priced.alternates });
                vec![self.press(paper, "bid", "bid.xml", &view, none, fingerprint)]
            }
            (Paper::Recap, Some(estimate)) => {
                let (alternates, interactions) = (&self.priced.alternates, &self.priced.interactions);
                let view = documents::recap(&self.sources, estimate, alternates, interactions);
                vec![self.press(paper, "recap-internal", "recap.xml", &view, none, fingerprint)]
            }
            _ => Vec::new(),
        }
    }

    fn press<V: Serialize>(
        &self,
        paper: Paper,
        stem: &str,
        template: &str,
        view: &V,
        drawings: BTreeMap<String, Drawing>,
        fingerprint: &str,
    ) -> Pressed {
        let mut findings = Findings::default();
        let drawings = drawings.into_iter().map(|(key, drawing)| (key, Arc::new(drawing))).collect();
        let tree = self.templates.render(template, view, &mut findings);
        let pages = tree.as_ref().and_then(|tree| typeset(tree, &self.faces, &self.theme, &drawings, &mut findings));
        let (Some(tree), Some(pages)) = (tree, pages) else { return Err((paper, findings)) };
        let head = &self.sources.cleared.job().head;
        let properties = Properties {
            author: self.sources.catalog.firm.name.clone(),
            subject: format!("Job {}", head.number),
            date: Some(Day { year: head.date.year(), month: head.date.month(), day: head.date.day() }),
            fingerprint: fingerprint.to_owned(),
            claim: Claim::Accessible,
        };
        match pdf::write(&pages, &tree, &self.faces, &properties) {
            Ok(bytes) => Ok(IssuedPaper { paper, name: format!("{stem}.pdf"), bytes }),
            Err(found) => {
                findings.extend(found);
                Err((paper, findings))
            }
        }
    }
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
        let digest: String = Sha256::digest(&paper.bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        out.push_str(&format!("issued {} sha256 {digest}\n", paper.name));
    }
    for paper in held {
        out.push_str(&format!("held {}\n", paper.word()));
    }
    out
}
