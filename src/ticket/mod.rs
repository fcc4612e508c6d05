//! What a recipe produced, and what follows from it: plan, needs, thread, minutes, cost and price, and the one list of
//! an order's sections.
//!
//! Never here: scripts, drawing of tables, files.

mod buying;
mod care;
pub mod cautions;
mod concern;
mod cost;
mod job;
mod lay;
mod lay_notes;
mod minutes;
mod needs;
mod notion_supply;
mod once;
mod sections;
mod stitching;
#[cfg(test)]
mod tests;
#[allow(clippy::module_inception, reason = "the ticket is the concept this layer is named for")]
mod ticket;
mod usage;
mod weights;
mod workshop_order;

pub use lay::{CuttingList, Lay, LayError, check_standard_lays, cutting_list, shelf_lays, standard_lays};
pub use sections::{FileForm, Form, OrderSection};
pub use ticket::{
    AnsweredInput, Figure, InputSource, Mark, Need, Sewing, SpokenStep, Ticket, TicketMaterial, TicketPiece,
    TicketValue, VERSION, Work, is_counted,
};
pub use usage::Usage;
pub use workshop_order::WorkshopOrder;
