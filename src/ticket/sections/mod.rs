//! The sections of an order: one list for everything that shows one, that is, screen, sheet, files and ticket members.
//!
//! An empty section is left out everywhere except among the CSV files, where a program that reads them finds its
//! headings. Never here: how a section is drawn; files on disk.

mod cut_list;
mod instructions;
mod labels;

use super::cautions;
use super::job::Job;
use super::lay_error::LayError;
use super::small_cuts;
use super::wash_words;
use super::workshop_order::WorkshopOrder;
use crate::plans::{self, SheetBlock};
use crate::quantity::rounding;
use crate::table::{Cell, Table, TableError};
use std::rc::Rc;

/// A section of an order. Sections are shown in the order of `SECTIONS`, but screen and sheet show cautions last.
#[derive(Debug)]
pub struct OrderSection {
    /// The name of its table, its file and its ticket member; with spaces for underscores, its heading on the screen.
    pub name: &'static str,
    /// One line of help.
    pub summary: &'static str,
    content: Content,
    /// How the screen shows it; `None` if it does not.
    pub screen: Option<Form>,
    /// Its heading and form on the work sheet; `None` if it is not shown there.
    pub sheet: Option<(&'static str, Form)>,
    /// The content of its file, if it has one. A section with a file is also a ticket member.
    pub file: Option<FileForm>,
}

/// How a section is made.
#[derive(Clone, Copy, Debug)]
enum Content {
    Table(fn(&WorkshopOrder) -> Result<Table, LayError>),
    Texts(fn(&WorkshopOrder) -> Result<Vec<String>, LayError>),
    /// Blocks of lines, each with its label.
    Blocks(fn(&WorkshopOrder) -> Result<Vec<SheetBlock>, LayError>),
    /// A table, and the same in sentences.
    TableInWords(fn(&WorkshopOrder) -> Result<Table, LayError>, fn(&Table) -> Vec<String>),
}

/// How a section is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Sentences without a heading.
    Sentences,
    /// A page to cut from.
    CutPage,
    /// A table to read.
    Table,
    /// A table to tick off.
    TickList,
    /// Numbered steps.
    Steps,
    /// One paragraph each.
    Notes,
    /// Cautions, made hard to overlook.
    Cautions,
}

/// The content of a section's file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileForm {
    /// The section's table.
    Table,
    /// Lines for stock.csv: leftovers to put on the shelf.
    Stock,
}

/// Defaults for a section: shown nowhere.
const NOWHERE: OrderSection = OrderSection {
    name: "",
    summary: "",
    content: Content::Texts(|_| Ok(Vec::new())),
    screen: None,
    sheet: None,
    file: None,
};

