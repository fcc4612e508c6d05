//! The words with which a recipe fills the ticket.
//!
//! The ticket and its pieces are shared handles, so a helper in an imported file adds to the caller's ticket.
#![allow(clippy::needless_pass_by_value, reason = "the script engine hands arguments over by value")]

use crate::engine::script_error::{Marked, ScriptError};
use crate::piece::{
    Edge, Exact, Fold, Grain, JoinRule, MatchLine, Matching, Middle, OutlinePoint, Panels, Piece, Shape,
};
use crate::quantity::nearest::nearest;
use crate::quantity::{Dimension, Length, Quantity, Style};
use crate::recipe::contract::arguments::{MOST_TEXT, ScriptResult, argument};
use crate::recipe::contract::input_words::plain;
use crate::recipe::host::gathers::formula_error;
use crate::recipe::host::material_words::Goods;
use crate::recipe::host::order::Order;
use crate::textile::panels::Widths;
use crate::textile::{elastic, strips, thread};
use crate::ticket::{
    Figure, MOST_SPOKEN, Mark, Need, Sewing, Ticket, TicketMaterial, TicketPiece, TicketStep, Work, cautions,
};
use crate::workshop::Material;
use rhai::{Array, Dynamic, Engine};
use std::cell::RefCell;
use std::rc::Rc;

/// The ticket being filled.
#[derive(Debug)]
pub(in crate::recipe) struct Draft {
    pub(in crate::recipe) ticket: Ticket,
    order: Order,
    /// Goods without a name that the recipe itself makes, with their indices in the ticket's materials.
    unnamed: Vec<(Rc<Material>, usize)>,
    /// Whether the pieces are planned: no piece can be added, and further entries are for that plan.
    pub(in crate::recipe) cut: bool,
}

/// The ticket in a script.
#[derive(Clone, Debug)]
pub(in crate::recipe) struct TicketHandle(pub(in crate::recipe) Rc<RefCell<Draft>>);

/// A piece in a script: its index in the ticket's list.
#[derive(Clone, Debug)]
struct PieceHandle(TicketHandle, usize);

/// The most entries in any list of a ticket: a sheet of more lines is a mistake, and checking names against a longer
/// list would take too long.
const MAX_ENTRIES: usize = 1_000;

fn check_limit(entries: usize, noun: &str) -> Result<(), ScriptError> {
    if entries < MAX_ENTRIES {
        return Ok(());
    }
    Err(ScriptError::new(format!("a ticket holds {MAX_ENTRIES} {noun} at most"))
        .hinting("is this inside a loop that goes too far?"))
}

/// A need, sewing line or work in a script: its index in the ticket's list of that kind.
#[derive(Clone, Debug)]
struct EntryHandle(TicketHandle, Entry, usize);

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Entry {
    Need,
    Sewing,
    Work,
}

impl TicketHandle {
    /// Creates a ticket with nothing but the answers of an order.
    pub(in crate::recipe) fn new(recipe: &str, makes: &str, order: &Order) -> Self {
        let mut ticket = Ticket::new(recipe, makes);
        ticket.garments = order.garments();
        ticket.age = order.age();
        ticket.used_for = order.used_for();
        ticket.washing = order.washing();
        ticket.mark = order.mark().clone();
        ticket.inputs = order.answered();
        ticket.without = order.without().to_vec();
        Self(Rc::new(RefCell::new(Draft { ticket, order: Rc::clone(order), unnamed: Vec::new(), cut: false })))
    }
}

