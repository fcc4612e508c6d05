//! The upper edge of the pieces placed so far, as steps from one selvedge to the other.
#![allow(clippy::indexing_slicing, reason = "dense tables: every index was made for the table it is used on")]

/// One level step of the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Step {
    pub(super) across: i64,
    pub(super) width: i64,
    pub(super) top: i64,
}

/// The whole edge: neighbouring steps differ in height.
#[derive(Clone, Debug, Default)]
pub(super) struct Skyline {
    pub(super) steps: Vec<Step>,
}

/// The height of the walls beyond the selvedges, above anything else.
pub(super) const WALL: i64 = i64::MAX;

impl Skyline {
    /// Resets to an empty stretch.
    pub(super) fn flat(&mut self, width: i64) {
        self.steps.clear();
        self.steps.push(Step { across: 0, width, top: 0 });
    }

    /// Heights left and right of a step.
    pub(super) fn walls(&self, at: usize) -> (i64, i64) {
        let left = if at == 0 { WALL } else { self.steps[at - 1].top };
        (left, self.steps.get(at + 1).map_or(WALL, |step| step.top))
    }

    /// The lowest step, the first of several.
    pub(super) fn lowest(&self) -> usize {
        let mut best = 0;
        for (at, step) in self.steps.iter().enumerate() {
            if step.top < self.steps[best].top {
                best = at;
            }
        }
        best
    }

    /// Raises `width` of the step `at`, from its left or its right end, to the height `top`.
    pub(super) fn raise(&mut self, at: usize, width: i64, right: bool, top: i64) {
        let step = self.steps[at];
        if width >= step.width {
            self.steps[at].top = top;
            self.join(at);
        } else if right {
            self.steps[at].width -= width;
            match self.steps.get_mut(at + 1) {
                Some(next) if next.top == top => {
                    next.across -= width;
                    next.width += width;
                }
                _ => self.steps.insert(at + 1, Step { across: step.across + step.width - width, width, top }),
            }
        } else {
            self.steps[at].across += width;
            self.steps[at].width -= width;
            if at > 0 && self.steps[at - 1].top == top {
                self.steps[at - 1].width += width;
            } else {
                self.steps.insert(at, Step { across: step.across, width, top });
            }
        }
    }

    /// Joins a step with neighbours of its height.
    fn join(&mut self, at: usize) {
        if at + 1 < self.steps.len() && self.steps[at + 1].top == self.steps[at].top {
            self.steps[at].width += self.steps[at + 1].width;
            self.steps.remove(at + 1);
        }
        if at > 0 && self.steps[at - 1].top == self.steps[at].top {
            self.steps[at - 1].width += self.steps[at].width;
            self.steps.remove(at);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn raised_ends_join_their_neighbours() {
        let mut line = Skyline::default();
        line.flat(10);
        line.raise(0, 3, false, 4);
        line.raise(1, 3, true, 2);
        assert_eq!(
            line.steps.iter().map(|s| (s.across, s.width, s.top)).collect::<Vec<_>>(),
            [(0, 3, 4), (3, 4, 0), (7, 3, 2)]
        );
        assert_eq!((line.lowest(), line.walls(1), line.walls(0)), (1, (4, 2), (WALL, 0)));
        line.raise(1, 1, true, 2);
        assert_eq!(line.steps[2], Step { across: 6, width: 4, top: 2 });
        line.raise(1, 3, false, 2);
        assert_eq!(line.steps.len(), 2);
        line.raise(1, 7, false, 4);
        assert_eq!(line.steps, [Step { across: 0, width: 10, top: 4 }]);
    }

    #[test]
    fn a_raised_part_becomes_a_step_of_its_own_or_joins_one_of_its_height() {
        // The step from 5 to 12, between 9 and 6 high; how much of it is raised, from which end, to what height.
        let cases = [
            ((3, false, 7), vec![(0, 5, 9), (5, 3, 7), (8, 4, 2), (12, 8, 6)]),
            ((3, false, 9), vec![(0, 8, 9), (8, 4, 2), (12, 8, 6)]),
            ((3, false, 6), vec![(0, 5, 9), (5, 3, 6), (8, 4, 2), (12, 8, 6)]),
            ((3, true, 7), vec![(0, 5, 9), (5, 4, 2), (9, 3, 7), (12, 8, 6)]),
            ((3, true, 6), vec![(0, 5, 9), (5, 4, 2), (9, 11, 6)]),
            ((3, true, 9), vec![(0, 5, 9), (5, 4, 2), (9, 3, 9), (12, 8, 6)]),
            ((7, false, 7), vec![(0, 5, 9), (5, 7, 7), (12, 8, 6)]),
            ((7, true, 6), vec![(0, 5, 9), (5, 15, 6)]),
            ((7, false, 9), vec![(0, 12, 9), (12, 8, 6)]),
        ];
        let as_steps = |steps: &[(i64, i64, i64)]| {
            steps.iter().map(|&(across, width, top)| Step { across, width, top }).collect::<Vec<_>>()
        };
        for ((width, right, top), after) in cases {
            let mut line = Skyline { steps: as_steps(&[(0, 5, 9), (5, 7, 2), (12, 8, 6)]) };
            line.raise(1, width, right, top);
            assert_eq!(line.steps, as_steps(&after), "{width} {right} {top}");
        }
        // Between two of one height all three are one; at either end there is but one neighbour.
        let mut line = Skyline { steps: as_steps(&[(0, 5, 9), (5, 7, 2), (12, 8, 9), (20, 3, 4)]) };
        line.raise(1, 7, false, 9);
        assert_eq!(line.steps, as_steps(&[(0, 20, 9), (20, 3, 4)]));
        line.raise(1, 3, true, 8);
        assert_eq!(line.steps, as_steps(&[(0, 20, 9), (20, 3, 8)]));
        line.raise(0, 4, false, 11);
        assert_eq!(line.steps, as_steps(&[(0, 4, 11), (4, 16, 9), (20, 3, 8)]));
        line.raise(2, 1, true, 12);
        assert_eq!(line.steps, as_steps(&[(0, 4, 11), (4, 16, 9), (20, 2, 8), (22, 1, 12)]));
        line.raise(0, 4, false, 9);
        assert_eq!(line.steps, as_steps(&[(0, 20, 9), (20, 2, 8), (22, 1, 12)]));
        line.flat(7);
        assert_eq!(line.steps, as_steps(&[(0, 7, 0)]));
    }

    #[test]
    fn the_lowest_step_is_the_first_of_several_and_walls_are_its_neighbours() {
        let tops = |tops: &[i64]| Skyline {
            steps: (0..).zip(tops).map(|(across, &top)| Step { across, width: 1, top }).collect(),
        };
        assert_eq!([tops(&[4, 2, 5, 2]).lowest(), tops(&[2, 4, 2]).lowest(), tops(&[5, 4, 3]).lowest()], [1, 0, 2]);
        let line = tops(&[4, 2, 5]);
        assert_eq!([line.walls(0), line.walls(1), line.walls(2)], [(WALL, 2), (4, 5), (2, WALL)]);
    }
}
