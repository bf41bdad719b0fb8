//! The quick reader of a record in the one form the program writes: `- {key: value, key: "text"}`
//! on one line, each key known and given once. Anything else it leaves to the YAML reader; what it
//! takes, that one reads the same, and the guard has nothing to say of it.

use super::decode::hidden;
use super::{Keys, Text, guard};

/// Reads the text of a record, or leaves it to the YAML reader.
pub fn of_line<R: Keys>(text: &str) -> Option<R> {
    if text.len() > guard::LONGEST {
        return None;
    }
    let text = text.strip_suffix('\n').unwrap_or(text);
    let text = text.strip_suffix('\r').unwrap_or(text);
    let mut rest = text.strip_prefix("- {")?.strip_suffix('}')?;
    let mut record = R::default();
    loop {
        let colon = rest.bytes().position(|byte| byte == b':')?;
        let (key, value) = rest.split_at(colon);
        let (text, after) = value_at(value.strip_prefix(": ")?)?;
        record.put(key, text)?;
        match after {
            "" => return Some(record),
            more => rest = more.strip_prefix(", ")?,
        }
    }
}

/// The value at the start of a text, and what follows it.
fn value_at(text: &str) -> Option<(Text, &str)> {
    match text.strip_prefix('"') {
        Some(quoted) => quoted_at(quoted),
        None => plain_at(text),
    }
}

/// A value without quotes, of letters and figures and the few signs that sizes and places have.
fn plain_at(text: &str) -> Option<(Text, &str)> {
    let bytes = text.as_bytes();
    let is_plain = |byte: &u8| {
        byte.is_ascii_alphanumeric() || matches!(byte, b' ' | b'.' | b'-' | b'+' | b'/')
    };
    let end = bytes
        .iter()
        .position(|byte| !is_plain(byte))
        .unwrap_or(bytes.len());
    let (value, after) = text.split_at(end);
    let begins = bytes.first()?.is_ascii_alphanumeric();
    (begins && !value.ends_with(' ')).then(|| (Text::new(value), after))
}

/// A value between double quotes, the first of them taken.
fn quoted_at(text: &str) -> Option<(Text, &str)> {
    let mut value = String::new();
    let mut rest = text;
    loop {
        let end = rest.bytes().position(|byte| matches!(byte, b'"' | b'\\'))?;
        let (words, more) = rest.split_at(end);
        if !words.bytes().all(|byte| matches!(byte, b' '..=b'~')) && !words.chars().all(is_text) {
            return None;
        }
        value.push_str(words);
        let Some(escaped) = more.strip_prefix('\\') else {
            rest = more.get(1..)?;
            break;
        };
        value.push(match escaped.bytes().next()? {
            b'"' => '"',
            b'\\' => '\\',
            _ => return None,
        });
        rest = escaped.get(1..)?;
    }
    (!value.trim().is_empty()).then(|| (Text::new(value), rest))
}

