//! A table that breaks a law is refused with its file and line.

use std::fs;
use std::path::Path;

use super::make;

const SOURCES: &str = "table: sources\ntitle: t\ncolumns:\n  - {name: key, kind: name}\n  \
    - {name: publication, kind: words}\nrows:\n  - {key: BOOK, publication: A book}\n";

/// What is wrong with a file `woods` of these lines, beside a list of sources.
fn refused(lines: &[&str]) -> Vec<String> {
    let text = lines.join("\n");
    let files = [("sources", SOURCES), ("woods", text.as_str())];
    let faults = make::run(&files).err().unwrap_or_default();
    faults.iter().map(ToString::to_string).collect()
}

/// The faults of a table of one figure column with these rows.
fn with_rows(column: &str, rows: &[&str]) -> Vec<String> {
    let mut lines = vec![
        "table: t",
        "title: t",
        "columns:",
        "  - {name: name, kind: name}",
    ];
    lines.extend([column, "rows:"]);
    lines.extend(rows);
    refused(&lines)
}

const FIGURE: &str = "  - {name: g, kind: number, source: BOOK, status: read, rising: true}";

#[test]
fn the_tables_themselves_keep_their_laws() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tables");
    let mut files = Vec::new();
    for entry in fs::read_dir(&root).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|end| end == "yaml") {
            let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
            assert!(make::FILES.contains(&name.as_str()), "{name} is not built");
            files.push((name, fs::read_to_string(&path).unwrap()));
        }
    }
    let files: Vec<_> = files
        .iter()
        .map(|(n, t)| (n.as_str(), t.as_str()))
        .collect();
    assert_eq!(files.len(), make::FILES.len());
    assert_eq!(make::run(&files).err(), None);
}

#[test]
fn a_lawful_table_is_taken() {
    assert!(with_rows(FIGURE, &["  - {name: a, g: .5}", "  - {name: b, g: 1/1}"]).is_empty());
}

#[test]
fn figures_that_do_not_rise() {
    assert_eq!(
        with_rows(
            FIGURE,
            &["  - {name: a, g: .5}", "# note", "  - {name: b, g: .50}"]
        ),
        ["tables/woods.yaml:9: `g` does not rise: .50"]
    );
}

#[test]
fn a_name_that_means_two_rows() {
    assert_eq!(
        with_rows(
            FIGURE,
            &[
                "  - {name: red cedar, g: .5}",
                "  - {name: Red-Cedar, g: .6}"
            ]
        ),
        ["tables/woods.yaml:8: `Red-Cedar` already names the row of line 7"]
    );
}

#[test]
fn keys_and_figures_that_cannot_be_read() {
    assert_eq!(
        with_rows(
            FIGURE,
            &["  - {name: a, g: .5, h: 1}", "  - {name: b, g: heavy}"]
        ),
        [
            "tables/woods.yaml:7: there is no column `h`",
            "tables/woods.yaml:8: `g`: `heavy` is not a number of at most six decimals",
        ]
    );
    assert_eq!(
        with_rows(FIGURE, &["  - {name: a, g: .5, g: .6}"]),
        ["tables/woods.yaml:7: `g` is given twice"]
    );
    let unknown = with_rows(
        "  - {name: g, kind: number, unti: in}",
        &["  - {name: a, g: 1}"],
    );
    assert_eq!(unknown.len(), 1);
    assert!(
        unknown[0].starts_with("tables/woods.yaml:5: unknown field `unti`"),
        "{unknown:?}"
    );
    let needed = "  - {name: g, kind: length, unit: in, source: BOOK, status: read, needed: true}";
    assert_eq!(
        with_rows(needed, &["  - {name: a}", "  - {name: b, g: 7/8in}"]),
        [
            "tables/woods.yaml:7: `g` is missing",
            "tables/woods.yaml:8: `g`: `7/8in` is not a length in the column's unit, in or mm",
        ]
    );
}

#[test]
fn figures_without_source_or_status() {
    let bare = "  - {name: g, kind: number}";
    assert_eq!(
        with_rows(
            bare,
            &["  - {name: a, g: .5}", "  - {name: b, g: .6, source: BOOK}"]
        ),
        [
            "tables/woods.yaml:7: `g` has neither source nor status",
            "tables/woods.yaml:8: a source without a status",
        ]
    );
    let rows = [
        "  - {name: a, g: .5, source: OTHER, status: read}",
        "  - {name: b, g: .6, status: read}",
        "  - {name: c, g: .6, source: BOOK, status: practice}",
        "  - {name: d, g: .6, status: derived}",
        "  - {name: e, g: .6, source: BOOK, status: known}",
    ];
    assert_eq!(
        with_rows(bare, &rows[4..]),
        ["tables/woods.yaml:7: status is read, transcribed, derived, memory or practice"]
    );
    assert_eq!(
        with_rows(bare, &rows[..4]),
        [
            "tables/woods.yaml:7: there is no source `OTHER`",
            "tables/woods.yaml:8: what was read or transcribed has a source",
            "tables/woods.yaml:9: common practice has no source",
            "tables/woods.yaml:10: what is derived or from memory has a source or a note",
        ]
    );
    let column = "  - {name: g, kind: number, source: OTHER, status: read}";
    assert_eq!(
        with_rows(column, &["  - {name: a, g: .5}"]),
        ["tables/woods.yaml:1: column `g`: there is no source `OTHER`"]
    );
}

