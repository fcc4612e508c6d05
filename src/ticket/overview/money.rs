//! The money of an order: its price, what that leaves out, what to buy, and where the price goes.
//!
//! Never here: reckoning any of it.

use super::OverviewRow;
use crate::quantity::Money;
use crate::quantity::rounding::whole_per_cent;
use crate::ticket::cost::PricePart;
use crate::ticket::lay_error::LayError;
use crate::ticket::workshop_order::WorkshopOrder;

/// The price with the deposit, the time and the cost.
pub(super) fn price(order: &WorkshopOrder) -> Result<OverviewRow, LayError> {
    let job = order.job();
    let money = |money: Money| job.format_money(money);
    let mut parts = Vec::new();
    match order.price()? {
        Some(price) => {
            let each = order.price_each()?.filter(|_| order.ticket().garments > 1);
            let each = each.map(|each| format!(", {} each", money(each))).unwrap_or_default();
            parts.push(format!("{}{each}", money(price)));
        }
        None => parts.push("no price: nothing in it has one".to_owned()),
    }
    parts.extend(order.deposit()?.map(|deposit| format!("deposit {}", money(deposit))));
    parts.push(format!("work {}", order.minutes()?.summary(&job.sentence_style)));
    parts.extend(order.order_price()?.cost.map(|cost| format!("cost {}", money(cost))));
    Ok(OverviewRow::of("PRICE", parts))
}

/// What the price leaves out, each with the reason.
pub(super) fn left_out(order: &WorkshopOrder) -> Result<OverviewRow, LayError> {
    let left_out = order.order_price()?.reasons_left_out().iter();
    Ok(OverviewRow::of("WITHOUT", left_out.map(|left_out| format!("{} ({})", left_out.name, left_out.why)).collect()))
}

/// What must be bought, each with its price, and the sum of several prices.
pub(super) fn to_buy(order: &WorkshopOrder) -> Result<OverviewRow, LayError> {
    let job = order.job();
    let bought: Vec<_> = order.bill()?.purchases().iter().filter(|purchase| purchase.is_bought()).collect();
    if bought.is_empty() {
        return Ok(OverviewRow::of("BUY", vec!["nothing: the shelf has it all".to_owned()]));
    }
    let mut parts: Vec<String> = Vec::new();
    for purchase in &bought {
        let price = match purchase.price {
            Some(price) => job.format_money(price),
            None => "(no price in your list)".to_owned(),
        };
        parts.push(format!("{} {} {price}", purchase.name, purchase.bought_as));
    }
    let paid = order.bill()?.paid();
    if bought.iter().filter(|purchase| purchase.price.is_some()).count() > 1 {
        parts.push(format!("in all {}", job.format_money(paid)));
    }
    Ok(OverviewRow::of("BUY", parts))
}

/// Where the price goes, in whole per cent that add up to 100; what is under one per cent is put together. Where room
/// is short, the two largest parts, then nothing.
pub(super) fn goes_to(order: &WorkshopOrder) -> Result<OverviewRow, LayError> {
    let parts = order.order_price()?.parts();
    let weights: Vec<f64> = parts.iter().map(|(_, money)| money.steps()).collect();
    let shares: Vec<(PricePart, i64)> = parts.iter().map(|(part, _)| *part).zip(whole_per_cent(&weights)).collect();
    let told = |most: usize| {
        let is_told =
            |at: usize, (part, share): &(PricePart, i64)| at < most && *share >= 1 && *part != PricePart::RoundingUp;
        let mut words: Vec<String> = Vec::new();
        let mut other = 0;
        for (at, part) in shares.iter().enumerate() {
            if is_told(at, part) {
                words.push(format!("{} {} %", part.0.words(), part.1));
            } else {
                other += part.1;
            }
        }
        words.extend((other > 0).then(|| format!("other {other} %")));
        words
    };
    Ok(OverviewRow { shorter: vec![vec![told(2)], Vec::new()], ..OverviewRow::of("GOES TO", told(usize::MAX)) })
}
