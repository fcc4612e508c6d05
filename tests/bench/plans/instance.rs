//! An instance to plan, the measure of its result, and the outcome of planning.

use shirr::cutting::{self, Aim, CuttingManner, CuttingPlan, CuttingTask, Effort, StockSource, StockUse, Watch};
use shirr::piece::{CutPiece, Goods, StockLength, Supply};
use shirr::quantity::{Length, Money, number};
use std::fs;
use std::sync::atomic::AtomicBool;
use std::time::Instant;

/// A length in millimetres.
pub(crate) fn millimetres(value: f64) -> Length {
    Length::from_steps(value * NANOMETRES_IN_MILLIMETRE)
}

const NANOMETRES_IN_MILLIMETRE: f64 = 1e6;
/// Money counts ten-thousandths of the currency unit.
const STEPS_IN_CENT: f64 = 100.0;
/// Weight of a shelf length, and of a leftover that is kept, in a measured result; the references use the same.
const HALF: f64 = 0.5;

/// Everything that one plan is made from, with a name.
#[derive(Clone, Debug)]
pub(crate) struct Instance {
    pub(crate) name: String,
    pub(crate) pieces: Vec<CutPiece>,
    pub(crate) goods: Goods,
    pub(crate) stock: Vec<StockLength>,
    pub(crate) supply: Supply,
    pub(crate) manner: CuttingManner,
    pub(crate) measure: Measure,
    /// The area of all pieces in the square of the measure's unit, if the share of the goods used is shown.
    pub(crate) area: Option<f64>,
    /// The best known result, in the measure's unit.
    pub(crate) reference: Option<f64>,
}

/// What a result is measured in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Measure {
    /// New lengths taken up.
    PutUps,
    /// The price of all lengths taken up, in cents.
    Cents,
    /// The length laid, in millimetres times this scale.
    Laid(f64),
    /// Metres of goods taken up: a shelf length counts half, and half of each leftover that is kept comes off.
    Taken,
}

/// The outcome of planning.
#[derive(Clone, Debug)]
pub(crate) struct Outcome {
    /// The result in the measure's unit; `None` if there is no plan.
    pub(crate) result: Option<f64>,
    /// The plan's own lower bound; `None` if there is no plan or it minimised something else.
    pub(crate) bound: Option<f64>,
    /// Whether the plan is proved best.
    pub(crate) proved: bool,
    /// Seconds of processor time.
    pub(crate) seconds: f64,
    pub(crate) error: Option<String>,
}

impl Instance {
    pub(crate) fn new(name: &str, pieces: Vec<CutPiece>, goods: Goods, measure: Measure) -> Self {
        Self {
            name: name.to_owned(),
            pieces,
            goods,
            stock: Vec::new(),
            supply: Supply::Endless,
            manner: CuttingManner::default(),
            measure,
            area: None,
            reference: None,
        }
    }

    /// The number of pieces.
    pub(crate) fn count(&self) -> i64 {
        self.pieces.iter().map(|piece| piece.count).sum()
    }

    /// Plans the instance with an effort of `steps`.
    pub(crate) fn run(&self, steps: u64) -> Outcome {
        let manner = CuttingManner { effort: Effort::of(steps), ..self.manner.clone() };
        let task = CuttingTask {
            pieces: &self.pieces,
            goods: &self.goods,
            stock: &self.stock,
            supply: &self.supply,
            manner: &manner,
        };
        let never = AtomicBool::new(false);
        let start = Clock::now();
        let planned = cutting::plan(&task, Watch::silent(&never));
        let seconds = start.seconds();
        match planned {
            Ok(plan) => {
                let result = self.result(&plan);
                let comparable = self.is_measured_by(plan.quality.aim);
                Outcome {
                    result: Some(result),
                    bound: comparable.then(|| self.whole_bound(plan.quality.bound_ratio * result)),
                    proved: comparable && plan.quality.proved,
                    seconds,
                    error: None,
                }
            }
            Err(error) => Outcome { result: None, bound: None, proved: false, seconds, error: Some(error.to_string()) },
        }
    }

