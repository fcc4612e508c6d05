//! Compares plans of tiny lists with the best plan, found by trying everything.
//!
//! No plan is better than the best, and none claims a proof wrongly. Separate tests check that the planner reaches the
//! best.

use super::exact_search::{Place, Rectangle, cheapest, matched_fit, shortest, shortest_straight, strips_fit};
use super::strips::Draws;
use shirr::cutting::{
    self, Aim, CutsRun, CuttingError, CuttingManner, CuttingPlan, CuttingTask, Effort, Laid, StockSource, Watch,
};
use shirr::piece::{CutPiece, Fold, Goods, GoodsKind, Grain, Matching, PutUp, Repeat, Shape, StockLength, Supply};
use shirr::quantity::{Length, Money, number};
use std::sync::atomic::AtomicBool;

/// A list, what it is cut from, and the value of the best plan.
#[derive(Debug)]
struct Scene {
    pieces: Vec<CutPiece>,
    goods: Goods,
    stock: Vec<StockLength>,
    supply: Supply,
    manner: CuttingManner,
    objective: Objective,
    /// `None` if there is no plan.
    best: Option<i64>,
    /// The value that the planner must reach; above `best` where the best is not required.
    enough: Option<i64>,
}

/// What a plan is measured in.
#[derive(Clone, Copy, Debug)]
enum Objective {
    /// Centimetres laid.
    Length,
    /// New lengths.
    PutUps,
    /// Money, in units of [`MONEY_STEPS`].
    Price,
    /// New lengths beside those of the shelf.
    Bought,
}

const MONEY_STEPS: f64 = 100.0;

fn centimetres(whole: i64) -> Length {
    Length::centimetres(number::from_whole(whole))
}

fn whole_centimetres(length: Length) -> i64 {
    number::whole(length.in_centimetres()).unwrap()
}

fn strips(sizes: &[i64]) -> Vec<CutPiece> {
    let strip = |(place, size): (usize, &i64)| {
        CutPiece::new(&format!("strip {place}"), 1, Shape::FullWidth { along: centimetres(*size) })
    };
    sizes.iter().enumerate().map(strip).collect()
}

fn rectangles(list: &[Rectangle]) -> Vec<CutPiece> {
    let piece = |(place, one): (usize, &Rectangle)| {
        let shape = Shape::Rectangle { along: centimetres(one.along), across: centimetres(one.across) };
        let grain = if one.turns { Grain::Any } else { Grain::Along };
        CutPiece { grain, ..CutPiece::new(&format!("piece {place}"), 1, shape) }
    };
    list.iter().enumerate().map(piece).collect()
}

impl Scene {
    fn new(pieces: Vec<CutPiece>, goods: Goods, objective: Objective, best: Option<i64>) -> Self {
        // Enough for lists this small, and quick where the best is not found.
        let manner = CuttingManner { effort: Effort::of(50_000), ..CuttingManner::default() };
        let (stock, supply) = (Vec::new(), Supply::Endless);
        Self { pieces, goods, stock, supply, manner, objective, best, enough: best }
    }

    fn plan(&self) -> Result<CuttingPlan, CuttingError> {
        let never = AtomicBool::new(false);
        let Self { pieces, goods, stock, supply, manner, .. } = self;
        cutting::plan(&CuttingTask { pieces, goods, stock, supply, manner }, Watch::silent(&never))
    }

    fn value(&self, plan: &CuttingPlan) -> i64 {
        let each = |count: &dyn Fn(&cutting::StockUse) -> i64| plan.uses.iter().map(count).sum();
        match self.objective {
            Objective::Length => each(&|used| whole_centimetres(used.used)),
            Objective::PutUps => number::from_size(plan.uses.len()),
            Objective::Price => each(&|used| self.price(used.source)),
            Objective::Bought => each(&|used| i64::from(matches!(used.source, StockSource::New { .. }))),
        }
    }

    fn price(&self, source: StockSource) -> i64 {
        let price = match (source, &self.supply) {
            (StockSource::Shelf { entry, .. }, _) => self.stock[entry].price,
            (StockSource::New { offer, .. }, Supply::Offered(offers)) => offers[offer].price,
            (StockSource::New { .. }, _) => None,
        };
        number::whole(price.unwrap().steps() / MONEY_STEPS).unwrap()
    }