/// Characters that stand for themselves between quotes.
fn is_text(c: char) -> bool {
    !c.is_control() && !hidden(c)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::files::record::slowly;
    use crate::files::{Given, Piece, RawEntry};

    /// What the YAML reader and the guard make of a record, where they find no fault.
    fn by_yaml(text: &str) -> Option<RawEntry> {
        let piece = Piece::of_log(text);
        let mut faults = Vec::new();
        match slowly(&piece, &mut faults) {
            Given::Is(raw) if faults.is_empty() => Some(raw),
            _ => None,
        }
    }

    #[test]
    fn what_the_program_writes_is_read_quickly() {
        let log = include_str!("../../demo/log.yaml");
        for line in log.lines().skip(1) {
            let quick = of_line::<RawEntry>(line);
            assert!(quick.is_some() && quick == by_yaml(line), "{line}");
        }
    }

    #[test]
    fn any_other_form_is_left_to_the_yaml_reader() {
        for text in [
            "- entry: 1\n",
            "-  {entry: 1}\n",
            "- {entry: 1 }\n",
            "- {entry:  1}\n",
            "- {entry: 1,date: 2024-10-03}\n",
            "- {entry: 1} # told\n",
            "- {entry: 1,\n   did: bared}\n",
            "- {entry: 1, entry: 2}\n",
            "- {entry: }\n",
            "- {note: \"\"}\n",
            "- {note: \" \"}\n",
            "- {note: 'it'}\n",
            "- {note: \"a\\tb\"}\n",
            "- {note: \"a\tb\"}\n",
            "- {note: \"a\u{85}b\"}\n",
            "- {note: \"a\u{2028}b\"}\n",
            "- {note: a:b}\n",
            "- {note: it #2}\n",
            "- {note: -}\n",
            "- {note: ~}\n",
            "- {plaice: S4 F14}\n",
            "- {}\n",
            "- {entry: 1}\n\n",
        ] {
            assert_eq!(of_line::<RawEntry>(text), None, "{text}");
        }
    }

    /// Words that are something else to YAML than they look, or nearly end a value.
    fn value() -> impl Strategy<Value = String> {
        let plain = prop::sample::select(vec![
            "1",
            "0x1F",
            "1_000",
            "1e5",
            "yes",
            "null",
            "Null",
            "true",
            "2024-10-03",
            "S4 F14.1",
            "12:30:45",
            "1-3/4in",
            "14 x 2in",
            "a  b",
            "=",
            "<<",
            "a -b",
            "a- b",
            "- a",
            "a ",
            "~",
            ".inf",
            "a#b",
            "a #b",
            "&a",
            "*a",
            "!a",
            "?a",
            "a?",
            "a, b",
            "[a]",
            "{a}",
            "",
            "née",
        ]);
        let quoted = "[ -~a-c\"\\\\\\n\\tné–\u{85}\u{a0}\u{2028}\u{1F6A2}]{0,12}";
        prop_oneof![
            3 => plain.prop_map(str::to_owned),
            3 => "[A-Za-z0-9 ./+-]{1,10}",
            2 => quoted.prop_map(|words| format!("\"{words}\"")),
            2 => quoted.prop_map(|words| crate::files::log_line::quote(&words)),
            1 => "'[ -~]{0,6}'",
        ]
    }

    /// A record in about the form the program writes, and now and then a sign put in or out.
    fn record() -> impl Strategy<Value = String> {
        let key = prop::sample::select(vec![
            "entry",
            "date",
            "did",
            "place",
            "set",
            "note",
            "by",
            "per crossing",
            "size",
            "plaice",
            "\"note\"",
            "Note",
        ]);
        let pair = (key, prop_oneof![9 => Just(": "), 1 => Just(":")], value());
        let pairs = prop::collection::vec(pair, 1..6);
        let between = prop_oneof![9 => Just(", "), 1 => Just(",")];
        let end = prop::sample::select(vec![
            "}", "}\n", "}\n", "}\r\n", "}\r", " }\n", "} \n", "} #\n",
        ]);
        let slip = prop::option::weighted(0.2, (any::<prop::sample::Index>(), "[ -~\n\r\t]"));
        (pairs, between, end, slip).prop_map(|(pairs, between, end, slip)| {
            let pairs: Vec<String> = pairs
                .into_iter()
                .map(|(key, colon, value)| format!("{key}{colon}{value}"))
                .collect();
            let mut text = format!("- {{{}{end}", pairs.join(between));
            if let Some((at, sign)) = slip {
                let starts: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
                text.insert_str(*at.get(&starts), &sign);
            }
            text
        })
    }

    /// Thousands each time; millions by hand, with `PROPTEST_CASES=200000`.
    fn config() -> ProptestConfig {
        let config = ProptestConfig::default();
        ProptestConfig {
            cases: config.cases.saturating_mul(16),
            failure_persistence: None,
            ..config
        }
    }

    proptest! {
        #![proptest_config(config())]

        #[test]
        fn what_it_takes_the_yaml_reader_reads_the_same(text in record()) {
            if let Some(quick) = of_line::<RawEntry>(&text) {
                prop_assert_eq!(by_yaml(&text), Some(quick), "{}", text);
            }
        }
    }
}
