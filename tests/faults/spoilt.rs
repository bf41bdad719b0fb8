//! Whole files of anything, as hull, log, plan and spreadsheet: told in a few words, whatever it is.

use super::demo::{demo, run};
use super::fuzz;

/// So many bytes of each. The released program was tried by hand with ten megabytes of them.
const SIZE: usize = 20 * 1024;

fn of(word: &str) -> Vec<u8> {
    word.repeat(SIZE / word.len()).into_bytes()
}

/// A file with `word` over and over in one record, which is nearly as long as the file.
fn in_records(before: &str, word: &str, after: &str) -> Vec<u8> {
    let inside = word.repeat(18_000 / word.len());
    let record = format!("{before}{inside}{after}\n");
    record.repeat(SIZE / record.len()).into_bytes()
}

/// Bytes that are the same every time and mean nothing.
fn noise() -> impl Iterator<Item = u32> {
    (1_u32..).map(|n| n.wrapping_mul(2_654_435_761).rotate_left(n % 31))
}

fn any_file() -> Vec<(String, Vec<u8>)> {
    let words = [
        "[",
        "{",
        "- ",
        " ",
        "\n",
        "\r\n",
        "\r",
        "\t",
        "\"",
        "'",
        "a",
        "9",
        ",",
        ";",
        ":",
        "? ",
        "#",
        "# x\n",
        "a:\n",
        "boat: x\n",
        "a: {b: ",
        "- {entry: 1}\n",
        "- entry: 1\n",
        "- {\n",
        "- {entry: 1, date: 2024-10-03, did: checked, place: P1 F1}\n",
        "- {entry: 1, date: 2024-10-03, did: checked, place: Q9 F999}\n",
        "<<<<<<< a\n=======\n>>>>>>> b\n",
        "- {note: \"\\x1b\\u202e\"}\n",
        "\u{1b}[31m",
        "\u{202e}",
        "\u{feff}",
        "\0",
        "=cmd(),",
        "- {a: &a [*a, *a]}\n",
        "- !!str a\n",
        "---\n",
        "2024-11-01,pulled,P1 F1\n",
        "refasten: 1\nboat: Test\n",
        "\u{1F6A2}é–",
    ];
    let mut files: Vec<(String, Vec<u8>)> = words
        .iter()
        .map(|word| (format!("{word:?}"), of(word)))
        .collect();
    let entry = "- {entry: 1, date: 2024-10-03, did: checked, place: ";
    for (before, word, after) in [
        (entry, "P1 F1 and ", "P1 F1}"),
        (entry, "1-40+", "}"),
        ("- {entry: 1, date: 2024-10-03, did: ", "x", "}"),
        ("- {entry: 1, date: 2024-10-03, did: ", "\u{e9}", "}"),
        ("- {entry: 1, found: [", "wasted, ", "wasted]}"),
        ("- {entry: 1, note: \"", "\\\"", "\"}"),
        ("- {entry: 1, note: \"", "x\n  ", "\"}"),
        ("- {entry: ", "9", "}"),
        ("- {", "note: x, ", "note: x}"),
        ("- {", "plaice: x, ", "note: x}"),
        ("- entry: 1", "\n  note: x", ""),
    ] {
        files.push((format!("{before}{word}"), in_records(before, word, after)));
    }
    let mut keys = String::new();
    (0..SIZE / 10).for_each(|n| keys += &format!("k{n}: x\n"));
    files.push(("keys, each another".to_owned(), keys.into_bytes()));
    let bytes = noise().take(SIZE).map(|n| n.to_le_bytes()[3]).collect();
    files.push(("bytes".to_owned(), bytes));
    let letters = noise().filter_map(char::from_u32).take(SIZE / 4);
    files.push((
        "letters".to_owned(),
        letters.collect::<String>().into_bytes(),
    ));
    files
}

#[test]
fn any_file_is_told_of_in_a_few_words() {
    for (name, bytes) in any_file() {
        println!("{}", name.chars().take(100).collect::<String>());
        fuzz::hull(&bytes);
        fuzz::log(&bytes);
        fuzz::plan(&bytes);
        fuzz::csv(&bytes);
        // And after a good beginning.
        fuzz::hull(&[fuzz::HULL.as_bytes(), &bytes].concat());
        fuzz::csv(&[b"date,did,place,note\n", bytes.as_slice()].concat());
    }
}

#[test]
fn every_list_of_a_hull_may_be_spoilt() {
    for list in [
        "frames",
        "beams",
        "ends",
        "strakes",
        "names",
        "waterline",
        "zones",
        "joints",
        "graving pieces",
        "hardware",
        "sets",
        "limits",
        "accepted",
        "own",
        "boxes",
    ] {
        for item in [
            "  - x\n",
            "  - {}\n",
            "  - {x: 1}\n",
            "  - [\n",
            "  - {place: P1 F1}\n",
            "  -\n",
        ] {
            let head = fuzz::HULL.replace(&format!("\n{list}:"), "\nown:");
            let file = format!("{head}{list}:\n{}", item.repeat(2000));
            fuzz::hull(file.as_bytes());
        }
    }
}

