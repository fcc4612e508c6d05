//! `vary`: tries one or two cells, inputs of an order or figures of the workshop, over a range or a list, and shows the results.
//!
//! The page itself does not change: only the cells between the varied ones and the wanted results are computed,
//! and kept apart from it.

use super::change::CellResult;
use super::formula::Formula;
use super::graph::{Graph, Node};
use super::objects::{MaterialObject, TableObject, TicketObject, is_made, may_be_made};
use super::page::{Page, Tools};
use super::value::{for_recipe, shown};
use super::verbs::{self, Verb};
use super::world::{EvalContext, Source, Stage};
use crate::diagnostic::{Diagnose, Diagnostic, DiagnosticKind};
use crate::engine::text::line_tokens::{LineTokens, Quotes};
use crate::engine::text::tokens::{TokenKind, Tokens};
use crate::engine::{Expression, Value};
use crate::quantity::{Dimension, Quantity, Reading, number};
use crate::report::excerpt;
use crate::table::{Cell as Field, Table, TableBuilder, TableError};
use crate::ticket::TicketValue;
use crate::workshop::PRICE_FIGURE;
use rhai::{Dynamic, Scope};
use std::collections::BTreeMap;

/// A parsed line: `vary waist from 50 cm to 65 cm by 5 cm, show first.panels, first.price`.
#[derive(Clone, Debug, PartialEq, Eq)]
struct VaryLine {
    varied: Vec<(String, VariedValues)>,
    results: Vec<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum VariedValues {
    Range { from: String, to: String, by: Option<String> },
    List(Vec<String>),
}

/// Maximum number of rows of one table.
const MOST_ROWS: usize = 1_000;

/// A measured result jumps if its step is more than this many times the median step of its column.
const JUMP: f64 = 3.0;

/// The hint for an incomplete line.
fn hint() -> &'static str {
    verbs::named("vary").map_or("", Verb::hint)
}

impl VaryLine {
    fn read(rest: &str, reading: Reading) -> Result<Self, Diagnostic> {
        let (varied, results) = split_at_show(rest, reading).ok_or_else(|| verbs::incomplete_error("vary"))?;
        let mut line = Self { varied: Vec::new(), results: split_at_commas(results) };
        for part in split_at_commas(varied) {
            let mut words = part.splitn(3, char::is_whitespace);
            let (name, word, rest) = (words.next(), words.next(), words.next().unwrap_or_default().trim());
            match (name, word, line.varied.last_mut()) {
                (Some(name), Some("over"), _) => {
                    line.varied.push((name.to_owned(), VariedValues::List(vec![rest.to_owned()])));
                }
                (Some(name), Some("from"), _) => {
                    let (from, rest) = split_once_at_word(rest, "to").ok_or_else(|| {
                        Diagnostic::new(format!("from where to where is {name} varied?")).hinting(hint())
                    })?;
                    let (to, by) = match split_once_at_word(&rest, "by") {
                        Some((to, by)) => (to, Some(by)),
                        None => (rest, None),
                    };
                    line.varied.push((name.to_owned(), VariedValues::Range { from, to, by }));
                }
                (_, _, Some((_, VariedValues::List(list)))) => list.push(part),
                _ => return Err(Diagnostic::new(format!("“{part}” says not over what it is varied")).hinting(hint())),
            }
        }
        match (line.varied.len(), line.results.is_empty()) {
            (1 | 2, false) => line.check_names(),
            (1 | 2, true) => Err(Diagnostic::new("show what?").hinting(hint())),
            (0, _) => Err(Diagnostic::new("vary what?").hinting(hint())),
            _ => Err(Diagnostic::new("one or two things can be varied at once, not more").hinting(hint())),
        }
    }

    /// Each name is a column, so each stands once.
    fn check_names(self) -> Result<Self, Diagnostic> {
        let columns: Vec<&String> = self.varied.iter().map(|(name, _)| name).chain(&self.results).collect();
        let twice =
            columns.iter().enumerate().find(|(at, name)| columns.iter().take(*at).any(|before| before == *name));
        let Some((_, name)) = twice else { return Ok(self) };
        let hint = "what is varied is shown anyway; behind show, name each thing that follows from it once";
        Err(Diagnostic::new(format!("“{name}” would be shown twice")).hinting(hint))
    }
}

