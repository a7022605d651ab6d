//! The kinds of records, a row each: what a record of the kind is, and where it stands.

use schemars::JsonSchema;
use serde::de::DeserializeOwned;

use super::Kind;

/// A type that is the whole of one kind of record.
pub trait Record: DeserializeOwned + JsonSchema {
    /// Its kind.
    const KIND: Kind;
}

/// How the records of a kind are laid out in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// One record in one file at the top of the folder.
    Single,
    /// One YAML record a file, the file's stem being its id.
    Each,
    /// Files with a list of rows.
    Rows,
    /// Files with a list of rows, or sheets of a spreadsheet (CSV).
    Sheets,
    /// One file at the top of the folder, a mapping from id to record.
    ById,
    /// One Markdown file a record, with a YAML header.
    Markdown,
}

impl Layout {
    /// The endings of files in the folder of a kind; none where a kind has no folder, but one file.
    pub const fn endings(self) -> &'static [&'static str] {
        match self {
            Self::Single | Self::ById => &[],
            Self::Each | Self::Rows => &[".yaml"],
            Self::Sheets => &[".yaml", ".csv"],
            Self::Markdown => &[".md"],
        }
    }

    /// Whether each record has a file of its own, whose stem is its id.
    pub const fn is_file_a_record(self) -> bool {
        matches!(self, Self::Each | Self::Markdown)
    }
}

impl Kind {
    /// The word for the kind in links, commands and messages.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// The kind that a word names.
    pub fn of_word(word: &str) -> Option<Self> {
        word.parse().ok()
    }

    /// The folder in which records of the kind stand; `None` where they stand in one file at the top.
    pub fn folder(self) -> Option<&'static str> {
        (!self.layout().endings().is_empty()).then(|| self.at())
    }

    /// The kind whose records stand in the file of a path.
    ///
    /// ```
    /// use hostwood::record::Kind;
    /// assert_eq!(Kind::of_path("woodlot/knoll.csv"), Some(Kind::Tree));
    /// assert_eq!(Kind::of_path("woodlot/knoll.md"), None);
    /// ```
    pub fn of_path(path: &str) -> Option<Self> {
        let name = path.to_ascii_lowercase();
        Self::ALL.into_iter().find(|kind| match kind.folder() {
            Some(folder) => {
                let inside = path.strip_prefix(folder).is_some_and(|rest| rest.starts_with('/'));
                inside && kind.layout().endings().iter().any(|ending| name.ends_with(ending))
            }
            None => path == kind.at(),
        })
    }
}

/// Makes [`Kind`] and all that a row says of a kind: its record's type, how its records are laid out, and in which file or
/// folder.
macro_rules! kinds {
    ($($(#[$about:meta])* $kind:ident: $record:ty, $layout:ident $at:literal;)+) => {
        /// A kind of record, in the order in which a reader meets them.
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, strum::EnumCount, strum::EnumString, strum::IntoStaticStr,
        )]
        #[strum(serialize_all = "kebab-case")]
        pub enum Kind {
            $($(#[$about])* $kind,)+
        }

        impl Kind {
            /// Every kind, in the order in which a reader meets them.
            pub const ALL: [Self; <Self as strum::EnumCount>::COUNT] = [$(Self::$kind,)+];

            /// How records of the kind are laid out in files.
            pub const fn layout(self) -> Layout {
                match self { $(Self::$kind => Layout::$layout,)+ }
            }

            /// The file or the folder in which records of the kind stand.
            pub const fn at(self) -> &'static str {
                match self { $(Self::$kind => $at,)+ }
            }

            /// The schema of a record of the kind.
            fn schema(self, generator: SchemaGenerator) -> Schema {
                match self { $(Self::$kind => generator.into_root_schema_for::<$record>(),)+ }
            }
        }

        $(impl Record for $record {
            const KIND: Kind = Kind::$kind;
        })+
    };
}
pub(super) use kinds;
