//! What the owner has, and what his dealer sells it by.

use super::{Goods, Money, Tool};
use crate::joint::{Kind, Size};
use crate::tables::{Drill, Metal, Series, Wood};
use crate::text::words;
use crate::units::Length;

/// What the owner keeps account of, as far as buying goes.
#[derive(Clone, Debug, Default)]
pub struct Stores {
    /// Tools he owns.
    pub own: Vec<Owned>,
    /// What things come in, and at which price.
    pub boxes: Vec<BoxOf>,
    /// What prices are in.
    pub money: Option<String>,
}

/// A tool that is owned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Owned {
    /// A whole set of drills.
    Drills(Series),
    /// One drill.
    Drill(&'static Drill),
    /// A counterbore bit.
    Counterbore(Length),
    /// A cutter for bungs and plugs.
    PlugCutter(Length),
}

words! {
    /// What is bought by the piece and wears out of no hand.
    Ware, "something that is bought by the box" {
        /// Fastenings of any kind.
        Fastening = "fastening",
        /// Bungs over heads.
        Bung = "bung",
        /// Plugs for holes that are given up.
        Plug = "plug",
        /// Dowels for holes in frames.
        Dowel = "dowel",
    }
}

/// What is in a box: anything that is not said may be any.
#[derive(Clone, Debug)]
pub struct BoxOf {
    /// What sort of thing.
    pub ware: Ware,
    /// Of fastenings, the kind.
    pub kind: Option<Kind>,
    /// Of fastenings, the metal.
    pub metal: Option<&'static Metal>,
    /// Of fastenings, the size.
    pub size: Option<Size>,
    /// Of the rest, the diameter.
    pub diameter: Option<Length>,
    /// Of the rest, the wood.
    pub wood: Option<&'static Wood>,
    /// How many are in it.
    pub holds: u32,
    /// What it costs.
    pub price: Option<Money>,
}

impl BoxOf {
    /// Whether these goods are in such a box.
    fn is_of(&self, goods: &Goods) -> bool {
        fn fits<T: PartialEq>(said: &Option<T>, is: &Option<T>) -> bool {
            said.is_none() || said == is
        }
        match goods {
            Goods::Fastening { kind, metal, size } => {
                self.ware == Ware::Fastening
                    && fits(&self.kind, &Some(*kind))
                    && fits(&self.metal, metal)
                    && fits(&self.size, size)
            }
            Goods::Bung { diameter, wood } => {
                self.ware == Ware::Bung
                    && fits(&self.diameter, &Some(*diameter))
                    && fits(&self.wood, wood)
            }
            Goods::Plug { diameter, wood } => {
                self.ware == Ware::Plug && fits(&self.diameter, diameter) && fits(&self.wood, wood)
            }
            Goods::Dowel { over, wood } => {
                self.ware == Ware::Dowel && fits(&self.diameter, over) && fits(&self.wood, wood)
            }
        }
    }
}

/// So many boxes of one sort.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Boxed {
    /// How many are in a box; one where they are sold singly.
    pub holds: u32,
    /// How many boxes.
    pub boxes: u64,
    /// What they cost together, where the owner's list tells.
    pub price: Option<Money>,
}

impl Boxed {
    /// How many are in all the boxes.
    pub const fn pieces(&self) -> u64 {
        self.boxes.saturating_mul(self.holds as u64)
    }
}

impl Stores {
    /// The boxes to buy for so many of some goods: of those that fit, the cheapest where all have a
    /// price, else those that leave the fewest over. Singly where no box fits.
    pub fn boxed(&self, goods: &Goods, wanted: u64) -> Boxed {
        let fitting = self.boxes.iter().filter(|of| of.is_of(goods));
        let choices: Vec<Boxed> = fitting
            .map(|of| {
                let boxes = wanted.div_ceil(u64::from(of.holds.max(1)));
                Boxed {
                    holds: of.holds.max(1),
                    boxes,
                    price: of.price.and_then(|price| price.times(boxes)),
                }
            })
            .collect();
        let by_price = choices.iter().all(|choice| choice.price.is_some());
        let best = choices.into_iter().min_by_key(|choice| {
            let price = choice.price.filter(|_| by_price).unwrap_or_default();
            (price, choice.pieces(), choice.boxes)
        });
        best.unwrap_or(Boxed {
            holds: 1,
            boxes: wanted,
            price: None,
        })
    }

