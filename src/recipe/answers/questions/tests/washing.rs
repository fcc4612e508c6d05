//! The question of what is done about the first wash: asked once, last, and only where nothing says it.

use super::*;
use crate::workshop::Washing;

/// Two cloths that lose something, the second with a word on it; one that nobody has measured, one that loses nothing.
fn shop() -> Workshop {
    let materials = "material,kind,usable width,price,shrink along,shrink across,washing\n\
                     cotton,cloth,45 in,$7/yd,4 %,2 %,\n\
                     linen,cloth,54 in,$9/yd,5 %,0 %,washed first\n\
                     calico,cloth,45 in,$4/yd,,,\n\
                     net,cloth,54 in,$2/yd,0 %,0 %,\n";
    Workshop::read(&[("materials.csv", materials)]).unwrap()
}

const BAG: [(&str, &str); 3] = [("wide", "9 in"), ("high", "12 in"), ("cord", "any")];

#[test]
fn it_is_asked_once_and_last() {
    let mut dialogue = start("drawstring_bag", shop(), &BAG, &[]).unwrap();
    check(
        &dialogue
            .typed(&["cotton", "shrunk", "longer"])
            .lines()
            .skip_while(|line| !line.starts_with("washing"))
            .collect::<Vec<_>>()
            .join("\n"),
        "
washing: cotton loses 4 % of its length and 2 % of its width in the first wash; how is it cut?
  washed first or cut longer or as it comes
> shrunk
no: washing: “shrunk” is none of washed first, cut longer, as it comes
washing: cotton loses 4 % of its length and 2 % of its width in the first wash; how is it cut?
  washed first or cut longer or as it comes
> longer
cut longer",
    );
    assert!(dialogue.questions.next().is_none());
    assert!(dialogue.answers().contains(&"washing=cut longer".to_owned()), "{:?}", dialogue.answers());
    assert_eq!(dialogue.run().washing, Some(Washing::CutLonger));
    // An answer can be taken back, and another cloth is not asked for.
    assert!(dialogue.questions.back() && dialogue.questions.back());
    for cloth in ["linen", "calico", "net"] {
        let mut dialogue = start("drawstring_bag", shop(), &BAG, &[]).unwrap();
        dialogue.typed(&[cloth]);
        assert_eq!(dialogue.questions.next(), None, "{cloth}");
        assert_eq!(dialogue.run().washing, None, "{cloth}");
    }
}

