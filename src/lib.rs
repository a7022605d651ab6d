//! Hostwood reads a farm's plain-text records about growing mushrooms on hardwood logs and publishes a cross-linked field
//! guide that works with no network.
//!
//! Data flows one way, and each stage is a module that knows only the stages before it:
//!
//! ```text
//! content/ (built-in handbook)          a farm's folder
//!          \                              /
//!           read     files to records as written, every value with its place
//!           book     the farm laid over the handbook, checked, every id resolved
//!           reckon   what the trade asks, as pure functions
//!           page     one view per page kind
//!           press    templates and files on disk
//! ```
//!
//! [`fault`], [`quantity`] and [`record`] serve all of them; [`cli`] stands on top and does no work of its own. The whole
//! flow in six lines:
//!
//! ```
//! use std::sync::Arc;
//! use hostwood::{book, read::folder, reckon::{Findings, findings::Choice}};
//!
//! let book = Arc::new(book::bind(folder::demo()).expect("the demo farm is without fault"));
//! let findings = Findings::of(&book, Choice::of(&book));
//! let pair = findings.pairing("shiitake", "red-maple").expect("sources speak of it");
//! assert!(pair.agreement().unwrap() < 1.0); // sources disagree about red maple
//! ```

#![deny(missing_docs)]

pub mod book;
pub mod cli;
pub mod error;
pub mod fault;
pub mod page;
pub mod press;
pub mod quantity;
pub mod read;
pub mod reckon;
pub mod record;
