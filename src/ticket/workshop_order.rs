//! An order in its workshop: plans, price and sections, each made on first use and cached.
//!
//! Never here: how any of them is made; drawing; files.

use super::buying::Bill;
use super::cost::{Basis, OrderPrice, PricePart, Purchases, order_price};
use super::job::{Job, to_the_cent};
use super::lay::{Lay, check_shelf_lays, check_standard_lays, shelf_lays, standard_lays};
use super::lay_error::LayError;
use super::lay_notes::{self, About, LayNote};
use super::minutes::{self, BUILT_IN, OrderMinutes};
use super::needs;
use super::once::Once;
use super::small_cuts::{self, SmallCuts};
use super::stitching::{self, Stitching};
use super::ticket::{Mark, Ticket};
use super::wash_words;
use super::weights::{self, WeightError};
use crate::cutting::{PlanNote, Planner};
use crate::plans::{self, GoodsShares, Leftover, Letters, PlanReport, PlanWords, SheetBlock, TICK};
use crate::quantity::{Mass, Money, Style, Tape, Time};
use crate::report::DrawnLength;
use crate::table::Table;
use crate::workshop::{Market, Workshop};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;
use std::sync::Arc;

/// An order in its workshop. What its methods make is cached; an error is not, so that an order whose plan was stopped
/// can be tried again.
#[derive(Debug)]
pub struct WorkshopOrder {
    ticket: Ticket,
    workshop: Arc<Workshop>,
    /// For amounts inside steps and sentences.
    style: Style,
    planner: Planner,
    standard: Once<Vec<Lay>>,
    shelf: Once<Vec<Lay>>,
    stitching: Once<Stitching>,
    minutes: Once<OrderMinutes>,
    price: Once<OrderPrice>,
    bill: Once<Bill>,
    bill_without_shelf: Once<Bill>,
    leftovers: Once<Vec<Leftover>>,
    /// The tables of sections, by section name.
    tables: RefCell<BTreeMap<&'static str, Rc<Table>>>,
}

impl WorkshopOrder {
    /// Creates an order after checking that all its pieces can be laid. Amounts inside steps are shown in `style`;
    /// `planner` makes the plans, and stops when its flag is raised.
    ///
    /// # Errors
    /// A piece that cannot be laid.
    pub fn new(ticket: Ticket, workshop: Arc<Workshop>, style: &Style, planner: Planner) -> Result<Self, LayError> {
        check_standard_lays(&ticket, ticket.garments, style, &planner)?;
        check_shelf_lays(&ticket, &workshop, &planner)?;
        Ok(Self {
            ticket,
            workshop,
            style: *style,
            planner,
            standard: Once::default(),
            shelf: Once::default(),
            stitching: Once::default(),
            minutes: Once::default(),
            price: Once::default(),
            bill: Once::default(),
            bill_without_shelf: Once::default(),
            leftovers: Once::default(),
            tables: RefCell::default(),
        })
    }

    /// Returns the tape of figures without a unit, with its finest mark: `inch, to 1/8`.
    pub(crate) fn tape_words(&self) -> String {
        match self.plan_words().tape {
            Tape::Inch => {
                let step = self.style.show(self.style.inch_step.length());
                format!("inch, to {}", step.trim_end_matches(" in"))
            }
            Tape::Metric => format!("cm, to {}", self.style.show_number(0.1)),
        }
    }

    /// Returns what the recipe produced.
    pub fn ticket(&self) -> &Ticket {
        &self.ticket
    }

    /// Returns the style of its amounts.
    pub fn style(&self) -> &Style {
        &self.style
    }

    /// Returns the standard plan: the whole order from endless stock.
    fn standard(&self) -> Result<&[Lay], LayError> {
        let lays = || standard_lays(&self.ticket, self.ticket.garments, &self.style, &self.planner);
        self.standard.get_or_make(lays).map(Vec::as_slice)
    }

    /// Returns the real plan: the shelf first, then what must be bought.
    pub(super) fn lays(&self) -> Result<&[Lay], LayError> {
        self.shelf.get_or_make(|| shelf_lays(&self.ticket, &self.workshop, &self.planner)).map(Vec::as_slice)
    }

    /// Returns the price of the order to the cent; `None` if nothing in it has a price.
    ///
    /// # Errors
    /// The work was stopped, or an amount is too large.
    pub fn price(&self) -> Result<Option<Money>, LayError> {
        Ok(self.order_price()?.price)
    }

