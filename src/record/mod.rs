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
//! | rule | [`rule`] | `rules/ID.yaml` |
//! | region | [`region`] | `regions.yaml`, id by id |
//! | source | [`source`] | `sources.yaml`, id by id |
//! | term | [`term`] | `terms.yaml`, id by id |
//! | look-alike | [`look_alike`] | `look-alikes.yaml`, id by id |
//! | signpost | [`signpost`] | `signposts.yaml`, id by id |
//! | stand | [`stand`] | `woodlot/ID.yaml` |
//! | tree | [`tree`] | `woodlot/NAME.yaml` or `.csv`, many rows |
//! | log lot | [`lot`] | `lots/ID.yaml` |
//! | plan | [`plan`] | `plans/ID.yaml` |
//! | batch | [`batch`] | `batches/ID.yaml` |
//! | diary | [`diary`] | `yard/NAME.csv` or `.yaml`, many rows |
//! | harvest | [`harvest`] | `harvests/NAME.csv` or `.yaml`, many rows |
//! | sale | [`sale`] | `sales/NAME.csv` or `.yaml`, many rows |
//! | trouble | [`trouble`] | `troubles/ID.yaml` |
//! | note | [`note`] | `notes/ID.md`, Markdown under a YAML header |
//! | handout | [`handout`] | `handouts/ID.yaml`, pictures beside it |
//!
//! [`said`] and [`photo`] hold the rows that several kinds share, [`character`] what a tree is known by, [`holds`] says where a record holds, [`words`] makes the lists of words and [`kind`] that of the kinds;
//! [`schema`] turns the types into JSON Schema, and adds the key `checked`, by which any record answers what is asked about
//! it; [`table`] names the computed tables that a note may ask for.

pub mod batch;
pub mod caution;
pub mod character;
pub mod diary;
pub mod evidence;
pub mod farm;
pub mod handout;
pub mod harvest;
pub mod holds;
pub mod kind;
pub mod look_alike;
pub mod lot;
pub mod method;
pub mod mushroom;
pub mod note;
pub mod photo;
pub mod plan;
pub mod region;
pub mod rule;
pub mod said;
pub mod sale;
pub mod schema;
pub mod signpost;
pub mod source;
pub mod stand;
pub mod strain;
pub mod table;
pub mod term;
pub mod tree;
pub mod trouble;
pub mod window;
pub mod wood;
pub mod words;

use std::fmt;
use std::marker::PhantomData;

use schemars::{Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::quantity::in_place;
use kind::kinds;
pub use kind::{Layout, Record};

kinds! {
    /// The farm itself.
    Farm: farm::Farm, Single "farm.yaml";
    /// A mushroom.
    Mushroom: mushroom::Mushroom, Each "mushrooms";
    /// A wood.
    Wood: wood::Wood, Each "woods";
    /// A strain of a mushroom.
    Strain: strain::Strain, Each "strains";
    /// A method, in steps.
    Method: method::Method, Each "methods";
    /// A row of evidence.
    Evidence: evidence::Evidence, Rows "evidence";
    /// A season window.
    Window: window::Window, Each "seasons";
    /// A caution.
    Caution: caution::Caution, Each "cautions";
    /// A rule of a place.
    Rule: rule::Rule, Each "rules";
    /// A region.
    Region: region::Region, ById "regions.yaml";
    /// A source.
    Source: source::Source, ById "sources.yaml";
    /// A term of the trade.
    Term: term::Term, ById "terms.yaml";
    /// A mushroom that is taken for one that is grown.
    LookAlike: look_alike::LookAlike, ById "look-alikes.yaml";
    /// A signpost of the finder.
    Signpost: signpost::Signpost, ById "signposts.yaml";
    /// A stand of trees.
    Stand: stand::Stand, Each "woodlot";
    /// A tagged tree.
    Tree: tree::Tree, Sheets "woodlot";
    /// A lot of logs.
    Lot: lot::Lot, Each "lots";
    /// A plan for the winter.
    Plan: plan::Plan, Each "plans";
    /// A batch of inoculated logs.
    Batch: batch::Batch, Each "batches";
    /// A line of the yard's day book.
    Diary: diary::Diary, Sheets "yard";
    /// A harvest.
    Harvest: harvest::Harvest, Sheets "harvests";
    /// A sale.
    Sale: sale::Sale, Sheets "sales";
    /// A trouble.
    Trouble: trouble::Trouble, Each "troubles";
    /// A dated note.
    Note: note::Note, Markdown "notes";
    /// A handout, with its pictures beside it.
    Handout: handout::Handout, Each "handouts";
}

/// The id of a record of kind `T`.
#[derive(Deserialize, Serialize)]
#[serde(transparent, bound = "")]
pub struct Id<T> {
    text: String,
    #[serde(skip)]
    kind: PhantomData<fn() -> T>,
}

impl<T> Id<T> {
    /// An id from its text.
    pub fn new(text: impl Into<String>) -> Self {
        Self { text: text.into(), kind: PhantomData }
    }

    /// The id as records write it.
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

in_place!(Id<T: Record>: format!("Id_of_{}", T::KIND.word()), _ => {
    "type": "string", "names": T::KIND.word()
});

/// A record named by kind and id, written as `wood:red-oak`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Link {
    /// The kind of record.
    pub kind: Kind,
    /// Its id.
    pub id: String,
}

impl Link {
    /// The record of a kind under an id.
    pub fn to(kind: Kind, id: &str) -> Self {
        Self { kind, id: id.to_owned() }
    }

    /// Reads a kind and an id with a colon between them; `None` where no kind of record is named.
    ///
    /// ```
    /// use hostwood::record::{Kind, Link};
    /// assert_eq!(Link::read("wood:red-oak").unwrap().kind, Kind::Wood);
    /// assert!(Link::read("mailto:someone").is_none());
    /// ```
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

in_place!(Link: "Link", _ => { "type": "string", "names": "any", "examples": ["wood:red-oak"] });
