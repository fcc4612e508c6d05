//! The places of a source file that can be broken, found in its syntax tree. Tests are left out.

use crate::mutant::{Mutant, SWITCH, Shape};
use crate::scripts::raised;
use proc_macro2::Span;
use std::ops::Range;
use syn::punctuated::Punctuated;
use syn::spanned::Spanned;
use syn::visit::{self, Visit};
use syn::{
    Attribute, BinOp, Block, Expr, ExprBinary, ExprCall, ExprLit, ExprMethodCall, ExprPath, ImplItemConst, ImplItemFn,
    ItemConst, ItemFn, ItemImpl, ItemMod, ItemStatic, ItemTrait, Lit, Macro, Pat, ReturnType, Signature, Stmt, Token,
    Type, UnOp,
};

/// Methods that stand for one another with the same arguments.
const METHODS: &[(&str, &str)] = &[
    ("min", "max"),
    ("ceil", "floor"),
    ("first", "last"),
    ("any", "all"),
    ("min_by", "max_by"),
    ("min_by_key", "max_by_key"),
    ("is_lt", "is_le"),
    ("is_gt", "is_ge"),
    ("inches", "centimetres"),
    ("rounded_up", "rounded_down"),
    ("counted", "rounded_down"),
    ("take_while", "skip_while"),
    ("next", "last"),
    ("is_some_and", "is_none_or"),
];

/// Methods without which their receiver still is what it was.
const DROPPED: &[&str] =
    &["rev", "filter", "skip", "take", "abs", "chain", "trim", "or", "or_else", "max", "min", "clamp"];

/// Methods that answer yes or no.
const ASKING: &[&str] = &[
    "is_some",
    "is_none",
    "is_ok",
    "is_err",
    "is_empty",
    "contains",
    "contains_key",
    "starts_with",
    "ends_with",
    "any",
    "all",
    "is_some_and",
    "is_none_or",
];

/// The words of macros whose arguments are expressions.
const MACROS: &[&str] = &["vec", "format", "write", "writeln", "print", "println", "matches", "assert", "debug_assert"];

/// A constant, with the item that holds it.
#[derive(Clone, Debug)]
pub struct Constant {
    /// Its name.
    pub name: String,
    /// The whole item, from its visibility to its semicolon.
    pub item: Range<usize>,
    /// Whether other files can see it.
    pub is_public: bool,
}

/// What a file holds.
#[derive(Debug, Default)]
pub struct Found {
    /// The breaks.
    pub mutants: Vec<Mutant>,
    /// The constants.
    pub constants: Vec<Constant>,
    /// Where a constant is read: its name, the whole path, and the name in it.
    pub uses: Vec<(String, Range<usize>, Range<usize>)>,
}

/// Reads a source file.
pub fn of(file: &str, text: &str) -> Result<Found, syn::Error> {
    let tree = syn::parse_file(text)?;
    let mut finder = Finder { file, text, found: Found::default(), state: State::Outside };
    finder.visit_file(&tree);
    Ok(finder.found)
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum State {
    /// Neither in a body nor in a constant.
    Outside,
    /// In the body of a function, where a break can be switched on.
    Body,
    /// In a constant of this name.
    Constant(String),
    /// In a test: nothing is broken here, but a broken constant is read.
    Test,
}

struct Finder<'a> {
    file: &'a str,
    text: &'a str,
    found: Found,
    state: State,
}

fn place(span: Span) -> Range<usize> {
    span.byte_range()
}

/// A constant from its visibility, where it has one, to its semicolon.
fn whole(vis: &syn::Visibility, const_token: &Token![const], semicolon: &Token![;]) -> Range<usize> {
    let is_private = matches!(vis, syn::Visibility::Inherited);
    let first = if is_private { const_token.span() } else { vis.span() };
    place(first).start..place(semicolon.span()).end
}

fn is_test(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        let is_cfg = attribute.path().is_ident("cfg")
            && attribute.meta.require_list().is_ok_and(|list| list.tokens.to_string().contains("test"));
        is_cfg || attribute.path().is_ident("test")
    })
}

