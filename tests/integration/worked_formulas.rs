//! The formulas by the names that worked rows and scripts give them.

use crate::worked::read;
use shirr::body::garment_limit::Place;
use shirr::body::growth::Chart;
use shirr::body::{Sex, designation, garment_limit, growth, survey};
use shirr::quantity::literal::{self, Reading};
use shirr::quantity::{Area, Length, Mass, Money, Quantity, Time, number};
use shirr::textile::panels::Widths;
use shirr::textile::rules::{RaisedBurn, Series};
use shirr::textile::thread::ThreadUse;
use shirr::textile::{
    TextileError, allowances, band, bias, bunting, circle, curtains, drapery, elastic, flounce, gathering, gores,
    headings, joins, knots, labour, panels, pleats, price, rounded, ruffles, rules, sleeves, strips, thread, tiers,
    ties, trims, tucks, washing, weight,
};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Changes a size.
pub(crate) type Resize = fn(f64) -> f64;

/// Inputs that are words, even if they look like a size.
const WORDS: [&str; 3] = ["stitch_class", "size", "functional"];

/// The inputs of a row, `name=value; name=value`; keeps track of those not yet read.
pub(crate) struct Arguments {
    given: BTreeMap<String, String>,
    unread: RefCell<Vec<String>>,
    /// One input that is returned with another size than its own.
    resized: Option<(String, Resize)>,
}

impl Arguments {
    pub(crate) fn read(inputs: &str) -> Self {
        let pairs = inputs.split("; ").map(|pair| pair.split_once('=').unwrap_or_else(|| panic!("{pair}")));
        let given: BTreeMap<_, _> = pairs.map(|(name, value)| (name.to_owned(), value.to_owned())).collect();
        let unread = RefCell::new(given.keys().cloned().collect());
        Self { given, unread, resized: None }
    }

    /// Reads the inputs, with the size of one of them changed.
    pub(crate) fn resized(inputs: &str, name: &str, size: Resize) -> Self {
        Self { resized: Some((name.to_owned(), size)), ..Self::read(inputs) }
    }

    /// The inputs that are a number or a measure, without words that look like one.
    pub(crate) fn sizes(&self) -> Vec<String> {
        let is_size = |text: &str| literal::read_quantity(text, Reading::default()).is_ok();
        let sizes = self.given.iter().filter(|(name, text)| !WORDS.contains(&name.as_str()) && is_size(text));
        sizes.map(|(name, _)| name.clone()).collect()
    }

    /// Inputs that no formula has read.
    pub(crate) fn unread(&self) -> Vec<String> {
        self.unread.borrow().clone()
    }

    fn text(&self, name: &str) -> &str {
        self.unread.borrow_mut().retain(|unread| unread != name);
        self.given.get(name).unwrap_or_else(|| panic!("no input {name}"))
    }

    fn quantity(&self, name: &str) -> Quantity {
        let quantity = read(self.text(name));
        match &self.resized {
            Some((resized, size)) if resized == name => {
                Quantity::from_steps(size(quantity.steps()), quantity.dimension()).liking(quantity.liked())
            }
            _ => quantity,
        }
    }

    fn l(&self, name: &str) -> Length {
        Length::try_from(self.quantity(name)).unwrap()
    }

    fn l_or_zero(&self, name: &str) -> Length {
        if self.given.contains_key(name) { self.l(name) } else { Length::ZERO }
    }

    fn area(&self, name: &str) -> Area {
        Area::try_from(self.quantity(name)).unwrap()
    }

    fn mass(&self, name: &str) -> Mass {
        Mass::try_from(self.quantity(name)).unwrap()
    }

    fn money(&self, name: &str) -> Money {
        Money::try_from(self.quantity(name)).unwrap()
    }

    fn time(&self, name: &str) -> Time {
        Time::try_from(self.quantity(name)).unwrap()
    }

    fn sex(&self) -> Sex {
        Sex::named(self.text("sex")).unwrap()
    }

    fn chart(&self) -> Chart {
        Chart::named(self.text("chart")).unwrap()
    }

    fn place(&self) -> Place {
        Place::named(self.text("place")).unwrap()
    }