    /// Asserts that neither the plan nor its lower bound is better than the best, and that a proved plan is the best.
    fn assert_never_better(&self) {
        let plan = match (self.plan(), self.best) {
            (Ok(plan), Some(_)) => plan,
            (Ok(plan), None) => panic!("there is no plan, and here is one: {plan:?}\n{self:?}"),
            (Err(error @ CuttingError::Refused { .. }), _) => panic!("{error}\n{self:?}"),
            // `assert_reached` checks that a plan is found where there is one.
            (Err(_), _) => return,
        };
        let (value, best) = (self.value(&plan), self.best.unwrap());
        assert!(value >= best, "{value} is less than can be, {best}: {plan:?}\n{self:?}");
        if let Objective::Length = self.objective {
            let bound = plan.lower_bound.in_centimetres();
            assert!(
                bound <= number::from_whole(best) + 1e-6,
                "no plan below {bound}, and there is one of {best}\n{self:?}"
            );
        }
        let of_this = matches!(self.objective, Objective::Length) == (plan.quality.aim == Aim::Length);
        if of_this {
            let bound = plan.quality.bound_ratio * number::from_whole(value);
            assert!(
                bound <= number::from_whole(best) + 1e-6,
                "no plan below {bound}, and there is one of {best}\n{self:?}"
            );
            assert!(!plan.quality.proved || value == best, "{value} is proved, and there is one of {best}\n{self:?}");
        }
    }

    /// Asserts that the planner reaches `enough`.
    fn assert_reached(&self) {
        match (self.plan(), self.enough) {
            (Ok(plan), Some(enough)) => {
                let value = self.value(&plan);
                assert!(value <= enough, "{value} instead of {enough}: {plan:?}\n{self:?}");
            }
            (Err(error), Some(enough)) => panic!("{error}, and there is a plan of {enough}\n{self:?}"),
            (Ok(_), None) => panic!("there is no plan\n{self:?}"),
            (Err(_), None) => {}
        }
    }
}

/// Draws `count` scenes from a seed.
fn scenes(seed: u64, count: usize, scene: impl Fn(&mut Draws) -> Scene) -> Vec<Scene> {
    let mut draws = Draws::of(seed);
    (0..count).map(|_| scene(&mut draws)).collect()
}

fn all_never_better(scenes: &[Scene]) {
    scenes.iter().for_each(Scene::assert_never_better);
}

fn all_reached(scenes: &[Scene]) {
    scenes.iter().for_each(Scene::assert_reached);
}

fn sizes(draws: &mut Draws, least: i64, most: i64) -> Vec<i64> {
    (0..draws.between(3, 8)).map(|_| draws.between(least, most)).collect()
}

fn roll_goods(put_up: Option<i64>, loss: i64) -> Goods {
    Goods {
        kind: GoodsKind::Roll,
        put_up: put_up.map(centimetres),
        loss_per_cut: centimetres(loss),
        ..Goods::cloth(centimetres(15))
    }
}

/// Strips off rolls of one length, sometimes with a loss at each cut: the fewest rolls.
fn one_length() -> Vec<Scene> {
    scenes(41, 400, |draws| {
        let (sizes, loss) = (sizes(draws, 15, 60), draws.between(0, 3));
        let fits = |set: u32, length: i64| strips_fit(&sizes, set, length, loss);
        let best = cheapest(sizes.len(), &[(100, 1, None)], &fits);
        Scene::new(strips(&sizes), roll_goods(Some(100), loss), Objective::PutUps, best)
    })
}

