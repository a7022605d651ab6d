//! Numbers that look random and are the same on every machine (xorshift).

/// A die that falls in the same order for the same seed.
pub struct Dice(u64);

impl Dice {
    /// The die of a seed.
    pub const fn of(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// A number below that of the sides.
    pub const fn roll(&mut self, sides: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % sides
    }
}
