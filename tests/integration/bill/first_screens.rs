//! The first screen of an order: every recipe in several sizes fits a screen, on both tapes, and hides nothing.

use super::alike::{SIZES, with};
use super::ledger::Ledger;
use super::ledgers::{folder, ledgers, reads_all_ledgers};
use super::order::{Sheet, run};
use super::written::{Amount, Kind};
use std::path::Path;
use std::process::{Command, Stdio};
use unicode_width::UnicodeWidthStr;

/// The first screen of an order in a terminal of so many columns; `None` if the order is refused.
fn first_screen(recipe: &str, given: &[(String, String)], workshop: &Path, columns: usize) -> Option<Vec<String>> {
    let state = tempfile::tempdir().unwrap();
    let done = Command::new(env!("CARGO_BIN_EXE_shirr"))
        .current_dir(state.path())
        .env("SHIRR_STATE", state.path().join("state"))
        .env("SHIRR_DATA", state.path().join("data"))
        .env("COLUMNS", columns.to_string())
        .args(["run", recipe, "--workshop"])
        .arg(workshop)
        .args(given.iter().map(|(name, value)| format!("{name}={value}")))
        .stdin(Stdio::null())
        .output()
        .unwrap();
    let text = String::from_utf8(done.stdout).unwrap();
    done.status.success().then(|| text.lines().map(str::to_owned).collect())
}

/// The rows of a screen, each label with the text of all its lines.
fn rows(lines: &[String]) -> Vec<(String, Vec<String>)> {
    let mut rows: Vec<(String, Vec<String>)> = vec![(String::new(), Vec::new())];
    for line in lines {
        let (label, text) = line.split_at_checked(9).unwrap_or((line, ""));
        let is_label = label.ends_with(' ') && label.trim().chars().all(|c| c.is_uppercase() || c == ' ');
        match label.trim() {
            "" => rows.last_mut().unwrap().1.push(text.trim().to_owned()),
            label if is_label => rows.push((label.to_owned(), vec![text.trim().to_owned()])),
            _ => rows.last_mut().unwrap().1.push(line.trim().to_owned()),
        }
    }
    rows
}

fn text_of(rows: &[(String, Vec<String>)], label: &str) -> String {
    rows.iter().filter(|(known, _)| known == label).map(|(_, lines)| lines.join(" ")).collect()
}

/// Cautions that wait for the whole text: what cuts and what is hot.
const MAY_WAIT: [&str; 2] = ["blades", "iron"];
const DANGERS: [&str; 6] = ["FIRE", "SLEEP", "CORDS", "ELASTIC", "CHOKING", "PINS"];

fn column<'s>(sheet: &'s Sheet, heading: &str) -> Vec<&'s str> {
    sheet.rows.iter().map(|row| row.text(heading)).collect()
}

/// What an order's files say must be on its first screen.
fn hides_nothing(case: &str, lines: &[String], recipe: &str, given: &[(String, String)], workshop: &Path) {
    let rows = rows(lines);
    let files = run(recipe, given, workshop).unwrap();
    let price = files["totals"].rows.iter().find(|row| row.text("total") == "price").unwrap();
    let shown = text_of(&rows, "PRICE");
    let figure = shown.split([' ', ',']).next().unwrap();
    let (shown, wanted) = (Amount::read(figure).unwrap(), price.amount_beside("amount", "unit").unwrap());
    assert!(shown.agrees_with(wanted), "{case}: {shown:?}, not {wanted:?}");
    // Each caution has a line of its own under its danger.
    let keys: Vec<&str> = column(&files["cautions"], "key");
    let grave = keys.iter().filter(|key| !MAY_WAIT.contains(key) && **key != "lining-shrinks").count();
    let told: usize = rows.iter().filter(|(label, _)| DANGERS.contains(&label.as_str())).map(|(_, l)| l.len()).sum();
    assert!(told >= grave, "{case}: {grave} cautions in {told} lines: {keys:?}");
    assert_eq!(keys.contains(&"lining-shrinks"), !text_of(&rows, "LINING").is_empty(), "{case}");
    // What must be bought is named, and what the price leaves out.
    let buy = text_of(&rows, "BUY");
    for row in &files["buy_list"].rows {
        if row.amount_beside("to buy", "buy unit").is_some_and(|amount| amount.value > 1e-6) {
            assert!(buy.contains(row.text("material")), "{case}: {} is not in {buy}", row.text("material"));
        }
    }
    let left_out = files["totals"].rows.iter().find(|row| row.text("total") == "cost").unwrap().text("note");
    assert_eq!(left_out.is_empty(), text_of(&rows, "WITHOUT").is_empty(), "{case}: {left_out}");
    // The shares of the price add up.
    let shares: i64 = text_of(&rows, "GOES TO").split(' ').filter_map(|word| word.parse::<i64>().ok()).sum();
    assert_eq!(shares, 100, "{case}");
}

