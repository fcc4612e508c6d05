//! The cost and price of an order at standard cost: the pieces on endless stock plus the workshop's waste, at list
//! price, and the minutes at the workshop's rates.
//!
//! Stock on the shelf never changes the price; what it saves is shown beside the price. Every line is rounded to the
//! cent, and each total is the sum of the lines above it. Never here: placing pieces, timing work.

use super::buying::{Bill, join_names, no_price_words};
use super::job::{Job, preferred_unit, to_the_cent};
use super::lay::Lay;
use super::minutes::OrderMinutes;
use super::needs::RequiredMaterial;
use super::stitching::{Stitching, THREAD_WASTE};
use crate::quantity::{Length, Liked, Money, Quantity, Unit, number};
use crate::table::{Table, TableError};
use crate::textile::{labour, price};
use crate::workshop::{Material, Overhead, PriceError, PriceFor};

/// The cost and price of an order.
#[derive(Debug)]
pub(super) struct OrderPrice {
    /// The price of the order; `None` if nothing in it has a price.
    pub(super) price: Option<Money>,
    /// The price of one garment.
    pub(super) each: Option<Money>,
    /// The lines from materials to the price, and what the price leaves out.
    sheet: Sheet,
}

/// Which sum a line belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// Part of the cost.
    Cost,
    /// Part of the price, on top of the cost.
    Price,
    /// The sum of the lines above it.
    Total,
    /// Shown beside the price, and not part of it.
    Info,
}

impl Part {
    fn word(self) -> &'static str {
        match self {
            Self::Cost => "cost",
            Self::Price => "price",
            Self::Total => "total",
            Self::Info => "beside",
        }
    }
}

#[derive(Clone, Debug)]
struct Line {
    part: Part,
    name: String,
    amount: Option<Quantity>,
    money: Option<Money>,
    note: String,
}

/// What a price is calculated from; the shelf is not part of it.
pub(super) struct Basis<'a> {
    /// The order's pieces on endless stock.
    pub(super) standard: &'a [Lay],
    /// The order's notions and thread.
    pub(super) required: &'a [RequiredMaterial<'a>],
    pub(super) stitching: &'a Stitching,
    pub(super) minutes: &'a OrderMinutes,
}

/// What the workshop must buy for the order.
pub(super) struct Purchases<'a> {
    /// With stock on the shelf used first.
    pub(super) bill: &'a Bill,
    /// As if the shelf were empty.
    pub(super) without_shelf: &'a Bill,
}

#[derive(Clone, Debug, Default)]
struct Sheet {
    lines: Vec<Line>,
    left_out: Vec<String>,
}

/// Calculates the price of an order and the lines that lead up to it.
pub(super) fn order_price(job: &Job<'_>, basis: &Basis<'_>) -> OrderPrice {
    let mut sheet = Sheet::default();
    sheet.materials(job, basis);
    if !job.ticket.work.is_empty() {
        sheet.labour(job, basis.minutes);
    }
    sheet.overhead(job, basis.minutes);
    let cost = sheet.sum(Part::Cost);
    let price = cost.map(|cost| {
        sheet.push(Part::Total, "cost", None, Some(cost), String::new());
        sheet.price(job, cost)
    });
    let each = price.filter(|_| job.ticket.garments > 1);
    let each = each.map(|price| to_the_cent(price / number::from_whole(job.ticket.garments)));
    if let Some(each) = each {
        sheet.push(Part::Total, "price for one garment", None, Some(each), format!("of {}", job.ticket.garments));
    }
    OrderPrice { price, each: each.or(price), sheet }
}

impl OrderPrice {
    /// Returns the names of what the price leaves out because its cost is unknown.
    pub(super) fn left_out(&self) -> &[String] {
        &self.sheet.left_out
    }

    /// Returns the cost table: the lines up to the price, and those beside it.
    pub(super) fn table(&self, job: &Job<'_>, purchases: &Purchases<'_>) -> Result<Table, TableError> {
        let mut sheet = self.sheet.clone();
        sheet.add_info(job, purchases);
        sheet.table()
    }
}

impl Sheet {
    fn push(&mut self, part: Part, name: &str, amount: Option<Quantity>, money: Option<Money>, note: String) {
        let money = money.map(to_the_cent);
        self.lines.push(Line { part, name: name.to_owned(), amount, money, note });
    }