#[test]
fn cells_on_another_ground() {
    assert_eq!(
        with_rows(FIGURE, &["  - {name: a, g: .5, except: {g: elsewhere}}"]),
        ["tables/woods.yaml:7: there is no ground `elsewhere`"]
    );
    assert_eq!(
        with_rows(FIGURE, &["  - {name: a, g: .5, except: {h: elsewhere}}"]),
        ["tables/woods.yaml:7: `except` names `h`, which the row does not have"]
    );
}

/// The published figures of one file, with one of them changed.
fn spoiled(file: &str, from: &str, to: &str) -> Vec<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tables");
    let read = |name: &str| fs::read_to_string(root.join(format!("{name}.yaml"))).unwrap();
    let (sources, text) = (read("sources"), read(file));
    assert_eq!(text.matches(from).count(), 1, "{from}");
    let text = text.replace(from, to);
    let files = [("sources", sources.as_str()), (file, text.as_str())];
    let faults = make::run(&files).err().unwrap_or_default();
    let line = |fault: &make::Fault| {
        let fault = fault.to_string();
        let says = fault.split(": ").skip(1).collect::<Vec<_>>();
        says.join(": ")
    };
    faults.iter().map(line).collect()
}

/// Plate 6B's fraction 3/32 beside its own drill No. 14, .182 in, is a misprint.
#[test]
fn the_misprint_of_plate_6b_is_refused() {
    let (from, to) = (
        "hard drill: No. 14, hard: .1820",
        "hard drill: No. 14, hard: .1820, hard fraction: 3/32",
    );
    let faults = spoiled("lead-holes", from, to);
    assert_eq!(faults, ["`hard` and `hard fraction` are not the same hole"]);
}

#[test]
fn ranges_the_wrong_way_round_are_refused() {
    let (from, to) = ("active: -0.29, noble: -0.25", "active: -0.25, noble: -0.29");
    assert_eq!(spoiled("metals", from, to), ["`active` is over `noble`"]);
    let faults = spoiled("metals", "midpoint: -0.270", "midpoint: -0.275");
    assert_eq!(faults, ["`midpoint` is not halfway from active to noble"]);
    let (from, to) = (
        "head largest: .507, head smallest: .452",
        "head largest: .507, head smallest: .512",
    );
    let faults = spoiled("screws", from, to);
    assert!(
        faults.contains(&"`head smallest` is over `head largest`".to_owned()),
        "{faults:?}"
    );
}

#[test]
fn a_metal_with_two_verdicts_or_none_in_a_zone_is_refused() {
    let monel = "metals: Monel, zones: wind and water";
    let faults = spoiled("metals", monel, "metals: Monel, zones: underwater");
    assert_eq!(faults, ["a second verdict for `underwater`"]);
    let faults = spoiled("metals", monel, "metals: Monel, zones: bilge");
    assert_eq!(faults, ["`bilge` is not a zone"]);
    let faults = spoiled("metals", monel, "metals: copper, zones: underwater");
    assert_eq!(faults, ["a second verdict for `underwater`"]);
    let faults = spoiled(
        "metals",
        "metals: Monel, zones: underwater",
        "metals: monel, zones: underwater",
    );
    assert_eq!(faults, ["`monel` has no verdict for some zone"]);
    let (from, to) = ("dealloys: no, fits: Monel", "dealloys: no, fits: nickel");
    let faults = spoiled("metals", from, to);
    assert_eq!(
        faults,
        ["`fits`: there is no `nickel` in the table metal-fits"]
    );
}

#[test]
fn a_bending_yield_that_is_not_halfway() {
    let lines = [
        "table: strengths",
        "title: t",
        "columns:",
        "  - {name: yield, kind: number, source: BOOK, status: read}",
        "  - {name: tensile, kind: number, source: BOOK, status: read}",
        "  - {name: bending yield, kind: number, source: BOOK, status: derived}",
        "rows:",
        "  - {yield: 20, tensile: 50, bending yield: 35}",
        "  - {yield: 20, tensile: 50, bending yield: 50}",
        "  - {yield: 50, tensile: 20, bending yield: 35}",
    ];
    assert_eq!(
        refused(&lines),
        [
            "tables/woods.yaml:9: `bending yield` is not halfway from yield to tensile",
            "tables/woods.yaml:10: `yield` is over `tensile`",
        ]
    );
}
