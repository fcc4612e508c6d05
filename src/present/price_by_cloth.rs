//! The first screen of an order whose cloth is not chosen: its price by width and price of the cloth.
//!
//! Never here: which widths and prices are tried.

use super::first_screen::laid_out_to_fit;
use crate::plans::pluralized;
use crate::quantity::{Liked, Money, Style, Time, Unit};
use crate::report::wrap;
use crate::ticket::{LayError, OverviewRow, WorkshopOrder, overview};

/// One width of cloth that was tried.
pub(crate) struct TriedWidth {
    /// As it is typed: `48 in`.
    pub(crate) width: String,
    /// The order at each of the prices; empty if it cannot be made of this width.
    pub(crate) orders: Vec<WorkshopOrder>,
}

/// Returns the lines of the screen; `None` if the order cannot be made of any width. `prices` has the prices as they
/// are typed, empty if the cloth has none.
///
/// # Errors
/// The work was stopped, or an amount is too large.
pub(crate) fn price_by_cloth(
    tried: &[TriedWidth],
    prices: &[String],
    next: &[String],
    style: &Style,
    width: usize,
) -> Result<Option<Vec<String>>, LayError> {
    let Some(first) = tried.iter().find_map(|tried| tried.orders.first()) else { return Ok(None) };
    let mut rows = overview(first, "")?;
    rows.retain(|row| !row.goes_by_cloth);
    let head = rows.iter().take_while(|row| row.label.is_empty()).count();
    let say = OverviewRow { label: "SAY", lines: vec![said(tried, style)?], ..OverviewRow::default() };
    let cloth = by_width(tried, prices, style)?.into_iter().map(|line| vec![line]).collect();
    rows.insert(head, OverviewRow { label: "CLOTH", lines: cloth, ..OverviewRow::default() });
    rows.insert(head, say);
    rows.push(OverviewRow { label: "NEXT", lines: vec![next.to_vec()], ..OverviewRow::default() });
    Ok(Some(laid_out_to_fit(&mut rows, width)))
}

/// From the lowest to the highest price, deposit and time.
fn said(tried: &[TriedWidth], style: &Style) -> Result<Vec<String>, LayError> {
    let mut prices: Vec<Money> = Vec::new();
    let mut deposits: Vec<Money> = Vec::new();
    let mut times: Vec<Time> = Vec::new();
    for order in tried.iter().flat_map(|tried| &tried.orders) {
        prices.extend(order.price()?);
        deposits.extend(order.deposit()?);
        times.extend(order.total_minutes()?);
    }
    let money = |money: &Money| style.show((*money).into());
    let span = |list: &mut Vec<Money>| -> Option<String> {
        list.sort_by(|one, other| one.steps().total_cmp(&other.steps()));
        let (low, high) = (list.first()?, list.last()?);
        Some(if low == high { money(low) } else { format!("{} to {}", money(low), money(high)) })
    };
    let mut parts = vec![span(&mut prices).unwrap_or_else(|| "no price: give the cloth one".to_owned())];
    parts.extend(span(&mut deposits).map(|deposit| format!("deposit {deposit}")));
    times.sort_by(|one, other| one.steps().total_cmp(&other.steps()));
    let clock = Liked { compound: true, ..Liked::unit(Unit::Hour) };
    let time = |time: &Time| Style { plain: true, ..*style }.show(time.liking(clock).into());
    parts.extend(match (times.first(), times.last()) {
        (Some(low), Some(high)) if low == high => Some(format!("work {}", time(low))),
        (Some(low), Some(high)) => Some(format!("work {} to {}", time(low), time(high))),
        _ => None,
    });
    Ok(parts)
}

/// A line for each run of widths that cost the same, below a line of prices.
fn by_width(tried: &[TriedWidth], prices: &[String], style: &Style) -> Result<Vec<String>, LayError> {
    let mut runs: Vec<(usize, usize, Vec<String>)> = Vec::new();
    for (at, tried) in tried.iter().enumerate() {
        let mut cells: Vec<String> = Vec::new();
        for order in &tried.orders {
            cells.push(order.price()?.map_or_else(|| "–".to_owned(), |price| style.show(price.into())));
        }
        let pieces = tried.orders.first().map(|order| pluralized(order.piece_count(), "piece"));
        cells.push(pieces.unwrap_or_else(|| "cannot be made of it".to_owned()));
        match runs.last_mut() {
            Some((_, to, known)) if *known == cells => *to = at,
            _ => runs.push((at, at, cells)),
        }
    }
    let name = |at: usize| tried.get(at).map_or("", |tried| tried.width.as_str());
    let last = tried.len().saturating_sub(1);
    let label = |from: usize, to: usize| match (from, to) {
        _ if last == 0 => name(0).to_owned(),
        (0, to) if to == last => "any width".to_owned(),
        (0, to) => format!("{} or less", name(to)),
        (from, to) if to == last => format!("{} or more", name(from)),
        (from, to) if from == to => name(from).to_owned(),
        (from, to) => format!("{} to {}", name(from), name(to)),
    };
    let head: Vec<String> = prices.to_vec();
    let mut lines = vec![(String::new(), head)];
    lines.extend(runs.into_iter().map(|(from, to, cells)| (label(from, to), cells)));
    let widest = lines.iter().map(|(label, _)| wrap::width(label)).max().unwrap_or(0);
    let cell = |(at, cell): (usize, &String)| {
        if at < prices.len() { wrap::pad(cell, 11, true) } else { format!("   {cell}") }
    };
    let line = |(label, cells): &(String, Vec<String>)| {
        let cells: String = cells.iter().enumerate().map(cell).collect();
        format!("{}{cells}", wrap::pad(label, widest, false)).trim_end().to_owned()
    };
    Ok(lines.iter().map(line).collect())
}
