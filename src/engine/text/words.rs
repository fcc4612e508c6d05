//! The words that the script language keeps for itself.

/// Words that have a meaning in scripts, or are kept for one: no name in a sum can be one of them.
const RESERVED: [&str; 58] = [
    "true",
    "false",
    "let",
    "const",
    "var",
    "static",
    "shared",
    "is",
    "goto",
    "if",
    "else",
    "switch",
    "match",
    "case",
    "default",
    "do",
    "while",
    "until",
    "loop",
    "for",
    "in",
    "continue",
    "break",
    "fn",
    "private",
    "public",
    "protected",
    "new",
    "return",
    "throw",
    "try",
    "catch",
    "import",
    "export",
    "use",
    "with",
    "module",
    "package",
    "super",
    "thread",
    "spawn",
    "go",
    "sync",
    "async",
    "await",
    "yield",
    "void",
    "null",
    "nil",
    "print",
    "debug",
    "type_of",
    "eval",
    "Fn",
    "call",
    "curry",
    "this",
    "is_shared",
];

/// Those of them that a call may stand behind a dot with: `list.call(…)`.
const CALLED: [&str; 9] = ["print", "debug", "type_of", "eval", "Fn", "call", "curry", "this", "is_shared"];

/// Stands before a member that has a reserved word for its name. No user's name begins with two underscores.
const KEPT: &str = "__";

/// Whether a word cannot be a name in a sum.
pub fn is_reserved(word: &str) -> bool {
    RESERVED.contains(&word)
}

/// How a member is written for the script language where that keeps its name for itself, as in `first.thread`; `None` if
/// it may stand as it is.
pub fn as_member(word: &str) -> Option<String> {
    (is_reserved(word) && !CALLED.contains(&word)).then(|| format!("{KEPT}{word}"))
}

/// The name of a member as it was typed.
pub fn typed_member(name: &str) -> &str {
    name.strip_prefix(KEPT).filter(|word| is_reserved(word)).unwrap_or(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_reserved_word_can_be_a_name_and_others_can() {
        let engine = rhai::Engine::new();
        let is_name = |word: &str| engine.compile(format!("let {word} = 3; {word} + 1")).is_ok();
        let names: Vec<&str> = RESERVED.into_iter().filter(|word| is_name(word)).collect();
        assert_eq!(names, [""; 0]);
        for word in ["waist", "threads", "cases", "strip", "band", "need", "of"] {
            assert!(!is_reserved(word) && is_name(word), "{word}");
        }
    }

    #[test]
    fn a_reserved_word_can_be_a_member_and_is_told_as_typed() {
        let engine = rhai::Engine::new();
        for word in RESERVED {
            let member = as_member(word).unwrap_or(word.to_owned());
            assert!(
                CALLED.contains(&word) || engine.compile_expression(format!("first.{member} + 1")).is_ok(),
                "{word}"
            );
            assert_eq!(typed_member(&member), word);
        }
        assert_eq!((as_member("panels"), typed_member("panels"), typed_member("__a")), (None, "panels", "__a"));
    }
}
