//! Exact money and rates: the one rounding rule, allocation that adds up, mark-up and margin, premiums in tiers.
//!
//! In: amounts as text or as exact decimals of dollars, rates, weights.
//! Out: exact amounts, and the same amounts as text. A binary float has no way in.
//! May not know: what is bought or sold, quantities and their units, files.
//!
//! A quantity of the dimension money and an amount exchange their decimals: `Money::dollars(quantity.value())` and
//! `Quantity::new(money.to_dollars(), Dimension::MONEY)`.

mod allocation;
mod amount;
mod bond;
mod percent;
mod reading;
mod words;

pub use allocation::{AllocationFault, allocate, apportion};
pub use amount::{Money, Rounding, round_cents};
pub use bond::{Premium, Tier, TierFault, Tiers};
pub use percent::Percent;
pub use reading::{MoneyFault, MoneyMisread, Sign};
