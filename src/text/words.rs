//! Closed lists of words.

/// A closed list of words: one is printed for each value, the rest are read as well.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident, $what:literal { $($(#[$vdoc:meta])* $variant:ident = $word:literal $(| $also:literal)*),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$vdoc])* $variant),+ }

        impl $name {
            /// Every value, in the order it is listed in.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The word that is printed and written to files.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
        }

        impl ::std::fmt::Display for $name {
            fn fmt(&self, f: &mut ::std::fmt::Formatter<'_>) -> ::std::fmt::Result {
                f.pad(self.word())
            }
        }

        impl ::std::str::FromStr for $name {
            type Err = $crate::text::Misread;

            fn from_str(text: &str) -> Result<Self, $crate::text::Misread> {
                // As it is written to files, most often.
                match text {
                    $($word => return Ok(Self::$variant),)+
                    _ => {}
                }
                let word = text.trim().to_lowercase().replace(['-', '_'], " ");
                match word.as_str() {
                    $($word $(| $also)* => Ok(Self::$variant),)+
                    _ => {
                        let known: Vec<&str> = Self::ALL.iter().map(|value| value.word()).collect();
                        let help = match $crate::text::nearest(&word, known.iter().copied()) {
                            Some(near) => format!("did you mean `{near}`?"),
                            None => format!("one of {}", known.join(", ")),
                        };
                        Err($crate::text::Misread::new(format!("`{}` is not {}", text.trim(), $what)).help(help))
                    }
                }
            }
        }
    };
}

pub(crate) use words;
