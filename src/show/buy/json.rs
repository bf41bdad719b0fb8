//! What to buy as JSON, format 1.

use serde_json::{Value, json};

use super::{Buying, tool};
use crate::hull::{CrossingId, fold};
use crate::joint::Size;
use crate::refit::buy::{Goods, Line, Money, Tool};
use crate::show::known;
use crate::tables::{Metal, Wood};
use crate::units::Length;

/// The list for other programs.
pub fn json(buying: &Buying<'_>) -> Value {
    let (asked, list) = (buying.asked, buying.list);
    let place = |ids: &[CrossingId]| fold(asked.hull, ids.iter().copied()).to_string();
    let chosen = list.chosen.iter().map(|chosen| {
        json!({
            "what": buying.name(&chosen.goods),
            "place": place(&chosen.crossings),
            "fastenings": chosen.count,
            "after_entry": chosen.after.number,
        })
    });
    let unchosen = list.unchosen.iter().map(|unchosen| {
        json!({
            "place": place(&unchosen.crossings),
            "holes": unchosen.holes,
            "why": unchosen.why,
        })
    });
    let tools = list.tools.iter().map(|(of, owned)| {
        json!({
            "tool": tool(*of, asked.units),
            "diameter_mm": diameter(*of).map(Length::mm),
            "owned": owned,
        })
    });
    let unbored = list.unbored.iter().map(|(goods, crossings, why)| {
        json!({"what": buying.name(goods), "place": place(crossings), "why": why})
    });
    let total = list
        .total()
        .filter(|(_, without)| *without < list.goods.len());
    json!({
        "format": 1,
        "boat": asked.hull.boat,
        "as_of": asked.day.to_string(),
        "as_known": known::json(asked.book),
        "place": buying.place,
        "planned": list.counts.planned,
        "open": list.counts.open,
        "given": list.counts.given,
        "goods": list.goods.iter().map(|l| line(buying, l)).collect::<Vec<Value>>(),
        "tools": tools.collect::<Vec<Value>>(),
        "chosen": chosen.collect::<Vec<Value>>(),
        "unchosen": unchosen.collect::<Vec<Value>>(),
        "unbored": unbored.collect::<Vec<Value>>(),
        "not_counted": (!list.not_at.is_empty()).then(|| place(&list.not_at)),
        "stopping": list.stopping,
        "cover_unknown": list.unknown_cover,
        "spares": buying.spares(),
        "money": asked.stores.money,
        "price_hundredths": total.map(|(price, _)| price.hundredths()),
        "without_price": list.total().map(|(_, without)| without),
    })
}

fn line(buying: &Buying<'_>, line: &Line) -> Value {
    let (ware, kind, metal, wood, size) = match &line.goods {
        Goods::Fastening { kind, metal, size } => {
            let kind = Some(kind.name());
            (
                "fastening",
                kind,
                *metal,
                None,
                size.and_then(Size::diameter),
            )
        }
        Goods::Bung { diameter, wood } => ("bung", None, None, *wood, Some(*diameter)),
        Goods::Plug { diameter, wood } => ("plug", None, None, *wood, *diameter),
        Goods::Dowel { over, wood } => ("dowel", None, None, *wood, *over),
    };
    let length = match &line.goods {
        Goods::Fastening { size, .. } => size.map(Size::length),
        Goods::Bung { .. } | Goods::Plug { .. } | Goods::Dowel { .. } => None,
    };
    let lost = match &line.goods {
        Goods::Fastening { kind, .. } => {
            let lost = buying.list.spares.lost(*kind);
            json!({
                "driven": lost.driven,
                "lost": lost.lost,
                "goes_by_log": buying.list.spares.goes_by_log(*kind),
            })
        }
        _ => Value::Null,
    };
    json!({
        "what": buying.name(&line.goods),
        "ware": ware,
        "kind": kind,
        "metal": metal.map(|metal: &Metal| metal.name),
        "size": buying.size(&line.goods),
        "diameter_mm": size.map(Length::mm),
        "length_mm": length.map(Length::mm),
        "wood": wood.map(|wood: &Wood| wood.name),
        "needed": line.needed,
        "spares": line.spares,
        "lost": lost,
        "box_holds": line.boxed.holds,
        "boxes": line.boxed.boxes,
        "buy": line.boxed.pieces(),
        "price_hundredths": line.boxed.price.map(Money::hundredths),
    })
}

fn diameter(tool: Tool) -> Option<Length> {
    match tool {
        Tool::Drill(drill) => Some(drill.diameter),
        Tool::Odd(length) | Tool::Counterbore(length) | Tool::PlugCutter(length) => Some(length),
        Tool::Taper(_) => None,
    }
}
