//! Checks that the instances used to measure plans match their list, that the sets drawn from a seed are large enough,
//! and that random lists pass planner and verifier.

#[allow(dead_code, reason = "shared with the benchmark, which uses all of it")]
#[path = "../bench/plans/draw.rs"]
mod draw;
#[allow(dead_code, reason = "shared with the benchmark, which uses all of it")]
#[path = "../bench/plans/families.rs"]
mod families;
#[allow(dead_code, reason = "shared with the benchmark, which uses all of it")]
#[path = "../bench/plans/instance.rs"]
mod instance;
#[allow(dead_code, reason = "shared with the benchmark, which uses all of it")]
#[path = "../bench/plans/own_work.rs"]
mod own_work;
#[allow(dead_code, reason = "shared with the benchmark, which uses all of it")]
#[path = "../bench/plans/random.rs"]
mod random;
#[allow(dead_code, reason = "shared with the benchmark, which uses all of it")]
#[path = "../bench/plans/read.rs"]
mod read;

use instance::Instance;
use own_work::Kind;
use random::Manners;
use shirr::cutting::{CutsRun, Laid};
use shirr::piece::{CutPiece, Grain, Shape};
use shirr::quantity::number;
use std::collections::BTreeSet;

/// Asserts that a set's instances match its rows of the list, with the same number of pieces.
#[track_caller]
fn are_listed(set: &str, instances: &[Instance]) {
    let listed = read::references(set);
    assert_eq!(instances.len(), listed.len(), "{set}");
    for instance in instances {
        assert_eq!(instance.count(), listed[&instance.name].pieces, "{}", instance.name);
    }
}

#[test]
fn every_instance_is_listed_and_reads_as_listed() {
    are_listed("stock_lengths", &read::stock_lengths());
    are_listed("stock_mixed", &read::stock_mixed());
    are_listed("outlines", &read::outlines());
    let rectangles = read::strip_rectangles(Grain::Along, CutsRun::Free);
    are_listed("strip_rectangles", &rectangles);
    for sheet in rectangles {
        // Nothing of the sheet is wasted.
        let sheet_area = sheet.reference.unwrap() * sheet.goods.width.in_centimetres();
        assert!((sheet.area.unwrap() - sheet_area).abs() < 1e-6, "{}", sheet.name);
    }
}

/// Published: the record layouts use 76.72, 90.92 and 92.61 % of the goods (JeroenGar/sparrow, read).
#[test]
fn the_outlines_have_the_area_that_their_records_say() {
    for outline in read::outlines() {
        let used = 100.0 * outline.area.unwrap() / (outline.reference.unwrap() * outline.goods.width.steps() / 1e6);
        let published = match outline.name.as_str() {
            "shapes1" => 76.72,
            "shirts" => 90.92,
            "trousers" => 92.61,
            _ => continue,
        };
        assert!((used - published).abs() < 0.006, "{}: {used} % instead of {published} %", outline.name);
    }
}

/// The length of a strip, in nanometres.
#[track_caller]
fn along(shape: &Shape) -> f64 {
    match shape {
        Shape::FullWidth { along } => along.steps(),
        other => panic!("{other:?} is no strip"),
    }
}

/// An optimum is at least the total length over the stock length, and at least the number of pieces longer than half a
/// stock length. It is less than one more than twice the former, because any two lengths of an optimal plan hold
/// together more than one stock length.
#[test]
fn no_reference_is_beyond_what_arithmetic_allows() {
    for list in read::stock_lengths() {
        let stock = list.goods.put_up.unwrap().steps();
        let count = |piece: &CutPiece| number::from_whole(piece.count);
        let total: f64 = list.pieces.iter().map(|piece| along(&piece.shape) * count(piece)).sum();
        let long = list.pieces.iter().filter(|piece| 2.0 * along(&piece.shape) > stock);
        let least = (total / stock - 1e-9).ceil().max(long.map(count).sum());
        let reference = list.reference.unwrap();
        assert!(least <= reference && reference < 2.0 * total / stock + 1.0, "{}: {least} and {reference}", list.name);
    }
}

#[test]
fn own_work_is_wide_enough_and_its_references_are_of_today() {
    let work = own_work::all();
    let of = |kind: Kind| work.iter().filter(|work| work.kind == kind).count();
    assert!(of(Kind::Lay) >= 30 && of(Kind::RollPlan) >= 30);
    let names: BTreeSet<&str> = work.iter().map(|work| work.instance.name.as_str()).collect();
    assert_eq!(names.len(), work.len());
    let has = |test: &dyn Fn(&Instance) -> bool| work.iter().filter(|work| test(&work.instance)).count();
    assert!(has(&|one| one.manner.laid == Laid::Folded) >= 8);
    assert!(has(&|one| one.manner.cuts == CutsRun::Straight) >= 8);
    assert!(has(&|one| !one.stock.is_empty()) >= 12);
    assert!(has(&|one| one.goods.napped) >= 8);
    assert!(has(&|one| one.goods.repeat.is_some() && one.pieces.iter().any(|piece| piece.matching.is_some())) >= 6);
    assert!(has(&|one| one.pieces.iter().any(|piece| piece.may_join.is_some())) >= 4);
    assert!(has(&|one| one.count() > 200) >= 10);

    let mut kept = csv::Reader::from_path(read::folder().join(own_work::FILE)).unwrap();
    let kept: Vec<csv::StringRecord> = kept.records().map(Result::unwrap).collect();
    assert_eq!(kept.len(), work.len(), "scripts/plans own-work --reference writes the references again");
    for (row, work) in kept.iter().zip(&work) {
        let now = [&work.instance.name, work.kind.word(), &work.instance.count().to_string()];
        let kept: Vec<&str> = row.iter().take(3).collect();
        assert_eq!(kept, now, "scripts/plans own-work --reference writes the references again");
        assert_eq!(&row[7], work.orders.join(" / "), "{}", work.instance.name);
    }
}

/// Triplets leave nothing over, so a third as many lengths as pieces hold them.
#[test]
fn families_are_what_they_are_called() {
    for family in &families::FAMILIES {
        let lists = family.lists(20);
        assert!(lists.iter().all(|list| list.count() >= 50), "{}", family.name);
        assert_ne!(lists[0].pieces, lists[1].pieces);
        assert_eq!(lists[7].pieces, family.lists(8)[7].pieces, "a seed gives the same lists however many are drawn");
        if family.name == "triplets" {
            for list in lists {
                let total: f64 =
                    list.pieces.iter().map(|piece| along(&piece.shape) * number::from_whole(piece.count)).sum();
                // In millimetres.
                assert!((total / 1e6 - 20_000.0).abs() < 1e-3, "{}", list.name);
            }
        }
    }
    assert_eq!(families::books(50).len(), 50);
}

#[test]
fn thousands_of_random_lists_are_planned_and_verified() {
    let made = random::lists(7, 10_000, 500, Manners::Usual);
    assert!(made.planned > 4_000 && made.joined > 150 && made.refused > 500, "{made:?}");
}

#[test]
fn thousands_of_random_lists_in_every_manner_are_planned_and_verified() {
    let made = random::lists(8, 10_000, 500, Manners::Every);
    assert!(made.planned > 4_000 && made.joined > 150 && made.refused > 500, "{made:?}");
}
