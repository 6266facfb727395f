//! Days and hours, exact, without clock or time zone.
//!
//! In: TOML dates and ISO 8601 text (`2026-11-03`, `2026-12-10T14:00:00`). Out: days that can be counted.
//! May not know: what today is.

use std::cmp::Ordering;
use std::fmt;

use super::{Fix, Raw, Reader, Refusal, Scalar, codes, scalar_fields};
use crate::measure::System;

/// A day of the Gregorian calendar, years 1 to 9999.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

/// A day and the time on it, to the second, as clocks at the site show it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DateTime {
    date: Date,
    hour: u8,
    minute: u8,
    second: u8,
}

scalar_fields!(Date, DateTime);

impl Date {
    /// The day, if there is one.
    pub fn new(year: u16, month: u8, day: u8) -> Option<Date> {
        let real = (1..=9999).contains(&year) && (1..=12).contains(&month) && (1..=days_in(year, month)).contains(&day);
        real.then_some(Date { year, month, day })
    }

    /// Reads `2026-11-03`.
    pub fn parse(text: &str) -> Option<Date> {
        let bytes = text.as_bytes();
        if bytes.len() != 10 || bytes[4] != b'-' || bytes[7] != b'-' {
            return None;
        }
        Date::new(number(&text[..4])?, number(&text[5..7])?, number(&text[8..])?)
    }

    /// The year.
    pub fn year(self) -> u16 {
        self.year
    }

    /// The month, from 1.
    pub fn month(self) -> u8 {
        self.month
    }

    /// The day of the month, from 1.
    pub fn day(self) -> u8 {
        self.day
    }

    /// Days since 1 January of year 1, which is day 0.
    fn ordinal(self) -> i64 {
        let year = i64::from(self.year) - 1;
        let months: i64 = (1..self.month).map(|month| i64::from(days_in(self.year, month))).sum();
        year * 365 + year / 4 - year / 100 + year / 400 + months + i64::from(self.day) - 1
    }

    /// Days from this day to another; below zero where the other is earlier.
    pub fn days_to(self, other: Date) -> i64 {
        other.ordinal() - self.ordinal()
    }

    /// The day so many days later, or earlier where below zero; nothing outside years 1 to 9999.
    pub fn plus_days(self, days: i64) -> Option<Date> {
        let target = self.ordinal().checked_add(days)?;
        if !(0..=3_652_058).contains(&target) {
            return None;
        }
        // Years of 366 days at most, so this never starts after the right one.
        let mut year = u16::try_from(target / 366 + 1).ok()?;
        while year < 9999 && Date::new(year + 1, 1, 1)?.ordinal() <= target {
            year += 1;
        }
        let mut left = u16::try_from(target - Date::new(year, 1, 1)?.ordinal()).ok()?;
        let mut month = 1;
        while left >= u16::from(days_in(year, month)) {
            left -= u16::from(days_in(year, month));
            month += 1;
        }
        Date::new(year, month, u8::try_from(left + 1).ok()?)
    }
}

impl DateTime {
    /// The moment, if there is one.
    pub fn new(date: Date, hour: u8, minute: u8, second: u8) -> Option<DateTime> {
        (hour < 24 && minute < 60 && second < 60).then_some(DateTime { date, hour, minute, second })
    }

    /// Reads `2026-12-10T14:00:00`; a space may stand for the `T`, and the seconds may be left out.
    pub fn parse(text: &str) -> Option<DateTime> {
        let date = Date::parse(text.get(..10)?)?;
        let time = text[10..].strip_prefix(['T', 't', ' '])?;
        let mut parts = time.split(':');
        let (hour, minute) = (two(parts.next()?)?, two(parts.next()?)?);
        let second = parts.next().map_or(Some(0), two)?;
        if parts.next().is_some() { None } else { DateTime::new(date, hour, minute, second) }
    }

    /// The day.
    pub fn date(self) -> Date {
        self.date
    }

    /// The hour, from 0.
    pub fn hour(self) -> u8 {
        self.hour
    }

    /// The minute.
    pub fn minute(self) -> u8 {
        self.minute
    }
}

fn two(text: &str) -> Option<u8> {
    if text.len() == 2 { number(text) } else { None }
}

fn number<N: std::str::FromStr>(text: &str) -> Option<N> {
    if text.bytes().all(|byte| byte.is_ascii_digit()) { text.parse().ok() } else { None }
}

fn days_in(year: u16, month: u8) -> u8 {
    match month {
        4 | 6 | 9 | 11 => 30,
        2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => 29,
        2 => 28,
        _ => 31,
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl fmt::Display for DateTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}T{:02}:{:02}:{:02}", self.date, self.hour, self.minute, self.second)
    }
}

impl Scalar for Date {
    const WORDS: &'static str = "a date";
    const UNIT: &'static str = "year-month-day";
    const QUOTED: bool = false;

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        match raw {
            Raw::Date(text) | Raw::Cell(text) => Date::parse(text).ok_or_else(|| bad_date(text)),
            Raw::Text(text) if Date::parse(text).is_some() => {
                Err(Refusal::wrong_type().fix(Fix::Bare(text.to_owned())))
            }
            Raw::Text(text) => Err(bad_date(text)),
            _ => Err(Refusal::wrong_type()),
        }
    }

    fn order(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }

    fn readable(&self, _: System) -> String {
        self.to_string()
    }
}

