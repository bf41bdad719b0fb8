//! What else would do, and what each misses.

use super::answer::{self, Fitted};
use super::{Ask, Check, Wanted};
use crate::joint::{Size, Verdict};
use crate::tables::Screw;
use crate::units::{Force, Length};

/// How another screw differs from the one answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// A gauge smaller.
    Thinner,
    /// A gauge larger.
    Thicker,
    /// The next shorter in stock.
    Shorter,
    /// The next longer in stock.
    Longer,
    /// Found by looking further, because none of those fits.
    Further,
}

/// Another screw that might be driven instead.
#[derive(Clone, Debug)]
pub struct Alternative {
    /// How it differs.
    pub way: Way,
    /// What it is, with its length.
    pub size: Size,
    /// As it is asked for over the counter.
    pub label: String,
    /// Whether it is made in that length; `None` where nothing is published.
    pub stock: Option<bool>,
    /// Its length in the member.
    pub embedment: Length,
    /// Its design withdrawal, where there is one.
    pub design: Option<Force>,
    /// What it misses.
    pub fails: Vec<Check>,
}

impl Alternative {
    /// Whether nothing needs mending with it.
    pub fn fits(&self) -> bool {
        fits(&self.fails)
    }

    fn new(
        ask: &Ask,
        wanted: Option<&Wanted>,
        way: Way,
        screw: &'static Screw,
        length: Length,
    ) -> Self {
        let fitted = Fitted::new(ask, wanted, screw, length);
        let hold = fitted.hold(ask);
        Self {
            way,
            size: Size::Screw { screw, length },
            label: answer::label(Size::Screw { screw, length }, ask.units),
            stock: in_stock(screw, length),
            embedment: fitted.seat.embedment(),
            design: hold.design,
            fails: fitted
                .checks(ask, wanted)
                .into_iter()
                .filter(|check| check.verdict > Verdict::Ok)
                .collect(),
        }
    }
}

/// Whether nothing among these needs mending.
pub(super) fn fits(checks: &[Check]) -> bool {
    checks.iter().all(|check| check.verdict < Verdict::Mend)
}

/// Whether a screw is made in a length; `None` where nothing is published.
pub(super) fn in_stock(screw: &Screw, length: Length) -> Option<bool> {
    let stock = screw.stock_lengths();
    (!stock.is_empty()).then(|| stock.contains(&length))
}

/// A gauge and a length either way, and where neither they nor the answer fit, what does.
pub(super) fn around(ask: &Ask, wanted: Option<&Wanted>, answered: &Fitted) -> Vec<Alternative> {
    let (screw, length) = (answered.screw, answered.seat.length);
    let stock = screw.stock_lengths();
    let shorter = stock.iter().rev().find(|each| **each < length);
    let longer = stock.iter().find(|each| **each > length);
    let mut found: Vec<Alternative> = [
        (Way::Thinner, screw.smaller(), Some(length)),
        (Way::Thicker, screw.larger(), Some(length)),
        (Way::Shorter, Some(screw), shorter.copied()),
        (Way::Longer, Some(screw), longer.copied()),
    ]
    .into_iter()
    .filter_map(|(way, screw, length)| Some(Alternative::new(ask, wanted, way, screw?, length?)))
    .collect();
    if !fits(&answered.checks(ask, wanted)) && !found.iter().any(Alternative::fits) {
        found.extend(further(ask, wanted, screw, length));
    }
    found
}

/// The screws that fit, nearest gauge first, and of each the length nearest to the rule's; three
/// at most.
fn further(
    ask: &Ask,
    wanted: Option<&Wanted>,
    screw: &'static Screw,
    length: Length,
) -> Vec<Alternative> {
    const MOST: usize = 3;
    let (from, target) = wanted.map_or((screw, length), |wanted| (wanted.screw, wanted.length));
    let mut gauges: Vec<_> = Screw::all(from.system).iter().collect();
    gauges.sort_by_key(|each| each.sizes_above(from).abs());
    gauges
        .into_iter()
        .filter_map(|each| {
            let mut stock = each.stock_lengths();
            stock.sort_by_key(|length| ((*length - target).nm().abs(), -length.nm()));
            stock
                .into_iter()
                .map(|length| Alternative::new(ask, wanted, Way::Further, each, length))
                .find(Alternative::fits)
        })
        .take(MOST)
        .collect()
}
