//! What closes the hole over a head.

use std::str::FromStr;

use crate::text::Misread;
use crate::units::{Length, Units};

use super::size::split_at_x;

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
            let misread = Misread::new("a bung has some diameter").help(FORM);
            return Err(misread.at(0..across.trim_end().len()));
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
