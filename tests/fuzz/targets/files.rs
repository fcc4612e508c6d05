//! Target `files`: takes a text as a file of the workshop and as a table, reads it, and writes what was read.

use super::{as_read, assert_all_told};
use shirr::diagnostic::Diagnostic;

use shirr::recipe::run::Answering;
use shirr::recipe::{PROTOCOL, Reply, Request, Task, library};
use shirr::workshop::{Workshop, WorkshopFile};

/// Reads a text as each file of the workshop; what is read is written as it was.
pub fn try_text(text: &str) -> bool {
    let read = as_read(text);
    for file in WorkshopFile::ALL {
        // The materials that a row names have to be there.
        let listed = "material,kind,usable width\nlawn,cloth,44 in\ntape,elastic,1 in\n";
        let beside = matches!(file, WorkshopFile::Stock | WorkshopFile::Trials).then_some(("materials.csv", listed));
        let files: Vec<(&str, &str)> = beside.into_iter().chain([(file.name(), text)]).collect();
        match Workshop::read(&files) {
            Err(errors) => {
                assert!(!errors.is_empty(), "{} fails without a word", file.name());
                assert_all_told(&read, &told(&files));
            }
            Ok(workshop) => assert_eq!(there_and_back(&workshop), workshop, "{} changes when written", file.name()),
        }
    }
    true
}

/// What is told of files that cannot be read.
fn told(files: &[(&str, &str)]) -> Vec<Diagnostic> {
    let request = Request {
        protocol: PROTOCOL,
        recipe: library::shipped("bunting"),
        workshop: Some(files.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()),
        plain: false,
        task: Task::Describe,
    };
    match Answering::default().answer(request) {
        Reply::Failed(errors) => errors,
        other => panic!("files that cannot be read give {other:?}"),
    }
}

/// Writes all files of a workshop and reads them back.
fn there_and_back(workshop: &Workshop) -> Workshop {
    let texts = WorkshopFile::ALL.map(|file| {
        let mut out = Vec::new();
        workshop.write(file, &mut out).expect("memory takes it");
        (file.name(), String::from_utf8(out).expect("a file is text"))
    });
    let files: Vec<(&str, &str)> = texts.iter().map(|(name, text)| (*name, text.as_str())).collect();
    match Workshop::read(&files) {
        Ok(again) => again,
        Err(errors) => panic!("what was written cannot be read: {errors:?}\n{texts:?}"),
    }
}
