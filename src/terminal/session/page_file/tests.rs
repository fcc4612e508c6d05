//! Where a page is kept: under its name, aside, or nowhere; two windows on one page.

use super::*;
use std::time::Duration;

/// A folder for pages, and one for what is remembered.
struct Here(tempfile::TempDir);

impl Here {
    fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    fn at(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn window(&self) -> PageFile {
        PageFile::unnamed(Some(&self.at("state")))
    }

    fn text(&self, name: &str) -> String {
        fs::read_to_string(self.at(name)).unwrap()
    }

    /// The pages that were left, whoever holds them.
    fn left(&self) -> Vec<String> {
        let mut names = files::names_from(&self.at("state/pages"), "left-", 99);
        names.retain(|name| Path::new(name).extension().is_some_and(|end| end == "txt"));
        names
    }
}

#[test]
fn a_page_without_a_name_is_kept_aside_until_it_has_one() {
    let here = Here::new();
    let mut window = here.window();
    assert!(window.path().is_none() && window.left_pages().is_empty());
    assert_eq!(window.keep("waist = 56 cm\n").unwrap(), Written::Kept);
    assert_eq!(window.keep("waist = 57 cm\n").unwrap(), Written::Kept);
    assert_eq!(here.left().len(), 1);
    // Its own window does not offer it, nor does another while this one runs.
    assert!(window.left_pages().is_empty() && here.window().left_pages().is_empty());
    window.save_as(&here.at("fair.txt"), "waist = 58 cm\n").unwrap();
    assert_eq!(window.path(), Some(here.at("fair.txt").as_path()));
    assert_eq!((here.text("fair.txt").as_str(), window.saved.as_str()), ("waist = 58 cm\n", "waist = 58 cm\n"));
    assert!(here.left().is_empty());
    // From then on each line goes into its file, and what was saved last stays what it was.
    assert_eq!(window.keep("waist = 59 cm\n").unwrap(), Written::Kept);
    assert_eq!((here.text("fair.txt").as_str(), window.saved.as_str()), ("waist = 59 cm\n", "waist = 58 cm\n"));
    window.save_as(&here.at("fair.txt"), "waist = 60 cm\n").unwrap();
    assert_eq!((here.text("fair.txt").as_str(), window.saved.as_str()), ("waist = 60 cm\n", "waist = 60 cm\n"));
}

#[test]
fn a_page_that_was_left_is_taken_up_by_the_next_window() {
    let here = Here::new();
    let mut window = here.window();
    window.keep("waist = 56 cm\n\n  \nhips = 61 cm\n").unwrap();
    drop(window);
    let mut next = here.window();
    let left = next.left_pages();
    assert_eq!(left.iter().map(LeftPage::lines).collect::<Vec<_>>(), [2]);
    let text = next.take_up(&left[0]).unwrap();
    assert_eq!((text.as_str(), next.saved.as_str()), ("waist = 56 cm\n\n  \nhips = 61 cm\n", text.as_str()));
    // It is this window's own now, under another name.
    assert_eq!(here.left().len(), 1);
    assert!(next.left_pages().is_empty() && !left[0].path.exists() && !left[0].lock.exists());
    drop(next);
    assert_eq!(here.window().left_pages().len(), 1);
}

#[test]
fn a_name_that_is_taken_is_not_written_over() {
    let here = Here::new();
    fs::write(here.at("fair.txt"), "theirs\n").unwrap();
    let mut window = here.window();
    let taken = window.save_as(&here.at("fair.txt"), "ours\n").unwrap_err();
    assert!(matches!(taken, FileProblem::Taken(_)), "{taken}");
    assert!(window.path().is_none() && here.text("fair.txt") == "theirs\n");
    window.save_as(&here.at("ours.txt"), "ours\n").unwrap();
    assert!(matches!(window.rename(&here.at("fair.txt"), "ours\n"), Err(FileProblem::Taken(_))));
    assert_eq!((here.text("fair.txt").as_str(), here.text("ours.txt").as_str()), ("theirs\n", "ours\n"));
}

#[test]
fn a_page_that_is_renamed_leaves_nothing_under_its_old_name() {
    let here = Here::new();
    let mut window = here.window();
    window.save_as(&here.at("fair.txt"), "waist = 56 cm\n").unwrap();
    assert_eq!(window.rename(&here.at("good.txt"), "waist = 56 cm\n").unwrap(), Some(here.at("fair.txt")));
    assert!(!here.at("fair.txt").exists() && here.text("good.txt") == "waist = 56 cm\n");
    assert_eq!(window.path(), Some(here.at("good.txt").as_path()));
    // To the name that it has, nothing is taken away.
    window.rename(&here.at("good.txt"), "waist = 57 cm\n").unwrap();
    assert_eq!(here.text("good.txt"), "waist = 57 cm\n");
    // What somebody else wrote under the old name stays.
    fs::write(here.at("good.txt"), "theirs\n").unwrap();
    assert_eq!(window.rename(&here.at("best.txt"), "ours\n").unwrap(), None);
    assert_eq!((here.text("good.txt").as_str(), here.text("best.txt").as_str()), ("theirs\n", "ours\n"));
    // A page without a name has no old one.
    assert_eq!(here.window().rename(&here.at("new.txt"), "new\n").unwrap(), None);
}

#[test]
fn what_another_program_wrote_is_left_alone_and_the_page_is_kept_aside() {
    let here = Here::new();
    let mut window = here.window();
    let fair = here.at("fair.txt");
    window.save_as(&fair, "ours\n").unwrap();
    fs::write(&fair, "theirs\n").unwrap();
    assert_eq!(window.keep("ours, changed\n").unwrap(), Written::Conflict(fair.clone()));
    assert_eq!((here.text("fair.txt").as_str(), here.left().len()), ("theirs\n", 1));
    // Told once; then it is kept aside without more words, and its name is no longer its own.
    assert_eq!(window.keep("ours, changed again\n").unwrap(), Written::Kept);
    assert_eq!(here.text("fair.txt"), "theirs\n");
    assert_eq!(fs::read_to_string(here.at("state/pages").join(&here.left()[0])).unwrap(), "ours, changed again\n");
    assert!(matches!(window.save_as(&fair, "ours\n"), Err(FileProblem::Taken(_))));
    window.save_as(&here.at("mine.txt"), "ours\n").unwrap();
    assert!(here.left().is_empty() && here.text("mine.txt") == "ours\n");
}

#[test]
fn a_save_finds_what_another_program_wrote_too() {
    let here = Here::new();
    let mut window = here.window();
    window.save_as(&here.at("fair.txt"), "ours\n").unwrap();
    fs::write(here.at("fair.txt"), "theirs\n").unwrap();
    assert!(matches!(window.save_as(&here.at("fair.txt"), "more\n"), Err(FileProblem::Changed(_))));
    assert_eq!((here.text("fair.txt").as_str(), window.saved.as_str()), ("theirs\n", "ours\n"));
}

#[test]
fn a_file_that_is_gone_is_written_again_and_one_that_cannot_be_read_is_not_ours() {
    let here = Here::new();
    let mut window = here.window();
    window.save_as(&here.at("fair.txt"), "ours\n").unwrap();
    fs::remove_file(here.at("fair.txt")).unwrap();
    assert_eq!(window.keep("ours again\n").unwrap(), Written::Kept);
    assert_eq!(here.text("fair.txt"), "ours again\n");
    fs::write(here.at("fair.txt"), [0xff, 0xfe]).unwrap();
    assert_eq!(window.keep("more\n").unwrap(), Written::Conflict(here.at("fair.txt")));
}

#[test]
fn a_page_that_another_window_has_open_is_told_and_ones_own_is_not() {
    let here = Here::new();
    fs::write(here.at("fair.txt"), "waist = 56 cm\n").unwrap();
    fs::write(here.at("other.txt"), "hips = 61 cm\n").unwrap();
    let (mut first, mut second) = (here.window(), here.window());
    assert_eq!(first.open(&here.at("fair.txt")).unwrap(), ("waist = 56 cm\n".to_owned(), false));
    assert_eq!(first.open(&here.at("fair.txt")).unwrap(), ("waist = 56 cm\n".to_owned(), false));
    assert_eq!(first.saved, "waist = 56 cm\n");
    assert_eq!(second.open(&here.at("fair.txt")).unwrap(), ("waist = 56 cm\n".to_owned(), true));
    assert_eq!(second.open(&here.at("other.txt")).unwrap(), ("hips = 61 cm\n".to_owned(), false));
    // What one keeps, the other finds changed.
    second.open(&here.at("fair.txt")).unwrap();
    assert_eq!(first.keep("first\n").unwrap(), Written::Kept);
    assert_eq!(second.keep("second\n").unwrap(), Written::Conflict(here.at("fair.txt")));
    assert!(matches!(first.open(&here.at("none.txt")), Err(FileProblem::Missing(_))));
}

/// Lines without a name are set aside when a page is opened: they stay among those that were left.
#[test]
fn lines_without_a_name_stay_when_a_page_is_opened() {
    let here = Here::new();
    fs::write(here.at("fair.txt"), "waist = 56 cm\n").unwrap();
    let mut window = here.window();
    window.keep("hips = 61 cm\n").unwrap();
    window.open(&here.at("fair.txt")).unwrap();
    assert_eq!(window.left_pages().iter().map(LeftPage::lines).collect::<Vec<_>>(), [1]);
}

#[test]
fn without_a_place_for_it_nothing_is_remembered() {
    let here = Here::new();
    let mut window = PageFile::unnamed(None);
    assert_eq!(window.keep("waist = 56 cm\n").unwrap(), Written::Nowhere);
    assert!(window.left_pages().is_empty());
    window.save_as(&here.at("fair.txt"), "waist = 56 cm\n").unwrap();
    assert_eq!(window.keep("waist = 57 cm\n").unwrap(), Written::Kept);
    assert_eq!(here.text("fair.txt"), "waist = 57 cm\n");
    // Another window cannot be told of it, and finds no lock.
    assert!(!PageFile::unnamed(None).open(&here.at("fair.txt")).unwrap().1);
}

#[test]
fn all_pages_without_a_name_are_kept_the_latest_first() {
    let here = Here::new();
    let folder = here.at("state/pages");
    fs::create_dir_all(&folder).unwrap();
    for number in 0..23 {
        let name = folder.join(format!("left-7-{number}.txt"));
        fs::write(&name, "a\n".repeat(number + 1)).unwrap();
        let when = SystemTime::UNIX_EPOCH + Duration::from_secs(1_000_000 + u64::try_from(number).unwrap());
        fs::File::options().write(true).open(&name).unwrap().set_modified(when).unwrap();
        fs::write(name.with_extension("lock"), "").unwrap();
    }
    for other in ["left-7-1.csv", "fair.txt", "open-1.lock"] {
        fs::write(folder.join(other), "").unwrap();
    }
    let lines: Vec<usize> = here.window().left_pages().iter().map(LeftPage::lines).collect();
    assert_eq!(lines, (1..=23).rev().collect::<Vec<_>>());
    let there = |name: &str| folder.join(name).exists();
    assert_eq!(here.left().len(), 23);
    assert!(there("left-7-0.txt") && there("left-7-0.lock"));
    assert!(there("left-7-1.csv") && there("fair.txt") && there("open-1.lock"));
}
