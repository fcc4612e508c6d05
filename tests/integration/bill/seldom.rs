//! Words of a recipe, settings, options of `cut` and commands that nothing else asks for an answer. Each expected value is
//! worked out with a pencil.

use super::goods::workshop;
use super::order::{Sheet, run_in};
use super::written::Amount;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

/// What the program prints in a folder, all of it, and whether it was done.
fn said(here: &Path, arguments: &[&str]) -> (String, bool) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
    command.current_dir(here).args(arguments).stdin(Stdio::null());
    let done = command.env("SHIRR_STATE", here.join("state")).env("SHIRR_DATA", here.join("data")).output().unwrap();
    (String::from_utf8([done.stdout, done.stderr].concat()).unwrap(), done.status.success())
}

fn sheet(path: &Path) -> Sheet {
    Sheet::read(&fs::read_to_string(path).unwrap())
}

const RECIPE: &str = r#"//! A bag with a belt.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: bag

fn inputs() { [
    choice("fold", "whether the back may lie on a fold", ["no", "along"]).usual("no"),
    length("worn", "elastic, relaxed").between(38 cm, 60 cm).usual(48 cm),
] }

fn make(order, ticket) {
    let cloth = any_cloth(60 cm, $4/m).weighs(200 g/m^2);
    let back = ticket.piece("back", cloth).rectangle(40 cm, 50 cm);
    if order.fold == "along" { back.on_fold("along") }
    ticket.piece("belt", any_cloth(100 cm, $4/m)).rectangle(10 cm, 150 cm).may_join(1, 20 cm, 1 cm);
    ticket.need(any_notion(), order.worn, "round the waist").round_body(50 cm, order.worn);
    ticket.figure("checks", any_cloth(1 m).repeats_across(4 cm).repeat_across, "width of a check");
    ticket.figure("weight", area_weight(2 m * 1.5 m, cloth.weight), "of three square metres");
    ticket.figure("garments", order.pieces, "how many");
}

fn after_cutting(order, plan, ticket) {
    ticket.figure("belt joins", plan.joins("belt"), "in one belt");
    ticket.figure("belts", plan.pieces("belt"), "for one bag, each counted once however many parts it has");
    ticket.step("{checks}; {weight}; {garments}; {belt joins}; {belts}");
}

fn examples() { [
    #{ given: #{ fold: "no", worn: 48 cm }, expect: #{ weight: 600 g, "belt joins": 1 }, source: "own arithmetic" },
    #{ given: #{ fold: "along", worn: 48 cm }, expect: #{ checks: 4 cm, belts: 1 }, source: "own arithmetic" },
] }
"#;

fn bag(answers: &[(&str, &str)]) -> super::order::Ran {
    let here = workshop(&[("bag.rhai", RECIPE), ("settings.csv", "setting,value\ntape,metric\n")]);
    let answers = answers.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned()));
    run_in(here.path(), "bag.rhai", &answers.collect::<Vec<_>>(), here.path())
}

/// Three square metres of 200 g/m² weigh 600 g. A belt of 150 cm on cloth of 100 cm is one piece, joined once.
#[test]
fn words_of_a_recipe_that_no_shipped_one_needs_have_their_answers() {
    let files = bag(&[("pieces", "3")]).unwrap();
    let steps = &files["steps"].rows;
    assert_eq!(steps.len(), 1);
    assert_eq!(steps[0].text("what to do"), "4 cm; 600 g; 3; 1; 1");
    let parts = |name: &str, key: &str| {
        let row = files[name].rows.iter().find(|row| row.text("material").ends_with(key)).unwrap();
        row.amount_beside("needed", "needed unit").unwrap()
    };
    // Three backs of 40 x 50 cm lie on 60 cm one behind the other. A belt and both its allowances are
    // 152 cm in two parts of at most 100 cm, so each part is 52 cm at least, and no two lie side by side: six rows of 10 cm.
    assert!(parts("buy_list", "back").agrees_with(Amount::read("120 cm").unwrap()));
    assert!(parts("buy_list", "belt").agrees_with(Amount::read("60 cm").unwrap()));
}

