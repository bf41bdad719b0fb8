//! The colours added to marks.

/// A colour added to a mark. Chosen to stay apart for colour-blind eyes, by lightness where the
/// hue is lost; each is at least 4.5 : 1 against the page, light and dark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tint {
    /// What stands as it should.
    Blue,
    /// Near it.
    Teal,
    /// What is half bad.
    Amber,
    /// What is bad.
    Red,
    /// What is broken.
    Violet,
    /// What is past.
    Grey,
    /// The colour of writing.
    Ink,
}

impl Tint {
    /// Every colour.
    pub const ALL: [Self; 7] = [
        Self::Blue,
        Self::Teal,
        Self::Amber,
        Self::Red,
        Self::Violet,
        Self::Grey,
        Self::Ink,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Blue => "blue",
            Self::Teal => "teal",
            Self::Amber => "amber",
            Self::Red => "red",
            Self::Violet => "violet",
            Self::Grey => "grey",
            Self::Ink => "ink",
        }
    }

    /// On a light page, as `#rrggbb`.
    pub const fn on_light(self) -> &'static str {
        match self {
            Self::Blue => "#1d4f7c",
            Self::Teal => "#0c7a70",
            Self::Amber => "#9a5b00",
            Self::Red => "#c8281a",
            Self::Violet => "#6d2f91",
            Self::Grey => "#69717c",
            Self::Ink => "#1a212b",
        }
    }

    /// On a dark page, as `#rrggbb`.
    pub const fn on_dark(self) -> &'static str {
        match self {
            Self::Blue => "#7db4e6",
            Self::Teal => "#4fc7b5",
            Self::Amber => "#eaa93c",
            Self::Red => "#ff7f6b",
            Self::Violet => "#cf9cf0",
            Self::Grey => "#9aa4b2",
            Self::Ink => "#e7ebf0",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Tint;

    /// Relative luminance of `#rrggbb`, as the web's rules for contrast define it.
    fn luminance(hex: &str) -> f64 {
        let channel = |at: usize| {
            let value = f64::from(u8::from_str_radix(&hex[at..at + 2], 16).unwrap()) / 255.0;
            if value <= 0.04045 {
                value / 12.92
            } else {
                ((value + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
    }

    fn contrast(one: &str, other: &str) -> f64 {
        let (one, other) = (luminance(one) + 0.05, luminance(other) + 0.05);
        one.max(other) / one.min(other)
    }

    #[test]
    fn every_colour_reads_on_its_page() {
        for tint in Tint::ALL {
            assert!(contrast(tint.on_light(), "#ffffff") >= 4.5, "{tint:?}");
            assert!(contrast(tint.on_dark(), "#1a212b") >= 4.5, "{tint:?}");
        }
    }
}
