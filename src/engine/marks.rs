//! What to mark in the typed text: the two sides of an operator, an argument of a call, a name.

use super::text::rewrite::Source;
use super::text::tokens::TokenKind;
use std::ops::Range;

impl Source {
    fn text_of(&self, token: usize) -> &str {
        self.tokens().get(token).and_then(|token| self.typed.get(token.span.clone())).unwrap_or_default()
    }

    fn kind_of(&self, token: usize) -> Option<&TokenKind> {
        self.tokens().get(token).map(|token| &token.kind)
    }

    fn span(&self, first: usize, last: usize) -> Option<Range<usize>> {
        Some(self.tokens().get(first)?.span.start..self.tokens().get(last)?.span.end)
    }

    /// Byte ranges of both operands of the operator at `byte`; `None` if there is no operator.
    pub fn sides(&self, byte: usize) -> Option<[Range<usize>; 2]> {
        let operator = self.token_at(byte)?;
        let strength = strength(self.text_of(operator))?;
        let first = self.operand_start(operator, strength)?;
        let last = self.operand_end(operator, strength)?;
        Some([self.span(first, operator.checked_sub(1)?)?, self.span(operator + 1, last)?])
    }

    /// The first token of the operand before an operator.
    fn operand_start(&self, operator: usize, than: u8) -> Option<usize> {
        let mut depth = 0;
        let mut first = None;
        for token in (0..operator).rev() {
            match self.kind_of(token)? {
                TokenKind::Close => depth += 1,
                TokenKind::Open if depth == 0 => break,
                TokenKind::Open => depth -= 1,
                _ if depth > 0 => {}
                TokenKind::Symbol if self.ends_operand(token, than, true) => break,
                TokenKind::Word if is_keyword(self.text_of(token)) => break,
                _ => {}
            }
            first = Some(token);
        }
        first
    }

    /// The last token of the operand after an operator.
    fn operand_end(&self, operator: usize, than: u8) -> Option<usize> {
        let mut depth = 0;
        let mut last = None;
        for token in operator + 1..self.tokens().len() {
            match self.kind_of(token)? {
                TokenKind::Open if depth == 0 && self.text_of(token) == "{" && last.is_some() => break,
                TokenKind::Open => depth += 1,
                TokenKind::Close if depth == 0 => break,
                TokenKind::Close => depth -= 1,
                _ if depth > 0 => {}
                TokenKind::Symbol if last.is_some() && self.ends_operand(token, than, false) => break,
                TokenKind::Word if is_keyword(self.text_of(token)) => break,
                _ => {}
            }
            last = Some(token);
        }
        last
    }

    /// Whether an operator binds too weakly to belong to an operand.
    fn ends_operand(&self, token: usize, than: u8, before: bool) -> bool {
        match (self.text_of(token), strength(self.text_of(token))) {
            ("." | "::" | "?." | "!", _) => false,
            (_, None) => true,
            (_, Some(other)) => {
                if before {
                    other < than
                } else {
                    other <= than
                }
            }
        }
    }

    /// Byte range of the argument `index` of the call whose name is at `byte`.
    pub fn argument(&self, byte: usize, index: usize) -> Option<Range<usize>> {
        let name = self.token_at(byte)?;
        let open = (name..self.tokens().len()).find(|token| self.text_of(*token) == "(")?;
        let (mut depth, mut argument) = (0, 0);
        let (mut first, mut last) = (None, None);
        for token in open + 1..self.tokens().len() {
            match self.kind_of(token)? {
                TokenKind::Close if depth == 0 => break,
                TokenKind::Open => depth += 1,
                TokenKind::Close => depth -= 1,
                TokenKind::Symbol if depth == 0 && self.text_of(token) == "," => {
                    argument += 1;
                    continue;
                }
                _ => {}
            }
            if argument == index {
                first = first.or(Some(token));
                last = Some(token);
            }
        }
        self.span(first?, last?)
    }

