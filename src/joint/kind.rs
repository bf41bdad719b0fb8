//! The kinds of fastening that hold planking.

use std::fmt;
use std::str::FromStr;

use crate::text::{Misread, nearest};

/// The kinds of fastening that hold planking.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Turned in; holds by its thread.
    WoodScrew,
    /// A square-headed screw turned with a spanner.
    LagScrew,
    /// Square in section, driven; holds by friction.
    BoatNail,
    /// A nail with rings rolled in its shank.
    AnnularNail,
    /// Driven through and its point turned back into the wood.
    ClenchedNail,
    /// A nail headed over a rove or burr on the inside.
    Rivet,
    /// Through, with a nut or headed over a ring.
    Bolt,
    /// A headless or headed rod driven blind.
    Drift,
    /// A wooden pin, wedged.
    Trunnel,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 9] = [
        Self::WoodScrew,
        Self::LagScrew,
        Self::BoatNail,
        Self::AnnularNail,
        Self::ClenchedNail,
        Self::Rivet,
        Self::Bolt,
        Self::Drift,
        Self::Trunnel,
    ];

    /// Words of the trade for each kind; the first is the one that is printed.
    const fn names(self) -> &'static [&'static str] {
        match self {
            Self::WoodScrew => &["wood screw", "screw"],
            Self::LagScrew => &["lag screw", "coach screw", "lag"],
            Self::BoatNail => &["boat nail", "cut nail", "square nail", "nail"],
            Self::AnnularNail => &["annular nail", "ring nail", "barbed nail"],
            Self::ClenchedNail => &["clenched nail", "clench nail", "clinch nail"],
            Self::Rivet => &["rivet", "copper rivet", "roved nail"],
            Self::Bolt => &["bolt", "through bolt"],
            Self::Drift => &["drift", "drift bolt"],
            Self::Trunnel => &["trunnel", "treenail", "trenail"],
        }
    }

    /// The kind's name in the singular.
    pub const fn name(self) -> &'static str {
        match self.names() {
            [first, ..] => first,
            [] => "",
        }
    }

    /// One of them, as it stands in a sentence: `a rivet`, `an annular nail`.
    pub fn one(self) -> String {
        let article = match self.name().starts_with(['a', 'e', 'i', 'o', 'u']) {
            true => "an",
            false => "a",
        };
        format!("{article} {self}")
    }

    /// Whether it goes right through the member on purpose and holds by what is on the far side.
    pub const fn goes_through(self) -> bool {
        matches!(
            self,
            Self::ClenchedNail | Self::Rivet | Self::Bolt | Self::Trunnel
        )
    }

    /// Whether it holds by its two ends, so that it is worth nothing where it does not come out on
    /// the far side: clenched, headed over a rove, or with a nut. A trunnel may be driven blind.
    pub const fn holds_by_its_ends(self) -> bool {
        matches!(self, Self::ClenchedNail | Self::Rivet | Self::Bolt)
    }

    /// Whether it is of metal at all; a trunnel is of wood.
    pub const fn is_metal(self) -> bool {
        !matches!(self, Self::Trunnel)
    }

    /// Whether it holds by a thread cut in the member.
    pub const fn is_threaded(self) -> bool {
        matches!(self, Self::WoodScrew | Self::LagScrew)
    }

    /// How its size is written, with an example.
    pub const fn size_form(self) -> &'static str {
        match self {
            Self::WoodScrew => "14 x 2in, British 14 x 2in or 5mm x 50mm",
            Self::BoatNail | Self::AnnularNail | Self::ClenchedNail | Self::Rivet => {
                "8 SWG x 2in, 12 BWG x 2in or 1/4in x 3in"
            }
            Self::LagScrew | Self::Bolt | Self::Drift | Self::Trunnel => "3/8in x 6in",
        }
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

impl FromStr for Kind {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let word = text.trim().to_lowercase().replace('-', " ");
        if let Some(kind) = Self::ALL
            .into_iter()
            .find(|kind| kind.names().contains(&word.as_str()))
        {
            return Ok(kind);
        }
        let near = nearest(
            &word,
            Self::ALL
                .iter()
                .flat_map(|kind| kind.names().iter().copied()),
        );
        let help = match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("one of {}", Self::ALL.map(Self::name).join(", ")),
        };
        Err(Misread::new(format!("`{}` is not a kind of fastening", text.trim())).help(help))
    }
}
