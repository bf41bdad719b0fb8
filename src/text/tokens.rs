//! The marks that give a record its shape, found without reading what they mean.
//!
//! One pass over the text of one record, in time proportional to its length and without
//! recursion, whatever the text. It follows the scanner of YAML so closely that what it takes for
//! a quote, a comment or a plain word is what the YAML reader takes for one: what is refused
//! before that reader is asked, and where a caret is put, both rest on this.

use std::ops::Range;

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// `{`
    OpenMap,
    /// `}`
    CloseMap,
    /// `[`
    OpenList,
    /// `]`
    CloseList,
    /// `,` between braces or brackets.
    Comma,
    /// `- ` before an item.
    Dash,
    /// `: ` between a key and its value.
    Colon,
    /// A word or text without quotes, perhaps over several lines.
    Plain,
    /// A text between single or double quotes; the bytes include the quotes.
    Quoted,
    /// A text whose closing quote never comes.
    Unclosed,
    /// A comment, from `#` to the end of the line.
    Comment,
    /// `&name`
    Anchor,
    /// `*name`
    Alias,
    /// `!name`
    Tag,
    /// `|` or `>` before a text set out over lines.
    Block,
    /// `?` before a key.
    Question,
    /// `---`, `...` or a line with `%`, at the start of a line.
    Document,
    /// A tab where the indent should be.
    Tab,
    /// A character no value may begin with: `@`, a backquote, `%`.
    Stray,
}

/// One token of a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Token {
    /// What it is.
    pub mark: Mark,
    /// Its bytes in the text.
    pub at: Range<usize>,
    /// How many lists and maps it stands in, itself included where it opens one.
    pub depth: usize,
}

/// Whether the text begins on its own line or inside `[` or `{`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Begins {
    /// On a line of its own.
    Line,
    /// Between brackets that were opened before it.
    Inside,
}

/// The tokens of the text of one record.
pub fn tokens(text: &str, begins: Begins) -> Vec<Token> {
    let mut scan = Scan {
        bytes: text.as_bytes(),
        pos: 0,
        line_start: 0,
        flow: usize::from(begins == Begins::Inside),
        indents: Vec::new(),
        key: None,
        key_allowed: true,
        out: Vec::new(),
    };
    while scan.next_token() {}
    scan.out
}

struct Scan<'a> {
    bytes: &'a [u8],
    pos: usize,
    line_start: usize,
    /// How many brackets and braces are open.
    flow: usize,
    /// The columns of the open block lists and maps.
    indents: Vec<usize>,
    /// Column of what may turn out to be a key, if a colon follows on the same line.
    key: Option<usize>,
    key_allowed: bool,
    out: Vec<Token>,
}

