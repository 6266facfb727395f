//! A transmitter whose battery is empty before the warranty ends.
//!
//! In: a takeoff. Out: `battery-before-warranty`. May not know: how cold it is where the transmitter hangs.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::CheckContext;
use crate::catalog::TransmitterBattery;
use crate::engineering::{Battery, battery_years};
use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::measure::{Noun, Unit};
use crate::takeoff::{EntityRef, OpeningWork};

/// A battery that has to be changed under warranty.
pub static CODE: Code = Code {
    id: "battery-before-warranty",
    severity: Severity::Warning,
    says: "{found}; the warranty runs {asked}",
    why: "The contractor under warranty replaces the battery. The bid states who replaces it, and its label \
          when. Common practice, no source; the formula is the charge used in a year.",
    example: "battery = { capacity = 220, rest = 2, sending = \"0.025 A\", sends_for = \"0.3 s\", uses = 200 }",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    let profile = seen.catalog.profiles.get(&seen.job.head.profile);
    let Some(months) = profile.and_then(|it| it.warranty_months) else { return };
    for (at, work) in seen.powered() {
        for (item, of, _) in seen.items_at(at) {
            let (Some(battery), EntityRef::Device(_, device)) = (item.battery, of) else { continue };
            let typed = work.devices[device].entry.uses.get().map(|it| it.get());
            let uses = typed.unwrap_or(battery.uses);
            let Some(lasts) = lasts(battery, uses).filter(|lasts| *lasts < months) else { continue };
            findings.push(reported(work, device, (uses, lasts, months)).near(item.place.clone(), item.name.clone()));
        }
    }
}

/// Whole months that a battery lasts.
fn lasts(battery: TransmitterBattery, uses: u32) -> Option<u32> {
    let number = |it: Decimal| it.to_f64();
    let years = battery_years(Battery {
        capacity: f64::from(battery.capacity),
        rest: f64::from(battery.rest),
        sending: number(battery.sending.number_of(Unit::Milliampere)?)?,
        sends_for: number(battery.sends_for.number_of(Unit::Second)?)? * 1_000.0,
        uses: f64::from(uses),
        self_discharge: number(battery.self_discharge.ratio())?,
    })?;
    libm::floor(years * 12.0).to_u32()
}

fn reported(work: &OpeningWork, device: usize, (uses, lasts, months): (u32, u32, u32)) -> Finding {
    let id = &work.devices[device].id;
    Finding::new(&CODE, Subject::Opening(work.opening.mark.clone()))
        .at(work.devices[device].entry.written_at.clone().unwrap_or_else(|| work.opening.place.clone()))
        .found(format!("battery of {id}: {} at {uses} uses a day", Noun::MONTH.count(lasts)))
        .asked(Noun::MONTH.count(months))
        .margin(format!("{} short", Noun::MONTH.count(months - lasts)))
        .advise("use a wired device or a larger battery, or state in the clarifications that the owner replaces it")
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::findings::Finding;
    use crate::takeoff::checks::fixtures;

    /// A transmitter with a coin of 220 mAh, used so many times a day; the sound job's warranty is twelve months.
    fn reported(uses: u32) -> Vec<Finding> {
        let item = "[item.sender]\nname = \"Sender\"\ngroup = \"transmitter\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
            supplier = \"fenwick\"\nrule = [{ per = \"device\" }]\n\
            battery = { capacity = 220, rest = 2, sending = \"0.025 A\", sends_for = \"0.3 s\", self_discharge = \"1 %\", uses = 200 }";
        let job = format!(
            "device = [{{ id = \"P1\", kind = \"push plate\", side = \"inside\", mount = \"wall\", link = \"wireless\", uses = {uses} }}]"
        );
        fixtures::reported(&CODE, &job, "", item)
    }

    /// 220 mAh, 2 µA, 25 mA for 300 ms, 200 a day, 1 % a year: 1.28 years (worked for the reference of this project).
    #[test]
    fn a_battery_outlasts_the_warranty_or_is_reported() {
        assert!(reported(200).is_empty());
        let short = reported(300);
        assert_eq!(short[0].found, "battery of P1: 10 months at 300 uses a day");
        assert_eq!(short[0].margin.as_deref(), Some("2 months short"));
    }
}
