//! Lists that grow with the farm, parted by year, and within a year into leaves that a telephone can hold.

use std::collections::BTreeMap;

use crate::book::{Book, Spot};

/// The most rows of a leaf.
pub const ROWS: usize = 60;
/// The most trees of a leaf of their working, each of which takes several lines.
const TREES: usize = 15;

/// Items in their order, parted so that no part has more than so many rows; an item stands whole, and one part there is always.
///
/// ```
/// use hostwood::page::leaf::packed;
/// assert_eq!(packed(vec![2, 2, 3, 9, 1], |rows| *rows, 4), [vec![2, 2], vec![3], vec![9], vec![1]]);
/// ```
pub fn packed<T>(items: Vec<T>, rows: impl Fn(&T) -> usize, most: usize) -> Vec<Vec<T>> {
    let mut parts = vec![Vec::new()];
    let mut room = most;
    for item in items {
        let needed = rows(&item);
        match parts.last_mut() {
            Some(part) if part.is_empty() || needed <= room => part.push(item),
            _ => {
                parts.push(vec![item]);
                room = most;
            }
        }
        room = room.saturating_sub(needed);
    }
    parts
}

/// A leaf: some rows of a year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Leaf {
    /// The year.
    pub year: i16,
    /// Which leaf of the year it is, counted from nought.
    pub number: usize,
}

impl Leaf {
    /// The leaves of years, by the year of each row; the first of a year stands where the year is asked for.
    ///
    /// ```
    /// use hostwood::page::leaf::{Leaf, ROWS};
    /// let years = std::iter::repeat_n(2026, ROWS + 1).chain([2027]);
    /// let paths: Vec<String> = Leaf::all(years).iter().map(|leaf| leaf.path("yard/years")).collect();
    /// assert_eq!(paths, ["yard/years/2026.html", "yard/years/2026-2.html", "yard/years/2027.html"]);
    /// ```
    pub fn all(years: impl IntoIterator<Item = i16>) -> Vec<Self> {
        let mut rows: BTreeMap<i16, usize> = BTreeMap::new();
        for year in years {
            *rows.entry(year).or_default() += 1;
        }
        rows.into_iter().flat_map(|(year, rows)| Self::of_year(year, rows)).collect()
    }

    /// The leaves of so many rows of a year.
    pub fn of_year(year: i16, rows: usize) -> impl Iterator<Item = Self> {
        (0..rows.div_ceil(ROWS)).map(move |number| Self { year, number })
    }

    /// The first leaf of a year.
    pub const fn first(year: i16) -> Self {
        Self { year, number: 0 }
    }

    /// Its path in a folder.
    pub fn path(self, folder: &str) -> String {
        match self.number {
            0 => format!("{folder}/{}.html", self.year),
            number => format!("{folder}/{}-{}.html", self.year, number + 1),
        }
    }

    /// A title with its part, where it is not the first.
    pub fn title(self, title: String) -> String {
        match self.number {
            0 => title,
            number => format!("{title}, part {}", number + 1),
        }
    }

    /// Its rows among all of its year.
    pub fn rows<T>(self, all: &[T]) -> &[T] {
        let from = all.len().min(self.number * ROWS);
        &all[from..all.len().min(from + ROWS)]
    }
}

/// A leaf of the working of trees: some trees of a stand, or of those that stand in none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grove {
    stand: Option<String>,
    number: usize,
}

impl Grove {
    /// The leaf on which a tree stands.
    pub fn holding(spot: &Spot) -> Self {
        Self { stand: spot.stand.clone(), number: spot.place / TREES }
    }

    /// All leaves.
    pub fn all(book: &Book) -> Vec<Self> {
        let leaves: BTreeMap<_, Self> =
            book.spots.values().map(|spot| ((&spot.stand, spot.place / TREES), Self::holding(spot))).collect();
        leaves.into_values().collect()
    }

    /// Its path; no id has a dot.
    pub fn path(&self) -> String {
        match (&self.stand, self.number + 1) {
            (Some(stand), 1) => format!("working/trees/{stand}.html"),
            (Some(stand), number) => format!("working/trees/{stand}.{number}.html"),
            (None, number) => format!("working/trees-{number}.html"),
        }
    }

    /// Its title: the stand, and its part where it is not the first.
    pub fn title(&self, book: &Book) -> String {
        let stand = self.stand.as_ref().and_then(|stand| book.stands.get(stand));
        let trees = stand.map_or("Trees without a stand", |stand| stand.record.name.as_str());
        let part = if self.number > 0 { format!(", part {}", self.number + 1) } else { String::new() };
        format!("Working: {trees}{part}")
    }

    /// Whether a tree stands on it.
    pub fn holds(&self, spot: &Spot) -> bool {
        *self == Self::holding(spot)
    }
}
