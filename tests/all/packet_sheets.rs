//! Laws of the sheets of openings, which a crew carries one by one: each names its opening, its settings are those of its class,
//! and where it leads to another page, that page holds what it says.
//!
//! In: the demo's packets, read back from their PDF. Out: what breaks a law. May not know: how they were made.

use std::collections::{BTreeMap, BTreeSet};

use hingewright::catalog::EnergyClass;
use hingewright::findings::{Paper, Severity, Subject};
use hingewright::pipeline;
use hingewright::takeoff::OpeningWork;

use crate::demo::{JOB, demo, snapshot, texts};
use crate::pdf_reader::{Kid, Mark, Pdf};

/// The packets of the demo, with their sites.
fn packets() -> Vec<(&'static Pdf, &'static str)> {
    let sites = &demo().priced.takeoff.arrangement.sites;
    sites.iter().map(|site| (&demo().pdfs[&format!("packet-{}.pdf", site.id)], site.id.as_str())).collect()
}

fn openings(site: &str) -> impl Iterator<Item = &'static OpeningWork<'static>> {
    demo().priced.takeoff.arrangement.openings_of(site)
}

/// The running head of every page, letters as one text.
fn heads(pdf: &Pdf) -> Vec<String> {
    let head = |number: u32| {
        let shown = pdf.shown(number).iter();
        // The running head stands in the uppermost inch of a letter page, 792 pt high.
        let top = shown.filter(|it| it.mark == Mark::Artifact && it.y > 720.0);
        top.map(|it| it.text.clone()).collect::<String>().replace('\u{a0}', " ")
    };
    pdf.pages().into_iter().map(|(number, _)| head(number)).collect()
}

/// The pages, from 0, of every opening, by its mark: those whose running head says so.
fn pages_of_openings(pdf: &Pdf) -> BTreeMap<String, Vec<(usize, String)>> {
    let mut found: BTreeMap<String, Vec<(usize, String)>> = BTreeMap::new();
    for (page, head) in heads(pdf).into_iter().enumerate() {
        if let Some((mark, rest)) = head.split_once(" · ").filter(|(_, rest)| rest.contains(" · sheet ")) {
            found.entry(mark.to_owned()).or_default().push((page, rest.to_owned()));
        }
    }
    found
}

/// Role, text and page, from 0, of every element that has contents of its own.
fn elements(pdf: &Pdf) -> Vec<(String, String, usize)> {
    let numbers: Vec<u32> = pdf.pages().into_iter().map(|(number, _)| number).collect();
    let mut found = Vec::new();
    pdf.structure().walk(&mut |element| {
        let page = element.kids.iter().find_map(|kid| match kid {
            Kid::Content(page, _) => numbers.iter().position(|number| number == page),
            _ => None,
        });
        found.extend(page.map(|page| (element.role.clone(), element.text(pdf).replace('\u{a0}', " "), page)));
    });
    found
}

/// A sheet that does not say whose it is may be laid to another opening: the wrong hole, the wrong hand, a leaf that strikes
/// someone (common practice, no source). Every sheet names opening and site and how many there are, its headings name the
/// opening, and no page of an opening is named for another.
#[test]
fn every_sheet_of_an_opening_names_it() {
    for (pdf, site) in packets() {
        let pages = pages_of_openings(pdf);
        let asked: BTreeSet<String> = openings(site).map(|it| it.opening.mark.clone()).collect();
        assert_eq!(pages.keys().cloned().collect::<BTreeSet<_>>(), asked, "{site}");
        let elements = elements(pdf);
        for (mark, pages) in &pages {
            let leaves = openings(site).find(|it| it.opening.mark == *mark).unwrap().leaves.len();
            assert!(pages.len() <= if leaves > 1 { 3 } else { 2 }, "{mark} takes {} pages", pages.len());
            for (at, (page, rest)) in pages.iter().enumerate() {
                assert_eq!(*page, pages[0].0 + at, "the sheets of {mark} follow one another");
                assert!(rest.contains(&format!(" · sheet {} of {}", at + 1, pages.len())), "{mark}: {rest}");
                let first = elements.iter().find(|(_, text, on)| on == page && text.chars().any(char::is_alphanumeric));
                let first = first.map(|(_, text, _)| text.trim_start_matches(|it: char| !it.is_alphanumeric()));
                assert!(
                    first.is_some_and(|text| text.starts_with(mark.as_str())),
                    "page {} begins {first:?}",
                    page + 1
                );
                let heading = |role: &str| ["H1", "H2", "H3"].contains(&role);
                let here = elements.iter().filter(|(role, _, on)| on == page && heading(role));
                for (_, text, _) in here {
                    assert!(text.starts_with(mark.as_str()), "{mark}, page {}: {text}", page + 1);
                }
            }
            let on =
                |of: usize| elements.iter().filter(move |(.., page)| *page == of).map(|(_, text, _)| text.as_str());
            assert!(on(pages[0].0).any(|text| text.starts_with(&format!("{mark}, "))), "{mark} has its title");
            let last = pages.last().unwrap().0;
            assert!(on(last).any(|text| text.starts_with(&format!("{mark} each shift: "))), "{mark}: end of shift");
        }
        // Pages after the site's own are all of an opening.
        let first = pages.values().flatten().map(|(page, _)| *page).min().unwrap();
        assert_eq!(pages.values().flatten().count(), pdf.pages().len() - first, "{site}");
    }
}

