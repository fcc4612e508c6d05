//! A task has one key and a plan is made once: what changes the key, and what is cached.

use super::*;
use crate::cutting::task::task_key::key;
use crate::quantity::Money;
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// A task that owns its parts.
#[derive(Clone, Debug)]
struct Whole {
    pieces: Vec<CutPiece>,
    goods: Goods,
    stock: Vec<StockLength>,
    supply: Supply,
    manner: CuttingManner,
}

impl Whole {
    fn task(&self) -> CuttingTask<'_> {
        let Self { pieces, goods, stock, supply, manner } = self;
        CuttingTask { pieces, goods, stock, supply, manner }
    }

    fn plan(&self) -> String {
        format!("{:?}", plan(&self.task(), Watch::silent(&AtomicBool::new(false))))
    }
}

fn whole() -> Whole {
    let rule = JoinRule { most: 2, shortest: cm(10.0), allowance: cm(1.0) };
    let panel = CutPiece {
        order: Some("7".into()),
        on_fold: Some(Fold::Along),
        per_garment: Some(2),
        may_join: Some(rule),
        ..rectangle("panel", 2, cm(40.0), cm(30.0))
    };
    let panel = panel.with_mark(Some(cm(0.1)));
    let corners = [(0.0, 0.0), (20.0, 0.0), (0.0, 10.0)];
    let corners = corners.map(|(along, across)| OutlinePoint { along: cm(along), across: cm(across) });
    let pieces = vec![
        panel,
        CutPiece::new("strap", 1, Shape::FullWidth { along: cm(5.0) }),
        CutPiece::new("ring", 1, Shape::Sector { inner: cm(5.0), outer: cm(15.0), turn: 0.5 }),
        CutPiece::new("gusset", 2, Shape::Outline(corners.to_vec())),
    ];
    let goods = Goods { put_up: Some(cm(500.0)), repeat: Some(Repeat::straight(cm(8.0))), ..Goods::cloth(cm(90.0)) };
    let on_shelf = StockLength {
        lot: Some("A".into()),
        across: Some(cm(80.0)),
        price: Some(Money::from_steps(3.0)),
        ..StockLength::new("B1", cm(120.0))
    };
    let offer = PutUp {
        name: "bolt".into(),
        along: Some(cm(300.0)),
        across: Some(cm(85.0)),
        price: Some(Money::from_steps(9.0)),
        most: Some(4),
    };
    let pinned = PinnedCut {
        stock: "B1".into(),
        piece: "panel".into(),
        order: Some("7".into()),
        from: cm(0.0),
        to: cm(40.0),
        across_from: cm(0.0),
        across_to: cm(30.0),
        lie: Lie::Along,
        reversed: false,
        mirrored: false,
        through: Layers::One,
    };
    let manner = CuttingManner {
        keep_from: Some(cm(25.0)),
        effort: Effort::of(3_000),
        pinned: vec![pinned],
        ..CuttingManner::default()
    };
    Whole { pieces, goods, stock: vec![on_shelf], supply: Supply::Offered(vec![offer]), manner }
}

/// Changes a length by the smallest amount.
fn nudged(length: &mut Length) {
    *length = Length::from_steps(f64::from_bits(length.steps().to_bits() + 1)).liking(length.liked());
}

fn nudged_some(length: &mut Option<Length>) {
    nudged(length.as_mut().unwrap());
}

fn reshaped(piece: &mut CutPiece, change: impl FnOnce(&mut Shape)) {
    let mut shape = Shape::clone(&piece.shape);
    change(&mut shape);
    piece.shape = shape.into();
}

