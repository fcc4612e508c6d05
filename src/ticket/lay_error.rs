//! Why a ticket's pieces cannot be laid, and the words for it.
//!
//! Never here: laying them.

use crate::cutting::CuttingError;
use crate::diagnostic::{Diagnose, DiagnosticKind};
use crate::quantity::Style;
use crate::table::TableError;
use crate::textile::TextileError;

/// Why a ticket's pieces cannot be laid.
#[derive(Clone, Debug, PartialEq)]
pub enum LayError {
    /// The usable width of the material is unknown.
    NoWidth {
        /// The material.
        material: String,
        /// The input it answers.
        input: Option<String>,
    },
    /// The widths of a panel cannot be joined.
    Panels {
        /// The piece.
        piece: String,
        /// The input its material answers.
        input: Option<String>,
        /// Why.
        error: TextileError,
    },
    /// The recipe names a piece and gives it no shape.
    NoShape {
        /// The piece.
        piece: String,
    },
    /// The planner cannot place a piece.
    Cutting {
        /// The material.
        material: String,
        /// The input it answers.
        input: Option<String>,
        /// The planner's error.
        error: CuttingError,
    },
    /// An amount of the order is beyond what a table holds.
    Table(TableError),
}

impl From<TableError> for LayError {
    fn from(error: TableError) -> Self {
        Self::Table(error)
    }
}

impl Diagnose for LayError {
    fn message(&self, style: &Style) -> String {
        match self {
            Self::NoWidth { material, .. } => format!("nobody has said how wide “{material}” is"),
            Self::Panels { piece, error, .. } => format!("“{piece}”: {}", error.message(style)),
            Self::NoShape { piece } => format!("the piece “{piece}” was given no shape"),
            Self::Cutting { material, error, .. } => format!("“{material}”: {}", error.message(style)),
            Self::Table(error) => error.to_string(),
        }
    }

    /// The caller turns an error with an [`input`](LayError::input) into a refusal.
    fn kind(&self) -> DiagnosticKind {
        match self {
            Self::NoWidth { .. } | Self::NoShape { .. } => DiagnosticKind::Error,
            Self::Panels { error, .. } => error.kind(),
            Self::Cutting { error, .. } => error.kind(),
            Self::Table(error) => error.kind(),
        }
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::NoWidth { .. } => Some("fill in its usable width in materials.csv".to_owned()),
            Self::Panels { error, .. } => error.hint(),
            Self::NoShape { .. } => Some("type .rectangle(along, across) or another shape behind it".to_owned()),
            Self::Cutting { error, .. } => error.hint(),
            Self::Table(error) => error.hint(),
        }
    }
}

impl LayError {
    /// Returns the input for which the order must be refused.
    pub fn input(&self) -> Option<&str> {
        match self {
            Self::NoWidth { input, .. } | Self::Panels { input, .. } | Self::Cutting { input, .. } => input.as_deref(),
            Self::NoShape { .. } | Self::Table(_) => None,
        }
    }
}
