//! Depths against a pencil, against every side asked, and against trials.

use super::*;
use crate::outlines::forbidden::forbidden;
use crate::outlines::geometry;
use crate::outlines::outline::prepare;
use crate::problem::Polygon;

/// The depth by its definition: the least push, tried in many directions, that leads out.
fn by_trial(forbidden: &Forbidden, point: Point) -> f64 {
    let holds = |offset: f64, angle: f64| {
        let whole = |value: f64| number::nearest_whole(value).unwrap();
        let at = (point.0 + whole(offset * angle.cos()), point.1 + whole(offset * angle.sin()));
        forbidden.holds(at)
    };
    if !forbidden.holds(point) {
        return 0.0;
    }
    let out = |angle: f64| (0..4000).map(|step| f64::from(step) * 5.0).find(|&push| !holds(push, angle)).unwrap();
    (0..90).map(|angle| out(f64::from(angle) * std::f64::consts::TAU / 90.0)).fold(f64::INFINITY, f64::min)
}

fn random_forbidden(rng: &mut fastrand::Rng, corners: Range<usize>) -> Option<Forbidden> {
    let mut random = || {
        let corners: Vec<Point> =
            (0..rng.usize(corners.clone())).map(|_| (rng.i64(0..3000), rng.i64(0..3000))).collect();
        geometry::tidied(&corners).map(|corners| Polygon::new(corners, 1))
    };
    let outlines = prepare(&[random()?, random()?])?.outlines;
    (outlines.len() > 1).then(|| forbidden(&outlines[0], &outlines[1], 0))
}

#[test]
fn a_cell_lists_what_a_look_at_everything_lists() {
    let mut rng = fastrand::Rng::with_seed(7);
    let mut tables = 0;
    while tables < 40 {
        let Some(forbidden) = random_forbidden(&mut rng, 3..9) else { continue };
        let mut depth = Depth::new(&forbidden);
        if depth.table.is_empty() {
            continue;
        }
        tables += 1;
        let high = (number::from_whole(forbidden.high.0), number::from_whole(forbidden.high.1));
        let count = |cells: usize| number::from_count(cells);
        let step = ((high.0 - depth.low.0) / count(depth.cells.0), (high.1 - depth.low.1) / count(depth.cells.1));
        let (all, grid) = (depth.all(), Grid::new(depth.low, step));
        for row in 0..depth.cells.1 {
            for column in 0..depth.cells.0 {
                let block = Block { columns: column..column + 1, rows: row..row + 1 };
                let entries = |depth: &Depth, cell: Cell| {
                    let first = usize::try_from(cell.first).unwrap();
                    let parts = if cell.parts == WITHIN { 0 } else { usize::from(cell.parts) };
                    depth.lists[first..first + parts + usize::from(cell.borders)].to_vec()
                };
                let made = depth.table[row * depth.cells.0 + column];
                let looked = depth.cell(&grid, &block, &all);
                assert_eq!((made.parts, made.borders), (looked.parts, looked.borders), "{row}, {column}");
                if looked.parts > 0 {
                    assert_eq!(entries(&depth, made), entries(&depth, looked), "{row}, {column}");
                }
            }
        }
    }
}

#[test]
fn the_depth_is_the_shortest_way_out() {
    let mut rng = fastrand::Rng::with_seed(3);
    let mut tried = 0;
    while tried < 12 {
        let Some(forbidden) = random_forbidden(&mut rng, 3..7) else { continue };
        tried += 1;
        let depth = Depth::new(&forbidden);
        for _ in 0..12 {
            let point = (rng.i64(-3000..3000), rng.i64(-3000..3000));
            let at = depth.at(number::from_whole(point.0), number::from_whole(point.1));
            let trial = by_trial(&forbidden, point);
            assert!(trial >= at - 8.0 && trial <= at * 1.05 + 60.0, "{at} for {trial}");
        }
    }
}

fn outline(corners: &[Point]) -> crate::outlines::outline::Outline {
    prepare(&[Polygon::new(corners.to_vec(), 1)]).unwrap().outlines.remove(0)
}

fn depth_of(one: &[Point], other: &[Point]) -> Depth {
    Depth::new(&forbidden(&outline(one), &outline(other), 0))
}

