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
    /// What is wrong with its files; the workshop then has its settings alone, which sums are reckoned and shown with.
    pub(super) faults: Vec<Diagnostic>,
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

    /// Fails where files are wrong, for what needs them.
    pub(super) fn check(&self) -> Result<(), Diagnostic> {
        match self.faults.as_slice() {
            [] => Ok(()),
            [fault] => Err(fault.clone()),
            faults => Err(Diagnostic::several("", faults.to_vec())),
        }
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

/// Reads the workshop; the default workshop if there is no folder. If files are wrong and the settings are not, the
/// workshop has its settings alone, and [`Opened::faults`] lists everything that is wrong.
///
/// # Errors
/// The folder is not there, or the settings are wrong: everything that is.
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
            let workshop = Arc::new(workshop);
            return Ok(Opened { folder: Some(folder), workshop, texts, supposed: None, faults: Vec::new() });
        }
        Ok(_) => {}
        Err(errors) => problems.extend(errors.iter().map(|error| error.diagnostic(&Style::default()))),
    }
    let settings = WorkshopFile::Settings.name();
    let is_read = !folder.join(settings).exists() || texts.iter().any(|(name, _)| name == settings);
    texts.retain(|(name, _)| name == settings);
    let alone: Vec<(&str, &str)> = texts.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    match Workshop::read(&alone) {
        Ok(workshop) if is_read => {
            let workshop = Arc::new(workshop);
            Ok(Opened { folder: Some(folder), workshop, texts, supposed: None, faults: problems })
        }
        _ => Err(problems),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Tape;
    use std::fs;

    const METRIC: &str = "setting,value\ntape,metric\n";

    #[test]
    fn the_folder_is_the_one_asked_for_else_the_one_with_files() {
        let all = tempfile::tempdir().unwrap();
        let at = |name: &str| all.path().join(name);
        for name in ["here", "own", "asked", "bare"] {
            fs::create_dir(at(name)).unwrap();
        }
        fs::write(at("own").join("settings.csv"), METRIC).unwrap();
        let folder = |requested: Option<&str>, here: &str, own: Option<&str>| {
            let own = own.map(at);
            open(requested.map(Path::new), &at(here), own.as_deref()).unwrap().folder
        };
        // Nothing is here: the user's own. Files are here: those. A folder that is asked for may be empty.
        assert_eq!(folder(None, "here", Some("own")), Some(at("own")));
        assert_eq!(folder(None, "here", Some("bare")), None);
        assert_eq!(folder(None, "here", None), None);
        fs::write(at("here").join("rates.csv"), "operation,per,minutes\n").unwrap();
        assert_eq!(folder(None, "here", Some("own")), Some(at("here")));
        assert_eq!(folder(Some("../asked"), "here", Some("own")), Some(at("here").join("../asked")));
        let missing = open(Some(Path::new("none")), &at("here"), None).unwrap_err();
        assert_eq!(missing[0].message, format!("there is no folder {}", at("here").join("none").display()));
    }

    #[test]
    fn a_workshop_is_its_files_and_every_problem_of_them_is_told() {
        let here = tempfile::tempdir().unwrap();
        let empty = open(None, here.path(), None).unwrap();
        assert!(empty.folder.is_none() && empty.texts.is_empty() && empty.workshop.settings.tape == Tape::Inch);
        fs::write(here.path().join("settings.csv"), METRIC).unwrap();
        let opened = open(None, here.path(), None).unwrap();
        assert_eq!(opened.workshop.settings.tape, Tape::Metric);
        assert_eq!(opened.texts, [("settings.csv".to_owned(), METRIC.to_owned())]);
        fs::write(here.path().join("sizes.csv"), [0xff, 0xfe]).unwrap();
        let one = open(None, here.path(), None).unwrap();
        let faults = &one.faults;
        assert!(faults.len() == 1 && faults[0].message.contains("sizes.csv is not plain text"), "{faults:?}");
        assert!(one.check().is_err() && opened.check().is_ok());
        // The settings alone are there, and what would be worked out with the rest is not.
        assert_eq!(one.workshop.settings.tape, Tape::Metric);
        assert_eq!(one.texts, opened.texts);
        fs::write(here.path().join("rates.csv"), "operation,per,minutes,set-up,value\nwage,,,,$18/h\n").unwrap();
        assert!(open(None, here.path(), None).unwrap().workshop.rate_in_cell("wage").is_none());
        fs::remove_file(here.path().join("rates.csv")).unwrap();
        fs::write(here.path().join("settings.csv"), "setting,value\ntape,furlong\n").unwrap();
        let two = open(None, here.path(), None).unwrap_err();
        assert!(two.len() == 2 && two[0].message.contains("sizes.csv"), "{two:?}");
    }

    /// $18 an hour, supposed to be $24, and back.
    #[test]
    fn figures_are_supposed_until_they_are_not() {
        let here = tempfile::tempdir().unwrap();
        fs::write(here.path().join("rates.csv"), "operation,per,minutes,set-up,value\nwage,,,,$18/h\n").unwrap();
        let mut opened = open(None, here.path(), None).unwrap();
        let wage =
            |opened: &Opened| opened.reckoned_with().rate_in_cell("wage").map(|rate| Style::default().show(rate));
        assert_eq!((wage(&opened).as_deref(), opened.is_supposing()), (Some("$18.00/h"), false));
        let price = opened.workshop.rate_in_cell("wage").unwrap();
        let more = Quantity::from_steps(price.steps() * 4.0 / 3.0, price.dimension()).liking(price.liked());
        opened.suppose(&[("wage", more)]).unwrap();
        assert_eq!((wage(&opened).as_deref(), opened.is_supposing()), (Some("$24.00/h"), true));
        assert!(opened.suppose(&[("nosuch", more)]).unwrap_err().message.starts_with("nosuch: "));
        assert!(!opened.is_supposing());
        opened.suppose(&[("wage", more)]).unwrap();
        opened.suppose(&[]).unwrap();
        assert_eq!((wage(&opened).as_deref(), opened.is_supposing()), (Some("$18.00/h"), false));
    }
}
