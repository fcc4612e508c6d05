//! The workshop: materials, stock, trials, rates, sizes and settings, read from CSV text and written back.
//!
//! | file | holds |
//! |---|---|
//! | materials.csv | materials, and how they are sold |
//! | stock.csv | what is on the shelf |
//! | trials.csv | measured test strips with the machine's settings |
//! | rates.csv | minutes of work, and what an hour and a sale cost |
//! | sizes.csv | body measures under a name |
//! | settings.csv | tape, currency, dialect and the like |
//!
//! The files for cutting a list of pieces are read here too; they may be in any folder.
//!
//! Each file is checked as a whole: all errors of all files are returned at once, with their lines and columns.
//! Never here: files on disk (text comes in, text goes out), and actions that change the stock.

mod adding;
mod checked_file;
mod cut_rows;
mod demo_files;
mod fields;
mod figure;
mod file_error;
mod layout;
mod market;
mod material_rows;
mod materials;
pub(crate) mod names;
mod price;
mod rates;
mod row_text;
mod set_up;
mod set_up_rows;
mod settings;
mod sizes;
mod stock;
#[cfg(test)]
mod tests;
mod trial_rows;
mod trials;
mod typed;
mod washing;
mod written;

pub(crate) use adding::add;
#[cfg(test)]
pub(crate) use cut_rows::LengthRow;
pub(crate) use cut_rows::{LengthRows, PieceRow, PlanRow, read_cut_files, read_plan};
pub(crate) use demo_files::DEMO_FILES;
pub(crate) use figure::PRICE as PRICE_FIGURE;
pub(crate) use file_error::{WorkshopFileError, WorkshopFileErrorKind};
pub(crate) use market::Market;
pub(crate) use materials::{Material, Materials, PriceFor, SoldBy};
pub(crate) use price::PriceError;
pub(crate) use rates::{Minutes, Overhead, RateError, Rates};
pub(crate) use set_up::{PlainSkirt, SetUp};
pub(crate) use settings::Settings;
pub(crate) use sizes::{Size, Sizes};
pub(crate) use stock::{Stock, StockPiece};
pub(crate) use trials::{Pass, Trial, Trials};
pub(crate) use washing::Washing;

use crate::table::Located;
use std::io;
use stock::KnownMaterials;

/// A file of the workshop folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WorkshopFile {
    /// settings.csv
    Settings,
    /// materials.csv
    Materials,
    /// stock.csv
    Stock,
    /// trials.csv
    Trials,
    /// rates.csv
    Rates,
    /// sizes.csv
    Sizes,
}

impl WorkshopFile {
    /// All files, the settings first, because they decide how the rest is read.
    pub const ALL: [Self; 6] = [Self::Settings, Self::Materials, Self::Stock, Self::Trials, Self::Rates, Self::Sizes];

    /// The file's name in the workshop folder.
    pub fn name(self) -> &'static str {
        match self {
            Self::Settings => "settings.csv",
            Self::Materials => "materials.csv",
            Self::Stock => "stock.csv",
            Self::Trials => "trials.csv",
            Self::Rates => "rates.csv",
            Self::Sizes => "sizes.csv",
        }
    }

    /// The file with this name, ignoring case and any folder before it.
    pub fn named(name: &str) -> Option<Self> {
        let last = name.rsplit(['/', '\\']).next().unwrap_or(name).to_lowercase();
        Self::ALL.into_iter().find(|file| file.name() == last)
    }

    /// The columns that hold values of any kind in a table read from the file of this name; empty for a file that is none
    /// of the workshop's.
    pub(crate) fn columns_of_any_kind(name: &str) -> &'static [&'static str] {
        match Self::named(name) {
            // Cloth by its area, tape by its length, a thread by its size.
            Some(Self::Materials) => &[material_rows::WEIGHT],
            Some(Self::Rates) => &[rates::VALUE],
            Some(Self::Settings) => &[settings::VALUE],
            Some(Self::Stock | Self::Trials | Self::Sizes) | None => &[],
        }
    }
}

/// The contents of a workshop's files.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Workshop {
    /// What is cut and sewn with.
    pub materials: Materials,
    /// What is on the shelf.
    pub stock: Stock,
    /// Measured test strips.
    pub trials: Trials,
    /// Minutes and money.
    pub rates: Rates,
    /// Body measures.
    pub sizes: Sizes,
    /// Tape, currency, dialect and the like.
    pub settings: Settings,
}

impl Workshop {
    /// Reads the files of a workshop, each given as its name and its text, in any order. A file that is not given
    /// leaves its part empty; a name that is not a workshop file is ignored.
    ///
    /// # Errors
    /// All errors of all files, those of settings.csv first.
    pub fn read(files: &[(&str, &str)]) -> Result<Self, Vec<WorkshopFileError>> {
        let mut errors = Vec::new();
        let mut workshop = Self::default();
        let mut material_names = Some(Vec::new());
        for kind in WorkshopFile::ALL {
            let mut matching = files.iter().filter(|(name, _)| WorkshopFile::named(name) == Some(kind));
            let Some((file, text)) = matching.next() else { continue };
            for (again, _) in matching {
                let kind = WorkshopFileErrorKind::GivenTwice;
                errors.push(Located::new(again, kind));
            }
            let mut found = Vec::new();
            let known = material_names.as_deref().map(|names| KnownMaterials { materials: &workshop.materials, names });
            let settings = &workshop.settings;
            match kind {
                WorkshopFile::Settings => workshop.settings = Settings::gather(file, text, &mut found),
                WorkshopFile::Materials => {
                    let gathered = Materials::gather(file, text, settings, &mut found);
                    material_names = gathered.names;
                    workshop.materials = gathered.materials;
                }
                WorkshopFile::Stock => workshop.stock = Stock::gather(file, text, settings, known.as_ref(), &mut found),
                WorkshopFile::Trials => {
                    workshop.trials = Trials::gather(file, text, settings, known.as_ref(), &mut found);
                }
                WorkshopFile::Rates => workshop.rates = Rates::gather(file, text, settings, &mut found),
                WorkshopFile::Sizes => workshop.sizes = Sizes::gather(file, text, settings, &mut found),
            }
            errors.extend(found);
        }
        if errors.is_empty() { Ok(workshop) } else { Err(errors) }
    }

    /// Writes one file, in the workshop's dialect; it reads back as the same data.
    pub fn write(&self, file: WorkshopFile, out: impl io::Write) -> io::Result<()> {
        match file {
            WorkshopFile::Settings => self.settings.write(out),
            WorkshopFile::Materials => self.materials.write(&self.settings, out),
            WorkshopFile::Stock => self.stock.write(&self.settings, out),
            WorkshopFile::Trials => self.trials.write(&self.settings, out),
            WorkshopFile::Rates => self.rates.write(&self.settings, out),
            WorkshopFile::Sizes => self.sizes.write(&self.settings, out),
        }
    }
}
