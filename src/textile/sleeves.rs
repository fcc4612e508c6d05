//! Sleeves made fuller by slashing a fitted pattern and spreading the slashes.

use super::error::TextileError;
use super::guard;
use crate::quantity::Length;

/// How far each slash is opened so that an edge gets a fullness: `(fullness - 1) · edge / slashes`.
pub fn slash_spread(edge: Length, fullness: f64, slashes: i64) -> Result<Length, TextileError> {
    guard::positive("edge", edge)?;
    let added = guard::finite_result(edge * (guard::fullness("fullness", fullness)? - 1.0))?;
    Ok(added / guard::count("slashes", slashes)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_slashes_together_add_the_fullness() {
        let cm = Length::centimetres;
        assert_eq!(slash_spread(cm(30.0), 1.6, 5), Ok(cm(3.6)));
        assert_eq!(slash_spread(cm(30.0), 1.0, 5), Ok(cm(0.0)));
        assert!(slash_spread(cm(30.0), 0.9, 5).is_err());
        assert!(slash_spread(cm(30.0), 1.6, 0).is_err());
    }
}
