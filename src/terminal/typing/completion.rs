//! Completion at the tab key: whatever may be typed at the cursor, from the page, the function table, the
//! units, the recipes and the folder.
//!
//! Never here: offers inside a text or a note, or names that the line could not be parsed with.

use super::TypingHelper;
use super::typed_line::{TypedFor, TypedLine, TypedVerb};
use crate::engine::text::line_tokens::CursorContext;
use crate::engine::{functions, help};
use crate::notebook::split_answers;
use crate::notebook::verbs::{AtCursor, ClauseForm, Slot, VERBS, Verb};
use crate::quantity::Unit;
use rustyline::completion::Completer;
use rustyline::validate::Validator;
use rustyline::{Context, Helper};

/// Maximum number of cell names that are offered.
const MAX_OFFERS: usize = 500;

impl TypingHelper {
    /// Returns the byte position of the word at the cursor, and its completions.
    pub(crate) fn offers(&self, line: &str, cursor: usize) -> (usize, Vec<String>) {
        let typed = TypedLine::read(line, cursor, self.source.typed_for());
        let (start, mut offers) = match typed.context {
            CursorContext::Code => self.in_code(&typed, line.get(cursor..).unwrap_or_default()),
            CursorContext::Text | CursorContext::Comment => (typed.before.len(), Vec::new()),
        };
        let mut seen = std::collections::BTreeSet::new();
        offers.retain(|offer| seen.insert(offer.clone()));
        (typed.offset + start, offers)
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
            let verbs: Vec<String> = verbs.collect();
            return (!verbs.is_empty()).then_some((indent, verbs));
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
            let open = self
                .source
                .inputs_of(order.recipe)
                .into_iter()
                .map(|(name, _)| name)
                .filter(|name| !order.answered.contains(name) && !later.iter().any(|(other, _)| other == name));
            offers.extend(from(open.map(|name| format!("{name}=")), begins));
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
        let cursor = line.find('|').unwrap_or(line.len());
        let line = line.replacen('|', "", 1);
        let (start, offers) = words().offers(&line, cursor);
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
                    assert!(offer.starts_with(&line[start..cursor]), "{offer} in {line} at {cursor}");
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
