//! Describes a cutting plan: what to cut from what in sentences, how good the plan is, its tables, its leftovers, and
//! each length to draw; and makes a cutting task from two files.
//!
//! Plans of a ticket and plans of a list of pieces are described the same way. Never here: making or judging a plan,
//! drawing, files on disk.

mod buying;
mod cut_sheet;
mod drawn;
mod grouping;
mod keeping;
mod letters;
mod panels;
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

pub(crate) use crate::report::{SheetBlock, TICK};
pub(crate) use buying::{buy_list, cost, too_short};
pub(crate) use cut_sheet::cut_sheet;
pub(crate) use drawn::drawn_lengths;
pub(crate) use keeping::{GoodsShares, Leftover, goods_shares, leftovers, leftovers_as_stock, leftovers_table};
pub(crate) use letters::{Letters, letters};
pub(crate) use panels::cut_steps;
pub(crate) use pinned::moved;
pub(crate) use plan_report::{PlanReport, PlanWords};
pub(crate) use quality::{quality_sentences, stopped_sentence};
pub(crate) use sentences::{leftover_sentence, pluralized, sentences};
pub(crate) use summary::summary;
pub(crate) use tables::{cuts, plan};
pub(crate) use task::{Choices, CutTask, cut_task};
