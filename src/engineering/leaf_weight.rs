//! Estimates of the weight of a leaf that nobody has weighed.
//!
//! In: size and make. Out: a weight, rounded up to a tenth of a pound, and what it rests on.
//! May not know: surveys; a weighed leaf is never estimated. Hollow metal is the two faces alone: cores and stiffeners come
//! on top and no public value for them was found. Hardware on the leaf is added by itself.

use rust_decimal::Decimal;

use crate::measure::{Area, Length, Unit, Weight};

/// A weight that was estimated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EstimatedWeight {
    /// The usual weight.
    pub usual: Weight,
    /// The most that a page gives for such a leaf, if one gives more.
    pub most: Option<Weight>,
    /// What it rests on, as printed beside it.
    pub basis: &'static str,
}

/// Gauge of the faces of a hollow metal leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FaceGauge {
    /// 20 gauge.
    G20,
    /// 18 gauge.
    G18,
    /// 16 gauge.
    G16,
    /// 14 gauge.
    G14,
    /// 12 gauge.
    G12,
}

impl FaceGauge {
    /// All gauges, thinnest first.
    pub const ALL: [FaceGauge; 5] = [FaceGauge::G20, FaceGauge::G18, FaceGauge::G16, FaceGauge::G14, FaceGauge::G12];

    /// The number of the gauge.
    pub fn number(self) -> u8 {
        match self {
            FaceGauge::G20 => 20,
            FaceGauge::G18 => 18,
            FaceGauge::G16 => 16,
            FaceGauge::G14 => 14,
            FaceGauge::G12 => 12,
        }
    }

    /// Weight of one sheet in thousandths of lb/ft², Manufacturers' Standard Gauge, 41.82 lb/ft² for an inch
    /// (cableorganizer.com/learning-center/articles/gauge-metal-sheet.html for 20, 18 and 16; the others from memory and
    /// by the same basis).
    fn thousandths(self) -> i64 {
        match self {
            FaceGauge::G20 => 1500,
            FaceGauge::G18 => 2000,
            FaceGauge::G16 => 2500,
            FaceGauge::G14 => 3125,
            FaceGauge::G12 => 4375,
        }
    }
}

/// Two faces of sheet steel.
pub fn hollow_metal_faces(width: Length, height: Length, gauge: FaceGauge) -> Option<EstimatedWeight> {
    let area = width.by(height);
    // 16 gauge is the one leaf for which pages differ: 4.5, 5 and 6.5 lb/ft² finished.
    let most = if gauge == FaceGauge::G16 { Some(weigh(area, Decimal::new(65, 1))?) } else { None };
    let basis = "two faces of sheet steel by Manufacturers' Standard Gauge; core and stiffeners come on top";
    Some(EstimatedWeight { usual: weigh(area, Decimal::new(2 * gauge.thousandths(), 3))?, most, basis })
}

/// A solid-core wood leaf 1 3/4 in thick: 4 lb/ft², up to 6.5 (engineerfix.com/how-much-does-a-solid-core-door-weigh,
/// weak: 60 to 80 lb usual for 36 by 80 in, to 130 lb).
pub fn solid_core_wood(width: Length, height: Length) -> Option<EstimatedWeight> {
    let area = width.by(height);
    let basis = "solid core wood 1 3/4 in at 4 lb/sq ft, published range 3 to 6.5";
    Some(EstimatedWeight {
        usual: weigh(area, Decimal::from(4))?,
        most: Some(weigh(area, Decimal::new(65, 1))?),
        basis,
    })
}

/// Thickness of a lite of glass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GlassThickness {
    /// 1/8 in.
    Eighth,
    /// 3/16 in.
    ThreeSixteenths,
    /// 1/4 in.
    Quarter,
    /// 3/8 in.
    ThreeEighths,
    /// 1/2 in.
    Half,
}

impl GlassThickness {
    /// All thicknesses, thinnest first.
    pub const ALL: [GlassThickness; 5] = [
        GlassThickness::Eighth,
        GlassThickness::ThreeSixteenths,
        GlassThickness::Quarter,
        GlassThickness::ThreeEighths,
        GlassThickness::Half,
    ];

    /// The thickness.
    pub fn thickness(self) -> Length {
        Length::sixty_fourths(match self {
            GlassThickness::Eighth => 8,
            GlassThickness::ThreeSixteenths => 12,
            GlassThickness::Quarter => 16,
            GlassThickness::ThreeEighths => 24,
            GlassThickness::Half => 32,
        })
    }

    /// lb/ft² in hundredths: studylib.net/doc/18745459 and ezcalculator.net/construction-calculators/glass-weight.
    fn hundredths(self) -> i64 {
        match self {
            GlassThickness::Eighth => 164,
            GlassThickness::ThreeSixteenths => 245,
            GlassThickness::Quarter => 327,
            GlassThickness::ThreeEighths => 491,
            GlassThickness::Half => 654,
        }
    }
}

/// Glass of the given area; insulating glass is the sum of its lites.
pub fn glass(area: Area, lites: &[GlassThickness]) -> Option<EstimatedWeight> {
    let hundredths = lites.iter().map(|lite| lite.hundredths()).sum();
    let basis = "glass by published weights per thickness, sum of the lites; rails and stiles come on top";
    Some(EstimatedWeight { usual: weigh(area, Decimal::new(hundredths, 2))?, most: None, basis })
}

