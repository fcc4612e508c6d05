//! What cannot be planned is refused with words that say what to do.

use super::*;
use crate::diagnostic::{Diagnose, DiagnosticKind};

#[track_caller]
fn check(pieces: &[CutPiece], goods: &Goods, stock: &[StockLength], supply: &Supply, words: &str, hint: &str) {
    let error = planned(pieces, goods, stock, supply).unwrap_err();
    assert_eq!(error.to_string(), words);
    assert_eq!(error.hint().as_deref(), Some(hint), "{words}");
}

/// A full-width piece is not pieced together across from a narrower remnant, even if it may be joined.
#[test]
fn a_full_width_is_not_made_up_of_narrower_lengths() {
    let rule = JoinRule::new(1, cm(6.0), cm(2.0));
    let strip = CutPiece { may_join: Some(rule), ..strips(1, cm(23.0)) };
    let remnant = StockLength {
        name: "S1".to_owned(),
        lot: None,
        along: cm(183.5),
        across: Some(cm(58.0)),
        washed: false,
        price: None,
        count: 1,
        remnant: true,
    };
    let error = planned(&[strip], &Goods::cloth(cm(79.25)), &[remnant], &Supply::ShelfOnly).unwrap_err();
    assert!(matches!(error, CuttingError::TooWide { .. }), "{error}");
}

#[test]
fn a_piece_that_does_not_fit() {
    let cloth = Goods::cloth(inches(45.0));
    let panel = rectangle("panel", 1, inches(50.0), inches(60.0));
    let wider = "allow a join, or choose a wider cloth";
    let endless = Supply::Endless;
    check(
        std::slice::from_ref(&panel),
        &cloth,
        &[],
        &endless,
        "panel is 60 in across; the usable width is 45 in",
        wider,
    );
    let any = CutPiece { grain: Grain::Any, ..panel };
    check(&[any], &cloth, &[], &endless, "panel is 50 in across; the usable width is 45 in", wider);
    let short = rectangle("panel", 1, inches(40.0), inches(60.0));
    let turned = "let its grain be any, allow a join, or choose a wider cloth";
    check(&[short], &cloth, &[], &endless, "panel is 60 in across; the usable width is 45 in", turned);
    check(
        &[strips(1, inches(910.0))],
        &tulle(),
        &[],
        &endless,
        "strip is 910 in long; no length is longer than 25 yd",
        "allow a join, or choose goods sold in longer lengths",
    );
}

#[test]
fn a_join_rule_that_is_too_tight() {
    let cloth = Goods::cloth(inches(45.0));
    let joined = |most, shortest, allowance| {
        let rule = JoinRule::new(most, inches(shortest), inches(allowance));
        [CutPiece { may_join: Some(rule), ..rectangle("panel", 1, inches(50.0), inches(120.0)) }]
    };
    check(
        &joined(1, 4.0, 0.5),
        &cloth,
        &[],
        &Supply::Endless,
        "panel needs 2 joins in each piece; 1 join is allowed",
        "allow more joins, or choose wider or longer goods",
    );
    check(
        &joined(2, 42.0, 0.5),
        &cloth,
        &[],
        &Supply::Endless,
        "panel: one part of the joined piece would be only ≈ 40 5/8 in; the shortest allowed is 42 in",
        "allow shorter parts, or choose wider or longer goods",
    );
    check(
        &joined(2, 4.0, 23.0),
        &cloth,
        &[],
        &Supply::Endless,
        "panel: the allowances of a join take 46 in, and the goods offer 45 in",
        "make the allowance smaller, or choose wider goods",
    );
    // Only straight pieces are joined.
    let circle = Shape::Sector { inner: inches(4.0), outer: inches(30.0), turn: 1.0 };
    let rule = JoinRule::new(9, inches(1.0), inches(0.5));
    let skirt = CutPiece { may_join: Some(rule), ..CutPiece::new("skirt", 1, circle) };
    let error = planned(&[skirt], &cloth, &[], &Supply::Endless).unwrap_err();
    assert!(matches!(error, CuttingError::TooWide { .. }), "{error}");
}

#[test]
fn a_shelf_that_runs_out() {
    let stock = [StockLength { count: 2, ..StockLength::new("B4", inches(120.0)) }];
    let rule = JoinRule::new(1, inches(1.0), inches(0.5));
    for may_join in [None, Some(rule)] {
        check(
            &[CutPiece { may_join, ..strips(7, inches(54.0)) }],
            &tulle(),
            &stock,
            &Supply::ShelfOnly,
            "the stock runs out with 3 of strip still to cut",
            "add stock, or let more be bought",
        );
    }
}

