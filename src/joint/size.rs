//! How big a fastening is, by the way its kind is sold.

use crate::tables::{GaugeSystem, Screw, WireSystem, wire_diameter};
use crate::text::{Misread, digits};
use crate::units::{Length, Units};

use super::Kind;

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
            return Err(Misread::new("a fastening has some length")
                .help(form())
                .at(length_at..text.len()));
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
            (Kind::WoodScrew, [before_last @ .., last]) if number(last).is_some() => {
                let system = match before_last {
                    [] | ["No."] => default,
                    [system] | [system, "No."] => {
                        let named = before..before + system.len();
                        system.parse().map_err(|m: Misread| m.at(named))?
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
                    // A fraction that no rule has is told so; else it is the form that is not known.
                    help: m
                        .help
                        .clone()
                        .filter(|_| across.contains('/'))
                        .or_else(|| Some(form())),
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
pub(super) fn split_at_x(text: &str) -> Option<(&str, &str)> {
    text.split_once('×')
        .or_else(|| text.split_once(" x "))
        .or_else(|| text.split_once(" X "))
        .or_else(|| {
            // `14x2in`
            text.split_once(['x', 'X'])
        })
}