    /// The result of a plan, from its lengths alone; ignores the plan's own totals.
    pub(crate) fn result(&self, plan: &CuttingPlan) -> f64 {
        match self.measure {
            Measure::PutUps => number::from_count(plan.uses.len()),
            Measure::Cents => plan.uses.iter().map(|used| self.price(used)).sum::<f64>() / STEPS_IN_CENT,
            Measure::Laid(scale) => {
                let laid: f64 = plan.uses.iter().map(|used| used.used.steps()).sum();
                scale * laid / NANOMETRES_IN_MILLIMETRE
            }
            Measure::Taken => {
                let taken: f64 = plan.uses.iter().map(|used| self.taken(used)).sum();
                taken / (1000.0 * NANOMETRES_IN_MILLIMETRE)
            }
        }
    }

    /// The price of a length in steps of money. NaN if it is missing, so that no goal counts as met.
    fn price(&self, used: &StockUse) -> f64 {
        let price = match used.source {
            StockSource::Shelf { entry, .. } => self.stock[entry].price,
            StockSource::New { offer, .. } => match &self.supply {
                Supply::Offered(offers) => offers[offer].price,
                Supply::Endless | Supply::ShelfOnly => None,
            },
        };
        price.map_or(f64::NAN, Money::steps)
    }

    fn taken(&self, used: &StockUse) -> f64 {
        let share = match used.source {
            StockSource::Shelf { .. } => HALF,
            StockSource::New { .. } => 1.0,
        };
        let kept = self.manner.keep_from.is_some_and(|least| used.left_over.steps() >= least.steps());
        let kept = if kept { used.left_over.steps() * HALF } else { 0.0 };
        used.length.steps() * share - kept
    }

    /// Whether a plan that minimises `aim` also minimises the result.
    fn is_measured_by(&self, aim: Aim) -> bool {
        let by_length = aim == Aim::Length;
        match self.measure {
            Measure::PutUps | Measure::Cents => !by_length,
            Measure::Laid(_) => by_length,
            // With goods cut off as needed, all that is taken is laid.
            Measure::Taken => !by_length || (self.stock.is_empty() && self.goods.put_up.is_none()),
        }
    }

    /// Rounds a bound up where results are whole numbers, lengths or cents.
    fn whole_bound(&self, bound: f64) -> f64 {
        match self.measure {
            Measure::PutUps | Measure::Cents => (bound - 1e-6).ceil(),
            Measure::Laid(_) | Measure::Taken => bound,
        }
    }

    /// How a result is written.
    pub(crate) fn shown(&self, value: f64) -> String {
        match self.measure {
            Measure::PutUps | Measure::Cents => format!("{value:.0}"),
            Measure::Laid(_) | Measure::Taken => format!("{value:.3}"),
        }
    }
}

/// Processor time if the system tells it, else elapsed time.
struct Clock {
    ticks: Option<f64>,
    start: Instant,
}

impl Clock {
    fn now() -> Self {
        Self { ticks: processor_ticks(), start: Instant::now() }
    }

    fn seconds(&self) -> f64 {
        match (self.ticks, processor_ticks()) {
            (Some(before), Some(after)) => (after - before) / TICKS_IN_SECOND,
            _ => self.start.elapsed().as_secs_f64(),
        }
    }
}

/// Ticks per second in which Linux counts a process's time, whatever its own clock does.
const TICKS_IN_SECOND: f64 = 100.0;

/// User and system time of all threads, ended ones too: the twelfth and thirteenth field behind the name.
fn processor_ticks() -> Option<f64> {
    let text = fs::read_to_string("/proc/self/stat").ok()?;
    let fields: Vec<&str> = text.rsplit_once(')')?.1.split_whitespace().collect();
    let ticks = |place: usize| fields.get(place)?.parse::<f64>().ok();
    Some(ticks(11)? + ticks(12)?)
}
