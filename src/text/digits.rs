//! Whole numbers as people write them.

use std::str::FromStr;

/// A whole number of digits alone, without sign or space; `None` for anything else, and for what
/// is too high for its type.
pub(crate) fn digits<N: FromStr>(text: &str) -> Option<N> {
    let plain = text.bytes().all(|byte| byte.is_ascii_digit());
    text.parse().ok().filter(|_| plain)
}
