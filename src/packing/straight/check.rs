//! Which problems are accepted: sizes, counts and stretches in range, and sums that do not overflow.

use crate::problem::RectangleProblem;

/// The largest size, ten kilometres in nanometres.
const LARGEST: i64 = 10_000_000_000_000;
/// The most pieces that begin at marks, since each of their rows is laid out by itself.
const MOST_MARKED: i128 = 2_000_000;
/// The greatest length of all pieces in a line, so that sums of lengths do not overflow.
const LONGEST: i128 = 1_000_000_000_000_000_000;

/// Whether there is a stretch, only the last is endless, every size lies in 1..=10^13, no count is negative, and all
/// pieces in a line are no longer than 10^18.
pub(super) fn is_sound(problem: &RectangleProblem) -> bool {
    let is_size = |size: i64| (1..=LARGEST).contains(&size);
    let last = problem.stretches.len().saturating_sub(1);
    let stretches = !problem.stretches.is_empty()
        && problem.stretches.iter().enumerate().all(|(at, stretch)| {
            is_size(stretch.width) && stretch.length.map_or(at == last, |length| (0..=LARGEST).contains(&length))
        });
    let rectangles = problem.rectangles.iter().all(|rectangle| {
        is_size(rectangle.along)
            && is_size(rectangle.across)
            && rectangle.count >= 0
            && rectangle
                .starts
                .is_none_or(|starts| is_size(starts.every) && (-LARGEST..=LARGEST).contains(&starts.first))
    });
    if !stretches || !rectangles || !(0..=LARGEST).contains(&problem.loss) {
        return false;
    }
    let (mut line, mut marked) = (0i128, 0i128);
    for rectangle in &problem.rectangles {
        let mut extent = rectangle.along.max(rectangle.across) + problem.loss;
        if let Some(starts) = rectangle.starts {
            extent += starts.every + starts.first.max(0);
            marked += i128::from(rectangle.count);
        }
        line += i128::from(extent) * i128::from(rectangle.count);
    }
    line <= LONGEST && marked <= MOST_MARKED
}
