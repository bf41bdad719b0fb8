//! `pick`: which screw, which drills, which bung?

mod asked;

use std::{io::Write, path::PathBuf};

use clap::Args;

use super::days::past_day;
use super::drawing::{self, Target};
use super::into_plan::IntoPlan;
use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
use crate::files::Boat;
use crate::hull::CrossingId;
use crate::pick::{self, Answer, Ask, Ground, Spot};
use crate::record::State;
use crate::show;
use crate::units::Day;

use asked::Asked;

/// Headings of the help.
const WOOD: &str = "Plank and frame";
const FASTENING: &str = "Fastening";
const BORING: &str = "Boring";
const ANSWER: &str = "Answer";

/// Pick the screw, the drills and the bung for a plank on a frame
///
/// Lengths have their unit (7/8in, 22mm). What is given is kept, the rest is worked out.
#[derive(Debug, Args)]
#[command(after_help = "refasten pick S3 F18 --metal \"silicon bronze\" --drills fraction,number")]
pub(super) struct Pick {
    /// Where, as S4 F14: what is not given here is then the boat's own
    ///
    /// Plank, frame, zone and gauges are taken from her record.
    place: Vec<String>,
    /// Thickness of the plank
    #[arg(long, value_name = "LENGTH", help_heading = WOOD)]
    plank: Option<String>,
    /// Wood of the plank
    #[arg(long, value_name = "WOOD", help_heading = WOOD)]
    plank_wood: Option<String>,
    /// Specific gravity of the plank, oven-dry, for its wood
    #[arg(long, value_name = "G", help_heading = WOOD)]
    plank_sg: Option<String>,
    /// Depth of frame, beam or landing in the line of the screw
    #[arg(long, value_name = "LENGTH", help_heading = WOOD)]
    frame: Option<String>,
    /// Wood of the frame
    #[arg(long, value_name = "WOOD", help_heading = WOOD)]
    frame_wood: Option<String>,
    /// Specific gravity of the frame, oven-dry, for its wood
    #[arg(long, value_name = "G", help_heading = WOOD)]
    frame_sg: Option<String>,
    /// How the frame's grain lies to the screw: side (else) or end
    #[arg(long, value_name = "GRAIN", help_heading = WOOD)]
    grain: Option<String>,
    /// Metal of the fastening
    #[arg(long, value_name = "METAL", help_heading = FASTENING)]
    metal: Option<String>,
    /// Its bending yield strength, if not the table's: 65 ksi
    ///
    /// With its unit: 65 ksi, 65000 psi or 450 MPa.
    #[arg(long, value_name = "F", help_heading = FASTENING)]
    bending_yield: Option<String>,
    /// How wet it is: underwater (else), wind and water, topsides …
    ///
    /// underwater, wind and water, topsides, deck or inside.
    #[arg(long, value_name = "ZONE", help_heading = WOOD)]
    zone: Option<String>,
    /// The water she floats in: salt (else), brackish or fresh
    #[arg(long, value_name = "WATER", help_heading = WOOD)]
    water: Option<String>,
    /// Planking rule to follow; else the Herreshoff table
    #[arg(long, value_name = "RULE", help_heading = FASTENING)]
    rule: Option<String>,
    /// Gauges to choose among: american (else), british or metric
    #[arg(long, value_name = "SYSTEM", help_heading = FASTENING)]
    gauges: Option<String>,
    /// Keep this gauge (14, or 5mm among metric screws)
    #[arg(long, value_name = "GAUGE", help_heading = FASTENING)]
    gauge: Option<String>,
    /// Kind: wood screw (else), boat nail, rivet, bolt …
    ///
    /// wood screw, lag screw, boat nail, annular nail, clenched nail, rivet, bolt, drift or
    /// trunnel.
    #[arg(long, value_name = "KIND", help_heading = FASTENING)]
    kind: Option<String>,
    /// Keep this size, with its length or without: "8 SWG x 3in"
    #[arg(long, value_name = "SIZE", help_heading = FASTENING)]
    size: Option<String>,
    /// Width of the plank, to have positions proposed
    #[arg(long, value_name = "LENGTH", help_heading = WOOD)]
    plank_width: Option<String>,
    /// Width of the frame along the boat, for the same
    #[arg(long, value_name = "LENGTH", help_heading = WOOD)]
    siding: Option<String>,
    /// How many at a crossing
    ///
    /// Else as many as were built there, or by the plank's width.
    #[arg(long, value_name = "COUNT", help_heading = FASTENING)]
    per_crossing: Option<String>,
    /// Keep this length
    #[arg(long, value_name = "LENGTH", help_heading = FASTENING)]
    length: Option<String>,
    /// Keep this diameter of bung
    #[arg(long, value_name = "LENGTH", help_heading = FASTENING)]
    bung: Option<String>,
    /// Keep this depth of bung; 0in for a head that lies flush
    #[arg(long, value_name = "LENGTH", help_heading = FASTENING)]
    bung_depth: Option<String>,
    /// Sets of drills you own, with commas: fraction, number, letter, metric
    #[arg(
        long,
        help_heading = BORING,
        value_name = "SETS",
        value_delimiter = ',',
        default_value = "fraction"
    )]
    drills: Vec<String>,
    /// Bore with taper bits made for each gauge
    #[arg(long, help_heading = BORING)]
    taper: bool,
    /// Rule for lead holes
    #[arg(long, value_name = "RULE", help_heading = BORING)]
    lead_holes: Option<String>,
    /// Draw the section into this file; - to print it alone
    ///
    /// A drawing that is there is replaced.
    #[arg(long, value_name = "FILE.svg", help_heading = ANSWER)]
    drawing: Option<PathBuf>,
    /// With PLACE: as it was at the end of this day (2026-10-03)
    ///
    /// The plank, the frame and the old holes there; else as they are.
    #[arg(long, value_name = "DAY", requires = "place", help_heading = ANSWER)]
    as_of: Option<String>,
    #[command(flatten)]
    into_plan: IntoPlan,
}

