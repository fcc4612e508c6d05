//! Runs random small lists through planner and verifier.

use super::draw::Draw;
use shirr::cutting::{self, CutsRun, CuttingError, CuttingManner, CuttingPlan, CuttingTask, Effort, Laid, Watch};
use shirr::piece::{
    CutPiece, Fold, Goods, GoodsKind, Grain, JoinRule, Matching, OutlinePoint, PutUp, Repeat, Shape, StockLength,
    Supply,
};
use shirr::quantity::{Length, Money, number};
use std::sync::atomic::AtomicBool;

/// How much variety the draws have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Manners {
    /// Cloth laid open, free cuts, no wishes that the plainest planner does not know.
    Usual,
    /// Every option.
    Every,
}

/// Totals over many lists.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Count {
    pub(crate) planned: u64,
    pub(crate) joined: u64,
    pub(crate) proved: u64,
    pub(crate) refused: u64,
}

/// A list and everything else that a plan is made from.
#[derive(Debug)]
struct Scene {
    pieces: Vec<CutPiece>,
    goods: Goods,
    stock: Vec<StockLength>,
    supply: Supply,
    manner: CuttingManner,
}

impl Scene {
    fn plan(&self) -> Result<CuttingPlan, CuttingError> {
        let never = AtomicBool::new(false);
        cutting::plan(&self.task(), Watch::silent(&never))
    }

    fn task(&self) -> CuttingTask<'_> {
        CuttingTask {
            pieces: &self.pieces,
            goods: &self.goods,
            stock: &self.stock,
            supply: &self.supply,
            manner: &self.manner,
        }
    }
}

/// Plans and verifies `count` lists; plans every sixteenth twice and expects the same plan.
///
/// # Panics
///
/// At the first list whose plan the verifier rejects, or whose second plan differs.
pub(crate) fn lists(seed: u64, count: u64, steps: u64, manners: Manners) -> Count {
    let mut draw = Draw::new(seed);
    let mut total = Count::default();
    for round in 0..count {
        let scene = draw.scene(steps, manners);
        let planned = scene.plan();
        match &planned {
            Ok(plan) => {
                if let Err(errors) = cutting::check(plan, &scene.task()) {
                    panic!("list {round} of seed {seed}: {errors:?}\n{scene:?}");
                }
                total.planned += 1;
                total.joined += u64::from(!plan.joins.is_empty());
                total.proved += u64::from(plan.quality.proved);
            }
            Err(error @ (CuttingError::Refused { .. } | CuttingError::Stopped)) => {
                panic!("list {round} of seed {seed}: {error}\n{scene:?}")
            }
            Err(_) => total.refused += 1,
        }
        if round % 16 == 0 {
            assert_eq!(planned, scene.plan(), "list {round} of seed {seed} is planned otherwise the second time");
        }
    }
    total
}

impl Draw {
    /// A whole number of quarter centimetres, up to `most` centimetres; one in five is divided by three to be uneven.
    fn size(&mut self, most: i64) -> Length {
        let quarters = Length::centimetres(0.25) * number::from_whole(self.between(1, 4 * most));
        if self.once_in(5) { quarters / 3.0 } else { quarters }
    }

    fn shape(&mut self, roll: bool) -> Shape {
        match if roll { 0 } else { self.between(0, 6) } {
            0 => Shape::FullWidth { along: self.size(90) },
            1 => {
                let outer = self.size(60);
                Shape::Sector { inner: outer * 0.3, outer, turn: self.one_of(&[0.2, 0.25, 0.4, 0.5, 0.75, 1.0]) }
            }
            2 => Shape::Outline(self.outline()),
            _ => Shape::Rectangle { along: self.size(90), across: self.size(150) },
        }
    }

    /// A triangle or a gore, with corners in order so that no edges cross.
    fn outline(&mut self) -> Vec<OutlinePoint> {
        let (along, across) = (self.size(60), self.size(60));
        let point = |along: Length, across: Length| OutlinePoint { along, across };
        if self.once_in(2) {
            vec![point(Length::ZERO, Length::ZERO), point(along, Length::ZERO), point(along * 0.4, across)]
        } else {
            vec![
                point(Length::ZERO, Length::ZERO),
                point(along, across * 0.25),
                point(along, across * 0.75),
                point(Length::ZERO, across),
            ]
        }
    }

