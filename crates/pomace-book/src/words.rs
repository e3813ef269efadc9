//! Closed lists of words: one macro makes the enum, its spelling and its reader.

/// Makes an enum whose members are words of the documents.
///
/// Gives `ALL`, `word()` and `named()`; `named` ignores case and outer spaces and
/// also takes the other spellings listed after the first.
macro_rules! words {
    (
        $(#[$doc:meta])*
        $name:ident {
            $($(#[$member_doc:meta])* $member:ident = $word:literal $(| $other:literal)*,)*
        }
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $name {
            $($(#[$member_doc])* $member,)*
        }

        impl $name {
            /// All of them, in the order of the reference.
            pub const ALL: &'static [Self] = &[$(Self::$member,)*];

            /// The word as a document writes it.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$member => $word,)* }
            }

            /// The member of this name, if there is one.
            #[must_use]
            pub fn named(text: &str) -> Option<Self> {
                match $crate::names::fold(text).as_str() {
                    $($word $(| $other)* => Some(Self::$member),)*
                    _ => None,
                }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.word())
            }
        }
    };
}

pub(crate) use words;
