//! Words typed to `pick`, turned into what they mean.

use super::typed::Reading;
use crate::joint::{Timber, no_gauge};
use crate::tables::{GaugeSystem, Screw, Wood};
use crate::text::Misread;
use crate::units::Length;

/// What was typed, unless it says that it is not known.
pub(super) fn known(typed: Option<&String>) -> Option<&String> {
    typed.filter(|typed| !typed.trim().eq_ignore_ascii_case("unknown"))
}

/// A wood by name or by specific gravity, not both.
pub(super) fn timber(
    reading: &mut Reading,
    (wood_option, wood): (&str, Option<&String>),
    (gravity_option, gravity): (&str, Option<&String>),
) -> Option<Timber> {
    let by_name = reading.with(wood_option, wood, Wood::find);
    let by_gravity = reading.with(gravity_option, gravity, specific_gravity);
    if wood.is_some() && gravity.is_some() {
        reading.slip(
            gravity_option,
            Misread::new(format!("given beside {wood_option}"))
                .help("name the wood or give its specific gravity, one of the two"),
        );
    }
    by_name
        .map(Timber::Wood)
        .or(by_gravity.map(Timber::Gravity))
}

fn specific_gravity(typed: &str) -> Result<f64, Misread> {
    let plain = typed.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    typed.parse().ok().filter(|_| plain).ok_or_else(|| {
        Misread::new(format!("`{typed}` is not a specific gravity"))
            .help("write it as a decimal: 0.5")
    })
}

/// A screw by its gauge, or among metric screws by its shank.
pub(super) fn screw(system: GaugeSystem, typed: &str) -> Result<&'static Screw, Misread> {
    if system == GaugeSystem::Metric {
        let shank: Length = typed.parse()?;
        return Screw::metric(shank).ok_or_else(|| {
            let made: Vec<_> = Screw::all(system).iter().map(Screw::name).collect();
            Misread::new(format!("there is no wood screw of {typed}"))
                .help(format!("they come in {}", made.join(", ")))
        });
    }
    let number = typed
        .trim()
        .trim_start_matches(['#', 'N', 'n', 'O', 'o', '.', ' ']);
    let gauge: u8 = number.parse().map_err(|_| {
        Misread::new(format!("`{typed}` is not a gauge")).help("give its number: 14")
    })?;
    Screw::by_gauge(system, gauge).ok_or_else(|| no_gauge(system, gauge))
}

/// The diameter of a bung; words for having none are answered with how to say it here.
pub(super) fn bung(typed: &str) -> Result<Length, Misread> {
    match typed.trim().to_ascii_lowercase().as_str() {
        "none" | "stopping" => Err(Misread::new(format!("`{}` is no diameter", typed.trim())).help(
            "for a flush head give --bung-depth 0in; planking under 5/8 in gets stopping by itself",
        )),
        _ => typed.parse(),
    }
}

/// How many go into a crossing.
pub(super) fn per_crossing(typed: &str) -> Result<u8, Misread> {
    let count = typed.trim().parse().ok();
    count
        .filter(|count| (1..=16).contains(count))
        .ok_or_else(|| Misread::new(format!("`{typed}` is not a count")).help("from 1 to 16"))
}
