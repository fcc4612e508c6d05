//! Random small lists through planner and verifier, and simple plans that no plan may be worse than.

use super::*;
use crate::quantity::Money;

/// A repeatable stream of numbers.
struct Draw(u64);

impl Draw {
    /// A whole number below `below`.
    fn below(&mut self, below: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        i64::try_from(self.0 >> 33).unwrap() % below
    }

    fn chance(&mut self, one_in: i64) -> bool {
        self.below(one_in) == 0
    }

    /// A number of quarter centimetres, at least one; sometimes a third of that, which is not whole.
    fn size(&mut self, most: i64) -> Length {
        let quarters = cm(0.25) * crate::quantity::number::from_whole(1 + self.below(4 * most));
        if self.chance(5) { quarters / 3.0 } else { quarters }
    }

    fn price(&mut self) -> Option<Money> {
        (!self.chance(3)).then(|| Money::from_steps(crate::quantity::number::from_whole(self.below(900_000))))
    }

    fn shape(&mut self, roll: bool) -> Shape {
        match self.below(if roll { 1 } else { 6 }) {
            0 => Shape::FullWidth { along: self.size(90) },
            1 => {
                let outer = self.size(60);
                Shape::Sector {
                    inner: outer * 0.3,
                    outer,
                    turn: [0.2, 0.25, 0.4, 0.5, 0.75, 1.0][usize::try_from(self.below(6)).unwrap()],
                }
            }
            2 => {
                let mut corners: Vec<OutlinePoint> = (0..3 + self.below(5))
                    .map(|_| OutlinePoint { along: self.size(60), across: self.size(60) })
                    .collect();
                // Mostly in order round their middle, so that the outline does not cross itself.
                if !self.chance(5) {
                    let many = crate::quantity::number::from_count(corners.len());
                    let along: Length = corners.iter().map(|corner| corner.along).sum::<Length>() / many;
                    let across: Length = corners.iter().map(|corner| corner.across).sum::<Length>() / many;
                    let angle =
                        |corner: &OutlinePoint| (corner.across - across).steps().atan2((corner.along - along).steps());
                    corners.sort_by(|one, two| angle(one).total_cmp(&angle(two)));
                }
                Shape::Outline(corners)
            }
            _ => Shape::Rectangle { along: self.size(90), across: self.size(170) },
        }
    }

    fn piece(&mut self, place: i64, roll: bool) -> CutPiece {
        let shape = self.shape(roll);
        let whole = matches!(shape, Shape::FullWidth { .. });
        let mirrored = self.chance(4);
        let count = self.below(7);
        let piece = CutPiece {
            order: self.chance(2).then(|| format!("order {place}")),
            grain: match self.below(6) {
                0 if !whole => Grain::Bias,
                1 if !whole => Grain::Across,
                2 | 3 => Grain::Any,
                _ => Grain::Along,
            },
            mirrored,
            on_fold: match self.below(6) {
                0 => Some(Fold::Along),
                1 => Some(Fold::Across),
                _ => None,
            },
            one_way: self.chance(4),
            per_garment: self.chance(2).then(|| 1 + self.below(3)),
            matching: match self.below(6) {
                0 => Some(Matching::Level),
                1 => Some(Matching::RunOn),
                2 => Some(Matching::Shifts((0..count).map(|place| place * place - 2).collect())),
                _ => None,
            },
            may_join: self.chance(2).then(|| JoinRule::new(self.below(4), self.size(20), self.size(3))),
            ..CutPiece::new(&format!("piece {}", place % 3), if mirrored { 2 * count } else { count }, shape)
        };
        piece.with_mark(self.chance(2).then(|| inches(0.125)))
    }

