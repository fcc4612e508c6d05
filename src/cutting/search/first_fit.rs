//! Finds the first place with enough room in logarithmic time.
//!
//! Never here: what a place is.

/// A list of rooms that finds the first with at least a given size.
#[derive(Debug)]
pub(in crate::cutting) struct RoomTree {
    /// A tree of maxima: the leaves are the rooms, each node holds the larger of its two children.
    largest: Vec<i64>,
    leaves: usize,
    count: usize,
}

const NO_ROOM: i64 = i64::MIN;

impl RoomTree {
    pub(in crate::cutting) fn new() -> Self {
        Self { largest: vec![NO_ROOM; 2], leaves: 1, count: 0 }
    }

    /// Adds a room at the end and returns its index.
    pub(in crate::cutting) fn push(&mut self, room: i64) -> usize {
        if self.count == self.leaves {
            self.grow();
        }
        let place = self.count;
        self.count += 1;
        self.set(place, room);
        place
    }

    /// Changes the size of a room.
    pub(in crate::cutting) fn set(&mut self, place: usize, room: i64) {
        let mut node = self.leaves + place;
        if let Some(leaf) = self.largest.get_mut(node) {
            *leaf = room;
        }
        while node > 1 {
            node /= 2;
            let larger = self.at(2 * node).max(self.at(2 * node + 1));
            if let Some(value) = self.largest.get_mut(node) {
                *value = larger;
            }
        }
    }

    /// The first place from `start` on with at least `need`.
    pub(in crate::cutting) fn first(&self, start: usize, need: i64) -> Option<usize> {
        if start >= self.count {
            return None;
        }
        let mut node = self.leaves + start;
        while self.at(node) < need {
            // Up from right children, then over to the neighbour.
            while node % 2 == 1 {
                node /= 2;
            }
            if node == 0 {
                return None;
            }
            node += 1;
        }
        while node < self.leaves {
            node *= 2;
            if self.at(node) < need {
                node += 1;
            }
        }
        Some(node - self.leaves)
    }

    /// The largest room of all.
    pub(in crate::cutting) fn largest(&self) -> i64 {
        self.at(1)
    }

    fn at(&self, node: usize) -> i64 {
        self.largest.get(node).copied().unwrap_or(NO_ROOM)
    }

    fn grow(&mut self) {
        let rooms: Vec<i64> = self.largest.iter().skip(self.leaves).copied().collect();
        self.leaves *= 2;
        self.largest = vec![NO_ROOM; 2 * self.leaves];
        for (place, room) in rooms.into_iter().enumerate() {
            self.set(place, room);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_finds_what_looking_one_by_one_finds() {
        let (mut rooms, mut seed) = (Vec::<i64>::new(), 7_i64);
        let mut tree = RoomTree::new();
        for step in 0..2_000_usize {
            seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
            let value = seed / 65_536 % 100;
            if step % 3 == 0 || rooms.is_empty() {
                assert_eq!(tree.push(value), rooms.len());
                rooms.push(value);
            } else {
                let place = step * 31 % rooms.len();
                tree.set(place, value);
                rooms[place] = value;
            }
            let start = step * 17 % (rooms.len() + 2);
            let slow = (start..rooms.len()).find(|place| rooms[*place] >= 97);
            assert_eq!(tree.first(start, 97), slow);
            assert_eq!(Some(&tree.largest()), rooms.iter().max());
        }
    }
}
