//! What a workshop really plans: orders of the shipped recipes, several to a cloth, drawn from a seed.
//!
//! A lay or roll plan is a theme (a handful of recipes that share a cloth) on one kind of goods. The recipes give
//! pieces and goods; what no shipped recipe asks for (a piece on the fold, a strip that may be joined) is added here.

use super::draw::Draw;
use super::instance::{Instance, Measure};
use super::read::long_run;
use shirr::cutting::{CutsRun, CuttingManner, Laid};
use shirr::engine::limits::StopFlag;
use shirr::piece::{CutPiece, Fold, Goods, GoodsKind, JoinRule, PutUp, Shape, StockLength, Supply};
use shirr::quantity::{Length, Money};
use shirr::recipe::run::answer_in;
use shirr::recipe::{Reply, Task, library};
use shirr::ticket::{self, CuttingList};
use shirr::workshop::Workshop;

/// The file of references.
pub(crate) const FILE: &str = "own_work.csv";

/// An instance to plan, and the orders it comes from.
#[derive(Clone, Debug)]
pub(crate) struct OwnWork {
    pub(crate) kind: Kind,
    pub(crate) instance: Instance,
    pub(crate) orders: Vec<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// Pieces side by side on cloth.
    Lay,
    /// Full widths off rolls and bolts.
    RollPlan,
}

impl Kind {
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Lay => "lay",
            Self::RollPlan => "roll plan",
        }
    }
}

