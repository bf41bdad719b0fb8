//! The map in a terminal: strakes by members, a cell a crossing, page by page.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};

use super::cells::{legend, says, worth_a_letter};
use super::counts::{Count, counts, in_words};
use super::{Class, Map};
use crate::hull::{CrossingId, FramesFrom, JointKind, Member, Side, Strake, StrakesFrom, fold};
use crate::joint::Zone;
use crate::show::known;
use crate::show::layout::Layout;
use crate::show::page::Page;
use crate::show::places::in_short_words;

/// Widest a line of cells may be with its row's name.
const NAME: usize = 6;

/// One row: its name, and a cell for each member it crosses.
struct Row {
    name: String,
    cells: BTreeMap<Member, Cell>,
}

/// What is written of one crossing, after a sign that may be blank.
struct Cell {
    sign: char,
    says: String,
}

/// Prints the map, with a page for each range of frames that the width has room for.
///
/// # Errors
/// When the writer fails.
pub fn text(map: &Map<'_>, out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let survey = map.survey;
    let mut page = Page::new(out, layout);
    let head = format!("{} on {}{}", survey.hull.boat, survey.day, map.only());
    page.line(&head)?;
    known::text(&mut page, survey.book)?;
    let counts = counts(map);
    if counts.is_empty() {
        return page.line("There is no planking there to map.");
    }
    page.line(&format!(
        "{}. {}",
        map.by.title(),
        in_words(map.by, &counts)
    ))?;
    if page.is_plain() {
        return listed(map, &mut page, &counts);
    }
    let halves = [
        ("Port", Side::Port, false),
        ("Stbd", Side::Starboard, true),
        ("Deck", Side::Deck, true),
        ("Stbd", Side::DeckStarboard, false),
        ("Port", Side::DeckPort, true),
    ];
    let joints = joints(map);
    let mut signs = BTreeSet::new();
    for (pair, title) in [
        (&halves[..2], "Planking from outside"),
        (&halves[2..3], "Deck"),
        (&halves[3..], "Deck from above"),
    ] {
        let sides: Vec<(&str, Vec<Row>)> = pair
            .iter()
            .map(|(name, side, outward)| (*name, rows(map, &joints, *side, *outward)))
            .filter(|(_, rows)| !rows.is_empty())
            .collect();
        if !sides.is_empty() {
            let shown = sides.iter().flat_map(|(_, rows)| rows);
            signs.extend(shown.flat_map(|row| row.cells.values().map(|cell| cell.sign)));
            draw(map, &mut page, title, &sides)?;
        }
    }
    page.gap()?;
    if signs.is_empty() {
        return page.line(
            "A butt stands between two cells here: ask for the members beside it, or for --each \
             of `refasten show`.",
        );
    }
    legend(map, &mut page, counts.keys(), &signs)
}

/// What a map is read aloud as: where each thing is.
fn listed(map: &Map<'_>, page: &mut Page<'_>, counts: &BTreeMap<Class, Count>) -> io::Result<()> {
    for (class, count) in counts {
        let places = in_short_words(&fold(map.survey.hull, count.crossings.iter().copied()));
        page.item(&format!("{}: {places}", class.label()))?;
    }
    Ok(())
}

/// The rows of one side, from the keel where `outward`, else towards it.
fn rows(map: &Map<'_>, joints: &BTreeMap<CrossingId, char>, side: Side, outward: bool) -> Vec<Row> {
    let hull = map.survey.hull;
    let strakes = hull.strakes().iter().filter(|s| s.id.side == side);
    let mut rows: Vec<Row> = strakes.flat_map(|s| row(map, joints, s)).collect();
    let from_sheer = hull.numbering.strakes == StrakesFrom::Sheer && !side.is_deck();
    if outward == from_sheer {
        rows.reverse();
    }
    rows
}

/// The row of a strake, and after it that of its fastenings in the keel rabbet.
fn row(map: &Map<'_>, joints: &BTreeMap<CrossingId, char>, strake: &Strake) -> Vec<Row> {
    let new = |name| Row {
        name,
        cells: BTreeMap::new(),
    };
    let mut along = new(strake.id.to_string());
    let mut rabbet = new(format!("{} K", strake.id));
    let mut before: Option<char> = None;
    for (id, member) in strake.crossings() {
        if !map.survey.is_there(id) {
            continue;
        }
        if matches!(member, Member::Butt(..)) {
            let sign = joints.get(&id).copied().unwrap_or('|');
            let small = worth_a_letter(map.class_of(id)).unwrap_or(sign);
            // Of the two halves of a butt, the one that says more.
            before = Some(before.filter(char::is_ascii_lowercase).unwrap_or(small));
            continue;
        }
        let sign = before.take().or(joints.get(&id).copied());
        if !map.survey.asks_about(id) {
            continue;
        }
        let afloat = !map.survey.hull.has_no_waterline();
        let wet = map.survey.hull.crossing(id).zone == Zone::WindAndWater;
        let cell = Cell {
            sign: sign.unwrap_or(if wet && afloat { '~' } else { ' ' }),
            says: says(map, id),
        };
        let row = match member {
            Member::Keel(_) => &mut rabbet,
            _ => &mut along,
        };
        row.cells.insert(abreast(member), cell);
    }
    [along, rabbet]
        .into_iter()
        .filter(|row| !row.cells.is_empty())
        .collect()
}