    fn x(&self, name: &str) -> f64 {
        self.quantity(name).to_number().unwrap()
    }

    /// Several values in one field, separated by commas.
    fn several(&self, name: &str) -> Vec<Quantity> {
        self.text(name).split(", ").map(read).collect()
    }

    fn lengths(&self, name: &str) -> Vec<Length> {
        self.several(name).into_iter().map(|one| Length::try_from(one).unwrap()).collect()
    }

    fn n(&self, name: &str) -> i64 {
        number::whole(self.x(name)).unwrap_or(i64::MAX)
    }
}

/// Converts the result of a formula to a quantity.
trait Answer {
    fn quantity(self) -> Quantity;
}

impl Answer for f64 {
    fn quantity(self) -> Quantity {
        Quantity::number(self)
    }
}

impl Answer for i64 {
    fn quantity(self) -> Quantity {
        Quantity::number(number::from_whole(self))
    }
}

/// A rule's yes is 1, its no 0.
impl Answer for bool {
    fn quantity(self) -> Quantity {
        Quantity::number(if self { 1.0 } else { 0.0 })
    }
}

impl Answer for Length {
    fn quantity(self) -> Quantity {
        self.into()
    }
}

impl Answer for Area {
    fn quantity(self) -> Quantity {
        self.into()
    }
}

impl Answer for Mass {
    fn quantity(self) -> Quantity {
        self.into()
    }
}

impl Answer for Money {
    fn quantity(self) -> Quantity {
        self.into()
    }
}

impl Answer for Time {
    fn quantity(self) -> Quantity {
        self.into()
    }
}

impl Answer for Quantity {
    fn quantity(self) -> Quantity {
        self
    }
}

/// The error message of a formula.
#[derive(Debug)]
pub(crate) struct Refused(String);

impl Refused {
    pub(crate) fn words(&self) -> &str {
        &self.0
    }
}

impl<F: std::error::Error> From<F> for Refused {
    fn from(error: F) -> Self {
        Self(error.to_string())
    }
}

type Answered = Result<Quantity, Refused>;

fn q<T: Answer, F: std::error::Error>(answer: Result<T, F>) -> Answered {
    Ok(answer.map(Answer::quantity)?)
}

fn used(a: &Arguments, part: fn(ThreadUse) -> Length) -> Answered {
    q(thread::thread_for(a.text("stitch_class"), a.l("seam"), a.x("waste")).map(part))
}

fn converted(a: &Arguments) -> Quantity {
    let unit = literal::read_unit(a.text("unit"), Reading::default()).unwrap();
    let quantity = a.quantity("value");
    assert_eq!(unit.dimension, quantity.dimension());
    Quantity::number(unit.count_in(quantity))
}

fn ratios(a: &Arguments, name: &str) -> Vec<f64> {
    a.several(name).into_iter().map(|one| one.to_number().unwrap()).collect()
}

/// The first or the last of several lengths.
fn end(answer: Result<Vec<Length>, TextileError>, end: fn(&[Length]) -> Option<&Length>) -> Answered {
    q(answer.map(|list| *end(&list).unwrap()))
}

