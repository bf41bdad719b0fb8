//! Strengths of materials: force on an area.

use std::fmt;
use std::str::FromStr;

use super::number;
use crate::text::Misread;

/// A strength in pounds-force per square inch, the unit of the building standard; read with its
/// unit: `65000 psi`, `65 ksi`, `450 MPa`.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Stress(f64);

/// Pounds per square inch in a megapascal: a pound-force of 4.448 221 615 260 5 N on 645.16 mm²,
/// both exact by definition.
const PSI_PER_MPA: f64 = 645.16 / 4.448_221_615_260_5;

/// Beyond the strongest steel wire; more is a slip of the unit.
const MOST_PSI: f64 = 500_000.0;

impl Stress {
    /// Of so many pounds on a square inch.
    pub const fn from_psi(psi: f64) -> Self {
        Self(psi)
    }

    /// In pounds on a square inch.
    pub const fn psi(self) -> f64 {
        self.0
    }
}

/// In thousands of pounds on a square inch: `62.5 ksi`.
impl fmt::Display for Stress {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ksi", (self.0 / 100.0).round() / 10.0)
    }
}

impl FromStr for Stress {
    type Err = Misread;

    /// # Errors
    /// No number, no unit or another unit; nothing, or more than 500 ksi.
    fn from_str(text: &str) -> Result<Self, Misread> {
        const HELP: &str = "write it with its unit: 65 ksi, 65000 psi or 450 MPa";
        let trimmed = text.trim();
        let (ratio, taken) = number::read(trimmed).map_err(|misread| misread.help(HELP))?;
        let unit = trimmed.get(taken..).unwrap_or_default().trim();
        let each = match unit.to_ascii_lowercase().as_str() {
            "psi" => 1.0,
            "ksi" => 1000.0,
            "mpa" | "n/mm2" | "n/mm²" => PSI_PER_MPA,
            "" => return Err(Misread::new(format!("`{trimmed}` has no unit")).help(HELP)),
            _ => return Err(Misread::new(format!("`{unit}` is not a unit of strength")).help(HELP)),
        };
        let psi = ratio.numerator as f64 / ratio.denominator as f64 * each;
        if psi <= 0.0 || psi > MOST_PSI {
            return Err(
                Misread::new(format!("a strength of {trimmed} is not to be believed"))
                    .help("more than nothing and at most 500 ksi; silicon bronze is about 50 ksi"),
            );
        }
        Ok(Self(psi))
    }
}

#[cfg(test)]
mod tests {
    use super::Stress;

    #[test]
    fn the_three_units_agree() {
        let psi = |text: &str| text.parse::<Stress>().unwrap().psi();
        assert_eq!(psi("65 ksi"), 65_000.0);
        assert_eq!(psi("65000psi"), 65_000.0);
        // 1 MPa is 145.038 psi.
        assert!((psi("450 MPa") - 65_267.0).abs() < 1.0);
        assert_eq!(
            "62.5 ksi".parse::<Stress>().unwrap().to_string(),
            "62.5 ksi"
        );
    }

    #[test]
    fn what_is_no_strength_says_why() {
        for (text, says) in [
            ("65", "`65` has no unit"),
            ("65 lb", "`lb` is not a unit of strength"),
            ("0 ksi", "a strength of 0 ksi is not to be believed"),
            ("65000 ksi", "a strength of 65000 ksi is not to be believed"),
            ("hard", "there is no number here"),
        ] {
            assert_eq!(text.parse::<Stress>().unwrap_err().says, says);
        }
    }
}