/// Every field of a task changed, one at a time.
const CHANGES: &[fn(&mut Whole)] = &[
    |task| task.pieces.swap(0, 1),
    |task| drop(task.pieces.pop()),
    |task| task.pieces[0].name.push('s'),
    |task| task.pieces[0].order = None,
    |task| task.pieces[0].order = Some("8".into()),
    |task| task.pieces[0].count = 4,
    |task| task.pieces[0].grain = Grain::Across,
    |task| task.pieces[0].grain = Grain::Bias,
    |task| task.pieces[0].grain = Grain::Any,
    |task| task.pieces[0].on_fold = None,
    |task| task.pieces[0].on_fold = Some(Fold::Across),
    |task| task.pieces[0].mirrored = true,
    |task| task.pieces[0].one_way = true,
    |task| task.pieces[0].per_garment = None,
    |task| task.pieces[0].per_garment = Some(1),
    |task| task.pieces[0].matching = Some(Matching::Level),
    |task| task.pieces[0].matching = Some(Matching::RunOn),
    |task| task.pieces[0].matching = Some(Matching::Shifts(vec![0])),
    |task| task.pieces[0].matching = Some(Matching::Shifts(vec![0, 1])),
    |task| task.pieces[0].may_join = None,
    |task| task.pieces[0].may_join.as_mut().unwrap().most = 3,
    |task| nudged(&mut task.pieces[0].may_join.as_mut().unwrap().shortest),
    |task| nudged(&mut task.pieces[0].may_join.as_mut().unwrap().allowance),
    |task| task.pieces[0].never_smaller = true,
    |task| task.pieces[0] = task.pieces[0].clone().with_mark(None),
    |task| {
        let mut mark = task.pieces[0].shape.mark();
        nudged_some(&mut mark);
        task.pieces[0] = task.pieces[0].clone().with_mark(mark);
    },
    |task| task.pieces[0].shape = Shape::Rectangle { along: cm(30.0), across: cm(40.0) }.into(),
    |task| task.pieces[0].shape = Shape::FullWidth { along: cm(40.0) }.into(),
    // The same length, shown in another unit.
    |task| task.pieces[1].shape = Shape::FullWidth { along: cm(5.0).liking(inches(1.0).liked()) }.into(),
    |task| {
        reshaped(&mut task.pieces[2], |shape| match shape {
            Shape::Sector { inner, .. } => nudged(inner),
            _ => unreachable!(),
        });
    },
    |task| {
        reshaped(&mut task.pieces[2], |shape| match shape {
            Shape::Sector { outer, .. } => nudged(outer),
            _ => unreachable!(),
        });
    },
    |task| {
        reshaped(&mut task.pieces[2], |shape| match shape {
            Shape::Sector { turn, .. } => *turn = 0.25,
            _ => unreachable!(),
        });
    },
    |task| {
        reshaped(&mut task.pieces[3], |shape| match shape {
            Shape::Outline(points) => points.reverse(),
            _ => unreachable!(),
        });
    },
    |task| {
        reshaped(&mut task.pieces[3], |shape| match shape {
            Shape::Outline(points) => nudged(&mut points[1].along),
            _ => unreachable!(),
        });
    },
    |task| task.goods.kind = GoodsKind::Roll,
    |task| nudged(&mut task.goods.width),
    |task| task.goods.put_up = None,
    |task| nudged_some(&mut task.goods.put_up),
    |task| task.goods.repeat = None,
    |task| nudged(&mut task.goods.repeat.as_mut().unwrap().along),
    |task| nudged(&mut task.goods.repeat.as_mut().unwrap().shift),
    |task| task.goods.napped = true,
    |task| task.goods.loss_per_cut = cm(0.1),
    |task| task.stock.clear(),
    |task| task.stock[0].name = "B2".into(),
    |task| task.stock[0].lot = None,
    |task| task.stock[0].lot = Some("B".into()),
    |task| nudged(&mut task.stock[0].along),
    |task| task.stock[0].across = None,
    |task| task.stock[0].washed = true,
    |task| nudged_some(&mut task.stock[0].across),
    |task| task.stock[0].count = 2,
    |task| task.stock[0].price = None,
    |task| task.stock[0].price = Some(Money::from_steps(4.0)),
    |task| task.stock[0].remnant = true,
    |task| task.supply = Supply::Endless,
    |task| task.supply = Supply::ShelfOnly,
    |task| task.supply = Supply::Offered(Vec::new()),
    |task| offered(task).name = "roll".into(),
    |task| offered(task).along = None,
    |task| nudged_some(&mut offered(task).along),
    |task| nudged_some(&mut offered(task).across),
    |task| offered(task).price = None,
    |task| offered(task).most = None,
    |task| offered(task).most = Some(5),
    |task| task.manner.cuts = CutsRun::Straight,
    |task| task.manner.laid = Laid::Folded,
    |task| task.manner.squaring = cm(0.5),
    |task| task.manner.keep_from = None,
    |task| nudged_some(&mut task.manner.keep_from),
    |task| task.manner.shelf_cost_share = 0.002,
    |task| task.manner.effort.steps = 3_001,
    |task| task.manner.effort.seed = 2,
    |task| task.manner.pinned.clear(),
    |task| task.manner.pinned[0].stock = "B2".into(),
    |task| task.manner.pinned[0].piece = "strap".into(),
    |task| task.manner.pinned[0].order = None,
    |task| task.manner.pinned[0].from = cm(1.0),
    |task| nudged(&mut task.manner.pinned[0].to),
    |task| task.manner.pinned[0].across_from = cm(1.0),
    |task| nudged(&mut task.manner.pinned[0].across_to),
    |task| task.manner.pinned[0].lie = Lie::Across,
    |task| task.manner.pinned[0].lie = Lie::Bias,
    |task| task.manner.pinned[0].reversed = true,
    |task| task.manner.pinned[0].mirrored = true,
    |task| task.manner.pinned[0].through = Layers::Both,
    |task| task.manner.pinned[0].through = Layers::Fold,
];

