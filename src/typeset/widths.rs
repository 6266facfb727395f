//! Widths of columns and parts: fixed, shares, and as wide as what they hold.
//!
//! In: what each asks for, and the natural widths of what the fitted ones hold. Out: extents that add up to at most what
//! there is, or by how much they do not. May not know: what stands in a column.

use crate::markup::{Mp, Width};

/// No share and no fitted column is less than this.
const LEAST: Mp = Mp(24_000);

/// What a fitted column needs, insets included.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Need {
    /// For its longest line.
    pub most: Mp,
    /// For its longest word.
    pub least: Mp,
}

/// Columns that need more than there is: how much they need.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooWide {
    /// The least that they need.
    pub needed: Mp,
}

/// Shares out a width. `needs` has one entry for each column; those of columns that are not fitted are not looked at.
pub fn solve(widths: &[Width], needs: &[Need], available: Mp) -> Result<Vec<Mp>, TooWide> {
    let shares: i64 =
        widths.iter().map(|width| if let Width::Share(share) = width { i64::from(*share) } else { 0 }).sum();
    let shared = widths.iter().filter(|width| matches!(width, Width::Share(_))).count();
    let fixed: Mp = widths.iter().map(|width| if let Width::Fixed(extent) = width { *extent } else { Mp::ZERO }).sum();
    let fitted = widths.iter().filter(|width| **width == Width::Fit).count();
    let least = LEAST * (shared + fitted) as i32;
    if available - fixed < least {
        return Err(TooWide { needed: fixed + least });
    }
    // Fitted columns leave each share at least half of an even part.
    let half = (available - fixed) / (2 * (shared + fitted).max(1)) as i32;
    let for_fitted = available - fixed - LEAST.max(half) * shared as i32;
    // A word longer than an even part is broken rather than refused.
    let even = if fitted > 0 { for_fitted / fitted as i32 } else { Mp::ZERO };
    let needs: Vec<Need> = needs.iter().map(|need| Need { least: need.least.min(even), ..*need }).collect();
    let sum = |need: fn(&Need) -> Mp| -> Mp {
        widths.iter().zip(&needs).filter(|(width, _)| **width == Width::Fit).map(|(_, it)| need(it)).sum()
    };
    let (most, least) = (sum(|need| need.most), sum(|need| need.least));
    // Where the longest lines do not fit, each fitted column gives up its part of what is wanting.
    let (wanting, slack) = ((most - for_fitted).max(Mp::ZERO), most - least);
    let fit = |need: &Need| {
        let own = i64::from((need.most - need.least).0);
        let given = if slack > Mp::ZERO { (own * i64::from(wanting.0)).div_euclid(i64::from(slack.0)) } else { 0 };
        // Rounded so that the sum never exceeds what there is.
        let up = i64::from(slack > Mp::ZERO && (own * i64::from(wanting.0)) % i64::from(slack.0) != 0);
        Mp(need.most.0 - (given + up) as i32)
    };
    let taken: Mp =
        widths.iter().zip(&needs).filter(|(width, _)| **width == Width::Fit).map(|(_, need)| fit(need)).sum();
    let rest = available - fixed - taken;
    Ok(widths
        .iter()
        .zip(&needs)
        .map(|(width, need)| match width {
            Width::Fixed(extent) => *extent,
            Width::Share(share) => rest.scaled(i64::from(*share), shares),
            Width::Fit => fit(need),
        })
        .collect())
}

#[cfg(test)]
mod tests {
    use super::{Need, TooWide, solve};
    use crate::markup::{Mp, Width};

    const fn need(most: i32, least: i32) -> Need {
        Need { most: Mp::points(most), least: Mp::points(least) }
    }

    #[test]
    fn widths_are_shared_out_and_never_exceed_what_there_is() {
        let fixed = |points| Width::Fixed(Mp::points(points));
        let none = need(0, 0);
        // Expected values are worked by hand, in points.
        type Case<'a> = (&'a [Width], &'a [Need], i32, Result<Vec<i32>, i32>);
        let cases: [Case<'_>; 7] = [
            (&[fixed(100), Width::Share(1)], &[none, none], 500, Ok(vec![100, 400])),
            (&[Width::Share(1), Width::Share(3)], &[none, none], 400, Ok(vec![100, 300])),
            (&[Width::Fit, Width::Share(1)], &[need(120, 40), none], 500, Ok(vec![120, 380])),
            // 300 for two that want 400 together: 100 wanting, 80 of 320 slack each way: 200 - 50, 200 - 50.
            (&[Width::Fit, Width::Fit], &[need(200, 40), need(200, 40)], 300, Ok(vec![150, 150])),
            (&[fixed(300), fixed(300)], &[none, none], 500, Err(600)),
            (&[Width::Fit, Width::Share(1)], &[need(600, 490), none], 500, Ok(vec![375, 125])),
            (&[fixed(470), Width::Share(1), Width::Fit], &[none, none, need(9, 9)], 500, Err(518)),
        ];
        for (widths, needs, available, expected) in cases {
            let got = solve(widths, needs, Mp::points(available));
            let expected = match expected {
                Ok(points) => Ok(points.into_iter().map(Mp::points).collect()),
                Err(needed) => Err(TooWide { needed: Mp::points(needed) }),
            };
            assert_eq!(got, expected, "{widths:?}");
        }
    }
}
