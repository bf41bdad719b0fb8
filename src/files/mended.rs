//! A log mended: its torn end sewn up, and what two people added to it put in order.

use std::io::{self, Write};

use super::decode::utf16;
use super::merged::{Known, Merged, unmerge};
use super::repair::{Torn, sewn};
use crate::text::Clean;

/// What mending would make of a log. Nothing is written until its bytes are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mended {
    /// The whole file, mended.
    pub bytes: Vec<u8>,
    /// What was done to its end, where that was torn.
    pub torn: Option<Torn>,
    /// What was done to its order, where it was out of order.
    pub merged: Option<Merged>,
}

/// Mends a log or a plan; `None` where nothing is to be mended, or it was saved as UTF-16.
pub fn mend(bytes: &[u8]) -> Option<Mended> {
    let torn = sewn(bytes);
    let whole = torn.as_ref().map_or(bytes, |torn| &torn.bytes);
    let merged = in_order(whole);
    let (bytes, merged) = match (merged, &torn) {
        (Some((bytes, merged)), _) => (bytes, Some(merged)),
        (None, Some(torn)) => (torn.bytes.clone(), None),
        (None, None) => return None,
    };
    Some(Mended {
        bytes,
        torn,
        merged,
    })
}

/// A log with its entries in order; `None` where they are, or it is no text.
fn in_order(bytes: &[u8]) -> Option<(Vec<u8>, Merged)> {
    const MARK: &str = "\u{feff}";
    let text = std::str::from_utf8(bytes).ok().filter(|_| !utf16(bytes))?;
    let (mark, text) = match text.strip_prefix(MARK) {
        Some(text) => (MARK, text),
        None => ("", text),
    };
    let (text, merged) = unmerge(text)?;
    Some((format!("{mark}{text}").into_bytes(), merged))
}

impl Mended {
    /// Shows what changes.
    ///
    /// # Errors
    ///
    /// What the writer gives.
    pub fn show(&self, out: &mut dyn Write) -> io::Result<()> {
        if let Some(torn) = &self.torn {
            torn.show(out)?;
        }
        match &self.merged {
            Some(merged) => merged.show(out),
            None => Ok(()),
        }
    }
}

impl Merged {
    /// Shows what changes, each entry by the line it stood on.
    fn show(&self, out: &mut dyn Write) -> io::Result<()> {
        writeln!(out, "it is put in order")?;
        if !self.marks.is_empty() {
            let lines: Vec<String> = self.marks.iter().map(usize::to_string).collect();
            let word = if lines.len() == 1 { "line" } else { "lines" };
            writeln!(
                out,
                "- left in by a merge, taken out: {word} {}",
                lines.join(", ")
            )?;
        }
        let mut each = |known: &Known, becomes: &str| {
            let (line, entry) = (known.line, known.entry);
            let words = Clean(&known.words);
            writeln!(out, "- line {line}: entry {entry} {becomes} ({words})")
        };
        for known in &self.twice {
            each(known, "is there twice and is kept once")?;
        }
        for known in &self.moved {
            each(known, "is put in its place")?;
        }
        for (known, number) in &self.renumbered {
            each(known, &format!("is entry {number} now"))?;
        }
        for (known, now) in &self.strikes {
            each(known, &format!("strikes out `{}` now", Clean(now)))?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_torn_end_of_a_merged_log_is_sewn_up_and_put_in_order() {
        let log = b"\xef\xbb\xbf- {entry: 1, did: pulled, place: P1 F1}\n- {entry: 1, did: pulled, place: P1 F2}";
        let mended = mend(log).unwrap();
        let text = String::from_utf8(mended.bytes.clone()).unwrap();
        assert_eq!(
            text,
            "\u{feff}- {entry: 1, did: pulled, place: P1 F1}\n- {entry: 2, did: pulled, place: P1 F2}\n"
        );
        assert_eq!(mend(&mended.bytes), None);
        let mut shown = Vec::new();
        mended.show(&mut shown).unwrap();
        assert_eq!(
            String::from_utf8(shown).unwrap(),
            "line 2 is whole but for its line end, which is added\nit is put in order\n- line 2: entry 1 is entry 2 now (pulled P1 F2)\n"
        );
    }
}
