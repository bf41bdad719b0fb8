//! `map`: every hole once, at its place, whatever a name holds.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use proptest::prelude::*;
use refasten::audit::{Rule, Survey, audit};
use refasten::files::{Boat, Folder};
use refasten::hull::Hull;
use refasten::show::map::{Ask, Dress, Map, drawing, json, page_colours};
use roxmltree::{Document, Node};

use crate::run::refasten;

fn read(folder: &Path) -> Boat {
    let folder = Folder::open(folder).unwrap();
    folder.boat("2024-11-25".parse().unwrap()).unwrap()
}

/// The demo.
fn demo() -> Boat {
    read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo"))
}

/// A boat of this hull file.
fn boat(hull: &str) -> Boat {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    read(folder.path())
}

fn survey(boat: &Boat) -> Survey<'_> {
    survey_of(&boat.hull, boat)
}

fn survey_of<'b>(hull: &'b Hull, boat: &'b Boat) -> Survey<'b> {
    Survey::new(
        hull,
        &boat.book,
        &boat.limits,
        &boat.accepted,
        "2024-11-25".parse().unwrap(),
        boat.hull.units,
    )
}

fn drawn(survey: &Survey<'_>, ask: Ask<'_>, dress: Dress) -> String {
    let mut out = Vec::new();
    drawing(&Map::new(survey, ask), dress, &mut out).unwrap();
    String::from_utf8(out).unwrap()
}

fn marks<'d>(document: &'d Document<'d>) -> impl Iterator<Item = Node<'d, 'd>> {
    document
        .descendants()
        .filter(|node| node.has_attribute("data-mark"))
}

fn count(node: &Node<'_, '_>) -> u32 {
    node.attribute("data-count").unwrap().parse().unwrap()
}

/// How many outlines a path has.
fn outlines(node: &Node<'_, '_>) -> usize {
    node.attribute("d").unwrap().matches('M').count()
}

/// How often each mark is drawn, and how many outlines it takes.
fn counted(document: &Document<'_>) -> BTreeMap<String, (u32, usize)> {
    let mut counted: BTreeMap<String, (u32, usize)> = BTreeMap::new();
    for node in marks(document) {
        let mark = node.attribute("data-mark").unwrap().to_owned();
        let (holes, drawn) = counted.entry(mark).or_default();
        *holes += count(&node);
        *drawn += outlines(&node);
    }
    counted
}

#[test]
fn every_hole_is_drawn_once() {
    let boat = demo();
    let survey = survey(&boat);
    let text = drawn(&survey, Ask::State, Dress::Alone);
    let document = Document::parse(&text).unwrap();
    let tally = survey.state.tally(boat.hull.crossing_ids());
    // What is filled is one outline, what is hollow two, and a dot or a half within is another.
    let told = [
        ("relied on", tally.relied_on, 1),
        ("open", tally.open, 2),
        ("broken", tally.broken, 1),
        ("unsound", tally.unsound, 3),
        ("left in", tally.left_in, 3),
        ("plugged", tally.plugged, 1),
    ];
    let told = told.map(|(mark, holes, each)| (mark.to_owned(), (holes, holes as usize * each)));
    assert_eq!(counted(&document), BTreeMap::from(told));

    let outcome = audit(&survey, Rule::all());
    for ask in [Ask::Metal, Ask::Age, Ask::Hold, Ask::Findings(&outcome)] {
        let text = drawn(&survey, ask, Dress::Alone);
        let document = Document::parse(&text).unwrap();
        let holes: u32 = marks(&document).map(|node| count(&node)).sum();
        assert_eq!(holes, tally.holes, "{:?}", ask.by());
    }
}

#[test]
fn a_crossing_with_a_stop_is_marked_so_and_one_accepted_is_not() {
    let boat = demo();
    let survey = survey(&boat);
    let outcome = audit(&survey, Rule::all());
    let told = json(&Map::new(&survey, Ask::Findings(&outcome)));
    let mark = |place: &str| {
        let crossings = told["crossings"].as_array().unwrap();
        let there = crossings.iter().find(|c| c["place"] == place).unwrap();
        there["mark"].as_str().unwrap().to_owned()
    };
    assert_eq!(mark("S3 F18"), "stop");
    assert_eq!(mark("S3 F17"), "mend");
    assert_eq!(mark("P7 F20"), "nothing found");
}

