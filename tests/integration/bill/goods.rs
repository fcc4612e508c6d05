//! Goods on the bill: what the shelf can serve is not bought, however long the shelf length is; and two cloths that a
//! recipe names itself stay two.

use super::order::{Ran, Sheet, bill_lines, run, run_in};
use super::written::Amount;
use std::collections::BTreeMap;
use std::path::Path;

/// A workshop with these files.
pub(super) fn workshop(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

const MATERIALS: &str = "material,kind,usable width,put-up,price,price for,sold by\n\
    net,roll,6 in,25 yd,$6.00,put-up,put-up\n\
    satin,cloth,44 in,15 yd,$5.00,yd,1/8 yd\n\
    elastic,notion,1 in,50 yd,$1.00,yd,1/2 yd\n\
    tape,notion,1/2 in,3 yd,$2.00,put-up,put-up\n";

fn given(words: &[(&str, &str)]) -> Vec<(String, String)> {
    words.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect()
}

/// A dance skirt: 120 in of net strips, a satin band of 24 by 6 in, 15 in of elastic, 12 in of tape.
fn skirt() -> Vec<(String, String)> {
    given(&[
        ("waist", "14 in"),
        ("strip", "12 in"),
        ("gathers", "2.5"),
        ("overlap", "0 in"),
        ("tulle", "net"),
        ("satin", "satin"),
        ("elastic", "elastic"),
        ("tape", "tape"),
    ])
}

fn bought(files: &BTreeMap<String, Sheet>) -> Vec<(String, String)> {
    let rows = files["buy_list"].rows.iter().filter(|row| row.text("material") != "thread");
    rows.map(|row| (row.text("material").to_owned(), row.text("bought as").to_owned())).collect()
}

/// By hand: 22 in between the turnings, 55 in of net flat, ten strips of 12 in; a band of 24 by 6 in; 15 in of elastic;
/// 12 in of tape. The shelf has each many times over, up to a thousand yards.
#[test]
fn a_length_on_the_shelf_serves_however_long_it_is() {
    for yards in [4, 13, 90, 1000] {
        let lengths = ["net", "satin", "elastic", "tape"].map(|name| format!("{name} 1,{name},,1,{yards} yd\n"));
        let stock = format!("stock,material,lot,count,along\n{}", lengths.concat());
        let workshop = workshop(&[("materials.csv", MATERIALS), ("stock.csv", &stock)]);
        let files = run("strips_on_band", &skirt(), workshop.path()).unwrap();
        for (material, bought_as) in bought(&files) {
            assert_eq!(bought_as, "nothing", "{material}, with {yards} yd on the shelf");
        }
        for row in &files["buy_list"].rows {
            assert!(!row.text("note").contains("too short"), "{}: {}", row.text("material"), row.text("note"));
        }
        let shelf = |name: &str| {
            let row = files["buy_list"].rows.iter().find(|row| row.text("material") == name).unwrap();
            row.amount_beside("from the shelf", "shelf unit").unwrap()
        };
        for (name, amount) in [("net", "120 in"), ("satin", "6 in"), ("elastic", "15 in"), ("tape", "12 in")] {
            let found = shelf(name);
            assert!(found.agrees_with(Amount::read(amount).unwrap()), "{name}: {found:?} for {amount}");
        }
    }
}

/// Of two lengths that serve, the shorter is cut, and only a length that holds no piece is called too short.
#[test]
fn the_shortest_that_serves_is_cut_and_only_what_holds_no_piece_is_too_short() {
    let stock = "stock,material,lot,count,along\nE1,elastic,,1,40 yd\nE2,elastic,,1,21 in\nE3,elastic,,1,14 in\n";
    let files = run("strips_on_band", &skirt(), workshop(&[("materials.csv", MATERIALS), ("stock.csv", stock)]).path());
    let note = |files: &Ran| {
        let files = files.as_ref().unwrap();
        let row = files["buy_list"].rows.iter().find(|row| row.text("material") == "elastic").unwrap();
        row.text("note").to_owned()
    };
    assert_eq!(note(&files), "from E2");
    let stock = "stock,material,lot,count,along\nE2,elastic,,1,14 7/8 in\nE3,elastic,,1,29 in\n";
    let two = [skirt(), given(&[("pieces", "2")])].concat();
    let files = run("strips_on_band", &two, workshop(&[("materials.csv", MATERIALS), ("stock.csv", stock)]).path());
    assert_eq!(note(&files), "from E3; too short on the shelf: E2");
}

/// A recipe that names three cloths and two notions itself instead of asking for them.
const CASE: &str = r#"//! Case of two cloths.
//! contract: 1   version: 1.0   licence: CC0-1.0   for: bag

fn inputs() { [ length("high", "finished height").between(10 in, 40 in) ] }

fn make(order, ticket) {
    ticket.piece("outside", any_cloth(45 in, $4/yd)).rectangle(order.high, 40 in);
    ticket.piece("inside", any_cloth(20 in, $18/yd)).rectangle(order.high, 18 in);
    let third = any_cloth(45 in, $2/yd);
    ticket.piece("pocket", third).rectangle(order.high, 40 in);
    ticket.piece("flap", third).rectangle(order.high / 2, 40 in);
    ticket.need(any_notion($3/yd), order.high, "round the top");
    ticket.need(any_notion($5/yd), order.high, "round the foot");
    ticket.figure("long", order.high, "as asked");
}

fn examples() { [
    #{ given: #{ high: 36 in }, expect: #{ long: 36 in }, source: "own arithmetic" },
    #{ given: #{ high: 18 in }, expect: #{ long: 18 in }, source: "own arithmetic" },
] }
"#;

/// By hand, 36 in high: a yard of each of the first two widths and a yard and a half of the third, $4 + $18 + $3, and a
/// yard of each of two notions, $3 + $5.
#[test]
fn two_cloths_that_a_recipe_names_itself_are_two_and_have_names() {
    let here = workshop(&[("case.rhai", CASE), ("settings.csv", "setting,value\ncurrency,$\n")]);
    let files = run_in(here.path(), "case.rhai", &given(&[("high", "36 in")]), here.path()).unwrap();
    let lines: Vec<(String, String)> =
        files["cost"].rows.iter().map(|row| (row.text("line").to_owned(), row.text("money ($)").to_owned())).collect();
    let wanted = [
        ("any cloth for outside", "4.00"),
        ("any cloth for inside", "18.00"),
        ("any cloth for pocket", "3.00"),
        ("any notion for round the top", "3.00"),
        ("any notion for round the foot", "5.00"),
    ];
    let wanted = wanted.map(|(name, money)| (name.to_owned(), money.to_owned()));
    assert_eq!(lines, wanted);
    let (_, cost) = bill_lines(&files).into_iter().find(|(line, _)| line == "cost").unwrap();
    assert!(cost.unwrap().agrees_with(Amount::read("$33.00").unwrap()));
    for row in &files["cut_list"].rows {
        assert!(row.text("material").starts_with("any cloth for "), "{row:?}");
    }
}

#[test]
fn a_recipes_own_cloth_is_known_again_after_cutting() {
    let text = CASE.replace(
        "fn examples()",
        "fn after_cutting(order, plan, ticket) {\n    \
        ticket.figure(\"inside used\", plan.length_of(any_cloth(20 in, $18/yd)), \"for one\");\n}\n\nfn examples()",
    );
    let text = text.replacen("expect: #{ long: 36 in }", "expect: #{ long: 36 in, \"inside used\": 36 in }", 1);
    let here = workshop(&[("case.rhai", &text)]);
    assert!(run_in(here.path(), "case.rhai", &given(&[("high", "36 in")]), here.path()).is_ok());
}

#[test]
fn files_that_are_not_there_are_told_of() {
    let message = run("strips_on_band", &skirt(), Path::new("/nowhere at all")).unwrap_err();
    assert!(message.contains("/nowhere at all"), "{message}");
}

/// One panel exactly as wide as its cloth, 108.2675 cm: the next mark of the tape, 108.3 cm, is past the edge. By hand
/// 69.215 × 1.5 = 103.8225 cm round, and two seams of 2.2225 cm.
#[test]
fn a_piece_as_wide_as_its_cloth_is_cut_to_the_edge() {
    let answers = [
        ("waist", "69.215 cm"),
        ("skirt", "76.2 cm"),
        ("first", "1.5"),
        ("fullness", "[1, 1]"),
        ("seam", "2.2225 cm"),
        ("cloth", "any_cloth(108.2675 cm)"),
        ("elastic", "any"),
    ];
    let files = run("tiered_skirt", &given(&answers), workshop(&[]).path()).unwrap();
    let panel = &files["cut_list"].rows[0];
    assert_eq!(panel.text("count"), "1");
    assert!(panel.amount("across").unwrap().agrees_with(Amount::read("108.2675 cm").unwrap()), "{panel:?}");
}
