//! Properties that the formulas keep for any figures, family by family.

use proptest::prelude::*;
use shirr::quantity::{Area, Length, Money, Quantity, Time, Unit, number};
use shirr::textile::panels::Widths;
use shirr::textile::{
    TextileError, allowances, band, bias, bunting, circle, curtains, drapery, elastic, flounce, gathering, gores,
    headings, joins, knots, labour, panels, pleats, price, rounded, ruffles, sleeves, strips, thread, tiers, ties,
    trims, tucks, washing,
};

/// A length in eighths of an inch, as marked on an inch tape.
fn marked(eighths: i64) -> Length {
    Length::inches(number::from_whole(eighths) / 8.0)
}

/// The same length in centimetres, not rounded to a metric mark.
fn on_metric_tape(eighths: i64) -> Length {
    Length::centimetres(number::from_whole(eighths) / 8.0 * 2.54)
}

/// A ratio typed with three decimals.
fn ratio(thousandths: i64) -> f64 {
    number::from_whole(thousandths) / 1000.0
}

/// Number of pleats in a flat length, from that length, a width and a depth.
type PleatsIn = fn(Length, Length, Length) -> Result<i64, TextileError>;

/// Flat length of a section, or section of a flat length, from a depth and a count.
type PleatsFlat = fn(Length, Length, i64) -> Result<Length, TextileError>;

