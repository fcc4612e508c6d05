//! Pleats: how many go into a section, and the flat cloth they take.
//!
//! A pleat has a width, seen from the face, and a depth, folded under. Rules and names as in the
//! course book, practical, vol. 2 \[11\], pp. 202–205.

use super::error::TextileError;
use super::guard;
use super::rounded;
use crate::quantity::Length;
use std::cmp::Ordering;

/// The depth of a pleat relative to its width.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PleatKind {
    /// Depth less than width: the folds do not meet.
    Shallow,
    /// Depth equal to width: each fold just meets the next.
    Normal,
    /// Depth more than width: the folds lie over each other.
    Overlapping,
}

/// The trade's name for a pleat of this width and depth.
pub fn pleat_kind(width: Length, depth: Length) -> Result<PleatKind, TextileError> {
    guard::positive("width", width)?;
    guard::positive("depth", depth)?;
    Ok(match depth.partial_cmp(&width) {
        Some(Ordering::Less) => PleatKind::Shallow,
        Some(Ordering::Greater) => PleatKind::Overlapping,
        Some(Ordering::Equal) | None => PleatKind::Normal,
    })
}

/// Pleats in a section, to the nearest whole one, at least one: `section / width`.
pub fn pleat_count(section: Length, width: Length) -> Result<i64, TextileError> {
    guard::positive("section", section)?;
    guard::positive("width", width)?;
    let nearest = rounded::nearest(section / width).map_err(|_| TextileError::TooMany { counted: "pleats" })?;
    let count = nearest.max(1);
    guard::count("pleats", count)?;
    Ok(count)
}

/// Width of each pleat when `count` fill the section: `section / count`.
pub fn pleat_width(section: Length, count: i64) -> Result<Length, TextileError> {
    guard::positive("section", section)?;
    Ok(section / guard::count("count", count)?)
}

/// Flat length of a section with knife pleats: `section + 2 · depth · count`.
pub fn knife_pleats_flat(section: Length, depth: Length, count: i64) -> Result<Length, TextileError> {
    pleated(section, depth, count, 2.0)
}

/// Flat length of a section with box or inverted pleats, two folds each: `section + 4 · depth · count`.
pub fn box_pleats_flat(section: Length, depth: Length, count: i64) -> Result<Length, TextileError> {
    pleated(section, depth, count, 4.0)
}

/// Depth of each knife pleat when `flat` is laid into a section: `(flat - section) / (2 · count)`.
pub fn knife_pleat_depth(flat: Length, section: Length, count: i64) -> Result<Length, TextileError> {
    Ok(pleat_take_up(flat, section, count)? / 2.0)
}

/// Cloth that each pleat takes up when `flat` is laid into a section: `(flat - section) / count`.
pub fn pleat_take_up(flat: Length, section: Length, count: i64) -> Result<Length, TextileError> {
    guard::positive("flat", flat)?;
    guard::positive("section", section)?;
    guard::within("section", section, "flat", flat)?;
    Ok((flat - section).most(Length::ZERO) / guard::count("count", count)?)
}

/// Depth of each fold of a box or inverted pleat when `flat` is laid into a section: `(flat - section) / (4 · count)`.
pub fn box_pleat_depth(flat: Length, section: Length, count: i64) -> Result<Length, TextileError> {
    Ok(pleat_take_up(flat, section, count)? / 4.0)
}

/// Section that a flat length is laid into by knife pleats: `flat - 2 · depth · count`.
pub fn knife_pleated_section(flat: Length, depth: Length, count: i64) -> Result<Length, TextileError> {
    section_of(flat, depth, count, 2.0)
}

/// Section that a flat length is laid into by box or inverted pleats: `flat - 4 · depth · count`.
pub fn box_pleated_section(flat: Length, depth: Length, count: i64) -> Result<Length, TextileError> {
    section_of(flat, depth, count, 4.0)
}

/// Whole knife pleats that a flat length can be laid in: `⌊flat / (width + 2 · depth)⌋`. The largest section that
/// they cover is that count times the width.
pub fn knife_pleats_in(flat: Length, width: Length, depth: Length) -> Result<i64, TextileError> {
    pleats_in(flat, width, depth, 2.0)
}

/// Whole box or inverted pleats that a flat length can be laid in: `⌊flat / (width + 4 · depth)⌋`.
pub fn box_pleats_in(flat: Length, width: Length, depth: Length) -> Result<i64, TextileError> {
    pleats_in(flat, width, depth, 4.0)
}

/// Cloth that each of the other pleats takes up if one is fixed, such as one that takes the same at the waist as at
/// the hem: `(flat - section - fixed) / others`.
pub fn pleat_take_up_of_rest(
    flat: Length,
    section: Length,
    fixed: Length,
    others: i64,
) -> Result<Length, TextileError> {
    let taken = pleat_take_up(flat, section, 1)?;
    guard::not_negative("fixed", fixed)?;
    guard::within("fixed", fixed, "all_the_pleats", taken)?;
    Ok((taken - fixed).most(Length::ZERO) / guard::count("others", others)?)
}

