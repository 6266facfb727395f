//! The bid sheet: the offer that leaves the office.
//!
//! In: sources and the priced offer. Out: a view of finished strings. May not know: costs; only prices are taken from the
//! estimate.

mod scope;

use serde::Serialize;

use scope::{clarifications, exclusions, noticed, scope};

use super::conditions::ConditionEvaluator;
use super::printing::{listed, or_dash};
use super::{Count, Letterhead, Sources, counts, letterhead};
use crate::catalog::{NoteKind, RESPONSIBILITY_CELLS};
use crate::estimate::{AlternatePrice, Estimate};
use crate::job::{PowerKnown, StatementKind};
use crate::ledger::FigureId;
use crate::measure::Noun;
use crate::money::Money;
use crate::takeoff::{OpeningWork, Takeoff};

/// Offered, besides the takeoff.
#[derive(Clone, Copy)]
pub struct Offer<'a> {
    /// The price.
    pub estimate: &'a Estimate,
    /// Alternates.
    pub alternates: &'a [AlternatePrice],
}

/// A line with an amount.
#[derive(Clone, Debug, Serialize)]
pub struct PricedRow {
    /// Its number on the bid form.
    pub number: String,
    /// What it is.
    pub title: String,
    /// The unit, for a unit price; `add` or `deduct`, for an alternate.
    pub word: String,
    /// The openings an alternate touches; empty for all else.
    pub openings: String,
    /// The amount.
    pub amount: String,
}

/// A sentence, with the party expected to do it and the openings it touches.
#[derive(Clone, Debug, Serialize)]
pub struct ScopeLine {
    /// The sentence.
    pub says: String,
    /// Who is expected to do it; empty for an inclusion.
    pub by: String,
    /// The openings it touches; empty where it goes for the whole job.
    pub openings: String,
}

/// A row of the matrix.
#[derive(Clone, Debug, Serialize)]
pub struct MatrixRow {
    /// What the row is about.
    pub name: String,
    /// Short names of parties; a dash where it does not apply.
    pub cells: Vec<String>,
}

/// A label and a value.
#[derive(Clone, Debug, Serialize)]
pub struct Term {
    /// The label.
    pub label: &'static str,
    /// The value.
    pub value: String,
}

/// An opening of the bid.
#[derive(Clone, Debug, Serialize)]
pub struct BidOpening {
    /// The mark.
    pub mark: String,
    /// The rooms it lies between.
    pub rooms: String,
    /// Form and leaves.
    pub form: String,
    /// Energy class.
    pub energy: String,
    /// Drives.
    pub drives: String,
    /// Devices.
    pub devices: String,
    /// How well power is known.
    pub power: String,
}

/// The openings of a site.
#[derive(Clone, Debug, Serialize)]
pub struct BidSite {
    /// Its name.
    pub name: String,
    /// Its openings.
    pub openings: Vec<BidOpening>,
}

/// The view of the bid sheet.
#[derive(Clone, Debug, Serialize)]
pub struct BidView {
    /// Letterhead.
    pub head: Letterhead,
    /// Person it goes to; empty where none is named.
    pub attention: String,
    /// Solicitation; empty where there is none.
    pub solicitation: String,
    /// Whether a section of the specification is named.
    pub has_section: bool,
    /// Day and hour due.
    pub due: String,
    /// Documents relied on: number, title, date.
    pub documents: Vec<[String; 3]>,
    /// Addenda: number, date, what changed.
    pub addenda: Vec<[String; 3]>,
    /// The base bid.
    pub base_bid: String,
    /// The same in words; a dash where it has none.
    pub base_bid_words: String,
    /// Alternates.
    pub alternates: Vec<PricedRow>,
    /// Unit prices.
    pub unit_prices: Vec<PricedRow>,
    /// Allowances included in the base bid.
    pub allowances: Vec<PricedRow>,
    /// Counts.
    pub counts: Vec<Count>,
    /// The openings priced, by site.
    pub sites: Vec<BidSite>,
    /// What is in.
    pub inclusions: Vec<ScopeLine>,
    /// What is not, and who does it.
    pub exclusions: Vec<ScopeLine>,
    /// Clarifications and assumptions.
    pub clarifications: Vec<ScopeLine>,
    /// What the review found and the owner should know.
    pub noticed: Vec<ScopeLine>,
    /// Key of the marks beside their clauses; empty where none has one.
    pub clause_key: String,
    /// Heads of the matrix.
    pub matrix_heads: Vec<&'static str>,
    /// The matrix.
    pub matrix: Vec<MatrixRow>,
    /// Short names of parties and what they stand for.
    pub parties: Vec<[String; 2]>,
    /// Time, validity, bonds, wages, taxes, warranty and the rest.
    pub terms: Vec<Term>,
    /// Editions the review went by.
    pub editions: String,
    /// Who signs.
    pub signed_by: String,
}