/// Splits a line at the word `show`.
fn split_at_show(text: &str, reading: Reading) -> Option<(&str, &str)> {
    let tokens = Tokens::read(text, reading).ok()?.list;
    let show =
        tokens.iter().find(|token| token.kind == TokenKind::Word && text.get(token.span.clone()) == Some("show"))?;
    let before = text.get(..show.span.start)?.trim().trim_end_matches(',').trim();
    Some((before, text.get(show.span.end..)?.trim()))
}

fn split_at_commas(text: &str) -> Vec<String> {
    LineTokens::read(text, Quotes::Anywhere).at_commas().into_iter().map(str::to_owned).collect()
}

fn split_once_at_word(text: &str, word: &str) -> Option<(String, String)> {
    let found = LineTokens::read(text, Quotes::Anywhere).words(word).next()?;
    Some((text.get(..found.start)?.trim().to_owned(), text.get(found.end..)?.trim().to_owned()))
}

/// A varied cell, or a varied input of an order.
enum Varied {
    Cell(Node),
    Input(Node, String),
    /// A figure of the workshop, under its name, with the node of the workshop.
    Figure(Node, String),
}

impl Varied {
    fn node(&self) -> Node {
        match self {
            Self::Cell(node) | Self::Input(node, _) | Self::Figure(node, _) => *node,
        }
    }
}

impl Page {
    /// Computes the table of a `vary` line; `rest` is the line after the verb.
    pub fn vary(&mut self, tools: &mut Tools<'_>, rest: &str) -> Result<Table, Diagnostic> {
        let mut line = VaryLine::read(rest, tools.host.reading())?;
        let mut results = Vec::with_capacity(line.results.len());
        for result in &line.results {
            results.push(Formula::Sum(Expression::compile(tools.host, result)?));
        }
        let read: Vec<Node> =
            results.iter().flat_map(Formula::names).filter_map(|name| self.graph.find(name)).collect();
        let mut varied = Vec::new();
        let mut values = Vec::new();
        for (name, over) in &mut line.varied {
            let found = match self.varied(tools, name, &read) {
                Ok(found) => found,
                // What is shown reads nothing where a word of an order stands alone.
                Err(error) => return Err(self.order_left_out(tools, &line.results).unwrap_or(error)),
            };
            values.push(self.values(tools, name, over)?);
            // Name the order in the heading: no cell has the name of the input.
            if let Varied::Input(order, input) = &found {
                *name = format!("{}.{input}", self.graph.name(*order));
            }
            varied.push(found);
        }
        let rows: usize = values.iter().map(Vec::len).product();
        if rows > MOST_ROWS {
            return Err(Diagnostic::new(format!("that would be {rows} rows; {MOST_ROWS} are the most"))
                .hinting("take larger steps"));
        }
        let between = self.between(&varied, &read);
        let members = self.members_needed(&between, &results);
        let sweep = Sweep { varied: &varied, between: &between, members, results: &results };
        let found = self.rows(tools, &line, &sweep, &values);
        // Whatever happened, the workshop is again as it is.
        tools.world.suppose(&[])?;
        let found = found?;
        if let Some(error) = only_error(&found) {
            return Err(error);
        }
        table(tools, &line, &found, values.get(1).map_or(1, Vec::len))
    }

