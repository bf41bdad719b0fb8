//! A ship of any size: her hull file, of many strakes and frames and several generations of
//! fastenings.

use std::fmt::Write;

use crate::dice::Dice;

/// Frames in a cell: no set of a repair begins or ends within one, and no two jobs share one.
pub const CELL: usize = 8;
/// Frame spaces from one butt of a strake to the next.
const PLANK: usize = 48;

/// A ship with about so many fastenings.
pub struct Ship {
    /// Strakes to a side of the shell; as many planks has the deck.
    pub strakes: usize,
    pub frames: usize,
    pub beams: usize,
    pub repairs: Vec<Repair>,
    seed: u64,
}

/// A stretch of one side that was fastened again before the log began.
pub struct Repair {
    pub name: String,
    pub port: bool,
    pub strakes: (usize, usize),
    /// Whole cells, the last not included.
    pub cells: (usize, usize),
    pub fastening: &'static Fastening,
}

/// What a repair was made with.
pub struct Fastening {
    pub is: &'static str,
    /// How it stands to what was built there; what was built stays in the wood with `adds to` and
    /// `leaves in`.
    pub relation: &'static str,
    /// Its diameter in thousandths of an inch; nothing is measured where nobody knows it.
    pub diameter: Option<usize>,
}

/// The copper rivets she was built with.
pub const BUILT: &str =
    "kind: rivet, metal: copper, size: 8 SWG x 3in, bung: stopping, driven: 1931, how: papers";

const REPAIRS: &[Fastening] = &[
    Fastening {
        is: "kind: boat nail, metal: galvanised steel, size: 1/4in x 2-1/4in, bung: stopping, driven: 1970s, how: bared",
        relation: "replaces",
        diameter: Some(250),
    },
    Fastening {
        is: "kind: wood screw, metal: 304 stainless steel, size: 12 x 1-1/4in, bung: 3/8in x 1/4in, driven: before 2001, how: told",
        relation: "replaces",
        diameter: Some(216),
    },
    Fastening {
        is: "kind: wood screw, metal: silicon bronze, size: 14 x 2in, bung: 1/2in x 1/4in, driven: 1988-05, how: papers",
        relation: "replaces",
        diameter: Some(242),
    },
    Fastening {
        is: "kind: wood screw, metal: brass?, size: unknown, bung: unknown, driven: unknown, how: told",
        relation: "replaces",
        diameter: None,
    },
    Fastening {
        is: "kind: boat nail, metal: galvanised steel, size: 1/4in x 2-1/4in, bung: stopping, driven: before 1985, how: told",
        relation: "adds to",
        diameter: Some(250),
    },
    Fastening {
        is: "kind: wood screw, metal: naval brass, size: 14 x 2in, bung: 1/2in x 1/4in, driven: 1958, how: drawn",
        relation: "leaves in",
        diameter: Some(242),
    },
    Fastening {
        is: "kind: clenched nail, metal: copper, size: 8 SWG x 3-1/2in, bung: stopping, driven: 1962, how: papers",
        relation: "replaces",
        diameter: Some(160),
    },
];

impl Ship {
    /// A ship of about so many fastenings: nine tenths of them in the shell, two at each frame and
    /// three either side of each butt, the rest in the deck.
    pub fn of(fastenings: usize, seed: u64) -> Self {
        let of_side = fastenings as f64 * 0.9 / 2.0 / (2.0 + 6.0 / PLANK as f64);
        let strakes = ((of_side / 16.0).sqrt().round() as usize).max(4);
        let frames = (of_side / strakes as f64) as usize;
        let mut ship = Self {
            strakes,
            frames,
            beams: fastenings / 10 / strakes,
            repairs: Vec::new(),
            seed,
        };
        ship.repair(&mut Dice::new(seed));
        ship
    }

    /// One repair in each twelfth of each side's length.
    fn repair(&mut self, dice: &mut Dice) {
        let span = self.frames / CELL / 12;
        for (number, at) in (0..24).zip((0..12).flat_map(|at| [at, at])) {
            if span < 2 {
                return;
            }
            let height = dice.between(2, (self.strakes / 4).max(2));
            let lowest = dice.between(1, self.strakes - height);
            let from = at * span + dice.below(span / 2);
            let fastening = &REPAIRS[number % REPAIRS.len()];
            self.repairs.push(Repair {
                name: format!("repair {}", number + 1),
                port: number % 2 == 0,
                strakes: (lowest, lowest + height),
                cells: (from, from + dice.between(1, span / 2)),
                fastening,
            });
        }
    }

    /// The repair that a cell of the shell lies in.
    pub fn repair_at(&self, port: bool, strake: usize, cell: usize) -> Option<&Repair> {
        self.repairs.iter().find(|repair| {
            repair.port == port
                && (repair.strakes.0..=repair.strakes.1).contains(&strake)
                && (repair.cells.0..repair.cells.1).contains(&cell)
        })
    }

    /// The text of her hull file.
    pub fn hull(&self) -> String {
        let mut text = String::from(
            "refasten: 1\nboat: Great Hesper\nparticulars: {launched: 1931}\nwater: salt\n\
             gauges: american\nshow: inch\n",
        );
        self.write(&mut text).expect("a string takes everything");
        text
    }

