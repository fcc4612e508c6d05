//! The cost and price of an order at standard cost: the pieces on endless stock plus the workshop's waste, at list
//! price, and the minutes at the workshop's rates.
//!
//! Stock on the shelf never changes the price; what it saves is in a table of its own. Every line is rounded to the
//! cent. Each of the three tables adds up to one total: the cost lines to the cost, the lines from the cost to the price
//! to the price, what is not in the price to what an empty shelf would have made the workshop spend. A total is no row
//! of the column it is the sum of; all totals are in a table without such a column. Never here: placing pieces, timing
//! work.

use super::buying::{Bill, in_whole_lengths, no_price_words};
use super::job::{Job, preferred_unit, to_the_cent};
use super::lay::Lay;
use super::minutes::{BUILT_IN, OrderMinutes};
use super::needs::RequiredMaterial;
use super::stitching::{Stitching, THREAD_WASTE};
use crate::quantity::{Length, Liked, Money, Quantity, Unit, number};
use crate::report::listed;
use crate::table::{Table, TableError};
use crate::textile::{labour, price};
use crate::workshop::{Material, Overhead, PriceError, PriceFor};

/// The cost and price of an order.
#[derive(Debug)]
pub(super) struct OrderPrice {
    /// The cost of the order; `None` if nothing in it has a price.
    pub(super) cost: Option<Money>,
    /// The price of the order; `None` if nothing in it has a price.
    pub(super) price: Option<Money>,
    /// The price of one garment.
    pub(super) each: Option<Money>,
    /// The names of what the price leaves out because its cost is unknown.
    pub(super) left_out: Vec<String>,
    sheet: Sheet,
}

/// What a part of a price pays for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PricePart {
    /// Cloth and rolls.
    Cloth,
    /// Notions and thread.
    Notions,
    /// The minutes of work.
    Wages,
    /// Rent, light and the like.
    Overhead,
    /// What is added to the cost.
    MarkUp,
    /// What a marketplace keeps.
    Fee,
    /// What brings the price up to the lowest price or to the price ending.
    RoundingUp,
}

impl PricePart {
    /// Returns the words for it.
    pub(crate) fn words(self) -> &'static str {
        match self {
            Self::Cloth => "cloth",
            Self::Notions => "notions",
            Self::Wages => "wages",
            Self::Overhead => "overhead",
            Self::MarkUp => "mark-up",
            Self::Fee => "fee",
            Self::RoundingUp => "rounding up",
        }
    }
}

#[derive(Clone, Debug)]
struct Line {
    name: String,
    /// What it pays for; `None` in a table that adds up to no price.
    part: Option<PricePart>,
    amount: Option<Quantity>,
    money: Option<Money>,
    note: String,
}

/// Something that the price leaves out, and why.
#[derive(Clone, Debug)]
pub(super) struct LeftOut {
    pub(super) name: String,
    pub(super) why: String,
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
    /// From the first material to the overhead.
    cost: Vec<Line>,
    /// From the cost to the price.
    price: Vec<Line>,
    left_out: Vec<LeftOut>,
}

/// Calculates the price of an order and the lines that lead up to it.
pub(super) fn order_price(job: &Job<'_>, basis: &Basis<'_>) -> OrderPrice {
    let mut sheet = Sheet::default();
    sheet.materials(job, basis);
    sheet.labour(job, basis.minutes);
    sheet.overhead(job, basis.minutes);
    let cost = sum(&sheet.cost);
    let price = cost.map(|cost| sheet.price(job, cost));
    let each = price.map(|price| to_the_cent(price / number::from_whole(job.ticket.garments.max(1))));
    let left_out = sheet.left_out.iter().map(|left_out| left_out.name.clone()).collect();
    OrderPrice { cost, price, each, left_out, sheet }
}

impl OrderPrice {
    /// Returns what the price pays for, the largest part first; together the price. Empty without a price.
    pub(super) fn parts(&self) -> Vec<(PricePart, Money)> {
        let mut parts: Vec<(PricePart, Money)> = Vec::new();
        let paying = self.sheet.cost.iter().chain(&self.sheet.price);
        for (part, money) in paying.filter_map(|line| Some((line.part?, line.money?))) {
            match parts.iter_mut().find(|(known, _)| *known == part) {
                Some((_, so_far)) => *so_far = *so_far + money,
                None => parts.push((part, money)),
            }
        }
        parts.retain(|(_, money)| money.is_positive());
        parts.sort_by(|(_, one), (_, other)| other.steps().total_cmp(&one.steps()));
        parts
    }

