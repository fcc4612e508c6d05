//! Completion at the tab key: whatever may be typed at the cursor, from the page, the function table, the
//! units, the recipes and the folder; behind `input=` and at a question, what the answer may be.
//!
//! Never here: offers inside a text that is no answer, or a note, or names that the line could not be parsed with.

use super::TypingHelper;
use super::typed_line::{Order, TypedFor, TypedLine, TypedVerb};
use crate::engine::text::line_tokens::CursorContext;
use crate::engine::{functions, help};
use crate::notebook::split_answers;
use crate::notebook::verbs::{AtCursor, ClauseForm, Slot, VERBS, Verb};
use crate::quantity::Unit;
use crate::recipe::Possible;
use crate::report::plain_text::one_line;
use rustyline::completion::Completer;
use rustyline::validate::Validator;
use rustyline::{Context, Helper};

/// Maximum number of cell names that are offered.
const MAX_OFFERS: usize = 500;
/// Words that a question takes besides its answers; they are offered once begun.
const QUESTION_WORDS: [&str; 4] = ["back", "cancel", "help", "list"];
/// The marks around an answer that the line would else take apart.
const QUOTES: [char; 2] = ['\'', '"'];

impl TypingHelper {
    /// Returns the byte position of the word at the cursor, and its completions.
    pub(crate) fn offers(&self, line: &str, cursor: usize) -> (usize, Vec<String>) {
        let typed = TypedLine::read(line, cursor, self.source.typed_for());
        let after = line.get(cursor..).unwrap_or_default();
        let (start, mut offers) = match (self.source.question(), typed.context) {
            (_, CursorContext::Comment) => (typed.before.len(), Vec::new()),
            (Some(question), _) => self.at_question(&question, &typed, after),
            (None, CursorContext::Code) => self.in_answer(&typed, after).unwrap_or_else(|| self.in_code(&typed, after)),
            (None, CursorContext::Text) => self.in_answer(&typed, after).unwrap_or((typed.before.len(), Vec::new())),
        };
        let mut seen = std::collections::BTreeSet::new();
        // A name that is not what it looks like, such as one with an escape code, could not be typed.
        offers.retain(|offer| one_line(offer) == *offer && seen.insert(offer.clone()));
        (typed.offset + start, offers)
    }

    /// The offers at a question: its answers as they are typed there, without quotes, and the words of the asking.
    fn at_question(&self, question: &Possible, typed: &TypedLine<'_>, after: &str) -> (usize, Vec<String>) {
        let begun = typed.before.trim_start();
        let start = typed.before.len() - begun.len();
        if let Some(topic) = ["help ", "? "].into_iter().find_map(|word| begun.strip_prefix(word)) {
            return (typed.before.len() - topic.len(), self.for_help(topic));
        }
        let mut offers = named(&question.answers, begun);
        if !begun.is_empty() {
            offers.extend(from(QUESTION_WORDS.map(str::to_owned), begun));
        }
        let measured = question.takes_sums || typed.unit().is_some();
        if typed.context != CursorContext::Code || !measured {
            return (start, offers);
        }
        let (inside, more) = self.in_code(typed, after);
        if inside == start {
            offers.extend(more);
        } else if offers.is_empty() {
            return (inside, more);
        }
        (start, offers)
    }

    /// The offers behind `input=`: the answers that are known by name, as a line writes them. `None` if the line has no
    /// answer at the cursor, or none that begins like this.
    fn in_answer(&self, typed: &TypedLine<'_>, after: &str) -> Option<(usize, Vec<String>)> {
        let order = typed.order()?;
        let (input, begun) = order.last?;
        let begun = begun.trim_start();
        let possible = self.source.possible(&self.recipe_of(typed, &order), input)?;
        let quote = begun.chars().next().filter(|c| QUOTES.contains(c));
        let text = quote.and_then(|quote| begun.strip_prefix(quote)).unwrap_or(begun);
        let is_whole = |answer: &String| answer.to_lowercase() == text.trim_end().to_lowercase();
        if quote.is_none() && text.ends_with(char::is_whitespace) && possible.answers.iter().any(is_whole) {
            // Behind a whole answer the next input follows.
            return None;
        }
        let answers = named(&possible.answers, text);
        let mut offers: Vec<String> = answers.iter().filter_map(|answer| quoted(answer, quote, after)).collect();
        let start = typed.before.len() - begun.len();
        if quote.is_none() && possible.takes_sums {
            let (inside, more) = self.in_code(typed, after);
            if inside == start {
                offers.extend(more);
            }
        }
        (!offers.is_empty()).then_some((start, offers))
    }