    /// Byte range of the token at `byte`; of a call, only its name.
    pub fn token_span(&self, byte: usize) -> Option<Range<usize>> {
        // The script engine reports the dot before a member; mark the member instead.
        let token = self.token_at(byte)?;
        let member = self.text_of(token) == "." && self.kind_of(token + 1) == Some(&TokenKind::Word);
        let token = if member { token + 1 } else { token };
        self.span(token, token)
    }

    /// The name assigned in the statement around `byte`: `let NAME = …`.
    pub fn assigned_name(&self, byte: usize) -> Option<&str> {
        let at = self.tokens().iter().rposition(|token| token.span.start <= byte)?;
        let mut depth = 0;
        let start = (0..=at).rev().find(|token| match self.kind_of(*token) {
            Some(TokenKind::Close) => {
                depth += 1;
                false
            }
            Some(TokenKind::Open) if depth > 0 => {
                depth -= 1;
                false
            }
            _ if depth > 0 => false,
            _ => matches!(self.text_of(*token), ";" | "{"),
        });
        let first = start.map_or(0, |token| token + 1);
        let (first, second, third) = (self.text_of(first), self.text_of(first + 1), self.text_of(first + 2));
        match (first, second, third) {
            ("let" | "const", name, "=") | (name, "=", _) => Some(name),
            _ => None,
        }
    }
}

/// Precedence of an operator; `None` for any other token.
fn strength(operator: &str) -> Option<u8> {
    Some(match operator {
        "||" | "or" => 1,
        "&&" | "and" => 2,
        "==" | "!=" | "≠" => 3,
        "<" | ">" | "<=" | ">=" | "≤" | "≥" => 4,
        "+" | "-" | "−" => 5,
        "*" | "/" | "×" | "÷" | "of" => 6,
        "^" => 7,
        "+=" | "-=" | "*=" => 0,
        _ => return None,
    })
}

fn is_keyword(word: &str) -> bool {
    matches!(word, "let" | "const" | "if" | "else" | "while" | "for" | "in" | "return" | "fn" | "and" | "or" | "not")
}

#[cfg(test)]
mod tests {
    use crate::engine::text::rewrite::rewrite;
    use crate::quantity::Reading;

    fn sides(typed: &str, operator: &str) -> [String; 2] {
        let source = rewrite(None, typed, Reading::default()).unwrap().source;
        let byte = typed.find(&format!(" {operator} ")).unwrap() + 1;
        source.sides(byte).unwrap().map(|span| typed[span].to_owned())
    }

    #[test]
    fn both_sides_of_an_operator() {
        assert_eq!(sides("14 in + 3 min", "+"), ["14 in", "3 min"]);
        assert_eq!(sides("let x = a.b(2, 3) * 2 + f(1 in) / 4; y", "+"), ["a.b(2, 3) * 2", "f(1 in) / 4"]);
        assert_eq!(sides("if a + 1 in > b * 2 { 3 }", ">"), ["a + 1 in", "b * 2"]);
        assert_eq!(sides("1 in - 2 in - 3 min", "-"), ["1 in", "2 in"]);
        assert_eq!(sides("x + -3 min", "+"), ["x", "-3 min"]);
    }

    /// The sides of each operator of a sum, by its place among the tokens.
    fn sides_at(typed: &str, byte: usize) -> Option<[&str; 2]> {
        let source = rewrite(None, typed, Reading::default()).unwrap().source;
        source.sides(byte).map(|sides| sides.map(|span| &typed[span]))
    }

