//! Every figure of the demo, recomputed from its inputs by arithmetic that shares nothing with the program's.

use hingewright::ledger::{Reason, Step};

use crate::demo::demo;
use crate::reevaluation::faults;

/// Alternates included: their bids are figures of the same ledger.
#[test]
fn every_figure_of_the_demo_is_what_its_inputs_make_it() {
    let demo = demo();
    let ledger = &demo.priced.takeoff.ledger;
    assert!(ledger.len() > 10_000, "{} figures", ledger.len());
    let wrong = faults(ledger);
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), ledger.len(), wrong.join("\n"));
}

/// What is printed rests on what somebody wrote, a rule, a clause or a count: at the end of every way from the bid
/// stands a figure with a place or a clause.
#[test]
fn the_bid_rests_on_what_somebody_wrote() {
    let demo = demo();
    let ledger = &demo.priced.takeoff.ledger;
    let mut below = ledger.ancestors(demo.estimate().bid);
    below.push(demo.estimate().bid);
    assert!(below.len() > 3_000, "{} figures", below.len());
    let mut entries = 0;
    for id in below {
        let figure = ledger.figure(id);
        if figure.inputs.is_empty() {
            // A count says what it counted; a sum of nothing is zero.
            let plain = matches!(figure.step, Step::Counted(_) | Step::Sum);
            assert!(plain || *figure.reason != Reason::Arithmetic, "{} comes from nowhere", figure.name);
            entries += usize::from(matches!(figure.reason, Reason::Entry { .. } | Reason::Rule { .. }));
        }
    }
    assert!(entries > 500, "{entries} figures with a place");
}

/// Every quantity, hour and price of the takeoff and the estimate is a figure that can be explained.
#[test]
fn every_line_can_be_explained() {
    let demo = demo();
    let (takeoff, estimate) = (&demo.priced.takeoff, demo.estimate());
    let quantities = takeoff.lines.iter().map(|line| line.quantity);
    let hours = takeoff.labor.iter().map(|line| line.hours);
    let prices = estimate.items.iter().map(|item| item.extension).chain(estimate.labor.iter().map(|it| it.amount));
    for figure in quantities.chain(hours).chain(prices) {
        let reported = takeoff.ledger.explain(figure);
        assert_eq!(reported[0].figure, figure);
        let said = reported.iter().any(|line| line.place.is_some() || !line.because.is_empty());
        assert!(said, "{} says no reason", takeoff.ledger.figure(figure).name);
    }
}
