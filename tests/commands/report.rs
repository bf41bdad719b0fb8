//! `report`: what stands in the page, and what never does.

use std::fs;
use std::path::Path;

use serde_json::Value;
use tempfile::TempDir;

use crate::run::{Ran, refasten};

fn demo() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo");
    fs::create_dir(folder.path().join("photos")).unwrap();
    for name in ["hull.yaml", "log.yaml", "plan.yaml"] {
        fs::copy(from.join(name), folder.path().join(name)).unwrap();
    }
    for photo in fs::read_dir(from.join("photos")).unwrap() {
        let photo = photo.unwrap();
        let to = folder.path().join("photos").join(photo.file_name());
        fs::copy(photo.path(), to).unwrap();
    }
    folder
}

fn run(boat: &TempDir, args: &[&str]) -> Ran {
    let path = boat.path().to_str().unwrap();
    refasten(&[args, &["--boat", path, "--today", "2024-11-25"]].concat())
}

fn report(boat: &TempDir, more: &[&str]) -> String {
    let file = boat.path().join("report.html");
    let ran = run(boat, &[&["report", file.to_str().unwrap()], more].concat());
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
    fs::read_to_string(file).unwrap()
}

#[test]
fn everything_the_audit_says_stands_in_the_page() {
    let boat = demo();
    let page = report(&boat, &["--photos"]);
    let audit = run(&boat, &["audit", "--format", "json"]).stdout;
    let audit: Value = serde_json::from_str(&audit).unwrap();
    let escaped = |text: &Value| {
        let text = text.as_str().unwrap();
        text.replace('&', "&amp;")
            .replace('<', "&lt;")
            .replace('>', "&gt;")
    };
    for finding in audit["findings"].as_array().unwrap() {
        for part in [&finding["rule"], &finding["says"], &finding["do"]] {
            let part = escaped(part);
            assert!(page.contains(&part), "`{part}` is not in the page");
        }
        if let Value::Object(accepted) = &finding["accepted"] {
            assert!(page.contains(&escaped(&accepted["by"])));
        }
    }
    for words in [
        "stops open",
        "Looked at 285 of 1,977 fastenings",
        "keel bolts, chainplates",
        "Schedule of fastenings",
        "What stands open on 2024-11-25",
        "In the surveyor&#39;s own words",
        "record seen, name and date",
        "An aid to a record, not a survey",
        concat!("by refasten ", env!("CARGO_PKG_VERSION")),
        "data:image/",
    ] {
        let plain = words.replace("&#39;", "'");
        assert!(
            page.contains(words) || page.contains(&plain),
            "`{words}` is not in the page"
        );
    }
    assert_eq!(page.matches("<svg").count(), 2);
    assert_eq!(
        page,
        report(&boat, &["--photos"]),
        "the same bytes for the same record"
    );
    assert!(!report(&boat, &[]).contains("data:image/"));
}

#[test]
fn the_page_asks_for_nothing_and_runs_nothing() {
    let boat = demo();
    let hull = fs::read_to_string(boat.path().join("hull.yaml")).unwrap();
    let hostile = "\"</style></title><script>alert(1)</script><img src=x onerror=alert(2)>\"";
    let hull = hull.replace("boat: Hesper Lass", &format!("boat: {hostile}"));
    fs::write(boat.path().join("hull.yaml"), hull).unwrap();
    let page = report(&boat, &["--photos"]);
    for never in [
        "<script",
        "<img src=x",
        " href=",
        "src=\"http",
        "url(http",
        "@import",
        "<link",
        "<iframe",
    ] {
        assert!(!page.contains(never), "`{never}` is in the page");
    }
    assert_eq!(
        page.matches("</style>").count(),
        page.matches("<style").count()
    );
}

#[test]
fn a_picture_that_cannot_be_shown_is_told() {
    let boat = demo();
    let photos: Vec<_> = fs::read_dir(boat.path().join("photos")).unwrap().collect();
    let photo = photos.into_iter().next().unwrap().unwrap().path();
    fs::write(&photo, "no picture").unwrap();
    let page = report(&boat, &["--photos"]);
    assert!(page.contains("is not shown: it is neither a JPEG nor a PNG picture"));
    fs::write(&photo, vec![0xFF; 3 * 1024 * 1024]).unwrap();
    assert!(report(&boat, &["--photos"]).contains("larger than 2 MiB"));
}
