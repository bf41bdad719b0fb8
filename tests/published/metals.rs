//! The galvanic series: flowing sea water, ranges against the saturated calomel electrode
//! (Australasian Corrosion Association).

use refasten::audit::Rule;
use refasten::tables::{Family, Metal, Range, Table};

use super::cells::near;

fn metal(name: &str) -> &'static Metal {
    Metal::find(name).unwrap_or_else(|e| panic!("{e}"))
}

fn range(name: &str) -> Range {
    metal(name).potential.unwrap()
}

/// Difference of midpoints, and the largest difference of the ranges.
fn pair(active: Range, noble: Range) -> (f64, f64) {
    let mid = (noble.midpoint() - active.midpoint()).volts();
    (mid, (noble.noble - active.active).volts())
}

/// Pairs derived from the series; the eaten metal is named first.
#[test]
fn differences_of_pairs() {
    let (mid, worst) = pair(range("steel"), range("silicon bronze"));
    near("silicon bronze and steel", mid, 0.390, 1e-9);
    near("silicon bronze and steel", worst, 0.47, 1e-9);
    let (mid, worst) = pair(range("wrought iron"), range("silicon bronze"));
    near("silicon bronze and iron", mid, 0.390, 1e-9);
    near("silicon bronze and iron", worst, 0.47, 1e-9);
    let (mid, worst) = pair(range("silicon bronze"), range("Monel"));
    near("silicon bronze and Monel", mid, 0.185, 1e-9);
    near("silicon bronze and Monel", worst, 0.26, 1e-9);
    let screw = metal("316");
    let (mid, worst) = pair(screw.potential.unwrap(), screw.passive.unwrap());
    near("316 in one screw", mid, 0.345, 1e-9);
    near("316 in one screw", worst, 0.46, 1e-9);
    // Against other series: steel eaten beside lead by 0.39 to 0.44 V, 316 active beside Monel by
    // about 0.31 V. MIL-STD-889B ranks both the other way.
    near(
        "lead and steel",
        pair(range("steel"), range("lead")).0,
        0.44,
        1e-9,
    );
    near(
        "316 and Monel",
        pair(range("316"), range("Monel")).0,
        0.31,
        1e-9,
    );
}

/// Single values of the US Naval Research Laboratory's file (2024-08-19), another list against the
/// same electrode: every midpoint is within 0.05 V of it, and the eaten metal of its check pairs
/// is the same.
#[test]
fn a_second_series_agrees_within_its_scatter() {
    for (name, volts) in [
        ("zinc", -1.03),
        ("steel", -0.61),
        ("cast iron", -0.61),
        ("304 stainless", -0.53),
        ("naval brass", -0.40),
        ("aluminium bronze", -0.36),
        ("copper", -0.36),
        ("gunmetal", -0.31),
        ("manganese bronze", -0.29),
        ("90-10 copper-nickel", -0.28),
        ("silicon bronze", -0.27),
        ("lead", -0.22),
        ("nickel-aluminium bronze", -0.19),
        ("Monel", -0.08),
    ] {
        near(name, range(name).midpoint().volts(), volts, 0.05);
    }
    for (name, volts) in [("304", -0.08), ("316", -0.05)] {
        let passive = metal(name).passive.unwrap();
        near(name, passive.midpoint().volts(), volts, 0.05);
    }
    for (eaten, other) in [
        ("steel", "copper"),
        ("silicon bronze", "Monel"),
        ("steel", "lead"),
    ] {
        assert!(range(eaten).midpoint() < range(other).midpoint(), "{eaten}");
    }
}

/// Order of the series, most active first.
#[test]
fn the_series_is_in_order() {
    let middles = |metal: &Metal| metal.potential.map(|range| range.midpoint());
    let all: Vec<_> = Metal::all().iter().filter_map(middles).collect();
    assert!(all.is_sorted());
    for metal in Metal::all() {
        for range in [metal.potential, metal.passive, metal.coating]
            .into_iter()
            .flatten()
        {
            assert!(range.active < range.noble, "{}", metal.name);
        }
    }
}

/// The series has no row for galvanised steel: zinc while zinc remains, then mild steel. Stainless
/// is one metal with two potentials.
#[test]
fn galvanised_and_stainless_have_two_states() {
    let galvanised = metal("galvanized steel");
    assert_eq!(galvanised.coating.unwrap().active, range("zinc").active);
    assert_eq!(galvanised.potential.unwrap().active, range("steel").active);
    for metal in Metal::all() {
        let stainless = metal.family == Family::Stainless;
        assert_eq!(metal.passive.is_some(), stainless, "{}", metal.name);
    }
}

/// Zinc-bearing copper alloys lose their zinc (general corrosion texts, from memory).
#[test]
fn only_the_brasses_dealloy() {
    for metal in Metal::all() {
        assert_eq!(
            metal.dealloys,
            metal.family == Family::Brass,
            "{}",
            metal.name
        );
    }
    assert_eq!(metal("manganese bronze").family, Family::Brass);
}

/// Misprints and gaps: copper at -0.57 (a trade list, for -0.37), titanium without its sign.
/// Bronze of unstated kind is no row; its kinds are named instead.
#[test]
fn misprints_and_guesses_stay_out() {
    near("copper", range("copper").active.volts(), -0.37, 1e-9);
    assert!(Metal::find("titanium").is_err());
    let bronze = Metal::find("bronze").unwrap_err();
    assert!(bronze.help.unwrap().contains("silicon bronze"));
}

/// An anode supplier's page (read): against silver/silver chloride, wood from -550 to -600 mV,
/// steel from -800. They exclude each other. What the rule says of anodes is what the table says.
#[test]
fn what_protects_steel_is_outside_the_band_of_wood() {
    let table = Table::find("protection").unwrap();
    let of = |what: &str| {
        let mut rows = table.rows.iter();
        let row = rows.find(|row| row[0].text == what).unwrap();
        (row[1].text, row[2].text)
    };
    let ((from, to), (steel, _)) = (of("wooden hull"), of("steel"));
    assert_eq!((from, to, steel), ("-550", "-600", "-800"));
    let page = Rule::find("mixed-metals").unwrap();
    assert!(page.file.contains(&format!("{from} to {to} mV (silver")));
    assert!(page.file.contains(&format!("steel's from {steel} mV")));
    assert!(to.parse::<i32>().unwrap() > steel.parse::<i32>().unwrap());
}
