//! How wet a crossing is.

use std::fmt;
use std::str::FromStr;

use crate::tables::{Fit, Metal};
use crate::text::{Misread, nearest};

/// Where on the boat a crossing lies, by how wet it is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Zone {
    /// Always under water when she is afloat.
    Underwater,
    /// The belt at the waterline, wet and dry in turn.
    WindAndWater,
    /// Planking above that belt.
    Topsides,
    /// Deck planking.
    Deck,
    /// Joinery and structure inside the planking.
    Inside,
}

impl Zone {
    /// Every zone, wettest first.
    pub const ALL: [Self; 5] = [
        Self::Underwater,
        Self::WindAndWater,
        Self::Topsides,
        Self::Deck,
        Self::Inside,
    ];

    /// Whether the wood there is taken to be in wet service: under water, wind and water, deck.
    pub const fn is_wet(self) -> bool {
        matches!(self, Self::Underwater | Self::WindAndWater | Self::Deck)
    }

    /// Whether the water she floats in reaches the wood there.
    pub const fn is_washed(self) -> bool {
        matches!(self, Self::Underwater | Self::WindAndWater)
    }

    /// What the table thinks of a metal as a fastening here, in sea water.
    pub const fn fit(self, metal: &'static Metal) -> &'static Fit {
        match self {
            Self::Underwater => &metal.fits.underwater,
            Self::WindAndWater => &metal.fits.wind_and_water,
            Self::Topsides => &metal.fits.topsides,
            Self::Deck => &metal.fits.deck,
            Self::Inside => &metal.fits.inside,
        }
    }

    /// The name used in files, commands and output.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Underwater => "underwater",
            Self::WindAndWater => "wind and water",
            Self::Topsides => "topsides",
            Self::Deck => "deck",
            Self::Inside => "inside",
        }
    }
}

impl fmt::Display for Zone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for Zone {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let word = text.trim().to_lowercase().replace(['-', '_'], " ");
        if let Some(zone) = Self::ALL.into_iter().find(|zone| zone.name() == word) {
            return Ok(zone);
        }
        let help = match nearest(&word, Self::ALL.map(Self::name)) {
            Some(name) => format!("did you mean `{name}`?"),
            None => "one of underwater, wind and water, topsides, deck, inside".to_owned(),
        };
        Err(Misread::new(format!("`{}` is not a zone", text.trim())).help(help))
    }
}

#[cfg(test)]
mod tests {
    use super::Zone;

    #[test]
    fn zones_are_read_as_they_are_printed() {
        for zone in Zone::ALL {
            assert_eq!(zone.name().parse(), Ok(zone));
        }
        assert_eq!("Wind-and-Water".parse(), Ok(Zone::WindAndWater));
        let wrong = "topside".parse::<Zone>().unwrap_err();
        assert_eq!(wrong.help.as_deref(), Some("did you mean `topsides`?"));
    }
}