impl Pick {
    /// Answers, in the format asked for.
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let target = Target::of(self.drawing.as_deref(), desk.globals.format)?;
        let lock = self.into_plan.lock(desk)?;
        let asked = if self.place.is_empty() {
            Asked {
                units: desk.globals.units().unwrap_or_default(),
                ..Asked::default()
            }
        } else {
            let today = desk.globals.today()?;
            let mut reading = Reading::default();
            let day = reading.with("--as-of", self.as_of.as_ref(), |typed| {
                past_day(typed, today)
            });
            let day = reading.done(Some(day)).map_err(Stopped::Wrong)?;
            let (boat, _) = desk.globals.read_boat()?;
            let state = boat.book.state(&boat.hull, day);
            Asked {
                day,
                spot: self.spot(&boat, &state),
                ground: Some(self.ground(&boat, &state)?),
                salt: boat.hull.water.is_salt(),
                gauges: boat.hull.gauges,
                units: desk.globals.units_for(&boat),
                limits: boat.limits,
            }
        };
        let day = asked.day;
        let ask = self.ask(asked).map_err(Stopped::Wrong)?;
        let answer = answered(&ask, day)?;
        let draw = |out: &mut dyn Write| show::section::svg(out, &ask, &answer);
        // First, so that where it cannot be drawn nothing else is written.
        let drawn = drawing::to_file(target.as_ref(), draw)?;
        let place = self.place.join(" ");
        let written = match lock {
            Some(lock) => Some(self.into_plan.write(desk, &lock, &place, &ask, &answer)?),
            None => None,
        };
        desk.done = match (&written, &target) {
            (Some(written), _) => Some(format!(
                "what was picked is in the plan `{}`",
                written.line.plan
            )),
            (None, Some(Target::File(path))) => Some(format!("{} is written", path.display())),
            (None, _) => None,
        };
        let planned = written.as_ref().map(|written| show::pick::Planned {
            hull: &written.boat.hull,
            book: &written.boat.book,
            line: &written.line,
            change: &written.change,
            overtakes: &written.overtakes,
        });
        if let Some(Target::Output) = target {
            return Ok(draw(desk.out).map(|()| Ended::Done)?);
        }
        match (desk.globals.format, &planned) {
            (Format::Text, planned) => {
                show::pick::text(desk.out, desk.layout, &ask, &answer)?;
                if let Some(planned) = planned {
                    show::pick::planned(planned, desk.out, desk.layout)?;
                }
                if let Some(drawn) = drawn {
                    writeln!(desk.out, "\n{drawn}")?;
                }
            }
            (Format::Json, planned) => {
                show::pick::json(desk.out, &ask, &answer, planned.as_ref())?;
            }
        }
        Ok(Ended::Done)
    }

    /// What lies at the place that was named.
    fn ground(&self, boat: &Boat, state: &State) -> Result<Ground, Stopped> {
        let mut reading = Reading::default();
        let place = self.place.join(" ");
        let ground = reading.with("PLACE", Some(&place), |place| {
            let spots = boat.hull.resolve(&place.parse()?)?;
            let crossings: Vec<CrossingId> = spots.iter().map(|spot| spot.crossing).collect();
            Ground::of(&boat.hull, state, &crossings)
        });
        reading.done(ground).map_err(Stopped::Wrong)
    }

    /// The room there; nothing where the place cannot be read, which is told of the ground.
    fn spot(&self, boat: &Boat, state: &State) -> Spot {
        let spots = self.place.join(" ").parse();
        let spots = spots.and_then(|place| boat.hull.resolve(&place));
        let crossings: Vec<CrossingId> = spots
            .map(|spots| spots.iter().map(|spot| spot.crossing).collect())
            .unwrap_or_default();
        Spot::of(&boat.hull, &boat.book, state, &crossings)
    }
}

/// The answer to a question, or everything in it that makes no sense.
fn answered(ask: &Ask, day: Option<Day>) -> Result<Answer, Stopped> {
    let mut answer = pick::answer(ask).map_err(|refusals| {
        let mut reading = Reading::default();
        for refusal in refusals {
            reading.slip(&format!("--{}", refusal.option), refusal.misread);
        }
        Stopped::Wrong(reading.faults())
    })?;
    let then = day.map(|day| format!("plank, member and old holes as they were on {day}"));
    answer.remarks.extend(then);
    Ok(answer)
}
