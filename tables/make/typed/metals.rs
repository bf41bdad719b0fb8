//! Metals, which is fit for which place, and how strong they are.

use super::super::emit::Bases;
use super::super::read::Table;
use super::super::value::Value;
use super::{Fault, Reader};

/// One static a kind of metal, with its verdict in every zone; refused unless each zone has
/// exactly one.
pub fn fits(tables: &[Table], bases: &mut Bases) -> Result<String, Fault> {
    const ZONES: [&str; 5] = ["underwater", "wind and water", "topsides", "deck", "inside"];
    let mut kinds: Vec<(String, [Option<String>; 5])> = Vec::new();
    for table in tables.iter().filter(|table| table.name == "metal-fits") {
        for row in &table.rows {
            let mut r = Reader { table, row, bases };
            let (kind, zones, fit) = (r.text("metals")?, r.text("zones")?, fit(&mut r)?);
            if kinds.iter().all(|(known, _)| *known != kind) {
                kinds.push((kind.clone(), Default::default()));
            }
            let Some((_, of_kind)) = kinds.iter_mut().find(|(known, _)| *known == kind) else {
                continue;
            };
            for zone in zones.split("; ") {
                let mut of_zones = ZONES.iter().zip(of_kind.iter_mut());
                let Some((_, of_zone)) = of_zones.find(|(known, _)| **known == zone) else {
                    return Err(table.fault(row, format!("`{zone}` is not a zone")));
                };
                if of_zone.replace(fit.clone()).is_some() {
                    return Err(table.fault(row, format!("a second verdict for `{zone}`")));
                }
            }
        }
        if let Some((kind, _)) = kinds.iter().find(|(_, zones)| zones.contains(&None)) {
            let says = format!("`{kind}` has no verdict for some zone");
            return Err(Fault::new(&table.file, table.line, says));
        }
    }
    let each = kinds.into_iter().map(|(kind, zones)| {
        let fields = ZONES.iter().zip(zones.into_iter().flatten());
        let fields = fields.map(|(zone, fit)| format!("{}: {fit},\n", zone.replace(' ', "_")));
        format!(
            "static {}: Fits = Fits {{ {} }};\n",
            fits_name(&kind),
            fields.collect::<String>()
        )
    });
    Ok(each.collect())
}

fn fits_name(kind: &str) -> String {
    format!("FITS_{}", kind.to_uppercase().replace([' ', '-'], "_"))
}

fn fit(r: &mut Reader) -> Result<String, Fault> {
    let verdict = match r.text("verdict")?.as_str() {
        "usual" => "Usual",
        "doubtful" => "Doubtful",
        "unfit" => "Unfit",
        _ => return Err(r.missing("verdict")),
    };
    Ok(format!(
        "Fit {{ verdict: Verdict::{verdict}, why: {}, basis: {} }}",
        r.need("why")?,
        r.basis("verdict")?
    ))
}

pub fn metal(r: &mut Reader) -> Result<String, Fault> {
    let range = |r: &mut Reader, active: &str, noble: &str| -> Result<String, Fault> {
        Ok(match (r.optional(active), r.optional(noble)) {
            (Some(a), Some(n)) => format!(
                "Range {{ active: {a}, noble: {n}, basis: {} }}",
                r.basis(active)?
            ),
            _ => return Err(r.missing(noble)),
        })
    };
    let some = |r: &mut Reader, active: &str, noble: &str| match r.optional(active) {
        Some(_) => range(r, active, noble).map(|it| format!("Some({it})")),
        None => Ok("None".to_owned()),
    };
    let family = match r.text("family")?.as_str() {
        "iron" => "Iron",
        "steel" => "Steel",
        "stainless" => "Stainless",
        "aluminium" => "Aluminium",
        "brass" => "Brass",
        "bronze" => "Bronze",
        "copper" => "Copper",
        "nickel-copper" => "NickelCopper",
        "zinc" => "Zinc",
        "lead" => "Lead",
        "other" => "Other",
        _ => return Err(r.missing("family")),
    };
    Ok(format!(
        "Metal {{ name: {}, aliases: {}, family: Family::{family}, potential: {}, passive: {}, \
         coating: {}, dealloys: {}, fits: &{}, note: {} }}",
        r.need("name")?,
        r.optional("aliases").unwrap_or("&[]".to_owned()),
        some(r, "active", "noble")?,
        some(r, "passive active", "passive noble")?,
        some(r, "coating active", "coating noble")?,
        r.need("dealloys")?,
        fits_name(&r.text("fits")?),
        r.optional("note").unwrap_or("\"\"".to_owned()),
    ))
}

pub fn strength(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "Strength {{ metal: {}, alloy: {}, tensile: {}, tensile_basis: {}, bending: {}, \
         bending_basis: {} }}",
        r.need("metal")?,
        r.need("alloy")?,
        psi(r, "tensile")?,
        r.basis("tensile")?,
        psi(r, "bending yield")?,
        r.basis("bending yield")?,
    ))
}

pub fn steel_band(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "Band {{ from: {}, to: {}, bending: {}, basis: {} }}",
        r.need("from")?,
        r.need("to")?,
        psi(r, "bending yield")?,
        r.basis("bending yield")?,
    ))
}

fn psi(r: &Reader, column: &str) -> Result<String, Fault> {
    match r.table.value(r.row, column) {
        Some(Value::Number(ksi)) => Ok(format!("Stress::from_psi({:?})", ksi * 1000.0)),
        _ => Err(r.missing(column)),
    }
}
