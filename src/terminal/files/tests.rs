//! Files on disk: what is read, what is replaced, and what is told where neither can be.

use super::*;

#[test]
fn names_in_a_folder_are_those_that_begin_so() {
    let here = tempfile::tempdir().unwrap();
    fs::create_dir(here.path().join("orders")).unwrap();
    for name in ["orders.csv", "order 2.csv", ".ordered", "may.txt", "orders/june.csv", "order\u{1b}[2J.csv"] {
        fs::write(here.path().join(name), "").unwrap();
    }
    assert_eq!(names_from(here.path(), "order", 9), ["order 2.csv", "orders.csv", "orders/"]);
    assert_eq!(names_from(here.path(), "order", 1), ["order 2.csv"]);
    assert_eq!(names_from(here.path(), "orders/", 9), ["orders/june.csv"]);
    assert_eq!(names_from(here.path(), ".", 9), [".ordered"]);
    assert_eq!(names_from(here.path(), "", 9), ["may.txt", "order 2.csv", "orders.csv", "orders/"]);
    assert!(names_from(here.path(), "none/", 9).is_empty());
}

fn is(problem: &FileProblem, words: &str) {
    assert_eq!(problem.to_string(), words);
}

#[test]
fn a_text_is_read_whole_up_to_four_megabytes() {
    let here = tempfile::tempdir().unwrap();
    let at = |name: &str| here.path().join(name);
    fs::write(at("small.txt"), "waist = 56 cm\n").unwrap();
    assert_eq!(read(&at("small.txt")).unwrap(), "waist = 56 cm\n");
    let four = 4 * 1024 * 1024;
    fs::write(at("full.txt"), "x".repeat(four)).unwrap();
    assert_eq!(read(&at("full.txt")).unwrap().len(), four);
    fs::write(at("over.txt"), "x".repeat(four + 1)).unwrap();
    let over = read(&at("over.txt")).unwrap_err();
    is(&over, &format!("{} holds 5 MB; a file that is read here may hold 4 MB", at("over.txt").display()));
    let seven = FileProblem::TooLarge("big.txt".into(), 7 << 20, MOST_BYTES);
    is(&seven, "big.txt holds 7 MB; a file that is read here may hold 4 MB");
}

#[test]
fn what_cannot_be_read_is_told_apart() {
    let here = tempfile::tempdir().unwrap();
    let at = |name: &str| here.path().join(name);
    assert!(matches!(read(&at("none.txt")), Err(FileProblem::Missing(path)) if path == at("none.txt")));
    assert!(matches!(read(here.path()), Err(FileProblem::Folder(path)) if path == here.path()));
    fs::write(at("letter.doc"), [0xd0, 0xcf, 0x11, 0xe0]).unwrap();
    assert!(matches!(read(&at("letter.doc")), Err(FileProblem::NotText(_))));
    // A file where a folder should be.
    assert!(matches!(read(&at("letter.doc/x")), Err(FileProblem::Read(..))));
    #[cfg(unix)]
    assert!(matches!(read(Path::new("/dev/null")), Err(FileProblem::NotPlain(_))));
}

#[test]
fn each_problem_says_what_it_is_and_what_to_do() {
    let path = || PathBuf::from("may.txt");
    let full = || io::Error::from(io::ErrorKind::StorageFull);
    is(&FileProblem::Missing(path()), "there is no file may.txt");
    is(&FileProblem::Folder(path()), "may.txt is a folder, not a file");
    is(&FileProblem::NotPlain(path()), "may.txt is not an ordinary file");
    is(&FileProblem::Read(path(), full()), "may.txt cannot be read: the disk is full");
    is(&FileProblem::Write(path(), full()), "may.txt cannot be written: the disk is full");
    for (problem, begins, holds) in [
        (FileProblem::Taken(path()), "there is a file may.txt already", "give another name"),
        (FileProblem::NotText(path()), "may.txt is not plain text", "save it as plain text"),
        (
            FileProblem::Partly(path(), 2, 5, full()),
            "may.txt cannot be written: the disk is full",
            "2 of 5 files are new",
        ),
        (FileProblem::Unsure(path(), full()), "what is new in may.txt may be lost", "write it again"),
        (FileProblem::Left(path(), full()), "may.txt is of an earlier run", "remove it by hand"),
        (FileProblem::OldName(path(), full()), "the page has its new name, but may.txt", "remove it by hand"),
        (FileProblem::Changed(path()), "may.txt was changed by another window", "save this page under another name"),
    ] {
        let text = problem.to_string();
        assert!(text.starts_with(begins) && text.contains(holds), "{text}");
    }
}