impl Scan<'_> {
    fn byte(&self, ahead: usize) -> Option<u8> {
        self.bytes.get(self.pos + ahead).copied()
    }

    fn column(&self) -> usize {
        self.pos - self.line_start
    }

    /// A blank, a line end or the end of the text.
    fn gap(&self, ahead: usize) -> bool {
        matches!(self.byte(ahead), None | Some(b' ' | b'\t' | b'\n' | b'\r'))
    }

    fn push(&mut self, mark: Mark, start: usize) {
        let depth = self.indents.len() + self.flow;
        self.out.push(Token {
            mark,
            at: start..self.pos,
            depth,
        });
    }

    /// A token of `len` bytes at the present place.
    fn take(&mut self, mark: Mark, len: usize) {
        let start = self.pos;
        self.pos += len;
        self.push(mark, start);
    }

    fn new_line(&mut self) {
        self.pos += 1;
        self.line_start = self.pos;
        if self.flow == 0 {
            self.key_allowed = true;
            self.key = None;
        }
    }

    /// Opens a block list or map at `column` unless one is open there.
    fn indent(&mut self, column: usize) {
        if self.indents.last().is_none_or(|last| *last < column) {
            self.indents.push(column);
        }
    }

    fn skip_gaps(&mut self) {
        let mut told = false;
        while let Some(byte) = self.byte(0) {
            match byte {
                b'\n' => {
                    self.new_line();
                    told = false;
                }
                b'\t' if self.flow == 0 && self.key_allowed && !told => {
                    told = true;
                    self.take(Mark::Tab, 1);
                }
                b' ' | b'\t' | b'\r' => self.pos += 1,
                b'#' => {
                    let start = self.pos;
                    while self.byte(0).is_some_and(|b| b != b'\n') {
                        self.pos += 1;
                    }
                    self.push(Mark::Comment, start);
                }
                _ => break,
            }
        }
    }

    fn may_be_key(&mut self) {
        if self.flow == 0 && self.key_allowed {
            self.key = Some(self.column());
        }
        self.key_allowed = false;
    }

    fn next_token(&mut self) -> bool {
        self.skip_gaps();
        let Some(byte) = self.byte(0) else {
            return false;
        };
        let column = self.column();
        if self.flow == 0 {
            while self.indents.last().is_some_and(|last| *last > column) {
                self.indents.pop();
            }
        }
        if column == 0 && self.document_mark() {
            return true;
        }
        match byte {
            b'{' | b'[' => {
                self.may_be_key();
                self.flow += 1;
                self.key_allowed = true;
                let mark = if byte == b'{' {
                    Mark::OpenMap
                } else {
                    Mark::OpenList
                };
                self.take(mark, 1);
            }
            b'}' | b']' => {
                let mark = if byte == b'}' {
                    Mark::CloseMap
                } else {
                    Mark::CloseList
                };
                self.take(mark, 1);
                self.flow = self.flow.saturating_sub(1);
                self.key_allowed = false;
            }
            b',' if self.flow > 0 => {
                self.take(Mark::Comma, 1);
                self.key_allowed = true;
            }
            b'-' if self.gap(1) => {
                if self.flow == 0 {
                    self.indent(column);
                }
                self.take(Mark::Dash, 1);
                self.key_allowed = true;
            }
            b'?' if self.flow > 0 || self.gap(1) => self.take(Mark::Question, 1),
            b':' if self.flow > 0 || self.gap(1) => {
                if self.flow == 0
                    && let Some(key) = self.key.take()
                {
                    self.indent(key);
                }
                self.take(Mark::Colon, 1);
                self.key_allowed = false;
            }
            b'*' => self.named(Mark::Alias),
            b'&' => self.named(Mark::Anchor),
            b'!' => self.named(Mark::Tag),
            b'|' | b'>' if self.flow == 0 => self.take(Mark::Block, 1),
            b'\'' | b'"' => self.quoted(byte),
            b'@' | b'`' | b'%' | b',' | b'|' | b'>' => self.stray(),
            _ => self.plain(),
        }
        true
    }

    fn document_mark(&mut self) -> bool {
        let rest = self.bytes.get(self.pos..).unwrap_or_default();
        let ruled = (rest.starts_with(b"---") || rest.starts_with(b"...")) && self.gap(3);
        if ruled {
            self.take(Mark::Document, 3);
        } else if rest.starts_with(b"%") && self.flow == 0 {
            let len = rest.iter().take_while(|b| **b != b'\n').count();
            self.take(Mark::Document, len);
        } else {
            return false;
        }
        true
    }

    /// A token that runs to the next blank or flow mark.
    fn named(&mut self, mark: Mark) {
        let start = self.pos;
        self.pos += 1;
        while !self.gap(0) && !self.byte(0).is_some_and(|b| b",[]{}".contains(&b)) {
            self.pos += 1;
        }
        self.push(mark, start);
    }

    fn stray(&mut self) {
        self.key_allowed = false;
        self.named(Mark::Stray);
    }

    fn quoted(&mut self, quote: u8) {
        self.may_be_key();
        let (start, mut closed) = (self.pos, false);
        let key = self.key;
        self.pos += 1;
        while let Some(byte) = self.byte(0) {
            match byte {
                b'\\' if quote == b'"' && self.byte(1) != Some(b'\n') => self.pos += 2,
                b'\n' => {
                    self.new_line();
                    self.key_allowed = false;
                }
                _ if byte == quote && quote == b'\'' && self.byte(1) == Some(b'\'') => {
                    self.pos += 2;
                }
                _ if byte == quote => {
                    self.pos += 1;
                    closed = true;
                    break;
                }
                _ => self.pos += 1,
            }
        }
        self.pos = self.pos.min(self.bytes.len());
        if self.line_start <= start {
            self.key = key;
        }
        let mark = if closed { Mark::Quoted } else { Mark::Unclosed };
        self.push(mark, start);
    }

    /// A text without quotes. Over a line end it goes on where the next line is deeper than the
    /// list or map around it.
    fn plain(&mut self) {
        self.may_be_key();
        let start = self.pos;
        self.pos += 1;
        let mut end = self.pos;
        loop {
            while !self.gap(0) && !self.plain_ends(self.pos) {
                self.pos += 1;
            }
            end = end.max(self.pos);
            let Some(next) = self.plain_goes_on() else {
                break;
            };
            let (at, line) = next;
            if let Some(line) = line {
                self.line_start = line;
                self.key = None;
            }
            self.pos = at;
        }
        self.pos = end;
        self.push(Mark::Plain, start);
    }

    /// Whether a mark at this byte ends a plain text.
    fn plain_ends(&self, at: usize) -> bool {
        let byte = |ahead: usize| self.bytes.get(at + ahead).copied();
        match byte(0) {
            Some(b':') => match byte(1) {
                None | Some(b' ' | b'\t' | b'\n' | b'\r') => true,
                Some(next) => self.flow > 0 && b",?[]{}".contains(&next),
            },
            Some(b',' | b'[' | b']' | b'{' | b'}') => self.flow > 0,
            _ => false,
        }
    }

    /// Where a plain text goes on after the gap at the present place, and the start of that line
    /// if it is another one. It does not where a comment, a mark, a ruled line or a shallower
    /// line comes first.
    fn plain_goes_on(&self) -> Option<(usize, Option<usize>)> {
        if !self.gap(0) {
            return None;
        }
        let (mut at, mut line) = (self.pos, None);
        let next = loop {
            match self.bytes.get(at)? {
                b'\n' => line = Some(at + 1),
                b' ' | b'\t' | b'\r' => {}
                other => break *other,
            }
            at += 1;
        };
        if next == b'#' || self.plain_ends(at) {
            return None;
        }
        if let Some(line) = line {
            let column = at - line;
            let around = self.indents.last().map_or(0, |last| last + 1);
            let rest = self.bytes.get(at..).unwrap_or_default();
            let ruled = column == 0 && (rest.starts_with(b"---") || rest.starts_with(b"..."));
            if self.flow == 0 && column < around || ruled {
                return None;
            }
        }
        Some((at, line))
    }
}