    /// Evaluates all rows.
    fn rows(
        &self,
        tools: &mut Tools<'_>,
        line: &VaryLine,
        sweep: &Sweep<'_>,
        values: &[Vec<Dynamic>],
    ) -> Result<Vec<Row>, Diagnostic> {
        let mut found = Vec::with_capacity(values.iter().map(Vec::len).product());
        let inner = values.get(1).cloned().unwrap_or_else(|| vec![Dynamic::UNIT]);
        for outer in values.first().into_iter().flatten() {
            for inner in &inner {
                let row_values: Vec<Dynamic> = [outer, inner].into_iter().take(sweep.varied.len()).cloned().collect();
                tools.world.suppose(&figures(sweep.varied, &row_values)?)?;
                let row = self.evaluate_row(tools, sweep, &row_values);
                // A word that nobody knows is the same in every row.
                let ends = |error: &Diagnostic| error.is_stop() || matches!(error.kind, DiagnosticKind::UnknownName(_));
                if let Some(error) = row.iter().find_map(|result| result.as_ref().err().filter(|error| ends(error))) {
                    return Err(self.meant_of_an_order((**error).clone()));
                }
                for (typed, result) in line.results.iter().zip(&row) {
                    if let Some(error) = result.as_ref().ok().and_then(|value| unfit_for_column(typed, value)) {
                        return Err(error);
                    }
                }
                found.push((row_values, row));
            }
        }
        Ok(found)
    }

    /// The error of the first sum with a word that an order has and no cell.
    fn order_left_out(&self, tools: &mut Tools<'_>, sums: &[String]) -> Option<Diagnostic> {
        let mut errors = sums.iter().filter_map(|sum| self.answer(tools, sum).err());
        errors.find_map(|error| {
            let DiagnosticKind::UnknownName(word) = &error.kind else { return None };
            (!self.words_of_orders(word).is_empty()).then(|| self.meant_of_an_order(error.clone()))
        })
    }

    fn varied(&self, tools: &mut Tools<'_>, name: &str, read: &[Node]) -> Result<Varied, Diagnostic> {
        if let Some((cell, input)) = name.split_once('.') {
            if self.cell(cell).is_none() && tools.world.workshop_value(cell).is_some() {
                return self.varied_figure(name, read);
            }
            let node = self.graph.find(cell).filter(|_| self.cell(cell).is_some());
            let node = node.ok_or_else(|| self.no_cell(cell))?;
            if self.order_of(cell).is_none() {
                return Err(Diagnostic::new(format!("“{cell}” is no order, so it has no input “{input}” to vary")));
            }
            return Ok(Varied::Input(node, input.to_owned()));
        }
        let above = self.graph.ancestry(read);
        let cell = self.graph.find(name).filter(|_| self.cell(name).is_some());
        if let Some(cell) = cell.filter(|cell| above.contains(cell)) {
            return Ok(Varied::Cell(cell));
        }
        // A bare name may be an input of the one order that the results depend on.
        let mut orders = Vec::new();
        for node in above {
            if let Some((recipe, _)) = self.order_of(self.graph.name(node)) {
                let inputs = tools.world.inputs(&recipe)?;
                if [super::order::PIECES, super::order::AGE].contains(&name)
                    || inputs.iter().any(|input| input.name == name)
                {
                    orders.push(node);
                }
            }
        }
        match (orders.as_slice(), cell) {
            ([order], _) => Ok(Varied::Input(*order, name.to_owned())),
            ([], None) if is_material(tools, name) => Err(Diagnostic::new(format!("what of {name} is varied?"))
                .hinting(format!("type {name}.{PRICE_FIGURE} for its price"))),
            ([], None) if tools.world.workshop_value(name).is_some() => self.varied_figure(name, read),
            ([], None) => Err(self.no_cell(name)),
            ([], Some(_)) => {
                let hides = tools.world.workshop_value(name).is_some();
                let hint = if hides {
                    format!("your cell {name} hides the workshop's; strike {name} gives it free")
                } else {
                    "show names cells that read it, or orders that ask for it".to_owned()
                };
                Err(Diagnostic::new(format!("nothing that is shown follows “{name}”")).hinting(hint))
            }
            ([first, ..], _) => Err(Diagnostic::new(format!("more than one order asks for “{name}”"))
                .hinting(format!("type {}.{name}", self.graph.name(*first)))),
        }
    }

