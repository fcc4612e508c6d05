//! The day for the heads of pictures, from the system's clock.
//!
//! Never here: local time, which needs the rules of every place; the day is that of universal time and says so.

use crate::quantity::number;
use std::time::{SystemTime, UNIX_EPOCH};

const MONTHS: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const SECONDS: u64 = 24 * 60 * 60;

/// Today, as on a picture: `drawn 29 Nov 2026 UTC`.
#[expect(clippy::disallowed_methods, reason = "the edge of the program, where the clock is read once for all pictures")]
pub(super) fn in_words() -> String {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    day_in_words(days(since.as_secs()))
}

/// Today in figures, as ISO 8601 writes it: `2026-11-29`. The day is that of universal time.
#[expect(clippy::disallowed_methods, reason = "the edge of the program: the day on which a recipe was accepted")]
pub(super) fn in_figures() -> String {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    let (year, month, day) = date(days(since.as_secs()));
    format!("{year:04}-{month:02}-{day:02}")
}

/// Whether a word is a day in figures.
pub(super) fn is_day(word: &str) -> bool {
    word.len() == 10
        && word.bytes().enumerate().all(|(at, byte)| match at {
            4 | 7 => byte == b'-',
            _ => byte.is_ascii_digit(),
        })
}

/// The whole days in so many seconds.
fn days(seconds: u64) -> i64 {
    i64::try_from(seconds / SECONDS).unwrap_or_default()
}

fn day_in_words(days: i64) -> String {
    let (year, month, day) = date(days);
    let month = number::count(month - 1).and_then(|place| MONTHS.get(place)).copied().unwrap_or_default();
    format!("drawn {day} {month} {year} UTC")
}

/// Year, month and day of the Gregorian calendar, so many days after the first of January 1970. Years are counted from
/// March, so that the leap day ends one; 400 of them have 146 097 days.
fn date(days: i64) -> (i64, i64, i64) {
    let from_march = days + 719_468;
    let (era, in_era) = (from_march.div_euclid(146_097), from_march.rem_euclid(146_097));
    let year = (in_era - in_era / 1_460 + in_era / 36_524 - in_era / 146_096) / 365;
    let in_year = in_era - (365 * year + year / 4 - year / 100);
    let month = (5 * in_year + 2) / 153;
    let day = in_year - (153 * month + 2) / 5 + 1;
    let month = if month < 10 { month + 3 } else { month - 9 };
    (year + era * 400 + i64::from(month <= 2), month, day)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By counting days: 1970 to 1999 are 30 years with 7 leap days, 10 957 days; January and February 2000 have 60.
    #[test]
    fn days_are_counted_with_their_leap_days() {
        assert_eq!(date(0), (1970, 1, 1));
        assert_eq!(date(10_957), (2000, 1, 1));
        assert_eq!(date(10_957 + 59), (2000, 2, 29));
        assert_eq!(date(10_957 + 60), (2000, 3, 1));
        // 2000 to 2025 are 26 years with 7 leap days, and the 29th of November is day 333 of 2026.
        assert_eq!(day_in_words(10_957 + 26 * 365 + 7 + 332), "drawn 29 Nov 2026 UTC");
    }

    /// The rule of the Gregorian calendar, a day at a time: every fourth year has a leap day, of full centuries every
    /// fourth. 1600 to 1969 are 370 years with 90 leap days.
    #[test]
    fn every_day_of_nine_centuries_follows_the_one_before() {
        let is_leap = |year: i64| year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let (mut year, mut month, mut day) = (1600, 1, 1);
        for number in -(370 * 365 + 90)..10_957 + 500 * 365 + 122 {
            assert_eq!(date(number), (year, month, day), "{number}");
            let long = match month {
                2 if is_leap(year) => 29,
                2 => 28,
                4 | 6 | 9 | 11 => 30,
                _ => 31,
            };
            (year, month, day) = match (month, day) {
                (12, 31) => (year + 1, 1, 1),
                (_, last) if last == long => (year, month + 1, 1),
                _ => (year, month, day + 1),
            };
        }
        assert_eq!((year, month, day), (2500, 1, 1));
    }

    #[test]
    fn a_day_ends_with_its_last_second() {
        assert_eq!([0, 86_399, 86_400, 20_000 * 86_400 - 1].map(days), [0, 0, 1, 19_999]);
        assert_eq!(day_in_words(30), "drawn 31 Jan 1970 UTC");
        assert_eq!(day_in_words(31), "drawn 1 Feb 1970 UTC");
        assert_eq!(day_in_words(364), "drawn 31 Dec 1970 UTC");
        // The clock of the machine that runs this is past the day that this was written on.
        let words = in_words();
        assert!(words.starts_with("drawn ") && words.ends_with(" UTC"), "{words}");
        let year: i64 = words.split(' ').nth(3).unwrap().parse().unwrap();
        assert!(year >= 2026, "{words}");
    }
}
