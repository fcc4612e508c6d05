//! A cutting task from two lists: what of each row goes where.

use super::*;
use crate::cutting::{CutsRun, Effort, Laid};
use crate::piece::{Fold, GoodsKind, Grain, JoinRule, Turn};
use crate::quantity::{Money, Quantity, Unit};
use crate::workshop::{LengthRow, LengthRows, PieceRow, PlanRow};

fn piece_row(along: f64, across: Option<f64>) -> PieceRow {
    PieceRow {
        name: "panel".to_owned(),
        count: 3,
        along: inches(along),
        across: across.map(inches),
        turn: Turn::Half,
        order: None,
        fold: None,
        matched: false,
        join: None,
    }
}

fn length_row(stock: &str, count: Option<i64>, along: Option<f64>, across: Option<f64>) -> LengthRow {
    LengthRow {
        stock: stock.to_owned(),
        material: None,
        lot: None,
        count,
        along: along.map(inches),
        across: across.map(inches),
        washed: false,
        price: None,
        held: false,
    }
}

fn lengths(list: Vec<LengthRow>) -> LengthRows {
    LengthRows { list, ..LengthRows::default() }
}

fn choices() -> Choices {
    Choices { straight: false, folded: false, loss: None, squaring: None, keep_from: None, effort: Effort::of(7) }
}

fn task_of(pieces: &[PieceRow], lengths: &LengthRows) -> CutTask {
    cut_task(pieces, lengths, &[], &choices(), Tape::Inch)
}

/// Goods are a roll only if every piece takes the full width; as wide as the widest length.
#[test]
fn what_the_goods_are() {
    let list = lengths(vec![
        length_row("A", Some(1), Some(90.0), Some(44.0)),
        length_row("B", Some(1), Some(80.0), Some(58.0)),
    ]);
    let strips = [piece_row(5.0, None), piece_row(6.0, None)];
    let mixed = [piece_row(5.0, None), piece_row(6.0, Some(9.0))];
    let goods = task_of(&strips, &list).goods;
    assert_eq!((goods.kind, goods.width), (GoodsKind::Roll, inches(58.0)));
    assert_eq!((goods.napped, goods.repeat, goods.loss_per_cut), (false, None, Length::ZERO));
    assert_eq!(task_of(&mixed, &list).goods.kind, GoodsKind::Cloth);
    let patterned = LengthRows { napped: true, repeat: Some(inches(24.0)), ..list };
    let goods = task_of(&mixed, &patterned).goods;
    assert_eq!((goods.napped, goods.repeat), (true, Some(Repeat::straight(inches(24.0)))));
    // A roll without a width gets one.
    let goods = task_of(&strips, &lengths(vec![length_row("A", Some(1), Some(90.0), None)])).goods;
    assert!(goods.width.is_positive());
}

/// With count and length it lies on the shelf, otherwise it is offered; a width is told if it is less than the goods'; what
/// is held is neither.
#[test]
fn lengths_lie_on_the_shelf_or_are_offered() {
    let by_length = Quantity::money(4.0).per(Quantity::of(1.0, Unit::Yard)).unwrap();
    let list = lengths(vec![
        LengthRow {
            lot: Some("7".to_owned()),
            washed: true,
            price: Some(Quantity::money(12.5)),
            ..length_row("A", Some(2), Some(90.0), Some(44.0))
        },
        LengthRow {
            price: Some(by_length),
            material: Some("lawn".to_owned()),
            ..length_row("bolt", None, None, Some(58.0))
        },
        length_row("ends", None, Some(36.0), None),
        length_row("any", Some(4), None, Some(40.0)),
        LengthRow { held: true, material: Some("net".to_owned()), ..length_row("H", Some(1), Some(50.0), Some(20.0)) },
    ]);
    let task = task_of(&[piece_row(20.0, Some(9.0))], &list);
    let price = Money::try_from(Quantity::money(12.5)).unwrap();
    let on_shelf = StockLength {
        lot: Some("7".to_owned()),
        across: Some(inches(44.0)),
        washed: true,
        count: 2,
        price: Some(price),
        ..StockLength::new("A", inches(90.0))
    };
    assert_eq!(task.stock, [on_shelf]);
    let offer = |name: &str, along: Option<f64>, across: Option<f64>, most| PutUp {
        name: name.to_owned(),
        along: along.map(inches),
        across: across.map(inches),
        price: None,
        most,
    };
    let offers = vec![
        offer("bolt", None, None, None),
        offer("ends", Some(36.0), None, None),
        offer("any", None, Some(40.0), Some(4)),
    ];
    assert_eq!(task.supply, Supply::Offered(offers));
    assert_eq!(task.prices.shelf, [Some(price)]);
    assert_eq!(task.prices.offered, [Some(by_length), None, None]);
    assert_eq!((task.material.as_deref(), task.held.as_slice()), (Some("lawn"), ["H".to_owned()].as_slice()));
    let shelf_only = task_of(&[piece_row(20.0, Some(9.0))], &lengths(vec![length_row("A", Some(2), Some(90.0), None)]));
    assert_eq!((shelf_only.supply.clone(), shelf_only.held.len()), (Supply::ShelfOnly, 0));
    // The planner gets the same.
    let planned = task.task();
    assert!(planned.pieces == task.pieces && planned.stock == task.stock && *planned.supply == task.supply);
}