/// Registers the words with an engine.
pub(in crate::recipe) fn register(engine: &mut Engine) {
    engine
        .register_type_with_name::<TicketHandle>("ticket")
        .register_type_with_name::<PieceHandle>("piece")
        .register_type_with_name::<EntryHandle>("entry of the ticket")
        .register_fn("figure", figure)
        .register_fn("piece", piece)
        .register_fn("need", need)
        .register_fn("sew", sew)
        .register_fn("work", work)
        .register_fn("mark", mark)
        .register_fn("step", step)
        .register_fn("cut_steps", cut_steps)
        .register_fn("caution", caution);
    engine
        .register_fn("rectangle", rectangle)
        .register_fn("full_width", full_width)
        .register_fn("strips", |piece: PieceHandle, total: Dynamic, cut: Dynamic| {
            strip_piece(&piece, &total, &cut, None)
        })
        .register_fn("strips", |piece: PieceHandle, total: Dynamic, cut: Dynamic, overlap: Dynamic| {
            strip_piece(&piece, &total, &cut, Some(&overlap))
        })
        .register_fn("sector", sector)
        .register_fn("outline", outline)
        .register_fn("count", count)
        .register_fn("mirrored_pairs", mirrored_pairs)
        .register_fn("on_fold", on_fold)
        .register_fn("grain", grain)
        .register_fn("matched", |piece: PieceHandle| piece.change(|piece| piece.matching = Some(Matching::RunOn)))
        .register_fn("matched", matched)
        .register_fn("matched", matched_by_line)
        .register_fn("widths", widths)
        .register_fn("joined", joined)
        .register_fn("left_and_right", |piece: PieceHandle| piece.panels(|panels| panels.paired = true))
        .register_fn("allow", allow)
        .register_fn("may_join", may_join)
        .register_fn("never_smaller", |piece: PieceHandle| piece.change(|piece| piece.never_smaller = true))
        .register_fn("once_per_order", |piece: PieceHandle| piece.entry(|entry| entry.once = true));
    engine
        .register_fn("once_per_order", once_per_order)
        .register_fn("count", count_of_need)
        .register_fn("about", about)
        .register_fn("round_body", round_body);
}

impl Draft {
    /// Returns the index of goods in the ticket's materials, and adds them if they are new. Goods without a name are
    /// named after their use.
    fn material(&mut self, goods: &Goods, used_for: &str) -> usize {
        if goods.material.name.is_empty() {
            return self.unnamed_material(goods, used_for);
        }
        let same = |known: &TicketMaterial| known.input == goods.input && known.material.name == goods.material.name;
        // A listed material is the same whichever input named it; unlisted ones are distinguished by input.
        let listed =
            |known: &TicketMaterial| known.listed && goods.listed && known.material.name == goods.material.name;
        if let Some(at) = self.ticket.materials.iter().position(|known| same(known) || listed(known)) {
            return at;
        }
        self.add_material(goods, (*goods.material).clone())
    }

    /// Returns the index of goods without a name. They are the same only if the recipe uses one value again: two cloths
    /// alike in width and price are two cloths.
    fn unnamed_material(&mut self, goods: &Goods, used_for: &str) -> usize {
        let same = |(known, _): &&(Rc<Material>, usize)| Rc::ptr_eq(known, &goods.material);
        if let Some((_, at)) = self.unnamed.iter().find(same) {
            return *at;
        }
        let kind = if goods.notion { "notion" } else { "cloth" };
        let plain = format!("any {kind} for {used_for}");
        let taken = |name: &str| self.ticket.materials.iter().any(|known| known.material.name == name);
        let mut names = std::iter::once(plain.clone()).chain((2_usize..).map(|number| format!("{plain} {number}")));
        let name = names.find(|name| !taken(name)).unwrap_or(plain);
        let at = self.add_material(goods, Material { name, ..(*goods.material).clone() });
        self.unnamed.push((Rc::clone(&goods.material), at));
        at
    }

    fn add_material(&mut self, goods: &Goods, material: Material) -> usize {
        self.ticket.materials.push(TicketMaterial { input: goods.input.clone(), listed: goods.listed, material });
        self.ticket.materials.len() - 1
    }
}

fn figure(ticket: TicketHandle, name: Dynamic, arg: Dynamic, meaning: Dynamic) -> ScriptResult<()> {
    let named = argument("figure", "name", 0, &name);
    let (name, meaning) = (named.name()?, argument("figure", "meaning", 2, &meaning).text()?);
    let value = argument("figure", "value", 1, &arg);
    let plain = plain(&arg).ok_or_else(|| value.must_be("a number, a measure or a text"))?;
    if plain.quantity().is_some_and(|quantity| !quantity.steps().is_finite()) {
        return Err(value.problem(format!("the figure “{name}” is too large to reckon with")).into());
    }
    let letters = plain.letters();
    if letters > MOST_TEXT {
        return Err(value
            .problem(format!("the figure “{name}” has {letters} letters; {MOST_TEXT} are the most"))
            .into());
    }
    let mut draft = ticket.0.borrow_mut();
    if draft.order.declares(&name.replace(' ', "_")) {
        return Err(named.problem(format!("“{name}” is the name of an input already")).into());
    }
    if draft.ticket.figure(&name).is_some() {
        return Err(named.problem(format!("there is a figure “{name}” already")).into());
    }
    check_limit(draft.ticket.figures.len(), "figures")?;
    draft.ticket.figures.push(Figure { name, value: plain, meaning });
    Ok(())
}