/// Six along, four across.
const PEG: [Point; 4] = [(0, 0), (6, 0), (6, 4), (0, 4)];

/// Shapes of right angles, each with the outline round all places where the low corner of the peg lies within it: every
/// side that faces the beginning is six further out, every side that faces the edge four.
fn shapes() -> Vec<(Vec<Point>, Vec<Point>)> {
    vec![
        // An L.
        (
            vec![(0, 0), (30, 0), (30, 10), (10, 10), (10, 40), (0, 40)],
            vec![(-6, -4), (30, -4), (30, 10), (10, 10), (10, 40), (-6, 40)],
        ),
        // A U whose notch, 11 wide, leaves the peg a slot of 5.
        (
            vec![(0, 0), (31, 0), (31, 40), (20, 40), (20, 10), (9, 10), (9, 35), (0, 35)],
            vec![(-6, -4), (31, -4), (31, 40), (14, 40), (14, 10), (9, 10), (9, 35), (-6, 35)],
        ),
        // A T.
        (
            vec![(0, 20), (12, 20), (12, 0), (21, 0), (21, 20), (40, 20), (40, 33), (0, 33)],
            vec![(-6, 16), (6, 16), (6, -4), (21, -4), (21, 16), (40, 16), (40, 33), (-6, 33)],
        ),
        // A comb with three teeth.
        (
            vec![
                (0, 0),
                (70, 0),
                (70, 30),
                (60, 30),
                (60, 10),
                (40, 10),
                (40, 25),
                (30, 25),
                (30, 10),
                (10, 10),
                (10, 35),
                (0, 35),
            ],
            vec![
                (-6, -4),
                (70, -4),
                (70, 30),
                (54, 30),
                (54, 10),
                (40, 10),
                (40, 25),
                (24, 25),
                (24, 10),
                (10, 10),
                (10, 35),
                (-6, 35),
            ],
        ),
    ]
}

/// The points a quarter apart in a box, its border among them.
fn dense(low: Point, high: Point) -> impl Iterator<Item = (f64, f64)> {
    let quarters = |low: i64, high: i64| (4 * low..=4 * high).map(|quarter| number::from_whole(quarter) / 4.0);
    quarters(low.0, high.0).flat_map(move |along| quarters(low.1, high.1).map(move |across| (along, across)))
}

/// How far a point is inside an outline of right angles; zero outside.
fn inside_by_hand(outline: &[Point], (along, across): (f64, f64)) -> f64 {
    let float = number::from_whole;
    let sides = || outline.iter().zip(outline.iter().cycle().skip(1));
    // A ray along meets the sides across that lie beyond the point.
    let met = sides().filter(|(from, to)| {
        let (low, high) = (float(from.1.min(to.1)), float(from.1.max(to.1)));
        from.0 == to.0 && low <= across && across < high && float(from.0) > along
    });
    if met.count() % 2 == 0 {
        return 0.0;
    }
    let off = |value: f64, one: i64, other: i64| value - value.clamp(float(one.min(other)), float(one.max(other)));
    sides().map(|(from, to)| off(along, from.0, to.0).hypot(off(across, from.1, to.1))).fold(f64::INFINITY, f64::min)
}

#[test]
fn a_peg_is_as_deep_in_a_shape_as_its_corner_is_within_the_outline_of_both() {
    for (shape, outline) in shapes() {
        let mut depth = depth_of(&shape, &PEG);
        assert!(!depth.table.is_empty() && !depth.borders.is_empty());
        let (low, high) = geometry::around(&outline);
        for with_table in [true, false] {
            if !with_table {
                depth.table.clear();
            }
            for (along, across) in dense(low, high) {
                let by_hand = inside_by_hand(&outline, (along, across));
                let at = depth.at(along, across);
                assert!((at - by_hand).abs() < 1e-6, "{shape:?} at {along}, {across}: {at} for {by_hand}");
                let Some(out) = depth.way_out(along, across) else {
                    assert!(by_hand < 1e-6, "{along}, {across}");
                    continue;
                };
                // The way out is as long as the depth, and leads onto the border.
                assert!((out.0.hypot(out.1) - by_hand).abs() < 1e-6);
                assert!(depth.at(along + out.0 * (1.0 - 1e-3), across + out.1 * (1.0 - 1e-3)) <= by_hand * 1e-3 + 1e-6);
            }
        }
    }
}

