//! Drawing: tables for the terminal, tables for files, sheets and pictures for the cutting table.
//!
//! The content is computed elsewhere; here it only becomes text, and every text that came from a person is first made
//! harmless to a terminal.
//!
//! Never here: arithmetic of the trade, opening files, writing to the screen, colour.

mod amounts;
mod canvas;
mod canvas_svg;
mod chart;
mod csv;
mod drawn_lay;
mod drawn_piece;
pub mod excerpt;
mod grid;
mod lay_bar;
mod lay_labels;
mod lay_panel;
mod lay_picture;
mod lay_text;
mod listed;
mod markdown;
mod outline_places;
mod picture;
mod picture_page;
mod piece_figure;
pub mod plain_text;
mod records;
mod sheet;
#[cfg(test)]
mod tests;
mod text_table;
pub(crate) mod wrap;

pub(crate) use chart::{Bar, Chart, chart_pages, chart_text};
pub(crate) use csv::write_csv;
pub(crate) use drawn_lay::{DrawnCut, DrawnLayers, DrawnLength, DrawnRest};
pub(crate) use drawn_piece::{DrawnMark, DrawnPiece, DrawnShape, MarkPlace};
pub(crate) use lay_picture::lay_pages;
pub(crate) use lay_text::lay_text;
pub(crate) use listed::listed;
pub(crate) use markdown::{escaped, write_markdown};
pub(crate) use picture::picture_pages;
pub(crate) use picture_page::PictureHead;
pub(crate) use sheet::{Page, SHEET_WIDTH, Section, SectionBody, Sheet, SheetBlock, TICK};
pub(crate) use text_table::{Look, text_table};