fn goods(word: &str, index: usize, arg: &Dynamic, notion: bool) -> Result<Goods, ScriptError> {
    let (name, needed) = if notion { ("notion", "a notion") } else { ("cloth", "a cloth") };
    let found = argument(word, name, index, arg);
    arg.clone().try_cast::<Goods>().filter(|goods| goods.notion == notion).ok_or_else(|| found.must_be(needed))
}

fn piece(ticket: TicketHandle, name: Dynamic, cloth: Dynamic) -> ScriptResult<PieceHandle> {
    let named = argument("piece", "name", 0, &name);
    let name = named.name()?;
    let goods = goods("piece", 1, &cloth, false)?;
    let mut draft = ticket.0.borrow_mut();
    if draft.cut {
        return Err(named.problem("no piece can be added after cutting").into());
    }
    if draft.ticket.pieces.iter().any(|entry| entry.piece.name == name) {
        return Err(named.problem(format!("there is a piece “{name}” already")).into());
    }
    let material = draft.material(&goods, &name);
    check_limit(draft.ticket.pieces.len(), "pieces")?;
    // An outline without corners means no shape yet.
    let piece = Piece::new(&name, 1, Shape::Outline(Vec::new()));
    draft.ticket.pieces.push(TicketPiece { piece, material, once: false });
    let at = draft.ticket.pieces.len() - 1;
    drop(draft);
    Ok(PieceHandle(ticket, at))
}

impl PieceHandle {
    fn entry(self, change: impl FnOnce(&mut TicketPiece)) -> Self {
        if let Some(entry) = self.0.0.borrow_mut().ticket.pieces.get_mut(self.1) {
            change(entry);
        }
        self
    }

    fn change(self, change: impl FnOnce(&mut Piece<Exact>)) -> Self {
        self.entry(|entry| change(&mut entry.piece))
    }

    /// Changes the panels that it is the widths of. The words come in any order.
    fn panels(self, change: impl FnOnce(&mut Panels)) -> Self {
        self.change(|piece| change(piece.panels.get_or_insert_with(|| Panels::new(Length::ZERO))))
    }

    fn shaped(self, shape: Shape) -> Self {
        self.change(|piece| piece.shape = shape.into())
    }

    /// Reads a size of the piece, finite and above zero; the error names the piece.
    fn size(&self, word: &str, name: &str, index: usize, arg: &Dynamic) -> Result<Length, ScriptError> {
        let size = argument(word, name, index, arg);
        let length = size.length()?;
        if length.is_positive() && length.steps().is_finite() {
            return Ok(length);
        }
        let shown = Style::default().show(length.into());
        let piece =
            self.0.0.borrow().ticket.pieces.get(self.1).map(|entry| entry.piece.name.clone()).unwrap_or_default();
        Err(size.problem(format!("the piece “{piece}” would be {shown} {name}; it must be more than nothing")))
    }
}

fn rectangle(piece: PieceHandle, along: Dynamic, across: Dynamic) -> ScriptResult<PieceHandle> {
    let along = piece.size("rectangle", "along", 0, &along)?;
    let across = piece.size("rectangle", "across", 1, &across)?;
    Ok(piece.shaped(Shape::Rectangle { along, across }))
}

fn full_width(piece: PieceHandle, along: Dynamic) -> ScriptResult<PieceHandle> {
    let along = piece.size("full_width", "along", 0, &along)?;
    Ok(piece.shaped(Shape::FullWidth { along }))
}