    /// Returns what the price leaves out, each with the reason.
    pub(super) fn reasons_left_out(&self) -> &[LeftOut] {
        &self.sheet.left_out
    }

    /// Returns the table of the cost: every line that has a cost, and those whose cost is unknown.
    pub(super) fn cost_table(&self) -> Result<Table, TableError> {
        let columns = Table::new("cost").text("line").mixed("amount", "unit").money("money");
        let mut table = columns.text("note").ready()?;
        for Line { name, amount, money, note, .. } in &self.sheet.cost {
            table.push(vec![name.as_str().into(), (*amount).into(), (*money).into(), note.as_str().into()])?;
        }
        Ok(table)
    }

    /// Returns the table of the lines from the cost to the price; empty without a price.
    pub(super) fn price_table(&self) -> Result<Table, TableError> {
        plain_table("price_lines", &self.sheet.price)
    }

    /// Returns the table of all totals: the minutes, the sum of each table of money, and the price of one garment.
    pub(super) fn totals(
        &self,
        job: &Job<'_>,
        minutes: &OrderMinutes,
        purchases: &Purchases<'_>,
    ) -> Result<Table, TableError> {
        let columns = Table::new("totals").text("total").mixed("amount", "unit");
        let mut table = columns.text("note").ready()?;
        let mut push = |name: &str, amount: Option<Quantity>, note: &str| {
            table.push(vec![name.into(), amount.into(), note.into()])
        };
        if minutes.is_due {
            let built_in = minutes.built_in_words(&job.sentence_style);
            push("minutes", worked(minutes), &joined_notes(minutes.unknown_words(), built_in.as_deref()))?;
        }
        if !self.sheet.cost.is_empty() {
            push("cost", self.cost.map(Quantity::from), &self.sheet.reasons())?;
        }
        if let Some(price) = self.price {
            let marked = (!minutes.built_in.is_empty()).then(|| format!("with {BUILT_IN}"));
            push("price", Some(price.into()), &joined_notes(self.sheet.without_words(), marked.as_deref()))?;
        }
        if let Some(each) = self.each.filter(|_| job.ticket.garments > 1) {
            push("price for one garment", Some(each.into()), &format!("of {}", job.ticket.garments))?;
        }
        if let Some(spent) = sum(&purchases.lines(job)) {
            push("goods with an empty shelf", Some(spent.into()), "what is not in the price, added up")?;
        }
        Ok(table)
    }
}

impl Purchases<'_> {
    /// Returns the table of what is not in the price; its sum is what would be spent with an empty shelf.
    pub(super) fn table(&self, job: &Job<'_>) -> Result<Table, TableError> {
        plain_table("not_in_price", &self.lines(job))
    }

    fn lines(&self, job: &Job<'_>) -> Vec<Line> {
        let mut lines = Vec::new();
        let paid = self.bill.paid();
        let unpriced = self.bill.unpriced();
        let note = match unpriced.as_slice() {
            [] => "what must be bought: whole put-ups and selling steps".to_owned(),
            missing => format!("what must be bought, without {}: no price in your list", listed(missing)),
        };
        if paid.is_positive() || !unpriced.is_empty() {
            let known = paid.is_positive().then_some(paid);
            lines.push(Line::new("bought for this order", None, known, note));
        }
        let saved = self.without_shelf.paid() - paid;
        if saved.is_positive() && unpriced == self.without_shelf.unpriced() {
            let note = format!("with an empty shelf {} would be spent", job.format_money(self.without_shelf.paid()));
            lines.push(Line::new("saved by using stock", None, Some(saved), note));
        }
        lines
    }
}

/// Returns the sum of the lines; `None` if none of them has a price.
fn sum(lines: &[Line]) -> Option<Money> {
    let mut priced = lines.iter().filter_map(|line| line.money).peekable();
    priced.peek()?;
    Some(priced.sum())
}

