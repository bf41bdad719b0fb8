//! Limits of the rules.

use super::super::value::{self, Value};
use super::{Fault, Reader};

pub fn limit(r: &mut Reader) -> Result<String, Fault> {
    let (of, is) = (r.text("of")?, r.text("is")?);
    let number =
        |unit: &str| value::read(value::Kind::Number, "", is.trim_end_matches(unit).trim());
    let float = |unit: &str| match number(unit) {
        Ok(Value::Number(n)) => Ok(n),
        _ => Err(r.missing("is")),
    };
    let whole = || is.parse::<u32>().map_err(|_| r.missing("is"));
    let quantity = match of.as_str() {
        "length" => {
            let nm = is
                .strip_suffix(" in")
                .and_then(|text| value::length("in", text));
            let nm = nm.ok_or_else(|| r.missing("is"))?;
            format!("Length(Length::from_nm({nm}))")
        }
        "share" => format!("Share({:?})", float("")?),
        "potential" => format!(
            "Volts(Potential::from_tenths_mv({}))",
            value::whole(float("V")? * 10_000.0)
        ),
        "count" => format!("Count({})", whole()?),
        "gauges" => format!("Gauges({})", whole()?),
        "diameters" => format!("Diameters({:?})", float("")?),
        "years" => format!("Years({})", whole()?),
        _ => return Err(r.missing("of")),
    };
    Ok(format!(
        "Limit {{ name: {}, is: Quantity::{quantity}, basis: {}, says: {} }}",
        r.need("name")?,
        r.basis("is")?,
        r.need("says")?
    ))
}