/// Makes the piece strips over the full width of the goods, laid end to end until they cover the total.
fn strip_piece(
    piece: &PieceHandle,
    total: &Dynamic,
    cut: &Dynamic,
    overlap: Option<&Dynamic>,
) -> ScriptResult<PieceHandle> {
    let along = piece.size("strips", "along", 1, cut)?;
    let total = argument("strips", "total", 0, total).length()?;
    let overlap = overlap.map_or(Ok(Length::ZERO), |overlap| argument("strips", "overlap", 2, overlap).length())?;
    let (width, input) = {
        let draft = piece.0.0.borrow();
        let entry = draft.ticket.pieces.get(piece.1);
        let material = entry.and_then(|piece| draft.ticket.materials.get(piece.material));
        (entry.and_then(|piece| draft.ticket.width_of(piece)), material.and_then(|m| m.input.clone()))
    };
    let width = width.ok_or_else(|| {
        let problem = ScriptError::new("the width of the roll is not known");
        input.iter().fold(problem, |problem, input| problem.refusing(input))
    })?;
    let count = strips::strips_for(total, width, overlap).map_err(|error| formula_error(&error, input.as_deref()))?;
    Ok(piece.clone().change(|piece| {
        piece.shape = Shape::FullWidth { along }.into();
        piece.count = count;
    }))
}

fn sector(piece: PieceHandle, inner: Dynamic, outer: Dynamic, turn: Dynamic) -> ScriptResult<PieceHandle> {
    let inner_given = argument("sector", "inner", 0, &inner);
    let inner = inner_given.length()?;
    let outer = piece.size("sector", "outer", 1, &outer)?;
    let share = argument("sector", "turn", 2, &turn);
    let turn = share.of(Dimension::NUMBER)?.steps();
    if inner.steps() < 0.0 || inner >= outer {
        return Err(inner_given.problem("the inner radius must be zero or more, and less than the outer one").into());
    }
    if !(turn > 0.0 && turn <= 1.0) {
        return Err(share.problem("the turn of a sector lies between 0 and 1; a half circle is 0.5").into());
    }
    Ok(piece.shaped(Shape::Sector { inner, outer, turn }))
}

fn outline(piece: PieceHandle, points: Dynamic) -> ScriptResult<PieceHandle> {
    let arg = argument("outline", "points", 0, &points);
    // A recipe writes a corner as the piece hangs: across it, then up along it.
    let corner = |point: &Dynamic| -> Option<OutlinePoint> {
        let pair = point.clone().try_cast::<Array>()?;
        let [across, along] = pair.as_slice() else { return None };
        let length = |value: &Dynamic| Length::try_from(crate::engine::value::quantity_from_script(value)?).ok();
        Some(OutlinePoint { across: length(across)?, along: length(along)? })
    };
    let list = points.clone().try_cast::<Array>().unwrap_or_default();
    let corners: Option<Vec<_>> = list.iter().map(corner).collect();
    let corners = corners.filter(|corners| corners.len() >= 3).ok_or_else(|| {
        arg.problem("an outline is a list of at least three points")
            .hinting("type [[0 cm, 0 cm], [40 cm, 0 cm], [20 cm, 30 cm]]")
    })?;
    let spread = |pick: fn(&OutlinePoint) -> f64| {
        let values = corners.iter().map(pick);
        values.clone().fold(f64::NEG_INFINITY, f64::max) - values.fold(f64::INFINITY, f64::min)
    };
    let (across, along) = (spread(|corner| corner.across.steps()), spread(|corner| corner.along.steps()));
    if !(along > 0.0 && across > 0.0 && along.is_finite() && across.is_finite()) {
        return Err(arg.problem("the outline encloses nothing").into());
    }
    Ok(piece.shaped(Shape::Outline(corners)))
}

fn count(piece: PieceHandle, count: Dynamic) -> ScriptResult<PieceHandle> {
    let count = argument("count", "count", 0, &count).count(1)?;
    Ok(piece.change(|piece| piece.count = count))
}

fn mirrored_pairs(piece: PieceHandle, pairs: Dynamic) -> ScriptResult<PieceHandle> {
    let pairs = argument("mirrored_pairs", "pairs", 0, &pairs).count(1)?;
    Ok(piece.change(|piece| {
        piece.count = pairs.saturating_mul(2);
        piece.mirrored = true;
    }))
}

/// Handles `matched("level")` and `matched("run on")`. Of panels, this says how the leading widths of a pair stand; other
/// pieces are level if none is joined beside another.
fn matched(piece: PieceHandle, how: Dynamic) -> ScriptResult<PieceHandle> {
    let words = Middle::WORDS.map(|(word, middle)| (word, middle == Middle::Level));
    let level = argument("matched", "how", 0, &how).one_of(&words)?;
    let matching = if level { Matching::Level } else { Matching::RunOn };
    Ok(piece.change(|piece| piece.matching = Some(matching)))
}

