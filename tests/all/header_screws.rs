//! The screws of a header are one number, wherever they are told: what is drilled, prepared for, packed, submitted and bought.
//!
//! In: the demo, and the demo with its headers on wood, on studs of several sorts, on masonry, concrete, tube, steel frame, or on
//! what nobody knows, in turn. Out: headers of which two places tell different numbers; the test wants none. Counting, no source;
//! that a header uses every hole of its own that has something behind it, is common practice, no source.

use std::collections::BTreeMap;
use std::sync::Arc;

use hingewright::catalog::{Catalog, Entity, Group, Substrate};
use hingewright::documents::{Draft, DrawingsView, PackageDraft, Sources, drawing_set, packages, packet, submittal};
use hingewright::findings::Files;
use hingewright::fonts::Faces;
use hingewright::input::{Count, Given, Raw, Reader, Scalar, Slot, Standing};
use hingewright::job::Job;
use hingewright::measure::Length;
use hingewright::shapes::{Drawing, Shape};
use hingewright::takeoff::{EntityRef, FixingWork, OpeningWork};
use rust_decimal::Decimal;

use crate::demo::{clear, demo, of_sources, taken_off};

/// What headers go into.
struct Variant {
    into: Substrate,
    mils: Option<u32>,
    spacing: i64,
}

/// How often the demo is varied.
const TURNS: usize = 3;

fn variants() -> Vec<Variant> {
    let plain = [
        Substrate::Wood,
        Substrate::Masonry,
        Substrate::Concrete,
        Substrate::SteelFrame,
        Substrate::AluminumTube,
        Substrate::Unknown,
    ];
    let studs = [(Some(54), 16), (Some(54), 24), (Some(18), 16), (Some(18), 24), (None, 16)];
    let plain = plain.into_iter().map(|into| Variant { into, mils: None, spacing: 16 });
    plain.chain(studs.map(|(mils, spacing)| Variant { into: Substrate::SteelStud, mils, spacing })).collect()
}

/// A value as somebody states it where another stands.
fn stated<T, Of>(value: T, at: &Slot<Of>, job: &Job) -> Slot<T> {
    let place = at.place().unwrap_or(&job.head.place).clone();
    Slot::Given(Given { value, place, standing: Standing::Stated, through: None })
}

/// Thickness of studs, as somebody types it.
fn typed(mils: u32) -> Count {
    let none: [(String, Vec<u8>); 0] = [];
    let files = Files::new(none);
    Count::from_raw(Raw::Integer(&mils.to_string()), &Reader::new(&files)).expect("a count")
}

/// The demo with its headers on one variant after the other, and with each turn on others.
fn varied(variants: &[Variant], turn: usize) -> Job {
    let job = demo().reviewed.job();
    let mut changed = job.clone();
    for (at, opening) in changed.openings.iter_mut().enumerate() {
        let of = &variants[(at + 3 * turn) % variants.len()];
        let Some(frame) = Arc::make_mut(opening).entry.frame.given_mut() else { continue };
        let frame = &mut frame.value;
        frame.stud_spacing = stated(Length::inches(of.spacing), &frame.fixed_to, job);
        frame.fixed_to = stated(of.into, &frame.fixed_to, job);
        frame.stud_mils = of.mils.map_or(Slot::Absent, |mils| stated(typed(mils), &frame.fixed_to, job));
    }
    changed
}

/// The screws that a text tells: `8 screws into the plate; plate: 6 × …` are 14. What is no number of screws counts nothing.
fn reported(text: &str) -> u32 {
    let parts = text.split([';', ':']).map(|part| part.replace('\u{a0}', " "));
    let number = |part: String| {
        let (before, _) = part.split_once(" × ").or_else(|| part.split_once(" screws "))?;
        before.rsplit(' ').next()?.parse::<u32>().ok()
    };
    parts.filter_map(number).sum()
}