/// Strips off lengths of several kinds: the cheapest, of the shelf alone where that holds them all.
fn several_kinds() -> Vec<Scene> {
    scenes(42, 150, |draws| {
        let (sizes, loss) = (sizes(draws, 10, 60), draws.between(0, 2));
        let fits = |set: u32, length: i64| strips_fit(&sizes, set, length, loss);
        let shelf: Vec<(i64, i64, i64)> = (0..draws.between(1, 2))
            .map(|_| (draws.between(40, 120), draws.between(20, 110), draws.between(1, 2)))
            .collect();
        let offers: Vec<(i64, i64, Option<i64>)> = match draws.between(0, 3) {
            // Nothing to buy, only the shelf.
            0 => Vec::new(),
            1 => vec![(100, 100, None)],
            2 => vec![(100, 100, None), (250, 210, None)],
            _ => vec![(150, 140, Some(1)), (90, 95, None)],
        };
        let kinds: Vec<(i64, i64, Option<i64>)> =
            shelf.iter().map(|(length, price, count)| (*length, *price, Some(*count))).chain(offers.clone()).collect();
        let on_shelf = kinds.get(..shelf.len()).unwrap();
        let best = cheapest(sizes.len(), on_shelf, &fits).or_else(|| cheapest(sizes.len(), &kinds, &fits));
        let money = |price: i64| Some(Money::from_steps(MONEY_STEPS * number::from_whole(price)));
        let mut scene = Scene::new(strips(&sizes), roll_goods(None, loss), Objective::Price, best);
        let length = |(place, (length, price, count)): (usize, &(i64, i64, i64))| StockLength {
            count: *count,
            price: money(*price),
            ..StockLength::new(&format!("S{place}"), centimetres(*length))
        };
        scene.stock = shelf.iter().enumerate().map(length).collect();
        let put_up = |(length, price, most): &(i64, i64, Option<i64>)| PutUp {
            name: format!("roll of {length}"),
            along: Some(centimetres(*length)),
            across: None,
            price: money(*price),
            most: *most,
        };
        scene.supply =
            if offers.is_empty() { Supply::ShelfOnly } else { Supply::Offered(offers.iter().map(put_up).collect()) };
        scene
    })
}

/// Lengths off the shelf and new ones, without prices: as few new ones as can be.
fn off_the_shelf() -> Vec<Scene> {
    scenes(43, 150, |draws| {
        let sizes = sizes(draws, 10, 60);
        let fits = |set: u32, length: i64| strips_fit(&sizes, set, length, 0);
        let shelf: Vec<i64> = (0..draws.between(1, 3)).map(|_| draws.between(40, 120)).collect();
        let kinds: Vec<(i64, i64, Option<i64>)> =
            shelf.iter().map(|length| (*length, 0, Some(1))).chain([(100, 1, None)]).collect();
        let best = cheapest(sizes.len(), &kinds, &fits);
        let mut scene = Scene::new(strips(&sizes), roll_goods(Some(100), 0), Objective::Bought, best);
        let length = |(place, length): (usize, &i64)| StockLength {
            remnant: place == 0,
            ..StockLength::new(&format!("S{place}"), centimetres(*length))
        };
        scene.stock = shelf.iter().enumerate().map(length).collect();
        scene
    })
}

/// Rectangles, some of which may be turned a quarter.
fn drawn_rectangles(draws: &mut Draws, width: i64, place: Place) -> Vec<Rectangle> {
    (0..draws.between(3, 6))
        .map(|_| Rectangle {
            along: draws.between(1, 4),
            across: draws.between(1, width.min(4)),
            turns: draws.between(0, 1) == 0 && width >= 5,
            place,
        })
        .collect()
}

fn free_rectangles() -> Vec<Scene> {
    scenes(44, 150, |draws| {
        let width = draws.between(5, 7);
        let list = drawn_rectangles(draws, width, Place::Anywhere);
        let best = shortest(&list, width, 1);
        Scene::new(rectangles(&list), Goods::cloth(centimetres(width)), Objective::Length, Some(best))
    })
}

fn straight_rectangles() -> Vec<Scene> {
    scenes(45, 150, |draws| {
        let width = draws.between(5, 9);
        let list = drawn_rectangles(draws, width, Place::Anywhere);
        let best = shortest_straight(&list, width);
        let mut scene = Scene::new(rectangles(&list), Goods::cloth(centimetres(width)), Objective::Length, Some(best));
        scene.manner.cuts = CutsRun::Straight;
        scene
    })
}

/// Rectangles on matched goods: every piece starts on a whole repeat.
fn matched_rectangles() -> Vec<Scene> {
    scenes(46, 150, |draws| {
        let (width, repeat) = (draws.between(5, 7), draws.between(2, 3));
        let mut list = drawn_rectangles(draws, width, Place::Anywhere);
        list.truncate(5);
        let best = shortest(&list, width, repeat);
        let goods = Goods { repeat: Some(Repeat::straight(centimetres(repeat))), ..Goods::cloth(centimetres(width)) };
        let mut pieces = rectangles(&list);
        for piece in &mut pieces {
            piece.matching = Some(Matching::Level);
        }
        Scene::new(pieces, goods, Objective::Length, Some(best))
    })
}

