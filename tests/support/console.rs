//! Runs the console blocks of a Markdown page and compares what is printed, line by line.
//!
//! In a block marked `console` a line that begins with `$ ` is a command; it goes on over lines
//! that begin with `> `, or after a backslash at the end of a line. The lines after it are what it
//! prints, first to stdout and then to stderr, and `[exit 1]` where it does not end with 0. A
//! block whose mark is a language and a path, like `yaml torn/hull.yaml`, is a file that is there
//! from then on. With the mark `escaped` it holds what no page can: `\xE9` is that byte, `\r` a
//! carriage return, and a line that ends with a backslash has no end; `\*900{ab}` is 900 times `ab`.
//!
//! The commands are run by no shell, in a fresh folder that holds a copy of the demo boat and is
//! shared by all blocks of a page: `refasten`, the same as `cargo run --release --`, and `cat` for
//! reading a file. `cargo test` is passed over.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

/// The day on which every block is run: one after the last entry of the demo's log.
const TODAY: &str = "2024-11-25";

/// A page as it should read, with what is wrong with it as it stands.
pub struct Told {
    /// The page with what its commands print now.
    pub page: String,
    /// Each command whose output is another than the page says.
    pub differences: Vec<String>,
}

/// Runs the blocks of a page whose name is used only to tell where a difference is.
pub fn run(name: &str, page: &str, demo: &Path) -> Told {
    let folder = tempfile::tempdir().unwrap();
    copy(demo, &folder.path().join("demo"));
    let mut told = Told {
        page: String::new(),
        differences: Vec::new(),
    };
    let mut lines = page.lines().enumerate().peekable();
    while let Some((_, line)) = lines.next() {
        told.line(line);
        let Some(mark) = line.strip_prefix("```").filter(|mark| !mark.is_empty()) else {
            continue;
        };
        let mut block = Vec::new();
        while let Some(inside) = lines.next_if(|(_, line)| *line != "```") {
            block.push(inside);
        }
        match mark.split_once(' ') {
            None if mark == "console" => told.console(name, &block, folder.path()),
            path => {
                if let Some((language, path)) = path {
                    write(&folder.path().join(path), language == "escaped", &block);
                }
                block.iter().for_each(|(_, line)| told.line(line));
            }
        }
        // The fence that closes it opens no other.
        if let Some((_, fence)) = lines.next() {
            told.line(fence);
        }
    }
    told
}

impl Told {
    fn line(&mut self, line: &str) {
        self.page.push_str(line);
        self.page.push('\n');
    }

    fn console(&mut self, name: &str, block: &[(usize, &str)], folder: &Path) {
        let mut lines = block.iter().copied().peekable();
        while let Some((number, line)) = lines.next() {
            self.line(line);
            let Some(first) = line.strip_prefix("$ ") else {
                let at = number + 1;
                self.differences
                    .push(format!("{name}:{at}: no command printed `{line}`"));
                continue;
            };
            let mut command = first.to_owned();
            while let Some(next) = goes_on(&mut command, lines.peek().map(|(_, line)| *line)) {
                command.push_str(next);
                self.line(lines.next().map_or("", |(_, line)| line));
            }
            let mut expected = String::new();
            while let Some((_, line)) = lines.next_if(|(_, line)| !line.starts_with("$ ")) {
                let _ = writeln!(expected, "{line}");
            }
            let printed = match command.starts_with("cargo test") {
                true => String::new(),
                false => printed(&words(&command), folder),
            };
            if printed != expected {
                self.differences.push(format!(
                    "{name}:{}: {command}\n--- the page says\n{expected}--- it prints\n{printed}",
                    number + 1
                ));
            }
            self.page.push_str(&printed);
        }
    }
}

/// What is added to a command by the next line of its block, if it goes on there.
fn goes_on<'a>(command: &mut String, next: Option<&'a str>) -> Option<&'a str> {
    let next = next?;
    let marked = next.strip_prefix("> ");
    if command.ends_with('\\') {
        command.pop();
        return Some(marked.unwrap_or(next));
    }
    if marked.is_some() {
        command.push(' ');
    }
    marked
}

/// The words of a command line; blanks between quotes, single or double, part none.
pub fn words(line: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut word: Option<String> = None;
    let mut quote = None;
    for c in line.chars() {
        match (c, quote) {
            (_, Some(open)) if c == open => quote = None,
            ('"' | '\'', None) => {
                quote = Some(c);
                word.get_or_insert_default();
            }
            (_, None) if c.is_whitespace() => words.extend(word.take()),
            _ => word.get_or_insert_default().push(c),
        }
    }
    assert_eq!(quote, None, "a quote is never closed in `{line}`");
    words.extend(word);
    words
}