/// The order as the ledger has it, then a tenth and half as large again.
fn sizes(ledger: &Ledger) -> Vec<Vec<(String, String)>> {
    let given = ledger.inputs(&["given"]);
    let (_, names) = SIZES.iter().find(|(recipe, _)| *recipe == ledger.recipe).expect("a recipe without sizes");
    let larger = |times: f64| {
        let sizes = given.iter().filter(|(name, _)| names.contains(&name.as_str()));
        sizes.fold(given.clone(), |order, (name, value)| {
            let amount = Amount::read(value).unwrap();
            let value = match amount.kind {
                Kind::Length if value.ends_with('m') => format!("{:.1} mm", amount.value * times),
                Kind::Length => format!("{:.3} in", amount.value * times / 25.4),
                _ => format!("{:.0}", (amount.value * times).ceil()),
            };
            with(&order, name, &value)
        })
    };
    vec![given.clone(), larger(1.1), larger(1.5)]
}

#[test]
fn every_order_fits_a_screen_on_both_tapes_and_nothing_is_hidden() {
    let metric = tempfile::tempdir().unwrap();
    for name in ["materials.csv", "rates.csv"] {
        std::fs::copy(folder().join("workshop").join(name), metric.path().join(name)).unwrap();
    }
    let settings = std::fs::read_to_string(folder().join("workshop/settings.csv")).unwrap();
    std::fs::write(metric.path().join("settings.csv"), settings.replace("tape,inch\n", "tape,metric\n")).unwrap();
    let (mut shown, mut recipes) = (0, std::collections::BTreeMap::<String, usize>::new());
    for ledger in ledgers() {
        for (tape, workshop) in [("inch", folder().join("workshop")), ("metric", metric.path().to_owned())] {
            for (at, order) in sizes(&ledger).iter().enumerate() {
                let case = format!("{}, size {at}, {tape}", ledger.name);
                // A larger order may be refused.
                let Some(lines) = first_screen(&ledger.recipe, order, &workshop, 80) else {
                    assert!(at > 0, "{case} is refused");
                    continue;
                };
                shown += 1;
                *recipes.entry(ledger.recipe.clone()).or_default() += 1;
                let text = lines.join("\n");
                assert!(lines.len() <= 24, "{case}: {} rows\n{text}", lines.len());
                assert!(lines.iter().all(|line| line.width() <= 80), "{case}\n{text}");
                if at == 0 {
                    hides_nothing(&case, &lines, &ledger.recipe, order, &workshop);
                    let narrow = first_screen(&ledger.recipe, order, &workshop, 40).unwrap();
                    let text = narrow.join("\n");
                    assert!(narrow.len() <= 40, "{case}: {} rows of 40 columns\n{text}", narrow.len());
                    assert!(narrow.iter().all(|line| line.width() <= 40), "{case}\n{text}");
                }
            }
        }
    }
    if reads_all_ledgers() {
        assert!(recipes.len() == 25 && recipes.values().all(|sizes| *sizes >= 6), "{recipes:?}");
        assert!(shown > 250, "only {shown} screens");
    }
}

/// A table whose columns did not fit goes line by line, its headings before each figure.
#[test]
fn tables_keep_their_columns_at_80() {
    let is_heading = |line: &str| !line.is_empty() && line.chars().all(|c| c.is_ascii_lowercase() || c == ' ');
    let is_record = |line: &str| line.split_once(": ").is_some_and(|(name, _)| is_heading(name));
    let mut tables = 0;
    for ledger in ledgers() {
        let order: Vec<(String, String)> = ledger.inputs(&["given"]);
        let state = tempfile::tempdir().unwrap();
        let done = Command::new(env!("CARGO_BIN_EXE_shirr"))
            .env("SHIRR_STATE", state.path().join("state"))
            .env("SHIRR_DATA", state.path().join("data"))
            .env("COLUMNS", "80")
            .args(["run", &ledger.recipe, "--all", "--workshop"])
            .arg(folder().join("workshop"))
            .args(order.iter().map(|(name, value)| format!("{name}={value}")))
            .stdin(Stdio::null())
            .output()
            .unwrap();
        let text = String::from_utf8(done.stdout).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        assert!(lines.iter().all(|line| line.width() <= 80), "{}", ledger.name);
        for pair in lines.windows(3).filter(|lines| lines[0].is_empty() && is_heading(lines[1])) {
            tables += 1;
            assert!(!is_record(pair[2]), "{}: {} goes line by line", ledger.name, pair[1]);
        }
    }
    assert!(tables > 300 || !reads_all_ledgers(), "{tables}");
}

