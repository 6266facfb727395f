//! Every check of the review, one a file, in the order in which they run.
//!
//! In: nothing. Out: checks and their codes. May not know: any one job.

mod alarm_release_missing;
mod arm_collides;
mod arm_missing;
mod arm_near_dead_point;
mod arm_out_of_reach;
mod arm_side_conflict;
mod circuit_forbidden;
mod circuit_unknown;
mod clear_width_short;
mod conduit_full;
mod credential_window;
mod delivered_too_fast;
mod device_floor;
mod device_leaf_unknown;
mod device_leaf_unpowered;
mod device_off_wall;
mod device_protrudes;
mod device_reach;
mod edition_unknown;
mod entry_outgrown;
mod existing_fails_safe;
mod existing_unfed;
mod fire_hold_unreleased;
mod fire_latch_missing;
mod force_by_hand;
mod full_energy_unguarded;
mod gap_wide;
mod hand_contradicts;
mod hazard_unknown;
mod head_low;
mod header_obstructed;
mod hold_open_longer;
mod hold_open_short;
mod in_the_way;
mod knowing_act_far;
mod latch_without_release;
mod line_drop;
mod magnet_egress;
mod maneuver_short;
mod maneuver_unmeasured;
mod motion_on_low_energy;
mod mounting_by_report;
mod mounting_overloaded;
mod on_site;
mod opening_time_unreachable;
mod opens_short;
mod operator_limit;
mod operator_misfit;
mod operator_without_powered_leaf;
mod panel_short;
mod partner_one_sided;
mod post_unknown;
mod power_unknown;
mod powered_without_operator;
mod price_old;
mod public_entrance_manual;
mod pull_hard;
mod quote_expired;
mod rails_unverified;
mod release_before_motion;
mod release_misfit;
mod release_unknown;
mod release_unproven;
mod release_without_latch;
mod return_air_unknown;
mod series_short;
mod staged_access;
mod standby_power_missing;
mod stated_days;
mod stated_hardware;
mod stated_job;
mod stated_openings;
mod stated_surveys;
mod substrate_unknown;
mod survey_missing;
mod survey_second;
mod threshold_high;
mod torque_short;
mod unstated_devices;
mod unstated_leaves;
mod unstated_wiring;
mod vestibule_positions;
mod volts_mismatch;
mod walk_too_long;

#[cfg(test)]
mod absence_tests;
#[cfg(test)]
mod ledger_tests;
#[cfg(test)]
mod pair_tests;

pub(super) use maneuver_short::rooms_asked;
pub use price_old::price_ages;
pub use release_misfit::releases_for;

use super::accept;
use super::check::{Check, CheckScope};
use super::contexts::{LeafContext, OpeningContext};
use crate::findings::{Code, Paper, Papers};

/// The papers that hold what an opening is and costs: those that a contradiction at an opening holds.
const OPENING_PAPERS: Papers = Papers::of(&[Paper::Bid, Paper::Recap, Paper::Schedule, Paper::Packet]);

/// The clause on times of low-energy leaves.
const TIMES: &str = "ANSI/BHMA A156.19, opening and closing times (from memory)";
/// The same clause where the setting of the factory is told.
const FIRST_SWING: &str = "ANSI/BHMA A156.19, times as set before the first swing (from memory)";
/// The clause on hold-open by distance.
const HOLD_OPEN: &str = "ANSI/BHMA A156.19, hold-open by distance (from memory)";
/// The clause whose pace is taken over.
const PACE: &str = "ADA 2010 407.3.4, pace through the leaf (by analogy)";

