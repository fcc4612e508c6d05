//! What each word puts on the ticket, and what it refuses.

use super::*;
use crate::engine::limits::StopFlag;
use crate::recipe::{RecipeText, Reply, Task, run};
use crate::report::excerpt;
use crate::workshop::Workshop;
use std::collections::BTreeMap;

/// Makes a ticket with these lines of a recipe that is given two cloths, 45 and 60 in wide, and an elastic.
fn made(lines: &str) -> Result<Ticket, String> {
    let text = format!(
        "//! Things.\n//! contract: 1   version: 1.0   licence: CC0-1.0   for: skirt\n\
         fn inputs() {{ [ cloth(\"cloth\", \"cloth\"), cloth(\"lining\", \"lining\"), notion(\"tape\", \"tape\") ] }}\n\
         fn make(order, ticket) {{\n{lines}\n}}\n"
    );
    let recipe = RecipeText { name: "things".to_owned(), text, helpers: BTreeMap::new() };
    let answers = [("cloth", "any 45 in"), ("lining", "any 60 in"), ("tape", "any")];
    match run::answer_in(&recipe, &Workshop::default(), false, &Task::run(answers), StopFlag::default()) {
        Reply::Ran(ticket) => Ok(*ticket),
        Reply::Failed(errors) | Reply::Refused(errors) => Err(excerpt::texts(&errors)),
        reply => panic!("{reply:?}"),
    }
}

#[track_caller]
fn ticket(lines: &str) -> Ticket {
    made(lines).unwrap_or_else(|error| panic!("{lines}: {error}"))
}

fn shown(length: Length) -> String {
    Style::default().show(length.into())
}

/// A piece of 20 in by 7 in with more said of it.
#[track_caller]
fn piece_of(more: &str) -> Piece<Exact> {
    let ticket = ticket(&format!("ticket.piece(\"panel\", order.cloth).rectangle(20 in, 7 in){more};"));
    ticket.pieces[0].piece.clone()
}

#[test]
fn a_piece_is_what_its_words_say() {
    let plain = piece_of("");
    assert!(
        matches!(&*plain.shape, Shape::Rectangle { along, across } if shown(*along) == "20 in" && shown(*across) == "7 in")
    );
    assert_eq!((plain.count, plain.mirrored, plain.grain, plain.on_fold), (1, false, Grain::Along, None));
    assert!(!plain.never_smaller && plain.matching.is_none() && plain.may_join.is_none() && plain.allowed.is_empty());
    let counted = piece_of(".count(3)");
    assert_eq!((counted.count, counted.mirrored), (3, false));
    let pairs = piece_of(".mirrored_pairs(3)");
    assert_eq!((pairs.count, pairs.mirrored), (6, true));
    for (word, grain) in
        [("along", Grain::Along), ("across", Grain::Across), ("bias", Grain::Bias), ("any", Grain::Any)]
    {
        assert_eq!(piece_of(&format!(".grain(\"{word}\")")).grain, grain);
    }
    for (word, line) in [("along", Fold::Along), ("across", Fold::Across)] {
        assert_eq!(piece_of(&format!(".on_fold(\"{word}\")")).on_fold, Some(line));
    }
    assert_eq!(piece_of(".matched()").matching, Some(Matching::RunOn));
    assert_eq!(piece_of(".matched(\"run on\")").matching, Some(Matching::RunOn));
    assert_eq!(piece_of(".matched(\"level\")").matching, Some(Matching::Level));
    let line = piece_of(".matched(\"level\", 3 in, \"lower edge\")").line.unwrap();
    assert_eq!((shown(line.distance).as_str(), line.edge), ("3 in", Edge::Lower));
    assert!(piece_of(".never_smaller()").never_smaller);
    let rule = piece_of(".may_join(4, 6 in, 1/2 in)").may_join.unwrap();
    assert_eq!((rule.most, shown(rule.shortest), shown(rule.allowance)), (4, "6 in".to_owned(), "1/2 in".to_owned()));
    // What is said of an edge again takes the place of what was said before.
    let allowed =
        piece_of(".allow(\"lower edge\", 2 in).allow(\"upper edge\", 3 in).allow(\"lower edge\", 1 in)").allowed;
    let allowed: Vec<_> = allowed.into_iter().map(|(edge, amount)| (edge, shown(amount))).collect();
    assert_eq!(allowed, [(Edge::Upper, "3 in".to_owned()), (Edge::Lower, "1 in".to_owned())]);
    assert!(ticket("ticket.piece(\"a\", order.cloth).rectangle(2 in, 3 in).once_per_order();").pieces[0].once);
}

