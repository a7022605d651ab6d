//! Where everything lies, seen from one page, by relative links only, and what its edition prints of such a link.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde::Serialize;

use super::Page;
use super::leaf::Grove;
use crate::book::{Book, Spot};
use crate::reckon::formula::Place;
use crate::record::{Kind, Link};

/// Where a thing stands in the pocket edition.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Code {
    /// The anchor.
    pub id: String,
    /// The code as it is printed, such as `W-07`.
    pub code: String,
}

/// The edition that a page serves; a telephone can be reached from each.
#[derive(Debug, Clone, Default)]
pub enum Edition {
    /// The guide, whose links lead anywhere.
    #[default]
    Guide,
    /// A handout, which is one file: its links lead to places inside it.
    Handout,
    /// The pocket edition: its links lead to what has a code in it, by the path from the top of the guide.
    Pocket(Arc<BTreeMap<String, Code>>),
}

impl Edition {
    /// The word by which a template is told of it.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Guide => "guide",
            Self::Handout => "handout",
            Self::Pocket(_) => "pocket",
        }
    }
}

/// Where a link leads, as its edition prints it: to a template a path, a code with its anchor, or nothing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(untagged)]
pub enum Href {
    /// To a path.
    To(String),
    /// To a place inside the edition, whose code is printed behind the words.
    Coded(Code),
    /// Nowhere: the words stand alone.
    Nowhere,
}

