//! `pick`, from options.

use serde_json::Value;

use crate::run::{Ran, refasten};

/// White oak frame, Douglas-fir plank, silicon bronze, under water.
const BRONZE: [&str; 10] = [
    "pick",
    "--plank-wood",
    "Douglas-fir",
    "--frame-wood",
    "white oak",
    "--metal",
    "silicon bronze",
    "--zone",
    "underwater",
    "--today=2026-10-20",
];

fn pick(more: &[&str]) -> Ran {
    refasten(&[&BRONZE[..], more].concat())
}

fn json(args: &[&str]) -> Value {
    let ran = refasten(&[args, &["--format", "json"]].concat());
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
    serde_json::from_str(&ran.stdout).unwrap()
}

fn pick_json(more: &[&str]) -> Value {
    json(&[&BRONZE[..], more].concat())
}

/// A number of millimetres or newtons, to what a float carries.
fn close(value: &Value, expected: f64) {
    let value = value.as_f64().unwrap();
    assert!(
        (value - expected).abs() < 1e-9 * expected.abs().max(1.0),
        "{value} for {expected}"
    );
}

fn verdict<'a>(answer: &'a Value, check: &str) -> &'a str {
    answer["checks"]
        .as_array()
        .unwrap()
        .iter()
        .find(|each| each["check"] == check)
        .map_or("absent", |each| each["verdict"].as_str().unwrap())
}

#[test]
fn the_book_screw_for_seven_eighths_planking() {
    let answer = pick_json(&["--plank", "7/8in", "--frame", "1-3/4in"]);
    let fastening = &answer["fastening"];
    assert_eq!(fastening["kind"], "wood screw");
    assert_eq!(fastening["metal"], "silicon bronze");
    assert_eq!(fastening["gauge"], 14);
    assert_eq!(fastening["gauge_system"], "american");
    assert_eq!(fastening["label"], "No. 14 x 1-3/4 in");
    assert_eq!(fastening["stock"], true);
    close(&fastening["length_mm"], 44.45);
    close(&fastening["diameter_mm"], 6.1468);
    close(&answer["bung"]["diameter_mm"], 12.7);
    close(&answer["bung"]["depth_mm"], 6.35);
    let fit = &answer["fit"];
    close(&fit["head_depth_mm"], 6.35);
    close(&fit["embedment_mm"], 28.575);
    close(&fit["wood_under_head_mm"], 15.875);
    close(&fit["point_cover_mm"], 15.875);
    // 90 % of the root .165 in, to the point: bronze in hard wood.
    let pilot = &answer["holes"]["pilot"];
    close(&pilot["exact_mm"], 3.7719);
    assert_eq!(pilot["bit"], "5/32");
    close(&pilot["depth_mm"], 50.8);
    assert_eq!(answer["holes"]["shank"]["bit"], "1/4");
    close(&answer["holes"]["shank"]["depth_mm"], 22.225);
    close(&answer["holes"]["counterbore"]["exact_mm"], 12.8778);
    let hold = &answer["hold"];
    assert_eq!(hold["wet_service"], true);
    assert_eq!(hold["valid_withdrawal"], true);
    close(
        &hold["withdrawal_design_n"],
        0.7 * 2850.0 * 0.73 * 0.73 * 0.242 * 1.125 * 4.448_221_615_260_5,
    );
    // Pushed sideways: the least of six modes, worked though under six diameters.
    let modes = hold["modes_n"].as_object().unwrap();
    let mut names: Vec<_> = modes.keys().map(String::as_str).collect();
    names.sort_unstable();
    assert_eq!(names, ["II", "IIIm", "IIIs", "IV", "Im", "Is"]);
    let least = modes.values().map(|each| each.as_f64().unwrap());
    let least = least.fold(f64::INFINITY, f64::min);
    close(&hold["lateral_design_n"], least);
    close(&modes[hold["lateral_mode"].as_str().unwrap()], least);
    assert_eq!(hold["valid_lateral"], false);
    assert!(hold["notes"].to_string().contains("under 6 diameters"));
    let sources = answer["sources"].to_string();
    assert!(
        sources.contains("bending yield of silicon bronze, 46 ksi"),
        "{sources}"
    );
    // Nothing needs mending.
    for check in answer["checks"].as_array().unwrap() {
        let verdict = check["verdict"].as_str().unwrap();
        assert!(matches!(verdict, "ok" | "watch"), "{check}");
        assert!(!check["basis"].as_str().unwrap().is_empty(), "{check}");
    }
    assert!(!answer["cautions"].as_array().unwrap().is_empty());
    assert!(!answer["sources"].as_array().unwrap().is_empty());
}

