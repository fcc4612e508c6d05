//! What a recipe produced, and what follows from it: plan, needs, thread, minutes, cost and price, and
//! the tables of all of them.
//!
//! Never here: scripts, drawing of tables, files.

pub mod cautions;
mod lay;
#[allow(clippy::module_inception, reason = "the ticket is the concept this layer is named for")]
mod ticket;

pub use lay::{Lay, LayFault, cut_size, shelf_lays, standard_lays};
pub use ticket::{
    AnsweredInput, Figure, InputSource, Mark, MayJoin, Need, Piece, PieceGrain, Sewing, Shape, SpokenStep, Ticket,
    TicketMaterial, TicketValue, VERSION, Work, is_counted,
};
