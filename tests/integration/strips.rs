//! Checks the formulas for counts of strips by laying and cutting strips one by one, in whole nanometres.
//!
//! Shares nothing with the formulas: lengths are whole numbers and ratios whole thousandths, so every comparison is
//! exact.

use shirr::quantity::{Length, number};
use shirr::textile::gathering::{gathered_flat, passes_together};
use shirr::textile::joins::{strips_joined, strips_looped};
use shirr::textile::strips::{rolls_for, strips_for, strips_on_roll};

/// Nanometres in a sixteenth of an inch, a millimetre, a yard.
const SIXTEENTH: i64 = 1_587_500;
const MILLIMETRE: i64 = 1_000_000;
const YARD: i64 = 914_400_000;

/// Two ratios in thousandths multiply to millionths.
const SCALE: i128 = 1_000_000;

/// Pseudo-random whole numbers, the same on every run (Knuth's multiplier, high bits only), unless `SHIRR_DRAWS` gives
/// a number to add to the seed.
pub(super) struct Draws(u64);

impl Draws {
    pub(super) fn of(seed: u64) -> Self {
        let other = std::env::var("SHIRR_DRAWS").map_or(0, |other| other.parse().unwrap());
        Self(seed.wrapping_add(other))
    }

    pub(super) fn between(&mut self, least: i64, most: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let span = u64::try_from(most - least + 1).unwrap();
        least + i64::try_from((self.0 >> 33) % span).unwrap()
    }
}

fn length(nanometres: i64) -> Length {
    Length::from_steps(number::from_whole(nanometres))
}

/// Lays strips until `flat` millionths of a nanometre are covered.
fn laid_one_by_one(flat: i128, width: i64, lost_at_each_join: i64) -> i64 {
    let (mut covered, mut count) = (i128::from(width) * SCALE, 1);
    while covered < flat {
        covered += i128::from(width - lost_at_each_join) * SCALE;
        count += 1;
    }
    count
}

/// Joins strips into a ring until it is `flat` millionths of a nanometre round.
fn ringed_one_by_one(flat: i128, width: i64, lost_at_each_join: i64) -> i64 {
    let (mut round, mut count) = (0, 0);
    while round < flat {
        round += i128::from(width - lost_at_each_join) * SCALE;
        count += 1;
    }
    count
}

/// Cuts strips from rolls; opens a roll whenever the rest of the last is too short.
fn cut_one_by_one(count: i64, cut_length: i64, put_up: i64) -> i64 {
    let (mut rolls, mut rest) = (0, 0);
    for _ in 0..count {
        if rest < cut_length {
            rolls += 1;
            rest = put_up;
        }
        rest -= cut_length;
    }
    rolls
}

struct Order {
    waist: i64,
    ratios: [i64; 2],
    width: i64,
    overlap: i64,
    cut_length: i64,
    put_up: i64,
}

impl Order {
    fn draw(waist: i64, draws: &mut Draws) -> Self {
        let metric = draws.between(0, 1) == 1;
        let (mark, inch) = if metric { (MILLIMETRE, 25) } else { (SIXTEENTH, 16) };
        let width = draws.between(2 * inch, 60 * inch);
        let cut_length = draws.between(inch, 40 * inch);
        Self {
            waist,
            ratios: [draws.between(1000, 6000), draws.between(1000, 5000)],
            width: width * mark,
            overlap: draws.between(0, inch.min(width / 3)) * mark,
            cut_length: cut_length * mark,
            put_up: draws.between(5, 100) * YARD,
        }
    }

    #[track_caller]
    fn check(&self) {
        let flat = i128::from(self.waist) * i128::from(self.ratios[0]) * i128::from(self.ratios[1]);
        let passes = self.ratios.map(|thousandths| number::from_whole(thousandths) / 1000.0);
        let reckoned = gathered_flat(length(self.waist), passes_together(&passes).unwrap()).unwrap();
        let (width, overlap) = (length(self.width), length(self.overlap));
        let (cut_length, put_up) = (length(self.cut_length), length(self.put_up));

        let count = laid_one_by_one(flat, self.width, self.overlap);
        let about = || {
            let Self { waist, ratios, width, overlap, cut_length, put_up } = self;
            format!("waist {waist}, ratios {ratios:?}, width {width}, overlap {overlap}, {cut_length} from {put_up}")
        };
        assert_eq!(strips_for(reckoned, width, overlap), Ok(count), "strips: {}", about());

        let rolls = cut_one_by_one(count, self.cut_length, self.put_up);
        assert_eq!(rolls_for(count, cut_length, put_up), Ok(rolls), "rolls: {}", about());
        assert_eq!(cut_one_by_one(strips_on_roll(put_up, cut_length).unwrap(), self.cut_length, self.put_up), 1);

        // A seam takes an allowance off both strips, so half the overlap is the allowance here.
        let allowance = length(self.overlap) / 2.0;
        assert_eq!(strips_joined(reckoned, width, allowance), Ok(count), "joined: {}", about());
        let ring = ringed_one_by_one(flat, self.width, self.overlap);
        assert_eq!(strips_looped(reckoned, width, allowance), Ok(ring), "looped: {}", about());
    }
}

#[test]
fn counts_are_those_of_laying_and_cutting_one_by_one() {
    let mut draws = Draws::of(20_260_101);
    for eighths in 12 * 8..=30 * 8 {
        for _ in 0..60 {
            Order::draw(eighths * 2 * SIXTEENTH, &mut draws).check();
        }
    }
}

#[test]
fn a_length_that_strips_cover_exactly_takes_no_strip_more() {
    let mut draws = Draws::of(7);
    for _ in 0..5_000 {
        let mut order = Order::draw(1, &mut draws);
        let count = draws.between(1, 300);
        // A micrometre short of exact, exact, and a micrometre over: the tolerance hides none of the three.
        let exact = order.width + (count - 1) * (order.width - order.overlap);
        for waist in [exact - 1_000, exact, exact + 1_000] {
            order.waist = waist;
            order.ratios = [1000, 1000];
            order.check();
        }
        // The same with ratios that are no exact binary numbers.
        order.ratios = [2400, 1250];
        order.waist = exact;
        order.width *= 3;
        order.overlap *= 3;
        order.check();
    }
}