    /// Adds a cost line at list price; without a price, its name is among what the price leaves out.
    fn at_list_price(&mut self, name: &str, amount: Quantity, price: Result<Money, PriceError>, note: &str) {
        match price {
            Ok(price) => self.push(Part::Cost, name, Some(amount), Some(price), note.to_owned()),
            Err(error) => {
                self.push(Part::Cost, name, Some(amount), None, no_price_words(&error));
                self.leave_out(name.to_owned());
            }
        }
    }

    fn leave_out(&mut self, name: String) {
        if !self.left_out.contains(&name) {
            self.left_out.push(name);
        }
    }

    /// Returns the sum of the lines of a part; `None` if none of them has a price.
    fn sum(&self, part: Part) -> Option<Money> {
        let mut priced = self.lines.iter().filter(|line| line.part == part).filter_map(|line| line.money).peekable();
        priced.peek()?;
        Some(priced.sum())
    }

    fn materials(&mut self, job: &Job<'_>, basis: &Basis<'_>) {
        let waste = job.workshop.rates.waste;
        for lay in basis.standard {
            let material = &lay.material.material;
            let lead: Length = lay.plan.uses.iter().map(|stock| stock.lead).sum();
            let laid = (lay.plan.length_used + lead).liking(preferred_unit(material));
            let charged = laid * (1.0 + waste.unwrap_or(0.0));
            let wasted =
                waste.map_or("no waste is set".to_owned(), |waste| format!("{} waste", job.format_share(waste)));
            let note = format!("{} laid, {wasted}{}", job.format_length(laid), at_price(job, material));
            self.at_list_price(&material.name, charged.into(), material.list_price(charged.into()), &note);
        }
        for required in basis.required {
            let Some(material) = required.material else {
                let error = PriceError::NoPrice { material: required.name.clone() };
                self.at_list_price(&required.name, required.amount, Err(error), "");
                continue;
            };
            let waste = if required.includes_thread {
                format!("{} for ends and breaks in it", job.format_share(THREAD_WASTE))
            } else {
                String::new()
            };
            let note = format!("{waste}{}", at_price(job, material));
            let note = note.trim_start_matches(", ");
            self.at_list_price(&required.name, required.amount, material.list_price(required.amount), note);
        }
        for class in &basis.stitching.unknown {
            self.leave_out(format!("thread of stitch class {class}"));
        }
    }

    fn labour(&mut self, job: &Job<'_>, minutes: &OrderMinutes) {
        let wage = job.workshop.rates.wage;
        let paid = wage.filter(|_| minutes.any_known);
        let labour = paid.and_then(|wage| labour::labour_cost(minutes.total, wage).ok());
        let note = match wage {
            _ if !minutes.any_known => "no rate".to_owned(),
            None => "no wage is set".to_owned(),
            Some(wage) => format!("at {}", job.sentence_style.show(wage)),
        };
        self.push(Part::Cost, "labour", worked(minutes), labour, note);
        if labour.is_none() {
            self.leave_out("labour".to_owned());
        } else {
            for operation in &minutes.unknown {
                self.leave_out(format!("the minutes of “{operation}”"));
            }
        }
    }

    fn overhead(&mut self, job: &Job<'_>, minutes: &OrderMinutes) {
        match job.workshop.rates.overhead {
            Some(Overhead::ByTime(rate)) if minutes.any_known => {
                let overhead = labour::labour_cost(minutes.total, rate).ok();
                self.push(
                    Part::Cost,
                    "overhead",
                    worked(minutes),
                    overhead,
                    format!("at {}", job.sentence_style.show(rate)),
                );
            }
            Some(Overhead::Share(share)) => {
                if let Some(so_far) = self.sum(Part::Cost) {
                    let note = format!("{} of materials and labour", job.format_share(share));
                    self.push(Part::Cost, "overhead", None, Some(so_far * share), note);
                }
            }
            _ => {}
        }
    }

