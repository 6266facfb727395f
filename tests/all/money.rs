//! Money that adds up, over many random splits; published sums of allowances, retainage and taxes.
//!
//! In: nothing. Out: sums that are off by a cent. May not know: any job.

use hingewright::estimate::price;
use hingewright::findings::Findings;
use hingewright::money::{Money, Percent, Rounding, allocate, round_cents};
use rust_decimal::Decimal;

use crate::counts::{allocations, below, random};
use crate::sound::{Sound, Words};

/// The sum is the total to the cent; each part is within a cent of its exact share and on its side of zero; a part of no
/// weight gets nothing.
#[test]
fn random_splits_add_up() {
    let random = &mut random(11);
    for _ in 0..allocations() {
        let cents = below(random, 2_000_000_000) as i64 - 1_000_000_000;
        let count = 1 + below(random, 12);
        let weights: Vec<Decimal> = (0..count).map(|_| Decimal::new(below(random, 100_000) as i64, 3)).collect();
        let sum: Decimal = weights.iter().sum();
        if sum.is_zero() {
            continue;
        }
        let total = Money::cents(cents);
        let parts = allocate(total, &weights).unwrap();
        assert_eq!(parts.iter().copied().sum::<Money>(), total, "{cents} over {weights:?}");
        for (part, weight) in parts.iter().zip(&weights) {
            // |part * sum - total * weight| < cent * sum, without a division.
            let off = (part.to_dollars() * sum - total.to_dollars() * weight).abs();
            assert!(off < Decimal::new(1, 2) * sum, "{cents} over {weights:?}: {part:?}");
            assert!(part.is_zero() || (part.is_negative() == total.is_negative() && !weight.is_zero()));
        }
    }
}

/// Equal weights differ by a cent at most and never rise along the list, whatever the order of the rest.
#[test]
fn equal_weights_are_served_in_order() {
    let random = &mut random(12);
    for _ in 0..allocations() / 10 {
        let total = Money::cents(below(random, 1_000_000) as i64);
        let count = 1 + below(random, 40) as usize;
        let parts = allocate(total, &vec![Decimal::ONE; count]).unwrap();
        assert!(parts.windows(2).all(|pair| pair[0] >= pair[1]), "{parts:?}");
        assert!(parts[0] - parts[count - 1] <= Money::cents(1), "{parts:?}");
    }
}

fn dollars(amount: i64) -> Money {
    Money::dollars(amount)
}

/// So many hundredths of a percent of an amount, to the cent.
fn part(hundredths: i64, of: Money) -> Money {
    let percent = Percent::new(Decimal::new(hundredths, 2));
    round_cents(percent.of(of).expect("it fits"), Rounding::HalfAwayFromZero)
}

/// Meals and incidentals of federal travel: three quarters on the first and the last day (41 CFR 301-11.101), a day of
/// 68.00, and a day of 92.00 whose lunch is provided, 26.00 (gsa.gov/mie, read; the year is not shown there).
#[test]
fn published_allowances_for_days_away() {
    let edge = part(75_00, dollars(68));
    assert_eq!((edge, edge + dollars(68) + edge), (dollars(51), dollars(170)));
    // First and last days of the other tiers.
    let tiers = [(74, 55_50), (80, 60_00), (86, 64_50), (92, 69_00)];
    assert!(tiers.iter().all(|(day, cents)| part(75_00, dollars(*day)) == Money::cents(*cents)));
    assert_eq!(dollars(92) - dollars(26), dollars(66));
}

/// Retainage: ten percent of a federal payment at most (FAR 52.232-5(e)); in Arizona ten percent, half of it given back at
/// half of the work, then five percent (A.R.S. 41-2576, a table of statutes).
#[test]
fn published_retainage() {
    assert_eq!(part(10_00, dollars(40_000)), dollars(4_000));
    let half = part(10_00, dollars(50_000));
    let kept = part(50_00, half);
    let whole = kept + part(5_00, dollars(50_000));
    assert_eq!((half, kept, whole), (dollars(5_000), dollars(2_500), dollars(5_000)));
}

/// Sales tax in Texas, 8.25 percent (34 TAC 3.291): charged on a separated price of material, paid at the purchase under a
/// lump sum.
#[test]
fn published_sales_taxes() {
    assert_eq!(part(8_25, dollars(5_000)), Money::cents(41_250));
    assert_eq!(part(8_25, dollars(4_000)), dollars(330));
}

/// What 44 hours cost, four of them overtime, with a trade's wage, hourly benefits and more of its keys.
fn week(wage: &str, benefits: &str, more: &str) -> Decimal {
    let burden = format!("burden = [{{ name = \"benefits\", amount = \"{benefits}\" }}]");
    let task = |id: &str, visit: &str, hours: &str| {
        format!(
            "[task.{id}]\nname = \"{id}\"\nvisit = \"{visit}\"\nphase = \"hang\"\norder = 20\ntrade = \"fitter\"\n\
             hours = \"{hours}\"\nsource = \"invented\"\nrule = [{{ per = \"header\" }}]\n"
        )
    };
    let catalog = format!(
        "[trade.fitter]\nname = \"Fitter\"\nwage = \"{wage}\"\n{burden}\novertime = \"50 %\"\n{more}\n{}{}\
         [factor.late]\nname = \"after hours\"\nwhen = 'opening.mark = \"101\"'\novertime = true\ntrades = [\"fitter\"]\n\
         visits = [\"punch\"]\nsource = \"invented\"\n",
        task("by-day", "set", "40 h"),
        task("late", "punch", "4 h"),
    );
    let sound = Sound::with(Words { catalog: &catalog, ..Words::default() });
    let (mut takeoff, _) = sound.take_off();
    let estimate = price(&mut takeoff, sound.reviewed.job(), &sound.catalog, &mut Findings::default()).unwrap();
    let of_fitter: Vec<_> = estimate.labor.iter().filter(|it| it.trade == "fitter").collect();
    assert_eq!(of_fitter.iter().map(|it| it.overtime).collect::<Vec<_>>(), [false, true]);
    of_fitter.iter().map(|it| takeoff.ledger.value(it.amount).value()).sum()
}

/// Overtime under the Davis-Bacon and contract work hours acts: the premium is half of the basic rate, or of a higher cash
/// wage that is paid, and takes in no fringe (three examples of the Department of Labor's resource book, read on a page
/// that carries it; basic rate 22.00, fringe 5.00).
#[test]
fn published_weeks_with_overtime() {
    // 968 + 220 + 44.
    assert_eq!(week("22.00", "5.00", ""), Decimal::from(1_232));
    // More in wages, less in benefits: 1,056 + 132 + 48.
    assert_eq!(week("24.00", "3.00", ""), Decimal::from(1_236));
    // Cash in place of benefits: the premium stays on 22.00, 880 + 308 + 44.
    assert_eq!(week("20.00", "7.00", "overtime_wage = \"22.00\""), Decimal::from(1_232));
    assert_eq!(week("20.00", "7.00", ""), Decimal::from(1_228));
}
