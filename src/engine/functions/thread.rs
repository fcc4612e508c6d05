//! Sewing thread: how much a seam takes, in all, on the needles and under the cloth.

use super::answer::{measure, ratio, share_on_top_or, share_or_whole};
use crate::engine::function::{Arguments, Example, Formula, Function, LENGTH, Parameter, ParameterKind};
use crate::engine::script_error::ScriptError;
use crate::quantity::Style;
use crate::textile::TextileError;
use crate::textile::thread::{self, STITCH_CLASSES, StitchClass, ThreadUse};

const TOPIC: &str = "thread";

const TABLE: &str = "published table [16], from memory; 301: published table [17]";
const PULLED_OUT: &str = "worked example [18]";
const BY_GEOMETRY: &str = "published articles [19], which differ on the overedge";

/// Default share added for ends and breaks.
const USUAL_WASTE: f64 = 0.15;

const CLASSES: [&str; STITCH_CLASSES.len()] = numbers(&STITCH_CLASSES);

const CLASS: Parameter = Parameter::new("stitch_class", ParameterKind::OneOf(&CLASSES));
const RATIO: Parameter = Parameter::new("ratio", ParameterKind::Number);
const NEEDLE_SHARE: Parameter = Parameter::new("needle_share", ParameterKind::Share);
const SEAM: Parameter = Parameter::new("seam", LENGTH);
const WASTE: Parameter = Parameter::with_default("waste", ParameterKind::Share, "15 %");
const STITCH: Parameter = Parameter::new("stitch", LENGTH);
const THICKNESS: Parameter = Parameter::new("thickness", LENGTH);

