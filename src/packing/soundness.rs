//! Checks a solution against the rules of its problem, from the problem alone: for tests and debug assertions.
//!
//! Each check returns the first broken rule. It shares nothing with the solvers but the geometry of polygons.

use crate::number;
use crate::outlines::geometry::{self, Point, turn_of};
use crate::problem::{LengthProblem, PolygonProblem, RectangleProblem, Starts, Stretch};
use crate::solution::{LengthSolution, Placement, RowSolution, StripSolution, Turn};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// The broken rule, if any.
pub(crate) type Checked = Result<(), &'static str>;

fn rule(holds: bool, broken: &'static str) -> Checked {
    if holds { Ok(()) } else { Err(broken) }
}

/// The rules for the placements of an item.
struct Rules {
    count: i64,
    half: bool,
    quarter: bool,
    at_edge: bool,
    starts: Option<Starts>,
}

/// Checks that every item is placed as often as wanted, within its stretch, turned as allowed and where it may begin.
/// Returns the length used of the last stretch.
fn placed(
    stretches: &[Stretch],
    items: &[Rules],
    placements: impl Iterator<Item = Placement>,
    unplaced: &[(usize, i64)],
    size: impl Fn(&Placement) -> Option<(i64, i64)>,
) -> Result<i64, &'static str> {
    let mut left: Vec<i64> = items.iter().map(|item| item.count).collect();
    let mut length = 0;
    for placement in placements {
        let unknown = "an index that the problem does not have";
        let item = items.get(placement.item).ok_or(unknown)?;
        let stretch = stretches.get(placement.stretch).ok_or(unknown)?;
        let (long, wide) = size(&placement).ok_or(unknown)?;
        *left.get_mut(placement.item).ok_or(unknown)? -= 1;
        rule(
            match placement.turn {
                Turn::None => true,
                Turn::Half => item.half,
                Turn::Quarter | Turn::ThreeQuarters => item.quarter,
            },
            "turned, which it must not be",
        )?;
        rule(!item.at_edge || placement.across == 0, "off the edge")?;
        let begins = |starts: Starts| {
            placement.along >= starts.first && (placement.along - starts.first).checked_rem(starts.every) == Some(0)
        };
        rule(item.starts.is_none_or(begins), "begins where it must not")?;
        let end = placement.along + long;
        let inside = placement.along >= 0 && placement.across >= 0 && placement.across + wide <= stretch.width;
        rule(inside && stretch.length.is_none_or(|length| end <= length), "outside its stretch")?;
        if placement.stretch + 1 == stretches.len() {
            length = length.max(end);
        }
    }
    for &(item, count) in unplaced {
        rule(count > 0, "nothing left out")?;
        *left.get_mut(item).ok_or("an item left out that there is not")? -= count;
    }
    rule(left.iter().all(|&left| left == 0), "not as many pieces as wanted")?;
    Ok(length)
}

/// Calls `check` for every two placements of one stretch whose ranges along come nearer than `near`.
fn neighbours(
    placements: &[Placement],
    long: impl Fn(&Placement) -> i64,
    near: i64,
    mut check: impl FnMut(&Placement, &Placement) -> Checked,
) -> Checked {
    let mut order: Vec<&Placement> = placements.iter().collect();
    order.sort_by_key(|placement| (placement.stretch, placement.along));
    let mut open: Vec<&Placement> = Vec::new();
    for next in order {
        open.retain(|one| one.stretch == next.stretch && one.along + long(one) + near > next.along);
        for one in &open {
            check(one, next)?;
        }
        open.push(next);
    }
    Ok(())
}

fn is_endless(stretches: &[Stretch]) -> bool {
    stretches.last().is_some_and(|stretch| stretch.length.is_none())
}

fn rules(problem: &RectangleProblem) -> Vec<Rules> {
    let of = |one: &crate::Rectangle| Rules {
        count: one.count,
        half: false,
        quarter: one.quarter,
        at_edge: one.at_edge,
        starts: one.starts,
    };
    problem.rectangles.iter().map(of).collect()
}

fn size(problem: &RectangleProblem, placement: &Placement) -> Option<(i64, i64)> {
    let one = problem.rectangles.get(placement.item)?;
    Some(if placement.turn.is_sideways() { (one.across, one.along) } else { (one.along, one.across) })
}

/// Checks rectangles placed anywhere.
pub(crate) fn rectangles(problem: &RectangleProblem, solution: &StripSolution) -> Checked {
    let placements = solution.placements.iter().copied();
    let of = |placement: &Placement| size(problem, placement);
    let length = placed(&problem.stretches, &rules(problem), placements, &solution.unplaced, of)?;
    let turned_at_edge = |placement: &Placement| {
        placement.turn.is_sideways() && problem.rectangles.get(placement.item).is_some_and(|one| one.at_edge)
    };
    rule(!solution.placements.iter().any(turned_at_edge), "turned at the edge")?;
    let long = |placement: &Placement| of(placement).map_or(0, |(long, _)| long);
    neighbours(&solution.placements, long, problem.loss, |one, other| {
        let wide = |placement: &Placement| of(placement).map_or(0, |(_, wide)| wide);
        let clear = one.across + wide(one) <= other.across || other.across + wide(other) <= one.across;
        rule(clear, "two pieces overlap")
    })?;
    let length = if is_endless(&problem.stretches) { length } else { 0 };
    rule(length == solution.length, "not the length it says")?;
    rule(solution.bound <= solution.length, "a bound above the length")
}

