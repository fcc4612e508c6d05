//! What each word of the contract takes and gives, for the check of a recipe from its text.
//!
//! The words themselves, their forms and help are in `words`; the code that they run is in `host`, and asks the same.

use crate::piece::{Edge, Fold, Grain, Middle};
use crate::quantity::Dimension;
use crate::textile::panels::Widths;

/// What an argument of a word must be.
#[derive(Clone, Copy, Debug)]
pub(in crate::recipe) enum Takes {
    /// A measure of one dimension.
    Of(Dimension),
    /// A plain number.
    Number,
    /// A whole number.
    Count,
    /// A length or a plain number.
    Amount,
    /// A price by the length, or for one.
    Price,
    /// A value that a figure may have.
    Plain,
    /// Any text.
    Text,
    /// One of several texts.
    OneOf(fn() -> Vec<&'static str>),
    /// A length, or one of the words of a repeat.
    Shift,
    /// Cloth or roll goods.
    Cloth,
    /// A notion.
    Notion,
    /// The corners of an outline.
    Corners,
    /// The name of an input.
    InputName,
    /// The name of a new figure.
    NewFigure,
    /// The name of a new piece.
    NewPiece,
    /// The name of a piece that is there.
    PieceName,
    /// The name of a piece, or of what is sewn of several.
    MarkedName,
    /// The key of a caution.
    Caution,
    /// A stitch class.
    StitchClass,
    /// A step, with figures in braces.
    Step,
}

/// What a word gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::recipe) enum Gives {
    /// A measure of one dimension.
    Of(Dimension),
    /// A plain number with decimals.
    Number,
    /// A whole number.
    Count,
    /// A text.
    Text,
    /// Yes or no.
    Flag,
    /// Nothing.
    Nothing,
    /// Nothing, for the order ends with it.
    Never,
    /// A list of plain numbers.
    Numbers,
    /// A piece.
    Piece,
    /// An entry for a need, a line of stitching, or work.
    Entry(EntryOf),
    /// What it was called on.
    Same,
    /// Cloth or roll goods.
    Cloth,
    /// A notion.
    Notion,
}

/// What an entry of the ticket is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::recipe) enum EntryOf {
    /// A need.
    Need,
    /// A line of stitching.
    Sewing,
    /// Work.
    Work,
}