/// Recipes that share a cloth: for each, the recipe, the input for the cloth, and the other answers.
type Theme = (&'static str, &'static [(&'static str, &'static str, &'static str)]);

/// `{waist}`, `{hips}`, `{skirt}`, `{arm}` and `{head}` are filled in from a drawn size.
const LAY_THEMES: [Theme; 8] = [
    (
        "gathered skirts",
        &[
            ("gathered_skirt", "cloth", "waist={waist}; hips={hips}; skirt={skirt}; elastic=any"),
            ("gathered_skirt", "cloth", "waist={waist}; skirt={skirt}; top=band; fullness=2.5"),
            ("tiered_skirt", "cloth", "waist={waist}; hips={hips}; skirt={skirt}; elastic=any"),
        ],
    ),
    (
        "gored skirts",
        &[
            ("gored_skirt", "cloth", "waist={waist}; hips={hips}; skirt={skirt}; hip_depth=5 in; hem_round=72 in"),
            (
                "gored_skirt",
                "cloth",
                "waist={waist}; hips={hips}; skirt={skirt}; hip_depth=5 in; hem_round=96 in; gores=8",
            ),
            (
                "gored_skirt",
                "cloth",
                "waist={waist}; hips={hips}; skirt={skirt}; hip_depth=5 in; hem_round=66 in; longer=1 in; gores=7",
            ),
        ],
    ),
    (
        "circle skirts",
        &[
            ("circle_skirt", "cloth", "waist={waist}; skirt={skirt}; circle=half"),
            ("circle_skirt", "cloth", "waist={waist}; skirt={skirt}; circle=full"),
            ("circle_skirt", "cloth", "waist={waist}; skirt={skirt}; circle=quarter; ease=2 in"),
        ],
    ),
    (
        "pleats",
        &[
            (
                "pleated_skirt",
                "cloth",
                "waist={waist}; hips={hips}; skirt={skirt}; hip_depth=5 in; pleats=16; depth=3/4 in",
            ),
            ("pleated_strip", "cloth", "edge=2 yd; deep=6 in"),
        ],
    ),
    (
        "sleeves",
        &[
            ("puff_sleeve", "cloth", "head={head}; arm={arm}; sleeve=2 in; cap=4 in; end=elastic; elastic=any"),
            ("puff_sleeve", "cloth", "head={head}; arm={arm}; sleeve=3 in; cap=4 in; end=cuff"),
            ("bishop_sleeve", "cloth", "arm={arm}; wrist=5 3/4 in; sleeve=15 in; cap=4 1/2 in"),
            ("bell_sleeve", "cloth", "arm={arm}; sleeve=14 in; cap=5 in; flare=9 in"),
        ],
    ),
    (
        "bags and cushions",
        &[
            ("drawstring_bag", "cloth", "wide=9 in; high=12 in; cord=any"),
            ("drawstring_bag", "cloth", "wide=5 1/2 in; high=7 in; cord=any"),
            ("drawstring_bag", "cloth", "wide=14 in; high=18 in; cord=any"),
            ("ruffled_cushion", "cloth", "wide=15 in; high=12 in"),
        ],
    ),
    (
        "flounces and frills",
        &[
            ("circular_flounce", "cloth", "edge=2 yd; depth=5 in"),
            ("circular_flounce", "cloth", "edge=42 in; depth=3 in"),
            ("gathered_trim", "cloth", "edge=58 in; depth=2 in; form=ring; kind=double; fullness=2.5"),
            ("sash_and_bow", "cloth", "round={waist}"),
        ],
    ),
    (
        "a whole wardrobe",
        &[
            ("gored_skirt", "cloth", "waist={waist}; hips={hips}; skirt={skirt}; hip_depth=5 in; hem_round=80 in"),
            ("circle_skirt", "cloth", "waist={waist}; skirt={skirt}; circle=half"),
            ("bishop_sleeve", "cloth", "arm={arm}; wrist=5 3/4 in; sleeve=15 in; cap=4 1/2 in"),
            ("sash_and_bow", "cloth", "round={waist}"),
            ("bunting", "cloth", "flags=12; wide=6 in; high=8 in; tape=any"),
        ],
    ),
];

const ROLL_THEMES: [Theme; 8] = [
    (
        "tulle for bands",
        &[
            (
                "strips_on_band",
                "tulle",
                "waist={waist}; strip={skirt}; gathers=6; satin=any_roll(6 in, 10 yd); elastic=any",
            ),
            (
                "strips_on_band",
                "tulle",
                "waist={waist}; strip={skirt}; gathers=8; layers=2; satin=any_roll(6 in, 10 yd); elastic=any",
            ),
        ],
    ),
    (
        "tulle to knot",
        &[
            ("strips_knotted", "tulle", "waist={waist}; skirt={skirt}; counted=12; tried=4 in; elastic=any"),
            ("strips_knotted", "tulle", "waist={waist}; skirt={skirt}; counted=15; tried=4 in; knot=2 in; elastic=any"),
        ],
    ),
    (
        "tulle for both",
        &[
            (
                "strips_on_band",
                "tulle",
                "waist={waist}; strip={skirt}; gathers=6; satin=any_roll(6 in, 10 yd); elastic=any",
            ),
            ("strips_knotted", "tulle", "waist={waist}; skirt={skirt}; counted=14; tried=4 in; elastic=any"),
        ],
    ),
    (
        "satin bands",
        &[
            (
                "strips_on_band",
                "satin",
                "waist={waist}; strip={skirt}; gathers=6; tulle=any_roll(6 in, 25 yd); elastic=any",
            ),
            (
                "strips_on_band",
                "satin",
                "waist={waist}; over=14 in; strip={skirt}; gathers=6; tulle=any_roll(6 in, 25 yd); elastic=any",
            ),
        ],
    ),
    (
        "curtains",
        &[
            ("curtains", "face", "track={track}; drop={drop}; tape=any; gather_returns=yes"),
            ("pencil_curtains", "face", "track={track}; drop={drop}; tape=any"),
        ],
    ),
    (
        "curtains of a house",
        &[
            ("curtains", "face", "track={track}; drop={drop}; tape=any"),
            ("curtains", "face", "track={track}; drop={drop}; curtains=1; tape=any"),
            ("valance", "face", "front={track}; depth=30 cm; tape=any"),
        ],
    ),
    ("linings", &[("curtains", "lining", "track={track}; drop={drop}; face=any_cloth(137 cm); tape=any")]),
    (
        "valances and frills",
        &[
            ("valance", "face", "front={track}; depth=35 cm; tape=any"),
            ("bed_valance", "face", "long=80 in; wide=60 in; drop=14 in"),
            ("gathered_trim", "cloth", "edge=5 yd; depth=4 in"),
        ],
    ),
];

/// Invented sizes: waist, hips, length of the skirt, arm, head of the sleeve (notch to notch).
const SIZES: [[&str; 5]; 7] = [
    ["20 in", "22 in", "10 in", "6 1/2 in", "8 1/2 in"],
    ["21 in", "23 in", "12 in", "7 in", "9 in"],
    ["22 1/2 in", "25 in", "14 1/2 in", "7 3/4 in", "10 in"],
    ["24 1/4 in", "28 in", "17 1/2 in", "8 1/2 in", "11 1/2 in"],
    ["26 in", "32 in", "20 in", "9 1/4 in", "12 in"],
    ["28 in", "36 in", "23 3/4 in", "10 in", "12 1/2 in"],
    ["31 in", "40 in", "25 in", "11 in", "13 in"],
];

const TRACKS: [&str; 5] = ["90 cm", "140 cm", "180 cm", "240 cm", "320 cm"];
const DROPS: [&str; 5] = ["105 cm", "137 cm", "160 cm", "220 cm", "235 cm"];

/// A kind of goods: its name, the answer that a recipe is given, and how the goods are cut.
struct OnGoods {
    name: &'static str,
    given: &'static str,
    apply: fn(&mut Instance, &mut Draw),
}

/// Dress cloth comes 110 to 150 cm wide.
const CLOTHS: [OnGoods; 4] = [
    OnGoods { name: "plain cloth", given: "any_cloth(43 1/2 in)", apply: |_, _| {} },
    OnGoods { name: "cloth with a nap", given: "any_cloth(150 cm).napped()", apply: with_remnants },
    OnGoods { name: "checked cloth, torn", given: "any_cloth(112 cm).repeats(1 in, \"straight\")", apply: torn },
    OnGoods { name: "folded cloth", given: "any_cloth(140 cm)", apply: folded },
];

const ROLLS: [OnGoods; 4] = [
    OnGoods { name: "rolls of one length", given: "any_roll(6 in, 25 yd)", apply: |_, _| {} },
    OnGoods { name: "rolls and what the shelf holds", given: "any_roll(6 in, 25 yd)", apply: with_rests },
    OnGoods { name: "rolls of two lengths", given: "any_roll(6 in, 25 yd)", apply: of_two_lengths },
    OnGoods { name: "short rolls, joined", given: "any_roll(6 in, 10 yd)", apply: joined },
];

const BOLTS: [OnGoods; 4] = [
    OnGoods { name: "plain bolts", given: "any_cloth(137 cm)", apply: on_bolts },
    OnGoods {
        name: "bolts of a pattern",
        given: "any_cloth(137 cm).repeats(64 cm, \"straight\").napped()",
        apply: on_bolts,
    },
    OnGoods { name: "half drop", given: "any_cloth(137 cm).repeats(32 cm, \"half drop\")", apply: on_bolts },
    OnGoods { name: "bolts and rests", given: "any_cloth(137 cm)", apply: bolts_and_rests },
];

/// Every theme on every kind of goods: 32 lays and 32 roll plans.
pub(crate) fn all() -> Vec<OwnWork> {
    let long = long_run(FILE);
    let mut draw = Draw::new(301);
    let mut made = Vec::new();
    for (theme, on) in LAY_THEMES.iter().flat_map(|theme| CLOTHS.iter().map(move |on| (theme, on))) {
        made.push(work(Kind::Lay, theme, on, &mut draw));
    }
    for (place, theme) in ROLL_THEMES.iter().enumerate() {
        // The first four are cut off rolls, the others off bolts of furnishing cloth.
        let goods = if place < 4 { &ROLLS } else { &BOLTS };
        for on in goods {
            made.push(work(Kind::RollPlan, theme, on, &mut draw));
        }
    }
    for work in &mut made {
        work.instance.reference = long.get(&work.instance.name).copied();
    }
    made
}

/// Draws two to five orders of a theme, each of two to twelve garments.
fn work(kind: Kind, theme: &Theme, on: &OnGoods, draw: &mut Draw) -> OwnWork {
    let (mut pieces, mut orders, mut goods) = (Vec::new(), Vec::new(), None);
    let count = draw.between(2, 5);
    for place in 0..count {
        let recipes = theme.1;
        let first = usize::try_from(place).unwrap();
        // Use each recipe of the theme once before repeating one.
        let (recipe, input, answers) = recipes[first % recipes.len()];
        let garments = draw.between(2, 12);
        let answers = filled(answers, draw);
        let order = format!("{recipe}: {answers}; {input}={}; pieces={garments}", on.given);
        let list = cut(recipe, input, &order);
        goods.get_or_insert(list.goods);
        let name = Some(format!("order {}", place + 1));
        pieces.extend(list.pieces.into_iter().map(|piece| CutPiece { order: name.clone(), ..piece }));
        orders.push(order);
    }
    let name = format!("{}, {}", theme.0, on.name);
    let mut instance = Instance::new(&name, pieces, goods.unwrap(), Measure::Taken);
    (on.apply)(&mut instance, draw);
    OwnWork { kind, instance, orders }
}

fn filled(answers: &str, draw: &mut Draw) -> String {
    let [waist, hips, skirt, arm, head] = draw.one_of(&SIZES);
    let (track, drop) = (draw.one_of(&TRACKS), draw.one_of(&DROPS));
    let places = [("waist", waist), ("hips", hips), ("skirt", skirt), ("arm", arm), ("head", head)];
    let places = places.into_iter().chain([("track", track), ("drop", drop)]);
    places.fold(answers.to_owned(), |text, (place, value)| text.replace(&format!("{{{place}}}"), value))
}

/// What an order cuts from the material of an input.
fn cut(recipe: &str, input: &str, order: &str) -> CuttingList {
    let workshop = Workshop::default();
    let text = library::shipped(recipe).unwrap();
    let answers = order.split_once(": ").unwrap().1;
    let given = answers.split("; ").map(|pair| pair.split_once('=').unwrap());
    let ticket = match answer_in(&text, &workshop, false, &Task::run(given), StopFlag::default()) {
        Reply::Ran(ticket) => *ticket,
        other => panic!("{order}\n{other:?}"),
    };
    let place = ticket.materials.iter().position(|material| material.input.as_deref() == Some(input)).unwrap();
    ticket::cutting_list(&ticket, place, ticket.garments, &workshop.settings.style()).unwrap().unwrap()
}

fn with_remnants(instance: &mut Instance, draw: &mut Draw) {
    instance.manner.keep_from = Some(Length::inches(5.0));
    for place in 1..=draw.between(2, 4) {
        instance.stock.push(StockLength {
            across: draw.once_in(3).then(|| Length::inches(30.0)),
            remnant: true,
            ..StockLength::new(&format!("remnant {place}"), inches(draw.between(30, 120)))
        });
    }
}

fn torn(instance: &mut Instance, _: &mut Draw) {
    instance.manner.cuts = CutsRun::Straight;
}

fn folded(instance: &mut Instance, _: &mut Draw) {
    instance.manner = CuttingManner { laid: Laid::Folded, ..CuttingManner::default() };
    // Rectangles may lie on the fold, as the back of a skirt does.
    for piece in &mut instance.pieces {
        if matches!(*piece.shape, Shape::Rectangle { .. }) {
            piece.on_fold = Some(Fold::Along);
        }
    }
}

fn with_rests(instance: &mut Instance, draw: &mut Draw) {
    instance.manner.keep_from = Some(Length::inches(5.0));
    for place in 1..=draw.between(2, 5) {
        let rest = StockLength::new(&format!("rest {place}"), inches(draw.between(60, 700)));
        instance.stock.push(StockLength { remnant: true, ..rest });
    }
}

fn of_two_lengths(instance: &mut Instance, _: &mut Draw) {
    let offer = |name: &str, yards: f64, price: f64| PutUp {
        name: name.to_owned(),
        along: Some(Length::yards(yards)),
        across: None,
        price: Some(Money::from_steps(price * 10_000.0)),
        most: None,
    };
    instance.supply = Supply::Offered(vec![offer("roll of 25 yd", 25.0, 6.5), offer("roll of 100 yd", 100.0, 21.0)]);
    instance.measure = Measure::Cents;
}

fn joined(instance: &mut Instance, _: &mut Draw) {
    for piece in &mut instance.pieces {
        let rule = JoinRule::new(1, Length::inches(4.0), Length::inches(0.5));
        piece.may_join = Some(rule);
    }
}

fn on_bolts(instance: &mut Instance, _: &mut Draw) {
    instance.goods.put_up = Some(Length::centimetres(3_000.0));
    assert_full_widths(&instance.pieces, &instance.goods);
}

fn bolts_and_rests(instance: &mut Instance, draw: &mut Draw) {
    on_bolts(instance, draw);
    with_rests(instance, draw);
}

/// Asserts that the goods are cloth and some piece is a full width.
fn assert_full_widths(pieces: &[CutPiece], goods: &Goods) {
    let full = pieces.iter().any(|piece| piece.shape.is_full_width());
    assert!(full && goods.kind == GoodsKind::Cloth);
}

fn inches(whole: i64) -> Length {
    Length::inches(shirr::quantity::number::from_whole(whole))
}
