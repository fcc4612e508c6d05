//! Tables for the terminal: in a box to look at, in plain columns to pipe on, as sentences to be read aloud. Where the
//! columns do not fit, those that give way are left out; if that is no help, a table goes line by line.
//!
//! Numbers are right-aligned and never broken over lines.

use super::grid::{Grid, joined};
use super::listed;
use super::plain_text;
use super::records;
use super::wrap;
use crate::quantity::Style;
use crate::table::Table;
use tabled::builder::Builder;
use tabled::settings;

/// The narrowest width; a measure with its units still fits.
const NARROWEST: usize = 20;
const GAP: &str = "  ";

/// How a table is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Look {
    /// In a box, for eyes.
    Boxed,
    /// In plain columns, for pipes and files; texts are wrapped inside their column.
    Columns,
    /// Each row as a sentence, `piece: band; count: 1.`, to be read aloud.
    Aloud,
}

/// Draws the table in lines of at most `width` columns (at least 20), each ended by a line break.
///
/// Without a box there are columns with blanks between them and a blank line under the headings. Read aloud, columns
/// would be figures without names, so each row is a sentence that names them. A table without rows is one line,
/// `buy list: none`.
pub(crate) fn text_table(table: &Table, style: &Style, look: Look, width: usize) -> String {
    if table.is_empty() {
        return format!("{}: none\n", plain_text::one_line(&table.title()));
    }
    let grid = Grid::of(table, style);
    let width = width.max(NARROWEST);
    let lines = match look {
        Look::Aloud => spoken(&grid, width),
        Look::Boxed | Look::Columns => side_by_side(&grid, look, width)
            .or_else(|| without_some(table, style, look, width))
            .unwrap_or_else(|| records::record_lines(&grid, "", width)),
    };
    lines.into_iter().map(|line| line + "\n").collect()
}

/// The columns side by side, in a box where it has room; `None` if they do not fit.
fn side_by_side(grid: &Grid, look: Look, width: usize) -> Option<Vec<String>> {
    let in_a_box = (look == Look::Boxed).then(|| boxed(grid, width)).flatten();
    in_a_box.or_else(|| plain(grid, width)).or_else(|| wrapped(grid, width))
}

/// The same without the columns that give way, which are named below; `None` if that is no help.
fn without_some(table: &Table, style: &Style, look: Look, width: usize) -> Option<Vec<String>> {
    let mut grid = Grid::of(table, style);
    let left_out = grid.leave_out();
    if left_out.is_empty() {
        return None;
    }
    let mut lines = side_by_side(&grid, look, width)?;
    lines.extend(wrap::hang("", &format!("no room here for {}", listed(&left_out)), width));
    Some(lines)
}

fn plain(grid: &Grid, width: usize) -> Option<Vec<String>> {
    let widths = grid.natural_widths();
    let all = widths.iter().sum::<usize>() + gaps(grid);
    (all <= width).then(|| in_columns(grid, &widths))
}

/// The rows as sentences. A heading and its value stay on one line if they fit there.
fn spoken(grid: &Grid, width: usize) -> Vec<String> {
    const INDENT: &str = "  ";
    let mut lines = Vec::new();
    for record in grid.records() {
        let last = record.len().saturating_sub(1);
        let mut line = String::new();
        for (at, (heading, value)) in record.into_iter().enumerate() {
            let part = format!("{heading}: {value}{}", if at == last { "." } else { ";" });
            let fits = wrap::width(&line) + 1 + wrap::width(&part) <= width;
            if line.is_empty() || fits {
                let gap = if line.is_empty() { "" } else { " " };
                line.push_str(&format!("{gap}{part}"));
            } else {
                lines.push(std::mem::replace(&mut line, format!("{INDENT}{part}")));
            }
            if wrap::width(&line) > width {
                let mut wrapped = wrap::hang("", line.trim_start(), width - INDENT.len()).into_iter();
                let first = line.len() == line.trim_start().len();
                let mut all: Vec<String> = wrapped.by_ref().collect();
                for (number, wrapped) in all.iter_mut().enumerate() {
                    if !(first && number == 0) {
                        wrapped.insert_str(0, INDENT);
                    }
                }
                line = all.pop().unwrap_or_default();
                lines.extend(all);
            }
        }
        lines.push(if line.is_empty() { "nothing.".to_owned() } else { line });
    }
    lines
}

fn gaps(grid: &Grid) -> usize {
    GAP.len() * grid.columns().saturating_sub(1)
}

