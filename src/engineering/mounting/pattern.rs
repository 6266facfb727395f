//! Number and pattern of fasteners, the part of them that is used, and the plate that spreads a header over studs.
//!
//! In: a header with its loads, the strength of one fastener, where fasteners may land. Out: a pattern or the best that was
//! tried; the length of a plate. May not know: kits.

use rust_decimal::Decimal;

use super::super::safe_rounding::{down_in, number, up};
use super::group::{Group, WallPoint};
use super::header::{Acting, HeaderLoads, HeaderMount, LoadCase};
use super::strength::Strength;
use crate::measure::{Force, Length, Unit};

/// Where fasteners may land along a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Landing {
    /// Anywhere.
    Anywhere,
    /// On studs at this spacing, wherever they happen to stand: only as many count as every position gives.
    Studs(Length),
}

/// The part of the fasteners that is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Used {
    /// `T/Ta + V/Va` of the worst fastener, up to a thousandth (straight interaction; where no shear is held, `T/Ta`).
    pub part: Decimal,
    /// The case that governs.
    pub case: LoadCase,
    /// Its pull on the worst fastener.
    pub pull: Force,
    /// Its shear on the worst fastener.
    pub shear: Force,
}

/// A pattern of fasteners.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pattern {
    /// How many.
    pub count: u32,
    /// In how many columns.
    pub columns: u32,
    /// In how many rows.
    pub rows: u32,
    /// The part of them that is used; above one they do not hold.
    pub used: Used,
}

impl Pattern {
    /// Whether it holds.
    pub fn holds(&self) -> bool {
        self.used.part <= Decimal::ONE
    }

    /// Its rows and columns.
    pub fn spread(&self) -> Spread {
        Spread { columns: self.columns, rows: self.rows }
    }
}

/// Fasteners in full columns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spread {
    /// In how many columns.
    pub columns: u32,
    /// In how many rows.
    pub rows: u32,
}

impl Spread {
    /// How many.
    pub fn count(&self) -> u32 {
        self.columns * self.rows
    }
}

/// Whether a header of a height, with its lower edge at `under`, hangs as a whole below the head of a frame at `head`, all above
/// the floor: then there is nothing behind it but the plate that it hangs on.
pub fn hangs_below_head(under: Length, height: Length, head: Length) -> bool {
    under + height <= head
}

impl HeaderMount {
    /// So many fasteners over the rows of the header: in full columns, so never fewer, and never in fewer than two.
    pub fn spread(&self, count: u32) -> Spread {
        let rows = if self.upper_row == self.lower_row { 1 } else { 2 };
        Spread { columns: count.div_ceil(rows).max(2), rows }
    }

    /// So many fasteners, spread evenly over the rows and, where they land anywhere, over the length, and the part of them that
    /// is used. Nothing where fewer than two columns land, a length is missing or the arm does not reach.
    pub fn pattern(&self, loads: &HeaderLoads, strength: &Strength, landing: Landing, count: u32) -> Option<Pattern> {
        let acting = Acting::of(self, loads)?;
        let columns = self.spread(count).columns.min(self.columns_that_land(landing)?);
        (columns >= 2).then(|| pattern(&acting, strength, landing, columns)).flatten()
    }

    /// The least pattern of up to `most` fasteners that holds; or else the last one tried, which does not. Nothing where fewer
    /// than two columns land.
    pub fn least_pattern(
        &self,
        loads: &HeaderLoads,
        strength: &Strength,
        landing: Landing,
        most: u32,
    ) -> Option<Pattern> {
        let acting = Acting::of(self, loads)?;
        let Spread { rows, .. } = self.spread(most);
        let columns = (most / rows).min(self.columns_that_land(landing)?);
        let tried = (2..=columns).filter_map(|columns| pattern(&acting, strength, landing, columns));
        let mut last = None;
        for pattern in tried {
            last = Some(pattern);
            if pattern.holds() {
                break;
            }
        }
        last
    }

    fn columns_that_land(&self, landing: Landing) -> Option<u32> {
        match landing {
            Landing::Anywhere => Some(u32::MAX),
            // Any stretch so long holds at least so many studs.
            Landing::Studs(spacing) => {
                let free = (self.length - self.edge * 2).to_nanometres().max(0);
                u32::try_from(free.checked_div(spacing.to_nanometres())?).ok()
            }
        }
    }
}

/// The length of a plate that lands on a stud at both ends beyond the header wherever the studs stand: the header and one
/// spacing, up to whole inches (common practice, no source).
pub fn plate_length(header: Length, spacing: Length) -> Length {
    (header + spacing).up_to(Length::inches(1))
}

/// So many columns of fasteners where they stand worst.
fn pattern(acting: &Acting, strength: &Strength, landing: Landing, columns: u32) -> Option<Pattern> {
    let each = places(acting, landing, columns)?.into_iter().map(|places| used(acting, strength, &places));
    let each: Vec<Used> = each.collect::<Option<_>>()?;
    let used = each.into_iter().max_by(|a, b| a.part.cmp(&b.part))?;
    let rows = u32::try_from(acting.rows.len()).ok()?;
    Some(Pattern { count: rows * columns, columns, rows, used })
}

