//! Laws that quantities and prices keep, whatever the job: more openings, sites apart, alternates, quotes, packs, terms.
//!
//! In: the demo, and copies of it with one thing changed. Out: whatever breaks a law. May not know: how the program
//! computes; what is asked for here is computed in whole cents. Common practice, no source, unless a line says otherwise.

use std::collections::BTreeMap;
use std::sync::Arc;

use hingewright::catalog::{MarkKind, Substrate, VisitKind};
use hingewright::estimate::{Estimate, ItemCost};
use hingewright::job::{DeviceEntry, DeviceKind, DeviceMount, Job, Link, Opening};
use hingewright::ledger::FigureId;
use hingewright::measure::{Measure, Unit};
use hingewright::pipeline;
use hingewright::takeoff::{EntityRef, Takeoff};
use rust_decimal::Decimal;

use crate::demo::{JOB, Read, clear, counted, demo, dollars, estimated, read, replace, taken_off, texts};

fn number(text: &str) -> Decimal {
    text.replace(',', "").parse().unwrap_or_else(|_| panic!("`{text}` is no number"))
}

/// Whole cents of a figure.
fn cents(takeoff: &Takeoff, figure: FigureId) -> i128 {
    let cents = dollars(takeoff, figure) * Decimal::ONE_HUNDRED;
    assert!(cents.fract().is_zero(), "{cents} cents");
    cents.try_into().unwrap()
}

/// A part over a whole of cents, half a cent away from zero.
fn part(cents: i128, over: i128, under: i128) -> i128 {
    let exact = cents * over;
    (exact.abs() * 2 + under) / (2 * under) * exact.signum()
}

fn without(job: &Job, mark: &str) -> Job {
    let mut job = job.clone();
    job.openings
        .iter_mut()
        .filter(|opening| opening.mark == mark)
        .for_each(|opening| Arc::make_mut(opening).base = false);
    job
}

/// Counted things of a takeoff by name: the counts that papers print, and every item sold by the piece. What hangs on a
/// visit is left out: days of a visit go by its crew.
fn pieces(read: &Read, job: Job) -> BTreeMap<String, Decimal> {
    let reviewed = clear(job, &read.catalog);
    let takeoff = taken_off(&reviewed, &read.catalog);
    let counts = counted(&reviewed, &read.catalog, &takeoff, None);
    let mut pieces: BTreeMap<String, Decimal> = counts.into_iter().map(|it| (it.name, number(&it.job))).collect();
    for line in takeoff.lines.iter().filter(|line| !matches!(line.of, EntityRef::Visit(_))) {
        if read.catalog.items[&*line.item].unit == Unit::Each {
            *pieces.entry(line.item.to_string()).or_default() += takeoff.ledger.value(line.quantity).value();
        }
    }
    pieces
}

#[test]
fn an_opening_more_never_lowers_a_count() {
    let read = read(&texts());
    let all = pieces(&read, read.job.clone());
    assert!(all.len() > 100, "{} things counted", all.len());
    let marks: Vec<String> = read.job.base_openings().map(|opening| opening.mark.clone()).collect();
    let mut grew = 0;
    for mark in &marks {
        for (name, fewer) in pieces(&read, without(&read.job, mark)) {
            let more = all.get(&name).copied().unwrap_or_default();
            assert!(fewer <= more, "{name}: {fewer} without {mark}, {more} with it");
            grew += usize::from(fewer < more);
        }
    }
    assert!(grew > marks.len() * 5, "{grew} counts grew by an opening");
}

/// Quantities by item and hours by task, of one site alone or of all; what belongs to the job as a whole left out.
fn sums(read: &Read, site: Option<&str>) -> BTreeMap<String, Decimal> {
    let mut job = read.job.clone();
    job.openings.iter_mut().for_each(|opening| {
        let opening = Arc::make_mut(opening);
        opening.base &= site.is_none_or(|site| opening.site == site);
    });
    let reviewed = clear(job, &read.catalog);
    let takeoff = taken_off(&reviewed, &read.catalog);
    let mut sums = BTreeMap::new();
    let items = takeoff.lines.iter().map(|line| (line.of, format!("item {}", line.item), line.quantity));
    let hours = takeoff.labor.iter().map(|line| {
        let task = line.task.as_deref().unwrap_or("least hours");
        (line.of, format!("task {task} of {}, overtime {}", line.trade, line.overtime), line.hours)
    });
    for (of, name, figure) in items.chain(hours) {
        if of != EntityRef::Job {
            *sums.entry(name).or_insert(Decimal::ZERO) += takeoff.ledger.value(figure).value();
        }
    }
    sums
}