/// Every check that runs over a job.
pub(super) static CHECKS: &[&Check] = &[
    // what an opening is and needs
    &hand_contradicts::CHECK,
    &powered_without_operator::CHECK,
    &operator_without_powered_leaf::CHECK,
    &arm_missing::CHECK,
    &arm_side_conflict::CHECK,
    &operator_misfit::CHECK,
    &operator_limit::CHECK,
    &volts_mismatch::CHECK,
    // what arms, drives and fasteners do
    &arm_out_of_reach::CHECK,
    &arm_near_dead_point::CHECK,
    &arm_collides::CHECK,
    &opening_time_unreachable::CHECK,
    &delivered_too_fast::CHECK,
    &hold_open_short::CHECK,
    &walk_too_long::CHECK,
    &staged_access::CHECK,
    &torque_short::CHECK,
    &force_by_hand::CHECK,
    &mounting_overloaded::CHECK,
    &mounting_by_report::CHECK,
    &latch_without_release::CHECK,
    &release_unknown::CHECK,
    &release_without_latch::CHECK,
    &release_misfit::CHECK,
    &release_before_motion::CHECK,
    &post_unknown::CHECK,
    &device_leaf_unknown::CHECK,
    &device_leaf_unpowered::CHECK,
    &device_off_wall::CHECK,
    &motion_on_low_energy::CHECK,
    &full_energy_unguarded::CHECK,
    &partner_one_sided::CHECK,
    &vestibule_positions::CHECK,
    &opens_short::CHECK,
    // fire
    &fire_hold_unreleased::CHECK,
    &alarm_release_missing::CHECK,
    &fire_latch_missing::CHECK,
    &on_site::FIRE_STRIKE,
    &on_site::FIRE_HOLES,
    &on_site::FIRE_GAPS,
    // access and egress
    &edition_unknown::CHECK,
    &clear_width_short::CHECK,
    &maneuver_short::CHECK,
    &maneuver_unmeasured::CHECK,
    &series_short::CHECK,
    &gap_wide::CHECK,
    &threshold_high::CHECK,
    &head_low::CHECK,
    &device_reach::CHECK,
    &device_protrudes::CHECK,
    &device_floor::CHECK,
    &on_site::ALCOVE_NARROW,
    &on_site::FLOOR_UNEVEN,
    &on_site::PROJECTIONS,
    &on_site::OPERABLE_PARTS,
    &public_entrance_manual::CHECK,
    &standby_power_missing::CHECK,
    &on_site::POWER_OFF_FORCE,
    &magnet_egress::CHECK,
    &credential_window::CHECK,
    &knowing_act_far::CHECK,
    &hold_open_longer::CHECK,
    &rails_unverified::CHECK,
    &on_site::SIGNS_HEIGHT,
    // electrical
    &power_unknown::CHECK,
    &panel_short::CHECK,
    &conduit_full::CHECK,
    &entry_outgrown::CHECK,
    &line_drop::CHECK,
    &pull_hard::CHECK,
    &on_site::DISCONNECT_IN_SIGHT,
    &on_site::CLASS_TWO_APART,
    &on_site::STUDS_BORED,
    &return_air_unknown::CHECK,
    // facts that are left out
    &unstated_devices::ACTIVATION_MISSING,
    &unstated_devices::ACTIVATION_ONE_SIDE,
    &unstated_devices::CREDENTIAL_UNKNOWN,
    &unstated_devices::OCCUPANT_LOAD_UNKNOWN,
    &unstated_devices::REACH_UNLIMITED,
    &unstated_devices::SWING_UNGUARDED,
    &unstated_devices::JURISDICTION_UNKNOWN,
    &unstated_leaves::OPERATOR_UNKNOWN,
    &unstated_leaves::HANG_UNKNOWN,
    &unstated_leaves::LATCH_UNKNOWN,
    &unstated_leaves::WIRE_CHASE_UNKNOWN,
    &unstated_leaves::EXISTING_UNKNOWN,
    &unstated_leaves::HIGH_WORK_UNSTATED,
    &unstated_leaves::ARM_FACTS_MISSING,
    &unstated_wiring::PANEL_MISSING,
    &unstated_wiring::LINE_ROUTE_MISSING,
    &unstated_wiring::ROUTE_ASSUMED,
    &unstated_wiring::DEVICE_ROUTE_MISSING,
    &unstated_wiring::DEVICE_RUN_LINE,
    &unstated_wiring::BENDS_UNKNOWN,
    &unstated_wiring::RATED_WALLS_UNKNOWN,
    &unstated_wiring::PLENUM_UNKNOWN,
    &unstated_wiring::WET_UNKNOWN,
    // what is stated at two places
    &stated_surveys::HAND,
    &stated_surveys::SURVEY,
    &stated_surveys::SURVEYS,
    &stated_openings::HINGES,
    &stated_openings::DISTANCE,
    &stated_openings::LOCKED,
    &stated_openings::CLEAR_WIDTH,
    &stated_openings::PANEL_VOLTS,
    &stated_openings::PANEL_SITE,
    &stated_hardware::EXISTING_LATCH,
    &stated_hardware::EXISTING_RELEASE,
    &stated_job::RUNS,
    &stated_job::RUN_SITES,
    &stated_job::RUN_CLASS,
    &stated_job::ALTERNATES,
    &stated_job::UNPRICED,
    &stated_job::PLATE_HEIGHTS,
    &stated_job::ADDRESSES,
    &stated_job::DUE,
    &stated_days::DAYS,
    // what is not known or too old
    &survey_missing::CHECK,
    &survey_second::CHECK,
    &substrate_unknown::CHECK,
    &hazard_unknown::CHECK,
    &in_the_way::CHECK,
    &header_obstructed::CHECK,
    &release_unproven::CHECK,
    &existing_unfed::CHECK,
    &existing_fails_safe::CHECK,
    &circuit_unknown::CHECK,
    &circuit_forbidden::CHECK,
    &quote_expired::CHECK,
];

/// Codes that are raised outside the run over a job.
static OTHERS: &[&Code] = &[&price_old::CODE, &accept::IDLE, &accept::NO_WARNING];

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