#[test]
fn on_the_command_line_the_order_is_refused_with_what_to_type() {
    let run = |more: &[(&str, &str)]| {
        let recipe = library::shipped("drawstring_bag").unwrap();
        let given = [&BAG, more].concat();
        match answer_in(&recipe, &shop(), false, &Task::run(given), StopFlag::default()) {
            Reply::Ran(ticket) => Ok(*ticket),
            Reply::Refused(refusals) => Err(excerpt::texts(&refusals)),
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(
        run(&[("cloth", "cotton")]).unwrap_err(),
        "washing: missing: cotton loses 4 % of its length and 2 % of its width in the first wash; how is it cut?\n  \
         type washing='washed first', washing='cut longer' or washing='as it comes'"
    );
    assert_eq!(
        run(&[("cloth", "cotton"), ("washing", "first of all")]).unwrap_err(),
        "washing: “first of all” is none of washed first, cut longer, as it comes\n  \
         type washing='washed first', washing='cut longer' or washing='as it comes'"
    );
    for (typed, washing) in [("first", Washing::WashedFirst), ("as_it_comes", Washing::AsItComes)] {
        let ticket = run(&[("cloth", "cotton"), ("washing", typed)]).unwrap();
        assert_eq!(ticket.washing, Some(washing), "{typed}");
    }
    // An order says otherwise than the list, and may say it of what is not known to lose anything.
    assert_eq!(run(&[("cloth", "linen"), ("washing", "longer")]).unwrap().washing, Some(Washing::CutLonger));
    assert_eq!(run(&[("cloth", "calico"), ("washing", "first")]).unwrap().washing, Some(Washing::WashedFirst));
}

/// Own arithmetic: 45 in wash to 45 × 0.98 = 44.1 in, and a repeat of 64 cm to 64 × 0.96 = 61.44 cm; cut as they come
/// they stay.
#[test]
fn a_recipe_reckons_with_the_washed_cloth() {
    let materials = "material,kind,usable width,price,repeat,shrink along,shrink across\n\
                     print,cloth,45 in,$7/yd,64 cm,4 %,2 %\n";
    let shop = Workshop::read(&[("materials.csv", materials)]).unwrap();
    let text = r#"//! A drop of print.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: trim
fn inputs() { [ cloth("face", "print") ] }
fn make(order, ticket) {
    ticket.figure("wide", order.face.usable_width, "its width");
    ticket.figure("pattern", order.face.repeat, "its repeat");
    ticket.figure("drop", order.face.cut_drop(60 cm), "a drop");
    ticket.piece("strip", order.face).strips(90 in, 10 in);
    ticket.step("Cut {drop}.");
}
fn examples() { [] }
"#;
    let recipe = crate::recipe::RecipeText { name: "drop".to_owned(), text: text.to_owned(), helpers: BTreeMap::new() };
    let figures = |washing: &str| {
        let given = [("face", "print"), ("washing", washing)];
        let reply = answer_in(&recipe, &shop, false, &Task::run(given), StopFlag::default());
        let Reply::Ran(ticket) = reply else { panic!("{reply:?}") };
        let size = |name: &str| ticket.figure(name).unwrap().value.quantity().unwrap().steps() / 1e7;
        let round = |size: f64| (size * 1e4).round() / 1e4;
        ([size("wide"), size("pattern"), size("drop")].map(round), ticket.pieces_of("strip"))
    };
    // 90 in are three strips of 44.1 in and two of 45 in.
    assert_eq!(figures("washed first"), ([112.014, 61.44, 61.44], Some(3)));
    assert_eq!(figures("cut longer"), figures("washed first"));
    assert_eq!(figures("as it comes"), ([114.3, 64.0, 64.0], Some(2)));
}

/// Own arithmetic: a bag 9 in wide and 12 in high is cut 29 in long; the lawn of the demo loses 4 %, so 29 / 0.96 =
/// 30.208 in are bought, with 5 % waste 31.719 in at $9.25 a yard: $8.15. Sold by the eighth of a yard it is 7/8 yd,
/// $8.09.
#[test]
fn the_lawn_of_the_demo_is_bought_and_priced_before_washing() {
    use crate::cutting::Planner;
    use crate::report::write_markdown;
    use crate::ticket::{OrderSection, WorkshopOrder};
    use std::sync::Arc;

    const RATES: &str = include_str!("../../../../../recipes/demo/rates.csv");
    let shop =
        Workshop::read(&[("settings.csv", SETTINGS), ("materials.csv", MATERIALS), ("rates.csv", RATES)]).unwrap();
    let recipe = library::shipped("drawstring_bag").unwrap();
    let given = [&BAG[..], &[("cloth", "white cotton lawn")]].concat();
    let reply = answer_in(&recipe, &shop, false, &Task::run(given), StopFlag::default());
    let Reply::Ran(ticket) = reply else { panic!("{reply:?}") };
    let style = shop.settings.style();
    let order = WorkshopOrder::new(*ticket, Arc::new(shop), &style, Planner::default()).unwrap();
    let row_of = |table: &str| {
        let table = OrderSection::of_member(table).unwrap().table(&order).unwrap().unwrap();
        let mut written = Vec::new();
        write_markdown(&table, &style, &mut written).unwrap();
        let written = String::from_utf8(written).unwrap();
        written.lines().find(|line| line.starts_with("| white cotton lawn")).unwrap().to_owned()
    };
    assert!(row_of("cost").contains(" $8.15 "), "{}", row_of("cost"));
    let bought = row_of("buy_list");
    assert!(bought.contains(" 7/8 yd ") && bought.contains(" $8.09 "), "{bought}");
}
