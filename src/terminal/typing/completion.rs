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
mod tests {
    use super::super::completion_source::ExamplePage;
    use super::super::hints::HintLook;
    use super::*;
    use std::rc::Rc;

    fn words() -> TypingHelper {
        TypingHelper::new(Rc::new(ExamplePage::example()), HintLook::Silent, || 80)
    }

    /// `|` is the cursor; the offers complete `begins`, the text before it.
    #[track_caller]
    fn check(line: &str, begins: &str, wanted: &[&str]) {
        check_with(&words(), line, begins, wanted);
    }

    #[track_caller]
    fn check_with(words: &TypingHelper, line: &str, begins: &str, wanted: &[&str]) {
        let cursor = line.find('|').unwrap_or(line.len());
        let line = line.replacen('|', "", 1);
        let (start, offers) = words.offers(&line, cursor);
        assert_eq!(offers, wanted, "{line}");
        if !wanted.is_empty() {
            assert_eq!(&line[start..cursor], begins, "{line}");
        }
    }

    #[test]
    fn cells_functions_verbs_and_the_last_answer() {
        check("2 * wai", "wai", &["waist", "waist_flat"]);
        check("wai", "wai", &["waist", "waist_flat"]);
        check("strips_f", "strips_f", &["strips_for(", "strips_for_frill("]);
        check("strips_fo|(2 in)", "strips_fo", &["strips_for", "strips_for_frill"]);
        check("des", "des", &["describe "]);
        check("  des", "des", &["describe "]);
        check("leav", "leav", &["leave"]);
        check("x + des", "des", &[]);
        check("tha", "tha", &["that"]);
        check("2 * tha", "tha", &["that"]);
        check("take b", "b", &["back "]);
        check("tak", "tak", &["take ", "take_up("]);
        check("take_", "take_", &["take_up("]);
        check("must wai", "wai", &["waist", "waist_flat"]);
        check("a = 1\ndes", "des", &["describe "]);
        check("1 + ", "", &[]);
        check("", "", &[]);
    }

    #[test]
    fn wide_and_accented_letters_count_their_bytes() {
        check("ärmel * take", "take", &["take_up("]);
        check("飾り + är|+ 1", "är", &["ärmel"]);
        check("ärmel + 飾", "飾", &["飾り"]);
        // A cursor inside a letter cannot occur, and does no harm.
        assert_eq!(words().offers("é", 1), (0, Vec::new()));
    }

