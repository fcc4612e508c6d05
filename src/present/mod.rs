//! Shows an order on the screen, as a work sheet, in files and as pictures, and describes recipes.
//!
//! All of them show the same list of sections, [`OrderSection`](crate::ticket::OrderSection). Never here: calculation,
//! files on disk, writing to the screen.

mod charts;
mod description;
mod files;
mod first_screen;
mod pieces;
mod price_by_cloth;
pub mod reference;
mod screen;
mod sheet;

pub(crate) use charts::{charts_of_order, charts_of_table};
pub(crate) use description::description;
pub(crate) use files::{
    NamedFile, ORDER_PICTURES, OrderFileError, PLAN_PICTURE, PictureNote, as_files, charts_picture, csv_file,
    lays_picture, markdown, order_files, page_name, pieces_picture, plan_picture, table_picture,
};
pub(crate) use first_screen::first_screen;
pub(crate) use price_by_cloth::{TriedWidth, price_by_cloth};
pub(crate) use screen::on_screen;
pub(crate) use sheet::work_sheet;