/// Handles `matched("level", 16 cm, "lower edge")`: that line stands at the same place of the pattern on all.
fn matched_by_line(piece: PieceHandle, how: Dynamic, line: Dynamic, edge: Dynamic) -> ScriptResult<PieceHandle> {
    let arg = argument("matched", "line", 1, &line);
    let distance = arg.length()?;
    if distance.steps() < 0.0 || !distance.steps().is_finite() {
        return Err(arg.problem("a line lies on the piece: its distance from the edge is zero or more").into());
    }
    let edge = argument("matched", "edge", 2, &edge).one_of(&Edge::WORDS)?;
    let piece = matched(piece, how)?;
    Ok(piece.change(|piece| piece.line = Some(MatchLine { distance, edge })))
}

/// Makes the piece the widths of panels, each `across` from raw edge to raw edge and `along` long.
fn widths(piece: PieceHandle, across: Dynamic, along: Dynamic) -> ScriptResult<PieceHandle> {
    let across = piece.size("widths", "across", 0, &across)?;
    let along = piece.size("widths", "along", 1, &along)?;
    Ok(piece.shaped(Shape::FullWidth { along }).panels(|panels| panels.across = across))
}

fn joined(piece: PieceHandle, allowance: Dynamic, widths: Dynamic) -> ScriptResult<PieceHandle> {
    let arg = argument("joined", "allowance", 0, &allowance);
    let allowance = arg.length()?;
    if allowance.steps() < 0.0 || !allowance.steps().is_finite() {
        return Err(arg.problem("a join takes an allowance of zero or more").into());
    }
    let words = Widths::WORDS.map(|(word, widths)| (word, widths == Widths::Half));
    let halves = argument("joined", "widths", 1, &widths).one_of(&words)?;
    Ok(piece.panels(|panels| (panels.allowance, panels.halves) = (allowance, halves)))
}

/// Says how much of the piece is turned or hidden at an edge.
fn allow(piece: PieceHandle, edge: Dynamic, amount: Dynamic) -> ScriptResult<PieceHandle> {
    let edge = argument("allow", "edge", 0, &edge).one_of(&Edge::WORDS)?;
    let arg = argument("allow", "amount", 1, &amount);
    let amount = arg.length()?;
    if amount.steps() < 0.0 || !amount.steps().is_finite() {
        return Err(arg.problem("what is allowed at an edge is zero or more").into());
    }
    Ok(piece.change(|piece| {
        piece.allowed.retain(|(known, _)| *known != edge);
        piece.allowed.push((edge, amount));
    }))
}

fn on_fold(piece: PieceHandle, line: Dynamic) -> ScriptResult<PieceHandle> {
    let line = argument("on_fold", "line", 0, &line).one_of(&Fold::WORDS)?;
    Ok(piece.change(|piece| piece.on_fold = Some(line)))
}

fn grain(piece: PieceHandle, grain: Dynamic) -> ScriptResult<PieceHandle> {
    let grain = argument("grain", "grain", 0, &grain).one_of(&Grain::WORDS)?;
    Ok(piece.change(|piece| piece.grain = grain))
}

fn may_join(piece: PieceHandle, most: Dynamic, shortest: Dynamic, allowance: Dynamic) -> ScriptResult<PieceHandle> {
    let most = argument("may_join", "most", 0, &most).count(1)?;
    let shortest = argument("may_join", "shortest", 1, &shortest).positive_length()?;
    let allowance = argument("may_join", "allowance", 2, &allowance).length()?;
    let rule = JoinRule::new(most, shortest, allowance);
    Ok(piece.change(|piece| piece.may_join = Some(rule)))
}

/// Reads an amount: a length or a number, finite and zero or more.
fn amount(word: &str, index: usize, arg: &Dynamic) -> Result<Quantity, ScriptError> {
    let arg = argument(word, "amount", index, arg);
    let quantity = arg.quantity()?;
    if quantity.steps() < 0.0 || !quantity.steps().is_finite() {
        let shown = Style::default().show(quantity);
        return Err(arg.problem(format!("the amount in {word} is {shown}; it must be zero or more")));
    }
    match quantity.dimension() {
        Dimension::LENGTH | Dimension::NUMBER => Ok(quantity),
        _ => Err(arg.must_be("a length or a number")),
    }
}

