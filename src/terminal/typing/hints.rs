//! Hints after the cursor while a line is typed: the form of a call or a verb, the value of a cell, the next
//! question of a recipe.
//!
//! A hint is never part of the line: no key accepts it, and it is gone once the line is entered.

use super::TypingHelper;
use super::completion_source::CompletionSource;
use super::typed_line::{Call, TypedLine};
use crate::engine::text::line_tokens::CursorContext;
use crate::notebook::verbs::Slot;
use crate::report::{plain_text, wrap};
use rustyline::Context;
use rustyline::highlight::{CmdKind, Highlighter};
use rustyline::hint::{Hint, Hinter};
use std::borrow::Cow;
use std::collections::BTreeMap;
use unicode_width::UnicodeWidthChar;

/// How hints differ from the typed text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum HintLook {
    /// Fainter than the rest.
    Dim,
    /// Between marks, if colour is not wanted.
    Marked,
    /// Not shown: they would be read aloud at every key.
    Silent,
}

impl HintLook {
    /// Chooses by the program's options and the environment; an empty `NO_COLOR` does not count.
    pub(crate) fn choose(plain: bool, variables: &BTreeMap<String, String>) -> Self {
        match (plain, variables.get("NO_COLOR")) {
            (true, _) => Self::Silent,
            (false, Some(value)) if !value.is_empty() => Self::Marked,
            (false, _) => Self::Dim,
        }
    }
}

/// The gap between the line and a hint.
const GAP: &str = "  ";
/// Marks that nobody types, around a hint that is not dimmed.
const MARKS: (&str, &str) = ("« ", " »");
/// Minimum number of columns for a hint.
const MIN_COLUMNS: usize = 6;
/// The sign for an omission.
const CUT: &str = "…";

/// Returns the hint with the gap before it, in at most `room` columns; `None` if the cursor is not at the end
/// of the line.
pub(crate) fn hint(
    line: &str,
    cursor: usize,
    source: &dyn CompletionSource,
    look: HintLook,
    room: usize,
) -> Option<String> {
    let marks = if look == HintLook::Marked { MARKS } else { ("", "") };
    let room = room.saturating_sub(GAP.len() + wrap::width(marks.0) + wrap::width(marks.1));
    if look == HintLook::Silent || cursor != line.len() || line.contains('\n') || room < MIN_COLUMNS {
        return None;
    }
    let typed = TypedLine::read(line, cursor, source.typed_for());
    if typed.context == CursorContext::Comment {
        return None;
    }
    let text = value(&typed, source)
        .or_else(|| typed.call.and_then(|call| form(&call, room)))
        .or_else(|| verb_form(&typed))
        .or_else(|| question(&typed, source))?;
    Some(format!("{GAP}{}{}{}", marks.0, cut(&text, room), marks.1))
}

/// The value of the cell whose name ends at the cursor.
fn value(typed: &TypedLine<'_>, source: &dyn CompletionSource) -> Option<String> {
    let word = typed.word();
    let takes_values = match typed.verb {
        None => true,
        Some(verb) if verb.verb.takes_answers() => typed.order().is_some_and(|order| order.answering),
        Some(typed) => typed.verb.at_cursor(typed.rest).iter().any(|at| holds_values(at.slot)),
    };
    if typed.context != CursorContext::Code || !takes_values || word.is_empty() || word.starts_with(char::is_numeric) {
        return None;
    }
    let value = match typed.owner() {
        Some(owner) => source.value_of(&format!("{owner}.{word}"))?,
        None if typed.before.get(..typed.word_start()).is_some_and(|head| head.ends_with('.')) => return None,
        None => source.value_of(word)?,
    };
    // A text may be as long as a file; no window shows that much.
    let value: String = value.chars().take(1_000).collect();
    Some(plain_text::one_line(&value)).filter(|value| !value.is_empty())
}

/// Whether the name of a cell in this slot means its value.
fn holds_values(slot: Slot) -> bool {
    matches!(slot, Slot::Cell | Slot::Cells | Slot::Sum | Slot::Sums | Slot::Condition | Slot::Varied(_))
}

