//! The yardstick: the same entries as lines of JSON, read by `serde_json` into the same record.

use refasten::files::{Given, RawEntry, Text};
use serde::{Deserialize, Serialize};

macro_rules! as_json {
    ($($field:ident),+ $(,)?) => {
        /// One entry as JSON has it.
        #[derive(Deserialize, Serialize, Default)]
        struct Json {
            $(#[serde(default, skip_serializing_if = "Option::is_none")] $field: Option<String>,)+
        }

        impl From<Json> for RawEntry {
            fn from(json: Json) -> Self {
                Self { $($field: given(json.$field),)+ }
            }
        }

        impl From<&RawEntry> for Json {
            fn from(raw: &RawEntry) -> Self {
                Self { $($field: raw.$field.as_ref().map(|text| text.as_str().to_owned()),)+ }
            }
        }
    };
}

as_json!(
    entry,
    date,
    did,
    place,
    set,
    count,
    found,
    stub,
    sample,
    diameter,
    per_crossing,
    kind,
    metal,
    size,
    bung,
    hole,
    temporary,
    thickness,
    wood,
    joints,
    off,
    siding,
    moulding,
    strikes,
    why,
    by,
    note,
    photo,
    plan,
    written,
    from,
);

fn given(text: Option<String>) -> Given<Text> {
    text.map_or(Given::Missing, |text| Given::Is(Text::new(text)))
}

/// Entries as lines of JSON.
pub fn lines(entries: &[RawEntry]) -> String {
    let lines = entries
        .iter()
        .map(|raw| serde_json::to_string(&Json::from(raw)).expect("texts can be written") + "\n");
    lines.collect()
}

/// Reads lines of JSON into entries.
pub fn read(lines: &str) -> Vec<RawEntry> {
    let entries = lines.lines().map(|line| {
        let json: Json = serde_json::from_str(line).expect("it was just written");
        RawEntry::from(json)
    });
    entries.collect()
}