fn demo() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes/demo")
}

fn order(answers: &[(&str, &str)]) -> Vec<(String, String)> {
    answers.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect()
}

fn assert_screen(recipe: &str, answers: &[(&str, &str)], wanted: &str) {
    let lines = first_screen(recipe, &order(answers), &demo(), 80).unwrap();
    assert_eq!(lines.join("\n"), wanted.trim_matches('\n'));
}

const STRIPS: [(&str, &str); 9] = [
    ("waist", "14 in"),
    ("strip", "10 in"),
    ("gathers", "tulle overlapped"),
    ("tulle", "ivory tulle"),
    ("satin", "ivory satin strip"),
    ("elastic", "elastic 1 in"),
    ("age", "18 months"),
    ("order", "32"),
    ("for", "Pip"),
];

/// Worked with a pencil from the demo's lists. Band 14 + 10 = 24 in, covered 24 - 2 x 1 = 22 in; 22 x 5.55 x 5 =
/// 610 1/2 in flat, (610 1/2 - 1/2) / (6 - 1/2) = 110.9: 111 strips. B4-2, 396 in, holds 39 of them, B4-1 the other 72.
///
/// Minutes with their set-ups: gathering 610 1/2 in at 2.2 a yd 47.31, second pass 110 in at 4 17.22, hem 12 in at 4 a m
/// 4.22, elastic 4, threading up 8, strips 111 x 0.15 19.65, band 5.5, basting 22 in at 6 6.67, overlocking 4.55, sewing
/// the band 18, packing 8: 143.12, which is 2 h 23 min.
///
/// Cost: tulle 1110 in and 5 % at $6.50 for 25 yd 8.42, satin 25.2 in at $13.50 for 10 yd 0.95, elastic 15 in 0.40,
/// threads 0.02 and 0.01, 143.12 min at $21 an hour 50.09 and at $5.50 13.12: 73.01. And 45 %: 32.85, 105.86; so that 6.5 %
/// go off: 113.22, next ending 113.50, of which 7.38 are the fee and 0.26 the ending. Deposit 40 %: 45.40.
///
/// Thread with 15 % for ends: lockstitch 110 + 22 + 22 + 3 + 12 = 169 in at 2.5 to the inch and zigzag 2 in at 7 are 502 in,
/// 13.94 yd: 14 yd; overedge 22 in at 14 is 354 in, 9.84 yd: 10 yd (ratios as `help thread` names them).
///
/// Of 113.50 wages are 44.13 %, mark-up 28.94, overhead 11.56, cloth 9.37 or 8.26, fee 6.50, notions 0.38, ending 0.23;
/// rounded down they lack 3, which go to 28.94, 11.56 and 6.50.
#[test]
fn a_skirt_of_strips() {
    assert_screen(
        "strips_on_band",
        &[&STRIPS[..], &[("due", "Thu 10 Dec")]].concat(),
        "
order 32   Pip   strips on band   waist 14 in   strip 10 in
gathers tulle overlapped   due Thu 10 Dec
PRICE    $113.50   deposit $45.40   work about 2 h 23 min   cost $73.01
BUY      nothing: the shelf has it all
CUT      111 strips 10 in   ivory tulle, lot L7   B4-2: 39   B4-1: 72
         1 band 24 in   ivory satin strip, lot S12   S6-1
         elastic 1 in 15 in E1-1   ivory sewing thread 14 yd
         ivory overlock thread 10 yd
USUAL    over 10 in   overlap 1/2 in   layers 1   ends left free   turning 1 in
         casing 2 in   seam 1 in   shorter 0 %   lap 1 in   bows no   no tape
GATHERS  5.55, then 5: trial tulle overlapped of 2026-02-18
WASH     ivory satin strip loses 1 %: cut as it comes; washing='washed first'
         allows for it
GOES TO  wages 44 %   mark-up 29 %   overhead 12 %   cloth 8 %   fee 7 %
FIRE     Keep away from flames, heaters, stage fire: it burns fast. It melts.
SLEEP    Not for sleeping in: nightwear falls under stricter flame rules.
ELASTIC  For a child at most 5 % to 8 % shorter than the body; try it on.
CHOKING  Under three, buttons, bows, hooks can be swallowed: pull hard on each.
PINS     Count pins out and in; find every piece of a broken needle.
NEXT     --all: everything   --csv FOLDER: files   shirr sheet …: to work from
",
    );
}