/// Strips of a cloth 45 in wide: 200 in take five, and overlapped by 1 in as well; 225 in take five, or six overlapped.
#[test]
fn shapes_have_the_sizes_that_are_given() {
    let piece = |words: &str| ticket(&format!("ticket.piece(\"panel\", order.cloth).{words};")).pieces[0].piece.clone();
    let full = piece("full_width(9 in)");
    assert!(matches!(&*full.shape, Shape::FullWidth { along } if shown(*along) == "9 in"));
    for (words, count) in [
        ("strips(200 in, 9 in)", 5),
        ("strips(225 in, 9 in)", 5),
        ("strips(200 in, 9 in, 1 in)", 5),
        ("strips(225 in, 9 in, 1 in)", 6),
    ] {
        let strips = piece(words);
        assert_eq!(strips.count, count, "{words}");
        assert!(matches!(&*strips.shape, Shape::FullWidth { along } if shown(*along) == "9 in"));
    }
    let sector = piece("sector(0 in, 8 in, 1)");
    assert!(matches!(&*sector.shape, Shape::Sector { turn, .. } if (*turn - 1.0).abs() < 1e-12));
    let sector = piece("sector(3 in, 8 in, 0.25)");
    assert!(matches!(&*sector.shape, Shape::Sector { inner, outer, turn }
        if shown(*inner) == "3 in" && shown(*outer) == "8 in" && (*turn - 0.25).abs() < 1e-12));
    // A corner is written across and then along.
    let outline = piece("outline([[0 in, 0 in], [4 in, 0 in], [2 in, 7 in]])");
    let Shape::Outline(corners) = &*outline.shape else { panic!("{outline:?}") };
    let corners: Vec<_> = corners.iter().map(|corner| (shown(corner.across), shown(corner.along))).collect();
    assert_eq!(corners[2], ("2 in".to_owned(), "7 in".to_owned()));
    let panels = piece("widths(80 in, 30 in).joined(1/2 in, \"half widths\").left_and_right()").panels.unwrap();
    assert_eq!((shown(panels.allowance), panels.halves, panels.paired), ("1/2 in".to_owned(), true, true));
    assert!(!piece("widths(80 in, 30 in).joined(0 in, \"whole widths\")").panels.unwrap().halves);
}

#[test]
fn needs_work_and_stitching_are_listed_in_order() {
    let ticket = ticket(
        "ticket.need(order.tape, 9 in, \"round the waist\").count(3).once_per_order();\n\
         ticket.need(order.tape, 4, \"hooks\");\n\
         ticket.sew(\"301\", 0 in, \"seams\");\n\
         ticket.sew(\"504\", 12 in, \"edges\").once_per_order();\n\
         ticket.work(\"cut a piece\", 3).about(5 min).once_per_order();\n\
         ticket.work(\"sew a seam\", 2 yd);\n\
         ticket.mark(\"panel\", \"hem fold\", 0 in, \"lower edge\");\n\
         ticket.step(\"Cut.\");\n\
         ticket.figure(\"wide\", 7 in, \"how wide\");\n\
         ticket.caution(\"elastic-tight\");\n\
         ticket.caution(\"elastic-tight\");",
    );
    let needs: Vec<_> = ticket.needs.iter().map(|need| (need.why.as_str(), need.count, need.once)).collect();
    assert_eq!(needs, [("round the waist", 3, true), ("hooks", 1, false)]);
    let sewing: Vec<_> =
        ticket.sewing.iter().map(|line| (line.class.as_str(), shown(line.length), line.once)).collect();
    assert_eq!(sewing, [("301", "0 in".to_owned(), false), ("504", "12 in".to_owned(), true)]);
    let work: Vec<_> = ticket.work.iter().map(|work| (work.about.is_some(), work.once)).collect();
    assert_eq!(work, [(true, true), (false, false)]);
    assert_eq!((ticket.marks.len(), ticket.steps.len(), ticket.figures.len()), (1, 1, 1));
    assert_eq!(ticket.cautions.iter().filter(|key| *key == "elastic-tight").count(), 1);
}

/// One value used again is one cloth; two alike in width are two, named after their first use.
#[test]
fn goods_without_a_name_are_named_after_their_use() {
    let piece = |name: &str, cloth: &str| format!("ticket.piece(\"{name}\", {cloth}).rectangle(2 in, 3 in);\n");
    let lines = [
        "let plain = any_cloth(45 in);\nlet other = any_cloth(45 in);\n".to_owned(),
        piece("flap", "plain"),
        piece("flap 2", "plain"),
        piece("cuff", "other"),
        piece("body", "order.cloth"),
        piece("more", "order.cloth"),
        piece("inside", "order.lining"),
    ];
    let ticket = ticket(&lines.concat());
    let used: Vec<usize> = ticket.pieces.iter().map(|piece| piece.material).collect();
    assert_eq!(used, [0, 0, 1, 2, 2, 3]);
    let names: Vec<&str> = ticket.materials.iter().map(|material| material.material.name.as_str()).collect();
    assert_eq!(names[..2], ["any cloth for flap", "any cloth for cuff"]);
}

/// Elastic as long as the body or longer has no limit; a little shorter is usual, and much shorter is warned of.
#[test]
fn elastic_round_a_body_is_warned_of_where_it_is_tight() {
    let warned = |worn: &str| {
        let need = format!("ticket.need(order.tape, 9 in, \"waist\").round_body(20 in, {worn});");
        ticket(&need).cautions.iter().any(|key| key == "elastic-tight")
    };
    assert!(!warned("20 in") && !warned("21 in"));
    assert!(warned("16 in"));
}

