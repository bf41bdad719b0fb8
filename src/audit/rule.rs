//! What a rule is.

use super::{Hits, Survey};
use crate::tables::{Basis, Limit};
use crate::text::{Misread, nearest};

/// One rule: its name, the page that explains it, what it rests on, and the check itself.
#[derive(Debug)]
pub struct Rule {
    /// Its name.
    pub name: &'static str,
    /// The source of its file; the page is the comment at its head.
    pub file: &'static str,
    /// The limits it judges by.
    pub limits: &'static [&'static Limit],
    /// What it rests on, beside the limits' own grounds.
    pub sources: &'static [Basis],
    /// Looks over the boat.
    pub check: fn(&Survey<'_>, &mut Hits<'_>),
}

impl Rule {
    /// Every rule, in the order their findings are listed.
    pub fn all() -> &'static [&'static Self] {
        super::rules::ALL
    }

    /// The rule of this name.
    ///
    /// # Errors
    /// Where there is none; the help names the nearest.
    pub fn find(name: &str) -> Result<&'static Self, Misread> {
        let word = name.trim().to_lowercase();
        Self::all()
            .iter()
            .find(|rule| rule.name == word)
            .copied()
            .ok_or_else(|| {
                let misread = Misread::new(format!("there is no rule `{}`", name.trim()));
                match nearest(&word, Self::all().iter().map(|rule| rule.name)) {
                    Some(near) => misread.help(format!("did you mean `{near}`?")),
                    None => misread.help("`refasten explain` lists them"),
                }
            })
    }

    /// The page that explains it, as Markdown.
    pub fn page(&self) -> String {
        let comment = self.file.lines().map_while(|line| line.strip_prefix("//!"));
        let lines: Vec<&str> = comment
            .map(|line| line.strip_prefix(' ').unwrap_or(line))
            .collect();
        lines.join("\n")
    }
}

impl PartialEq for Rule {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

impl Eq for Rule {}