    /// The recipe of an order line, which may name the cell of an order instead.
    fn recipe_of(&self, typed: &TypedLine<'_>, order: &Order<'_>) -> String {
        let takes_cell =
            typed.verb.is_some_and(|typed| typed.verb.at_cursor("").iter().any(|at| at.slot == Slot::Order));
        let in_cell = takes_cell.then(|| self.source.recipe_in(order.recipe)).flatten();
        in_cell.unwrap_or_else(|| order.recipe.to_owned())
    }

    fn in_code(&self, typed: &TypedLine<'_>, after: &str) -> (usize, Vec<String>) {
        let start = typed.word_start();
        let begins = typed.word();
        if let Some(owner) = typed.owner() {
            return (start, from(self.source.members_of(owner), begins));
        }
        let Some(TypedVerb { verb, rest }) = typed.verb else {
            return self.at_line_start(typed, after).unwrap_or_else(|| self.in_expression(typed, after));
        };
        if let Some(order) = typed.order() {
            return if order.naming { (start, Vec::new()) } else { self.in_order(typed, verb, after) };
        }
        let slots = verb.at_cursor(rest);
        if slots.iter().any(|at| at.slot == Slot::Topic) {
            // A topic may be several words.
            return (typed.before.len() - rest.len(), self.for_help(rest));
        }
        if let Some(at) =
            slots.iter().find(|at| matches!(at.slot, Slot::Cells | Slot::Sums | Slot::Varied(_) | Slot::Condition))
        {
            return self.in_sums(typed, *at, &slots, after);
        }
        if slots.iter().any(|at| at.slot == Slot::Measure) && typed.unit().is_some() {
            return self.in_expression(typed, after);
        }
        let last = rest.rsplit(char::is_whitespace).next().unwrap_or_default();
        // Recipes come before cells where both are possible.
        let (cells, others): (Vec<&AtCursor>, Vec<&AtCursor>) =
            slots.iter().partition(|at| matches!(at.slot, Slot::Cell | Slot::Order | Slot::Sum));
        let others = others.into_iter().filter(|at| {
            // Next to names, a keyword is offered only once it is begun.
            let word = matches!(at.slot, Slot::Keyword(..));
            !(word && last.is_empty() && slots.iter().any(|at| matches!(at.slot, Slot::File | Slot::Cell)))
        });
        let mut offers = Vec::new();
        for at in others.chain(cells) {
            offers.extend(self.at_slot(at.slot, rest, last));
        }
        (typed.before.len() - last.len(), offers)
    }

    /// The offers for a slot that is, or begins with, one word.
    fn at_slot(&self, slot: Slot, rest: &str, last: &str) -> Vec<String> {
        match slot {
            Slot::Cell | Slot::Order | Slot::Sum => self.source.names_from(last, MAX_OFFERS),
            Slot::Recipe => from(self.source.recipes(), last),
            Slot::File | Slot::Folder => plain(from(self.source.files_from(last), last)),
            Slot::Keyword(word, _) => from([format!("{word} ")], last),
            Slot::Clauses(clauses) => {
                let present: Vec<&str> = rest.split([' ', ',']).collect();
                let open = clauses.iter().filter(|clause| !present.contains(&clause.word));
                let blank = |clause: &ClauseForm| if clause.takes.is_some() { " " } else { "" };
                from(open.map(|clause| format!("{}{}", clause.word, blank(clause))), last)
            }
            _ => Vec::new(),
        }
    }

    /// The offers in sums: cells if nothing is typed yet, else whatever an expression may hold, and the
    /// keywords of the form.
    fn in_sums(&self, typed: &TypedLine<'_>, at: AtCursor, slots: &[AtCursor], after: &str) -> (usize, Vec<String>) {
        let (start, begins) = (typed.word_start(), typed.word());
        let cells = |begins: &str| self.source.names_from(begins, MAX_OFFERS);
        let before = typed.before.get(..start).unwrap_or_default().trim_end();
        match at.slot {
            Slot::Cells if !begins.is_empty() || typed.unit().is_none() => (start, cells(begins)),
            Slot::Varied(_) | Slot::Sums if begins.is_empty() && typed.unit().is_none() => {
                (start, if !at.begun || before.ends_with(',') { cells("") } else { Vec::new() })
            }
            _ => {
                let (start, mut offers) = self.in_expression(typed, after);
                if let (Slot::Varied(words), true) = (at.slot, at.begun && !begins.is_empty()) {
                    let keywords = slots.iter().filter_map(|at| match at.slot {
                        Slot::Keyword(word, _) => Some(word),
                        _ => None,
                    });
                    let words = words.iter().copied().chain(keywords);
                    offers.extend(from(words.map(|word| format!("{word} ")), begins));
                }
                (start, offers)
            }
        }
    }