fn need(ticket: TicketHandle, notion: Dynamic, arg: Dynamic, why: Dynamic) -> ScriptResult<EntryHandle> {
    let goods = goods("need", 0, &notion, true)?;
    let amount = amount("need", 1, &arg)?;
    goods.can_be_had_in(amount)?;
    let why = argument("need", "why", 2, &why).text()?;
    let mut draft = ticket.0.borrow_mut();
    let material = draft.material(&goods, &why);
    check_limit(draft.ticket.needs.len(), "needs")?;
    draft.ticket.needs.push(Need { material, amount, count: 1, why, once: false });
    let at = draft.ticket.needs.len() - 1;
    drop(draft);
    Ok(EntryHandle(ticket, Entry::Need, at))
}

fn sew(ticket: TicketHandle, class: Dynamic, length: Dynamic, why: Dynamic) -> ScriptResult<EntryHandle> {
    let arg = argument("sew", "stitch class", 0, &class);
    let class = arg.text()?;
    thread::stitch_class(&class)
        .map_err(|error| ScriptError::of(&error, &Style::default()).marking(Marked::Argument(arg.index)))?;
    let arg = argument("sew", "length", 1, &length);
    let length = arg.length()?;
    if length.steps() < 0.0 || !length.steps().is_finite() {
        let shown = Style::default().show(length.into());
        return Err(arg.problem(format!("the length in sew is {shown}; it must be zero or more")).into());
    }
    let why = argument("sew", "why", 2, &why).text()?;
    let mut draft = ticket.0.borrow_mut();
    check_limit(draft.ticket.sewing.len(), "lines of stitching")?;
    draft.ticket.sewing.push(Sewing { class, length, why, once: false });
    let at = draft.ticket.sewing.len() - 1;
    drop(draft);
    Ok(EntryHandle(ticket, Entry::Sewing, at))
}

fn work(ticket: TicketHandle, operation: Dynamic, arg: Dynamic) -> ScriptResult<EntryHandle> {
    let operation = argument("work", "operation", 0, &operation).name()?;
    let amount = amount("work", 1, &arg)?;
    let mut draft = ticket.0.borrow_mut();
    check_limit(draft.ticket.work.len(), "pieces of work")?;
    draft.ticket.work.push(Work { operation, amount, about: None, once: false });
    let at = draft.ticket.work.len() - 1;
    drop(draft);
    Ok(EntryHandle(ticket, Entry::Work, at))
}

fn once_per_order(entry: EntryHandle) -> EntryHandle {
    {
        let mut draft = entry.0.0.borrow_mut();
        let ticket = &mut draft.ticket;
        let once = match entry.1 {
            Entry::Need => ticket.needs.get_mut(entry.2).map(|need| &mut need.once),
            Entry::Sewing => ticket.sewing.get_mut(entry.2).map(|sewing| &mut sewing.once),
            Entry::Work => ticket.work.get_mut(entry.2).map(|work| &mut work.once),
        };
        if let Some(once) = once {
            *once = true;
        }
    }
    entry
}

/// Makes a need so many pieces, each of its length.
fn count_of_need(entry: EntryHandle, count: Dynamic) -> ScriptResult<EntryHandle> {
    let arg = argument("count", "count", 0, &count);
    let count = arg.count(1)?;
    if entry.1 != Entry::Need {
        return Err(arg.problem("only a need is so many pieces").into());
    }
    if let Some(need) = entry.0.0.borrow_mut().ticket.needs.get_mut(entry.2) {
        if need.amount.dimension() != Dimension::LENGTH {
            let shown = Style::default().show(need.amount);
            let problem = arg.problem(format!("this need is counted: its amount, {shown}, is how many there are"));
            return Err(problem.hinting("give the number as the amount and leave out .count").into());
        }
        need.count = count;
    }
    Ok(entry)
}