    /// A figure of the workshop that is varied: `wage`, `white_lawn.price`.
    fn varied_figure(&self, name: &str, read: &[Node]) -> Result<Varied, Diagnostic> {
        let workshop = self.graph.find(&Source::Workshop.node_name());
        let follows = |node: &Node| self.graph.ancestry(read).contains(node);
        match workshop.filter(follows) {
            Some(node) => Ok(Varied::Figure(node, name.to_owned())),
            None => Err(Diagnostic::new(format!("nothing that is shown follows “{name}”"))
                .hinting("show a figure of an order, such as skirt.price")),
        }
    }

    fn values(&self, tools: &mut Tools<'_>, name: &str, over: &VariedValues) -> Result<Vec<Dynamic>, Diagnostic> {
        match over {
            VariedValues::List(list) => list.iter().map(|sum| self.answer(tools, sum)).collect(),
            VariedValues::Range { from, to, by } => {
                let mut quantity = |sum: &str| -> Result<Quantity, Diagnostic> {
                    let value = self.answer(tools, sum)?;
                    let plain = Value::from_script(&value).and_then(|value| value.quantity());
                    plain.ok_or_else(|| Diagnostic::new(format!("{sum} is no measure to vary {name} from or to")))
                };
                let (from, to) = (quantity(from)?, quantity(to)?);
                let by = match by {
                    Some(by) => quantity(by)?,
                    None if from.dimension() == Dimension::NUMBER => Quantity::number(1.0),
                    None => return Err(Diagnostic::new(format!("in which steps is {name} varied?")).hinting(hint())),
                };
                range(name, from, to, by)
            }
        }
    }

    /// The cells between the varied ones and those the results read, in order of evaluation.
    fn between(&mut self, varied: &[Varied], read: &[Node]) -> Vec<Node> {
        let starts: Vec<Node> = varied.iter().map(Varied::node).collect();
        let cells = &self.cells;
        let rank = |node: Node| cells.get(Graph::index(node)).and_then(|cell| cell.line).unwrap_or(0);
        self.graph.between(&starts, read, rank)
    }

    /// The orders among the cells of which only figures and inputs are read, with the members read.
    fn members_needed<'p>(&'p self, between: &[Node], results: &'p [Formula]) -> BTreeMap<Node, Vec<&'p str>> {
        let formula = |node: &Node| self.at(*node).and_then(|cell| cell.formula.as_ref());
        let orders = between.iter().filter(|node| matches!(formula(node), Some(Formula::Order(_))));
        let needed = orders.filter_map(|order| {
            let name = self.graph.name(*order);
            let readers = between.iter().filter_map(formula).chain(results);
            let members = readers.map(|reader| reader.members_of(name)).collect::<Option<Vec<_>>>()?.concat();
            members.iter().all(|member| may_be_made(member)).then_some((*order, members))
        });
        needed.collect()
    }

    fn evaluate_row(&self, tools: &mut Tools<'_>, sweep: &Sweep<'_>, row_values: &[Dynamic]) -> Vec<CellResult> {
        let mut overrides: BTreeMap<Node, CellResult> = BTreeMap::new();
        let mut scope = Scope::new();
        let given = || sweep.varied.iter().zip(row_values);
        for node in sweep.between {
            let as_cell = given().find(|(varied, _)| matches!(varied, Varied::Cell(cell) if cell == node));
            if let Some((_, value)) = as_cell {
                overrides.insert(*node, Ok(value.clone()));
                continue;
            }
            let Some(formula) = self.at(*node).and_then(|cell| cell.formula.as_ref()) else { continue };
            let inputs = given().filter_map(|(varied, value)| match varied {
                Varied::Input(order, input) if order == node => Some((input.as_str(), value)),
                _ => None,
            });
            let result = inputs.map(replacement).collect::<Result<Vec<_>, _>>().and_then(|replacements| {
                let mut at = |stage: Stage| {
                    let part = Part { formula, reads: self.graph.reads(*node), replacements: &replacements, stage };
                    self.evaluate_part(tools, &part, &mut scope, &overrides)
                };
                match sweep.members.get(node) {
                    None => at(Stage::Planned),
                    // A figure that is not there yet may be one that the recipe adds after cutting.
                    Some(members) => match at(Stage::Made) {
                        Ok(made) if !members.iter().all(|member| is_made(&made, member)) => at(Stage::Planned),
                        result => result,
                    },
                }
            });
            overrides.insert(*node, result.map_err(Box::new));
        }
        let results = sweep.results.iter().map(|formula| {
            let reads: Vec<Node> = formula.names().into_iter().filter_map(|name| self.graph.find(name)).collect();
            let part = Part { formula, reads: &reads, replacements: &[], stage: Stage::Planned };
            self.evaluate_part(tools, &part, &mut scope, &overrides).map_err(Box::new)
        });
        results.collect()
    }

