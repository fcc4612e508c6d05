//! Tables for notes, letters and web pages: a pipe table, which most programs that render plain text understand.
//!
//! Amounts are as on the screen, `10 3/8 in`, not as in a file. Characters with a meaning in the notation are
//! escaped, and a cell stays on its line. Never here: parsing such a table.

use super::amounts;
use super::grid::is_right_aligned;
use super::plain_text;
use crate::quantity::Style;
use crate::table::{Column, Table};
use std::io::{self, Write};

/// Writes the headings, the line below them that right-aligns numbers, and the rows. A table without rows has only
/// its first two lines. The style formats the amounts.
///
/// Fails only if `out` does.
pub(crate) fn write_markdown<W: Write>(table: &Table, style: &Style, mut out: W) -> io::Result<()> {
    let columns = table.columns();
    let headings = columns.iter().map(|column| escaped(&column.heading));
    writeln!(out, "{}", line(headings))?;
    let right =
        |(at, column): (usize, &Column)| is_right_aligned(column, table.rows().iter().filter_map(|row| row.get(at)));
    let rule = columns.iter().enumerate().map(|column| if right(column) { "---:" } else { "---" }.to_owned());
    writeln!(out, "{}", line(rule))?;
    for row in table.rows() {
        let cells = columns.iter().zip(row).map(|(column, cell)| escaped(&amounts::shown(cell, column, style)));
        writeln!(out, "{}", line(cells))?;
    }
    out.flush()
}

fn line(fields: impl Iterator<Item = String>) -> String {
    let fields: String = fields.map(|field| format!(" {field} |")).collect();
    format!("|{fields}")
}

/// Escapes a text: on one line, with a backslash before each character that would begin a column, a link, an
/// emphasis, code or markup.
pub(crate) fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for sign in plain_text::one_line(text).chars() {
        if matches!(sign, '|' | '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '~') {
            safe.push('\\');
        }
        safe.push(sign);
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, Quantity};
    use crate::table::Cell;
    use proptest::prelude::*;

    fn written(table: &Table) -> String {
        let mut out = Vec::new();
        write_markdown(table, &Style::default(), &mut out).unwrap();
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn numbers_stand_at_the_right_and_marks_are_escaped() {
        let columns = Table::new("cut_list").text("piece").count("count").length("along", "in").money("cost");
        let mut table = columns.mixed("amount", "unit").ready().unwrap();
        let row = |piece: &str, inches: f64, amount: Cell| {
            vec![piece.into(), 2.into(), Length::inches(inches).into(), Quantity::money(4.5).into(), amount]
        };
        table.push(row("band | waist\n*upper*", 10.375, 3.into())).unwrap();
        table.push(row("a\\b", 23.4, Cell::Blank)).unwrap();
        assert_eq!(
            written(&table),
            "| piece | count | along | cost | amount |\n| --- | ---: | ---: | ---: | ---: |\n\
             | band \\| waist \\*upper\\* | 2 | 10 3/8 in | $4.50 | 3 |\n| a\\\\b | 2 | ≈ 23 3/8 in | $4.50 |  |\n"
        );
    }

    #[test]
    fn a_table_without_rows_has_its_headings() {
        let table = Table::new("buy_list").text("material").count("count").ready().unwrap();
        assert_eq!(written(&table), "| material | count |\n| --- | ---: |\n");
    }

    proptest! {
        /// GitHub Flavored Markdown 0.29, section 4.10, from memory: a bar separates two columns unless a backslash
        /// comes before it.
        #[test]
        fn every_line_has_one_field_for_each_column(texts in prop::collection::vec("[a-z|\\\\\n`*]{0,9}|\\PC{0,9}", 0..6)) {
            let mut table = Table::new("t").text("one").text("two").ready().unwrap();
            for text in &texts {
                table.push(vec![text.as_str().into(), "x".into()]).unwrap();
            }
            let file = written(&table);
            prop_assert_eq!(file.lines().count(), texts.len() + 2);
            for line in file.lines() {
                let (mut bars, mut escaped) = (0, false);
                for c in line.chars() {
                    bars += usize::from(c == '|' && !escaped);
                    escaped = c == '\\' && !escaped;
                }
                prop_assert_eq!(bars, 3, "{}", line);
            }
        }
    }
}