    fn write(&self, text: &mut String) -> std::fmt::Result {
        let dice = &mut Dice::new(self.seed ^ 1);
        let (strakes, frames, beams) = (self.strakes, self.frames, self.beams);
        writeln!(text, "frames:")?;
        let light = frames / 8;
        writeln!(
            text,
            "  - {{number: 1-{light}+{}-{frames}, spacing: 10in, siding: 1-3/4in, moulding: 2in, wood: white oak}}\n  \
               - {{number: {}-{}, spacing: 10in, siding: 2-1/4in, moulding: 2-1/2in, wood: white oak}}\n\
             beams:\n  \
               - {{number: 1-{beams}, spacing: 15in, siding: 2in, moulding: 3in, wood: white oak}}\n\
             ends:\n  \
               - {{member: stem, siding: 6in, landing depth: 2-1/2in, wood: white oak}}\n  \
               - {{member: transom, landing depth: 1-3/4in, wood: true mahogany, grain: end}}",
            frames - light + 1,
            light + 1,
            frames - light,
        )?;
        let (garboards, bottom) = (strakes / 10 + 1, strakes * 2 / 3);
        writeln!(
            text,
            "strakes:\n  \
               - {{planks: PS1-{garboards}, across: stem F1-{frames} transom, thickness: 1-1/4in, width: 7in, wood: western larch}}\n  \
               - {{planks: PS{}-{bottom}, across: stem F1-{frames} transom, thickness: 1-1/8in, width: 6in, wood: western larch}}\n  \
               - {{planks: PS{}-{strakes}, across: stem F1-{frames} transom, thickness: 1in, width: 5in, wood: true mahogany}}\n  \
               - {{planks: D1-{strakes}, across: B1-{beams}, thickness: 7/8in, width: 2-1/2in, wood: Douglas-fir}}\n\
             waterline: [F1 {}, F{} {}, F{frames} {}]",
            garboards + 1,
            bottom + 1,
            strakes * 7 / 10,
            frames / 2,
            strakes * 5 / 10,
            strakes * 6 / 10,
        )?;
        writeln!(text, "joints:")?;
        let mut butts = Vec::new();
        for strake in 1..=strakes {
            let first = 5 + (strake * 17) % PLANK;
            let list: Vec<String> = (first..frames)
                .step_by(PLANK)
                .map(|n| n.to_string())
                .collect();
            let place = format!("PS{strake} J{}", list.join("+"));
            writeln!(
                text,
                "  - {{at: {place}, kind: butt, block: {{thickness: 1-1/4in, wood: white oak}}, per end: 3}}"
            )?;
            butts.push(place);
        }
        writeln!(text, "hardware:")?;
        for number in 0..strakes / 3 {
            let metal = dice.pick(&["gunmetal", "silicon bronze", "galvanised steel", "unknown"]);
            let (side, strake, frame) = (
                dice.pick(&['P', 'S']),
                dice.between(1, strakes),
                dice.between(1, frames - 3),
            );
            writeln!(
                text,
                "  - {{what: fitting {}, metal: {metal}, place: {side}{strake} F{frame}-{}, area: {} in2}}",
                number + 1,
                frame + dice.below(3),
                dice.between(10, 90),
            )?;
        }
        writeln!(
            text,
            "sets:\n  \
               - {{set: built, place: PS1-{strakes} F1-{frames}, per crossing: 2, {BUILT}}}\n  \
               - {{set: hood ends, place: PS1-{strakes} stem transom, per crossing: 3, kind: wood screw, metal: naval brass, \
                 size: 14 x 2in, bung: 1/2in x 1/4in, driven: 1931, how: told}}\n  \
               - {{set: deck, place: D all, per crossing: 1, kind: wood screw, metal: silicon bronze, \
                 size: 14 x 1-3/4in, bung: 1/2in x 1/4in, driven: 1988-05, how: papers}}\n  \
               - set: butt blocks\n    per crossing: 3\n    kind: rivet\n    metal: copper\n    size: 8 SWG x 3in\n    bung: stopping\n    \
                 driven: 1931\n    how: papers\n    place: {}",
            butts.join("\n      and "),
        )?;
        for repair in &self.repairs {
            writeln!(
                text,
                "  - {{set: {}, place: {}{}-{} F{}-{}, per crossing: 2, {}, {}: built}}",
                repair.name,
                if repair.port { 'P' } else { 'S' },
                repair.strakes.0,
                repair.strakes.1,
                repair.cells.0 * CELL + 1,
                repair.cells.1 * CELL,
                repair.fastening.is,
                repair.fastening.relation,
            )?;
        }
        writeln!(
            text,
            "accepted:\n  \
               - {{rule: metal-unknown, place: PS{}-{strakes} F1-{frames}, why: \"dry, and to be drawn\", by: \"I. Quillon, surveyor\", until: 2030-04-01}}\n  \
               - {{rule: stainless-underwater, place: PS1-{bottom} F1-{}, why: \"one more season\", by: \"I. Quillon, surveyor\", until: 2024-04-01}}",
            bottom + 1,
            frames / 2,
        )
    }
}