fn offered(task: &mut Whole) -> &mut PutUp {
    match &mut task.supply {
        Supply::Offered(offers) => &mut offers[0],
        _ => unreachable!(),
    }
}

#[test]
fn every_field_of_a_task_is_in_its_key() {
    assert_eq!(key(&whole().task()), key(&whole().task()));
    let changed = CHANGES.iter().map(|change| {
        let mut task = whole();
        change(&mut task);
        (key(&task.task()), format!("{task:?}"))
    });
    let mut keys: Vec<(Vec<u8>, String)> = changed.collect();
    keys.push((key(&whole().task()), "unchanged".to_owned()));
    keys.sort();
    for pair in keys.windows(2) {
        assert_ne!(pair[0].0, pair[1].0, "{}\n{}", pair[0].1, pair[1].1);
    }
}

/// Lists of rectangles and other shapes, on different goods and stock.
fn small_tasks() -> Vec<Whole> {
    let mut tasks = Vec::new();
    let mut random = fastrand::Rng::with_seed(7);
    for _ in 0..60 {
        let mut size = |most: u32| cm(f64::from(random.u32(5..most)) + 0.5);
        let mut pieces = vec![rectangle("panel", 3, size(60), size(60)), rectangle("cuff", 4, size(30), size(20))];
        let kind = tasks.len() % 4;
        let band = match kind {
            0 => Shape::FullWidth { along: size(40) },
            1 => Shape::Sector { inner: cm(4.0), outer: size(30), turn: 0.5 },
            2 => Shape::Rectangle { along: size(100), across: size(10) },
            _ => Shape::Outline(
                [(0.0, 0.0), (30.0, 4.0), (30.0, 16.0), (0.0, 20.0)]
                    .map(|(along, across)| OutlinePoint { along: cm(along), across: cm(across) })
                    .to_vec(),
            ),
        };
        pieces.push(CutPiece::new("band", 2, band));
        let put_up = (tasks.len() % 3 == 2).then_some(cm(200.0));
        let goods = Goods { put_up, ..Goods::cloth(cm(90.0)) };
        let stock = if tasks.len() % 5 == 4 { vec![StockLength::new("B1", size(150))] } else { Vec::new() };
        let manner = CuttingManner { effort: Effort::of(2_000), ..CuttingManner::default() };
        tasks.push(Whole { pieces, goods, stock, supply: Supply::Endless, manner });
    }
    tasks
}

#[test]
fn tasks_of_one_key_have_one_plan() {
    let mut shared = 0;
    for task in small_tasks() {
        let kept = |keep_from| {
            let mut task = task.clone();
            task.manner.keep_from = keep_from;
            (key(&task.task()), task.plan())
        };
        let plain = kept(None);
        for keep_from in [Length::ZERO, cm(20.0)] {
            let other = kept(Some(keep_from));
            if other.0 == plain.0 {
                assert_eq!(other.1, plain.1, "{task:?}");
                shared += 1;
            }
        }
    }
    assert!(shared > 40, "{shared} pairs share a key");
}

#[test]
fn a_plan_is_made_once_and_is_that_of_a_fresh_planner() {
    let planner = Planner::default();
    let tasks = small_tasks();
    for round in 0..3 {
        for task in &tasks {
            let plan = planner.plan(&task.task()).map(|plan| CuttingPlan::clone(&plan));
            if round != 1 {
                assert_eq!(format!("{plan:?}"), task.plan());
            }
        }
    }
    assert_eq!(planner.made(), u64::try_from(tasks.len()).unwrap());
    // A clone shares the cache, on another thread as well.
    let other = planner.clone();
    let task = tasks[0].clone();
    assert!(std::thread::spawn(move || other.plan(&task.task()).is_ok()).join().unwrap());
    assert_eq!(planner.made(), u64::try_from(tasks.len()).unwrap());
}

