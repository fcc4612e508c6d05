//! The demo workshop reads without errors, and its figures are those of its story.

use super::*;
use crate::diagnostic::Diagnose;
use crate::piece::{MaterialKind, Repeat};
use crate::quantity::Reading;
use crate::table::from_csv;
use crate::workshop::trials::StripError;

const FILES: [(&str, &str); 6] = [
    ("settings.csv", include_str!("../../../recipes/demo/settings.csv")),
    ("materials.csv", include_str!("../../../recipes/demo/materials.csv")),
    ("stock.csv", include_str!("../../../recipes/demo/stock.csv")),
    ("trials.csv", include_str!("../../../recipes/demo/trials.csv")),
    ("rates.csv", include_str!("../../../recipes/demo/rates.csv")),
    ("sizes.csv", include_str!("../../../recipes/demo/sizes.csv")),
];

pub(super) fn demo() -> Workshop {
    read(&FILES)
}

#[test]
fn every_file_is_a_table_too() {
    for (name, text) in FILES {
        let any = WorkshopFile::columns_of_any_kind(name);
        let table = from_csv::read_with(name, text, Reading::default(), any);
        let table = table.unwrap_or_else(|errors| panic!("{name}: {errors:#?}"));
        assert_eq!(table.len(), text.lines().count() - 1, "{name}");
        assert!(any.iter().all(|column| table.column(column).is_ok()), "{name}");
    }
}

#[test]
fn the_files_say_what_the_story_tells() {
    let demo = demo();
    let tulle = demo.materials.find("Ivory  TULLE").unwrap();
    assert_eq!((tulle.kind, tulle.usable_width), (MaterialKind::Roll, Some(inches(6.0))));
    assert_eq!((tulle.put_up, tulle.price), (Some(Length::yards(25.0)), Some(dollars(6.5))));
    assert_eq!((tulle.price_for, tulle.sold_by), (PriceFor::PutUp, SoldBy::PutUp));
    let face = demo.materials.find("garden face cloth").unwrap();
    assert_eq!(
        (face.usable_width, face.repeat),
        (Some(Length::centimetres(137.0)), Some(Repeat::half_drop(Length::centimetres(64.0))))
    );
    assert!(face.nap);
    assert_eq!(face.fibre.as_deref(), Some("55 % linen, 45 % cotton"));
    assert_eq!(demo.materials.nearest("wide ivry tulle"), Some("wide ivory tulle"));

    assert_eq!(demo.stock.of("ivory tulle").count(), 3);
    let held: Vec<&str> = demo.stock.list.iter().filter_map(|piece| piece.held_for.as_deref()).collect();
    assert_eq!(held, ["order 31", "order 33"]);
    let remnant = demo.stock.find("s2-2").unwrap();
    assert_eq!(remnant.width(demo.materials.find("ivory satin").unwrap()), Some(inches(14.5)));
    assert_eq!(demo.stock.find("K1-1").map(|hooks| (hooks.count, hooks.along)), Some((140, None)));

    assert_eq!(demo.sizes.find("wren").and_then(|wren| wren.measure("Waist to hem")), Some(inches(12.0)));
    assert_eq!(demo.sizes.find("Pip").and_then(|pip| pip.measure("hip")), None);

    let settings = &demo.settings;
    assert_eq!((settings.tape, settings.inch_step, settings.currency), (Tape::Inch, InchStep::Eighth, '$'));
    assert_eq!((settings.deposit, settings.smallest_remnant), (Some(0.4), Some(inches(5.0))));
    assert_eq!(settings.with_ending(dollars(23.51)), dollars(24.5));
    assert_eq!(settings.with_ending(dollars(23.5)), dollars(23.5));
    assert_eq!(settings.with_ending(dollars(0.1)), dollars(0.5));
}

