//! Loads of drives on branch circuits, and how headers share them.
//!
//! In: amps of drives, a policy, a limit. Out: which load is on which circuit, design amps. May not know: panels, jobs.
//!
//! A door drive is not a continuous load (NEC article 100), so running amps are added as they are to see what may share.
//! The circuit itself is sized for several motors: 125 percent of the largest and the rest, 430.24 (from memory, so for a
//! warning only). A leaf drive asks for its own 120 V, single-phase, 60 Hz, 15 A three-wire circuit with no other load;
//! readings of 110 to 130 V at the line terminals are normal (common practice, no source).

use rust_decimal::Decimal;

use crate::measure::{Amps, Unit, Volts};

/// The breaker of a circuit for a drive, in amperes (common practice, no source).
pub const USUAL_BREAKER: i64 = 15;

/// A load that wants a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CircuitLoad {
    /// Running amps; none where they are not known, and then it shares with nothing.
    pub amps: Option<Amps>,
    /// Volts; loads of different volts never share.
    pub volts: Option<Volts>,
    /// Whether it may share a circuit.
    pub shares: bool,
    /// The circuit that is there and that it joins, by its position on the panel; none where it wants a new one.
    pub joins: Option<usize>,
}

/// The circuit of each load, by number from 0, on one panel: a load that joins a circuit that is there is on it with all others
/// that do; one that may share joins the first new circuit of its volts whose loads all share and whose running amps stay within
/// the limit, in the order given.
pub fn share_circuits(loads: &[CircuitLoad], limit: Option<Amps>) -> Vec<usize> {
    let limit = limit.and_then(|limit| limit.number_of(Unit::Ampere));
    // Amps on each circuit that may be joined; none on one that may not.
    let mut circuits: Vec<(Option<Decimal>, Option<Volts>)> = Vec::new();
    let mut placed: Vec<usize> = Vec::with_capacity(loads.len());
    for load in loads {
        if load.joins.is_some() {
            let there = loads.iter().zip(&placed).find(|(it, _)| it.joins == load.joins).map(|(_, at)| *at);
            placed.push(there.unwrap_or(circuits.len()));
            if there.is_none() {
                circuits.push((None, load.volts));
            }
            continue;
        }
        let amps = load.amps.and_then(|amps| amps.number_of(Unit::Ampere)).filter(|_| load.shares);
        let fits = |(there, volts): &(Option<Decimal>, Option<Volts>)| {
            let sum = there.zip(amps).and_then(|(there, amps)| there.checked_add(amps));
            *volts == load.volts && sum.zip(limit).is_some_and(|(sum, limit)| sum <= limit)
        };
        let at = circuits.iter().position(fits).unwrap_or_else(|| {
            circuits.push((amps.map(|_| Decimal::ZERO), load.volts));
            circuits.len() - 1
        });
        if let (Some(there), Some(amps)) = (&mut circuits[at].0, amps) {
            *there += amps;
        }
        placed.push(at);
    }
    placed
}

/// Amps that a circuit of several motors is sized for: 125 percent of the largest and the rest, 430.24 (from memory).
/// Nothing where a sum cannot be held.
pub fn design_amps(motors: &[Amps]) -> Option<Amps> {
    let amps: Option<Vec<Decimal>> = motors.iter().map(|it| it.number_of(Unit::Ampere)).collect();
    let amps = amps?;
    let largest = amps.iter().copied().max().unwrap_or_default();
    let sum = amps.iter().try_fold(Decimal::ZERO, |sum, it| sum.checked_add(*it))?;
    Amps::new(sum.checked_add(largest.checked_mul(Decimal::new(25, 2))?)?, Unit::Ampere)
}

/// Whether volts of a supply and of a load are two names of one nominal voltage: 110 to 120 V, 208 V, 220 to 240 V
/// (common practice, no source: 110 to 130 V at the terminals of a 120 V drive is normal).
pub fn same_nominal(one: Volts, other: Volts) -> bool {
    let class = |volts: Volts| {
        let volts = volts.number_of(Unit::Volt)?;
        let bands = [(22, 30), (100, 130), (198, 214), (216, 252), (264, 289)];
        bands.iter().position(|(low, high)| (Decimal::from(*low)..=Decimal::from(*high)).contains(&volts))
    };
    one == other || class(one).is_some() && class(one) == class(other)
}

/// Whether a panel of so many volts to neutral gives a circuit of these volts: to neutral, between two lines of three phases (1.732
/// times as much), or between both lines of a single-phase service (twice as much; common practice, no source). A service differs
/// from its name by 5 percent at most (ANSI C84.1, from memory).
pub fn same_service(circuit: Volts, to_neutral: Volts) -> bool {
    let (Some(circuit_volts), Some(neutral)) = (circuit.number_of(Unit::Volt), to_neutral.number_of(Unit::Volt)) else {
        return false;
    };
    let near = |line: Decimal| {
        let within = line.checked_mul(Decimal::new(5, 2));
        within.is_some_and(|within| line.checked_sub(circuit_volts).is_some_and(|apart| apart.abs() <= within))
    };
    let times = [Decimal::ONE, Decimal::new(1732, 3), Decimal::TWO];
    same_nominal(circuit, to_neutral) || times.iter().filter_map(|times| neutral.checked_mul(*times)).any(near)
}

