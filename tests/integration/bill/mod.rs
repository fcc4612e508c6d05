//! The bill, checked from outside: through the command line and its CSV files alone, so that nothing inside the
//! program can be renamed or moved in a way that these tests notice, and no sum of the program is shared.

mod alike;
mod buying;
mod exact;
mod goods;
mod known;
mod ledger;
mod ledgers;
mod oracle;
mod order;
mod said;
mod written;