/// The rows of the settings of every opening by its mark: setting, target, limit. They stand on its own sheets.
fn settings(pdf: &Pdf) -> BTreeMap<String, Vec<[String; 3]>> {
    let pages = pages_of_openings(pdf);
    let elements = elements(pdf);
    let titles = elements.iter().filter_map(|(role, text, page)| {
        let mark = text.split_once(": settings").map(|(mark, _)| mark.to_owned())?;
        (role == "H3").then_some((mark, *page))
    });
    let titles: Vec<(String, usize)> = titles.collect();
    for (mark, page) in &titles {
        assert!(pages[mark].iter().any(|(of, _)| of == page), "settings of {mark} on page {}", page + 1);
    }
    let is_settings = |table: &Vec<Vec<String>>| table[0].first().is_some_and(|head| head == "Setting");
    let tables = pdf.tables().into_iter().filter(is_settings);
    let rows = |table: Vec<Vec<String>>| {
        table[1..].iter().map(|row| [0, 2, 3].map(|at| row[at].replace('\u{a0}', " "))).collect::<Vec<_>>()
    };
    let tables: Vec<_> = tables.map(rows).collect();
    assert_eq!(tables.len(), titles.len(), "a title a table");
    titles.into_iter().map(|(mark, _)| mark).zip(tables).collect()
}

/// Seconds at the beginning of a text.
fn seconds(text: &str) -> Option<f64> {
    text.split_once(" s").and_then(|(number, _)| number.parse().ok())
}

/// A leaf that may be of either class is set by the target of its own: one target a row, no slower limit beside a faster
/// target, and limits of the low-energy standard beside low-energy leaves alone (ANSI/BHMA A156.19 is written for low energy,
/// A156.10 for full energy: from memory). What is set stands where the installer does: with the opening.
#[test]
fn settings_are_those_of_the_class_of_the_opening() {
    let mut seen = BTreeSet::new();
    for (pdf, site) in packets() {
        let mut settings = settings(pdf);
        for work in openings(site).filter(|it| it.operator.is_some() && !it.drives.is_empty()) {
            let mark = &work.opening.mark;
            let rows = settings.remove(mark).unwrap_or_else(|| panic!("{mark} has no settings of its own"));
            let energy = work.opening.entry.energy.get().copied();
            assert!(rows.len() > 3, "{mark}");
            for [name, target, limit] in rows {
                assert!(!target.contains("energy") && !target.contains(';'), "{mark}, {name}: {target}");
                let least = ["or slower", "or longer", "or more"].iter().any(|words| limit.contains(words));
                if let (Some(set), Some(limit)) = (seconds(&target), seconds(&limit)) {
                    assert!(!least || set >= limit, "{mark}, {name}: {set} s where {limit} s is the least");
                }
                let full = energy == Some(EnergyClass::Full);
                if name.starts_with("Opening") || name == "Hold-open time" || name.starts_with("Closing") {
                    assert_eq!(limit == "full energy: A156.10", full, "{mark}, {name}: {limit}");
                    assert!(full || target.starts_with("limit"), "{mark}, {name}: {target}");
                    seen.insert((energy, work.operator.unwrap().id.clone()));
                }
            }
        }
    }
    let classes = |id: &str| seen.iter().filter(|(_, of)| of == id).count();
    assert!(seen.iter().any(|(_, id)| classes(id) > 1), "the demo has an operator set to two classes: {seen:?}");
}

/// "Under …, page n" is true: page n holds the heading that is named, and below it what moved.
#[test]
fn what_moved_stands_where_the_sheet_says() {
    let mut led = 0;
    for (pdf, _) in packets() {
        let elements = elements(pdf);
        let heading = |page: usize, starts: &str| {
            elements.iter().any(|(role, text, on)| role == "H3" && *on + 1 == page && text.starts_with(starts))
        };
        for (mark, pages) in pages_of_openings(pdf) {
            let here = elements.iter().filter(|(role, _, page)| role == "P" && *page == pages[0].0);
            for (_, text, _) in here {
                let Some((to, rest)) = text.split_once(", page ") else { continue };
                let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
                let page: usize = digits.parse().unwrap_or_else(|_| panic!("{mark}: {text}"));
                if to.starts_with("Run schedule") {
                    assert!(heading(page, "Runs"), "{mark}: {text}");
                } else {
                    let what = rest[digits.len()..].trim_start_matches([' ', ':']).trim_end_matches('.');
                    assert!(heading(page, &format!("{mark}: {what}")), "{mark}: {text}");
                }
                led += 1;
            }
        }
    }
    assert!(led > 1, "the demo has openings whose sheets lead to the site sheet");
}

