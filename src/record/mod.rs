//! Exactly what a farm may write: one file a record kind.
//!
//! | kind | file | where it stands |
//! |---|---|---|
//! | farm | [`farm`] | `farm.yaml` |
//! | mushroom | [`mushroom`] | `mushrooms/ID.yaml` |
//! | wood | [`wood`] | `woods/ID.yaml` |
//! | strain | [`strain`] | `strains/ID.yaml` |
//! | method | [`method`] | `methods/ID.yaml` |
//! | evidence | [`evidence`] | `evidence/NAME.yaml`, many rows |
//! | window | [`window`] | `seasons/ID.yaml` |
//! | caution | [`caution`] | `cautions/ID.yaml` |
//! | source | [`source`] | `sources.yaml`, id by id |
//! | term | [`term`] | `terms.yaml`, id by id |
//! | stand | [`stand`] | `woodlot/ID.yaml` |
//! | tree | [`tree`] | `woodlot/NAME.yaml` or `.csv`, many rows |
//! | log lot | [`lot`] | `lots/ID.yaml` |
//! | plan | [`plan`] | `plans/ID.yaml` |
//! | batch | [`batch`] | `batches/ID.yaml` |
//! | diary | [`diary`] | `yard/NAME.csv` or `.yaml`, many rows |
//! | harvest | [`harvest`] | `harvests/NAME.csv` or `.yaml`, many rows |
//! | trouble | [`trouble`] | `troubles/ID.yaml` |
//! | note | [`note`] | `notes/ID.md`, Markdown under a YAML header |
//! | handout | [`handout`] | `handouts/ID.yaml`, pictures beside it |
//!
//! [`said`] holds the rows that several kinds share; [`schema`] turns the types into JSON Schema;
//! [`table`] names the computed tables that a note may ask for.

pub mod batch;
pub mod caution;
pub mod diary;
pub mod evidence;
pub mod farm;
pub mod handout;
pub mod harvest;
pub mod lot;
pub mod method;
pub mod mushroom;
pub mod note;
pub mod plan;
pub mod said;
pub mod schema;
pub mod source;
pub mod stand;
pub mod strain;
pub mod table;
pub mod term;
pub mod tree;
pub mod trouble;
pub mod window;
pub mod wood;

use std::{borrow::Cow, cmp::Ordering, fmt, marker::PhantomData};

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::DeserializeOwned};

/// A kind of record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// The farm itself.
    Farm,
    /// A mushroom.
    Mushroom,
    /// A wood.
    Wood,
    /// A strain of a mushroom.
    Strain,
    /// A method, in steps.
    Method,
    /// A row of evidence.
    Evidence,
    /// A season window.
    Window,
    /// A caution.
    Caution,
    /// A source.
    Source,
    /// A term of the trade.
    Term,
    /// A stand of trees.
    Stand,
    /// A tagged tree.
    Tree,
    /// A lot of logs.
    Lot,
    /// A plan for the winter.
    Plan,
    /// A batch of inoculated logs.
    Batch,
    /// A line of the yard's day book.
    Diary,
    /// A harvest.
    Harvest,
    /// A trouble.
    Trouble,
    /// A dated note.
    Note,
    /// A handout.
    Handout,
}

