//! What is bought, and how many of it are needed.

use crate::joint::{Kind, Plug, Size};
use crate::record::Fastening;
use crate::tables::{Drill, Metal, Screw, Wood};
use crate::units::Length;

/// Something that is used up. `None` stands for what is not known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Goods {
    /// A fastening.
    Fastening {
        /// Its kind.
        kind: Kind,
        /// Its metal.
        metal: Option<&'static Metal>,
        /// Its size.
        size: Option<Size>,
    },
    /// A bung over a head, of the plank's wood.
    Bung {
        /// Its diameter.
        diameter: Length,
        /// The plank's wood.
        wood: Option<&'static Wood>,
    },
    /// A plug for a hole in a plank that is given up.
    Plug {
        /// The diameter of the hole at the plank's face.
        diameter: Option<Length>,
        /// The plank's wood.
        wood: Option<&'static Wood>,
    },
    /// A dowel for a hole in a frame.
    Dowel {
        /// The diameter of the old hole; it is reamed to sound wood, and the dowel is thicker.
        over: Option<Length>,
        /// The frame's wood.
        wood: Option<&'static Wood>,
    },
}

impl Goods {
    /// The fastening that is described.
    pub const fn of(fastening: &Fastening) -> Self {
        Self::Fastening {
            kind: fastening.kind,
            metal: fastening.metal,
            size: fastening.size,
        }
    }

    /// The place in the list: fastenings, bungs, plugs, dowels, the thicker after the thinner.
    fn order(&self) -> (u8, String, Option<Length>, Option<Length>, String) {
        let wood =
            |wood: &Option<&Wood>| wood.map_or_else(String::new, |wood| wood.name.to_owned());
        match self {
            Self::Fastening { kind, metal, size } => {
                let metal = metal.map_or("", |metal| metal.name);
                (
                    0,
                    format!("{kind} {metal}"),
                    size.and_then(Size::diameter),
                    size.map(Size::length),
                    String::new(),
                )
            }
            Self::Bung { diameter, wood: of } => {
                (1, wood(of), Some(*diameter), None, String::new())
            }
            Self::Plug { diameter, wood: of } => (2, wood(of), *diameter, None, String::new()),
            Self::Dowel { over, wood: of } => (3, wood(of), *over, None, String::new()),
        }
    }
}

/// How many of each are needed.
#[derive(Clone, Debug, Default)]
pub(super) struct Needs {
    pub(super) goods: Vec<(Goods, u64)>,
    /// Heads that get stopping.
    pub(super) stopping: u64,
    /// Heads of which it is not known what covers them.
    pub(super) unknown: u64,
}

impl Needs {
    pub(super) fn add(&mut self, goods: Goods, count: u64) {
        if count == 0 {
            return;
        }
        match self.goods.iter_mut().find(|(known, _)| *known == goods) {
            Some((_, known)) => *known = known.saturating_add(count),
            None => self.goods.push((goods, count)),
        }
    }

    /// What covers so many heads.
    pub(super) fn cover(&mut self, plug: Plug, wood: Option<&'static Wood>, count: u64) {
        match plug {
            Plug::Bung(bung) => self.add(
                Goods::Bung {
                    diameter: bung.diameter,
                    wood,
                },
                count,
            ),
            Plug::Stopping => self.stopping = self.stopping.saturating_add(count),
            Plug::Unknown => self.unknown = self.unknown.saturating_add(count),
            Plug::None => {}
        }
    }

    pub(super) fn sort(&mut self) {
        self.goods.sort_by_cached_key(|(goods, _)| goods.order());
    }
}

/// A tool that a hole or a bung asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tool {
    /// A drill.
    Drill(&'static Drill),
    /// A taper bit for a screw.
    Taper(&'static Screw),
    /// A drill of none of the sets at hand, of this diameter.
    Odd(Length),
    /// A counterbore bit.
    Counterbore(Length),
    /// A cutter for bungs and plugs.
    PlugCutter(Length),
}

impl Tool {
    /// The place in the list.
    pub(super) fn order(self) -> (u8, Option<Length>) {
        match self {
            Self::Drill(drill) => (0, Some(drill.diameter)),
            Self::Odd(diameter) => (1, Some(diameter)),
            Self::Taper(screw) => (2, Some(screw.shank)),
            Self::Counterbore(diameter) => (3, Some(diameter)),
            Self::PlugCutter(diameter) => (4, Some(diameter)),
        }
    }
}