/// One garment of three strips of 54 in: 120 in of each hold two, so one lot of goods is a strip short, whichever it is.
/// Two garments of two strips each come from one length each.
#[test]
fn a_shelf_that_holds_enough_only_of_both_washed_and_unwashed() {
    let stock =
        [StockLength { washed: true, ..StockLength::new("A", inches(120.0)) }, StockLength::new("B", inches(120.0))];
    let garment = |each, count| CutPiece { per_garment: Some(each), ..strips(count, inches(54.0)) };
    check(
        &[garment(3, 3)],
        &tulle(),
        &stock,
        &Supply::ShelfOnly,
        "the unwashed stock runs out with 1 of strip still to cut, and no garment is cut from washed and unwashed cloth",
        "add stock, or let more be bought",
    );
    // Five are more than both hold together.
    check(
        &[garment(5, 5)],
        &tulle(),
        &stock,
        &Supply::ShelfOnly,
        "the stock runs out with 3 of strip still to cut",
        "add stock, or let more be bought",
    );
    let plan = planned(&[garment(2, 4)], &tulle(), &stock, &Supply::ShelfOnly).unwrap();
    assert_eq!(
        plan.uses.iter().map(|used| (used.stock.as_str(), used.cuts.len())).collect::<Vec<_>>(),
        [("A", 2), ("B", 2)]
    );
}

#[test]
fn turning_is_offered_only_where_it_helps() {
    let panel = rectangle("panel", 1, inches(40.0), inches(60.0));
    let hint = |goods: &Goods, grain| {
        let piece = CutPiece { grain, ..panel.clone() };
        planned(&[piece], goods, &[], &Supply::Endless).unwrap_err().hint().unwrap()
    };
    let (cloth, plain) = (Goods::cloth(inches(45.0)), "allow a join, or choose a wider cloth");
    assert_eq!(hint(&cloth, Grain::Along), "let its grain be any, allow a join, or choose a wider cloth");
    assert_eq!(hint(&cloth, Grain::Bias), plain);
    let napped = Goods { napped: true, ..cloth };
    assert_eq!(hint(&napped, Grain::Along), plain);
    assert_eq!(hint(&napped, Grain::Any), plain);
}

#[test]
fn pieces_that_make_no_sense() {
    let refused = |piece: CutPiece, goods: &Goods| planned(&[piece], goods, &[], &Supply::Endless).unwrap_err();
    let cloth = Goods::cloth(cm(140.0));
    let text = |error: CuttingError| error.to_string();
    assert_eq!(text(refused(strips(-1, cm(10.0)), &cloth)), "strip: -1 cannot be counted");
    assert_eq!(text(refused(strips(1, cm(0.0)), &cloth)), "strip: the size is 0 cm");
    assert_eq!(text(refused(strips(1, Length::from_steps(f64::NAN)), &cloth)), "strip: there is no size");
    let far = refused(strips(1, cm(1e7)), &cloth);
    assert_eq!(text(far), "strip: 10000000 cm is more than a plan reckons with, which is 10 km");
    let pair = CutPiece { mirrored: true, ..rectangle("sleeve", 3, cm(9.0), cm(9.0)) };
    assert_eq!(text(refused(pair, &cloth)), "sleeve: 3 pieces do not make mirrored pairs");
    let turned = CutPiece { grain: Grain::Bias, ..strips(1, cm(10.0)) };
    assert_eq!(
        text(refused(turned, &cloth)),
        "strip takes the full width of the goods, so its grain can only be along"
    );
    assert_eq!(
        text(refused(rectangle("band", 1, cm(9.0), cm(9.0)), &tulle())),
        "band has a shape of its own, but roll goods are cut straight across in full widths"
    );
    let corner = |along, across| OutlinePoint { along: cm(along), across: cm(across) };
    let flat = Shape::Outline(vec![corner(0.0, 0.0), corner(5.0, 5.0), corner(9.0, 9.0)]);
    let ring = |inner, turn| Shape::Sector { inner: cm(inner), outer: cm(20.0), turn };
    for shape in [flat, ring(20.0, 1.0), ring(5.0, 0.0), ring(5.0, 1.1), ring(5.0, f64::NAN), ring(-1.0, 1.0)] {
        assert_eq!(
            text(refused(CutPiece::new("gusset", 1, shape), &cloth)),
            "gusset: the shape encloses nothing, or its outline crosses itself"
        );
    }
    let goods = Goods::cloth(cm(0.0));
    assert_eq!(text(refused(strips(1, cm(9.0)), &goods)), "the width of the goods: the size is 0 cm");
}

#[test]
fn too_many_pieces() {
    let error = planned(&[strips(1_000_001, cm(10.0))], &tulle(), &[], &Supply::Endless).unwrap_err();
    assert_eq!(error, CuttingError::TooManyPieces { most: MOST_PIECES });
    let half = strips(i64::MAX / 2, cm(10.0));
    let error = planned(&[half.clone(), half.clone(), half], &tulle(), &[], &Supply::Endless).unwrap_err();
    assert_eq!(error.to_string(), "more than 1000000 pieces in one plan");
    // Parts count as well as pieces.
    let rule = JoinRule::new(i64::MAX, cm(0.0), cm(0.0));
    let long = CutPiece { may_join: Some(rule), ..strips(200, cm(900_000.0)) };
    let goods = Goods::roll(cm(15.0), cm(100.0));
    let error = planned(&[long], &goods, &[], &Supply::Endless).unwrap_err();
    assert_eq!(error, CuttingError::TooManyPieces { most: MOST_PIECES });
    let error = planned(&[strips(1_000, cm(999_999.0))], &Goods::cloth(cm(140.0)), &[], &Supply::Endless).unwrap_err();
    assert_eq!(error, CuttingError::TooMuchLength);
}

