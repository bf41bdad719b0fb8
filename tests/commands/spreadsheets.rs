//! A sheet kept by hand for a whole season, with every kind of slip in it, brought in.

use std::fs;
use std::path::Path;

use super::run::refasten;

const HEADS: [&str; 13] = [
    "What was done",
    "Size",
    "Plank/frame",
    "Dia.",
    "Date done",
    "Condition",
    "count",
    "Bung",
    "per crossing",
    "Fastening",
    "Metal",
    "Who",
    "Remarks",
];

/// Fifty places of two crossings, each drawn, doweled, driven and bunged anew: 200 rows, a blank one
/// after every 25.
fn rows() -> Vec<[String; 13]> {
    let strakes = ["P7", "S7", "P8", "S8", "P9"];
    let places = strakes.iter().flat_map(|strake| {
        (0..12).map(move |pair| format!("{strake} F{}\u{2013}{}", 2 * pair + 1, 2 * pair + 2))
    });
    let sizes = [
        "14 x 1\u{be}\u{2033}",
        "14 x 1-3/4 in",
        "14 x 44,45 mm",
        "No. 14 x 1 3/4\"",
    ];
    let bungs = ["\u{bd}\" x \u{bc}\"", "12,7mm x 6,35 mm", "1/2in x 1/4in"];
    let mut rows = Vec::new();
    for (at, place) in places.take(50).enumerate() {
        let day = |after: usize| format!("{:02}/{:02}/2024", 1 + after + at % 20, 3 + at / 20);
        let row = |did: &str, after: usize| {
            let mut row: [String; 13] = Default::default();
            row[0] = did.to_owned();
            row[2] = place.clone();
            row[4] = day(after);
            row[11] = "W. Tarrow".to_owned();
            row
        };
        let mut drawn = row("drawn", 0);
        (drawn[5], drawn[6]) = ("wasted".to_owned(), "4".to_owned());
        drawn[12] = "roves cut off; \"clean\"\nfrom inside".to_owned();
        let doweled = row("dowelled", 1);
        let mut driven = row("driven", 2);
        driven[1] = sizes[at % sizes.len()].to_owned();
        driven[6] = "4.0".to_owned();
        driven[7] = bungs[at % bungs.len()].to_owned();
        driven[8] = "2".to_owned();
        (driven[9], driven[10]) = ("screw".to_owned(), "silicon bronze".to_owned());
        let bunged = row("bunged", 3);
        rows.extend([drawn, doweled, driven, bunged]);
    }
    rows
}

/// The sheet as a program of the continent saves it, and the row each of the rows stands on.
fn sheet(heads: &[&str], rows: &[[String; 13]], more: &[(usize, &str)]) -> (String, Vec<usize>) {
    let quote = |cell: &String| match cell.contains([';', '"', '\n']) {
        true => format!("\"{}\"", cell.replace('"', "\"\"")),
        false => cell.clone(),
    };
    let mut text = format!("{}\r\n", heads.join(";"));
    let (mut at, mut line) = (Vec::new(), 2);
    for (number, row) in rows.iter().enumerate() {
        if number % 25 == 24 {
            text += ";;;;;;;;;;;;\r\n";
            line += 1;
        }
        text += &row.iter().map(quote).collect::<Vec<_>>().join(";");
        for (_, cell) in more.iter().filter(|(of, _)| *of == number) {
            text += &format!(";;;{cell}");
        }
        text += "\r\n";
        at.push(line);
        line += 1;
    }
    (text, at)
}

/// The demo's hull with an empty log.
fn bare(folder: &Path) -> String {
    fs::create_dir_all(folder).unwrap();
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/hull.yaml");
    fs::copy(demo, folder.join("hull.yaml")).unwrap();
    folder.display().to_string()
}

