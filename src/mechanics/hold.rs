//! What holds a header: the one answer that is drilled, told and bought.
//!
//! In: opening, powered leaves under the header, operator, fasteners of the catalog. Out: how many screws, in how many columns,
//! into a plate or into what is behind it, and whether that was calculated. May not know: kits, rules, papers.
//!
//! Whoever hangs a header uses every hole of it that has something behind it, so the operator's own number stands as it
//! lands, and more where that does not hold; never fewer because fewer would do (common practice, no source). On studs only
//! those count that land wherever the studs stand. Where none of it holds, a plate takes the operator's own number, and the
//! plate is held to the studs. What cannot be calculated is the operator's own number; a header that hangs below the head puts it
//! into its drop plate, and as many again are carried for the plate.

use super::mount::{Calculated, Mounting, NotCalculated, PlateAdvice, mounting};
use crate::catalog::{Catalog, HeaderFastener, Operator};
use crate::engineering::{Pattern, Spread};
use crate::job::{LeafEntry, Opening};

/// How a header is held.
#[derive(Clone, Debug)]
pub struct HeaderHold<'c> {
    /// The fastener of the catalog for what is behind the header; none where it has none or nobody knows what is there.
    pub fastener: Option<&'c HeaderFastener>,
    /// By what.
    pub by: HeldBy,
}

/// By what a header is held.
#[derive(Clone, Debug)]
pub enum HeldBy {
    /// The operator's own number of screws, since nothing can be calculated; why, where it is not that what is behind the header
    /// or its arm is not known.
    OwnNumber(u32, Option<NotCalculated>),
    /// Screws into what is behind it, as calculated.
    Screws(Pattern),
    /// Screws into a plate, and the plate held as calculated.
    Plate {
        /// The operator's own number of screws, into the plate.
        screws: Spread,
        /// The plate.
        plate: PlateAdvice,
    },
}

impl HeaderHold<'_> {
    /// Screws through the back of the header.
    pub fn header_screws(&self) -> u32 {
        match &self.by {
            HeldBy::OwnNumber(count, _) => *count,
            HeldBy::Screws(pattern) => pattern.count,
            HeldBy::Plate { screws, .. } => screws.count(),
        }
    }

    /// Screws that hold its plate; none where it needs none.
    pub fn plate_screws(&self) -> u32 {
        let carried = self.dropped().map_or(0, |spread| spread.count());
        self.plate().map_or(carried, |plate| plate.held.count)
    }

    /// Its own screws into the drop plate on which it hangs below the head of the frame; nothing where it does not.
    pub fn dropped(&self) -> Option<Spread> {
        match self.by {
            HeldBy::OwnNumber(_, Some(NotCalculated::Dropped(spread))) => Some(spread),
            _ => None,
        }
    }

    /// All of them: what the joint takes.
    pub fn screws(&self) -> u32 {
        self.header_screws() + self.plate_screws()
    }

    /// Columns of holes in the back of the header; none where nobody knows where they land.
    pub fn columns(&self) -> Option<u32> {
        match &self.by {
            HeldBy::OwnNumber(..) => self.dropped().map(|spread| spread.columns),
            HeldBy::Screws(pattern) => Some(pattern.columns),
            HeldBy::Plate { screws, .. } => Some(screws.columns),
        }
    }

    /// The plate that it needs.
    pub fn plate(&self) -> Option<&PlateAdvice> {
        match &self.by {
            HeldBy::Plate { plate, .. } => Some(plate),
            _ => None,
        }
    }

    /// Whether it is calculated and nothing of the catalog holds it.
    pub fn fails(&self) -> bool {
        match &self.by {
            HeldBy::OwnNumber(..) => false,
            HeldBy::Screws(pattern) => !pattern.holds(),
            HeldBy::Plate { plate, .. } => !plate.held.holds(),
        }
    }
}

/// How the header over some powered leaves is held: as its worst drive asks. A drive that needs a plate settles it; else one of
/// which nothing can be calculated leaves the operator's own number.
pub fn header_hold<'c>(
    opening: &Opening,
    drives: &[&LeafEntry],
    operator: &Operator,
    catalog: &'c Catalog,
) -> HeaderHold<'c> {
    let each = drives.iter().map(|leaf| held(mounting(opening, leaf, operator, catalog), operator.header_screws));
    let nothing = || HeaderHold { fastener: None, by: HeldBy::OwnNumber(operator.header_screws, None) };
    each.max_by_key(|it| (rank(it), it.plate().map(|plate| plate.length), it.screws())).unwrap_or_else(nothing)
}

/// What settles how a header is held, of several drives: the greatest.
fn rank(of: &HeaderHold) -> (u8, bool) {
    let sort = match &of.by {
        HeldBy::Screws(_) => 0,
        HeldBy::OwnNumber(..) => 1,
        HeldBy::Plate { .. } => 2,
    };
    (sort, of.fails())
}

