//! Writes checked tables as Rust source: what figures stand on, and the tables as they are shown.

use super::read::{Ground, Status, Table};
use super::value::Value;

/// The sources and the distinct grounds, in the order of first use.
pub struct Bases {
    sources: Vec<(String, String)>,
    grounds: Vec<Ground>,
}

impl Bases {
    /// With the sources of the table of that name.
    pub fn new(tables: &[Table]) -> Self {
        let text = |value: Option<&Value>| match value {
            Some(Value::Text(text)) => text.clone(),
            _ => String::new(),
        };
        let sources = tables
            .iter()
            .filter(|table| table.name == "sources")
            .flat_map(|table| table.rows.iter().map(move |row| (table, row)))
            .map(|(table, row)| {
                let (key, title) = (table.value(row, "key"), table.value(row, "publication"));
                (text(key), text(title))
            })
            .collect();
        Self {
            sources,
            grounds: Vec::new(),
        }
    }

    /// A reference to the static of this ground.
    pub fn reference(&mut self, ground: &Ground) -> String {
        let known = self.grounds.iter().position(|g| g == ground);
        let at = known.unwrap_or_else(|| {
            self.grounds.push(ground.clone());
            self.grounds.len() - 1
        });
        format!("&crate::tables::basis::BASES[{at}]")
    }

    fn optional(&mut self, ground: Option<&Ground>) -> String {
        ground.map_or("None".to_owned(), |g| {
            format!("Some({})", self.reference(g))
        })
    }

    /// The statics themselves; written last, when all are known.
    pub fn source(&self) -> String {
        let mut out = format!("static SOURCES: [Source; {}] = [\n", self.sources.len());
        for (key, title) in &self.sources {
            out += &format!("Source {{ key: {key:?}, title: {title:?} }},\n");
        }
        out += &format!(
            "];\n/// Every ground that a figure stands on.\npub(super) static BASES: [Basis; {}] = [\n",
            self.grounds.len()
        );
        for ground in &self.grounds {
            let source = ground.source.as_ref().and_then(|key| {
                let at = self.sources.iter().position(|(k, _)| k == key)?;
                Some(format!("Some(&SOURCES[{at}])"))
            });
            let status = match ground.status {
                Status::Read => "Read",
                Status::Transcribed => "Transcribed",
                Status::Derived => "Derived",
                Status::Memory => "Memory",
                Status::Practice => "Practice",
            };
            out += &format!(
                "Basis {{ source: {}, status: Status::{status}, note: {:?} }},\n",
                source.unwrap_or("None".to_owned()),
                ground.note
            );
        }
        out + "];\n"
    }
}

/// All tables as they are shown.
pub fn tables(tables: &[Table], bases: &mut Bases) -> String {
    let mut out = "static TABLES: &[Table] = &[\n".to_owned();
    for table in tables {
        out += &format!(
            "Table {{ name: {:?}, title: {:?}, notes: &{:?}, columns: &[\n",
            table.name, table.title, table.notes
        );
        for column in &table.columns {
            out += &format!(
                "Column {{ name: {:?}, unit: {:?}, label: {}, basis: {} }},\n",
                column.name,
                column.unit,
                column.kind.is_label(),
                bases.optional(column.ground().as_ref())
            );
        }
        out += "], rows: &[\n";
        for row in &table.rows {
            out += "&[";
            for cell in &row.cells {
                let text = cell.as_ref().map_or("", |cell| cell.text.as_str());
                let ground = cell.as_ref().and_then(|cell| cell.ground.as_ref());
                out += &format!(
                    "Cell {{ text: {text:?}, basis: {} }}, ",
                    bases.optional(ground)
                );
            }
            out += "],\n";
        }
        out += "] },\n";
    }
    out + "];\n"
}
