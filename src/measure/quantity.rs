//! A decimal with a dimension: what rules compute with and the ledger keeps.
//!
//! In: decimals in canonical units (millimetre, gram, second, newton, ampere, volt, dollar).
//! Out: checked arithmetic: adding unlike dimensions or overflowing is an error, never a wrong number.
//! May not know: how a quantity is written or printed, or what it is a quantity of.

use rust_decimal::Decimal;

/// Exponents of the base quantities. A count, a ratio or a percentage has none.
///
/// Money is a base quantity here so that a price per foot times feet is checked like any other product;
/// amounts of money and their rounding belong to the room `money`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Dimension {
    /// Length, canonical unit millimetre.
    pub length: i8,
    /// Weight (mass), canonical unit gram.
    pub weight: i8,
    /// Time, canonical unit second.
    pub time: i8,
    /// Force, canonical unit newton; kept apart from mass so that pounds and pounds-force cannot be added.
    pub force: i8,
    /// Electric current, canonical unit ampere.
    pub current: i8,
    /// Electric potential, canonical unit volt; watts and volt-amperes are its product with current.
    pub potential: i8,
    /// Money, canonical unit dollar.
    pub money: i8,
}

impl Dimension {
    /// A count, a ratio, a percentage.
    pub const NONE: Dimension =
        Dimension { length: 0, weight: 0, time: 0, force: 0, current: 0, potential: 0, money: 0 };
    /// Length.
    pub const LENGTH: Dimension = Dimension { length: 1, ..Dimension::NONE };
    /// Area.
    pub const AREA: Dimension = Dimension { length: 2, ..Dimension::NONE };
    /// Volume.
    pub const VOLUME: Dimension = Dimension { length: 3, ..Dimension::NONE };
    /// Weight.
    pub const WEIGHT: Dimension = Dimension { weight: 1, ..Dimension::NONE };
    /// Time.
    pub const TIME: Dimension = Dimension { time: 1, ..Dimension::NONE };
    /// Force.
    pub const FORCE: Dimension = Dimension { force: 1, ..Dimension::NONE };
    /// Electric current.
    pub const CURRENT: Dimension = Dimension { current: 1, ..Dimension::NONE };
    /// Electric potential.
    pub const POTENTIAL: Dimension = Dimension { potential: 1, ..Dimension::NONE };
    /// Electric power.
    pub const POWER: Dimension = Dimension { current: 1, potential: 1, ..Dimension::NONE };
    /// Torque, and energy, which is of the same dimension.
    pub const TORQUE: Dimension = Dimension { force: 1, length: 1, ..Dimension::NONE };
    /// Pressure.
    pub const PRESSURE: Dimension = Dimension { force: 1, length: -2, ..Dimension::NONE };
    /// Speed.
    pub const SPEED: Dimension = Dimension { length: 1, time: -1, ..Dimension::NONE };
    /// Money.
    pub const MONEY: Dimension = Dimension { money: 1, ..Dimension::NONE };

    fn combine(self, other: Dimension, sign: i8) -> Option<Dimension> {
        let join = |a: i8, b: i8| a.checked_add(b.checked_mul(sign)?);
        Some(Dimension {
            length: join(self.length, other.length)?,
            weight: join(self.weight, other.weight)?,
            time: join(self.time, other.time)?,
            force: join(self.force, other.force)?,
            current: join(self.current, other.current)?,
            potential: join(self.potential, other.potential)?,
            money: join(self.money, other.money)?,
        })
    }

    /// The dimension of a product.
    pub fn times(self, other: Dimension) -> Option<Dimension> {
        self.combine(other, 1)
    }

    /// The dimension of a quotient.
    pub fn per(self, other: Dimension) -> Option<Dimension> {
        self.combine(other, -1)
    }
}

/// Why an operation on quantities gave nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum QuantityFault {
    /// The two have unlike dimensions, left and right.
    Unlike(Dimension, Dimension),
    /// The result does not fit in 28 digits.
    TooLarge,
    /// Division by nothing.
    ByZero,
}

/// A decimal with a dimension, in canonical units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Quantity {
    /// The value in canonical units, without trailing zeros.
    value: Decimal,
    dimension: Dimension,
}

impl Quantity {
    /// A quantity from a value in canonical units.
    pub fn new(value: Decimal, dimension: Dimension) -> Self {
        Quantity { value: value.normalize(), dimension }
    }

    /// A plain number.
    pub fn count(value: impl Into<Decimal>) -> Self {
        Quantity::new(value.into(), Dimension::NONE)
    }

    /// The value in canonical units.
    pub fn value(self) -> Decimal {
        self.value
    }

    /// Its dimension.
    pub fn dimension(self) -> Dimension {
        self.dimension
    }

    fn alike(self, other: Quantity) -> Result<(), QuantityFault> {
        if self.dimension == other.dimension {
            Ok(())
        } else {
            Err(QuantityFault::Unlike(self.dimension, other.dimension))
        }
    }

    /// Sum of two of one dimension.
    pub fn plus(self, other: Quantity) -> Result<Quantity, QuantityFault> {
        self.alike(other)?;
        let value = self.value.checked_add(other.value).ok_or(QuantityFault::TooLarge)?;
        Ok(Quantity::new(value, self.dimension))
    }

    /// Difference of two of one dimension.
    pub fn minus(self, other: Quantity) -> Result<Quantity, QuantityFault> {
        self.alike(other)?;
        let value = self.value.checked_sub(other.value).ok_or(QuantityFault::TooLarge)?;
        Ok(Quantity::new(value, self.dimension))
    }

    /// Product.
    pub fn times(self, other: Quantity) -> Result<Quantity, QuantityFault> {
        let dimension = self.dimension.times(other.dimension).ok_or(QuantityFault::TooLarge)?;
        let value = self.value.checked_mul(other.value).ok_or(QuantityFault::TooLarge)?;
        Ok(Quantity::new(value, dimension))
    }

    /// Quotient, to 28 digits.
    pub fn over(self, other: Quantity) -> Result<Quantity, QuantityFault> {
        if other.value.is_zero() {
            return Err(QuantityFault::ByZero);
        }
        let dimension = self.dimension.per(other.dimension).ok_or(QuantityFault::TooLarge)?;
        let value = self.value.checked_div(other.value).ok_or(QuantityFault::TooLarge)?;
        Ok(Quantity::new(value, dimension))
    }

    /// Order of two of one dimension.
    pub fn compare(self, other: Quantity) -> Result<std::cmp::Ordering, QuantityFault> {
        self.alike(other)?;
        Ok(self.value.cmp(&other.value))
    }
}
