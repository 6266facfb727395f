//! What a job, a catalog and a folder of papers name must stay inside their folders, and nothing outside is read, moved or written.
//!
//! In: a small job whose files name others, links, a record of papers that somebody wrote. Out: whatever was printed, moved or
//! overwritten that must not be. The cases are those found by force in this program (invented).

use std::fs;
use std::path::Path;

use hingewright::pdf_import::{self, Fault};

use crate::command_line::{Folder, Ran, run};
use crate::demo::{Texts, demo};

/// Words of a file that is none of the job's business.
const SECRET: &str = "mark,wage\nnobody,hush-hush-4711\n";

/// A small sound job with its catalog, in a folder of its own two levels down.
pub fn small(name: &str) -> Folder {
    let folder = Folder::new(name);
    write(&folder, &job());
    folder
}

pub fn job() -> String {
    include_str!("../cases/nothing-wrong/job.toml").replace("../_catalog", "catalog")
}

pub fn write(folder: &Folder, job: &str) {
    let catalog = include_str!("../cases/_catalog/catalog.toml").to_owned();
    let names = ["jobs/alder/job.toml", "jobs/alder/catalog/catalog.toml"];
    folder.write(&names.into_iter().map(str::to_owned).zip([job.to_owned(), catalog]).collect::<Texts>());
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

pub fn issue(folder: &Folder, more: &[&str]) -> Ran {
    let (job, out) = (folder.path("jobs/alder/job.toml"), folder.path("papers"));
    run(&[&["issue", text(&job), "needs", "--output", text(&out)], more].concat())
}

fn check(folder: &Folder, more: &[&str]) -> Ran {
    let job = folder.path("jobs/alder/job.toml");
    run(&[&["check", text(&job)], more].concat())
}

/// A job that names a table.
fn naming(key: &str, path: &str) -> String {
    job().replace("profile = \"town\"", &format!("profile = \"town\"\n{key} = \"{path}\""))
}

#[test]
fn a_file_outside_is_not_read_unless_the_person_says_so() {
    let folder = small("outside");
    let secret = folder.path("secret.csv");
    fs::write(&secret, SECRET).unwrap();
    for key in ["openings", "surveys", "specification"] {
        for named in ["../../secret.csv", text(&secret), "catalog/../../../secret.csv"] {
            write(&folder, &naming(key, named));
            let ran = check(&folder, &[]);
            assert_eq!(ran.code, 1, "{key} {named}: {}", ran.out);
            assert!(ran.out.contains("outside-folder") && ran.out.contains("secret.csv"), "{key} {named}: {}", ran.out);
            assert!(ran.out.contains(&format!("{key} = \"{named}\"")), "the place is shown: {}", ran.out);
            assert!(ran.out.contains("--allow-outside "), "what to type is shown: {}", ran.out);
            assert!(!format!("{}{}", ran.out, ran.err).contains("hush-hush"), "{key} {named}: {}", ran.out);
            let allowed = check(&folder, &["--allow-outside", text(secret.parent().unwrap())]);
            assert!(!allowed.out.contains("outside-folder"), "{key} {named}: {}", allowed.out);
            assert!(
                allowed.out.contains("unknown-head") || allowed.out.contains("nobody"),
                "it is read: {}",
                allowed.out
            );
        }
    }
    // A file that is not there is outside too: nothing says which files the machine has.
    write(&folder, &naming("openings", "../../no-such.csv"));
    assert!(check(&folder, &[]).out.contains("outside-folder"));
}

#[test]
fn a_catalog_stands_around_the_job_and_nowhere_else() {
    let folder = small("catalogs");
    let far = folder.path("catalog.toml");
    fs::copy(folder.path("jobs/alder/catalog/catalog.toml"), &far).unwrap();
    fs::create_dir_all(folder.path("jobs/catalog")).unwrap();
    fs::copy(&far, folder.path("jobs/catalog/catalog.toml")).unwrap();
    let naming = |path: &str| job().replace("catalog = \"catalog\"", &format!("catalog = \"{path}\""));
    for near in ["catalog", "../catalog", "../../jobs/catalog"] {
        write(&folder, &naming(near));
        let ran = check(&folder, &[]);
        assert_eq!(ran.code, 0, "{near}: {}", ran.out);
    }
    let root = folder.path("");
    for outside in ["../..", text(&root)] {
        write(&folder, &naming(outside));
        let ran = check(&folder, &[]);
        assert_eq!(ran.code, 1, "{outside}: {}", ran.out);
        assert!(ran.out.contains("outside-folder"), "{outside}: {}", ran.out);
        let allowed = check(&folder, &["--allow-outside", text(&root)]);
        assert_eq!(allowed.code, 0, "{outside}: {}", allowed.out);
    }
}

#[cfg(unix)]
#[test]
fn a_link_that_leads_out_counts_as_outside() {
    use std::os::unix::fs::symlink;
    let folder = small("links-out");
    fs::write(folder.path("secret.csv"), SECRET).unwrap();
    fs::write(folder.path("secret.toml"), "wage = \"hush-hush-4711\"\n").unwrap();
    symlink(folder.path("secret.csv"), folder.path("jobs/alder/openings.csv")).unwrap();
    write(&folder, &naming("openings", "openings.csv"));
    let ran = check(&folder, &[]);
    assert!(ran.code == 1 && ran.out.contains("outside-folder") && !ran.out.contains("hush-hush"), "{}", ran.out);
    // A link in the catalog's folder, and one in the place of the record.
    for link in ["jobs/alder/catalog/more.toml", "jobs/alder/job.issued.toml"] {
        write(&folder, &job());
        symlink(folder.path("secret.toml"), folder.path(link)).unwrap();
        let ran = check(&folder, &[]);
        assert!(ran.out.contains("outside-folder") && !ran.out.contains("hush-hush"), "{link}: {}", ran.out);
        fs::remove_file(folder.path(link)).unwrap();
    }
    // One that stays inside is followed.
    fs::create_dir_all(folder.path("jobs/alder/tables")).unwrap();
    fs::write(folder.path("jobs/alder/tables/real.csv"), "mark,kind\n102,plain\n").unwrap();
    fs::remove_file(folder.path("jobs/alder/openings.csv")).unwrap();
    symlink("tables/real.csv", folder.path("jobs/alder/openings.csv")).unwrap();
    let inside = naming("openings", "openings.csv");
    let own = inside.find("# expect").unwrap();
    write(&folder, &inside[..own]);
    let ran = check(&folder, &[]);
    assert!(ran.code == 0 && !ran.out.contains("outside-folder"), "{}", ran.out);
}

#[test]
fn a_sheet_of_a_catalog_stays_in_the_catalog() {
    let folder = small("sheets-out");
    fs::write(folder.path("jobs/stolen.pdf"), "%PDF-1.7 hush-hush").unwrap();
    let path = folder.path("jobs/alder/catalog/catalog.toml");
    let catalog = fs::read_to_string(&path).unwrap();
    let named = catalog.replacen("name = \"Header\"", "name = \"Header\"\nsheet = \"../../stolen.pdf\"", 1);
    assert_ne!(catalog, named);
    fs::write(&path, named).unwrap();
    let ran = check(&folder, &[]);
    assert!(ran.out.contains("outside-folder") && ran.out.contains("stolen.pdf"), "{}", ran.out);
}

#[test]
fn a_paper_that_stays_in_the_office_is_enclosed_in_no_other() {
    for paper in &demo().issue.papers {
        if !paper.name.ends_with(".pdf") {
            continue;
        }
        let refused = pdf_import::enclose(&paper.bytes).err() == Some(Fault::Internal);
        assert_eq!(refused, paper.name == "recap-internal.pdf", "{}", paper.name);
    }
}

#[test]
fn a_record_of_papers_that_somebody_wrote_moves_nothing_outside() {
    let folder = small("moves");
    assert_eq!(issue(&folder, &[]).code, 0);
    let victim = folder.path("victim");
    fs::write(&victim, "keep me").unwrap();
    for inside in ["papers/C-1/needs", "papers/C-1/superseded/needs"] {
        fs::create_dir_all(folder.path(inside)).unwrap();
    }
    let record = folder.path("papers/C-1/issued.txt");
    let text = fs::read_to_string(&record).unwrap();
    let names = ["needs/../../../victim", "../../victim", "needs.pdf/../../victim", "packet-../../../victim.pdf", ".."];
    let lines: String = names.iter().map(|name| format!("issued {name} sha256 0\n")).collect();
    fs::write(&record, text + &lines).unwrap();
    let ran = issue(&folder, &[]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(fs::read_to_string(&victim).unwrap(), "keep me");
    for name in names {
        assert!(ran.out.contains(&format!("names `{name}`, which is no paper")), "{name}: {}", ran.out);
    }
    assert!(fs::read_to_string(&record).unwrap().lines().all(|line| !line.contains("victim")));
}

#[cfg(unix)]
#[test]
fn a_link_in_the_folder_of_papers_is_not_written_through() {
    use std::os::unix::fs::symlink;
    let folder = small("links-in");
    let victim = folder.path("victim");
    fs::write(&victim, "keep me").unwrap();
    fs::create_dir_all(folder.path("papers/C-1")).unwrap();
    // The name under which an older version wrote, a paper's own name, and the record's.
    for link in [".needs.pdf.writing", "needs.pdf", "issued.txt"] {
        symlink(&victim, folder.path("papers/C-1").join(link)).unwrap();
    }
    let ran = issue(&folder, &[]);
    assert_eq!(ran.code, 0, "{}{}", ran.out, ran.err);
    assert_eq!(fs::read_to_string(&victim).unwrap(), "keep me");
    assert!(fs::read(folder.path("papers/C-1/needs.pdf")).unwrap().starts_with(b"%PDF"));
    // A lock that is a link, and a job's folder that is one: refused, and nothing is touched.
    fs::remove_dir_all(folder.path("papers")).unwrap();
    fs::create_dir_all(folder.path("papers")).unwrap();
    symlink(&victim, folder.path("papers/.C-1.lock")).unwrap();
    let ran = issue(&folder, &[]);
    assert!(ran.code == 2 && ran.err.contains("in the place of the lock"), "{}", ran.err);
    fs::remove_file(folder.path("papers/.C-1.lock")).unwrap();
    fs::create_dir_all(folder.path("elsewhere")).unwrap();
    symlink(folder.path("elsewhere"), folder.path("papers/C-1")).unwrap();
    let ran = issue(&folder, &[]);
    assert!(ran.code == 2 && ran.err.contains("is a file or a link"), "{}", ran.err);
    assert_eq!(fs::read_to_string(&victim).unwrap(), "keep me");
    assert_eq!(fs::read_dir(folder.path("elsewhere")).unwrap().count(), 0);
}

#[test]
fn a_file_that_is_too_large_is_not_read() {
    let folder = small("large");
    let grow = |inside: &str| {
        let path = folder.path(inside);
        let file = fs::OpenOptions::new().write(true).create(true).truncate(false).open(&path).unwrap();
        file.set_len(3 << 30).unwrap(); // sparse: it takes no room
    };
    write(&folder, &naming("openings", "openings.csv"));
    grow("jobs/alder/openings.csv");
    let ran = check(&folder, &[]);
    assert!(ran.code == 1 && ran.out.contains("too-large") && ran.out.contains("at most 32 MB"), "{}", ran.out);
    write(&folder, &job());
    grow("jobs/alder/catalog/more.toml");
    let ran = check(&folder, &[]);
    assert!(ran.code == 1 && ran.out.contains("too-large") && ran.out.contains("more.toml"), "{}", ran.out);
    fs::remove_file(folder.path("jobs/alder/catalog/more.toml")).unwrap();
    fs::create_dir_all(folder.path("own")).unwrap();
    grow("own/needs.xml");
    let ran = issue(&folder, &["--templates", text(&folder.path("own"))]);
    assert!(ran.code == 1 && ran.err.contains("too-large") && ran.err.contains("at most 1 MB"), "{}", ran.err);
    grow("jobs/alder/job.toml");
    let ran = check(&folder, &[]);
    assert!(ran.code == 2 && ran.err.contains("larger than 32 MB"), "{}", ran.err);
}
