//! Woods and their oven-dry specific gravity.

use super::super::read::{Ground, Status};
use super::super::value::Value;
use super::{Fault, Reader};

pub fn wood(r: &mut Reader) -> Result<String, Fault> {
    Ok(format!(
        "Wood {{ name: {}, aliases: {}, hardwood: {}, assigned: {}, assigned_basis: {}, green: {}, \
         green_basis: {}, dry: {}, dry_basis: {}, gravity: {}, note: {} }}",
        r.need("name")?,
        r.optional("aliases").unwrap_or("&[]".to_owned()),
        r.need("hardwood")?,
        r.some("assigned"),
        r.some_basis("assigned"),
        r.some("green"),
        r.some_basis("green"),
        r.some("dry"),
        r.some_basis("dry"),
        gravity(r)?,
        r.optional("note").unwrap_or("\"\"".to_owned()),
    ))
}

/// Oven-dry specific gravity and its ground: the assigned figure, else the green one converted.
fn gravity(r: &mut Reader) -> Result<String, Fault> {
    if let Some(assigned) = r.optional("assigned") {
        return Ok(format!("({assigned}, {})", r.basis("assigned")?));
    }
    let Some(Value::Number(green)) = r.table.value(r.row, "green") else {
        return Err(r.missing("green"));
    };
    let ground = Ground {
        source: Some("WH21".to_owned()),
        status: Status::Derived,
        note: format!(
            "green {green} / (1 - 0.265 x {green}); the formula is from memory (Wood Handbook ch. 4)"
        ),
    };
    Ok(format!(
        "({:?}, {})",
        green / (1.0 - 0.265 * green),
        r.bases.reference(&ground)
    ))
}
