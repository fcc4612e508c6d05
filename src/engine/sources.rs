//! The scripts an engine has compiled, for errors inside helper files.

use super::text::rewrite::Source;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

/// Scripts by the name that errors use, shared between a host and its helper files.
pub(super) type Sources = Rc<RefCell<BTreeMap<String, Source>>>;