#[test]
fn what_a_word_cannot_take_is_refused_with_its_reason() {
    let mut wrong = Vec::new();
    for (lines, reason) in [
        ("PIECE.rectangle(0 in, 7 in)", "the piece “a” would be 0 in along; it must be more than nothing"),
        ("PIECE.rectangle(7 in, -3 in)", "the piece “a” would be -3 in across; it must be more than nothing"),
        ("PIECE.full_width(0 in)", "the piece “a” would be 0 in along"),
        ("PIECE.strips(9 in, 0 in)", "the piece “a” would be 0 in along"),
        ("PIECE.widths(0 in, 3 in)", "the piece “a” would be 0 in across"),
        ("PIECE.sector(8 in, 8 in, 0.5)", "the inner radius must be zero or more, and less than the outer one"),
        ("PIECE.sector(-1 in, 8 in, 0.5)", "the inner radius must be zero or more"),
        ("PIECE.sector(1 in, 8 in, 0)", "the turn of a sector lies between 0 and 1"),
        ("PIECE.sector(1 in, 8 in, 1.01)", "the turn of a sector lies between 0 and 1"),
        ("PIECE.outline([[0 in, 0 in], [4 in, 0 in]])", "an outline is a list of at least three points"),
        ("PIECE.outline([[0 in, 0 in], [4 in, 0 in], [4 in]])", "an outline is a list of at least three points"),
        ("PIECE.outline([[0 in, 0 in], [4 in, 0 in], [8 in, 0 in]])", "the outline encloses nothing"),
        ("PIECE.outline([[0 in, 0 in], [0 in, 4 in], [0 in, 8 in]])", "the outline encloses nothing"),
        ("PIECE.rectangle(2 in, 3 in).count(0)", "count"),
        ("PIECE.rectangle(2 in, 3 in).mirrored_pairs(0)", "pairs"),
        ("PIECE.rectangle(2 in, 3 in).allow(\"lower edge\", -1 in)", "what is allowed at an edge is zero or more"),
        ("PIECE.rectangle(2 in, 3 in).matched(\"level\", -1 in, \"lower edge\")", "a line lies on the piece"),
        ("PIECE.widths(9 in, 3 in).joined(-1 in, \"half widths\")", "a join takes an allowance of zero or more"),
        ("PIECE.rectangle(2 in, 3 in); PIECE.rectangle(2 in, 3 in)", "there is a piece “a” already"),
        ("ticket.piece(\"a\", order.tape)", "a cloth"),
        ("ticket.need(order.cloth, 3 in, \"x\")", "a notion"),
        ("ticket.need(order.tape, -3 in, \"x\")", "the amount in need is -3 in; it must be zero or more"),
        ("ticket.need(order.tape, 3 min, \"x\")", "a length or a number"),
        ("ticket.need(order.tape, 3, \"x\").count(2)", "this need is counted: its amount, 3, is how many there are"),
        ("ticket.sew(\"301\", 3 in, \"x\").count(2)", "only a need is so many pieces"),
        ("ticket.sew(\"999\", 3 in, \"x\")", "999"),
        ("ticket.sew(\"301\", -3 in, \"x\")", "the length in sew is -3 in; it must be zero or more"),
        ("ticket.sew(\"301\", 3 in, \"x\").about(3 min)", "only work has minutes"),
        ("ticket.work(\"cut a piece\", 3).about(-3 min)", "work cannot take less than no time"),
        ("ticket.work(\"cut a piece\", -3)", "the amount in work is -3; it must be zero or more"),
        ("ticket.mark(\"a\", \"b\", -3 in, \"c\")", "a mark cannot lie -3 in away"),
        ("ticket.cut_steps(\"b\")", "there is no piece “b” yet"),
        ("ticket.caution(\"elastic-tihgt\")", "did you mean “elastic-tight”?"),
        ("ticket.caution(\"qqqqqqqqqqqq\")", "the cautions are "),
        ("ticket.figure(\"cloth\", 3, \"x\")", "“cloth” is the name of an input already"),
        ("ticket.figure(\"w\", 3, \"x\"); ticket.figure(\"w\", 4, \"x\")", "there is a figure “w” already"),
    ] {
        let lines = format!("{};", lines.replace("PIECE", "ticket.piece(\"a\", order.cloth)"));
        match made(&lines) {
            Err(error) if error.contains(reason) => {}
            other => wrong.push((lines, reason, other.map(|_| "a ticket"))),
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// A thousand are taken, and not one more.
#[test]
fn a_list_of_the_ticket_holds_a_thousand() {
    let steps = |count: usize| made(&format!("for i in 0..{count} {{ ticket.step(\"x\"); }}"));
    assert_eq!(steps(1_000).unwrap().steps.len(), 1_000);
    assert!(steps(1_001).unwrap_err().contains("a ticket holds 1000 steps at most"));
}
