//! The pictures of the README: what the commands draw of the demo.

use std::fs;
use std::path::Path;

use crate::run::refasten;

const PICTURES: [(&str, &[&str]); 2] = [
    (
        "section.svg",
        &[
            "pick",
            "S3",
            "F18",
            "--metal",
            "silicon bronze",
            "--drills",
            "fraction,number",
            "--drawing",
            "-",
        ],
    ),
    ("map.svg", &["map", "--by", "findings", "--drawing", "-"]),
];

/// With `REFASTEN_BLESS=1` they are drawn anew, for a person to look at.
#[test]
fn the_pictures_are_what_the_commands_draw() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo");
    let bless = std::env::var_os("REFASTEN_BLESS").is_some_and(|bless| bless == "1");
    for (name, args) in PICTURES {
        let boat = ["--boat", demo.to_str().unwrap(), "--today", "2024-11-25"];
        let ran = refasten(&[args, &boat].concat());
        assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
        let path = demo.join("pictures").join(name);
        if bless {
            fs::write(&path, ran.stdout).unwrap();
            continue;
        }
        let kept = fs::read_to_string(&path).unwrap();
        assert!(
            kept.lines().eq(ran.stdout.lines()),
            "{name} is not what `{}` draws; REFASTEN_BLESS=1 draws it anew",
            args.join(" ")
        );
    }
}