/// An amount of the ledger as printed.
pub(super) fn amount(takeoff: &Takeoff, figure: FigureId) -> String {
    Money::dollars(takeoff.ledger.value(figure).value()).print()
}

fn in_words(takeoff: &Takeoff, figure: FigureId) -> String {
    let words = Money::dollars(takeoff.ledger.value(figure).value()).in_words();
    words.map_or_else(|| or_dash(None), |words| sentence_case(&words))
}

/// The view of the bid sheet.
pub fn bid(sources: &Sources, offer: Offer) -> BidView {
    let job = sources.reviewed.job();
    let conditions = ConditionEvaluator::new(sources);
    let editions = job.head.rules.iter().filter_map(|id| sources.catalog.editions.get(id));
    let requests = noticed(sources);
    BidView {
        head: letterhead(sources, "Bid"),
        attention: job.head.attention.clone().unwrap_or_default(),
        solicitation: job.head.solicitation.clone().unwrap_or_default(),
        has_section: job.head.section.is_some(),
        due: job.head.due.map(|it| format!("{}, {:02}:{:02}", it.date(), it.hour(), it.minute())).unwrap_or_default(),
        documents: job.documents.iter().map(|it| [it.number.clone(), it.title.clone(), it.date.to_string()]).collect(),
        addenda: job
            .addenda
            .iter()
            .map(|it| [it.number.clone(), it.date.to_string(), or_dash(it.changes.as_deref())])
            .collect(),
        base_bid: amount(sources.takeoff, offer.estimate.bid),
        base_bid_words: in_words(sources.takeoff, offer.estimate.bid),
        alternates: alternates(sources, offer),
        unit_prices: unit_prices(sources, offer),
        allowances: allowances(sources),
        counts: counts(sources, None),
        sites: sites(sources),
        inclusions: scope(sources, &conditions, NoteKind::Inclusion, StatementKind::Inclusion),
        exclusions: exclusions(sources, &conditions),
        clarifications: clarifications(sources, &conditions),
        clause_key: super::clause_marks::key(requests.iter().map(|line| line.by.as_str())),
        noticed: requests,
        matrix_heads: RESPONSIBILITY_CELLS.to_vec(),
        matrix: matrix(sources),
        parties: parties(sources),
        terms: terms(sources, offer),
        editions: listed(editions.map(|it| it.name.clone()), ", "),
        signed_by: or_dash(job.head.signed_by.as_deref()),
    }
}

fn alternates(sources: &Sources, offer: Offer) -> Vec<PricedRow> {
    let ledger = &sources.takeoff.ledger;
    let row = |price: &AlternatePrice| {
        let change = Money::dollars(ledger.value(price.change).value());
        PricedRow {
            number: price.number.clone(),
            title: price.title.clone(),
            word: if change.is_negative() { "deduct" } else { "add" }.to_owned(),
            openings: touched(sources, &price.number),
            amount: change.abs().print(),
        }
    };
    offer.alternates.iter().map(row).collect()
}

/// The openings that an alternate adds, leaves out or changes, each once, in the order written.
fn touched(sources: &Sources, number: &str) -> String {
    let Some(alternate) = sources.reviewed.job().alternates.iter().find(|it| it.number == number) else {
        return String::new();
    };
    let changed = alternate.changes.iter().flat_map(|change| &change.openings);
    let mut marks: Vec<&str> = Vec::new();
    for mark in alternate.adds.iter().chain(&alternate.omits).chain(changed) {
        if !marks.contains(&mark.as_str()) {
            marks.push(mark);
        }
    }
    marks.join(", ")
}

fn unit_prices(sources: &Sources, offer: Offer) -> Vec<PricedRow> {
    let each = offer.estimate.unit_prices.iter().map(|price| PricedRow {
        number: price.number.clone(),
        title: price.title.clone(),
        word: price.unit.clone(),
        openings: String::new(),
        amount: amount(sources.takeoff, price.price),
    });
    each.collect()
}