#[test]
fn a_shallow_frame_is_told_with_what_fits() {
    let answer = pick_json(&["--plank", "7/8in", "--frame", "1in"]);
    assert_eq!(verdict(&answer, "point-through"), "mend");
    close(&answer["fit"]["point_cover_mm"], -3.175);
    let fits: Vec<_> = answer["alternatives"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|each| each["fits"] == true)
        .map(|each| each["label"].as_str().unwrap())
        .collect();
    assert_eq!(fits, ["No. 14 x 1-1/2 in"]);
    let said = pick(&["--plank", "7/8in", "--frame", "1in"]);
    assert!(
        said.stdout.contains("comes through by 1/8 in"),
        "{}",
        said.stdout
    );
    assert_eq!(said.code, Some(0));
}

#[test]
fn where_nothing_fits_the_cause_is_told() {
    let said = pick(&["--plank", "7/8in", "--frame", "1/4in"]);
    assert_eq!(said.code, Some(0));
    assert!(
        said.stdout.contains("the frame is too shallow for any"),
        "{}",
        said.stdout
    );
}

#[test]
fn a_fixed_screw_is_weighed_as_it_is() {
    let answer = json(&[
        "pick",
        "--gauge",
        "10",
        "--length",
        "2in",
        "--bung-depth",
        "0in",
        "--plank",
        "7/8in",
        "--plank-sg",
        "0.5",
        "--frame",
        "2in",
        "--frame-sg",
        "0.5",
        "--metal",
        "galvanised steel",
        "--zone",
        "inside",
    ]);
    close(&answer["fit"]["embedment_mm"], 28.575);
    close(
        &answer["hold"]["withdrawal_design_n"],
        135.375 * 1.125 * 4.448_221_615_260_5,
    );
    assert_eq!(answer["hold"]["wet_service"], false);
    assert!(answer["bung"].is_null());
    assert!(answer["holes"]["counterbore"].is_null());
    // Four gauges are left out between 10 and 14; in the standard they are two sizes apart.
    assert_eq!(verdict(&answer, "gauge-off-rule"), "watch");
}

/// NDS-2018 worked example (public transcription): No. 10, 1/2 in side member, G .50, 1.9 in in the
/// main member: 89.93 lb, mode IIIs. The user's own bending yield takes the place of the table's.
#[test]
fn sideways_strength_by_the_worked_example() {
    let with = |more: &[&str]| {
        let base = [
            "pick",
            "--gauge",
            "10",
            "--length",
            "2.4in",
            "--bung-depth",
            "0in",
            "--plank",
            "1/2in",
            "--plank-sg",
            "0.5",
            "--frame",
            "3in",
            "--frame-sg",
            "0.5",
            "--zone",
            "inside",
        ];
        json(&[&base[..], more].concat())
    };
    let pounds = |answer: &serde_json::Value| {
        answer["hold"]["lateral_design_n"].as_f64().unwrap() / 4.448_221_615_260_5
    };
    let steel = with(&["--metal", "galvanised steel"]);
    assert!((pounds(&steel) - 89.93).abs() < 0.005, "{}", pounds(&steel));
    assert_eq!(steel["hold"]["lateral_mode"], "IIIs");
    assert_eq!(steel["hold"]["valid_lateral"], true);
    for own in ["80000 psi", "80 ksi", "551.58 MPa"] {
        let own = with(&["--metal", "gunmetal", "--bending-yield", own]);
        assert!((pounds(&own) - 89.93).abs() < 0.01, "{}", pounds(&own));
        assert!(own["sources"].to_string().contains("80 ksi, as given"));
    }
    let without = with(&["--metal", "gunmetal"]);
    assert!(without["hold"]["lateral_design_n"].is_null() && without["hold"]["modes_n"].is_null());
    assert!(
        without["hold"]["notes"]
            .to_string()
            .contains("--bending-yield")
    );
    let wrong = refasten(&["pick", "--plank", "1in", "--bending-yield", "65"]);
    assert_eq!(wrong.code, Some(2));
    assert!(
        wrong.stderr.contains("--bending-yield: `65` has no unit"),
        "{}",
        wrong.stderr
    );
}

