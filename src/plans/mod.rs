//! A cutting plan told: what to cut from what in sentences, how good the plan is, its tables, what is kept of
//! the lengths, and the picture of each; and the task for a plan out of two files.
//!
//! One way for the plans of a ticket and for those of a list of pieces. Never here: making or judging a plan,
//! drawing, files on disk.

mod alike;
mod buying;
mod drawn;
mod keeping;
mod pinned;
mod plan_report;
mod quality;
mod sentences;
mod shapes;
mod summary;
mod tables;
mod task;
#[cfg(test)]
mod tests;

pub use buying::{Prices, buy_list, cost};
pub use drawn::drawn_lengths;
pub use keeping::{Leftover, leftovers, leftovers_as_stock, leftovers_table};
pub use pinned::moved;
pub use plan_report::{PlanReport, PlanWords};
pub use quality::{quality_sentences, stopped_sentence};
pub use sentences::{leftover_sentence, sentences};
pub use summary::summary;
pub use tables::{cuts, plan};
pub use task::{Choices, CutTask, cut_task};