    /// Adds the lines from the cost up to the final price, and returns that price.
    fn price(&mut self, job: &Job<'_>, cost: Money) -> Money {
        let (rates, settings) = (&job.workshop.rates, &job.workshop.settings);
        let mut price_so_far = cost;
        if let Some(share) = rates.mark_up {
            let marked_up = price::marked_up(cost, share).unwrap_or(cost);
            price_so_far =
                self.raise(price_so_far, marked_up, "mark-up", format!("{} of the cost", job.format_share(share)));
        }
        // The fee is a share of the final price, so that is calculated first and the lines that lead up to it
        // afterwards: the fee also takes its share of what a lowest price or a price ending adds.
        let fee = rates.fee.unwrap_or(0.0);
        let net = price_so_far;
        let grossed_up = net + to_the_cent(price::grossed_up(net, fee).unwrap_or(net) - net);
        let lowest = rates.minimum.map_or(grossed_up, |least| grossed_up.most(least));
        let ended = settings.with_ending(lowest);
        let taken = if ended > grossed_up { to_the_cent(ended * fee) } else { grossed_up - net };
        if rates.fee.is_some() {
            price_so_far = self.raise(
                price_so_far,
                net + taken,
                "fee",
                format!("{} of the price goes to others", job.format_share(fee)),
            );
        }
        if lowest > grossed_up {
            let note = format!("no order is priced below {}", job.format_money(lowest));
            let kept = if ended > lowest { price_so_far + (lowest - grossed_up) * (1.0 - fee) } else { ended };
            price_so_far = self.raise(price_so_far, kept, "up to the lowest price", note);
        }
        if let Some(ending) = settings.price_ending.filter(|_| ended > lowest) {
            let note = format!("prices end in {}", job.format_money(ending));
            price_so_far = self.raise(price_so_far, ended, "up to the price ending", note);
        }
        let note = if self.left_out.is_empty() { String::new() } else { self.without_words() };
        self.push(Part::Total, "price", None, Some(price_so_far), note);
        price_so_far
    }

    /// Adds the line that raises one price to the next, and returns the next price to the cent.
    fn raise(&mut self, from: Money, to: Money, name: &str, note: String) -> Money {
        let more = to_the_cent(to - from);
        self.push(Part::Price, name, None, Some(more), note);
        from + more
    }

    fn add_info(&mut self, job: &Job<'_>, purchases: &Purchases<'_>) {
        if !self.left_out.is_empty() {
            let words = self.without_words();
            self.push(Part::Info, &words, None, None, "nobody has said what it costs".to_owned());
        }
        let paid = purchases.bill.paid();
        let unpriced = purchases.bill.unpriced();
        let note = match unpriced.as_slice() {
            [] => "what this order must buy, whole put-ups and selling steps; not in the price".to_owned(),
            missing => format!("without {}; not in the price", join_names(missing)),
        };
        if paid.is_positive() || !unpriced.is_empty() {
            let known = (paid.is_positive() || unpriced.is_empty()).then_some(paid);
            self.push(Part::Info, "bought for this order", None, known, note);
        }
        let spared = purchases.without_shelf.paid() - paid;
        if spared.is_positive() && unpriced == purchases.without_shelf.unpriced() {
            let note =
                format!("with an empty shelf {} would be spent", job.format_money(purchases.without_shelf.paid()));
            self.push(Part::Info, "spared by the shelf", None, Some(spared), note);
        }
    }

    fn without_words(&self) -> String {
        format!("without {}", self.left_out.join(", "))
    }

    fn table(&self) -> Result<Table, TableError> {
        let columns = Table::new("cost").text("part").text("line").mixed("amount", "unit").money("money");
        let mut table = columns.text("note").ready()?;
        for line in &self.lines {
            table.push(vec![
                line.part.word().into(),
                line.name.as_str().into(),
                line.amount.into(),
                line.money.into(),
                line.note.as_str().into(),
            ])?;
        }
        Ok(table)
    }
}

/// Returns the time of the order in hours and minutes; `None` if none of it is known.
fn worked(minutes: &OrderMinutes) -> Option<Quantity> {
    let clock = Liked { compound: true, ..Liked::unit(Unit::Minute) };
    minutes.any_known.then(|| Quantity::from(minutes.total).liking(clock))
}

/// Returns `, at $6.50 for 25 yd`; empty if there is no price.
fn at_price(job: &Job<'_>, material: &Material) -> String {
    let Some(price) = material.price else { return String::new() };
    let per = |length: Length| format!(" for {}", job.format_length(length));
    let quantity_text = match (material.price_for, material.put_up) {
        (PriceFor::Length(length), _) => per(length),
        (PriceFor::PutUp, Some(put_up)) => per(put_up),
        (PriceFor::PutUp, None) => " a put-up".to_owned(),
        (PriceFor::Each, _) => " each".to_owned(),
    };
    format!(", at {}{quantity_text}", job.format_money(price))
}