fn allowances(sources: &Sources) -> Vec<PricedRow> {
    let each = sources.reviewed.job().allowances.iter().map(|it| PricedRow {
        number: it.number.clone(),
        title: it.title.clone(),
        word: String::new(),
        openings: String::new(),
        amount: it.amount.print(),
    });
    each.collect()
}

/// Sites with openings that are priced, in the order of the takeoff.
fn sites(sources: &Sources) -> Vec<BidSite> {
    let openings = &sources.takeoff.arrangement.openings;
    let of = |id: &str| openings.iter().filter(|work| work.site.id == id).map(opening).collect::<Vec<_>>();
    let sites = sources.takeoff.arrangement.sites.iter();
    sites
        .map(|site| BidSite { name: site.name.clone(), openings: of(&site.id) })
        .filter(|it| !it.openings.is_empty())
        .collect()
}

fn opening(work: &OpeningWork) -> BidOpening {
    let entry = &work.opening.entry;
    let power = entry.power.get().and_then(|power| power.known.cloned());
    BidOpening {
        mark: work.opening.mark.clone(),
        rooms: listed(entry.between.list().iter().map(|room| room.to_string()), " / "),
        form: work.form.word().to_owned(),
        energy: super::printing::word(&entry.energy),
        drives: work.drives.len().to_string(),
        devices: work.devices.len().to_string(),
        power: super::printing::power_known(power.unwrap_or(PowerKnown::Assumed)).to_owned(),
    }
}

/// A sentence with a capital and a stop, without the ticks of keys.
pub(super) fn sentence_case(text: &str) -> String {
    let plain = text.replace('`', "");
    let mut letters = plain.chars();
    let first: String = letters.next().map(|it| it.to_uppercase().collect()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

fn matrix(sources: &Sources) -> Vec<MatrixRow> {
    let short = |id: &Option<String>| {
        let party = id.as_ref().and_then(|id| sources.catalog.parties.get(id));
        or_dash(party.map(|party| party.short.as_str()))
    };
    let row = |row: &crate::catalog::Responsibility| MatrixRow {
        name: row.name.clone(),
        cells: row.cells.iter().map(short).collect(),
    };
    sources.catalog.responsibilities.iter().map(row).collect()
}

fn parties(sources: &Sources) -> Vec<[String; 2]> {
    let mut parties: Vec<_> = sources.catalog.parties.values().collect();
    parties.sort_by(|a, b| (a.order, &a.id).cmp(&(b.order, &b.id)));
    parties.into_iter().map(|party| [party.short.clone(), party.name.clone()]).collect()
}

fn terms(sources: &Sources, offer: Offer) -> Vec<Term> {
    let head = &sources.reviewed.job().head;
    let profile = sources.catalog.profiles.get(&head.profile);
    let days = |days: Option<u32>, what: &str| days.map(|days| format!("{} {what}", Noun::CALENDAR_DAY.count(days)));
    let bond = match &offer.estimate.bond {
        Some(_) => "Performance and payment bond premium is included.".to_owned(),
        None => "No bond is included.".to_owned(),
    };
    let tax = match (profile.is_some_and(|it| it.tax_exempt), offer.estimate.taxes.is_empty()) {
        (true, _) => "No sales tax is included; the owner furnishes an exemption certificate.",
        (false, true) => "No sales tax applies.",
        (false, false) => "Sales tax on material is included.",
    };
    // A term that is not agreed has no line.
    let term =
        |label: &'static str, value: Option<String>| Some(Term { label, value: value.filter(|it| !it.is_empty())? });
    let firm = &sources.catalog.firm;
    vec![
        term("Bid acceptance period", days(head.valid_days, "from the bid due date")),
        term("Start of work", days(head.start_days, "after award")),
        term("Completion", days(head.complete_days, "after start")),
        term("Delivery", head.lead_weeks.map(|weeks| format!("{} after approved submittal", Noun::WEEK.count(weeks)))),
        term("Bonds", Some(bond)),
        term("Wage basis", head.wages.clone()),
        term("Taxes", Some(tax.to_owned())),
        term(
            "Warranty",
            profile.and_then(|it| Some(format!("{} from acceptance", Noun::MONTH.count(it.warranty_months?)))),
        ),
        term("Retainage", profile.and_then(|it| it.retainage).map(|rate| rate.print())),
        term("Licenses", Some(listed(firm.licences.iter().cloned(), "; "))),
        term("Subcontractors", Some(listed(firm.subcontractors.iter().cloned(), "; "))),
    ]
    .into_iter()
    .flatten()
    .collect()
}
