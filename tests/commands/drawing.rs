//! `pick --drawing`: what the picture says is what the JSON says.

use std::fs;

use roxmltree::{Document, Node};
use serde_json::Value;

use crate::run::refasten;

const CASES: [&[&str]; 10] = [
    &[
        "--plank",
        "7/8in",
        "--frame",
        "1-3/4in",
        "--frame-wood",
        "white oak",
        "--plank-wood",
        "Douglas-fir",
    ],
    &[
        "--plank",
        "22mm",
        "--frame",
        "45mm",
        "--gauges",
        "metric",
        "--units",
        "metric",
        "--frame-sg",
        "0.5",
    ],
    &[
        "--plank",
        "7/8in",
        "--frame",
        "1in",
        "--length",
        "2in",
        "--frame-sg",
        "0.7",
        "--grain",
        "end",
    ],
    &[
        "--plank",
        "1/4in",
        "--frame",
        "3/4in",
        "--gauge",
        "4",
        "--length",
        "3/4in",
        "--frame-sg",
        "0.6",
    ],
    &[
        "--plank", "3in", "--frame", "unknown", "--gauge", "24", "--length", "5in", "--taper",
    ],
    &[
        "--kind", "rivet", "--size", "8 SWG", "--plank", "7/8in", "--frame", "1-3/4in",
    ],
    &[
        "--kind",
        "clenched nail",
        "--size",
        "1/4in x 2in",
        "--plank",
        "1in",
        "--frame",
        "2in",
    ],
    &[
        "--kind", "bolt", "--size", "3/8in", "--plank", "1-1/2in", "--frame", "4in", "--units",
        "metric",
    ],
    &[
        "--kind",
        "boat nail",
        "--size",
        "1/4in",
        "--plank",
        "1in",
        "--frame",
        "2in",
        "--frame-sg",
        "0.5",
    ],
    &[
        "--kind",
        "lag screw",
        "--size",
        "1/2in",
        "--plank",
        "2in",
        "--frame",
        "6in",
        "--frame-sg",
        "0.5",
    ],
];

fn run(args: &[&str], more: &[&str]) -> String {
    let ran = refasten(&[&["pick"], args, more].concat());
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)), "{args:?}");
    ran.stdout
}

fn part<'a>(picture: &'a Document<'_>, key: &str) -> Option<Node<'a, 'a>> {
    let mut parts = picture.descendants();
    parts.find(|node| node.attribute("data-what") == Some(key))
}

/// Where a part gives a figure, and where the JSON has the same.
const FIGURES: [(&str, &str, &str); 17] = [
    ("length", "data-mm", "/fastening/length_mm"),
    ("shank", "data-diameter-mm", "/fastening/diameter_mm"),
    ("head_depth", "data-mm", "/fit/head_depth_mm"),
    ("wood_under_head", "data-mm", "/fit/wood_under_head_mm"),
    ("embedment", "data-mm", "/fit/embedment_mm"),
    ("point_cover", "data-mm", "/fit/point_cover_mm"),
    ("thread", "data-in-frame-mm", "/fit/thread_in_frame_mm"),
    ("thread", "data-in-plank-mm", "/fit/thread_in_plank_mm"),
    ("bung", "data-diameter-mm", "/bung/diameter_mm"),
    ("counterbore", "data-bit-mm", "/holes/counterbore/bit_mm"),
    (
        "counterbore",
        "data-depth-mm",
        "/holes/counterbore/depth_mm",
    ),
    ("shank_hole", "data-exact-mm", "/holes/shank/exact_mm"),
    ("shank_hole", "data-bit-mm", "/holes/shank/bit_mm"),
    ("shank_hole", "data-depth-mm", "/holes/shank/depth_mm"),
    ("pilot_hole", "data-exact-mm", "/holes/pilot/exact_mm"),
    ("pilot_hole", "data-bit-mm", "/holes/pilot/bit_mm"),
    ("pilot_hole", "data-depth-mm", "/holes/pilot/depth_mm"),
];

#[test]
fn a_picture_has_the_figures_of_the_answer() {
    let mut seen = [0; FIGURES.len()];
    for args in CASES {
        let picture = run(args, &["--drawing", "-"]);
        let picture = Document::parse(&picture).unwrap();
        let answer: Value = serde_json::from_str(&run(args, &["--format", "json"])).unwrap();
        for ((key, figure, pointer), seen) in FIGURES.iter().zip(&mut seen) {
            let drawn = part(&picture, key).and_then(|node| node.attribute(*figure));
            let Some(drawn) = drawn else { continue };
            let told = answer.pointer(pointer).and_then(Value::as_f64);
            assert_eq!(drawn.parse().ok(), told, "{key} {figure} of {args:?}");
            *seen += 1;
        }
        // What the answer has, the picture has; a taper bit's pilot is one with the shank hole.
        for (key, pointer) in [
            ("counterbore", "/holes/counterbore"),
            ("shank_hole", "/holes/shank"),
            ("pilot_hole", "/holes/pilot"),
            ("bung", "/bung"),
        ] {
            let has = answer
                .pointer(pointer)
                .is_some_and(|value| !value.is_null());
            let stopped = key == "bung" && part(&picture, "bung").is_some();
            let tapered = key == "pilot_hole" && args.contains(&"--taper");
            assert!(
                has == part(&picture, key).is_some() || stopped || tapered,
                "{key} of {args:?}"
            );
        }
        let words: String = picture
            .descendants()
            .filter_map(|node| node.text())
            .collect::<Vec<_>>()
            .join(" ");
        for hole in ["counterbore", "shank", "pilot"] {
            if let Some(bit) = answer["holes"][hole]["bit"].as_str() {
                assert!(words.contains(bit), "{bit} in {words}");
            }
        }
        for check in answer["checks"].as_array().unwrap() {
            let is_held = check["verdict"] != "ok";
            let says = check["check"].as_str().unwrap();
            assert!(!is_held || words.contains(says), "{says} of {args:?}");
        }
    }
    assert!(seen.iter().all(|count| *count > 0), "{seen:?}");
}

#[test]
fn a_drawing_takes_the_place_of_an_older_one_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).display().to_string();
    let picture = path("s3.svg");
    let first = run(CASES[0], &["--drawing", &picture]);
    assert!(
        first.ends_with(&format!("\nDrawing: {picture}\n")),
        "{first}"
    );
    let drawn = fs::read_to_string(&picture).unwrap();
    assert_eq!(drawn, run(CASES[0], &["--drawing", "-"]));
    let second = run(CASES[1], &["--drawing", &picture]);
    assert!(
        second.ends_with(", in place of the one that was there\n"),
        "{second}"
    );
    assert_ne!(fs::read_to_string(&picture).unwrap(), drawn);
    // JSON stays JSON.
    let json = run(CASES[0], &["--drawing", &picture, "--format", "json"]);
    assert!(serde_json::from_str::<Value>(&json).is_ok());
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);

    fs::write(path("log.yaml"), "a log").unwrap();
    for (file, more, says) in [
        (path("log.yaml"), &[][..], "is not called a drawing"),
        (path("none/s3.svg"), &[], "is in a folder that is not there"),
        (
            "-".to_owned(),
            &["--format", "json"],
            "cannot carry a drawing and JSON",
        ),
    ] {
        let ran = refasten(&[&["pick"], CASES[0], &["--drawing", &file], more].concat());
        assert_eq!((ran.code, ran.stdout.as_str()), (Some(2), ""), "{file}");
        assert!(ran.stderr.contains(says), "{}", ran.stderr);
    }
    assert_eq!(fs::read_to_string(path("log.yaml")).unwrap(), "a log");
}