#[test]
fn twelve_slips_in_two_hundred_rows_are_named_and_the_mended_sheet_goes_round() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    let (one, two) = (bare(&path("one")), bare(&path("two")));
    let file = path("season.csv").display().to_string();
    let import = |boat: &str, file: &str, more: &[&str]| {
        refasten(&[&["import", file, "--boat", boat], more].concat())
    };
    let order = ["--dates", "day-month-year"];

    let mended = rows();
    let mut wrong = mended.clone();
    // Row, column, what stands there, and what is said of it.
    let slips: [(usize, usize, &str, &str); 10] = [
        (2, 7, "03-Aug", "is a date: it was probably 3/8"),
        (
            5,
            0,
            "dowled in",
            "`dowled in` is not a thing that can be done",
        ),
        (8, 4, "31/02/2024", "`31/02/2024` is no day of the calendar"),
        (14, 1, "14 x 1-3/4", "`1-3/4` has no unit"),
        (18, 10, "silikon bronz", "`silikon bronz` is not a metal"),
        (23, 2, "P7 F40", "P7 does not cross F40"),
        (24, 5, "rotton", "`rotton` is not a thing that can be found"),
        (31, 5, "sound", "`found` does not go with `bunged`"),
        (34, 7, "12,700mm", "may part thousands or begin decimals"),
        (40, 6, "5", "the count is 5, but 4 would be pulled"),
    ];
    for (row, column, cell, _) in slips {
        wrong[row][column] = cell.to_owned();
    }
    let mut heads = HEADS;
    heads[3] = "Weather";
    let (text, at) = sheet(&heads, &wrong, &[(199, "stray")]);
    fs::write(&file, text).unwrap();
    let ran = import(&one, &file, &order);
    assert_eq!(ran.code, Some(2), "{}", ran.stderr);
    assert!(
        ran.stderr
            .ends_with("12 faults in 1 file; nothing was written\n"),
        "{}",
        ran.stderr
    );
    assert!(!path("one/log.yaml").exists());
    // Words are parted by one blank, however they were broken into lines.
    let said = ran.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    for (row, column, _, says) in slips {
        let letter = char::from(b'A' + u8::try_from(column).unwrap());
        let name = format!("error: cell {letter}{}", at[row]);
        let told = said
            .split("error: ")
            .find(|told| format!("error: {told}").starts_with(&format!("{name} ")));
        assert!(
            told.is_some_and(|told| told.contains(says)),
            "{name}: {says}\n{}",
            ran.stderr
        );
    }
    assert!(
        said.contains("error: cell D1: `Weather` is no heading that is known"),
        "{said}"
    );
    let stray = format!("error: cell P{}: no heading stands over it", at[199]);
    assert!(said.contains(&stray), "{said}");

    let (text, _) = sheet(&HEADS, &mended, &[]);
    fs::write(&file, text).unwrap();
    let asked = import(&one, &file, &[]);
    assert!(
        asked
            .stderr
            .contains("may be 2024-03-01 or 2024-01-03, and"),
        "{}",
        asked.stderr
    );
    let tried = import(&two, &file, &[&order[..], &["--dry-run"]].concat());
    assert_eq!(tried.code, Some(0), "{}", tried.stderr);
    assert!(
        tried
            .stdout
            .contains("would add entries 1 to 200, from 200 rows of "),
        "{}",
        tried.stdout
    );
    let left: Vec<_> = fs::read_dir(path("two")).unwrap().collect();
    assert_eq!(left.len(), 1, "a look leaves nothing behind");
    let done = import(&one, &file, &order);
    assert!(
        done.stdout
            .contains("added entries 1 to 200, from 200 rows of "),
        "{}",
        done.stdout
    );
    let again = import(&one, &file, &order);
    assert_eq!(again.code, Some(2));
    assert!(
        again
            .stderr
            .contains("every row of this sheet is in the log already"),
        "{}",
        again.stderr
    );

    let out = path("out.csv").display().to_string();
    fs::write(&out, refasten(&["export", "--boat", &one]).stdout).unwrap();
    assert_eq!(import(&two, &out, &[]).code, Some(0));
    let each = |boat: &str| refasten(&["show", "--each", "--boat", boat]).stdout;
    assert_eq!(each(&one), each(&two));
    let table = refasten(&["export", "fastenings", "--boat", &one]).stdout;
    let new = "driven 2024,wood screw,silicon bronze,14 x 1-3/4in,";
    assert_eq!(table.matches(new).count(), 200);
    let lines = |boat: &str| fs::read_to_string(Path::new(boat).join("log.yaml")).unwrap();
    assert_eq!(lines(&one), lines(&two));
}

#[test]
fn the_demo_goes_round_and_its_tables_open_without_a_formula_or_a_new_date() {
    let folder = tempfile::tempdir().unwrap();
    let copy = bare(&folder.path().join("copy"));
    let demo = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("demo")
        .display()
        .to_string();
    fs::copy(
        Path::new(&demo).join("plan.yaml"),
        folder.path().join("copy/plan.yaml"),
    )
    .unwrap();
    let out = folder.path().join("out.csv").display().to_string();
    fs::write(&out, refasten(&["export", "--boat", &demo]).stdout).unwrap();
    let ran = refasten(&["import", &out, "--boat", &copy]);
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    let each = |boat: &str| refasten(&["show", "--each", "--boat", boat]).stdout;
    assert_eq!(each(&copy), each(&demo));
    for table in ["entries", "sets", "fastenings"] {
        let csv = refasten(&["export", table, "--boat", &demo]).stdout;
        assert!(csv.starts_with('\u{feff}'));
        assert_eq!(csv.matches('\n').count(), csv.matches("\r\n").count());
        let mut reader = csv::Reader::from_reader(csv.as_bytes());
        let dates: Vec<bool> = reader
            .headers()
            .unwrap()
            .iter()
            .map(|head| {
                ["date", "written", "driven"].contains(&head.trim_start_matches('\u{feff}'))
            })
            .collect();
        for row in reader.records() {
            for (cell, is_date) in row.unwrap().iter().zip(&dates) {
                assert!(!cell.starts_with(['=', '+', '-', '@']), "{cell}");
                let is_like_one = cell.len() > 4
                    && cell
                        .chars()
                        .all(|c| c.is_ascii_digit() || "-/.".contains(c));
                assert!(
                    !is_like_one || *is_date && cell.len() == 10,
                    "{table}: {cell}"
                );
            }
        }
    }
    let as_of = refasten(&[
        "export",
        "fastenings",
        "--as-of",
        "2024-10-01",
        "--boat",
        &demo,
    ])
    .stdout;
    let today = refasten(&["export", "fastenings", "--boat", &demo]).stdout;
    assert!(as_of.lines().count() < today.lines().count());
    for table in ["entries", "sets", "fastenings"] {
        let json = refasten(&["export", table, "--format", "json", "--boat", &demo]).stdout;
        let read: serde_json::Value = serde_json::from_str(&json).unwrap();
        let csv = refasten(&["export", table, "--boat", &demo]).stdout;
        let rows = csv::Reader::from_reader(csv.as_bytes()).records().count();
        assert_eq!(read["rows"].as_array().map(Vec::len), Some(rows), "{table}");
    }
}