fn wrapped(grid: &Grid, width: usize) -> Option<Vec<String>> {
    Some(in_columns(grid, &grid.widths_within(width.checked_sub(gaps(grid))?)?))
}

fn in_columns(grid: &Grid, widths: &[usize]) -> Vec<String> {
    let mut lines: Vec<String> = grid.heading_lines(widths).iter().map(|line| joined(line, GAP)).collect();
    lines.push(String::new());
    lines.extend(grid.row_lines(widths).iter().flatten().map(|line| joined(line, GAP)));
    lines
}

fn boxed(grid: &Grid, width: usize) -> Option<Vec<String>> {
    // Each column has a line and a blank to its left and a blank to its right; one more line closes the box.
    let widths = grid.widths_within(width.checked_sub(3 * grid.columns() + 1)?)?;
    let mut builder = Builder::new();
    builder.push_record(stacked(&grid.heading_lines(&widths)));
    for row in grid.row_lines(&widths) {
        builder.push_record(stacked(&row));
    }
    let mut drawn = builder.build();
    drawn.with(settings::Style::sharp());
    Some(drawn.to_string().lines().map(str::to_owned).collect())
}

/// Joins the lines of a row into one text of several lines for each column.
fn stacked(lines: &[Vec<String>]) -> Vec<String> {
    let columns = lines.first().map_or(0, Vec::len);
    let stack = |at: usize| lines.iter().filter_map(|line| line.get(at)).map(String::as_str).collect::<Vec<_>>();
    (0..columns).map(|at| stack(at).join("\n")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, Quantity, Unit};
    use crate::table::Cell;
    use proptest::prelude::*;

    fn cut_list() -> Table {
        let columns = Table::new("cut_list").text("piece").count("count").length("along", "in").money("cost");
        let mut table = columns.text("note").ready().unwrap();
        let rows = [
            ("skirt panel", 2, 54.0, Some(4.5), "grain along"),
            ("band", 1, 23.4, None, ""),
            ("絹 ruffle", 12, 10.375, Some(12.0), "overlock both long edges first"),
        ];
        for (piece, count, along, cost, note) in rows {
            let cost = cost.map(Quantity::money).into();
            table.push(vec![piece.into(), count.into(), Length::inches(along).into(), cost, note.into()]).unwrap();
        }
        table
    }

    fn look(plain: bool) -> Look {
        if plain { Look::Aloud } else { Look::Boxed }
    }

    #[track_caller]
    fn check(table: &Table, plain: bool, width: usize, drawn: &str) {
        let style = Style { plain, ..Style::default() };
        let found = text_table(table, &style, look(plain), width);
        assert_eq!(found, drawn.trim_start_matches('\n'), "found:\n{found}");
    }

    #[test]
    fn boxed_with_room_enough() {
        check(
            &cut_list(),
            false,
            80,
            "
┌─────────────┬───────┬─────────────┬────────┬────────────────────────────────┐
│ piece       │ count │       along │   cost │ note                           │
├─────────────┼───────┼─────────────┼────────┼────────────────────────────────┤
│ skirt panel │     2 │       54 in │  $4.50 │ grain along                    │
│ band        │     1 │ ≈ 23 3/8 in │        │                                │
│ 絹 ruffle   │    12 │   10 3/8 in │ $12.00 │ overlock both long edges first │
└─────────────┴───────┴─────────────┴────────┴────────────────────────────────┘
",
        );
    }

    #[test]
    fn boxed_texts_wrap_and_numbers_do_not() {
        check(
            &cut_list(),
            false,
            60,
            "
┌─────────────┬───────┬─────────────┬────────┬─────────────┐
│ piece       │ count │       along │   cost │ note        │
├─────────────┼───────┼─────────────┼────────┼─────────────┤
│ skirt panel │     2 │       54 in │  $4.50 │ grain along │
│ band        │     1 │ ≈ 23 3/8 in │        │             │
│ 絹 ruffle   │    12 │   10 3/8 in │ $12.00 │ overlock    │
│             │       │             │        │ both long   │
│             │       │             │        │ edges first │
└─────────────┴───────┴─────────────┴────────┴─────────────┘
",
        );
    }

    #[test]
    fn too_narrow_for_a_box_goes_line_by_line() {
        check(
            &cut_list(),
            false,
            40,
            "
piece: skirt panel
count: 2
along: 54 in
cost: $4.50
note: grain along

piece: band
count: 1
along: ≈ 23 3/8 in

piece: 絹 ruffle
count: 12
along: 10 3/8 in
cost: $12.00
note: overlock both long edges first
",
        );
    }

    #[test]
    fn in_columns_without_a_box() {
        let drawn = text_table(&cut_list(), &Style::default(), Look::Columns, 80);
        let wanted = "
piece        count        along    cost  note

skirt panel      2        54 in   $4.50  grain along
band             1  ≈ 23 3/8 in
絹 ruffle       12    10 3/8 in  $12.00  overlock both long edges first
";
        assert_eq!(drawn, wanted.trim_start_matches('\n'), "found:\n{drawn}");
    }

    #[test]
    fn read_aloud_each_row_is_a_sentence() {
        check(
            &cut_list(),
            true,
            80,
            "
piece: skirt panel; count: 2; along: 54 in; cost: $4.50; note: grain along.
piece: band; count: 1; along: about 23 3/8 in.
piece: 絹 ruffle; count: 12; along: 10 3/8 in; cost: $12.00;
  note: overlock both long edges first.
",
        );
        check(
            &cut_list(),
            true,
            30,
            "
piece: skirt panel; count: 2;
  along: 54 in; cost: $4.50;
  note: grain along.
piece: band; count: 1;
  along: about 23 3/8 in.
piece: 絹 ruffle; count: 12;
  along: 10 3/8 in;
  cost: $12.00;
  note: overlock both long
  edges first.
",
        );
    }

    #[test]
    fn figures_of_any_kind() {
        let mut table = Table::new("summary").text("figure").mixed("value", "unit").ready().unwrap();
        for (figure, value) in [
            ("length used", Quantity::of(40.0, Unit::Inch).into()),
            ("rolls", 3.into()),
            ("use", Quantity::of(87.5, Unit::Percent).into()),
        ] {
            table.push(vec![figure.into(), value]).unwrap();
        }
        check(
            &table,
            true,
            80,
            "
figure: length used; value: 40 in.
figure: rolls; value: 3.
figure: use; value: 87.5 %.
",
        );
        table.push(vec!["proved".into(), true.into()]).unwrap();
        check(
            &table,
            false,
            80,
            "
┌─────────────┬────────┐
│ figure      │ value  │
├─────────────┼────────┤
│ length used │ 40 in  │
│ rolls       │ 3      │
│ use         │ 87.5 % │
│ proved      │ yes    │
└─────────────┴────────┘
",
        );
    }

    #[test]
    fn an_empty_table_says_so() {
        let table = Table::new("buy_list").text("piece").count("count").ready().unwrap();
        check(&table, true, 80, "buy list: none\n");
        check(&table, false, 80, "buy list: none\n");
    }

    #[test]
    fn escape_codes_do_not_reach_the_screen() {
        let mut table = Table::new("cut_list").text("pi\u{1b}[1mece").ready().unwrap();
        table.push(vec!["band\u{1b}[31m\nred\u{202e}".into()]).unwrap();
        check(&table, true, 80, "piece: band red.\n");
    }

    fn any_row() -> impl Strategy<Value = Vec<Cell>> {
        let number = -1_000_000_000.0..1e9;
        let text = prop_oneof!["\\PC{0,40}", "([a-z]{1,9} ){0,12}", any::<String>()];
        (text, proptest::option::of(any::<i32>()), number, proptest::option::of(-1e9..1e9)).prop_map(
            |(text, count, inches, money)| {
                let count = count.map(i64::from).into();
                vec![text.into(), count, Length::inches(inches / 1e3).into(), money.map(Quantity::money).into()]
            },
        )
    }

    proptest! {
        #[test]
        fn no_line_is_too_wide_and_no_number_is_broken(
            rows in prop::collection::vec(any_row(), 0..6), width in 40_usize..100, plain in any::<bool>(),
        ) {
            let columns = Table::new("cut_list").text("piece").count("count").length("along", "in");
            let mut table = columns.money("cost").ready().unwrap();
            for row in rows {
                table.push(row).unwrap();
            }
            let style = Style { plain, ..Style::default() };
            let drawn = text_table(&table, &style, look(plain), width);
            prop_assert!(!drawn.chars().any(|c| c.is_control() && c != '\n'));
            for line in drawn.lines() {
                prop_assert!(wrap::width(line) <= width, "{} in {width}: {line:?}", wrap::width(line));
            }
            for row in table.rows() {
                for cell in row {
                    let shown = match cell {
                        Cell::Count(count) => count.to_string(),
                        Cell::Quantity(quantity) => style.show(*quantity),
                        _ => continue,
                    };
                    prop_assert!(drawn.contains(&shown), "{shown} in\n{drawn}");
                }
            }
        }
    }
}
