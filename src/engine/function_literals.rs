//! Where a function may be written out: as the first thing handed to one of the words that call it at once.
//!
//! A function value that reaches a name could be kept, chained or made to hold itself, and a chain of a hundred thousand
//! overruns the stack when it is dropped. Handed over directly it ends with the call.

use rhai::{AST, ASTNode, Expr, FnPtr, Position, Stmt};

/// The words that take a function.
const TAKERS: [&str; 6] = ["map", "filter", "reduce", "sort", "all", "some"];

/// The call by which the engine hands captured names to a function.
const CAPTURING: &str = "curry";

/// The place of the first function that is written where it may not stand.
pub(super) fn misplaced(ast: &AST) -> Option<Position> {
    let mut found = None;
    ast.walk(&mut |path| {
        if let Some(ASTNode::Expr(Expr::DynamicConstant(value, position))) = path.last()
            && value.is::<FnPtr>()
            && !is_handed_over(path)
        {
            found = Some(*position);
        }
        found.is_none()
    });
    found
}

/// The words that take a function, as a sentence lists them.
pub(super) fn takers() -> String {
    let (last, others) = TAKERS.split_last().unwrap_or((&"map", &[]));
    format!("{} or {last}", others.join(", "))
}

/// Whether the function at the end of a path is the first argument of a word that takes one. One that captures names
/// stands in a call of its own, in a block of its own.
fn is_handed_over(path: &[ASTNode<'_>]) -> bool {
    let mut inner = path.last();
    for node in path.iter().rev().skip(1) {
        match node {
            ASTNode::Expr(Expr::FnCall(call, _)) if call.name == CAPTURING => {}
            ASTNode::Stmt(Stmt::Expr(_)) | ASTNode::Expr(Expr::Stmt(_)) => {}
            ASTNode::Expr(Expr::MethodCall(call, _)) if TAKERS.contains(&call.name.as_str()) => {
                return first_is(call.args.first(), inner);
            }
            // Called without a dot, the list comes first.
            ASTNode::Expr(Expr::FnCall(call, _)) if TAKERS.contains(&call.name.as_str()) => {
                return first_is(call.args.get(1), inner);
            }
            _ => return false,
        }
        inner = Some(node);
    }
    false
}

fn first_is(argument: Option<&Expr>, inner: Option<&ASTNode<'_>>) -> bool {
    matches!((argument, inner), (Some(argument), Some(ASTNode::Expr(inner))) if std::ptr::eq(argument, *inner))
}