/// Cloth that an inverted pleat let into a seam adds to the two edges of that seam together, `4 · width + 2 · seam`:
/// one edge takes a width and a seam more, the other three widths and a seam.
pub fn seam_pleat_added(width: Length, seam: Length) -> Result<Length, TextileError> {
    guard::positive("width", width)?;
    guard::finite_result(width * 4.0 + guard::not_negative("seam", seam)? * 2.0)
}

/// Strip for a block of pleats set in between two edges: `8 · width + 2 · seam`.
pub fn pleat_block_strip(width: Length, seam: Length) -> Result<Length, TextileError> {
    guard::positive("width", width)?;
    guard::finite_result(width * 8.0 + guard::not_negative("seam", seam)? * 2.0)
}

fn section_of(flat: Length, depth: Length, count: i64, times: f64) -> Result<Length, TextileError> {
    guard::positive("depth", depth)?;
    let folded = guard::finite_result(depth * times * guard::count("count", count)?)?;
    guard::remaining(("flat", flat), ("folded_under", folded), 1)
}

fn pleats_in(flat: Length, width: Length, depth: Length, times: f64) -> Result<i64, TextileError> {
    guard::positive("flat", flat)?;
    guard::positive("width", width)?;
    guard::positive("depth", depth)?;
    let one = guard::finite_result(width + depth * times)?;
    guard::within("one_pleat", one, "flat", flat)?;
    guard::count_down("pleats", flat / one)
}

fn pleated(section: Length, depth: Length, count: i64, times: f64) -> Result<Length, TextileError> {
    guard::positive("section", section)?;
    guard::positive("depth", depth)?;
    guard::finite_result(section + depth * times * guard::count("count", count)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cm(value: f64) -> Length {
        Length::centimetres(value)
    }

    #[test]
    fn normal_knife_pleats_take_three_times_the_section() {
        assert_eq!(pleat_count(cm(50.0), cm(2.5)), Ok(20));
        assert_eq!(knife_pleats_flat(cm(50.0), cm(2.5), 20), Ok(cm(150.0)));
        assert_eq!(pleat_kind(cm(2.5), cm(2.5)), Ok(PleatKind::Normal));
        assert_eq!(pleat_kind(cm(5.0), cm(4.0)), Ok(PleatKind::Shallow));
        assert_eq!(pleat_kind(cm(4.0), cm(4.2)), Ok(PleatKind::Overlapping));
        assert_eq!(pleat_kind(cm(0.3), cm(0.1) + cm(0.2)), Ok(PleatKind::Normal));
        assert!(pleat_kind(cm(0.0), cm(4.2)).is_err() && pleat_kind(cm(4.0), cm(0.0)).is_err());
    }

    #[test]
    fn a_flat_length_is_laid_into_the_section_it_came_from() {
        assert_eq!(knife_pleats_in(cm(150.0), cm(2.5), cm(2.5)), Ok(20));
        assert_eq!(knife_pleats_in(cm(149.0), cm(2.5), cm(2.5)), Ok(19));
        assert_eq!(box_pleats_in(cm(90.0), cm(3.0), cm(1.5)), Ok(10));
        assert_eq!(knife_pleated_section(cm(236.0), cm(4.0), 18), Ok(cm(92.0)));
        assert_eq!(box_pleated_section(cm(108.0), cm(12.0), 1), Ok(cm(60.0)));
        assert_eq!(box_pleat_depth(cm(108.0), cm(60.0), 1), Ok(cm(12.0)));
        assert!(knife_pleats_in(cm(7.0), cm(2.5), cm(2.5)).is_err());
        assert_eq!(
            knife_pleated_section(cm(100.0), cm(5.0), 10).unwrap_err().to_string(),
            "folded under is 100 cm; it must be less than flat, 100 cm"
        );
    }

    #[test]
    fn pleats_let_into_seams() {
        let inches = Length::inches;
        assert_eq!(seam_pleat_added(inches(2.0), inches(0.5)), Ok(inches(9.0)));
        assert_eq!(pleat_block_strip(inches(1.5), inches(0.5)), Ok(inches(13.0)));
        assert_eq!(pleat_take_up_of_rest(inches(44.0), inches(14.0), inches(2.0), 7), Ok(inches(4.0)));
        assert!(pleat_take_up_of_rest(inches(44.0), inches(14.0), inches(31.0), 7).is_err());
    }

    #[test]
    fn the_nearest_count_and_at_least_one() {
        assert_eq!(pleat_count(cm(92.0), cm(5.0)), Ok(18));
        assert_eq!(pleat_count(cm(1.0), cm(5.0)), Ok(1));
        assert!(pleat_count(cm(1.0), cm(0.0)).is_err());
        assert!(pleat_count(cm(1e12), cm(1e-9)).is_err());
        assert!(pleat_count(cm(1e8), cm(1.0)).is_err(), "more than can be meant");
        assert!(knife_pleats_flat(cm(50.0), cm(2.5), 0).is_err());
        assert!(pleat_take_up(cm(50.0), cm(60.0), 3).is_err());
        assert_eq!(knife_pleat_depth(cm(150.0), cm(50.0), 20), Ok(cm(2.5)));
    }
}