/// The sections, in the order in which they are shown and written.
static SECTIONS: [OrderSection; 24] = [
    OrderSection {
        name: "measure_again",
        content: Content::Texts(|order| Ok(order.ticket().warnings.clone())),
        sheet: Some(("Measure again", Form::Notes)),
        ..NOWHERE
    },
    OrderSection {
        name: "have_ready",
        content: Content::Table(|order| Ok(have_ready(&order.job())?)),
        sheet: Some(("Have ready", Form::TickList)),
        ..NOWHERE
    },
    OrderSection {
        name: "washing",
        content: Content::Texts(|order| Ok(wash_words::sentences(&order.job(), order.lays()?, order.small_cuts()?))),
        screen: Some(Form::Sentences),
        ..NOWHERE
    },
    OrderSection {
        name: "cutting",
        content: Content::Blocks(WorkshopOrder::cut_page),
        sheet: Some(("Cutting", Form::CutPage)),
        ..NOWHERE
    },
    OrderSection {
        name: "small_cuts",
        summary: "the cuts of elastic, tapes and cords",
        content: Content::Table(|order| Ok(small_cuts::table(order.small_cuts()?, order.plan_words().small())?)),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "plan",
        content: Content::Texts(|order| {
            let words = order.plan_words();
            Ok(order.plan_reports()?.iter().flat_map(|report| plans::sentences(report, &words)).collect())
        }),
        screen: Some(Form::Sentences),
        ..NOWHERE
    },
    OrderSection {
        name: "plan_quality",
        content: Content::Texts(|order| {
            let reports = order.plan_reports()?;
            let quality = plans::quality_sentences(&reports, &order.plan_words());
            Ok(plans::stopped_sentence(&reports).into_iter().chain(quality).collect())
        }),
        screen: Some(Form::Sentences),
        ..NOWHERE
    },
    OrderSection {
        name: "plan_notes",
        content: Content::Texts(WorkshopOrder::plan_notes),
        screen: Some(Form::Sentences),
        ..NOWHERE
    },
    OrderSection {
        name: "cut_list",
        summary: "every piece with its cut size",
        content: Content::Table(|order| Ok(cut_list::cut_list(&order.job())?)),
        screen: Some(Form::Table),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "buy_list",
        summary: "what comes from the shelf and what must be bought",
        content: Content::Table(|order| Ok(order.bill()?.table()?)),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "to_buy",
        content: Content::Table(|order| Ok(order.bill()?.to_buy()?)),
        screen: Some(Form::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "from_the_shelf",
        content: Content::Table(|order| Ok(order.bill()?.taken_from_the_shelf()?)),
        screen: Some(Form::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "leftovers",
        summary: "what is left and worth keeping",
        content: Content::Table(|order| Ok(plans::leftovers_table(order.leftovers()?, &order.plan_words())?)),
        screen: Some(Form::Table),
        file: Some(FileForm::Stock),
        ..NOWHERE
    },
    OrderSection {
        name: "stitching",
        summary: "every sewing line with its thread",
        content: Content::Table(|order| Ok(order.stitching()?.lines.clone())),
        screen: Some(Form::Table),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "thread",
        summary: "the thread of each stitch class",
        content: Content::Table(|order| Ok(order.stitching()?.classes.clone())),
        screen: Some(Form::Table),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "minutes",
        summary: "every piece of work with its minutes",
        content: Content::Table(|order| Ok(order.minutes()?.table.clone())),
        screen: Some(Form::Table),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "cost",
        summary: "every line of the cost; its money adds up to the cost",
        content: Content::Table(WorkshopOrder::cost_table),
        screen: Some(Form::Table),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "price_lines",
        summary: "from the cost to the price; its money adds up to the price",
        content: Content::Table(WorkshopOrder::price_table),
        screen: Some(Form::Table),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "not_in_price",
        summary: "what is bought and what the shelf saves; added up, what an empty shelf would cost",
        content: Content::Table(WorkshopOrder::not_in_price),
        screen: Some(Form::Table),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "totals",
        summary: "minutes, cost, price and the price of one garment, and what they leave out",
        content: Content::Table(WorkshopOrder::totals),
        screen: Some(Form::Table),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "marks",
        summary: "the marks to make",
        content: Content::Table(|order| Ok(instructions::marks(&order.job())?)),
        screen: Some(Form::Table),
        file: Some(FileForm::Table),
        ..NOWHERE
    },
    OrderSection {
        name: "steps",
        summary: "the steps in words",
        content: Content::TableInWords(instructions::steps, |steps| texts(steps, "what to do")),
        screen: Some(Form::Steps),
        sheet: Some(("Sew", Form::Steps)),
        file: Some(FileForm::Table),
    },
    OrderSection {
        name: "cautions",
        summary: "the cautions with their sources",
        content: Content::TableInWords(
            |order| Ok(cautions::table(order.ticket(), order.market())?),
            |cautions| texts(cautions, "caution"),
        ),
        screen: Some(Form::Cautions),
        sheet: Some(("Cautions", Form::Cautions)),
        file: Some(FileForm::Table),
    },
    OrderSection {
        name: "labels",
        summary: "what goes on the labels",
        content: Content::TableInWords(|order| Ok(labels::table(&order.job())?), labels::sentences),
        screen: Some(Form::Notes),
        sheet: Some(("Labels", Form::Notes)),
        file: Some(FileForm::Table),
    },
];

impl OrderSection {
    /// Returns the sections on the screen, each with its form.
    pub fn on_screen() -> impl Iterator<Item = (&'static Self, Form)> {
        let shown = SECTIONS.iter().filter_map(|section| Some((section, section.screen?)));
        cautions_last(shown, |(_, form)| *form)
    }

    /// Returns the sections of the work sheet, each with its heading and form.
    pub fn on_sheet() -> impl Iterator<Item = (&'static Self, &'static str, Form)> {
        let shown = SECTIONS.iter().filter_map(|section| {
            let (heading, form) = section.sheet?;
            Some((section, heading, form))
        });
        cautions_last(shown, |(.., form)| *form)
    }

    /// Returns the sections with a file, which are also the ticket members.
    pub fn in_files() -> impl Iterator<Item = (&'static Self, FileForm)> {
        SECTIONS.iter().filter_map(|section| Some((section, section.file?)))
    }

    /// Returns the section that is the ticket member of this name.
    pub fn of_member(name: &str) -> Option<&'static Self> {
        Self::in_files().map(|(section, _)| section).find(|section| section.name == name)
    }

    #[cfg(test)]
    pub(super) fn named(name: &str) -> Option<&'static Self> {
        SECTIONS.iter().find(|section| section.name == name)
    }

    /// Returns its table; `None` if it has only sentences.
    ///
    /// # Errors
    /// A plan or a table that it needs cannot be made.
    pub fn table(&self, order: &WorkshopOrder) -> Result<Option<Rc<Table>>, LayError> {
        match self.content {
            Content::Texts(_) | Content::Blocks(_) => Ok(None),
            Content::Table(make) | Content::TableInWords(make, _) => order.table_once(self.name, make).map(Some),
        }
    }

    /// Returns its blocks of lines; empty if it has none.
    ///
    /// # Errors
    /// A plan that it needs cannot be made.
    pub(crate) fn blocks(&self, order: &WorkshopOrder) -> Result<Vec<SheetBlock>, LayError> {
        match self.content {
            Content::Blocks(make) => make(order),
            Content::Texts(_) | Content::Table(_) | Content::TableInWords(..) => Ok(Vec::new()),
        }
    }

    /// Returns its sentences; empty if it has only a table.
    ///
    /// # Errors
    /// A plan or a table that it needs cannot be made.
    pub fn texts(&self, order: &WorkshopOrder) -> Result<Vec<String>, LayError> {
        match self.content {
            Content::Table(_) | Content::Blocks(_) => Ok(Vec::new()),
            Content::Texts(make) => make(order),
            Content::TableInWords(make, in_words) => Ok(in_words(&*order.table_once(self.name, make)?)),
        }
    }
}

