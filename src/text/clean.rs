//! A user's own words, made safe for a terminal.

use std::borrow::Cow;
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
        let mut rest = self.0;
        while !is_plain(rest)
            && let Some((at, c)) = rest.char_indices().find(|(_, c)| is_unsafe(*c))
        {
            let (safe, behind) = rest.split_at(at);
            f.write_str(safe)?;
            write!(f, "{}", c.escape_unicode())?;
            rest = behind.get(c.len_utf8()..).unwrap_or_default();
        }
        f.write_str(rest)
    }
}

impl<'a> Clean<'a> {
    /// The same text; its own where nothing in it is shown otherwise.
    pub fn text(self) -> Cow<'a, str> {
        match is_plain(self.0) || !self.0.contains(is_unsafe) {
            true => Cow::Borrowed(self.0),
            false => Cow::Owned(self.to_string()),
        }
    }
}

/// Whether it is of plain letters only, as most texts are; quickly told, for no byte waits for
/// another.
fn is_plain(text: &str) -> bool {
    let plain = |byte: &u8| matches!(byte, b' '..=b'~');
    text.bytes().fold(true, |all, byte| all & plain(&byte))
}

/// Control characters, and the marks that reorder or hide text on a screen.
pub(crate) fn is_unsafe(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
}
