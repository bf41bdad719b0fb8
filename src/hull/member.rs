//! What a plank is fastened to.

use std::fmt;

/// A number with an optional letter: `12`, and `12a` for the sister or stealer beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Number {
    n: u16,
    /// 0 for none, 1 for `a`.
    letter: u8,
}

impl Number {
    /// The highest number of a frame, beam or other member that is read.
    pub const HIGHEST_MEMBER: u16 = 9_999;
    /// The highest number of a strake that is read.
    pub const HIGHEST_STRAKE: u16 = 999;

    /// A plain number.
    pub const fn plain(n: u16) -> Self {
        Self { n, letter: 0 }
    }

    /// A number with a letter from `a` to `z`; `None` for any other character.
    pub fn lettered(n: u16, letter: char) -> Option<Self> {
        let letter = letter.to_ascii_lowercase();
        letter.is_ascii_lowercase().then(|| Self {
            n,
            letter: letter as u8 - b'a' + 1,
        })
    }

    /// The number without its letter.
    pub const fn value(self) -> u16 {
        self.n
    }

    /// Whether it has no letter.
    pub const fn is_plain(self) -> bool {
        self.letter == 0
    }

    /// Hundredths of a frame space along the boat, the letters a little beyond their number.
    const fn along(self) -> i32 {
        self.n as i32 * 100 + self.letter as i32
    }
}

impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.n)?;
        match self.letter {
            0 => Ok(()),
            letter => write!(f, "{}", char::from(b'a' + letter - 1)),
        }
    }
}

/// Which end of a butt block, and so the end of which plank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum End {
    /// The forward half: the after end of the forward plank.
    Fwd,
    /// The after half: the forward end of the after plank.
    Aft,
}

impl fmt::Display for End {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Fwd => "fwd",
            Self::Aft => "aft",
        })
    }
}

/// One member at one place along the boat. Their order is the order they are listed in; for the
/// order along the boat see [`Member::along`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Member {
    /// The stem, at the fore end.
    Stem,
    /// A frame, `F12`.
    Frame(Number),
    /// One end of a butt block, `J14 fwd`: between frame 14 and the next higher number.
    Butt(Number, End),
    /// The keel rabbet abreast of a frame, `K12`.
    Keel(Number),
    /// A deck beam, `B3`.
    Beam(Number),
    /// The sternpost.
    Sternpost,
    /// The horn timber.
    HornTimber,
    /// The transom.
    Transom,
}

/// The kinds of member, as a place names them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MemberKind {
    /// `stem`
    Stem,
    /// `F`
    Frame,
    /// `J`
    Butt,
    /// `K`
    Keel,
    /// `B`
    Beam,
    /// `sternpost`
    Sternpost,
    /// `horn timber`
    HornTimber,
    /// `transom`
    Transom,
}

impl MemberKind {
    /// The members that have a name and no number, as they are written.
    pub const NAMED: [(&'static str, Self); 4] = [
        ("stem", Self::Stem),
        ("sternpost", Self::Sternpost),
        ("horn timber", Self::HornTimber),
        ("transom", Self::Transom),
    ];

    /// The letter before a number, where the kind has numbers.
    pub const fn letter(self) -> Option<char> {
        match self {
            Self::Frame => Some('F'),
            Self::Butt => Some('J'),
            Self::Keel => Some('K'),
            Self::Beam => Some('B'),
            Self::Stem | Self::Sternpost | Self::HornTimber | Self::Transom => None,
        }
    }

    /// The member of this kind and number; the number is not used by those that have none, the
    /// end only by a butt block.
    pub const fn member(self, number: Number, end: End) -> Member {
        match self {
            Self::Stem => Member::Stem,
            Self::Frame => Member::Frame(number),
            Self::Butt => Member::Butt(number, end),
            Self::Keel => Member::Keel(number),
            Self::Beam => Member::Beam(number),
            Self::Sternpost => Member::Sternpost,
            Self::HornTimber => Member::HornTimber,
            Self::Transom => Member::Transom,
        }
    }
}

impl Member {
    /// Its kind.
    pub const fn kind(self) -> MemberKind {
        match self {
            Self::Stem => MemberKind::Stem,
            Self::Frame(_) => MemberKind::Frame,
            Self::Butt(..) => MemberKind::Butt,
            Self::Keel(_) => MemberKind::Keel,
            Self::Beam(_) => MemberKind::Beam,
            Self::Sternpost => MemberKind::Sternpost,
            Self::HornTimber => MemberKind::HornTimber,
            Self::Transom => MemberKind::Transom,
        }
    }

    /// Its number, if it has one.
    pub const fn number(self) -> Option<Number> {
        match self {
            Self::Frame(n) | Self::Butt(n, _) | Self::Keel(n) | Self::Beam(n) => Some(n),
            Self::Stem | Self::Sternpost | Self::HornTimber | Self::Transom => None,
        }
    }

    /// Whether a plank's hood end lies on it.
    pub const fn is_hood_end(self) -> bool {
        matches!(
            self,
            Self::Stem | Self::Sternpost | Self::HornTimber | Self::Transom
        )
    }

    /// Where it lies along the boat, from the bow: members sort by this within a strake. The
    /// second figure is in hundredths of a frame space.
    pub const fn along(self, frames_from_stern: bool) -> (u8, i32) {
        let sign = if frames_from_stern { -1 } else { 1 };
        match self {
            Self::Stem => (0, 0),
            Self::Frame(n) | Self::Keel(n) | Self::Beam(n) => (1, sign * n.along()),
            Self::Butt(n, End::Fwd) => (1, sign * (n.along() + 50) - 10),
            Self::Butt(n, End::Aft) => (1, sign * (n.along() + 50) + 10),
            Self::Sternpost => (2, 0),
            Self::HornTimber => (2, 1),
            Self::Transom => (2, 2),
        }
    }
}

impl fmt::Display for Member {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.kind().letter(), self.number(), self) {
            (Some(letter), Some(number), Self::Butt(_, end)) => write!(f, "{letter}{number} {end}"),
            (Some(letter), Some(number), _) => write!(f, "{letter}{number}"),
            _ => {
                let kind = self.kind();
                let name = MemberKind::NAMED.iter().find(|(_, named)| *named == kind);
                f.write_str(name.map_or("", |(name, _)| name))
            }
        }
    }
}