#[test]
fn sites_taken_off_apart_come_to_the_job() {
    let read = read(&texts());
    let mut apart: BTreeMap<String, Decimal> = BTreeMap::new();
    for site in read.job.sites.keys() {
        for (name, sum) in sums(&read, Some(site)) {
            *apart.entry(name).or_default() += sum;
        }
    }
    let together = sums(&read, None);
    assert!(together.len() > 150, "{} sums", together.len());
    let differing: Vec<String> = together
        .keys()
        .chain(apart.keys())
        .filter(|name| together.get(*name) != apart.get(*name))
        .map(|name| format!("{name}: job {:?}, sites {:?}", together.get(name), apart.get(name)))
        .collect();
    assert_eq!(differing, Vec::<String>::new());
}

#[test]
fn counts_of_sites_come_to_those_of_the_job() {
    let demo = demo();
    let takeoff = &demo.priced.takeoff;
    let sites = takeoff.arrangement.sites.len();
    let by_site: Vec<_> = (0..sites).map(|at| counted(demo.reviewed, demo.catalog, takeoff, Some(at))).collect();
    for (at, count) in counted(demo.reviewed, demo.catalog, takeoff, None).iter().enumerate() {
        let sum: Decimal = by_site.iter().map(|counts| number(&counts[at].site)).sum();
        assert_eq!(number(&count.job), sum, "{}", count.name);
        assert!(sum > Decimal::ZERO, "the demo has {}", count.label);
    }
}

#[test]
fn an_alternate_that_changes_nothing_costs_nothing() {
    let read = read(&texts());
    let mut job = read.job.clone();
    assert_eq!(job.alternates[1].number, "2");
    job.alternates[1].omits.clear();
    let reviewed = clear(job, &read.catalog);
    let priced = pipeline::price(&reviewed, &read.catalog);
    assert_eq!(dollars(&priced.takeoff, priced.alternates[1].change), Decimal::ZERO);
    let with_it = |numbers: &(String, String)| numbers.0 == "2" || numbers.1 == "2";
    assert!(!priced.interactions.iter().any(|it| with_it(&it.numbers)), "nothing has no part in any other alternate");
}

/// An alternate that leaves an opening out is the price of the job that never had it, less the base bid.
#[test]
fn an_alternate_is_the_changed_job_less_the_job() {
    let read = read(&texts());
    let reviewed = clear(without(&read.job, "H107"), &read.catalog);
    let (takeoff, estimate) = estimated(&reviewed, &read.catalog);
    let demo = demo();
    let ours = &demo.priced.takeoff;
    let change = dollars(&takeoff, estimate.bid) - dollars(ours, demo.estimate().bid);
    assert!(change < Decimal::ZERO, "less work costs less: {change}");
    assert_eq!(dollars(ours, demo.priced.alternates[1].change), change);
}

#[test]
fn a_quote_stands_in_the_place_of_the_price() {
    let price_of = |estimate: &Estimate, takeoff: &Takeoff| {
        let item = estimate.items.iter().find(|item| item.item == "drv-full").unwrap();
        (dollars(takeoff, item.price), item.quoted)
    };
    let read = read(&texts());
    let reviewed = read.reviewed();
    let (takeoff, quoted) = estimated(&reviewed, &read.catalog);
    assert_eq!(price_of(&quoted, &takeoff), ("1582.00".parse().unwrap(), true));
    let mut job = read.job.clone();
    job.quotes.clear();
    let plain = clear(job, &read.catalog);
    let (without, priced) = estimated(&plain, &read.catalog);
    let catalog = read.catalog.items["drv-full"].price.get().unwrap().to_dollars();
    assert_ne!(catalog, "1582.00".parse().unwrap(), "the quote differs from the catalog");
    assert_eq!(price_of(&priced, &without), (catalog, false));
    assert_ne!(dollars(&without, priced.bid), dollars(&takeoff, quoted.bid));
}

