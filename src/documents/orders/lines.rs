//! Lines of an order list: which item for which openings, in which hand, finish and length, and whether it may be ordered.
//!
//! In: takeoff lines of a supplier and a site. Out: rows, printed lines. May not know: packs; those belong to the whole job.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use serde::Serialize;

use super::OPEN;
use crate::catalog::{CostKind, Group, Item, SetPlace, Supplier};
use crate::documents::printing::{Printing, kept, listed, or_dash, volts};
use crate::documents::schedule::finish_words;
use crate::documents::{Sources, approval_status};
use crate::engineering::Hand;
use crate::input::Date;
use crate::job::{Stands, SubmittalPart};
use crate::measure::{Dimension, Noun, Quantity, Unit};
use crate::takeoff::{EntityRef, FixingWork, Line, OpeningWork, due};

/// Groups whose items go by the hand of the leaf.
const HANDED: [Group; 6] =
    [Group::Header, Group::Drive, Group::Arm, Group::Bracket, Group::LatchRelease, Group::PowerTransfer];

/// Groups whose items go by the side that the arm works from.
const SIDED: [Group; 3] = [Group::Header, Group::Drive, Group::Arm];

/// Where something goes, and by when.
#[derive(Clone, Debug, Serialize)]
pub struct Delivery {
    /// Site and address, or the shop for what belongs to no site.
    pub ship_to: String,
    /// Where it is unloaded and staged, and who is there.
    pub unload: String,
    /// Day on which it must be there, with the visit.
    pub needed: String,
    /// Last safe day to order.
    pub order_by: String,
}

/// Lines that are bought against the same submittal, or held for the same reason.
#[derive(Clone, Debug, Serialize)]
pub struct OrderGroup {
    /// Where it goes; with the first group of a site alone, whose released lines stand first.
    pub to: Option<Delivery>,
    /// `RELEASED` or `NOT RELEASED`, against what or why not, and how much; at the head of each page that its lines stand on.
    pub words: String,
    /// Its lines.
    pub lines: Vec<OrderLine>,
}

/// A line of an order list.
#[derive(Clone, Debug, Serialize)]
pub struct OrderLine {
    /// Name, such as `order.fenwick.hall.3`.
    pub name: String,
    /// Our item.
    pub item: String,
    /// Plain words.
    pub description: String,
    /// Finish, hand, side, volts, size, in words.
    pub details: String,
    /// How much, with its unit; pieces with their length.
    pub quantity: String,
    /// Openings it is for, with how many where there are more than one; also the carton's tags.
    pub used: String,
}

/// What tells two lines apart, in printing order.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Key {
    held: Option<String>,
    against: String,
    group: Group,
    item: String,
    details: String,
    piece: Option<Decimal>,
}

impl Key {
    /// What it is bought against, or why it is not released.
    fn words(&self) -> &str {
        self.held.as_deref().unwrap_or(&self.against)
    }
}

/// A line before it is printed.
#[derive(Clone, Debug)]
pub(super) struct Row {
    key: Key,
    /// In the item's own dimension; of pieces their sum.
    pub quantity: Quantity,
    /// How many pieces.
    pub pieces: Decimal,
    /// Openings with how much each takes, in file order; what belongs to none has no mark.
    used: BTreeMap<Option<usize>, Decimal>,
}

impl Row {
    pub(super) fn item(&self) -> &str {
        &self.key.item
    }

    /// What it is bought against, or why it is not released.
    pub(super) fn words(&self) -> &str {
        self.key.words()
    }

    pub(super) fn is_released(&self) -> bool {
        self.key.held.is_none()
    }
}

/// The rows of a site.
pub(super) struct SiteRows {
    from: String,
    site: Option<usize>,
    pub order: Option<Date>,
    needed: String,
    pub rows: Vec<Row>,
}

/// What lines are made with.
pub(super) struct OrderContext<'a> {
    pub sources: &'a Sources<'a>,
    pub printing: Printing,
}