fn about(entry: EntryHandle, minutes: Dynamic) -> ScriptResult<EntryHandle> {
    let arg = argument("about", "minutes", 0, &minutes);
    let time = arg.of(Dimension::TIME)?;
    if entry.1 != Entry::Work {
        return Err(arg.problem("only work has minutes").into());
    }
    if time.steps() < 0.0 {
        return Err(arg.problem("work cannot take less than no time").into());
    }
    if let Some(work) = entry.0.0.borrow_mut().ticket.work.get_mut(entry.2) {
        work.about = Some(time.try_into().map_err(ScriptError::from)?);
    }
    Ok(entry)
}

/// Checks the limits of elastic that goes round a body, however its length was calculated.
fn round_body(entry: EntryHandle, body: Dynamic, worn: Dynamic) -> ScriptResult<EntryHandle> {
    let body = argument("round_body", "body", 0, &body).positive_length()?;
    let arg = argument("round_body", "worn", 1, &worn);
    let worn = arg.positive_length()?;
    if worn < body {
        let reduction = elastic::elastic_reduction(body, worn).map_err(|error| formula_error(&error, None))?;
        elastic::elastic_worn(body, reduction)
            .map_err(|error| formula_error(&error, None).marking(Marked::Argument(1)))?;
        if elastic::elastic_caution(reduction) != elastic::ElasticCaution::None {
            entry.0.add_caution("elastic-tight");
        }
    }
    Ok(entry)
}

impl TicketHandle {
    /// Adds a caution unless the ticket has it.
    pub(in crate::recipe) fn add_caution(&self, key: &str) {
        let cautions = &mut self.0.borrow_mut().ticket.cautions;
        if !cautions.iter().any(|known| known == key) {
            cautions.push(key.to_owned());
        }
    }
}

fn mark(ticket: TicketHandle, piece: Dynamic, name: Dynamic, distance: Dynamic, from: Dynamic) -> ScriptResult<()> {
    let arg = argument("mark", "distance", 2, &distance);
    let distance = arg.length()?;
    if distance.steps() < 0.0 || !distance.steps().is_finite() {
        let shown = Style::default().show(distance.into());
        return Err(arg.problem(format!("a mark cannot lie {shown} away")).into());
    }
    let mark = Mark {
        piece: argument("mark", "piece", 0, &piece).name()?,
        name: argument("mark", "name", 1, &name).text()?,
        distance,
        from: argument("mark", "from", 3, &from).text()?,
    };
    check_limit(ticket.0.borrow().ticket.marks.len(), "marks")?;
    ticket.0.borrow_mut().ticket.marks.push(mark);
    Ok(())
}

fn step(ticket: TicketHandle, text: Dynamic) -> ScriptResult<()> {
    let text = argument("step", "text", 0, &text).text_of(MOST_SPOKEN)?;
    check_limit(ticket.0.borrow().ticket.steps.len(), "steps")?;
    ticket.0.borrow_mut().ticket.steps.push(TicketStep::Words(text));
    Ok(())
}

/// Adds the steps that cut, split, join and trim the widths of a piece; the plan says what they are.
fn cut_steps(ticket: TicketHandle, piece: Dynamic) -> ScriptResult<()> {
    let arg = argument("cut_steps", "piece", 0, &piece);
    let name = arg.text()?;
    check_limit(ticket.0.borrow().ticket.steps.len(), "steps")?;
    let mut draft = ticket.0.borrow_mut();
    if !draft.ticket.pieces.iter().any(|entry| entry.piece.name == name) {
        let names: Vec<String> = draft.ticket.pieces.iter().map(|entry| entry.piece.name.clone()).collect();
        let near = nearest(&name, names.iter().map(String::as_str)).map(|near| format!("did you mean “{near}”?"));
        return Err(arg.problem(format!("there is no piece “{name}” yet")).with_hint(near).into());
    }
    draft.ticket.steps.push(TicketStep::Cut(name));
    Ok(())
}

fn caution(ticket: TicketHandle, key: Dynamic) -> ScriptResult<()> {
    let arg = argument("caution", "key", 0, &key);
    let key = arg.text()?;
    if cautions::caution(&key).is_none() {
        let near = nearest(&key, cautions::keys());
        let problem = arg.problem(format!("there is no caution “{key}”"));
        let known = || format!("the cautions are {}", cautions::keys().collect::<Vec<_>>().join(", "));
        return Err(problem.hinting(near.map_or_else(known, |near| format!("did you mean “{near}”?"))).into());
    }
    ticket.add_caution(&key);
    Ok(())
}

#[cfg(test)]
mod tests;
