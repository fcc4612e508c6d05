//! The table itself: filled row by row, looked up by name.

use super::cell::Cell;
use super::column::{Column, ColumnKind, normalized_heading};
use super::error::TableError;
use crate::quantity::nearest::nearest;
use crate::quantity::{Dimension, Quantity, rounding};

/// A named table with typed columns. Every row has a cell for every column, of its kind or blank.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    name: String,
    columns: Vec<Column>,
    rows: Vec<Vec<Cell>>,
}

impl Table {
    /// A table of columns that the builder has checked.
    pub(super) fn of(name: String, columns: Vec<Column>) -> Self {
        Self { name, columns, rows: Vec::new() }
    }

    /// Adds a row: a cell for every column, each finite and of its column's kind, or blank.
    pub fn push(&mut self, row: Vec<Cell>) -> Result<(), TableError> {
        let at = self.rows.len() + 1;
        if row.len() != self.columns.len() {
            let (needed, given) = (self.columns.len(), row.len());
            return Err(TableError::CellCount { table: self.title(), row: at, needed, given });
        }
        for (column, cell) in self.columns.iter().zip(&row) {
            let (table, heading) = (self.title(), column.heading.clone());
            if !column.kind.takes(cell) {
                let (column, given) = (Box::new(column.clone()), Box::new(cell.clone()));
                return Err(TableError::WrongCell { table, row: at, column, given });
            }
            let finite = match cell {
                Cell::Number(value) => value.is_finite(),
                Cell::Quantity(quantity) => quantity.steps().is_finite(),
                Cell::Blank | Cell::Text(_) | Cell::Count(_) | Cell::Flag(_) => true,
            };
            if !finite {
                return Err(TableError::NotFinite { table, row: at, heading });
            }
        }
        self.rows.push(row);
        Ok(())
    }

    /// Its name: `cut_list`.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its name as a person reads it: `cut list`.
    pub fn title(&self) -> String {
        self.name.replace('_', " ")
    }

    /// Its columns, from left to right.
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Its rows, from top to bottom.
    pub fn rows(&self) -> &[Vec<Cell>] {
        &self.rows
    }

    /// How many rows it has.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Whether it has no rows.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// Finds a column by name, with its position. Capitals, and `_` for a blank, make no difference.
    pub fn column(&self, name: &str) -> Result<(usize, &Column), TableError> {
        let wanted = normalized_heading(name);
        let found = self.columns.iter().enumerate().find(|(_, column)| normalized_heading(&column.heading) == wanted);
        found.ok_or_else(|| TableError::NoColumn {
            table: self.title(),
            name: name.to_owned(),
            nearest: self.nearest_heading(&wanted),
            known: self.columns.iter().map(|column| column.heading.clone()).collect(),
        })
    }

    /// The cells of a column, from top to bottom.
    pub fn values(&self, name: &str) -> Result<impl Iterator<Item = &Cell>, TableError> {
        let (at, _) = self.column(name)?;
        Ok(self.rows.iter().filter_map(move |row| row.get(at)))
    }

    /// The cell of a row, counted from 1, in a column.
    pub fn cell(&self, row: usize, name: &str) -> Result<&Cell, TableError> {
        let (at, _) = self.column(name)?;
        let found = row.checked_sub(1).and_then(|index| self.rows.get(index)).and_then(|cells| cells.get(at));
        found.ok_or_else(|| TableError::NoRow { table: self.title(), row, rows: self.rows.len() })
    }

    /// The same table with only these rows, by position from 0, in this order.
    #[must_use]
    pub fn with_rows(&self, places: &[usize]) -> Self {
        let rows = places.iter().filter_map(|at| self.rows.get(*at)).cloned().collect();
        Self { name: self.name.clone(), columns: self.columns.clone(), rows }
    }

