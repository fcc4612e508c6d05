//! The files of the demo workshop, which ship in the program.
//!
//! Never here: what they mean; files on disk.

/// The rates of the demo workshop; the minutes of their operations are the built-in ones.
pub(super) const DEMO_RATES: &str = include_str!("../../recipes/demo/rates.csv");

/// Each file of the demo workshop, its name and its text: the story, the workshop's own files, and two lists to cut with
/// what they are cut from.
pub(crate) static DEMO_FILES: [(&str, &str); 11] = [
    ("settings.csv", include_str!("../../recipes/demo/settings.csv")),
    ("materials.csv", include_str!("../../recipes/demo/materials.csv")),
    ("stock.csv", include_str!("../../recipes/demo/stock.csv")),
    ("trials.csv", include_str!("../../recipes/demo/trials.csv")),
    ("rates.csv", DEMO_RATES),
    ("sizes.csv", include_str!("../../recipes/demo/sizes.csv")),
    ("pieces.csv", include_str!("../../recipes/demo/pieces.csv")),
    ("lengths.csv", include_str!("../../recipes/demo/lengths.csv")),
    ("strips.csv", include_str!("../../recipes/demo/strips.csv")),
    ("rolls.csv", include_str!("../../recipes/demo/rolls.csv")),
    ("SCENARIO.md", include_str!("../../recipes/demo/SCENARIO.md")),
];
