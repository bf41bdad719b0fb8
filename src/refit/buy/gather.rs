//! Everything that is needed, gathered over the boat.

use std::collections::BTreeSet;

use super::choose::{Nearby, Picking, ground};
use super::goods::Needs;
use super::{Asked, Chosen, Counts, Given, Goods, Tool, Unchosen, WhatFor};
use crate::hull::CrossingId;
use crate::joint::{Bit, Plug, Size};
use crate::pick::{Answer, Ground};
use crate::record::{Content, FasteningId, FrameSide, Hole, Mouth, PlankSide, Stage, State};

/// What was gathered.
#[derive(Default)]
pub(super) struct Gathered<'b> {
    pub(super) needs: Needs,
    pub(super) tools: Vec<Tool>,
    pub(super) counts: Counts,
    pub(super) chosen: Vec<Chosen<'b>>,
    pub(super) unchosen: Vec<Unchosen>,
    pub(super) unbored: Vec<(Goods, Vec<CrossingId>, String)>,
    pub(super) not_at: Vec<CrossingId>,
}

/// Gathering, and what it looks at.
struct Gathering<'q, 'a> {
    asked: &'q Asked<'a>,
    picking: Picking<'a>,
    found: Gathered<'a>,
}

pub(super) fn gather<'a>(asked: &Asked<'a>) -> Gathered<'a> {
    let mut gathering = Gathering {
        asked,
        picking: Picking {
            hull: asked.hull,
            limits: asked.limits,
            drills: asked.stores.drills(),
            units: asked.units,
        },
        found: Gathered::default(),
    };
    gathering.all();
    gathering.found
}

