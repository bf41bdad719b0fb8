//! The map as a drawing: bow to the left, the shell opened along the keel and seen from outside,
//! port above and starboard below, the deck apart and seen from above.

mod colours;
mod legend;
mod marks;
mod panel;
mod paper;
mod spots;

use std::io::{self, Write};

pub use colours::{Dress, page_colours};

use super::counts::{counts, with_places};
use super::laid::lay;
use super::{By, Map};
use crate::show::numbers::grouped;
use crate::show::svg::{Element, Sheet, Svg};
use paper::Paper;
use spots::{Grain, Spots};

/// Draws the map as one SVG element, the same bytes for the same boat. It has no ids, and its
/// style holds within its own class, so that a page may hold several.
///
/// # Errors
/// When the writer fails.
pub fn drawing(map: &Map<'_>, dress: Dress, out: &mut dyn Write) -> io::Result<()> {
    let laid = lay(map);
    let counts = counts(map);
    let grain = Grain::of(map);
    let paper = Paper::new(map, &laid, grain, counts.len());
    let title = format!("{}: {}", map.survey.hull.boat, map.by.title());
    let crossings = map.survey.crossings().count();
    let desc = format!(
        "The planking of {} on {}{}, laid flat with the bow to the left: the shell from outside, \
         port above and starboard below the keel, the deck apart. {} crossings. {}{}",
        map.survey.hull.boat,
        map.day(),
        map.only(),
        grouped(u32::try_from(crossings).unwrap_or(u32::MAX)),
        grain.says(),
        with_places(map, &counts),
    );
    let style = dress.style(&paper);
    let style: Vec<(&str, &str)> = style
        .iter()
        .map(|(selector, declares)| (selector.as_str(), declares.as_str()))
        .collect();
    let sheet = Sheet {
        class: class(map.by),
        title: &title,
        desc: &desc,
        size: [paper.width, paper.height],
        style: &style,
    };
    let mut svg = Svg::begin(out, &sheet)?;
    let f = paper.letter;
    text(
        &mut svg,
        "title",
        [paper.margin, paper.margin + 1.6 * f],
        &map.survey.hull.boat,
    )?;
    let says = format!("{} on {}{}", map.by.title(), map.day(), map.only());
    text(&mut svg, "", [paper.margin, paper.margin + 3.2 * f], &says)?;
    let spots = Spots::new(map, grain);
    for (panel, place) in laid.panels.iter().zip(&paper.panels) {
        panel::draw(&mut svg, map, panel, place, &paper, &spots)?;
    }
    legend::draw(&mut svg, map, &laid, &counts, &paper, grain)?;
    svg.finish()
}

/// The class that a drawing's style hangs on.
const fn class(by: By) -> &'static str {
    match by {
        By::Metal => "refasten-map-metal",
        By::State => "refasten-map-state",
        By::Age => "refasten-map-age",
        By::Hold => "refasten-map-hold",
        By::Findings => "refasten-map-findings",
    }
}

/// Writes words at a point; a class says how large and to which side.
fn text(svg: &mut Svg<'_>, class: &str, [x, y]: [f64; 2], says: &str) -> io::Result<()> {
    let element = Element::new("text").number("x", x).number("y", y);
    let element = match class {
        "" => element,
        class => element.attr("class", class),
    };
    svg.text(element, says)
}
