//! Finds and reads the workshop's folder.

use super::files::{self, FileProblem};
use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::quantity::{Quantity, Style};
use crate::workshop::{Workshop, WorkshopFile};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The files of a workshop, each a name and its text.
type Texts = Vec<(String, String)>;

/// A workshop and the texts it was read from.
#[derive(Clone, Debug, Default)]
pub(super) struct Opened {
    /// `None` if there is no workshop.
    pub(super) folder: Option<PathBuf>,
    pub(super) workshop: Arc<Workshop>,
    /// The files, for child processes.
    pub(super) texts: Texts,
    /// The workshop with other figures, while they are supposed.
    supposed: Option<Arc<Workshop>>,
}

impl Opened {
    /// The workshop that orders are reckoned with: as it is, or with the figures that are supposed. Recipes see neither
    /// rates nor prices, and run in the workshop as it is.
    pub(super) fn reckoned_with(&self) -> &Arc<Workshop> {
        self.supposed.as_ref().unwrap_or(&self.workshop)
    }

    /// Whether other figures are supposed.
    pub(super) fn is_supposing(&self) -> bool {
        self.supposed.is_some()
    }

    /// Supposes other figures until the next call, each by its name; none: the workshop is as it is.
    pub(super) fn suppose(&mut self, figures: &[(&str, Quantity)]) -> Result<(), Diagnostic> {
        self.supposed = None;
        if figures.is_empty() {
            return Ok(());
        }
        let mut supposed = Workshop::clone(&self.workshop);
        for (name, value) in figures {
            let other = supposed.with_figure(name, *value);
            supposed = other.map_err(|error| {
                let because = error.diagnostic(&Style::default());
                Diagnostic { message: format!("{name}: {}", because.message), ..because }
            })?;
        }
        self.supposed = Some(Arc::new(supposed));
        Ok(())
    }
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
        Ok(workshop) if problems.is_empty() => {
            Ok(Opened { folder: Some(folder), workshop: Arc::new(workshop), texts, supposed: None })
        }
        Ok(_) => Err(problems),
        Err(errors) => {
            problems.extend(errors.iter().map(|error| error.diagnostic(&Style::default())));
            Err(problems)
        }
    }
}
