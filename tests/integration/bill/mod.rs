//! Checks the bill from outside, through the command line and its CSV files alone: renaming or moving code inside the
//! program cannot affect these tests, and they share no sum with it.

mod alike;
mod at_the_table;
mod buying;
mod exact;
mod first_screens;
mod goods;
mod known;
mod ledger;
mod ledgers;
mod oracle;
mod order;
mod output;
mod seldom;
mod written;
