//! The shape of one record: its maps, lists and words, and the bytes each of them takes.

use std::ops::Range;

use super::tokens::{Begins, Mark, Token, tokens};

/// A value in a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// Its bytes.
    pub at: Range<usize>,
    /// What it is.
    pub shape: Shape,
}

/// What a value is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Nothing at all where a value was due.
    Nothing,
    /// A text without quotes.
    Plain,
    /// A text in quotes.
    Quoted,
    /// Keys and their values.
    Map(Vec<Pair>),
    /// Items.
    List(Vec<Node>),
}

/// A key and its value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pair {
    /// The bytes of the key.
    pub key: Range<usize>,
    /// Whether a colon follows the key.
    pub colon: bool,
    /// Its value.
    pub value: Node,
}

/// Deeper than this nothing is looked at; no record is read that is nested as deep.
const DEEPEST: usize = 8;

/// The shape of the text of one record. A text that is not well formed gives as much of its shape
/// as can be made out.
pub fn outline(text: &str, begins: Begins) -> Node {
    of_tokens(&tokens(text, begins), text)
}

/// The shape of a record whose tokens are known.
pub fn of_tokens(all: &[Token], text: &str) -> Node {
    let tokens: Vec<&Token> = all.iter().filter(|t| t.mark != Mark::Comment).collect();
    let mut build = Build {
        tokens: &tokens,
        next: 0,
        text,
    };
    build.node(0, 0, 0)
}

struct Build<'a> {
    tokens: &'a [&'a Token],
    next: usize,
    text: &'a str,
}

impl<'a> Build<'a> {
    fn peek(&self) -> Option<&'a Token> {
        self.tokens.get(self.next).copied()
    }

    fn mark(&self, ahead: usize) -> Option<Mark> {
        self.tokens.get(self.next + ahead).map(|t| t.mark)
    }

    /// Column of a byte in its line, in bytes.
    fn column(&self, at: usize) -> usize {
        let before = self.text.get(..at).unwrap_or_default();
        at - before.rfind('\n').map_or(0, |end| end + 1)
    }

    fn same_line(&self, a: usize, b: usize) -> bool {
        self.text.get(a..b).is_some_and(|s| !s.contains('\n'))
    }

    fn nothing(&self) -> Node {
        let at = self
            .next
            .checked_sub(1)
            .and_then(|last| self.tokens.get(last));
        let end = at.map_or(0, |t| t.at.end);
        Node {
            at: end..end,
            shape: Shape::Nothing,
        }
    }

    /// The value that begins at the next token. On another line than the mark before it, it must
    /// stand at column `least` or deeper, the first dash of a list at `least_dash` or deeper.
    fn node(&mut self, depth: usize, least: usize, least_dash: usize) -> Node {
        let Some(token) = self.peek() else {
            return self.nothing();
        };
        let start = token.at.start;
        let first = self.next.checked_sub(1).and_then(|n| self.tokens.get(n));
        let on_line = first.is_some_and(|t| self.same_line(t.at.end, start));
        let column = self.column(start);
        let least = match token.mark {
            Mark::Dash => least_dash,
            _ => least,
        };
        if !on_line && column < least {
            return self.nothing();
        }
        match token.mark {
            Mark::OpenMap | Mark::OpenList if depth < DEEPEST => self.flow(depth),
            Mark::Dash if depth < DEEPEST => self.block_list(depth, column),
            Mark::Plain | Mark::Quoted | Mark::Unclosed => {
                let colon = self.tokens.get(self.next + 1);
                let key = colon
                    .is_some_and(|t| t.mark == Mark::Colon && self.same_line(start, t.at.start));
                if key && depth < DEEPEST {
                    self.block_map(depth, column)
                } else {
                    self.word()
                }
            }
            _ => self.nothing(),
        }
    }

    fn word(&mut self) -> Node {
        let Some(token) = self.peek() else {
            return self.nothing();
        };
        self.next += 1;
        let shape = if token.mark == Mark::Plain {
            Shape::Plain
        } else {
            Shape::Quoted
        };
        Node {
            at: token.at.clone(),
            shape,
        }
    }

    fn block_list(&mut self, depth: usize, column: usize) -> Node {
        let start = self.peek().map_or(0, |t| t.at.start);
        let mut items = Vec::new();
        let mut end = start;
        while let Some(token) = self.peek()
            && token.mark == Mark::Dash
            && self.column(token.at.start) == column
        {
            self.next += 1;
            let item = self.node(depth + 1, column + 1, column + 1);
            end = item.at.end;
            items.push(item);
        }
        Node {
            at: start..end,
            shape: Shape::List(items),
        }
    }

    fn block_map(&mut self, depth: usize, column: usize) -> Node {
        let start = self.peek().map_or(0, |t| t.at.start);
        let mut pairs = Vec::new();
        let mut end = start;
        while let Some(key) = self.peek()
            && matches!(key.mark, Mark::Plain | Mark::Quoted)
            && self.column(key.at.start) == column
            && self.mark(1) == Some(Mark::Colon)
        {
            self.next += 2;
            let value = self.node(depth + 1, column + 1, column);
            end = value.at.end;
            pairs.push(Pair {
                key: key.at.clone(),
                colon: true,
                value,
            });
        }
        Node {
            at: start..end,
            shape: Shape::Map(pairs),
        }
    }

    /// What stands between brackets or braces, up to the one that closes it.
    fn flow(&mut self, depth: usize) -> Node {
        let Some(open) = self.peek() else {
            return self.nothing();
        };
        let map = open.mark == Mark::OpenMap;
        self.next += 1;
        let (mut pairs, mut items) = (Vec::new(), Vec::new());
        let mut end = open.at.end;
        while let Some(token) = self.peek() {
            end = token.at.end;
            match token.mark {
                Mark::Comma => self.next += 1,
                Mark::CloseMap | Mark::CloseList => {
                    self.next += 1;
                    break;
                }
                _ if map => pairs.push(self.flow_pair(depth)),
                Mark::Colon => self.next += 1,
                _ => items.push(self.flow_value(depth)),
            }
        }
        Node {
            at: open.at.start..end,
            shape: if map {
                Shape::Map(pairs)
            } else {
                Shape::List(items)
            },
        }
    }

    fn flow_pair(&mut self, depth: usize) -> Pair {
        let key = self.flow_value(depth);
        let colon = self.mark(0) == Some(Mark::Colon);
        let value = if colon {
            self.next += 1;
            self.flow_value(depth)
        } else {
            self.nothing()
        };
        Pair {
            key: key.at,
            colon,
            value,
        }
    }

    /// A value between brackets; always takes at least one token unless a comma or a closing
    /// mark comes first.
    fn flow_value(&mut self, depth: usize) -> Node {
        match self.mark(0) {
            Some(Mark::Plain | Mark::Quoted | Mark::Unclosed) => self.word(),
            Some(Mark::OpenMap | Mark::OpenList) if depth + 1 < DEEPEST => self.flow(depth + 1),
            None | Some(Mark::Comma | Mark::CloseMap | Mark::CloseList | Mark::Colon) => {
                self.nothing()
            }
            Some(_) => {
                self.next += 1;
                self.nothing()
            }
        }
    }
}
