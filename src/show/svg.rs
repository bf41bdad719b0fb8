//! A tiny writer of SVG drawings: what comes out is well formed whatever a name holds, reads on
//! a light and on a dark page, and is the same bytes for the same input.

use std::fmt::{self, Display, Write as _};
use std::io::{self, Write};

use crate::text::Clean;

/// What a drawing is called and how large it is.
pub(super) struct Sheet<'a> {
    /// A word that its classes are kept apart by, so that a page may hold several drawings.
    pub(super) class: &'static str,
    /// Its name, for those who cannot see it and as a tip for those who can.
    pub(super) title: &'a str,
    /// What it shows, in sentences.
    pub(super) desc: &'a str,
    /// Width and height, in its own steps; a step is a pixel where nothing else is asked for.
    pub(super) size: [f64; 2],
    /// Its style: a selector, which holds within this drawing only, and what it declares.
    pub(super) style: &'a [(&'a str, &'a str)],
}

/// A drawing being written. Elements stand one a line; every opened one is closed by
/// [`Svg::finish`] at the latest.
pub(super) struct Svg<'a> {
    out: &'a mut dyn Write,
    open: Vec<&'static str>,
}

impl<'a> Svg<'a> {
    /// Begins a drawing: its head, title, description and style, on paper of its own.
    pub(super) fn begin(out: &'a mut dyn Write, sheet: &Sheet<'_>) -> io::Result<Self> {
        let mut svg = Self {
            out,
            open: Vec::new(),
        };
        let [width, height] = sheet.size;
        let head = Element::new("svg")
            .attr("xmlns", "http://www.w3.org/2000/svg")
            .attr("class", sheet.class)
            .attr("role", "img")
            .numbers("viewBox", &[0.0, 0.0, width, height])
            .number("width", width)
            .number("height", height);
        svg.open(head)?;
        svg.text(Element::new("title"), sheet.title)?;
        svg.text(Element::new("desc"), sheet.desc)?;
        svg.open(Element::new("style"))?;
        for (selector, declares) in sheet.style {
            writeln!(
                svg.out,
                ".{} {}{{{}}}",
                sheet.class,
                Safe(selector),
                Safe(declares)
            )?;
        }
        svg.close()?;
        // Its own paper, so that it reads on a dark page as well.
        let paper = Element::new("rect")
            .attr("class", "paper")
            .number("width", width);
        svg.shape(paper.number("height", height).attr("fill", "#fff"))?;
        Ok(svg)
    }

    /// An element with nothing in it.
    pub(super) fn shape(&mut self, element: Element) -> io::Result<()> {
        let Element { written, .. } = element;
        writeln!(self.out, "<{written}/>")
    }

    /// An element with text in it.
    pub(super) fn text(&mut self, element: Element, text: &str) -> io::Result<()> {
        let Element { name, written } = element;
        writeln!(self.out, "<{written}>{}</{name}>", Safe(text))
    }

    /// Begins an element that others stand in, until [`Svg::close`].
    pub(super) fn open(&mut self, element: Element) -> io::Result<()> {
        let Element { name, written } = element;
        self.open.push(name);
        writeln!(self.out, "<{written}>")
    }

    /// Ends the element that was opened last.
    pub(super) fn close(&mut self) -> io::Result<()> {
        match self.open.pop() {
            Some(name) => writeln!(self.out, "</{name}>"),
            None => Ok(()),
        }
    }

    /// Ends the drawing.
    pub(super) fn finish(mut self) -> io::Result<()> {
        while !self.open.is_empty() {
            self.close()?;
        }
        Ok(())
    }
}

/// An element's name and attributes.
pub(super) struct Element {
    name: &'static str,
    written: String,
}

impl Element {
    pub(super) fn new(name: &'static str) -> Self {
        let written = name.to_owned();
        Self { name, written }
    }

    /// With an attribute; any text will do.
    pub(super) fn attr(mut self, name: &'static str, value: &str) -> Self {
        // Writing to a string cannot fail.
        let _ = write!(self.written, " {name}=\"{}\"", Safe(value));
        self
    }

    /// With a number as an attribute.
    pub(super) fn number(self, name: &'static str, value: f64) -> Self {
        self.numbers(name, &[value])
    }

    /// With numbers as an attribute, such as `points`.
    pub(super) fn numbers(mut self, name: &'static str, values: &[f64]) -> Self {
        let _ = write!(self.written, " {name}=\"");
        for (at, value) in values.iter().enumerate() {
            let gap = if at == 0 { "" } else { " " };
            let _ = write!(self.written, "{gap}{}", Number(*value));
        }
        self.written.push('"');
        self
    }
}

/// The data of a path, point by point.
#[derive(Default)]
pub(super) struct Path(String);

impl Path {
    /// Lifts the pen to a point.
    pub(super) fn to(self, x: f64, y: f64) -> Self {
        self.step('M', &[x, y])
    }

