//! Drills: those named one by one, and those of even steps.

use super::{Fault, Reader};

pub fn drill(r: &mut Reader) -> Result<String, Fault> {
    let name = r.text("drill")?;
    let series = if name.starts_with("No.") {
        "Number"
    } else {
        "Letter"
    };
    let diameter = r.need("diameter")?;
    Ok(format!(
        "Drill {{ series: Series::{series}, name: {name:?}, diameter: {diameter} }}"
    ))
}

/// The drills of a run of even steps, both ends included.
pub fn drill_run(r: &mut Reader) -> Result<String, Fault> {
    let series = r.text("series")?;
    let column = |end: &str| format!("{end} {}", if series == "metric" { "mm" } else { "in" });
    let (from, to) = (r.nm(&column("from"))?, r.nm(&column("to"))?);
    let step = r.nm(&column("step"))?;
    if step <= 0 || (to - from) % step != 0 {
        return Err(r.missing(&column("step")));
    }
    let mut out = Vec::new();
    let mut at = from;
    while at <= to {
        let (variant, name) = match series.as_str() {
            "metric" => ("Metric", format!("{} mm", at as f64 / 1e6)),
            "fraction" => ("Fraction", fraction(at)),
            _ => return Err(r.missing("series")),
        };
        out.push(format!(
            "Drill {{ series: Series::{variant}, name: {name:?}, diameter: Length::from_nm({at}) }}"
        ));
        at += step;
    }
    Ok(out.join(",\n"))
}

/// Nanometres as an inch fraction in 64ths, like `1-3/4`.
fn fraction(nm: i64) -> String {
    let n = nm / 396_875;
    let (whole, part) = (n / 64, n % 64);
    let common = 1 << part.trailing_zeros().min(6);
    match (whole, part) {
        (whole, 0) => whole.to_string(),
        (0, part) => format!("{}/{}", part / common, 64 / common),
        _ => format!("{whole}-{}/{}", part / common, 64 / common),
    }
}
