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
            // Once constants are folded, a call that is a statement is a node of its own.
            ASTNode::Expr(Expr::FnCall(call, _)) | ASTNode::Stmt(Stmt::FnCall(call, _)) if call.name == CAPTURING => {}
            ASTNode::Stmt(Stmt::Expr(_)) | ASTNode::Expr(Expr::Stmt(_)) => {}
            ASTNode::Expr(Expr::MethodCall(call, _)) if TAKERS.contains(&call.name.as_str()) => {
                return first_is(call.args.first(), inner);
            }
            // Called without a dot, the list comes first.
            ASTNode::Expr(Expr::FnCall(call, _)) | ASTNode::Stmt(Stmt::FnCall(call, _))
                if TAKERS.contains(&call.name.as_str()) =>
            {
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

#[cfg(test)]
mod tests {
    use super::misplaced as of_tree;
    use crate::engine::host::Host;
    use crate::engine::limits::{Limits, StopFlag};
    use crate::quantity::{Reading, Style};
    use rhai::{Engine, OptimizationLevel};

    /// The line and the place of the bar that is marked where a function may not stand; `None` where all may.
    fn misplaced(body: &str) -> Option<(usize, usize)> {
        let host = Host::new(Reading::default(), Style::default(), Limits::RECIPE, StopFlag::default());
        let error = host.compile("a.rhai", &format!("fn f() {{\n{body}\n}}")).err()?;
        assert_eq!(error.message, "a function can only be handed over at once, not kept", "{body}");
        let span = &error.labels[0].span;
        Some((span.line, span.bytes[0].start))
    }

    #[test]
    fn a_function_stands_first_in_the_brackets_of_a_word_that_takes_one() {
        for body in [
            "[1].map(|x| x + 1)",
            "[1].filter(|x| x > 1)",
            "[1].reduce(|sum, x| sum + x, 0)",
            "[1].all(|x| x > 1)",
            "[1].some(|x| x > 1)",
            "let list = [1]; list.sort(|a, b| a - b)",
            "map([1], |x| x + 1)",
            "let y = 2; [1].map(|x| x + y)",
            "let y = 2; map([1], |x| x + y)",
            "[[1]].map(|x| x.map(|z| z + 1))",
            "[1].map(|x| x).map(|x| x)",
        ] {
            assert_eq!(misplaced(body), None, "{body}");
        }
        for body in [
            "let kept = |x| x;",
            "[|x| x]",
            "g(|x| x)",
            "[1].push(|x| x)",
            "[1].reduce(0, |x| x)",
            "[1].map([|x| x])",
            "[1].map(g(|x| x))",
            "map(|x| x, [1])",
            "map([1], [1], |x| x)",
            "return |x| x;",
            "#{ a: |x| x }",
            "let y = 2; let kept = |x| x + y;",
            "[1].map(|x| x); [|x| x]",
            "[1].map(if true { |x| x } else { 1 })",
        ] {
            assert_eq!(misplaced(body), Some((2, body.rfind("|x|").unwrap())), "{body}");
        }
    }

    #[test]
    fn a_function_that_reads_a_name_outside_it_is_handed_over_whether_constants_are_folded_or_not() {
        for level in [OptimizationLevel::None, OptimizationLevel::Full] {
            let mut engine = Engine::new_raw();
            engine.set_optimization_level(level);
            let is_misplaced = |body: &str| {
                let ast = engine.compile(format!("fn make(list, seam) {{ {body} }}")).expect("it can be read");
                of_tree(&ast).is_some()
            };
            assert!(!is_misplaced("list.map(|side| side + seam)"), "{level:?}");
            assert!(!is_misplaced("map(list, |side| side + seam)"), "{level:?}");
            assert!(!is_misplaced("map(list, |side| side + 1)"), "{level:?}");
            assert!(!is_misplaced("list.reduce(|sum, side| sum + side + seam, 0)"), "{level:?}");
            assert!(is_misplaced("let kept = |side| side + seam; kept"), "{level:?}");
            assert!(is_misplaced("list.push(|side| side + seam)"), "{level:?}");
            assert!(is_misplaced("list.map({ let kept = |side| side + seam; kept })"), "{level:?}");
        }
    }
}
