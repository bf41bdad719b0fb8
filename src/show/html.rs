//! A tiny writer of web pages: one file each, that ask for nothing else. Text and attributes are
//! escaped here and nowhere else, so that a user's name or note is only ever read as text.
//!
//! A page is written from the outside in; what is opened is closed by its own end:
//!
//! ```text
//! page(out, &head, |html| {
//!     html.within("ul", &[("class", "found")], |html| {
//!         html.put("li", &[], "a note with <marks> & \"quotes\"")
//!     })
//! })
//! ```

use std::fmt::{self, Display, Write as _};
use std::io::{self, Write};

use serde_json::Value;

use crate::text::is_unsafe;

use super::svg::Safe;

/// The style that every page shares; what is only of one page comes after it.
const SHARED_STYLE: &str = include_str!("page_style.css");

/// Attributes of an element: the name, and any text.
pub(super) type Attributes<'t> = [(&'static str, &'t str)];

/// What stands in the head of a page.
pub(super) struct Head<'a> {
    /// Its title.
    pub(super) title: &'a str,
    /// Style of its own, after what all pages share.
    pub(super) style: &'a str,
    /// A script of its own, where it has one; the page can be read without it.
    pub(super) script: Option<Script>,
}

/// A script of this program.
#[derive(Clone, Copy)]
pub(super) struct Script {
    /// The script.
    pub(super) text: &'static str,
    /// Its SHA-256 in base 64. A browser runs what has this hash and nothing else, whatever may
    /// come to stand in the page.
    pub(super) sha256: &'static str,
}

/// Writes a whole page; `body` fills it.
pub(super) fn page(
    out: &mut dyn Write,
    head: &Head<'_>,
    body: impl FnOnce(&mut Html<'_>) -> io::Result<()>,
) -> io::Result<()> {
    let mut html = Html { out };
    writeln!(html.out, "<!doctype html>")?;
    html.within("html", &[("lang", "en-GB")], |html| {
        html.within("head", &[], |html| {
            html.alone("meta", &[("charset", "utf-8")])?;
            let policy = policy(head.script);
            html.alone(
                "meta",
                &[
                    ("http-equiv", "Content-Security-Policy"),
                    ("content", &policy),
                ],
            )?;
            let viewport = "width=device-width, initial-scale=1";
            html.alone("meta", &[("name", "viewport"), ("content", viewport)])?;
            html.put("title", &[], head.title)?;
            html.own(&format!("<style>\n{SHARED_STYLE}{}</style>\n", head.style))
        })?;
        html.within("body", &[], |html| {
            body(html)?;
            match head.script {
                // Not a byte more than was hashed may stand between the tags.
                Some(script) => html.own(&format!("<script>{}</script>\n", script.text)),
                None => Ok(()),
            }
        })
    })
}

/// What a browser may do with a page: show it, with pictures that are in it. It asks for nothing
/// over a network, sends nothing, and runs no script but the page's own.
fn policy(script: Option<Script>) -> String {
    let mut policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; \
                      base-uri 'none'; form-action 'none'"
        .to_owned();
    if let Some(script) = script {
        // Writing to a string cannot fail.
        let _ = write!(policy, "; script-src 'sha256-{}'", script.sha256);
    }
    policy
}

/// A page being written.
pub(super) struct Html<'a> {
    out: &'a mut dyn Write,
}

impl Html<'_> {
    /// An element that others stand in.
    pub(super) fn within(
        &mut self,
        tag: &'static str,
        attributes: &Attributes<'_>,
        fill: impl FnOnce(&mut Self) -> io::Result<()>,
    ) -> io::Result<()> {
        writeln!(self.out, "<{tag}{}>", Written(attributes))?;
        fill(self)?;
        writeln!(self.out, "</{tag}>")
    }

    /// An element with text in it.
    pub(super) fn put(
        &mut self,
        tag: &'static str,
        attributes: &Attributes<'_>,
        text: &str,
    ) -> io::Result<()> {
        let attributes = Written(attributes);
        writeln!(self.out, "<{tag}{attributes}>{}</{tag}>", Safe(text))
    }

    /// An element that never has anything in it, like `meta`, `input` or `img`.
    pub(super) fn alone(
        &mut self,
        tag: &'static str,
        attributes: &Attributes<'_>,
    ) -> io::Result<()> {
        writeln!(self.out, "<{tag}{}>", Written(attributes))
    }

    /// Text between elements.
    pub(super) fn text(&mut self, text: &str) -> io::Result<()> {
        writeln!(self.out, "{}", Safe(text))
    }

    /// Markup of this program, with nothing of a user's in it.
    pub(super) fn own(&mut self, markup: &str) -> io::Result<()> {
        self.out.write_all(markup.as_bytes())
    }

    /// Data for the script, by an id. It is read as text, never run: nothing in it can end the
    /// element it stands in.
    pub(super) fn data(&mut self, id: &'static str, value: &Value) -> io::Result<()> {
        let attributes = [("type", "application/json"), ("id", id)];
        let mut json = String::new();
        for c in value.to_string().chars() {
            match c {
                // Those are of four digits, all of them.
                c if c == '<' || is_unsafe(c) => {
                    let _ = write!(json, "\\u{:04x}", u32::from(c));
                }
                c => json.push(c),
            }
        }
        writeln!(self.out, "<script{}>{json}</script>", Written(&attributes))
    }
}

/// Attributes as they stand in a tag.
struct Written<'t>(&'t Attributes<'t>);

impl Display for Written<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0
            .iter()
            .try_for_each(|(name, text)| write!(f, " {name}=\"{}\"", Safe(text)))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde_json::json;

    use super::*;

    fn written(fill: impl FnOnce(&mut Html<'_>) -> io::Result<()>) -> String {
        let mut out = Vec::new();
        let head = Head {
            title: "trial",
            style: "",
            script: None,
        };
        page(&mut out, &head, fill).unwrap();
        String::from_utf8(out).unwrap()
    }

    proptest! {
        /// Whatever a name holds, no mark of the language comes out of it.
        #[test]
        fn text_stays_text(text in ".*(</p>|\"|&|<!--|.*)*") {
            let marks = |text: &str| {
                let page = written(|html| html.put("p", &[("title", text)], text));
                ['<', '>', '"'].map(|mark| page.matches(mark).count())
            };
            prop_assert_eq!(marks(&text), marks(""));
        }

        /// Nothing can end the element that data stands in, and it is read back as it was.
        #[test]
        fn data_stays_data(text in ".*(</script>|\u{2028}|<!--|.*)*") {
            let page = written(|html| html.data("data", &json!({ "text": text })));
            let data = page.split_once("id=\"data\">").unwrap().1;
            let data = data.split_once("</script>").unwrap().0;
            prop_assert_eq!(data.find(|c| c == '<' || is_unsafe(c)), None);
            let read: Value = serde_json::from_str(data).unwrap();
            prop_assert_eq!(read["text"].as_str(), Some(text.as_str()));
        }
    }

    #[test]
    fn a_page_asks_for_nothing() {
        let page = written(|_| Ok(()));
        assert!(page.contains("content=\"default-src 'none';"));
        for word in ["http:", "https:", "url(", "@import", "src=", "href="] {
            assert!(!page.contains(word), "{word}");
        }
    }
}
