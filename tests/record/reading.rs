//! Whatever is typed, it is read or refused in words; nothing that reads a word panics.

use std::str::FromStr;

use proptest::prelude::*;
use refasten::hull::{Mark, MemberPicks, Places, Runs, Strakes};
use refasten::joint::{Kind, Plug, Size};
use refasten::record::{Did, Found, Strike};
use refasten::tables::GaugeSystem;
use refasten::text::Misread;
use refasten::units::{Area, Day, Length, When};

use super::make;

/// Texts that are nearly something: the words and signs of all of them, in any order.
fn nearly() -> impl Strategy<Value = String> {
    let words = prop::sample::select(vec![
        "P3",
        "PS1-4+7",
        "S3a",
        "D",
        "DPS",
        "F12",
        "F1-9",
        "F3a.2",
        "J14",
        "fwd",
        "aft",
        "K9",
        "B2",
        "stem",
        "horn",
        "timber",
        "transom",
        "all",
        "all.1",
        "and",
        "4",
        "12",
        "65",
        "99999",
        "1/2",
        "3/4in",
        "1-3/4",
        "½",
        "22mm",
        "5ft",
        "3in",
        "\"",
        "'",
        "in2",
        "sq",
        "cm²",
        "x",
        "×",
        "X",
        "British",
        "American",
        "No.",
        "#",
        "SWG",
        "BWG",
        "before",
        "2026",
        "2026-10",
        "2026-10-03",
        "1990s",
        "unknown",
        "none",
        "stopping",
        "broken",
        "struck",
        "-",
        "+",
        ".",
        "/",
        ",",
        ";",
        " ",
        "  ",
        "\t",
        "\u{2003}",
        "\u{a0}",
        "é",
        "٣",
        "０",
        "\u{1f6a2}",
        "\u{301}",
        "",
    ]);
    prop::collection::vec((words, prop::bool::ANY), 0..8).prop_map(|words| {
        words
            .into_iter()
            .map(|(word, gap)| {
                if gap {
                    format!("{word} ")
                } else {
                    word.to_owned()
                }
            })
            .collect()
    })
}

/// Reads the text; where it is refused the words are whole, and the bytes they point at are in it.
fn try_read<T>(text: &str, read: impl Fn(&str) -> Result<T, Misread>) {
    if let Err(misread) = read(text) {
        assert!(
            !misread.says.is_empty() && !misread.says.ends_with('.'),
            "{text:?}: {misread}"
        );
        if let Some(within) = misread.within {
            assert!(
                text.get(within.clone()).is_some(),
                "{text:?}: {} at {within:?}",
                misread.says
            );
        }
    }
}

fn parse<T: FromStr<Err = Misread>>(text: &str) {
    try_read(text, T::from_str);
}

fn read_all(text: &str) {
    parse::<Length>(text);
    parse::<Area>(text);
    parse::<When>(text);
    parse::<Day>(text);
    parse::<Places>(text);
    parse::<MemberPicks>(text);
    parse::<Strakes>(text);
    parse::<Runs>(text);
    parse::<Mark>(text);
    parse::<Plug>(text);
    parse::<Strike>(text);
    parse::<Kind>(text);
    parse::<Did>(text);
    parse::<Found>(text);
    for kind in Kind::ALL {
        for gauges in [
            GaugeSystem::American,
            GaugeSystem::British,
            GaugeSystem::Metric,
        ] {
            try_read(text, |text| Size::read(kind, text, gauges));
        }
    }
}

proptest! {
    #![proptest_config(make::cases(1500))]

    #[test]
    fn no_text_makes_a_reader_panic(text in ".{0,40}") {
        read_all(&text);
    }

    #[test]
    fn nothing_that_is_nearly_right_makes_a_reader_panic(text in nearly()) {
        read_all(&text);
    }
}

#[test]
fn what_is_wrong_with_a_size_is_shown_at_its_place() {
    let wrong = |kind, text: &str| {
        let misread = Size::read(kind, text, GaugeSystem::American).unwrap_err();
        text[misread.within.unwrap()].to_owned()
    };
    assert_eq!(wrong(Kind::Rivet, " é x 2in"), "é");
    assert_eq!(wrong(Kind::WoodScrew, "  25 x 2in"), "25");
    assert_eq!(wrong(Kind::WoodScrew, " 8 SWG x 2in"), "8 SWG");
    assert_eq!(wrong(Kind::Bolt, " 1/3in x 2in"), "1/3");
    assert_eq!(wrong(Kind::Bolt, " 1/4in x 2"), "2");
}

#[test]
fn a_number_is_digits_and_has_no_sign() {
    let refused = |outcome: Result<(), Misread>, text: &str| assert!(outcome.is_err(), "{text}");
    for kind in Kind::ALL {
        let size = Size::read(kind, "+8 x 2in", GaugeSystem::American);
        refused(size.map(drop), "+8 x 2in");
    }
    refused(
        "+4 broken S5 F16".parse::<Strike>().map(drop),
        "+4 broken S5 F16",
    );
    refused("F+22 7".parse::<Mark>().map(drop), "F+22 7");
    refused("F22 +7".parse::<Mark>().map(drop), "F22 +7");
}
