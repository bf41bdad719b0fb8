//! A quick hash for what is numbered.

use std::hash::Hasher;

/// A quick hash of a few small numbers of our own, as of crossings and holes. Nobody from outside
/// chooses them, so that it need not withstand one who would make many fall together.
#[derive(Clone, Copy, Debug, Default)]
pub struct Mix(u64);

impl Hasher for Mix {
    fn finish(&self) -> u64 {
        // What was multiplied last is mixed best in its upper bits, and a table looks at the lower.
        self.0.rotate_left(26)
    }

    fn write(&mut self, bytes: &[u8]) {
        bytes.iter().for_each(|byte| self.write_u64((*byte).into()));
    }

    fn write_u8(&mut self, n: u8) {
        self.write_u64(n.into());
    }

    fn write_u16(&mut self, n: u16) {
        self.write_u64(n.into());
    }

    fn write_u32(&mut self, n: u32) {
        self.write_u64(n.into());
    }

    fn write_u64(&mut self, n: u64) {
        self.0 = (self.0.rotate_left(5) ^ n).wrapping_mul(0x517C_C1B7_2722_0A95);
    }

    fn write_i64(&mut self, n: i64) {
        self.write_u64(n.cast_unsigned());
    }

    fn write_usize(&mut self, n: usize) {
        self.write_u64(n as u64);
    }

    fn write_isize(&mut self, n: isize) {
        self.write_u64(n.cast_unsigned() as u64);
    }
}
