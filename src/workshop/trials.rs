//! Gathering ratios from test strips sewn on this machine.
//!
//! Never here: ratios from books; and confidence limits, which need more strips than a mean does.

use super::names;
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::{Length, Style, number, rounding};
use std::fmt;

/// One measured test strip.
#[derive(Clone, Debug, PartialEq)]
pub struct TestStrip {
    /// When it was sewn, as written; nothing is computed from it.
    pub date: Option<String>,
    /// Length of one of its pieces along the gathering; for roll goods, the roll's width.
    pub piece: Option<Length>,
    /// How far each piece overlaps the next.
    pub overlap: Option<Length>,
    /// Number of pieces it is made of.
    pub pieces: Option<usize>,
    /// The length that really went under the foot, overlaps subtracted; for a later pass, the length that the pass
    /// before left.
    pub flat: Length,
    /// Its length after this pass.
    pub gathered: Length,
}

/// One pass through the machine, with its settings and the strips sewn with them.
#[derive(Clone, Debug, PartialEq)]
pub struct Pass {
    /// The machine.
    pub machine: Option<String>,
    /// The foot.
    pub foot: Option<String>,
    /// How the foot and the tension were set.
    pub setting: Option<String>,
    /// The stitch length.
    pub stitch: Option<Length>,
    /// The strips, in the order of the file; at least one.
    pub strips: Vec<TestStrip>,
}

/// A trial: one material gathered in one way, in one pass or several.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// Its unique name.
    pub name: String,
    /// The material's name, as in materials.csv.
    pub material: String,
    /// The lot that was tested.
    pub lot: Option<String>,
    /// The passes, first to last; at least one.
    pub passes: Vec<Pass>,
}

/// All trials of a workshop, in the order of its file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trials {
    /// The trials, with unique names.
    pub list: Vec<Trial>,
}

/// Why a number of pieces cannot be computed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StripError {
    /// The overlap takes up the whole piece.
    Overlap {
        /// The piece.
        piece: Length,
        /// The overlap.
        overlap: Length,
    },
    /// The trial does not say what its strips were made of.
    PieceNotKnown,
    /// More pieces than can be counted.
    TooMany,
}

impl fmt::Display for StripError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message(&Style::default()))
    }
}

impl std::error::Error for StripError {}

impl Diagnose for StripError {
    fn message(&self, style: &Style) -> String {
        match self {
            Self::Overlap { piece, overlap } => {
                let (piece, overlap) = (style.show((*piece).into()), style.show((*overlap).into()));
                format!("pieces of {piece} overlapped by {overlap} get no further")
            }
            Self::PieceNotKnown => "the trial does not say how long its pieces were".to_owned(),
            Self::TooMany => "that is more pieces than can be counted".to_owned(),
        }
    }

    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::Overlap { .. } | Self::TooMany => DiagnosticKind::OutOfRange,
            Self::PieceNotKnown => DiagnosticKind::Error,
        }
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::Overlap { .. } => Some("give an overlap that is shorter than the piece".to_owned()),
            Self::PieceNotKnown => Some("fill in “piece” and “overlap” in trials.csv, or give both".to_owned()),
            Self::TooMany => None,
        }
    }
}

/// The length under the foot of pieces laid end to end, each over the next: pieces × piece − (pieces − 1) × overlap;
/// zero for no pieces.
pub(crate) fn laid_flat(pieces: usize, piece: Length, overlap: Length) -> Length {
    let overlaps = number::from_count(pieces.saturating_sub(1));
    piece * number::from_count(pieces) - overlap * overlaps
}

/// The fewest pieces that are at least `flat` long when laid end to end, each over the next.
pub(crate) fn pieces_to_lay(flat: Length, piece: Length, overlap: Length) -> Result<i64, StripError> {
    let gain = piece - overlap;
    if !gain.is_positive() {
        return Err(StripError::Overlap { piece, overlap });
    }
    if !flat.is_positive() {
        return Ok(0);
    }
    let pieces = rounding::counted((flat - overlap) / gain).ok_or(StripError::TooMany)?;
    Ok(pieces.max(1))
}

impl TestStrip {
    /// Flat over gathered.
    pub fn ratio(&self) -> f64 {
        self.flat / self.gathered
    }
}

impl Pass {
    /// The arithmetic mean of the strips' own ratios; every strip counts the same, whatever its length. It is the line
    /// through the origin that fits flat against gathered length best if the error of a strip grows with its length.
    pub fn ratio(&self) -> f64 {
        let sum: f64 = self.strips.iter().map(TestStrip::ratio).sum();
        sum / number::from_count(self.strips.len())
    }
}

impl Trial {
    /// The mean ratio of one pass, counted from 1: see [`Pass::ratio`]. `None` for a pass that was not sewn.
    pub fn pass_ratio(&self, pass: usize) -> Option<f64> {
        self.passes.get(pass.checked_sub(1)?).map(Pass::ratio)
    }

    /// Flat over finished after all passes: the product of the passes' ratios.
    pub fn ratio(&self) -> f64 {
        self.passes.iter().map(Pass::ratio).product()
    }

    /// The flat length that must go under the foot for a finished length.
    pub fn flat(&self, finished: Length) -> Length {
        finished * self.ratio()
    }

    /// The finished length that a flat length becomes.
    pub fn finished(&self, flat: Length) -> Length {
        flat / self.ratio()
    }

    /// Length of one piece along the gathering, if a strip of the first pass has it.
    pub fn piece(&self) -> Option<Length> {
        self.passes.first()?.strips.iter().find_map(|strip| strip.piece)
    }

