//! The buy list: how much of each material comes from the shelf, and how much must be bought for this order.
//!
//! Cloth, rolls and lengths of notions are bought as the cutting plan places whole pieces; for what is counted or wound
//! off, the shelf's stock is subtracted from the sum. Never here: the price of the order, which does not depend on the
//! shelf.

use super::job::{Job, preferred_unit, to_the_cent};
use super::lay::Lay;
use super::lay_error::LayError;
use super::needs::RequiredMaterial;
use super::notion_supply::{self, NotionSupply};
use super::small_cuts::SmallCuts;
use crate::cutting::{Planner, StockSource};
use crate::piece::GoodsKind;
use crate::plans;
use crate::quantity::{Dimension, Length, Liked, Money, Quantity, number};
use crate::report::listed;
use crate::table::{Cell, Table, TableError};
use crate::workshop::{Material, PriceError, PriceFor, SoldBy};
use std::collections::BTreeSet;

/// The amount of one material, and where it comes from.
#[derive(Debug)]
pub(super) struct Purchase {
    pub(super) name: String,
    needed: Quantity,
    shelf: Quantity,
    buy: Quantity,
    pub(super) bought_as: String,
    pub(super) price: Option<Money>,
    /// Whether something must be bought at an unknown price.
    pub(super) unpriced: bool,
    /// The marks of what is on the shelf and too short for what is cut.
    pub(super) too_short: Vec<String>,
    /// The marks of what is taken from the shelf.
    taken_from: Vec<String>,
    /// What else there is to say of it.
    notes: Vec<String>,
}

/// Everything the order takes, material by material.
#[derive(Debug)]
pub(super) struct Bill {
    rows: Vec<Purchase>,
    small_cuts: Vec<SmallCuts>,
    joined: Vec<String>,
}

impl Purchase {
    /// Returns whether anything of it must be bought.
    pub(super) fn is_bought(&self) -> bool {
        !is_nothing(self.buy)
    }

    fn all_notes(&self) -> Vec<String> {
        let from = (!self.taken_from.is_empty()).then(|| format!("from {}", listed(&self.taken_from)));
        from.into_iter().chain(self.notes.iter().cloned()).collect()
    }
}

