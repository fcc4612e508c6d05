//! Sheets that were cut up: the pieces fill them, so the least length and the fewest lengths are known.

use super::scene::{cloth, nm, oblong};
use super::*;

/// Few, so that a search that errs does not get there.
const STEPS: u64 = 300;

/// The parts of a sheet, along and across, cut up by straight cuts into so many.
fn parts(seed: u64, along: i64, across: i64, count: usize) -> Vec<(i64, i64)> {
    let mut random = fastrand::Rng::with_seed(seed);
    let mut parts = vec![(along, across)];
    while parts.len() < count {
        let place = (0..parts.len()).max_by_key(|place| parts[*place].0 * parts[*place].1).unwrap();
        let (along, across) = parts.swap_remove(place);
        // The longer side, at a quarter of it or more from either end.
        let mut part = |side: i64| random.i64(side / 4..=side - side / 4);
        if along > across {
            let cut = part(along);
            parts.extend([(cut, across), (along - cut, across)]);
        } else {
            let cut = part(across);
            parts.extend([(along, cut), (along, across - cut)]);
        }
    }
    parts
}

fn pieces(parts: &[(i64, i64)], count: i64) -> Vec<CutPiece> {
    let named = |(place, (along, across)): (usize, &(i64, i64))| oblong(&format!("p{place}"), count, *along, *across);
    parts.iter().enumerate().map(named).collect()
}

/// A sheet cut up as cloth is torn: across into rows, each row into columns, each column into pieces.
fn torn(seed: u64) -> Vec<(i64, i64)> {
    let mut random = fastrand::Rng::with_seed(seed);
    let mut parts = Vec::new();
    for along in [57, 43] {
        let first = random.i64(20..50);
        let second = random.i64(first + 15..76);
        for across in [first, second - first, 90 - second] {
            let cut = random.i64(along / 4..=along - along / 4);
            parts.extend([(cut, across), (along - cut, across)]);
        }
    }
    parts
}

fn planned_in(
    pieces: &[CutPiece],
    goods: &Goods,
    stock: &[StockLength],
    manner: &CuttingManner,
) -> Result<CuttingPlan, CuttingError> {
    let task = CuttingTask { pieces, goods, stock, supply: &Supply::Endless, manner };
    plan(&task, Watch::silent(&AtomicBool::new(false)))
}

fn quick(steps: u64) -> CuttingManner {
    CuttingManner { effort: Effort::of(steps), ..CuttingManner::default() }
}

#[test]
fn pieces_of_a_sheet_are_laid_on_its_length() {
    let (open, folded) = (quick(STEPS), CuttingManner { laid: Laid::Folded, ..quick(STEPS) });
    for seed in 0..12 {
        let sheet = parts(seed, 100, 90, 9);
        let plan = planned_in(&pieces(&sheet, 1), &cloth(90), &[], &open).unwrap();
        assert_eq!((plan.length_used, plan.quality.proved), (nm(100), true), "{seed}: {sheet:?}");
        // Two of each, through both layers.
        let plan = planned_in(&pieces(&sheet, 2), &cloth(180), &[], &folded).unwrap();
        assert_eq!(plan.length_used, nm(100), "{seed}: {sheet:?}");
        assert!(plan.uses[0].cuts.iter().all(|cut| cut.through == Layers::Both));
    }
}

#[test]
fn torn_pieces_of_a_sheet_are_laid_on_its_length() {
    let straight = CuttingManner { cuts: CutsRun::Straight, ..quick(3_000) };
    for seed in 0..12 {
        let sheet = torn(seed);
        let plan = planned_in(&pieces(&sheet, 1), &cloth(90), &[], &straight).unwrap();
        assert_eq!((plan.length_used, plan.quality.proved), (nm(100), true), "{seed}: {sheet:?}");
    }
}

/// Two bolts hold two sheets that were cut up, and a length of the shelf holds one.
#[test]
fn pieces_of_two_sheets_are_laid_on_two_lengths() {
    for seed in [0, 1, 2, 3, 5, 7, 9, 12, 15, 16, 18, 19] {
        let mut both = parts(seed, 100, 90, 5);
        both.extend(parts(seed + 100, 100, 90, 5));
        let goods = Goods { put_up: Some(nm(100)), ..cloth(90) };
        let plan = planned_in(&pieces(&both, 1), &goods, &[], &quick(STEPS)).unwrap();
        assert_eq!(plan.put_ups_bought(), 2, "{seed}: {both:?}");
    }
    for seed in 0..12 {
        let stock = [StockLength::new("B", nm(130)), StockLength::new("A", nm(100))];
        let sheet = parts(seed, 100, 90, 6);
        let plan = planned_in(&pieces(&sheet, 1), &cloth(90), &stock, &quick(STEPS)).unwrap();
        let used: Vec<&str> = plan.uses.iter().map(|used| used.stock.as_str()).collect();
        assert_eq!(used, ["A"], "{seed}: {sheet:?}");
    }
}

/// Each part is cut from corner to corner, so that two triangles make it, one turned half round.
#[test]
fn halves_of_the_parts_of_a_sheet_lie_head_to_foot() {
    for seed in 0..6 {
        let sheet = parts(seed, 100, 90, 2);
        let corner = |along, across| OutlinePoint { along: nm(along), across: nm(across) };
        let half = |(place, (along, across)): (usize, &(i64, i64))| {
            let corners = vec![corner(0, 0), corner(*along, 0), corner(0, *across)];
            CutPiece::new(&format!("p{place}"), 2, Shape::Outline(corners))
        };
        let halves: Vec<CutPiece> = sheet.iter().enumerate().map(half).collect();
        let plan = planned_in(&halves, &cloth(90), &[], &quick(4 * STEPS)).unwrap();
        assert_eq!(plan.length_used, nm(100), "{seed}: {sheet:?}");
    }
}
