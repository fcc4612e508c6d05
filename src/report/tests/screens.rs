//! Lays and charts in lines of characters, counted out by hand.

use super::super::chart::{Bar, Chart, chart_text};
use super::super::drawn_lay::{DrawnCut, DrawnLength};
use super::super::drawn_lay::{DrawnLayers, DrawnRest};
use super::super::lay_text::lay_text;
use super::lays::{cloth, cm, cut, rest, style};

fn sized(cut: DrawnCut) -> DrawnCut {
    DrawnCut { size: "so big".to_owned(), ..cut }
}

fn roll(long: f64, used: f64, cuts: Vec<DrawnCut>) -> DrawnLength {
    DrawnLength { roll: true, ..cloth((long, used), 6.0, cuts) }
}

/// By counting: 40 cm in 20 columns are two each. The first strip takes 10 columns, the second 6; what follows is kept,
/// so that it stays blank, or is not and has dots.
#[test]
fn a_roll_is_a_bar_with_walls_between_its_strips() {
    let cuts =
        || vec![sized(cut("L", "long", (0.0, 0.0), (20.0, 6.0))), sized(cut("S", "short", (20.0, 0.0), (12.0, 6.0)))];
    let kept = DrawnLength { rests: vec![rest((32.0, 40.0), (0.0, 6.0))], ..roll(40.0, 32.0, cuts()) };
    assert_eq!(
        lay_text(std::slice::from_ref(&kept), &style(), true, 22),
        ["roll, 40 cm", "│    L    │  S  │   │", "L  long, so big", "S  short, so big"]
    );
    let lost = DrawnLength {
        times: 3,
        lead: cm(5.0),
        rests: vec![DrawnRest { kept: false, ..rest((32.0, 40.0), (0.0, 6.0)) }],
        ..kept.clone()
    };
    assert_eq!(
        lay_text(std::slice::from_ref(&lost), &style(), false, 60)[..1],
        ["roll, 3 alike, 45 cm, up to 5 cm of it before 0"]
    );
    assert_eq!(
        lay_text(std::slice::from_ref(&lost), &style(), true, 60)[..1],
        ["roll × 3, 45 cm, up to 5 cm of it before 0"]
    );
    assert_eq!(lay_text(&[lost], &style(), false, 22)[2..4], ["before 0", "|    L    |  S  |...|"]);
    // Three are drawn, and of others it is said how many there are.
    let many = |count: usize| lay_text(&vec![kept.clone(); count], &style(), false, 60);
    assert_eq!(many(3).len(), 3 * 2 + 2);
    assert_eq!(many(4)[8..], ["1 more is not drawn here"]);
    assert_eq!(many(5)[8..], ["2 more are not drawn here"]);
}

/// By counting: two columns are too few for a strip between walls, so that each column has its letter.
#[test]
fn strips_of_two_columns_are_letters_alone() {
    let cuts = vec![
        sized(cut("L", "long", (0.0, 0.0), (20.0, 6.0))),
        sized(cut("S", "short", (20.0, 0.0), (4.0, 6.0))),
        sized(cut("T", "tie", (24.0, 0.0), (0.5, 6.0))),
    ];
    let lines = lay_text(&[roll(40.0, 24.5, cuts)], &style(), false, 22);
    assert_eq!(lines[1], "|LLLLLLLLLSS|       |");
    let three = vec![sized(cut("L", "long", (0.0, 0.0), (6.0, 6.0))), sized(cut("S", "short", (6.0, 0.0), (8.0, 6.0)))];
    assert_eq!(lay_text(&[roll(40.0, 14.0, three)], &style(), false, 22)[1], "| L| S |            |");
}

