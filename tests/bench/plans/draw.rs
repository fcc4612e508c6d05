//! A repeatable stream of whole numbers.

/// The stream of a seed.
#[derive(Clone, Debug)]
pub(crate) struct Draw(u64);

impl Draw {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A whole number from `least` to `most`, both included.
    pub(crate) fn between(&mut self, least: i64, most: i64) -> i64 {
        // The mixing of SplitMix64: neighbouring seeds give unrelated streams.
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^= mixed >> 31;
        least + i64::try_from((mixed >> 1) % u64::try_from(most - least + 1).unwrap()).unwrap()
    }

    /// One of a list.
    pub(crate) fn one_of<T: Copy>(&mut self, list: &[T]) -> T {
        list[usize::try_from(self.between(0, i64::try_from(list.len()).unwrap() - 1)).unwrap()]
    }

    /// True once in `times` draws on average.
    pub(crate) fn once_in(&mut self, times: i64) -> bool {
        self.between(1, times) == 1
    }
}