/// The parameters of a call, the current one in brackets; those before it are left out if there is too little
/// room.
fn form(call: &Call, room: usize) -> Option<String> {
    let arguments = call.function.parameters;
    let shown: Vec<String> = arguments
        .iter()
        .enumerate()
        .map(|(index, argument)| {
            let default = argument.default.map_or_else(String::new, |default| format!(" = {default}"));
            let argument = format!("{}{default}", argument.name);
            if index == call.argument { format!("[{argument}]") } else { argument }
        })
        .collect();
    let rest = shown.get(call.argument..).filter(|rest| !rest.is_empty())?;
    let whole = shown.join(", ");
    if wrap::width(&whole) <= room || call.argument == 0 {
        return Some(whole);
    }
    Some(format!("{CUT} {}", rest.join(", ")))
}

/// What follows a verb, right after it.
fn verb_form(typed: &TypedLine<'_>) -> Option<String> {
    let verb = typed.verb.filter(|verb| verb.rest.is_empty())?.verb;
    let form = verb.form();
    let wants = form.strip_prefix(verb.name).unwrap_or(&form).trim();
    (!wants.is_empty()).then(|| wants.to_owned())
}

/// The first input that is not answered yet, with its question.
fn question(typed: &TypedLine<'_>, source: &dyn CompletionSource) -> Option<String> {
    if typed.context != CursorContext::Code || !typed.before.ends_with(char::is_whitespace) {
        return None;
    }
    let order = typed.order().filter(|order| !order.naming)?;
    let inputs = source.inputs_of(order.recipe);
    let (name, question) = inputs.into_iter().find(|(name, _)| !order.answered.contains(name))?;
    Some(plain_text::one_line(&format!("{name}=  {question}")))
}

/// Cuts a text to `room` columns, with a sign for the omission.
fn cut(text: &str, room: usize) -> String {
    if wrap::width(text) <= room {
        return text.to_owned();
    }
    let mut columns = wrap::width(CUT);
    let fits = text.chars().take_while(|c| {
        columns += c.width().unwrap_or(0);
        columns <= room
    });
    let kept: String = fits.collect();
    format!("{}{CUT}", kept.trim_end())
}

/// A hint that no key accepts into the line.
pub(crate) struct ShownHint(String);

impl Hint for ShownHint {
    fn display(&self) -> &str {
        &self.0
    }

    fn completion(&self) -> Option<&str> {
        None
    }
}

/// Columns of the longest prompt, and the last column, which hints avoid because some terminals wrap there.
const PROMPT_AND_EDGE: usize = 5;

impl Hinter for TypingHelper {
    type Hint = ShownHint;

    fn hint(&self, line: &str, cursor: usize, _: &Context<'_>) -> Option<ShownHint> {
        // A line that is longer than the window leaves no room.
        let room = (self.columns)().saturating_sub(PROMPT_AND_EDGE + wrap::width(line));
        hint(line, cursor, self.source.as_ref(), self.look, room).map(ShownHint)
    }
}

impl Highlighter for TypingHelper {
    fn highlight_hint<'h>(&self, hint: &'h str) -> Cow<'h, str> {
        match self.look {
            HintLook::Dim => Cow::Owned(format!("\u{1b}[2m{hint}\u{1b}[22m")),
            HintLook::Marked | HintLook::Silent => Cow::Borrowed(hint),
        }
    }

    /// Redraws the line when the cursor moves, because the hint must go when it leaves the end of the line.
    fn highlight_char(&self, line: &str, _: usize, kind: CmdKind) -> bool {
        self.look == HintLook::Dim && kind == CmdKind::MoveCursor && !line.contains('\n')
    }
}

#[cfg(test)]
mod tests {
    use super::super::completion_source::ExamplePage;
    use super::*;

    #[track_caller]
    fn check(line: &str, wanted: Option<&str>) {
        let hint = hint(line, line.len(), &ExamplePage::example(), HintLook::Dim, 60);
        assert_eq!(hint.as_deref(), wanted, "{line}");
    }