#[test]
fn the_border_of_a_union_is_the_outline_round_it() {
    for (shape, outline) in shapes() {
        let depth = depth_of(&shape, &PEG);
        let long = |segment: &Segment| (segment.to.0 - segment.from.0).hypot(segment.to.1 - segment.from.1);
        let (low, high) = geometry::around(&outline);
        for (along, across) in dense((low.0 - 1, low.1 - 1), (high.0 + 1, high.1 + 1)) {
            let away = depth.borders.iter().map(|segment| segment.away(along, across)).fold(f64::INFINITY, f64::min);
            let mut sides = outline.iter().zip(outline.iter().cycle().skip(1));
            let is_on = |&(from, to): &(&Point, &Point)| {
                let between = |value: f64, one: i64, other: i64| {
                    (number::from_whole(one.min(other))..=number::from_whole(one.max(other))).contains(&value)
                };
                between(along, from.0, to.0) && between(across, from.1, to.1)
            };
            assert_eq!(away.sqrt() < 1e-6, sides.any(|side| is_on(&side)), "{along}, {across}");
        }
        for segment in &depth.borders {
            assert!((segment.scale * long(segment) * long(segment) - 1.0).abs() < 1e-9);
            let middle = (f64::midpoint(segment.from.0, segment.to.0), f64::midpoint(segment.from.1, segment.to.1));
            assert!(inside_by_hand(&outline, middle) < 1e-6, "{segment:?}");
        }
    }
}

#[test]
fn what_lies_along_a_border_ends_where_the_border_does() {
    // A square in the middle of the side of a larger one, and another that stands beyond its corner.
    let square = |low: f64, high: f64| vec![(low, 0.0), (high, 0.0), (high, high - low), (low, high - low)];
    let sides = |polygon: &[(f64, f64)]| -> Vec<Side> {
        let next = polygon.iter().cycle().skip(1);
        let side = |(from, to): (&(f64, f64), &(f64, f64))| {
            let length = (to.0 - from.0).hypot(to.1 - from.1);
            let (along, across) = ((to.1 - from.1) / length, (from.0 - to.0) / length);
            Side { along, across, over: along * from.0 + across * from.1 }
        };
        polygon.iter().zip(next).map(side).collect()
    };
    let box_sides = sides(&square(2.0, 10.0));
    // From 0 to 16 at 3 across: inside from 2 to 10.
    assert_eq!(clipped(&box_sides, (0.0, 3.0), (16.0, 3.0), 0.0), Some((0.125, 0.625)));
    assert_eq!(clipped(&box_sides, (16.0, 3.0), (0.0, 3.0), 0.0), Some((0.375, 0.875)));
    assert_eq!(clipped(&box_sides, (3.0, 3.0), (9.0, 4.0), 0.0), Some((0.0, 1.0)));
    assert_eq!(clipped(&box_sides, (3.0, 3.0), (17.0, 3.0), 0.0), Some((0.0, 0.5)));
    // Near a side, at one end or all along.
    assert_eq!(clipped(&box_sides, (2.25, 3.0), (2.75, 3.0), 0.0), Some((0.0, 1.0)));
    assert_eq!(clipped(&box_sides, (2.5, 3.0), (1.5, 3.0), 0.0), Some((0.0, 0.5)));
    assert_eq!(clipped(&box_sides, (1.5, 3.0), (2.5, 3.0), 0.0), Some((0.5, 1.0)));
    // Beside it, along its side, and past its corner.
    assert_eq!(clipped(&box_sides, (0.0, 9.0), (16.0, 9.0), 0.0), None);
    assert_eq!(clipped(&box_sides, (0.0, 8.0), (16.0, 8.0), 0.0), None);
    assert_eq!(clipped(&box_sides, (-6.0, 0.0), (6.0, 12.0), 0.0), None);
    assert_eq!(clipped(&box_sides, (0.0, 6.0), (4.0, 10.0), 0.0), None);
    // Within the noise of its side it is not inside; an eighth off each end here.
    assert_eq!(clipped(&box_sides, (0.0, 0.5), (16.0, 0.5), 1.0), None);
    assert_eq!(clipped(&box_sides, (0.0, 3.0), (16.0, 3.0), 2.0), Some((0.25, 0.5)));
}

