//! The sentences in the source that a fault may say: its string literals, cut at what is filled in.

use std::fs;
use std::path::{Path, PathBuf};

/// Folders of `src/` in which no fault is made: what they print is the answer to a question.
const NO_FAULTS: [&str; 2] = ["src/show", "src/audit/rules"];

/// Folders whose sentences mostly are part of an answer: only those beside a fault are looked at.
const ANSWERS: [&str; 6] = [
    "src/audit/",
    "src/joint/",
    "src/pick/",
    "src/refit/",
    "src/sample/",
    "src/tables/",
];

/// A string literal of the source.
#[derive(Debug)]
pub struct Literal {
    /// The file it is in, from the root of the project.
    pub file: String,
    /// The line on which it begins, from 1.
    pub line: usize,
    /// What it says word for word, between the values that are filled in.
    pub parts: Vec<String>,
    /// Whether it is handed to a fault where it stands, and so is surely a message. Of the others
    /// some are handed on and some are part of an answer.
    pub in_fault: bool,
}

/// What is written before a literal, in the same statement, that makes a message of it.
const MAKERS: [&str; 14] = [
    "Fault::new(",
    "Misread::new(",
    "Error::other(",
    "Error::new(",
    ".help(",
    "fault(",
    "refuse(",
    "wrong(",
    "const FORM: &str",
    "const HELP: &str",
    "const QUOTES: &str",
    "let says = ",
    "let help = ",
    "let (says, help) = ",
];

impl Literal {
    fn new(file: &str, before: &str, text: &str) -> Self {
        let function = before.rsplit("fn ").next().unwrap_or_default();
        let statement = function.rsplit(';').next().unwrap_or_default();
        Self {
            file: file.to_owned(),
            line: 1 + before.matches('\n').count(),
            parts: parts(text),
            in_fault: MAKERS.iter().any(|maker| statement.contains(maker)),
        }
    }

    /// The literal with dots for what is filled in.
    pub fn shown(&self) -> String {
        self.parts.join("…")
    }

    /// Whether a fault may say it, going by the whole text of its file.
    fn may_be_said(&self, at: usize, text: &str) -> bool {
        let is_beside = |text: &str| text.contains("Misread") || text.contains("Fault");
        if !ANSWERS.iter().any(|folder| self.file.starts_with(folder)) {
            return self.is_sentence();
        }
        if !self.in_fault {
            return false;
        }
        let (before, after) = text.split_at(at);
        let begins = before.rfind("fn ").unwrap_or_default();
        let ends = after.find("fn ").map_or(text.len(), |end| at + end);
        self.is_sentence() && is_beside(&text[begins..ends])
    }

    /// How many words stand in it word for word.
    pub fn words(&self) -> usize {
        let is_word = |word: &&str| word.len() > 1 && word.chars().all(|c| c.is_ascii_lowercase());
        let parts = self.parts.iter();
        let words = parts.flat_map(|part| part.split(|c: char| !c.is_alphanumeric()));
        words.filter(is_word).count()
    }

    /// Whether it holds a word of a sentence, and not only a name or a sign: what is handed to a
    /// fault always, else what is as long as a sentence or has a value filled in.
    fn is_sentence(&self) -> bool {
        let fills = self.parts.len() > 1;
        match (self.in_fault, fills) {
            (true, _) => self.words() > 0 && self.parts.iter().any(|part| part.contains(' ')),
            (false, true) => self.words() > 1,
            (false, false) => self.words() > 3,
        }
    }

    /// Whether a sentence says it: all its parts, in their order.
    pub fn is_in(&self, said: &str) -> bool {
        let mut rest = said;
        self.parts
            .iter()
            .all(|part| match rest.split_once(part.as_str()) {
                Some((_, after)) => {
                    rest = after;
                    true
                }
                None => false,
            })
    }
}

/// Every sentence of the program that a fault may say.
pub fn of_the_program(root: &Path) -> Vec<Literal> {
    let mut files = Vec::new();
    rust_files(&root.join("src"), &mut files);
    files.sort();
    let mut literals = Vec::new();
    for path in files {
        let name = path.strip_prefix(root).unwrap().display().to_string();
        if NO_FAULTS.iter().any(|folder| name.starts_with(folder)) {
            continue;
        }
        literals.extend(of_text(&name, &fs::read_to_string(&path).unwrap()));
    }
    literals
}

fn rust_files(folder: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        match path.is_dir() {
            true => rust_files(&path, files),
            false if path.extension().is_some_and(|end| end == "rs") => files.push(path),
            false => {}
        }
    }
}