#[test]
fn rounding_to_packs_never_enters_a_unit_price() {
    let mut read = read(&texts());
    let reviewed = read.reviewed();
    let (packed, with) = estimated(&reviewed, &read.catalog);
    let unit_prices: Vec<i128> = with.unit_prices.iter().map(|it| cents(&packed, it.price)).collect();
    let extensions: Vec<i128> = with.items.iter().map(|it| cents(&packed, it.extension)).collect();
    let (rounding, bid) = (cents(&packed, with.totals.packs), cents(&packed, with.bid));
    assert!(rounding > 0, "the demo rounds something to packs");
    drop(packed);
    read.catalog.items.values_mut().for_each(|item| item.pack = None);
    let (loose, without) = estimated(&reviewed, &read.catalog);
    assert_eq!(cents(&loose, without.totals.packs), 0);
    assert_eq!(unit_prices, without.unit_prices.iter().map(|it| cents(&loose, it.price)).collect::<Vec<_>>());
    assert_eq!(extensions, without.items.iter().map(|it| cents(&loose, it.extension)).collect::<Vec<_>>());
    assert!(cents(&loose, without.bid) < bid, "what packs add is in the bid");
}

/// The build-up of the demo's terms by hand: 13.5 % markup on direct cost, 1.25 % markup on material and labor, 8 %
/// margin on all above; allowance and adjustment; bond 2.5 % to 100,000, 1.5 % to 500,000, 1 % beyond, on a price that
/// holds the premium itself.
#[test]
fn the_build_up_is_what_a_hand_makes_of_the_terms() {
    let demo = demo();
    let (takeoff, estimate) = (&demo.priced.takeoff, demo.estimate());
    let totals = &estimate.totals;
    let direct = cents(takeoff, totals.direct);
    let overhead = part(direct, 135, 1000);
    let warranty = part(cents(takeoff, totals.material) + cents(takeoff, totals.labor), 125, 10_000);
    let base = direct + overhead + warranty;
    // A margin of 8 % is 8 of the 100 that the price is, and so 8 over 92 of the base.
    let profit = part(base, 8, 92);
    let marks: Vec<i128> = estimate.marks.iter().map(|mark| cents(takeoff, mark.amount)).collect();
    assert_eq!(marks, [overhead, warranty, profit]);
    let before = base + profit + 180_000 - 35_000;
    let (first, second) = (100_000 * 100, 500_000 * 100);
    let middle = part(before * 15 + first * 10, 1, 1000 - 15);
    assert!((first..second).contains(&(before + middle)), "the demo's price is in the second tier");
    assert_eq!(cents(takeoff, estimate.bond.as_ref().unwrap().amount), middle);
    assert_eq!(cents(takeoff, estimate.bid), before + middle);
    // The premium by tiers of the price that holds it, to the half cent.
    let tiers = first * 25 + (before + middle - first) * 15;
    assert!((tiers - middle * 1000).abs() <= 500, "{tiers} thousandths of a cent, {middle} cents");
}

#[test]
fn a_margin_is_more_than_a_markup_of_the_same_rate() {
    let mut read = read(&texts());
    let reviewed = read.reviewed();
    let terms = read.catalog.terms.get_mut("standard").unwrap();
    let profit = terms.marks.iter_mut().find(|mark| mark.name == "Profit").unwrap();
    assert_eq!(profit.kind, MarkKind::Margin);
    profit.kind = MarkKind::Markup;
    let (takeoff, estimate) = estimated(&reviewed, &read.catalog);
    let marks: Vec<i128> = estimate.marks.iter().map(|mark| cents(&takeoff, mark.amount)).collect();
    let base = cents(&takeoff, estimate.totals.direct) + marks[0] + marks[1];
    assert_eq!(marks[2], part(base, 8, 100));
    let margin = cents(&demo().priced.takeoff, demo().estimate().marks[2].amount);
    assert!(margin > marks[2], "margin {margin}, markup {}", marks[2]);
}