/// The functions of this topic.
pub(super) const FUNCTIONS: &[Function] = &[
    Function {
        name: "thread_for",
        topic: TOPIC,
        parameters: &[CLASS, SEAM, WASTE],
        result: LENGTH,
        formula: Formula::Words("seam * the ratio of the class * (1 + waste)"),
        summary: "Thread in all for a seam of a stitch class, waste included.",
        examples: &[
            Example { typed: "thread_for(\"301\", 10 yd)", shown: "28 3/4 yd" },
            Example { typed: "thread_for(\"504\", 4 m, 0 %)", shown: "56 m" },
        ],
        source: TABLE,
        code: |a, s| measure(a, s, by_class(a, s)?.map(|used| used.total)),
    },
    Function {
        name: "needle_thread",
        topic: TOPIC,
        parameters: &[CLASS, SEAM, WASTE],
        result: LENGTH,
        formula: Formula::Words("thread_for times the needles' share of the class"),
        summary: "Thread on the needles together for a seam of a stitch class, waste included.",
        examples: &[
            Example { typed: "needle_thread(\"401\", 220 cm, 0 %)", shown: "302.5 cm" },
            Example { typed: "needle_thread(\"504\", 10 yd, 0 %)", shown: "28 yd" },
        ],
        source: TABLE,
        code: |a, s| measure(a, s, by_class(a, s)?.map(|used| used.needles)),
    },
    Function {
        name: "under_thread",
        topic: TOPIC,
        parameters: &[CLASS, SEAM, WASTE],
        result: LENGTH,
        formula: Formula::Words("thread_for less needle_thread"),
        summary: "Thread in the bobbin, or on the loopers together, for a seam of a stitch class, waste included.",
        examples: &[
            Example { typed: "under_thread(\"401\", 220 cm, 0 %)", shown: "907.5 cm" },
            Example { typed: "under_thread(\"504\", 10 yd, 0 %)", shown: "112 yd" },
        ],
        source: TABLE,
        code: |a, s| measure(a, s, by_class(a, s)?.map(|used| used.under)),
    },
    Function {
        name: "thread_at",
        topic: TOPIC,
        parameters: &[RATIO, SEAM, WASTE],
        result: LENGTH,
        formula: Formula::Sum("seam * ratio * (1 + waste)"),
        summary: "Thread in all for a seam by a ratio measured on the shop's own machine, waste included.",
        examples: &[
            Example { typed: "thread_at(3, 2 yd, 25 %)", shown: "7 1/2 yd" },
            Example { typed: "thread_at(5.5, 220 cm, 0 %)", shown: "1210 cm" },
        ],
        source: PULLED_OUT,
        code: |a, s| {
            // The split between needles and bobbin does not change the total.
            let used = thread::thread_at(a.number(0)?, 1.0, a.length(1)?, share_on_top_or(a, 2, s, USUAL_WASTE)?);
            measure(a, s, used.map(|used| used.total))
        },
    },
    Function {
        name: "needle_thread_at",
        topic: TOPIC,
        parameters: &[RATIO, NEEDLE_SHARE, SEAM, WASTE],
        result: LENGTH,
        formula: Formula::Sum("seam * ratio * (1 + waste) * needle_share"),
        summary: "Thread on the needles for a seam, by a ratio and a needle share of the shop's own.",
        examples: &[
            Example { typed: "needle_thread_at(5.5, 25 %, 220 cm, 0 %)", shown: "302.5 cm" },
            Example { typed: "needle_thread_at(3, 50 %, 2 yd, 25 %)", shown: "3 3/4 yd" },
        ],
        source: PULLED_OUT,
        code: |a, s| measure(a, s, by_ratio(a, s)?.map(|used| used.needles)),
    },
    Function {
        name: "under_thread_at",
        topic: TOPIC,
        parameters: &[RATIO, NEEDLE_SHARE, SEAM, WASTE],
        result: LENGTH,
        formula: Formula::Sum("seam * ratio * (1 + waste) * (1 - needle_share)"),
        summary: "Thread in the bobbin or on the loopers for a seam, by a ratio and a needle share of the shop's own.",
        examples: &[
            Example { typed: "under_thread_at(5.5, 25 %, 220 cm, 0 %)", shown: "907.5 cm" },
            Example { typed: "under_thread_at(3, 50 %, 2 yd, 25 %)", shown: "3 3/4 yd" },
        ],
        source: PULLED_OUT,
        code: |a, s| measure(a, s, by_ratio(a, s)?.map(|used| used.under)),
    },
    Function {
        name: "thread_ratio",
        topic: TOPIC,
        parameters: &[SEAM, Parameter::new("needle", LENGTH), Parameter::new("under", LENGTH)],
        result: ParameterKind::Number,
        formula: Formula::Sum("(needle + under) / seam"),
        summary: "Thread over seam, from the threads pulled out of a length of seam.",
        examples: &[
            Example { typed: "thread_ratio(3 in, 9 in, 8 in)", shown: "≈ 5.6667" },
            Example { typed: "thread_ratio(10 cm, 14 cm, 11 cm)", shown: "2.5" },
        ],
        source: PULLED_OUT,
        code: |a, s| ratio(a, s, thread::thread_ratio(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
    Function {
        name: "lockstitch_ratio",
        topic: TOPIC,
        parameters: &[STITCH, THICKNESS],
        result: ParameterKind::Number,
        formula: Formula::Sum("2 + 2 * thickness / stitch"),
        summary: "Thread over seam of a lockstitch (301), from its stitch length and the thickness of the seam.",
        examples: &[
            Example { typed: "lockstitch_ratio(1/10 in, 0.01 in)", shown: "2.2" },
            Example { typed: "lockstitch_ratio(2.5 mm, 0.6 mm)", shown: "2.48" },
        ],
        source: BY_GEOMETRY,
        code: |a, s| ratio(a, s, thread::lockstitch_ratio(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "chain_stitch_ratio",
        topic: TOPIC,
        parameters: &[STITCH, THICKNESS],
        result: ParameterKind::Number,
        formula: Formula::Sum("3 + 2 * thickness / stitch"),
        summary: "Thread over seam of a chain stitch (101), from its stitch length and the thickness of the seam.",
        examples: &[
            Example { typed: "chain_stitch_ratio(1/9 in, 0.005 in)", shown: "3.09" },
            Example { typed: "chain_stitch_ratio(2.5 mm, 0.5 mm)", shown: "3.4" },
        ],
        source: BY_GEOMETRY,
        code: |a, s| ratio(a, s, thread::chain_stitch_ratio(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "two_thread_chain_ratio",
        topic: TOPIC,
        parameters: &[STITCH, THICKNESS],
        result: ParameterKind::Number,
        formula: Formula::Sum("4 + 2 * thickness / stitch"),
        summary: "Thread over seam of a two-thread chain stitch (401), from its stitch length and seam thickness.",
        examples: &[
            Example { typed: "two_thread_chain_ratio(1/15 in, 0.015 in)", shown: "4.45" },
            Example { typed: "two_thread_chain_ratio(2.5 mm, 0.5 mm)", shown: "4.4" },
        ],
        source: BY_GEOMETRY,
        code: |a, s| ratio(a, s, thread::two_thread_chain_ratio(a.length(0)?, a.length(1)?)),
    },
    Function {
        name: "overedge_ratio",
        topic: TOPIC,
        parameters: &[
            STITCH,
            Parameter::new("width", LENGTH),
            THICKNESS,
            Parameter::new("along", ParameterKind::Number),
        ],
        result: ParameterKind::Number,
        formula: Formula::Sum("along + 4 * (width + thickness) / stitch"),
        summary: "Thread over seam of a three-thread overedge (504), of which 3 to 5 times the seam runs along it.",
        examples: &[
            Example { typed: "overedge_ratio(1/12 in, 0.2 in, 0.03 in, 5)", shown: "16.04" },
            Example { typed: "overedge_ratio(2.5 mm, 5 mm, 0.5 mm, 4)", shown: "12.8" },
        ],
        source: BY_GEOMETRY,
        code: |a, s| {
            let found = thread::overedge_ratio(a.length(0)?, a.length(1)?, a.length(2)?, a.number(3)?);
            ratio(a, s, found)
        },
    },
    Function {
        name: "four_thread_overedge_ratio",
        topic: TOPIC,
        parameters: &[STITCH, Parameter::new("width", LENGTH), THICKNESS],
        result: ParameterKind::Number,
        formula: Formula::Sum("5 + (4 * width + 6 * thickness) / stitch"),
        summary: "Thread over seam of a four-thread overedge (514), from its stitch length, its width and the thickness.",
        examples: &[
            Example { typed: "four_thread_overedge_ratio(1/10 in, 1/4 in, 0.05 in)", shown: "18" },
            Example { typed: "four_thread_overedge_ratio(2.5 mm, 6 mm, 0.5 mm)", shown: "15.8" },
        ],
        source: BY_GEOMETRY,
        code: |a, s| ratio(a, s, thread::four_thread_overedge_ratio(a.length(0)?, a.length(1)?, a.length(2)?)),
    },
];

type Used = Result<ThreadUse, TextileError>;

fn by_class(a: &Arguments<'_>, style: &Style) -> Result<Used, ScriptError> {
    Ok(thread::thread_for(a.text(0)?, a.length(1)?, share_on_top_or(a, 2, style, USUAL_WASTE)?))
}

fn by_ratio(a: &Arguments<'_>, style: &Style) -> Result<Used, ScriptError> {
    let (ratio, needle_share) = (a.number(0)?, share_or_whole(a, 1, style)?);
    Ok(thread::thread_at(ratio, needle_share, a.length(2)?, share_on_top_or(a, 3, style, USUAL_WASTE)?))
}

/// The numbers of the stitch classes, taken from the one table of classes.
const fn numbers<const N: usize>(classes: &[StitchClass; N]) -> [&'static str; N] {
    let mut numbers = [""; N];
    let mut from: &[StitchClass] = classes;
    let mut to: &mut [&'static str] = &mut numbers;
    while let ([class, classes @ ..], [number, numbers @ ..]) = (from, to) {
        *number = class.number;
        from = classes;
        to = numbers;
    }
    numbers
}
