//! The ticket a recipe produces and what follows from it: plan, needs, thread, minutes, cost, price, and the list of an
//! order's sections.
//!
//! Never here: scripts, drawing of tables, files.

mod buying;
mod care;
pub(crate) mod cautions;
mod concern;
mod cost;
mod job;
mod lay;
mod lay_error;
mod lay_notes;
mod mark_of_order;
mod minutes;
mod needs;
mod notion_supply;
mod once;
mod overview;
mod panels;
mod sections;
mod small_cuts;
mod stitching;
#[cfg(test)]
mod tests;
#[allow(clippy::module_inception, reason = "the ticket is the concept this layer is named for")]
mod ticket;
mod usage;
mod wash_words;
mod washing;
mod weights;
mod workshop_order;

pub(crate) use job::tape_of;
pub(crate) use lay::check_standard_lays;
pub use lay::{CuttingList, Lay, cutting_list, standard_lays};
pub(crate) use lay_error::LayError;
pub use mark_of_order::OrderMark;
pub(crate) use overview::{OverviewRow, overview};
pub(crate) use panels::{PanelFigures, count_drops, figures as panel_figures};
pub use sections::OrderSection;
pub(crate) use sections::{FileForm, Form};
pub use ticket::Ticket;
pub(crate) use ticket::{
    AnsweredInput, Figure, InputSource, Mark, Need, Sewing, TicketMaterial, TicketPiece, TicketStep, VERSION, Work,
};
pub use ticket::{MOST_SPOKEN, TicketValue};
pub(crate) use usage::Usage;
pub(crate) use washing::{FirstWash, loses_words};
pub use weights::WeightError;
pub use workshop_order::WorkshopOrder;
