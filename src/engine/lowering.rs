//! Lowers the script engine's tree to our own: the only place that knows its shape.
//!
//! What it does not know becomes [`What::Unread`], which the check counts and says.

use super::text::rewrite::{LITERAL, SHOWN, Source};
use super::text::tokens::TokenKind;
use super::tree::{Arm, FunctionTree, Link, Node, Tree, What};
use rhai::{
    AST, ASTFlags, ASTNode, BinaryExpr, Expr, FlowControl, FnCallExpr, FnPtr, Module, OpAssignment, Position, Stmt,
    SwitchCasesCollection,
};

/// The call by which the engine hands captured names to a function.
const CAPTURING: &str = "curry";

/// Lowers a script that was compiled without optimizing.
pub(super) fn lowered(ast: &AST, source: &Source) -> Tree {
    let lowering = Lowering { ast, source };
    let names = ast.iter_functions().filter(|function| !function.name.starts_with("anon$"));
    let mut functions: Vec<FunctionTree> =
        names.filter_map(|function| lowering.function(function.name, function.params.len(), 0)).collect();
    // The engine keeps them by their hash.
    functions.sort_by_key(|function| function.at);
    Tree { functions, statements: ast.statements().iter().map(|statement| lowering.statement(statement)).collect() }
}

struct Lowering<'a> {
    ast: &'a AST,
    source: &'a Source,
}

