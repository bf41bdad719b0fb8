//! Planking rules and butts.

use super::super::value::{self, Value};
use super::{Fault, Reader};

pub fn plank_row(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "PlankRow {{ plank: {}, screw_diameter: {}, gauge: {}, length: {}, bungs: {}, bung: {} }}",
        r.need("plank")?,
        r.need("screw")?,
        r.need("gauge")?,
        r.need("length")?,
        r.need("bungs")?,
        r.need("bung to use")?
    ))
}

pub fn plank_rule(r: &mut Reader) -> Result<String, Fault> {
    let rows = match r.optional("rows").as_deref() {
        Some("\"planking-screws\"") => "HERRESHOFF",
        Some(_) => return Err(r.missing("rows")),
        None => "&[]",
    };
    Ok(format!(
        "PlankRule {{ name: {}, aliases: {}, title: {}, rows: {rows}, least_ratio: {}, \
         most_ratio: {}, basis: {} }}",
        r.need("name")?,
        r.optional("aliases").unwrap_or("&[]".to_owned()),
        r.need("title")?,
        ratio(r, "least length")?,
        ratio(r, "most length")?,
        r.basis("says")?
    ))
}

pub fn butts(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "ButtRule {{ name: {}, aliases: {}, spaces: {}, apart: {}, one_between: {}, strakes: {} }}",
        r.need("name")?,
        r.optional("aliases").unwrap_or("&[]".to_owned()),
        r.some("frame spaces apart"),
        r.need("apart")?,
        r.some("one strake between"),
        r.need("strakes between")?,
    ))
}

/// A share of the plank as a ratio of whole numbers, in hundredths reduced.
fn ratio(r: &Reader, column: &str) -> Result<String, Fault> {
    match r.table.value(r.row, column) {
        Some(Value::Number(n)) => {
            let hundredths = value::whole(n * 100.0);
            let common = (1..=100)
                .rev()
                .find(|d| hundredths % d == 0 && 100 % d == 0)
                .unwrap_or(1);
            Ok(format!("Some(({}, {}))", hundredths / common, 100 / common))
        }
        None => Ok("None".to_owned()),
        Some(_) => Err(r.missing(column)),
    }
}