/// A recipe's cloth is laid single: a piece that may lie on a fold lies open and whole, and takes the same cloth.
#[test]
fn a_piece_that_may_lie_on_a_fold_is_whole_and_says_so() {
    let (open, folded) = (bag(&[]).unwrap(), bag(&[("fold", "along")]).unwrap());
    let back = |files: &std::collections::BTreeMap<String, Sheet>| {
        let row = files["cut_list"].rows.iter().find(|row| row.text("piece") == "back").unwrap().clone();
        let sizes = [row.amount("along").unwrap().value, row.amount("across").unwrap().value];
        (row.text("count").to_owned(), sizes, row.text("notes").to_owned())
    };
    let ((count, sizes, notes), (folded_count, folded_sizes, folded_notes)) = (back(&open), back(&folded));
    assert_eq!((count.as_str(), sizes, notes.as_str()), ("1", [400.0, 500.0], ""));
    assert_eq!((folded_count, folded_sizes), (count, sizes));
    assert!(folded_notes.contains("fold"), "{folded_notes}");
}

/// Round 50 cm: 48 cm is 4 % shorter, 44 cm is 12 % and more than a tenth, 37 cm is 26 % and more than a quarter.
#[test]
fn elastic_round_a_body_keeps_its_limits() {
    let tight = |worn: &str| {
        let files = bag(&[("worn", worn)]).unwrap();
        files["cautions"].rows.iter().any(|row| row.text("key") == "elastic-tight")
    };
    assert_eq!((tight("48 cm"), tight("44 cm")), (false, true));
    let here = workshop(&[("bag.rhai", &RECIPE.replace("between(38 cm", "between(30 cm"))]);
    let (shown, done) = said(here.path(), &["run", "bag.rhai", "worn=37 cm", "--anyway"]);
    assert!(!done && shown.contains("reduction is 26 %; elastic cut more than 25 % shorter"), "{shown}");
    assert!(said(here.path(), &["run", "bag.rhai", "worn=37.5 cm", "--anyway"]).1);
}

/// A list of pieces, lengths of 100 cm, and what else is said; returns the stock, from and to of each cut, and the folder.
fn cut(pieces: &str, settings: &str, options: &[&str]) -> (Vec<(String, f64, f64)>, tempfile::TempDir) {
    let here = workshop(&[
        ("pieces.csv", &format!("piece,count,along\n{pieces}")),
        ("lengths.csv", "stock,count,along\ntape,,100 cm\n"),
        ("settings.csv", &format!("setting,value\ntape,metric\n{settings}")),
        // A plan that nobody would make: a gap of 20 cm before the first piece.
        (
            "before.csv",
            "stock,cut,order,piece,mark from (cm),mark to (cm),across from (cm),across to (cm),turned,material,note\n\
             new tape 1,1,,short,20,50,0,10,no,,\n",
        ),
    ]);
    let arguments = ["cut", "pieces.csv", "--from", "lengths.csv", "--csv", "out"];
    let (shown, done) = said(here.path(), &[&arguments[..], options].concat());
    assert!(done, "{options:?}: {shown}");
    let number = |text: &str| text.parse().unwrap();
    let rows = sheet(&here.path().join("out/plan.csv")).rows;
    let cuts = rows.iter().map(|row| {
        (row.text("stock").to_owned(), number(row.text("mark from (cm)")), number(row.text("mark to (cm)")))
    });
    (cuts.collect(), here)
}

/// How many lengths are taken.
fn lengths(cuts: &[(String, f64, f64)]) -> usize {
    let names: std::collections::BTreeSet<&String> = cuts.iter().map(|(stock, _, _)| stock).collect();
    names.len()
}

/// Three of 33 cm are 99 cm and come from one length. With 1 cm lost at each of two cuts between them they are 101 cm;
/// with 1 cm squared off either end a length has 98 cm: two lengths.
#[test]
fn loss_and_squaring_take_from_a_length() {
    let three = "a,3,33 cm\n";
    let (cuts, _) = cut(three, "", &[]);
    assert_eq!((cuts.len(), lengths(&cuts)), (3, 1));
    let (cuts, _) = cut(three, "", &["--loss", "1 cm"]);
    assert_eq!((cuts.len(), lengths(&cuts)), (3, 2));
    let on_one: Vec<f64> = cuts.windows(2).filter(|two| two[0].0 == two[1].0).map(|two| two[1].1 - two[0].2).collect();
    assert_eq!(on_one.len(), 1);
    assert!((on_one[0] - 1.0).abs() < 1e-6, "{cuts:?}");
    let (cuts, _) = cut(three, "", &["--squaring", "1 cm"]);
    assert_eq!((cuts.len(), lengths(&cuts)), (3, 2));
    // 49 cm twice are all that is left between the squared ends.
    let (cuts, _) = cut("a,2,49 cm\n", "", &["--squaring", "1 cm"]);
    assert_eq!(lengths(&cuts), 1);
}

