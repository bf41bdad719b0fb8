//! The sheet on paper: codes, what stands there, and a row a crossing with a box for each hole.

use std::io;

use super::fastenings::{Fastenings, bung, letter};
use super::{Sheet, codes};
use crate::hull::CrossingId;
use crate::record::{Found, Hole, HoleState, Mouth};
use crate::show::html::Html;
use crate::show::inventory::describe;
use crate::show::marks::Mark;

pub(super) fn write(
    sheet: &Sheet<'_>,
    fastenings: &Fastenings<'_>,
    html: &mut Html<'_>,
) -> io::Result<()> {
    html.within("main", &[("id", "paper")], |html| {
        symbols(html)?;
        html.within("section", &[("class", "legend")], |html| {
            html.put("h2", &[], "What to write in a box")?;
            html.put(
                "p",
                &[],
                "The code of what was done, then of what was found: PU wa is pulled, wasted. One \
                 after another as the work goes on. A diameter with its unit after ME. After DR the \
                 number of what went in.",
            )?;
            let done = codes::deeds();
            let done = done.iter().map(|(did, code)| (code.as_str(), did.word()));
            list(html, "Done", done)?;
            let found = codes::found();
            let found = found.iter().map(|(found, code)| (code.as_str(), found.word()));
            list(html, "Found", found)?;
            states(html)?;
            driven(fastenings, html)?;
            standing(sheet, fastenings, html)
        })?;
        for ids in sheet.strakes() {
            strake(sheet, fastenings, ids, html)?;
        }
        Ok(())
    })
}

/// The id of a state's mark in the page.
const fn mark_id(state: HoleState) -> &'static str {
    match state {
        HoleState::ReliedOn => "m-r",
        HoleState::Unsound => "m-u",
        HoleState::LeftIn => "m-l",
        HoleState::Broken => "m-b",
        HoleState::Open => "m-o",
        HoleState::Plugged => "m-p",
    }
}

/// The marks of all states, drawn once and used by their ids.
fn symbols(html: &mut Html<'_>) -> io::Result<()> {
    html.within(
        "svg",
        &[("class", "symbols"), ("aria-hidden", "true")],
        |html| {
            for state in HoleState::ALL {
                let mut path = String::new();
                Mark::of_state(*state)
                    .shape
                    .write(&mut path, [0.0, 0.0], 1.0);
                let symbol = [("id", mark_id(*state)), ("viewBox", "-1 -1 2 2")];
                html.within("symbol", &symbol, |html| {
                    html.put("path", &[("d", &path)], "")
                })?;
            }
            Ok(())
        },
    )
}

fn mark(html: &mut Html<'_>, state: HoleState) -> io::Result<()> {
    let href = format!("#{}", mark_id(state));
    let attributes = [
        ("class", "mark"),
        ("role", "img"),
        ("aria-label", state.word()),
    ];
    html.within("svg", &attributes, |html| {
        html.put("use", &[("href", &href)], "")
    })
}

/// A line of codes and what they stand for.
fn list<'w>(
    html: &mut Html<'_>,
    head: &str,
    codes: impl Iterator<Item = (&'w str, &'w str)>,
) -> io::Result<()> {
    html.within("p", &[("class", "codes")], |html| {
        html.put("b", &[], head)?;
        for (code, word) in codes {
            html.within("span", &[], |html| {
                html.put("kbd", &[], code)?;
                html.text(word)
            })?;
        }
        Ok(())
    })
}

fn states(html: &mut Html<'_>) -> io::Result<()> {
    html.within("p", &[("class", "codes")], |html| {
        html.put("b", &[], "In a box already")?;
        for state in HoleState::ALL {
            html.within("span", &[], |html| {
                mark(html, *state)?;
                html.text(state.word())
            })?;
        }
        html.put(
            "span",
            &[],
            "then the hole's number and the letter of what is or was in it",
        )
    })
}

/// With hyphens at which no line is broken, so that a size is read in one go.
fn whole_sizes(text: &str) -> String {
    text.replace('-', "\u{2011}")
}

