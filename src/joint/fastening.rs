//! What a fastening is: its kind, its size and what closes the hole over its head.

use std::fmt;
use std::str::FromStr;

use crate::tables::{GaugeSystem, Screw, WireSystem, wire_diameter};
use crate::text::{Misread, digits, nearest};
use crate::units::{Length, Units};

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
        self.names()[0]
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

/// The size of a fastening, by the way its kind is sold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// A wood screw of a gauge, or a metric one of a shank.
    Screw {
        /// The row of the screw table.
        screw: &'static Screw,
        /// Overall length.
        length: Length,
    },
    /// A nail or rivet of a wire gauge.
    Wire {
        /// Which wire gauge; the same number is a different wire in each.
        system: WireSystem,
        /// The gauge number.
        number: u8,
        /// Overall length.
        length: Length,
    },
    /// Anything of a plain diameter or side.
    Plain {
        /// Diameter, or the side of a square shank.
        diameter: Length,
        /// Overall length.
        length: Length,
    },
}

impl Size {
    /// Overall length.
    pub const fn length(self) -> Length {
        match self {
            Self::Screw { length, .. } | Self::Wire { length, .. } | Self::Plain { length, .. } => {
                length
            }
        }
    }

    /// The same, with another length.
    #[must_use]
    pub const fn with_length(self, length: Length) -> Self {
        match self {
            Self::Screw { screw, .. } => Self::Screw { screw, length },
            Self::Wire { system, number, .. } => Self::Wire {
                system,
                number,
                length,
            },
            Self::Plain { diameter, .. } => Self::Plain { diameter, length },
        }
    }

    /// Diameter of the shank; `None` for a wire number that no table here gives.
    pub fn diameter(self) -> Option<Length> {
        match self {
            Self::Screw { screw, .. } => Some(screw.shank),
            Self::Wire { system, number, .. } => {
                wire_diameter(system, number).map(|(diameter, _)| diameter)
            }
            Self::Plain { diameter, .. } => Some(diameter),
        }
    }

    /// Reads the size of a fastening of this kind. `default` is the gauge system that a bare
    /// number belongs to.
    ///
    /// # Errors
    /// Says which form the kind takes; an unknown gauge, a missing unit or length, nothing of it.
    pub fn read(kind: Kind, text: &str, default: GaugeSystem) -> Result<Self, Misread> {
        let form = || format!("the size of {} is written {}", kind.one(), kind.size_form());
        let Some((across, along)) = split_at_x(text) else {
            return Err(Misread::new(format!("`{}` has no length", text.trim())).help(form()));
        };
        let length_at = text.len() - along.len();
        let length: Length = along
            .parse()
            .map_err(|m: Misread| m.shifted(length_at, along.len()))?;
        if length == Length::ZERO {
            return Err(Misread::new("a fastening has some length").at(length_at..text.len()));
        }
        let before = across.len() - across.trim_start().len();
        let across = across.trim();
        let whole = before..before + across.len();
        let words: Vec<&str> = across.split_whitespace().collect();
        let number = |word: &str| {
            digits::<u8>(
                word.trim_start_matches("No.")
                    .trim_start_matches('#')
                    .trim(),
            )
        };
        let size = match (kind, words.as_slice()) {
            (Kind::WoodScrew, [.., last]) if number(last).is_some() => {
                let system = match &words[..words.len() - 1] {
                    [] | ["No."] => default,
                    [system] | [system, "No."] => {
                        system.parse().map_err(|m: Misread| m.at(whole.clone()))?
                    }
                    _ => {
                        return Err(Misread::new(format!("`{across}` is not a screw gauge"))
                            .help(form())
                            .at(whole));
                    }
                };
                let gauge = number(last).unwrap_or_default();
                let screw = Screw::by_gauge(system, gauge)
                    .ok_or_else(|| no_gauge(system, gauge).at(whole))?;
                Self::Screw { screw, length }
            }
            (_, [number_word, system])
                if system.eq_ignore_ascii_case("SWG") || system.eq_ignore_ascii_case("BWG") =>
            {
                let system = if system.eq_ignore_ascii_case("SWG") {
                    WireSystem::Swg
                } else {
                    WireSystem::Bwg
                };
                let number = number(number_word).filter(|n| *n <= 40).ok_or_else(|| {
                    Misread::new(format!("`{number_word}` is not a wire gauge number"))
                        .help(form())
                        .at(whole.clone())
                })?;
                if kind == Kind::WoodScrew {
                    return Err(
                        Misread::new("a wood screw has a screw gauge, not a wire gauge")
                            .help(form())
                            .at(whole),
                    );
                }
                Self::Wire {
                    system,
                    number,
                    length,
                }
            }
            _ => {
                let diameter: Length = across.parse().map_err(|m: Misread| Misread {
                    help: Some(form()),
                    ..m.shifted(before, across.len())
                })?;
                if diameter == Length::ZERO || diameter > length {
                    return Err(Misread::new(format!(
                        "{} of {} is not possible",
                        kind.one(),
                        text.trim()
                    ))
                    .help(form()));
                }
                match (kind, Screw::metric(diameter)) {
                    (Kind::WoodScrew, Some(screw)) => Self::Screw { screw, length },
                    (Kind::WoodScrew, None) => {
                        return Err(Misread::new(format!("there is no wood screw of {across}"))
                            .help(form())
                            .at(whole));
                    }
                    _ => Self::Plain { diameter, length },
                }
            }
        };
        Ok(size)
    }