    /// The offers at the start of a line: verbs and whatever an expression may begin with. `None` if the line
    /// has begun.
    fn at_line_start(&self, typed: &TypedLine<'_>, after: &str) -> Option<(usize, Vec<String>)> {
        let text = typed.before.trim_start();
        let indent = typed.before.len() - text.len();
        if text.is_empty() {
            return Some((indent, Vec::new()));
        }
        // Add a space after a verb that takes arguments.
        let verbs = self.verbs().filter(|verb| verb.name.starts_with(text));
        let verbs = verbs.map(|verb| {
            let alone = verb.form() == verb.name;
            if alone { verb.name.to_owned() } else { format!("{} ", verb.name) }
        });
        if indent < typed.word_start() {
            return None;
        }
        let (start, mut offers) = self.in_expression(typed, after);
        if typed.unit().is_none() {
            offers.extend(verbs);
            offers.sort();
        }
        Some((start, offers))
    }

    /// The offers in an expression: cells, functions and units.
    fn in_expression(&self, typed: &TypedLine<'_>, after: &str) -> (usize, Vec<String>) {
        let (start, begins) = (typed.word_start(), typed.word());
        if let Some(unit) = typed.unit() {
            return (typed.before.len() - unit.len(), units(unit));
        }
        let head = typed.before.get(..start).unwrap_or_default();
        // Only cells have known members, not `2.` or `f(3).`
        if begins.is_empty() || begins.starts_with(char::is_numeric) || head.ends_with('.') {
            let rates = if typed.may_be_unit() { units("") } else { Vec::new() };
            return (start, if begins.is_empty() { rates } else { Vec::new() });
        }
        let bracket = if after.starts_with('(') { "" } else { "(" };
        let functions = functions::all().map(|function| format!("{}{bracket}", function.name));
        let mut offers = self.source.names_from(begins, MAX_OFFERS);
        offers.extend(from(functions.chain(["that".to_owned()]), begins));
        offers.extend(from(self.source.workshop_names(), begins));
        offers.extend(self.columns_for(typed, begins));
        offers.sort();
        if typed.may_be_unit() {
            offers.extend(units(begins));
        }
        (start, offers)
    }

    /// The columns of the table that is filtered: `orders where da`.
    fn columns_for(&self, typed: &TypedLine<'_>, begins: &str) -> Vec<String> {
        let Some((head, _)) = typed.before.split_once(" where ") else { return Vec::new() };
        let table = head.rsplit(|c: char| !(c.is_alphanumeric() || "_.".contains(c))).next().unwrap_or_default();
        from(self.source.members_of(table), begins)
    }

