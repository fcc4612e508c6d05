//! Charts: where the money, the time and the cloth of an order go, and the figures of a table.
//!
//! Never here: how a bar is drawn.

use crate::quantity::rounding::whole_per_cent;
use crate::quantity::{Dimension, Liked, Quantity, Style, Time, Unit, number};
use crate::report::{Bar, Chart};
use crate::table::{Cell, Table};
use crate::ticket::{LayError, WorkshopOrder};
use std::collections::BTreeSet;

/// Returns the charts of an order; those with nothing to show are left out.
///
/// # Errors
/// The work was stopped, or an amount is too large.
pub(crate) fn charts_of_order(order: &WorkshopOrder, style: &Style) -> Result<Vec<Chart>, LayError> {
    let parts = order.price_parts()?;
    let money: Vec<(String, Quantity)> =
        parts.into_iter().map(|(part, money)| (part.words().to_owned(), money.into())).collect();
    let minutes: Vec<(String, Quantity)> =
        order.time_parts()?.into_iter().map(|(operation, time)| (operation, in_whole_minutes(time))).collect();
    let mut charts = vec![
        Chart { heading: "where the price goes".to_owned(), bars: bars_of(money, style) },
        Chart { heading: "where the time goes".to_owned(), bars: bars_of(minutes, style) },
    ];
    for (name, shares) in order.goods_shares()? {
        let shares = [("in the pieces", shares.in_pieces), ("kept", shares.kept), ("waste", shares.wasted)];
        let whole = whole_per_cent(&shares.map(|(_, share)| share));
        let bars = shares.into_iter().zip(whole).filter(|(_, whole)| *whole > 0);
        let bars = bars.map(|((label, share), whole)| Bar {
            label: label.to_owned(),
            figure: format!("{whole} %"),
            size: share,
            remark: String::new(),
        });
        charts.push(Chart { heading: format!("where the {name} goes"), bars: bars.collect() });
    }
    charts.retain(|chart| !chart.bars.is_empty());
    Ok(charts)
}

fn in_whole_minutes(time: Time) -> Quantity {
    Quantity::from(time).liking(Liked { whole: true, ..Liked::unit(Unit::Minute) })
}

/// Bars of amounts that add up to a whole, each with its share in per cent.
fn bars_of(amounts: Vec<(String, Quantity)>, style: &Style) -> Vec<Bar> {
    let sizes: Vec<f64> = amounts.iter().map(|(_, amount)| amount.steps()).collect();
    let shares = whole_per_cent(&sizes);
    let bars = amounts.into_iter().zip(shares);
    bars.map(|((label, amount), share)| Bar {
        label,
        figure: format!("{}  {share:>3} %", style.show(amount)),
        size: amount.steps(),
        remark: String::new(),
    })
    .collect()
}

/// Returns a chart for each column of a table that has figures of one kind, not all zero. The first column has the
/// labels; the first two where the first does not tell the rows apart, as of two things that were varied. Texts behind
/// the figures are the remarks. `None` if there is nothing to draw.
pub(crate) fn charts_of_table(table: &Table, style: &Style) -> Option<Vec<Chart>> {
    let columns = table.columns();
    let drawable = |from: usize| -> Vec<usize> { (from..columns.len()).filter(|at| is_drawable(table, *at)).collect() };
    let firsts: BTreeSet<String> =
        table.rows().iter().filter_map(|row| row.first()).map(|cell| words(cell, style)).collect();
    let is_grid = firsts.len() < table.len() && !drawable(2).is_empty();
    let labels = if is_grid { 2 } else { 1 };
    let figures = drawable(labels);
    let texts = (figures.iter().max().map_or(columns.len(), |last| last + 1))..columns.len();
    let shown = |row: &[Cell], at: usize| row.get(at).map(|cell| words(cell, style)).unwrap_or_default();
    let remark = |row: &[Cell]| {
        let parts = texts.clone().filter_map(|at| match row.get(at) {
            Some(Cell::Text(text)) if !text.is_empty() => Some(text.as_str()),
            _ => None,
        });
        parts.collect::<Vec<_>>().join("; ")
    };
    let heading_of = |at: usize| columns.get(at).map(|column| column.heading.clone()).unwrap_or_default();
    let charts = figures.iter().map(|at| {
        let bars = table.rows().iter().map(|row| Bar {
            label: (0..labels).map(|at| shown(row, at)).collect::<Vec<_>>().join(", "),
            figure: shown(row, *at),
            size: row.get(*at).and_then(size_of).unwrap_or(0.0),
            remark: remark(row),
        });
        let by = (0..labels).map(heading_of).collect::<Vec<_>>().join(" and ");
        Chart { heading: format!("{}, by {by}", heading_of(*at)), bars: bars.collect() }
    });
    let charts: Vec<Chart> = charts.collect();
    (!charts.is_empty()).then_some(charts)
}

