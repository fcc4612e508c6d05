//! Drawing: tables for the terminal, tables for files, sheets and pictures for the cutting table.
//!
//! What is drawn was reckoned elsewhere; here it only becomes text, and every text that came from a
//! person is first made harmless to a terminal.
//!
//! Never here: arithmetic of the trade, opening files, writing to the screen, colour.

mod amounts;
mod csv;
mod drawn_lay;
pub mod excerpt;
mod grid;
mod lay_bar;
mod lay_labels;
mod lay_page;
mod lay_picture;
mod lay_text;
mod markdown;
mod picture;
pub mod plain_text;
mod records;
mod sheet;
mod text_table;
pub mod wrap;

pub use csv::write_csv;
pub use drawn_lay::{DrawnCut, DrawnLayers, DrawnLength, DrawnRest};
pub use lay_picture::write_lays;
pub use lay_text::{MOST_DRAWN, lay_text};
pub use markdown::write_markdown;
pub use picture::{DrawnPiece, DrawnShape, write_picture};
pub use sheet::{SHEET_WIDTH, Section, SectionBody, Sheet};
pub use text_table::{Look, text_table};