/// Hardware that hangs on a leaf and turns with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LeafHardware {
    /// Hinge leaves, a pull or plate, a kick plate: what every leaf has.
    Trim,
    /// A cylindrical latch.
    Cylindrical,
    /// A mortise lock.
    Mortise,
    /// A rim exit device.
    RimExit,
    /// A vertical rod exit device.
    RodExit,
    /// Flush bolts.
    FlushBolts,
    /// The armature of an electromagnet.
    Armature,
}

impl LeafHardware {
    /// An allowance for its weight in pounds (common practice, no source; no public value was found).
    fn allowance(self) -> i64 {
        match self {
            LeafHardware::Trim => 4,
            LeafHardware::Cylindrical => 5,
            LeafHardware::Mortise => 9,
            LeafHardware::RimExit => 14,
            LeafHardware::RodExit => 20,
            LeafHardware::FlushBolts => 4,
            LeafHardware::Armature => 5,
        }
    }
}

impl EstimatedWeight {
    /// The estimate with the hardware on the leaf: allowances where nobody weighed it.
    pub fn with(self, hardware: &[LeafHardware]) -> Option<EstimatedWeight> {
        let pounds: i64 = hardware.iter().map(|it| it.allowance()).sum();
        self.with_weighed(Weight::new(Decimal::from(pounds), Unit::Pound)?)
    }

    /// The estimate with hardware of a known weight.
    pub fn with_weighed(self, hardware: Weight) -> Option<EstimatedWeight> {
        let add = |weight: Weight| {
            Weight::new(weight.number_of(Unit::Pound)?.checked_add(hardware.number_of(Unit::Pound)?)?, Unit::Pound)
        };
        let most = match self.most {
            Some(most) => Some(add(most)?),
            None => None,
        };
        Some(EstimatedWeight { usual: add(self.usual)?, most, basis: self.basis })
    }
}

/// Area times lb/ft², up to the next tenth of a pound.
fn weigh(area: Area, pounds_per_square_foot: Decimal) -> Option<Weight> {
    let square_feet = area.quantity()?.number_of(Unit::SquareFoot)?;
    let tenths = square_feet.checked_mul(pounds_per_square_foot)?.checked_mul(Decimal::TEN)?.ceil();
    Weight::new(tenths / Decimal::TEN, Unit::Pound)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pounds(weight: Weight) -> Decimal {
        weight.number_of(Unit::Pound).unwrap()
    }

    #[test]
    fn faces_of_a_three_by_seven_leaf() {
        // 63 / 84 / 105 / 131.25 / 183.75 lb: arithmetic on the sheet weights named above.
        let expected = ["63", "84", "105", "131.3", "183.8"].map(|text| text.parse::<Decimal>().unwrap());
        for (gauge, expected) in FaceGauge::ALL.into_iter().zip(expected) {
            let leaf = hollow_metal_faces(Length::feet(3), Length::feet(7), gauge).unwrap();
            assert_eq!(pounds(leaf.usual), expected, "{}", gauge.number());
        }
    }

    /// The sheet weights are thickness times 41.82 lb/ft² for an inch: 0.0359, 0.0478 and 0.0598 in (the page named
    /// above).
    #[test]
    fn sheet_weights_are_thickness_times_the_basis() {
        for (gauge, thickness) in [(FaceGauge::G20, 359), (FaceGauge::G18, 478), (FaceGauge::G16, 598)] {
            let off = Decimal::new(gauge.thousandths(), 3) - Decimal::new(thickness, 4) * Decimal::new(4182, 2);
            assert!(off.abs() < Decimal::new(2, 3), "{off}");
        }
    }

    #[test]
    fn glass_by_the_published_table() {
        // 1/4 in over 15 ft² is 49.05 lb, 1/4 + 1/4 is 6.54 lb/ft²: arithmetic on the table.
        let area = Length::feet(3).by(Length::feet(5));
        assert_eq!(pounds(glass(area, &[GlassThickness::Quarter]).unwrap().usual), Decimal::new(491, 1));
        let square = Length::feet(1).by(Length::feet(10));
        let double = glass(square, &[GlassThickness::Quarter; 2]).unwrap().usual;
        assert_eq!(Some(double), glass(square, &[GlassThickness::Half]).map(|one| one.usual));
        // 156.96 lb/ft³ gives the same table to half a hundredth of a pound per square foot.
        for lite in GlassThickness::ALL {
            let by_density = lite.thickness().to_feet() * Decimal::new(15_696, 2);
            assert!((by_density - Decimal::new(lite.hundredths(), 2)).abs() <= Decimal::new(6, 3), "{lite:?}");
        }
    }

    /// Arithmetic on allowances that are common practice without a source.
    #[test]
    fn hardware_comes_on_top() {
        let leaf = hollow_metal_faces(Length::feet(3), Length::feet(7), FaceGauge::G16).unwrap();
        let hung = leaf.with(&[LeafHardware::Trim, LeafHardware::Mortise]).unwrap();
        let added = Decimal::from(13);
        assert_eq!(pounds(hung.usual) - pounds(leaf.usual), added);
        assert_eq!(pounds(hung.most.unwrap()) - pounds(leaf.most.unwrap()), added);
    }

    #[test]
    fn wood_is_a_range() {
        let leaf = solid_core_wood(Length::inches(36), Length::inches(80)).unwrap();
        assert_eq!((pounds(leaf.usual), leaf.most.map(pounds)), (Decimal::from(80), Some(Decimal::from(130))));
    }
}
