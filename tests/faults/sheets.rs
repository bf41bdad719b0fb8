//! Spreadsheets that no owner would keep.

use std::fs;

use refasten::files::Folder;
use refasten::files::sheet::{Asked, Imported, Sheet, import};
use refasten::text::{Fault, draw};

const HULL: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-4, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
strakes:
  - {planks: PS1-2, across: F1-4, thickness: 1in, width: 5in, wood: western larch}
sets:
  - {set: built, place: PS all, per crossing: 2, kind: rivet, metal: copper, size: 8 SWG x 3in, bung: none, driven: 1958}
";

fn imported(csv: &[u8]) -> Result<Imported, Vec<Fault>> {
    let kept = tempfile::tempdir().unwrap();
    fs::write(kept.path().join("hull.yaml"), HULL).unwrap();
    let folder = Folder::open(kept.path()).unwrap();
    let sheet = Sheet::of("a.csv".to_owned(), csv);
    let asked = Asked::default();
    let done = import(&folder, &sheet, &asked, "2024-11-25".parse().unwrap());
    if let Err(faults) = &done {
        let folder = sheet.beside(folder);
        let mut drawn = Vec::new();
        draw(&mut drawn, faults, &folder.texts(), 80, false).unwrap();
        let drawn = String::from_utf8(drawn).unwrap();
        let is_raw = |c: char| c.is_control() && c != '\n';
        assert!(!drawn.contains(is_raw), "{drawn}");
    }
    done
}

/// What is said of a sheet with these cells in a row that is else sound.
fn says(row: &str) -> Vec<String> {
    let csv = format!("date,did,place,count,note\n{row}\n");
    let faults = imported(csv.as_bytes()).err().unwrap_or_default();
    faults.into_iter().map(|fault| fault.says).collect()
}

#[test]
fn cells_that_would_run_are_words_or_are_refused_by_name() {
    assert_eq!(says("2024-11-01,pulled,P1 F1,2,=cmd()"), [""; 0]);
    assert_eq!(
        says("2024-11-01,pulled,=cmd(),2,x"),
        ["cell C2 (row 2, place): `=cmd()` does not name planks"]
    );
    assert_eq!(
        says("2024-11-01,pulled,P1 F1,=1+1,x"),
        ["cell D2 (row 2, count): `=1+1` is not a whole number above 0"]
    );
}

#[test]
fn what_nobody_types_is_refused_by_name() {
    assert_eq!(
        says("2024-11-01,pulled,P1 F1,2,a\0b"),
        ["cell E2 (row 2, note): the character U+0000 stands in it"]
    );
    assert_eq!(
        says("2024-11-01,pulled,P1 F1,2,\u{1b}]0;x\u{7}"),
        ["cell E2 (row 2, note): the character U+001B stands in it"]
    );
    let long = "x".repeat(65_000);
    assert_eq!(
        says(&format!("2024-11-01,pulled,P1 F1,2,{long}{long}")),
        ["cell E2: it is longer than 64 KiB"]
    );
    // A cell may be as long as that, but no entry of the log may.
    let told = says(&format!(
        "2024-11-01,pulled,P1 F1,2,{long}x{}",
        "y".repeat(520)
    ));
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].starts_with("row 2: this record is "), "{told:?}");
}

#[test]
fn rows_of_another_length_are_read_or_named() {
    assert_eq!(says("2024-11-01,pulled,P1 F1"), [""; 0]);
    assert_eq!(says("2024-11-01,pulled,P1 F1,2,x,,,"), [""; 0]);
    assert_eq!(
        says("2024-11-01,pulled,P1 F1,2,off, and put back"),
        ["cell F2: no heading stands over it"]
    );
    assert_eq!(
        says("2024-11-01,pulled,P1 F1,2,\"off\n2024-11-01,pulled,P1 F2,2,x"),
        ["cell E2: the quote that opens here is never closed"]
    );
    assert_eq!(says("2024-11-01,,P1 F1"), ["row 2: `did` is missing"]);
}

#[test]
fn a_sheet_without_rows_or_headings_says_so() {
    let says = |csv: &str| {
        imported(csv.as_bytes()).err().unwrap_or_default()[0]
            .says
            .clone()
    };
    assert_eq!(says(""), "the sheet is empty");
    assert_eq!(says("\n,,\n"), "the sheet is empty");
    assert_eq!(
        says("date,did,place\n\n"),
        "the sheet has headings and no row under them"
    );
    assert_eq!(
        says("a,b\n1,2\n"),
        "row 1: none of its cells is a heading that is known"
    );
}

#[test]
fn a_line_that_names_the_separator_is_followed() {
    for (named, sign) in [("sep=;", ";"), ("sep=\t", "\t"), ("\"sep=;\"", ";")] {
        let csv = format!("{named}\ndate,did,place\n2024-11-01,pulled,P1 F1\n").replace(',', sign);
        assert_eq!(imported(csv.as_bytes()).unwrap().added.len(), 1, "{named}");
    }
}

#[test]
fn ten_megabytes_of_anything_are_refused_in_a_few_words() {
    let head = "date,did,place,note\n";
    let far = format!("{head}{}2024-11-01,pulled,P1 F1\n", "\n".repeat(100_000));
    let faults = imported(far.as_bytes()).err().unwrap_or_default();
    assert_eq!(faults[0].says, "the sheet has more than 100 thousand rows");
    for word in [
        "a",
        ",",
        ";",
        "\"",
        "\n",
        "\r",
        "\0",
        "=1,",
        "a,b\n",
        "2024-11-01,",
        "\u{feff}",
        "\\u{1b}",
        "3/8,\n",
    ] {
        let many = word.repeat(10 * 1024 * 1024 / word.len());
        // One of them as the headings, and each as the first row.
        let heads: &[&str] = if word == "a" { &["", head] } else { &[head] };
        for head in heads {
            let csv = format!("{head}{many}");
            let faults = imported(csv.as_bytes()).err().unwrap_or_default();
            assert!(!faults.is_empty(), "{word:?}");
            assert!(faults.len() <= 3000, "{word:?}: {}", faults.len());
            let longest = faults.iter().map(|fault| fault.says.len()).max();
            assert!(longest < Some(1000), "{word:?}: {longest:?}");
        }
    }
}