fn cautions_last<T>(shown: impl Iterator<Item = T>, form: fn(&T) -> Form) -> impl Iterator<Item = T> {
    let (last, first): (Vec<T>, Vec<T>) = shown.partition(|shown| form(shown) == Form::Cautions);
    first.into_iter().chain(last)
}

/// Returns the texts of a column.
fn texts(table: &Table, column: &str) -> Vec<String> {
    let cells = table.values(column).into_iter().flatten();
    cells.filter_map(|cell| if let Cell::Text(text) = cell { Some(text.clone()) } else { None }).collect()
}

/// Builds the table of notions: each length to have ready, and how many times; of what is counted, how many.
fn have_ready(job: &Job<'_>) -> Result<Table, TableError> {
    let columns = Table::new("have_ready").text("what").count("times").mixed("each", "unit");
    let mut table = columns.text("for").ready()?;
    let style = job.step_style();
    for need in &job.ticket.needs {
        let Some((material, _)) = job.material(need.material) else { continue };
        let pieces = job.ticket.pieces_needed(need);
        let counted = need.amount.to_number().ok().and_then(rounding::counted);
        let (times, each) = match counted {
            Some(count) => (count.saturating_mul(pieces), Cell::Blank),
            None => (pieces, style.on_tape(job.amount_needed(need, material)).into()),
        };
        table.push(vec![material.name.as_str().into(), times.into(), each, need.why.as_str().into()])?;
    }
    Ok(table)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn names_are_unlike_and_forms_fit_what_a_section_is() {
        let names: BTreeSet<&str> = SECTIONS.iter().map(|section| section.name).collect();
        assert_eq!(names.len(), SECTIONS.len());
        for section in &SECTIONS {
            let (is_table, in_words) = match section.content {
                Content::Table(_) => (true, false),
                Content::Texts(_) | Content::Blocks(_) => (false, true),
                Content::TableInWords(..) => (true, true),
            };
            assert!(section.screen.is_some() || section.sheet.is_some() || section.file.is_some(), "{}", section.name);
            for form in [section.screen, section.sheet.map(|(_, form)| form)].into_iter().flatten() {
                let fits = if matches!(form, Form::Table | Form::TickList) { is_table } else { in_words };
                assert!(fits, "{} as {form:?}", section.name);
            }
            assert!(section.file.is_none() || is_table && !section.summary.is_empty(), "{}", section.name);
        }
    }

    #[test]
    fn cautions_come_last_on_screen_and_sheet() {
        assert_eq!(OrderSection::on_screen().last().unwrap().0.name, "cautions");
        assert_eq!(OrderSection::on_sheet().last().unwrap().0.name, "cautions");
    }
}