    #[test]
    fn units_behind_numbers_and_as() {
        check("56 c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
        check("56c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
        check("14 1/2 inc", "inc", &["inch", "inches"]);
        check("waist as y", "y", &["yd", "yard", "yards", "yds", "year", "years"]);
        check("strips_for(3 ye", "ye", &["year", "years"]);
        check("$6/y", "y", &["yd", "yard", "yards", "yds", "year", "years"]);
        let shown: Vec<&str> = Unit::ALL.iter().map(|unit| unit.symbol()).collect();
        check("56 ", "", &shown);
        check("waist as ", "", &shown);
        check("56", "", &[]);
        check("waist2 y", "y", &[]);
    }

    #[test]
    fn recipes_and_what_they_ask() {
        check("run gathered_s", "gathered_s", &["gathered_skirt"]);
        check("run ", "", &["gathered_skirt", "gathered_trim"]);
        check("describe gathered_t", "gathered_t", &["gathered_trim"]);
        check("sheet fir", "fir", &["first"]);
        check("run gathered_skirt ", "", &["waist=", "cloth=", "length=", "as "]);
        check("sheet gathered_skirt ", "", &["waist=", "cloth=", "length="]);
        check("run gathered_skirt a", "a", &["as "]);
        check("run gathered_skirt as ", "", &[]);
        check("run gathered_skirt as fi", "", &[]);
        check("run gathered_skirt as first wa", "wa", &["waist="]);
        check("run gathered_skirt waist=", "", &[]);
        check("run gathered_skirt waist=wai", "wai", &["waist", "waist_flat"]);
        check("run gathered_skirt waist=56 c", "c", &["cloth=", "cm", "centimetre", "centimetres", "centimeters"]);
        check("run gathered_skirt waist=56c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
        check("run gathered_skirt waist=56 cm cl", "cl", &["cloth="]);
        check("run gathered_skirt | cloth=any", "", &["waist=", "length=", "as "]);
        check("run gathered_skirt cloth='any wa", "", &[]);
        check("run = wai", "wai", &["waist", "waist_flat"]);
    }

    #[test]
    fn what_an_answer_may_be_in_the_quotes_that_the_line_needs() {
        let run = |rest: &str| format!("run gathered_skirt {rest}");
        let cloths = ["'ivory net'", "'ivory net wide'", "'Blue check lawn'", "denim", "\"maker's own\"", "any"];
        check(&run("cloth="), "", &cloths);
        check(&run("cloth= "), "", &cloths);
        check(&run("waist=21 in, cloth="), "", &cloths);
        check(&run("as second cloth=de"), "de", &["denim"]);
        check(&run("cloth=iv"), "iv", &["'ivory net'", "'ivory net wide'"]);
        check(&run("cloth=ivory net w"), "ivory net w", &["'ivory net wide'"]);
        check(&run("cloth='ivory net"), "'ivory net", &["'ivory net'", "'ivory net wide'"]);
        check(&run("cloth='ivory net w|'"), "'ivory net w", &["'ivory net wide"]);
        check(&run("cloth='ivory net w|' waist=21 in"), "'ivory net w", &["'ivory net wide"]);
        check(&run("cloth=\"BLUE"), "\"BLUE", &["\"Blue check lawn\""]);
        // An apostrophe in a name would close its quotes.
        check(&run("cloth='maker"), "'maker", &[]);
        check(&run("lined="), "", &["yes", "no"]);
        check(&run("lined=wai"), "", &[]);
        check(&run("size=W"), "W", &["Wren"]);
        check(&run("gathers=law"), "law", &["'lawn once'", "'lawn twice'"]);
        check(&run("washing=wai"), "wai", &["waist", "waist_flat"]);
        check(&run("gathers=wai"), "wai", &["waist", "waist_flat"]);
        check(&run("cloth=any 45 inc"), "inc", &["inch", "inches"]);
        check("change first cloth=de", "de", &["denim"]);
        check("change first cloth='ivory net w", "'ivory net w", &["'ivory net wide'"]);
        check("change first wa", "wa", &["waist="]);
        check("add r", "r", &["roll ", "rate ", "remnant "]);
        check("sheet gathered_skirt cloth=de", "de", &["denim"]);
        check("x = 3 # cloth=de", "", &[]);
    }

    #[test]
    fn behind_a_whole_answer_the_next_input_follows() {
        let run = |rest: &str| format!("run gathered_skirt {rest}");
        check(&run("cloth='ivory net' "), "", &["waist=", "length="]);
        check(&run("cloth='ivory net', "), "", &["waist=", "length="]);
        check(&run("cloth=ivory net "), "", &["waist=", "length="]);
        check(&run("cloth=ivory net le"), "le", &["length="]);
        check(&run("si"), "si", &["size="]);
        check(&run("size=Pip wa"), "wa", &["waist="]);
        check(&run("was"), "was", &["washing="]);
    }

    #[test]
    fn at_a_question_answers_are_offered_without_quotes_and_words_once_they_are_begun() {
        let asked = |input: &str| {
            let mut page = ExamplePage::example();
            page.question = page.possible.get(input).cloned().map(Rc::new);
            TypingHelper::new(Rc::new(page), HintLook::Silent, || 80)
        };
        let cloth = asked("cloth");
        check_with(&cloth, "", "", &["ivory net", "ivory net wide", "Blue check lawn", "denim", "maker's own", "any"]);
        check_with(&cloth, "ivory net w", "ivory net w", &["ivory net wide"]);
        check_with(&cloth, "blue ch", "blue ch", &["Blue check lawn"]);
        check_with(&cloth, "maker's", "maker's", &["maker's own"]);
        check_with(&cloth, "b", "b", &["Blue check lawn", "back"]);
        check_with(&cloth, "ca", "ca", &["cancel"]);
        check_with(&cloth, "wai", "wai", &[]);
        check_with(&cloth, "run ", "", &[]);
        check_with(&cloth, "any 45 inc", "inc", &["inch", "inches"]);
        check_with(&cloth, "help hems a", "hems a", &["hems and shrinkage"]);
        check_with(&cloth, "? hems a", "hems a", &["hems and shrinkage"]);
        let gathers = asked("gathers");
        check_with(&gathers, "", "", &["lawn once", "lawn twice"]);
        check_with(&gathers, "lawn t", "lawn t", &["lawn twice"]);
        check_with(&gathers, "2 * wai", "wai", &["waist", "waist_flat"]);
        check_with(&asked("waist"), "bac", "bac", &["back"]);
        check_with(&asked("waist"), "56 centimetres", "centimetres", &["centimetres"]);
        check_with(&asked("lined"), "", "", &["yes", "no"]);
    }

    #[test]
    fn no_offer_carries_an_escape_code_to_the_terminal() {
        let mut page = ExamplePage::example();
        page.files.push("or\u{1b}[2Jders.csv".to_owned());
        page.recipes.insert("ga\u{202e}thers".to_owned(), Vec::new());
        page.question = page.possible.get("cloth").cloned().map(Rc::new);
        let asked = TypingHelper::new(Rc::new(page), HintLook::Silent, || 80);
        let offered = |words: &TypingHelper, line: &str| words.offers(line, line.len()).1;
        let mut all = offered(&asked, "");
        assert!(all.iter().any(|offer| offer == "denim"), "{all:?}");
        all.extend(offered(&words(), "run gathered_skirt cloth="));
        all.extend(offered(&words(), "run gathered_skirt cloth='50"));
        all.extend(["open o", "run ga"].into_iter().flat_map(|line| offered(&words(), line)));
        assert!(all.iter().all(|offer| !offer.contains(|c: char| c.is_control() || c == '\u{202e}')), "{all:?}");
    }

    #[test]
    fn files_that_a_line_can_be_read_with() {
        check("read or", "or", &["orders.csv"]);
        check("open ", "", &["orders.csv", "may.txt", "sub/"]);
        check("read orders.csv ", "", &["as "]);
        check("read orders.csv as ", "", &[]);
        check("compare may.txt w", "w", &["with "]);
        check("compare may.txt with or", "or", &["orders.csv"]);
        check("write fir", "fir", &["first"]);
        check("write first.pa", "pa", &["panels"]);
        check("write first ", "", &["to "]);
        check("write first to or", "or", &["orders.csv"]);
        check("rename wai", "wai", &["waist", "waist_flat"]);
        check("rename waist to wai", "wai", &[]);
        check("save i", "i", &[]);
        check("open le", "le", &["left "]);
        check("rename pa", "pa", &["page "]);
    }

    #[test]
    fn no_more_than_five_hundred_cells_are_offered_and_none_twice() {
        let mut page = ExamplePage::example();
        page.cells.extend((0..600).map(|number| (format!("zz{number}"), "3 in".to_owned())));
        page.workshop = vec!["wage".to_owned(), "waist".to_owned()];
        let words = TypingHelper::new(Rc::new(page), HintLook::Silent, || 80);
        assert_eq!(words.offers("2 * zz", 6).1.len(), 500);
        // A rate of the workshop is offered as a cell is, and one that a cell hides only once.
        check_with(&words, "2 * wa", "wa", &["wage", "waist", "waist_flat"]);
    }

    #[test]
    fn at_a_question_blanks_before_an_answer_do_not_count() {
        let asked = |input: &str| {
            let mut page = ExamplePage::example();
            page.question = page.possible.get(input).cloned().map(Rc::new);
            TypingHelper::new(Rc::new(page), HintLook::Silent, || 80)
        };
        let (cloth, gathers) = (asked("cloth"), asked("gathers"));
        check_with(&cloth, "  den", "den", &["denim"]);
        check_with(&cloth, "  help hems a", "hems a", &["hems and shrinkage"]);
        check_with(&gathers, "  law", "law", &["lawn once", "lawn twice"]);
        check_with(&gathers, "wai", "wai", &["waist", "waist_flat"]);
        // In a text there are no cells, and behind a word of an answer only what goes on with it.
        check_with(&gathers, "\"wai", "", &[]);
        let with_functions = words().offers("la", 2).1;
        let begun: Vec<&str> = with_functions.iter().map(String::as_str).collect();
        check_with(&gathers, "la", "la", &[&["lawn once", "lawn twice"][..], &begun[..]].concat());
        // No verb begins an answer, and help knows none at a question.
        check_with(&gathers, "leav", "leav", &[]);
        assert!(!gathers.offers("help tak", 8).1.contains(&"take".to_owned()));
    }

    #[test]
    fn an_answer_that_goes_on_behind_a_blank_is_still_that_answer() {
        let run = |rest: &str| format!("run gathered_skirt {rest}");
        check(&run("cloth='ivory net "), "'ivory net ", &["'ivory net wide'"]);
        check(&run("cloth=Blue check "), "Blue check ", &["'Blue check lawn'"]);
        check(&run("gathers=lawn t"), "lawn t", &["'lawn twice'"]);
        check("run first ", "", &["as "]);
    }

    #[test]
    fn behind_an_order_come_its_open_inputs_or_the_rest_of_a_sum() {
        let run = |rest: &str| format!("run gathered_skirt {rest}");
        check(&run("waist=1 in cloth=any length=2 in "), "", &[]);
        check(&run("as first a"), "", &[]);
        check(&run("lined=yes a"), "", &[]);
        for whole in ["length=2 m", "length=up(2)", "length=5 %", "passes=[2]"] {
            check(&run(&format!("{whole} wa")), "wa", &["waist="]);
        }
        check(&run("length=2 * wa"), "wa", &["waist=", "waist", "waist_flat"]);
        // Nothing is known of an input of another name; a cloth takes no sum.
        check(&run("nosuch=2 * wai"), "wai", &["waist=", "waist", "waist_flat"]);
        check(&run("cloth=any + wai"), "wai", &["waist="]);
        // The word at the cursor is being written; those behind it are answered.
        check(&run("|waist=3 in"), "", &["waist=", "cloth=", "length=", "as "]);
        check(&run("c|h=x cloth=any"), "", &[]);
        check(&run("le|n cloth=any"), "le", &["length="]);
    }

    #[test]
    fn behind_a_verb_come_recipes_before_cells_and_words_once_they_are_begun() {
        let cells = ["first", "orders", "waist", "waist_flat", "ärmel", "飾り"];
        check("show ", "", &cells);
        check("rename ", "", &cells);
        check("sheet ", "", &[&["gathered_skirt", "gathered_trim"][..], &cells[..]].concat());
        check("take ", "", &["back "]);
        check("cut orders.csv from may.txt, s", "s", &["straight", "squaring ", "steps ", "seconds ", "seed "]);
        check("cut orders.csv from may.txt, seed 3, s", "s", &["straight", "squaring ", "steps ", "seconds "]);
        let units: Vec<&str> = Unit::ALL.iter().map(|unit| unit.symbol()).collect();
        check("show waist as ", "", &units);
        check("$6/", "", &units);
        check("cut orders.csv from may.txt, loss wai", "wai", &[]);
        check("vary waist ", "", &[]);
        check("vary waist over 50 cm, ", "", &cells);
        check("vary waist over 50 cm, show ", "", &cells);
        check("vary fro", "fro", &[]);
        check("vary waist over 50 cm, sho", "sho", &["show "]);
        check("vary waist over 50 ", "", &units);
        check("late = first.cut_list where piec", "piec", &["piece"]);
        check("f(3).wai", "wai", &[]);
        let topics = words().offers("help ", 5).1;
        assert!(topics.contains(&"take".to_owned()) && topics.contains(&"hems and shrinkage".to_owned()), "{topics:?}");
        assert!(!topics.contains(&"strips_for".to_owned()) && topics.is_sorted(), "{topics:?}");
    }

    #[test]
    fn an_answer_gets_the_quotes_that_keep_it_whole() {
        for (answer, opened, after, wanted) in [
            ("denim", None, "", Some("denim")),
            ("white lawn", None, "", Some("'white lawn'")),
            ("at$6", None, "", Some("'at$6'")),
            ("a,b", None, "", Some("'a,b'")),
            ("a=b", None, "", Some("'a=b'")),
            ("a#b", None, "", Some("'a#b'")),
            ("maker's", None, "", Some("\"maker's\"")),
            ("5\"", None, "", Some("'5\"'")),
            ("maker's 5\"", None, "", None),
            ("denim", Some('"'), "", Some("\"denim\"")),
            ("denim", Some('"'), "\" waist=2 in", Some("\"denim")),
            ("denim", Some('"'), "'", Some("\"denim\"")),
            ("white lawn", None, "'", Some("'white lawn'")),
            ("maker's", Some('\''), "", None),
        ] {
            assert_eq!(quoted(answer, opened, after).as_deref(), wanted, "{answer} {opened:?} {after}");
        }
        let files = ["or-ders_1.csv", "sub/may.txt", "~/a+b,c@d", "or ders.csv", "it's.csv", "a=b.csv", "a#b"];
        assert_eq!(plain(files.map(str::to_owned).to_vec()), files[..3]);
    }

    #[test]
    fn members_columns_and_cells_behind_verbs() {
        check("2 * first.p", "p", &["panels", "price"]);
        check("first.", "", &["panels", "price", "cut_list"]);
        check("first.cut_list.co", "co", &["count"]);
        check("nothing.p", "p", &[]);
        check("2.p", "p", &[]);
        check("late = orders where da", "da", &["days"]);
        check("vary wai", "wai", &["waist", "waist_flat"]);
        check("vary ", "", &["first", "orders", "waist", "waist_flat", "ärmel", "飾り"]);
        check("vary waist fro", "fro", &["from "]);
        check("vary waist from 50 c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
        check("vary waist from 50 cm to 65 cm by 5 cm, show first.pa", "pa", &["panels"]);
        check("show waist fi", "fi", &["first"]);
        check("tour x", "x", &[]);
    }

    #[test]
    fn help_knows_functions_topics_and_verbs() {
        check("help strips_l", "strips_l", &["strips_laid", "strips_looped"]);
        check("help bunting", "bunting", &["bunting", "bunting_rows", "bunting_tape"]);
        check("help hems a", "hems a", &["hems and shrinkage"]);
        check("help take", "take", &["take", "take_up"]);
    }

    #[test]
    fn nothing_inside_a_text_or_a_note() {
        check("\"wai", "wai", &[]);
        check("waist # wai", "wai", &[]);
        check("# wai", "wai", &[]);
        check("14\" + wai", "wai", &["waist", "waist_flat"]);
    }

    #[test]
    fn the_parts_of_a_cut() {
        check("cut or", "or", &["orders.csv"]);
        check("cut orders.csv ", "", &["from "]);
        check("cut orders.csv from ma", "ma", &["may.txt"]);
        check("cut orders.csv from may.txt, st", "st", &["straight", "steps "]);
        check("cut orders.csv from may.txt, straight, st", "st", &["steps "]);
        check("cut orders.csv from may.txt, loss 3 c", "c", &["cm", "centimetre", "centimetres", "centimeters"]);
        check("cut orders.csv from may.txt, loss 3 cm, to ", "", &["orders.csv", "may.txt", "sub/"]);
        check("cut orders.csv from may.txt, like o", "o", &["orders.csv"]);
    }

    /// Every offer, at every position of every example and form, leads to a line that can be completed.
    #[test]
    fn what_is_offered_is_read_as_far_as_it_goes() {
        let words = words();
        let examples = VERBS.iter().flat_map(|verb| verb.example).map(|line| (*line).to_owned());
        let forms = VERBS.iter().flat_map(|verb| verb.form().split(", or ").map(str::to_owned).collect::<Vec<_>>());
        let others =
            ["run gathered_skirt as x waist=waist cloth=any", "write first.cut_list to orders.csv", "open sub/x"];
        let mut seen = 0;
        for line in examples.chain(forms).chain(others.map(str::to_owned)) {
            for (cursor, _) in line.char_indices().chain([(line.len(), ' ')]) {
                let before = TypedLine::read(&line, cursor, TypedFor::Page).verb.map(|typed| typed.verb.name);
                let (start, offers) = words.offers(&line, cursor);
                for offer in offers {
                    // A name that needs quotes gets them although it was begun without.
                    let begun = line[start..cursor].to_lowercase();
                    let fits =
                        offer.to_lowercase().trim_start_matches(QUOTES).starts_with(begun.trim_start_matches(QUOTES));
                    assert!(fits, "{offer} in {line} at {cursor}");
                    let taken = format!("{}{offer}", &line[..start]);
                    let typed = TypedLine::read(&taken, taken.len(), TypedFor::Page);
                    assert_eq!(typed.context, CursorContext::Code, "{taken}");
                    assert!(
                        before.is_none_or(|verb| typed.verb.is_some_and(|typed| typed.verb.name == verb)),
                        "{taken}"
                    );
                    assert!(typed.verb.is_none_or(|typed| typed.verb.may_begin(typed.rest)), "{taken}");
                    seen += 1;
                }
            }
        }
        assert!(seen > 1_000, "{seen} offers");
    }
}
