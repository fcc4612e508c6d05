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

/// Whether a word cannot be a name in a sum.
pub fn is_reserved(word: &str) -> bool {
    RESERVED.contains(&word)
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
}
