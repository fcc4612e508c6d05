//! What each command does, one file a command.

mod cut;
mod reference;