/// Ten of them. L7 on the shelf is 39 + 90 + 90 strips: one skirt, and 108 that are no second one. 9 x 111 = 999 strips
/// at 90 a roll are 12 new rolls at $6.50: $78. Minutes 971.16 for what each skirt takes, 38 of set-ups and 8 of
/// threading up once: 1017.16, which is 16 h 57 min.
///
/// Cost: tulle 308 1/3 yd and 5 % 84.18, satin 7 yd 9.45, elastic 3.96, threads 0.20 and 0.12, wages 356.01, overhead
/// 93.24: 547.16. And 45 %: 246.22, 793.38; over 0.935: 848.54, next ending 849.50, 84.95 each; deposit 339.80.
///
/// Of 849.50 wages are 41.91 %, mark-up 28.98, cloth 11.02, overhead 10.98, fee 6.5003, notions 4.28 or 0.5038, ending
/// 0.11; rounded down they lack 4, which go to mark-up, overhead, wages and notions.
#[test]
fn ten_skirts_of_strips() {
    let lines = first_screen("strips_on_band", &order(&[&STRIPS[..], &[("pieces", "10")]].concat()), &demo(), 80);
    let rows = rows(&lines.unwrap());
    assert_eq!(text_of(&rows, "PRICE"), "$849.50, $84.95 each   deposit $339.80   work about 16 h 57 min cost $547.16");
    assert_eq!(text_of(&rows, "BUY"), "ivory tulle 12 rolls of 25 yd $78.00");
    assert_eq!(
        text_of(&rows, "GOES TO"),
        "wages 42 %   mark-up 29 %   cloth 11 %   overhead 11 %   fee 6 % notions 1 %"
    );
    assert!(text_of(&rows, "LOTS").contains("B4-1 (lot L7)"), "{rows:?}");
}

/// A gathered skirt, waist 24 in, 17 1/2 in long, on a cloth that is not chosen. Flat 2 x 24 in and two seams of 1/2 in: from
/// 49 in one panel is enough, below it two. Cut 17 1/2 in, hem 1 in and casing 1 1/2 in: 20 in.
///
/// At $6/yd two panels are 40 in and 5 %, 42 in: $7.00; at $14 $16.33; one panel is half of that. Elastic 24 in less 5 % and
/// 1 in lap, 23.8 in at $0.95/yd: $0.63. The minutes of two panels are 41.53 (see the set-up of a workshop), 42: at $21 and
/// $5.50 an hour $14.54 and $3.81; thread $0.07. Two panels at $6: 7.00 + 0.63 + 14.54 + 3.81 + 0.07 = 26.05, and 45 % 37.77,
/// over 0.935 40.40: $40.50. At $14: 35.38, 51.30, 54.87: $55.50.
///
/// One panel saves a cut of 1.5, a seam of 20 in at 1.6 a yard, 0.89, and edges of 40 in at 0.9, 1: 38.14 minutes, $13.35 and
/// $3.50. At $6: 3.50 + 0.63 + 13.35 + 3.50 + 0.05 = 21.03, 30.49, 32.61: $33.50, deposit $13.40; of $55.50 it is $22.20.
#[test]
fn a_cloth_that_is_not_chosen_has_a_price_from_to() {
    let given = order(&[
        ("waist", "24 in"),
        ("skirt", "17.5 in"),
        ("cloth", "any 36-60 in at $6-14/yd"),
        ("elastic", "elastic 1 in"),
    ]);
    let lines = first_screen("gathered_skirt", &given, &demo(), 80).unwrap();
    let rows = rows(&lines);
    let cloth = rows.iter().find(|(label, _)| label == "CLOTH").unwrap();
    let words: Vec<Vec<&str>> = cloth.1.iter().map(|line| line.split_whitespace().collect()).collect();
    assert_eq!(words[0], ["$6/yd", "$10/yd", "$14/yd"]);
    assert_eq!(words[1][..4], ["48", "in", "or", "less"]);
    assert_eq!((words[1][4], words[1][6], words[1][7]), ("$40.50", "$55.50", "2"));
    assert_eq!(words[2][..4], ["49", "in", "or", "more"]);
    assert_eq!((words[2][6], words[2][7]), ("$40.50", "1"));
    assert!(text_of(&rows, "SAY").ends_with("deposit $13.40 to $22.20 work about 38 min to about 42 min"), "{rows:?}");
    assert!(lines.len() <= 24, "{}", lines.len());
}