proptest! {
    // A failure prints its figures; do not write into the source tree.
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn more_fullness_never_needs_less_cloth(
        edge in 8..2000i64, width in 16..480i64, lost in 0..8i64, less in 1000..6000i64, more in 0..3000i64,
    ) {
        let (low, high) = (ratio(less), ratio(less + more));
        let flat = |fullness| gathering::gathered_flat(marked(edge), fullness).unwrap();
        prop_assert!(flat(low) <= flat(high));
        prop_assert!(gathering::take_up(low).unwrap() <= gathering::take_up(high).unwrap());
        let strips = |fullness| strips::strips_for(flat(fullness), marked(width), marked(lost)).unwrap();
        prop_assert!(strips(low) <= strips(high));
        let curtain = |fullness| curtains::curtain_flat(marked(edge), fullness, marked(lost), marked(lost)).unwrap();
        prop_assert!(curtain(low) <= curtain(high));
        let lace = |fullness| ruffles::corner_lace(marked(width), fullness).unwrap();
        prop_assert!(lace(low) <= lace(high));
        let tier = |fullness| tiers::tier_flat(marked(edge), fullness, 3).unwrap();
        prop_assert!(tier(low) <= tier(high));
        let tiered = |fullness| *tiers::tier_widths(marked(edge), &[fullness, fullness]).unwrap().last().unwrap();
        prop_assert!(tiered(low) <= tiered(high));
        prop_assert_eq!(tiered(low), tier(low));
        let spread = |fullness| sleeves::slash_spread(marked(edge), fullness, 5).unwrap();
        prop_assert!(spread(low) <= spread(high));
        for joins in [Widths::Whole, Widths::Half] {
            let widths = |fullness| panels::widths_for(flat(fullness), marked(width), marked(lost), joins, Length::ZERO).unwrap();
            prop_assert!(widths(low) <= widths(high));
        }
    }

    #[test]
    fn gathering_is_undone(edge in 1..2000i64, thousandths in 1000..9000i64) {
        let fullness = ratio(thousandths);
        let flat = gathering::gathered_flat(marked(edge), fullness).unwrap();
        prop_assert_eq!(gathering::gathered_length(flat, fullness), Ok(marked(edge)));
        prop_assert!(number::is_near(gathering::fullness_of(flat, marked(edge)).unwrap(), fullness));
        let lost = gathering::take_up(fullness).unwrap();
        prop_assert!(flat - flat * lost == marked(edge));
    }

    #[test]
    fn strips_cover_the_length_and_one_fewer_does_not(flat in 1..8000i64, width in 9..480i64, lost in 0..4i64) {
        let (flat, width, lost) = (marked(flat), marked(width), marked(lost));
        let overlapped = strips::strips_for(flat, width, lost).unwrap();
        prop_assert!(strips::strips_laid(overlapped, width, lost).unwrap() >= flat);
        prop_assert!(overlapped == 1 || strips::strips_laid(overlapped - 1, width, lost).unwrap() < flat);
        let joined = joins::strips_joined(flat, width, lost).unwrap();
        prop_assert!(joins::joined_length(joined, width, lost).unwrap() >= flat);
        prop_assert!(joined == 1 || joins::joined_length(joined - 1, width, lost).unwrap() < flat);
        let looped = joins::strips_looped(flat, width, lost).unwrap();
        prop_assert!(joins::looped_length(looped, width, lost).unwrap() >= flat);
        prop_assert!(looped == 1 || joins::looped_length(looped - 1, width, lost).unwrap() < flat);
        prop_assert!(joins::strips_cautious(flat, width, lost).unwrap() >= joined);
        prop_assert!(joins::strips_for_frill(flat, width).unwrap() >= strips::strips_for(flat, width, Length::ZERO).unwrap());
        prop_assert_eq!(panels::panels_for(flat, width, lost).unwrap(), joined);
    }

    #[test]
    fn widths_reach_and_one_step_fewer_does_not(flat in 1..8000i64, width in 9..480i64, seam in 0..4i64) {
        let (flat, width, seam) = (marked(flat), marked(width), marked(seam));
        let reach = |n: f64| width * n - seam * 2.0 * (n.ceil() - 1.0);
        for (joins, step) in [(Widths::Whole, 1.0), (Widths::Half, 0.5)] {
            let n = panels::widths_for(flat, width, seam, joins, Length::ZERO).unwrap();
            prop_assert!(reach(n) >= flat, "{} widths", n);
            prop_assert!(n <= step || reach(n - step) < flat, "{} widths", n);
        }
    }

    #[test]
    fn rolls_hold_the_strips_and_one_fewer_does_not(count in 1..3000i64, cut in 1..400i64, yards in 2..110i64) {
        let (cut, put_up) = (marked(cut), Length::yards(number::from_whole(yards)));
        let on_one = strips::strips_on_roll(put_up, cut).unwrap();
        prop_assert!(cut * number::from_whole(on_one) <= put_up && cut * number::from_whole(on_one + 1) > put_up);
        let rolls = strips::rolls_for(count, cut, put_up).unwrap();
        prop_assert!(rolls * on_one >= count && (rolls - 1) * on_one < count);
        let left = strips::left_on_last_roll(count, cut, put_up).unwrap();
        prop_assert!(left >= Length::ZERO && left < put_up);
    }

    #[test]
    fn both_tapes_give_the_same_counts(
        flat in 1..8000i64, width in 24..480i64, lost in 0..8i64, cut in 1..400i64, yards in 2..110i64,
    ) {
        let counts = |tape: fn(i64) -> Length| {
            let (flat, width, lost, cut) = (tape(flat), tape(width), tape(lost), tape(cut));
            let put_up = tape(yards * 288);
            let count = strips::strips_for(flat, width, lost).unwrap();
            [
                count,
                strips::rolls_for(count, cut, put_up).unwrap(),
                joins::strips_joined(flat, width, lost).unwrap(),
                joins::strips_looped(flat, width, lost).unwrap(),
                joins::strips_for_frill(flat, width).unwrap(),
                panels::panels_for(flat, width, lost).unwrap(),
                rounded::nearest(2.0 * panels::widths_for(flat, width, lost, Widths::Half, Length::ZERO).unwrap()).unwrap(),
                pleats::pleat_count(flat, width).unwrap(),
                bunting::triangles_from_strip(flat, width).unwrap(),
                flounce::flounce_rings(flat, width, lost).unwrap(),
                headings::pinch_pleat_count(flat, width).unwrap(),
                bunting::bunting_rows(yards, width, cut.least(width)).unwrap(),
                bias::bias_strips_for(flat, width, cut, lost).unwrap(),
                knots::knotted_strips(flat, 12, width).unwrap(),
                pleats::knife_pleats_in(flat + width * 3.0, width, cut).unwrap_or(0),
                pleats::box_pleats_in(flat + width * 3.0, width, cut).unwrap_or(0),
            ]
        };
        prop_assert_eq!(counts(marked), counts(on_metric_tape));
    }

    #[test]
    fn bias_strips_cover_the_binding_and_one_fewer_does_not(
        length in 1..8000i64, width in 40..480i64, cut in 1..40i64, lost in 0..8i64,
    ) {
        let (length, width, cut, lost) = (marked(length), marked(width), marked(cut), marked(lost));
        let strips = bias::bias_strips_for(length, width, cut, lost).unwrap();
        let reach = |count| bias::bias_strips_length(count, width, cut, lost).unwrap();
        prop_assert!(reach(strips) >= length);
        prop_assert!(strips == 1 || reach(strips - 1) < length);
        // Before joins and corners, the strips have the area of the parallelogram that they are cut from.
        let cloth = bias::bias_strips_cloth(strips, width, cut).unwrap() - width;
        let area = cut * reach(strips) + cut * cut + cut * lost * 2.0 * std::f64::consts::SQRT_2 * number::from_whole(strips - 1);
        prop_assert!(number::is_near((cloth * width).steps() / area.steps(), 1.0));
        // With nothing lost the square is the smallest; losses make it larger.
        let least = bias::bias_square_at_least(length, cut).unwrap();
        prop_assert_eq!(bias::bias_square(length, cut, 0.0), Ok(least));
        prop_assert!(bias::bias_square(length, cut, 0.05).unwrap() > least);
    }

    #[test]
    fn rows_of_flags_hold_them_and_one_fewer_does_not(flags in 1..2000i64, width in 16..480i64, flag in 8..16i64) {
        let (width, flag) = (marked(width), marked(flag));
        let rows = bunting::bunting_rows(flags, width, flag).unwrap();
        let in_row = bunting::triangles_from_strip(width, flag).unwrap();
        prop_assert!(rows * in_row >= flags && (rows - 1) * in_row < flags);
        // Head to foot the flags lie half a width apart.
        prop_assert!(flag * number::from_whole(in_row + 1) / 2.0 <= width);
        prop_assert!(flag * number::from_whole(in_row + 2) / 2.0 > width);
    }

    #[test]
    fn pinch_pleats_keep_the_space_asked_for(section in 8..4000i64, space in 4..200i64) {
        let (section, space) = (marked(section), marked(space));
        let pleats = headings::pinch_pleat_count(section, space).unwrap();
        prop_assert!(band::even_spaces(section, pleats, Length::ZERO).unwrap() <= space);
        prop_assert!(pleats == 2 || band::even_spaces(section, pleats - 1, Length::ZERO).unwrap() > space);
    }

    #[test]
    fn doubling_a_thing_doubles_its_cloth(size in 8..2000i64, other in 1..400i64, pieces in 1..40i64) {
        let (one, two) = (marked(size), marked(2 * size));
        let lengths = |tape: fn(i64) -> Length| {
            let (size, other) = (tape(size), tape(other));
            [
                headings::rod_pocket_depth(size).unwrap(),
                headings::rod_pocket_for_round(size, 0.2).unwrap(),
                drapery::festoon_cut_depth(size).unwrap(),
                drapery::festoon_tail(size, "widest").unwrap(),
                drapery::flat_valance_cloth(pieces, size, other, other).unwrap(),
                drapery::drapery_guess(size).unwrap(),
                drapery::bed_valance_edge(size, other).unwrap(),
                ruffles::french_ruffle_flat(size).unwrap(),
                ties::bag_cut_length(size, other, other).unwrap(),
                ties::drawstring_cord(size, other, pieces).unwrap(),
                ties::bow_length(size, other, other).unwrap(),
                ties::sash_length(size, other, other, other).unwrap(),
                trims::trim_length(size, pieces, other, other).unwrap(),
                bias::bias_strips_cloth(pieces, size, other).unwrap(),
            ]
        };
        let doubled: Vec<Length> = lengths(marked).into_iter().map(|length| length * 2.0).collect();
        let at_twice = lengths(|eighths| marked(2 * eighths));
        prop_assert!(doubled.iter().zip(at_twice).all(|(doubled, found)| *doubled == found));
        // Two inches are added to a puff ruffle, and three yards to a fringe, whatever the size.
        prop_assert_eq!(ruffles::puff_ruffle_depth(two).unwrap() - ruffles::puff_ruffle_depth(one).unwrap(), one * 2.0);
        prop_assert_eq!(drapery::fringe_guess(two).unwrap() - drapery::fringe_guess(one).unwrap(), one * 3.0);
    }

    #[test]
    fn a_drop_is_the_least_whole_number_of_repeats(length in 1..3000i64, repeat in 1..400i64) {
        let (length, repeat) = (marked(length), marked(repeat));
        let drop = curtains::cut_drop(length, repeat).unwrap();
        prop_assert!(number::whole(drop / repeat).is_some());
        prop_assert!(drop >= length && drop - repeat < length);
    }

    #[test]
    fn what_is_added_comes_off_again(finished in 1..2000i64, first in 0..80i64, second in 0..80i64, lost in 0..900i64) {
        let (finished, first, second) = (marked(finished), marked(first), marked(second));
        let cut = allowances::cut_size(finished, first, second).unwrap();
        prop_assert_eq!(allowances::finished_size(cut, first, second), Ok(finished));
        let shrinkage = ratio(lost);
        let before = allowances::before_shrinking(finished, shrinkage).unwrap();
        prop_assert_eq!(allowances::after_shrinking(before, shrinkage), Ok(finished));
        prop_assert!((allowances::shrinkage_of(before, finished).unwrap() - shrinkage).abs() < 1e-9);
        let depth = band::band_depth(finished, first).unwrap();
        prop_assert_eq!(band::band_finished(depth, 2, first), Ok(finished));
        prop_assert!(band::band_length(finished, first, second, first).unwrap() >= finished);
    }

    #[test]
    fn elastic_is_never_longer_than_the_body_nor_too_short(body in 40..400i64, thousandths in 0..=250i64) {
        let reduction = ratio(thousandths);
        let worn = elastic::elastic_worn(marked(body), reduction).unwrap();
        prop_assert!(worn <= marked(body) && worn >= marked(body) * 0.75);
        prop_assert!((elastic::elastic_reduction(marked(body), worn).unwrap() - reduction).abs() < 1e-9);
        let stretch = elastic::elastic_stretch(worn, marked(body)).unwrap();
        prop_assert!(worn * (1.0 + stretch) == marked(body));
        let cautioned = elastic::elastic_caution(reduction) == elastic::ElasticCaution::Tight;
        prop_assert_eq!(cautioned, thousandths > 100);
        prop_assert!(elastic::elastic_worn(marked(body), reduction + 0.2505).is_err());
    }

    #[test]
    fn pleats_tucks_and_marks_fill_their_length(section in 8..2000i64, depth in 1..80i64, count in 1..60i64) {
        let (section, depth) = (marked(section), marked(depth));
        let flat = pleats::knife_pleats_flat(section, depth, count).unwrap();
        prop_assert!(flat > section);
        prop_assert_eq!(pleats::knife_pleat_depth(flat, section, count), Ok(depth));
        let boxed = pleats::box_pleats_flat(section, depth, count).unwrap();
        prop_assert_eq!(boxed - section, (flat - section) * 2.0);
        let normal = pleats::knife_pleats_flat(section, pleats::pleat_width(section, count).unwrap(), count).unwrap();
        prop_assert_eq!(normal, section * 3.0);
        prop_assert_eq!(tucks::tucked_flat(section, count, depth).unwrap() - section, flat - section);
        let pitch = tucks::tuck_pitch(depth, section).unwrap();
        prop_assert_eq!(tucks::tuck_gap(pitch, depth), Ok(section));
        let marks = band::even_marks(section, count).unwrap();
        prop_assert_eq!(marks * number::from_whole(count), section);
    }

    #[test]
    fn a_flat_length_gives_its_pleats_and_not_one_more(flat in 8..4000i64, width in 1..80i64, depth in 1..80i64) {
        let (flat, width, depth) = (marked(flat), marked(width), marked(depth));
        let kinds: [(PleatsIn, PleatsFlat, PleatsFlat); 2] = [
            (pleats::knife_pleats_in, pleats::knife_pleats_flat, pleats::knife_pleated_section),
            (pleats::box_pleats_in, pleats::box_pleats_flat, pleats::box_pleated_section),
        ];
        for (pleats_in, pleats_flat, section) in kinds {
            let Ok(count) = pleats_in(flat, width, depth) else { continue };
            let needs = |count: i64| pleats_flat(width * number::from_whole(count), depth, count).unwrap();
            prop_assert!(needs(count) <= flat && needs(count + 1) > flat);
            prop_assert_eq!(section(needs(count), depth, count), Ok(width * number::from_whole(count)));
            // Doubling everything keeps the count.
            prop_assert_eq!(pleats_in(flat * 2.0, width * 2.0, depth * 2.0), Ok(count));
        }
    }

    #[test]
    fn tiers_gores_and_strips_share_out_all_there_is(
        length in 80..2000i64, steps in prop::collection::vec(0..3i64, 1..5), waist in 8..600i64, counted in 1..60i64,
    ) {
        let list: Vec<Length> = steps.iter().map(|step| marked(*step)).collect();
        let depths = tiers::tier_depths(marked(length), &list).unwrap();
        prop_assert_eq!(depths.iter().fold(Length::ZERO, |sum, depth| sum + *depth), marked(length));
        for ((above, below), step) in depths.iter().zip(depths.iter().skip(1)).zip(&list) {
            prop_assert_eq!(*below - *above, *step);
        }
        let shares = gores::five_gore_shares(marked(waist)).unwrap();
        prop_assert_eq!(shares.into_iter().fold(Length::ZERO, |sum, share| sum + share) * 2.0, marked(waist));
        let strips = knots::knotted_strips(marked(waist), counted, marked(32)).unwrap();
        let room = marked(32) / number::from_whole(counted);
        prop_assert!(room * number::from_whole(strips) >= marked(waist));
        prop_assert!(strips == 1 || room * number::from_whole(strips - 1) < marked(waist));
        // Strips twice as long, but for the knot, hang twice as far.
        let hung = |eighths| knots::knotted_strip(marked(eighths), marked(16)).unwrap() - marked(16);
        prop_assert_eq!(hung(2 * length), hung(length) * 2.0);
    }

    #[test]
    fn parts_of_a_circle_fit_what_they_are_said_to_take(outer in 8..800i64, inner in 0..8i64, eighths in 1..8i64) {
        let turn = number::from_whole(eighths) / 8.0;
        let (inner, outer) = (marked(inner), marked(outer));
        let (across, along) =
            (circle::sector_across(outer, turn).unwrap(), circle::sector_along(inner, outer, turn).unwrap());
        prop_assert!(across * along >= circle::circle_area(inner, outer, turn).unwrap());
        prop_assert!(circle::sector_across(outer, turn + 0.125).unwrap() >= across);
        prop_assert!(across <= outer * 2.0 && along <= outer * 2.0);
    }

    #[test]
    fn rings_of_a_flounce_make_up_the_edge_and_one_fewer_does_not(edge in 8..2000i64, radius in 8..160i64, lost in 0..8i64) {
        let (edge, radius, lost) = (marked(edge), marked(radius), marked(lost));
        let rings = flounce::flounce_rings(edge, radius, lost).unwrap();
        let gives = flounce::flounce_seam(radius, lost).unwrap();
        prop_assert!(gives * number::from_whole(rings) >= edge);
        prop_assert!(rings == 1 || gives * number::from_whole(rings - 1) < edge);
        // A half ring is a ring of half the radius.
        let halves = flounce::flounce_rings(edge, radius / 2.0, lost).unwrap();
        prop_assert!(halves >= rings);
    }

    #[test]
    fn a_wider_turn_needs_a_smaller_radius(edge in 8..800i64, quarters in 1..8i64) {
        let turn = number::from_whole(quarters) / 4.0;
        let radius = circle::circle_radius(marked(edge), turn).unwrap();
        prop_assert_eq!(circle::circle_sweep(radius, turn), Ok(marked(edge)));
        prop_assert!(circle::circle_radius(marked(edge), turn + 0.25).unwrap() < radius);
        // A ring has the area of a strip as long as its middle line.
        let outer = radius + Length::inches(10.0);
        let area = circle::circle_area(radius, outer, turn).unwrap();
        let middle = circle::circle_sweep(radius + Length::inches(5.0), turn).unwrap();
        prop_assert!(number::is_near(area.steps() / (middle * Length::inches(10.0)).steps(), 1.0));
    }

    #[test]
    fn mark_up_and_margin_are_two_names_of_one_price(cents in 1..1_000_000i64, thousandths in 0..990i64) {
        let cost = Money::try_from(Quantity::money(number::from_whole(cents) / 100.0)).unwrap();
        let margin = ratio(thousandths);
        let mark_up = price::mark_up_of_margin(margin).unwrap();
        prop_assert_eq!(price::marked_up(cost, mark_up), price::price_at_margin(cost, margin));
        prop_assert!((price::margin_of_mark_up(mark_up).unwrap() - margin).abs() < 1e-9);
        let gross = price::grossed_up(cost, margin).unwrap();
        prop_assert_eq!(gross - gross * margin, cost);
    }

    #[test]
    fn thread_is_all_somewhere(seam in 0..4000i64, waste in 0..500i64) {
        for class in thread::STITCH_CLASSES {
            let used = thread::thread_for(class.number, marked(seam), ratio(waste)).unwrap();
            prop_assert_eq!(used.needles + used.under, used.total);
            prop_assert!(used.total >= marked(seam) * class.ratio);
        }
    }

    /// Any input gives an error or a finite number that is not below zero, except where it may be.
    #[test]
    fn no_figure_makes_a_formula_give_nonsense(
        a in any::<f64>(), b in any::<f64>(), c in any::<f64>(), x in any::<f64>(), n in any::<i64>(), small in 0..4usize,
    ) {
        // Make some of the figures plausible, so that every check is reached and not only the first.
        let plausible = |value: f64, place: usize| if small > place { value.abs() % 1e10 } else { value };
        let [a, b, c] = [(a, 0), (b, 1), (c, 2)].map(|(value, place)| Length::from_steps(plausible(value, place)));
        let n = if small > 0 { n % 1000 } else { n };
        for (name, found) in everything([a, b, c], if small > 1 { x.abs() % 10.0 } else { x }, n) {
            if let Ok(found) = found {
                prop_assert!(found.is_finite(), "{} gives {}", name, found);
                prop_assert!(found >= 0.0 || name == "elastic_stretch" || name == "elastic_reduction", "{} gives {}", name, found);
            }
        }
    }
}

