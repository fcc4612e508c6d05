//! Sewing thread: how much a seam of a stitch class takes, and where it sits.
//!
//! Stitch classes are those of ISO 4915. The ratios are makers' round figures at one density and thickness; makers'
//! tables differ by half, so a ratio measured on the shop's own machine comes first ([`thread_at`]).

use super::error::TextileError;
use super::guard;
use crate::quantity::{Length, Quantity};

/// How a figure of the table is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Provenance {
    /// Read in its source.
    Read,
    /// Remembered, to be measured or looked up before it is trusted.
    FromMemory,
    /// The trade's habit, without a source.
    CommonPractice,
}

/// One stitch class: its thread for a unit of seam, and the share of it on the needles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StitchClass {
    /// Number in ISO 4915.
    pub number: &'static str,
    /// Its name at the machine.
    pub name: &'static str,
    /// Thread over seam.
    pub ratio: f64,
    /// Number of needles.
    pub needles: i64,
    /// Share of the thread on the needles together; the rest is in the bobbin or on the loopers.
    pub needle_share: f64,
    /// The source of the ratio.
    pub source: &'static str,
    /// How the ratio is known.
    pub provenance: Provenance,
    /// How the needles' share is known.
    pub share_provenance: Provenance,
}

/// Thread for a seam, in all and by place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreadUse {
    /// In all.
    pub total: Length,
    /// On the needles together.
    pub needles: Length,
    /// In the bobbin or on the loopers.
    pub under: Length,
}

const COPY: &str = "published table [15], second-hand";

const fn class(number: &'static str, name: &'static str, ratio: f64, needles: i64, needle_share: f64) -> StitchClass {
    let (provenance, share_provenance) = (Provenance::Read, Provenance::FromMemory);
    StitchClass { number, name, ratio, needles, needle_share, source: COPY, provenance, share_provenance }
}

/// The stitch classes known, in the order of their numbers. Shares from memory are those of a
/// published table \[16\], at about 7 stitches to the centimetre.
pub const STITCH_CLASSES: [StitchClass; 12] = [
    // With a single thread there is nothing to share.
    StitchClass { share_provenance: Provenance::CommonPractice, ..class("101", "chain stitch", 4.0, 1, 1.0) },
    StitchClass {
        source: "published table [17]",
        share_provenance: Provenance::Read,
        ..class("301", "lockstitch", 2.5, 1, 0.5)
    },
    class("304", "zigzag", 7.0, 1, 0.5),
    class("401", "two-thread chain stitch", 5.5, 1, 0.25),
    class("406", "two-needle cover stitch", 18.0, 2, 0.3),
    class("503", "two-thread overedge", 12.0, 1, 0.55),
    class("504", "three-thread overedge", 14.0, 1, 0.2),
    class("512", "four-thread mock safety stitch", 18.0, 2, 0.25),
    StitchClass {
        source: "common practice, no source: reckoned as 512",
        provenance: Provenance::CommonPractice,
        share_provenance: Provenance::CommonPractice,
        ..class("514", "four-thread overedge", 18.0, 2, 0.25)
    },
    class("516", "five-thread safety stitch", 20.0, 2, 0.2),
    class("602", "cover stitch", 25.0, 2, 0.2),
    class("605", "three-needle cover stitch", 28.0, 3, 0.3),
];

/// Finds a stitch class by its number.
pub fn stitch_class(number: &str) -> Result<StitchClass, TextileError> {
    STITCH_CLASSES.into_iter().find(|class| class.number == number.trim()).ok_or_else(|| TextileError::UnknownWord {
        argument: "stitch_class",
        given: number.to_owned(),
        known: STITCH_CLASSES.into_iter().map(|class| class.number).collect(),
    })
}

/// Thread for a seam by the table's ratio: `seam · ratio · (1 + waste)`, split by place.
pub fn thread_for(stitch_class: &str, seam: Length, waste: f64) -> Result<ThreadUse, TextileError> {
    let class = self::stitch_class(stitch_class)?;
    thread_at(class.ratio, class.needle_share, seam, waste)
}

/// Thread for a seam by the shop's own ratio: `seam · ratio · (1 + waste)`, split by place.
pub fn thread_at(ratio: f64, needle_share: f64, seam: Length, waste: f64) -> Result<ThreadUse, TextileError> {
    guard::positive("ratio", ratio)?;
    guard::not_negative("seam", seam)?;
    if guard::not_negative("needle_share", needle_share)? > 1.0 {
        let (given, most) = (Quantity::number(needle_share), Quantity::number(1.0));
        return Err(TextileError::TooLarge { argument: "needle_share", given, most });
    }
    let total = guard::finite_result(seam * ratio * (1.0 + guard::not_negative("waste", waste)?))?;
    Ok(ThreadUse { total, needles: total * needle_share, under: total * (1.0 - needle_share) })
}