    #[test]
    fn a_call_shows_its_form_with_the_argument_at_the_cursor() {
        check("strips_for(", Some("  [flat], width, overlap = 0 in"));
        check("strips_for(610 1/2 in", Some("  [flat], width, overlap = 0 in"));
        check("a = strips_for(610 1/2 in, ", Some("  flat, [width], overlap = 0 in"));
        check("strips_for(610 in, 6 in, ", Some("  flat, width, [overlap = 0 in]"));
        check("strips_for(1 in, 2 in, 3 in, ", None);
        check("strips_for(610 in, 6 in)", None);
        check("widths_for(3 m, 112 cm, 1 cm, \"wh", Some("  … [joins = \"whole widths\"], repeat_across = 0 in"));
    }

    #[test]
    fn a_cell_shows_its_value_right_behind_its_name() {
        check("2 * waist", Some("  56 cm"));
        check("strips_for(waist", Some("  56 cm"));
        check("2 * ärmel", Some("  22 cm"));
        check("飾り", Some("  3 in"));
        check("2 * wais", None);
        check("2 * waist ", None);
        check("first.waist", None);
        check("\"waist", None);
        check("1 # waist", None);
        check("show waist", Some("  56 cm"));
        check("read waist", None);
        check("run waist", None);
        check("run gathered_skirt as waist", None);
        check("run gathered_skirt waist=waist", Some("  56 cm"));
    }

    #[test]
    fn a_verb_shows_what_it_wants_and_a_recipe_asks_on() {
        check("write ", Some("  NAME to FILE"));
        check("take ", Some("  back, or take back 3"));
        check("take back ", None);
        check("write", None);
        check("leave ", None);
        check("run ", Some("  RECIPE as NAME input=answer …"));
        check("run = ", None);
        check("run gathered_skirt ", Some("  waist=  round the waist"));
        check("run gathered_skirt as ", None);
        check("run gathered_skirt as first ", Some("  waist=  round the waist"));
        check("run gathered_skirt waist=56 cm ", Some("  cloth=  which cloth"));
        check("run gathered_skirt waist=56 cm cloth=any length=1 m ", None);
        check("run gathered_skirt waist='56 ", None);
        check("run no_such ", None);
    }

    #[test]
    fn only_at_the_end_of_one_line_and_never_aloud() {
        let source = ExamplePage::example();
        assert_eq!(hint("waist + 1", 5, &source, HintLook::Dim, 60), None);
        assert_eq!(hint("a = 1\nwaist", 11, &source, HintLook::Dim, 60), None);
        assert_eq!(hint("waist", 5, &source, HintLook::Silent, 60), None);
        assert_eq!(hint("waist", 5, &source, HintLook::Marked, 60).unwrap(), "  « 56 cm »");
        assert_eq!(ShownHint("  56 cm".to_owned()).completion(), None);
    }

    #[test]
    fn a_hint_keeps_to_the_room_on_the_line() {
        let source = ExamplePage::example();
        let long = "strips_for(610 in, 6 in, ";
        for look in [HintLook::Dim, HintLook::Marked] {
            for room in 0..50 {
                for line in [long, "waist", "飾り", "run gathered_skirt "] {
                    let shown = hint(line, line.len(), &source, look, room);
                    let columns = shown.as_deref().map_or(0, wrap::width);
                    assert!(columns <= room, "{line} in {room}: {shown:?}");
                }
            }
        }
        let in_room = |room: usize| hint(long, long.len(), &source, HintLook::Dim, room);
        assert_eq!(in_room(25).unwrap(), "  … [overlap = 0 in]");
        assert_eq!(in_room(14).unwrap(), "  … [overlap…");
        assert_eq!(in_room(7), None);
    }

    /// Two columns of gap; six at least for the words; two and two for the marks.
    #[test]
    fn the_room_is_used_to_its_last_column() {
        let source = ExamplePage::example();
        let in_room = |line: &str, look: HintLook, room: usize| hint(line, line.len(), &source, look, room);
        assert_eq!(in_room("waist_flat", HintLook::Dim, 8).unwrap(), "  112 cm");
        assert_eq!(in_room("waist_flat", HintLook::Dim, 7), None);
        assert_eq!(in_room("waist_flat", HintLook::Marked, 12).unwrap(), "  « 112 cm »");
        assert_eq!(in_room("waist_flat", HintLook::Marked, 11), None);
        // flat, [width], overlap = 0 in: 29 columns.
        let second = "strips_for(610 in, ";
        assert_eq!(in_room(second, HintLook::Dim, 31).unwrap(), "  flat, [width], overlap = 0 in");
        assert_eq!(in_room(second, HintLook::Dim, 30).unwrap(), "  … [width], overlap = 0 in");
        // With nothing before it to leave out, the form is cut at its end.
        assert_eq!(in_room("strips_for(", HintLook::Dim, 14).unwrap(), "  [flat], wid…");
        assert_eq!(in_room("strips_for(", HintLook::Dim, 11).unwrap(), "  [flat],…");
    }