/// By counting: 60 by 30 in 36 columns take 36 × 30 / 60 / 2 = 9 lines. The left piece is 20 of 30 wide, 6 lines, and 40 of
/// 60 long, 24 columns; the right one has the other 3 lines and 12 columns. What is not worth keeping has dots.
#[test]
fn cloth_is_boxes_between_their_marks() {
    let cuts = vec![
        sized(cut("A", "left", (0.0, 0.0), (40.0, 20.0))),
        sized(DrawnCut {
            layers: DrawnLayers::Fold,
            order: Some("31".to_owned()),
            ..cut("B", "right", (0.0, 20.0), (20.0, 10.0))
        }),
    ];
    let length = DrawnLength { rests: vec![rest((40.0, 60.0), (0.0, 20.0))], ..cloth((60.0, 60.0), 30.0, cuts) };
    assert_eq!(
        lay_text(std::slice::from_ref(&length), &style(), false, 38),
        [
            "roll, 60 cm",
            "+-----------------------+-----------+",
            "|                       |           |",
            "|                       |           |",
            "|           A           |           |",
            "|                       |           |",
            "|                       |           |",
            "+-----------+-----------+           |",
            "|     B     |.......................|",
            "|           |.......................|",
            "+-----------+-----------------------+",
            "A  left, so big",
            "B  right [31], on the fold, so big",
        ]
        .map(str::to_owned)
    );
    let boxes = lay_text(&[length], &style(), true, 38);
    assert_eq!(boxes[1], "┌───────────────────────┬───────────┐");
    assert_eq!(boxes[7], "├───────────┬───────────┘           │");
    assert_eq!(boxes[10], "└───────────┴───────────────────────┘");
}

fn bar(label: &str, figure: &str, size: f64, remark: &str) -> Bar {
    Bar { label: label.to_owned(), figure: figure.to_owned(), size, remark: remark.to_owned() }
}

/// By counting: labels of 4 and figures of 3 columns take 13 with the blanks; of 40 columns 27 are left for the bars, and
/// with remarks, which take 24, only the least of 4.
#[test]
fn a_chart_gives_its_bars_what_is_left() {
    let chart = |remark: &str| Chart {
        heading: String::new(),
        bars: vec![bar("long", "400", 400.0, remark), bar("half", "200", 200.0, ""), bar("none", "0", 0.0, "")],
    };
    let lines = chart_text(&chart(""), 40, false);
    assert_eq!(lines[0], format!("long  400  {}", "#".repeat(27)));
    assert_eq!(lines[1], format!("half  200  {}", "#".repeat(14)), "13.5 rounded up");
    assert_eq!(lines[2], "none    0");
    // 11 columns before the bar, 4 of bar and 2 of blanks leave 23 for the remark.
    let remark = "r".repeat(23);
    assert_eq!(chart_text(&chart(&remark), 40, false)[0], format!("long  400  ####  {remark}"));
    let remark = "r".repeat(24);
    assert_eq!(chart_text(&chart(&remark), 40, false)[..2], ["long  400  ####".to_owned(), format!("      {remark}")]);
    // A bar below nothing, or none at all, is nothing; the smallest bar has a sign.
    let odd = Chart {
        heading: "h".to_owned(),
        bars: vec![
            bar("a", "1", -3.0, ""),
            bar("b", "2", f64::NAN, ""),
            bar("c", "3", 1000.0, ""),
            bar("d", "4", 0.001, ""),
        ],
    };
    assert_eq!(
        chart_text(&odd, 80, false),
        [
            "h".to_owned(),
            "a  1".to_owned(),
            "b  2".to_owned(),
            format!("c  3  {}", "#".repeat(30)),
            "d  4  #".to_owned()
        ]
    );
    // A label takes at most a third.
    let wide = Chart { heading: String::new(), bars: vec![bar(&"l".repeat(20), "9", 9.0, "")] };
    assert_eq!(chart_text(&wide, 30, false)[0], format!("{}  9  {}", "l".repeat(20), "#".repeat(13)));
}

/// A remark stands behind the room of the longest bar, here 4 signs, and sizes below one have their share too.
#[test]
fn remarks_stand_below_each_other() {
    let bars = vec![bar("long", "400", 0.5, "all"), bar("half", "200", 0.25, "rest")];
    let chart = Chart { heading: String::new(), bars };
    assert_eq!(chart_text(&chart, 40, false), ["long  400  ####  all", "half  200  ##    rest"]);
}