/// Two of 33 cm leave 34 cm of a length.
#[test]
fn leftovers_are_kept_from_the_length_that_is_said() {
    let kept = |settings: &str, options: &[&str]| {
        let (_, here) = cut("a,2,33 cm\n", settings, options);
        sheet(&here.path().join("out/leftovers.csv")).rows.len()
    };
    assert_eq!((kept("", &["--keep", "34 cm"]), kept("", &["--keep", "35 cm"])), (1, 0));
    assert_eq!((kept("smallest remnant,34 cm\n", &[]), kept("smallest remnant,35 cm\n", &[])), (1, 0));
    // What is said with the list goes before the workshop's setting.
    assert_eq!(kept("smallest remnant,35 cm\n", &["--keep", "34 cm"]), 1);
}

/// The short one stays at 20 to 50 cm, where it was; the long one of 40 cm finds no room before it, and 50 cm behind it.
#[test]
fn cuts_of_a_plan_written_before_stay_where_they_are() {
    let two = "short,1,30 cm\nlong,1,40 cm\n";
    let (cuts, _) = cut(two, "", &["--like", "before.csv"]);
    assert_eq!(cuts.len(), 2);
    assert_eq!(lengths(&cuts), 1);
    assert!((cuts[0].1 - 20.0).abs() < 1e-6 && (cuts[0].2 - 50.0).abs() < 1e-6, "{cuts:?}");
    assert!(cuts[1].1 >= 50.0 - 1e-6 && (cuts[1].2 - cuts[1].1 - 40.0).abs() < 1e-6, "{cuts:?}");
    // Without it nothing lies 20 cm from the end.
    let (cuts, _) = cut(two, "", &[]);
    assert!(cuts[0].1.abs() < 1e-6, "{cuts:?}");
}

/// 60 + 40, 55 + 45 and 50 + 30 + 20 cm: three lengths without any waste, wherever the search begins and however long it
/// may look; fewer do not hold 300 cm.
#[test]
fn steps_seconds_and_a_seed_find_the_same_best_plan() {
    let pieces = "a,1,60 cm\nb,1,40 cm\nc,1,55 cm\nd,1,45 cm\ne,1,50 cm\nf,1,30 cm\ng,1,20 cm\n";
    for options in [&["--seed", "3"][..], &["--seed", "4"], &["--seconds", "0.5"], &["--steps", "100000"]] {
        let (cuts, here) = cut(pieces, "", options);
        assert_eq!((cuts.len(), lengths(&cuts)), (7, 3), "{options:?}");
        let summary = sheet(&here.path().join("out/summary.csv"));
        let proved = summary.rows.iter().find(|row| row.text("figure") == "proved").unwrap();
        assert_eq!(proved.text("value"), "yes", "{options:?}");
    }
    let (once, _) = cut(pieces, "", &["--seed", "3"]);
    assert_eq!(once, cut(pieces, "", &["--seed", "3"]).0);
}

/// The centimetres of cloth that a list takes, by the last mark of its plan.
fn laid(pieces: &str, across: &str, options: &[&str]) -> f64 {
    let here = workshop(&[
        ("pieces.csv", &format!("piece,count,along,across\n{pieces}")),
        ("lengths.csv", &format!("stock,count,along,across\ncloth,,,{across}\n")),
        ("settings.csv", "setting,value\ntape,metric\n"),
    ]);
    let arguments = ["cut", "pieces.csv", "--from", "lengths.csv", "--csv", "out"];
    let (shown, done) = said(here.path(), &[&arguments[..], options].concat());
    assert!(done, "{options:?}: {shown}");
    let marks =
        sheet(&here.path().join("out/plan.csv")).rows.into_iter().map(|row| row.text("mark to (cm)").to_owned());
    marks.map(|mark| mark.parse::<f64>().unwrap()).fold(0.0, f64::max)
}

