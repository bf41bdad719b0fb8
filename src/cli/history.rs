//! `refasten history`: everything that ever happened at a place, to a set or to a metal.

use clap::Args;

use super::days::{Days, Point};
use super::show::spots;
use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
use crate::files::Boat;
use crate::hull::{Holes, Hull, Spot};
use crate::record::{self, SetId, State};
use crate::show::{generations, history};
use crate::tables::Metal;
use crate::text::{Fault, Misread, nearest};

/// Tell all that ever happened at a place, to a set or to a metal
///
/// Sets built there, and every entry that touched it, struck ones too; then, of each hole, the
/// fastenings it has had.
#[derive(Debug, Args)]
#[command(after_help = "refasten history S3 F13.2")]
pub struct History {
    /// Where, as S4 F14, or one hole: S4 F14.2
    #[arg(required_unless_present_any = ["set", "metal"])]
    place: Vec<String>,
    /// Only of this set, and what came in its place
    #[arg(long, value_name = "NAME")]
    set: Option<String>,
    /// Only of this metal, and what came in its place; or unknown
    #[arg(long)]
    metal: Option<String>,
    #[command(flatten)]
    days: Days,
}

/// What was typed, read.
struct Asked {
    metal: Option<Option<&'static Metal>>,
    point: Point,
}

impl History {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let mut reading = Reading::default();
        let asked = Asked {
            metal: reading.with("--metal", self.metal.as_ref(), metal),
            point: self.days.read(&mut reading, today),
        };
        let asked = reading.done(Some(asked)).map_err(Stopped::Wrong)?;
        let boat = asked.point.boat(desk.globals)?;
        let mut reading = Reading::default();
        let place = (!self.place.is_empty()).then(|| self.place.join(" "));
        let spots = reading.with("PLACE", place.as_ref(), |_| spots(&boat, &self.place));
        let set = reading.with("--set", self.set.as_ref(), |name| set_named(&boat, name));
        let spots = reading.done(Some(spots)).map_err(Stopped::Wrong)?;
        let (hull, book, day) = (&boat.hull, &boat.book, asked.point.as_of);
        let spots = spots.flatten().unwrap_or_else(|| everywhere(hull));
        let state = book.state(hull, Some(day));
        there(hull, &book.state(hull, None), &spots)?;
        let about = record::Asked {
            spots: &spots,
            set,
            metal: asked.metal,
        };
        let mut had = record::generations(book, hull, &spots, day);
        had.retain(|_, had| {
            had.iter()
                .any(|one| about.fits(book.fastening(one.fastening)))
        });
        let told = history::History {
            events: &record::history(book, hull, &about, Some(day)),
            holes: generations::Holes {
                hull,
                book,
                state: &state,
                day,
                had: &had,
            },
            place: place.as_deref(),
            set,
            metal: asked.metal,
        };
        match desk.globals.format {
            Format::Text => {
                history::text(&told, desk.globals.units_for(&boat), desk.out, desk.layout)?;
            }
            Format::Json => writeln!(desk.out, "{:#}", history::json(&told))?,
        }
        Ok(Ended::Done)
    }
}

/// A metal, or what stands for that which is not known.
fn metal(typed: &str) -> Result<Option<&'static Metal>, Misread> {
    match typed.trim().eq_ignore_ascii_case("unknown") {
        true => Ok(None),
        false => Metal::find(typed).map(Some),
    }
}

/// The set of this name.
fn set_named(boat: &Boat, name: &str) -> Result<SetId, Misread> {
    let name = name.trim();
    boat.book.set_named(name).ok_or_else(|| {
        let names = || boat.book.set_names().map(|(_, name)| name);
        let misread = Misread::new(format!("there is no set `{name}`"));
        match nearest(name, names()) {
            Some(near) => misread.help(format!("did you mean `{near}`?")),
            None => misread.help("`refasten show` lists every set"),
        }
    })
}

/// Every crossing of the hull, with all its holes.
fn everywhere(hull: &Hull) -> Vec<Spot> {
    let spot = |crossing| Spot {
        crossing,
        holes: Holes::ANY,
    };
    hull.crossing_ids().map(spot).collect()
}

/// Refuses holes that there never were.
fn there(hull: &Hull, state: &State, spots: &[Spot]) -> Result<(), Stopped> {
    let never = |spot: &&Spot| {
        spot.holes
            .numbers()
            .any(|hole| hole.index() >= state.holes(spot.crossing).len())
    };
    let Some(spot) = spots.iter().find(never) else {
        return Ok(());
    };
    let crossing = hull.crossing(spot.crossing);
    let count = state.holes(spot.crossing).len();
    let says = format!(
        "PLACE: there is no hole {} at {} {}",
        spot.holes, crossing.strake.id, crossing.member
    );
    Err(Fault::new(None, says)
        .help(format!(
            "there are {count} holes; leave the number out for all of them"
        ))
        .into())
}