    #[test]
    fn a_side_goes_as_far_as_what_binds_more_strongly() {
        let levels: [&[&str]; 7] = [
            &["||"],
            &["&&"],
            &["==", "!=", "≠"],
            &["<", ">", "<=", ">=", "≤", "≥"],
            &["+", "-", "−"],
            &["*", "/", "×", "÷"],
            &["^"],
        ];
        for (weaker, stronger) in levels.iter().zip(&levels[1..]) {
            for (weak, strong) in weaker.iter().flat_map(|weak| stronger.iter().map(move |strong| (weak, strong))) {
                let second_binds = format!("a {weak} b {strong} c");
                let first_binds = format!("a {strong} b {weak} c");
                let of = |typed: &str, operator: &str| {
                    let byte = typed.find(operator).unwrap();
                    sides_at(typed, byte).map(|sides| sides.map(str::to_owned)).unwrap()
                };
                assert_eq!(of(&second_binds, weak), ["a", &format!("b {strong} c")], "{second_binds}");
                assert_eq!(of(&second_binds, strong), ["b", "c"], "{second_binds}");
                assert_eq!(of(&first_binds, weak), [&format!("a {strong} b"), "c"], "{first_binds}");
                assert_eq!(of(&first_binds, strong), ["a", "b"], "{first_binds}");
            }
        }
        for level in levels {
            for (one, other) in level.iter().flat_map(|one| level.iter().map(move |other| (one, other))) {
                let typed = format!("a {one} b {other} c");
                let second = typed.rfind(other).unwrap();
                assert_eq!(sides_at(&typed, 2), Some(["a", "b"]), "{typed}");
                assert_eq!(sides_at(&typed, second), Some([&typed[..second - 1], "c"]), "{typed}");
            }
        }
        for set in ["+=", "-=", "*="] {
            let typed = format!("a {set} b || c");
            assert_eq!(sides_at(&typed, 2), Some(["a", "b || c"]), "{typed}");
        }
        assert_eq!(sides_at("15 % of x + 1", 5), Some(["15 %", "x"]));
        assert_eq!(sides_at("1 + 15 % of x", 2), Some(["1", "15 % of x"]));
    }

    #[test]
    fn a_side_ends_at_its_bracket_and_holds_those_within() {
        for (typed, operator, wanted) in [
            ("a * (b < (c + d) || e) - 1", "-", ["a * (b < (c + d) || e)", "1"]),
            ("1 - a * (b < [c + d] || e) + 2", "-", ["1", "a * (b < [c + d] || e)"]),
            ("f(1, a - b)", "-", ["a", "b"]),
            ("f(a - b, 1)", "-", ["a", "b"]),
            ("(a) - (b)", "-", ["(a)", "(b)"]),
            ("[1 < 2, a - b][0]", "-", ["a", "b"]),
            ("(1 - 2) * 3", "-", ["1", "2"]),
            ("a - { b }", "-", ["a", "{ b }"]),
            ("a - #{ x: 1 }", "-", ["a", "#{ x: 1 }"]),
            ("a.b?.c - d.e?.f + g", "-", ["a.b?.c", "d.e?.f"]),
            ("m::f(1) - n::f(2)", "-", ["m::f(1)", "n::f(2)"]),
            ("a && b == !c", "&&", ["a", "b == !c"]),
            ("!a == b && c", "&&", ["!a == b", "c"]),
            ("x = a - b", "-", ["a", "b"]),
            ("if a { 1 } else { 2 - b }; c", "-", ["2", "b"]),
            ("return a - b; c", "-", ["a", "b"]),
        ] {
            assert_eq!(sides_at(typed, typed.find(operator).unwrap()), Some(wanted), "{typed}");
        }
        assert_eq!(sides_at("a - b or c", 2), Some(["a", "b"]));
        assert_eq!(sides_at("not a - b", 6), Some(["a", "b"]));
    }

    #[test]
    fn what_has_no_two_sides_has_none_to_mark() {
        assert_eq!(sides_at("- a", 0), None);
        assert_eq!(sides_at("a + ", 2), None);
        assert_eq!(sides_at("a + b", 0), None);
        assert_eq!(sides_at("a + b", 3), None);
        assert_eq!(sides_at("a + b", 9), None);
        assert_eq!(sides_at("if - b { 1 }", 3), None);
        assert_eq!(sides_at("a ! b", 2), None);
    }

