//! Names or figures joined as in a sentence.

/// `A`, `A and B`, `A, B and C`.
pub(crate) fn listed(parts: &[impl AsRef<str>]) -> String {
    let parts: Vec<&str> = parts.iter().map(AsRef::as_ref).collect();
    match parts.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => parts.concat(),
    }
}
