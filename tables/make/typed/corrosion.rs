//! How fast metals go, alone and beside stainless steel, and what zinc is on them.

use super::super::value::{self, Kind, Value};
use super::{Fault, Reader};

pub fn in_the_sea(r: &mut Reader) -> Result<String, Fault> {
    let alloy = r.need("alloy")?;
    let metal = r.some("metal");
    let general = span(r, "general")?;
    let crevice = match r.optional("crevice") {
        Some(_) => format!("Some({})", span(r, "crevice")?),
        None => "None".to_owned(),
    };
    Ok(format!(
        "InTheSea {{ alloy: {alloy}, metal: {metal}, general: {general}, crevice: {crevice} }}"
    ))
}

pub fn rate(r: &mut Reader) -> Result<String, Fault> {
    let exposures = words(r, "exposure");
    let exposures = exposures.iter().map(|word| match word.as_str() {
        "sea" => Ok("Exposure::Sea"),
        "splash" => Ok("Exposure::Splash"),
        "air" => Ok("Exposure::Air"),
        "fresh" => Ok("Exposure::Fresh"),
        _ => Err(r.missing("exposure")),
    });
    let exposures = exposures.collect::<Result<Vec<_>, _>>()?.join(", ");
    Ok(format!(
        "Row {{ what: {}, metals: &{:?}, exposures: &[{exposures}], rate: {} }}",
        r.need("what")?,
        words(r, "metals"),
        span(r, "rate")?,
    ))
}

pub fn coating(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "Coating {{ class: {}, over: {}, average: {}, any_one: {}, basis: {} }}",
        r.need("class")?,
        r.some("over"),
        r.need("average")?,
        r.need("any one")?,
        r.basis("average")?,
    ))
}

pub fn couple(r: &mut Reader) -> Result<String, Fault> {
    let mut losses = String::new();
    let mut bases = String::new();
    for (column, (spared, eaten)) in [
        ("1:10", (1, 10)),
        ("1:1", (1, 1)),
        ("4:1", (4, 1)),
        ("10:1", (10, 1)),
    ] {
        if let Some(loss) = r.optional(column) {
            losses += &format!("(({spared}, {eaten}), {loss}), ");
            bases = r.basis(column)?;
        }
    }
    if losses.is_empty() {
        return Err(r.missing("1:1"));
    }
    Ok(format!(
        "MeasuredCouple {{ partner: {}, stands_for: &{:?}, losses: &[{losses}], basis: {bases} }}",
        r.need("partner")?,
        words(r, "stands for"),
    ))
}

/// The words of a cell, parted by semicolons; none where it is empty.
fn words(r: &Reader, column: &str) -> Vec<String> {
    match r.text(column) {
        Ok(text) => text.split("; ").map(str::to_owned).collect(),
        Err(_) => Vec::new(),
    }
}

/// A rate as it is printed: `0.035`, `0.10 to 0.13`, or `<0.025`, which is from nought.
fn span(r: &mut Reader, column: &str) -> Result<String, Fault> {
    let text = r.text(column)?;
    let (low, high) = match (text.strip_prefix('<'), text.split_once(" to ")) {
        (Some(high), _) => ("0", high),
        (None, Some(both)) => both,
        (None, None) => (text.as_str(), text.as_str()),
    };
    let number = |text: &str| match value::read(Kind::Number, "", text) {
        Ok(Value::Number(n)) => Ok(n),
        _ => Err(r.missing(column)),
    };
    let (low, high) = (number(low)?, number(high)?);
    if low > high {
        return Err(r.missing(column));
    }
    Ok(format!(
        "Rate {{ low: {low:?}, high: {high:?}, basis: {} }}",
        r.basis(column)?
    ))
}
