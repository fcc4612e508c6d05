//! Tables as they are typed: read, filtered, shown, written; what-if tables and charts; each answer from a pencil.

use crate::sessions::transcript_folder;
use crate::typed_lines::{after, answered, cells};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// A folder with four orders: days 2, 5, 3 and none; costs 10, 20, 5 and 7 dollars.
fn with_orders(name: &str) -> TempDir {
    let here = transcript_folder(name);
    let orders = "order,days,cost\nPip,2,$10.00\nWren,5,$20.00\nJuno,3,$5.00\nAlder,,$7.00\n";
    fs::write(here.path().join("orders.csv"), orders).unwrap();
    here
}

fn text(here: &Path, name: &str) -> String {
    fs::read_to_string(here.join(name)).unwrap()
}

#[test]
fn rows_are_picked_by_a_condition_and_their_columns_summed() {
    let here = with_orders("picked");
    let lines = [
        "read orders.csv as orders",
        "late = orders where known(days) and days > 2",
        "total(late.cost)",
        "orders.rows",
        "late.rows",
        "largest(orders.cost)",
        "show late",
        "orders where days > 2",
        "orders where dyas > 2",
        "orders where cost",
        "orders where",
        "limit = 4",
        "orders where known(days) and days < limit",
        "must late.rows = 2",
    ];
    let answers = answered(here.path(), &lines);
    assert_eq!(cells(after(&answers, lines[0]).trim_end()), ["orders", "4 rows: order, days, cost"]);
    assert!(after(&answers, lines[1]).starts_with("late  2 rows: order, days, cost"), "{answers}");
    // 20 and 5.
    assert_eq!(after(&answers, "total(late.cost)"), "$25.00");
    assert_eq!((after(&answers, "orders.rows"), after(&answers, "late.rows")), ("4", "2"));
    assert_eq!(after(&answers, "largest(orders.cost)"), "$20.00");
    let rows: Vec<Vec<&str>> = after(&answers, "show late").lines().map(cells).collect();
    assert_eq!(rows, [vec!["order", "days", "cost"], vec![], vec!["Wren", "5", "$20.00"], vec!["Juno", "3", "$5.00"]]);
    // The blank is in the fourth row.
    assert!(after(&answers, "orders where days > 2").contains("row 4 of “orders”"), "{answers}");
    let unknown = after(&answers, "orders where dyas > 2");
    assert!(
        unknown.contains("“dyas” is neither a column of “orders” nor a cell")
            && unknown.contains("did you mean “days”?")
    );
    assert!(
        after(&answers, "orders where cost").contains("a condition must be yes or no, and this is an amount of money"),
        "{answers}"
    );
    assert!(after(&answers, "orders where").contains("a condition is missing behind “where”"), "{answers}");
    assert!(after(&answers, lines[12]).starts_with("2 rows: "), "{answers}");
    assert_eq!(after(&answers, "must late.rows = 2"), "OK: late.rows = 2");
}

#[test]
fn a_table_that_is_not_there_stays_a_line_of_the_page() {
    let here = with_orders("no_table");
    let answers = answered(here.path(), &["read none.csv as rows", "read orders.csv", "show", "strike rows", "show"]);
    let none = after(&answers, "read none.csv as rows");
    assert!(none.starts_with("rows: there is no file "), "{none}");
    assert!(none.ends_with("reads the file again once it is saved; strike rows takes the line off"), "{none}");
    assert!(after(&answers, "read orders.csv").starts_with("read which file, as which cell?"), "{answers}");
    assert_eq!(after(&answers, "show"), "the page is empty; type waist = 56 cm, or help");
}