/// Checks rectangles in rows, cut by straight cuts from edge to edge.
pub(crate) fn rows(problem: &RectangleProblem, solution: &RowSolution) -> Checked {
    let of = |placement: &Placement| size(problem, placement);
    let length = placed(&problem.stretches, &rules(problem), solution.placements(), &solution.unplaced, of)?;
    let loss = problem.loss;
    let mut before: Option<(usize, i64)> = None;
    for row in &solution.rows {
        let free = match before {
            Some((stretch, end)) if stretch == row.stretch => end + loss,
            Some((stretch, _)) if stretch > row.stretch => return Err("stretches out of order"),
            _ => 0,
        };
        rule(row.from >= free && (row.times == 1 || row.apart >= row.along + loss), "rows overlap")?;
        rule(row.times > 0 && !row.columns.is_empty(), "an empty row")?;
        before = Some((row.stretch, row.from + row.apart * (row.times - 1) + row.along));
        let width = problem.stretches.get(row.stretch).map_or(0, |stretch| stretch.width);
        rule(row.used <= width, "a row wider than its stretch")?;
        let mut right = 0;
        for column in &row.columns {
            rule(column.across >= right && column.times > 0, "columns overlap")?;
            right = column.across + column.width * column.times;
            rule(right <= row.used, "a column out of its row")?;
            let mut free = 0;
            for run in &column.runs {
                let one =
                    Placement { item: run.item, stretch: 0, along: 0, across: 0, turn: run.turn, mirrored: false };
                let (long, wide) = of(&one).ok_or("a rectangle that there is not")?;
                rule(wide <= column.width, "a piece wider than its column")?;
                let follow = run.times == 1 || run.apart >= long + loss;
                rule(run.times > 0 && run.from >= free && follow, "pieces overlap in a column")?;
                let end = run.from + run.apart * (run.times - 1) + long;
                rule(end <= row.along, "a piece out of its row")?;
                free = end + loss;
            }
        }
    }
    rule(length == solution.length, "not the length it says")?;
    let endless = is_endless(&problem.stretches);
    rule(!endless || solution.bound <= solution.length, "a bound above the length")?;
    rule(!endless || !solution.proved || solution.bound == solution.length, "proved without a bound")
}

/// A polygon as placed, the low corner of its box at zero.
struct PlacedPolygon {
    corners: Vec<Point>,
    parts: Vec<Vec<Point>>,
}

/// Checks polygons. Placements are compared by separating sides, not by the no-fit polygons they are found with.
pub(crate) fn polygons(problem: &PolygonProblem, solution: &StripSolution) -> Checked {
    let mut known: BTreeMap<(usize, Turn, bool), PlacedPolygon> = BTreeMap::new();
    let key = |placement: &Placement| (placement.item, placement.turn, placement.mirrored);
    for placement in &solution.placements {
        if let Entry::Vacant(entry) = known.entry(key(placement)) {
            let corners = placed_corners(problem, placement).ok_or("no polygon")?;
            let parts = geometry::convex_parts(&corners);
            entry.insert(PlacedPolygon { corners, parts });
        }
    }
    let of = |placement: &Placement| known.get(&key(placement)).map(|polygon| geometry::around(&polygon.corners).1);
    let rules = problem.polygons.iter().map(|one| Rules {
        count: one.count,
        half: one.half,
        quarter: one.quarter,
        at_edge: one.at_edge,
        starts: one.starts,
    });
    let rules: Vec<Rules> = rules.collect();
    let placements = solution.placements.iter().copied();
    let length = placed(&problem.stretches, &rules, placements, &solution.unplaced, of)?;
    for (item, polygon) in problem.polygons.iter().enumerate() {
        let is_whole = solution.unplaced.iter().all(|(other, _)| *other != item);
        let mirrored = solution.placements.iter().filter(|one| one.item == item && one.mirrored).count();
        let half = if polygon.mirror { polygon.count / 2 } else { 0 };
        rule(!is_whole || number::from_size(mirrored) == half, "not in pairs, left and right")?;
    }
    let long = |placement: &Placement| of(placement).map_or(0, |(long, _)| long);
    neighbours(&solution.placements, long, problem.gap, |one, other| {
        let moved = |corners: &[Point], by: &Placement| -> Vec<Point> {
            corners.iter().map(|corner| (corner.0 + by.along, corner.1 + by.across)).collect()
        };
        let (Some(mine), Some(yours)) = (known.get(&key(one)), known.get(&key(other))) else {
            return Err("no polygon");
        };
        let near = distance(&moved(&mine.corners, one), &moved(&yours.corners, other));
        rule(problem.gap == 0 || near >= number::from_whole(problem.gap) - 1e-3, "nearer than the gap")?;
        let parts = |polygon: &PlacedPolygon, by: &Placement| -> Vec<Vec<Point>> {
            polygon.parts.iter().map(|part| moved(part, by)).collect()
        };
        let (mine, yours) = (parts(mine, one), parts(yours, other));
        rule(mine.iter().all(|one| yours.iter().all(|other| apart(one, other))), "two pieces overlap")
    })?;
    rule(length == solution.length, "not the length it says")?;
    rule(solution.bound <= solution.length, "a bound above the length")
}

