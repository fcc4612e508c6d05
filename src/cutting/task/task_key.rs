//! Encodes a cutting task as bytes: the cache key of its plan.
//!
//! Two tasks have the same key only if they are the same: every field is written, floats by their bits, lists and texts
//! behind their lengths. One field is left out if it cannot change the plan: the shortest leftover worth keeping, if
//! the cloth leaves nothing. Each struct is destructured by name, so that a new field does not compile until it is
//! written here.

use crate::cutting::effort::Effort;
use crate::cutting::task::manner::{CutsRun, CuttingManner, CuttingTask, Laid, PinnedCut};
use crate::piece::{
    CutPiece, Fold, Goods, GoodsKind, Grain, JoinRule, Layers, Lie, Matching, OutlinePoint, PutUp, Repeat, Shape,
    StockLength, Supply,
};
use crate::quantity::{Length, Liked, Money, Unit, number};

pub(in crate::cutting) fn key(task: &CuttingTask<'_>) -> Vec<u8> {
    let CuttingTask { pieces, goods, stock, supply, manner } = *task;
    let mut key = Key(Vec::new());
    key.list(pieces, Key::piece);
    key.goods(goods);
    key.list(stock, Key::stock);
    key.supply(supply);
    key.manner(manner, !leaves_nothing(task));
    key.0
}

/// Whether no plan of the task leaves anything of a length, because everything is cut off as needed; then the shortest
/// leftover worth keeping does not matter. Lists of full widths only are excluded: the search by lengths rounds its
/// costs by it all the same.
fn leaves_nothing(task: &CuttingTask<'_>) -> bool {
    let as_needed = match task.supply {
        Supply::Endless => task.goods.put_up.is_none(),
        Supply::ShelfOnly => false,
        Supply::Offered(offers) => offers.iter().all(|offer| offer.along.is_none()),
    };
    let placed = |piece: &CutPiece| !piece.shape.is_full_width() && piece.count > 0;
    as_needed && task.stock.is_empty() && task.manner.pinned.is_empty() && task.pieces.iter().any(placed)
}

struct Key(Vec<u8>);

impl Key {
    fn byte(&mut self, byte: u8) {
        self.0.push(byte);
    }

    fn flag(&mut self, flag: bool) {
        self.byte(u8::from(flag));
    }

    fn whole(&mut self, whole: i64) {
        self.0.extend(whole.to_le_bytes());
    }

    fn steps(&mut self, steps: u64) {
        self.0.extend(steps.to_le_bytes());
    }

    fn float(&mut self, float: f64) {
        self.steps(float.to_bits());
    }

    fn text(&mut self, text: &str) {
        self.whole(number::from_size(text.len()));
        self.0.extend(text.as_bytes());
    }

    fn list<T>(&mut self, list: &[T], mut write: impl FnMut(&mut Self, &T)) {
        self.whole(number::from_size(list.len()));
        for item in list {
            write(self, item);
        }
    }

    fn maybe<T>(&mut self, value: Option<T>, write: impl FnOnce(&mut Self, T)) {
        self.flag(value.is_some());
        if let Some(value) = value {
            write(self, value);
        }
    }

    fn liked(&mut self, liked: Liked) {
        let Liked { length, mass, time, named, compound, whole } = liked;
        for unit in [length, mass, time, named] {
            self.maybe(unit, Self::unit);
        }
        self.flag(compound);
        self.flag(whole);
    }

    fn unit(&mut self, unit: Unit) {
        self.text(unit.symbol());
    }

    fn length(&mut self, length: Length) {
        self.float(length.steps());
        self.liked(length.liked());
    }

    fn money(&mut self, money: Money) {
        self.float(money.steps());
        self.liked(money.liked());
    }

