//! `refasten buy`: what to buy for it.

use std::str::FromStr;

use clap::{Args, ValueEnum};

use super::days::{Days, Point};
use super::show::crossings;
use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
use crate::files::Boat;
use crate::joint::{Kind, Plug, Size};
use crate::refit::buy::{Asked, Given, WhatFor, buy};
use crate::show::buy::{self as show, Buying};
use crate::tables::{GaugeSystem, Metal};
use crate::text::{Fault, Misread, digits, nearest};
use crate::units::Day;

/// List what to buy for what is planned and what stands open
///
/// Spares go by what the log tells of fastenings that were lost, and by a floor. What things are
/// sold by, at which price, and the tools you own, stand under `boxes` and `own` in hull.yaml.
#[derive(Debug, Args)]
#[command(after_help = "refasten buy S3 F18-20")]
pub(super) struct Buy {
    /// Where, as P1-4 F12; else the whole boat
    place: Vec<String>,
    /// Only for this plan; several, given again
    #[arg(long, value_name = "NAME")]
    plan: Vec<String>,
    /// Only for these: "20 wood screw, silicon bronze, 14 x 2in"
    ///
    /// Wherever they go; the bung after another comma; several, given again.
    #[arg(long, value_name = "GOODS")]
    give: Vec<String>,
    /// Print as a list, or a table for spreadsheet or notes
    #[arg(long = "as", value_enum, default_value_t = As::List)]
    form: As,
    #[command(flatten)]
    days: Days,
}

/// In which form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum As {
    List,
    Csv,
    Markdown,
}

impl Buy {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let point = self.point(today).map_err(Stopped::Wrong)?;
        let boat = point.boat(desk.globals)?;
        let mut reading = Reading::default();
        let what_for = self.what_for(&boat, &mut reading);
        let typed = self.place.join(" ");
        let within = reading.with("PLACE", Some(&typed), |_| crossings(&boat, &self.place));
        if self.form != As::List && desk.globals.format == Format::Json {
            let misread = Misread::new("given beside --format json");
            reading.slip("--as", misread.help("give one of the two"));
        }
        let within = reading.done(within).map_err(Stopped::Wrong)?;
        let place = within.is_some().then_some(typed.as_str());
        let asked = Asked {
            hull: &boat.hull,
            book: &boat.book,
            limits: &boat.limits,
            stores: &boat.stores,
            day: point.as_of,
            within: within.map(|within| within.into_iter().collect()),
            what_for,
            units: desk.globals.units_for(&boat),
        };
        let list = buy(&asked);
        let buying = Buying {
            asked: &asked,
            list: &list,
            place,
        };
        match (desk.globals.format, self.form) {
            (Format::Json, _) => writeln!(desk.out, "{:#}", show::json(&buying))?,
            (Format::Text, As::List) => show::text(&buying, desk.out, desk.layout)?,
            (Format::Text, As::Csv) => show::csv(&buying, desk.out)?,
            (Format::Text, As::Markdown) => show::markdown(&buying, desk.out)?,
        }
        Ok(Ended::Done)
    }

    fn point(&self, today: Day) -> Result<Point, Vec<Fault>> {
        let mut reading = Reading::default();
        let point = self.days.read(&mut reading, today);
        reading.done(Some(point))
    }

    /// What to buy for.
    fn what_for(&self, boat: &Boat, reading: &mut Reading) -> WhatFor {
        if self.plan.is_empty() && self.give.is_empty() {
            return WhatFor::All;
        }
        let names = || boat.book.plan_lines().map(|line| line.plan.as_str());
        for name in &self.plan {
            if !names().any(|known| known == name) {
                let misread = Misread::new(format!("there is no plan `{name}`"));
                let help = match nearest(name, names()) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => "`pick --into-plan` begins one".to_owned(),
                };
                reading.slip("--plan", misread.help(help));
            }
        }
        let gauges = boat.hull.gauges;
        let given = self.give.iter();
        let given =
            given.filter_map(|text| reading.with("--give", Some(text), |t| given_in(t, gauges)));
        WhatFor::These(self.plan.clone(), given.collect())
    }
}

/// Reads `20 wood screw, silicon bronze, 14 x 2in`, and a bung after it.
fn given_in(text: &str, gauges: GaugeSystem) -> Result<Given, Misread> {
    const FORM: &str = "like \"20 wood screw, silicon bronze, 14 x 2in, 1/2in x 1/4in\": how many, kind, metal, size, and the bung if there is one";
    let wrong = |says: String| Misread::new(says).help(FORM);
    let (first, rest) = text.split_once(',').unwrap_or((text, ""));
    let rest: Vec<&str> = rest
        .split(',')
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .collect();
    let (count, kind) = first.trim().split_once(' ').unwrap_or((first.trim(), ""));
    let count: u32 = digits(count)
        .filter(|count| *count > 0)
        .ok_or_else(|| wrong(format!("`{count}` is not how many")))?;
    let kind = Kind::from_str(kind)?;
    // A trunnel is of wood.
    let (metal, rest) = match (kind.is_metal(), rest.as_slice()) {
        (true, [metal, rest @ ..]) => (Some(Metal::find(metal)?), rest),
        (_, rest) => (None, rest),
    };
    let (size, plug) = match rest {
        [size] => (size, Plug::None),
        [size, plug] => (size, plug.parse()?),
        _ => return Err(wrong(format!("`{}` does not say all of it", text.trim()))),
    };
    let size = Size::read(kind, size, gauges)?;
    Ok(Given {
        count,
        kind,
        metal,
        size,
        plug,
    })
}
