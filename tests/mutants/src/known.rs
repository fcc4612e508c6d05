//! The breaks that change nothing anybody can tell, each with its reason.

use std::collections::BTreeMap;

/// The names of the known breaks, with the reason above each. A name without a reason is refused.
pub fn read(text: &str) -> Result<BTreeMap<String, String>, String> {
    let mut known = BTreeMap::new();
    let mut reason = String::new();
    for line in text.lines() {
        if line.is_empty() {
            reason.clear();
        } else if let Some(words) = line.strip_prefix("# ") {
            reason = if reason.is_empty() { words.to_owned() } else { format!("{reason} {words}") };
        } else if line.starts_with("src/") || line.starts_with("recipes/") {
            if reason.is_empty() {
                return Err(format!("there is no reason above “{line}”"));
            }
            known.insert(line.trim().to_owned(), reason.clone());
        }
    }
    Ok(known)
}