    /// The sets of drills to choose bits from: those that are owned, or the fractional ones.
    pub fn drills(&self) -> Vec<Series> {
        let own: Vec<Series> = self
            .own
            .iter()
            .filter_map(|own| match own {
                Owned::Drills(series) => Some(*series),
                _ => None,
            })
            .collect();
        match own.is_empty() {
            true => vec![Series::Fraction],
            false => own,
        }
    }
}

impl Stores {
    /// Whether a tool is owned.
    pub fn has(&self, tool: Tool) -> bool {
        self.own.iter().any(|own| match (own, tool) {
            (Owned::Drills(series), Tool::Drill(drill)) => drill.series == *series,
            (Owned::Drill(own), Tool::Drill(drill)) => *own == drill,
            (Owned::Counterbore(own), Tool::Counterbore(wanted))
            | (Owned::PlugCutter(own), Tool::PlugCutter(wanted)) => *own == wanted,
            _ => false,
        })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{BoxOf, Stores, Ware};
    use crate::joint::Kind;
    use crate::refit::buy::Goods;

    const RIVET: Goods = Goods::Fastening {
        kind: Kind::Rivet,
        metal: None,
        size: None,
    };

    fn box_of(ware: Ware, kind: Option<Kind>, holds: u32, price: Option<&str>) -> BoxOf {
        BoxOf {
            ware,
            kind,
            metal: None,
            size: None,
            diameter: None,
            wood: None,
            holds,
            price: price.map(|price| price.parse().unwrap()),
        }
    }

    fn stores(boxes: Vec<BoxOf>) -> Stores {
        Stores {
            boxes,
            ..Stores::default()
        }
    }

    proptest! {
        #[test]
        fn boxes_hold_what_is_wanted_and_no_whole_box_more(
            holds in prop::collection::vec(1..500u32, 0..4),
            wanted in 1..5_000u64,
        ) {
            let boxes = holds.iter().map(|n| box_of(Ware::Fastening, None, *n, None));
            let boxed = stores(boxes.collect()).boxed(&RIVET, wanted);
            prop_assert!(boxed.pieces() >= wanted);
            prop_assert!(boxed.pieces() - wanted < u64::from(boxed.holds));
            for holds in holds {
                let other = wanted.div_ceil(u64::from(holds)) * u64::from(holds);
                prop_assert!(boxed.pieces() <= other);
            }
        }
    }

    #[test]
    fn the_cheapest_counts_where_all_have_a_price() {
        let hundred = || box_of(Ware::Fastening, Some(Kind::Rivet), 100, Some("10.00"));
        let ten = |price| box_of(Ware::Fastening, None, 10, price);
        let of = |boxes, wanted| {
            let boxed = stores(boxes).boxed(&RIVET, wanted);
            (boxed.holds, boxed.boxes, boxed.price.map(|p| p.to_string()))
        };
        let price = |text: &str| Some(text.to_owned());
        assert_eq!(
            of(vec![hundred(), ten(Some("3.50"))], 28),
            (100, 1, price("10.00"))
        );
        assert_eq!(
            of(vec![hundred(), ten(Some("3.50"))], 20),
            (10, 2, price("7.00"))
        );
        assert_eq!(of(vec![hundred(), ten(None)], 28), (10, 3, None));
        // A box of something else is no box of these.
        let screws = box_of(Ware::Fastening, Some(Kind::WoodScrew), 50, Some("1.00"));
        let bungs = box_of(Ware::Bung, None, 50, Some("1.00"));
        assert_eq!(of(vec![screws, bungs], 28), (1, 28, None));
    }
}
