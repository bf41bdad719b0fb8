//! What is written of a crossing in the terminal's map, and what it means.

use std::collections::BTreeSet;
use std::io;

use super::{By, Class, Map};
use crate::hull::CrossingId;
use crate::record::HoleState;
use crate::show::marks::Concern;
use crate::show::page::Page;

/// A small letter for what must not go unseen at a butt.
pub(super) fn worth_a_letter(class: Class) -> Option<char> {
    let worth = match class {
        Class::State(state) => !matches!(state, HoleState::ReliedOn | HoleState::Plugged),
        Class::Concern(concern) => !matches!(concern, Concern::Nothing | Concern::Accepted),
        _ => false,
    };
    let letter = worth.then(|| class.code().to_lowercase());
    letter.and_then(|letter| letter.chars().next())
}

/// What is written of a crossing.
pub(super) fn says(map: &Map<'_>, id: CrossingId) -> String {
    let worst = map.class_of(id);
    let classes = || map.classes(id).into_iter();
    match (map.by, worst) {
        (_, Class::Unrecorded | Class::Empty) => worst.code(),
        (By::State, _) => format!(
            "{}{}",
            worst.code(),
            classes().filter(|c| *c == worst).count()
        ),
        (By::Metal, _) => {
            let mixed = classes().any(|class| class != worst && class != Class::Empty);
            format!("{}{}", worst.code(), if mixed { "+" } else { "" })
        }
        (By::Age, _) => oldest(map, id),
        (By::Hold, _) => match map.survey.share_left(id) {
            None => "?".to_owned(),
            Some(share) if share >= 1.0 => ".".to_owned(),
            Some(share) => format!("{:.0}", (share * 100.0).min(99.0)),
        },
        (By::Findings, _) => worst.code(),
    }
}

/// The years of the oldest fastening at a crossing, a plus where it may be older
/// by more than the year that is not told to the day.
fn oldest(map: &Map<'_>, id: CrossingId) -> String {
    let holes = map.survey.at(id).holes.iter().filter(|h| h.has_metal());
    let ages = holes.map(|hole| map.years(map.survey.fastening(hole).driven));
    let mut oldest = (0, false);
    for (least, most) in ages {
        let Some(least) = least else {
            return "?".to_owned();
        };
        oldest = oldest.max((least, most.is_none_or(|most| most > least + 1)));
    }
    format!("{}{}", oldest.0, if oldest.1 { "+" } else { "" })
}

/// What cells and the signs before them mean, of those that are there.
pub(super) fn legend<'c>(
    map: &Map<'_>,
    page: &mut Page<'_>,
    classes: impl Iterator<Item = &'c Class>,
    signs: &BTreeSet<char>,
) -> io::Result<()> {
    page.line(match map.by {
        By::State => "A cell is what matters most at a crossing, with how many holes are so:",
        By::Metal => "A cell is the metal most easily eaten there; + more than one metal:",
        By::Age => {
            "A cell is the years of the oldest fastening there; + it may be older, ? nobody knows."
        }
        By::Hold => {
            "A cell is the percentage left of what was built there; . all of it, ? nobody says."
        }
        By::Findings => "A cell is the worst that the audit says of a crossing:",
    })?;
    let mut said: Vec<String> = Vec::new();
    for class in classes {
        match (class.code().as_str(), class) {
            ("", Class::State(_)) => said.push(format!("figure alone {}", class.label())),
            ("", _) => {}
            (code, _) => said.push(format!("{code} {}", class.label())),
        }
    }
    if !said.is_empty() {
        page.indented("  ", &said.join("; "))?;
    }
    let mut before: Vec<&str> = Vec::new();
    for (sign, says) in [
        ('~', "~ wind and water"),
        ('|', "| a butt before it"),
        (':', ": a butt on it"),
        ('/', "/ a scarf before it"),
        ('%', "% a scarf on it"),
    ] {
        if signs.contains(&sign) {
            before.push(says);
        }
    }
    if signs.iter().any(char::is_ascii_lowercase) {
        before.push("a small letter: the same at the butt before it");
    }
    if !before.is_empty() {
        page.line(&format!("Before a cell: {}", before.join("; ")))?;
    }
    Ok(())
}
