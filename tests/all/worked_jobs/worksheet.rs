//! A worksheet: rows that a person worked out on paper, each with its value and the arithmetic behind it.
//!
//! In: the text of a `worksheet.csv`. Out: rows, and the exact value of an expression.
//! May not know: anything of the crate under test; numbers here are fractions of whole numbers, nothing else.
//!
//! Columns: `section` (count, quantity, hours, price, alternate, total), `key` (what the row is about), `unit` (empty for
//! a bare count, `$` for money), `value`, `expression` in plain numbers with `+ - * / ( )`, `ceil()` to the next whole
//! number and `cents()` to the nearest cent, half a cent away from zero, and `remark`.

use std::fmt;

/// A row of a worksheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What kind of row it is.
    pub section: String,
    /// What it is about.
    pub key: String,
    /// The unit of the value.
    pub unit: String,
    /// The value as written.
    pub written: String,
    /// The value.
    pub value: Fraction,
    /// The arithmetic behind it.
    pub expression: String,
}

/// An exact fraction in lowest terms, its lower part above zero.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Fraction {
    over: i128,
    under: i128,
}

impl Fraction {
    /// One whole number over another that is not zero.
    pub fn new(over: i128, under: i128) -> Self {
        assert!(under != 0, "division by zero");
        let divisor = gcd(over.abs(), under.abs()).max(1) * under.signum();
        Fraction { over: over / divisor, under: under / divisor }
    }

    /// Reads digits with at most one point and at most one sign in front.
    pub fn read(text: &str) -> Result<Self, String> {
        let digits = text.strip_prefix('-').unwrap_or(text);
        let (whole, rest) = digits.split_once('.').unwrap_or((digits, ""));
        let plain = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
        if whole.is_empty() || !plain(whole) || !plain(rest) || digits.ends_with('.') {
            return Err(format!("`{text}` is not a number"));
        }
        let all: i128 = format!("{whole}{rest}").parse().map_err(|_| format!("`{text}` is too long"))?;
        let sign = if digits.len() < text.len() { -1 } else { 1 };
        Ok(Fraction::new(sign * all, 10i128.pow(rest.len() as u32)))
    }

    fn plus(self, other: Self) -> Self {
        Fraction::new(self.over * other.under + other.over * self.under, self.under * other.under)
    }

    fn times(self, other: Self) -> Self {
        Fraction::new(self.over * other.over, self.under * other.under)
    }

    fn negated(self) -> Self {
        Fraction::new(-self.over, self.under)
    }

    /// Without its sign.
    pub fn abs(self) -> Self {
        Fraction::new(self.over.abs(), self.under)
    }

    fn ceil(self) -> Self {
        Fraction::new(-(-self.over).div_euclid(self.under), 1)
    }

    fn cents(self) -> Self {
        let twice = self.abs().over * 200 + self.under;
        Fraction::new(twice.div_euclid(self.under * 2) * self.over.signum(), 100)
    }
}

fn gcd(a: i128, b: i128) -> i128 {
    if b == 0 { a } else { gcd(b, a % b) }
}

impl fmt::Debug for Fraction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{} ({:.4})", self.over, self.under, self.over as f64 / self.under as f64)
    }
}

/// Reads a worksheet.
pub fn read(text: &str) -> Result<Vec<Row>, String> {
    let mut lines = text.lines().map(cells);
    let heads = lines.next().unwrap_or_default();
    if heads != ["section", "key", "unit", "value", "expression", "remark"] {
        return Err(format!("heads {heads:?}"));
    }
    lines.enumerate().map(|(at, cells)| row(&cells).map_err(|fault| format!("line {}: {fault}", at + 2))).collect()
}

fn row(cells: &[String]) -> Result<Row, String> {
    let [section, key, unit, value, expression, _] = cells else {
        return Err(format!("{} cells", cells.len()));
    };
    Ok(Row {
        section: section.clone(),
        key: key.clone(),
        unit: unit.clone(),
        written: value.clone(),
        value: Fraction::read(value)?,
        expression: expression.clone(),
    })
}

/// The cells of a line; a cell with commas stands in quotes.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for it in line.chars() {
        match it {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            _ => cells.last_mut().expect("there is always one").push(it),
        }
    }
    cells
}

/// The numbers of an expression, in the order written.
pub fn numbers(expression: &str) -> Vec<Fraction> {
    let parts = expression.split(|it: char| !(it.is_ascii_digit() || it == '.'));
    parts.filter_map(|part| Fraction::read(part).ok()).collect()
}

/// Works an expression out.
pub fn evaluate(expression: &str) -> Result<Fraction, String> {
    let mut paper = Paper { rest: expression };
    let value = paper.sum()?;
    match paper.next() {
        None => Ok(value),
        Some(it) => Err(format!("`{it}` is left over in `{expression}`")),
    }
}

struct Paper<'e> {
    rest: &'e str,
}

impl Paper<'_> {
    fn next(&mut self) -> Option<char> {
        self.rest = self.rest.trim_start();
        self.rest.chars().next()
    }

    fn takes(&mut self, text: &str) -> bool {
        self.next();
        match self.rest.strip_prefix(text) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }

    fn sum(&mut self) -> Result<Fraction, String> {
        let mut value = self.product()?;
        loop {
            if self.takes("+") {
                value = value.plus(self.product()?);
            } else if self.takes("-") {
                value = value.plus(self.product()?.negated());
            } else {
                return Ok(value);
            }
        }
    }

    fn product(&mut self) -> Result<Fraction, String> {
        let mut value = self.factor()?;
        loop {
            if self.takes("*") {
                value = value.times(self.factor()?);
            } else if self.takes("/") {
                let by = self.factor()?;
                value = value.times(Fraction::new(by.under, by.over));
            } else {
                return Ok(value);
            }
        }
    }

    fn factor(&mut self) -> Result<Fraction, String> {
        if self.takes("ceil(") {
            return self.closed().map(Fraction::ceil);
        }
        if self.takes("cents(") {
            return self.closed().map(Fraction::cents);
        }
        if self.takes("(") {
            return self.closed();
        }
        self.next();
        let end = self.rest.find(|it: char| !(it.is_ascii_digit() || it == '.')).unwrap_or(self.rest.len());
        let (number, rest) = self.rest.split_at(end);
        self.rest = rest;
        Fraction::read(number)
    }

    fn closed(&mut self) -> Result<Fraction, String> {
        let value = self.sum()?;
        if self.takes(")") { Ok(value) } else { Err(format!("a bracket is not closed before `{}`", self.rest)) }
    }
}

#[test]
fn arithmetic_is_that_of_paper() {
    let ends = [
        ("2 + 3 * 4", "14"),
        ("(2 + 3) * 4", "20"),
        ("10 - 2 - 3", "5"),
        ("1 / 3 * 3", "1"),
        ("ceil(2.2)", "3"),
        ("ceil(3)", "3"),
        ("ceil(0 - 2.2)", "-2"),
        ("cents(1.005)", "1.01"),
        ("cents(0 - 1.005)", "-1.01"),
        ("cents(1.0049)", "1"),
        ("cents(100 / 3)", "33.33"),
    ];
    for (expression, value) in ends {
        assert_eq!(evaluate(expression), Fraction::read(value), "{expression}");
    }
    for wrong in ["", "2 +", "(2", "2 3", "two", "1.", "2)"] {
        assert!(evaluate(wrong).is_err(), "{wrong}");
    }
}