#[test]
fn the_depth_in_a_convex_outline_is_the_distance_of_its_nearest_side() {
    // A right triangle of 40 by 30, and the peg: cut off by 3·along + 4·across = 120.
    let triangle = depth_of(&[(0, 0), (40, 0), (0, 30)], &PEG);
    let oblong = depth_of(&[(0, 0), (30, 0), (30, 10), (0, 10)], &PEG);
    assert!(triangle.table.is_empty() && oblong.table.is_empty());
    for (along, across) in dense((-8, -6), (42, 32)) {
        let corner =
            [along + 6.0, across + 4.0, 40.0 - along, 30.0 - across, (120.0 - 3.0 * along - 4.0 * across) / 5.0];
        let by_hand = corner.into_iter().fold(f64::INFINITY, f64::min).max(0.0);
        assert!((triangle.at(along, across) - by_hand).abs() < 1e-9, "{along}, {across}");
        let sides = [along + 6.0, across + 4.0, 30.0 - along, 10.0 - across];
        let by_hand = sides.into_iter().fold(f64::INFINITY, f64::min).max(0.0);
        assert!((oblong.at(along, across) - by_hand).abs() < 1e-9, "{along}, {across}");
        assert_eq!(oblong.way_out(along, across).is_some(), by_hand > 0.0);
    }
    // 24 of 120 remain: 24/5 towards (3, 4)/5.
    let out = triangle.way_out(16.0, 12.0).unwrap();
    assert!((out.0 - 4.8 * 0.6).abs() < 1e-9 && (out.1 - 4.8 * 0.8).abs() < 1e-9, "{out:?}");
    assert_eq!(oblong.way_out(-4.0, 3.0), Some((-2.0, 0.0)));
}

/// A convex polygon of so many sides, none parallel to another or to the axes: chords of a parabola.
fn bowl(sides: i64) -> Vec<Point> {
    (0..sides).map(|i| (40 * i, 10 * i * i)).collect()
}

#[test]
fn a_table_is_made_from_fourteen_sides_on() {
    // The peg adds four sides.
    let thirteen = depth_of(&bowl(9), &PEG);
    assert_eq!((thirteen.sides.len(), thirteen.parts.len(), thirteen.table.len()), (13, 1, 0));
    assert_eq!((thirteen.looks(), thirteen.weight()), (8, 1));
    assert_eq!((thirteen.scale, thirteen.cells), ((0.0, 0.0), (1, 1)));
    let fourteen = depth_of(&bowl(10), &PEG);
    assert_eq!((fourteen.sides.len(), fourteen.table.len(), fourteen.cells), (14, 196, (14, 14)));
    // 360 + 6 along, 810 + 4 across, 14 cells each.
    assert!((fourteen.scale.0 - 14.0 / 366.0).abs() < 1e-12 && (fourteen.scale.1 - 14.0 / 814.0).abs() < 1e-12);
    // 196 cells of 14 sides: 2744 / 400.
    assert_eq!(fourteen.weight(), 7);
    let many = depth_of(&bowl(40), &PEG);
    assert_eq!((many.sides.len(), many.table.len(), many.cells), (44, 1024, (32, 32)));
    assert_eq!(many.weight(), 1024 * 44 / 400 + 1);
    let (shape, _) = shapes().remove(0);
    let union = depth_of(&shape, &PEG);
    let listed = union.sides.len() + union.borders.len();
    assert_eq!((union.table.len(), union.parts.len()), (listed * listed, 2));
    assert_eq!(union.weight(), u64::try_from(listed * listed * listed / 400 + 1).unwrap());
}