/// How the records of a kind are laid out in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// One record in one file at the top of the folder.
    Single(&'static str),
    /// One YAML record a file, the file's stem being its id.
    Each(&'static str),
    /// Files with a list of rows.
    Rows(&'static str),
    /// Files with a list of rows, or sheets of a spreadsheet (CSV).
    Sheets(&'static str),
    /// One file at the top of the folder, a mapping from id to record.
    ById(&'static str),
    /// One Markdown file a record, with a YAML header.
    Markdown(&'static str),
}

impl Kind {
    /// Every kind, in the order in which a reader meets them.
    pub const ALL: [Self; 20] = [
        Self::Farm,
        Self::Mushroom,
        Self::Wood,
        Self::Strain,
        Self::Method,
        Self::Evidence,
        Self::Window,
        Self::Caution,
        Self::Source,
        Self::Term,
        Self::Stand,
        Self::Tree,
        Self::Lot,
        Self::Plan,
        Self::Batch,
        Self::Diary,
        Self::Harvest,
        Self::Trouble,
        Self::Note,
        Self::Handout,
    ];

    /// The word for the kind in links, commands and messages.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Farm => "farm",
            Self::Mushroom => "mushroom",
            Self::Wood => "wood",
            Self::Strain => "strain",
            Self::Method => "method",
            Self::Evidence => "evidence",
            Self::Window => "window",
            Self::Caution => "caution",
            Self::Source => "source",
            Self::Term => "term",
            Self::Stand => "stand",
            Self::Tree => "tree",
            Self::Lot => "lot",
            Self::Plan => "plan",
            Self::Batch => "batch",
            Self::Diary => "diary",
            Self::Harvest => "harvest",
            Self::Trouble => "trouble",
            Self::Note => "note",
            Self::Handout => "handout",
        }
    }

    /// Where records of the kind stand.
    #[must_use]
    pub const fn layout(self) -> Layout {
        match self {
            Self::Farm => Layout::Single("farm.yaml"),
            Self::Mushroom => Layout::Each("mushrooms"),
            Self::Wood => Layout::Each("woods"),
            Self::Strain => Layout::Each("strains"),
            Self::Method => Layout::Each("methods"),
            Self::Evidence => Layout::Rows("evidence"),
            Self::Window => Layout::Each("seasons"),
            Self::Caution => Layout::Each("cautions"),
            Self::Source => Layout::ById("sources.yaml"),
            Self::Term => Layout::ById("terms.yaml"),
            Self::Stand => Layout::Each("woodlot"),
            Self::Tree => Layout::Sheets("woodlot"),
            Self::Lot => Layout::Each("lots"),
            Self::Plan => Layout::Each("plans"),
            Self::Batch => Layout::Each("batches"),
            Self::Diary => Layout::Sheets("yard"),
            Self::Harvest => Layout::Sheets("harvests"),
            Self::Trouble => Layout::Each("troubles"),
            Self::Note => Layout::Markdown("notes"),
            Self::Handout => Layout::Each("handouts"),
        }
    }

    /// The kind that a word names.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }
}

/// A type that is the whole of one kind of record.
pub trait Record: DeserializeOwned + JsonSchema {
    /// Its kind.
    const KIND: Kind;
}

/// The id of a record of kind `T`.
pub struct Id<T> {
    text: String,
    kind: PhantomData<fn() -> T>,
}

impl<T> Id<T> {
    /// An id from its text.
    #[must_use]
    pub fn new(text: impl Into<String>) -> Self {
        Self { text: text.into(), kind: PhantomData }
    }

    /// The id as records write it.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.text
    }
}

impl<T> Clone for Id<T> {
    fn clone(&self) -> Self {
        Self::new(self.text.clone())
    }
}

impl<T> fmt::Debug for Id<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl<T> PartialEq for Id<T> {
    fn eq(&self, other: &Self) -> bool {
        self.text == other.text
    }
}

impl<T> Eq for Id<T> {}

impl<T> PartialOrd for Id<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<T> Ord for Id<T> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.text.cmp(&other.text)
    }
}

impl<'de, T> Deserialize<'de> for Id<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer).map(Self::new)
    }
}

impl<T> Serialize for Id<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<T: Record> JsonSchema for Id<T> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        format!("Id_of_{}", T::KIND.word()).into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "names": T::KIND.word() })
    }
}

/// A record named by kind and id, written as `wood:red-oak`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Link {
    /// The kind of record.
    pub kind: Kind,
    /// Its id.
    pub id: String,
}

impl Link {
    /// Reads a kind and an id with a colon between them; `None` where no kind of record is named.
    ///
    /// ```
    /// use hostwood::record::{Kind, Link};
    /// assert_eq!(Link::read("wood:red-oak").unwrap().kind, Kind::Wood);
    /// assert!(Link::read("mailto:someone").is_none());
    /// ```
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let (kind, id) = text.split_once(':')?;
        Kind::of_word(kind).map(|kind| Self { kind, id: id.to_owned() })
    }
}

impl fmt::Display for Link {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.kind.word(), self.id)
    }
}

impl<'de> Deserialize<'de> for Link {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::read(&text).ok_or_else(|| serde::de::Error::custom(format!("`{text}` names no record")))
    }
}

impl Serialize for Link {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl JsonSchema for Link {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Link".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "names": "any", "examples": ["wood:red-oak"] })
    }
}
