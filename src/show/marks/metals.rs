//! What tells metals apart.

use std::sync::LazyLock;

use super::{Fill, Outline, Tint};
use crate::joint::Kind;
use crate::tables::{Family, Metal};

/// The outline of each family of metals, and its colour.
pub(super) const fn outline(family: Family) -> (Outline, Tint) {
    match family {
        Family::Copper => (Outline::Disc, Tint::Amber),
        Family::Bronze => (Outline::Up, Tint::Teal),
        // Down, as it goes by losing its zinc.
        Family::Brass => (Outline::Down, Tint::Violet),
        Family::Steel => (Outline::Square, Tint::Blue),
        Family::Iron => (Outline::Cross, Tint::Ink),
        Family::Stainless => (Outline::Diamond, Tint::Red),
        Family::NickelCopper => (Outline::Hexagon, Tint::Teal),
        Family::Aluminium => (Outline::Hexagon, Tint::Grey),
        Family::Zinc | Family::Lead | Family::Other => (Outline::Dot, Tint::Ink),
    }
}

/// The metal of its family that planking is most often fastened with, drawn solid.
const USUAL: [&str; 2] = ["silicon bronze", "galvanised steel"];

/// How a metal is filled, so that those of one family are told apart.
pub(super) fn fill(metal: &'static Metal) -> Fill {
    const FILLS: [Fill; 5] = [
        Fill::Solid,
        Fill::Hollow,
        Fill::Dotted,
        Fill::Quarters(2),
        Fill::Split,
    ];
    let family = || Metal::all().iter().filter(|m| m.family == metal.family);
    let usual = |m: &&Metal| USUAL.contains(&m.name);
    let mut order = family().filter(usual).chain(family().filter(|m| !usual(m)));
    let at = order.position(|m| m == metal).unwrap_or_default();
    FILLS.get(at % FILLS.len()).copied().unwrap_or(Fill::Solid)
}

/// Two letters or figures for each metal of the table, in its order.
static CODES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let mut codes: Vec<String> = Vec::new();
    for metal in Metal::all() {
        let free = candidates(metal.name).find(|code| !codes.contains(code));
        codes.push(free.unwrap_or_else(|| "xx".to_owned()));
    }
    codes
});

/// What a metal may be called in two letters, the likeliest first: the first letter of its name
/// and that of another word of it, or any other letter. A number is known by its last figure, so
/// that 304 and 316 are 4 and 6.
fn candidates(name: &str) -> impl Iterator<Item = String> {
    let name = name.to_lowercase();
    let words: Vec<&str> = name.split([' ', '-']).collect();
    let head = |word: &&str| match word.ends_with(|c: char| c.is_ascii_digit()) {
        true => word.chars().last(),
        false => word.chars().next(),
    };
    let heads: Vec<char> = words.iter().filter_map(head).collect();
    let first = heads.first().copied().unwrap_or('x');
    let letters: Vec<char> = match heads.len() {
        1 => name.chars().skip(1).collect(),
        _ => heads
            .iter()
            .skip(1)
            .copied()
            .chain(name.chars().skip(1))
            .collect(),
    };
    letters
        .into_iter()
        .filter(char::is_ascii_alphanumeric)
        .map(move |letter| format!("{first}{letter}"))
}

/// A metal in two letters or figures: `sb` is silicon bronze, `co` copper.
pub fn metal_code(metal: &'static Metal) -> &'static str {
    let at = Metal::all().iter().position(|m| m == metal);
    at.and_then(|at| CODES.get(at)).map_or("xx", String::as_str)
}

/// The same where no metal is named: a trunnel is of wood, anything else of nobody knows what.
pub const fn no_metal_code(kind: Kind) -> &'static str {
    if kind.is_metal() { "??" } else { "tr" }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_metal_has_two_letters_of_its_own() {
        let mut codes: Vec<&str> = Metal::all().iter().map(metal_code).collect();
        for (name, code) in [
            ("silicon bronze", "sb"),
            ("galvanised steel", "gs"),
            ("copper", "co"),
            ("304 stainless steel", "4s"),
            ("316 stainless steel", "6s"),
            ("naval brass", "nb"),
            ("nickel-aluminium bronze", "na"),
            ("Monel", "mo"),
        ] {
            assert_eq!(metal_code(Metal::find(name).unwrap()), code);
        }
        codes.push(no_metal_code(Kind::Trunnel));
        codes.push(no_metal_code(Kind::Rivet));
        assert!(codes.iter().all(|code| code.len() == 2), "{codes:?}");
        codes.sort_unstable();
        codes.dedup();
        assert_eq!(codes.len(), Metal::all().len() + 2, "{codes:?}");
    }
}
