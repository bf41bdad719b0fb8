//! Files that no owner would write.

use proptest::prelude::*;
use refasten::files::{Body, Given, OneOrMany, Text, decode, mend, read, split_hull, split_log};
use refasten::text::{Fault, FileId, Texts, draw, spot};

refasten::record! {
    struct Inner {
        a: Text = "a",
    }
}

refasten::record! {
    struct Outer {
        a: Text = "a",
        k: OneOrMany = "k",
        b: Inner = "b",
    }
}

/// Reads the bytes as a log and as a hull file, draws the faults of both, and gives them.
fn faults_of(bytes: &[u8]) -> Vec<Fault> {
    let mut all = Vec::new();
    for file in [FileId::Log, FileId::Hull] {
        let mut faults = Vec::new();
        let decoded = decode(file, bytes.to_vec(), &mut faults);
        assert_eq!(decoded.sound, faults.is_empty());
        if decoded.sound {
            read_all(file, &decoded.text, &mut faults);
        }
        let texts = Texts::default().with(file, "file.yaml", &decoded.text);
        let mut drawn = Vec::new();
        draw(&mut drawn, &faults, &texts, 80, false).expect("a vector takes everything");
        for fault in faults.iter().take(100) {
            let spot = spot(fault, &texts).expect("every fault is in the file");
            assert!(spot.line >= 1 && spot.column >= 1 && spot.end >= spot.column);
        }
        all.extend(faults);
    }
    if let Some(mended) = mend(bytes) {
        assert_eq!(mend(&mended.bytes), None, "mended once, it ends well");
    }
    all
}

fn read_all(file: FileId, text: &str, faults: &mut Vec<Fault>) {
    if file == FileId::Log {
        for piece in split_log(text, faults) {
            let _: Given<Outer> = read(&piece, faults);
        }
        return;
    }
    for part in split_hull(text, faults) {
        match part.body {
            Body::Value(piece) => drop::<Given<Outer>>(read(&piece, faults)),
            Body::Items(pieces) => {
                for piece in pieces {
                    let _: Given<Text> = read(&piece, faults);
                }
            }
            Body::Empty | Body::Faulty => {}
        }
    }
}

#[test]
fn an_alias_bomb_is_refused_before_it_is_read() {
    let mut bomb = String::from("- {a: &a [x, x, x, x, x, x, x, x, x]}\n");
    for level in 1..30 {
        let copies = vec![format!("*a{}", level - 1); 9].join(", ");
        bomb.push_str(&format!("- {{a: &a{level} [{copies}]}}\n"));
    }
    let faults = faults_of(bomb.as_bytes());
    assert!(faults.iter().any(|fault| fault.says.contains("`&a`")));
    assert!(faults.iter().any(|fault| fault.says.contains("`*a1`")));
}

#[test]
fn nesting_without_end_is_refused_before_it_is_read() {
    for (open, close) in [
        ("{a: ", "}"),
        ("[", "]"),
        ("- ", ""),
        ("{", "}"),
        ("? ", ""),
        ("a:\n ", ""),
    ] {
        for count in [1000, 100_000] {
            let nested = format!("- {}{}\n", open.repeat(count), close.repeat(count));
            assert!(
                !faults_of(nested.as_bytes()).is_empty(),
                "{count} of {open:?}"
            );
            let nested = format!("a: {}\n", open.repeat(count));
            assert!(
                !faults_of(nested.as_bytes()).is_empty(),
                "{count} of {open:?}"
            );
        }
    }
}

#[test]
fn ten_megabytes_of_anything_give_faults_and_not_too_many() {
    for word in [
        "a",
        "- ",
        "{",
        "\"",
        "a:\n",
        "- x\n",
        "k: b\n",
        "- {a: 1, \n",
        "\0",
        "\r",
        "\u{feff}",
    ] {
        let count = 10 * 1024 * 1024 / word.len();
        let faults = faults_of(word.repeat(count).as_bytes());
        assert!(!faults.is_empty(), "{word:?}");
        assert!(faults.len() < 3000, "{word:?}: {}", faults.len());
    }
}

#[test]
fn bytes_that_are_no_text_are_refused() {
    let noise: Vec<u8> = (0..1_000_000_u32)
        .map(|n| (n.wrapping_mul(2_654_435_761) >> 24) as u8)
        .collect();
    assert!(!faults_of(&noise).is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 1000,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn no_text_makes_the_readers_panic(text in "[-{}\\[\\],:#&*!|>'\"%@`?<= abk\n\r\t\u{e9}\u{85}]{0,120}") {
        faults_of(text.as_bytes());
    }

    #[test]
    fn no_bytes_make_the_readers_panic(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        faults_of(&bytes);
    }

    #[test]
    fn a_log_cut_off_anywhere_is_mended_without_loss(at in 0usize..400) {
        let log = "# refasten log 1\n- {a: 1, k: [x, y]}\n- {a: \"née, 日本\", b: {a: 2}}\n- a: 3\n  k:\n    - x\n- {a: 4,\n   k: z}\n";
        let cut = &log.as_bytes()[..at.min(log.len())];
        let whole = |bytes: &[u8]| bytes.split(|byte| *byte == b'\n').count();
        match mend(cut) {
            None => prop_assert!(cut.is_empty() || cut.ends_with(b"\n")),
            Some(mended) => {
                prop_assert_eq!(whole(&mended.bytes), whole(cut) + 1);
                if mended.torn.is_some_and(|torn| torn.keeps_entry()) {
                    prop_assert!(mended.bytes.starts_with(cut));
                }
                // An entry that was written whole over several lines may have lost its last ones;
                // nothing else may be wrong with what is left.
                prop_assert_eq!(faults_of_log(&mended.bytes), Vec::new());
            }
        }
    }
}

fn faults_of_log(bytes: &[u8]) -> Vec<Fault> {
    let mut faults = Vec::new();
    let decoded = decode(FileId::Log, bytes.to_vec(), &mut faults);
    for piece in split_log(&decoded.text, &mut faults) {
        let _: Given<Outer> = read(&piece, &mut faults);
    }
    faults
}
