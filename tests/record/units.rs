//! Lengths and dates are read as they were written, and read back as they are printed.

use proptest::prelude::*;
use refasten::units::{Day, Length, Units, When};

use super::make;

/// 1/64 in is exactly 396,875 nm: an inch is 25.4 mm by definition.
const NM_PER_64TH: i64 = 396_875;

fn read(text: &str) -> Result<Length, TestCaseError> {
    text.parse()
        .map_err(|misread| TestCaseError::fail(format!("{text}: {misread}")))
}

proptest! {
    #![proptest_config(make::cases(2000))]

    #[test]
    fn every_length_is_read_back_as_it_is_written(length in make::length()) {
        prop_assert_eq!(read(&length.to_string())?, length);
        for units in [Units::Inch, Units::Metric] {
            prop_assert_eq!(read(&length.written(units))?, length);
        }
    }

    #[test]
    fn every_way_to_write_a_fraction_of_an_inch_is_the_same_length(
        feet in 0i64..200,
        whole in 0i64..12,
        (above, below) in prop::sample::select(vec![2i64, 4, 8, 16, 32, 64])
            .prop_flat_map(|below| (0..below, Just(below))),
    ) {
        let exact = Length::from_nm(((feet * 12 + whole) * 64 + above * 64 / below) * NM_PER_64TH);
        let inches = feet * 12 + whole;
        let mut ways = vec![
            format!("{inches}-{above}/{below}in"),
            format!("{inches} {above}/{below} in"),
            format!("{inches} {above}\u{2044}{below}\u{2033}"),
            format!("{feet}ft {whole}-{above}/{below}in"),
            format!("{feet}' {whole} {above}/{below}\""),
            format!("{feet}\u{2032}{whole}-{above}/{below}\u{2033}"),
            // 1/64 of an inch is 0.015625 in.
            format!("{}.{:06} in", inches, above * 64 / below * 15_625),
            format!("{}.{:06}mm", exact.nm() / 1_000_000, exact.nm() % 1_000_000),
            format!("{}.{:07}cm", exact.nm() / 10_000_000, exact.nm() % 10_000_000),
        ];
        if inches == 0 {
            ways.push(format!("{above}/{below}in"));
        }
        let sign = [('½', 1, 2), ('¼', 1, 4), ('¾', 3, 4), ('⅛', 1, 8), ('⅜', 3, 8), ('⅝', 5, 8), ('⅞', 7, 8)]
            .into_iter()
            .find(|(_, a, b)| a * below == above * b);
        if let Some((sign, ..)) = sign {
            ways.push(format!("{inches}{sign}in"));
            ways.push(format!("{inches}-{sign} in"));
            ways.push(format!("{feet}ft {whole} {sign}\""));
        }
        for way in ways {
            prop_assert_eq!(read(&way)?, exact, "{}", way);
        }
    }

    #[test]
    fn every_date_is_read_back_as_it_is_printed(when in make::when()) {
        prop_assert_eq!(when.to_string().parse::<When>().ok(), Some(when));
        if let (Some(earliest), Some(latest)) = (when.earliest(), when.latest()) {
            prop_assert!(earliest <= latest);
        }
    }

    #[test]
    fn the_days_of_a_date_are_the_days_it_contains(day in make::day()) {
        let text = day.to_string();
        prop_assert_eq!(text.parse::<Day>().ok(), Some(day));
        for length in [4, 7, 10] {
            let when: When = text[..length].parse().unwrap();
            prop_assert!(when.earliest().unwrap() <= day && day <= when.latest().unwrap());
            let before: When = format!("before {}", &text[..length]).parse().unwrap();
            prop_assert_eq!(before.latest(), when.earliest().map(Day::eve));
        }
        let decade: When = format!("{}0s", &text[..3]).parse().unwrap();
        prop_assert!(decade.earliest().unwrap() <= day && day <= decade.latest().unwrap());
    }
}

#[test]
fn a_length_finer_than_a_nanometre_is_rounded_half_to_even_whatever_the_unit() {
    for (text, nm) in [
        ("0.0000005mm", 0),
        ("0.0000015mm", 2),
        ("0.00000025cm", 2),
        ("0.00000035cm", 4),
        ("0.0000000025m", 2),
    ] {
        assert_eq!(text.parse::<Length>().unwrap().nm(), nm, "{text}");
    }
}