type Found = Result<f64, TextileError>;

/// Results of every formula for the same figures.
fn everything([a, b, c]: [Length; 3], plain: f64, pieces: i64) -> Vec<(&'static str, Found)> {
    let length = |found: Result<Length, TextileError>| found.map(Length::steps);
    let count = |found: Result<i64, TextileError>| found.map(number::from_whole);
    let money = Money::from_steps(a.steps());
    let priced = |found: Result<Money, TextileError>| found.map(Money::steps);
    let wage = Quantity::money(plain).per(Quantity::of(1.0, Unit::Hour)).unwrap_or(Quantity::number(plain));
    vec![
        ("gathered_flat", length(gathering::gathered_flat(a, plain))),
        ("gathered_length", length(gathering::gathered_length(a, plain))),
        ("fullness_of", gathering::fullness_of(a, b)),
        ("passes_together", gathering::passes_together(&[plain, plain])),
        ("take_up", gathering::take_up(plain)),
        ("fullness_of_take_up", gathering::fullness_of_take_up(plain)),
        ("foot_fullness", gathering::foot_fullness(a, b, pieces)),
        ("strips_for", count(strips::strips_for(a, b, c))),
        ("strips_laid", length(strips::strips_laid(pieces, a, b))),
        ("strips_on_roll", count(strips::strips_on_roll(a, b))),
        ("rolls_for", count(strips::rolls_for(pieces, a, b))),
        ("left_on_last_roll", length(strips::left_on_last_roll(pieces, a, b))),
        ("strips_joined", count(joins::strips_joined(a, b, c))),
        ("joined_length", length(joins::joined_length(pieces, a, b))),
        ("strips_looped", count(joins::strips_looped(a, b, c))),
        ("looped_length", length(joins::looped_length(pieces, a, b))),
        ("strips_for_frill", count(joins::strips_for_frill(a, b))),
        ("cloth_for_strips", length(joins::cloth_for_strips(pieces, a))),
        ("panels_for", count(panels::panels_for(a, b, c))),
        ("widths_for", panels::widths_for(a, b, c, Widths::Half, Length::ZERO)),
        ("band_length", length(band::band_length(a, b, c, a))),
        ("band_depth", length(band::band_depth(a, b))),
        ("band_finished", length(band::band_finished(a, pieces, b))),
        ("even_marks", length(band::even_marks(a, pieces))),
        ("even_spaces", length(band::even_spaces(a, pieces, b))),
        ("elastic_length", length(elastic::elastic_length(a, plain, b))),
        ("elastic_reduction", elastic::elastic_reduction(a, b)),
        ("elastic_stretch", elastic::elastic_stretch(a, b)),
        ("cut_size", length(allowances::cut_size(a, b, c))),
        ("finished_size", length(allowances::finished_size(a, b, c))),
        ("before_shrinking", length(allowances::before_shrinking(a, plain))),
        ("after_shrinking", length(allowances::after_shrinking(a, plain))),
        ("shrinkage_of", allowances::shrinkage_of(a, b)),
        ("shrinkage_uncertainty", washing::shrinkage_uncertainty(a, b)),
        ("longest_drop", length(washing::longest_drop(a, plain))),
        ("curtain_flat", length(curtains::curtain_flat(a, plain, b, c))),
        ("cut_drop", length(curtains::cut_drop(a, b))),
        ("cloth_for_drops", length(curtains::cloth_for_drops(pieces, a))),
        ("circle_radius", length(circle::circle_radius(a, plain))),
        ("circle_sweep", length(circle::circle_sweep(a, plain))),
        ("circle_area", circle::circle_area(a, b, plain).map(Area::steps)),
        ("pleat_count", count(pleats::pleat_count(a, b))),
        ("pleat_width", length(pleats::pleat_width(a, pieces))),
        ("knife_pleats_flat", length(pleats::knife_pleats_flat(a, b, pieces))),
        ("box_pleats_flat", length(pleats::box_pleats_flat(a, b, pieces))),
        ("pleat_take_up", length(pleats::pleat_take_up(a, b, pieces))),
        ("tucked_flat", length(tucks::tucked_flat(a, pieces, b))),
        ("tuck_pitch", length(tucks::tuck_pitch(a, b))),
        ("tuck_gap", length(tucks::tuck_gap(a, b))),
        ("tier_flat", length(tiers::tier_flat(a, plain, pieces))),
        ("tier_depth", length(tiers::tier_depth(a, pieces, b, c))),
        ("tier_widths", tiers::tier_widths(a, &[plain, plain]).map(|list| list[2].steps())),
        ("tier_depths", tiers::tier_depths(a, &[b, c]).map(|list| list[0].steps())),
        ("circle_cut_radius", length(circle::circle_cut_radius(a, plain, b))),
        ("circle_outer_radius", length(circle::circle_outer_radius(a, b, c))),
        ("sector_across", length(circle::sector_across(a, plain))),
        ("sector_along", length(circle::sector_along(a, b, plain))),
        ("box_pleat_depth", length(pleats::box_pleat_depth(a, b, pieces))),
        ("knife_pleated_section", length(pleats::knife_pleated_section(a, b, pieces))),
        ("box_pleated_section", length(pleats::box_pleated_section(a, b, pieces))),
        ("knife_pleats_in", count(pleats::knife_pleats_in(a, b, c))),
        ("box_pleats_in", count(pleats::box_pleats_in(a, b, c))),
        ("pleat_take_up_of_rest", length(pleats::pleat_take_up_of_rest(a, b, c, pieces))),
        ("seam_pleat_added", length(pleats::seam_pleat_added(a, b))),
        ("pleat_block_strip", length(pleats::pleat_block_strip(a, b))),
        ("hem_tuck_fold", length(tucks::hem_tuck_fold(a, b))),
        ("gore_rise", length(gores::gore_rise(a, b, pieces))),
        ("five_gore_shares", gores::five_gore_shares(a).map(|shares| shares[2].steps())),
        ("sleeve_head", length(sleeves::sleeve_head(a, b))),
        ("buttonhole", length(sleeves::buttonhole(a, b))),
        ("slash_spread", length(sleeves::slash_spread(a, plain, pieces))),
        ("knotted_strip", length(knots::knotted_strip(a, b))),
        ("knotted_strips", count(knots::knotted_strips(a, pieces, b))),
        ("flounce_cut_radius", length(flounce::flounce_cut_radius(a, b))),
        ("flounce_seam", length(flounce::flounce_seam(a, b))),
        ("bias_length_at_most", length(bias::bias_length_at_most(a * b, c))),
        ("bias_square_at_least", length(bias::bias_square_at_least(a, b))),
        ("binding_width", length(bias::binding_width(a, pieces, b))),
        ("bias_span", length(bias::bias_span(a))),
        ("bias_step", length(bias::bias_step(a))),
        ("bias_join", length(bias::bias_join(a))),
        ("bias_pieces_in", count(bias::bias_pieces_in(a, b, c))),
        ("bias_pieces_length", length(bias::bias_pieces_length(pieces, a, b))),
        ("bias_pieces_for", count(bias::bias_pieces_for(a, b, c, a, b))),
        ("bias_pieces_depth", length(bias::bias_pieces_depth(pieces, a, b))),
        ("bias_tube_length", length(bias::bias_tube_length(a, b, c, a))),
        ("bias_tube_depth", length(bias::bias_tube_depth(a, b, c, a))),
        ("bias_square", length(bias::bias_square(a, b, plain))),
        ("bias_strips_for", count(bias::bias_strips_for(a, b, c, a))),
        ("bias_strips_length", length(bias::bias_strips_length(pieces, a, b, c))),
        ("bias_strips_cloth", length(bias::bias_strips_cloth(pieces, a, b))),
        ("bunting_rows", count(bunting::bunting_rows(pieces, a, b))),
        ("pinch_pleat_count", count(headings::pinch_pleat_count(a, b))),
        ("rod_pocket_depth", length(headings::rod_pocket_depth(a))),
        ("rod_pocket_for_round", length(headings::rod_pocket_for_round(a, plain))),
        ("festoon_cut_depth", length(drapery::festoon_cut_depth(a))),
        ("festoon_tail", length(drapery::festoon_tail(a, "top"))),
        ("flat_valance_cloth", length(drapery::flat_valance_cloth(pieces, a, b, c))),
        ("drapery_guess", length(drapery::drapery_guess(a))),
        ("fringe_guess", length(drapery::fringe_guess(a))),
        ("bed_valance_edge", length(drapery::bed_valance_edge(a, b))),
        ("puff_ruffle_depth", length(ruffles::puff_ruffle_depth(a))),
        ("french_ruffle_flat", length(ruffles::french_ruffle_flat(a))),
        ("corner_lace", length(ruffles::corner_lace(a, plain))),
        ("trim_length", length(trims::trim_length(a, pieces, b, c))),
        ("bag_cut_length", length(ties::bag_cut_length(a, b, c))),
        ("drawstring_cord", length(ties::drawstring_cord(a, b, pieces))),
        ("bow_length", length(ties::bow_length(a, b, c))),
        ("sash_length", length(ties::sash_length(a, b, c, a))),
        ("gore_width", length(gores::gore_width(a, pieces, b))),
        ("gore_width_of_rest", length(gores::gore_width_of_rest(a, b, pieces))),
        ("bunting_tape", length(bunting::bunting_tape(pieces, a, b, c))),
        ("triangles_from_strip", count(bunting::triangles_from_strip(a, b))),
        ("flounce_rings", count(flounce::flounce_rings(a, b, c))),
        ("flounce_sweep", flounce::flounce_sweep(a, b)),
        ("thread_for", thread::thread_for("504", a, plain).map(|used| used.total.steps())),
        ("thread_at", thread::thread_at(plain, plain, a, plain).map(|used| used.needles.steps())),
        ("thread_ratio", thread::thread_ratio(a, b, c)),
        ("lockstitch_ratio", thread::lockstitch_ratio(a, b)),
        ("overedge_ratio", thread::overedge_ratio(a, b, c, plain)),
        ("labour_cost", priced(labour::labour_cost(Time::from_steps(a.steps()), wage))),
        (
            "batch_time",
            labour::batch_time(Time::from_steps(a.steps()), Time::from_steps(plain), pieces).map(Time::steps),
        ),
        ("marked_up", priced(price::marked_up(money, plain))),
        ("price_at_margin", priced(price::price_at_margin(money, plain))),
        ("mark_up_of_margin", price::mark_up_of_margin(plain)),
        ("margin_of_mark_up", price::margin_of_mark_up(plain)),
        ("grossed_up", priced(price::grossed_up(money, plain))),
        ("rounded_up", rounded::rounded_up(a.into(), b.into()).map(|up| up.steps().abs())),
        ("rounded_down", rounded::rounded_down(a.into(), b.into()).map(|down| down.steps().abs())),
        ("rounded_nearest", rounded::rounded_nearest(a.into(), b.into()).map(|near| near.steps().abs())),
        ("up", rounded::up(plain).map(|up| number::from_whole(up).abs())),
        ("nearest", rounded::nearest(plain).map(|near| number::from_whole(near).abs())),
    ]
}