/// Joins a note that may be empty and one that may follow it.
fn joined_notes(first: String, second: Option<&str>) -> String {
    match second {
        Some(second) if first.is_empty() => second.to_owned(),
        Some(second) => format!("{first}; {second}"),
        None => first,
    }
}

fn plain_table(name: &'static str, lines: &[Line]) -> Result<Table, TableError> {
    let mut table = Table::new(name).text("line").money("money").text("note").ready()?;
    for Line { name, money, note, .. } in lines {
        table.push(vec![name.as_str().into(), (*money).into(), note.as_str().into()])?;
    }
    Ok(table)
}

impl Line {
    fn new(name: &str, amount: Option<Quantity>, money: Option<Money>, note: String) -> Self {
        Self { name: name.to_owned(), part: None, amount, money: money.map(to_the_cent), note }
    }

    fn paying(self, part: PricePart) -> Self {
        Self { part: Some(part), ..self }
    }
}

impl Sheet {
    fn push(&mut self, part: PricePart, name: &str, amount: Option<Quantity>, money: Option<Money>, note: String) {
        self.cost.push(Line::new(name, amount, money, note).paying(part));
    }

    /// Adds a cost line at list price; without a price, its name is among what the price leaves out.
    fn at_list_price(
        &mut self,
        part: PricePart,
        name: &str,
        amount: Quantity,
        price: Result<Money, PriceError>,
        note: &str,
    ) {
        match price {
            Ok(price) => self.push(part, name, Some(amount), Some(price), note.to_owned()),
            Err(error) => {
                let why = no_price_words(&error);
                self.push(part, name, Some(amount), None, why.clone());
                self.leave_out(name.to_owned(), why);
            }
        }
    }

    fn leave_out(&mut self, name: String, why: String) {
        if self.left_out.iter().all(|known| known.name != name) {
            self.left_out.push(LeftOut { name, why });
        }
    }

    fn materials(&mut self, job: &Job<'_>, basis: &Basis<'_>) {
        let waste = job.workshop.rates.waste;
        for lay in basis.standard {
            let material = &lay.material.material;
            let laid = lay.length_before_washing().liking(preferred_unit(material));
            let charged = laid * (1.0 + waste.unwrap_or(0.0));
            let wasted =
                waste.map_or("no waste is set".to_owned(), |waste| format!("{} waste", job.format_share(waste)));
            // What is washed first is bought and priced at its length before, and of a pattern a repeat more than is laid.
            let has_lead = lay.plan.uses.iter().any(|used| used.lead.is_positive());
            let how = match (lay.first_wash.before_laying().is_none(), has_lead) {
                (true, false) => "laid",
                (true, true) => "bought",
                (false, _) => "before washing",
            };
            let note = format!("{} {how}, {wasted}{}", job.format_length(laid), at_price(job, material));
            let price = material.list_price(charged.into());
            self.at_list_price(PricePart::Cloth, &material.name, charged.into(), price, &note);
        }
        for required in basis.required {
            let Some(material) = required.material else {
                let error = PriceError::NoPrice { material: required.name.clone() };
                self.at_list_price(PricePart::Notions, &required.name, required.amount, Err(error), "");
                continue;
            };
            let waste = if required.includes_thread {
                format!("{} for ends and breaks in it", job.format_share(THREAD_WASTE))
            } else {
                String::new()
            };
            let note = format!("{waste}{}", at_price(job, material));
            let note = note.trim_start_matches(", ");
            let price = material.list_price(required.amount);
            let thread = required.includes_thread;
            let amount = if thread { in_whole_lengths(job, required.amount) } else { required.amount };
            self.at_list_price(PricePart::Notions, &required.name, amount, price, note);
        }
        for class in &basis.stitching.unknown {
            self.leave_out(format!("thread of stitch class {class}"), "no thread ratio".to_owned());
        }
    }