#[test]
fn show_tells_of_cells_tables_and_members() {
    let here = with_orders("shown");
    let lines = [
        "waist = 56 cm  # measured",
        "band = waist + 4 cm",
        "read orders.csv as orders",
        "show band",
        "show waist, band",
        "show orders",
        "show orders.cost",
        "show wiast",
        "show",
    ];
    let answers = answered(here.path(), &lines);
    let rows = |line: &str| after(&answers, line).lines().map(|line| cells(line).join("|")).collect::<Vec<_>>();
    // A cell of one line is told with how it comes about.
    assert_eq!(rows("show band").last().unwrap(), "band|60 cm|waist + 4 cm", "{answers}");
    let both = rows("show waist, band");
    assert_eq!(both[both.len() - 2..], ["waist|56 cm|56 cm|measured", "band|60 cm|waist + 4 cm"], "{answers}");
    assert_eq!(rows("show orders")[2..], ["Pip|2|$10.00", "Wren|5|$20.00", "Juno|3|$5.00", "Alder|$7.00"]);
    assert!(after(&answers, "show orders.cost").contains("$10.00, $20.00, $5.00, $7.00"), "{answers}");
    assert!(
        after(&answers, "show wiast").starts_with("there is no cell “wiast”\n  did you mean “waist”?"),
        "{answers}"
    );
    assert_eq!(rows("show").len(), 5, "{answers}");
}

#[test]
fn a_table_is_written_as_its_file_name_says_and_over_nothing_unasked() {
    let here = with_orders("written");
    let lines = [
        "read orders.csv as orders",
        "late = orders where known(days) and days > 3",
        "write late to late.csv",
        "write orders to late.csv",
        "write orders over late.csv",
        "write late to late.md",
        "write late to late.txt",
        "write late to late.svg",
        "write late to late",
        "write late to late.doc",
        "waist = 56 cm",
        "write waist to waist.csv",
        "write page to page.md",
        "write that to that.csv",
        "orders where known(days) and days < 3",
        "write that to few.csv",
        "write late",
        "write nosuch to x.csv",
    ];
    let answers = answered(here.path(), &lines);
    assert_eq!(after(&answers, "write late to late.csv"), "1 row is in late.csv");
    let there = after(&answers, "write orders to late.csv");
    assert_eq!(there, "there is a file late.csv already\n  to replace it, type write orders over late.csv");
    assert_eq!(after(&answers, "write orders over late.csv"), "4 rows are in late.csv");
    assert_eq!(text(here.path(), "late.csv").lines().count(), 5);
    assert_eq!(after(&answers, "write late to late.md"), "1 row is in late.md");
    assert!(text(here.path(), "late.md").lines().any(|line| line.starts_with('|') && line.contains("Wren")));
    assert!(text(here.path(), "late.txt").lines().any(|line| cells(line) == ["Wren", "5", "$20.00"]));
    assert_eq!(after(&answers, "write late to late.svg"), "the chart of late is drawn in late.svg");
    assert!(text(here.path(), "late.svg").contains("<svg"));
    for (line, to) in [("write late to late", "late"), ("write late to late.doc", "late.doc")] {
        assert!(after(&answers, line).starts_with(&format!("“{to}” does not say what kind of file")), "{answers}");
    }
    assert!(after(&answers, "write waist to waist.csv").starts_with("“waist” is no table"), "{answers}");
    // Three lines: the table, its filter, the waist.
    assert_eq!(after(&answers, "write page to page.md"), "3 rows are in page.md");
    assert!(after(&answers, "write that to that.csv").starts_with("there is no answer yet that “that” could mean"));
    assert_eq!(after(&answers, "write that to few.csv"), "1 row is in few.csv");
    assert!(text(here.path(), "few.csv").contains("Pip"));
    assert!(after(&answers, "write late").starts_with("write what to which file?"), "{answers}");
    assert!(!here.path().join("x.csv").exists() && !here.path().join("late.doc").exists());
}

