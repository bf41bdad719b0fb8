//! Values that an owner may not know.

use std::str::FromStr;

use super::{Given, Reader, Text};
use crate::joint::{Kind, Size};
use crate::tables::{GaugeSystem, Metal, Wood};
use crate::text::Misread;
use crate::units::{Length, Units};

/// A value or the word `unknown`.
struct Maybe<T>(Option<T>);

impl<T: FromStr<Err = Misread>> FromStr for Maybe<T> {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        if is_unknown(text) {
            Ok(Self(None))
        } else {
            text.parse().map(|value| Self(Some(value)))
        }
    }
}

fn is_unknown(text: &str) -> bool {
    text.trim().eq_ignore_ascii_case("unknown")
}

impl Reader<'_> {
    /// A value that may be left out or said to be `unknown`.
    pub(super) fn maybe<T: FromStr<Err = Misread>>(
        &mut self,
        key: &'static str,
        text: &Given<Text>,
    ) -> Option<T> {
        self.read::<Maybe<T>>(key, text).and_then(|value| value.0)
    }

    /// A length of something that is there, so more than nothing.
    pub(in crate::files) fn maybe_size(
        &mut self,
        key: &'static str,
        text: &Given<Text>,
    ) -> Option<Length> {
        let length = self.maybe(key, text)?;
        if length == Length::ZERO {
            self.fault(
                key,
                Misread::new("nothing at all is not a size").help("give the size, or `unknown`"),
            );
            return None;
        }
        Some(length)
    }

    /// A name looked up in a table, or `unknown`.
    pub(super) fn look_up<T>(
        &mut self,
        key: &'static str,
        text: &Given<Text>,
        find: impl FnOnce(&str) -> Result<T, Misread>,
    ) -> Option<T> {
        let text = text.as_ref()?.as_str();
        if is_unknown(text) {
            return None;
        }
        find(text).map_err(|misread| self.fault(key, misread)).ok()
    }

    /// A wood by its name.
    pub(in crate::files) fn wood(&mut self, text: &Given<Text>) -> Option<&'static Wood> {
        self.look_up("wood", text, Wood::find)
    }

    /// A metal by its name. `brass?` is a guess, and a guess is unknown.
    pub(in crate::files) fn metal(&mut self, text: &Given<Text>) -> Option<&'static Metal> {
        if text
            .as_ref()
            .is_some_and(|text| text.as_str().trim_end().ends_with('?'))
        {
            return None;
        }
        self.look_up("metal", text, Metal::find)
    }

    /// The metal of a fastening of a kind: none of one that is of wood.
    pub(in crate::files) fn metal_of(
        &mut self,
        kind: Option<Kind>,
        text: &Given<Text>,
    ) -> Option<&'static Metal> {
        let metal = self.metal(text)?;
        if let Some(kind) = kind.filter(|kind| !kind.is_metal()) {
            let misread = Misread::new(format!("a {kind} is of wood"));
            self.misplaced(
                "metal",
                misread.help("leave `metal` out, or see to the kind"),
            );
            return None;
        }
        Some(metal)
    }

    /// The size of a fastening of a kind.
    pub(in crate::files) fn size(
        &mut self,
        text: &Given<Text>,
        kind: Kind,
        gauges: GaugeSystem,
    ) -> Option<Size> {
        self.look_up("size", text, |text| Size::read(kind, text, gauges))
    }
}

impl FromStr for Units {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        match text.trim().to_ascii_lowercase().as_str() {
            "inch" | "inches" => Ok(Self::Inch),
            "metric" | "mm" => Ok(Self::Metric),
            _ => Err(
                Misread::new(format!("`{}` is not a way to show sizes", text.trim()))
                    .help("inch or metric"),
            ),
        }
    }
}