    /// Returns the price of one garment to the cent.
    ///
    /// # Errors
    /// As for [`Self::price`].
    pub fn price_each(&self) -> Result<Option<Money>, LayError> {
        Ok(self.order_price()?.each)
    }

    /// Returns the names of what the price leaves out because its cost is unknown.
    ///
    /// # Errors
    /// As for [`Self::price`].
    pub fn left_out(&self) -> Result<&[String], LayError> {
        Ok(&self.order_price()?.left_out)
    }

    /// Returns the sum of all minutes; `None` if some are unknown.
    ///
    /// # Errors
    /// An amount is too large.
    pub fn total_minutes(&self) -> Result<Option<Time>, LayError> {
        let minutes = self.minutes()?;
        Ok(minutes.all_known().then_some(minutes.total))
    }

    /// Says why minutes are unknown: `no rate for “pack”`; empty if all are known.
    ///
    /// # Errors
    /// An amount is too large.
    pub(crate) fn unknown_minutes(&self) -> Result<String, LayError> {
        Ok(self.minutes()?.unknown_words())
    }

    /// Returns the weight of the order without its thread.
    ///
    /// # Errors
    /// The weight of a material is unknown, or the sum is beyond any number.
    pub fn weight(&self) -> Result<Mass, WeightError> {
        weights::order_weight(&self.job())
    }

    /// Returns the number of pieces to cut.
    pub fn piece_count(&self) -> i64 {
        self.job().piece_count()
    }

    /// Returns the leftovers worth keeping.
    ///
    /// # Errors
    /// The work was stopped.
    pub fn leftovers(&self) -> Result<&[Leftover], LayError> {
        self.leftovers.get_or_make(|| Ok(self.leftovers_of(self.lays()?))).map(Vec::as_slice)
    }

    /// Returns the lengths of all lays, ready to draw.
    ///
    /// # Errors
    /// The work was stopped.
    pub fn drawn_lengths(&self) -> Result<Vec<DrawnLength>, LayError> {
        let (words, reports) = (self.plan_words(), self.plan_reports()?);
        let letters = plans::letters(&reports);
        Ok(reports.iter().flat_map(|report| plans::drawn_lengths(report, &words, &letters)).collect())
    }

    /// Returns the letters of the pieces, as the lays have them.
    ///
    /// # Errors
    /// The work was stopped.
    pub(crate) fn letters(&self) -> Result<Letters, LayError> {
        Ok(plans::letters(&self.plan_reports()?))
    }

    /// Returns the tape that the order is measured on.
    pub(crate) fn tape(&self) -> Tape {
        self.job().tape
    }

    /// Summarises the order in one line: `2 pieces to cut, 48 min, $23.40`. What is unknown is said in words.
    ///
    /// # Errors
    /// As for [`Self::price`].
    pub fn summary(&self, style: &Style) -> Result<String, LayError> {
        let pieces = match self.piece_count() {
            1 => "1 piece to cut".to_owned(),
            pieces => format!("{pieces} pieces to cut"),
        };
        let minutes = self.minutes()?.summary(style);
        let price = self.price()?.map_or("no price".to_owned(), |price| style.show(price.into()));
        let left_out = match self.left_out()? {
            [] => String::new(),
            left_out => format!("; the price leaves out: {}", left_out.join(", ")),
        };
        let marked = match (self.minutes()?.built_in.is_empty(), left_out.is_empty()) {
            (true, _) => String::new(),
            (false, true) => format!(" with {BUILT_IN}"),
            (false, false) => format!(", with {BUILT_IN}"),
        };
        Ok(format!("{pieces}, {minutes}, {price}{left_out}{marked}"))
    }

    /// Returns the table of every single cut with its marks.
    ///
    /// # Errors
    /// The work was stopped.
    pub fn plan(&self) -> Result<Table, LayError> {
        Ok(plans::plan(&self.plan_reports()?, &self.plan_words())?)
    }

    /// Returns the table of a section, made on first use and cached.
    pub(super) fn table_once(
        &self,
        name: &'static str,
        make: fn(&Self) -> Result<Table, LayError>,
    ) -> Result<Rc<Table>, LayError> {
        if let Some(made) = self.tables.borrow().get(name) {
            return Ok(Rc::clone(made));
        }
        let made = Rc::new(make(self)?);
        self.tables.borrow_mut().insert(name, Rc::clone(&made));
        Ok(made)
    }

