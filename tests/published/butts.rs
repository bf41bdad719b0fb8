//! How far apart butts are kept, against the published practices.

use refasten::tables::{ButtRule, Limit, Quantity};
use refasten::units::Length;

fn length(text: &str) -> Length {
    text.parse().unwrap()
}

/// US Army TB 55-1900-201-45/1, 2-13 (read; the 4 ft of one strake between from memory), the Great
/// Lakes rules of 1866 (read), Lloyd's Rules for Yachts 1979 (memory, about 1.2 m).
#[test]
fn practices_of_butts() {
    let rows = [
        ("army bulletin", Some(3), "5ft", Some("4ft")),
        ("Great Lakes 1866", None, "5ft", Some("4ft")),
        ("Lloyd's yachts", None, "1.2m", None),
    ];
    for (name, spaces, apart, one_between) in rows {
        let rule = ButtRule::find(name).unwrap();
        assert_eq!(rule.spaces, spaces, "{name}");
        let off = (rule.apart - length(apart)).mm().abs();
        assert!(off < 0.5, "{name}: {off} mm off");
        assert_eq!(rule.one_between, one_between.map(length), "{name}");
        assert_eq!(rule.strakes, 3, "{name}");
    }
}

/// The limits that a user may change begin as the practice that holds unless another is chosen.
#[test]
fn the_limits_are_those_of_the_first_practice() {
    let rule = ButtRule::default();
    let limit = |name| Limit::find(name).unwrap().is;
    let spaces = limit("butts in neighbouring strakes");
    assert_eq!(Some(spaces), rule.spaces.map(Quantity::Count));
    let strakes = limit("strakes between butts");
    assert_eq!(strakes, Quantity::Count(rule.strakes));
    let apart = limit("butts on unusual frames");
    assert_eq!(apart, Quantity::Length(rule.apart));
}
