//! How a typed sum of an answer is worked out: by the recipe's own host, or by a page with its cells.

use crate::diagnostic::Diagnostic;
use rhai::Dynamic;

/// Works out what was typed, as one expression; whoever gives it decides which names are known in it.
pub(crate) type Evaluate<'e> = &'e dyn Fn(&str) -> Result<Dynamic, Diagnostic>;
