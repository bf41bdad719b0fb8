//! Areas of other metal in the wood.

use std::str::FromStr;

use super::number;
use crate::text::Misread;

/// An area in square millimetres, read with its unit: `60 in2`, `60 sq in`, `380cm2`, `0.04 m²`.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Area(f64);

impl Area {
    /// In square millimetres.
    pub const fn mm2(self) -> f64 {
        self.0
    }

    /// An area of so many square millimetres.
    pub const fn from_mm2(mm2: f64) -> Self {
        Self(mm2)
    }
}

impl FromStr for Area {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        const HELP: &str = "write it with its unit: 60 in2 or 390 cm2";
        let trimmed = text.trim();
        let start = text.len() - text.trim_start().len();
        let (ratio, taken) =
            number::read(trimmed).map_err(|m| m.shifted(start, trimmed.len()).help(HELP))?;
        let unit = trimmed.get(taken..).unwrap_or_default();
        let unit = unit.trim().to_ascii_lowercase().replace('²', "2");
        let mm2 = match unit.as_str() {
            "in2" | "sq in" => 645.16,
            "ft2" | "sq ft" => 645.16 * 144.0,
            "mm2" | "sq mm" => 1.0,
            "cm2" | "sq cm" => 100.0,
            "m2" | "sq m" => 1e6,
            "" => return Err(Misread::new(format!("`{trimmed}` has no unit")).help(HELP)),
            _ => {
                let from = start + trimmed.len()
                    - trimmed.get(taken..).unwrap_or_default().trim_start().len();
                return Err(Misread::new(format!("`{unit}` is not a unit of area"))
                    .help(HELP)
                    .at(from..start + trimmed.len()));
            }
        };
        Ok(Self(
            ratio.numerator as f64 / ratio.denominator as f64 * mm2,
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_shown_at_its_place_in_what_was_typed() {
        let typed = "\u{2003}1-3/41990 in2";
        let misread = typed.parse::<Area>().unwrap_err();
        assert_eq!(typed.get(misread.within.unwrap()), Some("3/41990"));
    }
}
