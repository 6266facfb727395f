//! The papers that leave for the site: hardware schedule, survey form, install packets of the worked jobs, made whole.
//!
//! With HINGEWRIGHT_PAPERS set to a folder the PDFs are written there, to be looked at. HINGEWRIGHT_JOB names another job
//! file to be made as well.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use hingewright::documents::{self, Draft, Moved, Sources};
use hingewright::findings::{Files, Findings, Severity};
use hingewright::lettering::Faces;
use hingewright::markup::{Source, Templates, Tree};
use hingewright::pdf::{Properties, write};
use hingewright::pipeline::{load, pages_of_sheets};
use hingewright::review::{Cleared, review};
use hingewright::takeoff::{Takeoff, take_off};
use hingewright::typeset::{Pages, Theme, typeset};
use hingewright::{catalog::Catalog, shapes::Drawing};
use serde::Serialize;

use crate::pdf_reader::Pdf;

/// Every file below a folder, by its path from there.
fn below(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut files = Vec::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(at) = open.pop() {
        for entry in std::fs::read_dir(&at).unwrap_or_else(|fault| panic!("{}: {fault}", at.display())) {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_string_lossy().replace('\\', "/");
                files.push((name, std::fs::read(&path).unwrap()));
            }
        }
    }
    files
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A job ready for papers.
struct Ready {
    catalog: Catalog,
    cleared: Cleared,
    findings: Findings,
}

fn ready(folder: &Path, job: &str) -> Ready {
    let files = Files::new(below(folder));
    let loaded = load(&files, job).unwrap_or_else(|| panic!("no {job} below {}", folder.display()));
    let mut findings = loaded.findings;
    let errors: Vec<_> = findings.iter().filter(|it| it.code.severity == Severity::Error).collect();
    assert!(errors.is_empty(), "{errors:#?}");
    let cleared = review(loaded.job.expect("the job can be read"), &loaded.catalog, &mut findings);
    Ready { catalog: loaded.catalog, cleared, findings }
}

/// A paper, set.
struct Set {
    tree: Tree,
    pages: Pages,
    pdf: Vec<u8>,
}

fn templates(files: &Files) -> Templates {
    let mut findings = Findings::default();
    let sources = files.ids().map(|file| Source { name: files.path(file), file, text: files.text(file).unwrap() });
    let templates = Templates::load(sources, &mut findings);
    assert!(findings.is_empty(), "{:#?}", findings.iter().collect::<Vec<_>>());
    templates
}

fn set<View: Serialize>(templates: &Templates, name: &str, draft: Draft<View>) -> Set {
    let mut findings = Findings::default();
    let faces = Faces::built_in();
    let tree = templates.render(name, &draft.view, &mut findings);
    let tree = tree.unwrap_or_else(|| panic!("{:#?}", findings.iter().collect::<Vec<_>>()));
    let drawings: BTreeMap<String, Arc<Drawing>> =
        draft.drawings.into_iter().map(|(key, drawing)| (key, Arc::new(drawing))).collect();
    let pages = typeset(&tree, &faces, &Theme::default(), &drawings, &mut findings);
    let pages = pages.unwrap_or_else(|| panic!("{:#?}", findings.iter().collect::<Vec<_>>()));
    let pdf = write(&pages, &tree, &faces, &Properties::default()).unwrap_or_else(|found| panic!("{found:#?}"));
    Set { tree, pages, pdf }
}

/// The packet of a site, made again with more moved until every opening keeps to its pages or nothing is left to move.
fn packet(templates: &Templates, sources: &Sources, site: usize) -> (Set, Moved) {
    let mut moved = Moved::new();
    loop {
        let made = set(templates, "packet.xml", documents::packet(sources, site, &moved));
        let over: Vec<String> = pages_of_sheets(&made.tree, &made.pages)
            .into_iter()
            .filter_map(|(name, pages)| Some((name.strip_prefix("sheet.")?.to_owned(), pages)))
            .filter(|(mark, pages)| *mark != "site" && *pages > documents::pages_allowed(sources, mark))
            .map(|(mark, _)| mark)
            .filter(|mark| moved.get(mark).copied().unwrap_or(0) < documents::MOVES.len())
            .collect();
        if over.is_empty() {
            return (made, moved);
        }
        over.into_iter().for_each(|mark| *moved.entry(mark).or_insert(0) += 1);
    }
}

/// Every paper of a job by its name, and what is longer than it may be.
fn papers(ready: &Ready) -> (BTreeMap<String, Set>, Vec<String>) {
    let mut over = Vec::new();
    let mut findings = Findings::default();
    let takeoff: Takeoff = take_off(&ready.cleared, &ready.catalog, &mut findings);
    let sources = Sources {
        cleared: &ready.cleared,
        catalog: &ready.catalog,
        takeoff: &takeoff,
        findings: &ready.findings,
        fingerprint: "",
    };
    let files = Files::new(below(&root().join("templates")));
    let templates = templates(&files);
    let mut papers = BTreeMap::from([
        ("schedule".to_owned(), set(&templates, "schedule.xml", documents::schedule(&sources))),
        ("survey".to_owned(), set(&templates, "survey.xml", documents::survey(&sources))),
    ]);
    for (at, site) in takeoff.arrangement.sites.iter().enumerate() {
        let (made, moved) = packet(&templates, &sources, at);
        for (sheet, pages) in pages_of_sheets(&made.tree, &made.pages) {
            let Some(mark) = sheet.strip_prefix("sheet.").filter(|mark| *mark != "site") else { continue };
            let moved = moved.get(mark).copied().unwrap_or(0);
            let allowed = documents::pages_allowed(&sources, mark);
            println!("{} {mark}: {pages} pages of {allowed}, moved {moved}", site.id);
            if pages > allowed {
                over.push(format!("{mark} takes {pages} pages of {allowed} with all moved that may move"));
            }
        }
        papers.insert(format!("packet-{}", site.id), made);
    }
    (papers, over)
}

fn keep(job: &str, papers: &BTreeMap<String, Set>) {
    let Ok(folder) = std::env::var("HINGEWRIGHT_PAPERS") else { return };
    std::fs::create_dir_all(&folder).unwrap();
    for (name, set) in papers {
        std::fs::write(Path::new(&folder).join(format!("{job}-{name}.pdf")), &set.pdf).unwrap();
    }
}

/// The counts that a paper prints, by name.
fn counts(set: &Set) -> BTreeMap<String, String> {
    let pdf = Pdf::read(&set.pdf);
    let names = documents::COUNTED.iter().map(|(word, _)| format!("count.{word}"));
    let each = names.map(|name| {
        let found = pdf.named(&name);
        assert_eq!(found.len(), 1, "{name} stands once in a paper, not as {found:?}");
        (name, found[0].clone())
    });
    each.collect()
}

fn check(job: &str, ready: &Ready) {
    let (papers, over) = papers(ready);
    keep(job, &papers);
    assert!(over.is_empty(), "{over:#?}");
    let first = counts(&papers["schedule"]);
    for (name, set) in &papers {
        assert_eq!(counts(set), first, "counts of {name} in {job}");
        assert!(!Pdf::read(&set.pdf).text().contains('$'), "{name} of {job} holds money");
    }
}

#[test]
fn papers_of_the_worked_jobs_are_whole_and_count_the_same() {
    for job in ["single", "pair", "egress"] {
        check(job, &ready(&root().join("tests/jobs").join(job), "job.toml"));
    }
    if let Ok(other) = std::env::var("HINGEWRIGHT_JOB") {
        let (folder, job) = other.split_once("//").expect("folder//path of the job file");
        check("other", &ready(Path::new(folder), job));
    }
}