    fn piece(&mut self, place: i64, roll: bool, manners: Manners) -> CutPiece {
        let shape = self.shape(roll);
        let whole = matches!(shape, Shape::FullWidth { .. });
        let every = manners == Manners::Every;
        let mirrored = self.once_in(4);
        let count = self.between(0, 6);
        let grain = match self.between(0, 5) {
            0 if !whole => Grain::Bias,
            1 if !whole => Grain::Across,
            2 | 3 => Grain::Any,
            _ => Grain::Along,
        };
        let rectangle = matches!(shape, Shape::Rectangle { .. });
        let piece = CutPiece {
            order: self.once_in(2).then(|| format!("order {place}")),
            grain,
            on_fold: (every && rectangle && self.once_in(3)).then(|| self.one_of(&[Fold::Along, Fold::Across])),
            mirrored,
            one_way: every && self.once_in(4),
            per_garment: (every && self.once_in(4)).then(|| self.between(1, 3)),
            matching: self.once_in(3).then_some(Matching::RunOn),
            may_join: self.once_in(2).then(|| JoinRule::new(self.between(0, 3), self.size(20), self.size(3))),
            ..CutPiece::new(&format!("piece {}", place % 3), if mirrored { 2 * count } else { count }, shape)
        };
        piece.with_mark(self.once_in(2).then(|| Length::inches(0.125)))
    }

    fn manner(&mut self, steps: u64, manners: Manners) -> CuttingManner {
        let effort = Effort::of(steps);
        if manners == Manners::Usual {
            return CuttingManner { effort, ..CuttingManner::default() };
        }
        CuttingManner {
            effort,
            cuts: self.one_of(&[CutsRun::Free, CutsRun::Straight]),
            laid: self.one_of(&[Laid::Open, Laid::Open, Laid::Folded]),
            squaring: if self.once_in(4) { Length::centimetres(2.0) } else { Length::ZERO },
            keep_from: self.once_in(2).then(|| self.size(40)),
            shelf_cost_share: self.one_of(&[0.0, 0.6, 1.0]),
            pinned: Vec::new(),
        }
    }

    fn scene(&mut self, steps: u64, manners: Manners) -> Scene {
        let roll = self.once_in(3);
        let pieces = (0..self.between(1, 6)).map(|place| self.piece(place, roll, manners)).collect();
        let width = if roll { self.size(30) } else { Length::centimetres(40.0) + self.size(110) };
        let goods = Goods {
            kind: if roll { GoodsKind::Roll } else { GoodsKind::Cloth },
            put_up: (roll || self.once_in(3)).then(|| Length::centimetres(60.0) + self.size(300)),
            repeat: self.once_in(2).then(|| self.repeat()),
            napped: self.once_in(3),
            loss_per_cut: if self.once_in(4) { self.size(1) } else { Length::ZERO },
            ..Goods::cloth(width)
        };
        let stock = (0..self.between(0, 3)).map(|place| self.shelf_length(place)).collect();
        let supply = match self.between(0, 3) {
            0 => Supply::ShelfOnly,
            1 => self.offers(),
            _ => Supply::Endless,
        };
        Scene { pieces, goods, stock, supply, manner: self.manner(steps, manners) }
    }

    fn repeat(&mut self) -> Repeat {
        let along = self.size(40);
        if self.once_in(2) { Repeat::half_drop(along) } else { Repeat::straight(along) }
    }

    fn shelf_length(&mut self, place: i64) -> StockLength {
        StockLength {
            across: self.once_in(3).then(|| self.size(150)),
            count: self.between(0, 2),
            remnant: self.once_in(2),
            lot: self.once_in(2).then(|| self.one_of(&["L1", "L2"]).to_owned()),
            price: self.once_in(3).then(|| self.price()),
            ..StockLength::new(&format!("S{place}"), self.size(200))
        }
    }

    fn offers(&mut self) -> Supply {
        let priced = self.once_in(2);
        let mut offer = |name: &str, most: i64, count: Option<i64>| PutUp {
            name: name.to_owned(),
            along: Some(self.size(most)),
            across: None,
            price: priced.then(|| self.price()),
            most: count,
        };
        Supply::Offered(vec![offer("end", 120, Some(2)), offer("bolt", 400, None)])
    }

    fn price(&mut self) -> Money {
        Money::from_steps(100.0 * number::from_whole(self.between(1, 3_000)))
    }
}
