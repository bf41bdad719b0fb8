//! What colours a drawing has, by itself and within a page.

use super::paper::Paper;
use crate::show::marks::Tint;
use crate::show::svg::Number;

/// Where a drawing stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dress {
    /// In a file of its own, on white paper: plain colours that every viewer knows.
    Alone,
    /// Within a page, whose colours it takes; see [`page_colours`].
    Inlined,
}

/// What is coloured beside the marks: its name, on a light page and on a dark one.
const GROUNDS: [(&str, &str, &str); 8] = [
    ("paper", "#ffffff", "#161c24"),
    ("edge", "#8b97a5", "#5c6875"),
    ("member", "#dde3e9", "#2b3541"),
    ("underwater", "#d7e6f2", "#1d3346"),
    ("splash", "#ecf3f9", "#202d3a"),
    ("inside", "#e4e0da", "#35312b"),
    ("joint", "#1a212b", "#e7ebf0"),
    ("water", "#1d6fb0", "#7db4e6"),
];

/// The declarations of a page's colours for drawings within it, light or dark: put them where the
/// page declares its own, `:root` and the same for `prefers-color-scheme: dark`.
pub fn page_colours(dark: bool) -> String {
    let grounds = GROUNDS.map(|(name, light, night)| (name, if dark { night } else { light }));
    let tints = Tint::ALL.map(|tint| {
        let is = if dark {
            tint.on_dark()
        } else {
            tint.on_light()
        };
        (tint.name(), is)
    });
    let all = grounds.into_iter().chain(tints);
    all.map(|(name, is)| format!("--map-{name}:{is};"))
        .collect()
}

impl Dress {
    fn colour(self, name: &str, light: &str) -> String {
        match self {
            Self::Alone => light.to_owned(),
            Self::Inlined => format!("var(--map-{name},{light})"),
        }
    }

    /// The style of a drawing: selectors and what they declare.
    pub(super) fn style(self, paper: &Paper) -> Vec<(String, String)> {
        let ground = |name: &str| {
            let known = GROUNDS.iter().find(|(known, ..)| *known == name);
            self.colour(name, known.map_or("#000000", |(_, light, _)| light))
        };
        let ink = self.colour(Tint::Ink.name(), Tint::Ink.on_light());
        let f = paper.letter;
        let font = |size: f64| format!("font:{}px system-ui,sans-serif;fill:{ink}", Number(size));
        let mut style = vec![
            ("text".to_owned(), font(f)),
            (
                ".title".to_owned(),
                format!("{};font-weight:600", font(1.7 * f)),
            ),
            (".head".to_owned(), format!("{};font-weight:600", font(f))),
            (
                ".number".to_owned(),
                format!("{};text-anchor:middle", font(0.85 * f)),
            ),
            (
                ".fore".to_owned(),
                format!("{};text-anchor:end", font(paper.small)),
            ),
            (".aft".to_owned(), font(paper.small)),
            (".end".to_owned(), format!("{};text-anchor:end", font(f))),
            (
                ".edge".to_owned(),
                format!("fill:none;stroke:{};stroke-width:1", ground("edge")),
            ),
            (
                ".joint".to_owned(),
                format!("fill:none;stroke:{};stroke-width:2.4", ground("joint")),
            ),
            (
                ".scarf".to_owned(),
                format!(
                    "fill:none;stroke:{};stroke-width:2;stroke-dasharray:5 3",
                    ground("joint")
                ),
            ),
            (
                ".water".to_owned(),
                format!(
                    "fill:none;stroke:{};stroke-width:2;stroke-dasharray:12 4 2 4",
                    ground("water")
                ),
            ),
        ];
        for name in ["paper", "member", "underwater", "splash", "inside"] {
            style.push((format!(".{name}"), format!("fill:{}", ground(name))));
        }
        for tint in Tint::ALL {
            let fill = self.colour(tint.name(), tint.on_light());
            style.push((format!(".{}", tint.name()), format!("fill:{fill}")));
        }
        style
    }
}
