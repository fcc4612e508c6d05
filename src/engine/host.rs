//! The script engine with the program's literals, functions and limits.

use super::function::Function;
use super::function_literals;
use super::grammar;
use super::limits::{self, Limits, Meter, StopFlag};
use super::member::Member;
use super::modules::Library;
use super::notices::Notices;
use super::read_script::ReadScript;
use super::runs::Runs;
use super::sources::Sources;
use super::text::rewrite::{
    LITERAL_NAMES, Literals, Rewritten, Source, Words, rewrite, rewrite_expression, rewrite_marked,
};
use super::text::tokens::TokenKind;
use super::translate::Translation;
use super::{collections, functions, operators, value};
use crate::diagnostic::{Diagnostic, literal_diagnostic};
use crate::quantity::{Reading, Style};
use rhai::packages::{ArithmeticPackage, BasicIteratorPackage, BasicStringPackage, LogicPackage, Package};
use rhai::{AST, ASTNode, CallFnOptions, Dynamic, Engine, Expr, FuncArgs, OptimizationLevel, Scope};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// A compiled script.
#[derive(Clone, Debug)]
pub struct Script {
    pub(crate) ast: AST,
    source: Source,
    /// The values of the literals that were replaced by names.
    literals: Box<[Dynamic]>,
}

/// A script engine that calculates with quantities under limits; it stays on one thread.
pub struct Host {
    engine: Engine,
    reading: Reading,
    style: Style,
    sources: Sources,
    members: &'static [Member],
    notices: Notices,
    meter: Meter,
    /// What has run, where that is asked for.
    runs: Option<Runs>,
}

impl Host {
    /// An engine with every built-in function.
    pub fn new(reading: Reading, style: Style, limits: Limits, stop: StopFlag) -> Self {
        let mut engine = Engine::new_raw();
        ArithmeticPackage::new().register_into_engine(&mut engine);
        LogicPackage::new().register_into_engine(&mut engine);
        BasicStringPackage::new().register_into_engine(&mut engine);
        BasicIteratorPackage::new().register_into_engine(&mut engine);
        grammar::set(&mut engine);
        // An expression is evaluated hardly more often than it is compiled, so optimizing does not pay.
        engine.set_optimization_level(OptimizationLevel::None);
        operators::register(&mut engine, reading, style);
        let meter = limits::apply(&mut engine, limits, stop);
        collections::register(&mut engine, &meter);
        let notices = Notices::default();
        functions::all().for_each(|function: &'static Function| function.register(&mut engine, style, &notices));
        Self { engine, reading, style, sources: Sources::default(), members: &[], notices, meter, runs: None }
    }

    /// Folds constants while compiling: for scripts that run long.
    pub fn fold_constants(&mut self) {
        self.engine.set_optimization_level(OptimizationLevel::Full);
    }

    /// Notes which statements of scripts run, those of helper files too: said before the helper files are.
    pub(crate) fn note_runs(&mut self, runs: Runs) {
        runs.register(&mut self.engine);
        self.runs = Some(runs);
    }

    /// Sets the helper files, text by plain name, that scripts may import.
    pub fn set_library(&mut self, texts: BTreeMap<String, String>) {
        let library = Library::new(texts, self.reading, Rc::clone(&self.sources), self.runs.clone());
        self.engine.set_module_resolver(library);
    }

    /// Sets the members of host objects, so that an error can suggest the nearest to a mistyped one.
    pub fn set_members(&mut self, members: &'static [Member]) {
        self.members = members;
    }

    /// Registers a type of host object: its noun in errors, its one-line display, and that it compares with nothing.
    /// Its members are registered on the engine itself.
    pub fn register_shown<T: value::Shown>(&mut self) {
        value::register_shown_type::<T>();
        self.engine.register_type_with_name::<T>(T::TYPE);
        operators::refuse_comparisons::<T>(&mut self.engine, T::TYPE);
    }

    /// Takes the keys of the cautions that functions raised since the last call.
    pub fn take_notices(&self) -> Vec<&'static str> {
        std::mem::take(&mut self.notices.borrow_mut())
    }

    /// The engine itself, for the host objects of a layer above.
    pub fn engine_mut(&mut self) -> &mut Engine {
        &mut self.engine
    }

    /// How values are shown.
    pub fn style(&self) -> Style {
        self.style
    }

    /// How literals are read.
    pub fn reading(&self) -> Reading {
        self.reading
    }

    /// Compiles one expression, which may define nothing.
    pub fn compile_expression(&self, typed: &str) -> Result<Script, Diagnostic> {
        let rewritten = rewrite_expression(typed, self.reading, Words::Sum)
            .map_err(|error| literal_diagnostic(None, typed, &error))?;
        self.compile_rewritten(rewritten)
    }

    /// Compiles one expression that was already rewritten.
    pub(super) fn compile_rewritten(&self, rewritten: Rewritten) -> Result<Script, Diagnostic> {
        self.compiled(None, rewritten, |engine, text| engine.compile_expression(text))
    }