/// What the places tell of each header, by opening and number of the header.
type Told = BTreeMap<(String, usize), Vec<(&'static str, u32)>>;

fn tell(all: &mut Told, mark: &str, header: usize, place: &'static str, number: u32) {
    all.entry((mark.to_owned(), header)).or_default().push((place, number));
}

/// Takeoff: needed, and used of the kit with what is bought.
fn by_takeoff(sources: &Sources, all: &mut Told) {
    let takeoff = sources.takeoff;
    for (at, work) in takeoff.arrangement.openings.iter().enumerate() {
        for (number, fixing) in work.fixings.iter().enumerate() {
            let FixingWork::Header(header) = fixing else { continue };
            let needed = fixing.screws(work).expect("an operator");
            let here = takeoff.lines.iter().filter(|line| line.of == EntityRef::Fixing(at, number));
            let direct = here.filter(|line| sources.catalog.rules[line.rule].per == Entity::Fixing);
            let bought: Decimal = direct.map(|line| takeoff.ledger.value(line.quantity).value()).sum();
            let kit = kit(work).min(needed);
            let mark = &work.opening.mark;
            tell(all, mark, header + 1, "needed", needed);
            tell(all, mark, header + 1, "kit and bought", kit + u32::try_from(bought).unwrap());
        }
    }
}

/// Screws of the kit that stay, as the catalog has them.
fn kit(work: &OpeningWork) -> u32 {
    let (Some(operator), Some(frame)) = (work.operator, work.opening.entry.frame.get()) else { return 0 };
    let stay = operator.header_kit.iter().find(|kit| Some(&kit.into) == frame.fixed_to.get());
    stay.map_or(0, |kit| kit.holding())
}

/// Packets: `Header screws 1, 2: 8 into …` and `14: 8 into the plate, …`.
fn by_packets(sources: &Sources, all: &mut Told) {
    for site in 0..sources.takeoff.arrangement.sites.len() {
        for sheet in packet(sources, site, &Default::default()).view.sheets {
            for row in &sheet.parts.cutting {
                let Some(which) = row.what.strip_prefix("Header screws") else { continue };
                let leads = row.how.split(|c: char| !c.is_ascii_digit()).next().unwrap();
                let numbers = which.split(", ").map(|it| it.trim().parse().unwrap_or(1));
                numbers.for_each(|it| tell(all, &sheet.heading.mark, it, "packet", leads.parse().unwrap()));
            }
        }
    }
}

/// The preparation table: for all headers, or one after the other.
fn by_preparation(mark: &str, behind: &str, headers: usize, all: &mut Told) {
    let each: Vec<&str> = match behind.strip_prefix("each header: ") {
        Some(same) => vec![same; headers],
        None => behind.split(" / ").collect(),
    };
    assert_eq!(each.len(), headers, "{mark}: {behind}");
    each.into_iter().enumerate().for_each(|(at, text)| tell(all, mark, at + 1, "preparation table", reported(text)));
}

/// Shop drawings: what the caption tells, and holes drawn where the pattern is calculated.
fn by_drawings(sources: &Sources, draft: &Draft<DrawingsView>, all: &mut Told) {
    for (at, work) in sources.takeoff.arrangement.openings.iter().enumerate() {
        let mark = work.opening.mark.as_str();
        let sheets = draft.view.openings.iter().filter(|it| it.heading.mark == mark);
        for (number, sheet) in sheets.enumerate().take(work.headers.len()) {
            let view = sheet.holes.as_ref().unwrap_or_else(|| &sheet.rows[0][0]);
            let Some(drawing) = draft.drawings.get(&view.key) else { continue };
            tell(all, mark, number + 1, "caption of the layout", reported(&view.caption));
            let hold = sources.takeoff.arrangement.openings[at].headers[number].hold.as_ref().unwrap();
            if hold.columns().is_some() {
                tell(all, mark, number + 1, "holes drawn, and the plate's", holes(drawing) + hold.plate_screws());
            }
        }
    }
}

fn holes(drawing: &Drawing) -> u32 {
    let rows = drawing.parts.iter().filter(|part| ["row 1", "row 2"].contains(&part.name.as_str()));
    let arcs = rows.flat_map(|part| &part.shapes).filter(|shape| matches!(shape, Shape::Arc { .. }));
    u32::try_from(arcs.count()).unwrap()
}

/// Everything that a job tells of its headers; product data are held to the takeoff's sums.
fn all_reported(sources: &Sources) -> Told {
    let mut all = Told::new();
    by_takeoff(sources, &mut all);
    by_packets(sources, &mut all);
    let faces = Faces::built_in();
    let packages: Vec<PackageDraft> =
        packages(sources).into_iter().filter_map(|at| submittal(sources, at, &faces)).collect();
    match packages.iter().find_map(|package| package.drawings.as_ref()) {
        Some(bound) => by_drawings(sources, bound, &mut all),
        None => by_drawings(sources, &drawing_set(sources, &faces), &mut all),
    }
    for package in &packages {
        for row in &package.front.view.prepared {
            let of = sources.takeoff.arrangement.openings.iter().find(|it| it.opening.mark == row.mark).unwrap();
            if row.behind != "–" {
                by_preparation(&row.mark, &row.behind, of.headers.len(), &mut all);
            }
        }
        for sheet in package.front.view.products.iter().flat_map(|group| &group.sheets) {
            product_data(sources, &sheet.name, sheet.rows.iter().map(|it| (it.label.as_str(), it.value.as_str())));
        }
    }
    all
}

/// What product data call in use of a fastener of headers is what their joints need beyond the kits.
fn product_data<'r>(sources: &Sources, name: &str, mut rows: impl Iterator<Item = (&'r str, &'r str)>) {
    let id = name.strip_prefix("product.").unwrap();
    let fastener = sources.catalog.items.get(id).is_some_and(|it| it.group == Group::Fastener);
    let openings = &sources.takeoff.arrangement.openings;
    let lines = sources.takeoff.lines.iter().filter(|line| &*line.item == id);
    let short: Option<Vec<u32>> = lines
        .map(|line| match line.of {
            EntityRef::Fixing(at, number) => match &openings[at].fixings[number] {
                FixingWork::Header(_) => {
                    let needed = openings[at].fixings[number].screws(&openings[at])?;
                    Some(needed - kit(&openings[at]).min(needed))
                }
                FixingWork::Arm(_) => None,
            },
            _ => None,
        })
        .collect();
    if let Some(short) = short.filter(|it| fastener && !it.is_empty() && id != "bit-masonry") {
        let (_, in_use) = rows.find(|(label, _)| *label == "In use").unwrap();
        let digits: String = in_use.chars().take_while(|c| c.is_ascii_digit() || *c == ',').collect();
        assert_eq!(digits.replace(',', "").parse::<u32>().unwrap(), short.iter().sum::<u32>(), "{id}: {in_use}");
    }
}