/// Drops of a pattern off bolts of one length.
fn matched_drops() -> Vec<Scene> {
    scenes(47, 150, |draws| {
        let (sizes, repeat) = (sizes(draws, 40, 140), draws.between(10, 64));
        let fits = |set: u32, length: i64| matched_fit(&sizes, set, length, repeat);
        let best = cheapest(sizes.len(), &[(300, 1, None)], &fits);
        // A bolt holds one repeat more than is cut from it, to find the first start.
        let repeats = Some(Repeat::straight(centimetres(repeat)));
        let goods = Goods { repeat: repeats, ..roll_goods(Some(300 + repeat), 0) };
        let mut pieces = strips(&sizes);
        for piece in &mut pieces {
            piece.matching = Some(Matching::Level);
        }
        Scene::new(pieces, goods, Objective::PutUps, best)
    })
}

/// Pairs and pieces on the fold. The planner must reach the best plan that cuts every pair through both layers; no plan
/// beats the best one that may cut each layer by itself.
fn folded_rectangles() -> Vec<Scene> {
    scenes(48, 150, |draws| {
        let width = 2 * draws.between(3, 5);
        let (mut pieces, mut apart, mut through) = (Vec::new(), Vec::new(), Vec::new());
        for place in 0..draws.between(1, 3) {
            let (along, across) = (draws.between(1, 4), draws.between(1, width / 2));
            let shape = Shape::Rectangle { along: centimetres(along), across: centimetres(across) };
            let pair = Rectangle { along, across, turns: false, place: Place::InAHalf };
            pieces.push(CutPiece::new(&format!("pair {place}"), 2, shape));
            apart.extend([pair, pair]);
            through.push(Rectangle { place: Place::Anywhere, ..pair });
        }
        for place in 0..draws.between(0, 2) {
            let (along, across) = (draws.between(1, 4), 2 * draws.between(1, width / 2));
            let shape = Shape::Rectangle { along: centimetres(along), across: centimetres(across) };
            let one = Rectangle { along, across, turns: false, place: Place::InAHalfOrMiddle };
            pieces.push(CutPiece { on_fold: Some(Fold::Along), ..CutPiece::new(&format!("back {place}"), 1, shape) });
            apart.push(one);
            through.push(Rectangle { across: across / 2, place: Place::AtTheEdge, ..one });
        }
        let best = shortest(&apart, width, 1);
        let mut scene = Scene::new(pieces, Goods::cloth(centimetres(width)), Objective::Length, Some(best));
        scene.enough = Some(shortest(&through, width / 2, 1));
        scene.manner.laid = Laid::Folded;
        scene
    })
}

#[test]
fn no_plan_off_rolls_is_better_than_the_best() {
    all_never_better(&one_length());
    all_never_better(&several_kinds());
    all_never_better(&off_the_shelf());
}

#[test]
fn no_lay_is_better_than_the_best() {
    all_never_better(&free_rectangles());
    all_never_better(&straight_rectangles());
}

#[test]
fn no_matched_plan_is_better_than_the_best() {
    all_never_better(&matched_rectangles());
    all_never_better(&matched_drops());
}

#[test]
fn no_lay_on_the_fold_is_better_than_the_best() {
    all_never_better(&folded_rectangles());
}

#[test]
fn the_fewest_rolls_are_found() {
    all_reached(&one_length());
}

#[test]
fn the_cheapest_of_several_kinds_are_found() {
    all_reached(&several_kinds());
}

#[test]
fn the_shelf_is_weighed_against_new_lengths() {
    all_reached(&off_the_shelf());
}

#[test]
fn the_shortest_lay_is_found() {
    all_reached(&free_rectangles());
}

#[test]
fn the_shortest_straight_lay_is_found() {
    all_reached(&straight_rectangles());
}

#[test]
fn the_shortest_matched_lay_is_found() {
    all_reached(&matched_rectangles());
}

#[test]
fn matched_drops_take_the_fewest_bolts() {
    all_reached(&matched_drops());
}

#[test]
fn a_lay_on_the_fold_is_no_longer_than_cut_through_both_layers() {
    all_reached(&folded_rectangles());
}