/// 2 hours at 18, 20 and 24 dollars; 3 yards at 6 and 8.
#[test]
fn rates_and_prices_of_the_workshop_are_varied() {
    let here = transcript_folder("rates");
    let lines = [
        "pay = wage * 2 h",
        "bolt = white_cotton_lawn.price * 3 yd",
        "pay",
        "vary wage over $18/h, $20/h, $24/h, show pay",
        "vary white_cotton_lawn.price over $6/yd, $8/yd, show bolt",
        "vary white_cotton_lawn over $6/yd, show bolt",
        "vary wage over $18/h, show 3 cm",
        "wage = $5/h",
        "vary wage over $18/h, show bolt",
    ];
    let answers = answered(here.path(), &lines);
    let figures = |line: &str, column: usize| {
        let rows = after(&answers, line).lines().filter(|line| line.contains("/h") || line.contains("/yd"));
        rows.map(|line| cells(line)[column].to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(figures(lines[3], 0), ["$18.00/h", "$20.00/h", "$24.00/h"], "{answers}");
    assert_eq!(figures(lines[3], 1), ["$36.00", "$40.00", "$48.00"], "{answers}");
    assert_eq!(figures(lines[4], 1), ["$18.00", "$24.00"], "{answers}");
    assert!(
        after(&answers, lines[5]).starts_with("what of white_cotton_lawn is varied?\n  type white_cotton_lawn.price")
    );
    assert!(after(&answers, lines[6]).starts_with("nothing that is shown follows “wage”"), "{answers}");
    // The page was not changed by it; a cell of the name hides the rate.
    assert!(after(&answers, lines[7]).contains("wage  $5.00/h") && after(&answers, lines[7]).contains("$10.00"));
    let hidden = after(&answers, lines[8]);
    assert!(hidden.contains("your cell wage hides the workshop's; strike wage gives it free"), "{hidden}");
}

#[test]
fn a_rate_is_varied_over_amounts_and_for_what_follows_it() {
    let here = transcript_folder("rates_over");
    let lines = ["pay = wage * 2 h", "vary wage over \"x\", show pay", "vary wage over $18/h, show 3 cm", "pay"];
    let answers = answered(here.path(), &lines);
    assert_eq!(after(&answers, lines[1]), "wage is varied over figures alone");
    assert_eq!(
        after(&answers, lines[2]),
        "nothing that is shown follows “wage”\n  show a figure of an order, such as skirt.price"
    );
    // The rate is as it was.
    assert_eq!(after(&answers, "pay"), after(&answers, lines[0]).trim_start_matches("pay  "));
}

#[test]
fn a_chart_needs_figures() {
    let here = with_orders("charts");
    let lines = [
        "chart",
        "waist = 56 cm",
        "chart waist",
        "read orders.csv as orders",
        "chart orders",
        "vary waist over 1 cm, 2 cm, show waist * 2",
        "chart",
    ];
    let answers = answered(here.path(), &lines);
    assert!(answers.contains("> chart\nthere is nothing to draw yet\n  type chart first"), "{answers}");
    assert!(after(&answers, "chart waist").starts_with("there are no figures to draw in it"), "{answers}");
    // Twenty dollars are twice as long as ten.
    let drawn = after(&answers, "chart orders");
    let bar = |name: &str| {
        drawn
            .lines()
            .find(|line| line.starts_with(name) && line.contains('$'))
            .map_or(0, |line| line.matches('#').count())
    };
    assert!(bar("Wren") >= 20 && bar("Wren").abs_diff(2 * bar("Pip")) <= 1, "{drawn}");
    assert_eq!(after(&answers, "chart"), after(&answers, lines[5]), "{answers}");
}

#[test]
fn the_tour_goes_on_and_begins_again() {
    let here = transcript_folder("tour");
    let answers = answered(here.path(), &["tour", "tour 5", "tour", "tour 6", "tour 0", "tour two"]);
    assert!(answers.contains("> tour\n1 of 5: "), "{answers}");
    assert!(after(&answers, "tour 5").starts_with("5 of 5: "), "{answers}");
    assert!(after(&answers, "tour").starts_with("1 of 5: "), "{answers}");
    for none in ["tour 6", "tour 0", "tour two"] {
        assert_eq!(after(&answers, none).lines().next(), Some("the tour has parts 1 to 5"));
    }
    let goes_on = answered(here.path(), &["tour", "tour"]);
    assert!(goes_on.contains("1 of 5: ") && after(&goes_on, "tour").starts_with("2 of 5: "), "{goes_on}");
}