/// Fails where two places tell different numbers of a header; the number of headers, and how many of them have a plate.
fn agree(sources: &Sources, what: &str) -> (usize, usize) {
    let all = all_reported(sources);
    let differ: Vec<String> = all
        .iter()
        .filter(|(_, reported)| reported.iter().any(|(_, number)| *number != reported[0].1))
        .map(|(of, reported)| format!("{what}: {of:?} {reported:?}"))
        .collect();
    assert!(differ.is_empty(), "{}", differ.join("\n"));
    let works = &sources.takeoff.arrangement.openings;
    let headers = works.iter().flat_map(|work| work.headers.iter().map(move |header| (work, header)));
    let mut plates = 0;
    for (work, header) in headers {
        let (hold, own) = (header.hold.as_ref().unwrap(), work.operator.unwrap().header_screws);
        plates += usize::from(hold.plate().is_some());
        if hold.columns().is_none() || hold.plate().is_some() {
            assert_eq!(
                hold.header_screws(),
                own,
                "{what}: {}, what is not calculated is the own number",
                work.opening.mark
            );
        }
    }
    (all.len(), plates)
}

#[test]
fn every_place_reports_the_same_number_of_screws_of_a_header_of_the_demo() {
    let demo = demo();
    let (headers, plates) =
        of_sources(demo.reviewed, demo.catalog, &demo.priced.takeoff, |sources| agree(sources, "demo"));
    assert_eq!(headers, demo.priced.takeoff.arrangement.openings.iter().map(|it| it.headers.len()).sum::<usize>());
    assert!(plates > 0, "the demo has a header on a plate");
}

#[test]
fn every_place_reports_the_same_number_whatever_is_behind_the_header() {
    let catalog: &Catalog = demo().catalog;
    let (variants, mut plates) = (variants(), 0);
    for turn in 0..TURNS {
        let reviewed = clear(varied(&variants, turn), catalog);
        let takeoff = taken_off(&reviewed, catalog);
        let (_, plated) = of_sources(&reviewed, catalog, &takeoff, |sources| agree(sources, &format!("turn {turn}")));
        plates += plated;
    }
    assert!(plates > TURNS, "{plates} headers on plates");
}