/// A worked formula: its name and the call with its inputs.
pub(crate) type Formula = (&'static str, fn(&Arguments) -> Answered);

/// Every formula that a row may name.
pub(crate) const FORMULAS: &[Formula] = &[
    ("gathered_flat", |a| q(gathering::gathered_flat(a.l("finished"), a.x("fullness")))),
    ("gathered_length", |a| q(gathering::gathered_length(a.l("flat"), a.x("fullness")))),
    ("fullness_of", |a| q(gathering::fullness_of(a.l("flat"), a.l("finished")))),
    ("passes_together", |a| q(gathering::passes_together(&[a.x("first"), a.x("second")]))),
    ("take_up", |a| q(gathering::take_up(a.x("fullness")))),
    ("fullness_of_take_up", |a| q(gathering::fullness_of_take_up(a.x("take_up")))),
    ("foot_fullness", |a| q(gathering::foot_fullness(a.l("stitch"), a.l("depth"), a.n("every")))),
    ("strips_for", |a| q(strips::strips_for(a.l("flat"), a.l("width"), a.l("overlap")))),
    ("strips_for_gathered", |a| {
        let flat = gathering::gathered_flat(a.l("finished"), a.x("fullness"))?;
        q(strips::strips_for(flat, a.l("width"), a.l("overlap")))
    }),
    ("strips_laid", |a| q(strips::strips_laid(a.n("count"), a.l("width"), a.l("overlap")))),
    ("strips_on_roll", |a| q(strips::strips_on_roll(a.l("put_up"), a.l("cut_length")))),
    ("rolls_for", |a| q(strips::rolls_for(a.n("count"), a.l("cut_length"), a.l("put_up")))),
    ("left_on_last_roll", |a| q(strips::left_on_last_roll(a.n("count"), a.l("cut_length"), a.l("put_up")))),
    ("strips_joined", |a| q(joins::strips_joined(a.l("flat"), a.l("strip"), a.l("allowance")))),
    ("joined_length", |a| q(joins::joined_length(a.n("count"), a.l("strip"), a.l("allowance")))),
    ("strips_looped", |a| q(joins::strips_looped(a.l("flat"), a.l("strip"), a.l("allowance")))),
    ("looped_length", |a| q(joins::looped_length(a.n("count"), a.l("strip"), a.l("allowance")))),
    ("strips_cautious", |a| q(joins::strips_cautious(a.l("flat"), a.l("strip"), a.l("allowance")))),
    ("strips_for_frill", |a| q(joins::strips_for_frill(a.l("flat"), a.l("strip")))),
    ("cloth_for_strips", |a| q(joins::cloth_for_strips(a.n("count"), a.l("depth")))),
    ("panels_for", |a| q(panels::panels_for(a.l("flat"), a.l("usable_width"), a.l("seam")))),
    ("widths_reach", |a| {
        q(panels::widths_reach(a.x("widths"), a.l("usable_width"), a.l("seam"), a.l_or_zero("repeat_across")))
    }),
    ("widths_for", |a| {
        let joins = Widths::named(a.text("joins"))?;
        q(panels::widths_for(a.l("flat"), a.l("usable_width"), a.l("seam"), joins, a.l_or_zero("repeat_across")))
    }),
    ("band_length", |a| q(band::band_length(a.l("waist"), a.l("ease"), a.l("overlap"), a.l("turning")))),
    ("band_depth", |a| q(band::band_depth(a.l("finished"), a.l("turning")))),
    ("band_depth_in_layers", |a| q(band::band_depth_in_layers(a.l("finished"), a.n("layers"), a.l("turning")))),
    ("band_finished", |a| q(band::band_finished(a.l("cut"), a.n("layers"), a.l("turning")))),
    ("even_marks", |a| q(band::even_marks(a.l("length"), a.n("parts")))),
    ("even_spaces", |a| q(band::even_spaces(a.l("length"), a.n("count"), a.l("width")))),
    ("elastic_worn", |a| q(elastic::elastic_worn(a.l("body"), a.x("reduction")))),
    ("elastic_length", |a| q(elastic::elastic_length(a.l("body"), a.x("reduction"), a.l("overlap")))),
    ("elastic_shorter_by", |a| q(elastic::elastic_shorter_by(a.l("body"), a.l("shorter"), a.l("overlap")))),
    ("elastic_reduction", |a| q(elastic::elastic_reduction(a.l("body"), a.l("relaxed")))),
    ("elastic_stretch", |a| q(elastic::elastic_stretch(a.l("relaxed"), a.l("over")))),
    ("cut_size", |a| q(allowances::cut_size(a.l("finished"), a.l("first"), a.l("second")))),
    ("finished_size", |a| q(allowances::finished_size(a.l("cut"), a.l("first"), a.l("second")))),
    ("before_shrinking", |a| q(allowances::before_shrinking(a.l("length"), a.x("shrinkage")))),
    ("after_shrinking", |a| q(allowances::after_shrinking(a.l("length"), a.x("shrinkage")))),
    ("shrinkage_of", |a| q(allowances::shrinkage_of(a.l("before"), a.l("after")))),
    ("shrinkage_uncertainty", |a| q(washing::shrinkage_uncertainty(a.l("length"), a.l("mark")))),
    ("longest_drop", |a| q(washing::longest_drop(a.l("in_hand"), a.x("shrinkage")))),
    ("curtain_flat", |a| q(curtains::curtain_flat(a.l("finished"), a.x("fullness"), a.l("returns"), a.l("side_hem")))),
    ("cut_drop", |a| q(curtains::cut_drop(a.l("length"), a.l("repeat")))),
    ("half_drop_addition", |a| q(curtains::half_drop_addition(a.l("repeat")))),
    ("cloth_for_drops", |a| q(curtains::cloth_for_drops(a.n("drops"), a.l("cut_drop")))),
    ("circle_radius", |a| q(circle::circle_radius(a.l("edge"), a.x("turn")))),
    ("circle_sweep", |a| q(circle::circle_sweep(a.l("radius"), a.x("turn")))),
    ("circle_area", |a| q(circle::circle_area(a.l("inner"), a.l("outer"), a.x("turn")))),
    ("circle_cut_radius", |a| q(circle::circle_cut_radius(a.l("edge"), a.x("turn"), a.l("allowance")))),
    ("circle_outer_radius", |a| q(circle::circle_outer_radius(a.l("radius"), a.l("length"), a.l("hem")))),
    ("sector_across", |a| q(circle::sector_across(a.l("outer"), a.x("turn")))),
    ("sector_along", |a| q(circle::sector_along(a.l("inner"), a.l("outer"), a.x("turn")))),
    ("pleat_count", |a| q(pleats::pleat_count(a.l("section"), a.l("width")))),
    ("pleat_width", |a| q(pleats::pleat_width(a.l("section"), a.n("count")))),
    ("knife_pleats_flat", |a| q(pleats::knife_pleats_flat(a.l("section"), a.l("depth"), a.n("count")))),
    ("box_pleats_flat", |a| q(pleats::box_pleats_flat(a.l("section"), a.l("depth"), a.n("count")))),
    ("knife_pleat_depth", |a| q(pleats::knife_pleat_depth(a.l("flat"), a.l("section"), a.n("count")))),
    ("pleat_take_up", |a| q(pleats::pleat_take_up(a.l("flat"), a.l("section"), a.n("count")))),
    ("box_pleat_depth", |a| q(pleats::box_pleat_depth(a.l("flat"), a.l("section"), a.n("count")))),
    ("knife_pleated_section", |a| q(pleats::knife_pleated_section(a.l("flat"), a.l("depth"), a.n("count")))),
    ("box_pleated_section", |a| q(pleats::box_pleated_section(a.l("flat"), a.l("depth"), a.n("count")))),
    ("knife_pleats_in", |a| q(pleats::knife_pleats_in(a.l("flat"), a.l("width"), a.l("depth")))),
    ("box_pleats_in", |a| q(pleats::box_pleats_in(a.l("flat"), a.l("width"), a.l("depth")))),
    ("pleat_take_up_of_rest", |a| {
        q(pleats::pleat_take_up_of_rest(a.l("flat"), a.l("section"), a.l("fixed"), a.n("others")))
    }),
    ("seam_pleat_added", |a| q(pleats::seam_pleat_added(a.l("width"), a.l("seam")))),
    ("pleat_block_strip", |a| q(pleats::pleat_block_strip(a.l("width"), a.l("seam")))),
    ("hem_tuck_fold", |a| q(tucks::hem_tuck_fold(a.l("hem"), a.l("seam")))),
    ("tucks_taken", |a| q(tucks::tucks_taken(a.n("count"), a.l("width")))),
    ("tucked_flat", |a| q(tucks::tucked_flat(a.l("finished"), a.n("count"), a.l("width")))),
    ("tuck_pitch", |a| q(tucks::tuck_pitch(a.l("width"), a.l("gap")))),
    ("tuck_gap", |a| q(tucks::tuck_gap(a.l("pitch"), a.l("width")))),
    ("tier_flat", |a| q(tiers::tier_flat(a.l("first"), a.x("fullness"), a.n("tier")))),
    ("tier_depth", |a| q(tiers::tier_depth(a.l("length"), a.n("tiers"), a.l("first"), a.l("second")))),
    ("tier_widths last", |a| end(tiers::tier_widths(a.l("first"), &ratios(a, "fullness")), <[_]>::last)),
    ("tier_depths first", |a| end(tiers::tier_depths(a.l("length"), &a.lengths("steps")), <[_]>::first)),
    ("tier_depths last", |a| end(tiers::tier_depths(a.l("length"), &a.lengths("steps")), <[_]>::last)),
    ("bias_length_at_most", |a| q(bias::bias_length_at_most(a.area("area"), a.l("cut_width")))),
    ("bias_square_at_least", |a| q(bias::bias_square_at_least(a.l("length"), a.l("cut_width")))),
    ("bias_square", |a| q(bias::bias_square(a.l("length"), a.l("cut_width"), a.x("loss")))),
    ("bias_strips_for", |a| {
        q(bias::bias_strips_for(a.l("length"), a.l("usable_width"), a.l("cut_width"), a.l("allowance")))
    }),
    ("bias_strips_length", |a| {
        q(bias::bias_strips_length(a.n("count"), a.l("usable_width"), a.l("cut_width"), a.l("allowance")))
    }),
    ("bias_strips_cloth", |a| q(bias::bias_strips_cloth(a.n("count"), a.l("usable_width"), a.l("cut_width")))),
    ("binding_width", |a| q(bias::binding_width(a.l("finished"), a.n("folds"), a.l("turning")))),
    ("bias_span", |a| q(bias::bias_span(a.l("length")))),
    ("bias_step", |a| q(bias::bias_step(a.l("cut_width")))),
    ("bias_join", |a| q(bias::bias_join(a.l("allowance")))),
    ("bias_pieces_in", |a| q(bias::bias_pieces_in(a.l("long"), a.l("deep"), a.l("cut_width")))),
    ("bias_pieces_length", |a| q(bias::bias_pieces_length(a.n("count"), a.l("deep"), a.l("allowance")))),
    ("bias_pieces_for", |a| {
        let (length, width) = (a.l("length"), a.l("usable_width"));
        q(bias::bias_pieces_for(length, width, a.l("step"), a.l("allowance"), a.l("shortest")))
    }),
    ("bias_pieces_depth", |a| q(bias::bias_pieces_depth(a.n("count"), a.l("length"), a.l("allowance")))),
    ("bias_tube_length", |a| q(bias::bias_tube_length(a.l("long"), a.l("deep"), a.l("cut_width"), a.l("allowance")))),
    ("bias_tube_depth", |a| q(bias::bias_tube_depth(a.l("length"), a.l("long"), a.l("cut_width"), a.l("allowance")))),
    ("gore_width", |a| q(gores::gore_width(a.l("round"), a.n("gores"), a.l("allowance")))),
    ("gore_width_of_rest", |a| q(gores::gore_width_of_rest(a.l("round"), a.l("fixed"), a.n("others")))),
    ("gore_rise", |a| q(gores::gore_rise(a.l("front"), a.l("back"), a.n("pieces")))),
    ("five_gore_shares front", |a| q(gores::five_gore_shares(a.l("waist")).map(|[front, _, _]| front))),
    ("five_gore_shares side", |a| q(gores::five_gore_shares(a.l("waist")).map(|[_, side, _]| side))),
    ("five_gore_shares back", |a| q(gores::five_gore_shares(a.l("waist")).map(|[_, _, back]| back))),
    ("sleeve_head", |a| q(sleeves::sleeve_head(a.l("width"), a.l("height")))),
    ("buttonhole", |a| q(sleeves::buttonhole(a.l("diameter"), a.l("more")))),
    ("slash_spread", |a| q(sleeves::slash_spread(a.l("edge"), a.x("fullness"), a.n("slashes")))),
    ("knotted_strip", |a| q(knots::knotted_strip(a.l("finished"), a.l("knot")))),
    ("knotted_strips", |a| q(knots::knotted_strips(a.l("band"), a.n("counted"), a.l("tried")))),
    ("bunting_tape", |a| q(bunting::bunting_tape(a.n("flags"), a.l("width"), a.l("gap"), a.l("end")))),
    ("triangles_from_strip", |a| q(bunting::triangles_from_strip(a.l("strip"), a.l("width")))),
    ("bunting_rows", |a| q(bunting::bunting_rows(a.n("flags"), a.l("usable_width"), a.l("width")))),
    ("pinch_pleat_count", |a| q(headings::pinch_pleat_count(a.l("section"), a.l("space")))),
    ("rod_pocket_depth", |a| q(headings::rod_pocket_depth(a.l("diameter")))),
    ("rod_pocket_for_round", |a| q(headings::rod_pocket_for_round(a.l("round"), a.x("ease")))),
    ("valance_fullness", |a| q(headings::valance_fullness(a.text("kind")))),
    ("festoon_cut_depth", |a| q(drapery::festoon_cut_depth(a.l("finished")))),
    ("festoon_tail", |a| q(drapery::festoon_tail(a.l("long"), a.text("part")))),
    ("flat_valance_cloth", |a| {
        q(drapery::flat_valance_cloth(a.n("widths"), a.l("depth"), a.l("turning"), a.l("tails")))
    }),
    ("drapery_guess", |a| q(drapery::drapery_guess(a.l("width")))),
    ("fringe_guess", |a| q(drapery::fringe_guess(a.l("width")))),
    ("bed_valance_edge", |a| q(drapery::bed_valance_edge(a.l("length"), a.l("width")))),
    ("puff_ruffle_depth", |a| q(ruffles::puff_ruffle_depth(a.l("finished")))),
    ("french_ruffle_flat", |a| q(ruffles::french_ruffle_flat(a.l("edge")))),
    ("corner_lace", |a| q(ruffles::corner_lace(a.l("width"), a.x("fullness")))),
    ("trim_length", |a| q(trims::trim_length(a.l("flat"), a.n("joins"), a.l("lap"), a.l("end")))),
    ("bag_cut_length", |a| q(ties::bag_cut_length(a.l("height"), a.l("casing"), a.l("turning")))),
    ("drawstring_cord", |a| q(ties::drawstring_cord(a.l("flat_width"), a.l("tails"), a.n("cords")))),
    ("bow_length", |a| q(ties::bow_length(a.l("loops"), a.l("end"), a.l("knot")))),
    ("sash_length", |a| q(ties::sash_length(a.l("round"), a.l("loops"), a.l("end"), a.l("knot")))),
    ("flounce_rings", |a| q(flounce::flounce_rings(a.l("edge"), a.l("radius"), a.l("allowance")))),
    ("flounce_cut_radius", |a| q(flounce::flounce_cut_radius(a.l("radius"), a.l("allowance")))),
    ("flounce_seam", |a| q(flounce::flounce_seam(a.l("radius"), a.l("allowance")))),
    ("flounce_sweep", |a| q(flounce::flounce_sweep(a.l("radius"), a.l("depth")))),
    ("thread_for total", |a| used(a, |thread| thread.total)),
    ("thread_for needles", |a| used(a, |thread| thread.needles)),
    ("thread_for under", |a| used(a, |thread| thread.under)),
    ("thread_at total", |a| {
        let used = thread::thread_at(a.x("ratio"), a.x("needle_share"), a.l("seam"), a.x("waste"));
        q(used.map(|thread| thread.total))
    }),
    ("thread_ratio", |a| q(thread::thread_ratio(a.l("seam"), a.l("needle"), a.l("under")))),
    ("lockstitch_ratio", |a| q(thread::lockstitch_ratio(a.l("stitch"), a.l("thickness")))),
    ("chain_stitch_ratio", |a| q(thread::chain_stitch_ratio(a.l("stitch"), a.l("thickness")))),
    ("two_thread_chain_ratio", |a| q(thread::two_thread_chain_ratio(a.l("stitch"), a.l("thickness")))),
    ("overedge_ratio", |a| q(thread::overedge_ratio(a.l("stitch"), a.l("width"), a.l("thickness"), a.x("along")))),
    ("four_thread_overedge_ratio", |a| {
        q(thread::four_thread_overedge_ratio(a.l("stitch"), a.l("width"), a.l("thickness")))
    }),
    ("cloth_weight", |a| q(weight::cloth_weight(a.l("along"), a.l("across"), a.quantity("weight")))),
    ("area_weight", |a| q(weight::area_weight(a.area("area"), a.quantity("weight")))),
    ("weight_of_sample", |a| q(weight::weight_of_sample(a.mass("mass"), a.l("along"), a.l("across")))),
    ("length_by_weight", |a| q(weight::length_by_weight(a.mass("mass"), a.l("width"), a.quantity("weight")))),
    ("postage_weight", |a| q(weight::postage_weight(a.mass("goods"), a.mass("packing"), a.mass("step")))),
    ("labour_cost", |a| q(labour::labour_cost(a.time("time"), a.quantity("wage")))),
    ("batch_time", |a| q(labour::batch_time(a.time("set_up"), a.time("each"), a.n("count")))),
    ("marked_up", |a| q(price::marked_up(a.money("cost"), a.x("mark_up")))),
    ("price_at_margin", |a| q(price::price_at_margin(a.money("cost"), a.x("margin")))),
    ("mark_up_of_margin", |a| q(price::mark_up_of_margin(a.x("margin")))),
    ("margin_of_mark_up", |a| q(price::margin_of_mark_up(a.x("mark_up")))),
    ("grossed_up", |a| q(price::grossed_up(a.money("net"), a.x("fee")))),
    ("reaches_exempt_weight", |a| q(rules::reaches_exempt_weight(a.quantity("weight")))),
    ("burn_class_plain", |a| q(rules::burn_class_plain(a.time("burn_time")))),
    ("burn_class_raised", |a| q(rules::burn_class_raised(a.time("burn_time"), RaisedBurn::named(a.text("surface"))?))),
    ("burn_series class", |a| {
        let series = rules::burn_series(a.n("tested"), a.n("burned"), a.time("mean_time"))?;
        Ok(Quantity::number(match series {
            Series::One => 1.0,
            Series::Three => 3.0,
            Series::FiveMore => 5.0,
            Series::NoClass => 0.0,
        }))
    }),
    ("fibre_is_named", |a| q(rules::fibre_is_named(a.x("part"), a.n("functional") == 1))),
    ("within_label_tolerance", |a| q(rules::within_label_tolerance(a.x("labelled"), a.x("found")))),
    ("ornament_may_be_left_out", |a| q(rules::ornament_may_be_left_out(a.x("part")))),
    ("trim_is_left_out", |a| q(rules::trim_is_left_out(a.x("part")))),
    ("elastic_is_left_out", |a| q(rules::elastic_is_left_out(a.x("part")))),
    ("infant_garment_limit", |a| q(rules::infant_garment_limit(a.text("made")))),
    ("sleepwear_trim_is_left_out", |a| q(rules::sleepwear_trim_is_left_out(a.l("largest"), a.area("together")))),
    ("ruffle_bars_tight_fit", |a| q(rules::ruffle_bars_tight_fit(a.l("width")))),
    ("rounded_up", |a| q(rounded::rounded_up(a.quantity("amount"), a.quantity("step")))),
    ("rounded_down", |a| q(rounded::rounded_down(a.quantity("amount"), a.quantity("step")))),
    ("rounded_nearest", |a| q(rounded::rounded_nearest(a.quantity("amount"), a.quantity("step")))),
    ("up", |a| q(rounded::up(a.x("value")))),
    ("down", |a| q(rounded::down(a.x("value")))),
    ("nearest", |a| q(rounded::nearest(a.x("value")))),
    ("survey_waist", |a| q(survey::survey_waist(a.sex(), a.time("age"), a.x("percentile")))),
    ("survey_stature", |a| q(survey::survey_stature(a.sex(), a.time("age"), a.x("percentile")))),
    ("growth_stature", |a| {
        let stature = growth::growth_stature(a.sex(), a.time("age"), a.x("percentile"), a.chart());
        q(stature)
    }),
    ("growth_share", |a| {
        let share = growth::growth_share(a.sex(), a.time("age"), a.l("stature"), a.chart());
        q(share)
    }),
    ("garment_limit", |a| q(garment_limit::garment_limit(a.place(), a.sex(), a.time("age")))),
    ("garment_limit_of_size", |a| q(garment_limit::garment_limit_of_size(a.place(), a.sex(), a.text("size")))),
    ("height_designation", |a| q(designation::height_designation(a.l("height")))),
    ("converted", |a| Ok(converted(a))),
];