#[test]
fn a_length_that_is_not_in_stock_is_said_to_be_so() {
    // 1-1/8 in is not among the steps of the standard.
    let answer = pick_json(&["--plank", "9/16in", "--frame", "1-1/2in"]);
    assert_eq!(answer["fastening"]["label"], "No. 9 x 1-1/8 in");
    assert_eq!(answer["fastening"]["stock"], false);
    let remarks = answer["remarks"].to_string();
    assert!(remarks.contains("1 in and 1-1/4 in"), "{remarks}");
    // Planking under 5/8 in is stopped, not bunged.
    assert!(answer["bung"].is_null());
    close(&answer["fit"]["head_depth_mm"], 1.5875);
}

#[test]
fn a_gauge_that_only_the_planking_table_has() {
    let answer = pick_json(&["--plank", "1-1/2in", "--frame", "3in"]);
    assert_eq!(answer["fastening"]["gauge"], 22);
    assert!(answer["fastening"]["stock"].is_null());
    assert!(answer["hold"]["withdrawal_design_n"].is_null());
    // 11/16 would be under the head: the larger bung of the two printed.
    close(&answer["bung"]["diameter_mm"], 19.05);
    let remarks = answer["remarks"].to_string();
    assert!(
        remarks.contains("No. 22 has no published head"),
        "{remarks}"
    );
}

#[test]
fn metals_are_weighed_by_where_they_are() {
    let with = |metal, zone| {
        json(&[
            "pick", "--plank", "7/8in", "--frame", "2in", "--metal", metal, "--zone", zone,
        ])
    };
    assert_eq!(
        verdict(&with("naval brass", "underwater"), "brass-in-salt"),
        "mend"
    );
    assert_eq!(
        verdict(&with("naval brass", "inside"), "brass-in-salt"),
        "ok"
    );
    assert_eq!(
        verdict(&with("silicon bronze", "underwater"), "metal-in-zone"),
        "ok"
    );
    assert_eq!(verdict(&with("mild steel", "deck"), "bare-steel"), "mend");
    assert_eq!(
        verdict(&with("mild steel", "inside"), "bare-steel"),
        "watch"
    );
    assert_eq!(
        verdict(&with("galvanised steel", "deck"), "bare-steel"),
        "ok"
    );
    assert_eq!(verdict(&with("unknown", "deck"), "metal-unknown"), "watch");
}

#[test]
fn everything_that_makes_no_sense_is_told_at_once() {
    let ran = refasten(&[
        "pick",
        "--plank",
        "0in",
        "--plank-wood",
        "Douglas-fir",
        "--plank-sg",
        "0.5",
        "--frame",
        "2 cubits",
        "--gauge",
        "11",
        "--metal",
        "silicone bronze",
    ]);
    assert_eq!((ran.stdout.as_str(), ran.code), ("", Some(2)));
    for told in [
        "--plank-sg: given beside --plank-wood",
        "--frame: `cubits` is not a unit of length",
        "--gauge: there is no american No. 11",
        "10 and 12",
        "silicon bronze",
    ] {
        assert!(ran.stderr.contains(told), "{told}\n{}", ran.stderr);
    }
    for (args, told) in [
        (
            &["--plank", "0in"][..],
            "--plank: a plank of no size at all",
        ),
        (
            &["--plank", "5ft"],
            "--plank: a plank of 60 in is not to be believed",
        ),
        (&["--plank", "3in"], "has no row for planking of 3 in"),
        (
            &["--plank", "1in", "--frame", "0mm"],
            "--frame: a frame of no size at all",
        ),
        (
            &["--plank", "1in", "--frame-sg", "3"],
            "no wood has a specific gravity of 3",
        ),
        (
            &["--plank", "1in", "--frame-sg", "inf"],
            "not a specific gravity",
        ),
        (
            &["--plank", "1in", "--gauge", "99"],
            "there is no american No. 99",
        ),
        (
            &["--plank", "1in", "--length", "3/4in"],
            "does not reach the frame",
        ),
        (
            &["--plank", "1in", "--bung-depth", "1in"],
            "goes right through a plank",
        ),
        (
            &["--frame", "1in"],
            "--plank: the thickness of the plank is missing",
        ),
    ] {
        let ran = refasten(&[&["pick"], args].concat());
        assert_eq!((ran.stdout.as_str(), ran.code), ("", Some(2)), "{args:?}");
        assert!(ran.stderr.contains(told), "{args:?}\n{}", ran.stderr);
    }
}

