//! Helper files that a recipe imports by plain name.
//!
//! A name is looked up only among the texts the host was given: no paths, no disk.

use super::function_literals;
use super::read_script::ReadScript;
use super::runs::Runs;
use super::script_error::ScriptError;
use super::sources::Sources;
use super::text::rewrite::{Rewritten, rewrite, rewrite_marked};
use super::translate;
use crate::quantity::nearest::nearest;
use crate::quantity::{Reading, Style};
use rhai::{Engine, EvalAltResult, Module, ModuleResolver, Position, Scope, Shared};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Finds imported helper files among given texts.
pub(super) struct Library {
    texts: BTreeMap<String, String>,
    reading: Reading,
    sources: Sources,
    runs: Option<Runs>,
    /// Modules already evaluated; `None` while one is loading, to detect circular imports.
    loaded: RefCell<BTreeMap<String, Option<Shared<Module>>>>,
}

impl Library {
    /// A library of helper texts by plain name.
    pub(super) fn new(texts: BTreeMap<String, String>, reading: Reading, sources: Sources, runs: Option<Runs>) -> Self {
        Self { texts, reading, sources, runs, loaded: RefCell::default() }
    }

    fn load(&self, engine: &Engine, name: &str) -> Result<Shared<Module>, Box<EvalAltResult>> {
        let Some(text) = self.texts.get(name) else {
            let near = nearest(name, self.texts.keys().map(String::as_str));
            let problem = ScriptError::new(format!("there is no helper file “{name}”"));
            return Err(problem.with_hint(near.map(|near| format!("did you mean \"{near}\"?"))).into());
        };
        let file = format!("{name}.rhai");
        let script = self.runs.as_ref().and_then(|runs| {
            // One that cannot be read is told of below.
            let script = ReadScript::read(&file, text, self.reading).ok()?;
            Some(runs.marks(&file, &script))
        });
        let rewritten = match script {
            Some(marks) => rewrite_marked(&file, text, self.reading, marks),
            None => rewrite(Some(&file), text, self.reading),
        };
        let Rewritten { text: rewritten, source, .. } = rewritten.map_err(|error| {
            let error = ScriptError::of(&error, &Style::default());
            ScriptError { message: format!("{file}: {}", error.message), ..error }
        })?;
        self.sources.borrow_mut().insert(file.clone(), source);
        let mut ast = engine.compile(rewritten).map_err(|error| {
            EvalAltResult::ErrorInModule(
                file.clone(),
                Box::new(EvalAltResult::ErrorParsing(error.err_type().clone(), error.position())),
                Position::NONE,
            )
        })?;
        if let Some(position) = function_literals::misplaced(&ast) {
            // The place is one in the helper, so the inner error must hold it.
            let mut error: Box<EvalAltResult> = translate::misplaced_function().into();
            error.set_position(position);
            return Err(EvalAltResult::ErrorInModule(file, error, Position::NONE).into());
        }
        ast.set_source(file);
        Module::eval_ast_as_new(Scope::new(), &ast, engine).map(Shared::new)
    }
}

impl ModuleResolver for Library {
    fn resolve(
        &self,
        engine: &Engine,
        _source: Option<&str>,
        path: &str,
        _position: Position,
    ) -> Result<Shared<Module>, Box<EvalAltResult>> {
        match self.loaded.borrow().get(path) {
            Some(Some(module)) => return Ok(Shared::clone(module)),
            Some(None) => {
                return Err(ScriptError::new(format!("the helper file “{path}” imports itself in a circle")).into());
            }
            None => {}
        }
        self.loaded.borrow_mut().insert(path.to_owned(), None);
        let module = self.load(engine, path);
        match &module {
            Ok(module) => self.loaded.borrow_mut().insert(path.to_owned(), Some(Shared::clone(module))),
            Err(_) => self.loaded.borrow_mut().remove(path),
        };
        module
    }
}

#[cfg(test)]
mod tests;
