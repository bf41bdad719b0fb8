//! What a record may not hold, refused in plain words before the YAML reader sees it.
//!
//! The YAML reader takes minutes over deep nesting and copies what an alias names, so nothing of
//! the kind may reach it; and an owner's file needs none of it.

use std::ops::Range;

use super::Piece;
use super::slips;
use crate::text::outline::{Node, of_tokens};
use crate::text::tokens::{Begins, Mark, tokens};
use crate::text::{Clean, Fault};

/// The longest record that is read, in bytes.
pub const LONGEST: usize = 64 * 1024;

/// How deep lists and maps may stand in each other in one record, the record's own included.
pub const DEEPEST: usize = 4;

/// The shape of a record that the YAML reader may be given.
///
/// Each kind of forbidden thing is told once a record, at its first place.
pub fn guard(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Option<Node> {
    if piece.text.len() > LONGEST {
        let says = format!(
            "this record is {} KiB long, and a record may have {} KiB",
            piece.text.len().div_ceil(1024),
            LONGEST / 1024
        );
        let help = "a record has grown together with what follows it; look for a missing quote \
                    or bracket";
        faults.push(piece.fault(0..1, says).help(help));
        return None;
    }
    let tokens = tokens(piece.text, Begins::Line);
    let before = faults.len();
    let mut told: Vec<Mark> = Vec::new();
    let mut deep = false;
    for token in &tokens {
        if token.depth > DEEPEST && !deep {
            deep = true;
            let says = format!("lists and keys stand more than {DEEPEST} deep in each other here");
            let help = "no record of these files is so deep; look for a bracket or indent too many";
            faults.push(piece.fault(token.at.clone(), says).help(help));
        }
        let word = piece.text.get(token.at.clone()).unwrap_or_default();
        if let Some((says, help)) = forbidden(token.mark, word)
            && !told.contains(&token.mark)
        {
            told.push(token.mark);
            faults.push(piece.fault(token.at.clone(), says).help(help));
        }
    }
    for pair in tokens.windows(2) {
        if let [key, colon] = pair
            && colon.mark == Mark::Colon
            && piece.text.get(key.at.clone()) == Some("<<")
        {
            let says = "`<<` would merge another record into this one, and that is not read";
            let help = "write the keys out";
            faults.push(piece.fault(key.at.clone(), says).help(help));
            break;
        }
    }
    if faults.len() == before {
        slips::find(piece, &tokens, faults);
    }
    (faults.len() == before).then(|| of_tokens(&tokens, piece.text))
}

/// Why a token is refused, and what would be right.
fn forbidden(mark: Mark, word: &str) -> Option<(String, &'static str)> {
    const QUOTES: &str = "a text that begins with such a character needs quotes";
    let word = Clean(word);
    Some(match mark {
        Mark::Anchor => (
            format!("`{word}` names a value to be copied, and that is not read"),
            QUOTES,
        ),
        Mark::Alias => (
            format!("`{word}` stands for a value named elsewhere, and that is not read"),
            QUOTES,
        ),
        Mark::Tag => (format!("`{word}` is a tag, and tags are not read"), QUOTES),
        Mark::Block => (
            format!("text set out over lines with `{word}` is not read"),
            "put the text between double quotes",
        ),
        Mark::Question => (
            "a key written with `?` is not read".into(),
            "write the key, a colon and its value; a text that begins with `?` needs quotes",
        ),
        Mark::Document => (
            format!("`{word}` divides a file into documents, and a file here is one"),
            "take the line out; a text that begins so needs quotes",
        ),
        Mark::Tab => (
            "a tab stands where the indent should be".into(),
            "indent with spaces",
        ),
        Mark::Stray => (
            format!("a text cannot begin with `{word}`"),
            "put the text between double quotes",
        ),
        _ => return None,
    })
}

impl Piece<'_> {
    /// A fault of some bytes of this record.
    pub(super) fn fault(&self, at: Range<usize>, says: impl Into<String>) -> Fault {
        let start = self.origin.byte + at.start;
        let end = self.origin.byte + at.end;
        Fault {
            bytes: Some(start..end),
            ..Fault::new(Some(self.origin), says)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The words each fault of a record points at.
    fn refused(text: &str) -> Vec<&str> {
        let piece = Piece::of_log(text);
        let mut faults = Vec::new();
        guard(&piece, &mut faults);
        let at = |fault: Fault| text.get(fault.bytes?);
        faults.into_iter().filter_map(at).collect()
    }

    #[test]
    fn what_no_record_needs_is_refused_at_its_place() {
        for (text, at) in [
            ("- {a: &x 1}", "&x"),
            ("- {a: *x}", "*x"),
            ("- {a: !!str 1}", "!!str"),
            ("- a: &x\n    b: 1", "&x"),
            ("- {<<: {b: 1}}", "<<"),
            ("- a: |\n    b", "|"),
            ("- ? a\n  : b", "?"),
            ("- a: 1\n\tb: 2", "\t"),
            ("-\t{a: 1}", "\t"),
            ("- a: 1\n---\n", "---"),
            ("- a: 1\n...\n", "..."),
            ("%YAML 1.1\n", "%YAML 1.1"),
            ("- {a: {b: {c: {d: 1}}}}", "{"),
            ("- - - - - a", "-"),
            ("- a:\n    b:\n      c:\n        d: 1", ":"),
        ] {
            assert_eq!(refused(text), [at], "{text:?}");
        }
        let long = format!("- {{a: {}}}", "x".repeat(LONGEST));
        assert_eq!(refused(&long), ["-"]);
    }

    #[test]
    fn the_same_signs_in_quotes_comments_and_plain_words_are_let_through() {
        for text in [
            "- {note: A & B, at: x*y!z, is: a? b, c: 5% | >, d: -1}",
            "- {note: \"&x *x !x {a: {b: {c: {d: {e\"}",
            "- {note: 'it''s &x'} # *x {{{{{{ \t",
            "- note: took out\n    & put back \"so\n  size: 1in",
            "- a: {b: {c: 1}}",
            "- {a: [1, 2],\t b: 2}",
            "- {note: \"one\n  --- two\n  three\"}",
        ] {
            assert_eq!(refused(text), [""; 0], "{text:?}");
        }
    }
}