fn holds_let(expr: &Expr) -> bool {
    match expr {
        Expr::Let(_) => true,
        Expr::Binary(binary) => holds_let(&binary.left) || holds_let(&binary.right),
        Expr::Paren(inner) => holds_let(&inner.expr),
        _ => false,
    }
}

impl Finder<'_> {
    fn text_of(&self, spanned: &impl Spanned) -> &str {
        &self.text[place(spanned.span())]
    }

    fn add(&mut self, at: Range<usize>, instead: impl Into<String>, kind: &str) {
        let shape = match &self.state {
            State::Outside | State::Test => return,
            State::Body => Shape::Expression,
            State::Constant(name) => Shape::Constant(name.clone()),
        };
        self.found.mutants.push(Mutant::new(self.file, self.text, at, instead.into(), shape, kind));
    }

    fn add_shaped(&mut self, at: Range<usize>, instead: impl Into<String>, shape: Shape, kind: &str) {
        if self.state == State::Body {
            self.found.mutants.push(Mutant::new(self.file, self.text, at, instead.into(), shape, kind));
        }
    }

    fn within(&mut self, state: State, visit: impl FnOnce(&mut Self)) {
        let before = std::mem::replace(&mut self.state, state);
        visit(self);
        self.state = before;
    }

    fn turned(&mut self, condition: &Expr) {
        if !holds_let(condition) && !matches!(condition, Expr::Unary(_) | Expr::Lit(_)) {
            let instead = format!("!({})", self.text_of(condition));
            self.add(place(condition.span()), instead, "condition turned");
        }
    }

    /// What a function can give at once instead of reckoning it.
    fn given_at_once(&mut self, signature: &Signature, block: &Block) {
        if signature.constness.is_some() || block.stmts.is_empty() {
            return;
        }
        let given: &[&str] = match &signature.output {
            ReturnType::Default => &[""],
            ReturnType::Type(_, shape) => {
                let Type::Path(path) = &**shape else { return };
                let Some(last) = path.path.segments.last() else { return };
                let inner = self.text_of(&last.arguments).to_owned();
                match last.ident.to_string().as_str() {
                    "bool" => &["true", "false"],
                    "Option" => &["None"],
                    "Vec" => &["Vec::new()"],
                    "String" => &["String::new()"],
                    "BTreeMap" | "BTreeSet" => &["Default::default()"],
                    "Result" if inner.starts_with("<(),") => &["Ok(())"],
                    "Result" if inner.starts_with("<Option<") => &["Ok(None)"],
                    "Result" if inner.starts_with("<Vec<") => &["Ok(Vec::new())"],
                    _ => return,
                }
            }
        };
        let at = place(block.brace_token.span.open()).end;
        for one in given {
            // A body that is that value already.
            if self.text[at..place(block.brace_token.span.close()).start].trim() == *one {
                continue;
            }
            let kind = format!("gives {} at once", if one.is_empty() { "nothing" } else { one });
            let line = place(signature.fn_token.span()).start;
            self.add_shaped(at..at, format!(" if {SWITCH} {{ return {one}; }}"), Shape::Insertion, &kind);
            // It is told by the line of the function's name.
            if let Some(last) = self.found.mutants.last_mut() {
                let told = Mutant::new(self.file, self.text, line..line, String::new(), Shape::Insertion, &kind);
                (last.line, last.words) = (told.line, told.words);
            }
        }
    }
}