/// The sentences of one file, without those of its tests, attributes and comments.
fn of_text(file: &str, text: &str) -> Vec<Literal> {
    let mut literals = Vec::new();
    let text = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let at = text.len() - rest.len();
        let quoted = match c {
            '/' if rest.starts_with("//") => {
                rest = rest.split_once('\n').map_or("", |(_, after)| after);
                continue;
            }
            '#' if rest.starts_with("#[") => {
                rest = after_attribute(rest);
                continue;
            }
            'r' if rest.starts_with("r\"") => raw(&rest[2..], "\""),
            'r' if rest.starts_with("r#\"") => raw(&rest[3..], "\"#"),
            '"' => quoted(&rest[1..]),
            '\'' => {
                rest = after_tick(rest);
                continue;
            }
            _ => {
                rest = &rest[c.len_utf8()..];
                continue;
            }
        };
        let (said, after) = quoted;
        let literal = Literal::new(file, &text[..at], &said);
        if literal.may_be_said(at, text) {
            literals.push(literal);
        }
        rest = after;
    }
    literals
}

/// What follows a character in ticks, or the tick of a lifetime.
fn after_tick(text: &str) -> &str {
    let inside = &text[1..];
    let len = match inside.chars().next() {
        Some('\\') => inside[2..].find('\'').map(|end| end + 2),
        Some(c) => Some(c.len_utf8()).filter(|len| inside[*len..].starts_with('\'')),
        None => None,
    };
    len.map_or(inside, |len| &inside[len + 1..])
}

/// What follows an attribute; brackets within its texts count for nothing.
fn after_attribute(text: &str) -> &str {
    let (mut rest, mut deep) = (&text[1..], 0);
    while let Some(c) = rest.chars().next() {
        rest = &rest[c.len_utf8()..];
        match c {
            '[' => deep += 1,
            ']' => deep -= 1,
            '"' => rest = quoted(rest).1,
            _ => {}
        }
        if deep == 0 {
            break;
        }
    }
    rest
}

fn raw<'a>(text: &'a str, end: &str) -> (String, &'a str) {
    let (said, after) = text.split_once(end).unwrap();
    (said.to_owned(), after)
}

/// A text up to its closing quote, its escapes resolved, and what follows it.
fn quoted(text: &str) -> (String, &str) {
    let mut said = String::new();
    let mut chars = text.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        match c {
            '"' => return (said, &text[at + 1..]),
            '\\' => match chars.next().unwrap().1 {
                '\n' => while chars.next_if(|(_, c)| c.is_whitespace()).is_some() {},
                'n' => said.push('\n'),
                'u' => {
                    let inside = chars.by_ref().map(|(_, c)| c).take_while(|c| *c != '}');
                    let digits: String = inside.filter(|c| *c != '{').collect();
                    let code = u32::from_str_radix(&digits, 16).unwrap();
                    said.push(char::from_u32(code).unwrap());
                }
                escaped => said.push(escaped),
            },
            _ => said.push(c),
        }
    }
    panic!("a text is never closed: {text}");
}

/// A text cut at its `{…}`; a doubled brace is one of the text itself.
fn parts(text: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        let doubled = matches!(c, '{' | '}') && chars.next_if_eq(&c).is_some();
        if c == '{' && !doubled {
            while chars.next().is_some_and(|c| c != '}') {}
            parts.push(String::new());
        } else if let Some(part) = parts.last_mut() {
            // On a page a sentence may be broken at any blank.
            match c.is_whitespace() {
                true if part.ends_with(' ') => {}
                true => part.push(' '),
                false => part.push(c),
            }
        }
    }
    parts
}

mod tests {
    use super::of_text;

    #[test]
    fn sentences_are_found_and_cut_where_a_value_is_filled_in() {
        let source = "//! not \"this one\"\n#[arg(help = \"nor ] this one\")]\nfn f<'a>(c: char) -> &'a str {\n    \
            if c == '\"' { \"no sentence\".len(); }\n    format!(\"`{c}` is {{not}} a \\\n        \\\"metal\\\"\");\n    \
            r\"a raw one that is long\";\n    Fault::new(\"is wrong\")\n}\n#[cfg(test)]\nmod tests {\n    \"no test of it\"\n}\n";
        let found = of_text("f.rs", source);
        let shown: Vec<_> = found.iter().map(|l| (l.line, l.shown())).collect();
        assert_eq!(
            shown,
            [
                (5, "`…` is {not} a \"metal\"".to_owned()),
                (7, "a raw one that is long".to_owned()),
                (8, "is wrong".to_owned()),
            ]
        );
        assert!(found[0].is_in("error: `tin` is {not} a \"metal\""));
        assert!(!found[0].is_in("`tin` is {not} a metal"));
    }
}