/// Thread over seam, from the thread pulled out of a seam: `(needle + under) / seam`.
pub fn thread_ratio(seam: Length, needle: Length, under: Length) -> Result<f64, TextileError> {
    guard::positive("seam", seam)?;
    let drawn = guard::positive("needle", needle)? + guard::not_negative("under", under)?;
    guard::finite_result(drawn / seam)
}

/// Thread over seam of a lockstitch (301), by geometry: `2 + 2 · thickness / stitch`, half of it on the needle.
pub fn lockstitch_ratio(stitch: Length, thickness: Length) -> Result<f64, TextileError> {
    geometry(2.0, 2.0, stitch, thickness)
}

/// Thread over seam of a single chain stitch (101), by geometry: `3 + 2 · thickness / stitch`.
pub fn chain_stitch_ratio(stitch: Length, thickness: Length) -> Result<f64, TextileError> {
    geometry(3.0, 2.0, stitch, thickness)
}

/// Thread over seam of a two-thread chain stitch (401), by geometry: `4 + 2 · thickness / stitch`.
pub fn two_thread_chain_ratio(stitch: Length, thickness: Length) -> Result<f64, TextileError> {
    geometry(4.0, 2.0, stitch, thickness)
}

/// Thread over seam of a three-thread overedge (504), by geometry:
/// `along + 4 · (width + thickness) / stitch`, where sources put `along` at 3 to 5.
pub fn overedge_ratio(stitch: Length, width: Length, thickness: Length, along: f64) -> Result<f64, TextileError> {
    guard::positive("width", width)?;
    guard::not_negative("thickness", thickness)?;
    geometry(guard::positive("along", along)?, 4.0, stitch, width + thickness)
}

/// Thread over seam of a four-thread overedge (514), by geometry:
/// `5 + (4 · width + 6 · thickness) / stitch`.
pub fn four_thread_overedge_ratio(stitch: Length, width: Length, thickness: Length) -> Result<f64, TextileError> {
    guard::positive("width", width)?;
    guard::not_negative("thickness", thickness)?;
    geometry(5.0, 2.0, stitch, width * 2.0 + thickness * 3.0)
}

/// Thread that runs along the seam, and thread that goes through or round it once a stitch.
fn geometry(along: f64, times: f64, stitch: Length, across: Length) -> Result<f64, TextileError> {
    guard::positive("stitch", stitch)?;
    guard::not_negative("thickness", across)?;
    guard::finite_result(along + across * times / stitch)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_are_in_order_and_shares_are_shares() {
        assert!(STITCH_CLASSES.is_sorted_by_key(|class| class.number));
        for class in STITCH_CLASSES {
            assert!(class.ratio > 1.0 && class.needle_share > 0.0 && class.needle_share <= 1.0, "{}", class.number);
            let used = thread_for(class.number, Length::inches(100.0), 0.15).unwrap();
            assert_eq!(used.needles + used.under, used.total);
        }
    }

    /// A needle for each row that is seen from the face: trade usage, from memory.
    #[test]
    fn each_class_has_its_needles() {
        for class in STITCH_CLASSES {
            let wanted = match class.number {
                "406" | "512" | "514" | "516" | "602" => 2,
                "605" => 3,
                _ => 1,
            };
            assert_eq!(class.needles, wanted, "{}", class.number);
        }
    }

    #[test]
    fn an_unknown_class_names_those_known() {
        let error = thread_for("999", Length::inches(1.0), 0.1).unwrap_err();
        assert!(error.to_string().starts_with("stitch class is “999”; it must be one of 101, 301, 304"));
        assert!(thread_for("301", Length::inches(-1.0), 0.1).is_err());
        assert_eq!(stitch_class(" 301 ").map(|class| class.number), Ok("301"));
        assert!(thread_for("301", Length::inches(1.0), f64::NAN).is_err());
        assert!(thread_at(0.0, 0.5, Length::inches(1.0), 0.0).is_err());
        let error = thread_at(2.5, 1.5, Length::inches(1.0), 0.0).unwrap_err();
        assert_eq!(error.to_string(), "needle share is 1.5; the most is 1");
        assert!(lockstitch_ratio(Length::ZERO, Length::inches(0.01)).is_err());
    }
}
