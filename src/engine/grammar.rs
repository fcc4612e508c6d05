//! What a script may be written with: signs and words of the engine that mean nothing here, and operators of our own.

use rhai::Engine;

/// Words of the script engine that mean nothing here. `try` would let a recipe go on after it was stopped or had
/// refused an order; the others look at the script itself or write past the tables.
pub(super) const NO_WORDS: [&str; 13] = [
    "eval",
    "print",
    "debug",
    "call",
    "curry",
    "Fn",
    "is_def_fn",
    "is_def_var",
    "is_shared",
    "try",
    "catch",
    "throw",
    "type_of",
];

/// Signs that mean nothing here: no whole-number division and no remainder, for `%` is per cent.
const NO_SIGNS: [&str; 15] = ["/", "/=", "^", "^=", "%", "%=", "<<", ">>", "<<=", ">>=", "&", "&=", "|=", "**", "**="];

/// Sets what an engine reads.
pub(super) fn set(engine: &mut Engine) {
    for word in NO_WORDS.into_iter().chain(NO_SIGNS) {
        engine.disable_symbol(word);
    }
    for (sign, precedence) in [("/", 180), ("^", 190)] {
        let registered = engine.register_custom_operator(sign, precedence);
        debug_assert!(registered.is_ok(), "{sign}");
    }
}