/// Whether the figures of a column can be compared by their length: all of one dimension, and one above zero.
fn is_drawable(table: &Table, at: usize) -> bool {
    let cells = || table.rows().iter().filter_map(|row| row.get(at));
    let dimensions: BTreeSet<Option<Dimension>> = cells()
        .filter(|cell| size_of(cell).is_some())
        .map(|cell| if let Cell::Quantity(quantity) = cell { Some(quantity.dimension()) } else { None })
        .collect();
    dimensions.len() == 1 && cells().filter_map(size_of).any(|size| size > 0.0)
}

fn size_of(cell: &Cell) -> Option<f64> {
    match cell {
        Cell::Count(count) => Some(number::from_whole(*count)),
        Cell::Number(number) => Some(*number),
        Cell::Quantity(quantity) => Some(quantity.steps()),
        _ => None,
    }
}

fn words(cell: &Cell, style: &Style) -> String {
    match cell {
        Cell::Text(text) => text.clone(),
        Cell::Count(count) => style.show_number(number::from_whole(*count)),
        Cell::Number(number) => style.show_number(*number),
        Cell::Quantity(quantity) => style.show(*quantity),
        Cell::Flag(flag) => if *flag { "yes" } else { "no" }.to_owned(),
        Cell::Blank => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_figures_of_one_kind_are_drawn() {
        let columns = Table::new("cost").text("line").mixed("amount", "unit").money("money").money("free").text("note");
        let mut table = columns.ready().unwrap();
        let (money, free) = (Quantity::money(3.0), Quantity::money(0.0));
        for (line, amount, note) in
            [("lawn", Quantity::of(1.0, Unit::Yard), "4 %"), ("labour", Quantity::of(9.0, Unit::Minute), "")]
        {
            table.push(vec![line.into(), amount.into(), money.into(), free.into(), note.into()]).unwrap();
        }
        // Yards beside minutes and a column of nothing are no bars.
        let charts = charts_of_table(&table, &Style::default()).unwrap();
        let headings: Vec<&str> = charts.iter().map(|chart| chart.heading.as_str()).collect();
        assert_eq!(headings, ["money, by line"]);
        assert_eq!((charts[0].bars[0].remark.as_str(), charts[0].bars[1].figure.as_str()), ("4 %", "$3.00"));
    }

    #[test]
    fn of_two_things_that_were_varied_the_result_alone_is_drawn() {
        let mut table = Table::new("what_if").count("gores").money("wage").money("price").text("jump").ready().unwrap();
        for (gores, wage, price) in [(4, 20.0, 40.0), (4, 25.0, 48.0), (6, 20.0, 44.0), (6, 25.0, 53.0)] {
            let money = [wage, price].map(|money| Cell::from(Quantity::money(money)));
            let [wage, price] = money;
            table.push(vec![gores.into(), wage, price, "".into()]).unwrap();
        }
        let charts = charts_of_table(&table, &Style::default()).unwrap();
        assert_eq!(charts.len(), 1);
        assert_eq!(charts[0].heading, "price, by gores and wage");
        assert_eq!((charts[0].bars[2].label.as_str(), charts[0].bars[2].figure.as_str()), ("6, $20.00", "$44.00"));
    }
}
