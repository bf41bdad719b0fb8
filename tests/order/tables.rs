//! The tables as the program carries them.

use std::collections::HashSet;

use refasten::show::tables as show;
use refasten::tables::{Limit, Metal, Quantity, Status, Table, Wood};

/// Every figure of every table has a status, and a source unless it is common practice, recalled
/// or derived with a note that says from what.
#[test]
fn every_figure_has_a_source_and_a_status() {
    let mut figures = 0;
    for table in Table::all() {
        for row in table.rows {
            assert_eq!(row.len(), table.columns.len(), "{}", table.name);
            for (column, cell) in table.columns.iter().zip(*row) {
                if column.label || cell.text.is_empty() {
                    continue;
                }
                let what = format!("{}: {} {}", table.name, column.name, cell.text);
                let basis = cell.basis.unwrap_or_else(|| panic!("{what} has no basis"));
                match (basis.status, basis.source) {
                    (Status::Practice, source) => assert!(source.is_none(), "{what}"),
                    (Status::Read | Status::Transcribed, source) => {
                        assert!(source.is_some(), "{what}");
                    }
                    (Status::Derived | Status::Memory, source) => {
                        assert!(source.is_some() || !basis.note.is_empty(), "{what}");
                    }
                }
                figures += 1;
            }
        }
    }
    assert!(figures > 1500, "{figures} figures");
}

/// The tables the program speaks of are all there, each under one name.
#[test]
fn every_table_has_one_name() {
    let names: HashSet<&str> = Table::all().iter().map(|table| table.name).collect();
    assert_eq!(names.len(), Table::all().len());
    for file in super::make::FILES {
        assert!(
            names.contains(file),
            "no table has the name of its file {file}"
        );
    }
}

/// Every name and alias finds its own row.
#[test]
fn every_name_and_alias_finds_its_row() {
    for wood in Wood::all() {
        for name in std::iter::once(&wood.name).chain(wood.aliases) {
            assert_eq!(Wood::find(name).unwrap().name, wood.name);
        }
    }
    for metal in Metal::all() {
        for name in std::iter::once(&metal.name).chain(metal.aliases) {
            assert_eq!(Metal::find(name).unwrap().name, metal.name);
        }
    }
    for limit in Limit::all() {
        assert_eq!(Limit::find(limit.name).unwrap(), limit);
        assert_eq!(Limit::get(limit.name), limit);
    }
}

/// What a limit prints is read back as the same limit, and another dimension is refused.
#[test]
fn every_limit_reads_back_what_it_prints() {
    for limit in Limit::all() {
        let read = limit.is.parse_like(&limit.is.to_string()).unwrap();
        match (read, limit.is) {
            // A third prints as 33.3 %.
            (Quantity::Share(read), Quantity::Share(is)) => assert!((read - is).abs() < 0.0005),
            (read, is) => assert_eq!(read, is, "{}", limit.name),
        }
        for odd in [
            "",
            "inf",
            "-1",
            "1e9",
            "soon",
            "NaN",
            "99999999999999999999",
        ] {
            assert!(
                limit.is.parse_like(odd).is_err(),
                "{} took {odd}",
                limit.name
            );
        }
    }
    let volts = const { Limit::get("dissimilar difference") }.is;
    assert_eq!(volts.parse_like("250 mV").unwrap().to_string(), "0.25 V");
    assert!(
        volts
            .parse_like("0.25")
            .unwrap_err()
            .help
            .unwrap()
            .contains("unit")
    );
    let share = const { Limit::get("plank loose for stop") }.is;
    assert_eq!(share.parse_like("1/4"), share.parse_like("25%"));
    assert!(share.parse_like("4/1").is_err());
}

/// No line is wider than the terminal, whatever its width, and no figure is lost.
#[test]
fn tables_keep_to_the_width_of_the_terminal() {
    for table in Table::all() {
        for width in [72, 80, 100, 160] {
            let mut out = Vec::new();
            show::table(&mut out, table, width.into()).unwrap();
            let text = String::from_utf8(out).unwrap();
            for line in text.lines() {
                let long = line.chars().count();
                assert!(
                    long <= usize::from(width),
                    "{}: {long} > {width}: {line}",
                    table.name
                );
                assert!(!line.ends_with(' '), "{}: {line:?}", table.name);
            }
            for row in table.rows {
                for (column, cell) in table.columns.iter().zip(*row) {
                    // What has blanks may be wrapped.
                    let whole = !column.label && !cell.text.contains(' ');
                    assert!(
                        !whole || text.contains(cell.text),
                        "{} {}",
                        table.name,
                        cell.text
                    );
                }
            }
        }
    }
    let mut out = Vec::new();
    show::list(&mut out, 80.into()).unwrap();
    let text = String::from_utf8(out).unwrap();
    assert!(text.lines().all(|line| line.chars().count() <= 80));
    assert!(Table::all().iter().all(|table| text.contains(table.title)));
}

/// In JSON every figure names its basis by number, and every basis its status.
#[test]
fn json_carries_the_basis_of_every_figure() {
    for table in Table::all() {
        let mut out = Vec::new();
        show::table_json(&mut out, table).unwrap();
        let json: serde_json::Value = serde_json::from_slice(&out).unwrap();
        let bases = json["bases"].as_array().unwrap();
        for (row, written) in table.rows.iter().zip(json["rows"].as_array().unwrap()) {
            for (at, cell) in row.iter().enumerate() {
                let written = &written[at];
                if cell.text.is_empty() {
                    assert!(written.is_null());
                    continue;
                }
                assert_eq!(written["is"], cell.text);
                if let Some(basis) = cell.basis {
                    let number = usize::try_from(written["basis"].as_u64().unwrap()).unwrap();
                    assert_eq!(bases[number - 1]["status"], basis.status.word());
                    assert_eq!(bases[number - 1]["note"], basis.note);
                }
            }
        }
    }
}