/// Where the columns may stand that govern. Columns on studs are one spacing apart and begin wherever the first stud is. Moved
/// along a rigid header as a group, the pull of each fastener is a linear function of the way, or nothing where that presses, and
/// its shear the length of a vector that is linear; both and their sum are convex, so that the worst place is one of the ends.
fn places(acting: &Acting, landing: Landing, columns: u32) -> Option<Vec<Vec<f64>>> {
    let free = acting.length - 2.0 * acting.edge;
    let spaces = f64::from(columns - 1);
    let from = |start: f64, between: f64| (0..columns).map(|at| start + f64::from(at) * between).collect();
    Some(match landing {
        Landing::Anywhere => vec![from(acting.edge, free / spaces)],
        Landing::Studs(spacing) => {
            let between = number(spacing, Unit::Inch)?;
            vec![from(acting.edge, between), from(acting.edge + free - spaces * between, between)]
        }
    })
}

/// The part of fasteners that is used, in columns at these places.
fn used(acting: &Acting, strength: &Strength, places: &[f64]) -> Option<Used> {
    let spots = places.iter().flat_map(|&x| acting.rows.iter().map(move |&z| WallPoint { x, z }));
    let group = Group::new(spots.collect())?;
    let worst = acting.loads(group.centroid()).into_iter().flat_map(|(case, load)| {
        let each = group.carried(&load);
        each.into_iter().map(move |it| (case, it))
    });
    let pull = number(strength.pull, Unit::PoundForce)?;
    let shear = strength.shear.and_then(|it| number(it, Unit::PoundForce));
    let part = |pulled: f64, sheared: f64| pulled / pull + shear.map_or(0.0, |it| sheared / it);
    let (case, carried) = worst.max_by(|a, b| part(a.1.pull, a.1.shear).total_cmp(&part(b.1.pull, b.1.shear)))?;
    Some(Used {
        part: up(part(carried.pull, carried.shear), 3)?,
        case,
        pull: down_in(carried.pull, Unit::PoundForce, 1)?,
        shear: down_in(carried.shear, Unit::PoundForce, 1)?,
    })
}

#[cfg(test)]
mod tests {
    use super::super::super::linkage::{PullArm, PushArm};
    use super::super::header::ArmOnHeader;
    use super::*;
    use crate::measure::{Angle, Torque, Weight};

    fn lbf(number: i64) -> Force {
        Force::new(Decimal::from(number), Unit::PoundForce).unwrap()
    }

    fn mount() -> HeaderMount {
        HeaderMount {
            length: Length::inches(40),
            past_hinge: Length::inches(2),
            depth: Length::inches(5),
            weight: Weight::new(Decimal::from(48), Unit::Pound).unwrap(),
            lower_row: Length::inches(1),
            upper_row: Length::inches(5),
            edge: Length::inches(2),
            arm_below: Length::sixty_fourths(32),
        }
    }

    /// The worked arm of `linkage_tests`.
    fn loads(stall: i64) -> HeaderLoads {
        let arm = PushArm {
            spindle_along: Length::inches(9),
            spindle_out: Length::inches(1),
            pin_along: Length::inches(25),
            pin_out: Length::ZERO,
            main: Length::sixty_fourths(13 * 64 + 32),
            shut: Angle::degrees(75),
            axis_to_face: Length::sixty_fourths(96),
            reveal: Length::sixty_fourths(96),
        };
        let stall = Torque::new(Decimal::from(stall), Unit::PoundForceFoot).unwrap();
        HeaderLoads { arm: ArmOnHeader::Push(arm), stall, blown: None, open: Angle::degrees(90) }
    }

    fn strength(pull: i64, shear: Option<i64>) -> Strength {
        Strength { pull: lbf(pull), shear: shear.map(lbf), basis: "a test" }
    }

    /// Statics: weight alone, four screws in two rows 4 in apart, 48 lb at 2.5 in: 120 / 4 / 2 = 15 lbf pull in the upper
    /// row, 12 lbf shear each.
    #[test]
    fn weight_alone_by_hand() {
        let found = mount().pattern(&loads(0), &strength(100, Some(100)), Landing::Anywhere, 4).unwrap();
        assert_eq!((found.count, found.columns, found.rows), (4, 2, 2));
        assert_eq!((found.used.pull, found.used.shear), (lbf(15), lbf(12)));
        assert_eq!(found.used.part, Decimal::new(27, 2));
    }