/// Net quantities by item, and the bid.
fn bought(read: &Read) -> (BTreeMap<String, Decimal>, i128) {
    let reviewed = read.reviewed();
    let (takeoff, estimate) = estimated(&reviewed, &read.catalog);
    let net = |item: &ItemCost| (item.item.clone(), takeoff.ledger.value(item.net).value());
    (estimate.items.iter().map(net).collect(), cents(&takeoff, estimate.bid))
}

#[test]
fn a_jurisdiction_with_two_heights_doubles_plates_and_their_boxes_before_pricing() {
    let mut one = texts();
    replace(&mut one, JOB, "jurisdictions = [\"two-heights\", \"keep-moving\"]", "jurisdictions = [\"keep-moving\"]");
    let (one, two) = (read(&one), read(&texts()));
    let ((items_1, bid_1), (items_2, bid_2)) = (bought(&one), bought(&two));
    for plate in ["plate-square", "plate-jamb"] {
        let twice = items_1.get(plate).map(|number| *number * Decimal::TWO);
        assert_eq!(items_2.get(plate).copied(), twice, "{plate}");
    }
    assert!(items_1["plate-square"] > Decimal::TEN, "plates of the demo");
    // A wired plate on a wall has a box of its own.
    let on_a_wall = |device: &&DeviceEntry| {
        device.kind.get() == Some(&DeviceKind::Plate)
            && device.link.or(Link::Wired) == Link::Wired
            && device.mount.get() == Some(&DeviceMount::Wall)
    };
    let devices = two.job.base_openings().flat_map(|opening| opening.entry.device.list());
    let boxed = Decimal::from(devices.filter(on_a_wall).count());
    assert!(boxed > Decimal::TEN, "{boxed} plates on walls");
    assert_eq!(items_2["box-device"] - items_1["box-device"], boxed, "a box more for every plate more");
    assert_eq!(items_2["footing"], items_1["footing"], "a post carries both its plates");
    assert!(bid_2 > bid_1, "{bid_2} and {bid_1} cents");
}

/// Only screws of a kit that stay in the joint count toward what it needs: where the kit's are replaced or thrown away, all
/// are bought (common practice, no source).
#[test]
fn screws_of_a_kit_that_do_not_stay_are_bought() {
    const CATALOG: &str = "catalog_demo/operators.toml";
    let kit = |more: &str| format!("into = \"wood\", name = \"#14 x 3 in wood screw\", count = 8{more}");
    let with = |screws: &str| {
        let mut files = texts();
        replace(&mut files, CATALOG, &kit(""), &kit(&format!(", screws = \"{screws}\"")));
        let read = read(&files);
        let on_wood = |it: &&Opening| {
            it.entry.operator.get().is_some_and(|id| id.as_str() == "surf-low")
                && it.entry.frame.get().is_some_and(|frame| frame.fixed_to.get() == Some(&Substrate::Wood))
        };
        let openings = read.job.base_openings().filter(on_wood).count();
        (bought(&read).0.get("fix-wood").copied().unwrap_or_default(), Decimal::from(openings))
    };
    let ((thrown, headers), (replaced, _), (kept, _)) = (with("discard"), with("replace"), with("reuse"));
    assert!(headers > Decimal::ZERO, "the demo hangs this operator on wood");
    assert_eq!(thrown, replaced);
    assert_eq!(thrown - kept, headers * Decimal::from(8), "eight a header");
}

/// An hour by hand. Installer: 41.50, payroll taxes 10.85 % (4.50), compensation 9.4 % (3.90), benefits 11.35; overtime
/// adds half the wage. Electrician: 54.20, 10.85 % (5.88), 6.2 % (3.36), 16.90.
#[test]
fn rates_of_an_hour_are_what_a_hand_makes_of_wage_and_burden() {
    let demo = demo();
    let rate = |trade: &str, overtime: bool| {
        let rate = demo.estimate().rates.iter().find(|it| it.trade == trade && it.overtime == overtime).unwrap();
        cents(&demo.priced.takeoff, rate.rate)
    };
    assert_eq!(rate("installer", false), 4150 + 450 + 390 + 1135);
    assert_eq!(rate("installer", true), 4150 + 450 + 390 + 1135 + 2075);
    assert_eq!(rate("electrician", false), 5420 + 588 + 336 + 1690);
}

