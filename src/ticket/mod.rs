//! What a recipe produced, and what follows from it: plan, needs, thread, minutes, cost and price, and
//! the tables of all of them.
//!
//! Never here: scripts, drawing of tables, files.

mod buying;
mod care;
pub mod cautions;
mod concern;
mod cost;
mod cut_list;
mod instructions;
mod job;
mod labels;
mod lay;
mod lay_notes;
mod minutes;
mod needs;
mod notion_supply;
mod room;
mod stitching;
mod tables;
#[cfg(test)]
mod tests;
#[allow(clippy::module_inception, reason = "the ticket is the concept this layer is named for")]
mod ticket;
mod usage;
mod weights;

pub use lay::{CuttingList, Lay, LayError, cut_rectangle, cut_size, cutting_list, shelf_lays, standard_lays};
pub use room::room_round;
pub use tables::{OrderTables, tables, tables_in};
pub use ticket::{
    AnsweredInput, Figure, InputSource, Mark, MayJoin, Need, Piece, PieceGrain, Sewing, Shape, SpokenStep, Ticket,
    TicketMaterial, TicketValue, VERSION, Work, is_counted,
};
pub use usage::Usage;
