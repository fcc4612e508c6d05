//! Circular flounces: rings cut open and joined, straight at the seam and rippling at the hem.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;
use std::f64::consts::PI;

/// Rings whose inner edges make up `edge`: `⌈edge / (2 π · radius - 2 · allowance)⌉`; each ring loses an allowance at
/// both its ends. `radius` is that of the seam line; the neck allowance inside it is cut as well.
pub fn flounce_rings(edge: Length, radius: Length, allowance: Length) -> Result<i64, TextileError> {
    guard::positive("edge", edge)?;
    guard::counted("rings", edge / flounce_seam(radius, allowance)?, 1)
}

/// How much longer the hem of a ring is than its seam: `(radius + depth) / radius`.
pub fn flounce_sweep(radius: Length, depth: Length) -> Result<f64, TextileError> {
    guard::positive("radius", radius)?;
    guard::positive("depth", depth)?;
    guard::finite_result((radius + depth) / radius)
}

/// Radius to cut the inner edge at: `radius - allowance`, as the allowance lies inside the seam line.
pub fn flounce_cut_radius(radius: Length, allowance: Length) -> Result<Length, TextileError> {
    guard::remaining(("radius", radius), ("allowance", allowance), 1)
}

/// Seam line that one ring gives once it is cut open and joined: `2 π · radius - 2 · allowance`.
pub fn flounce_seam(radius: Length, allowance: Length) -> Result<Length, TextileError> {
    guard::positive("radius", radius)?;
    guard::remaining(("inner_edge", guard::finite_result(radius * (2.0 * PI))?), ("allowance", allowance), 2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rings_lose_their_joins() {
        let cm = Length::centimetres;
        assert_eq!(flounce_rings(cm(90.0), cm(7.0), cm(1.0)), Ok(3));
        assert_eq!(flounce_rings(cm(83.9), cm(7.0), cm(1.0)), Ok(2));
        assert!((flounce_sweep(cm(7.0), cm(8.0)).unwrap() - 15.0 / 7.0).abs() < 1e-12);
        assert!((flounce_seam(cm(7.0), cm(1.0)).unwrap() / cm(1.0) - 41.982).abs() < 5e-4);
        assert_eq!(flounce_cut_radius(cm(7.0), cm(1.0)), Ok(cm(6.0)));
        assert!(flounce_cut_radius(cm(1.0), cm(1.0)).is_err());
        assert!(flounce_rings(cm(90.0), cm(1.0), cm(4.0)).is_err());
        assert!(flounce_sweep(cm(0.0), cm(8.0)).is_err());
    }
}