/// The corners as placed, the low corner of their box at zero.
fn placed_corners(problem: &PolygonProblem, placement: &Placement) -> Option<Vec<Point>> {
    let corners = problem.polygons.get(placement.item)?.corners.iter();
    let corners = corners.map(|&(along, across)| (along, if placement.mirrored { -across } else { across }));
    let turned = corners.map(|(along, across)| match placement.turn {
        Turn::None => (along, across),
        Turn::Quarter => (-across, along),
        Turn::Half => (-along, -across),
        Turn::ThreeQuarters => (across, -along),
    });
    let corners: Vec<Point> = turned.collect();
    let (low, _) = geometry::around(&corners);
    let corners: Vec<Point> = corners.iter().map(|corner| (corner.0 - low.0, corner.1 - low.1)).collect();
    geometry::tidied(&corners)
}

fn sides(polygon: &[Point]) -> impl Iterator<Item = (Point, Point)> {
    polygon.iter().copied().zip(polygon.iter().copied().cycle().skip(1))
}

/// Whether two convex polygons lie apart: all of one lies outside some side of the other.
fn apart(one: &[Point], other: &[Point]) -> bool {
    let beyond = |one: &[Point], other: &[Point]| {
        sides(one).any(|(from, to)| other.iter().all(|&point| turn_of(from, to, point) <= 0))
    };
    beyond(one, other) || beyond(other, one)
}

/// The distance between two polygons that lie apart: from the corners of one to the sides of the other.
fn distance(one: &[Point], other: &[Point]) -> f64 {
    let float = |point: Point| (number::from_whole(point.0), number::from_whole(point.1));
    let to_sides = |one: &[Point], other: &[Point]| {
        let pairs = one.iter().flat_map(|&point| sides(other).map(move |side| (float(point), side)));
        pairs.fold(f64::INFINITY, |least, (point, (from, to))| {
            let (from, to) = (float(from), float(to));
            let (run, past) = ((to.0 - from.0, to.1 - from.1), (point.0 - from.0, point.1 - from.1));
            let part = ((past.0 * run.0 + past.1 * run.1) / (run.0 * run.0 + run.1 * run.1)).clamp(0.0, 1.0);
            least.min((past.0 - part * run.0).hypot(past.1 - part * run.1))
        })
    };
    to_sides(one, other).min(to_sides(other, one))
}

/// Checks patterns of stock lengths, their cost and bound.
pub(crate) fn lengths(problem: &LengthProblem, solution: &LengthSolution) -> Checked {
    let mut cut = vec![0_i128; problem.pieces.len()];
    let mut taken = vec![0_i128; problem.stock.len()];
    let mut cost = 0_i128;
    for pattern in &solution.patterns {
        let stock = problem.stock.get(pattern.stock).ok_or("a stock length that there is not")?;
        rule(pattern.times > 0 && !pattern.cuts.is_empty(), "an empty pattern")?;
        let mut used = 0_i128;
        for &(piece, count) in &pattern.cuts {
            rule(count > 0, "a cut of nothing")?;
            let wanted = problem.pieces.get(piece).ok_or("a piece that there is not")?;
            used += i128::from(wanted.length) * i128::from(count);
            *cut.get_mut(piece).ok_or("a piece that there is not")? += i128::from(count) * i128::from(pattern.times);
        }
        let rest = i128::from(stock.length) - used;
        rule(rest >= 0, "too much on one length")?;
        *taken.get_mut(pattern.stock).ok_or("a stock length that there is not")? += i128::from(pattern.times);
        let credit = match stock.rest {
            Some(kept) if rest >= i128::from(kept.least) => {
                i128::from(kept.value.min(stock.cost.checked_div(stock.length).unwrap_or(0))) * rest
            }
            _ => 0,
        };
        cost += (i128::from(stock.cost) - credit) * i128::from(pattern.times);
    }
    let wanted = problem.pieces.iter().map(|piece| i128::from(piece.count));
    rule(wanted.eq(cut), "not the pieces that were wanted")?;
    let enough = |(most, taken): (Option<i64>, i128)| most.is_none_or(|most| taken <= i128::from(most));
    let most = problem.stock.iter().map(|stock| stock.most);
    rule(most.zip(taken).all(enough), "more than there are")?;
    rule(cost == i128::from(solution.cost), "not the cost it says")?;
    let is_bound = solution.bound <= solution.cost && solution.proved == (solution.bound == solution.cost);
    rule(is_bound, "a wrong bound")
}

#[cfg(test)]
mod tests;
