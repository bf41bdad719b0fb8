//! The wood of a plank or a member, as far as a fastening feels it.

use crate::tables::Wood;

/// A wood by its name, or only by a specific gravity that the user gives.
#[derive(Clone, Copy, Debug)]
pub enum Timber {
    /// A wood of the table.
    Wood(&'static Wood),
    /// A specific gravity on oven-dry weight and volume.
    Gravity(f64),
}

/// A specific gravity and how it was come by.
#[derive(Clone, Debug, PartialEq)]
pub struct Stated {
    /// The specific gravity.
    pub value: f64,
    /// How it was come by, in words.
    pub from: String,
}

impl Timber {
    /// What to call it.
    pub fn name(self) -> String {
        match self {
            Self::Wood(wood) => wood.name.to_owned(),
            Self::Gravity(value) => format!("wood of specific gravity {value}"),
        }
    }

    /// Specific gravity on oven-dry weight and volume: the basis of the building standard and of
    /// the lead-hole rules. The table's assigned value where there is one.
    pub fn oven_dry(self) -> Stated {
        match self {
            Self::Wood(wood) => {
                let gravity = wood.gravity();
                Stated {
                    value: gravity.value,
                    from: gravity.basis.to_string(),
                }
            }
            Self::Gravity(value) => Stated {
                value,
                from: "as given, on oven-dry weight and volume".to_owned(),
            },
        }
    }

    /// Specific gravity on oven-dry weight and volume at 12 % moisture: the basis of the Wood
    /// Handbook's tests. Its printed value where there is one, else converted.
    pub fn at_12_percent(self) -> Stated {
        const FORMULA: &str = "formula from memory, Wood Handbook ch. 4";
        let (printed, green) = match self {
            Self::Wood(wood) => (wood.dry.zip(wood.dry_basis), wood.green),
            Self::Gravity(_) => (None, None),
        };
        match (printed, green) {
            (Some((value, basis)), _) => Stated {
                value,
                from: basis.to_string(),
            },
            (None, Some(green)) => Stated {
                value: at_12_from_green(green),
                from: format!("converted from the green value ({FORMULA})"),
            },
            (None, None) => Stated {
                value: at_12_from_green(green_from_oven_dry(self.oven_dry().value)),
                from: format!("converted from the oven-dry value ({FORMULA})"),
            },
        }
    }
}

/// Specific gravity on green volume from that on oven-dry volume: the turned-round form of
/// *G* = *G*b / (1 − 0.265 *G*b), Wood Handbook chapter 4 and ASTM D2395, from memory.
pub fn green_from_oven_dry(oven_dry: f64) -> f64 {
    oven_dry / (1.0 + 0.265 * oven_dry)
}

/// Specific gravity on volume at 12 % moisture from that on green volume: *G*b / (1 − 0.6 × 0.265
/// *G*b), Wood Handbook chapter 4 and ASTM D2395, from memory.
pub fn at_12_from_green(green: f64) -> f64 {
    green / (1.0 - 0.6 * 0.265 * green)
}
