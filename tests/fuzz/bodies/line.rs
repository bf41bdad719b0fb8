//! The quick reader of one line beside the YAML reader.

use std::collections::BTreeMap;

use refasten::files::{
    Given, Keys, OneOrMany, Piece, RawEntry, RawPlan, Slot, Text, Wrap, of_line, read,
};
use refasten::text::{FileId, Origin};

refasten::record! {
    struct Words {
        number: Text = "number",
        place: Text = "place",
        per_crossing: Text = "per crossing",
        note: Text = "note",
        replaces: OneOrMany = "replaces",
    }
}

/// What the quick reader takes, the YAML reader and the guard before it read the same.
pub fn line(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    same::<RawEntry>(text);
    same::<RawPlan>(text);
    same::<Words>(text);
}

fn same<R: Keys + Slot + PartialEq + std::fmt::Debug>(text: &str) {
    let Some(quick) = of_line::<R>(text) else {
        return;
    };
    // A second space is nothing to YAML, and the quick reader leaves it alone.
    let slow = text.replacen("- {", "-  {", 1);
    assert!(of_line::<R>(&slow).is_none(), "{slow}");
    let piece = Piece {
        origin: Origin {
            file: FileId::Log,
            byte: 0,
            line: 1,
        },
        text: &slow,
        wrap: Wrap::Dash,
    };
    let mut faults = Vec::new();
    match read::<R>(&piece, &mut faults) {
        Given::Is(read) => assert_eq!(read, quick, "{text}"),
        other => panic!("{other:?} of {text}: {faults:?}"),
    }
    assert!(faults.is_empty(), "{faults:?}");
    // The YAML library alone, with nothing of ours before it, sees one map of texts.
    let list: Vec<BTreeMap<String, String>> = serde_yaml::from_str(text).expect("it is YAML");
    assert!(list.len() == 1 && list[0].keys().all(|key| R::KEYS.contains(&key.as_str())));
}
