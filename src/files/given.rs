//! What the fields of a record hold: texts as they were typed.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{DeserializeSeed, Deserializer, SeqAccess, Visitor};

use super::record::{Here, Seed, Slot};
use crate::text::outline::{Node, Shape};

/// A field of a record: left out, given wrongly (and told), or given.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Given<T> {
    /// The key is not there.
    #[default]
    Missing,
    /// The key is there, and the fault of its value is told.
    Faulty,
    /// The value.
    Is(T),
}

impl<T> Given<T> {
    /// The value, where there is one.
    pub fn as_ref(&self) -> Option<&T> {
        match self {
            Self::Is(value) => Some(value),
            Self::Missing | Self::Faulty => None,
        }
    }
}

/// A value exactly as it was typed, never empty: `1.10` stays `1.10`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Text(String);

impl Text {
    /// A text that was typed somewhere else than in a file.
    pub fn new(text: impl Into<String>) -> Self {
        Self(text.into())
    }

    /// The text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// One text, or a list of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OneOrMany {
    /// One text, not in a list.
    One(Text),
    /// A list, perhaps of one, never empty.
    Many(Vec<Text>),
}

impl OneOrMany {
    /// The texts.
    pub fn texts(&self) -> &[Text] {
        match self {
            Self::One(text) => std::slice::from_ref(text),
            Self::Many(texts) => texts,
        }
    }
}

/// Reads a text, whatever kind of scalar YAML takes it for.
pub(super) struct Scalar;

impl<'de> Visitor<'de> for Scalar {
    type Value = String;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a text")
    }

    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<String, E> {
        Ok(text.to_owned())
    }
}

impl<'de> DeserializeSeed<'de> for Scalar {
    type Value = String;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<String, D::Error> {
        from.deserialize_str(self)
    }
}

impl Slot for Text {
    fn fill<'de, D: Deserializer<'de>>(here: Here<'_>, from: D) -> Result<Given<Self>, D::Error> {
        if !matches!(here.node.shape, Shape::Plain | Shape::Quoted) {
            return here.wrong("a text", from);
        }
        let text = Scalar.deserialize(from)?;
        if text.trim().is_empty() {
            return Ok(here.empty());
        }
        Ok(Given::Is(Self(text)))
    }

    fn of_text(text: Text) -> Option<Self> {
        Some(text)
    }
}

impl Slot for OneOrMany {
    fn fill<'de, D: Deserializer<'de>>(here: Here<'_>, from: D) -> Result<Given<Self>, D::Error> {
        match &here.node.shape {
            Shape::List(items) if !items.is_empty() => from.deserialize_seq(Items(here, items)),
            Shape::Plain | Shape::Quoted => Ok(match Text::fill(here, from)? {
                Given::Is(text) => Given::Is(Self::One(text)),
                _ => Given::Faulty,
            }),
            _ => here.wrong("a text or a list of texts", from),
        }
    }

    fn of_text(text: Text) -> Option<Self> {
        Some(Self::One(text))
    }
}

/// Reads the texts of a list.
struct Items<'a>(Here<'a>, &'a [Node]);

impl<'de> Visitor<'de> for Items<'_> {
    type Value = Given<OneOrMany>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Self::Value, A::Error> {
        let (mut texts, mut whole) = (Vec::new(), true);
        for node in self.1 {
            let here = Here {
                piece: self.0.piece,
                name: self.0.name,
                node,
                faults: &mut *self.0.faults,
            };
            match list.next_element_seed(Seed::<Text>(here, PhantomData))? {
                Some(Given::Is(text)) => texts.push(text),
                _ => whole = false,
            }
        }
        Ok(if whole {
            Given::Is(OneOrMany::Many(texts))
        } else {
            Given::Faulty
        })
    }
}
