//! Building a table column by column.

use super::column::{Column, ColumnKind, ColumnUnit, normalized_heading};
use super::error::TableError;
use super::typed::Table;
use crate::quantity::{Dimension, Reading, literal};

/// The columns of a table being built; [`ready`](TableBuilder::ready) returns the table or what is wrong.
#[derive(Clone, Debug)]
pub struct TableBuilder {
    name: String,
    columns: Vec<Column>,
    error: Option<TableError>,
}

impl ColumnUnit {
    /// Parses a unit: `in`, `min`, `$/yd`, `yd in`. A currency is always written `$` here, and shown with the
    /// workshop's own sign.
    pub fn read(heading: &str, text: &str) -> Result<Self, TableError> {
        let read = literal::read_unit(text, Reading::default());
        let expression =
            read.map_err(|error| TableError::UnknownUnit { heading: heading.to_owned(), error: Box::new(error) })?;
        Ok(Self::of(expression, text))
    }
}

impl Table {
    /// Begins a table. Its name is its file's name and, with blanks for `_`, its title.
    #[allow(clippy::new_ret_no_self, reason = "a table without columns is none; the builder makes it whole")]
    pub fn new(name: &str) -> TableBuilder {
        TableBuilder::named(name)
    }
}

impl TableBuilder {
    /// Begins without columns.
    pub(super) fn named(name: &str) -> Self {
        Self { name: name.to_owned(), columns: Vec::new(), error: None }
    }

    /// A column of texts.
    #[must_use]
    pub fn text(self, heading: &str) -> Self {
        self.column(heading, ColumnKind::Text)
    }

    /// A column of whole numbers.
    #[must_use]
    pub fn count(self, heading: &str) -> Self {
        self.column(heading, ColumnKind::Count)
    }

    /// A column of plain numbers.
    #[must_use]
    pub fn number(self, heading: &str) -> Self {
        self.column(heading, ColumnKind::Number)
    }

    /// A column of yes and no.
    #[must_use]
    pub fn flag(self, heading: &str) -> Self {
        self.column(heading, ColumnKind::Flag)
    }

    /// A column of money in the workshop's currency.
    #[must_use]
    pub fn money(self, heading: &str) -> Self {
        self.column(heading, ColumnKind::Money)
    }

    /// A column of values of any kind, and the heading under which a file gives their units.
    #[must_use]
    pub fn mixed(self, heading: &str, unit_heading: &str) -> Self {
        self.column(heading, ColumnKind::Mixed { unit_heading: unit_heading.to_owned() })
    }

    /// A column of lengths, shown in `in`, `yd`, `cm` …
    #[must_use]
    pub fn length(self, heading: &str, unit: &str) -> Self {
        self.measure(heading, unit, Some(Dimension::LENGTH))
    }

    /// A column of lengths, shown in whole yards or metres, rounded up; files give them in full.
    #[must_use]
    pub fn whole_length(self, heading: &str, unit: &str) -> Self {
        self.length(heading, unit).shown_whole()
    }

    /// A column of times, shown in whole minutes; files give them in full.
    #[must_use]
    pub fn whole_minutes(self, heading: &str) -> Self {
        self.time(heading, "min").shown_whole()
    }

    fn shown_whole(mut self) -> Self {
        if let Some(Column { kind: ColumnKind::Quantity(unit), .. }) = self.columns.last_mut() {
            *unit = unit.clone().shown_whole();
        }
        self
    }

    /// A column of areas, shown in `yd^2`, `m^2` …
    #[must_use]
    pub fn area(self, heading: &str, unit: &str) -> Self {
        self.measure(heading, unit, Some(Dimension::AREA))
    }

    /// A column of weights, shown in `oz`, `g` …
    #[must_use]
    pub fn mass(self, heading: &str, unit: &str) -> Self {
        self.measure(heading, unit, Some(Dimension::MASS))
    }

    /// A column of times, shown in `min`, `h min` …
    #[must_use]
    pub fn time(self, heading: &str, unit: &str) -> Self {
        self.measure(heading, unit, Some(Dimension::TIME))
    }

