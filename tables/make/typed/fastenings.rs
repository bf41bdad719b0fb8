//! Screws, wire gauges, bolts, bungs, spacing and pilot holes.

use super::super::value::Value;
use super::{Fault, Reader};

pub fn screw(r: &mut Reader) -> Result<String, Fault> {
    let system = match r.table.name.as_str() {
        "screws-british" => "British",
        "screws-metric" => "Metric",
        _ => "American",
    };
    let head = match r.optional("head largest") {
        Some(largest) => format!(
            "Some(Head {{ largest: {largest}, smallest: {}, height: {}, basis: {} }})",
            r.some("head smallest"),
            r.some("head height"),
            r.basis("head largest")?
        ),
        None => "None".to_owned(),
    };
    Ok(format!(
        "Screw {{ system: GaugeSystem::{system}, gauge: {}, shank: {}, shank_basis: {}, \
         head: {head}, root: {}, root_basis: {}, standard_root: {}, standard_head: {}, \
         threads_per_inch: {}, pitch: {}, shortest: {}, longest: {} }}",
        r.some("gauge"),
        r.need("shank")?,
        r.basis("shank")?,
        r.need("root")?,
        r.basis("root")?,
        r.some("standard root"),
        r.some("standard head"),
        r.some("threads per inch"),
        r.some("pitch"),
        r.some("shortest"),
        r.some("longest"),
    ))
}

pub fn wire(r: &mut Reader) -> Result<String, Fault> {
    let system = match r.text("system")?.as_str() {
        "SWG" => "Swg",
        "BWG" => "Bwg",
        _ => return Err(r.missing("system")),
    };
    let (number, diameter) = (r.need("number")?, r.need("diameter")?);
    Ok(format!(
        "(WireSystem::{system}, {number}, {diameter}, {})",
        r.basis("diameter")?
    ))
}

pub fn nail(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "Nail {{ penny: {}, length: {}, common: {}, box_: {}, sinker: {} }}",
        r.need("penny")?,
        r.need("length")?,
        r.some("common"),
        r.some("box"),
        r.some("sinker")
    ))
}

pub fn bolt(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "Bolt {{ nominal: {}, lag_root: {} }}",
        r.need("nominal")?,
        r.need("lag root")?
    ))
}

pub fn spacing(r: &mut Reader) -> Result<String, Fault> {
    let (first, second) = match r.table.name.as_str() {
        "spacing" => ("bored", "not bored"),
        _ => ("softwood", "hardwood"),
    };
    Ok(format!(
        "Spacing {{ distance: {}, diameters: [{}, {}], basis: {} }}",
        r.need("distance")?,
        r.need(first)?,
        r.need(second)?,
        r.basis(first)?
    ))
}

pub fn bung(r: &mut Reader) -> Result<String, Fault> {
    let column = if r.optional("planking table").is_some() {
        "planking table"
    } else {
        "drill chart"
    };
    let diameter = match r.table.value(r.row, column) {
        Some(Value::Lengths(all)) => all.first().copied(),
        Some(Value::Length(nm)) => Some(*nm),
        _ => None,
    };
    let Some(nm) = diameter else {
        return Err(r.missing(column));
    };
    let gauge = r.need("gauge")?;
    let basis = r.basis(column)?;
    Ok(format!(
        "Bung {{ gauge: {gauge}, diameter: Length::from_nm({nm}), basis: {basis} }}"
    ))
}

pub fn lead_hole(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "LeadHole {{ name: {}, hard_percent: {}, soft_percent: {}, dense_from: {}, basis: {} }}",
        r.need("name")?,
        r.need("hard")?,
        r.need("soft")?,
        r.need("dense from")?,
        r.basis("hard")?
    ))
}
