//! A value that is made when it is first asked for and then kept.

use std::cell::OnceCell;

/// A value that is made at most once; an error is handed out and not kept.
#[derive(Debug)]
pub(super) struct Once<T>(OnceCell<T>);

impl<T> Default for Once<T> {
    fn default() -> Self {
        Self(OnceCell::new())
    }
}

impl<T> Once<T> {
    /// The value, made now if it was not asked for before.
    pub(super) fn get_or_make<E>(&self, make: impl FnOnce() -> Result<T, E>) -> Result<&T, E> {
        if let Some(made) = self.0.get() {
            return Ok(made);
        }
        let made = make()?;
        Ok(self.0.get_or_init(|| made))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_is_made_once_and_an_error_is_not_kept() {
        let once = Once::default();
        assert_eq!(once.get_or_make(|| Err("stopped")), Err("stopped"));
        assert_eq!(once.get_or_make(|| Ok::<_, &str>(2)), Ok(&2));
        assert_eq!(once.get_or_make(|| Err("asked again")), Ok(&2));
    }
}
