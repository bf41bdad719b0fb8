//! One record read into a struct of texts, every fault of its shape told.

use std::fmt;
use std::marker::PhantomData;
use std::ops::Range;

use serde::de::{
    Deserialize, DeserializeSeed, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor,
};

use super::given::{Given, Scalar, Text};
use super::split::{Piece, Wrap};
use super::unreadable::unreadable;
use super::{guard, slips};
use crate::text::outline::{Node, Pair, Shape};
use crate::text::{Clean, Fault, nearest};

/// Declares a struct that one record is read into: each field a [`Text`], a [`OneOrMany`] or
/// another such struct, with the key it is written under.
#[macro_export]
macro_rules! record {
    ($(#[$meta:meta])* $vis:vis struct $name:ident {
        $($(#[$field_meta:meta])* $field:ident: $kind:ty = $key:literal),+ $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Clone, Debug, Default, PartialEq, Eq)]
        $vis struct $name {
            $($(#[$field_meta])* $vis $field: $crate::files::Given<$kind>,)+
        }

        impl $crate::files::Keys for $name {
            const KEYS: &'static [&'static str] = &[$($key),+];

            fn take<'de, M: ::serde::de::MapAccess<'de>>(
                &mut self,
                key: &str,
                here: $crate::files::Here<'_>,
                map: &mut M,
            ) -> Result<bool, M::Error> {
                match key {
                    $($key => here.fill(&mut self.$field, map)?,)+
                    _ => return Ok(false),
                }
                Ok(true)
            }

            fn put(&mut self, key: &str, text: $crate::files::Text) -> Option<()> {
                match key {
                    $($key => {
                        let empty = matches!(self.$field, $crate::files::Given::Missing);
                        let value = $crate::files::Slot::of_text(text).filter(|_| empty)?;
                        self.$field = $crate::files::Given::Is(value);
                    })+
                    _ => return None,
                }
                Some(())
            }

            fn spoil(&mut self, key: &str) {
                match key {
                    $($key => self.$field = $crate::files::Given::Faulty,)+
                    _ => {}
                }
            }
        }

        impl $crate::files::Slot for $name {
            fn fill<'de, D: ::serde::de::Deserializer<'de>>(
                here: $crate::files::Here<'_>,
                from: D,
            ) -> Result<$crate::files::Given<Self>, D::Error> {
                here.keys(from)
            }

            fn of_line(text: &str) -> Option<Self> {
                $crate::files::of_line(text)
            }
        }
    };
}

/// A struct declared by [`record!`](crate::record).
pub trait Keys: Default {
    /// The keys it knows.
    const KEYS: &'static [&'static str];

    /// Takes the value of a key out of the map; `false` where the key is not known, and then the
    /// value is still there.
    ///
    /// # Errors
    ///
    /// What the map gives.
    fn take<'de, M: MapAccess<'de>>(
        &mut self,
        key: &str,
        here: Here<'_>,
        map: &mut M,
    ) -> Result<bool, M::Error>;

    /// Takes the value of a key from a text; `None` where the key is not known, has a value already,
    /// or wants more than a text.
    fn put(&mut self, key: &str, text: Text) -> Option<()>;

    /// Notes that the value of a key is faulty, and that this was told.
    fn spoil(&mut self, key: &str);
}

/// What a field can be read into.
pub trait Slot: Sized {
    /// Reads a value. A value of the wrong shape is told and passed over.
    ///
    /// # Errors
    ///
    /// What the deserializer gives where the text is not well formed.
    fn fill<'de, D: Deserializer<'de>>(here: Here<'_>, from: D) -> Result<Given<Self>, D::Error>;

    /// The same of a text that was read already; `None` where that is not a value of this shape.
    fn of_text(_text: Text) -> Option<Self> {
        None
    }

    /// The same of the text of a whole record in the form the program writes; `None` where it is
    /// in any other.
    fn of_line(_text: &str) -> Option<Self> {
        None
    }
}

/// The place in a record that is being read.
#[derive(Debug)]
pub struct Here<'a> {
    pub(super) piece: &'a Piece<'a>,
    pub(super) name: &'a str,
    pub(super) node: &'a Node,
    pub(super) faults: &'a mut Vec<Fault>,
}

/// With as many faults as this told, no more records are read: the file is not what it says.
pub(super) const MOST: usize = 1000;

/// Reads one record. Every fault of it is told: unknown and doubled keys, values of the wrong
/// shape, empty ones; the rest is read all the same.
pub fn read<S: Slot>(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Given<S> {
    if faults.len() >= MOST {
        return Given::Faulty;
    }
    if let Wrap::Dash = piece.wrap
        && let Some(quick) = S::of_line(piece.text)
    {
        return Given::Is(quick);
    }
    slowly(piece, faults)
}

/// Reads one record by the YAML reader.
pub(super) fn slowly<S: Slot>(piece: &Piece<'_>, faults: &mut Vec<Fault>) -> Given<S> {
    let Some(root) = guard::guard(piece, faults) else {
        return Given::Faulty;
    };
    let before = faults.len();
    let mut name = "";
    let inner = match (piece.wrap, &root.shape) {
        (Wrap::Bare, _) => Some(&root),
        (Wrap::Dash, Shape::List(items)) => items.first().filter(|_| items.len() == 1),
        (Wrap::Key, Shape::Map(pairs)) => pairs.first().filter(|_| pairs.len() == 1).map(|pair| {
            name = piece.text.get(pair.key.clone()).unwrap_or(name);
            &pair.value
        }),
        _ => None,
    };
    let node = inner.unwrap_or(&root);
    let from = serde_yaml::Deserializer::from_str(piece.text);
    let here = Here {
        piece,
        name,
        node,
        faults,
    };
    let seed = Seed::<S>(here, PhantomData);
    let read = match piece.wrap {
        Wrap::Bare => seed.deserialize(from),
        Wrap::Dash => from.deserialize_seq(Only(seed)),
        Wrap::Key => from.deserialize_map(Only(seed)),
    };
    match read {
        Ok(given) => given,
        Err(error) => {
            faults.truncate(before);
            faults.push(unreadable(piece, &error));
            Given::Faulty
        }
    }
}

/// Reads a value in its place.
pub(super) struct Seed<'a, S>(pub(super) Here<'a>, pub(super) PhantomData<S>);

impl<'de, S: Slot> DeserializeSeed<'de> for Seed<'_, S> {
    type Value = Given<S>;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Given<S>, D::Error> {
        S::fill(self.0, from)
    }
}

/// The record out of the list or map of one that it stands in.
struct Only<T>(T);

impl<'de, T: DeserializeSeed<'de>> Visitor<'de> for Only<T> {
    type Value = T::Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("one record")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<T::Value, A::Error> {
        let item = items.next_element_seed(self.0)?;
        item.ok_or_else(|| serde::de::Error::custom("there is no record here"))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<T::Value, A::Error> {
        map.next_key::<IgnoredAny>()?;
        map.next_value_seed(self.0)
    }
}

impl<'a> Here<'a> {
    pub(super) fn fault(
        &mut self,
        at: &Range<usize>,
        says: impl Into<String>,
        help: Option<String>,
    ) {
        let mut fault = self.piece.fault(at.clone(), says);
        fault.help = help;
        self.faults.push(fault);
    }

    /// Reads the next value of a map into a field.
    ///
    /// # Errors
    ///
    /// What the map gives.
    pub fn fill<'de, S: Slot, M: MapAccess<'de>>(
        mut self,
        field: &mut Given<S>,
        map: &mut M,
    ) -> Result<(), M::Error> {
        if let Given::Missing = field {
            *field = map.next_value_seed(Seed(self, PhantomData))?;
        } else {
            map.next_value::<IgnoredAny>()?;
            let says = format!("{} is given twice", self.called());
            let at = self.node.at.clone();
            self.fault(&at, says, Some("keep the one that is right".to_owned()));
        }
        Ok(())
    }

    /// Passes over a value of the wrong shape and tells it.
    pub(super) fn wrong<'de, T, D: Deserializer<'de>>(
        mut self,
        due: &str,
        from: D,
    ) -> Result<Given<T>, D::Error> {
        IgnoredAny::deserialize(from)?;
        let name = self.called();
        let says = match self.node.shape {
            Shape::Nothing => return Ok(self.empty()),
            Shape::Map(_) => format!("{name} has keys of its own where {due} is due"),
            Shape::List(_) => format!("{name} is a list where {due} is due"),
            Shape::Plain | Shape::Quoted => format!("{name} is a text where {due} is due"),
        };
        let at = self.node.at.clone();
        self.fault(&at, says, None);
        Ok(Given::Faulty)
    }

    /// Tells that there is no value.
    pub(super) fn empty<T>(mut self) -> Given<T> {
        let says = format!("{} is empty", self.called());
        let at = self.node.at.clone();
        let help = "write its value; a key that has none may be left out";
        self.fault(&at, says, Some(help.to_owned()));
        Given::Faulty
    }

    /// What is read, by its key.
    fn called(&self) -> String {
        match self.name {
            "" => "this record".to_owned(),
            name => format!("`{}`", Clean(name)),
        }
    }

    /// Reads the keys of a record.
    ///
    /// # Errors
    ///
    /// What the deserializer gives where the text is not well formed.
    pub fn keys<'de, R: Keys, D: Deserializer<'de>>(self, from: D) -> Result<Given<R>, D::Error> {
        match &self.node.shape {
            Shape::Map(_) => from.deserialize_map(KeysOf(self, PhantomData)),
            _ => self.wrong("a record of keys and values", from),
        }
    }
}

/// Reads the keys of a record.
struct KeysOf<'a, R>(Here<'a>, PhantomData<R>);

impl<'de, R: Keys> Visitor<'de> for KeysOf<'_, R> {
    type Value = Given<R>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("keys with values")
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut map: A) -> Result<Given<R>, A::Error> {
        let mut record = R::default();
        let node = self.0.node;
        let pairs: &[Pair] = match &node.shape {
            Shape::Map(pairs) => pairs,
            _ => &[],
        };
        let mut number = 0;
        let mut before: Option<&str> = None;
        while let Some(key) = map.next_key_seed(Scalar)? {
            let pair = pairs.get(number);
            number += 1;
            let known = R::KEYS.iter().copied().find(|known| *known == key);
            let Some(pair) = pair else {
                // The two readers of the text disagree about its shape.
                return Err(serde::de::Error::custom("its keys cannot be told apart"));
            };
            if !pair.colon {
                map.next_value::<IgnoredAny>()?;
                let (says, help) = match known {
                    Some(known) => {
                        record.spoil(known);
                        slips::without_value(known)
                    }
                    None => slips::after_comma(before, &Clean(&key).to_string()),
                };
                self.0.fault(&pair.key, says, Some(help));
                continue;
            }
            let here = Here {
                piece: self.0.piece,
                name: known.unwrap_or_default(),
                node: &pair.value,
                faults: &mut *self.0.faults,
            };
            if !record.take(&key, here, &mut map)? {
                map.next_value::<IgnoredAny>()?;
                let says = format!("`{}` is not a key that is known here", Clean(&key));
                self.0
                    .fault(&pair.key, says, Some(known_keys(&key, R::KEYS)));
            }
            before = known.or(before);
        }
        Ok(Given::Is(record))
    }
}