impl Href {
    /// What stands in HTML before and behind the words of the link.
    pub fn tags(&self) -> [String; 2] {
        match self {
            Self::To(path) => [format!(r#"<a href="{path}">"#), "</a>".to_owned()],
            Self::Coded(Code { id, code }) => {
                [format!(r##"<a href="#{id}">"##), format!(r#"</a> <span class="code">{code}</span>"#)]
            }
            Self::Nowhere => [String::new(), String::new()],
        }
    }
}

/// Links from one page to the others.
#[derive(Debug, Clone)]
pub struct Route {
    root: String,
    own: Option<String>,
    edition: Edition,
    elsewhere: Arc<BTreeSet<Link>>,
    spots: Arc<BTreeMap<String, Spot>>,
}

impl Route {
    /// The links of the page at a path.
    ///
    /// ```
    /// use hostwood::page::{Page, route::Route};
    /// assert_eq!(Route::of("woods/red-oak.html").to(&Page::Pairings), "../pairings.html");
    /// ```
    pub fn of(path: &str) -> Self {
        Self { own: Some(path.to_owned()), ..Self::under("../".repeat(path.matches('/').count())) }
    }

    /// The links of a page from which a way leads to the top of the guide.
    pub fn under(root: String) -> Self {
        Self { root, own: None, edition: Edition::Guide, elsewhere: Arc::default(), spots: Arc::default() }
    }

    /// The same in the guide of a book, whose records of other places and whose trees stand on pages of their own.
    pub fn within(self, book: &Book) -> Self {
        Self { elsewhere: Arc::clone(&book.elsewhere.links), spots: Arc::clone(&book.spots), ..self }
    }

    /// The links of a page that serves an edition.
    pub fn serving(self, edition: Edition) -> Self {
        Self { edition, ..self }
    }

    /// The edition that the page serves.
    pub const fn edition(&self) -> &Edition {
        &self.edition
    }

    /// A link as the edition prints it.
    ///
    /// ```
    /// use hostwood::page::route::{Code, Edition, Href, Route};
    /// let code = Code { id: "w-07".to_owned(), code: "W-07".to_owned() };
    /// let codes = [("woods/red-oak.html".to_owned(), code.clone())].into();
    /// let pocket = Route::of("pocket.html").serving(Edition::Pocket(std::sync::Arc::new(codes)));
    /// assert_eq!(pocket.href("woods/red-oak.html"), Href::Coded(code));
    /// assert_eq!(pocket.href("sources.html"), Href::Nowhere);
    /// let handout = Route::of("handouts/first-log.html").serving(Edition::Handout);
    /// assert_eq!(handout.href("../woods/red-oak.html"), Href::Nowhere);
    /// assert_eq!(handout.href("tel:911"), Href::To("tel:911".to_owned()));
    /// ```
    pub fn href(&self, path: impl Into<String>) -> Href {
        let path = path.into();
        let code = match &self.edition {
            Edition::Guide => return Href::To(path),
            Edition::Handout => None,
            Edition::Pocket(codes) => codes.get(&path),
        };
        match code {
            Some(code) => Href::Coded(code.clone()),
            None if path.starts_with('#') || path.starts_with("tel:") => Href::To(path),
            None => Href::Nowhere,
        }
    }

    /// The way from the page to the top of the guide.
    pub fn root(&self) -> &str {
        &self.root
    }

    /// The link to a page.
    pub fn to(&self, page: &Page) -> String {
        format!("{}{}", self.root, page.path())
    }

    /// The link to a place on a page; on its own page the anchor alone.
    pub fn at(&self, page: &Page, anchor: &str) -> String {
        let path = page.path();
        if self.own.as_ref() == Some(&path) { format!("#{anchor}") } else { format!("{}{path}#{anchor}", self.root) }
    }

    /// The link to a record.
    pub fn record(&self, kind: Kind, id: &str) -> String {
        if !self.elsewhere.is_empty() && self.elsewhere.contains(&Link::to(kind, id)) {
            return self.at(&Page::Elsewhere, &format!("{}-{id}", kind.word()));
        }
        match kind {
            Kind::Farm => self.to(&Page::Index),
            Kind::Mushroom => self.to(&Page::Mushroom(id.to_owned())),
            Kind::Wood => self.to(&Page::Wood(id.to_owned())),
            Kind::Strain => self.to(&Page::Strain(id.to_owned())),
            Kind::Method => self.to(&Page::Method(id.to_owned())),
            Kind::Evidence => self.to(&Page::Pairings),
            Kind::Window => self.at(&Page::Seasons, &format!("window-{id}")),
            Kind::Caution => self.at(&Page::Safety, &format!("caution-{id}")),
            Kind::Rule => self.at(&Page::Safety, &format!("rule-{id}")),
            Kind::Region => self.at(&Page::Safety, "here"),
            Kind::Source => self.at(&Page::Sources, &format!("source-{id}")),
            Kind::Term => self.at(&Page::Terms, &format!("term-{id}")),
            Kind::LookAlike => self.at(&Page::KeyMushroom, &format!("look-alike-{id}")),
            Kind::Signpost => self.to(&Page::AToZ),
            Kind::Stand => self.to(&Page::Stand(id.to_owned())),
            Kind::Tree => self.working(&Place::tree(id)),
            Kind::Lot => self.to(&Page::Lot(id.to_owned())),
            Kind::Plan => self.to(&Page::Supply),
            Kind::Batch => self.to(&Page::Batch(id.to_owned())),
            Kind::Diary => self.to(&Page::Batches),
            Kind::Harvest => self.to(&Page::Harvests),
            Kind::Sale => self.to(&Page::Sales),
            Kind::Trouble => self.to(&Page::Trouble(id.to_owned())),
            Kind::Note => self.to(&Page::Note(id.to_owned())),
            Kind::Handout => self.to(&Page::Handout(id.to_owned())),
        }
    }

    /// The link to a record named in a text.
    pub fn link(&self, link: &Link) -> String {
        self.record(link.kind, &link.id)
    }

    /// The link to a block of a page of working.
    pub fn working(&self, place: &Place) -> String {
        let page = match &place.about {
            Some(Link { kind: Kind::Batch, id }) => Page::Batch(id.clone()),
            Some(Link { kind: Kind::Tree, id }) => {
                self.spots.get(id).map_or(Page::Working(place.topic), |spot| Page::WorkingTrees(Grove::holding(spot)))
            }
            _ => Page::Working(place.topic),
        };
        self.at(&page, &place.block)
    }

    /// The link to the working of a pairing.
    pub fn pairing(&self, mushroom: &str, wood: &str) -> String {
        self.at(&Page::WorkingPairings(mushroom.to_owned()), wood)
    }
}