/// A word with what it takes: one list for each form; none for a member that is written without brackets.
#[derive(Clone, Copy, Debug)]
pub(in crate::recipe) struct Signature {
    /// What it belongs to, as `words` says it.
    pub(in crate::recipe) of: &'static str,
    /// The word.
    pub(in crate::recipe) name: &'static str,
    /// The forms.
    pub(in crate::recipe) forms: &'static [&'static [(&'static str, Takes)]],
    /// What it gives.
    pub(in crate::recipe) gives: Gives,
}

type Forms = &'static [&'static [(&'static str, Takes)]];

const fn word(of: &'static str, name: &'static str, forms: Forms, gives: Gives) -> Signature {
    Signature { of, name, forms, gives }
}

const LENGTH: Takes = Takes::Of(Dimension::LENGTH);
const A_LENGTH: Gives = Gives::Of(Dimension::LENGTH);

/// The signatures of a word, most often one.
pub(in crate::recipe) fn of(owner: &str, name: &str) -> Option<&'static Signature> {
    SIGNATURES.iter().find(|known| known.of == owner && known.name == name)
}

/// Every word but those that declare inputs, in the order of `words`.
pub(in crate::recipe) const SIGNATURES: &[Signature] = &[
    word("unnamed", "any_cloth", &[&[("width", LENGTH)], &[("width", LENGTH), ("price", Takes::Price)]], Gives::Cloth),
    word(
        "unnamed",
        "any_roll",
        &[&[("width", LENGTH), ("put_up", LENGTH)], &[("width", LENGTH), ("put_up", LENGTH), ("price", Takes::Price)]],
        Gives::Cloth,
    ),
    word("unnamed", "any_notion", &[&[], &[("price", Takes::Price)]], Gives::Notion),
    word("unnamed", "plain_notion", &[&[("name", Takes::Text)]], Gives::Notion),
    word("order", "has", &[&[("name", Takes::InputName)]], Gives::Flag),
    word(
        "order",
        "refuse",
        &[
            &[("input", Takes::InputName), ("why", Takes::Text)],
            &[("input", Takes::InputName), ("why", Takes::Text), ("instead", Takes::Text)],
        ],
        Gives::Never,
    ),
    word("order", "at_least", &[&[("input", Takes::InputName), ("amount", Takes::Amount)]], Gives::Text),
    word("order", "pieces", &[], Gives::Count),
    word("gathers", "ratio", &[], Gives::Number),
    word("gathers", "passes", &[], Gives::Numbers),
    word("gathers", "flat", &[&[("length", LENGTH)]], A_LENGTH),
    word("gathers", "finished", &[&[("length", LENGTH)]], A_LENGTH),
    word(
        "gathers",
        "strips",
        &[&[("length", LENGTH)], &[("length", LENGTH), ("width", LENGTH), ("overlap", LENGTH)]],
        Gives::Count,
    ),
    word("gathers", "source", &[], Gives::Text),
    word("gathers", "piece", &[], A_LENGTH),
    word("gathers", "overlap", &[], A_LENGTH),
    word("cloth or notion", "name", &[], Gives::Text),
    word("cloth or notion", "usable_width", &[], A_LENGTH),
    word("cloth or notion", "width_or", &[&[("width", LENGTH)]], A_LENGTH),
    word("cloth or notion", "put_up", &[], A_LENGTH),
    word("cloth or notion", "put_up_or", &[&[("length", LENGTH)]], A_LENGTH),
    word("cloth or notion", "nap", &[], Gives::Flag),
    word("cloth or notion", "repeat", &[], A_LENGTH),
    word("cloth or notion", "repeat_across", &[], A_LENGTH),
    word("cloth or notion", "weight", &[], Gives::Of(Dimension::MASS_BY_AREA)),
    word("cloth or notion", "shrink_along", &[], Gives::Number),
    word("cloth or notion", "shrink_across", &[], Gives::Number),
    word("cloth or notion", "cut_drop", &[&[("length", LENGTH)]], A_LENGTH),
    word("cloth or notion", "repeats", &[&[("length", LENGTH), ("kind", Takes::Shift)]], Gives::Same),
    word("cloth or notion", "repeats_across", &[&[("length", LENGTH)]], Gives::Same),
    word("cloth or notion", "napped", &[&[]], Gives::Same),
    word("cloth or notion", "weighs", &[&[("weight", Takes::Of(Dimension::MASS_BY_AREA))]], Gives::Same),
    word(
        "ticket",
        "figure",
        &[&[("name", Takes::NewFigure), ("value", Takes::Plain), ("meaning", Takes::Text)]],
        Gives::Nothing,
    ),
    word("ticket", "piece", &[&[("name", Takes::NewPiece), ("cloth", Takes::Cloth)]], Gives::Piece),
    word(
        "ticket",
        "need",
        &[&[("notion", Takes::Notion), ("amount", Takes::Amount), ("why", Takes::Text)]],
        Gives::Entry(EntryOf::Need),
    ),
    word(
        "ticket",
        "sew",
        &[&[("stitch class", Takes::StitchClass), ("length", LENGTH), ("why", Takes::Text)]],
        Gives::Entry(EntryOf::Sewing),
    ),
    word("ticket", "work", &[&[("operation", Takes::Text), ("amount", Takes::Amount)]], Gives::Entry(EntryOf::Work)),
    word(
        "ticket",
        "mark",
        &[&[("piece", Takes::MarkedName), ("name", Takes::Text), ("distance", LENGTH), ("from", Takes::Text)]],
        Gives::Nothing,
    ),
    word("ticket", "step", &[&[("text", Takes::Step)]], Gives::Nothing),
    word("ticket", "cut_steps", &[&[("piece", Takes::PieceName)]], Gives::Nothing),
    word("ticket", "caution", &[&[("key", Takes::Caution)]], Gives::Nothing),
    word("piece", "rectangle", &[&[("along", LENGTH), ("across", LENGTH)]], Gives::Piece),
    word("piece", "full_width", &[&[("along", LENGTH)]], Gives::Piece),
    word(
        "piece",
        "strips",
        &[&[("total", LENGTH), ("along", LENGTH)], &[("total", LENGTH), ("along", LENGTH), ("overlap", LENGTH)]],
        Gives::Piece,
    ),
    word("piece", "sector", &[&[("inner", LENGTH), ("outer", LENGTH), ("turn", Takes::Number)]], Gives::Piece),
    word("piece", "outline", &[&[("points", Takes::Corners)]], Gives::Piece),
    word("piece", "count", &[&[("count", Takes::Count)]], Gives::Piece),
    word("piece", "mirrored_pairs", &[&[("pairs", Takes::Count)]], Gives::Piece),
    word("piece", "on_fold", &[&[("line", Takes::OneOf(|| Fold::WORDS.map(|(word, _)| word).to_vec()))]], Gives::Piece),
    word("piece", "grain", &[&[("grain", Takes::OneOf(|| Grain::WORDS.map(|(word, _)| word).to_vec()))]], Gives::Piece),
    word("piece", "widths", &[&[("across", LENGTH), ("along", LENGTH)]], Gives::Piece),
    word(
        "piece",
        "joined",
        &[&[("allowance", LENGTH), ("widths", Takes::OneOf(|| Widths::WORDS.map(|(word, _)| word).to_vec()))]],
        Gives::Piece,
    ),
    word("piece", "left_and_right", &[&[]], Gives::Piece),
    word("piece", "matched", &[&[], &[("how", HOW)], &[("how", HOW), ("line", LENGTH), ("edge", EDGE)]], Gives::Piece),
    word("piece", "allow", &[&[("edge", EDGE), ("amount", LENGTH)]], Gives::Piece),
    word("piece", "may_join", &[&[("most", Takes::Count), ("shortest", LENGTH), ("allowance", LENGTH)]], Gives::Piece),
    word("piece", "never_smaller", &[&[]], Gives::Piece),
    word("piece", "once_per_order", &[&[]], Gives::Piece),
    word("entry of the ticket", "count", &[&[("count", Takes::Count)]], Gives::Same),
    word("entry of the ticket", "once_per_order", &[&[]], Gives::Same),
    word("entry of the ticket", "about", &[&[("minutes", Takes::Of(Dimension::TIME))]], Gives::Same),
    word("entry of the ticket", "round_body", &[&[("body", LENGTH), ("worn", LENGTH)]], Gives::Same),
    word("plan", "pieces", &[&[("name", Takes::PieceName)]], Gives::Count),
    word("plan", "joins", &[&[("name", Takes::PieceName)]], Gives::Count),
    word("plan", "widths", &[&[("name", Takes::PieceName)]], Gives::Number),
    word("plan", "drops", &[&[("name", Takes::PieceName)]], Gives::Count),
    word("plan", "join_length", &[&[("name", Takes::PieceName)]], A_LENGTH),
    word("plan", "trimmed", &[&[("name", Takes::PieceName)]], A_LENGTH),
    word("plan", "length_of", &[&[("cloth", Takes::Cloth)]], A_LENGTH),
];

const HOW: Takes = Takes::OneOf(|| Middle::WORDS.map(|(word, _)| word).to_vec());
const EDGE: Takes = Takes::OneOf(|| Edge::WORDS.map(|(word, _)| word).to_vec());

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::contract::words::WORDS;

    #[test]
    fn every_word_has_its_signature_in_the_same_order() {
        let told = WORDS.iter().filter(|word| !["inputs", "input"].contains(&word.of)).map(|word| (word.of, word.name));
        assert_eq!(told.collect::<Vec<_>>(), SIGNATURES.iter().map(|word| (word.of, word.name)).collect::<Vec<_>>());
    }

    /// A word of the table is written with brackets where its signature has forms, and with as many arguments.
    #[test]
    fn a_signature_has_as_many_arguments_as_the_form_that_is_told() {
        for signature in SIGNATURES {
            let word = WORDS.iter().find(|word| (word.of, word.name) == (signature.of, signature.name)).unwrap();
            let called = word.form.contains('(');
            assert_eq!(called, !signature.forms.is_empty(), "{}", word.form);
            if !called || word.form.contains(" with ") || signature.name == "outline" {
                continue;
            }
            let inside = word.form.split_once('(').unwrap().1.split(')').next().unwrap();
            let told = if inside.is_empty() { 0 } else { inside.split(',').count() };
            let told = if inside.contains("\", \"") { 1 } else { told };
            assert!(signature.forms.iter().any(|form| form.len() == told), "{}", word.form);
        }
    }
}