    /// The offers in an order: inputs that are not answered yet, and whatever an answer may hold.
    fn in_order(&self, typed: &TypedLine<'_>, verb: &Verb, after: &str) -> (usize, Vec<String>) {
        let start = typed.word_start();
        let begins = typed.word();
        let Some(order) = typed.order() else { return (start, Vec::new()) };
        let mut offers = Vec::new();
        let head = typed.before.get(..start).unwrap_or_default();
        if head.ends_with(char::is_whitespace) {
            let later = after.lines().next().unwrap_or_default();
            let later = later.trim_start_matches(|c: char| c.is_alphanumeric() || c == '_');
            let (_, later) = split_answers(later);
            let recipe = self.recipe_of(typed, &order);
            let inputs = self.source.inputs_of(&recipe).into_iter().map(|(name, _)| name);
            let is_open =
                |name: &String| !order.answered.contains(name) && !later.iter().any(|(other, _)| other == name);
            let assigned =
                |names: Vec<String>| from(names.into_iter().filter(is_open).map(|name| format!("{name}=")), begins);
            offers.extend(assigned(inputs.collect()));
            // What any order may say must not stand between a person and the inputs of the recipe.
            if offers.is_empty() && !begins.is_empty() {
                offers.extend(assigned(self.source.answered_besides(&recipe)));
            }
            if !order.answering && !order.named {
                let keywords = typed.verb.map_or_else(Vec::new, |typed| verb.at_cursor(typed.rest));
                for at in keywords {
                    if let Slot::Keyword(word, _) = at.slot {
                        offers.extend(from([format!("{word} ")], begins));
                    }
                }
            }
        }
        if !order.answering {
            return (start, offers);
        }
        let ended = head.trim_end().ends_with(|c: char| c.is_alphanumeric() || "_)]'\"%".contains(c));
        if ended && typed.unit().is_none() && !typed.may_be_unit() {
            // After a whole answer the next input follows.
            return (start, offers);
        }
        let takes_sums = |(input, _): (&str, &str)| {
            let possible = self.source.possible(&self.recipe_of(typed, &order), input);
            possible.is_none_or(|possible| possible.takes_sums)
        };
        if typed.unit().is_none() && !order.last.is_none_or(takes_sums) {
            return (start, offers);
        }
        let (inside, more) = self.in_expression(typed, after);
        if inside != start {
            // Right after the digits of a number, only a unit is possible.
            return (inside, more);
        }
        offers.extend(more);
        (start, offers)
    }

    /// The verbs a line may begin with; none for an answer to a question.
    fn verbs(&self) -> impl Iterator<Item = &'static Verb> {
        let lines = self.source.typed_for() == TypedFor::Page;
        VERBS.iter().filter(move |_| lines)
    }

    fn for_help(&self, begins: &str) -> Vec<String> {
        let topics = help::topics().map(|topic| topic.name.to_owned());
        let verbs = self.verbs().map(|verb| verb.name.to_owned());
        let functions = functions::all().filter(|_| !begins.is_empty()).map(|function| function.name.to_owned());
        let mut offers = from(topics.chain(verbs).chain(functions), begins);
        offers.sort();
        offers
    }
}

/// The answers that begin with `begun`, in any capitals, as names of goods and sizes are found.
fn named(answers: &[String], begun: &str) -> Vec<String> {
    let begun = begun.to_lowercase();
    answers.iter().filter(|answer| answer.to_lowercase().starts_with(&begun)).cloned().collect()
}

/// An answer as a line writes it behind `input=`: in the quotes that were opened, else in quotes if it needs them. The
/// closing one is left out if it is there already. `None` for an answer that no quotes hold.
fn quoted(answer: &str, opened: Option<char>, after: &str) -> Option<String> {
    let needs = answer.contains(|c: char| c.is_whitespace() || "$,=#'\"".contains(c));
    let mark = match opened {
        Some(mark) => mark,
        None if !needs => return Some(answer.to_owned()),
        None => QUOTES.into_iter().find(|mark| !answer.contains(*mark))?,
    };
    let close = if opened.is_some() && after.starts_with(mark) { String::new() } else { mark.to_string() };
    (!answer.contains(mark)).then(|| format!("{mark}{answer}{close}"))
}

/// The names that begin with `begins`.
fn from(names: impl IntoIterator<Item = String>, begins: &str) -> Vec<String> {
    names.into_iter().filter(|name| name.starts_with(begins)).collect()
}

/// The file names that need no quotes: a line is split at spaces, quotes and signs.
fn plain(names: Vec<String>) -> Vec<String> {
    let separator = |c: char| c == std::path::MAIN_SEPARATOR;
    let fits = |c: char| c.is_alphanumeric() || "_-./~+,@".contains(c) || separator(c);
    names.into_iter().filter(|name| name.chars().all(fits)).collect()
}

/// The spellings of units that begin with `begins`; if it is empty, only the first spelling of each unit, with
/// which it is shown.
fn units(begins: &str) -> Vec<String> {
    let spellings = |unit: Unit| unit.spellings().iter().take(if begins.is_empty() { 1 } else { usize::MAX });
    from(Unit::ALL.into_iter().flat_map(spellings).map(|spelling| (*spelling).to_owned()), begins)
}

impl Completer for TypingHelper {
    type Candidate = String;

    fn complete(&self, line: &str, cursor: usize, _: &Context<'_>) -> rustyline::Result<(usize, Vec<String>)> {
        Ok(self.offers(line, cursor))
    }
}

impl Validator for TypingHelper {}
impl Helper for TypingHelper {}

#[cfg(test)]
mod tests;
