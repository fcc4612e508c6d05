//! stub
use crate::engine::Host;
use crate::table::Table;
use crate::ticket::{OrderTables, Ticket};
use std::rc::Rc;
/// t
#[derive(Clone, Debug)]
pub struct TableObject(Rc<Table>);
impl TableObject {
    /// n
    pub fn new(table: Table) -> Self {
        Self(Rc::new(table))
    }
    /// t
    pub fn table(&self) -> &Table {
        &self.0
    }
}
/// t
#[derive(Clone, Debug)]
pub struct TicketObject(Rc<(Ticket, OrderTables)>);
impl TicketObject {
    /// n
    pub fn new(ticket: Ticket, tables: OrderTables) -> Self {
        Self(Rc::new((ticket, tables)))
    }
    /// t
    pub fn ticket(&self) -> &Ticket {
        &self.0.0
    }
    /// t
    pub fn tables(&self) -> &OrderTables {
        &self.0.1
    }
}
/// r
pub fn register(_: &mut Host) {}
