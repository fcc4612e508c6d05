//! A value that is computed on first use and cached.

use std::cell::OnceCell;

/// A value computed at most once; an error is returned and not cached.
#[derive(Debug)]
pub(super) struct Once<T>(OnceCell<T>);

impl<T> Default for Once<T> {
    fn default() -> Self {
        Self(OnceCell::new())
    }
}

impl<T> Once<T> {
    /// Returns the cached value, or makes and caches it.
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