#[test]
fn a_look_costs_four_and_what_a_used_cell_lists_on_the_average() {
    let shapes = shapes().into_iter().map(|(shape, _)| shape).chain([bowl(10), bowl(40)]);
    for shape in shapes {
        let depth = depth_of(&shape, &PEG);
        let used: Vec<&Cell> = depth.table.iter().filter(|cell| cell.parts > 0).collect();
        // A part or side counts twice; no part is asked where one holds the whole cell.
        let asked = |cell: &&Cell| 2 * u64::from(if cell.parts == WITHIN { 0 } else { cell.parts });
        let sum: u64 =
            used.iter().map(asked).sum::<u64>() + used.iter().map(|cell| u64::from(cell.borders)).sum::<u64>();
        assert_eq!(depth.looks(), 4 + sum / u64::try_from(used.len()).unwrap(), "{shape:?}");
    }
}

#[test]
fn a_table_of_one_convex_outline_finds_its_nearest_side() {
    for shape in [bowl(10), bowl(17), bowl(40)] {
        let forbidden = forbidden(&outline(&shape), &outline(&PEG), 0);
        let depth = Depth::new(&forbidden);
        let corners = &forbidden.parts[0].corners;
        let float = |point: Point| (number::from_whole(point.0), number::from_whole(point.1));
        let (low, high) = (float(forbidden.low), float(forbidden.high));
        for column in 0..=60 {
            for row in 0..=60 {
                let share = |at: usize| number::from_count(at) / 60.0;
                let point = (low.0 + share(column) * (high.0 - low.0), low.1 + share(row) * (high.1 - low.1));
                // Twice the area of the triangle over a side, by the length of that side.
                let inside = (0..corners.len()).map(|at| {
                    let (from, to) = (float(corners[at]), float(corners[(at + 1) % corners.len()]));
                    let run = (to.0 - from.0, to.1 - from.1);
                    (run.0 * (point.1 - from.1) - run.1 * (point.0 - from.0)) / run.0.hypot(run.1)
                });
                let by_hand = inside.fold(f64::INFINITY, f64::min).max(0.0);
                let at = depth.at(point.0, point.1);
                assert!((at - by_hand).abs() < 1e-6, "{point:?}: {at} for {by_hand}");
                if let Some(out) = depth.way_out(point.0, point.1) {
                    assert!((out.0.hypot(out.1) - by_hand).abs() < 1e-6);
                    assert!(depth.at(point.0 + out.0 * 0.999, point.1 + out.1 * 0.999) <= by_hand * 0.0011 + 1e-6);
                }
            }
        }
    }
}

/// What the cell in a column and row lists by the definition: parts or sides, then borders; `None` where all of it is
/// outside, `Some(None)` for parts where one part holds it all.
fn listed(depth: &Depth, column: usize, row: usize) -> Option<(Option<Vec<usize>>, Vec<usize>)> {
    let step = (1.0 / depth.scale.0, 1.0 / depth.scale.1);
    let half = |at: usize| number::from_count(at) + 0.5;
    let (along, across) = (depth.low.0 + half(column) * step.0, depth.low.1 + half(row) * step.1);
    let reach = step.0.hypot(step.1) / 2.0;
    let inside = |at: usize| depth.sides[at].inside(along, across);
    let least = |&(first, last): &(usize, usize)| (first..last).map(inside).fold(f64::INFINITY, f64::min);
    let mut near: Vec<usize> = (0..depth.parts.len()).filter(|&part| least(&depth.parts[part]) >= -reach).collect();
    if near.is_empty() {
        return None;
    }
    if depth.borders.is_empty() {
        let least = least(&depth.parts[0]);
        return Some((
            Some((0..depth.sides.len()).filter(|&at| inside(at) <= least + 2.0 * reach).collect()),
            Vec::new(),
        ));
    }
    near.sort_by(|&one, &other| least(&depth.parts[other]).total_cmp(&least(&depth.parts[one])));
    let is_held = near.iter().any(|&part| least(&depth.parts[part]) >= reach);
    let away = |at: usize| depth.borders[at].away(along, across).sqrt();
    let nearest = (0..depth.borders.len()).map(away).fold(f64::INFINITY, f64::min);
    let borders = (0..depth.borders.len()).filter(|&at| away(at) <= nearest + 2.0 * reach).collect();
    Some(((!is_held).then_some(near), borders))
}