/// Poles of a breaker (common practice, no source): a circuit between two lines of its panel takes two, one between a line
/// and the neutral takes one. Without the panel's volts to neutral, 120 V and 277 V are taken as to neutral.
pub fn breaker_poles(volts: Volts, to_neutral: Option<Volts>) -> usize {
    let two = match to_neutral {
        Some(to_neutral) => volts > to_neutral,
        None => volts.number_of(Unit::Volt).is_none_or(|it| it > Decimal::from(125) && it != Decimal::from(277)),
    };
    if two { 2 } else { 1 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn amps(text: &str) -> Amps {
        Amps::new(text.parse().unwrap(), Unit::Ampere).unwrap()
    }

    fn volts(count: i64) -> Volts {
        Volts::new(Decimal::from(count), Unit::Volt).unwrap()
    }

    fn load(text: &str, at: i64, shares: bool) -> CircuitLoad {
        CircuitLoad { amps: Some(amps(text)), volts: Some(volts(at)), shares, joins: None }
    }

    #[test]
    fn loads_that_join_a_circuit_are_on_it_alone_with_each_other() {
        let mut loads = ["1", "1", "1", "1"].map(|it| load(it, 120, true));
        (loads[1].joins, loads[3].joins) = (Some(0), Some(0));
        assert_eq!(share_circuits(&loads, Some(amps("12"))), [0, 1, 0, 1]);
        loads[2].joins = Some(1);
        assert_eq!(share_circuits(&loads, Some(amps("12"))), [0, 1, 2, 1]);
    }

    #[test]
    fn loads_share_up_to_the_limit_and_no_further() {
        // Arithmetic: 1.6 + 3.2 + 1.6 = 6.4 A within 6.5, the next does not fit.
        let loads = ["1.6", "3.2", "1.6", "1.6"].map(|it| load(it, 120, true));
        assert_eq!(share_circuits(&loads, Some(amps("6.5"))), [0, 0, 0, 1]);
        assert_eq!(share_circuits(&loads, None), [0, 1, 2, 3], "no limit, no sharing");
        let mixed = [load("1", 120, true), load("1", 120, false), load("1", 208, true), load("1", 120, true)];
        assert_eq!(share_circuits(&mixed, Some(amps("12"))), [0, 1, 2, 0], "apart by policy and by volts");
        let unknown =
            [load("1", 120, true), CircuitLoad { amps: None, volts: Some(volts(120)), shares: true, joins: None }];
        assert_eq!(share_circuits(&unknown, Some(amps("12"))), [0, 1]);
    }

    #[test]
    fn a_single_load_above_the_limit_has_a_circuit_of_its_own() {
        let loads = [load("14", 120, true), load("1", 120, true)];
        assert_eq!(share_circuits(&loads, Some(amps("12"))), [0, 1]);
    }

    #[test]
    fn several_motors_ask_for_a_quarter_of_the_largest_more() {
        // 430.24, from memory: 1.25 × 2.9 + 2.9 + 1.6 = 8.125.
        assert_eq!(design_amps(&[amps("2.9"), amps("2.9"), amps("1.6")]), Some(amps("8.125")));
        assert_eq!(design_amps(&[]), Some(amps("0")));
        assert_eq!(design_amps(&[amps("12")]), Some(amps("15")), "a 12 A motor fills a 15 A circuit");
    }

    #[test]
    fn names_of_one_voltage() {
        assert!(same_nominal(volts(115), volts(120)) && same_nominal(volts(110), volts(130)));
        assert!(!same_nominal(volts(120), volts(208)) && !same_nominal(volts(208), volts(240)));
        assert!(same_nominal(volts(48), volts(48)) && !same_nominal(volts(48), volts(49)));
    }

    /// The usual services: 120/240 single-phase, 208Y/120 and 480Y/277 (common practice, no source).
    #[test]
    fn a_panel_gives_its_volts_to_neutral_and_between_lines() {
        for (circuit, panel, wanted) in [
            (120, 120, true),
            (115, 120, true),
            (208, 120, true),
            (240, 120, true),
            (277, 277, true),
            (480, 277, true),
            (277, 120, false),
            (480, 120, false),
            (120, 277, false),
            (208, 277, false),
        ] {
            assert_eq!(same_service(volts(circuit), volts(panel)), wanted, "{circuit} V on {panel} V");
        }
    }

    /// Line to neutral and line to line of the two usual wye services: 208Y/120 and 480Y/277 (common practice, no source).
    #[test]
    fn a_circuit_between_two_lines_takes_two_poles() {
        for (circuit, panel, wanted) in [
            (120, Some(120), 1),
            (208, Some(120), 2),
            (240, Some(120), 2),
            (277, Some(277), 1),
            (480, Some(277), 2),
            (120, None, 1),
            (208, None, 2),
            (277, None, 1),
        ] {
            assert_eq!(breaker_poles(volts(circuit), panel.map(volts)), wanted, "{circuit} V on {panel:?}");
        }
    }
}