    /// As the files carry it, exactly, and read back the same whatever the default gauge.
    pub fn written(self, default: GaugeSystem, units: Units) -> String {
        let length = self.length().written(units);
        match self {
            Self::Screw { screw, .. } => match screw.gauge {
                Some(gauge) if screw.system == default => format!("{gauge} x {length}"),
                Some(gauge) => format!("{} {gauge} x {length}", screw.system),
                None => format!("{} x {length}", screw.shank.written(Units::Metric)),
            },
            Self::Wire {
                system: WireSystem::Swg,
                number,
                ..
            } => format!("{number} SWG x {length}"),
            Self::Wire {
                system: WireSystem::Bwg,
                number,
                ..
            } => format!("{number} BWG x {length}"),
            Self::Plain { diameter, .. } => format!("{} x {length}", diameter.written(units)),
        }
    }
}

/// That a system has no such gauge, with the gauges on either side.
pub(crate) fn no_gauge(system: GaugeSystem, gauge: u8) -> Misread {
    let known: Vec<u8> = Screw::all(system)
        .iter()
        .filter_map(|screw| screw.gauge)
        .collect();
    let below = known.iter().rev().find(|g| **g < gauge);
    let above = known.iter().find(|g| **g > gauge);
    let help = match (below, above) {
        (Some(below), Some(above)) => format!("the nearest are {below} and {above}"),
        (Some(only), None) | (None, Some(only)) => format!("the nearest is {only}"),
        (None, None) => "metric screws are named by their shank, like 5mm x 50mm".to_owned(),
    };
    Misread::new(format!(
        "there is no {system} No. {gauge} wood screw in the table"
    ))
    .help(help)
}

/// Splits at the `x` or `×` between two sizes. The letter stands alone or between digits and
/// units, never inside a word.
fn split_at_x(text: &str) -> Option<(&str, &str)> {
    text.split_once('×')
        .or_else(|| text.split_once(" x "))
        .or_else(|| text.split_once(" X "))
        .or_else(|| {
            // `14x2in`
            let at = text.find(['x', 'X'])?;
            Some((&text[..at], &text[at + 1..]))
        })
}

/// A wood plug over a fastening's head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Bung {
    /// Diameter of bung and counterbore.
    pub diameter: Length,
    /// Depth of the counterbore from the plank's face to the top of the head, if it is known.
    pub depth: Option<Length>,
}

/// What closes the hole over a fastening's head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Plug {
    /// Not known.
    Unknown,
    /// Nothing: the head is flush or proud.
    None,
    /// Putty, as in thin planking.
    Stopping,
    /// A bung of a diameter and depth.
    Bung(Bung),
}

impl Plug {
    /// Whether the mouth of the hole must be closed before she is launched.
    pub const fn closes(self) -> bool {
        matches!(self, Self::Stopping | Self::Bung(_))
    }

    /// As the files carry it.
    pub fn written(self, units: Units) -> String {
        match self {
            Self::Unknown => "unknown".to_owned(),
            Self::None => "none".to_owned(),
            Self::Stopping => "stopping".to_owned(),
            Self::Bung(Bung {
                diameter,
                depth: Some(depth),
            }) => {
                format!("{} x {}", diameter.written(units), depth.written(units))
            }
            Self::Bung(Bung {
                diameter,
                depth: None,
            }) => diameter.written(units),
        }
    }
}

impl FromStr for Plug {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        const FORM: &str =
            "a bung is written by diameter and depth, 1/2in x 1/4in; or none, stopping, unknown";
        match text.trim().to_ascii_lowercase().as_str() {
            "unknown" => return Ok(Self::Unknown),
            "none" => return Ok(Self::None),
            "stopping" | "putty" | "stopped" => return Ok(Self::Stopping),
            _ => {}
        }
        let (across, deep) = match split_at_x(text) {
            Some((across, deep)) => (across, Some(deep)),
            None => (text, None),
        };
        let diameter: Length = across
            .parse()
            .map_err(|m: Misread| m.shifted(0, across.len()).help(FORM))?;
        if diameter == Length::ZERO {
            return Err(Misread::new("a bung has some diameter").help(FORM));
        }
        let depth =
            match deep.map(|deep| (deep, deep.trim())) {
                None | Some((_, "unknown")) => None,
                Some((deep, _)) => Some(deep.parse().map_err(|m: Misread| {
                    m.shifted(text.len() - deep.len(), deep.len()).help(FORM)
                })?),
            };
        Ok(Self::Bung(Bung { diameter, depth }))
    }
}
