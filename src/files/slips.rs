//! The usual slips of the pen in a record, each with its own words.

use super::Piece;
use crate::hull::Places;
use crate::text::Fault;
use crate::text::tokens::{Mark, Token};

const QUOTES: &str = "a text with a comma or a colon needs quotes: note: \"…\"";

/// Tells the slips that would keep the YAML reader from reading the record at all.
pub fn find(piece: &Piece<'_>, tokens: &[Token], faults: &mut Vec<Fault>) {
    if let Some(quote) = tokens.iter().find(|t| t.mark == Mark::Unclosed) {
        let says = "the quote that opens here is never closed";
        let help = "a quote inside a text, as for inches, needs the other kind of quote around it";
        faults.push(
            piece
                .fault(quote.at.start..quote.at.start + 1, says)
                .help(help),
        );
        return;
    }
    brackets(piece, tokens, faults);
    let words: Vec<&Token> = tokens.iter().filter(|t| t.mark != Mark::Comment).collect();
    for three in words.windows(3) {
        if let [a, b, c] = three
            && a.mark == Mark::Colon
            && matches!(b.mark, Mark::Plain | Mark::Quoted)
            && c.mark == Mark::Colon
            && same_line(piece, a, c)
        {
            let says = "there is a second colon in this value";
            faults.push(piece.fault(c.at.clone(), says).help(QUOTES));
            return;
        }
    }
    for two in words.windows(2) {
        if let [a, b] = two
            && matches!(a.mark, Mark::CloseMap | Mark::CloseList)
            && b.mark == Mark::Colon
        {
            let says = "a list or a record in braces cannot be a key";
            let help = "a text that begins with a bracket needs quotes";
            faults.push(piece.fault(b.at.clone(), says).help(help));
            return;
        }
        if let [a, b] = two
            && a.mark == Mark::Quoted
            && matches!(b.mark, Mark::Plain | Mark::Quoted | Mark::Stray)
            && same_line(piece, a, b)
        {
            let says = "there is text after the closing quote";
            let help = "put all of it between the quotes; a quote inside is written \\\"";
            faults.push(piece.fault(b.at.clone(), says).help(help));
            return;
        }
    }
}

/// Brackets that are never closed, or closed by the wrong one, or that hold a stray colon.
fn brackets(piece: &Piece<'_>, tokens: &[Token], faults: &mut Vec<Fault>) {
    let mut open: Vec<&Token> = Vec::new();
    for token in tokens {
        let fits = match token.mark {
            Mark::OpenMap | Mark::OpenList => {
                open.push(token);
                continue;
            }
            Mark::CloseMap => Mark::OpenMap,
            Mark::CloseList => Mark::OpenList,
            Mark::Colon if open.last().is_some_and(|o| o.mark == Mark::OpenList) => {
                let says = "a colon stands in a list of texts";
                let help = "a text with a colon needs quotes; a record in a list needs braces";
                faults.push(piece.fault(token.at.clone(), says).help(help));
                return;
            }
            _ => continue,
        };
        if open.pop().is_none_or(|opened| opened.mark != fits) {
            let says = "this bracket closes nothing that was opened";
            let help = "take it out; a text with a bracket needs quotes";
            faults.push(piece.fault(token.at.clone(), says).help(help));
            return;
        }
    }
    let Some(opened) = open.pop() else { return };
    let sign = piece.text.get(opened.at.clone()).unwrap_or_default();
    let close = if opened.mark == Mark::OpenMap {
        '}'
    } else {
        ']'
    };
    let says = format!("the `{sign}` that opens here is never closed");
    let commented = tokens
        .iter()
        .any(|t| t.mark == Mark::Comment && t.at.start > opened.at.start);
    let help = if commented {
        format!("`{close}` is missing; ` #` begins a comment, so a text with ` #` needs quotes")
    } else {
        format!("`{close}` is missing; the lines after the first begin with a space")
    };
    faults.push(piece.fault(opened.at.clone(), says).help(help));
}

fn same_line(piece: &Piece<'_>, a: &Token, b: &Token) -> bool {
    let between = piece.text.get(a.at.start..b.at.start);
    between.is_some_and(|text| !text.contains('\n'))
}

/// What is said of a place that a comma cuts short.
const CUT: &str = "a comma cannot join places";

/// Whether a comma cut a place short, so that what is left of it is not what was meant.
pub fn place_was_cut(faults: &[Fault]) -> bool {
    faults.iter().any(|fault| fault.says == CUT)
}

/// All crossings of the planks that a place begins with, where the rest of it cannot be trusted.
pub fn whole_planks(place: &str) -> Option<Places> {
    let planks = place.split_whitespace().next()?;
    format!("{planks} all").parse().ok()
}

/// The words for a text after a comma that was taken for a key, by the key before it.
pub fn after_comma(key: Option<&str>, word: &str) -> (String, String) {
    match key {
        Some("place" | "strikes" | "planks" | "across" | "at") => (
            CUT.into(),
            "places are joined by `and`, never by a comma".into(),
        ),
        Some(key) => (
            format!("`{word}` stands after a comma, so it is not part of `{key}`"),
            format!("a text with a comma needs quotes: {key}: \"…, {word}\""),
        ),
        None => without_value(word),
    }
}

/// A key that no colon follows: what is wrong, and what would be right.
pub fn without_value(key: &str) -> (String, String) {
    (
        format!("`{key}` has no value"),
        format!("write a colon and a value: {key}: …"),
    )
}
