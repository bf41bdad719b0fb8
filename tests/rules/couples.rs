//! The figures that findings of mixed metals carry for other programs.

use super::look_over;

/// A strap of stainless over two crossings with a pair of copper rivets in each.
fn figures(area: &str) -> Vec<(&'static str, f64)> {
    let hull = format!(
        "refasten: 1\nboat: Test\nwater: salt\nframes:\n  - {{number: 1-2, siding: 2in, \
         moulding: 4in, wood: white oak}}\nstrakes:\n  - {{planks: P1, across: F1-2, \
         thickness: 7/8in, wood: Douglas-fir}}\nhardware:\n  - {{what: strap, metal: 316, \
         place: P1 F1-2, area: {area}}}\nsets:\n  - {{set: built, place: P1 all, \
         per crossing: 2, kind: rivet, metal: copper, size: 8 SWG x 3in, driven: 1958}}\n"
    );
    let findings = look_over(&hull, "").findings;
    let mut mixed = findings.iter().filter(|it| it.rule.name == "mixed-metals");
    let finding = mixed.next().unwrap();
    assert!(mixed.next().is_none());
    finding.saying.figures.clone()
}

/// The difference is of the series (derived); the loss of copper beside stainless at 10 : 1 is
/// 1.00 mm a year, at 1 : 1 0.12 (Euro Inox Table 2, public transcription). Two rivets of 8 SWG
/// are 3.06 in² by the formula, half the strap lies on each crossing.
#[test]
fn ratio_and_loss_are_carried_where_they_are_known() {
    let known = |ratio, loss| {
        vec![
            ("mid_v", 0.285),
            ("worst_v", 0.37),
            ("area_ratio", ratio),
            ("rate_mm_per_year_low", loss),
            ("rate_mm_per_year_high", loss),
        ]
    };
    assert_eq!(figures("60 in2"), known(10.0, 1.0));
    assert_eq!(figures("6 in2"), known(1.0, 0.12));
    assert_eq!(figures("unknown"), [("mid_v", 0.285), ("worst_v", 0.37)]);
}