#[test]
fn the_systems_errors_are_in_plain_words() {
    use io::ErrorKind;
    for (kind, words) in [
        (ErrorKind::NotFound, "it is not there"),
        (ErrorKind::PermissionDenied, "it is not allowed"),
        (ErrorKind::StorageFull, "the disk is full"),
        (ErrorKind::QuotaExceeded, "the disk is full"),
        (ErrorKind::ReadOnlyFilesystem, "the folder is read-only"),
        (ErrorKind::NotADirectory, "a file stands where its folder should be"),
        (ErrorKind::AlreadyExists, "something of that name is there already"),
    ] {
        assert_eq!(reason(&kind.into()), words);
    }
    // Any other in the system's own words, without its number.
    assert_eq!(reason(&io::Error::other("Cold Iron (os error 77)")), "cold iron");
    assert_eq!(reason(&io::Error::other("Cold Iron")), "cold iron");
}

#[test]
fn files_that_are_made_write_over_nothing_and_leave_nothing_half_done() {
    let here = tempfile::tempdir().unwrap();
    let folder = here.path().join("mine/shop");
    let texts =
        |names: &[&str]| names.iter().map(|name| ((*name).to_owned(), name.as_bytes().to_vec())).collect::<Vec<_>>();
    create_all(&folder, &texts(&["rates.csv", "sizes.csv"])).unwrap();
    assert_eq!(read(&folder.join("sizes.csv")).unwrap(), "sizes.csv");
    let again = create_all(&folder, &texts(&["stock.csv", "rates.csv"])).unwrap_err();
    assert!(matches!(&again, FileProblem::Taken(path) if *path == folder.join("rates.csv")), "{again}");
    assert_eq!(names_from(&folder, "", 9), ["rates.csv", "sizes.csv"]);
    assert_eq!(names_from(&folder, ".", 9), [""; 0]);
    // An earlier file is replaced where that is asked for.
    replace_all(&folder, &[("rates.csv".to_owned(), b"new".to_vec())]).unwrap();
    assert_eq!(read(&folder.join("rates.csv")).unwrap(), "new");
    // A folder in the place of a file, and a folder that was made for nothing.
    let other = here.path().join("other/deep");
    fs::create_dir_all(here.path().join("other/deep2/x.csv")).unwrap();
    let is_folder = create_all(&here.path().join("other/deep2"), &texts(&["x.csv"])).unwrap_err();
    assert!(matches!(is_folder, FileProblem::Folder(_)), "{is_folder}");
    let one_too_many = texts(&["a.csv", "a.csv"]);
    assert!(matches!(create_all(&other, &one_too_many), Err(FileProblem::Taken(_))));
    assert!(!other.exists() && here.path().join("other").is_dir());
}

#[test]
fn a_file_in_the_way_of_a_folder_is_told() {
    let here = tempfile::tempdir().unwrap();
    fs::write(here.path().join("mine"), "").unwrap();
    let shop = here.path().join("mine/shop/deep");
    let below = make_folders(&shop).unwrap_err();
    assert!(below.to_string().ends_with("a file stands where its folder should be"), "{below}");
    let itself = make_folders(&here.path().join("mine")).unwrap_err();
    assert!(itself.to_string().ends_with("something of that name is there already"), "{itself}");
    make_folders(&here.path().join("ours/shop/deep")).unwrap();
    make_folders(&here.path().join("ours/shop/deep")).unwrap();
    assert!(here.path().join("ours/shop/deep").is_dir());
    check_room(&here.path().join("not/there/yet")).unwrap();
    assert!(check_room(&shop).is_err());
    assert_eq!(names_from(here.path(), "", 9), ["mine", "ours/"]);
    assert_eq!(names_from(here.path(), ".", 9), [""; 0]);
}

