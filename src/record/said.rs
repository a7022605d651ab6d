//! What every kind of record shares: who says a thing, and how far the words were checked.

use super::Id;
use super::source::Source;
use super::words::words;
use crate::quantity::{Duration, Range, Temperature};

/// A row that repeats a source.
pub trait Cited {
    /// Who says it.
    fn source(&self) -> &Id<Source>;

    /// How it came here.
    fn mark(&self) -> Mark;

    /// What a reader should know about the row, where it has a note.
    fn note(&self) -> Option<&str> {
        None
    }
}

/// Makes a row that repeats a source: to its own keys come who says it and how it came here, and `with note` what a reader
/// should know.
macro_rules! cited {
    ($(#[$about:meta])* pub struct $row:ident { $($key:tt)* }) => {
        $crate::record::said::cited! { $(#[$about])* pub struct $row { $($key)* } with {} {} }
    };
    ($(#[$about:meta])* pub struct $row:ident with note { $($key:tt)* }) => {
        $crate::record::said::cited! {
            $(#[$about])* pub struct $row { $($key)* }
            with {
                /// What a reader should know about this row.
                pub note: Option<String>,
            }
            {
                fn note(&self) -> Option<&str> {
                    self.note.as_deref()
                }
            }
        }
    };
    ($(#[$about:meta])* pub struct $row:ident { $($key:tt)* } with { $($note:tt)* } { $($noted:tt)* }) => {
        #[derive(Debug, Clone, serde::Deserialize, serde::Serialize, schemars::JsonSchema)]
        $(#[$about])*
        pub struct $row {
            $($key)*
            /// Who says it.
            pub source: $crate::record::Id<$crate::record::source::Source>,
            /// How it came here.
            #[serde(default)]
            pub mark: $crate::record::said::Mark,
            $($note)*
        }

        impl $crate::record::said::Cited for $row {
            fn source(&self) -> &$crate::record::Id<$crate::record::source::Source> {
                &self.source
            }

            fn mark(&self) -> $crate::record::said::Mark {
                self.mark
            }

            $($noted)*
        }
    };
}
pub(crate) use cited;

words! {
    /// How a value came to stand in a record.
    #[derive(Default)]
    pub enum Mark {
        /// Read in the source itself, or in the part of it that could be reached.
        #[default]
        Read = "read in the source",
        /// Read in somebody's copy of the source.
        Copy = "read in a copy",
        /// Read in a page that reports the source.
        SecondHand = "read second-hand",
        /// Known, but not read again: check it before relying on it.
        Memory = "from memory",
        /// Worked out from values that were read.
        Derived = "worked out from read values",
        /// A choice or wording of this project.
        Ours = "our own choice",
    }
}

cited! {
    /// One thing that one source says.
    pub struct Said with note {
        /// What is said, in our own words (Markdown).
        pub says: String,
    }
}

words! {
    /// What a band of temperature is for.
    pub enum Stage {
        /// The spawn grows through the wood.
        SpawnRun = "spawn run",
        /// The first knots of mushrooms form.
        Pinning = "first pins",
        /// Mushrooms grow to picking size.
        Fruiting = "fruiting",
        /// The weather in which logs are drilled and filled.
        Inoculation = "inoculation weather",
    }
}

cited! {
    /// A band of temperature that one source gives.
    pub struct Band with note {
        /// What the band is for.
        pub stage: Stage,
        /// From the lowest to the highest temperature.
        #[schemars(extend("between" = ["-20 C", "50 C"]))]
        pub range: Range<Temperature>,
        /// True for a figure from growing rooms, which tells no month outdoors.
        #[serde(default)]
        pub indoors: bool,
    }
}

cited! {
    /// A span of time that one source gives.
    pub struct Span with note {
        /// From the shortest to the longest time.
        #[schemars(extend("between" = ["0 days", "30 years"]))]
        pub range: Range<Duration>,
    }
}

cited! {
    /// How long one source lets wood rest between felling and inoculation.
    #[schemars(extend("rising" = ["least", "best", "most"]))]
    pub struct Rest {
        /// The shortest rest that the source allows.
        #[schemars(extend("between" = ["0 days", "2 years"]))]
        pub least: Option<Duration>,
        /// The rest that it calls best, where it says so in figures.
        #[schemars(extend("between" = ["0 days", "2 years"]))]
        pub best: Option<Range<Duration>>,
        /// The longest rest that the source allows.
        #[schemars(extend("between" = ["0 days", "2 years"]))]
        pub most: Option<Duration>,
        /// The reason it gives, in our own words.
        pub says: String,
    }
}
