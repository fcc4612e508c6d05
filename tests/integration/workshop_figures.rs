//! Figures of the workshop and cells of the page where an order is reckoned: rates and prices that cells read and `vary`
//! varies, and cells inside a cloth without a name. Every sum here is from a pencil.

use super::sessions::{replay, transcript_folder};

/// The answers to the last line that was typed.
fn last_answer(typed: &str) -> String {
    let shown = transcript_folder("workshop_figures");
    let lines: String = typed.trim().lines().map(|line| format!("> {line}\n")).collect();
    let shown = replay(&format!("$ shirr --workshop demo\n{lines}"), shown.path());
    shown.rsplit("\n> ").next().unwrap().lines().skip(1).map(|line| format!("{line}\n")).collect()
}

const SKIRT: &str = "run strips_on_band as skirt waist='14 in' strip='10 in' gathers='tulle overlapped' \
    tulle='ivory tulle' satin='ivory satin strip' elastic='elastic 1 in'";

/// The rows of a table or chart of prices by one thing that was varied.
fn prices(shown: &str) -> Vec<(&str, &str)> {
    let rows = shown.lines().filter_map(|line| {
        let (label, rest) = line.split_once("  ")?;
        Some((label.trim(), rest.split_whitespace().find(|word| word.starts_with('$'))?))
    });
    rows.collect()
}

/// Goods come to 9.80, and the minutes to 143.116: at $21/h 50.09 and at $30/h 71.56, each with 13.12 of overhead. Costs
/// 73.01 and 94.48; with 45 % 105.86 and 137.00; over 0.935, 113.22 and 146.52; next price ending 113.50 and 147.50.
#[test]
fn the_wage_is_varied() {
    let shown = last_answer(&format!("{SKIRT}\nvary wage over $21/h, $30/h, show skirt.price"));
    assert_eq!(prices(&shown), [("$21.00/h", "$113.50"), ("$30.00/h", "$147.50")], "{shown}");
    // The workshop is as it was.
    assert_eq!(last_answer(&format!("{SKIRT}\nvary wage over $30/h, show skirt.price\nwage")), "$21.00/h\n");
    let after = last_answer(&format!("{SKIRT}\nvary wage over $30/h, show skirt.price\nskirt.price"));
    assert_eq!(after, "$113.50\n");
}

/// $21/h and $5.50/h; $30/h and $5.50/h.
#[test]
fn cells_that_read_a_rate_follow_it() {
    let shown = last_answer("hour = wage + overhead\nvary wage over $21/h, $30/h, show hour");
    assert_eq!(prices(&shown), [("$21.00/h", "$26.50/h"), ("$30.00/h", "$35.50/h")], "{shown}");
}

/// 73.01 and 60 % are 116.82; over 0.935, 124.94; next ending 125.50.
#[test]
fn the_mark_up_is_varied() {
    let shown = last_answer(&format!("{SKIRT}\nvary mark_up over 45 %, 60 %, show skirt.price"));
    assert_eq!(prices(&shown).iter().map(|(_, price)| *price).collect::<Vec<_>>(), ["$113.50", "$125.50"], "{shown}");
}

/// 30 yd 30 in of tulle and 5 % are 32 3/8 yd: at $8 for 25 yd $10.36, at $6.50 $8.42. Cost 74.95, with 45 % 108.68, over
/// 0.935 116.24; next ending 116.50.
#[test]
fn the_price_of_a_roll_is_varied() {
    let shown = last_answer(&format!("{SKIRT}\nvary ivory_tulle.price over $6.50, $8, show skirt.price"));
    assert_eq!(prices(&shown), [("$6.50", "$113.50"), ("$8.00", "$116.50")], "{shown}");
}

/// The strips and the figures of the recipe do not follow a price.
#[test]
fn two_figures_are_varied_at_once_and_what_does_not_follow_stays() {
    let shown = last_answer(&format!(
        "{SKIRT}\nvary wage over $21/h, $30/h, mark_up over 45 %, 60 %, show skirt.price, skirt.pieces_to_cut"
    ));
    assert_eq!(shown.lines().filter(|line| line.contains(" 112")).count(), 4, "{shown}");
    // 94.48 and 60 % are 151.17; over 0.935, 161.68; next ending 162.50.
    assert!(shown.contains("$162.50"), "{shown}");
}

