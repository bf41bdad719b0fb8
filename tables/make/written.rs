//! A row as it is written: any keys, every value kept as its text.

use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, Visitor};

/// Key and text of every cell of a row, in the order written, and the cells that stand on another
/// ground than their column.
#[derive(Default)]
pub struct Written {
    pub cells: Vec<(String, String)>,
    pub except: Vec<(String, String)>,
}

impl<'de> Deserialize<'de> for Written {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_map(WrittenVisitor)
    }
}

struct WrittenVisitor;

impl<'de> Visitor<'de> for WrittenVisitor {
    type Value = Written;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a row like {gauge: 14, shank: .242}")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Written, A::Error> {
        let mut written = Written::default();
        while let Some(key) = map.next_key::<String>()? {
            if key == "except" {
                written.except = map.next_value::<Written>()?.cells;
            } else if written.cells.iter().any(|(k, _)| *k == key) {
                return Err(A::Error::custom(format!("`{key}` is given twice")));
            } else {
                written.cells.push((key, map.next_value()?));
            }
        }
        Ok(written)
    }
}