/// Ten strips to 10 in to 2 in: common practice, no source; the rest own arithmetic.
#[test]
fn the_two_tulle_trials_differ_by_their_overlaps() {
    let demo = demo();
    let edge = demo.trials.find("tulle edge to edge").unwrap();
    assert_eq!((edge.pass_ratio(1), edge.pass_ratio(2)), (Some(6.0), Some(5.0)));
    assert_eq!((edge.pieces(inches(24.0)), edge.pieces(inches(22.0))), (Ok(120), Ok(110)));
    let lapped = demo.trials.find("tulle overlapped").unwrap();
    assert_eq!((lapped.piece(), lapped.overlap()), (Some(inches(6.0)), Some(inches(0.5))));
    assert_eq!(lapped.pass_ratio(1).map(|ratio| (ratio * 100.0).round()), Some(555.0));
    assert_eq!((lapped.pieces(inches(24.0)), lapped.pieces(inches(22.0))), (Ok(121), Ok(111)));
    assert_eq!(lapped.pieces_of(inches(22.0), inches(54.0), inches(0.5)), Ok(12));
    let lawn = demo.trials.find("lawn once").unwrap();
    assert_eq!(lawn.passes.iter().map(|pass| pass.strips.len()).collect::<Vec<_>>(), [3]);
    let mean = (20.0 / 11.25 + 30.0 / 16.75 + 40.0 / 22.625) / 3.0;
    assert!((lawn.ratio() - mean).abs() < 1e-12);
    assert_eq!(lawn.pieces(inches(10.0)), Err(StripError::PieceNotKnown));
}

#[test]
fn amounts_cost_their_list_price_and_what_must_be_bought() {
    let demo = demo();
    let cost = |name: &str, amount: Quantity| {
        let material = demo.materials.find(name).unwrap();
        (material.list_price(amount).unwrap(), material.bought_price(amount).unwrap())
    };
    // 1200 in is 33 1/3 yd: 1 1/3 rolls of 25 yd at list price, two rolls bought.
    assert_eq!(cost("ivory tulle", inches(1200.0).into()), (dollars(6.5 * 4.0 / 3.0), dollars(13.0)));
    assert_eq!(cost("ivory tulle", Length::yards(50.0).into()), (dollars(13.0), dollars(13.0)));
    // 79 in at $5.60 a yard; sold by the eighth of a yard it is 2 1/4 yd.
    assert_eq!(cost("ivory satin", inches(79.0).into()), (dollars(5.6 * 79.0 / 36.0), dollars(12.6)));
    assert_eq!(cost("curtain hook", Quantity::number(25.2)), (dollars(2.772), dollars(2.86)));
    assert_eq!(cost("ivory tulle", Quantity::number(3.0)), (dollars(19.5), dollars(19.5)));
    let hook = demo.materials.find("curtain hook").unwrap();
    let error = hook.list_price(inches(3.0).into()).unwrap_err();
    assert_eq!(error.to_string(), "“curtain hook” is sold by the piece; a length was asked for");
    let satin = demo.materials.find("ivory satin").unwrap();
    let error = satin.as_sold(Quantity::number(2.0)).unwrap_err();
    assert_eq!(error.to_string(), "“ivory satin” is sold by the length; a plain number was asked for");
    let unpriced = Material { price: None, ..satin.clone() };
    let error = unpriced.bought_price(inches(3.0).into()).unwrap_err();
    assert_eq!(error.to_string(), "“ivory satin” has no price");
}

#[test]
fn work_takes_its_minutes_and_its_set_up_once() {
    let demo = demo();
    let minutes = |count: f64| Time::try_from(Quantity::of(count, Unit::Minute)).unwrap();
    let hem = demo.rates.minutes_for("turn and sew a hem", Length::centimetres(250.0).into()).unwrap();
    assert_eq!((hem.running, hem.set_up, hem.total()), (minutes(10.0), minutes(3.0), minutes(13.0)));
    let hang = demo.rates.minutes_for("Hang, dress and check a curtain", Quantity::number(2.0)).unwrap();
    assert_eq!((hang.running, hang.set_up), (minutes(24.0), Time::ZERO));
    let error = demo.rates.minutes_for("sew a seem", Quantity::number(2.0)).unwrap_err();
    assert_eq!(
        (error.to_string().as_str(), error.hint().as_deref()),
        ("rates.csv has no operation “sew a seem”", Some("did you mean “sew a seam”?"))
    );
    let error = demo.rates.minutes_for("sew a seam", Quantity::number(2.0)).unwrap_err();
    assert_eq!(error.to_string(), "“sew a seam” is timed by a length; a plain number was given");
    let error = demo.rates.minutes_for("sew a band", Quantity::number(-1.0)).unwrap_err();
    assert_eq!(error.to_string(), "“sew a band” cannot be done less than nothing");
    assert_eq!(demo.rates.wage.map(|wage| Unit::Hour.steps() * wage.steps()), Some(210_000.0));
    assert!(matches!(demo.rates.overhead, Some(Overhead::ByTime(_))));
    assert_eq!((demo.rates.mark_up, demo.rates.fee, demo.rates.waste), (Some(0.45), Some(0.065), Some(0.05)));
    assert_eq!(demo.rates.minimum, Some(dollars(18.0)));
}