    /// Compiles a script with functions.
    pub fn compile(&self, name: &str, typed: &str) -> Result<Script, Diagnostic> {
        let marks = match &self.runs {
            Some(runs) => Some(runs.marks(name, &ReadScript::read(name, typed, self.reading)?)),
            None => None,
        };
        let rewritten = match marks {
            Some(marks) => rewrite_marked(name, typed, self.reading, marks),
            None => rewrite(Some(name), typed, self.reading),
        };
        let rewritten = rewritten.map_err(|error| literal_diagnostic(Some(name), typed, &error))?;
        self.compiled(Some(name), rewritten, |engine, text| engine.compile(text))
    }

    fn compiled(
        &self,
        name: Option<&str>,
        Rewritten { text, tokens, source, literals }: Rewritten,
        compile: impl Fn(&Engine, &str) -> Result<AST, rhai::ParseError>,
    ) -> Result<Script, Diagnostic> {
        self.meter.begin();
        let mut ast =
            compile(&self.engine, &text).map_err(|error| self.translation(&source, &[]).parse_error(&error))?;
        if let Some(taken) = ast.iter_functions().find(|function| self.is_reserved(function.name)) {
            let diagnostic =
                Diagnostic::new(format!("“{}” is a word of the program and cannot be written anew", taken.name));
            return Err(diagnostic.hinting("give the function another name"));
        }
        if let Some(position) = function_literals::misplaced(&ast) {
            return Err(self.translation(&source, &[]).misplaced_function(position));
        }
        if let Some(name) = name {
            ast.set_source(name);
            self.sources.borrow_mut().insert(name.to_owned(), source.clone());
        }
        let values = tokens.iter().filter_map(|token| match &token.kind {
            TokenKind::Literal(value) if literals == Literals::Named => Some(operators::literal_value(value)),
            _ => None,
        });
        let literals = values.collect();
        Ok(Script { ast, source, literals })
    }

    /// Whether a script's function of this name would silently replace a built-in one.
    fn is_reserved(&self, name: &str) -> bool {
        let words = self.members.iter().filter(|member| member.is_free());
        let of_lists = collections::WORDS.contains(&name);
        of_lists || functions::named(name).is_some() || words.map(|word| word.name).any(|word| word == name)
    }

    /// Evaluates an expression.
    pub fn evaluate(&self, script: &Script, scope: &mut Scope<'static>) -> Result<Dynamic, Diagnostic> {
        self.evaluate_suggesting(script, scope, &Vec::new)
    }

    /// Evaluates an expression; `extra_names` returns names besides those of the scope that an error may suggest.
    pub fn evaluate_suggesting(
        &self,
        script: &Script,
        scope: &mut Scope<'static>,
        extra_names: &dyn Fn() -> Vec<String>,
    ) -> Result<Dynamic, Diagnostic> {
        self.meter.begin();
        let before = scope.len();
        for (name, value) in LITERAL_NAMES.iter().zip(&script.literals) {
            scope.push_constant_dynamic(*name, value.clone());
        }
        let result = self.engine.eval_ast_with_scope::<Dynamic>(scope, &script.ast);
        scope.rewind(before);
        let result = result.and_then(|value| value::checked(value).map_err(Into::into));
        result.map_err(|error| {
            let mut names: Vec<String> = scope.iter().map(|(name, ..)| name.to_owned()).collect();
            names.extend(extra_names());
            self.translation(&script.source, &names).eval_error(&error)
        })
    }

    /// Calls a function of a script.
    pub fn call(&self, script: &Script, function: &str, arguments: impl FuncArgs) -> Result<Dynamic, Diagnostic> {
        self.meter.begin();
        let options = CallFnOptions::new().eval_ast(true);
        self.engine
            .call_fn_with_options::<Dynamic>(options, &mut Scope::new(), &script.ast, function, arguments)
            .map_err(|error| self.translation(&script.source, &[]).eval_error(&error))
    }

    fn translation<'h>(&'h self, source: &'h Source, names: &'h [String]) -> Translation<'h> {
        Translation { source, sources: &self.sources, names, members: self.members }
    }
}

impl Script {
    /// Whether it defines a function of this name and number of arguments.
    pub fn has_function(&self, name: &str, arguments: usize) -> bool {
        self.ast.iter_functions().any(|function| function.name == name && function.params.len() == arguments)
    }

    /// The names it reads from the scope, without functions and members.
    pub fn variables(&self) -> BTreeSet<String> {
        let mut names = BTreeSet::new();
        self.ast.clone_statements_only().walk(&mut |nodes| {
            // Names with two underscores are those of literals.
            if let Some(ASTNode::Expr(Expr::Variable(variable, ..))) = nodes.last()
                && !variable.1.starts_with("__")
            {
                names.insert(variable.1.to_string());
            }
            true
        });
        names
    }

