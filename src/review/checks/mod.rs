//! Every check of the review, one a file, in the order in which they run.
//!
//! In: nothing. Out: checks and their codes. May not know: any one job.

mod arm_missing;
mod arm_side_conflict;
mod device_leaf_unknown;
mod fire_hold_unreleased;
mod full_energy_unguarded;
mod hand_contradicts;
mod hazard_unknown;
mod latch_without_release;
mod motion_on_low_energy;
mod operator_limit;
mod operator_misfit;
mod operator_without_powered_leaf;
mod partner_one_sided;
mod power_unknown;
mod powered_without_operator;
mod price_old;
mod quote_expired;
mod release_unknown;
mod release_without_latch;
mod substrate_unknown;
mod survey_missing;
mod survey_second;

#[cfg(test)]
mod ledger_tests;

pub use price_old::price_ages;

use super::accept;
use super::check::{Check, Over};
use super::seen::{LeafSeen, OpeningSeen};
use crate::findings::{Code, Paper, Papers};

/// The papers that hold what an opening is and costs: those that a contradiction at an opening holds.
const OPENING_PAPERS: Papers = Papers::of(&[Paper::Bid, Paper::Recap, Paper::Schedule, Paper::Packet]);

/// Every check that runs over a job: what an opening is, what it needs, what its operator does, what is not known.
pub(super) static CHECKS: [&Check; 21] = [
    &hand_contradicts::CHECK,
    &powered_without_operator::CHECK,
    &operator_without_powered_leaf::CHECK,
    &arm_missing::CHECK,
    &arm_side_conflict::CHECK,
    &operator_misfit::CHECK,
    &operator_limit::CHECK,
    &latch_without_release::CHECK,
    &release_unknown::CHECK,
    &release_without_latch::CHECK,
    &device_leaf_unknown::CHECK,
    &motion_on_low_energy::CHECK,
    &full_energy_unguarded::CHECK,
    &partner_one_sided::CHECK,
    &fire_hold_unreleased::CHECK,
    &survey_missing::CHECK,
    &survey_second::CHECK,
    &power_unknown::CHECK,
    &substrate_unknown::CHECK,
    &hazard_unknown::CHECK,
    &quote_expired::CHECK,
];

/// Codes that are raised outside the run over a job.
static OTHERS: [&Code; 3] = [&price_old::CODE, &accept::IDLE, &accept::NO_WARNING];

const COUNT: usize = CHECKS.len() + OTHERS.len();

/// The codes of this room.
pub static CODES: [&Code; COUNT] = {
    let mut codes = [OTHERS[0]; COUNT];
    let mut at = 0;
    while at < COUNT {
        codes[at] = if at < CHECKS.len() { CHECKS[at].code } else { OTHERS[at - CHECKS.len()] };
        at += 1;
    }
    codes
};
