//! Screws in sheet steel: pull-out, pull-over, shear, and the screw's own strength, allowable stress design.
//!
//! In: sheets and screw in inches, strengths in lb/in² and lb. Out: pounds. May not know: walls. Safety factor 3.0
//! (AISI provisions in ASD form, permit file at lfportal.everettwa.gov, doc 1550732 page 46, secondary). A later edition may
//! change the equation of pull-out (research report RP19-1, scholarsmine.mst.edu/ccfss-aisi-spec/233): the adopted edition
//! governs.

/// Safety factor.
const OMEGA: f64 = 3.0;
/// The widest head or washer that counts in pull-over, 1/2 in.
const WIDEST_HEAD: f64 = 0.5;

/// A sheet of steel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sheet {
    /// Design thickness in inches.
    pub thick: f64,
    /// Tensile strength in lb/in².
    pub tensile: f64,
}

/// A screw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Screw {
    /// Diameter in inches.
    pub diameter: f64,
    /// Diameter of head or washer in inches.
    pub head: f64,
    /// Tested strength in shear, lb, without safety factor.
    pub shear: f64,
    /// Tested strength in tension, lb, without safety factor.
    pub tension: f64,
}

/// Pull-out from the sheet that holds the thread: `0.85 t d Fu / Ω`.
pub(super) fn pull_out(holds: Sheet, screw: &Screw) -> f64 {
    0.85 * holds.thick * screw.diameter * holds.tensile / OMEGA
}

/// Pull of the head through the sheet under it: `1.5 t d_w Fu / Ω`.
pub(super) fn pull_over(under_head: Sheet, screw: &Screw) -> f64 {
    1.5 * under_head.thick * screw.head.min(WIDEST_HEAD) * under_head.tensile / OMEGA
}

/// Tilting and bearing of the two sheets: for `t2/t1 ≤ 1` the least of `4.2 √(t2³ d) Fu2`, `2.7 t1 d Fu1`, `2.7 t2 d Fu2`; for
/// `t2/t1 ≥ 2.5` of the latter two; between, in proportion; over Ω.
pub(super) fn shear(under_head: Sheet, holds: Sheet, screw: &Screw) -> f64 {
    let bearing = |sheet: Sheet| 2.7 * sheet.thick * screw.diameter * sheet.tensile;
    let tilting = 4.2 * libm::sqrt(libm::pow(holds.thick, 3.0) * screw.diameter) * holds.tensile;
    let thick = bearing(under_head).min(bearing(holds));
    let thin = tilting.min(thick);
    let ratio = holds.thick / under_head.thick;
    let part = ((ratio - 1.0) / 1.5).clamp(0.0, 1.0);
    (thin + (thick - thin) * part) / OMEGA
}

/// The screw's own strength in tension and in shear, over Ω (stud association's table, notes 6 and 7, secondary).
pub(super) fn own_strength(screw: &Screw) -> (f64, f64) {
    (screw.tension / OMEGA, screw.shear / OMEGA)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The stud association's screws (publicrecords.tigard-or.gov, document 930449, secondary): diameter, head, shear, tension.
    fn screw(size: &str) -> Screw {
        let [diameter, head, shear, tension] = match size {
            "6" => [0.138, 0.272, 643.0, 419.0],
            "8" => [0.164, 0.272, 1278.0, 586.0],
            "10" => [0.190, 0.340, 1644.0, 1158.0],
            "12" => [0.216, 0.340, 2330.0, 2325.0],
            _ => [0.250, 0.409, 3048.0, 3201.0],
        };
        Screw { diameter, head, shear, tension }
    }

    /// The same table: shear, pull-out, pull-over in lb of 18 and 27 mil sheets of 33 ksi.
    #[test]
    fn the_stud_associations_cells() {
        let rows = [
            (0.0188, "6", [44, 24, 84]),
            (0.0188, "8", [48, 29, 84]),
            (0.0188, "10", [52, 33, 105]),
            (0.0188, "12", [55, 38, 105]),
            (0.0188, "1/4", [60, 44, 127]),
            (0.0283, "6", [82, 37, 127]),
            (0.0283, "8", [89, 43, 127]),
            (0.0283, "10", [96, 50, 159]),
            (0.0283, "12", [102, 57, 159]),
            (0.0283, "1/4", [110, 66, 191]),
        ];
        for (thick, size, cells) in rows {
            let (sheet, screw) = (Sheet { thick, tensile: 33_000.0 }, screw(size));
            let found = [shear(sheet, sheet, &screw), pull_out(sheet, &screw), pull_over(sheet, &screw)];
            for (found, cell) in found.into_iter().zip(cells) {
                assert!((found - f64::from(cell)).abs() <= 0.56, "{thick} #{size}: {found} {cell}");
            }
        }
    }

    /// 27 mil #10: 95.9 / 50.3 / 158.8; 18 mil 1/4: 59.5 / 43.9 / 126.9; 33 mil of 45 ksi #10: pull-out 83.8, four screws 335
    /// (formula). Tension of 54 mil of 65 ksi is cut to a third of the screw's own 1158 lb.
    #[test]
    fn unrounded_values_and_the_screws_own_strength() {
        let sheet = |thick: f64, tensile: f64| Sheet { thick, tensile };
        let near = |found: f64, value: f64| assert!((found - value).abs() < 0.06, "{found} {value}");
        let thin = sheet(0.0283, 33_000.0);
        near(shear(thin, thin, &screw("10")), 95.9);
        near(pull_out(thin, &screw("10")), 50.3);
        near(pull_over(thin, &screw("10")), 158.8);
        near(shear(sheet(0.0188, 33_000.0), sheet(0.0188, 33_000.0), &screw("1/4")), 59.5);
        let stud = sheet(0.0346, 45_000.0);
        near(pull_out(stud, &screw("10")), 83.8);
        assert!((4.0 * pull_out(stud, &screw("10")) - 335.0).abs() < 1.0);
        near(own_strength(&screw("10")).0, 386.0);
        assert!(pull_over(sheet(0.0566, 65_000.0), &screw("10")) > 386.0);
    }

    /// Between the two ratios of thickness the strength is in proportion, and it never falls as the holding sheet grows.
    #[test]
    fn shear_grows_with_the_holding_sheet() {
        let under = Sheet { thick: 0.0283, tensile: 33_000.0 };
        let values: Vec<f64> = (0..60)
            .map(|step| 0.0283 * (0.8 + f64::from(step) * 0.04))
            .map(|thick| shear(under, Sheet { thick, tensile: 33_000.0 }, &screw("12")))
            .collect();
        assert!(values.windows(2).all(|two| two[0] <= two[1] + 1e-9));
    }
}
