//! Low-voltage supplies: limits of a class 2 source, and what a supply must give at a start.
//!
//! In: volts, amps running and at the start, seconds between starts. Out: amps needed. May not know: which release.
//!
//! Class 2: at most 30 V and 100 VA; above 30 V at most 5 mA, NEC chapter 9 table 11(A)
//! (ecmweb.com/content/understanding-nec-circuit-classifications, secondary).

use rust_decimal::Decimal;

use crate::measure::{Amps, Unit, Volts};

/// Most volts of a class 2 source that is limited by power.
pub const CLASS_TWO_VOLTS: i64 = 30;
/// Most volt-amperes of a class 2 output.
pub const CLASS_TWO_VOLT_AMPERES: i64 = 100;

/// Most amps of a class 2 output: 100 VA over its volts up to 30 V, 5 mA above; rounded down to a milliampere.
pub fn class_two_amps(volts: Volts) -> Option<Amps> {
    let volts = volts.number_of(Unit::Volt).filter(|it| *it > Decimal::ZERO)?;
    let amps = match volts <= Decimal::from(CLASS_TWO_VOLTS) {
        true => (Decimal::from(CLASS_TWO_VOLT_AMPERES * 1_000) / volts).floor() / Decimal::ONE_THOUSAND,
        false => Decimal::new(5, 3),
    };
    Amps::new(amps, Unit::Ampere)
}

/// A load of a supply.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SupplyLoad {
    /// Amps, held.
    pub running: Amps,
    /// Amps at the start.
    pub inrush: Amps,
}

/// The most a supply gives at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SupplyDemand {
    /// All loads held.
    pub running: Amps,
    /// The worst moment of the starts.
    pub peak: Amps,
}

/// What a supply must give when its loads start. Together: the sum of every inrush. Staggered: one after the other in the
/// order given, each held before the next starts, so the worst is the held ones before it and the inrush of one; the order
/// with the greatest inrush first asks least, and is what a stagger is set to. Nothing where the sum cannot be held.
pub fn supply_demand(loads: &[SupplyLoad], staggered: bool) -> Option<SupplyDemand> {
    let amps = |amps: Amps| amps.number_of(Unit::Ampere);
    let mut running = Decimal::ZERO;
    let mut peak = Decimal::ZERO;
    for load in loads {
        let (held, inrush) = (amps(load.running)?, amps(load.inrush)?.max(amps(load.running)?));
        let now = if staggered { running.checked_add(inrush)? } else { peak.checked_add(inrush)? };
        peak = if staggered { peak.max(now) } else { now };
        running = running.checked_add(held)?;
    }
    let of = |number: Decimal| Amps::new(number, Unit::Ampere);
    Some(SupplyDemand { running: of(running)?, peak: of(peak.max(running))? })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn amps(text: &str) -> Amps {
        Amps::new(text.parse().unwrap(), Unit::Ampere).unwrap()
    }

    fn load(running: &str, inrush: &str) -> SupplyLoad {
        SupplyLoad { running: amps(running), inrush: amps(inrush) }
    }

    #[test]
    fn class_two_at_24_volts_is_four_and_a_sixth() {
        // 100 / 24 = 4.17 A (derived); rounded down, so that no output is called class 2 that is not.
        let most = |volts: i64| class_two_amps(Volts::new(Decimal::from(volts), Unit::Volt).unwrap());
        assert_eq!(most(24), Some(amps("4.166")));
        assert_eq!(most(12), Some(amps("8.333")));
        assert_eq!(most(30), Some(amps("3.333")));
        assert_eq!(most(31), Some(amps("0.005")));
        assert_eq!(most(0), None);
    }

    #[test]
    fn a_stagger_asks_for_one_inrush_at_a_time() {
        // Arithmetic: two retractions of 0.7 A held, 2.4 A at the start.
        let two = [load("0.7", "2.4"), load("0.7", "2.4")];
        let together = supply_demand(&two, false).unwrap();
        let staggered = supply_demand(&two, true).unwrap();
        assert_eq!((together.running, together.peak), (amps("1.4"), amps("4.8")));
        assert_eq!((staggered.running, staggered.peak), (amps("1.4"), amps("3.1")));
        // Together they are beyond a class 2 output at 24 V, staggered they are not.
        assert!(together.peak > amps("4.166") && staggered.peak < amps("4.166"));
        // The greatest first asks least.
        let (first, last) = ([load("0.2", "3"), load("0.5", "0.6")], [load("0.5", "0.6"), load("0.2", "3")]);
        assert!(supply_demand(&first, true).unwrap().peak < supply_demand(&last, true).unwrap().peak);
        assert_eq!(supply_demand(&[], true).unwrap().peak, amps("0"));
        // An inrush given below the held amps is taken as them.
        assert_eq!(supply_demand(&[load("1", "0")], false).unwrap().peak, amps("1"));
    }
}
