//! Flags on a tape, and triangles cut from a strip.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// Tape for a row of flags: `flags · width + (flags - 1) · gap + 2 · end`.
pub fn bunting_tape(flags: i64, width: Length, gap: Length, end: Length) -> Result<Length, TextileError> {
    let flags = guard::count("flags", flags)?;
    guard::positive("width", width)?;
    let gaps = guard::not_negative("gap", gap)? * (flags - 1.0);
    guard::finite_result(width * flags + gaps + guard::not_negative("end", end)? * 2.0)
}

/// Triangles as high as the strip, every other one upside down: `⌊(strip - width) / (width / 2)⌋ + 1`; zero if the
/// strip is shorter than one.
pub fn triangles_from_strip(strip: Length, width: Length) -> Result<i64, TextileError> {
    guard::positive("strip", strip)?;
    guard::positive("width", width)?;
    let further = guard::count_down("triangles", (strip - width) / (width / 2.0))?;
    Ok((further + 1).max(0))
}

/// Strips cut across the cloth, each as high as a flag, for `flags` flags laid head to foot:
/// `⌈flags / triangles_from_strip(usable_width, width)⌉`.
pub fn bunting_rows(flags: i64, usable_width: Length, width: Length) -> Result<i64, TextileError> {
    guard::count("flags", flags)?;
    guard::positive("usable_width", usable_width)?;
    let in_row = triangles_from_strip(usable_width, width)?;
    if in_row == 0 {
        let (given, limit) = (width.into(), usable_width.into());
        return Err(TextileError::TooLong { argument: "width", given, than: "usable_width", limit });
    }
    Ok(flags / in_row + i64::from(flags % in_row != 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn flags_and_triangles() {
        let inches = Length::inches;
        assert_eq!(bunting_tape(12, inches(6.0), inches(1.0), inches(18.0)), Ok(inches(119.0)));
        assert_eq!(bunting_tape(1, inches(6.0), inches(1.0), inches(0.0)), Ok(inches(6.0)));
        assert_eq!(triangles_from_strip(inches(42.0), inches(8.0)), Ok(9));
        assert_eq!(triangles_from_strip(inches(8.0), inches(8.0)), Ok(1));
        assert_eq!(triangles_from_strip(inches(7.0), inches(8.0)), Ok(0));
        assert_eq!(triangles_from_strip(inches(1.0), inches(8.0)), Ok(0));
        assert!(triangles_from_strip(inches(42.0), inches(0.0)).is_err());
        assert_eq!(bunting_rows(9, inches(42.0), inches(8.0)), Ok(1));
        assert_eq!(bunting_rows(10, inches(42.0), inches(8.0)), Ok(2));
        let error = bunting_rows(1, inches(7.0), inches(8.0)).unwrap_err();
        assert_eq!(error.to_string(), "width is 8 in; it cannot be more than usable width, 7 in");
    }
}