/// What only the site can answer is said once, with a box for every opening that it is asked of; nothing is left out.
#[test]
fn each_check_of_a_site_is_said_once_with_all_it_is_asked_of() {
    let found = pipeline::check(&snapshot(&texts()), JOB);
    for (pdf, site) in packets() {
        let tables = pdf.tables();
        let table =
            tables.iter().find(|table| table[0].get(1).is_some_and(|head| head == "Inspect, measure or ask")).unwrap();
        let rows: Vec<(&str, &str)> = table[1..].iter().map(|row| (row[0].as_str(), row[1].as_str())).collect();
        let sentences: BTreeSet<&str> = rows.iter().map(|(_, says)| *says).collect();
        assert_eq!(sentences.len(), rows.len(), "{site} says a sentence twice");
        let boxes: usize =
            rows.iter().map(|(marks, _)| marks.split_whitespace().filter(|it| is_name(it)).count()).sum();
        let marks: BTreeSet<&str> = openings(site).map(|it| it.opening.mark.as_str()).collect();
        let asked: BTreeSet<(String, String)> = found
            .iter()
            .filter(|it| it.code.severity == Severity::FieldVerify)
            .filter_map(|it| match &it.subject {
                Subject::Opening(mark) if marks.contains(mark.as_str()) => Some((mark.clone(), it.sentence())),
                Subject::Site(of) if of == site => Some(("site".to_owned(), it.sentence())),
                _ => None,
            })
            .collect();
        assert_eq!(boxes, asked.len(), "{site}");
    }
}

/// Whether a word of the first column is a mark or `site`, not a box.
fn is_name(word: &str) -> bool {
    word == "site" || word.chars().any(|it| it.is_ascii_digit())
}

/// A surveyor carries one leaf an opening, printed on both sides: it begins on the front, and no other opening is on its back
/// (common practice, no source).
#[test]
fn the_survey_of_an_opening_is_one_leaf() {
    let pages = demo().pdf(Paper::Survey).pages().len();
    let mut seen = 0;
    for (page, head) in heads(demo().pdf(Paper::Survey)).into_iter().enumerate() {
        let Some((mark, rest)) = head.split_once(" · ").filter(|(_, rest)| rest.contains(" · side ")) else {
            continue;
        };
        let side = if page % 2 == 0 { "side 1 of 2" } else { "side 2 of 2" };
        assert!(rest.contains(side), "{mark}, page {} of {pages}: {rest}", page + 1);
        seen += 1;
    }
    assert_eq!(seen, 2 * demo().priced.takeoff.arrangement.openings.len());
}

/// What is looked at on a site goes by the openings that have a sheet in the packet, in their order, and names no other: a crew
/// that looks for an opening of an alternate finds none.
#[test]
fn what_is_verified_goes_by_the_openings_of_the_packet() {
    let all: BTreeSet<&str> = demo().reviewed.job().openings.iter().map(|it| it.mark.as_str()).collect();
    for (pdf, site) in packets() {
        let marks: Vec<&str> = openings(site).map(|it| it.opening.mark.as_str()).collect();
        let table = pdf
            .tables()
            .into_iter()
            .find(|table| table[0].get(1).is_some_and(|it| it == "Inspect, measure or ask"))
            .expect("what is looked at");
        let mut last = 0;
        for row in &table[1..] {
            let first = marks.iter().position(|mark| row[0].contains(mark)).unwrap_or(marks.len());
            assert!(first >= last, "{site}: {row:?}");
            last = first;
            for word in row.iter().flat_map(|cell| cell.split(|it: char| !it.is_alphanumeric())) {
                assert!(!all.contains(word) || marks.contains(&word), "{site} has no sheet of {word}: {row:?}");
            }
        }
    }
}

/// A line to check off names no hold point that the steps of its opening lack.
#[test]
fn the_end_of_a_shift_asks_for_no_hold_point() {
    let mut seen = 0;
    for (pdf, _) in packets() {
        for (_, text, _) in elements(pdf).iter().filter(|(_, text, _)| text.contains(" each shift: ")) {
            assert!(text.contains("Photos:") && !text.contains("HOLD"), "{text}");
            seen += 1;
        }
    }
    assert!(seen > 0);
}