#[test]
fn drills_of_the_sets_one_owns() {
    let pilot = |sets: &[&str]| {
        let base = ["--plank", "7/8in", "--frame", "2in"];
        pick_json(&[&base[..], sets].concat())["holes"]["pilot"]["bit"].clone()
    };
    // .1485 in: No. 25 is .1495, 5/32 .1563, 9/64 .1406, 3.8 mm .1496.
    assert_eq!(pilot(&["--drills", "number"]), "No. 25");
    assert_eq!(pilot(&["--drills", "fraction,number"]), "No. 25");
    assert_eq!(pilot(&["--drills", "metric"]), "3.8 mm");
    assert_eq!(pilot(&["--taper"]), "No. 14 taper");
}

#[test]
fn other_gauges_and_other_units() {
    let metric = pick_json(&["--plank", "22mm", "--frame", "45mm", "--gauges", "metric"]);
    assert!(metric["fastening"]["gauge"].is_null());
    assert_eq!(metric["fastening"]["gauge_system"], "metric");
    close(&metric["fastening"]["diameter_mm"], 6.0);
    let british = pick_json(&["--plank", "7/8in", "--frame", "2in", "--gauges", "british"]);
    assert_eq!(british["fastening"]["gauge_system"], "british");
    let said = pick(&["--plank", "7/8in", "--frame", "2in", "--units", "metric"]);
    assert!(
        said.stdout.contains("28.6 mm in the frame"),
        "{}",
        said.stdout
    );
}