impl Lowering<'_> {
    fn byte(&self, place: Position) -> usize {
        place.line().and_then(|line| self.source.byte_at(line, place.position().unwrap_or(1))).unwrap_or(0)
    }

    /// A function without the arguments by which it gets what it captures.
    fn function(&self, name: &str, parameters: usize, captured: usize) -> Option<FunctionTree> {
        let module: &Module = self.ast.as_ref();
        let definition = module.get_script_fn(name, parameters)?;
        // The body's type has no public name: a tree of this function alone shows its statements.
        let mut alone = Module::new();
        alone.set_script_fn(definition.clone());
        let mut body = Vec::new();
        AST::new([], alone).walk(&mut |path| {
            if let [ASTNode::Stmt(statement)] = path {
                body.push(self.statement(statement));
            }
            true
        });
        let shown = if name.starts_with("anon$") { String::new() } else { name.to_owned() };
        let at = self.source.defined_at(name, parameters).unwrap_or(0);
        let parameters = definition.params.iter().skip(captured).map(ToString::to_string).collect();
        Some(FunctionTree { name: shown, at, parameters, body })
    }

    fn closure(&self, constant: &rhai::Dynamic, captured: usize) -> What {
        let Some(pointer) = constant.read_lock::<FnPtr>() else { return What::Unread };
        let of_name = |function: &rhai::ScriptFnMetadata<'_>| function.name == pointer.fn_name();
        let parameters = self.ast.iter_functions().find(of_name).map(|function| function.params.len());
        let function = parameters.and_then(|parameters| self.function(pointer.fn_name(), parameters, captured));
        function.map_or(What::Unread, |function| What::Function(Box::new(function)))
    }

    fn block<'s>(&self, statements: impl IntoIterator<Item = &'s Stmt>) -> Vec<Node> {
        let shares = |statement: &&Stmt| !matches!(statement, Stmt::Share(_));
        statements.into_iter().filter(shares).map(|statement| self.statement(statement)).collect()
    }

    fn boxed(&self, expression: &Expr) -> Box<Node> {
        Box::new(self.expression(expression))
    }

    fn all<'e>(&self, expressions: impl IntoIterator<Item = &'e Expr>) -> Vec<Node> {
        expressions.into_iter().map(|expression| self.expression(expression)).collect()
    }

    fn statement(&self, statement: &Stmt) -> Node {
        let at = self.byte(statement.position());
        let what = match statement {
            Stmt::Noop(_) => What::Nothing,
            Stmt::If(flow, _) => {
                let FlowControl { expr, body, branch } = &**flow;
                let (then, otherwise) = (self.block(body), self.block(branch));
                What::If { when: self.boxed(expr), then, otherwise }
            }
            Stmt::Switch(parts, _) => self.switch(&parts.0, &parts.1, at),
            Stmt::While(flow, _) => {
                let when = (!matches!(flow.expr, Expr::Unit(_))).then(|| self.boxed(&flow.expr));
                What::While { when, body: self.block(&flow.body), first: false }
            }
            Stmt::Do(flow, ..) => {
                What::While { when: Some(self.boxed(&flow.expr)), body: self.block(&flow.body), first: true }
            }
            Stmt::For(parts, _) => What::For {
                item: parts.0.name.to_string(),
                counter: parts.1.as_ref().map(|counter| counter.name.to_string()),
                over: self.boxed(&parts.2.expr),
                body: self.block(&parts.2.body),
            },
            // The place of the name, for that is what a finding marks.
            Stmt::Var(parts, ..) => {
                return Node {
                    at: self.byte(parts.0.pos),
                    what: What::Let(parts.0.name.to_string(), self.boxed(&parts.1)),
                };
            }
            Stmt::Assignment(parts) => self.assignment(&parts.0, &parts.1),
            Stmt::FnCall(call, _) => self.call(call),
            Stmt::Block(block) => What::Block(self.block(block.iter())),
            Stmt::Expr(expression) => return self.expression(expression),
            Stmt::BreakLoop(value, flags, _) if flags.contains(ASTFlags::BREAK) => {
                What::Break(value.as_ref().map(|value| self.boxed(value)))
            }
            Stmt::BreakLoop(..) => What::Continue,
            Stmt::Return(value, flags, _) if !flags.contains(ASTFlags::BREAK) => {
                What::Return(value.as_ref().map(|value| self.boxed(value)))
            }
            Stmt::Import(parts, _) => match &parts.0 {
                Expr::StringConstant(path, _) => What::Import(path.to_string(), parts.1.name.to_string()),
                _ => What::Unread,
            },
            _ => What::Unread,
        };
        Node { at, what }
    }

    fn assignment(&self, sign: &OpAssignment, sides: &BinaryExpr) -> What {
        let operator = sign.get_op_assignment_info().map(|(.., operator)| operator.to_owned());
        What::Set { to: self.boxed(&sides.lhs), operator, value: self.boxed(&sides.rhs) }
    }

    fn switch(&self, on: &Expr, cases: &SwitchCasesCollection, at: usize) -> What {
        let written = self.source.arms_after(at);
        let mut arms = Vec::new();
        let mut otherwise = None;
        for (index, BinaryExpr { lhs: guard, rhs: gives }) in cases.expressions.iter().enumerate() {
            let gives = self.expression(gives);
            if cases.def_case == Some(index) {
                otherwise = Some(Box::new(gives));
                continue;
            }
            let (texts, first) = written.get(index).cloned().unwrap_or((None, None));
            let guard = (!matches!(guard, Expr::BoolConstant(true, _))).then(|| self.expression(guard));
            arms.push(Arm { texts, at: first.unwrap_or(at), guard, gives });
        }
        What::Switch { on: self.boxed(on), arms, otherwise }
    }

    fn expression(&self, expression: &Expr) -> Node {
        let at = self.byte(expression.position());
        let what = match expression {
            Expr::DynamicConstant(constant, _) => self.closure(constant, 0),
            Expr::BoolConstant(flag, _) => What::Flag(*flag),
            Expr::IntegerConstant(whole, _) => What::Whole(*whole),
            Expr::FloatConstant(decimal, _) => What::Decimal(**decimal),
            Expr::CharConstant(..) => What::Letter,
            Expr::StringConstant(text, _) => What::Text(text.to_string()),
            Expr::InterpolatedString(parts, _) => What::Joined(self.all(parts)),
            Expr::Array(items, _) => What::List(self.all(items)),
            Expr::Map(members, _) => {
                let member = |(name, value): &(rhai::Ident, Expr)| (name.name.to_string(), self.expression(value));
                What::Group(members.0.iter().map(member).collect())
            }
            Expr::Unit(_) => What::Nothing,
            Expr::Variable(variable, ..) => match variable.2.path.first() {
                Some(space) => What::Path(space.name.to_string()),
                None => What::Name(variable.1.to_string()),
            },
            Expr::Stmt(block) => match block.statements() {
                // What a function captures is shared first.
                [Stmt::Share(_), Stmt::Expr(call)] => return self.expression(call),
                [Stmt::Expr(inner)] => return self.expression(inner),
                // Where a value is wanted, these stand in a block of the engine's making.
                [only @ (Stmt::If(..) | Stmt::Switch(..) | Stmt::While(..) | Stmt::Do(..) | Stmt::For(..))] => {
                    return self.statement(only);
                }
                statements => What::Block(self.block(statements)),
            },
            Expr::FnCall(call, _) => self.call(call),
            Expr::Dot(sides, flags, _) => return self.chain(self.expression(&sides.lhs), true, sides, *flags, at),
            Expr::Index(sides, flags, _) => return self.chain(self.expression(&sides.lhs), false, sides, *flags, at),
            Expr::And(sides, _) => What::And(self.all(sides.iter())),
            Expr::Or(sides, _) => What::Or(self.all(sides.iter())),
            Expr::Coalesce(sides, _) => What::Else(self.all(sides.iter())),
            _ => What::Unread,
        };
        Node { at, what }
    }

    fn call(&self, call: &FnCallExpr) -> What {
        match (call.name.as_str(), call.args.as_slice()) {
            (LITERAL, [Expr::StringConstant(typed, _)]) => return What::Measure(typed.to_string()),
            (SHOWN, [shown]) => return self.expression(shown).what,
            (CAPTURING, [Expr::DynamicConstant(constant, _), captured @ ..]) => {
                return self.closure(constant, captured.len());
            }
            _ => {}
        }
        let space = call.namespace.path.first().map(|space| space.name.to_string());
        What::Call { space, name: call.name.to_string(), arguments: self.all(&call.args) }
    }

    /// The links of a chain nest to the right: `a.b[c].d` is `a` and (`b` and (`c` and `d`)).
    fn chain(&self, before: Node, dot: bool, sides: &BinaryExpr, flags: ASTFlags, at: usize) -> Node {
        let (link, rest) = match &sides.rhs {
            Expr::Dot(inner, flags_of, place) if !flags.contains(ASTFlags::BREAK) => {
                (&inner.lhs, Some((true, inner, *flags_of, self.byte(*place))))
            }
            Expr::Index(inner, flags_of, place) if !flags.contains(ASTFlags::BREAK) => {
                (&inner.lhs, Some((false, inner, *flags_of, self.byte(*place))))
            }
            whole => (whole, None),
        };
        let optional = flags.contains(ASTFlags::NEGATED);
        let (link, place) = match (dot, link) {
            (true, Expr::Property(property, place)) => (Link::Member(property.2.to_string()), self.byte(*place)),
            (true, Expr::MethodCall(call, place)) => {
                (Link::Method(call.name.to_string(), self.all(&call.args)), self.byte(*place))
            }
            (true, _) => return Node { at, what: What::Unread },
            (false, index) => (Link::Item(self.boxed(index)), at),
        };
        let node = Node { at: place, what: What::Chain(Box::new(before), link, optional) };
        match rest {
            Some((dot, inner, flags, at)) => self.chain(node, dot, inner, flags, at),
            None => node,
        }
    }
}