    /// Returns the common source of all tables of the order.
    pub(super) fn job(&self) -> Job<'_> {
        Job::new(&self.ticket, &self.workshop, &self.style)
    }

    /// Returns what the price pays for, the largest part first; together the price. Empty without a price.
    ///
    /// # Errors
    /// As for [`Self::price`].
    pub(crate) fn price_parts(&self) -> Result<Vec<(PricePart, Money)>, LayError> {
        Ok(self.order_price()?.parts())
    }

    /// Returns the working time of each operation that is known, the longest first.
    ///
    /// # Errors
    /// An amount is too large.
    pub(crate) fn time_parts(&self) -> Result<Vec<(String, Time)>, LayError> {
        Ok(self.minutes()?.by_operation.clone())
    }

    /// Returns where the goods of each material go: the share in pieces, in leftovers worth keeping, and wasted.
    ///
    /// # Errors
    /// The work was stopped.
    pub(crate) fn goods_shares(&self) -> Result<Vec<(String, GoodsShares)>, LayError> {
        let keep_from = self.workshop.settings.smallest_remnant;
        let words = self.plan_words();
        let shares = self.lays()?.iter().map(|lay| {
            let report = lay.report(keep_from);
            let kept = plans::leftovers(&report, &words, &BTreeSet::new());
            (lay.material.material.name.clone(), plans::goods_shares(&report, &kept))
        });
        Ok(shares.collect())
    }

    /// Returns the part of the price that begins an order; `None` without a price or a deposit.
    ///
    /// # Errors
    /// As for [`Self::price`].
    pub(crate) fn deposit(&self) -> Result<Option<Money>, LayError> {
        let share = self.workshop.settings.deposit;
        Ok(self.price()?.zip(share).map(|(price, share)| to_the_cent(price * share)))
    }

    /// Whether the workshop asks for a deposit.
    pub(crate) fn has_deposit(&self) -> bool {
        self.workshop.settings.deposit.is_some()
    }

    /// Returns the market the workshop sells in.
    pub(super) fn market(&self) -> Market {
        self.workshop.settings.market
    }

    /// Returns how plans are reported.
    pub(super) fn plan_words(&self) -> PlanWords {
        self.job().plan_words()
    }

    /// Returns the real plan with everything its report needs.
    pub(super) fn plan_reports(&self) -> Result<Vec<PlanReport<'_>>, LayError> {
        let keep_from = self.workshop.settings.smallest_remnant;
        Ok(self.lays()?.iter().map(|lay| lay.report(keep_from)).collect())
    }

    /// Returns the page to cut from: the blocks of each material, the marks to make and what to know before cutting.
    pub(super) fn cut_page(&self) -> Result<Vec<SheetBlock>, LayError> {
        let (words, letters) = (self.plan_words(), self.letters()?);
        let reports = self.plan_reports()?;
        let wash = wash_words::sentences(&self.job(), self.lays()?, self.small_cuts()?);
        let mut blocks = Vec::new();
        if !wash.is_empty() {
            blocks.push(SheetBlock { label: "WASH", lines: wash });
        }
        let of_cloth: Vec<SheetBlock> =
            reports.iter().flat_map(|report| plans::cut_sheet(report, &letters, &words)).collect();
        blocks.extend(of_cloth);
        let mark = |mark: &Mark| {
            format!("{}{}: {} {} from {}", TICK, mark.piece, mark.name, words.bare(mark.distance), mark.from)
        };
        let marks: Vec<String> = self.ticket.marks_as_cut().iter().map(mark).collect();
        // The start of the pattern is told where the cutting begins.
        let notes = self.notes_besides(&[PlanNote::MarksFromPattern])?.into_iter().map(|note| note.text).collect();
        let small = small_cuts::lines(self.small_cuts()?, |length| words.bare(length));
        for (label, lines) in [("SMALL", small), ("MARK", marks), ("NOTE", notes)] {
            if !lines.is_empty() {
                blocks.push(SheetBlock { label, lines });
            }
        }
        Ok(blocks)
    }

    /// Returns the notes on the plan for the maker.
    pub(super) fn plan_notes(&self) -> Result<Vec<String>, LayError> {
        Ok(self.notes_besides(&[])?.into_iter().map(|note| note.text).collect())
    }

    /// Returns the notes on the plan without those that are told elsewhere.
    pub(super) fn notes_besides(&self, told: &[PlanNote]) -> Result<Vec<LayNote>, LayError> {
        let job = self.job();
        let required = needs::required_materials(&job, self.stitching()?);
        let notions = required.iter().filter(|required| required.listed).map(|required| required.name.as_str());
        let joined = self.bill()?.joined().iter().cloned().map(|text| LayNote { about: About::Joined, text });
        let mut notes: Vec<LayNote> = joined.chain(lay_notes::notes(&job, self.lays()?, notions, told)).collect();
        if self.standard()?.iter().any(|lay| lay.goods.napped) {
            let mut without = self.ticket.clone();
            for material in &mut without.materials {
                material.material.nap = false;
            }
            let turned = standard_lays(&without, without.garments, &self.style, &self.planner)?;
            notes.extend(lay_notes::nap(&job, self.standard()?, &turned));
        }
        Ok(notes)
    }

    pub(super) fn stitching(&self) -> Result<&Stitching, LayError> {
        self.stitching.get_or_make(|| Ok(stitching::stitching(&self.job())?))
    }

    pub(super) fn minutes(&self) -> Result<&OrderMinutes, LayError> {
        self.minutes.get_or_make(|| Ok(minutes::minutes(&self.job())?))
    }

    /// Returns what is bought, with stock on the shelf used first.
    pub(super) fn bill(&self) -> Result<&Bill, LayError> {
        self.bill.get_or_make(|| self.bill_of(self.lays()?, true))
    }

    /// Returns the cuts of notions by the length, each from a named length on the shelf or from a new one.
    ///
    /// # Errors
    /// The work was stopped.
    pub(crate) fn small_cuts(&self) -> Result<&[SmallCuts], LayError> {
        self.bill().map(Bill::small_cuts)
    }

    /// Returns the table of the cost.
    pub(super) fn cost_table(&self) -> Result<Table, LayError> {
        Ok(self.order_price()?.cost_table()?)
    }

    /// Returns the table of the lines from the cost to the price.
    pub(super) fn price_table(&self) -> Result<Table, LayError> {
        Ok(self.order_price()?.price_table()?)
    }

    /// Returns the table of what is not in the price.
    pub(super) fn not_in_price(&self) -> Result<Table, LayError> {
        Ok(Purchases { bill: self.bill()?, without_shelf: self.bill_without_shelf()? }.table(&self.job())?)
    }

    /// Returns the table of all totals.
    pub(super) fn totals(&self) -> Result<Table, LayError> {
        let purchases = Purchases { bill: self.bill()?, without_shelf: self.bill_without_shelf()? };
        Ok(self.order_price()?.totals(&self.job(), self.minutes()?, &purchases)?)
    }

    /// Returns what would be bought if the shelf were empty.
    fn bill_without_shelf(&self) -> Result<&Bill, LayError> {
        self.bill_without_shelf.get_or_make(|| self.bill_of(self.standard()?, false))
    }

    fn bill_of(&self, lays: &[Lay], use_shelf: bool) -> Result<Bill, LayError> {
        let job = self.job();
        let required = needs::required_materials(&job, self.stitching()?);
        Bill::of(&job, lays, &required, use_shelf, &self.planner)
    }

    pub(super) fn order_price(&self) -> Result<&OrderPrice, LayError> {
        self.price.get_or_make(|| {
            let job = self.job();
            let (stitching, minutes) = (self.stitching()?, self.minutes()?);
            let required = needs::required_materials(&job, stitching);
            Ok(order_price(&job, &Basis { standard: self.standard()?, required: &required, stitching, minutes }))
        })
    }

    /// Returns the leftovers of all lays that are worth keeping, with names that no stock on the shelf has.
    fn leftovers_of(&self, lays: &[Lay]) -> Vec<Leftover> {
        let keep_from = self.workshop.settings.smallest_remnant;
        let mut used: BTreeSet<String> = self.workshop.stock.list.iter().map(|piece| piece.name.clone()).collect();
        let mut leftovers = Vec::new();
        for lay in lays {
            let found = plans::leftovers(&lay.report(keep_from), &self.plan_words(), &used);
            used.extend(found.iter().map(|leftover| leftover.stock.clone()));
            leftovers.extend(found);
        }
        leftovers
    }
}
