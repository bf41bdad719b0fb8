//! Specific gravities.

use refasten::tables::{Status, Wood};

use super::cells::near;

fn wood(name: &str) -> &'static Wood {
    Wood::find(name).unwrap_or_else(|e| panic!("{e}"))
}

/// Green figures of Wood Handbook FPL-GTR-282 (public transcription) to oven-dry by
/// G / (1 - 0.265 G), for woods the building standard lacks (derived).
#[test]
fn green_gravity_converts_to_oven_dry() {
    for (name, gravity) in [
        ("Atlantic white cedar", 0.338),
        ("Port Orford cedar", 0.435),
        ("cypress", 0.473),
        ("western larch", 0.550),
        ("tamarack", 0.563),
        ("white ash", 0.644),
        ("American elm", 0.524),
        ("rock elm", 0.671),
        ("black locust", 0.800),
        ("teak", 0.644),
        ("iroko", 0.630),
        ("Honduras mahogany", 0.511),
        ("African mahogany", 0.473),
        ("sapele", 0.644),
        ("dark red meranti", 0.524),
        ("purpleheart", 0.815),
        ("greenheart", 1.015),
    ] {
        let converted = wood(name).gravity();
        near(name, converted.value, gravity, 0.000_51);
        assert_eq!(converted.basis.status, Status::Derived, "{name}");
    }
}

/// NDS Table 12.3.3A (public transcription): the assigned figure is taken where there is one, even
/// where the wood alone would convert to another; longleaf pine computes .630, its group is .55.
#[test]
fn an_assigned_gravity_is_not_replaced_by_a_computed_one() {
    for (name, assigned, computed) in [
        ("white oak", 0.73, 0.713),
        ("Douglas-fir", 0.50, 0.511),
        ("northern white cedar", 0.31, 0.314),
        ("Sitka spruce", 0.43, 0.410),
        ("western red cedar", 0.36, 0.338),
        ("longleaf pine", 0.55, 0.630),
    ] {
        let wood = wood(name);
        near(name, wood.gravity().value, assigned, 1e-9);
        let green = wood.green.unwrap();
        near(name, green / (1.0 - 0.265 * green), computed, 0.000_51);
    }
}

/// Three bases of one white oak: .60 green, .68 at 12 % (Wood Handbook), .73 assigned (NDS).
#[test]
fn the_three_bases_are_kept_apart() {
    let oak = wood("white oak");
    assert_eq!(
        (oak.green, oak.dry, oak.assigned),
        (Some(0.60), Some(0.68), Some(0.73))
    );
}

/// Names that look alike are different rows: western cedars .36, Alaska cedar .47 and Alaska
/// yellow cedar .46, mixed oak .68, northern red oak .68, red oak .67 (NDS Table 12.3.3A).
#[test]
fn names_that_look_alike_are_rows_of_their_own() {
    for (name, gravity) in [
        ("western cedars", 0.36),
        ("western cedars (north)", 0.35),
        ("Alaska cedar", 0.47),
        ("Alaska yellow cedar", 0.46),
        ("mixed oak", 0.68),
        ("northern red oak", 0.68),
        ("red oak", 0.67),
        ("coast Sitka spruce", 0.39),
        ("Douglas fir-larch", 0.50),
        ("Douglas fir-south", 0.46),
        ("southern pine", 0.55),
    ] {
        assert_eq!(wood(name).assigned, Some(gravity), "{name}");
    }
}

/// The withdrawal rule holds from .31 to .73. White oak is its top; the listed woods, and swamp
/// white oak and balau by the same conversion, lie outside.
#[test]
fn woods_outside_the_rules_range_say_so() {
    let outside: Vec<&str> = Wood::all()
        .iter()
        .filter(|wood| !wood.gravity().in_range)
        .map(|wood| wood.name)
        .collect();
    let expected = [
        "swamp white oak",
        "live oak",
        "black locust",
        "balau",
        "purpleheart",
        "greenheart",
        "ipe",
        "opepe",
        "keruing",
        "jarrah",
    ];
    assert_eq!(outside, expected);
}

/// Printed so: true mahogany and ipe have more shear green than dry (Wood Handbook Table 5-5b).
#[test]
fn odd_figures_that_are_printed_so_are_kept() {
    let table = refasten::tables::Table::find("woods").unwrap();
    let at = |name| table.columns.iter().position(|c| c.name == name).unwrap();
    for (name, green, dry) in [("true mahogany", "1240", "1230"), ("ipe", "2120", "2060")] {
        let row = table.rows.iter().find(|row| row[0].text == name).unwrap();
        assert_eq!(row[at("shear green")].text, green);
        assert_eq!(row[at("shear dry")].text, dry);
    }
}

/// What an owner types finds its row; what may mean several names them.
#[test]
fn woods_are_found_by_the_names_of_the_trade() {
    for (typed, name) in [
        ("Douglas fir", "Douglas-fir"),
        ("DOUGLAS-FIR", "Douglas-fir"),
        ("Oregon pine", "Douglas-fir"),
        ("larch", "western larch"),
        ("pitch pine", "longleaf pine"),
        ("western redcedar", "western redcedar"),
        ("oak, white", "white oak"),
    ] {
        assert_eq!(wood(typed).name, name);
    }
    for typed in ["mahogany", "oak", "cedar", "elm"] {
        let misread = Wood::find(typed).unwrap_err();
        assert!(misread.says.contains("more than one"), "{typed}: {misread}");
    }
    let near = Wood::find("wite oak").unwrap_err();
    assert_eq!(near.help.as_deref(), Some("did you mean `white oak`?"));
}