    #[test]
    fn an_argument_is_that_of_the_call_at_this_place() {
        let typed = "2 + g(1, 2) * h((3), #{ a: 4, b: 5 }, 6) + k()";
        let source = rewrite(None, typed, Reading::default()).unwrap().source;
        let argument = |name: &str, index| source.argument(typed.find(name).unwrap(), index).map(|span| &typed[span]);
        assert_eq!([argument("g(", 0), argument("g(", 1), argument("g(", 2)], [Some("1"), Some("2"), None]);
        assert_eq!(
            [argument("h(", 0), argument("h(", 1), argument("h(", 2), argument("h(", 3)],
            [Some("(3)"), Some("#{ a: 4, b: 5 }"), Some("6"), None]
        );
        assert_eq!(argument("k(", 0), None);
        assert_eq!(source.argument(typed.len(), 0), None);
        let typed = "f(a b";
        let source = rewrite(None, typed, Reading::default()).unwrap().source;
        assert_eq!(source.argument(0, 0).map(|span| &typed[span]), Some("a b"));
    }

    #[test]
    fn a_dot_stands_for_the_member_behind_it() {
        let typed = "ab.cd + e.(f) + 3.1";
        let source = rewrite(None, typed, Reading::default()).unwrap().source;
        let token = |byte| source.token_span(byte).map(|span| &typed[span]);
        assert_eq!([token(0), token(1), token(2), token(3)], [Some("ab"), Some("ab"), Some("cd"), Some("cd")]);
        assert_eq!(token(typed.find(".(").unwrap()), Some("."));
        assert_eq!([token(6), token(5), token(typed.len())], [Some("+"), None, None]);
    }

    #[test]
    fn an_argument_of_a_call() {
        let typed = "f(a(1, 2), [3, 4], 5 in)";
        let source = rewrite(None, typed, Reading::default()).unwrap().source;
        let argument = |index| source.argument(0, index).map(|span| &typed[span]);
        assert_eq!(
            [argument(0), argument(1), argument(2), argument(3)],
            [Some("a(1, 2)"), Some("[3, 4]"), Some("5 in"), None]
        );
    }

    #[test]
    fn the_name_being_worked_out() {
        let typed = "let a = 1; let panels = up(x / 2); if y { z = 3 + w }";
        let source = rewrite(None, typed, Reading::default()).unwrap().source;
        assert_eq!(source.assigned_name(typed.find("x /").unwrap()), Some("panels"));
        assert_eq!(source.assigned_name(typed.find('w').unwrap()), Some("z"));
        assert_eq!(source.assigned_name(typed.find("y {").unwrap()), None);
        for (typed, at, wanted) in [
            ("let panels = 1 + x", "x", Some("panels")),
            ("const panels = x", "x", Some("panels")),
            ("panels = x", "x", Some("panels")),
            ("panels = x", "panels", Some("panels")),
            ("panels + x", "x", None),
            ("let panels", "panels", None),
            ("a = 1; b = 2; x", "x", None),
            ("a = 1; b = x; c = 3", "x", Some("b")),
            ("let a = g(#{ n: 1 }, x)", "x", Some("a")),
            ("let a = [{ 1; 2 }, (3), x]", "x", Some("a")),
            ("let a = { b = 1; 2 } + x", "x", Some("a")),
            ("let a = { b = x; 2 }", "x", Some("b")),
            ("let a = { b = 1; 2 }", "}", Some("a")),
            ("fn f(a) { x }", "x", None),
        ] {
            let source = rewrite(None, typed, Reading::default()).unwrap().source;
            assert_eq!(source.assigned_name(typed.find(at).unwrap()), wanted, "{typed} at {at}");
        }
        let source = rewrite(None, "  a = 1", Reading::default()).unwrap().source;
        assert_eq!([source.assigned_name(0), source.assigned_name(2)], [None, Some("a")]);
    }
}
