//! A script read without running it: its tree, and findings placed in what was typed.

use super::grammar;
use super::limits::{self, Limits, StopFlag};
use super::lowering::lowered;
use super::script_error::ScriptError;
use super::text::rewrite::{Rewritten, Source, rewrite};
use super::translate;
use super::tree::Tree;
use crate::diagnostic::{Diagnostic, Label, literal_diagnostic};
use crate::quantity::Reading;
use rhai::{Engine, OptimizationLevel};

/// A script with its tree.
#[derive(Debug)]
pub(crate) struct ReadScript {
    /// The tree.
    pub(crate) tree: Tree,
    source: Source,
}

impl ReadScript {
    /// Reads a script under its file name. Nothing is evaluated, so that what cannot be reached is still there.
    ///
    /// # Errors
    /// The text is no script, in words.
    pub(crate) fn read(file: &str, typed: &str, reading: Reading) -> Result<Self, Diagnostic> {
        let Rewritten { text, source, .. } =
            rewrite(Some(file), typed, reading).map_err(|error| literal_diagnostic(Some(file), typed, &error))?;
        let mut engine = Engine::new_raw();
        grammar::set(&mut engine);
        engine.set_optimization_level(OptimizationLevel::None);
        let _meter = limits::apply(&mut engine, Limits::RECIPE, StopFlag::default());
        let ast = engine.compile(text).map_err(|error| translate::read_error(&error, &source))?;
        Ok(Self { tree: lowered(&ast, &source), source })
    }

    /// An error at a byte of the text.
    pub(crate) fn found(&self, at: usize, problem: ScriptError) -> Diagnostic {
        // Of a text with values in it the engine tells a place before its first sign.
        let next = || self.source.tokens().iter().map(|token| token.span.start).find(|start| *start > at);
        let on_line = next().filter(|next| self.line(*next) == self.line(at));
        let at = if self.source.token_at(at).is_some() { at } else { on_line.unwrap_or(at) };
        translate::placed_at(problem, Some(at), &self.source)
    }

    /// A further place, with what is to be said of it.
    pub(crate) fn label(&self, at: usize, words: &str) -> Label {
        let range = self.source.token_span(at).unwrap_or(at..at);
        Label { span: self.source.marked(vec![range]), words: words.to_owned() }
    }

    /// The token before which a statement that begins at a byte may be marked; `None` where it stands in no block.
    pub(super) fn statement_token(&self, at: usize) -> Option<usize> {
        let text = |token: usize| {
            let span = self.source.tokens().get(token).map(|token| token.span.clone());
            span.and_then(|span| self.source.typed.get(span)).unwrap_or_default()
        };
        let mut token = self.source.token_at(at)?;
        let before = token.checked_sub(1)?;
        // A statement is found by the name that it gives a value.
        if ["let", "const"].contains(&text(before)) {
            token = before;
        }
        let before = token.checked_sub(1)?;
        ["{", "}", ";"].contains(&text(before)).then_some(token)
    }

    /// The number of the line that holds a byte, from 1.
    pub(crate) fn line(&self, at: usize) -> usize {
        self.source.typed.get(..at).map_or(0, |before| before.matches('\n').count()) + 1
    }

    /// The text as typed.
    pub(crate) fn typed(&self) -> &str {
        &self.source.typed
    }

    /// The bytes of the tokens, in turn.
    pub(crate) fn tokens(&self) -> impl Iterator<Item = std::ops::Range<usize>> {
        self.source.tokens().iter().map(|token| token.span.clone())
    }
}