    fn evaluate_part(
        &self,
        tools: &mut Tools<'_>,
        part: &Part<'_>,
        scope: &mut Scope<'static>,
        overrides: &BTreeMap<Node, CellResult>,
    ) -> Result<Dynamic, Diagnostic> {
        let first_error = part.reads.iter().find_map(|read| overrides.get(read)?.as_ref().err());
        if let Some(error) = first_error {
            return Err((**error).clone());
        }
        self.fill_scope(part.reads, scope, &|node| overrides.get(&node)).map_err(|(error, _)| *error)?;
        self.fill_from_workshop(&mut *tools.world, part.formula, scope);
        let names = || self.names().map(str::to_owned).collect();
        let world = &mut *tools.world;
        let mut with = EvalContext { host: tools.host, world, scope, names: &names, stage: part.stage };
        match part.formula {
            Formula::Order(order) => order.run_with(&mut with, part.replacements),
            formula => formula.evaluate(&mut with),
        }
    }
}

fn is_material(tools: &mut Tools<'_>, name: &str) -> bool {
    let value = tools.world.workshop_value(name);
    value.is_some_and(|value| value.read_lock::<MaterialObject>().is_some())
}

/// The error of a table in which every result has the same one.
fn only_error(rows: &[Row]) -> Option<Diagnostic> {
    let mut results = rows.iter().flat_map(|(_, row)| row);
    let first = results.next()?.as_ref().err()?;
    let same = results.all(|result| result.as_ref().err().is_some_and(|error| error == first));
    same.then(|| (**first).clone())
}

/// The figures of the workshop that are varied, with their values in a row.
fn figures<'v>(varied: &'v [Varied], row_values: &[Dynamic]) -> Result<Vec<(&'v str, Quantity)>, Diagnostic> {
    let figures = varied.iter().zip(row_values).filter_map(|(varied, value)| match varied {
        Varied::Figure(_, name) => Some((name.as_str(), value)),
        Varied::Cell(_) | Varied::Input(..) => None,
    });
    let quantity = |(name, value): (&'v str, &Dynamic)| {
        let quantity = Value::from_script(value).and_then(|value| value.quantity());
        Ok((name, quantity.ok_or_else(|| Diagnostic::new(format!("{name} is varied over figures alone")))?))
    };
    figures.map(quantity).collect()
}

/// What stays the same from row to row.
struct Sweep<'p> {
    varied: &'p [Varied],
    /// The cells between the varied ones and those the results read.
    between: &'p [Node],
    /// See [`Page::members_needed`].
    members: BTreeMap<Node, Vec<&'p str>>,
    results: &'p [Formula],
}

/// One formula to evaluate in a row.
struct Part<'p> {
    formula: &'p Formula,
    reads: &'p [Node],
    /// Answers in place of those of an order.
    replacements: &'p [(String, TicketValue)],
    stage: Stage,
}

fn replacement((input, value): (&str, &Dynamic)) -> Result<(String, TicketValue), Diagnostic> {
    let value = for_recipe(value).ok_or_else(|| Diagnostic::new(format!("{input} cannot be varied over that")))?;
    Ok((input.to_owned(), value))
}