impl Bill {
    /// Builds the bill from plans and needs. With `use_shelf`, stock of notions is used first; otherwise it counts as
    /// absent.
    pub(super) fn of(
        job: &Job<'_>,
        lays: &[Lay],
        required: &[RequiredMaterial<'_>],
        use_shelf: bool,
        planner: &Planner,
    ) -> Result<Self, LayError> {
        let mut rows: Vec<Purchase> = lays.iter().map(|lay| goods(job, lay)).collect();
        let (mut small_cuts, mut joined) = (Vec::new(), Vec::new());
        for required in required {
            let supply = notion_supply::supply(job, required, use_shelf, planner)?;
            rows.push(notion(job, required, &supply));
            small_cuts.extend(supply.cuts);
            joined.extend(supply.joined.iter().map(|words| format!("{}: {words}", required.name)));
        }
        Ok(Self { rows, small_cuts, joined })
    }

    /// Returns what the order takes, material by material.
    pub(super) fn purchases(&self) -> &[Purchase] {
        &self.rows
    }

    /// Returns which lengths of notions had to be joined, in words.
    pub(super) fn joined(&self) -> &[String] {
        &self.joined
    }

    /// Returns the cuts of notions by the length.
    pub(super) fn small_cuts(&self) -> &[SmallCuts] {
        &self.small_cuts
    }

    /// Returns the sum of all known prices.
    pub(super) fn paid(&self) -> Money {
        self.rows.iter().filter_map(|row| row.price).sum()
    }

    /// Returns the names of what must be bought at an unknown price.
    pub(super) fn unpriced(&self) -> Vec<&str> {
        self.rows.iter().filter(|row| row.unpriced).map(|row| row.name.as_str()).collect()
    }

    /// Builds the buy list, one row for each material.
    pub(super) fn table(&self) -> Result<Table, TableError> {
        let columns = Table::new("buy_list").text("material").mixed("needed", "needed unit");
        let columns = columns.mixed("from the shelf", "shelf unit").mixed("to buy", "buy unit");
        let mut table = columns.text("bought as").money("price").text("note").ready()?;
        for row in &self.rows {
            table.push(vec![
                row.name.as_str().into(),
                row.needed.into(),
                row.shelf.into(),
                row.buy.into(),
                row.bought_as.as_str().into(),
                row.price.map_or(Cell::Blank, Cell::from),
                row.all_notes().join("; ").into(),
            ])?;
        }
        Ok(table)
    }

    /// Builds the table of what must be bought; one row of words if nothing must.
    pub(super) fn to_buy(&self) -> Result<Table, TableError> {
        let columns = Table::new("to_buy").text("material").text("bought as").money("price");
        let mut table = columns.text("note").ready()?;
        for row in self.rows.iter().filter(|row| row.is_bought()) {
            let price = row.price.map_or(Cell::Blank, Cell::from);
            table.push(vec![
                row.name.as_str().into(),
                row.bought_as.as_str().into(),
                price,
                row.notes.join("; ").into(),
            ])?;
        }
        if table.is_empty() && !self.rows.is_empty() {
            table.push(vec!["nothing: the shelf has it all".into(), Cell::Blank, Cell::Blank, Cell::Blank])?;
        }
        Ok(table)
    }

    /// Builds the table of what is taken from the shelf.
    pub(super) fn taken_from_the_shelf(&self) -> Result<Table, TableError> {
        let columns = Table::new("from_the_shelf").text("material").mixed("taken", "unit").text("from");
        let mut table = columns.text("note").ready()?;
        for row in self.rows.iter().filter(|row| !is_nothing(row.shelf)) {
            // What is bought of it has the notes.
            let notes = if row.is_bought() { String::new() } else { row.notes.join("; ") };
            table.push(vec![
                row.name.as_str().into(),
                row.shelf.into(),
                listed(&row.taken_from).into(),
                notes.into(),
            ])?;
        }
        Ok(table)
    }
}

/// Returns what a plan takes of cloth or roll goods.
fn goods(job: &Job<'_>, lay: &Lay) -> Purchase {
    let material = &lay.material.material;
    let liked = preferred_unit(material);
    let (mut shelf, mut new) = (Length::ZERO, Length::ZERO);
    let mut as_sold = Length::ZERO;
    let mut shelf_names = BTreeSet::new();
    for stock in &lay.plan.uses {
        if matches!(stock.source, StockSource::Shelf { .. }) {
            shelf = shelf + lay.taken(stock);
            shelf_names.insert(stock.stock.as_str());
        } else {
            new = new + lay.taken(stock);
            as_sold = as_sold + sold_off(material, lay.material.listed, lay.taken(stock));
        }
    }
    let mut notes = Vec::new();
    let too_short = plans::too_short(&lay.report(None), &lay.stock);
    if !too_short.is_empty() {
        notes.push(format!("too short on the shelf: {}", listed(&too_short)));
    }
    if lay.plan.uses.iter().any(|stock| lay.is_washed_for(stock)) {
        notes.push("before washing".to_owned());
    }
    let put_ups = lay.plan.put_ups_bought();
    let by_put_up = !matches!(material.sold_by, SoldBy::Step(_));
    let (buy, bought_as, price) = if !new.is_positive() {
        (Length::ZERO, "nothing".to_owned(), None)
    } else if let (true, Some(put_up)) = (by_put_up, material.put_up) {
        let count = number::from_whole(put_ups);
        let named = material.kind.cut_as().unwrap_or(GoodsKind::Cloth).put_up_name();
        let plural = if put_ups == 1 { "" } else { "s" };
        let words = format!("{put_ups} {named}{plural} of {}", job.format_length(put_up));
        let amount = match material.price_for {
            PriceFor::Length(_) => Quantity::from(put_up * count),
            PriceFor::Each | PriceFor::PutUp => Quantity::number(count),
        };
        (put_up * count, words, Some(material.list_price(amount)))
    } else {
        (as_sold, job.format_length(as_sold.liking(liked)), Some(material.list_price(as_sold.into())))
    };
    with_price(
        Purchase {
            name: material.name.clone(),
            needed: (shelf + new).liking(liked).into(),
            shelf: shelf.liking(liked).into(),
            buy: buy.liking(liked).into(),
            bought_as,
            price: None,
            unpriced: false,
            too_short,
            taken_from: shelf_names.into_iter().map(str::to_owned).collect(),
            notes,
        },
        price,
    )
}

/// Rounds a length up as it is sold. Unlisted goods count as sold by the exact length.
fn sold_off(material: &Material, listed: bool, length: Length) -> Length {
    let sold = listed.then(|| material.as_sold(length.into()).ok().and_then(|sold| Length::try_from(sold).ok()));
    sold.flatten().unwrap_or(length)
}

/// Returns what the order takes of a notion or thread.
fn notion(job: &Job<'_>, required: &RequiredMaterial<'_>, supply: &NotionSupply) -> Purchase {
    let (buy, bought_as, price) = match required.material {
        _ if is_nothing(supply.buy) => (supply.buy, "nothing".to_owned(), None),
        None => {
            let error = PriceError::NoPrice { material: required.name.clone() };
            let amount = if required.includes_thread { job.in_whole_units(supply.buy) } else { supply.buy };
            (supply.buy, job.sentence_style.show(amount), Some(Err(error)))
        }
        Some(material) if !required.listed => {
            (supply.buy, job.sentence_style.show(supply.buy), Some(material.list_price(supply.buy)))
        }
        Some(material) => match material.as_sold(supply.buy) {
            Ok(sold) => (sold, sold_words(job, material, sold), Some(material.list_price(sold))),
            Err(error) => (supply.buy, job.sentence_style.show(supply.buy), Some(Err(error))),
        },
    };
    let mut notes = Vec::new();
    if !supply.too_short.is_empty() {
        notes.push(format!("too short on the shelf: {}", listed(&supply.too_short)));
    }
    notes.extend(supply.joined.iter().cloned());
    let shown = |amount: Quantity| if required.includes_thread { in_whole_lengths(job, amount) } else { amount };
    let purchase = Purchase {
        name: required.name.clone(),
        needed: shown(supply.needed),
        shelf: shown(supply.shelf),
        buy: shown(buy),
        bought_as,
        price: None,
        unpriced: false,
        too_short: supply.too_short.clone(),
        taken_from: supply.taken_from.clone(),
        notes,
    };
    with_price(purchase, price)
}

/// Returns an amount of thread, to be shown in whole yards or metres of the order's tape.
pub(super) fn in_whole_lengths(job: &Job<'_>, thread: Quantity) -> Quantity {
    if thread.dimension() == Dimension::LENGTH {
        thread.liking(Liked { whole: true, ..Liked::unit(job.large_unit()) })
    } else {
        thread
    }
}

/// Returns whether an amount is less than any tape or count can show.
fn is_nothing(amount: Quantity) -> bool {
    amount.steps() <= amount.dimension().noise_floor()
}

fn sold_words(job: &Job<'_>, material: &Material, sold: Quantity) -> String {
    let put_ups = match (material.sold_by, material.put_up, Length::try_from(sold)) {
        (SoldBy::PutUp, Some(put_up), Ok(length)) => number::whole(length / put_up).map(|count| (count, put_up)),
        _ => None,
    };
    match put_ups {
        Some((count, put_up)) => format!("{count} of {}", job.format_length(put_up)),
        None if sold.dimension() == Dimension::LENGTH => job.sentence_style.show(sold.liking(preferred_unit(material))),
        None => job.sentence_style.show(sold),
    }
}

/// Adds the price to the cent, or a note on why there is none.
fn with_price(purchase: Purchase, price: Option<Result<Money, PriceError>>) -> Purchase {
    match price {
        None => purchase,
        Some(Ok(price)) => Purchase { price: Some(to_the_cent(price)), ..purchase },
        Some(Err(error)) => {
            let mut notes = purchase.notes;
            notes.push(no_price_words(&error));
            Purchase { unpriced: true, notes, ..purchase }
        }
    }
}

/// Returns why there is no price, in a few words for a note beside the name.
pub(super) fn no_price_words(error: &PriceError) -> String {
    match error {
        PriceError::NoPrice { .. } => "no price in your list".to_owned(),
        PriceError::NoPutUp { .. } => "sold by the put-up, and its put-up is not known".to_owned(),
        other => other.to_string(),
    }
}
