//! What is said above and below a lay.

use super::super::drawn_lay::{DrawnCut, DrawnLayers, DrawnLength};
use super::super::lay_labels::{
    LegendLine, hatched_orders, heading, is_edge, is_same, legend, off_pieces, size, whole_name,
};
use super::super::plain_text;
use super::lays::{cloth, cm, cut, style};

fn of(order: Option<&str>) -> DrawnCut {
    DrawnCut { order: order.map(str::to_owned), ..cut("A", "panel", (0.0, 0.0), (80.0, 30.0)) }
}

#[test]
fn orders_are_hatched_in_their_order_and_one_alone_is_not() {
    let hatched = |orders: &[Option<&str>]| {
        let cuts = orders.iter().map(|order| of(*order)).collect();
        hatched_orders(&[cloth((100.0, 100.0), 40.0, cuts)])
    };
    assert_eq!(hatched(&[Some("32"), Some("31"), Some("32")]), ["32", "31"]);
    assert!(hatched(&[Some("32"), Some("32")]).is_empty());
    assert_eq!(hatched(&[Some("32"), None]), ["32"]);
    assert!(hatched(&[None, None]).is_empty());
}

#[test]
fn a_legend_counts_what_is_alike() {
    let lengths = [
        DrawnLength { times: 3, ..cloth((100.0, 100.0), 40.0, vec![of(None), of(None), of(Some("31"))]) },
        DrawnLength { times: 0, ..cloth((100.0, 100.0), 40.0, vec![of(None)]) },
        cloth(
            (100.0, 100.0),
            40.0,
            vec![
                DrawnCut { letter: "B".to_owned(), ..of(None) },
                DrawnCut { layers: DrawnLayers::Both, ..of(None) },
                DrawnCut { layers: DrawnLayers::Fold, own_size: (cm(7.0), None), ..of(Some("31")) },
            ],
        ),
    ];
    let line = |letter: &str, text: &str| LegendLine { letter: letter.to_owned(), text: text.to_owned() };
    // Two of three lengths alike are six, and one more.
    assert_eq!(
        legend(&lengths, &style()),
        [
            line("A", "7 × panel, 80 × 30"),
            line("A", "3 × panel, 80 × 30, for 31"),
            line("B", "1 × panel, 80 × 30"),
            line("A", "1 × panel, 80 × 30, on double cloth"),
            line("A", "1 × panel, 7, full width, on the fold, for 31"),
        ]
    );
    assert_eq!(size(&of(None), &style()), "80 × 30");
    let double = DrawnCut { layers: DrawnLayers::Both, size: "so big".to_owned(), ..of(Some("31")) };
    assert_eq!(whole_name(&double), "panel [31], double, so big");
    assert_eq!(whole_name(&DrawnCut { layers: DrawnLayers::One, order: None, ..double }), "panel, so big");
}

#[test]
fn a_heading_says_what_a_length_is() {
    let plain = cloth((100.0, 90.0), 40.0, Vec::new());
    assert_eq!(heading(&plain, &style()), ["roll", "100 long, 40 wide"]);
    let folded = DrawnLength { folded: true, times: 2, lead: cm(5.0), ..plain.clone() };
    assert_eq!(
        heading(&folded, &style()),
        ["roll, 2 cut alike", "105 long, 40 wide, folded lengthwise, selvedges together, up to 5 of it before 0"]
    );
    assert_eq!(heading(&DrawnLength { roll: true, ..plain.clone() }, &style())[1], "100 long");
    assert_eq!(off_pieces(&plain, &style()), None);
    let off = [(7.0, 3.0), (9.0, 3.0), (7.0, 3.0), (7.0, 3.0)];
    let off = off.map(|(along, across)| (cm(along), cm(across))).to_vec();
    assert_eq!(
        off_pieces(&DrawnLength { off_pieces: off, ..plain }, &style()).unwrap(),
        "split or trimmed off its pieces, keep 3 of 7 × 3, 1 of 9 × 3"
    );
}

/// A tenth of a millimetre is 0.01 cm.
#[test]
fn marks_less_than_a_tenth_of_a_millimetre_apart_are_the_same() {
    for (left, right, same) in [(5.0, 5.009, true), (5.009, 5.0, true), (5.0, 5.011, false), (5.011, 5.0, false)] {
        assert_eq!(is_same(cm(left), cm(right)), same, "{left} {right}");
    }
    for (mark, edge) in [(0.0, true), (0.02, false), (40.0, true), (39.98, false), (20.0, false)] {
        assert_eq!(is_edge(cm(mark), cm(40.0)), edge, "{mark}");
    }
}

/// ECMA-48, from memory: a command string may also be opened by one character of the upper controls, and closed by one.
#[test]
fn a_command_string_of_one_character_is_skipped() {
    for open in ['\u{90}', '\u{98}', '\u{9D}', '\u{9E}', '\u{9F}'] {
        assert_eq!(plain_text::one_line(&format!("a{open}0;hidden\u{9C}b")), "ab", "{open:?}");
    }
}