/// What a command prints, and how it ends where it does not end well.
fn printed(words: &[String], folder: &Path) -> String {
    let args = match words.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["cat", file] => return fs::read_to_string(folder.join(file)).unwrap(),
        ["refasten", ..] => &words[1..],
        ["cargo", "run", "--release", "--", ..] => &words[4..],
        _ => panic!("`{}` is no command of a page", words.join(" ")),
    };
    let output = Command::new(env!("CARGO_BIN_EXE_refasten"))
        .args(args)
        .current_dir(folder)
        .stdin(Stdio::null())
        .env("COLUMNS", "80")
        .env("NO_COLOR", "1")
        .env("REFASTEN_TODAY", TODAY)
        .env_remove("REFASTEN_BOAT")
        .env_remove("REFASTEN_PLAIN")
        .output()
        .unwrap();
    let mut printed = String::from_utf8(output.stdout).unwrap();
    printed.push_str(&String::from_utf8(output.stderr).unwrap());
    // A page keeps no line ends of Windows, which tables for spreadsheets have.
    printed = printed.replace("\r\n", "\n");
    match output.status.code() {
        Some(0) => {}
        code => {
            let code = code.map_or("by a signal".to_owned(), |code| code.to_string());
            let _ = writeln!(printed, "[exit {code}]");
        }
    }
    printed
}

fn write(path: &Path, escaped: bool, lines: &[(usize, &str)]) {
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    let text: String = lines.iter().map(|(_, line)| format!("{line}\n")).collect();
    match escaped {
        true => fs::write(path, unescaped(&text)).unwrap(),
        false => fs::write(path, text).unwrap(),
    }
}

/// The bytes that a text with escapes stands for.
fn unescaped(text: &str) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut rest = text;
    while let Some((plain, escape)) = rest.split_once('\\') {
        bytes.extend(plain.as_bytes());
        let mut after = escape.chars();
        match after.next().unwrap() {
            'x' => {
                bytes.push(u8::from_str_radix(&escape[1..3], 16).unwrap());
                after = escape[3..].chars();
            }
            'r' => bytes.push(b'\r'),
            '\n' => {}
            '*' => {
                let (times, again) = escape[1..].split_once('{').unwrap();
                let (again, after_it) = again.split_once('}').unwrap();
                bytes.extend(again.repeat(times.parse().unwrap()).as_bytes());
                after = after_it.chars();
            }
            other => panic!("`\\{other}` is no escape"),
        }
        rest = after.as_str();
    }
    bytes.extend(rest.as_bytes());
    bytes
}

/// Copies a folder with all that is in it.
pub fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let to = to.join(entry.file_name());
        match entry.file_type().unwrap().is_dir() {
            true => copy(&entry.path(), &to),
            false => drop(fs::copy(entry.path(), to).unwrap()),
        }
    }
}

mod tests {
    use super::{run, unescaped, words};

    #[test]
    fn escapes_stand_for_what_no_page_can_hold() {
        assert_eq!(unescaped("a\\xFF\\r\n\\*3{xy}z\\\n"), b"a\xff\r\nxyxyxyz");
    }

    #[test]
    fn quotes_keep_words_together() {
        assert_eq!(
            words(r#"log pulled "S4 F14" --note 'it''s "old"' ''"#),
            ["log", "pulled", "S4 F14", "--note", r#"its "old""#, ""]
        );
    }

    /// A difference is told with its line, and blessing it leaves nothing to tell.
    #[test]
    fn a_page_that_says_another_thing_is_told_and_mended() {
        let demo = tempfile::tempdir().unwrap();
        let page = "# A page\n\n```text kept/a.txt\none\n```\n\n```console\n$ cat \\\n> kept/a.txt\n\
            two\n$ refasten sail\n$ cargo test\n```\n\nThe end.\n";
        let told = run("page.md", page, demo.path());
        assert_eq!(told.differences.len(), 2, "{:?}", told.differences);
        assert!(told.differences[0].starts_with("page.md:8: cat kept/a.txt\n"));
        assert!(
            told.page
                .contains("> kept/a.txt\none\n$ refasten sail\nerror: ")
        );
        assert!(
            told.page
                .ends_with("[exit 2]\n$ cargo test\n```\n\nThe end.\n")
        );
        let again = run("page.md", &told.page, demo.path());
        assert!(again.differences.is_empty());
        assert_eq!(again.page, told.page);
    }
}