    fn labour(&mut self, job: &Job<'_>, minutes: &OrderMinutes) {
        if !minutes.is_due {
            return;
        }
        if job.ticket.work.is_empty() {
            self.leave_out("labour".to_owned(), minutes.unknown_words());
            return;
        }
        let wage = job.workshop.rates.wage;
        let paid = wage.filter(|_| minutes.any_known);
        let labour = paid.and_then(|wage| labour::labour_cost(minutes.total, wage).ok());
        let note = match wage {
            _ if !minutes.any_known => "no rate".to_owned(),
            None => "no wage is set".to_owned(),
            Some(wage) => format!(
                "at {}{}{}",
                job.sentence_style.show(wage),
                minutes.beside_own(&job.sentence_style),
                minutes.beside_known()
            ),
        };
        if labour.is_none() {
            self.leave_out("labour".to_owned(), note.clone());
        } else {
            for operation in &minutes.unknown {
                self.leave_out(format!("the minutes of “{operation}”"), "no rate".to_owned());
            }
        }
        self.push(PricePart::Wages, "labour", worked(minutes), labour, note);
    }

    fn overhead(&mut self, job: &Job<'_>, minutes: &OrderMinutes) {
        match job.workshop.rates.overhead {
            Some(Overhead::ByTime(rate)) if minutes.any_known => {
                let overhead = labour::labour_cost(minutes.total, rate).ok();
                let note = format!("at {}{}", job.sentence_style.show(rate), minutes.beside_known());
                self.push(PricePart::Overhead, "overhead", worked(minutes), overhead, note);
            }
            Some(Overhead::ByTime(_)) if minutes.is_due => {
                self.leave_out("overhead".to_owned(), "it goes by the minutes, and they are not known".to_owned());
            }
            Some(Overhead::Share(share)) => {
                if let Some(so_far) = sum(&self.cost) {
                    let note = format!("{} of materials and labour", job.format_share(share));
                    self.push(PricePart::Overhead, "overhead", None, Some(so_far * share), note);
                }
            }
            _ => {}
        }
    }

    /// Adds the lines from the cost up to the final price, and returns that price.
    fn price(&mut self, job: &Job<'_>, cost: Money) -> Money {
        self.price.push(Line::new("cost", None, Some(cost), self.without_words()));
        let (rates, settings) = (&job.workshop.rates, &job.workshop.settings);
        let mut price_so_far = cost;
        if let Some(share) = rates.mark_up {
            let marked_up = price::marked_up(cost, share).unwrap_or(cost);
            price_so_far = self.raise(
                price_so_far,
                marked_up,
                (PricePart::MarkUp, "mark-up"),
                format!("{} of the cost", job.format_share(share)),
            );
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
                (PricePart::Fee, "fee"),
                format!("selling fee {}", job.format_share(fee)),
            );
        }
        if lowest > grossed_up {
            let note = format!("no order is priced below {}", job.format_money(lowest));
            let kept = if ended > lowest { price_so_far + (lowest - grossed_up) * (1.0 - fee) } else { ended };
            price_so_far = self.raise(price_so_far, kept, (PricePart::RoundingUp, "up to the lowest price"), note);
        }
        if let Some(ending) = settings.price_ending.filter(|_| ended > lowest) {
            let note = format!("to the next {}", job.format_money(ending));
            price_so_far = self.raise(price_so_far, ended, (PricePart::RoundingUp, "rounded up"), note);
        }
        price_so_far
    }

    /// Adds the line that raises one price to the next, and returns the next price to the cent.
    fn raise(&mut self, from: Money, to: Money, (part, name): (PricePart, &str), note: String) -> Money {
        let more = to_the_cent(to - from);
        self.price.push(Line::new(name, None, Some(more), note).paying(part));
        from + more
    }

    /// Returns `leaves out: hook, labour`; empty if nothing is left out.
    fn without_words(&self) -> String {
        let names: Vec<&str> = self.left_out.iter().map(|left_out| left_out.name.as_str()).collect();
        if names.is_empty() { String::new() } else { format!("leaves out: {}", names.join(", ")) }
    }

    /// Returns `leaves out: hook (no price), labour (no wage is set)`; empty if nothing is left out.
    fn reasons(&self) -> String {
        let reasons: Vec<String> =
            self.left_out.iter().map(|LeftOut { name, why }| format!("{name} ({why})")).collect();
        if reasons.is_empty() { String::new() } else { format!("leaves out: {}", reasons.join(", ")) }
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