    /// A column of quantities in any unit: `$/yd`, `oz/yd^2`, `%`. Currencies are written `$` here.
    #[must_use]
    pub fn quantity(self, heading: &str, unit: &str) -> Self {
        self.measure(heading, unit, None)
    }

    /// Marks the last column as one that a narrow screen may leave out, where the others have room then.
    #[must_use]
    pub fn giving_way(mut self) -> Self {
        if let Some(column) = self.columns.last_mut() {
            column.gives_way = true;
        }
        self
    }

    /// A column of a given kind.
    #[must_use]
    pub fn column(mut self, heading: &str, kind: ColumnKind) -> Self {
        self.columns.push(Column { heading: heading.trim().to_owned(), kind, gives_way: false });
        self
    }

    /// Returns the empty table, or the first error in its columns.
    pub fn ready(self) -> Result<Table, TableError> {
        let table = Table::of(self.name, self.columns);
        if let Some(error) = self.error {
            return Err(error);
        }
        if table.columns().is_empty() {
            return Err(TableError::NoColumns { table: table.title() });
        }
        let mut seen: Vec<String> = Vec::new();
        for column in table.columns() {
            let unit_heading = match &column.kind {
                ColumnKind::Mixed { unit_heading } => Some(unit_heading),
                _ => None,
            };
            for heading in std::iter::once(&column.heading).chain(unit_heading) {
                if heading.trim().is_empty() {
                    return Err(TableError::NoHeading { table: table.title() });
                }
                if seen.contains(&normalized_heading(heading)) {
                    return Err(TableError::SameHeading { table: table.title(), heading: heading.clone() });
                }
                seen.push(normalized_heading(heading));
            }
        }
        Ok(table)
    }

    fn measure(mut self, heading: &str, unit: &str, needed: Option<Dimension>) -> Self {
        match ColumnUnit::read(heading, unit) {
            Ok(read) if needed.is_none_or(|needed| needed == read.dimension()) => {
                self.column(heading, ColumnKind::Quantity(read))
            }
            Ok(read) => {
                let (heading, unit) = (heading.to_owned(), unit.to_owned());
                let needed = needed.unwrap_or_default();
                let error = TableError::OtherUnit { heading, needed, unit, given: read.dimension() };
                self.error.get_or_insert(error);
                self
            }
            Err(error) => {
                self.error.get_or_insert(error);
                self
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Diagnose;

    #[track_caller]
    fn check(error: &TableError, shown: &str, hint: &str) {
        assert_eq!(error.to_string(), shown);
        assert_eq!(error.hint().unwrap_or_default(), hint);
    }

    #[test]
    fn columns_that_cannot_stand_are_refused() {
        let twice = Table::new("cut_list").text("mark from").length("Mark_from", "in").ready();
        check(
            &twice.unwrap_err(),
            "the table “cut list” has more than one column “Mark_from”",
            "give each column a name of its own",
        );
        let minutes = Table::new("cut_list").length("along", "min").ready();
        check(
            &minutes.unwrap_err(),
            "column “along” holds a length, and “min” measures a time",
            "give it a unit for a length",
        );
        let unknown = Table::new("cut_list").length("along", "furlong").ready();
        check(
            &unknown.unwrap_err(),
            "column “along”: “furlong” is not a unit",
            "units are in, ft, yd, nail, ell, mm, cm, m, km, mg, g, kg, oz, lb, s, min, h, month, year, tex, dtex, den, %, dozen, gross",
        );
        assert!(Table::new("cut_list").ready().is_err());
        assert!(Table::new("cut_list").text(" ").ready().is_err());
        assert!(Table::new("summary").mixed("value", "unit").text("unit").ready().is_err());
    }

    #[test]
    fn headings_carry_the_unit_that_is_counted() {
        let table = Table::new("needs").text("what").length("length", "yd in").quantity("price", "$/yd");
        let table = table.quantity("waste", "%").money("cost").ready().unwrap();
        let headings: Vec<String> = table.columns().iter().map(|column| column.heading_with_unit('£')).collect();
        assert_eq!(headings, ["what", "length (yd)", "price (£/yd)", "waste (%)", "cost (£)"]);
        assert_eq!(table.columns()[2].kind.example(), "$4.50/yd");
    }
}