impl<'a> Gathering<'_, 'a> {
    fn all(&mut self) {
        let book = self.asked.book;
        let before = book.state(self.asked.hull, Some(self.asked.day));
        let waiting: Vec<Stage> = book
            .plan_progress(Some(self.asked.day))
            .into_iter()
            .filter(|stage| stage.left() > 0 && self.asks_about(stage.spot.crossing))
            .collect();
        match &self.asked.what_for {
            WhatFor::All => {
                self.planned(&before, waiting.iter());
                let planned = waiting.iter().map(|stage| stage.spot.crossing).collect();
                self.open(&before, &planned);
            }
            WhatFor::These(plans, given) => {
                let named = |stage: &&Stage| {
                    let line = book.plan_line(stage.line);
                    line.is_some_and(|line| plans.contains(&line.plan))
                };
                self.planned(&before, waiting.iter().filter(named));
                given.iter().for_each(|given| self.given(given));
            }
        }
    }

    fn asks_about(&self, id: CrossingId) -> bool {
        let within = self.asked.within.as_ref();
        within.is_none_or(|within| within.contains(&id))
    }

    /// What waits in the plan.
    fn planned<'s>(&mut self, before: &State, stages: impl Iterator<Item = &'s Stage>) {
        let (hull, book) = (self.asked.hull, self.asked.book);
        let mut after = before.clone();
        let mut at = BTreeSet::new();
        let mut sites: Vec<(FasteningId, Ground, Vec<CrossingId>)> = Vec::new();
        for stage in stages {
            let id = stage.spot.crossing;
            if !book.carry_out_stage(&mut after, stage) {
                self.found.not_at.push(id);
                continue;
            }
            at.insert(id);
            let count = u64::from(stage.left());
            let fastening = book.fastening(stage.fastening);
            let wood = before.plank_wood(hull, id);
            self.found.counts.planned += count;
            self.found.needs.add(Goods::of(fastening), count);
            self.found.needs.cover(fastening.plug, wood, count);
            let Some(ground) = ground(hull, before, id) else {
                continue;
            };
            let same = |site: &&mut (FasteningId, Ground, Vec<CrossingId>)| {
                let other = book.fastening(site.0);
                Goods::of(other) == Goods::of(fastening)
                    && other.plug == fastening.plug
                    && site.1 == ground
            };
            match sites.iter_mut().find(same) {
                Some((.., crossings)) => crossings.push(id),
                None => sites.push((stage.fastening, ground, vec![id])),
            }
        }
        for id in at {
            self.closed(before, &after, id);
            self.bare_heads(&after, id);
        }
        for (fastening, ground, crossings) in sites {
            self.bored(fastening, &ground, crossings);
        }
    }

    /// Plugs and dowels for what is drawn and what stands open already at a crossing.
    fn closed(&mut self, before: &State, after: &State, id: CrossingId) {
        let old = before.holes(id);
        for (old, new) in old.iter().zip(after.holes(id)) {
            let (was, is) = (old.content.plank_side(), new.content.plank_side());
            if is == PlankSide::Plugged && was != PlankSide::Plugged {
                self.plug(before, id, old);
            }
            let comes_open = old != new
                && matches!(
                    old.content.frame_side(),
                    FrameSide::Filled | FrameSide::Stub
                );
            let stays_in = matches!(new.content, Content::LeftIn(_));
            let is_open = match old.content.frame_side() {
                FrameSide::Open => true,
                // A stub comes out before anything goes in.
                FrameSide::Stub => was == PlankSide::Open,
                FrameSide::Filled | FrameSide::Doweled | FrameSide::Gone => false,
            };
            if !stays_in && (comes_open || is_open) {
                self.dowel(before, id, old);
            }
        }
    }

    fn plug(&mut self, state: &State, id: CrossingId, hole: &Hole) {
        let of = self.asked.book.fastening(hole.fastening);
        let diameter = match of.plug {
            Plug::Bung(bung) => Some(bung.diameter),
            Plug::None | Plug::Stopping => of.size.and_then(Size::diameter),
            Plug::Unknown => None,
        };
        let wood = state.plank_wood(self.asked.hull, id);
        self.found.needs.add(Goods::Plug { diameter, wood }, 1);
        if let Plug::Bung(bung) = of.plug {
            self.wants(Tool::PlugCutter(bung.diameter));
        }
    }

    fn dowel(&mut self, state: &State, id: CrossingId, hole: &Hole) {
        let of = self.asked.book.fastening(hole.fastening);
        let over = of.size.and_then(Size::diameter);
        let wood = state.scantlings(self.asked.hull, id).wood;
        self.found.needs.add(Goods::Dowel { over, wood }, 1);
    }

    /// What covers heads that are bare.
    fn bare_heads(&mut self, state: &State, id: CrossingId) {
        let wood = state.plank_wood(self.asked.hull, id);
        for hole in state.holes(id) {
            if hole.content.mouth() == Some(Mouth::Open) {
                let plug = self.asked.book.fastening(hole.fastening).plug;
                self.found.needs.cover(plug, wood, 1);
                if let Plug::Bung(bung) = plug {
                    self.wants(Tool::PlugCutter(bung.diameter));
                }
            }
        }
    }

    /// The bits that a fastening wants on some ground.
    fn bored(&mut self, id: FasteningId, ground: &Ground, crossings: Vec<CrossingId>) {
        let fastening = self.asked.book.fastening(id);
        let settled = self.picking.settled(
            ground,
            fastening.kind,
            fastening.metal,
            fastening.size,
            fastening.plug,
        );
        match settled {
            Ok(answer) => self.bits(&answer, fastening.plug),
            Err(why) => {
                let goods = Goods::of(fastening);
                self.found.unbored.push((goods, crossings, why));
            }
        }
        if let Plug::Bung(bung) = fastening.plug {
            self.wants(Tool::PlugCutter(bung.diameter));
        }
    }

    fn bits(&mut self, answer: &Answer, plug: Plug) {
        let holes = &answer.holes;
        let counterbore = holes.counterbore.filter(|_| matches!(plug, Plug::Bung(_)));
        for hole in [counterbore, holes.shank, holes.pilot]
            .into_iter()
            .flatten()
        {
            self.wants(match hole.bit {
                Some(Bit::Drill(drill)) => Tool::Drill(drill),
                Some(Bit::Counterbore(diameter)) => Tool::Counterbore(diameter),
                Some(Bit::Taper(screw)) => Tool::Taper(screw),
                None => Tool::Odd(hole.exact),
            });
        }
    }

    fn wants(&mut self, tool: Tool) {
        if !self.found.tools.contains(&tool) {
            self.found.tools.push(tool);
        }
    }

    /// What stands open or bare where nothing is planned.
    fn open(&mut self, state: &State, planned: &BTreeSet<CrossingId>) {
        let hull = self.asked.hull;
        let nearby = Nearby::of(hull, self.asked.book, self.asked.day);
        for id in hull.crossing_ids() {
            if planned.contains(&id) || !self.asks_about(id) || state.is_off(id) {
                continue;
            }
            self.bare_heads(state, id);
            self.closed(state, state, id);
            let open: Vec<&Hole> = state
                .holes(id)
                .iter()
                .filter(|hole| hole.content.plank_side() == PlankSide::Open)
                .collect();
            if open.is_empty() {
                continue;
            }
            // As many as were built there; what is over is plugged.
            let relied_on = state.holes(id).iter().filter(|hole| hole.is_relied_on());
            let short = usize::from(state.expected(id)).saturating_sub(relied_on.count());
            let short = match state.expected(id) {
                0 => open.len(),
                _ => short.min(open.len()),
            };
            for hole in open.iter().skip(short) {
                self.plug(state, id, hole);
            }
            if short > 0 {
                self.choose(state, &nearby, id, short as u64);
            }
        }
    }

    fn choose(&mut self, state: &State, nearby: &Nearby<'a>, id: CrossingId, count: u64) {
        let (hull, book) = (self.asked.hull, self.asked.book);
        let Some((after, last)) = nearby.to(hull, id) else {
            let why = "nothing was driven nearby within a year, so no metal is settled";
            return self.not_chosen(id, count, why.to_owned());
        };
        let last = book.fastening(last);
        let Some(ground) = ground(hull, state, id) else {
            return self.not_chosen(id, count, "what lies there is not known".to_owned());
        };
        match self.picking.choice(&ground, last.kind, last.metal) {
            Err(why) => self.not_chosen(id, count, why),
            Ok(answer) => {
                let goods = Goods::Fastening {
                    kind: last.kind,
                    metal: last.metal,
                    size: Some(answer.size),
                };
                self.found.counts.open += count;
                self.found.needs.add(goods, count);
                self.found
                    .needs
                    .cover(answer.plug, state.plank_wood(hull, id), count);
                self.bits(&answer, answer.plug);
                if let Plug::Bung(bung) = answer.plug {
                    self.wants(Tool::PlugCutter(bung.diameter));
                }
                let same = |chosen: &&mut Chosen<'_>| {
                    chosen.goods == goods && chosen.after.number == after.number
                };
                match self.found.chosen.iter_mut().find(same) {
                    Some(chosen) => {
                        chosen.crossings.push(id);
                        chosen.count += count;
                    }
                    None => self.found.chosen.push(Chosen {
                        goods,
                        crossings: vec![id],
                        count,
                        after,
                    }),
                }
            }
        }
    }

    fn not_chosen(&mut self, id: CrossingId, holes: u64, why: String) {
        let same = |unchosen: &&mut Unchosen| unchosen.why == why;
        match self.found.unchosen.iter_mut().find(same) {
            Some(unchosen) => {
                unchosen.crossings.push(id);
                unchosen.holes += holes;
            }
            None => self.found.unchosen.push(Unchosen {
                crossings: vec![id],
                holes,
                why,
            }),
        }
    }

    /// What is given: nobody says where it goes, so nothing is bored and no wood is known.
    fn given(&mut self, given: &Given) {
        let count = u64::from(given.count);
        let goods = Goods::Fastening {
            kind: given.kind,
            metal: given.metal,
            size: Some(given.size),
        };
        self.found.counts.given += count;
        self.found.needs.add(goods, count);
        self.found.needs.cover(given.plug, None, count);
        if let Plug::Bung(bung) = given.plug {
            self.wants(Tool::Counterbore(bung.diameter));
            self.wants(Tool::PlugCutter(bung.diameter));
        }
    }
}
