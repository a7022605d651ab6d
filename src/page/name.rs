//! What pages there are, each with its path, template, section and title, and what a view is made from.

use serde::Serialize;
use serde_json::Value;

use super::leaf::{Grove, Leaf};
use super::route::Route;
use super::section::Section;
use super::title;
use crate::book::Book;
use crate::quantity::Units;
use crate::reckon::{Findings, Topic};
use crate::record::signpost::Destination;
use crate::record::{Kind, Link};

/// How a page is offered to a reader, and what it is about, in a few words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Offer {
    /// A sheet to take out of the door.
    Sheet(&'static str),
    /// A page of the whole guide.
    Whole(&'static str),
}

impl Offer {
    /// What the page is about.
    pub const fn about(self) -> &'static str {
        match self {
            Self::Sheet(about) | Self::Whole(about) => about,
        }
    }
}

macro_rules! names {
    (
        alone { $($(#[$doc:meta])* $page:ident: $path:literal, $template:literal, $section:ident, $title:literal
            $(, $offer:ident $about:literal)? => $_view:path;)* }
        records { $($(#[$doc_r:meta])* $record:ident($id:ident) of $_records:ident: $path_r:literal,
            $template_r:literal, $section_r:ident => $_view_r:path;)* }
        others { $($(#[$doc_o:meta])* $other:ident($of:ident: $type:ty): $path_o:expr, $template_o:expr,
            $section_o:expr, $title_o:expr, $_all:expr => $_view_o:expr;)* }
    ) => {
        /// A page of the guide.
        #[derive(Debug, Clone, PartialEq, Eq)]
        pub enum Page {
            $($(#[$doc])* $page,)*
            $($(#[$doc_r])* $record(String),)*
            $($(#[$doc_o])* $other($type),)*
        }

        #[allow(unused_variables, reason = "not every page's template and section depend on what it is of")]
        impl Page {
            /// The pages that stand alone: the sheets in the order of the work, the pages of the whole guide, the others.
            pub const ALONE: &[Self] = &[$(Self::$page),*];

            /// The page to which a signpost of the finder points.
            pub const fn at(destination: Destination) -> Self {
                match destination {
                    $(Destination::$page => Self::$page,)*
                }
            }

            /// The path inside the guide.
            pub fn path(&self) -> String {
                match self {
                    $(Self::$page => $path.to_owned(),)*
                    $(Self::$record($id) => format!($path_r),)*
                    $(Self::$other($of) => $path_o,)*
                }
            }

            /// The template that draws it.
            pub fn template(&self) -> String {
                match self {
                    $(Self::$page => $template.to_owned(),)*
                    $(Self::$record(_) => $template_r.to_owned(),)*
                    $(Self::$other($of) => $template_o,)*
                }
            }

            /// The section of the thumb index in which it stands.
            pub const fn section(&self) -> Section {
                match self {
                    $(Self::$page => Section::$section,)*
                    $(Self::$record(_) => Section::$section_r,)*
                    $(Self::$other($of) => $section_o,)*
                }
            }

            /// What it is called in its tab, its heading and wherever a link leads to it.
            pub fn title(&self, context: &Context<'_>) -> String {
                match self {
                    $(Self::$page => $title.replace("{season}", &context.season()),)*
                    $(Self::$record(id) => title::heading(&Link::to(Kind::$record, id), context.book),)*
                    $(Self::$other($of) => $title_o(context.book),)*
                }
            }

            /// How it is offered, where it is.
            pub const fn offer(&self) -> Option<Offer> {
                match self {
                    $($(Self::$page => Some(Offer::$offer($about)),)?)*
                    _ => None,
                }
            }
        }
    };
}

register!(names);

impl Page {
    /// The page from which one comes to it; none for the front page, from which one comes to all.
    pub fn parent(&self) -> Option<Self> {
        let parent = match self {
            Self::Index => return None,
            Self::Strain(_) => Self::Strains,
            Self::Batch(_) | Self::BatchesOf(_) => Self::Batches,
            Self::HarvestsOf(_) => Self::Harvests,
            Self::SalesOf(_) => Self::Sales,
            Self::Lot(_) | Self::LedgerOf(_) => Self::Ledger,
            Self::Stand(_) | Self::FellingPart(_) => Self::Felling,
            Self::BuckingPart(_) => Self::Bucking,
            Self::Trouble(_) => Self::Troubles,
            Self::SoakRotaPart(_) => Self::SoakRota,
            Self::LogTagsPart(_) => Self::LogTags,
            Self::CardsPart(_) => Self::Cards,
            Self::Working(_) | Self::WorkingPairings(_) => Self::WorkingIndex,
            Self::WorkingTrees(_) => Self::Working(Topic::Trees),
            Self::Record(_) => Self::AToZ,
            _ => self.section().first(),
        };
        Some(if parent == *self { Self::Index } else { parent })
    }

    /// The sheets to take out of the door in the order of the work, each with what it is about.
    pub fn sheets() -> impl Iterator<Item = (&'static Self, &'static str)> {
        Self::ALONE.iter().filter_map(|page| match page.offer()? {
            Offer::Sheet(about) => Some((page, about)),
            Offer::Whole(_) => None,
        })
    }
}

/// What a view is made from.
#[derive(Debug)]
pub struct Context<'a> {
    /// The book.
    pub book: &'a Book,
    /// Its findings.
    pub findings: &'a Findings,
    /// Where things lie, seen from the page.
    pub route: Route,
}

impl Context<'_> {
    /// The farm's units.
    pub const fn units(&self) -> Units {
        self.findings.choice.units
    }

    /// The season in words: "2026–27", or "2026" where its winter lies in one year.
    pub fn season(&self) -> String {
        let season = self.findings.season;
        let next = (season.year + 1).rem_euclid(100);
        if season.south { season.year.to_string() } else { format!("{}–{next:02}", season.year) }
    }
}

/// A view as plain data; the views hold nothing that JSON cannot.
pub fn json(view: impl Serialize) -> Value {
    serde_json::to_value(view).unwrap_or(Value::Null)
}
