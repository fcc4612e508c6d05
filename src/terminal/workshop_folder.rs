//! Finds and reads the workshop's folder.

use super::files::{self, FileProblem};
use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::quantity::Style;
use crate::workshop::{Workshop, WorkshopFile};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A workshop and the texts it was read from.
#[derive(Debug, Default)]
pub(super) struct Opened {
    /// `None` if there is no workshop.
    pub(super) folder: Option<PathBuf>,
    pub(super) workshop: Arc<Workshop>,
    /// The files, each a name and its text, for child processes.
    pub(super) texts: Vec<(String, String)>,
}

/// Finds the folder: `requested`, else `here` if it has workshop files, else `own` if it has any.
fn find(requested: Option<&Path>, here: &Path, own: Option<&Path>) -> Result<Option<PathBuf>, FileProblem> {
    let has_files = |folder: &Path| WorkshopFile::ALL.iter().any(|file| folder.join(file.name()).is_file());
    match requested {
        Some(requested) => {
            let folder = here.join(requested);
            if folder.is_dir() { Ok(Some(folder)) } else { Err(FileProblem::Missing(folder)) }
        }
        None => Ok([Some(here), own].into_iter().flatten().find(|folder| has_files(folder)).map(Path::to_path_buf)),
    }
}

/// Reads the workshop; the default workshop if there is no folder. An error lists everything that is wrong.
pub(super) fn open(requested: Option<&Path>, here: &Path, own: Option<&Path>) -> Result<Opened, Vec<Diagnostic>> {
    let Some(folder) = find(requested, here, own).map_err(|problem| match problem {
        FileProblem::Missing(folder) => {
            let none = Diagnostic::new(format!("there is no folder {}", folder.display()));
            vec![none.of_kind(DiagnosticKind::System)]
        }
        other => vec![other.into()],
    })?
    else {
        return Ok(Opened::default());
    };
    let mut texts = Vec::new();
    let mut problems = Vec::new();
    for file in WorkshopFile::ALL {
        match files::read(&folder.join(file.name())) {
            Ok(text) => texts.push((file.name().to_owned(), text)),
            Err(FileProblem::Missing(_)) => {}
            Err(problem) => problems.push(problem.into()),
        }
    }
    let named_texts: Vec<(&str, &str)> = texts.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    match Workshop::read(&named_texts) {
        Ok(workshop) if problems.is_empty() => Ok(Opened { folder: Some(folder), workshop: Arc::new(workshop), texts }),
        Ok(_) => Err(problems),
        Err(errors) => {
            problems.extend(errors.iter().map(|error| error.diagnostic(&Style::default())));
            Err(problems)
        }
    }
}