fn range(name: &str, from: Quantity, to: Quantity, by: Quantity) -> Result<Vec<Dynamic>, Diagnostic> {
    if from.dimension() != to.dimension() || from.dimension() != by.dimension() {
        let nouns = [from, to, by].map(|quantity| quantity.dimension().noun()).join(", ");
        return Err(
            Diagnostic::new(format!("the two ends and the step of {name} must be alike, not {nouns}")).hinting(hint())
        );
    }
    let span = to.steps() - from.steps();
    let step = if span < 0.0 { -by.steps().abs() } else { by.steps().abs() };
    let steps = number::snapped(span / step).floor();
    if !steps.is_finite() {
        return Err(Diagnostic::new(format!("{name} needs a step other than zero")).hinting(hint()));
    }
    let count = number::whole(steps).and_then(|steps| usize::try_from(steps).ok()).filter(|count| *count < MOST_ROWS);
    let Some(count) = count else {
        return Err(Diagnostic::new(format!("more than {MOST_ROWS} steps")).hinting("take larger steps"));
    };
    let at = |index: usize| {
        let steps = from.steps() + step * number::from_whole(number::from_size(index));
        let quantity = Quantity::from_steps(steps, from.dimension()).liking(from.liked());
        let whole = quantity.to_number().ok().filter(|_| quantity.liked().named.is_none()).and_then(number::whole);
        whole.map_or_else(|| crate::engine::value::quantity_to_script(quantity), Dynamic::from_int)
    };
    Ok((0..=count).map(at).collect())
}

type Row = (Vec<Dynamic>, Vec<CellResult>);

fn table(tools: &Tools<'_>, line: &VaryLine, rows: &[Row], group: usize) -> Result<Table, Diagnostic> {
    let columns: Vec<Vec<Option<Value>>> = (0..line.varied.len())
        .map(|index| rows.iter().map(|(row_values, _)| Value::from_script(row_values.get(index)?)).collect())
        .chain(
            (0..line.results.len())
                .map(|index| rows.iter().map(|(_, row)| Value::from_script(row.get(index)?.as_ref().ok()?)).collect()),
        )
        .collect();
    let notes: Vec<String> = rows.iter().map(|(_, row)| notes(row)).collect();
    let jumps: Vec<String> = (0..rows.len()).map(|row| jumps(tools, line, rows, row, group)).collect();
    let names: Vec<&str> =
        line.varied.iter().map(|(name, _)| name.as_str()).chain(line.results.iter().map(String::as_str)).collect();
    let built = || -> Result<Table, TableError> {
        let mut builder = Table::new("what_if");
        for (name, column) in names.iter().zip(&columns) {
            builder = column_of(builder, name, column);
        }
        let has_notes = notes.iter().any(|note| !note.is_empty());
        builder = builder.text("jump");
        if has_notes {
            builder = builder.text("why not");
        }
        let mut table = builder.ready()?;
        for (row, (jump, note)) in jumps.iter().zip(&notes).enumerate() {
            let mut fields: Vec<Field> =
                columns.iter().map(|column| field(column.get(row).and_then(Option::as_ref))).collect();
            fields.push(Field::Text(jump.clone()));
            if has_notes {
                fields.push(Field::Text(note.clone()));
            }
            table.push(fields)?;
        }
        Ok(table)
    };
    built().map_err(|error| Diagnostic::new(error.message(&tools.host.style())))
}

fn column_of(builder: TableBuilder, name: &str, column: &[Option<Value>]) -> TableBuilder {
    let all = |test: &dyn Fn(&Value) -> bool| column.iter().flatten().all(test);
    let dimension = |value: &Value| value.quantity().map(Quantity::dimension);
    if all(&|value| matches!(value, Value::Whole(_))) {
        builder.count(name)
    } else if all(&|value| matches!(value, Value::Text(_))) {
        builder.text(name)
    } else if all(&|value| matches!(value, Value::Flag(_))) {
        builder.flag(name)
    } else if all(&|value| dimension(value) == Some(Dimension::MONEY)) {
        builder.money(name)
    } else {
        builder.mixed(name, &format!("{name} unit"))
    }
}

fn field(value: Option<&Value>) -> Field {
    match value {
        Some(Value::Quantity(quantity)) => Field::Quantity(*quantity),
        Some(Value::Whole(whole)) => Field::Count(*whole),
        Some(Value::Text(text)) => Field::Text(text.clone()),
        Some(Value::Flag(flag)) => Field::Flag(*flag),
        Some(Value::List(_) | Value::Blank) | None => Field::Blank,
    }
}