impl<'ast> Visit<'ast> for Finder<'_> {
    fn visit_attribute(&mut self, _: &'ast Attribute) {}

    fn visit_type(&mut self, _: &'ast Type) {}

    fn visit_item_mod(&mut self, item: &'ast ItemMod) {
        if is_test(&item.attrs) {
            self.within(State::Test, |finder| visit::visit_item_mod(finder, item));
        } else {
            visit::visit_item_mod(self, item);
        }
    }

    fn visit_item_impl(&mut self, item: &'ast ItemImpl) {
        if !is_test(&item.attrs) {
            visit::visit_item_impl(self, item);
        }
    }

    fn visit_item_trait(&mut self, item: &'ast ItemTrait) {
        if !is_test(&item.attrs) {
            visit::visit_item_trait(self, item);
        }
    }

    fn visit_item_enum(&mut self, _: &'ast syn::ItemEnum) {}

    fn visit_item_fn(&mut self, item: &'ast ItemFn) {
        if self.state == State::Test && item.sig.constness.is_none() {
            return self.visit_block(&item.block);
        }
        if is_test(&item.attrs) || item.sig.constness.is_some() {
            return;
        }
        self.within(State::Body, |finder| {
            finder.given_at_once(&item.sig, &item.block);
            finder.visit_block(&item.block);
        });
    }

    fn visit_impl_item_fn(&mut self, item: &'ast ImplItemFn) {
        if self.state == State::Test {
            return;
        }
        if is_test(&item.attrs) || item.sig.constness.is_some() {
            return;
        }
        self.within(State::Body, |finder| {
            finder.given_at_once(&item.sig, &item.block);
            finder.visit_block(&item.block);
        });
    }

    fn visit_trait_item_fn(&mut self, item: &'ast syn::TraitItemFn) {
        if let (Some(block), None) = (&item.default, &item.sig.constness) {
            self.within(State::Body, |finder| finder.visit_block(block));
        }
    }

    fn visit_item_const(&mut self, item: &'ast ItemConst) {
        let item_place = whole(&item.vis, &item.const_token, &item.semi_token);
        self.constant(item.ident.to_string(), item_place, &item.vis, &item.expr, &item.attrs);
    }

    fn visit_impl_item_const(&mut self, item: &'ast ImplItemConst) {
        let item_place = whole(&item.vis, &item.const_token, &item.semi_token);
        self.constant(item.ident.to_string(), item_place, &item.vis, &item.expr, &item.attrs);
    }

    fn visit_item_static(&mut self, item: &'ast ItemStatic) {
        // What a `LazyLock` reckons is an ordinary body.
        self.within(State::Outside, |finder| finder.visit_expr(&item.expr));
    }

    fn visit_expr_closure(&mut self, closure: &'ast syn::ExprClosure) {
        let state = if self.state == State::Test { State::Test } else { State::Body };
        self.within(state, |finder| finder.visit_expr(&closure.body));
    }

    fn visit_expr_const(&mut self, _: &'ast syn::ExprConst) {}

    fn visit_expr_repeat(&mut self, repeat: &'ast syn::ExprRepeat) {
        self.visit_expr(&repeat.expr);
    }

    fn visit_pat(&mut self, pat: &'ast Pat) {
        if let Pat::Guard(guard) = pat {
            self.turned(&guard.guard);
            self.visit_expr(&guard.guard);
        }
    }

    fn visit_expr_match(&mut self, matched: &'ast syn::ExprMatch) {
        let falls = matched.arms.last().is_some_and(|arm| matches!(arm.pat, Pat::Wild(_) | Pat::Ident(_)));
        for arm in matched.arms.iter().take(matched.arms.len().saturating_sub(1)) {
            if falls && !matches!(arm.pat, Pat::Guard(_)) {
                let end = place(arm.pat.span()).end;
                self.add_shaped(end..end, format!(" if !{SWITCH}"), Shape::Insertion, "arm dropped");
            }
        }
        visit::visit_expr_match(self, matched);
    }

    fn visit_expr_if(&mut self, condition: &'ast syn::ExprIf) {
        self.turned(&condition.cond);
        visit::visit_expr_if(self, condition);
    }

    fn visit_expr_unary(&mut self, unary: &'ast syn::ExprUnary) {
        match unary.op {
            UnOp::Not(_) if !holds_let(&unary.expr) => {
                let instead = format!("({})", self.text_of(&*unary.expr));
                self.add(place(unary.span()), instead, "not dropped");
            }
            UnOp::Neg(_) => {
                let instead = format!("({})", self.text_of(&*unary.expr));
                self.add(place(unary.span()), instead, "minus dropped");
            }
            _ => {}
        }
        visit::visit_expr_unary(self, unary);
    }

    fn visit_expr_binary(&mut self, binary: &'ast ExprBinary) {
        if !holds_let(&binary.left) && !holds_let(&binary.right) {
            let (left, right) = (self.text_of(&*binary.left).to_owned(), self.text_of(&*binary.right).to_owned());
            let swaps: &[(&str, &str)] = match binary.op {
                BinOp::Add(_) => &[("-", "+ to -"), ("", "term dropped")],
                BinOp::Sub(_) => &[("+", "- to +"), ("", "term dropped")],
                BinOp::Mul(_) => &[("/", "* to /")],
                BinOp::Div(_) => &[("*", "/ to *")],
                BinOp::Rem(_) => &[("/", "% to /")],
                BinOp::Lt(_) => &[("<=", "< to <="), (">", "< to >")],
                BinOp::Le(_) => &[("<", "<= to <"), (">", "<= to >")],
                BinOp::Gt(_) => &[(">=", "> to >="), ("<", "> to <")],
                BinOp::Ge(_) => &[(">", ">= to >"), ("<", ">= to <")],
                BinOp::Eq(_) => &[("!=", "== to !=")],
                BinOp::Ne(_) => &[("==", "!= to ==")],
                BinOp::And(_) => &[("||", "and to or"), ("", "second condition dropped")],
                BinOp::Or(_) => &[("&&", "or to and"), ("", "second condition dropped")],
                _ => &[],
            };
            for (sign, kind) in swaps {
                let instead = if sign.is_empty() { left.clone() } else { format!("{left} {sign} {right}") };
                self.add(place(binary.span()), instead, kind);
            }
            let compound: &[(&str, &str)] = match binary.op {
                BinOp::AddAssign(_) => &[("-=", "+= to -="), ("=", "+= to =")],
                BinOp::SubAssign(_) => &[("+=", "-= to +=")],
                BinOp::MulAssign(_) => &[("/=", "*= to /=")],
                BinOp::DivAssign(_) => &[("*=", "/= to *=")],
                _ => &[],
            };
            for (sign, kind) in compound {
                self.add(place(binary.span()), format!("{left} {sign} {right}"), kind);
            }
        }
        visit::visit_expr_binary(self, binary);
    }

    fn visit_expr_lit(&mut self, literal: &'ast ExprLit) {
        let at = place(literal.lit.span());
        match &literal.lit {
            Lit::Int(_) | Lit::Float(_) => {
                let shown = self.text[at.clone()].to_owned();
                if let Some(other) = raised(&shown) {
                    self.add(at, other.clone(), &format!("{shown} to {other}"));
                }
            }
            Lit::Bool(value) => {
                let (other, kind) = if value.value { ("false", "yes to no") } else { ("true", "no to yes") };
                self.add(at, other, kind);
            }
            _ => {}
        }
    }

    fn visit_expr_call(&mut self, call: &'ast ExprCall) {
        if let Expr::Path(path) = &*call.func
            && let Some(last) = path.path.segments.last()
        {
            let whole = place(call.span());
            let name = last.ident.to_string();
            let at = place(last.ident.span());
            for (one, other) in METHODS.iter().flat_map(|(one, other)| [(one, other), (other, one)]) {
                if name == **one && !["min", "max", "first", "last", "any", "all", "next"].contains(&name.as_str()) {
                    let instead =
                        format!("{}{other}{}", &self.text[whole.start..at.start], &self.text[at.end..whole.end]);
                    self.add(whole.clone(), instead, &format!("{one} to {other}"));
                }
            }
            if name == "Some" && path.path.segments.len() == 1 {
                self.add(whole, "None", "something to nothing");
            }
        }
        visit::visit_expr_call(self, call);
    }

    fn visit_expr_method_call(&mut self, call: &'ast ExprMethodCall) {
        let name = call.method.to_string();
        let (whole, at) = (place(call.span()), place(call.method.span()));
        for (one, other) in METHODS.iter().flat_map(|(one, other)| [(one, other), (other, one)]) {
            if name == **one {
                let instead = format!("{}{other}{}", &self.text[whole.start..at.start], &self.text[at.end..whole.end]);
                self.add(whole.clone(), instead, &format!("{one} to {other}"));
            }
        }
        if DROPPED.contains(&name.as_str()) {
            let instead = self.text_of(&*call.receiver).to_owned();
            self.add(whole.clone(), instead, &format!("{name} dropped"));
        }
        if ASKING.contains(&name.as_str()) {
            let instead = format!("!{}", &self.text[whole.clone()]);
            self.add(whole, instead, "answer turned");
        }
        visit::visit_expr_method_call(self, call);
    }

    fn visit_stmt(&mut self, stmt: &'ast Stmt) {
        match stmt {
            Stmt::Expr(expr, Some(semicolon)) => {
                let ends_here = matches!(
                    expr,
                    Expr::Return(_) | Expr::Break(_) | Expr::Let(_) | Expr::If(_) | Expr::Match(_) | Expr::While(_)
                );
                if !ends_here {
                    let at = place(expr.span()).start..place(semicolon.span()).end;
                    self.add_shaped(at, "", Shape::Statement, "statement dropped");
                }
            }
            Stmt::Item(item) => {
                if self.state == State::Test {
                    return;
                }
                // A constant within a body is one of its own; other items are visited as at the top.
                self.within(State::Outside, |finder| finder.visit_item(item));
                return;
            }
            _ => {}
        }
        visit::visit_stmt(self, stmt);
    }

    fn visit_expr_path(&mut self, path: &'ast ExprPath) {
        if matches!(self.state, State::Body | State::Test)
            && let Some(last) = path.path.segments.last()
            && last.arguments.is_none()
        {
            let name = last.ident.to_string();
            let screams = name.chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '_');
            if screams && name.len() > 1 {
                self.found.uses.push((name, place(path.span()), place(last.ident.span())));
            }
        }
    }

    fn visit_macro(&mut self, mac: &'ast Macro) {
        let Some(name) = mac.path.segments.last().map(|last| last.ident.to_string()) else { return };
        let compares = self.state == State::Test && ["assert_eq", "assert_ne"].contains(&name.as_str());
        if !MACROS.contains(&name.as_str()) && !compares {
            return;
        }
        if name == "matches" {
            // Its second argument is a pattern; the answer can be turned by who asks.
            return;
        }
        let parser = Punctuated::<Expr, Token![,]>::parse_terminated;
        if let Ok(arguments) = mac.parse_body_with(parser) {
            let skipped = usize::from(name == "format");
            for argument in arguments.iter().skip(skipped) {
                if !matches!(argument, Expr::Assign(_)) {
                    self.visit_expr(argument);
                }
            }
        }
    }

    fn visit_expr_macro(&mut self, expr: &'ast syn::ExprMacro) {
        if expr.mac.path.is_ident("matches") {
            let instead = format!("!{}", self.text_of(expr));
            self.add(place(expr.span()), instead, "answer turned");
        }
        visit::visit_expr_macro(self, expr);
    }
}

impl Finder<'_> {
    fn constant(
        &mut self,
        name: String,
        item: Range<usize>,
        vis: &syn::Visibility,
        expr: &Expr,
        attributes: &[Attribute],
    ) {
        if is_test(attributes) || name == "_" || self.state == State::Test {
            return;
        }
        let is_public = !matches!(vis, syn::Visibility::Inherited);
        self.found.constants.push(Constant { name: name.clone(), item, is_public });
        self.within(State::Constant(name), |finder| finder.visit_expr(expr));
    }
}