/// The texts of an arm, and the byte of its first value.
type ArmValues = (Option<Vec<String>>, Option<usize>);

impl Source {
    /// The byte at which a function of the script is defined: that of its name.
    pub fn defined_at(&self, name: &str, parameters: usize) -> Option<usize> {
        let tokens = self.tokens();
        let text = |at: usize| tokens.get(at).and_then(|token| self.typed.get(token.span.clone())).unwrap_or_default();
        let count = |open: usize| {
            let close = (open..tokens.len()).find(|at| text(*at) == ")").unwrap_or(open);
            (open + 1..close).filter(|at| tokens.get(*at).is_some_and(|token| token.kind == TokenKind::Word)).count()
        };
        let defines = |at: &usize| text(at - 1) == "fn" && text(*at) == name && count(at + 1) == parameters;
        (1..tokens.len()).find(defines).and_then(|at| Some(tokens.get(at)?.span.start))
    }

    /// The values of the arms of the `switch` at a byte, in turn. The engine's tree has their hashes only.
    fn arms_after(&self, at: usize) -> Vec<ArmValues> {
        let tokens = self.tokens();
        let text = |at: usize| tokens.get(at).and_then(|token| self.typed.get(token.span.clone())).unwrap_or_default();
        let kind = |at: usize| tokens.get(at).map(|token| &token.kind);
        let Some(begin) = self.token_at(at) else { return Vec::new() };
        let mut arms: Vec<ArmValues> = Vec::new();
        let (mut depth, mut inside, mut in_values) = (0_usize, false, true);
        let (mut values, mut first, mut guarded) = (Some(Vec::new()), None, false);
        for token in begin + 1..tokens.len() {
            match kind(token) {
                Some(TokenKind::Open) if !inside && depth == 0 && text(token) == "{" => inside = true,
                Some(TokenKind::Open) => depth += 1,
                Some(TokenKind::Close) if depth == 0 => break,
                Some(TokenKind::Close) => {
                    depth -= 1;
                    // A block ends an arm, with a comma or without.
                    if inside && depth == 0 && !in_values && text(token) == "}" && text(token + 1) != "," {
                        in_values = !matches!(text(token + 1), "." | "+" | "-" | "*" | "/" | "[");
                    }
                }
                _ if !inside || depth > 0 => {}
                _ if in_values && text(token) == "=>" => {
                    arms.push((values.replace(Vec::new()), first.take()));
                    (in_values, guarded) = (false, false);
                }
                _ if !in_values && text(token) == "," => in_values = true,
                _ if in_values && text(token) == "if" => guarded = true,
                Some(_) if in_values && !guarded => {
                    let place = || tokens.get(token).map(|token| token.span.start);
                    if text(token) != "|" && text(token) != "," {
                        first = first.or_else(place);
                        match text(token).strip_prefix('"').and_then(|text| text.strip_suffix('"')) {
                            Some(written) => {
                                if let Some(values) = &mut values {
                                    values.push(written.to_owned());
                                }
                            }
                            None => values = None,
                        }
                    }
                }
                _ => {}
            }
        }
        arms
    }
}