    /// Overlap of the pieces, if a strip of the first pass has it.
    pub fn overlap(&self) -> Option<Length> {
        self.passes.first()?.strips.iter().find_map(|strip| strip.overlap)
    }

    /// The number of pieces to cut for a finished length, with the tested piece length and overlap.
    pub fn pieces(&self, finished: Length) -> Result<i64, StripError> {
        let piece = self.piece().ok_or(StripError::PieceNotKnown)?;
        self.pieces_of(finished, piece, self.overlap().unwrap_or(Length::ZERO))
    }

    /// The number of pieces to cut for a finished length, with another piece length or overlap than was tested: the
    /// ratio is that of the foot alone, so it does not contain the tested overlaps.
    pub fn pieces_of(&self, finished: Length, piece: Length, overlap: Length) -> Result<i64, StripError> {
        pieces_to_lay(self.flat(finished), piece, overlap)
    }
}

impl Trials {
    /// The trial with this name, ignoring case and extra blanks.
    pub fn find(&self, name: &str) -> Option<&Trial> {
        let key = names::key(name);
        self.list.iter().find(|trial| names::key(&trial.name) == key)
    }

    /// The name nearest to a mistyped one.
    pub fn nearest(&self, name: &str) -> Option<&str> {
        names::nearest(name, self.list.iter().map(|trial| trial.name.as_str()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    fn trial(overlap: f64, passes: &[&[(f64, f64)]]) -> Trial {
        let pass = |strips: &&[(f64, f64)]| Pass {
            machine: None,
            foot: None,
            setting: None,
            stitch: None,
            strips: strips
                .iter()
                .map(|(flat, gathered)| TestStrip {
                    date: None,
                    piece: Some(inches(6.0)),
                    overlap: Some(inches(overlap)),
                    pieces: None,
                    flat: inches(*flat),
                    gathered: inches(*gathered),
                })
                .collect(),
        };
        let passes = passes.iter().map(pass).collect();
        Trial { name: "two passes".to_owned(), material: "tulle".to_owned(), lot: None, passes }
    }

    /// Ten strips of 6 in, gathered to 10 in and then to 2 in (common practice, no source); the counts
    /// for 24 in and 22 in of band are own arithmetic.
    #[test]
    fn strips_laid_edge_to_edge() {
        let trial = trial(0.0, &[&[(60.0, 10.0)], &[(10.0, 2.0)]]);
        assert_eq!(trial.pass_ratio(1), Some(6.0));
        assert_eq!(trial.pass_ratio(2), Some(5.0));
        assert_eq!((trial.pass_ratio(0), trial.pass_ratio(3)), (None, None));
        assert_eq!(trial.ratio().to_bits(), 30.0f64.to_bits());
        assert_eq!(trial.flat(inches(22.0)), inches(660.0));
        assert_eq!(trial.finished(inches(660.0)), inches(22.0));
        assert_eq!(trial.pieces(inches(24.0)), Ok(120));
        assert_eq!(trial.pieces(inches(22.0)), Ok(110));
        assert_eq!(trial.pieces_of(inches(22.0), inches(54.0), Length::ZERO), Ok(13));
    }

    /// The same strips with 1/2 in overlaps lie 55 1/2 in flat, so the foot's own ratio is 5.55 (own
    /// arithmetic).
    #[test]
    fn strips_laid_over_each_other() {
        assert_eq!(laid_flat(10, inches(6.0), inches(0.5)), inches(55.5));
        assert_eq!(laid_flat(0, inches(6.0), inches(0.5)), Length::ZERO);
        let trial = trial(0.5, &[&[(55.5, 10.0)], &[(10.0, 2.0)]]);
        assert!(trial.pass_ratio(1).is_some_and(|ratio| (ratio - 5.55).abs() < 1e-12));
        assert!((trial.ratio() - 27.75).abs() < 1e-12);
        assert_eq!(trial.flat(inches(22.0)), inches(610.5));
        assert_eq!(trial.pieces(inches(22.0)), Ok(111));
        assert_eq!(trial.pieces(inches(24.0)), Ok(121));
        assert_eq!(trial.pieces_of(inches(22.0), inches(54.0), inches(0.5)), Ok(12));
    }

    #[test]
    fn what_is_laid_is_never_short_and_never_one_too_many() {
        let overlap = inches(0.375);
        for eighths in 1..4000i32 {
            let flat = inches(f64::from(eighths) / 8.0);
            let pieces = pieces_to_lay(flat, inches(5.75), overlap).unwrap();
            let count = usize::try_from(pieces).unwrap();
            assert!(laid_flat(count, inches(5.75), overlap) >= flat, "{eighths} eighths");
            assert!(count == 1 || laid_flat(count - 1, inches(5.75), overlap) < flat, "{eighths} eighths");
        }
        assert_eq!(pieces_to_lay(Length::ZERO, inches(6.0), overlap), Ok(0));
        let error = pieces_to_lay(inches(10.0), inches(0.25), overlap).unwrap_err();
        assert_eq!(error.to_string(), "pieces of 1/4 in overlapped by 3/8 in get no further");
    }

    #[test]
    fn the_mean_counts_each_strip_alike() {
        // 6, 5 and 4 for strips of very unlike lengths: their mean, not the ratio of the sums.
        let trial = trial(0.0, &[&[(60.0, 10.0), (20.0, 4.0), (8.0, 2.0)]]);
        assert_eq!(trial.pass_ratio(1), Some(5.0));
    }
}
