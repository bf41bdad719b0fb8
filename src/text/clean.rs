//! A user's own words, made safe for a terminal.

use std::fmt;

/// Shows text with every control character written as a visible escape, so that nothing in a
/// note can move the cursor, ring the bell or recolour the screen.
///
/// ```
/// use refasten::text::Clean;
/// assert_eq!(Clean("red\u{1b}[31m").to_string(), "red\\u{1b}[31m");
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Clean<'a>(pub &'a str);

impl fmt::Display for Clean<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use fmt::Write;
        for c in self.0.chars() {
            if is_unsafe(c) {
                write!(f, "{}", c.escape_unicode())?;
            } else {
                f.write_char(c)?;
            }
        }
        Ok(())
    }
}

/// Control characters, and the marks that reorder or hide text on a screen.
pub(super) fn is_unsafe(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
}
