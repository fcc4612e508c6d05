//! Pleats: how many go into a section, and the flat cloth they take.
//!
//! A pleat has a width, seen from the face, and a depth, folded under. Rules and names as in the
//! National Instructional Media Institute's *CITS Dress Making – Trade Practical*, vol. 2, pp. 202–205.

use super::fault::TextileFault;
use super::guard;
use super::rounded;
use crate::quantity::Length;

/// How the depth of a pleat stands to its width.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PleatKind {
    /// Depth less than width: the folds do not meet.
    Shallow,
    /// Depth as width: each fold just meets the next.
    Normal,
    /// Depth more than width: the folds lie over each other.
    Overlapping,
}

/// The trade's name for a pleat of this width and depth.
pub fn pleat_kind(width: Length, depth: Length) -> Result<PleatKind, TextileFault> {
    guard::positive("width", width)?;
    guard::positive("depth", depth)?;
    Ok(if width == depth {
        PleatKind::Normal
    } else if depth < width {
        PleatKind::Shallow
    } else {
        PleatKind::Overlapping
    })
}

/// Pleats in a section, to the nearest whole one, at least one: `section / width`.
pub fn pleat_count(section: Length, width: Length) -> Result<i64, TextileFault> {
    guard::positive("section", section)?;
    guard::positive("width", width)?;
    let nearest = rounded::nearest(section / width).map_err(|_| TextileFault::TooMany { counted: "pleats" })?;
    guard::count("pleats", nearest.max(1))?;
    Ok(nearest.max(1))
}

/// Width of each pleat when `count` fill the section: `section / count`.
pub fn pleat_width(section: Length, count: i64) -> Result<Length, TextileFault> {
    guard::positive("section", section)?;
    Ok(section / guard::count("count", count)?)
}

/// Flat length of a section with knife pleats: `section + 2 · depth · count`.
pub fn knife_pleats_flat(section: Length, depth: Length, count: i64) -> Result<Length, TextileFault> {
    pleated(section, depth, count, 2.0)
}

/// Flat length of a section with box or inverted pleats, two folds each: `section + 4 · depth · count`.
pub fn box_pleats_flat(section: Length, depth: Length, count: i64) -> Result<Length, TextileFault> {
    pleated(section, depth, count, 4.0)
}

/// Depth of each knife pleat when `flat` is laid into a section: `(flat - section) / (2 · count)`.
pub fn knife_pleat_depth(flat: Length, section: Length, count: i64) -> Result<Length, TextileFault> {
    Ok(pleat_take_up(flat, section, count)? / 2.0)
}

/// Cloth that each pleat takes up when `flat` is laid into a section: `(flat - section) / count`.
pub fn pleat_take_up(flat: Length, section: Length, count: i64) -> Result<Length, TextileFault> {
    guard::positive("flat", flat)?;
    guard::positive("section", section)?;
    guard::within("section", section, "flat", flat)?;
    Ok((flat - section).most(Length::ZERO) / guard::count("count", count)?)
}

fn pleated(section: Length, depth: Length, count: i64, times: f64) -> Result<Length, TextileFault> {
    guard::positive("section", section)?;
    guard::positive("depth", depth)?;
    guard::result(section + depth * times * guard::count("count", count)?)
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
    }

    #[test]
    fn the_nearest_count_and_at_least_one() {
        assert_eq!(pleat_count(cm(92.0), cm(5.0)), Ok(18));
        assert_eq!(pleat_count(cm(1.0), cm(5.0)), Ok(1));
        assert!(pleat_count(cm(1.0), cm(0.0)).is_err());
        assert!(pleat_count(cm(1e12), cm(1e-9)).is_err());
        assert!(knife_pleats_flat(cm(50.0), cm(2.5), 0).is_err());
        assert!(pleat_take_up(cm(50.0), cm(60.0), 3).is_err());
        assert_eq!(knife_pleat_depth(cm(150.0), cm(50.0), 20), Ok(cm(2.5)));
    }
}
