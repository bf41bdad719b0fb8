//! `buy`: what is on the list is what is lacking, and nothing once it is done.

use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::run::{Ran, refasten};

fn demo() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo");
    for name in ["hull.yaml", "log.yaml", "plan.yaml"] {
        fs::copy(from.join(name), folder.path().join(name)).unwrap();
    }
    // What the log shows a picture of is not at hand here.
    let log = fs::read_to_string(folder.path().join("log.yaml")).unwrap();
    let log: String = log
        .lines()
        .map(|line| match line.split_once(", photo:") {
            Some((line, _)) => format!("{line}}}\n"),
            None => format!("{line}\n"),
        })
        .collect();
    fs::write(folder.path().join("log.yaml"), log).unwrap();
    folder
}

fn run(folder: &Path, args: &[&str]) -> Ran {
    let boat = folder.to_str().unwrap();
    let ran = refasten(&[args, &["--boat", boat, "--today", "2024-11-25"]].concat());
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)), "{args:?}");
    ran
}

fn buy(folder: &Path, more: &[&str]) -> Value {
    let args = [&["buy", "--format", "json"], more].concat();
    serde_json::from_str(&run(folder, &args).stdout).unwrap()
}

/// How many of a ware are needed, or of one of its woods.
fn needed(list: &Value, ware: &str) -> u64 {
    let goods = list["goods"].as_array().unwrap().iter();
    let of = goods.filter(|line| line["ware"] == ware);
    of.map(|line| line["needed"].as_u64().unwrap()).sum()
}

#[test]
fn every_plan_by_itself_makes_up_what_is_planned_together() {
    let folder = demo();
    let all = buy(folder.path(), &[]);
    let each: Vec<Value> = ["bilge", "garboard", "stainless out"]
        .iter()
        .map(|plan| buy(folder.path(), &["--plan", plan]))
        .collect();
    let sum = |key: &str| -> u64 { each.iter().map(|list| list[key].as_u64().unwrap()).sum() };
    assert_eq!(all["planned"].as_u64(), Some(sum("planned")));
    for ware in ["fastening", "plug", "dowel"] {
        let sum: u64 = each.iter().map(|list| needed(list, ware)).sum();
        assert_eq!(needed(&all, ware), sum, "{ware}");
    }
    // The list of all has the bare heads of the boat besides.
    let bungs: u64 = each.iter().map(|list| needed(list, "bung")).sum();
    assert_eq!(needed(&all, "bung"), bungs + 3);
    for line in all["goods"].as_array().unwrap() {
        let number = |key: &str| line[key].as_u64().unwrap();
        let wanted = number("needed") + number("spares");
        assert_eq!(number("box_holds") * number("boxes"), number("buy"));
        assert!(number("buy") >= wanted && number("buy") - wanted < number("box_holds"));
    }
    let prices: u64 = all["goods"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(|line| line["price_hundredths"].as_u64())
        .sum();
    assert_eq!(all["price_hundredths"].as_u64(), Some(prices));
}

#[test]
fn what_is_done_is_no_longer_bought_for() {
    let folder = demo();
    let screws = [
        "--kind",
        "wood screw",
        "--metal",
        "silicon bronze",
        "--size",
        "14 x 1-3/4in",
        "--bung",
        "1/2in x 1/4in",
    ];
    let log = |args: &[&str]| run(folder.path(), &[&["log"], args].concat());
    log(&["doweled", "S3 F19-20"]);
    let doweled = buy(folder.path(), &["--plan", "bilge"]);
    assert_eq!(
        (needed(&doweled, "fastening"), needed(&doweled, "dowel")),
        (6, 0)
    );
    let driven = [
        "driven",
        "S3 F18-19",
        "--per-crossing",
        "2",
        "--plan",
        "bilge",
    ];
    log(&[&driven[..], &screws].concat());
    let driven = buy(folder.path(), &["--plan", "bilge"]);
    assert_eq!(
        (needed(&driven, "fastening"), needed(&driven, "bung")),
        (2, 2)
    );
    // The heads that are bare now want their bungs all the same.
    let all = buy(folder.path(), &["S3 F18-20"]);
    assert_eq!((needed(&all, "fastening"), needed(&all, "bung")), (2, 6));
    log(&["bunged", "S3 F18-19"]);
    let all = buy(folder.path(), &["S3 F18-20"]);
    assert_eq!((needed(&all, "fastening"), needed(&all, "bung")), (2, 2));
}

#[test]
fn without_anything_to_do_there_is_nothing_to_buy() {
    let folder = demo();
    let list = buy(folder.path(), &["P2 F9-12"]);
    assert_eq!(list["goods"], Value::Array(Vec::new()));
    assert_eq!(list["tools"], Value::Array(Vec::new()));
    let told = run(folder.path(), &["buy", "P2 F9-12"]).stdout;
    assert!(
        told.ends_with("Nothing is planned, and no hole wants a fastening.\n"),
        "{told}"
    );
}

#[test]
fn a_name_in_a_table_of_markdown_means_nothing_to_it() {
    let folder = demo();
    let path = folder.path().join("hull.yaml");
    let hull = fs::read_to_string(&path).unwrap();
    let hull = hull.replace("boat: Hesper Lass", "boat: \"a | <b> *c* \\e[31m\"");
    fs::write(&path, hull.replace("money: EUR", "money: \"|_x\"")).unwrap();
    let told = run(folder.path(), &["buy", "--as", "markdown"]).stdout;
    assert!(!told.contains('\u{1b}'));
    assert!(told.starts_with("# a \\| \\<b\\> \\*c\\* "), "{told}");
    let rows = told.lines().filter(|line| line.starts_with('|'));
    for row in rows {
        assert_eq!(row.replace("\\|", "").matches('|').count(), 6, "{row}");
    }
}

#[test]
fn a_spreadsheet_takes_the_list_without_running_or_dating_a_cell() {
    let folder = demo();
    let path = folder.path().join("hull.yaml");
    let hull = fs::read_to_string(&path).unwrap();
    fs::write(&path, hull.replace("money: EUR", "money: \"=a\"")).unwrap();
    let told = run(folder.path(), &["buy", "--as", "csv"]).stdout;
    let lines: Vec<&str> = told.split_terminator("\r\n").collect();
    assert_eq!(
        lines[..2],
        [
            "\u{feff}what,ware,kind,metal,size,wood,needed,spares,box_holds,boxes,buy,price_hundredths,money",
            "\"wood screw 14 x 1-3/4in, silicon bronze\",fastening,wood screw,silicon bronze,14 x 1-3/4in,,24,3,20,2,40,2840,'=a",
        ]
    );
    let goods = buy(folder.path(), &[])["goods"].as_array().unwrap().len();
    assert_eq!(lines.len(), goods + 1);
}