impl OrderContext<'_> {
    /// What a supplier sends to a site, or to no site; none where he sends nothing.
    pub(super) fn site(&self, from: &Supplier, at: Option<usize>) -> Option<SiteRows> {
        let takeoff = self.sources.takeoff;
        let mut rows: BTreeMap<Key, Row> = BTreeMap::new();
        for line in takeoff.lines.iter().filter(|line| takeoff.site_of(line.of) == at) {
            let Some(item) = self.sources.catalog.items.get(&*line.item) else { continue };
            let quantity = takeoff.ledger.value(line.quantity);
            if item.supplier != from.id || item.cost != CostKind::Material || quantity.value().is_zero() {
                continue;
            }
            self.add(&mut rows, item, line, quantity, from);
        }
        if rows.is_empty() {
            return None;
        }
        let site = at.and_then(|at| takeoff.arrangement.sites.get(at)).copied();
        let review = approval_status::profile(self.sources).and_then(|it| it.review_days);
        let due = site.map(|site| due(site, from, review)).unwrap_or_default();
        let visit = from.before.word();
        let needed = due.needed.map_or_else(|| format!("{visit}, date {OPEN}"), |day| format!("{day}, {visit}"));
        Some(SiteRows { from: from.id.clone(), site: at, order: due.order, needed, rows: rows.into_values().collect() })
    }

    fn add(&self, rows: &mut BTreeMap<Key, Row>, item: &Item, line: &Line, quantity: Quantity, from: &Supplier) {
        // What is part of a hardware set comes cut to length; what is run through a building comes as it is sold.
        let is_piece = quantity.dimension() == Dimension::LENGTH && item.set != SetPlace::Apart;
        let (against, held) = self.release(item, line.of, from);
        let key = Key {
            held,
            group: item.group,
            item: item.id.clone(),
            details: self.details(item, line.of),
            piece: is_piece.then(|| quantity.value().normalize()),
            against,
        };
        let row = rows.entry(key.clone()).or_insert_with(|| Row {
            key,
            quantity: Quantity::new(Decimal::ZERO, quantity.dimension()),
            pieces: Decimal::ZERO,
            used: BTreeMap::new(),
        });
        row.quantity = Quantity::new(row.quantity.value() + quantity.value(), quantity.dimension());
        row.pieces += Decimal::ONE;
        let count = if quantity.dimension() == Dimension::LENGTH { Decimal::ONE } else { quantity.value() };
        *row.used.entry(line.of.opening()).or_default() += count;
    }

    /// What a line is bought against, and why it is not released; nothing where it is.
    fn release(&self, item: &Item, of: EntityRef, from: &Supplier) -> (String, Option<String>) {
        let job = self.sources.reviewed.job();
        let work = of.opening().and_then(|at| self.sources.takeoff.arrangement.openings.get(at));
        let measured = work.is_none_or(|work| work.opening.is_measured_twice());
        let unmeasured = (!measured).then(|| "second survey not done".to_owned());
        if !from.submitted || job.submittals.is_empty() {
            return ("no submittal on record".to_owned(), unmeasured);
        }
        let Some(section) = job.section_of(item.group) else { return (String::new(), Some("no section".to_owned())) };
        let own = job.head.section.as_deref() == Some(section);
        let schedule = (own && job.submittals.iter().any(|it| it.parts.contains(&SubmittalPart::Schedule)))
            .then_some(SubmittalPart::Schedule);
        let parts = [Some(SubmittalPart::ProductData), schedule].into_iter().flatten();
        let approvals: Vec<_> = parts.map(|part| job.approval(part, section)).collect();
        let open = approvals.iter().find(|it| !it.is_current());
        let Some(shown) = open.or(approvals.first()) else { return (String::new(), unmeasured) };
        let reported = approval_status::sentence(self.sources, shown);
        let open = open.map(|it| match it.stands {
            Stands::Approved { .. } => format!("{reported}, job is at {}", job.head.revision_word()),
            _ => reported.clone(),
        });
        let reasons: Vec<String> = [open, unmeasured].into_iter().flatten().collect();
        (reported, (!reasons.is_empty()).then(|| reasons.join("; ")))
    }

    /// Finish, hand, side, volts and size of an item for an entity, in words; the size where the item's name does not tell it.
    fn details(&self, item: &Item, of: EntityRef) -> String {
        let work = of.opening().and_then(|at| Some((at, self.sources.takeoff.arrangement.openings.get(at)?)));
        let finish = work.and_then(|(at, _)| finish_words(self.sources, item, at)).or_else(|| item.finish.clone());
        let hand = work.filter(|_| HANDED.contains(&item.group)).and_then(|(_, work)| hand(work, of));
        let side = work.filter(|_| SIDED.contains(&item.group)).and_then(|(_, work)| side(work, of));
        let fed = work.filter(|_| item.group == Group::Drive).and_then(|(_, work)| {
            let typed = work.opening.entry.power.get().and_then(|power| power.volts.cloned());
            typed.or(work.operator.map(|operator| operator.volts))
        });
        let electric = item.electric.as_ref().and_then(|it| it.volts);
        let size = item.size.as_deref().filter(|size| !item.name.contains(size)).map(kept);
        let parts = [finish, hand, side, fed.or(electric).map(volts), size];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    /// The lines of a site, those alike in what they are bought against or held by together.
    pub(super) fn printed(&self, of: &SiteRows) -> Vec<OrderGroup> {
        let site = of.site.and_then(|at| self.sources.takeoff.arrangement.sites.get(at)).copied();
        let mut numbers = 1..;
        let mut name =
            || format!("order.{}.{}.{}", of.from, site.map_or("shop", |it| &it.id), numbers.next().unwrap_or(0));
        let mut to = Some(self.delivery(of));
        let alike = of.rows.chunk_by(|one, next| one.key.words() == next.key.words());
        let group = alike.map(|rows| OrderGroup {
            to: to.take(),
            words: self.subtotal(rows),
            lines: rows.iter().map(|row| self.line(row, name())).collect(),
        });
        group.collect()
    }

    /// Where the lines of a site go, and by when.
    pub(super) fn delivery(&self, of: &SiteRows) -> Delivery {
        let site = of.site.and_then(|at| self.sources.takeoff.arrangement.sites.get(at)).copied();
        let text = |slot: &crate::input::Slot<crate::input::Text>| slot.get().map(|it| it.to_string());
        let unload = site.map(|it| [text(&it.entry.parking), text(&it.entry.staging), text(&it.entry.contact)]);
        let unload = unload.into_iter().flatten().flatten().collect::<Vec<_>>().join("; ");
        let firm = &self.sources.catalog.firm;
        Delivery {
            ship_to: match site {
                Some(site) => format!("{}, {}", site.name, site.address),
                None => format!("{}, {}", firm.name, firm.address),
            },
            unload: or_dash(Some(&unload)),
            needed: of.needed.clone(),
            order_by: of.order.map_or_else(|| OPEN.to_owned(), |day| day.to_string()),
        }
    }

    /// The length of its pieces, as printed; none where it is not bought in pieces.
    pub(super) fn piece(&self, row: &Row) -> Option<String> {
        row.key.piece.map(|piece| self.printing.piece(Quantity::new(piece, Dimension::LENGTH)))
    }

    /// A line as it is printed.
    pub(super) fn line(&self, row: &Row, name: String) -> OrderLine {
        let item = self.sources.catalog.items.get(row.item());
        let unit = item.map_or(Unit::Each, |item| item.unit);
        let quantity = match self.piece(row) {
            Some(length) => format!("{}\u{a0}pc of {length}", row.pieces.normalize()),
            None => self.printing.quantity(row.quantity, unit),
        };
        OrderLine {
            name,
            item: row.key.item.clone(),
            description: item.map_or_else(String::new, |item| item.name.clone()),
            details: row.key.details.clone(),
            quantity,
            used: self.used(row),
        }
    }

    /// Marks of the openings, with how many where there are more than one; what belongs to no opening is stock of the site.
    fn used(&self, row: &Row) -> String {
        let each = row.used.iter().map(|(at, count)| {
            let Some(at) = at else { return "site stock".to_owned() };
            let work = self.sources.takeoff.arrangement.openings.get(*at);
            let mark = work.map(|work| work.opening.mark.clone()).unwrap_or_default();
            if *count == Decimal::ONE { mark } else { format!("{mark}\u{a0}×{}", count.normalize()) }
        });
        each.collect::<Vec<_>>().join(", ")
    }

    /// What lines are bought against or held by, how many they are, and how much.
    fn subtotal(&self, rows: &[Row]) -> String {
        let mut sums: BTreeMap<&'static str, (Unit, Quantity)> = BTreeMap::new();
        for row in rows {
            let unit = self.sources.catalog.items.get(row.item()).map_or(Unit::Each, |item| item.unit);
            let zero = || (unit, Quantity::new(Decimal::ZERO, row.quantity.dimension()));
            let (_, sum) = sums.entry(unit.word()).or_insert_with(zero);
            *sum = Quantity::new(sum.value() + row.quantity.value(), sum.dimension());
        }
        let sums = sums.into_values().map(|(unit, sum)| {
            let each = if unit == Unit::Each { " each" } else { "" };
            format!("{}{each}", self.printing.quantity(sum, unit))
        });
        let sums = listed(sums, ", ");
        let Some(first) = rows.first() else { return sums };
        let what = if first.is_released() { "RELEASED" } else { "NOT RELEASED" };
        format!("{what}: {}. {}, {sums}", first.key.words(), Noun::LINE.len(rows.len()))
    }
}