#[test]
fn a_cell_lists_by_the_definition_what_may_be_nearest_in_it() {
    let shapes = shapes().into_iter().map(|(shape, _)| shape).chain([bowl(10), bowl(17), bowl(40)]);
    for shape in shapes {
        let depth = depth_of(&shape, &PEG);
        for row in 0..depth.cells.1 {
            for column in 0..depth.cells.0 {
                let cell = depth.table[row * depth.cells.0 + column];
                let first = usize::try_from(cell.first).unwrap();
                let parts = if cell.parts == WITHIN { 0 } else { usize::from(cell.parts) };
                let entries = |from: usize, count: usize| -> Vec<usize> {
                    depth.lists[from..from + count].iter().map(|&at| usize::from(at)).collect()
                };
                let made = (cell.parts > 0).then(|| {
                    let parts_of = (cell.parts != WITHIN).then(|| entries(first, parts));
                    (parts_of, entries(first + parts, usize::from(cell.borders)))
                });
                assert_eq!(made, listed(&depth, column, row), "{shape:?}: {column}, {row}");
            }
        }
    }
}

#[test]
fn a_look_into_the_table_finds_what_a_look_at_everything_does() {
    let mut rng = fastrand::Rng::with_seed(17);
    let mut tables = 0;
    while tables < 60 {
        let Some(forbidden) = random_forbidden(&mut rng, 3..10) else { continue };
        let mut depth = Depth::new(&forbidden);
        if depth.table.is_empty() {
            continue;
        }
        tables += 1;
        let point = |rng: &mut fastrand::Rng| {
            let within =
                |low: i64, high: i64, share: f64| number::from_whole(low) + share * number::from_whole(high - low);
            let (low, high) = (forbidden.low, forbidden.high);
            (within(low.0, high.0, rng.f64()), within(low.1, high.1, rng.f64()))
        };
        let points: Vec<(f64, f64)> = (0..300).map(|_| point(&mut rng)).collect();
        let by_table: Vec<f64> = points.iter().map(|point| depth.at(point.0, point.1)).collect();
        depth.table.clear();
        for (point, by_table) in points.into_iter().zip(by_table) {
            let by_all = depth.at(point.0, point.1);
            assert!((by_table - by_all).abs() < 1e-6, "{by_table} for {by_all}");
        }
    }
}

#[test]
fn a_segment_is_as_far_as_its_nearest_point() {
    let segment = Segment { from: (1.0, 2.0), to: (9.0, 8.0), scale: 0.01 };
    // Half way along 8, 6 is (5, 5); 5 off it at right angles; before and beyond its ends.
    for (point, nearest, squared) in [
        ((2.0, 9.0), (5.0, 5.0), 25.0),
        ((8.0, 1.0), (5.0, 5.0), 25.0),
        ((-2.0, -2.0), (1.0, 2.0), 25.0),
        ((14.0, 20.0), (9.0, 8.0), 169.0),
    ] {
        let found = segment.nearest(point.0, point.1);
        assert!((found.0 - nearest.0).abs() < 1e-9 && (found.1 - nearest.1).abs() < 1e-9, "{found:?}");
        assert!((segment.away(point.0, point.1) - squared).abs() < 1e-9);
    }
    let side = Side { along: 0.6, across: 0.8, over: 24.0 };
    assert!((side.inside(16.0, 12.0) - 4.8).abs() < 1e-9);
}

#[test]
fn a_grid_knows_the_middles_and_the_reach_of_its_blocks() {
    let grid = Grid::new((10.0, 20.0), (6.0, 8.0));
    assert!((grid.reach - 5.0).abs() < 1e-6 && grid.reach > 5.0);
    let block = Block { columns: 1..4, rows: 2..7 };
    // Columns from 16 to 34, rows from 36 to 76.
    assert_eq!(grid.middle(&block), (25.0, 56.0));
    // One cell to the outermost middles along, two across: 6 and 16.
    let off = grid.off(&block);
    assert!(off > f64::hypot(6.0, 16.0) && off < f64::hypot(6.0, 16.0) * (1.0 + 1e-5));
    assert!(!block.is_cell() && Block { columns: 3..4, rows: 2..3 }.is_cell());
    assert!(!Block { columns: 3..4, rows: 2..4 }.is_cell() && !Block { columns: 3..5, rows: 2..3 }.is_cell());
    let spans = |block: Block| (block.columns, block.rows);
    let cells: Vec<_> = Block { columns: 3..5, rows: 7..9 }.cells().map(spans).collect();
    assert_eq!(cells, vec![(3..4, 7..8), (4..5, 7..8), (3..4, 8..9), (4..5, 8..9)]);
    // The first half takes the odd cell.
    let quarters: Vec<_> = block.quarters().map(spans).collect();
    assert_eq!(quarters, vec![(1..3, 2..5), (3..4, 2..5), (1..3, 5..7), (3..4, 5..7)]);
    let halves: Vec<_> = Block { columns: 3..4, rows: 2..4 }.quarters().map(spans).collect();
    assert_eq!(halves, vec![(3..4, 2..3), (3..4, 3..4)]);
}