    /// The text as typed, with its tokens.
    pub fn source(&self) -> &Source {
        &self.source
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::borrow::Cow;

    fn answer(typed: &str) -> String {
        let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
        let result = host.compile_expression(typed).and_then(|script| host.evaluate(&script, &mut Scope::new()));
        match result {
            Ok(value) => value::show(&value, &Style::default()).unwrap_or_else(|| "no plain value".to_owned()),
            Err(diagnostic) => diagnostic.message,
        }
    }

    #[track_caller]
    fn check(typed: &str, shown: &str) {
        assert_eq!(answer(typed), shown, "{typed}");
    }

    #[test]
    fn sums_come_out_as_a_person_makes_them() {
        check("23 in / (2 in / 10)", "115");
        check("1.1 cm / 0.1 cm", "11");
        check("2 yd 6 in + 3/8 in", "2 yd 6 3/8 in");
        check("$4.50/yd * 3.5 yd", "$15.75");
        check("3/8", "0.375");
        check("14½ in + 7/8 in", "15 3/8 in");
        check("7 / 2 * 2", "7");
        check("2 ^ 3 + 2 ^ 0.5 ^ 2", "10");
        check("25 % * 8 in", "2 in");
        check("(2 in) ^ 2", "4 in^2");
        check("-3 in + 5 in", "2 in");
        check("60 g/m^2 * 0.4 m^2", "24 g");
        check("14½ * 2", "29");
        check("2 dozen", "24");
        check("[3 in, 1 in, 2 in].len()", "3");
        check("if 14 in > 35 cm { \"longer\" } else { \"shorter\" }", "longer");
        check("`a ${1/3} b ${2 in / 3}`", "a ≈ 0.3333 b ≈ 5/8 in");
    }

    #[test]
    fn doors_that_are_closed() {
        for typed in ["eval(\"1\")", "timestamp()", "sleep(1)", "blob()", "print(1)", "exit(1)"] {
            let answer = answer(typed);
            assert!(
                answer.starts_with("there is no function") || answer.contains("cannot be a name"),
                "{typed}: {answer}"
            );
        }
    }

    static MEMBERS: [Member; 3] = [
        Member { of: "inputs", name: "measure", form: Cow::Borrowed("measure(…)"), summary: "" },
        Member { of: "unnamed", name: "cloth", form: Cow::Borrowed("cloth(…)"), summary: "" },
        Member { of: "order", name: "refuse", form: Cow::Borrowed("refuse(…)"), summary: "" },
    ];

    #[test]
    fn a_script_writes_no_word_of_the_program_anew() {
        let mut host = Host::new(Reading::default(), Style::default(), Limits::RECIPE, StopFlag::default());
        host.set_members(&MEMBERS);
        for word in ["up", "filter", "measure", "cloth"] {
            let error = host.compile("a.rhai", &format!("fn {word}(x) {{ x }}")).unwrap_err();
            assert_eq!(error.message, format!("“{word}” is a word of the program and cannot be written anew"));
            assert_eq!(error.hint.as_deref(), Some("give the function another name"));
        }
        // What stands behind a dot is no function of the script's.
        let script = host.compile("a.rhai", "fn refuse(x) { x }\nfn panels() { 1 }").unwrap();
        assert!(script.has_function("refuse", 1) && script.has_function("panels", 0));
        assert!(!script.has_function("refuse", 0) && !script.has_function("refuse", 2) && !script.has_function("x", 1));
    }

    #[test]
    fn words_of_the_engine_mean_nothing() {
        for word in grammar::NO_WORDS {
            let answer = answer(&format!("{word}(1)"));
            assert_eq!(answer, format!("“{word}” has a meaning of its own and cannot be a name"));
        }
    }

    #[test]
    fn a_scope_is_left_as_it_was() {
        let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
        let mut scope = Scope::new();
        scope.push_constant_dynamic("waist", Dynamic::from_int(7));
        for typed in ["3 in * waist + 2 in", "3 in + 2 min"] {
            let script = host.compile_expression(typed).unwrap();
            let _either = host.evaluate(&script, &mut scope);
            assert_eq!(scope.iter().map(|(name, ..)| name.to_owned()).collect::<Vec<_>>(), ["waist"], "{typed}");
        }
        let script = host.compile_expression("3 in * waist + hips.wide + up(length)").unwrap();
        assert_eq!(script.variables().into_iter().collect::<Vec<_>>(), ["hips", "length", "waist"]);
    }

    #[test]
    fn names_of_the_scope_and_others_are_suggested() {
        let host = Host::new(Reading::default(), Style::default(), Limits::CELL, StopFlag::default());
        let mut scope = Scope::new();
        scope.push_constant_dynamic("waistline", Dynamic::from_int(7));
        let hint = |typed: &str, scope: &mut Scope<'static>| {
            let script = host.compile_expression(typed).unwrap();
            host.evaluate_suggesting(&script, scope, &|| vec!["hiplength".to_owned()]).unwrap_err().hint
        };
        assert_eq!(hint("waistlime", &mut scope).as_deref(), Some("did you mean “waistline”?"));
        assert_eq!(hint("hiplemgth", &mut scope).as_deref(), Some("did you mean “hiplength”?"));
        assert_eq!(hint("zzzzzzzz", &mut scope), None);
    }
}
