//! The day for the heads of pictures, from the system's clock.
//!
//! Never here: local time, which needs the rules of every place; the day is that of universal time and says so.

use crate::quantity::number;
use std::time::{SystemTime, UNIX_EPOCH};

const MONTHS: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const SECONDS: u64 = 86_400;

/// Today, as on a picture: `drawn 29 Nov 2026 UTC`.
#[expect(clippy::disallowed_methods, reason = "the edge of the program, where the clock is read once for all pictures")]
pub(super) fn in_words() -> String {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    day_in_words(i64::try_from(since.as_secs() / SECONDS).unwrap_or_default())
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
}
