//! An order whose amounts are all known beforehand: a recipe that makes exactly what its answers say, in a workshop of
//! random rates and prices.

use super::order::{Ran, run_in};
use proptest::prelude::*;
use std::path::Path;
use std::sync::OnceLock;

/// Pieces, needs, seams and work, each exactly as asked for.
const RECIPE: &str = r#"//! An order of which everything is known.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: household

fn inputs() { [
    length("panel", "length of a panel").between(1/8 in, 90 in),
    count("panels", "panels in one").between(1, 20),
    length("strip", "length of a strip").between(1/8 in, 90 in),
    count("strips", "strips in one").between(1, 40),
    length("tape_cut", "one tape").between(1/8 in, 90 in),
    count("tapes", "tapes in one").between(1, 20),
    count("hooks", "hooks in one").between(1, 30),
    length("lock", "lockstitch").between(1/8 in, 900 in),
    length("over", "overedge").between(1/8 in, 900 in),
    length("zig", "zigzag").between(1/8 in, 900 in),
    count("things", "things to count").between(1, 50),
    length("way", "length to go along").between(1/8 in, 900 in),
    time("guess", "the estimate").between(0.1 min, 100 min),
    yes_no("once", "some of it once in an order"),
    yes_no("odd", "work that nobody has timed"),
    cloth("cloth", "cloth"),
    cloth("roll", "roll"),
    notion("tape", "tape"),
    notion("hook", "hook"),
] }

fn make(order, ticket) {
    ticket.figure("panels in all", order.panels, "in one");
    ticket.piece("panel", order.cloth).full_width(order.panel).count(order.panels);
    ticket.piece("strip", order.roll).full_width(order.strip).count(order.strips);
    let tape = ticket.need(order.tape, order.tape_cut, "tape").count(order.tapes);
    ticket.need(order.hook, order.hooks, "hooks");
    let lock = ticket.sew("301", order.lock, "lockstitch");
    ticket.sew("504", order.over, "overedge");
    ticket.sew("304", order.zig, "zigzag");
    ticket.work("count a thing", order.things);
    ticket.work("go along", order.way);
    ticket.work("go along", order.lock);
    let metres = ticket.work("go along in metres", order.over);
    let guess = ticket.work("guess a thing", order.things).about(order.guess);
    let guessed = ticket.work("guess a way", order.way).about(order.guess);
    if order.once {
        for entry in [tape, lock, metres, guess, guessed] { entry.once_per_order(); }
    }
    if order.odd { ticket.work("nobody knows", 1) }
}

fn examples() { [
    #{ given: #{ panel: 10 in, panels: 2, strip: 5 in, strips: 3, tape_cut: 4 in, tapes: 2, hooks: 2, lock: 9 in, over: 9 in, zig: 2 in,
                 things: 3, way: 7 in, guess: 2 min, once: false, odd: false,
                 cloth: any_cloth(45 in), roll: any_roll(6 in, 25 yd), tape: any_notion(), hook: any_notion() },
       expect: #{ "panels in all": 2 }, source: "own arithmetic" },
    #{ given: #{ panel: 20 in, panels: 4, strip: 5 in, strips: 3, tape_cut: 4 in, tapes: 2, hooks: 2, lock: 9 in, over: 9 in, zig: 2 in,
                 things: 3, way: 7 in, guess: 2 min, once: true, odd: true,
                 cloth: any_cloth(45 in), roll: any_roll(6 in, 25 yd), tape: any_notion(), hook: any_notion() },
       expect: #{ "panels in all": 4 }, source: "own arithmetic" },
] }
"#;

/// The answers. Lengths are in eighths of an inch, the estimate is in hundredths of a minute.
#[derive(Clone, Debug)]
pub(super) struct Known {
    pub(super) panel: i64,
    pub(super) panels: i64,
    pub(super) strip: i64,
    pub(super) strips: i64,
    pub(super) tape: i64,
    pub(super) tapes: i64,
    pub(super) hooks: i64,
    pub(super) lock: i64,
    pub(super) over: i64,
    pub(super) zig: i64,
    pub(super) things: i64,
    pub(super) way: i64,
    pub(super) guess: i64,
    pub(super) once: bool,
    pub(super) odd: bool,
    pub(super) garments: i64,
}

impl Known {
    /// How often an entry counts that may occur once in an order.
    pub(super) fn times(&self) -> i64 {
        if self.once { 1 } else { self.garments }
    }

    fn answers(&self) -> Vec<(String, String)> {
        let long = |eighths: i64| format!("{}.{:03} in", eighths / 8, eighths % 8 * 125);
        let yes = |flag: bool| if flag { "yes" } else { "no" }.to_owned();
        let answers = [
            ("panel", long(self.panel)),
            ("panels", self.panels.to_string()),
            ("strip", long(self.strip)),
            ("strips", self.strips.to_string()),
            ("tape_cut", long(self.tape)),
            ("tapes", self.tapes.to_string()),
            ("hooks", self.hooks.to_string()),
            ("lock", long(self.lock)),
            ("over", long(self.over)),
            ("zig", long(self.zig)),
            ("things", self.things.to_string()),
            ("way", long(self.way)),
            ("guess", format!("{} min", hundredths(self.guess))),
            ("once", yes(self.once)),
            ("odd", yes(self.odd)),
            ("pieces", self.garments.to_string()),
            ("cloth", "cloth".to_owned()),
            ("roll", "roll".to_owned()),
            ("tape", "tape".to_owned()),
            ("hook", "hook".to_owned()),
        ];
        answers.map(|(name, value)| (name.to_owned(), value)).to_vec()
    }

    /// Runs the order in a workshop. The recipe is checked only the first time.
    pub(super) fn run(&self, workshop: &Path) -> Ran {
        static HERE: OnceLock<tempfile::TempDir> = OnceLock::new();
        let here = HERE.get_or_init(|| {
            let here = tempfile::tempdir().unwrap();
            std::fs::write(here.path().join("known.rhai"), RECIPE).unwrap();
            here
        });
        run_in(here.path(), "known.rhai", &self.answers(), workshop)
    }
}

/// `1234` as `12.34`.
pub(super) fn hundredths(number: i64) -> String {
    format!("{}.{:02}", number / 100, number % 100)
}

/// Any order; if `few`, with panels and strips few enough to place by trying everything.
pub(super) fn any_order(few: bool) -> impl Strategy<Value = Known> {
    let (panels, strips) = if few { (1..=2_i64, 1..=2_i64) } else { (1..=20_i64, 1..=40_i64) };
    let short = 1..=720_i64;
    let long = || 1..=7200_i64;
    let tapes = 1..=if few { 2_i64 } else { 20 };
    let cut = (short.clone(), panels, short.clone(), strips, short, tapes, 1..=30_i64);
    let sewn = (long(), long(), long(), 1..=50_i64, long(), 10..=10_000_i64);
    (cut, sewn, any::<bool>(), any::<bool>(), 1..=if few { 3 } else { 5_i64 }).prop_map(
        |(cut, sewn, once, odd, garments)| {
            let (panel, panels, strip, strips, tape, tapes, hooks) = cut;
            let (lock, over, zig, things, way, guess) = sewn;
            Known {
                panel,
                panels,
                strip,
                strips,
                tape,
                tapes,
                hooks,
                lock,
                over,
                zig,
                things,
                way,
                guess,
                once,
                odd,
                garments,
            }
        },
    )
}