/// Unit price U3 by hand: a sleeve of 22.00 with 1.5 % freight (0.33) and 6.25 % tax on both (1.40), a rig of 34.00
/// with 6.25 % use tax (2.13), 0.9 h of an electrician at 80.34 (72.31); direct cost 132.17; then the terms of the demo.
#[test]
fn a_unit_price_is_what_a_hand_makes_of_its_parts() {
    let demo = demo();
    let price = demo.estimate().unit_prices.iter().find(|price| price.number == "U3").unwrap();
    let (material, rig, labor) =
        (2200 + 33 + part(2233, 625, 10_000), 3400 + part(3400, 625, 10_000), part(8034, 9, 10));
    assert_eq!((material, rig, labor), (2373, 3613, 7231));
    let direct = material + rig + labor;
    let base = direct + part(direct, 135, 1000) + part(material + labor, 125, 10_000);
    assert_eq!(cents(&demo.priced.takeoff, price.price), base + part(base, 8, 92));
}

/// Every hour of labor is of the clock times people; a visit that has an hour of a trade has its least hours.
#[test]
fn no_visit_of_a_trade_is_shorter_than_its_least_hours() {
    let demo = demo();
    let takeoff = &demo.priced.takeoff;
    let mut visits: BTreeMap<(Option<usize>, VisitKind, &str), (Decimal, u32)> = BTreeMap::new();
    for line in takeoff.labor.iter().filter(|line| line.visit != VisitKind::Shop) {
        let visit = visits.entry((line.site, line.visit, &*line.trade)).or_default();
        visit.0 += takeoff.ledger.value(line.hours).number_of(Unit::Hour).unwrap();
        visit.1 = visit.1.max(line.crew);
    }
    let mut filled = 0;
    for ((site, visit, trade), (hours, people)) in visits {
        let Some(least) = demo.catalog.trades[trade].least_hours else { continue };
        let least = least.number_of(Unit::Hour).unwrap() * Decimal::from(people);
        assert!(hours >= least, "{trade}, {} of site {site:?}: {hours} h of {least} h", visit.word());
        filled += usize::from(hours == least);
    }
    assert_eq!(filled > 0, takeoff.labor.iter().any(|line| line.rule.is_none()), "short visits are filled up");
}

/// Two headers side by side on one side of a pair do not lie in each other: where they meet neither is longer than its leaf.
#[test]
fn headers_that_adjoin_are_longer_at_their_free_ends_only() {
    let takeoff = &demo().priced.takeoff;
    let mut adjoining = 0;
    for (at, opening) in takeoff.arrangement.openings.iter().enumerate() {
        let beside = |side| opening.headers.iter().filter(|it| it.side.is_some() && it.side == side).count();
        for (number, header) in opening.headers.iter().enumerate() {
            let ends = if beside(header.side) > 1 { 1 } else { 2 };
            assert_eq!(header.free_ends, ends, "{}", opening.opening.mark);
            adjoining += usize::from(ends == 1);
            let of = EntityRef::Header(at, number);
            let lines = takeoff.lines.iter().filter(|line| line.of == of && line.item.starts_with("hdr-"));
            for line in lines.filter(|line| takeoff.ledger.value(line.quantity).number_of(Unit::Inch).is_some()) {
                let longer = takeoff.ledger.value(line.quantity).number_of(Unit::Inch).unwrap()
                    - header.leaf_width.unwrap().quantity().number_of(Unit::Inch).unwrap();
                // The demo's families are longer by 1/4, 2 or 3 in at each free end.
                let each = longer / Decimal::from(ends);
                assert!(
                    [Decimal::new(25, 2), Decimal::TWO, Decimal::from(3)].contains(&each),
                    "{longer} at {ends} ends"
                );
            }
        }
    }
    assert!(adjoining >= 2, "the demo has a pair with a header for each leaf");
}
