//! The sentences of a drawing, and lines of text and the room they take.

use super::body::Body;
use super::spans::spans;
use crate::joint::Verdict;
use crate::pick::{Answer, Ask};
use crate::show::AID;
use crate::show::pick::{asked, called, hold_figures};
use crate::text::Clean;

/// How a line of text looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Hand {
    /// What was picked.
    Title,
    /// A figure or a name.
    Bold,
    /// Everything else.
    Plain,
    /// What is held against it.
    Held,
}

impl Hand {
    /// Its class in the drawing.
    pub(super) const fn class(self) -> &'static str {
        match self {
            Self::Title => "title",
            Self::Bold => "bold",
            Self::Plain => "plain",
            Self::Held => "held",
        }
    }

    /// Its height in steps of the drawing.
    pub(super) const fn size(self) -> f64 {
        match self {
            Self::Title => 18.0,
            Self::Bold | Self::Plain | Self::Held => 13.0,
        }
    }

    /// From one line to the next.
    pub(super) const fn lead(self) -> f64 {
        match self {
            Self::Title => 24.0,
            Self::Bold | Self::Plain | Self::Held => 16.0,
        }
    }

    /// How wide a text is at the most: fonts differ, and a wide one is reckoned with.
    pub(super) fn wide(self, text: &str) -> f64 {
        let share = match self {
            Self::Plain => 0.56,
            Self::Title | Self::Bold | Self::Held => 0.62,
        };
        text.chars().count() as f64 * self.size() * share
    }
}

/// A text in lines no wider than there is room for; a word too wide for one is broken.
pub(super) fn wrapped(hand: Hand, text: &str, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let clean = Clean(text).to_string();
    for word in clean.split_whitespace() {
        if let Some(line) = lines.last_mut()
            && hand.wide(line) + hand.wide(" ") + hand.wide(word) <= room
        {
            line.push(' ');
            line.push_str(word);
            continue;
        }
        lines.push(String::new());
        for letter in word.chars() {
            let is_full = lines
                .last()
                .is_some_and(|line| !line.is_empty() && hand.wide(line) + hand.wide("m") > room);
            if is_full {
                lines.push(String::new());
            }
            if let Some(line) = lines.last_mut() {
                line.push(letter);
            }
        }
    }
    lines
}

/// What stands over a drawing: what was picked, and for what.
pub(super) fn head(ask: &Ask, answer: &Answer) -> [(Hand, String); 2] {
    [
        (Hand::Title, called(ask, answer)),
        (Hand::Plain, asked(ask)),
    ]
}

/// What stands under it: what governs, and how it is drawn.
pub(super) fn foot(ask: &Ask, answer: &Answer, body: &Body) -> Vec<(Hand, String)> {
    let mut foot = vec![(Hand::Bold, "What governs".to_owned())];
    let mut checks: Vec<_> = answer.checks.iter().collect();
    checks.sort_by_key(|check| std::cmp::Reverse(check.verdict));
    for check in checks {
        let said = format!("{}, {}: {}", check.verdict.name(), check.check, check.says);
        match check.verdict {
            Verdict::Ok if GOVERNING.contains(&check.check) => foot.push((Hand::Plain, said)),
            Verdict::Ok => {}
            Verdict::Watch | Verdict::Mend | Verdict::Stop => foot.push((Hand::Held, said)),
        }
    }
    let hold = hold_figures(ask, answer).join("; ");
    foot.push((Hand::Plain, format!("Hold: {hold}")));
    let notes = answer.remarks.iter();
    foot.extend(notes.map(|note| (Hand::Plain, format!("Note: {note}"))));
    foot.push((Hand::Bold, "How it is drawn".to_owned()));
    let mut drawn = "Along the plank, true to scale but where it is broken, the wood cut off at the sides. Dashed: holes as they are bored, to their stops from the plank's face.".to_owned();
    if !body.by_proportion.is_empty() {
        drawn.push_str(&format!(" Not to scale: {}.", body.by_proportion));
    }
    foot.push((Hand::Plain, drawn));
    foot.push((Hand::Plain, AID.to_owned()));
    foot
}

/// The checks that bind a fastening's length and size: told even where they are met.
const GOVERNING: [&str; 4] = [
    "short-embedment",
    "point-through",
    "thin-under-head",
    "bung-small",
];

/// What a drawing shows, for those who cannot see it.
pub(super) fn description(ask: &Ask, answer: &Answer) -> String {
    let spans = spans(ask, answer);
    let figures: Vec<String> = spans
        .iter()
        .map(|span| format!("{} {}", span.name, span.shown(ask.units)))
        .collect();
    let held = answer
        .checks
        .iter()
        .filter(|check| check.verdict > Verdict::Ok);
    let held: Vec<String> = held
        .map(|check| format!("{}: {}", check.verdict.name(), check.says))
        .collect();
    let mut says = format!(
        "A section along the plank. {}. From the plank's face inward: {}.",
        asked(ask),
        figures.join(", ")
    );
    if !held.is_empty() {
        says.push_str(&format!(" {}.", held.join("; ")));
    }
    says
}