    #[test]
    fn stall_governs_and_more_fasteners_hold_more() {
        let part = |count: u32| {
            let found = mount().pattern(&loads(120), &strength(100, Some(150)), Landing::Anywhere, count).unwrap();
            assert_eq!(found.used.case, LoadCase::Stall);
            found.used.part
        };
        let parts: Vec<Decimal> = [4, 6, 8, 12, 16].map(part).to_vec();
        assert!(parts.windows(2).all(|two| two[0] > two[1]), "{parts:?}");
        let weak = strength(40, Some(60));
        let least = mount().least_pattern(&loads(120), &weak, Landing::Anywhere, 40).unwrap();
        assert!(least.holds() && least.columns > 2, "{least:?}");
        let one_less = mount().pattern(&loads(120), &weak, Landing::Anywhere, least.count - 2).unwrap();
        assert!(one_less.columns == least.columns - 1 && !one_less.holds(), "{one_less:?}");
    }

    /// Nine over two rows take five columns, and three take two (counting).
    #[test]
    fn an_odd_number_fills_its_last_column() {
        let reported = |count: u32| (mount().spread(count).columns, mount().spread(count).count());
        assert_eq!([9, 8, 3, 1].map(reported), [(5, 10), (4, 8), (2, 4), (2, 4)]);
        let one_row = HeaderMount { upper_row: mount().lower_row, ..mount() };
        assert_eq!(one_row.spread(3), Spread { columns: 3, rows: 1 });
        let found = mount().pattern(&loads(0), &strength(100, Some(100)), Landing::Anywhere, 9).unwrap();
        assert_eq!(found.spread(), mount().spread(9));
    }

    /// 40 in less two edges of 2 in is 36 in: two studs at 16 in wherever they stand; a plate of 56 in has three.
    #[test]
    fn studs_give_few_columns_and_a_plate_more() {
        let spacing = Length::inches(16);
        let weak = strength(84, Some(177));
        let on_studs = mount().least_pattern(&loads(120), &weak, Landing::Studs(spacing), 20).unwrap();
        assert_eq!(on_studs.columns, 2);
        assert_eq!(plate_length(Length::inches(40), spacing), Length::inches(56));
        let plated = HeaderMount { length: Length::inches(56), past_hinge: Length::inches(10), ..mount() };
        assert_eq!(plated.least_pattern(&loads(400), &weak, Landing::Studs(spacing), 20).unwrap().columns, 3);
    }

    /// Statics: weight alone on two studs 16 in apart, the first 2 in from the end. The screws' centroid is 10 in from the end,
    /// the middle of the header 20 in: 48 lb at 10 in twist by 480 lbf·in. Screws at 8 in and 2 in from the centroid share that by
    /// 480 / (4 (8² + 2²)): 14.118 lbf up or down and 3.529 along, with 12 of the weight 26.118, together 26.355 lbf.
    #[test]
    fn weight_beside_the_studs_twists_their_screws() {
        let studs = Landing::Studs(Length::inches(16));
        let found = mount().pattern(&loads(0), &strength(100, Some(100)), studs, 4).unwrap();
        assert_eq!(
            (found.used.pull, found.used.shear),
            (lbf(15), Force::new(Decimal::new(263, 1), Unit::PoundForce).unwrap())
        );
        assert_eq!(found.used.part, Decimal::new(414, 3), "(15 + 26.355) / 100, up to a thousandth");
    }

    /// Wherever between its ends a group on studs stands, no screw is used more than where it stands worst.
    #[test]
    fn a_group_on_studs_stands_worst_at_an_end() {
        let strength = strength(100, Some(150));
        for torque in [0, 30, 120, 300] {
            let acting = Acting::of(&mount(), &loads(torque)).unwrap();
            let governs = pattern(&acting, &strength, Landing::Studs(Length::inches(16)), 2).unwrap().used.part;
            let between = (0..=20).map(|step| 2.0 + f64::from(step));
            let parts: Vec<Decimal> = between.map(|x| used(&acting, &strength, &[x, x + 16.0]).unwrap().part).collect();
            assert_eq!(parts.iter().max(), Some(&governs));
        }
    }

    /// A leaf blown open against the arm pulls the header where a push arm holds it (statics), and a pull arm too.
    #[test]
    fn a_blown_leaf_governs_where_only_the_arm_holds_it() {
        let blown = Torque::new(Decimal::from(120), Unit::PoundForceFoot);
        let held = HeaderLoads { blown, ..loads(5) };
        let found = mount().pattern(&held, &strength(100, None), Landing::Anywhere, 8).unwrap();
        assert_eq!(found.used.case, LoadCase::Blown);
        let pull = PullArm {
            spindle_along: Length::inches(9),
            spindle_out: Length::inches(3),
            main: Length::inches(17),
            track_out: Length::sixty_fourths(80),
            track_from: Length::inches(10),
            track_to: Length::inches(28),
            axis_to_face: Length::ZERO,
            reveal: Length::ZERO,
        };
        let held = HeaderLoads { arm: ArmOnHeader::Pull(pull), ..held };
        let found = mount().pattern(&held, &strength(100, None), Landing::Anywhere, 8).unwrap();
        assert_eq!(found.used.case, LoadCase::Blown);
    }
}