    /// Draws a straight line to a point.
    pub(super) fn line(self, x: f64, y: f64) -> Self {
        self.step('L', &[x, y])
    }

    /// Draws a curve to a point, pulled towards another on its way.
    pub(super) fn curve(self, pull: [f64; 2], x: f64, y: f64) -> Self {
        self.step('Q', &[pull[0], pull[1], x, y])
    }

    /// Draws back to where the pen came down last.
    pub(super) fn closed(mut self) -> Self {
        self.0.push('Z');
        self
    }

    /// As it stands in the attribute `d`.
    pub(super) fn data(&self) -> &str {
        &self.0
    }

    fn step(mut self, letter: char, numbers: &[f64]) -> Self {
        self.0.push(letter);
        for (at, number) in numbers.iter().enumerate() {
            let gap = if at == 0 { "" } else { " " };
            let _ = write!(self.0, "{gap}{}", Number(*number));
        }
        self
    }
}

/// A number with at most three decimals and no noise: `1.5`, `0`, never `-0` or `1.500`. What is
/// no number at all is drawn at nought.
pub(super) struct Number(pub(super) f64);

impl Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let value = if self.0.is_finite() { self.0 } else { 0.0 };
        let decimal = format!("{value:.3}");
        let plain = decimal.trim_end_matches('0').trim_end_matches('.');
        f.write_str(if plain == "-0" { "0" } else { plain })
    }
}

/// Text as it may stand in a document: marks of the language escaped, control characters made
/// visible, and the two characters that no document may hold replaced.
pub(super) struct Safe<'a>(pub(super) &'a str);

impl Display for Safe<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for c in Clean(self.0).to_string().chars() {
            match c {
                '&' => f.write_str("&amp;")?,
                '<' => f.write_str("&lt;")?,
                '>' => f.write_str("&gt;")?,
                '"' => f.write_str("&quot;")?,
                '\u{fffe}' | '\u{ffff}' => f.write_char('\u{fffd}')?,
                c => f.write_char(c)?,
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn drawn(name: &str, number: f64) -> String {
        let mut out = Vec::new();
        let sheet = Sheet {
            class: "trial",
            title: name,
            desc: name,
            size: [200.0, 100.0],
            style: &[(".plank", "fill:#fff"), ("g > .frame", "fill:#000")],
        };
        let mut svg = Svg::begin(&mut out, &sheet).unwrap();
        svg.open(Element::new("g").attr("class", name)).unwrap();
        let path = Path::default().to(number, 0.0).line(-number, 1.0).closed();
        svg.shape(Element::new("path").attr("d", path.data()))
            .unwrap();
        svg.text(Element::new("text").number("x", number), name)
            .unwrap();
        svg.finish().unwrap();
        String::from_utf8(out).unwrap()
    }

    proptest! {
        /// Any name and any number make a document that is well formed, holds the name in four
        /// places and as text alone, and comes out the same twice.
        #[test]
        fn a_drawing_is_well_formed_whatever_it_holds(name in any::<String>(), number in any::<f64>()) {
            let text = drawn(&name, number);
            let document = roxmltree::Document::parse(&text).unwrap();
            let shown = Clean(&name).to_string().replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}");
            let elements = document.descendants().filter(roxmltree::Node::is_element);
            prop_assert_eq!(elements.count(), 8);
            for tag in ["title", "desc", "text"] {
                let node = document.descendants().find(|node| node.has_tag_name(tag)).unwrap();
                prop_assert_eq!(node.text().unwrap_or_default(), &shown);
            }
            let group = document.descendants().find(|node| node.has_tag_name("g")).unwrap();
            prop_assert_eq!(group.attribute("class"), Some(shown.as_str()));
            prop_assert_eq!(drawn(&name, number), text);
        }
    }

    #[test]
    fn what_no_document_may_hold_is_made_visible() {
        let text = drawn("]]>\u{0}\u{1b}<script>&\u{ffff}\u{202e}'\"\n", 1.0);
        assert!(text.contains(
            "<title>]]&gt;\\u{0}\\u{1b}&lt;script&gt;&amp;\u{fffd}\\u{202e}'&quot;\\u{a}</title>"
        ));
        roxmltree::Document::parse(&text).unwrap();
    }

    #[test]
    fn a_style_holds_in_its_own_drawing_only() {
        let text = drawn("", 0.0);
        assert!(text.contains("\n.trial .plank{fill:#fff}\n.trial g &gt; .frame{fill:#000}\n"));
    }

    #[test]
    fn numbers_are_free_of_noise() {
        for (number, text) in [
            (0.1 + 0.2, "0.3"),
            (-0.0, "0"),
            (-0.0001, "0"),
            (1.0, "1"),
            (100.0, "100"),
            (-2.5, "-2.5"),
            (1.0005, "1"),
            (f64::NAN, "0"),
            (f64::INFINITY, "0"),
        ] {
            assert_eq!(Number(number).to_string(), text);
        }
    }
}
