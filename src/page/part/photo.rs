//! Photographs on a page.

use serde::Serialize;

use crate::book::Book;
use crate::page::Context;
use crate::page::route::Route;
use crate::read::picture::PHOTOS;
use crate::record::photo;

/// A photograph as a page shows it.
#[derive(Debug, Serialize)]
pub struct Photo {
    /// Where it lies, seen from the page.
    pub src: String,
    /// Its width and height, in pixels, so that nothing jumps when it comes.
    pub size: [u32; 2],
    /// What is to be seen on it.
    pub shows: String,
    /// When it was taken.
    pub date: Option<String>,
}

impl Photo {
    /// A picture by its path inside the farm, still without words.
    pub fn of(path: &str, book: &Book, route: &Route) -> Option<Self> {
        let picture = book.pictures.get(path)?;
        let size = [picture.width, picture.height];
        Some(Self { src: format!("{}{}", route.root(), picture.shown), size, shows: String::new(), date: None })
    }
}

/// The photographs that a record names.
pub fn all(photos: &[photo::Photo], context: &Context<'_>) -> Vec<Photo> {
    let one = |photo: &photo::Photo| {
        let shown = Photo::of(&format!("{PHOTOS}{}", photo.file), context.book, &context.route)?;
        let date = photo.date.map(|date| date.show(context.units()));
        Some(Photo { shows: photo.shows.clone(), date, ..shown })
    };
    photos.iter().filter_map(one).collect()
}