/// The nearest key, or all of them.
fn known_keys(key: &str, known: &[&str]) -> String {
    match nearest(key, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("the keys here are {}", known.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::{OneOrMany, Reader, Text, split_log};
    use crate::text::{Step, locate};

    record! {
        struct RawBlock {
            thickness: Text = "thickness",
            wood: Text = "wood",
        }
    }
    record! {
        struct Raw {
            place: Text = "place",
            size: Text = "size",
            per_crossing: Text = "per crossing",
            replaces: OneOrMany = "replaces",
            block: RawBlock = "block",
            note: Text = "note",
        }
    }

    /// What a one-record file gives, and each fault with the words it points at.
    fn told(text: &str) -> (Given<Raw>, Vec<(String, String)>) {
        let mut faults = Vec::new();
        let pieces = split_log(text, &mut faults);
        let raw = read::<Raw>(&pieces[0], &mut faults);
        let told = faults
            .into_iter()
            .map(|fault| {
                let at = locate(text, &fault).expect("in the file");
                (fault.says, text[at].to_owned())
            })
            .collect();
        (raw, told)
    }

    fn raw(text: &str) -> Raw {
        match told(text) {
            (Given::Is(raw), faults) if faults.is_empty() => raw,
            other => panic!("{other:?}"),
        }
    }

    fn text(given: &Given<Text>) -> &str {
        given.as_ref().map_or("", Text::as_str)
    }

    #[test]
    fn a_value_stays_as_it_was_typed() {
        for typed in [
            "1.10",
            "~",
            ".inf",
            "yes",
            "0x1F",
            "1_000",
            "2028-04-01",
            "1/2\"",
        ] {
            assert_eq!(text(&raw(&format!("- {{size: {typed}}}\n")).size), typed);
            assert_eq!(text(&raw(&format!("- size: {typed}\n")).size), typed);
        }
        assert_eq!(
            text(&raw("- {note: A & B * C ! d}\n").note),
            "A & B * C ! d"
        );
        assert_eq!(
            text(&raw("- {note: \"a, b: c \\\" #1\"}\n").note),
            "a, b: c \" #1"
        );
    }

    #[test]
    fn one_text_or_a_list_of_them_and_a_record_inside() {
        let one = raw("- {replaces: built, block: {thickness: 1in, wood: oak}}\r\n");
        assert_eq!(one.replaces.as_ref().unwrap().texts().len(), 1);
        assert_eq!(text(&one.block.as_ref().unwrap().wood), "oak");
        let many = raw("- replaces:\n  - built\n  - \"hood ends\"\n  block:\n    thickness: 1in\n");
        assert_eq!(
            many.replaces.as_ref().unwrap().texts()[1].as_str(),
            "hood ends"
        );
        assert_eq!(text(&many.block.as_ref().unwrap().thickness), "1in");
    }

    #[test]
    fn every_fault_of_shape_is_told_and_the_rest_is_read() {
        let (read, faults) = told(
            "- {plaice: S4, size: [1, 2], size: 3, note: , replaces: [a, {b: c}],\n   block: 4, per crossing: 2, sise: x}\n",
        );
        let Given::Is(read) = read else { panic!() };
        assert_eq!(text(&read.per_crossing), "2");
        assert_eq!((read.size, read.note), (Given::Faulty, Given::Faulty));
        let expected = [
            ("`plaice` is not a key that is known here", "plaice"),
            ("`size` is a list where a text is due", "[1, 2]"),
            ("`size` is given twice", "3"),
            ("`note` is empty", ""),
            (
                "`replaces` has keys of its own where a text is due",
                "{b: c}",
            ),
            (
                "`block` is a text where a record of keys and values is due",
                "4",
            ),
            ("`sise` is not a key that is known here", "sise"),
        ];
        let faults: Vec<_> = faults
            .iter()
            .map(|(a, b)| (a.as_str(), b.as_str()))
            .collect();
        assert_eq!(faults, expected);
    }

    #[test]
    fn usual_slips_have_their_own_words() {
        let only = |text: &str| {
            let (_, faults) = told(text);
            assert_eq!(faults.len(), 1, "{text}: {faults:?}");
            faults.into_iter().next().unwrap_or_default()
        };
        let is = |text: &str, says: &str, at: &str| {
            let (said, pointed) = only(text);
            assert!(
                said.contains(says) && pointed == at,
                "{text}: {said} at {pointed}"
            );
        };
        is(
            "- {note: took out, put back}\n",
            "not part of `note`",
            "put back",
        );
        is(
            "- {place: S4 F14, F16, size: 1in}\n",
            "a comma cannot join places",
            "F16",
        );
        is("- {note: frame: soft}\n", "second colon", ":");
        is("- note: frame: soft\n", "second colon", ":");
        is(
            "- {note: \"head\" came off}\n",
            "after the closing quote",
            "came off",
        );
        is("- {note: 'it is}\n", "never closed", "'");
        is(
            "- {note: it, \n",
            "the `{` that opens here is never closed",
            "{",
        );
        is("- {note: it #2}\n", "never closed", "{");
        is("- {note: it]}\n", "closes nothing", "]");
        is("- {note: @it}\n", "cannot begin with", "@it");
    }

    #[test]
    fn what_the_yaml_reader_refuses_is_told_at_its_place() {
        let (_, faults) = told("- place: S4 F14\n   size: 1in\n");
        assert_eq!(faults.len(), 1);
        let (_, faults) = told("- {note: \"\\q\"}\n");
        assert!(faults[0].0.contains("is no escape"), "{faults:?}");
    }

    #[test]
    fn a_bad_value_is_found_late() {
        let file = "# refasten log 1\n\n- {place: S4 F14, size: \"14 x 2\", note: née,\n   block: {thickness: 7}}\n";
        let mut faults = Vec::new();
        let pieces = split_log(file, &mut faults);
        let Given::Is(raw) = read::<Raw>(&pieces[0], &mut faults) else {
            panic!()
        };
        let mut fields = Reader::new(pieces[0].origin, &mut faults);
        let mut block = fields.inside("block");
        let thickness: Option<crate::units::Length> =
            block.need("thickness", &raw.block.as_ref().unwrap().thickness);
        assert_eq!(thickness, None);
        block.need_text("wood", &Given::Missing);
        fields.fault("size", crate::text::Misread::new("no unit").at(5..6));
        fields.misplaced("place", crate::text::Misread::new("not here"));
        fields.whole(crate::text::Misread::new("never"));
        let at: Vec<_> = faults
            .iter()
            .map(|f| locate(file, f).map(|at| &file[at]))
            .collect();
        let whole = "{place: S4 F14, size: \"14 x 2\", note: née";
        let block = "{thickness: 7}";
        assert_eq!(
            at,
            [
                Some("7"),
                Some(block),
                Some("2"),
                Some("place"),
                Some(whole)
            ]
        );
        assert_eq!(faults[0].path, [Step::Key("block"), Step::Key("thickness")]);
    }
}
