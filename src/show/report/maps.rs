//! The planking laid flat: what state she is in, and where the findings are.

use std::io;

use super::Report;
use crate::show::html::Html;
use crate::show::map::{Ask, Dress, Map, drawing, page_colours};

/// The colours of the drawings, on a light page and on a dark one. On paper they are the light
/// ones, whatever the screen was.
pub(super) fn colours() -> String {
    let (light, dark) = (page_colours(false), page_colours(true));
    format!(
        ":root {{ {light} }}\n\
         @media screen and (prefers-color-scheme: dark) {{ :root {{ {dark} }} }}\n"
    )
}

pub(super) fn write(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    let last = &report.season.last;
    html.put("h2", &[], "Map")?;
    for (name, ask) in [
        ("map of the findings", Ask::Findings(last.outcome)),
        ("map of the state of the fastenings", Ask::State),
    ] {
        let mut drawn = Vec::new();
        drawing(&Map::new(last.survey, ask), Dress::Inlined, &mut drawn)?;
        // The drawing escapes what is a user's as it writes.
        // On a phone it is wider than the page and scrolls by itself, with keys as well.
        let attributes = [
            ("class", "map"),
            ("role", "region"),
            ("aria-label", name),
            ("tabindex", "0"),
        ];
        html.within("div", &attributes, |html| {
            html.own(&String::from_utf8_lossy(&drawn))
        })?;
    }
    Ok(())
}
