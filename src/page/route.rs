//! Where everything lies, seen from one page: relative links only.

use super::Page;
use crate::{
    reckon::formula::Place,
    record::{Kind, Link},
};

/// Links from one page to the others.
#[derive(Debug, Clone)]
pub struct Route {
    root: String,
    own: Option<String>,
}

impl Route {
    /// The links of the page at a path.
    ///
    /// ```
    /// use hostwood::page::{Page, route::Route};
    /// assert_eq!(Route::of("woods/red-oak.html").to(&Page::Pairings), "../pairings.html");
    /// ```
    #[must_use]
    pub fn of(path: &str) -> Self {
        Self { root: "../".repeat(path.matches('/').count()), own: Some(path.to_owned()) }
    }

    /// The links of a page from which a way leads to the top of the guide.
    #[must_use]
    pub const fn under(root: String) -> Self {
        Self { root, own: None }
    }

    /// The way from the page to the top of the guide.
    #[must_use]
    pub fn root(&self) -> &str {
        &self.root
    }

    /// The link to a page.
    #[must_use]
    pub fn to(&self, page: &Page) -> String {
        format!("{}{}", self.root, page.path())
    }

    /// The link to a place on a page; on its own page the anchor alone.
    #[must_use]
    pub fn at(&self, page: &Page, anchor: &str) -> String {
        let path = page.path();
        if self.own.as_ref() == Some(&path) { format!("#{anchor}") } else { format!("{}{path}#{anchor}", self.root) }
    }

    /// The link to a record.
    #[must_use]
    pub fn record(&self, kind: Kind, id: &str) -> String {
        match kind {
            Kind::Farm => self.to(&Page::Index),
            Kind::Mushroom => self.to(&Page::Mushroom(id.to_owned())),
            Kind::Wood => self.to(&Page::Wood(id.to_owned())),
            Kind::Strain => self.to(&Page::Strain(id.to_owned())),
            Kind::Method => self.to(&Page::Method(id.to_owned())),
            Kind::Evidence => self.to(&Page::Pairings),
            Kind::Window => self.at(&Page::Seasons, &format!("window-{id}")),
            Kind::Caution => self.at(&Page::Safety, &format!("caution-{id}")),
            Kind::Source => self.at(&Page::Sources, &format!("source-{id}")),
            Kind::Term => self.at(&Page::Terms, &format!("term-{id}")),
            Kind::Stand => self.to(&Page::Stand(id.to_owned())),
            Kind::Tree => self.working(&Place::tree(id)),
            Kind::Lot => self.at(&Page::Bucking, &format!("lot-{id}")),
            Kind::Plan => self.to(&Page::Supply),
            Kind::Batch => self.at(&Page::Batches, &format!("batch-{id}")),
            Kind::Diary => self.to(&Page::Batches),
            Kind::Harvest => self.to(&Page::Harvests),
            Kind::Trouble => self.to(&Page::Trouble(id.to_owned())),
            Kind::Note => self.to(&Page::Note(id.to_owned())),
            Kind::Handout => self.to(&Page::Handout(id.to_owned())),
        }
    }

    /// The link to a record named in a text.
    #[must_use]
    pub fn link(&self, link: &Link) -> String {
        self.record(link.kind, &link.id)
    }

    /// The link to a block of a page of working.
    #[must_use]
    pub fn working(&self, place: &Place) -> String {
        self.at(&Page::Working(place.topic), &place.block)
    }

    /// The link to the working of a pairing.
    #[must_use]
    pub fn pairing(&self, mushroom: &str, wood: &str) -> String {
        self.at(&Page::WorkingPairings(mushroom.to_owned()), wood)
    }
}