#[test]
fn few_candidates_are_not_divided_further() {
    let listed = |sides: usize, borders: usize| Candidates {
        sides: (0..sides).collect(),
        borders: (0..borders).collect(),
        ..Candidates::default()
    };
    assert!(listed(8, 6).is_few() && !listed(8, 7).is_few() && !listed(9, 6).is_few());
}

#[test]
fn a_block_keeps_what_may_be_nearest_somewhere_in_it() {
    // A square block: from its middle to its corners it is half its diagonal.
    // Nearly round, so that some blocks are far from all sides.
    let bread: Vec<Point> =
        bowl(9).into_iter().chain(bowl(9).into_iter().map(|(along, across)| (300 - along, 1000 - across))).collect();
    let bread = geometry::tidied(&bread).unwrap();
    for shape in [bowl(40), bread, shapes().remove(1).0] {
        let depth = depth_of(&shape, &PEG);
        let step = (1.0 / depth.scale.0, 1.0 / depth.scale.1);
        let grid = Grid::new(depth.low, step);
        for (column, row) in [(0, 0), (3, 0), (3, 8), (8, 8), (12, 4), (1, 12)] {
            let block = Block { columns: column..column + 3, rows: row..row + 3 };
            let near = depth.near(&grid, &block, &depth.all());
            let middle = |low: f64, at: usize, step: f64| low + (number::from_count(at) + 1.5) * step;
            let (along, across) = (middle(depth.low.0, column, step.0), middle(depth.low.1, row, step.1));
            let reach = 1.5 * step.0.hypot(step.1);
            let inside = |at: usize| depth.sides[at].inside(along, across);
            let least = |part: usize| {
                let (first, last) = depth.parts[part];
                (first..last).map(inside).fold(f64::INFINITY, f64::min)
            };
            let parts: Vec<usize> = (0..depth.parts.len()).filter(|&part| least(part) >= -reach).collect();
            assert_eq!(near.parts.iter().map(|near| near.part).collect::<Vec<_>>(), parts);
            for part in &near.parts {
                let (first, last) = depth.parts[part.part];
                let kept = (first..last).filter(|&at| inside(at) <= least(part.part) + 2.0 * reach);
                assert_eq!(near.sides_of(*part), kept.collect::<Vec<_>>());
            }
            let is_union = !depth.borders.is_empty();
            assert_eq!(near.within, is_union && parts.iter().any(|&part| least(part) >= reach));
            let away = |at: usize| depth.borders[at].away(along, across).sqrt();
            let nearest = (0..depth.borders.len()).map(away).fold(f64::INFINITY, f64::min);
            let kept = (0..depth.borders.len()).filter(|&at| !parts.is_empty() && away(at) <= nearest + 2.0 * reach);
            assert_eq!(near.borders, kept.collect::<Vec<_>>());
            // Within a block that one part holds, only the borders are looked at further.
            let inner = depth.near(&grid, &Block { columns: column..column + 1, rows: row..row + 1 }, &near);
            assert!(!near.within || inner.within && inner.parts.is_empty() && !inner.borders.is_empty());
        }
    }
}

#[test]
fn a_thousand_millionth_of_the_longer_side_is_noise() {
    for (low, high, expected) in
        [((-3e9, 1e9), (4e9, 5e9), 7.0), ((-3e9, -5e9), (1e9, 5e9), 10.0), ((2e9, 1e9), (4e9, 4e9), 3.0)]
    {
        assert!((noise(low, high) - expected).abs() < 1e-9);
    }
}