fn held(found: Option<Mounting<'_>>, own: u32) -> HeaderHold<'_> {
    let Some(Mounting { fastener, result }) = found else {
        return HeaderHold { fastener: None, by: HeldBy::OwnNumber(own, None) };
    };
    let by = match result {
        Ok(calculated) => by_pattern(calculated),
        Err(why @ NotCalculated::Dropped(spread)) => HeldBy::OwnNumber(spread.count(), Some(why)),
        Err(why) => HeldBy::OwnNumber(own, Some(why)),
    };
    HeaderHold { fastener, by }
}

/// Own screws where they hold, more of them where those do, else a plate; own screws that hold not, where there is no more.
fn by_pattern(of: Calculated) -> HeldBy {
    let Calculated { spread, own, least, plate, .. } = of;
    let holds = [own, least].into_iter().flatten().find(Pattern::holds);
    match (holds, plate, own.or(least)) {
        (Some(pattern), ..) => HeldBy::Screws(pattern),
        (None, Some(plate), _) => HeldBy::Plate { screws: spread, plate },
        (None, None, Some(pattern)) => HeldBy::Screws(pattern),
        (None, None, None) => HeldBy::OwnNumber(spread.count(), Some(NotCalculated::StudsApart)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::sound::{Fixture, with_fasteners};

    /// How the header of the bench's opening is held: 40 in long, screws from 1 1/2 in from its ends on, in two rows; the
    /// operator's own number is 8.
    fn of<T>(bench: &Fixture, look: impl FnOnce(&HeaderHold) -> T) -> T {
        let (job, catalog) = bench.read();
        let opening = &job.openings[0];
        let drives: Vec<_> = opening.leaves.iter().collect();
        look(&header_hold(opening, &drives, &catalog.operators["brace-1"], &catalog))
    }

    fn fixed_to(words: &str) -> Fixture {
        with_fasteners(&format!("frame = {{ fixed_to = {words} }}"))
    }

    fn numbers(of: &HeaderHold) -> (u32, u32, Option<u32>, bool) {
        (of.header_screws(), of.plate_screws(), of.columns(), of.fails())
    }

    #[test]
    fn wood_takes_the_own_number_though_fewer_would_hold() {
        of(&fixed_to("\"wood\""), |hold| assert_eq!(numbers(hold), (8, 0, Some(4), false)));
    }

    /// 40 in less 3 in hold two studs at 16 in wherever they stand: 2 columns of 2. A plate of 56 in holds three (counting).
    #[test]
    fn studs_take_what_lands_or_a_plate() {
        let stud = |mils: u32| fixed_to(&format!("\"steel stud\", stud_mils = {mils}"));
        of(&stud(97), |hold| assert_eq!(numbers(hold), (4, 0, Some(2), false)));
        of(&stud(18), |hold| {
            assert_eq!(hold.plate().map(|it| it.length), Some(crate::measure::Length::inches(56)));
            assert_eq!((hold.header_screws(), hold.columns()), (8, Some(4)), "all of them go into the plate");
            assert!((4..=6).contains(&hold.plate_screws()), "{}", hold.plate_screws());
            assert_eq!(hold.screws(), 8 + hold.plate_screws());
        });
    }

    /// 37 in hold one stud at 37 in, and a plate of 77 in two. Of studs at 38 in a plate of 78 in is sure of one (counting).
    #[test]
    fn a_header_that_is_not_sure_of_two_studs_takes_a_plate_as_long_as_that_is() {
        let far = |inches: u32| fixed_to(&format!("\"steel stud\", stud_mils = 97, stud_spacing = \"{inches} in\""));
        of(&far(37), |hold| assert_eq!(numbers(hold), (8, 4, Some(4), false)));
        of(&far(38), |hold| {
            assert!(matches!(hold.by, HeldBy::OwnNumber(8, Some(NotCalculated::StudsApart))), "{hold:?}")
        });
    }

    /// The leaf is 7 ft high and the header 6 in: with its underside at 78 in it ends at the head (counting).
    #[test]
    fn a_header_below_the_head_puts_its_own_number_into_its_plate_and_carries_as_many_for_the_plate() {
        let under = |inches: &str| fixed_to("\"wood\"").and(&format!("access = {{ under_header = \"{inches} in\" }}"));
        of(&under("78"), |hold| {
            assert_eq!(numbers(hold), (8, 8, Some(4), false));
            assert_eq!((hold.screws(), hold.dropped().map(|it| it.rows)), (16, Some(2)));
        });
        of(&under("78 1/16"), |hold| {
            assert_eq!(numbers(hold), (8, 0, Some(4), false), "it has the head behind it");
            assert!(hold.dropped().is_none());
        });
    }

    #[test]
    fn what_cannot_be_calculated_is_the_own_number() {
        for words in ["\"masonry\"", "\"concrete\"", "\"unknown\"", "\"steel stud\""] {
            of(&fixed_to(words), |hold| {
                assert!(matches!(hold.by, HeldBy::OwnNumber(8, _)), "{words}: {hold:?}");
                assert_eq!(numbers(hold), (8, 0, None, false));
            });
        }
    }

    #[test]
    fn more_than_the_own_number_where_it_does_not_hold() {
        let pulled = |stall: u32| {
            let stall = format!("stall = \"{stall} lbf ft\"");
            fixed_to("\"wood\"").catalog_but("stall = \"60 lbf ft\"", &stall)
        };
        of(&pulled(900), |hold| {
            assert!(hold.header_screws() > 8 && !hold.fails(), "{hold:?}");
        });
        of(&pulled(9_000), |hold| assert_eq!(numbers(hold), (8, 0, Some(4), true)));
    }
}