#[test]
fn a_page_of_eighty_columns() {
    let said = pick(&[
        "--plank",
        "1-1/8in",
        "--frame",
        "2in",
        "--drills",
        "number,letter",
    ]);
    for line in said.stdout.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

/// Whatever is offered instead gives the same figures when it is asked for by itself.
#[test]
fn what_is_offered_is_what_is_got() {
    for (plank, frame) in [("1/2in", "1in"), ("7/8in", "1in"), ("1-1/4in", "2-1/2in")] {
        let answer = pick_json(&["--plank", plank, "--frame", frame]);
        for other in answer["alternatives"].as_array().unwrap() {
            let again = pick_json(&[
                "--plank",
                plank,
                "--frame",
                frame,
                "--gauge",
                &other["gauge"].to_string(),
                "--length",
                &format!("{}mm", other["length_mm"]),
            ]);
            assert_eq!(again["fastening"]["label"], other["label"]);
            assert_eq!(again["fastening"]["stock"], other["stock"]);
            assert_eq!(again["fit"]["embedment_mm"], other["embedment_mm"]);
            assert_eq!(
                again["hold"]["withdrawal_design_n"],
                other["withdrawal_design_n"]
            );
            for failed in other["fails"].as_array().unwrap() {
                let check = failed["check"].as_str().unwrap();
                assert_eq!(verdict(&again, check), failed["verdict"], "{check}");
            }
        }
    }
}

/// What the plank lies on goes by its own name.
#[test]
fn at_a_place_the_member_is_called_what_it_is() {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/demo");
    for (place, called) in [
        ("S3 F18", "a frame 1-3/4 in deep of white oak"),
        ("S3 stem", "a stem 2 in deep of white oak"),
        ("D3 B4", "a beam 2-1/4 in deep of white oak"),
        ("S1 K9", "a keel 2-1/4 in deep of white oak"),
        ("P9 J22", "a butt block of unknown depth of white oak"),
    ] {
        let ran = refasten(&["pick", place, "--boat", demo]);
        let text = ran.stdout.replace("\n  ", " ");
        assert!(text.contains(called), "{place}: {text}");
        let frame = text.split("Before you start").next().unwrap_or_default();
        assert_eq!(
            frame.contains("frame"),
            called.contains("frame"),
            "{place}: {frame}"
        );
    }
}

/// A kind of fastening in a plank of 1 in, on a frame of 2 in unless told.
fn kind(kind: &str, more: &[&str]) -> Value {
    let frame: &[&str] = match more.contains(&"--frame") {
        true => &[],
        false => &["--frame", "2in"],
    };
    let base = [
        "pick",
        "--plank",
        "1in",
        "--plank-sg",
        "0.5",
        "--kind",
        kind,
    ];
    json(&[&base[..], frame, more].concat())
}

/// The holes by kind: NDS-2018 (public transcription) for bolts 1/32 to 1/16 in over, for lag
/// screws 65 to 85, 60 to 75 and 40 to 70 % of the diameter by specific gravity, for nails at most
/// 90 and 75 %; Estep (read) for drifts 1/16 in under; a boat-repair site (read) for copper nails
/// one size under, 10 SWG (.128 in) under 8 SWG.
#[test]
fn each_kind_has_its_own_holes() {
    let of = |kind_of: &str, hole: &str, more: &[&str]| {
        kind(kind_of, more)["holes"][hole]["exact_mm"]
            .as_f64()
            .unwrap()
            / 25.4
    };
    let near = |is: f64, inches: f64| assert!((is - inches).abs() < 1e-6, "{is} for {inches}");
    let bolt = ["--size", "3/8in"];
    near(of("bolt", "shank", &bolt), 0.375 + 1.0 / 32.0);
    let drift = ["--size", "1in x 6in"];
    near(of("drift", "pilot", &drift), 1.0 - 1.0 / 16.0);
    let rivet = ["--size", "8 SWG", "--metal", "copper"];
    near(of("rivet", "pilot", &rivet), 0.128);
    for (gravity, share) in [
        ("0.5", 0.55),
        ("0.51", 0.675),
        ("0.6", 0.675),
        ("0.61", 0.75),
    ] {
        let lag = ["--size", "1/2in", "--frame-sg", gravity];
        near(of("lag screw", "pilot", &lag), 0.5 * share);
        near(of("lag screw", "shank", &lag), 0.5);
    }
    for (gravity, share) in [("0.6", 0.75), ("0.61", 0.9)] {
        let nail = ["--size", "1/4in", "--frame-sg", gravity];
        near(of("boat nail", "pilot", &nail), 0.25 * share);
        near(of("annular nail", "pilot", &nail), 0.25 * share);
    }
    // The plank's hole of a square nail is just under it, the frame's goes to the point.
    let nail = kind("boat nail", &["--size", "1/4in x 2-1/2in"]);
    assert_eq!(nail["holes"]["shank"]["bit"], "15/64");
    close(&nail["holes"]["shank"]["depth_mm"], 25.4);
    close(&nail["holes"]["pilot"]["depth_mm"], 2.5625 * 25.4);
}

/// Lengths: through plank and frame with what is turned back, headed or under the nut; nails two to
/// two and a half planks, as the frame has room.
#[test]
fn each_kind_has_its_own_length() {
    let long = |kind_of: &str, more: &[&str]| {
        let answer = kind(kind_of, more);
        for check in answer["checks"].as_array().unwrap() {
            let verdict = check["verdict"].as_str().unwrap();
            assert!(matches!(verdict, "ok" | "watch"), "{kind_of}: {check}");
        }
        assert!(answer["fastening"]["head"].is_null());
        let inches = answer["fastening"]["length_mm"].as_f64().unwrap() / 25.4;
        (inches * 1000.0).round() / 1000.0
    };
    let size = ["--size", "3/8in"];
    // 1 - 1/16 + 2 + 3/8, and to the next quarter; the bolt's head lies 1/4 in deep, 9/16 in past.
    assert_eq!(long("rivet", &size), 3.5);
    assert_eq!(long("clenched nail", &size), 3.5);
    assert_eq!(long("bolt", &size), 3.5);
    assert_eq!(long("trunnel", &size), 3.0);
    assert_eq!(long("boat nail", &size), 2.5);
    assert_eq!(
        long("boat nail", &["--size", "3/8in", "--frame", "1-1/4in"]),
        2.0
    );
    // 4 diameters and the tip of 2, under a head 1/4 in deep.
    assert_eq!(long("lag screw", &["--size", "1/4in"]), 2.25);
}

#[test]
fn what_holds_by_its_ends_must_come_through() {
    for kind_of in ["rivet", "clenched nail", "bolt"] {
        let short = kind(kind_of, &["--size", "3/8in x 2-1/2in"]);
        assert_eq!(verdict(&short, "short-embedment"), "stop", "{kind_of}");
        assert_eq!(verdict(&short, "point-through"), "absent");
        assert!(short["hold"]["withdrawal_design_n"].is_null());
        assert!(
            short["hold"]["notes"]
                .to_string()
                .contains("holds by its head")
        );
    }
    let nail = kind("boat nail", &["--size", "3/8in x 4in"]);
    assert_eq!(verdict(&nail, "point-through"), "mend");
}

/// A nail of the standard's example (NDS-2018, public transcription): 8d, .131 in, specific gravity
/// .50, 32 lb for each inch; driven dry and serving wet a quarter.
#[test]
fn a_nail_is_worth_what_the_standard_says() {
    let more = [
        "--size",
        "0.131in x 2.5in",
        "--frame-sg",
        "0.5",
        "--bung-depth",
        "0in",
    ];
    let pounds = |zone: &str| {
        let answer = kind("boat nail", &[&more[..], &["--zone", zone]].concat());
        answer["hold"]["withdrawal_design_n"].as_f64().unwrap() / 4.448_221_615_260_5
    };
    let dry = pounds("inside");
    assert!((dry / 1.5 - 32.0).abs() < 0.5, "{dry}");
    assert!((pounds("underwater") / dry - 0.25).abs() < 1e-9);
}

#[test]
fn positions_are_proposed_where_the_room_is_known() {
    let with = |more: &[&str]| {
        let base = [
            "--plank",
            "7/8in",
            "--frame",
            "2in",
            "--plank-width",
            "5-1/4in",
        ];
        pick_json(&[&base[..], more].concat())
    };
    assert!(with(&[])["positions"].is_null());
    let two = with(&["--siding", "1-3/8in"]);
    let places = two["positions"].as_array().unwrap();
    assert_eq!(places.len(), 2);
    close(&places[0]["up_mm"], 0.726 * 25.4);
    close(&places[0]["along_mm"], 0.3245 * 25.4);
    close(&places[1]["up_mm"], (5.25 - 0.726) * 25.4);
    assert_eq!(two["spacing"]["standard"][0]["of"], "bored");
    let four = with(&["--siding", "1-3/8in", "--per-crossing", "4"]);
    assert!(four["positions"].is_null());
    let why = four["spacing"]["cramped"].as_str().unwrap();
    assert!(why.contains("the frame is 1-3/8 in wide"), "{why}");
    assert_eq!(four["spacing"]["room_for"], 3);
}

#[test]
fn sizes_that_make_no_sense_are_refused() {
    for (args, says) in [
        (
            &["--kind", "rivet"][..],
            "no table gives the size of a rivet",
        ),
        (
            &["--kind", "drift", "--size", "1/2in"],
            "the length of a drift",
        ),
        (
            &["--kind", "rivet", "--gauge", "14"],
            "a gauge goes with wood screws alone",
        ),
        (
            &["--kind", "rivet", "--size", "9 SWG"],
            "no table here has this wire",
        ),
        (
            &["--kind", "bolt", "--size", "3/8in x 4in", "--length", "5in"],
            "beside a --size",
        ),
        (&["--per-crossing", "0"], "is not a count"),
        (&["--siding", "0in"], "not to be believed"),
    ] {
        let base = ["pick", "--plank", "1in", "--frame", "2in"];
        let ran = refasten(&[&base[..], args].concat());
        assert_eq!(ran.code, Some(2), "{args:?}");
        assert!(ran.stderr.contains(says), "{args:?}: {}", ran.stderr);
    }
}