    /// The sum of a column of counts, numbers, measures or money, without its blanks. It has the column's kind and
    /// unit; money is rounded to the cent, halves away from zero.
    pub fn total(&self, name: &str) -> Result<Cell, TableError> {
        let (at, column) = self.column(name)?;
        let cells = self.rows.iter().filter_map(|row| row.get(at));
        let heading = || column.heading.clone();
        let too_large = || TableError::TotalTooLarge { heading: heading() };
        match &column.kind {
            ColumnKind::Count => {
                let mut counts =
                    cells.filter_map(|cell| if let Cell::Count(count) = cell { Some(*count) } else { None });
                counts.try_fold(0_i64, i64::checked_add).map(Cell::Count).ok_or_else(too_large)
            }
            ColumnKind::Number => {
                let numbers = cells.filter_map(|cell| if let Cell::Number(value) = cell { Some(*value) } else { None });
                let sum: f64 = numbers.sum();
                if sum.is_finite() { Ok(Cell::Number(sum + 0.0)) } else { Err(too_large()) }
            }
            ColumnKind::Quantity(unit) => {
                let liked = unit.expression().liked;
                let sum = sum_of(cells, unit.dimension()).ok_or_else(too_large)?;
                Ok(Cell::Quantity(sum.liking(liked)))
            }
            ColumnKind::Money => {
                let sum = sum_of(cells, Dimension::MONEY).ok_or_else(too_large)?;
                rounding::to_the_cent(sum).map(Cell::Quantity).map_err(|_| too_large())
            }
            kind @ (ColumnKind::Text | ColumnKind::Flag | ColumnKind::Mixed { .. }) => {
                Err(TableError::NoTotal { heading: heading(), holds: kind.noun() })
            }
        }
    }

    /// The name of the file it is written to: `cut_list.csv`. Letters, in lower case, and digits of any script stay,
    /// everything else becomes `_`, and a name that some systems reserve gets `_table`.
    pub fn file_name(&self) -> String {
        let lower = self.name.to_lowercase();
        let parts: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty()).collect();
        let stem = parts.join("_");
        let kept_by_the_system = ["con", "prn", "aux", "nul"].contains(&stem.as_str())
            || (["com", "lpt"]
                .iter()
                .any(|port| stem.strip_prefix(port).is_some_and(|rest| rest.chars().count() == 1)));
        match stem.as_str() {
            "" => "table.csv".to_owned(),
            _ if kept_by_the_system => format!("{stem}_table.csv"),
            _ => format!("{stem}.csv"),
        }
    }

    fn nearest_heading(&self, wanted: &str) -> Option<String> {
        nearest(wanted, self.columns.iter().map(|column| column.heading.as_str())).map(str::to_owned)
    }
}