#[test]
fn files_are_removed_and_those_that_are_gone_are_no_problem() {
    let here = tempfile::tempdir().unwrap();
    for name in ["page 1", "page 2", "kept"] {
        fs::write(here.path().join(name), "").unwrap();
    }
    remove_all(here.path(), &["page 1", "page 2", "page 3"].map(str::to_owned)).unwrap();
    assert_eq!(names_from(here.path(), "", 9), ["kept"]);
    fs::create_dir(here.path().join("a folder")).unwrap();
    let folder = remove_all(here.path(), &["a folder".to_owned()]).unwrap_err();
    assert!(matches!(folder, FileProblem::Left(..)), "{folder}");
    remove_old_name(&here.path().join("kept")).unwrap();
    remove_old_name(&here.path().join("kept")).unwrap();
    assert!(matches!(remove_old_name(&here.path().join("a folder")), Err(FileProblem::OldName(..))));
    assert_eq!(names_from(here.path(), "", 9), ["a folder/"]);
    assert_eq!((folder_of(Path::new("x.txt")), folder_of(Path::new("a/x.txt"))), (Path::new("."), Path::new("a")));
}

#[cfg(unix)]
#[test]
fn a_private_file_is_the_users_alone_and_a_replaced_one_keeps_its_readers() {
    use std::os::unix::fs::PermissionsExt;
    let here = tempfile::tempdir().unwrap();
    let at = |name: &str| here.path().join(name);
    let mode = |name: &str| fs::metadata(at(name)).unwrap().permissions().mode() & 0o777;
    replace_private(&at("left.txt"), b"a").unwrap();
    assert_eq!(mode("left.txt"), 0o600);
    replace(&at("page.txt"), b"a").unwrap();
    assert_eq!(mode("page.txt") & 0o600, 0o600);
    fs::set_permissions(at("page.txt"), fs::Permissions::from_mode(0o640)).unwrap();
    replace(&at("page.txt"), b"other").unwrap();
    assert_eq!((mode("page.txt"), read(&at("page.txt")).unwrap().as_str()), (0o640, "other"));
    // Of a link, what it leads to.
    std::os::unix::fs::symlink(at("page.txt"), at("link.txt")).unwrap();
    replace(&at("link.txt"), b"through").unwrap();
    assert_eq!(read(&at("page.txt")).unwrap(), "through");
    assert!(fs::symlink_metadata(at("link.txt")).unwrap().file_type().is_symlink());
}

#[test]
fn a_stamp_tells_the_length_of_a_file_and_none_of_no_file() {
    let here = tempfile::tempdir().unwrap();
    fs::write(here.path().join("a"), "seven b").unwrap();
    assert_eq!(stamp(&here.path().join("a")).map(|(_, bytes)| bytes), Some(7));
    assert_eq!(stamp(&here.path().join("b")), None);
}

#[test]
fn only_what_a_kill_left_long_ago_is_swept() {
    let here = tempfile::tempdir().unwrap();
    fs::write(here.path().join("now"), "").unwrap();
    let now = fs::metadata(here.path().join("now")).unwrap().modified().unwrap();
    let old = now - ABANDONED - Duration::from_secs(1);
    let files = [
        (".fair.txt.aB3dE6", old, false),
        (".fair.txt.aB3dE7", now - ABANDONED / 2, true),
        (".fair.txt.aB3dE", old, true),
        (".fair.txt.aB3dE67", old, true),
        (".fair.txt.aB-dE6", old, true),
        (".fair.txt2.aB3dE6", old, true),
        ("fair.txt", old, true),
    ];
    for (name, changed, _) in files {
        fs::write(here.path().join(name), "waist = 56 cm\n").unwrap();
        let file = fs::File::options().write(true).open(here.path().join(name)).unwrap();
        file.set_modified(changed).unwrap();
    }
    sweep(&here.path().join("fair.txt"));
    for (name, _, stays) in files {
        assert_eq!(here.path().join(name).exists(), stays, "{name}");
    }
    // What is written now is named so that it would be found.
    let file = NewFile::create(here.path(), &hidden_prefix("fair.txt"), Readers::Usual).unwrap();
    let made = names_from(here.path(), ".fair.txt.", 9);
    assert!(made.iter().any(|name| name.len() == ".fair.txt.".len() + RANDOM_LETTERS), "{made:?}");
    file.remove().unwrap();
}