/// The refusal of a text that is no date: a moment is cut to its day, and `11/3/2026` gets its readings.
/// What to type for a day written in the order of another country, such as `12/15/2026`.
pub(super) fn in_order(text: &str) -> Option<Fix> {
    let slashed = text.bytes().filter(|byte| matches!(byte, b'/' | b'.')).count() == 2;
    let fix = bad_date(text).into_reasons().fix;
    (slashed && !matches!(fix, Fix::None)).then_some(fix)
}

fn bad_date(text: &str) -> Refusal {
    if let Some(date) = text.get(..10).and_then(Date::parse) {
        return Refusal::new(&codes::BAD_DATE).fix(Fix::Bare(date.to_string()));
    }
    let parts: Vec<&str> = text.split(['/', '.', '-']).collect();
    let [first, second, year] = parts[..] else { return Refusal::new(&codes::BAD_DATE) };
    let date = |month: &str, day: &str| {
        let year = if year.len() == 4 { number(year)? } else { return None };
        Date::new(year, number(month)?, number(day)?)
    };
    match (date(first, second), date(second, first)) {
        (Some(a), Some(b)) if a != b => {
            let refusal = Refusal::new(&codes::AMBIGUOUS).asked(format!("{a} or {b}"));
            refusal.fix(Fix::Advice(format!("{a} if the month comes first, {b} if the day does")))
        }
        (Some(one), _) | (None, Some(one)) => Refusal::new(&codes::BAD_DATE).fix(Fix::Bare(one.to_string())),
        (None, None) => Refusal::new(&codes::BAD_DATE),
    }
}

impl Scalar for DateTime {
    const WORDS: &'static str = "a date with its hour";
    const UNIT: &'static str = "year-month-dayThour:minute:second";
    const QUOTED: bool = false;

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        match raw {
            Raw::Date(text) | Raw::Cell(text) => DateTime::parse(text).ok_or_else(|| bad_moment(text)),
            Raw::Text(text) if DateTime::parse(text).is_some() => {
                Err(Refusal::wrong_type().fix(Fix::Bare(text.to_owned())))
            }
            Raw::Text(text) => Err(bad_moment(text)),
            _ => Err(Refusal::wrong_type()),
        }
    }

    fn order(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }

    fn readable(&self, _: System) -> String {
        self.to_string()
    }
}

/// The refusal of a text that is no moment: an offset from universal time is cut off, a day alone gets an hour.
fn bad_moment(text: &str) -> Refusal {
    let refusal = Refusal::new(&codes::BAD_DATE);
    match (text.get(..19).and_then(DateTime::parse), Date::parse(text)) {
        (Some(moment), _) => refusal.fix(Fix::Bare(moment.to_string())),
        (None, Some(date)) => refusal.fix(Fix::Advice(format!("add the hour, such as {date}T14:00:00"))),
        (None, None) => refusal,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn date(text: &str) -> Date {
        Date::parse(text).unwrap()
    }

    /// Fixed day numbers of the proleptic Gregorian calendar, day 1 being 1 January of year 1 (Dershowitz and Reingold,
    /// Calendrical Calculations; from memory): the Unix epoch is day 719163, 12 November 1945 is day 710347.
    #[test]
    fn days_are_those_of_the_calendar() {
        assert_eq!(date("0001-01-01").days_to(date("1970-01-01")), 719_162);
        assert_eq!(date("0001-01-01").days_to(date("1945-11-12")), 710_346);
        assert_eq!(date("2026-11-25").days_to(date("2026-12-10")), 15);
        assert_eq!(date("2027-03-01").days_to(date("2027-02-01")), -28);
    }

    #[test]
    fn leap_years_follow_the_rule_of_four_hundred() {
        for (text, real) in [
            ("2024-02-29", true),
            ("2026-02-29", false),
            ("1900-02-29", false),
            ("2000-02-29", true),
            ("2026-13-01", false),
        ] {
            assert_eq!(Date::parse(text).is_some(), real, "{text}");
        }
    }

    #[test]
    fn adding_days_is_the_inverse_of_counting_them() {
        let first = date("0001-01-01");
        let last = date("9999-12-31");
        assert_eq!(first.plus_days(first.days_to(last)), Some(last));
        assert_eq!((last.plus_days(1), first.plus_days(-1)), (None, None));
        let mut before = date("1999-12-31");
        for days in 0..1500 {
            let day = date("2000-01-01").plus_days(days).unwrap();
            assert_eq!((before.days_to(day), Date::parse(&day.to_string())), (1, Some(day)));
            before = day;
        }
    }

    #[test]
    fn moments_are_read_to_the_second() {
        let moment = DateTime::parse("2026-12-10T14:05").unwrap();
        assert_eq!(moment.to_string(), "2026-12-10T14:05:00");
        assert_eq!((moment.date(), moment.hour(), moment.minute()), (date("2026-12-10"), 14, 5));
        for text in
            ["2026-12-10", "2026-12-10T24:00:00", "2026-12-10T14:00:00Z", "2026-12-10T1:00", "2026-12-1\u{e9}T10:00"]
        {
            assert_eq!(DateTime::parse(text), None, "{text}");
        }
    }
}