/// The sum of the quantities among some cells; `None` if it is too large.
fn sum_of<'a>(mut cells: impl Iterator<Item = &'a Cell>, dimension: Dimension) -> Option<Quantity> {
    cells.try_fold(Quantity::from_steps(0.0, dimension), |sum, cell| match cell {
        Cell::Quantity(quantity) => sum.plus(*quantity).ok(),
        _ => Some(sum),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Diagnose;
    use crate::quantity::{Length, Style, Unit};

    fn cut_list() -> Table {
        let columns = Table::new("cut_list").text("piece").count("count").length("along", "in");
        columns.time("sewing", "min").money("cost").ready().unwrap()
    }

    fn row(piece: &str, count: i64, inches: f64) -> Vec<Cell> {
        vec![piece.into(), count.into(), Length::inches(inches).into(), Cell::Blank, Quantity::money(1.005).into()]
    }

    #[track_caller]
    fn check(error: &TableError, shown: &str, hint: &str) {
        assert_eq!(error.to_string(), shown);
        assert_eq!(error.hint().unwrap_or_default(), hint);
    }

    #[test]
    fn a_row_that_fits_is_kept_and_found_by_name() {
        let mut table = cut_list();
        table.push(row("skirt panel", 2, 54.0)).unwrap();
        table.push(row("band", 1, 23.5)).unwrap();
        assert_eq!(table.len(), 2);
        assert_eq!(table.cell(2, "Piece"), Ok(&Cell::from("band")));
        assert_eq!(table.values("sewing").unwrap().filter(|cell| cell.is_blank()).count(), 2);
        assert_eq!(table.column("along").unwrap().0, 2);
    }

    #[test]
    fn yards_do_not_go_into_a_column_of_minutes() {
        let mut table = cut_list();
        let mut wrong = row("band", 1, 23.5);
        wrong[3] = Quantity::of(3.0, Unit::Yard).into();
        let error = table.push(wrong).unwrap_err();
        check(&error, "row 1 of “cut list”: “sewing” holds a time, not a length", "give something like 12 min");
        assert!(table.is_empty());
    }

    #[test]
    fn wrong_kinds_and_wrong_lengths_are_refused() {
        let mut table = cut_list();
        table.push(row("band", 1, 23.5)).unwrap();
        let mut wrong = row("band", 1, 23.5);
        wrong[1] = 1.5.into();
        let error = table.push(wrong).unwrap_err();
        check(&error, "row 2 of “cut list”: “count” holds a count, not a plain number", "give something like 12");
        let mut wrong = row("band", 1, 23.5);
        wrong[4] = 3.into();
        let error = table.push(wrong).unwrap_err();
        check(&error, "row 2 of “cut list”: “cost” holds an amount of money, not a count", "give something like $4.50");
        let error = table.push(vec!["band".into(), 1.into()]).unwrap_err();
        check(&error, "row 2 of “cut list” has 2 of the 5 columns", "leave a cell blank where there is nothing to say");
        let error = table.push(row("band", 1, f64::NAN)).unwrap_err();
        check(
            &error,
            "row 2 of “cut list”: the value of “along” is too large to reckon with",
            "check the figures it comes from: is one of them far too large?",
        );
        assert_eq!(table.len(), 1);
    }

    #[test]
    fn a_name_nearly_right_is_suggested() {
        let table = cut_list();
        check(
            &table.column("alogn").unwrap_err(),
            "the table “cut list” has no column “alogn”",
            "did you mean “along”?",
        );
        check(
            &table.total("colour").unwrap_err(),
            "the table “cut list” has no column “colour”",
            "its columns are piece, count, along, sewing, cost",
        );
        check(&table.cell(1, "cost").unwrap_err(), "the table “cut list” is empty; there is no row 1", "");
        let mut table = cut_list();
        table.push(row("band", 1, 23.5)).unwrap();
        check(
            &table.cell(0, "cost").unwrap_err(),
            "there is 1 row in “cut list”, and no row 0",
            "rows are counted from 1 to 1",
        );
    }

    #[test]
    fn totals_pass_over_blanks_and_keep_the_columns_unit() {
        let mut table = cut_list();
        table.push(row("skirt panel", 2, 54.25)).unwrap();
        table.push(vec!["label".into(), Cell::Blank, Cell::Blank, Cell::Blank, Cell::Blank]).unwrap();
        let mut metric = row("band", 1, 0.0);
        metric[2] = Quantity::of(25.4, Unit::Centimetre).into();
        table.push(metric).unwrap();
        assert_eq!(table.total("count"), Ok(Cell::Count(3)));
        let style = Style::default();
        let shown = |name: &str| match table.total(name).unwrap() {
            Cell::Quantity(quantity) => style.show(quantity),
            other => panic!("{other:?}"),
        };
        assert_eq!(shown("along"), "64 1/4 in");
        assert_eq!(shown("sewing"), "0 min");
        assert_eq!(shown("cost"), "$2.01");
        check(
            &table.total("piece").unwrap_err(),
            "“piece” holds a text; it has no total",
            "a total is taken of counts, numbers, measures or money",
        );
    }

    /// Two amounts of $0.333 are $0.666, and 67 cents are paid.
    #[test]
    fn a_total_of_money_has_whole_cents() {
        let mut table = Table::new("costs").money("cost").ready().unwrap();
        for _ in 0..2 {
            table.push(vec![Quantity::money(0.333).into()]).unwrap();
        }
        assert_eq!(table.total("cost"), Ok(Cell::Quantity(Quantity::money(0.67))));
    }

    #[test]
    fn a_total_too_large_is_a_fault_and_not_a_wrong_count() {
        let mut table = Table::new("stock").count("count").number("ratio").ready().unwrap();
        table.push(vec![i64::MAX.into(), f64::MAX.into()]).unwrap();
        table.push(vec![1.into(), f64::MAX.into()]).unwrap();
        let error = table.total("count").unwrap_err();
        assert_eq!(error.to_string(), "the total of “count” is too large to reckon with");
        assert!(table.total("ratio").is_err());
    }

    #[test]
    fn a_column_of_figures_takes_anything() {
        let mut table = Table::new("summary").text("figure").mixed("value", "unit").ready().unwrap();
        for value in [Cell::from(3), true.into(), "L7".into(), Length::yards(2.0).into(), 0.5.into(), Cell::Blank] {
            table.push(vec!["a figure".into(), value]).unwrap();
        }
        assert_eq!(table.len(), 6);
        assert!(table.total("value").is_err());
    }

    #[test]
    fn names_become_file_names() {
        let names = ["cut_list", "Buy list", "§ 3: a/b", "..", "", "con", "lpt1", "été 2"];
        let files = names.map(|name| Table::new(name).text("note").ready().unwrap().file_name());
        let wanted = [
            "cut_list.csv",
            "buy_list.csv",
            "3_a_b.csv",
            "table.csv",
            "table.csv",
            "con_table.csv",
            "lpt1_table.csv",
            "été_2.csv",
        ];
        assert_eq!(files, wanted);
    }
}
