//! Finds the best plans of tiny lists by trying everything; shares no code with the planner.
//!
//! All sizes are whole centimetres. Each search says which plans it tries: its result is the best of those.

use std::collections::BTreeMap;

/// A stock length: its length, its price, and how many there are; `None` for as many as needed.
pub(crate) type Kind = (i64, i64, Option<i64>);

/// The lowest price of lengths that hold pieces 0 to `count` - 1; `None` if there are not enough lengths.
///
/// Tries every way to divide the pieces among lengths of the kinds. `fits` says whether the pieces whose bits are set
/// fit a length.
pub(crate) fn cheapest(count: usize, kinds: &[Kind], fits: &dyn Fn(u32, i64) -> bool) -> Option<i64> {
    let mut search = Cheapest { kinds, fits, known: BTreeMap::new() };
    search.rest((1 << count) - 1, &vec![0; kinds.len()])
}

struct Cheapest<'a> {
    kinds: &'a [Kind],
    fits: &'a dyn Fn(u32, i64) -> bool,
    known: BTreeMap<(u32, Vec<i64>), Option<i64>>,
}

impl Cheapest<'_> {
    /// The lowest price for the pieces in the set `left`, with `taken` lengths of each kind already in use.
    fn rest(&mut self, left: u32, taken: &[i64]) -> Option<i64> {
        if left == 0 {
            return Some(0);
        }
        let key = (left, taken.to_vec());
        if let Some(known) = self.known.get(&key) {
            return *known;
        }
        // The first remaining piece goes on some length, with some of the others.
        let first = left & left.wrapping_neg();
        let others = left & !first;
        let mut best = None;
        let mut with = others;
        loop {
            let together = first | with;
            for place in 0..self.kinds.len() {
                let (length, price, most) = self.kinds[place];
                if most.is_some_and(|most| taken[place] >= most) || !(self.fits)(together, length) {
                    continue;
                }
                let mut taken = taken.to_vec();
                // Kinds without a limit need no count.
                taken[place] += i64::from(most.is_some());
                if let Some(rest) = self.rest(left & !together, &taken) {
                    best = Some(best.map_or(rest + price, |best: i64| best.min(rest + price)));
                }
            }
            if with == 0 {
                break;
            }
            with = (with - 1) & others;
        }
        self.known.insert(key, best);
        best
    }
}

/// The sizes of the pieces whose bits are set.
fn members(sizes: &[i64], set: u32) -> impl Iterator<Item = i64> + Clone {
    sizes.iter().enumerate().filter(move |(place, _)| set >> place & 1 == 1).map(|(_, size)| *size)
}

/// Whether strips fit a length, with a loss at each cut between two of them.
pub(crate) fn strips_fit(sizes: &[i64], set: u32, length: i64, loss: i64) -> bool {
    let cuts = i64::from(set.count_ones()) - 1;
    members(sizes, set).sum::<i64>() + cuts * loss <= length
}

/// Whether strips that each start on a whole repeat fit a length: all but the last take whole repeats.
pub(crate) fn matched_fit(sizes: &[i64], set: u32, length: i64, repeat: i64) -> bool {
    let whole = |size: i64| (size + repeat - 1) / repeat * repeat;
    let all: i64 = members(sizes, set).map(whole).sum();
    members(sizes, set).any(|last| all - whole(last) + last <= length)
}

/// A rectangle to lay.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Rectangle {
    pub(crate) along: i64,
    pub(crate) across: i64,
    /// Whether it may be turned a quarter.
    pub(crate) turns: bool,
    /// Where across the goods it may lie.
    pub(crate) place: Place,
}

/// Where across the goods a rectangle may lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Place {
    Anywhere,
    /// In one half, not across the middle line.
    InAHalf,
    /// In one half, or centred on the middle line.
    InAHalfOrMiddle,
    /// Against the far edge.
    AtTheEdge,
}

/// The shortest length of goods that holds the rectangles, each starting on a whole `repeat` (1 for none).
///
/// Tries every plan with pieces on whole centimetres; any plan of whole sizes can be pushed onto those.
pub(crate) fn shortest(rectangles: &[Rectangle], width: i64, repeat: i64) -> i64 {
    let mut left = rectangles.to_vec();
    left.sort_unstable();
    let area: i64 = left.iter().map(|one| one.along * one.across).sum();
    let mut length = (area + width - 1) / width;
    loop {
        let mut goods = Grid { width, length, repeat, cells: vec![Cell::Free; size(width * length)] };
        let mut wasted = width * length - area;
        if goods.lay(&mut left.clone(), 0, &mut wasted) {
            return length;
        }
        length += 1;
    }
}