    fn scene(&mut self) -> (Vec<CutPiece>, Goods, Vec<StockLength>, Supply) {
        let roll = self.chance(3);
        let pieces = (0..=self.below(5)).map(|place| self.piece(place, roll)).collect();
        let width = if roll { self.size(30) } else { cm(40.0) + self.size(110) };
        let goods = Goods {
            kind: if roll { GoodsKind::Roll } else { GoodsKind::Cloth },
            put_up: (roll || self.chance(3)).then(|| cm(60.0) + self.size(300)),
            repeat: self.chance(2).then(|| {
                let along = self.size(40);
                match self.below(3) {
                    0 => Repeat::straight(along),
                    1 => Repeat::half_drop(along),
                    _ => Repeat { along, shift: along / 3.0 },
                }
            }),
            napped: self.chance(3),
            loss_per_cut: if self.chance(4) { self.size(1) } else { Length::ZERO },
            ..Goods::cloth(width)
        };
        let stock = (0..self.below(4))
            .map(|place| StockLength {
                across: self.chance(3).then(|| self.size(150)),
                count: self.below(3),
                remnant: self.chance(2),
                lot: self.chance(2).then(|| "L1".to_owned()),
                price: self.price(),
                washed: self.chance(4),
                ..StockLength::new(&format!("S{place}"), self.size(200))
            })
            .collect();
        let supply = match self.below(4) {
            0 => Supply::ShelfOnly,
            1 => Supply::Offered(vec![
                PutUp {
                    name: "end".into(),
                    along: Some(self.size(120)),
                    across: None,
                    price: self.price(),
                    most: Some(2),
                },
                PutUp {
                    name: "bolt".into(),
                    along: Some(self.size(400)),
                    across: None,
                    price: self.price(),
                    most: None,
                },
            ]),
            _ => Supply::Endless,
        };
        (pieces, goods, stock, supply)
    }
}

#[test]
fn ten_thousand_small_lists() {
    let mut draw = Draw(20_260_101);
    let (mut made, mut joined, mut mixed, mut drawn, mut priced) = (0, 0, 0, 0, 0);
    for round in 0..10_000 {
        let (pieces, goods, stock, supply) = draw.scene();
        match planned(&pieces, &goods, &stock, &supply) {
            Ok(plan) => {
                made += 1;
                joined += i64::from(!plan.joins.is_empty());
                mixed += i64::from(plan.uses.len() > 2);
                let outline = |piece: &CutPiece| matches!(*piece.shape, Shape::Outline(_)) && piece.count > 0;
                drawn += i64::from(pieces.iter().any(outline));
                priced += i64::from(plan.cost.is_some_and(|cost| cost.steps() > 0.0));
                let pieces_and_parts: usize = plan.uses.iter().map(|used| used.cuts.len()).sum();
                assert!(plan.uses.len() <= pieces_and_parts, "list {round}");
            }
            Err(error @ CuttingError::Refused { .. }) => {
                panic!("list {round}: {error}\n{pieces:?}\n{goods:?}\n{stock:?}")
            }
            Err(_) => {}
        }
    }
    assert!(made > 3_000 && joined > 100 && mixed > 300, "{made} made, {joined} joined, {mixed} of several lengths");
    assert!(drawn > 200 && priced > 200, "{drawn} with outlines, {priced} with a cost");
}

/// One edge of one cut of a sound plan, moved by a hair: always rejected.
#[test]
fn no_edge_of_any_cut_may_move() {
    let (mut draw, mut damaged) = (Draw(31), 0);
    for round in 0..3_000 {
        let (pieces, goods, stock, supply) = draw.scene();
        let Ok(mut plan) = planned(&pieces, &goods, &stock, &supply) else { continue };
        let cuts = plan.uses.iter().map(|used| used.cuts.len()).sum::<usize>();
        if cuts == 0 {
            continue;
        }
        let chosen = usize::try_from(draw.below(i64::try_from(cuts).unwrap())).unwrap();
        let cut = plan.uses.iter_mut().flat_map(|used| &mut used.cuts).nth(chosen).unwrap();
        // More than the nanometre of tolerance for a third of a size.
        let hair = Length::from_steps(if draw.chance(2) { 40.0 } else { -40.0 });
        let edge = match draw.below(4) {
            0 => &mut cut.from,
            1 => &mut cut.to,
            2 => &mut cut.across_from,
            _ => &mut cut.across_to,
        };
        *edge = *edge + hair;
        assert!(check(&plan, &task(&pieces, &goods, &stock, &supply)).is_err(), "list {round}: {plan:?}");
        damaged += 1;
    }
    assert!(damaged > 1_000, "{damaged}");
}

