//! Evaluation of an expression typed as an answer: by the recipe's own host, or by a page with its cells.

use crate::diagnostic::Diagnostic;
use rhai::Dynamic;

/// Evaluates what was typed as one expression; its provider decides which names are known in it.
pub(crate) type Evaluate<'e> = &'e dyn Fn(&str) -> Result<Dynamic, Diagnostic>;