fn size(whole: i64) -> usize {
    usize::try_from(whole).unwrap()
}

struct Grid {
    width: i64,
    length: i64,
    repeat: i64,
    cells: Vec<Cell>,
}

#[derive(Clone, Copy, PartialEq)]
enum Cell {
    Free,
    Empty,
    Piece,
}

impl Grid {
    /// Whether the remaining pieces fit on the cells from `from` on, with at most `spare` of them left empty. Goes row
    /// by row along the goods and across each row; each free cell becomes the corner of a piece or stays empty.
    fn lay(&mut self, left: &mut Vec<Rectangle>, from: usize, spare: &mut i64) -> bool {
        if left.is_empty() {
            return true;
        }
        let Some(cell) = (from..self.cells.len()).find(|cell| self.cells[*cell] == Cell::Free) else { return false };
        let (row, column) = (i64::try_from(cell).unwrap() / self.width, i64::try_from(cell).unwrap() % self.width);
        let mut before = None;
        for place in 0..left.len() {
            let piece = left[place];
            if before == Some(piece) || row % self.repeat != 0 {
                continue;
            }
            before = Some(piece);
            let turned = piece.turns && piece.along != piece.across;
            for (along, across) in
                [(piece.along, piece.across), (piece.across, piece.along)].into_iter().take(1 + usize::from(turned))
            {
                if !self.may_lie(piece.place, column, across)
                    || !self.is_free(row, column, along, across)
                    || !self.lies_against(row, column, across)
                {
                    continue;
                }
                self.fill(row, column, along, across, Cell::Piece);
                left.remove(place);
                let laid = self.lay(left, cell + 1, spare);
                left.insert(place, piece);
                self.fill(row, column, along, across, Cell::Free);
                if laid {
                    return true;
                }
            }
        }
        if *spare == 0 {
            return false;
        }
        *spare -= 1;
        self.cells[cell] = Cell::Empty;
        let laid = self.lay(left, cell + 1, spare);
        self.cells[cell] = Cell::Free;
        *spare += 1;
        laid
    }

    fn may_lie(&self, place: Place, from: i64, across: i64) -> bool {
        let in_a_half = 2 * (from + across) <= self.width || 2 * from >= self.width;
        match place {
            Place::Anywhere => true,
            Place::InAHalf => in_a_half,
            Place::InAHalfOrMiddle => in_a_half || 2 * from + across == self.width,
            Place::AtTheEdge => from + across == self.width,
        }
    }

    /// Whether a piece cannot be pushed a repeat nearer to the start; a plan whose pieces can be pushed is no shorter.
    /// Whatever blocks the piece starts before it, so it is already laid.
    fn lies_against(&self, row: i64, column: i64, across: i64) -> bool {
        row == 0
            || (row - self.repeat..row).any(|row| {
                (column..column + across).any(|column| self.cells[size(row * self.width + column)] == Cell::Piece)
            })
    }

    fn is_free(&self, row: i64, column: i64, along: i64, across: i64) -> bool {
        row + along <= self.length
            && column + across <= self.width
            && (row..row + along).all(|row| {
                (column..column + across).all(|column| self.cells[size(row * self.width + column)] == Cell::Free)
            })
    }

    fn fill(&mut self, row: i64, column: i64, along: i64, across: i64, cell: Cell) {
        for row in row..row + along {
            for column in column..column + across {
                self.cells[size(row * self.width + column)] = cell;
            }
        }
    }
}