#[test]
fn cells_read_rates_and_prices() {
    // $21/h and $5.50/h; a yard and a half at $9.25; 110 min at $26.50/h.
    assert_eq!(last_answer("hour = wage + overhead"), "hour  $26.50/h\n");
    assert_eq!(last_answer("white_cotton_lawn.price * 1.5 yd"), "≈ $13.88\n");
    assert_eq!(last_answer("(wage + overhead) * 110 min"), "≈ $48.58\n");
    // A cell of that name comes first, and changes no order.
    let shadowed = last_answer(&format!("{SKIRT}\nwage = $50/h\nskirt.price"));
    assert_eq!(shadowed, "$113.50\n");
    assert_eq!(last_answer("wage = $50/h\nwage + overhead"), "$55.50/h\n");
    let hidden = last_answer(&format!("{SKIRT}\nwage = $50/h\nvary wage over $21/h, $30/h, show skirt.price"));
    assert!(hidden.contains("your cell wage hides the workshop's"), "{hidden}");
    // Struck, the workshop's counts again.
    assert_eq!(last_answer("wage = $50/h\nhour = wage + overhead\nstrike wage\nhour"), "$26.50/h\n");
}

#[test]
fn what_the_workshop_does_not_say_is_an_error() {
    let unknown = last_answer("white_cotton_lawn.prise");
    assert!(unknown.contains("did you mean “price”"), "{unknown}");
    let unlike = last_answer(&format!("{SKIRT}\nvary wage over $21, show skirt.price"));
    assert!(unlike.contains("wage: a wage is needed, not "), "{unlike}");
    let material = last_answer(&format!("{SKIRT}\nvary ivory_tulle over $3, $4, show skirt.price"));
    assert!(material.contains("type ivory_tulle.price for its price"), "{material}");
    // A slip is told once, with what was meant.
    let slip = last_answer(&format!("{SKIRT}\nvary wage over $21/h, $30/h, show skirt.prise"));
    assert!(slip.contains("did you mean “price”?") && slip.matches("prise").count() <= 2, "{slip}");
    let nothing = last_answer("x = 3\nvary wage over $21/h, show x");
    assert!(nothing.contains("nothing that is shown follows “wage”"), "{nothing}");
}

/// A panel of 14 1/2 in at $6/yd and at $14/yd, 5 % waste in it: 2.54 and 5.92. Cost 19.20 and 22.58; with 45 % 27.84 and
/// 32.74; over 0.935, 29.78 and 35.02; next ending 30.50 and 35.50.
#[test]
fn cells_stand_inside_a_cloth_without_a_name() {
    let order = "run gathered_skirt as q size=Wren cloth='any wide at cp, shrinks lost' elastic='elastic 1 in'";
    let page = format!("wide = 45 in\ncp = $6/yd\nlost = 0 %\n{order}");
    assert_eq!(last_answer(&format!("{page}\nq.price")), "$30.50\n");
    assert_eq!(last_answer(&format!("{page}\ncp = $14/yd\nq.price")), "$35.50\n");
    let shown = last_answer(&format!("{page}\nvary cp from $6/yd to $14/yd by $8/yd, show q.price"));
    assert_eq!(prices(&shown), [("$6.00/yd", "$30.50"), ("$14.00/yd", "$35.50")], "{shown}");
    // An order that fills no cell reads them as well.
    let shown = last_answer(&page.replace(" as q", ""));
    assert!(shown.contains("PRICE    $30.50 "), "{shown}");
    // A sum of cells; 2 * $7.
    let sum = page.replace("any wide at cp", "any wide - 1 in at 2 * cp").replace("$6/yd", "$7/yd");
    assert_eq!(last_answer(&format!("{sum}\nq.price")), "$35.50\n");
    // The order follows: a narrow cloth takes a second panel.
    let narrow = last_answer(&format!("{page}\nwide = 30 in"));
    assert!(narrow.lines().last().unwrap().starts_with("q "), "{narrow}");
    let wrong = last_answer(&format!("{page}\ncp = 3 min"));
    assert!(wrong.contains("cloth"), "{wrong}");
}