/// Two lying and two standing pieces of 10 x 20 cm round a middle of 10 x 10 cm are a whole square of 30 cm, and no cut
/// through it from edge to edge spares them all. Straight cuts take a row more, 40 cm: a lying piece and the middle,
/// both standing, the other lying.
///
/// On 60 cm three of 20 cm lie side by side, so six take 20 cm. Folded there are 30 cm, on which one lies and gives two:
/// six take 30 cm.
#[test]
fn straight_cuts_and_folded_cloth_take_what_a_pencil_finds() {
    let square = "lying,2,10 cm,20 cm\nstanding,2,20 cm,10 cm\nmiddle,1,10 cm,10 cm\n";
    let six = "six,6,10 cm,20 cm\n";
    let found = [
        laid(square, "30 cm", &[]),
        laid(square, "30 cm", &["--straight"]),
        laid(six, "60 cm", &[]),
        laid(six, "60 cm", &["--folded"]),
    ];
    for (found, wanted) in found.into_iter().zip([30.0, 40.0, 20.0, 30.0]) {
        assert!((found - wanted).abs() < 1e-6, "{found} cm instead of {wanted}");
    }
}

/// 2 x 33.5 cm of 100 cm are 0.67 m.
#[test]
fn files_are_written_in_the_dialect_of_the_workshop() {
    let here = workshop(&[
        ("pieces.csv", "piece;count;along\na;2;33,5 cm\n"),
        ("lengths.csv", "stock;count;along\ntape;;100 cm\n"),
        ("settings.csv", "setting;value\ntape;metric\ndialect;semicolon and decimal comma\ndecimal mark;comma\n"),
    ]);
    let (shown, done) = said(here.path(), &["cut", "pieces.csv", "--from", "lengths.csv", "--csv", "out"]);
    assert!(done, "{shown}");
    let summary = fs::read_to_string(here.path().join("out/summary.csv")).unwrap();
    assert!(summary.lines().any(|line| line == "length used;0,67;m"), "{summary}");
    assert!(shown.contains("33,5 cm"), "{shown}");
}

/// $20 as the lowest price; a quarter of it is $5.
#[test]
fn a_deposit_is_a_share_of_the_price() {
    let here = workshop(&[
        ("bag.rhai", RECIPE),
        ("settings.csv", "setting,value\ntape,metric\ncurrency,$\ndeposit,25 %\n"),
        ("rates.csv", "operation,per,minutes,set-up,value\nminimum,,,,$20.00\n"),
    ]);
    fs::write(here.path().join("page.txt"), "run bag.rhai as bag\npaid = bag.deposit\nasked = bag.price\n").unwrap();
    let (shown, accepted) = said(here.path(), &["run", "bag.rhai"]);
    assert!(accepted, "{shown}");
    let (shown, done) = said(here.path(), &["page", "page.txt"]);
    assert!(done && shown.contains("$5.00") && shown.contains("$20.00"), "{shown}");
}

/// `reference` writes the recipes of the folder it is called in beside the shipped ones; `explain` is `help`.
#[test]
fn reference_and_explain_answer() {
    let here = workshop(&[]);
    let (shown, done) = said(here.path(), &["reference", "pages"]);
    assert!(done, "{shown}");
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes/reference");
    let names = |folder: &Path| {
        let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name());
        entries.collect::<std::collections::BTreeSet<_>>()
    };
    let written = here.path().join("pages");
    assert_eq!(names(&written), names(&shipped));
    for page in ["cutting.md", "shirr.1", "valance.svg"] {
        assert_eq!(fs::read(written.join(page)).unwrap(), fs::read(shipped.join(page)).unwrap(), "{page}");
    }
    for words in [&["gathered_flat"][..], &["verbs"], &["pleat"]] {
        let (help, explained) =
            (said(here.path(), &[&["help"], words].concat()), said(here.path(), &[&["explain"], words].concat()));
        assert!(help.1 && !help.0.is_empty(), "{words:?}: {}", help.0);
        assert_eq!(help, explained);
    }
}
