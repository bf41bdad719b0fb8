//! A test that the outline of a record and the YAML reader see the same shape in it.

use std::fmt;

use proptest::prelude::*;
use serde::de::{DeserializeSeed, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};

use super::guard::guard;
use super::split_log;
use crate::text::outline::{Node, Shape};

/// The shape the YAML reader sees: maps, lists and texts, in one string.
struct Seen<'s>(&'s mut String);

impl<'de> DeserializeSeed<'de> for Seen<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        from.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Seen<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("anything")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        self.0.push('[');
        while list.next_element_seed(Seen(self.0))?.is_some() {}
        self.0.push(']');
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        self.0.push('{');
        while map.next_key::<IgnoredAny>()?.is_some() {
            self.0.push(':');
            map.next_value_seed(Seen(self.0))?;
        }
        self.0.push('}');
        Ok(())
    }

    fn visit_unit<E>(self) -> Result<(), E> {
        self.0.push('s');
        Ok(())
    }

    fn visit_str<E: serde::de::Error>(self, _: &str) -> Result<(), E> {
        self.visit_unit()
    }

    fn visit_bool<E: serde::de::Error>(self, _: bool) -> Result<(), E> {
        self.visit_unit()
    }

    fn visit_u64<E: serde::de::Error>(self, _: u64) -> Result<(), E> {
        self.visit_unit()
    }

    fn visit_i64<E: serde::de::Error>(self, _: i64) -> Result<(), E> {
        self.visit_unit()
    }

    fn visit_f64<E: serde::de::Error>(self, _: f64) -> Result<(), E> {
        self.visit_unit()
    }
}

fn shape(node: &Node, out: &mut String) {
    match &node.shape {
        Shape::Map(pairs) => {
            out.push('{');
            for pair in pairs {
                out.push(':');
                shape(&pair.value, out);
            }
            out.push('}');
        }
        Shape::List(items) => {
            out.push('[');
            items.iter().for_each(|item| shape(item, out));
            out.push(']');
        }
        _ => out.push('s'),
    }
}

const WORDS: [&str; 36] = [
    "{",
    "}",
    "[",
    "]",
    ", ",
    ",",
    ": ",
    ":",
    "- ",
    "-",
    "a",
    "b c",
    "'",
    "\"",
    "'x'",
    "\"y, z\"",
    "\n",
    "\n  ",
    "\n    ",
    " ",
    " #",
    "?",
    "1.0",
    "&",
    "k: ",
    "{a: b, c: [d]}",
    "\n- ",
    "\n  k: ",
    "...",
    "<<",
    "\t",
    "\n\n",
    "k: a",
    "{k: ",
    "[a, ",
    "\r\n  ",
];

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 4000,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn both_readers_see_one_shape(
        words in prop::collection::vec(prop::sample::select(&WORDS[..]), 0..14),
    ) {
        let text = format!("- {}\n", words.concat());
        let mut faults = Vec::new();
        for piece in split_log(&text, &mut faults) {
            let Some(root) = guard(&piece, &mut faults) else { continue };
            let (mut ours, mut theirs) = (String::new(), String::new());
            shape(&root, &mut ours);
            let from = serde_yaml::Deserializer::from_str(piece.text);
            if Seen(&mut theirs).deserialize(from).is_ok() {
                prop_assert_eq!(ours, theirs, "{:?}", piece.text);
            }
        }
    }
}
