//! Drill sizes.

use refasten::tables::{Drill, GaugeSystem, Screw, Series};
use refasten::units::Length;

fn inch(text: &str) -> Length {
    format!("{text}in").parse().unwrap()
}

fn named(series: Series, name: &str) -> Length {
    let mut all = Drill::all(series).iter();
    all.find(|drill| drill.name == name).unwrap().diameter
}

const ALL: [Series; 4] = [
    Series::Fraction,
    Series::Number,
    Series::Letter,
    Series::Metric,
];

/// Public number and letter drill list, two identical printings.
#[test]
fn drills_have_their_published_sizes() {
    for (name, size) in [
        ("No. 44", ".0860"),
        ("No. 31", ".1200"),
        ("No. 10", ".1935"),
        ("No. 1", ".2280"),
        ("No. 80", ".0135"),
    ] {
        assert_eq!(named(Series::Number, name), inch(size));
    }
    assert_eq!(named(Series::Letter, "A"), inch(".234"));
    assert_eq!(named(Series::Letter, "Z"), inch(".413"));
    assert_eq!(named(Series::Fraction, "1-3/4"), inch("1-3/4"));
    assert_eq!(named(Series::Fraction, "2-7/32"), inch("2-7/32"));
    assert_eq!(named(Series::Metric, "4.3 mm"), "4.3mm".parse().unwrap());
    assert_eq!(named(Series::Metric, "2.95 mm"), "2.95mm".parse().unwrap());
}

/// Same list: 80 number drills and 26 letters; fractions by 64ths to 1-3/4 and by 32nds to 2-1/4;
/// metric by 0.05 to 3.0, by 0.1 to 13.0, by 0.5 to 20. Every series rises.
#[test]
fn every_series_is_whole_and_rises() {
    let count = |series| Drill::all(series).len();
    assert_eq!(ALL.map(count), [112 + 16, 80, 26, 51 + 100 + 14]);
    for series in ALL {
        let drills = Drill::all(series);
        assert!(
            drills.is_sorted_by(|a, b| a.diameter < b.diameter),
            "{series}"
        );
        assert!(drills.iter().all(|drill| drill.series == series));
    }
}

/// A drill number is not a screw gauge: drill No. 14 is .182 (drill list), screw No. 14 .242
/// (gauge rule), neither of them 3/32 or 3/16.
#[test]
fn a_drill_number_is_not_a_gauge() {
    let drill = named(Series::Number, "No. 14");
    let screw = Screw::by_gauge(GaugeSystem::American, 14).unwrap().shank;
    assert_eq!(drill, inch(".1820"));
    assert_eq!(screw, inch(".242"));
    assert_eq!(named(Series::Fraction, "3/32"), inch(".09375"));
    assert_eq!(named(Series::Fraction, "3/16"), inch(".1875"));
}

/// The series touch: No. 1 (.228) is under A (.234), and E is 1/4 in; of two drills of one size
/// the fraction is named.
#[test]
fn of_equal_drills_the_fraction_is_named() {
    assert!(named(Series::Number, "No. 1") < named(Series::Letter, "A"));
    let quarter = inch("1/4");
    for find in [Drill::nearest, Drill::at_least, Drill::at_most] {
        let drill = find(&[Series::Letter, Series::Fraction], quarter).unwrap();
        assert_eq!((drill.name, drill.diameter), ("1/4", quarter));
        assert_eq!(find(&[Series::Letter], quarter).unwrap().name, "E");
    }
}

/// Halfway between two drills the larger is taken.
#[test]
fn of_two_drills_as_near_the_larger_is_taken() {
    let between = Length::from_64ths(1).share(1, 2) + Length::from_64ths(10);
    let drill = |find: fn(&[Series], Length) -> Option<&'static Drill>| {
        find(&[Series::Fraction], between).unwrap().name
    };
    assert_eq!(drill(Drill::nearest), "11/64");
    assert_eq!(drill(Drill::at_least), "11/64");
    assert_eq!(drill(Drill::at_most), "5/32");
    assert!(Drill::at_least(&ALL, inch("3")).is_none());
    assert!(Drill::nearest(&[], inch("1/4")).is_none());
}