#[test]
fn each_choice_is_heard() {
    let task =
        |choices: Choices| cut_task(&[piece_row(20.0, Some(9.0))], &lengths(Vec::new()), &[], &choices, Tape::Inch);
    let plain = task(choices());
    assert_eq!(plain.manner, CuttingManner { effort: Effort::of(7), ..CuttingManner::default() });
    assert_eq!(task(Choices { straight: true, ..choices() }).manner.cuts, CutsRun::Straight);
    assert_eq!(task(Choices { folded: true, ..choices() }).manner.laid, Laid::Folded);
    assert_eq!(task(Choices { squaring: Some(inches(2.0)), ..choices() }).manner.squaring, inches(2.0));
    assert_eq!(task(Choices { keep_from: Some(inches(8.0)), ..choices() }).manner.keep_from, Some(inches(8.0)));
    assert_eq!(task(Choices { loss: Some(inches(0.25)), ..choices() }).goods.loss_per_cut, inches(0.25));
}

#[test]
fn each_column_of_a_piece_is_heard() {
    let list = lengths(Vec::new());
    let made = |row: PieceRow| task_of(&[row], &list).pieces.remove(0);
    let row = || piece_row(20.0, Some(9.0));
    let plain = CutPiece { count: 3, ..rectangle("panel", 20.0, 9.0) };
    assert_eq!(made(row()), plain);
    assert_eq!(made(piece_row(20.0, None)).shape, Shape::FullWidth { along: inches(20.0) }.into());
    assert_eq!(
        made(PieceRow { order: Some("32".to_owned()), ..row() }),
        CutPiece { order: Some("32".to_owned()), ..plain.clone() }
    );
    assert_eq!(made(PieceRow { turn: Turn::None, ..row() }), CutPiece { one_way: true, ..plain.clone() });
    assert_eq!(made(PieceRow { turn: Turn::Quarter, ..row() }), CutPiece { grain: Grain::Any, ..plain.clone() });
    assert_eq!(
        made(PieceRow { fold: Some(Fold::Across), ..row() }),
        CutPiece { on_fold: Some(Fold::Across), ..plain.clone() }
    );
    assert_eq!(
        made(PieceRow { matched: true, ..row() }),
        CutPiece { matching: Some(Matching::Level), ..plain.clone() }
    );
    let join = Some(JoinRule::new(3, inches(4.0), inches(0.5)));
    assert_eq!(made(PieceRow { join, ..row() }), CutPiece { may_join: join, ..plain });
}

#[test]
fn earlier_cuts_stay_where_they_were() {
    let row = PlanRow {
        stock: "A".to_owned(),
        piece: "panel".to_owned(),
        order: Some("32".to_owned()),
        along: (inches(3.0), inches(23.0)),
        across: (inches(5.0), inches(14.0)),
        lie: Lie::Across,
        layers: Layers::Both,
        reversed: true,
        mirrored: false,
    };
    let pin = PinnedCut {
        stock: "A".to_owned(),
        piece: "panel".to_owned(),
        order: Some("32".to_owned()),
        from: inches(3.0),
        to: inches(23.0),
        across_from: inches(5.0),
        across_to: inches(14.0),
        lie: Lie::Across,
        reversed: true,
        mirrored: false,
        through: Layers::Both,
    };
    let mirrored = PlanRow { reversed: false, mirrored: true, ..row.clone() };
    let task = cut_task(&[piece_row(20.0, Some(9.0))], &lengths(Vec::new()), &[row, mirrored], &choices(), Tape::Inch);
    assert_eq!(task.manner.pinned, [pin.clone(), PinnedCut { reversed: false, mirrored: true, ..pin }]);
}

/// The workshop's tape, unless every piece is measured on the other one.
#[test]
fn pieces_choose_the_tape_only_together() {
    let metric = || PieceRow { along: Length::centimetres(50.0), ..piece_row(1.0, None) };
    let inch = || piece_row(20.0, None);
    let bare = || PieceRow { along: Length::from_steps(5e8), ..piece_row(1.0, None) };
    let tape = |pieces: &[PieceRow], tape| cut_task(pieces, &lengths(Vec::new()), &[], &choices(), tape).tape;
    let cases = [
        (vec![metric(), metric()], Tape::Metric, Tape::Metric),
        (vec![inch(), inch()], Tape::Inch, Tape::Inch),
        (vec![metric(), inch()], Tape::Inch, Tape::Metric),
        (vec![bare()], Tape::Inch, Tape::Metric),
        (Vec::new(), Tape::Inch, Tape::Metric),
    ];
    for (pieces, on_inch, on_metric) in cases {
        assert_eq!((tape(&pieces, Tape::Inch), tape(&pieces, Tape::Metric)), (on_inch, on_metric), "{pieces:?}");
    }
}
