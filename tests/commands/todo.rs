//! `todo`: the demo's plan, worked off as it says.

use std::fs;
use std::path::Path;

use serde_json::Value;
use tempfile::TempDir;

use crate::run::{Ran, refasten};

const DAY: &str = "2024-11-25";

fn demo() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo");
    for name in ["hull.yaml", "log.yaml", "plan.yaml"] {
        fs::copy(from.join(name), folder.path().join(name)).unwrap();
    }
    folder
}

fn run(boat: &TempDir, args: &[&str]) -> Ran {
    let path = boat.path().to_str().unwrap();
    refasten(&[args, &["--boat", path, "--today", DAY]].concat())
}

fn json(boat: &TempDir, args: &[&str]) -> Value {
    let ran = run(boat, &[args, &["--format", "json"]].concat());
    assert_eq!(ran.stderr, "");
    serde_json::from_str(&ran.stdout).unwrap()
}

/// Logs a step in the words it gives; one that leaves no trace is passed over.
fn log(boat: &TempDir, step: &Value) {
    let Some(did) = step["did"].as_str() else {
        return;
    };
    let mut typed = vec!["log".to_owned(), did.replace(' ', "-")];
    typed.push(step["place"].as_str().unwrap().to_owned());
    let driven = &step["driven"];
    for (option, key) in [
        ("--plan", "plan"),
        ("--set", "set"),
        ("--per-crossing", "per_crossing"),
        ("--hole", "hole"),
        ("--kind", "kind"),
        ("--metal", "metal"),
        ("--size", "size"),
        ("--bung", "bung"),
    ] {
        match &driven[key] {
            Value::Null => {}
            Value::String(text) => typed.extend([option.to_owned(), text.clone()]),
            other => typed.extend([option.to_owned(), other.to_string()]),
        }
    }
    let typed: Vec<&str> = typed.iter().map(String::as_str).collect();
    let ran = run(boat, &typed);
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)), "{typed:?}");
}

fn list(value: &Value) -> &Vec<Value> {
    value.as_array().unwrap()
}

#[test]
fn the_demos_plan_is_worked_off_until_no_stop_is_left() {
    let boat = demo();
    // What the plan of the demo leaves is planned as well.
    for (place, name) in [("S4 F15-20", "bilge"), ("S5 F12-20", "bilge")] {
        let ran = run(
            &boat,
            &[
                "pick",
                place,
                "--metal",
                "silicon bronze",
                "--into-plan",
                "--plan",
                name,
            ],
        );
        assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
    }
    let mut rounds = 0;
    loop {
        let todo = json(&boat, &["todo"]);
        for step in list(&todo["at_once"]) {
            log(&boat, step);
        }
        let Some(round) = list(&todo["rounds"]).first() else {
            break;
        };
        for step in list(&round["steps"]) {
            log(&boat, step);
            if !matches!(step["did"].as_str(), Some("pulled" | "cleared" | "driven")) {
                continue;
            }
            let frames = json(&boat, &["todo"])["open_frames"].clone();
            let (open, limit) = (frames["open"].as_u64(), frames["limit"].as_u64());
            assert!(open <= limit, "{frames} after {step}");
        }
        rounds += 1;
        assert!(rounds < 40, "the work comes to no end");
    }
    assert!(rounds > 3);
    let todo = json(&boat, &["todo"]);
    assert_eq!(
        (&todo["to_draw"], &todo["to_drive"]),
        (&0.into(), &0.into())
    );
    assert_eq!(list(&todo["in_the_way"]).len(), 0, "{}", todo["in_the_way"]);
    let audit = json(&boat, &["audit"]);
    assert_eq!(audit["counts"]["stop"], 0);
    assert_eq!(audit["verdict"], "no stops in this record");
    assert_eq!(audit["standing"]["open"], 0);
}

#[test]
fn with_nothing_to_go_on_no_pace_is_told() {
    let boat = demo();
    fs::write(boat.path().join("log.yaml"), "# refasten log 1\n").unwrap();
    fs::write(
        boat.path().join("plan.yaml"),
        "# refasten plan 1\n- {plan: \"bilge\", date: 2024-11-21, place: S3 F18-20, per crossing: 2, \
         kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in, hole: same}\n",
    )
    .unwrap();
    let todo = json(&boat, &["todo"]);
    assert_eq!(
        (&todo["pace"], &todo["to_drive"]),
        (&Value::Null, &6.into())
    );
    let text = run(&boat, &["todo"]).stdout;
    assert!(text.contains("fewer than five days"), "{text}");
}
