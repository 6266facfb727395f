//! Alternates: the job with them less the job without.
//!
//! In: bids of the job with each alternate, with each two together, and with all. Out: what each adds or takes off, and
//! where two together differ from their sum. May not know: how those bids came to be.

use std::collections::BTreeMap;

use crate::job::Job;
use crate::ledger::{Called, FigureFault, FigureId, Ledger, Reason, Shown};
use crate::measure::{Dimension, Quantity};
use crate::money::Money;

/// What an alternate adds to the base bid, or takes off.
#[derive(Clone, Debug)]
pub struct AlternatePrice {
    /// Its number.
    pub number: String,
    /// What it is.
    pub title: String,
    /// The bid with it.
    pub with: FigureId,
    /// The bid with it less the base bid.
    pub change: FigureId,
}

/// Two alternates that together come to something else than their sum.
#[derive(Clone, Debug)]
pub struct Interaction {
    /// Their numbers.
    pub numbers: (String, String),
    /// What both together add, less what each adds alone.
    pub difference: FigureId,
}

/// Prices every alternate. `bids` holds the bid of the job for each set of positions of alternates that was priced.
pub fn price_alternates(
    job: &Job,
    ledger: &mut Ledger,
    base: FigureId,
    bids: &BTreeMap<Vec<usize>, Money>,
) -> Result<(Vec<AlternatePrice>, Vec<Interaction>), FigureFault> {
    let mut prices = Vec::new();
    for (at, alternate) in job.alternates.iter().enumerate() {
        let Some(bid) = bids.get(&vec![at]) else { continue };
        let name = format!("bid with alternate {}", alternate.number);
        let place = alternate.place.clone();
        let standing = "the job with the alternate's changes, reviewed, taken off and priced anew".to_owned();
        let reason = ledger.reason(Reason::Entry { place, standing });
        let value = Quantity::new(bid.to_dollars(), Dimension::MONEY);
        let with = ledger.given(value, Called::new(&name, reason).shown(Shown::MONEY))?;
        let name = format!("alternate {}", alternate.number);
        let change = ledger.difference(with, base, Called::arithmetic(&name))?;
        prices.push(AlternatePrice { number: alternate.number.clone(), title: alternate.title.clone(), with, change });
    }
    let interactions = interactions(job, ledger, base, bids, &prices)?;
    Ok((prices, interactions))
}

fn interactions(
    job: &Job,
    ledger: &mut Ledger,
    base: FigureId,
    bids: &BTreeMap<Vec<usize>, Money>,
    prices: &[AlternatePrice],
) -> Result<Vec<Interaction>, FigureFault> {
    let mut found = Vec::new();
    for (set, bid) in bids.iter().filter(|(set, _)| set.len() == 2) {
        let (a, b) = (&job.alternates[set[0]], &job.alternates[set[1]]);
        let of = |number: &str| prices.iter().find(|price| price.number == number).map(|price| price.change);
        let (Some(first), Some(second)) = (of(&a.number), of(&b.number)) else { continue };
        let name = format!("bid with alternates {} and {}", a.number, b.number);
        let standing = "both alternates' changes together".to_owned();
        let reason = ledger.reason(Reason::Entry { place: b.place.clone(), standing });
        let value = Quantity::new(bid.to_dollars(), Dimension::MONEY);
        let with = ledger.given(value, Called::new(&name, reason).shown(Shown::MONEY))?;
        let together = ledger.difference(with, base, Called::arithmetic("both alternates"))?;
        let apart = ledger.sum(&[first, second], Called::arithmetic("each alone"))?;
        let name = format!("alternates {} and {} together", a.number, b.number);
        let difference = ledger.difference(together, apart, Called::arithmetic(&name))?;
        if !ledger.value(difference).value().is_zero() {
            found.push(Interaction { numbers: (a.number.clone(), b.number.clone()), difference });
        }
    }
    Ok(found)
}
