//! A recipe and its helper files as one file, to pass on: the recipe first, and each helper below a line that names it.
//!
//! Never here: reading and writing files.

use crate::recipe::library::{RecipeText, without_blank_ends};
use std::collections::BTreeMap;
use std::fmt::Write;

/// What begins the line above a helper file.
const MARK: &str = "//! helper file:";

/// Most helper files of a recipe, one below the other included.
pub const MOST_HELPERS: usize = 16;

/// Takes a file apart into the recipe and the helper files that stand below it. Each helper keeps its lines where they
/// stand in the file, so that an error names the line of the file.
///
/// # Errors
/// Two helper files have one name, or there are more than [`MOST_HELPERS`], in words.
pub fn apart(text: &str) -> Result<(String, BTreeMap<String, String>), String> {
    let mut recipe = String::new();
    let mut helpers: BTreeMap<String, String> = BTreeMap::new();
    let mut current: Option<String> = None;
    for (place, line) in text.split_inclusive('\n').enumerate() {
        if let Some(name) = line.strip_prefix(MARK) {
            let name = name.trim().to_owned();
            if helpers.len() >= MOST_HELPERS {
                return Err(format!("it holds more than {MOST_HELPERS} helper files"));
            }
            // The line of the mark itself is blank there.
            if helpers.insert(name.clone(), "\n".repeat(place + 1)).is_some() {
                return Err(format!("it holds two helper files “{name}”"));
            }
            current = Some(name);
            continue;
        }
        match current.as_ref().and_then(|name| helpers.get_mut(name)) {
            Some(helper) => helper.push_str(line),
            None => recipe.push_str(line),
        }
    }
    Ok((recipe, helpers))
}

impl RecipeText {
    /// Writes the recipe and every helper file it imports, directly or through another, as one file.
    pub fn in_one_file(&self) -> String {
        let mut text = self.text.trim_end_matches(['\n', '\r']).to_owned();
        text.push('\n');
        for (name, helper) in self.reached() {
            let _infallible = write!(text, "\n{MARK} {name}\n{}\n", without_blank_ends(helper));
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn recipe() -> RecipeText {
        let helpers = [("b", "import \"c\" as c;\nfn b() { c::c() }\n"), ("c", "fn c() { 1 }"), ("d", "fn d() { 2 }")];
        RecipeText {
            name: "a".to_owned(),
            text: "import \"b\" as b;\nfn inputs() { [] }\n".to_owned(),
            helpers: helpers.into_iter().map(|(name, text)| (name.to_owned(), text.to_owned())).collect(),
        }
    }

    #[test]
    fn a_recipe_and_what_it_imports_are_one_file() {
        let one = recipe().in_one_file();
        assert_eq!(
            one,
            "import \"b\" as b;\nfn inputs() { [] }\n\n//! helper file: b\nimport \"c\" as c;\nfn b() { c::c() }\n\n\
             //! helper file: c\nfn c() { 1 }\n"
        );
    }

    #[test]
    fn one_file_comes_apart_with_every_line_where_it_stood() {
        let one = recipe().in_one_file();
        let (text, helpers) = apart(&one).unwrap();
        assert_eq!(text.trim_end(), recipe().text.trim_end());
        assert_eq!(helpers.keys().collect::<Vec<_>>(), ["b", "c"]);
        for (name, helper) in &helpers {
            let helpers = recipe().helpers;
            let wanted: Vec<&str> = helpers[name].lines().collect();
            let from = helper.lines().position(|line| !line.is_empty()).unwrap();
            assert_eq!(one.lines().nth(from), helper.lines().nth(from), "{name}");
            assert_eq!(helper.trim().lines().collect::<Vec<_>>(), wanted, "{name}");
        }
        // Passed on once more it is the same file, and it is the recipe that it was.
        let again = RecipeText { name: "a".to_owned(), text, helpers };
        assert_eq!(again.in_one_file(), one);
        assert_eq!(again.fingerprint(), recipe().fingerprint());
    }

    #[test]
    fn a_file_without_helpers_is_the_recipe() {
        assert_eq!(apart("fn inputs() { [] }\r\n"), Ok(("fn inputs() { [] }\r\n".to_owned(), BTreeMap::new())));
        assert_eq!(apart(""), Ok((String::new(), BTreeMap::new())));
    }

    /// Each helper is filled up with the lines above it, so that thousands of them would fill the memory.
    #[test]
    fn sixteen_helper_files_are_taken_apart_and_each_name_once() {
        let marks = |count: usize| (0..count).map(|n| format!("{MARK} h{n}\nfn f() {{ {n} }}\n")).collect::<String>();
        assert_eq!(apart(&marks(16)).unwrap().1.len(), 16);
        assert_eq!(apart(&marks(17)), Err("it holds more than 16 helper files".to_owned()));
        assert_eq!(apart(&marks(11_000)), Err("it holds more than 16 helper files".to_owned()));
        assert_eq!(apart(&marks(2).replace("h1", "h0")), Err("it holds two helper files “h0”".to_owned()));
    }
}