#[test]
fn numbers_without_end_are_refused_in_a_few_words() {
    let digits = "9".repeat(10_000);
    let entry = "- {entry: 1, date: 2024-10-03, did: ";
    for record in [
        format!("- {{entry: {digits}, date: 2024-10-03, did: checked, place: P1 F1}}\n"),
        format!("- {{entry: 1, date: {digits}, did: checked, place: P1 F1}}\n"),
        format!("{entry}checked, place: P{digits} F1}}\n"),
        format!("{entry}checked, place: P1 F1-{digits}}}\n"),
        format!("{entry}checked, place: P1 F1.{digits}}}\n"),
        format!("{entry}checked, place: P1 F1, count: {digits}}}\n"),
        format!("{entry}measured, place: P1 F1.1, diameter: {digits}in}}\n"),
        format!("{entry}measured, place: P1 F1.1, diameter: 0.{digits}in}}\n"),
        format!("{entry}measured, place: P1 F1.1, diameter: 1/{digits}in}}\n"),
        format!("{entry}driven, place: P1 F1, per crossing: {digits}, kind: rivet}}\n"),
        format!("{entry}driven, place: P1 F1, kind: rivet, size: {digits} SWG x 3in}}\n"),
        format!("{entry}struck, strikes: \"{digits} pulled P1 F1\"}}\n"),
    ] {
        let (_kept, folder) = fuzz::folder(fuzz::HULL.as_bytes(), record.as_bytes(), b"");
        assert!(fuzz::read(&folder).is_none(), "{}", &record[..60]);
        let faults = folder.boat("2024-11-25".parse().unwrap()).unwrap_err();
        let longest = faults.iter().map(|fault| fault.says.len()).max();
        assert!(longest < Some(1500), "{longest:?}: {}", &record[..60]);
    }
}

#[test]
fn files_in_utf_16_are_told_in_one_sentence() {
    let log = "# refasten log 1\n- {entry: 1, date: 2024-10-03, did: checked, place: P1 F10}\n";
    let sheet = "date,did,place\n2024-11-24,checked,P5 F20\n";
    let little =
        |text: &str| -> Vec<u8> { text.encode_utf16().flat_map(u16::to_le_bytes).collect() };
    let big = |text: &str| -> Vec<u8> { text.encode_utf16().flat_map(u16::to_be_bytes).collect() };
    for (file, text, args) in [
        (
            "demo/hull.yaml",
            "refasten: 1\nboat: Test\n",
            &["audit"][..],
        ),
        ("demo/log.yaml", log, &["audit"]),
        ("demo/plan.yaml", "- {plan: \"bilge\"}\n", &["todo"]),
        ("rows.csv", sheet, &["import", "rows.csv"]),
    ] {
        let marked = format!("\u{feff}{text}");
        for bytes in [little(text), big(text), little(&marked), big(&marked)] {
            let folder = demo();
            std::fs::write(folder.path().join(file), bytes).unwrap();
            let ran = run(folder.path(), args);
            assert_eq!(ran.code, Some(2), "{file}");
            assert!(ran.stderr.contains("UTF-16"), "{file}: {}", ran.stderr);
            assert_eq!(ran.stderr.matches("error: ").count(), 1, "{}", ran.stderr);
            assert!(ran.stderr.contains("help: ") && ran.stdout.is_empty());
        }
    }
}

#[test]
fn a_short_text_that_names_every_crossing_again_and_again_is_refused() {
    let hull = "refasten: 1\nboat: Test\nframes:\n  - {number: 1-99, siding: 1in}\nstrakes:\n  - {planks: PS1-9, across: F1-99, thickness: 1in}\n";
    let all = |times: usize| vec!["PS all"; times].join(" and ");
    let says = |hull: &str, log: &str| -> Vec<String> {
        let (_kept, folder) = fuzz::folder(hull.as_bytes(), log.as_bytes(), b"");
        let faults = folder.boat("2024-11-25".parse().unwrap()).err();
        faults
            .unwrap_or_default()
            .into_iter()
            .map(|fault| fault.says)
            .collect()
    };
    let zone = |times: usize| {
        format!(
            "{hull}zones:\n  - {{zone: inside, place: {}}}\n",
            all(times)
        )
    };
    assert_eq!(says(&zone(50), ""), [""; 0]);
    let told = says(&zone(100), "");
    assert!(
        told.len() == 1 && told[0].starts_with("a place may name 100000"),
        "{told:?}"
    );
    let entry = format!(
        "- {{entry: 1, date: 2024-10-03, did: checked, place: {}}}\n",
        all(100)
    );
    let told = says(hull, &entry);
    assert!(
        told.len() == 1 && told[0].starts_with("a place may name 100000"),
        "{told:?}"
    );
}

#[test]
fn what_a_file_that_is_no_text_would_have_said_is_not_missed() {
    let folder = demo();
    for file in ["hull.yaml", "log.yaml", "plan.yaml"] {
        let path = folder.path().join("demo").join(file);
        let before = std::fs::read(&path).unwrap();
        let mut spoilt = before.clone();
        spoilt[100] = 0xFF;
        std::fs::write(&path, spoilt).unwrap();
        let told = run(folder.path(), &["check"]).stderr;
        assert_eq!(told.matches("error: ").count(), 1, "{told}");
        assert!(told.contains("the byte FF is not UTF-8 text"), "{told}");
        std::fs::write(&path, before).unwrap();
    }
}