/// One piece after another, each in a row of its own: the simplest plan.
#[test]
fn never_worse_than_one_at_a_time() {
    let mut draw = Draw(7);
    for round in 0..10_000 {
        let goods = Goods::cloth(cm(100.0));
        let pieces: Vec<CutPiece> = (0..=draw.below(6))
            .map(|_| CutPiece {
                grain: if draw.chance(2) { Grain::Any } else { Grain::Along },
                ..rectangle("piece", draw.below(9), draw.size(99), draw.size(99))
            })
            .collect();
        let plan = planned(&pieces, &goods, &[], &Supply::Endless).unwrap();
        let one_by_one: Length = pieces
            .iter()
            .map(|piece| {
                let Shape::Rectangle { along, across } = *piece.shape else { panic!("only rectangles are drawn") };
                let turned = if piece.grain == Grain::Any { along.least(across) } else { along };
                turned * crate::quantity::number::from_whole(piece.count)
            })
            .sum();
        assert!(plan.length_used <= one_by_one, "list {round}: {:?} against {one_by_one:?}", plan.length_used);
        assert!(plan.lower_bound <= plan.length_used);
    }
}

#[test]
fn rolls_are_never_more_than_next_fit_takes() {
    let mut draw = Draw(99);
    for round in 0..10_000 {
        let pieces: Vec<CutPiece> = (0..=draw.below(6)).map(|_| strips(draw.below(12), draw.size(100))).collect();
        let goods = Goods::roll(cm(15.0), cm(100.0) + draw.size(200));
        let plan = planned(&pieces, &goods, &[], &Supply::Endless).unwrap();
        // Next fit: cut longest first, each roll put away when the next strip does not fit.
        let mut lengths: Vec<f64> = pieces
            .iter()
            .flat_map(|piece| {
                let Shape::FullWidth { along } = *piece.shape else { panic!("only strips are drawn") };
                std::iter::repeat_n(along.steps(), usize::try_from(piece.count).unwrap())
            })
            .collect();
        lengths.sort_by(|left, right| right.total_cmp(left));
        let (mut rolls, mut room) = (0, 0.0);
        for length in lengths {
            if length > room + 1.0 {
                rolls += 1;
                room = goods.put_up.unwrap().steps();
            }
            room -= length;
        }
        assert!(plan.put_ups_bought() <= rolls, "list {round}: {} against {rolls}", plan.put_ups_bought());
    }
}

#[test]
fn a_hundred_thousand_pieces_are_quick() {
    let many = [
        (vec![strips(1_000_000, inches(54.0))], tulle()),
        (vec![strips(100_000, inches(54.0))], tulle()),
        (
            vec![rectangle("square", 100_000, cm(13.0), cm(11.0))],
            Goods { put_up: Some(cm(1500.0)), ..Goods::cloth(cm(112.0)) },
        ),
        (
            vec![CutPiece { matching: Some(Matching::RunOn), ..strips(100_000, cm(250.0)) }],
            Goods { repeat: Some(Repeat::half_drop(cm(64.0))), put_up: Some(cm(3000.0)), ..Goods::cloth(cm(137.0)) },
        ),
        (
            (0..100_000)
                .map(|place| {
                    rectangle(
                        "all unlike",
                        1,
                        cm(10.0 + f64::from(place) / 10_000.0),
                        cm(11.0 + f64::from(place % 977) / 100.0),
                    )
                })
                .collect(),
            Goods { put_up: Some(cm(1500.0)), ..Goods::cloth(cm(112.0)) },
        ),
    ];
    for (pieces, goods) in many {
        let plan = planned(&pieces, &goods, &[], &Supply::Endless).unwrap();
        let cut: usize = plan.uses.iter().map(|one| one.cuts.len()).sum();
        assert_eq!(cut, pieces.iter().map(|piece| usize::try_from(piece.count).unwrap()).sum::<usize>());
    }
}