fn driven(fastenings: &Fastenings<'_>, html: &mut Html<'_>) -> io::Result<()> {
    html.put("h2", &[], "What goes in")?;
    html.within("ol", &[("class", "driven")], |html| {
        for offer in &fastenings.offered {
            html.put("li", &[], &whole_sizes(&offer.told))?;
        }
        for _ in 0..2 {
            html.within("li", &[("class", "blank")], |html| {
                for word in ["kind", "metal", "size", "bung"] {
                    html.put("span", &[], word)?;
                }
                Ok(())
            })?;
        }
        Ok(())
    })
}

fn standing(sheet: &Sheet<'_>, fastenings: &Fastenings<'_>, html: &mut Html<'_>) -> io::Result<()> {
    html.put("h2", &[], "What the record says is there")?;
    if fastenings.kinds.is_empty() {
        return html.put("p", &[], "No fastening is recorded here.");
    }
    html.within("dl", &[("class", "kinds")], |html| {
        for (at, fastening) in fastenings.kinds.iter().enumerate() {
            let told = format!(
                "{}: {}, {}, driven {}",
                sheet.book.set_name(fastening.set),
                describe(fastening, sheet.hull, sheet.units),
                bung(fastening.plug, sheet.units),
                fastening.driven,
            );
            html.within("div", &[], |html| {
                html.put("dt", &[], &letter(at))?;
                html.put("dd", &[], &whole_sizes(&told))
            })?;
        }
        Ok(())
    })
}

/// A strake: its own head, repeated on every page, and a row a crossing.
fn strake(
    sheet: &Sheet<'_>,
    fastenings: &Fastenings<'_>,
    ids: &[CrossingId],
    html: &mut Html<'_>,
) -> io::Result<()> {
    let Some(first) = ids.first() else {
        return Ok(());
    };
    let name = sheet.hull.crossing(*first).strake.id.to_string();
    html.within("table", &[("class", "strake")], |html| {
        html.within("colgroup", &[], |html| {
            html.alone("col", &[("class", "at")])?;
            html.alone("col", &[])?;
            html.alone("col", &[("class", "note")])
        })?;
        html.within("thead", &[], |html| {
            html.within("tr", &[], |html| {
                html.within("th", &[("colspan", "3"), ("scope", "colgroup")], |html| {
                    html.within("div", &[("class", "running")], |html| {
                        html.put("strong", &[], &name)?;
                        let made = sheet.made_from();
                        html.put("span", &[("class", "made")], &made)?;
                        html.put("span", &[("class", "fill")], "date")?;
                        html.put("span", &[("class", "fill")], "name")
                    })
                })
            })?;
            html.within("tr", &[], |html| {
                for head in ["At", "Holes", "Note"] {
                    html.put("th", &[("scope", "col")], head)?;
                }
                Ok(())
            })
        })?;
        html.within("tbody", &[], |html| {
            ids.iter()
                .try_for_each(|id| row(sheet, fastenings, *id, html))
        })
    })
}

fn row(
    sheet: &Sheet<'_>,
    fastenings: &Fastenings<'_>,
    id: CrossingId,
    html: &mut Html<'_>,
) -> io::Result<()> {
    let holes = sheet.state.holes(id);
    html.within("tr", &[], |html| {
        let member = sheet.hull.crossing(id).member.to_string();
        html.put("th", &[("scope", "row")], &member)?;
        html.within("td", &[], |html| {
            html.within("div", &[("class", "boxes")], |html| {
                for (number, hole) in sheet.state.numbered(id) {
                    let letter = letter(fastenings.kind(hole.fastening));
                    html.within("span", &[("class", "box")], |html| {
                        mark(html, hole.state())?;
                        html.put("b", &[], &format!("{number}{letter}"))?;
                        html.put("i", &[], &known(hole))
                    })?;
                }
                // A box for one that is bored anew.
                let next = format!("{}", holes.len() + 1);
                html.within("span", &[("class", "box new")], |html| {
                    html.put("b", &[], &next)
                })
            })
        })?;
        html.put(
            "td",
            &[],
            if sheet.state.is_off(id) {
                "plank off"
            } else {
                ""
            },
        )
    })
}

/// What is known of a hole beside its state: bare, doweled, and what was found.
fn known(hole: &Hole) -> String {
    let mut known = Vec::new();
    if hole.content.mouth() == Some(Mouth::Open) {
        known.push("bare");
    }
    if !hole.has_metal() && hole.content.frame_side().word() == "doweled" {
        known.push("doweled");
    }
    known.extend(hole.found.each().map(Found::word));
    known.join(" ")
}