/// The pair of lined curtains of order 33. Each is (180 + 10) / 2 + 9 = 104 cm; 95 drawn up twice and 9 of return are 199,
/// with side hems 209 cm flat. One and a half widths reach 1.5 x 137 - 3 = 202.5, so 2: four drops of
/// 220 + 16 + 4 = 240 cm. The lining needs 199: one and a half, three drops of 220 - 3 + 10 = 227 cm, one of them shared.
///
/// Half drop, 64 cm: beside a drop its neighbour starts half a repeat on. Two level ones at 0 and 256 (4 repeats), the
/// other two at 544 (8 1/2) and 800 (12 1/2), which ends at 1040; before the first start may lie 64: 1104 cm, in steps of
/// 10 cm 11.1 m at $29: $321.90. Any order that goes from one to the other once comes to that; from one to the other and back
/// each drop but the last takes 288. F1-1, 930 cm and of one lot, less 64 holds three (0 to 784), not four; F1-2 is 170 cm,
/// shorter than a drop. Lining 681 cm of 21.4 m.
///
/// Tape 199 + 6 = 205 cm each. Hooks 1.04 x 12 = 12.48: 13 spaces, 14 each, 28.
///
/// Minutes: cutting 7 x 1.5 + 4 = 14.5; joins 2 x 240 + 2 x 227 = 934 cm at 2.5/m and 5, 28.35; hems 2 x (209 + 440) and
/// 2 x 199 of lining, 1696 cm at 4/m and 3, 70.84; tape 410 cm at 3.5/m and 3, 17.35; hanging 24: 155.04, 2 h 35 min.
///
/// Thread 934 + 1696 + 2 x 410 = 3450 cm at 2.5 and 15 %: 99.19 m, up to 100; 108.5 yd at $4.40 for 3000 are 0.16.
///
/// Cost: face 11.04 m and 5 % at $29 336.17, lining 6.81 m and 5 % at 7.80 55.77, tape 7.59 (7.585), hooks 3.08, thread 0.16,
/// $21/h 54.26, $5.50/h 14.21: 471.24. And 45 %: 212.06, 683.30; over 0.935: 730.80, next ending 731.50, of which 47.55 are
/// the fee and 0.65 the ending. Deposit 40 %: 292.60.
///
/// Of 731.50 cloth is 53.58 %, mark-up 28.99, wages 7.42, fee 6.5003, overhead 1.94, notions 1.48, ending 0.09; rounded down
/// they lack 4, which go to 28.99, 1.94, 53.58 and 6.5003.
#[test]
fn a_lined_pair_of_curtains_on_a_half_drop() {
    assert_screen(
        "curtains",
        &[
            ("track", "180 cm"),
            ("drop", "220 cm"),
            ("face", "garden face cloth"),
            ("lining", "curtain lining"),
            ("tape", "heading tape"),
            ("order", "33"),
            ("for", "bay window"),
            ("due", "Fri 18 Dec"),
        ],
        "
order 33   bay window   curtains   track 180 cm   drop 220 cm   due Fri 18 Dec
PRICE    $731.50   deposit $292.60   work about 2 h 35 min   cost $471.24
BUY      garden face cloth 11.1 m $321.90
CUT      4 face drops 240 cm   garden face cloth   new
         3 lining drops 227 cm   curtain lining, lot G5   G1-1
         heading tape 2 of 205 cm H1-1   curtain hook 28
         ivory sewing thread 100 m
USUAL    returns 9 cm   overlap 10 cm   curtains 2   heading 2
         joins half widths   spare trim off   middle level   gather returns no
         hem 16 cm   top 4 cm   side 5 cm   join 1.5 cm   hooks per m 12
WASH     garden face cloth loses 3 % along, 2 % across, curtain lining loses 3 %
         along, 2 % across and heading tape loses 2 %: cut as they come;
         washing='washed first' allows for it
SHORT    garden face cloth: too short on the shelf: F1-2
LOTS     not used though more is bought: F1-1 (lot K2); each garment is cut from
         one dye lot, and no lot left holds one more
NAP      garden face cloth has a nap: all pieces lie the same way, so mark that
         way on each
GOES TO  cloth 54 %   mark-up 29 %   wages 7 %   fee 7 %   overhead 2 %
         notions 1 %
CORDS    Can strangle a child: knot, wind up out of reach, never cut them off.
FIRE     Keep clear of heaters, cookers, lamps, doors and escape routes.
NEXT     --all: everything   --csv FOLDER: files   shirr sheet …: to work from
",
    );
}