/// The shortest length of goods from which rectangles come by straight cuts: across into rows, each row along into
/// columns, each column across into pieces, trimmed at the side.
///
/// Tries every way to divide the pieces into columns and the columns into rows, with every allowed turn.
pub(crate) fn shortest_straight(rectangles: &[Rectangle], width: i64) -> i64 {
    let every = 1_usize << rectangles.len();
    let columns: Vec<Vec<Room>> = (0..every).map(|set| column(rectangles, set, width)).collect();
    let mut rows: Vec<Vec<Room>> = vec![vec![Room { along: 0, across: 0 }]];
    let mut all = vec![0_i64];
    for set in 1..every {
        let (mut row, mut least) = (Vec::new(), i64::MAX);
        for part in parts_with_first(set) {
            for (one, rest) in
                columns[part].iter().flat_map(|one| rows[set & !part].iter().map(move |rest| (one, rest)))
            {
                let across = one.across + rest.across;
                if across <= width {
                    row.push(Room { along: one.along.max(rest.along), across });
                }
            }
        }
        rows.push(best_of(row));
        for part in parts_with_first(set) {
            if let Some(along) = rows[part].iter().map(|row| row.along).min() {
                least = least.min(along + all[set & !part]);
            }
        }
        all.push(least);
    }
    all[every - 1]
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Room {
    across: i64,
    along: i64,
}

/// The subsets of a set that hold its first member.
fn parts_with_first(set: usize) -> Vec<usize> {
    let first = set & set.wrapping_neg();
    (1..=set).filter(|part| part & !set == 0 && part & first != 0).collect()
}

/// The rooms that the pieces of a set take one behind the other, for every way to turn them.
fn column(rectangles: &[Rectangle], set: usize, width: i64) -> Vec<Room> {
    let mut rooms = vec![Room { along: 0, across: 0 }];
    for piece in rectangles.iter().enumerate().filter(|(place, _)| set >> place & 1 == 1).map(|(_, piece)| piece) {
        let lies = [(piece.along, piece.across), (piece.across, piece.along)];
        let lies = lies.into_iter().take(1 + usize::from(piece.turns)).filter(|(_, across)| *across <= width);
        rooms = lies
            .flat_map(|(along, across)| {
                let onto = move |room: &Room| Room { along: room.along + along, across: room.across.max(across) };
                rooms.iter().map(onto).collect::<Vec<_>>()
            })
            .collect();
        rooms = best_of(rooms);
    }
    rooms
}

/// Drops every room that another matches or beats in both directions.
fn best_of(mut rooms: Vec<Room>) -> Vec<Room> {
    rooms.sort_unstable();
    let mut least = i64::MAX;
    rooms.retain(|room| {
        let better = room.along < least;
        least = least.min(room.along);
        better
    });
    rooms
}

fn rectangle(along: i64, across: i64) -> Rectangle {
    Rectangle { along, across, turns: false, place: Place::Anywhere }
}

/// Own arithmetic, by hand.
#[test]
fn the_searches_find_what_is_seen_at_a_glance() {
    let sizes = [6, 4, 5, 5, 3];
    let fits = |set: u32, length: i64| strips_fit(&sizes, set, length, 0);
    // 23 of strips: three lengths of 10, or two of 12, which hold 24.
    assert_eq!(cheapest(5, &[(10, 1, None)], &fits), Some(3));
    assert_eq!(cheapest(5, &[(12, 1, None)], &fits), Some(2));
    // 6 + 4 and 5 + 5 on lengths of 10 at a price of 4, and the 3 on the only length of 3.
    assert_eq!(cheapest(5, &[(10, 4, None), (3, 1, Some(1))], &fits), Some(9));
    assert_eq!(cheapest(5, &[(10, 4, Some(2))], &fits), None);
    let lossy = |set: u32, length: i64| strips_fit(&sizes, set, length, 1);
    // With a loss of one, 6 + 4 and 5 + 5 no longer fit a length of 10.
    assert_eq!(cheapest(5, &[(10, 1, None)], &lossy), Some(3));
    assert_eq!(cheapest(4, &[(10, 1, None)], &lossy), Some(3));
    // On a repeat of 4, two of 5 take 8 and 5.
    assert!(matched_fit(&[5, 5], 3, 13, 4) && !matched_fit(&[5, 5], 3, 12, 4));
    assert!(matched_fit(&[5, 3], 3, 9, 4) && !matched_fit(&[5, 3], 3, 8, 4));

    // A windmill: four of 1 by 2 round a single one fill 3 by 3, and no straight cut goes through it.
    let windmill = [rectangle(2, 1), rectangle(2, 1), rectangle(1, 2), rectangle(1, 2), rectangle(1, 1)];
    assert_eq!(shortest(&windmill, 3, 1), 3);
    assert_eq!(shortest_straight(&windmill, 3), 4);
    let turned = windmill.map(|one| Rectangle { turns: true, ..one });
    assert_eq!(shortest_straight(&turned, 3), 3);
    // On 4, two squares of 2, none across the middle. On 6, a piece of 1 fits beside a centred 4, one of 2 does not.
    let half = |along, across, place| Rectangle { place, ..rectangle(along, across) };
    assert_eq!(shortest(&[half(2, 2, Place::InAHalf), half(2, 2, Place::InAHalf)], 4, 1), 2);
    assert_eq!(shortest(&[half(1, 4, Place::InAHalfOrMiddle), half(1, 1, Place::InAHalf)], 6, 1), 1);
    assert_eq!(shortest(&[half(1, 4, Place::InAHalfOrMiddle), half(1, 2, Place::InAHalf)], 6, 1), 2);
    // With a repeat of 3, two pieces of 2 take 3 and 2.
    assert_eq!(shortest(&[rectangle(2, 2), rectangle(2, 2)], 3, 3), 5);
}
