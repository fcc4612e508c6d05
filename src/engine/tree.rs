//! A script as a tree of our own: what the check of a recipe walks through.
//!
//! It is lowered from the script engine's tree in one place (`lowering`), so that nothing else depends on that.

/// A compiled script.
#[derive(Clone, Debug, Default)]
pub(crate) struct Tree {
    /// The functions, closures apart, in the order of the script.
    pub(crate) functions: Vec<FunctionTree>,
    /// The statements outside functions: imports and constants.
    pub(crate) statements: Vec<Node>,
}

/// A function of a script.
#[derive(Clone, Debug)]
pub(crate) struct FunctionTree {
    /// The name; empty for a closure.
    pub(crate) name: String,
    /// The byte of its name in the script as typed.
    pub(crate) at: usize,
    /// The names of the arguments.
    pub(crate) parameters: Vec<String>,
    /// The statements; the last one's value is what it gives.
    pub(crate) body: Vec<Node>,
}

/// A part of a script with its place.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    /// Its byte in the script as typed: of an operator its sign, of a call its name.
    pub(crate) at: usize,
    /// What it is.
    pub(crate) what: What,
}

/// How one link of a chain reaches into what stands before it.
#[derive(Clone, Debug)]
pub(crate) enum Link {
    /// `.name`
    Member(String),
    /// `.name(…)`
    Method(String, Vec<Node>),
    /// `[…]`
    Item(Box<Node>),
}

/// One arm of a `switch`.
#[derive(Clone, Debug)]
pub(crate) struct Arm {
    /// The texts it stands for; `None` where one of its values is no text.
    pub(crate) texts: Option<Vec<String>>,
    /// The byte of its first value.
    pub(crate) at: usize,
    /// A further condition.
    pub(crate) guard: Option<Node>,
    /// What it gives.
    pub(crate) gives: Node,
}

/// The parts of a script.
#[derive(Clone, Debug)]
pub(crate) enum What {
    /// A statement that does nothing, or `()`.
    Nothing,
    /// `true` or `false`.
    Flag(bool),
    /// A whole number.
    Whole(i64),
    /// A number with decimals.
    Decimal(f64),
    /// A letter in single quotes.
    Letter,
    /// A text.
    Text(String),
    /// A measure, as it was typed.
    Measure(String),
    /// A text with values in it: its parts in turn.
    Joined(Vec<Node>),
    /// `[…]`
    List(Vec<Node>),
    /// `#{…}`
    Group(Vec<(String, Node)>),
    /// A name.
    Name(String),
    /// Something of an imported file that is not called.
    Path(String),
    /// `name(…)` or, with the name of an import, `file::name(…)`; an operator by its sign.
    Call {
        /// The import it is looked up in.
        space: Option<String>,
        /// The name or sign.
        name: String,
        /// What is handed over.
        arguments: Vec<Node>,
    },
    /// `|a, b| …`
    Function(Box<FunctionTree>),
    /// What stands before, and how it is reached into; whether `?` lets nothing pass.
    Chain(Box<Node>, Link, bool),
    /// `&&`
    And(Vec<Node>),
    /// `||`
    Or(Vec<Node>),
    /// `??`
    Else(Vec<Node>),
    /// `{ … }`
    Block(Vec<Node>),
    /// `if`
    If {
        /// The condition.
        when: Box<Node>,
        /// Done where it holds.
        then: Vec<Node>,
        /// Done where it does not; empty if there is none.
        otherwise: Vec<Node>,
    },
    /// `switch`
    Switch {
        /// What is looked at.
        on: Box<Node>,
        /// The arms in turn, the one for everything else left out.
        arms: Vec<Arm>,
        /// What is given for everything else.
        otherwise: Option<Box<Node>>,
    },
    /// `while` and `loop`, which has no condition, and `do`, whose body is done first.
    While {
        /// The condition; `None` is for ever.
        when: Option<Box<Node>>,
        /// What is done.
        body: Vec<Node>,
        /// Whether the body is done before the condition is looked at.
        first: bool,
    },
    /// `for`
    For {
        /// The name of the item.
        item: String,
        /// The name of the number of the round.
        counter: Option<String>,
        /// What is gone through.
        over: Box<Node>,
        /// What is done.
        body: Vec<Node>,
    },
    /// `let` and `const`
    Let(String, Box<Node>),
    /// `a = b`, or with an operator `a += b`.
    Set {
        /// What is given a value.
        to: Box<Node>,
        /// The operator before the sign.
        operator: Option<String>,
        /// The value.
        value: Box<Node>,
    },
    /// `break`
    Break(Option<Box<Node>>),
    /// `continue`
    Continue,
    /// `return`
    Return(Option<Box<Node>>),
    /// `import "file" as name`
    Import(String, String),
    /// Something that the lowering does not know.
    Unread,
}

impl Node {
    /// The nodes right inside this one.
    pub(crate) fn inner(&self) -> Vec<&Node> {
        match &self.what {
            What::Joined(nodes)
            | What::List(nodes)
            | What::Call { arguments: nodes, .. }
            | What::And(nodes)
            | What::Or(nodes)
            | What::Else(nodes)
            | What::Block(nodes) => nodes.iter().collect(),
            What::Group(members) => members.iter().map(|(_, node)| node).collect(),
            What::Function(function) => function.body.iter().collect(),
            What::Chain(before, link, _) => {
                let mut inner = vec![&**before];
                match link {
                    Link::Member(_) => {}
                    Link::Method(_, arguments) => inner.extend(arguments),
                    Link::Item(index) => inner.push(index),
                }
                inner
            }
            What::If { when, then, otherwise } => std::iter::once(&**when).chain(then).chain(otherwise).collect(),
            What::Switch { on, arms, otherwise } => {
                let arms = arms.iter().flat_map(|arm| arm.guard.iter().chain(std::iter::once(&arm.gives)));
                std::iter::once(&**on).chain(arms).chain(otherwise.iter().map(|node| &**node)).collect()
            }
            What::While { when, body, .. } => when.iter().map(|node| &**node).chain(body).collect(),
            What::For { over, body, .. } => std::iter::once(&**over).chain(body).collect(),
            What::Let(_, value) => vec![value],
            What::Set { to, value, .. } => vec![to, value],
            What::Break(value) | What::Return(value) => value.iter().map(|node| &**node).collect(),
            What::Nothing
            | What::Flag(_)
            | What::Whole(_)
            | What::Decimal(_)
            | What::Letter
            | What::Text(_)
            | What::Measure(_)
            | What::Name(_)
            | What::Path(_)
            | What::Continue
            | What::Import(..)
            | What::Unread => Vec::new(),
        }
    }

    /// The byte at which it begins: that of its first operand.
    pub(crate) fn start(&self) -> usize {
        match &self.what {
            What::Chain(before, ..) => before.start(),
            What::Call { space: None, name, arguments } if is_sign(name) && arguments.len() == 2 => {
                arguments.first().map_or(self.at, Self::start)
            }
            What::And(sides) | What::Or(sides) | What::Else(sides) => sides.first().map_or(self.at, Self::start),
            What::Set { to, .. } => to.start(),
            What::Block(nodes) => nodes.first().map_or(self.at, Self::start),
            _ => self.at,
        }
    }

    /// Goes through this node and all within it, outermost first.
    pub(crate) fn each<'n>(&'n self, visit: &mut dyn FnMut(&'n Node)) {
        visit(self);
        for node in self.inner() {
            node.each(visit);
        }
    }
}

/// Whether a call is that of an operator.
fn is_sign(name: &str) -> bool {
    !name.starts_with(|c: char| c.is_alphabetic() || c == '_')
}
