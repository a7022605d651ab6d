//! From folders to records as written: every file becomes entries, each a tree of nodes that know their places.
//!
//! | file | what it does |
//! |---|---|
//! | [`folder`] | finds the files of a farm on disk |
//! | [`contents`] | reads a file whose kind and size are known |
//! | [`handbook`] | finds the files of the built-in handbook |
//! | [`sort`] | tells by a file's path which kind of record it holds |
//! | [`yaml`] | parses YAML into nodes |
//! | [`sheet`] | reads sheets of a spreadsheet (CSV) into nodes |
//! | [`markdown`] | parts a note into header and text |
//! | [`picture`] | looks at pictures: photographs, and those beside handouts |
//! | [`node`] | the tree itself |

pub mod contents;
pub mod folder;
pub mod handbook;
pub mod markdown;
pub mod node;
pub mod picture;
pub mod sheet;
pub mod sort;
pub mod yaml;

use std::path::PathBuf;
use std::sync::Arc;

use crate::fault::{Fault, File, Place};
use crate::record::Kind;

pub use contents::Unread;
pub use node::Node;
pub use picture::Picture;

/// A file as it was found, before it is known to be text.
#[derive(Debug, Clone)]
pub struct Found {
    /// Its path inside the folder, with `/` between the parts.
    pub path: String,
    /// Its bytes, or why it was left unread; none of a picture on disk, which is read where it is needed.
    pub bytes: Result<Vec<u8>, Unread>,
    /// Where it lies on disk, for a picture.
    pub at: Option<PathBuf>,
    /// Whether it belongs to the built-in handbook.
    pub handbook: bool,
}

/// One record as it was written.
#[derive(Debug, Clone)]
pub struct Entry {
    /// What kind of record it is.
    pub kind: Kind,
    /// Its id: the file's stem, the key in a list by id, or stem and row in a list of rows.
    pub id: String,
    /// Where it begins.
    pub place: Place,
    /// What it says.
    pub node: Node,
    /// The Markdown under a note's header, and where it begins.
    pub text: Option<Text>,
}

impl Entry {
    /// The file in which the record stands.
    pub const fn file(&self) -> &Arc<File> {
        &self.place.file
    }
}

/// Everything that was read, and what could not be.
#[derive(Debug, Clone, Default)]
pub struct Heap {
    /// The records as written.
    pub entries: Vec<Entry>,
    /// What is wrong in the files themselves.
    pub faults: Vec<Fault>,
    /// Records that exist but could not be read, so that whoever names them is not blamed.
    pub lost: Vec<Lost>,
    /// The pictures.
    pub pictures: Vec<Arc<Picture>>,
}

/// A record that exists but could not be read.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lost {
    /// One record.
    One(Kind, String),
    /// Every record of a kind, since the file that holds them all could not be read.
    All(Kind),
}

/// Markdown in a file.
#[derive(Debug, Clone)]
pub struct Text {
    /// The Markdown.
    pub markdown: String,
    /// How many bytes of the file stand before it.
    pub offset: usize,
}