/// The reasons why results of a row are missing.
fn notes(row: &[CellResult]) -> String {
    let mut notes: Vec<String> = Vec::new();
    for error in row.iter().filter_map(|result| result.as_ref().err()) {
        let text = reason(error);
        if !notes.contains(&text) {
            notes.push(text);
        }
    }
    notes.join("; ")
}

/// The reason why one result is missing, in one line; of a refused order, the last line of its error.
fn reason(error: &Diagnostic) -> String {
    let Some(last) = error.related.last() else { return excerpt::headline(error) };
    last.hint.as_ref().map_or_else(|| excerpt::headline(last), |hint| format!("  {hint}"))
}

/// The results that jump between the previous row and this one: a count, text or flag that changes, or a
/// measure whose step is much larger than the others of its column. The previous row is `group` rows above.
fn jumps(tools: &Tools<'_>, line: &VaryLine, rows: &[Row], row: usize, group: usize) -> String {
    let style = tools.host.style();
    // With two varied cells, the previous row is the one with the same second value.
    let Some(before) = row.checked_sub(group) else { return String::new() };
    let at = |row: usize, result: usize| rows.get(row)?.1.get(result)?.as_ref().ok();
    let mut jumps = Vec::new();
    for (index, name) in line.results.iter().enumerate() {
        let (Some(was), Some(now)) = (at(before, index), at(row, index)) else { continue };
        let (Some(from), Some(to)) = (Value::from_script(was), Value::from_script(now)) else { continue };
        let jumps_here = match (&from, &to) {
            (Value::Whole(from), Value::Whole(to)) => from != to,
            (Value::Text(from), Value::Text(to)) => from != to,
            (Value::Flag(from), Value::Flag(to)) => from != to,
            _ => {
                let step = step_of(&from, &to);
                let steps: Vec<f64> = (group..rows.len())
                    .filter_map(|other| {
                        let was = Value::from_script(at(other - group, index)?)?;
                        step_of(&was, &Value::from_script(at(other, index)?)?)
                    })
                    .collect();
                step.zip(lower_median(steps))
                    .is_some_and(|(step, median)| step > JUMP * median && !number::is_near(step, 0.0))
            }
        };
        if jumps_here {
            let [was, now] = [was, now].map(|value| shown(value, &style).unwrap_or_default());
            jumps.push(format!("{name} {was} → {now}"));
        }
    }
    jumps.join(", ")
}

fn step_of(from: &Value, to: &Value) -> Option<f64> {
    Some((to.quantity()?.steps() - from.quantity()?.steps()).abs())
}

fn lower_median(mut steps: Vec<f64>) -> Option<f64> {
    steps.sort_by(f64::total_cmp);
    // Of two middle steps, the lower: of a small step and a large one, the large one is the jump.
    steps.get(steps.len().checked_sub(1)? / 2).copied()
}

/// The error for a value that does not fit in a column, with a figure of it that does; `None` if it fits.
fn unfit_for_column(typed: &str, value: &Dynamic) -> Option<Diagnostic> {
    let cannot = |noun: &str| Diagnostic::new(format!("“{typed}” is {noun}, which does not go into one column"));
    if let Some(ticket) = value.read_lock::<TicketObject>() {
        let figures = ticket.ticket().figures.iter().take(2).map(|figure| super::objects::member_name(&figure.name));
        let named: Vec<String> = figures.chain(["price".to_owned()]).map(|name| format!("{typed}.{name}")).collect();
        return Some(cannot("a ticket").hinting(format!("show what you want to know of it: {}", named.join(", "))));
    }
    if value.read_lock::<TableObject>().is_some() {
        return Some(cannot("a table").hinting(format!("show a figure of it, such as {typed}.rows")));
    }
    let list = matches!(Value::from_script(value), Some(Value::List(_)));
    list.then(|| cannot("a list").hinting(format!("show one figure of it: total({typed}), or largest({typed})")))
}

#[cfg(test)]
mod tests;
