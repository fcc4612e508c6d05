//! Cautions that built-in functions raise while a script runs.

use super::value::Value;
use crate::textile::elastic::{ElasticCaution, elastic_caution};
use std::cell::RefCell;
use std::rc::Rc;

/// The keys of the cautions raised so far, shared between a host and its functions.
pub(super) type Notices = Rc<RefCell<Vec<&'static str>>>;

/// The key of the caution that a call of this function raises, if any.
pub(super) fn caution_of(function: &str, values: &[Value]) -> Option<&'static str> {
    let size = |index: usize| values.get(index).and_then(Value::quantity);
    let reduction = match function {
        "elastic_worn" | "elastic_length" => size(1)?.to_number().ok()?,
        "elastic_shorter_by" => size(1)?.per(size(0)?).ok()?.to_number().ok()?,
        _ => return None,
    };
    (elastic_caution(reduction) != ElasticCaution::None).then_some("elastic-tight")
}
