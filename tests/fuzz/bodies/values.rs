//! Values that are typed: what is read is written, and read back the same.

use std::fmt::{Debug, Display};
use std::str::FromStr;
use std::sync::LazyLock;

use refasten::hull::{CrossingId, Hull, Places, Spot, fold};
use refasten::joint::{Kind, Plug, Size};
use refasten::tables::GaugeSystem;
use refasten::text::{Misread, guard, unguard};
use refasten::units::{Area, Day, Length, Season, Units, When};

use super::boat::demo;

const UNITS: [Units; 2] = [Units::Inch, Units::Metric];
const GAUGES: [GaugeSystem; 3] = [
    GaugeSystem::American,
    GaugeSystem::British,
    GaugeSystem::Metric,
];

/// A text read; what is told of one that cannot be points at whole letters of it.
fn read<T>(text: &str, value: Result<T, Misread>) -> Option<T> {
    match value {
        Ok(value) => Some(value),
        Err(misread) => {
            assert!(!misread.says.is_empty() && !misread.says.ends_with('.'));
            if let Some(within) = misread.within {
                assert!(text.get(within.clone()).is_some(), "{within:?} of {text:?}");
            }
            None
        }
    }
}

/// A value that is printed as it is read.
fn there_and_back<T>(text: &str)
where
    T: FromStr<Err = Misread> + Display + PartialEq + Debug,
{
    if let Some(value) = read(text, text.parse::<T>()) {
        let printed = value.to_string();
        assert_eq!(printed.parse::<T>().as_ref(), Ok(&value), "{printed}");
    }
}

/// Lengths, areas, sizes of every kind and bungs; and any text as a cell of a spreadsheet.
pub fn lengths(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    there_and_back::<Length>(text);
    if let Some(area) = read(text, text.parse::<Area>()) {
        assert!(area.mm2().is_finite() && area.mm2() >= 0.0);
    }
    if let Ok(length) = text.parse::<Length>() {
        assert!((Length::ZERO..=Length::LONGEST).contains(&length));
        for units in UNITS {
            assert_eq!(length.written(units).parse(), Ok(length));
            // What is shown is rounded, and yet a length not far from it.
            let shown = length.shown(units);
            if length < Length::LONGEST {
                let near = shown.parse::<Length>().expect("a length");
                assert!((near - length).nm().abs() <= 50_000, "{shown} of {length}");
            }
        }
    }
    if let Some(plug) = read(text, text.parse::<Plug>()) {
        for units in UNITS {
            assert_eq!(plug.written(units).parse(), Ok(plug));
        }
    }
    for kind in Kind::ALL {
        for gauges in GAUGES {
            let Some(size) = read(text, Size::read(kind, text, gauges)) else {
                continue;
            };
            for units in UNITS {
                let written = size.written(gauges, units);
                assert_eq!(Size::read(kind, &written, gauges), Ok(size), "{written}");
            }
        }
    }
    let cell = guard(text);
    assert_eq!(unguard(&cell), text, "{cell}");
    let first = cell.trim_start().chars().next();
    assert!(!matches!(first, Some('=' | '+' | '-' | '@')), "{cell}");
}

/// Dates, days and seasons.
pub fn dates(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    there_and_back::<Day>(text);
    there_and_back::<When>(text);
    there_and_back::<Season>(text);
    if let Ok(when) = text.parse::<When>()
        && let (Some(earliest), Some(latest)) = (when.earliest(), when.latest())
    {
        assert!(earliest <= latest, "{when}");
    }
    if let Ok(day) = text.parse::<Day>() {
        let season = Season::of(day);
        assert!(season.first() <= day && day <= season.last(), "{season}");
        assert!(day.eve() <= day);
    }
}

/// Places: as they are written, and what they are on the demo's hull, folded and unfolded again.
pub fn places(bytes: &[u8]) {
    static HULL: LazyLock<Hull> = LazyLock::new(|| demo().hull);
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    let Some(places) = read(text, text.parse::<Places>()) else {
        return;
    };
    let printed = places.to_string();
    assert_eq!(printed.parse(), Ok(places.clone()), "{printed}");
    let Some(spots) = read(text, HULL.resolve(&places)) else {
        return;
    };
    let crossings = |spots: &[Spot]| -> Vec<CrossingId> {
        let mut ids: Vec<_> = spots.iter().map(|spot| spot.crossing).collect();
        ids.sort_unstable();
        ids.dedup();
        ids
    };
    let named = crossings(&spots);
    let folded = fold(&HULL, named.iter().copied());
    let again: Places = folded.to_string().parse().expect("folded places are read");
    assert_eq!(again, folded);
    assert_eq!(
        HULL.resolve(&again).map(|spots| crossings(&spots)),
        Ok(named)
    );
}