/// The member under whose number a crossing stands: the keel's beside the frames'.
const fn abreast(member: Member) -> Member {
    match member {
        Member::Keel(number) => Member::Frame(number),
        member => member,
    }
}

/// The sign before a crossing for each joint: between members before the next, or on one.
fn joints(map: &Map<'_>) -> BTreeMap<CrossingId, char> {
    let mut signs = BTreeMap::new();
    for joint in &map.survey.hull.joints {
        for id in joint
            .crossings
            .iter()
            .filter(|id| map.survey.has_joint(**id))
        {
            let between = matches!(map.survey.hull.crossing(*id).member, Member::Butt(..));
            let sign = match (&joint.kind, between) {
                (JointKind::Butt { .. }, true) => '|',
                (JointKind::Butt { .. }, false) => ':',
                (JointKind::Scarf { .. }, true) => '/',
                (JointKind::Scarf { .. }, false) => '%',
            };
            signs.insert(*id, sign);
        }
    }
    signs
}

/// The head of a member's column.
fn head(member: Member) -> String {
    match member {
        Member::Stem => "st".to_owned(),
        Member::Sternpost => "sp".to_owned(),
        Member::HornTimber => "ht".to_owned(),
        Member::Transom => "tr".to_owned(),
        member => member.number().map_or_else(String::new, |n| n.to_string()),
    }
}

fn draw(
    map: &Map<'_>,
    page: &mut Page<'_>,
    title: &str,
    sides: &[(&str, Vec<Row>)],
) -> io::Result<()> {
    let from_stern = map.survey.hull.numbering.frames == FramesFrom::Stern;
    let rows = || sides.iter().flat_map(|(_, rows)| rows);
    let members: BTreeSet<Member> = rows().flat_map(|row| row.cells.keys().copied()).collect();
    let mut members: Vec<Member> = members.into_iter().collect();
    members.sort_by_key(|member| (member.along(from_stern), *member));
    let cells = rows().flat_map(|row| row.cells.values().map(|cell| cell.says.len()));
    let heads = members.iter().map(|member| head(*member).len());
    let column = 1 + cells.chain(heads).max().unwrap_or(1);
    let names = rows()
        .map(|row| row.name.len())
        .max()
        .unwrap_or(0)
        .max(NAME);
    let room = (usize::from(page.width()).saturating_sub(names) / column).max(1);
    for chunk in members.chunks(room) {
        page.gap()?;
        let range = match chunk {
            [first, .., last] => format!("{first} to {last}"),
            [one] => one.to_string(),
            [] => continue,
        };
        page.line(&format!("{title}, {range}, the bow to the left"))?;
        for (at, (name, rows)) in sides.iter().enumerate() {
            let here = |row: &&Row| chunk.iter().any(|member| row.cells.contains_key(member));
            let rows: Vec<&Row> = rows.iter().filter(here).collect();
            if rows.is_empty() {
                continue;
            }
            let name = if sides.len() > 1 { name } else { "" };
            let numbers = chunk.iter().map(|m| format!("{:>column$}", head(*m)));
            let numbers: String = numbers.collect();
            if at == 0 {
                page.laid_out(&format!("{name:names$}{numbers}"))?;
            }
            for row in rows {
                let cells = chunk.iter().map(|member| match row.cells.get(member) {
                    Some(cell) => {
                        let says = format!("{}{}", cell.sign, cell.says);
                        format!("{says:>column$}")
                    }
                    None => " ".repeat(column),
                });
                let cells: String = cells.collect();
                page.laid_out(&format!("{:names$}{cells}", row.name))?;
            }
            if at + 1 == sides.len() && sides.len() > 1 {
                page.laid_out(&format!("{name:names$}{numbers}"))?;
            } else if sides.len() > 1 {
                let rule = "-".repeat(names + column * chunk.len());
                page.laid_out(&rule)?;
            }
        }
    }
    Ok(())
}