    fn piece(&mut self, piece: &CutPiece) {
        let CutPiece {
            name,
            order,
            count,
            shape,
            grain,
            on_fold,
            mirrored,
            one_way,
            per_garment,
            matching,
            // What they ask of the plan is in the count and the matching.
            line: _,
            allowed: _,
            panels: _,
            may_join,
            never_smaller,
        } = piece;
        self.text(name);
        self.maybe(order.as_deref(), Self::text);
        self.whole(*count);
        self.shape(shape);
        self.byte(match grain {
            Grain::Along => 0,
            Grain::Across => 1,
            Grain::Bias => 2,
            Grain::Any => 3,
        });
        self.maybe(*on_fold, |key, fold| {
            key.byte(match fold {
                Fold::Along => 0,
                Fold::Across => 1,
            });
        });
        for flag in [mirrored, one_way, never_smaller] {
            self.flag(*flag);
        }
        self.maybe(matching.as_ref(), |key, matching| match matching {
            Matching::Level => key.byte(0),
            Matching::RunOn => key.byte(1),
            Matching::Shifts(list) => {
                key.byte(2);
                key.list(list, |key, shifts| key.whole(*shifts));
            }
        });
        self.maybe(*per_garment, Self::whole);
        self.maybe(may_join.as_ref(), |key, rule| {
            let JoinRule { most, shortest, allowance } = rule;
            key.whole(*most);
            key.length(*shortest);
            key.length(*allowance);
        });
        self.maybe(shape.mark(), Self::length);
    }

    fn shape(&mut self, shape: &Shape) {
        match shape {
            Shape::Rectangle { along, across } => {
                self.byte(0);
                self.length(*along);
                self.length(*across);
            }
            Shape::FullWidth { along } => {
                self.byte(1);
                self.length(*along);
            }
            Shape::Sector { inner, outer, turn } => {
                self.byte(2);
                self.length(*inner);
                self.length(*outer);
                self.float(*turn);
            }
            Shape::Outline(points) => {
                self.byte(3);
                self.list(points, |key, point| {
                    let OutlinePoint { along, across } = point;
                    key.length(*along);
                    key.length(*across);
                });
            }
        }
    }

    fn goods(&mut self, goods: &Goods) {
        let Goods { kind, width, put_up, repeat, napped, loss_per_cut } = goods;
        self.byte(match kind {
            GoodsKind::Roll => 0,
            GoodsKind::Cloth => 1,
        });
        self.length(*width);
        self.maybe(*put_up, Self::length);
        self.maybe(*repeat, |key, Repeat { along, shift }| {
            key.length(along);
            key.length(shift);
        });
        self.flag(*napped);
        self.length(*loss_per_cut);
    }

    fn stock(&mut self, stock: &StockLength) {
        let StockLength { name, lot, along, across, washed, count, price, remnant } = stock;
        self.text(name);
        self.maybe(lot.as_deref(), Self::text);
        self.length(*along);
        self.maybe(*across, Self::length);
        self.flag(*washed);
        self.whole(*count);
        self.maybe(*price, Self::money);
        self.flag(*remnant);
    }

    fn supply(&mut self, supply: &Supply) {
        match supply {
            Supply::Endless => self.byte(0),
            Supply::ShelfOnly => self.byte(1),
            Supply::Offered(offers) => {
                self.byte(2);
                self.list(offers, |key, offer| {
                    let PutUp { name, along, across, price, most } = offer;
                    key.text(name);
                    key.maybe(*along, Self::length);
                    key.maybe(*across, Self::length);
                    key.maybe(*price, Self::money);
                    key.maybe(*most, Self::whole);
                });
            }
        }
    }

    fn manner(&mut self, manner: &CuttingManner, keeping: bool) {
        let CuttingManner { cuts, laid, squaring, keep_from, shelf_cost_share, effort, pinned } = manner;
        self.byte(match cuts {
            CutsRun::Free => 0,
            CutsRun::Straight => 1,
        });
        self.byte(match laid {
            Laid::Open => 0,
            Laid::Folded => 1,
        });
        self.length(*squaring);
        self.maybe(keep_from.filter(|_| keeping), Self::length);
        self.float(*shelf_cost_share);
        let Effort { steps, seed } = effort;
        self.steps(*steps);
        self.steps(*seed);
        self.list(pinned, Self::pinned);
    }

    fn pinned(&mut self, pinned: &PinnedCut) {
        let PinnedCut { stock, piece, order, from, to, across_from, across_to, lie, reversed, mirrored, through } =
            pinned;
        self.text(stock);
        self.text(piece);
        self.maybe(order.as_deref(), Self::text);
        for length in [from, to, across_from, across_to] {
            self.length(*length);
        }
        self.byte(match lie {
            Lie::Along => 0,
            Lie::Across => 1,
            Lie::Bias => 2,
        });
        self.flag(*reversed);
        self.flag(*mirrored);
        self.byte(match through {
            Layers::One => 0,
            Layers::Both => 1,
            Layers::Fold => 2,
        });
    }
}
