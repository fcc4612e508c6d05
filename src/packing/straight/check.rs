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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::{Rectangle, Starts, Stretch};

    const LIMIT: i64 = 10_000_000_000_000;

    fn is_sound_with(change: impl Fn(&mut RectangleProblem, &mut Rectangle)) -> bool {
        let mut piece = Rectangle { starts: Some(Starts { first: 3, every: 5 }), ..Rectangle::new(7, 8, 2) };
        let mut problem = RectangleProblem::endless(10, Vec::new());
        change(&mut problem, &mut piece);
        problem.rectangles.push(piece);
        is_sound(&problem)
    }

    #[test]
    fn every_size_lies_within_ten_kilometres() {
        type Change = fn(&mut RectangleProblem, &mut Rectangle, i64);
        let changes: [(&str, i64, Change); 7] = [
            ("along", 1, |_, piece, size| piece.along = size),
            ("across", 1, |_, piece, size| piece.across = size),
            ("width", 1, |problem, _, size| problem.stretches[0].width = size),
            ("every", 1, |_, piece, size| piece.starts = Some(Starts { first: 3, every: size })),
            ("first", -LIMIT, |_, piece, size| piece.starts = Some(Starts { first: size, every: 5 })),
            ("length", 0, |problem, _, size| problem.stretches[0].length = Some(size)),
            ("loss", 0, |problem, _, size| problem.loss = size),
        ];
        for (name, least, change) in changes {
            for (size, sound) in [(least - 1, false), (least, true), (LIMIT, true), (LIMIT + 1, false)] {
                assert_eq!(is_sound_with(|problem, piece| change(problem, piece, size)), sound, "{name} {size}");
            }
        }
        for (count, sound) in [(-1, false), (0, true), (1, true)] {
            assert_eq!(is_sound_with(|_, piece| piece.count = count), sound, "{count}");
        }
    }

    #[test]
    fn only_the_last_stretch_is_endless() {
        let of = |lengths: &[Option<i64>]| {
            let stretches = lengths.iter().map(|&length| Stretch { width: 10, length }).collect();
            is_sound(&RectangleProblem { stretches, ..RectangleProblem::endless(10, Vec::new()) })
        };
        assert!(of(&[None]) && of(&[Some(4)]) && of(&[Some(4), None]) && of(&[Some(4), Some(5)]));
        assert!(!of(&[]) && !of(&[None, Some(4)]) && !of(&[None, None]));
    }

    #[test]
    fn all_pieces_in_a_line_with_their_losses_and_marks_are_no_longer_than_ten_to_the_eighteenth() {
        // Along, across, the first mark and the distance of the marks, how many.
        type Piece = (i64, i64, Option<(i64, i64)>, i64);
        let of = |loss: i64, pieces: &[Piece]| {
            let piece = |&(along, across, starts, count): &Piece| Rectangle {
                starts: starts.map(|(first, every)| Starts { first, every }),
                ..Rectangle::new(along, across, count)
            };
            is_sound(&RectangleProblem { loss, ..RectangleProblem::endless(10, pieces.iter().map(piece).collect()) })
        };
        // So many pieces, each of its longer side, of the loss, of a repeat and of the way to the first mark, as long
        // as ten kilometres each.
        for (loss, along, across, starts, most) in [
            (0, LIMIT, 1, None, 100_000),
            (0, 1, LIMIT, None, 100_000),
            (LIMIT, LIMIT, 1, None, 50_000),
            (0, LIMIT, 1, Some((0, LIMIT)), 50_000),
            (0, LIMIT, 1, Some((-LIMIT, LIMIT)), 50_000),
            (0, LIMIT, 1, Some((LIMIT, LIMIT)), 33_333),
        ] {
            assert!(of(loss, &[(along, across, starts, most)]), "{most}");
            assert!(!of(loss, &[(along, across, starts, most + 1)]), "{most}");
        }
        assert!(of(0, &[(LIMIT, 1, None, 60_000), (LIMIT, 1, None, 40_000)]));
        assert!(!of(0, &[(LIMIT, 1, None, 60_000), (LIMIT, 1, None, 40_001)]));
        assert!(!of(0, &[(LIMIT, 1, None, 100_001), (1, 1, None, 1)]));
    }

    #[test]
    fn two_million_pieces_begin_at_marks_at_the_most() {
        let of = |counts: [i64; 2], others: i64| {
            let starts = Some(Starts { first: 0, every: 5 });
            let mut pieces: Vec<_> =
                counts.iter().map(|&count| Rectangle { starts, ..Rectangle::new(3, 4, count) }).collect();
            pieces.push(Rectangle::new(3, 4, others));
            is_sound(&RectangleProblem::endless(10, pieces))
        };
        assert!(of([1_500_000, 500_000], 3_000_000));
        assert!(!of([1_500_000, 500_001], 0) && !of([2_000_001, 0], 0) && !of([0, 2_000_001], 0));
    }
}