    /// The prompt and the edge take five columns, the line five, the gap two and the words six at least.
    #[test]
    fn a_line_and_its_prompt_are_taken_off_the_window() {
        let history = rustyline::history::DefaultHistory::new();
        let shown = |look: HintLook, columns: fn() -> usize| {
            let helper = TypingHelper::new(std::rc::Rc::new(ExamplePage::example()), look, columns);
            helper.hint("waist", 5, &Context::new(&history)).map(|hint| hint.display().to_owned())
        };
        assert_eq!(shown(HintLook::Dim, || 18).as_deref(), Some("  56 cm"));
        assert_eq!(shown(HintLook::Dim, || 17), None);
        assert_eq!(shown(HintLook::Silent, || 80), None);
    }

    #[test]
    fn members_have_values_and_what_is_no_name_has_none() {
        let mut source = ExamplePage::example();
        for (name, value) in [("first.panels", "4"), ("7", "no cell"), ("", "none"), ("empty", "")] {
            source.cells.insert(name.to_owned(), value.to_owned());
        }
        source.cells.insert("long".to_owned(), "x".repeat(1_001));
        let shown = |line: &str| hint(line, line.len(), &source, HintLook::Dim, 2_000);
        assert_eq!(shown("2 * first.panels").as_deref(), Some("  4"));
        for line in ["2 * 7", "2 * ", "empty", "2.waist", "\"waist"] {
            assert_eq!(shown(line), None, "{line}");
        }
        assert_eq!(shown("rename waist").as_deref(), Some("  56 cm"));
        assert_eq!(shown("long").map(|shown| shown.matches('x').count()), Some(1_000));
    }

    #[test]
    fn a_dim_hint_is_drawn_anew_when_the_cursor_leaves_it() {
        let helper = |look| TypingHelper::new(std::rc::Rc::new(ExamplePage::example()), look, || 80);
        let (dim, marked) = (helper(HintLook::Dim), helper(HintLook::Marked));
        assert_eq!(dim.highlight_hint("  56 cm"), "\u{1b}[2m  56 cm\u{1b}[22m");
        assert_eq!(marked.highlight_hint("  « 56 cm »"), "  « 56 cm »");
        assert!(dim.highlight_char("waist", 2, CmdKind::MoveCursor));
        assert!(!dim.highlight_char("waist", 2, CmdKind::Other));
        assert!(!dim.highlight_char("a = 1\nwaist", 2, CmdKind::MoveCursor));
        assert!(!marked.highlight_char("waist", 2, CmdKind::MoveCursor));
    }

    #[test]
    fn a_value_that_means_harm_stays_on_its_line() {
        let mut source = ExamplePage::example();
        source.cells.insert("evil".to_owned(), format!("a\u{1b}[2Jb\nc{}", "x".repeat(5_000)));
        let shown = hint("evil", 4, &source, HintLook::Dim, 40).unwrap();
        assert!(!shown.contains(char::is_control) && wrap::width(&shown) <= 40, "{shown:?}");
    }

    #[test]
    fn colour_is_a_choice() {
        let none = BTreeMap::new();
        let no_colour = |value: &str| BTreeMap::from([("NO_COLOR".to_owned(), value.to_owned())]);
        assert_eq!(HintLook::choose(false, &none), HintLook::Dim);
        assert_eq!(HintLook::choose(false, &no_colour("1")), HintLook::Marked);
        assert_eq!(HintLook::choose(false, &no_colour("")), HintLook::Dim);
        assert_eq!(HintLook::choose(true, &no_colour("1")), HintLook::Silent);
    }
}
