//! The examples in the comments of helper files, as functions: what such a function is called with is nowhere else.

/// How the names of these functions begin. No function of a recipe begins so.
pub(super) const NAME: &str = "__example";

/// The text of a helper file with a function for each of its examples behind it.
pub(in crate::recipe::proof) fn with_examples(text: &str) -> String {
    let calls = text.lines().filter_map(call);
    let functions = calls.enumerate().map(|(at, call)| format!("\nfn {NAME}_{at}(order, ticket, plan) {{ {call} }}"));
    std::iter::once(text.to_owned()).chain(functions).collect()
}

/// The call of an example line: `/// Example: `two(3 cm)` is 6 cm.`
fn call(line: &str) -> Option<&str> {
    let (call, _) = line.trim().strip_prefix("/// Example: `")?.split_once("` is ")?;
    // Whatever else stands there is no call, and must not end the function.
    let closes = call.ends_with(')') && !call.contains(['{', '}', ';']);
    closes.then_some(call)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_example_becomes_a_function() {
        let text = "/// Twice.\n/// Example: `two(3 cm)` is 6 cm.\nfn two(a) { 2 * a }";
        assert_eq!(with_examples(text), format!("{text}\nfn __example_0(order, ticket, plan) {{ two(3 cm) }}"));
        let other = "/// Example: `two(3) } fn inputs() {` is 6.\nfn two(a) { 2 * a }";
        assert_eq!(with_examples(other), other);
    }
}