/// A member lies at the sum of the spaces before it, a plank at the sum of the widths below.
#[test]
fn members_and_planks_lie_where_their_sizes_say() {
    let hull = "\
refasten: 1
boat: Test
frames:
  - {number: 1-2, spacing: 200mm}
  - {number: 3, spacing: 350mm}
  - {number: 4-5, spacing: 300mm}
ends: [{member: stem}]
strakes:
  - {planks: P1, across: stem F1-5, thickness: 20mm, width: 150mm}
  - {planks: P2, across: stem F1-5, thickness: 20mm, width: 100mm}
  - {planks: P2a, across: F4-5, thickness: 20mm, width: 60mm}
  - {planks: P3, across: stem F1-5, thickness: 20mm, width: 80mm}
";
    let boat = boat(hull);
    let survey = survey(&boat);
    let told = json(&Map::new(&survey, Ask::State));
    let lies = |place: &str| {
        let crossings = told["crossings"].as_array().unwrap();
        let there = crossings.iter().find(|c| c["place"] == place).unwrap();
        ["along_mm", "across_mm"].map(|key| there[key].as_f64().unwrap())
    };
    assert_eq!(lies("P1 F1"), [0.0, 75.0]);
    assert_eq!(lies("P1 F3"), [400.0, 75.0]);
    assert_eq!(lies("P2 F5"), [1050.0, 200.0]);
    // Forward of the stealer the third strake lies on the second.
    assert_eq!(lies("P3 F2"), [200.0, 290.0]);
    assert_eq!(lies("P2a F5"), [1050.0, 280.0]);
    assert_eq!(lies("P3 F5"), [1050.0, 350.0]);
    // An end is a middling space beyond the last frame.
    assert_eq!(lies("P1 stem")[0], -270.0);
}

#[test]
fn many_holes_are_drawn_by_crossings_and_more_by_lots_of_these() {
    let hull = |frames: u32, strakes: u32, sets: &str| {
        format!(
            "refasten: 1\nboat: Test\nframes: [{{number: 1-{frames}, spacing: 9in}}]\nstrakes:\n  - {{planks: PS1-{strakes}, across: F1-{frames}, thickness: 1in, width: 5in}}\n{sets}"
        )
    };
    let sets = "sets:\n  - {set: built, place: PS all, per crossing: 3, kind: rivet, metal: copper, driven: 1950}\n";
    let boat_ = boat(&hull(90, 40, sets));
    let text = drawn(&survey(&boat_), Ask::State, Dress::Alone);
    let counted_ = counted(&Document::parse(&text).unwrap());
    assert_eq!(counted_["relied on"], (21_600, 7_200));

    let boat_ = boat(&hull(400, 80, ""));
    let text = drawn(&survey(&boat_), Ask::State, Dress::Alone);
    let counted_ = counted(&Document::parse(&text).unwrap());
    assert_eq!(counted_["nothing recorded"], (64_000, 16_000));
    assert!(text.len() < 4_000_000, "{}", text.len());
}

#[test]
fn within_a_page_every_colour_is_the_pages() {
    let boat = demo();
    let survey = survey(&boat);
    let text = drawn(&survey, Ask::Metal, Dress::Inlined);
    let used: Vec<&str> = text
        .split("var(")
        .skip(1)
        .map(|rest| rest.split(',').next().unwrap())
        .collect();
    assert!(used.len() > 10);
    for page in [page_colours(false), page_colours(true)] {
        for name in &used {
            assert!(page.contains(&format!("{name}:#")), "{name} in {page}");
        }
    }
    assert!(!text.contains(" id="));
    let alone = drawn(&survey, Ask::Metal, Dress::Alone);
    assert!(!alone.contains("var("));
}

static DEMO: LazyLock<Boat> = LazyLock::new(demo);

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    /// Whatever she is called, the drawing is well formed, says so in words, and is the same twice.
    #[test]
    fn a_drawing_is_well_formed_whatever_she_is_called(name in any::<String>()) {
        let mut hull = DEMO.hull.clone();
        hull.boat = name;
        let survey = survey_of(&hull, &DEMO).within(hull.crossing_ids().take(40));
        let text = drawn(&survey, Ask::State, Dress::Alone);
        prop_assert_eq!(&drawn(&survey, Ask::State, Dress::Alone), &text);
        let document = Document::parse(&text).unwrap();
        for tag in ["title", "desc"] {
            prop_assert!(document.root_element().children().any(|node| node.has_tag_name(tag)));
        }
        let scripts = document.descendants().filter(|node| node.has_tag_name("script"));
        prop_assert_eq!(scripts.count(), 0);
    }
}

#[test]
fn a_drawing_is_written_whole_to_a_file_or_to_standard_output() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("map.svg");
    fs::write(&path, "old").unwrap();
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo");
    let demo = demo.to_str().unwrap();
    let ran = refasten(&["map", "--boat", demo, "--drawing", path.to_str().unwrap()]);
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
    let piped = refasten(&["map", "--boat", demo, "--drawing", "-"]);
    assert_eq!(fs::read_to_string(&path).unwrap(), piped.stdout);
    assert!(piped.stdout.ends_with("</svg>\n"));
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
}
