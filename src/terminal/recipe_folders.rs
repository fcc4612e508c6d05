//! Where a recipe is looked for by its name: at home, which is the folder `recipes` of the workshop and then that of the
//! user's own data, among those that come with the program, and in the folder the program was started in.
//!
//! A name means the same everywhere; what it hides is said. A file is named with its ending.

use crate::recipe::library;
use std::path::{Path, PathBuf};

/// The folder of a workshop, or of the user's data, that holds recipes.
const HOME: &str = "recipes";

/// The ending of a recipe's file.
pub(super) const ENDING: &str = "rhai";

/// The folders in which recipes are looked for.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct RecipeFolders {
    /// The folder the program was started in.
    pub(super) here: PathBuf,
    /// The homes that a workshop and the user have, whether they are there or not.
    pub(super) homes: Vec<PathBuf>,
}

/// Where the recipe of a name is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// It comes with the program.
    Shipped,
    /// It is this file, which may be missing.
    File(PathBuf),
}

/// A recipe's place, and what else has its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Located {
    pub(super) place: Place,
    /// What of the same name is not taken.
    pub(super) hidden: Option<Place>,
    /// Whether it was asked for by its name, not as a file.
    pub(super) by_name: bool,
    /// Every file that decides this, whether it is there or not.
    pub(super) decides: Vec<PathBuf>,
}

impl RecipeFolders {
    /// The folders of a session: where it was started, its workshop's folder and the user's data folder.
    pub(super) fn new(here: &Path, workshop: Option<&Path>, own: Option<&Path>) -> Self {
        let mut homes: Vec<PathBuf> = Vec::new();
        for home in [workshop, own].into_iter().flatten().map(|folder| folder.join(HOME)) {
            if !homes.contains(&home) {
                homes.push(home);
            }
        }
        Self { here: here.to_path_buf(), homes }
    }

    /// Where a new recipe belongs: the first home, else the folder the program was started in.
    pub(super) fn for_new(&self) -> &Path {
        self.homes.first().unwrap_or(&self.here)
    }

    /// Whether a file lies at home.
    pub(super) fn is_at_home(&self, path: &Path) -> bool {
        path.parent().is_some_and(|folder| self.homes.iter().any(|home| home == folder))
    }

    /// Finds the recipe that a name or a file means.
    pub(super) fn locate(&self, written: &str) -> Located {
        let is_file = written.contains(['/', '\\']) || Path::new(written).extension().is_some_and(|end| end == ENDING);
        if is_file {
            let path = self.here.join(written);
            return Located { place: Place::File(path.clone()), hidden: None, by_name: false, decides: vec![path] };
        }
        let file = format!("{written}.{ENDING}");
        let local = self.here.join(&file);
        let mut decides: Vec<PathBuf> = self.homes.iter().map(|home| home.join(&file)).collect();
        let shipped = library::shipped_names().any(|name| name == written).then_some(Place::Shipped);
        let found = decides.iter().filter(|path| path.is_file()).cloned().map(Place::File);
        let there = local.is_file() && !decides.contains(&local);
        let mut found = found.chain(shipped).chain(there.then(|| Place::File(local.clone())));
        let place = found.next().unwrap_or_else(|| Place::File(local.clone()));
        let hidden = found.next();
        drop(found);
        decides.push(local);
        Located { place, hidden, by_name: true, decides }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn a_name_means_the_recipe_at_home_then_the_shipped_one_then_the_file_here() {
        let all = tempfile::tempdir().unwrap();
        let at = |name: &str| all.path().join(name);
        let file = |name: &str| Place::File(at(name));
        for name in [
            "here/frill.rhai",
            "here/puff_sleeve.rhai",
            "here/mine.rhai",
            "shop/recipes/mine.rhai",
            "own/recipes/mine.rhai",
            "own/recipes/far.rhai",
            "shop/recipes/bunting.rhai",
        ] {
            fs::create_dir_all(at(name).parent().unwrap()).unwrap();
            fs::write(at(name), "fn inputs() { [] }").unwrap();
        }
        let folders = RecipeFolders::new(&at("here"), Some(&at("shop")), Some(&at("own")));
        let found = |written: &str| {
            let located = folders.locate(written);
            (located.place, located.hidden)
        };
        assert_eq!(found("mine"), (file("shop/recipes/mine.rhai"), Some(file("own/recipes/mine.rhai"))));
        assert_eq!(found("far"), (file("own/recipes/far.rhai"), None));
        assert_eq!(found("bunting"), (file("shop/recipes/bunting.rhai"), Some(Place::Shipped)));
        assert_eq!(found("puff_sleeve"), (Place::Shipped, Some(file("here/puff_sleeve.rhai"))));
        assert_eq!(found("frill"), (file("here/frill.rhai"), None));
        assert_eq!(found("valance"), (Place::Shipped, None));
        // What is nowhere would be here, and a file is where it says.
        assert_eq!(found("later"), (file("here/later.rhai"), None));
        assert_eq!(found("mine.rhai"), (file("here/mine.rhai"), None));
        assert_eq!(found("../own/recipes/far.rhai").0, Place::File(at("here").join("../own/recipes/far.rhai")));
        assert_eq!(folders.locate("later").decides.len(), 3);
        assert_eq!(folders.for_new(), at("shop/recipes"));
    }

    #[test]
    fn a_workshop_in_the_data_folder_has_one_home_and_none_has_none() {
        let folders = RecipeFolders::new(Path::new("/here"), Some(Path::new("/own")), Some(Path::new("/own")));
        assert_eq!(folders.homes, [Path::new("/own/recipes")]);
        let none = RecipeFolders::new(Path::new("/here"), None, None);
        assert_eq!((none.homes.len(), none.for_new()), (0, Path::new("/here")));
        // The home itself may be where the program was started: a file is not hidden by itself.
        let all = tempfile::tempdir().unwrap();
        let home = all.path().join("recipes");
        fs::create_dir(&home).unwrap();
        fs::write(home.join("mine.rhai"), "fn inputs() { [] }").unwrap();
        let inside = RecipeFolders::new(&home, Some(all.path()), None);
        assert_eq!(inside.locate("mine").hidden, None);
    }
}