/// The leaves that an entity belongs to, by position.
fn leaves_of(work: &OpeningWork, of: EntityRef) -> Vec<usize> {
    let of_drive = |drive: usize| work.drives.get(drive).map(|drive| vec![drive.leaf]).unwrap_or_default();
    let of_header = |header: usize| work.headers.get(header).map(|header| header.leaves.clone()).unwrap_or_default();
    match of {
        EntityRef::Leaf(_, leaf) => vec![leaf],
        EntityRef::Drive(_, drive) => of_drive(drive),
        EntityRef::Header(_, header) => of_header(header),
        EntityRef::Fixing(_, fixing) => match work.fixings.get(fixing) {
            Some(FixingWork::Header(header)) => of_header(*header),
            Some(FixingWork::Arm(drive)) => of_drive(*drive),
            None => Vec::new(),
        },
        EntityRef::Opening(_) => (0..work.leaves.len()).collect(),
        _ => Vec::new(),
    }
}

fn hand(work: &OpeningWork, of: EntityRef) -> Option<String> {
    let hands = leaves_of(work, of).into_iter().filter_map(|leaf| work.leaves.get(leaf)?.hand.map(Hand::letters));
    let hands: Vec<&str> = hands.collect();
    (!hands.is_empty()).then(|| hands.join("/"))
}

/// The side that the arms work from: `push side` or `pull side`.
fn side(work: &OpeningWork, of: EntityRef) -> Option<String> {
    let leaves = leaves_of(work, of);
    let arms = work.drives.iter().filter(|drive| leaves.contains(&drive.leaf)).filter_map(|drive| drive.arm);
    let mut sides: Vec<&str> =
        arms.map(|arm| if arm == crate::catalog::Arm::Push { "push side" } else { "pull side" }).collect();
    sides.dedup();
    (!sides.is_empty()).then(|| sides.join(" and "))
}
