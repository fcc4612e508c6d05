//! What completion and hints may query while a line is typed.
//!
//! Every query runs at a keystroke, so it must be fast: cells come from memory, however long the page is. Never
//! here: running a recipe that is not shipped, computing a cell.

use super::typed_line::TypedFor;
use crate::recipe::Possible;
use std::rc::Rc;

/// The page, the recipes and the files, as completion and hints see them.
pub(crate) trait CompletionSource {
    /// The names of cells that begin with `prefix`, in order, at most `most`.
    fn names_from(&self, prefix: &str, most: usize) -> Vec<String>;
    /// The names of rates and materials that a sum may read.
    fn workshop_names(&self) -> Vec<String> {
        Vec::new()
    }
    /// The value of a cell as shown, such as `56 cm`; also of a member, `first.panels`. `None` if there is no
    /// such cell or it has no value.
    fn value_of(&self, name: &str) -> Option<String>;
    /// The members of a ticket or a table, as they are typed; also of a member, `first.cut_list`.
    fn members_of(&self, name: &str) -> Vec<String>;
    /// Names of recipes: the shipped ones and those in the folder.
    fn recipes(&self) -> Vec<String>;
    /// The inputs of a recipe in the order in which they are asked: name and question.
    fn inputs_of(&self, recipe: &str) -> Vec<(String, String)>;
    /// The recipe of the order in a cell, if the cell holds one.
    fn recipe_in(&self, cell: &str) -> Option<String>;
    /// The names that an order of a recipe may answer besides its inputs, such as `size`.
    fn answered_besides(&self, recipe: &str) -> Vec<String>;
    /// What may be typed behind `input=`; `None` if the recipe or the input is not known. Called only at the tab key.
    fn possible(&self, recipe: &str, input: &str) -> Option<Possible>;
    /// What the question may be answered with that is being asked; `None` if none is.
    fn question(&self) -> Option<Rc<Possible>>;
    /// The file names that begin with `typed`; a folder ends with `/`. Called only at the tab key.
    fn files_from(&self, typed: &str) -> Vec<String>;
    /// What is being typed: a line of the page, or the answer to a question.
    fn typed_for(&self) -> TypedFor {
        if self.question().is_some() { TypedFor::Question } else { TypedFor::Page }
    }
}

/// A fixed page for tests.
#[cfg(test)]
#[derive(Debug, Default)]
pub(crate) struct ExamplePage {
    /// Cells with their values as shown.
    pub(crate) cells: std::collections::BTreeMap<String, String>,
    /// Members of cells.
    pub(crate) members: std::collections::BTreeMap<String, Vec<String>>,
    /// Recipes with their inputs.
    pub(crate) recipes: std::collections::BTreeMap<String, Vec<(String, String)>>,
    /// What may answer an input of any recipe, by the input's name.
    pub(crate) possible: std::collections::BTreeMap<String, Possible>,
    /// The question that is being answered.
    pub(crate) question: Option<Rc<Possible>>,
    /// Files of the folder.
    pub(crate) files: Vec<String>,
    /// Rates and materials of the workshop.
    pub(crate) workshop: Vec<String>,
}

#[cfg(test)]
impl ExamplePage {
    /// A page of a few cells, a ticket, a table, a recipe and some files.
    pub(crate) fn example() -> Self {
        let owned = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
        let cells = [
            ("waist", "56 cm"),
            ("waist_flat", "112 cm"),
            ("ärmel", "22 cm"),
            ("飾り", "3 in"),
            ("first", "ticket of gathered_skirt"),
            ("orders", "table of 3 rows"),
        ];
        let inputs = [("waist", "round the waist"), ("cloth", "which cloth"), ("length", "finished length")];
        let sums = |answers: &[&str]| Possible { takes_sums: true, ..Possible::words(answers.iter().copied()) };
        let cloths =
            ["ivory net", "ivory net wide", "Blue check lawn", "denim", "maker's own", "50/50 \u{1b}[2Jtwill", "any"];
        Self {
            cells: cells.map(|(name, value)| (name.to_owned(), value.to_owned())).into(),
            members: [
                ("first".to_owned(), owned(&["panels", "price", "cut_list"])),
                ("first.cut_list".to_owned(), owned(&["piece", "count", "rows"])),
                ("orders".to_owned(), owned(&["days", "cloth", "rows"])),
            ]
            .into(),
            recipes: [
                (
                    "gathered_skirt".to_owned(),
                    inputs.map(|(name, question)| (name.to_owned(), question.to_owned())).into(),
                ),
                ("gathered_trim".to_owned(), Vec::new()),
            ]
            .into(),
            possible: [
                ("waist".to_owned(), sums(&[])),
                ("gathers".to_owned(), sums(&["lawn once", "lawn twice"])),
                ("cloth".to_owned(), Possible::words(cloths)),
                ("lined".to_owned(), Possible::words(["yes", "no"])),
                ("size".to_owned(), Possible::words(["Pip", "Wren"])),
            ]
            .into(),
            question: None,
            files: owned(&["orders.csv", "orders may.csv", "may.txt", "it's.csv", "sub/"]),
            workshop: Vec::new(),
        }
    }
}

#[cfg(test)]
impl CompletionSource for ExamplePage {
    fn names_from(&self, prefix: &str, most: usize) -> Vec<String> {
        let from = self.cells.range(prefix.to_owned()..).map(|(name, _)| name);
        from.take_while(|name| name.starts_with(prefix)).take(most).cloned().collect()
    }

    fn workshop_names(&self) -> Vec<String> {
        self.workshop.clone()
    }

    fn value_of(&self, name: &str) -> Option<String> {
        self.cells.get(name).cloned()
    }

    fn members_of(&self, name: &str) -> Vec<String> {
        self.members.get(name).cloned().unwrap_or_default()
    }

    fn recipes(&self) -> Vec<String> {
        self.recipes.keys().cloned().collect()
    }

    fn inputs_of(&self, recipe: &str) -> Vec<(String, String)> {
        self.recipes.get(recipe).cloned().unwrap_or_default()
    }

    fn files_from(&self, typed: &str) -> Vec<String> {
        self.files.iter().filter(|name| name.starts_with(typed)).cloned().collect()
    }

    fn recipe_in(&self, cell: &str) -> Option<String> {
        (cell == "first").then(|| "gathered_skirt".to_owned())
    }

    fn answered_besides(&self, _: &str) -> Vec<String> {
        vec!["size".to_owned(), "washing".to_owned()]
    }

    fn possible(&self, _: &str, input: &str) -> Option<Possible> {
        self.possible.get(input).cloned()
    }

    fn question(&self) -> Option<Rc<Possible>> {
        self.question.clone()
    }
}