#[test]
fn a_plan_that_was_stopped_is_not_kept() {
    let stop = Arc::new(AtomicBool::new(true));
    let planner = Planner::new(Arc::clone(&stop));
    let mut hard = whole();
    hard.manner.pinned.clear();
    hard.manner.effort = Effort::of(50_000);
    // Without lots, which are planned one after another.
    hard.stock.clear();
    hard.supply = Supply::Endless;
    hard.pieces[3].count = 12;
    assert_eq!(planner.plan(&hard.task()), Err(CuttingError::Stopped));
    stop.store(false, Ordering::Relaxed);
    let raise = |_: Progress| stop.store(true, Ordering::Relaxed);
    let broken_off = planner.plan_watched(&hard.task(), &raise).unwrap();
    assert!(broken_off.quality.stopped);
    stop.store(false, Ordering::Relaxed);
    let made = planner.made();
    let plan = planner.plan(&hard.task()).unwrap();
    assert!(!plan.quality.stopped);
    assert_eq!((planner.made(), format!("Ok({plan:?})")), (made + 1, hard.plan()));
    // A raised flag ends the work even if the plan is cached.
    stop.store(true, Ordering::Relaxed);
    assert_eq!(planner.plan(&hard.task()), Err(CuttingError::Stopped));
}

/// By hand, with the text of each behind its length: without lengths these pairs would be the same bytes.
#[test]
fn where_one_text_or_list_ends_and_the_next_begins_is_in_the_key() {
    let keys = |change: fn(&mut CutPiece, bool)| {
        [false, true].map(|other| {
            let mut task = whole();
            change(&mut task.pieces[0], other);
            key(&task.task())
        })
    };
    let changes: [fn(&mut CutPiece, bool); 2] = [
        |piece, other| {
            // The byte between name and order, one for an order that is there, is a letter here.
            let (name, order) = if other { ("a", "b\u{1}c") } else { ("a\u{1}b", "c") };
            (piece.name, piece.order) = (name.to_owned(), Some(order.to_owned()));
        },
        |piece, other| {
            // One shift of 513, which is 1 and 2 as bytes, and no number; no shift, one for a number, and 2.
            let (shifts, number) = if other { (vec![], Some(2)) } else { (vec![513], None) };
            (piece.matching, piece.per_garment) = (Some(Matching::Shifts(shifts)), number);
        },
    ];
    for (place, change) in changes.into_iter().enumerate() {
        let [one, other] = keys(change);
        assert_ne!(one, other, "{place}");
    }
}

/// What a leftover must measure to be kept changes nothing only where every length is cut off as needed.
#[test]
fn what_is_kept_is_left_out_of_the_key_only_where_nothing_is_left() {
    let same = |change: &dyn Fn(&mut Whole)| {
        let of = |keep_from| {
            let mut task = whole();
            task.pieces.truncate(2);
            (task.stock, task.supply, task.goods.put_up) = (Vec::new(), Supply::Endless, None);
            task.manner = CuttingManner { keep_from, ..CuttingManner::default() };
            change(&mut task);
            key(&task.task())
        };
        of(None) == of(Some(cm(20.0)))
    };
    let offer = |along| PutUp { name: "bolt".into(), along, across: None, price: None, most: None };
    assert!(same(&|_| {}));
    assert!(!same(&|task| task.goods.put_up = Some(cm(500.0))));
    assert!(!same(&|task| task.supply = Supply::ShelfOnly));
    assert!(same(&|task| task.supply = Supply::Offered(vec![offer(None), offer(None)])));
    assert!(!same(&|task| task.supply = Supply::Offered(vec![offer(None), offer(Some(cm(500.0)))])));
    assert!(!same(&|task| task.stock = vec![StockLength::new("B1", cm(90.0))]));
    assert!(!same(&|task| task.manner.pinned = whole().manner.pinned));
    // Only full widths, or no piece to place beside them.
    assert!(!same(&|task| drop(task.pieces.remove(0))));
    assert!(!same(&|task| task.pieces[0].count = 0));
    assert!(same(&|task| task.pieces[0].count = 1));
}