#[test]
fn a_stop_is_heard() {
    let stopped =
        plan(&task(&[strips(10, cm(10.0))], &tulle(), &[], &Supply::Endless), Watch::silent(&AtomicBool::new(true)));
    assert_eq!(stopped, Err(CuttingError::Stopped));
}

#[test]
fn what_kind_of_refusal_it_is_and_what_helps() {
    let size = |size| CuttingError::BadSize { what: "strip".into(), size };
    let wide =
        |fits_turned| CuttingError::TooWide { piece: "strip".into(), across: cm(9.0), usable: cm(8.0), fits_turned };
    let refused = CuttingError::Refused { errors: Vec::new() };
    assert_eq!(CuttingError::Stopped.kind(), DiagnosticKind::Stopped);
    assert_eq!(refused.kind(), DiagnosticKind::Error);
    for error in [size(cm(0.0)), wide(true), CuttingError::TooMuchLength, CuttingError::TooManyPieces { most: 9 }] {
        assert_eq!(error.kind(), DiagnosticKind::OutOfRange, "{error}");
    }
    let hint = |error: CuttingError| error.hint().unwrap_or_default();
    // A size that is far too large was meant in another unit.
    assert_eq!(hint(size(cm(1e7))), "check the unit");
    for none in [cm(0.0), cm(-1.0), Length::from_steps(f64::NAN)] {
        assert_eq!(hint(size(none)), "give a size of more than nothing");
    }
    assert!(hint(wide(true)).contains("grain") && !hint(wide(false)).contains("grain"));
    assert!(hint(refused).contains("report") && CuttingError::Stopped.hint().is_none());
    for error in [CuttingError::TooMuchLength, CuttingError::TooManyPieces { most: 9 }] {
        assert!(hint(error).contains("fewer orders"));
    }
}

/// A task is checked without a search where first fit lays it, and otherwise as it is planned.
#[test]
fn a_task_is_checked_as_it_is_planned() {
    let never = AtomicBool::new(false);
    let checked = |pieces: &[CutPiece], goods: &Goods, stock: &[StockLength], manner: Option<&CuttingManner>| {
        let plain = task(pieces, goods, stock, &Supply::ShelfOnly);
        let task = CuttingTask { manner: manner.unwrap_or(plain.manner), ..plain };
        check_task(&task, Watch::silent(&never))
    };
    let roll = Goods { kind: GoodsKind::Roll, ..Goods::cloth(cm(15.0)) };
    let stock = |along: &[f64]| -> Vec<StockLength> {
        along.iter().map(|along| StockLength::new(&format!("S{along}"), cm(*along))).collect()
    };
    let strips_of = |sizes: &[f64]| -> Vec<CutPiece> { sizes.iter().map(|size| strips(1, cm(*size))).collect() };
    let short = |missing| Err(CuttingError::NotEnough { piece: "strip".into(), missing });
    assert_eq!(checked(&strips_of(&[40.0, 60.0]), &roll, &stock(&[100.0]), None), Ok(()));
    assert_eq!(checked(&strips_of(&[40.0, 61.0]), &roll, &stock(&[100.0]), None), short(1));
    // 60 + 40 and 50 + 30 + 20; first fit lays 60 with 40, but 50, 40 … on 100 and 90: 50 and 40 first, and then 60 nowhere.
    assert_eq!(checked(&strips_of(&[50.0, 40.0, 30.0, 30.0]), &roll, &stock(&[80.0, 70.0]), None), Ok(()));
    assert_eq!(checked(&strips_of(&[50.0, 40.0, 30.0, 31.0]), &roll, &stock(&[80.0, 70.0]), None), short(1));
    // Folded cloth of 100: a panel 60 wide is too wide for its half, though not for the cloth.
    let cloth = Goods::cloth(cm(100.0));
    let folded = CuttingManner { laid: Laid::Folded, effort: Effort::of(3_000), ..CuttingManner::default() };
    let panel = [rectangle("panel", 1, cm(40.0), cm(60.0))];
    assert_eq!(checked(&panel, &cloth, &stock(&[100.0]), None), Ok(()));
    assert!(matches!(checked(&panel, &cloth, &stock(&[100.0]), Some(&folded)), Err(CuttingError::TooWide { .. })));
    // No garment of washed and unwashed goods: first fit on both is no plan.
    let mut both = stock(&[100.0, 101.0]);
    both[0].washed = true;
    assert!(matches!(
        checked(&strips_of(&[90.0, 90.0]), &roll, &both, None),
        Err(CuttingError::NotOfBoth { missing: 1, .. })
    ));
    assert_eq!(checked(&strips_of(&[90.0]), &roll, &both, None), Ok(()));
    let stopped = AtomicBool::new(true);
    let pieces = strips_of(&[40.0]);
    let shelf = stock(&[100.0]);
    let task = task(&pieces, &roll, &shelf, &Supply::ShelfOnly);
    assert_eq!(check_task(&task, Watch::silent(&stopped)), Err(CuttingError::Stopped));
}
