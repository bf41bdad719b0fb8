//! The texts of one record made into values, every bad one told.

use std::str::FromStr;

use super::given::{Given, OneOrMany, Text};
use crate::text::{Fault, Misread, Origin, Step};

/// Reads the fields of one record; what cannot be read is told, and the reading goes on.
#[derive(Debug)]
pub struct Reader<'f> {
    origin: Origin,
    base: Vec<Step>,
    faults: &'f mut Vec<Fault>,
}

impl<'f> Reader<'f> {
    /// A reader of the record that begins at `origin`.
    pub fn new(origin: Origin, faults: &'f mut Vec<Fault>) -> Self {
        Self {
            origin,
            base: Vec::new(),
            faults,
        }
    }

    /// A reader of the record under `key` in this one.
    pub fn inside(&mut self, key: &'static str) -> Reader<'_> {
        let mut base = self.base.clone();
        base.push(Step::Key(key));
        Reader {
            origin: self.origin,
            base,
            faults: self.faults,
        }
    }

    /// The record's place.
    pub fn origin(&self) -> Origin {
        self.origin
    }

    /// The value of a key that may be left out. `None` where it is, or where its fault is told.
    pub fn read<T: FromStr<Err = Misread>>(
        &mut self,
        key: &'static str,
        text: &Given<Text>,
    ) -> Option<T> {
        match text.as_ref()?.as_str().parse() {
            Ok(value) => Some(value),
            Err(misread) => {
                self.fault(key, misread);
                None
            }
        }
    }

    /// The value of a key that must be given.
    pub fn need<T: FromStr<Err = Misread>>(
        &mut self,
        key: &'static str,
        text: &Given<Text>,
    ) -> Option<T> {
        self.missing(key, text);
        self.read(key, text)
    }

    /// The text of a key that must be given, as it stands.
    pub fn need_text(&mut self, key: &'static str, text: &Given<Text>) -> Option<String> {
        self.missing(key, text);
        text.as_ref().map(|text| text.as_str().to_owned())
    }

    /// The values of a key that takes one or a list and may be left out: empty where it is,
    /// `None` where any of them is bad.
    pub fn read_many<T: FromStr<Err = Misread>>(
        &mut self,
        key: &'static str,
        texts: &Given<OneOrMany>,
    ) -> Option<Vec<T>> {
        let list = match texts {
            Given::Missing => return Some(Vec::new()),
            Given::Faulty => return None,
            Given::Is(list) => list,
        };
        let mut values = Vec::new();
        for (number, text) in list.texts().iter().enumerate() {
            let value = text.as_str().parse().map_err(|misread| {
                let mut path = self.path(key);
                if matches!(list, OneOrMany::Many(_)) {
                    path.push(Step::Item(number));
                }
                self.faults
                    .push(Fault::misread(Some(self.origin), path, misread));
            });
            values.push(value.ok());
        }
        values.into_iter().collect()
    }

    /// Tells a fault of the value of a key.
    pub fn fault(&mut self, key: &'static str, misread: Misread) {
        let path = self.path(key);
        self.faults
            .push(Fault::misread(Some(self.origin), path, misread));
    }

    /// Tells a fault of a key itself, as where it does not go with another.
    pub fn misplaced(&mut self, key: &'static str, misread: Misread) {
        let mut path = self.base.clone();
        path.push(Step::Name(key.to_owned()));
        self.faults
            .push(Fault::misread(Some(self.origin), path, misread));
    }

    /// Tells a fault of the record as a whole.
    pub fn whole(&mut self, misread: Misread) {
        let path = self.base.clone();
        self.faults
            .push(Fault::misread(Some(self.origin), path, misread));
    }

    fn path(&self, key: &'static str) -> Vec<Step> {
        let mut path = self.base.clone();
        path.push(Step::Key(key));
        path
    }

    fn missing<T>(&mut self, key: &'static str, given: &Given<T>) -> bool {
        let missing = matches!(given, Given::Missing);
        if missing {
            let misread = Misread::new(format!("`{key}` is missing"));
            self.whole(match example(key) {
                Some(example) => misread.help(format!("like {example}")),
                None => misread,
            });
        }
        missing
    }
}

/// What the value of a key that must be given looks like, where its name does not say it.
fn example(key: &str) -> Option<&'static str> {
    Some(match key {
        "place" => "S4 F14-18, or P3 stem",
        "at" => "P3 J14, or S12 F9",
        "planks" => "PS1-14, or S3a",
        "across" => "stem F1-44 transom",
        "number" => "1-44",
        "member" => "stem",
        "per crossing" => "2",
        "diameter" => "0.16in, at the thinnest",
        "off" => "1/32in, what was taken off",
        "strikes" => "\"4 broken S5 F16.2\": its number, what was done, and where",
        "date" => "2026-10-03",
        "kind" => "wood screw",
        "did" => "pulled, doweled or driven",
        "entry" => "12, one higher than the last",
        "plan" => "garboards spring",
        "set" => "quay wall",
        "name" => "garboard",
        "zone" => "topsides",
        "what" => "galley seacock",
        "limit" => "open frames at once",
        "is" => "4",
        "rule" => "mixed-metals",
        "why" => "to be lifted next winter",
        "by" => "\"I. Quillon, surveyor\"",
        "tool" => "counterbore",
        "size" => "1/2in",
        "of" => "wood screw",
        "holds" => "100",
        _ => return None,
    })
}
